//! Files that users bring, read within limits.
//!
//! In: a path, or `-` for standard input. Out: its bytes or its text, or a plain sentence: too large, no text, something else than what is wanted. What never ends
//! (a device) is not read to its end.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// Largest spec, bytes: some thousand times a large one.
pub const LARGEST_SPEC: u64 = 4 << 20;
/// Largest title block or layer table, bytes.
pub const LARGEST_DRAWING: u64 = 32 << 20;

/// First bytes of files that are taken for a spec by mistake, and what they are.
const OTHERS: [(&[u8], &str); 9] = [
    (b"%PDF-", "a PDF"),
    (b"AC10", "a DWG drawing"),
    (b"AutoCAD Binary DXF", "a binary DXF drawing"),
    (b"PK\x03\x04", "a ZIP archive or an office document"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"ISO-10303-21", "a STEP file"),
    (b"<?xml", "an XML or SVG file"),
    (b"{\\rtf", "a document of a word processor"),
];

/// The name of a path as messages print it.
pub fn name_of(path: &Path) -> String {
    if path == Path::new("-") { "standard input".into() } else { path.display().to_string() }
}

/// The bytes of a file, at most so many; `-` is standard input.
///
/// # Errors
/// A plain sentence when it cannot be read or is larger.
pub fn bytes(path: &Path, largest: u64) -> Result<Vec<u8>, String> {
    let name = name_of(path);
    let failed = |why: io::Error| format!("cannot read {name}: {why}");
    let source: Box<dyn Read> = if path == Path::new("-") { Box::new(io::stdin().lock()) } else { Box::new(File::open(path).map_err(failed)?) };
    let mut bytes = Vec::new();
    source.take(largest + 1).read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() as u64 > largest {
        return Err(format!("{name} is larger than {} MB; that is no file for this", largest >> 20));
    }
    Ok(bytes)
}

/// The text of a spec or a table; a byte order mark is left out.
///
/// # Errors
/// A plain sentence when it cannot be read, is no text in UTF-8, or is a file of another kind.
pub fn text(path: &Path) -> Result<String, String> {
    let (bytes, name) = (bytes(path, LARGEST_SPEC)?, name_of(path));
    if let Some((_, what)) = OTHERS.iter().find(|(begin, _)| bytes.starts_with(begin)) {
        return Err(format!("{name} is {what}, not a spec; a spec is text in TOML (footwell start writes one)"));
    }
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) || bytes.iter().take(1000).filter(|b| **b == 0).count() > 4 {
        return Err(format!("{name} is text in UTF-16 or no text at all; save it as UTF-8"));
    }
    let text = String::from_utf8(bytes)
        .map_err(|why| format!("{name} is not text in UTF-8: byte {} does not fit; save it as UTF-8", why.utf8_error().valid_up_to() + 1))?;
    // A byte order mark would stand before the first key.
    let text = text.strip_prefix('\u{feff}').map_or(text.clone(), str::to_string);
    let mut lines = text.lines().map(str::trim);
    if (lines.next(), lines.next()) == (Some("0"), Some("SECTION")) || text.starts_with("999\n") {
        return Err(format!("{name} is a DXF drawing, not a spec; a spec is text in TOML (footwell start writes one)"));
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn read(content: &[u8]) -> Result<String, String> {
        let place = tempfile::tempdir().unwrap();
        let path = place.path().join("job.toml");
        std::fs::write(&path, content).unwrap();
        text(&path).map_err(|why| why.replace(&place.path().display().to_string(), ""))
    }

    #[test]
    fn what_is_no_spec_is_named() {
        assert_eq!(read(b"\xef\xbb\xbf[duty]\r\n"), Ok("[duty]\r\n".into()));
        for (content, said) in [
            (&b"  0\r\nSECTION\r\n  2\r\nHEADER\r\n"[..], "a DXF drawing"),
            (b"%PDF-1.7", "a PDF"),
            (b"\xff\xfe[\0d\0u\0t\0y\0", "UTF-16"),
            (b"[\0d\0u\0t\0y\0]\0\n\0", "UTF-16"),
            (b"a\xff\xfe", "byte 2 does not fit"),
        ] {
            let why = read(content).unwrap_err();
            assert!(why.contains(said) && why.contains("job.toml"), "{why}");
        }
        assert!(read(&vec![b'#'; (LARGEST_SPEC + 1) as usize]).unwrap_err().contains("larger than 4 MB"));
        assert_eq!(read(b""), Ok(String::new()));
    }

    #[cfg(unix)]
    #[test]
    fn what_never_ends_is_not_read_to_its_end() {
        assert!(bytes(Path::new("/dev/zero"), 1000).unwrap_err().contains("larger"));
        assert!(bytes(Path::new("/"), 1000).unwrap_err().contains("cannot read"));
    }
}
