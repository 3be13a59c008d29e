#!/usr/bin/env python3
"""Judges the STEP files of all starters and of random specs: step_bodies.py [COUNT [FIRST]]

`peer_bodies` writes each with a NAME.json beside it: a list of bodies, each with `name`, `id`, `material`, `volume_mm3`,
`surface_mm2`, `centroid` and `count` (pieces placed). OCP reads the file: every body is there under its name, defined once, as
one valid, closed solid, its volume and surface the same to 1e-6, its centroid to 1e-6 of its size; it is placed as often as it
says, by rigid right-handed placements, and every piece has a name that is its body's. Bodies of one material have one colour,
those of others another. All faces point outward (step_faces.py: OCP turns those that do not over and says nothing).
Before that a face of one body is turned over, a piece taken away, a body's volume told wrong: each must be found.
Prints one line a finding and 'N findings in M files' last; exit 1 if there are any.
"""

import json
import re
import subprocess
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

import step_faces
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
from OCP.Quantity import Quantity_Color
from OCP.TopExp import TopExp_Explorer
from OCP.XCAFDoc import XCAFDoc_ColorTool, XCAFDoc_ColorType, XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

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


def colour_of(label, tool):
    """Red, green and blue of a part: of its shape or of its one solid."""
    found = Quantity_Color()
    shape = static(XCAFDoc_ShapeTool, "GetShape")(label)
    for at in [shape, *explored(shape, TopAbs_SOLID)]:
        for kind in (XCAFDoc_ColorType.XCAFDoc_ColorSurf, XCAFDoc_ColorType.XCAFDoc_ColorGen):
            if tool.GetColor(at, kind, found):
                return tuple(round(c, 4) for c in (found.Red(), found.Green(), found.Blue()))
    return None


def judge_colours(pieces, wanted, tool, out):
    by_material = defaultdict(set)
    for name, labels in pieces.items():
        colour = colour_of(labels[0], tool)
        if colour is None:
            out.append(f"{name}: no colour")
        elif name in wanted:
            by_material[wanted[name]["material"]].add(colour)
    colours = [c for found in by_material.values() for c in found]
    if any(len(found) > 1 for found in by_material.values()) or len(set(colours)) < len(by_material):
        out.append(f"colours do not tell the materials: {dict(by_material)}")


def judge(path):
    out = []
    doc = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.SetColorMode(True)
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
    judge_colours(pieces, wanted, static(XCAFDoc_DocumentTool, "ColorTool")(doc.Main()), out)
    text = path.read_text()
    inward, faces, others = step_faces.faces(text)
    out += inward
    if sum(others.values()) > faces / 20:
        out.append(f"only {faces} faces judged, not {dict(others)}")
    written = text.count("MANIFOLD_SOLID_BREP(")
    if written != len(wanted):
        out.append(f"{written} solids are written for {len(wanted)} bodies")
    for name, want in wanted.items():
        labels = pieces.get(name, [])
        if len(labels) != want["count"]:
            out.append(f"{name}: placed {len(labels)} times instead of {want['count']}")
        if labels:
            found = []
            judge_part(labels[0], want, found)
            out += [f"{name}: {f}" for f in found]
    return out


def planted(path):
    """Faults that must be found; those that are not."""
    out = []
    text, wanted = path.read_text(), json.loads(path.with_suffix(".json").read_text())
    faces = [m.start(1) for m in re.finditer(r"ADVANCED_FACE\([^;]*?\.([TF])\.\s*\)\s*;", text)]

    def found(what, text=text, wanted=wanted):
        other = path.with_name("planted.step")
        other.write_text(text)
        other.with_suffix(".json").write_text(json.dumps(wanted))
        if not judge(other):
            out.append(f"{what} is not found")
        other.unlink()
        other.with_suffix(".json").unlink()

    at = faces[len(faces) // 2]
    found("a face turned over", text=text[:at] + ("F" if text[at] == "T" else "T") + text[at + 1 :])
    found("a piece too few", wanted=[{**w, "count": w["count"] + (i == 0)} for i, w in enumerate(wanted)])
    found("a wrong volume", wanted=[{**w, "volume_mm3": w["volume_mm3"] * (1 + 3e-6 * (i == 0))} for i, w in enumerate(wanted)])
    found("a wrong name", wanted=[{**w, "name": w["name"] + ("s" if i == 0 else "")} for i, w in enumerate(wanted)])
    found("a wrong material", wanted=[{**w, "material": "Belt" if i == 0 else w["material"]} for i, w in enumerate(wanted)])
    return out


def main():
    root = Path(__file__).resolve().parents[2]
    count, first = ([int(a) for a in sys.argv[1:]] + [0, 0][len(sys.argv) - 1 :])[:2]
    total = bodies = 0
    with tempfile.TemporaryDirectory() as folder:
        command = ["cargo", "run", "--quiet", "--locked", "--example", "peer_bodies", "--", folder]
        subprocess.run(command, cwd=root, check=True)
        faults = planted(min(Path(folder).glob("*.step"), key=lambda p: p.stat().st_size))
        if count:
            subprocess.run([*command, str(first), str(count)], cwd=root, check=True)
        files = sorted(Path(folder).glob("*.step"))
        for path in files:
            bodies += len(json.loads(path.with_suffix(".json").read_text()))
            for finding in judge(path):
                print(f"{path.name}: {finding}", flush=True)
                total += 1
    print("\n".join(faults) + "\n" if faults else "", end="")
    total += len(faults)
    print(f"{total} findings in {len(files)} files with {bodies} bodies")
    sys.exit(1 if total or not files else 0)


if __name__ == "__main__":
    main()
