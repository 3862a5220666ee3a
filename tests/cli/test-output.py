#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-output.py CLI ROOT (TAP): what is written where: files whole or not at all, the same bytes in every locale, standard output that
cannot be written, documents from a pipe, foreign characters."""

import os
import stat
import subprocess
import sys

from console import Console, changed, put, read
from tap import Tap

MOVE = "2026-11-25/01"


class Case:
    """What every check needs."""

    def __init__(self, program, root):
        self.tap, self.console = Tap(), Console(program)
        self.fleet_path = os.path.join(root, "tests/data/example-fleet.json")
        self.plan_path = os.path.join(root, "tests/data/example-plan.json")
        self.fleet, self.plan = read(self.fleet_path), read(self.plan_path)

    def writers(self, out):
        """Both verbs that write files."""
        return [["propose", self.fleet_path, "--move", MOVE, "-o", out], ["card", self.fleet_path, self.plan_path, "-o", out]]


def check_targets(case):
    """Targets that cannot be: a line, status 2, nothing on standard output, nothing left behind."""
    tap, console = case.tap, case.console
    os.mkdir(console.path("there"))
    before = sorted(os.listdir(console.folder))
    for out, part in (("gone/x.pdf", "folder gone is missing"), ("gone/", "missing"), ("/dev/null", "left alone"), ("", "name of a file")):
        for words in case.writers(out):
            said = console.run(*words)
            good = said.status == 2 and not said.out and len(said.lines) == 1 and sorted(os.listdir(console.folder)) == before
            if (words[0], out) != ("propose", "gone/"):
                good = good and part in said.error
            tap.check(good, "%s -o %s" % (words[0], out or '""'), said.about())
    tap.check(stat.S_ISCHR(os.stat("/dev/null").st_mode), "the device is still a device")
    said = console.run(*case.writers("there")[0])
    tap.check(said.status == 2 and "is a folder" in said.error and not said.out, "a plan into a folder", said.about())


def check_whole(case):
    """A file that is there is replaced whole, or stays as it was."""
    tap, console = case.tap, case.console
    for words in case.writers("out"):
        console.write("out", "@@@" * 100000)
        said = console.run(*words)
        with open(console.path("out"), "rb") as file:
            content = file.read()
        tap.check(said.status == 0 and b"@@@" not in content and len(content) > 1000, "%s replaces a file" % words[0], said.about())
        with open(console.path("out"), "wb") as file:
            file.write(b"old")
        bad = [console.write("bad.json", "{") if word == case.fleet_path else word for word in words]
        said = console.run(*bad)
        with open(console.path("out"), "rb") as file:
            tap.check(said.status == 2 and file.read() == b"old", "%s with a bad fleet leaves it alone" % words[0], said.about())
    left = [name for name in os.listdir(console.folder) if name not in ("out", "bad.json", "there")]
    tap.check(not left, "no temporary file is left", left)


def check_closed_folder(case):
    """A folder into which this user may not write."""
    if os.geteuid() == 0:
        case.tap.skip("a folder without permission", "the superuser may write everywhere")
        return
    os.mkdir(case.console.path("closed"), 0o500)
    for words in case.writers("closed/x"):
        said = case.console.run(*words)
        case.tap.check(said.status == 2 and "closed/x" in said.error and os.listdir(case.console.path("closed")) == [],
                       "%s into a folder without permission" % words[0], said.about())


def check_standard_output(case):
    """A full device or a closed pipe is told, with status 2."""
    tap, console = case.tap, case.console
    with open("/dev/full", "wb") as full:
        for words in (["rate", case.fleet_path], ["check", case.fleet_path, case.plan_path, "--json"], ["--help"]):
            said = console.run(*words, stdout=full)
            tap.check(said.status == 2 and said.lines == ["standard output: cannot be written: No space left on device"], "%s to a full device" % words[0],
                      said.about())


def check_pipes(case):
    """Documents from standard input and by any file name."""
    tap, console = case.tap, case.console
    with open(case.fleet_path, "rb") as file:
        text = file.read()
    said = console.run("rate", "/dev/stdin", "--json", stdin=text)
    tap.check(said.status == 0 and said.out == console.run("rate", case.fleet_path, "--json").out, "a fleet from standard input", said.about())
    console.write("Häuser & Höfe.json", text)
    said = console.run("check-fleet", "Häuser & Höfe.json")
    tap.check(said.status == 0 and "Häuser & Höfe.json: may be used" in said.text, "a file name with foreign letters", said.about())
    name = os.path.join(os.fsencode(console.folder), b"\xe4.json")
    with open(name, "wb") as file:
        file.write(text)
    done = subprocess.run([console.program, "check-fleet", b"\xe4.json"], cwd=console.folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
    tap.check(done.returncode == 0 and "\ufffd.json: may be used" in done.stdout.decode("utf-8"), "a file name that is no UTF-8")


def check_foreign_text(case):
    """Names in other letters come through; control characters do not reach a terminal, and stay what they are in JSON."""
    tap, console = case.tap, case.console
    odd = changed(case.fleet, put("Zanjón del Río \u001b[31mrot\u001b[0m", "name"), put("CÑ-1", "chains", 0, "id"), put(None, "chains", 0, "mark"))
    path = console.write("odd.json", odd)
    said = console.run("rate", path)
    tap.check(said.status == 0 and "CÑ-1" in said.text and "\x1b" not in said.text, "for people", said.about())
    said = console.run("check-fleet", path)
    tap.check("Zanjón del Río" in said.text and "\x1b" not in said.text and "\ufffd[31m" in said.text, "an escape is shown as what it is", said.about())
    said = console.run("rate", path, "--json")
    tap.check("CÑ-1" in [piece["id"] for piece in said.document()["gear"]] and all(byte >= 32 or byte == 10 for byte in said.out), "in JSON", said.about())
    bad = console.write("odd.json", changed(odd, put("x\u001b[2J", "chains", 0, "mark")))
    said = console.run("rate", bad)
    tap.check(said.status == 2 and "\x1b" not in said.error, "in a line of standard error", said.about())


def comma_locale(folder):
    """Environment for a locale with a decimal comma; None where there is none to be had."""
    made = subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", os.path.join(folder, "de_DE.UTF-8")], stdout=subprocess.DEVNULL,
                          stderr=subprocess.DEVNULL, check=False) if os.path.exists("/usr/bin/localedef") else None
    if made is not None and os.path.isdir(os.path.join(folder, "de_DE.UTF-8")):
        return {"LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8", "LANGUAGE": "de", "LOCPATH": folder}
    there = subprocess.run(["locale", "-a"], stdout=subprocess.PIPE, check=False).stdout.decode().lower().split()
    return {"LC_ALL": "de_DE.UTF-8", "LANGUAGE": "de"} if "de_de.utf8" in there else None


def check_locale(case):
    """The same bytes on both streams in every locale."""
    tap, console = case.tap, case.console
    os.mkdir(console.path("locales"))
    runs = [["check-fleet", "bad.json", "--json"], ["rate", case.fleet_path], ["propose", case.fleet_path, "--move", MOVE, "--json"],
            ["check", case.fleet_path, case.plan_path], ["check", case.fleet_path, case.plan_path, "--json"], ["rate", "gone.json"], ["rate", "--nonsense"],
            ["card", case.fleet_path, case.plan_path, "-o", "card.pdf"]]
    console.write("bad.json", changed(case.fleet, put(1.5, "machines", 0, "weight_lb")))
    environments = [("C", {"LC_ALL": "C", "LANG": "C"}), ("no locale at all", {"LC_ALL": "", "LANG": "", "LANGUAGE": ""}),
                    ("one that is not there", {"LC_ALL": "xx_YY.UTF-8"}), ("a decimal comma", comma_locale(console.path("locales")))]
    expected = [console.run(*words, env={"LC_ALL": "C.UTF-8"}) for words in runs]
    with open(console.path("card.pdf"), "rb") as file:
        card = file.read()
    for name, env in environments:
        if env is None:
            tap.skip(name, "no locale with a decimal comma can be had")
            continue
        said = [console.run(*words, env=env) for words in runs]
        different = [" ".join(a.words[:1]) for a, b in zip(said, expected) if (a.out, a.error, a.status) != (b.out, b.error, b.status)]
        tap.check(not different, "the same answers: %s" % name, different)
        with open(console.path("card.pdf"), "rb") as file:
            tap.check(file.read() == card, "the same card: %s" % name)


def check_surroundings(case):
    """Neither the folder, nor home, nor a display, nor the time of day changes an answer."""
    tap, console = case.tap, case.console
    words = ["propose", case.fleet_path, "--move", MOVE, "--json"]
    first = console.run(*words)
    for name, env in (("no display and no home", {"DISPLAY": "", "HOME": "/nowhere", "XDG_RUNTIME_DIR": "/nowhere"}), ("another time zone", {"TZ": "Asia/Tokyo"}),
                      ("glib's debugging", {"G_MESSAGES_DEBUG": "all"})):
        said = console.run(*words, env=env)
        tap.check(said.out == first.out and said.status == first.status, "the same answer: %s" % name, said.about())
    said = console.run("rate", case.fleet_path, env={"FAIRLEAD_DATA": "/nowhere"})
    tap.check(said.status == 2 and len(said.lines) == 1 and "rule_book" in said.error and not said.out, "no rule book installed: one line", said.about())


def main(arguments):
    """Runs all."""
    case = Case(arguments[1], arguments[2])
    for check in (check_targets, check_whole, check_closed_folder, check_standard_output, check_pipes, check_foreign_text, check_locale, check_surroundings):
        check(case)
    return case.tap.end()


if __name__ == "__main__":
    sys.exit(main(sys.argv))
