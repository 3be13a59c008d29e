//! Free sizes come out whole: what nobody asked for is set out in whole or half millimetres (thirty-seconds of an inch in US
//! jobs), the casing's outside in steps of 5 mm (a quarter inch), over the range of buckets.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::job::Job;
use footwell::paper::request::Quantity;

/// A spec of only what must be given, for a bucket so long in steps of 20 mm or of an inch.
fn least(steps: u32, us: bool) -> String {
    let (unit, size) = if us { ("in", 1) } else { ("mm", 20) };
    let [height, projection] = [(0.64 * f64::from(steps)).ceil(), (0.59 * f64::from(steps)).ceil()].map(|s| s * f64::from(size));
    let head = (2.2 * f64::from(steps)).round().max(10.0) * f64::from(size);
    let (duty, lift) = ((steps * steps).div_ceil(4), 10 + steps);
    let us = if us { "[project]\njurisdiction = \"us\"\n" } else { "" };
    let length = steps * size;
    format!(
        "{us}[product]\nname = \"wheat\"\n[duty]\ncapacity = \"{duty} t/h\"\nlift = \"{lift} m\"\n[head_pulley]\ndiameter = \"{head} {unit}\"\n\
        [bucket]\nlength = \"{length} {unit}\"\nheight = \"{height} {unit}\"\nprojection = \"{projection} {unit}\"\n"
    )
}

/// Dimensions that follow from others, by key (`*` is anything), and why they are as they are.
const FOLLOW: &[(&str, &str)] = &[
    ("belt.*", "thickness and path of the belt"),
    ("*clearance*", "clearances take what whole outsides leave"),
    ("*.mesh_distance", "a clearance"),
    ("*.neutral_radius", "half a belt further out than the pulley"),
    ("bucket.*", "the buckets"),
    ("pit.rail.knee", "half way between rail and toe board"),
    ("part.throat.*", "sheared along a slope"),
    ("part.pocket.*", "sheared along a slope"),
    ("shovel_pocket.reach", "where the sloping floor meets its lip"),
    ("pit.*_space", "what a pit in coarse steps leaves beside the machine"),
    ("part.*pulley.*", "circles within the pulley, and arcs rolled"),
    ("part.*mesh_frame.opening*", "the opening less its play"),
    ("part.foot.leg*", "as high as the bottom's stock plate lets it"),
    ("part.stiffener*", "between stock plates"),
    ("part.lifting_lug.corner.*", "where its slope runs into the round of the eye"),
    ("bearings.*", "the unit's own holes"),
    ("*.keyway.*", "of the key's standard"),
    ("shaft.zone*", "seats longer than their bearings"),
    ("shaft.pilot_depth", "of the centre hole's standard"),
    ("shaft.sink", "of the centre hole's standard"),
    ("shaft.tap_drill", "of the thread"),
    ("*.holes.*", "rows whose ends are as far as the bolts ask; the pitches stand in the test of rows"),
    ("*.opening.x", "from an edge that a splice or a stock plate has"),
    ("*.opening.y", "from an edge that a splice or a stock plate has"),
];

/// Whether a text has the form of a pattern in which `*` is anything.
fn like(pattern: &str, text: &str) -> bool {
    match pattern.split_once('*') {
        None => pattern == text,
        Some((before, after)) => {
            text.strip_prefix(before).is_some_and(|rest| after.is_empty() || (0..=rest.len()).any(|i| rest.get(i..).is_some_and(|tail| like(after, tail))))
        }
    }
}

fn off(value: f64, step: f64) -> f64 {
    (value - (value / step).round() * step).abs()
}

/// What a job has that is not whole, a line each.
fn broken(job: &Job, us: bool) -> Vec<String> {
    let (fine, outside) = if us { (25.4 / 32.0, 25.4 / 4.0) } else { (0.5, 5.0) };
    let mut out = Vec::new();
    for plan in job.plans() {
        for view in &plan.views {
            for d in view.draft.dimensions.iter().filter(|d| !matches!(d.quantity, Quantity::Angle { .. })) {
                if off(d.value(), fine) > 0.01 && !FOLLOW.iter().any(|(key, _)| like(key, &d.key)) {
                    out.push(format!("{}/{} {} = {:.3}", plan.id, view.draft.id, d.key, d.value()));
                }
            }
        }
    }
    let casing = &job.foot().casing;
    let plates = 2.0 * casing.plate;
    let down = casing.down_face[0][0];
    for (what, value) in
        [("width", casing.width.size() + plates), ("up side", casing.up_face + casing.plate), ("down side", casing.plate - down), ("height", casing.top)]
    {
        if off(value, outside) > 0.001 {
            out.push(format!("casing, {what}: {value:.3}"));
        }
    }
    out
}

#[test]
fn free_sizes_are_whole() {
    for (us, sizes) in [(false, [5, 12, 21, 45]), (true, [4, 9, 16, 35])] {
        for steps in sizes {
            let job = Job::of(&least(steps, us)).unwrap();
            let found = broken(&job, us);
            assert!(found.is_empty(), "us {us}, {steps} steps:\n{}", found.join("\n"));
            let casing = &job.foot().casing;
            println!(
                "us {us}: bucket {:>6.1}  casing {:>7.1} × {:>6.1} × {:>6.1}  shaft at {:>6.1}, travel {:>5.1}",
                job.foot().bucket.length,
                casing.up_face + 2.0 * casing.plate - casing.down_face[0][0],
                casing.width.size() + 2.0 * casing.plate,
                casing.top,
                job.foot().pulleys.foot.centre.z,
                job.foot().rotating.travel
            );
        }
    }
}

/// What is asked for is not rounded: a clearance of the spec stands as it is, and then the outside is not whole.
#[test]
fn what_is_asked_for_stands() {
    let text = format!("{}[casing]\nup_clearance = \"61.3 mm\"\n", least(12, false));
    let job = Job::of(&text).unwrap();
    let at = |text: &str| Job::of(text).unwrap().foot().casing.up_face;
    let tight = format!("{}[casing]\nup_clearance = \"60.3 mm\"\n", least(12, false));
    assert!((at(&text) - at(&tight) - 1.0).abs() < 1e-6);
    assert!(broken(&job, false).iter().any(|line| line.starts_with("casing, up side")));
}
