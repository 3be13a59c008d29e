//! One suite run over all exporters: whatever is in [`ALL`] must draw every kind of mark, write the same
//! bytes twice, refuse what no format can draw, and name its files well.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on fails")]

use footwell::export::dxf::writer::CadVersion;
use footwell::export::layers::LayerMap;
use footwell::export::{ALL, ExportError, File, Options, Page, SheetUnit, preflight};
use footwell::paper::mark::*;
use footwell::paper::style::*;
use proptest::prelude::*;
use std::collections::BTreeSet;

fn p(x: f64, y: f64) -> PaperPoint {
    PaperPoint::new(x, y)
}

fn page<'a>(stem: &'a str, marks: &'a [Mark]) -> Page<'a> {
    Page {
        stem,
        title: "Sheet \"⌀\" of the Höhe <&>",
        description: "Über alles: 'quotes', \"double\", & <tags>",
        width_mm: 420.0,
        height_mm: 297.0,
        real_per_paper: 10.0,
        unit: SheetUnit::Millimetre,
        line_group: LineGroup::G05,
        marks,
    }
}

fn path(shape: Shape<PaperPoint>, pen: Pen) -> Mark {
    Mark::Path(Path { shape, pen })
}

fn text(content: &str, align: Align, face: Face, angle: f64) -> Mark {
    Mark::Text(Text { content: content.into(), at: p(100.0, 100.0), height: 2.5, angle, align, face, pen: Pen::Lettering })
}

fn bulged() -> Shape<PaperPoint> {
    Shape::Polyline { vertices: vec![Vertex { at: p(60.0, 60.0), bulge: 0.5 }, Vertex { at: p(90.0, 60.0), bulge: -1.0 }], closed: true }
}

fn dimension(key: &str, measure: Measure, value: f64, scale: f64, shown: &str) -> Mark {
    Mark::Dimension(Box::new(Dimension {
        key: key.into(),
        measure,
        value,
        real_per_paper: scale,
        text: shown.into(),
        strokes: vec![
            path(Shape::Line { from: p(10.0, 20.0), to: p(50.0, 20.0) }, Pen::Dimension),
            Mark::Hatch(Hatch { loops: vec![Shape::polygon([p(10.0, 20.0), p(12.5, 20.4), p(12.5, 19.6)])], pattern: Pattern::Solid, pen: Pen::Dimension }),
            Mark::Text(Text {
                content: shown.into(),
                at: p(30.0, 21.0),
                height: 2.5,
                angle: 0.0,
                align: Align::Centre,
                face: Face::Regular,
                pen: Pen::Dimension,
            }),
        ],
    }))
}

/// Every variant of every enum that an exporter meets.
fn every_kind() -> Vec<Mark> {
    let mut all = vec![
        path(Shape::Circle { centre: p(200.0, 100.0), radius: 30.0 }, Pen::Centre),
        path(Shape::Arc { centre: p(200.0, 100.0), radius: 40.0, start: 0.3, sweep: 1.0 }, Pen::Hidden),
        path(Shape::Arc { centre: p(200.0, 100.0), radius: 45.0, start: 0.3, sweep: -4.0 }, Pen::Phantom),
        path(Shape::Arc { centre: p(200.0, 100.0), radius: 50.0, start: 0.3, sweep: std::f64::consts::TAU }, Pen::Edge),
        path(Shape::chain([p(10.0, 10.0), p(20.0, 15.0), p(30.0, 10.0)]), Pen::Edge),
        path(bulged(), Pen::Edge),
        Mark::Hatch(Hatch { loops: vec![bulged()], pattern: Pattern::Solid, pen: Pen::Symbol }),
        Mark::Hatch(Hatch {
            loops: vec![Shape::Circle { centre: p(300.0, 100.0), radius: 30.0 }, Shape::polygon([p(290.0, 90.0), p(310.0, 90.0), p(300.0, 110.0)])],
            pattern: Pattern::Lines { angle: 45.0, spacing: 2.5 },
            pen: Pen::Hatch,
        }),
        dimension("linear", Measure::Linear { first: p(10.0, 0.0), second: p(50.0, 0.0), line: p(50.0, 20.0), angle: 0.0 }, 400.0, 10.0, "400"),
        dimension("detail", Measure::Linear { first: p(10.0, 0.0), second: p(10.0, 40.0), line: p(5.0, 40.0), angle: 90.0 }, 80.0, 2.0, "⌀80 {h7}"),
        dimension(
            "row",
            Measure::Linear { first: p(10.0, 0.0), second: p(50.0, 30.0), line: p(50.0, 30.0), angle: 36.869_897_645_844_02 },
            500.0,
            10.0,
            "5 × 100 = 500",
        ),
        dimension("diameter", Measure::Diameter { near: p(170.0, 100.0), far: p(230.0, 100.0) }, 600.0, 10.0, "⌀600"),
        dimension("radius", Measure::Radius { centre: p(200.0, 100.0), on: p(230.0, 100.0) }, 300.0, 10.0, "R300"),
        dimension("angle", Measure::Angle { corner: p(0.0, 0.0), first: p(10.0, 0.0), second: p(10.0, 10.0), arc: p(9.0, 4.0) }, 45.0, 10.0, "45°"),
        dimension("reflex", Measure::Angle { corner: p(0.0, 0.0), first: p(10.0, 10.0), second: p(10.0, 0.0), arc: p(-9.0, 4.0) }, 315.0, 10.0, "315°"),
    ];
    for align in [Align::Left, Align::Centre, Align::Right] {
        for face in [Face::Regular, Face::Bold] {
            all.push(text("⌀14 ±0.2 \"A\" <b> & 5 %% ^ \\U+2300 −1.850", align, face, 30.0));
        }
    }
    all.push(text("   ", Align::Left, Face::Regular, 0.0));
    for pen in Pen::ALL {
        all.push(path(Shape::Line { from: p(20.0, 200.0), to: p(400.0, 200.0) }, pen));
    }
    vec![Mark::Group(Group { id: "view.\"all\" & more".into(), marks: vec![Mark::Group(Group { id: "inner".into(), marks: all })] })]
}

fn export_all(pages: &[Page], options: &Options) -> Vec<(&'static str, Vec<File>)> {
    ALL.iter().map(|e| (e.id(), e.export(pages, options).unwrap_or_else(|error| panic!("{}: {error}", e.id())))).collect()
}

fn export(id: &str, pages: &[Page]) -> File {
    let exporter = ALL.iter().find(|e| e.id() == id).unwrap();
    exporter.export(pages, &Options::default()).unwrap().remove(0)
}

#[test]
fn every_exporter_says_what_it_is() {
    let ids: BTreeSet<&str> = ALL.iter().map(|e| e.id()).collect();
    assert_eq!(ids.len(), ALL.len(), "two exporters share an id");
    for e in ALL {
        assert!(!e.extension().contains('.') && e.extension() == e.extension().to_lowercase());
        assert!(e.about().len() > 20, "{} does not say what it is for", e.id());
    }
}

#[test]
fn names_and_numbers_of_files() {
    let marks = every_kind();
    let pages = [page("ga", &marks), page("pit-2", &[])];
    for (id, files) in export_all(&pages, &Options { set_stem: "whole".into(), ..Options::default() }) {
        let names: Vec<&str> = files.iter().map(|f| f.name.as_str()).collect();
        if id == "pdf" {
            assert_eq!(names, ["whole.pdf"]);
        } else {
            assert_eq!(names, [format!("ga.{id}"), format!("pit-2.{id}")]);
        }
        assert!(files.iter().all(|f| f.bytes.len() > 500), "{id}");
    }
}

#[test]
fn no_pages_no_files() {
    for (id, files) in export_all(&[], &Options::default()) {
        assert!(files.is_empty(), "{id}");
    }
}

#[test]
fn an_empty_sheet_is_a_file() {
    for (id, files) in export_all(&[page("empty", &[])], &Options::default()) {
        assert_eq!(files.len(), 1, "{id}");
    }
}

#[test]
fn same_pages_same_bytes() {
    let marks = every_kind();
    let pages = [page("ga", &marks), Page { unit: SheetUnit::Inch, ..page("us", &marks) }];
    for version in CadVersion::SHEETS {
        let options = Options { version, ..Options::default() };
        // Maps of the libraries are seeded anew each time; four runs would show an order that leaks.
        let first = export_all(&pages, &options);
        for _ in 0..3 {
            for ((id, a), (_, b)) in first.iter().zip(export_all(&pages, &options)) {
                assert!(*a == b, "{id} {} differs between two runs", version.name());
            }
        }
    }
}

#[test]
fn ink_at_the_ends_of_the_world_is_drawn_and_beyond_refused() {
    let f = preflight::FARTHEST;
    let far = [path(Shape::Line { from: p(-f, -f), to: p(f, f) }, Pen::Edge), path(Shape::Circle { centre: p(f, -f), radius: f }, Pen::Edge)];
    export_all(&[page("far", &far)], &Options::default());
    let beyond = [path(Shape::Line { from: p(0.0, 0.0), to: p(f * 1.01, 0.0) }, Pen::Edge)];
    for e in ALL {
        let error = e.export(&[page("far", &beyond)], &Options::default()).unwrap_err();
        assert!(matches!(error, ExportError::Number { .. }), "{}: {error}", e.id());
        assert!(error.to_string().contains("sheet far"), "{error}");
    }
}

/// Marks with one number or text that no sheet can hold.
fn impossible() -> Vec<(&'static str, Mark)> {
    let nan = f64::NAN;
    let line = |x| path(Shape::Line { from: p(0.0, 0.0), to: p(x, 0.0) }, Pen::Edge);
    let hatch = |loops, pattern| Mark::Hatch(Hatch { loops, pattern, pen: Pen::Hatch });
    let square = || Shape::polygon([p(0.0, 0.0), p(9.0, 0.0), p(9.0, 9.0)]);
    let linear = Measure::Linear { first: p(10.0, 0.0), second: p(50.0, 0.0), line: p(50.0, 20.0), angle: 0.0 };
    let mut silent = match dimension("silent", linear, 400.0, 10.0, "400") {
        Mark::Dimension(d) => *d,
        _ => unreachable!(),
    };
    silent.strokes.pop();
    vec![
        ("NaN", line(nan)),
        ("infinity", line(f64::INFINITY)),
        ("no radius", path(Shape::Circle { centre: p(0.0, 0.0), radius: 0.0 }, Pen::Edge)),
        ("negative radius", path(Shape::Arc { centre: p(0.0, 0.0), radius: -1.0, start: 0.0, sweep: 1.0 }, Pen::Edge)),
        ("no sweep", path(Shape::Arc { centre: p(0.0, 0.0), radius: 1.0, start: 0.0, sweep: 0.0 }, Pen::Edge)),
        ("NaN sweep", path(Shape::Arc { centre: p(0.0, 0.0), radius: 1.0, start: 0.0, sweep: nan }, Pen::Edge)),
        ("one corner", path(Shape::chain([p(0.0, 0.0)]), Pen::Edge)),
        (
            "NaN bulge",
            path(Shape::Polyline { vertices: vec![Vertex { at: p(0.0, 0.0), bulge: nan }, Vertex { at: p(1.0, 0.0), bulge: 0.0 }], closed: false }, Pen::Edge),
        ),
        ("line break", text("two\nlines", Align::Left, Face::Regular, 0.0)),
        ("no glyph", text("漢", Align::Left, Face::Regular, 0.0)),
        ("NaN angle", text("a", Align::Left, Face::Regular, nan)),
        ("no loops", hatch(vec![], Pattern::Solid)),
        ("open loop", hatch(vec![Shape::chain([p(0.0, 0.0), p(1.0, 0.0), p(1.0, 1.0)])], Pattern::Solid)),
        ("no spacing", hatch(vec![square()], Pattern::Lines { angle: 0.0, spacing: 0.0 })),
        ("NaN spacing", hatch(vec![square()], Pattern::Lines { angle: 0.0, spacing: nan })),
        ("a lie", dimension("lie", linear, 401.0, 10.0, "401")),
        ("wrong scale", dimension("lie", linear, 400.0, 5.0, "400")),
        ("no text", Mark::Dimension(Box::new(silent.clone()))),
        ("nested", Mark::Dimension(Box::new(Dimension { strokes: vec![dimension("in", linear, 400.0, 10.0, "400")], ..silent }))),
    ]
}

#[test]
fn what_no_sheet_can_hold_is_refused_by_all() {
    for (why, mark) in impossible() {
        for e in ALL {
            let grouped = [Mark::Group(Group { id: "g".into(), marks: vec![mark.clone()] })];
            assert!(e.export(&[page("bad", &grouped)], &Options::default()).is_err(), "{} draws {why}", e.id());
        }
    }
}

#[test]
fn pages_that_cannot_be_are_refused_by_all() {
    let good = page("a", &[]);
    for bad in [
        vec![Page { stem: "", ..good }],
        vec![Page { stem: "../a", ..good }],
        vec![Page { stem: "a/b", ..good }],
        vec![Page { width_mm: f64::NAN, ..good }],
        vec![Page { height_mm: 0.0, ..good }],
        vec![Page { real_per_paper: 0.0, ..good }],
        vec![Page { title: "two\nlines", ..good }],
        vec![good, Page { stem: "A", ..good }],
    ] {
        for e in ALL {
            assert!(e.export(&bad, &Options::default()).is_err(), "{} takes {:?}", e.id(), bad[0].stem);
        }
    }
}

/// The values that stand behind a name in the header of a DXF.
fn header<'a>(dxf: &'a str, name: &str) -> &'a str {
    let after = dxf.split(&format!("{name}\r\n")).nth(1).or_else(|| dxf.split(&format!("{name}\n")).nth(1)).unwrap();
    after.lines().nth(1).unwrap().trim()
}

#[test]
fn dxf_says_scale_and_unit() {
    let marks = every_kind();
    let mm = String::from_utf8(export("dxf", &[page("a", &marks)]).bytes).unwrap();
    let inch = String::from_utf8(export("dxf", &[Page { unit: SheetUnit::Inch, ..page("a", &marks) }]).bytes).unwrap();
    for (name, in_mm, in_inch) in [("$INSUNITS", "4", "1"), ("$MEASUREMENT", "1", "0"), ("$DIMTXT", "2.5", "2.5")] {
        assert_eq!((header(&mm, name), header(&inch, name)), (in_mm, in_inch), "{name}");
    }
    for name in ["$DIMSCALE", "$LTSCALE"] {
        assert!((header(&mm, name).parse::<f64>().unwrap() - 10.0).abs() < 1e-9);
        assert!((header(&inch, name).parse::<f64>().unwrap() - 10.0 / 25.4).abs() < 1e-7);
    }
}

#[test]
fn dxf_uses_the_layers_of_the_table() {
    let marks = every_kind();
    let exporter = ALL.iter().find(|e| e.id() == "dxf").unwrap();
    let options = Options { layers: LayerMap::iso_13567().unwrap(), ..Options::default() };
    let iso = String::from_utf8(exporter.export(&[page("a", &marks)], &options).unwrap().remove(0).bytes).unwrap();
    let lines: Vec<&str> = iso.lines().map(str::trim).collect();
    let used: BTreeSet<&str> = lines.chunks_exact(2).filter(|pair| pair[0] == "8").map(|pair| pair[1]).collect();
    for pen in Pen::ALL {
        let wanted = options.layers.row(pen).layer;
        assert!(used.contains(wanted.as_str()), "nothing is drawn on {wanted}");
        assert!(!used.contains(pen.layer()), "{} is used", pen.layer());
    }
}

#[test]
fn svg_has_true_size_real_text_and_keys() {
    let marks = every_kind();
    let svg = String::from_utf8(export("svg", &[page("a", &marks)]).bytes).unwrap();
    for part in [
        "width=\"420mm\"",
        "height=\"297mm\"",
        "viewBox=\"0 0 420 297\"",
        "<title>Sheet \"⌀\" of the Höhe &lt;&amp;&gt;</title>",
        "data-key=\"detail\"",
        "data-value=\"80\"",
        ">5 × 100 = 500</text>",
        "id=\"inner\"",
        "stroke-dasharray",
    ] {
        assert!(svg.contains(part), "{part}");
    }
    let longest = svg.split(|c: char| !(c.is_ascii_digit() || c == '.')).filter_map(|n| n.split_once('.')).map(|(_, d)| d.len()).max();
    assert!(longest.unwrap() <= 4, "a number has {longest:?} decimals");
}

#[test]
fn pdf_embeds_the_font_and_says_no_date() {
    let marks = every_kind();
    let pdf = export("pdf", &[page("a", &marks)]).bytes;
    let plain = String::from_utf8_lossy(&pdf);
    assert!(plain.contains("DejaVuSansCondensed") && plain.contains("FontFile2"));
    assert!(!plain.contains("CreationDate") && !plain.contains("ModDate"));
}

fn shapes() -> impl Strategy<Value = Shape<PaperPoint>> {
    let at = || (-500.0..500.0f64, -500.0..500.0f64).prop_map(|(x, y)| p(x, y));
    let vertex = (at(), -5.0..5.0f64).prop_map(|(at, bulge)| Vertex { at, bulge });
    prop_oneof![
        (at(), at()).prop_map(|(from, to)| Shape::Line { from, to }),
        (at(), 0.01..400.0f64).prop_map(|(centre, radius)| Shape::Circle { centre, radius }),
        (at(), 0.01..400.0f64, -7.0..7.0f64, 0.001..std::f64::consts::TAU).prop_map(|(centre, radius, start, sweep)| Shape::Arc {
            centre,
            radius,
            start,
            sweep: -sweep
        }),
        (proptest::collection::vec(vertex, 3..8), any::<bool>()).prop_map(|(vertices, closed)| Shape::Polyline { vertices, closed }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]
    /// Whatever is drawn comes back from the readers with the counts it went in with.
    #[test]
    fn any_shapes_are_drawn_and_read_back(shapes in proptest::collection::vec(shapes(), 1..30), angle in -90.0..90.0f64) {
        let mut marks: Vec<Mark> = shapes.iter().cloned().map(|s| path(s, Pen::Edge)).collect();
        let loops: Vec<_> = shapes.into_iter().filter(|s| matches!(s, Shape::Circle { .. } | Shape::Polyline { closed: true, .. })).collect();
        if !loops.is_empty() {
            marks.push(Mark::Hatch(Hatch { loops, pattern: Pattern::Lines { angle, spacing: 3.0 }, pen: Pen::Hatch }));
        }
        for e in ALL {
            let files = e.export(&[page("any", &marks)], &Options::default());
            prop_assert!(files.is_ok(), "{}: {:?}", e.id(), files.err());
        }
    }
}
