//! Bolts and holes: metric coarse and UNC threads with tap drills, clearance holes, hexagons and heights.
//!
//! In: a thread name (`"M16"`, `"5/8-11"`). Out: sizes in mm. The profile sizes are computed from
//! ISO 68-1; drills, holes and hexagons are table values. Fine threads are not in the table.
//! Metric and inch threads of like size are not interchangeable.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Profile and stress area of metric threads.
pub const SOURCE: Source = Source::standard("ISO 68-1, ISO 724, ISO 898-1");
/// Clearance holes of metric bolts.
pub const CLEARANCE_HOLES: Source = Source::standard("ISO 273");
/// Tap drills of metric threads.
pub const TAP_DRILLS: Source = Source::standard("ISO 2306").from_memory();
/// Hexagon across flats, head height, nut height.
pub const HEXAGONS: Source = Source::standard("ISO 4014, ISO 4032").from_memory();
/// Stress areas of inch threads.
pub const UNC: Source = Source::standard("ASME B1.1; Shigley, Mechanical Engineering Design, Table 8-2");
/// Clearance holes of inch bolts; the close fits and the normal fits above 7/16 are from memory.
pub const INCH_HOLES: Source = Source::standard("ASME B18.2.8-1999 (R2017)").from_memory();
/// Inch hexagons, heads, nuts and tap drills.
pub const INCH_HEXAGONS: Source = Source::standard("ASME B18.2.1, B18.2.2").from_memory();

/// Which series a thread belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Series {
    /// ISO metric coarse.
    Metric,
    /// Unified coarse.
    Unc,
}

/// How closely a hole fits its bolt (ISO 273 fine, medium, coarse; ASME B18.2.8 close, normal, loose).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// ISO 273 fine; ASME close.
    Close,
    /// ISO 273 medium; ASME normal.
    Medium,
    /// ISO 273 coarse; ASME loose (its least size).
    Coarse,
}

/// One thread with the sizes that a drawing needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thread {
    /// As written on a drawing, e.g. `M16` or `5/8-11`.
    pub name: &'static str,
    /// The series.
    pub series: Series,
    /// Nominal (major) diameter, mm.
    pub diameter_mm: f64,
    /// Pitch, mm.
    pub pitch_mm: f64,
    /// Tap drill, mm.
    pub tap_drill_mm: f64,
    /// Clearance holes close, medium, coarse, mm.
    pub holes_mm: [f64; 3],
    /// Hexagon across flats, mm.
    pub across_flats_mm: f64,
    /// Height of the bolt head, mm.
    pub head_mm: f64,
    /// Height of the standard nut, mm (largest).
    pub nut_mm: f64,
}

impl Thread {
    /// Clearance hole for a fit, mm.
    pub const fn hole_mm(&self, fit: Fit) -> f64 {
        match fit {
            Fit::Close => self.holes_mm[0],
            Fit::Medium => self.holes_mm[1],
            Fit::Coarse => self.holes_mm[2],
        }
    }
    /// Thickness of a plain washer, mm: ISO 7089 from memory (M6 1.6, M8 1.6, M10 2, M12 2.5, M16 3, M20 3, M24 4).
    pub fn washer_mm(&self) -> f64 {
        match self.diameter_mm {
            d if d < 9.0 => 1.6,
            d if d < 11.0 => 2.0,
            d if d < 15.0 => 2.5,
            d if d < 22.0 => 3.0,
            _ => 4.0,
        }
    }
    /// As a tapped hole is called for: a unified one with its series and class, 2B being the general one (ASME B1.1, from
    /// memory); a metric one by its name, since 6H goes without saying (ISO 965-1, from memory).
    pub fn tapped(&self) -> String {
        self.with_class("2B")
    }
    /// As a bolt or stud is called for, classes 2A and 6g.
    pub fn of_bolt(&self) -> String {
        self.with_class("2A")
    }
    fn with_class(&self, class: &str) -> String {
        match self.series {
            Series::Metric => self.name.to_string(),
            Series::Unc => format!("{} UNC-{class}", self.name),
        }
    }
    /// Number or letter of the tap drill where it is no fraction of an inch (ASME B94.11M, from memory).
    pub fn drill_letter(&self) -> Option<&'static str> {
        match self.name {
            "1/4-20" => Some("#7"),
            "5/16-18" => Some("F"),
            "7/16-14" => Some("U"),
            _ => None,
        }
    }
}

/// How a tapped hole of this thread is called for; a name outside the table as it is.
pub fn tapped(name: &str) -> String {
    find(name).map_or_else(|| name.to_string(), Thread::tapped)
}

/// Finds a thread by name; case and blanks do not matter. `None` outside the table.
pub fn find(name: &str) -> Option<&'static Thread> {
    let wanted: String = name.chars().filter(|c| !c.is_whitespace()).flat_map(char::to_lowercase).collect();
    let wanted = wanted.trim_end_matches("unc").trim_end_matches('-');
    let same = |name: &str| name.chars().filter(|c| !c.is_whitespace()).map(|c| c.to_ascii_lowercase()).eq(wanted.chars());
    ALL.iter().find(|t| same(t.name))
}

/// The inch thread that replaces a metric one by size (common practice), and the other way round.
pub fn counterpart(thread: &Thread) -> Option<&'static Thread> {
    const PAIRS: [(&str, &str); 8] =
        [("M6", "1/4-20"), ("M8", "5/16-18"), ("M10", "3/8-16"), ("M12", "1/2-13"), ("M16", "5/8-11"), ("M20", "3/4-10"), ("M22", "7/8-9"), ("M24", "1-8")];
    PAIRS.iter().find_map(|&(m, u)| {
        if thread.name == m {
            find(u)
        } else if thread.name == u {
            find(m)
        } else {
            None
        }
    })
}

/// The thread of a job for a metric name: itself, or in US jobs the inch thread that replaces it; where none does
/// (M14, M18, M27 and thicker ones) the thickest inch thread that is no thicker. An inch name stays.
pub fn of_job(name: &str, us: bool) -> Option<&'static Thread> {
    let found = find(name)?;
    if !us || found.series == Series::Unc {
        return Some(found);
    }
    counterpart(found).or_else(|| ALL.iter().rfind(|t| t.series == Series::Unc && t.diameter_mm <= found.diameter_mm))
}

#[expect(clippy::too_many_arguments, reason = "one argument a column of the table")]
const fn m(name: &'static str, d: f64, p: f64, drill: f64, holes: [f64; 3], flats: f64, head: f64, nut: f64) -> Thread {
    Thread {
        name,
        series: Series::Metric,
        diameter_mm: d,
        pitch_mm: p,
        tap_drill_mm: drill,
        holes_mm: holes,
        across_flats_mm: flats,
        head_mm: head,
        nut_mm: nut,
    }
}

/// An inch row: sizes in inches.
#[expect(clippy::too_many_arguments, reason = "one argument a column of the table")]
const fn u(name: &'static str, d: f64, per_inch: f64, drill: f64, holes: [f64; 3], flats: f64, head: f64, nut: f64) -> Thread {
    Thread {
        name,
        series: Series::Unc,
        diameter_mm: d * MM_PER_INCH,
        pitch_mm: MM_PER_INCH / per_inch,
        tap_drill_mm: drill * MM_PER_INCH,
        holes_mm: [holes[0] * MM_PER_INCH, holes[1] * MM_PER_INCH, holes[2] * MM_PER_INCH],
        across_flats_mm: flats * MM_PER_INCH,
        head_mm: head * MM_PER_INCH,
        nut_mm: nut * MM_PER_INCH,
    }
}

/// All threads, each series by rising diameter.
pub const ALL: &[Thread] = &[
    m("M5", 5.0, 0.8, 4.2, [5.3, 5.5, 5.8], 8.0, 3.5, 4.7),
    m("M6", 6.0, 1.0, 5.0, [6.4, 6.6, 7.0], 10.0, 4.0, 5.2),
    m("M8", 8.0, 1.25, 6.8, [8.4, 9.0, 10.0], 13.0, 5.3, 6.8),
    m("M10", 10.0, 1.5, 8.5, [10.5, 11.0, 12.0], 16.0, 6.4, 8.4),
    m("M12", 12.0, 1.75, 10.2, [13.0, 13.5, 14.5], 18.0, 7.5, 10.8),
    m("M14", 14.0, 2.0, 12.0, [15.0, 15.5, 16.5], 21.0, 8.8, 12.8),
    m("M16", 16.0, 2.0, 14.0, [17.0, 17.5, 18.5], 24.0, 10.0, 14.8),
    m("M18", 18.0, 2.5, 15.5, [19.0, 20.0, 21.0], 27.0, 11.5, 15.8),
    m("M20", 20.0, 2.5, 17.5, [21.0, 22.0, 24.0], 30.0, 12.5, 18.0),
    m("M22", 22.0, 2.5, 19.5, [23.0, 24.0, 26.0], 34.0, 14.0, 19.4),
    m("M24", 24.0, 3.0, 21.0, [25.0, 26.0, 28.0], 36.0, 15.0, 21.5),
    m("M27", 27.0, 3.0, 24.0, [28.0, 30.0, 32.0], 41.0, 17.0, 23.8),
    m("M30", 30.0, 3.5, 26.5, [31.0, 33.0, 35.0], 46.0, 18.7, 25.6),
    m("M33", 33.0, 3.5, 29.5, [34.0, 36.0, 38.0], 50.0, 21.0, 28.7),
    m("M36", 36.0, 4.0, 32.0, [37.0, 39.0, 42.0], 55.0, 22.5, 31.0),
    m("M39", 39.0, 4.0, 35.0, [40.0, 42.0, 45.0], 60.0, 25.0, 33.4),
    m("M42", 42.0, 4.5, 37.5, [43.0, 45.0, 48.0], 65.0, 26.0, 34.0),
    m("M45", 45.0, 4.5, 40.5, [46.0, 48.0, 52.0], 70.0, 28.0, 36.0),
    m("M48", 48.0, 5.0, 43.0, [50.0, 52.0, 56.0], 75.0, 30.0, 38.0),
    u("1/4-20", 0.25, 20.0, 0.201, [17.0 / 64.0, 9.0 / 32.0, 0.297], 7.0 / 16.0, 5.0 / 32.0, 7.0 / 32.0),
    u("5/16-18", 0.3125, 18.0, 0.257, [21.0 / 64.0, 11.0 / 32.0, 0.359], 0.5, 13.0 / 64.0, 17.0 / 64.0),
    u("3/8-16", 0.375, 16.0, 0.3125, [25.0 / 64.0, 13.0 / 32.0, 0.422], 9.0 / 16.0, 15.0 / 64.0, 21.0 / 64.0),
    u("7/16-14", 0.4375, 14.0, 0.368, [29.0 / 64.0, 15.0 / 32.0, 0.484], 0.625, 9.0 / 32.0, 0.375),
    u("1/2-13", 0.5, 13.0, 27.0 / 64.0, [17.0 / 32.0, 9.0 / 16.0, 0.609], 0.75, 5.0 / 16.0, 7.0 / 16.0),
    u("5/8-11", 0.625, 11.0, 17.0 / 32.0, [21.0 / 32.0, 11.0 / 16.0, 0.734], 15.0 / 16.0, 25.0 / 64.0, 35.0 / 64.0),
    u("3/4-10", 0.75, 10.0, 21.0 / 32.0, [25.0 / 32.0, 13.0 / 16.0, 0.906], 1.125, 15.0 / 32.0, 41.0 / 64.0),
    u("7/8-9", 0.875, 9.0, 49.0 / 64.0, [29.0 / 32.0, 15.0 / 16.0, 1.031], 1.3125, 35.0 / 64.0, 0.75),
    u("1-8", 1.0, 8.0, 0.875, [1.0 + 1.0 / 32.0, 1.0 + 3.0 / 32.0, 1.156], 1.5, 39.0 / 64.0, 55.0 / 64.0),
    u("1 1/4-7", 1.25, 7.0, 71.0 / 64.0, [1.0 + 9.0 / 32.0, 1.0 + 11.0 / 32.0, 1.438], 1.875, 25.0 / 32.0, 1.0 + 1.0 / 16.0),
    u("1 1/2-6", 1.5, 6.0, 86.0 / 64.0, [1.0 + 9.0 / 16.0, 1.0 + 5.0 / 8.0, 1.0 + 11.0 / 16.0], 2.25, 15.0 / 16.0, 1.0 + 9.0 / 32.0),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use std::f64::consts::PI;

    /// ISO 724 / ISO 898-1: d2, D1, d3, stress area as printed (3 figures).
    #[test]
    fn iso_sizes() {
        for (name, d2, d1, d3, area) in [
            ("M5", 4.480, 4.134, 4.019, 14.2),
            ("M6", 5.350, 4.917, 4.773, 20.1),
            ("M8", 7.188, 6.647, 6.466, 36.6),
            ("M10", 9.026, 8.376, 8.160, 58.0),
            ("M12", 10.863, 10.106, 9.853, 84.3),
            ("M14", 12.701, 11.835, 11.546, 115.0),
            ("M16", 14.701, 13.835, 13.546, 157.0),
            ("M18", 16.376, 15.294, 14.933, 192.0),
            ("M20", 18.376, 17.294, 16.933, 245.0),
            ("M22", 20.376, 19.294, 18.933, 303.0),
            ("M24", 22.051, 20.752, 20.319, 353.0),
            ("M27", 25.051, 23.752, 23.319, 459.0),
            ("M30", 27.727, 26.211, 25.706, 561.0),
            ("M33", 30.727, 29.211, 28.706, 694.0),
            ("M36", 33.402, 31.670, 31.093, 817.0),
            ("M39", 36.402, 34.670, 34.093, 976.0),
            ("M42", 39.077, 37.129, 36.479, 1120.0),
            ("M45", 42.077, 40.129, 39.479, 1310.0),
            ("M48", 44.752, 42.587, 41.866, 1470.0),
        ] {
            let t = find(name).unwrap();
            let less = |share: f64| t.diameter_mm - share * t.pitch_mm;
            for (share, want) in [(0.649_519, d2), (1.082_532, d1), (1.226_869, d3)] {
                assert!((less(share) - want).abs() < 6e-4, "{name} {want}: {}", less(share));
            }
            let stressed = PI / 4.0 * f64::midpoint(less(0.649_519), less(1.226_869)).powi(2);
            assert!((stressed / area - 1.0).abs() < 4e-3, "{name} As {stressed}");
        }
    }

    /// ASME B1.1 tensile stress areas, in² (Shigley Table 8-2).
    #[test]
    fn unc_stress_areas() {
        for (name, area) in [
            ("1/4-20", 0.0318),
            ("5/16-18", 0.0524),
            ("3/8-16", 0.0775),
            ("7/16-14", 0.1063),
            ("1/2-13", 0.1419),
            ("5/8-11", 0.226),
            ("3/4-10", 0.334),
            ("7/8-9", 0.462),
            ("1-8", 0.606),
            ("1 1/4-7", 0.969),
            ("1 1/2-6", 1.405),
        ] {
            let a = PI / 4.0 * ((find(name).unwrap().diameter_mm - 0.9743 * find(name).unwrap().pitch_mm) / MM_PER_INCH).powi(2);
            assert!((a / area - 1.0).abs() < 2e-3, "{name} {a}");
        }
    }

    /// A tap drill is about D − P, rounded (identity; inch letter and number drills within 0.3 mm).
    #[test]
    fn drills_and_holes_follow_the_diameter() {
        for t in ALL {
            let tolerance = if t.series == Series::Metric { 0.1 } else { 0.3 };
            assert!((t.tap_drill_mm - (t.diameter_mm - t.pitch_mm)).abs() <= tolerance, "{}", t.name);
            assert!(t.tap_drill_mm >= t.diameter_mm - 1.082_532 * t.pitch_mm - 0.1, "{}", t.name);
            assert!(t.diameter_mm < t.holes_mm[0] && t.holes_mm[0] < t.holes_mm[1] && t.holes_mm[1] < t.holes_mm[2], "{}", t.name);
            assert!(t.across_flats_mm > 1.4 * t.diameter_mm && t.across_flats_mm < 1.8 * t.diameter_mm, "{}", t.name);
            assert!(t.head_mm < t.nut_mm && t.nut_mm < t.diameter_mm, "{}", t.name);
        }
    }

    /// Inch tap drills are fractions of 1/64 in, or drills with a number or letter: #7 0.201, F 0.257, U 0.368 in (ASME B94.11M).
    #[test]
    fn inch_drills_have_a_name() {
        for t in ALL.iter().filter(|t| t.series == Series::Unc) {
            let inches = t.tap_drill_mm / MM_PER_INCH;
            let wanted = match t.drill_letter() {
                Some("#7") => 0.201,
                Some("F") => 0.257,
                Some("U") => 0.368,
                _ => (inches * 64.0).round() / 64.0,
            };
            assert!((inches - wanted).abs() < 1e-9, "{}", t.name);
        }
        assert_eq!(find("M8").unwrap().drill_letter(), None);
    }

    /// ISO 273 clearance holes M6 to M48 and ISO 2306 tap drills of M5 to M24, M30 and M36 to M48, as read.
    #[test]
    fn iso_273_and_iso_2306() {
        for (name, drill, holes) in [
            ("M5", 4.2, [5.3, 5.5, 5.8]),
            ("M6", 5.0, [6.4, 6.6, 7.0]),
            ("M8", 6.8, [8.4, 9.0, 10.0]),
            ("M10", 8.5, [10.5, 11.0, 12.0]),
            ("M12", 10.2, [13.0, 13.5, 14.5]),
            ("M14", 12.0, [15.0, 15.5, 16.5]),
            ("M16", 14.0, [17.0, 17.5, 18.5]),
            ("M18", 15.5, [19.0, 20.0, 21.0]),
            ("M20", 17.5, [21.0, 22.0, 24.0]),
            ("M22", 19.5, [23.0, 24.0, 26.0]),
            ("M24", 21.0, [25.0, 26.0, 28.0]),
            ("M30", 26.5, [31.0, 33.0, 35.0]),
            ("M36", 32.0, [37.0, 39.0, 42.0]),
            ("M42", 37.5, [43.0, 45.0, 48.0]),
            ("M48", 43.0, [50.0, 52.0, 56.0]),
        ] {
            let t = find(name).unwrap();
            assert_eq!((t.tap_drill_mm, t.holes_mm), (drill, holes), "{name}");
        }
    }

    /// ISO 273 rows by fit, and hexagon sizes of ISO 4014 that differ from the old DIN 931 ones.
    #[test]
    fn rows() {
        assert_eq!(find("m16").unwrap().holes_mm, [17.0, 17.5, 18.5]);
        assert_eq!(find("M20").unwrap().hole_mm(Fit::Medium), 22.0);
        assert_eq!(find("M20").unwrap().hole_mm(Fit::Close), 21.0);
        assert_eq!(find("M20").unwrap().hole_mm(Fit::Coarse), 24.0);
        for (name, flats) in [("M10", 16.0), ("M12", 18.0), ("M14", 21.0), ("M22", 34.0)] {
            assert_eq!(find(name).unwrap().across_flats_mm, flats);
        }
    }

    #[test]
    fn lookups() {
        assert_eq!(find("5/8-11 UNC").unwrap().name, "5/8-11");
        assert_eq!(find("1 1/4-7 UNC").unwrap().name, "1 1/4-7");
        assert!(find("M7").is_none());
        assert_eq!(counterpart(find("M16").unwrap()).unwrap().name, "5/8-11");
        assert_eq!(counterpart(find("3/4-10").unwrap()).unwrap().name, "M20");
        assert!(counterpart(find("M14").unwrap()).is_none());
        for (metric, us) in
            [("M8", "5/16-18"), ("M14", "1/2-13"), ("M16", "5/8-11"), ("M27", "1-8"), ("M33", "1 1/4-7"), ("M39", "1 1/2-6"), ("5/8-11", "5/8-11")]
        {
            assert_eq!(of_job(metric, true).unwrap().name, us, "{metric}");
            assert_eq!(of_job(metric, false), find(metric));
        }
        for series in [Series::Metric, Series::Unc] {
            let d: Vec<f64> = ALL.iter().filter(|t| t.series == series).map(|t| t.diameter_mm).collect();
            assert!(d.windows(2).all(|w| w[0] < w[1]));
        }
    }
}
