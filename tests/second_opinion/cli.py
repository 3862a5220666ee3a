# SPDX-License-Identifier: GPL-3.0-or-later
"""Running the console program from the scripts here."""

import json
import os
import subprocess
import tempfile


class Cli:
    """fairlead-cli with a folder for the documents it is given."""

    def __init__(self, path):
        self.path = path
        self.folder = tempfile.TemporaryDirectory(prefix="second-opinion-")

    def write(self, name, document):
        """Writes a document, returns its path."""
        path = os.path.join(self.folder.name, name)
        with open(path, "w", encoding="utf-8") as stream:
            json.dump(document, stream)
        return path

    def run(self, *words):
        """(exit status, document or None, standard error)."""
        done = subprocess.run([self.path] + list(words),
                              stdin=subprocess.DEVNULL,
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                              check=False)
        error = done.stderr.decode("utf-8", "replace")
        try:
            return done.returncode, json.loads(done.stdout), error
        except ValueError:
            return done.returncode, None, error

    def check(self, fleet_path, plan):
        """Judges the choices of a plan: as `run`."""
        choices = {k: v for k, v in plan.items() if k != "results"}
        return self.run("check", fleet_path,
                        self.write("plan.json", choices), "--json")


def stands(results):
    """True if exit status 0 is due: compliant, and the house content."""
    return results.get("verdict") == "compliant" \
        and results.get("house") in ("met", "excepted", None)
