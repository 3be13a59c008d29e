//! The foot pulley comes out of the foot without cutting steel: shaft along its axis, then the bare pulley through its panel.
//!
//! Sizes of the opening by the pulley's, heights that its axis can be brought to inside, room before the panel in the pit. That every
//! body passes on its way is shown by the proof of removal; rule and proof are held together by a test.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::foot_heights::{BEND_ROOM, OVER_EDGE, beside_full_width};
use crate::formulas::removal::{BEFORE_PANEL, BETWEEN_FRAMES, CLEAR, End, LEAST, OPENING, UNDER_BEND, room};
use crate::model::Foot;
use crate::model::inlets::FeedSide;
use crate::model::openings::{Opening, OpeningKind};
use crate::say;
use crate::say::mm;
use crate::spec::openings::{RemovalEnd, Wall};
use crate::spec::project::Status;
use crate::units::{Length, Unit};

/// The way out for the foot pulley.
pub const RULE: Rule = Rule {
    id: "pulley-comes-out",
    title: "Foot pulley comes out",
    what: "Whether an end plate has a bolted panel that the foot pulley passes once its shaft is drawn along its axis, and room before it.",
    why: "A worn rim or hub is changed in a shift where the pulley comes out through a panel; where it does not, the casing is cut open and welded again, \
          with a fire watch where dust can burn.",
    remedy: "Bolt a panel into an end plate, over the whole inside width and higher than the pulley, where no inlet, door or bend is in its way.",
    source: OPENING,
    check,
};

/// Step of what is proposed, mm.
const STEP: f64 = 5.0;

/// Where the pulley's axis can be brought inside the casing, shaft drawn.
fn axis(foot: &Foot) -> [f64; 2] {
    let radius = foot.pulleys.foot.radius();
    let top = foot.casing.top - radius - LEAST;
    let under = foot.pulleys.bend.as_ref().map_or(f64::INFINITY, |b| b.centre.z - b.radius() - UNDER_BEND - radius);
    [foot.casing.bottom_face + radius + LEAST, top.min(under)]
}

/// What an end has besides the panel.
fn end(foot: &Foot, wall: Wall) -> End {
    let c = &foot.casing;
    let between = 2.0 * foot.lap + BETWEEN_FRAMES;
    let around = |low: f64, high: f64| [low - between, high + between];
    let others = foot.openings.iter().filter(|o| o.wall == wall && o.kind != OpeningKind::Removal).map(|o| around(o.up.low, o.up.high));
    let side = if wall == Wall::UpEnd { FeedSide::Up } else { FeedSide::Down };
    // Throat and spout rise outward from an inlet: over it nothing comes out.
    let inlet = foot.inlet(side).map(|i| [i.opening.low - between, f64::INFINITY]);
    let bends = if wall == Wall::DownEnd { c.down_bends() } else { Vec::new() };
    let edge = if wall == Wall::UpEnd { c.up_shoulder } else { c.down_shoulder };
    let floor = if c.bottom_radius.is_some() { edge + foot.lap + OVER_EDGE } else { edge + 1.5 * c.plate + 1.0 };
    End {
        wall: [floor.max(foot.lap + OVER_EDGE), c.top - c.flange - foot.lap],
        taken: others.chain(inlet).chain(bends.iter().map(|z| [z - BEND_ROOM, z + BEND_ROOM])).collect(),
        standing: [foot.shaft_lowest, foot.shaft_highest],
        axis: axis(foot),
    }
}

/// With the panel that has room, in the end where the pulley is lifted least.
fn proposed(case: &Case<'_>, finding: Finding) -> Finding {
    let foot = case.foot;
    let height = up_to(foot.pulleys.foot.diameter + 2.0 * CLEAR, STEP);
    let ends = [(RemovalEnd::Down, Wall::DownEnd), (RemovalEnd::Up, Wall::UpEnd)];
    let found = ends.into_iter().filter_map(|(on, wall)| end(foot, wall).place(height, STEP).map(|place| (on, place)));
    match found.min_by(|a, b| a.1.lift.abs().total_cmp(&b.1.lift.abs())) {
        Some((on, place)) => {
            let finding = finding.change("removal.on", &on).change("removal.height", &Length::mm(height)).change("removal.sill", &Length::mm(place.sill));
            // The panel is as wide as the casing inside: more room is more side clearance.
            let margin = beside_full_width(foot.lap, foot.casing.plate, case.spec.stock().step_mm());
            let beside = foot.casing.width.size() / 2.0 - margin - foot.pulleys.foot.face / 2.0;
            if foot.openings.iter().any(|o| o.kind == OpeningKind::Removal) || reaches(beside, LEAST) {
                finding
            } else {
                finding.change("casing.side_clearance", &Length::mm(up_to(case.spec.casing.side_clearance.value() + LEAST - beside, 1.0)))
            }
        }
        None => finding,
    }
}

/// Width of the widest opening of an end plate, mm: what a panel has.
fn passes_across(foot: &Foot, panel: &Opening) -> f64 {
    (panel.across.size() - foot.pulleys.foot.face) / 2.0
}

/// How far the outside of the panel's wall is from the foot shaft where it is furthest out beside the panel, mm.
fn outside(foot: &Foot, panel: &Opening) -> f64 {
    match panel.wall {
        Wall::UpEnd => foot.casing.up_face + foot.casing.plate,
        _ => -foot.casing.down_outer_x(panel.up.high),
    }
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (foot, pulley) = (case.foot, &case.foot.pulleys.foot);
    let Some(panel) = foot.openings.iter().find(|o| o.kind == OpeningKind::Removal) else {
        let existing = *case.spec.project.status == Status::Survey;
        let (verdict, message) = if existing {
            (Verdict::Note, say!("no panel is known through which the foot pulley comes out"))
        } else {
            (Verdict::Warn, say!("the foot pulley does not come out: no end plate has a panel for it"))
        };
        let found = proposed(case, RULE.finds(verdict, "removal.on", message));
        if found.would_pass.is_empty() && !existing {
            let said = say!("no end plate has room for a panel as high as the foot pulley: it comes out where a wall is cut");
            return vec![RULE.finds(Verdict::Warn, "removal.on", said)];
        }
        return vec![found];
    };
    let free = room([panel.up.low, panel.up.high], pulley.radius(), axis(foot));
    let high = RULE.finds(
        unless(reaches(free, LEAST), Verdict::Fail),
        "removal.sill",
        say!(
            "the foot pulley of {diameter} has {free} above and below it in the opening of {height} at {sill}; {least} are needed",
            diameter = mm(pulley.diameter),
            free = mm(free),
            height = mm(panel.up.size()),
            sill = mm(panel.up.low),
            least = mm(LEAST)
        ),
    );
    let high = case.mend(high.value(free, Unit::Mm).limit(LEAST, Unit::Mm), |finding| proposed(case, finding));
    let beside = passes_across(foot, panel);
    // The panel is as wide as the casing inside: more room is more side clearance.
    let wanted = case.spec.casing.side_clearance.value() + LEAST - beside;
    let wide = RULE
        .finds(
            unless(reaches(beside, LEAST), Verdict::Fail),
            "casing.side_clearance",
            say!(
                "the foot pulley's face of {face} has {beside} beside it in the opening of {width}; {least} are needed",
                face = mm(pulley.face),
                beside = mm(beside),
                width = mm(panel.across.size()),
                least = mm(LEAST)
            ),
        )
        .value(beside, Unit::Mm)
        .limit(LEAST, Unit::Mm)
        .change("casing.side_clearance", &Length::mm(up_to(wanted, 1.0)));
    [Some(high), Some(wide), before(case, panel)].into_iter().flatten().collect()
}

/// The room before the panel; nothing where there is no pit.
fn before(case: &Case<'_>, panel: &Opening) -> Option<Finding> {
    let foot = case.foot;
    let pit = foot.pit.as_ref()?;
    let (path, wall, space) = match panel.wall {
        Wall::UpEnd => ("pit.up_space", pit.x.high, pit.spaces[0]),
        _ => ("pit.down_space", -pit.x.low, pit.spaces[1]),
    };
    let clear = wall - outside(foot, panel);
    let limit = foot.pulleys.foot.diameter + BEFORE_PANEL;
    let finding = RULE.finds(
        unless(reaches(clear, limit), Verdict::Warn),
        path,
        say!(
            "before the removal panel {clear} are clear to the pit's wall; the foot pulley of {diameter} needs {limit}",
            clear = mm(clear),
            diameter = mm(foot.pulleys.foot.diameter),
            limit = mm(limit)
        ),
    );
    Some(finding.value(clear, Unit::Mm).limit(limit, Unit::Mm).change(path, &Length::mm(up_to(space + limit - clear, 10.0))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, mended, worst, worst_of};

    #[test]
    fn default_panel_and_faults() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(worst_of(&RULE, LARGE, &[]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("removal.on", "\"none\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("removal.on", "\"none\""), ("project.status", "\"survey\"")]), Some(Verdict::Note));
        mended(&RULE, SMALL, &[("removal.on", "\"none\"")]);
        // Lower than the pulley is thick, one pitch of bolts too small, and so low that the pulley would stand in the bottom.
        for fault in [("removal.height", "\"700 mm\""), ("removal.sill", "\"60 mm\"")] {
            let found = findings_of(&RULE, SMALL, &[fault]);
            assert_eq!(found.iter().map(|f| f.verdict).max(), Some(Verdict::Fail), "{found:#?}");
            mended(&RULE, SMALL, &[fault]);
        }
        mended(&RULE, SMALL, &[("removal.on", "\"down end\""), ("casing.side_clearance", "\"20 mm\"")]);
        let narrow = [("pit.fitted", "true"), ("removal.on", "\"down end\""), ("pit.down_space", "\"700 mm\"")];
        assert_eq!(worst(&RULE, &narrow), Some(Verdict::Warn));
        mended(&RULE, SMALL, &narrow);
    }

    /// Exactly the least room passes.
    #[test]
    fn at_the_limit() {
        let base = [("foot_pulley.diameter", "\"500 mm\""), ("removal.on", "\"down end\""), ("removal.sill", "\"500 mm\"")];
        assert_eq!(worst(&RULE, &[&base[..], &[("removal.height", "\"520 mm\"")]].concat()), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[&base[..], &[("removal.height", "\"519 mm\"")]].concat()), Some(Verdict::Fail));
    }
}
