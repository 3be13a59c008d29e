//! A set speaks one language and one system of units: no English word in a German set, no metric unit in a US one.
//!
//! A US set speaks US terms besides: spelling, standards, grades and threads.
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
use std::sync::LazyLock;
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

/// A line without lines of a spec that it quotes: paths such as `inlet.up.sill` with the value behind them, and the path in
/// brackets behind a rule's id: `[pit.fitted]`.
fn without_paths(line: &str) -> String {
    let path = |w: &str| w.contains('.') && w.split('.').all(|s| s.starts_with(|c: char| c.is_ascii_lowercase()) && !s.contains(|c: char| c.is_uppercase()));
    let mut value = false;
    let kept = line.split(' ').filter(|w| {
        let quoted = value && w.starts_with('"');
        value = *w == "=";
        !(quoted || path(w.trim_end_matches([',', ';'])))
    });
    let line = kept.collect::<Vec<_>>().join(" ");
    match line.split_once("  [") {
        Some((before, path)) if path.ends_with(']') && !path.contains(' ') => before.split("  ").next().unwrap_or_default().to_string(),
        _ => line,
    }
}

/// Whether a line is a key of the spec with its value, or an id and what it was computed from.
fn is_key_line(line: &str) -> bool {
    line.split_whitespace().next().is_some_and(|first| first.contains('.') && !first.ends_with('.') && first.chars().all(|c| !c.is_uppercase()))
}

/// English words in the German set of a starter, with the lines that hold them, and how many lines were read.
fn english_in(starter: &str) -> (BTreeSet<String>, usize) {
    let (job, files) = drawn(starter, &[("sheet.language", "\"de\""), ("sheet.decimal", "\"comma\"")]);
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
            // CSV: ids of rows and cases and what quantities are computed from are for programs.
            let ids = usize::from(path.ends_with("comparison.csv"));
            let cells = bare.split(',').skip(ids).filter(|cell| !(path.ends_with(".csv") && (cell.contains('_') || cell.contains('.'))));
            let cells: Vec<&str> = cells.collect();
            let broken = path.ends_with(".svg");
            found.extend(
                words(&cells.join(" "))
                    .filter(|w| english.contains(w.as_str()) && !(broken && titled.contains(w)))
                    .map(|w| format!("{w}: {starter}/{path}: {line}")),
            );
            read += 1;
        }
    }
    (found, read)
}

/// Something of every starter.
fn starters() -> Vec<String> {
    templates().into_iter().map(|(name, _)| name.trim_end_matches(".toml").to_string()).collect()
}

#[test]
fn german_sets_hold_no_english() {
    let mut found = BTreeSet::new();
    for starter in starters() {
        let (words, read) = english_in(&starter);
        found.extend(words);
        assert!(read > 1500, "{starter}: {read}");
    }
    assert!(found.is_empty(), "{found:#?}");
    // The sieve itself: an English sentence does not pass.
    assert!(words("the sill lies above the shaft").any(|w| ENGLISH.split_whitespace().any(|e| e == w)));
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

/// Starters as US jobs: what the spec of the US starter leaves open follows from these three.
const US: [(&str, &str); 3] = [("sheet.standard", "\"ansi\""), ("sheet.unit", "\"feet-inch\""), ("project.jurisdiction", "\"us\"")];

/// Files of a set as path and text.
type Texts = Vec<(String, String)>;

/// Every starter as a US job, drawn once for all who read it.
static US_SETS: LazyLock<Vec<(String, Job, Texts)>> = LazyLock::new(|| {
    let set = |starter: String| {
        let (job, files) = drawn(&starter, if starter == "us_units" { &[] } else { &US });
        (starter, job, files)
    };
    starters().into_iter().map(set).collect()
});

#[test]
fn us_sets_hold_no_metric_unit() {
    let mut found = BTreeSet::new();
    for (starter, _, files) in US_SETS.iter() {
        let mut read = 0;
        for (path, text) in files.iter().filter(|(path, _)| !path.contains("cutting_manifest")) {
            for line in lines(path, text) {
                found.extend(metric(&line).map(|m| format!("{m}: {starter}/{path}: {line}")));
                read += 1;
            }
        }
        assert!(read > 1500, "{starter}: {read}");
    }
    assert!(found.is_empty(), "{found:#?}");
    assert_eq!(metric("usual 700 to 900 mm above").as_deref(), Some("900 mm"));
    assert_eq!(metric("side plate, piece 1 of 2, t = 1/4\", M16"), None);
}

/// Words that Webster's dictionary spells otherwise, and words for which the US trade has its own. Keys of the spec and
/// ids of rules (`bearing-centres`) are in no language.
const BRITISH: &str = "centre centres centred centreline centrelines neighbour neighbours neighbouring colour colours grey fibre metre metres litre \
    litres normalised galvanised mould tonne tonnes shovelled levelled labour favour programme catalogue aluminium plough tyre sulphur \
    organise recognise minimise maximise utilise organised recognised licence defence storey kerb draught gauge-plate travelled modelled \
    spanner earthing earthed hexagon mass masses";

fn british(line: &str) -> impl Iterator<Item = String> + '_ {
    words(line).filter(|w| BRITISH.split_whitespace().any(|b| b == w))
}

/// A standard of ISO, DIN or EN, a metric thread, a European grade of steel, zinc or blasting.
fn european(line: &str) -> Option<String> {
    let tokens: Vec<&str> = line.split([' ', '\u{a0}', '(', ')', '"', ',', ';', '[', ']']).filter(|t| !t.is_empty()).collect();
    let number = |t: &str| t.starts_with(|c: char| c.is_ascii_digit());
    let behind = |letters: &str, t: &str| t.strip_prefix(letters).is_some_and(number);
    let pairs = tokens.windows(2).find(|p| (["ISO", "DIN", "EN", "Sa"].contains(&p[0]) && number(p[1])) || (p[0] == "UC" && p[1].starts_with('P')));
    let one = tokens.iter().find(|t| {
        behind("M", t) || behind("Tr", t) || t.contains("µm") || **t == "C45" || (behind("S", t) && ["JR", "J0", "J2", "MC"].iter().any(|q| t.ends_with(q)))
    });
    pairs.map(|p| p.join(" ")).or(one.map(|t| (*t).to_string()))
}

/// Where a US set may cite what is not of the US: sources of sums and limits. They are cited as what they are, so they stay.
/// On the calculation sheets their titles are broken over lines; elsewhere the titles that the job cites are taken out.
const SHEETS_OF_SOURCES: [&str; 2] = ["sheets/calc", "sheets/comparison"];
const LISTS_WITH_SOURCES: [&str; 3] = ["report.", "quantities.csv", "comparison.csv"];
/// The reason of a default that names the formula behind it.
const REASONS_WITH_FORMULAS: [&str; 1] = ["by DIN 6935 from inside radius and thickness"];

#[test]
fn us_sets_speak_us_terms() {
    let mut found = BTreeSet::new();
    for (starter, job, files) in US_SETS.iter() {
        let (_, spec) = templates().into_iter().find(|(name, _)| name.trim_end_matches(".toml") == starter).unwrap();
        let titles = names(job);
        let mut read = 0;
        for (path, text) in files {
            let is = |kinds: &[&str]| kinds.iter().any(|p| path.starts_with(p));
            for line in lines(path, text).iter().filter(|l| !is_key_line(l)) {
                let line = without_paths(line);
                let bare = titles.iter().fold(line.clone(), |l, title| l.replace(title.as_str(), " "));
                // The names of columns and rows in lists are words, what they were computed from are keys.
                let cells: Vec<&str> = bare.split(',').filter(|c| !(path.ends_with(".csv") && c.contains(['_', '.']))).collect();
                found.extend(british(&cells.join(" ")).filter(|_| !rule_id(&line)).map(|w| format!("{w}: {starter}/{path}: {line}")));
                let read_of = if is(&LISTS_WITH_SOURCES) { REASONS_WITH_FORMULAS.iter().fold(bare.clone(), |l, r| l.replace(r, " ")) } else { line.clone() };
                let terms = if is(&SHEETS_OF_SOURCES) { None } else { european(&read_of) };
                // What the user wrote stands as he wrote it.
                found.extend(terms.filter(|t| !spec.contains(t.as_str())).map(|t| format!("{t}: {starter}/{path}: {line}")));
                read += 1;
            }
        }
        assert!(read > 1500, "{starter}: {read}");
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Whether a line is no more than the id of a rule.
fn rule_id(line: &str) -> bool {
    footwell::rules::ALL.iter().any(|rule| rule.id == line.trim())
}

/// The sieves themselves.
#[test]
fn planted_terms_are_found() {
    for (line, term) in [
        ("Thermal cut ISO 9013-331, edges deburred", "ISO 9013-331"),
        ("nothing off for openings (after DIN 18331)", "DIN 18331"),
        ("blasted Sa 2½, primer 60 µm", "Sa 2½"),
        ("casing S235JR", "S235JR"),
        ("4 × M16", "M16"),
        ("take-up rod Tr30x6", "Tr30x6"),
    ] {
        assert_eq!(european(line).as_deref(), Some(term), "{line}");
    }
    for line in ["ASTM A36", "5/16-18 UNC-2B, drill F", "AWS D1.1, 1000 µin or smoother", "SECTION B–B", "C1045", "S1–S4 sensor panels", "EN"] {
        assert_eq!(european(line), None, "{line}");
    }
    assert_eq!(british("the bearing centres of neighbouring parts").collect::<Vec<_>>(), ["centres", "neighbouring"]);
}
