//! Tables as CSV: parts lists, hole tables, manifests.
//!
//! In: a heading and rows of cells. Out: UTF-8 CSV after RFC 4180 (comma, quotes where needed, CRLF).
//! Rows must be as long as the heading. Numbers come formatted; nothing is rounded here.

use super::{ExportError, File};

/// Writes one table.
///
/// # Errors
/// A row of another length than the heading.
pub fn table<S: AsRef<[u8]>>(stem: &str, heading: &[S], rows: &[Vec<String>]) -> Result<File, ExportError> {
    let refuse = |why: String| ExportError::Format { format: "csv", sheet: stem.into(), why };
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(heading).map_err(|e| refuse(e.to_string()))?;
    for row in rows {
        writer.write_record(row).map_err(|e| refuse(e.to_string()))?;
    }
    let bytes = writer.into_inner().map_err(|e| refuse(e.to_string()))?;
    Ok(File { name: format!("{stem}.csv"), bytes })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_with_commas_and_quotes_are_quoted() {
        let f = table("parts", &["item", "size"], &[vec!["1".into(), "⌀14, 3\" long".into()]]).unwrap();
        assert_eq!(f.name, "parts.csv");
        assert_eq!(String::from_utf8(f.bytes).unwrap(), "item,size\r\n1,\"⌀14, 3\"\" long\"\r\n");
    }

    #[test]
    fn a_short_row_is_refused() {
        assert!(table("parts", &["item", "size"], &[vec!["1".into()]]).is_err());
    }
}
