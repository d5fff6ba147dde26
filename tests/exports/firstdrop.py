"""Runs the program under test, and lists the recipes for it."""

import json
import os
import pathlib
import subprocess
import sys

sys.path.append(str(pathlib.Path(__file__).resolve().parent.parent / "schemas"))
import kept  # noqa: E402

PROGRAM = sys.argv[1]
EXAMPLES = pathlib.Path(sys.argv[2]) / "examples"
RECIPES = sorted(EXAMPLES.glob("*.json"))
assert len(RECIPES) >= 5, RECIPES


def run(recipe, *options, **environment):
    """The standard output of `firstdrop plan`, as bytes."""
    done = subprocess.run([PROGRAM, "plan", str(recipe), *options], check=True,
                          stdout=subprocess.PIPE, env={**os.environ, **environment})
    kept.keep(done.stdout.decode("utf-8"))
    return done.stdout


def plan(recipe, *options):
    return json.loads(run(recipe, *options, "--json"))
