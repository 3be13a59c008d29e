//! A run killed at any moment leaves, after the next run, one whole set: the old one or the new one; files that are not the
//! program's are never moved, changed or lost, and nothing is left lying about.
//!
//! The writer is this test binary itself, started again for the test [`writer`]: it writes two sets in turn into one folder until it is killed.
//! Meanwhile somebody saves files into the same folder. `FOOTWELL_KILLS=1000` kills so often (about a minute a thousand).
#![cfg(unix)]
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::cli::folder::{self, MARKER, Set};
use footwell::files::OutputFile;
use std::collections::BTreeMap;
use std::fs;
use std::os::unix::fs::MetadataExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

const FOLDER: &str = "FOOTWELL_KILLED_FOLDER";

/// Two sets of about the shape of a real one: most files differ, some are the same, some are in one only.
fn sets() -> [Vec<OutputFile>; 2] {
    [0_usize, 1].map(|which| {
        let of = |folder: &str, i: usize, own: bool| OutputFile {
            path: format!("{folder}/{}{i}.txt", if own { ["a", "b"][which] } else { "c" }),
            bytes: format!("set {} file {folder} {i}\n", if i.is_multiple_of(9) { 9 } else { which }).repeat(200 + 40 * i).into_bytes(),
        };
        let mut files: Vec<OutputFile> = (0..40).map(|i| of("sheets", i, false)).chain((0..40).map(|i| of("plates", i, false))).collect();
        files.extend((0..8).map(|i| of("plates", i, true)).chain((0..4).map(|i| of(["lists", "model"][which], i, true))));
        files
    })
}

fn write(folder: &Path, which: usize, replace: bool) -> Result<folder::Written, String> {
    let files = &sets()[which];
    folder::write(folder, &Set { files, spec_hash: ["aaaaaaaaaaaa", "bbbbbbbbbbbb"][which] }, replace)
}

/// No test of its own: what is killed.
#[test]
#[ignore = "started by the other tests, and killed"]
fn writer() {
    let Some(folder) = std::env::var_os(FOLDER).map(PathBuf::from) else { return };
    for turn in 0.. {
        write(&folder, turn % 2, true).unwrap();
    }
}

/// A number that depends on the turn alone.
fn random(turn: u64) -> u64 {
    let mut x = turn.wrapping_add(1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    x = (x ^ (x >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    x = (x ^ (x >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    x ^ (x >> 31)
}

fn start(folder: &Path) -> Child {
    let own = std::env::current_exe().unwrap();
    Command::new(own).args(["--ignored", "--exact", "writer", "--nocapture"]).env(FOLDER, folder).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
}

/// Every file below with its content and its number on the disk, links not followed.
fn found(folder: &Path) -> BTreeMap<String, (Vec<u8>, u64)> {
    let (mut all, mut open) = (BTreeMap::new(), vec![folder.to_path_buf()]);
    while let Some(at) = open.pop() {
        for entry in fs::read_dir(at).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_str().unwrap().to_string();
                all.insert(name, (fs::read(&path).unwrap(), fs::metadata(&path).unwrap().ino()));
            }
        }
    }
    all
}

/// Which set stands in a folder beside the foreign files, or what is wrong with it.
fn judge(all: &BTreeMap<String, (Vec<u8>, u64)>, foreign: &BTreeMap<String, (Vec<u8>, u64)>) -> Result<usize, String> {
    for (name, file) in foreign {
        match all.get(name) {
            None => return Err(format!("lost: {name}")),
            Some(now) if now != file => return Err(format!("changed or moved: {name}")),
            Some(_) => {}
        }
    }
    let ours: BTreeMap<&str, &[u8]> =
        all.iter().filter(|(name, _)| !foreign.contains_key(*name) && *name != MARKER).map(|(name, file)| (name.as_str(), file.0.as_slice())).collect();
    let marker = String::from_utf8_lossy(&all.get(MARKER).ok_or("no marker")?.0).into_owned();
    for (which, set) in sets().iter().enumerate() {
        let wanted: BTreeMap<&str, &[u8]> = set.iter().map(|f| (f.path.as_str(), f.bytes.as_slice())).collect();
        if wanted == ours {
            let listed = marker.lines().filter(|l| !l.starts_with('#')).count();
            let hash = ["aaaaaaaaaaaa", "bbbbbbbbbbbb"][which];
            return if listed == wanted.len() && marker.contains(hash) { Ok(which) } else { Err(format!("the marker is of another set:\n{marker}")) };
        }
    }
    Err(format!("neither set: {:?}", ours.keys()))
}

/// Kills so many runs; what stands there after each is ended by the next call, as the next `draw` would.
fn kill(times: u64) {
    let place = tempfile::tempdir().unwrap();
    let (mut ended, mut which_set) = (BTreeMap::<&str, u32>::new(), [0_u32; 2]);
    let folder = place.path().join("out");
    write(&folder, 0, false).unwrap();
    fs::create_dir_all(folder.join("model")).unwrap();
    for name in ["notes.txt", "sheets/mine.dxf", "model/mine.txt"] {
        fs::write(folder.join(name), format!("mine: {name}")).unwrap();
    }
    let mut foreign: BTreeMap<_, _> = found(&folder).into_iter().filter(|(name, _)| name.contains("mine") || name == "notes.txt").collect();
    for turn in 0..times {
        let mut writers = vec![start(&folder)];
        if turn % 5 == 4 {
            writers.push(start(&folder));
        }
        let until = Instant::now() + Duration::from_micros(4_000 + random(turn) % 60_000);
        let mut saved = 0;
        while Instant::now() < until {
            // Somebody saves beside our files, and in our folders.
            let name = format!("{}saved-{}.txt", ["", "sheets/", "plates/"][saved % 3], saved % 7);
            if folder.join(&name).parent().unwrap().is_dir() {
                fs::write(folder.join(&name), format!("{turn} {saved}")).unwrap();
                foreign.insert(name.clone(), (fs::read(folder.join(&name)).unwrap(), fs::metadata(folder.join(&name)).unwrap().ino()));
            }
            saved += 1;
            std::thread::sleep(Duration::from_micros(700));
        }
        for (i, mut writer) in writers.into_iter().enumerate() {
            // KILL, TERM, INT in turn.
            match (turn + i as u64) % 3 {
                0 => writer.kill().unwrap(),
                signal => assert!(Command::new("kill").args([["-TERM", "-INT"][signal as usize - 1], &writer.id().to_string()]).status().unwrap().success()),
            }
            assert!(!writer.wait().unwrap().success(), "turn {turn}: the writer came to an end by itself");
        }
        let broken = folder.join(".footwell-new").exists();
        let said = folder::recover(&folder, false).unwrap_or_else(|why| panic!("turn {turn}: {why}"));
        *ended
            .entry(said.map_or(if broken { "silently" } else { "was whole" }, |s| if s.contains("whole now") { "finished" } else { "dropped" }))
            .or_default() += 1;
        // A lock that was left goes with the next writer.
        let _ = fs::remove_file(folder.join(".footwell-lock"));
        let which = judge(&found(&folder), &foreign).unwrap_or_else(|why| panic!("turn {turn}: {why}"));
        which_set[which] += 1;
        if turn % 10 == 9 {
            write(&folder, which, false).unwrap_or_else(|why| panic!("turn {turn}: {why}"));
            assert_eq!(judge(&found(&folder), &foreign), Ok(which), "turn {turn}");
            assert!(!folder.join(".footwell-lock").exists());
        }
    }
    println!("{times} kills: {ended:?}, sets {which_set:?}, {} foreign files", foreign.len());
}

#[test]
fn killed_at_any_moment() {
    kill(std::env::var("FOOTWELL_KILLS").map_or(40, |n| n.parse().unwrap()));
}

/// Does something wrong to the files of a folder.
type Spoil = fn(&mut BTreeMap<String, (Vec<u8>, u64)>);

/// What the judge must see: a file of the other set, one missing, one too many, foreign files lost or moved, a marker of the other set.
#[test]
fn planted_faults_are_seen() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    write(&folder, 0, false).unwrap();
    fs::write(folder.join("sheets/mine.dxf"), "mine").unwrap();
    let whole = found(&folder);
    let foreign: BTreeMap<_, _> = [("sheets/mine.dxf".to_string(), whole["sheets/mine.dxf"].clone())].into();
    assert_eq!(judge(&whole, &foreign), Ok(0));
    let faults: [(&str, Spoil); 7] = [
        ("neither", |all| all.get_mut("sheets/c1.txt").unwrap().0 = sets()[1][1].bytes.clone()),
        ("neither", |all| drop(all.remove("plates/a3.txt"))),
        ("neither", |all| drop(all.insert(".footwell-new/plan".into(), (Vec::new(), 0)))),
        ("lost", |all| drop(all.remove("sheets/mine.dxf"))),
        ("moved", |all| all.get_mut("sheets/mine.dxf").unwrap().1 += 1),
        ("marker", |all| all.get_mut(MARKER).unwrap().0 = b"# spec bbbbbbbbbbbb\n".to_vec()),
        ("marker", |all| drop(all.remove(MARKER))),
    ];
    for (said, fault) in faults {
        let mut all = whole.clone();
        fault(&mut all);
        let why = judge(&all, &foreign).unwrap_err();
        assert!(why.contains(said), "{said}: {why}");
    }
}
