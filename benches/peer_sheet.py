#!/usr/bin/env python3
"""One sheet written with ezdxf, the peer of benches/cold_run.py: peer_sheet.py FILE KIND=COUNT …

Draws as many entities of each kind as it is told to, on layers, with line types, real dimensions with their blocks,
text in the same style, hatched areas; then audits and saves. What it draws has the kinds and numbers of a general
arrangement, not its content.
"""
import math
import sys

import ezdxf
from ezdxf.enums import TextEntityAlignment

LAYERS = (("WIDE", 70, "CONTINUOUS"), ("NARROW", 35, "CONTINUOUS"), ("CENTRE", 35, "CENTER"), ("HIDDEN", 35, "DASHED"), ("TEXT", 35, "CONTINUOUS"), ("DIM", 35, "CONTINUOUS"))


def place(i):
    """A point of a grid over an A1 sheet at 1:20, mm."""
    return 100 + (i * 137) % 16000, 100 + ((i * 137) // 16000 * 61) % 11000


def main(path, counts):
    doc = ezdxf.new("R2010", setup=True)
    doc.units = ezdxf.units.MM
    for name, weight, linetype in LAYERS:
        doc.layers.add(name, lineweight=weight, linetype=linetype)
    doc.styles.add("SHEET", font="DejaVuSansCondensed.ttf")
    style = doc.dimstyles.duplicate_entry("EZDXF", "SHEET")
    style.dxf.dimtxt, style.dxf.dimasz, style.dxf.dimscale, style.dxf.dimtxsty = 3.5, 3.5, 20, "SHEET"
    style.dxf.dimdec, style.dxf.dimlfac = 1, 1
    msp = doc.modelspace()
    for kind, count in counts.items():
        for i in range(count):
            x, y = place(i)
            layer = {"layer": LAYERS[i % len(LAYERS)][0]}
            if kind == "LINE":
                msp.add_line((x, y), (x + 300, y + 40 * (i % 5)), dxfattribs=layer)
            elif kind == "CIRCLE":
                msp.add_circle((x, y), 20 + i % 400, dxfattribs=layer)
            elif kind == "ARC":
                msp.add_arc((x, y), 20 + i % 400, i % 360, i % 360 + 90, dxfattribs=layer)
            elif kind == "LWPOLYLINE":
                ring = [(x + 150 * math.cos(a / 4 * math.pi), y + 150 * math.sin(a / 4 * math.pi)) for a in range(8)]
                msp.add_lwpolyline(ring, close=True, dxfattribs=layer)
            elif kind == "SOLID":
                msp.add_solid([(x, y), (x + 70, y + 12), (x + 70, y - 12)], dxfattribs=layer)
            elif kind == "TEXT":
                msp.add_text(f"text {i}", height=70, dxfattribs={"layer": "TEXT", "style": "SHEET"}).set_placement((x, y), align=TextEntityAlignment.LEFT)
            elif kind == "HATCH":
                hatch = msp.add_hatch(dxfattribs=layer)
                hatch.set_pattern_fill("ANSI31", scale=40)
                hatch.paths.add_polyline_path([(x, y), (x + 500, y), (x + 500, y + 200), (x, y + 200)], is_closed=True)
            elif kind == "DIMENSION":
                msp.add_linear_dim(base=(x, y + 200), p1=(x, y), p2=(x + 100 + i, y), dimstyle="SHEET", dxfattribs={"layer": "DIM"}).render()
            else:
                sys.exit(f"no way to draw a {kind}")
    audit = doc.audit()
    if audit.errors:
        sys.exit(f"{len(audit.errors)} errors")
    doc.saveas(path)


if __name__ == "__main__":
    main(sys.argv[1], {kind: int(count) for kind, _, count in (word.partition("=") for word in sys.argv[2:])})
