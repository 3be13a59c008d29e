//! What an output folder promises, on small sets; kills at random moments are in `tests/kills.rs`.
#![allow(clippy::unwrap_used)]

use super::change::Change;
use super::*;

fn file(path: &str, text: &str) -> OutputFile {
    OutputFile { path: path.into(), bytes: text.as_bytes().to_vec() }
}

fn put(folder: &Path, files: &[OutputFile]) -> Result<Written, String> {
    write(folder, &Set { files, spec_hash: "0123456789ab" }, false)
}

fn listing(folder: &Path) -> Vec<String> {
    fn walk(root: &Path, inner: &Path, found: &mut Vec<String>) {
        let mut empty = true;
        for entry in fs::read_dir(root.join(inner)).unwrap() {
            let entry = entry.unwrap();
            empty = false;
            let path = inner.join(entry.file_name());
            if entry.file_type().unwrap().is_dir() { walk(root, &path, found) } else { found.push(path.display().to_string()) }
        }
        if empty && !inner.as_os_str().is_empty() {
            found.push(inner.display().to_string());
        }
    }
    let mut found = Vec::new();
    walk(folder, Path::new(""), &mut found);
    found.sort();
    found
}

#[test]
fn a_second_run_replaces_ours_and_keeps_the_rest() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("deep/out");
    put(&folder, &[file("a.svg", "1"), file("cut/b.dxf", "2"), file("cut/e.dxf", "2")]).unwrap();
    assert_eq!(listing(&folder), [MARKER, "a.svg", "cut/b.dxf", "cut/e.dxf"]);
    fs::write(folder.join("notes.txt"), "mine").unwrap();
    fs::write(folder.join("cut/mine.dxf"), "mine").unwrap();
    fs::create_dir(folder.join("empty")).unwrap();
    let written = put(&folder, &[file("a.svg", "3"), file("c.svg", "4"), file("cut/b.dxf", "2")]).unwrap();
    assert_eq!(written, Written { gone: vec!["cut/e.dxf".into()], left: Vec::new() });
    assert_eq!(listing(&folder), [MARKER, "a.svg", "c.svg", "cut/b.dxf", "cut/mine.dxf", "empty", "notes.txt"]);
    assert_eq!(fs::read_to_string(folder.join("a.svg")).unwrap(), "3");
    assert_eq!(fs::read_to_string(folder.join("notes.txt")).unwrap(), "mine");
    assert_eq!(standing(&folder), Some(Some("0123456789ab".into())));
    // Nothing is left beside it.
    assert_eq!(fs::read_dir(place.path().join("deep")).unwrap().count(), 1);
}

#[test]
fn a_foreign_folder_is_not_touched() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("photos");
    fs::create_dir(&folder).unwrap();
    fs::write(folder.join("a.svg"), "photo").unwrap();
    let why = put(&folder, &[file("a.svg", "1")]).unwrap_err();
    assert!(why.contains("not made by footwell"), "{why}");
    assert_eq!(listing(&folder), ["a.svg"]);
    assert_eq!(fs::read_to_string(folder.join("a.svg")).unwrap(), "photo");
    assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1);
    assert_eq!((recover(&folder, false), standing(&folder)), (Ok(None), None));
}

#[test]
fn a_foreign_file_in_our_folder_is_not_overwritten() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    put(&folder, &[file("a.svg", "1")]).unwrap();
    fs::write(folder.join("b.svg"), "mine").unwrap();
    fs::write(folder.join("sheets"), "mine").unwrap();
    for (path, said) in [("b.svg", "b.svg is not from footwell"), ("sheets/a.svg", "sheets/a.svg is not from footwell")] {
        let why = put(&folder, &[file("a.svg", "2"), file(path, "2")]).unwrap_err();
        assert!(why.contains(said), "{why}");
        assert_eq!(fs::read_to_string(folder.join("a.svg")).unwrap(), "1");
    }
    assert_eq!(listing(&folder), [MARKER, "a.svg", "b.svg", "sheets"]);
}

/// A link that the user made in our folder is theirs, and so is what it points at.
#[cfg(unix)]
#[test]
fn links_are_not_followed_nor_replaced() {
    let place = tempfile::tempdir().unwrap();
    let (folder, other) = (place.path().join("out"), place.path().join("other.svg"));
    put(&folder, &[file("a.svg", "1"), file("b.svg", "1")]).unwrap();
    fs::write(&other, "mine").unwrap();
    fs::remove_file(folder.join("a.svg")).unwrap();
    std::os::unix::fs::symlink(&other, folder.join("a.svg")).unwrap();
    assert!(put(&folder, &[file("a.svg", "2"), file("b.svg", "2")]).unwrap_err().contains("a.svg is not from footwell"));
    put(&folder, &[file("b.svg", "2")]).unwrap();
    assert_eq!(fs::read_to_string(other).unwrap(), "mine");
    assert!(folder.join("a.svg").is_symlink());
}

#[test]
fn an_empty_folder_is_used_and_a_file_is_refused() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    fs::create_dir(&folder).unwrap();
    put(&folder, &[file("a.svg", "1")]).unwrap();
    assert!(folder.join("a.svg").exists());
    let plain = place.path().join("plain");
    fs::write(&plain, "x").unwrap();
    assert!(put(&plain, &[file("a.svg", "1")]).unwrap_err().contains("is a file"));
}

#[test]
fn names_stay_inside() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    for bad in ["../a", "/etc/a", "", MARKER, WORK, ".footwell-new/plan", LOCK, "a/../b", "a\nb"] {
        assert!(put(&folder, &[file(bad, "1")]).is_err(), "{bad}");
    }
    assert!(put(&folder, &[file("a", "1"), file("a", "2")]).unwrap_err().contains("twice"));
    assert!(!folder.exists());
    // A marker that somebody has edited leads nowhere else.
    put(&folder, &[file("a", "1")]).unwrap();
    let outside = place.path().join("outside");
    fs::write(&outside, "mine").unwrap();
    fs::write(folder.join(MARKER), "a\n../outside\n").unwrap();
    put(&folder, &[file("a", "2")]).unwrap();
    assert!(outside.exists());
}

/// A file that cannot be written (its folder's name is taken by a file of the same run) leaves the old folder whole, and a new one unmade.
#[test]
fn a_failed_run_leaves_the_old_folder_whole() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    assert!(put(&folder, &[file("a.svg", "2"), file("a.svg/x", "3")]).is_err());
    assert!(!folder.exists());
    put(&folder, &[file("a.svg", "1")]).unwrap();
    assert!(put(&folder, &[file("a.svg", "2"), file("b.svg", "3"), file("b.svg/x", "3")]).unwrap_err().contains("is as it was"));
    assert_eq!(fs::read_to_string(folder.join("a.svg")).unwrap(), "1");
    assert_eq!(listing(&folder), [MARKER, "a.svg"]);
}

/// What the user has changed in a file of ours is neither overwritten nor deleted unasked; the same for kinds of files that a smaller set lacks.
#[test]
fn nothing_goes_without_a_word() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    let whole = [file("sheets/a.svg", "1"), file("sheets/a.dxf", "1"), file("sheets/b.svg", "1"), file("plates/p.dxf", "1")];
    put(&folder, &whole).unwrap();
    let why = put(&folder, &[file("sheets/a.svg", "2")]).unwrap_err();
    assert!(why.contains("1 × plates/*.dxf, 1 × sheets/*.dxf") && !why.contains("sheets/*.svg") && why.contains("--replace"), "{why}");
    assert_eq!(listing(&folder).len(), 5);
    fs::write(folder.join("sheets/a.svg"), "edited").unwrap();
    let next = [file("sheets/a.svg", "2"), file("sheets/a.dxf", "2"), file("plates/p.dxf", "1")];
    let why = put(&folder, &next).unwrap_err();
    assert!(why.contains("changed since") && why.contains("sheets/a.svg"), "{why}");
    assert_eq!(fs::read_to_string(folder.join("sheets/a.dxf")).unwrap(), "1");
    // One that is changed and no longer made stays and becomes the user's own.
    fs::write(folder.join("sheets/a.svg"), "1").unwrap();
    fs::write(folder.join("sheets/b.svg"), "edited").unwrap();
    assert_eq!(put(&folder, &next).unwrap().left, ["sheets/b.svg"]);
    assert!(put(&folder, &whole).unwrap_err().contains("b.svg is not from footwell"));
    fs::write(folder.join("sheets/a.svg"), "edited").unwrap();
    let small = [file("sheets/a.svg", "3")];
    assert_eq!(write(&folder, &Set { files: &small, spec_hash: "" }, true).unwrap().gone, ["plates/p.dxf", "sheets/a.dxf"]);
    assert_eq!(listing(&folder), [MARKER, "sheets/a.svg", "sheets/b.svg"]);
}

/// The folder stays the same folder with its rights, and so do files; what is already right keeps its time.
#[cfg(unix)]
#[test]
fn rights_and_times_stay() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt};
    let place = tempfile::tempdir().unwrap();
    let (folder, plain) = (place.path().join("out"), place.path().join("plain"));
    put(&folder, &[file("a.svg", "1"), file("b.svg", "1")]).unwrap();
    fs::create_dir(&plain).unwrap();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&folder), mode(&plain));
    for (path, to) in [(folder.clone(), 0o750), (folder.join("a.svg"), 0o640)] {
        fs::set_permissions(path, fs::Permissions::from_mode(to)).unwrap();
    }
    let before = [fs::metadata(&folder).unwrap().ino(), fs::metadata(folder.join("b.svg")).unwrap().ino()];
    let time = fs::metadata(folder.join("b.svg")).unwrap().modified().unwrap();
    put(&folder, &[file("a.svg", "2"), file("b.svg", "1")]).unwrap();
    assert_eq!((mode(&folder), mode(&folder.join("a.svg"))), (0o750, 0o640));
    assert_eq!([fs::metadata(&folder).unwrap().ino(), fs::metadata(folder.join("b.svg")).unwrap().ino()], before);
    assert_eq!(fs::metadata(folder.join("b.svg")).unwrap().modified().unwrap(), time);
}

/// Every prefix of the steps of a change, as a kill would leave it: finished afterwards, or taken back where it was being taken back.
#[test]
fn a_run_broken_off_anywhere_is_ended() {
    for broken in 0..=4 {
        for undo in [false, true] {
            let place = tempfile::tempdir().unwrap();
            let folder = place.path().join("out");
            put(&folder, &[file("s/a", "1"), file("s/b", "1"), file("s/gone", "1")]).unwrap();
            fs::write(folder.join("s/mine"), "mine").unwrap();
            let old = listing(&folder);
            plant(&folder, broken, undo);
            let said = recover(&folder, false).unwrap().unwrap();
            let read = |path: &str| fs::read_to_string(folder.join(path)).ok();
            if undo {
                assert!(said.contains("whole again"), "{said}");
                assert_eq!(listing(&folder), old, "{broken}");
                assert_eq!((read("s/a"), read("s/gone")), (Some("1".into()), Some("1".into())));
            } else {
                assert!(said.contains("whole now"), "{said}");
                assert_eq!(listing(&folder), [MARKER, "new/c", "s/a", "s/b", "s/mine"], "{broken}");
                assert_eq!((read("s/a"), read("new/c")), (Some("2".into()), Some("2".into())));
            }
            assert_eq!(read("s/mine"), Some("mine".into()));
        }
    }
}

/// Leaves a folder as a run would that was killed after so many steps, on its way forward or after turning back.
fn plant(folder: &Path, steps_taken: usize, undo: bool) {
    let work = folder.join(WORK);
    let step = |path: &str, old: Option<&str>, new: Option<&str>| Step {
        path: path.into(),
        old: old.map(|t| hash(t.as_bytes())),
        new: new.map(|t| hash(t.as_bytes())),
    };
    let steps = [step("s/a", Some("1"), Some("2")), step("new/c", None, Some("2")), step("s/gone", Some("1"), None)];
    for inner in ["new/s", "new/new", "old/s"] {
        fs::create_dir_all(work.join(inner)).unwrap();
    }
    for (to, text) in [("new/s/a", "2"), ("new/new/c", "2"), ("old/s/a", "1"), ("old/s/gone", "1"), ("marker", "s/a\ns/b\nnew/c\n")] {
        fs::write(work.join(to), text).unwrap();
    }
    fs::write(work.join(if undo { "undo" } else { "plan" }), serde_json::to_vec(&steps).unwrap()).unwrap();
    if steps_taken > 0 {
        fs::rename(work.join("new/s/a"), folder.join("s/a")).unwrap();
    }
    if steps_taken > 1 {
        fs::create_dir(folder.join("new")).unwrap();
        fs::rename(work.join("new/new/c"), folder.join("new/c")).unwrap();
    }
    if steps_taken > 2 {
        fs::remove_file(folder.join("s/gone")).unwrap();
    }
    if steps_taken > 3 && !undo {
        fs::rename(work.join("marker"), folder.join(MARKER)).unwrap();
    }
}

/// Without a plan nothing was changed, and a folder made for the set goes again.
#[test]
fn what_was_only_prepared_is_dropped() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    fs::create_dir_all(folder.join(WORK).join("new/sheets")).unwrap();
    fs::write(folder.join(WORK).join("made"), "").unwrap();
    fs::write(folder.join(LOCK), "1").unwrap();
    assert!(recover(&folder, false).unwrap().unwrap().contains("before it changed anything"));
    assert!(!folder.exists());
}

/// A file that the user saves between a broken run and the next is theirs: the run is not finished over it unasked.
#[test]
fn what_was_saved_in_between_is_not_overwritten() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    put(&folder, &[file("s/a", "1"), file("s/b", "1"), file("s/gone", "1")]).unwrap();
    plant(&folder, 0, false);
    fs::write(folder.join("s/a"), "mine").unwrap();
    fs::write(folder.join("s/gone"), "mine too").unwrap();
    let why = recover(&folder, false).unwrap_err();
    assert!(why.contains("s/a was changed") && why.contains("--replace"), "{why}");
    assert_eq!(fs::read_to_string(folder.join("s/a")).unwrap(), "mine");
    recover(&folder, true).unwrap();
    assert_eq!(listing(&folder), [MARKER, "new/c", "s/a", "s/b", "s/gone"]);
    assert_eq!(fs::read_to_string(folder.join("s/a")).unwrap(), "2");
}

/// A step that the system refuses turns the whole change back.
#[test]
fn a_refused_step_takes_all_back() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("out");
    put(&folder, &[file("a", "1"), file("b", "1")]).unwrap();
    let step = |path: &str, old: Option<&str>| Step { path: path.into(), old: old.map(|t| hash(t.as_bytes())), new: Some(hash(b"2")) };
    // Something comes to stand in the way of the third step only after it was planned.
    fs::create_dir(folder.join("c")).unwrap();
    let steps = [step("a", Some("1")), step("b", Some("1")), step("c", None)];
    assert!(Change::of(&folder).make(&steps, |_| b"2", "a\nb\nc\n", false).is_err());
    assert_eq!(listing(&folder), [MARKER, "a", "b", "c"]);
    assert_eq!(fs::read_to_string(folder.join("a")).unwrap(), "1");
    assert_eq!(fs::read_to_string(folder.join("b")).unwrap(), "1");
}
