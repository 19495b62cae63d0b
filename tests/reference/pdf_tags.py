"""Reads the tag tree of PDFs as a screen reader would, and holds it to what PDF/UA-1 (ISO 14289-1) asks.

usage: pdf_tags.py FILE.pdf LANGUAGES [FILE.pdf LANGUAGES ...]      LANGUAGES: en, fr, or en,fr

Two readers, both over pikepdf: the rules below, and pdfua (the part of PDF/UA-1 that it can decide). veraPDF is on
none of the registries that this project reaches. Prints a line a file and fails with what was found.

Held here, with the clause: marked and titled (7.1), identified as PDF/UA-1 (5), language set (7.2), every piece of
content tagged or an artifact, and every tag's content there (7.1), headings in order (7.4), alternatives for figures
(7.3), tables of rows with scoped headings (7.5), lists of items (7.6), links that say where they lead (7.18), fonts
embedded with their meaning (7.21).
"""

import sys

import pdfua
import pikepdf

PAINTS = {
    "Tj", "TJ", "'", '"', "f", "F", "f*", "B", "B*", "b", "b*", "S", "s", "sh", "Do", "INLINE IMAGE",
}


# pdfua 0.1.3 asks an array for a key here, which pikepdf refuses; `walk` holds the same: no heading is empty.
NOT_JUDGED_BY_PDFUA = {"UA-14-001"}


class File:
    def __init__(self, path, languages):
        self.pdf = pikepdf.open(path)
        self.root = self.pdf.Root
        self.languages = languages
        self.wrong = []
        self.roles = {str(k): str(v) for k, v in self.root.StructTreeRoot.get("/RoleMap", {}).items()}
        self.pages = {page.objgen: index for index, page in enumerate(self.pdf.pages)}
        # Content that the tree holds: page and number.
        self.held = []
        self.headings = []
        self.counts = {}
        self.spoken = set()

    def fault(self, text):
        self.wrong.append(text)

    def role(self, element):
        name = str(element.get("/S", ""))
        for _ in range(8):
            if name not in self.roles:
                break
            name = self.roles[name]
        return name.lstrip("/")

    def kids(self, element):
        kids = element.get("/K")
        if kids is None:
            return []
        return list(kids) if isinstance(kids, pikepdf.Array) else [kids]

    def elements(self, element):
        return [kid for kid in self.kids(element) if isinstance(kid, pikepdf.Dictionary) and "/S" in kid]

    def whole(self):
        root = self.root
        if str(root.get("/Lang", "")).split("-")[0].lower() != self.languages[0]:
            self.fault(f"language of the file: {root.get('/Lang')}")
        if not bool(root.get("/MarkInfo", {}).get("/Marked", False)):
            self.fault("not marked")
        if not bool(root.get("/ViewerPreferences", {}).get("/DisplayDocTitle", False)):
            self.fault("its title is not displayed")
        with self.pdf.open_metadata() as data:
            if str(data.get("pdfuaid:part")) != "1":
                self.fault("no PDF/UA identifier")
            if not str(data.get("dc:title", "")).strip():
                self.fault("no title")
        if "/Outlines" not in root:
            self.fault("no bookmarks")
        top = self.elements(root.StructTreeRoot)
        if [self.role(element) for element in top] != ["Document"]:
            self.fault(f"the tree begins with {[self.role(element) for element in top]}")
        for element in top:
            self.walk(element, None, [])
        levels = [level for level, _ in self.headings]
        if not levels or levels[0] != 1:
            self.fault("it does not begin with a heading of the first level")
        for before, after in zip(self.headings, self.headings[1:]):
            if after[0] > before[0] + 1:
                self.fault(f"H{before[0]} is followed by H{after[0]}")
        missing = set(self.languages) - self.spoken - {self.languages[0]}
        if missing:
            self.fault(f"nothing is tagged as {missing}")
        self.contents()
        self.fonts()

    def walk(self, element, page, above):
        role = self.role(element)
        self.counts[role] = self.counts.get(role, 0) + 1
        page = element.get("/Pg", page)
        if "/Lang" in element:
            self.spoken.add(str(element.Lang).split("-")[0].lower())
        if len(role) == 2 and role[0] == "H" and role[1].isdigit():
            self.headings.append((int(role[1]), element))
            if not self.says(element):
                self.fault("an empty heading")
        if role == "Figure" and not str(element.get("/Alt", "")).strip():
            self.fault("a figure without words")
        if role == "Table":
            self.table(element)
        if role == "L":
            inside = {self.role(kid) for kid in self.elements(element)} - {"Caption"}
            if inside - {"LI", "L"}:
                self.fault(f"a list of {inside}")
        if role == "LI" and {self.role(kid) for kid in self.elements(element)} - {"Lbl", "LBody"}:
            self.fault("an item of a list holds more than label and body")
        if role == "Link":
            self.link(element)
        for kid in self.kids(element):
            if isinstance(kid, pikepdf.Dictionary):
                if "/S" in kid:
                    self.walk(kid, page, above + [role])
                elif str(kid.get("/Type", "")) == "/MCR":
                    self.held.append((self.pages[kid.get("/Pg", page).objgen], int(kid.MCID)))
            else:
                self.held.append((self.pages[page.objgen], int(kid)))

    def says(self, element):
        """Whether there is content in an element or under it."""
        return any(not isinstance(kid, pikepdf.Dictionary) or "/S" not in kid or self.says(kid)
                   for kid in self.kids(element))

    def attribute(self, element, owner, key):
        attributes = element.get("/A")
        attributes = [] if attributes is None else attributes
        for one in attributes if isinstance(attributes, pikepdf.Array) else [attributes]:
            if isinstance(one, pikepdf.Dictionary) and str(one.get("/O", "")) == owner and key in one:
                return one[key]
        return None

    def table(self, table):
        rows = []
        for part in self.elements(table):
            role = self.role(part)
            if role == "TR":
                rows.append(part)
            elif role in ("THead", "TBody", "TFoot"):
                rows += [row for row in self.elements(part)]
            elif role != "Caption":
                self.fault(f"a table holds {role}")
        widths = set()
        for row in rows:
            if self.role(row) != "TR":
                self.fault(f"a table's row is {self.role(row)}")
            width = 0
            for cell in self.elements(row):
                width += int(self.attribute(cell, "/Table", "/ColSpan") or 1)
                if self.role(cell) == "TH" and self.attribute(cell, "/Table", "/Scope") is None:
                    self.fault("a heading of a table without its scope")
                if self.role(cell) not in ("TH", "TD"):
                    self.fault(f"a row holds {self.role(cell)}")
            widths.add(width)
        if len(widths) > 1:
            self.fault(f"a table's rows are {widths} wide")
        if rows and all(self.role(cell) != "TH" for cell in self.elements(rows[0])):
            self.fault("a table without headings")

    def link(self, element):
        told = [kid for kid in self.kids(element) if isinstance(kid, pikepdf.Dictionary) and "/Obj" in kid]
        if not told:
            self.fault("a link that leads nowhere")
        for one in told:
            if not str(one.Obj.get("/Contents", "")).strip():
                self.fault("a link that does not say where it leads")

    def contents(self):
        seen = []
        for index, page in enumerate(self.pdf.pages):
            if "/Annots" in page and str(page.get("/Tabs", "")) != "/S":
                self.fault(f"page {index + 1}: the keyboard does not follow the tags")
            stack = []
            for step in pikepdf.parse_content_stream(page):
                name = str(step.operator)
                if name in ("BDC", "BMC"):
                    tag = str(step.operands[0])
                    number = None
                    if name == "BDC":
                        data = step.operands[1]
                        if isinstance(data, pikepdf.Name):
                            data = page.Resources.Properties[data]
                        number = data.get("/MCID")
                    stack.append((tag, None if number is None else int(number)))
                    if number is not None:
                        seen.append((index, int(number)))
                elif name == "EMC":
                    stack.pop()
                elif name in PAINTS and not any(n is not None or tag == "/Artifact" for tag, n in stack):
                    self.fault(f"page {index + 1}: {name} outside every tag")
        for what, left in (
            ("in no tag", set(seen) - set(self.held)),
            ("tagged and not there", set(self.held) - set(seen)),
        ):
            if left:
                self.fault(f"content {what}: {sorted(left)[:4]}")
        if len(self.held) != len(set(self.held)):
            self.fault("content that is tagged twice")

    def fonts(self):
        for thing in self.pdf.objects:
            if not isinstance(thing, pikepdf.Dictionary) or str(thing.get("/Type", "")) != "/Font":
                continue
            if str(thing.Subtype) == "/Type0":
                if "/ToUnicode" not in thing:
                    self.fault(f"a font without the meaning of its signs: {thing.get('/BaseFont')}")
                continue
            if str(thing.Subtype) == "/Type3":
                continue
            described = thing.get("/FontDescriptor", {})
            if not any(key in described for key in ("/FontFile", "/FontFile2", "/FontFile3")):
                self.fault(f"a font that is not in the file: {thing.get('/BaseFont')}")


def main(arguments):
    failed = not arguments
    for path, languages in zip(arguments[::2], arguments[1::2]):
        file = File(path, languages.split(","))
        file.whole()
        report = pdfua.validate(path)
        for outcome in report.outcomes:
            if outcome.skipped_reason and outcome.rule_id not in NOT_JUDGED_BY_PDFUA:
                file.fault(f"pdfua could not judge {outcome.rule_id}: {outcome.skipped_reason}")
            for finding in outcome.findings:
                file.fault(f"pdfua {finding.rule_id}: {finding.message}")
        counts = ", ".join(f"{n} {role}" for role, n in sorted(file.counts.items()))
        print(f"{path}: {len(file.pdf.pages)} pages, {counts}")
        for fault in dict.fromkeys(file.wrong):
            print(f"{path}: {fault}", file=sys.stderr)
        failed = failed or bool(file.wrong)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
