"""Works the analysis of 100 random specs out again by numerical integration and root search, and compares.

Reads the JSON that `cargo run --example peer_specs` prints (or a file given as argument): for each spec the
settled keys and the places of the pulleys, and what the analysis made of them. Needs numpy, scipy, shapely.
Exits 1 at the first disagreement.

  retained fill  rays from the pole through the section at every point of both curves and at the sill; at some
                 of them also the limit surface integrated step by step through the field of apparent weight
  belt path      angles at which one pulley takes over from the next in the support function, by root search
  tensions       the belt walked from foot to head; foot tension by root search, grip by integrating round the head
  head           rays from the pole over the head pulley, level with its shaft on the down side
  under tips     the casing's outline less everything that a circle of the tips and its two slopes keep free, cut by shapely
  overtightened  the rod as an inclined plane, its force and the belt's pull by root search
  foot shaft     vector sum of the belt's pulls, moment line integrated twice
"""

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
from scipy.integrate import cumulative_simpson
from scipy.optimize import brentq
from shapely.geometry import Polygon, box

sys.path.insert(0, str(Path(__file__).parent))
from formulas_peer import G, close, grip_limit, retained_by_surface  # noqa: E402

ROOT = Path(__file__).resolve().parents[2]
RAYS = 6000
E_STEEL = 210_000.0  # MPa, EN 1993-1-1
DREDGING = {False: 6.0, True: 12.0}  # extra lift in foot pulley diameters, up-side and down-side feed
OVERLOADED = 1.5  # most that a drive pulls in running over the duty
START = 1.5  # effective pull in starting over running
LOSSES = 0.10  # share of lift and dredging
GREASED = 2.0 / 3.0  # friction of a rod just greased over that in service
UNEVEN_COLLAR = 1.3  # mean diameter of a rod's collar over the thread's


def retained_by_rays(outline, radius, omega, friction, angle):
    """Area of the section beyond both limit surfaces, ray by ray from the pole, over the area at rest."""
    out, along = np.array([np.sin(angle), -np.cos(angle)]), np.array([np.cos(angle), np.sin(angle)])
    pole = np.array([0.0, 1000.0 * G / omega**2])
    corners = np.array([(radius + u) * out + w * along - pole for u, w in outline])
    z = corners[:, 0] + 1j * corners[:, 1]
    seen = np.angle(z / z[0])
    width = np.ptp(seen)
    assert width < 3.0, "the pole lies in or beside the bucket"
    psi = seen.min() + (np.arange(RAYS) + 0.5) * width / RAYS
    surface = np.maximum(*(abs(z[e]) * np.exp(-np.tan(friction) * abs(psi - seen[e])) for e in (0, -1)))
    ray = np.exp(1j * psi) * z[0] / abs(z[0])
    area = np.zeros(RAYS)
    for a, b in zip(z, np.roll(z, -1)):
        side_a, side_b = (np.conj(ray) * a).imag, (np.conj(ray) * b).imag
        crossed = (side_a > 0) != (side_b > 0)
        share = np.divide(side_a, side_a - side_b, out=np.zeros(RAYS), where=crossed)
        r = (np.conj(ray) * (a + share * (b - a))).real
        area += np.where(crossed, np.sign(side_b - side_a) * np.maximum(r**2 - surface**2, 0.0) / 2.0, 0.0)
    return abs(area.sum()) * width / RAYS


def water_level(outline):
    """Area below the lower end of the opening, by horizontal slices."""
    o = np.array(outline)
    level, low = min(o[0, 1], o[-1, 1]), o[:, 1].min()
    w = low + (np.arange(20_000) + 0.5) * (level - low) / 20_000
    total = np.zeros_like(w)
    for a, b in zip(o, np.roll(o, -1, axis=0)):
        crossed = (a[1] > w) != (b[1] > w)
        u = a[0] + (w - a[1]) * np.divide(b[0] - a[0], b[1] - a[1], out=np.zeros_like(w), where=crossed)
        total += np.where(crossed, np.sign(b[1] - a[1]) * u, 0.0)
    return abs(total.sum()) * (level - low) / 20_000


def retained(case):
    g, want, seed = case["given"], case["wanted"], case["seed"]
    radius = g["foot"][2] / 2.0 + g["belt_thickness"]
    omega = 1000.0 * g["speed"] / (g["foot"][2] / 2.0 + g["belt_thickness"] / 2.0)
    outline = [[u, w - g["bucket_height"] / 2.0] for u, w in reversed(g["bucket_section"])]
    full = water_level(outline)
    close(f"spec {seed} water level", want["water_level_area"], full, relative=1e-6)
    rough = np.radians(g["internal_friction_deg"])
    worst, partly = 0.0, 0

    def share(friction, above):
        if above >= 0.0:
            return 1.0
        angle = np.arccos(min(1.0, -above / radius))
        return min(1.0, retained_by_rays(outline, radius, omega, friction, angle) / full)

    for name, friction in (("frictionless", 0.0), ("with_friction", rough)):
        curve = want[name]
        assert len(curve) >= 20 and curve[0][0] == -radius, f"spec {seed}: {name}"
        for i, (above, got) in enumerate(curve):
            # At the shaft there are two points: still on the pulley, and off it.
            on_pulley = i < len(curve) - 2
            by_rays = share(friction, min(above, -1e-12)) if on_pulley else 1.0
            worst = max(worst, close(f"spec {seed} {name} at {above:.1f}", got, by_rays, absolute=1e-5))
            partly += 0.02 < got < 0.98
            if on_pulley and (i + seed) % 12 == 0:
                c = {"angle": np.arccos(-above / radius), "omega": omega, "outline": outline, "radius": radius, "friction": friction}
                close(f"spec {seed} {name} by surface", got, retained_by_surface(c), absolute=1e-4)
    rated = 3.6 * g["bucket_volume"] * g["bucket_rows"] / (g["bucket_spacing"] / 1000.0) * g["speed"] * g["density"] * g["fill"]
    low = 0
    for name, shaft in (("sill_lowest", g["shaft_lowest"]), ("sill_highest", g["shaft_highest"])):
        if want[name] is None:
            assert g["up_sill"] is None
            continue
        above, got, smooth, most, lost = want[name]
        close(f"spec {seed} {name}", above, g["up_sill"] - shaft, absolute=1e-9)
        close(f"spec {seed} {name} share", got, share(rough, above), absolute=1e-5)
        close(f"spec {seed} {name} share without friction", smooth, share(0.0, above), absolute=1e-5)
        close(f"spec {seed} {name} lost at most", most, rated * (1.0 - min(1.0, share(rough, above) / g["fill"])), absolute=1e-4 * rated)
        # Mean over thin layers of a stream that enters evenly over the opening's height.
        stays = 1.0
        if above < 0.0:
            brim = g["up_brim"] - shaft
            layers = above + (np.arange(200) + 0.5) * (brim - above) / 200
            stays = np.mean([min(1.0, share(rough, z) / g["fill"]) for z in layers])
        close(f"spec {seed} {name} lost, best estimate", lost, min(most, rated * (1.0 - stays)), absolute=1e-2 * rated)
        low += above < 0.0
    return worst, partly, low


def path(g, shaft_z):
    """Wraps of foot and head and lean of the down run at the foot: where the support function changes its circle."""
    half = g["belt_thickness"] / 2.0
    others = [c for c in (g["head"], g["bend"]) if c]
    circles = [[x, z, d / 2.0 + half] for x, z, d in [[g["foot"][0], shaft_z, g["foot"][2]]] + others]
    support = [lambda t, c=c: c[0] * np.cos(t) + c[1] * np.sin(t) + c[2] for c in circles]
    theta = np.linspace(-np.pi / 2, 1.5 * np.pi, 20_001)  # from straight down through +x, up, −x
    leads = np.argmax([s(theta) for s in support], axis=0)
    changes = []
    for i in np.flatnonzero(np.diff(leads)):
        a, b = leads[i], leads[i + 1]
        changes.append((brentq(lambda t: support[a](t) - support[b](t), theta[i], theta[i + 1], xtol=1e-15), a, b))
    assert leads[0] == leads[-1] == 0
    up = next(t for t, a, _ in changes if a == 0)
    down = next(t for t, _, b in changes if b == 0)
    foot_wrap = 2.0 * np.pi - (down - up)
    head = [t for t, a, b in changes if 1 in (a, b)]
    return foot_wrap, head[1] - head[0], down - np.pi


def tensions(case):
    g, want, seed = case["given"], case["wanted"], case["seed"]
    middle = (g["shaft_lowest"] + g["shaft_highest"]) / 2.0
    foot_wrap, head_wrap, lean = path(g, middle)
    product = g["capacity"] / 3.6 / g["speed"]
    dredging = product * G * DREDGING[g["fed_down"]] * g["foot"][2] / 1000.0
    lift = (g["head"][1] - middle) / 1000.0
    empty = g["belt_mass"] * g["belt_width"] / 1000.0 + g["bucket_mass"] * g["bucket_rows"] / (g["bucket_spacing"] / 1000.0)
    chain = {"empty": empty, "speed": g["speed"], "friction": g["head_friction"], "wrap": head_wrap}
    steps = 2000

    def walk(foot):
        """Slack and tight side at the head; losses act at the head."""
        slack, tight = foot, foot + dredging
        for _ in range(steps):
            slack += empty * G * lift / steps
            tight += (empty + product) * G * lift / steps
        return slack, tight + LOSSES * (product * G * lift + dredging)

    slack_0, tight_0 = walk(0.0)

    # Nothing limits the feed: buckets full to water level, running and starting from standstill.
    volume_flow = g["bucket_volume"] * g["bucket_rows"] / (g["bucket_spacing"] / 1000.0) * g["speed"] * 3.6
    limit = g["pull_limit"] or np.inf
    over_duty = min(OVERLOADED, limit, max(1.0, volume_flow * g["density"] / g["capacity"]))
    full = over_duty * (tight_0 - slack_0)
    starting = min(START * full, max(full, limit * (tight_0 - slack_0)))
    still = {**chain, "speed": 0.0}

    def spare(foot):
        slack = slack_0 + foot
        return min(grip_limit(chain, slack) - slack - full, grip_limit(still, slack) - slack - starting)

    tracking = g["tracking_tension"] * g["belt_width"]
    needed, governs = tracking, False
    if spare(tracking) < 0.0:
        needed, governs = brentq(spare, tracking, 1e8, xtol=1e-7, rtol=1e-13), True
    assert governs == want["grip_governs"], f"spec {seed}: what governs"
    # What hangs on the belt, shared by the two runs so that the foot stands still.
    set_down = needed
    if g["gravity"]:
        # The boxes hang beside the bearings and a tenth of their length off the middle: a couple on both ends of what is guided
        # least, each end with its friction, on both sides; pulled up, the belt carries that as well.
        box, weight = g["box"], (g["weights"] + g["boxes"]) * G
        reach = [min(g["guides"][1], g["slide"][1] + s) - max(g["guides"][0], g["slide"][0] + s) for s in np.linspace(0.0, g["travel"], 101)]
        arm = abs(sum(box["out"]) / 2.0 - g["bearing_plane"]) + 0.1 * box["length"]
        pressed = weight * arm / max(min(reach), 1.0)
        hung = (g["weights"] + g["hanging"]) * G + 2.0 * g["guide_friction"] * pressed
        set_down = max(0.0, brentq(lambda t: t * np.cos(lean) + t + dredging - hung, -1e7, 1e7, xtol=1e-9))
    down = max(needed, set_down)
    worst = 0.0
    for name, value in (("needed_down", needed), ("foot_down", down), ("foot_up", down + dredging), ("head_slack", slack_0 + needed),
                        ("head_tight", tight_0 + needed), ("largest", slack_0 + down + full)):
        worst = max(worst, close(f"spec {seed} {name}", want[name], value, relative=1e-6))
    if g["rod"]:
        overtightened(g, want, seed, (down, slack_0 + down + full, lean))
    return worst, governs, (down, down + dredging, foot_wrap, lean)


def overtightened(g, want, seed, belt):
    """The greased rod as an inclined plane that the spanner's torque moves a load up; the belt hangs on both rods and on what slides."""
    down, largest, lean = belt
    d, pitch, flank = g["rod"]
    d2, friction = d - pitch / 2.0, GREASED * g["rod_friction"]
    plane = np.arctan(pitch / (np.pi * d2)) + np.arctan(friction / np.cos(flank))
    torque = lambda n: n * np.tan(plane) * d2 / 2.0 + n * friction * UNEVEN_COLLAR * d / 2.0  # noqa: E731
    rod = brentq(lambda n: torque(n) / 1000.0 - g["torque"], 0.0, 1e7, xtol=1e-9, rtol=1e-14)
    hung = 2.0 * rod + g["hanging"] * G
    run = brentq(lambda t: t + t * np.cos(lean) - hung, 0.0, 1e8, xtol=1e-9, rtol=1e-14)
    if run <= down:
        return
    for name, got, value in zip(("rod", "run", "belt"), want["overtightened"], (rod, run, largest + run - down)):
        close(f"spec {seed} overtightened {name}", got, value, relative=1e-6)


def head(case):
    """Share of the load still in the bucket level with the head shaft on the down side."""
    g, want, seed = case["given"], case["wanted"], case["seed"]
    radius = g["head"][2] / 2.0 + g["belt_thickness"]
    omega = 1000.0 * g["speed"] / (g["head"][2] / 2.0 + g["belt_thickness"] / 2.0)
    outline = [[u, w - g["bucket_height"] / 2.0] for u, w in reversed(g["bucket_section"])]
    stays = retained_by_rays(outline, radius, omega, np.radians(g["internal_friction_deg"]), 1.5 * np.pi) / water_level(outline)
    close(f"spec {seed} back", want["back"], min(1.0, stays / g["fill"]), absolute=2e-5)
    return want["back"] > 0.01


def under_tips(case):
    """Volume in the casing that neither the tips nor product at its angle of repose leave open."""
    g, want, seed = case["given"], case["wanted"], case["seed"]
    corners = [tuple(p) for p in g["casing"]]
    if g["bottom_radius"]:
        r, (up, down) = g["bottom_radius"], g["bottom_arc"]
        turn = np.linspace(-down, up, 4001)
        corners += [(r * np.sin(a), g["shaft_lowest"] - r * np.cos(a)) for a in turn]
    low, high = g["ends"]
    inside = Polygon(corners).buffer(0).intersection(box(low, -1e5, high, 1e5))
    r, repose, far = g["tip_radius"], np.radians(g["repose_deg"]), 1e5
    for got, shaft in zip(want["under_tips"], (g["shaft_lowest"], g["shaft_highest"])):
        arc = [(r * np.sin(a), shaft - r * np.cos(a)) for a in np.linspace(-repose, repose, 4001)]
        (x0, z0), (x1, z1) = arc[0], arc[-1]
        slope = np.tan(repose)
        free = Polygon([(x0 - far, z0 + far * slope), *arc, (x1 + far, z1 + far * slope)])
        close(f"spec {seed} under tips", got, inside.difference(free).area * g["inside_width"] / 1e6, relative=1e-4, absolute=1e-3)


def shaft(case, belt):
    g, want, seed = case["given"], case["wanted"], case["seed"]
    down, up, foot_wrap, lean = belt
    # The belt presses on the pulley along the wrap; its pull is the sum of the two ends.
    pull = up * np.array([0.0, 1.0]) + down * np.array([-np.sin(lean), np.cos(lean)])
    close(f"spec {seed} lean and wrap", foot_wrap, np.pi - lean, absolute=1e-9)
    weight = (g["pulley_mass"] + g["shaft_mass"]) * G
    design = max(np.hypot(*pull), np.hypot(*(pull - [0.0, weight])), weight)
    span, d = g["bearing_centres"], g["shaft_diameter"]
    arm, p = (span - g["hub_spacing"]) / 2.0, design / 2.0
    # A point of the grid at each hub, so that the kinks of the moment line lie on it.
    x = np.concatenate([np.linspace(0, arm, 401), np.linspace(arm, span - arm, 801)[1:], np.linspace(span - arm, span, 401)[1:]])
    moment = p * x - p * np.clip(x - arm, 0, None) - p * np.clip(x - span + arm, 0, None)
    inertia = np.pi * d**4 / 64.0
    turn = cumulative_simpson(moment / (E_STEEL * inertia), x=x, initial=0)
    sag = cumulative_simpson(turn, x=x, initial=0)
    start = sag[-1] / span
    slope, y = start - turn, start * x - sag
    worst = 0.0
    for name, value in (("resultant", np.hypot(*pull)), ("design", design), ("moment", moment.max() / 1000.0), ("stress", moment.max() * d / 2.0 / inertia),
                        ("hub_slope", slope[400]), ("bearing_slope", slope[0]), ("deflection", y[800])):
        worst = max(worst, close(f"spec {seed} {name}", want[name], value, relative=1e-6))
    return worst


def main():
    if len(sys.argv) > 1:
        text = Path(sys.argv[1]).read_text(encoding="utf-8")
    else:
        text = subprocess.run(["cargo", "run", "--quiet", "--locked", "--example", "peer_specs"], cwd=ROOT, check=True, capture_output=True, text=True).stdout
    cases = json.loads(text)
    assert len(cases) == 100
    fill, belt, beam, partly, low, grip, bent, hung, back = 0.0, 0.0, 0.0, 0, 0, 0, 0, 0, 0
    for case in cases:
        worst, between, below = retained(case)
        fill, partly, low = max(fill, worst), partly + between, low + below
        worst, governs, state = tensions(case)
        belt, grip = max(belt, worst), grip + governs
        beam = max(beam, shaft(case, state))
        under_tips(case)
        back += head(case)
        bent += case["given"]["bend"] is not None
        hung += case["given"]["gravity"]
    print(f"retained fill: 100 specs, {partly} points partly filled, {low} sills below the shaft, worst share {fill:.1e} of 1e-5")
    print(f"tensions: 100 specs, grip governs {grip}, {bent} with a bend pulley, {hung} gravity take-ups, worst {belt:.1e} of 1e-6")
    print(f"head and under the tips: 100 specs, {back} let part of the load fall back")
    print(f"foot shaft: 100 specs, worst {beam:.1e} of 1e-6")
    assert back >= 5 and partly >= 500 and low >= 10 and grip >= 10 and bent >= 10 and hung >= 10, "the specs are too much alike"


if __name__ == "__main__":
    try:
        main()
    except AssertionError as why:
        print(f"specs_peer: {why}", file=sys.stderr)
        sys.exit(1)
