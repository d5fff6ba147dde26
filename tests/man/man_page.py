"""Reads a manual page from mandoc's HTML: sections, and items with their descriptions."""

import html.parser
import re
import subprocess

PATIENCE = 60  # seconds


class Item:
    def __init__(self, section):
        self.section = section
        self.tag = ""
        self.text = ""


class Page(html.parser.HTMLParser):
    def __init__(self, path):
        super().__init__()
        self.path = path
        self.items = []
        self.displays = []    # (section, literal text)
        self.words = ""       # the text of the whole page
        self.section = ""
        self.into = []        # open elements that receive text: h1, dt, dd, pre
        done = subprocess.run(["mandoc", "-Thtml", path], capture_output=True, encoding="utf-8",
                              timeout=PATIENCE, check=True)
        self.feed(done.stdout[done.stdout.index('<div class="manual-text">'):])
        for item in self.items:
            item.tag, item.text = spaced(item.tag), spaced(item.text)

    def handle_starttag(self, tag, attributes):
        if tag == "h1":
            self.section = ""
        elif tag == "dt":
            self.items.append(Item(self.section))
        elif tag == "pre":
            self.displays.append([self.section, ""])
        elif tag != "dd":
            return
        self.into.append(tag)

    def handle_endtag(self, tag):
        if tag in self.into:
            while self.into.pop() != tag:
                pass
        if tag == "h1":
            self.section = spaced(self.section)

    def handle_data(self, data):
        self.words += data
        if not self.into:
            return
        tag = self.into[-1]
        if tag == "h1":
            self.section += data
        elif tag == "dt":
            self.items[-1].tag += data
        elif tag == "dd":
            self.items[-1].text += data
        elif tag == "pre":
            self.displays[-1][1] += data

    def items_in(self, section):
        return [item for item in self.items if item.section == section]


def spaced(text):
    return re.sub(r"\s+", " ", text).strip()
