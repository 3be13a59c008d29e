//! A spec file as read from the disk.

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
    /// Reads a file.
    ///
    /// # Errors
    /// A plain sentence when it cannot be read or is not text.
    pub fn read(path: &Path) -> Result<Self, String> {
        let name = path.display().to_string();
        let bytes = std::fs::read(path).map_err(|why| format!("cannot read {name}: {why}"))?;
        let text = String::from_utf8(bytes).map_err(|why| format!("{name} is not text in UTF-8: byte {} does not fit", why.utf8_error().valid_up_to() + 1))?;
        // A byte order mark would stand before the first key.
        let text = text.strip_prefix('\u{feff}').map_or(text.clone(), str::to_string);
        Ok(Self { name, text })
    }
}
