//! Settles `[project]`, `[[revision]]` and `[sheet]`.
//!
//! In: what was asked. Out: the settled tables, and errors for texts that do not fit their field of the
//! title block (ISO 7200). The program never takes a date or a name from the computer.

use super::PRACTICE;
use super::so_far::Ask;
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::sources::Source;
use crate::spec::project::{Jurisdiction, Project, Revision, Status};
use crate::spec::reader::{Chosen, Leaf};
use crate::spec::sheet::{DecimalSign, Hand, Language, LengthUnit, Projection, SheetSpec, SheetStandard};
use crate::tables::sheets::{self, Format};

const ISO_7200: Source = Source::standard("ISO 7200:2004").remark("table of fields");
const PROJECTIONS: Source = Source::standard("ISO 5456-2, ASME Y14.3").remark("customary projection").from_memory();

/// A text that must fit a field of the title block.
fn fits(leaf: &Leaf<String>, path: &str, most: usize, out: &mut Diagnostics) {
    if let Leaf::Given(text, span) = leaf {
        let length = text.chars().count();
        if length > most {
            out.push(Diagnostic::error(
                Code::OutOfRange,
                path,
                Some(span.clone()),
                format!("{path} has {length} characters; its field in the title block holds {most} (ISO 7200)"),
                format!("shorten it by {} characters", length - most),
            ));
        }
    }
}

fn given_or(leaf: &Leaf<String>, text: &str, reason: &'static str) -> Chosen<String> {
    Chosen::or(leaf, text.to_string(), ISO_7200, reason)
}

/// Settles the title block and the revision table.
pub(super) fn project(ask: &Ask<'_>, out: &mut Diagnostics) -> (Project, Vec<Revision>) {
    let (a, rounding) = (&ask.asked.project, ask.rounding);
    fits(&a.number, "project.number", 16, out);
    fits(&a.title, "project.title", 25, out);
    fits(&a.creator, "project.creator", 20, out);
    fits(&a.site, "project.site", 60, out);
    fits(&a.owner, "project.owner", 60, out);
    let (law, why) = if rounding.us {
        (Jurisdiction::Us, "the sheets are in US formats or units, so US federal rules are applied")
    } else {
        (Jurisdiction::Iso, "nothing else was asked for: ISO/EN standards are applied")
    };
    let words = ask.words();
    let unnamed = words.text("not given").into_owned();
    let unnamed = unnamed.as_str();
    let project = Project {
        owner: given_or(&a.owner, unnamed, "a mandatory field; the owner is for the user to name"),
        number: given_or(&a.number, "FOOT-1", "a mandatory field; stands until a drawing number is given"),
        title: given_or(&a.title, &words.text("Bucket elevator foot"), "says what is drawn, within 25 characters"),
        site: Chosen::or(&a.site, unnamed.into(), PRACTICE, "the plant is for the user to name"),
        date: Chosen::or(&a.date, None, ISO_7200, "a mandatory field; the program takes no date from the clock"),
        creator: given_or(&a.creator, unnamed, "a mandatory field; the creator is for the user to name"),
        status: Chosen::or(&a.status, Status::New, PRACTICE, "drawings are for something to be built unless the spec says survey"),
        jurisdiction: Chosen::or(&a.jurisdiction, law, PRACTICE, why),
    };
    let mut rows = Vec::new();
    for (i, r) in ask.asked.revisions.iter().enumerate() {
        let path = |key: &str| format!("revision[{}].{key}", i + 1);
        fits(&r.index, &path("index"), 2, out);
        fits(&r.creator, &path("creator"), 20, out);
        fits(&r.text, &path("text"), 60, out);
        let letter = char::from(b'A' + u8::try_from(i.min(25)).unwrap_or(25));
        rows.push(Revision {
            index: given_or(&r.index, &letter.to_string(), "revisions are lettered in order"),
            date: Chosen::or(&r.date, project.date.value, ISO_7200, "the date of issue"),
            changed: Chosen::or(&r.changed, None, PRACTICE, "nothing is marked unless it is named"),
            text: given_or(&r.text, unnamed, "what changed is for the user to say"),
            creator: given_or(&r.creator, &project.creator.value, "the creator of the spec"),
        });
    }
    (project, rows)
}

/// Settles how the drawings look.
pub(super) fn sheet(ask: &Ask<'_>, out: &mut Diagnostics) -> SheetSpec {
    let (a, rounding) = (&ask.asked.sheet, ask.rounding);
    let standard = if rounding.us { SheetStandard::Ansi } else { SheetStandard::Iso };
    let standard =
        Chosen::or(&a.standard, standard, PRACTICE, if rounding.us { "US rules and units go with US formats" } else { "ISO formats unless asked otherwise" });
    let family = Format::family(match *standard {
        SheetStandard::Iso => sheets::Standard::Iso,
        SheetStandard::Ansi => sheets::Standard::Ansi,
    });
    let mut sizes: Vec<&str> = family.iter().map(Format::short_name).collect();
    sizes.sort_unstable();
    if let Leaf::Given(Some(size), span) = &a.size
        && !sizes.contains(&size.as_str())
    {
        let place = Diagnostic::error(
            Code::Contradiction,
            "sheet.size",
            Some(span.clone()),
            format!("\"{size}\" is not a format of the family \"{}\"", standard.word()),
            format!("write one of {}, or another sheet.standard", sizes.join(", ")),
        );
        out.push(place.also(standard.span(), "the family of formats"));
    }
    let third = *standard == SheetStandard::Ansi;
    SheetSpec {
        projection: Chosen::or(
            &a.projection,
            if third { Projection::Third } else { Projection::First },
            PROJECTIONS,
            if third { "third angle is customary on US sheets" } else { "first angle is customary on ISO sheets" },
        ),
        standard,
        size: Chosen::or(&a.size, None, PRACTICE, "left to the program: the smallest format at the largest standard scale that fits"),
        unit: Chosen::or(
            &a.unit,
            if rounding.inch { LengthUnit::FeetInch } else { LengthUnit::Mm },
            PRACTICE,
            if rounding.inch { "feet and inches are customary in US plant drawings" } else { "millimetres unless asked otherwise" },
        ),
        decimal: Chosen::or(
            &a.decimal,
            if a.language.value() == Some(Language::German) { DecimalSign::Comma } else { DecimalSign::Point },
            PRACTICE,
            "a point in English, a comma in German",
        ),
        hand: Chosen::or(&a.hand, Hand::Right, PRACTICE, "the up side lies on the right unless asked otherwise"),
        language: Chosen::or(&a.language, Language::English, PRACTICE, "English unless asked otherwise"),
    }
}
