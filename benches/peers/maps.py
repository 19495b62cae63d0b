"""Maps of a large register, from the study file to the sheet, beside pandas and matplotlib, which do less of it."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

from common import HERE, run, turns

DEMO = HERE.parent.parent / "demo-findspots/hernsey"
CLASSES = [("flake", 50), ("blade", 10), ("irregular waste", 9), ("scraper", 8), ("core", 7), ("retouched piece", 6),
           ("microlith", 4), ("piercer", 3), ("leaf arrowhead", 1), ("polished axehead", 1), ("", 1)]
PERIODS = [("", 50), ("Mesolithic", 12), ("Late Mesolithic", 10), ("Early Neolithic", 9), ("Neolithic", 6),
           ("Late Neolithic to Early Bronze Age", 8), ("Bronze Age", 3), ("Prehistoric", 2)]
KINDS = {
    "cells": ["--by", "cells"],
    "symbols": ["--by", "symbols"],
    "parishes": ["--by", "parishes"],
    "density": ["--by", "density"],
    "concentrations": ["--by", "concentrations"],
    "each-period": ["--each", "period"],
    "each-class": ["--each", "class"],
}


def centres():
    """Where the demo's finds lie, to a hundred metres: thick on its fields and beaches, on dry land or nearly."""
    text = (DEMO / "finds-society.csv").read_text(encoding="utf-8-sig")
    for east, north in re.findall(r"OV ?(\d{3,5}) ?(\d{3,5})\b", text):
        if len(east) == len(north):
            unit = 10 ** (5 - len(east))
            yield 500_000 + int(east) * unit, 500_000 + int(north) * unit


def study(folder, rows):
    """A study of that many rows on the demo's ground, from a seed; the study file's path."""
    import numpy as np

    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(DEMO / "ground", folder / "ground")
    text = (DEMO / "study.toml").read_text()
    text = re.sub(r"files = \[.*\]", 'files = ["finds.csv"]', text[:text.index("[[fieldwork]]")])
    (folder / "study.toml").write_text(text)
    random = np.random.default_rng(3)
    known = np.array([place for place in centres()])
    places = known[random.integers(0, len(known), rows)] + random.normal(0, 180, (rows, 2))

    def pick(choices):
        share = np.array([weight for _, weight in choices], float)
        return random.choice([name for name, _ in choices], rows, p=share / share.sum())

    counts = np.minimum(random.geometric(0.6, rows), 40)
    with open(folder / "finds.csv", "w") as file:
        file.write("No,Grid ref,Class,Period,Count,Marks,Land use\n")
        for number, (place, kind, period, count) in enumerate(zip(places, pick(CLASSES), pick(PERIODS), counts)):
            east, north = (int(metres) % 100_000 for metres in place)
            file.write(f'{number},OV {east:05} {north:05},{kind},{period},{count},"platform, bulb",ploughland\n')
    return folder / "study.toml"


def bench(strew, out, quick, environment, results):
    rows = 100_000
    made = study(out / "many", rows)
    sheet, picture = out / "many.svg", out / "peer.svg"

    def ours(arguments):
        _, took, peak = run([strew, "map", made, "--quiet", "--out", sheet, *arguments])
        return took, peak

    def peer():
        said, took, peak = run([sys.executable, HERE / "maps_peer.py", made.parent, picture], environment)
        return took, peak

    for name, arguments in KINDS.items():
        times = 3 if quick else 7
        mine, theirs = turns([lambda: ours(arguments), peer], times)
        title = "map-1e5" if name == "cells" else f"map-{name}-1e5"
        results.add(title, rows, mine, "pandas, matplotlib", theirs, float("nan"), float("nan"), "")
        for file in out.glob("many*.svg"):
            file.unlink()


if __name__ == "__main__":
    # maps.py FOLDER ROWS: the study alone.
    print(study(Path(sys.argv[1]), int(sys.argv[2])))
