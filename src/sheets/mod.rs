//! One file a sheet: what stands on it, in real millimetres; the layout places it.
//!
//! [`plans`] asks every sheet of [`ALL`] that applies to a subject what it shows; [`lay_out`] hands the plans to the layout.
//! Sheets read model, results, findings and parts and compute nothing about the machine themselves.
//! Fixed words go through the voice of the job; texts of the spec stay as they are.

pub mod belt_path;
pub mod calculation;
pub mod changed;
pub mod comparison;
pub mod general_arrangement;
pub mod notes;
pub mod openings;
pub mod parts_list;
pub mod pit;
pub mod pit_details;
pub mod pit_loads;
pub mod pit_plan;
pub mod pit_tables;
pub mod plates;
pub mod rotating_parts;
pub mod spec_lengths;
#[cfg(test)]
mod trial;
pub mod views;

use crate::analysis::{Quantity, Results};
use crate::comparison::Comparison;
use crate::model::{Foot, openings as model_openings};
use crate::paper::drafting::{Projection, SheetStyle, Standard};
use crate::paper::layout::changes::Change;
use crate::paper::own_block::OwnBlock;
use crate::paper::sheet::{Placement, SetData, Sheet, SheetPlan, Stamp};
use crate::paper::title_block::{Revision, TitleBlock};
use crate::paper::view::{Draft, Weld};
use crate::parts::Parts;
use crate::rules::Findings;
use crate::say::{LengthUnit, Statement, Voice, number};
use crate::spec::Spec;
use crate::spec::date::Date;
use crate::spec::sheet::{Hand, Projection as AskedProjection, SheetStandard};
use crate::tables::sheets::Format;
use crate::tables::tolerances;
use crate::units::{self, Mass};
use views::mirror;

/// Everything that sheets are drawn from.
#[derive(Debug, Clone)]
pub struct Subject<'a> {
    /// The settled spec.
    pub spec: &'a Spec,
    /// The model.
    pub foot: &'a Foot,
    /// What was computed.
    pub results: &'a Results,
    /// The same as a list, each number with its name, inputs and source.
    pub quantities: &'a [Quantity],
    /// What the rules found.
    pub findings: &'a Findings,
    /// What is made and bought.
    pub parts: &'a Parts,
    /// The bend-pulley question, where it arises.
    pub comparison: Option<&'a Comparison>,
    style: SheetStyle,
    voice: Voice,
    spec_hash: String,
    own_block: Option<OwnBlock>,
}

/// A sheet of the set.
#[derive(Debug, Clone, Copy)]
pub struct SheetKind {
    /// Stable id and file stem.
    pub id: &'static str,
    /// Title, English, at most 25 characters.
    pub title: &'static str,
    /// Document type, English.
    pub document_type: &'static str,
    /// Whether the subject needs it.
    pub applies: fn(&Subject<'_>) -> bool,
    /// Its views, tables and notes.
    pub plan: fn(&Subject<'_>) -> SheetPlan,
}

/// All sheets, in the order of the set.
pub const ALL: &[SheetKind] = &[
    SheetKind { id: "ga", title: "GENERAL ARRANGEMENT", document_type: "General arrangement", applies: |_| true, plan: general_arrangement::plan },
    SheetKind { id: "parts", title: "PARTS LIST", document_type: "Parts list", applies: |_| true, plan: parts_list::plan },
    SheetKind { id: "belt", title: "BELT PATH", document_type: "Belt path", applies: |_| true, plan: belt_path::plan },
    SheetKind { id: "casing-sides", title: "CASING SIDES", document_type: "Plates", applies: |_| true, plan: plates::sides },
    SheetKind { id: "casing-ends", title: "CASING ENDS AND INLETS", document_type: "Plates", applies: |_| true, plan: plates::ends },
    SheetKind { id: "openings", title: "DOORS AND OPENINGS", document_type: "Assembly", applies: openings::applies, plan: openings::plan },
    SheetKind { id: "plates", title: "SMALL PLATES", document_type: "Plates", applies: |_| true, plan: plates::small },
    SheetKind { id: "rotating", title: "ROTATING PARTS", document_type: "Assembly", applies: |_| true, plan: rotating_parts::plan },
    SheetKind { id: "pit", title: "PIT, OUTLINE AND DETAILS", document_type: "Pit", applies: pit::applies, plan: pit::plan },
    SheetKind { id: "pit-loads", title: "PIT, LOADS AND QUANTITIES", document_type: "Pit", applies: pit::applies, plan: pit_loads::plan },
    SheetKind { id: "calc", title: "CALCULATION AND RULES", document_type: "Calculation", applies: |_| true, plan: calculation::plan },
    SheetKind { id: "compare", title: "BEND PULLEY, COMPARISON", document_type: "Comparison", applies: comparison::applies, plan: comparison::plan },
];

impl<'a> Subject<'a> {
    /// A subject with the drawing style that its spec asks for.
    pub fn new(spec: &'a Spec, foot: &'a Foot, results: &'a Results, quantities: &'a [Quantity], findings: &'a Findings, parts: &'a Parts) -> Self {
        let style = style(spec);
        let voice = spec.voice().with_tags(model_openings::tags(&foot.openings));
        Self { spec, foot, results, quantities, findings, parts, comparison: None, style, voice, spec_hash: String::new(), own_block: None }
    }

    /// The same subject with the first characters of the spec's hash, for the title block.
    pub fn with_hash(mut self, hash: impl Into<String>) -> Self {
        self.spec_hash = hash.into();
        self
    }

    /// The same subject with a title block that the user brought.
    pub fn with_own_block(mut self, block: Option<OwnBlock>) -> Self {
        self.own_block = block;
        self
    }

    /// The same subject with the bend-pulley question.
    pub fn with_comparison(mut self, comparison: Option<&'a Comparison>) -> Self {
        self.comparison = comparison;
        self
    }

    /// First characters of the spec's hash.
    pub fn spec_hash(&self) -> &str {
        &self.spec_hash
    }

    /// Units, decimal sign, projection, sheet family, language.
    pub fn style(&self) -> &SheetStyle {
        &self.style
    }

    /// Prints statements in the language, units and tags of the sheets.
    pub fn voice(&self) -> &Voice {
        &self.voice
    }

    /// A statement, or a fixed text, in the language and figures of the sheets.
    pub fn say(&self, said: impl Into<Statement>) -> String {
        self.voice.say(&said.into())
    }

    /// A statement that somebody else keeps.
    pub fn said(&self, said: &Statement) -> String {
        self.voice.say(said)
    }

    /// A length of the model in the sheet's unit.
    pub fn mm(&self, length_mm: f64) -> String {
        number::length(length_mm, &self.style)
    }

    /// The sign of the first fillet seam in the list of welds that belongs to this part or assembly: by its throat, in
    /// US jobs by its leg. `None` when there is no such seam.
    pub fn seam(&self, of: &str, tail: String) -> Option<Weld> {
        let seam = self.parts.welds.iter().find(|w| w.fillet && w.of == of)?;
        let size = seam.us_leg.map_or_else(|| format!("a{}", self.mm(seam.size)), |leg| self.mm(leg));
        Some(Weld { us: seam.us_leg.is_some(), tail, ..Weld::fillet(size) })
    }

    /// A plain number with the sheet's decimal sign.
    pub fn number(&self, value: f64, decimals: usize) -> String {
        number::decimal(value, decimals, &self.style)
    }

    /// Whether US customary units are written.
    pub fn us(&self) -> bool {
        self.style.unit != LengthUnit::Mm
    }

    /// A quantity in its base unit, written in a metric or a US unit of its table.
    pub fn amount<Q: units::Quantity>(&self, base: f64, metric: &str, us: &str, decimals: usize) -> String {
        let unit = if self.us() { us } else { metric };
        let factor = Q::UNITS.iter().find(|u| u.0 == unit).map_or(1.0, |u| u.1);
        let shown = unit.replace("m3", "m³").replace("ft3", "ft³").replace("in3", "in³").replace("m2", "m²");
        format!("{} {shown}", self.number(base / factor, decimals))
    }

    /// A mass, kg or lb, with the decimals that it deserves.
    pub fn mass(&self, kg: f64) -> String {
        self.amount::<Mass>(
            kg,
            "kg",
            "lb",
            if kg < 10.0 {
                2
            } else if kg < 1000.0 {
                1
            } else {
                0
            },
        )
    }

    /// A view of the machine, turned over when the reader wants the up side on the left.
    pub fn face(&self, draft: Draft) -> Draft {
        match self.spec.sheet.hand.value {
            Hand::Right => draft,
            Hand::Left => mirror::draft(draft),
        }
    }

    /// The place of such a view.
    pub fn place(&self, placement: Placement) -> Placement {
        match self.spec.sheet.hand.value {
            Hand::Right => placement,
            Hand::Left => mirror::placement(placement),
        }
    }

    /// General tolerances: of plate work (machined parts have the other of [`Self::machined_tolerance`]).
    pub fn tolerance(&self) -> String {
        self.general_tolerance(tolerances::US_PLATE_WORK)
    }

    /// General tolerances of a sheet of machined parts.
    pub fn machined_tolerance(&self) -> String {
        self.general_tolerance(tolerances::US_MACHINED)
    }

    fn general_tolerance(&self, us: &str) -> String {
        if self.style.standard == Standard::Ansi { us } else { tolerances::ISO_SHOP }.into()
    }
}

/// The drawing style that a spec asks for.
pub fn style(spec: &Spec) -> SheetStyle {
    let sheet = &spec.sheet;
    SheetStyle {
        figures: spec.figures(),
        projection: match sheet.projection.value {
            AskedProjection::First => Projection::First,
            AskedProjection::Third => Projection::Third,
        },
        standard: match sheet.standard.value {
            SheetStandard::Iso => Standard::Iso,
            SheetStandard::Ansi => Standard::Ansi,
        },
        size: sheet.size.value.as_deref().and_then(Format::named),
        language: sheet.language.value.word().into(),
    }
}

/// Which sheets of the set are finished and numbered together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SheetSet {
    /// All that apply.
    Whole,
    /// Those for the civil engineer.
    Civil,
}

impl SheetSet {
    /// Whether a sheet belongs to it.
    pub fn holds(self, id: &str) -> bool {
        self == Self::Whole || matches!(id, "pit" | "pit-loads" | "compare")
    }
}

/// The plans of all sheets that apply, in order.
pub fn plans(subject: &Subject<'_>) -> Vec<SheetPlan> {
    ALL.iter().filter(|k| (k.applies)(subject)).map(|k| (k.plan)(subject)).collect()
}

/// What all sheets share.
pub fn set_data(subject: &Subject<'_>) -> SetData {
    let p = &subject.spec.project;
    let day = |date: Option<Date>| date.map_or_else(|| subject.say("not given"), |d| d.to_string());
    let revisions: Vec<Revision> = subject
        .spec
        .revisions
        .iter()
        .map(|r| Revision { index: r.index.value.clone(), date: day(r.date.value), change: r.text.value.clone(), by: r.creator.value.clone() })
        .collect();
    SetData {
        title_block: TitleBlock {
            owner: p.owner.value.clone(),
            number: p.number.value.clone(),
            revision: revisions.last().map(|r| r.index.clone()).unwrap_or_default(),
            date: day(p.date.value),
            creator: p.creator.value.clone(),
            project: p.site.value.clone(),
            subject: p.title.value.clone(),
            spec_hash: subject.spec_hash.clone(),
            program: format!("footwell {}", env!("CARGO_PKG_VERSION")),
            revisions,
            own: subject.own_block.clone(),
        },
        stamp: Stamp {
            verdict: subject.findings.release().words(),
            fails: subject.findings.counts.fail,
            warned: subject.findings.counts.warn,
            noted: subject.findings.counts.note,
            failed: subject.findings.failed.iter().map(|f| (*f).to_string()).collect(),
        },
        changes: subject.spec.revisions.last().map_or_else(Vec::new, |r| {
            let paths = r.changed.value.iter().flat_map(|all| all.split(','));
            paths.map(|p| Change { path: p.trim().into(), index: r.index.value.clone() }).filter(|c| !c.path.is_empty()).collect()
        }),
    }
}

/// The planned sheets of a set, finished.
pub fn lay_out(subject: &Subject<'_>, plans: &[SheetPlan], set: SheetSet) -> Vec<Sheet> {
    let chosen: Vec<SheetPlan> = plans.iter().filter(|p| set.holds(&p.id)).cloned().collect();
    crate::paper::layout::lay_out(&chosen, &set_data(subject), subject.style())
}
