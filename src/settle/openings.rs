//! Settles `[[door]]`, `[sensor_panels]`, `[clean_out]` and `[monitoring]`.
//!
//! In: what was asked, casing, levels, inlets. Out: the openings. Default doors stand where a head, a hand and a lamp get in front of
//! them, clear of shaft slot, rod, sensor panels, inlets with their throats, clean-outs and the removal panel; the mesh behind a door is as fine as its distance to moving parts demands.

use super::PRACTICE;
use super::pit;
use super::removal::Ends;
use super::rounding::{Rounding, Step, mm};
use super::so_far::{Opened, Standing};
use super::stopping::stopping;
use crate::formulas::foot_heights::{self, BEND_ROOM};
use crate::formulas::look;
use crate::formulas::speed::{ALARM_SLIP, STOP_SLIP};
use crate::say;
use crate::say::Statement;
use crate::sizing::bearing_unit::bearing_unit;
use crate::sizing::rod_holder::RodHolder;
use crate::sizing::{sliding_plate, weight_box};
use crate::sources::Source;
use crate::spec::casing::Bottom;
use crate::spec::inlets::{ShovelPocket, Side};
use crate::spec::openings::{AskedDoor, CleanOut, Door, Monitoring, Removal, SensorPanels, Wall};
use crate::spec::reader::Chosen;
use crate::spec::rotating::TakeUpKind;
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
/// Least height of a door under an inlet, mm.
const LEAST_HEIGHT: f64 = 250.0;
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
#[derive(Debug, Clone, Copy)]
struct Place {
    on: Wall,
    width: f64,
    height: f64,
    sill: f64,
    offset: f64,
    why: &'static str,
}

/// Settles the doors that are asked for.
pub(super) fn asked_doors(ends: &Ends<'_>, pocket: &ShovelPocket, panels: &SensorPanels) -> Vec<Door> {
    let placing = Placing { ends, removal: None, pocket, panels };
    ends.so_far.asked.doors.iter().map(|a| placing.door(a, a.on.value().unwrap_or(Wall::UpEnd))).collect()
}

/// Settles the doors where none are asked for: one at the pulley, under the up-side inlet, or where a head has no room there in the far
/// side plate; and one in the near side plate, to see the up run at the sill.
pub(super) fn usual_doors(ends: &Ends<'_>, removal: Option<&Removal>, pocket: &ShovelPocket, panels: &SensorPanels) -> Vec<Door> {
    let placing = Placing { ends, removal, pocket, panels };
    let end = if placing.under(Wall::UpEnd).is_some() || !*ends.inlets[0].fitted { Wall::UpEnd } else { Wall::Far };
    [end, Wall::Near].into_iter().map(|wall| placing.door(&AskedDoor::default(), wall)).collect()
}

struct Placing<'a> {
    ends: &'a Ends<'a>,
    /// The panel for the foot pulley, once it is placed.
    removal: Option<&'a Removal>,
    pocket: &'a ShovelPocket,
    panels: &'a SensorPanels,
}

impl Placing<'_> {
    /// Where a door goes in this wall, if its width is left out or given.
    fn place(&self, on: Wall, width: Option<f64>) -> Place {
        let place = match on {
            Wall::UpEnd | Wall::DownEnd => self.under(on).unwrap_or_else(|| self.above(on)),
            Wall::Near | Wall::Far => self.in_side(on),
        };
        self.clear_of_cover(Place { width: width.unwrap_or(place.width), ..place })
    }

    /// The same door where no pit's cover stands before it: lower, or where it would be too low over the plant floor.
    fn clear_of_cover(&self, place: Place) -> Place {
        let (so_far, rounding) = (self.ends.so_far, self.ends.so_far.rounding);
        let Some(floor) = pit::depth(so_far, self.ends.inlets) else { return place };
        let (under, over) = (floor - look::PIT_COVER - EDGE, floor + EDGE);
        if place.sill + place.height <= under || place.sill >= over {
            return place;
        }
        let height = rounding.down(under - place.sill, Step::Middle);
        if height >= LEAST_HEIGHT.min(place.height) { Place { height, ..place } } else { Place { sill: rounding.up(over, Step::Fine), ..place } }
    }

    /// Width of a door in an end plate, mm.
    fn end_width(&self) -> f64 {
        let rounding = self.ends.so_far.rounding;
        rounding.down(usual_width(rounding).min((self.ends.so_far.widths.inside - 2.0 * EDGE).max(80.0)), Step::Middle)
    }

    /// Under the inlet of an end plate, between it and the clean-out: throat and spout rise outward from it and leave room for a head there.
    fn under(&self, on: Wall) -> Option<Place> {
        let (up, rounding) = (on == Wall::UpEnd, self.ends.so_far.rounding);
        let inlet = self.ends.inlets[usize::from(!up)];
        let clean_out = self.ends.clean_out_at(up).map_or(self.ends.edge(up) + EDGE, |[_, high]| high + FRAME);
        let mut room = [clean_out, inlet.sill.value.value() - FRAME];
        if let Some(r) = self.removal.filter(|r| r.on.wall() == Some(on)) {
            room[0] = room[0].max(r.sill.value.value() + r.height.value.value() + FRAME);
        }
        if let Some(f) = self.ends.so_far.down_face.filter(|_| !up) {
            room[0] = room[0].max(f.upper_z + BEND_ROOM);
        }
        let height = rounding.down(usual_height(rounding, self.end_width()).min(room[1] - room[0]), Step::Middle);
        let sill = rounding.down(room[1] - height, Step::Fine);
        let fits = *inlet.fitted && height >= LEAST_HEIGHT && sill >= room[0] - rounding.step(Step::Fine);
        fits.then(|| Place {
            on,
            width: self.end_width(),
            height,
            sill,
            offset: 0.0,
            why: "under the inlet, in sight of the foot pulley and the rising buckets",
        })
    }

    /// Over what is in an end plate: over an inlet so high that a head gets in front of it over throat and spout.
    fn above(&self, on: Wall) -> Place {
        let rounding = self.ends.so_far.rounding;
        let inlet = self.ends.inlets[usize::from(on == Wall::DownEnd)];
        let (top, why) = if *inlet.fitted {
            let low = inlet.sill.value.value();
            let [_, roof] = look::behind_throat([low, low + inlet.height.value.value()], inlet.slope.value.value().to_radians());
            (roof, "over throat and spout, where a head gets in front of it")
        } else {
            (self.ends.so_far.levels.shaft_high, "above the heap")
        };
        let width = self.end_width();
        Place { on, width, height: usual_height(rounding, width), sill: rounding.up(top + FRAME + EDGE, Step::Fine), offset: 0.0, why }
    }

    /// Beside the slot and its plate, toward the up run; above the sensor panel and the pocket.
    fn in_side(&self, on: Wall) -> Place {
        let so_far = self.ends.so_far;
        let (levels, rounding) = (&so_far.levels, so_far.rounding);
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
        let own = if *self.pocket.side == Side::Near { Wall::Near } else { Wall::Far };
        let above_pocket = if *self.pocket.fitted && own == on { levels.bottom + 60.0 + self.pocket.height.value.value() } else { 0.0 };
        let above_slot = if beside { levels.shaft_high - levels.radius / 2.0 } else { self.above_rod() };
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

    /// Over the shaft: the end of the take-up rod, or the upper edge of a weight box, with the take-up at its highest, mm.
    fn above_rod(&self) -> f64 {
        let so_far = self.ends.so_far;
        let (levels, stock) = (&so_far.levels, so_far.rounding.stock());
        let (take_up, shaft) = (&so_far.take_up, so_far.shaft.diameter.value.value());
        let travel = levels.shaft_high - levels.shaft_low;
        let unit = bearing_unit(*so_far.bearings.kind, so_far.shaft.journal.value.value(), so_far.rounding.us);
        let half = sliding_plate::half_height(travel, shaft, unit.up, stock);
        let holder = RodHolder::of(take_up, &unit, so_far.plates.plate.value.value(), so_far.plates.flange.value.value(), stock);
        let rod = levels.shaft_high + half + holder.rod_beyond() + holder.rod_over() + travel;
        let weights = *take_up.kind == TakeUpKind::Gravity;
        if weights { rod.max(levels.shaft_high + weight_box::above_shaft(&unit, shaft, stock) + take_up.box_height.value.value()) } else { rod }
    }

    fn door(&self, a: &AskedDoor, wall: Wall) -> Door {
        let place = self.place(wall, a.width.value().map(|w| w.value()));
        let (plates, rounding) = (&self.ends.so_far.plates, self.ends.so_far.rounding);
        let why =
            if wall == Wall::Far { "one door in each side plate: under the inlet a head has no room" } else { "one door on the up side, one in a side plate" };
        let on = Chosen::or(&a.on, place.on, PRACTICE, why);
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
