//! The cautions that always print: on the general arrangement, on the pit sheet, in the report.
//!
//! Short and factual. Which of them apply follows from the product and from whether there is a pit.
//! They replace no local code and no risk assessment.

use crate::sources::Source;

/// Cautions of the trade.
pub const SOURCE: Source = Source::practice("cautions for bucket elevators");
/// Lock-out before clearing or servicing.
pub const LOCK_OUT: Source = Source::law("OSHA 29 CFR 1910.147").remark("outside the US the local rule on energy isolation").from_memory();
/// Confined space.
pub const CONFINED_SPACE: Source = Source::law("OSHA 29 CFR 1910.146(b)").remark("outside the US the local rule on confined spaces");
/// No jogging of a choked leg.
pub const CHOKED_LEG: Source = Source::law("OSHA 29 CFR 1910.272(q)(1)").remark("for grain elevators");

/// One caution with what stands behind it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// The sentence as printed.
    pub text: &'static str,
    /// Its source.
    pub source: Source,
}

const COMBUSTIBLE: [Caution; 2] = [
    Caution {
        text: "DUST EXPLOSION: the product's dust can explode. Keep the foot clean, watch belt alignment, speed and bearings; protect as the risk assessment says.",
        source: SOURCE,
    },
    Caution { text: "Do not jog the drive to free a plugged foot.", source: CHOKED_LEG },
];
const ALWAYS: [Caution; 5] = [
    Caution {
        text: "CONFINED SPACE: pit and casing may lack air or hold gas. Enter only with a permit, tested air and a second person outside.",
        source: CONFINED_SPACE,
    },
    Caution { text: "LOCK OUT and wait for standstill before any door, panel or cover is opened. A loaded belt can run back.", source: LOCK_OUT },
    Caution { text: "GUARDS: mesh behind doors stays bolted in place; shaft ends and nip points stay guarded.", source: SOURCE },
    Caution { text: "LIFTING: lift only by rated points; see the masses on the parts list.", source: SOURCE },
    Caution { text: "Local codes and licensed practice govern. This drawing approves nothing by itself.", source: SOURCE },
];

/// The cautions that apply, most urgent first.
pub fn applying(combustible: bool) -> Vec<Caution> {
    let dust = if combustible { &COMBUSTIBLE[..] } else { &[] };
    [dust, &ALWAYS].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever the product, five stay; dust that burns adds its two before them.
    #[test]
    fn which_apply() {
        let (plain, dusty) = (applying(false), applying(true));
        assert_eq!((plain.len(), dusty.len()), (5, 7));
        assert!(dusty.first().is_some_and(|c| c.text.starts_with("DUST EXPLOSION")) && dusty.ends_with(&plain));
        assert!(plain.iter().any(|c| c.text.starts_with("LOCK OUT")) && plain.iter().any(|c| c.text.starts_with("CONFINED SPACE")));
    }
}
