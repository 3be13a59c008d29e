//! A pulley from its end and in section, with its rim or wings, discs and hubs, and its hub alone; drawn from the bodies.

use super::Look;
use super::bodies::{Picture, Show};
use super::signs;
use super::turned_shaft::{deviations, fit, near, run_out, texture};
use crate::paper::view::{Draft, Side, ViewScale};
use crate::parts::Part;
use crate::parts::pulleys::rim_run_out;
use crate::parts::shape::Shape;
use crate::say;
use crate::say::Statement;
use crate::sheets::Subject;
use crate::spec::sheet::Hand;
use crate::tables::keyways::{self, Standard};
use crate::tables::surfaces::Use;
use crate::units::plain_number;

/// A pulley that is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Drawn<'a> {
    /// Id of its family, which its dimensions' keys begin with.
    pub id: &'static str,
    /// Its hub.
    pub hub: &'a Part,
    /// Its end disc.
    pub disc: &'a Part,
    /// Its rim, or the core drum of a winged one; of a spliced one the first piece.
    pub rim: &'a Part,
    /// Its wings.
    pub wing: Option<&'a Part>,
    /// Gap of its discs before welding, mm.
    pub gap: f64,
    /// Letters of the bearing seats of its shaft.
    pub datums: &'static str,
    /// Letter of its own section.
    pub plane: &'static str,
    /// Letter of its hub's section.
    pub letter: &'static str,
    /// Diameter over all, mm.
    pub diameter: f64,
    /// Face, mm.
    pub face: f64,
}

/// Largest width and height of a pulley's section on paper, mm.
const WIDTH: f64 = 150.0;
const HEIGHT: f64 = 130.0;

/// From its near end, with the plane of its section; of a winged one how the wings stand.
pub fn end(subject: &Subject<'_>, p: &Drawn<'_>, title: Statement) -> Option<Draft> {
    let [x, _, z] = p.hub.placements.first()?.origin;
    let radius = p.diameter / 2.0;
    // At the scale of the section, which is as wide as the face.
    let width = WIDTH * (p.diameter / p.face).min(1.0);
    let mut d = Draft::new(format!("{}.end", p.id), title).at_scale(ViewScale::Within { width, height: HEIGHT });
    Picture::new(subject.machine, Look::Elevation).draw(&mut d, |b| b.of(p.id).then_some(Show::Seen));
    d.centre_cross((x, z), radius);
    d.cutting_plane(p.plane, (x, z - radius), (x, z + radius), Side::Left);
    if let Some(wing) = p.wing {
        wings(subject, &mut d, p, wing);
    }
    Some(d)
}

/// Number, height and pitch of the wings, and the core drum on which they stand.
fn wings(subject: &Subject<'_>, d: &mut Draft, p: &Drawn<'_>, wing: &Part) -> Option<()> {
    let [x, _, z] = p.hub.placements.first()?.origin;
    let height = wing.flat.as_ref()?.size()[1];
    let half = wing.thickness / 2.0;
    // Up the middle of each from its foot: place and direction.
    let stand: Vec<[f64; 4]> = wing.placements.iter().map(|w| [w.origin[0] + w.toward[0] * half, w.origin[2] + w.toward[2] * half, w.up[0], w.up[2]]).collect();
    let by = |least: fn(&[f64; 4]) -> f64| stand.iter().min_by(|a, b| least(a).total_cmp(&least(b))).copied();
    let [foot_x, foot_z, ..] = by(|w| -w[3])?;
    d.dimension(Side::Right, format!("{}.wing_height", p.id), (foot_x + half, foot_z), (foot_x + half, foot_z + height));
    let core = p.rim.flat.as_ref()?.bends.first()?.inside_radius + p.rim.thickness;
    d.diameter(format!("{}.core", p.id), (x, z), core).prefer(Side::Left);
    let tip = |w: [f64; 4]| (w[0] + w[2] * height, w[1] + w[3] * height);
    // The two beside the level on the left, counter-clockwise.
    let pair = stand.iter().zip(stand.iter().cycle().skip(1)).min_by(|(a, b), (c, e)| (a[2] + b[2]).total_cmp(&(c[2] + e[2])));
    let (first, second) = pair?;
    d.angle(format!("{}.wing_pitch", p.id), (x, z), tip(*first), tip(*second)).decimals(1);
    let [low_x, low_z, out_x, out_z] = by(|w| w[3] - w[2])?;
    d.balloon((low_x + out_x * height * 0.7, low_z + out_z * height * 0.7), wing.item, Side::Right);
    let [high_x, high_z, out_x, out_z] = by(|w| -w[3] - w[2])?;
    let said = say!("{count} wings, t = {thickness}", count = say::name(stand.len().to_string()), thickness = say::size(wing.thickness, 1));
    d.leader((high_x + out_x * height * 0.5, high_z + out_z * height * 0.5), subject.say(said), Side::Right);
    Some(())
}

/// Section along the axis: what is welded to what, where.
pub fn section(subject: &Subject<'_>, p: &Drawn<'_>, what: &'static str) -> Option<Draft> {
    let [x, y, z] = p.hub.placements.first()?.origin;
    let spacing = 2.0 * y.abs();
    let Some(Shape::Hub { diameter: hub, length, .. }) = p.hub.shape else { return None };
    let title = Statement::all(vec![say!("SECTION {letters}", letters = say::name(format!("{0}–{0}", p.plane))), what.into()]);
    let mut d = Draft::new(format!("{}.section", p.id), title).at_scale(ViewScale::Within { width: WIDTH, height: HEIGHT });
    let picture = Picture::new(subject.machine, Look::FromUp).cut_at(x, 0.0, 0.0);
    picture.draw(&mut d, |b| b.of(p.id).then_some(Show::Seen));
    let (radius, half) = (p.diameter / 2.0, p.face / 2.0);
    d.centre_line((-half.max((spacing + length) / 2.0), z), (half.max((spacing + length) / 2.0), z));
    d.dimension(Side::Above, format!("{}.face", p.id), (-half, z + radius), (half, z + radius));
    d.dimension(Side::Left, format!("{}.diameter", p.id), (-half, z - radius), (-half, z + radius)).prefix("⌀");
    let disc = p.disc.thickness;
    let below = z - hub / 2.0;
    d.dimension(Side::Below, format!("{}.disc_spacing", p.id), (-spacing / 2.0, below), (spacing / 2.0, below)).reference();
    // From faces that a rule can be laid on: the disc from the rim's edge, the hub from its disc.
    let outer = -(spacing + disc) / 2.0;
    d.dimension(Side::Below, format!("{}.disc_place", p.id), (-half, z - radius), (outer, z - radius));
    d.dimension(Side::Below, format!("{}.hub_place", p.id), (-(spacing + length) / 2.0, below), (outer, below));
    d.sign((-half * 0.6, z + radius), run_out(subject, rim_run_out(subject.spec.stock(), p.diameter), p.datums), Side::Above);
    let at = spacing / 2.0;
    // Half way out on the disc: beyond it a winged pulley has its wings.
    let rim = p.disc.flat.as_ref().map_or(radius, |f| f.size()[1] / 2.0);
    d.balloon((at, z - f64::midpoint(hub / 2.0, rim)), p.disc.item, Side::Right);
    d.balloon((at + length * 0.35, z - hub * 0.42), p.hub.item, Side::Right);
    let core = p.rim.flat.as_ref().and_then(|f| f.bends.first()).map_or(radius, |b| b.inside_radius + p.rim.thickness / 2.0);
    d.balloon((half * 0.3, z - core), p.rim.item, Side::Right);
    let gap = subject.say(say!("gap of {gap} all round before welding, at hubs and rim", gap = say::size(p.gap, 4)));
    d.leader((at, z + hub / 2.0 + p.gap / 2.0), gap, Side::Right);
    signs::at_cut(subject, &mut d, &picture, subject.seam_of(&p.hub.id), (-at - disc / 2.0, z + hub / 2.0));
    Some(d)
}

/// The hub in section, and seen along the shaft with its keyway.
pub fn hub(subject: &Subject<'_>, p: &Drawn<'_>, title: Statement) -> Vec<Draft> {
    let (Some(Shape::Hub { diameter, bore, fit: class, length, keyway }), Some(place)) = (&p.hub.shape, p.hub.placements.last()) else { return Vec::new() };
    let [x, y, z] = place.origin;
    let one = |b: &super::bodies::Piece<'_>| (b.of(&p.hub.id) && near(b.low.y, b.high.y)).then_some(Show::Seen);
    let scale = ViewScale::Within { width: 90.0, height: 105.0 };
    let mut front = Draft::new(format!("{}.hub.front", p.id), title).at_scale(scale);
    let picture = Picture::new(subject.machine, Look::Elevation);
    picture.draw(&mut front, one);
    let (r, outer) = (bore / 2.0, diameter / 2.0);
    front.centre_cross((x, z), outer);
    front.dimension(Side::Left, format!("{}.hub", p.id), (x, z - outer), (x, z + outer)).prefix("⌀");
    // On its circle: the section shows the keyway in place of the bore's upper line.
    front.diameter(format!("{}.bore", p.id), (x, z), r).prefer(Side::Left).suffix(fit(subject, *class, *bore)).toleranced();
    if let (Some(way), Some(key)) = (keyway, keyways::of_job(subject.us(), *bore)) {
        let (half, roof) = (way.width / 2.0, r + way.depth);
        let metric = key.standard == Standard::Din6885;
        let own = |mm: f64| if subject.us() && metric { format!(" ({} mm)", plain_number(mm, 1)) } else { String::new() };
        let width = match (metric, key.width_limits()) {
            (false, Some(limits)) => format!(" {}", deviations(subject, limits)),
            _ => " P9".into(),
        };
        front
            .dimension(Side::Above, format!("{}.hub.keyway.width", p.id), (x - half, z + roof), (x + half, z + roof))
            .suffix(format!("{}{width}", own(way.width)))
            .toleranced();
        front
            .dimension(Side::Right, format!("{}.hub.keyway.roof", p.id), (x, z - r), (x + half, z + roof))
            .suffix(format!("{} {}", own(r + roof), deviations(subject, key.roof_limits())))
            .toleranced()
            .decimals(1);
    }
    front.cutting_plane(p.letter, (x, z - outer), (x, z + outer), Side::Left);
    let letters = say::name(format!("{0}–{0}", p.letter));
    let mut side = Draft::new(format!("{}.hub.section", p.id), say!("SECTION {letters}", letters = letters)).at_scale(scale);
    // Seen from the up side, the far side is on the right.
    let middle = -y;
    Picture::new(subject.machine, Look::FromUp).cut_at(x, 0.0, z).draw(&mut side, one);
    let half = length / 2.0;
    side.centre_line((middle - half, z), (middle + half, z));
    side.dimension(Side::Below, format!("{}.hub_length", p.id), (middle - half, z - outer), (middle + half, z - outer));
    // The text runs to the right of the sign, also in a view that is turned over.
    let toward = if subject.spec.sheet.hand.value == Hand::Left { 0.75 } else { -0.75 };
    side.sign((middle + half * toward, z - r), texture(subject, Use::Bore), Side::Above);
    vec![front, side]
}
