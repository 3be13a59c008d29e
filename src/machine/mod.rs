//! Every body of the machine, built once: what it is, where its pieces stand, what they move with.
//!
//! In: a settled spec, the model, the parts. Out: a [`Machine`] of bodies in their own right-handed frames with their
//! placements, take-up at its lowest; what has no body, and why. Sizes come from parts and model; none is decided here.
//! Felt in the guides and weld seams have no bodies. That bodies keep clear of each other is not looked at.

pub mod belt;
pub mod body;
pub mod bolts;
pub mod moves;
pub mod removal;
pub mod service;

use crate::model::Foot;
use crate::parts::{Part, Parts};
use crate::say::Statement;
use crate::solid::{Brep, Refusal};
use crate::spec::Spec;
use crate::spec::sheet::Hand;
pub use body::{Bodiless, Body, Machine, Material};
pub use moves::Uncut;

/// All bodies of a machine.
pub fn bodies(spec: &Spec, foot: &Foot, parts: &Parts) -> Machine {
    let mut machine = Machine { bodies: Vec::new(), highest: Vec::new(), bodiless: Vec::new(), left: spec.sheet.hand.value == Hand::Left };
    for part in &parts.items {
        match part.body() {
            Some(Ok(brep)) => machine.bodies.push(of_part(part, brep)),
            Some(Err(why)) => machine.bodiless.push(Bodiless { id: part.id.clone(), why }),
            None => {}
        }
    }
    belt::add(&mut machine, foot);
    bolts::add(&mut machine, foot, parts);
    machine
}

fn of_part(part: &Part, brep: Brep) -> Body {
    Body {
        item: Some(part.item),
        id: part.id.clone(),
        name: part.name.clone(),
        material: Material::of(part),
        moves: moves::of_part(&part.id),
        uncut: moves::uncut(part),
        of_steel: part.of_steel,
        places: part.placements.clone(),
        brep,
    }
}

impl Machine {
    /// Takes a body that is no part of the list, if it can be built.
    fn take(&mut self, id: &str, name: impl Into<Statement>, brep: Result<Brep, Refusal>, body: impl FnOnce(Brep, String, Statement) -> Body) {
        match brep {
            Ok(brep) => self.bodies.push(body(brep, id.into(), name.into())),
            Err(why) => self.bodiless.push(Bodiless { id: id.into(), why }),
        }
    }
}
