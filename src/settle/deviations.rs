//! Settles `[[deviation]]`: nothing of it is decided by rule.
//!
//! In: what was asked. Out: the settled rows, and errors for what is missing, empty or too long for the sheets. Whether the rule is one, and whether
//! it can be accepted at all, the rules say.

use super::PRACTICE;
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::spec::project::{AskedDeviation, Deviation};
use crate::spec::reader::{Chosen, Leaf};

/// Longest reason, characters: two lines of a note.
const REASON: usize = 120;
/// Longest name of who answers, characters.
const BY: usize = 40;

/// Settles all of them.
pub(super) fn deviations(asked: &[AskedDeviation], out: &mut Diagnostics) -> Vec<Deviation> {
    let mut all = Vec::new();
    for (row, a) in asked.iter().enumerate() {
        let mut given = |leaf: &Leaf<String>, key: &str, most: Option<usize>, example: &str| {
            let path = format!("deviation[{}].{key}", row + 1);
            match leaf {
                Leaf::Absent => {
                    let what = format!("{path} is not given; a deviation says which rule, why and by whom");
                    out.push(Diagnostic::error(Code::Missing, &path, a.span.clone(), what, format!("add  {key} = \"{example}\"")));
                }
                Leaf::Given(text, span) if text.trim().is_empty() => {
                    out.push(Diagnostic::error(
                        Code::Missing,
                        &path,
                        Some(span.clone()),
                        format!("{path} says nothing"),
                        format!("write  {key} = \"{example}\""),
                    ));
                }
                Leaf::Given(text, span) => {
                    let length = text.chars().count();
                    if let Some(most) = most.filter(|most| length > *most) {
                        out.push(Diagnostic::error(
                            Code::OutOfRange,
                            &path,
                            Some(span.clone()),
                            format!("{path} has {length} characters; the sheets hold {most}"),
                            format!("shorten it by {} characters", length - most),
                        ));
                    }
                }
                Leaf::Bad(_) => {}
            }
            Chosen::or(leaf, String::new(), PRACTICE, "stand-in for a value that is missing or cannot be used; not for drawing")
        };
        all.push(Deviation {
            rule: given(&a.rule, "rule", None, "belt-speed"),
            reason: given(&a.reason, "reason", Some(REASON), "tried for a year without breakage"),
            by: given(&a.by, "by", Some(BY), "plant manager"),
            date: Chosen::or(&a.date, None, PRACTICE, "not every deviation has a day"),
        });
    }
    all
}
