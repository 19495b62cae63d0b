"""Densities and bandwidths beside NumPy and SciPy, KDEpy, ks, spatstat and sparr.

Data: a seeded mixture of 40 Gaussian clusters (standard deviation 50–500 m) with a fifth of even scatter, in 20 km by
20 km. Errors are the largest relative difference from the direct sum, at pixel centres where that is above a
hundredth of its maximum, for the first 10,000 points on the same raster.
"""

import sys

import numpy as np

from common import HERE, run, turns

WIDE, H = 20_000.0, 250.0


def points(n):
    random = np.random.default_rng(42)
    centres, spreads = random.uniform(2_000, 18_000, (40, 2)), random.uniform(50, 500, 40)
    many = int(n * 0.8)
    which = random.integers(0, 40, many)
    clustered = centres[which] + random.normal(size=(many, 2)) * spreads[which, None]
    both = np.concatenate([clustered, random.uniform(0, WIDE, (n - many, 2))])
    random.shuffle(both)
    return np.clip(both, 0, WIDE - 0.01)


def ring():
    """A ragged coast of 2,000 vertices about the middle, anticlockwise."""
    t = np.linspace(0, 2 * np.pi, 2_000, endpoint=False)
    r = 8_000 + 900 * np.sin(5 * t) + 300 * np.cos(23 * t) + 60 * np.sin(151 * t)
    return WIDE / 2 + np.column_stack([r * np.cos(t), r * np.sin(t)])


def inside(x, y, corners):
    """Whether places lie in a ring that is seen whole from the middle."""
    x, y = x - WIDE / 2, y - WIDE / 2
    k = (np.arctan2(y, x) % (2 * np.pi) / (2 * np.pi) * len(corners)).astype(int) % len(corners)
    a, b = corners[k] - WIDE / 2, corners[(k + 1) % len(corners)] - WIDE / 2
    return (b[..., 0] - a[..., 0]) * (y - a[..., 1]) - (b[..., 1] - a[..., 1]) * (x - a[..., 0]) >= 0


def along(centres, places, h):
    return np.exp(-((centres[:, None] - places[None]) ** 2) / (2 * h * h)) / (h * np.sqrt(2 * np.pi))


def direct(xy, side, weights=None):
    centres = (np.arange(side) + 0.5) * WIDE / side
    east, north = along(centres, xy[:, 0], H), along(centres, xy[:, 1], H)
    return (north if weights is None else north * weights) @ east.T


def worst(got, judge, where=True):
    counts = (judge > 0.01 * judge.max()) & where
    return float(np.abs(got / np.where(counts, judge, 1) - 1)[counts].max())


def bench(surfaces, out, quick, environment, results):
    source, target = out / "points.bin", out / "surface.bin"
    times = 3

    def ours(job, side, h=H):
        said, _, peak = run([surfaces, job, source, target, str(h), str(side)])
        return [float(value) for value in said.split()], peak

    def peer(language, job, side):
        program = [sys.executable, HERE / "density_peer.py"] if language == "python" else \
            ["Rscript", HERE / "density_peer.R"]
        said, _, peak = run([*program, job, source, target, str(H), str(side)], environment)
        return [float(value) for value in said.split()], peak

    def first(answer):
        return answer[0][0], answer[1]

    def surface(side, ours_=False):
        values = np.fromfile(target).reshape(side, side)
        return values / 1e4 if ours_ else values

    few = points(10**6)[:10**4]
    side = 1024
    judge = direct(few, side)
    few.T.copy().tofile(source)
    ours("plain", side)
    our_error = worst(surface(side, True), judge)
    plain = [("numpy bincount, scipy gaussian_filter", "python", "histogram"), ("KDEpy in km", "python", "transform"),
             ("ks kde binned", "R", "ks"), ("spatstat density.ppp", "R", "spatstat")]
    errors = {}
    for name, language, job in plain:
        peer(language, job, side)
        errors[name] = worst(surface(side), judge)
    for n, size in [(10**6, "1e6")] + ([] if quick else [(10**7, "1e7")]):
        points(n).T.copy().tofile(source)
        sides = [lambda: first(ours("plain", side))]
        sides += [lambda l=language, j=job: first(peer(l, j, side)) for _, language, job in plain]
        taken = turns(sides, times)
        for (name, *_), its in zip(plain, taken[1:]):
            results.add(f"density-plain-{size}", n, taken[0], name, its, our_error, errors[name], "of the value")

    # A polygon's edge. What a pixel of the coast holds is ours by area, the peer's by its centre: places within a
    # pixel of the coast are not compared.
    corners = ring()
    centres = (np.arange(side) + 0.5) * WIDE / side
    fine = (np.arange(side * 4) + 0.5) * WIDE / side / 4
    x, y = np.meshgrid(fine, fine)
    share = inside(x, y, corners).reshape(side, 4, side, 4).mean((1, 3))
    solid = np.ones_like(share, bool)
    for dx in (-1, 0, 1):
        for dy in (-1, 0, 1):
            solid &= np.roll(share, (dx, dy), (0, 1)) == 1
    pixel = WIDE / side
    kernel = along(centres, centres, H) * pixel
    mass = kernel @ share @ kernel.T
    few_in = few[inside(few[:, 0], few[:, 1], corners)]
    own = along(few_in[:, 1], centres, H) * pixel @ share
    own = (own * along(few_in[:, 0], centres, H) * pixel).sum(1)
    judges = {"uniform": direct(few_in, side) / np.maximum(mass, 1e-12), "diggle": direct(few_in, side, 1 / own)}
    many = points(10**6)
    many = many[inside(many[:, 0], many[:, 1], corners)]
    corners.T.copy().tofile(f"{source}.ring")
    for edge, judge in judges.items():
        few_in.T.copy().tofile(source)
        ours(f"edge-{edge}", side)
        our_error = worst(surface(side, True), judge, solid)
        peer("R", f"edge-{edge}", side)
        its_error = worst(surface(side), judge, solid)
        many.T.copy().tofile(source)
        taken = turns([lambda: first(ours(f"edge-{edge}", side)), lambda: first(peer("R", f"edge-{edge}", side))], times)
        results.add(f"density-edge-{edge}-1e6", len(many), taken[0], "spatstat density.ppp", taken[1], our_error,
                    its_error, "of the value")

    # Adaptive: the judge takes its pilot and bandwidths exactly, for a thousand points.
    side = 256
    few = points(10**5)[:1000]
    few.T.copy().tofile(source)
    judge = adaptive_judge(few, side)
    ours("adaptive", side)
    our_error = float(np.abs(surface(side, True) - judge).max() / judge.max())
    peer("R", "adaptive", side)
    its_error = float(np.abs(surface(side) - judge).max() / judge.max())
    points(10**5).T.copy().tofile(source)
    taken = turns([lambda: first(ours("adaptive", side)), lambda: first(peer("R", "adaptive", side))], times)
    results.add("density-adaptive-1e5", 10**5, taken[0], "sparr, partition 0.05", taken[1], our_error, its_error,
                "of the maximum")

    for name, n, job, peer_name in [
        ("plugin-1e5", 10**5, "plug-in-full", "ks Hpi"),
        ("lscv-1e5", 10**5, "least-squares-diagonal", "ks Hlscv"),
        ("diggle-1e5", 10**5, "diggle", "spatstat bw.diggle"),
        ("likelihood-1e4", 10**4, "likelihood", "spatstat bw.ppl"),
    ]:
        points(n).T.copy().tofile(source)
        said = {}

        def side_of(who, work):
            answer = work()
            said[who] = answer[0][1:]
            return first(answer)

        taken = turns([lambda: side_of("ours", lambda: ours(job, side)),
                       lambda: side_of("peer", lambda: peer("R", job, side))], 1 if name == "lscv-1e5" else times)
        off = max(abs(a / b - 1) if b else float("inf") for a, b in zip(said["ours"], said["peer"]))
        print(f"bandwidth-{name}: ours {said['ours']}, {peer_name} {said['peer']}")
        results.add(f"bandwidth-{name}", n, taken[0], peer_name, taken[1], off, off, "between the two")
    for file in out.glob("points.bin*"):
        file.unlink()
    target.unlink()


def adaptive_judge(xy, side):
    """Abramson's estimate by the direct sum, with the share of each kernel in the square in closed form."""
    from scipy.special import ndtr

    def share(place, h):
        return ndtr((WIDE - place) / h) - ndtr(-place / h)

    def pilot(places):
        sums = np.zeros(len(places))
        for part in range(0, len(places), 4096):
            p = places[part:part + 4096]
            d2 = (p[:, None, 0] - xy[None, :, 0]) ** 2 + (p[:, None, 1] - xy[None, :, 1]) ** 2
            sums[part:part + 4096] = np.exp(-d2 / (2 * H * H)).sum(1) / (2 * np.pi * H * H)
        return sums / (share(places[:, 0], H) * share(places[:, 1], H))

    roots = pilot(xy) ** -0.5
    scale = np.exp(np.log(roots).mean())
    widths = H * np.minimum(roots / scale, 5)
    centres = (np.arange(side) + 0.5) * WIDE / side
    sums = np.zeros((side, side))
    for (x, y), h in zip(xy, widths):
        east = np.exp(-((centres - x) ** 2) / (2 * h * h)) / (h * np.sqrt(2 * np.pi))
        north = np.exp(-((centres - y) ** 2) / (2 * h * h)) / (h * np.sqrt(2 * np.pi))
        sums += np.outer(north, east)
    x, y = np.meshgrid(centres, centres)
    places = np.column_stack([x.ravel(), y.ravel()])
    wide = (H * np.minimum(np.maximum(pilot(places), 1e-300) ** -0.5 / scale, 5)).reshape(side, side)
    return sums / (share(x, wide) * share(y, wide))
