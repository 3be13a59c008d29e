//! Fabricated parts: what is listed, cut and placed agrees for every starter and for random specs.
#![allow(clippy::unwrap_used, clippy::panic, clippy::expect_used, missing_docs)]

use footwell::cli::starters;
use footwell::export;
use footwell::job::Job;
use footwell::lists;
use footwell::lists::cutting;
use footwell::paper::cut_plate::CutFormat;
use footwell::parts::flat::HoleMade;
use footwell::parts::{FAMILIES, Kind, Parts, hole_table};
use footwell::say::Voice;
use proptest::prelude::*;
use std::collections::BTreeSet;

fn job(text: &str) -> Job {
    Job::of(text).unwrap_or_else(|problems| panic!("{problems:#?}\n{text}"))
}

/// What must hold for any foot; returns the first thing that does not.
fn check(parts: &Parts) -> Result<(), String> {
    let items: BTreeSet<u32> = parts.items.iter().map(|p| p.item).collect();
    if items.len() != parts.items.len() {
        return Err(format!("item numbers are not unique: {:?}", parts.items.iter().map(|p| p.item).collect::<Vec<_>>()));
    }
    let names: BTreeSet<String> = lists::plates(parts).map(|(p, _)| lists::file_stem(p, parts)).collect();
    if names.len() != lists::plates(parts).count() {
        return Err(format!("file names are not unique: {names:?}"));
    }
    if let Some(long) = names.iter().find(|n| n.len() > lists::NAME_LIMIT) {
        return Err(format!("{long} is too long"));
    }
    // Only letters, figures and joints that every file system takes; a US shop reads the thickness in thousandths of an inch.
    if let Some(odd) = names.iter().find(|n| parts.us && (n.contains('.') || !n.split('_').any(|t| t.len() == 5 && t.starts_with('T')))) {
        return Err(format!("{odd} names no thickness of a US plate"));
    }
    for p in &parts.items {
        if (p.kind == Kind::Plate) != p.flat.is_some() {
            return Err(format!("{}: plate without a pattern", p.id));
        }
        if p.kind == Kind::Plate && p.mass_kg.is_none_or(|m| m <= 0.0) {
            return Err(format!("{}: mass {:?}", p.id, p.mass_kg));
        }
        if p.sources.is_empty() {
            return Err(format!("{} comes from nothing", p.id));
        }
        if !p.placements.is_empty() && p.placements.len() != p.quantity as usize {
            return Err(format!("{}: {} places for {} pieces", p.id, p.placements.len(), p.quantity));
        }
        let Some(flat) = &p.flat else { continue };
        let (low, _) = flat.outer.bounds();
        if low[0].abs() > 1e-9 || low[1].abs() > 1e-9 {
            return Err(format!("{}: pattern begins at {low:?}", p.id));
        }
        for h in &flat.holes {
            if h.made == HoleMade::Cut && h.diameter < p.thickness - 1e-9 {
                return Err(format!("{}: hole {} of {} mm is cut in {} mm", p.id, h.tag, h.diameter, p.thickness));
            }
        }
        let rows = hole_table::rows(flat);
        if rows.len() != flat.holes.len() || hole_table::sizes(flat).iter().map(|s| s.count).sum::<usize>() != rows.len() {
            return Err(format!("{}: hole table does not close", p.id));
        }
    }
    let hand: BTreeSet<i64> = parts.items.iter().flat_map(|p| &p.placements).map(|p| (p.handedness() * 1e6).round() as i64).collect();
    if hand.len() > 1 {
        return Err(format!("plates of both hands: {hand:?}"));
    }
    Ok(())
}

#[test]
fn starters_are_made_whole() {
    for starter in starters::ALL {
        let job = job(starter.text);
        let parts = job.parts();
        check(parts).unwrap_or_else(|e| panic!("{}: {e}", starter.name));
        assert!(parts.defects.is_empty(), "{}: {:#?}", starter.name, parts.defects);
        for id in ["side_plate.near", "side_plate.far", "bottom", "sliding_plate", "shaft"] {
            assert!(parts.items.iter().any(|p| p.id.starts_with(id)), "{}: no {id}", starter.name);
        }
        let (kg, centre) = parts.mass_and_centre();
        assert!(kg > 100.0 && centre[1].abs() < 60.0, "{}: {kg} kg at {centre:?}", starter.name);
        let plates = cutting::cut_plates(parts, &Voice::plain());
        for format in CutFormat::ALL {
            let files = export::cutting::files(&plates, format).unwrap_or_else(|e| panic!("{}: {e}", starter.name));
            assert_eq!(files, export::cutting::files(&plates, format).unwrap());
            assert_eq!(files.len(), lists::manifest(parts).rows.len());
        }
        for list in lists::all(parts) {
            assert!(list.rows.iter().all(|r| r.len() == list.heads.len()), "{}", list.id);
        }
    }
}

/// Every bolt list entry has holes: frames and leaves of each opening have the same number.
#[test]
fn frames_and_leaves_share_their_holes() {
    for starter in starters::ALL {
        let job = job(starter.text);
        let parts = job.parts();
        for frame in parts.items.iter().filter(|p| p.id.ends_with(".frame") && !p.id.starts_with("pocket")) {
            let id = frame.id.trim_end_matches(".frame");
            let leaf = parts.part(&format!("{id}.leaf")).unwrap_or_else(|| panic!("no leaf for {id}"));
            let count = |p: &footwell::parts::Part| p.flat.iter().flat_map(|f| &f.holes).filter(|h| h.feature == id).count();
            assert!(count(frame) > 3 && count(frame) == count(leaf), "{id}");
        }
    }
}

/// A machine with its up side on the left is cut from mirror images of the same area.
#[test]
fn the_other_hand_is_the_mirror_image() {
    let text = starters::find("grain_intake").unwrap().text;
    let (right, left) = (job(text), job(&text.replace("[sheet]", "[sheet]\nhand = \"up side left\"")));
    let (right, left) = (right.parts(), left.parts());
    check(left).unwrap();
    for (a, b) in right.items.iter().zip(&left.items) {
        let (Some(f), Some(g)) = (&a.flat, &b.flat) else { continue };
        assert!((f.area() - g.area()).abs() < 1e-6);
        if f.bends.is_empty() {
            let w = f.size()[0];
            let mut mirrored: Vec<_> = f.holes.iter().map(|h| [((w - h.at[0]) * 1e6).round() as i64, (h.at[1] * 1e6).round() as i64]).collect();
            let mut found: Vec<_> = g.holes.iter().map(|h| [(h.at[0] * 1e6).round() as i64, (h.at[1] * 1e6).round() as i64]).collect();
            mirrored.sort_unstable();
            found.sort_unstable();
            assert_eq!(mirrored, found, "{}", a.id);
        }
    }
    assert!((left.items[0].placements[0].handedness() - 1.0).abs() < 1e-9);
}

#[test]
fn a_door_over_the_slot_is_reported_and_not_cut() {
    let text = format!("{}\n[[door]]\non = \"near side\"\noffset = \"0 mm\"\nsill = \"700 mm\"\n", starters::find("grain_intake").unwrap().text);
    let job = job(&text);
    let parts = job.parts();
    assert!(parts.defects.iter().map(|d| d.what.plainly()).any(|d| d.contains("door[1]") && d.contains("sliding plate")), "{:?}", parts.defects);
    assert!(parts.part("door[1].leaf").is_none());
}

/// A spout of another size: four plane walls whose inner faces have the area of the trapezoids between both openings.
#[test]
fn a_transition_is_developed_exactly() {
    for side in ["up", "down"] {
        let text = format!(
            "[duty]\ncapacity = \"60 t/h\"\nlift = \"25 m\"\n[bucket]\nlength = \"280 mm\"\nprojection = \"165 mm\"\nheight = \"180 mm\"\n[head_pulley]\ndiameter = \"800 mm\"\n[inlet.{side}]\nwidth = \"230 mm\"\nheight = \"250 mm\"\nslope = \"45 deg\"\nfrom_width = \"400 mm\"\nfrom_height = \"300 mm\"\nfrom_length = \"419 mm\"\n"
        );
        let job = job(&text);
        let parts = job.parts();
        assert!(parts.defects.is_empty(), "{:?}", parts.defects);
        let flat = |what: &str| parts.part(&format!("transition.{side}.{what}")).unwrap_or_else(|| panic!("no {what}")).flat.clone().unwrap();
        let t = 5.0;
        // Between the flanges: 419 − 3 of gasket − 8 − 12 of the tapped flange. The floor rises 419 (45°), the roof 50 more; 85 a side in width.
        let run: f64 = 396.0;
        let trapezoid = |along: f64, a: f64, b: f64, cut_at_a: bool, angle: f64| {
            // Cut back by t tan at one end so that the outer face stays clear of the flange.
            let back = t * angle.tan();
            let edge = if cut_at_a { a + (b - a) * back / along } else { b - (b - a) * back / along };
            (along - back) * if cut_at_a { (edge + b) / 2.0 } else { (a + edge) / 2.0 }
        };
        let floor = run.hypot(419.0);
        assert!((flat("floor").area() - trapezoid(floor, 230.0, 400.0, false, (419.0 / run).atan())).abs() < 1e-6, "{side} floor");
        let roof = run.hypot(469.0);
        assert!((flat("roof").area() - trapezoid(roof, 230.0, 400.0, true, (469.0 / run).atan())).abs() < 1e-6, "{side} roof");
        let cheek = run.hypot(85.0);
        assert!((flat("cheek").area() - trapezoid(cheek, 250.0, 300.0, true, (85.0 / run).atan())).abs() < 1e-6, "{side} cheek");
        let holes = |id: &str| parts.part(id).unwrap().flat.as_ref().unwrap().holes.len();
        assert_eq!(holes(&format!("transition.{side}.inner_flange")), holes(&format!("throat.{side}.flange")));
    }
}

#[test]
fn every_family_is_a_file() {
    assert!(FAMILIES.len() > 10);
    let names: BTreeSet<&str> = FAMILIES.iter().map(|f| f.0).collect();
    assert_eq!(names.len(), FAMILIES.len());
}

/// Random specs over the range of the trade: sizes, bottoms, bearings, take-ups, bend pulleys, inlets, hands, processes.
fn any_spec() -> impl Strategy<Value = String> {
    (
        (5.0..300.0f64, 8.0..60.0f64, 150.0..450.0f64, 0.45..0.65f64, 1.0..1.15f64, 500.0..2300.0f64),
        (any::<bool>(), any::<bool>(), any::<bool>(), any::<bool>(), 0..4usize, 0..3usize, any::<bool>(), 0..3usize),
    )
        .prop_map(|((capacity, lift, length, slim, tall, head), (us, curved, gravity, down, bearing, process, left, bend))| {
            let projection = (length * slim).min(280.0);
            let kinds = ["two-bolt flange", "four-bolt flange", "pillow block", "take-up frame"];
            let processes = ["laser", "plasma", "drill"];
            let mut text = format!(
                "[duty]\ncapacity = \"{capacity:.1} t/h\"\nlift = \"{lift:.2} m\"\n[bucket]\nlength = \"{length:.0} mm\"\nprojection = \"{projection:.0} mm\"\nheight = \"{:.0} mm\"\n[head_pulley]\ndiameter = \"{head:.0} mm\"\n[bearings]\nkind = \"{}\"\n[fabrication]\nprocess = \"{}\"\n",
                projection * tall, kinds[bearing], processes[process],
            );
            if us {
                text += "[project]\njurisdiction = \"us\"\n";
            }
            if curved {
                text += "[casing]\nbottom = \"curved\"\n";
            }
            if gravity {
                text += "[take_up]\nkind = \"gravity\"\n";
            }
            if down {
                text += "[inlet.up]\n[inlet.down]\n";
            }
            if left {
                text += "[sheet]\nhand = \"up side left\"\n";
            }
            if bend == 0 && head > 1500.0 {
                text += &format!("[foot_pulley]\ndiameter = \"{:.0} mm\"\n[bend_pulley]\nfitted = true\n", head * 0.55);
            }
            text
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn random_feet_are_made_whole(text in any_spec()) {
        if let Ok(job) = Job::of(&text) {
            let parts = job.parts();
            check(parts).map_err(|e| TestCaseError::fail(format!("{e}\n{text}")))?;
            let files = export::cutting::files(&cutting::cut_plates(parts, &Voice::plain()), CutFormat::R12).map_err(|e| TestCaseError::fail(format!("{e}\n{text}")))?;
            prop_assert_eq!(files.len(), lists::manifest(parts).rows.len());
        }
    }
}
