//! The foot empties: the clean-outs begin where the bottom lies, so that nothing stays behind a sill.
//!
//! Geometry of the casing. What lies under the bucket tips with a new belt is another matter; here it is what no rake brings over the sill.

use super::finding::{unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::foot_heights::OVER_EDGE;
use crate::model::openings::{Opening, OpeningKind};
use crate::say;
use crate::say::{amount, mm};
use crate::sources::Source;
use crate::spec::openings::Wall;
use crate::units::{Length, Unit};

/// Sills of the clean-outs.
pub const RULE: Rule = Rule {
    id: "empties-clean",
    title: "Emptied to the bottom",
    what: "Whether the sill of a clean-out lies level with the bottom where it meets the end plate, and how many litres stay below the lower of the sills.",
    why: "What stays behind a sill is never moved: it rots, breeds insects, sours the next batch, and bridges into what is fed later.",
    remedy: "Higher feet under a flat bottom, so that the frame of the clean-out stands below it; over a rolled bottom rake the rest up.",
    source: Source::practice("no corner in which product stays for ever: clean-outs level with the bottom"),
    check,
};

/// A sill no higher than this over the bottom is level with it, mm: a rake passes.
const LEVEL: f64 = 2.0;
/// In how many strips the bottom is summed up.
const STRIPS: u32 = 200;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let foot = case.foot;
    let cleans: Vec<&Opening> = foot.openings.iter().filter(|o| o.kind == OpeningKind::CleanOut).collect();
    let Some(lowest) = cleans.iter().map(|o| o.up.low).reduce(f64::min) else { return Vec::new() };
    let c = &foot.casing;
    let litres = below(case, lowest);
    let of = |o: &&Opening| {
        let (edge, out) = if o.wall == Wall::UpEnd { (c.up_shoulder, "up end") } else { (c.down_shoulder, "down end") };
        let over = (o.up.low - edge).max(0.0);
        let path = o.id.as_str();
        if c.bottom_radius.is_some() {
            let said = say!(
                "the clean-out in the {end} begins {over} over the end of the rolled bottom; below the lower sill stay {litres}, which are raked up over it",
                end = out,
                over = mm(over),
                litres = amount(litres, Unit::L, 1)
            );
            return RULE.finds(Verdict::Note, path, said);
        }
        let said = say!(
            "the clean-out in the {end} begins {over} over the bottom, level with it up to {least}; below the lower sill stay {litres}",
            end = out,
            over = mm(over),
            least = mm(LEVEL),
            litres = amount(litres, Unit::L, 1)
        );
        // The frame laps under the opening and stands clear of the floor.
        let feet = up_to(foot.lap + OVER_EDGE - c.bottom_plate, 5.0).max(case.spec.casing.feet.value());
        let finding = RULE.finds(unless(within(over, LEVEL), Verdict::Warn), path, said).value(over, Unit::Mm).limit(LEVEL, Unit::Mm);
        finding.change("casing.feet", &Length::mm(feet))
    };
    cleans.iter().map(of).collect()
}

/// Litres in the casing below a height.
fn below(case: &Case<'_>, level: f64) -> f64 {
    let c = &case.foot.casing;
    let (from, to) = (c.down_x(level), c.up_face);
    let step = (to - from) / f64::from(STRIPS);
    let area: f64 = (0..STRIPS).map(|i| (level - c.lower_edge(from + (f64::from(i) + 0.5) * step)).max(0.0) * step).sum();
    area * c.width.size() * 1e-6
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, machine, mended, worst, worst_of};

    #[test]
    fn level_with_a_flat_bottom() {
        let flat = ("casing.bottom", "\"flat\"");
        assert_eq!(worst(&RULE, &[flat]), Some(Verdict::Pass));
        // The frame stands over the floor: on feet of 20 mm the opening begins over the bottom.
        let low = [flat, ("casing.feet", "\"20 mm\""), ("take_up.travel", "\"230 mm\"")];
        assert_eq!(worst(&RULE, &low), Some(Verdict::Warn));
        mended(&RULE, SMALL, &low);
        assert_eq!(worst(&RULE, &[("clean_out.up", "false"), ("clean_out.down", "false")]), None);
    }

    /// A rolled bottom holds what lies under the sill: the segment of its circle, by hand.
    #[test]
    fn a_rolled_bottom_is_told() {
        assert_eq!(worst_of(&RULE, LARGE, &[("casing.bottom", "\"curved\"")]), Some(Verdict::Note));
        let curved = [("casing.bottom", "\"curved\""), ("casing.bottom_clearance", "\"40 mm\"")];
        let (_, foot, _) = machine(SMALL, &curved);
        let c = &foot.casing;
        let found = findings_of(&RULE, SMALL, &curved);
        assert!(found[0].message.plainly().contains("raked up over it"), "{found:#?}");
        let sill = foot.openings.iter().filter(|o| o.kind == OpeningKind::CleanOut).map(|o| o.up.low).fold(f64::INFINITY, f64::min);
        let (r, deep) = (c.bottom_radius.unwrap(), sill - c.bottom_face);
        // The whole segment and the strips beside it are more than the litres under the arc alone.
        let half = ((r - deep) / r).acos();
        let segment = r * r * (half - half.sin() * half.cos()) * c.width.size() * 1e-6;
        let told = sum_of(&found[0]);
        assert!(told > 0.5 * segment && told < 1.5 * segment, "{told} {segment}");
    }

    fn sum_of(finding: &Finding) -> f64 {
        finding
            .message
            .values
            .iter()
            .find_map(|(name, v)| match v {
                crate::say::Value::Amount(a) if *name == "litres" => Some(a.value),
                _ => None,
            })
            .unwrap()
    }
}
