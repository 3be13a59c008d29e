#!/usr/bin/env python3
"""Are the sheets of random valid specs fit to be handed out? random_sheets.py FIRST COUNT [--keep FOLDER]

Draws COUNT specs from seed FIRST on with the example `peer_sheets` (build it first: cargo build --example peer_sheets)
in two processes and judges every sheet from its DXF, never from the program's own opinion:

- ezdxf opens it with 0 errors and 0 fixes; every entity by layer, on a declared layer, none on layer 0
- every DIMENSION has ink and its number is what is measured, in mm, decimal inches or feet and fractions;
  `n x pitch = total` multiplies out
- no text on text (0.1 mm2), no text crossed by a line (0.5 mm of it) or standing on hatching
- no text stands on its head; all ink of the drawing inside the frame
- every length of the spec: a DIMENSION of that measure is on some sheet of the set, or it is stated in words (then
  the words stand there), or the program lists it as not shown with its reason
- the program itself reports no ink defect

Widths of texts: glyph outlines of DejaVu Sans as matplotlib brings it; the condensed cut is nine tenths as wide.
Needs: pip ezdxf==1.4.5 matplotlib shapely numpy. Prints findings, seconds a spec, then 'N findings'; exit 1 if any.
"""

import json
import math
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections import Counter
from fractions import Fraction
from functools import lru_cache
from multiprocessing import Pool
from pathlib import Path

import ezdxf
from ezdxf.path import make_path
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.ft2font import LoadFlags
from shapely import STRtree
from shapely.affinity import rotate, translate
from shapely.geometry import LineString, MultiPoint, Polygon, box

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = ROOT / "target/debug/examples/peer_sheets"
# Paper mm: texts share this area before it counts, a line runs this far inside a box made smaller by this.
SHARED, CROSSING, SHRINK = 0.1, 0.5, 0.15
CAP = 729.0  # cap height of DejaVu Sans, thousandths of an em
CONDENSED = 0.9
SYMBOLS = {"%%c": "Ø", "%%d": "°", "%%p": "±", "%%%": "%"}


def plain(text):
    return re.sub("%%[cCdDpP%]", lambda m: SYMBOLS[m[0].lower()], text)


@lru_cache(maxsize=None)
def face(bold):
    font = get_font(findfont(FontProperties(family="DejaVu Sans", weight="bold" if bold else "normal")))
    font.set_size(1000, 72)
    return font


@lru_cache(maxsize=None)
def glyph_of(char, bold):
    """Advance, left bearing and right bearing of a character, thousandths of an em."""
    glyph = face(bold).load_char(ord(char), flags=LoadFlags.NO_HINTING)
    advance = glyph.linearHoriAdvance / 65536
    left = glyph.horiBearingX / 64
    return advance, left, advance - left - glyph.width / 64


def width_of(text, bold):
    """Ink width at a cap height of 1, letters set by their advance without kerning."""
    glyphs = [glyph_of(c, bold) for c in text.strip()]
    return (sum(g[0] for g in glyphs) - glyphs[0][1] - glyphs[-1][2]) / CAP * CONDENSED


def text_box(e, doc):
    """Oriented box of a TEXT from base line to cap height."""
    words = plain(e.dxf.text)
    if not words.strip():
        return None
    style = doc.styles.get(e.dxf.style)
    h = e.dxf.height
    w = width_of(words, "bold" in style.dxf.font.lower()) * h
    align, p, _ = e.get_placement()
    name = align.name
    x0 = -w if "RIGHT" in name else (-w / 2 if "CENTER" in name or name == "MIDDLE" else 0.0)
    y0 = -h if "TOP" in name else (-h / 2 if "MIDDLE" in name else 0.0)
    return translate(rotate(box(x0, y0, x0 + w, y0 + h), e.dxf.rotation, origin=(0, 0)), p.x, p.y), words


def strokes(e, step):
    kind = e.dxftype()
    if kind == "LINE":
        return [LineString([e.dxf.start.vec2, e.dxf.end.vec2])]
    if kind in ("LWPOLYLINE", "ARC", "CIRCLE"):
        return [LineString([p.vec2 for p in make_path(e).flattening(step)])]
    return []


def fills(e, step):
    """Areas of a HATCH or SOLID."""
    if e.dxftype() == "SOLID":
        return [MultiPoint([v.vec2 for v in e.vertices()]).convex_hull]
    if e.dxftype() != "HATCH":
        return []
    from ezdxf.render.hatching import hatch_boundary_paths

    rings = [Polygon([p.vec2 for p in path.flattening(step)]) for path in hatch_boundary_paths(e) if len(path) > 2]
    area = Polygon()
    for ring in rings:
        area = area.symmetric_difference(ring.buffer(0))
    return [area]


def numbers_of(text):
    """Numbers of a dimension text as written, with the rounding they may carry: [(value, tolerance)].

    Digits beyond the sheet's own are printed only so that a chain adds up; where digits alone cannot do that, they are
    distances of rounded ends and may be one unit of that extra digit off.
    """
    text = text.strip("()[] ").replace(",", ".")
    out = []
    feet = re.compile(r"(?:(\d+)'-?)?\s*(?:(\d+(?:\.\d+)?)(?![\d/.]))?\s*(?:(\d+)/(\d+))?\"|(\d+)'")
    if '"' in text or "'" in text:
        for m in feet.finditer(text):
            if m[5] is not None:
                out.append((12.0 * int(m[5]), 0.51 / 16))
                continue
            value = 12 * int(m[1] or 0) + float(m[2] or 0) + float(Fraction(int(m[3]), int(m[4])) if m[3] else 0)
            tail = m[2].split(".")[1] if m[2] and "." in m[2] else None
            out.append((value, (1.01 if len(tail) > 2 else 0.51) * 10 ** -len(tail) if tail else 0.51 / 16))
        return out
    for n in re.findall(r"\d+(?:\.\d+)?", text):
        digits = len(n.split(".")[1]) if "." in n else 0
        out.append((float(n), (1.01 if digits > 1 else 0.51) * 10**-digits))
    return out


def judge_dimension(e, doc, found):
    block = doc.blocks.get(e.dxf.get("geometry", ""))
    if not block:
        found.append(f"DIMENSION #{e.dxf.handle} has no ink")
        return None
    angular = e.dimtype in (2, 5)
    measured = abs(e.get_measurement()) * (1 if angular else e.override().get("dimlfac", 1.0) or 1.0)
    shown = " ".join(plain(t.dxf.text) for t in block.query("TEXT"))
    lead = re.sub(r"^\d+ (?:× (?=[ØR□])|(?:equal|gleich) = )", "", shown)
    sum_of = re.search(r"(\d+) × (.+?) = (.+)", lead)
    values = numbers_of(sum_of[3] if sum_of else lead)
    if not values:
        found.append(f"dimension {shown!r} shows no number")
    elif abs(values[0][0] - measured) > values[0][1]:
        found.append(f"dimension {shown!r} measures {measured:.4f}")
    if sum_of and values:
        pitch, tol = (numbers_of(sum_of[2]) or [(0.0, 0.0)])[0]
        if abs(int(sum_of[1]) * pitch - values[0][0]) > int(sum_of[1]) * tol + values[0][1]:
            found.append(f"dimension {shown!r} does not multiply out")
    return None if angular else measured


def judge_sheet(path):
    """Findings, measured lengths in mm and all texts of a sheet."""
    found, lengths, words = [], [], []
    try:
        doc = ezdxf.readfile(path)
    except Exception as error:  # whatever it is, the file did not open
        return [f"does not open: {error!r}"], [], []
    audit = doc.audit()
    found += [f"ezdxf error {e.code}: {e.message}" for e in audit.errors] + [f"ezdxf fix {e.code}: {e.message}" for e in audit.fixes]
    k = float(doc.header["$DIMSCALE"])
    unit_mm = {1: 25.4, 4: 1.0}[doc.header["$INSUNITS"]]
    texts, lines, areas = [], [], []
    for e in doc.modelspace():
        if e.dxf.layer == "0" or not doc.layers.has_entry(e.dxf.layer):
            found.append(f"{e.dxftype()} #{e.dxf.handle} lies on layer {e.dxf.layer}")
        if e.dxf.get("color", 256) != 256 or e.dxf.get("linetype", "BYLAYER").upper() != "BYLAYER":
            found.append(f"{e.dxftype()} #{e.dxf.handle} is not by layer")
        parts = [e]
        if e.dxftype() == "DIMENSION":
            measured = judge_dimension(e, doc, found)
            if measured is not None:
                lengths.append(measured * unit_mm)
            parts = list(doc.blocks.get(e.dxf.get("geometry", "")) or [])
        elif e.dxftype() == "INSERT":
            parts = list(e.virtual_entities())
        for p in parts:
            if p.dxftype() == "TEXT":
                boxed = text_box(p, doc)
                if boxed:
                    texts.append(boxed)
                    words.append(boxed[1])
                    turned = p.dxf.rotation % 360
                    if 90.5 < turned < 269.5:
                        found.append(f"text {boxed[1]!r} stands on its head ({turned:.0f} degrees)")
            elif p.dxftype() == "MTEXT":
                found.append(f"MTEXT {p.text!r} is not measured by this judge")
            else:
                lines += [(s, p.dxf.layer) for s in strokes(p, 0.05 * k) if s.length > 0]
                areas += [a for a in fills(p, 0.05 * k) if not a.is_empty]
    found += conflicts(texts, lines, areas, k)
    found += outside(texts, lines, k)
    return found, lengths, words


def conflicts(texts, lines, areas, k):
    found = []
    boxes = [b for b, _ in texts]
    tree = STRtree(boxes)
    for i, (b, t) in enumerate(texts):
        for j in tree.query(b):
            if j > i and b.intersection(boxes[j]).area > SHARED * k * k:
                found.append(f"text {t!r} lies on text {texts[j][1]!r}")
    strokes_tree = STRtree([s for s, _ in lines])
    areas_tree = STRtree(areas)
    for b, t in texts:
        core = b.buffer(-SHRINK * k)
        if core.is_empty:
            continue
        crossed = Counter()
        for j in strokes_tree.query(core):
            crossed[lines[j][1]] += lines[j][0].intersection(core).length
        if sum(crossed.values()) > CROSSING * k:
            found.append(f"text {t!r} is crossed by lines on {', '.join(sorted(n for n, v in crossed.items() if v > 0))} at {place(b, k)}")
        if any(areas[j].intersection(core).area > SHARED * k * k for j in areas_tree.query(core)):
            found.append(f"text {t!r} stands on a filled or hatched area at {place(b, k)}")
    return found


def place(b, k):
    return f"({b.centroid.x / k:.0f}, {b.centroid.y / k:.0f}) mm"


def outside(texts, lines, k):
    """Ink of the drawing that leaves the frame; the border of the sheet itself has grid marks outside it."""
    border = max((s for s, layer in lines if layer == "FRAME" and s.is_ring), key=lambda s: Polygon(s).area, default=None)
    rings = sorted((Polygon(s) for s, layer in lines if layer == "FRAME" and s.is_ring), key=lambda p: p.area)
    if border is None:
        return ["the sheet has no frame"]
    frame = rings[-1]
    room = box(*frame.bounds).buffer(0.01 * k)
    found = []
    for s, layer in lines:
        if not room.covers(s) and layer not in ("FRAME", "TABLE"):
            found.append(f"a line on {layer} leaves the frame at {place(s, k)}")
    # Letters and figures of the grid stand in the border, one character each.
    found += [f"text {t!r} leaves the frame" for b, t in texts if not room.covers(b) and len(t) > 2]
    return found


def judge_lengths(report, lengths, words):
    found, joined = [], "\n".join(words)
    for line in report["lengths"]:
        path, mm, detail = line["path"], line["mm"], line["detail"]
        if line["state"] == "missing":
            found.append(f"{path} = {mm} mm is on no sheet")
        elif line["state"] == "stated" and not re.search(rf"(?<![\d.,]){re.escape(plain(detail))}(?![\d.,]\d)", joined):
            found.append(f"{path} = {mm} mm: the words {detail!r} stand on no sheet")
        elif line["state"] == "dimensioned":
            wanted = detail["value"] if detail["built_larger"] and detail["value"] > mm else mm
            if not any(math.isclose(v, wanted, abs_tol=0.06) for v in lengths):
                found.append(f"{path} = {wanted} mm: no DIMENSION measures it")
    return found


def judge(task):
    seed, keep = task
    folder = Path(keep or tempfile.mkdtemp())
    began = time.monotonic()
    try:
        run = subprocess.run([str(PROGRAM), str(seed), "1", str(folder)], capture_output=True, text=True)
        drawn = time.monotonic() - began
        if run.returncode != 0:
            return seed, [f"seed {seed}: the program ended with {run.returncode}: {run.stderr[-400:]}"], 0, drawn, drawn
        report = json.loads(run.stdout)
        if "error" in report:
            return seed, [f"seed {seed}: {report['error'][:400]}"], 0, drawn, drawn
        found = [f"seed {seed}, own ink check: {d}" for d in report["defects"]]
        lengths, words = [], []
        for sheet in report["sheets"]:
            more, measured, texts = judge_sheet(folder / str(seed) / f"{sheet['id']}.dxf")
            found += [f"seed {seed}, {sheet['id']} ({sheet['size']}): {m}" for m in more]
            lengths += measured
            words += texts
        found += [f"seed {seed}: {m}" for m in judge_lengths(report, lengths, words)]
        return seed, found, len(report["sheets"]), drawn, time.monotonic() - began
    finally:
        if keep is None:
            shutil.rmtree(folder, ignore_errors=True)


def main(arguments):
    keep = None
    if "--keep" in arguments:
        at = arguments.index("--keep")
        keep = arguments[at + 1]
        del arguments[at : at + 2]
    first, count = int(arguments[0]), int(arguments[1])
    total, sheets, began, drawn, taken = 0, 0, time.monotonic(), 0.0, 0.0
    with Pool(2) as pool:
        for _, found, n, d, t in pool.imap(judge, [(seed, keep) for seed in range(first, first + count)]):
            for line in found:
                print(line, flush=True)
            total += len(found)
            sheets += n
            drawn += d
            taken += t
    print(f"{count} specs, {sheets} sheets; {drawn / count:.1f} s a spec to draw, {(taken - drawn) / count:.1f} s to judge; {time.monotonic() - began:.0f} s in all")
    print(f"{total} findings")
    return 1 if total else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
