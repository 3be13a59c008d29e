//! The marker file of an output folder: what the program made there, and of which spec.
//!
//! In: files of a set. Out: lines of text, a file a line with its SHA-256 as `sha256sum` writes it. Markers without hashes, as
//! earlier versions wrote them, are read too: their files count as unchanged.

use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;

/// Name of the marker file.
pub const MARKER: &str = ".footwell";

const HEAD: &str = "# Made by footwell. The files named below are replaced on the next run; all others are kept.";
const SPEC: &str = "# spec ";

/// What a marker says.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Marker {
    /// Hash of the spec, as the title block prints it.
    pub spec: Option<String>,
    /// Paths with the hash of what was written, where it is known.
    pub files: BTreeMap<String, Option<String>>,
}

impl Marker {
    /// The marker of a folder, if it has one.
    pub fn read(folder: &Path) -> io::Result<Option<Self>> {
        match fs::read(folder.join(MARKER)) {
            Ok(bytes) => Ok(Some(Self::parse(&String::from_utf8_lossy(&bytes)))),
            Err(why) if why.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(why) => Err(why),
        }
    }

    fn parse(text: &str) -> Self {
        let spec = text.lines().find_map(|l| l.strip_prefix(SPEC)).map(|s| s.trim().to_string());
        let hashed = |line: &str| {
            let (hash, path) = line.split_once("  ")?;
            (hash.len() == 64 && hash.bytes().all(|b| b.is_ascii_hexdigit())).then(|| (path.to_string(), Some(hash.to_string())))
        };
        let files = text.lines().filter(|l| !l.starts_with('#') && !l.is_empty()).map(|l| hashed(l).unwrap_or_else(|| (l.to_string(), None))).collect();
        Self { spec, files }
    }

    /// As it is written.
    pub fn print(&self) -> String {
        let mut out = format!("{HEAD}\n");
        if let Some(spec) = &self.spec {
            out.push_str(&format!("{SPEC}{spec}\n"));
        }
        for (path, hash) in &self.files {
            out.push_str(&hash.as_ref().map_or_else(|| format!("{path}\n"), |hash| format!("{hash}  {path}\n")));
        }
        out
    }
}

/// SHA-256 of a file's content in hexadecimal digits.
pub(super) fn hash(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read() {
        let files = [("a.svg", Some(hash(b"1"))), ("cut/b  c.dxf", Some(hash(b"2"))), ("old.csv", None)];
        let marker = Marker { spec: Some("0123456789ab".into()), files: files.map(|(p, h)| (p.to_string(), h)).into() };
        assert_eq!(Marker::parse(&marker.print()), marker);
        // SHA-256 of "abc": FIPS 180-2, B.1.
        assert_eq!(hash(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    #[test]
    fn a_marker_of_an_earlier_version() {
        let marker = Marker::parse("# Made by footwell.\na.svg\ncut/b.dxf\n");
        assert_eq!((marker.spec, marker.files), (None, [("a.svg".to_string(), None), ("cut/b.dxf".to_string(), None)].into()));
    }
}
