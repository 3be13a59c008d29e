//! The cautions that always print: on the general arrangement, on the pit sheet, in the report.
//!
//! Short and factual. Which of them apply follows from the product and from whether there is a pit.
//! They replace no local code and no risk assessment.

use crate::sources::Source;

/// Cautions of the trade.
pub const SOURCE: Source = Source::practice("cautions for bucket elevators");
/// Lock-out before clearing or servicing.
pub const LOCK_OUT: Source = Source::law("OSHA 29 CFR 1910.147; outside the US the local rule on energy isolation").from_memory();
/// Confined space.
pub const CONFINED_SPACE: Source = Source::law("OSHA 29 CFR 1910.146(b); outside the US the local rule on confined spaces");
/// No jogging of a choked leg.
pub const CHOKED_LEG: Source = Source::law("OSHA 29 CFR 1910.272(q)(1) for grain elevators");

/// One caution with what stands behind it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// The sentence as printed.
    pub text: &'static str,
    /// Its source.
    pub source: Source,
}

const ALWAYS: [Caution; 4] = [
    Caution { text: "Lock out and tag the drive before opening any door, panel or guard.", source: LOCK_OUT },
    Caution { text: "Guards and the mesh behind inspection doors stay in place while the elevator runs.", source: SOURCE },
    Caution {
        text: "Belt, buckets and pulleys can move by their own weight: secure them before work. Lift the foot at its lifting points only.",
        source: SOURCE,
    },
    Caution { text: "Local codes and licensed practice govern. The drawings are checked by program and approved by a person.", source: SOURCE },
];
const COMBUSTIBLE: [Caution; 2] = [
    Caution { text: "DUST EXPLOSION: the dust of this product can ignite. Explosion protection is to be designed by a specialist.", source: SOURCE },
    Caution { text: "Do not jog the drive to free a plugged foot.", source: CHOKED_LEG },
];
const PIT: [Caution; 1] =
    [Caution { text: "CONFINED SPACE: the pit and the inside of the foot. Test the air and follow the entry procedure.", source: CONFINED_SPACE }];

/// The cautions that apply, most urgent first.
pub fn applying(combustible: bool, pit: bool) -> Vec<Caution> {
    let mut all = Vec::new();
    if combustible {
        all.extend(COMBUSTIBLE);
    }
    if pit {
        all.extend(PIT);
    }
    all.extend(ALWAYS);
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_cautions_always_print() {
        for (combustible, pit, count) in [(false, false, 4), (true, false, 6), (false, true, 5), (true, true, 7)] {
            assert_eq!(applying(combustible, pit).len(), count);
        }
        assert!(applying(true, true)[0].text.contains("DUST EXPLOSION"));
    }
}
