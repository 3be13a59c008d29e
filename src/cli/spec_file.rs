//! A spec file as read from the disk or from standard input.

use super::input;
use std::path::Path;

/// A spec file.
#[derive(Debug, Clone)]
pub struct SpecFile {
    /// Name as the user gave it.
    pub name: String,
    /// Its text.
    pub text: String,
}

impl SpecFile {
    /// Reads a file; `-` is standard input.
    ///
    /// # Errors
    /// A plain sentence when it cannot be read or is not text.
    pub fn read(path: &Path) -> Result<Self, String> {
        Ok(Self { name: input::name_of(path), text: input::text(path)? })
    }
}
