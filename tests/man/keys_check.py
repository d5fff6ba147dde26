"""Compares the pages of section 5 with the keys that the readers accept and the program prints.
Both must have the same keys, each with its form. A reader's keys must also agree in whether they
are needed, and in their bounds."""

import re

# The section of the page of plans that lists columns instead of JSON keys.
TABLE = "THE RUN AS A TABLE"


def split(tag):
    """Splits a tag such as "site.room: temperature" into key and form."""
    key, _, form = tag.partition(": ")
    return key, form


def compared(where, page_keys, real_keys):
    for key in real_keys:
        if key not in page_keys:
            yield f"{where}: lacks {key}"
    for key in page_keys:
        if key not in real_keys:
            yield f"{where}: nobody knows {key}"


def forms_in(where, items):
    forms = {}
    for item in items:
        key, form = split(item.tag)
        if key in forms:
            yield f"{where}: has {key} twice"
        forms[key] = (form, item.text)
    return forms


def check_reader(page, keys):
    """Checks a reader's page. `keys` are those that reader_keys finds."""
    where = page.path.name
    forms = yield from forms_in(where, page.items_in("KEYS") + page.items_in("FIGURES"))
    yield from compared(where, forms, [key.path for key in keys])
    for key in keys:
        if key.path not in forms:
            continue
        form, text = forms[key.path]
        if form != key.kind:
            yield f"{where}: {key.path} is \"{form}\", the reader wants \"{key.kind}\""
        # "Needed, if …" is conditional, so it doesn't count as needed.
        if key.needed != bool(re.match(r"Needed(?:\.|, unless)", text)):
            yield f"{where}: {key.path} is{'' if key.needed else ' not'} needed: {text}"
        for bounds in key.bounds:
            # For a second unit the page gives only the part that differs.
            number = re.sub(r"^more than 0 and ", "", bounds)
            if (bounds if bounds is key.bounds[0] else number).lower() not in text.lower():
                yield f"{where}: {key.path} is {bounds}: {text}"


def check_outputs(page, parts, columns):
    """Checks the page of plans. `parts` maps each section to its keys, with kinds and texts."""
    where = page.path.name
    for section, keys in parts.items():
        forms = yield from forms_in(f"{where}, {section}", page.items_in(section))
        yield from compared(f"{where}, {section}", forms, keys)
        for key, (kind, texts) in keys.items():
            form = forms.get(key, (None,))[0]
            if form in (None, kind) or (form == "value" and key.endswith(".KEY")):
                continue
            words = form.split(" | ")
            if kind != "text" or len(words) < 2:
                yield f"{where}, {section}: {key} is \"{form}\", what is printed is \"{kind}\""
            elif not texts <= set(words):
                yield f"{where}, {section}: {key} can be {', '.join(sorted(texts - set(words)))}"
    page_columns = [item.tag for item in page.items_in(TABLE)]
    if page_columns != columns:
        yield f"{where}, {TABLE}: has {page_columns}, the table has {columns}"


def check_units(page, units):
    """Checks a page's units. `units` maps each kind of quantity to the program's list of units."""
    forms = {item.tag: item.text for item in page.items_in("QUANTITIES")}
    for kind, listed in units.items():
        said = re.split(r"; also |, or as in", forms.get(kind, ""))[0]
        if said != listed:
            yield f"{page.path.name}, QUANTITIES: of {kind} has \"{said}\", the program has \"{listed}\""
