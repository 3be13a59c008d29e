//! Openings, sleeves and the way down in each wall, anchors and sump in the floor leave concrete between them.
//!
//! 100 mm between any two things that are cast in, and between openings and the corners of the pit; common practice, no source.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::model::pit::PitBody;
use crate::model::pit_cast_in::BETWEEN;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::spec::pit::AccessSide;
use crate::units::{Length, Unit};

/// Concrete between what is cast in.
pub const RULE: Rule = Rule {
    id: "pit-cast-in",
    title: "Concrete between cast-in parts",
    what: "Concrete left between feed openings, sleeves and the way down in each wall, and between anchors and sump in the floor.",
    why: "A sleeve inside an opening has no wall to sit in; an anchor at the sump's edge breaks out.",
    remedy: "Move the elevators apart, or widen the side at which they meet.",
    source: Source::practice("concrete as thick as a cover of two bars between two things that are cast in"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let pitch = pitch(case, pit);
    vec![on_walls(pit, pitch), on_floor(case, pit, pitch)]
}

/// The least distance of elevators at which neither their openings nor their anchors come too near, mm.
fn pitch(case: &Case<'_>, pit: &PitBody) -> f64 {
    let openings = pit.feed_openings.iter().map(|o| o.y.size());
    let floor = pit.on_floor(&case.foot.base);
    let first = floor.iter().filter(|f| f.elevator == 1).map(|f| f.area.y).reduce(|all, y| all.joined(&y));
    up_to(openings.chain(first.map(|y| y.size())).fold(0.0, f64::max) + BETWEEN[0], 10.0)
}

/// The closest two on any wall, or an opening at a corner.
fn on_walls(pit: &PitBody, pitch: f64) -> Finding {
    let all = pit.on_walls();
    let pairs = (0..all.len()).flat_map(|a| (a + 1..all.len()).map(move |b| (a, b)));
    let least = pairs.map(|(a, b)| (all[a].between(&all[b]), all[a].what, all[b].what)).min_by(|a, b| a.0.total_cmp(&b.0));
    let corner = all.iter().filter(|o| o.what == "feed opening").map(|o| {
        let inner = if matches!(o.wall, AccessSide::Up | AccessSide::Down) { pit.y } else { pit.x };
        ((o.along.low - inner.low).min(inner.high - o.along.high), o.what, "corner of the pit")
    });
    let nearest = least.into_iter().chain(corner).min_by(|a, b| a.0.total_cmp(&b.0)).filter(|n| n.0.is_finite());
    let Some((gap, first, second)) = nearest else {
        return RULE.finds(Verdict::Pass, "pit.pitch", "nothing lies beside anything else in a wall");
    };
    let limit = BETWEEN[0];
    let finding = RULE
        .finds(
            unless(reaches(gap, limit), Verdict::Warn),
            "pit.pitch",
            if gap < 0.0 {
                say!(
                    "in the walls {first} and {second} cut {deep} into each other; {least} of concrete are wanted",
                    first = first,
                    second = second,
                    deep = mm(-gap),
                    least = mm(limit)
                )
            } else {
                say!(
                    "in the walls {gap} of concrete stay between {first} and {second}, wanted are {least}",
                    gap = mm(gap),
                    first = first,
                    second = second,
                    least = mm(limit)
                )
            },
        )
        .value(gap, Unit::Mm)
        .limit(limit, Unit::Mm);
    if pit.elevators > 1 && (first, second) == ("feed opening", "feed opening") {
        return finding.change("pit.pitch", &Length::mm(pitch));
    }
    if second == "corner of the pit" {
        let [_, _, near, far] = pit.spaces;
        // Openings stand about the belt's middle plane: which side is short does not matter to the other.
        let more = limit - gap;
        return finding.change("pit.near_space", &Length::mm(up_to(near + more, 10.0))).change("pit.far_space", &Length::mm(up_to(far + more, 10.0)));
    }
    finding
}

/// The anchor that is closest to the sump or to another elevator's.
fn on_floor(case: &Case<'_>, pit: &PitBody, pitch: f64) -> Finding {
    let all = pit.on_floor(&case.foot.base);
    let pairs = (0..all.len()).flat_map(|a| (a + 1..all.len()).map(move |b| (a, b)));
    let others = pairs.filter(|(a, b)| all[*a].elevator != all[*b].elevator);
    let nearest = others.map(|(a, b)| (all[a].between(&all[b]), all[b].what)).min_by(|a, b| a.0.total_cmp(&b.0));
    let Some((gap, other)) = nearest else {
        return RULE.finds(Verdict::Pass, "pit.sump", "there is no sump beside the anchors");
    };
    let limit = BETWEEN[0];
    let finding = RULE
        .finds(
            unless(reaches(gap, limit), Verdict::Warn),
            "pit.sump",
            say!(
                "{gap} of concrete stay between {first} and {second}, wanted are {least}",
                gap = mm(gap),
                first = "anchor recess",
                second = other,
                least = mm(limit)
            ),
        )
        .value(gap, Unit::Mm)
        .limit(limit, Unit::Mm);
    if other == "sump" {
        // The sump stands in the corner of the down and the far side.
        let [_, down, _, far] = pit.spaces;
        let more = limit - gap.min(0.0);
        finding.change("pit.down_space", &Length::mm(up_to(down + more, 10.0))).change("pit.far_space", &Length::mm(up_to(far + more, 10.0)))
    } else {
        finding.change("pit.pitch", &Length::mm(pitch))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, mended, worst};

    const TWINS: [(&str, &str); 6] = [
        ("pit.fitted", "true"),
        ("pit.depth", "\"2.6 m\""),
        ("pit.elevators", "2"),
        ("pit.feed_distance", "\"3 m\""),
        ("pit.feed_slope", "\"45 deg\""),
        ("inlet.down.fitted", "true"),
    ];

    /// Two elevators with feeds on both sides: the cables find a wall, the openings stand apart; closer together they do not.
    #[test]
    fn twins() {
        assert_eq!(worst(&RULE, &[("pit.fitted", "false")]), None);
        let found = findings_of(&RULE, SMALL, &TWINS);
        assert!(found.iter().all(|f| f.verdict == Verdict::Pass), "{found:#?}");
        let close = [&TWINS[..], &[("pit.pitch", "\"500 mm\"")]].concat();
        let found = findings_of(&RULE, SMALL, &close);
        assert!(found.iter().any(|f| f.path == "pit.pitch" && f.verdict == Verdict::Warn), "{found:#?}");
        mended(&RULE, SMALL, &close);
    }

    /// A sump under the foot's anchors.
    #[test]
    fn a_sump_at_the_anchors() {
        let fault = [
            ("pit.fitted", "true"),
            ("pit.depth", "\"2 m\""),
            ("pit.sump", "\"900 mm\""),
            ("pit.sump_depth", "\"400 mm\""),
            ("pit.down_space", "\"600 mm\""),
            ("pit.far_space", "\"600 mm\""),
            ("pit.access_side", "\"near\""),
        ];
        let found = findings_of(&RULE, SMALL, &fault);
        assert!(found.iter().any(|f| f.path == "pit.sump" && f.verdict == Verdict::Warn), "{found:#?}");
        mended(&RULE, SMALL, &fault);
    }
}
