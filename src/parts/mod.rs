//! The fabricated foot: every plate, bar, turned and bought part, and what joins them.
//!
//! In: a settled spec and the model. Out: [`Parts`]: parts with flat patterns and places in the model
//! frame, bolted joints, welds, seals, lists. Nothing is drawn twice: every outline comes from the
//! model. What cannot be made as the spec asks is left out and reported as a [`Defect`], never bent
//! into shape. No strength is judged here; weld sizes and bolt rows are common practice.

pub mod bearing_shape;
pub mod bolts;
pub mod bottom;
pub mod doors;
pub mod down_profile;
pub mod earthing;
pub mod end_plates;
pub mod feet;
pub mod finish;
pub mod flat;
pub mod goods;
pub mod hole_table;
pub mod lifting;
pub mod nameplate;
pub mod part;
pub mod part_mark;
pub mod placement;
pub mod pocket;
pub mod pulleys;
pub mod scribing;
pub mod seams;
pub mod seats;
pub mod shafts;
pub mod shape;
pub mod shop;
pub mod side_plates;
pub mod splice;
pub mod stiffeners;
pub mod take_up;
pub mod throats;
pub mod top_flange;
pub mod transitions;
pub mod turned;
pub mod weight_box;
pub mod zones;

use crate::model::Foot;
use crate::spec::Spec;
pub use part::{Bead, Defect, Hand, Joint, Kind, Lay, Part, Parts, Seal, Seat, Weld, centres, piece_of, pieces};
use shop::Shop;

/// A family of parts: its name, and what adds its parts to the shop.
pub type Family = (&'static str, fn(&mut Shop<'_>));

/// The families in the order they are built; their item numbers do not overlap.
pub const FAMILIES: &[Family] = &[
    ("side plates", side_plates::build),
    ("end plates", end_plates::build),
    ("bottom", bottom::build),
    ("feet", feet::build),
    ("top flange", top_flange::build),
    ("lifting lugs", lifting::build),
    ("inlet throats", throats::build),
    ("transitions", transitions::build),
    ("shovel pocket", pocket::build),
    ("doors, panels, clean-outs", doors::build),
    ("take-up", take_up::build),
    ("weight box", weight_box::build),
    ("pulleys", pulleys::build),
    ("shafts and bearings", shafts::build),
    ("earthing bosses", earthing::build),
    ("stiffeners", stiffeners::build),
    ("nameplate", nameplate::build),
];

/// Builds all parts of a foot; their seams are not laid yet, see [`Parts::laid`].
pub fn build_parts(spec: &Spec, foot: &Foot) -> Parts {
    let mut shop = Shop::new(spec, foot);
    for (_, build) in FAMILIES {
        build(&mut shop);
    }
    finish::finish(shop)
}
