# SPDX-License-Identifier: GPL-3.0-or-later
"""Lints over the catalogs of po/: what the rule books say is in them, and a translation keeps its message's holes."""
import json
import os
import re

from tree import Problem

BOOKS = "po/books.c"
PRINTED = ("cautions", "walk_round")  # blocks of a rule book whose texts are message ids
HEAD = """/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The texts that rule books have printed, for xgettext, which does not read JSON. Nothing compiles this file.
 * Made from data/rules/ by tests/lint/lint.py --write-potfiles, and kept true by a lint: edit the book instead. */
"""


def c_string(text):
    """A text as C writes it; whatever is not ASCII stays as it is."""
    return '"%s"' % text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")


def books_file(tree):
    """What po/books.c must hold: each text once, under the first place that has it."""
    seen, lines = set(), []
    for path in tree.files(".json", under=("data/rules",)):
        book = json.loads(tree.text(path))
        for block in PRINTED:
            for item in book.get(block, {}).get("items", []):
                if item["text"] not in seen:
                    lines.append("/* %s of %s: %s */\nN_(%s)\n" % (block, os.path.basename(path), item["id"], c_string(item["text"])))
                seen.add(item["text"])
    return HEAD + "".join("\n" + line for line in lines)


def book_texts(tree):
    """po/books.c holds what the rule books have printed, and nothing else."""
    there = tree.text(BOOKS) if os.path.exists(tree.path(BOOKS)) else ""
    if there == books_file(tree):
        return []
    return [Problem(BOOKS, 0, "is not what the books in data/rules/ say", "tests/lint/lint.py --write-potfiles . makes it anew")]


def write_books(tree):
    """Makes po/books.c anew."""
    with open(tree.path(BOOKS), "w", encoding="utf-8") as file:
        file.write(books_file(tree))


# ── holes ──

FIELD = re.compile(r'^(msgctxt|msgid_plural|msgid|msgstr(?:\[\d+\])?) "(.*)"$')
MORE = re.compile(r'^"(.*)"$')
HOLE = re.compile(r"\{\w+\}", re.A)


def messages(text):
    """The entries of a catalog, obsolete and fuzzy ones left out: {"line": of its msgid, "msgid": text, "msgstr": text, ...}."""
    entry, field, fuzzy = {}, None, False
    for number, line in enumerate(text.split("\n") + [""], 1):
        found = FIELD.match(line)
        if found:
            field = found[1]
            if field == "msgid":
                entry["line"] = number
            entry[field] = found[2]
        elif field and MORE.match(line):
            entry[field] += MORE.match(line)[1]
        elif line.startswith("#,"):
            fuzzy = "fuzzy" in line
        elif not line.strip():
            if "msgid" in entry and not fuzzy:
                yield entry
            entry, field, fuzzy = {}, None, False


def holes(tree):
    """Every translation has exactly the {holes} of its message: one that is lost is a figure that nobody reads on the card."""
    problems = []
    for path in tree.files(".po", under=("po",)):
        for entry in messages(tree.text(path)):
            wanted = {field: sorted(HOLE.findall(text)) for field, text in entry.items() if field in ("msgid", "msgid_plural")}
            for field, text in entry.items():
                if field.startswith("msgstr") and entry["msgid"] and text and sorted(HOLE.findall(text)) not in wanted.values():
                    problems.append(Problem(path, entry["line"], "translates \"%s\" with other holes" % entry["msgid"],
                                            "keep %s as they are" % (" ".join(wanted["msgid"]) or "it without holes")))
    return problems
