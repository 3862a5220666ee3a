# SPDX-License-Identifier: GPL-3.0-or-later
"""Lints over the tree itself: its top level, its scripts, its catalogs and desktop files, what its programs link."""
import glob
import os
import re
import subprocess
import xml.etree.ElementTree

from tree import Problem

TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "meson.build", "meson_options.txt",
       "src", "ui", "data", "tests", "po", "docs"}
HIDDEN = {".ci", ".editorconfig", ".git", ".gitattributes", ".gitignore"}


def run(*command, cwd=None):
    """(exit status, output lines) of a command."""
    done = subprocess.run(command, cwd=cwd, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False,
                          stdin=subprocess.DEVNULL)
    return done.returncode, done.stdout.splitlines()


def top_level(tree):
    """The top level holds the agreed names; what git ignores does not count."""
    extra = [name for name in tree.names() if name not in TOP | HIDDEN]
    if extra and os.path.exists(tree.path(".git")):
        ignored = run("git", "-C", tree.root, "check-ignore", "--", *extra)[1]
        ignored += [name for name in extra if run("git", "-C", tree.root, "check-ignore", "-q", name + "/")[0] == 0]
        extra = [name for name in extra if name not in ignored]
    return [Problem(name, 0, "is not one of the agreed names at the top", "move it into one of the folders there")
            for name in extra]


def shell_scripts(tree):
    """Every shell script is parsed by bash."""
    problems = []
    shells = {path for path, head in tree.scripts() if re.search(r"\b(?:ba)?sh\b", head)}
    for path in sorted(shells | set(tree.files(".sh"))):
        status, output = run("bash", "-n", tree.path(path))
        if status != 0:
            line = re.search(r"line (\d+): (.*)", "\n".join(output))
            problems.append(Problem(path, int(line[1]) if line else 0, line[2] if line else "bash does not read it", "mend it"))
    for path in sorted(shells):
        if not os.access(tree.path(path), os.X_OK):
            problems.append(Problem(path, 1, "starts with #! and is not executable", "chmod +x it"))
    return problems


def markup(tree):
    """Every XML file is well formed."""
    problems = []
    for path in tree.files(".xml", ".xml.in", ".ui", ".svg"):
        try:
            xml.etree.ElementTree.parse(tree.path(path))
        except xml.etree.ElementTree.ParseError as error:
            problems.append(Problem(path, error.position[0], str(error), "mend the XML"))
    return problems


def built(tree, pattern):
    """Files of the build folder, and a problem where there is none."""
    found = sorted(glob.glob(os.path.join(tree.build, pattern)))
    return found, [] if found else [Problem(pattern, 0, "is not in the build folder", "build first: tests/run does it")]


def desktop_entry(tree):
    found, problems = built(tree, "data/*.desktop")
    for path in found:
        status, output = run("desktop-file-validate", path)
        if status != 0 or output:
            problems.append(Problem("data/%s.in" % os.path.basename(path), 0, "; ".join(output), "mend the desktop entry"))
    return problems


def metainfo(tree):
    found, problems = built(tree, "data/*.metainfo.xml")
    for path in found:
        status, output = run("appstreamcli", "validate", "--no-net", "--no-color", path)
        if status != 0:
            problems.append(Problem("data/%s.in" % os.path.basename(path), 0, "; ".join(x.strip() for x in output if x.strip()),
                                    "mend the metainfo"))
    return problems


def settings_schema(tree):
    status, output = run("glib-compile-schemas", "--strict", "--dry-run", tree.path("data"))
    return [Problem("data", 0, "; ".join(output), "mend the settings schema")] if status != 0 else []


def catalogs(tree):
    """Every po/CODE.po is in LINGUAS and passes msgfmt; LINGUAS is in order and names no other."""
    listed = [line.strip() for line in tree.lines("po/LINGUAS") if line.strip() and not line.startswith("#")]
    there = [os.path.basename(path)[:-3] for path in tree.files(".po", under=("po",))]
    problems = [Problem("po/LINGUAS", 0, "lacks %s" % code, "add it in its place") for code in there if code not in listed]
    problems += [Problem("po/LINGUAS", 0, "names %s, and po/%s.po is missing" % (code, code), "add the catalog, or take the name out")
                 for code in listed if code not in there]
    if listed != sorted(set(listed)):
        problems.append(Problem("po/LINGUAS", 0, "is not in order", "sort it, each once"))
    for code in there:
        status, output = run("msgfmt", "--check", "-o", os.devnull, "po/%s.po" % code, cwd=tree.root)
        if status != 0:
            line = re.search(r":(\d+): (.*)", "\n".join(output))
            problems.append(Problem("po/%s.po" % code, int(line[1]) if line else 0,
                                    line[2] if line else "; ".join(output), "mend the catalog"))
    return problems


def screenless(tree):
    """The console program and every closed program below the desk need no library of the screen."""
    found = [path for path in sorted(glob.glob(os.path.join(tree.build, "src/*/closed-*"))) if os.path.isfile(path)]
    found = [path for path in found if os.path.basename(path) != "closed-desk"]
    cli, problems = built(tree, "src/cli/fairlead-cli")
    for path in found + cli:
        status, output = run("ldd", path)
        if status != 0:
            problems.append(Problem(os.path.relpath(path, tree.build), 0, "; ".join(output), "build it again"))
        for library in re.findall(r"\b(lib(?:gtk|gdk|atk)[-\w.]*\.so[.\d]*) =>", "\n".join(output)):
            problems.append(Problem(os.path.relpath(path, tree.build), 0, "needs %s" % library,
                                    "take what needs it out of this folder: only the desk has a screen"))
    return problems
