"""Times our conversions and general-purpose libraries' on the same data, in turns, and compares answers.

bench.py STREW ARRAYS OUT [--quick]: the program, the array program (benches/arrays.rs), the folder to
work in. Writes OUT/ratios.json and prints it as a table. Peers are installed into OUT/peers.
"""

import json
import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
PEERS = ["numpy", "pandas", "pyproj", "convertbng"]
# Name, our systems, the peer, degrees or metres to begin with, the box, metres in a unit of the answer.
DEGREE_M = 111_320
BRITAIN, FRANCE, IRELAND = (-5.0, 50.5, 1.0, 57.0), (-1.0, 43.5, 7.0, 50.5), (-10.0, 51.6, -5.6, 55.2)
ARRAYS = [
    ("osgb-forward", 4326, 27700, "convertbng", BRITAIN, 1),
    ("osgb-inverse", 27700, 4326, "convertbng", (200_000, 50_000, 620_000, 800_000), DEGREE_M),
    ("lambert93", 4326, 2154, "pyproj", FRANCE, 1),
    ("utm30", 4326, 32630, "pyproj", (-6.0, 45.0, 0.0, 60.0), 1),
    ("irish", 4326, 29902, "pyproj", IRELAND, 1),
]


def run(command, environment=None):
    """Runs a command: its output's first line, wall seconds, and the most memory it held, MB."""
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.PIPE, env=environment, text=True)
    said = process.stdout.read()
    _, status, usage = os.wait4(process.pid, 0)
    if status != 0:
        sys.exit(f"failed: {' '.join(map(str, command))}")
    return said.split("\n")[0], time.perf_counter() - start, usage.ru_maxrss / 1024


def turns(ours, peer, times):
    """Both in turns; the median seconds and the largest memory of each."""
    taken = ([], []), ([], [])
    for _ in range(times):
        for side, (seconds, peak) in zip((ours, peer), taken):
            took, memory = side()
            seconds.append(took)
            peak.append(memory)
    return [(statistics.median(seconds), max(peak)) for seconds, peak in taken]


def main():
    strew, arrays, out = sys.argv[1], sys.argv[2], Path(sys.argv[3])
    quick = "--quick" in sys.argv
    n, size, times = (10**6, "1e6", 3) if quick else (10**7, "1e7", 3)
    out.mkdir(parents=True, exist_ok=True)
    folder = out / "peers"
    if not (folder / "convertbng").exists():
        pip = [sys.executable, "-m", "pip", "install", "--quiet", "--target", str(folder), *PEERS]
        subprocess.run(pip, check=True)
    environment = {**os.environ, "PYTHONPATH": str(folder)}
    sys.path.insert(0, str(folder))
    import numpy as np

    def peer(name, source, target):
        said, _, peak = run([sys.executable, HERE / "peer.py", name, source, target], environment)
        return float(said), peak

    results = []

    def add(name, peer_name, pair, difference):
        (ours_s, ours_mb), (peer_s, peer_mb) = pair
        # Neither side is the truth here: the error is the largest difference between the two, in metres.
        results.append({
            "name": f"convert-{name}-{size}", "n": n, "ours_s": ours_s, "peer": peer_name, "peer_s": peer_s,
            "ratio": peer_s / ours_s, "our_error": difference, "peer_error": difference,
            "our_peak_mb": ours_mb, "peer_peak_mb": peer_mb,
        })
        print(f"{name} {size}: ours {ours_s:.3f} s, {peer_name} {peer_s:.3f} s, ratio {peer_s / ours_s:.2f}, "
              f"largest difference {difference:.2g} m", flush=True)

    files = [out / name for name in ("in.bin", "ours.bin", "peer.bin")]
    for name, start, end, peer_name, (west, south, east, north), unit_m in ARRAYS:
        random = np.random.default_rng(1)
        np.concatenate([random.uniform(west, east, n), random.uniform(south, north, n)]).tofile(files[0])

        def ours():
            said, _, peak = run([arrays, str(start), str(end), files[0], files[1]])
            return float(said.split()[0]), peak

        pair = turns(ours, lambda: peer(name, files[0], files[2]), times)
        answers = [np.fromfile(file) for file in files[1:]]
        both = np.isfinite(answers[0]) & np.isfinite(answers[1])
        one_sided = int((np.isfinite(answers[0]) != np.isfinite(answers[1])).sum()) // 2
        if one_sided:
            print(f"{name}: {one_sided} places carried by one side alone (outside a system's bounds)")
        add(name, peer_name, pair, float(np.abs(answers[0] - answers[1])[both].max()) * unit_m)
    for file in files:
        file.unlink()

    source, converted, peers = out / "in.csv", out / "ours.csv", out / "peer.csv"
    random = np.random.default_rng(2)
    west, south, east, north = FRANCE
    with open(source, "w") as file:
        file.write("id,lat,lon,kind,period,weight\n")
        for begin in range(0, n, 10**5):
            places = zip(random.uniform(south, north, 10**5), random.uniform(west, east, 10**5))
            file.writelines(f"{begin + i},{lat:.7f},{lon:.7f},flake,Mesolithic,{i % 97 / 10}\n"
                            for i, (lat, lon) in enumerate(places))

    def ours():
        command = [strew, "convert", "--quiet", "--to", "lambert-93", "--table", source, "--out", converted]
        _, took, peak = run(command)
        return took, peak

    pair = turns(ours, lambda: peer("table", source, peers), 1 if not quick else times)
    worst = 0.0
    with open(converted) as ours_file, open(peers) as peer_file:
        columns = [next(file).strip().split(",") for file in (ours_file, peer_file)]
        places = [[names.index(name) for name in ("easting", "northing")] for names in columns]
        for a, b in zip(ours_file, peer_file, strict=True):
            a, b = a.split(","), b.split(",")
            worst = max(worst, *(abs(float(a[i]) - float(b[j])) for i, j in zip(*places)))
    add("table", "pandas and pyproj", pair, worst)
    for file in (source, converted, peers):
        file.unlink()

    (out / "ratios.json").write_text(json.dumps(results, indent=1) + "\n")
    print(f"\n{'name':<28}{'ours s':>9}{'peer s':>9}{'ratio':>8}{'error m':>10}{'our MB':>8}{'peer MB':>9}  peer")
    for row in results:
        print(f"{row['name']:<28}{row['ours_s']:>9.3f}{row['peer_s']:>9.3f}{row['ratio']:>8.2f}"
              f"{row['our_error']:>10.2g}{row['our_peak_mb']:>8.0f}{row['peer_peak_mb']:>9.0f}  {row['peer']}")


main()
