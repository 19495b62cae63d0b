"""Times our program and general-purpose libraries on the same data, in turns, and compares answers.

bench.py STREW ARRAYS SURFACES OUT [--quick] [--room NAME]: the program, the two bench programs (benches/*.rs), the
folder to work in. Writes OUT/ratios.json and prints it as a table. Peers in Python are installed into OUT/peers.
"""

import os
import subprocess
import sys
from pathlib import Path

from common import Results

PEERS = ["numpy", "pandas", "pyproj", "convertbng", "scipy", "KDEpy", "matplotlib"]


def main():
    strew, arrays, surfaces, out = sys.argv[1], sys.argv[2], sys.argv[3], Path(sys.argv[4])
    quick = "--quick" in sys.argv
    room = sys.argv[sys.argv.index("--room") + 1] if "--room" in sys.argv else None
    out.mkdir(parents=True, exist_ok=True)
    folder = out / "peers"
    if not (folder / "matplotlib").exists():
        pip = [sys.executable, "-m", "pip", "install", "--quiet", "--upgrade", "--target", str(folder), *PEERS]
        subprocess.run(pip, check=True)
    environment = {**os.environ, "PYTHONPATH": str(folder)}
    sys.path.insert(0, str(folder))
    import coordinates
    import density
    import maps

    results = Results()
    if room in (None, "coordinates"):
        coordinates.bench(strew, arrays, out, quick, environment, results)
    if room in (None, "density"):
        density.bench(surfaces, out, quick, environment, results)
    if room in (None, "maps"):
        maps.bench(strew, out, quick, environment, results)
    results.write(out / "ratios.json")


main()
