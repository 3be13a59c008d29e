//! Behind every inspection door a fixed steel mesh stays in place, so that nobody can reach the belt.
//!
//! Fixed guard, removable with a tool only (ISO 14120); in a US job moving parts are guarded after OSHA 29 CFR 1910.212(a)(1), both from
//! memory. A door without the mesh is not an inspection door: common practice of the trade.

use super::finding::unless;
use super::{Case, Finding, Rule, Verdict};
use crate::model::openings::OpeningKind;
use crate::say;
use crate::say::opening;
use crate::sources::Source;

/// Mesh behind doors.
pub const RULE: Rule = Rule {
    id: "door-mesh",
    title: "Mesh behind inspection doors",
    what: "Whether each inspection door has a fixed steel mesh behind its leaf.",
    why: "People open the door to look while the elevator runs; only the mesh keeps their hands from belt and buckets.",
    remedy: "Fit a steel mesh on a bolted frame that a tool is needed to remove.",
    source: Source::standard("ISO 14120:2015").remark("fixed guards").from_memory(),
    check,
};

/// What guards moving parts in the US.
const US: Source = Source::law("OSHA 29 CFR 1910.212(a)(1)").remark("guards at moving parts").from_memory();

fn check(case: &Case<'_>) -> Vec<Finding> {
    case.foot
        .openings
        .iter()
        .filter_map(|o| match o.kind {
            OpeningKind::Door { mesh } => Some((&o.id, mesh)),
            _ => None,
        })
        .map(|(id, mesh)| {
            let path = format!("{id}.mesh");
            let message = if mesh.is_some() {
                say!("a mesh stays in place behind {door}", door = opening(id))
            } else {
                say!("there is no mesh behind {door}: a hand reaches belt and buckets", door = opening(id))
            };
            RULE.finds(unless(mesh.is_some(), Verdict::Fail), &path, message).after(if case.us() { US } else { RULE.source }).change(path, &true)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn mesh_or_fail() {
        assert_eq!(worst(&RULE, &[("door[1].mesh", "true")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("door[1].mesh", "false")]), Some(Verdict::Fail));
        assert_eq!(worst(&RULE, &[("door[1].mesh", "true"), ("door[2].mesh", "false")]), Some(Verdict::Fail));
    }
}
