//! Every item of the parts list has a balloon on some view and every balloon is an item; every seam of the weld list has its
//! sign on a view and every sign is a seam.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::job::Job;
use footwell::paper::sheet::SheetPlan;
use footwell::paper::view::Item;
use std::collections::BTreeSet;

const STARTERS: [(&str, &str); 5] = [
    ("grain_intake", include_str!("../templates/grain_intake.toml")),
    ("pellets", include_str!("../templates/pellets.toml")),
    ("survey", include_str!("../templates/survey.toml")),
    ("tall_bend", include_str!("../templates/tall_bend.toml")),
    ("us_units", include_str!("../templates/us_units.toml")),
];

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
