//! Room to pull the shaft, to take out bearings and foot pulley and to hoist it, way down with landing and headroom, doors, sump, spout
//! and the other machines keep clear of each other, in plan and in height.
//!
//! Boxes of the model. What is done one after the other at a stopped machine may share room; what stands or must be free at all times may not.

use super::finding::up_to;
use super::{Case, Finding, Rule, Verdict};
use crate::model::frame::Extent;
use crate::model::openings::OpeningKind;
use crate::model::pit::PitBody;
use crate::model::pit_keep_clear::{ClearSpace, Use, clashes};
use crate::say;
use crate::say::{Statement, mm};
use crate::sources::Source;
use crate::spec::inlets::Side;
use crate::spec::openings::Wall;
use crate::spec::pit::AccessSide;
use crate::spec::project::Status;
use crate::spec::reader::{Chosen, Origin};
use crate::units::Length;

/// Spaces that keep clear.
pub const RULE: Rule = Rule {
    id: "pit-keep-clear",
    title: "Spaces that keep clear",
    what: "Room to pull the shaft, to draw off bearings, to take out and hoist the foot pulley, way down with headroom and landing, doors, take-up, sump, \
           spout and machines, in plan and in height.",
    why: "A shaft that has to pass through a tread of the stair stays where it is, and the stair comes out.",
    remedy: "Put the way down at another wall than the one the shaft is pulled to, or widen that side by the stair.",
    source: Source::physics("boxes in the frame of the model, pair by pair"),
    check,
};

/// Keys of the clear spaces, as [`PitBody::spaces`] orders them.
const SPACES: [&str; 4] = ["pit.up_space", "pit.down_space", "pit.near_space", "pit.far_space"];
/// Widest space that the keys take, mm.
const WIDEST: f64 = 10_000.0;
/// Step of the search, mm.
const STEP: f64 = 200.0;
/// Steps of the search.
const STEPS: u32 = 25;

/// How deep two boxes lie in each other, mm.
fn deep(a: &ClearSpace, b: &ClearSpace) -> f64 {
    let shared = |p: Extent, q: Extent| p.high.min(q.high) - p.low.max(q.low);
    shared(a.area.x, b.area.x).min(shared(a.area.y, b.area.y)).min(shared(a.z, b.z))
}

/// What is wrong in a pit: every pair of uses once, where they lie deepest in each other.
fn wrong(pit: &PitBody, hoisted: bool) -> Vec<Statement> {
    let spaces = &pit.keeps_clear;
    let mut worst: Vec<([Use; 2], f64)> = Vec::new();
    for (a, b) in clashes(spaces) {
        let (a, b) = (&spaces[a], &spaces[b]);
        let (uses, deep) = ([a.purpose.min(b.purpose), a.purpose.max(b.purpose)], deep(a, b));
        match worst.iter_mut().find(|(known, _)| *known == uses) {
            Some((_, most)) => *most = most.max(deep),
            None => worst.push((uses, deep)),
        }
    }
    let mut all: Vec<Statement> = worst
        .into_iter()
        .map(|([a, b], deep)| say!("{first} and {second} lie {deep} in each other", first = a.word(), second = b.word(), deep = mm(deep)))
        .collect();
    let places = spaces.iter().filter(|s| s.purpose == Use::Hoist).count();
    if hoisted && places < pit.elevators as usize {
        all.push(say!("there is no free place under a hoist for the foot pulley"));
    }
    all
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let hoisted = case.foot.openings.iter().any(|o| o.kind == OpeningKind::Removal);
    let path = "pit.access_side";
    // A way down that nobody has seen is not held against an existing foot.
    let unseen = *case.spec.project.status == Status::Survey && !case.spec.pit.access_side.is_given();
    vec![match wrong(pit, hoisted).into_iter().reduce(|said, more| say!("{said}; {more}", said = said, more = more)) {
        None => RULE.finds(
            Verdict::Pass,
            path,
            say!(
                "{spaces} spaces for people, for taking out and for what stands there keep clear of each other",
                spaces = say::n(pit.keeps_clear.len() as f64, 0)
            ),
        ),
        Some(message) => {
            let finding = RULE.finds(if unseen { Verdict::Note } else { Verdict::Warn }, path, message);
            case.mend(finding, |finding| match mended(case, pit, hoisted) {
                Some((side, spaces)) => with_changes(case, finding, side, spaces),
                None => finding,
            })
        }
    }]
}

/// The wall of the way down and the spaces that leave everything clear, with the least concrete more; nothing where none is found.
fn mended(case: &Case<'_>, pit: &PitBody, hoisted: bool) -> Option<(AccessSide, [f64; 4])> {
    let now = pit.access_side;
    let walls = [AccessSide::Down, AccessSide::Near, AccessSide::Far, AccessSide::Up];
    let sides: Vec<AccessSide> = [now].into_iter().chain(walls.into_iter().filter(|s| *s != now)).collect();
    let index = |side: AccessSide| match side {
        AccessSide::Up => 0,
        AccessSide::Down => 1,
        AccessSide::Near => 2,
        AccessSide::Far => 3,
    };
    let pull = if *case.spec.pit.shaft_pull == Side::Near { 2 } else { 3 };
    let panel = case.foot.openings.iter().find(|o| o.kind == OpeningKind::Removal).map_or(1, |o| usize::from(o.wall != Wall::UpEnd));
    for step in 0..=STEPS {
        for side in &sides {
            for grown in [[true, false, false], [false, true, false], [false, false, true], [true, false, true], [true, true, true]] {
                let mut spaces = pit.spaces.map(|s| up_to(s, 10.0));
                for (at, grows) in [index(*side), pull, panel].into_iter().zip(grown) {
                    if grows {
                        spaces[at] = up_to(pit.spaces[at] + f64::from(step) * STEP, 10.0);
                    }
                }
                if spaces.iter().all(|s| *s <= WIDEST) && trial(case, *side, spaces, hoisted) {
                    return Some((*side, spaces));
                }
                if step == 0 {
                    break;
                }
            }
        }
    }
    None
}

/// Whether everything keeps clear in a pit with these spaces, the way down at that wall.
fn trial(case: &Case<'_>, side: AccessSide, spaces: [f64; 4], hoisted: bool) -> bool {
    fn given<T>(value: T) -> Chosen<T> {
        Chosen { value, origin: Origin::Given(0..0) }
    }
    let mut spec = case.spec.clone();
    let [up, down, near, far] = spaces.map(|s| given(Length::mm(s)));
    (spec.pit.up_space, spec.pit.down_space, spec.pit.near_space, spec.pit.far_space) = (up, down, near, far);
    spec.pit.access_side = given(side);
    case.foot.pit_by(&spec).is_some_and(|pit| wrong(&pit, hoisted).is_empty())
}

/// Changes that write these values; what the spec says already is left.
fn with_changes(case: &Case<'_>, finding: Finding, side: AccessSide, spaces: [f64; 4]) -> Finding {
    let pit = &case.spec.pit;
    let said = [&pit.up_space, &pit.down_space, &pit.near_space, &pit.far_space];
    let finding = if pit.access_side.value == side { finding } else { finding.change("pit.access_side", &side) };
    SPACES.into_iter().zip(said).zip(spaces).fold(finding, |finding, ((path, said), space)| {
        let same = said.is_given() && (said.value.value() - space).abs() < 1e-9;
        if same { finding } else { finding.change(path, &Length::mm(space)) }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, mended, worst, worst_of};

    const STAIR: [(&str, &str); 3] = [("pit.fitted", "true"), ("pit.depth", "\"2.6 m\""), ("pit.access", "\"stair\"")];

    /// By default the stair is nowhere in the way, whichever wall is asked for.
    #[test]
    fn defaults_keep_clear() {
        assert_eq!(worst(&RULE, &[("pit.fitted", "false")]), None);
        assert_eq!(worst(&RULE, &STAIR), Some(Verdict::Pass));
        for side in ["\"down\"", "\"near\"", "\"far\""] {
            for text in [SMALL, LARGE] {
                let found = findings_of(&RULE, text, &[&STAIR[..], &[("pit.access_side", side)]].concat());
                assert!(found.iter().all(|f| f.verdict == Verdict::Pass), "{side}: {found:#?}");
            }
        }
        // A head of 2.4 m, whose shaft used to be pulled through the sixth tread.
        assert_eq!(worst_of(&RULE, LARGE, &[&STAIR[..], &[("head_pulley.diameter", "\"2400 mm\"")]].concat()), Some(Verdict::Pass));
    }

    /// A stair along the wall that the shaft is pulled to, with no more room than for one of them, is found and mended.
    #[test]
    fn a_stair_in_the_way_of_the_shaft() {
        let fault = [&STAIR[..], &[("pit.access_side", "\"far\""), ("pit.shaft_pull", "\"far\""), ("pit.far_space", "\"1200 mm\"")]].concat();
        let found = findings_of(&RULE, SMALL, &fault);
        assert!(found.iter().any(|f| f.message.plainly().contains("room to pull the shaft and way down")), "{found:#?}");
        mended(&RULE, SMALL, &fault);
        // In a survey a way down that nobody has seen is no fault.
        let seen = [("project.status", "\"survey\""), ("pit.fitted", "true"), ("pit.depth", "\"2.6 m\""), ("pit.far_space", "\"600 mm\"")];
        assert!(worst(&RULE, &seen) < Some(Verdict::Warn));
    }

    /// No room for a hoist beside the foot.
    #[test]
    fn a_pulley_without_a_hoist() {
        let fault = [&STAIR[..], &[("removal.on", "\"down end\""), ("pit.access_side", "\"near\""), ("pit.down_space", "\"700 mm\"")]].concat();
        let found = findings_of(&RULE, SMALL, &fault);
        assert!(found.iter().any(|f| f.message.plainly().contains("hoist")), "{found:#?}");
        mended(&RULE, SMALL, &fault);
    }
}
