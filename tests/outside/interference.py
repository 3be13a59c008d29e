#!/usr/bin/env python3
"""Judges the proof that nothing overlaps by OCP's booleans: interference.py [COUNT [FIRST]]

`peer_overlaps` writes three STEP files of every starter (or of COUNT random specs from a seed on): take-up at its lowest, half way up with the
shafts turned (NAME_middle), at its highest (NAME_highest); and beside each a NAME.json: `shares`, the pairs of bodies of which the program says
that they share space there, allowed or not, each with how `deep` (mm). OCP reads the file and takes the common solid of every pair of pieces whose boxes meet; pieces of
one pair of bodies whose boxes meet alike are asked once. What is thicker than TOUCH in the mean (twice its volume over its
surface) must be in the list, and what is in the list must have a common solid. Before that a body is moved by 2 mm into its
neighbour in the file: OCP must see it and the list must lack it.
Prints one line a finding and 'N findings in M files, P pairs asked' last; exit 1 if there are any.
"""

import json
import re
import subprocess
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

from OCP.Bnd import Bnd_Box
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.IFSelect import IFSelect_RetDone
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopLoc import TopLoc_Location
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from step_bodies import TDF_LabelSequence, children, measured, name_of, static

# Thinner than this is a touch, mm: the program's own, and a tenth for what a mean is less than a depth.
TOUCH = 0.055
# Less is nothing, mm³.
NOTHING = 1e-3


def pieces_of(label, at, out):
    """Every piece with its body's name, where it stands."""
    for child in children(label):
        where = at.Multiplied(static(XCAFDoc_ShapeTool, "GetLocation")(child))
        whole = TDF_Label()
        static(XCAFDoc_ShapeTool, "GetReferredShape")(child, whole)
        if static(XCAFDoc_ShapeTool, "IsAssembly")(whole):
            pieces_of(whole, where, out)
        else:
            out.append((name_of(whole), static(XCAFDoc_ShapeTool, "GetShape")(whole).Moved(where)))


def read(path):
    doc = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    if reader.ReadFile(str(path)) != IFSelect_RetDone or not reader.Transfer(doc):
        raise SystemExit(f"{path.name} cannot be read")
    tops = TDF_LabelSequence()
    static(XCAFDoc_DocumentTool, "ShapeTool")(doc.Main()).GetFreeShapes(tops)
    out = []
    for i in range(tops.Length()):
        pieces_of(tops.Value(i + 1), TopLoc_Location(), out)
    return out


def box_of(shape):
    box = Bnd_Box()
    static(BRepBndLib, "AddOptimal")(shape, box, False, False)
    low, high = box.CornerMin(), box.CornerMax()
    return (low.X(), low.Y(), low.Z()), (high.X(), high.Y(), high.Z())


def meeting(pieces, known):
    """Pairs whose boxes have more than a touch in common: by names the pieces, the like ones once; but for those that stand to each
    other as in `known`, a position of the same machine that was judged before, to which these are added."""
    boxes = [box_of(shape) for _, shape in pieces]
    order = sorted(range(len(pieces)), key=lambda i: boxes[i][0][0])
    open_, out = [], defaultdict(dict)
    for i in order:
        open_ = [j for j in open_ if boxes[j][1][0] > boxes[i][0][0]]
        for j in open_:
            low = [max(a, b) for a, b in zip(boxes[i][0], boxes[j][0])]
            high = [min(a, b) for a, b in zip(boxes[i][1], boxes[j][1])]
            size = [h - l for l, h in zip(low, high)]
            if min(size) > TOUCH:
                names = tuple(sorted((pieces[i][0], pieces[j][0])))
                first, second = sorted((i, j), key=lambda k: (pieces[k][0], boxes[k]))
                stand = (names, *(round(b - a, 2) for at in (0, 1) for a, b in zip(boxes[first][0], boxes[second][at])))
                if stand in known:
                    continue
                known.add(stand)
                out[names].setdefault(tuple(round(s, 2) for s in sorted(size)), (i, j))
        open_.append(i)
    return {names: list(alike.values()) for names, alike in out.items()}


def common(one, other):
    """Volume and mean thickness of what two shapes share."""
    boolean = BRepAlgoAPI_Common(one, other)
    if not boolean.IsDone():
        return 0.0, 0.0
    volume, surface, _ = measured(boolean.Shape())
    return volume, 2 * volume / surface if surface > 0 else 0.0


def judge(path, known=None):
    """Findings, and how many pairs were asked; those of `known` were asked before."""
    again, known = bool(known), set() if known is None else known
    said = {tuple(sorted(s["names"])): s["deep"] for s in json.loads(path.with_suffix(".json").read_text())["shares"]}
    pieces = read(path)
    out, asked, seen = [], 0, set()
    for names, pairs in meeting(pieces, known).items():
        # Many like bolts on one plate: the first, the last and some between tell.
        step = max(1, len(pairs) // 12)
        for i, j in pairs if names in said else pairs[::step]:
            asked += 1
            volume, thick = common(pieces[i][1], pieces[j][1])
            if volume > NOTHING:
                seen.add(names)
            if thick > TOUCH and names not in said:
                out.append(f"{names[0]} and {names[1]} share {volume:.1f} mm³, {thick:.2f} mm thick, and are not found")
                break
            if names in seen and names in said:
                break
    # What was asked in another position is not asked for here again.
    out += [] if again else [f"{a} and {b} are said to share {deep:.2f} mm and do not" for (a, b), deep in said.items() if (a, b) not in seen]
    return out, asked


def planted(path):
    """A body that stands 2 mm off its place in the file: what OCP must see and the list lacks."""
    text = path.read_text()
    at = re.search(r"ITEM_DEFINED_TRANSFORMATION\([^;]*?(#\d+)\s*\)\s*;", text)
    moved = 0
    for match in list(re.finditer(r"ITEM_DEFINED_TRANSFORMATION\([^;]*?(#\d+)\s*\)\s*;", text))[:40]:
        placed = re.search(rf"(?m)^\s*{match.group(1)}\s*=\s*AXIS2_PLACEMENT_3D\('[^']*',(#\d+)", text)
        point = placed and re.search(rf"(?m)^\s*{placed.group(1)}\s*=\s*CARTESIAN_POINT\('[^']*',\(([^)]*)\)\)", text)
        if not point:
            continue
        numbers = [float(n) + 2.0 for n in point.group(1).split(",")]
        text = text[: point.start(1)] + ",".join(f"{n:.9f}" for n in numbers) + text[point.end(1) :]
        moved += 1
        break
    other = path.with_name("planted.step")
    other.write_text(text)
    other.with_suffix(".json").write_text(path.with_suffix(".json").read_text())
    found = judge(other)[0] if at and moved else []
    other.unlink()
    other.with_suffix(".json").unlink()
    return [] if found else ["a body 2 mm off its place is not found"]


def main():
    root = Path(__file__).resolve().parents[2]
    count, first = ([int(a) for a in sys.argv[1:]] + [0, 0][len(sys.argv) - 1 :])[:2]
    total = asked = 0
    with tempfile.TemporaryDirectory() as folder:
        command = ["cargo", "run", "--quiet", "--locked", "--example", "peer_overlaps", "--", folder]
        subprocess.run(command if not count else [*command, str(first), str(count)], cwd=root, check=True)
        files = sorted(Path(folder).glob("*.step"))
        faults = planted(min(files, key=lambda p: p.stat().st_size))
        asked_before = {}
        for path in files:
            # Turned shafts have the same boxes and other edges: that position is asked all over.
            known = asked_before.setdefault(path.stem.replace("_highest", ""), set())
            found, pairs = judge(path, set() if path.stem.endswith("_middle") else known)
            asked += pairs
            for finding in found:
                print(f"{path.name}: {finding}", flush=True)
            total += len(found)
    print("\n".join(faults) + "\n" if faults else "", end="")
    total += len(faults)
    print(f"{total} findings in {len(files)} files, {asked} pairs asked")
    sys.exit(1 if total or not files else 0)


if __name__ == "__main__":
    main()
