//! Text as CAD files hold it.
//!
//! In: plain Unicode, one line. Out: the same with the codes that every reader knows for ⌀ ° ±, a
//! hyphen for the minus sign, and with the characters escaped that readers take for codes. Other characters stay Unicode; the
//! library writes them as UTF-8 (R2007 and later) or as `\U+` codes.

use crate::paper::font;

/// Content of a TEXT entity.
pub fn entity(content: &str) -> String {
    let mut out = String::with_capacity(content.len());
    let mut rest = content;
    while let Some(c) = rest.chars().next() {
        if rest.starts_with("%%") {
            // A doubled percent sign would begin a code; each becomes the code for itself.
            let run = rest.chars().take_while(|c| *c == '%').count();
            out.push_str(&"%%%".repeat(run));
            rest = &rest[run..];
            continue;
        }
        match font::drawn_for(c) {
            // Not every reader's font has the sign; every reader knows its code.
            font::DIAMETER => out.push_str("%%c"),
            '°' => out.push_str("%%d"),
            '±' => out.push_str("%%p"),
            // Drawing programs' own fonts lack the minus sign and show a blob; a level must not lose its sign.
            '−' => out.push('-'),
            '^' => out.push_str("^ "),
            _ => out.push(c),
        }
        rest = &rest[c.len_utf8()..];
    }
    // A backslash before U+ or M+ would begin a code.
    out.replace("\\U+", "\\U+005CU+").replace("\\M+", "\\U+005CM+")
}

/// Text of a DIMENSION entity, which readers set as paragraph text: braces and backslashes are codes there.
pub fn dimension(content: &str) -> String {
    let mut out = String::with_capacity(content.len());
    for c in content.chars() {
        if matches!(c, '\\' | '{' | '}') {
            out.push('\\');
        }
        out.push(c);
    }
    entity(&out)
}

/// The same for binary files of one byte a character (R2000): what the code page puts at 80 to 9F (dashes, quotes, the euro sign,
/// the dots) is written as a `\U+` code, since readers that take those bytes for Latin-1 lose them.
pub fn single_byte(content: &str) -> String {
    const AT_80_TO_9F: &str = "€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ";
    content.chars().map(|c| if AT_80_TO_9F.contains(c) { format!("\\U+{:04X}", u32::from(c)) } else { c.to_string() }).collect()
}

/// Plain content of a TEXT entity of a foreign file: its codes read, underline and overline marks dropped.
pub fn plain(value: &str) -> String {
    let mut out = String::with_capacity(value.len());
    let mut rest = value;
    while let Some(c) = rest.chars().next() {
        if let Some(code) = rest.strip_prefix("%%").and_then(|r| r.chars().next()) {
            match code.to_ascii_lowercase() {
                'c' => out.push('⌀'),
                'd' => out.push('°'),
                'p' => out.push('±'),
                '%' => out.push('%'),
                'u' | 'o' => {}
                _ => {
                    out.push_str("%%");
                    out.push(code);
                }
            }
            rest = &rest[2 + code.len_utf8()..];
        } else if let Some(after) = rest.strip_prefix("^ ") {
            out.push('^');
            rest = after;
        } else {
            out.push(c);
            rest = &rest[c.len_utf8()..];
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn symbols_become_codes() {
        assert_eq!(entity("⌀650 ±0.5 45°"), "%%c650 %%p0.5 45%%d");
        assert_eq!(entity("−1.850"), "-1.850");
    }

    #[test]
    fn dashes_are_codes_where_a_byte_is_a_character() {
        assert_eq!(single_byte("SECTION A–A, 3 × ü²"), "SECTION A\\U+2013A, 3 × ü²");
    }

    #[test]
    fn plain_reads_what_entity_writes() {
        for text in ["⌀650 ±0.5 45°", "100 %%", "2^3", "a%%%b", "plain"] {
            assert_eq!(plain(&entity(text)), text);
        }
        assert_eq!(plain("%%uTitle%%u %%C5"), "Title ⌀5");
    }

    #[test]
    fn codes_in_the_text_stay_text() {
        assert_eq!(entity("5 % fall"), "5 % fall");
        assert_eq!(entity("a%%c"), "a%%%%%%c");
        assert_eq!(entity("2^3"), "2^ 3");
        assert_eq!(entity("\\U+2300"), "\\U+005CU+2300");
        assert_eq!(dimension("{5}\\P"), "\\{5\\}\\\\P");
    }
}
