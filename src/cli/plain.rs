//! Text without characters that steer a terminal.
//!
//! In: any text. Out: the same, byte for byte as long, so that places in it stay where they are; characters that would move the cursor, colour, or
//! turn the order of letters round are replaced. Line ends and tabs stay.

use crate::diagnostics::steers;
use std::borrow::Cow;

/// The text without them.
pub fn plain(text: &str) -> Cow<'_, str> {
    if !text.chars().any(steers) {
        return Cow::Borrowed(text);
    }
    let stand_in = |c: char| match c {
        '\r' => ' ',
        c if !steers(c) => c,
        c => match c.len_utf8() {
            1 => '?',
            2 => '¿',
            _ => char::REPLACEMENT_CHARACTER,
        },
    };
    Cow::Owned(text.chars().map(stand_in).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_character_keeps_its_place() {
        for c in (0..0x3000).filter_map(char::from_u32) {
            let text = format!("a{c}b");
            let shown = plain(&text);
            assert_eq!(shown.len(), text.len(), "{c:?}");
            assert!(shown.chars().all(|c| !steers(c)), "{c:?}");
        }
        assert_eq!(plain("Größe ⌀ 漢\t½\n"), "Größe ⌀ 漢\t½\n");
        assert_eq!(plain("a\r\n\u{202e}b\u{7}"), "a \n\u{fffd}b?");
    }
}
