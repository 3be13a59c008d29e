//! Settles `[removal]`: the bolted panel through which the foot pulley comes out once its shaft is drawn along its axis.
//!
//! In: what was asked, levels, inlets, clean-outs, doors. Out: the end plate that has room for it with the least lift of the
//! pulley, one without an inlet first; none in a survey, where what is not seen is not there.

use super::PRACTICE;
use super::rounding::{Step, mm};
use super::so_far::Standing;
use crate::formulas::foot_heights::{self, BEND_ROOM, OVER_EDGE};
use crate::formulas::removal::{BETWEEN_FRAMES, CLEAR, End, LEAST, OPENING, Place, UNDER_BEND};
use crate::formulas::rolled_bottom;
use crate::say;
use crate::spec::casing::Bottom;
use crate::spec::inlets::Inlet;
use crate::spec::openings::{CleanOut, Door, Removal, RemovalEnd, Wall};
use crate::spec::project::Status;
use crate::spec::reader::Chosen;

/// How far the casing may be raised for a panel that the pulley is lifted to: height of the wall over the highest shaft, in pulley
/// diameters (common practice).
const WALL: f64 = 3.0;
/// How far over the foot the down run is looked at that leads the end plate outward, mm.
const RUN: f64 = 1500.0;

/// Both ends with what is in them.
pub(super) struct Ends<'a> {
    pub so_far: &'a Standing<'a>,
    /// On the up and on the down side.
    pub inlets: [&'a Inlet; 2],
    pub clean_out: &'a CleanOut,
    pub doors: &'a [Door],
}

impl Ends<'_> {
    /// The panel.
    pub(super) fn removal(&self) -> Removal {
        let (a, rounding) = (&self.so_far.asked.removal, self.so_far.rounding);
        let diameter = self.so_far.levels.radius * 2.0;
        let high = rounding.up(diameter + 2.0 * CLEAR, Step::Middle).max(rounding.or_inch(100.0, 4.0));
        let height = Chosen::or(
            &a.height,
            mm(high.min(4000.0)),
            OPENING,
            say!("foot pulley {diameter} and {clear} above and below, at least", diameter = say::mm(diameter), clear = say::mm(CLEAR)),
        );
        let of = |up: bool| self.end(up).place(height.value.value(), rounding.step(Step::Fine));
        let found = [of(true), of(false)];
        let on = self.chosen(found);
        let place = match *on {
            RemovalEnd::Up => found[0],
            RemovalEnd::Down => found[1],
            RemovalEnd::None => None,
        };
        let standing = rounding.near(self.so_far.levels.shaft_low - height.value.value() / 2.0, Step::Fine).max(0.0);
        let sill = place.map_or(standing, |p| p.sill);
        let why = match place {
            Some(p) if p.lift.abs() < 0.5 => say!("level with the foot pulley in a position of its take-up"),
            Some(p) if p.lift > 0.0 => {
                say!("free of what else is in the end plate; the pulley is lifted {by} further than its take-up does", by = say::mm(p.lift))
            }
            Some(p) => say!("free of what else is in the end plate; the pulley is lowered {by} below its take-up", by = say::mm(-p.lift)),
            None => say!("level with the foot pulley, take-up at its lowest"),
        };
        Removal { sill: Chosen::or(&a.sill, mm(sill), OPENING, why), on, height }
    }

    /// Which end plate has it.
    fn chosen(&self, [up, down]: [Option<Place>; 2]) -> Chosen<RemovalEnd> {
        let asked = self.so_far.asked;
        let a = &asked.removal.on;
        if asked.project.status.value() == Some(Status::Survey) {
            return Chosen::or(a, RemovalEnd::None, PRACTICE, "an existing foot has the panels that were found on it");
        }
        let face = self.so_far.foot_pulley.face.value.value();
        let stock = self.so_far.rounding.stock();
        let beside = foot_heights::beside_full_width(stock.width_mm(foot_heights::LAP), self.so_far.plates.plate.value.value(), stock.step_mm());
        let opening = self.so_far.widths.inside - 2.0 * beside;
        if opening < face + 2.0 * LEAST {
            let why =
                say!("an end plate has an opening {width} wide at most, the foot pulley's face is {face}", width = say::mm(opening), face = say::mm(face));
            return Chosen::or(a, RemovalEnd::None, OPENING, why);
        }
        // Where neither needs a longer lift, the end that no spout stands before.
        let spout = self.inlets.map(|inlet| *inlet.fitted);
        let cost = |place: Place, up: bool| (place.lift.abs().round(), spout[usize::from(!up)], up);
        let both = [(up, true), (down, false)].into_iter().filter_map(|(place, up)| place.map(|p| (cost(p, up), up)));
        let best = both.min_by(|((a, b, c), _), ((d, e, f), _)| a.total_cmp(d).then(b.cmp(e)).then(c.cmp(f)));
        match best {
            Some((_, true)) => Chosen::or(a, RemovalEnd::Up, OPENING, "the end plate in which the foot pulley is lifted least to come out"),
            Some((_, false)) => Chosen::or(a, RemovalEnd::Down, OPENING, "the end plate in which the foot pulley is lifted least to come out"),
            None => Chosen::or(a, RemovalEnd::None, OPENING, "no end plate has a free stretch as high as the foot pulley"),
        }
    }

    /// Lowest and highest edge of the clean-out of an end, if it has one, mm.
    pub(super) fn clean_out_at(&self, up: bool) -> Option<[f64; 2]> {
        let fitted = if up { &self.clean_out.up } else { &self.clean_out.down };
        let (plates, edge) = (&self.so_far.plates, self.edge(up));
        let lap = self.so_far.rounding.stock().width_mm(foot_heights::LAP);
        let bends: Vec<f64> = self.so_far.down_face.filter(|_| !up).map_or(Vec::new(), |f| vec![f.lower_z, f.upper_z]);
        let height = self.clean_out.height.value.value();
        let first = if *plates.bottom == Bottom::Curved { self.edge(true).max(self.edge(false)).max(edge + lap + OVER_EDGE) } else { edge };
        let sill = foot_heights::clean_out_sill([edge, first], &bends, plates.plate.value.value(), height, lap);
        fitted.value.then_some([sill, sill + height])
    }

    /// What an end has, as the model will build it.
    fn end(&self, up: bool) -> End {
        let (so_far, levels) = (self.so_far, &self.so_far.levels);
        let lap = so_far.rounding.stock().width_mm(foot_heights::LAP);
        let between = 2.0 * lap + BETWEEN_FRAMES;
        let edge = self.edge(up);
        let bends: Vec<f64> = so_far.down_face.filter(|_| !up).map_or(Vec::new(), |f| vec![f.lower_z, f.upper_z]);
        let mut taken: Vec<[f64; 2]> = bends.iter().map(|z| [z - BEND_ROOM, z + BEND_ROOM]).collect();
        let inlet = self.inlets[usize::from(!up)];
        if *inlet.fitted {
            // Throat and spout rise outward from it: over it nothing comes out.
            taken.push([inlet.sill.value.value() - between, f64::INFINITY]);
        }
        let wall = if up { Wall::UpEnd } else { Wall::DownEnd };
        for door in self.doors.iter().filter(|d| *d.on == wall) {
            let sill = door.sill.value.value();
            taken.push([sill - between, sill + door.height.value.value() + between]);
        }
        let floor = if *so_far.plates.bottom == Bottom::Curved { edge + lap + OVER_EDGE } else { edge + 1.5 * so_far.plates.plate.value.value() + 1.0 };
        taken.extend(self.clean_out_at(up).map(|[low, high]| [low - between, high + between]));
        let asked = so_far.asked.casing.height.value().map(|h| h.value() - so_far.plates.flange.value.value() - lap);
        let top = asked.unwrap_or(levels.shaft_high + WALL * 2.0 * levels.radius);
        let under_bend = if *so_far.bend.fitted {
            so_far.bend_place.height.value.value() - so_far.bend.diameter.value.value() / 2.0 - UNDER_BEND - levels.radius
        } else {
            f64::INFINITY
        };
        End {
            wall: [floor.max(lap + OVER_EDGE), top],
            taken,
            standing: [levels.shaft_low, levels.shaft_high],
            axis: [levels.bottom + levels.radius + LEAST, (top - levels.radius).min(under_bend)],
        }
    }

    /// Where an end plate begins.
    pub(super) fn edge(&self, up: bool) -> f64 {
        let (so_far, levels) = (self.so_far, &self.so_far.levels);
        if *so_far.plates.bottom != Bottom::Curved {
            return levels.bottom;
        }
        if up {
            return levels.rolled().shoulder;
        }
        let gap = so_far.plates.down_gap(so_far.rounding);
        let beside = gap.face(levels.tip_radius);
        let limit = so_far.down_face.map_or(f64::INFINITY, |f| f.lower_z);
        // A run to a larger head pulley leads the plate further out.
        let wider = (so_far.head_pulley.diameter.value.value() / 2.0 - levels.radius).max(0.0);
        let run = if so_far.down_face.is_some() { 0.0 } else { wider * RUN / so_far.duty.lift.value.value().max(RUN) };
        rolled_bottom::end(levels.shaft_low, levels.shaft_low - levels.bottom, beside + run, limit).1
    }
}
