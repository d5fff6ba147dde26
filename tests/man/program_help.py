"""What the program's --help says: commands, their options with values, their arguments."""

import os
import re
import subprocess

PATIENCE = 60  # seconds
WIDTH = 80
HELP = ("-h", "--help")


class Option:
    """Names in the order in which they are written, and the value: "", "FILE" or "metric|us"."""

    def __init__(self, names, value=""):
        self.names = tuple(names)
        self.value = value

    @property
    def name(self):
        return self.names[-1]

    @property
    def words(self):
        """What its value can be, where that is one of a few words."""
        return self.value.split("|") if "|" in self.value else []

    def __str__(self):
        return ", ".join(self.names) + (f" {self.value}" if self.value else "")


class Command:
    def __init__(self, page):
        self.page = page
        usage = re.search(r"^Usage: (.*)$", page, re.MULTILINE)[1].split()
        self.arguments = [word for word in usage[1:] if "OPTION" not in word][1:]
        self.commands = self.listed("Commands", r"  ([a-z]\S*)")
        self.options = self.options_in("Options")
        self.for_all = self.options_in("For all commands")  # those of the program

    def options_in(self, title):
        return [self.option(words) for words in self.listed(title, r"  (-\S.*?)")]

    def listed(self, title, form):
        block = re.search(rf"^{title}:\n((?:  .*\n)+)", self.page, re.MULTILINE)
        lines = block[1].splitlines() if block else []
        found = [re.fullmatch(form + r"(?:  +.*)?", line) for line in lines]
        return [one[1] for one in found if one]

    @staticmethod
    def option(words):
        """Of "-o, --output FILE"."""
        *names, last = words.split(", ")
        last, _, value = last.partition(" ")
        return Option([*names, last], value)


class Help:
    """`ask` prints the help of a command, "" for the program's own."""

    def __init__(self, ask):
        self.itself = Command(ask(""))
        self.commands = {name: Command(ask(name)) for name in self.itself.commands}

    def for_all(self):
        """Options that may stand before and behind every command."""
        return [option for option in self.itself.options
                if option.name not in (HELP[-1], "--version")]

    def faults(self):
        yield from self.too_wide()
        for name, command in self.commands.items():
            has = [str(option) for option in command.for_all]
            wanted = [str(option) for option in self.for_all()]
            if has != wanted:
                yield f"help of {name}: for all commands has {has}, the program has {wanted}"

    def too_wide(self):
        for name, command in {"": self.itself, **self.commands}.items():
            for line in command.page.splitlines():
                if len(line) > WIDTH:
                    yield f"help{' of ' + name if name else ''}: wider than {WIDTH} columns: {line}"


def asking(program):
    def ask(command):
        done = subprocess.run([program, *([command] if command else []), "--help"],
                              capture_output=True, encoding="utf-8", timeout=PATIENCE, check=True,
                              env={**os.environ, "COLUMNS": str(WIDTH)})
        return done.stdout
    return ask
