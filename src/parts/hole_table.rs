//! The hole table of a plate: tag, x, y, size, thread, count, from the lower left corner of its pattern.
//!
//! Tags are a letter for each size (and thread) and a number for each hole, from left to right.

use super::flat::{FlatPattern, Hole, HoleMade, Sunk};
use serde::Serialize;

/// One hole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HoleRow {
    /// Tag, e.g. `A3`.
    pub tag: String,
    /// From the lower left corner, mm.
    pub x: f64,
    /// From the lower left corner, mm.
    pub y: f64,
    /// Diameter, mm; the tap drill when tapped.
    pub diameter: f64,
    /// Thread when tapped.
    pub thread: Option<String>,
    /// Countersink on the marked face.
    pub sunk: Option<Sunk>,
    /// How it is made.
    pub made: HoleMade,
    /// What it is for.
    pub feature: String,
}

/// All holes of one size.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HoleSize {
    /// Letter of its tags.
    pub letter: String,
    /// Diameter, mm.
    pub diameter: f64,
    /// Thread when tapped.
    pub thread: Option<String>,
    /// Countersink on the marked face.
    pub sunk: Option<Sunk>,
    /// How they are made.
    pub made: HoleMade,
    /// How many.
    pub count: usize,
}

/// Letter of a group: A, B, … Z, AA, …
fn letter(i: usize) -> String {
    let c = |n: usize| char::from(b'A' + u8::try_from(n % 26).unwrap_or(0));
    if i < 26 { c(i).to_string() } else { format!("{}{}", c(i / 26 - 1), c(i)) }
}

/// What holes that have one letter share: diameter and countersink in thousandths of a millimetre, thread.
fn size(hole: &Hole) -> (i64, Option<String>, i64) {
    let thousandths = |d: f64| (d * 1000.0).round() as i64;
    (thousandths(hole.diameter), hole.thread.clone(), hole.sunk.map_or(0, |s| thousandths(s.diameter)))
}

/// Gives every hole its tag and sorts them by it.
pub fn tag(flat: &mut FlatPattern) {
    let mut sizes: Vec<_> = flat.holes.iter().map(size).collect();
    sizes.sort();
    sizes.dedup();
    flat.holes.sort_by(|a, b| size(a).cmp(&size(b)).then(a.at[0].total_cmp(&b.at[0])).then(a.at[1].total_cmp(&b.at[1])));
    let mut count = vec![0usize; sizes.len()];
    for hole in &mut flat.holes {
        let own = size(hole);
        let Some(i) = sizes.iter().position(|s| *s == own) else { continue };
        if let Some(n) = count.get_mut(i) {
            *n += 1;
            hole.tag = format!("{}{n}", letter(i));
        }
    }
}

/// The table of a tagged pattern.
pub fn rows(flat: &FlatPattern) -> Vec<HoleRow> {
    flat.holes
        .iter()
        .map(|h| HoleRow {
            tag: h.tag.clone(),
            x: h.at[0],
            y: h.at[1],
            diameter: h.diameter,
            thread: h.thread.clone(),
            sunk: h.sunk,
            made: h.made,
            feature: h.feature.clone(),
        })
        .collect()
}

/// The sizes of a tagged pattern with their counts.
pub fn sizes(flat: &FlatPattern) -> Vec<HoleSize> {
    let mut out: Vec<HoleSize> = Vec::new();
    for h in &flat.holes {
        let letter: String = h.tag.chars().take_while(|c| c.is_ascii_alphabetic()).collect();
        match out.iter_mut().find(|s| s.letter == letter) {
            Some(s) => s.count += 1,
            None => out.push(HoleSize { letter, diameter: h.diameter, thread: h.thread.clone(), sunk: h.sunk, made: h.made, count: 1 }),
        }
    }
    out
}
