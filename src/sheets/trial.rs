//! Walks every sheet of every starter spec.
#![allow(clippy::unwrap_used, clippy::panic)]

use super::spec_lengths::{BUILT_LARGER, Shown, account, is_length};
use super::{ALL, SheetSet};
use crate::job::Job;
use crate::paper::ink::DefectKind;
use crate::paper::sheet::{Sheet, SheetPlan};
use crate::paper::view::Item;
use crate::say::Statement;
use crate::spec::sheet::Projection;
use crate::units::Quantity;
use std::collections::BTreeSet;
use std::sync::LazyLock;
use toml::{Table, Value};

const STARTERS: [(&str, &str); 5] = [
    ("grain_intake", include_str!("../../templates/grain_intake.toml")),
    ("tall_bend", include_str!("../../templates/tall_bend.toml")),
    ("pellets", include_str!("../../templates/pellets.toml")),
    ("us_units", include_str!("../../templates/us_units.toml")),
    ("survey", include_str!("../../templates/survey.toml")),
];

/// A starter with keys of its table `[sheet]` replaced.
fn starter(text: &str, sheet: &[(&str, &str)]) -> Job {
    let mut spec: Table = text.parse().unwrap();
    let table = spec.entry("sheet").or_insert_with(|| Value::Table(Table::new())).as_table_mut().unwrap();
    table.extend(sheet.iter().map(|(key, word)| ((*key).to_string(), Value::String((*word).to_string()))));
    Job::of(&toml::to_string(&spec).unwrap()).unwrap()
}

/// Every starter as given with its finished sheets, laid out once for all who look at them, side by side because they all wait for it.
static LAID_OUT: LazyLock<Vec<(&str, Job, Vec<Sheet>)>> = LazyLock::new(|| {
    let laid = |(name, text)| {
        let job = starter(text, &[]);
        let sheets = job.lay_out(SheetSet::Whole, None);
        (name, job, sheets)
    };
    std::thread::scope(|scope| {
        let running = STARTERS.map(|one| scope.spawn(move || laid(one)));
        running.map(|one| one.join().unwrap()).into()
    })
});

#[test]
fn every_length_of_the_spec_is_shown_or_listed() {
    let mut missing = Vec::new();
    for (name, job, sheets) in LAID_OUT.iter() {
        for line in account(&job.subject(), sheets) {
            if line.shown == Shown::Missing {
                missing.push(format!("{name}: {} = {} is on no sheet", line.path, line.value));
            }
        }
    }
    assert!(missing.is_empty(), "{missing:#?}");
}

/// A dimension that carries the path of a spec value shows that value.
#[test]
fn dimensions_with_a_spec_path_show_the_spec_value() {
    for (name, text) in STARTERS {
        let job = starter(text, &[]);
        let lines = job.spec().settled_lines();
        for plan in job.plans() {
            for d in plan.views.iter().flat_map(|v| &v.draft.dimensions) {
                let Some(line) = lines.iter().find(|l| l.path == d.key && is_length(&l.path)) else { continue };
                let asked = crate::units::Length::parse(line.value.trim_matches('"')).unwrap();
                let more = d.value() - asked.value();
                let widened = BUILT_LARGER.contains(&d.key.as_str())
                    && matches!(line.origin, crate::spec::reader::Origin::Default { .. })
                    && (0.0..job.spec().pit.module.value.value()).contains(&more);
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
    }
}

#[test]
fn dimensions_tell_the_model_value() {
    for (name, text) in STARTERS {
        let job = starter(text, &[]);
        for plan in job.plans() {
            for d in plan.views.iter().flat_map(|v| &v.draft.dimensions) {
                if let Some(f) = job.foot().feature(&d.key) {
                    assert!((f.value - d.value()).abs() < 1e-6, "{name}, {}: {} is drawn as {} but is {}", plan.id, d.key, d.value(), f.value);
                }
            }
        }
    }
}

#[test]
fn no_feature_is_dimensioned_twice_on_a_sheet() {
    for (name, text) in STARTERS {
        let job = starter(text, &[]);
        for plan in job.plans() {
            let mut seen = BTreeSet::new();
            for d in plan.views.iter().flat_map(|v| &v.draft.dimensions) {
                assert!(seen.insert(d.key.clone()), "{name}, {}: {} stands twice", plan.id, d.key);
            }
        }
    }
}

#[test]
fn the_list_of_sheets_is_sound() {
    for (i, k) in ALL.iter().enumerate() {
        assert!(k.title.chars().count() <= 25, "{}", k.title);
        assert!(ALL.iter().skip(i + 1).all(|o| o.id != k.id));
    }
    for (name, text) in STARTERS {
        let job = starter(text, &[]);
        for (kind, plan) in ALL.iter().filter(|k| (k.applies)(&job.subject())).zip(job.plans()) {
            assert_eq!(kind.id, plan.id, "{name}");
            assert_eq!(Statement::from(kind.title), plan.title, "{name}");
            assert_eq!(Statement::from(kind.document_type), plan.document_type, "{name}");
        }
    }
}

#[test]
fn the_other_hand_changes_no_value() {
    // Plates are drawn as they are cut, and a machine of the other hand is cut mirrored: those are left out.
    let machine = |hand: &str| -> Vec<(String, f64)> {
        values(starter(STARTERS[1].1, &[("hand", hand)]).plans()).into_iter().filter(|v| !v.0.starts_with("part.")).collect()
    };
    let (right, left) = (machine("up side right"), machine("up side left"));
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
        let job = starter(text, &[]);
        let all = job.plans();
        let levels = |id: &str| -> Vec<f64> {
            all.iter()
                .filter(|p| p.id == id)
                .flat_map(|p| &p.views)
                .flat_map(|v| &v.draft.items)
                .filter_map(|i| if let Item::Level { level, .. } = i { Some(*level) } else { None })
                .collect()
        };
        if job.foot().pit.is_none() {
            continue;
        }
        let pit = levels("pit");
        for l in levels("ga") {
            assert!(pit.iter().any(|p| (p - l).abs() < 1e-9), "{name}: level {l} of the general arrangement is not on the pit sheet");
        }
    }
}

/// The finished sheets of every starter, as given, and in German, mirrored and in the other projection at once.
#[test]
fn finished_sheets_have_no_ink_defect() {
    let defects = |name: &str, variant: &str, job: &Job, sheets: &[Sheet]| {
        assert!(sheets.len() >= job.plans().len(), "{name}, {variant}");
        let told = |s: &Sheet| s.defects.iter().map(|d| format!("{name}, {variant}, {}: {:?} {}", s.id, d.kind, d.message)).collect::<Vec<_>>();
        sheets.iter().flat_map(told).collect::<Vec<_>>()
    };
    let mut found = Vec::new();
    for ((name, job, sheets), (_, text)) in LAID_OUT.iter().zip(STARTERS) {
        found.extend(defects(name, "as given", job, sheets));
        let projection = if job.spec().sheet.projection.value == Projection::Third { "first" } else { "third" };
        let changed = starter(text, &[("hand", "up side left"), ("projection", projection), ("language", "de")]);
        found.extend(defects(name, "changed", &changed, &changed.lay_out(SheetSet::Whole, None)));
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Every dimension that was asked for is on the finished sheets with its model value.
#[test]
fn every_dimension_asked_for_is_drawn() {
    for (name, job, sheets) in LAID_OUT.iter() {
        let asked: BTreeSet<(String, i64)> = values(job.plans()).into_iter().map(|(k, v)| (k, (v * 1000.0).round() as i64)).collect();
        let drawn: BTreeSet<(String, i64)> = sheets.iter().flat_map(|s| &s.dimensions).map(|d| (d.key.clone(), (d.value * 1000.0).round() as i64)).collect();
        let missing: Vec<_> = asked.difference(&drawn).collect();
        assert!(missing.is_empty(), "{name}: {missing:?}");
    }
}

/// Every plate with a cutting file stands on exactly one plate sheet, alone or together with those cut alike.
#[test]
fn every_plate_is_drawn_once() {
    for (name, text) in STARTERS {
        let job = starter(text, &[]);
        let mut drawn: Vec<String> = job
            .plans()
            .iter()
            .flat_map(|p| &p.views)
            .filter(|v| v.draft.id.starts_with("plate."))
            .flat_map(|v| v.draft.title.plainly().split(',').map_while(|t| t.split_whitespace().next()).map(str::to_string).collect::<Vec<String>>())
            .filter(|word| word.parse::<u32>().is_ok())
            .collect();
        drawn.sort();
        let mut made: Vec<String> = job.parts().items.iter().filter(|p| p.flat.is_some()).map(|p| p.item.to_string()).collect();
        made.sort();
        assert_eq!(drawn, made, "{name}");
    }
}

/// Every format that a spec can force: all sheets without a conflict, or a plain finding that names the format. Those of the pit in all
/// formats, the whole set in a middle one of each family.
#[test]
fn every_forced_format_works_or_says_so() {
    let formats = [("grain_intake", ["A4", "A3", "A2", "A1", "A0"]), ("us_units", ["A", "B", "C", "D", "E"])];
    let mut found = Vec::new();
    for (name, sizes) in formats {
        let text = STARTERS.iter().find(|s| s.0 == name).unwrap().1;
        for (i, size) in sizes.into_iter().enumerate() {
            let job = starter(text, &[("size", size)]);
            assert!(job.subject().style().size.is_some(), "{size}");
            for s in job.lay_out(if ["A2", "B"].contains(&size) { SheetSet::Whole } else { SheetSet::Civil }, None) {
                assert_eq!(s.format.name.trim_start_matches("ANSI "), size);
                // The two smallest may be too small for a sheet, and then say so in words.
                let too_small = |d: &crate::paper::ink::Defect| i < 2 && d.kind == DefectKind::FormatTooSmall && d.message.contains(s.format.name);
                found.extend(s.defects.iter().filter(|d| !too_small(d)).map(|d| format!("{name} on {size}, {}: {}", s.id, d.message)));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}
