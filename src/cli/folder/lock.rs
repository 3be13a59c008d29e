//! One writer at a time in an output folder.
//!
//! A lock of the operating system on a small file in the folder: it ends with the process that holds it, however that ends, and the
//! file goes with it or with the next writer. Where a file system knows no locks, there is none.

use std::fs::{self, File, TryLockError};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Name of the lock's file.
pub(super) const LOCK: &str = ".footwell-lock";

/// How long another writer is waited for; writing takes it a fraction of a second.
const WAIT: Duration = Duration::from_secs(10);
const AGAIN: Duration = Duration::from_millis(10);

/// The lock while it is held.
pub(super) struct Lock {
    path: PathBuf,
    _file: File,
}

impl Lock {
    /// Takes the lock of a folder, waiting for another writer.
    ///
    /// # Errors
    /// A plain sentence when the folder cannot be written, or is still being written by another process after ten seconds.
    pub fn take(folder: &Path) -> Result<Self, String> {
        Self::take_within(folder, WAIT)
    }

    fn take_within(folder: &Path, wait: Duration) -> Result<Self, String> {
        let path = folder.join(LOCK);
        let failed = |why: io::Error| format!("cannot write in {}: {why}", folder.display());
        let until = Instant::now() + wait;
        loop {
            let mut file = File::options().read(true).write(true).create(true).truncate(false).open(&path).map_err(failed)?;
            match file.try_lock() {
                Ok(()) if !is_still(&file, &path) => {}
                Ok(()) => {
                    // Who holds it, for the one that waits; nothing hangs on it.
                    let _ = file.set_len(0).and_then(|()| write!(file, "{}", std::process::id()));
                    return Ok(Self { path, _file: file });
                }
                Err(TryLockError::WouldBlock) if Instant::now() < until => sleep(AGAIN),
                Err(TryLockError::WouldBlock) => {
                    let mut holder = String::new();
                    let _ = file.read_to_string(&mut holder);
                    let holder = if holder.is_empty() { String::new() } else { format!(" (process {holder})") };
                    return Err(format!("another run{holder} is writing into {}; try again when it is done", folder.display()));
                }
                Err(TryLockError::Error(why)) if why.kind() == io::ErrorKind::Unsupported => return Ok(Self { path, _file: file }),
                Err(TryLockError::Error(why)) => return Err(failed(why)),
            }
        }
    }
}

/// Whether the file that was locked still stands under its name: the writer before may have taken it away between opening and locking.
#[cfg(unix)]
fn is_still(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (file.metadata(), fs::metadata(path)) {
        (Ok(held), Ok(named)) => (held.dev(), held.ino()) == (named.dev(), named.ino()),
        _ => false,
    }
}
#[cfg(not(unix))]
fn is_still(_file: &File, path: &Path) -> bool {
    path.exists()
}

impl Drop for Lock {
    fn drop(&mut self) {
        // While it is still held, so that nobody's file but ours goes.
        let _ = fs::remove_file(&self.path);
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn the_second_writer_waits_and_is_told() {
        let place = tempfile::tempdir().unwrap();
        let first = Lock::take(place.path()).unwrap();
        let why = Lock::take_within(place.path(), Duration::from_millis(30)).err().unwrap();
        assert!(why.contains(&format!("process {}", std::process::id())), "{why}");
        drop(first);
        assert!(!place.path().join(LOCK).exists());
        assert!(Lock::take_within(place.path(), Duration::ZERO).is_ok());
    }

    /// Many threads, one counter that only who holds the lock may touch.
    #[test]
    fn one_at_a_time() {
        use std::sync::atomic::{AtomicUsize, Ordering};
        let place = tempfile::tempdir().unwrap();
        let (inside, done) = (AtomicUsize::new(0), AtomicUsize::new(0));
        std::thread::scope(|s| {
            for _ in 0..8 {
                s.spawn(|| {
                    for _ in 0..20 {
                        let _lock = Lock::take(place.path()).unwrap();
                        assert_eq!(inside.fetch_add(1, Ordering::SeqCst), 0);
                        std::thread::yield_now();
                        inside.fetch_sub(1, Ordering::SeqCst);
                        done.fetch_add(1, Ordering::SeqCst);
                    }
                });
            }
        });
        assert_eq!(done.load(Ordering::SeqCst), 160);
    }
}
