//! One spec on its way through the program: every stage by its name, in its order, each thing made at most once.
//!
//! ```text
//! text → load → settle → build_model → build_parts → analyse → check → comparison → lay_out → export → files
//!        Asked  Spec     Foot          Parts         Results   Findings Comparison   Sheets    bytes
//! ```
//!
//! In: the text of a spec. Out: a [`Job`], or all messages of the stages that could run. What the spec can make
//! impossible is done at once; everything else is made when it is first asked for, and kept. This is the only
//! place that calls the stages; it touches no disk and no terminal.

use crate::analysis::{Quantity, Results, analyse};
use crate::comparison::{Comparison, Question, Variant};
use crate::diagnostics::{Code, Diagnostic, Diagnostics, Label};
use crate::export::{self, File};
use crate::files::{self, Files, Wish};
use crate::machine::removal::{Step, steps};
use crate::machine::service::{Way, ways};
use crate::machine::{self, Machine};
use crate::model::openings::tags;
use crate::model::{Foot, build_model};
use crate::paper::font;
use crate::paper::own_block::OwnBlock;
use crate::paper::sheet::{Sheet, SheetPlan};
use crate::parts::{Parts, build_parts};
use crate::proofs::held::{Loose, loose};
use crate::proofs::overlaps::{Overlap, overlaps};
use crate::proofs::removal::{InTheWay, in_the_way};
use crate::proofs::tools::{Unreached, unreached};
use crate::proofs::torch::{Covered, covered};
use crate::proofs::travel::{Gap, gaps};
use crate::report::Report;
use crate::rules::{self, Findings, Verdict, Verdicts, check, judge};
use crate::say::Voice;
use crate::settle::settle;
use crate::sheets::{self, SheetSet, Subject};
use crate::solid::within::Bounds;
use crate::spec::reader::{Origin, SettledLine};
use crate::spec::{AskedSpec, Spec, load};
use glam::DVec3;
use sha2::{Digest, Sha256};
use std::sync::OnceLock;

/// A machine that can be built from a spec, and what the later stages make of it.
#[derive(Debug, Clone)]
pub struct Job {
    text: String,
    asked: AskedSpec,
    spec: Spec,
    foot: Foot,
    /// What `load`, `settle` and `build_model` say.
    problems: Diagnostics,
    results: OnceLock<Results>,
    quantities: OnceLock<Vec<Quantity>>,
    made: OnceLock<Parts>,
    parts: OnceLock<Parts>,
    machine: OnceLock<Machine>,
    findings: OnceLock<Findings>,
    comparison: OnceLock<Result<Option<Comparison>, Diagnostics>>,
    plans: OnceLock<Vec<SheetPlan>>,
    warnings: OnceLock<Diagnostics>,
}

/// What becomes of a spec that settles with errors.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Contradictions {
    Refused,
    PassedOver,
}

impl Job {
    /// Takes the text of a spec through load, settle and model: the front door.
    ///
    /// # Errors
    /// All messages of the spec at once. What is missing is only reported when the text is TOML at all.
    pub fn of(text: &str) -> Result<Self, Diagnostics> {
        let (asked, problems) = load(text);
        if problems.items.iter().any(|d| d.code == Code::Syntax) {
            return Err(problems);
        }
        match Self::build(text, asked, problems, Contradictions::Refused) {
            Ok(mut job) => {
                place_all(&mut job.problems, text, &job.asked);
                Ok(job)
            }
            Err(mut problems) => {
                place_all(&mut problems, text, &load(text).0);
                Err(problems)
            }
        }
    }

    /// The same for a machine that settling objects to, for who wants to know what later stages say of it all the
    /// same: rules are tried on deliberately bad values. Not for drawing; where something is missing a stand-in is built.
    ///
    /// # Errors
    /// A text that cannot be read as a spec, or a machine that cannot be built.
    pub fn of_contradicting(text: &str) -> Result<Self, Diagnostics> {
        let (asked, problems) = load(text);
        if problems.has_errors() {
            return Err(problems);
        }
        Self::build(text, asked, problems, Contradictions::PassedOver)
    }

    fn build(text: &str, asked: AskedSpec, mut problems: Diagnostics, contradictions: Contradictions) -> Result<Self, Diagnostics> {
        let (spec, more) = settle(&asked);
        problems.items.extend(more.items);
        problems.items.extend(unprintable(text, &spec));
        problems.items.extend(rules::deviations::misnamed(&asked.deviations).items);
        problems.sort();
        if contradictions == Contradictions::Refused && problems.has_errors() {
            return Err(problems);
        }
        match build_model(&spec) {
            Ok(foot) => Ok(Self {
                text: text.into(),
                asked,
                spec,
                foot,
                problems,
                results: OnceLock::new(),
                quantities: OnceLock::new(),
                made: OnceLock::new(),
                parts: OnceLock::new(),
                machine: OnceLock::new(),
                findings: OnceLock::new(),
                comparison: OnceLock::new(),
                plans: OnceLock::new(),
                warnings: OnceLock::new(),
            }),
            Err(more) => {
                problems.items.extend(more.items);
                problems.sort();
                Err(problems)
            }
        }
    }

    /// The settled spec.
    pub fn spec(&self) -> &Spec {
        &self.spec
    }

    /// The model.
    pub fn foot(&self) -> &Foot {
        &self.foot
    }

    /// Language and figures of the job, with the tags of its openings.
    pub fn voice(&self) -> Voice {
        self.spec.voice().with_tags(tags(&self.foot.openings))
    }

    /// The numbers.
    pub fn results(&self) -> &Results {
        self.results.get_or_init(|| analyse(&self.spec, &self.foot, self.made()))
    }

    /// The numbers as a list, each with its name, inputs and source.
    pub fn quantities(&self) -> &[Quantity] {
        self.quantities.get_or_init(|| self.results().quantities())
    }

    /// What is made and bought.
    pub fn parts(&self) -> &Parts {
        self.parts.get_or_init(|| self.made().laid())
    }

    /// The same before its seams are laid: masses, bodies and rules ask for no more, and laying them costs more than all of it.
    pub(crate) fn made(&self) -> &Parts {
        self.made.get_or_init(|| build_parts(&self.spec, &self.foot))
    }

    /// Every body, where it stands and what it moves with.
    pub fn machine(&self) -> &Machine {
        self.machine.get_or_init(|| machine::bodies(&self.spec, &self.foot, self.made()))
    }

    /// Bodies that share space, in any position of the take-up.
    pub fn overlaps(&self) -> Vec<Overlap> {
        overlaps(self.machine(), self.parts(), self.foot.rotating.travel)
    }

    /// What hangs in the air, and holes and bolts without their partners.
    pub fn loose(&self) -> Vec<Loose> {
        loose(self.machine(), self.parts())
    }

    /// How the foot pulley is taken out, step by step; empty where no panel is made for it.
    pub fn taking_out(&self) -> Vec<Step> {
        steps(&self.spec, &self.foot, self.made())
    }

    /// What is in its way.
    pub fn in_the_way(&self) -> Vec<InTheWay> {
        self.in_the_way_of(&self.taking_out())
    }

    /// How everything that wears or is opened comes off.
    pub fn coming_off(&self) -> Vec<Way> {
        ways(&self.spec, &self.foot, self.made())
    }

    /// What keeps something in, by the way that it comes off first; nothing where one of its ways is free.
    pub fn kept_in(&self, way: &Way) -> Vec<InTheWay> {
        let first = self.in_the_way_of(&way.steps);
        if first.is_empty() || way.otherwise.iter().any(|steps| self.in_the_way_of(steps).is_empty()) { Vec::new() } else { first }
    }

    /// What is in the way of some steps, the pit's walls among it.
    pub fn in_the_way_of(&self, steps: &[Step]) -> Vec<InTheWay> {
        let pit = self.foot.pit.as_ref().map(|p| Bounds { low: DVec3::new(p.x.low, p.y.low, 0.0), high: DVec3::new(p.x.high, p.y.high, p.depth) });
        in_the_way(self.machine(), self.parts(), steps, pit)
    }

    /// What no tool, hand or eye gets to.
    pub fn unreached(&self) -> Vec<Unreached> {
        unreached(self.machine(), self.parts(), self.foot.rotating.travel)
    }

    /// Seams that no torch reaches in any order of welding.
    pub fn covered(&self) -> Vec<Covered> {
        covered(self.machine(), self.parts())
    }

    /// What the take-up does not pass, or leaves open on its way.
    pub fn gaps(&self) -> Vec<Gap> {
        gaps(self.machine(), self.parts(), self.foot.rotating.travel)
    }

    /// What the rules say.
    pub fn findings(&self) -> &Findings {
        self.findings.get_or_init(|| check(&self.spec, &self.foot, self.results(), self.made()))
    }

    /// The bend-pulley question, where it arises and both machines can be built.
    pub fn comparison(&self) -> Option<&Comparison> {
        self.compared().as_ref().ok().and_then(Option::as_ref)
    }

    fn compared(&self) -> &Result<Option<Comparison>, Diagnostics> {
        self.comparison.get_or_init(|| {
            let Some(mut question) = Question::of(&self.asked, &self.foot) else { return Ok(None) };
            if question.holds_flange() {
                // Where its flange comes to lie, whatever else is still wrong with it.
                let first = Self::counterpart(&question, Contradictions::PassedOver)?;
                question.hold_flange(&self.spec, &self.foot, &first.foot);
            }
            let other = Self::counterpart(&question, Contradictions::Refused)?;
            Ok(Some(question.answer(self.variant(), other.variant())))
        })
    }

    fn counterpart(question: &Question, contradictions: Contradictions) -> Result<Self, Diagnostics> {
        Self::build("", question.counterpart.clone(), Diagnostics::default(), contradictions)
    }

    fn variant(&self) -> Variant {
        Variant {
            spec: self.spec.clone(),
            foot: self.foot.clone(),
            results: self.results().clone(),
            machine: self.machine().clone(),
            objections: self.objections(),
        }
    }

    /// What the rules say in numbers alone, for one of many variants; quicker than the findings, and not kept.
    pub fn verdicts(&self) -> Verdicts {
        judge(&self.spec, &self.foot, self.results(), self.made())
    }

    /// Ids of the rules that fail and of those that only warn; of a machine that is only compared nothing more is asked.
    fn objections(&self) -> [Vec<&'static str>; 2] {
        let all = self.verdicts().items;
        let of = |verdict: Verdict| {
            let mut ids: Vec<&'static str> = all.iter().filter(|j| j.verdict == verdict).map(|j| j.rule).collect();
            ids.dedup();
            ids
        };
        let failed = of(Verdict::Fail);
        let warned = of(Verdict::Warn).into_iter().filter(|id| !failed.contains(id)).collect();
        [failed, warned]
    }

    /// What sheets and lists are drawn from.
    pub fn subject(&self) -> Subject<'_> {
        Subject::new(&self.spec, &self.foot, self.results(), self.quantities(), self.findings(), (self.parts(), self.machine()))
            .with_hash(self.spec_hash())
            .with_comparison(self.comparison())
    }

    /// What each sheet shows, before it is laid out.
    pub fn plans(&self) -> &[SheetPlan] {
        self.plans.get_or_init(|| sheets::plans(&self.subject()))
    }

    /// The finished sheets of a set, with the user's title block if there is one.
    pub fn lay_out(&self, set: SheetSet, own_block: Option<OwnBlock>) -> Vec<Sheet> {
        sheets::lay_out(&self.subject().with_own_block(own_block), self.plans(), set)
    }

    /// Finished sheets in the formats of a wish.
    ///
    /// # Errors
    /// A plain sentence when a format cannot hold a sheet, which is a defect of the program.
    pub fn export(&self, sheets: &[Sheet], wish: &Wish) -> Result<Vec<File>, String> {
        let options = export::Options { set_title: self.spec.project.title.value.clone(), ..wish.options.clone() };
        export::sheets(sheets, &wish.formats, &options)
    }

    /// Everything that belongs in the output folder.
    ///
    /// # Errors
    /// A plain sentence when a file cannot be made, which is a defect of the program, or when there is nothing to draw.
    pub fn files(&self, wish: &Wish) -> Result<Files, String> {
        let sheets = self.lay_out(wish.set, wish.own_block.clone());
        let drawings = self.export(&sheets, wish)?;
        files::all(&self.subject(), &self.report(), wish, &sheets, drawings, wish.model.then(|| self.machine()))
    }

    /// The picture of the words for the parts of this foot, as SVG.
    ///
    /// # Errors
    /// A plain sentence when the picture has conflicts, which is a defect of the program.
    pub fn words(&self) -> Result<String, String> {
        let plan = sheets::words::plan(&self.subject());
        let views: Vec<String> = plan.views.iter().map(|v| v.draft.id.clone()).collect();
        let sheets = sheets::lay_out(&self.subject(), &[plan], SheetSet::Whole);
        let [sheet] = sheets.as_slice() else { return Err(format!("defect of the program: the words take {} sheets", sheets.len())) };
        match sheet.defects.first() {
            None => Ok(export::svg::picture_of(sheet, &views.iter().map(String::as_str).collect::<Vec<_>>())),
            Some(defect) => Err(format!("defect of the program: {}", defect.message)),
        }
    }

    /// The report on it.
    pub fn report(&self) -> Report {
        Report::build(&self.spec, self.voice(), &self.spec_hash(), self.quantities(), self.findings(), rules::ALL)
    }

    /// Warnings about the spec, in the order of its text.
    pub fn warnings(&self) -> &Diagnostics {
        self.warnings.get_or_init(|| {
            let mut all = self.problems.clone();
            if let Err(why) = self.compared() {
                all.push(crate::comparison::none_because(why));
            }
            if !self.spec.deviations.is_empty() {
                all.items.extend(rules::deviations::idle(&self.spec.deviations, &self.findings().items).items);
            }
            // Nothing is planned for a spec whose newest revision names no changes.
            if self.spec.revisions.last().is_some_and(|r| r.changed.value.is_some()) {
                all.items.extend(sheets::changed::unmarked(&self.subject(), self.plans(), &self.text));
            }
            all.sort();
            all
        })
    }

    /// First twelve hexadecimal digits of the spec text's SHA-256, whatever ends its lines: enough to tell two specs of a job apart by eye.
    pub fn spec_hash(&self) -> String {
        Sha256::digest(self.text.replace("\r\n", "\n").as_bytes()).iter().take(6).map(|b| format!("{b:02x}")).collect()
    }
}

/// Gives a place to what is said about a key that is not there: its table, or the end of the text where that is missing too.
fn place_all(problems: &mut Diagnostics, text: &str, asked: &AskedSpec) {
    for one in problems.items.iter_mut().filter(|d| d.labels.is_empty() && !d.path.is_empty()) {
        let table = one.path.rsplit_once('.').map_or(one.path.as_str(), |(table, _)| table);
        let label = match asked.table_span(table) {
            Some(span) => Label { span, text: "in this table".into() },
            None => Label { span: text.len()..text.len(), text: "nowhere up to here".into() },
        };
        one.labels.push(label);
    }
    problems.sort();
}

/// Texts of the spec with a character that the font of the sheets does not have.
fn unprintable(text: &str, spec: &Spec) -> Vec<Diagnostic> {
    // Characters come as they are or by their number.
    if text.is_ascii() && !text.contains("\\u") && !text.contains("\\U") {
        return Vec::new();
    }
    let lacking = |line: SettledLine| {
        let Origin::Given(span) = line.origin else { return None };
        let c = font::lacking(&line.value)?;
        let message = format!("{}: the font of the sheets has no character \"{c}\" (U+{:04X})", line.path, u32::from(c));
        Some(Diagnostic::error(Code::WrongKind, line.path, Some(span), message, "write it with Latin, Greek or Cyrillic letters"))
    };
    spec.settled_lines().into_iter().filter_map(lacking).collect()
}
