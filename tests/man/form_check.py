"""Checks the form of the manual pages. mandoc and groff must have no remarks, and no line may be
wider than a terminal. Pages must be ASCII, which every formatter reads. Examples must work.
firstdrop.1 must list the environment variables that the program reads."""

import json
import os
import pathlib
import re
import shutil
import subprocess
import tempfile

import man_page

PATIENCE = 120  # seconds
WIDTH = 80
PAGES = {"firstdrop.1", "firstdrop-recipe.5", "firstdrop-campaign.5", "firstdrop-still.5",
         "firstdrop-plant.5", "firstdrop-plan.5"}


def printed(command, folder, **options):
    done = subprocess.run(command, cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          encoding="utf-8", timeout=PATIENCE, check=False, **options)
    return done.returncode, done.stdout


def remarks(path):
    name, section = path.name.rsplit(".", 1)
    source = path.read_bytes()
    if not source.isascii():
        yield f"{path.name}: has other characters than ASCII"
    if f".Dt {name.upper()} {section}\n".encode() not in source:
        yield f"{path.name}: its title is another"
    # Run in the folder of the pages, because they refer to each other.
    for line in printed(["mandoc", "-Tlint", path.name], path.parent)[1].splitlines():
        yield f"{path.name}: {line}"
    for line in printed(["groff", "-mdoc", "-ww", "-Tutf8", "-z", f"-rLL={WIDTH}n", path.name],
                        path.parent)[1].splitlines():
        yield f"{path.name}: {line}"
    for command in (["groff", "-mdoc", "-Tutf8", f"-rLL={WIDTH}n", "-P-cbou"],
                    ["mandoc", "-Tutf8", f"-Owidth={WIDTH}"]):
        for line in printed([*command, path.name], path.parent)[1].splitlines():
            line = re.sub(".\b", "", line)
            if len(line) > WIDTH:
                yield f"{path.name}: by {command[0]}, wider than {WIDTH} columns: {line}"


def variables(source):
    """The environment variables that the program reads."""
    names = set()
    for path in sorted((source / "src/cli").glob("*.cpp")):
        text = path.read_text(encoding="utf-8")
        if "getenv" in text:
            names |= set(re.findall(r'"([A-Z][A-Z_]{3,})"', text))
        names |= set(re.findall(r'envname\("(\w+)"\)', text))
    return names


def environment_faults(source, page):
    listed = {name for item in page.items_in("ENVIRONMENT") for name in item.tag.split(", ")}
    real = variables(source)
    for name in sorted(real - listed):
        yield f"{page.path.name}: ENVIRONMENT lacks {name}"
    for name in sorted(listed - real):
        yield f"{page.path.name}: the program doesn't read {name}"


class Examples:
    """Runs the examples in a separate folder, with firstdrop on the PATH."""

    def __init__(self, program, source, folder):
        self.folder = folder
        self.environment = {**os.environ, "LC_ALL": "C.UTF-8",
                            "PATH": f"{program.parent}:{os.environ['PATH']}"}
        shutil.copytree(source / "examples", folder / "examples")
        recipes = sorted((source / "examples").glob("*.json"))
        self.recipe = json.loads(recipes[0].read_text(encoding="utf-8"))
        (folder / "my-recipe.json").write_text(json.dumps(self.recipe), encoding="utf-8")
        (folder / "recipes.jsonl").write_text(
            "".join(json.dumps(json.loads(path.read_text(encoding="utf-8"))) + "\n"
                    for path in recipes), encoding="utf-8")

        self.still = json.loads(subprocess.run(
            [program, "stills", "bench-column", "--json"], check=True, capture_output=True,
            encoding="utf-8", timeout=PATIENCE).stdout)
        (folder / "my-still.json").write_text(json.dumps(self.still), encoding="utf-8")

    def run(self, command):
        done, said = printed(["bash", "-euc", "set -o pipefail\n" + command], self.folder,
                             env=self.environment, stdin=subprocess.DEVNULL)
        return "" if done == 0 else f"ends with {done}: {said}"

    def check(self, document):
        (self.folder / "document.json").write_text(json.dumps(document), encoding="utf-8")
        return self.run("firstdrop check document.json")

    def faults(self, page):
        for section, text in page.displays:
            if not text.lstrip().startswith("{"):
                commands = re.split(r"\n(?=firstdrop)", text.strip())
                for command in commands:
                    if "firstdrop new" in command:  # it never overwrites a file
                        (self.folder / "my-recipe.json").unlink(missing_ok=True)
                    wrong = self.run(command)
                    if wrong:
                        yield f"{page.path.name}, {section}: {command}: {wrong}"
                continue
            try:
                document = json.loads(text)
            except ValueError as error:
                yield f"{page.path.name}, {section}: {error}"
                continue
            if "typical" in document:  # a figure: try it as one of a still's
                document = {**self.still, "wall_hold_up": document}
            wrong = self.check(document)
            if wrong:
                yield f"{page.path.name}, {section}: {wrong}"


def faults(program, source, man, some=None):
    """The faults of all pages, or only of `some`."""
    names = {path.name for path in man.iterdir()}
    for name in sorted(names ^ PAGES):
        yield f"{name}: {'nobody knows it' if name in names else 'is not there'}"
    names &= PAGES
    for name in sorted(some or names):
        yield from remarks(man / name)
    yield from environment_faults(source, man_page.Page(man / "firstdrop.1"))
    pages = [man_page.Page(man / name) for name in sorted(names)]
    with tempfile.TemporaryDirectory() as folder:
        examples = Examples(program, source, pathlib.Path(folder))
        for page in pages:
            if page.path.name in (some or names):
                yield from examples.faults(page)
