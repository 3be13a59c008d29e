//! Output folders: written whole or not at all, and never at the cost of a file that is not ours.
//!
//! In: a folder and the files that belong in it. A folder that exists is written into only when it is empty or holds the marker
//! [`MARKER`], which lists the files that the program made; no other file in it is moved, renamed, replaced or deleted, and the folder
//! itself stays the same folder. A run that is broken off, at whatever moment, is finished or taken back by the next ([`recover`]); see
//! [`change`]. One writer at a time ([`lock`]). What a user has changed in a file of ours, and files that a smaller set
//! would take away, are told and need `--replace`. Not promised: that a set is whole when the power fails.

mod change;
mod lock;
mod marker;

use crate::files::OutputFile;
use change::{Change, Ended, Step, Stopped, There, WORK};
use lock::{LOCK, Lock};
pub use marker::MARKER;
use marker::{Marker, hash};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

/// How many names a message lists.
const NAMED: usize = 5;

/// A set as it is to stand in a folder.
#[derive(Debug, Clone, Copy)]
pub struct Set<'a> {
    /// Its files.
    pub files: &'a [OutputFile],
    /// Hash of the spec that it was made of, as the title block prints it.
    pub spec_hash: &'a str,
}

/// What was done.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Written {
    /// Files of the earlier set that this one does not have, and that are gone.
    pub gone: Vec<String>,
    /// Files of the earlier set that this one does not have, left because somebody else has changed them.
    pub left: Vec<String>,
}

/// Writes the folder; `replace` lets files go that the user has changed, and kinds of files that this set does not have.
///
/// # Errors
/// A plain sentence; the folder is then as it was before, or the next run makes it so.
pub fn write(folder: &Path, set: &Set<'_>, replace: bool) -> Result<Written, String> {
    let paths = relative_paths(set.files)?;
    let shown = folder.display().to_string();
    let folder = absolute(folder).map_err(|why| format!("cannot find the place of {shown}: {why}"))?;
    refuse_foreign(&folder, &shown)?;
    let made = !folder.exists();
    fs::create_dir_all(&folder).map_err(|why| format!("cannot write {shown}: {why}"))?;
    let written = written(&folder, &shown, set, &paths, (replace, made));
    if made && written.is_err() {
        // Only if nothing is in it.
        let _ = fs::remove_dir(&folder);
    }
    written
}

fn written(folder: &Path, shown: &str, set: &Set<'_>, paths: &BTreeSet<&str>, (replace, made): (bool, bool)) -> Result<Written, String> {
    let _lock = Lock::take(folder)?;
    // Somebody may have been quicker.
    refuse_foreign(folder, shown)?;
    let broken_off =
        |stopped: Stopped| format!("{shown}: a run before this was broken off and cannot be finished: {stopped}; move that file away, or use --replace");
    Change::of(folder).end(replace).map_err(broken_off)?;
    let before = Marker::read(folder).map_err(|why| format!("cannot read {}: {why}", folder.join(MARKER).display()))?.unwrap_or_default();
    let hashes: BTreeMap<String, Option<String>> = set.files.iter().map(|f| (f.path.clone(), Some(hash(&f.bytes)))).collect();
    let marker = Marker { spec: Some(set.spec_hash.into()), files: hashes };
    let (steps, written) = steps(folder, shown, paths, (&before, &marker, replace))?;
    let marker = marker.print();
    let bytes: BTreeMap<&str, &[u8]> = set.files.iter().map(|f| (f.path.as_str(), f.bytes.as_slice())).collect();
    let of = |path: &str| bytes.get(path).copied().unwrap_or_default();
    Change::of(folder).make(&steps, of, &marker, made).map_err(|stopped| match stopped {
        _ if folder.join(WORK).exists() => format!("{stopped}; the next run into {shown} puts the earlier set back"),
        stopped => format!("{stopped}; {shown} is as it was"),
    })?;
    Ok(written)
}

/// Finishes or takes back what a run before this has left half done in a folder, if there is such a thing; the sentence says which.
///
/// # Errors
/// A plain sentence when that cannot be done.
pub fn recover(folder: &Path, replace: bool) -> Result<Option<String>, String> {
    let shown = folder.display();
    if !folder.join(WORK).is_dir() {
        return Ok(None);
    }
    let lock = Lock::take(folder)?;
    let ended = Change::of(folder)
        .end(replace)
        .map_err(|stopped| format!("{shown}: a run before this was broken off and cannot be finished: {stopped}; move that file away, or use --replace"))?;
    drop(lock);
    if let Ended::Dropped { made: true } | Ended::TakenBack { made: true } = ended {
        let _ = fs::remove_dir(folder);
    }
    Ok(match ended {
        Ended::NotBegun => None,
        Ended::Dropped { .. } => Some(format!("a run before this was broken off before it changed anything in {shown}")),
        Ended::Finished => Some(format!("a run before this was broken off while it wrote into {shown}; its set is whole now")),
        Ended::TakenBack { .. } => Some(format!("a run before this was broken off in {shown}; the set before it is whole again")),
    })
}

/// Hash of the spec of the set that stands in a folder: `None` when there is no set, `Some(None)` when its marker does not say.
pub fn standing(folder: &Path) -> Option<Option<String>> {
    Marker::read(folder).ok().flatten().map(|marker| marker.spec)
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
fn relative_paths(files: &[OutputFile]) -> Result<BTreeSet<&str>, String> {
    let mut all = BTreeSet::new();
    for file in files {
        let path = Path::new(&file.path);
        let plain = path.components().all(|c| matches!(c, Component::Normal(_))) && !file.path.is_empty() && !file.path.contains(char::is_control);
        if !plain || [MARKER, WORK, LOCK].iter().any(|own| path.starts_with(own)) {
            return Err(format!("{:?} is not a file name inside an output folder", file.path));
        }
        if !all.insert(file.path.as_str()) {
            return Err(format!("the file {} would be written twice", file.path));
        }
    }
    Ok(all)
}

/// A folder that is a file, or that holds something and was not made by the program.
fn refuse_foreign(folder: &Path, shown: &str) -> Result<(), String> {
    if !folder.exists() {
        return Ok(());
    }
    if !folder.is_dir() {
        return Err(format!("{shown} is a file; give another folder with -o"));
    }
    let unreadable = |why: io::Error| format!("cannot read {shown}: {why}");
    if folder.join(MARKER).exists() {
        return Ok(());
    }
    for entry in fs::read_dir(folder).map_err(unreadable)? {
        let name = entry.map_err(unreadable)?.file_name();
        if name != WORK && name != LOCK {
            return Err(format!("{shown} exists and was not made by footwell (it has no {MARKER}); give another folder with -o, or empty it"));
        }
    }
    Ok(())
}

/// What has to be done to the folder, or why it is not done unasked.
fn steps(folder: &Path, shown: &str, paths: &BTreeSet<&str>, (before, after, replace): (&Marker, &Marker, bool)) -> Result<(Vec<Step>, Written), String> {
    let there = |path: &str| There::at(&folder.join(path)).map_err(|why| format!("cannot read {}: {why}", folder.join(path).display()));
    let (mut steps, mut written, mut edited) = (Vec::new(), Written::default(), Vec::new());
    for (path, new) in &after.files {
        let was = before.files.get(path);
        match (there(path)?, was) {
            (There::Nothing, _) => steps.push(Step { path: path.clone(), old: None, new: new.clone() }),
            (There::File(now), Some(was)) => {
                // What is right already stays, with its times.
                if Some(&now) == new.as_ref() {
                    continue;
                }
                if was.as_ref().is_some_and(|was| *was != now) {
                    edited.push(path.as_str());
                }
                steps.push(Step { path: path.clone(), old: Some(now), new: new.clone() });
            }
            _ => return Err(format!("{} is not from footwell and would be overwritten; move it or give another folder with -o", folder.join(path).display())),
        }
    }
    for (path, was) in before.files.iter().filter(|(path, _)| !paths.contains(path.as_str()) && is_inside(path)) {
        match there(path)? {
            There::File(now) if replace || was.as_ref().is_none_or(|was| *was == now) => {
                written.gone.push(path.clone());
                steps.push(Step { path: path.clone(), old: Some(now), new: None });
            }
            There::File(_) => written.left.push(path.clone()),
            There::Nothing | There::Other => {}
        }
    }
    if !replace && !edited.is_empty() {
        return Err(format!("changed since they were written into {shown}: {}; move them away, give another folder with -o, or use --replace", named(&edited)));
    }
    if !replace && let Some(lost) = lost_kinds(paths, &written.gone) {
        return Err(format!(
            "{shown} holds files of an earlier draw that this one does not make and would take away: {lost}; ask for them as well, give another folder with -o, or use --replace"
        ));
    }
    Ok((steps, written))
}

/// Whether a path of a marker, which anybody may have edited, names a plain place in the folder.
fn is_inside(path: &str) -> bool {
    Path::new(path).components().all(|c| matches!(c, Component::Normal(_)))
}

/// Kinds of files, by folder and ending, of which none would be left, with how many there are.
fn lost_kinds(paths: &BTreeSet<&str>, gone: &[String]) -> Option<String> {
    fn kind(path: &str) -> (&str, &str) {
        (path.split_once('/').map_or("", |(folder, _)| folder), path.rsplit_once('.').map_or("", |(_, end)| end))
    }
    let kept: BTreeSet<(&str, &str)> = paths.iter().map(|p| kind(p)).collect();
    let mut lost: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    for path in gone {
        *lost.entry(kind(path)).or_default() += 1;
    }
    let lost: Vec<String> = lost
        .into_iter()
        .filter(|(kind, _)| !kept.contains(kind))
        .map(|((folder, end), n)| format!("{n} × {folder}{}*.{end}", if folder.is_empty() { "" } else { "/" }))
        .collect();
    (!lost.is_empty()).then(|| lost.join(", "))
}

/// The first few names, and how many more there are.
pub(super) fn named<S: AsRef<str>>(names: &[S]) -> String {
    let first: Vec<&str> = names.iter().take(NAMED).map(AsRef::as_ref).collect();
    let more = if names.len() > NAMED { format!(" and {} more", names.len() - NAMED) } else { String::new() };
    format!("{}{more}", first.join(", "))
}

#[cfg(test)]
mod tests;
