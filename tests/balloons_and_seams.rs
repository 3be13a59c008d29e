//! Every item of the parts list has a balloon on some view and every balloon is an item; every seam of the weld list has its
//! sign on a view and every sign is a seam; seams are as long as the bodies touch.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::job::Job;
use footwell::machine::seams::{Seam, seams};
use footwell::paper::sheet::SheetPlan;
use footwell::paper::view::Item;
use footwell::parts::Weld;
use footwell::solid::touch::Run;
use std::collections::BTreeSet;

const STARTERS: [(&str, &str); 5] = [
    ("grain_intake", include_str!("../templates/grain_intake.toml")),
    ("pellets", include_str!("../templates/pellets.toml")),
    ("survey", include_str!("../templates/survey.toml")),
    ("tall_bend", include_str!("../templates/tall_bend.toml")),
    ("us_units", include_str!("../templates/us_units.toml")),
];

/// A seam runs on one side of a plate or round it, the bodies touch on both sides: of what they touch a seam takes from
/// a little under a half to all.
const OF_CONTACT: std::ops::RangeInclusive<f64> = 0.4..=1.1;
/// A run no longer than this is the end of a plate, which is left open, mm.
const END: f64 = 10.5;

/// What stands in one of two lists and not in the other.
fn apart(what: &str, listed: &BTreeSet<String>, shown: &[String]) -> Vec<String> {
    let drawn: BTreeSet<String> = shown.iter().cloned().collect();
    let missing = listed.difference(&drawn).map(|n| format!("{what} {n} is listed and on no view"));
    missing.chain(drawn.difference(listed).map(|n| format!("{what} {n} is on a view and not listed"))).collect()
}

fn items(plans: &[SheetPlan]) -> impl Iterator<Item = &Item> {
    plans.iter().flat_map(|p| &p.views).flat_map(|v| &v.draft.items)
}

fn balloons(plans: &[SheetPlan]) -> Vec<String> {
    items(plans).filter_map(|i| if let Item::Balloon { item, .. } = i { Some(item.clone()) } else { None }).collect()
}

fn signs(plans: &[SheetPlan]) -> Vec<String> {
    items(plans).filter_map(|i| if let Item::Weld { weld, .. } = i { Some(&weld.seams) } else { None }).flatten().map(u32::to_string).collect()
}

/// Seams whose listed length is not what the bodies touch.
fn wrong_lengths(welds: &[Weld], found: &[Seam]) -> Vec<String> {
    let touching = |s: &Seam| s.runs.iter().map(Run::length).filter(|length| *length > END).sum::<f64>();
    // A rim in two pieces has its seam and its splice between the same two: both run where both touch.
    let listed = |w: &Weld, s: &Seam| {
        let same = |(other, run): &(&Weld, &Seam)| other.of == w.of && !other.fillet && !w.fillet && (touching(run) - touching(s)).abs() < 1.0;
        if w.fillet { w.length } else { welds.iter().zip(found).filter(same).map(|(other, _)| other.length).sum() }
    };
    let share = |w: &Weld, s: &Seam| listed(w, s) / touching(s).max(1e-9);
    let wrong = welds.iter().zip(found).filter(|(w, s)| !OF_CONTACT.contains(&share(w, s)));
    wrong.map(|(w, s)| format!("seam {} of {}: {:.0} mm listed, bodies touch over {:.0} mm", w.number, w.of, w.length, touching(s))).collect()
}

#[test]
fn every_item_and_every_seam_stands_on_a_view() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        let plans = job.plans();
        let items: BTreeSet<String> = job.parts().items.iter().map(|p| p.item.to_string()).collect();
        let numbers: BTreeSet<String> = job.parts().welds.iter().map(|w| w.number.to_string()).collect();
        let (mut balloons, mut signs) = (balloons(plans), signs(plans));
        let found: Vec<String> = apart("item", &items, &balloons).into_iter().chain(apart("weld", &numbers, &signs)).collect();
        assert!(found.is_empty(), "{name}: {found:#?}");
        // A list that lacks one, and one too many, are found.
        let gone = balloons.pop().unwrap();
        balloons.retain(|b| *b != gone);
        balloons.push("9999".into());
        assert_eq!(apart("item", &items, &balloons).len(), 2);
        let gone = signs.pop().unwrap();
        signs.retain(|s| *s != gone);
        signs.push("9999".into());
        assert_eq!(apart("weld", &numbers, &signs).len(), 2);
    }
}

#[test]
fn seams_are_as_long_as_the_bodies_touch() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        let welds = job.parts().welds.clone();
        let found = seams(job.machine(), &welds);
        assert_eq!(wrong_lengths(&welds, &found), Vec::<String>::new(), "{name}");
        if name == "survey" {
            // A length three times too long, and parts that do not touch.
            let mut planted = welds;
            planted[0].length *= 3.0;
            planted[1].joins = [vec!["foot.pad".into()], vec!["top_flange".into()]];
            assert_eq!(wrong_lengths(&planted, &seams(job.machine(), &planted)).len(), 2);
        }
    }
}
