//! Draws one sheet with every kind of mark into a folder, in all formats and CAD versions.
//!
//! `cargo run --example export_demo -- FOLDER`. Main scale 1:10, a detail in 1:2, tight dimensions with
//! arrows outside, hatches with holes, all pens. The sheet is for looking at the exporters, not a product.

use footwell::export::dxf::writer::CadVersion;
use footwell::export::layers::LayerMap;
use footwell::export::{ALL, Options, Page, SheetUnit};
use footwell::paper::mark::*;
use footwell::paper::style::*;
use std::error::Error;
use std::f64::consts::PI;
use std::path::Path as FilePath;

fn p(x: f64, y: f64) -> PaperPoint {
    PaperPoint::new(x, y)
}

fn line(from: PaperPoint, to: PaperPoint, pen: Pen) -> Mark {
    Mark::Path(Path { shape: Shape::Line { from, to }, pen })
}

fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Shape<PaperPoint> {
    Shape::polygon([p(x0, y0), p(x1, y0), p(x1, y1), p(x0, y1)])
}

fn path(shape: Shape<PaperPoint>, pen: Pen) -> Mark {
    Mark::Path(Path { shape, pen })
}

fn text(content: &str, at: PaperPoint, height: f64, angle: f64, align: Align, face: Face, pen: Pen) -> Mark {
    Mark::Text(Text { content: content.into(), at, height, angle, align, face, pen })
}

/// A filled arrow head with its tip at `tip`, pointing along `direction` (degrees).
fn arrow(tip: PaperPoint, direction: f64) -> Mark {
    let (s, c) = direction.to_radians().sin_cos();
    let back = |side: f64| p(tip.x - 2.5 * c - side * s, tip.y - 2.5 * s + side * c);
    Mark::Hatch(Hatch { loops: vec![Shape::polygon([tip, back(0.42), back(-0.42)])], pattern: Pattern::Solid, pen: Pen::Dimension })
}

/// A horizontal or vertical dimension from `a` to `b` with its line through `at`.
fn linear(key: &str, a: PaperPoint, b: PaperPoint, at: f64, vertical: bool, scale: f64, shown: &str) -> Mark {
    let (a, b) = if (vertical && a.y > b.y) || (!vertical && a.x > b.x) { (b, a) } else { (a, b) };
    let (e1, e2, angle) = if vertical { (p(at, a.y), p(at, b.y), 90.0) } else { (p(a.x, at), p(b.x, at), 0.0) };
    let length = (e2.x - e1.x).hypot(e2.y - e1.y);
    let towards = |q: PaperPoint, e: PaperPoint| {
        let sign = if vertical { (e.x - q.x).signum() } else { (e.y - q.y).signum() };
        if vertical {
            line(p(q.x + sign, q.y), p(e.x + 2.0 * sign, q.y), Pen::Dimension)
        } else {
            line(p(q.x, q.y + sign), p(q.x, e.y + 2.0 * sign), Pen::Dimension)
        }
    };
    let mut strokes = vec![towards(a, e1), towards(b, e2)];
    let along = |e: PaperPoint, d: f64| if vertical { p(e.x, e.y + d) } else { p(e.x + d, e.y) };
    let above = |e: PaperPoint| if vertical { p(e.x - 1.0, e.y) } else { p(e.x, e.y + 1.0) };
    let tight = length < 12.0;
    let at_text = if tight {
        strokes.extend([line(along(e1, -6.0), along(e2, 14.0), Pen::Dimension), arrow(e1, angle), arrow(e2, angle + 180.0)]);
        above(along(e2, 8.5))
    } else {
        strokes.extend([line(e1, e2, Pen::Dimension), arrow(e1, angle + 180.0), arrow(e2, angle)]);
        above(p((e1.x + e2.x) / 2.0, (e1.y + e2.y) / 2.0))
    };
    strokes.push(text(shown, at_text, 2.5, angle, Align::Centre, Face::Regular, Pen::Dimension));
    Mark::Dimension(Box::new(Dimension {
        key: key.into(),
        measure: Measure::Linear { first: a, second: b, line: e2, angle },
        value: length * scale,
        real_per_paper: scale,
        text: shown.into(),
        strokes,
    }))
}

fn diameter(key: &str, centre: PaperPoint, r: f64, scale: f64, shown: &str) -> Mark {
    let (s, c) = 30f64.to_radians().sin_cos();
    let far = p(centre.x + r * c, centre.y + r * s);
    let near = p(centre.x - r * c, centre.y - r * s);
    let knee = p(centre.x + (r + 9.0) * c, centre.y + (r + 9.0) * s);
    let end = p(knee.x + 14.0, knee.y);
    Mark::Dimension(Box::new(Dimension {
        key: key.into(),
        measure: Measure::Diameter { near, far },
        value: 2.0 * r * scale,
        real_per_paper: scale,
        text: shown.into(),
        strokes: vec![
            path(Shape::chain([far, knee, end]), Pen::Dimension),
            arrow(far, 210.0),
            text(shown, p(knee.x + 7.0, knee.y + 1.0), 2.5, 0.0, Align::Centre, Face::Regular, Pen::Dimension),
        ],
    }))
}

fn radius(key: &str, centre: PaperPoint, r: f64, direction: f64, scale: f64, shown: &str) -> Mark {
    let (s, c) = direction.to_radians().sin_cos();
    let on = p(centre.x + r * c, centre.y + r * s);
    let knee = p(centre.x + (r + 8.0) * c, centre.y + (r + 8.0) * s);
    let end = p(knee.x + 12.0, knee.y);
    Mark::Dimension(Box::new(Dimension {
        key: key.into(),
        measure: Measure::Radius { centre, on },
        value: r * scale,
        real_per_paper: scale,
        text: shown.into(),
        strokes: vec![
            path(Shape::chain([on, knee, end]), Pen::Dimension),
            arrow(on, direction + 180.0),
            text(shown, p(knee.x + 6.0, knee.y + 1.0), 2.5, 0.0, Align::Centre, Face::Regular, Pen::Dimension),
        ],
    }))
}

fn angle(key: &str, corner: PaperPoint, r: f64, from: f64, to: f64, shown: &str) -> Mark {
    let on = |deg: f64, r: f64| p(corner.x + r * deg.to_radians().cos(), corner.y + r * deg.to_radians().sin());
    let mid = (from + to) / 2.0;
    Mark::Dimension(Box::new(Dimension {
        key: key.into(),
        measure: Measure::Angle { corner, first: on(from, r), second: on(to, r), arc: on(mid, r) },
        value: to - from,
        real_per_paper: 10.0,
        text: shown.into(),
        strokes: vec![
            path(Shape::Arc { centre: corner, radius: r, start: from.to_radians(), sweep: (to - from).to_radians() }, Pen::Dimension),
            arrow(on(from, r), from - 90.0),
            arrow(on(to, r), to + 90.0),
            text(shown, on(mid, r + 3.0), 2.5, 0.0, Align::Left, Face::Regular, Pen::Dimension),
        ],
    }))
}

/// Every kind of mark, every pen and pattern.
fn marks() -> Vec<Mark> {
    let (x0, y0) = (50.0, 150.0);
    let mut all = vec![
        path(rectangle(20.0, 10.0, 410.0, 287.0), Pen::Frame),
        // The main view in 1:10: a plate of 1000 × 800 with a hole of ⌀500 and a slot.
        path(rectangle(x0, y0, x0 + 100.0, y0 + 80.0), Pen::Edge),
        path(Shape::Circle { centre: p(x0 + 40.0, y0 + 40.0), radius: 25.0 }, Pen::Edge),
        line(p(x0 + 12.0, y0 + 40.0), p(x0 + 68.0, y0 + 40.0), Pen::Centre),
        line(p(x0 + 40.0, y0 + 12.0), p(x0 + 40.0, y0 + 68.0), Pen::Centre),
        path(
            Shape::Polyline {
                vertices: vec![
                    Vertex { at: p(x0 + 80.0, y0 + 25.0), bulge: 0.0 },
                    Vertex { at: p(x0 + 80.0, y0 + 55.0), bulge: -1.0 },
                    Vertex { at: p(x0 + 90.0, y0 + 55.0), bulge: 0.0 },
                    Vertex { at: p(x0 + 90.0, y0 + 25.0), bulge: -1.0 },
                ],
                closed: true,
            },
            Pen::Edge,
        ),
        path(Shape::Arc { centre: p(x0, y0), radius: 10.0, start: 0.0, sweep: PI / 2.0 }, Pen::Hidden),
        linear("plate.width", p(x0, y0 + 80.0), p(x0 + 100.0, y0 + 80.0), y0 + 97.0, false, 10.0, "1000"),
        linear("hole.x", p(x0, y0 + 80.0), p(x0 + 40.0, y0 + 80.0), y0 + 90.0, false, 10.0, "400"),
        linear("plate.height", p(x0, y0), p(x0, y0 + 80.0), x0 - 17.0, true, 10.0, "8 × 100 = 800"),
        linear("slot.width", p(x0 + 80.0, y0), p(x0 + 90.0, y0), y0 - 10.0, false, 10.0, "100"),
        linear("tenth", p(x0, y0), p(x0 + 12.35, y0), y0 - 10.0, false, 10.0, "123.5"),
        diameter("hole", p(x0 + 40.0, y0 + 40.0), 25.0, 10.0, "⌀500"),
        radius("corner", p(x0, y0), 10.0, 45.0, 10.0, "R100 ±2"),
        angle("slope", p(200.0, 160.0), 20.0, 0.0, 40.0, "40°"),
        line(p(200.0, 160.0), p(228.0, 160.0), Pen::FineEdge),
        line(p(200.0, 160.0), p(200.0 + 28.0 * 40f64.to_radians().cos(), 160.0 + 28.0 * 40f64.to_radians().sin()), Pen::FineEdge),
        // Hatches: a ring, a square with a rectangular and a round hole, a solid half moon.
        Mark::Hatch(Hatch {
            loops: vec![Shape::Circle { centre: p(300.0, 200.0), radius: 25.0 }, Shape::Circle { centre: p(300.0, 200.0), radius: 14.0 }],
            pattern: Pattern::Lines { angle: 45.0, spacing: 2.5 },
            pen: Pen::Hatch,
        }),
        path(Shape::Circle { centre: p(300.0, 200.0), radius: 25.0 }, Pen::Edge),
        path(Shape::Circle { centre: p(300.0, 200.0), radius: 14.0 }, Pen::Edge),
        Mark::Hatch(Hatch {
            loops: vec![rectangle(340.0, 175.0, 395.0, 225.0), rectangle(348.0, 183.0, 364.0, 217.0), Shape::Circle { centre: p(380.0, 200.0), radius: 9.0 }],
            pattern: Pattern::Lines { angle: -30.0, spacing: 3.0 },
            pen: Pen::Hatch,
        }),
        path(rectangle(340.0, 175.0, 395.0, 225.0), Pen::Concrete),
        path(rectangle(348.0, 183.0, 364.0, 217.0), Pen::Edge),
        path(Shape::Circle { centre: p(380.0, 200.0), radius: 9.0 }, Pen::Edge),
        Mark::Hatch(Hatch {
            loops: vec![Shape::Polyline {
                vertices: vec![Vertex { at: p(230.0, 200.0), bulge: 1.0 }, Vertex { at: p(250.0, 200.0), bulge: -0.4 }],
                closed: true,
            }],
            pattern: Pattern::Solid,
            pen: Pen::Symbol,
        }),
        // Texts at all alignments and angles.
        text("FOOT OF THE ELEVATOR", p(260.0, 262.0), 7.0, 0.0, Align::Left, Face::Bold, Pen::Lettering),
        text("left, \"quoted\" & <marked>, äöüß −1.850 5 %", p(260.0, 252.0), 3.5, 0.0, Align::Left, Face::Regular, Pen::Lettering),
        text("centre ⌀14 H7 ±0.2 45°", p(310.0, 244.0), 3.5, 0.0, Align::Centre, Face::Regular, Pen::Lettering),
        text("right, a = 3, z ≥ 5 mm²", p(400.0, 236.0), 2.5, 0.0, Align::Right, Face::Regular, Pen::Lettering),
        text("upright at 90°", p(180.0, 190.0), 2.5, 90.0, Align::Centre, Face::Regular, Pen::Lettering),
        text("sloped at 30°", p(190.0, 215.0), 2.5, 30.0, Align::Left, Face::Regular, Pen::Lettering),
        text("NOT FOR FABRICATION", p(205.0, 242.0), 5.0, -45.0, Align::Centre, Face::Bold, Pen::Stamp),
    ];
    // The detail in 1:2 of a tapped end.
    let (dx, dy) = (70.0, 50.0);
    all.push(Mark::Group(Group {
        id: "view.detail-a".into(),
        marks: vec![
            path(rectangle(dx, dy, dx + 60.0, dy + 40.0), Pen::Edge),
            line(p(dx - 3.0, dy + 20.0), p(dx + 63.0, dy + 20.0), Pen::Centre),
            line(p(dx, dy + 14.0), p(dx + 30.0, dy + 14.0), Pen::Hidden),
            line(p(dx, dy + 26.0), p(dx + 30.0, dy + 26.0), Pen::Hidden),
            linear("shaft.diameter", p(dx + 60.0, dy), p(dx + 60.0, dy + 40.0), dx + 72.0, true, 2.0, "⌀80"),
            linear("thread.depth", p(dx, dy), p(dx + 30.0, dy), dy - 10.0, false, 2.0, "60"),
            linear("thread.size", p(dx, dy + 14.0), p(dx, dy + 18.0), dx - 12.0, true, 2.0, "8"),
            text("A (1:2)", p(dx + 30.0, dy + 52.0), 5.0, 0.0, Align::Centre, Face::Bold, Pen::Lettering),
        ],
    }));
    // A sample of every pen.
    let mut samples = Vec::new();
    for (i, pen) in Pen::ALL.into_iter().enumerate() {
        let y = 140.0 - 6.5 * i as f64;
        samples.push(text(pen.layer(), p(225.0, y - 1.2), 2.5, 0.0, Align::Left, Face::Regular, Pen::Table));
        samples.push(line(p(260.0, y), p(330.0, y), pen));
        samples.push(path(
            Shape::Polyline {
                vertices: vec![Vertex { at: p(340.0, y), bulge: 0.2 }, Vertex { at: p(370.0, y), bulge: -0.2 }, Vertex { at: p(400.0, y), bulge: 0.0 }],
                closed: false,
            },
            pen,
        ));
    }
    all.push(Mark::Group(Group { id: "table.pens".into(), marks: samples }));
    all
}

/// A letter-landscape sheet in inches, main scale 1:10.
fn inch_marks() -> Vec<Mark> {
    let inch = 25.4;
    vec![
        path(rectangle(12.7, 12.7, 266.7, 203.2), Pen::Frame),
        path(rectangle(50.0, 60.0, 50.0 + 4.0 * inch, 60.0 + 3.0 * inch), Pen::Edge),
        linear("plate.width", p(50.0, 60.0 + 3.0 * inch), p(50.0 + 4.0 * inch, 60.0 + 3.0 * inch), 60.0 + 3.0 * inch + 12.0, false, 10.0, "3'-4\""),
        linear("plate.height", p(50.0, 60.0), p(50.0, 60.0 + 3.0 * inch), 36.0, true, 10.0, "30\""),
        text("PLATE 3/8\" × 30\" × 40\"", p(60.0, 40.0), 3.0, 0.0, Align::Left, Face::Regular, Pen::Lettering),
    ]
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("say into which folder")?;
    std::fs::create_dir_all(&folder)?;
    let (marks, inches) = (marks(), inch_marks());
    let page = Page {
        stem: "demo",
        title: "Exporter demo \"⌀\" äöü",
        description: "Every kind of mark on one sheet",
        width_mm: 420.0,
        height_mm: 297.0,
        real_per_paper: 10.0,
        unit: SheetUnit::Millimetre,
        line_group: LineGroup::G05,
        marks: &marks,
    };
    let inch = Page { stem: "inch", title: "Inch sheet", width_mm: 279.4, height_mm: 215.9, unit: SheetUnit::Inch, marks: &inches, ..page };
    let options = Options { set_title: "Exporter demo".into(), set_stem: "demo".into(), ..Options::default() };
    for exporter in ALL {
        for file in exporter.export(&[page, inch], &options)? {
            std::fs::write(FilePath::new(&folder).join(file.name), file.bytes)?;
        }
    }
    for version in CadVersion::SHEETS {
        let stem = format!("demo-{}", version.name());
        let page = Page { stem: &stem, ..page };
        let options = Options { version, layers: LayerMap::iso_13567()?, ..options.clone() };
        for exporter in ALL.into_iter().filter(|e| matches!(e.id(), "dxf" | "dwg")) {
            for file in exporter.export(&[page], &options)? {
                std::fs::write(FilePath::new(&folder).join(file.name), file.bytes)?;
            }
        }
    }
    Ok(())
}
