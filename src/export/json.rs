//! Results as JSON, for other programs.
//!
//! In: any serialisable value. Out: UTF-8 JSON, two spaces deep, with a line end, keys in the order of
//! the value's type (use ordered maps). It does not define any schema.

use super::{ExportError, File};
use serde::Serialize;

/// Writes one value.
///
/// # Errors
/// A value that JSON cannot hold, such as a map with keys that are not text.
pub fn value(stem: &str, value: &impl Serialize) -> Result<File, ExportError> {
    let mut bytes = serde_json::to_vec_pretty(value).map_err(|e| ExportError::Format { format: "json", sheet: stem.into(), why: e.to_string() })?;
    bytes.push(b'\n');
    Ok(File { name: format!("{stem}.json"), bytes })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_with_a_line_end_and_reads_back() {
        let f = value("results", &vec![1.5, 2.0]).unwrap();
        assert!(f.bytes.ends_with(b"]\n"));
        assert_eq!(serde_json::from_slice::<Vec<f64>>(&f.bytes).unwrap(), [1.5, 2.0]);
    }
}
