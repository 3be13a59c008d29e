"""Works the pit's quantities out again from solids and compares at 0.1 %.

Reads the JSON that `cargo run --example peer_pits` prints (or a file given as argument).
Needs numpy, trimesh, manifold3d. Exits 1 at the first disagreement.

Each pit is built as a solid by unions and differences of boxes and a battered excavation; volumes and areas
are read off the meshes. Uplift: the solid cut at the water level, weights of concrete and of soil over the toe.
"""

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import trimesh

ROOT = Path(__file__).resolve().parents[2]
WITHIN = 1e-3
G = 9.80665
CONCRETE, WATER = 24.0, 9.81
LARGE_OPENING = 0.5


def box(x, y, z):
    low, high = np.array([x[0], y[0], z[0]]) / 1000.0, np.array([x[1], y[1], z[1]]) / 1000.0
    return trimesh.creation.box(extents=high - low, transform=trimesh.transformations.translation_matrix((low + high) / 2.0))


def grown(span, by):
    return [span[0] - by, span[1] + by]


def union(parts):
    return trimesh.boolean.union(parts, engine="manifold")


def less(whole, parts):
    return trimesh.boolean.difference([whole, *parts], engine="manifold") if parts else whole


def common(a, b):
    return trimesh.boolean.intersection([a, b], engine="manifold")


def close(name, got, want):
    error = abs(got - want) / max(abs(want), 1e-9)
    assert error <= WITHIN, f"{name}: {got!r} against {want!r} ({error:.2%})"
    return error


def volume(mesh):
    assert mesh.is_watertight
    return mesh.volume


def check(i, p):
    x, y, depth = p["x"], p["y"], p["depth"]
    wall, slab, lean, toe = p["wall"], p["slab"], p["lean"], p["toe"]
    ox, oy = grown(x, wall), grown(y, wall)
    bx, by = grown(ox, toe), grown(oy, toe)
    over = 50.0
    # Concrete: the outer box with the base, the inside taken out; sump shell under it.
    outer, base, inside = box(ox, oy, [0, depth]), box(bx, by, [-slab, 0]), box(x, y, [0, depth + over])
    bare = less(union([box(ox, oy, [-slab / 2, depth]), base]), [inside])
    parts, taken = [bare], []
    sump = p["sump"]
    if sump:
        sx, sy = grown(sump["x"], slab), grown(sump["y"], slab)
        assert sx[0] >= bx[0] - 1e-6 and sy[0] >= by[0] - 1e-6, f"pit {i}: the sump's shell leaves the base"
        parts.append(box(sx, sy, [-slab - sump["depth"], -slab / 2]))
        taken.append(box(sump["x"], sump["y"], [-sump["depth"], over]))
    holes, large = [], 0
    for o in p["openings"]:
        span = [x[1] - over, ox[1] + over] if o["side"] == "up" else [ox[0] - over, x[0] + over]
        for k in range(p["elevators"]):
            hole = box(span, [max(o["y"][0] - k * p["pitch"], y[0]), min(o["y"][1] - k * p["pitch"], y[1])], [max(o["z"][0], 0), min(o["z"][1], depth + over)])
            if volume(common(hole, bare)) > LARGE_OPENING:
                holes.append(hole)
                large += 1
    concrete = less(union(parts), taken + holes)
    worst = close(f"pit {i} concrete", p["concrete_m3"], volume(concrete))
    # Formwork: upright faces, and sills and lintels of openings that are taken off.
    upright = np.abs(concrete.face_normals[:, 2]) < 0.5
    z = concrete.triangles_center[:, 2]
    in_wall = ~upright & (z > 1e-6) & (z < depth / 1000.0 - 1e-6)
    area = concrete.area_faces[upright].sum() + concrete.area_faces[in_wall].sum()
    worst = max(worst, close(f"pit {i} formwork", p["formwork_m2"], area))
    # Lean concrete steps down under the sump.
    built = [box(ox, oy, [0, depth]), base]
    layers = []
    if lean > 0:
        layer = box(grown(bx, 100), grown(by, 100), [-slab - lean, -slab])
        layers.append(less(layer, [box(sx, sy, [-slab - lean - over, -slab + over])]) if sump else layer)
        if sump:
            layers.append(box(sx, sy, [-slab - sump["depth"] - lean, -slab - sump["depth"]]))
        worst = max(worst, close(f"pit {i} lean", p["lean_m3"], sum(volume(l) for l in layers)))
    # Excavation: hull of the bottom and the battered top, and the sump's own hole.
    bottom, batter = -slab - lean, 1.0 / np.tan(np.radians(p["batter_deg"]))
    wx, wy = grown(bx, p["working_space"]), grown(by, p["working_space"])
    spread = batter * (depth - bottom)
    corners = [[a, b, bottom] for a in wx for b in wy] + [[a, b, depth] for a in grown(wx, spread) for b in grown(wy, spread)]
    dig = trimesh.convex.convex_hull(np.array(corners) / 1000.0)
    if sump:
        built.append(box(sx, sy, [-slab - sump["depth"], -slab / 2]))
        dig = union([dig, box(sx, sy, [bottom - sump["depth"], bottom + 1.0])])
    worst = max(worst, close(f"pit {i} excavation", p["excavation_m3"], volume(dig)))
    worst = max(worst, close(f"pit {i} backfill", p["backfill_m3"], volume(less(dig, built + layers))))
    # Uplift without sump and openings.
    weight = CONCRETE * volume(bare)
    worst = max(worst, close(f"pit {i} weight", p["weight_kn"], weight))
    level = depth - p["groundwater"]
    # Slightly larger in plan, so that no face of the cut lies on one of the solid.
    below = box(grown(bx, 1000), grown(by, 1000), [-slab - 1000, min(level, depth)]) if level > -slab else None
    solid = union([outer, base])
    worst = max(worst, close(f"pit {i} uplift", p["uplift_kn"], WATER * volume(common(solid, below)) if below else 0.0))
    soil = 0.0
    if toe > 0:
        over_toe = less(box(bx, by, [0, depth]), [box(ox, oy, [-over, depth + over])])
        wet = volume(common(over_toe, below)) if below and level > 0 else 0.0
        dry_t, wet_t = p["soil_t_per_m3"]
        soil = (volume(over_toe) - wet) * dry_t * G + wet * (wet_t * G - WATER)
    worst = max(worst, close(f"pit {i} weight with soil", p["weight_with_soil_kn"], weight + soil))
    return worst, large


def main():
    if len(sys.argv) > 1 and Path(sys.argv[1]).is_file():
        text = Path(sys.argv[1]).read_text()
    else:
        text = subprocess.run(["cargo", "run", "--quiet", "--example", "peer_pits"], cwd=ROOT, check=True, capture_output=True, text=True).stdout
    pits = json.loads(text)
    assert len(pits) == 100, len(pits)
    results = [check(i, p) for i, p in enumerate(pits)]
    openings = sum(r[1] for r in results)
    assert sum(1 for p in pits if p["sump"]) >= 50 and sum(1 for p in pits if p["openings"]) >= 5, "too few sumps or openings among the pits"
    assert openings >= 1, "no pit has an opening that is taken off"
    print(f"100 pits, {openings} openings taken off, worst {max(r[0] for r in results):.1e} of {WITHIN}")


if __name__ == "__main__":
    main()
