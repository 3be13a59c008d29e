//! A day of the calendar as a value of the spec.
//!
//! In: a TOML date (`2026-11-25`) or the same as text. Out: year, month and day of a day that exists, printed as ISO 8601
//! writes it. A time of day is not understood.

use super::reader::{ReadValue, wrong_kind};
use crate::diagnostics::Code;
use toml::de::DeValue;
pub use toml::value::Date;
use toml::value::Datetime;

/// What to type.
pub(super) const WRITE_IT: &str = "write it as year-month-day, like \"2026-11-25\"";

/// The day that a text or a TOML date names, if it is no time as well.
fn day(text: &str) -> Option<Date> {
    match text.parse() {
        Ok(Datetime { date, time: None, offset: None }) => date,
        _ => None,
    }
}

/// The same day as `31.03.2025` is meant.
fn dotted(text: &str) -> Option<Date> {
    let mut parts = text.split('.');
    let (d, m, y) = (parts.next()?, parts.next()?, parts.next()?);
    if parts.next().is_some() {
        return None;
    }
    day(&format!("{:04}-{:02}-{:02}", y.parse::<u16>().ok()?, m.parse::<u8>().ok()?, d.parse::<u8>().ok()?))
}

impl ReadValue for Date {
    fn kind() -> String {
        "date".into()
    }
    fn read(value: &DeValue<'_>) -> Result<Self, (Code, String, String)> {
        let text = match value {
            DeValue::String(text) => text.to_string(),
            DeValue::Datetime(date) => date.to_string(),
            other => return wrong_kind(other, "a date", WRITE_IT),
        };
        day(&text).ok_or_else(|| {
            let hint = dotted(&text).map_or_else(|| WRITE_IT.to_string(), |meant| format!("write \"{meant}\""));
            (Code::WrongKind, format!("\"{text}\" is not a date"), hint)
        })
    }
    fn show(&self) -> String {
        format!("\"{self}\"")
    }
}

#[cfg(test)]
mod tests {
    use crate::spec::load;

    fn read(written: &str) -> Result<String, String> {
        let (asked, problems) = load(&format!("[project]\ndate = {written}\n"));
        match problems.items.first() {
            Some(problem) => Err(problem.hint.clone()),
            None => Ok(asked.project.date.value().flatten().map(|d| d.to_string()).unwrap_or_default()),
        }
    }

    #[test]
    fn as_toml_date_and_as_text() {
        for good in ["2025-03-31", "2024-02-29", "2000-02-29"] {
            assert_eq!(read(good), Ok(good.to_string()));
            assert_eq!(read(&format!("\"{good}\"")), Ok(good.to_string()));
        }
    }

    #[test]
    fn what_is_no_day_says_what_to_type() {
        for bad in ["2025-02-29", "1900-02-29", "2025-13-01", "2025-00-10", "2025-3-31", "", "2025-04-31", "2025-04-30T08:00:00", "08:00:00", "spring"] {
            let hint = read(&format!("\"{bad}\"")).unwrap_err();
            assert!(hint.contains("2026-11-25"), "{bad}: {hint}");
        }
        for bad in ["2025-02-29", "2025-04-30T08:00:00", "2025", "true"] {
            let hint = read(bad).unwrap_err();
            assert!(hint.contains("2026-11-25"), "{bad}: {hint}");
        }
        assert_eq!(read("\"31.3.2025\""), Err("write \"2025-03-31\"".into()));
        assert!(read("\"31.2.2025\"").unwrap_err().contains("2026-11-25"));
    }
}
