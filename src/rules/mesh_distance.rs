//! The mesh behind a door is as fine as its distance to moving parts demands.
//!
//! ISO 13857:2019 Table 4 (square openings, read) or, for US jobs, OSHA Table O-10 (from memory; law
//! for mechanical power presses, good practice elsewhere).

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::model::openings::OpeningKind;
use crate::say;
use crate::say::{mm, opening};
use crate::tables::safety_distances;
use crate::tables::wire_meshes;
use crate::units::{Length, Unit};

/// Mesh opening against distance.
pub const RULE: Rule = Rule {
    id: "mesh-distance",
    title: "Mesh and distance to moving parts",
    what: "Clear opening of each mesh against its distance to the nearest moving part.",
    why: "A finger or a hand reaches through a coarse mesh as far as the tables say; the belt must be farther away.",
    remedy: "Use a finer mesh or set it farther out on a raised frame.",
    source: safety_distances::SOURCE,
    check,
};

fn needed(us: bool, opening: f64) -> Option<f64> {
    if us { safety_distances::osha_least_distance_mm(opening) } else { safety_distances::reach_mm(opening) }
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let us = case.us();
    let source = if us { safety_distances::OSHA_O10 } else { RULE.source };
    let meshes = case.foot.openings.iter().filter_map(|o| match o.kind {
        OpeningKind::Door { mesh: Some(mesh) } => Some((o, mesh)),
        _ => None,
    });
    meshes
        .map(|(door, mesh)| {
            let distance = door.depth_to_moving;
            let need = needed(us, mesh);
            let good = need.is_some_and(|n| reaches(distance, n));
            let message = match need {
                Some(need) => say!(
                    "{door}: a square mesh of {mesh} must stand {needed} from moving parts, it stands {distance} away",
                    door = opening(&door.id),
                    mesh = mm(mesh),
                    needed = mm(need),
                    distance = mm(distance),
                ),
                None => say!("{door}: a square mesh of {mesh} is too coarse for any distance of the table", door = opening(&door.id), mesh = mm(mesh)),
            };
            let finding = RULE.finds(unless(good, Verdict::Fail), format!("{}.mesh_opening", door.id), message).value(distance, Unit::Mm).after(source);
            let finding = match need {
                Some(need) => finding.limit(need, Unit::Mm),
                None => finding,
            };
            let sold: &[f64] = if us { &wire_meshes::US_MM } else { &wire_meshes::METRIC_MM };
            let finest = sold.iter().copied().find(|m| *m <= mesh && needed(us, *m).is_some_and(|n| reaches(distance, n)));
            match finest {
                Some(finer) => finding.change(format!("{}.mesh_opening", door.id), &Length::mm(finer)),
                None => {
                    let raised = needed(us, 5.0).unwrap_or(20.0).ceil();
                    finding.change(format!("{}.mesh_opening", door.id), &Length::mm(5.0)).change(format!("{}.mesh_distance", door.id), &Length::mm(raised))
                }
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, proposed, worst};

    /// ISO 13857:2019 Table 4: 12.5 mm square wants 120 mm, 10 mm square 25 mm.
    #[test]
    fn iso_table() {
        let iso = ("project.jurisdiction", "\"iso\"");
        for (mesh, distance, verdict) in [
            ("\"12.5 mm\"", "\"120 mm\"", Verdict::Pass),
            ("\"12.5 mm\"", "\"119 mm\"", Verdict::Fail),
            ("\"10 mm\"", "\"25 mm\"", Verdict::Pass),
            ("\"10 mm\"", "\"24 mm\"", Verdict::Fail),
            ("\"130 mm\"", "\"3000 mm\"", Verdict::Fail),
        ] {
            assert_eq!(worst(&RULE, &[iso, ("door[1].mesh_opening", mesh), ("door[1].mesh_distance", distance)]), Some(verdict), "{mesh} {distance}");
        }
        assert_eq!(worst(&RULE, &[("door[1].mesh", "false")]), None);
        // The coarsest stock mesh not over the given one that may stand there; none at 1 mm, so the finest, farther off.
        let wish = |mesh: &str, distance: &str| proposed(&RULE, SMALL, &[iso, ("door[1].mesh_opening", mesh), ("door[1].mesh_distance", distance)]);
        assert_eq!(wish("\"12.5 mm\"", "\"60 mm\""), ["door[1].mesh_opening = \"10 mm\""]);
        assert_eq!(wish("\"8 mm\"", "\"10 mm\""), ["door[1].mesh_opening = \"6 mm\""]);
        assert_eq!(wish("\"8 mm\"", "\"1 mm\""), ["door[1].mesh_opening = \"5 mm\"", "door[1].mesh_distance = \"5 mm\""]);
    }

    /// OSHA Table O-10: 1/2 in at 2 1/2 in, 5/8 in at 3 1/2 in.
    #[test]
    fn us_table() {
        let us = ("project.jurisdiction", "\"us\"");
        for (mesh, distance, verdict) in
            [("\"0.5 in\"", "\"2.5 in\"", Verdict::Pass), ("\"0.5 in\"", "\"2.4 in\"", Verdict::Fail), ("\"0.625 in\"", "\"3.5 in\"", Verdict::Pass)]
        {
            assert_eq!(worst(&RULE, &[us, ("door[1].mesh_opening", mesh), ("door[1].mesh_distance", distance)]), Some(verdict), "{mesh} {distance}");
        }
    }
}
