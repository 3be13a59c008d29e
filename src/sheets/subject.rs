//! What sheets are drawn from, and how they write it.
//!
//! A [`Subject`] is a whole machine with its drawing style and its voice; every sheet and view takes one.

use super::views::mirror;
use crate::analysis::{Quantity, Results};
use crate::comparison::Comparison;
use crate::lists;
use crate::machine::Machine;
use crate::model::{Foot, openings as model_openings};
use crate::paper::drafting::{Projection, SheetStyle, Standard};
use crate::paper::own_block::OwnBlock;
use crate::paper::sheet::Placement;
use crate::paper::view::{Draft, Weld, WeldKind};
use crate::parts::{self, Parts};
use crate::rules::Findings;
use crate::say;
use crate::say::{LengthUnit, Statement, Voice, amount, mm, name, number};
use crate::spec::Spec;
use crate::spec::sheet::{Hand, Projection as AskedProjection, SheetStandard};
use crate::tables::butt_joints::Preparation;
use crate::tables::sheets::Format;
use crate::tables::tolerances;
use crate::units::{self, Mass, Unit};

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
    /// Its bodies.
    pub machine: &'a Machine,
    /// The bend-pulley question, where it arises.
    pub comparison: Option<&'a Comparison>,
    pub(super) style: SheetStyle,
    pub(super) voice: Voice,
    pub(super) spec_hash: String,
    pub(super) own_block: Option<OwnBlock>,
}

impl<'a> Subject<'a> {
    /// A subject with the drawing style that its spec asks for.
    pub fn new(
        spec: &'a Spec,
        foot: &'a Foot,
        results: &'a Results,
        quantities: &'a [Quantity],
        findings: &'a Findings,
        (parts, machine): (&'a Parts, &'a Machine),
    ) -> Self {
        let style = style(spec);
        let voice = spec.voice().with_tags(model_openings::tags(&foot.openings));
        Self { spec, foot, results, quantities, findings, parts, machine, comparison: None, style, voice, spec_hash: String::new(), own_block: None }
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

    /// The first fillet seam in the list of welds that belongs to this part or assembly. `None` when there is no such seam.
    pub fn seam(&self, of: &str) -> Option<&'a parts::Weld> {
        self.parts.welds.iter().find(|w| w.fillet && w.of == of)
    }

    /// The first fillet seam that joins this part to others.
    pub fn seam_of(&self, part: &str) -> Option<&'a parts::Weld> {
        self.parts.welds.iter().find(|w| w.fillet && w.joins.iter().flatten().any(|id| id == part))
    }

    /// The sign of a seam: a fillet by its throat, in US jobs by its leg, a butt weld by its depth; in the tail the numbers in
    /// the list of welds that it stands for.
    pub fn weld(&self, seam: &parts::Weld, numbers: &[u32]) -> Weld {
        let written = name(numbers.iter().map(u32::to_string).collect::<Vec<String>>().join(", "));
        let reference = self.say(if numbers.len() > 1 { say!("seams {numbers}", numbers = written) } else { say!("seam {number}", number = written) });
        let letter = match (self.us(), seam.fillet) {
            (true, _) => "",
            (false, true) => "a",
            (false, false) => "s",
        };
        let size = match (self.us(), seam.fillet) {
            // AWS A2.4: the size of a groove weld stands in parentheses.
            (true, false) => format!("({})", self.mm(seam.size)),
            _ => format!("{letter}{}", self.mm(seam.us_leg.unwrap_or(seam.size))),
        };
        let done = [lists::prepared(seam), seam.tight.then(|| "dust tight".into()), seam.ground.then(|| "ground flush".into())];
        Weld {
            kind: match seam.preparation {
                None => WeldKind::Fillet,
                Some(Preparation::Square { .. }) => WeldKind::SquareButt,
                Some(Preparation::Vee { .. }) => WeldKind::VButt,
            },
            us: self.us(),
            seams: numbers.to_vec(),
            reference,
            tail: self.said(&Statement::all(done.into_iter().flatten().collect())),
            ..Weld::fillet(size)
        }
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
        self.general_tolerance(say!("CUT ±{cut}, WELDED ±{welded}", cut = mm(tolerances::US_CUT_MM), welded = mm(tolerances::US_WELDED_MM)))
    }

    /// General tolerances of a sheet of machined parts.
    pub fn machined_tolerance(&self) -> String {
        let angle = amount(tolerances::US_MACHINED_DEG, Unit::Degree, 0);
        self.general_tolerance(say!("MACHINED ±{length}, ±{angle}", length = mm(tolerances::US_MACHINED_MM), angle = angle))
    }

    fn general_tolerance(&self, us: Statement) -> String {
        if self.spec.us() { self.voice.say(&us) } else { self.voice.word(tolerances::ISO_SHOP).into_owned() }
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
        language: spec.language().into(),
    }
}
