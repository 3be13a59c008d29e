#!/usr/bin/env python3
"""The 44 points that a drafter, a civil engineer and a fabricator ask of a set. scorecard.py FOLDER [--logs DIR] [--report FILE]

FOLDER holds one folder a spec, as `footwell draw --formats dxf,svg,pdf` wrote it. Every point is judged for every set from
the finished files alone; K marks a point that fails the set by itself. DIR holds what the other checks printed
(export_ink.log, export_pdf.log, export_dwg.log, export_readers.log, cut_files.log); a point that rests on one of them is 'no' when the log is
missing. Points that are not met are listed with their finding, never passed over.

Needs: pip ezdxf==1.4.5 matplotlib shapely numpy (and random_sheets.py beside this file).
Prints the card; exit 1 if any point is 'no'.
"""
import argparse
import csv
import json
import re
import sys
from collections import Counter, defaultdict
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import ezdxf
import ezdxf.bbox

import random_sheets

SCALES_MM = {"2:1", "5:1", "10:1", "20:1", "50:1", "1:1", "1:2", "1:5", "1:10", "1:20", "1:50", "1:100", "1:200"}
# Inch: full size and its halves, or inches to the foot (from memory of ASME Y14.1 and of building practice).
SCALES_INCH = {"2:1", "4:1", "1:1", "1:2", "1:4", "1:8"} | {f'{n} = 1\'-0"' for n in ('6"', '3"', '1 1/2"', '1"', '3/4"', '1/2"', '3/8"', '1/4"', '3/16"', '1/8"', '3/32"')}
# Cap heights of ISO 3098, and the smallest figures of the grid border.
HEIGHTS = {1.8, 2.5, 3.5, 5.0, 7.0, 10.0}
FIELDS = ["Owner", "Drawing number", "Date of issue", "Sheet", "Title", "Approved by", "Created by", "Document type", "Rev.", "Language"]


class Sheet:
    """One sheet as read from its DXF; lengths in paper mm unless said otherwise."""

    def __init__(self, path):
        self.path, self.id = path, path.stem
        self.doc = ezdxf.readfile(path)
        self.msp = self.doc.modelspace()
        self.k = float(self.doc.header["$DIMSCALE"])
        self.inch = self.doc.header["$INSUNITS"] == 1
        self.texts = [(random_sheets.plain(e.dxf.text), e.dxf.layer, e.dxf.insert.vec2 / self.k, e.dxf.height / self.k) for e in self.msp.query("TEXT")]
        self.words = [t for t, *_ in self.texts]
        self.joined = " ".join(self.words)
        self.dimensions = list(self.msp.query("DIMENSION"))
        self.found, _, _ = random_sheets.judge_sheet(path)

    def at(self, text):
        return next((p for t, _, p, _ in self.texts if t == text), None)

    def shown(self, dimension):
        return " ".join(random_sheets.plain(t.dxf.text) for t in self.doc.blocks.get(dimension.dxf.geometry).query("TEXT"))

    def linear(self):
        """Upright and level dimensions: (level?, place of the line, low end, high end, number shown, ends' places)."""
        for e in self.dimensions:
            if e.dimtype not in (0, 1) or round(e.dxf.get("angle", 0.0)) % 90:
                continue
            level = round(e.dxf.get("angle", 0.0)) % 180 == 0
            along, across = (0, 1) if level else (1, 0)
            ends = [v.vec2 / self.k for v in (e.dxf.defpoint2, e.dxf.defpoint3)]
            low, high = sorted(p[along] for p in ends)
            yield level, (e.dxf.defpoint.vec2 / self.k)[across], low, high, self.shown(e), [p[across] for p in ends]


class Set:
    def __init__(self, folder):
        self.folder, self.name = folder, folder.name
        self.sheets = {p.stem: Sheet(p) for p in sorted((folder / "sheets").glob("*.dxf"))}
        self.checks = json.loads((folder / "checks.json").read_text())
        self.results = {r["id"]: r for r in json.loads((folder / "results.json").read_text())}
        self.list = list(csv.DictReader((folder / "lists/parts_list.csv").open()))
        self.manifest = list(csv.DictReader((folder / "lists/cutting_manifest.csv").open()))
        self.words = " ".join(s.joined for s in self.sheets.values())
        self.inch = any(s.inch for s in self.sheets.values())

    def each(self, judge, sheets=None):
        """Joined complaints of a judge over sheets; empty if there is none."""
        said = [f"{s.id}: {c}" for s in (sheets or self.sheets.values()) for c in judge(s)]
        return said


def no(condition, complaint):
    return [] if condition else [complaint]


# Drafter


def d1(s):
    """both circles and the cone of the symbol on every sheet; the plan below the section in first angle, above it in third; the view from the up side left of the section in first angle, right of it in third"""

    def symbol(sheet):
        corner = sheet.at("Projection")
        rings = [e for e in sheet.msp.query("CIRCLE") if e.dxf.layer == "SYMBOL" and corner and (e.dxf.center.vec2 / sheet.k - corner).magnitude < 40]
        return no(len({round(e.dxf.radius / sheet.k, 2) for e in rings}) == 2, "no projection symbol")

    ga = s.sheets["ga"]
    section, plan, side = ga.at("SECTION A–A"), ga.at("PLAN"), ga.at("SIDE VIEW")
    cone, rings = cone_left_of_rings(ga)
    said = s.each(symbol)
    if section and plan and side and rings is not None:
        first = cone
        said += no((plan.y < section.y) == first, "ga: symbol and place of the plan disagree")
        # The up side lies on the right in all starters.
        said += no((side.x < section.x) == first, "ga: symbol and place of the side view disagree")
    else:
        said += ["ga: views or symbol not found"]
    return said


def cone_left_of_rings(sheet):
    """First angle: the cone stands left of its circles (ISO 5456-2, from memory)."""
    corner = sheet.at("Projection")
    rings = [e.dxf.center.vec2 / sheet.k for e in sheet.msp.query("CIRCLE") if e.dxf.layer == "SYMBOL" and (e.dxf.center.vec2 / sheet.k - corner).magnitude < 40]
    cones = [sum((v.vec2 / sheet.k for v in e.vertices_in_wcs()), start=rings[0] * 0) / len(e) for e in sheet.msp.query("LWPOLYLINE") if e.dxf.layer == "SYMBOL"] if rings else []
    cones = [c for c in cones if (c - corner).magnitude < 40]
    if not rings or not cones:
        return None, None
    return cones[0].x < rings[0].x, rings[0]


def d2(s):
    """every field of ISO 7200 stands in every title block"""
    return s.each(lambda sheet: [f"no field {f}" for f in FIELDS if f not in sheet.words])


def d3(s):
    """fields for scale, unit, general tolerances, material, mass, finish in every title block"""
    fields = ["Scale", "Unit", "General tolerances", "Material", "Mass", "Finish"]
    return s.each(lambda sheet: [f"no field {f}" for f in fields if f not in sheet.words])


def d4(s):
    """every scale written on a sheet is of ISO 5455 (inch sheets: halves, or inches to the foot)"""
    pattern = re.compile(r"^\d+:\d+$|^[\d /\"]+ = 1'-0\"$")
    allowed = SCALES_INCH if s.inch else SCALES_MM
    return s.each(lambda sheet: [f"scale {t}" for t in sheet.words if pattern.match(t) and t not in allowed])


def d5(s):
    """no text on another text, on a line or on hatching, by glyph widths of the font (random_sheets)"""
    return s.each(lambda sheet: [f for f in sheet.found if "lies on" in f or "crossed" in f or "filled" in f])


def d6(s):
    """no text turned beyond upright (random_sheets)"""
    return s.each(lambda sheet: [f for f in sheet.found if "on its head" in f])


def d7(s):
    """parallel dimension lines that overlap stand at least 7 mm apart"""

    def close(sheet):
        rows = list(sheet.linear())
        for i, (level, at, low, high, text, _) in enumerate(rows):
            for other in rows[i + 1 :]:
                gap = abs(at - other[1])
                if other[0] == level and 0.05 < gap < 6.95 and min(high, other[3]) - max(low, other[2]) > 0.05:
                    yield f"{text} and {other[4]} only {gap:.1f} mm apart"

    return s.each(close)


def d8(s):
    """of two chains on the same side of a view that nest, the shorter stands nearer the view; no extension line cuts a text (D5)"""

    def chains(sheet):
        """Dimensions that join end to end on one line: (level?, place, low end, high end, numbers, ends' places)."""
        on_line = defaultdict(list)
        for level, at, low, high, text, ends in sheet.linear():
            on_line[level, round(at, 2)].append((low, high, text, ends))
        for (level, at), parts in on_line.items():
            low, high, texts, ends = None, None, [], []
            for part in sorted(parts):
                if low is not None and part[0] > high + 0.02:
                    yield level, at, low, high, " ".join(texts), ends
                    low = None
                if low is None:
                    low, high, texts, ends = part[0], part[1], [], []
                high = max(high, part[1])
                texts.append(part[2])
                ends = ends + part[3]
            yield level, at, low, high, " ".join(texts), ends

    def wrong(sheet):
        rows = list(chains(sheet))
        for a in rows:
            for b in rows:
                inside = b[2] - 0.05 <= a[2] and a[3] <= b[3] + 0.05 and a[3] - a[2] < b[3] - b[2] - 0.05
                # Same strip: the same side of all measured points, and the lines near each other.
                above = all(x < min(a[1], b[1]) for x in a[5] + b[5])
                below = all(x > max(a[1], b[1]) for x in a[5] + b[5])
                if a[0] == b[0] and inside and (above or below) and abs(a[1] - b[1]) < 30:
                    if (above and a[1] > b[1] + 0.05) or (below and a[1] < b[1] - 0.05):
                        yield f"{a[4]} stands outside {b[4]}"

    return s.each(wrong)


def d9(s, logs):
    """number of every dimension = what ezdxf measures between its points; LibreDWG and ezdwg read the same measures (export_dwg)"""
    return s.each(lambda sheet: [f for f in sheet.found if f.startswith("dimension")]) + logs.clean("export_dwg")


def d10(s):
    """parts of a chain on one dimension line add up to the dimension over their ends, as printed"""

    def gaps(sheet):
        rows = [(r, random_sheets.numbers_of(r[4].rpartition("=")[2])) for r in sheet.linear()]
        rows = [(r, n[0][0]) for r, n in rows if n and not r[4].startswith("(")]
        for (over, total) in rows:
            on_line = defaultdict(list)
            for (r, n) in rows:
                if r is not over and r[0] == over[0] and r[2] >= over[2] - 0.02 and r[3] <= over[3] + 0.02:
                    on_line[round(r[1], 1)].append((r[2], r[3], n))
            for parts in on_line.values():
                parts.sort()
                joined = all(abs(a[1] - b[0]) < 0.001 for a, b in zip(parts, parts[1:]))
                if len(parts) > 1 and joined and abs(parts[0][0] - over[2]) < 0.001 and abs(parts[-1][1] - over[3]) < 0.001:
                    # Each printed number may be half a last digit off.
                    step = 1 / 16 if sheet.inch else 0.1
                    off = abs(sum(p[2] for p in parts) - total)
                    if off > step / 2 * (len(parts) + 1) + 1e-6:
                        yield f"{' + '.join(str(p[2]) for p in parts)} is not {total}"

    return s.each(gaps)


def d11(s):
    """every view with a hole table shows its origin; the tables give x and y from it"""
    tables = [sheet for sheet in s.sheets.values() if any(w.startswith("HOLE TABLE") for w in sheet.words)]

    def marked(sheet):
        rings = [e for e in sheet.msp.query("CIRCLE") if e.dxf.layer == "SYMBOL" and abs(e.dxf.radius / sheet.k - 2.0) < 0.01]
        corner = sheet.at("Projection")
        rings = [e for e in rings if (e.dxf.center.vec2 / sheet.k - corner).magnitude > 40]
        names = {re.sub(r" \(.*", "", w) for w in sheet.words if re.match(r"HOLE TABLE \d", w)}
        return no(len(rings) >= len(names), f"{len(names)} hole tables, {len(rings)} marked origins")

    return no(tables, "no hole table") + s.each(marked, tables)


def d12(s):
    """two line widths, 2:1 (the frame is 0.7 mm on all sheets, ISO 5457); dashes of every line type between 0.2 and 12 mm on paper"""

    def widths(sheet):
        seen = sorted({l.dxf.lineweight for l in sheet.doc.layers if l.dxf.lineweight > 0 and l.dxf.name != "FRAME"})
        yield from no(len(seen) == 2 and seen[1] == 2 * seen[0], f"line widths {seen}")
        # Line types are stretched by $LTSCALE = units for a mm of paper.
        yield from no(abs(sheet.doc.header["$LTSCALE"] - sheet.k) < 1e-6 * sheet.k, f"$LTSCALE {sheet.doc.header['$LTSCALE']} for {sheet.k} units a mm")
        for l in sheet.doc.linetypes:
            for tag in l.pattern_tags.tags:
                if tag.code == 49 and tag.value and not 0.2 <= abs(tag.value) <= 12:
                    yield f"line type {l.dxf.name} has a dash of {tag.value} mm"

    return s.each(widths)


def d13(s):
    """two centre lines cross in the middle of every drilled or cut hole that is drawn round (plates, casing)"""

    def bare(sheet):
        lines = [(e.dxf.start.vec2 / sheet.k, e.dxf.end.vec2 / sheet.k) for e in sheet.msp.query("LINE") if e.dxf.layer == "CENTRE"]
        lacking = 0
        for e in sheet.msp.query("CIRCLE"):
            if e.dxf.layer != "EDGE":
                continue
            c = e.dxf.center.vec2 / sheet.k
            through = sum(1 for a, b in lines if on_line(c, a, b))
            lacking += through < 2
        return no(not lacking, f"{lacking} holes without centre lines")

    plates = [sheet for key, sheet in s.sheets.items() if re.match(r"casing|plates", key)]
    return s.each(bare, plates)


def on_line(c, a, b):
    d = b - a
    if d.magnitude < 1e-9:
        return False
    t = (c - a).dot(d) / d.dot(d)
    return 0 <= t <= 1 and (a + d * t - c).magnitude < 0.02


def d14(s):
    """heights of capitals are those of ISO 3098: 1.8 (grid, small labels), 2.5, 3.5, 5, 7"""
    return s.each(lambda sheet: [f"text {h:.2f} mm high" for h in sorted({round(h, 2) for *_, h in sheet.texts}) if min(abs(h - w) for w in HEIGHTS) > 0.02])


def d15(s):
    """the letters of each section stand at the ends of its cutting line on the same set; cut material is hatched"""
    said = []
    for sheet in s.sheets.values():
        for t in sheet.words:
            m = re.match(r"SECTION ([A-Z])–\1$", t)
            if m:
                # The cutting line may stand on the sheet before, where the view is that the section cuts.
                ends = [1 for other in s.sheets.values() for t2, layer, *_ in other.texts if t2 == m[1] and layer not in ("FRAME", "TABLE")]
                said += no(len(ends) >= 2, f"{sheet.id}: section {m[1]} has {len(ends)} letters")
                said += no(any(e.dxf.layer == "CUT-PLANE" for other in s.sheets.values() for e in other.msp), f"{sheet.id}: no cutting line")
                said += no(any(e.dxf.layer == "HATCHING" for e in sheet.msp.query("HATCH")), f"{sheet.id}: nothing is hatched")
    return said


def d16(s):
    """ezdxf: 0 errors, 0 fixes; every dimension has its block with ink"""
    return s.each(lambda sheet: [f for f in sheet.found if f.startswith("ezdxf") or "has no ink" in f or "does not open" in f])


def d17(s):
    """every entity by layer on a declared layer, none on layer 0; unit set"""
    said = s.each(lambda sheet: [f for f in sheet.found if "lies on layer" in f or "not by layer" in f])
    return said + s.each(lambda sheet: no(sheet.doc.header["$INSUNITS"] == (1 if s.inch else 4), f"$INSUNITS {sheet.doc.header['$INSUNITS']}"))


def d18(s, logs):
    """99 % of the ink of DXF and SVG the same, both ways, at 150 dots an inch (export_ink)"""
    return logs.clean("export_ink", s.name)


def d19(s, logs):
    """width and height of the SVG in mm are a standard sheet's; pages of the PDF are as large (export_pdf)"""
    sizes = {(210, 297), (420, 297), (594, 420), (841, 594), (1189, 841)} | {(8.5, 11), (17, 11), (22, 17), (34, 22), (44, 34)}
    said = []
    for path in sorted((s.folder / "sheets").glob("*.svg")):
        head = path.read_text()[:400]
        w, h = (float(re.search(rf'{side}="([\d.]+)mm"', head)[1]) for side in ("width", "height"))
        box = [float(v) for v in re.search(r'viewBox="([^"]+)"', head)[1].split()]
        said += no((w, h) in sizes or (round(w / 25.4, 3), round(h / 25.4, 3)) in sizes, f"{path.name} is {w} × {h}")
        said += no(box == [0, 0, w, h], f"{path.name}: view box {box} is not the sheet")
    return said + logs.clean("export_pdf", s.name)


# Civil engineer


def level_texts(s, sheet):
    pattern = r"^[±+−-]\d+'-\d" if s.inch else r"^[±+−-]\d+[.,]\d{3}(\s|$)"
    return [(t, p) for t, layer, p, _ in sheet.texts if layer == "SYMBOL" and re.match(pattern, t)]


def length_mm(s, words):
    values = random_sheets.numbers_of(words)
    return values[0][0] * (25.4 if s.inch else 1.0) if values else None


def c1(s):
    """dimensions of clear length, width and depth stand on the pit sheet; the setting-out point is named; dimensions run from the machine's axis"""
    pit = s.sheets["pit"]
    shown = [length_mm(s, r[4]) for r in pit.linear()]
    said = []
    for what in ("pit.length", "pit.width"):
        want = s.results[what]["value"] * {"m": 1000, "mm": 1}[s.results[what]["unit"]]
        said += no(any(v is not None and abs(v - want) < (0.9 if s.inch else 0.06) for v in shown), f"{what} {want:.1f} mm has no dimension")
    floor = next((length_mm(s, t.lstrip("±+−-")) for t, _ in level_texts(s, pit) if "pit floor" in t), None)
    if floor is not None and not s.inch:
        floor *= 1000  # levels are in metres
    deep = any(v is not None and floor and abs(v - floor) < (0.9 if s.inch else 0.6) for v in shown)
    said += no(deep, f"pit depth {floor} mm has no dimension")
    return said + no("setting-out point" in pit.joined, "no setting-out point") + no(any(e.dxf.layer == "CENTRE" for e in pit.msp), "no axes")


def c2(s):
    """levels of plant floor, pit floor, sump, foot shaft and each inlet's sill on the pit sheet"""
    words = " ".join(t for t, _ in level_texts(s, s.sheets["pit"]))
    wanted = ["plant floor", "pit floor", "foot shaft", "sill"] + (["sump"] if re.search(r"sump \d\S* ×", s.sheets["pit"].joined) else [])
    return [f"no level of {w}" for w in wanted if w not in words]


def c3(s):
    """every level: sign, metres with three decimals (feet and inches on inch sheets), a drawn triangle beside it"""
    pit = s.sheets["pit"]
    signs = [e for e in pit.msp if e.dxf.layer == "SYMBOL" and e.dxftype() in ("LWPOLYLINE", "HATCH", "SOLID")]
    levels = level_texts(s, pit)
    return no(levels, "no levels") + no(len(signs) >= len(levels), f"{len(levels)} levels, {len(signs)} symbols")


def c4(s):
    """load table with a row for each case and a column for each support, unfactored, as in loads.csv"""
    pit = " ".join(x.joined for k, x in s.sheets.items() if k.startswith("pit"))
    rows = list(csv.DictReader((s.folder / "loads.csv").open()))
    pads = sorted({r["pad"] for r in rows} - {"sum"})
    said = no("UNFACTORED" in pit, "no load table") + [f"no column V {p}" for p in pads if f"V {p}" not in pit]
    values = {re.sub("^-0.0$", "0.0", f"{float(r['vertical kN (+ down)']):.1f}") for r in rows if r["elevator"] in ("1", "")}
    if not s.inch:
        said += [f"vertical load {v} kN is not in the table" for v in sorted(values) if v not in pit.replace("−", "-")]
    return said


def c5(s):
    """anchors: every pad with x and y from the setting-out point, bolt and hole"""
    pit = " ".join(x.joined for k, x in s.sheets.items() if k.startswith("pit"))
    return no("ANCHORS" in pit, "no anchor table") + no(re.search(r"\bM\d+|\d/\d\"", pit), "no bolt size")


def c6(s):
    """clear spaces are dimensioned and their rules have value and limit"""
    items = [i for i in s.checks["items"] if i["rule"] == "pit-clearance"]
    return no(items, "no rule on clear spaces") + [f"{i['path']} has no value or limit" for i in items if i["value"] is None or i["limit"] is None]


def c7(s):
    """north arrow (or the hold on it), up side, access side"""
    pit = s.sheets["pit"]
    arrow = any(t == "N" and layer == "SYMBOL" for t, layer, *_ in pit.texts)
    said = no(arrow or "north is not given: hold" in pit.joined.lower(), "neither north nor a hold on it")
    return said + [f"{w} is missing" for w in ("up side", "access side") if w not in pit.joined.lower()]


def c8(s):
    """the sheet leaves structure, reinforcement and waterproofing to the responsible engineer"""
    pit = " ".join(x.joined for k, x in s.sheets.items() if k.startswith("pit"))
    return no("responsible engineer" in pit and "einforcement" in pit, "no such note")


def c9(s):
    """values that nobody gave are marked HOLD and listed with who settles them"""
    pit = " ".join(x.joined for k, x in s.sheets.items() if k.startswith("pit"))
    return no("HOLDS" in pit and "HOLD:" in pit, "no list of holds")


def c10(s):
    """a level that stands on GA and pit is the same on both; the pit's clear size is that of results.json"""
    named = defaultdict(set)
    alike = {"top flange of foot": "top flange", "foot shaft, lowest": "shaft, lowest", "up-side sill": "sill"}
    for key in ("ga", "pit"):
        for t, _ in level_texts(s, s.sheets[key]):
            value, _, words = t.partition("  ")
            if words:
                named[alike.get(words, words)].add((key, value))
    said = []
    for words, seen in named.items():
        values = {v for _, v in seen}
        if {k for k, _ in seen} == {"ga", "pit"} and words != "sill":
            said += no(len(values) == 1, f"{words}: {sorted(values)}")
    return said + no(any({k for k, _ in seen} == {"ga", "pit"} for seen in named.values()), "no level on both sheets")


# Fabricator


def f1(s, logs):
    """contours close within 1e-6, holes lie inside the outline (cut_files)"""
    return logs.clean("cut_files")


def f2(s):
    """drawing unit mm, lower left corner at 0,0, box of the contours = size in the manifest to 0.001 mm"""
    said = []
    for row in s.manifest:
        doc = ezdxf.readfile(s.folder / "plates" / row["file"])
        box = ezdxf.bbox.extents([e for e in doc.modelspace() if e.dxf.layer == "CUT"], fast=False)
        size = (box.extmax.x, box.extmax.y)
        want = (float(row["width mm"]), float(row["height mm"]))
        said += no(doc.header["$INSUNITS"] == 4 and box.extmin.vec2.magnitude < 1e-3, f"{row['file']}: not in mm at the origin")
        said += no(all(abs(a - b) < 2e-3 for a, b in zip(size, want)), f"{row['file']}: {size} is not {want}")
    return no(s.manifest, "no cutting file") + said


def plates(s):
    for row in s.manifest:
        yield row, ezdxf.readfile(s.folder / "plates" / row["file"])


def f3(s):
    """layer CUT holds lines, arcs, circles and polylines only, no two alike, no text"""
    said = []
    for row, doc in plates(s):
        on_cut = [e for e in doc.modelspace() if e.dxf.layer == "CUT"]
        kinds = {e.dxftype() for e in on_cut} - {"LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE"}
        said += no(not kinds, f"{row['file']}: {kinds}")
        twice = [e for e in Counter((round(e.dxf.center.x, 4), round(e.dxf.center.y, 4), round(e.dxf.radius, 4)) for e in on_cut if e.dxftype() == "CIRCLE").values() if e > 1]
        said += no(not twice, f"{row['file']}: {len(twice)} holes twice")
    return said


def f4(s, logs):
    """bulged arcs and circles, no splines; a slot's ends are half circles tangent to its sides (cut_files)"""
    said = [f"{row['file']}: {e.dxftype()}" for row, doc in plates(s) for e in doc.modelspace() if e.dxftype() in ("SPLINE", "ELLIPSE")]
    return said + logs.clean("cut_files")


def f5(s):
    """as many files as rows; each name is of one item, with thickness, material, quantity and revision, 24 characters at most"""
    files = {p.name for p in (s.folder / "plates").glob("*.dxf")}
    listed = {r["file"] for r in s.manifest}
    said = no(files == listed, f"files and manifest differ: {sorted(files ^ listed)[:4]}")
    for r in s.manifest:
        stem = Path(r["file"]).stem
        said += no(len(stem) <= 24 and stem.startswith(r["item"]) and f"{r['qty']}X" in stem, f"name {stem}")
    return said


def f6(s, logs):
    """layers CUT, MARK, BEND and no other in use; closed polylines, lines with arcs, and R12 all pass (cut_files)"""
    said = []
    for row, doc in plates(s):
        other = {e.dxf.layer for e in doc.modelspace()} - {"CUT", "MARK", "BEND"}
        said += no(not other, f"{row['file']}: layers {other}")
    return said + logs.clean("cut_files")


def f7(s):
    """no hole on CUT smaller than the plate is thick (laser); cut_files holds the marks of the others against the hole tables"""
    said = []
    for row, doc in plates(s):
        t = float(row["thickness mm"])
        small = [e for e in doc.modelspace().query("CIRCLE") if e.dxf.layer == "CUT" and 2 * e.dxf.radius < t - 1e-6]
        said += no(not small, f"{row['file']}: {len(small)} holes smaller than {t} mm")
    return said


def f8(s):
    """the plate sheets name ISO 9013 and the class"""
    shops = [x for k, x in s.sheets.items() if re.match(r"casing-|plates", k)]
    return no(shops, "no plate sheet") + s.each(lambda x: no("ISO 9013" in x.joined, "no cutting class"), [x for x in shops if x.id in ("casing-sides", "casing-ends", "plates")])


def f9(s, logs):
    """hole tables against cutting files, size and place to 1e-6, both ways (cut_files)"""
    return logs.clean("cut_files")


def f10(s):
    """weld symbols (a with size) stand at leaders; every weld is listed with size and length"""
    welds = list(csv.DictReader((s.folder / "lists/welds.csv").open()))
    signs = [t for sheet in s.sheets.values() for t, layer, *_ in sheet.texts if re.match(r"^a\s?\d", t)]
    return no(welds, "no weld list") + no(signs, "no weld symbol")


def f11(s):
    """general tolerances for machining (ISO 2768) and welding (ISO 13920) in the title blocks"""
    return no("ISO 2768" in s.words, "no machining tolerance") + no("ISO 13920" in s.words, "no weld tolerance")


def f12(s):
    """every item of the list is on a sheet by its number; every cutting file is on the list with the same count; masses add up"""
    items = {r["item"]: r for r in s.list}
    said = [f"item {i} is on no sheet" for i in items if not re.search(rf"\b{i}\b", s.words)]
    for r in s.manifest:
        said += no(r["item"] in items and items[r["item"]]["qty"] == r["qty"], f"{r['file']}: not on the list with {r['qty']}")
        if r["item"] in items:
            # The list prints hundredths of a kilogram or, in inch jobs, of a pound; the manifest kilograms, as its files are metric.
            told = items[r["item"]]
            kg = float(told["kg each"]) if "kg each" in told else float(told["lb each"]) * 0.45359237
            said += no(abs(kg - float(r["kg each"])) <= 0.0051, f"item {r['item']}: two masses")
    for r in s.list:
        each, total = (r[f"{'kg' if 'kg each' in r else 'lb'} {what}"] for what in ("each", "total"))
        if re.match(r"[\d.]+$", each) and re.match(r"[\d.]+$", total):
            said += no(abs(float(each) * int(r["qty"]) - float(total)) <= 0.006 * int(r["qty"]) + 0.006, f"item {r['item']}: total")
    balloons = {t for sheet in s.sheets.values() for t, layer, *_ in sheet.texts if layer == "LEADER" and re.match(r"^\d{3}$", t)}
    return said + no(len(balloons) >= 5 and balloons <= set(items), f"balloons {sorted(balloons - set(items))}")


def f13(s):
    """rotating parts: fits and keyways; for the tapped end thread, drill, both depths as dimensions and the centre hole in words"""
    sheet = s.sheets["rotating"]
    shown = [sheet.shown(e) for e in sheet.dimensions]
    said = no(any(re.search(r"⌀.+ (k6|h6|m6|h7|h9)$", t) for t in shown), "no fit") + no("keyway" in sheet.joined, "no keyways")
    # A foot as measured may have no such hole; then a rule says so.
    if "motion-sensor" in s.checks["failed"]:
        return said
    threads = [t for t in shown if re.match(r"M\d+$", t)]
    named = re.findall(r"\b\d+/\d+-\d+\b", sheet.joined)
    said += no(threads or named, "no thread") + no("centre" in sheet.joined and "hole" in sheet.joined, "no centre hole")
    metric = [float(t[1:]) for t in threads if re.match(r"M\d+$", t)]
    drills = [random_sheets.numbers_of(t[1:])[0][0] * (25.4 if sheet.inch else 1) for t in shown if re.match(r"⌀[\d./ ]+\"?$", t)]
    said += no(not metric or any(0.7 * metric[0] < d < metric[0] for d in drills), f"no drill for {threads}")
    depths = [random_sheets.numbers_of(t)[0][0] * (25.4 if sheet.inch else 1) for t in shown if re.match(r"[\d./ ]+\"?$", t)]
    return said + no(not metric or sum(1.5 * metric[0] < d < 4 * metric[0] for d in depths) >= 2, f"no depths of thread and drill for {threads}")


def f14(s):
    """edges, paint and what is masked"""
    return [f"nothing on {w}" for w in ("deburred", "primer", "Mask") if w not in s.words]


def f15(s):
    """every sheet is stamped with the counts of checks.json, every failed rule by name, spec hash and version; no name stands at 'Approved by'"""
    counts = s.checks["counts"]
    wanted = [f"{counts['pass']} pass", f"{counts['warn']} warn", f"{counts['note']} note", *s.checks["failed"]]

    def stamped(sheet):
        stamp = " ".join(t for t, layer, *_ in sheet.texts if layer == "STAMP")
        yield from (f"stamp lacks {w}" for w in wanted if w not in stamp)
        yield from no(("NOT FOR FABRICATION" in stamp) == bool(s.checks["failed"]), "stamp and verdict disagree")
        yield from no("Spec hash" in sheet.words and any(w.startswith("footwell ") for w in sheet.words), "no hash or version")
        label = sheet.at("Approved by")
        below = [t for t, layer, p, _ in sheet.texts if label and 0 < label.y - p.y < 5 and -0.5 < p.x - label.x < 30]
        yield from no(not below, f"'Approved by' says {below}")

    return s.each(stamped)


POINTS = {
    "D1 K": d1, "D2": d2, "D3": d3, "D4": d4, "D5 K": d5, "D6": d6, "D7": d7, "D8": d8, "D9 K": d9, "D10": d10, "D11": d11, "D12": d12, "D13": d13,
    "D14": d14, "D15": d15, "D16 K": d16, "D17": d17, "D18": d18, "D19": d19,
    "C1 K": c1, "C2": c2, "C3": c3, "C4 K": c4, "C5": c5, "C6": c6, "C7": c7, "C8": c8, "C9": c9, "C10": c10,
    "F1 K": f1, "F2 K": f2, "F3": f3, "F4": f4, "F5": f5, "F6": f6, "F7": f7, "F8": f8, "F9 K": f9, "F10": f10, "F11": f11, "F12": f12, "F13": f13,
    "F14": f14, "F15 K": f15,
}  # fmt: skip


class Logs:
    """What the other checks printed."""

    def __init__(self, folder):
        self.folder = folder

    def clean(self, name, only=""):
        path = self.folder and self.folder / f"{name}.log"
        if not path or not path.exists():
            return [f"{name} was not run"]
        lines = path.read_text().splitlines()
        if not any(re.search(r"\b0 findings( in \d+ sets)?$", line) for line in lines[-3:]):
            return [f"{name}: {lines[-1] if lines else 'printed nothing'}"]
        return []


def judge(task):
    folder, logs = task
    s, logs = Set(folder), Logs(logs)
    return s.name, {point: (f(s, logs) if f.__code__.co_argcount == 2 else f(s)) for point, f in POINTS.items()}


def main():
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("folder", type=Path)
    arguments.add_argument("--logs", type=Path)
    arguments.add_argument("--report", type=Path)
    asked = arguments.parse_args()
    folders = sorted(p.parent for p in asked.folder.glob("*/checks.json"))
    with ProcessPoolExecutor() as pool:
        cards = dict(pool.map(judge, [(f, asked.logs) for f in folders]))
    lines = ["| point | " + " | ".join(cards) + " | how it is judged |", "|---" * (len(cards) + 2) + "|"]
    complaints = []
    for point, judged in POINTS.items():
        lines.append(f"| {point} | " + " | ".join("no" if card[point] else "yes" for card in cards.values()) + f" | {judged.__doc__} |")
        complaints += [f"{point} {name}: {c}" for name, card in cards.items() for c in card[point][:4]]
        complaints += [f"{point} {name}: and {len(card[point]) - 4} more" for name, card in cards.items() if len(card[point]) > 4]
    print("\n".join(lines))
    print(*complaints, sep="\n")
    if asked.report:
        asked.report.write_text("\n".join(lines) + "\n" + "\n".join(complaints) + "\n")
    missed = sum(bool(card[point]) for card in cards.values() for point in POINTS)
    print(f"{len(POINTS)} points, {len(cards)} sets, {missed} findings")
    return 1 if missed or not cards else 0


if __name__ == "__main__":
    sys.exit(main())
