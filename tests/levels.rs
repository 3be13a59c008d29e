//! Levels as printed: general arrangement, pit sheet and spec say the same (civil, arrangement and spec agree).
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod support;

use footwell::paper::mark::Mark;
use footwell::paper::sheet::Sheet;
use footwell::say::number::level;
use footwell::sheets::SheetSet;
use support::{run, templates};

fn texts(marks: &[Mark], out: &mut Vec<String>) {
    for mark in marks {
        match mark {
            Mark::Text(t) => out.push(t.content.clone()),
            Mark::Group(g) => texts(&g.marks, out),
            _ => {}
        }
    }
}

fn printed(sheets: &[Sheet], id: &str) -> Vec<String> {
    let mut all = Vec::new();
    for sheet in sheets.iter().filter(|s| s.id == id || s.id.starts_with(&format!("{id}-"))) {
        texts(&sheet.marks, &mut all);
    }
    all
}

/// A lettering that is this level, alone or followed by its words.
fn shows(texts: &[String], level: &str) -> bool {
    texts.iter().any(|t| t == level || t.starts_with(&format!("{level} ")))
}

#[test]
fn arrangement_pit_sheet_and_spec_agree() {
    let mut pits = 0;
    for (name, text) in templates() {
        let job = run(&text).unwrap();
        let (spec, foot) = (job.spec(), job.foot());
        let Some(pit) = &foot.pit else { continue };
        pits += 1;
        let sheets = job.lay_out(SheetSet::Whole, None);
        let subject = job.subject();
        let (arrangement, civil) = (printed(&sheets, "ga"), printed(&sheets, "pit"));
        let depth = spec.pit.depth.value.value();
        let said = |mm: f64| level(mm, subject.style());
        assert_eq!(said(pit.level(0.0)), said(-depth));
        let mut both = vec![("pit floor", -depth), ("shaft, lowest", foot.shaft_lowest - depth), ("top flange", foot.casing.top - depth)];
        if spec.inlet_up.fitted.value {
            both.push(("up-side sill", spec.inlet_up.sill.value.value() - depth));
        }
        if spec.inlet_down.fitted.value {
            both.push(("down-side sill", spec.inlet_down.sill.value.value() - depth));
        }
        for (what, mm) in both {
            for (sheet, texts) in [("general arrangement", &arrangement), ("pit sheet", &civil)] {
                assert!(shows(texts, &said(mm)), "{name}: {what} at {} is not on the {sheet}", said(mm));
            }
        }
        for (what, mm) in [("plant floor", 0.0), ("underside of slab", -depth - pit.slab)] {
            assert!(shows(&civil, &said(mm)), "{name}: {what} at {} is not on the pit sheet", said(mm));
        }
        let drawn = sheets.iter().filter(|s| s.id.starts_with("pit")).flat_map(|s| &s.dimensions).find(|d| d.key == "pit.depth").map(|d| d.value);
        assert!(drawn.is_some_and(|v| (v - depth).abs() < 0.05), "{name}: pit depth drawn as {drawn:?}, settled as {depth}");
    }
    assert!(pits >= 4, "only {pits} starter specs have a pit");
}
