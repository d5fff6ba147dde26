"""Checks what completions offer, on the lines of the file "cases"."""

import json
import pathlib
import re
import subprocess
import tempfile

import offers

HERE = pathlib.Path(__file__).resolve().parent

PATIENCE = 60  # seconds
FILES = ("my-recipe.json", "list.jsonl", "sheet.html", "notes.txt", "folder/inner.json")


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
