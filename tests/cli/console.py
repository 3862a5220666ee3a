# SPDX-License-Identifier: GPL-3.0-or-later
"""The console program as a black box: documents in a folder of their own, one run and what it said."""

import copy
import json
import os
import subprocess
import tempfile

SPENT = 600  # seconds; no measure of speed, it ends a run that would hang for ever


class Said:
    """What a run said: exit status (negative: a signal ended it), standard output as bytes, lines on standard error."""

    def __init__(self, done, words):
        self.status = done.returncode
        self.out = done.stdout
        self.text = done.stdout.decode("utf-8", "replace")
        self.error = done.stderr.decode("utf-8", "replace")
        self.lines = self.error.splitlines()
        self.words = words

    def document(self):
        """Standard output as one JSON document; None where it is none."""
        def refuse_double(pairs):
            if len({key for key, _ in pairs}) != len(pairs):
                raise ValueError("a key twice")
            return dict(pairs)
        try:
            return json.loads(self.out.decode("utf-8"), object_pairs_hook=refuse_double)
        except ValueError:
            return None

    def about(self):
        """For a failed check."""
        return "ran %s: status %d\n%s\n%s" % (" ".join(self.words), self.status, self.text[-800:], self.error[:800])


class Console:
    """fairlead-cli, and a folder for what it reads and writes."""

    def __init__(self, program):
        self.program = os.path.abspath(program)
        self.temporary = tempfile.TemporaryDirectory(prefix="fairlead-cli-")
        self.folder = self.temporary.name

    def path(self, *names):
        """A path in the folder."""
        return os.path.join(self.folder, *names)

    def write(self, name, content):
        """A file in the folder: bytes, a text, or a document as JSON; its path."""
        if not isinstance(content, (bytes, str)):
            content = json.dumps(content, indent=1, ensure_ascii=False)
        if isinstance(content, str):
            content = content.encode("utf-8")
        with open(self.path(name), "wb") as file:
            file.write(content)
        return self.path(name)

    def run(self, *words, **settings):
        """Runs it in the folder; `env` adds to the environment, `stdin` are bytes to read."""
        env = dict(os.environ, **settings.get("env", {}))
        done = subprocess.run([self.program, *words], input=settings.get("stdin", b""), stdout=settings.get("stdout", subprocess.PIPE),
                              stderr=subprocess.PIPE, cwd=self.folder, env=env, check=False, timeout=SPENT)
        if done.stdout is None:
            done.stdout = b""
        return Said(done, words)


def read(*names):
    """A JSON document."""
    with open(os.path.join(*names), encoding="utf-8") as file:
        return json.load(file)


def changed(document, *changes):
    """A deep copy, each of `changes` a function that changes it in place."""
    result = copy.deepcopy(document)
    for change in changes:
        change(result)
    return result


def put(value, *path):
    """A change: sets the member at `path`."""
    def change(document):
        for key in path[:-1]:
            document = document[key]
        document[path[-1]] = value
    return change


def drop(*path):
    """A change: takes the member at `path` out."""
    def change(document):
        for key in path[:-1]:
            document = document[key]
        del document[path[-1]]
    return change


def line_of(text, part, nth=1):
    """The line (from 1) on which the nth `part` of a text begins."""
    at = -1
    for _ in range(nth):
        at = text.index(part, at + 1)
    return text.count("\n", 0, at) + 1
