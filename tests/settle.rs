//! Settling: every starter spec settles without a message, the least possible spec gives a whole foot,
//! and default openings keep clear of each other whatever the machine.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::job::Job;
use footwell::model::Foot;
use footwell::spec::openings::Wall;
use footwell::spec::reader::Origin;
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
        // What the program itself decides must not break the program's own rules.
        let failed: Vec<_> = job.findings().items.iter().filter(|f| f.verdict == footwell::rules::Verdict::Fail && !OF_THE_DUTY.contains(&f.rule)).collect();
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
