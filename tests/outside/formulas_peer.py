"""Works the formulas out again by other means and compares.

Reads the JSON that `cargo run --example peer_values` prints (or a file given as argument).
Needs numpy, scipy, shapely. Exits 1 at the first disagreement.

  belt path      shapely: hull of buffered circles; Cauchy's formula on the support functions
  retained fill  scipy: limit surface integrated step by step through the field of apparent weight, cut by shapely;
                 without friction also a grid of the potential (no pole in either)
  tensions       the belt walked element by element, foot tension found by root search
  shaft          the moment line integrated twice
"""

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
from scipy.integrate import cumulative_simpson, solve_ivp
from scipy.optimize import brentq
from shapely import contains_xy
from shapely.geometry import MultiPolygon, Point, Polygon, box
from shapely.ops import unary_union

G = 9.80665
ROOT = Path(__file__).resolve().parents[2]


def close(name, got, want, relative=0.0, absolute=0.0):
    error = abs(got - want)
    assert error <= relative * abs(want) + absolute, f"{name}: {got!r} against {want!r} (off by {error:.3g})"
    return error / abs(want) if relative else error


def perimeter_and_wraps(circles, n=200_001):
    """Cauchy: perimeter = integral of the support function; wrap = angles at which a circle leads."""
    theta = np.linspace(0.0, 2.0 * np.pi, n)[:-1]
    support = np.array([x * np.cos(theta) + y * np.sin(theta) + r for x, y, r in circles])
    step = 2.0 * np.pi / (n - 1)
    return support.max(axis=0).sum() * step, np.bincount(support.argmax(axis=0), minlength=len(circles)) * step


def belt_paths(cases):
    assert len(cases) == 200
    worst, bent, clear = 0.0, 0, 0
    for i, c in enumerate(cases):
        circles = [c["foot"], c["head"]] + ([c["bend"]] if c["bend"] else [])
        hull = unary_union([Point(x, y).buffer(r, quad_segs=1500) for x, y, r in circles]).convex_hull
        worst = max(worst, close(f"belt {i} length", c["length"], hull.length, relative=1e-6))
        length, wraps = perimeter_and_wraps(circles)
        close(f"belt {i} length by Cauchy", c["length"], length, relative=1e-6)
        for name, got, want in zip(("foot", "head", "bend"), c["wraps"], wraps):
            close(f"belt {i} wrap {name}", got, want, absolute=7e-5)
        close(f"belt {i} wraps", sum(c["wraps"]), 2.0 * np.pi, absolute=1e-12)
        bent += c["touched"]
        if c["gap"] is not None:
            clear += 1
            others = unary_union([Point(x, y).buffer(r, quad_segs=1500) for x, y, r in circles[:2]]).convex_hull
            x, y, r = c["bend"]
            down_run = others.exterior.intersection(box(-1e5, -1e5, x, 1e5))
            close(f"belt {i} gap", c["gap"], down_run.distance(Point(x, y)) - r, absolute=0.01)
        for key, (dx, dy) in {"length_per_lowering": (0.0, -1.0), "length_per_shift": (1.0, 0.0)}.items():
            moved = [perimeter_and_wraps([[c["foot"][0] + s * dx, c["foot"][1] + s * dy, c["foot"][2]]] + circles[1:], 20_001)[0] for s in (-5.0, 5.0)]
            close(f"belt {i} {key}", c[key], (moved[1] - moved[0]) / 10.0, absolute=2e-4)
    assert bent >= 60 and clear >= 15, f"{bent} paths touch their bend pulley, {clear} pass it"
    return f"200 paths ({bent} on a bend pulley, {clear} pass it), worst length {worst:.1e} of 1e-6"


def area(shape):
    return sum(p.area for p in shape.geoms) if isinstance(shape, MultiPolygon) else shape.area


def retained_by_surface(c):
    """Share from the limit surface: from each end of the opening, integrated both ways at the friction
    angle to the level of the apparent weight."""
    out = np.array([np.sin(c["angle"]), -np.cos(c["angle"])])
    along = np.array([np.cos(c["angle"]), np.sin(c["angle"])])
    w2 = c["omega"] ** 2
    corners = np.array([(c["radius"] + u) * out + w * along for u, w in c["outline"]])
    size = np.ptp(corners, axis=0).max()

    def weight(x):
        return w2 * x - np.array([0.0, 1000.0 * G])

    def slope(sign):
        def f(_, x):
            a = weight(x)
            a = a / np.hypot(*a)
            level = sign * np.array([-a[1], a[0]])
            return np.cos(c["friction"]) * level - np.sin(c["friction"]) * a
        return f

    weightless = np.array([0.0, 1000.0 * G / w2])
    kept = Polygon(corners)
    for end in (corners[0], corners[-1]):
        far = min(3.0 * size, 1.2 * np.hypot(*(end - weightless)))
        runs = [solve_ivp(slope(s), (0.0, far), end, rtol=1e-9, atol=1e-7, dense_output=True).sol(np.linspace(0.0, far, 3000)).T for s in (-1, 1)]
        above = Polygon(np.vstack([runs[0][::-1], runs[1][1:], weightless]))
        assert above.is_valid
        kept = kept.difference(above)
    level = min(c["outline"][0][1], c["outline"][-1][1])
    flat = Polygon(c["outline"])
    full = area(flat.intersection(box(-1e4, -1e4, 1e4, level)))
    return min(1.0, area(kept) / full)


def retained_by_potential(c, n=900):
    flat = Polygon(c["outline"])
    x0, y0, x1, y1 = flat.bounds
    u, w = np.meshgrid(x0 + (np.arange(n) + 0.5) * (x1 - x0) / n, y0 + (np.arange(n) + 0.5) * (y1 - y0) / n)

    def potential(u, w):
        x = (c["radius"] + u) * np.sin(c["angle"]) + w * np.cos(c["angle"])
        z = -(c["radius"] + u) * np.cos(c["angle"]) + w * np.sin(c["angle"])
        return 1000.0 * G * z - 0.5 * c["omega"] ** 2 * (x * x + z * z)

    inside = contains_xy(flat, u.ravel(), w.ravel()).reshape(u.shape)
    spill = min(potential(*c["outline"][0]), potential(*c["outline"][-1]))
    level = min(c["outline"][0][1], c["outline"][-1][1])
    return min(1.0, (inside & (potential(u, w) < spill)).sum() / (inside & (w <= level)).sum())


def retained(cases):
    assert len(cases) == 100
    worst, between = 0.0, 0
    for i, c in enumerate(cases):
        worst = max(worst, close(f"retained {i}", c["share"], retained_by_surface(c), absolute=1e-4))
        if c["friction"] == 0.0:
            close(f"retained {i} by potential", c["share"], retained_by_potential(c), absolute=3e-3)
        between += 0.02 < c["share"] < 0.98
    assert between >= 30, f"only {between} shares lie between 0 and 1"
    return f"100 buckets ({between} partly filled), worst share {worst:.1e} of 1e-4"


def walk(c, foot_down, steps=4000):
    """Belt walked from the down run's foot: up the down run to the head's slack side, and round the foot up the loaded run."""
    dz = c["lift"] / steps
    slack = foot_down
    tight = foot_down + c["dredging"]
    for _ in range(steps):
        slack += c["empty"] * G * dz
        tight += (c["empty"] + c["load"]) * G * dz
    return slack, tight


def grip_limit(c, slack):
    fc = c["empty"] * c["speed"] ** 2
    return solve_ivp(lambda _, t: c["friction"] * (t - fc), (0.0, c["wrap"]), [slack], rtol=1e-10, atol=1e-8).y[0, -1]


def tensions(cases):
    assert len(cases) == 100
    worst, grip = 0.0, 0
    for i, c in enumerate(cases):
        still = {**c, "speed": 0.0}

        def spare(foot):
            """What the head grips over what pulls: running with full buckets, and starting with them from standstill."""
            slack, tight = walk(c, foot, 200)
            full = (tight - slack) * c["full"]
            return min(grip_limit(c, slack) - slack - full, grip_limit(still, slack) - slack - full * c["start"])
        foot, governs = c["tracking"], False
        if spare(foot) < 0.0:
            foot, governs = brentq(spare, foot, 1e8, xtol=1e-6, rtol=1e-13), True
        slack, tight = walk(c, foot)
        assert governs == c["grip_governs"], f"tension {i}: what governs"
        grip += governs
        for name, got, want in (("foot_down", c["foot_down"], foot), ("foot_up", c["foot_up"], foot + c["dredging"]), ("head_slack", c["head_slack"], slack), ("head_tight", c["head_tight"], tight), ("head_full", c["head_full"], slack + (tight - slack) * c["full"])):
            worst = max(worst, close(f"tension {i} {name}", got, want, relative=1e-6))
    assert 15 <= grip <= 85, f"grip governs {grip} of 100"
    return f"100 chains (grip governs {grip}), worst {worst:.1e} of 1e-6"


def shafts(cases):
    assert len(cases) == 100
    worst = 0.0
    for i, c in enumerate(cases):
        span, arm, p = c["span"], c["arm"], c["resultant"] / 2.0
        # A grid with a point at each hub, so that the kinks of the moment line lie on it.
        x = np.concatenate([np.linspace(0, arm, 801), np.linspace(arm, span - arm, 1601)[1:], np.linspace(span - arm, span, 801)[1:]])
        moment = p * x - p * np.clip(x - arm, 0, None) - p * np.clip(x - span + arm, 0, None)
        inertia = np.pi * c["diameter"] ** 4 / 64.0
        turn = cumulative_simpson(moment / (c["modulus"] * inertia), x=x, initial=0)
        sag = cumulative_simpson(turn, x=x, initial=0)
        start = sag[-1] / span
        slope, y = start - turn, start * x - sag
        hub, mid = 800, 1600
        fibre = moment.max() * c["diameter"] / 2.0 / inertia
        for name, got, want in (
            ("moment", c["moment"], moment.max()), ("stress", c["stress"], fibre), ("deflection", c["deflection"], y[mid]), ("hub_deflection", c["hub_deflection"], y[hub]),
            ("hub_slope", c["hub_slope"], slope[hub]), ("bearing_slope", c["bearing_slope"], slope[0]),
        ):
            worst = max(worst, close(f"shaft {i} {name}", got, want, relative=1e-6))
        close(f"shaft {i} diameter", c["hub_slope"] * (c["diameter"] / c["diameter_for_slope"]) ** 4, 0.0023, relative=1e-9)
    return f"100 shafts, worst {worst:.1e} of 1e-6"


def main():
    if len(sys.argv) > 1:
        text = Path(sys.argv[1]).read_text(encoding="utf-8")
    else:
        text = subprocess.run(["cargo", "run", "--quiet", "--example", "peer_values"], cwd=ROOT, check=True, capture_output=True, text=True).stdout
    data = json.loads(text)
    for name, check in (("belt_paths", belt_paths), ("retained", retained), ("tensions", tensions), ("shafts", shafts)):
        print(f"{name}: {check(data[name])}", flush=True)


if __name__ == "__main__":
    try:
        main()
    except AssertionError as why:
        print(f"formulas_peer: {why}", file=sys.stderr)
        sys.exit(1)
