# SPDX-License-Identifier: GPL-3.0-or-later
"""A load as a rigid body: where it stands, what pulls on it, how strongly.

Pounds and inches in the trailer frame [A29] to [A34].
"""

import math

from . import friction, gear, strength, tables
from .quantity import inches, pounds
from .scene import point

FACTORS = {"strap": tables.BREAK_WEBBING, "binder": tables.BREAK_BINDER,
           "connector": tables.BREAK_FITTING, "hook": tables.BREAK_FITTING,
           "repair link": tables.BREAK_FITTING, "end": tables.BREAK_FITTING}


class Pull:
    """legs: [(at, unit vector)], all with one tension of at most limit;
    run None: a stop in front."""

    def __init__(self, run, legs, limit):
        self.run = run
        self.legs = legs
        self.limit = limit


class Body:
    """why: None, or a word why there is no answer."""

    def __init__(self, opinion, load, level, state, doubtful=True):
        self.why = None
        self.weight = load.weight
        self.contacts = []
        self.pulls = []
        self.shared = []            # [(limit, [(index of pull, legs)])]
        self.left_out = []
        self._load = load
        self._scene = opinion.scene
        self.why = _no_answer(opinion, load)
        if self.why is not None:
            return
        self.centre = load.centre_of_gravity()
        self._stand(state)
        self._hold(opinion, level, doubtful)
        self._share(opinion, level)
        self._stop(opinion.pushed_back(load, "forward", doubtful))

    def _stand(self, state):
        for contact in self._load.record["contacts"]:
            mu = friction.along_and_across(self._load, self._scene.trailer,
                                           contact, state)
            for x, y in feet(self._load, contact):
                at = self._load.place((x, y, 0.0))
                self.contacts.append((at, mu))

    def _hold(self, opinion, level, doubtful):
        for run in self._scene.runs_for(self._load):
            if not opinion.can_hold(run, doubtful):
                continue
            limit = limit_of(self._scene, run, level)
            if limit is None or opinion.wll(run) is None:
                self.left_out.append(run)
                continue
            ends = [run.path[0]]
            if run.over:
                ends = [run.path[1], run.path[-2]]
            self.pulls.append(Pull(run, list(zip(ends, run.legs())), limit))

    def _share(self, opinion, level):
        """Ratings that several pulls share, at the working level [A33]."""
        if level != "working":
            return
        hangs = {}
        for index, pull in enumerate(self.pulls):
            for key, rating, legs in rated_ends(pull.run):
                hangs.setdefault(key, (rating, []))[1].append((index, legs))
        self.shared = [(rating, users) for rating, users in hangs.values()
                       if len(users) > 1]

    def _stop(self, rating):
        """It leans on what is in front, left and right [A34]."""
        if rating <= 0:
            return
        half = inches(self._load.record, "width") / 2
        first = len(self.pulls)
        for side in (half, -half):
            at = (self._load.front(), self._load.left + side, self._load.z)
            self.pulls.append(Pull(None, [(at, (-1.0, 0.0, 0.0))], rating))
        self.shared.append((rating, [(first, 1), (first + 1, 1)]))


def _no_answer(opinion, load):
    if opinion.joint_free(load) is not False:
        return "joint free"
    if load.centre_of_gravity() is None:
        return "no center of gravity"
    if not load.record.get("contacts"):
        return "no contacts"
    return None


def feet(load, contact):
    """[(x, y)] in the machine frame on which a contact stands: a wheel in
    its middle, a drum on its two ends, a track on its four corners."""
    x, y = inches(contact, "x"), inches(contact, "y")
    long = inches(contact, "length", 0.0) / 2
    wide = inches(contact, "width", 0.0) / 2
    kind = friction.gear_of(load, contact)
    if kind == "steel_drum":
        return [(x, y + wide), (x, y - wide)]
    if kind in ("rubber_tracks", "steel_tracks"):
        return [(x + a, y + b) for a in (long, -long) for b in (wide, -wide)]
    return [(x, y)]


def rated_ends(run):
    """[(name, rating, legs)] of what a run hangs on and shares."""
    records = [("anchor", record, 1) for record in run.anchors] + [
        ("point", record, strength.legs_on(run, record))
        for record in run.points if record.get("rating_is") != "each"]
    return [((kind, record["id"]), rating, legs)
            for kind, record, legs in records
            for rating in [pounds(record, "rated_wll")] if rating is not None]


def limit_of(scene, run, level):
    """Greatest tension of a run, pounds; None where it is not known."""
    parts = strength.of_run(scene, run).parts
    own = [p for p in parts if p.kind not in ("anchor", "point")]
    if any(p.value is None for p in own):
        return None
    if level == "working":
        each = [pounds(record, "rated_wll") for record in run.points
                if record.get("rating_is") == "each"]
        ends = [rating / legs for _, rating, legs in rated_ends(run)] \
            + [rating / strength.legs_on(run, run.points[0])
               for rating in each if rating is not None]
        return min([p.value for p in own] + ends)
    values = [_breaks_at(run, part) for part in own]
    return None if None in values else min(values)


def _breaks_at(run, part):
    """What a part breaks at, None where its make is not known [A32]."""
    if part.kind != "chain":
        return part.value * FACTORS[part.kind]
    grade = gear.grade(run.line.record)
    factor = tables.BREAK_CHAIN.get(grade)
    return None if factor is None else part.value * factor


def reach(body):
    """A length of the body's own size, to put moments beside forces."""
    ends = [at for at, _ in body.contacts] + [
        at for pull in body.pulls for at, _ in pull.legs]
    return max([math.dist(at, body.centre) for at in ends] + [1.0])
