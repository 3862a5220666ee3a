# SPDX-License-Identifier: GPL-3.0-or-later
"""The plan's own results beside the second opinion, number by number."""

from datetime import date

from . import forces
from .cautions import Cautions
from .judge import Opinion
from .quantity import IN_PER_MM, LB_PER_KG

# formats: nearest 0.1 lb, 1 kg, 0.1 in, 1 mm, 0.1 degree, 0.001 g.
STEP = {"lb": 0.1, "kg": 1.0, "in": 0.1, "mm": 1.0, "deg": 0.1, "pct": 0.1,
        "g": 0.001}
# The names under which the program reports what the second opinion calls...
RULES = {
    "aggregate_wll": "aggregate", "tie_down_count": "count",
    "all_directions": "directions", "rolling": "rolling",
    "implements": "implements", "articulation": "articulation",
    "gear_rating": "gear", "cannot_loosen": "tensioner",
    "edge_protection": "edge", "fit": "fit", "gear_on_hand": "fit",
    "double_use": "fit", "stands_on_deck": "place", "move": "move",
    "size_height": "height", "axle_rating": "axles",
    "coupling_rating": "ratings", "capacity": "ratings",
    "concentrated": "concentrated", "gvwr": "ratings", "gcwr": "ratings", "ramp": "ratings",
    "coupling_kind": "coupling_kind", "coupling_share": "coupling_share",
}
OWN_RULES = {"out_of_use": "gear", "gear_rating": "gear",
             "double_use": "fit", "axle_lifts": "axles",
             "coupling": "coupling_kind"}
PER_UNIT = {"kg": LB_PER_KG, "mm": IN_PER_MM}


class Comparison:
    """Collects the disagreements over one plan."""

    def __init__(self, fleet, plan):
        self.plan = plan
        self.name = str(plan.get("move"))
        self.lines = []
        self.opinion = Opinion(fleet, plan)
        self.results = plan.get("results")
        if self.results is None:
            self.note("-", "results", "none", "expected")
            return
        self._tie_downs()
        self._sums()
        if self.results.get("force"):
            forces.compare(self)
        self._axles()
        self._sizes()
        Cautions(self)
        self._verdict()

    def note(self, tie_down, quantity, theirs, ours):
        """One disagreement."""
        self.lines.append("plan %s: tie-down %s: %s: theirs %s, ours %s"
                          % (self.name, tie_down, quantity, theirs, ours))

    def number(self, where, record, key, ours, also=()):
        """Compares record[key + unit] with ours (or one of `also`)."""
        unit, theirs = _find(record, key)
        if ours is None:
            if theirs is not None:
                self.note(where, key, theirs, "not known")
            return
        if theirs is None:
            self.note(where, key, "missing", "%.4f" % ours)
            return
        step = STEP.get(unit, 0.1)
        own = [value / PER_UNIT.get(unit, 1.0) for value in (ours,) + also]
        slack = step / 2 + 1e-6 + 1e-9 * abs(own[0])
        if all(abs(theirs - value) > slack for value in own):
            self.note(where, "%s_%s" % (key, unit), theirs, "%.4f" % own[0])
        elif abs(theirs / step - round(theirs / step)) > 1e-4:
            self.note(where, "%s_%s rounding" % (key, unit), theirs,
                      "a multiple of %s" % step)

    def _tie_downs(self):
        theirs = {r["no"]: r for r in self.results.get("tie_downs") or []}
        for run in self.opinion.scene.runs:
            record = theirs.pop(run.no, None)
            if record is None:
                self.note(run.no, "result", "missing", "expected")
                continue
            strength = self.opinion.strengths[id(run)]
            if strength.out and _find(record, "wll")[1] is None:
                self.number(run.no, record, "counts", 0.0)      # [A9]
            elif strength.value is not None or _find(record, "wll")[1] \
                    is None:
                self.number(run.no, record, "wll", strength.value)
                self.number(run.no, record, "counts",
                            self.opinion.counts(run))
            elif strength.least is not None:            # [A6]
                self.number(run.no, record, "wll", strength.least)
            self.number(run.no, record, "run", run.length())
            self.number(run.no, record, "needs", run.needs(
                self.opinion.scene.allowance()))
            pairs = run.angles()
            for key, i in (("deck_angle", 0), ("plan_angle", 1)):
                self.number(run.no, record, key, pairs[0][i],
                            tuple(p[i] for p in pairs[1:]))
            if strength.value is not None:
                self._weakest(run.no, record.get("limited_by"),
                              strength.weakest)
        for number in theirs:
            self.note(number, "result", "there", "no such tie-down")

    def _weakest(self, where, theirs, parts):
        """The text names one of the weakest parts [A4]."""
        words = str(theirs)
        if not any(words.endswith(p.name) or p.name + " " in words + " "
                   for p in parts):
            self.note(where, "limited_by", theirs, " or ".join(
                "%s %s" % (p.kind, p.name) for p in parts))

    def _sums(self):
        theirs = {r["load"]: r for r in self.results.get("sums") or []}
        for load in self.opinion.scene.loads:
            record = theirs.get(load.index)
            if record is None:
                self.note("-", "sum of load %d" % load.index, "missing",
                          "expected")
                continue
            need, have, unknown = self.opinion.sums(load)
            where = "load %d" % load.index
            self.number(where, record, "weight", load.weight)
            self.number(where, record, "need", need)
            if not unknown:
                self.number(where, record, "have", have)
            runs = [r for r in self.opinion.scene.runs_for(load)
                    if self.opinion.wll(r) is not None]
            if runs and not unknown and record.get("weakest") is not None:
                least = min(self.opinion.wll(r) for r in runs)
                self._weakest(where, record["weakest"], [
                    part for r in runs
                    if self.opinion.wll(r) <= least + 1e-6
                    for part in self.opinion.strengths[id(r)].weakest])

    def _axles(self):
        theirs = {r["axle"]: r for r in self.results.get("axles") or []}
        for line in self.opinion.vehicle.lines:
            record = theirs.pop(line.name, None)
            if record is None:
                if line.load is not None:
                    self.note("-", "axle " + line.name, "missing",
                              "%.1f lb" % line.load)
                continue
            self.number("axle " + line.name, record, "load", line.load)
            self.number("axle " + line.name, record, "rated", line.rated)
            if line.share_pct is not None:
                self.number("axle " + line.name, record, "share",
                            line.share_pct)
        for name in theirs:
            self.note("-", "axle " + name, "there", "no such axle")

    def _sizes(self):
        record = self.results.get("sizes")
        if record is None:
            self.note("-", "sizes", "missing", "expected")
            return
        for key, ours in self.opinion.sizes.items():
            if ours is not None:
                self.number("sizes", record, key, ours)

    def _verdict(self):
        theirs, ours = self.results.get("verdict"), self.opinion.verdict()
        reasons = [str(f) for f in self.opinion.findings
                   if f.standing != "house"]
        if theirs not in (ours, self.opinion.verdict(doubtful=True)):
            self.note("-", "verdict", theirs, "%s (%s)"
                      % (ours, "; ".join(reasons) or "nothing against it"))
        elif self.results.get("findings"):
            self._standings(reasons)
            self._rules()
        self._house()

    def _house(self):
        """The house as a whole, and each of its rules that they judge."""
        house = self.results.get("house")
        worst = [self.opinion.worst("house", d) for d in (False, True)]
        ours = [f for f in self.opinion.findings if f.standing == "house"]
        if house in ("met", "short") and house not in [
                "met" if w == "met" else "short" for w in worst]:
            self.note("-", "house", house, "; ".join(map(str, ours))
                      or "nothing against it")
        theirs = [f for f in self.results.get("findings") or []
                  if f.get("standing") == "house"]
        for rule in sorted({f["rule"] for f in theirs}
                           | {f.rule for f in ours}):
            against = any(f["verdict"] in ("short", "unknown")
                          for f in theirs if f["rule"] == rule)
            mine = [f for f in ours if f.rule == rule]
            if against != bool(mine) and (against or any(
                    f.sure for f in mine)):
                self.note("-", "house rule " + rule, [
                    "%s %s: %s" % (f["verdict"], f["subject"], f["text"])
                    for f in theirs if f["rule"] == rule],
                    "; ".join(map(str, mine)) or "nothing against it")

    def _standings(self, reasons):
        """The worst verdict of each standing, from their findings."""
        for standing in ("law", "rating", "practice"):
            found = {f.get("verdict") for f in self.results["findings"]
                     if f.get("standing") == standing}
            theirs = "short" if "short" in found else \
                "unknown" if "unknown" in found else "met"
            ours = self.opinion.worst(standing)
            if theirs not in (ours, self.opinion.worst(standing, True)):
                self.note("-", "worst of " + standing, "%s (%s)" % (
                    theirs, "; ".join(
                        "%s %s" % (f.get("rule"), f.get("subject"))
                        for f in self.results["findings"]
                        if f.get("standing") == standing
                        and f.get("verdict") == theirs)),
                    "%s (%s)" % (ours, "; ".join(reasons)))


    def _rules(self):
        """The same rules stand against the plan."""
        against = ("short", "unknown")
        theirs = {RULES.get(f.get("rule"), f.get("rule"))
                  for f in self.results["findings"]
                  if f.get("verdict") in against
                  and f.get("standing") in ("law", "rating", "practice")}
        ours = [(_own_rule(f), f) for f in self.opinion.findings
                if f.standing != "house"]
        for rule in sorted(theirs - {r for r, _ in ours}):
            self.note("-", "rule " + rule, "stands against it", "does not")
        for rule, finding in ours:
            if finding.sure and rule not in theirs:
                self.note("-", "rule " + rule, "does not stand against it",
                          finding)


def _own_rule(finding):
    """The common name of the rule of one of our findings."""
    if finding.rule == "ratings" and finding.subject.startswith(
            ("truck ", "trailer ")) and finding.subject[-1].isdigit():
        return "axles"
    return OWN_RULES.get(finding.rule, finding.rule)


def _find(record, key):
    """(unit, value) of the member that carries the quantity."""
    for unit in STEP:
        value = record.get("%s_%s" % (key, unit))
        if value is not None:
            return unit, value
    return None, None


def _minutes(text, otherwise):
    """06:30 as minutes of the day."""
    if text is None:
        return otherwise
    hours, _, rest = str(text).partition(":")
    return 60 * int(hours) + int(rest or 0)


def busy(fleet, move):
    """(from, to) in minutes for which all of a move is taken [A21]."""
    day = date.fromisoformat(move["date"]).toordinal() * 1440
    depart, back = _minutes(move.get("depart"), 0), \
        _minutes(move.get("back"), 1440)
    if back < depart:
        back += 1440
    return day + depart, day + back + fleet.get("turnaround_min", 30)


def clashes(fleet, comparisons):
    """Lines for what two plans use at the same time, unless one of them
    does not say that it may go."""
    lines = []
    may_go = [c for c in comparisons if c.results is not None
              and c.results.get("verdict") == "compliant"]
    for index, one in enumerate(may_go):
        for other in may_go[:index]:
            a = busy(fleet, one.opinion.scene.move)
            b = busy(fleet, other.opinion.scene.move)
            if one.name != other.name and a[0] < b[1] and b[0] < a[1]:
                for thing in sorted(taken(one) & taken(other)):
                    lines.append("plan %s: tie-down -: double use: theirs "
                                 "free, ours %s also in plan %s"
                                 % (one.name, thing, other.name))
    return lines


def taken(comparison):
    """Gear, trailer, truck, driver and machines a plan takes up."""
    scene = comparison.opinion.scene
    result = {"gear " + p.name for run in scene.runs for p in run.pieces()}
    result |= {"machine " + load.id for load in scene.loads
               if load.is_machine}
    result.add("trailer " + scene.trailer["id"])
    if scene.truck is not None:
        result.add("truck " + scene.truck["id"])
    if scene.move.get("driver"):
        result.add("driver " + scene.move["driver"])
    return result
