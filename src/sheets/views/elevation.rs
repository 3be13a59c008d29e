//! The main elevation: the foot cut along the belt's middle plane, up side on the right.
//!
//! Cut plates are hatched; the take-up stands at its lowest, its highest position is phantom; what
//! lies in front of the cutting plane (near side) is phantom, what lies behind is drawn.

use super::{Look, casing, outline, pulley};
use crate::model::Foot;
use crate::model::inlets::InletBody;
use crate::model::openings::{Opening, OpeningKind};
use crate::paper::mark::{PlanePoint, Shape};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material, Side};
use crate::sheets::Subject;
use crate::spec::openings::Wall;
use crate::spec::pulleys::PulleyStyle;

/// How far belt and trunking go on above the casing before they are broken off, mm.
pub fn broken_off(foot: &Foot) -> f64 {
    foot.casing.top + (foot.casing.top * 0.06).max(120.0)
}

/// Everything that is drawn; no dimensions.
pub fn machine(subject: &Subject<'_>, d: &mut Draft) {
    let foot = subject.foot;
    belt_and_buckets(d, foot);
    pulleys(subject, d);
    casing::section(d, foot);
    for inlet in &foot.inlets {
        casing::throat(d, foot, inlet);
    }
    for opening in &foot.openings {
        opening_in_section(d, foot, opening);
    }
    pocket(d, foot);
    trunking(d, foot);
    if let Some([_, width, height]) = foot.rotating.weight_box {
        let z = weight_box_bottom(foot);
        d.rectangle(Pen::Edge, (-width / 2.0, z), (width / 2.0, z + height));
    }
}

/// Underside of the weight box when the take-up is at its lowest.
pub fn weight_box_bottom(foot: &Foot) -> f64 {
    foot.shaft_lowest + foot.pulleys.foot.radius() + 60.0
}

fn belt_and_buckets(d: &mut Draft, foot: &Foot) {
    let top = broken_off(foot);
    let belt = &foot.belt;
    d.hatch(Material::Belt, vec![outline::belt_band(&belt.lowest, belt.thickness, top)]);
    for outside in [belt.thickness / 2.0, -belt.thickness / 2.0] {
        let vertices = outline::belt_line(&belt.lowest, outside, top);
        d.stroke(Pen::Bucket, Shape::Polyline { vertices, closed: false });
    }
    for section in belt.buckets_below(&belt.lowest, &foot.bucket, 0.0, foot.casing.top - foot.bucket.height / 2.0) {
        d.polyline(Pen::Bucket, section);
    }
}

fn pulleys(subject: &Subject<'_>, d: &mut Draft) {
    let foot = subject.foot;
    let p = &foot.pulleys.foot;
    let low = Look::Elevation.point(p.centre);
    pulley::section(d, low, p.diameter, foot.rotating.shaft_diameter, subject.spec.foot_pulley.style.value);
    let high = PlanePoint::new(low.x, foot.shaft_highest);
    pulley::phantom(d, high, p.diameter, foot.rotating.shaft_diameter);
    d.centre_cross(high, foot.rotating.shaft_diameter);
    let vertices = outline::belt_line(&foot.belt.highest, foot.belt.thickness / 2.0, foot.shaft_highest + 50.0);
    d.stroke(Pen::Phantom, Shape::Polyline { vertices, closed: false });
    if let Some(bend) = &foot.pulleys.bend {
        pulley::section(d, Look::Elevation.point(bend.centre), bend.diameter, subject.spec.bend_pulley.shaft.value(), PulleyStyle::Drum);
    }
}

/// Frames and leaves in the end plates stand out beyond them; on the side plates an opening is a rectangle.
fn opening_in_section(d: &mut Draft, foot: &Foot, o: &Opening) {
    let lap = foot.lap;
    match o.wall {
        Wall::UpEnd | Wall::DownEnd => {
            let out = if o.wall == Wall::UpEnd { 1.0 } else { -1.0 };
            let x = |z: f64| if o.wall == Wall::UpEnd { foot.casing.up_face } else { foot.casing.down_x(z) } + out * foot.casing.plate;
            let (low, high) = (o.up.low - lap, o.up.high + lap);
            let leaf = out * (foot.casing.plate + 6.0);
            casing::cut(d, &[[x(low), low], [x(low) + leaf, low], [x(high) + leaf, high], [x(high), high]]);
            if let OpeningKind::Door { mesh: Some(_) } = o.kind {
                let inside = -out * (foot.casing.plate + 3.0);
                d.line(Pen::Hidden, (x(o.up.low) + inside, o.up.low), (x(o.up.high) + inside, o.up.high));
            }
        }
        Wall::Near | Wall::Far => {
            let pen = if o.wall == Wall::Near { Pen::Phantom } else { Pen::FineEdge };
            let twin = foot.openings.iter().any(|other| other.wall == Wall::Far && o.wall == Wall::Near && other.across == o.across && other.up == o.up);
            if !twin {
                d.rectangle(pen, (o.across.low, o.up.low), (o.across.high, o.up.high));
            }
        }
    }
}

fn pocket(d: &mut Draft, foot: &Foot) {
    let Some(p) = &foot.pocket else { return };
    let pen = if p.side == crate::spec::inlets::Side::Near { Pen::Phantom } else { Pen::FineEdge };
    d.rectangle(pen, (p.x.low, p.z.low), (p.x.high, p.z.high));
}

/// Trunking above the foot, a neighbouring part: phantom stubs, broken off like the belt.
fn trunking(d: &mut Draft, foot: &Foot) {
    let (top, end) = (foot.casing.top, broken_off(foot));
    let t = foot.casing.plate;
    for opening in &foot.casing.trunk {
        for (x, out) in [(opening.x.low, -1.0), (opening.x.high, 1.0)] {
            d.line(Pen::Phantom, (x, top), (x, end));
            d.line(Pen::Phantom, (x + out * t, top), (x + out * t, end));
            d.polyline(Pen::Phantom, [(x, top + t), (x + out * (t + foot.casing.flange), top + t), (x + out * (t + foot.casing.flange), top)]);
        }
        break_line(d, opening.x.low - 60.0, opening.x.high + 60.0, end);
    }
}

/// A straight break line with one zigzag.
pub fn break_line(d: &mut Draft, from: f64, to: f64, z: f64) {
    let middle = (from + to) / 2.0;
    let step = ((to - from) / 30.0).clamp(12.0, 40.0).min((to - from) / 8.0);
    d.polyline(
        Pen::FineEdge,
        [(from, z), (middle - step, z), (middle - step / 2.0, z + 2.0 * step), (middle + step / 2.0, z - 2.0 * step), (middle + step, z), (to, z)],
    );
}

/// Arrows of the material's way: down the throats, up the belt, round the foot.
pub fn flow(d: &mut Draft, foot: &Foot) {
    for inlet in &foot.inlets {
        let (from, to) = throat_axis(inlet);
        d.flow_arrow(from, to);
    }
    let x = foot.pulleys.foot.radius() - (foot.pulleys.foot.radius() * 0.18).max(40.0);
    let z = foot.shaft_highest + foot.pulleys.foot.radius() * 1.15;
    let end = (z + 300.0).min(foot.casing.top - 40.0);
    if end > z + 60.0 {
        d.flow_arrow((x, z), (x, end));
    }
}

/// The middle line of a throat, from the flange to the end plate.
pub fn throat_axis(inlet: &InletBody) -> (PlanePoint, PlanePoint) {
    let half = inlet.opening.size() / 2.0;
    (PlanePoint::new(inlet.flange_face, inlet.flange_sill + half), PlanePoint::new(inlet.outside, inlet.sill + half))
}

/// Heights, lengths and angles of the foot, each once.
pub fn dimensions(d: &mut Draft, foot: &Foot) {
    let look = Look::Elevation;
    look.chain(d, foot, Side::Right, "up", &["inlet.up.sill", "inlet.up.height"]);
    look.chain(d, foot, Side::Left, "shaft", &["foot.shaft.lowest", "take_up.travel"]);
    look.chain(d, foot, Side::Left, "down", &["inlet.down.sill", "inlet.down.height"]);
    look.each(d, foot, Side::Right, &["inlet.up.flange_sill", "inlet.up.from_height"]);
    look.each(d, foot, Side::Left, &["inlet.down.flange_sill", "inlet.down.from_height", "bend_pulley.height"]);
    look.chain(d, foot, Side::Left, "base", &["casing.feet"]);
    d.dimension(
        Side::Left,
        "casing.bottom_plate",
        (foot.casing.down_x(foot.casing.bottom_face), foot.casing.bottom_face - foot.casing.bottom_plate),
        (foot.casing.down_x(foot.casing.bottom_face), foot.casing.bottom_face),
    )
    .chain("base");
    if let Some(r) = look.dimension(d, foot, Side::Right, "casing.height") {
        r.overall();
    }
    look.chain(d, foot, Side::Below, "length", &["casing.down_length", "casing.up_length"]);
    if let Some(r) = look.dimension(d, foot, Side::Below, "casing.length") {
        r.overall().reference();
    }
    look.each(d, foot, Side::Below, &["inlet.up.reach", "inlet.down.reach"]);
    look.each(d, foot, Side::Above, &["trunk[1].length", "trunk[2].length", "belt.run_distance", "bend_pulley.offset"]);
    let p = &foot.pulleys.foot;
    d.diameter("foot_pulley.diameter", Look::Elevation.point(p.centre), p.radius()).prefer(Side::Left);
    if let Some(b) = &foot.pulleys.bend {
        d.diameter("bend_pulley.diameter", Look::Elevation.point(b.centre), b.radius()).prefer(Side::Right);
    }
    for inlet in &foot.inlets {
        slope(d, inlet);
    }
}

/// The slope of a throat's floor against the level.
fn slope(d: &mut Draft, inlet: &InletBody) {
    if inlet.slope_deg < 0.5 {
        return;
    }
    let out = inlet.side.outward();
    let corner = PlanePoint::new(inlet.outside, inlet.sill);
    let reach = (inlet.flange_face - inlet.outside).abs();
    let level = PlanePoint::new(corner.x + out * reach, corner.y);
    let floor = PlanePoint::new(inlet.flange_face, inlet.flange_sill);
    let (first, second) = if out > 0.0 { (level, floor) } else { (floor, level) };
    d.angle(format!("inlet.{}.slope", inlet.side.key()), corner, first, second);
}

/// The floor under the foot: a line with concrete under it.
pub fn ground(d: &mut Draft, from: f64, to: f64) {
    let deep = 60.0;
    d.hatch(Material::Concrete, vec![Shape::polygon([(from, 0.0), (to, 0.0), (to, -deep), (from, -deep)].map(|(x, y)| PlanePoint::new(x, y)))]);
    d.line(Pen::Concrete, (from, 0.0), (to, 0.0));
}

/// Height of the middle of the bottom plate at a distance from the shaft.
pub fn bottom_height(foot: &Foot, x: f64) -> f64 {
    let half = foot.casing.bottom_plate / 2.0;
    match (foot.casing.bottom_radius, foot.casing.bottom_arc) {
        (Some(r), Some([up, _])) => {
            // On the arc, or on the straight piece beyond its end.
            let angle = (x / r).clamp(-1.0, 1.0).asin().min(up);
            let (ax, az) = (r * angle.sin(), foot.casing.bottom_face + r - r * angle.cos());
            az + (x - ax) * angle.tan() - half
        }
        _ => foot.casing.bottom_face - half,
    }
}
