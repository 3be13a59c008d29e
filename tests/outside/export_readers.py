#!/usr/bin/env python3
"""Do independent readers take our DXF files? export_readers.py FOLDER

ezdxf: opens, 0 errors, 0 fixes; model space only; every entity by layer, on a declared layer, none on layer 0;
    every dimension has a block with ink and measures what it shows; text is as wide in the DXF's font as in the SVG
    of the same sheet (2 %), so that nothing that was laid out clear runs into something else.
GDAL (ogrinfo): opens, no warning, as many features as ezdxf sees strokes or more.
LibreCAD (dxf2pdf): prints every file, the print has ink.
A reader that is not installed is a finding, unless --without-desktop is given, which leaves out GDAL and LibreCAD.

Needs: pip ezdxf[draw]==1.4.5 (with PyMuPDF); Debian gdal-bin librecad fonts-dejavu-extra.
Prints one line a finding and 'N findings' last; exit 1 if there are any.
"""
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import ezdxf
import pymupdf
from ezdxf.fonts import fonts

SVG = "{http://www.w3.org/2000/svg}"
SYMBOLS = {"%%c": "Ø", "%%d": "°", "%%p": "±", "%%%": "%"}
# The one character that the DXF writes otherwise than the SVG: fonts of drawing programs lack the minus sign.
SAME = str.maketrans({"−": "-"})


def plain(text):
    return re.sub("%%[cdp%]", lambda m: SYMBOLS[m[0]], text).replace("^ ", "^").translate(SAME)


def entities(doc):
    for e in doc.modelspace():
        yield e
        if e.dxftype() == "DIMENSION":
            yield from doc.blocks.get(e.dxf.geometry) or []


def ezdxf_reads(path, findings):
    try:
        doc = ezdxf.readfile(path)
    except Exception as error:  # whatever it is, the file did not open
        findings.append(f"{path}: ezdxf cannot open it: {error!r}")
        return None
    audit = doc.audit()
    findings += [f"{path}: ezdxf error {e.code} {e.message}" for e in audit.errors]
    findings += [f"{path}: ezdxf fix {e.code} {e.message}" for e in audit.fixes]
    for layout in doc.layouts:
        if layout.name != "Model" and len(layout):
            findings.append(f"{path}: {len(layout)} entities in layout {layout.name}")
    for e in entities(doc):
        if e.dxf.layer == "0" or not doc.layers.has_entry(e.dxf.layer):
            findings.append(f"{path}: {e.dxftype()} #{e.dxf.handle} lies on layer {e.dxf.layer}")
        for name, by_layer in (("color", 256), ("linetype", "BYLAYER"), ("lineweight", -1)):
            value = e.dxf.get(name, by_layer)
            if str(value).upper() != str(by_layer):
                findings.append(f"{path}: {e.dxftype()} #{e.dxf.handle} has its own {name} {value}")
    used = {doc.layers.get(e.dxf.layer).dxf.linetype for e in entities(doc)}
    for name in used:
        if not doc.linetypes.has_entry(name):
            findings.append(f"{path}: line type {name} is not defined")
    dimensions(doc, path, findings)
    return doc


def dimensions(doc, path, findings):
    inch = doc.header.get("$INSUNITS") == 1
    for e in doc.modelspace().query("DIMENSION"):
        block = doc.blocks.get(e.dxf.get("geometry", ""))
        if not block:
            findings.append(f"{path}: DIMENSION #{e.dxf.handle} has no ink")
            continue
        angular = e.dimtype in (2, 5)
        measured = e.get_measurement() * (1 if angular else e.override().get("dimlfac", 1.0))
        shown = " ".join(plain(t.dxf.text) for t in block.query("TEXT"))
        if e.dxf.text not in ("", "<>") and re.sub(r"\\(.)", r"\1", plain(e.dxf.text)) not in shown:
            findings.append(f"{path}: DIMENSION #{e.dxf.handle} shows {shown!r} but its text is {e.dxf.text!r}")
        numbers = re.findall(r"\d+(?:[.,]\d+)?", shown)
        decimals = max([len(n.replace(",", ".").partition(".")[2]) for n in numbers], default=0)
        true = any(abs(float(n.replace(",", ".")) - measured) <= 0.51 * 10**-decimals for n in numbers)
        if inch and not angular and ('"' in shown or "'" in shown):
            # Feet and inches with a fraction, to the next sixteenth.
            length = shown.rpartition("=")[2]  # of "8 × 4 1/2\" = 3'-0\"" the length
            m = re.search(r"(?:(\d+)'\s*-?\s*)?(?:(\d+)(?![/\d]))?\s*-?\s*(?:(\d+)/(\d+))?\"", length)
            feet = re.search(r"(\d+)'", length)
            value = (12 * int(feet[1]) if feet else 0) + (int(m[2] or 0) + (int(m[3]) / int(m[4]) if m[3] else 0) if m else 0)
            true = true or abs(value - measured) <= 1 / 32 + 1e-6
        if not true:
            findings.append(f"{path}: DIMENSION #{e.dxf.handle} shows {shown!r} but measures {measured:.4f}")


def widths(doc, path, findings):
    """Compares each text's width in the DXF's own font with the width that the SVG of the sheet pins."""
    svg = path.with_suffix(".svg")
    if not svg.exists():
        return 0
    k = float(doc.header["$DIMSCALE"])
    wanted = {}
    for t in ET.parse(svg).iter(f"{SVG}text"):
        wanted.setdefault((t.text or "").translate(SAME), []).append(float(t.get("textLength")) / float(t.get("font-size")))
    compared = 0
    for e in entities(doc):
        if e.dxftype() != "TEXT":
            continue
        shown = plain(e.dxf.text)
        if "\\U+" in shown or shown not in wanted or "-" in shown:
            continue  # another character stands in the DXF, of another width
        style = doc.styles.get(e.dxf.style)
        font = fonts.make_font(style.dxf.font, e.dxf.height / k, style.dxf.width * e.dxf.get("width", 1.0))
        # Font size in em from the height of capitals, 1493/2048 by the outline of DejaVu's H.
        em = e.dxf.height / k * 2048 / 1493
        got = font.text_width(shown) / em
        compared += 1
        if min(abs(got - w) for w in wanted[shown]) > 0.02 * got + 0.15:
            findings.append(f"{path}: text {shown!r} is {got:.2f} em wide, laid out with {wanted[shown][0]:.2f}")
    return compared


def gdal_reads(path, doc, findings):
    run = subprocess.run(
        ["ogrinfo", "-ro", "-al", "-so", str(path)], capture_output=True, text=True, env=dict(os.environ, DXF_ENCODING="UTF-8", CPL_LOG_ERRORS="ON")
    )
    said = run.stdout + run.stderr
    if run.returncode or re.search("ERROR|Warning|FAIL", said):
        findings.append(f"{path}: GDAL says {said.strip()[:200]}")
    count = re.search(r"Feature Count: (\d+)", said)
    if not count or int(count[1]) < len(doc.modelspace()):
        findings.append(f"{path}: GDAL sees {count and count[1]} features, there are {len(doc.modelspace())} entities")


def librecad_prints(folder, paths, findings):
    """All files of one folder in one run: starting the program costs more than printing."""
    with tempfile.TemporaryDirectory() as there:
        for path in paths:
            (Path(there) / path.name).write_bytes(path.read_bytes())
        env = dict(os.environ, QT_QPA_PLATFORM="offscreen", HOME=there, XDG_RUNTIME_DIR=there)
        run = subprocess.run(["librecad", "dxf2pdf", "-a", *(p.name for p in paths)], cwd=there, env=env, capture_output=True, text=True, timeout=300)
        if run.returncode:
            findings.append(f"{folder}: LibreCAD stops with {run.returncode}: {(run.stdout + run.stderr).strip()[-200:]}")
        for path in paths:
            printed = (Path(there) / path.name).with_suffix(".pdf")
            if not printed.exists():
                findings.append(f"{path}: LibreCAD does not print it: {(run.stdout + run.stderr).strip()[-200:]}")
                continue
            page = pymupdf.open(printed)[0]
            strokes = sum(len(d["items"]) for d in page.get_cdrawings())
            # A cutting file may be one ring of four lines with a mark.
            if strokes < (20 if path.with_suffix(".svg").exists() else 4):
                findings.append(f"{path}: LibreCAD prints only {strokes} strokes")


def inspect(task):
    """All DXF files of one folder; findings, kinds of entities, number of text widths compared."""
    folder, paths, desktop = task
    findings, kinds, compared = [], Counter(), 0
    for path in paths:
        doc = ezdxf_reads(path, findings)
        if doc is None:
            continue
        kinds.update(e.dxftype() for e in entities(doc))
        compared += widths(doc, path, findings)
        if desktop:
            gdal_reads(path, doc, findings)
    if desktop:
        librecad_prints(folder, paths, findings)
    return findings, kinds, compared


def main(args):
    desktop = "--without-desktop" not in args
    folder = Path([a for a in args if not a.startswith("--")][0])
    findings, kinds, compared = [], Counter(), 0
    files = sorted(folder.rglob("*.dxf"))
    folders = sorted({path.parent for path in files})
    tasks = [(there, [path for path in files if path.parent == there], desktop) for there in folders]
    try:
        with ProcessPoolExecutor() as pool:
            for found, seen, texts in pool.map(inspect, tasks):
                findings += found
                kinds.update(seen)
                compared += texts
    except (FileNotFoundError, subprocess.TimeoutExpired) as error:
        findings.append(f"a reader is missing or hangs: {error}")
    if not files:
        findings.append(f"{folder}: no DXF file to read")
    print(*findings, sep="\n")
    print(f"{len(files)} DXF files, {sum(kinds.values())} entities {dict(sorted(kinds.items()))}, {compared} text widths compared")
    print(f"{len(findings)} findings")
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
