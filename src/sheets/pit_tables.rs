//! Tables of the pit sheet: what has to be built and dug, uplift, fittings. Loads stand in `pit_actions`.
//!
//! Numbers come from the analysis; US sheets show them in kip, cubic yards and square feet as well-known
//! multiples of the SI values (kip 4448.222 N, yard 0.9144 m, foot 0.3048 m, pound 0.45359237 kg, lbf/in 0.1751268 N/mm).

use super::Subject;
use crate::model::pit::PitBody;
use crate::model::pit_fittings::Sleeve;
use crate::paper::mark::Align;
use crate::paper::style::Pen;
use crate::paper::table::Table;
use crate::paper::view::{Draft, ViewScale};
use crate::say;
use crate::say::LengthUnit;
use crate::say::number;
use crate::say::{name, size};
use crate::spec::pit::{Access, AccessSide};

/// A value in the sheet's family of units, with the unit's sign.
pub fn in_sheet_unit<'u>(subject: &Subject<'_>, value: f64, unit: &'u str) -> (f64, &'u str) {
    if subject.style().unit == LengthUnit::Mm {
        return (value, unit);
    }
    match unit {
        "kN" => (value / 4.448_222, "kip"),
        "kg" => (value / 0.453_592_37, "lb"),
        "m³" => (value / 0.764_554_857_984, "yd³"),
        "m²" => (value / 0.092_903_04, "ft²"),
        "mm" => (value, "in"),
        "N/mm" => (value / 0.175_126_835, "lbf/in"),
        "kW" => (value / 0.745_699_872, "hp"),
        "kN/m²" => (value / 0.047_880_259, "lbf/ft²"),
        "kN/m" => (value / 0.014_593_903, "lbf/ft"),
        other => (value, other),
    }
}

/// The sign sketch beside the load table.
pub fn signs(subject: &Subject<'_>) -> Draft {
    let mut d = Draft::new("signs", "SIGNS OF THE LOADS").at_scale(ViewScale::Picture { width: 60.0, height: 40.0 });
    d.rectangle(Pen::Edge, (-400.0, 0.0), (400.0, 300.0));
    for x in [-400.0, 340.0] {
        d.rectangle(Pen::Edge, (x, -30.0), (x + 60.0, 0.0));
    }
    d.line(Pen::Ground, (-650.0, -30.0), (650.0, -30.0));
    d.flow_arrow((370.0, 560.0), (370.0, 320.0));
    d.label((250.0, 470.0), "V +");
    d.flow_arrow((-200.0, 150.0), (100.0, 150.0));
    d.label((-50.0, 215.0), "H +");
    d.label((560.0, 60.0), subject.say("up side"));
    d
}

/// Concrete, formwork, earthwork, uplift.
pub fn quantities(subject: &Subject<'_>) -> Option<Table> {
    let pit = subject.results.pit.as_ref()?;
    let mut table = Table::new("quantities", "QUANTITIES OF THE PIT").column("Item", Align::Left, 86.0).column("Quantity", Align::Right, 20.0).column(
        "Unit",
        Align::Left,
        12.0,
    );
    let mut row = |name: &'static str, value: f64, unit: &str, decimals: usize| {
        let (value, unit) = in_sheet_unit(subject, value, unit);
        table.row([subject.say(name), subject.number(value, decimals), unit.to_string()]);
    };
    row("concrete of slab, walls and sump", pit.concrete_m3, "m³", 2);
    row("lean concrete", pit.lean_m3, "m³", 2);
    row("formwork", pit.formwork_m2, "m²", 1);
    row("excavation, bank volume", pit.excavation_m3, "m³", 1);
    row("backfill, bank volume", pit.backfill_m3, "m³", 1);
    row("soil to cart away, loose volume", pit.surplus_loose_m3, "m³", 1);
    if let Some(u) = pit.uplift.filter(|u| u.with_soil.uplift_kn > 0.0) {
        row("uplift of the empty pit", u.concrete.uplift_kn, "kN", 1);
        row("weight of its concrete", u.concrete.weight_kn, "kN", 1);
        row("weight of concrete and buoyant soil over the toe", u.with_soil.weight_kn, "kN", 1);
        row("concrete over uplift", u.concrete.factor(), "", 2);
        row("concrete and soil over uplift", u.with_soil.factor(), "", 2);
        if u.pulled_kn[1] > 0.0 {
            row("pull of belts held by the building, running or starting", u.pulled_kn[0], "kN", 1);
            row("concrete and soil over uplift and pull of belts", u.factor_pulled(), "", 2);
            row("pull of belts held by the building, one foot blocked", u.pulled_kn[1], "kN", 1);
            row("concrete and soil over uplift and pull of belts, one foot blocked", u.factor_blocked(), "", 2);
        }
    }
    Some(table)
}

/// Way down, guards, cover seat and sleeves with their places.
pub fn fittings(subject: &Subject<'_>) -> Option<Table> {
    let pit = subject.foot.pit.as_ref()?;
    let f = &pit.fittings;
    let mut table = Table::new("fittings", "WAY DOWN, GUARDS, CAST-IN PARTS").column("What", Align::Left, 60.0).column("Size and place", Align::Left, 108.0);
    let mut row = |what: &'static str, size: String| table.row([subject.say(what), size]);
    let (what, way) = way_down(subject, pit);
    row(what, way);
    row("landing, to be kept free", format!("{} × {}", subject.mm(f.landing.x.size()), subject.mm(f.landing.y.size())));
    if let Some(h) = &f.hatch {
        row("hatch in the cover", format!("{} × {}", subject.mm(h.x.size()), subject.mm(h.y.size())));
    }
    if let Some(s) = &f.seat {
        row("seat of the cover, cast-in frame all round", subject.say(say!("{width} wide, {depth} deep", width = size(s.width, 1), depth = size(s.depth, 1))));
    }
    if let Some(c) = &pit.cover {
        row(
            "cover of the pit",
            subject.say(say!(
                "plates on {number} beams {beam} high, {thickness} in all, {clear} clear under them; {cut_outs} cut-outs HOLD",
                number = name(c.beams.len()),
                beam = size(c.beam, 1),
                thickness = size(c.thickness, 1),
                clear = size(pit.headroom(), 1),
                cut_outs = name(c.cut_outs.len())
            )),
        );
    }
    if let Some(r) = &f.rail {
        row(
            "guard rail",
            subject.say(say!(
                "top {height}, knee rail {knee}, toe board {toe_board}; {length} round the opening, {posts} posts, self-closing gate {gate}",
                height = size(r.height, 1),
                knee = size(r.knee.round(), 1),
                toe_board = size(r.toe_board, 1),
                length = size(r.length.round(), 1),
                posts = name(r.posts),
                gate = size(r.gate, 1)
            )),
        );
    }
    for s in &f.sleeves {
        row(s.purpose, sleeve(subject, pit, s));
    }
    if let Some(fall) = &f.fall {
        row(
            "fall of the floor",
            subject.say(say!(
                "{share} % to the sump, {drop} at its edge",
                share = name(subject.number(fall.share * 100.0, 1)),
                drop = name(number::level(pit.level(-fall.drop), subject.style()))
            )),
        );
    }
    Some(table)
}

/// Ladder or stair with its size.
fn way_down(subject: &Subject<'_>, pit: &PitBody) -> (&'static str, String) {
    let way = &pit.way;
    let steps = way.steps.to_string();
    match pit.access {
        Access::Ladder => (
            "ladder",
            subject.say(say!(
                "{clear_width} clear, {steps} rungs {rise} apart",
                clear_width = size(way.clear_width, 1),
                steps = name(steps),
                rise = size(way.rise, 1)
            )),
        ),
        Access::Stair => (
            "stair",
            subject.say(say!(
                "{clear_width} clear, {steps} risers of {rise}, going {stair_going}",
                clear_width = size(way.clear_width, 1),
                steps = name(steps),
                rise = size(way.rise, 1),
                stair_going = size(subject.spec.pit.stair_going.value.value(), 1)
            )),
        ),
    }
}

/// Size and place of a sleeve in a wall.
fn sleeve(subject: &Subject<'_>, pit: &PitBody, s: &Sleeve) -> String {
    let along = match s.wall {
        AccessSide::Up | AccessSide::Down => s.at.y,
        AccessSide::Near | AccessSide::Far => s.at.x,
    };
    if along.abs() < 0.05 {
        return subject.say(say!(
            "sleeve ⌀{diameter} in the {wall} on the axis, level {at} HOLD",
            diameter = size(s.diameter, 1),
            wall = wall_word(s.wall),
            at = name(number::level(pit.level(s.at.z), subject.style()))
        ));
    }
    subject.say(say!(
        "sleeve ⌀{diameter} in the {wall}, {along} {along_2} from the axis, level {at} HOLD",
        diameter = size(s.diameter, 1),
        wall = wall_word(s.wall),
        along = size(along.abs(), 1),
        along_2 = place_word(s.wall, along),
        at = name(number::level(pit.level(s.at.z), subject.style()))
    ))
}

/// On which side of the axis a place along a wall lies.
const fn place_word(wall: AccessSide, along: f64) -> &'static str {
    match (wall, along >= 0.0) {
        (AccessSide::Up | AccessSide::Down, true) => "toward near",
        (AccessSide::Up | AccessSide::Down, false) => "toward far",
        (AccessSide::Near | AccessSide::Far, true) => "toward up side",
        (AccessSide::Near | AccessSide::Far, false) => "toward down side",
    }
}

/// How the quantities are measured and the uplift is reckoned.
pub fn quantity_notes(subject: &Subject<'_>) -> Vec<String> {
    let pit = &subject.spec.pit;
    let (space, sides) = (subject.mm(pit.working_space.value.value()), subject.number(pit.batter.value.value(), 0));
    let mut all = vec![if subject.us() {
        subject.say(say!("Quantities: concrete net, nothing off for steel cast in or for openings up to 0.65 yd³ each (after DIN 18331); formwork by contact area; excavation as bank volume to the underside of the lean concrete, working space {space} beside the base, sides {sides}°.", space = name(space), sides = name(sides)))
    } else {
        subject.say(say!("Quantities: concrete net, nothing off for steel cast in or for openings up to 0.5 m³ each (after DIN 18331); formwork by contact area; excavation as bank volume to the underside of the lean concrete, working space {space} beside the base, sides {sides}°.", space = name(space), sides = name(sides)))
    }];
    if subject.results.pit.as_ref().is_some_and(|p| p.uplift.is_some()) {
        all.push(if subject.us() {
            subject.say("Uplift: total weight of concrete (153 lbf/ft³) and submerged weight of the soil that stands vertically over the toe, against the water that the concrete box displaces. Machine, sump, wall friction and cover are left out.")
        } else {
            subject.say("Uplift: total weight of concrete (24 kN/m³) and submerged weight of the soil that stands vertically over the toe, against the water that the concrete box displaces. Machine, sump, wall friction and cover are left out.")
        });
    }
    all
}

/// The word for a wall.
const fn wall_word(side: AccessSide) -> &'static str {
    match side {
        AccessSide::Up => "up-side wall",
        AccessSide::Down => "down-side wall",
        AccessSide::Near => "near wall",
        AccessSide::Far => "far wall",
    }
}
