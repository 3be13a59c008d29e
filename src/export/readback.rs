//! Written CAD files read again and counted before they are handed out.
//!
//! In: the bytes of a file and how many entities of each kind went into it. Out: nothing, or the first
//! kind whose count differs. DXF is read by a library that had no part in writing it. DWG is read by
//! the library that wrote it, which shows that the file is whole, not that others can read it.

use super::ExportError;
use dxf::entities::EntityType as Read;
use std::collections::BTreeMap;
use std::io::Cursor;

/// How many entities of each kind, blocks included.
pub type Counts = BTreeMap<&'static str, usize>;

/// Reads a DXF back and compares.
///
/// # Errors
/// [`ExportError::Format`] when the reader refuses the file, [`ExportError::ReadBack`] when counts differ.
pub fn verify(sheet: &str, bytes: &[u8], written: &Counts) -> Result<(), ExportError> {
    let drawing = dxf::Drawing::load(&mut Cursor::new(bytes)).map_err(|e| ExportError::Format {
        format: "dxf",
        sheet: sheet.into(),
        why: format!("an independent reader refuses it: {e}"),
    })?;
    let mut read = Counts::new();
    for entity in drawing.entities().chain(drawing.blocks().flat_map(|b| b.entities.iter())) {
        *read.entry(kind(&entity.specific)).or_default() += 1;
    }
    // The reader passes over hatches and angles between two lines; they are counted in the text of the file.
    for (kind, code, value) in [("HATCH", "0", "HATCH"), ("DIMENSION", "100", "AcDb2LineAngularDimension")] {
        let found = occurrences(bytes, code, value);
        if found > 0 {
            *read.entry(kind).or_default() += found;
        }
    }
    compare(sheet, written, &read)
}

/// Reads a DWG back with the library that wrote it and compares.
///
/// # Errors
/// As [`verify`].
pub fn verify_dwg(sheet: &str, bytes: &[u8], written: &Counts) -> Result<(), ExportError> {
    let refused = |why: String| ExportError::Format { format: "dwg", sheet: sheet.into(), why };
    let document = acadrust::DwgReader::from_stream(Cursor::new(bytes.to_vec())).read().map_err(|e| refused(format!("it cannot be read back: {e}")))?;
    let mut read = Counts::new();
    for entity in document.entities() {
        use acadrust::EntityType as E;
        let kind = match entity {
            E::Line(_) => "LINE",
            E::Circle(_) => "CIRCLE",
            E::Arc(_) => "ARC",
            E::LwPolyline(_) => "LWPOLYLINE",
            E::Text(_) => "TEXT",
            E::Solid(_) => "SOLID",
            E::Hatch(_) => "HATCH",
            E::Dimension(_) => "DIMENSION",
            E::Block(_) | E::BlockEnd(_) | E::Viewport(_) => continue,
            _ => "other entity",
        };
        *read.entry(kind).or_default() += 1;
    }
    compare(sheet, written, &read)
}

fn kind(entity: &Read) -> &'static str {
    match entity {
        Read::Line(_) => "LINE",
        Read::Circle(_) => "CIRCLE",
        Read::Arc(_) => "ARC",
        Read::LwPolyline(_) => "LWPOLYLINE",
        Read::Polyline(_) => "POLYLINE",
        Read::Text(_) => "TEXT",
        Read::Solid(_) => "SOLID",
        Read::RotatedDimension(_) | Read::RadialDimension(_) | Read::DiameterDimension(_) | Read::AngularThreePointDimension(_) => "DIMENSION",
        _ => "other entity",
    }
}

/// How often a group code stands with a value: the code on one line, the value on the next.
fn occurrences(bytes: &[u8], code: &str, value: &str) -> usize {
    let mut lines = bytes.split(|b| *b == b'\n').map(<[u8]>::trim_ascii);
    let mut found = 0;
    while let (Some(c), Some(v)) = (lines.next(), lines.next()) {
        found += usize::from(c == code.as_bytes() && v == value.as_bytes());
    }
    found
}

fn compare(sheet: &str, written: &Counts, read: &Counts) -> Result<(), ExportError> {
    for kind in written.keys().chain(read.keys()) {
        let (w, r) = (written.get(kind).copied().unwrap_or(0), read.get(kind).copied().unwrap_or(0));
        if w != r {
            return Err(ExportError::ReadBack { sheet: sheet.into(), kind: (*kind).into(), written: w, read: r });
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lost_entity_is_noticed() {
        let written = Counts::from([("LINE", 2), ("TEXT", 1)]);
        assert!(compare("a", &written, &Counts::from([("LINE", 2), ("TEXT", 1)])).is_ok());
        for read in [Counts::from([("LINE", 1), ("TEXT", 1)]), Counts::from([("LINE", 2), ("TEXT", 1), ("ARC", 1)])] {
            assert!(matches!(compare("a", &written, &read), Err(ExportError::ReadBack { .. })));
        }
    }

    #[test]
    fn rubbish_is_refused() {
        assert!(verify("a", b"not a drawing", &Counts::new()).is_err());
        assert!(verify_dwg("a", b"not a drawing", &Counts::new()).is_err());
    }
}
