#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-accounted.py FOLDER: what became of every published table and example that was collected for this program.

Each has an id, where it comes from (seen: read in a public copy; memory: recalled; computed: worked out from the formula by another program),
and the file of FOLDER that checks it with the words to be found there, or the reason why nothing does. The test holds the two together: a
file that went, or an id that lost its check, shows. And the other way round: an example named in a test of the folder is in this list.
"""
import pathlib
import re
import sys

LAW = "test-49cfr393-106-110.c"
GEAR = "test-49cfr393-108.c"
TRADE = "test-common-practice.c"
WORKED = "test-worked-examples.c"
PLANS = "test-worked-examples-judge.c"
SIZES = "test-23cfr658.c"
EN = "test-en12195-1.c"
SEA = "test-ctu-css.c"
GUIDES = "test-european-guides.c"
AUSTRALIA = "test-australian-guides.c"
CANADA = "test-nsc10.c"
SHARE = "test-share-method.c"

# The tables of the rules of the United States: (name, provenance, file, words in it) or (name, provenance, None, why not).
US_TABLES = [
    ("performance criteria, 393.102", "seen", GEAR, "/49cfr393.102/performance"),
    ("aggregate working load limit, 393.106(d)", "seen", LAW, "/49cfr393.106/shares"),
    ("number of tie-downs, 393.110", "seen; (d) memory", LAW, "/49cfr393.110/not-blocked"),
    ("heavy machines, 393.130", "seen", LAW, "/49cfr393.130/heavy"),
    ("inspection, 392.9", "seen", LAW, "/49cfr392.9/recheck"),
    ("chain, 393.108, pounds and marks", "seen", GEAR, "/49cfr393.108/chain/cells-by-mark"),
    ("chain, 393.108, kilograms", "seen", GEAR, "/49cfr393.108/metric"),
    ("webbing, 393.108", "seen", GEAR, "/49cfr393.108/webbing"),
    ("wire rope 6 x 37, 393.108", "seen to 3/4 in, then memory", None, "no wire rope among this program's gear"),
    ("manila rope, 393.108", "memory", None, "no rope among this program's gear"),
    ("polypropylene rope, 393.108", "memory", None, "no rope among this program's gear"),
    ("polyester rope, 393.108", "memory", None, "no rope among this program's gear"),
    ("nylon rope, 393.108", "memory", None, "no rope among this program's gear"),
    ("double-braided nylon rope, 393.108", "memory", None, "no rope among this program's gear"),
    ("steel strapping, 393.108", "first row seen, then memory", None, "no steel strapping among this program's gear"),
    ("friction mat, 393.108(g)", "seen", GEAR, "/49cfr393.108/mat"),
    ("NACM chain, working load limits and sizes beyond 393.108", "seen", GEAR, "/nacm/working-load-limits"),
    ("NACM chain, breaking strength", "seen", GEAR, "/nacm/breaking"),
    ("NACM chain, proof test", "seen", None, "nothing is proof-tested on a trailer; no answer uses it"),
    ("webbing cuts that take a strap out", "seen", TRADE, "/practice/strap-limits"),
    ("least link size of lifting slings, a state's rule", "seen", None, "lifting practice: a worn link takes the chain out whatever is left of it"),
    ("least link thickness, ASME B30.9", "memory", None, "lifting practice: a worn link takes the chain out whatever is left of it"),
    ("binder makers' tables", "seen in part, memory", GEAR, "/binders/strength"),
    ("bridge formula, check values and steps", "seen, computed", SIZES, '"/23cfr658/bridge"'),
    ("legal width, axle and gross weights", "seen", SIZES, "/23cfr658/legal"),
    ("typical state limits on height", "seen", None, "no federal limit; the book's 13 ft 6 in only warns where a move gives none"),
    ("largest weight by chain and number", "computed", WORKED, "/examples/computed/largest-weight"),
]

US_EXAMPLES = [
    ("E01", "seen", WORKED, '{ "E01"'), ("E02", "seen", WORKED, '{ "E02"'), ("E03", "seen", WORKED, '{ "E03"'),
    ("E04", "seen", WORKED, '{ "E04"'), ("E05", "seen", WORKED, '{ "E05"'), ("E07", "seen", WORKED, '{ "E07"'),
    ("E08", "seen", WORKED, '{ "E08"'), ("E09", "computed", WORKED, "/examples/agrees/E08-E09-needed"), ("E11", "seen", WORKED, '{ "E11"'),
    ("E14", "seen", WORKED, '{ "E14"'), ("E15", "seen", WORKED, '{ "E15"'), ("E16", "seen", WORKED, '{ "E16"'),
    ("E17", "seen", WORKED, "/examples/contradicts/E17-same-side"), ("E18", "seen", WORKED, '{ "E18"'), ("E19", "seen", WORKED, '{ "E19"'),
    ("E20", "seen", WORKED, "/examples/agrees/E20-E21-length"), ("E21", "seen", WORKED, "/examples/agrees/E20-E21-length"),
    ("E23", "seen", WORKED, "/examples/contradicts/E21-E23-count"), ("E24", "seen", WORKED, "/examples/agrees/E24-forward"),
    ("E25", "seen", WORKED, '{ "E25 direct"'), ("E26", "seen", WORKED, "/examples/agrees/E26-unreadable"),
    ("E27", "seen", PLANS, "/examples/agrees/E27"), ("E28", "seen", WORKED, "/examples/agrees/E28-handle"),
    ("E29", "seen", WORKED, '{ "E29"'), ("E30", "seen", WORKED, "/examples/contradicts/E30-no-mandate"),
    ("E32", "seen", SIZES, "/23cfr658/bridge/example-E32"),
]

# Examples from elsewhere.
EXAMPLES = [
    ("CSS-A13-EX1", "seen", SEA, '/css13/seen/CSS-A13-EX1"'),
    ("CSS-A13-EX2", "results seen, rows memory", SEA, '/css13/memory/CSS-A13-EX2"'),
    ("AU-NHVR-LOADER15", "seen", AUSTRALIA, "/australia/seen/AU-NHVR-LOADER15"),
    ("AU-ROLLER8", "seen, computed", AUSTRALIA, "/australia/seen/AU-ROLLER8"),
    ("GDV-DOZER19", "seen", GUIDES, "/guides/seen/GDV-DOZER19"),
    ("GDV-TELEH14", "seen, computed", GUIDES, "/guides/computed/GDV-TELEH14"),
    ("GDV-MINI35", "seen, computed", GUIDES, "/guides/computed/GDV-MINI35"),
    ("GDV-DIRECT-VS-TIEDOWN", "seen", GUIDES, "/guides/seen/GDV-DIRECT-VS-TIEDOWN"),
    ("GDV-SAND", "seen", GUIDES, "/guides/seen/GDV-SAND"),
    ("HAUFE-TIEDOWN1000", "seen", GUIDES, "/guides/seen/HAUFE-TIEDOWN1000"),
    ("SB-500", "seen", GUIDES, "/guides/seen/SB-500"),
    ("IRU-EX1", "seen", GUIDES, "/guides/seen/IRU-EX1"),
    ("IRU-EX3", "seen", None, "how many it takes to keep it from tipping hangs on the load's sizes, which are not printed"),
    ("IRU-EX4", "seen", None, "how many it takes to keep it from tipping hangs on the load's sizes, which are not printed"),
    ("CA-BC-600", "seen", CANADA, "/nsc10/seen/CA-BC-600"),
    ("NA-DIRECT-HALF", "seen", WORKED, "/examples/agrees/NA-DIRECT-HALF"),
    ("BINDER-LEVER-CHEATER", "seen", WORKED, "BINDER-LEVER-CHEATER"),
    ("CHAIN-STRAIN-G12", "seen, computed", SHARE, "/share-method/seen/CHAIN-STRAIN-G12"),
    ("CHAIN-EA-DNV-8", "formula seen, computed", SHARE, '{ "CHAIN-EA-DNV-8"'),
    ("CHAIN-EA-DNV-10", "formula seen, computed", SHARE, '{ "CHAIN-EA-DNV-10"'),
    ("CHAIN-EA-DNV-13", "formula seen, computed", SHARE, '{ "CHAIN-EA-DNV-13"'),
    ("CHAIN-EA-DNV-16", "formula seen, computed", SHARE, '{ "CHAIN-EA-DNV-16"'),
    ("RORO-STEEL80", "seen", SEA, "/sea/seen/RORO-STEEL80"),
    ("EN12640-TRAILER", "seen", None, "how many anchors a new trailer must have; this program takes a trailer as it stands"),
    ("RING-RULE", "seen", None, "a rating guessed from the thickness of a ring; this program makes up no rating"),
    ("FRICTION-CONV", "seen", None, "from measured to design friction; the book holds design values"),
    ("TOPOVER-SIDE-15", "memory, computed", EN, '{ "TOPOVER-SIDE-15", "memory"'),
    ("TOPOVER-SIDE-20", "memory, computed", EN, '{ "TOPOVER-SIDE-20", "memory"'),
    ("TOPOVER-SIDE-25", "memory, computed", EN, '{ "TOPOVER-SIDE-25", "memory"'),
    ("TOPOVER-SIDE-30", "memory, computed", EN, '{ "TOPOVER-SIDE-30", "memory"'),
    ("TOPOVER-SIDE-35", "memory, computed", EN, '{ "TOPOVER-SIDE-35", "memory"'),
    ("TOPOVER-SIDE-40", "memory, computed", EN, '{ "TOPOVER-SIDE-40", "memory"'),
    ("TOPOVER-SIDE-45", "memory, computed", EN, '{ "TOPOVER-SIDE-45", "memory"'),
] + [
    ("TOPOVER-FWD-%d" % mu, "computed", EN, '{ "TOPOVER-FWD-%d", "computed"' % mu) for mu in range(15, 75, 5)
] + [
    ("CTU-%s-%d" % (kind, mu), "computed", SEA, '{ "CTU-%s-%d", "computed"' % (kind, mu)) for kind in ("SPRING", "STRAIGHT") for mu in (15, 30, 45, 60)
] + [
    ("EN-DIAG-%s" % row, "computed", EN, '{ "EN-DIAG-%s", "computed"' % row) for row in "ABCDEFGH"
] + [
    ("EN-DIAG-CAP", "computed", EN, "/en12195-1/direct/computed/EN-DIAG-CAP"),
    ("EN-TOPOVER-N", "computed", EN, '{ "EN-TOPOVER-N", "computed"'),
    ("EN-TOPOVER-N-SIDE", "computed", EN, '{ "EN-TOPOVER-N-SIDE", "computed"'),
    ("EN-STAB-1", "computed", EN, "/en12195-1/stability/computed/EN-STAB-1-2"),
    ("EN-STAB-2", "computed", EN, "/en12195-1/stability/computed/EN-STAB-1-2"),
    ("EN-TIP-OVERTOP", "computed", EN, "/en12195-1/tipping/computed/EN-TIP-OVERTOP"),
    ("EN-BLOCK", "computed", EN, "/en12195-1/blocking/computed/EN-BLOCK"),
    ("AU-TIEDOWN-4-750-100", "computed", AUSTRALIA, '{ "AU-TIEDOWN-4-750-100"'),
    ("AU-TIEDOWN-4-750-70", "computed", AUSTRALIA, '{ "AU-TIEDOWN-4-750-70"'),
    ("AU-TIEDOWN-2-750-100", "computed", AUSTRALIA, '{ "AU-TIEDOWN-2-750-100"'),
    ("AU-TIEDOWN-6-300-100", "computed", AUSTRALIA, '{ "AU-TIEDOWN-6-300-100"'),
    ("AU-DIRECT-AE25", "computed", AUSTRALIA, '{ "AU-DIRECT-AE25"'),
    ("AU-DIRECT-AE50", "computed", AUSTRALIA, '{ "AU-DIRECT-AE50"'),
    ("AU-DIRECT-AE70", "computed", AUSTRALIA, '{ "AU-DIRECT-AE70"'),
    ("AU-DIRECT-AE85", "computed", AUSTRALIA, '{ "AU-DIRECT-AE85"'),
    ("CA-HEAVY-MIN", "seen, computed", CANADA, "/nsc10/computed/CA-HEAVY-MIN"),
    ("CHAIN-STRAIN-MINING", "seen, computed", GEAR, "/chain/seen/CHAIN-STRAIN-MINING"),
    ("CHAIN-EA-DEFAULT-8", "computed", SHARE, '{ "CHAIN-EA-DEFAULT-8"'),
    ("CHAIN-EA-DEFAULT-10", "computed", SHARE, '{ "CHAIN-EA-DEFAULT-10"'),
    ("CHAIN-EA-DEFAULT-13", "computed", SHARE, '{ "CHAIN-EA-DEFAULT-13"'),
    ("CHAIN-EA-DEFAULT-16", "computed", SHARE, '{ "CHAIN-EA-DEFAULT-16"'),
    ("KAPS-3TYPES-CHAIN", "method seen, computed", SHARE, "/share-method/computed/KAPS-3TYPES-CHAIN"),
    ("KAPS-PRETENSION-0", "method seen, computed", SHARE, "/share-method/computed/KAPS-PRETENSION"),
    ("KAPS-PRETENSION-31.5", "method seen, computed", SHARE, "/share-method/computed/KAPS-PRETENSION"),
    ("DLF-0.1", "computed", None, "a load that swings on its chains while the brake bites; every force answer here is static"),
    ("DLF-0.3", "computed", None, "a load that swings on its chains while the brake bites; every force answer here is static"),
    ("DLF-1.0", "computed", None, "a load that swings on its chains while the brake bites; every force answer here is static"),
    ("DLF-2.0", "computed", None, "a load that swings on its chains while the brake bites; every force answer here is static"),
]

# How many were collected: a line that falls out of a list shows.
COLLECTED = {"tables of the United States": (US_TABLES, 27), "examples of the United States": (US_EXAMPLES, 26), "examples from elsewhere": (EXAMPLES, 89)}

NAMED = re.compile(r"\b(?:E\d\d|(?:CSS|AU|GDV|HAUFE|SB|IRU|CA|NA|BINDER|CHAIN|RORO|EN|TOPOVER|CTU|KAPS|DLF)-[A-Z0-9][A-Z0-9.-]*[A-Z0-9])\b")


def tell(results, holds, name, *why):
    """One result of the Test Anything Protocol."""
    results.append(holds)
    print("%s %d - %s" % ("ok" if holds else "not ok", len(results), name))
    for line in why if not holds else ():
        print("# %s" % line)


def missing(folder, file, words):
    """Why a check is not there; None where it is."""
    path = folder / file
    name = re.fullmatch(r"test-(.*)\.c", file)[1]
    if not path.is_file():
        return "%s is not there" % file
    if words not in path.read_text(encoding="utf-8"):
        return "%s has no %s" % (file, words)
    if "'%s'" % name not in (folder / "meson.build").read_text(encoding="utf-8"):
        return "meson.build runs no %s" % name
    return None


def main():
    """All lists."""
    folder, results = pathlib.Path(sys.argv[1]), []
    known = set()
    for title, (rows, number) in COLLECTED.items():
        names = [row[0] for row in rows]
        known |= set(names)
        tell(results, len(names) == len(set(names)) == number, "%s: all %d, each once" % (title, number), "there are %d" % len(names))
        lost = [why for _, _, file, words in rows if file for why in [missing(folder, file, words)] if why]
        tell(results, not lost, "%s: each is checked where the list says" % title, *lost)
        mute = [row[0] for row in rows if not row[1] or not row[3]]
        tell(results, not mute, "%s: each says where it is from, and why it is not checked where it is not" % title, *mute)
        checked = sum(1 for row in rows if row[2])
        print("# %s: %d checked, %d not" % (title, checked, number - checked))
    for path in sorted(folder.glob("*.c")):
        text = re.sub(r"EN-DIAG-CAP-crossing|CSS-A13-EX1-factors|EN-STAB-1-2", "", path.read_text(encoding="utf-8"))
        strange = sorted(name for name in set(NAMED.findall(text)) if not any(one == name or one.startswith(name + "-") for one in known))
        tell(results, not strange, "%s: every example it names is in a list" % path.name, *strange)
    print("1..%d" % len(results))
    return 0 if all(results) else 1


if __name__ == "__main__":
    sys.exit(main())
