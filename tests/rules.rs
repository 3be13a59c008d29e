//! The rules as a whole: their list and files, the spec paths they name, the starter specs, `checks.json`.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use footwell::rules::{ALL, Verdict, find};
use footwell::say::{Statement, Value, Voice, Words};
use footwell::sources::{Authority, Source};
use footwell::spec::keys;
use footwell::units::Unit;
use std::collections::BTreeSet;
use support::{random_spec, run, templates};

/// Files in `src/rules` that hold no rule.
const NO_RULES: [&str; 7] = ["mod", "deviations", "finding", "findings", "rule", "trial", "wall_patches"];

fn rule_files() -> Vec<(String, String)> {
    let mut files: Vec<(String, String)> = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/src/rules"))
        .unwrap()
        .map(|e| e.unwrap().path())
        .map(|p| (p.file_stem().unwrap().to_string_lossy().into_owned(), std::fs::read_to_string(&p).unwrap()))
        .filter(|(name, _)| !NO_RULES.contains(&name.as_str()))
        .collect();
    files.sort();
    files
}

#[test]
fn one_file_per_rule_with_its_name_and_tests() {
    let files: BTreeSet<String> = rule_files().into_iter().map(|(name, _)| name.replace('_', "-")).collect();
    let rules: BTreeSet<String> = ALL.iter().map(|r| r.id.to_string()).collect();
    assert_eq!(files, rules);
    assert_eq!(rules.len(), ALL.len(), "an id stands twice");
    for (name, text) in rule_files() {
        assert!(text.contains("#[test]"), "{name} has no test");
        assert!(text.starts_with("//! "), "{name} says nothing about itself");
    }
}

#[test]
fn every_rule_explains_itself() {
    for rule in ALL {
        for (what, text) in [("title", rule.title), ("what", rule.what), ("why", rule.why), ("remedy", rule.remedy)] {
            assert!(text.len() > 3, "{}: {what} is empty", rule.id);
        }
        assert!(rule.source.authority == Authority::Practice || rule.source.cite.len() > 3, "{} names no source", rule.id);
        assert_eq!(find(rule.id).map(|r| r.title), Some(rule.title));
    }
    assert!(find("no-such-rule").is_none());
}

/// Verdicts alone are those of the findings, number by number, also where nothing was searched for.
#[test]
fn verdicts_are_those_of_the_findings() {
    let wild = (0..40).map(random_spec::wild);
    let mut failing = 0;
    for text in templates().into_iter().map(|t| t.1).chain(wild) {
        let job = run(&text).unwrap();
        let (found, verdicts) = (job.findings(), job.verdicts());
        let told = |rule: &str, verdict: Verdict, value: Option<f64>, limit: Option<f64>| format!("{rule} {verdict:?} {value:?} {limit:?}");
        let mut wanted: Vec<String> = found.items.iter().map(|f| told(f.rule, f.verdict, f.value.map(|a| a.value), f.limit.map(|a| a.value))).collect();
        let mut got: Vec<String> = verdicts.items.iter().map(|j| told(j.rule, j.verdict, j.value.map(|a| a.value), j.limit.map(|a| a.value))).collect();
        wanted.sort();
        got.sort();
        assert_eq!(wanted, got, "{text}");
        assert_eq!(found.failed, verdicts.failed, "{text}");
        failing += verdicts.failed.len();
    }
    assert!(failing > 40, "only {failing} failures: the specs try nothing");
}

/// `door[2].sill` is the key `door[n].sill` of the registry.
fn in_registry(path: &str, registry: &BTreeSet<String>) -> bool {
    let general = path.split('.').map(|part| part.split_once('[').map_or(part.to_string(), |(name, _)| format!("{name}[n]"))).collect::<Vec<_>>().join(".");
    registry.contains(&general) || registry.iter().any(|k| k.starts_with(&format!("{general}.")))
}

#[test]
fn paths_and_changes_name_keys_of_the_spec() {
    let registry: BTreeSet<String> = keys().into_iter().map(|k| k.path).collect();
    let mut seen = BTreeSet::new();
    for seed in 0..200 {
        let job = run(&random_spec::wild(seed)).unwrap();
        for finding in &job.findings().items {
            assert!(finding.path == "door" || in_registry(&finding.path, &registry), "{}: {}", finding.rule, finding.path);
            for change in &finding.would_pass {
                assert!(in_registry(&change.path, &registry), "{}: {}", finding.rule, change.path);
            }
            assert!(finding.verdict > Verdict::Note || finding.would_pass.is_empty(), "{} passes or is only noted and proposes a change", finding.rule);
            let message = finding.message.plainly();
            assert!(!message.is_empty() && !message.contains("NaN") && !message.contains("inf "), "{}: {message}", finding.rule);
            seen.insert(finding.rule);
        }
    }
    let never: Vec<&str> = ALL.iter().map(|r| r.id).filter(|id| !seen.contains(id)).collect();
    assert!(never.is_empty(), "no random spec reaches {never:?}");
}

#[test]
fn starter_specs_do_not_fail_but_the_survey_does() {
    for (name, text) in templates() {
        let job = run(&text).unwrap_or_else(|why| panic!("{name}: {why}"));
        let findings = job.findings();
        if name == "survey.toml" {
            for id in ["inlet-up-sill", "capacity-rated", "bucket-clearance", "door-mesh", "pit-clearance"] {
                assert!(findings.failed.contains(&id), "{name}: {id} does not fail");
            }
            assert!(findings.stamp().plainly().contains("NOT FOR FABRICATION"), "{:?}", findings.stamp());
            for finding in findings.items.iter().filter(|f| f.verdict == Verdict::Fail) {
                assert!(!finding.would_pass.is_empty(), "{name}: {} fails and names no value: {}", finding.rule, finding.message.plainly());
            }
        } else {
            assert!(findings.failed.is_empty(), "{name}: {:#?}", findings.items.iter().filter(|f| f.verdict == Verdict::Fail).collect::<Vec<_>>());
            assert!(!findings.stamp().plainly().contains("NOT FOR FABRICATION"));
        }
    }
}

#[test]
fn order_is_worst_first_and_the_same_every_time() {
    for seed in 0..20 {
        let text = random_spec::wild(seed);
        let jobs = [run(&text).unwrap(), run(&text).unwrap()];
        let [one, two] = [jobs[0].findings(), jobs[1].findings()];
        let voice = Voice::plain();
        assert_eq!(one.to_json(&voice).unwrap(), two.to_json(&voice).unwrap());
        assert!(one.items.windows(2).all(|w| w[0].verdict >= w[1].verdict));
        let counts = one.counts;
        assert_eq!(counts.pass + counts.note + counts.accepted + counts.warn + counts.fail, one.items.len());
        for rule in ALL {
            let found = one.of(rule.id).count();
            assert_eq!(found == 0, one.not_applicable.contains(&rule.id), "{}", rule.id);
        }
    }
}

#[test]
fn checks_json_holds_every_finding() {
    let survey = templates().into_iter().find(|(name, _)| name == "survey.toml").unwrap().1;
    let job = run(&survey).unwrap();
    let findings = job.findings();
    let json: serde_json::Value = serde_json::from_str(&findings.to_json(&Voice::plain()).unwrap()).unwrap();
    assert_eq!(json["release"], "not_for_fabrication");
    assert_eq!(json["items"].as_array().unwrap().len(), findings.items.len());
    let sill = json["items"].as_array().unwrap().iter().find(|f| f["rule"] == "inlet-up-sill").unwrap();
    assert_eq!(sill["verdict"], "fail");
    assert_eq!(sill["path"], "inlet.up.sill");
    assert_eq!(sill["value"]["unit"], "mm");
    assert_eq!(sill["would_pass"][0]["path"], "inlet.up.sill");
    assert!(sill["limit"]["value"].as_f64().unwrap() > sill["value"]["value"].as_f64().unwrap());
    assert!(sill["source"]["cite"].as_str().unwrap().len() > 3);
}

/// Chips that need 60° beside a belt that comes in at an angle: no throat can be cut, and no verdict is milder than that.
#[test]
fn what_cannot_be_made_fails() {
    let text = "[product]\npreset = \"wood-chips\"\n[duty]\ncapacity = \"54 t/h\"\nlift = \"19 m\"\n[bucket]\nlength = \"400 mm\"\nprojection = \"230 mm\"\n\
                height = \"230 mm\"\n[head_pulley]\ndiameter = \"2300 mm\"\n[inlet.up]\nfitted = false\n[inlet.down]\nfitted = true\nsill = \"1500 mm\"\n";
    let job = run(text).unwrap();
    let findings = job.findings();
    assert!(findings.failed.contains(&"can-be-made") && findings.failed.contains(&"throat-room"), "{:?}", findings.failed);
    assert_eq!(findings.of("can-be-made").count(), job.parts().defects.len());
    assert!(
        findings.stamp().plainly().starts_with("NOT FOR FABRICATION") && findings.to_json(&Voice::plain()).unwrap().contains("has no room for floor and roof")
    );
    let mended = run(&support::changed(text, findings.of("throat-room").flat_map(|f| &f.would_pass))).unwrap();
    // A lower sill leaves less time until the foot is full: that is another rule's matter.
    let failed = &mended.findings().failed;
    assert!(!failed.contains(&"can-be-made") && !failed.contains(&"throat-room"), "{failed:#?}");
}

/// A job in inches: the text says feet and inches, the data stays metric, each number with its unit.
#[test]
fn checks_json_of_a_job_in_inches() {
    let text = templates().into_iter().find(|(name, _)| name == "us_units.toml").unwrap().1;
    let machine = run(&text).unwrap();
    let json: serde_json::Value = serde_json::from_str(&machine.findings().to_json(&machine.spec().voice()).unwrap()).unwrap();
    let items = json["items"].as_array().unwrap();
    let travel = items.iter().find(|f| f["rule"] == "take-up-travel").unwrap();
    let (said, mm) = (travel["text"].as_str().unwrap(), travel["value"]["value"].as_f64().unwrap());
    assert_eq!((&travel["value"]["unit"], &travel["limit"]["unit"]), (&"mm".into(), &"mm".into()));
    assert!(said.contains('"') && !said.contains("mm"), "{said}");
    assert_eq!(travel["says"]["words"], "travel {travel}: one closing step of the belt needs {closing}, all of its stretch {stretch}; guide value {guide}");
    assert_eq!(travel["says"]["values"]["travel"], serde_json::json!({ "value": mm, "unit": "mm" }));
    for item in items {
        for amount in [&item["value"], &item["limit"]].into_iter().filter(|a| !a.is_null()) {
            let unit = amount["unit"].as_str().unwrap();
            assert!(Unit::of_symbol(unit).is_some(), "{}: {unit}", item["rule"]);
        }
    }
}

/// Whether a number that stands in a text before this unit is the value, to the decimals that are printed and to two percent.
fn printed(text: &str, value: f64, unit: Unit) -> bool {
    let text = text.replace('−', "-");
    text.match_indices(unit.symbol()).any(|(at, _)| {
        let before = text[..at].trim_end();
        let from = before.rfind(|c: char| !c.is_ascii_digit() && c != '.' && c != '-').map_or(0, |i| i + before[i..].chars().next().map_or(1, char::len_utf8));
        let figure = before[from..].trim_start_matches('.');
        let decimals = figure.split_once('.').map_or(0, |(_, d)| d.len());
        figure.parse::<f64>().is_ok_and(|read| {
            let off = (read - value).abs();
            off <= 0.5 * 10f64.powi(-i32::try_from(decimals).unwrap()) + 1e-9 && off <= 0.02 * value.abs().max(1.0)
        })
    })
}

/// Rules whose sentence leaves out the limit that the finding shows, with the reason.
const LIMIT_UNSAID: [(&str, &str); 0] = [];

/// Who reads a sentence and the limit beside it reads the same number.
#[test]
fn sentences_name_the_limit_that_the_finding_shows() {
    assert!(printed("at most 2.5 mm", 2.46, Unit::Mm) && !printed("at most 2.5 mm", 2.6, Unit::Mm) && !printed("25 mm", 25.0, Unit::Mpa));
    let mut unsaid = std::collections::BTreeMap::new();
    let mut seen = 0;
    for text in templates().into_iter().map(|t| t.1).chain((0..50).map(random_spec::sound)).chain((0..50).map(random_spec::wild)) {
        let job = run(&text).unwrap();
        for finding in &job.findings().items {
            let Some(limit) = finding.limit.filter(|l| l.unit != Unit::One) else { continue };
            seen += 1;
            let said = finding.message.plainly();
            if !printed(&said, limit.value, limit.unit) && !LIMIT_UNSAID.iter().any(|(rule, _)| *rule == finding.rule) {
                unsaid.entry(finding.rule).or_insert(format!("{} {}: {said}", limit.value, limit.unit.symbol()));
            }
        }
    }
    assert!(seen > 2000, "only {seen} limits");
    assert!(unsaid.is_empty(), "{unsaid:#?}");
}

fn has_german(text: &'static str) -> bool {
    Words::of("de").missing(&Statement::from(text)).is_empty()
}

/// Prose is translated; the names of laws, standards and books and keys of the spec stay as they are.
fn is_prose(source: &Source) -> bool {
    matches!(source.authority, Authority::Physics | Authority::Practice)
}

/// All amounts that stand in a statement and in those within it.
fn amounts(said: &Statement) -> Vec<f64> {
    let of = |value: &Value| match value {
        Value::Amount(amount) => vec![amount.value],
        Value::Said(one) => amounts(one),
        Value::All(all) => all.iter().flat_map(amounts).collect(),
        Value::Count(_) | Value::Name(_) | Value::Opening(_) | Value::Unit(_) => Vec::new(),
    };
    said.values.iter().flat_map(|(_, value)| of(value)).collect()
}

#[test]
fn findings_are_said_in_german_too() {
    let german = Words::of("de");
    let mut missing: BTreeSet<&str> = BTreeSet::new();
    let seeds = (0..50).map(random_spec::sound).chain((0..200).map(random_spec::wild));
    let texts = templates().into_iter().map(|(_, text)| text).chain(seeds);
    for text in texts {
        let job = run(&text).unwrap();
        let findings = job.findings();
        missing.extend(german.missing(&findings.stamp()));
        for finding in &findings.items {
            let plain = finding.message.plainly();
            assert!(!["{", "}", "NaN", "inf ", "–"].iter().any(|bad| plain.contains(bad)), "{}: {plain}", finding.rule);
            for amount in amounts(&finding.message).into_iter().chain([finding.value, finding.limit].into_iter().flatten().map(|a| a.value)) {
                assert!(amount.is_finite(), "{}: {plain}", finding.rule);
            }
            missing.extend(german.missing(&finding.message));
            if is_prose(&finding.source) && !has_german(finding.source.cite) {
                missing.insert(finding.source.cite);
            }
        }
    }
    assert!(missing.is_empty(), "{missing:#?}");
}

#[test]
fn rules_explain_themselves_in_german_too() {
    let texts = ALL.iter().flat_map(|r| [r.title, r.what, r.why, r.remedy].into_iter().chain(is_prose(&r.source).then_some(r.source.cite)));
    let missing: BTreeSet<&str> = texts.filter(|text| !has_german(text)).collect();
    assert!(missing.is_empty(), "{missing:#?}");
}

/// The words of every `say!` in a text.
fn words_said(text: &str) -> Vec<&str> {
    let literals = text.split("say!(").skip(1).filter_map(|t| t.trim_start().strip_prefix('"'));
    literals.filter_map(|t| t.split_once('"')).map(|(words, _)| words).collect()
}

/// Branches that no spec at hand reaches are translated as well, and no unit stands in the words.
#[test]
fn every_text_of_a_rule_has_german_and_no_unit() {
    let german = Words::of("de");
    let mut wrong = Vec::new();
    let mut said = 0;
    for (name, text) in rule_files() {
        for words in words_said(&text).into_iter().filter(|w| w.split(['{', '}']).step_by(2).any(|t| t.contains(char::is_alphabetic))) {
            let own = german.text(words);
            let units = |text: &str| {
                let mut tokens = text.split([' ', ',', ';', ':', '(', ')']);
                tokens.any(|t| Unit::ALL.iter().any(|u| !u.symbol().is_empty() && u.symbol() == t))
            };
            if own == words || units(words) || units(&own) {
                wrong.push(format!("{name}: {words} = {own}"));
            }
            said += 1;
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(said > 100, "only {said} texts found");
}
