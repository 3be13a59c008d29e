//! Lists of the fabricated foot as rows of text, one function a list; the same rows go on paper and into CSV.
//!
//! Parts list after ISO 7573 (fields from memory). Item numbers, balloons and cutting files agree 1:1:
//! a cutting file's name begins with its item number. Lengths mm, masses kg.

pub mod cutting;
pub mod retold;

use crate::parts::{Kind, Part, Parts};
use crate::units::plain_number;
use std::collections::BTreeMap;

/// A list: column heads, then rows.
#[derive(Debug, Clone, PartialEq)]
pub struct List {
    /// Title.
    pub title: &'static str,
    /// Column heads.
    pub heads: Vec<&'static str>,
    /// Rows, as many cells as heads.
    pub rows: Vec<Vec<String>>,
}

/// Longest file name without its extension.
pub const NAME_LIMIT: usize = 24;

fn kg(mass: Option<f64>, decimals: usize) -> String {
    mass.map_or_else(|| "by maker".into(), |m| plain_number(m, decimals))
}

/// Name of a part's cutting file without extension: item, code, thickness, material, quantity, revision; at most 24 characters.
pub fn file_stem(part: &Part, revision: &str) -> String {
    let clean = |t: &str, n: usize| -> String { t.chars().filter(char::is_ascii_alphanumeric).take(n).collect::<String>().to_uppercase() };
    let material = part.material.strip_prefix("ASTM ").unwrap_or(&part.material);
    let full = format!("{}{}_{}_{}_{}X_{}", part.item, part.code, plain_number(part.thickness, 1), clean(material, 4), part.quantity, clean(revision, 2));
    full.chars().take(NAME_LIMIT).collect()
}

/// Parts list: item, quantity, name, made or bought, material, thickness, dimension, mass each and total, painted surface, hand, remarks.
pub fn parts_list(parts: &Parts, finer: usize) -> List {
    List {
        title: "Parts list",
        heads: vec!["item", "qty", "name", "made", "material", "thickness mm", "dimension", "kg each", "kg total", "paint m2 each", "hand", "remarks"],
        rows: parts
            .items
            .iter()
            .map(|p| {
                vec![
                    p.item.to_string(),
                    p.quantity.to_string(),
                    p.name.clone(),
                    p.kind.word().into(),
                    p.material.clone(),
                    if p.thickness > 0.0 { plain_number(p.thickness, 3 + finer) } else { "-".into() },
                    p.dimension.clone(),
                    kg(p.mass_kg, 2 + finer),
                    kg(p.total_kg(), 2 + finer),
                    plain_number(p.paint_m2, 3 + finer),
                    p.hand.word().into(),
                    p.remarks.clone(),
                ]
            })
            .collect(),
    }
}

/// Cutting manifest: one row a cutting file.
pub fn manifest(parts: &Parts) -> List {
    List {
        title: "Cutting manifest",
        heads: vec![
            "file",
            "item",
            "name",
            "width mm",
            "height mm",
            "thickness mm",
            "material",
            "qty",
            "hand",
            "kg each",
            "area mm2",
            "bends",
            "drilled holes",
            "revision",
        ],
        rows: plates(parts)
            .map(|(p, flat)| {
                let size = flat.size();
                let drilled = flat.holes.iter().filter(|h| h.made == crate::parts::flat::HoleMade::Drilled).count();
                vec![
                    format!("{}.dxf", file_stem(p, &parts.revision)),
                    p.item.to_string(),
                    p.name.clone(),
                    plain_number(size[0], 3),
                    plain_number(size[1], 3),
                    plain_number(p.thickness, 3),
                    p.material.clone(),
                    p.quantity.to_string(),
                    p.hand.word().into(),
                    p.mass_kg.map_or_else(String::new, |m| plain_number(m, 4)),
                    plain_number(flat.area(), 1),
                    flat.bends.len().to_string(),
                    drilled.to_string(),
                    parts.revision.clone(),
                ]
            })
            .collect(),
    }
}

/// Plates with their patterns.
pub fn plates(parts: &Parts) -> impl Iterator<Item = (&Part, &crate::parts::flat::FlatPattern)> {
    parts.items.iter().filter_map(|p| p.flat.as_ref().map(|f| (p, f)))
}

/// A length in whole and quarter inches: `1 3/4`.
fn quarter_inches(mm: f64) -> String {
    let quarters = (mm / crate::units::MM_PER_INCH * 4.0).round() as u32;
    match (quarters / 4, ["", "1/4", "1/2", "3/4"].get(quarters as usize % 4).copied().unwrap_or_default()) {
        (0, fraction) => fraction.to_string(),
        (whole, "") => whole.to_string(),
        (whole, fraction) => format!("{whole} {fraction}"),
    }
}

/// Fasteners, equal ones added up: bolts, nuts, washers.
pub fn fasteners(parts: &Parts) -> List {
    let mut bolts: BTreeMap<(String, bool, i64), (u32, f64)> = BTreeMap::new();
    let mut nuts: BTreeMap<String, u32> = BTreeMap::new();
    let mut washers: BTreeMap<String, u32> = BTreeMap::new();
    for j in &parts.joints {
        let entry = bolts.entry((j.thread.clone(), j.countersunk, (j.length * 100.0).round() as i64)).or_insert((0, j.length));
        entry.0 += j.quantity;
        if j.nut {
            *nuts.entry(j.thread.clone()).or_default() += j.quantity;
        }
        if !j.countersunk {
            *washers.entry(j.thread.clone()).or_default() += j.quantity * if j.nut { 2 } else { 1 };
        }
    }
    let metric = |t: &str| t.starts_with('M');
    let mut rows = Vec::new();
    for ((thread, sunk, _), (n, length)) in bolts {
        let standard = match (metric(&thread), sunk) {
            (true, true) => "ISO 10642",
            (true, false) => "ISO 4017",
            (false, true) => "ASME B18.3",
            (false, false) => "ASME B18.2.1",
        };
        let long = if metric(&thread) { plain_number(length, 0) } else { format!("{} in", quarter_inches(length)) };
        rows.push(vec![
            n.to_string(),
            if sunk { "countersunk socket screw" } else { "hexagon bolt" }.to_string(),
            format!("{thread} × {long}"),
            standard.to_string(),
            match (metric(&thread), sunk) {
                (true, _) => "8.8, zinc coated",
                (false, true) => "ASTM F835, zinc coated",
                (false, false) => "SAE J429 grade 5, zinc coated",
            }
            .to_string(),
        ]);
    }
    for (thread, n) in nuts {
        let (standard, nuts_grade) = if metric(&thread) { ("ISO 4032", "8, zinc coated") } else { ("ASME B18.2.2", "SAE J995 grade 5, zinc coated") };
        rows.push(vec![n.to_string(), "hexagon nut".into(), thread, standard.into(), nuts_grade.into()]);
    }
    for (thread, n) in washers {
        let (standard, hardness) = if metric(&thread) { ("ISO 7089", "200 HV, zinc coated") } else { ("ASME B18.22.1", "type A plain, zinc coated") };
        rows.push(vec![n.to_string(), "plain washer".into(), thread, standard.into(), hardness.into()]);
    }
    List { title: "Fasteners", heads: vec!["qty", "name", "size", "standard", "grade"], rows }
}

/// Bought parts and seals.
pub fn bought(parts: &Parts, finer: usize) -> List {
    let mut rows: Vec<Vec<String>> = parts
        .items
        .iter()
        .filter(|p| p.kind == Kind::Bought)
        .map(|p| vec![p.item.to_string(), p.quantity.to_string(), p.name.clone(), p.dimension.clone(), p.material.clone(), p.remarks.clone()])
        .collect();
    rows.extend(parts.seals.iter().map(|s| {
        vec![
            "-".into(),
            format!("{} m", plain_number(s.length / 1000.0, 2 + finer)),
            format!("seal: {}", s.what),
            s.material.clone(),
            "-".into(),
            String::new(),
        ]
    }));
    List { title: "Bought parts", heads: vec!["item", "qty", "name", "dimension", "material", "remarks"], rows }
}

/// Welds with sizes and lengths.
pub fn welds(parts: &Parts, finer: usize) -> List {
    List {
        title: "Welds",
        heads: vec!["no", "joint", "kind", "size mm", "length m", "note"],
        rows: parts
            .welds
            .iter()
            .map(|w| {
                let size = match w.us_leg {
                    Some(leg) => format!("leg {}", plain_number(leg, 4)),
                    None => format!("{} {}", if w.fillet { "a" } else { "s" }, plain_number(w.size, 1)),
                };
                vec![
                    w.number.to_string(),
                    w.what.clone(),
                    if w.fillet { "fillet" } else { "butt" }.into(),
                    size,
                    plain_number(w.length / 1000.0, 2 + finer),
                    if w.tight { "continuous, dust tight" } else { "" }.into(),
                ]
            })
            .collect(),
    }
}

/// What is lifted, welded and painted, added up.
pub fn totals(parts: &Parts, finer: usize) -> List {
    let (mass, centre) = parts.mass_and_centre();
    let bolts: f64 = parts.joints.iter().map(|j| j.mass_kg * f64::from(j.quantity)).sum();
    let unknown: u32 = parts.items.iter().filter(|p| p.mass_kg.is_none()).map(|p| p.quantity).sum();
    let fillet: f64 = parts.welds.iter().filter(|w| w.fillet).map(|w| w.length).sum();
    let butt: f64 = parts.welds.iter().filter(|w| !w.fillet).map(|w| w.length).sum();
    let paint: f64 = parts.items.iter().map(|p| p.paint_m2 * f64::from(p.quantity)).sum();
    let row = |what: &str, value: String, unit: &str| vec![what.to_string(), value, unit.to_string()];
    List {
        title: "Totals",
        heads: vec!["what", "value", "unit"],
        rows: vec![
            row("mass of parts and bolts", plain_number(mass, 1 + finer), "kg"),
            row("bolts, nuts and washers in it", plain_number(bolts, 1 + finer), "kg"),
            row("pieces whose mass only their maker knows, not in it", unknown.to_string(), "pieces"),
            row("centre of gravity, x from the foot shaft, + toward the up side", plain_number(centre[0], finer), "mm"),
            row("centre of gravity, y from mid-plane, + toward the near side", plain_number(centre[1], finer), "mm"),
            row("centre of gravity, z above the base", plain_number(centre[2], finer), "mm"),
            row("fillet welds", plain_number(fillet / 1000.0, 2 + finer), "m"),
            row("butt welds", plain_number(butt / 1000.0, 2 + finer), "m"),
            row("painted surface", plain_number(paint, 2 + finer), "m2"),
        ],
    }
}

/// All lists in metric units, rounded for reading.
pub fn all(parts: &Parts) -> Vec<List> {
    all_to(parts, 0)
}

/// All lists with so many more decimals, for who converts them and rounds then.
pub fn all_to(parts: &Parts, finer: usize) -> Vec<List> {
    vec![parts_list(parts, finer), manifest(parts), fasteners(parts), bought(parts, finer), welds(parts, finer), totals(parts, finer)]
}
