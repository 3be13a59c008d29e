//! Walks every sheet of every starter spec.
#![allow(clippy::unwrap_used, clippy::panic)]

use super::spec_lengths::{BUILT_LARGER, Shown, account, is_length};
use super::{ALL, Subject, plans};
use crate::model::{Foot, build_model};
use crate::paper::ink::DefectKind;
use crate::paper::sheet::SheetPlan;
use crate::paper::view::Item;
use crate::settle::settle;
use crate::spec::sheet::{Hand, Language, Projection};
use crate::spec::{Spec, load};
use crate::units::Quantity;
use std::collections::BTreeSet;

const STARTERS: [(&str, &str); 5] = [
    ("grain_intake", include_str!("../../templates/grain_intake.toml")),
    ("tall_bend", include_str!("../../templates/tall_bend.toml")),
    ("pellets", include_str!("../../templates/pellets.toml")),
    ("us_units", include_str!("../../templates/us_units.toml")),
    ("survey", include_str!("../../templates/survey.toml")),
];

fn starter(text: &str) -> (Spec, Foot) {
    let (asked, read) = load(text);
    assert!(!read.has_errors(), "{read:?}");
    let (spec, problems) = settle(&asked);
    assert!(!problems.has_errors(), "{problems:?}");
    let foot = build_model(&spec).unwrap();
    (spec, foot)
}

fn with_job<T>(spec: &Spec, foot: &Foot, look: impl FnOnce(&Subject<'_>) -> T) -> T {
    let results = crate::analysis::analyse(spec, foot);
    let findings = crate::rules::check(spec, foot, &results);
    let parts = crate::parts::build_parts(spec, foot);
    look(&Subject::new(spec, foot, &results, &findings, &parts))
}

#[test]
fn every_length_of_the_spec_is_shown_or_listed() {
    let mut missing = Vec::new();
    for (name, text) in STARTERS {
        let (spec, foot) = starter(text);
        with_job(&spec, &foot, |subject| {
            for line in account(subject, &super::lay_out(subject)) {
                if line.shown == Shown::Missing {
                    missing.push(format!("{name}: {} = {} is on no sheet", line.path, line.value));
                }
            }
        });
    }
    assert!(missing.is_empty(), "{missing:#?}");
}

/// A dimension that carries the path of a spec value shows that value.
#[test]
fn dimensions_with_a_spec_path_show_the_spec_value() {
    for (name, text) in STARTERS {
        let (spec, foot) = starter(text);
        let lines = spec.settled_lines();
        with_job(&spec, &foot, |subject| {
            for plan in plans(subject) {
                for d in plan.views.iter().flat_map(|v| &v.draft.dimensions) {
                    let Some(line) = lines.iter().find(|l| l.path == d.key && is_length(&l.path)) else { continue };
                    let asked = crate::units::Length::parse(line.value.trim_matches('"')).unwrap();
                    let more = d.value() - asked.value();
                    let widened = BUILT_LARGER.contains(&d.key.as_str())
                        && matches!(line.origin, crate::spec::reader::Origin::Default { .. })
                        && (0.0..spec.pit.module.value.value()).contains(&more);
                    assert!(
                        widened || (asked.value() - d.value()).abs() < 0.05,
                        "{name}, {}: {} is drawn as {} but settled as {}",
                        plan.id,
                        d.key,
                        d.value(),
                        line.value
                    );
                }
            }
        });
    }
}

#[test]
fn dimensions_tell_the_model_value() {
    for (name, text) in STARTERS {
        let (spec, foot) = starter(text);
        with_job(&spec, &foot, |subject| {
            for plan in plans(subject) {
                for d in plan.views.iter().flat_map(|v| &v.draft.dimensions) {
                    if let Some(f) = foot.feature(&d.key) {
                        assert!((f.value - d.value()).abs() < 1e-6, "{name}, {}: {} is drawn as {} but is {}", plan.id, d.key, d.value(), f.value);
                    }
                }
            }
        });
    }
}

#[test]
fn no_feature_is_dimensioned_twice_on_a_sheet() {
    for (name, text) in STARTERS {
        let (spec, foot) = starter(text);
        with_job(&spec, &foot, |subject| {
            for plan in plans(subject) {
                let mut seen = BTreeSet::new();
                for d in plan.views.iter().flat_map(|v| &v.draft.dimensions) {
                    assert!(seen.insert(d.key.clone()), "{name}, {}: {} stands twice", plan.id, d.key);
                }
            }
        });
    }
}

#[test]
fn the_list_of_sheets_is_sound() {
    for (i, k) in ALL.iter().enumerate() {
        assert!(k.title.chars().count() <= 25, "{}", k.title);
        assert!(ALL.iter().skip(i + 1).all(|o| o.id != k.id));
    }
    for (name, text) in STARTERS {
        let (spec, foot) = starter(text);
        with_job(&spec, &foot, |subject| {
            for (kind, plan) in ALL.iter().filter(|k| (k.applies)(subject)).zip(plans(subject)) {
                assert_eq!(kind.id, plan.id, "{name}");
                assert_eq!(kind.title, plan.title, "{name}");
                assert_eq!(kind.document_type, plan.document_type, "{name}");
            }
        });
    }
}

#[test]
fn the_other_hand_changes_no_value() {
    let (mut spec, foot) = starter(STARTERS[1].1);
    // Plates are drawn as they are cut, and a machine of the other hand is cut mirrored: those are left out.
    let machine = |spec: &Spec| {
        with_job(spec, &foot, |subject| values(&plans(subject)).into_iter().filter(|v| !v.0.starts_with("part.")).collect::<Vec<(String, f64)>>())
    };
    let right = machine(&spec);
    spec.sheet.hand.value = Hand::Left;
    let left = machine(&spec);
    assert_eq!(right.len(), left.len());
    for ((k, a), (l, b)) in right.iter().zip(&left) {
        assert_eq!(k, l);
        assert!((a - b).abs() < 1e-9, "{k}: {a} and {b}");
    }
}

fn values(plans: &[SheetPlan]) -> Vec<(String, f64)> {
    plans.iter().flat_map(|p| &p.views).flat_map(|v| &v.draft.dimensions).map(|d| (d.key.clone(), d.value())).collect()
}

/// Levels on the general arrangement and on the pit sheet are the same levels.
#[test]
fn levels_agree_between_sheets() {
    for (name, text) in STARTERS {
        let (spec, foot) = starter(text);
        with_job(&spec, &foot, |subject| {
            let all = plans(subject);
            let levels = |id: &str| -> Vec<f64> {
                all.iter()
                    .filter(|p| p.id == id)
                    .flat_map(|p| &p.views)
                    .flat_map(|v| &v.draft.items)
                    .filter_map(|i| if let Item::Level { level, .. } = i { Some(*level) } else { None })
                    .collect()
            };
            if foot.pit.is_none() {
                return;
            }
            let pit = levels("pit");
            for l in levels("ga") {
                assert!(pit.iter().any(|p| (p - l).abs() < 1e-9), "{name}: level {l} of the general arrangement is not on the pit sheet");
            }
        });
    }
}

/// The finished sheets of every starter, as drawn, mirrored, in the other projection and in German.
#[test]
fn finished_sheets_have_no_ink_defect() {
    let mut found = Vec::new();
    for (name, text) in STARTERS {
        for variant in ["as given", "up side left", "other projection", "German"] {
            let (mut spec, foot) = starter(text);
            let sheet = &mut spec.sheet;
            match variant {
                "up side left" => sheet.hand.value = Hand::Left,
                "other projection" => sheet.projection.value = if sheet.projection.value == Projection::First { Projection::Third } else { Projection::First },
                "German" => sheet.language.value = Language::German,
                _ => {}
            }
            with_job(&spec, &foot, |subject| {
                let sheets = super::lay_out(subject);
                assert!(sheets.len() >= plans(subject).len(), "{name}, {variant}");
                for s in &sheets {
                    found.extend(s.defects.iter().map(|d| format!("{name}, {variant}, {}: {:?} {}", s.id, d.kind, d.message)));
                }
            });
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Every dimension that was asked for is on the finished sheets with its model value.
#[test]
fn every_dimension_asked_for_is_drawn() {
    for (name, text) in STARTERS {
        let (spec, foot) = starter(text);
        with_job(&spec, &foot, |subject| {
            let asked: BTreeSet<(String, i64)> = values(&plans(subject)).into_iter().map(|(k, v)| (k, (v * 1000.0).round() as i64)).collect();
            let drawn: BTreeSet<(String, i64)> =
                super::lay_out(subject).iter().flat_map(|s| &s.dimensions).map(|d| (d.key.clone(), (d.value * 1000.0).round() as i64)).collect();
            let missing: Vec<_> = asked.difference(&drawn).collect();
            assert!(missing.is_empty(), "{name}: {missing:?}");
        });
    }
}

/// Every plate with a cutting file stands on exactly one plate sheet, alone or together with those cut alike.
#[test]
fn every_plate_is_drawn_once() {
    for (name, text) in STARTERS {
        let (spec, foot) = starter(text);
        with_job(&spec, &foot, |subject| {
            let mut drawn: Vec<String> = plans(subject)
                .iter()
                .flat_map(|p| &p.views)
                .filter(|v| v.draft.id.starts_with("plate."))
                .flat_map(|v| v.draft.title.split(',').map_while(|t| t.split_whitespace().next()).map(str::to_string).collect::<Vec<String>>())
                .filter(|word| word.parse::<u32>().is_ok())
                .collect();
            drawn.sort();
            let mut made: Vec<String> = subject.parts.items.iter().filter(|p| p.flat.is_some()).map(|p| p.item.to_string()).collect();
            made.sort();
            assert_eq!(drawn, made, "{name}");
        });
    }
}

/// Every balloon names an item of the parts list.
#[test]
fn balloons_name_items_of_the_list() {
    for (name, text) in STARTERS {
        let (spec, foot) = starter(text);
        with_job(&spec, &foot, |subject| {
            let plans = plans(subject);
            let balloons: Vec<&String> = plans
                .iter()
                .flat_map(|p| &p.views)
                .flat_map(|v| &v.draft.items)
                .filter_map(|i| if let Item::Balloon { item, .. } = i { Some(item) } else { None })
                .collect();
            assert!(balloons.len() > 10, "{name}: only {} balloons", balloons.len());
            for b in balloons {
                assert!(subject.parts.items.iter().any(|p| p.item.to_string() == *b), "{name}: balloon {b} is on no list");
            }
        });
    }
}

/// Every format that a spec can force: all sheets without a conflict, or a plain finding that names the format.
#[test]
fn every_forced_format_works_or_says_so() {
    let formats = [("grain_intake", ["A4", "A3", "A2", "A1", "A0"]), ("us_units", ["A", "B", "C", "D", "E"])];
    let mut found = Vec::new();
    for (name, sizes) in formats {
        let text = STARTERS.iter().find(|s| s.0 == name).unwrap().1;
        for (i, size) in sizes.into_iter().enumerate() {
            let (mut spec, foot) = starter(text);
            spec.sheet.size.value = Some(size.into());
            with_job(&spec, &foot, |subject| {
                assert!(subject.style().size.is_some(), "{size}");
                for s in super::lay_out(subject) {
                    assert_eq!(s.format.name.trim_start_matches("ANSI "), size);
                    // The two smallest may be too small for a sheet, and then say so in words.
                    let too_small = |d: &crate::paper::ink::Defect| i < 2 && d.kind == DefectKind::FormatTooSmall && d.message.contains(s.format.name);
                    found.extend(s.defects.iter().filter(|d| !too_small(d)).map(|d| format!("{name} on {size}, {}: {}", s.id, d.message)));
                }
            });
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}
