//! One file a sheet: what stands on it, in real millimetres; the layout places it.
//!
//! [`plans`] asks every sheet of [`ALL`] that applies to a subject what it shows; [`lay_out`] hands the plans to the layout.
//! Sheets read model, results, findings and parts and compute nothing about the machine themselves.
//! Fixed words go through the voice of the job; texts of the spec stay as they are.

pub mod assembly;
pub mod belt_path;
pub mod calculation;
pub mod changed;
pub mod comparison;
pub mod exploded;
pub mod general_arrangement;
pub mod hold;
pub mod notes;
pub mod openings;
pub mod parts_list;
pub mod pit;
mod pit_actions;
pub mod pit_details;
pub mod pit_loads;
pub mod pit_plan;
pub mod pit_tables;
pub mod places;
pub mod plates;
pub mod rotating_parts;
pub mod spec_lengths;
pub mod subject;
#[cfg(test)]
mod trial;
pub mod turned;
pub mod views;
pub mod welding;
pub mod words;

use crate::paper::layout::changes::Change;
use crate::paper::sheet::{SetData, Sheet, SheetPlan, Stamp};
use crate::paper::title_block::{Revision, TitleBlock};
use crate::rules::Release;
use crate::spec::date::Date;
pub use subject::{Subject, style};

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
    /// Its views, tables and notes, put on an empty sheet.
    pub plan: fn(&Subject<'_>, SheetPlan) -> SheetPlan,
}

/// All sheets, in the order of the set.
pub const ALL: &[SheetKind] = &[
    SheetKind { id: "ga", title: "GENERAL ARRANGEMENT", document_type: "General arrangement", applies: |_| true, plan: general_arrangement::plan },
    SheetKind { id: "parts", title: "PARTS LIST", document_type: "Parts list", applies: |_| true, plan: parts_list::plan },
    SheetKind { id: "exploded", title: "EXPLODED VIEWS", document_type: "Assembly", applies: |_| true, plan: exploded::plan },
    SheetKind { id: "belt", title: "BELT PATH", document_type: "Belt path", applies: |_| true, plan: belt_path::plan },
    SheetKind { id: "assembly", title: "CASING, ASSEMBLED", document_type: "Assembly", applies: |_| true, plan: assembly::plan },
    SheetKind { id: "casing-sides", title: "CASING SIDES", document_type: "Plates", applies: |_| true, plan: plates::sides },
    SheetKind { id: "casing-ends", title: "CASING ENDS AND INLETS", document_type: "Plates", applies: |_| true, plan: plates::ends },
    SheetKind { id: "welding", title: "WELDED PARTS", document_type: "Assembly", applies: welding::applies, plan: welding::plan },
    SheetKind { id: "openings", title: "DOORS AND OPENINGS", document_type: "Assembly", applies: openings::applies, plan: openings::plan },
    SheetKind { id: "plates", title: "SMALL PLATES", document_type: "Plates", applies: |_| true, plan: plates::small },
    SheetKind { id: "rotating", title: "ROTATING PARTS", document_type: "Assembly", applies: |_| true, plan: rotating_parts::plan },
    SheetKind { id: "turned", title: "TURNED PARTS", document_type: "Turned parts", applies: |_| true, plan: turned::plan },
    SheetKind { id: "pit", title: "PIT, OUTLINE AND DETAILS", document_type: "Pit", applies: pit::applies, plan: pit::plan },
    SheetKind { id: "pit-loads", title: "PIT, LOADS AND QUANTITIES", document_type: "Pit", applies: pit::applies, plan: pit_loads::plan },
    SheetKind { id: "calc", title: "CALCULATION AND RULES", document_type: "Calculation", applies: |_| true, plan: calculation::plan },
    SheetKind { id: "compare", title: "BEND PULLEY, COMPARISON", document_type: "Comparison", applies: comparison::applies, plan: comparison::plan },
];

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
    ALL.iter().filter(|k| (k.applies)(subject)).map(|k| (k.plan)(subject, SheetPlan::new(k.id, k.title, k.document_type))).collect()
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
            forbids: subject.findings.release() == Release::NotForFabrication,
            tally: subject.findings.tally(),
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
