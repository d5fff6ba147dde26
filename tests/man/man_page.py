"""Reads a manual page from mandoc's HTML: sections, synopsis, and items with their descriptions."""

import html.parser
import re
import subprocess

PATIENCE = 60  # seconds


class Item:
    def __init__(self, section, subsection):
        self.section = section
        self.subsection = subsection
        self.tag = ""
        self.text = ""


class Page(html.parser.HTMLParser):
    def __init__(self, path):
        super().__init__()
        self.path = path
        self.titles = []      # (section, subsection)
        self.synopsis = []
        self.items = []
        self.displays = []    # (section, literal text)
        self.words = ""       # the text of the whole page
        self.section = self.subsection = ""
        self.into = []        # open elements that receive text: h1, h2, dt, dd, pre, table
        done = subprocess.run(["mandoc", "-Thtml", path], capture_output=True, encoding="utf-8",
                              timeout=PATIENCE, check=True)
        self.feed(done.stdout[done.stdout.index('<div class="manual-text">'):])
        for item in self.items:
            item.tag, item.text = spaced(item.tag), spaced(item.text)
        self.synopsis = [spaced(line) for line in self.synopsis]

    def handle_starttag(self, tag, attributes):
        classes = (dict(attributes).get("class") or "").split()
        if tag == "h1":
            self.section, self.subsection = "", ""
        elif tag == "h2":
            self.subsection = ""
        elif tag == "dt":
            self.items.append(Item(self.section, self.subsection))
        elif tag == "pre":
            self.displays.append([self.section, ""])
        elif tag == "table" and "Nm" in classes:
            self.synopsis.append("")
        elif tag not in ("dd", "table"):
            return
        self.into.append(tag)

    def handle_endtag(self, tag):
        if tag in self.into:
            while self.into.pop() != tag:
                pass
        if tag in ("h1", "h2"):
            self.section, self.subsection = spaced(self.section), spaced(self.subsection)
            self.titles.append((self.section, self.subsection))

    def handle_data(self, data):
        self.words += data
        if not self.into:
            return
        tag = self.into[-1]
        if tag == "h1":
            self.section += data
        elif tag == "h2":
            self.subsection += data
        elif tag == "dt":
            self.items[-1].tag += data
        elif tag == "dd":
            self.items[-1].text += data
        elif tag == "pre":
            self.displays[-1][1] += data
        elif tag == "table" and self.section == "SYNOPSIS" and self.synopsis:
            self.synopsis[-1] += data

    def items_in(self, section, subsection=None):
        return [item for item in self.items if item.section == section
                and (subsection is None or item.subsection == subsection)]

    def subsections(self, section):
        return [sub for title, sub in self.titles if title == section and sub]


def spaced(text):
    return re.sub(r"\s+", " ", text).strip()
