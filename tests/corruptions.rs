//! Whatever a user types: messages or a machine, never a panic, and always with a place or a key to type.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::cli::{messages, starters};
use footwell::job::Job;
use footwell::spec::keys;
use footwell::units::plain_number;
use proptest::prelude::*;

/// Runs a text as far as it goes and renders what is wrong with it.
fn run(text: &str) {
    match Job::of(text) {
        Ok(job) => {
            assert!(job.foot().shaft_lowest.is_finite());
            for line in job.spec().settled_lines() {
                assert!(!line.value.contains("NaN") && !line.value.contains("inf "), "{} = {}", line.path, line.value);
            }
        }
        Err(problems) => {
            assert!(problems.has_errors());
            let shown = messages::render(&problems, "spec.toml", text, false);
            assert!(shown.contains("error"));
            for one in &problems.items {
                assert!(!one.hint.is_empty(), "\"{}\" has no hint", one.message);
                for label in &one.labels {
                    assert!(label.span.end <= text.len(), "{one:?}");
                }
            }
        }
    }
}

/// Unit names by kind of value.
fn unit(kind: &str) -> Option<&'static str> {
    Some(match kind {
        "length" => "mm",
        "angle" => "deg",
        "mass flow" => "t/h",
        "density" => "t/m3",
        "speed" => "m/s",
        "volume" => "l",
        "mass" => "kg",
        "mass per area" => "kg/m2",
        "force" => "N",
        "force per width" => "N/mm",
        "stress" => "MPa",
        "time" => "s",
        "ratio" => "%",
        _ => return None,
    })
}

/// A key with a value from its range, as its own dotted line of TOML.
fn line(index: usize, share: f64) -> Option<(String, String)> {
    let all = keys();
    let key = all.get(index % all.len())?;
    if key.path.contains('[') {
        return None;
    }
    let value = match (key.kind.as_str(), key.least, key.most) {
        ("true or false", ..) => (share > 0.5).to_string(),
        ("whole number", Some(l), Some(m)) => plain_number((l + share * (m - l)).round(), 0),
        (kind, Some(l), Some(m)) => {
            let number = l + share * share * (m - l);
            let factor = if kind == "ratio" { 100.0 } else { 1.0 };
            format!("\"{} {}\"", plain_number(number * factor, 3), unit(kind)?)
        }
        _ => return None,
    };
    Some((key.path.clone(), value))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, rng_seed: proptest::test_runner::RngSeed::Fixed(7), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_starters(which in 0usize..5, edits in prop::collection::vec((any::<prop::sample::Index>(), 0u8..6, "[ -~äé°″\n]{0,6}"), 1..5)) {
        let mut text = starters::ALL[which].text.to_string();
        for (place, how, with) in edits {
            let lines: Vec<&str> = text.lines().collect();
            if lines.is_empty() { break; }
            let i = place.index(lines.len());
            let mut out: Vec<String> = lines.iter().map(|l| (*l).to_string()).collect();
            match how {
                0 => { out.remove(i); }
                1 => { let l = out[i].clone(); out.insert(i, l); }
                2 => out[i].push_str(&with),
                3 => out[i] = out[i].replacen(|c: char| c.is_ascii_digit(), &with, 1),
                4 => { let n = out[i].chars().count() / 2; out[i] = out[i].chars().take(n).collect(); }
                _ => out.truncate(i),
            }
            text = out.join("\n");
        }
        run(&text);
    }

    #[test]
    fn any_values_within_their_ranges(which in 0usize..5, picks in prop::collection::vec((any::<usize>(), 0.0..=1.0f64), 1..12)) {
        let mut document: toml::Table = starters::ALL[which].text.parse().unwrap();
        for (index, share) in picks {
            let Some((path, value)) = line(index, share) else { continue };
            let value: toml::Table = format!("x = {value}").parse().unwrap();
            let parts: Vec<&str> = path.split('.').collect();
            let (last, tables) = parts.split_last().unwrap();
            let mut table = &mut document;
            for part in tables {
                table = table.entry((*part).to_string()).or_insert_with(|| toml::Value::Table(toml::Table::new())).as_table_mut().unwrap();
            }
            table.insert((*last).to_string(), value["x"].clone());
        }
        run(&document.to_string());
    }

    #[test]
    fn any_text(text in "[ -~\n\t\"=\\[\\]äß]{0,200}") {
        run(&text);
    }
}
