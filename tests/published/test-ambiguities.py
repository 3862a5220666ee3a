#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-ambiguities.py ROOT: docs/ambiguities.md answers every open question of the rule, and what it names is there.

The questions A1 to A23 were collected from the text of 49 CFR 393 beside the handbooks that read it differently. Each says how it is decided,
where the decision shows and what to do where it is read otherwise. The findings' rules it names have their citation in the book or are house rules
of the published schema; the blocks it names are the book's; its figures of our own are the book's.
"""
import json
import pathlib
import re
import sys

QUESTIONS = 23
WORDS_NOT_RULES = {"code", "source", "rule_book", "over", "purpose", "machine", "chain", "null", "rated_wll", "rating_is", "each", "min_tie_downs",
                   "direct", "same_side", "other_side", "local_rules", "unmarked_grade", '"source": "ours"'}


def tell(results, holds, name, *why):
    """One result of the Test Anything Protocol."""
    results.append(holds)
    print("%s %d - %s" % ("ok" if holds else "not ok", len(results), name))
    for line in why if not holds else ():
        print("# %s" % line)


def strings(value):
    """All texts in a JSON tree."""
    if isinstance(value, str):
        yield value
    for inside in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from strings(inside)


def sections(text):
    """{"A1": text below its heading}"""
    parts = re.split(r"(?m)^### (A\d+)\. .*$", text)
    return {name: re.split(r"(?m)^## ", body)[0] for name, body in zip(parts[1::2], parts[2::2])}


def figures(book):
    """What the table of our own figures must say of the book's."""
    a, sure, lengths = book["angles"], book["certainty"], book["lengths"]
    return [
        "| %s | it may be by the morning" % book["force"]["state_when_not_given"],
        "| %.2f | it rolls" % book["rolling"]["mu"],
        "| %.2f of the weight, without friction" % book["all_directions"]["floor_g"],
        "best %d to %d degrees, caution under %d and over %d" % (a["deck_best_lo_deg"], a["deck_best_hi_deg"], a["deck_lo_deg"], a["deck_hi_deg"]),
        "caution under %d degrees" % a["plan_min_deg"],
        "run, %d in a hooked-back end, the binder's take-up, %d in of tail" % (lengths["hook_back_in"], lengths["tail_in"]),
        "| Chains apart | %d in" % lengths["apart_in"],
        "scale %d, plate or manual %d, typical %d percent" % (sure["scale_pct"], sure["plate_pct"], sure["typical_pct"]),
        "%d in lengthwise, %d in sideways" % (sure["lengthwise_in"], sure["sideways_in"]),
        "floor %d percent" % book["coupling_shares"]["floor_pct"],
        "caution over %d ft %d in" % divmod(book["height"]["warn_in"], 12),
    ]


def main():
    """The page against book and schema."""
    root, results = pathlib.Path(sys.argv[1]), []
    text = (root / "docs/ambiguities.md").read_text(encoding="utf-8")
    book = json.loads((root / "data/rules/us-49cfr393.json").read_text(encoding="utf-8"))
    schema = json.loads((root / "data/schema/fairlead-fleet-1.schema.json").read_text(encoding="utf-8"))
    parts = sections(text)
    wanted = ["A%d" % number for number in range(1, QUESTIONS + 1)]
    headings = sorted(re.findall(r"(?m)^### (A\d+)\.", text), key=lambda name: int(name[1:]))
    tell(results, headings == wanted, "all %d questions are there, each once" % QUESTIONS, " ".join(headings))
    for name in wanted:
        body = parts.get(name, "")
        lost = [label for label in ("Decided", "Shows", "Read otherwise") if body.count("- **%s**: " % label) != 1]
        tell(results, not lost, "%s: decided, shown, and what to do where it is read otherwise" % name, *lost)
    rules = {item["rule"] for item in book["citations"]["items"]} | set(strings(schema))
    spoken = set(re.findall(r"`([^`]+)`", text)) - WORDS_NOT_RULES
    tell(results, spoken <= rules, "the rules it names are there", *sorted(spoken - rules))
    named = set(re.findall(r"; block ([a-z_]+)", text))
    rows = re.findall(r"(?m)^\| [^|]+ \| [^|]+ \| [^|]+ \| ([a-z_, ]+) \|$", text)
    named |= {word for row in rows for word in row.split(", ") if word.strip()}
    tell(results, len(named) > 10 and named <= set(book), "the blocks it names are the book's", *sorted(named - set(book)))
    lost = [figure for figure in figures(book) if figure not in text]
    tell(results, not lost, "our own figures are the book's", *lost)
    print("1..%d" % len(results))
    return 0 if all(results) else 1


if __name__ == "__main__":
    sys.exit(main())
