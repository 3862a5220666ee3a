# SPDX-License-Identifier: GPL-3.0-or-later
"""A few lines of TAP (Test Anything Protocol, version 13) for the scripts here."""

import sys


class Tap:
    """Counts and prints test points."""

    def __init__(self):
        self.count = 0
        self.failed = 0

    def ok(self, good, name, details=()):
        """One test point; the details are printed where it fails."""
        self.count += 1
        self.failed += not good
        print("%s %d - %s" % ("ok" if good else "not ok", self.count,
                              name.replace("#", "no. ")))
        if not good:
            for line in details:
                print("# %s" % line)
        sys.stdout.flush()
        return good

    def skip(self, name, why):
        """A test point that cannot be run here."""
        self.count += 1
        print("ok %d - %s # SKIP %s" % (self.count, name, why))

    def done(self):
        """Prints the plan; the exit status."""
        print("1..%d" % self.count)
        return 1 if self.failed else 0
