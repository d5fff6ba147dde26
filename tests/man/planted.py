"""Faults that the check of the manual pages must find, so that it can't pass by overlooking
everything. There is one fault for each thing that it compares."""

import shutil

# The page, the text to replace, its replacement, and the fault to be reported.
FAULTS = [
    ("firstdrop.1", ".It Ev COLUMNS\n", ".It Ev LINES\n", "ENVIRONMENT lacks COLUMNS"),
    ("firstdrop-recipe.5", ".Sh EXAMPLES\n", ".Zz\n.Sh EXAMPLES\n", "unknown macro"),
    ("firstdrop-recipe.5", "  \"plant\": \"rosemary\"", f"  \"plant\":{60 * ' '}\"rosemary\"",
     "wider than 80 columns"),
    ("firstdrop-recipe.5", "\"bulk_density\"", "\"bulk_densty\"", "bulk_densty"),
]


def changed():
    """The pages that have faults."""
    return {name for name, *_ in FAULTS}


def pages(man, folder):
    """Copies the pages and plants all faults."""
    copy = folder / "man"
    shutil.copytree(man, copy)
    for name, old, new, _ in FAULTS:
        text = (copy / name).read_text(encoding="utf-8")
        if old not in text:
            raise RuntimeError(f"{name} lacks what is to be changed: {old}")
        (copy / name).write_text(text.replace(old, new, 1), encoding="utf-8")
    return copy


def unnoticed(faults):
    """Reports the planted faults that are missing from `faults`."""
    for name, _, _, wanted in FAULTS:
        if not any(wanted in fault for fault in faults):
            yield f"the check itself is broken: it does not find in {name}: {wanted}"
