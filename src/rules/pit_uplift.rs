//! The empty pit does not float when the groundwater stands around it.
//!
//! Concrete and buoyant soil over the toe against the displaced water (one bookkeeping, both sides). At
//! least 1.11 (EN 1997-1 UPL, from memory) or 1.25 (ACI 350.4R, from memory). Where the building holds the heads, belts pull besides; a
//! blocked foot is an accident, for which 1.0 will do. The engineer decides.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::assumed::{CONCRETE_WEIGHT, WATER_WEIGHT};
use crate::formulas::uplift::{self, Bookkeeping};
use crate::model::pit::PitBody;
use crate::say;
use crate::say::{amount, mm, n};
use crate::units::{GRAVITY, Length, Unit};

/// Uplift of the empty pit.
pub const RULE: Rule = Rule {
    id: "pit-uplift",
    title: "Uplift of the empty pit",
    what: "Weight of concrete and of the buoyant soil over the toe against the uplift of the empty pit, where groundwater is given.",
    why: "An empty pit below the groundwater floats up with the foot in it, mostly while it is being built.",
    remedy: "A thicker slab or a wider toe; anchors or drainage are the structural engineer's to choose.",
    source: uplift::EN_1997,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let Some(balance) = case.results.pit.as_ref().and_then(|p| p.uplift.as_ref()) else { return Vec::new() };
    let (limit, source) = if case.us() { (uplift::REQUIRED_ACI_350, uplift::ACI_350) } else { (uplift::REQUIRED_EN_1997, uplift::EN_1997) };
    let factor = balance.with_soil.factor();
    let water = case.spec.pit.groundwater.value.map_or(0.0, |w| w.value());
    if !factor.is_finite() {
        return vec![
            RULE.finds(Verdict::Pass, "pit.groundwater", say!("the groundwater {level} below the floor does not reach the pit's base", level = mm(water)))
                .after(source),
        ];
    }
    let finding = RULE
        .finds(
            unless(reaches(factor, limit), Verdict::Warn),
            "pit.slab",
            say!(
                "with the groundwater {level} below the floor the empty pit is held down {factor} times by concrete and soil ({concrete} times by concrete alone); {limit} is asked for",
                level = mm(water),
                factor = n(factor, 2),
                concrete = n(balance.concrete.factor(), 2),
                limit = n(limit, 2)
            ),
        )
        .value(factor, Unit::One)
        .limit(limit, Unit::One)
        .after(source);
    // Accidents are judged without a factor. One slab holds against all of it.
    let [lasting, accident] = balance.pulled_kn;
    let demands = [(0.0, limit), (lasting, limit), (accident, 1.0)];
    let held = |finding: Finding| {
        case.mend(finding, |finding| match heavier(case, pit, water, &demands) {
            Some((slab, toe)) => finding.change("pit.slab", &Length::mm(slab)).change("pit.toe", &Length::mm(toe)),
            None => finding,
        })
    };
    let mut all = vec![held(finding)];
    let pulled = [(balance.factor_pulled(), lasting, limit, false), (balance.factor_blocked(), accident, 1.0, true)];
    for (factor, pull, limit, blocked) in pulled.into_iter().filter(|p| p.1 > 0.0) {
        let (pull_shown, factor_shown, asked) = (amount(pull, Unit::KnOnBuilding, 1), n(factor, 2), n(limit, 2));
        let said = if blocked {
            say!(
                "where the building holds the head and one foot is blocked, belts pull the pit up by {pull} besides: it is held down {factor} times, {limit} is asked for",
                pull = pull_shown,
                factor = factor_shown,
                limit = asked
            )
        } else {
            say!(
                "where the building holds the head, belts pull the pit up by {pull} besides in running or starting: it is held down {factor} times, {limit} is asked for",
                pull = pull_shown,
                factor = factor_shown,
                limit = asked
            )
        };
        let finding = RULE.finds(unless(reaches(factor, limit), Verdict::Warn), "pit.slab", said).value(factor, Unit::One).limit(limit, Unit::One);
        all.push(held(finding.after(if blocked { uplift::ACCIDENTAL } else { source })));
    }
    all
}

/// The thinnest slab, and then the narrowest toe, in steps of 50 mm that hold the pit down against water and
/// each pull in kN with the factor asked for.
fn heavier(case: &Case<'_>, pit: &PitBody, water: f64, demands: &[(f64, f64)]) -> Option<(f64, f64)> {
    let held = |slab: f64, toe: f64| {
        let trial = uplift::Pit {
            inner_length_mm: pit.x.size(),
            inner_width_mm: pit.y.size(),
            depth_mm: pit.depth,
            wall_mm: pit.wall,
            base_mm: slab,
            toe_mm: toe,
            water_below_ground_mm: water,
            concrete_kn_per_m3: CONCRETE_WEIGHT.value,
            dry_soil_kn_per_m3: case.spec.pit.soil_density.value() * GRAVITY,
            wet_soil_kn_per_m3: case.spec.pit.soil_density_wet.value() * GRAVITY,
            water_kn_per_m3: WATER_WEIGHT.value,
        };
        let balance = trial.balance(Bookkeeping::BuoyantSoil);
        demands.iter().all(|(pull_kn, limit)| reaches(uplift::factor(balance.weight_kn, balance.uplift_kn + pull_kn), limit * 1.002))
    };
    let steps = |from: f64, to: f64| (0..=((to - from) / 50.0) as u32).map(move |i| from + 50.0 * f64::from(i));
    // A slab of twice its thickness, then a toe: what a designer would try first.
    let thickest = (2.0 * pit.slab).min(2500.0);
    steps(pit.slab, thickest).map(|slab| (slab, pit.toe)).chain(steps(pit.toe, 3000.0).map(|toe| (thickest, toe))).find(|(slab, toe)| held(*slab, *toe))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, machine, mended, proposed, worst};

    /// The slab proposed is the thinnest in steps of 50 mm: by hand, boxes of concrete over the water displaced.
    #[test]
    fn a_slab_that_holds() {
        let pit = [
            ("pit.fitted", "true"),
            ("pit.depth", "\"3 m\""),
            ("pit.groundwater", "\"750 mm\""),
            ("pit.slab", "\"300 mm\""),
            ("pit.wall", "\"250 mm\""),
            ("pit.toe", "\"0 mm\""),
        ];
        let after = mended(&RULE, SMALL, &pit);
        let limit = after[0].limit.unwrap().value;
        let (_, foot, _) = machine(SMALL, &pit);
        let p = foot.pit.unwrap();
        let outer = (p.x.size() / 1000.0 + 0.5) * (p.y.size() / 1000.0 + 0.5);
        let walls = (outer - p.x.size() * p.y.size() / 1e6) * 3.0;
        let factor = |slab: f64| 24.0 * (walls + outer * slab) / (9.81 * outer * (2.25 + slab));
        let slab = (6..=12).map(|i| 0.05 * f64::from(i)).find(|s| factor(*s) >= limit * 1.002).unwrap();
        assert_eq!(proposed(&RULE, SMALL, &pit).first(), Some(&format!("pit.slab = \"{:.0} mm\"", slab * 1000.0)));
        // Where twice the slab is not enough the toe takes soil along.
        let high = [&pit[..], &[("pit.groundwater", "\"0 mm\""), ("pit.slab", "\"200 mm\"")]].concat();
        mended(&RULE, SMALL, &high);
        let lines = proposed(&RULE, SMALL, &high);
        assert!(lines[0] == "pit.slab = \"400 mm\"" && lines[1].starts_with("pit.toe = "), "{lines:?}");
    }

    #[test]
    fn floating_and_held() {
        let pit = [("pit.fitted", "true"), ("pit.depth", "\"3 m\""), ("project.jurisdiction", "\"iso\"")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&pit[..], more].concat());
        assert_eq!(with(&[]), None);
        assert_eq!(with(&[("pit.groundwater", "\"9 m\"")]), Some(Verdict::Pass));
        let thin = [("pit.groundwater", "\"0 mm\""), ("pit.slab", "\"100 mm\""), ("pit.wall", "\"100 mm\""), ("pit.toe", "\"0 mm\"")];
        assert_eq!(with(&thin), Some(Verdict::Warn));
        // The limit lies between two steps of groundwater: the factor decides, nothing else.
        let mut seen = [false, false];
        for water in (0..3500).step_by(100) {
            let level = format!("\"{water} mm\"");
            let found = findings_of(&RULE, SMALL, &[&pit[..], &thin[1..], &[("pit.groundwater", level.as_str())]].concat());
            let factor = found[0].value.map_or(f64::INFINITY, |v| v.value);
            assert_eq!(found[0].verdict == Verdict::Pass, factor >= 1.0 / 0.9, "{water} {factor}");
            seen[usize::from(found[0].verdict == Verdict::Pass)] = true;
        }
        assert_eq!(seen, [true, true]);
    }
}
