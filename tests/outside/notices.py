"""Writes THIRD_PARTY.md: every crate that is linked into the program, from `cargo metadata`, and the font's licence.

    python3 tests/outside/notices.py

Normal dependencies on every platform, theirs too, with the derive macros and what those need; not dev-dependencies
and not what only builds C code or asks for the compiler's version. Run it after every change of Cargo.lock;
tests/licences.rs says when that was forgotten.
"""

import json
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

HEAD = """# Software and type of others in footwell

footwell itself is under MIT or Apache-2.0, at your choice (LICENSE-MIT, LICENSE-APACHE). It is built from the
crates below, each used unchanged. Source, licence text and copyright notice of each are in its package on crates.io, under the
name and version given here. Written by `tests/outside/notices.py`.

"""

MPL = """## Under the Mozilla Public License 2.0

{crates}: used unchanged, as a library. Its source is the package of that name and version on crates.io
(https://crates.io/crates/{name}/{version}); the licence is at https://mozilla.org/MPL/2.0/. The DWG code in it is adapted
in part from a library under the MIT licence, whose notice is in the package (THIRD_PARTY_NOTICES.md).

"""

FONT = """## The font

The program carries DejaVu Sans Condensed, regular and bold, from the crate dejavu {version}, unchanged, and embeds the
glyphs that a sheet uses in its PDF files. Licence of the DejaVu and Bitstream Vera fonts:

```text
{text}
```
"""


def main():
    data = json.loads(
        subprocess.run(["cargo", "metadata", "--locked", "--format-version", "1"], cwd=ROOT, check=True, capture_output=True, text=True).stdout
    )
    packages = {p["id"]: p for p in data["packages"]}
    nodes = {n["id"]: n for n in data["resolve"]["nodes"]}
    seen, waiting = set(), [data["resolve"]["root"]]
    while waiting:
        here = waiting.pop()
        if here not in seen:
            seen.add(here)
            waiting += [d["pkg"] for d in nodes[here]["deps"] if any(k["kind"] is None for k in d["dep_kinds"])]
    seen.remove(data["resolve"]["root"])
    crates = sorted((packages[i] for i in seen), key=lambda p: (p["name"], p["version"]))
    for p in crates:
        if not p["license"]:
            raise SystemExit(f"{p['name']} {p['version']} names no licence")
    # The slash is the old way to write OR.
    licence = {p["id"]: p["license"].replace("/", " OR ") for p in crates}
    text = HEAD + "| crate | version | licence |\n|---|---|---|\n"
    text += "".join(f"| {p['name']} | {p['version']} | {licence[p['id']]} |\n" for p in crates) + "\n"
    mozilla = [p for p in crates if "MPL" in licence[p["id"]]]
    for p in mozilla:
        text += MPL.format(crates=f"{p['name']} {p['version']}", name=p["name"], version=p["version"])
    font = next(p for p in crates if p["name"] == "dejavu")
    words = next(Path(font["manifest_path"]).parent.glob("assets/*/LICENSE")).read_text()
    text += FONT.format(version=font["version"], text="\n".join(line.rstrip() for line in words.strip().splitlines()))
    (ROOT / "THIRD_PARTY.md").write_text(text)
    print(f"{len(crates)} crates, {len(mozilla)} under MPL-2.0")


if __name__ == "__main__":
    main()
