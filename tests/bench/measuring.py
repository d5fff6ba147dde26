"""Measures the time and peak memory of whole processes, and prints Markdown tables.

hyperfine takes the times, of processes started without a shell. The commands of a table take turns,
forwards and backwards, so that a machine that slows down slows all of them. Ratios are ratios of
medians.

The cores of a virtual machine may differ in speed, because other machines share the hardware. So
processes for one core are kept on the faster of two. Those that use both are compared with the mean
of the two.
"""

import json
import os
import pathlib
import shlex
import statistics
import subprocess
import sys
import tempfile
import time

BUILD = pathlib.Path(sys.argv[1]).resolve()
BENCH = BUILD / "tests" / "bench"
SOURCE = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = str(BUILD / "firstdrop")
# Use small sizes and few repetitions, only to see whether everything works.
QUICK = os.environ.get("FIRSTDROP_BENCH_QUICK", "") not in ("", "0")
# Accepted exit statuses of `firstdrop batch`: 1 means that some recipes are refused.
BATCH_STATUSES = (0, 1)
# Seconds after which a hanging peer is stopped, so that the rest can run.
PATIENCE = 900


def speeds():
    """How many times per second each of two cores can do the same small piece of work."""
    allowed = os.sched_getaffinity(0)
    took = {core: [] for core in sorted(allowed)[:2]}
    for _ in range(3 if QUICK else 15):
        for core, times in took.items():
            os.sched_setaffinity(0, {core})
            begin = time.perf_counter()
            sum(range(1_000_000))
            times.append(time.perf_counter() - begin)
    os.sched_setaffinity(0, allowed)
    return {core: 1 / statistics.median(times) for core, times in took.items()}


CORES = speeds()
FASTEST = max(CORES, key=CORES.get)
BOTH = ",".join(map(str, CORES))


def on_core(core, command):
    """The command, restricted to this core or to both."""
    return ["taskset", "--cpu-list", str(core), *command]


def patiently(command):
    return ["timeout", "--kill-after=10", str(PATIENCE), *map(str, command)]


def hyperfine(command, runs, warm_up, statuses, core):
    """The times in seconds."""
    with tempfile.TemporaryDirectory() as folder:
        result = pathlib.Path(folder) / "times.json"
        subprocess.run(on_core(core, ["hyperfine", "--shell=none", "--style=none",
                                      f"--runs={runs}", f"--warmup={warm_up}",
                                      f"--export-json={result}", "--ignore-failure",
                                      shlex.join(map(str, command))]),
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        taken, = json.loads(result.read_text())["results"]
    assert set(taken["exit_codes"]) <= set(statuses), (command, taken["exit_codes"])
    return taken["times"]


def medians(commands, runs=5, rounds=4, statuses=(0,), elsewhere=None):
    """Median time in seconds of each command, by its name. Their exit statuses must be among
    `statuses`. Each runs on the fastest core, unless `elsewhere` has other cores for it.
    """
    if QUICK:
        runs, rounds = 1, 2
    times = {name: [] for name in commands}
    for round_number in range(rounds):
        for name in list(commands)[::-1 if round_number % 2 else 1]:
            times[name] += hyperfine(commands[name], runs, 1 if round_number == 0 else 0, statuses,
                                     (elsewhere or {}).get(name, FASTEST))
    return {name: statistics.median(all_times) for name, all_times in times.items()}


def peak_mib(command, statuses=(0,)):
    """The peak resident memory of the process, in MiB, by GNU time."""
    with tempfile.NamedTemporaryFile("r") as peak:
        done = subprocess.run(["/usr/bin/time", "--quiet", "--format=%M", f"--output={peak.name}",
                               "--", *map(str, command)], check=False,
                              stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        assert done.returncode in statuses, (command, done.returncode)
        return int(peak.read().split()[-1]) / 1024


def write_recipes(count, folder, *tables):
    """Writes `count` recipes as JSON Lines. With the names of two tables to write, it writes only
    recipes whose plan isn't refused."""
    lines = folder / f"recipes-{count}.jsonl"
    with lines.open("wb") as file:
        subprocess.run([BENCH / "bench_recipes", str(count), *tables], check=True, stdout=file)
    return lines


def heading(text):
    print(f"\n### {text}\n", flush=True)


def table(heads, rows):
    """Prints a table. A head that begins with ">" aligns its column to the right, for numbers."""
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
