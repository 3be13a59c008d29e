#!/usr/bin/env python3
"""The 44 points that a drafter, a civil engineer and a fabricator ask of a set. scorecard.py FOLDER [--logs DIR] [--report FILE]

FOLDER holds one folder a spec, as `footwell draw --formats dxf,svg,pdf` wrote it. Every point is judged for every set from
the finished files alone; 'decisive' marks a point that fails the set by itself. DIR holds what the other checks printed
(export_ink.log, export_pdf.log, export_dwg.log, export_readers.log, cut_files.log); a point that rests on one of them is 'no' when the log is
missing. Points that are not met are listed with their finding, never passed over.

Needs: pip ezdxf==1.4.5 matplotlib shapely numpy (and random_sheets.py beside this file).
Prints the card; exit 1 if any point is 'no'.
"""
import argparse
import sys
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from scorecard_points import civil, drafter, fabricator
from scorecard_points.reading import Logs, Set

POINTS = drafter.POINTS | civil.POINTS | fabricator.POINTS


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
