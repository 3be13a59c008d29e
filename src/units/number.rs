//! What reading and writing of quantities share: a number as it is typed, and the inch.

/// Millimetres in an inch, exact.
pub const MM_PER_INCH: f64 = 25.4;

/// A number with at most `decimals` decimals, without trailing zeros and without `-0`.
pub fn plain_number(value: f64, decimals: usize) -> String {
    let mut text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".into() } else { text }
}
