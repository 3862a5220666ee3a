# SPDX-License-Identifier: GPL-3.0-or-later
"""Cautions beside the second opinion's: legal weights and certainty."""

from . import bearing, certain
from .place import blocked
from .quantity import LB_PER_KG
from .road import Road


class Cautions:
    """Compares the findings that are cautions at worst."""

    def __init__(self, comparison):
        self.comparison = comparison
        self.opinion = comparison.opinion
        self.findings = comparison.results.get("findings") or []
        self._road()
        self._concentrated()
        self._margin()
        for load in self.opinion.scene.loads:
            self._placement(load)

    def note(self, what, theirs, ours):
        """One disagreement."""
        self.comparison.note("-", what, theirs, ours)

    def of_rule(self, rule, subject=None):
        """Their findings of a rule."""
        return [f for f in self.findings if f.get("rule") == rule
                and subject in (None, f.get("subject"))]

    def _road(self):
        """Each rule says caution where something is over, else met."""
        road = Road(self.opinion.scene, self.opinion.vehicle)
        for rule, over in road.over.items():
            theirs = self.of_rule(rule)
            verdicts = {f["verdict"] for f in theirs}
            if not road.known or not road.whole or not verdicts:
                continue
            if ("caution" in verdicts) != bool(over):
                self.note(rule, ["%s %s" % (f["verdict"], f.get("text"))
                                 for f in theirs], over or "all legal")

    def _concentrated(self):
        """Pounds on the worst stretch, where there is one rating."""
        rated = bearing.worst(self.opinion.scene)
        theirs = [f for f in self.of_rule("concentrated", "deck")
                  if f.get("standing") == "rating" and "need" in f]
        if not rated or len(rated) != 1 or len(theirs) != 1:
            return
        scale, step = (LB_PER_KG, 1.0) if theirs[0].get("unit") == "kg" \
            else (1.0, 0.1)
        ours = rated[0][1]
        if abs(theirs[0]["need"] * scale - ours) > 0.51 * step * scale \
                + 1e-6 * ours:
            self.note("concentrated", theirs[0]["need"], "%.2f lb" % ours)

    def _margin(self):
        loads = self.opinion.scene.loads
        if not self.of_rule("weight_margin"):
            return
        sure = possible = []
        if any(certain.margin_pct(load) for load in loads):
            other = self.opinion.again(certain.heavier(self.opinion.scene),
                                       self.opinion.plan)
            sure, possible = certain.flips(self.opinion, other)
        for load in loads:
            theirs = self.of_rule("weight_margin", "load " + load.id)
            if len(loads) > 1:          # which load it speaks of: either
                sure = []
            self._verdict("weight_margin of " + load.id, theirs, sure,
                          possible if certain.margin_pct(load) else [])

    def _placement(self, load):
        theirs = self.of_rule("placement", "load " + load.id)
        if not theirs:
            return
        sure, possible = [], []
        for along, aside, asked in certain.places(
                blocked(self.opinion.scene, load)):
            other = self.opinion.again(self.opinion.fleet, certain.moved(
                self.opinion.plan, load, along, aside))
            new = certain.flips(self.opinion, other)
            sure += [(along, aside) + key for key in new[0] if asked]
            possible += new[1]
        self._verdict("placement of " + load.id, theirs, sure, possible)

    def _verdict(self, what, theirs, sure, possible):
        """met without a flip, caution where one is sure."""
        for finding in theirs:
            verdict = finding["verdict"]
            if (verdict == "met" and sure) or (
                    verdict == "caution" and not possible):
                self.note(what, "%s: %s" % (verdict, finding.get("text")),
                          sure or "nothing flips")
