"""Finds faults in a folder of manual pages, by comparing them with the program and its source."""

import keys_check
import man_page
import output_keys
import reader_keys

READERS = ("recipe", "campaign", "still", "plant")


class RealKeys:
    """Keys and units as the program itself reports them. This takes a while."""

    def __init__(self, program, source):
        self.readers = {kind: reader_keys.Reader(program, kind) for kind in READERS}
        self.keys = {kind: reader.read() for kind, reader in self.readers.items()}
        self.units = {name: units for reader in self.readers.values()
                      for name, units in reader.units.items()}
        outputs = output_keys.Outputs(program, source)
        self.parts = outputs.by_part()
        self.columns = outputs.csv_columns()
        counts = [len(keys) for keys in [*self.keys.values(), *self.parts.values()]]
        assert min(counts) >= 12 and sum(counts) > 350, counts


def keys_faults(real, man):
    for kind in READERS:
        page = man_page.Page(man / f"firstdrop-{kind}.5")
        yield from keys_check.check_reader(page, real.keys[kind])
        if kind == "recipe":
            yield from keys_check.check_units(page, real.units)
    page = man_page.Page(man / "firstdrop-plan.5")
    yield from keys_check.check_outputs(page, real.parts, real.columns)
