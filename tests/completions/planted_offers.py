"""Faults that the check of completions must find, so that it can't pass by overlooking everything.
They are a missing word, an extra word, files of the wrong kind, and an error message without the
program."""

import shutil

import offers

# The line to complete, the fault to be reported, and for each shell the text to replace with its
# replacement.
FAULTS = [
    ("firstdrop sheet --format ", "lacks md", {
        "bash": ("format) echo html md txt", "format) echo html txt"),
        "zsh": ("format:(html md txt)", "format:(html txt)"),
        "fish": ("-a 'html md txt'", "-a 'html txt'")}),
    ("firstdrop batch --vary ", "offers site.sun", {
        shell: ("altitude,pressure,room,", "altitude,pressure,room,sun,") for shell in offers.SHELLS}),
    ("firstdrop plan ", "offers notes.txt", {
        "bash": ("plan | sheet | campaign) _filedir json", "plan | sheet | campaign) _filedir"),
        "zsh": ("'1:recipe:_files -g \"*.json(-.)\"'", "'1:recipe:_files'"),
        "fish": ("'__firstdrop_starts plan sheet campaign' -a '(__firstdrop_files json)'",
                 "'__firstdrop_starts plan sheet campaign' -F")}),
]
# The text to replace, with its replacement, so that the shell complains without the program.
LOUD = {"bash": ('"${data[@]}" 2>/dev/null', '"${data[@]}"'),
        "zsh": ("$(_call_program $1 ${(q)program} $1 ${(q)data} 2>/dev/null", "$($program $1"),
        "fish": ("    type -q -- $program; or return\n", "")}


def completions(source, shell, folder):
    """Copies the completions and plants all faults in this shell's."""
    copy = folder / "completions"
    shutil.copytree(source, copy)
    file = copy / offers.FILES[shell]
    text = file.read_text(encoding="utf-8")
    for old, new in [*(changes[shell] for _, _, changes in FAULTS), LOUD[shell]]:
        if old not in text:
            raise RuntimeError(f"{file.name} lacks what is to be changed: {old}")
        text = text.replace(old, new, 1)
    file.write_text(text, encoding="utf-8")
    return copy


def unnoticed(shell, faults, faults_without_program):
    """Reports the planted faults that are missing from `faults`."""
    for line, words, _ in FAULTS:
        if f"{shell}: {line}^: {words}" not in faults:
            yield f"the check itself is broken: it does not find: {line}^: {words}"
    if not any(fault.startswith(f"{shell}: says") for fault in faults_without_program):
        yield f"the check itself is broken: it does not hear {shell} complain"
