"""Conversions of coordinates beside pyproj, convertbng and pandas."""

import sys

from common import HERE, run, turns

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


def bench(strew, arrays, out, quick, environment, results):
    import numpy as np

    n, size, times = (10**6, "1e6", 3) if quick else (10**7, "1e7", 3)

    def peer(name, source, target):
        said, _, peak = run([sys.executable, HERE / "coordinates_peer.py", name, source, target], environment)
        return float(said), peak

    def add(name, peer_name, pair, difference):
        # Neither side is the truth here: the error is the largest difference between the two, in metres.
        results.add(f"convert-{name}-{size}", n, pair[0], peer_name, pair[1], difference, difference, "m")

    files = [out / name for name in ("in.bin", "ours.bin", "peer.bin")]
    for name, start, end, peer_name, (west, south, east, north), unit_m in ARRAYS:
        random = np.random.default_rng(1)
        np.concatenate([random.uniform(west, east, n), random.uniform(south, north, n)]).tofile(files[0])

        def ours():
            said, _, peak = run([arrays, str(start), str(end), files[0], files[1]])
            return float(said.split()[0]), peak

        pair = turns([ours, lambda: peer(name, files[0], files[2])], times)
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

    pair = turns([ours, lambda: peer("table", source, peers)], 1 if not quick else times)
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
