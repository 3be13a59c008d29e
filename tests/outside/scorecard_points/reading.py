"""One sheet and one set as read from their files, and what the other checks printed."""
import csv
import json
import re

import ezdxf

import random_sheets


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
