//! Settles `[bucket]`: size and contents. The spacing follows from the duty and joins them at the end.
//!
//! In: what was asked. Out: [`Size`], everything but the spacing, and the bucket from it.

use super::rounding::mm;
use super::so_far::Ask;
use super::{PRACTICE, needed, outline};
use crate::diagnostics::Diagnostics;
use crate::formulas::foot_widths;
use crate::formulas::mass::{STEEL_KG_PER_M3, plate_kg};
use crate::formulas::retained_fill::BucketSection;
use crate::say;
use crate::sizing::bucket_plate;
use crate::sources::Source;
use crate::spec::bucket::Bucket;
use crate::spec::reader::{Chosen, Outline};
use crate::units::{Length, Mass, Unit, Volume};
use kurbo::Point;

const CONTENTS: Source = Source::physics("section under the lip's level x length x 0.95 for walls and rounded ends");
/// Share of bucket length that counts, walls and rounded ends taken off; common practice.
const INNER_LENGTH: f64 = 0.95;

/// The bucket without its spacing.
pub(super) struct Size {
    length: Chosen<Length>,
    projection: Chosen<Length>,
    pub height: Chosen<Length>,
    pub volume: Chosen<Volume>,
    mass: Chosen<Mass>,
    pub rows: Chosen<u32>,
    row_gap: Chosen<Length>,
    outline: Chosen<Outline>,
}

/// Decides everything about the bucket but its spacing.
pub(super) fn size(ask: &Ask<'_>, out: &mut Diagnostics) -> Size {
    let (a, rounding) = (&ask.asked.bucket, ask.rounding);
    let length = needed(&a.length, "bucket.length", "\"280 mm\"", mm(280.0), out);
    let projection = needed(&a.projection, "bucket.projection", "\"165 mm\"", mm(165.0), out);
    let height = needed(&a.height, "bucket.height", "\"180 mm\"", mm(180.0), out);
    let (l, p, h) = (length.value.value(), projection.value.value(), height.value.value());
    let plain: Vec<[Length; 2]> = outline::plain(p, h).into_iter().map(|[x, y]| [mm(x), mm(y)]).collect();
    let section = Chosen::or(
        &a.outline,
        Outline(plain),
        PRACTICE,
        say!("a plain bucket {out} out and {high} high, lip at {share} of the height", out = say::mm(p), high = say::mm(h), share = say::n(0.7, 1)),
    );
    let corners = corners(&section.value);
    let litres = outline::water_level_area(&corners) * l * INNER_LENGTH / 1e6;
    // What a small bucket holds is told finer.
    let parts = if litres < 1.0 { 1000.0 } else { 100.0 };
    let litres = (litres * parts).round() / parts;
    let thickness = bucket_plate::thickness(l);
    let steel = outline::sheet_length(&corners) * l + 2.0 * outline::water_level_area(&corners);
    let mass = (plate_kg(steel, thickness, STEEL_KG_PER_M3) * 1.1 * 10.0).round().max(1.0) / 10.0;
    Size {
        volume: Chosen::or(
            &a.volume,
            Volume::l(litres),
            CONTENTS,
            say!(
                "water level of the section, {area}, by {length} of length",
                area = say::amount(outline::water_level_area(&corners), Unit::Mm2, 0),
                length = say::mm(l * INNER_LENGTH)
            ),
        ),
        mass: Chosen::or(
            &a.mass,
            Mass::kg(mass),
            PRACTICE,
            say!("a pressed steel bucket of {plate} with a tenth for lip and bolts", plate = say::mm(thickness)),
        ),
        rows: Chosen::or(&a.rows, 1, PRACTICE, "one row unless asked otherwise"),
        row_gap: Chosen::or(&a.row_gap, mm(rounding.or_inch(50.0, 2.0)), PRACTICE, "customary gap between rows"),
        outline: section,
        length,
        projection,
        height,
    }
}

impl Size {
    /// The section as the pole construction wants it: lip first, heights from the bolts; `None` when it holds nothing.
    pub fn section(&self) -> Option<BucketSection> {
        let half = self.height.value.value() / 2.0;
        BucketSection::new(corners(&self.outline.value).into_iter().rev().map(|[u, w]| Point::new(u, w - half)).collect()).ok()
    }
    /// The whole bucket.
    pub(super) fn spaced(self, spacing: Chosen<Length>) -> Bucket {
        Bucket {
            length: self.length,
            projection: self.projection,
            height: self.height,
            volume: self.volume,
            mass: self.mass,
            rows: self.rows,
            spacing,
            row_gap: self.row_gap,
            outline: self.outline,
        }
    }
}

/// Corners of an outline in mm.
pub(super) fn corners(outline: &Outline) -> Vec<outline::Corner> {
    outline.0.iter().map(|[x, y]| [x.value(), y.value()]).collect()
}

/// Length across the belt of all rows with their gaps, mm.
pub(super) fn rows_length(bucket: &Bucket) -> f64 {
    foot_widths::rows_length(*bucket.rows, bucket.length.value.value(), bucket.row_gap.value.value())
}
