//! The title block after ISO 7200 (fields and lengths read), in a layout of our own: 180 mm wide, bottom right.
//!
//! Beside the standard's fields it carries scale, projection sign, unit, tolerances, material, mass, finish,
//! spec hash, program, the rule stamp, a scale bar and the revision rows.
//! The approval field is never filled: a person approves.

use super::drafting::{Lettering, SheetStyle};
use super::lettering::{width, wrap};
use super::mark::{Align, Group, Mark, PaperPoint};
use super::own_block::OwnBlock;
use super::pencil;
use super::projection_sign;
use super::style::{Face, Pen};
use crate::say::{LengthUnit, Statement, Voice};
use crate::tables::sheets::TITLE_BLOCK_WIDTH;
use std::borrow::Cow;
use std::collections::BTreeMap;

/// A row of the revision table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Revision {
    /// Index, e.g. `A`.
    pub index: String,
    /// Date as the spec gives it.
    pub date: String,
    /// What was changed.
    pub change: String,
    /// Who changed it.
    pub by: String,
}

/// Outcome of the rules, as stamped on every sheet. What passes is not counted: a rule more would change every sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stamp {
    /// What may be done with the sheets, in English; the same words as everywhere else.
    pub verdict: &'static str,
    /// Whether the verdict forbids something: it is written larger.
    pub forbids: bool,
    /// How many findings of each kind, and of which rules.
    pub tally: Statement,
}

/// The fields that all sheets of a set share.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TitleBlock {
    /// Legal owner.
    pub owner: String,
    /// Identification number, at most 16 characters.
    pub number: String,
    /// Revision index.
    pub revision: String,
    /// Date of issue, from the spec.
    pub date: String,
    /// Who made it.
    pub creator: String,
    /// Project or plant.
    pub project: String,
    /// What the set is about, e.g. `Bucket elevator foot`.
    pub subject: String,
    /// Hash of the spec, short.
    pub spec_hash: String,
    /// Program and version.
    pub program: String,
    /// Revision rows, oldest first.
    pub revisions: Vec<Revision>,
    /// A block that the user brought; it takes the place of the rows of fields.
    pub own: Option<OwnBlock>,
}

/// The fields of one sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetFields {
    /// Title as drawn.
    pub title: String,
    /// Document type as drawn.
    pub document_type: String,
    /// Main scale as written.
    pub scale_text: String,
    /// Real mm per paper mm of the main scale, for the scale bar; `None` when the sheet has no main scale.
    pub scale: Option<f64>,
    /// Sheet size name.
    pub size: &'static str,
    /// Sheet n of m.
    pub page: (usize, usize),
    /// Material.
    pub material: String,
    /// Mass as written.
    pub mass: String,
    /// Surface finish.
    pub finish: String,
    /// General tolerances.
    pub tolerance: String,
}

/// Width of the title block, mm.
pub const WIDTH: f64 = TITLE_BLOCK_WIDTH;
/// Heights of the five rows of fields, bottom up, mm.
const ROWS: [f64; 5] = [12.0, 13.5, 8.2, 8.2, 8.2];
/// Height of the row with stamp and scale bar, mm.
const STAMP_ROW: f64 = 16.0;
/// Height of a revision row, mm.
const REVISION_ROW: f64 = 5.0;
/// Newest revisions shown.
const REVISIONS: usize = 4;

/// Height of the whole block, mm.
pub fn height(block: &TitleBlock, stamp: &Stamp, voice: &Voice) -> f64 {
    let revisions = block.revisions.len().min(REVISIONS);
    block.own.as_ref().map_or(ROWS.iter().sum::<f64>(), |own| own.height)
        + stamp_row(stamp, voice)
        + if revisions > 0 { (revisions + 1) as f64 * REVISION_ROW } else { 0.0 }
}

/// Width of the stamp; the scale bar stands beside it, mm.
const STAMP: f64 = 118.0;
/// Lettering and line pitch of the stamp's small print, mm.
const SMALL: (f64, f64) = (2.5, 4.2);

/// Head line and small print of the stamp: verdict, then counts with the ids of rules.
fn stamp_words(stamp: &Stamp, voice: &Voice) -> (String, Vec<String>) {
    (voice.word(stamp.verdict).into(), wrap(&voice.say(&stamp.tally), SMALL.0, Face::Regular, STAMP - 9.0))
}

/// Height of the row with stamp and scale bar: every rule is named in full, however many there are, mm.
fn stamp_row(stamp: &Stamp, voice: &Voice) -> f64 {
    let (_, lines) = stamp_words(stamp, voice);
    STAMP_ROW + (lines.len().saturating_sub(1)) as f64 * SMALL.1
}

/// Draws the block with its lower left corner at a point.
pub fn draw(PaperPoint { x, y }: PaperPoint, block: &TitleBlock, sheet: &SheetFields, stamp: &Stamp, style: &SheetStyle, voice: &Voice, l: &Lettering) -> Mark {
    let mut d = Drawer { marks: Vec::new(), x, y, voice, caption: l.caption };
    match &block.own {
        Some(own) => {
            d.marks.extend(own.draw(x + WIDTH - own.width, y, &values(block, sheet, style), style.projection));
            d.y += own.height;
            d.rule(0.0, d.y, WIDTH, d.y);
        }
        None => rows_of_fields(&mut d, block, sheet, style, l),
    }
    d.stamp(stamp, sheet, style);
    d.revisions(&block.revisions);
    let top = d.y;
    let mut marks = d.marks;
    let left = block.own.as_ref().map_or(y, |own| if own.width < WIDTH - 0.01 { y + own.height } else { y });
    marks.push(pencil::chain(Pen::Frame, &[PaperPoint::new(x, left), PaperPoint::new(x, top), PaperPoint::new(x + WIDTH, top)]));
    Mark::Group(Group { id: "title-block".into(), marks })
}

/// What replaces the names in a block that the user brought.
fn values(block: &TitleBlock, sheet: &SheetFields, style: &SheetStyle) -> BTreeMap<&'static str, String> {
    BTreeMap::from([
        ("OWNER", block.owner.clone()),
        ("NUMBER", block.number.clone()),
        ("REV", block.revision.clone()),
        ("SHEET", sheet.page.0.to_string()),
        ("SHEETS", sheet.page.1.to_string()),
        ("LANGUAGE", style.language.clone()),
        ("TITLE", sheet.title.clone()),
        ("SUBJECT", block.subject.clone()),
        ("TYPE", sheet.document_type.clone()),
        ("CREATOR", block.creator.clone()),
        ("DATE", block.date.clone()),
        ("PROJECT", block.project.clone()),
        ("SCALE", sheet.scale_text.clone()),
        ("SIZE", sheet.size.trim_start_matches("ANSI ").into()),
        ("UNIT", unit_word(style).into()),
        ("TOLERANCES", sheet.tolerance.clone()),
        ("MATERIAL", sheet.material.clone()),
        ("FINISH", sheet.finish.clone()),
        ("MASS", sheet.mass.clone()),
        ("HASH", block.spec_hash.clone()),
        ("PROGRAM", block.program.clone()),
    ])
}

fn unit_word(style: &SheetStyle) -> &'static str {
    match style.unit {
        LengthUnit::Mm => "mm",
        LengthUnit::InchDecimal => "inch",
        LengthUnit::InchFraction => "ft-in",
    }
}

/// The five rows of fields of our own block.
fn rows_of_fields(d: &mut Drawer<'_>, block: &TitleBlock, sheet: &SheetFields, style: &SheetStyle, l: &Lettering) {
    let x = d.x;
    let page = format!("{} / {}", sheet.page.0, sheet.page.1);
    let [r1, r2, r3, r4, r5] = ROWS;
    d.row(
        r1,
        &[
            ("Drawing number", 92.0, &block.number, l.number),
            ("Rev.", 20.0, &block.revision, 3.5),
            ("Sheet", 34.0, &page, 3.5),
            ("Language", 34.0, &style.language, 2.5),
        ],
    );
    d.title_row(r2, &block.owner, &block.subject, &sheet.title);
    d.row(
        r3,
        &[
            ("Created by", 40.0, &block.creator, 2.5),
            ("Approved by", 40.0, "", 2.5),
            ("Date of issue", 30.0, &block.date, 2.5),
            ("Project", 70.0, &block.project, 2.5),
        ],
    );
    let (px, py) = (x + 36.0, d.y);
    d.row(
        r4,
        &[
            ("Scale", 36.0, &sheet.scale_text, 3.5),
            ("Projection", 24.0, "", 2.5),
            ("Size", 18.0, sheet.size.trim_start_matches("ANSI "), 2.5),
            ("Document type", 42.0, &sheet.document_type, 2.5),
            ("Spec hash", 28.0, &block.spec_hash, 2.5),
            ("Program", 32.0, &block.program, 2.5),
        ],
    );
    projection_sign::cone(px + 12.5, py + 2.7, style.projection, &mut d.marks);
    d.row(
        r5,
        &[
            ("General tolerances", 48.0, &sheet.tolerance, 2.5),
            ("Material", 32.0, &sheet.material, 2.5),
            ("Finish", 62.0, &sheet.finish, 2.5),
            ("Mass", 22.0, &sheet.mass, 2.5),
            ("Unit", 16.0, unit_word(style), 2.5),
        ],
    );
}

struct Drawer<'a> {
    marks: Vec<Mark>,
    x: f64,
    y: f64,
    voice: &'a Voice,
    caption: f64,
}

/// Makes a text fit: smaller standard heights first, then cut with an ellipsis.
fn fit(text: &str, room: f64, wanted: f64, face: Face) -> (String, f64) {
    for h in [wanted, 5.0, 3.5, 2.5, 1.8] {
        if h <= wanted && width(text, h, face) <= room {
            return (text.to_string(), h);
        }
    }
    let mut cut = text.to_string();
    while !cut.is_empty() && width(&format!("{cut}…"), 1.8, face) > room {
        cut.pop();
    }
    (format!("{}…", cut.trim_end()), 1.8)
}

impl Drawer<'_> {
    fn rule(&mut self, x0: f64, y0: f64, x1: f64, y1: f64) {
        self.marks.push(pencil::line(Pen::Table, PaperPoint::new(self.x + x0, y0), PaperPoint::new(self.x + x1, y1)));
    }

    fn caption(&mut self, x: f64, top: f64, words: &'static str, room: f64) {
        let (t, h) = fit(&self.voice.word(words), room, self.caption, Face::Regular);
        self.marks.push(pencil::text(Pen::Table, t, PaperPoint::new(self.x + x + 1.2, top - 1.0 - h), h, Align::Left));
    }

    fn row(&mut self, height: f64, cells: &[(&'static str, f64, &str, f64)]) {
        let top = self.y + height;
        let mut x = 0.0;
        for (caption, wide, value, h) in cells {
            self.caption(x, top, caption, wide - 2.0);
            if !value.is_empty() {
                let face = if *h >= 3.5 { Face::Bold } else { Face::Regular };
                let (t, h) = fit(value, wide - 2.4, *h, face);
                let at = PaperPoint::new(self.x + x + 1.2, self.y + 1.4);
                self.marks.push(if face == Face::Bold {
                    pencil::bold(Pen::Table, t, at, h, Align::Left)
                } else {
                    pencil::text(Pen::Table, t, at, h, Align::Left)
                });
            }
            x += wide;
            if x < WIDTH - 1e-6 {
                self.rule(x, self.y, x, top);
            }
        }
        self.rule(0.0, top, WIDTH, top);
        self.y = top;
    }

    fn title_row(&mut self, height: f64, owner: &str, subject: &str, title: &str) {
        let top = self.y + height;
        let left = 66.0;
        self.caption(0.0, top, "Owner", left - 2.0);
        let lines = wrap(owner, 3.5, Face::Bold, left - 2.4);
        if lines.len() == 1 {
            self.marks.push(pencil::bold(Pen::Table, owner, PaperPoint::new(self.x + 1.2, self.y + 4.0), 3.5, Align::Left));
        } else {
            for (i, t) in wrap(owner, 2.5, Face::Bold, left - 2.4).into_iter().take(2).enumerate() {
                self.marks.push(pencil::bold(Pen::Table, t, PaperPoint::new(self.x + 1.2, self.y + 5.9 - 4.3 * i as f64), 2.5, Align::Left));
            }
        }
        self.rule(left, self.y, left, top);
        self.caption(left, top, "Title", 20.0);
        let room = WIDTH - left - 2.4;
        let (t, h) = fit(title, room, 5.0, Face::Bold);
        self.marks.push(pencil::bold(Pen::Table, t, PaperPoint::new(self.x + left + 1.2, self.y + 1.7), h, Align::Left));
        let (t, h) = fit(subject, room - 12.0, 2.5, Face::Regular);
        if !subject.is_empty() {
            self.marks.push(pencil::text(Pen::Table, t, PaperPoint::new(self.x + left + 13.0, self.y + height - 4.6), h, Align::Left));
        }
        self.rule(0.0, top, WIDTH, top);
        self.y = top;
    }

    /// The outcome of the rules at the left, the scale bar at the right.
    fn stamp(&mut self, stamp: &Stamp, sheet: &SheetFields, style: &SheetStyle) {
        let (head, lines) = stamp_words(stamp, self.voice);
        let (x, y) = (self.x, self.y);
        let top = y + stamp_row(stamp, self.voice);
        let largest = if stamp.forbids { 5.0 } else { 3.5 };
        let (t, h) = fit(&head, STAMP - 8.0, largest, Face::Bold);
        self.marks.push(pencil::bold(Pen::Stamp, t, PaperPoint::new(x + 4.0, top - 2.6 - h), h, Align::Left));
        let count = lines.len();
        for (i, t) in lines.into_iter().enumerate() {
            let base = 3.2 + SMALL.1 * (count - 1 - i) as f64;
            self.marks.push(pencil::text(Pen::Stamp, t, PaperPoint::new(x + 4.0, y + base), SMALL.0, Align::Left));
        }
        self.marks.push(pencil::rectangle(Pen::Stamp, x + 1.5, y + 1.2, x + STAMP - 1.5, top - 1.2));
        self.rule(STAMP, y, STAMP, top);
        if let Some(scale) = sheet.scale {
            scale_bar(x + STAMP + 5.0, y + 7.5, WIDTH - STAMP - 16.0, scale, style, &mut self.marks);
        }
        self.rule(0.0, top, WIDTH, top);
        self.y = top;
    }

    /// Newest revisions, the newest uppermost; headings at the bottom, as the table grows upward.
    fn revisions(&mut self, revisions: &[Revision]) {
        let shown: Vec<&Revision> = revisions.iter().skip(revisions.len().saturating_sub(REVISIONS)).collect();
        if shown.is_empty() {
            return;
        }
        let columns = [("Rev.", 14.0), ("Date", 26.0), ("Change", 110.0), ("By", 30.0)];
        let head = columns.map(|c| self.voice.word(c.0));
        let y0 = self.y;
        let rows = shown.iter().map(|r| [&r.index, &r.date, &r.change, &r.by].map(|cell| Cow::Borrowed(cell.as_str())));
        for (k, cells) in std::iter::once(head).chain(rows).enumerate() {
            let mut x = 0.0;
            for (cell, (_, wide)) in cells.iter().zip(columns) {
                if !cell.is_empty() {
                    let (t, h) = fit(cell, wide - 2.4, if k == 0 { 1.8 } else { 2.5 }, Face::Regular);
                    self.marks.push(pencil::text(Pen::Table, t, PaperPoint::new(self.x + x + 1.2, self.y + (REVISION_ROW - h) / 2.0), h, Align::Left));
                }
                x += wide;
            }
            self.y += REVISION_ROW;
            self.rule(0.0, self.y, WIDTH, self.y);
        }
        let mut x = 0.0;
        for (_, wide) in columns.iter().take(3) {
            x += wide;
            self.rule(x, y0, x, self.y);
        }
    }
}

/// A scale bar in round lengths.
fn scale_bar(x: f64, y: f64, room: f64, scale: f64, style: &SheetStyle, marks: &mut Vec<Mark>) {
    let (unit_mm, unit, steps): (f64, &str, &[f64]) = match style.unit {
        LengthUnit::Mm => (1.0, "mm", &[1.0, 2.0, 4.0, 8.0]),
        _ if room * scale < 304.8 => (25.4, "in", &[1.0, 2.0, 4.0, 8.0]),
        _ => (304.8, "ft", &[1.0, 2.0, 4.0, 8.0]),
    };
    // The longest of 1, 2, 4, 8 × 10ⁿ that fits; cut into four.
    let most = room * scale / unit_mm;
    let decade = 10_f64.powf(most.log10().floor());
    let total = steps.iter().map(|s| s * decade).filter(|t| *t <= most).fold(decade.min(most), f64::max);
    let length = total * unit_mm / scale;
    let p = PaperPoint::new;
    let (quarter, h) = (length / 4.0, 1.5);
    for i in 0..4 {
        let x0 = x + f64::from(i) * quarter;
        marks.push(pencil::rectangle(Pen::Symbol, x0, y, x0 + quarter, y + h));
        if i % 2 == 0 {
            marks.push(pencil::solid(Pen::Symbol, &[p(x0, y), p(x0 + quarter, y), p(x0 + quarter, y + h), p(x0, y + h)]));
        }
    }
    let number = |v: f64| crate::units::plain_number(v, 2);
    for (share, words) in [(0.0, "0".to_string()), (0.5, number(total / 2.0)), (1.0, format!("{} {unit}", number(total)))] {
        marks.push(pencil::text(Pen::Symbol, words, p(x + share * length, y + h + 1.2), 2.5, Align::Centre));
    }
}
