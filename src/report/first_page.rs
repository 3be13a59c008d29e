//! What the first page of the report tells: headline numbers, what is open in the order of weight, what was assumed that matters.
//!
//! In: a settled spec, its results and findings. Out: which of them come first; nothing is computed here.

use super::Line;
use crate::analysis::Quantity;
use crate::rules::{Finding, Standing};
use crate::sources::Authority;

/// What a headline shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// A result by its id.
    Result(&'static str),
    /// A key of the spec by its path.
    Key(&'static str),
}

/// The numbers that a reader asks for first, with their names; what a machine does not have is left out.
pub const HEADLINES: &[(Of, &str)] = &[
    (Of::Result("capacity.required"), "Wanted"),
    (Of::Result("net.capacity"), "Net capacity"),
    (Of::Key("duty.belt_speed"), "Belt speed"),
    (Of::Key("foot_pulley.diameter"), "Foot pulley"),
    (Of::Key("shaft.diameter"), "Foot shaft"),
    (Of::Key("take_up.travel"), "Take-up travel"),
    (Of::Result("path.length_middle"), "Belt length, take-up in the middle"),
    (Of::Result("power.motor_full"), "Motor for full buckets"),
    (Of::Result("plugging.time_up"), "Time to plug, up side"),
    (Of::Result("plugging.time_down"), "Time to plug, down side"),
    (Of::Result("plugging.reaction"), "Time until the feed stops"),
    (Of::Result("masses.foot_empty"), "Mass of the empty foot"),
    (Of::Key("pit.depth"), "Depth of the pit"),
    (Of::Result("loads.largest_pad"), "Largest load on a pad"),
    (Of::Result("loads.largest_uplift"), "Largest uplift on a pad"),
];

/// Keys that much hangs on: where one was not given, the first page says what it was taken to be.
pub const WEIGHTY: &[&str] = &[
    "product.density",
    "product.repose",
    "product.wall_friction",
    "duty.belt_speed",
    "duty.fill",
    "bucket.volume",
    "bucket.spacing",
    "belt.mass",
    "belt.stretch",
    "belt.tracking_tension",
    "belt.strength",
    "head_pulley.friction",
    "shaft.steel",
    "take_up.travel",
    "monitoring.delay",
    "monitoring.feeder_run_on",
    "inlet.up.sill",
    "pit.feed_level",
    "pit.feed_distance",
    "pit.groundwater",
];

/// The steps from bucket to throat that the product passes, each with what it lets through: the least is the net capacity.
pub const CHAIN: &[(&str, &str)] = &[
    ("capacity.full", "Buckets to the brim"),
    ("capacity.rated", "Buckets at the fill in service"),
    ("net.past_sill", "What stays past the sill"),
    ("net.throats", "What the throats pass"),
    ("net.capacity", "Net capacity"),
];

/// Views that tell at a glance what the machine is, by sheet and view.
pub const FIGURES: &[(&str, &str)] = &[("ga", "elevation"), ("belt", "retained"), ("pit", "along")];

/// Findings that are open, none accepted, heaviest first: by standing, law before all else, then as the rules stand in their list.
pub fn open(findings: &[Finding]) -> Vec<&Finding> {
    let mut open: Vec<&Finding> = findings.iter().filter(|f| f.standing() >= Standing::Warn).collect();
    open.sort_by_key(|f| (std::cmp::Reverse(f.standing()), f.source.authority != Authority::Law));
    open
}

/// What was decided by rule among the keys that much hangs on.
pub fn assumed(decided: &[Line]) -> Vec<&Line> {
    WEIGHTY.iter().filter_map(|path| decided.iter().find(|line| line.path == *path)).collect()
}

/// A result by its id.
pub fn result<'a>(groups: &'a [super::Group], id: &str) -> Option<&'a Quantity> {
    groups.iter().flat_map(|g| &g.quantities).find(|q| q.id == id)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::job::Job;
    use crate::spec::keys;

    const STARTERS: [&str; 3] =
        [include_str!("../../templates/grain_intake.toml"), include_str!("../../templates/pellets.toml"), include_str!("../../templates/survey.toml")];

    #[test]
    fn every_name_on_the_first_page_is_one() {
        let known: Vec<String> = keys().iter().map(|k| k.path.clone()).collect();
        let jobs: Vec<Job> = STARTERS.iter().map(|text| Job::of(text).unwrap()).collect();
        let reports: Vec<_> = jobs.iter().map(Job::report).collect();
        let is_result = |id: &str| reports.iter().any(|r| result(&r.groups, id).is_some());
        for (of, _) in HEADLINES {
            match of {
                Of::Result(id) => assert!(is_result(id), "{id} is no result"),
                Of::Key(path) => assert!(known.iter().any(|k| k == path), "{path} is no key"),
            }
        }
        for path in WEIGHTY {
            assert!(known.iter().any(|k| k == path) || reports.iter().any(|r| r.defaults.iter().any(|l| l.path == *path)), "{path} is no key");
        }
        assert!(CHAIN.iter().all(|(id, _)| is_result(id)));
        for (sheet, view) in FIGURES {
            assert!(jobs[0].plans().iter().any(|p| p.id == *sheet && p.views.iter().any(|v| v.draft.id == *view)), "{sheet} has no view {view}");
        }
    }

    #[test]
    fn law_stands_before_what_is_only_usual() {
        for text in STARTERS {
            let report = Job::of(text).unwrap().report();
            let open = open(&report.findings);
            assert!(open.windows(2).all(|two| two[0].standing() >= two[1].standing()));
            let laws: Vec<bool> = open.iter().filter(|f| f.standing() == Standing::Fail).map(|f| f.source.authority == Authority::Law).collect();
            assert!(laws.windows(2).all(|two| two[0] || !two[1]), "{laws:?}");
        }
    }
}
