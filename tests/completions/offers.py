"""Asks the shells themselves what the completions offer: bash by its completion function, fish by
`complete -C`, zsh on a terminal with the Tab key."""

import os
import pathlib
import pty
import re
import select
import subprocess
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
PATIENCE = 60  # seconds
SHELLS = ("bash", "zsh", "fish")
FILES = {"bash": "firstdrop.bash", "zsh": "_firstdrop", "fish": "firstdrop.fish"}


class Answers:
    """What was offered for each line, and any other messages, of which there should be none."""

    def __init__(self, offers, said):
        self.offers = offers
        self.said = said


def plain(line, offer):
    """The word that an offer adds, without the part that precedes it on the line. Shells differ in
    whether they repeat that part."""
    offer = offer.split("\t")[0]
    at_cursor = re.split(r"\s", line)[-1]
    for mark in "=,/":
        before, there, _ = at_cursor.rpartition(mark)
        if there and offer.startswith(before + mark):
            offer = offer[len(before + mark):]
    # bash takes only the part after the = as the word.
    behind = at_cursor.rpartition("=")[2]
    before, there, _ = behind.rpartition(",")
    if there and offer.startswith(before + ","):
        offer = offer[len(before) + 1:]
    return offer.rstrip("/=")


def split_answers(text, lines):
    """Splits the text into answers, each of which ends with an empty line."""
    answers = [[]]
    for line in text.splitlines():
        if line:
            answers[-1].append(line)
        else:
            answers.append([])
    if len(answers) != len(lines) + 1 or answers[-1]:
        raise RuntimeError(f"{len(answers) - 1} answers to {len(lines)} lines:\n{text}")
    return [{plain(line, offer) for offer in offers} for line, offers in zip(lines, answers)]


def words_of(line):
    """Breaks a line into words as bash does: at spaces, with = and : as separate words."""
    words = [word for part in line.split() for word in re.findall(r"[=:]+|[^=:]+", part)]
    return words + [""] if line.endswith(" ") else words


def asked(command, text, folder, environment):
    done = subprocess.run(command, input=text, cwd=folder, env=environment, capture_output=True,
                          encoding="utf-8", timeout=PATIENCE, check=False)
    return done.stdout, done.stderr


def bash_offers(file, lines, folder, environment):
    text = "".join(f"{line}\n" + "\t".join(words_of(line)) + "\n" for line in lines)
    answer, said = asked(["bash", "--norc", HERE / "offers.bash", file], text, folder, environment)
    return Answers(split_answers(answer, lines), said)


def fish_offers(file, lines, folder, environment):
    text = "".join(f"{line}\n" for line in lines)
    answer, said = asked(["fish", "--no-config", HERE / "offers.fish", file], text, folder,
                         environment)
    return Answers(split_answers(answer, lines), said)


class Terminal:
    """An interactive zsh on its own pseudo-terminal."""

    def __init__(self, file, folder, environment, home):
        self.answers = home / "answers"
        os.mkfifo(self.answers)
        (home / ".zshrc").write_text((HERE / "offers.zsh").read_text(encoding="utf-8"),
                                     encoding="utf-8")
        environment = {**environment, "ZDOTDIR": str(home), "COMPLETIONS": str(file.parent),
                       "ANSWERS": str(self.answers), "TERM": "xterm"}
        self.process, self.terminal = pty.fork()
        if self.process == 0:
            os.chdir(folder)
            os.execvpe("zsh", ["zsh", "-i", "+o", "GLOBAL_RCS"], environment)
        # Opened for writing, too, so that there is no end of file between two answers.
        self.reader = os.open(self.answers, os.O_RDWR | os.O_NONBLOCK)
        self.shown = ""
        self.answer()  # wait until zsh is ready

    def answer(self):
        """Reads up to the empty line, and keeps what the terminal shows meanwhile."""
        text = b""
        end = time.monotonic() + PATIENCE
        while not (text.endswith(b"\n\n") or text == b"\n"):
            ready, _, _ = select.select([self.reader, self.terminal], [], [],
                                        max(0, end - time.monotonic()))
            if not ready:
                raise RuntimeError(f"zsh gives no answer; it shows:\n{self.shown}")
            if self.terminal in ready:
                self.shown += os.read(self.terminal, 65536).decode("utf-8", "replace")
            if self.reader in ready:
                text += os.read(self.reader, 65536)
        return text.decode("utf-8")

    def ask(self, line):
        os.write(self.terminal, f"{line}\t".encode())
        return self.answer()

    def close(self):
        os.write(self.terminal, b"\x15exit\n")
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            done, _ = os.waitpid(self.process, os.WNOHANG)
            if done:
                break
            if select.select([self.terminal], [], [], 0.05)[0]:
                try:
                    os.read(self.terminal, 65536)
                except OSError:  # zsh has ended
                    pass
        os.close(self.terminal)
        os.close(self.reader)


def zsh_offers(file, lines, folder, environment):
    with tempfile.TemporaryDirectory() as home:
        terminal = Terminal(file, folder, environment, pathlib.Path(home))
        try:
            answer = "".join(terminal.ask(line) for line in lines)
        finally:
            terminal.close()
    # The terminal also shows the choices. An error message starts with a function or file, and a
    # line number.
    complaints = re.findall(r"\S+:\d+: [^\r\n]+", terminal.shown)
    return Answers(split_answers(answer, lines), "\n".join(complaints))


def offers(shell, folder_of_completions, lines, folder, path):
    """What a shell offers in `folder`, with `path` at the front of its PATH."""
    with tempfile.TemporaryDirectory() as home:
        environment = {"PATH": f"{path}:/usr/local/bin:/usr/bin:/bin", "HOME": home,
                       "XDG_CONFIG_HOME": home, "XDG_DATA_HOME": home, "LC_ALL": "C.UTF-8"}
        environment.update({name: value for name, value in os.environ.items()
                            if name.endswith("SAN_OPTIONS")})
        ask = {"bash": bash_offers, "zsh": zsh_offers, "fish": fish_offers}[shell]
        return ask(folder_of_completions / FILES[shell], lines, folder, environment)
