"""The peer of maps.py: a register read, its finds counted in squares of 100 m, and the squares drawn over the land.

It reads grid references of one form and checks nothing; no agreement, no key, no notes.
maps_peer.py FOLDER PICTURE
"""

import json
import sys
from pathlib import Path

import matplotlib
import pandas

matplotlib.use("svg")
from matplotlib import pyplot
from matplotlib.collections import PatchCollection
from matplotlib.patches import Rectangle

folder = Path(sys.argv[1])
finds = pandas.read_csv(folder / "finds.csv")
figures = finds["Grid ref"].str.extract(r"OV (\d{5}) (\d{5})").astype(int) + 500_000
squares = finds.assign(e=figures[0] // 100, n=figures[1] // 100).groupby(["e", "n"])["Count"].sum().reset_index()
figure, axes = pyplot.subplots(figsize=(11.7, 8.3))
shades = pandas.cut(squares["Count"], [0, 2, 9, 49, 10**9], labels=False)
for shade, group in squares.groupby(shades):
    patches = [Rectangle((e * 100, n * 100), 100, 100) for e, n in zip(group["e"], group["n"])]
    axes.add_collection(PatchCollection(patches, color=["#f2c681", "#c57c38", "#853d1d", "#3a1412"][int(shade)]))
land = json.loads((folder / "ground/land.geojson").read_text())
axes.set_title(f"{len(land['features'])} shapes of land")
axes.autoscale_view()
axes.set_aspect("equal")
figure.savefig(sys.argv[2])
print("done")
