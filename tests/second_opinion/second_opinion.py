#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""second_opinion.py FLEET PLANS: judges every plan again.

FLEET is a fleet document, PLANS a plan document or {"plans": [...]}, both
JSON files.  Prints one line for each disagreement between a plan's results
and the second opinion.  Exit status: 0 all agree, 1 they do not, 2 bad
input.  How the rules were read where they leave a choice stands at the head
of opinion/__init__.py.
"""

import json
import sys

from opinion.compare import Comparison, clashes
from opinion.quantity import BadInput


def load(path):
    """A JSON document; BadInput where there is none."""
    try:
        with open(path, encoding="utf-8") as stream:
            document = json.load(stream)
    except (OSError, ValueError, RecursionError) as error:
        raise BadInput("%s: %s" % (path, error)) from error
    if not isinstance(document, dict):
        raise BadInput("%s: expected an object" % path)
    return document


def disagreements(fleet, document):
    """All lines for a plan document or {"plans": [...]}."""
    plans = document["plans"] if "plans" in document else [document]
    comparisons = []
    for plan in plans:
        try:
            comparisons.append(Comparison(fleet, plan))
        except (KeyError, TypeError, AttributeError, ValueError) as error:
            raise BadInput("plan %s: %s: %s" % (
                plan.get("move") if isinstance(plan, dict) else plan,
                type(error).__name__, error)) from error
    lines = [line for c in comparisons for line in c.lines]
    return lines + clashes(fleet, comparisons)


def main(arguments):
    """The command line."""
    if len(arguments) != 3:
        print(__doc__.split("\n", 1)[0], file=sys.stderr)
        return 2
    try:
        lines = disagreements(load(arguments[1]), load(arguments[2]))
    except BadInput as error:
        print("second_opinion: %s" % error, file=sys.stderr)
        return 2
    for line in lines:
        print(line)
    return 1 if lines else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv))
