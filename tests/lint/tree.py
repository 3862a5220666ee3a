# SPDX-License-Identifier: GPL-3.0-or-later
"""What every lint reads: the files of the tree, C text without its comments, and the form of a problem."""
import collections
import os
import re

# line 0: the file as a whole. `what` is the fact, `do` the way out.
Problem = collections.namedtuple("Problem", "path line what do")

FOLDERS = ("src", "ui", "data", "tests", "po", "docs", ".ci")
TOKEN = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.S)


class Tree:
    """The tree at `root`; `build` is its build folder, or None where a lint needs none. Paths are relative to root."""

    def __init__(self, root, build=None):
        self.root = os.path.abspath(root)
        self.build = build and os.path.abspath(build)
        self._texts = {}

    def path(self, *parts):
        return os.path.join(self.root, *parts)

    def names(self):
        """Everything at the top level."""
        return sorted(os.listdir(self.root))

    def files(self, *endings, under=FOLDERS):
        """All files below the folders `under` (and nowhere else) that end in one of `endings`, in order."""
        found = []
        for top in under:
            for folder, folders, names in os.walk(self.path(top)):
                folders[:] = sorted(f for f in folders if f != "__pycache__")
                found += [os.path.relpath(os.path.join(folder, n), self.root) for n in names
                          if not endings or n.endswith(endings)]
        return sorted(found)

    def text(self, path):
        if path not in self._texts:
            with open(self.path(path), encoding="utf-8", errors="surrogateescape") as file:
                self._texts[path] = file.read()
        return self._texts[path]

    def lines(self, path):
        return self.text(path).split("\n")

    def code(self, path):
        """C text with comments blanked out, every other character in its place."""
        return TOKEN.sub(lambda m: re.sub(r"[^\n]", " ", m[0]) if m[0][0] == "/" else m[0], self.text(path))

    def bare(self, path):
        """C text with comments and the insides of strings blanked out, every other character in its place."""
        def blank(match):
            token = match[0]
            if token[0] == "/":
                return re.sub(r"[^\n]", " ", token)
            return token[0] + " " * (len(token) - 2) + token[-1]
        return TOKEN.sub(blank, self.text(path))

    def allowed(self, path, line, lint):
        """TRUE if this line or the one above carries `lint: allow NAME: reason` for this lint."""
        near = self.lines(path)[max(0, line - 2):line]
        return any(re.search(r"lint: allow %s: *\w" % re.escape(lint), text) for text in near)

    def scripts(self):
        """Files that start with #!, as (path, interpreter line)."""
        for path in self.files():
            with open(self.path(path), "rb") as file:
                head = file.readline(200)
            if head.startswith(b"#!"):
                yield path, head.decode("utf-8", "replace").strip()

    def exempt(self, name):
        """First words of tests/lint/exempt/NAME."""
        path = self.path("tests/lint/exempt", name)
        if not os.path.exists(path):
            return set()
        with open(path, encoding="utf-8") as file:
            return {line.split()[0] for line in file if line.strip() and not line.startswith("#")}


def line_of(text, offset):
    return text.count("\n", 0, offset) + 1
