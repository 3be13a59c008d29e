//! Views keep the conventions of drawing: ribs are not hatched lengthwise, a view from another side has its letter at an
//! arrow, what is broken off ends at a line; over starters and a winged pulley. Planted faults are found.
#![allow(clippy::unwrap_used, missing_docs)]

#[path = "support/pictures.rs"]
#[allow(dead_code)]
mod pictures;
mod support;

use footwell::job::Job;
use footwell::machine::Machine;
use footwell::paper::mark::{PlanePoint, Shape};
use footwell::paper::sheet::{Placement, SheetPlan};
use footwell::paper::style::Pen;
use footwell::paper::view::{Draft, Item, Material, ViewScale};
use footwell::solid::project::{Placed, Scene, Stroke};
use glam::DVec3;
use kurbo::{ParamCurve as _, Point, Rect};

/// Plates that stand on edge to stiffen others (ISO 128-3: ribs and webs are not cut lengthwise, from memory).
const RIBS: [&str; 4] = ["foot.gusset", "bracket.gusset", "stiffener", "foot_pulley.wing"];
/// Two places closer than this are one, mm.
const NEAR: f64 = 0.5;

fn jobs() -> Vec<(String, Job)> {
    let mut texts = support::templates();
    let mut winged: toml::Table = texts[0].1.parse().unwrap();
    support::set(&mut winged, "foot_pulley.style", "\"winged\"");
    texts.push(("winged".into(), toml::to_string(&winged).unwrap()));
    texts.into_iter().map(|(name, text)| (name, support::run(&text).unwrap())).collect()
}

fn drafts(plans: &[SheetPlan]) -> impl Iterator<Item = (String, &Draft)> {
    plans.iter().flat_map(|p| p.views.iter().map(move |v| (format!("{}/{}", p.id, v.draft.id), &v.draft)))
}

/// Where the plane of a picture meets the ribs that it cuts along their faces, as drawn.
fn ribs_cut(draft: &Draft, machine: &Machine) -> Vec<(String, Rect)> {
    let bodies = pictures::by_id(machine);
    let mut out = Vec::new();
    for shown in &draft.shown {
        let Some(plane) = pictures::plane(shown) else { continue };
        for piece in &shown.pieces {
            let along = DVec3::from(piece.at[2]).dot(shown.toward.into()).abs() > 0.7;
            let Some(body) = bodies.get(piece.body.as_str()).filter(|_| along && RIBS.iter().any(|r| piece.body.starts_with(r))) else { continue };
            let placed = [Placed { brep: &body.brep, at: pictures::pose(piece), id: 0, hidden: false, whole: false }];
            let section = Scene::new(&placed).section(&pictures::view(shown), &plane);
            let side = if shown.over { -1.0 } else { 1.0 };
            let ends = section.cuts.iter().flat_map(|c| c.loops.iter().flatten()).flat_map(|s| match s {
                Stroke::Line(l) => [l.p0, l.p1],
                Stroke::Arc(a) => [a.eval(0.0), a.eval(1.0)],
            });
            let points: Vec<Point> = ends.map(|p| Point::new(side * p.x, p.y + shown.lifted)).collect();
            out.extend(bounds(points.into_iter()).map(|r| (piece.body.clone(), r)));
        }
    }
    out
}

fn bounds(points: impl Iterator<Item = Point>) -> Option<Rect> {
    points.map(|p| Rect::from_points(p, p)).reduce(|a, b| a.union(b))
}

fn corners(shape: &Shape<PlanePoint>) -> Vec<Point> {
    match shape {
        Shape::Polyline { vertices, .. } => vertices.iter().map(|v| v.at.into()).collect(),
        Shape::Line { from, to } => vec![(*from).into(), (*to).into()],
        _ => Vec::new(),
    }
}

/// Ribs that a view hatches though it cuts them lengthwise.
fn hatched_ribs(plans: &[SheetPlan], machine: &Machine) -> Vec<String> {
    let mut out = Vec::new();
    for (view, draft) in drafts(plans).filter(|(view, _)| !view.starts_with("compare/")) {
        let hatches: Vec<Rect> = draft
            .items
            .iter()
            .filter_map(|i| if let Item::Hatch { loops, .. } = i { loops.first().and_then(|l| bounds(corners(l).into_iter())) } else { None })
            .collect();
        let alike = |a: &Rect, b: &Rect| [a.x0 - b.x0, a.x1 - b.x1, a.y0 - b.y0, a.y1 - b.y1].iter().all(|d| d.abs() < NEAR);
        out.extend(ribs_cut(draft, machine).into_iter().filter(|(_, r)| hatches.iter().any(|h| alike(h, r))).map(|(id, _)| format!("{view}: {id} is hatched")));
    }
    out
}

/// Free views from another side without a reference arrow; those of a weldment say their side by name.
fn unlettered(plans: &[SheetPlan]) -> Vec<String> {
    let mut out = Vec::new();
    for plan in plans.iter().filter(|p| p.id != "welding") {
        let arrows: Vec<&str> = plan
            .views
            .iter()
            .flat_map(|v| &v.draft.items)
            .filter_map(|i| if let Item::Arrow { letter, .. } = i { Some(letter.as_str()) } else { None })
            .collect();
        for view in plan.views.iter().filter(|v| v.placement == Placement::Free && !matches!(v.draft.scale, ViewScale::Picture { .. })) {
            let title = view.draft.title.plainly();
            let lettered = arrows.iter().any(|l| title.contains(&format!("VIEW {l}")));
            if title.contains("FROM THE ") && !title.contains("SECTION") && !lettered {
                out.push(format!("{}/{}: {title} has no arrow with its letter", plan.id, view.draft.id));
            }
        }
    }
    out
}

/// Sections by letters whose plane is in no view of their sheet, and planes of which there is no section.
fn sections_apart(plans: &[SheetPlan]) -> Vec<String> {
    let mut out = Vec::new();
    for plan in plans.iter().filter(|p| ["turned", "rotating"].contains(&p.id.as_str())) {
        let items = || plan.views.iter().flat_map(|v| &v.draft.items);
        let planes: Vec<&str> = items().filter_map(|i| if let Item::Cut { letter, .. } = i { Some(letter.as_str()) } else { None }).collect();
        let titles: Vec<String> = plan.views.iter().map(|v| v.draft.title.plainly()).collect();
        let named = |letter: &str| titles.iter().any(|t| t.contains(&format!("SECTION {letter}–{letter}")));
        out.extend(planes.iter().filter(|l| !named(l)).map(|l| format!("{}: no section {l}–{l}", plan.id)));
        let cut = |title: &str| planes.iter().any(|l| title.contains(&format!("SECTION {l}–{l}")));
        let pulley = |title: &str| title.contains("PULLEY") && !title.contains("ITEM");
        let views = plan.views.iter().filter(|v| v.draft.shown.iter().any(|s| s.cut.is_some()));
        let loose = views.filter(|v| !cut(&v.draft.title.plainly()) && (pulley(&v.draft.title.plainly()) || v.draft.title.plainly().contains("SECTION")));
        out.extend(loose.map(|v| format!("{}/{}: its plane is in no view", plan.id, v.draft.id)));
    }
    out
}

/// Wide lines of the views along the wall that end in the open: at the edge of all wide lines, and on nothing.
fn open_ends(plans: &[SheetPlan]) -> Vec<String> {
    let mut out = Vec::new();
    for (view, draft) in drafts(plans).filter(|(view, _)| ["rotating/take_up_side", "rotating/take_up_section"].contains(&view.as_str())) {
        let strokes: Vec<(Pen, Vec<Point>)> =
            draft.items.iter().filter_map(|i| if let Item::Stroke { shape, pen } = i { Some((*pen, corners(shape))) } else { None }).collect();
        let wide = || strokes.iter().filter(|s| s.0 == Pen::Edge && s.1.len() == 2);
        let Some(all) = bounds(wide().flat_map(|s| s.1.iter().copied())) else { continue };
        let at_edge = |p: &Point| [p.x - all.x0, all.x1 - p.x, p.y - all.y0, all.y1 - p.y].iter().any(|d| d.abs() < NEAR);
        for (number, end) in wide().enumerate().flat_map(|(n, s)| s.1.iter().map(move |p| (n, *p))).filter(|(_, p)| at_edge(p)) {
            let on = |a: Point, b: Point| {
                let way = b - a;
                let share = ((end - a).dot(way) / way.hypot2().max(1e-12)).clamp(0.0, 1.0);
                a.lerp(b, share).distance(end) < NEAR
            };
            let own: Vec<Point> = wide().nth(number).unwrap().1.clone();
            // The zigzag of a break line may lie about a thin plate's end.
            let about = |s: &(Pen, Vec<Point>)| s.0 == Pen::FineEdge && s.1.len() > 2 && bounds(s.1.iter().copied()).is_some_and(|r| r.contains(end));
            let met = strokes.iter().filter(|s| s.1 != own).any(|s| s.1.windows(2).any(|w| on(w[0], w[1])) || about(s));
            if !met {
                out.push(format!("{view}: a line ends in the open at {:.1}, {:.1}", end.x, end.y));
            }
        }
    }
    out
}

#[test]
fn views_keep_the_conventions() {
    for (name, job) in jobs() {
        let plans = job.plans();
        let mut wrong = hatched_ribs(plans, job.machine());
        wrong.extend(unlettered(plans));
        wrong.extend(open_ends(plans));
        wrong.extend(sections_apart(plans));
        assert!(wrong.is_empty(), "{name}:\n{}", wrong.join("\n"));
        let reach = job.foot().pocket.as_ref().map_or(0.0, |p| p.reach / 25.4 * 16.0);
        assert!(!job.spec().us() || (reach - reach.round()).abs() < 1e-6, "{name}: the pocket reaches {reach} sixteenths of an inch");
    }
}

/// A hatched wing, a view without its arrow, a missing break line: each is found.
#[test]
fn planted_faults_are_found() {
    let (_, job) = jobs().pop().unwrap();
    let plan = |fault: &dyn Fn(&mut Draft)| {
        let mut plans = job.plans().to_vec();
        plans.iter_mut().flat_map(|p| &mut p.views).for_each(|v| fault(&mut v.draft));
        plans
    };
    let wings: usize = drafts(job.plans()).filter(|(view, _)| view.starts_with("rotating/")).map(|(_, d)| ribs_cut(d, job.machine()).len()).sum();
    assert!(wings >= 2, "{wings}");
    let hatched = plan(&|d| {
        for (_, r) in ribs_cut(d, job.machine()) {
            let loops = vec![Shape::polygon([(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)].map(|(x, y)| PlanePoint::new(x, y)))];
            d.hatch(Material::Metal, loops);
        }
    });
    assert!(hatched_ribs(&hatched, job.machine()).len() >= wings);
    let bare = plan(&|d| d.items.retain(|i| !matches!(i, Item::Arrow { .. })));
    assert_eq!(unlettered(&bare).len(), 1);
    let uncut = plan(&|d| d.items.retain(|i| !matches!(i, Item::Cut { .. })));
    assert!(sections_apart(&uncut).len() >= 3);
    let torn = plan(&|d| d.items.retain(|i| !matches!(i, Item::Stroke { pen: Pen::FineEdge, shape: Shape::Polyline { .. } })));
    assert!(!open_ends(&torn).is_empty());
}
