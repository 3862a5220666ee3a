# SPDX-License-Identifier: GPL-3.0-or-later
"""Lints over #include lines: who may use whom."""
import os
import re

from folders import GENERATED, MAY_USE, OUTSIDE, SCREEN
from tree import Problem, line_of

INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*(["<])([^">]+)[">]', re.M)


def includes(tree, path):
    code = tree.code(path)
    for match in INCLUDE.finditer(code):
        yield line_of(code, match.start()), match[1], match[2]


def folder_of(path):
    return path.split("/")[1]


def no_climbing(tree):
    """No #include with ../ in it."""
    return [Problem(path, line, 'includes "%s"' % name, "include the header by its name alone")
            for path in tree.files(".c", ".h", under=("src", "tests"))
            for line, _, name in includes(tree, path) if "../" in name or "/.." in name]


def unique_headers(tree):
    """No two headers of the same name: with one include root a folder, the wrong one could be found."""
    seen, problems = dict(GENERATED), []
    for path in tree.files(".h", under=("src",)):
        name = os.path.basename(path)
        if not name.startswith("fl-"):
            problems.append(Problem(path, 0, "does not start with fl-", "rename it fl-%s" % name))
        if name in seen:
            problems.append(Problem(path, 0, "has the name of %s" % seen[name], "give one of them another name"))
        seen[name] = path
    return problems


def arrows(tree):
    """A folder includes headers of folders that it may use, and of no others."""
    owner = dict(GENERATED)
    for path in tree.files(".h", under=("src",)):
        owner[os.path.basename(path)] = folder_of(path)
    problems = []
    for path in tree.files(".c", ".h", under=("src",)):
        folder = folder_of(path)
        for line, mark, name in includes(tree, path):
            if mark == "<" and not name.startswith("fl-"):
                continue
            if folder not in MAY_USE:
                continue
            whose = owner.get(name)
            if whose is None:
                problems.append(Problem(path, line, 'includes "%s", which no folder of src has' % name,
                                        "name one of our own headers, or write <> for an outside one"))
            elif whose != folder and whose not in MAY_USE[folder]:
                problems.append(Problem(path, line, '%s includes "%s" of %s' % (folder, name, whose),
                                        "%s may use %s: pass in what is needed, or move the code"
                                        % (folder, ", ".join(MAY_USE[folder]) or "no other folder")))
    return problems


def outside_headers(tree):
    """The header of an outside library is included by the folders that own it, and by no others."""
    problems = []
    for path in tree.files(".c", ".h", under=("src", "tests")):
        top, folder = path.split("/")[:2]
        for line, _, name in includes(tree, path):
            start = next((s for s in OUTSIDE if name.startswith(s)), None)
            if start is None or folder in OUTSIDE[start] or (top == "tests" and start not in SCREEN):
                continue
            problems.append(Problem(path, line, "%s/%s includes <%s>" % (top, folder, name),
                                    "only %s may: ask it for what is needed" % " and ".join(OUTSIDE[start])))
    return problems


def documented_arrows(tree):
    """The folder table of DEVELOPERS.md says what this file's table says."""
    if not os.path.exists(tree.path("DEVELOPERS.md")):
        return [Problem("DEVELOPERS.md", 0, "is missing", "write it")]
    said = {}
    for number, text in enumerate(tree.lines("DEVELOPERS.md"), 1):
        row = re.match(r"\| `src/(\w+)` \|[^|]*\|([^|]*)\|", text)
        if row:
            said[row[1]] = (number, {word for word in re.findall(r"\w+", row[2].split(";")[0]) if word in MAY_USE})
    problems = [Problem("DEVELOPERS.md", 0, "has no row for src/%s" % folder, "add one to the folder table")
                for folder in MAY_USE if folder not in said and os.path.isdir(tree.path("src", folder))]
    for folder, (line, uses) in said.items():
        if uses != set(MAY_USE.get(folder, [])):
            problems.append(Problem("DEVELOPERS.md", line, "says that %s may use %s" % (folder, ", ".join(sorted(uses)) or "nothing"),
                                    "make it agree with tests/lint/folders.py: %s" % (", ".join(MAY_USE.get(folder, [])) or "nothing")))
    return problems
