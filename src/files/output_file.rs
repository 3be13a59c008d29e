//! A file of an output folder, before it is written.

/// One file of an output folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutputFile {
    /// Path inside the folder, with `/` between parts.
    pub path: String,
    /// Content.
    pub bytes: Vec<u8>,
}
