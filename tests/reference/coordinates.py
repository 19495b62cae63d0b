"""Works out by general-purpose libraries what the program has carried, written and read.

coordinates.py systems|military|letters FOLDER NTF_GRID: run by tests/promises/reference_coordinates.rs,
which fills FOLDER; NTF_GRID is IGN's grid of shifts in data/. Prints a line for each thing compared, and
ends with exit code 1 if one of them differs by more than it may.

Which library judges what:
- British National Grid: convertbng, which carries OSTN15 (wheels of pyproj carry no grids). It rounds its
  metres to a millimetre, so half of the one allowed is its own. Back, it rounds metres on the way and degrees to
  eight decimals: its way back is allowed twice as much, and the program's degrees go through its way there too.
- the old French grids: PROJ by a pipeline over IGN's grid, written out here;
- everything else: PROJ in pyproj, by the operation of the same description. Its version may be another than
  the program's, and choose another operation first; one that it does not list at all is a failure, to be
  settled by a pipeline written out here.
- military references: mgrs (NGA's GEOTRANS).
- British and Irish references: the few lines below.
"""

import json
import sys
import warnings
from pathlib import Path

import numpy as np

MILLIMETRE = 0.001
PLACES = 100_000
# Metres in a degree of latitude: the semi-major axis of GRS80 over a circle.
DEGREE_M = 6_378_137 * np.pi / 180
failed = []


def say(name, what, worst, allowed, note=""):
    bad = not worst <= allowed
    print(f"{name:20} {what:28} {worst:>12.3g}  {'DIFFERS' if bad else 'ok':8} {note}")
    if bad:
        failed.append(name)


# --- systems ---------------------------------------------------------------------------------------

# IGN, NTG 71: zones of the old grid on Clarke 1880 (IGN), from Paris; latitude and scale, false east and north.
ZONES = {
    27571: (49.5, 0.999877341, 600_000, 1_200_000),
    27572: (46.8, 0.99987742, 600_000, 2_200_000),
    27573: (44.1, 0.999877499, 600_000, 3_200_000),
    27574: (42.165, 0.99994471, 234.358, 4_185_861.369),
}


def ntf(epsg, grid):
    """From degrees to a zone of the old French grid, by IGN's grid of shifts."""
    latitude, scale, east, north = ZONES[epsg]
    return (
        "+proj=pipeline +step +proj=unitconvert +xy_in=deg +xy_out=rad "
        f"+step +inv +proj=hgridshift +grids={grid} "
        f"+step +proj=lcc +lat_1={latitude} +lat_0={latitude} +lon_0=0 +k_0={scale} +x_0={east} +y_0={north} "
        "+ellps=clrk80ign +pm=paris"
    )


# Where PROJ itself does not come back to the same place: shifts of seven parameters undone without iteration,
# a series for the equal-area latitude, the Swiss double projection. Two millimetres at most.
LOOSE = {29903, 3035, 28992, 31370, 2056, 21781, 31466, 31467, 31468, 31469}


def plain(description):
    """A description without the turns of axes, as the program tells it."""
    parts = description.split(" + ")
    return " + ".join(part for part in parts if not part.startswith("axis order change"))


def carried(epsg, told, by, x, y, back, grid):
    """The places as PROJ carries them, each by the operation told for it."""
    from pyproj import Transformer
    from pyproj.enums import TransformDirection
    from pyproj.transformer import TransformerGroup

    direction = TransformDirection.INVERSE if back else TransformDirection.FORWARD
    out = np.full((2, len(x)), np.nan)
    notes = []
    pair = (epsg, 4326) if back else (4326, epsg)
    listed = {plain(t.description): t for t in TransformerGroup(*pair, always_xy=True).transformers}
    for index, words in enumerate(told):
        here = by == index
        if epsg in ZONES:
            transformer, turn = Transformer.from_pipeline(ntf(epsg, grid)), direction
            notes.append("pipeline over IGN's grid")
        elif words in listed:
            transformer, turn = listed[words], TransformDirection.FORWARD
            notes.append(words)
        else:
            failed.append(words)
            print(f"no operation like “{words}” among {sorted(listed)}")
            continue
        out[:, here] = transformer.transform(x[here], y[here], direction=turn, errcheck=True)
    return out, notes


def british(x, y, back):
    from convertbng.cutil import convert_osgb36_to_ll, convert_to_osgb36

    return np.array((convert_osgb36_to_ll if back else convert_to_osgb36)(x, y)), ["OSTN15 in convertbng"]


def systems(folder, grid):
    import pyproj

    # That a better grid exists which the wheel does not carry; the operation is named in each line.
    warnings.filterwarnings("ignore", category=UserWarning)
    print(f"pyproj {pyproj.__version__}, PROJ {pyproj.proj_version_str}; {PLACES} places a system; metres")
    for system in json.loads((folder / "systems.json").read_text()):
        name, epsg = system["name"], system["epsg"]
        columns = np.fromfile(folder / f"{name}.f64").reshape(8, PLACES)
        longitude, latitude, e, n, x, y, by_there, by_back = columns
        cos = np.cos(np.radians(latitude))
        metres = lambda a, b: np.abs([(a[0] - b[0]) * DEGREE_M * cos, (a[1] - b[1]) * DEGREE_M])
        if epsg == 27700:
            there, words_there = british(longitude, latitude, False)
            back, words_back = british(x, y, False)
            say(name, "back, there by the other", np.max(np.abs(back - [e, n])), MILLIMETRE, words_back[0])
            back, words_back = british(e, n, True)
        else:
            there, words_there = carried(epsg, system["there"], by_there, longitude, latitude, False, grid)
            back, words_back = carried(epsg, system["back"], by_back, e, n, True, grid)
        say(name, "there", np.max(np.abs(there - [e, n])), MILLIMETRE, "; ".join(words_there))
        allowed = 2 * MILLIMETRE if epsg == 27700 else MILLIMETRE
        say(name, "back", np.max(metres(back, (x, y))), allowed, "; ".join(words_back))
        # At the edge of two operations' areas the way back may be by the other.
        if len(system["there"]) == len(system["back"]) == 1:
            allowed = 2 * MILLIMETRE if epsg in LOOSE else 1e-5
            say(name, "there and back", np.max(metres((longitude, latitude), (x, y))), allowed)


# --- military references ---------------------------------------------------------------------------


def military(folder, _):
    import mgrs

    judge = mgrs.MGRS()
    latitude, longitude, e, n = np.fromfile(folder / "places.f64").reshape(4, -1)
    print(f"{len(e)} places; references that differ, and corners of squares in metres")
    for figures in range(6):
        ours = (folder / f"{figures}.txt").read_text().split()
        read = np.fromfile(folder / f"{figures}.f64").reshape(-1, 4)
        side = 10 ** (5 - figures)
        edge = np.minimum.reduce([e % side, side - e % side, n % side, side - n % side])
        differ = on_edge = 0
        worst = 0.0
        for i, text in enumerate(ours):
            theirs = judge.toMGRS(latitude[i], longitude[i], MGRSPrecision=figures)
            if theirs != text:
                # Both project to well under a millimetre; a place that near an edge may fall to either side.
                if edge[i] < MILLIMETRE:
                    on_edge += 1
                else:
                    differ += 1
                    if differ <= 5:
                        print(f"  {latitude[i]} {longitude[i]} ({e[i]} {n[i]}): {text}, by mgrs {theirs}")
            zone, hemisphere, east, north = judge.MGRSToUTM(text)
            west, south, our_zone, our_south = read[i]
            if (zone, hemisphere == "S") != (our_zone, our_south == 1):
                differ += 1
                print(f"  {text} lies in {our_zone}, by mgrs in {zone}{hemisphere}")
            # It answers with the centre.
            worst = max(worst, abs(east - side / 2 - west), abs(north - side / 2 - south))
        say("mgrs", f"{side} m: other text", differ, 0, f"{on_edge} within 1 mm of an edge")
        say("mgrs", f"{side} m: corner", worst, 1e-6)


# --- British and Irish references -------------------------------------------------------------------

ALPHABET = "ABCDEFGHJKLMNOPQRSTUVWXYZ"
SIZE = {"british": (700_000, 1_250_000), "irish": (500_000, 500_000)}


def five_by_five(column, row):
    """The letter of a square of 5 × 5, by rows from the north-west; rows count from the south."""
    return ALPHABET[5 * (4 - row) + column]


def lettered(grid, east, north):
    """Letters of the 100 km square in which whole metres lie."""
    column, row = east // 100_000, north // 100_000
    if grid == "irish":
        return five_by_five(column, row)
    # Square S of 500 km has the false origin in its corner; it is third from the west, fourth from the north.
    large = five_by_five(2 + column // 5, 1 + row // 5)
    return large + five_by_five(column % 5, row % 5)


def reference(grid, side, e, n):
    """The reference of the square of a side that holds a place: figures are cut off."""
    east, north = int(e // side) * side, int(n // side) * side
    figures = next(k for k in range(6) if side % 10 ** (5 - k) == 0)
    letters = lettered(grid, east, north)
    cut = [f"{(metres % 100_000):05d}"[:figures] for metres in (east, north)]
    return " ".join([letters, *cut]) if figures else letters


def parse(grid, text):
    """Corner and side of a reference in metres, or None where there is no such square."""
    bare = text.upper().replace(" ", "")
    count = 1 if grid == "irish" else 2
    letters, figures = bare[:count], bare[count:]
    half = len(figures) // 2
    places = [divmod(ALPHABET.index(letter), 5) for letter in letters]
    row, column = 4 - places[-1][0], places[-1][1]
    if grid == "british":
        column += 5 * (places[0][1] - 2)
        row += 5 * (3 - places[0][0])
    # In tenths of a metre, so that all is whole.
    side = 10 ** (6 - half)
    west = column * 1_000_000 + int(figures[:half]) * side
    south = row * 1_000_000 + int(figures[half:]) * side
    width, height = SIZE[grid]
    if west < 0 or south < 0 or west + side > width * 10 or south + side > height * 10:
        return None
    return west / 10, south / 10, side / 10


def letters(folder, _):
    wrong = {"square": 0, "written": 0, "read": 0}
    count = dict(wrong)
    understood = 0
    for line in (folder / "letters.tsv").read_text().splitlines():
        kind, grid, *rest = line.split("\t")
        count[kind] += 1
        if kind == "square":
            west, south, text = rest
            expected, got = lettered(grid, int(west), int(south)), text
        elif kind == "written":
            side, e, n, text, *read = rest
            side, e, n = int(side), float(e), float(n)
            # A side that is no power of ten is written by the figures of the next one below, and beside them.
            beside = "" if str(side).strip("0") == "1" else f" ({side // 1000} km)" if side >= 1000 else f" ({side} m)"
            corner = (float(int(e // side) * side), float(int(n // side) * side), float(side))
            expected, got = (reference(grid, side, e, n) + beside, corner), (text, tuple(map(float, read)))
        else:
            text, *read = rest
            expected, got = parse(grid, text), None if len(read) == 1 else tuple(map(float, read))
            understood += got is not None
            # What is also a word before a reference (GR, OS) or a system's name (L93) is refused, as unreadable.
        if text.upper()[:2] in ("GR", "OS") or text.upper() == "L93":
            expected = None
        if got is None and read[0] not in ("place-outside-letters", "place-unreadable"):
                got = read
        if expected != got:
            wrong[kind] += 1
            if wrong[kind] <= 5:
                print(f"  {line}: by hand {expected}")
    say("letters", "100 km squares", wrong["square"], 0, f"{count['square']} squares")
    say("letters", "written", wrong["written"], 0, f"{count['written']} references")
    say("letters", "read", wrong["read"], 0, f"{count['read']} references, {understood} of them in the grid")
    if not all(count.values()) or understood < 1000:
        failed.append("letters: nothing was compared")


if __name__ == "__main__":
    {"systems": systems, "military": military, "letters": letters}[sys.argv[1]](Path(sys.argv[2]), sys.argv[3])
    sys.exit(1 if failed else 0)
