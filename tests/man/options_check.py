"""Compares the program's manual page with its help. Both must have the same commands, options,
values and arguments, each described once. The page must also list every environment variable that
the program reads."""

import re

from program_help import HELP, Option

SEVERAL = "OPTIONS OF SEVERAL COMMANDS"


def option_of(tag):
    """Parses a tag such as "-o FILE, --output FILE" or "--units metric | us"."""
    names, values = [], set()
    for words in re.split(r", (?=-)", tag):
        name, _, value = words.partition(" ")
        names.append(name)
        values.add(value.replace(" | ", "|"))
    return Option(names, " or ".join(sorted(values - {""})))


def options_of(line):
    """All options in a line of the synopsis."""
    value = r"[^\s|-]\S*(?: \| [a-z]\S*)*"
    for name, words in re.findall(rf"(?<!\S)(--?[a-z][a-z-]*)((?: {value})?)(?!\S)",
                                  re.sub(r"[\[\]]", "  ", line)):
        yield Option([name], words.strip().replace(" | ", "|"))


def arguments_of(line):
    """The arguments after the options, spelled as in the help."""
    while "[-" in line:
        line = re.sub(r"\[-[^\[\]]*\]", "", line)
    return line.replace(" ...", "...").split()


def synopses(page):
    """Each command of the synopsis with its options and arguments."""
    for line in page.synopsis:
        command, _, rest = re.sub(r"^firstdrop ", "", line).partition(" ")
        if re.fullmatch("[a-z]+", command):
            yield command, list(options_of(rest)), arguments_of(rest)


def differences(where, page_options, help_options):
    for option in help_options:
        found = [one for one in page_options if set(one.names) & set(option.names)]
        if not found:
            yield f"{where}: lacks {option}"
        elif len(found) > 1:
            yield f"{where}: has {option.name} {len(found)} times"
        elif found[0].value != option.value:
            yield f"{where}: has {found[0]}, the help has {option}"
    known = {name for option in help_options for name in option.names}
    for option in page_options:
        if not set(option.names) & known:
            yield f"{where}: {option} is none of the program's"


def check_options(page, program_help):
    synopsis = {command: (options, arguments) for command, options, arguments in synopses(page)}
    described = [item for item in page.items_in(SEVERAL)]
    several = [option_of(item.tag) for item in described]
    used = set(HELP) | {name for option in program_help.itself.options for name in option.names}

    sections = page.subsections("COMMANDS")
    for title in sections:
        if title not in program_help.commands:
            yield f"COMMANDS: {title} is none of the program's"
    for command in synopsis:
        if command not in program_help.commands:
            yield f"SYNOPSIS: {command} is none of the program's"

    for name, command in program_help.commands.items():
        options = [option for option in command.options if not set(option.names) & set(HELP)]
        if name not in synopsis:
            yield f"SYNOPSIS: lacks {name}"
        else:
            yield from differences(f"SYNOPSIS of {name}", synopsis[name][0], options)
            if synopsis[name][1] != command.arguments:
                yield (f"SYNOPSIS of {name}: has the arguments {synopsis[name][1]}, "
                       f"the help has {command.arguments}")
        if name not in sections:
            yield f"COMMANDS: lacks {name}"
            continue
        own = [option_of(item.tag) for item in page.items_in("COMMANDS", name)]
        names = {name for option in options for name in option.names}
        shared = [option for option in several if names & set(option.names)]
        used |= {option.name for option in shared}
        yield from differences(f"description of {name}", own + shared, options)
        for option in options:
            for one in own + shared:
                if set(one.names) & set(option.names) and one.names != option.names:
                    yield f"description of {name}: {one} is {option}"
    yield from differences("SYNOPSIS of COMMAND ...", [
        option for line in page.synopsis if line.endswith(" COMMAND ...")
        for option in options_of(line)], program_help.for_all())
    for option in program_help.itself.options:
        if not any(one.names == option.names for one in several):
            yield f"{SEVERAL}: lacks {option}"
    for option in several:
        if option.name not in used:
            yield f"{SEVERAL}: {option} is none of the program's"
    for item in page.items:
        if item.section in ("COMMANDS", SEVERAL) and not item.text:
            yield f"{item.section} {item.subsection}: nothing is said of {item.tag}"


def check_statuses(page, program_help):
    said = re.search(r"Exit status:(.*?)\.\n", program_help.itself.page, re.DOTALL)[1]
    help_has = re.findall(r"\b(\d) ", said)
    page_has = [item.tag for item in page.items_in("EXIT STATUS")]
    if help_has != page_has:
        yield f"EXIT STATUS: has {page_has}, the help has {help_has}"


def variables(source):
    """The environment variables that the program reads."""
    names = set()
    for path in sorted((source / "src/cli").glob("*.cpp")):
        text = path.read_text(encoding="utf-8")
        if "getenv" in text:
            names |= set(re.findall(r'"([A-Z][A-Z_]{3,})"', text))
        names |= set(re.findall(r'envname\("(\w+)"\)', text))
    return names


def check_environment(page, names):
    page_has = {name for item in page.items_in("ENVIRONMENT") for name in item.tag.split(", ")}
    for name in sorted(names - page_has):
        yield f"ENVIRONMENT: lacks {name}"
    for name in sorted(page_has - names):
        yield f"ENVIRONMENT: the program does not ask for {name}"
