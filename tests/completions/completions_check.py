"""Checks what completions offer, on the lines of the file "cases", and for --set and --vary on each key
that the readers accept."""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "man"))
import offers  # noqa: E402
import reader_keys  # noqa: E402

PATIENCE = 60  # seconds
FILES = ("my-recipe.json", "list.jsonl", "sheet.html", "notes.txt", "folder/inner.json")
NO_FIGURES = ("still", "key", "$schema", "note", "title", "about", "methods")


class Wanted:
    """What a line must offer: words that must be `among` the offers, or be `exactly` the offers;
    and words of which it must offer `none`."""

    def __init__(self, line, among=(), exactly=None, none=()):
        self.line = line
        self.among = set(among)
        self.exactly = None if exactly is None else set(exactly)
        self.none = set(none)

    def faults(self, shell, offered):
        where = f"{shell}: {self.line}^"
        wanted = self.among if self.exactly is None else self.exactly
        for word in sorted(wanted - offered):
            yield f"{where}: lacks {word}"
        too_many = offered & self.none if self.exactly is None else offered - self.exactly
        for word in sorted(too_many):
            yield f"{where}: offers {word}"


def cases(text):
    """Parses the file "cases", which describes its own format."""
    for line in text.splitlines():
        if not line.strip() or line.startswith("#"):
            continue
        left, kind, right = re.fullmatch(r"(.*?)\^ +(=>?)(.*)", line).groups()
        words, _, none = right.partition("!")
        if kind == "=":
            yield Wanted(left, exactly=words.split())
        else:
            yield Wanted(left, among=words.split(), none=none.split())


def table_keys(program, table):
    done = subprocess.run([program, table, "--json"], check=True, capture_output=True,
                          encoding="utf-8", timeout=PATIENCE)
    return set(json.loads(done.stdout))


def recipe_keys(program):
    """Keys that --set accepts, with the words that their values can be."""
    keys = {}
    for prefix, kind in (("", "recipe"), ("still.", "still")):
        for key in reader_keys.Reader(program, kind).read():
            apart = key.path in (kind, "$schema", "note")
            if kind == "still":
                apart = apart or key.path in NO_FIGURES or key.kind == "object"
            if apart or key.path.startswith("FIGURE."):
                continue
            # "mass | volume" are kinds of quantities, not words to type.
            words = key.kind.split(" | ")
            keys[prefix + key.path] = words if len(words) > 1 and "mass" not in words else []
    return keys


def wanted_by_readers(program):
    """The offers for --set and --vary. The list of keys in src/generate/recipe_keys.cpp is typed by
    hand, so it can differ."""
    keys = recipe_keys(program)
    for option in ("--set", "--vary"):
        yield Wanted(f"firstdrop batch {option} ", exactly=keys)
        for key, words in keys.items():
            if words:
                yield Wanted(f"firstdrop batch {option} {key}=", exactly=words)
        for key, table in (("plant", "plants"), ("still", "stills")):
            yield Wanted(f"firstdrop batch {option} {key}=", exactly=table_keys(program, table))


def write_stills(program, file):
    """Writes a table with two stills that have new names."""
    done = subprocess.run([program, "stills", "--json"], check=True, capture_output=True,
                          encoding="utf-8", timeout=PATIENCE)
    still = json.loads(done.stdout)["bench-column"]
    file.write_text(json.dumps({"stills": 1, "entries": {"bench-tall": still, "bench-wide": still}}),
                    encoding="utf-8")


def faults(shell, completions, wanted, path):
    """The faults of one shell. `completions` is their folder; `path` is the program's folder."""
    with tempfile.TemporaryDirectory() as folder:
        for name in FILES:
            file = pathlib.Path(folder) / name
            file.parent.mkdir(exist_ok=True)
            file.touch()
        if (path / "firstdrop").exists():
            write_stills(path / "firstdrop", pathlib.Path(folder) / "folder/stills.json")
        answers = offers.offers(shell, completions, [one.line for one in wanted], folder, path)
    if answers.said:
        yield f"{shell}: says {answers.said.strip()}"
    for one, offered in zip(wanted, answers.offers):
        yield from one.faults(shell, offered)


def faults_without_program(shell, completions):
    """If the program isn't installed, files and options must still be offered, without messages."""
    wanted = [Wanted("firstdrop plants ", exactly=[]), Wanted("firstdrop batch --set plant=", exactly=[]),
              Wanted("firstdrop new --plant ", exactly=["my-recipe.json", "folder"]),
              Wanted("firstdrop plan --u", exactly=["--units"])]
    for fault in faults(shell, completions, wanted, pathlib.Path("/nowhere")):
        yield f"{fault}, where there is no program"
