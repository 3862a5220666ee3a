# SPDX-License-Identifier: GPL-3.0-or-later
"""What the oracles that are recorded share: `record` writes the answers, `check INC [STEP]` computes every STEP-th anew and says so in TAP."""

import sys


def report(bad, what):
    """One test: `bad` are the lines that say what came out otherwise than recorded."""
    print("TAP version 13\n1..1")
    for line in bad:
        print("# " + line)
    print("%s 1 - %s computed anew as recorded" % ("not ok" if bad else "ok", what))
    sys.exit(1 if bad else 0)


def main(name, record, check):
    if sys.argv[1:] == ["record"]:
        record()
    elif len(sys.argv) in (3, 4) and sys.argv[1] == "check":
        check(sys.argv[2], int(sys.argv[3]) if len(sys.argv) == 4 else 1)
    else:
        sys.exit("usage: %s record | check INC [STEP]" % name)
