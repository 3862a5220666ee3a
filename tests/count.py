#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""count.py LOG EXPECTED: says what failed and why, from Meson's testlog.json, and ends with "N passed, N failed".

A program that speaks TAP counts by its own "ok" and "not ok" lines, any other counts as one. A program that failed without
a "not ok" (it crashed, ran out of time, broke its plan) adds one failure, and so does each of the EXPECTED programs that
has no entry: nothing that did not finish passes silently. Exit status 1 if anything failed or nothing passed."""
import json
import re
import sys

CASE = re.compile(r"(not )?ok\b(.*)")
NOT_COUNTED = re.compile(r"(?<!\\)#\s*(?:skip|todo)\b", re.I)
MOST_SAID = 80  # lines of one failed program
GOOD = ("OK", "EXPECTEDFAIL", "SKIP")


def count_cases(output):
    """[passed, failed, skipped] of TAP text. A case to be done later counts as skipped."""
    counts = [0, 0, 0]
    for line in output.splitlines():
        case = CASE.match(line)
        if case:
            counts[2 if NOT_COUNTED.search(case[2]) else 1 if case[1] else 0] += 1
    return counts


def count_program(entry):
    """[passed, failed, skipped] of one entry of the log."""
    output = entry.get("stdout") or ""
    counts = count_cases(output)
    if not any(counts):  # no TAP: the program is the case
        return [int(entry["result"] in ("OK", "EXPECTEDFAIL")), int(entry["result"] not in GOOD), int(entry["result"] == "SKIP")]
    if entry["result"] not in GOOD and counts[1] == 0:
        counts[1] = 1
    return counts


def describe(entry):
    """Name of a failed program, then what it said: its output less the cases that passed, and its standard error."""
    said = [line for line in (entry.get("stdout") or "").splitlines() if not re.match(r"ok\b|1\.\.|TAP version|# (?:random seed|Start of|End of)", line)]
    said += (entry.get("stderr") or "").splitlines()
    left_out = max(0, len(said) - MOST_SAID)
    print("\nfailed: %s (%s)" % (entry["name"], entry["result"]))
    for line in (["... %d lines left out ..." % left_out] if left_out else []) + said[-MOST_SAID:]:
        print("    " + line)


def main(log, expected):
    entries = []
    try:
        with open(log, encoding="utf-8") as file:
            entries = [json.loads(line) for line in file if line.strip()]
    except FileNotFoundError:
        print("%s: no test has run; see the lines above" % log)
    totals = [sum(column) for column in zip(*map(count_program, entries))] or [0, 0, 0]
    for entry in entries:
        if entry["result"] not in GOOD:
            describe(entry)
    unfinished = max(0, expected - len(entries))
    if unfinished:
        print("failed: %d test programs did not run to their end" % unfinished)
        totals[1] += unfinished
    if not totals[0]:
        print("no test passed: that counts as a failure")
    print("%d passed, %d failed%s" % (totals[0], totals[1], ", %d skipped" % totals[2] if totals[2] else ""))
    return 0 if totals[0] and not totals[1] else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2])))
