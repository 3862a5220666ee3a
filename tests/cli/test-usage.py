#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-usage.py CLI EXAMPLES (TAP): the command line itself: verbs, options, help, and what is said of a wrong one."""

import sys

from console import Console
from tap import Tap

VERBS = {"check-fleet": 1, "rate": 1, "propose": 1, "check": 2, "card": 2}


def check_help(tap, console):
    """Help and version go to standard output, and are no error."""
    said = console.run("--help")
    tap.check(said.status == 0 and not said.error and all("fairlead-cli %s " % verb in said.text for verb in VERBS), "--help names every verb",
              said.about())
    tap.check(console.run("-h").out == said.out, "-h is the same")
    for verb in VERBS:
        said = console.run(verb, "--help")
        tap.check(said.status == 0 and not said.error and said.text.startswith("usage: fairlead-cli %s FLEET" % verb) and "Exit status" in said.text,
                  "%s --help" % verb, said.about())
    said = console.run("propose", "--help")
    tap.check(all(option in said.text for option in ("--move", "--date", "-o FILE", "--json")), "propose --help names its options", said.about())
    said = console.run("--version")
    tap.check(said.status == 0 and said.text.startswith("fairlead-cli ") and said.text.count("\n") == 1 and not said.error, "--version is one line",
              said.about())


def wrong(examples):
    """(name, words, what the first line must hold) of wrong command lines."""
    fleet, plan = examples + "/example-fleet.json", examples + "/example-plan.json"
    return [
        ("no verb", [], "verb"),
        ("an unknown verb", ["sign", fleet], '"sign"'),
        ("an empty verb", [""], '""'),
        ("an option before the verb", ["--json", "rate", fleet], '"--json"'),
        ("no fleet", ["rate"], "FLEET"),
        ("no plan", ["check", fleet], "PLAN"),
        ("a name too many", ["rate", fleet, "more"], '"more"'),
        ("an unknown option", ["rate", fleet, "--yaml"], "--yaml"),
        ("an unknown short option", ["rate", fleet, "-q"], "-q"),
        ("an option of another verb", ["rate", fleet, "--move", "x"], "--move"),
        ("-o of another verb", ["check", fleet, plan, "-o", "x"], "-o"),
        ("neither --move nor --date", ["propose", fleet], "--move ID and --date DAY"),
        ("both --move and --date", ["propose", fleet, "--move", "x", "--date", "y"], "--move ID and --date DAY"),
        ("--move without a value", ["propose", fleet, "--move"], "--move"),
        ("-o without a value", ["propose", fleet, "--move", "x", "-o"], "-o"),
        ("a card without -o", ["card", fleet, plan], "-o OUT"),
        ("bytes that are no UTF-8", ["rate", fleet, b"--\xff\xfe"], "option"),
    ]


def check_wrong(tap, console, examples):
    """A wrong command line: status 2, nothing on standard output, what is wrong and how it goes."""
    for name, words, holds in wrong(examples):
        said = console.run(*words)
        said.words = [str(word) for word in words]
        good = said.status == 2 and not said.out and len(said.lines) == 2
        good = good and said.lines[0].startswith("fairlead-cli") and holds in said.lines[0] and said.lines[1].startswith("usage: fairlead-cli")
        tap.check(good, name, said.about())


def check_order(tap, console, examples):
    """Options may stand anywhere, in every form."""
    fleet = examples + "/example-fleet.json"
    first = console.run("propose", fleet, "--move", "2026-11-25/01", "--json")
    tap.check(first.status == 0 and first.document() is not None, "options after the name", first.about())
    for words in (["propose", "--json", "--move=2026-11-25/01", fleet], ["propose", "--move", "2026-11-25/01", "--json", "--", fleet]):
        tap.check(console.run(*words).out == first.out, "the same by %s" % " ".join(words[:-1]))
    console.write("-x.json", open(fleet, "rb").read())
    tap.check(console.run("rate", "--json", "--", "-x.json").status == 0, "a name that starts with a dash, after --")


def main(arguments):
    """Runs all."""
    tap, console, examples = Tap(), Console(arguments[1]), arguments[2]
    check_help(tap, console)
    check_wrong(tap, console, examples)
    check_order(tap, console, examples)
    return tap.end()


if __name__ == "__main__":
    sys.exit(main(sys.argv))
