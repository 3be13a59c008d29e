"""Which way the faces of a STEP file point, from its text alone: readers turn faces that point inward over without a word.

In: the text of a file (ISO 10303-21). Out: findings. Bounds run counter-clockwise seen from where the face points (ISO
10303-42), so the area that they enclose on the surface, in its own sense, tells which way the face points: on a plane by its
x and y, on a cylinder or cone by angle and height. A plane's area must not be negative when its sense is forward, and so on. Every edge
of a shell is used once forward and once reversed. Faces of other
surfaces, or with other edges than lines and circles, are counted, not judged.
"""

import math
import re
from collections import Counter, defaultdict

import numpy as np

ENTITY = re.compile(r"#(\d+)\s*=\s*([A-Z_0-9]+)\s*\((.*?)\)\s*;", re.S)
ROUND = ("CYLINDRICAL_SURFACE", "CONICAL_SURFACE")


class File:
    def __init__(self, text):
        self.all = {int(number): (kind, args) for number, kind, args in ENTITY.findall(text)}

    def kind(self, number):
        """Of an entity; COMPLEX for one of several kinds at once."""
        return self.all.get(number, ("COMPLEX",))[0]

    def refs(self, number):
        return [int(n) for n in re.findall(r"#(\d+)", self.all[number][1])]

    def numbers(self, number):
        """Figures after the references and names of an entity."""
        return [float(n) for n in re.findall(r"(?<![#\w])[-+]?\d+\.\d*(?:E[-+]?\d+)?", self.all[number][1])]

    def forward(self, number):
        return self.all[number][1].rstrip().endswith(".T.")

    def frame(self, number):
        """Origin, axis, x and y of a placement."""
        origin, axis, x = (np.array(self.numbers(n)) for n in self.refs(number))
        return origin, axis, x, np.cross(axis, x)

    def point(self, vertex):
        return np.array(self.numbers(self.refs(vertex)[0]))

    def edge(self, number):
        """Ends of an edge as it runs; centre, axis and turn of an arc, None of a straight one."""
        first, last, curve = self.refs(number)
        a, b = self.point(first), self.point(last)
        arc = None
        if self.all[curve][0] == "CIRCLE":
            origin, axis, x, y = self.frame(self.refs(curve)[0])
            angle = lambda p: math.atan2((p - origin) @ y, (p - origin) @ x)
            turn = 2 * math.pi if first == last else (angle(b) - angle(a)) % (2 * math.pi)
            arc = (origin, axis, turn)
        return (a, b, arc) if self.forward(number) else (b, a, arc and (arc[0], -arc[1], arc[2]))

    def uses(self, bound):
        """Edges of a bound in its order: number, whether forward."""
        loop = self.refs(bound)[0]
        oriented = self.refs(loop) if self.forward(bound) else self.refs(loop)[::-1]
        return [(self.refs(o)[-1], self.forward(o) == self.forward(bound)) for o in oriented]


def run(file, use):
    number, forward = use
    a, b, arc = file.edge(number)
    return (a, b, arc) if forward else (b, a, arc and (arc[0], -arc[1], arc[2]))


def on_plane(file, bounds, frame):
    """Area that bounds enclose on a plane, mm2."""
    origin, axis, _, _ = frame
    area = 0.0
    for use in bounds:
        a, b, arc = run(file, use)
        area += np.cross(a - origin, b - origin) @ axis / 2
        if arc:
            centre, own, turn = arc
            r = np.linalg.norm(a - centre)
            area += math.copysign(1, own @ axis) * r * r * (turn - math.sin(turn)) / 2
    return area


def on_round(file, bounds, frame):
    """Area that bounds enclose on a round surface by angle and height: the counter-clockwise sense is seen from outside."""
    origin, axis, _, _ = frame
    area = 0.0
    for use in bounds:
        a, _, arc = run(file, use)
        if arc:
            centre, own, turn = arc
            area -= math.copysign(1, own @ axis) * turn * ((centre - origin) @ axis)
    return area


def faces(text):
    """Findings, faces judged and faces of other surfaces."""
    file, out, judged, others = File(text), [], 0, Counter()
    names = {file.refs(n)[0]: args.split("'")[1] for n, (kind, args) in file.all.items() if kind == "MANIFOLD_SOLID_BREP"}
    for shell, name in names.items():
        used = defaultdict(list)
        for face in file.refs(shell):
            *bounds, surface = file.refs(face)
            kind = file.kind(surface)
            uses = [use for bound in bounds for use in file.uses(bound)]
            curves = {file.kind(file.refs(number)[-1]) for number, _ in uses} - {"LINE", "CIRCLE"}
            for number, forward in uses:
                used[number].append(forward)
            if curves:
                others[min(curves)] += 1
                continue
            if kind == "PLANE":
                area = on_plane(file, uses, file.frame(file.refs(surface)[0]))
            elif kind in ROUND:
                area = on_round(file, uses, file.frame(file.refs(surface)[0]))
            else:
                others[kind] += 1
                continue
            judged += 1
            if (area > 0) != file.forward(face):
                out.append(f"{name}: face #{face} ({kind.lower()}) points inward")
        if any(sorted(directions) != [False, True] for directions in used.values()):
            out.append(f"{name}: an edge is not used once forward and once reversed")
    return out, judged, others
