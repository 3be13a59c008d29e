#!/usr/bin/env python3
"""How long does a whole cold run take, and how much memory? benches/cold_run.py [--runs N] [PROGRAM]

Ours: `footwell draw templates/tall_bend.toml`, as a user starts it: spec to all sheets, cutting files, lists and report.
Peer: benches/peer_sheet.py, a Python script that writes one sheet with ezdxf, with as many lines, circles, texts,
    hatches and dimensions as the general arrangement of that set has. It computes nothing and checks nothing.
Runs alternate, each in a new process; the middle of the runs counts. A ratio below 1 means that ours is faster.
On a machine with other work the seconds of processor tell more than those of the clock.

Needs: a release build (cargo build --release) and the Python environment of the tests (.venv, made by tests/run).
"""
import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

import ezdxf

ROOT = Path(__file__).resolve().parent.parent


def run(command):
    """Seconds by the clock, seconds of processor and largest resident memory in MB of one process."""
    begin = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - begin
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        sys.exit(f"{command} stops with {process.returncode}")
    return seconds, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def middle(runs):
    return [statistics.median(column) for column in zip(*runs)]


def main():
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--runs", type=int, default=5)
    arguments.add_argument("program", nargs="?", default=ROOT / "target/release/footwell")
    asked = arguments.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder)
        whole = [str(asked.program), "draw", str(ROOT / "templates/tall_bend.toml"), "-o", str(there / "set")]
        run(whole)
        drawn = there / "set/sheets/ga.dxf"
        counts = Counter(e.dxftype() for e in ezdxf.readfile(drawn).modelspace())
        peer = [sys.executable, str(ROOT / "benches/peer_sheet.py"), str(there / "peer.dxf"), *(f"{kind}={n}" for kind, n in sorted(counts.items()))]
        ours, theirs = [], []
        for _ in range(asked.runs):
            ours.append(run(whole))
            theirs.append(run(peer))
        files = [path for path in (there / "set").rglob("*") if path.is_file()]
        sheets = len(list((there / "set/sheets").glob("*.dxf")))
        print(f"the sheet: {dict(sorted(counts.items()))}; {drawn.stat().st_size} bytes, the peer's {(there / 'peer.dxf').stat().st_size}")
    for name, runs in (("footwell draw, whole set", ours), ("ezdxf, one sheet", theirs)):
        clock, processor, memory = middle(runs)
        print(f"{name}: {clock:.3f} s by the clock, {processor:.3f} s of processor, {memory:.0f} MB")
    clock, processor, memory = (a / b for a, b in zip(middle(ours), middle(theirs)))
    print(f"ratio whole set ({sheets} sheets, {len(files)} files) to one sheet: clock {clock:.2f}, processor {processor:.2f}, memory {memory:.2f}")


if __name__ == "__main__":
    main()
