"""Compares the page of plans with the keys that the program prints. Both must have the same keys, each
with its form."""

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
