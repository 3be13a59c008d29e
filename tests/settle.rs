//! Settling: every starter spec settles without a message, the least possible spec gives a whole foot,
//! and default openings keep clear of each other whatever the machine.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::job::Job;
use footwell::model::Foot;
use footwell::say::{Statement, Value, Words};
use footwell::spec::Spec;
use footwell::spec::openings::Wall;
use footwell::spec::reader::Origin;
use footwell::units::Unit;
use proptest::prelude::*;

fn settled(text: &str) -> Job {
    let job = Job::of(text).unwrap();
    assert!(job.warnings().items.is_empty(), "{:#?}", job.warnings());
    job
}

/// A wall, its rectangles with name: across low, across high, up low, up high.
type Rectangle = (Wall, String, [f64; 4]);

/// Everything that takes up room on a wall of the foot.
fn rectangles(foot: &Foot) -> Vec<Rectangle> {
    let mut all: Vec<Rectangle> = foot.openings.iter().map(|o| (o.wall, o.id.clone(), [o.across.low, o.across.high, o.up.low, o.up.high])).collect();
    for inlet in &foot.inlets {
        let wall = if inlet.side == footwell::model::inlets::FeedSide::Up { Wall::UpEnd } else { Wall::DownEnd };
        all.push((wall, format!("inlet.{}", inlet.side.key()), [inlet.width.low, inlet.width.high, inlet.opening.low, inlet.opening.high]));
    }
    if let Some(p) = &foot.pocket {
        let wall = if p.side == footwell::spec::inlets::Side::Near { Wall::Near } else { Wall::Far };
        all.push((wall, "shovel_pocket".into(), [p.x.low, p.x.high, p.z.low, p.z.high]));
    }
    let plate = &foot.rotating.sliding_plate;
    for wall in [Wall::Near, Wall::Far] {
        all.push((wall, "sliding plate, all positions".into(), [plate.x.low, plate.x.high, plate.z.low, plate.z.high + foot.rotating.travel]));
    }
    all
}

/// Two openings whose frames (30 mm all round) lie on each other.
fn clashes(foot: &Foot) -> Vec<String> {
    let all = rectangles(foot);
    let mut found = Vec::new();
    for (i, a) in all.iter().enumerate() {
        for b in &all[i + 1..] {
            let (p, q) = (a.2, b.2);
            let gap = if a.1.starts_with("sliding") || b.1.starts_with("sliding") { 29.9 } else { 59.9 };
            if a.0 == b.0 && p[0] < q[1] + gap && q[0] < p[1] + gap && p[2] < q[3] + gap && q[2] < p[3] + gap {
                found.push(format!("{:?}: {} {:?} and {} {:?}", a.0, a.1, p, b.1, q));
            }
        }
    }
    found
}

#[test]
fn starters_settle_without_a_message() {
    for starter in footwell::cli::starters::ALL {
        let job = settled(starter.text);
        assert!(clashes(job.foot()).is_empty(), "{}: {:#?}", starter.name, clashes(job.foot()));
        for line in job.spec().settled_lines() {
            if let Origin::Default { reason, source } = &line.origin {
                assert!(reason.plainly().len() > 3, "{}: {} has no reason", starter.name, line.path);
                assert!(!source.said().plainly().is_empty());
            }
        }
    }
}

/// Rules that judge what the user asked for: a duty too large for the bucket, a head pulley too small for the belt.
const OF_THE_DUTY: &[&str] = &["capacity-rated", "foot-pulley-minimum"];

/// A statement and everything said within it.
fn within<'a>(said: &'a Statement, all: &mut Vec<&'a Statement>) {
    all.push(said);
    for (_, value) in &said.values {
        match value {
            Value::Said(one) => within(one, all),
            Value::All(many) => many.iter().for_each(|one| within(one, all)),
            _ => {}
        }
    }
}

/// Whether a figure with a unit stands in a text.
fn has_typed_unit(text: &str) -> bool {
    let words: Vec<&str> = text.split([' ', ',', ';', ':', '(', ')']).collect();
    let unit =
        |word: &str| Unit::ALL.iter().any(|u| !u.symbol().is_empty() && (u.symbol() == word || u.customary().is_some_and(|c| c.1 == word)) || word == "ft");
    // "1 in 100" is a slope.
    words.windows(2).any(|w| w[0].parse::<f64>().is_ok() && w[1] != "in" && unit(w[1]))
}

/// What is wrong with the reasons of a spec: words without German, units in words or names.
fn badly_said(spec: &Spec) -> Vec<String> {
    let german = Words::of("de");
    let mut wrong = Vec::new();
    for line in spec.settled_lines() {
        let Origin::Default { reason, source } = &line.origin else { continue };
        wrong.extend(german.missing(reason).into_iter().chain(german.missing(&source.said())).map(|words| format!("{}: no German for \"{words}\"", line.path)));
        let mut all = Vec::new();
        within(reason, &mut all);
        for said in all {
            let names = said.values.iter().filter_map(|(_, value)| if let Value::Name(name) = value { Some(name.as_str()) } else { None });
            wrong.extend(std::iter::once(said.words).chain(names).filter(|t| has_typed_unit(t)).map(|t| format!("{}: a unit in \"{t}\"", line.path)));
        }
    }
    wrong
}

/// Keys that lead to reasons which no starter has.
const SELDOM: &[&str] = &[
    "[take_up]\nkind = \"gravity\"\n[pit]\naccess = \"stair\"\nelevators = 2\nmodule = \"0 mm\"\n[sheet]\nlanguage = \"de\"\n",
    "[product]\npreset = \"sand\"\ndensity = \"2.5 t/m3\"\n[belt]\ncarcass = \"steel cord\"\n",
    "[inlet.down]\nfrom_width = \"600 mm\"\n[casing]\nbottom = \"curved\"\n[foot_pulley]\ndiameter = \"600 mm\"\n[bend_pulley]\nheight = \"4 m\"\n",
    "[[door]]\non = \"down end\"\n[[revision]]\ntext = \"first issue\"\n[inlet.up]\nsill = \"4 m\"\n[pit]\ndepth = \"2 m\"\n",
    "[product]\nkind = \"meal\"\n[shovel_pocket]\nside = \"far\"\n[sheet]\nunit = \"inch\"\n[bearings]\nkind = \"pillow block\"\n",
];

#[test]
fn reasons_speak_german_and_leave_units_to_their_values() {
    assert!(has_typed_unit("at least 600 mm wide") && has_typed_unit("at (4.5 ft)") && !has_typed_unit("1 in 100: M12, D2"));
    let least = "[duty]\ncapacity = \"100 t/h\"\nlift = \"25 m\"\n[bucket]\nlength = \"280 mm\"\nprojection = \"165 mm\"\nheight = \"180 mm\"\n";
    let seldom = SELDOM.iter().flat_map(|more| ["630 mm", "2300 mm"].map(|head| format!("{least}[head_pulley]\ndiameter = \"{head}\"\n{more}")));
    for text in footwell::cli::starters::ALL.iter().map(|s| s.text.to_string()).chain(seldom) {
        let job = Job::of_contradicting(&text).unwrap();
        assert_eq!(badly_said(job.spec()), Vec::<String>::new(), "{text}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, rng_seed: proptest::test_runner::RngSeed::Fixed(7), failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn a_duty_a_bucket_and_a_head_pulley_give_a_whole_foot(
        capacity in 5.0..400.0f64, lift in 8.0..60.0f64, length in 150.0..450.0f64, slim in 0.45..0.65f64,
        tall in 1.0..1.15f64, head in 450.0..2050.0f64, us in any::<bool>(),
    ) {
        let projection = (length * slim).min(280.0);
        let text = format!(
            "[duty]\ncapacity = \"{capacity:.1} t/h\"\nlift = \"{lift:.2} m\"\n[bucket]\nlength = \"{length:.0} mm\"\nprojection = \"{projection:.0} mm\"\nheight = \"{:.0} mm\"\n[head_pulley]\ndiameter = \"{head:.0} mm\"\n{}",
            projection * tall,
            if us { "[project]\njurisdiction = \"us\"\n" } else { "" },
        );
        let job = settled(&text);
        prop_assert!(clashes(job.foot()).is_empty(), "{:#?}\n{text}", clashes(job.foot()));
        prop_assert_eq!(badly_said(job.spec()), Vec::<String>::new());
        // What the program itself decides must not break the program's own rules.
        // A feed that the buckets cannot carry fills the foot while the belt runs; how soon when it stands says nothing of a default.
        let overfed = job.findings().failed.contains(&"capacity-rated");
        let of_the_duty = |rule: &str| OF_THE_DUTY.contains(&rule) || (overfed && rule == "time-to-plug");
        let failed: Vec<_> = job.findings().items.iter().filter(|f| f.verdict == footwell::rules::Verdict::Fail && !of_the_duty(f.rule)).collect();
        prop_assert!(failed.is_empty(), "{failed:#?}\n{text}");
        // The same spec settles to the same values.
        let again = settled(&text);
        prop_assert_eq!(again.spec(), job.spec());
    }
}

/// A very small foot pulley with the heavy shaft of a tall elevator: the panels stand further out, beside the sliding plate.
#[test]
fn panels_keep_clear_of_a_wide_sliding_plate() {
    for (jurisdiction, kind) in [("iso", "two-bolt flange"), ("us", "two-bolt flange"), ("iso", "four-bolt flange"), ("iso", "pillow block")] {
        let text = format!(
            "[duty]\ncapacity = \"353.8 t/h\"\nlift = \"55.9 m\"\n[bucket]\nlength = \"150 mm\"\nprojection = \"68 mm\"\nheight = \"68 mm\"\n\
             [head_pulley]\ndiameter = \"450 mm\"\n[bearings]\nkind = \"{kind}\"\n[project]\njurisdiction = \"{jurisdiction}\"\n"
        );
        let job = settled(&text);
        assert!(clashes(job.foot()).is_empty(), "{kind}: {:#?}", clashes(job.foot()));
        let met: Vec<_> = job.findings().of("openings-overlap").filter(|f| f.verdict != footwell::rules::Verdict::Pass).collect();
        assert!(met.is_empty(), "{kind}: {met:#?}");
    }
}

#[test]
fn a_door_over_the_shaft_slot_is_seen_as_a_clash() {
    let text = format!("{}\n[[door]]\non = \"near side\"\noffset = \"0 mm\"\nsill = \"700 mm\"\n", footwell::cli::starters::find("grain_intake").unwrap().text);
    let job = settled(&text);
    assert!(clashes(job.foot()).iter().any(|c| c.contains("door[1]") && c.contains("sliding plate")), "{:?}", clashes(job.foot()));
}
