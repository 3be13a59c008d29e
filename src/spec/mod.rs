//! What the user asked for, and what was settled: one file per TOML table.
//!
//! [`load`] turns text into an [`AskedSpec`] with a span behind every value and all messages at once;
//! [`settle`](crate::settle::settle) gives every key a value and a reason, and reports contradictions.
//! Units and ranges are checked here; whether the machine makes sense is for `rules`.

pub mod belt;
pub mod bucket;
pub mod casing;
pub mod date;
pub mod duty;
pub mod fabrication;
pub mod inlets;
pub mod lifting;
pub mod openings;
pub mod pit;
pub mod product;
pub mod project;
pub mod pulleys;
pub mod reader;
mod reckoned;
pub mod rotating;
pub mod sheet;
pub mod synonyms;

use crate::diagnostics::{Code, Diagnostic, Diagnostics, Span};
use crate::say::{DecimalSign, Figures, LengthUnit, Voice};
use crate::tables::plates::Stock;
use reader::{Key, Leaf, SettledLine, sub_table, table_list};
use std::collections::BTreeMap;
use toml::de::DeTable;

/// Declares the whole spec from the list of its tables, so that reader, registry and settled list agree.
macro_rules! spec_tables {
    (single { $($field:ident : $module:ident :: $name:ident / $asked:ident = $path:literal),+ $(,)? }
     inlets { $($ifield:ident = $ikey:literal),+ $(,)? }
     lists { $($lfield:ident : $lmodule:ident :: $lname:ident / $lasked:ident = $lpath:literal),+ $(,)? }) => {
        /// The spec as asked: every key may be absent or bad.
        #[derive(Debug, Clone, Default, PartialEq)]
        pub struct AskedSpec {
            $(#[doc = concat!("`[", $path, "]`")] pub $field: $module::$asked,)+
            $(#[doc = concat!("`[inlet.", $ikey, "]`")] pub $ifield: inlets::AskedInlet,)+
            $(#[doc = concat!("`[[", $lpath, "]]`")] pub $lfield: Vec<$lmodule::$lasked>,)+
        }

        /// The spec as settled: every key has a value and an origin.
        #[derive(Debug, Clone, PartialEq)]
        pub struct Spec {
            $(#[doc = concat!("`[", $path, "]`")] pub $field: $module::$name,)+
            $(#[doc = concat!("`[inlet.", $ikey, "]`")] pub $ifield: inlets::Inlet,)+
            $(#[doc = concat!("`[[", $lpath, "]]`")] pub $lfield: Vec<$lmodule::$lname>,)+
        }

        /// Names of all top-level tables.
        pub const TABLES: &[&str] = &[$($path,)+ "inlet", $($lpath,)+];

        impl AskedSpec {
            fn read(root: &DeTable<'_>, out: &mut Diagnostics) -> Self {
                let inlet = sub_table(Some(root), "inlet", "inlet", out);
                if let Some((table, _)) = inlet.clone() {
                    let mut reader = UnknownTables { known: &[$($ikey),+], path: "inlet" };
                    reader.report(table, out);
                }
                Self {
                    $($field: { let found = sub_table(Some(root), $path, $path, out); $module::$asked::read(found, $path, out) },)+
                    $($ifield: { let path = concat!("inlet.", $ikey); let found = sub_table(inlet.as_ref().map(|i| i.0), $ikey, path, out); inlets::AskedInlet::read(found, path, out) },)+
                    $($lfield: { let rows = table_list(root, $lpath, out); rows.into_iter().enumerate().map(|(i, row)| $lmodule::$lasked::read(Some(row), &format!("{}[{}]", $lpath, i + 1), out)).collect() },)+
                }
            }
        }

        impl AskedSpec {
            /// Where a table stands, if it does; rows of lists are `door[2]`.
            pub fn table_span(&self, path: &str) -> Option<Span> {
                $(if path == $path { return self.$field.span.clone(); })+
                $(if path == concat!("inlet.", $ikey) { return self.$ifield.span.clone(); })+
                $(if let Some(row) = path.strip_prefix(concat!($lpath, "[")).and_then(|rest| rest.strip_suffix(']')) {
                    let row: usize = row.parse().ok()?;
                    return self.$lfield.get(row.checked_sub(1)?)?.span.clone();
                })+
                None
            }
        }

        /// Every key of the spec, in the order of the tables.
        pub fn keys() -> Vec<Key> {
            let mut all = Vec::new();
            $(all.extend($module::$asked::keys($path));)+
            $(all.extend(inlets::AskedInlet::keys(concat!("inlet.", $ikey)));)+
            $(all.extend($lmodule::$lasked::keys(concat!($lpath, "[n]")));)+
            all
        }

        impl Spec {
            /// Every value with its origin, in the order of the keys.
            pub fn settled_lines(&self) -> Vec<SettledLine> {
                let mut all = Vec::new();
                $(all.extend(self.$field.settled_lines($path));)+
                $(all.extend(self.$ifield.settled_lines(concat!("inlet.", $ikey)));)+
                $(for (i, row) in self.$lfield.iter().enumerate() { all.extend(row.settled_lines(&format!("{}[{}]", $lpath, i + 1))); })+
                all
            }
        }
    };
}

spec_tables!(
    single {
        project: project::Project / AskedProject = "project",
        product: product::Product / AskedProduct = "product",
        duty: duty::Duty / AskedDuty = "duty",
        bucket: bucket::Bucket / AskedBucket = "bucket",
        belt: belt::Belt / AskedBelt = "belt",
        head_pulley: pulleys::HeadPulley / AskedHeadPulley = "head_pulley",
        foot_pulley: pulleys::FootPulley / AskedFootPulley = "foot_pulley",
        bend_pulley: pulleys::BendPulley / AskedBendPulley = "bend_pulley",
        shaft: rotating::Shaft / AskedShaft = "shaft",
        bearings: rotating::Bearings / AskedBearings = "bearings",
        take_up: rotating::TakeUp / AskedTakeUp = "take_up",
        casing: casing::Casing / AskedCasing = "casing",
        lifting: lifting::Lifting / AskedLifting = "lifting",
        shovel_pocket: inlets::ShovelPocket / AskedShovelPocket = "shovel_pocket",
        sensor_panels: openings::SensorPanels / AskedSensorPanels = "sensor_panels",
        clean_out: openings::CleanOut / AskedCleanOut = "clean_out",
        removal: openings::Removal / AskedRemoval = "removal",
        monitoring: openings::Monitoring / AskedMonitoring = "monitoring",
        pit: pit::Pit / AskedPit = "pit",
        fabrication: fabrication::Fabrication / AskedFabrication = "fabrication",
        sheet: sheet::SheetSpec / AskedSheetSpec = "sheet",
    }
    inlets { inlet_up = "up", inlet_down = "down" }
    lists {
        doors: openings::Door / AskedDoor = "door",
        revisions: project::Revision / AskedRevision = "revision",
        deviations: project::Deviation / AskedDeviation = "deviation",
    }
);

impl Spec {
    /// Whether US rules hold, and US stock and threads are used.
    pub fn us(&self) -> bool {
        *self.project.jurisdiction == project::Jurisdiction::Us
    }
    /// Units and decimal sign of everything that is printed.
    pub fn figures(&self) -> Figures {
        let sheet = &self.sheet;
        Figures {
            unit: match *sheet.unit {
                sheet::LengthUnit::Mm => LengthUnit::Mm,
                sheet::LengthUnit::Inch => LengthUnit::InchDecimal,
                sheet::LengthUnit::FeetInch => LengthUnit::InchFraction,
            },
            decimal: match *sheet.decimal {
                sheet::DecimalSign::Point => DecimalSign::Point,
                sheet::DecimalSign::Comma => DecimalSign::Comma,
            },
            ..Figures::default()
        }
    }
    /// Tag of the language of everything that is printed.
    pub fn language(&self) -> &'static str {
        self.sheet.language.tag(self.us())
    }
    /// Language and figures of everything that is printed, without tags of openings.
    pub fn voice(&self) -> Voice {
        Voice::new(self.language(), self.figures())
    }
    /// Plates and bars that the job's shop buys.
    pub fn stock(&self) -> Stock {
        Stock::of(self.us())
    }
}

/// Reports keys of a table that holds only tables.
struct UnknownTables<'a> {
    known: &'a [&'static str],
    path: &'a str,
}

impl UnknownTables<'_> {
    fn report(&mut self, table: &DeTable<'_>, out: &mut Diagnostics) {
        for (key, _) in table {
            let name: &str = key.get_ref();
            if !self.known.contains(&name) {
                let place = if self.path.is_empty() { "the spec".to_string() } else { format!("[{}]", self.path) };
                let hint = reader::did_you_mean(name, self.known.iter().copied())
                    .map_or_else(|| format!("the tables here are: {}", self.known.join(", ")), |near| format!("did you mean {near}?"));
                let path = if self.path.is_empty() { name.to_string() } else { format!("{}.{name}", self.path) };
                out.push(Diagnostic::error(Code::UnknownKey, path, Some(key.span()), format!("{place} has no table or key \"{name}\""), hint));
            }
        }
    }
}

/// Reads a spec. Whatever can be read is returned; every problem found is in the list.
pub fn load(text: &str) -> (AskedSpec, Diagnostics) {
    let mut out = Diagnostics::default();
    let (mut root, errors) = DeTable::parse_recoverable(text);
    for error in errors {
        let message = error.message().to_string();
        let twice = message.contains("duplicate");
        let span: Option<Span> = error.span();
        let (code, hint) = if twice {
            (Code::TwiceGiven, "keep one of them and delete the other")
        } else if message.contains("date") {
            (Code::Syntax, date::WRITE_IT)
        } else {
            (Code::Syntax, "write  key = \"value unit\"  on a line of its own, tables as  [name]")
        };
        out.push(Diagnostic::error(code, "", span, format!("this is not valid TOML: {message}"), hint));
    }
    let taken_out = reckoned::reckon(root.get_mut(), &mut out);
    let root = root.get_ref();
    UnknownTables { known: TABLES, path: "" }.report(root, &mut out);
    let mut asked = AskedSpec::read(root, &mut out);
    if let Some(span) = taken_out.capacity {
        asked.duty.capacity = Leaf::Bad(span);
    }
    if let Some(span) = taken_out.belt_speed {
        asked.duty.belt_speed = Leaf::Bad(span);
    }
    lead_to_keys(&mut out);
    out.sort();
    (asked, out)
}

/// Unknown keys that have another name or another place here are told which.
fn lead_to_keys(out: &mut Diagnostics) {
    let mut unknown = out.items.iter_mut().filter(|d| d.code == Code::UnknownKey).peekable();
    if unknown.peek().is_none() {
        return;
    }
    // Where a key of each name stands.
    let mut places: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for key in keys() {
        if let Some((table, name)) = key.path.rsplit_once('.') {
            let table = table.strip_suffix("[n]").map_or_else(|| format!("[{table}]"), |list| format!("[[{list}]]"));
            places.entry(name.to_string()).or_default().push(table);
        }
    }
    for one in unknown {
        let (table, name) = one.path.rsplit_once('.').unwrap_or(("", &one.path));
        if let Some(synonym) = synonyms::meant(table, name) {
            one.hint = synonym.hint();
        } else if let Some(tables) = places.get(name) {
            one.hint = format!("{name} stands under {}", tables.join(", "));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_problem_is_reported_at_once() {
        let (_, problems) =
            load("[duty]\ncapacity = \"120 kg\"\nlift = 28\nspeed = \"2 m/s\"\nlift = \"28 m\"\n[inlets]\n[casing]\nbottom = \"round\"\nplate = \"500 mm\"\n");
        let codes: Vec<Code> = problems.items.iter().map(|d| d.code).collect();
        for wanted in [Code::WrongUnit, Code::UnknownKey, Code::TwiceGiven, Code::UnknownWord, Code::OutOfRange] {
            assert!(codes.contains(&wanted), "{wanted:?} is missing in {problems:#?}");
        }
        assert!(problems.items.iter().all(|d| !d.hint.is_empty() && !d.labels.is_empty()));
    }

    #[test]
    fn values_keep_their_place() {
        let text = "[duty]\ncapacity = \"120 t/h\"\n[inlet.up]\nsill = \"900 mm\"\n";
        let (asked, problems) = load(text);
        assert!(problems.items.is_empty(), "{problems:?}");
        assert_eq!(asked.inlet_up.sill.span().map(|s| &text[s]), Some("\"900 mm\""));
        assert!(keys().len() > 100);
    }
}
