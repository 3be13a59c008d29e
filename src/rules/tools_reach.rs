//! A spanner turns the bolts of the inlets beside the walls of their transitions.
//!
//! The one place where a size of the spec takes the room from a spanner. That tools, hands and heads reach everywhere else is shown by the
//! proof of tools; a test holds the two together.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::parts::transitions::narrower_than_spanners;
use crate::say;
use crate::say::mm;
use crate::tables::spanners;
use crate::units::{Length, Unit};

/// Tools.
pub const RULE: Rule = Rule {
    id: "tools-reach",
    title: "Spanners reach",
    what: "Whether a ring spanner turns the bolts of an inlet's flange beside the walls that rise from it.",
    why: "A bolt that no spanner turns is put in once and burnt off when the chute is changed.",
    remedy: "A wider flange, or a longer transition whose walls rise less.",
    source: spanners::SWING,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let of = |inlet: &crate::model::inlets::InletBody| {
        inlet.transition.as_ref()?;
        let path = format!("inlet.{}.flange", inlet.side.key());
        let least = narrower_than_spanners(case.spec, case.foot, inlet).unwrap_or(inlet.flange);
        let said = say!(
            "the flange between throat and transition is {width} wide; beside the transition's walls a spanner needs {least}",
            width = mm(inlet.flange),
            least = mm(least)
        );
        let finding = RULE.finds(unless(reaches(inlet.flange, least), Verdict::Warn), path.as_str(), said);
        Some(finding.value(inlet.flange, Unit::Mm).limit(least, Unit::Mm).change(path, &Length::mm(least)))
    };
    case.foot.inlets.iter().filter_map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, mended, worst};

    #[test]
    fn beside_a_steep_transition() {
        let steep = [("inlet.up.from_height", "\"600 mm\""), ("inlet.up.from_width", "\"500 mm\""), ("inlet.up.from_length", "\"400 mm\"")];
        assert_eq!(worst(&RULE, &[]), None);
        assert_eq!(worst(&RULE, &steep), Some(Verdict::Pass));
        let narrow = [&steep[..], &[("inlet.up.flange", "\"45 mm\"")]].concat();
        assert_eq!(worst(&RULE, &narrow), Some(Verdict::Warn));
        mended(&RULE, SMALL, &narrow);
    }
}
