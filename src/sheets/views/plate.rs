//! A plate as it is cut: outline, openings, holes with tags or rows of pitches, bend lines, scribed lines, datum.
//!
//! In: a part with its flat pattern, seen with the marked face toward the viewer, origin at the lower
//! left of its bounding box. Few holes on a regular ring are dimensioned by rows; all others get tags
//! and a hole table from the marked origin. Plates are never mirrored: they are drawn as their
//! cutting files are.

use super::scribed;
use crate::lists::cutting;
use crate::paper::mark::{Align, PlanePoint};
use crate::paper::style::Pen;
use crate::paper::table::Table;
use crate::paper::view::{Draft, Side, ViewScale};
use crate::parts::Part;
use crate::parts::flat::{BendSide, Contour, FlatPattern, Sunk, Tells};
use crate::parts::hole_table;
use crate::say;
use crate::say::{Statement, Value};
use crate::sheets::Subject;
use crate::sheets::places;
use crate::tables::threads;
use crate::units::MM_PER_INCH;
use kurbo::Rect;

/// Distinct values, sorted, those closer than 0.01 mm taken as one.
fn distinct(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut all: Vec<f64> = values.collect();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < 0.01);
    all
}

/// Whether the values are equally spaced.
fn even(values: &[f64]) -> bool {
    let steps: Vec<f64> = values.iter().zip(values.iter().skip(1)).map(|(a, b)| b - a).collect();
    steps.windows(2).all(|w| w.iter().zip(w.iter().skip(1)).all(|(a, b)| (a - b).abs() < 0.05))
}

/// Whether the holes are told fully by two rows of equal pitches: all of one size, on a ring or a row.
pub fn regular(flat: &FlatPattern) -> bool {
    let sizes = hole_table::sizes(flat);
    if sizes.len() != 1 || flat.holes.len() < 2 {
        return sizes.len() <= 1 && flat.holes.len() < 2;
    }
    let (xs, ys) = (distinct(flat.holes.iter().map(|h| h.at[0])), distinct(flat.holes.iter().map(|h| h.at[1])));
    let on_ring = |h: &crate::parts::flat::Hole| {
        let edge = |v: f64, all: &[f64]| all.first().is_some_and(|f| (f - v).abs() < 0.01) || all.last().is_some_and(|l| (l - v).abs() < 0.01);
        edge(h.at[0], &xs) || edge(h.at[1], &ys)
    };
    let ring = (2 * xs.len() + 2 * ys.len()).saturating_sub(4);
    let full = match (xs.len(), ys.len()) {
        (1, n) | (n, 1) => flat.holes.len() == n,
        _ => flat.holes.len() == ring,
    };
    even(&xs) && even(&ys) && full && flat.holes.iter().all(on_ring)
}

/// Whether two plates are cut and scribed alike: same contours, holes, bends and scribed lines, whatever their part marks.
pub fn alike(a: &FlatPattern, b: &FlatPattern) -> bool {
    let near = |u: f64, v: f64| (u - v).abs() < 0.01;
    let at = |u: &[f64; 2], v: &[f64; 2]| near(u[0], v[0]) && near(u[1], v[1]);
    let contour = |u: &Contour, v: &Contour| match (u, v) {
        (Contour::Path(m), Contour::Path(n)) => m.len() == n.len() && m.iter().zip(n).all(|(p, q)| at(&p.at, &q.at) && (p.bulge - q.bulge).abs() < 1e-6),
        (Contour::Circle { centre: m, diameter: d }, Contour::Circle { centre: n, diameter: e }) => at(m, n) && near(*d, *e),
        _ => false,
    };
    contour(&a.outer, &b.outer)
        && a.openings.len() == b.openings.len()
        && a.openings.iter().zip(&b.openings).all(|(u, v)| contour(&u.contour, &v.contour))
        && a.holes.len() == b.holes.len()
        && a.holes
            .iter()
            .zip(&b.holes)
            .all(|(u, v)| at(&u.at, &v.at) && near(u.diameter, v.diameter) && u.thread == v.thread && u.sunk == v.sunk && u.made == v.made)
        && a.scribed.len() == b.scribed.len()
        && a.scribed.iter().zip(&b.scribed).all(|(u, v)| u.line.same(&v.line))
        && a.bends.len() == b.bends.len()
        && a.bends.iter().zip(&b.bends).all(|(u, v)| {
            near(u.start, v.start) && near(u.angle_deg, v.angle_deg) && u.side == v.side && near(u.inside_radius, v.inside_radius) && u.rolled == v.rolled
        })
}

/// `311, 321` for parts cut alike.
fn items(parts: &[&Part]) -> String {
    parts.iter().map(|p| p.item.to_string()).collect::<Vec<String>>().join(", ")
}

/// One name for parts cut alike. Numbers that differ go: `sensor panel, frame`; other pieces that differ stand
/// side by side: `throat floor / throat roof`.
fn common_name(subject: &Subject<'_>, parts: &[&Part]) -> String {
    let names: Vec<Vec<Statement>> = parts.iter().map(|p| p.name_pieces()).collect();
    let Some(first) = names.first() else { return String::new() };
    let mut kept = Vec::new();
    for (i, piece) in first.iter().enumerate() {
        let own = || names.iter().filter_map(|n| n.get(i));
        let differ = own().any(|p| p != piece);
        let mut said: Vec<String> = Vec::new();
        for p in own() {
            // `sensor panel 1` is a thing and its number.
            let thing = p.value("thing").filter(|_| differ);
            let one = if let Some(Value::Said(thing)) = thing { subject.said(thing) } else { subject.said(p) };
            if !said.contains(&one) {
                said.push(one);
            }
        }
        kept.push(said.join(" / "));
    }
    kept.join(", ")
}

/// The plate as a view: item numbers and thickness in its title.
pub fn draft(subject: &Subject<'_>, parts: &[&Part], flat: &FlatPattern, scale: ViewScale) -> Draft {
    let Some(part) = parts.first() else { return Draft::new("plate", "") };
    let (items, plate, t) = (say::name(items(parts)), say::name(common_name(subject, parts).to_uppercase()), say::size(part.thickness, 1));
    let pieces: u32 = parts.iter().map(|p| p.quantity).sum();
    let title = if pieces > 1 {
        say!("{items} {plate}, t = {t}, {pieces}×", items = items, plate = plate, t = t, pieces = pieces)
    } else {
        say!("{items} {plate}, t = {t}", items = items, plate = plate, t = t)
    };
    let mut d = Draft::new(format!("plate.{}.{}", part.item, part.id), title).at_scale(scale);
    let key = |what: &str| format!("part.{}.{what}", part.id);
    let round = ring(&mut d, key("diameter"), &flat.outer);
    for (i, o) in flat.openings.iter().enumerate() {
        ring(&mut d, key(&format!("opening.diameter{}", i + 1)), &o.contour);
        if flat.openings.len() > 1 {
            let (low, high) = o.contour.bounds();
            d.tag(((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0), (high[0] - low[0]).min(high[1] - low[1]) / 2.0, opening_tag(i));
        }
    }
    corners(subject, &mut d, part, flat);
    let by_rows = regular(flat);
    for h in &flat.holes {
        let at = PlanePoint::new(h.at[0], h.at[1]);
        d.hole(Pen::Edge, at, h.diameter / 2.0);
        if !by_rows {
            d.tag(at, h.diameter / 2.0, h.tag.clone());
        }
    }
    let size = flat.size();
    bends(subject, &mut d, part, flat);
    scribed::draw(subject, &mut d, part, flat);
    if !round {
        d.dimension(Side::Below, key("length"), (0.0, 0.0), (size[0], 0.0)).overall();
        d.dimension(Side::Left, key("height"), (0.0, 0.0), (0.0, size[1])).overall();
    }
    if by_rows && !flat.holes.is_empty() {
        rows(subject, &mut d, part, flat);
    }
    if !round && (!flat.holes.is_empty() || !flat.openings.is_empty() || !flat.scribed.is_empty() || many_corners(flat)) {
        scribed::origin(&mut d, flat);
    }
    if flat.openings.len() == 1
        && let Some(o) = flat.openings.first()
        && !(round && in_the_middle(flat, &o.contour))
    {
        only_opening(&mut d, key, &o.contour);
    }
    d
}

/// A flat beside a rolled stretch is told from this length on, mm.
const FLAT_BESIDE: f64 = 1.0;

/// Bending lines with their places and words, and what is rolled.
fn bends(subject: &Subject<'_>, d: &mut Draft, part: &Part, flat: &FlatPattern) {
    let size = flat.size();
    for b in &flat.bends {
        let (from, to) = (b.start, b.start + b.flat_length);
        if b.rolled {
            // Where flats are left beside it, its ends: the lines of the cutting file.
            if from > FLAT_BESIDE || size[0] - to > FLAT_BESIDE {
                [from, to].into_iter().for_each(|x| d.line(Pen::Centre, (x, 0.0), (x, size[1])));
                let mut end = |name: &str, a: f64, b: f64| {
                    d.dimension(Side::Below, format!("part.{}.{name}", part.id), (a, 0.0), (b, 0.0)).chain("rolled");
                };
                end("flat_before", 0.0, from);
                end("rolled", from, to);
            }
            d.leader(
                (from + (to - from) * 0.75, size[1] * 0.8),
                subject.say(say!("rolled, inside radius {inside_radius}", inside_radius = say::size(b.inside_radius, 1))),
                Side::Right,
            );
        } else {
            let x = (from + to) / 2.0;
            d.line(Pen::Centre, (x, 0.0), (x, size[1]));
            d.dimension(Side::Below, format!("part.{}.bend.{}", part.id, b.start.round()), (0.0, 0.0), (x, 0.0));
            let way = subject.say(if b.side == BendSide::Up { "up" } else { "down" });
            d.leader(
                (x, size[1] * 0.7),
                subject.say(say!(
                    "bend {angle_deg}° {way}, inside radius {inside_radius}",
                    angle_deg = say::name(subject.number(b.angle_deg, 1)),
                    way = say::name(way),
                    inside_radius = say::size(b.inside_radius, 1)
                )),
                Side::Right,
            );
        }
    }
}

/// Place and size of the one opening of a plate.
fn only_opening(d: &mut Draft, key: impl Fn(&str) -> String, opening: &Contour) {
    let (low, high) = opening.bounds();
    // A round opening has its diameter beside it.
    if matches!(opening, Contour::Circle { .. }) {
        let middle = [(low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0];
        d.dimension(Side::Above, key("opening.x"), (0.0, low[1]), (middle[0], middle[1]));
        d.dimension(Side::Right, key("opening.y"), (low[0], 0.0), (middle[0], middle[1]));
        return;
    }
    d.dimension(Side::Above, key("opening.x"), (0.0, low[1]), (low[0], low[1])).chain("opening");
    d.dimension(Side::Above, key("opening.length"), low, (high[0], low[1])).chain("opening");
    d.dimension(Side::Right, key("opening.y"), (low[0], 0.0), low).chain("opening");
    d.dimension(Side::Right, key("opening.height"), low, (low[0], high[1])).chain("opening");
}

/// A contour; a circle with its centre lines and its diameter, which says it all. Tells whether it is one.
fn ring(d: &mut Draft, key: String, contour: &Contour) -> bool {
    if let Contour::Circle { centre, diameter } = contour {
        d.hole(Pen::Edge, (centre[0], centre[1]), diameter / 2.0);
        d.diameter(key, (centre[0], centre[1]), diameter / 2.0);
        return true;
    }
    d.stroke(Pen::Edge, cutting::shape(contour));
    false
}

/// Whether a contour lies about the middle of the outline.
fn in_the_middle(flat: &FlatPattern, contour: &Contour) -> bool {
    let middle = |b: ([f64; 2], [f64; 2])| [(b.0[0] + b.1[0]) / 2.0, (b.0[1] + b.1[1]) / 2.0];
    let (a, b) = (middle(flat.outer.bounds()), middle(contour.bounds()));
    (a[0] - b[0]).hypot(a[1] - b[1]) < 0.01
}

/// Most corners of an outline that are dimensioned one by one along an axis; more stand in the table.
const CORNERS: usize = 4;

/// Chord of an arc up to which it is told as the corner of its tangents with a radius, mm.
const SHORT_ARC: f64 = 15.0;

/// Corners of the outline that lie off its bounding box, along x and along y.
fn inner_corners(flat: &FlatPattern) -> (Vec<f64>, Vec<f64>) {
    let nodes = flat.outer.corners(SHORT_ARC);
    let size = flat.size();
    let inner = |all: Vec<f64>, most: f64| all.into_iter().filter(|v| *v > 0.01 && *v < most - 0.01).collect::<Vec<f64>>();
    (inner(distinct(nodes.iter().map(|n| n.at[0])), size[0]), inner(distinct(nodes.iter().map(|n| n.at[1])), size[1]))
}

/// Whether the outline has more corners than are dimensioned one by one.
fn many_corners(flat: &FlatPattern) -> bool {
    let (xs, ys) = inner_corners(flat);
    xs.len().max(ys.len()) > CORNERS
}

/// Dimensions of the outline's corners from its lower left.
fn corners(subject: &Subject<'_>, d: &mut Draft, part: &Part, flat: &FlatPattern) {
    if many_corners(flat) {
        return;
    }
    let nodes = flat.outer.corners(SHORT_ARC);
    // Equal radii are told once, at the upper right one.
    let mut told: Vec<(String, usize, [f64; 2])> = Vec::new();
    for n in &nodes {
        let Some(radius) = n.radius.map(|r| subject.mm(r)) else { continue };
        match told.iter_mut().find(|t| t.0 == radius) {
            Some(t) => {
                t.1 += 1;
                if n.at[0] + n.at[1] > t.2[0] + t.2[1] {
                    t.2 = n.at;
                }
            }
            None => told.push((radius, 1, n.at)),
        }
    }
    for (radius, count, at) in told {
        let text = if count > 1 { format!("{count} × R {radius}") } else { format!("R {radius}") };
        let side = if at[0] < flat.size()[0] / 2.0 { Side::Left } else { Side::Right };
        d.leader((at[0], at[1]), text, side);
    }
    let (xs, ys) = inner_corners(flat);
    let (mut last, mut low) = (0.0, 0.0);
    for (i, x) in xs.iter().enumerate() {
        let y = nodes.iter().filter(|n| (n.at[0] - x).abs() < 0.01).map(|n| n.at[1]).fold(f64::INFINITY, f64::min);
        d.dimension(Side::Below, format!("part.{}.corner.x{}", part.id, i + 1), (last, low), (*x, y)).chain("corners");
        (last, low) = (*x, y);
    }
    let (mut last, mut left) = (0.0, 0.0);
    for (i, y) in ys.iter().enumerate() {
        let x = nodes.iter().filter(|n| (n.at[1] - y).abs() < 0.01).map(|n| n.at[0]).fold(f64::INFINITY, f64::min);
        d.dimension(Side::Left, format!("part.{}.corner.y{}", part.id, i + 1), (left, last), (x, *y)).chain("corners");
        (last, left) = (*y, x);
    }
}

fn rows(subject: &Subject<'_>, d: &mut Draft, part: &Part, flat: &FlatPattern) {
    let (xs, ys) = (distinct(flat.holes.iter().map(|h| h.at[0])), distinct(flat.holes.iter().map(|h| h.at[1])));
    let (Some(x0), Some(x1), Some(y0), Some(y1)) = (xs.first(), xs.last(), ys.first(), ys.last()) else { return };
    let key = |what: &str| format!("part.{}.{what}", part.id);
    d.dimension(Side::Below, key("holes.x"), (0.0, 0.0), (*x0, *y0)).chain("holes");
    if xs.len() > 2 {
        d.rows(Side::Below, key("holes.pitch_x"), (*x0, *y0), (*x1, *y0), xs.len() - 1).chain("holes");
    } else if xs.len() == 2 {
        d.dimension(Side::Below, key("holes.pitch_x"), (*x0, *y0), (*x1, *y0)).chain("holes");
    }
    d.dimension(Side::Left, key("holes.y"), (0.0, 0.0), (*x0, *y0)).chain("holes");
    if ys.len() > 2 {
        d.rows(Side::Left, key("holes.pitch_y"), (*x0, *y0), (*x0, *y1), ys.len() - 1).chain("holes");
    } else if ys.len() == 2 {
        d.dimension(Side::Left, key("holes.pitch_y"), (*x0, *y0), (*x0, *y1)).chain("holes");
    }
    if let (Some(h), Some(s)) = (flat.holes.last(), hole_table::sizes(flat).first()) {
        d.leader((h.at[0], h.at[1]), size_words(subject, s), Side::Right);
    }
}

/// Number or letter of a tap drill, on sheets in inches that cannot say its size in a fraction.
fn drill_letter(subject: &Subject<'_>, thread: &str) -> Option<&'static str> {
    if subject.us() { threads::find(thread).and_then(|t| t.drill_letter()) } else { None }
}

/// A diameter; in inches one that is no fraction of 32 in decimals, because the nearest fraction would be another drill.
fn bore(subject: &Subject<'_>, mm: f64) -> String {
    let parts = mm / MM_PER_INCH * 32.0;
    if subject.us() && (parts - parts.round()).abs() > 0.05 { format!("⌀{}", place(subject, mm)) } else { format!("⌀{}", subject.mm(mm)) }
}

/// A hole's diameter, with its countersink on the marked face.
fn diameter(subject: &Subject<'_>, mm: f64, sunk: Option<Sunk>) -> String {
    let plain = bore(subject, mm);
    sunk.map_or(plain.clone(), |s| {
        let (wide, angle) = (bore(subject, s.diameter), subject.number(s.angle_deg, 0));
        subject.say(say!("{hole}, countersunk {wide} × {angle}°", hole = say::name(plain), wide = say::name(wide), angle = say::name(angle)))
    })
}

fn size_words(subject: &Subject<'_>, s: &hole_table::HoleSize) -> String {
    let count = s.count.to_string();
    let drill = s.thread.as_deref().and_then(|t| drill_letter(subject, t));
    match s.thread.as_deref().map(threads::tapped) {
        Some(thread) if drill.is_some() => {
            let words = subject.say(say!("{thread}, drill {drill}", thread = say::name(thread), drill = say::name(drill.unwrap_or_default())));
            if s.count == 1 { words } else { format!("{count} × {words}") }
        }
        Some(thread) if s.count == 1 => subject.say(say!("{thread}, drill ⌀{diameter}", thread = say::name(thread), diameter = say::size(s.diameter, 1))),
        None if s.count == 1 => diameter(subject, s.diameter, s.sunk),
        Some(thread) => subject.say(say!(
            "{count} × {thread}, drill ⌀{diameter}",
            count = say::name(count),
            thread = say::name(thread),
            diameter = say::size(s.diameter, 1)
        )),
        None => format!("{count} × {}", diameter(subject, s.diameter, s.sunk)),
    }
}

/// Tag of an opening: W and its number, so that it is no hole's tag (those run from A by size).
fn opening_tag(index: usize) -> String {
    format!("W{}", index + 1)
}

/// What a hole or opening is for, in words, by the beginning of its feature's id; the id itself is for programs.
fn purpose(subject: &Subject<'_>, feature: &str) -> String {
    const WORDS: [(&str, &str); 22] = [
        ("shaft.journal", "shaft journal"),
        ("take_up.slot", "shaft slot"),
        ("sensor_panels", "sensor panel"),
        ("door[", "inspection door"),
        ("clean_out", "clean-out door"),
        ("removal", "removal panel"),
        ("inlet", "inlet"),
        ("shovel_pocket", "shovel pocket"),
        ("bend_pulley.shaft", "bend pulley shaft"),
        ("base.anchors", "anchor"),
        ("foot bearing", "foot bearing"),
        ("guide of the sliding plate", "guide of the sliding plate"),
        ("bend pulley bearing", "bend pulley bearing"),
        ("take-up rod", "take-up rod"),
        ("top flange", "top flange"),
        ("up-side inlet flange", "up-side inlet flange"),
        ("down-side inlet flange", "down-side inlet flange"),
        ("pocket lid", "pocket lid"),
        ("weight box", "weight box"),
        ("hand hole", "hand hole"),
        ("lifting.shackle", "shackle"),
        ("sling", "hook of a sling"),
    ];
    WORDS.iter().find(|(id, _)| feature.starts_with(id)).map_or_else(|| feature.to_string(), |(_, words)| subject.say(*words))
}

/// A coordinate of a hole table: in inches with three decimals, because sixteenths would tear a pattern apart.
fn place(subject: &Subject<'_>, mm: f64) -> String {
    if subject.us() { format!("{}\"", subject.number(mm / MM_PER_INCH, 3)) } else { subject.mm(mm) }
}

/// What is set on a plate and scribed there, other than on the walls, whose places stand in lists of their own: item, lower left
/// corner and size of its outline, mm.
fn set_on(subject: &Subject<'_>, part: &Part, flat: &FlatPattern) -> Vec<(u32, Rect)> {
    if places::is_shell(&part.id) {
        return Vec::new();
    }
    let seats = subject.parts.seats.iter().filter(|s| s.on == part.id && s.on_piece == 0);
    let mut all: Vec<(u32, Rect)> = seats
        .filter_map(|s| {
            let item = subject.parts.part(&s.part)?.item;
            let outline = s.outline.iter().map(|line| line.edge().bounds()).reduce(|a, b| a.union(b))?;
            flat.scribed.iter().any(|line| line.tells == Tells::Item(item)).then_some((item, outline))
        })
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.y0.total_cmp(&b.1.y0)).then(a.1.x0.total_cmp(&b.1.x0)));
    all
}

/// The hole table of a plate, with its openings and what is set on it as rows of their own; `None` when the view tells all.
pub fn table(subject: &Subject<'_>, parts: &[&Part], flat: &FlatPattern) -> Option<Table> {
    let part = parts.first()?;
    let set_on = set_on(subject, part, flat);
    if regular(flat) && flat.openings.len() < 2 && !many_corners(flat) && set_on.is_empty() {
        return None;
    }
    let listed = say::name(items(parts));
    let holes = many_corners(flat) || !regular(flat) || flat.openings.len() > 1;
    let heading = if holes { say!("HOLE TABLE {items}", items = listed) } else { say!("PLACES ON {items}", items = listed) };
    let mut t = Table::new(format!("holes-{}", part.item), heading)
        .column("Tag", Align::Left, 12.0)
        .column("x", Align::Right, 30.0)
        .column("y", Align::Right, 30.0)
        .column("Size", Align::Left, 50.0)
        .column("For", Align::Left, 60.0);
    if many_corners(flat) {
        for n in flat.outer.corners(SHORT_ARC) {
            let size = n.radius.map_or_else(String::new, |r| format!("R {}", subject.mm(r)));
            t.row([
                String::new(),
                place(subject, n.at[0]),
                place(subject, n.at[1]),
                size,
                subject.say(if n.arc_follows { "corner, then an arc" } else { "corner" }),
            ]);
        }
    }
    if !regular(flat) {
        for h in hole_table::rows(flat) {
            let drill = h.thread.as_deref().and_then(|t| drill_letter(subject, t));
            let size = match (h.thread.as_deref().map(threads::tapped), drill) {
                (Some(t), Some(letter)) => subject.say(say!("{t}, drill {letter}", t = say::name(t), letter = say::name(letter))),
                (Some(t), None) => format!("{t}, ⌀{}", subject.mm(h.diameter)),
                (None, _) => diameter(subject, h.diameter, h.sunk),
            };
            t.row([h.tag, place(subject, h.x), place(subject, h.y), size, purpose(subject, &h.feature)]);
        }
    }
    if flat.openings.len() > 1 {
        for (i, o) in flat.openings.iter().enumerate() {
            let (low, high) = o.contour.bounds();
            let middle = [(low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0];
            let size = format!("{} × {}", subject.mm(high[0] - low[0]), subject.mm(high[1] - low[1]));
            t.row([opening_tag(i), place(subject, middle[0]), place(subject, middle[1]), size, purpose(subject, &o.feature)]);
        }
    }
    for (item, r) in set_on {
        let size = format!("{} × {}", subject.mm(r.width()), subject.mm(r.height()));
        t.row([item.to_string(), place(subject, r.x0), place(subject, r.y0), size, subject.say("set here, lower left corner")]);
    }
    Some(t)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn even_and_distinct() {
        assert!(even(&[0.0, 10.0, 20.0]));
        assert!(!even(&[0.0, 10.0, 21.0]));
        assert_eq!(distinct([3.0, 1.0, 3.004, 2.0].into_iter()).len(), 3);
    }
}
