//! Settles `[[door]]`, `[sensor_panels]`, `[clean_out]` and `[monitoring]`.
//!
//! In: what was asked, casing, levels, inlets. Out: the openings. Default doors keep clear of the shaft slot, of the
//! sensor panels, of the inlets and of the clean-outs; the mesh behind a door is as fine as its distance to moving parts demands.

use super::PRACTICE;
use super::casing::{Levels, Widths};
use super::habit::{Habit, Step, mm};
use crate::formulas::speed::{ALARM_SLIP, STOP_SLIP};
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::casing::{Bottom, Casing};
use crate::spec::inlets::{Inlet, ShovelPocket};
use crate::spec::openings::{AskedDoor, CleanOut, Door, Monitoring, SensorPanels, Wall};
use crate::spec::reader::Chosen;
use crate::spec::slide;
use crate::tables::safety_distances::{OSHA_O10, SOURCE as ISO_13857, Shape, osha_largest_opening_mm, reach_mm};
use crate::tables::wire_meshes;
use crate::units::{Ratio, Time, plain_number};

const OSHA_SLIP: Source = Source::law("OSHA 29 CFR 1910.272(q)(5)").from_memory();
const DISTANCE: Source = Source::physics("clearance of the wall that the door is in");
/// Finest and coarsest mesh that is chosen, clear opening in mm.
const FINEST: f64 = 4.5;
const COARSEST: f64 = 12.75;
/// Frame round an opening and room for its bolts, mm.
const FRAME: f64 = 80.0;
/// Least half width that shaft slot, sliding plate and rod take up on a side plate, mm.
const SLOT_ZONE: f64 = 160.0;
/// From the edge of the sliding plate to a door's opening, mm: guide, frame, rounding.
const BESIDE_SLIDE: f64 = 75.0;

/// Settles panels, clean-outs and monitoring.
pub(super) fn small(asked: &AskedSpec, habit: Habit) -> (SensorPanels, CleanOut, Monitoring) {
    let (s, c, m) = (&asked.sensor_panels, &asked.clean_out, &asked.monitoring);
    let panels = SensorPanels {
        near: Chosen::or(&s.near, true, PRACTICE, "belt-alignment sensors need panels on both sides"),
        far: Chosen::or(&s.far, true, PRACTICE, "belt-alignment sensors need panels on both sides"),
        size: Chosen::or(&s.size, mm(habit.or_inch(150.0, 6.0)), PRACTICE, "takes the usual sensor with its plate"),
    };
    // Above a rolled bottom the down-side inlet begins where the end plate does.
    let rolled_inlet = asked.inlet_down.span.is_some() && asked.inlet_down.fitted.value() != Some(false) && asked.casing.bottom.value() == Some(Bottom::Curved);
    let clean = CleanOut {
        up: Chosen::or(&c.up, true, PRACTICE, "the foot is emptied from both ends"),
        down: if rolled_inlet {
            Chosen::or(&c.down, false, PRACTICE, "the down-side inlet takes its place above a rolled bottom")
        } else {
            Chosen::or(&c.down, true, PRACTICE, "the foot is emptied from both ends")
        },
        height: Chosen::or(&c.height, mm(habit.or_inch(150.0, 6.0)), PRACTICE, "a rake and a shovel pass"),
    };
    let monitoring = Monitoring {
        motion: Chosen::or(&m.motion, true, OSHA_SLIP, "a slow belt shows first on the foot shaft"),
        alignment: Chosen::or(&m.alignment, true, Source::law("OSHA 29 CFR 1910.272(q)(6)").from_memory(), "a wandering belt must be detectable"),
        bearings: Chosen::or(&m.bearings, false, PRACTICE, "nothing watches them unless the spec says so"),
        alarm_slip: Chosen::or(&m.alarm_slip, Ratio::of_one(ALARM_SLIP), PRACTICE, "alarm at a tenth of slip"),
        stop_slip: Chosen::or(&m.stop_slip, Ratio::of_one(STOP_SLIP), OSHA_SLIP, "stop at a fifth of slip at the latest"),
        pulses: Chosen::or(&m.pulses, 4, PRACTICE, "a target disc with four marks"),
        delay: Chosen::or(&m.delay, Time::s(3.0), PRACTICE, "short enough to stop the feed in time, long enough not to trip at starting"),
        feeder_run_on: Chosen::or(&m.feeder_run_on, Time::s(2.0), PRACTICE, "a conveyor or slide gate takes this long to stop"),
    };
    (panels, clean, monitoring)
}

/// Where a default door goes.
struct Place {
    on: Wall,
    width: f64,
    sill: f64,
    offset: f64,
    why: String,
}

/// Settles the doors: those asked for, or one above the up-side inlet and one in the near side plate.
#[allow(clippy::too_many_arguments)]
pub(super) fn doors(
    asked: &AskedSpec,
    casing: &Casing,
    levels: &Levels,
    widths: &Widths,
    up: &Inlet,
    down: &Inlet,
    pocket: &ShovelPocket,
    habit: Habit,
) -> Vec<Door> {
    let placing = Placing { casing, levels, widths, up, down, pocket, panel: asked.sensor_panels.size.value().map_or(150.0, |s| s.value()), habit };
    if asked.doors.is_empty() {
        return [Wall::UpEnd, Wall::Near].into_iter().map(|wall| placing.door(&AskedDoor::default(), &placing.place(wall, None))).collect();
    }
    asked
        .doors
        .iter()
        .map(|a| {
            let wall = a.on.value().unwrap_or(Wall::UpEnd);
            placing.door(a, &placing.place(wall, a.width.value().map(|w| w.value())))
        })
        .collect()
}

struct Placing<'a> {
    casing: &'a Casing,
    levels: &'a Levels,
    widths: &'a Widths,
    up: &'a Inlet,
    down: &'a Inlet,
    pocket: &'a ShovelPocket,
    panel: f64,
    habit: Habit,
}

impl Placing<'_> {
    fn place(&self, on: Wall, width: Option<f64>) -> Place {
        let habit = self.habit;
        let usual = habit.or_inch(300.0, 12.0);
        let over_inlet = |inlet: &Inlet| {
            let top = if *inlet.fitted { inlet.sill.value.value() + inlet.height.value.value() } else { self.levels.shaft_high };
            habit.up(top + FRAME + 40.0, Step::Fine)
        };
        match on {
            Wall::UpEnd | Wall::DownEnd => {
                let inlet = if on == Wall::UpEnd { self.up } else { self.down };
                let room = (self.widths.inside - 2.0 * 40.0).max(80.0);
                let what = if *inlet.fitted { "above the inlet" } else { "above the heap" };
                Place { on, width: habit.down(usual.min(room), Step::Middle), sill: over_inlet(inlet), offset: 0.0, why: what.to_string() }
            }
            Wall::Near | Wall::Far => {
                // Beside the slot and its plate, toward the up run; above the sensor panel and the pocket.
                let zone = (self.levels.slide + BESIDE_SLIDE + slide::wider(habit.stock())).max(SLOT_ZONE);
                let room = self.levels.up_end - 40.0 - zone;
                let (width, middle) = if room >= 200.0 {
                    let w = habit.down(usual.min(room), Step::Middle);
                    (w, habit.near(zone + (room - w) / 2.0 + w / 2.0, Step::Middle))
                } else {
                    (habit.down(usual.min(2.0 * self.levels.up_end - 80.0).max(80.0), Step::Middle), 0.0)
                };
                let middle = width_given(middle, width, self.levels.up_end);
                let above_panel = (self.levels.shaft_low + self.levels.shaft_high) / 2.0 + self.panel / 2.0;
                let above_pocket = if *self.pocket.fitted { self.levels.bottom + 60.0 + self.pocket.height.value.value() } else { 0.0 };
                let above_slot = if room >= 200.0 {
                    self.levels.shaft_high - self.levels.radius / 2.0
                } else {
                    // Over the shaft: above the sliding plate, which covers the slot in every position, and the rod's bracket.
                    self.levels.shaft_high + (self.levels.shaft_high - self.levels.shaft_low) + 250.0
                };
                let sill = habit.up(above_panel.max(above_pocket).max(above_slot) + FRAME, Step::Fine);
                Place {
                    on,
                    width,
                    sill,
                    offset: middle,
                    why: "beside the shaft slot, above sensor panel and shovel pocket, in sight of the rising buckets".to_string(),
                }
            }
        }
        .with_width(width)
    }

    fn door(&self, a: &AskedDoor, place: &Place) -> Door {
        let habit = self.habit;
        let on = Chosen::or(&a.on, place.on, PRACTICE, "one door on the up side, one in a side plate");
        let clearance = match *on {
            Wall::UpEnd => self.casing.up_clearance.value.value(),
            Wall::DownEnd => self.casing.down_clearance.value.value(),
            Wall::Near | Wall::Far => self.casing.side_clearance.value.value(),
        };
        let distance = Chosen::or(
            &a.mesh_distance,
            mm(clearance.max(0.0)),
            DISTANCE,
            format!("the mesh stands in the plane of the wall, {} from moving parts", habit.say(clearance.max(0.0))),
        );
        let (mesh, source, why) = mesh_for(distance.value.value(), habit);
        Door {
            width: Chosen::or(&a.width, mm(place.width), PRACTICE, "a head and a lamp fit before it"),
            height: Chosen::or(&a.height, mm(habit.or_inch(400.0, 16.0)), PRACTICE, "a head and a lamp fit before it"),
            sill: Chosen::or(&a.sill, mm(place.sill), PRACTICE, place.why.clone()),
            offset: Chosen::or(&a.offset, mm(place.offset), PRACTICE, place.why.clone()),
            mesh: Chosen::or(&a.mesh, true, PRACTICE, "no inspection door without a fixed mesh behind it"),
            mesh_opening: Chosen::or(&a.mesh_opening, mm(mesh), source, why),
            mesh_distance: distance,
            on,
        }
    }
}

impl Place {
    fn with_width(mut self, width: Option<f64>) -> Self {
        if let Some(w) = width {
            self.width = w;
        }
        self
    }
}

/// Keeps the middle of a door so that the door stays on the plate.
fn width_given(middle: f64, width: f64, up_end: f64) -> f64 {
    middle.min(up_end - 40.0 - width / 2.0)
}

/// The coarsest mesh that may stand so near to moving parts.
fn mesh_for(distance: f64, habit: Habit) -> (f64, Source, String) {
    let safe = |e: f64| {
        let iso = reach_mm(e, Shape::Square).is_some_and(|need| distance >= need);
        let osha = !habit.us || osha_largest_opening_mm(distance).is_some_and(|most| e <= most + 1e-9);
        iso && osha
    };
    let sold: &[f64] = if habit.us { &wire_meshes::US_MM } else { &wire_meshes::METRIC_MM };
    // Neither coarser nor finer is taken unasked: one sees through it, and a finger does not pass.
    let usual = || sold.iter().copied().filter(|e| (FINEST..=COARSEST).contains(e));
    let mesh = usual().find(|e| safe(*e)).or(usual().last()).unwrap_or(FINEST);
    let said = if habit.inch { habit.say(mesh) } else { format!("{} mm", plain_number(mesh, 2)) };
    let source = if habit.us { OSHA_O10 } else { ISO_13857 };
    (mesh, source, format!("square mesh of {said} may stand {} from moving parts", habit.say(distance)))
}
