//! Views and sections of small bodies whose lines are known.

use std::f64::consts::{PI, TAU};

use glam::{DAffine3, DMat3, DVec3};
use kurbo::Point;

use super::*;
use crate::geometry::Edge;
use crate::solid::brep::{Brep, FLAT};
use crate::solid::build::{Segment, extrude, turned};
use crate::solid::plane::Loop;

const TOP: View = View { right: DVec3::X, up: DVec3::Y, toward: DVec3::Z };
const FRONT: View = View { right: DVec3::X, up: DVec3::Z, toward: DVec3::NEG_Y };

fn iso() -> View {
    let toward = DVec3::new(1.0, -1.0, 1.0).normalize();
    let right = DVec3::new(1.0, 1.0, 0.0).normalize();
    View { right, up: toward.cross(right), toward }
}

fn rectangle(x: f64, y: f64) -> Loop {
    let corner = |x, y| (Point::new(x, y), 0.0);
    Edge::chain(&[corner(0.0, 0.0), corner(x, 0.0), corner(x, y), corner(0.0, y)], true)
}

fn cuboid(x: f64, y: f64, z: f64) -> Brep {
    extrude(&[rectangle(x, y)], z, &FLAT).unwrap()
}

fn plate(x: f64, y: f64, z: f64, holes: &[(f64, f64, f64)]) -> Brep {
    let mut region = vec![rectangle(x, y)];
    region.extend(holes.iter().map(|(x, y, r)| vec![Edge::circle(Point::new(*x, *y), *r).reversed()]));
    extrude(&region, z, &FLAT).unwrap()
}

fn at(brep: &Brep, id: usize, x: f64, y: f64, z: f64) -> Placed<'_> {
    let at = DAffine3::from_translation(DVec3::new(x, y, z));
    Placed { brep, at, id, hidden: true, whole: false }
}

fn rod(diameter: f64, length: f64) -> Brep {
    turned(&[Segment::cylinder(0.0, length, diameter, 0.0)], &FLAT).unwrap()
}

fn length(stroke: &Stroke) -> f64 {
    match stroke {
        Stroke::Line(line) => (line.p1 - line.p0).hypot(),
        Stroke::Arc(arc) => {
            let n = 400;
            let at = |i: usize| {
                let t = arc.start_angle + arc.sweep_angle * i as f64 / n as f64;
                kurbo::Vec2::new(arc.radii.x * t.cos(), arc.radii.y * t.sin())
            };
            (0..n).map(|i| (at(i + 1) - at(i)).hypot()).sum()
        }
    }
}

fn ink(lines: &[Line2], body: usize, seen: bool) -> f64 {
    lines.iter().filter(|l| l.body == body && l.seen == seen).map(|l| length(&l.stroke)).sum()
}

fn count(lines: &[Line2], body: usize, seen: bool) -> usize {
    lines.iter().filter(|l| l.body == body && l.seen == seen).count()
}

#[test]
fn box_askew_has_nine_and_three() {
    let body = cuboid(30.0, 20.0, 10.0);
    let lines = Scene::new(&[at(&body, 7, 5.0, 6.0, 7.0)]).view(&iso());
    assert_eq!((count(&lines, 7, true), count(&lines, 7, false)), (9, 3));
}

#[test]
fn box_from_above_has_four() {
    let body = cuboid(30.0, 20.0, 10.0);
    let lines = Scene::new(&[at(&body, 0, 0.0, 0.0, 0.0)]).view(&TOP);
    assert_eq!(lines.len(), 4);
    assert!(lines.iter().all(|line| line.seen));
}

#[test]
fn cylinder_from_three_sides() {
    let body = rod(20.0, 50.0);
    let scene = Scene::new(&[at(&body, 0, 3.0, 4.0, 5.0)]);
    let top = scene.view(&TOP);
    assert_eq!(top.len(), 1);
    let Stroke::Arc(arc) = top[0].stroke else { panic!() };
    assert!((arc.center - Point::new(3.0, 4.0)).hypot() < 1e-9 && (arc.sweep_angle - TAU).abs() < 1e-9);
    let front = scene.view(&FRONT);
    assert_eq!(front.len(), 4, "{front:#?}");
    assert!((ink(&front, 0, true) - 140.0).abs() < 1e-9);
    let askew = scene.view(&iso());
    // The upper rim whole, half of the lower one, two outlines; the other half hidden.
    assert_eq!((count(&askew, 0, true), count(&askew, 0, false)), (4, 1), "{askew:#?}");
    let hidden = askew.iter().find(|line| !line.seen).unwrap();
    let Stroke::Arc(arc) = hidden.stroke else { panic!() };
    assert!((arc.sweep_angle - PI).abs() < 1e-9 && (arc.radii.y / arc.radii.x - (1.0f64 / 3.0).sqrt()).abs() < 1e-9);
}

#[test]
fn one_box_before_another() {
    let (back, front) = (cuboid(40.0, 10.0, 40.0), cuboid(20.0, 10.0, 60.0));
    let scene = Scene::new(&[at(&back, 0, 0.0, 20.0, 0.0), at(&front, 1, 10.0, 0.0, -10.0)]);
    let lines = scene.view(&FRONT);
    assert_eq!(count(&lines, 1, true), 4);
    assert!((ink(&lines, 0, true) - 120.0).abs() < 1e-9);
    assert!((ink(&lines, 0, false) - 40.0).abs() < 1e-9);
}

#[test]
fn shaft_through_a_plate() {
    let (plate, shaft) = (plate(100.0, 80.0, 10.0, &[(50.0, 40.0, 15.0)]), rod(30.0, 100.0));
    let scene = Scene::new(&[at(&plate, 0, 0.0, 0.0, 0.0), at(&shaft, 1, 50.0, 40.0, -40.0)]);
    let side = scene.view(&FRONT);
    assert!((ink(&side, 0, true) - 220.0).abs() < 1e-9, "{side:#?}");
    assert!((ink(&side, 1, true) - (2.0 * 90.0 + 60.0)).abs() < 1e-9);
    // Hole and shaft share their hidden outlines.
    assert!((ink(&side, 0, false) + ink(&side, 1, false) - 20.0).abs() < 1e-9, "{side:#?}");
    let top = scene.view(&TOP);
    assert_eq!((count(&top, 0, true), count(&top, 1, true), count(&top, 0, false)), (4, 1, 0));
    // Askew: the rim of the hole is seen where the shaft stands before it no more.
    let askew = scene.view(&iso());
    let rim: f64 = askew.iter().filter(|l| l.body == 0 && l.seen && matches!(l.stroke, Stroke::Arc(_))).map(|l| length(&l.stroke)).sum();
    let whole = {
        let arc = kurbo::Arc::new(Point::ZERO, (15.0, 15.0 / 3f64.sqrt()), 0.0, TAU, 0.0);
        length(&Stroke::Arc(arc))
    };
    assert!((rim - whole / 2.0).abs() < 1e-3, "{rim} {whole}");
}

#[test]
fn plate_on_a_plate() {
    let (base, top) = (cuboid(100.0, 100.0, 10.0), cuboid(10.0, 60.0, 50.0));
    let scene = Scene::new(&[at(&base, 0, 0.0, 0.0, 0.0), at(&top, 1, 40.0, 0.0, 10.0)]);
    // The foot of the upper plate is drawn; flush faces in front leave one line between them.
    let front = scene.view(&FRONT);
    assert!((ink(&front, 0, true) + ink(&front, 1, true) - (220.0 + 110.0)).abs() < 1e-9, "{front:#?}");
    let askew = scene.view(&iso());
    // Nine edges of the upper plate, one of them on the edge of the base.
    assert_eq!(count(&askew, 1, true), 8);
}

#[test]
fn mirrored_frame_turns_arcs() {
    let corner = |x, y, b| (Point::new(x, y), b);
    let region = vec![Edge::chain(&[corner(0.0, 0.0, 0.0), corner(40.0, 0.0, 0.0), corner(40.0, 20.0, 1.0), corner(0.0, 20.0, 0.0)], true)];
    let body = extrude(&region, 10.0, &FLAT).unwrap();
    let mirror = DMat3::from_diagonal(DVec3::new(-1.0, 1.0, 1.0));
    let placed = Placed { at: DAffine3::from_mat3_translation(mirror, DVec3::new(100.0, 0.0, 0.0)), ..at(&body, 0, 0.0, 0.0, 0.0) };
    for view in [TOP, View { right: DVec3::NEG_X, ..TOP }] {
        let lines = Scene::new(&[placed]).view(&view);
        let arcs: Vec<_> = lines.iter().filter_map(|l| if let Stroke::Arc(arc) = l.stroke { Some(arc) } else { None }).collect();
        assert_eq!(arcs.len(), 1);
        let mid = arcs[0].center + kurbo::Vec2::from_angle(arcs[0].start_angle + arcs[0].sweep_angle / 2.0) * 20.0;
        assert!((mid - Point::new(80.0 * view.right.x, 40.0)).hypot() < 1e-9, "{mid}");
    }
}

#[test]
fn section_through_a_plate_and_a_shaft() {
    let (plate, shaft) = (plate(100.0, 80.0, 10.0, &[(50.0, 40.0, 15.0)]), rod(30.0, 100.0));
    let mut bodies = [at(&plate, 0, 0.0, 0.0, 0.0), at(&shaft, 1, 50.0, 40.0, -40.0)];
    let plane = Plane { at: DVec3::new(0.0, 40.0, 0.0), away: DVec3::NEG_Y };
    let cut = Scene::new(&bodies).section(&FRONT, &plane);
    assert_eq!(cut.cuts.len(), 2);
    assert_eq!(cut.cuts[0].loops.len(), 2);
    assert_eq!(cut.cuts[1].loops.len(), 1);
    // The plate is named for the two lines that both share.
    assert!((ink(&cut.lines, 1, true) - 240.0).abs() < 1e-4);
    bodies[1].whole = true;
    let cut = Scene::new(&bodies).section(&FRONT, &plane);
    assert_eq!(cut.cuts.len(), 1);
    assert!((ink(&cut.lines, 1, true) - 240.0).abs() < 1e-4);
    // Square to the shaft: a circle and a plate with a hole.
    let plane = Plane { at: DVec3::new(0.0, 0.0, 5.0), away: DVec3::Z };
    let cut = Scene::new(&bodies).section(&TOP, &plane);
    assert_eq!(cut.cuts[0].loops.len(), 2);
}

#[test]
fn touching_plane_does_not_cut() {
    let body = cuboid(10.0, 10.0, 10.0);
    let plane = |y| Plane { at: DVec3::new(0.0, y, 0.0), away: DVec3::NEG_Y };
    let bodies = [at(&body, 0, 0.0, 0.0, 0.0)];
    let behind = Scene::new(&bodies).section(&FRONT, &plane(0.0));
    assert_eq!((behind.cuts.len(), behind.lines.len()), (0, 4));
    let before = Scene::new(&bodies).section(&FRONT, &plane(10.0));
    assert_eq!(before, Section::default());
    let half = Scene::new(&bodies).section(&FRONT, &plane(5.0));
    assert_eq!((half.cuts.len(), half.lines.len()), (1, 4));
    assert!(half.lines.iter().all(|line| line.kind == Kind::Cut));
}

#[test]
fn rounding_seen_along_its_flat_keeps_its_outline() {
    // The flat end of a rounded plate stands on edge and the plate leans: the border between flat and rounding is the
    // outline, though neither of the two looks at the viewer there.
    let b = (PI / 8.0).tan();
    let corner = |x, y, b| (Point::new(x, y), b);
    let region =
        vec![Edge::chain(&[corner(0.0, 0.0, 0.0), corner(40.0, 0.0, 0.0), corner(40.0, 20.0, 0.0), corner(8.0, 20.0, b), corner(0.0, 12.0, 0.0)], true)];
    let body = extrude(&region, 30.0, &FLAT).unwrap();
    let turn = DMat3::from_rotation_x(0.6);
    let placed = Placed { at: DAffine3::from_mat3(turn), ..at(&body, 0, 0.0, 0.0, 0.0) };
    let lines = Scene::new(&[placed]).view(&TOP);
    let (low, high) = (turn * DVec3::new(0.0, 0.0, 30.0), turn * DVec3::new(0.0, 12.0, 0.0));
    let on_edge = lines.iter().filter(|line| line.seen && line.kind != Kind::Smooth).filter_map(|line| match line.stroke {
        Stroke::Line(l) if l.p0.x.abs() < 1e-9 && l.p1.x.abs() < 1e-9 => Some((l.p1 - l.p0).hypot()),
        _ => None,
    });
    let total: f64 = on_edge.sum();
    assert!((total - (high.y - low.y)).abs() < 1e-9, "{total} {}", high.y - low.y);
}

#[test]
fn flange_that_overtops_a_plate_hides_its_edge_in_part() {
    // A round flange lies flat against a plate and stands out above it: seen from above the two edges cross in depth.
    let up = DMat3::from_cols(DVec3::X, DVec3::Z, DVec3::NEG_Y);
    let (plate, flange) = (cuboid(200.0, 10.0, 50.0), rod(100.0, 10.0));
    let flange = Placed { at: DAffine3::from_mat3_translation(up, DVec3::new(100.0, 0.0, 20.0)), ..at(&flange, 1, 0.0, 0.0, 0.0) };
    let lines = Scene::new(&[at(&plate, 0, 0.0, 0.0, 0.0), flange]).view(&TOP);
    let edge: f64 = lines
        .iter()
        .filter(|l| l.seen && l.body == 0)
        .map(|l| match l.stroke {
            Stroke::Line(l) if l.p0.y.abs() < 1e-9 && l.p1.y.abs() < 1e-9 => (l.p1 - l.p0).hypot(),
            _ => 0.0,
        })
        .sum();
    // Where the flange is higher than 50 mm its edge is the nearer one.
    assert!((edge - (200.0 - 2.0 * 40.0)).abs() < 1e-6, "{edge}");
}

/// Area of a cut by the even-odd rule, its arcs as chords.
fn area(cut: &Cut) -> f64 {
    let ring = |ring: &Vec<Stroke>| {
        let mut points = Vec::new();
        for stroke in ring {
            match stroke {
                Stroke::Line(line) => points.push(line.p0),
                Stroke::Arc(arc) => points.extend((0..2000).map(|i| {
                    let t = arc.start_angle + arc.sweep_angle * f64::from(i) / 2000.0;
                    let v = kurbo::Vec2::new(arc.radii.x * t.cos(), arc.radii.y * t.sin());
                    arc.center + kurbo::Vec2::from_angle(arc.x_rotation) * v.x + kurbo::Vec2::from_angle(arc.x_rotation).turn_90() * v.y
                })),
            }
        }
        let next = points.iter().cycle().skip(1);
        points.iter().zip(next).map(|(a, b)| a.to_vec2().cross(b.to_vec2()) / 2.0).sum::<f64>().abs()
    };
    let mut areas: Vec<f64> = cut.loops.iter().map(ring).collect();
    areas.sort_by(|a, b| b.total_cmp(a));
    areas[0] - areas[1..].iter().sum::<f64>()
}

#[test]
fn oblique_cut_of_a_tube_is_two_ellipses() {
    let tube = turned(&[Segment::cylinder(0.0, 200.0, 60.0, 40.0)], &FLAT).unwrap();
    let lean = DVec3::new(0.6, 0.0, 0.8);
    let view = View { right: DVec3::Y, up: lean.cross(DVec3::Y), toward: lean };
    let plane = Plane { at: DVec3::new(0.0, 0.0, 100.0), away: lean };
    let cut = Scene::new(&[at(&tube, 0, 0.0, 0.0, 0.0)]).section(&view, &plane);
    assert_eq!(cut.cuts[0].loops.len(), 2);
    assert!(cut.cuts[0].loops.iter().all(|ring| ring.len() == 1 && matches!(ring[0], Stroke::Arc(_))));
    let true_area = PI * (900.0 - 400.0) / 0.8;
    assert!((area(&cut.cuts[0]) / true_area - 1.0).abs() < 1e-5);
}

#[test]
fn cut_of_a_cone_off_its_axis_is_near_the_hyperbola() {
    let cone = turned(&[Segment { from: 0.0, to: 60.0, diameters: [100.0, 40.0], bores: [0.0; 2] }], &FLAT).unwrap();
    let plane = Plane { at: DVec3::new(0.0, 10.0, 0.0), away: DVec3::NEG_Y };
    let cut = Scene::new(&[at(&cone, 0, 0.0, 0.0, 0.0)]).section(&FRONT, &plane);
    // Width at height z: 2 √(r² − 10²), r falling from 50 to 20.
    let n = 100_000;
    let width = |i: i32| 2.0 * ((50.0 - 30.0 * (f64::from(i) + 0.5) / f64::from(n)).powi(2) - 100.0).sqrt();
    let true_area: f64 = (0..n).map(|i| width(i) * 60.0 / f64::from(n)).sum();
    assert!((area(&cut.cuts[0]) / true_area - 1.0).abs() < 1e-4);
}

#[test]
fn loops_run_end_to_start() {
    let b = (PI / 8.0).tan();
    let corner = |x, y, b| (Point::new(x, y), b);
    let outline = Edge::chain(&[corner(0.0, 0.0, 0.0), corner(60.0, 0.0, 0.0), corner(60.0, 20.0, 0.0), corner(8.0, 20.0, b), corner(0.0, 12.0, 0.0)], true);
    let body = extrude(&[outline, vec![Edge::circle(Point::new(30.0, 10.0), 4.0).reversed()]], 30.0, &FLAT).unwrap();
    let plane = Plane { at: DVec3::new(0.0, 0.0, 15.0), away: DVec3::new(0.0, 0.6, 0.8) };
    let cut = Scene::new(&[at(&body, 0, 0.0, 0.0, 0.0)]).section(&iso(), &plane);
    let ends = |stroke: &Stroke| match stroke {
        Stroke::Line(line) => (line.p0, line.p1),
        Stroke::Arc(arc) => {
            let at = |t: f64| {
                let (x, y) = (kurbo::Vec2::from_angle(arc.x_rotation), kurbo::Vec2::from_angle(arc.x_rotation).turn_90());
                arc.center + x * (arc.radii.x * t.cos()) + y * (arc.radii.y * t.sin())
            };
            (at(arc.start_angle), at(arc.start_angle + arc.sweep_angle))
        }
    };
    assert_eq!(cut.cuts[0].loops.len(), 2);
    for ring in &cut.cuts[0].loops {
        for (index, stroke) in ring.iter().enumerate() {
            let next = &ring[(index + 1) % ring.len()];
            assert!((ends(stroke).1 - ends(next).0).hypot() < 1e-6);
        }
    }
}

#[test]
fn same_bodies_give_same_lines() {
    let (plate, shaft) = (plate(100.0, 80.0, 10.0, &[(50.0, 40.0, 15.0), (20.0, 20.0, 5.0)]), rod(30.0, 100.0));
    let bodies = [at(&plate, 0, 0.0, 0.0, 0.0), at(&shaft, 1, 50.0, 40.0, -40.0)];
    assert_eq!(Scene::new(&bodies).view(&iso()), Scene::new(&bodies).view(&iso()));
}

#[test]
fn edges_within_one_surface_are_not_drawn() {
    // A shaft whose keyway begins within one diameter: the round face is several faces with edges between.
    let (r, b, floor) = (30.0_f64, 18.0, 23.0);
    let top = (r * r - b * b / 4.0_f64).sqrt();
    let sweep = TAU - 2.0 * (b / (2.0 * r)).asin();
    let corner = |x, y, bulge| (Point::new(x, y), bulge);
    let notched =
        Edge::chain(&[corner(-b / 2.0, top, (sweep / 4.0).tan()), corner(b / 2.0, top, 0.0), corner(b / 2.0, floor, 0.0), corner(-b / 2.0, floor, 0.0)], true);
    let disc = || vec![vec![Edge::circle(Point::ZERO, r)]];
    let sections = [
        crate::solid::build::Section::straight(0.0, 70.0, disc()),
        crate::solid::build::Section::straight(70.0, 130.0, vec![notched]),
        crate::solid::build::Section::straight(130.0, 200.0, disc()),
    ];
    let body = crate::solid::build::keyed(&sections, &FLAT).unwrap();
    // From the side of the keyway's flank: two ends, two outlines, the one over the keyway cut down to its borders.
    let side = View { right: DVec3::Z, up: DVec3::Y, toward: DVec3::X };
    let lines: Vec<_> = Scene::new(&[at(&body, 0, 0.0, 0.0, 0.0)]).view(&side).into_iter().filter(|line| line.seen).collect();
    let total = ink(&lines, 0, true);
    let want = 2.0 * 60.0 + 200.0 + 140.0 + 60.0 + 2.0 * (r - top);
    assert!((total - want).abs() < 1e-6, "{total} {want} {lines:#?}");
}
