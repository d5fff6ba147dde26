"""Finds the keys that the readers accept, by asking the readers.

It passes documents with an unknown key or an impossible value to `firstdrop check`. The reported
faults name the existing keys, and the kind and bounds of each value. So the answers come from the
readers' own code, and no second list of keys is needed.
"""

import json
import pathlib
import re
import subprocess
import tempfile

PATIENCE = 120  # seconds
NOBODY_HAS = "zzzzzz"
NO_VALUE = "?"
# Keys whose values the readers resolve themselves. Those documents have their own pages.
ELSEWHERE = {("recipe", "plant"), ("recipe", "still"), ("campaign", "work[].recipe")}
# Keys that are checked only if another key is present.
BESIDE = {("recipe", "site.mains"): {"circuit": "16 A"}, ("recipe", "site.circuit"): {"mains": "230 V"}}
# For keys whose unit decides between two kinds, a unit of the second kind.
OTHER_UNIT = {("recipe", "goal.oil"): "L", ("campaign", "work[].wanted.oil"): "L",
              ("plant", "states.STATE.oil_content.figure"): "L/kg"}
# Kinds of values as the readers describe them, and the shorter names in the pages.
KINDS = {
    'a day that exists, from 1900 on, as "2026-06-20"': "day",
    'a day and time that exist, from 1900 on, as "2026-06-20T09:30"': "date and time",
    'a time of day, as "09:30"': "time of day",
    "a whole number, zero or more": "whole number",
    "true or false": "true | false",
    "text in double quotes": "text",
    "a list, [ … ]": "list",
    "an object, { … }": "object",
}
# Keys that say how a figure is known. Many objects have them; the page describes them once.
EVIDENCE = ["basis", "source", "known"]


class Key:
    """One key. Its path from the root has dots, [] for lists, and open names in capitals."""

    def __init__(self, path, kind, needed=False):
        self.path = path
        self.kind = kind      # "mass", "fresh | wilted | dried", "text", …
        self.needed = needed  # unconditionally
        self.bounds = []      # "from 1 to 50 °C"


class Fault:
    def __init__(self, line):
        said = re.fullmatch(r"[^:]+: (?:(/\S*): )?(?:found (.*?))?(?:; )?(?:wanted (.*?))?"
                            r"(?:; (?!wanted|or an? )(.*))?", line)
        self.pointer, self.found, self.wanted, self.hint = (part or "" for part in said.groups())


def checked(program, documents):
    """The faults of each document."""
    with tempfile.TemporaryDirectory() as folder:
        names = []
        for number, document in enumerate(documents):
            names.append(f"{number}.json")
            (pathlib.Path(folder) / names[-1]).write_text(json.dumps(document), encoding="utf-8")
        faults = [[] for _ in documents]
        if not names:
            return faults
        done = subprocess.run([program, "check", *names], cwd=folder, capture_output=True,
                              encoding="utf-8", timeout=PATIENCE, check=False)
        if done.returncode not in (0, 2) or done.stderr:
            raise RuntimeError(f"firstdrop check ends with {done.returncode}: {done.stderr}")
        for line in done.stdout.splitlines():
            if not re.match(r"\d+\.json: good, ", line):
                faults[int(line[:line.index(".json")])].append(Fault(line))
        return faults


def names_in(words):
    """The names in a list such as "a, b or c", without duplicates."""
    return list(dict.fromkeys(re.split(r", | or ", words)))


def kind_of(wanted):
    """The kind of value, and its first unit if it is a quantity."""
    quantities = re.findall(r"an? ([a-z ]+?) with its unit: ([^,;]+)", wanted)
    if quantities:
        return " | ".join(name for name, _ in quantities), quantities[0][1]
    if wanted.startswith("a plain number"):
        return "number", None
    if ": " in wanted and not wanted.startswith("the format version"):
        return " | ".join(names_in(wanted.partition(": ")[2])), None
    return KINDS.get(wanted, wanted), None


class Reader:
    def __init__(self, program, kind):
        self.program = program
        self.kind = kind
        self.keys = []
        self.figure = None  # the path to any one figure
        self.units = {}     # the reader's list of units for each kind of quantity

    # A `way` is a path as a list of steps: a key, or 0 for the first item of a list.
    def document(self, way, value, beside=None):
        for step in reversed(way):
            value = [value] if step == 0 else {step: value, **(beside or {})}
            beside = None
        return {self.kind: 1, **value} if way else {self.kind: 1}

    def ask(self, questions):
        """For each (way, path, value): the fault there, and the names in the faults below it."""
        documents = [self.document(way, value, BESIDE.get((self.kind, path)))
                     for way, path, value in questions]
        answers = []
        for (way, _, _), faults in zip(questions, checked(self.program, documents)):
            pointer = "".join(f"/{step}" for step in way)
            there = next((fault for fault in faults if fault.pointer == pointer), None)
            missing = {fault.pointer[len(pointer) + 1:] for fault in faults
                       if fault.found == "nothing" and fault.pointer.startswith(pointer + "/")}
            answers.append((there, missing))
        return answers

    def members(self, objects):
        """For each object (way, path): its members (way, path, whether needed), and whether it has
        the keys in EVIDENCE."""
        unknown = self.ask([(way + [NOBODY_HAS], "", 1) for way, _ in objects])
        empty = self.ask([(way, "", {}) for way, _ in objects])
        for (way, path), (fault, _), (_, missing) in zip(objects, unknown, empty):
            wanted = fault.wanted if fault else ""
            if wanted.startswith("one of "):
                names = names_in(wanted[len("one of "):])
                evidence = set(EVIDENCE) <= set(names)
                yield [(way + [name], path + name, name in missing) for name in names
                       if (way or name != self.kind) and not (evidence and name in EVIDENCE)], evidence
            elif wanted == "a key of the liquid table":
                yield [(way + ["linalool"], path + "LIQUID", False)], False
            elif wanted:  # "a state: fresh, wilted or dried"
                what, _, listed = wanted.partition(": ")
                name = re.sub(r"^an? ", "", what).upper()
                yield [(way + [names_in(listed)[0]], path + name, False)], False
            else:
                raise RuntimeError(f"{self.kind} {path or 'itself'} takes any key")

    def read(self):
        """All keys, outer ones first."""
        objects = [([], "")]
        self.keys.append(Key(self.kind, "1", True))
        while objects:
            found = []
            for (way, path), (members, evidence) in zip(objects, self.members(objects)):
                found += members
                if evidence:
                    next(key for key in self.keys if key.path == re.sub(r"(\[\])?\.$", "", path)
                         ).kind += " with evidence"
            objects = self.look_at(found)
        if self.figure:
            self.read_figure()
        return self.keys

    def look_at(self, found):
        """Finds the kind of value that each key wants, and returns the objects among them."""
        texts = self.ask([(way, path, NO_VALUE) for way, path, _ in found])
        numbers = self.ask([(way, path, 1) for way, path, _ in found])
        inside = self.ask([(way + [NOBODY_HAS], "", 1) for way, path, _ in found])
        items = self.ask([(way + [0], "", NO_VALUE) for way, path, _ in found])
        objects, bounded = [], []
        for (way, path, needed), (text, _), (number, _), (member, _), (item, _) in zip(
                found, texts, numbers, inside, items):
            fault = text or number
            kind, unit = kind_of(fault.wanted if fault else "")
            self.units.update(re.findall(r"an? ([a-z ]+?) with its unit: (.+?)(?:, or as in .*?)?(?:; |$)",
                                         fault.wanted if fault else ""))
            key = Key(path, kind, needed)
            self.keys.append(key)
            if (self.kind, path) in ELSEWHERE:
                key.kind = "reference"
            elif kind == "object":
                objects.append((way, path + "."))
            elif kind == "list":
                key.kind = f"list of {kind_of(item.wanted)[0]}"
                if key.kind == "list of object":
                    objects.append((way + [0], path + "[]."))
            elif kind == "number":
                key.bounds.append(fault.wanted)
            if unit:
                units = [unit]
                if (self.kind, path) in OTHER_UNIT:
                    units.append(OTHER_UNIT[self.kind, path])
                bounded += [(key, way, one) for one in units]
            if member and "typical" in member.wanted:
                self.figure = self.figure or way
                if path in (p for k, p in OTHER_UNIT if k == self.kind):
                    key.kind += " | volume per mass"
                key.kind += " figure"
        for sign in ("1e9", "-1e9"):
            answers = self.ask([(way, key.path, f"{sign} {unit}") for key, way, unit in bounded])
            for (key, _, _), (fault, _) in zip(bounded, answers):
                if fault and " with its unit" not in fault.wanted and fault.wanted not in key.bounds:
                    key.bounds.append(fault.wanted)
        return objects

    def read_figure(self):
        """The keys of a figure, and its evidence keys."""
        (unknown, _), (_, missing) = self.ask(
            [(self.figure + [NOBODY_HAS], "", 1), (self.figure, "", {})])
        for name in names_in(unknown.wanted[len("one of "):]):
            ((text, _), (number, _)) = self.ask([(self.figure + [name], "", NO_VALUE),
                                                 (self.figure + [name], "", 1)])
            fault = text or number
            wanted = fault.wanted if fault else ""
            kind = kind_of(wanted)[0]
            if "unit" == name:
                kind = "text"
            elif wanted.startswith('"ratio"'):
                kind = "ratio"
            elif wanted == "a key of the source table":
                kind = "source key | list of source key"
            self.keys.append(Key(f"FIGURE.{name}", kind, name in missing))
