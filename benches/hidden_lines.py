#!/usr/bin/env python3
"""All views of a starter, hidden lines removed by us and by OCP's exact algorithm, one core each: hidden_lines.py [STARTER]

Needs the environment of tests/run. Builds the release example `peer_views`, which writes the views with the least of five
times that each took here (bodies read, projected, cut), and asks OCP for the same bodies from the same views; reading the
STEP file and cutting for sections are not counted as OCP's time. Prints both sums in ms and their ratio.
"""

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests/outside"))
import hidden_lines as judge  # noqa: E402


def main():
    starter = sys.argv[1] if len(sys.argv) > 1 else "tall_bend"
    subprocess.run(["cargo", "build", "--quiet", "--release", "--example", "peer_views"], cwd=ROOT, check=True)
    ours = theirs = 0.0
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([ROOT / "target/release/examples/peer_views", folder, "--time", f"{starter}/*"], check=True)
        views = json.loads((Path(folder) / f"{starter}.views.json").read_text())
        found = judge.instances(Path(folder) / f"{starter}.step")
        for view in views:
            pieces = judge.before_the_viewer(view, found)
            begin = time.process_time()
            judge.seen_by_ocp(pieces, view)
            theirs += time.process_time() - begin
            ours += view["seconds"]
    print(f"{starter}, {len(views)} pictures: {ours * 1e3:.1f} ms here, {theirs * 1e3:.0f} ms in OCP, ratio {theirs / ours:.0f}")


if __name__ == "__main__":
    main()
