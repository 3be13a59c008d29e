//! Foot shaft, bearings, take-up: the slot in the side plate, the sliding plate, the rod.
//!
//! The near and the far side are alike but for the shaft end that is tapped. Positions are given
//! with the take-up at its lowest; everything here moves up by the take-up travel.

use super::casing::CasingBody;
use super::frame::{Extent, Feature, ModelPoint};
use super::pulleys::Pulleys;
use crate::formulas::gravity_take_up::BOXES;
use crate::sizing::bearing_unit::{BearingUnit, bearing_unit};
use crate::sizing::pulley::hub_length;
use crate::sizing::rod_holder::sliding_thickness;
pub use crate::sizing::rod_holder::{Around, Held, RodHolder};
pub use crate::sizing::take_up_stop::Stop;
pub use crate::sizing::weight_box::Weights;
use crate::sizing::{frame, sliding_plate, weight_box};
use crate::spec::Spec;
use crate::spec::rotating::{TakeUpKind, TappedEnd};
use crate::tables::plates::Stock;
use crate::tables::set_collars;

/// Shaft, bearings and take-up.
#[derive(Debug, Clone, PartialEq)]
pub struct RotatingBody {
    /// Shaft diameter in the hubs.
    pub shaft_diameter: f64,
    /// Shaft diameter in the bearings.
    pub journal: f64,
    /// Bearing centre planes, across.
    pub bearing_planes: Extent,
    /// Shaft ends, across.
    pub shaft_ends: Extent,
    /// Which ends are tapped.
    pub tapped_end: TappedEnd,
    /// Bearing unit.
    pub unit: BearingUnit,
    /// Slot in the side plate: width along the machine, centred on x = 0.
    pub slot_width: f64,
    /// Slot from the lowest to the highest edge.
    pub slot: Extent,
    /// Sliding plate that carries the bearing, at the lowest position.
    pub sliding_plate: SlidingPlate,
    /// Guides of the sliding plate.
    pub guides: Guides,
    /// Take-up travel.
    pub travel: f64,
    /// Screw or gravity.
    pub take_up: TakeUpKind,
    /// Rod: from the sliding plate's edge to the fixed nut bracket at the lowest position, mm.
    pub rod_length: f64,
    /// Outer diameter of the rod's thread; 30 for a thread that the tables do not know.
    pub rod_diameter: f64,
    /// Rod's axis from the outer face of the side plate.
    pub rod_out: f64,
    /// Height of the underside of the fixed bracket's shelf, which holds the rod.
    pub bracket_z: f64,
    /// Thickness of the shelf.
    pub shelf_thickness: f64,
    /// Lug, bracket and their seams; and the stop of a gravity take-up.
    pub holder: RodHolder,
    /// Weight box of a gravity take-up.
    pub weight_box: Option<WeightBox>,
}

/// The plate that slides up and down over the slot and keeps it closed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlidingPlate {
    /// Along the machine.
    pub x: Extent,
    /// Up from the base, take-up at its lowest.
    pub z: Extent,
    /// Thickness.
    pub thickness: f64,
}

/// What a sliding plate runs between; the other guide of a side is its mirror image.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Guides {
    /// Edge beside the sliding plate and edge away from it, of the guide on the up side.
    pub x: Extent,
    /// Up from the base.
    pub z: Extent,
}

impl Guides {
    fn of(casing: &CasingBody, plate: &SlidingPlate, travel: f64, stock: Stock) -> Self {
        let inner = plate.x.high + stock.fine_mm(PLAY);
        let x = Extent::new(inner, inner + stock.width_mm(SPACER_WIDTH));
        let low = plate.z.low.max(casing.lower_edge(x.high) + OVER_EDGE);
        let top = casing.top - frame::thickness(casing.plate, stock) - UNDER_FLANGE;
        let high = (plate.z.high + travel).min(top).max(low + LEAST_GUIDE);
        let step = stock.step_mm();
        Self { x, z: Extent::new((low / step - 1e-6).ceil() * step, (high / step + 1e-6).floor() * step) }
    }
    /// Between the two of a side, mm.
    pub fn apart(&self) -> f64 {
        2.0 * self.x.low
    }
    /// How much of a sliding plate they guide at least over its travel, mm.
    pub fn guided(&self, plate: &SlidingPlate, travel: f64) -> f64 {
        let over = |by: f64| self.z.high.min(plate.z.high + by) - self.z.low.max(plate.z.low + by);
        over(0.0).min(over(travel)).max(0.0)
    }
}

/// Play of a sliding plate to its guides, mm, in metric stock.
pub const PLAY: f64 = 1.0;
/// Width of the bar beside it, mm, in metric stock.
const SPACER_WIDTH: f64 = 30.0;
/// From the top flange down to a guide, mm: nuts of the flange's M12 with their bolts' ends.
const UNDER_FLANGE: f64 = 25.0;
/// From the lower edge of the casing up to a guide, mm.
const OVER_EDGE: f64 = 12.0;
/// Shortest guide, mm.
const LEAST_GUIDE: f64 = 60.0;

/// The weight box on the near side, take-up at its lowest, outside; the far one is its mirror image.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeightBox {
    /// Along the machine.
    pub x: Extent,
    /// Out from the belt's middle plane.
    pub y: Extent,
    /// Up from the base.
    pub z: Extent,
    /// Thickness of its plates.
    pub plate: f64,
    /// Thickness of the webs between its back and the bars.
    pub web: f64,
    /// What lies in it.
    pub weights: Option<Weights>,
    /// Middle of a bar that it is held by, either side of x = 0.
    pub bar_x: f64,
    /// Width and thickness of the bars.
    pub bar: [f64; 2],
    /// The bars, up from the base.
    pub bar_z: Extent,
}

impl WeightBox {
    /// Length along the machine, width out from the casing, height; outside.
    pub fn size(&self) -> [f64; 3] {
        [self.x.size(), self.y.size(), self.z.size()]
    }
    /// The same inside.
    pub fn clear(&self) -> [f64; 3] {
        weight_box::inside(self.size(), self.plate)
    }
}

/// Shaft left beyond a set collar before it steps down, mm.
const BEYOND_COLLAR: f64 = 3.0;

impl RotatingBody {
    /// Where a foot shaft that is thicker between its journals steps down, mm from the belt's middle: clear of the bearing, and
    /// beyond the collars outside the hubs, whose middles are `hub_spacing` apart.
    pub fn shoulder(&self, hub_spacing: f64, stock: Stock) -> f64 {
        let by_bearing = self.bearing_planes.high - self.unit.depth.max(30.0);
        let collar = set_collars::for_shaft(self.shaft_diameter).map_or(0.0, |c| c.width_mm + BEYOND_COLLAR);
        let by_hub = hub_spacing / 2.0 + self.shaft_diameter.max(hub_length(stock, self.shaft_diameter) / 2.0 + collar);
        stock.step_up_mm(by_bearing.max(by_hub), 5.0)
    }

    pub(super) fn build(spec: &Spec, casing: &CasingBody, pulleys: &Pulleys, travel: f64) -> Self {
        let shaft_diameter = spec.shaft.diameter.value();
        let journal = spec.shaft.journal.value();
        let unit = bearing_unit(spec.bearings.kind.value, journal, spec.us());
        let low = pulleys.foot.centre.z;
        let stock = spec.stock();
        let slot_width = sliding_plate::slot_width(shaft_diameter, stock);
        let slot = Extent::new(low - slot_width / 2.0, low + travel + slot_width / 2.0);
        let half_height = sliding_plate::half_height(travel, shaft_diameter, unit.up, stock);
        let half_width = sliding_plate::half_width(shaft_diameter, &unit, stock);
        let sliding_plate = SlidingPlate {
            x: Extent::about(0.0, 2.0 * half_width),
            z: Extent::about(low, 2.0 * half_height),
            thickness: sliding_thickness(casing.plate, &unit, stock),
        };
        let guides = Guides::of(casing, &sliding_plate, travel, stock);
        let above_bearing = weight_box::above_shaft(&unit, shaft_diameter, stock);
        let centres = spec.shaft.bearing_centres.value();
        let holder = RodHolder::of(&spec.take_up, &unit, casing.plate, casing.flange, stock);
        let beyond = holder.rod_beyond();
        let bracket_z = sliding_plate.z.high + travel + beyond;
        let weight_box = (spec.take_up.kind.value == TakeUpKind::Gravity).then(|| weight_box(spec, casing, &sliding_plate, &holder, low + above_bearing));
        Self {
            shaft_diameter,
            journal,
            bearing_planes: Extent::about(0.0, centres),
            shaft_ends: Extent::about(0.0, spec.shaft.length()),
            tapped_end: spec.shaft.tapped_end.value,
            unit,
            slot_width,
            slot,
            sliding_plate,
            guides,
            travel,
            take_up: spec.take_up.kind.value,
            rod_length: travel + beyond,
            rod_diameter: holder.rod,
            rod_out: holder.out,
            bracket_z,
            shelf_thickness: holder.shelf,
            holder,
            weight_box,
        }
    }

    pub(super) fn features(&self, centre: ModelPoint, out: &mut Vec<Feature>) {
        out.push(Feature::diameter("shaft.diameter", "shaft in the hubs", centre, self.shaft_diameter));
        out.push(Feature::diameter("shaft.journal", "shaft in the bearings", centre, self.journal));
        let across = |e: &Extent| (ModelPoint { y: e.low, ..centre }, ModelPoint { y: e.high, ..centre });
        let (a, b) = across(&self.bearing_planes);
        out.push(Feature::length("shaft.bearing_centres", "bearing centres", a, b));
        let (c, d) = across(&self.shaft_ends);
        out.push(Feature::length("shaft.length", "shaft length", c, d));
        out.push(Feature::length("shaft.projection", "shaft end beyond bearing centre", b, d));
        let half = self.slot_width / 2.0;
        out.push(Feature::length(
            "take_up.slot_width",
            "shaft slot, width",
            ModelPoint::elevation(-half, self.slot.low + half),
            ModelPoint::elevation(half, self.slot.low + half),
        ));
        out.push(Feature::length("take_up.slot", "shaft slot, overall", ModelPoint::elevation(0.0, self.slot.low), ModelPoint::elevation(0.0, self.slot.high)));
        let plate = &self.sliding_plate;
        out.push(Feature::length(
            "take_up.plate_width",
            "sliding plate, width",
            ModelPoint::elevation(plate.x.low, plate.z.low),
            ModelPoint::elevation(plate.x.high, plate.z.low),
        ));
        out.push(Feature::length(
            "take_up.plate_height",
            "sliding plate, height",
            ModelPoint::elevation(plate.x.low, plate.z.low),
            ModelPoint::elevation(plate.x.low, plate.z.high),
        ));
    }
}

/// The near weight box, its underside at that height: in front of guides, lug and bracket, on webs that stand on bars on the sliding plate.
fn weight_box(spec: &Spec, casing: &CasingBody, plate: &SlidingPlate, holder: &RodHolder, underside: f64) -> WeightBox {
    let (t, stock) = (&spec.take_up, spec.stock());
    let [width, thick] = weight_box::bar(stock);
    let back = casing.width.high + casing.plate + holder.box_back();
    let z = Extent::new(underside, underside + t.box_height.value());
    let own = weight_box::plate(casing.plate, stock);
    let size = [t.box_length.value(), t.box_width.value(), t.box_height.value()];
    WeightBox {
        x: Extent::about(0.0, size[0]),
        y: Extent::new(back, back + size[1]),
        z,
        plate: own,
        web: weight_box::web(stock),
        weights: Weights::of(t.weights.value() / BOXES, weight_box::inside(size, own), stock),
        bar_x: (plate.x.high - sliding_plate::guide_lap(stock)).min(size[0] / 2.0 - own) - width / 2.0 - BESIDE_BAR,
        bar: [width, thick],
        bar_z: Extent::new(z.low, z.high.min(plate.z.high - holder.rod_under() - weight_box::UNDER_ROD)),
    }
}

/// Left beside a bar toward a guide or the end of its box, mm.
const BESIDE_BAR: f64 = 4.0;
