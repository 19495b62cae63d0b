"""A Python peer's side of one density benchmark: density_peer.py JOB IN OUT H SIDE; prints its seconds."""

import sys
import time

import numpy as np

WIDE = 20_000.0


def histogram(x, y, h, side):
    """Nearest-pixel counts, blurred. Pixel numbers are part of the work: nobody has them beforehand."""
    from scipy.ndimage import gaussian_filter

    pixel = WIDE / side
    start = time.perf_counter()
    index = (y / pixel).astype(np.int64) * side + (x / pixel).astype(np.int64)
    counts = np.bincount(index, minlength=side * side).reshape(side, side).astype(float)
    surface = gaussian_filter(counts, h / pixel, mode="constant") / pixel**2
    return time.perf_counter() - start, surface


def transform(x, y, h, side):
    """KDEpy by FFT, rescaled to kilometres: in metres its kernel is cut far too near."""
    from KDEpy import FFTKDE

    pixel = WIDE / side
    start = time.perf_counter()
    km = np.column_stack([x, y]) / 1000
    # The grid must hold every point strictly, so it goes a ring of pixels beyond.
    axis = (np.arange(-1, side + 1) + 0.5) * pixel / 1000
    grid = np.stack(np.meshgrid(axis, axis, indexing="ij"), -1).reshape(-1, 2)
    values = FFTKDE(kernel="gaussian", bw=h / 1000).fit(km).evaluate(grid)
    surface = values.reshape(side + 2, side + 2)[1:-1, 1:-1].T * len(x) / 1e6
    return time.perf_counter() - start, surface


def main():
    job, source, target, h, side = sys.argv[1:]
    x, y = np.fromfile(source).reshape(2, -1)
    seconds, surface = {"histogram": histogram, "transform": transform}[job](x, y, float(h), int(side))
    print(seconds)
    np.ascontiguousarray(surface).tofile(target)


main()
