//! The group codes of a user's DXF, before a library reads them.
//!
//! In: the bytes of a text DXF. Out: the same drawing with what matters here alone, the unit and the entities, or why it is not read: numbers
//! beyond any drawing, texts without end, too many entities, a pair of lines torn apart. What is left out (dates, tables, blocks,
//! objects) cannot trip the reader.

/// Largest number that a drawing holds, in its own units.
const LARGEST: f64 = 1e9;
/// Longest text, bytes.
const LONGEST: usize = 4000;
/// Most entities, vertices of old polylines among them.
const MOST: usize = 50_000;

/// Variables of the header that are kept.
const KEPT: [&[u8]; 3] = [b"$ACADVER", b"$DWGCODEPAGE", b"$INSUNITS"];

/// Where in the file a pair stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    Between,
    /// In the header, and whether the variable is kept.
    Header(bool),
    Entities,
    Other,
}

/// What matters of a drawing.
///
/// # Errors
/// A plain sentence with the line.
pub fn sieved(bytes: &[u8]) -> Result<Vec<u8>, String> {
    if bytes.starts_with(b"AutoCAD Binary DXF") {
        return Err("it is a binary DXF; save it as text".into());
    }
    let mut out = Vec::with_capacity(bytes.len());
    let mut part = Part::Between;
    let mut opened = false;
    let mut entities = 0;
    let mut lines = bytes.split(|b| *b == b'\n').map(<[u8]>::trim_ascii).zip(1..);
    while let Some((code, at)) = lines.next() {
        let Some((value, _)) = lines.next() else {
            if code.is_empty() {
                break;
            }
            return Err(format!("line {at}: a group code without its value; the file is cut off"));
        };
        let code: i32 = std::str::from_utf8(code).ok().and_then(|c| c.parse().ok()).ok_or_else(|| format!("line {at}: a group code is a whole number"))?;
        let keep = match (code, value, part) {
            (0, b"SECTION", _) => {
                opened = true;
                continue;
            }
            (2, name, _) if opened => {
                opened = false;
                part = match name {
                    b"HEADER" => Part::Header(false),
                    b"ENTITIES" => Part::Entities,
                    _ => Part::Other,
                };
                if !matches!(part, Part::Other) {
                    pair(&mut out, 0, b"SECTION");
                }
                !matches!(part, Part::Other)
            }
            (0, b"ENDSEC", _) => {
                let kept = !matches!(part, Part::Other | Part::Between);
                part = Part::Between;
                kept
            }
            (0, b"EOF", _) => true,
            (9, name, Part::Header(_)) => {
                let kept = KEPT.contains(&name);
                part = Part::Header(kept);
                kept
            }
            (_, _, Part::Header(kept)) => kept,
            (0, _, Part::Entities) => {
                entities += 1;
                if entities > MOST {
                    return Err(format!("it holds more than {MOST} entities"));
                }
                true
            }
            (_, _, Part::Entities) => true,
            _ => false,
        };
        if keep {
            check(code, value).map_err(|why| format!("line {}: {why}", at + 1))?;
            pair(&mut out, code, value);
        }
    }
    Ok(out)
}

fn pair(out: &mut Vec<u8>, code: i32, value: &[u8]) {
    out.extend_from_slice(code.to_string().as_bytes());
    out.push(b'\n');
    out.extend_from_slice(value);
    out.push(b'\n');
}

/// Whether a value can be one of a drawing: group codes 10 to 59, 110 to 149, 210 to 239 and 1010 to 1059 are real numbers.
fn check(code: i32, value: &[u8]) -> Result<(), String> {
    if value.len() > LONGEST {
        return Err(format!("a value of {} characters", value.len()));
    }
    if matches!(code, 10..=59 | 110..=149 | 210..=239 | 1010..=1059) {
        let text = String::from_utf8_lossy(value);
        let number: f64 = text.parse().map_err(|_| format!("{text:?} stands where a number belongs"))?;
        if !number.is_finite() || number.abs() > LARGEST {
            return Err(format!("{text} is beyond any drawing"));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    const DRAWING: &str = "  0\r\nSECTION\r\n  2\r\nHEADER\r\n  9\r\n$ACADVER\r\n  1\r\nAC1015\r\n  9\r\n$TDCREATE\r\n 40\r\n2455000.5\r\n  9\r\n$INSUNITS\r\n 70\r\n4\r\n  0\r\nENDSEC\r\n  0\r\nSECTION\r\n  2\r\nTABLES\r\n  0\r\nTABLE\r\n  0\r\nENDTAB\r\n  0\r\nENDSEC\r\n  0\r\nSECTION\r\n  2\r\nENTITIES\r\n  0\r\nLINE\r\n  8\r\n0\r\n 10\r\n1.5\r\n  0\r\nENDSEC\r\n  0\r\nEOF\r\n";

    #[test]
    fn unit_and_entities_are_left() {
        let left = String::from_utf8(sieved(DRAWING.as_bytes()).unwrap()).unwrap();
        assert_eq!(
            left,
            "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1015\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n10\n1.5\n0\nENDSEC\n0\nEOF\n"
        );
    }

    #[test]
    fn what_is_beyond_a_drawing_is_refused_with_its_line() {
        for (from, to, said) in [
            ("1.5", "1e300", "line 38: 1e300 is beyond"),
            ("1.5", "nan", "nan is beyond"),
            ("1.5", "wide", "\"wide\" stands where a number belongs"),
            ("1.5", &"9".repeat(5000), "a value of 5000 characters"),
            ("\r\n 10\r\n", "\r\n ten\r\n", "line 37: a group code"),
            ("  0\r\nEOF\r\n", "  0", "cut off"),
        ] {
            let why = sieved(DRAWING.replace(from, to).as_bytes()).unwrap_err();
            assert!(why.contains(said), "{why}");
        }
        let many = DRAWING.replace("  0\r\nLINE\r\n", &"  0\r\nLINE\r\n".repeat(MOST + 1));
        assert!(sieved(many.as_bytes()).unwrap_err().contains("more than"));
    }
}
