//! A panic, ours or a library's, as a plain message.
//!
//! In: something to run. Out: what it gives, or where it went wrong. The program never ends with a panic's own text; a panic is a defect all the same.

use std::panic::{AssertUnwindSafe, catch_unwind, set_hook};
use std::sync::Mutex;

/// Where the last panic happened.
static WHERE: Mutex<String> = Mutex::new(String::new());

/// From now on panics write nothing themselves; for the program, not for tests.
pub fn keep_panics_quiet() {
    set_hook(Box::new(|info| {
        if let (Ok(mut place), Some(at)) = (WHERE.lock(), info.location()) {
            // The crate and the file in it, not where they lay on the disk of who built the program.
            let parts: Vec<&str> = at.file().split(['/', '\\']).collect();
            let from = parts.iter().rposition(|p| *p == "src").map_or(0, |src| src.saturating_sub(1));
            *place = format!("{}:{}", parts.get(from..).unwrap_or_default().join("/"), at.line());
        }
    }));
}

/// Runs something that may panic.
///
/// # Errors
/// What the panic says, and where.
pub fn guarded<T>(run: impl FnOnce() -> T) -> Result<T, String> {
    catch_unwind(AssertUnwindSafe(run)).map_err(|payload| {
        let said = payload.downcast_ref::<&str>().map(|s| (*s).to_string()).or_else(|| payload.downcast_ref::<String>().cloned());
        let place = WHERE.lock().map(|mut place| std::mem::take(&mut *place)).unwrap_or_default();
        let what = said.unwrap_or_else(|| "no reason given".into());
        if place.is_empty() { what } else { format!("{what}, at {place}") }
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::panic)]
    use super::*;

    #[test]
    fn a_panic_is_a_sentence() {
        assert_eq!(guarded(|| 1), Ok(1));
        let why = guarded(|| panic!("beyond {}", 7)).unwrap_err();
        assert!(why.starts_with("beyond 7"), "{why}");
    }
}
