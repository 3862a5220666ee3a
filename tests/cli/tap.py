# SPDX-License-Identifier: GPL-3.0-or-later
"""Prints results in the Test Anything Protocol."""

import sys


class Tap:
    """Counts and prints results; end() prints the plan and gives the exit status."""

    def __init__(self):
        self.count = 0
        self.failed = 0

    def check(self, holds, name, *why):
        """One result; `why` is printed, a line each, where it does not hold."""
        self.count += 1
        print("%s %d - %s" % ("ok" if holds else "not ok", self.count, name.replace("#", "no. ")))
        if not holds:
            self.failed += 1
            for line in why:
                print("# %s" % str(line).replace("\n", "\n# "))
        sys.stdout.flush()
        return holds

    def skip(self, name, why):
        """A result that cannot be had here."""
        self.count += 1
        print("ok %d - %s # SKIP %s" % (self.count, name, why))

    def end(self):
        """The plan; 1 where something failed or nothing was checked."""
        print("1..%d" % self.count)
        return 1 if self.failed or not self.count else 0
