//! What is done to all parts at the end: hand, splices, drilled holes, tags, marks, shop rules, order.

use super::flat::{Contour, FlatPattern, Hole, HoleMade, Xy};
use super::shafts::then;
use super::shop::{Butt, Shop, plate_dimension};
use super::{Part, Parts, hole_table, part_mark, piece_of, seats, splice};
use crate::geometry::{Edge, distance_of_rings, point};
use crate::say;
use crate::say::{Statement, amount, mm, name, size};
use crate::spec::fabrication::Process;
use crate::spec::sheet::Hand as SheetHand;
use crate::tables::cutting_quality;
use crate::tables::plates::BAR_MM;
use crate::units::Unit;

/// Finishes a shop's parts.
pub fn finish(mut shop: Shop) -> Parts {
    let spec = shop.spec;
    let stock = [spec.fabrication.stock_length.value(), spec.fabrication.stock_width.value()];
    let revision = spec.revisions.last().map_or_else(|| "0".to_string(), |r| r.index.value.clone());
    let mut parts = std::mem::take(&mut shop.parts);
    if spec.sheet.hand.value == SheetHand::Left {
        parts.iter_mut().for_each(turn_over);
    }
    let mut items = Vec::new();
    for part in parts {
        items.extend(spliced(&mut shop, part, stock));
    }
    let seats = seats::scribe(&mut items, &shop.welds, shop.foot);
    let number: String =
        spec.project.number.value.to_uppercase().chars().filter(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || *c == '-').take(12).collect();
    for part in &mut items {
        part.weigh();
        let Some(flat) = &mut part.flat else { continue };
        let factor = match spec.fabrication.process.value {
            Process::Laser => cutting_quality::LASER.least_hole,
            Process::Plasma => cutting_quality::PLASMA.least_hole,
            Process::Drill => f64::INFINITY,
        };
        let narrow = holes_near_an_edge(flat, LEAST_WEB * part.thickness);
        for (hole, narrow) in flat.holes.iter_mut().zip(narrow) {
            if hole.thread.is_some() || narrow || hole.diameter < factor * part.thickness - 1e-9 {
                hole.made = HoleMade::Drilled;
            }
        }
        hole_table::tag(flat);
        let texts = if number.is_empty() { vec![part.item.to_string()] } else { vec![format!("{number}-{}", part.item), part.item.to_string()] };
        flat.mark = part_mark::place(flat, &texts, 4.0);
        if let Some(what) = thin_web(flat, part.thickness) {
            shop.defects.push(super::Defect {
                item: part.item,
                path: "fabrication".into(),
                what: say!("{part}: {what}", part = part.name.clone(), what = what),
            });
        }
    }
    items.sort_by_key(|p| p.item);
    Parts { items, joints: shop.joints, welds: shop.welds, seals: shop.seals, seats, defects: shop.defects, revision, us: spec.us() }
}

/// Patterns of a machine whose up side is on the left are the mirror images.
fn turn_over(part: &mut Part) {
    let Some(flat) = &part.flat else {
        // Shapes are their own mirror images.
        part.placements.iter_mut().for_each(|p| p.right = p.right.map(|d| 0.0 - d));
        return;
    };
    let size = flat.size();
    if flat.bends.is_empty() {
        part.flat = Some(flat.mapped(true, |p: Xy| [size[0] - p[0], p[1]]));
        for p in &mut part.placements {
            *p = p.at(size[0], 0.0);
            p.right = p.right.map(|d| 0.0 - d);
        }
    } else {
        part.flat = Some(flat.mapped(true, |p: Xy| [p[0], size[1] - p[1]]));
        for p in &mut part.placements {
            *p = p.at(0.0, size[1]);
            p.up = p.up.map(|d| 0.0 - d);
        }
    }
}

/// Families of plates that stand between inside and outside, and last words of others: their splices are tight.
const WALLS: [&str; 5] = ["side_plate", "end_plate", "bottom", "top_cover", "sliding_plate"];
const WALLS_OF_OPENINGS: [&str; 5] = ["floor", "roof", "cheek", "leaf", "lid"];

/// Whether a plate closes the casing, rather than stiffening or framing it.
fn closes(id: &str) -> bool {
    let of = |family: &str| id.strip_prefix(family).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'));
    WALLS.iter().any(|family| of(family)) || id.rsplit('.').next().is_some_and(|last| WALLS_OF_OPENINGS.contains(&last))
}

fn spliced(shop: &mut Shop, part: Part, stock: Xy) -> Vec<Part> {
    let Some(flat) = &part.flat else { return vec![part] };
    if splice::fits(flat.size(), stock) {
        return vec![part];
    }
    let cut = splice::split(flat, &part.placements, part.thickness, stock, shop.stock().step_mm());
    if cut.is_none() && splice::fits(flat.size(), BAR_MM) {
        let remarks = if part.remarks.is_empty() { say!("from flat bar") } else { then(part.remarks.clone(), say!("from flat bar")) };
        return vec![Part { remarks, ..part }];
    }
    let Some((pieces, splices)) = cut else {
        let own = flat.size();
        shop.defect(
            part.item,
            "fabrication.stock_length",
            say!(
                "{part} is {length} × {width}, larger than the stock sheet of {stock_length} × {stock_width}, and no clear place for a splice was found; give fabrication.stock_length and stock_width more",
                part = part.name.clone(),
                length = size(own[0], 0),
                width = size(own[1], 0),
                stock_length = size(stock[0], 0),
                stock_width = size(stock[1], 0),
            ),
        );
        return vec![part];
    };
    for splice::Splice { length, joins } in splices {
        let [one, other] = joins.map(|range| range.map(|i| format!("{}.{}", part.id, i + 1)).collect::<Vec<String>>());
        let [one, other] = [&one, &other].map(|ids| ids.iter().map(String::as_str).collect::<Vec<&str>>());
        // What is welded or bolted on crosses the splices of walls, bars and bottom, the sliding plate slides along those of its guides,
        // the belt runs over those of rims.
        let said = say!("{part}: splice, ground flush", part = part.name.clone());
        shop.butt(&part.id, said, [&one, &other], (length * f64::from(part.quantity), part.thickness), Butt { tight: closes(&part.id), ground: true });
    }
    let n = pieces.len();
    pieces
        .into_iter()
        .enumerate()
        .map(|(i, (flat, placements))| {
            let dimension = plate_dimension(part.thickness, flat.size(), shop.decimals() + 1);
            let area = flat.area();
            Part {
                item: part.item * 10 + u32::try_from(i).unwrap_or(0) + 1,
                id: format!("{}.{}", part.id, i + 1),
                name: piece_of(&part.name, say!("piece {number} of {pieces}", number = i + 1, pieces = n)),
                dimension,
                paint_m2: 2.0 * area * 1e-6,
                flat: Some(flat),
                placements,
                remarks: if part.remarks.is_empty() { say!("butt-welded splice") } else { then(part.remarks.clone(), say!("butt-welded splice")) },
                ..part.clone()
            }
        })
        .collect()
}

/// A web may be this much less than asked, mm: sizes are rounded.
const NEAR: f64 = 0.05;
/// Turn of a chord where arcs of two openings are compared, radians.
const CHORD: f64 = 0.1;
/// Least web between cut edges as a multiple of the thickness (common practice: heat).
const LEAST_WEB: f64 = 1.5;

/// For each hole, whether a thinner web than `least` would be left between it and another edge if it were cut: such a hole is drilled.
fn holes_near_an_edge(flat: &FlatPattern, least: f64) -> Vec<bool> {
    let edges: Vec<Edge> = std::iter::once(&flat.outer).chain(flat.openings.iter().map(|o| &o.contour)).flat_map(Contour::edges).collect();
    let near = |(i, h): (usize, &Hole)| {
        let (at, asked) = (point(h.at), least - NEAR + h.diameter / 2.0);
        let other = |(j, o): (usize, &Hole)| i != j && at.distance(point(o.at)) - o.diameter / 2.0 < asked;
        edges.iter().any(|e| e.distance(at) < asked) || flat.holes.iter().enumerate().any(other)
    };
    flat.holes.iter().enumerate().map(near).collect()
}

/// Web between two contours that do not cross, mm: exact where the smaller of them is round.
fn web(a: &Contour, b: &Contour) -> f64 {
    let (small, large) = if a.area() < b.area() { (a, b) } else { (b, a) };
    match small {
        Contour::Circle { centre, diameter } => large.edges().iter().map(|e| e.distance(point(*centre))).fold(f64::INFINITY, f64::min) - diameter / 2.0,
        Contour::Path(_) => distance_of_rings(&small.points(CHORD), &large.points(CHORD)),
    }
}

/// Whose edge it is.
#[derive(Debug, Clone, Copy)]
enum Edged<'a> {
    Outer,
    Opening(&'a str),
    Hole(&'a str),
}

impl Edged<'_> {
    fn said(self) -> Statement {
        match self {
            Self::Outer => "the edge".into(),
            Self::Opening(feature) => Statement::named(feature),
            Self::Hole(tag) => say!("hole {tag}", tag = name(tag)),
        }
    }
}

/// The thinnest web under 1.5 × the thickness between cut edges (common practice: heat), if there is one.
fn thin_web(flat: &FlatPattern, thickness: f64) -> Option<Statement> {
    let least = LEAST_WEB * thickness;
    let holes = flat.holes.iter().filter(|h| h.made == HoleMade::Cut);
    let all: Vec<(Edged<'_>, Contour, (Xy, Xy))> = std::iter::once((Edged::Outer, flat.outer.clone()))
        .chain(flat.openings.iter().map(|o| (Edged::Opening(&o.feature), o.contour.clone())))
        .chain(holes.map(|h| (Edged::Hole(&h.tag), Contour::Circle { centre: h.at, diameter: h.diameter })))
        .map(|(edged, contour)| {
            let bounds = contour.bounds();
            (edged, contour, bounds)
        })
        .collect();
    let mut worst: Option<(f64, Statement)> = None;
    for (i, a) in all.iter().enumerate() {
        for b in all.iter().skip(i + 1) {
            if (0..2).any(|k| a.2.0[k] > b.2.1[k] + least || b.2.0[k] > a.2.1[k] + least) {
                continue;
            }
            let gap = web(&a.1, &b.1);
            if gap < least - NEAR && worst.as_ref().is_none_or(|w| gap < w.0) {
                let said = say!(
                    "the web between {one} and {other} is {gap}, less than 1.5 × {thickness}",
                    one = a.0.said(),
                    other = b.0.said(),
                    gap = mm(gap),
                    thickness = amount(thickness, Unit::Mm, 2),
                );
                worst = Some((gap, said));
            }
        }
    }
    worst.map(|w| w.1)
}
