"""Looks at HTML pages in a real browser, as a reader would: wide and at a phone's width, light and dark.

usage: pages.py PAGE.html [PAGE.html ...] [--pictures FOLDER]

Each page is opened in headless Chromium at 1200 and 360 CSS pixels, in a light and in a dark theme, and as paper.
For each of these axe-core (axe.min.js, the accessibility rules of axe-playwright-python) must find nothing, the page
must not scroll sideways, and nothing in it may reach past the window but what scrolls by itself; and everything that
can be reached by the keyboard must show that it was reached. Prints a line a page and fails with what was found.

The browser is driven over its own pipe (Chrome DevTools Protocol), with nothing but Python's library.
"""

import base64
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

import axe_playwright_python

AXE = pathlib.Path(axe_playwright_python.__file__).with_name("axe.min.js").read_text(encoding="utf-8")

# Name, width, height, theme, medium.
LOOKS = [
    ("wide-light", 1200, 1600, "light", "screen"),
    ("wide-dark", 1200, 1600, "dark", "screen"),
    ("phone-light", 360, 740, "light", "screen"),
    ("phone-dark", 360, 740, "dark", "screen"),
    ("paper", 700, 1000, "light", "print"),
]

# Rules that stand outside the conformance levels are run too: all that axe knows.
RUN = """
axe.run(document, { resultTypes: ['violations', 'incomplete'] }).then(found => JSON.stringify({
  passes: found.passes.length,
  violations: found.violations.map(v => ({ id: v.id, help: v.help,
    nodes: v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + ' :: ' + (n.failureSummary || '')) })),
  unsure: found.incomplete.map(v => v.id),
}))
"""

# What reaches past the window, and is not inside a box that scrolls by itself.
WIDE = """
(() => {
  const width = document.documentElement.clientWidth, out = [];
  const scrolls = e => { for (; e && e !== document.body; e = e.parentElement)
    if (['auto', 'scroll'].includes(getComputedStyle(e).overflowX)) return true; return false; };
  for (const e of document.body.querySelectorAll('*')) {
    const box = e.getBoundingClientRect();
    if (box.width && (box.right > width + 1) && !scrolls(e) && !e.closest('.skip'))
      out.push(e.tagName + '.' + e.className + ' ' + Math.round(box.right));
  }
  return JSON.stringify({ scroll: document.documentElement.scrollWidth, width, out: out.slice(0, 5) });
})()
"""

# Each thing that takes the keyboard's focus changes its look when it has it.
FOCUS = """
(() => {
  const out = [];
  let reached = 0;
  for (const e of document.querySelectorAll('a[href], [tabindex="0"]')) {
    e.focus({ focusVisible: true });
    if (document.activeElement !== e) { out.push('not reached: ' + e.outerHTML.slice(0, 80)); continue; }
    reached += 1;
    const style = getComputedStyle(e);
    const box = e.getBoundingClientRect();
    if (e.classList.contains('skip') ? box.right <= 0 : style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2)
      out.push('no sign of focus: ' + e.outerHTML.slice(0, 80));
  }
  return JSON.stringify({ reached, out: out.slice(0, 5) });
})()
"""


class Browser:
    """Chromium with a pipe to it."""

    def __init__(self):
        self.folder = tempfile.mkdtemp()
        read_out, write_in = os.pipe()
        self.read_from, write_out = os.pipe()
        self.write_to = write_in

        def pipes():
            os.dup2(read_out, 3)
            os.dup2(write_out, 4)

        self.process = subprocess.Popen(
            [
                "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--disable-quic",
                "--no-first-run", "--disable-background-networking", "--disable-component-update",
                "--disable-sync", "--remote-debugging-pipe", f"--user-data-dir={self.folder}",
            ],
            preexec_fn=pipes, pass_fds=(3, 4),
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )
        os.close(read_out)
        os.close(write_out)
        self.number = 0
        self.left = b""

    def _message(self):
        while b"\0" not in self.left:
            part = os.read(self.read_from, 1 << 20)
            if not part:
                raise SystemExit("the browser went away")
            self.left += part
        message, self.left = self.left.split(b"\0", 1)
        return json.loads(message)

    def ask(self, method, session=None, **parameters):
        self.number += 1
        message = {"id": self.number, "method": method, "params": parameters}
        if session:
            message["sessionId"] = session
        data = json.dumps(message).encode() + b"\0"
        while data:
            data = data[os.write(self.write_to, data):]
        while True:
            answer = self._message()
            if answer.get("id") == self.number:
                if "error" in answer:
                    raise SystemExit(f"{method}: {answer['error']}")
                return answer["result"]

    def wait(self, event, session):
        while True:
            message = self._message()
            if message.get("method") == event and message.get("sessionId") == session:
                return

    def close(self):
        try:
            self.ask("Browser.close")
        finally:
            self.process.wait(timeout=20)
            shutil.rmtree(self.folder, ignore_errors=True)


def look(browser, page, name, width, height, theme, medium, pictures):
    """Opens a page one way; returns how many rules passed and what is wrong."""
    target = browser.ask("Target.createTarget", url="about:blank")["targetId"]
    session = browser.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
    say = lambda method, **parameters: browser.ask(method, session, **parameters)
    say("Page.enable")
    # The page forbids scripts; the checker is one.
    say("Page.setBypassCSP", enabled=True)
    say("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=width < 500)
    say("Emulation.setEmulatedMedia", media=medium, features=[{"name": "prefers-color-scheme", "value": theme}])
    say("Page.navigate", url=page.resolve().as_uri())
    browser.wait("Page.loadEventFired", session)

    def run(code):
        answer = say("Runtime.evaluate", expression=code, awaitPromise=True, returnByValue=True)
        if "exceptionDetails" in answer:
            raise SystemExit(f"{page}: {answer['exceptionDetails']}")
        return json.loads(answer["result"].get("value") or "null")

    wrong = []
    run(AXE + "; null")
    found = run(RUN)
    for violation in found["violations"]:
        wrong.append(f"{violation['id']}: {violation['help']}\n    " + "\n    ".join(violation["nodes"]))
    if medium == "screen":
        wide = run(WIDE)
        if wide["scroll"] > wide["width"] or wide["out"]:
            wrong.append(f"reaches past the window: {wide}")
        focus = run(FOCUS)
        if focus["out"] or focus["reached"] == 0:
            wrong.append(f"keyboard: {focus}")
    if pictures:
        shot = say("Page.captureScreenshot", captureBeyondViewport=True, format="png")
        (pictures / f"{page.stem}-{name}.png").write_bytes(base64.b64decode(shot["data"]))
        if medium == "print":
            paper = say("Page.printToPDF", preferCSSPageSize=True, printBackground=False)
            (pictures / f"{page.stem}-print.pdf").write_bytes(base64.b64decode(paper["data"]))
    browser.ask("Target.closeTarget", targetId=target)
    return found["passes"], [f"{page} ({name}): {fault}" for fault in wrong], found["unsure"]


def main(arguments):
    pictures = None
    if "--pictures" in arguments:
        at = arguments.index("--pictures")
        pictures = pathlib.Path(arguments[at + 1])
        pictures.mkdir(parents=True, exist_ok=True)
        arguments = arguments[:at] + arguments[at + 2:]
    browser = Browser()
    faults = []
    try:
        for page in map(pathlib.Path, arguments):
            passed, unsure = [], set()
            for one in LOOKS:
                rules, wrong, doubts = look(browser, page, *one, pictures)
                passed.append(rules)
                unsure |= set(doubts)
                faults += wrong
            print(f"{page}: rules passed {passed}, left to people {sorted(unsure)}")
    finally:
        browser.close()
    for fault in faults:
        print(fault, file=sys.stderr)
    return 1 if faults or not arguments else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
