# SPDX-License-Identifier: GPL-3.0-or-later
"""Lint: every header compiles alone, with what its folder may use and nothing else."""
import concurrent.futures
import os
import re
import subprocess

from folders import MAY_USE, PACKAGES
from tree import Problem

FLAGS = ["-std=c17", "-D_GNU_SOURCE", '-DGETTEXT_PACKAGE="fairlead"', "-fsyntax-only", "-Wall", "-Wextra", "-Wpedantic", "-Werror"]


def folder_flags(tree, folder):
    """Include roots and outside packages of one folder of src/."""
    folders = [folder] + MAY_USE.get(folder, [])
    flags = ["-I" + tree.path("src", name) for name in folders]
    if tree.build:
        flags += ["-I" + os.path.join(tree.build, "src", name) for name in folders]
    packages = sorted({"gio-2.0"} | {package for name in folders for package in PACKAGES.get(name, [])})
    return flags + subprocess.run(["pkg-config", "--cflags", *packages], capture_output=True, text=True, check=True).stdout.split()


def compile_alone(tree, path, flags):
    """Problems of one header, included first and by itself."""
    source = '#include "%s"\nextern int fl_header_alone;\n' % os.path.basename(path)
    done = subprocess.run(["cc", *FLAGS, *flags, "-x", "c", "-"], input=source, capture_output=True, text=True, check=False)
    if done.returncode == 0:
        return []
    error = re.search(r"^(\S+):(\d+):\d+: (?:fatal )?error: (.*)$", done.stderr, re.M)
    where = os.path.relpath(error[1], tree.root) if error and os.path.isabs(error[1]) else path
    return [Problem(where, int(error[2]) if error else 0,
                    "%s does not compile alone: %s" % (path, error[3] if error else done.stderr.strip()),
                    "include what it needs in it")]


def headers_alone(tree):
    """Every header of src/ compiles alone."""
    paths = tree.files(".h", under=("src",))
    flags = {folder: folder_flags(tree, folder) for folder in {path.split("/")[1] for path in paths}}
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        found = pool.map(lambda path: compile_alone(tree, path, flags[path.split("/")[1]]), paths)
    return [problem for problems in found for problem in problems]
