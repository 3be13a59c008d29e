"""Works actions and load cases of 100 random specs out again, from masses, belt pulls and anchors alone.

Reads the JSON that `cargo run --example peer_actions` prints (or a file given as argument). Needs numpy. Exits 1 at the first disagreement.

Pads: four equal springs under a rigid plate, solved as a linear system. Belt runs: common tangents of the two circles, found anew.
Every case is built from masses and pulls directly and, with a factor of one each, from the actions; both must be what the program lists.
"""

import json
import subprocess
import sys
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
G = 9.80665e-3
WITHIN = 1e-6
SHARE = 0.05


def close(name, got, want, scale):
    assert abs(got - want) <= WITHIN * max(scale, 1.0), f"{name}: {got!r} against {want!r}"


def down_run(p):
    """Direction of the down run away from the foot (x, z) and a point of it: the tangent of foot and head on the down side."""
    if p["bend"]:
        x, z, d = p["bend"]
        return np.array([0.0, 1.0]), np.array([x - d / 2 - p["belt"] / 2, z])
    fx, _, fd = p["foot"]
    hx, hz, hd = p["head"]
    shaft = sum(p["shaft"]) / 2
    a, b = (fd + p["belt"]) / 2, (hd + p["belt"]) / 2
    foot, head = np.array([fx, shaft]), np.array([hx, hz])
    # Both circles touch one line n·x = c from inside: n·foot + a = n·head + b.
    d = head - foot
    length = np.hypot(*d)
    base = np.arctan2(d[1], d[0])
    turn = np.arccos((a - b) / length)
    n = np.array([np.cos(base + turn), np.sin(base + turn)])
    assert n[0] < 0
    direction = np.array([n[1], -n[0]])
    direction = direction if direction[1] > 0 else -direction
    return direction, foot + a * n


def springs(p, forces):
    """Vertical on each pad of forces (down, along, x, y, z)."""
    xy = np.array([[x, y] for _, x, y in p["anchors"]])
    v = sum(f[0] for f in forces)
    about_y = sum(f[0] * f[2] + f[1] * f[4] for f in forces)
    about_x = sum(f[0] * f[3] for f in forces)
    ones = np.ones(len(xy))
    rows = np.array([ones, xy[:, 0], xy[:, 1]])
    # The plate sinks by a + b x + c y; each spring takes that.
    return rows.T @ np.linalg.solve(rows @ rows.T, np.array([v, about_y, about_x]))


def check(p):
    shaft, top = sum(p["shaft"]) / 2, p["top"]
    radius = (p["foot"][2] + p["belt"]) / 2
    direction, at = down_run(p)

    def weight(m, z):
        return [(m[0] * G, 0.0, m[1], m[2], z)]

    def pulls(up, down):
        up, down = up / 1000, down / 1000
        return [(-up, 0.0, radius, 0.0, shaft), (-down * direction[1], down * direction[0], at[0], 0.0, at[1])]

    start = p["up_full"] + max(p["start"] - p["largest"], 0.0)
    own = [f for m in p["own"] for f in weight(m, shaft)]
    above = [f for m in p["above"] for f in weight(m, top)]
    on_belt = [(p["on_belt"] * G, 0.0, radius, 0.0, top)]
    running, flooded = weight(p["running"], shaft), weight(p["flooded"], shaft)
    wanted = {
        "g_foot": own, "g_above": above, "q_foot": running, "q_belt": on_belt, "q_flooded": flooded,
        "b_running": pulls(p["up"], p["down"]), "b_starting": [(-(start - p["up"]) / 1000, 0.0, radius, 0.0, shaft)],
        "a_blocked": pulls(p["blocked"], p["down"]),
    }
    assert [a["id"] for a in p["actions"]] == list(wanted)
    scale = max(abs(f[0]) for forces in wanted.values() for f in forces) * 10
    for a in p["actions"]:
        forces, name = wanted[a["id"]], f"seed {p['seed']} {a['id']}"
        close(name, a["v"], sum(f[0] for f in forces), scale)
        close(name, a["h"], sum(f[1] for f in forces), scale)
        for (pad, v, h), want in zip(a["pads"], springs(p, forces)):
            close(f"{name} {pad}", v, want, scale)
            close(f"{name} {pad} H", h, a["h"] / 4, scale)
        # Equilibrium: the resultant at its point has the moments of the pads about the origin.
        x, y, z = a["at"]
        if abs(a["v"]) > 1e-9:
            xy = {n: (px, py) for n, px, py in p["anchors"]}
            close(f"{name} moment", a["v"] * x + a["h"] * z, sum(v * xy[n][0] for n, v, _ in a["pads"]), scale * 1e4)
            close(f"{name} moment", a["v"] * y, sum(v * xy[n][1] for n, v, _ in a["pads"]), scale * 1e4)
        close(f"{name} any", a["any"], SHARE * a["v"] if a["id"][0] in "gq" else 0.0, scale)
    cases = {
        "on_foot_empty": [own, above], "on_foot_running": [own, above, running, on_belt], "on_foot_flooded": [own, above, flooded, on_belt],
        "held_dismantled": [own], "held_running": [own, running, pulls(p["up"], p["down"])], "held_starting": [own, running, pulls(start, p["down"])],
        "held_flooded": [own, flooded], "held_blocked": [own, pulls(p["blocked"], p["down"])],
    }
    by_id = {a["id"]: a for a in p["actions"]}
    xy = np.array([[x, y] for _, x, y in p["anchors"]])
    arms = xy - xy.mean(axis=0)
    tilt = max(np.hypot(*(a / (arms**2).sum(axis=0))) for a in arms)
    most, least = 0.0, 0.0
    for c in p["cases"]:
        name = f"seed {p['seed']} {c['id']}"
        forces = [f for part in cases[c["id"]] for f in part]
        close(name, c["v"], sum(f[0] for f in forces), scale)
        close(name, c["h"], sum(f[1] for f in forces), scale)
        close(name, c["v"], sum(by_id[a]["v"] for a in c["actions"]), scale)
        down = sum(f[0] for f in forces if f[0] > 0)
        close(f"{name} any", c["any"], SHARE * down, scale)
        close(f"{name} any pad", c["any_pad"], SHARE * sum(f[0] * f[4] for f in forces if f[0] > 0) * tilt, scale)
        for (pad, v, _), want in zip(c["pads"], springs(p, forces)):
            close(f"{name} {pad}", v, want, scale)
            most, least = max(most, v + c["any_pad"]), min(least, v - c["any_pad"])
    close("largest pad", p["largest_pad"], most, scale)
    close("largest uplift", p["largest_uplift"], -least, scale)
    return abs(direction[0]) > 1e-9


def main():
    if len(sys.argv) > 1 and Path(sys.argv[1]).is_file():
        text = Path(sys.argv[1]).read_text()
    else:
        text = subprocess.run(["cargo", "run", "--quiet", "--example", "peer_actions"], cwd=ROOT, check=True, capture_output=True, text=True).stdout
    specs = json.loads(text)
    assert len(specs) == 100
    leaning = sum(check(p) for p in specs)
    assert leaning >= 5, f"only {leaning} down runs lean"
    print(f"100 specs, 8 actions and 8 cases each within {WITHIN}; {leaning} with a down run that leans")


if __name__ == "__main__":
    main()
