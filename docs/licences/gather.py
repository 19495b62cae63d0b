"""Gathers the notices of everything that is linked or carried into the binary, from the sources that cargo has
fetched: crates.txt (Rust packages), libraries.txt (C and C++), fonts.txt. Run by "make licences"; a test holds that
no package is missing.

Each file is a list of parts, a line each ("name version | licence | numbers of texts | copyright"), and the texts,
each under a line "[text N]". Texts that differ in nothing but their copyright lines stand once. Where a package
may be had under a choice of licences, MIT is taken if it is one of them, or else Apache-2.0.
"""

import json
import re
import subprocess
import tarfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
TARGET = "x86_64-unknown-linux-gnu"
NAMES = ("LICEN", "COPYING", "UNLICENSE", "NOTICE", "COPYRIGHT")


def metadata():
    command = ["cargo", "metadata", "--format-version", "1", "--locked", "--filter-platform", TARGET]
    return json.loads(subprocess.run(command, capture_output=True, check=True, cwd=HERE).stdout)


def normal(meta):
    """Packages that the program's normal dependencies reach, itself and its own left out."""
    nodes = {node["id"]: node for node in meta["resolve"]["nodes"]}
    packages = {package["id"]: package for package in meta["packages"]}
    waiting = [id for id, package in packages.items() if package["name"] == "strew"]
    seen = set()
    while waiting:
        id = waiting.pop()
        if id in seen:
            continue
        seen.add(id)
        for dependency in nodes[id]["deps"]:
            if any(kind["kind"] is None for kind in dependency["dep_kinds"]):
                waiting.append(dependency["pkg"])
    own = set(meta["workspace_members"])
    return sorted((packages[id] for id in seen - own), key=lambda p: (p["name"], p["version"]))


COPYRIGHT = re.compile(r"^\s*(copyright\b|\(c\)|©).*", re.IGNORECASE)
TITLE = re.compile(r"^\s*(the )?(mit|mit license|mit licence|\(?mit\)?|the mit license \(mit\))\s*$", re.IGNORECASE)


def words(text):
    return " ".join(re.sub(r"[“”]", '"', text).split())


class Texts:
    """Texts by number, each once."""

    def __init__(self):
        self.numbers, self.texts = {}, []

    def number(self, text):
        key = words(text).lower()
        if key not in self.numbers:
            self.texts.append("\n".join(line.rstrip() for line in text.strip("\n").splitlines()))
            self.numbers[key] = len(self.texts)
        return self.numbers[key]

    def written(self):
        return "".join(f"\n[text {n}]\n{text}\n" for n, text in enumerate(self.texts, 1))


def split(text):
    """The lines that name holders, and the rest, of a licence that begins with them."""
    text = text.replace("\r", "").replace("\f", "\n").replace("\ufeff", "")
    if "END OF TERMS AND CONDITIONS" in text and text.lstrip().startswith("Apache License"):
        # Behind it stands how to apply it, sometimes filled in.
        body, _, rest = text.partition("END OF TERMS AND CONDITIONS")
        body = body[body.index("Apache License") :]
        holders = [line.strip() for line in rest.splitlines() if re.match(r"^\s*Copyright (?!\[|\{)", line)]
        return holders, "                                 " + body + "END OF TERMS AND CONDITIONS"
    holders, body, at_top = [], [], True
    for line in text.splitlines():
        if at_top and (COPYRIGHT.match(line) or TITLE.match(line) or not line.strip()):
            if COPYRIGHT.match(line):
                holders.append(line.strip())
            continue
        if at_top and line.strip().lower() in ("all rights reserved.", "all rights reserved"):
            continue
        at_top = False
        body.append(line)
    return holders, "\n".join(body)


def choice(licence):
    """What is taken of a choice."""
    if " AND " in licence:
        return None
    options = [option.strip() for option in re.split(r"\bOR\b|/", licence)]
    return next((kind for kind in ("MIT", "Apache-2.0") if len(options) > 1 and kind in options), None)


def files(folder, taken):
    found = sorted(file for file in folder.iterdir() if file.is_file() and file.name.upper().startswith(NAMES))
    if taken:
        name, words = {
            "MIT": ("MIT", "Permission is hereby granted"),
            "Apache-2.0": ("APACHE", "Apache License"),
        }[taken]
        by_name = [file for file in found if name in file.name.upper()]
        by_text = [file for file in found if words in file.read_text(errors="replace")]
        return by_name or by_text or found
    # That of the fonts stands in a file of its own.
    return [file for file in found if (folder.name[:12], file.name) != ("typst-assets", "NOTICE")]


def crates(meta, texts, standard):
    lines = []
    for package in normal(meta):
        folder = Path(package["manifest_path"]).parent
        licence = package["license"] or "see libraries"
        taken = choice(licence)
        found = files(folder, taken)
        holders, numbers = [], []
        for file in found:
            by, body = split(file.read_text(errors="replace"))
            holders += [holder for holder in by if holder not in holders]
            if len(words(body)) > 40:
                number = texts.number(body)
                numbers += [number] if number not in numbers else []
        if not numbers and package["license"]:
            # None in the package: the standard text of its licence, with its authors as it names them.
            kind = taken or ("Apache-2.0" if "Apache-2.0" in licence else licence)
            if kind in standard:
                numbers.append(texts.number(standard[kind]))
            authors = ", ".join(re.sub(r"\s*<[^>]*>", "", author) for author in package["authors"])
            holders = holders or [f"Authors: {authors or 'not named in the package'}"]
        if "MPL" in licence:
            holders.append(f"Source: {package['repository']}")
        note = " / ".join(holders)
        lines.append(f"{package['name']} {package['version']} | {licence} | {' '.join(map(str, numbers))} | {note}")
    return lines


def comment(text, which=0):
    """The comment of that number in C, without its frame."""
    found = re.findall(r"/\*(.*?)\*/", text, re.DOTALL)[which]
    lines = [re.sub(r"^\s*\*+ ?", "", line).rstrip() for line in found.splitlines()]
    return "\n".join(line for line in lines if not re.fullmatch(r"[-*=]*", line) or not line)


def libraries(meta, texts, standard):
    folders = {package["name"]: Path(package["manifest_path"]).parent for package in meta["packages"]}
    gdal = folders["gdal-src"] / "source"
    version = {p["name"]: p["version"] for p in meta["packages"]}
    read = lambda *parts: gdal.joinpath(*parts).read_text(errors="replace")
    archive = next((folders["proj-sys"] / "PROJSRC").glob("proj-*.tar.gz"))
    proj = archive.name.removeprefix("proj-").removesuffix(".tar.gz")
    with tarfile.open(archive) as tar:
        inside = lambda name: tar.extractfile(f"proj-{proj}/{name}").read().decode(errors="replace")
        copying, json_hpp = inside("COPYING"), inside("include/proj/internal/vendor/nlohmann/json.hpp")
    holders = lambda text: " / ".join(
        re.sub(r"^[\s/*]*", "", line).rstrip(" */")
        for line in text.splitlines()[:60]
        if re.match(r"^[\s/*]*copyright \(c\)", line, re.IGNORECASE)
    )
    mit, apache = texts.number(standard["MIT"]), texts.number(standard["Apache-2.0"])
    zlib = read("frmts", "zlib", "zlib.h")
    zlib_terms = zlib[zlib.index("  This software is provided") : zlib.index("  Jean-loup Gailly        Mark")]
    mimalloc = (folders["libmimalloc-sys"] / "c_src" / "mimalloc" / "v3" / "LICENSE").read_text(errors="replace")
    tiff = comment(read("frmts", "gtiff", "libtiff", "tiffio.h"))
    png = comment(read("frmts", "png", "libpng", "png.h"), 1)
    geotiff = comment(read("frmts", "gtiff", "libgeotiff", "geotiff.h"))
    jpeg = read("frmts", "jpeg", "libjpeg", "jpeglib.h")
    parts = [
        ("GDAL", version["gdal-src"].split("+")[-1], "MIT, and others of its parts (minizip, qhull, flatbuffers, flatgeobuf)",
         [texts.number(read("LICENSE.TXT"))], ""),
        ("PROJ", proj, "MIT", [texts.number(copying)], ""),
        ("EPSG dataset in PROJ", "", "IOGP's terms of use",
         [texts.number("The EPSG Geodetic Parameter Dataset is owned by the International Association of Oil and Gas "
                       "Producers (IOGP) and carried unchanged, within PROJ's database. Its terms of use are at epsg.org.")], ""),
        ("JSON for Modern C++ in PROJ", "", "MIT", [mit], holders(json_hpp)),
        ("SQLite", "", "public domain", [], ""),
        ("zlib", re.search(r"version ([\d.]+)", zlib).group(1), "Zlib", [texts.number(zlib_terms)], holders(zlib)),
        ("libtiff", "", "libtiff", [texts.number(tiff)], ""),
        ("libgeotiff", "", "of its own, and MIT", [texts.number(geotiff), mit],
         holders(read("frmts", "gtiff", "libgeotiff", "geo_normalize.c"))),
        ("libpng", re.search(r"libpng version ([\d.]+)", read("frmts", "png", "libpng", "png.h")).group(1), "libpng-2.0",
         [texts.number(png)], ""),
        ("libjpeg (8 and 12 bits)", "6b", "IJG", [texts.number("This software is based in part on the work of the "
                                                  "Independent JPEG Group.")], re.search(r"Copyright[^\n]*", jpeg).group(0)),
        ("LERC", "", "Apache-2.0", [apache], "Copyright 2015 Esri"),
        ("json-c", "", "MIT", [mit], holders(read("ogr", "ogrsf_frmts", "geojson", "libjson", "json_object.c"))),
        ("Shapelib", "", "MIT", [mit], holders(read("ogr", "ogrsf_frmts", "shape", "shapelib", "shpopen.c"))),
        ("fast_float", "", "Apache-2.0, by choice among others", [apache], ""),
        ("libdivide", "", "Zlib, by choice of two", [texts.number(zlib_terms)],
         holders(read("third_party", "libdivide", "libdivide.h"))),
        ("mimalloc", "", "MIT", [texts.number(mimalloc)], ""),
        ("Rust standard library", "", "MIT, by choice of two", [mit], "Copyright (c) The Rust Project Contributors"),
        ("GNU C library", "", "LGPL-2.1-or-later",
         [texts.number("Linked in statically on GNU systems. The program's whole source is open, so that it can be built "
                       "against another version of the library (GNU Lesser General Public License, version 2.1, section "
                       "6). The licence and the library's source are at gnu.org.")],
         "Copyright (C) Free Software Foundation, Inc."),
        ("GNU C++ library and libgcc", "", "GPL-3.0-or-later with the GCC Runtime Library Exception 3.1", [],
         "Copyright (C) Free Software Foundation, Inc."),
    ]
    return [
        f"{name} {number}".strip() + f" | {licence} | {' '.join(map(str, numbers))} | {note}"
        for name, number, licence, numbers, note in parts
    ]


def fonts(meta, texts):
    folders = {package["name"]: Path(package["manifest_path"]).parent for package in meta["packages"]}
    dejavu = next((folders["dejavu"] / "assets").glob("*/LICENSE")).read_text(errors="replace")
    notice = (folders["typst-assets"] / "NOTICE").read_text(errors="replace")
    return [
        f"DejaVu Sans Condensed 2.37 | Bitstream Vera, Arev | {texts.number(dejavu)} | ",
        f"Libertinus Serif, New Computer Modern, DejaVu Sans Mono and others; colour profiles; data of letters and formulas "
        f"| SIL OFL 1.1, GUST, GPL-3.0-or-later with font exception, and others, each named in the text "
        f"| {texts.number(notice)} | ",
    ]


def write(name, head, lines, texts):
    text = f"# {head}\n# Made by gather.py: do not edit.\n\n" + "\n".join(lines) + "\n" + texts.written()
    (HERE / name).write_text(text, encoding="utf-8")
    print(f"{name}: {len(lines)} parts, {len(texts.texts)} texts, {len(text)} characters")


def main():
    meta = metadata()
    folders = {package["name"]: Path(package["manifest_path"]).parent for package in meta["packages"]}
    # The commonest texts of the commonest licences, for packages that carry none.
    standard = {
        "BSD-3-Clause": split((folders["alloc-no-stdlib"] / "LICENSE").read_text())[1],
        "MIT": split((folders["serde"] / "LICENSE-MIT").read_text())[1],
        "Apache-2.0": split((folders["serde"] / "LICENSE-APACHE").read_text())[1],
    }
    for name, head, gather in [
        ("crates.txt", "Rust packages", lambda texts: crates(meta, texts, standard)),
        ("libraries.txt", "Libraries in C and C++, and what every program brings", lambda texts: libraries(meta, texts, standard)),
        ("fonts.txt", "Fonts and the data that come with them", lambda texts: fonts(meta, texts)),
    ]:
        texts = Texts()
        write(name, head, gather(texts), texts)


main()
