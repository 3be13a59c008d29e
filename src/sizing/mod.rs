//! Sizes that follow from words of the spec, from tables and from formulas together.
//!
//! In: words and sizes of the spec, the job's stock. Out: mm. Asked when defaults are decided and when the model and its parts
//! are built, so that what is settled is what is built. Nothing here decides a key or places a body.

pub mod bearing_unit;
pub mod bucket_plate;
pub mod flange_room;
pub mod frame;
pub mod lifting_lug;
pub mod pocket_lid;
pub mod pulley;
pub mod rod_holder;
pub mod sliding_plate;
pub mod take_up_stop;
pub mod weight_box;
