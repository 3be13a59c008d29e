#!/usr/bin/env python3
"""Judges the STEP files of all starters: step_bodies.py

`peer_bodies` writes each with a NAME.json beside it: a list of bodies, each with `name`, `id`, `volume_mm3`, `surface_mm2`,
`centroid` and `count` (pieces placed). OCP reads the file: every body is there under its name as one valid, closed solid, its
volume and surface the same to 1e-6, its centroid to 1e-6 of its size; it is placed as often as it says, by rigid
right-handed placements, and every piece has a name that is its body's.
Prints one line a finding and 'N findings in M files' last; exit 1 if there are any.
"""

import json
import subprocess
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

from OCP.BRep import BRep_Tool
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from OCP.IFSelect import IFSelect_RetDone
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_SHELL, TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

try:
    from OCP.collections import Sequence_TDF_Label as TDF_LabelSequence
except ImportError:  # before OCP 8
    from OCP.TDF import TDF_LabelSequence

NEAR = 1e-6


def static(owner, name):
    """A static method: its name ends in _s where an instance method has the same."""
    return getattr(owner, name + "_s", None) or getattr(owner, name)


def name_of(label):
    found = TDataStd_Name()
    return found.Get().ToExtString() if label.FindAttribute(static(TDataStd_Name, "GetID")(), found) else ""


def explored(shape, kind):
    at, out = TopExp_Explorer(shape, kind), []
    while at.More():
        out.append(at.Current())
        at.Next()
    return out


def measured(shape):
    """Volume, surface, centroid and the diagonal of the inertia's root, as a size."""
    solid, skin = GProp_GProps(), GProp_GProps()
    static(BRepGProp, "VolumeProperties")(shape, solid, 1e-9)
    static(BRepGProp, "SurfaceProperties")(shape, skin, 1e-9)
    c = solid.CentreOfMass()
    return solid.Mass(), skin.Mass(), (c.X(), c.Y(), c.Z())


def children(label):
    out = TDF_LabelSequence()
    static(XCAFDoc_ShapeTool, "GetComponents")(label, out, False)
    return [out.Value(i + 1) for i in range(out.Length())]


def walk(label, pieces, findings):
    """Counts what is placed under a label, part by part."""
    for child in children(label):
        if not name_of(child):
            findings.append("a piece has no name")
        trsf = static(XCAFDoc_ShapeTool, "GetLocation")(child).Transformation()
        if abs(trsf.ScaleFactor() - 1) > 1e-9 or trsf.IsNegative():
            findings.append(f"{name_of(child)}: not a rigid right-handed placement")
        whole = TDF_Label()
        if not static(XCAFDoc_ShapeTool, "GetReferredShape")(child, whole):
            findings.append(f"{name_of(child)}: a piece of nothing")
        elif static(XCAFDoc_ShapeTool, "IsAssembly")(whole):
            walk(whole, pieces, findings)
        else:
            if name_of(child) != name_of(whole):
                findings.append(f"{name_of(whole)}: a piece of it is called {name_of(child)}")
            pieces[name_of(whole)].append(whole)


def judge_part(label, want, findings):
    shape = static(XCAFDoc_ShapeTool, "GetShape")(label)
    solids = explored(shape, TopAbs_SOLID)
    if len(solids) != 1:
        findings.append(f"{len(solids)} solids instead of one")
    if not BRepCheck_Analyzer(shape, True).IsValid():
        findings.append("not valid")
    if not all(static(BRep_Tool, "IsClosed")(shell) for shell in explored(shape, TopAbs_SHELL)):
        findings.append("not closed")
    volume, surface, centre = measured(shape)
    for what, is_, wanted in [("volume", volume, want["volume_mm3"]), ("surface", surface, want.get("surface_mm2", surface))]:
        if abs(is_ / wanted - 1) > NEAR:
            findings.append(f"{what} {is_:.6g} instead of {wanted:.6g}")
    size = max(1.0, surface ** 0.5)
    if any(abs(a - b) > NEAR * size for a, b in zip(centre, want.get("centroid", centre))):
        findings.append(f"centroid {centre} instead of {want['centroid']}")


def judge(path):
    out = []
    doc = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    if reader.ReadFile(str(path)) != IFSelect_RetDone or not reader.Transfer(doc):
        return ["cannot be read"]
    shapes = static(XCAFDoc_DocumentTool, "ShapeTool")(doc.Main())
    tops = TDF_LabelSequence()
    shapes.GetFreeShapes(tops)
    if tops.Length() != 1:
        out.append(f"{tops.Length()} assemblies instead of one")
    pieces = defaultdict(list)
    for i in range(tops.Length()):
        walk(tops.Value(i + 1), pieces, out)
    wanted = {part["name"]: part for part in json.loads(path.with_suffix(".json").read_text())}
    out += [f"{name}: not asked for" for name in sorted(set(pieces) - set(wanted))]
    for name, want in wanted.items():
        labels = pieces.get(name, [])
        if len(labels) != want["count"]:
            out.append(f"{name}: placed {len(labels)} times instead of {want['count']}")
        if labels:
            found = []
            judge_part(labels[0], want, found)
            out += [f"{name}: {f}" for f in found]
    return out


def main():
    root = Path(__file__).resolve().parents[2]
    total = 0
    with tempfile.TemporaryDirectory() as folder:
        command = ["cargo", "run", "--quiet", "--locked", "--example", "peer_bodies", folder]
        subprocess.run(command, cwd=root, check=True)
        files = sorted(Path(folder).glob("*.step"))
        for path in files:
            for finding in judge(path):
                print(f"{path.name}: {finding}")
                total += 1
    print(f"{total} findings in {len(files)} files")
    sys.exit(1 if total or not files else 0)


if __name__ == "__main__":
    main()
