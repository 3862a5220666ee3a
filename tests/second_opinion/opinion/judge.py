# SPDX-License-Identifier: GPL-3.0-or-later
"""What stands against a plan: shortfalls and unknowns of law, rating,
practice and (for the three house rules of the first step) house."""

from . import bearing, fit, house, place, strength, tables, vehicle
from .quantity import inches, pounds, reaches
from .scene import Scene

DIRECTIONS = {"forward": (1, 0, 0), "rearward": (-1, 0, 0),
              "left": (0, 1, 0), "right": (0, -1, 0), "up": (0, 0, 1)}


class Finding:
    """One shortfall or unknown."""

    def __init__(self, rule, standing, verdict, subject, text, sure=True):
        self.sure = sure            # False: within a hair of the limit
        self.rule = rule
        self.standing = standing
        self.verdict = verdict
        self.subject = subject
        self.text = text

    def __str__(self):
        return "%s %s (%s): %s: %s" % (self.verdict, self.rule, self.standing,
                                       self.subject, self.text)


class Opinion:
    """All the second opinion finds in one plan."""

    def __init__(self, fleet, plan):
        self.fleet = fleet
        self.plan = plan
        self.scene = Scene(fleet, plan)
        self.strengths = {id(run): strength.of_run(self.scene, run)
                          for run in self.scene.runs}
        self.vehicle = vehicle.Vehicle(self.scene)
        self.sizes = self.vehicle.sizes()
        self.findings = []
        self.fits = {id(run): fit.of_run(self.scene, run)
                     for run in self.scene.runs}
        for load in self.scene.loads:
            self._judge_load(load)
        for run in self.scene.runs:
            self._judge_run(run)
        self.findings += fit.double_use(self.scene, Finding)
        self.findings += place.findings(self.scene, Finding)
        self._judge_height()
        self._judge_ratings()
        self._judge_concentrated()
        house.judge(self)

    @staticmethod
    def again(fleet, plan):
        """The opinion on something else."""
        return Opinion(fleet, plan)

    def add(self, rule, standing, verdict, subject, text, sure=True):
        """Notes one finding."""
        self.findings.append(Finding(rule, standing, verdict, subject, text,
                                     sure))

    def short_unless(self, holds, rule, standing, subject, text, sure=True):
        """A shortfall where it does not hold."""
        if not holds:
            self.add(rule, standing, "short", subject, text, sure)

    # What a tie-down counts and holds

    def wll(self, run):
        """Pounds, None where it cannot be told."""
        return self.strengths[id(run)].value

    def counts(self, run):
        """Pounds it counts towards the aggregate, 393.106(d)."""
        if run.purpose != "machine":
            return 0.0
        value = self.wll(run)
        return None if value is None else value * run.share()

    def can_hold(self, run, doubtful):
        """Nothing out of use in it, its hooks seat, its run is free [A17];
        `doubtful`: what is not sure counts as holding."""
        return not self.strengths[id(run)].out and not any(
            (sure or not doubtful) and text.startswith(fit.NO_HOLD)
            for text, sure in self.fits[id(run)])

    def held(self, load, direction, doubtful=True):
        """Sum of WLL times component against a direction [A17]."""
        total = 0.0
        for run in self.scene.runs_for(load):
            if self.can_hold(run, doubtful):
                value = self.wll(run)
                part = run.held(DIRECTIONS[direction])
                total += (load.weight if value is None else value) * part
        return total

    def pushed_back(self, load, direction, least=True):
        """What a stop in front of a blocked load pushes back, pounds;
        `least`: of the ways to read it [A34]."""
        if direction != "forward" or not place.blocked(self.scene, load):
            return 0.0
        return place.stop_ratings(self.scene, load)[0 if least else -1]

    def sums(self, load):
        """(need, have, unknown) of the aggregate."""
        counted = [self.counts(run) for run in self.scene.runs_for(load)]
        have = sum(c for c in counted if c is not None)
        return (load.weight * tables.AGGREGATE_PART, have,
                any(c is None for c in counted))

    # Law: the load as a whole

    def _judge_load(self, load):
        need, have, unknown = self.sums(load)
        if not reaches(have, need):
            self.add("aggregate", "law", "unknown" if unknown else "short",
                     load.id, "counts %.1f lb of %.1f lb" % (have, need))
        self._judge_count(load)
        if load.is_machine:
            self._judge_rolling(load)
        if load.heavy():
            self._judge_heavy(load)

    def _judge_heavy(self, load):
        """What 393.130 asks beside the count."""
        self._judge_directions(load)
        self._judge_implements(load)
        self._judge_articulation(load)

    def as_heavy(self, load):
        """Findings of what is asked of a heavy machine, kept apart."""
        own, self.findings = self.findings, []
        self._judge_heavy(load)
        found, self.findings = self.findings, own
        return found

    def _judge_count(self, load):
        have = self.in_use(load)
        need = tables.HEAVY_COUNT if load.heavy() else \
            tables.count_by_length(load.length, load.weight,
                                   place.blocked(self.scene, load))
        self.short_unless(have >= need, "count", "law", load.id,
                          "%d tie-downs of %d" % (have, need))

    def in_use(self, load):
        """How many tie-downs of its own are in use [A40]."""
        return sum(1 for run in self.scene.runs_for(load)
                   if not self.strengths[id(run)].out)

    def _holds(self, load, direction, doubtful):
        return self.held(load, direction, doubtful) > 1e-9 * load.weight

    def _judge_directions(self, load):
        for direction in DIRECTIONS:
            if direction == "forward" and place.blocked(self.scene, load):
                continue
            for doubtful in (True, False):
                if not self._holds(load, direction, doubtful):
                    self.add("directions", "law", "short", load.id,
                             "nothing holds " + direction, doubtful)
                    break

    def _judge_rolling(self, load):
        if load.choice.get("chocked") or load.rolls() is False:
            return
        for doubtful in (True, False):
            if not (self._holds(load, "forward", doubtful)
                    and self._holds(load, "rearward", doubtful)):
                self.add("rolling", "law", "short", load.id, "may roll",
                         doubtful and load.rolls() is True)
                break

    def _judge_implements(self, load):
        for implement in load.record.get("implements") or []:
            sure = [run for run in self._holding(load, implement)
                    if self.can_hold(run, False)]
            have = [run for run in self._holding(load, implement)
                    if self.can_hold(run, True)]
            need = implement.get("min_tie_downs", 1)
            if len(sure) < need:
                unnamed = not implement.get("tie_points") \
                    and not implement.get("over_paths")
                self.add("implements", "law", "short",
                         "%s %s" % (load.id, implement["id"]),
                         "%d tie-downs of %d" % (len(have), need),
                         len(have) < need and not unnamed
                         and not self._lock_suffices(load, implement))

    def _holding(self, load, implement):
        """Its own tie-downs that take one of its points or paths [A22]."""
        own = set(implement.get("tie_points") or [])
        paths = [p["id"] for p in implement.get("over_paths") or []]
        return [run for run in self.scene.runs_for(
                    load, "implement:" + implement["id"])
                if any(p["id"] in own for p in run.points)
                or (run.edge_path and run.edge_path["id"] in paths)]

    def _lock_suffices(self, load, implement):
        """Its own mechanical lock, fitted, where the house says so."""
        if not self.house_rule("implement_lock_suffices"):
            return False
        return any(lock["id"] == implement.get("lock") and lock.get("fitted")
                   for lock in load.record.get("locks") or [])

    @staticmethod
    def joint_free(load):
        """True, False, or None where nobody looked at the lock [A24]."""
        if not load.record.get("articulation"):
            return False
        locks = [lock for lock in load.record.get("locks") or []
                 if lock.get("kind") == "articulation"][:1]
        usable = [lock.get("fitted") for lock in locks
                  if lock.get("on_machine") is not False]
        if True in usable:
            return False
        return None if None in usable else True

    def _judge_articulation(self, load):
        free = self.joint_free(load)
        if free is None:
            self.add("articulation", "law", "unknown", load.id,
                     "nobody looked whether its lock is fitted")
        if not free:
            return
        for section in ("front", "rear"):
            for doubtful in (True, False):
                have = self._section_held(load, section, doubtful)
                if have < 4:
                    self.add("articulation", "practice", "short", load.id,
                             "%s section has %d tie-downs and no lock"
                             % (section, have), doubtful)
                    break

    def _section_held(self, load, section, doubtful):
        """How many direct tie-downs hold a section [A24]; 0 where none
        pulls to one of the sides."""
        runs = [run for run in self.scene.runs_for(load)
                if not run.over and run.points[0].get("section") == section
                and self.can_hold(run, doubtful)]
        both = all(any(run.held(DIRECTIONS[side]) > 1e-9 for run in runs)
                   for side in ("left", "right"))
        return len(runs) if both else 0

    # Law and practice: one tie-down

    def _judge_run(self, run):
        subject = "tie-down %s" % run.no
        worth = self.strengths[id(run)]
        for part in worth.out:
            self.add("out_of_use", "practice", "short", subject,
                     "%s %s: %s" % (part.kind, part.name, part.why))
        if not worth.out:
            for part in worth.unknown:
                self.add("gear_rating", "law", "unknown", subject,
                         "%s %s: %s" % (part.kind, part.name, part.why))
        self.short_unless(self._can_be_tightened(run), "tensioner", "law",
                          subject, "nothing to tighten it with")
        over_edge = run.lies == "bends" or (
            run.edge_path is not None and run.edge_path.get("edge"))
        if over_edge or run.lies == "grazes":
            self.short_unless(run.choice.get("edge_protected"), "edge",
                              "law", subject, "edge not protected",
                              bool(over_edge))
        for text, sure in self.fits[id(run)]:
            self.add("fit", "practice", "short", subject, text, sure)

    @staticmethod
    def _can_be_tightened(run):
        """393.112: a binder, or a tensioner of its own."""
        if run.binder is not None:
            return True
        return run.line.kind == "strap" and \
            run.line.record.get("tensioner") in ("ratchet", "winch")

    # Sizes and ratings

    def _judge_height(self):
        """Over the limit that the move itself sets [A27]."""
        limit = inches(self.scene.move, "height_limit")
        if limit is not None:
            self.short_unless(reaches(limit, self.sizes["height"]),
                              "height", "practice", "loaded height",
                              "%.1f in of %.1f in"
                              % (self.sizes["height"], limit))

    def _judge_ratings(self):
        for line in self.vehicle.lines:
            if line.name == "coupling":
                continue
            self._rated(line.load, line.rated, line.name, True)
            if line.load is not None:
                self.short_unless(line.load >= 0, "axle_lifts", "rating",
                                  line.name, "lifts")
        self._gross_ratings()
        if self.vehicle.coupling:
            self._judge_coupling()
        ramp = plain_number(self.scene.trailer, "load_angle_deg")
        for load in self.scene.loads:
            most = plain_number(load.record, "max_ramp_deg")
            if ramp is not None and most is not None:
                self._rated(ramp, most, "ramp of " + load.id)

    def _rated(self, load, rated, subject, sure=False):
        """Load against rating; where either is not known, unknown: for an
        axle for sure, else it may be judged as advice too [A20]."""
        if load is None or rated is None:
            self.add("ratings", "rating", "unknown", subject,
                     "load or rating not known", sure)
        else:
            self.short_unless(reaches(rated, load), "ratings", "rating",
                              subject, "%.1f on a rating of %.1f"
                              % (load, rated))

    def _judge_concentrated(self):
        """No stretch of deck carries more than its maker says [A42]."""
        rated = bearing.worst(self.scene)
        if rated is None:
            self.add("concentrated", "rating", "unknown", "deck",
                     "how a load stands is not known", False)
        for span, most, capacity in rated or []:
            self.short_unless(reaches(capacity, most), "concentrated",
                              "rating", "deck", "%.1f lb on %.1f in of "
                              "%.1f lb" % (most, span, capacity),
                              abs(most - capacity) > 0.5)

    def _gross_ratings(self):
        trailer, truck = self.scene.trailer, self.scene.truck
        self._rated(self.vehicle.trailer_gross, pounds(trailer, "gvwr"),
                    "trailer gvwr")
        capacity = pounds(trailer, "capacity")
        if capacity is not None:
            self._rated(self.vehicle.cargo, capacity, "trailer capacity")
        if truck is not None:
            on_truck = self.vehicle.coupling_load if self.vehicle.coupling \
                else 0.0
            self._rated(None if on_truck is None else
                        self.vehicle.truck_tare + on_truck,
                        pounds(truck, "gvwr"), "truck gvwr")
            self._rated(self.vehicle.gross, pounds(truck, "gcwr"), "gcwr")

    def _judge_coupling(self):
        own = self.vehicle.coupling
        towing = (self.scene.truck or {}).get("coupling")
        if towing is None:
            self.add("coupling", "practice", "unknown", "coupling",
                     "no truck or no coupling on it")
            return
        self._coupling_side(own, "coupling of the trailer")
        self._coupling_side(towing, "coupling of the truck")
        self.short_unless(
            tables.COUPLING_PAIRS.get(towing.get("kind")) == own.get("kind"),
            "coupling_kind", "rating", "coupling",
            "%s to %s" % (towing.get("kind"), own.get("kind")))
        load = self.vehicle.coupling_load
        if load is not None:
            pct = 100 * load / self.vehicle.trailer_gross
            self.short_unless(reaches(pct, tables.COUPLING_LEAST_PCT),
                              "coupling_share", "rating", "coupling",
                              "%.1f percent" % pct)

    def _coupling_side(self, coupling, subject):
        self._rated(self.vehicle.coupling_load,
                    pounds(coupling, "rated_vertical"),
                    subject + ", vertical")
        self._rated(self.vehicle.trailer_gross,
                    pounds(coupling, "rated_trailed"), subject + ", trailed")

    # House

    def house_rule(self, name):
        """The fleet's rules of that name."""
        return [rule for rule in self.fleet.get("house_rules") or []
                if rule.get("rule") == name]

    # The line at the bottom

    def worst(self, standing, doubtful=False):
        """met, unknown or short; `doubtful` counts what is not sure too."""
        found = {f.verdict for f in self.findings
                 if f.standing == standing and (f.sure or doubtful)}
        return "short" if "short" in found else \
            "unknown" if "unknown" in found else "met"

    def verdict(self, doubtful=False):
        """compliant, incomplete or not_compliant."""
        worst = {self.worst(s, doubtful)
                 for s in ("law", "rating", "practice")}
        return "not_compliant" if "short" in worst else \
            "incomplete" if "unknown" in worst else "compliant"


def plain_number(record, key):
    """A number that carries its unit in the whole key, or None."""
    value = record.get(key)
    return value if isinstance(value, (int, float)) else None
