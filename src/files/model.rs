//! The machine as a STEP file for the folder `model/`.
//!
//! In: the bodies. Out: one assembly of four groups by what moves together, every piece named by its item and what it is,
//! coloured by its material; millimetres, right-handed: x along the machine, z up from the base. Take-up at its lowest.

use super::OutputFile;
use crate::export::step::{Group, Member, Part, Place, What, step};
use crate::machine::moves::Moves;
use crate::machine::{Body, Machine, Material};
use crate::parts::placement::Placement;
use crate::say::{Statement, Voice};
use glam::DVec3;

/// What moves together, in the order of the groups, with the group's id.
const GROUPS: [(Moves, &str, &str); 4] = [
    (Moves::Fixed, "casing", "casing"),
    (Moves::TakeUp, "take_up", "take-up"),
    (Moves::Shaft, "rotating", "rotating parts"),
    (Moves::Leaf, "openings", "openings"),
];

/// The file; `stem` names the set.
///
/// # Errors
/// A plain sentence when it cannot be written, which is a defect of the program.
pub fn file(machine: &Machine, voice: &Voice, stem: &str) -> Result<OutputFile, String> {
    let named = |body: &Body| voice.say(&body.title());
    // What has no place would lie about loose.
    let standing: Vec<&Body> = machine.bodies.iter().filter(|b| !b.places.is_empty()).collect();
    let names: Vec<String> = standing.iter().map(|body| named(body)).collect();
    let bodies = || standing.iter().copied().zip(&names);
    let parts: Vec<Part<'_>> = bodies().map(|(body, name)| Part { id: &body.id, name, colour: colour(body.material), body: &body.brep }).collect();
    let titles = GROUPS.map(|(.., words)| voice.say(&Statement::from(words)));
    let whole = titles.iter().enumerate().map(|(i, name)| Member { what: What::Group(i + 1), name, place: HERE }).collect();
    let mut groups = vec![Group { id: "foot", name: stem, members: whole }];
    for ((moves, id, _), title) in GROUPS.iter().zip(&titles) {
        let of_group = bodies().enumerate().filter(|(_, (body, _))| body.moves == *moves);
        let members = of_group.flat_map(|(i, (body, name))| body.places.iter().map(move |p| Member { what: What::Part(i), name, place: place(machine, p) }));
        groups.push(Group { id, name: title, members: members.collect() });
    }
    let text = step(&parts, &groups).map_err(|why| format!("{stem}.step: {why}"))?;
    Ok(OutputFile { path: format!("model/{stem}.step"), bytes: text.into_bytes() })
}

const HERE: Place = Place { origin: DVec3::ZERO, axis: DVec3::Z, x: DVec3::X };

fn place(machine: &Machine, p: &Placement) -> Place {
    let turned = |v: [f64; 3]| DVec3::from(machine.right_handed(v));
    Place { origin: turned(p.origin), axis: turned(p.toward), x: turned(p.right) }
}

/// Red, green, blue, 0 to 1.
const fn colour(material: Material) -> [f64; 3] {
    match material {
        Material::Plate => [0.45, 0.58, 0.68],
        Material::Turned => [0.75, 0.76, 0.78],
        Material::Bought => [0.30, 0.45, 0.35],
        Material::Seal => [0.15, 0.15, 0.15],
        Material::Mesh => [0.62, 0.64, 0.66],
        Material::Fastener => [0.80, 0.72, 0.45],
        Material::Belt => [0.20, 0.20, 0.20],
        Material::Bucket => [0.80, 0.35, 0.20],
    }
}
