//! A stair that can be walked with a load: width, slope, and risers that match the going.
//!
//! ISO 14122-3: 600 <= going + 2 rises <= 660, 20 to 45 degrees; OSHA 29 CFR 1910.25: rise at most, going at least
//! 9.5 in, 30 to 50 degrees (all from memory).

use super::finding::{reaches, unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{amount, mm};
use crate::spec::pit::Access;
use crate::tables::access;
use crate::units::{Length, Unit};

/// Rise and going.
pub const RULE: Rule = Rule {
    id: "pit-stair",
    title: "Rise and going of the stair",
    what: "Slope of the stair and its going with two risers; under OSHA the rise and the going themselves.",
    why: "A stair of odd steps is stumbled on, most of all going down with hands full.",
    remedy: "Choose a going that makes going and two rises about 630 mm.",
    source: access::STAIR_STEP,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = case.foot.pit.as_ref().filter(|p| p.access == Access::Stair && p.way.steps > 1) else { return Vec::new() };
    let limits = case.access();
    let (rise, going) = (pit.way.rise, case.spec.pit.stair_going.value());
    let slope = rise.atan2(going).to_degrees();
    let [least, most] = access::STAIR_STEP_MM;
    let step = going + 2.0 * rise;
    let osha = access::STAIR_STEP_OSHA_MM;
    let steep = reaches(slope, limits.stair_min_deg.value) && within(slope, limits.stair_max_deg.value);
    let (flattest, steepest) = (amount(limits.stair_min_deg.value, Unit::Degree, 0), amount(limits.stair_max_deg.value, Unit::Degree, 0));
    let (even, source, message) = if case.us() {
        let message = say!(
            "{risers} risers of {rise} with a going of {going} slope {slope} and make {step}; asked for are {flattest} to {steepest}, at most {limit} of rise and at least {limit} of going",
            risers = pit.way.steps,
            rise = mm(rise),
            going = mm(going),
            slope = amount(slope, Unit::Degree, 1),
            step = mm(step),
            flattest = flattest,
            steepest = steepest,
            limit = mm(osha.value)
        );
        (within(rise, osha.value) && reaches(going, osha.value), osha.source, message)
    } else {
        let message = say!(
            "{risers} risers of {rise} with a going of {going} slope {slope} and make {step}; asked for are {flattest} to {steepest}, going and two rises from {least} to {most}",
            risers = pit.way.steps,
            rise = mm(rise),
            going = mm(going),
            slope = amount(slope, Unit::Degree, 1),
            step = mm(step),
            flattest = flattest,
            steepest = steepest,
            least = mm(least),
            most = mm(most)
        );
        (reaches(step, least) && within(step, most), access::STAIR_STEP, message)
    };
    let finding = RULE.finds(unless(steep && even, Verdict::Warn), "pit.stair_going", message).after(source);
    // The number that decides, with its limit.
    let finding = match (even, steep, case.us()) {
        (true, false, _) if slope < limits.stair_min_deg.value => finding.value(slope, Unit::Degree).limit(limits.stair_min_deg.value, Unit::Degree),
        (true, false, _) => finding.value(slope, Unit::Degree).limit(limits.stair_max_deg.value, Unit::Degree),
        (_, _, true) if within(rise, osha.value) => finding.value(going, Unit::Mm).limit(osha.value, Unit::Mm),
        (_, _, true) => finding.value(rise, Unit::Mm).limit(osha.value, Unit::Mm),
        (_, _, false) => finding.value(step, Unit::Mm).limit(if step < least { least } else { most }, Unit::Mm),
    };
    // Risers of 170 to 200 mm walk well everywhere; a shallow pit may need higher ones, which OSHA lets pass.
    let risers_of = |wanted_rise: f64| (pit.depth / wanted_rise - 1e-9).ceil().max(1.0);
    let going_for = |wanted_rise: f64| {
        let going = ((access::STAIR_STEP_WISH_MM - 2.0 * pit.depth / risers_of(wanted_rise)) / 5.0).round() * 5.0;
        if case.us() { going.max(access::STAIR_GOING_US_MM) } else { going }
    };
    let walks = |wanted_rise: f64| {
        let found = (pit.depth / risers_of(wanted_rise)).atan2(going_for(wanted_rise)).to_degrees();
        reaches(found, limits.stair_min_deg.value) && within(found, limits.stair_max_deg.value)
    };
    let rises: &[f64] = if case.us() { &[200.0, 210.0, 220.0, 230.0, 240.0] } else { &[200.0] };
    vec![case.mend(finding, |finding| match rises.iter().copied().find(|rise| walks(*rise)) {
        Some(rise) => finding.change("pit.stair_rise", &Length::mm(rise)).change("pit.stair_going", &Length::mm(going_for(rise))),
        None => finding,
    })]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, mended, proposed, worst};

    #[test]
    fn steps() {
        let base = [("pit.fitted", "true"), ("pit.access", "\"stair\""), ("pit.depth", "\"2000 mm\""), ("pit.stair_rise", "\"200 mm\"")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&base[..], more].concat());
        let iso = ("project.jurisdiction", "\"iso\"");
        // 200 + 200 + going: 600 and 660 are the limits; 45° wants a going of 200 or more.
        for (going, verdict) in [("\"200 mm\"", Verdict::Pass), ("\"199 mm\"", Verdict::Warn), ("\"260 mm\"", Verdict::Pass), ("\"261 mm\"", Verdict::Warn)] {
            assert_eq!(with(&[iso, ("pit.stair_going", going)]), Some(verdict), "{going}");
        }
        let us = ("project.jurisdiction", "\"us\"");
        for (going, verdict) in [("\"9.5 in\"", Verdict::Pass), ("\"9.4 in\"", Verdict::Warn)] {
            assert_eq!(with(&[us, ("pit.stair_going", going)]), Some(verdict), "{going}");
        }
        assert_eq!(worst(&RULE, &[("pit.fitted", "true"), ("pit.access", "\"ladder\"")]), None);
        // 2000 mm in 10 risers of 200, 630 − 400 of going; 2450 in 13 of 188.5: 253.1, to 5 mm; US: not under 255.
        let wish = |more: &[(&str, &str)]| proposed(&RULE, SMALL, &[&base[..], more].concat());
        let long = ("pit.stair_going", "\"300 mm\"");
        assert_eq!(wish(&[iso, long]), ["pit.stair_rise = \"200 mm\"", "pit.stair_going = \"230 mm\""]);
        assert_eq!(wish(&[iso, long, ("pit.depth", "\"2450 mm\"")]), ["pit.stair_rise = \"200 mm\"", "pit.stair_going = \"255 mm\""]);
        let short = ("pit.stair_going", "\"200 mm\"");
        assert_eq!(wish(&[us, short]), ["pit.stair_rise = \"200 mm\"", "pit.stair_going = \"255 mm\""]);
        mended(&RULE, SMALL, &[&base[..], &[us, short]].concat());
        // 650 mm in four risers under 200 would be too flat for OSHA with any going: three of 217 mm.
        let shallow = [us, ("pit.depth", "\"650 mm\""), ("pit.stair_going", "\"305 mm\""), ("pit.stair_rise", "\"165 mm\"")];
        assert_eq!(wish(&shallow), ["pit.stair_rise = \"220 mm\"", "pit.stair_going = \"255 mm\""]);
        mended(&RULE, SMALL, &[&base[..], &shallow].concat());
        mended(&RULE, SMALL, &[&base[..], &[iso, ("pit.stair_rise", "\"290 mm\"")]].concat());
        // The limit shown is the one that is passed: 600 below it, 660 above.
        let limit = |going: &str| findings_of(&RULE, SMALL, &[&base[..], &[iso, ("pit.stair_going", going)]].concat())[0].limit.unwrap().value;
        assert_eq!((limit("\"190 mm\""), limit("\"300 mm\"")), (600.0, 660.0));
    }
}
