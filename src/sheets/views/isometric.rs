//! The isometric picture: every body but what stands on the near side plate, and that plate, which is taken away.
//!
//! In: the bodies. Out: what is seen of them from the up side, the near side and above. A picture, not to scale.

use super::bodies::{BOLT_HOLES, Picture, Show};
use crate::paper::view::{Draft, ViewScale};
use crate::sheets::Subject;
use crate::solid::project::View;
use glam::DVec3;
use std::f64::consts::FRAC_1_SQRT_2;

/// 1/√3.
const THIRD: f64 = 0.577_350_269_189_625_8;
/// Half of √(2/3): how far along x and y the picture's upright leans.
const LEAN: f64 = -FRAC_1_SQRT_2 * THIRD;

/// From the corner between up side, near side and top.
const FROM_THE_CORNER: View =
    View { right: DVec3::new(FRAC_1_SQRT_2, -FRAC_1_SQRT_2, 0.0), up: DVec3::new(LEAN, LEAN, -2.0 * LEAN), toward: DVec3::new(THIRD, THIRD, THIRD) };

/// The picture, no larger than this on paper, mm.
pub fn picture(subject: &Subject<'_>, title: &'static str, width: f64, height: f64) -> Draft {
    let mut d = Draft::new("isometric", title).at_scale(ViewScale::Picture { width, height });
    let wall = subject.foot.casing.width.high - 0.5;
    let picture = Picture::toward(subject.machine, FROM_THE_CORNER).without_holes(BOLT_HOLES).fine();
    picture.draw(&mut d, |p| (p.low.y < wall && !p.is_small()).then_some(Show::Seen));
    d
}
