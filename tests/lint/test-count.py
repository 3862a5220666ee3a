#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-count.py PATH_OF_COUNT: the number at the end of tests/run is honest."""
import json
import os
import subprocess
import sys
import tempfile

OK_TWO = "TAP version 13\n# random seed: x\n1..2\nok 1 /piece #3\nok 2 - x\n"

# name, [(result, stdout)], programs expected, last line, exit status
CASES = [
    ("cases of TAP are counted", [("OK", OK_TWO), ("OK", "1..1\nok 1 x\n")], 2, "3 passed, 0 failed", 0),
    ("a program without TAP is one case", [("OK", "hello\n"), ("FAIL", None)], 2, "1 passed, 1 failed", 1),
    ("not ok is a failure, and is not counted twice", [("ERROR", "1..2\nok 1 x\nnot ok 2 y\n")], 1, "1 passed, 1 failed", 1),
    ("a crash after an ok is a failure", [("ERROR", "1..2\nok 1 x\n")], 1, "1 passed, 1 failed", 1),
    ("a program out of time is a failure", [("TIMEOUT", OK_TWO), ("TIMEOUT", "")], 2, "2 passed, 2 failed", 1),
    ("skipped is told apart", [("OK", "1..2\nok 1 x # SKIP no printer\nok 2 y\n"), ("SKIP", "")], 2, "1 passed, 0 failed, 2 skipped", 0),
    ("a case that is to be done later is not a pass", [("OK", "1..2\nnot ok 1 x # TO" + "DO later\nok 2 y\n")], 1, "1 passed, 0 failed, 1 skipped", 0),
    ("nothing passed is a failure", [("SKIP", "")], 1, "0 passed, 0 failed, 1 skipped", 1),
    ("no test at all is a failure", [], 0, "0 passed, 0 failed", 1),
    ("programs that never ended are failures", [("OK", OK_TWO)], 3, "2 passed, 2 failed", 1),
    ("indented and quoted lines are no cases", [("OK", "1..1\nok 1 x\n    ok 2 y\n# ok 3\nokay 4\n")], 1, "1 passed, 0 failed", 0),
]


def count(entries, expected):
    """(last line, exit status) of count.py over a log with these entries; no log for none."""
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, "testlog.json")
        if entries:
            with open(log, "w", encoding="utf-8") as file:
                for result, output in entries:
                    json.dump({"name": "x", "result": result, **({"stdout": output} if output else {})}, file)
                    file.write("\n")
        run = subprocess.run(["/usr/bin/python3", sys.argv[1], log, str(expected)], capture_output=True, text=True, check=False)
        return run.stdout.splitlines()[-1], run.returncode


print("1..%d" % len(CASES))
for number, (name, entries, expected, line, status) in enumerate(CASES, 1):
    found = count(entries, expected)
    good = found == (line, status)
    print("%s %d - %s" % ("ok" if good else "not ok", number, name))
    if not good:
        print("# found %s, expected %s" % (found, (line, status)))
