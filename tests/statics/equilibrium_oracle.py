#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The upper bound by SciPy's HiGHS, on the same random rigs as fl-test-rigs.h.

The friction cone has 64 sides here. A polygon within the ellipse gives too little, the same polygon with the friction over cos (pi / 64)
lies around it and gives too much: so the true answer lies between the two values recorded, without any further tolerance
but the solver's own. -1: that program finds no state in which the load stands at rest.

  equilibrium_oracle.py record                 writes equilibrium-oracle.inc to standard output
  equilibrium_oracle.py check INC [STEP]       computes every STEP-th anew and compares it with the record; TAP
"""
import math
import re

import numpy as np
from scipy.optimize import linprog

from recorded import main, report

COUNT, SIDES, G = 1000, 64, 9.80665
MASK = (1 << 64) - 1
MOVEMENTS = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1)]


class Draw:
    """SplitMix64, as in fl-test-rigs.h."""

    def __init__(self, number):
        self.state = 1000003 * number

    def __call__(self):
        self.state = (self.state + 0x9E3779B97F4A7C15) & MASK
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & MASK
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & MASK
        return ((z ^ (z >> 31)) >> 11) * 2.0 ** -53

    def between(self, a, b):
        return a + (b - a) * self()


class Rig:
    def __init__(self, number):
        draw = Draw(number)
        length, width = draw.between(1.5, 6.0), draw.between(1.0, 2.6)
        n_contacts = 8 if draw() < 0.4 else 4
        self.weight = draw.between(2000.0, 40000.0) * G
        self.cg = np.array([draw.between(0.25, 0.75) * length, draw.between(-0.2, 0.2) * width, draw.between(0.3, 1.8)])
        if draw() < 0.05:
            self.cg[0] = length + draw.between(0.0, 0.3)
        self.mu = [0.0, 0.0 if draw() < 0.2 else draw.between(0.02, 0.7)]
        self.mu[0] = min(0.02, self.mu[1]) if draw() < 0.3 else self.mu[1]
        self.contacts = []
        for j in range(n_contacts):
            y = (1 if j & 2 else -1) * (width / 2 - 0.4 if j & 4 else width / 2)
            self.contacts.append(np.array([length if j & 1 else 0.0, y, draw.between(0.0, 0.1)]))
        self.pulls = [self.pull(draw, length, width) for _ in range(int(draw() * 13))]
        if draw() < 0.2:
            self.make_symmetric()
        n = len(self.pulls)
        self.over = draw() < 0.3 and n >= 4
        shared = draw() < 0.5 and n >= 6
        limits = [draw.between(0.05, 0.6), draw.between(0.05, 0.6)]
        self.shared = [((2, 3), limits[0]), ((4, 5), limits[1])] if shared else []
        kind, x, y = int(draw() * 6), draw.between(-1, 1), draw.between(-1, 1)
        self.direction = np.array(MOVEMENTS[kind], float) if kind < 5 else np.array([x, y, 0]) / math.hypot(x, y)

    @staticmethod
    def pull(draw, length, width):
        at = np.array([draw.between(0, length), draw.between(-0.5, 0.5) * width, draw.between(0.2, 1.2)])
        anchor = np.array([draw.between(-1, length + 1), 1.25 if draw() < 0.5 else -1.25, draw.between(-0.2, 0)])
        return at, (anchor - at) / np.linalg.norm(anchor - at), draw.between(0.02, 0.5)

    def make_symmetric(self):
        self.cg[1] = 0.0
        for contact in self.contacts:
            contact[2] = 0.0
        flip = np.array([1, -1, 1])
        for i in range(1, len(self.pulls), 2):
            at, along, limit = self.pulls[i - 1]
            self.pulls[i] = (at * flip, along * flip, limit)

    def wrench(self, at, force):
        return np.concatenate([force, np.cross(at - self.cg, force)])

    def program(self, widen):
        """Columns: tensions, cone edges, c. Forces over the weight."""
        columns = [self.wrench(at, along) for at, along, _ in self.pulls]
        for contact in self.contacts:
            for k in range(SIDES):
                angle = 2 * math.pi * k / SIDES
                edge = np.array([self.mu[0] * widen * math.cos(angle), self.mu[1] * widen * math.sin(angle), 1.0])
                columns.append(self.wrench(contact, edge))
        columns.append(np.concatenate([self.direction, np.zeros(3)]))
        return np.array(columns).T

    def matrices(self, widen):
        """Equal rows and their right side, rows of at most and theirs (or None), bounds, cost; the last column is c."""
        balance = self.program(widen)
        n, rows, right = balance.shape[1], list(balance), [0, 0, 1, 0, 0, 0]
        if self.over:
            one = np.zeros(n)
            one[0], one[1] = 1, -1
            rows.append(one)
            right.append(0)
        upper = np.zeros((len(self.shared), n))
        for row, (legs, _) in zip(upper, self.shared):
            row[list(legs)] = 1
        limits = [limit for _, limit in self.shared]
        bounds = [(0, limit) for _, _, limit in self.pulls] + [(0, None)] * (n - len(self.pulls) - 1) + [(0, 1000)]
        cost = np.zeros(n)
        cost[-1] = -1
        return np.array(rows), right, upper if limits else None, limits or None, bounds, cost

    def answer(self, widen):
        rows, right, upper, limits, bounds, cost = self.matrices(widen)

        def solve(last):
            return linprog(cost, A_ub=upper, b_ub=limits, A_eq=rows, b_eq=right, bounds=bounds[:-1] + [last], method="highs",
                           options={"primal_feasibility_tolerance": 1e-9, "dual_feasibility_tolerance": 1e-9})

        if solve((0, 0)).status != 0:
            return -1.0
        result = solve(bounds[-1])
        if result.status != 0:
            raise SystemExit("HiGHS: " + result.message)
        return -result.fun


def answers(number):
    rig = Rig(number)
    return rig.answer(1.0), rig.answer(1.0 / math.cos(math.pi / SIDES))


def record():
    print("/* SPDX-License-Identifier: GPL-3.0-or-later */")
    print("/* Written by equilibrium_oracle.py with SciPy's HiGHS; do not edit. Rig by rig: at least, at most, g; -1: does not stand. */")
    print("static const double equilibrium_oracle[][2] = {")
    for number in range(0, COUNT, 5):
        print("  " + " ".join("{ %.9g, %.9g }," % answers(n) for n in range(number, number + 5)))
    print("};")


def check(path, step):
    with open(path) as file:
        recorded = [(float(a), float(b)) for a, b in re.findall(r"\{ (\S+), (\S+) \}", file.read())]
    numbers = range(0, COUNT, step)
    bad = [n for n in numbers if not np.allclose(answers(n), recorded[n], rtol=0, atol=1e-6)] if len(recorded) == COUNT else numbers
    report(["rig %d: %s now, recorded otherwise" % (n, answers(n)) for n in bad], "%d rigs" % len(numbers))


if __name__ == "__main__":
    main("equilibrium_oracle.py", record, check)
