"""Times and peak memory of whole processes, and tables in Markdown.

Times are hyperfine's, of processes that no shell starts. All of one table are taken in turns, forwards
and backwards, so that a machine that slows down slows all of them; a ratio is one of medians.
"""

import json
import os
import pathlib
import shlex
import statistics
import subprocess
import sys
import tempfile

BUILD = pathlib.Path(sys.argv[1]).resolve()
BENCH = BUILD / "tests" / "bench"
SOURCE = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = str(BUILD / "firstdrop")
# Sizes and repetitions that only show whether all of it works.
QUICK = os.environ.get("FIRSTDROP_BENCH_QUICK", "") not in ("", "0")
# Of `firstdrop batch`: 1 says that some of the recipes are refused.
BATCH_STATUSES = (0, 1)
# Seconds; a peer that hangs must not hold up the rest.
PATIENCE = 900


def patiently(command):
    return ["timeout", "--kill-after=10", str(PATIENCE), *map(str, command)]


def hyperfine(commands, runs, warm_up, statuses):
    """The times in seconds of each command, by its name."""
    with tempfile.TemporaryDirectory() as folder:
        result = pathlib.Path(folder) / "times.json"
        named = [word for name in commands for word in ("--command-name", name)]
        subprocess.run(["hyperfine", "--shell=none", "--style=none", f"--runs={runs}",
                        f"--warmup={warm_up}", f"--export-json={result}", "--ignore-failure",
                        *named, *(shlex.join(map(str, command)) for command in commands.values())],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        taken = json.loads(result.read_text())["results"]
    for one in taken:
        assert set(one["exit_codes"]) <= set(statuses), (one["command"], one["exit_codes"])
    return {one["command"]: one["times"] for one in taken}


def medians(commands, runs=5, rounds=4, statuses=(0,)):
    """Median time in seconds of each of the commands, by its name. They must exit so."""
    if QUICK:
        runs, rounds = 1, 2
    times = {name: [] for name in commands}
    for round_number in range(rounds):
        order = list(commands)[::-1 if round_number % 2 else 1]
        taken = hyperfine({name: commands[name] for name in order}, runs,
                          1 if round_number == 0 else 0, statuses)
        for name, more in taken.items():
            times[name] += more
    return {name: statistics.median(all_times) for name, all_times in times.items()}


def peak_mib(command, statuses=(0,)):
    """The most memory of the process, in MiB: its resident set, by GNU time."""
    with tempfile.NamedTemporaryFile("r") as peak:
        done = subprocess.run(["/usr/bin/time", "--quiet", "--format=%M", f"--output={peak.name}",
                               "--", *map(str, command)], check=False,
                              stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        assert done.returncode in statuses, (command, done.returncode)
        return int(peak.read().split()[-1]) / 1024


def write_recipes(count, folder, *tables):
    """So many recipes as JSON Lines; with the names of two tables those that may be run."""
    lines = folder / f"recipes-{count}.jsonl"
    with lines.open("wb") as file:
        subprocess.run([BENCH / "bench_recipes", str(count), *tables], check=True, stdout=file)
    return lines


def heading(text):
    print(f"\n### {text}\n", flush=True)


def table(heads, rows):
    """Heads that begin with ">" are of numbers, on the right."""
    print("| " + " | ".join(head.lstrip(">") for head in heads) + " |")
    print("|" + "|".join(" ---: " if head.startswith(">") else " --- " for head in heads) + "|")
    for row in rows:
        print("| " + " | ".join(row) + " |")
    sys.stdout.flush()


def shown(seconds):
    for unit, size in (("s", 1), ("ms", 1e-3), ("µs", 1e-6)):
        if seconds >= size:
            return f"{seconds / size:.3g} {unit}"
    return f"{seconds / 1e-9:.3g} ns"


def count_shown(number):
    return f"{number:,}"
