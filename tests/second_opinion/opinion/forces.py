# SPDX-License-Identifier: GPL-3.0-or-later
"""The force answers of a plan beside the second opinion's [A29] to [A36]."""

from . import balance, friction, tables
from .body import Body
from .quantity import LB_PER_KG, reaches

HALF_STEP = 0.0005          # results round to 0.001 g
SMALL = 1e-5                # solvers: ours 1e-7, theirs 1e-6
DEMAND = {"working": tables.WORKING_G, "breaking": tables.BREAKING_G}
METHODS = ("component_sum", "upper_bound", "load_sharing")
# What a force record says where it gives no number.
NO_NUMBER = {"not_judged", "not_settled", "unstable_at_rest"}


def compare(comparison):
    """The force answers of a plan; where a run may or may not hold [A17],
    with those that may or else without them, and both ways of a stop."""
    opinion, before = comparison.opinion, len(comparison.lines)
    Forces(comparison, True)
    lines = comparison.lines[before:]
    if lines and (any(opinion.can_hold(run, True) !=
                      opinion.can_hold(run, False)
                      for run in opinion.scene.runs)
                  or any(opinion.pushed_back(load, "forward") !=
                         opinion.pushed_back(load, "forward", False)
                         for load in opinion.scene.loads)):
        del comparison.lines[before:]
        Forces(comparison, False)
        if len(comparison.lines) > before:
            comparison.lines[before:] = lines


class Forces:
    """Compares the force and tension records of one plan."""

    def __init__(self, comparison, doubtful):
        self.doubtful = doubtful
        self.comparison = comparison
        self.opinion = comparison.opinion
        self.results = comparison.results
        self.state = friction.state_of(self.opinion.scene.move)
        self._bodies = {}
        self._outer = {}
        self._inner = {}
        records = self.results.get("force") or []
        self.records = {(r["load"], r["case"], r["level"], r["friction"],
                         r["method"]): r for r in records}
        for key, record in self.records.items():
            self._record(key, record)
        for load in self.opinion.scene.loads:
            self._complete(load)
            self._findings(load)
        self._tensions()

    def note(self, where, what, theirs, ours):
        """One disagreement."""
        self.comparison.note(where, what, theirs, ours)

    def body(self, load, level, state):
        """The load as a body, made once; state `none`: no friction."""
        key = (load.index, level, state)
        if key not in self._bodies:
            body = Body(self.opinion, load, level,
                        None if state == "none" else state, self.doubtful)
            if body.why is None and not balance.stands(body):
                body.why = "falls over where it stands"
            self._bodies[key] = body
        return self._bodies[key]

    def bounds(self, load, case, level, state):
        """(least, most) in g: pyramids inside and round the cone; None
        where it cannot stand."""
        key = (load.index, case, level, state)
        body = self.body(load, level, state)
        if key not in self._inner:
            self._inner[key] = balance.upper_bound(body, case)
            self._outer[key] = self._inner[key] if state == "none" else \
                balance.upper_bound(body, case, True)
        return self._inner[key], self._outer[key]

    # One record

    def _record(self, key, record):
        index, case, level, state, method = key
        where = "load %d %s %s %s %s" % key
        if index >= len(self.opinion.scene.loads) or level not in DEMAND \
                or case not in DEMAND[level] or method not in METHODS \
                or state not in ("none", self.state):
            self.note("-", where, "there", "not asked for")
            return
        load = self.opinion.scene.loads[index]
        self.comparison.number(where, record, "demand", DEMAND[level][case])
        capacity = record.get("capacity_g")
        if method == "component_sum":
            self._sum(where, load, key, record)
            return
        body = self.body(load, level, state)
        if body.why is not None and capacity is not None:
            self.note("-", where, capacity, "not judged: " + body.why)
        elif body.why is None and method == "upper_bound":
            self._bound(where, load, key, record)
        elif body.why is None:
            self._sharing(where, load, key, record)

    def _sum(self, where, load, key, record):
        """WLL times cosine over weight, and the least friction."""
        _, case, level, state, _ = key
        runs = self.opinion.scene.runs_for(load)
        if level != "working" or record.get("capacity_g") is None or any(
                self.opinion.wll(r) is None for r in runs):
            return
        extra = 0.0
        if state != "none":
            extra = friction.least(load, self.opinion.scene.trailer, case,
                                   state)
            if extra is None:
                extra = friction.of_deck(None, None, state)
        pushed = self.opinion.pushed_back(load, case, self.doubtful)
        sums = [(self.opinion.held(load, case, doubtful) + pushed)
                / load.weight + extra for doubtful in (True, False)]
        self.comparison.number(where, record, "capacity", sums[0],
                               (sums[1],))

    def _bound(self, where, load, key, record):
        _, case, level, state, _ = key
        theirs, mode = record.get("capacity_g"), record.get("mode")
        body = self.body(load, level, state)
        least, most = self.bounds(load, case, level, state)
        if body.left_out and theirs is None:
            return
        if most is None:
            if theirs not in (None, 0):
                self.note("-", where, theirs, "cannot stand")
        elif theirs is None:
            self.note("-", where, "%s" % mode, "%.5f g" % least)
        elif mode == "unstable_at_rest" or not \
                least - HALF_STEP - SMALL <= theirs \
                <= most + HALF_STEP + SMALL:
            self.note("-", where, "%s g, %s" % (theirs, mode),
                      "%.5f to %.5f g" % (least, most))

    def _sharing(self, where, load, key, record):
        """Never above the upper bound."""
        _, case, level, state, _ = key
        theirs, mode = record.get("capacity_g"), record.get("mode")
        if theirs is None:
            if mode not in NO_NUMBER:
                self.note("-", where, "neither number nor reason",
                          "expected one")
            return
        _, most = self.bounds(load, case, level, state)
        beside = self.records.get(key[:4] + ("upper_bound",), {}) \
            .get("capacity_g")
        limit = min(x for x in (most, beside) if x is not None) \
            if most is not None or beside is not None else 0.0
        if theirs > limit + 2 * HALF_STEP + SMALL:
            self.note("-", where, "%s g" % theirs,
                      "at most the upper bound, %.5f g" % limit)

    def _complete(self, load):
        """Each case, level, friction and method has its record."""
        for level, cases in DEMAND.items():
            for case in cases:
                for state in ("none", self.state):
                    for method in METHODS:
                        self._there(load, case, level, state, method)

    def _there(self, load, case, level, state, method):
        if method == "component_sum":
            wanted = level == "working" and (
                state == "none" or bool(load.record.get("contacts")))
        else:
            wanted = self.body(load, level, state).why is None \
                and not self.body(load, level, state).left_out
        key = (load.index, case, level, state, method)
        if wanted and key not in self.records:
            self.note("-", "load %d %s %s %s %s" % key, "missing",
                      "expected")

    # Tensions

    def _tensions(self):
        groups = {}
        for record in self.results.get("tensions") or []:
            key = (record["load"], record["case"], record["level"],
                   record["friction"])
            groups.setdefault(key, {})[record["no"]] = record
        for key, records in groups.items():
            self._balanced(key, records)

    def _balanced(self, key, records):
        """The tensions, the weight, the demand and some forces of the deck
        within its friction balance."""
        index, case, level, state = key
        where = "load %d %s %s %s tensions" % key
        load = self.opinion.scene.loads[index]
        body = self.body(load, level, state)
        sharing = self.records.get(key + ("load_sharing",), {})
        if body.why is not None or sharing.get("mode") in NO_NUMBER:
            return
        tensions, slack = [], 1e-5
        for pull in body.pulls:
            if pull.run is None:
                tensions.append(None)
                continue
            tension, half = _tension(records.get(pull.run.no, {}))
            if tension is None:
                self.note(pull.run.no, where, "missing", "expected")
                return
            tensions.append(tension)
            slack += half * len(pull.legs) / load.weight
            self._use(where, pull, tension, half, records[pull.run.no])
        left = balance.unbalanced(body, case, DEMAND[level][case], tensions)
        if left > slack:
            self.note("-", where, "%s" % [round(t or 0) for t in tensions],
                      "%.2e of the weight does not balance" % left)

    def _use(self, where, pull, tension, half, record):
        """The use is the tension over its limit, or a shared rating's."""
        theirs = record.get("use")
        if theirs is not None and pull.limit > 0 and \
                theirs < (tension - half) / pull.limit - 0.0051:
            self.note(pull.run.no, where + " use", theirs, "%.4f"
                      % (tension / pull.limit))

    # Findings that rest on the forces

    def _findings(self, load):
        for finding in self.results.get("findings") or []:
            if finding.get("subject") != "load " + load.id:
                continue
            if finding.get("rule") == "held_down":
                self._held_down(load, finding)
            elif finding.get("rule") == "all_directions":
                self._floor(load, finding)
        self._force_verdicts(load)

    def _held_down(self, load, finding):
        """393.102(b): downward components reach a fifth of the weight."""
        if any(self.opinion.wll(r) is None
               for r in self.opinion.scene.runs_for(load)):
            return
        need = tables.HELD_DOWN_PART * load.weight
        haves = [self.opinion.held(load, "up", d) for d in (True, False)]
        verdicts = {"met" if reaches(h, need) else "caution" for h in haves}
        if finding["verdict"] not in verdicts:
            self.note("-", "held_down of " + load.id, finding["verdict"],
                      "%s (%.1f of %.1f lb)" % (sorted(verdicts), haves[0],
                                                need))
        scale = LB_PER_KG if finding.get("unit") == "kg" else 1.0
        for key, ours in (("need", [need]), ("have", haves)):
            theirs = finding.get(key)
            if theirs is not None and all(
                    abs(theirs * scale - x) > 0.51 * (
                        scale if scale != 1 else 0.1) for x in ours):
                self.note("-", "held_down of %s, %s" % (load.id, key),
                          theirs, "%.2f" % ours[0])

    def _floor(self, load, finding):
        """Without friction at least 0.10 g at best each way, and up by the
        downward components [A43]."""
        if finding["verdict"] not in ("met", "caution"):
            return
        body = self.body(load, "working", "none")
        if body.why is not None or body.left_out:
            return
        least = [self.bounds(load, case, "working", "none")[0]
                 for case in tables.WORKING_G]
        least.append(self.opinion.held(load, "up", self.doubtful)
                     / load.weight)
        if None in least or abs(min(least) - tables.FLOOR_G) < SMALL:
            return
        wanted = "met" if min(least) >= tables.FLOOR_G else "caution"
        have = finding.get("have")
        if finding["verdict"] != wanted or (
                finding.get("unit") == "g" and have is not None
                and abs(have - min(least)) > HALF_STEP + SMALL):
            self.note("-", "all_directions of " + load.id, "%s, %s g" % (
                finding["verdict"], have), "%s, %.5f g" % (wanted,
                                                           min(least)))

    def _force_verdicts(self, load):
        """Each case is met where both answers hold, with friction."""
        findings = [f for f in self.results.get("findings") or []
                    if f.get("rule") == "force"
                    and f.get("subject") == "load " + load.id]
        body = self.body(load, "working", self.state)
        if body.why is not None:
            if any(f["verdict"] not in ("unknown", "caution", "note")
                   for f in findings):
                self.note("-", "force of " + load.id,
                          [f["verdict"] for f in findings],
                          "not judged: " + body.why)
            return
        ours = [self._force_verdict(load, case, body)
                for case in tables.WORKING_G]
        if body.left_out:       # a value is missing, unless the rest holds
            ours = ["unknown" if v == "caution" else v for v in ours]
        for verdict in ("met", "caution", "unknown"):
            count = [f["verdict"] for f in findings].count(verdict)
            if not ours.count(verdict) <= count \
                    <= ours.count(verdict) + ours.count("either"):
                self.note("-", "force of " + load.id,
                          [f["verdict"] for f in findings], ours)
                return

    def _force_verdict(self, load, case, body):
        key = (load.index, case, "working", self.state)
        demand = tables.WORKING_G[case]
        least, most = self.bounds(load, case, "working", self.state)
        shared = self.records.get(key + ("load_sharing",), {}) \
            .get("capacity_g")
        if most is None or most < demand - SMALL or shared is None \
                or shared < demand - HALF_STEP - SMALL:
            return "caution"
        if least >= demand + SMALL and shared > demand + HALF_STEP + SMALL:
            return "met"
        return "either"


def _tension(record):
    """(pounds, half of its rounding step)."""
    for key, factor, step in (("tension_lb", 1.0, 0.1),
                              ("tension_kg", LB_PER_KG, 1.0)):
        if record.get(key) is not None:
            return record[key] * factor, step * factor / 2
    return None, None
