#!/usr/bin/env python3
"""Does the PDF of a set hold its sheets? export_pdf.py FOLDER

For each PDF beside SVG files: a bookmark for every page; each page as large as the SVG of that title to 0.1 mm; every
text of the SVG found again as text in the order of its letters; fonts embedded; no date. Read by PyMuPDF and by
poppler (pdfinfo, pdffonts), two independent readers.

Needs: pip pymupdf; Debian poppler-utils.
Prints one line a finding and 'N findings' last; exit 1 if there are any.
"""
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pymupdf

SVG = "{http://www.w3.org/2000/svg}"
MM = 25.4 / 72


def squeeze(text):
    return re.sub(r"\s+", "", text)


def inspect(pdf, sheets, findings):
    document = pymupdf.open(pdf)
    if document.is_repaired:
        findings.append(f"{pdf}: had to be repaired")
    toc = document.get_toc()
    if len(toc) != len(document):
        findings.append(f"{pdf}: {len(toc)} bookmarks for {len(document)} pages")
    info = subprocess.run(["pdfinfo", "-f", "1", "-l", str(len(document)), str(pdf)], capture_output=True, text=True, check=True).stdout
    sizes = [(float(w) * MM, float(h) * MM) for w, h in re.findall(r"Page\s+\d+ size:\s+([\d.]+) x ([\d.]+)", info)]
    if "Date:" in info:
        findings.append(f"{pdf}: carries a date")
    if not re.search(r"^Title:\s+\S", info, re.M):
        findings.append(f"{pdf}: has no title")
    listing = subprocess.run(["pdffonts", str(pdf)], capture_output=True, text=True, check=True).stdout.splitlines()[2:]
    for line in listing:
        if not re.search(r"\byes\s+yes\s+yes\b", line):
            findings.append(f"{pdf}: font not embedded as a subset with its characters: {line}")
    texts = 0
    for _, title, number in toc:
        page = document[number - 1]
        root = sheets.pop(title, None)
        if root is None:
            findings.append(f"{pdf}: no SVG for the bookmark {title!r}, or two of that name")
            continue
        size = [float(root.get(side)[:-2]) for side in ("width", "height")]
        for reader, got in (("PyMuPDF", (page.rect.width * MM, page.rect.height * MM)), ("pdfinfo", sizes[number - 1])):
            if any(abs(a - b) > 0.1 for a, b in zip(size, got)):
                findings.append(f"{pdf}: page {number} is {got} mm by {reader}, the sheet {size}")
        lines = set()
        for block in page.get_text("rawdict")["blocks"]:
            for line in block.get("lines", []):
                lines.add(squeeze("".join(c["c"] for span in line["spans"] for c in span["chars"])))
        whole = "\n".join(lines)
        for t in root.iter(f"{SVG}text"):
            texts += 1
            if squeeze(t.text or "") not in whole:
                findings.append(f"{pdf}: page {number} lacks the text {t.text!r}")
    findings += [f"{pdf}: no page for the sheet {title!r}" for title in sheets]
    return texts


def main(args):
    folder = Path(args[0])
    findings, texts = [], 0
    files = sorted(folder.rglob("*.pdf"))
    for pdf in files:
        sheets = {}
        for svg in sorted(pdf.parent.glob("*.svg")):
            root = ET.parse(svg).getroot()
            sheets[root.findtext(f"{SVG}title")] = root
        texts += inspect(pdf, sheets, findings)
    if not files or not texts:
        findings.append(f"{folder}: no PDF with a sheet to compare")
    print(*findings, sep="\n")
    print(f"{len(files)} PDF files, {texts} texts looked up")
    print(f"{len(findings)} findings")
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
