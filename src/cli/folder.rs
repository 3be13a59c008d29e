//! Output folders: written whole or not at all, and never at the cost of a file that is not ours.
//!
//! In: a folder and the files that belong in it. The new folder is made beside the old one and takes its place
//! by renaming. A folder that exists is replaced only when it is empty or holds the marker [`MARKER`], which lists the files that the
//! program made; every other file in it moves into the new folder. Not promised: safety against another program that writes into the folder at the same moment.

use crate::files::OutputFile;
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

/// Name of the marker file.
pub const MARKER: &str = ".footwell";

const MARKER_HEAD: &str = "# Made by footwell. The files named below are replaced on the next run; all others are kept.";

/// Writes the folder.
///
/// # Errors
/// A plain sentence; the folder is then as it was before.
pub fn write(folder: &Path, files: &[OutputFile]) -> Result<(), String> {
    let shown = folder.display();
    let ours = relative_paths(files)?;
    let folder = absolute(folder).map_err(|why| format!("cannot find the place of {shown}: {why}"))?;
    let parent = folder.parent().ok_or_else(|| format!("{shown} cannot be an output folder"))?;
    let kept = kept_files(&folder, &ours)?;
    let failed = |what: &Path, why: io::Error| format!("cannot write {}: {why}", what.display());
    fs::create_dir_all(parent).map_err(|why| failed(parent, why))?;
    let new = beside(parent)?;
    for file in files {
        let path = new.path().join(&file.path);
        if let Some(inner) = path.parent() {
            fs::create_dir_all(inner).map_err(|why| failed(inner, why))?;
        }
        fs::write(&path, &file.bytes).map_err(|why| failed(&path, why))?;
    }
    let marker = new.path().join(MARKER);
    let names: Vec<&str> = ours.iter().map(String::as_str).collect();
    fs::write(&marker, format!("{MARKER_HEAD}\n{}\n", names.join("\n"))).map_err(|why| failed(&marker, why))?;
    swap(&folder, parent, new, &kept)
}

/// A new folder beside, with ordinary permissions.
fn beside(parent: &Path) -> Result<tempfile::TempDir, String> {
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    let ordinary = <fs::Permissions as std::os::unix::fs::PermissionsExt>::from_mode(0o777);
    #[cfg(unix)]
    builder.permissions(ordinary);
    builder.prefix(".footwell-").tempdir_in(parent).map_err(|why| format!("cannot write in {}: {why}", parent.display()))
}

/// Puts the new folder in the place of the old one, with the files to keep; undoes it all when a step fails.
fn swap(folder: &Path, parent: &Path, new: tempfile::TempDir, kept: &BTreeSet<PathBuf>) -> Result<(), String> {
    let failed = |why: io::Error| format!("cannot replace {}: {why}; it is as it was", folder.display());
    if !folder.exists() {
        fs::rename(new.path(), folder).map_err(failed)?;
        // The folder has moved away from the guard that would delete it.
        let _ = new.keep();
        return Ok(());
    }
    let old = beside(parent)?;
    let aside = old.path().join("old");
    fs::rename(folder, &aside).map_err(failed)?;
    let mut moved: Vec<(PathBuf, PathBuf)> = Vec::new();
    let result = (|| {
        for path in kept {
            let (from, to) = (aside.join(path), new.path().join(path));
            if let Some(inner) = to.parent() {
                fs::create_dir_all(inner)?;
            }
            if from.is_dir() && !from.is_symlink() {
                fs::create_dir_all(&to)?;
            } else {
                fs::rename(&from, &to)?;
                moved.push((from, to));
            }
        }
        fs::rename(new.path(), folder)
    })();
    match result {
        Ok(()) => {
            let _ = new.keep();
            Ok(())
        }
        Err(why) => {
            let mut whole = true;
            for (from, to) in moved.iter().rev() {
                whole &= fs::rename(to, from).is_ok();
            }
            whole &= fs::rename(&aside, folder).is_ok();
            if whole {
                return Err(failed(why));
            }
            // Nothing may be deleted now: leave both folders for the user to look at.
            let (old, new) = (old.keep(), new.keep());
            Err(format!("cannot replace {}: {why}; its files lie in {} and {}", folder.display(), old.display(), new.display()))
        }
    }
}

/// Absolute without needing to exist; `.` and `..` taken away.
fn absolute(folder: &Path) -> io::Result<PathBuf> {
    if folder.exists() {
        return fs::canonicalize(folder);
    }
    let name = folder.file_name().map(PathBuf::from).ok_or_else(|| io::Error::new(io::ErrorKind::InvalidInput, "a folder needs a name"))?;
    let parent = folder.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let parent = if parent.exists() { fs::canonicalize(parent)? } else { std::path::absolute(parent)? };
    Ok(parent.join(name))
}

/// The paths of the files, each plain and inside the folder, none twice.
fn relative_paths(files: &[OutputFile]) -> Result<BTreeSet<String>, String> {
    let mut all = BTreeSet::new();
    for file in files {
        let path = Path::new(&file.path);
        let plain = path.components().all(|c| matches!(c, Component::Normal(_))) && !file.path.is_empty() && file.path != MARKER;
        if !plain {
            return Err(format!("\"{}\" is not a file name inside an output folder", file.path));
        }
        if !all.insert(file.path.clone()) {
            return Err(format!("the file {} would be written twice", file.path));
        }
    }
    Ok(all)
}

/// What is in the folder and not ours, relative to it.
fn kept_files(folder: &Path, ours: &BTreeSet<String>) -> Result<BTreeSet<PathBuf>, String> {
    let shown = folder.display();
    if !folder.exists() {
        return Ok(BTreeSet::new());
    }
    if !folder.is_dir() {
        return Err(format!("{shown} is a file; give another folder with -o"));
    }
    let mut found = BTreeSet::new();
    walk(folder, Path::new(""), &mut found).map_err(|why| format!("cannot read {shown}: {why}"))?;
    if found.is_empty() {
        return Ok(found);
    }
    let marker = fs::read_to_string(folder.join(MARKER))
        .map_err(|_| format!("{shown} exists and was not made by footwell (it has no {MARKER}); give another folder with -o, or empty it"))?;
    let made: BTreeSet<PathBuf> = marker.lines().filter(|l| !l.starts_with('#') && !l.is_empty()).map(PathBuf::from).chain([PathBuf::from(MARKER)]).collect();
    found.retain(|path| !made.contains(path) && !made.iter().any(|m| m.starts_with(path)));
    for path in &found {
        let clash = ours.iter().any(|o| Path::new(o) == path || Path::new(o).starts_with(path) && folder.join(path).is_file());
        if clash {
            return Err(format!("{} is not from footwell and would be overwritten; move it or give another folder with -o", folder.join(path).display()));
        }
    }
    Ok(found)
}

/// Files and empty folders below; symbolic links are not followed.
fn walk(root: &Path, inner: &Path, found: &mut BTreeSet<PathBuf>) -> io::Result<()> {
    let mut empty = true;
    for entry in fs::read_dir(root.join(inner))? {
        let entry = entry?;
        empty = false;
        let path = inner.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            walk(root, &path, found)?;
        } else {
            found.insert(path);
        }
    }
    if empty && !inner.as_os_str().is_empty() {
        found.insert(inner.to_path_buf());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn file(path: &str, text: &str) -> OutputFile {
        OutputFile { path: path.into(), bytes: text.as_bytes().to_vec() }
    }

    fn listing(folder: &Path) -> Vec<String> {
        let mut found = BTreeSet::new();
        walk(folder, Path::new(""), &mut found).unwrap();
        found.iter().map(|p| p.display().to_string()).collect()
    }

    #[test]
    fn a_second_run_replaces_ours_and_keeps_the_rest() {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path().join("deep/out");
        write(&folder, &[file("a.svg", "1"), file("cut/b.dxf", "2")]).unwrap();
        assert_eq!(listing(&folder), [MARKER, "a.svg", "cut/b.dxf"]);
        fs::write(folder.join("notes.txt"), "mine").unwrap();
        fs::write(folder.join("cut/mine.dxf"), "mine").unwrap();
        fs::create_dir(folder.join("empty")).unwrap();
        write(&folder, &[file("a.svg", "3"), file("c.svg", "4")]).unwrap();
        assert_eq!(listing(&folder), [MARKER, "a.svg", "c.svg", "cut/mine.dxf", "empty", "notes.txt"]);
        assert_eq!(fs::read_to_string(folder.join("a.svg")).unwrap(), "3");
        assert_eq!(fs::read_to_string(folder.join("notes.txt")).unwrap(), "mine");
        // Nothing is left beside it.
        assert_eq!(fs::read_dir(place.path().join("deep")).unwrap().count(), 1);
    }

    #[test]
    fn a_foreign_folder_is_not_touched() {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path().join("photos");
        fs::create_dir(&folder).unwrap();
        fs::write(folder.join("a.svg"), "photo").unwrap();
        let why = write(&folder, &[file("a.svg", "1")]).unwrap_err();
        assert!(why.contains("not made by footwell"), "{why}");
        assert_eq!(listing(&folder), ["a.svg"]);
        assert_eq!(fs::read_to_string(folder.join("a.svg")).unwrap(), "photo");
        assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_foreign_file_in_our_folder_is_not_overwritten() {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path().join("out");
        write(&folder, &[file("a.svg", "1")]).unwrap();
        fs::write(folder.join("b.svg"), "mine").unwrap();
        let why = write(&folder, &[file("a.svg", "2"), file("b.svg", "2")]).unwrap_err();
        assert!(why.contains("b.svg is not from footwell"), "{why}");
        assert_eq!(fs::read_to_string(folder.join("a.svg")).unwrap(), "1");
    }

    #[test]
    fn an_empty_folder_is_used_and_a_file_is_refused() {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path().join("out");
        fs::create_dir(&folder).unwrap();
        write(&folder, &[file("a.svg", "1")]).unwrap();
        assert!(folder.join("a.svg").exists());
        let plain = place.path().join("plain");
        fs::write(&plain, "x").unwrap();
        assert!(write(&plain, &[file("a.svg", "1")]).unwrap_err().contains("is a file"));
    }

    #[test]
    fn names_stay_inside() {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path().join("out");
        for bad in ["../a", "/etc/a", "", MARKER, "a/../b"] {
            assert!(write(&folder, &[file(bad, "1")]).is_err(), "{bad}");
        }
        assert!(write(&folder, &[file("a", "1"), file("a", "2")]).unwrap_err().contains("twice"));
        assert!(!folder.exists());
    }

    /// A file that cannot be written (its folder's name is taken by a file of the same run) leaves the old folder whole.
    #[test]
    fn a_failed_run_leaves_the_old_folder_whole() {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path().join("out");
        write(&folder, &[file("a.svg", "1")]).unwrap();
        assert!(write(&folder, &[file("a.svg", "2"), file("a.svg/x", "3")]).is_err());
        assert_eq!(fs::read_to_string(folder.join("a.svg")).unwrap(), "1");
        assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn others_can_read_the_folder_as_usual() {
        use std::os::unix::fs::PermissionsExt;
        let place = tempfile::tempdir().unwrap();
        let (ours, plain) = (place.path().join("out"), place.path().join("plain"));
        write(&ours, &[file("a.svg", "1")]).unwrap();
        fs::create_dir(&plain).unwrap();
        assert_eq!(fs::metadata(&ours).unwrap().permissions().mode(), fs::metadata(&plain).unwrap().permissions().mode());
    }
}
