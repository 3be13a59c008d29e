"""What a drafter asks."""
import re
from collections import defaultdict

import random_sheets

from . import by_name, decisive
from .reading import no

SCALES_MM = {"2:1", "5:1", "10:1", "20:1", "50:1", "1:1", "1:2", "1:5", "1:10", "1:20", "1:50", "1:100", "1:200"}
# Inch: full size and its halves, or inches to the foot (from memory of ASME Y14.1 and of building practice).
SCALES_INCH = {"2:1", "4:1", "1:1", "1:2", "1:4", "1:8"} | {f'{n} = 1\'-0"' for n in ('6"', '3"', '1 1/2"', '1"', '3/4"', '1/2"', '3/8"', '1/4"', '3/16"', '1/8"', '3/32"')}
# Cap heights of ISO 3098, and the smallest figures of the grid border.
HEIGHTS = {1.8, 2.5, 3.5, 5.0, 7.0, 10.0}
FIELDS = ["Owner", "Drawing number", "Date of issue", "Sheet", "Title", "Approved by", "Created by", "Document type", "Rev.", "Language"]


@decisive
def projection_symbol_matches_the_views(s):
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


def title_blocks_have_all_iso_7200_fields(s):
    """every field of ISO 7200 stands in every title block"""
    return s.each(lambda sheet: [f"no field {f}" for f in FIELDS if f not in sheet.words])


def title_blocks_have_technical_fields(s):
    """fields for scale, unit, general tolerances, material, mass, finish in every title block"""
    fields = ["Scale", "Unit", "General tolerances", "Material", "Weight" if s.inch else "Mass", "Finish"]
    return s.each(lambda sheet: [f"no field {f}" for f in fields if f not in sheet.words])


def scales_are_standard(s):
    """every scale written on a sheet is of ISO 5455 (inch sheets: halves, or inches to the foot)"""
    pattern = re.compile(r"^\d+:\d+$|^[\d /\"]+ = 1'-0\"$")
    allowed = SCALES_INCH if s.inch else SCALES_MM
    return s.each(lambda sheet: [f"scale {t}" for t in sheet.words if pattern.match(t) and t not in allowed])


@decisive
def texts_keep_clear_of_all_ink(s):
    """no text on another text, on a line or on hatching, by glyph widths of the font (random_sheets)"""
    return s.each(lambda sheet: [f for f in sheet.found if "lies on" in f or "crossed" in f or "filled" in f])


def no_text_stands_on_its_head(s):
    """no text turned beyond upright (random_sheets)"""
    return s.each(lambda sheet: [f for f in sheet.found if "on its head" in f])


def dimension_lines_stand_apart(s):
    """parallel dimension lines that overlap stand at least 7 mm apart"""

    def close(sheet):
        rows = list(sheet.linear())
        for i, (level, at, low, high, text, _) in enumerate(rows):
            for other in rows[i + 1 :]:
                gap = abs(at - other[1])
                if other[0] == level and 0.05 < gap < 6.95 and min(high, other[3]) - max(low, other[2]) > 0.05:
                    yield f"{text} and {other[4]} only {gap:.1f} mm apart"

    return s.each(close)


def shorter_chains_stand_nearer_the_view(s):
    """of two chains on the same side of a view that nest, the shorter stands nearer the view; no extension line cuts a text (texts_keep_clear_of_all_ink)"""

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


@decisive
def dimensions_show_what_they_measure(s, logs):
    """number of every dimension = what ezdxf measures between its points; LibreDWG and ezdwg read the same measures (export_dwg)"""
    return s.each(lambda sheet: [f for f in sheet.found if f.startswith("dimension")]) + logs.clean("export_dwg")


def chains_add_up(s):
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
                    if abs(sum(p[2] for p in parts) - total) > 1e-6:
                        yield f"{' + '.join(str(p[2]) for p in parts)} is not {total}"

    return s.each(gaps)


def hole_tables_have_marked_origins(s):
    """every view with a hole table shows its origin; the tables give x and y from it"""
    tables = [sheet for sheet in s.sheets.values() if any(w.startswith("HOLE TABLE") for w in sheet.words)]

    def marked(sheet):
        rings = [e for e in sheet.msp.query("CIRCLE") if e.dxf.layer == "SYMBOL" and abs(e.dxf.radius / sheet.k - 2.0) < 0.01]
        corner = sheet.at("Projection")
        rings = [e for e in rings if (e.dxf.center.vec2 / sheet.k - corner).magnitude > 40]
        names = {re.sub(r" \(.*", "", w) for w in sheet.words if re.match(r"HOLE TABLE \d", w)}
        return no(len(rings) >= len(names), f"{len(names)} hole tables, {len(rings)} marked origins")

    return no(tables, "no hole table") + s.each(marked, tables)


def two_line_widths_and_legible_dashes(s):
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


def every_round_hole_has_centre_lines(s):
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


def heights_of_lettering_are_standard(s):
    """heights of capitals are those of ISO 3098: 1.8 (grid, small labels), 2.5, 3.5, 5, 7"""
    return s.each(lambda sheet: [f"text {h:.2f} mm high" for h in sorted({round(h, 2) for *_, h in sheet.texts}) if min(abs(h - w) for w in HEIGHTS) > 0.02])


def sections_have_letters_and_hatching(s):
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


@decisive
def dxf_opens_without_errors(s):
    """ezdxf: 0 errors, 0 fixes; every dimension has its block with ink"""
    return s.each(lambda sheet: [f for f in sheet.found if f.startswith("ezdxf") or "has no ink" in f or "does not open" in f])


def entities_lie_on_declared_layers(s):
    """every entity by layer on a declared layer, none on layer 0; unit set"""
    said = s.each(lambda sheet: [f for f in sheet.found if "lies on layer" in f or "not by layer" in f])
    return said + s.each(lambda sheet: no(sheet.doc.header["$INSUNITS"] == (1 if s.inch else 4), f"$INSUNITS {sheet.doc.header['$INSUNITS']}"))


def dxf_and_svg_show_the_same_ink(s, logs):
    """99 % of the ink of DXF and SVG the same, both ways, at 150 dots an inch (export_ink)"""
    return logs.clean("export_ink", s.name)


def svg_and_pdf_sheets_have_standard_sizes(s, logs):
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


POINTS = by_name(
    projection_symbol_matches_the_views,
    title_blocks_have_all_iso_7200_fields,
    title_blocks_have_technical_fields,
    scales_are_standard,
    texts_keep_clear_of_all_ink,
    no_text_stands_on_its_head,
    dimension_lines_stand_apart,
    shorter_chains_stand_nearer_the_view,
    dimensions_show_what_they_measure,
    chains_add_up,
    hole_tables_have_marked_origins,
    two_line_widths_and_legible_dashes,
    every_round_hole_has_centre_lines,
    heights_of_lettering_are_standard,
    sections_have_letters_and_hatching,
    dxf_opens_without_errors,
    entities_lie_on_declared_layers,
    dxf_and_svg_show_the_same_ink,
    svg_and_pdf_sheets_have_standard_sizes,
)
