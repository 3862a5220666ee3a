# SPDX-License-Identifier: GPL-3.0-or-later
"""Every rule book against its published schema, judged by python3-jsonschema, and books that are broken on purpose, which the
schema must refuse."""
import copy
import glob
import json
import os
import sys

import jsonschema

from tap import Tap


def load(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file)


def at(document, *path):
    """The member at a path of keys and indices."""
    for step in path:
        document = document[step]
    return document


def without(*path):
    def change(book):
        del at(book, *path[:-1])[path[-1]]
    return "without " + ".".join(map(str, path)), change


def holding(value, *path):
    def change(book):
        at(book, *path[:-1])[path[-1]] = value
    return "%s = %s" % (".".join(map(str, path)), json.dumps(value)), change


# The blocks without which no plan can be judged; typed here, not read from the schema.
BLOCKS = ["gravity", "chain", "webbing", "webbing_damage", "damage", "breaking", "shares", "heavy", "sections", "count", "load_cases",
          "up", "all_directions", "near", "friction", "rolling", "mats", "angles", "lengths", "binders", "couplings",
          "coupling_shares", "legal", "height", "recheck", "cautions", "walk_round", "citations"]

BROKEN = [without(block) for block in BLOCKS] + [
    without("format"), without("id"), without("unit"), without("date"),
    holding("fairlead-rules/2", "format"),
    holding("stone", "unit"),
    holding("last week", "date"),
    without("chain", "source"),
    without("chain", "seen"),
    without("friction", "why"),
    without("damage", "repairs"),
    without("breaking", "binder"),
    holding(-1300, "chain", "rows", 0, "wll_lb", "30"),
    holding(0, "webbing", "rows", 0, "wll_lb"),
    holding("three eighths", "chain", "rows", 2, "size_in"),
    holding([], "chain", "grades", 0, "marks"),
    holding(["7", "7"], "chain", "grades", 2, "marks"),
    holding(1.5, "shares", "direct"),
    holding(0, "heavy", "count"),
    holding([0, 1], "load_cases", "cases", 0, "direction"),
    holding("upward", "load_cases", "cases", 0, "id"),
    holding("ice", "friction", "rows", 0, "surface"),
    holding(-0.1, "friction", "rows", 0, "dry"),
    holding(3, "recheck", "then_hours"),
    holding(1000, "count", "short_weight_kg"),
    holding("", "cautions", "items", 0, "text"),
]


def main(root):
    data = os.path.join(root, "data")
    tap = Tap()
    schema = load(os.path.join(data, "schema", "fairlead-rules-1.schema.json"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    paths = sorted(glob.glob(os.path.join(data, "rules", "*.json")))
    tap.check(bool(paths), "there is a rule book")
    for path in paths:
        book, name = load(path), os.path.basename(path)
        found = ["%s: %s" % (error.json_path, error.message) for error in validator.iter_errors(book)]
        tap.check(not found, "%s is valid" % name, *found)
        tap.check(book.get("id") == name[:-len(".json")], "%s carries its name as id" % name)
    book = load(os.path.join(data, "rules", "us-49cfr393.json"))
    for name, change in BROKEN:
        broken = copy.deepcopy(book)
        change(broken)
        tap.check(not validator.is_valid(broken), "refused: %s" % name)
    return tap.end()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
