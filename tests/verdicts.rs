//! Verdicts say what they mean, everywhere alike: what names a change that would pass is open; console, report, data and stamps
//! count the same; what somebody answers for is counted apart.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use footwell::files::Wish;
use footwell::job::Job;
use footwell::paper::mark::Mark;
use footwell::paper::style::Pen;
use footwell::report::text;
use footwell::rules::{Standing, Verdict};
use footwell::say::{Statement, Words};
use footwell::sheets::SheetSet;
use std::collections::BTreeMap;
use support::{odd, random_spec, run, set, templates};

/// A starter with changes.
fn with(starter: &str, changes: &[(&str, &str)]) -> String {
    let (_, text) = templates().into_iter().find(|(name, _)| name.trim_end_matches(".toml") == starter).unwrap();
    let mut table: toml::Table = text.parse().unwrap();
    changes.iter().for_each(|(path, value)| set(&mut table, path, value));
    toml::to_string(&table).unwrap()
}

/// A deviation for a rule, as changes of a spec.
fn accepted(rule: &str) -> [(String, String); 4] {
    let key = |key: &str| format!("deviation[1].{key}");
    [
        (key("rule"), format!("\"{rule}\"")),
        (key("reason"), "\"tried for a year\"".into()),
        (key("by"), "\"plant manager\"".into()),
        (key("date"), "\"2026-11-25\"".into()),
    ]
}

/// The grain intake with changes, and one rule accepted.
fn accepting(rule: &str, changes: &[(&str, &str)]) -> String {
    let deviation = accepted(rule);
    let all: Vec<(&str, &str)> = changes.iter().copied().chain(deviation.iter().map(|(k, v)| (k.as_str(), v.as_str()))).collect();
    with("grain_intake", &all)
}

/// What a plant owner once got as a note: 6 m/s on wheat, casing plates of 1.5 mm, 475 mm of bare shaft end.
const ONCE_NOTED: [(&str, &str, &str); 3] =
    [("belt-speed", "duty.belt_speed", "\"6 m/s\""), ("plate-thickness", "casing.plate", "\"1.5 mm\""), ("shaft-end-guard", "shaft.projection", "\"475 mm\"")];

/// All specs that this file looks at.
fn specs() -> Vec<(String, String)> {
    let noted = ONCE_NOTED.map(|(rule, path, value)| (rule.to_string(), with("grain_intake", &[(path, value)])));
    let fast = accepting("belt-speed", &[("duty.belt_speed", "\"4.2 m/s\"")]);
    let german = accepting("belt-speed", &[("duty.belt_speed", "\"4.2 m/s\""), ("sheet.language", "\"de\"")]);
    let of = |name: &str, text: String| (name.to_string(), text);
    templates().into_iter().chain(odd()).chain(noted).chain([of("accepted", fast), of("accepted, German", german)]).collect()
}

#[test]
fn what_was_noted_is_a_warning_now() {
    for (rule, path, value) in ONCE_NOTED {
        let job = run(&with("grain_intake", &[(path, value)])).unwrap();
        let worst = job.findings().of(rule).map(|f| f.verdict).max();
        assert!(worst >= Some(Verdict::Warn), "{path} = {value}: {worst:?}");
        let stamp = job.findings().stamp().plainly();
        assert!(stamp.starts_with("WARNINGS OPEN") || stamp.starts_with("NOT FOR FABRICATION"), "{stamp}");
        assert!(stamp.contains(rule), "{stamp}");
    }
}

/// Words by which a sentence asks for something else; a note with one of them would ask without objecting.
const ASKING: [&str; 6] = ["would", "too ", "at least", "must ", "short", "not enough"];

/// Sentences of notes that hold such a word and ask for nothing, by rule, with the reason.
const ASKS_NOTHING: [(&str, &str); 1] = [("foot-pulley-deep-pit", "an offer: the foot is sound, its pit could be shallower")];

#[test]
fn what_asks_for_a_change_is_open() {
    let wild = (0..60).map(|seed| (format!("wild {seed}"), random_spec::wild(seed)));
    let mut wrong = BTreeMap::new();
    let mut notes = 0;
    for (name, text) in specs().into_iter().chain(wild) {
        let job = run(&text).unwrap();
        for f in &job.findings().items {
            assert!(f.would_pass.is_empty() || f.verdict > Verdict::Note, "{name}: {}", f.rule);
            if f.verdict == Verdict::Note {
                notes += 1;
                let said = f.message.plainly();
                if ASKING.iter().any(|w| said.contains(w)) && !ASKS_NOTHING.iter().any(|(rule, _)| *rule == f.rule) {
                    wrong.entry(f.rule).or_insert(said);
                }
            }
        }
    }
    assert!(notes > 100, "{notes}");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// The stamp of a sheet as a person reads it: head, then the small print in one line.
fn stamp_of(marks: &[Mark]) -> String {
    let mut words = Vec::new();
    for mark in marks {
        mark.walk(&mut |m| {
            if let Mark::Text(t) = m
                && t.pen == Pen::Stamp
            {
                words.push(t.content.clone());
            }
        });
    }
    words.join(" ")
}

/// Counts in a text such as `1 fail (a), 2 warn (b, c), 7 note`: the number before each word.
fn count_before(text: &str, word: &str) -> usize {
    let number = |at: usize| text[..at].trim_end().rsplit(|c: char| !c.is_ascii_digit()).next().and_then(|n| n.parse().ok());
    text.match_indices(word).find_map(|(at, _)| number(at)).unwrap_or(0)
}

#[test]
fn everybody_counts_the_same() {
    let mut seen = BTreeMap::new();
    for (name, text) in specs() {
        let job = run(&text).unwrap();
        let of = |standing: Standing| job.findings().items.iter().filter(|f| f.standing() == standing).count();
        let [fail, warn, note, accepted] = [Standing::Fail, Standing::Warn, Standing::Note, Standing::Accepted].map(of);
        *seen.entry((fail > 0, warn > 0, accepted > 0)).or_insert(0) += 1;
        let open: Vec<&str> = job.findings().items.iter().filter(|f| f.standing() >= Standing::Accepted).map(|f| f.rule).collect();
        let head = match (fail, warn, accepted) {
            (0, 0, 0) => "NO RULE OBJECTS - TO BE APPROVED",
            (0, 0, _) => "DEVIATIONS ACCEPTED - TO BE APPROVED",
            (0, _, _) => "WARNINGS OPEN - TO BE APPROVED",
            _ => "NOT FOR FABRICATION",
        };
        let json: serde_json::Value = serde_json::from_str(&job.findings().to_json(&job.voice()).unwrap()).unwrap();
        let items = json["items"].as_array().unwrap();
        let told = |verdict: &str| items.iter().filter(|i| i["verdict"] == verdict && i.get("accepted").is_none()).count();
        assert_eq!([told("fail"), told("warn"), told("note")], [fail, warn, note], "{name}");
        for (key, count) in [("fail", fail), ("warn", warn), ("note", note), ("accepted", accepted)] {
            assert_eq!(json["counts"][key], count, "{name}: {key}");
        }
        // What follows reads English.
        if job.spec().language() == "de" {
            continue;
        }
        let console = text::checks(&job.report());
        for (mark, word, count) in [("FAIL  ", "fail", fail), ("WARN  ", "warn", warn), ("NOTE  ", "note", note), ("ACCEPTED (", "accepted", accepted)] {
            assert_eq!(console.lines().filter(|l| l.starts_with(mark)).count(), count, "{name}: {mark}");
            assert_eq!(count_before(console.lines().last().unwrap(), &format!(" {word}")), count, "{name}: {console}");
        }
        assert!(text::whole(&job.report()).contains(head), "{name}");
        // Odd machines are told apart by their data; drawing them all takes minutes.
        let drawn = name.ends_with(".toml") || ["accepted", ONCE_NOTED[0].0].contains(&name.as_str());
        let sheets = if drawn { job.lay_out(SheetSet::Whole, None) } else { Vec::new() };
        assert!(sheets.len() > 8 || !drawn, "{name}");
        for sheet in &sheets {
            let stamp = stamp_of(&sheet.marks);
            assert!(stamp.starts_with(head), "{name}, {}: {stamp}", sheet.id);
            for (word, count) in [(" fail", fail), (" warn", warn), (" note", note), (" accepted", accepted)] {
                assert_eq!(count_before(&stamp, word), count, "{name}, {}: {stamp}", sheet.id);
            }
            assert!(open.iter().all(|rule| stamp.contains(rule)), "{name}, {}: {stamp}", sheet.id);
        }
    }
    assert!(seen.keys().any(|k| k.0) && seen.keys().any(|k| !k.0 && k.1) && seen.keys().any(|k| k.2), "{seen:?}");
}

#[test]
fn a_deviation_is_counted_apart_and_said_on_paper() {
    let changes = [("duty.belt_speed", "\"4.2 m/s\"")];
    let before = run(&with("grain_intake", &changes)).unwrap();
    let after = run(&accepting("belt-speed", &changes)).unwrap();
    let (open, accepted) = (before.findings(), after.findings());
    assert!(open.warned.contains(&"belt-speed") && accepted.accepted == ["belt-speed"] && !accepted.warned.contains(&"belt-speed"));
    assert_eq!((open.counts.warn, open.counts.fail), (accepted.counts.warn + 1, accepted.counts.fail));
    let finding = accepted.of("belt-speed").next().unwrap();
    assert_eq!((finding.verdict, finding.standing()), (Verdict::Warn, Standing::Accepted));
    assert!(!finding.would_pass.is_empty(), "what would pass is said all the same");
    assert!(after.warnings().items.iter().all(|w| !w.path.starts_with("deviation")), "{:#?}", after.warnings());
    let line = accepted.deviations()[0].plainly();
    for wanted in ["belt-speed (warn)", "4.2 m/s", "accepted by plant manager, 2026-11-25: tried for a year"] {
        assert!(line.contains(wanted), "{line}");
    }
    let wish = Wish { set: SheetSet::Whole, formats: Vec::new(), model: false, options: footwell::export::Options::default(), own_block: None };
    let files = after.files(&wish).unwrap();
    for name in ["report.txt", "report.html", "checks.json"] {
        let file = files.files.iter().find(|f| f.path.ends_with(name)).unwrap_or_else(|| panic!("{name}"));
        let said = String::from_utf8(file.bytes.clone()).unwrap();
        assert!(said.contains("plant manager") && said.contains("tried for a year"), "{name}");
    }
    let sheets = after.lay_out(SheetSet::Whole, None);
    let mut noted = Vec::new();
    for sheet in &sheets {
        let mut all = String::new();
        for mark in &sheet.marks {
            mark.walk(&mut |m| {
                if let Mark::Text(t) = m {
                    all.push_str(&t.content);
                    all.push(' ');
                }
            });
        }
        if all.contains("DEVIATIONS") && all.contains("plant manager") {
            noted.push(sheet.id.as_str());
        }
    }
    for wanted in ["ga", "pit", "calc"] {
        assert!(noted.iter().any(|id| id.starts_with(wanted)), "{wanted}: {noted:?}");
    }
}

/// Law, guards and what cannot be made stay open, whoever accepts them.
#[test]
fn nobody_accepts_law_or_guards() {
    let refused = |rule: &str| Job::of(&accepting(rule, &[])).map(|_| ()).unwrap_err().items;
    for rule in ["door-mesh", "mesh-distance", "shaft-end-guard", "pit-rail", "pit-ladder", "can-be-made"] {
        let problems = refused(rule);
        assert_eq!(problems.len(), 1, "{rule}: {problems:#?}");
        assert!(problems[0].path == "deviation[1].rule" && !problems[0].labels.is_empty(), "{problems:#?}");
    }
    assert!(refused("belt-sped")[0].hint.contains("belt-speed"));
    // Law in one job, practice in another.
    for (jurisdiction, law) in [("\"us\"", true), ("\"iso\"", false)] {
        let job = run(&accepting("alignment-monitor", &[("monitoring.alignment", "false"), ("project.jurisdiction", jurisdiction)])).unwrap();
        let finding = job.findings().of("alignment-monitor").next().unwrap();
        assert_eq!(finding.accepted.is_none(), law, "{jurisdiction}");
        assert_eq!(job.warnings().items.iter().any(|w| w.path == "deviation[1].rule" && w.message.contains("law asks for it")), law);
    }
    // A side too narrow to pass stays open, one too narrow to work in can be accepted.
    for (space, open) in [("\"500 mm\"", true), ("\"650 mm\"", false)] {
        let job = run(&accepting("pit-clearance", &[("pit.near_space", space)])).unwrap();
        let near = job.findings().of("pit-clearance").find(|f| f.path == "pit.near_space").unwrap();
        assert!(near.verdict > Verdict::Note);
        assert_eq!(near.accepted.is_none(), open, "{space}: {near:#?}");
    }
}

#[test]
fn deviations_speak_german() {
    let german = Words::of("de");
    let job = run(&accepting("belt-speed", &[("duty.belt_speed", "\"4.2 m/s\""), ("sheet.language", "\"de\"")])).unwrap();
    let mut said: Vec<Statement> = job.findings().deviations();
    assert_eq!(said.len(), 1);
    said.extend([job.findings().stamp(), job.report().counted()]);
    said.extend(job.findings().items.iter().map(footwell::report::standing));
    let lacks: Vec<&str> = said.iter().flat_map(|s| german.missing(s)).collect();
    assert!(lacks.is_empty(), "{lacks:#?}");
    assert!(job.voice().say(&job.findings().stamp()).contains("als Abweichung angenommen"));
}
