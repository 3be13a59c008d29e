#!/usr/bin/env python3
"""Is the same ink in DXF, SVG and PDF? export_ink.py FOLDER [--pictures DIR]

Each DXF is drawn by ezdxf at the sheet's scale (model space, line types and widths as the file says), the SVG of the
same name by resvg, the pages of PDF files by PyMuPDF, all at 150 dots an inch. Ink of one that has no
ink of the other within 0.35 mm counts as different; at least 99 % must be the same, both ways. The 0.35 mm allow for
half a line width, for dashes beginning elsewhere than another reader begins them, and for the rendering.

Needs: pip ezdxf[draw]==1.4.5 resvg_py==0.5.0 numpy pillow; Debian fonts-dejavu-extra.
Prints one line a pair, then 'N findings'; exit 1 if there are any.
"""
import io
import re
import sys
import xml.etree.ElementTree as ET
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import ezdxf
import numpy as np
import pymupdf
import resvg_py
from ezdxf.addons.drawing import Frontend, RenderContext, layout, svg
from ezdxf.addons.drawing.config import BackgroundPolicy, ColorPolicy, Configuration, LineweightPolicy
from PIL import Image

DPI = 150
REACH_MM = 0.35
SHARE = 0.99


def sheet_size(path):
    root = ET.parse(path).getroot()
    return float(root.get("width")[:-2]), float(root.get("height")[:-2])


def rasterise(text):
    png = resvg_py.svg_to_bytes(svg_string=text, background="#ffffff", dpi=float(DPI))
    return Image.open(io.BytesIO(bytes(png))).convert("L")


def draw_dxf(path, size):
    doc = ezdxf.readfile(path)
    k = float(doc.header["$DIMSCALE"])
    w, h = size
    # A frame at the edge of the sheet pins the drawing to the page; the edge is wiped before comparing.
    edge = doc.modelspace().add_lwpolyline([(0, 0), (w * k, 0), (w * k, h * k), (0, h * k)], close=True)
    edge.dxf.layer = next(iter(doc.layers)).dxf.name
    backend = svg.SVGBackend()
    config = Configuration(
        background_policy=BackgroundPolicy.WHITE, color_policy=ColorPolicy.BLACK, lineweight_policy=LineweightPolicy.ABSOLUTE, max_flattening_distance=0.02 * k
    )
    Frontend(RenderContext(doc), backend, config=config).draw_layout(doc.modelspace(), finalize=True)
    page = layout.Page(w, h, layout.Units.mm, margins=layout.Margins.all(0))
    text = backend.get_string(page, settings=layout.Settings(fit_page=False, scale=1 / k))
    return rasterise(text)


def ink(image, size):
    # Greys of thin lines count; the outermost 3 mm are the pinning edge.
    image = image.resize([round(v / 25.4 * DPI) for v in size])
    dark = np.array(image) < 150
    m = round(3 / 25.4 * DPI)
    dark[:m], dark[-m:], dark[:, :m], dark[:, -m:] = False, False, False, False
    return dark


def covered(a, b):
    """Share of the ink of a that has ink of b within reach."""
    r = round(REACH_MM / 25.4 * DPI)
    near = b.copy()
    for axis in (0, 1):
        # One direction after the other: a square of 2 r + 1 dots about every dot.
        line = near.copy()
        for k in range(1, r + 1):
            ahead, behind = [slice(None)] * 2, [slice(None)] * 2
            ahead[axis], behind[axis] = slice(k, None), slice(None, -k)
            near[tuple(ahead)] |= line[tuple(behind)]
            near[tuple(behind)] |= line[tuple(ahead)]
    return (a & near).sum() / max(a.sum(), 1)


def compare(name, a, b, said, findings, pictures):
    there, back = covered(a, b), covered(b, a)
    said.append(f"{name}: {100 * there:.2f} % and {100 * back:.2f} % of the ink ({a.sum()} and {b.sum()} dots)")
    if pictures:
        both = np.stack([np.where(b, 0, 255), np.where(a | b, 0, 255), np.where(a, 0, 255)], axis=-1).astype("uint8")
        Image.fromarray(both).save(Path(pictures) / (re.sub(r"\W+", "_", name) + ".png"))
    if min(there, back) < SHARE:
        findings.append(f"{name}: ink differs, {100 * min(there, back):.2f} % is the same")


def inspect(task):
    """One SVG against the DXF of its name and the page of its title; what was compared and what was found."""
    path, folder, pictures = task
    said, findings = [], []
    size = sheet_size(path)
    ours = ink(rasterise(path.read_text()), size)
    if ours.sum() < 100:
        findings.append(f"{path}: hardly any ink")
    dxf = path.with_suffix(".dxf")
    if dxf.exists():
        compare(f"{dxf.relative_to(folder)} and SVG", ink(draw_dxf(dxf, size), size), ours, said, findings, pictures)
    for pdf in sorted(path.parent.glob("*.pdf")):
        document = pymupdf.open(pdf)
        title = ET.parse(path).getroot().findtext("{http://www.w3.org/2000/svg}title")
        for _, bookmark, number in document.get_toc():
            if bookmark == title:
                pix = document[number - 1].get_pixmap(dpi=DPI, colorspace=pymupdf.csGRAY, alpha=False)
                page = ink(Image.frombytes("L", (pix.width, pix.height), pix.samples), size)
                compare(f"{pdf.relative_to(folder)} page {number} and {path.name}", page, ours, said, findings, pictures)
    return said, findings


def main(args):
    pictures = args[args.index("--pictures") + 1] if "--pictures" in args else None
    folder = Path(args[0])
    findings, pairs = [], 0
    with ProcessPoolExecutor() as pool:
        for said, found in pool.map(inspect, [(path, folder, pictures) for path in sorted(folder.rglob("*.svg"))]):
            pairs += len(said)
            findings += found
            print(*said, sep="\n", flush=True)
    if not pairs:
        findings.append(f"{folder}: no pair of files to compare")
    print(*findings, sep="\n")
    print(f"{pairs} pairs, {len(findings)} findings")
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
