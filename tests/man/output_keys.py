"""Finds the keys in the JSON that the program prints: plans, batch lines, summaries and campaigns.
It runs the examples, and further recipes with features that the examples lack.
"""

import json
import pathlib
import subprocess
import tempfile

PATIENCE = 120  # seconds
# Objects whose keys come from the user or the tables, and what the pages call these keys.
OPEN = {"set": "KEY", "variants[].set": "KEY", "plants": "PLANT", "refusals": "CODE"}

# Features that no example has: a lot, prices of all kinds, receivers to change, a confidence, a
# stop by the clock, plans refused before or after a run is computed, orders of oil by mass.
PLANS = [
    {"plant": "lavender", "still": "bench-column", "lot": "L1", "receiver": "200 mL",
     "goal": {"hydrosol": "800 mL", "confidence": "80 %"}, "title": "Hedge", "site": {"coolant": "14 °C"},
     "prices": {"energy_per_kwh": 0.3, "plant_per_kg": 6, "currency": "EUR"}},
    {"plant": "rosemary", "still": "bench-column", "goal": {"time": "80 min"}, "setting": "50 %"},
    {"plant": "lavender", "still": "bench-column", "goal": {"hydrosol": "3 L"}},
    {"plant": "lavender", "still": "bench-column", "charge": "200 g", "setting": "2 %"},
]
CAMPAIGN = {
    "bench": {"first_day": "2026-07-06", "from": "08:00", "to": "20:00"},
    "work": [{"recipe": PLANS[1], "wanted": {"oil": "0.5 g", "confidence": "80 %"}}],
}
# A campaign whose freezer makes enough ice for the expected need, but not for the reserve.
COLD_CAMPAIGN = {
    "bench": {"first_day": "2026-07-06", "from": "08:00", "to": "20:00", "ice_per_day": "4.5 kg"},
    "work": [{"recipe": {"plant": "lavender", "still": "bench-basket", "goal": {"time": "90 min"}},
              "harvest": "110 g"}],
}
MOST_PLANTS = 200  # a summary lists no more plants than this


def kind_of(value):
    if isinstance(value, bool):
        return "true | false"
    if isinstance(value, (int, float)):
        return "number"
    if isinstance(value, str):
        return "text"
    if isinstance(value, list):
        kinds = {kind_of(one) for one in value}
        return f"list of {' | '.join(sorted(kinds))}" if kinds else "list"
    if isinstance(value, dict):
        return "range" if list(value) == ["p10", "p50", "p90"] else "object"
    return "null"


def collect(value, path, keys):
    """Adds the kinds and texts of all members to `keys`, by their paths."""
    if isinstance(value, list):
        for one in value:
            collect(one, path[:-1] + "[].", keys)
        return
    if not isinstance(value, dict) or kind_of(value) == "range":
        return
    name = OPEN.get(path[:-1])
    for key, member in value.items():
        way = path + (name or key)
        kinds, texts = keys.setdefault(way, (set(), set()))
        kinds.add(kind_of(member))
        if isinstance(member, str):
            texts.add(member)
        collect(member, way + ".", keys)


def keys_of(documents):
    """Maps the path of each key to its kind and the texts found there."""
    keys = {}
    for document in documents:
        collect(document, "", keys)
    # A list that is empty in one place takes the kind of its items elsewhere.
    return {way: (" | ".join(sorted(kinds - {"list"} if len(kinds) > 1 else kinds)), texts)
            for way, (kinds, texts) in keys.items()}


class Outputs:
    """Runs the program and groups its output by the section of the page that describes it."""

    def __init__(self, program, source):
        self.program = program
        self.recipes = sorted((source / "examples").glob("*.json")) + sorted(
            (source / "tests/page/recipes").glob("*.json"))
        self.campaigns = sorted((source / "examples/campaigns").glob("*.json")) + sorted(
            (source / "tests/page/campaigns").glob("*.json"))
        self.plans = [{"recipe": 1, **plan} for plan in PLANS]
        # The same recipes in JSON Lines, then broken lines.
        self.lines = "".join(json.dumps(plan) + "\n" for plan in self.plans)
        self.broken = '{"recipe": 1, "plant": "rose", "still": "no"}\n{"recipe": 1, "plnt": "rose"\n'

    def run(self, *arguments, text="", one=True):
        done = subprocess.run([self.program, *map(str, arguments)], input=text, encoding="utf-8",
                              capture_output=True, timeout=PATIENCE, check=False)
        if done.returncode not in (0, 1, 2) or done.stderr:
            raise RuntimeError(f"{arguments} ends with {done.returncode}: {done.stderr}")
        return [json.loads(done.stdout)] if one else list(map(json.loads, done.stdout.splitlines()))

    def broken_lines(self):
        still = {"still": 1, "title": "A pot without a bottom"}
        with tempfile.TemporaryDirectory() as folder:
            (pathlib.Path(folder) / "still.json").write_text(json.dumps(still), encoding="utf-8")
            recipe = pathlib.Path(folder) / "recipe.json"
            recipe.write_text('{"recipe": 1, "plant": "rose", "still": "still.json"}', encoding="utf-8")
            yield from self.run("batch", recipe, one=False)
        yield from self.run("batch", "-", text=self.broken, one=False)
        yield from self.run("batch", "-", "--vary", "units=us,metric", text=self.broken, one=False)

    def summaries(self, vary):
        text = self.lines + self.broken
        yield from self.run("batch", "-", *self.recipes, "--summary", "--json", text=text)
        plant = self.run("plants", "lavender", "--json")[0]
        many = [{"recipe": 1, "still": "bench-column", "plant": {**plant, "name": f"plant {number}"}}
                for number in range(MOST_PLANTS + 1)]
        yield from self.run("batch", "-", "--summary", "--brief", "--json",
                            text="".join(json.dumps(recipe) + "\n" for recipe in many))
        for summary in self.run("batch", "-", "--summary", "--json", *vary, text=text):
            # Each variant has the keys of a full summary, and the page describes these once.
            yield from ({key: one[key] for key in one if key != "set"} for one in summary["variants"])
            summary["variants"] = [{"set": one["set"]} for one in summary["variants"]]
            yield summary

    def by_part(self):
        """The keys of all documents, by the section of the page that describes them."""
        vary = ["--vary", "charge=100 g,150 g", "--vary", "site.coolant=,14 °C"]
        plans = self.run("batch", "-", *self.recipes, text=self.lines, one=False)
        plans += self.run("batch", "-", "--vary", "water=,2 L", text=self.lines, one=False)
        plans += self.run("plan", self.recipes[0], "--json", "--explain")
        brief = self.run("batch", "-", *self.recipes, "--brief", text=self.lines, one=False)
        brief += self.run("batch", "-", "--brief", *vary, "--samples", "16", text=self.lines, one=False)
        campaigns = [one for path in self.campaigns for one in self.run("campaign", path, "--json")]
        for campaign in (CAMPAIGN, COLD_CAMPAIGN):
            campaigns += self.run("campaign", "-", "--json",
                                  text=json.dumps({"campaign": 1, **campaign}))
        parts = {"A PLAN": plans, "A PLAN IN BRIEF": brief, "A BROKEN RECIPE": self.broken_lines(),
                 "THE SUMMARY OF A BATCH": self.summaries(vary), "A CAMPAIGN": campaigns}
        return {part: keys_of(documents) for part, documents in parts.items()}

    def csv_columns(self):
        done = subprocess.run([self.program, "plan", self.recipes[0], "--csv"], encoding="utf-8",
                              capture_output=True, timeout=PATIENCE, check=True)
        return done.stdout.splitlines()[0].split(",")
