"""What a fabricator asks."""
import csv
import re
from collections import Counter
from pathlib import Path

import ezdxf
import ezdxf.bbox

import random_sheets

from . import by_name, decisive
from .reading import no


@decisive
def contours_close_around_their_holes(s, logs):
    """contours close within 1e-6, holes lie inside the outline (cut_files)"""
    return logs.clean("cut_files")


@decisive
def cutting_files_true_to_size_at_the_origin(s):
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


def cut_layer_holds_each_contour_once(s):
    """layer CUT holds lines, arcs, circles and polylines only, no two alike, no text"""
    said = []
    for row, doc in plates(s):
        on_cut = [e for e in doc.modelspace() if e.dxf.layer == "CUT"]
        kinds = {e.dxftype() for e in on_cut} - {"LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE"}
        said += no(not kinds, f"{row['file']}: {kinds}")
        twice = [e for e in Counter((round(e.dxf.center.x, 4), round(e.dxf.center.y, 4), round(e.dxf.radius, 4)) for e in on_cut if e.dxftype() == "CIRCLE").values() if e > 1]
        said += no(not twice, f"{row['file']}: {len(twice)} holes twice")
    return said


def curves_are_true_arcs(s, logs):
    """bulged arcs and circles, no splines; a slot's ends are half circles tangent to its sides (cut_files)"""
    said = [f"{row['file']}: {e.dxftype()}" for row, doc in plates(s) for e in doc.modelspace() if e.dxftype() in ("SPLINE", "ELLIPSE")]
    return said + logs.clean("cut_files")


def cutting_files_are_named_as_in_the_manifest(s):
    """as many files as rows; each name is of one item, with thickness, material, quantity and revision, 24 characters at most"""
    files = {p.name for p in (s.folder / "plates").glob("*.dxf")}
    listed = {r["file"] for r in s.manifest}
    said = no(files == listed, f"files and manifest differ: {sorted(files ^ listed)[:4]}")
    for r in s.manifest:
        stem = Path(r["file"]).stem
        said += no(len(stem) <= 24 and stem.startswith(r["item"]) and f"{r['qty']}X" in stem, f"name {stem}")
    return said


def cutting_files_use_three_layers(s, logs):
    """layers CUT, MARK, BEND and no other in use; closed polylines, lines with arcs, and R12 all pass (cut_files)"""
    said = []
    for row, doc in plates(s):
        other = {e.dxf.layer for e in doc.modelspace()} - {"CUT", "MARK", "BEND"}
        said += no(not other, f"{row['file']}: layers {other}")
    return said + logs.clean("cut_files")


def no_cut_hole_smaller_than_the_plate_is_thick(s):
    """no hole on CUT smaller than the plate is thick (laser); cut_files holds the marks of the others against the hole tables"""
    said = []
    for row, doc in plates(s):
        t = float(row["thickness mm"])
        small = [e for e in doc.modelspace().query("CIRCLE") if e.dxf.layer == "CUT" and 2 * e.dxf.radius < t - 1e-6]
        said += no(not small, f"{row['file']}: {len(small)} holes smaller than {t} mm")
    return said


def plate_sheets_name_the_cutting_class(s):
    """the plate sheets name ISO 9013 and the class, inch sheets the roughness of AWS D1.1"""
    standard = "AWS D1.1, 1000 µin" if s.inch else "ISO 9013"
    shops = [x for k, x in s.sheets.items() if re.match(r"casing-|plates", k)]
    return no(shops, "no plate sheet") + s.each(lambda x: no(standard in x.joined, "no cutting class"), [x for x in shops if x.id in ("casing-sides", "casing-ends", "plates")])


@decisive
def hole_tables_match_cutting_files(s, logs):
    """hole tables against cutting files, size and place to 1e-6, both ways (cut_files)"""
    return logs.clean("cut_files")


def welds_are_marked_and_listed(s):
    """weld symbols with size (ISO: throat a; inch sheets: leg) stand at leaders; every weld is listed with size and length"""
    welds = list(csv.DictReader((s.folder / "lists/welds.csv").open()))
    size = r"^\d+/\d+\"$" if s.inch else r"^a\s?\d"
    signs = [t for sheet in s.sheets.values() for t, layer, *_ in sheet.texts if layer == "SYMBOL" and re.match(size, t)]
    return no(welds, "no weld list") + no(signs, "no weld symbol")


def general_tolerances_are_named(s):
    """general tolerances for machining and welding in the title blocks: ISO 2768 and ISO 13920, on inch sheets in inches"""
    machining, welding = ("MACHINED ±", "WELDED ±") if s.inch else ("ISO 2768", "ISO 13920")
    return no(machining in s.words, "no machining tolerance") + no(welding in s.words, "no weld tolerance")


def parts_list_agrees_with_sheets_and_files(s):
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


def rotating_parts_have_fits_keyways_and_threads(s):
    """rotating parts: fits and keyways; for the tapped end thread, drill, both depths as dimensions and the centre hole in words"""
    sheets = [sheet for name, sheet in s.sheets.items() if name.startswith("turned")]
    sheet = sheets[0]
    shown = [one.shown(e) for one in sheets for e in one.dimensions]
    joined = " ".join([one.joined for one in sheets] + shown)
    fits = r"Ø[\d.]+\" \+\.\d+/[−-]\.\d+$" if s.inch else r"Ø.+ (k6|h6|m6|h7|h9)$"
    said = no(any(re.search(fits, t) for t in shown), "no fit") + no("keyway" in joined, "no keyways")
    # A foot as measured may have no such hole; then a rule says so.
    if "motion-sensor" in s.checks["failed"]:
        return said
    threads = re.findall(r"\bM\d+(?= – 6H)", joined)
    named = re.findall(r"\d\"?-\d+ UNC-2B\b", joined)
    said += no(threads or named, "no thread with its class") + no(re.search(r"cent(re|er) hole", joined), "no centre hole")
    metric = [float(t[1:]) for t in threads]
    drills = [random_sheets.numbers_of(t[1:])[0][0] * (25.4 if sheet.inch else 1) for t in shown if re.match(r"Ø[\d./ ]+\"?$", t)]
    said += no(not metric or any(0.7 * metric[0] < d < metric[0] for d in drills), f"no drill for {threads}")
    depths = [random_sheets.numbers_of(t)[0][0] * (25.4 if sheet.inch else 1) for t in shown if re.match(r"[\d./ ]+\"?$", t)]
    return said + no(not metric or sum(1.5 * metric[0] < d < 4 * metric[0] for d in depths) >= 2, f"no depths of thread and drill for {threads}")


def edges_and_paint_are_told(s):
    """edges, paint and what is masked"""
    return [f"nothing on {w}" for w in ("deburred", "primer", "Mask") if w not in s.words]


@decisive
def every_sheet_is_stamped_with_the_verdict(s):
    """every sheet is stamped with the counts of checks.json (but passes), every rule that failed, warned or is accepted by name, spec hash and version; no name stands at 'Approved by'"""
    counts = s.checks["counts"]
    named = [rule for kind in ("failed", "warned", "accepted") for rule in s.checks[kind]]
    wanted = [f"{counts['fail']} fail", f"{counts['warn']} warn", f"{counts['note']} note", *named]
    wanted += [f"{counts['accepted']} accepted"] if counts["accepted"] else []
    head = ("NOT FOR FABRICATION", "WARNINGS OPEN", "DEVIATIONS ACCEPTED", "NO RULE OBJECTS")
    verdict = next((h for h, kind in zip(head, ("fail", "warn", "accepted")) if counts[kind]), head[-1])

    def stamped(sheet):
        stamp = " ".join(t for t, layer, *_ in sheet.texts if layer == "STAMP")
        yield from (f"stamp lacks {w}" for w in wanted if w not in stamp)
        yield from no(not re.search(r"\d pass", stamp), "the stamp counts what passes")
        yield from no([h for h in head if h in stamp] == [verdict], "stamp and verdict disagree")
        yield from no("Spec hash" in sheet.words and any(w.startswith("footwell ") for w in sheet.words), "no hash or version")
        label = sheet.at("Approved by")
        below = [t for t, layer, p, _ in sheet.texts if label and 0 < label.y - p.y < 5 and -0.5 < p.x - label.x < 30]
        yield from no(not below, f"'Approved by' says {below}")

    return s.each(stamped)


POINTS = by_name(
    contours_close_around_their_holes,
    cutting_files_true_to_size_at_the_origin,
    cut_layer_holds_each_contour_once,
    curves_are_true_arcs,
    cutting_files_are_named_as_in_the_manifest,
    cutting_files_use_three_layers,
    no_cut_hole_smaller_than_the_plate_is_thick,
    plate_sheets_name_the_cutting_class,
    hole_tables_match_cutting_files,
    welds_are_marked_and_listed,
    general_tolerances_are_named,
    parts_list_agrees_with_sheets_and_files,
    rotating_parts_have_fits_keyways_and_threads,
    edges_and_paint_are_told,
    every_sheet_is_stamped_with_the_verdict,
)
