//! What will be built: the machine's geometry in one frame, every dimensioned thing a named feature.
//!
//! [`build_model`] takes a settled spec and returns a complete [`Foot`] or located messages when no
//! such foot can exist. It computes no strengths and judges nothing; see `analysis` and `rules`.

pub mod base;
pub mod belt;
pub mod buckets;
pub mod casing;
pub mod customary;
pub mod frame;
pub mod holds;
pub mod inlets;
pub mod lifting;
pub mod openings;
pub mod pit;
pub mod pit_cast_in;
pub mod pit_cover;
pub mod pit_fittings;
pub mod pit_keep_clear;
pub mod pulleys;
pub mod rotating;

use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::formulas::foot_heights;
use crate::sizing::sliding_plate;
use crate::spec::Spec;
use frame::Feature;

/// The foot of the elevator, complete.
#[derive(Debug, Clone, PartialEq)]
pub struct Foot {
    /// Height of the foot shaft above the base, take-up at its lowest.
    pub shaft_lowest: f64,
    /// The same at its highest.
    pub shaft_highest: f64,
    /// Pulleys.
    pub pulleys: pulleys::Pulleys,
    /// Belt path.
    pub belt: belt::BeltBody,
    /// Bucket.
    pub bucket: buckets::BucketBody,
    /// Radius swept by the bucket tips round the foot pulley.
    pub tip_radius: f64,
    /// Casing.
    pub casing: casing::CasingBody,
    /// Lug by which it is lifted, if there are any.
    pub lug: Option<lifting::Lug>,
    /// Inlets, up side first.
    pub inlets: Vec<inlets::InletBody>,
    /// Shovel pocket.
    pub pocket: Option<inlets::PocketBody>,
    /// How far their frames and leaves lap over them.
    pub lap: f64,
    /// Doors, panels, clean-outs.
    pub openings: Vec<openings::Opening>,
    /// Shaft, bearings, take-up.
    pub rotating: rotating::RotatingBody,
    /// Pads and anchors.
    pub base: base::BaseBody,
    /// Pit.
    pub pit: Option<pit::PitBody>,
    /// Every named feature.
    pub features: Vec<Feature>,
}

impl Foot {
    /// A feature by its id.
    pub fn feature(&self, id: &str) -> Option<&Feature> {
        self.features.iter().find(|f| f.id == id)
    }
    /// The inlet on a side, if there is one.
    pub fn inlet(&self, side: inlets::FeedSide) -> Option<&inlets::InletBody> {
        self.inlets.iter().find(|i| i.side == side)
    }
    /// The pit that this foot would stand in by another spec of the pit; the machine stays as it is.
    pub fn pit_by(&self, spec: &Spec) -> Option<pit::PitBody> {
        pit::PitBody::build(&pit_keep_clear::Standing {
            spec,
            casing: &self.casing,
            inlets: &self.inlets,
            pocket: self.pocket.as_ref(),
            rotating: &self.rotating,
            openings: &self.openings,
            pulley: [self.pulleys.foot.diameter, self.pulleys.foot.face],
        })
    }
}

/// Builds the foot.
///
/// # Errors
/// When the pulleys admit no belt path, with the keys to change.
pub fn build_model(spec: &Spec) -> Result<Foot, Diagnostics> {
    let bucket = buckets::BucketBody::build(spec);
    let travel = spec.take_up.travel.value();
    let tip_radius = bucket.tip_radius(spec.foot_pulley.diameter.value() / 2.0 + spec.belt.thickness.value());
    let shaft_lowest =
        foot_heights::shaft_height_lowest(spec.casing.feet.value(), spec.casing.bottom_plate.value(), spec.casing.bottom_clearance.value(), tip_radius);
    let shaft_highest = shaft_lowest + travel;
    let pulleys = pulleys::Pulleys::build(spec, shaft_lowest, shaft_highest);
    let belt = belt::BeltBody::build(spec.belt.width.value(), spec.belt.thickness.value(), &pulleys, travel).map_err(|why| {
        let mut out = Diagnostics::default();
        let bend = spec.bend_pulley.fitted.value;
        let (path, span) = if bend {
            ("bend_pulley", spec.bend_pulley.angle.span().or(spec.bend_pulley.height.span()).or(spec.bend_pulley.fitted.span()))
        } else {
            ("head_pulley.diameter", spec.head_pulley.diameter.span())
        };
        let hint = if bend {
            "give bend_pulley.angle a value from \"10 deg\" to \"35 deg\", leave bend_pulley.height out, or set bend_pulley.fitted = false"
        } else {
            "give foot_pulley.diameter the head pulley's diameter, or raise duty.lift"
        };
        out.push(Diagnostic::error(Code::Contradiction, path, span, format!("no belt path: {why}"), hint));
        out
    })?;
    let beta_low = pulleys.bend.is_some().then(|| belt.lowest.foot_run_angle_rad()).filter(|b| *b > 1e-6);
    let casing = casing::CasingBody::build(spec, &bucket, &pulleys, beta_low);
    let rotating = rotating::RotatingBody::build(spec, &casing, &pulleys, travel);
    let base = base::BaseBody::build(spec, &casing);
    let lug = lifting::build(spec, &casing);
    let (inlets, pocket) =
        inlets::build(spec, &casing, rotating.sliding_plate.x.high + sliding_plate::wider(spec.stock()), (shaft_lowest + shaft_highest) / 2.0, &base.pads);
    let lap = openings::lap(spec);
    let openings = openings::build(spec, &casing, &pulleys, tip_radius, travel, rotating.sliding_plate.x.high);
    let standing = pit_keep_clear::Standing {
        spec,
        casing: &casing,
        inlets: &inlets,
        pocket: pocket.as_ref(),
        rotating: &rotating,
        openings: &openings,
        pulley: [pulleys.foot.diameter, pulleys.foot.face],
    };
    let pit = pit::PitBody::build(&standing);

    let mut features = Vec::new();
    pulleys.features(spec, shaft_highest, &mut features);
    belt.features(&pulleys, &mut features);
    let face = frame::ModelPoint::elevation(pulleys.foot.radius() + belt.thickness, shaft_lowest);
    bucket.features(face, &mut features);
    casing.features(&mut features);
    inlets::features(&inlets, pocket.as_ref(), &casing, &mut features);
    openings::features(&openings, &casing, &mut features);
    rotating.features(pulleys.foot.centre, &mut features);
    base.features(&mut features);
    if let Some(p) = &pit {
        p.features(&mut features);
    }
    Ok(Foot { lap, shaft_lowest, shaft_highest, pulleys, belt, bucket, tip_radius, casing, lug, inlets, pocket, openings, rotating, base, pit, features })
}
