//! What people, goods and covers weigh on a pit besides the machine: values to begin with, each on hold until the engineer settles it.
//!
//! In: a jurisdiction. Out: kN/m², kN/m and kN. Vehicles are in none of them.

use super::access;
use crate::sources::Source;

/// Floors and covers.
pub const EN_1991: Source = Source::standard("EN 1991-1-1").remark("table 6.4, category E1, general storage").from_memory();
/// Stairs and landings.
pub const ISO_14122: Source = Source::standard("ISO 14122-2").remark("load on floors: over the whole and on a small square").from_memory();
/// US floors, stairs and guards.
pub const ASCE_7: Source = Source::standard("ASCE 7").remark("table 4.3-1 and clause 4.5").from_memory();
/// A cover's own weight.
pub const COVER: Source = Source::practice("chequer plate with its ribs and beams");

/// Every source of this table.
pub const SOURCES: &[Source] = &[EN_1991, ISO_14122, ASCE_7, COVER];

/// One load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Imposed {
    /// What it acts on, in words.
    pub what: &'static str,
    /// Over an area, kN/m².
    pub area: Option<f64>,
    /// Along a line, horizontal, kN/m.
    pub line: Option<f64>,
    /// At a point, kN.
    pub point: Option<f64>,
    /// Where it comes from.
    pub source: Source,
}

const fn load(what: &'static str, area: Option<f64>, line: Option<f64>, point: Option<f64>, source: Source) -> Imposed {
    Imposed { what, area, line, point, source }
}

/// kN/m² in 1 lbf/ft².
const PSF: f64 = 0.047_880_26;
/// kN in 1 lbf.
const LBF: f64 = 0.004_448_222;
/// kN/m in 1 lbf/ft.
const PLF: f64 = 0.014_593_9;

const ISO: [Imposed; 5] = [
    load("cover with its beams, dead", Some(1.0), None, None, COVER),
    load("cover, people and goods", Some(7.5), None, Some(7.0), EN_1991),
    load("pit floor, people and goods", Some(7.5), None, Some(7.0), EN_1991),
    load("stair, landing, ladder", Some(2.0), None, Some(1.5), ISO_14122),
    load("guard rail, horizontal at the top rail", None, Some(access::ISO.rail_load_n.value / 1000.0), None, access::ISO.rail_load_n.source),
];

const US: [Imposed; 5] = [
    load("cover with its beams, dead", Some(1.0), None, None, COVER),
    load("cover, people and goods", Some(250.0 * PSF), None, Some(3000.0 * LBF), ASCE_7),
    load("pit floor, people and goods", Some(125.0 * PSF), None, Some(2000.0 * LBF), ASCE_7),
    load("stair, landing, ladder", Some(100.0 * PSF), None, Some(300.0 * LBF), ASCE_7),
    load("guard rail, horizontal at the top rail", None, Some(50.0 * PLF), Some(200.0 * LBF), ASCE_7),
];

/// The loads of a job.
pub const fn imposed(us: bool) -> &'static [Imposed] {
    if us { &US } else { &ISO }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every load has a value; the rail's is the one that OSHA's 200 lbf names, and ISO's 300 N for each metre.
    #[test]
    fn values() {
        for l in imposed(false).iter().chain(imposed(true)) {
            assert!([l.area, l.line, l.point].iter().flatten().all(|v| *v > 0.0) && [l.area, l.line, l.point].iter().any(Option::is_some), "{}", l.what);
        }
        assert_eq!(imposed(false)[4].line, Some(0.3));
        assert!((imposed(true)[4].point.unwrap_or_default() * 1000.0 - access::OSHA.rail_load_n.value).abs() < 1.0);
        assert!((imposed(true)[1].area.unwrap_or_default() - 11.97).abs() < 0.01);
    }
}
