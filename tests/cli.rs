//! The program as a user meets it: arguments in, text, files and exit code out.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use std::path::Path;
use std::process::{Command, Output};

fn footwell(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_footwell")).args(arguments).current_dir(folder).env("NO_COLOR", "1").output().unwrap()
}

fn code(output: &Output) -> i32 {
    output.status.code().unwrap_or_else(|| panic!("ended by a signal: {output:?}"))
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// Files that the program says it made in a folder.
fn made(folder: &Path) -> Vec<String> {
    let marker = std::fs::read_to_string(folder.join(".footwell")).unwrap();
    marker.lines().filter(|l| !l.starts_with('#')).map(|l| l.split_once("  ").unwrap().1.to_string()).collect()
}

#[test]
fn help_names_every_command_and_gives_examples() {
    let place = tempfile::tempdir().unwrap();
    let help = footwell(place.path(), &["--help"]);
    assert_eq!(code(&help), 0);
    for word in ["draw", "check", "start", "explain", "licences", "schema", "completions", "man", "Examples:", "Exit codes"] {
        assert!(out(&help).contains(word), "{word}");
    }
    for command in ["draw", "check", "start", "explain", "licences", "schema", "completions", "man"] {
        let help = footwell(place.path(), &[command, "--help"]);
        assert_eq!(code(&help), 0);
        assert!(out(&help).contains("Examples:"), "{command}");
    }
    assert_eq!(code(&footwell(place.path(), &[])), 2);
    assert_eq!(code(&footwell(place.path(), &["darw", "x.toml"])), 2);
}

/// Who has only the program has the notices that its parts ask for.
#[test]
fn licences_are_in_the_program() {
    let place = tempfile::tempdir().unwrap();
    let said = footwell(place.path(), &["licences"]);
    assert_eq!(code(&said), 0);
    for wanted in ["| acadrust | 0.6.8 | MPL-2.0 |", "MIT or Apache-2.0", "Bitstream Vera Fonts Copyright"] {
        assert!(out(&said).contains(wanted), "{wanted}");
    }
}

#[test]
fn start_never_overwrites_unasked() {
    let place = tempfile::tempdir().unwrap();
    let path = place.path().join("grain_intake.toml");
    assert_eq!(code(&footwell(place.path(), &["start"])), 0);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), footwell::cli::starters::ALL[0].text);
    std::fs::write(&path, "mine").unwrap();
    let again = footwell(place.path(), &["start"]);
    assert_eq!(code(&again), 2);
    assert!(err(&again).contains("--replace"));
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "mine");
    assert_eq!(code(&footwell(place.path(), &["start", "--replace"])), 0);
    assert_ne!(std::fs::read_to_string(&path).unwrap(), "mine");
    let wrong = footwell(place.path(), &["start", "pelets"]);
    assert_eq!(code(&wrong), 2);
    assert!(err(&wrong).contains("did you mean pellets?"), "{}", err(&wrong));
    let list = out(&footwell(place.path(), &["start", "--list"]));
    assert_eq!(list.lines().count(), footwell::cli::starters::ALL.len());
    assert!(out(&footwell(place.path(), &["start", "survey", "-o", "-"])).contains("[inlet.up]"));
}

#[test]
fn a_bad_spec_is_reported_whole_with_places() {
    let place = tempfile::tempdir().unwrap();
    std::fs::write(place.path().join("bad.toml"), "[duty]\ncapacity = \"120 kg\"\nlift = \"28 m\"\n[foot_pully]\n").unwrap();
    let check = footwell(place.path(), &["check", "bad.toml"]);
    assert_eq!(code(&check), 1);
    let text = err(&check);
    for wanted in [
        "bad.toml:2:12",
        "\"120 t/h\"",
        "bad.toml:4:2",
        "did you mean foot_pulley?",
        "bucket.length is not given",
        "head_pulley.diameter is not given",
        "6 errors",
    ] {
        assert!(text.contains(wanted), "{wanted} is missing in:\n{text}");
    }
    let json = footwell(place.path(), &["check", "bad.toml", "--json"]);
    assert_eq!(code(&json), 1);
    let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(value["messages"].as_array().unwrap().len(), 6);
    assert_eq!((&value["messages"][0]["line"], &value["messages"][0]["column"]), (&2.into(), &12.into()));
    // Nothing is drawn from it.
    assert_eq!(code(&footwell(place.path(), &["draw", "bad.toml"])), 1);
    assert!(!place.path().join("bad").exists());
}

#[test]
fn what_cannot_run_says_so() {
    let place = tempfile::tempdir().unwrap();
    let missing = footwell(place.path(), &["check", "nothing.toml"]);
    assert_eq!(code(&missing), 2);
    assert!(err(&missing).contains("cannot read nothing.toml"));
    std::fs::write(place.path().join("binary.toml"), [b'a', 0xff, 0xfe]).unwrap();
    let binary = footwell(place.path(), &["check", "binary.toml"]);
    assert_eq!(code(&binary), 2);
    assert!(err(&binary).contains("byte 2"), "{}", err(&binary));
    std::fs::create_dir(place.path().join("grain_intake")).unwrap();
    std::fs::write(place.path().join("grain_intake/photo.png"), "x").unwrap();
    footwell(place.path(), &["start"]);
    let foreign = footwell(place.path(), &["draw", "grain_intake.toml"]);
    assert_eq!(code(&foreign), 2);
    assert!(err(&foreign).contains("not made by footwell"));
    assert_eq!(std::fs::read_dir(place.path().join("grain_intake")).unwrap().count(), 1);
}

#[test]
fn drawing_twice_gives_the_same_bytes_and_keeps_foreign_files() {
    let place = tempfile::tempdir().unwrap();
    footwell(place.path(), &["start", "pellets"]);
    let first = footwell(place.path(), &["draw", "pellets.toml", "-o", "one"]);
    assert!(code(&first) <= 1, "{}", err(&first));
    std::fs::write(place.path().join("one/notes.txt"), "mine").unwrap();
    footwell(place.path(), &["draw", "pellets.toml", "-o", "one"]);
    footwell(place.path(), &["draw", "pellets.toml", "-o", "two"]);
    let names = made(&place.path().join("one"));
    assert!(!names.is_empty());
    for name in &names {
        assert_eq!(std::fs::read(place.path().join("one").join(name)).unwrap(), std::fs::read(place.path().join("two").join(name)).unwrap(), "{name}");
    }
    assert_eq!(std::fs::read_to_string(place.path().join("one/notes.txt")).unwrap(), "mine");
}

#[test]
fn everything_that_is_listed_can_be_explained() {
    for key in footwell::spec::keys() {
        let text = footwell::cli::explain::explanation(&key.path).unwrap_or_else(|why| panic!("{}: {why}", key.path));
        assert!((text.contains("what:") || key.path == "product.preset") && text.lines().all(|l| l.chars().count() <= 200), "{}", key.path);
    }
    for table in footwell::spec::TABLES {
        assert!(footwell::cli::explain::explanation(table).is_ok(), "{table}");
    }
    for product in footwell::tables::products::ALL {
        assert!(footwell::cli::explain::explanation(product.name).unwrap().contains(product.name));
    }
    for rule in footwell::rules::ALL {
        let text = footwell::cli::explain::explanation(rule.id).unwrap();
        assert!(text.contains("why:") && text.contains("source:"), "{}", rule.id);
    }
    let place = tempfile::tempdir().unwrap();
    let lost = footwell(place.path(), &["explain", "inlet.up.sil"]);
    assert_eq!(code(&lost), 2);
    assert!(err(&lost).contains("did you mean inlet.up.sill?"), "{}", err(&lost));
}

#[test]
fn a_survey_fails_and_says_what_would_pass() {
    let place = tempfile::tempdir().unwrap();
    footwell(place.path(), &["start", "survey"]);
    let check = footwell(place.path(), &["check", "survey.toml"]);
    assert_eq!(code(&check), 1);
    let text = out(&check);
    for wanted in ["inlet-up-sill", "door-mesh", "sensor-panels", "tapped-shaft-end", "would pass: inlet.up.sill", "NOT FOR FABRICATION"] {
        assert!(text.contains(wanted), "{wanted} is missing in:\n{text}");
    }
    let draw = footwell(place.path(), &["draw", "survey.toml"]);
    assert_eq!(code(&draw), 1);
    assert!(place.path().join("survey/checks.json").exists(), "a survey is drawn even though it fails");
}

/// The sample title block takes the place of ours on every sheet; the rules' outcome and an empty approval stay.
#[test]
fn a_title_block_of_ones_own() {
    let place = tempfile::tempdir().unwrap();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let block = root.join("templates/title_block.dxf");
    let spec = root.join("templates/grain_intake.toml");
    let draw = |block: &Path, folder: &str| {
        footwell(place.path(), &["draw", spec.to_str().unwrap(), "--only", "pit", "--formats", "svg", "--title-block", block.to_str().unwrap(), "-o", folder])
    };
    let drawn = draw(&block, "own");
    assert_eq!(code(&drawn), 0, "{}", err(&drawn));
    assert!(!err(&drawn).contains("defect"), "{}", err(&drawn));
    let sheet = std::fs::read_to_string(place.path().join("own/sheets/pit.svg")).unwrap();
    for there in [">DM-1101  A<", ">1 of ", ">PIT, ", "TO BE APPROVED", ">approved<", ">Demonstration mill<"] {
        assert!(sheet.contains(there), "{there}");
    }
    for gone in ["Approved by", "{", "ISO 7200"] {
        assert!(!sheet.split("</style>").nth(1).unwrap().contains(gone), "{gone}");
    }
    let text = std::fs::read_to_string(&block).unwrap();
    for (wrong, said) in [(text.replace("{TITLE}", "title"), "{TITLE}"), (text.replace("{OWNER}", "{BOSS}"), "{BOSS}"), ("no drawing".into(), "DXF")] {
        std::fs::write(place.path().join("wrong.dxf"), wrong).unwrap();
        let refused = draw(Path::new("wrong.dxf"), "refused");
        assert_eq!(code(&refused), 2);
        assert!(err(&refused).contains("wrong.dxf") && err(&refused).contains(said), "{}", err(&refused));
        assert!(!place.path().join("refused").exists());
    }
}

/// The civil engineer's set: pit sheets, loads, quantities and the pit's checks, nothing of the machine's plates;
/// tables and checks are those of the whole set.
#[test]
fn only_the_pit_is_a_set_of_its_own() {
    let place = tempfile::tempdir().unwrap();
    for (starter, compared) in [("grain_intake", false), ("tall_bend", true)] {
        footwell(place.path(), &["start", starter]);
        let spec = format!("{starter}.toml");
        let pit = footwell(place.path(), &["draw", &spec, "--only", "pit"]);
        assert_eq!(code(&pit), 0, "{starter}: {}", err(&pit));
        let whole = footwell(place.path(), &["draw", &spec, "-o", "whole", "--formats", "svg"]);
        assert_eq!(code(&whole), 0, "{starter}: {}", err(&whole));
        let folder = place.path().join(format!("{starter}_pit"));
        let names = made(&folder);
        for name in &names {
            let sheet = name.starts_with("sheets/pit") || name.starts_with("sheets/compare") || **name == format!("sheets/{starter}.pdf");
            let others = ["checks.json", "loads.csv", "actions.csv", "quantities.csv", "comparison.csv", "report.html", "report.txt"];
            assert!(sheet || others.contains(&name.as_str()), "{starter}: {name}");
        }
        for wanted in ["sheets/pit.dxf", "sheets/pit.svg", "sheets/pit-loads.svg", "checks.json", "loads.csv", "actions.csv", "quantities.csv", "report.txt"] {
            assert!(names.iter().any(|n| n == wanted), "{starter}: {wanted} is missing in {names:?}");
        }
        assert_eq!(names.iter().any(|n| n == "sheets/compare.svg"), compared, "{starter}");
        assert_eq!(names.iter().any(|n| n == "comparison.csv"), compared, "{starter}");
        let read = |at: &Path, name: &str| std::fs::read(at.join(name)).unwrap();
        for table in ["loads.csv", "actions.csv", "quantities.csv"] {
            assert_eq!(read(&folder, table), read(&place.path().join("whole"), table), "{starter}: {table}");
        }
        // The sheets are those of the whole set but for one line of their title block: sheet n of m.
        for name in names.iter().filter(|n| n.ends_with(".svg")) {
            let (own, set) = (read(&folder, name), read(&place.path().join("whole"), name));
            let (own, set) = (String::from_utf8(own).unwrap(), String::from_utf8(set).unwrap());
            assert_eq!(own.lines().count(), set.lines().count(), "{starter}: {name}");
            let other: Vec<&str> = own.lines().zip(set.lines()).filter(|(a, b)| a != b).map(|(a, _)| a).collect();
            assert!(other.len() == 1 && other[0].contains(" / "), "{starter}: {name} differs from the whole set in {other:#?}");
        }
        let checks: serde_json::Value = serde_json::from_slice(&read(&folder, "checks.json")).unwrap();
        let whole: serde_json::Value = serde_json::from_slice(&read(&place.path().join("whole"), "checks.json")).unwrap();
        let about = checks["items"].as_array().unwrap();
        assert!(!about.is_empty());
        for item in about {
            let (rule, path) = (item["rule"].as_str().unwrap(), item["path"].as_str().unwrap());
            assert!(rule.starts_with("pit-") || path.starts_with("pit."), "{starter}: {rule}");
            assert!(whole["items"].as_array().unwrap().contains(item), "{starter}: {rule}");
        }
        // The same set again, the same bytes.
        let before: Vec<Vec<u8>> = names.iter().map(|n| read(&folder, n)).collect();
        footwell(place.path(), &["draw", &spec, "--only", "pit"]);
        assert!(names.iter().zip(&before).all(|(n, b)| read(&folder, n) == *b), "{starter}");
    }
    // A rule that fails is said by the exit code; the set is drawn all the same.
    footwell(place.path(), &["start", "survey"]);
    assert_eq!(code(&footwell(place.path(), &["draw", "survey.toml", "--only", "pit"])), 1);
    assert!(place.path().join("survey_pit/sheets/pit.svg").exists());
}

/// A change that a revision names marks a dimension, or the user is told where and what to type; the exit code stays.
#[test]
fn a_change_that_marks_nothing_is_told() {
    let place = tempfile::tempdir().unwrap();
    let spec = |changed: &str| {
        let (before, after) = footwell::cli::starters::ALL[0].text.split_once("[[revision]]\n").unwrap();
        std::fs::write(place.path().join("r.toml"), format!("{before}[[revision]]\nchanged = \"{changed}\"\n{after}")).unwrap();
        footwell(place.path(), &["check", "r.toml"])
    };
    let good = spec("inlet.up.sill, casing");
    assert_eq!((code(&good), err(&good).as_str()), (0, ""));
    let wrong = spec("inlet.up.sil, casing");
    assert_eq!(code(&wrong), 0);
    let line = std::fs::read_to_string(place.path().join("r.toml")).unwrap().lines().position(|l| l.starts_with("changed")).unwrap() + 1;
    for word in [format!("r.toml:{line}:12"), "nothing is called \"inlet.up.sil\"".into(), "did you mean \"inlet.up.sill\"?".into(), "1 warning".into()] {
        assert!(err(&wrong).contains(&word), "{word}: {}", err(&wrong));
    }
    let silent = spec("casing, product.lump");
    assert_eq!(code(&silent), 0);
    for word in [format!("r.toml:{line}:20"), "no sheet dimensions \"product.lump\"".into(), "a property of the material".into(), "leave it out".into()] {
        assert!(err(&silent).contains(&word), "{word}: {}", err(&silent));
    }
    let drawn = footwell(place.path(), &["draw", "r.toml", "--formats", "svg"]);
    assert_eq!(code(&drawn), 0);
    assert!(err(&drawn).contains("product.lump"), "{}", err(&drawn));
}
