"""Finds faults in the page of plans, by comparing it with what the program prints."""

import keys_check
import man_page
import output_keys


class RealKeys:
    """Keys as the program prints them. This takes a while."""

    def __init__(self, program, source):
        outputs = output_keys.Outputs(program, source)
        self.parts = outputs.by_part()
        self.columns = outputs.csv_columns()
        counts = [len(keys) for keys in self.parts.values()]
        assert min(counts) >= 12 and sum(counts) > 200, counts


def keys_faults(real, man):
    page = man_page.Page(man / "firstdrop-plan.5")
    yield from keys_check.check_outputs(page, real.parts, real.columns)
