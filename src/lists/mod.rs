//! Lists of the fabricated foot as rows of typed cells, one function a list; the same rows go on paper, into CSV and JSON.
//!
//! Parts list after ISO 7573 (fields from memory). Item numbers, balloons and cutting files agree 1:1:
//! a cutting file's name begins with its item number. CSV has the language and units of the job, figures always with a
//! decimal point (they are for programs); the cutting manifest is metric in every job, as the files that it lists are.

pub mod civil;
pub mod cutting;
pub mod list;

use crate::parts::{Hand, Kind, Lay, Part, Parts, Weld};
use crate::say;
use crate::say::{Amount, Statement, amount, name, size};
use crate::tables::butt_joints::Preparation;
use crate::tables::threads;
use crate::units::{MM_PER_INCH, Unit, plain_number};
use list::unit_cell;
pub use list::{Cell, Head, List, Printed};
use std::collections::BTreeMap;

/// Longest file name without its extension.
pub const NAME_LIMIT: usize = 24;

fn kg(mass: Option<f64>, decimals: u8) -> Cell {
    mass.map_or_else(|| say!("by maker").into(), |m| amount(m, Unit::Kg, decimals).into())
}

fn hand(hand: Hand) -> Cell {
    if hand == Hand::Neutral { Cell::Dash } else { hand.word().into() }
}

fn count(n: usize) -> Cell {
    Cell::Count(u32::try_from(n).unwrap_or(u32::MAX))
}

/// Name of a part's cutting file without extension: item, code, thickness, material, quantity, revision; at most 24 characters.
/// The thickness is in mm, of US stock in thousandths of an inch: `T0188` is 3/16".
pub fn file_stem(part: &Part, parts: &Parts) -> String {
    let clean = |t: &str, n: usize| -> String { t.chars().filter(char::is_ascii_alphanumeric).take(n).collect::<String>().to_uppercase() };
    let steel = part.steel().unwrap_or_default();
    let steel = steel.strip_prefix("ASTM ").unwrap_or(steel);
    let thickness = if parts.us { format!("T{:04.0}", part.thickness / MM_PER_INCH * 1000.0 + 1e-6) } else { plain_number(part.thickness, 1) };
    let full = format!("{}{}_{thickness}_{}_{}X_{}", part.item, part.code, clean(steel, 4), part.quantity, clean(&parts.revision, 2));
    full.chars().take(NAME_LIMIT).collect()
}

/// Parts list: item, quantity, name, made or bought, material, thickness, dimension, mass each and total, painted surface, hand, remarks.
pub fn parts_list(parts: &Parts) -> List {
    List {
        id: "parts_list",
        title: say!("PARTS LIST"),
        heads: vec![
            Head::words("item"),
            Head::words("qty"),
            Head::words("name"),
            Head::words("made"),
            Head::words("material"),
            thickness_head(),
            Head::words("dimension"),
            Head::new("kg each", say!("{unit} each", unit = Unit::Kg)),
            Head::new("kg total", say!("{unit} total", unit = Unit::Kg)),
            Head::new("paint m2 each", say!("paint {unit} each", unit = Unit::M2)),
            Head::words("hand"),
            Head::words("remarks"),
        ],
        rows: parts
            .items
            .iter()
            .map(|p| {
                vec![
                    p.item.into(),
                    p.quantity.into(),
                    p.name.clone().into(),
                    p.kind.word().into(),
                    p.material.clone().into(),
                    if p.thickness > 0.0 { amount(p.thickness, Unit::Mm, 3).into() } else { Cell::Dash },
                    p.dimension.clone().into(),
                    kg(p.mass_kg, 2),
                    kg(p.total_kg(), 2),
                    amount(p.paint_m2, Unit::M2, 3).into(),
                    hand(p.hand),
                    p.remarks.clone().into(),
                ]
            })
            .collect(),
        metric: false,
    }
}

fn thickness_head() -> Head {
    Head::new("thickness mm", say!("thickness {unit}", unit = Unit::Mm))
}

/// Cutting manifest: one row a cutting file.
pub fn manifest(parts: &Parts) -> List {
    List {
        id: "cutting_manifest",
        title: say!("CUTTING MANIFEST"),
        heads: vec![
            Head::words("file"),
            Head::words("item"),
            Head::words("name"),
            Head::new("width mm", say!("width {unit}", unit = Unit::Mm)),
            Head::new("height mm", say!("height {unit}", unit = Unit::Mm)),
            thickness_head(),
            Head::words("material"),
            Head::words("qty"),
            Head::words("hand"),
            Head::new("kg each", say!("{unit} each", unit = Unit::Kg)),
            Head::new("area mm2", say!("area {unit}", unit = Unit::Mm2)),
            Head::words("bends"),
            Head::words("drilled holes"),
            Head::words("revision"),
        ],
        rows: plates(parts)
            .map(|(p, flat)| {
                let [width, height] = flat.size();
                let drilled = flat.holes.iter().filter(|h| h.made == crate::parts::flat::HoleMade::Drilled).count();
                vec![
                    Cell::Name(format!("{}.dxf", file_stem(p, parts))),
                    p.item.into(),
                    p.name.clone().into(),
                    amount(width, Unit::Mm, 3).into(),
                    amount(height, Unit::Mm, 3).into(),
                    amount(p.thickness, Unit::Mm, 3).into(),
                    p.material.clone().into(),
                    p.quantity.into(),
                    hand(p.hand),
                    p.mass_kg.map_or(Cell::Blank, |m| amount(m, Unit::Kg, 4).into()),
                    amount(flat.area(), Unit::Mm2, 1).into(),
                    count(flat.bends.len()),
                    count(drilled),
                    Cell::Name(parts.revision.clone()),
                ]
            })
            .collect(),
        metric: true,
    }
}

/// Plates with their patterns.
pub fn plates(parts: &Parts) -> impl Iterator<Item = (&Part, &crate::parts::flat::FlatPattern)> {
    parts.items.iter().filter_map(|p| p.flat.as_ref().map(|f| (p, f)))
}

/// A bolt's length in whole inches and eighths: `1 3/4`.
fn eighths(mm: f64) -> String {
    const PARTS: [&str; 8] = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];
    let eighths = (mm / MM_PER_INCH * 8.0).round() as u32;
    match (eighths / 8, PARTS.get(eighths as usize % 8).copied().unwrap_or_default()) {
        (0, fraction) => fraction.to_string(),
        (whole, "") => whole.to_string(),
        (whole, fraction) => format!("{whole} {fraction}"),
    }
}

/// Bolts alike: how many, their length in mm, how many go where.
type Alike = (u32, f64, Vec<Statement>);

/// Fasteners, equal ones added up: bolts with what they hold, nuts, washers.
pub fn fasteners(parts: &Parts) -> List {
    let mut bolts: BTreeMap<(String, bool, i64), Alike> = BTreeMap::new();
    let mut nuts: BTreeMap<(bool, String), u32> = BTreeMap::new();
    let mut washers: BTreeMap<String, u32> = BTreeMap::new();
    for j in &parts.joints {
        let entry = bolts.entry((j.thread.clone(), j.countersunk, (j.length * 100.0).round() as i64)).or_insert((0, j.length, Vec::new()));
        entry.0 += j.quantity;
        entry.2.push(say!("{count} {what}", count = j.quantity, what = j.what.clone()));
        if j.nut {
            *nuts.entry((j.welded, j.thread.clone())).or_default() += j.quantity;
        }
        if j.washers() > 0 {
            *washers.entry(j.thread.clone()).or_default() += j.quantity * j.washers();
        }
    }
    let metric = |t: &str| t.starts_with('M');
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    for ((thread, sunk, _), (n, length, places)) in bolts {
        let (standard, grade) = match (metric(&thread), sunk) {
            (true, true) => ("ISO 14581", "4.8"),
            (true, false) => ("ISO 4017", "8.8"),
            (false, true) => ("ASME B18.6.3", "SAE J82 grade 60M"),
            (false, false) => ("ASME B18.2.1", "SAE J429 grade 5"),
        };
        // A designation: the length of a metric bolt is in mm, that of an inch bolt in inches, on every sheet.
        let long = if metric(&thread) { plain_number(length, 0) } else { format!("{} in", eighths(length)) };
        let what = if sunk { "countersunk screw with hexalobular socket" } else { "hexagon bolt" };
        let thread = threads::find(&thread).map_or(thread, threads::Thread::of_bolt);
        rows.push(vec![
            n.into(),
            what.into(),
            Cell::Name(format!("{thread} × {long}")),
            Cell::Name(standard.into()),
            coated(grade),
            Statement::all(places).into(),
        ]);
    }
    for ((welded, thread), n) in nuts {
        let what = if welded { "hexagon weld nut" } else { "hexagon nut" };
        let (standard, grade) = match (metric(&thread), welded) {
            (true, true) => ("DIN 929", say!("weldable steel, uncoated").into()),
            (false, true) => ("-", say!("weldable steel, uncoated").into()),
            (true, false) => ("ISO 4032", coated("8")),
            (false, false) => ("ASME B18.2.2", coated("SAE J995 grade 5")),
        };
        rows.push(vec![n.into(), what.into(), Cell::Name(threads::tapped(&thread)), Cell::Name(standard.into()), grade, "".into()]);
    }
    for (thread, n) in washers {
        let (standard, grade) = if metric(&thread) { ("ISO 7089", coated("200 HV")) } else { ("ASME B18.22.1", say!("type A plain, zinc coated").into()) };
        // An inch washer is called by the size of its bolt, without the threads an inch.
        let size = if metric(&thread) { thread } else { thread.rsplit_once('-').map_or(thread.clone(), |(size, _)| format!("{size} in")) };
        rows.push(vec![n.into(), "plain washer".into(), Cell::Name(size), Cell::Name(standard.into()), grade, "".into()]);
    }
    let heads = ["qty", "name", "size", "standard", "grade", "joint"].map(Head::words).to_vec();
    List { id: "fasteners", title: say!("FASTENERS"), heads, rows, metric: false }
}

/// A grade by its standard, zinc coated.
fn coated(grade: &str) -> Cell {
    say!("{grade}, zinc coated", grade = name(grade)).into()
}

/// Bought parts and seals.
pub fn bought(parts: &Parts) -> List {
    let mut rows: Vec<Vec<Cell>> = parts
        .items
        .iter()
        .filter(|p| p.kind == Kind::Bought)
        .map(|p| vec![p.item.into(), p.quantity.into(), p.name.clone().into(), p.dimension.clone().into(), p.material.clone().into(), p.remarks.clone().into()])
        .collect();
    rows.extend(parts.seals.iter().map(|s| {
        vec![
            Cell::Dash,
            say!("{length}", length = metres(s.length, 2)).into(),
            say!("seal: {place}", place = s.what.clone()).into(),
            s.material.clone().into(),
            Cell::Dash,
            Cell::Blank,
        ]
    }));
    let heads = ["item", "qty", "name", "dimension", "material", "remarks"].map(Head::words).to_vec();
    List { id: "bought_parts", title: say!("BOUGHT PARTS"), heads, rows, metric: false }
}

fn metres(length_mm: f64, decimals: u8) -> Amount {
    amount(length_mm / 1000.0, Unit::M, decimals)
}

/// Welds with sizes and lengths: a throat, s depth of a butt weld; in US jobs the leg of a fillet, E size of a groove weld (AWS A2.4).
pub fn welds(parts: &Parts) -> List {
    List {
        id: "welds",
        title: say!("WELDS"),
        heads: vec![
            Head::new("no", say!("No.")),
            Head::words("joint"),
            Head::words("kind"),
            Head::new("size mm", say!("size {unit}", unit = Unit::Mm)).over_inches("size"),
            Head::new("length m", say!("length {unit}", unit = Unit::M)).over_feet("length"),
            Head::words("note"),
        ],
        rows: parts
            .welds
            .iter()
            .map(|w| {
                let size: Statement = match w.us_leg {
                    Some(leg) => say!("leg {size}", size = size(leg, 4)),
                    None if w.fillet => say!("a {size}", size = size(w.size, 1)),
                    None if parts.us => say!("E {size}", size = size(w.size, 4)),
                    None => say!("s {size}", size = size(w.size, 1)),
                };
                vec![w.number.into(), w.what.clone().into(), kind(w).into(), size.into(), metres(w.length, 2).into(), laid(w).into()]
            })
            .collect(),
        metric: false,
    }
}

/// The kind of a seam.
const fn kind(w: &Weld) -> &'static str {
    match w.preparation {
        None => "fillet",
        Some(Preparation::Square { .. }) => "square butt",
        Some(Preparation::Vee { .. }) => "V butt",
    }
}

/// How the edges of a butt weld are prepared and its root closed, in words; nothing of a fillet.
pub fn prepared(w: &Weld) -> Option<Statement> {
    Some(match w.preparation? {
        Preparation::Square { gap } => say!("root gap 0 to {gap}, back gouged", gap = size(gap, 4)),
        Preparation::Vee { angle_deg, root_face, gap } => say!(
            "{angle}, root face {face}, root gap 0 to {gap}, back gouged",
            angle = amount(angle_deg, Unit::Degree, 0),
            face = size(root_face, 4),
            gap = size(gap, 4)
        ),
    })
}

/// How a seam is laid, in words.
fn laid(w: &Weld) -> Statement {
    let staggered = match w.lay {
        Lay::Staggered { bead, gap } => Some(say!("both sides staggered, beads of {bead} with {gap} between them", bead = size(bead, 2), gap = size(gap, 2))),
        _ if w.both_sides() => Some("both sides".into()),
        _ if w.all_round() => Some("all round".into()),
        _ => None,
    };
    let runs = Some(w.runs()).filter(|runs| *runs > 1).map(|runs| say!("in {runs} runs", runs = crate::say::count(runs)));
    let all: Vec<Statement> = [prepared(w), w.tight.then(|| "continuous, dust tight".into()), staggered, runs].into_iter().flatten().collect();
    if all.is_empty() { Statement::default() } else { Statement::all(all) }
}

/// What is lifted, welded and painted, added up.
pub fn totals(parts: &Parts) -> List {
    let (mass, centre) = parts.mass_and_centre();
    let bolts: f64 = parts.joints.iter().map(|j| j.mass_kg * f64::from(j.quantity)).sum();
    let unknown: u32 = parts.items.iter().filter(|p| p.mass_kg.is_none()).map(|p| p.quantity).sum();
    let fillet: f64 = parts.welds.iter().filter(|w| w.fillet).map(|w| w.length).sum();
    let butt: f64 = parts.welds.iter().filter(|w| !w.fillet).map(|w| w.length).sum();
    let paint: f64 = parts.items.iter().map(|p| p.paint_m2 * f64::from(p.quantity)).sum();
    let row = |what: &'static str, value: Amount| vec![what.into(), value.into(), unit_cell(value.unit)];
    let kg = |kg: f64| amount(kg, Unit::Kg, 1);
    let at = |mm: f64| amount(mm, Unit::Mm, 0);
    List {
        id: "totals",
        title: say!("TOTALS"),
        heads: ["what", "value", "unit"].map(Head::words).to_vec(),
        rows: vec![
            row("mass of parts and bolts", kg(mass)),
            row("bolts, nuts and washers in it", kg(bolts)),
            vec!["pieces whose mass only their maker knows, not in it".into(), unknown.into(), "pieces".into()],
            row("centre of gravity, x from the foot shaft, + toward the up side", at(centre[0])),
            row("centre of gravity, y from mid-plane, + toward the near side", at(centre[1])),
            row("centre of gravity, z above the base", at(centre[2])),
            row("fillet welds", metres(fillet, 2)),
            row("butt welds", metres(butt, 2)),
            row("painted surface", amount(paint, Unit::M2, 2)),
        ],
        metric: false,
    }
}

/// All lists.
pub fn all(parts: &Parts) -> Vec<List> {
    vec![parts_list(parts), manifest(parts), fasteners(parts), bought(parts), welds(parts), totals(parts)]
}
