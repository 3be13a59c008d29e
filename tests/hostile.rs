//! What is thrown at the program from outside: hostile texts, huge specs, full disks, broken title blocks. It says what is wrong and ends.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use std::fmt::Write as _;
use std::fs::{self, File};
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

const BIN: &str = env!("CARGO_BIN_EXE_footwell");

/// Longest that a command may take here; the machine may be busy and the program is not optimised.
const LONGEST: Duration = Duration::from_secs(120);

fn footwell(folder: &Path, arguments: &[&str]) -> Output {
    let from = Instant::now();
    let output = Command::new(BIN).args(arguments).current_dir(folder).env("NO_COLOR", "1").output().unwrap();
    assert!(from.elapsed() < LONGEST, "{arguments:?} took {:?}", from.elapsed());
    output
}

fn code(output: &Output) -> i32 {
    output.status.code().unwrap_or_else(|| panic!("ended by a signal: {output:?}"))
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn starter(folder: &Path, name: &str) -> String {
    assert_eq!(code(&footwell(folder, &["start", name, "--replace"])), 0);
    fs::read_to_string(folder.join(format!("{name}.toml"))).unwrap()
}

#[test]
fn huge_specs_end_soon_and_say_little() {
    let place = tempfile::tempdir().unwrap();
    let keys = |n: usize| {
        (0..n).fold(String::from("[duty]\n"), |mut t, i| {
            let _ = writeln!(t, "key{i} = 1");
            t
        })
    };
    let tables = |n: usize| {
        (0..n).fold(String::new(), |mut t, i| {
            let _ = writeln!(t, "[table{i}]\na = 1");
            t
        })
    };
    let doors = |n: usize| {
        (0..n).fold(starter(place.path(), "grain_intake"), |mut t, i| {
            let _ = writeln!(t, "[[door]]\non = \"{}\"\nsill = \"{} mm\"", ["near side", "far side", "up end", "down end"][i % 4], 500 + 37 * i);
            t
        })
    };
    for (name, text) in [("keys", keys(100_000)), ("tables", tables(50_000)), ("doors", doors(500)), ("nested", format!("a = {}", "[".repeat(100_000)))] {
        fs::write(place.path().join("huge.toml"), text).unwrap();
        for json in [false, true] {
            let check = footwell(place.path(), if json { &["check", "huge.toml", "--json"] } else { &["check", "huge.toml"] });
            assert_eq!(code(&check), 1, "{name}");
            assert!(json || check.stderr.len() < 60_000, "{name}: {} bytes", check.stderr.len());
        }
    }
    fs::write(place.path().join("huge.toml"), "x = 1\n".repeat(1_000_000)).unwrap();
    let large = footwell(place.path(), &["check", "huge.toml"]);
    assert_eq!((code(&large), err(&large).contains("larger than 4 MB")), (2, true));
}

/// As many doors as are taken, on all walls, are judged in bearable time.
#[test]
fn as_many_doors_as_there_may_be() {
    let place = tempfile::tempdir().unwrap();
    let text = starter(place.path(), "grain_intake");
    let (before, after) = text.split_once("[[door]]").map_or((text.as_str(), ""), |(b, _)| (b, ""));
    let doors: String = (0..24).map(|i| format!("[[door]]\non = \"{}\"\nsill = \"{} mm\"\n", ["near side", "up end"][i % 2], 600 + 40 * i)).collect();
    fs::write(place.path().join("doors.toml"), format!("{before}{after}\n{doors}")).unwrap();
    assert_eq!(code(&footwell(place.path(), &["check", "doors.toml"])), 1);
}

#[test]
fn nothing_in_a_spec_steers_the_terminal() {
    let place = tempfile::tempdir().unwrap();
    let text = starter(place.path(), "grain_intake");
    for (i, hostile) in ["\\u001b]0;owned\\u0007", "\\u009b2J", "a\\nb", "\\u202egnp.exe"].iter().enumerate() {
        let name = format!("h{i}.toml");
        let (head, rest) = text.split_once("[project]").unwrap();
        fs::write(place.path().join(&name), format!("{head}[project]\nsite = \"{hostile}\"\n{}", rest.replacen("site ", "#", 1))).unwrap();
        let check = footwell(place.path(), &["check", &name]);
        let shown = [check.stdout.clone(), check.stderr.clone()].concat();
        let shown = String::from_utf8(shown).unwrap();
        assert!(shown.chars().all(|c| c == '\n' || !(c.is_control() || ('\u{202a}'..='\u{202e}').contains(&c))), "{hostile}: {shown:?}");
        assert_eq!(code(&check), 1, "{hostile}: {shown}");
        assert!(shown.contains("project.site"), "{shown}");
    }
    // An unknown key and a file name with the same.
    fs::write(place.path().join("e\u{1b}[31m.toml"), "[\"\\u001b[2J\"]\n").unwrap();
    let check = footwell(place.path(), &["check", "e\u{1b}[31m.toml"]);
    assert!(!err(&check).contains('\u{1b}') && code(&check) == 1, "{}", err(&check));
}

/// What the font lacks is said where it stands, before anything is drawn.
#[test]
fn characters_without_a_glyph() {
    let place = tempfile::tempdir().unwrap();
    let text = starter(place.path(), "grain_intake");
    fs::write(place.path().join("cjk.toml"), text.replacen("[project]", "[project]\nsite = \"漢字\" #", 1).replacen("\nsite  ", "\n#", 1)).unwrap();
    let check = footwell(place.path(), &["check", "cjk.toml"]);
    assert_eq!(code(&check), 1);
    assert!(err(&check).contains("project.site") && err(&check).contains("U+6F22"), "{}", err(&check));
}

/// Line ends are no part of what a spec says.
#[test]
fn line_ends_do_not_change_the_hash() {
    let place = tempfile::tempdir().unwrap();
    let text = starter(place.path(), "pellets");
    let hash = |text: String| {
        fs::write(place.path().join("ends.toml"), text).unwrap();
        let check = footwell(place.path(), &["check", "ends.toml", "--json"]);
        serde_json::from_slice::<serde_json::Value>(&check.stdout).unwrap()["spec_hash"].as_str().unwrap().to_string()
    };
    assert_eq!(hash(text.clone()), hash(text.replace('\n', "\r\n")));
    assert_ne!(hash(text.clone()), hash(format!("{text}\n")));
}

#[cfg(target_os = "linux")]
#[test]
fn results_that_cannot_be_written() {
    let place = tempfile::tempdir().unwrap();
    starter(place.path(), "pellets");
    for arguments in [&["check", "pellets.toml"][..], &["check", "pellets.toml", "--json"], &["explain"], &["start", "-o", "-"], &["--help"], &["licences"]] {
        let full = File::options().write(true).open("/dev/full").unwrap();
        let child = Command::new(BIN).args(arguments).current_dir(place.path()).stdout(full).stderr(Stdio::piped()).spawn().unwrap();
        let output = child.wait_with_output().unwrap();
        assert_eq!(code(&output), 2, "{arguments:?}");
        assert!(err(&output).contains("cannot write the results"), "{arguments:?}: {}", err(&output));
    }
    // Who has read enough closes the pipe.
    let mut child = Command::new(BIN).args(["explain", "rules"]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    assert_eq!(code(&child.wait_with_output().unwrap()), 0);
}

#[test]
fn files_of_other_kinds() {
    let place = tempfile::tempdir().unwrap();
    for (name, content, said) in [
        ("ga.dxf", "  0\nSECTION\n  2\nHEADER\n".to_string() + &"  0\nLINE\n".repeat(200_000), "a DXF drawing"),
        ("ga.pdf", "%PDF-1.7".into(), "a PDF"),
        ("ga.svg", "<?xml version=\"1.0\"?>".into(), "an XML or SVG file"),
    ] {
        fs::write(place.path().join(name), content).unwrap();
        let check = footwell(place.path(), &["check", name]);
        assert_eq!(code(&check), 2);
        assert!(err(&check).contains(said) && err(&check).lines().count() == 1, "{name}: {}", err(&check));
    }
}

/// A user's bad title block is the user's: named by its file, before anything is written.
#[test]
fn title_blocks_that_cannot_be() {
    let place = tempfile::tempdir().unwrap();
    starter(place.path(), "grain_intake");
    let block = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/title_block.dxf")).unwrap();
    let entity = |lines: &str| {
        let at = block.find("ENTITIES").unwrap();
        let at = at + block[at..].find('\n').unwrap() + 1;
        format!("{}{lines}{}", &block[..at], &block[at..])
    };
    let two = |bulge: &str| format!("  0\nLWPOLYLINE\n  8\n0\n 90\n2\n 70\n0\n 10\n0\n 20\n0\n 42\n{bulge}\n 10\n50\n 20\n0\n");
    for (text, said) in [
        (entity(&two("1e300")), "beyond any drawing"),
        (entity(&two("1e6")), "arc of no shape"),
        (entity("  0\nCIRCLE\n  8\n0\n 10\n5\n 20\n5\n 40\n0\n"), "without a radius"),
        (entity("  0\nLINE\n  8\n0\n 10\n0\n 20\n0\n 11\n1e7\n 21\n0\n"), "which no sheet can hold"),
        ("AutoCAD Binary DXF\r\n\u{1a}\0".into(), "binary DXF"),
        (block[..block.len() / 2].to_string(), "bad.dxf"),
    ] {
        fs::write(place.path().join("bad.dxf"), text).unwrap();
        let draw = footwell(place.path(), &["draw", "grain_intake.toml", "--only", "pit", "--formats", "svg", "--title-block", "bad.dxf"]);
        assert_eq!(code(&draw), 2, "{said}: {}", err(&draw));
        assert!(err(&draw).contains("bad.dxf") && err(&draw).contains(said) && !err(&draw).contains("defect of the program"), "{said}: {}", err(&draw));
        assert!(!place.path().join("grain_intake_pit").exists());
    }
    // A date beyond the calendar is nobody's business.
    let dated = block.replacen("$INSUNITS", "$TDCREATE\n 40\n99999999999999999999\n  9\n$INSUNITS", 1);
    fs::write(place.path().join("dated.dxf"), dated).unwrap();
    let draw = footwell(place.path(), &["draw", "grain_intake.toml", "--only", "pit", "--formats", "svg", "--title-block", "dated.dxf"]);
    assert_eq!(code(&draw), 0, "{}", err(&draw));
}

/// A draw that fails says what still lies there; one that would take files away asks first.
#[test]
fn what_stands_in_the_folder_is_told() {
    let place = tempfile::tempdir().unwrap();
    let text = starter(place.path(), "grain_intake");
    let draw = |more: &[&str]| footwell(place.path(), &[&["draw", "grain_intake.toml", "--only", "pit", "-o", "set"], more].concat());
    let svg = ["--formats", "svg"];
    assert_eq!(code(&draw(&["--formats", "svg,dxf"])), 0);
    let fewer = draw(&svg);
    assert_eq!(code(&fewer), 2);
    assert!(err(&fewer).contains("sheets/*.dxf") && err(&fewer).contains("--replace"), "{}", err(&fewer));
    assert!(!err(&fewer).contains("older spec"), "{}", err(&fewer));
    let replaced = draw(&[&svg[..], &["--replace"]].concat());
    assert_eq!(code(&replaced), 0);
    assert!(err(&replaced).contains("taken away") && err(&replaced).contains(".dxf"), "{}", err(&replaced));
    let sheet = place.path().join("set/sheets/pit.svg");
    fs::write(&sheet, "mine").unwrap();
    let edited = draw(&svg);
    assert_eq!(code(&edited), 2);
    assert!(err(&edited).contains("changed since") && err(&edited).contains("sheets/pit.svg"), "{}", err(&edited));
    assert_eq!(fs::read_to_string(&sheet).unwrap(), "mine");
    fs::write(place.path().join("grain_intake.toml"), text.replacen("capacity", "capacty", 1)).unwrap();
    let failed = draw(&svg);
    assert_eq!(code(&failed), 1);
    assert!(err(&failed).contains("still holds the set of an older spec"), "{}", err(&failed));
}

/// Standard input in place of a file.
#[test]
fn a_spec_from_standard_input() {
    use std::io::Write;
    let place = tempfile::tempdir().unwrap();
    let text = starter(place.path(), "pellets");
    let run = |arguments: &[&str]| {
        let mut child =
            Command::new(BIN).args(arguments).current_dir(place.path()).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        // It may end before it has read anything.
        let _ = child.stdin.take().unwrap().write_all(text.as_bytes());
        child.wait_with_output().unwrap()
    };
    let (piped, file) = (run(&["check", "-"]), footwell(place.path(), &["check", "pellets.toml"]));
    assert_eq!((code(&piped), &piped.stdout), (code(&file), &file.stdout));
    let nameless = run(&["draw", "-"]);
    assert_eq!((code(&nameless), err(&nameless).contains("-o")), (2, true));
    let dash = run(&["draw", "pellets.toml", "-o", "-"]);
    assert_eq!((code(&dash), err(&dash).contains("standard output")), (2, true));
    assert!(!place.path().join("-").exists());
}
