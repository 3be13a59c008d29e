//! Hard geometry for the layout: `cargo run --example draft_demo -- FOLDER`.
//!
//! A foot-like casing with pulleys, many dimensions on four sides, tight chains, balloons, levels, welds,
//! a detail, tables and notes, as ISO first angle in mm and as ANSI third angle in feet and inches.

use footwell::documents::drafting::*;
use footwell::documents::frame::Format;
use footwell::documents::layout::lay_out;
use footwell::documents::mark::*;
use footwell::documents::notes::Notes;
use footwell::documents::sheet::*;
use footwell::documents::style::*;
use footwell::documents::table::Table;
use footwell::documents::title_block::*;
use footwell::documents::view::*;
use footwell::export::dxf::writer::CadVersion;
use footwell::export::layers::LayerMap;
use footwell::export::{ALL, Options, Page};
use std::error::Error;

const L: f64 = 1240.0;
const H: f64 = 1890.0;

fn elevation() -> Draft {
    let mut v = Draft::new("elevation", "SECTION A–A");
    let (x0, x1) = (-L / 2.0, L / 2.0);
    let t = 5.0;
    for (a, b) in [(x0, x0 + t), (x1 - t, x1)] {
        v.rectangle(Pen::Edge, (a, 60.0), (b, H));
        v.hatch(Material::Metal, vec![rectangle((a, 60.0).into(), (b, H).into())]);
    }
    v.rectangle(Pen::Edge, (x0, 60.0), (x1, 66.0));
    v.hatch(Material::Metal, vec![rectangle((x0, 60.0).into(), (x1, 66.0).into())]);
    for x in [x0 + 60.0, x1 - 160.0] {
        v.rectangle(Pen::Edge, (x, 0.0), (x + 100.0, 60.0));
    }
    v.rectangle(Pen::Edge, (x0 - 60.0, H), (x1 + 60.0, H + 8.0));
    let z = 640.0;
    v.hole(Pen::Edge, (0.0, z), 400.0);
    v.hole(Pen::Edge, (0.0, z), 32.5);
    v.circle(Pen::Belt, (0.0, z), 406.0);
    v.circle(Pen::Phantom, (0.0, z + 300.0), 400.0);
    v.centre_line((0.0, 60.0), (0.0, H));
    for s in [-1.0, 1.0] {
        v.line(Pen::Belt, (s * 400.0, z), (s * 400.0, H));
        v.line(Pen::Belt, (s * 406.0, z), (s * 406.0, H));
        for i in 0..6 {
            let y = z + 60.0 + 200.0 * i as f64;
            v.polyline(Pen::Bucket, [(s * 406.0, y), (s * 566.0, y + 40.0), (s * 566.0, y + 140.0), (s * 406.0, y + 180.0)]);
        }
    }
    v.polyline(Pen::Edge, [(x1, 940.0), (x1 + 300.0, 1240.0), (x1 + 300.0, 1540.0), (x1, 1240.0)]);
    v.flow_arrow((x1 + 250.0, 1350.0), (x1 + 60.0, 1150.0));
    v.polyline(Pen::Edge, [(x0, 540.0), (x0 - 250.0, 790.0), (x0 - 250.0, 1090.0), (x0, 840.0)]);
    v.rectangle(Pen::Edge, (-150.0, 1400.0), (150.0, 1800.0));
    v.hatch(Material::Concrete, vec![rectangle((x0 - 300.0, -200.0).into(), (x1 + 300.0, 0.0).into())]);
    v.rectangle(Pen::Concrete, (x0 - 300.0, -200.0), (x1 + 300.0, 0.0));
    v.label((0.0, -100.0), "CONCRETE C25/30");
    v.cutting_plane("B", (200.0, 0.0), (200.0, H), Side::Left);
    v.detail_circle("Z", (x0 + 110.0, 60.0), 90.0);

    v.dimension(Side::Below, "casing.length", (x0, 60.0), (x1, 60.0)).overall();
    v.chain(Side::Below, "feet", (x0, 0.0), [("foot.edge", (x0 + 60.0, 0.0)), ("foot.width", (x0 + 160.0, 0.0)), ("foot.clear", (x1 - 160.0, 0.0)), ("foot.width2", (x1 - 60.0, 0.0)), ("foot.edge2", (x1, 0.0))]);
    v.dimension(Side::Below, "shaft.x", (x0, 60.0), (0.0, 60.0));
    v.dimension(Side::Below, "plate", (x1 - t, 60.0), (x1, 60.0)).prefix("t=");
    v.dimension(Side::Above, "trunk", (x0, H), (x1, H));
    v.dimension(Side::Above, "door", (-150.0, 1800.0), (150.0, 1800.0));
    v.chain(Side::Above, "gaps", (x0, H), [("gap.down", (-566.0, H)), ("belt.down", (-406.0, H)), ("belt.mid", (406.0, H)), ("belt.up", (566.0, H)), ("gap.up", (x1, H))]);
    v.dimension(Side::Above, "flange", (x0 - 60.0, H + 8.0), (x1 + 60.0, H + 8.0)).overall();
    v.dimension(Side::Right, "inlet.up.sill", (x1, 60.0), (x1, 940.0));
    v.dimension(Side::Right, "inlet.up.height", (x1, 940.0), (x1, 1240.0));
    v.dimension(Side::Right, "height", (x1, 0.0), (x1 + 60.0, H + 8.0)).overall();
    v.dimension(Side::Right, "flange.t", (x1 + 60.0, H), (x1 + 60.0, H + 8.0));
    v.dimension(Side::Left, "shaft.low", (0.0, 0.0), (0.0, z));
    v.dimension(Side::Left, "takeup", (0.0, z), (0.0, z + 300.0));
    v.dimension(Side::Left, "inlet.down.sill", (x0, 60.0), (x0, 540.0));
    v.dimension(Side::Left, "inlet.down.height", (x0, 540.0), (x0, 840.0));
    v.dimension(Side::Left, "base", (x0, 0.0), (x0, 60.0));
    v.dimension(Side::Left, "base.plate", (x0, 60.0), (x0, 66.0));
    v.rows(Side::Left, "buckets", (-406.0, z + 60.0), (-406.0, z + 1060.0), 5);
    v.diameter("pulley.d", (0.0, z), 400.0);
    v.diameter("shaft.d", (0.0, z), 32.5).suffix(" h9");
    v.aligned("chute", (x1, 940.0), (x1 + 300.0, 1240.0));
    v.angle("chute.slope", (x1, 940.0), (x1 + 300.0, 940.0), (x1 + 300.0, 1240.0));
    for (i, p) in [(0.0, 800.0), (406.0, 1500.0), (566.0, 1000.0), (x1, 1700.0), (x1 + 200.0, 1440.0), (x0, 1600.0), (x0 + 100.0, 30.0), (-100.0, 1700.0), (0.0, 1240.0), (-20.0, 625.0)].into_iter().enumerate() {
        v.balloon(p, i + 1, None);
    }
    v.leader((x1 - 60.0, 66.0), "Clean-out slide over the full width, both ends, opening sealed dust tight", None);
    v.weld((x1, 66.0), Weld { tail: "dust tight".into(), both_sides: false, all_round: true, ..Weld::fillet("a3") }, Side::Right);
    v.level((x0 - 300.0, 0.0), -1850.0, "pit floor", Side::Left);
    v.level((x0 - 250.0, 1090.0), -760.0, "", Side::Left);
    v.level((x0 - 300.0, -200.0), -2050.0, "", Side::Left);
    v
}

fn side() -> Draft {
    let mut v = Draft::new("side", "");
    let w = 620.0;
    v.rectangle(Pen::Edge, (-w / 2.0, 60.0), (w / 2.0, H));
    v.rectangle(Pen::Edge, (-w / 2.0 - 60.0, H), (w / 2.0 + 60.0, H + 8.0));
    v.rectangle(Pen::Edge, (-w / 2.0, 0.0), (w / 2.0, 60.0));
    v.rectangle(Pen::Edge, (-w / 2.0 - 160.0, 620.0), (w / 2.0 + 200.0, 660.0));
    v.rectangle(Pen::Edge, (-150.0, 1400.0), (150.0, 1800.0));
    v.centre_line((0.0, 0.0), (0.0, H));
    v.centre_line((-w / 2.0 - 160.0, 640.0), (w / 2.0 + 200.0, 640.0));
    v.dimension(Side::Below, "casing.width", (-w / 2.0, 0.0), (w / 2.0, 0.0));
    v.dimension(Side::Below, "shaft.length", (-w / 2.0 - 160.0, 620.0), (w / 2.0 + 200.0, 620.0));
    v.dimension(Side::Left, "shaft.h", (-w / 2.0, 0.0), (0.0, 640.0));
    v.balloon((w / 2.0 + 150.0, 640.0), 11, None);
    v.balloon((0.0, 1500.0), 12, None);
    v.cutting_plane("A", (0.0, 0.0), (0.0, H), Side::Right);
    v
}

fn plan() -> Draft {
    let mut v = Draft::new("plan", "");
    let w = 620.0;
    v.rectangle(Pen::Edge, (-L / 2.0, -w / 2.0), (L / 2.0, w / 2.0));
    v.rectangle(Pen::FineEdge, (-L / 2.0 - 60.0, -w / 2.0 - 60.0), (L / 2.0 + 60.0, w / 2.0 + 60.0));
    v.centre_line((-L / 2.0 - 60.0, 0.0), (L / 2.0 + 60.0, 0.0));
    v.centre_line((0.0, -w / 2.0 - 60.0), (0.0, w / 2.0 + 60.0));
    for i in 0..9 {
        for s in [-1.0, 1.0] {
            v.hole(Pen::FineEdge, (-600.0 + 150.0 * i as f64, s * (w / 2.0 + 30.0)), 7.0);
        }
    }
    v.rows(Side::Below, "bolts", (-600.0, -w / 2.0 - 30.0), (600.0, -w / 2.0 - 30.0), 8);
    v.leader((-600.0 + 1.0, w / 2.0 + 37.0), "22 × ⌀14", None);
    v.dimension(Side::Right, "bolts.across", (600.0, -w / 2.0 - 30.0), (600.0, w / 2.0 + 30.0));
    v.dimension(Side::Right, "inside", (L / 2.0, -w / 2.0), (L / 2.0, w / 2.0));
    v.origin((-L / 2.0, -w / 2.0));
    v.tag((-600.0, w / 2.0 + 30.0), 7.0, "A1");
    v.tag((-450.0, w / 2.0 + 30.0), 7.0, "A2");
    v.north(60.0);
    v
}

fn detail() -> Draft {
    let mut v = Draft::new("detail-z", "DETAIL Z").at_scale(ViewScale::Ratio(2.0));
    v.hatch(Material::Metal, vec![rectangle((0.0, 0.0).into(), (6.0, 100.0).into())]);
    v.rectangle(Pen::Edge, (0.0, 0.0), (6.0, 100.0));
    v.hatch(Material::MetalOther, vec![rectangle((-30.0, -6.0).into(), (100.0, 0.0).into())]);
    v.rectangle(Pen::Edge, (-30.0, -6.0), (100.0, 0.0));
    v.dimension(Side::Above, "detail.t", (0.0, 100.0), (6.0, 100.0)).prefix("t=");
    v.dimension(Side::Left, "detail.b", (-30.0, -6.0), (-30.0, 0.0)).prefix("t=");
    v.radius("detail.r", (40.0, 40.0), (40.0 + 20.0, 40.0));
    v.circle(Pen::Edge, (40.0, 40.0), 20.0);
    v.centre_cross((40.0, 40.0), 20.0);
    v
}

fn sheet_plan() -> SheetPlan {
    let mut s = SheetPlan::new("ga", "Foot, general view", "General arrangement");
    s.tolerance = "ISO 2768-m, ISO 13920-B".into();
    s.material = "S235JR".into();
    s.finish = "primer 80 µm".into();
    s.mass_kg = Some(412.0);
    s.view(Placement::Main, elevation());
    s.view(Placement::FromLeft, side());
    s.view(Placement::FromAbove, plan());
    s.view(Placement::Free, detail());
    let mut t = Table::new("parts", "PARTS LIST").column("Item", Align::Right, 12.0).column("Qty", Align::Right, 10.0).column("Part", Align::Left, 60.0).column("Material", Align::Left, 30.0).column("Mass kg", Align::Right, 20.0).over_title_block();
    for (i, p) in ["Foot pulley ⌀800", "Belt EP 400/3", "Bucket 280", "End plate", "Inlet throat, up side, with wear plate of hardened steel", "End plate, down side", "Support foot", "Inspection door with mesh", "Take-up frame", "Foot shaft ⌀65", "Bearing, four-bolt flange", "Side plate near"].iter().enumerate() {
        t.row([format!("{}", i + 1), "1".into(), p.to_string(), "S235JR".into(), format!("{:.1}", 3.7 * (i + 1) as f64)]);
    }
    s.table(t);
    let mut h = Table::new("holes", "HOLE TABLE").column("Tag", Align::Left, 20.0).column("x", Align::Right, 20.0).column("y", Align::Right, 20.0).column("⌀", Align::Right, 20.0);
    for i in 0..8 {
        h.row([format!("A{}", i + 1), format!("{}", 20 + 150 * i), "30".into(), "14".into()]);
    }
    s.table(h);
    s.note(Notes::numbered("notes", ["All dimensions in millimetres unless stated.", "Weld seams inside continuous and dust tight; grind flush where material slides.", "Outline and loads only; reinforcement and structure by the responsible engineer."]));
    s.note(Notes::cautions("cautions", ["Combustible dust: see report.", "Lock out before opening any door.", "The pit is a confined space. Local codes and licensed practice govern."]));
    s
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).unwrap_or("target/draft_demo".into());
    std::fs::create_dir_all(&folder)?;
    let set = SetData {
        title_block: TitleBlock {
            owner: "Example Grain Cooperative".into(),
            number: "BE-1001-01".into(),
            revision: "B".into(),
            date: "2026-03-02".into(),
            creator: "N. N.".into(),
            project: "Intake line 2".into(),
            subject: "Bucket elevator foot".into(),
            spec_hash: "3f9a 77c2 01be".into(),
            program: "footwell 0.1.0".into(),
            revisions: vec![
                Revision { index: "A".into(), date: "2026-02-01".into(), change: "First issue".into(), by: "N. N.".into() },
                Revision { index: "B".into(), date: "2026-03-02".into(), change: "Sill of the up-side inlet raised by 40 mm".into(), by: "N. N.".into() },
            ],
        },
        stamp: Stamp { passed: 31, warned: 2, noted: 3, failed: vec!["inlet.up.sill".into()] },
    };
    let styles = [
        ("a3", SheetStyle { size: Format::named("A3"), ..SheetStyle::default() }),
        ("free", SheetStyle { language: "de".into(), decimal: DecimalSign::Comma, ..SheetStyle::default() }),
        ("us", SheetStyle { size: Format::named("D"), ..SheetStyle::us() }),
    ];
    for (name, style) in styles {
        let start = std::time::Instant::now();
        let mut set = set.clone();
        if name == "free" {
            set.stamp.failed.clear();
        }
        let mut sheets = lay_out(&[sheet_plan()], &set, &style);
        let took = start.elapsed();
        for s in &mut sheets {
            let t = std::time::Instant::now();
            let n = footwell::documents::ink::check_texts(&s.marks).len();
            println!("{name} {}: {} at {}, {} dimensions, {} defects, layout {:?}, ink check {:?} ({n})", s.id, s.format.name, s.scale_text, s.dimensions.len(), s.defects.len(), took, t.elapsed());
            for d in &s.defects {
                println!("   {:?} {} at ({:.0}, {:.0})", d.kind, d.message, d.x, d.y);
            }
            s.id = format!("{name}-{}", s.id);
        }
        let pages: Vec<Page> = sheets.iter().map(Page::from).collect();
        let options = Options { version: CadVersion::R2010, layers: LayerMap::own(), set_title: "demo".into(), set_stem: name.into() };
        for e in ALL.iter().filter(|e| ["svg", "dxf"].contains(&e.id())) {
            for f in e.export(&pages, &options)? {
                std::fs::write(format!("{folder}/{}", f.name), f.bytes)?;
            }
        }
    }
    Ok(())
}
