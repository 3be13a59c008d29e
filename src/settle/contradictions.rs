//! Values that cannot all be true, each reported with the places of both.
//!
//! In: the settled spec. Out: errors with two labels. Only what no machine could be is an error here;
//! what is merely bad (a sill too low, a clearance too small) is for `rules`, so that a survey can be entered.

use super::levels::{Levels, Widths};
use super::{bucket, outline};
use crate::diagnostics::{Code, Diagnostic, Diagnostics, Span};
use crate::spec::Spec;
use crate::spec::inlets::Inlet;
use crate::spec::openings::Wall;
use crate::spec::reader::Chosen;
use crate::units::Length;

fn report_one(out: &mut Diagnostics, path: &str, first: Option<Span>, second: (Option<Span>, &str), message: String, hint: String) {
    // Point at whatever the user wrote; a default alone is never a contradiction.
    let one = Diagnostic::error(Code::Contradiction, path, first.clone(), message, hint);
    out.push(if first.is_some() { one.also(second.0, second.1) } else { one.also(second.0, "here") });
}

/// First value must not be larger than the second.
fn not_larger(out: &mut Diagnostics, small: (&str, &Chosen<Length>), large: (&str, &Chosen<Length>), why: &str) {
    let (s, l) = (small.1.value.value(), large.1.value.value());
    if s > l + 1e-6 && (small.1.is_given() || large.1.is_given()) {
        report_one(
            out,
            small.0,
            small.1.span(),
            (large.1.span(), &format!("{} is {l:.0} mm", large.0)),
            format!("{} = {s:.0} mm is larger than {} = {l:.0} mm: {why}", small.0, large.0),
            if small.1.is_given() {
                format!("write {} = \"{l:.0} mm\" or less, or raise {}", small.0, large.0)
            } else {
                format!("write {} = \"{s:.0} mm\" or more", large.0)
            },
        );
    }
}

/// Reports all of them.
pub(super) fn report(spec: &Spec, levels: &Levels, widths: &Widths, out: &mut Diagnostics) {
    not_larger(
        out,
        ("foot_pulley.diameter", &spec.foot_pulley.diameter),
        ("head_pulley.diameter", &spec.head_pulley.diameter),
        "a foot pulley has at most the head pulley's diameter",
    );
    not_larger(out, ("bucket.height", &spec.bucket.height), ("bucket.spacing", &spec.bucket.spacing), "the buckets would overlap on the belt");
    not_larger(
        out,
        ("shaft.journal", &spec.shaft.journal),
        ("shaft.diameter", &spec.shaft.diameter),
        "the shaft is not thinner in the hubs than in the bearings",
    );
    not_larger(out, ("belt.width", &spec.belt.width), ("foot_pulley.face", &spec.foot_pulley.face), "the belt would hang over the pulley");
    not_larger(
        out,
        ("foot_pulley.hub_spacing", &spec.foot_pulley.hub_spacing),
        ("shaft.bearing_centres", &spec.shaft.bearing_centres),
        "the hubs lie between the bearings",
    );
    not_larger(
        out,
        ("foot_pulley.hub_spacing", &spec.foot_pulley.hub_spacing),
        ("foot_pulley.face", &spec.foot_pulley.face),
        "the end discs lie within the face",
    );
    not_larger(
        out,
        ("shaft.thread_depth", &spec.shaft.thread_depth),
        ("shaft.drill_depth", &spec.shaft.drill_depth),
        "a thread ends before the drilled hole does",
    );
    not_larger(
        out,
        ("belt.min_bend_pulley", &spec.belt.min_bend_pulley),
        ("belt.min_pulley", &spec.belt.min_pulley),
        "a small wrap asks less of the belt than a full one",
    );
    if *spec.bend_pulley.fitted {
        not_larger(
            out,
            ("bend_pulley.diameter", &spec.bend_pulley.diameter),
            ("foot_pulley.diameter", &spec.foot_pulley.diameter),
            "a bend pulley is smaller than the foot pulley",
        );
    }
    belt_and_buckets(spec, out);
    section(spec, out);
    densities_and_slip(spec, out);
    places(spec, levels, widths, out);
}

fn belt_and_buckets(spec: &Spec, out: &mut Diagnostics) {
    let across = bucket::rows_length(&spec.bucket);
    let width = spec.belt.width.value.value();
    if width < across {
        report_one(
            out,
            "belt.width",
            spec.belt.width.span(),
            (spec.bucket.length.span(), "buckets of this length"),
            format!("the belt of {width:.0} mm is narrower than its buckets, {across:.0} mm with all rows and gaps"),
            format!("write belt.width = \"{:.0} mm\" or more", across + 50.0),
        );
    }
    let centres = spec.shaft.bearing_centres.value.value();
    let face = spec.foot_pulley.face.value.value();
    if centres <= face {
        report_one(
            out,
            "shaft.bearing_centres",
            spec.shaft.bearing_centres.span(),
            (spec.foot_pulley.face.span(), "the pulley's face"),
            format!("bearings {centres:.0} mm apart do not span a pulley face of {face:.0} mm"),
            format!("write shaft.bearing_centres = \"{:.0} mm\" or more, or leave it out", face + 200.0),
        );
    }
}

fn section(spec: &Spec, out: &mut Diagnostics) {
    let section = &spec.bucket.outline;
    if !section.is_given() {
        return;
    }
    let corners = bucket::corners(&section.value);
    if !outline::is_simple(&corners) {
        report_one(
            out,
            "bucket.outline",
            section.span(),
            (None, ""),
            "the outline crosses or touches itself, or has no area".into(),
            "give the corners in order: upper end of the back, down round the bottom, up to the lip".into(),
        );
        return;
    }
    let (p, h) = (spec.bucket.projection.value.value(), spec.bucket.height.value.value());
    let far = corners.iter().map(|c| c[0]).fold(f64::MIN, f64::max);
    let near = corners.iter().map(|c| c[0]).fold(f64::MAX, f64::min);
    let top = corners.iter().map(|c| c[1]).fold(f64::MIN, f64::max);
    let low = corners.iter().map(|c| c[1]).fold(f64::MAX, f64::min);
    if far > p + 1e-6 || near < -1e-6 {
        report_one(
            out,
            "bucket.outline",
            section.span(),
            (spec.bucket.projection.span(), "the projection"),
            format!("the outline reaches from {near:.0} to {far:.0} mm out from the belt; the bucket projects {p:.0} mm"),
            format!("keep all first values between \"0 mm\" and \"{p:.0} mm\""),
        );
    }
    if top > h + 1e-6 || low < -1e-6 {
        report_one(
            out,
            "bucket.outline",
            section.span(),
            (spec.bucket.height.span(), "the height"),
            format!("the outline reaches from {low:.0} to {top:.0} mm up; the bucket is {h:.0} mm high"),
            format!("keep all second values between \"0 mm\" and \"{h:.0} mm\", 0 at the lowest point"),
        );
    }
    let inside = outline::water_level_area(&corners) * spec.bucket.length.value.value() / 1e6;
    let volume = spec.bucket.volume.value.value();
    if spec.bucket.volume.is_given() && !(0.7..=1.15).contains(&(volume / inside)) {
        let one = Diagnostic::error(
            Code::Contradiction,
            "bucket.volume",
            spec.bucket.volume.span(),
            format!("the outline holds {inside:.2} l at water level over the bucket's length; {volume:.2} l is given"),
            "check outline, length and volume against the bucket's data sheet",
        );
        out.push(one.as_warning().also(section.span(), "the outline"));
    }
}

fn densities_and_slip(spec: &Spec, out: &mut Diagnostics) {
    let (loose, heavy) = (&spec.product.density, &spec.product.density_for_loads);
    if heavy.value.value() < loose.value.value() - 1e-9 {
        report_one(
            out,
            "product.density_for_loads",
            heavy.span(),
            (loose.span(), "the density for capacity"),
            format!("loads are reckoned with {:.2} t/m³, less than the {:.2} t/m³ for capacity", heavy.value.value(), loose.value.value()),
            format!("write density_for_loads = \"{:.2} t/m3\" or more", loose.value.value()),
        );
    }
    let (alarm, stop) = (&spec.monitoring.alarm_slip, &spec.monitoring.stop_slip);
    if alarm.value.value() > stop.value.value() + 1e-9 {
        report_one(
            out,
            "monitoring.alarm_slip",
            alarm.span(),
            (stop.span(), "the stop"),
            format!("the alarm at {:.0} % slip comes after the stop at {:.0} %", alarm.value.value() * 100.0, stop.value.value() * 100.0),
            format!("write alarm_slip = \"{:.0} %\" or less", stop.value.value() * 50.0),
        );
    }
    if !*spec.inlet_up.fitted && !*spec.inlet_down.fitted {
        report_one(
            out,
            "inlet",
            spec.inlet_up.fitted.span(),
            (spec.inlet_down.fitted.span(), "nor on the down side"),
            "there is no inlet on either side".into(),
            "write fitted = true under [inlet.up]".into(),
        );
    }
}

fn places(spec: &Spec, levels: &Levels, widths: &Widths, out: &mut Diagnostics) {
    let top = &spec.casing.height;
    let height = top.value.value();
    if height < levels.shaft_low {
        report_one(
            out,
            "casing.height",
            top.span(),
            (spec.foot_pulley.diameter.span(), "a foot pulley of this size"),
            format!("the foot is {height:.0} mm high, and its shaft stands at {:.0} mm", levels.shaft_low),
            format!("write casing.height = \"{:.0} mm\" or more", levels.shaft_high + levels.radius + 150.0),
        );
    }
    for (key, inlet) in [("inlet.up", &spec.inlet_up), ("inlet.down", &spec.inlet_down)] {
        if *inlet.fitted {
            inlet_fits(key, inlet, top, levels, widths, out);
        }
    }
    for (i, door) in spec.doors.iter().enumerate() {
        let path = |key: &str| format!("door[{}].{key}", i + 1);
        let (low, up) = (door.sill.value.value(), door.sill.value.value() + door.height.value.value());
        if up > height || low < levels.bottom {
            let place = door.sill.span().or(door.height.span());
            report_one(
                out,
                &path("sill"),
                place,
                (top.span(), "the foot's height"),
                format!("the door reaches from {low:.0} to {up:.0} mm; its wall from {:.0} to {height:.0} mm", levels.bottom),
                format!(
                    "write a sill between \"{:.0} mm\" and \"{:.0} mm\"",
                    levels.bottom + 40.0,
                    (height - door.height.value.value() - 40.0).max(levels.bottom + 40.0)
                ),
            );
        }
        let half = door.width.value.value() / 2.0;
        let offset = door.offset.value.value();
        // The down-side end plate may stand farther out; only the nearer of both ends is sure here.
        let (least, most) = match *door.on {
            Wall::UpEnd | Wall::DownEnd => (-widths.inside / 2.0, widths.inside / 2.0),
            Wall::Near | Wall::Far => (f64::MIN, levels.up_end),
        };
        if offset + half > most || offset - half < least {
            report_one(
                out,
                &path("offset"),
                door.offset.span().or(door.width.span()).or(door.on.span()),
                (door.width.span(), "with this width"),
                format!("a door {:.0} mm wide at {offset:.0} mm lies beyond the edge of its plate at {most:.0} mm", 2.0 * half),
                format!("write an offset of \"{:.0} mm\" or less, or a narrower door", most - half),
            );
        }
    }
}

fn inlet_fits(key: &str, inlet: &Inlet, top: &Chosen<Length>, levels: &Levels, widths: &Widths, out: &mut Diagnostics) {
    let sill = inlet.sill.value.value();
    let upper = sill + inlet.height.value.value();
    if sill < levels.bottom {
        report_one(
            out,
            &format!("{key}.sill"),
            inlet.sill.span(),
            (None, ""),
            format!("the sill at {sill:.0} mm lies below the foot's inner bottom at {:.0} mm", levels.bottom),
            format!("write {key}.sill = \"{:.0} mm\" or more", levels.bottom),
        );
    }
    if upper > top.value.value() {
        report_one(
            out,
            &format!("{key}.height"),
            inlet.height.span().or(inlet.sill.span()),
            (top.span(), "the foot's height"),
            format!("the inlet's upper edge at {upper:.0} mm lies above the foot's top flange at {:.0} mm", top.value.value()),
            format!("write casing.height = \"{:.0} mm\" or more, or leave it out", upper + 100.0),
        );
    }
    let width = inlet.width.value.value();
    if width > widths.inside {
        report_one(
            out,
            &format!("{key}.width"),
            inlet.width.span(),
            (None, ""),
            format!("the throat of {width:.0} mm is wider than the casing, {:.0} mm inside", widths.inside),
            format!("write {key}.width = \"{:.0} mm\" or less", widths.inside),
        );
    }
}
