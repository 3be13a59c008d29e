//! General tolerances: machined (ISO 2768-1) and welded (ISO 13920).
//!
//! In: class and nominal size in mm. Out: ± mm, or an angle in minutes of arc. `None` where the standard
//! gives none. ISO 2768-2 is withdrawn; form and position are stated by value (ISO 22081).

use crate::sources::Source;

/// Linear sizes of machined parts; radii and angles are from memory.
pub const SOURCE: Source = Source::standard("ISO 2768-1");
/// Radii, chamfers, angles.
pub const RADII_ANGLES: Source = Source::standard("ISO 2768-1, radii, chamfers and angles").from_memory();
/// Welded structures; classes G and H are from memory.
pub const WELDED: Source = Source::standard("ISO 13920");

/// What US shops are told on drawings.
pub const US: Source = Source::practice("limits printed on US shop drawings of plate work");
/// General tolerances of an ISO sheet, machined and welded, as printed.
pub const ISO_SHOP: &str = "ISO 2768-m, ISO 13920-B";
/// General tolerances of a US sheet of plate work, as printed.
pub const US_PLATE_WORK: &str = "CUT ±1/16\", WELDED ±1/8\"";
/// General tolerances of a US sheet of machined parts, as printed.
pub const US_MACHINED: &str = "MACHINED ±1/64\", ±1°";

/// Class of ISO 2768-1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Machined {
    /// Fine.
    F,
    /// Medium.
    M,
    /// Coarse.
    C,
    /// Very coarse.
    V,
}

const MACHINED_LIMITS_MM: [f64; 8] = [3.0, 6.0, 30.0, 120.0, 400.0, 1000.0, 2000.0, 4000.0];

/// ± tolerance of a length, mm: nominal 0.5 to 4000 mm (ISO 2768-1).
///
/// ```
/// use footwell::tables::tolerances::{machined_mm, Machined};
/// assert_eq!(machined_mm(Machined::M, 250.0), Some(0.5));
/// ```
pub fn machined_mm(class: Machined, nominal_mm: f64) -> Option<f64> {
    const NONE: f64 = f64::NAN;
    let row: [f64; 8] = match class {
        Machined::F => [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, NONE],
        Machined::M => [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0],
        Machined::C => [0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0],
        Machined::V => [NONE, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0],
    };
    step(&MACHINED_LIMITS_MM, &row, nominal_mm).filter(|t| !t.is_nan() && nominal_mm >= 0.5)
}

/// ± tolerance of a radius or chamfer, mm, from 0.5 mm up (ISO 2768-1).
pub fn radius_mm(class: Machined, nominal_mm: f64) -> Option<f64> {
    let row = match class {
        Machined::F | Machined::M => [0.2, 0.5, 1.0],
        Machined::C | Machined::V => [0.4, 1.0, 2.0],
    };
    step(&[3.0, 6.0, f64::INFINITY], &row, nominal_mm).filter(|_| nominal_mm >= 0.5)
}

/// ± tolerance of an angle in minutes of arc by the shorter leg in mm (ISO 2768-1).
pub fn angle_min(class: Machined, leg_mm: f64) -> Option<f64> {
    let row = match class {
        Machined::F | Machined::M => [60.0, 30.0, 20.0, 10.0, 5.0],
        Machined::C => [90.0, 60.0, 30.0, 15.0, 10.0],
        Machined::V => [180.0, 120.0, 60.0, 30.0, 20.0],
    };
    step(&[10.0, 50.0, 120.0, 400.0, f64::INFINITY], &row, leg_mm)
}

/// Class of ISO 13920: A to D for lengths and angles, E to H for straightness, flatness, parallelism.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Welded {
    /// Lengths, finest.
    A,
    /// Lengths, usual.
    B,
    /// Lengths, coarse.
    C,
    /// Lengths, coarsest.
    D,
    /// Form, finest.
    E,
    /// Form, usual.
    F,
    /// Form, coarse.
    G,
    /// Form, coarsest.
    H,
}

const WELDED_LIMITS_MM: [f64; 10] = [120.0, 400.0, 1000.0, 2000.0, 4000.0, 8000.0, 12000.0, 16000.0, 20000.0, f64::INFINITY];

/// ± tolerance (A–D) or tolerance (E–H), mm (ISO 13920). Lengths of 2 to 30 mm: ±1 in all of A–D.
///
/// ```
/// use footwell::tables::tolerances::{welded_mm, Welded};
/// assert_eq!(welded_mm(Welded::B, 1500.0), Some(4.0));
/// ```
pub fn welded_mm(class: Welded, nominal_mm: f64) -> Option<f64> {
    let row: [f64; 10] = match class {
        Welded::A => [1.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0],
        Welded::B => [2.0, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0],
        Welded::C => [3.0, 4.0, 6.0, 8.0, 11.0, 14.0, 18.0, 21.0, 24.0, 27.0],
        Welded::D => [4.0, 7.0, 9.0, 12.0, 16.0, 21.0, 27.0, 32.0, 36.0, 40.0],
        Welded::E => [0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0],
        Welded::F => [1.0, 1.5, 3.0, 4.5, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0],
        Welded::G => [1.5, 3.0, 5.5, 9.0, 11.0, 16.0, 20.0, 22.0, 25.0, 25.0],
        Welded::H => [2.5, 5.0, 9.0, 14.0, 18.0, 26.0, 32.0, 36.0, 40.0, 40.0],
    };
    if class <= Welded::D && (2.0..=30.0).contains(&nominal_mm) {
        return Some(1.0);
    }
    step(&WELDED_LIMITS_MM, &row, nominal_mm).filter(|_| nominal_mm > 30.0)
}

/// ± tolerance of an angle in minutes of arc by the shorter leg in mm (ISO 13920); classes A–D only.
pub fn welded_angle_min(class: Welded, leg_mm: f64) -> Option<f64> {
    let row = match class {
        Welded::A => [20.0, 15.0, 10.0],
        Welded::B => [45.0, 30.0, 20.0],
        Welded::C => [60.0, 45.0, 30.0],
        Welded::D => [90.0, 75.0, 60.0],
        _ => return None,
    };
    step(&[400.0, 1000.0, f64::INFINITY], &row, leg_mm)
}

fn step(limits: &[f64], row: &[f64], size: f64) -> Option<f64> {
    if size.is_nan() || size <= 0.0 {
        return None;
    }
    limits.iter().position(|l| size <= *l).and_then(|i| row.get(i)).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 2768-1 as printed; class c begins with 0.2 and 0.3, not with the values of the old DIN 7168.
    #[test]
    fn iso_2768() {
        let sizes = [2.0, 5.0, 20.0, 100.0, 300.0, 800.0, 1500.0, 3000.0];
        let rows = [
            (Machined::F, [Some(0.05), Some(0.05), Some(0.1), Some(0.15), Some(0.2), Some(0.3), Some(0.5), None]),
            (Machined::M, [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0].map(Some)),
            (Machined::C, [0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0].map(Some)),
            (Machined::V, [None, Some(0.5), Some(1.0), Some(1.5), Some(2.5), Some(4.0), Some(6.0), Some(8.0)]),
        ];
        for (class, row) in rows {
            for (size, want) in sizes.into_iter().zip(row) {
                assert_eq!(machined_mm(class, size), want, "{class:?} {size}");
            }
        }
        assert_eq!(machined_mm(Machined::M, 6.0), Some(0.1));
        assert_eq!(machined_mm(Machined::M, 6.01), Some(0.2));
        assert_eq!(machined_mm(Machined::M, 0.4), None);
        assert_eq!(machined_mm(Machined::M, 4001.0), None);
        assert_eq!((radius_mm(Machined::M, 3.0), radius_mm(Machined::C, 10.0), radius_mm(Machined::M, 0.1)), (Some(0.2), Some(2.0), None));
        assert_eq!((angle_min(Machined::M, 10.0), angle_min(Machined::V, 200.0), angle_min(Machined::C, 5000.0)), (Some(60.0), Some(30.0), Some(10.0)));
    }

    /// ISO 13920: lengths, form, angles.
    #[test]
    fn iso_13920() {
        assert_eq!(welded_mm(Welded::B, 25.0), Some(1.0));
        for (class, row) in [
            (Welded::A, [1.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0]),
            (Welded::B, [2.0, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0]),
            (Welded::C, [3.0, 4.0, 6.0, 8.0, 11.0, 14.0, 18.0, 21.0, 24.0, 27.0]),
            (Welded::D, [4.0, 7.0, 9.0, 12.0, 16.0, 21.0, 27.0, 32.0, 36.0, 40.0]),
            (Welded::E, [0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0]),
            (Welded::F, [1.0, 1.5, 3.0, 4.5, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0]),
        ] {
            for (size, want) in [100.0, 400.0, 900.0, 1900.0, 3000.0, 7000.0, 11000.0, 15000.0, 19000.0, 25000.0].into_iter().zip(row) {
                assert_eq!(welded_mm(class, size), Some(want), "{class:?} {size}");
            }
        }
        assert_eq!((welded_mm(Welded::G, 500.0), welded_mm(Welded::H, 500.0)), (Some(5.5), Some(9.0)));
        assert_eq!((welded_mm(Welded::F, 20.0), welded_mm(Welded::A, 1.0)), (None, None));
        for (class, row) in [(Welded::A, [20.0, 15.0, 10.0]), (Welded::B, [45.0, 30.0, 20.0]), (Welded::C, [60.0, 45.0, 30.0]), (Welded::D, [90.0, 75.0, 60.0])]
        {
            assert_eq!([400.0, 1000.0, 1001.0].map(|l| welded_angle_min(class, l)), row.map(Some));
        }
        assert_eq!(welded_angle_min(Welded::E, 100.0), None);
        // the printed mm/m column: tan of the angle, class B 13/9/6
        for (leg, mm_per_m) in [(300.0, 13.0), (900.0, 9.0), (2000.0, 6.0)] {
            let angle = welded_angle_min(Welded::B, leg).unwrap_or(0.0) / 60.0;
            assert!((angle.to_radians().tan() * 1000.0 - mm_per_m).abs() < 0.5);
        }
    }
}
