"""A peer's side of one benchmark: peer.py NAME IN OUT; prints the seconds that the work took."""

import sys
import time

import numpy as np

SYSTEMS = {"lambert93": 2154, "utm30": 32630, "irish": 29902}


def arrays(name, source, target):
    x, y = np.fromfile(source).reshape(2, -1)
    if name == "osgb-forward":
        from convertbng.cutil import convert_bng

        start = time.perf_counter()
        out = convert_bng(x, y)
    elif name == "osgb-inverse":
        from convertbng.cutil import convert_lonlat

        start = time.perf_counter()
        out = convert_lonlat(x, y)
    else:
        from pyproj import Transformer

        start = time.perf_counter()
        transformer = Transformer.from_crs(4326, SYSTEMS[name], always_xy=True)
        out = transformer.transform(x, y)
    print(time.perf_counter() - start)
    np.concatenate([np.asarray(axis, dtype=float) for axis in out]).tofile(target)


def table(source, target):
    import pandas
    from pyproj import Transformer

    start = time.perf_counter()
    frame = pandas.read_csv(source)
    transformer = Transformer.from_crs(4326, 2154, always_xy=True)
    frame["easting"], frame["northing"] = transformer.transform(frame["lon"].values, frame["lat"].values)
    frame.to_csv(target, index=False)
    print(time.perf_counter() - start)


name, source, target = sys.argv[1:]
if name == "table":
    table(source, target)
else:
    arrays(name, source, target)
