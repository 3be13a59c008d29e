#!/usr/bin/env python3
"""Do independent open readers take our DWG files? export_dwg.py FOLDER [--node-modules DIR]

Each DWG is read by ezdwg (its own parser in Rust) and by LibreDWG (in its WebAssembly build, run by node), and what they
see in model space is compared with what ezdxf sees in the DXF of the same name: kinds and counts, texts, the ends of
lines, measurements of dimensions. GDAL's driver reads R2000 only; it must open those. None of these is the program of the
format's owner; that no such program was tried has to be said wherever DWG is offered.

Needs: pip ezdxf==1.4.5 ezdwg==0.17.0; npm @mlightcad/libredwg-web@0.7.14 in DIR (default: node_modules here); node;
Debian gdal-bin. Prints one line a finding and 'N findings' last; exit 1 if there are any.
"""
import json
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import ezdwg
import ezdxf

NODE = """
import fs from 'fs';
const { Dwg_File_Type, LibreDwg } = await import(process.argv[1] + '/@mlightcad/libredwg-web/dist/libredwg-web.js');
const lib = await LibreDwg.create();
const all = {};
for (const file of process.argv.slice(2)) {
  const bytes = fs.readFileSync(file);
  const dwg = lib.dwg_read_data(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length), Dwg_File_Type.DWG);
  if (!dwg) { all[file] = null; continue; }
  const db = lib.convert(dwg);
  all[file] = {
    kinds: db.entities.map(e => e.type),
    texts: db.entities.filter(e => e.type === 'TEXT').map(e => e.text),
    layers: [...new Set(db.entities.map(e => e.layer))],
    lines: db.entities.filter(e => e.type === 'LINE').map(e => [e.startPoint.x, e.startPoint.y, e.endPoint.x, e.endPoint.y]),
    dimensions: db.entities.filter(e => e.type === 'DIMENSION').map(e => e.measurement),
  };
  lib.dwg_free(dwg);
}
console.log(JSON.stringify(all));
"""


def numbers(rows):
    return sorted(tuple(round(v, 4) + 0.0 for v in row) for row in rows)


def expected(path):
    msp = ezdxf.readfile(path).modelspace()
    return {
        "kinds": Counter(e.dxftype() for e in msp),
        "texts": sorted(re.sub(r"\\U\+([0-9A-F]{4})", lambda m: chr(int(m[1], 16)), e.dxf.text) for e in msp.query("TEXT")),
        "lines": numbers([*e.dxf.start.vec2, *e.dxf.end.vec2] for e in msp.query("LINE")),
        "layers": {e.dxf.layer for e in msp},
        "dimensions": numbers((e.dxf.actual_measurement,) for e in msp.query("DIMENSION")),
    }


def by_ezdwg(path):
    entities = list(ezdwg.read(str(path)).modelspace().iter_entities())
    return {
        "kinds": Counter(e.dxftype for e in entities),
        "texts": sorted(e.dxf["text"] for e in entities if e.dxftype == "TEXT"),
        "lines": numbers([*e.dxf["start"][:2], *e.dxf["end"][:2]] for e in entities if e.dxftype == "LINE"),
    }


def by_libredwg(files, modules):
    run = subprocess.run(["node", "--input-type=module", "-e", NODE, str(modules.resolve()), *map(str, files)], capture_output=True, text=True)
    if run.returncode:
        raise RuntimeError(run.stderr.strip()[-300:])
    seen = {}
    for name, s in json.loads(run.stdout.splitlines()[-1]).items():
        seen[name] = s and {
            "kinds": Counter(s["kinds"]),
            "texts": sorted(s["texts"]),
            "lines": numbers(s["lines"]),
            "layers": set(s["layers"]),
            "dimensions": numbers((m,) for m in s["dimensions"]),
        }
    return seen


def differences(path, reader, wanted, seen, findings):
    if seen is None:
        findings.append(f"{path}: {reader} cannot read it")
        return
    for what, value in seen.items():
        if value != wanted[what]:
            a, b = (set(map(str, v.items() if isinstance(v, Counter) else v)) for v in (wanted[what], value))
            findings.append(f"{path}: {reader} sees other {what}: missing {sorted(a - b)[:5]}, more {sorted(b - a)[:5]}")


def main(args):
    modules = Path(args[args.index("--node-modules") + 1] if "--node-modules" in args else "node_modules")
    folder = Path(args[0])
    findings = []
    files = [f for f in sorted(folder.rglob("*.dwg")) if f.with_suffix(".dxf").exists()]
    if not files:
        findings.append(f"{folder}: no DWG file beside its DXF")
    try:
        libre = by_libredwg(files, modules)
    except (RuntimeError, FileNotFoundError) as error:
        findings.append(f"LibreDWG cannot be run: {error}")
        libre = {}
    for path in files:
        wanted = expected(path.with_suffix(".dxf"))
        try:
            differences(path, "ezdwg", wanted, by_ezdwg(path), findings)
        except Exception as error:  # whatever it is, the file was not read
            findings.append(f"{path}: ezdwg fails: {error!r}")
        if libre:
            differences(path, "LibreDWG", wanted, libre.get(str(path)), findings)
        if path.read_bytes()[:6] == b"AC1015":
            run = subprocess.run(["ogrinfo", "-ro", "-so", str(path)], capture_output=True, text=True)
            if run.returncode or re.search("ERROR|FAIL", run.stdout + run.stderr):
                findings.append(f"{path}: GDAL says {(run.stdout + run.stderr).strip()[:200]}")
    print(*findings, sep="\n")
    print(f"{len(files)} DWG files")
    print(f"{len(findings)} findings")
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
