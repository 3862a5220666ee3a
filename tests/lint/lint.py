#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""lint.py ROOT BUILD [NAME...]: runs the named lints, or all, and prints TAP.
lint.py --write-potfiles ROOT: brings po/books.c and po/POTFILES.in up to date.

Each problem is one line: where it is, what it is, what to do. A lint is a function of a Tree that returns a list of Problem;
it stands in the table below, in meson.build's list, and in test-lints.py with a tree that breaks it.
An exception in C code is written where it stands, with its reason: /* lint: allow NAME: reason */"""
import sys

import calls
import catalogs
import headers
import house
import includes
import sizes
import words
from tree import Tree

LINTS = {
    "include-climbing": includes.no_climbing,
    "include-names": includes.unique_headers,
    "include-arrows": includes.arrows,
    "include-outside": includes.outside_headers,
    "documented-arrows": includes.documented_arrows,
    "headers-alone": headers.headers_alone,
    "calls": calls.banned_calls,
    "doubles": calls.printed_doubles,
    "file-length": sizes.file_length,
    "function-length": sizes.function_length,
    "exempt-lists": sizes.exempt_lists,
    "license-lines": words.license_lines,
    "dead-code": words.dead_code,
    "notes-to-self": words.notes_to_self,
    "translated-files": words.translated_files,
    "top-level": house.top_level,
    "shell-scripts": house.shell_scripts,
    "markup": house.markup,
    "desktop-entry": house.desktop_entry,
    "metainfo": house.metainfo,
    "settings-schema": house.settings_schema,
    "catalogs": house.catalogs,
    "book-texts": catalogs.book_texts,
    "holes": catalogs.holes,
    "screenless": house.screenless,
}


def describe(problem):
    where = "%s:%d" % (problem.path, problem.line) if problem.line else problem.path
    return "%s: %s. What to do: %s" % (where, problem.what, problem.do)


def main(arguments):
    if len(arguments) == 2 and arguments[0] == "--write-potfiles":
        catalogs.write_books(Tree(arguments[1]))
        words.write_potfiles(Tree(arguments[1]))
        return 0
    if len(arguments) < 2 or any(name not in LINTS for name in arguments[2:]):
        sys.exit("usage: lint.py ROOT BUILD [NAME...], NAME one of: %s" % " ".join(LINTS))
    tree, names = Tree(arguments[0], arguments[1]), arguments[2:] or list(LINTS)
    print("1..%d" % len(names))
    failed = False
    for number, name in enumerate(names, 1):
        problems = LINTS[name](tree)
        for problem in problems:
            print("# " + describe(problem).replace("\n", " "))
        print("%s %d - %s" % ("not ok" if problems else "ok", number, name), flush=True)
        failed = failed or bool(problems)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
