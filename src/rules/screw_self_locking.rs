//! The take-up thread holds by itself.
//!
//! Self-locking when π·f·d2·sec α > lead (Shigley, ch. 8). Trapezoidal and Acme rods usually are, unless the thread is
//! very well greased and coarse.

use super::{Case, Finding, Rule, Verdict, finding::unless};
use crate::formulas::screw::{self, Screw as Thread};
use crate::say;
use crate::say::{n, name};
use crate::tables::power_threads::{self, PowerThread};

/// Self-locking thread.
pub const RULE: Rule = Rule {
    id: "screw-self-locking",
    title: "Self-locking take-up",
    what: "Whether the thread of the take-up rods holds the belt's pull without a lock.",
    why: "A rod that turns back by vibration lets the belt go slack on one side; it wanders and slips.",
    remedy: "A finer or thicker thread, or lock nuts that are checked.",
    source: screw::TORQUE,
    check,
};

fn locks(row: &PowerThread, friction: f64) -> bool {
    Thread {
        pitch_diameter_mm: row.pitch_diameter_mm(),
        lead_mm: row.pitch_mm,
        friction,
        flank_rad: row.flank_rad(),
        collar_friction: 0.0,
        collar_diameter_mm: row.diameter_mm,
    }
    .self_locking()
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(rod) = &case.results.screw else { return Vec::new() };
    let take_up = &case.spec.take_up;
    let friction = take_up.friction.value();
    let (thread, coefficient) = (name(&take_up.rod.value), n(friction, 2));
    let message = if rod.self_locking {
        say!("{rod} at a friction of {friction} holds by itself", rod = thread, friction = coefficient)
    } else {
        say!("{rod} at a friction of {friction} does not hold by itself: it needs a lock nut", rod = thread, friction = coefficient)
    };
    let finding = RULE.finds(unless(rod.self_locking, Verdict::Warn), "take_up.rod", message);
    // Of the thicker rods of the same profile the next one that does.
    match power_threads::find(&take_up.rod.value).and_then(|now| now.and_thicker().skip(1).find(|t| locks(t, friction))) {
        Some(row) => vec![finding.change("take_up.rod", &row.name.to_string())],
        None => vec![finding],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, proposed, worst};

    /// Tr16×4: d2 14, lead 4; locks from f = 4·cos 15°/(π·14) = 0.0878 on.
    #[test]
    fn lead_against_friction() {
        let rod = ("take_up.rod", "\"Tr16x4\"");
        assert_eq!(worst(&RULE, &[rod, ("take_up.friction", "0.089")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[rod, ("take_up.friction", "0.087")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("take_up.kind", "\"gravity\"")]), None);
        // Tr20×4 has d2 18 and locks from 0.0683 on, Tr24×5 (21.5) from 0.0715: the next thicker rod that does.
        assert_eq!(proposed(&RULE, SMALL, &[rod, ("take_up.friction", "0.07")]), ["take_up.rod = \"Tr20x4\""]);
        // Acme 5/8-8 has d2 14.29 and lead 3.175, locks from 0.0685 on; 3/4-6 (16.93, 4.233) from 0.077, 1-5 (22.86, 5.08) from 0.0685: 7/8-6 from 0.0647.
        let acme = [("take_up.rod", "\"Acme 5/8-8\""), ("take_up.friction", "0.068")];
        assert_eq!(worst(&RULE, &acme), Some(Verdict::Warn));
        assert_eq!(proposed(&RULE, SMALL, &acme), ["take_up.rod = \"Acme 7/8-6\""]);
        assert_eq!(worst(&RULE, &[acme[0], ("take_up.friction", "0.069")]), Some(Verdict::Pass));
        assert_eq!(proposed(&RULE, SMALL, &[("take_up.rod", "\"Tr20x4\""), ("take_up.friction", "0.068")]), ["take_up.rod = \"Tr28x5\""]);
    }
}
