//! Signs and list of the welds are what the bodies are, over all starters: every bead lies in a corner between the bodies that
//! it joins; every sign points at its seam, on the side of the joint where the weld lies; all round and both sides are; the list
//! tells the length of all beads; whatever is made of plate is held by a seam or by bolts.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

#[path = "support/pictures.rs"]
#[allow(dead_code)]
mod pictures;

use footwell::job::Job;
use footwell::lists;
use footwell::machine::Machine;
use footwell::paper::mark::PlanePoint;
use footwell::paper::sheet::SheetPlan;
use footwell::paper::shown::Shown;
use footwell::paper::view::{Item, Weld as Sign, WeldSide};
use footwell::parts::{Bead, Lay, Parts, Weld};
use footwell::solid::project::{Placed, Plane, Scene, Sight, Stroke, View};
use footwell::solid::touch::Run;
use glam::{DAffine3, DMat3, DVec3};
use kurbo::{ParamCurve, Point, Shape};

const STARTERS: [(&str, &str); 5] = [
    ("grain_intake", include_str!("../templates/grain_intake.toml")),
    ("pellets", include_str!("../templates/pellets.toml")),
    ("survey", include_str!("../templates/survey.toml")),
    ("tall_bend", include_str!("../templates/tall_bend.toml")),
    ("us_units", include_str!("../templates/us_units.toml")),
];

/// How far off its root a corner is looked into, mm: less than the thinnest plate, more than a gap before welding.
const INTO: f64 = 2.5;
/// A sign points at its seam to this, mm.
const ON: f64 = 1.0;
/// Ends of beads this near meet, mm.
const MEET: f64 = 4.0;

fn middle(run: &Run) -> (DVec3, DVec3, DVec3) {
    let at = run.points.len() / 2;
    let (a, b) = (run.points[at - 1], run.points[at]);
    (a.midpoint(b), (b - a).normalize(), run.open[at - 1])
}

/// The pieces of one side of a seam, as bodies in their places.
fn side<'a>(machine: &'a Machine, families: &[String]) -> Vec<(&'a footwell::solid::Brep, DAffine3)> {
    let of = |id: &str| families.iter().any(|f| id.strip_prefix(f.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with('.')));
    let bodies = machine.bodies.iter().filter(|b| of(&b.id));
    let each = bodies.flat_map(|b| b.places.iter().map(move |p| (&b.brep, p)));
    each.map(|(brep, p)| {
        let [x, y, z, o] = [p.right, p.up, p.toward, p.origin].map(DVec3::from_array);
        (brep, DAffine3 { matrix3: DMat3::from_cols(x, y, z), translation: o })
    })
    .collect()
}

/// Whether a point of a cutting plane lies in the material of bodies that it cuts, by the even-odd rule.
fn inside(loops: &[Vec<Point>], at: Point) -> bool {
    let crossings = loops.iter().flat_map(|l| l.iter().zip(l.iter().cycle().skip(1)));
    crossings.filter(|(a, b)| (a.y > at.y) != (b.y > at.y) && at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y)).count() % 2 == 1
}

/// Cut regions of bodies square to a bead.
fn cut(pieces: &[(&footwell::solid::Brep, DAffine3)], view: &View, at: DVec3) -> Vec<Vec<Vec<Point>>> {
    let placed: Vec<Placed<'_>> = pieces.iter().enumerate().map(|(id, (brep, at))| Placed { brep, at: *at, id, hidden: false, whole: false }).collect();
    let section = Scene::new(&placed).section(view, &Plane { at, away: view.toward });
    let points = |stroke: &Stroke| match stroke {
        Stroke::Line(l) => vec![l.p0],
        Stroke::Arc(a) => a.to_path(0.01).segments().flat_map(|s| [0.0, 0.25, 0.5, 0.75].map(|t| s.eval(t))).collect(),
    };
    section.cuts.iter().map(|cut| cut.loops.iter().map(|l| l.iter().flat_map(points).collect()).collect()).collect()
}

/// What is wrong with where a bead lies: the corner before it is open, and beside it there is one of each of the two that it joins.
fn no_corner(machine: &Machine, weld: &Weld, bead: &Bead) -> Option<String> {
    let (at, along, open) = middle(&bead.run);
    let right = open.reject_from(along).normalize();
    let view = View { right, up: along.cross(right), toward: along };
    let flat = Point::new(at.dot(view.right), at.dot(view.up));
    let sides: Vec<_> = weld.joins.iter().map(|families| cut(&side(machine, families), &view, at)).collect();
    let holds = |side: usize, dx: f64, dy: f64| sides[side].iter().any(|loops| inside(loops, Point::new(flat.x + dx, flat.y + dy)));
    // A mesh is a sheet as thick as its steel spread out.
    let into = if weld.of.ends_with(".mesh") { 0.3 } else { INTO };
    let found = [(into, 0.0), (0.0, into), (0.0, -into)].map(|(dx, dy)| [holds(0, dx, dy), holds(1, dx, dy)]);
    let between = match found {
        // In a notch the plates lie beyond a quarter turn.
        [[false, false], ..] if weld.lay == Lay::Notch => true,
        [[false, false], one, two] => one[0] && two[1] || one[1] && two[0],
        _ => false,
    };
    (!between).then(|| format!("seam {} of {}: no corner at {at:.1} open to {open:.2}: {found:?}", weld.number, weld.of))
}

/// Where a sign stands in the model's directions, with the picture that it points into.
struct Placed2<'a> {
    view: String,
    sign: &'a Sign,
    at: [f64; 2],
    shown: &'a Shown,
}

/// All signs on views of bodies.
fn signs(plans: &[SheetPlan]) -> Vec<Placed2<'_>> {
    let views = plans.iter().flat_map(|plan| plan.views.iter().map(move |v| (plan, &v.draft)));
    let of = |(plan, draft): (&'_ SheetPlan, &'_ footwell::paper::view::Draft)| (plan.id.to_string(), draft.id.clone());
    let mut out = Vec::new();
    for (plan, draft) in views {
        let (sheet, id) = of((plan, draft));
        for item in &draft.items {
            let (Item::Weld { at, weld, .. }, Some(shown)) = (item, draft.shown.first()) else { continue };
            let PlanePoint { x, y } = *at;
            out.push(Placed2 { view: format!("{sheet}/{id}"), sign: weld, at: [if shown.over { -x } else { x }, y - shown.lifted], shown });
        }
    }
    out
}

fn away(p: [f64; 2], a: [f64; 2], b: [f64; 2]) -> f64 {
    let [along, from] = [[b[0] - a[0], b[1] - a[1]], [p[0] - a[0], p[1] - a[1]]];
    let share = ((from[0] * along[0] + from[1] * along[1]) / (along[0].powi(2) + along[1].powi(2)).max(1e-12)).clamp(0.0, 1.0);
    (from[0] - share * along[0]).hypot(from[1] - share * along[1])
}

/// Where on a run a sign points, in the model, with the direction into the open and that along the run.
fn pointed(run: &Run, s: &Placed2<'_>) -> Option<[DVec3; 3]> {
    let [right, up] = [s.shown.right, s.shown.up].map(DVec3::from_array);
    let flat = |p: DVec3| [p.dot(right), p.dot(up)];
    // Of several stretches one behind the other, that at the cut.
    let off = |p: DVec3| s.shown.cut.map_or(0.0, |cut| (p - DVec3::from(cut)).dot(DVec3::from(s.shown.toward)).abs());
    let pairs = run.points.windows(2).zip(&run.open).filter(|(pair, _)| away(s.at, flat(pair[0]), flat(pair[1])) < ON);
    pairs
        .map(|(pair, open)| {
            let [a, b] = [pair[0], pair[1]].map(flat);
            let along = [b[0] - a[0], b[1] - a[1]];
            // Where it is seen endways, a section cuts it: the share along the cut's normal.
            let share = match s.shown.cut {
                Some(cut) => {
                    let off = |p: DVec3| (p - DVec3::from(cut)).dot(DVec3::from(s.shown.toward));
                    let (from, to) = (off(pair[0]), off(pair[1]));
                    if (from - to).abs() > 1.0 { (from / (from - to)).clamp(0.0, 1.0) } else { 0.5 }
                }
                None => 0.5,
            };
            let length = along[0].powi(2) + along[1].powi(2);
            let share = if length > 1.0 { (((s.at[0] - a[0]) * along[0] + (s.at[1] - a[1]) * along[1]) / length).clamp(0.0, 1.0) } else { share };
            [pair[0].lerp(pair[1], share), *open, (pair[1] - pair[0]).normalize()]
        })
        .min_by(|a, b| off(a[0]).total_cmp(&off(b[0])))
}

/// Whether the viewer sees a point past the bodies of a picture.
fn sees(machine: &Machine, shown: &Shown, at: DVec3) -> bool {
    let bodies = pictures::by_id(machine);
    let placed: Vec<Placed<'_>> = (shown.pieces.iter().enumerate())
        .map(|(id, piece)| {
            let body = bodies[piece.body.as_str()];
            Placed { brep: &body.brep, at: pictures::pose(piece), id, hidden: false, whole: pictures::whole(shown, piece, body) }
        })
        .collect();
    let (view, plane) = (pictures::view(shown), pictures::plane(shown));
    Sight::new(&Scene::new(&placed), &view, plane.as_ref(), None).sees(at)
}

/// What is wrong with a sign.
fn wrong(machine: &Machine, parts: &Parts, s: &Placed2<'_>) -> Option<String> {
    let weld = parts.welds.iter().find(|w| s.sign.seams.first() == Some(&w.number))?;
    let said = |what: &str| Some(format!("{}: sign of seam {} of {}: {what}", s.view, weld.number, weld.of));
    let toward = DVec3::from_array(s.shown.toward);
    if s.sign.side == WeldSide::Other {
        let Some([at, open, _]) = weld.flush.iter().find_map(|run| pointed(run, s)) else { return said("points at no joint") };
        let gone = s.shown.cut.is_some_and(|cut| (at - DVec3::from(cut)).dot(toward) > 1.0);
        if gone || open.dot(toward) < 0.1 || !sees(machine, s.shown, at + open * 0.1) {
            return said("its joint is not seen");
        }
        let near =
            |bead: &&Bead| bead.run.points.windows(2).any(|pair| (pair[0].midpoint(pair[1]) - at).reject_from((pair[1] - pair[0]).normalize()).length() < 60.0);
        let before = weld.beads.iter().filter(near).any(|bead| bead.run.open.iter().any(|open| open.dot(toward) > 0.1));
        return if before { said("the weld lies on the viewer's side") } else { None };
    }
    let candidates: Vec<(&Bead, [DVec3; 3])> = weld.beads.iter().filter_map(|b| pointed(&b.run, s).map(|at| (b, at))).collect();
    if candidates.is_empty() {
        return said("points at no bead");
    }
    // In a section that the seam crosses its corner is seen endways.
    let endways = |at: DVec3, along: DVec3| s.shown.cut.is_some_and(|cut| (at - DVec3::from(cut)).dot(toward).abs() < 1.0) && along.dot(toward).abs() > 0.2;
    let out = if weld.fillet { 2.0 } else { 0.1 };
    let good = candidates.iter().find(|(_, [at, open, along])| endways(*at, *along) || open.dot(toward) > 0.0 && sees(machine, s.shown, *at + *open * out));
    let Some((bead, _)) = good else { return said("the weld lies on the other side, or is hidden") };
    let both = matches!(s.sign.side, WeldSide::Both | WeldSide::Staggered);
    if both != bead.both {
        return said("one side or both");
    }
    if both != both_sides(weld, bead) && !bead.round {
        return said("one side or both, by the beads that stand there");
    }
    if s.sign.all_round != (weld.fillet && closed(weld, bead)) {
        return said("all round or not");
    }
    None
}

/// Whether another bead of the seam runs along this one, the plate between them.
fn both_sides(weld: &Weld, bead: &Bead) -> bool {
    let (at, along, open) = middle(&bead.run);
    let beside = |run: &Run| {
        let (_, other, facing) = middle(run);
        let line = run.points.windows(2).map(|pair| {
            let step = pair[1] - pair[0];
            at.distance(pair[0] + step * ((at - pair[0]).dot(step) / step.length_squared()).clamp(0.0, 1.0))
        });
        let off = line.fold(f64::INFINITY, f64::min);
        // Each opens away from the other and from what both stand on.
        let (to, _, _) = middle(run);
        let way = (to - at).reject_from(along).normalize_or_zero();
        let between = (way.dot(open) + 0.7).abs() < 0.25 && (way.dot(facing) - 0.7).abs() < 0.25;
        off > 1.0 && off < 30.0 && (run.points.len() > 2 && facing.dot(open) < 0.5 || other.dot(along).abs() > 0.9 && between)
    };
    weld.fillet && weld.beads.iter().any(|other| beside(&other.run))
}

/// Whether a bead is part of a ring: its ends are joined by other beads, from end to end.
fn closed(weld: &Weld, bead: &Bead) -> bool {
    let ends = |run: &Run| [run.points[0], run.points[run.points.len() - 1]];
    let [start, end] = ends(&bead.run);
    let others: Vec<[DVec3; 2]> = weld.beads.iter().filter(|b| *b != bead).map(|b| ends(&b.run)).collect();
    let mut seen = vec![false; others.len()];
    let mut open = vec![start];
    while let Some(at) = open.pop() {
        for (n, run) in others.iter().enumerate() {
            if !seen[n] && run.iter().any(|p| p.distance(at) < MEET) {
                seen[n] = true;
                open.extend(run);
            }
        }
    }
    start.distance(end) < 1.0 || (0..others.len()).any(|n| seen[n] && others[n].iter().any(|p| p.distance(end) < MEET))
}

/// Seams whose length in the list is not that of their beads.
fn wrong_lengths(parts: &Parts) -> Vec<String> {
    let laid = |w: &Weld| -> f64 {
        let bead = |b: &Bead| match w.lay {
            Lay::Staggered { bead, gap } => (b.run.length() / (bead + gap) + 1e-3).floor() * bead,
            _ => b.run.length(),
        };
        w.beads.iter().map(bead).sum::<f64>() / if w.fillet { 1.0 } else { 2.0 }
    };
    let wrong = parts.welds.iter().filter(|w| w.length < 1.0 || (w.length / laid(w) - 1.0).abs() > 0.02);
    wrong.map(|w| format!("seam {} of {}: {:.0} mm listed, {:.0} mm laid", w.number, w.of, w.length, laid(w))).collect()
}

#[test]
fn every_bead_lies_in_a_corner_between_what_it_joins() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        let all = || job.parts().welds.iter().filter(|w| w.fillet).flat_map(|w| w.beads.iter().map(move |b| (w, b)));
        let found: Vec<String> = all().filter_map(|(w, b)| no_corner(job.machine(), w, b)).collect();
        assert_eq!(found, Vec::<String>::new(), "{name}");
        // A bead that opens into the plates.
        let (weld, bead) = all().next().unwrap();
        let run = Run { open: bead.run.open.iter().map(|o| -*o).collect(), ..bead.run.clone() };
        assert!(no_corner(job.machine(), weld, &Bead { run, ..bead.clone() }).is_some());
    }
}

#[test]
fn signs_point_at_their_seams_on_the_side_where_they_lie() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        let placed = signs(job.plans());
        let found: Vec<String> = placed.iter().filter_map(|s| wrong(job.machine(), job.parts(), s)).collect();
        assert_eq!(found, Vec::<String>::new(), "{name}");
        // Each sign with a fault of its own.
        for s in &placed {
            let of = |sign: &Sign, at: [f64; 2]| wrong(job.machine(), job.parts(), &Placed2 { view: s.view.clone(), sign, at, shown: s.shown }).is_some();
            // Moved by chance onto another bead of the same seam it is right again: not both ways.
            let moved = [[30.7, 23.3], [-17.1, 41.9]].map(|[x, y]| of(s.sign, [s.at[0] + x, s.at[1] + y]));
            assert_ne!(moved, [false, false], "{name}: {} moved", s.view);
        }
        let other = |s: &Sign| Sign { side: WeldSide::Other, ..s.clone() };
        let both = |s: &Sign| Sign { side: if s.side == WeldSide::Both { WeldSide::Arrow } else { WeldSide::Both }, ..s.clone() };
        let round = |s: &Sign| Sign { all_round: !s.all_round, ..s.clone() };
        for plant in [&other as &dyn Fn(&Sign) -> Sign, &both, &round] {
            let missed = |s: &&Placed2<'_>| {
                let sign = plant(s.sign);
                sign.side != WeldSide::Staggered
                    && wrong(job.machine(), job.parts(), &Placed2 { view: s.view.clone(), sign: &sign, at: s.at, shown: s.shown }).is_none()
            };
            let missed: Vec<u32> = placed.iter().filter(|s| s.sign.side == WeldSide::Arrow).filter(missed).map(|s| s.sign.seams[0]).collect();
            assert_eq!(missed, Vec::<u32>::new(), "{name}");
        }
    }
}

#[test]
fn the_list_tells_the_length_of_all_beads() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        let parts = job.parts();
        assert_eq!(wrong_lengths(parts), Vec::<String>::new(), "{name}");
        let mut planted = parts.clone();
        planted.welds[0].length *= 2.0;
        assert_eq!(wrong_lengths(&planted).len(), 1);
        // By the sizes of what is welded on: frames all round, lugs on both faces, grips round both feet.
        let length = |of: &str| parts.welds.iter().find(|w| w.of == of).map(|w| w.length);
        for part in &parts.items {
            let Some([x, y]) = part.flat.as_ref().map(|f| f.size()) else { continue };
            let wanted = match part.id.as_str() {
                // The ends of a thick one are welded too.
                "rod_lug" => 2.0 * f64::from(part.quantity) * (x + if part.thickness < 30.0 { 0.0 } else { part.thickness }),
                "bend_support" => f64::from(part.quantity) * 2.0 * (x + y),
                id if id.starts_with("door[") && id.ends_with(".frame") || id.starts_with("sensor") && id.ends_with(".frame") => 2.0 * (x + y),
                _ => continue,
            };
            let found = length(&part.id).unwrap();
            assert!((found / wanted - 1.0).abs() < 0.03, "{name}: {} {found} listed, {wanted} by its size", part.id);
        }
        // What the list says of both sides is what the signs say.
        let (rows, placed) = (lists::welds(parts).rows, signs(job.plans()));
        for (weld, row) in parts.welds.iter().zip(&rows) {
            let says = format!("{:?}", row.last().unwrap()).contains("both sides");
            let whole: f64 = weld.beads.iter().map(|b| b.run.length()).sum();
            let both: f64 = weld.beads.iter().filter(|b| both_sides(weld, b) && !closed(weld, b)).map(|b| b.run.length()).sum();
            assert_eq!(says, both > 0.75 * whole, "{name}: seam {}", weld.number);
            let signed = placed.iter().any(|s| s.sign.seams[0] == weld.number && matches!(s.sign.side, WeldSide::Both | WeldSide::Staggered));
            assert!(says || !signed, "{name}: seam {} is signed on both sides, and not listed so", weld.number);
            // Nor does one of them say all round where the other does not.
            let ring = format!("{:?}", row.last().unwrap()).contains("all round");
            let unlike = placed.iter().filter(|s| s.sign.seams[0] == weld.number && s.sign.all_round != ring).map(|s| &s.view);
            assert_eq!(unlike.collect::<Vec<_>>(), Vec::<&String>::new(), "{name}: seam {} listed all round: {ring}", weld.number);
        }
    }
}

/// What a row of the list of welds says of a seam, in words.
fn noted(job: &Job, number: u32) -> String {
    let row = &lists::welds(job.parts()).rows[number as usize - 1];
    format!("{row:?}")
}

#[test]
fn the_list_tells_separate_runs_and_prepared_edges() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        for weld in &job.parts().welds {
            let noted = noted(&job, weld.number);
            // Four corners of a throat and of a flange; both edges of both discs.
            let wanted = match weld.of.as_str() {
                of if of.starts_with("throat") && !weld.joins[1].contains(&"end_plate".to_string()) => Some(4),
                "top_flange" if !weld.fillet => Some(4),
                "foot_pulley" | "bend_pulley" => Some(4),
                "rod_lug" | "bend_support" => Some(2),
                of if of.starts_with("door[") && of.ends_with(".frame") => Some(1),
                _ => None,
            };
            if let Some(wanted) = wanted {
                assert_eq!(weld.runs(), wanted, "{name}: seam {}", weld.number);
            }
            assert_eq!(noted.contains(" runs"), weld.runs() > 1, "{name}: {noted}");
            assert_eq!(noted.contains("root gap"), !weld.fillet, "{name}: {noted}");
            let inside = ["pulley", "stiffener", "top_flange"].iter().any(|of| weld.of.contains(of));
            assert!(weld.fillet || weld.tight != inside, "{name}: seam {} of {}", weld.number, weld.of);
        }
        for s in signs(job.plans()) {
            let weld = &job.parts().welds[s.sign.seams[0] as usize - 1];
            assert_eq!(s.sign.tail.contains("dust tight"), weld.tight, "{name}: {}", s.view);
            assert_eq!(s.sign.tail.contains("gap"), !weld.fillet, "{name}: {}", s.view);
        }
    }
}

#[test]
fn whatever_is_cut_or_of_mesh_is_held_by_a_seam_or_by_bolts() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        let loose = |parts: &Parts| -> Vec<String> {
            let bolted = |id: &str| {
                let holes = parts.items.iter().filter(|p| p.id == id).filter_map(|p| p.flat.as_ref()).flat_map(|f| &f.holes);
                holes.into_iter().any(|h| parts.joints.iter().any(|j| j.feature == h.feature))
            };
            let made = parts.items.iter().filter(|p| p.flat.is_some() || p.id.ends_with(".mesh") || p.id.ends_with(".grip"));
            let welded = |id: &str| parts.welds.iter().any(|w| w.takes(id) && !w.beads.is_empty());
            // The weights of a gravity take-up lie loose in their boxes.
            made.filter(|p| p.id != "weight" && !welded(&p.id) && !bolted(&p.id)).map(|p| p.id.clone()).collect()
        };
        assert_eq!(loose(job.parts()), Vec::<String>::new(), "{name}");
        if let Some(mesh) = job.parts().welds.iter().find(|w| w.of.ends_with(".mesh")) {
            let mut planted = job.parts().clone();
            planted.welds.retain(|w| w.number != mesh.number);
            assert_eq!(loose(&planted), vec![mesh.of.clone()]);
        }
    }
}
/// Floor, roof and cheeks of a throat meet the wall and the flange all round: product cannot leave there.
#[test]
fn throats_are_closed_at_both_ends() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        let parts = job.parts();
        let ends = parts.welds.iter().filter(|w| w.fillet && w.of.starts_with("throat.") && w.takes("end_plate.up") | w.takes("end_plate.down"));
        let mut seen = 0;
        for weld in ends {
            seen += 1;
            assert!(weld.all_round(), "{name}: seam {} leaves an end open: {:?}", weld.number, weld.beads);
        }
        assert!(seen > 0, "{name}");
    }
}
