//! A change of an output folder that is made whole or not at all, file by file, without moving anything that is not part of it.
//!
//! In: the folder, and steps: a file that comes, is replaced, or goes. All new files are written into the folder [`WORK`] inside it, with
//! the old ones linked beside them; then a plan is laid there by one renaming. From that moment the change is decided: every step is one
//! renaming onto its place, and whoever finds the plan later finishes it. Without a plan nothing has been changed, and what was
//! prepared is thrown away. A step that fails turns the plan round, and the old files go back. A file that somebody else
//! changes meanwhile is left to them. Not promised: that this holds when the power fails.

use super::marker::{MARKER, hash};
use serde::{Deserialize, Serialize};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Folder in which a change is prepared.
pub(super) const WORK: &str = ".footwell-new";

const NEW: &str = "new";
const OLD: &str = "old";
const NEW_MARKER: &str = "marker";
/// The steps, while they are taken.
const PLAN: &str = "plan";
/// The steps, while they are taken back.
const UNDO: &str = "undo";
/// Stands there when the output folder itself is new.
const MADE: &str = "made";

/// What stands at a path.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum There {
    Nothing,
    /// A file, with the hash of its content.
    File(String),
    /// A folder, a link, or a place under a file.
    Other,
}

impl There {
    pub fn at(path: &Path) -> io::Result<Self> {
        match fs::symlink_metadata(path) {
            Ok(m) if m.is_file() => Ok(Self::File(hash(&fs::read(path)?))),
            Ok(_) => Ok(Self::Other),
            Err(why) if why.kind() == io::ErrorKind::NotFound => Ok(Self::Nothing),
            Err(why) if why.kind() == io::ErrorKind::NotADirectory => Ok(Self::Other),
            Err(why) => Err(why),
        }
    }

    fn is(&self, hash: Option<&String>) -> bool {
        match (self, hash) {
            (Self::Nothing, None) => true,
            (Self::File(found), Some(hash)) => found == hash,
            _ => false,
        }
    }
}

/// What becomes of one file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Step {
    /// Path inside the folder.
    pub path: String,
    /// Hash of what stands there before; none where nothing does.
    pub old: Option<String>,
    /// Hash of what stands there afterwards; none where nothing does.
    pub new: Option<String>,
}

/// Why a change was not finished.
#[derive(Debug)]
pub(super) enum Stopped {
    /// The system refused something.
    Failed(PathBuf, io::Error),
    /// Somebody else has changed this file meanwhile.
    Changed(PathBuf),
}

impl std::fmt::Display for Stopped {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Failed(path, why) => write!(f, "cannot write {}: {why}", path.display()),
            Self::Changed(path) => write!(f, "{} was changed while the set was being written", path.display()),
        }
    }
}

/// How a change that was broken off ended now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ended {
    /// There was none.
    NotBegun,
    /// Nothing had been changed yet; what was prepared is gone. Whether the output folder itself was made for it.
    Dropped { made: bool },
    /// The new set is whole.
    Finished,
    /// The old set is back. Whether the output folder itself was made for the new one.
    TakenBack { made: bool },
}

/// A change in the folder `root`.
pub(super) struct Change<'a> {
    root: &'a Path,
    work: PathBuf,
}

impl<'a> Change<'a> {
    pub fn of(root: &'a Path) -> Self {
        Self { root, work: root.join(WORK) }
    }

    /// Makes the change: `bytes` gives the content of a step's new file, `made` tells that the folder itself is new.
    pub fn make<'b>(&self, steps: &[Step], bytes: impl Fn(&str) -> &'b [u8], marker: &str, made: bool) -> Result<(), Stopped> {
        if let Err(stopped) = self.prepare(steps, bytes, marker, made) {
            self.drop_work();
            return Err(stopped);
        }
        self.forward(false).inspect_err(|_| {
            // What cannot be taken back now is taken back by the next run: the plan stays.
            let _ = self.back();
        })
    }

    /// Ends a change that an earlier run has begun; `replace` says that files changed by others since then may go.
    pub fn end(&self, replace: bool) -> Result<Ended, Stopped> {
        if !self.work.exists() {
            return Ok(Ended::NotBegun);
        }
        let made = self.work.join(MADE).exists();
        if self.work.join(PLAN).exists() {
            self.forward(replace)?;
            return Ok(Ended::Finished);
        }
        if self.work.join(UNDO).exists() {
            self.back()?;
            return Ok(Ended::TakenBack { made });
        }
        self.drop_work();
        Ok(Ended::Dropped { made })
    }

    fn prepare<'b>(&self, steps: &[Step], bytes: impl Fn(&str) -> &'b [u8], marker: &str, made: bool) -> Result<(), Stopped> {
        fs::create_dir(&self.work).map_err(|why| Stopped::Failed(self.work.clone(), why))?;
        if made {
            put(&self.work.join(MADE), b"")?;
        }
        for step in steps {
            let place = self.root.join(&step.path);
            if step.old.is_some() {
                let kept = self.work.join(OLD).join(&step.path);
                make_room(&kept)?;
                // A second name for the file; a copy where the file system has no such thing.
                fs::hard_link(&place, &kept).or_else(|_| fs::copy(&place, &kept).map(|_| ())).map_err(|why| Stopped::Failed(kept, why))?;
            }
            if step.new.is_some() {
                let new = self.work.join(NEW).join(&step.path);
                put(&new, bytes(&step.path))?;
                if step.old.is_some() {
                    // Who may read it stays as it was; where the system forbids that, as the system will.
                    let _ = fs::metadata(&place).and_then(|m| fs::set_permissions(&new, m.permissions()));
                }
            }
        }
        put(&self.work.join(NEW_MARKER), marker.as_bytes())?;
        let plan = serde_json::to_vec(steps).map_err(|why| Stopped::Failed(self.work.join(PLAN), why.into()))?;
        let part = self.work.join("part");
        put(&part, &plan)?;
        rename(&part, &self.work.join(PLAN))
    }

    fn steps(&self, name: &str) -> Result<Vec<Step>, Stopped> {
        let path = self.work.join(name);
        let read = fs::read(&path).and_then(|bytes| serde_json::from_slice(&bytes).map_err(io::Error::from));
        read.map_err(|why| Stopped::Failed(path, why))
    }

    /// Takes the steps that are left.
    fn forward(&self, replace: bool) -> Result<(), Stopped> {
        let steps = self.steps(PLAN)?;
        let marker = self.work.join(NEW_MARKER);
        // The marker goes last: without it all steps have been taken.
        let left = if marker.exists() { &steps[..] } else { &[] };
        for step in left {
            let place = self.root.join(&step.path);
            let now = There::at(&place).map_err(|why| Stopped::Failed(place.clone(), why))?;
            let Some(new) = &step.new else {
                // One that was changed since is no longer ours.
                if now.is(step.old.as_ref()) && now != There::Nothing {
                    fs::remove_file(&place).map_err(|why| Stopped::Failed(place, why))?;
                }
                continue;
            };
            let staged = self.work.join(NEW).join(&step.path);
            if !staged.exists() {
                continue;
            }
            let expected = now.is(step.old.as_ref()) || now.is(Some(new)) || (replace && now != There::Other);
            if !expected {
                return Err(Stopped::Changed(place));
            }
            make_room(&place)?;
            rename(&staged, &place)?;
        }
        if marker.exists() {
            rename(&marker, &self.root.join(MARKER))?;
        }
        let _ = fs::remove_file(self.work.join(PLAN));
        self.drop_work();
        self.drop_empty_folders(steps.iter().filter(|s| s.new.is_none()));
        Ok(())
    }

    /// Puts the old files back.
    fn back(&self) -> Result<(), Stopped> {
        let plan = self.work.join(PLAN);
        if plan.exists() {
            rename(&plan, &self.work.join(UNDO))?;
        }
        let steps = self.steps(UNDO)?;
        for step in &steps {
            let place = self.root.join(&step.path);
            let now = There::at(&place).map_err(|why| Stopped::Failed(place.clone(), why))?;
            // What is neither the new file nor gone by our hand is somebody else's.
            if !now.is(step.new.as_ref()) || self.work.join(NEW).join(&step.path).exists() {
                continue;
            }
            let kept = self.work.join(OLD).join(&step.path);
            if kept.exists() {
                make_room(&place)?;
                rename(&kept, &place)?;
            } else if step.old.is_none() && now != There::Nothing {
                fs::remove_file(&place).map_err(|why| Stopped::Failed(place, why))?;
            }
        }
        let _ = fs::remove_file(self.work.join(UNDO));
        self.drop_work();
        self.drop_empty_folders(steps.iter().filter(|s| s.old.is_none()));
        Ok(())
    }

    /// What is left of it is thrown away by the next run.
    fn drop_work(&self) {
        let _ = fs::remove_dir_all(&self.work);
    }

    /// Folders that held nothing but these files; one that still holds something is not removed by the system.
    fn drop_empty_folders<'s>(&self, steps: impl Iterator<Item = &'s Step>) {
        for step in steps {
            let inner = Path::new(&step.path).ancestors().skip(1).filter(|p| !p.as_os_str().is_empty());
            for folder in inner {
                let _ = fs::remove_dir(self.root.join(folder));
            }
        }
    }
}

fn rename(from: &Path, to: &Path) -> Result<(), Stopped> {
    fs::rename(from, to).map_err(|why| Stopped::Failed(to.to_path_buf(), why))
}

fn make_room(path: &Path) -> Result<(), Stopped> {
    path.parent().map_or(Ok(()), |inner| fs::create_dir_all(inner).map_err(|why| Stopped::Failed(inner.to_path_buf(), why)))
}

fn put(path: &Path, bytes: &[u8]) -> Result<(), Stopped> {
    make_room(path)?;
    fs::write(path, bytes).map_err(|why| Stopped::Failed(path.to_path_buf(), why))
}
