"""Reads the program's --help: its commands with their options, values and arguments."""

import os
import re
import subprocess

PATIENCE = 60  # seconds
WIDTH = 80
HELP = ("-h", "--help")


class Option:
    """An option: its names in the order shown, and its value, such as "", "FILE" or "metric|us"."""

    def __init__(self, names, value=""):
        self.names = tuple(names)
        self.value = value

    @property
    def name(self):
        return self.names[-1]

    @property
    def words(self):
        """The words that its value can be, or [] if the value is free."""
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
        self.for_all = self.options_in("For all commands")  # the program's own options

    def options_in(self, title):
        return [self.option(words) for words in self.listed(title, r"  (-\S.*?)")]

    def listed(self, title, form):
        block = re.search(rf"^{title}:\n((?:  .*\n)+)", self.page, re.MULTILINE)
        lines = block[1].splitlines() if block else []
        found = [re.fullmatch(form + r"(?:  +.*)?", line) for line in lines]
        return [one[1] for one in found if one]

    @staticmethod
    def option(words):
        """Parses an option such as "-o, --output FILE"."""
        *names, last = words.split(", ")
        last, _, value = last.partition(" ")
        return Option([*names, last], value)


class Help:
    """The help of the program and its commands. `ask` returns a command's help; "" means the
    program's own."""

    def __init__(self, ask):
        self.itself = Command(ask(""))
        self.commands = {name: Command(ask(name)) for name in self.itself.commands}

    def for_all(self):
        """Options that may be given before or after any command."""
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
