//! A set speaks one language and one system of units: no English word in a German set, no metric unit in a US one.
//!
//! First the data: what the results say stands in German as well (names of quantities, load cases, rows of the
//! comparison, prose sources). Then the drawn sets: every text of sheets, report, lists and tables is read. English
//! are allowed names of the user, keys and values of the spec, and titles of texts that a number comes from; metric
//! are allowed designations of steels, threads and standards, and the cutting manifest, as the files are that it lists.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use footwell::export::{self, Exporter};
use footwell::files::Wish;
use footwell::job::Job;
use footwell::say::{Statement, Words};
use footwell::sheets::SheetSet;
use footwell::sources::Authority;
use std::collections::BTreeSet;
use support::{random_spec, run, set, templates};

#[test]
fn results_speak_german() {
    let german = Words::of("de");
    let mut lacks: BTreeSet<&str> = BTreeSet::new();
    let mut told = 0;
    for text in templates().into_iter().map(|(_, text)| text).chain((0..100).map(random_spec::wild)) {
        let job = run(&text).unwrap();
        for quantity in job.quantities() {
            lacks.extend(german.missing(&quantity.name));
            lacks.extend(german.missing(&quantity.source.said()));
            told += 1;
        }
        let cases = job.results().loads.cases.iter().map(|case| case.name);
        let rows = job.comparison().into_iter().flat_map(|c| &c.rows).map(|row| row.name);
        lacks.extend(cases.chain(rows).flat_map(|words| german.missing(&Statement::from(words))));
    }
    assert!(lacks.is_empty(), "{lacks:#?}");
    assert!(told > 10_000, "{told}");
}

/// Books and guides whose titles hold common words.
const TITLES: [&str; 5] = [
    "Mechanical Engineering Design",
    "Belt Conveyors for Bulk Materials",
    "Conveying Machines",
    "Statics and Kinematics of Granular Materials",
    "Manufacturers' Standard Gauge",
];

/// Lower-case words that point to a place within a text, or belong to its number.
const LOCATORS: &str = "clause ch eq type form";

#[test]
fn titles_hold_no_prose() {
    let german = Words::of("de");
    let topics = footwell::tables::ALL.iter().chain(footwell::formulas::ALL).flat_map(|(_, sources)| sources.iter().copied());
    let rules = footwell::rules::ALL.iter().map(|rule| rule.source);
    let mut lacks: BTreeSet<&str> = BTreeSet::new();
    let mut checked = 0;
    for source in topics.chain(rules) {
        let said = source.said();
        lacks.extend(german.missing(&said));
        if matches!(source.authority, Authority::Law | Authority::Standard | Authority::Book) {
            let bare = TITLES.iter().fold(source.cite.to_string(), |cite, title| cite.replace(title, " "));
            let prose: Vec<&str> = bare
                .split(|c: char| !c.is_alphanumeric())
                .filter(|w| w.len() > 1 && w.chars().all(char::is_lowercase) && !LOCATORS.split(' ').any(|l| l == *w))
                .collect();
            assert!(prose.is_empty(), "{prose:?} in the title {:?}: what a source is cited for is its remark", source.cite);
            checked += 1;
        }
    }
    assert!(lacks.is_empty(), "{lacks:#?}");
    assert!(checked > 80, "{checked}");
}

/// Words that a German text would not hold; those that German spells alike are left out.
const ENGLISH: &str = "the of and with at is are for not from to by shaft plate belt bucket buckets pulley foot side near far up down below above \
    between without under over per each this that which when where if than least most must may can holes hole bolts bolt weld welds door doors \
    inspection opening openings length width height thickness part parts quantity source value rule finding practice common memory given bearing \
    bearings casing bottom top floor pit sump ladder stair rail cover inlet sill throat chute feed speed capacity fill load loads case empty full \
    running start distance clear clearance space room wall seam seams seal gasket bought cut turned thread drill yes none maker paint";

/// A starter with keys changed, drawn as SVG with all that goes into its folder.
fn drawn(starter: &str, changes: &[(&str, &str)]) -> (Job, Vec<(String, String)>) {
    let (_, text) = templates().into_iter().find(|(name, _)| name.trim_end_matches(".toml") == starter).unwrap();
    let mut table: toml::Table = text.parse().unwrap();
    changes.iter().for_each(|(path, value)| set(&mut table, path, value));
    let job = run(&toml::to_string(&table).unwrap()).unwrap();
    let svg: Vec<&'static dyn Exporter> = export::ALL.iter().copied().filter(|e| e.id() == "svg").collect();
    let wish = Wish { set: SheetSet::Whole, formats: svg, model: false, options: export::Options::default(), own_block: None };
    let made = job.files(&wish).unwrap();
    assert!(made.defects.is_empty(), "{:#?}", made.defects);
    let read = made.files.into_iter().filter(|f| [".svg", ".csv", ".txt", ".html"].iter().any(|end| f.path.ends_with(end)));
    let texts = read.map(|f| (f.path, String::from_utf8(f.bytes).unwrap())).collect();
    (job, texts)
}

/// What a person reads in a file: texts of a drawing or page, lines of a table.
fn lines(path: &str, text: &str) -> Vec<String> {
    if path.ends_with(".csv") || path.ends_with(".txt") {
        return text.lines().map(str::to_string).collect();
    }
    let mut out = Vec::new();
    let mut skipped = "";
    for piece in text.split('<').skip(1) {
        let Some((tag, body)) = piece.split_once('>') else { continue };
        match tag.split([' ', '/']).next().unwrap_or_default() {
            "style" | "code" => skipped = "</",
            _ if tag.starts_with('/') => skipped = "",
            _ => {}
        }
        // Keys of the spec and their values as they are written there; what a result is computed from.
        if skipped.is_empty() && !tag.contains("class=\"from\"") && !body.trim().is_empty() {
            out.push(
                body.replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">").replace("&#x2f;", "/").replace("&#x27;", "'").replace("&amp;", "&"),
            );
        }
    }
    out
}

/// Titles of law, standards and books that this job cites, the longest first, and what the user named.
fn names(job: &Job) -> Vec<String> {
    let reasons = job.spec().settled_lines().into_iter().filter_map(|l| match l.origin {
        footwell::spec::reader::Origin::Default { source, .. } => Some(source),
        footwell::spec::reader::Origin::Given(_) => None,
    });
    let sources = job.quantities().iter().map(|q| q.source).chain(job.findings().items.iter().map(|f| f.source)).chain(reasons);
    let cited = sources.chain(job.comparison().into_iter().flat_map(|c| &c.rows).map(|r| r.source));
    let titles = cited.filter(|s| !matches!(s.authority, Authority::Physics | Authority::Practice)).map(|s| s.cite.to_string());
    let project = &job.spec().project;
    let own = [&project.title.value, &project.owner.value, &project.site.value, &project.creator.value, &job.spec().product.name.value];
    let revisions = job.spec().revisions.iter().map(|r| r.text.value.clone());
    let mut all: Vec<String> = titles.chain(own.into_iter().cloned()).chain(revisions).filter(|t| !t.is_empty()).collect();
    all.sort_by_key(|t| std::cmp::Reverse(t.len()));
    all.dedup();
    all
}

fn words(text: &str) -> impl Iterator<Item = String> + '_ {
    text.split(|c: char| !c.is_alphabetic() && c != '-' && c != '\'').filter(|w| !w.is_empty()).map(str::to_lowercase)
}

/// A line without the paths of the spec that stand in brackets behind a rule's id: `[pit.fitted]`.
fn without_paths(line: &str) -> String {
    match line.split_once("  [") {
        Some((before, path)) if path.ends_with(']') && !path.contains(' ') => before.split("  ").next().unwrap_or_default().to_string(),
        _ => line.to_string(),
    }
}

/// Whether a line is a key of the spec with its value, or an id and what it was computed from.
fn is_key_line(line: &str) -> bool {
    line.split_whitespace().next().is_some_and(|first| first.contains('.') && !first.ends_with('.') && first.chars().all(|c| !c.is_uppercase()))
}

#[test]
fn a_german_set_holds_no_english() {
    let (job, files) = drawn("grain_intake", &[("sheet.language", "\"de\""), ("sheet.decimal", "\"comma\"")]);
    let english: BTreeSet<&str> = ENGLISH.split_whitespace().collect();
    let titles = names(&job);
    // A title is broken over lines on a sheet: its words are its words there too.
    let titled: BTreeSet<String> = titles.iter().flat_map(|t| words(t).collect::<Vec<_>>()).collect();
    let mut found = BTreeSet::new();
    let mut read = 0;
    for (path, text) in &files {
        for line in lines(path, text).iter().filter(|l| !is_key_line(l)) {
            let line = without_paths(line);
            let bare = titles.iter().fold(line.clone(), |l, title| l.replace(title.as_str(), " "));
            // CSV: ids of cases and what quantities are computed from are for programs.
            let cells = bare.split(',').filter(|cell| !(path.ends_with(".csv") && (cell.contains('_') || cell.contains('.'))));
            let cells: Vec<&str> = cells.collect();
            let broken = path.ends_with(".svg");
            found.extend(
                words(&cells.join(" ")).filter(|w| english.contains(w.as_str()) && !(broken && titled.contains(w))).map(|w| format!("{w}: {path}: {line}")),
            );
            read += 1;
        }
    }
    assert!(found.is_empty(), "{found:#?}");
    assert!(read > 2000, "{read}");
    // The sieve itself: an English sentence does not pass.
    assert!(words("the sill lies above the shaft").any(|w| english.contains(w.as_str())));
}

/// A figure with a metric unit behind it: `12.5 mm`, `3 kN/m³`.
fn metric(line: &str) -> Option<String> {
    const UNITS: [&str; 22] =
        ["mm", "cm", "m", "kg", "t", "kN", "N", "MPa", "kPa", "t/h", "m/s", "m³", "m²", "l", "kW", "N·m", "µm", "N/mm", "kg/m²", "kg/m³", "t/m³", "kN/m³"];
    let words: Vec<&str> = line.split([' ', '\u{a0}', '(', ')', '"', ',', ';', '[', ']']).collect();
    words.windows(2).find_map(|pair| {
        let [figure, unit] = pair else { return None };
        let figure_ends =
            figure.ends_with(|c: char| c.is_ascii_digit()) && figure.trim_start_matches(['-', '−', '⌀', 'Ø', '=']).starts_with(|c: char| c.is_ascii_digit());
        let unit = unit.trim_end_matches(['.', ':']);
        (figure_ends && UNITS.contains(&unit)).then(|| format!("{figure} {unit}"))
    })
}

#[test]
fn a_us_set_holds_no_metric_unit() {
    let (_, files) = drawn("us_units", &[]);
    let mut found = BTreeSet::new();
    let mut read = 0;
    for (path, text) in files.iter().filter(|(path, _)| !path.contains("cutting_manifest")) {
        for line in lines(path, text) {
            // A value given in the spec as a list keeps the units that the user wrote.
            if line.contains("[[") {
                continue;
            }
            found.extend(metric(&line).map(|m| format!("{m}: {path}: {line}")));
            read += 1;
        }
    }
    assert!(found.is_empty(), "{found:#?}");
    assert!(read > 2000, "{read}");
    assert_eq!(metric("usual 700 to 900 mm above").as_deref(), Some("900 mm"));
    assert_eq!(metric("side plate, piece 1 of 2, t = 1/4\", M16"), None);
}
