//! Steel plates and bars: stock thicknesses and steps, stock sheet sizes, least inner bend radii.
//!
//! In: mm. Out: mm. Stock differs by dealer; a job may name its own. Bend radii hold for bends across
//! the rolling direction.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Metric stock thicknesses.
pub const SOURCE: Source = Source::practice("stock thicknesses of EN 10131, EN 10051, EN 10029 plates");
/// US gauges and plates.
pub const US_GAUGES: Source = Source::standard("Manufacturers' Standard Gauge").remark("one gauge read, the others from memory").from_memory();
/// Stock sheet sizes.
pub const SHEETS: Source = Source::practice("usual stock sheets");
/// Least inner radius.
pub const BEND_RADII: Source = Source::standard("DIN 6935").remark("least inner radius for a right angle, across the rolling direction").from_memory();

/// Plates of a foot.
pub const LEAST_FOOT: Source = Source::standard("UFGS-15559A").remark("US government guide specification, least thickness of foot plates");
/// Least thickness of a foot's plates, mm (3/16 in). Source: [`LEAST_FOOT`].
pub const LEAST_FOOT_MM: f64 = 4.8;

/// Metric stock thicknesses, mm.
pub const METRIC_MM: &[f64] = &[0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0];

/// US stock, gauges and plates: name and thickness in inches.
pub const US_IN: &[(&str, f64)] = &[
    ("16 ga", 0.0598),
    ("14 ga", 0.0747),
    ("12 ga", 0.1046),
    ("11 ga", 0.1196),
    ("1/8\"", 0.125),
    ("10 ga", 0.1345),
    ("8 ga", 0.1644),
    ("7 ga", 0.1793),
    ("3/16\"", 0.1875),
    ("1/4\"", 0.25),
    ("5/16\"", 0.3125),
    ("3/8\"", 0.375),
    ("1/2\"", 0.5),
    ("5/8\"", 0.625),
    ("3/4\"", 0.75),
    ("1\"", 1.0),
    ("1 1/4\"", 1.25),
    ("1 1/2\"", 1.5),
    ("2\"", 2.0),
];

/// Width and length of the usual metric stock sheet, mm. Source: [`SHEETS`].
pub const SHEET_MM: [f64; 2] = [1500.0, 3000.0];
/// The same in US shops, in. Source: [`SHEETS`].
pub const SHEET_US_IN: [f64; 2] = [60.0, 120.0];

/// Flat bars as they are sold: what is narrow may be cut from them.
pub const BARS: Source = Source::practice("flat bars up to 150 mm wide, 6 m (20 ft) long");
/// Widest and longest flat bar, mm. Source: [`BARS`].
pub const BAR_MM: [f64; 2] = [150.0, 6000.0];

/// The thinnest metric stock plate of at least this thickness, mm.
pub fn metric_at_least_mm(thickness_mm: f64) -> Option<f64> {
    METRIC_MM.iter().copied().find(|t| *t >= thickness_mm - 1e-9)
}

/// The thinnest US stock plate of at least this thickness (mm): name and mm.
pub fn us_at_least(thickness_mm: f64) -> Option<(&'static str, f64)> {
    US_IN.iter().map(|(n, t)| (*n, t * MM_PER_INCH)).find(|(_, t)| *t >= thickness_mm - 1e-9)
}

/// How plates in US jobs follow metric ones.
pub const US_SIZES: Source = Source::practice("US plates by fractions of an inch, bars in quarter inches of width");
/// How much thinner a US plate may be than the customary metric one, share: 3/8 in stands for 10 mm.
const THINNER: f64 = 0.05;

/// The stock that a job's shop buys; every size of a part that the spec does not give passes through it.
///
/// Sizes go in as the customary metric ones. A metric shop gets them back as they are, computed
/// ones in whole millimetres; a US shop gets its own.
///
/// ```
/// use footwell::tables::plates::Stock;
/// assert_eq!(Stock::Metric.plate_mm(10.0), 10.0);
/// assert!((Stock::Us.plate_mm(10.0) - 9.525).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stock {
    /// Whole millimetres.
    Metric,
    /// Fractions of an inch.
    Us,
}

impl Stock {
    /// The stock of a job.
    pub const fn of(us: bool) -> Self {
        if us { Stock::Us } else { Stock::Metric }
    }
    /// Thickness in place of a customary metric one, mm: in US jobs the thinnest plate of at least 95 % of it.
    pub fn plate_mm(self, customary_mm: f64) -> f64 {
        let least = customary_mm * (1.0 - THINNER);
        match self {
            Stock::Metric => customary_mm,
            Stock::Us => US_IN.iter().filter(|row| row.0.ends_with('"')).map(|row| row.1 * MM_PER_INCH).find(|t| *t >= least).unwrap_or(customary_mm),
        }
    }
    /// The thinnest stock plate of at least a thickness, mm; the thickness itself above the stock.
    pub fn at_least_mm(self, thickness_mm: f64) -> f64 {
        match self {
            Stock::Metric => metric_at_least_mm(thickness_mm),
            Stock::Us => us_at_least(thickness_mm).map(|row| row.1),
        }
        .unwrap_or(thickness_mm)
    }
    /// Width of a bar in place of a customary metric one, mm: in US jobs the nearest quarter inch.
    pub fn width_mm(self, customary_mm: f64) -> f64 {
        self.nearest(customary_mm, 4.0)
    }
    /// A small size in place of a customary metric one, mm: in US jobs the nearest sixteenth of an inch.
    pub fn fine_mm(self, customary_mm: f64) -> f64 {
        self.nearest(customary_mm, 16.0)
    }
    /// A gap that parts are fitted up with in place of a customary metric one, mm: in US jobs the nearest thirty-second of an inch.
    pub fn fit_up_mm(self, customary_mm: f64) -> f64 {
        self.nearest(customary_mm, 32.0)
    }
    fn nearest(self, mm: f64, per_inch: f64) -> f64 {
        match self {
            Stock::Metric => mm,
            Stock::Us => (mm / MM_PER_INCH * per_inch).round().max(1.0) * MM_PER_INCH / per_inch,
        }
    }
    /// The step of whole sizes, mm: a millimetre, in US jobs a sixteenth of an inch.
    pub const fn step_mm(self) -> f64 {
        match self {
            Stock::Metric => 1.0,
            Stock::Us => MM_PER_INCH / 16.0,
        }
    }
    /// A computed size, mm: up to the next whole millimetre, in US jobs to the next quarter inch.
    pub fn up_mm(self, mm: f64) -> f64 {
        match self {
            Stock::Metric => (mm - 1e-6).ceil(),
            Stock::Us => quarters(mm).ceil() * MM_PER_INCH / 4.0,
        }
    }
    /// A computed size up to the next step, mm: metric ones of `step_mm`, in US jobs a quarter inch.
    pub fn step_up_mm(self, mm: f64, step_mm: f64) -> f64 {
        match self {
            Stock::Metric => (mm / step_mm - 1e-9).ceil() * step_mm,
            Stock::Us => self.up_mm(mm),
        }
    }
}

/// Quarter inches in a length, less what rounding left over.
fn quarters(mm: f64) -> f64 {
    mm * 4.0 / MM_PER_INCH - 1e-6
}

/// Thickness up to, radius for Rm up to 390 MPa, radius for Rm up to 490 MPa, mm.
const RADII: [(f64, f64, f64); 15] = [
    (1.0, 1.0, 1.2),
    (1.5, 1.6, 2.0),
    (2.5, 2.5, 3.0),
    (3.0, 3.0, 4.0),
    (4.0, 5.0, 5.0),
    (5.0, 6.0, 8.0),
    (6.0, 8.0, 10.0),
    (7.0, 10.0, 12.0),
    (8.0, 12.0, 16.0),
    (10.0, 16.0, 20.0),
    (12.0, 20.0, 25.0),
    (14.0, 25.0, 28.0),
    (16.0, 28.0, 32.0),
    (18.0, 36.0, 40.0),
    (20.0, 40.0, 45.0),
];

/// Least inner bend radius in mm for 90° by thickness (mm) and tensile strength (MPa); `None` above
/// 20 mm or 490 MPa.
pub fn least_bend_radius_mm(thickness_mm: f64, tensile_mpa: f64) -> Option<f64> {
    if thickness_mm.is_nan() || thickness_mm <= 0.0 {
        return None;
    }
    let row = RADII.iter().find(|r| thickness_mm <= r.0)?;
    match tensile_mpa {
        t if t <= 390.0 => Some(row.1),
        t if t <= 490.0 => Some(row.2),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stock() {
        assert_eq!(metric_at_least_mm(4.8), Some(5.0));
        assert_eq!(metric_at_least_mm(5.0), Some(5.0));
        assert_eq!(metric_at_least_mm(51.0), None);
        assert_eq!(us_at_least(4.7).map(|p| p.0), Some("3/16\""));
        // 12 gauge is 2.657 mm (read)
        assert!(us_at_least(2.6).is_some_and(|(n, t)| n == "12 ga" && (t - 2.657).abs() < 1e-3));
        assert_eq!((us_at_least(13.0).map(|p| p.0), us_at_least(51.0)), (Some("5/8\""), None));
        assert!(US_IN.windows(2).all(|w| w[0].1 < w[1].1) && METRIC_MM.windows(2).all(|w| w[0] < w[1]));
        const { assert!(SHEET_MM[0] < SHEET_MM[1] && SHEET_US_IN[0] < SHEET_US_IN[1]) };
    }

    /// Fractions that a US shop takes for the metric plates of its neighbours; bars in quarter inches.
    #[test]
    fn us_sizes() {
        let inches = |mm: f64| mm / MM_PER_INCH;
        for (mm, fraction) in
            [(3.0, 0.125), (5.0, 0.1875), (6.0, 0.25), (8.0, 0.3125), (10.0, 0.375), (12.0, 0.5), (15.0, 0.625), (16.0, 0.625), (20.0, 0.75), (25.0, 1.0)]
        {
            assert!((inches(Stock::Us.plate_mm(mm)) - fraction).abs() < 1e-9, "{mm}");
            assert_eq!(Stock::Metric.plate_mm(mm), mm);
        }
        for (mm, inch) in [(30.0, 1.25), (50.0, 2.0), (150.0, 6.0), (1.0, 0.25)] {
            assert!((inches(Stock::Us.width_mm(mm)) - inch).abs() < 1e-9, "{mm}");
            assert_eq!(Stock::Metric.width_mm(mm), mm);
        }
        assert!((inches(Stock::Us.fine_mm(3.0)) - 0.125).abs() < 1e-9 && (inches(Stock::Us.fine_mm(1.0)) - 0.0625).abs() < 1e-9);
        assert!((inches(Stock::Us.up_mm(50.8)) - 2.0).abs() < 1e-9 && (inches(Stock::Us.up_mm(51.0)) - 2.25).abs() < 1e-9);
        assert_eq!((Stock::Metric.up_mm(51.3), Stock::Metric.step_up_mm(51.3, 5.0)), (52.0, 55.0));
        assert!((inches(Stock::Us.step_up_mm(51.3, 5.0)) - 2.25).abs() < 1e-9);
        assert!((Stock::Us.at_least_mm(8.0) - 9.525).abs() < 1e-9 && Stock::Metric.at_least_mm(9.0) == 10.0 && Stock::Us.at_least_mm(99.0) == 99.0);
    }

    /// DIN 6935, least radii for Rm ≤ 390 and ≤ 490 MPa.
    #[test]
    fn radii() {
        for (s, soft, hard) in [(1.0, 1.0, 1.2), (3.0, 3.0, 4.0), (4.0, 5.0, 5.0), (5.0, 6.0, 8.0), (6.0, 8.0, 10.0), (10.0, 16.0, 20.0), (20.0, 40.0, 45.0)] {
            assert_eq!(least_bend_radius_mm(s, 360.0), Some(soft), "{s}");
            assert_eq!(least_bend_radius_mm(s, 470.0), Some(hard), "{s}");
        }
        assert_eq!(least_bend_radius_mm(3.0, 520.0), None);
        assert_eq!(least_bend_radius_mm(21.0, 360.0), None);
        assert_eq!(least_bend_radius_mm(0.0, 360.0), None);
        assert!(RADII.windows(2).all(|w| w[0].0 < w[1].0 && w[0].1 < w[1].1));
    }
}
