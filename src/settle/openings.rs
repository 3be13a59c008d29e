//! Settles `[[door]]`, `[sensor_panels]`, `[clean_out]` and `[monitoring]`.
//!
//! In: what was asked, casing, levels, inlets. Out: the openings. Default doors keep clear of the shaft slot, of the
//! sensor panels, of the inlets and of the clean-outs; the mesh behind a door is as fine as its distance to moving parts demands.

use super::PRACTICE;
use super::rounding::{Rounding, Step, mm};
use super::so_far::{Opened, Standing};
use super::stopping::stopping;
use crate::formulas::foot_heights;
use crate::formulas::speed::{ALARM_SLIP, STOP_SLIP};
use crate::say;
use crate::say::Statement;
use crate::sizing::sliding_plate;
use crate::sources::Source;
use crate::spec::casing::Bottom;
use crate::spec::inlets::{Inlet, ShovelPocket};
use crate::spec::openings::{AskedDoor, CleanOut, Door, Monitoring, SensorPanels, Wall};
use crate::spec::reader::Chosen;
use crate::tables::grain_handling;
use crate::tables::safety_distances::{OSHA_O10, SOURCE as ISO_13857, osha_largest_opening_mm, reach_mm};
use crate::tables::wire_meshes;
use crate::units::{Ratio, Time};

const DISTANCE: Source = Source::physics("clearance of the wall that the door is in");
/// Finest and coarsest mesh that is chosen, clear opening in mm.
const FINEST: f64 = 4.5;
const COARSEST: f64 = 12.75;
/// Frame round an opening and room for its bolts, mm.
const FRAME: f64 = 80.0;
/// Least half width that shaft slot, sliding plate and rod take up on a side plate, mm.
const SLOT_ZONE: f64 = 160.0;
/// Least side of a sensor panel that is chosen, mm: a small sensor passes.
const LEAST_PANEL: f64 = 60.0;
/// From an opening to the edge of its plate, mm.
const EDGE: f64 = 40.0;
/// Least width beside the slot in which a door is placed there, mm.
const LEAST_ROOM: f64 = 200.0;
/// Least height of a door that is chosen, mm: a hand with a lamp fits before it.
const LEAST_DOOR: f64 = 120.0;
/// From the edge of the sliding plate to a door's opening, mm: guide, frame, rounding.
const BESIDE_SLIDE: f64 = 75.0;

/// Settles the sensor panels.
pub(super) fn sensor_panels(so_far: &Standing<'_>) -> SensorPanels {
    let s = &so_far.asked.sensor_panels;
    let (size, why) = panel_size(so_far);
    SensorPanels {
        near: Chosen::or(&s.near, true, PRACTICE, "belt-alignment sensors need panels on both sides"),
        far: Chosen::or(&s.far, true, PRACTICE, "belt-alignment sensors need panels on both sides"),
        size: Chosen::or(&s.size, mm(size), PRACTICE, why),
    }
}

/// Side of a sensor panel, mm, and why: the usual one, or as large as lies on the plate of a small foot with its frame.
fn panel_size(so_far: &Standing<'_>) -> (f64, &'static str) {
    let (levels, rounding) = (&so_far.levels, so_far.rounding);
    let usual = rounding.or_inch(150.0, 6.0);
    let frame = rounding.stock().width_mm(foot_heights::LAP) + foot_heights::OVER_EDGE;
    // The down-side end plate is no further out than the up-side one.
    let end = levels.up_end.min(so_far.plates.down_gap(rounding).face(levels.tip_radius));
    let lies = |size: f64| sliding_plate::panel_middle(levels.radius, levels.slide, size, rounding.stock()) + size / 2.0 + frame <= end + 1e-6;
    if lies(usual) {
        return (usual, "takes the usual sensor with its plate");
    }
    let step = rounding.step(Step::Fine);
    let smaller = (1..).map(|i| usual - step * f64::from(i)).take_while(|size| *size >= LEAST_PANEL).find(|size| lies(*size));
    (smaller.unwrap_or(rounding.up(LEAST_PANEL, Step::Fine)), "as large as lies on the side plate of a small foot")
}

/// Settles the clean-outs.
pub(super) fn clean_out(so_far: &Standing<'_>) -> CleanOut {
    let c = &so_far.asked.clean_out;
    // Above a rolled bottom the down-side inlet begins where the end plate does.
    let rolled_inlet = *so_far.sides.down && *so_far.plates.bottom == Bottom::Curved;
    let (down, why) =
        if rolled_inlet { (false, "the down-side inlet takes its place above a rolled bottom") } else { (true, "the foot is emptied from both ends") };
    CleanOut {
        up: Chosen::or(&c.up, true, PRACTICE, "the foot is emptied from both ends"),
        down: Chosen::or(&c.down, down, PRACTICE, why),
        height: Chosen::or(&c.height, mm(so_far.rounding.or_inch(150.0, 6.0)), PRACTICE, "a rake and a shovel pass"),
    }
}

/// Settles what watches the foot.
pub(super) fn monitoring(so_far: &Opened<'_>) -> Monitoring {
    let m = &so_far.asked.monitoring;
    let [delay, run_on] = stopping(so_far);
    let law = |clause: Source| grain_handling::source(clause, so_far.rounding.us, so_far.product.is_grain());
    Monitoring {
        motion: Chosen::or(&m.motion, true, law(grain_handling::MOTION), "a slow belt shows first on the foot shaft"),
        alignment: Chosen::or(&m.alignment, true, law(grain_handling::ALIGNMENT), "a wandering belt must be detectable"),
        bearings: Chosen::or(&m.bearings, false, PRACTICE, "nothing watches them unless the spec says so"),
        alarm_slip: Chosen::or(&m.alarm_slip, Ratio::of_one(ALARM_SLIP), PRACTICE, "alarm at a tenth of slip"),
        stop_slip: Chosen::or(&m.stop_slip, Ratio::of_one(STOP_SLIP), law(grain_handling::MOTION), "stop at a fifth of slip at the latest"),
        pulses: Chosen::or(&m.pulses, 4, PRACTICE, "a target disc with four marks"),
        delay: Chosen::or(&m.delay, Time::s(delay.seconds), delay.source, delay.why),
        feeder_run_on: Chosen::or(&m.feeder_run_on, Time::s(run_on.seconds), run_on.source, run_on.why),
    }
}

/// Where a default door goes.
struct Place {
    on: Wall,
    width: f64,
    height: f64,
    sill: f64,
    offset: f64,
    why: &'static str,
}

/// Settles the doors: those asked for, or one above the up-side inlet and one in the near side plate.
pub(super) fn doors(so_far: &Standing<'_>, inlets: [&Inlet; 2], pocket: &ShovelPocket, panels: &SensorPanels) -> Vec<Door> {
    let placing = Placing { so_far, inlets, pocket, panels };
    let asked = &so_far.asked.doors;
    if asked.is_empty() {
        return [Wall::UpEnd, Wall::Near].into_iter().map(|wall| placing.door(&AskedDoor::default(), wall)).collect();
    }
    asked.iter().map(|a| placing.door(a, a.on.value().unwrap_or(Wall::UpEnd))).collect()
}

struct Placing<'a> {
    so_far: &'a Standing<'a>,
    /// On the up and on the down side.
    inlets: [&'a Inlet; 2],
    pocket: &'a ShovelPocket,
    panels: &'a SensorPanels,
}

impl Placing<'_> {
    /// Where a door goes in this wall, if its width is left out or given.
    fn place(&self, on: Wall, width: Option<f64>) -> Place {
        let place = match on {
            Wall::UpEnd => self.in_end(on, self.inlets[0]),
            Wall::DownEnd => self.in_end(on, self.inlets[1]),
            Wall::Near | Wall::Far => self.in_side(on),
        };
        Place { width: width.unwrap_or(place.width), ..place }
    }

    /// Over the inlet of an end plate.
    fn in_end(&self, on: Wall, inlet: &Inlet) -> Place {
        let rounding = self.so_far.rounding;
        let room = (self.so_far.widths.inside - 2.0 * EDGE).max(80.0);
        let (top, why) = if *inlet.fitted {
            (inlet.sill.value.value() + inlet.height.value.value(), "above the inlet")
        } else {
            (self.so_far.levels.shaft_high, "above the heap")
        };
        let width = rounding.down(usual_width(rounding).min(room), Step::Middle);
        Place { on, width, height: usual_height(rounding, width), sill: rounding.up(top + FRAME + EDGE, Step::Fine), offset: 0.0, why }
    }

    /// Beside the slot and its plate, toward the up run; above the sensor panel and the pocket.
    fn in_side(&self, on: Wall) -> Place {
        let (levels, rounding) = (&self.so_far.levels, self.so_far.rounding);
        let usual = usual_width(rounding);
        let zone = (levels.slide + BESIDE_SLIDE + sliding_plate::wider(rounding.stock())).max(SLOT_ZONE);
        let room = levels.up_end - EDGE - zone;
        let beside = room >= LEAST_ROOM;
        let (width, middle) = if beside {
            let w = rounding.down(usual.min(room), Step::Middle);
            (w, rounding.near(zone + (room - w) / 2.0 + w / 2.0, Step::Middle))
        } else {
            // On a small plate not over half of it.
            (rounding.down(usual.min(levels.up_end - EDGE).max(80.0), Step::Middle), 0.0)
        };
        let above_panel = levels.shaft_middle() + self.panels.size.value.value() / 2.0;
        let above_pocket = if *self.pocket.fitted { levels.bottom + 60.0 + self.pocket.height.value.value() } else { 0.0 };
        let above_slot = if beside {
            levels.shaft_high - levels.radius / 2.0
        } else {
            // Over the shaft: above the sliding plate, which covers the slot in every position, and the rod's bracket.
            levels.shaft_high + (levels.shaft_high - levels.shaft_low) + 250.0
        };
        Place {
            on,
            width,
            height: usual_height(rounding, width),
            sill: rounding.up(above_panel.max(above_pocket).max(above_slot) + FRAME, Step::Fine),
            // So that the door stays on the plate.
            offset: middle.min(levels.up_end - EDGE - width / 2.0),
            why: "beside the shaft slot, above sensor panel and shovel pocket, in sight of the rising buckets",
        }
    }

    fn door(&self, a: &AskedDoor, wall: Wall) -> Door {
        let place = self.place(wall, a.width.value().map(|w| w.value()));
        let (plates, rounding) = (&self.so_far.plates, self.so_far.rounding);
        let on = Chosen::or(&a.on, place.on, PRACTICE, "one door on the up side, one in a side plate");
        let clearance = match *on {
            Wall::UpEnd => plates.up_clearance.value.value(),
            Wall::DownEnd => plates.down_clearance.value.value(),
            Wall::Near | Wall::Far => plates.side_clearance.value.value(),
        };
        let distance = Chosen::or(
            &a.mesh_distance,
            mm(clearance.max(0.0)),
            DISTANCE,
            say!("the mesh stands in the plane of the wall, {distance} from moving parts", distance = say::mm(clearance.max(0.0))),
        );
        let (mesh, source, why) = mesh_for(distance.value.value(), rounding);
        Door {
            width: Chosen::or(&a.width, mm(place.width), PRACTICE, "a head and a lamp fit before it"),
            height: Chosen::or(&a.height, mm(place.height), PRACTICE, "a head and a lamp fit before it"),
            sill: Chosen::or(&a.sill, mm(place.sill), PRACTICE, place.why),
            offset: Chosen::or(&a.offset, mm(place.offset), PRACTICE, place.why),
            mesh: Chosen::or(&a.mesh, true, PRACTICE, "no inspection door without a fixed mesh behind it"),
            mesh_opening: Chosen::or(&a.mesh_opening, mm(mesh), source, why),
            mesh_distance: distance,
            on,
        }
    }
}

/// Usual clear width of a door, mm.
fn usual_width(rounding: Rounding) -> f64 {
    rounding.or_inch(300.0, 12.0)
}

/// Clear height of a door so wide, mm: as much higher than wide as usual.
fn usual_height(rounding: Rounding, width: f64) -> f64 {
    rounding.near(width * rounding.or_inch(400.0, 16.0) / usual_width(rounding), Step::Middle).max(rounding.up(LEAST_DOOR, Step::Fine))
}

/// The coarsest mesh that may stand so near to moving parts.
fn mesh_for(distance: f64, rounding: Rounding) -> (f64, Source, Statement) {
    let safe = |e: f64| {
        let iso = reach_mm(e).is_some_and(|need| distance >= need);
        let osha = !rounding.us || osha_largest_opening_mm(distance).is_some_and(|most| e <= most + 1e-9);
        iso && osha
    };
    let sold: &[f64] = if rounding.us { &wire_meshes::US_MM } else { &wire_meshes::METRIC_MM };
    // Neither coarser nor finer is taken unasked: one sees through it, and a finger does not pass.
    let usual = || sold.iter().copied().filter(|e| (FINEST..=COARSEST).contains(e));
    let mesh = usual().find(|e| safe(*e)).or(usual().next_back()).unwrap_or(FINEST);
    let source = if rounding.us { OSHA_O10 } else { ISO_13857 };
    (mesh, source, say!("square mesh of {mesh} may stand {distance} from moving parts", mesh = say::mm(mesh), distance = say::mm(distance)))
}
