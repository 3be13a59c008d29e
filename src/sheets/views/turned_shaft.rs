//! A shaft or rod as it is turned: lengths from one datum face, zones with their texture, run-out and datums, keyways in
//! section, the tapped end in detail.
//!
//! Drawn from the body; every dimension ends on it. Threads are drawn on top by ISO 6410 (from memory): the thread's other
//! diameter as a narrow line, its end as a wide one.

use super::bodies::{Picture, Show};
use crate::paper::mark::PlanePoint;
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Side, Sign, ViewScale};
use crate::parts::Part;
use crate::parts::shape::Shape;
use crate::parts::turned::{EndHole, Shaft, Sits};
use crate::say;
use crate::sheets::Subject;
use crate::solid::project::View;
use crate::tables::fits::Limits;
use crate::tables::keyways::{self, Standard};
use crate::tables::power_threads;
use crate::tables::surfaces::{END_RUN_OUT_MM, Use, hub_run_out_mm};
use crate::tables::{centre_holes, threads};
use crate::units::{MM_PER_INCH, plain_number};
use glam::DVec3;
use kurbo::Rect;

/// From above, the far end on the right as in the sections along the shafts: keyways face the viewer.
const FROM_ABOVE: View = View { right: DVec3::NEG_Y, up: DVec3::NEG_X, toward: DVec3::Z };
/// The same turned about its upright, seen from the far end: keyways open to the left.
const FROM_THE_FAR_END: View = View { right: DVec3::NEG_Z, up: DVec3::NEG_X, toward: DVec3::NEG_Y };
/// A rod laid down, seen from the near side.
const LYING: View = View { right: DVec3::Z, up: DVec3::NEG_X, toward: DVec3::Y };

/// Radius of shaft shoulders, mm: nothing seats on them, so they need no undercut.
const SHOULDER: f64 = 1.0;

/// A shaft that is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Turned<'a> {
    /// Its part.
    pub part: &'a Part,
    /// What its dimensions' keys begin with.
    pub key: &'static str,
    /// Its seats, keyways and holes.
    pub shaft: &'a Shaft,
    /// Letter of the section through its keyway.
    pub letter: &'static str,
    /// Letters of its bearing seats as datums.
    pub datums: [&'static str; 2],
    /// Model point on its axis in the belt's middle.
    pub middle: [f64; 3],
}

/// The shaft of a part; `None` for another part.
pub fn of<'a>(part: &'a Part, key: &'static str, letter: &'static str, datums: [&'static str; 2]) -> Option<Turned<'a>> {
    let Some(Shape::Shaft(shaft)) = &part.shape else { return None };
    Some(Turned { part, key, shaft, letter, datums, middle: part.placements.first()?.origin })
}

/// Deviations as they stand behind a size.
pub fn deviations(subject: &Subject<'_>, limits: Limits) -> String {
    let one = |mm: f64| {
        let (value, decimals) = if subject.us() { (mm / MM_PER_INCH, 4) } else { (mm, 3) };
        let text = subject.number(value.abs(), decimals);
        let text = if subject.us() { text.trim_start_matches('0').to_string() } else { trimmed(&text) };
        match value {
            v if v > 1e-9 => format!("+{text}"),
            v if v < -1e-9 => format!("−{text}"),
            _ if subject.us() => format!("+{text}"),
            _ => "0".into(),
        }
    };
    format!("{}/{}", one(limits.upper), one(limits.lower))
}

fn trimmed(text: &str) -> String {
    text.trim_end_matches('0').trim_end_matches(['.', ',']).to_string()
}

/// What stands behind a size of this fit: its class, or its limits where it has none.
pub fn fit(subject: &Subject<'_>, fit: crate::tables::fits::Fit, size: f64) -> String {
    match (fit.class(), fit.limits(size)) {
        (Some(class), _) => format!(" {class}"),
        (None, Some(limits)) => format!(" {}", deviations(subject, limits)),
        (None, None) => String::new(),
    }
}

/// Surface texture of a use as a sign.
pub fn texture(subject: &Subject<'_>, of: Use) -> Sign {
    let (micrometre, microinch) = of.ra();
    let text = if subject.us() { microinch.to_string() } else { format!("Ra {}", subject.number(micrometre, 1)) };
    Sign::Texture { text, us: subject.us() }
}

/// Run-out as a sign: mm, or decimals of an inch.
pub fn run_out(subject: &Subject<'_>, mm: f64, datums: impl Into<String>) -> Sign {
    let text = if subject.us() { subject.number(mm / MM_PER_INCH, 3).trim_start_matches('0').to_string() } else { trimmed(&subject.number(mm, 3)) };
    Sign::RunOut { tolerance: text, datums: datums.into() }
}

/// Where a shaft lies in the view from above: along it to the right, x of the view = −(along the shaft).
struct Lie {
    axis: f64,
    shift: f64,
}

impl Lie {
    fn of(t: &Turned<'_>) -> Self {
        Self { axis: -t.middle[0], shift: -t.middle[1] }
    }
    fn at(&self, along: f64, up: f64) -> PlanePoint {
        PlanePoint::new(self.shift - along, self.axis + up)
    }
}

/// The whole shaft.
pub fn whole(subject: &Subject<'_>, t: &Turned<'_>, title: say::Statement) -> Draft {
    let mut d = Draft::new(format!("{}.turned", t.part.id), title).at_scale(ViewScale::Within { width: 280.0, height: 100.0 });
    let picture = Picture::toward(subject.machine, FROM_ABOVE);
    picture.draw(&mut d, |p| p.of(&t.part.id).then_some(Show::Hidden));
    picture.axes(&mut d, |p| p.of(&t.part.id));
    lengths(&mut d, t);
    diameters(subject, &mut d, t);
    ways(subject, &mut d, t);
    zones(subject, &mut d, t);
    ends(subject, &mut d, t);
    d
}

/// Lengths, all from the near end: what sits where, shoulders, the whole.
fn lengths(d: &mut Draft, t: &Turned<'_>) {
    let (s, lie) = (t.shaft, Lie::of(t));
    let [begin, end] = s.ends();
    let low = |along: f64| lie.at(along, -s.diameter_at(along) / 2.0);
    let datum = low(end);
    for (i, z) in s.zones.iter().enumerate() {
        d.dimension(Side::Below, format!("{}.zone[{}]", t.key, i + 1), low(z.to), low(z.from));
    }
    for (seen, z) in s.zones.iter().rev().enumerate() {
        let middle = z.from.midpoint(z.to);
        let half = s.diameter_at(middle) / 2.0;
        d.centre_line(lie.at(middle, -half - 6.0), lie.at(middle, half + 6.0));
        // The first bearing's distance is the spec's own.
        let key = if seen == 0 { format!("{}.projection", t.key) } else { format!("{}.plane[{seen}]", t.key) };
        d.dimension(Side::Below, key, datum, lie.at(middle, -half - 6.0));
    }
    for (i, shoulder) in s.seats.iter().skip(1).map(|seat| seat.from).rev().enumerate() {
        d.dimension(Side::Below, format!("{}.shoulder[{}]", t.key, i + 1), datum, low(shoulder));
    }
    d.dimension(Side::Below, format!("{}.length", t.key), datum, low(begin)).overall();
}

/// Diameters with their fits: one for a plain shaft, else of the journals and of what is between.
fn diameters(subject: &Subject<'_>, d: &mut Draft, t: &Turned<'_>) {
    let (s, lie) = (t.shaft, Lie::of(t));
    let [begin, end] = s.ends();
    let mut one = |key: String, side: Side, along: f64, across: f64| {
        let half = across / 2.0;
        d.dimension(side, key, lie.at(along, -half), lie.at(along, half)).prefix("⌀").suffix(fit(subject, s.fit, across)).toleranced();
    };
    let widest = s.seats.iter().find(|seat| seat.diameter > s.diameter() - 0.01);
    if s.seats.len() > 1 {
        one(format!("{}.journal", t.key), Side::Right, begin, s.diameter_at(begin));
        one(format!("{}.diameter", t.key), Side::Left, widest.map_or(end, |w| w.to), s.diameter());
        let at = widest.map_or(end, |w| w.from);
        let radius = if subject.us() { MM_PER_INCH / 32.0 } else { SHOULDER };
        let words = say!("R {radius} in both shoulders, nothing seats on them", radius = say::size(radius, 3));
        d.leader(lie.at(at, s.diameter_at(end) / 2.0), subject.say(words), Side::Right);
    } else {
        // Beside the end that has no run-out.
        let (side, face) = if s.holes[0].is_none() { (Side::Right, begin) } else { (Side::Left, end) };
        one(format!("{}.diameter", t.key), side, face, s.diameter());
    }
}

/// Where the keyways begin, how long they are, and the plane of their section.
fn ways(subject: &Subject<'_>, d: &mut Draft, t: &Turned<'_>) {
    let (s, lie) = (t.shaft, Lie::of(t));
    let Some((way, _)) = &s.keyways else { return };
    let [_, end] = s.ends();
    let half = way.width / 2.0;
    let limits = keyways::length_limits(subject.us(), way.length).map(|l| format!(" {}", deviations(subject, l))).unwrap_or_default();
    let datum = lie.at(end, s.diameter_at(end) / 2.0);
    let found = s.ways();
    for (i, [from, to]) in found.iter().rev().enumerate() {
        d.dimension(Side::Above, format!("{}.keyway.from[{}]", t.key, i + 1), datum, lie.at(*to, half));
        d.dimension(Side::Above, format!("{}.keyway.length[{}]", t.key, i + 1), lie.at(*to, half), lie.at(*from, half)).suffix(limits.clone()).chain("ways");
    }
    let Some([from, to]) = found.last() else { return };
    let at = from.midpoint(*to);
    d.cutting_plane(t.letter, lie.at(at, -s.diameter_at(at) / 2.0), lie.at(at, s.diameter_at(at) / 2.0), Side::Left);
}

/// Texture of every length of one diameter, run-out of hub seats, bearing seats as datums.
fn zones(subject: &Subject<'_>, d: &mut Draft, t: &Turned<'_>) {
    let (s, lie) = (t.shaft, Lie::of(t));
    let [begin, end] = s.ends();
    let datums = t.datums.join("–");
    let mut letters = t.datums.iter();
    for seat in &s.seats {
        let (middle, room) = (seat.from.midpoint(seat.to), (seat.to - seat.from) / 2.0 - s.chamfer);
        d.sign_about(lie.at(middle, seat.diameter / 2.0), room, texture(subject, Use::Seat), Side::Above);
    }
    // Datums first: they have the least room.
    let of = |sits: Sits| s.zones.iter().rev().filter(move |z| z.sits == sits);
    for z in of(Sits::Bearing).chain(of(Sits::Hub)) {
        let middle = z.from.midpoint(z.to);
        let (quarter, half) = ((z.to - z.from) / 4.0, s.diameter_at(middle) / 2.0);
        // Toward the nearer end.
        let outward = if middle > (begin + end) / 2.0 { quarter } else { -quarter };
        match z.sits {
            Sits::Bearing => {
                let letter = letters.next().copied().unwrap_or_default();
                d.sign_about(lie.at(middle + outward, -half), 2.0 * quarter, Sign::Datum(letter.into()), Side::Below);
            }
            Sits::Hub => {
                if let Some(most) = hub_run_out_mm(2.0 * half) {
                    d.sign(lie.at(middle - outward, -half), run_out(subject, most, datums.clone()), Side::Below);
                }
            }
        }
    }
}

/// Both ends: chamfer, run-out of the face, centre hole, circle of the detail.
fn ends(subject: &Subject<'_>, d: &mut Draft, t: &Turned<'_>) {
    let (s, lie) = (t.shaft, Lie::of(t));
    let [begin, end] = s.ends();
    let datums = t.datums.join("–");
    for (hole, face, inward, side) in [(&s.holes[0], begin, 1.0, Side::Right), (&s.holes[1], end, -1.0, Side::Left)] {
        let radius = s.diameter_at(face) / 2.0;
        match hole {
            Some(hole) => {
                let reach = 0.62 * hole.depth.max(2.0 * radius);
                d.detail_circle("X", lie.at(face + inward * 0.45 * hole.depth, 0.0), reach);
                d.sign(lie.at(face, -0.1 * radius), run_out(subject, END_RUN_OUT_MM, datums.clone()), side);
            }
            None => {
                if let Some(plain) = centre_holes::plain_for_mm(2.0 * radius) {
                    let words = if subject.us() {
                        say!("centre hole by drill No. {drill} may remain ({standard})", drill = plain.drill, standard = say::name("ASME B94.11M"))
                    } else {
                        let size = format!("A {}/{}", trimmed(&subject.number(plain.pilot_mm, 1)), trimmed(&subject.number(plain.sink_mm, 1)));
                        say!("centre hole {size} may remain ({standard})", size = say::name(size), standard = say::name("ISO 6411"))
                    };
                    d.leader(lie.at(face, 0.0), subject.say(words), side);
                }
            }
        }
    }
    let radius = s.diameter_at(begin) / 2.0;
    d.leader(lie.at(begin + s.chamfer / 2.0, radius - s.chamfer / 2.0), subject.say(chamfered(s.chamfer)), Side::Right);
}

fn chamfered(size: f64) -> say::Statement {
    say!("chamfer {size} × 45°, both ends", size = say::size(size, 3))
}

/// The shaft cut through a keyway, seen toward the left end: the keyway opens to the left.
pub fn keyway(subject: &Subject<'_>, t: &Turned<'_>) -> Option<Draft> {
    let [from, to] = *t.shaft.ways().last()?;
    let (way, _) = t.shaft.keyways.as_ref()?;
    let key = keyways::of_job(subject.us(), t.shaft.diameter())?;
    let at = from.midpoint(to);
    let letters = say::name(format!("{0}–{0}", t.letter));
    let mut d =
        Draft::new(format!("{}.keyway", t.part.id), say!("SECTION {letters}", letters = letters)).at_scale(ViewScale::Within { width: 55.0, height: 55.0 });
    let picture = Picture::toward(subject.machine, FROM_THE_FAR_END).cut_at(0.0, t.middle[1] + at, 0.0);
    picture.draw(&mut d, |p| p.of(&t.part.id).then_some(Show::Seen));
    // The view's right is down in the machine.
    let (x, y) = (-t.middle[2], -t.middle[0]);
    let radius = t.shaft.diameter_at(at) / 2.0;
    let (half, floor) = (way.width / 2.0, radius - way.depth);
    let brim = (radius * radius - half * half).sqrt();
    d.centre_cross((x, y), radius);
    // A metric key on inch sheets keeps its own size beside the rounded inches.
    let metric = key.standard == Standard::Din6885;
    let own = |mm: f64| if subject.us() && metric { format!(" ({} mm)", plain_number(mm, 1)) } else { String::new() };
    let width = match (metric, key.width_limits()) {
        (true, _) => " P9".into(),
        (false, Some(limits)) => format!(" {}", deviations(subject, limits)),
        (false, None) => String::new(),
    };
    d.dimension(Side::Left, format!("{}.keyway.width", t.key), (x - brim, y - half), (x - brim, y + half))
        .suffix(format!("{}{width}", own(way.width)))
        .toleranced();
    d.dimension(Side::Above, format!("{}.keyway.floor", t.key), (x - floor, y + half), (x + radius, y))
        .suffix(format!("{} {}", own(floor + radius), deviations(subject, key.floor_limits())))
        .toleranced()
        .decimals(1);
    let words = match key.standard {
        Standard::Din6885 => say!("2 keyways {standard} form A, in line", standard = say::name(key.standard.name())),
        Standard::AsmeB171 => say!("2 keyways {standard}, milled with round ends, in line", standard = say::name(key.standard.name())),
    };
    d.leader((x - floor, y - 0.6 * half), subject.say(words), Side::Left);
    Some(d)
}

/// A tapped end in section; `None` where neither end is tapped.
pub fn tapped_end(subject: &Subject<'_>, t: &Turned<'_>) -> Option<Draft> {
    let (s, lie) = (t.shaft, Lie::of(t));
    let [begin, end] = s.ends();
    let (hole, face, inward) = match s.holes {
        [_, Some(hole)] => (hole, end, -1.0),
        [Some(hole), None] => (hole, begin, 1.0),
        [None, None] => return None,
    };
    let mut d = Draft::new("tapped_end", say!("DETAIL {letter}", letter = say::name("X"))).at_scale(ViewScale::Within { width: 110.0, height: 95.0 });
    let radius = s.diameter_at(face) / 2.0;
    let reach = 1.4 * hole.depth;
    let at = |depth: f64, up: f64| lie.at(face + inward * depth, up);
    let (a, b) = (at(-5.0, -radius - 5.0), at(reach, radius + 5.0));
    let window = Rect::new(a.x, a.y, b.x, b.y).abs();
    let picture = Picture::toward(subject.machine, FROM_ABOVE).cut_at(0.0, 0.0, t.middle[2]).through().within(window);
    picture.draw(&mut d, |p| p.of(&t.part.id).then_some(Show::Seen));
    d.centre_line(at(0.0, 0.0), at(reach, 0.0));
    inside_thread(&mut d, &hole, at);
    let below = |depth: f64, half: f64| at(depth, -half);
    let datum = below(0.0, radius - s.chamfer);
    for (key, depth, half) in [
        ("pilot_depth", hole.pilot_depth, hole.pilot / 2.0),
        ("thread_depth", hole.thread_depth, hole.nominal / 2.0),
        ("drill_depth", hole.depth, hole.diameter / 2.0),
    ] {
        d.dimension(Side::Below, format!("{}.{key}", t.key), datum, below(depth, half));
    }
    let (outer, inner) = if inward < 0.0 { (Side::Left, Side::Right) } else { (Side::Right, Side::Left) };
    d.dimension(outer, format!("{}.sink", t.key), at(0.0, -hole.sink / 2.0), at(0.0, hole.sink / 2.0)).prefix("⌀").decimals(1);
    let metric = hole.thread.starts_with('M');
    // An inch thread is its diameter, threads an inch and class.
    let (sign, class) = match hole.thread.split_once('-') {
        Some((_, per_inch)) if subject.us() => ("", format!("-{per_inch} UNC-2B")),
        _ if metric && !subject.us() => ("M", " – 6H".into()),
        _ => ("⌀", format!(" ({})", hole.thread)),
    };
    d.dimension(outer, format!("{}.thread", t.key), at(hole.thread_depth, -hole.nominal / 2.0), at(hole.thread_depth, hole.nominal / 2.0))
        .prefix(sign)
        .suffix(class);
    let drill = threads::find(hole.thread).and_then(threads::Thread::drill_letter).filter(|_| subject.us()).map(|letter| format!(" ({letter})"));
    d.dimension(inner, format!("{}.tap_drill", t.key), at(hole.depth, -hole.diameter / 2.0), at(hole.depth, hole.diameter / 2.0))
        .prefix("⌀")
        .suffix(drill.unwrap_or_default())
        .decimals(1);
    let sink = if metric {
        let standard = say::name("DIN 332-2");
        say!(
            "centre hole {standard} form D for the motion sensor's target: pilot ⌀{pilot}, countersink 60°",
            standard = standard,
            pilot = say::size(hole.pilot, 1)
        )
    } else {
        say!("centre hole for the motion sensor's target: pilot ⌀{pilot}, countersink 60°", pilot = say::size(hole.pilot, 3))
    };
    d.leader(at(hole.sink_depth() / 2.0, (hole.sink + hole.pilot) / 4.0), subject.say(sink), inner);
    Some(d)
}

/// An internal thread in section: its largest diameter narrow, its end wide.
fn inside_thread(d: &mut Draft, hole: &EndHole, at: impl Fn(f64, f64) -> PlanePoint) {
    let half = hole.nominal / 2.0;
    for up in [-half, half] {
        d.line(Pen::FineEdge, at(hole.pilot_depth, up), at(hole.thread_depth, up));
    }
    d.line(Pen::Edge, at(hole.thread_depth, -half), at(hole.thread_depth, half));
}

/// A threaded rod, laid down: of the near side.
pub fn rod(subject: &Subject<'_>, part: &Part, title: say::Statement) -> Option<Draft> {
    let Some(Shape::Rod { diameter, root, length }) = part.shape else { return None };
    let [x, _, z] = part.placements.first()?.origin;
    let mut d = Draft::new("take_up.rod", title).at_scale(ViewScale::Within { width: 200.0, height: 60.0 });
    Picture::toward(subject.machine, LYING).draw(&mut d, |p| (p.of(&part.id) && near(p.low.y, p.high.y)).then_some(Show::Seen));
    let at = |along: f64, up: f64| PlanePoint::new(z + along, up - x);
    let (half, chamfer) = (length / 2.0, (diameter - root) / 2.0);
    d.centre_line(at(-half, 0.0), at(half, 0.0));
    for up in [-root / 2.0, root / 2.0] {
        d.line(Pen::FineEdge, at(chamfer - half, up), at(half - chamfer, up));
    }
    d.dimension(Side::Below, "take_up.rod.length", at(-half, -root / 2.0), at(half, -root / 2.0)).overall();
    let name = subject.spec.take_up.rod.value.as_str();
    let class = power_threads::find(name).map_or("", |t| t.class());
    let words = say!("{thread}, class {class}, over the whole length", thread = say::name(name), class = say::name(class));
    d.leader(at(-half, 0.25 * root), subject.say(words), Side::Left);
    d.leader(at(half - chamfer / 2.0, (diameter + root) / 4.0), subject.say(chamfered(chamfer)), Side::Right);
    d.sign(at(-0.5 * half, diameter / 2.0), texture(subject, Use::Flank), Side::Above);
    Some(d)
}

/// Whether a piece stands on the near side.
pub fn near(low: f64, high: f64) -> bool {
    low + high > 0.0
}
