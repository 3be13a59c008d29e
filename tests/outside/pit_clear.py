"""Looks at three levels of 300 random pits for what meets, from raw sizes alone, with shapely; and at what the rule says of them.

Reads the JSON that `cargo run --example peer_clear` prints (or a file given as argument). Needs shapely. Exits 1 at the first disagreement.

The judge knows nothing of the program's boxes: it draws the bare shaft on its way out, the bare pulley before its panel, the treads of
the stair as tall as a walker, the landing, the sump, the machines and the spouts, each at the levels at which it is there. Where the rule
passes nothing may meet; where a stair was planted in the way of the shaft the judge must see it and the rule must not pass.
"""

import json
import math
import subprocess
import sys
from pathlib import Path

from shapely.geometry import box

ROOT = Path(__file__).resolve().parents[2]
WALKER = 1900.0
AREA = 100.0  # mm², under it two shapes only touch


def treads(p):
    """Each tread in plan with its height; the last step is plant floor."""
    x0, y0, x1, y1 = p["way"]
    n = p["steps"] - 1
    for k in range(n):
        a, b = k / n, (k + 1) / n
        if p["wall"] == "near":
            shape = box(x1 - b * (x1 - x0), y0, x1 - a * (x1 - x0), y1)
        elif p["wall"] == "far":
            shape = box(x0 + a * (x1 - x0), y0, x0 + b * (x1 - x0), y1)
        else:
            shape = box(x0, y0 + a * (y1 - y0), x1, y0 + b * (y1 - y0))
        yield shape, (k + 1) * p["rise"]


def things(p):
    """What, whose, shape, from which height to which."""
    if p["stair"]:
        for shape, top in treads(p):
            yield "way", 0, shape, top - 40.0, top + WALKER
    else:
        yield "way", 0, box(*p["way"]), 0.0, p["depth"]
    yield "landing", 0, box(*p["landing"]), 0.0, WALKER
    if p["sump"]:
        yield "sump", 0, box(*p["sump"]), -1.0, 50.0
    length, thick, axis = p["shaft"]
    diameter, face = p["pulley"]
    run, slope = p["feed"]
    for k in range(p["elevators"]):
        row = -k * p["pitch"]
        c = p["casing_y"]
        y = (row + c, row + c + length) if p["pull_near"] else (row - c - length, row - c)
        yield "shaft", k + 1, box(-thick / 2, y[0], thick / 2, y[1]), axis - thick / 2, axis + thick / 2
        yield "machine", k + 1, box(p["casing_x"][0], row - c, p["casing_x"][1], row + c), 0.0, p["depth"]
        if p["panel"]:
            f = p["panel"]["face"]
            x = (f, f + diameter) if p["panel"]["up_end"] else (f - diameter, f)
            yield "pulley", k + 1, box(x[0], row - face / 2, x[1], row + face / 2), 0.0, min(diameter, p["panel"]["z"][1])
        for i in p["inlets"]:
            out = 1.0 if i["up"] else -1.0
            end = i["flange_face"] + out * run
            end = min(end, p["floor"][2]) if i["up"] else max(end, p["floor"][0])
            # In slices, each as high as the spout is there.
            n = 8
            for s in range(n):
                a, b = (i["flange_face"] + (end - i["flange_face"]) * t / n for t in (s, s + 1))
                low = i["flange_sill"] + math.tan(math.radians(slope)) * abs(a - i["flange_face"])
                yield "feed", k + 1, box(min(a, b), row - i["half"], max(a, b), row + i["half"]), low, low + i["height"]
    for k, h in enumerate(p["hoists"]):
        yield "hoist", k + 1, box(*h), 0.0, p["depth"]


HANDLING = {"shaft", "pulley", "hoist"}
PASSAGE = {"way", "landing"}
SOLID = {"machine", "feed"}


def may_meet(a, b):
    (what, whose), (other, others) = a, b
    for group in (HANDLING, PASSAGE, SOLID):
        if what in group and other in group:
            return True
    pair = {what, other}
    # A shaft is drawn out of, a pulley stands before its own machine.
    return bool(pair & SOLID) and bool(pair & {"shaft", "pulley"}) and whose == others


def meetings(p):
    diameter, axis = p["pulley"][0], p["shaft"][2]
    found = set()
    all_things = list(things(p))
    for level in (min(200.0, diameter / 2), axis, min(1800.0, p["depth"] - 100.0)):
        here = [(w, o, s) for w, o, s, low, high in all_things if low <= level <= high]
        for i, (w, o, s) in enumerate(here):
            for w2, o2, s2 in here[i + 1 :]:
                if not may_meet((w, o), (w2, o2)) and s.intersection(s2).area > AREA:
                    found.add((round(level), *sorted((w, w2))))
    return found


def main():
    if len(sys.argv) > 1 and Path(sys.argv[1]).is_file():
        text = Path(sys.argv[1]).read_text()
    else:
        text = subprocess.run(["cargo", "run", "--quiet", "--example", "peer_clear"], cwd=ROOT, check=True, capture_output=True, text=True).stdout
    pits = json.loads(text)
    assert len(pits) == 300, len(pits)
    seen = passing = crossed = 0
    for p in pits:
        met = meetings(p)
        assert not (p["passes"] and met), f"pit {p['seed']}: the rule passes, but {sorted(met)}"
        passing += p["passes"]
        seen += bool(met)
        # Wherever the stair runs past the foot shaft at its wall, the judge sees the planted fault itself.
        if p["planted"]:
            crossed += any({"shaft", "way"} <= set(m[1:]) or {"shaft", "landing"} <= set(m[1:]) for m in met)
        if p["panel"] and p["passes"]:
            assert len(p["hoists"]) == p["elevators"], f"pit {p['seed']}: {len(p['hoists'])} places for a hoist"
        for h in p["hoists"]:
            f = p["floor"]
            assert f[0] - 1 <= h[0] and h[2] <= f[2] + 1 and f[1] - 1 <= h[1] and h[3] <= f[3] + 1, f"pit {p['seed']}: the hoist stands in the wall"
    unplanted = sum(1 for p in pits if not p["planted"])
    failing = [p["seed"] for p in pits if not p["planted"] and not p["passes"]]
    assert crossed >= 30, f"only {crossed} planted stairs seen in the way of a shaft"
    print(f"300 pits at 3 levels: {passing} pass the rule and nothing meets in them; {crossed} planted stairs cross a shaft; {seen} have something that meets")
    print(f"of {unplanted} pits without a planted fault {len(failing)} do not pass: {failing[:20]}")


if __name__ == "__main__":
    main()
