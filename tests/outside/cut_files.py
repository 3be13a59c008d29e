#!/usr/bin/env python3
"""Checks cutting files and assembled plates from outside the program: cut_files.py FOLDER ...

Each folder holds parts.json, cutting_manifest.csv and cut/ (and, where written, cut_lines/, cut_r12/).
Files: open clean in ezdxf (0 errors, 0 fixes), only CUT/MARK/BEND, closed contours, none crossing or double,
box at the origin; area and mass by shapely within 0.1 % of the manifest; hole table and file agree both ways
to 1e-6 mm; all three profiles hold the same contours. Assembly: plates folded and placed meet (0.1 mm) and do
not run into each other, the belt or the buckets (solids by manifold3d); holes of one joint share their axes. Scribed lines
are in the files, lie at the edges of the bodies that touch there, and where the sheet of the assembled casing says.
What the program itself says it could not make is a finding too: these specs are sound.
Prints one line a finding and 'N findings' last; exit 1 if there are any. Two folders at a time.
Needs: ezdxf==1.4.5 shapely numpy manifold3d.
"""
import csv
import gc
import json
import math
import re
import sys
from collections import defaultdict
from fractions import Fraction
from multiprocessing import Pool
from pathlib import Path

import ezdxf
import numpy as np
from ezdxf import edgeminer, edgesmith
from manifold3d import CrossSection, FillRule, Manifold
from shapely.geometry import LineString, MultiPolygon, Point, Polygon
from shapely.geometry import box as shapely_box
from shapely.ops import unary_union

LIMIT = 0.1  # mm


# ---------------------------------------------------------------- files

def read_cut(path):
    """Contours on CUT as (polygon, exact area, circle or None), with findings."""
    out = []
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    out += [f"ezdxf error {e.code}: {e.message}" for e in audit.errors] + [f"ezdxf fix {e.code}: {e.message}" for e in audit.fixes]
    if doc.dxfversion != "AC1009":
        if doc.header.get("$INSUNITS") != 4 or doc.header.get("$MEASUREMENT") != 1:
            out.append("not in millimetres")
    msp = doc.modelspace()
    loops, edges, marks = [], [], []
    for e in msp:
        kind, layer = e.dxftype(), e.dxf.layer
        if layer not in ("CUT", "MARK", "BEND"):
            out.append(f"{kind} on layer {layer}")
        if not doc.layers.has_entry(layer):
            out.append(f"layer {layer} is not declared")
        if layer == "MARK":
            marks.append(e)
        if layer != "CUT":
            if kind not in ("LINE", "ARC", "CIRCLE"):
                out.append(f"{kind} on {layer}")
            continue
        if kind == "CIRCLE":
            c, r = e.dxf.center, e.dxf.radius
            loops.append((Polygon([p.vec2 for p in e.flattening(0.001)]), math.pi * r * r, (c.x, c.y, 2 * r)))
        elif kind in ("LWPOLYLINE", "POLYLINE"):
            closed = e.closed if kind == "LWPOLYLINE" else e.is_closed
            if not closed:
                out.append("open polyline on CUT")
            rows = e.get_points("xyb") if kind == "LWPOLYLINE" else [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in e.vertices]
            loops.append((Polygon(on_arcs(rows)), bulged_area(rows), None))
            if any(math.dist(a[:2], b[:2]) < 1e-6 for a, b in zip(rows, rows[1:] + rows[:1])):
                out.append("zero-length edge on CUT")
        elif kind in ("LINE", "ARC"):
            edges.append(e)
        else:
            out.append(f"{kind} on CUT")
    if edges:
        deposit = edgeminer.Deposit(list(edgesmith.edges_from_entities_2d(edges)), gap_tol=2e-6)
        used = 0
        for loop in edgeminer.find_all_loops(deposit):
            used += len(loop)
            pts = []
            for edge in loop:
                e = edge.payload
                p = [q.vec2 for q in (e.flattening(0.001) if e.dxftype() == "ARC" else (e.dxf.start, e.dxf.end))]
                if edge.is_reverse:
                    p.reverse()
                pts += p[:-1]
            poly = Polygon(pts)
            loops.append((poly, None, None))
        if used != len(edges):
            out.append(f"{len(edges) - used} edges on CUT belong to no closed contour")
    if not loops:
        return out + ["nothing on CUT"], [], marks
    loops.sort(key=lambda l: -l[0].area)
    outer = loops[0][0]
    for i, (p, _, _) in enumerate(loops):
        if not p.is_valid:
            out.append("a contour crosses itself")
        if i and not outer.buffer(1e-4).contains(p):
            out.append("a contour lies outside the outline")
        for q, _, _ in loops[max(i, 0) + 1:]:
            if i and p.intersects(q):
                out.append("two inner contours meet")
    x0, y0, x1, y1 = outer.bounds
    if abs(x0) > 2e-3 or abs(y0) > 2e-3:
        out.append(f"box starts at ({x0:.4f}, {y0:.4f})")
    solid = outer.buffer(1e-3)
    holes = unary_union([p for p, _, _ in loops[1:]]) if len(loops) > 1 else None
    for e in marks:
        pts = [q.vec2 for q in (e.flattening(0.1) if e.dxftype() == "ARC" else (e.dxf.start, e.dxf.end))]
        line = LineString(pts)
        if not solid.contains(line) or (holes is not None and holes.intersects(line)):
            out.append("a mark leaves the plate")
            break
    return out, loops, marks


def on_arcs(rows):
    """Points that lie on the true arcs, quarter points of the circle among them."""
    pts = []
    for (x0, y0, b), (x1, y1, _) in zip(rows, rows[1:] + rows[:1]):
        pts.append((x0, y0))
        if abs(b) < 1e-12:
            continue
        off = (1 - b * b) / (4 * b)
        cx, cy = (x0 + x1) / 2 - off * (y1 - y0), (y0 + y1) / 2 + off * (x1 - x0)
        r, start, sweep = math.hypot(x0 - cx, y0 - cy), math.atan2(y0 - cy, x0 - cx), 4 * math.atan(b)
        n = max(8, math.ceil(abs(sweep) * math.sqrt(r / 0.004)))
        shares = {i / n for i in range(1, n)} | {(k * math.pi / 2 - start) / sweep for k in range(-8, 9)}
        pts += [(cx + r * math.cos(start + sweep * t), cy + r * math.sin(start + sweep * t)) for t in sorted(t for t in shares if 1e-9 < t < 1 - 1e-9)]
    return pts


def bulged_area(rows):
    total = 0.0
    for (x0, y0, b), (x1, y1, _) in zip(rows, rows[1:] + rows[:1]):
        total += (x0 * y1 - x1 * y0) / 2
        if abs(b) > 1e-12:
            chord = math.hypot(x1 - x0, y1 - y0)
            r = chord * (1 + b * b) / (4 * abs(b))
            sweep = 4 * math.atan(b)
            total += r * r / 2 * (sweep - math.sin(sweep))
    return abs(total)


def check_files(folder, data):
    out = []
    manifest = {row["item"]: row for row in csv.DictReader(open(folder / "cutting_manifest.csv", encoding="utf-8"))}
    parts = {p["item"]: p for p in data["parts"]["items"]}
    listed = {str(item) for item, _ in data["files"]}
    if listed != set(manifest):
        out.append(f"{folder}: manifest and plates differ: {listed ^ set(manifest)}")
    on_disk = {p.name for p in (folder / "cut").glob("*.dxf")}
    if on_disk != {row["file"] for row in manifest.values()}:
        out.append(f"{folder}: files and manifest differ")
    if len(data["files"]) != len({stem for _, stem in data["files"]}):
        out.append(f"{folder}: two parts share a file name")
    out += check_lists(folder, data, manifest)
    for item, stem in data["files"]:
        if len(stem) > 24:
            out.append(f"{stem}: name longer than 24 characters")
        part, row = parts[item], manifest[str(item)]
        flat = part["flat"]
        reference = None
        for sub in ("cut", "cut_lines", "cut_r12"):
            path = folder / sub / f"{stem}.dxf"
            if not path.exists():
                if sub == "cut":
                    out.append(f"{path}: missing")
                continue
            found, loops, marks = read_cut(path)
            out += [f"{path}: {f}" for f in found]
            if not loops:
                continue
            x0, y0, x1, y1 = loops[0][0].bounds
            if abs(x1 - float(row["width mm"])) > 0.01 or abs(y1 - float(row["height mm"])) > 0.01:
                out.append(f"{path}: box {x1:.3f} × {y1:.3f}, manifest {row['width mm']} × {row['height mm']}")
            exact = all(a is not None for _, a, _ in loops)
            areas = [a if exact else p.area for p, a, _ in loops]
            drilled = [h for h in flat["holes"] if h["made"] == "drilled"]
            area = areas[0] - sum(areas[1:]) - sum(math.pi / 4 * h["diameter"] ** 2 for h in drilled)
            if abs(area - float(row["area mm²"])) > 1e-3 * area:
                out.append(f"{path}: area {area:.1f}, manifest {row['area mm²']}")
            # In a bend the middle of the plate is the length that weighs, the cut one that of the neutral line.
            net = loops[0][0].difference(unary_union([p for p, _, _ in loops[1:]]))
            bent = sum(
                net.intersection(shapely_box(b["start"], y0 - 1, b["start"] + b["flat_length"], y1 + 1)).area
                * (math.radians(b["angle_deg"]) * (b["inside_radius"] + part["thickness"] / 2) / b["flat_length"] - 1)
                for b in flat["bends"]
            )
            mass = (area + bent) * part["thickness"] * 7850e-9
            if abs(mass - float(row["kg each"])) > 1e-3 * mass + 1e-4:
                out.append(f"{path}: mass {mass:.4f}, manifest {row['kg each']}")
            signature = sorted((round(p.area, 0), round(p.centroid.x, 1), round(p.centroid.y, 1)) for p, _, _ in loops)
            if reference is None:
                reference = signature
            elif len(signature) != len(reference) or any(abs(a[0] - b[0]) > 2 + 1e-4 * b[0] for a, b in zip(sorted(s for s in signature), sorted(reference))):
                out.append(f"{path}: other contours than the default profile")
            # Hole table against file, both ways.
            circles = [c for _, _, c in loops[1:] if c]
            rest = list(circles)
            for h in flat["holes"]:
                x, y = h["at"]
                if h["made"] == "cut":
                    hit = [c for c in rest if abs(c[0] - x) < 1e-6 and abs(c[1] - y) < 1e-6 and abs(c[2] - h["diameter"]) < 2e-6]
                    if len(hit) != 1:
                        out.append(f"{path}: hole {h['tag']} at ({x:.3f}, {y:.3f}) ⌀{h['diameter']} is {len(hit)} times in the file")
                    for c in hit:
                        rest.remove(c)
                else:
                    cross = [e for e in marks if e.dxftype() == "LINE" and abs((e.dxf.start.x + e.dxf.end.x) / 2 - x) < 2e-6 and abs((e.dxf.start.y + e.dxf.end.y) / 2 - y) < 2e-6]
                    if len(cross) < 2:
                        out.append(f"{path}: drilled hole {h['tag']} has no cross")
            own = [o["contour"]["circle"] for o in flat["openings"] if "circle" in o["contour"]]
            if len(rest) != len(own):
                out.append(f"{path}: {len(rest)} circles that the hole table does not know")
            out += check_scribed(path, flat, marks)
            tags = [h["tag"] for h in flat["holes"]]
            if len(tags) != len(set(tags)) or "" in tags:
                out.append(f"{path}: hole tags are not unique")
    return out


def check_scribed(path, flat, marks):
    """Every scribed line of the plate is in its file once; no line or arc on MARK twice or of no length."""
    out = []
    drawn = defaultdict(int)
    for e in marks:
        ends = sorted(tuple(round(v, 4) for v in p.vec2) for p in ((e.start_point, e.end_point) if e.dxftype() == "ARC" else (e.dxf.start, e.dxf.end)))
        drawn[tuple(ends), e.dxftype() == "ARC"] += 1
        if math.dist(*ends) < 1e-3:
            out.append(f"{path}: a mark of no length")
    if any(n > 1 for n in drawn.values()):
        out.append(f"{path}: a mark stands twice")
    keys = [(p, arc) for (p, arc) in drawn]
    for s in flat["scribed"]:
        a, b = sorted([s["line"]["from"], s["line"]["to"]])
        hit = [k for k, arc in keys if arc == (s["line"]["bulge"] != 0) and math.dist(k[0], a) < 1e-3 and math.dist(k[1], b) < 1e-3]
        if not hit:
            out.append(f"{path}: scribed line {a} to {b} ({s['tells']}) is not in the file")
    return out


def said(what):
    """Text of a statement: words, or words with values in their places; a list has commas between."""
    if isinstance(what, list):
        return ", ".join(said(one) for one in what)
    if not isinstance(what, dict):
        return f"{what}"
    if "words" in what:
        return re.sub(r"\{(\w+)\}", lambda place: said(what["values"][place[1]]), what["words"])
    return f"{what['value']:.10g} {what['unit']}".strip()


def check_lists(folder, data, manifest):
    """Parts list, manifest, fasteners, bought parts and totals against each other and against the parts."""
    out = []

    def rows(name):
        return list(csv.DictReader(open(folder / f"{name}.csv", encoding="utf-8")))

    items = {str(p["item"]): p for p in data["parts"]["items"]}
    plist = {row["item"]: row for row in rows("parts_list")}
    if len(plist) != len(rows("parts_list")) or set(plist) != set(items):
        out.append(f"{folder}: item numbers of the parts list are not unique or not complete")
    total = paint = 0.0
    for item, row in plist.items():
        p = items[item]
        if int(row["qty"]) != p["quantity"] or row["name"] != said(p["name"]) or not row["material"] or row["made"] not in ("cut", "turned", "bought"):
            out.append(f"{folder}: {item} on the parts list: {row}")
        cut = manifest.get(item)
        if (row["made"] == "cut") != (cut is not None):
            out.append(f"{folder}: {item} is {row['made']} and {'not ' if cut is None else ''}in the manifest")
        if cut and [cut[k] for k in ("name", "qty", "hand", "material", "thickness mm")] != [row[k] for k in ("name", "qty", "hand", "material", "thickness mm")]:
            out.append(f"{folder}: {item} differs between parts list and manifest")
        if cut and abs(float(cut["kg each"]) - float(row["kg each"])) > 0.0051:
            out.append(f"{folder}: {item}: {row['kg each']} kg on the parts list, {cut['kg each']} in the manifest")
        total += 0.0 if row["kg total"] == "by maker" else float(row["kg total"])
        paint += float(row["paint m² each"]) * int(row["qty"])
    bought = {row["item"] for row in rows("bought_parts") if row["item"] != "-"}
    if bought != {item for item, row in plist.items() if row["made"] == "bought"}:
        out.append(f"{folder}: bought parts and parts list differ")
    listed = sorted((row["size"], int(row["qty"])) for row in rows("fasteners") if row["name"] not in ("hexagon nut", "hexagon weld nut", "plain washer"))
    wanted = defaultdict(int)
    for j in data["parts"]["joints"]:
        # ASME B18.2.1: lengths up to an inch come in eighths.
        whole, rest = divmod(Fraction(round(j["length"] / 25.4 * 8), 8), 1)
        inches = " ".join(str(t) for t in (whole, rest) if t)
        long = f"{j['length']:.0f}" if j["thread"].startswith("M") else f"{inches} in"
        # ASME B1.1: bolts are called for with series and class.
        thread = j["thread"] if j["thread"].startswith("M") else f"{j['thread']} UNC-2A"
        wanted[f"{thread} × {long}", j["countersunk"]] += j["quantity"]
    if listed != sorted((size, n) for (size, _), n in wanted.items()):
        out.append(f"{folder}: fasteners {listed} for joints {dict(wanted)}")
    totals = {row["what"]: float(row["value"]) for row in rows("totals")}
    bolts = totals["bolts, nuts and washers in it"]
    if abs(totals["mass of parts and bolts"] - total - bolts) > 0.3 + 1e-3 * total:
        out.append(f"{folder}: parts of {total:.1f} kg and bolts of {bolts} kg, total {totals['mass of parts and bolts']}")
    if abs(totals["painted surface"] - paint) > 0.05 + 1e-3 * paint:
        out.append(f"{folder}: {paint:.2f} m² to be painted, total {totals['painted surface']}")
    weld = sum(float(row["length m"]) for row in rows("welds"))
    if abs(totals["fillet welds"] + totals["butt welds"] - weld) > 0.3:
        out.append(f"{folder}: {weld:.2f} m of welds, totals {totals['fillet welds']} and {totals['butt welds']}")
    return out


# ---------------------------------------------------------------- assembly

def contour_points(contour, step=0.02):
    if "circle" in contour:
        c, d = contour["circle"]["centre"], contour["circle"]["diameter"]
        n = 96
        return [(c[0] + d / 2 * math.cos(2 * math.pi * i / n), c[1] + d / 2 * math.sin(2 * math.pi * i / n)) for i in range(n)]
    pts = []
    nodes = contour["path"]
    for a, b in zip(nodes, nodes[1:] + nodes[:1]):
        p, q, bulge = a["at"], b["at"], a["bulge"]
        pts.append(tuple(p))
        if abs(bulge) > 1e-12:
            sweep = 4 * math.atan(bulge)
            off = (1 - bulge * bulge) / (4 * bulge)
            c = ((p[0] + q[0]) / 2 - off * (q[1] - p[1]), (p[1] + q[1]) / 2 + off * (q[0] - p[0]))
            r = math.dist(p, c)
            start = math.atan2(p[1] - c[1], p[0] - c[0])
            n = max(2, math.ceil(abs(sweep) / step))
            pts += [(c[0] + r * math.cos(start + sweep * i / n), c[1] + r * math.sin(start + sweep * i / n)) for i in range(1, n)]
    return pts


def region(flat, drilled=True):
    poly = Polygon(contour_points(flat["outer"])).buffer(0)
    cut = [Polygon(contour_points(o["contour"])) for o in flat["openings"]]
    cut += [Point(h["at"]).buffer(h["diameter"] / 2, 24) for h in flat["holes"]]
    return poly.difference(unary_union(cut)) if cut else poly


def fold(x, h, bends, thickness):
    """(along right, along toward) of pattern places x at heights h, worked out here again from radius, angle, side."""
    x, h = np.broadcast_arrays(np.asarray(x, dtype=float), np.asarray(h, dtype=float))
    out = np.empty(x.shape + (2,))
    start, direction, done = np.zeros(2), 0.0, 0.0
    rest = x > -np.inf

    def along(a):
        return np.stack([np.cos(a), np.sin(a)], axis=-1)

    def normal(a):
        return np.stack([-np.sin(a), np.cos(a)], axis=-1)

    for b in bends:
        straight = rest & (x <= b["start"] + 1e-12)
        out[straight] = start + (x[straight, None] - done) * along(direction) + h[straight, None] * normal(direction)
        rest = rest & ~straight
        start = start + (b["start"] - done) * along(direction)
        # The marked face is inside a bend up.
        sense, lever = (1.0, thickness + b["inside_radius"]) if b["side"] == "up" else (-1.0, b["inside_radius"])
        centre = start + sense * lever * normal(direction)
        curved = rest & (x < b["start"] + b["flat_length"])
        turned = direction + sense * math.radians(b["angle_deg"]) * (x[curved] - b["start"]) / b["flat_length"]
        out[curved] = centre - sense * lever * normal(turned) + h[curved, None] * normal(turned)
        rest = rest & ~curved
        direction += sense * math.radians(b["angle_deg"])
        start = centre - sense * lever * normal(direction)
        done = b["start"] + b["flat_length"]
    out[rest] = start + (x[rest, None] - done) * along(direction) + h[rest, None] * normal(direction)
    return out


def place(pl, r, y, n):
    o, a, b, c = (np.array(pl[k]) for k in ("origin", "right", "up", "toward"))
    return o + np.multiply.outer(r, a) + np.multiply.outer(y, b) + np.multiply.outer(n, c)


def polygons(shape):
    geoms = shape.geoms if isinstance(shape, MultiPolygon) else [shape]
    return [np.array(ring.coords[:-1]) for g in geoms for ring in [g.exterior, *g.interiors]]


def solid(part, pl):
    flat, t = part["flat"], part["thickness"]
    cs = CrossSection(polygons(region(flat)), fillrule=FillRule.EvenOdd)
    if flat["bends"]:
        body = cs.extrude(t)
        length = flat["outer"]["path"]
        # Cut into slices first, so that each bends on its own lines.
        xs = set()
        for b in flat["bends"]:
            n = max(4, math.ceil(b["angle_deg"] / 0.5))
            xs |= {b["start"] + b["flat_length"] * i / n for i in range(n + 1)}
        pieces = []
        for x in sorted(xs):
            left, body = body.split_by_plane((-1, 0, 0), -x)
            if not left.is_empty():
                pieces.append(left)
        pieces.append(body)

        def warp(points):
            folded = fold(points[:, 0], points[:, 2], flat["bends"], t)
            return place(pl, folded[:, 0], points[:, 1], folded[:, 1])
        return [p.warp_batch(warp) for p in pieces if not p.is_empty()]
    m = np.column_stack([pl["right"], pl["up"], pl["toward"], pl["origin"]])
    return [cs.extrude(t).transform(m)]


def box(piece):
    return np.array(piece.bounding_box())


def apart(p, q):
    """Whether two boxes share no volume."""
    return bool((p[:3] >= q[3:] - 1e-3).any() or (q[:3] >= p[3:] - 1e-3).any())


def meeting(bodies):
    """Pairs of bodies whose boxes meet."""
    boxes = np.array([[*np.min([b[:3] for _, b in pieces], axis=0), *np.max([b[3:] for _, b in pieces], axis=0)] for _, pieces in bodies])
    for i, p in enumerate(boxes):
        rest = boxes[i + 1:]
        near = ((rest[:, 3:] > p[:3] + 1e-3) & (p[3:] > rest[:, :3] + 1e-3)).all(axis=1)
        for j in np.flatnonzero(near):
            yield bodies[i], bodies[i + 1 + j]


def check_assembly(folder, data):
    out = []
    parts = data["parts"]["items"]
    solids = []
    hand = set()
    for p in parts:
        if not p["flat"]:
            continue
        for pl in p["placements"]:
            m = np.column_stack([pl["right"], pl["up"], pl["toward"]])
            hand.add(round(float(np.linalg.det(m))))
            solids.append((p, solid(p, pl)))
    if len(hand) > 1:
        out.append(f"{folder}: plates of both hands: {hand}")
    # Shaft as a round bar.
    for p in parts:
        if p["id"] in ("shaft", "bend_shaft"):
            seats = p["shape"]["shaft"]["seats"]
            d, length = max(seat["diameter"] for seat in seats), seats[-1]["to"] - seats[0]["from"]
            c = p["placements"][0]["origin"]
            bar = Manifold.cylinder(length, d / 2, d / 2, 64, True).rotate((90, 0, 0)).translate(c)
            solids.append((p, [bar]))
    # Belt and buckets in all positions.
    shapes = [Polygon(b).buffer(0) for b in data["buckets"]]
    swept = unary_union([s for s in shapes if s.area > 0])
    cs = CrossSection(polygons(swept.simplify(0.01)), fillrule=FillRule.EvenOdd)
    w = data["bucket_width"]
    flip = np.array([[1, 0, 0, 0], [0, 0, 1, -w / 2], [0, 1, 0, 0]], dtype=float)
    buckets = cs.extrude(w).transform(flip)
    belts = []
    for pts in data["belt"]:
        line = unary_union([LineString([a, b]).buffer(0.05) for a, b in zip(pts, pts[1:]) if math.dist(a, b) < 400])
        c = CrossSection(polygons(line), fillrule=FillRule.EvenOdd)
        bw = data["belt_width"]
        belts.append(c.extrude(bw).transform(np.array([[1, 0, 0, 0], [0, 0, 1, -bw / 2], [0, 1, 0, 0]], dtype=float)))
    bodies = [(p, [(piece, box(piece)) for piece in pieces]) for p, pieces in solids]
    moving = [(what, body, box(body)) for what, body in [("the buckets", buckets)] + [("the belt", b) for b in belts]]
    for p, pieces in bodies:
        # What the belt lies on, and the shafts, turn with it.
        if p["id"].startswith(("foot_pulley", "bend_pulley", "shaft", "bend_shaft")):
            continue
        for piece, around in pieces:
            for what, body, its in moving:
                if not apart(around, its):
                    v = (piece ^ body).volume()
                    if v > 1.0:
                        out.append(f"{folder}: {p['item']} {said(p['name'])} runs into {what}: {v:.1f} mm³")
    for (p, a), (q, b) in meeting(bodies):
        volume, contact = 0.0, 0.0
        for x, around in a:
            for y, its in b:
                if not apart(around, its):
                    common = x ^ y
                    v = common.volume()
                    if v > 1e-3:
                        volume += v
                        contact += common.surface_area() / 2
        # A body of volume v between two faces of area s is v/s thick.
        if volume > 1.0 and volume / max(contact, 1e-9) > LIMIT / 2:
            out.append(f"{folder}: {p['item']} {said(p['name'])} and {q['item']} {said(q['name'])} share {volume:.1f} mm³, {volume / contact:.3f} mm thick")
    out += check_places(folder, data, solids)
    out += check_folds(folder, parts)
    out += check_transitions(folder, parts)
    out += check_joints(folder, data, parts)
    return out


WALLS = {"side_plate.near": "near side", "side_plate.far": "far side", "end_plate.up": "up end", "end_plate.down": "down end"}


def scribed_points(part, pl, line, shares, off=0.0):
    """Points of a scribed line in the model, on the marked face; `off` mm beside it."""
    (x0, y0), (x1, y1), b = line["from"], line["to"], line["bulge"]
    pts = []
    for t in shares:
        if abs(b) < 1e-12:
            x, y = x0 + (x1 - x0) * t, y0 + (y1 - y0) * t
            n = (-(y1 - y0), x1 - x0)
        else:
            k = (1 - b * b) / (4 * b)
            cx, cy = (x0 + x1) / 2 - k * (y1 - y0), (y0 + y1) / 2 + k * (x1 - x0)
            angle = math.atan2(y0 - cy, x0 - cx) + 4 * math.atan(b) * t
            r = math.hypot(x0 - cx, y0 - cy)
            n = (math.cos(angle), math.sin(angle))
            x, y = cx + r * n[0], cy + r * n[1]
        size = math.hypot(*n)
        x, y = x + n[0] / size * off, y + n[1] / size * off
        rn = fold(np.array([x]), part["thickness"], part["flat"]["bends"], part["thickness"])
        pts.append(place(pl, rn[0, 0], y, rn[0, 1]))
    return pts


def check_places(folder, data, solids):
    """Scribed outlines against bodies and tables: each lies on the body that it stands for and has that body on one side only;
    on a wall of the casing an upright or level one lies on an edge that the sheet of the assembled casing prints."""
    out = []
    rows = defaultdict(list)
    for row in csv.DictReader(open(folder / "places.csv", encoding="utf-8")):
        rows[row["wall"], int(row["item"])].append([float(row[k]) for k in ("left", "right", "lower", "upper")])
    bodies = defaultdict(list)
    for p, pieces in solids:
        bodies[p["item"]] += pieces
    sides = {"near side": (1, 0), "far side": (-1, 0), "up end": (0, -1), "down end": (0, 1)}
    left = sum(p["id"].startswith("side_plate.near") and p["placements"][0]["right"][0] < 0 for p in data["parts"]["items"])

    def gap(item, at):
        grain = Manifold.cube((0.002, 0.002, 0.002), True).translate(tuple(at))
        return min(b.min_gap(grain, 5.0) for b in bodies[item])

    for p in data["parts"]["items"]:
        wall = next((w for id, w in WALLS.items() if p["id"].startswith(id)), None)
        for s in (p["flat"] or {}).get("scribed", []):
            if "item" not in s["tells"]:
                continue
            item, line, pl = s["tells"]["item"], s["line"], p["placements"][0]
            what = f"{folder}: {p['item']}: line of {item} from {line['from']} to {line['to']}"
            middle, = scribed_points(p, pl, line, [0.5])
            if gap(item, middle) > LIMIT:
                out.append(f"{what} does not lie where the body touches")
            elif max(gap(item, scribed_points(p, pl, line, [0.5], off)[0]) for off in (3.0, -3.0)) < 0.3:
                out.append(f"{what} does not lie at the edge of the body")
            if wall is None:
                continue
            right = np.array((*sides[wall], 0)) * (-1 if left else 1)
            (a, za), (b, zb) = [(q.dot(right), q[2]) for q in scribed_points(p, pl, line, [0, 1])]

            def on(edges):
                x0, x1, z0, z1 = edges
                inside = min(a, b) > x0 - LIMIT and max(a, b) < x1 + LIMIT and min(za, zb) > z0 - LIMIT and max(za, zb) < z1 + LIMIT
                upright, level = abs(a - b) < LIMIT, abs(za - zb) < LIMIT
                free = line["bulge"] != 0
                return inside and (free or not upright or min(abs(a - x0), abs(a - x1)) < LIMIT) and (free or not level or min(abs(za - z0), abs(za - z1)) < LIMIT)

            if not any(on(edges) for edges in rows[wall, item]):
                out.append(f"{what} lies at ({a:.1f}, {za:.1f}) to ({b:.1f}, {zb:.1f}), the sheet prints {rows[wall, item]}")
    return out


def check_folds(folder, parts):
    """Faces of bent plates against the outline of the side plates that they are welded to."""
    out = []
    sides = [p for p in parts if p["id"].startswith("side_plate.near")]
    if not sides:
        return out
    lines = []
    for s in sides:
        pl = s["placements"][0]
        pts = [place(pl, x, y, 0.0) for x, y in contour_points(s["flat"]["outer"], 0.002)]
        ring = [(v[0], v[2]) for v in pts]
        lines.append(LineString(ring + ring[:1]))
    outline = unary_union(lines)
    for p in parts:
        # The outer face of the down-side end plate, the inner face of a rolled bottom.
        face = p["thickness"] if p["id"].startswith("end_plate.down") else 0.0 if p["id"].startswith("bottom") else None
        if face is None or not p["flat"] or not p["flat"]["bends"]:
            continue
        xs = [q[0] for q in contour_points(p["flat"]["outer"])]
        rn = fold(np.linspace(min(xs) + 0.5, max(xs) - 0.5, 400), face, p["flat"]["bends"], p["thickness"])
        line = place(p["placements"][0], rn[:, 0], np.zeros(len(rn)), rn[:, 1])
        worst = max(outline.distance(Point(x, z)) for x, _, z in line)
        if worst > LIMIT:
            out.append(f"{folder}: {said(p['name'])} folded lies {worst:.3f} mm off the side plate's edge")
    return out


def check_transitions(folder, parts):
    """Walls of a transition: along each hip an edge of floor or roof and an edge of the cheek are one line."""
    out = []

    def edges(p, pl):
        pts = contour_points(p["flat"]["outer"])
        for h in (0.0, p["thickness"]):
            at = [place(pl, x, y, h) for x, y in pts]
            yield from zip(at, at[1:] + at[:1])

    def off(q, a, b):
        d = (b - a) / np.linalg.norm(b - a)
        return float(np.linalg.norm((q - a) - d * (q - a).dot(d)))

    for key in ("up", "down"):
        walls = {p["id"].split(".")[2]: p for p in parts if p["id"].startswith(f"transition.{key}.")}
        for across in ("floor", "roof"):
            for pl in walls["cheek"]["placements"] if walls else []:
                wall = walls[across]
                gap = min(
                    max(off(a, c, d), off(b, c, d))
                    for a, b in edges(wall, wall["placements"][0])
                    for c, d in edges(walls["cheek"], pl)
                )
                if gap > LIMIT:
                    out.append(f"{folder}: transition {key}: {across} and cheek are {gap:.3f} mm apart along the hip")
    return out


def check_joints(folder, data, parts):
    """Each group of holes with one purpose: every axis is shared by two plates at least, and by all plates that lie on it."""
    out = []
    groups = defaultdict(list)
    for p in parts:
        if not p["flat"]:
            continue
        for pl in p["placements"]:
            for h in p["flat"]["holes"]:
                if p["flat"]["bends"]:
                    continue
                o = place(pl, h["at"][0], h["at"][1], 0.0)
                groups[h["feature"]].append((p["item"], o, np.array(pl["toward"]), h))
    # As many bolts on the list as holes that lie on one axis together.
    for j in data["parts"]["joints"]:
        bolts = []
        for _, o, d, h in groups[j["feature"]]:
            if not any(np.linalg.norm((o - p) - d * (o - p).dot(d)) < 0.01 and abs((o - p).dot(d)) < 80 for p in bolts):
                bolts.append(o)
        if bolts and len(bolts) != j["quantity"]:
            out.append(f"{folder}: {said(j['what'])}: {j['quantity']} bolts on the list, holes for {len(bolts)}")
        if not groups[j["feature"]] and not any(h["feature"] == j["feature"] for p in parts if p["flat"] for h in p["flat"]["holes"]):
            out.append(f"{folder}: {said(j['what'])}: {j['quantity']} bolts on the list, but no holes for {j['feature']}")
    # The pin of a shackle goes through one lug.
    alone_ok = ("top flange", "anchors", "take-up rod", "shaft", "hanger", "base.", "lifting.shackle", "sling")
    for feature, holes in groups.items():
        # A flange's mate may be another's.
        if any(w in feature for w in alone_ok) or (feature.endswith("flange") and len({i for i, *_ in holes}) == 1):
            continue
        shared = 0
        for item, o, d, h in holes:
            mates = 0
            for item2, o2, d2, h2 in holes:
                if item2 == item:
                    continue
                v = o2 - o
                off = np.linalg.norm(v - d * v.dot(d))
                if abs(abs(d.dot(d2)) - 1) < 1e-9 and off < 1e-6 and abs(v.dot(d)) < 80:
                    mates += 1
                elif abs(abs(d.dot(d2)) - 1) < 1e-9 and off < 3.0 and abs(v.dot(d)) < 80:
                    out.append(f"{folder}: {feature}: holes of {item} and {item2} miss each other by {off:.6f} mm")
            shared += mates > 0
        if shared < len(holes) and len({i for i, *_ in holes}) > 1 and feature != "foot bearing":  # its mate is bought
            out.append(f"{folder}: {feature}: {len(holes) - shared} of {len(holes)} holes have no mate")
        if len({i for i, *_ in holes}) == 1 and feature != "foot bearing":
            out.append(f"{folder}: {feature}: holes in one part only")
    return out


def check(name):
    folder = Path(name)
    data = json.loads((folder / "parts.json").read_text(encoding="utf-8"))
    found = [f"{folder}: {d['item']} cannot be made: {said(d['what'])}" for d in data["parts"]["defects"]]
    return found + check_files(folder, data) + check_assembly(folder, data)


def main(folders):
    count = 0
    gc.freeze()
    with Pool(2) as pool:
        for found in pool.imap(check, folders):
            for f in found:
                print(f, flush=True)
            count += len(found)
    print(f"{count} findings in {len(folders)} sets")
    return 1 if count else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
