//! Every part can be cut, bent and built in as the spec asks.
//!
//! In: the parts with their defects. Out: one failing finding for each defect. What is left out or offends a rule of the
//! shop is decided where the parts are made; here it becomes a verdict, so that no stamp is milder than the cutting set.

use super::finding::Verdict;
use super::{Case, Finding, Rule};
use crate::say;
use crate::sources::Source;

/// Defects of the parts.
pub const RULE: Rule = Rule {
    id: "can-be-made",
    title: "All parts can be made",
    what: "Whether every plate, opening and bought part that the spec asks for can be cut, bent and built in; one finding for each that cannot.",
    why: "What cannot be made is left out of parts list and cutting files, or offends a rule of the shop: the set does not build the foot.",
    remedy: "Change what the sentence names: its size, its place, or the stock; the rule about that opening or throat may propose a value.",
    source: Source::practice("the flat patterns of all parts, cut, bent and bolted as a shop would"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (parts, defects) = (case.parts, &case.parts.defects);
    if defects.is_empty() {
        return vec![RULE.finds(Verdict::Pass, "fabrication", say!("all {parts} items of the parts list can be made", parts = parts.items.len()))];
    }
    defects.iter().map(|d| RULE.finds(Verdict::Fail, d.path.as_str(), say!("cannot be made as the spec asks: {what}", what = d.said()))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, worst};

    /// A door over the shaft slot is not cut, and a stock sheet that the side plates cannot be spliced from: one finding each at least.
    #[test]
    fn each_defect_fails() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        let door = [("door[1].on", "\"near side\""), ("door[1].offset", "\"0 mm\""), ("door[1].sill", "\"700 mm\"")];
        let found = findings_of(&RULE, SMALL, &door);
        assert!(found.iter().any(|f| f.path == "door[1]" && f.verdict == Verdict::Fail), "{found:#?}");
        assert!(found.iter().all(|f| f.message.plainly().starts_with("cannot be made as the spec asks: item ")), "{found:#?}");
    }
}
