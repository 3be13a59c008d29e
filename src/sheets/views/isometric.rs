//! The isometric picture: every body but the near side plate, which is taken away; what stands on it stays where it is.
//!
//! In: the bodies. Out: what is seen of them from the up side, the near side and above. A picture, not to scale.

use super::bodies::{BOLT_HOLES, Picture, Show};
use crate::paper::view::{Draft, ViewScale};
use crate::sheets::Subject;
use crate::solid::project::View;
use glam::DVec3;

/// A viewer who looks down on the machine from so many degrees over the horizon, `turn` degrees from the up side toward the
/// near side.
pub fn seen_from(turn: f64, rise: f64) -> View {
    let ((sin, cos), (high, flat)) = (turn.to_radians().sin_cos(), rise.to_radians().sin_cos());
    View { right: DVec3::new(sin, -cos, 0.0), up: DVec3::new(-high * cos, -high * sin, flat), toward: DVec3::new(flat * cos, flat * sin, high) }
}

/// How high the viewer of an isometric picture stands over the horizon, degrees: its sine is 1/√3.
pub const RISE: f64 = 35.264_389_682_754_654;

/// The picture, no larger than this on paper, mm.
pub fn picture(subject: &Subject<'_>, title: &'static str, width: f64, height: f64) -> Draft {
    let mut d = Draft::new("isometric", title).at_scale(ViewScale::Picture { width, height });
    let picture = Picture::toward(subject.machine, seen_from(45.0, RISE)).without_holes(BOLT_HOLES).fine();
    picture.draw(&mut d, |p| (!p.of("side_plate.near") && !p.is_small()).then_some(Show::Seen));
    d
}
