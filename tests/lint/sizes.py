# SPDX-License-Identifier: GPL-3.0-or-later
"""Lints over length: a file and a function that can be read at once."""
import json
import subprocess

from tree import Problem

MOST_LINES = 700
MOST_FUNCTION = 60


def file_length(tree):
    """No source file over the limit, but tables."""
    exempt, problems = tree.exempt("long-files"), []
    for path in tree.files(".c", ".h", ".py", ".css", under=("src", "tests", "ui")):
        count = tree.text(path).count("\n")
        if count > MOST_LINES and path not in exempt:
            problems.append(Problem(path, count, "has %d lines, the most is %d" % (count, MOST_LINES),
                                    "make two files of it, each with one subject (a pure table: tests/lint/exempt/long-files)"))
    return problems


def functions(tree):
    """(path, line, name, lines) of every C function."""
    paths = tree.files(".c", ".h", under=("src", "tests"))
    if not paths:
        return
    run = subprocess.run(["ctags", "--options=NONE", "--languages=C", "--langmap=C:.c.h", "--kinds-C=f", "--fields=+ne",
                          "--output-format=json", "-f", "-", "-I", "G_GNUC_UNUSED,G_GNUC_CONST,G_GNUC_PURE", "-L", "-"],
                         cwd=tree.root, input="\n".join(paths), capture_output=True, text=True, check=True)
    for line in run.stdout.splitlines():
        tag = json.loads(line)
        if tag.get("_type") == "tag" and "end" in tag:
            yield tag["path"], tag["line"], tag["name"], tag["end"] - tag["line"] + 1


def function_length(tree):
    """No function over the limit, but tables."""
    exempt = tree.exempt("long-functions")
    return [Problem(path, line, "%s () has %d lines, the most is %d" % (name, count, MOST_FUNCTION),
                    "give its steps names of their own (a pure table: tests/lint/exempt/long-functions)")
            for path, line, name, count in functions(tree)
            if count > MOST_FUNCTION and "%s:%s" % (path, name) not in exempt]


def exempt_lists(tree):
    """What is exempt still exists and still is over the limit."""
    problems = []
    long_files = {path for path in tree.exempt("long-files")}
    for path in sorted(long_files):
        try:
            needed = tree.text(path).count("\n") > MOST_LINES
        except FileNotFoundError:
            needed = False
        if not needed:
            problems.append(Problem("tests/lint/exempt/long-files", 0, "%s needs no exemption" % path, "take its line out"))
    listed = tree.exempt("long-functions")
    if listed:
        listed -= {"%s:%s" % (path, name) for path, _, name, count in functions(tree) if count > MOST_FUNCTION}
    return problems + [Problem("tests/lint/exempt/long-functions", 0, "%s needs no exemption" % name, "take its line out")
                       for name in sorted(listed)]
