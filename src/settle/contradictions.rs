//! Values that cannot all be true, each reported with the places of both.
//!
//! In: the settled spec. Out: errors with two labels. Only what no machine could be is an error here;
//! what is merely bad (a sill too low, a clearance too small) is for `rules`, so that a survey can be entered.

use super::levels::neutral;
use super::pulleys::{BEND_ANGLE, BendGeometry};
use super::so_far::{Levels, Widths};
use super::{bucket, outline};
use crate::diagnostics::{Code, Diagnostic, Diagnostics, Span};
use crate::say;
use crate::say::{Statement, Value, Voice};
use crate::spec::Spec;
use crate::spec::inlets::Inlet;
use crate::spec::openings::{Door, Wall};
use crate::spec::reader::Chosen;
use crate::spec::sheet::Language;
use crate::units::{Length, MM_PER_INCH, Unit, plain_number};

/// Which way a limit that is to be typed may be rounded.
#[derive(Clone, Copy)]
enum Limit {
    OrMore,
    OrLess,
}

/// A place in the spec with what it says there.
type Place = (Option<Span>, Statement);

/// Collects the contradictions of a spec.
struct Report<'a> {
    spec: &'a Spec,
    levels: &'a Levels,
    widths: &'a Widths,
    /// The console speaks English, in the units of the job.
    voice: Voice,
    out: &'a mut Diagnostics,
}

/// Reports all of them.
pub(super) fn report(spec: &Spec, levels: &Levels, widths: &Widths, out: &mut Diagnostics) {
    let mut report = Report { spec, levels, widths, voice: Voice::new(Language::English.tag(spec.us()), spec.figures()), out };
    report.sizes();
    report.bend_pulley();
    report.belt_and_buckets();
    report.section();
    report.densities_and_slip();
    report.places();
}

impl Report<'_> {
    fn add(&mut self, path: &str, first: Option<Span>, second: Place, message: Statement, hint: Statement) {
        let (message, hint) = (self.voice.say(&message), self.voice.say(&hint));
        // Point at whatever the user wrote; a default alone is never a contradiction.
        let one = Diagnostic::error(Code::Contradiction, path, first.clone(), message, hint);
        let text = if first.is_some() { self.voice.say(&second.1) } else { "here".into() };
        self.out.push(one.also(second.0, text));
    }

    /// A length as it is typed in the spec, in whole millimetres or sixteenths of an inch.
    fn typed(&self, mm: f64, limit: Limit) -> Value {
        let (unit, parts) = if self.spec.figures().customary() { ("in", 16.0 / MM_PER_INCH) } else { ("mm", 1.0) };
        let exact = mm * parts;
        let whole = match limit {
            Limit::OrMore => (exact - 1e-6).ceil(),
            Limit::OrLess => (exact + 1e-6).floor(),
        };
        let number = if unit == "in" { whole / 16.0 } else { whole };
        say::name(format!("\"{} {unit}\"", plain_number(number, 4)))
    }

    /// First value must not be larger than the second.
    fn not_larger(&mut self, small: (&str, &Chosen<Length>), large: (&str, &Chosen<Length>), why: &'static str) {
        let (s, l) = (small.1.value.value(), large.1.value.value());
        if s <= l + 1e-6 || !(small.1.is_given() || large.1.is_given()) {
            return;
        }
        let second = say!("{key} is {value}", key = say::name(large.0), value = say::mm(l));
        let message = say!(
            "{small} = {small_value} is larger than {large} = {large_value}: {why}",
            small = say::name(small.0),
            small_value = say::mm(s),
            large = say::name(large.0),
            large_value = say::mm(l),
            why = why
        );
        let hint = if small.1.is_given() {
            let most = self.typed(l, Limit::OrLess);
            say!("write {small} = {most} or less, or raise {large}", small = say::name(small.0), most = most, large = say::name(large.0))
        } else {
            say!("write {large} = {least} or more", large = say::name(large.0), least = self.typed(s, Limit::OrMore))
        };
        self.add(small.0, small.1.span(), (large.1.span(), second), message, hint);
    }

    fn sizes(&mut self) {
        let Spec { foot_pulley: foot, shaft, belt, bucket, head_pulley: head, bend_pulley: bend, .. } = self.spec;
        let face = ("foot_pulley.face", &foot.face);
        let hubs = ("foot_pulley.hub_spacing", &foot.hub_spacing);
        let foot = ("foot_pulley.diameter", &foot.diameter);
        self.not_larger(foot, ("head_pulley.diameter", &head.diameter), "a foot pulley has at most the head pulley's diameter");
        self.not_larger(("bucket.height", &bucket.height), ("bucket.spacing", &bucket.spacing), "the buckets would overlap on the belt");
        self.not_larger(("shaft.journal", &shaft.journal), ("shaft.diameter", &shaft.diameter), "the shaft is not thinner in the hubs than in the bearings");
        self.not_larger(("belt.width", &belt.width), face, "the belt would hang over the pulley");
        self.not_larger(hubs, ("shaft.bearing_centres", &shaft.bearing_centres), "the hubs lie between the bearings");
        self.not_larger(hubs, face, "the end discs lie within the face");
        self.not_larger(("shaft.thread_depth", &shaft.thread_depth), ("shaft.drill_depth", &shaft.drill_depth), "a thread ends before the drilled hole does");
        self.not_larger(
            ("belt.min_bend_pulley", &belt.min_bend_pulley),
            ("belt.min_pulley", &belt.min_pulley),
            "a small wrap asks less of the belt than a full one",
        );
        if *bend.fitted {
            self.not_larger(("bend_pulley.diameter", &bend.diameter), foot, "a bend pulley is smaller than the foot pulley");
        }
    }

    /// The belt must run straight between foot and bend pulley, at the angle and from the height given.
    fn bend_pulley(&mut self) {
        let Spec { bend_pulley: bend, foot_pulley: foot, head_pulley: head, belt, .. } = self.spec;
        if !*bend.fitted {
            return;
        }
        let geometry = BendGeometry::of(neutral([&foot.diameter, &head.diameter, &bend.diameter], &belt.thickness), self.levels);
        let (angle, height) = (bend.angle.value.value(), bend.height.value.value());
        let follows = geometry.height(angle);
        if bend.angle.is_given() && bend.height.is_given() {
            if (follows - height).abs() > 5.0 {
                let message = say!(
                    "a belt angle of {angle} puts the bend pulley {follows} above the base, not {height}",
                    angle = say::amount(angle, Unit::Degree, 1),
                    follows = say::mm(follows),
                    height = say::mm(height)
                );
                let second = (bend.height.span(), "the height given".into());
                self.add("bend_pulley.angle", bend.angle.span(), second, message, "give one of the two; the other follows".into());
            }
        } else if bend.height.is_given() {
            if geometry.angle(height).is_none() {
                let message = say!(
                    "a bend pulley {height} above the base leaves no straight belt to the foot pulley, whose shaft stands at {shaft}",
                    height = say::mm(height),
                    shaft = say::mm(geometry.shaft)
                );
                let usual = self.typed(geometry.height(BEND_ANGLE), Limit::OrMore);
                let hint = say!("write bend_pulley.height = {usual} or so, or give the angle instead", usual = usual);
                self.add("bend_pulley.height", bend.height.span(), (foot.diameter.span(), "the foot pulley".into()), message, hint);
            }
        } else if follows <= geometry.shaft {
            let message = say!(
                "a bend pulley needs a foot pulley clearly smaller than the head pulley: {foot} against {head} leaves no room for it",
                foot = say::mm(foot.diameter.value.value()),
                head = say::mm(head.diameter.value.value())
            );
            let most = self.typed(0.7 * head.diameter.value.value(), Limit::OrLess);
            let hint = say!("write foot_pulley.diameter = {most} or less, or leave the bend pulley out", most = most);
            let one = Diagnostic::error(Code::Contradiction, "bend_pulley.fitted", bend.fitted.span(), self.voice.say(&message), self.voice.say(&hint));
            self.out.push(one.also(foot.diameter.span(), "the foot pulley").also(head.diameter.span(), "the head pulley"));
        }
    }

    fn belt_and_buckets(&mut self) {
        let Spec { belt, bucket, shaft, foot_pulley: foot, .. } = self.spec;
        let across = bucket::rows_length(bucket);
        let width = belt.width.value.value();
        if width < across {
            let message =
                say!("the belt of {width} is narrower than its buckets, {across} with all rows and gaps", width = say::mm(width), across = say::mm(across));
            let hint = say!("write belt.width = {least} or more", least = self.typed(across + 50.0, Limit::OrMore));
            self.add("belt.width", belt.width.span(), (bucket.length.span(), "buckets of this length".into()), message, hint);
        }
        let centres = shaft.bearing_centres.value.value();
        let face = foot.face.value.value();
        if centres <= face {
            let message = say!("bearings {centres} apart do not span a pulley face of {face}", centres = say::mm(centres), face = say::mm(face));
            let hint = say!("write shaft.bearing_centres = {least} or more, or leave it out", least = self.typed(face + 200.0, Limit::OrMore));
            self.add("shaft.bearing_centres", shaft.bearing_centres.span(), (foot.face.span(), "the pulley's face".into()), message, hint);
        }
    }

    fn section(&mut self) {
        let bucket = &self.spec.bucket;
        let section = &bucket.outline;
        if !section.is_given() {
            return;
        }
        let corners = bucket::corners(&section.value);
        if !outline::is_simple(&corners) {
            self.add(
                "bucket.outline",
                section.span(),
                (None, "".into()),
                "the outline crosses or touches itself, or has no area".into(),
                "give the corners in order: upper end of the back, down round the bottom, up to the lip".into(),
            );
            return;
        }
        let extent = |axis: usize| corners.iter().map(|c| c[axis]).fold([f64::MAX, f64::MIN], |[low, high], v| [low.min(v), high.max(v)]);
        let ([near, far], [low, top]) = (extent(0), extent(1));
        let (p, h) = (bucket.projection.value.value(), bucket.height.value.value());
        if far > p + 1e-6 || near < -1e-6 {
            let message = say!(
                "the outline reaches from {near} to {far} out from the belt; the bucket projects {projection}",
                near = say::mm(near),
                far = say::mm(far),
                projection = say::mm(p)
            );
            let hint = say!("keep all first values between {least} and {most}", least = self.typed(0.0, Limit::OrMore), most = self.typed(p, Limit::OrLess));
            self.add("bucket.outline", section.span(), (bucket.projection.span(), "the projection".into()), message, hint);
        }
        if top > h + 1e-6 || low < -1e-6 {
            let message =
                say!("the outline reaches from {low} to {top} up; the bucket is {height} high", low = say::mm(low), top = say::mm(top), height = say::mm(h));
            let hint = say!(
                "keep all second values between {least} and {most}, 0 at the lowest point",
                least = self.typed(0.0, Limit::OrMore),
                most = self.typed(h, Limit::OrLess)
            );
            self.add("bucket.outline", section.span(), (bucket.height.span(), "the height".into()), message, hint);
        }
        let inside = outline::water_level_area(&corners) * bucket.length.value.value() / 1e6;
        let volume = bucket.volume.value.value();
        if bucket.volume.is_given() && !(0.7..=1.15).contains(&(volume / inside)) {
            let message = say!(
                "the outline holds {inside} at water level over the bucket's length; {volume} is given",
                inside = say::amount(inside, Unit::L, 2),
                volume = say::amount(volume, Unit::L, 2)
            );
            let hint = "check outline, length and volume against the bucket's data sheet";
            let one = Diagnostic::error(Code::Contradiction, "bucket.volume", bucket.volume.span(), self.voice.say(&message), hint);
            self.out.push(one.as_warning().also(section.span(), "the outline"));
        }
    }

    fn densities_and_slip(&mut self) {
        let Spec { product, monitoring, inlet_up, inlet_down, .. } = self.spec;
        let (loose, heavy) = (&product.density, &product.density_for_loads);
        if heavy.value.value() < loose.value.value() - 1e-9 {
            let density = |value: f64| say::amount(value, Unit::TPerM3, 2);
            let message = say!(
                "loads are reckoned with {heavy}, less than the {loose} for capacity",
                heavy = density(heavy.value.value()),
                loose = density(loose.value.value())
            );
            let least = say::name(format!("\"{} t/m3\"", plain_number(loose.value.value(), 4)));
            let hint = say!("write density_for_loads = {least} or more", least = least);
            self.add("product.density_for_loads", heavy.span(), (loose.span(), "the density for capacity".into()), message, hint);
        }
        let (alarm, stop) = (&monitoring.alarm_slip, &monitoring.stop_slip);
        if alarm.value.value() > stop.value.value() + 1e-9 {
            let slip = |share: f64| say::amount(share * 100.0, Unit::Percent, 0);
            let message = say!("the alarm at {alarm} slip comes after the stop at {stop}", alarm = slip(alarm.value.value()), stop = slip(stop.value.value()));
            let most = say::name(format!("\"{} %\"", plain_number(stop.value.value() * 50.0, 0)));
            let hint = say!("write alarm_slip = {most} or less", most = most);
            self.add("monitoring.alarm_slip", alarm.span(), (stop.span(), "the stop".into()), message, hint);
        }
        if !*inlet_up.fitted && !*inlet_down.fitted {
            self.add(
                "inlet",
                inlet_up.fitted.span(),
                (inlet_down.fitted.span(), "nor on the down side".into()),
                "there is no inlet on either side".into(),
                "write fitted = true under [inlet.up]".into(),
            );
        }
    }

    fn places(&mut self) {
        let (spec, levels) = (self.spec, self.levels);
        let height = &spec.casing.height;
        if height.value.value() < levels.shaft_low {
            let message =
                say!("the foot is {height} high, and its shaft stands at {shaft}", height = say::mm(height.value.value()), shaft = say::mm(levels.shaft_low));
            let hint = say!("write casing.height = {least} or more", least = self.typed(levels.shaft_high + levels.radius + 150.0, Limit::OrMore));
            let second = (spec.foot_pulley.diameter.span(), "a foot pulley of this size".into());
            self.add("casing.height", height.span(), second, message, hint);
        }
        for (key, inlet) in [("inlet.up", &spec.inlet_up), ("inlet.down", &spec.inlet_down)] {
            if *inlet.fitted {
                self.inlet(key, inlet);
            }
        }
        for (i, door) in spec.doors.iter().enumerate() {
            self.door(&format!("door[{}]", i + 1), door);
        }
    }

    fn door(&mut self, key: &str, door: &Door) {
        let (levels, top) = (self.levels, &self.spec.casing.height);
        let height = top.value.value();
        let (low, up) = (door.sill.value.value(), door.sill.value.value() + door.height.value.value());
        if up > height || low < levels.bottom {
            let message = say!(
                "the door reaches from {low} to {up}; its wall from {bottom} to {top}",
                low = say::mm(low),
                up = say::mm(up),
                bottom = say::mm(levels.bottom),
                top = say::mm(height)
            );
            let least = levels.bottom + 40.0;
            let most = (height - door.height.value.value() - 40.0).max(least);
            let hint = say!("write a sill between {least} and {most}", least = self.typed(least, Limit::OrMore), most = self.typed(most, Limit::OrLess));
            self.add(&format!("{key}.sill"), door.sill.span().or(door.height.span()), (top.span(), "the foot's height".into()), message, hint);
        }
        let half = door.width.value.value() / 2.0;
        let offset = door.offset.value.value();
        // The down-side end plate may stand farther out; only the nearer of both ends is sure here.
        let (least, most) = match *door.on {
            Wall::UpEnd | Wall::DownEnd => (-self.widths.inside / 2.0, self.widths.inside / 2.0),
            Wall::Near | Wall::Far => (f64::MIN, levels.up_end),
        };
        if offset + half > most || offset - half < least {
            let message = say!(
                "a door {width} wide at {offset} lies beyond the edge of its plate at {edge}",
                width = say::mm(2.0 * half),
                offset = say::mm(offset),
                edge = say::mm(most)
            );
            let hint = say!("write an offset of {most} or less, or a narrower door", most = self.typed(most - half, Limit::OrLess));
            let place = door.offset.span().or(door.width.span()).or(door.on.span());
            self.add(&format!("{key}.offset"), place, (door.width.span(), "with this width".into()), message, hint);
        }
    }

    fn inlet(&mut self, key: &'static str, inlet: &Inlet) {
        let (levels, top, inside) = (self.levels, &self.spec.casing.height, self.widths.inside);
        let sill = inlet.sill.value.value();
        let upper = sill + inlet.height.value.value();
        if sill < levels.bottom {
            let message = say!("the sill at {sill} lies below the foot's inner bottom at {bottom}", sill = say::mm(sill), bottom = say::mm(levels.bottom));
            let hint = say!("write {key}.sill = {least} or more", key = say::name(key), least = self.typed(levels.bottom, Limit::OrMore));
            self.add(&format!("{key}.sill"), inlet.sill.span(), (None, "".into()), message, hint);
        }
        if upper > top.value.value() {
            let message =
                say!("the inlet's upper edge at {upper} lies above the foot's top flange at {top}", upper = say::mm(upper), top = say::mm(top.value.value()));
            let hint = say!("write casing.height = {least} or more, or leave it out", least = self.typed(upper + 100.0, Limit::OrMore));
            let place = inlet.height.span().or(inlet.sill.span());
            self.add(&format!("{key}.height"), place, (top.span(), "the foot's height".into()), message, hint);
        }
        let width = inlet.width.value.value();
        if width > inside {
            let message = say!("the throat of {width} is wider than the casing, {inside} inside", width = say::mm(width), inside = say::mm(inside));
            let hint = say!("write {key}.width = {most} or less", key = say::name(key), most = self.typed(inside, Limit::OrLess));
            self.add(&format!("{key}.width"), inlet.width.span(), (None, "".into()), message, hint);
        }
    }
}
