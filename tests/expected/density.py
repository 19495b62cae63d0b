"""Makes density.csv: the density of three cells, independently of the program.

Each cell's count is even over its square; the kernel is a Gaussian of standard deviation H metres.
The value of a pixel is the mean over it, in pieces per hectare. Here the blurred cell is written with
SciPy's normal distribution, Phi((x - a) / H) - Phi((x - b) / H), and its mean over the pixel is found
by adaptive quadrature (scipy.integrate.quad), not by the closed form that the program uses.

Run with Python 3 and SciPy: python3 density.py > density.csv
"""

from scipy.integrate import quad
from scipy.stats import norm

H = 137.5
PIXEL = 50.0
# west, south, side, pieces
CELLS = [(0, 0, 100, 3), (200, 100, 100, 10), (0, 0, 1000, 7)]


def mean(low, west, side):
    """Mean over the pixel [low, low + PIXEL] of the blurred interval, per metre."""

    def blurred(x):
        return (norm.cdf((x - west) / H) - norm.cdf((x - west - side) / H)) / side

    value, _ = quad(blurred, low, low + PIXEL, epsabs=1e-16, epsrel=1e-13)
    return value / PIXEL


print("west_m,south_m,per_hectare")
for column in range(-4, 22, 2):
    for row in range(-4, 22, 2):
        west, south = column * PIXEL, row * PIXEL
        value = sum(n * mean(west, x, side) * mean(south, y, side) for x, y, side, n in CELLS)
        print(f"{west:.0f},{south:.0f},{value * 1e4:.15g}")
