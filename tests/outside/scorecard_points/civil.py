"""What a civil engineer asks."""
import csv
import re
from collections import defaultdict

import random_sheets

from . import by_name, decisive
from .reading import no


def level_texts(s, sheet):
    pattern = r"^[±+−-]\d+'-\d" if s.inch else r"^[±+−-]\d+[.,]\d{3}(\s|$)"
    return [(t, p) for t, layer, p, _ in sheet.texts if layer == "SYMBOL" and re.match(pattern, t)]


def length_mm(s, words):
    values = random_sheets.numbers_of(words)
    return values[0][0] * (25.4 if s.inch else 1.0) if values else None


@decisive
def clear_sizes_from_one_setting_out_point(s):
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
    return said + no(("working point" if s.inch else "setting-out point") in pit.joined, "no setting-out point") + no(any(e.dxf.layer == "CENTRE" for e in pit.msp), "no axes")


def levels_of_floors_shaft_and_sills(s):
    """levels of plant floor, pit floor, sump, foot shaft and each inlet's sill on the pit sheet"""
    words = " ".join(t for t, _ in level_texts(s, s.sheets["pit"]))
    wanted = ["plant floor", "pit floor", "boot shaft" if s.inch else "foot shaft", "sill"] + (["sump"] if re.search(r"sump \d\S* ×", s.sheets["pit"].joined) else [])
    return [f"no level of {w}" for w in wanted if w not in words]


def every_level_has_sign_and_symbol(s):
    """every level: sign, metres with three decimals (feet and inches on inch sheets), a drawn triangle beside it"""
    pit = s.sheets["pit"]
    signs = [e for e in pit.msp if e.dxf.layer == "SYMBOL" and e.dxftype() in ("LWPOLYLINE", "HATCH", "SOLID")]
    levels = level_texts(s, pit)
    return no(levels, "no levels") + no(len(signs) >= len(levels), f"{len(levels)} levels, {len(signs)} symbols")


@decisive
def load_table_has_every_case_and_pad(s):
    """load table with a row for each case and a column for each support, unfactored, as in loads.csv"""
    pit = " ".join(x.joined for k, x in s.sheets.items() if k.startswith("pit"))
    rows = list(csv.DictReader((s.folder / "loads.csv").open()))
    pads = sorted({r["pad"] for r in rows} - {"sum"})
    said = no("UNFACTORED" in pit, "no load table") + [f"no column V {p}" for p in pads if f"V {p}" not in pit]
    vertical = next((k for k in (rows[0] if rows else {}) if k.startswith("vertical ")), "vertical")
    # The file has three decimals: what ends on a half there may be rounded either way on the sheet.
    rounded = lambda v: {re.sub("^-0.0$", "0.0", f"{v + by:.1f}") for by in (-0.0005, 0.0005)}
    values = [rounded(float(r[vertical])) for r in rows if r["elevator"] in ("1", "")]
    unit = "kip" if s.inch else "kN"
    missing = [sorted(v) for v in values if not any(one in pit.replace("−", "-") for one in v)]
    return said + [f"vertical load {v[0]} {unit} is not in the table" for v in missing]


def anchors_from_the_setting_out_point(s):
    """anchors: every pad with x and y from the setting-out point, bolt and hole"""
    pit = " ".join(x.joined for k, x in s.sheets.items() if k.startswith("pit"))
    return no("ANCHORS" in pit, "no anchor table") + no(re.search(r"\bM\d+|\d/\d\"", pit), "no bolt size")


def clear_spaces_dimensioned_and_judged(s):
    """clear spaces are dimensioned and their rules have value and limit"""
    items = [i for i in s.checks["items"] if i["rule"] == "pit-clearance"]
    return no(items, "no rule on clear spaces") + [f"{i['path']} has no value or limit" for i in items if i["value"] is None or i["limit"] is None]


def north_up_side_and_access_side(s):
    """north arrow (or the hold on it), up side, access side"""
    pit = s.sheets["pit"]
    arrow = any(t == "N" and layer == "SYMBOL" for t, layer, *_ in pit.texts)
    said = no(arrow or "north is not given: hold" in pit.joined.lower(), "neither north nor a hold on it")
    return said + [f"{w} is missing" for w in ("up side", "access side") if w not in pit.joined.lower()]


def structure_left_to_the_responsible_engineer(s):
    """the sheet leaves structure, reinforcement and waterproofing to the responsible engineer"""
    pit = " ".join(x.joined for k, x in s.sheets.items() if k.startswith("pit"))
    return no("responsible engineer" in pit and "einforcement" in pit, "no such note")


def values_on_hold_marked_and_listed(s):
    """values that nobody gave are marked HOLD and listed with who settles them"""
    pit = " ".join(x.joined for k, x in s.sheets.items() if k.startswith("pit"))
    return no("HOLDS" in pit and "HOLD:" in pit, "no list of holds")


def arrangement_and_pit_sheets_agree(s):
    """a level that stands on GA and pit is the same on both; the pit's clear size is that of results.json"""
    named = defaultdict(set)
    foot = "boot" if s.inch else "foot"
    alike = {f"top flange of {foot}": "top flange", f"{foot} shaft, lowest": "shaft, lowest", "up-side sill": "sill"}
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


POINTS = by_name(
    clear_sizes_from_one_setting_out_point,
    levels_of_floors_shaft_and_sills,
    every_level_has_sign_and_symbol,
    load_table_has_every_case_and_pad,
    anchors_from_the_setting_out_point,
    clear_spaces_dimensioned_and_judged,
    north_up_side_and_access_side,
    structure_left_to_the_responsible_engineer,
    values_on_hold_marked_and_listed,
    arrangement_and_pit_sheets_agree,
)
