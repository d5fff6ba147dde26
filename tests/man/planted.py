"""Faults that the check of the manual pages must find, so that it can't pass by overlooking
everything. Each part of the check has one fault for each thing that it compares."""

import shutil

# For each part: the page, the text to replace, its replacement, and the fault to be reported.
FAULTS = {
    "keys": [
        ("firstdrop-plan.5", ".It Cm rates : Ar object\n",
         ".It Cm rates : Ar object\n.It Cm rates.steam_g : Ar number\n",
         "A PLAN: nobody knows rates.steam_g"),
        ("firstdrop-plan.5", "Cm warming | steaming | running\n", "Cm warming | running\n",
         "timeline[].phase can be steaming"),
        ("firstdrop-plan.5", ".It Cm oil_p10_ml\n", "", "THE RUN AS A TABLE: has"),
    ],
    "form": [
        ("firstdrop.1", ".It Ev COLUMNS\n", ".It Ev LINES\n", "ENVIRONMENT lacks COLUMNS"),
        ("firstdrop-recipe.5", ".Sh EXAMPLES\n", ".Zz\n.Sh EXAMPLES\n", "unknown macro"),
        ("firstdrop-recipe.5", "  \"plant\": \"rosemary\"", f"  \"plant\":{60 * ' '}\"rosemary\"",
         "wider than 80 columns"),
        ("firstdrop-recipe.5", "\"bulk_density\"", "\"bulk_densty\"", "bulk_densty"),
    ],
}


def changed(part):
    """The pages in which this part has faults."""
    return {name for name, *_ in FAULTS[part]}


def pages(man, part, folder):
    """Copies the pages and plants all faults of this part."""
    copy = folder / "man"
    shutil.copytree(man, copy)
    for name, old, new, _ in FAULTS[part]:
        text = (copy / name).read_text(encoding="utf-8")
        if old not in text:
            raise RuntimeError(f"{name} lacks what is to be changed: {old}")
        (copy / name).write_text(text.replace(old, new, 1), encoding="utf-8")
    return copy


def unnoticed(part, faults):
    """Reports the planted faults that are missing from `faults`."""
    for name, _, _, wanted in FAULTS[part]:
        if not any(wanted in fault for fault in faults):
            yield f"the check itself is broken: it does not find in {name}: {wanted}"
