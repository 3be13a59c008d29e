//! The foot hangs on lugs that bear its mass, two of four carrying all, with the flattest sling allowed.
//!
//! Mass and centre of gravity are summed from the bodies. Eyes, roots and seams are held against twice and three
//! times the load (EN 13155, from memory); the shackle against its working load limit. The end plate is not judged: the side plate stands
//! behind the lug.

use super::finding::{unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::lifting::Lugs;
use crate::formulas::lifting::{DESIGN, SLING, level_n, upright_n};
use crate::model::lifting::{Breaks, Lug, Pull};
use crate::say;
use crate::say::{amount, mm};
use crate::spec::project::Status;
use crate::tables::shackles;
use crate::units::{Angle, Length, Mass, Unit};

/// Lifting points.
pub const RULE: Rule = Rule {
    id: "lifting-points",
    title: "Lifting points",
    what: "Whether the foot has lugs for its mass: pin, tear-out and splitting at the eye, bending across the plate by the slope of the sling, seams, shackle; two of four legs carry all.",
    why: "Whoever finds no lug puts the sling round a throat, a door frame or a bearing; what is not made for it bends, tears off or lets the load fall.",
    remedy: "Fit lugs; a thicker or higher lug, the next shackle, or steeper slings.",
    source: DESIGN,
    check,
};

/// More than this nobody lifts alone, kg (ISO 11228-1 reference mass, from memory).
const BY_HAND: f64 = 25.0;

/// A stronger lug is heavier itself: what it is sized for over what is there, share.
const OWN_MASS: f64 = 1.02;

/// Share of the mass on one lug where none stands yet.
const ROUGHLY: f64 = 0.6;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let lifting = &case.results.lifting;
    let kg = lifting.lifted.kg;
    let Some(lugs) = &lifting.lugs else {
        let survey = *case.spec.project.status == Status::Survey;
        let verdict = match (kg > BY_HAND, survey) {
            (false, _) => Verdict::Pass,
            (true, true) => Verdict::Note,
            (true, false) => Verdict::Warn,
        };
        let said = say!("the foot of {mass} has no lifting point", mass = amount(kg, Unit::Kg, 0));
        let finding = RULE.finds(verdict, "lifting.lugs", said).change("lifting.lugs", &true);
        // Lugs that are wanted, but too thick for the room between the flange's bolts.
        return vec![case.mend(finding, |finding| match &case.foot.lug {
            Some(lug) => sized(lug, roughly(case), case.spec.lifting.angle.value(), finding),
            None => finding,
        })];
    };
    let seams = [Breaks::WallSeam, Breaks::FlangeSeam];
    let plate = Breaks::ALL.into_iter().filter(|b| !seams.contains(b));
    let mut all = vec![about(case, lugs, plate, "lifting.thickness"), about(case, lugs, seams, "lifting.height")];
    all.push(shackle(case, lugs));
    if lugs.share > 1.0 {
        all.push(RULE.finds(Verdict::Fail, "lifting.lugs", "the centre of gravity lies outside the lugs: the foot tips when it is lifted"));
    }
    all
}

/// What of some ways to break is used up most.
fn about(case: &Case<'_>, lugs: &Lugs, ways: impl IntoIterator<Item = Breaks>, key: &'static str) -> Finding {
    let of = |breaks: Breaks| Breaks::ALL.iter().zip(lugs.mpa).find(|(b, _)| **b == breaks).map_or(0.0, |(_, mpa)| mpa);
    let used = |b: &Breaks| of(*b) / b.allowed_mpa();
    let worst = ways.into_iter().max_by(|a, b| used(a).total_cmp(&used(b))).unwrap_or(Breaks::Bearing);
    let (mpa, allowed) = (of(worst), worst.allowed_mpa());
    let finding = RULE
        .finds(
            unless(within(mpa, allowed), Verdict::Fail),
            key,
            say!(
                "{mass} on two of four legs at {angle} pull {pull} at a lug of {thickness} × {height}: {stress} ({part}), {allowed} are allowed",
                mass = amount(case.results.lifting.lifted.kg, Unit::Kg, 0),
                angle = amount(case.spec.lifting.angle.value(), Unit::Degree, 0),
                pull = amount(lugs.pull.whole() / 1000.0, Unit::Kn, 1),
                thickness = mm(lugs.lug.thickness),
                height = mm(lugs.lug.height),
                stress = amount(mpa, Unit::Mpa, 0),
                part = worst.named(),
                allowed = amount(allowed, Unit::Mpa, 0)
            ),
        )
        .value(mpa, Unit::Mpa)
        .limit(allowed, Unit::Mpa);
    stronger(case, lugs, finding)
}

/// The shackle, by its limit and its jaw.
fn shackle(case: &Case<'_>, lugs: &Lugs) -> Finding {
    let (lug, kg) = (&lugs.lug, lugs.on_shackle_kg());
    let limit = lug.shackle.limit_kg;
    let finding = if lug.in_jaw() {
        let said = say!(
            "a sling pulls as {load} at its shackle, whose working load limit is {limit}",
            load = amount(kg, Unit::Kg, 0),
            limit = amount(limit, Unit::Kg, 0)
        );
        RULE.finds(unless(within(kg, limit), Verdict::Fail), "lifting.shackle", said).value(kg, Unit::Kg).limit(limit, Unit::Kg).after(SLING)
    } else {
        let said = say!("a lug of {thickness} does not go into its shackle, which is {jaw} wide", thickness = mm(lug.thickness), jaw = mm(lug.shackle.jaw_mm));
        RULE.finds(Verdict::Fail, "lifting.shackle", said).after(shackles::SOURCE)
    };
    stronger(case, lugs, finding)
}

/// A pull on one lug where none stands, N: rather too much.
fn roughly(case: &Case<'_>) -> Pull {
    let up = upright_n(case.results.lifting.lifted.kg, ROUGHLY);
    let level = level_n(up, case.spec.lifting.angle.value().to_radians());
    Pull { up, along: level / 2.0, toward: level }
}

/// With the sizes of the lightest lug that holds, as far as they differ.
fn stronger(case: &Case<'_>, lugs: &Lugs, finding: Finding) -> Finding {
    case.mend(finding, |finding| sized(&lugs.lug, lugs.most.times(OWN_MASS), case.spec.lifting.angle.value(), finding))
}

/// The same for a pull with slings at this angle; with steeper ones where no lug holds it.
fn sized(lug: &Lug, most: Pull, now: f64, mut finding: Finding) -> Finding {
    let at = |degrees: f64| {
        let flatter = now.to_radians().tan() / degrees.to_radians().tan();
        lug.for_pull(&Pull { along: most.along * flatter, toward: most.toward * flatter, ..most }).map(|lug| (degrees, lug))
    };
    let steeper = [now, 70.0, 80.0].into_iter().filter(|degrees| *degrees >= now).find_map(at);
    let Some((degrees, strong)) = steeper else { return finding };
    for (key, now, then) in [("lifting.thickness", lug.thickness, strong.thickness), ("lifting.height", lug.height, strong.height)] {
        if (now - then).abs() > 1e-6 {
            finding = finding.change(key, &Length::mm(then));
        }
    }
    if degrees > now {
        finding = finding.change("lifting.angle", &Angle::deg(degrees));
    }
    if (lug.shackle.limit_kg - strong.shackle.limit_kg).abs() > 1e-6 {
        finding = finding.change("lifting.shackle", &Mass::kg(strong.shackle.limit_kg));
    }
    finding
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, machine, mended, worst, worst_of};

    #[test]
    fn no_lugs_and_weak_ones() {
        assert_eq!([worst(&RULE, &[]), worst_of(&RULE, LARGE, &[])], [Some(Verdict::Pass); 2]);
        assert_eq!(worst(&RULE, &[("lifting.lugs", "false")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("project.status", "\"survey\"")]), Some(Verdict::Note));
        mended(&RULE, SMALL, &[("lifting.lugs", "false")]);
        for (key, weak) in [("lifting.thickness", "\"5 mm\""), ("lifting.height", "\"60 mm\""), ("lifting.shackle", "\"500 kg\"")] {
            assert_eq!(worst_of(&RULE, LARGE, &[(key, weak)]), Some(Verdict::Fail), "{key}");
            mended(&RULE, LARGE, &[(key, weak)]);
        }
    }

    /// Steeper slings pull less sideways; a lug that is too thick for its shackle says so.
    #[test]
    fn slope_and_jaw() {
        let sized = [("lifting.thickness", "\"10 mm\""), ("lifting.height", "\"120 mm\""), ("lifting.shackle", "\"750 kg\"")];
        let at = |angle: &str| machine(SMALL, &[&sized[..], &[("lifting.angle", angle)]].concat()).2.lifting.lugs.unwrap();
        let [flat, usual, steep] = ["\"50 deg\"", "\"60 deg\"", "\"75 deg\""].map(at);
        let bending = |l: &Lugs| l.mpa[Breaks::ALL.iter().position(|b| *b == Breaks::Bending).unwrap()];
        assert!(bending(&flat) > bending(&usual) && bending(&usual) > bending(&steep) && flat.hook_mm < usual.hook_mm);
        let found = findings_of(&RULE, SMALL, &[("lifting.thickness", "\"20 mm\"")]);
        assert!(found.iter().any(|f| f.verdict == Verdict::Fail && f.message.plainly().contains("does not go into its shackle")), "{found:#?}");
        mended(&RULE, SMALL, &[("lifting.thickness", "\"20 mm\"")]);
        // So thick that no place is left for it between the flange's bolts.
        assert_eq!(worst(&RULE, &[("lifting.thickness", "\"80 mm\"")]), Some(Verdict::Warn));
        mended(&RULE, SMALL, &[("lifting.thickness", "\"80 mm\"")]);
    }

    /// The mass is that of the bodies with bolts and bearings, and the guess that sized the lugs was not under it.
    #[test]
    fn the_guess_was_on_the_heavy_side() {
        for text in [SMALL, LARGE] {
            let (_, _, results) = machine(text, &[]);
            assert!((results.lifting.lifted.kg - results.masses.foot_empty_kg).abs() < 1e-6);
            let lugs = results.lifting.lugs.unwrap();
            assert!((0.5..0.65).contains(&lugs.share) && lugs.number == 4, "{lugs:?}");
        }
    }
}
