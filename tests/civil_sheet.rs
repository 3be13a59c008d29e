//! What a civil engineer asks of the drawings, judged on the finished pit sheets of every starter.
//!
//! Read from the ink itself: texts, strokes and dimensions with their places on paper. What a point means and
//! how it is judged stands at its function; a point bears the same name in the scorecard of `tests/outside`.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::model::holds::holds;
use footwell::model::pit::PitBody;
use footwell::paper::mark::{Dimension, Mark, Measure, PaperPoint, PlanePoint, Shape, Text};
use footwell::paper::sheet::Sheet;
use footwell::paper::style::Pen;
use footwell::say::number::level;
use footwell::sheets::{SheetSet, Subject};
use support::{run, templates};

/// The civil set of one starter.
struct Set<'a> {
    name: &'a str,
    job: &'a Job,
    pit: &'a PitBody,
    subject: Subject<'a>,
    sheets: &'a [Sheet],
}

impl Set<'_> {
    fn texts(&self) -> Vec<&Text> {
        self.sheets.iter().flat_map(texts).collect()
    }
    /// Whether some text is this, alone or with words after it.
    fn prints(&self, wanted: &str) -> bool {
        self.texts().iter().any(|t| t.content == wanted || t.content.starts_with(&format!("{wanted} ")))
    }
    /// All lettering in reading order, lines of wrapped notes joined.
    fn prose(&self) -> String {
        self.texts().iter().map(|t| t.content.as_str()).collect::<Vec<_>>().join(" ")
    }
    fn dimension(&self, key: &str) -> (&Sheet, &Dimension) {
        self.sheets
            .iter()
            .find_map(|s| dimensions(s).into_iter().find(|d| d.key == key).map(|d| (s, d)))
            .unwrap_or_else(|| panic!("{}: {key} is not dimensioned", self.name))
    }
    fn value(&self, key: &str) -> f64 {
        self.dimension(key).1.value
    }
    fn level(&self, z: f64) -> String {
        level(self.pit.level(z), self.subject.style())
    }
}

fn texts(sheet: &Sheet) -> Vec<&Text> {
    let mut all = Vec::new();
    for mark in &sheet.marks {
        mark.walk(&mut |m| {
            if let Mark::Text(t) = m {
                all.push(t);
            }
        });
    }
    all
}

fn dimensions(sheet: &Sheet) -> Vec<&Dimension> {
    let mut all = Vec::new();
    for mark in &sheet.marks {
        mark.walk(&mut |m| {
            if let Mark::Dimension(d) = m {
                all.push(d.as_ref());
            }
        });
    }
    all
}

/// Corners of every closed triangle drawn as a symbol.
fn triangles(sheet: &Sheet) -> Vec<Vec<PaperPoint>> {
    let mut all = Vec::new();
    for mark in &sheet.marks {
        mark.walk(&mut |m| {
            if let Mark::Path(p) = m
                && p.pen == Pen::Symbol
                && let Shape::Polyline { vertices, closed: true } = &p.shape
                && vertices.len() == 3
            {
                all.push(vertices.iter().map(|v| v.at).collect());
            }
        });
    }
    all
}

/// Solid arrows of material flow: filled polygons of seven corners.
fn flow_arrows(sheet: &Sheet) -> usize {
    let mut count = 0;
    for mark in &sheet.marks {
        mark.walk(&mut |m| {
            if let Mark::Hatch(h) = m
                && h.pen == Pen::Symbol
                && matches!(h.loops.first(), Some(Shape::Polyline { vertices, .. }) if vertices.len() == 7)
            {
                count += 1;
            }
        });
    }
    count
}

/// Runs a judgement over all starters that have a pit.
fn each(judge: impl Fn(&Set<'_>)) {
    let mut pits = 0;
    for (name, text) in templates() {
        let job = run(&text).unwrap();
        let Some(pit) = &job.foot().pit else { continue };
        pits += 1;
        let sheets = job.lay_out(SheetSet::Civil, None);
        judge(&Set { name: &name, job: &job, pit, subject: job.subject(), sheets: &sheets });
    }
    assert!(pits >= 4, "only {pits} starters have a pit");
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 0.05
}

/// Clear length, width and depth are dimensioned with the model's values; distances of the walls start at one
/// point, which is drawn at the crossing of foot shaft axis and belt middle plane and named.
#[test]
fn clear_sizes_from_one_setting_out_point() {
    each(|set| {
        let (p, name) = (set.pit, set.name);
        assert!(near(set.value("pit.length"), p.x.size()) && near(set.value("pit.width"), p.y.size()) && near(set.value("pit.depth"), p.depth), "{name}");
        assert!(near(set.value("pit.x_up") + set.value("pit.x_down"), p.x.size()), "{name}: chain along the machine");
        assert!(near(set.value("pit.y_near") + set.value("pit.y_far"), p.y.size()), "{name}: chain across the machine");
        for (key, upright) in [("pit.x_up", false), ("pit.x_down", false), ("pit.y_near", true), ("pit.y_far", true), ("base.anchor_up", false)] {
            let (sheet, d) = set.dimension(key);
            let plan = sheet.views.iter().find(|v| v.id == "plan").unwrap_or_else(|| panic!("{name}: {key} is not in the plan"));
            let point = plan.paper(PlanePoint::new(0.0, 0.0));
            let Measure::Linear { first, second, .. } = d.measure else { panic!("{name}: {key} is not a length") };
            let at = |q: PaperPoint| if upright { (q.y - point.y).abs() } else { (q.x - point.x).abs() };
            assert!(at(first).min(at(second)) < 1e-6, "{name}: {key} does not start at the setting-out point");
        }
        assert!(set.prose().contains(&set.subject.say("setting-out point")), "{name}");
    });
}

/// Levels at plant floor, pit floor, sump, foot shaft and the sill of every inlet, equal to the model's.
#[test]
fn levels_of_floors_shaft_and_sills() {
    each(|set| {
        let mut wanted = vec![("plant floor", set.pit.depth), ("pit floor", 0.0), ("foot shaft", set.job.foot().shaft_lowest), ("slab", -set.pit.slab)];
        wanted.extend(set.pit.sump.map(|s| ("sump", -s.depth)));
        wanted.extend(set.job.foot().inlets.iter().map(|i| ("sill", i.sill)));
        for (what, z) in wanted {
            assert!(set.prints(&set.level(z)), "{}: {what} {} is not on the pit sheets", set.name, set.level(z));
        }
    });
}

/// Every level text has sign and three decimals of a metre (feet and inches on US sheets) and a drawn triangle
/// whose tip touches its line within a few millimetres.
#[test]
fn every_level_has_sign_and_symbol() {
    each(|set| {
        let mut levels = 0;
        for sheet in set.sheets {
            let symbols = triangles(sheet);
            for t in texts(sheet) {
                let number = t.content.split(' ').next().unwrap_or_default();
                // Levels beside a view are lettered with the pen of symbols; sentences that quote one are not.
                if t.pen != Pen::Symbol || !t.content.starts_with(['±', '+', '−']) {
                    continue;
                }
                levels += 1;
                let metric = number.chars().skip(1).all(|c| c.is_ascii_digit() || c == '.') && number.rsplit('.').next().is_some_and(|d| d.len() == 3);
                let imperial = number.contains("'-");
                assert!(if set.subject.us() { imperial } else { metric }, "{}: {}", set.name, t.content);
                let beside = symbols.iter().flatten().any(|c| (c.x - t.at.x).hypot(c.y - t.at.y) < 8.0);
                assert!(beside, "{}: no triangle at {}", set.name, t.content);
            }
        }
        assert!(levels >= 8, "{}: only {levels} levels", set.name);
    });
}

/// A row for every load case with the vertical on each of the four pads, their sum and the horizontals, in the
/// sheet's unit and named unfactored; the cases include empty, running, starting, flooded and blocked.
#[test]
fn load_table_has_every_case_and_pad() {
    each(|set| {
        let table = group(set, "table.loads");
        let kip = if set.subject.us() { 4.448_222 } else { 1.0 };
        let shown = |kn: f64| set.subject.number(if (kn / kip).abs() < 0.05 { 0.0 } else { kn / kip }, 1);
        for case in &set.job.results().loads.cases {
            assert_eq!(case.pads.len(), 4, "{}", set.name);
            let numbers: Vec<String> = case
                .pads
                .iter()
                .map(|p| shown(p.vertical_kn))
                .chain([shown(case.vertical_kn), shown(case.horizontal_kn), shown(case.any_direction_kn)])
                .collect();
            // One row: texts on one base line.
            let rows = rows(&table);
            assert!(rows.iter().any(|r| numbers.iter().all(|n| r.contains(n))), "{}: {} {numbers:?} in {rows:?}", set.name, case.id);
        }
        let ids: Vec<&str> = set.job.results().loads.cases.iter().map(|c| c.id).collect();
        for word in ["empty", "running", "starting", "flooded", "blocked"] {
            assert!(ids.iter().any(|id| id.contains(word)), "{}: no case {word} in {ids:?}", set.name);
        }
        assert!(set.prose().contains("UNFACTORED") && set.prose().contains("SIGNS OF THE LOADS"), "{}", set.name);
    });
}

/// Texts of a table or note block of the set.
fn group<'s>(set: &'s Set<'_>, id: &str) -> Vec<&'s Text> {
    let mut all = Vec::new();
    for sheet in set.sheets {
        for mark in &sheet.marks {
            mark.walk(&mut |m| {
                if let Mark::Group(g) = m
                    && g.id == id
                {
                    g.marks.iter().for_each(|m| {
                        m.walk(&mut |m| {
                            if let Mark::Text(t) = m {
                                all.push(t);
                            }
                        });
                    });
                }
            });
        }
    }
    assert!(!all.is_empty(), "{}: no {id}", set.name);
    all
}

fn rows(texts: &[&Text]) -> Vec<Vec<String>> {
    let mut rows: Vec<(f64, Vec<String>)> = Vec::new();
    for t in texts {
        match rows.iter_mut().find(|(y, _)| (y - t.at.y).abs() < 0.1) {
            Some((_, row)) => row.push(t.content.clone()),
            None => rows.push((t.at.y, vec![t.content.clone()])),
        }
    }
    rows.into_iter().map(|r| r.1).collect()
}

/// The plan dimensions the anchors and names the four pads; the table gives x and y of every bolt of every
/// elevator from the setting-out point; an enlarged detail shows bolt, projection, embedment and grout.
#[test]
fn anchors_from_the_setting_out_point() {
    each(|set| {
        let base = &set.job.foot().base;
        let a = base.pads.iter().find(|p| p.name == "A").unwrap().anchor;
        assert!(near(set.value("base.anchor_up"), a.x) && near(set.value("base.anchors_y"), 2.0 * a.y), "{}", set.name);
        for pad in ["A", "B", "C", "D"] {
            assert!(set.texts().iter().any(|t| t.content == pad), "{}: pad {pad}", set.name);
        }
        let rows = rows(&group(set, "table.anchors"));
        for (elevator, pad, at) in set.pit.anchors(base) {
            let cells = [elevator.to_string(), pad.to_string(), set.subject.mm(at.x), set.subject.mm(at.y)];
            assert!(rows.iter().any(|r| cells.iter().all(|c| r.contains(c))), "{}: {cells:?}", set.name);
        }
        for (key, value) in
            [("base.anchor.projection", base.anchor.projection), ("base.anchor.embedment", base.anchor.embedment), ("base.anchor.grout", base.anchor.grout)]
        {
            assert!(near(set.value(key), value), "{}: {key}", set.name);
        }
        assert!(set.prose().contains(base.bolt), "{}", set.name);
    });
}

/// The four clear spaces are dimensioned as built and the rule on them judged each of them.
#[test]
fn clear_spaces_dimensioned_and_judged() {
    each(|set| {
        let judged: Vec<_> = set.job.findings().of("pit-clearance").collect();
        assert_eq!(judged.len(), 4, "{}", set.name);
        for (key, space) in ["pit.up_space", "pit.down_space", "pit.near_space", "pit.far_space"].into_iter().zip(set.pit.spaces) {
            assert!(near(set.value(key), space), "{}: {key}", set.name);
            let finding = judged.iter().find(|f| f.path == key).unwrap_or_else(|| panic!("{}: {key} is not judged", set.name));
            assert!(finding.value.is_some_and(|v| near(v.value, space)), "{}: {key}", set.name);
        }
    });
}

/// North as an arrow where its direction is given, else said to be on hold; an arrow of the material for every
/// inlet; the side of the way down is named.
#[test]
fn north_up_side_and_access_side() {
    each(|set| {
        let prose = set.prose();
        if set.job.spec().pit.up_side_bearing.value.is_some() {
            assert!(set.texts().iter().any(|t| t.content == "N" && t.pen == Pen::Symbol), "{}: no north arrow", set.name);
        } else {
            assert!(prose.contains("North is not given: HOLD"), "{}", set.name);
        }
        let arrows: usize = set.sheets.iter().map(flow_arrows).sum();
        assert!(arrows >= set.job.foot().inlets.len(), "{}: {arrows} arrows", set.name);
        assert!(prose.contains("access side") && prose.contains("up side"), "{}", set.name);
    });
}

/// The plan's and the loads' sheet say that structure is the responsible engineer's, and cautions are printed.
#[test]
fn structure_left_to_the_responsible_engineer() {
    each(|set| {
        for id in ["pit", "pit-loads"] {
            let with = set.sheets.iter().filter(|s| s.id == id || s.id == format!("{id}-2"));
            let prose: String = with.flat_map(|s| texts(s)).map(|t| format!("{} ", t.content)).collect();
            assert!(prose.contains("Outline and loads only.") && prose.contains("responsible engineer"), "{}: {id}", set.name);
        }
        assert!(set.prose().contains("CONFINED SPACE") && set.prose().contains("licensed practice"), "{}", set.name);
    });
}

/// Every value on hold stands in the table of holds, and dimensions of held keys carry the word; those of given
/// keys do not.
#[test]
fn values_on_hold_marked_and_listed() {
    each(|set| {
        let open = holds(set.job.spec());
        let table: Vec<String> = group(set, "table.holds").iter().map(|t| t.content.clone()).collect();
        for hold in open.iter().filter(|h| !h.path.is_empty()) {
            assert!(table.iter().any(|t| t == hold.path), "{}: {} is not in the table", set.name, hold.path);
        }
        let mut marked = 0;
        for key in ["pit.wall", "pit.slab", "pit.lean", "pit.toe", "pit.feed_distance"] {
            let Some(text) = set.sheets.iter().flat_map(dimensions).find(|d| d.key == key).map(|d| d.text.clone()) else { continue };
            let held = open.iter().any(|h| h.path == key);
            assert_eq!(text.ends_with("HOLD"), held, "{}: {key} is lettered {text}", set.name);
            marked += usize::from(held);
        }
        assert!(marked > 0, "{}", set.name);
    });
}

/// Every level of the general arrangement is on the pit sheets, and the pit's given sizes are drawn as given.
#[test]
fn arrangement_and_pit_sheets_agree() {
    each(|set| {
        let whole = set.job.lay_out(SheetSet::Whole, None);
        let arrangement: Vec<&str> = whole
            .iter()
            .filter(|s| s.id == "ga" || s.id.starts_with("ga-"))
            .flat_map(texts)
            .filter(|t| t.pen == Pen::Symbol && t.content.starts_with(['±', '+', '−']))
            .map(|t| t.content.as_str())
            .collect();
        assert!(arrangement.len() >= 4, "{}: {arrangement:?}", set.name);
        for text in arrangement {
            let number = text.split("  ").next().unwrap_or(text).trim();
            assert!(set.prints(number), "{}: {text} of the general arrangement is not on the pit sheets", set.name);
        }
        let pit = &set.job.spec().pit;
        for (key, value) in [("pit.wall", &pit.wall), ("pit.slab", &pit.slab), ("pit.depth", &pit.depth)] {
            assert!(near(set.value(key), value.value.value()), "{}: {key}", set.name);
        }
    });
}

/// US sheets print US units throughout: no metric unit in any lettering.
#[test]
fn us_sheets_have_no_metric_unit() {
    let mut seen = 0;
    each(|set| {
        if set.subject.us() {
            for t in set.texts() {
                for unit in [" mm", " kN", "m³", " m²", " kg", "t/m3", "t/m³", " N/mm"] {
                    assert!(!t.content.contains(unit), "{}: {}", set.name, t.content);
                }
            }
        }
    });
    for (_, text) in templates() {
        seen += usize::from(text.contains("jurisdiction = \"us\""));
    }
    assert!(seen > 0);
}

/// Walls whose space is left out stand on whole steps from the axes.
#[test]
fn walls_stand_on_the_module() {
    each(|set| {
        let spec = &set.job.spec().pit;
        let module = spec.module.value.value();
        let sides =
            [(&spec.up_space, set.pit.x.high), (&spec.down_space, -set.pit.x.low), (&spec.near_space, set.pit.y.high), (&spec.far_space, -set.pit.y.low)];
        for (space, face) in sides {
            let steps = face / module;
            assert!(space.is_given() || (steps - steps.round()).abs() < 1e-6, "{}: a wall at {face} of {module}", set.name);
        }
    });
}
