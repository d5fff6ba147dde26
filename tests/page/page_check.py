"""Checks a run sheet in a real browser and in print.

chromedriver drives a headless Chromium over the W3C WebDriver protocol. One browser serves all
pages. The checks don't depend on what a sheet says. They only check that everything on it can be
read, also on paper.
"""

import base64
import collections
import html
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unicodedata
import urllib.error
import urllib.request
import xml.etree.ElementTree as ElementTree

PATIENCE = 120  # seconds
# Sizes in cm, and in points as pdfinfo prints them: ISO 216 and ANSI/ASME Y14.1.
PAPERS = {"A4": (21.0, 29.7), "US Letter": (21.59, 27.94)}
POINTS_PER_CM = 72 / 2.54
PIXELS_PER_CM = 96 / 2.54  # CSS pixels
USUAL_MARGIN = 1.0  # cm: WebDriver's default, close to that of print dialogs; @page overrides it
# Many printers can't print closer to the edge of the paper (from memory: 3 to 5 mm).
UNPRINTABLE = 0.5  # cm
# Smaller words are hard to read at arm's length (common practice, no source).
LOWEST_WORD = 7  # points, from the top of the font's tallest letters to the bottom of its lowest
MOST_PAGES = 2
LONG_WORD = 30  # characters; every column is wide enough for shorter words

# False messages of tidy about valid HTML, each with the reason. Any other message is a fault.
TIDY_IS_WRONG = {
    # SVG's title may have an id, like any element; tidy 5.6 takes it for the title of the head.
    'Warning: <title> proprietary attribute "id"',
    # Attributes of SVG 2: lengths with a unit (section 7.2) and presentation attributes (section
    # 6.6). tidy 5.6 knows the element, but not these attributes.
    'Warning: <svg> attribute "width" has invalid value "186mm"',
    'Warning: <svg> attribute "height" has invalid value "54mm"',
    'Warning: <svg> proprietary attribute "font-family"',
    'Warning: <svg> proprietary attribute "font-size"',
    'Warning: <svg> proprietary attribute "fill"',
}

FLAGS = [
    "--headless", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--disable-dev-shm-usage",
    # Chromium has no sandbox as root and in most containers. All pages here are our own.
    "--no-sandbox",
    # A request to another host is a fault, so block it.
    "--host-resolver-rules=MAP * ~NOTFOUND",
]


class Browser:
    """A WebDriver session. Close it, or the browser keeps running."""

    def __init__(self):
        self.profile = tempfile.mkdtemp()
        self.driver = subprocess.Popen(["chromedriver", "--port=0"], stdout=subprocess.PIPE,
                                       stderr=subprocess.DEVNULL, text=True,
                                       env={**os.environ, "HOME": self.profile})
        self.session = None
        try:
            self.address = self.listening_at()
            made = self.call("POST", "/session", {"capabilities": {"alwaysMatch": {
                "browserName": "chrome",
                "goog:chromeOptions": {"args": [*FLAGS, f"--user-data-dir={self.profile}"]},
                "goog:loggingPrefs": {"browser": "ALL", "performance": "ALL"},
            }}})
            self.session = made["sessionId"]
            # Leave the browser's own start page, which makes many requests.
            self.ask("POST", "/url", {"url": "about:blank"})
        except BaseException:
            self.close()
            raise

    def listening_at(self):
        for line in self.driver.stdout:
            port = re.search(r"started successfully on port (\d+)", line)
            if port:
                return f"http://127.0.0.1:{port[1]}"
        raise RuntimeError("chromedriver does not start")

    def call(self, method, path, body=None):
        request = urllib.request.Request(
            self.address + path, method=method,
            data=None if body is None else json.dumps(body).encode(),
            headers={"Content-Type": "application/json"})
        try:
            # chromedriver runs on this machine, so bypass any proxy.
            opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
            with opener.open(request, timeout=PATIENCE) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            raise RuntimeError(f"{path}: {json.load(error)['value']['message']}") from error

    def ask(self, method, path, body=None):
        return self.call(method, f"/session/{self.session}{path}", body)

    def devtools(self, command, **parameters):
        return self.ask("POST", "/goog/cdp/execute", {"cmd": command, "params": parameters})

    def run(self, script, *arguments):
        return self.ask("POST", "/execute/sync", {"script": script, "args": list(arguments)})

    def log(self, kind):
        return self.ask("POST", "/se/log", {"type": kind})

    def open(self, path):
        self.log("browser"), self.log("performance")  # discard entries of the previous page
        self.ask("POST", "/url", {"url": path.resolve().as_uri()})

    def lay_out(self, width, media):
        """Lays out the page at this width, for the screen or for print."""
        self.devtools("Emulation.setEmulatedMedia", media=media)
        self.devtools("Emulation.setDeviceMetricsOverride", width=round(width), height=1000,
                      deviceScaleFactor=1, mobile=False)

    def print_on(self, width, height):
        return base64.b64decode(self.ask("POST", "/print", {
            "page": {"width": width, "height": height}, "shrinkToFit": True, "background": True}))

    def close(self):
        try:
            if self.session:
                self.call("DELETE", f"/session/{self.session}")
        finally:
            self.driver.terminate()
            self.driver.wait(timeout=PATIENCE)
            self.driver.stdout.close()
            shutil.rmtree(self.profile, ignore_errors=True)


# --- scripts that run in the page

IN_THE_PAGE = r"""
const faults = [];
const named = (e) => e.tagName.toLowerCase() + (e.id ? '#' + e.id : '') +
    ' "' + e.textContent.trim().replace(/\s+/g, ' ').slice(0, 40) + '"';
const shown = (e) => e.checkVisibility() && e.getClientRects().length > 0;
const out = 1;  // pixel: layout rounds

// The box of a text is as high as the highest and lowest letters of its font; the letters between
// fill about the middle 70 %.
const inner = ({b, upright}) => upright
    ? {l: b.left + 0.15 * b.width, r: b.right - 0.15 * b.width, t: b.top, b: b.bottom}
    : {l: b.left, r: b.right, t: b.top + 0.15 * b.height, b: b.bottom - 0.15 * b.height};
const overlaps = (texts) => {
  for (let i = 0; i < texts.length; ++i)
    for (let j = 0; j < i; ++j) {
      const p = inner(texts[i]), q = inner(texts[j]);
      if (Math.min(p.r, q.r) - Math.max(p.l, q.l) > out &&
          Math.min(p.b, q.b) - Math.max(p.t, q.t) > out)
        faults.push(`one over the other: ${named(texts[j].label)} and ${named(texts[i].label)}`);
    }
};

const width = document.documentElement.clientWidth;
for (const e of document.body.querySelectorAll('*')) {
  if (e.closest('svg') && e.tagName !== 'svg') continue;
  if (!shown(e)) continue;
  const style = getComputedStyle(e);
  if (e.tagName !== 'svg' && style.display !== 'inline' && e.scrollWidth > e.clientWidth + out &&
      e.clientWidth > 0)
    faults.push(`wider than its box: ${named(e)}`);
  if (style.overflowY !== 'visible' && e.tagName !== 'svg' && e.scrollHeight > e.clientHeight + out)
    faults.push(`higher than its box: ${named(e)}`);
  const box = e.getBoundingClientRect();
  if (box.left < -out || box.right > width + out) faults.push(`beside the page: ${named(e)}`);
}

const lines = [];
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
  const label = walker.currentNode.parentElement;
  if (label.closest('svg') || !label.checkVisibility() || !walker.currentNode.data.trim()) continue;
  const range = document.createRange();
  range.selectNodeContents(walker.currentNode);
  for (const b of range.getClientRects()) lines.push({label, b, upright: false});
}
overlaps(lines);

for (const svg of document.querySelectorAll('svg')) {
  if (!shown(svg)) continue;
  const frame = svg.getBoundingClientRect();
  const labels = [];
  for (const text of svg.querySelectorAll('text')) {
    const parts = text.querySelectorAll('tspan');
    for (const label of parts.length ? parts : [text]) {
      if (!shown(label) || !label.textContent.trim()) continue;
      const b = label.getBoundingClientRect();
      const turned = label.getScreenCTM();
      labels.push({label, b, upright: Math.abs(turned.b) > Math.abs(turned.a)});
      if (b.left < frame.left - out || b.right > frame.right + out || b.top < frame.top - out ||
          b.bottom > frame.bottom + out)
        faults.push(`outside of its picture: ${named(label)}`);
    }
  }
  overlaps(labels);
}
return faults;
"""

BY_ITSELF = r"""
const faults = [];
if (!document.title.trim()) faults.push('no title');
if (!document.documentElement.lang) faults.push('no language');
if (document.compatMode !== 'CSS1Compat') faults.push('no doctype');
for (const e of document.querySelectorAll('*')) {
  const tag = e.tagName.toLowerCase();
  if (['script', 'iframe', 'object', 'embed', 'base'].includes(tag)) faults.push(`an element ${tag}`);
  for (const a of e.attributes) {
    if (/^on/i.test(a.name) || /^\s*javascript:/i.test(a.value))
      faults.push(`a script in ${tag} ${a.name}`);
    const refers = /^(src|srcset|data|poster|background|(xlink:)?href)$/i.test(a.name);
    if (refers && tag !== 'a' && !/^(#|data:)/.test(a.value))
      faults.push(`an outside resource in ${tag} ${a.name}: ${a.value}`);
  }
}
return faults;
"""

WORDS = r"""
const pictures = [...document.querySelectorAll('svg')];
const labels = pictures.flatMap(s => [...s.querySelectorAll('text')])
    .filter(t => t.checkVisibility())
    .map(t => [...(t.querySelectorAll('tspan').length ? t.querySelectorAll('tspan') : [t])]
        .map(p => p.textContent).join(' '));
for (const p of pictures) p.style.setProperty('display', 'none', 'important');
const text = document.body.innerText;
for (const p of pictures) p.style.removeProperty('display');
return text + '\n' + labels.join('\n');
"""

# The margins set in the page's own style sheet.
MARGINS = r"""
const cm = {mm: 0.1, cm: 1, in: 2.54, pt: 2.54 / 72, px: 2.54 / 96};
const length = (text) => {
  const m = /^([0-9.]+)(mm|cm|in|pt|px)$/.exec(text);
  return m ? Number(m[1]) * cm[m[2]] : null;
};
const margins = {left: arguments[0], right: arguments[0]};
for (const sheet of [...document.styleSheets].filter(s => !s.href))
  for (const rule of sheet.cssRules)
    if (rule instanceof CSSPageRule) {
      margins.left = length(rule.style.marginLeft) ?? margins.left;
      margins.right = length(rule.style.marginRight) ?? margins.right;
    }
return margins;
"""

PICTURES = "svg, img, [role=img]"


def tokens(text):
    """Single words and signs. They can be compared although a line may break within a compound, and
    a PDF has ligatures."""
    plain = unicodedata.normalize("NFKC", text).replace("\u00ad", "")
    return re.findall(r"\w+|[^\w\s]", plain)


def tool(*command, text=None):
    return subprocess.run(command, input=text, capture_output=True, text=True, timeout=PATIENCE,
                          check=False)


class PageCheck:
    """Collects the faults of one page."""

    def __init__(self, browser, path, keep=None, most_pages=MOST_PAGES):
        self.browser = browser
        self.path = pathlib.Path(path)
        self.keep = keep
        self.most_pages = most_pages
        self.source = self.path.read_text(encoding="utf-8")
        self.faults = []

    def add(self, where, faults):
        self.faults += [f"{where}: {fault}" for fault in faults if fault]

    def all_faults(self):
        self.valid()
        self.browser.open(self.path)
        self.browser.lay_out(1200, "screen")
        self.add("page", self.browser.run(BY_ITSELF))
        self.alternatives()
        self.add("on the screen", self.browser.run(IN_THE_PAGE))
        words = tokens(self.browser.run(WORDS))
        if len(words) < 20:
            self.add("page", [f"only {len(words)} words"])
        if self.keep:
            self.save(".png", base64.b64decode(self.browser.ask("GET", "/screenshot")))
        margins = self.browser.run(MARGINS, USUAL_MARGIN)
        for paper, (width, height) in PAPERS.items():
            self.browser.lay_out((width - margins["left"] - margins["right"]) * PIXELS_PER_CM, "print")
            self.add(f"on {paper}", self.browser.run(IN_THE_PAGE))
        self.browser.devtools("Emulation.clearDeviceMetricsOverride")
        self.browser.devtools("Emulation.setEmulatedMedia", media="")
        for paper in PAPERS:
            self.printed(paper, words)
        self.quiet()
        return self.faults

    def save(self, ending, data):
        (self.keep / (self.path.stem + ending)).write_bytes(data)

    def valid(self):
        said = tool("tidy", "-q", "-e", "-utf8", "--drop-empty-elements", "no",
                    str(self.path)).stderr.splitlines()
        self.add("tidy", [line for line in said
                          if not any(line.endswith(wrong) for wrong in TIDY_IS_WRONG)])
        for picture in re.findall(r"<svg\b.*?</svg>", self.source, re.DOTALL):
            try:
                root = ElementTree.fromstring(picture)
                if root.tag != "{http://www.w3.org/2000/svg}svg":
                    self.add("picture", ["no namespace of its own"])
                if "viewBox" not in root.attrib:
                    self.add("picture", ["no viewBox"])
            except ElementTree.ParseError as error:
                self.add("picture", [f"not well-formed: {error}"])

    def alternatives(self):
        """Checks what the browser would tell a screen reader about each picture."""
        found = self.browser.ask("POST", "/elements", {"using": "css selector", "value": PICTURES})
        for reference in found:
            element = next(iter(reference.values()))
            role = self.browser.ask("GET", f"/element/{element}/computedrole")
            label = self.browser.ask("GET", f"/element/{element}/computedlabel")
            tag = self.browser.ask("GET", f"/element/{element}/name")
            if role not in ("img", "image"):
                self.add("picture", [f"its role is {role or 'none'}, not img"])
            if not label.strip():
                self.add("picture", ["no name for those who do not see it"])
            described = self.browser.run(
                "return arguments[0].querySelector(':scope > desc')?.textContent.trim()", reference)
            if tag == "svg" and not described:
                self.add("picture", ["no description (desc)"])

    def printed(self, paper, words):
        width, height = PAPERS[paper]
        pdf = self.browser.print_on(width, height)
        if self.keep:
            self.save(f".{paper}.pdf", pdf)
        with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
            file.write(pdf)
            file.flush()
            about = tool("pdfinfo", file.name).stdout
            boxes = tool("pdftotext", "-bbox", "-enc", "UTF-8", file.name, "-").stdout
        self.add(f"print on {paper}", [
            self.pages(about, width, height), self.lacking(words, boxes), *self.on_paper(boxes)])

    def pages(self, about, width, height):
        pages = int(re.search(r"^Pages: +(\d+)$", about, re.MULTILINE)[1])
        size = re.search(r"^Page size: +([0-9.]+) x ([0-9.]+) pts", about, re.MULTILINE)
        for got, wanted in zip(size.groups(), (width, height)):
            if abs(float(got) - wanted * POINTS_PER_CM) > 1:
                return f"the paper is {size[1]} x {size[2]} points"
        return f"{pages} pages, at most {self.most_pages} wanted" if pages > self.most_pages else ""

    @staticmethod
    def lacking(words, boxes):
        printed = [html.unescape(word) for word in re.findall(r"<word [^>]*>(.*?)</word>", boxes)]
        lacking = collections.Counter(words) - collections.Counter(tokens(" ".join(printed)))
        # A word longer than its column may be broken anywhere.
        unbroken = "".join(printed)
        gone = [word for word in lacking if len(word) < LONG_WORD or word not in unbroken]
        return f"lacks {' '.join(gone[:20])}" if gone else ""

    @staticmethod
    def on_paper(boxes):
        """Checks that each page has words, and that they are printable and large enough."""
        page = 0
        edge = UNPRINTABLE * POINTS_PER_CM
        for sheet in re.finditer(r'<page width="([0-9.]+)" height="([0-9.]+)">(.*?)</page>', boxes,
                                 re.DOTALL):
            page += 1
            width, height = float(sheet[1]), float(sheet[2])
            found = re.findall(r'<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" '
                               r'yMax="([-0-9.]+)">(.*?)</word>', sheet[3])
            if not found:
                yield f"page {page} is empty"
            for left, top, right, bottom, word in found:
                if float(left) < edge or float(right) > width - edge or float(top) < edge or \
                        float(bottom) > height - edge:
                    yield f"beside what is printed of page {page}: {word}"
                if float(bottom) - float(top) < LOWEST_WORD:
                    yield f"too small to read on page {page}: {word}"
        if not page:
            yield "no pages"

    def quiet(self):
        """Checks that the console has no messages and that the page makes no requests."""
        self.add("console", [entry["message"] for entry in self.browser.log("browser")
                             if entry["level"] in ("SEVERE", "WARNING")])
        own = self.path.resolve().as_uri()
        requests = [json.loads(entry["message"])["message"] for entry in self.browser.log("performance")]
        asked = [message["params"]["request"]["url"] for message in requests
                 if message["method"] == "Network.requestWillBeSent"]
        if own not in asked:
            self.add("requests", ["not even its own is seen: the check itself is broken"])
        self.add("requests", [f"asks for {url}" for url in asked
                              if url != own and not url.startswith("data:")])


def need_programs():
    """Ends the program if a program that it calls isn't installed."""
    packages = {"chromedriver": "chromium-driver", "tidy": "tidy", "pdftotext": "poppler-utils",
                "pdfinfo": "poppler-utils"}
    missing = sorted({package for name, package in packages.items() if shutil.which(name) is None})
    if missing:
        sys.exit(f"missing, by the names of Debian's packages: {' '.join(missing)}")
