//! Names of parts, seams and lists in every job: German for all of them, no metric unit in a US job, nothing left open.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::lists::{self, Cell, List};
use footwell::parts::Parts;
use footwell::say::{Figures, Statement, Voice, Words};
use support::{random_spec, run, templates};

/// The starters, then random specs; one that does not settle is left out.
fn jobs() -> impl Iterator<Item = (String, Job)> {
    let random = (0..50).flat_map(|seed| [(format!("sound {seed}"), random_spec::sound(seed)), (format!("wild {seed}"), random_spec::wild(seed))]);
    templates().into_iter().chain(random).filter_map(|(name, text)| run(&text).ok().map(|job| (name, job)))
}

/// Everything that is said of parts and on lists.
fn said(parts: &Parts, lists: &[List]) -> Vec<Statement> {
    let mut all = Vec::new();
    for p in &parts.items {
        all.extend([&p.name, &p.material, &p.dimension, &p.remarks].map(Clone::clone));
    }
    all.extend(parts.joints.iter().map(|j| j.what.clone()));
    all.extend(parts.welds.iter().map(|w| w.what.clone()));
    all.extend(parts.seals.iter().flat_map(|s| [s.what.clone(), s.material.clone()]));
    all.extend(parts.defects.iter().map(|d| d.what.clone()));
    for list in lists {
        all.push(list.title.clone());
        all.extend(list.heads.iter().flat_map(|h| std::iter::once(h.said.clone()).chain(h.over_inches.clone())));
        all.extend(list.rows.iter().flatten().filter_map(|c| if let Cell::Said(said) = c { Some(said.clone()) } else { None }));
    }
    all
}

/// Whether a text names a metric unit; `mm` in the name of a thread or a standard is none.
fn metric(text: &str) -> bool {
    text.split([' ', ',', ';', '(', ')']).any(|word| ["mm", "m", "kg", "m²", "mm²", "MPa", "kN", "N"].contains(&word))
}

#[test]
fn everything_said_of_parts_has_german_and_prints_whole() {
    let words = Words::of("de");
    let german = Voice::new("de", Figures::default());
    let mut seen = 0;
    for (name, job) in jobs() {
        let (parts, lists) = (job.parts(), lists::all(job.parts()));
        seen += 1;
        for statement in said(parts, &lists) {
            assert_eq!(words.missing(&statement), Vec::<&str>::new(), "{name}: {}", statement.plainly());
        }
        for list in &lists {
            for voice in [&job.spec().voice(), &german] {
                for printed in [list.printed(voice), list.printed_for_programs(voice)] {
                    assert!(printed.rows.iter().all(|r| r.len() == list.heads.len()), "{name}: {}", list.id);
                    let open = printed.heads.iter().chain(printed.rows.iter().flatten()).find(|cell| cell.contains(['{', '}']));
                    assert_eq!(open, None, "{name}: {}", list.id);
                }
            }
        }
    }
    assert!(seen > 60, "only {seen} jobs");
}

#[test]
fn lists_of_a_us_job_name_no_metric_unit() {
    let us: Vec<_> = jobs().filter(|(_, job)| job.spec().us() && job.spec().figures().customary()).collect();
    assert!(us.len() > 5, "only {} jobs", us.len());
    for (name, job) in us {
        let voice = job.spec().voice();
        for list in lists::all(job.parts()).iter().filter(|l| !l.metric) {
            let printed = list.printed_for_programs(&voice);
            let told = printed.heads.iter().chain(printed.rows.iter().flatten()).find(|cell| metric(cell));
            assert_eq!(told, None, "{name}: {}", list.id);
        }
    }
}

/// Figures of the manifest are JSON numbers, as exact as the list asks; what makes no difference is null.
#[test]
fn the_manifest_has_numbers() {
    for (name, text) in templates() {
        let job = run(&text).unwrap();
        let manifest = lists::manifest(job.parts());
        let rows = manifest.objects(&job.spec().voice());
        assert_eq!(rows.len(), lists::plates(job.parts()).count(), "{name}");
        for (row, (part, flat)) in rows.iter().zip(lists::plates(job.parts())) {
            let number = |key: &str| row.get(key).and_then(serde_json::Value::as_f64).unwrap_or_else(|| panic!("{name}: {key} of {row:?}"));
            assert!((number("width mm") - flat.size()[0]).abs() < 0.000_51 && (number("area mm2") - flat.area()).abs() < 0.051, "{name}: {row:?}");
            assert!((number("kg each") - part.mass_kg.unwrap()).abs() < 0.000_051, "{name}: {row:?}");
            assert_eq!(number("item"), f64::from(part.item));
            assert!(row["hand"].is_null() || row["hand"].is_string());
        }
    }
}
