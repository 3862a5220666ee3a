#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Load sharing by SciPy, on the same random rigs as fl-test-sharing-rigs.h, by other ways than the C code's.

Without friction: the force method. Of all tensions and pushes that balance, none under zero, the true ones have the least
complementary energy (Menabrea, Castigliano; any text on the theory of structures):

    sum (T - pretension)^2 / 2k + sum N^2 / 2K,  T >= 0, N >= 0

scipy.optimize.nnls, with the six equations as six more springs, so stiff in force that what they leave open is the motion times 1e-7
of the weight per metre: the weak spring of fl-sharing.h, from the beginning to the end. Where stretch is nothing: the load on
its contacts alone, by the same program without tie-downs.

With friction: the steps of fl-sharing.h, each by MINPACK's hybrid method (scipy.optimize.root) with a finite difference Jacobian, its
friction the nearest point of the ellipse by bisection.

  sharing_oracle.py record                 writes sharing-oracle.inc to standard output
  sharing_oracle.py check INC [STEP]       computes every STEP-th anew and compares it with the record; TAP
"""
import math
import re

import numpy as np
from scipy.optimize import nnls, root

from equilibrium_oracle import Draw
from recorded import main, report

COUNT, ROUGH, STEPS, G, WEAK, GONE = 1000, 25, 20, 9.80665, 1e-7, 1.0
WAYS = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0.6, 0.8, 0)]


class Rig:
    """Rig `number`, drawn as in the header. Springs are ties: rows of b (stretch for each unknown), k, pull."""

    def __init__(self, number):
        draw = Draw(0)
        draw.state = 7000003 * number
        self.body(draw)
        mu = draw.between(0.05, 0.6)
        self.mu = np.array([0.02 if draw() < 0.3 else mu, mu])
        pulls = [self.pull(draw, i) for i in range(4 + int(draw() * 9))]
        ties = [[i] for i in range(len(pulls))]
        if draw() < 0.2:
            ties = [[0], [1, 3], [2]] + ties[4:]
        shared = draw() < 0.3
        self.direction = np.array(WAYS[int(draw() * 5)], float)
        self.demand = draw.between(0.2, 0.9)
        if draw() < 0.15:
            ties.append([len(pulls)])
            pulls.append(self.stop(draw))
        self.springs(pulls, ties, shared)

    def body(self, draw):
        kind = draw()
        self.length, self.width = draw.between(0.8, 3.0), draw.between(0.7, 1.3)
        self.weight = draw.between(3000.0, 35000.0) * G
        n = 4 if kind < 0.5 else 8 if kind < 0.9 else 16
        self.cg = np.array([draw.between(-0.25, 0.25) * self.length, draw.between(-0.1, 0.1), draw.between(0.5, 1.6)])
        soft = draw.between(0.5e6, 3e6) if kind < 0.5 else draw.between(5e6, 50e6)
        self.feet, self.normal, self.shear = np.zeros((n, 3)), np.zeros(n), np.zeros(n)
        for j in range(n):
            x = (self.length if j & 1 else -self.length) * (1.0 - 0.25 * (j >> 3 & 1)) + draw.between(-0.1, 0.1)
            self.feet[j] = x, (self.width if j & 2 else -self.width) * (0.6 if j & 4 else 1.0), 0
            self.normal[j] = soft * draw.between(0.8, 1.2)
            self.shear[j] = self.normal[j] * draw.between(0.3, 1.0)

    def pull(self, draw, i):
        sx, sy = 1.0 if i & 1 else -1.0, 1.0 if i & 2 else -1.0
        at = np.array([sx * draw.between(0.3, 1.1) * self.length, sy * draw.between(0.4, 1.0) * self.width, draw.between(0.4, 1.3)])
        anchor = np.array([at[0] + sx * draw.between(-0.2, 1.6), sy * draw.between(0.9, 1.3), draw.between(-0.2, 0.0)])
        run = np.linalg.norm(anchor - at)
        kind = draw()
        ea, limit = (357e3, 25e3) if kind < 0.1 else (4.52e6, 40e3) if kind < 0.4 else (7.07e6, 63e3) if kind < 0.8 else (11.95e6, 100e3)
        pretension = 0.0 if draw() < 0.5 else draw.between(0.0, 8e3)
        give = 0.0 if draw() < 0.5 else 1.0 / draw.between(20e6, 50e6)
        return at, (anchor - at) / run, run / ea + give, pretension, limit

    def stop(self, draw):
        at = self.cg + 0.5 * self.direction
        at[2] = 0.2
        limit, k = draw.between(0.2, 1.0) * self.weight, draw.between(1e7, 1e8)
        return at, -self.direction, 1 / k, -0.01 * draw() * k, limit

    def wrench(self, at, force):
        return np.concatenate([force, np.cross(at - self.cg, force)])

    def springs(self, pulls, ties, shared):
        self.tie_of = [t for i in range(len(pulls)) for t, legs in enumerate(ties) if i in legs]
        self.b = np.array([-sum(self.wrench(pulls[i][0], pulls[i][1]) for i in legs) for legs in ties])
        self.k = np.array([1 / sum(pulls[i][2] for i in legs) for legs in ties])
        self.pretension = np.array([min(pulls[i][3] for i in legs) for legs in ties])
        self.watched = [([t], min(pulls[i][4] for i in legs)) for t, legs in enumerate(ties)]
        if shared:
            self.watched.append(([self.tie_of[0], self.tie_of[2]], 70e3))
        self.reach = max(np.linalg.norm(at - self.cg) for at in [p[0] for p in pulls] + list(self.feet))
        self.up = np.array([self.wrench(foot, np.array([0, 0, 1.0])) for foot in self.feet]).T

    def outside(self, g):
        return np.concatenate([self.weight * (g * self.direction - np.array([0, 0, 1.0])), np.zeros(3)])

    # ── without friction ──

    def balance(self, columns, yields, rest, g):
        """Of the forces in `columns` (stretching `yields` m/N, `rest` N without stretch) those of least energy, and the motion."""
        soft = math.sqrt(1 / (WEAK * self.weight))
        rows = np.vstack([np.diag(np.sqrt(yields)), soft * columns])
        right = np.concatenate([np.sqrt(yields) * rest, -soft * self.outside(g)])
        forces = nnls(rows, right, 50 * len(yields))[0]
        return forces, (columns @ forces + self.outside(g)) / (WEAK * self.weight)

    def laid(self):
        """Pull of each spring without stretch, from where the weight alone brings the load."""
        pushes, _ = self.balance(self.up, 1 / self.normal, np.zeros(len(self.normal)), 0)
        down = pushes > 0
        q = np.linalg.lstsq(self.up.T[down], -(pushes / self.normal)[down], rcond=None)[0]
        return self.pretension - self.k * (self.b @ q)

    def far(self, q, at_rest):
        return max(np.linalg.norm((q - at_rest)[:3]), self.reach * np.linalg.norm((q - at_rest)[3:]))

    def smooth(self):
        """Tensions at the demand and the g of the first limit (NAN: too near to tell), or how far it went if it did not stay."""
        columns, yields = np.hstack([-self.b.T, self.up]), np.concatenate([1 / self.k, 1 / self.normal])
        rest, n = np.concatenate([self.laid(), np.zeros(len(self.normal))]), len(self.k)
        at_rest, tensions, holds, before = np.zeros(6), None, math.inf, None
        for step in range(2 * STEPS + 1):
            forces, q = self.balance(columns, yields, rest, self.demand * step / STEPS)
            far = self.far(q, at_rest)
            if far > 1.1 * GONE and step <= STEPS or far > 0.9 * GONE and step == STEPS:
                return far
            if far > 0.9 * GONE and step > STEPS:
                return tensions, self.demand * (step - 1) / STEPS if far > 1.1 * GONE else math.nan
            at_rest = q if step == 0 else at_rest
            holds, before = self.first(before, forces[:n], step), forces[:n]
            tensions = before if step == STEPS else tensions
            if step >= STEPS and holds < math.inf:
                break
        return tensions, holds

    def first(self, before, now, step):
        """The first limit's g up to this step; what was found before it is kept."""
        if before is None:
            self.found = 0.0 if any(sum(now[t] for t in legs) >= limit for legs, limit in self.watched) else math.inf
        elif self.found == math.inf:
            for legs, limit in self.watched:
                a, b = (sum(tensions[t] for t in legs) for tensions in (before, now))
                if b >= limit:
                    self.found = min(self.found, (step - 1 + (limit - a) / (b - a)) * self.demand / STEPS)
        return self.found

    # ── with friction ──

    def nearest(self, trial, cap):
        """The nearest point of each foot's ellipse, its multiplier by bisection."""
        a = np.outer(cap, self.mu)
        if self.mu[0] == self.mu[1]:
            return trial * np.minimum(1, a[:, 0] / (np.hypot(trial[:, 0], trial[:, 1]) + 1e-300))[:, None]
        outside = np.hypot(trial[:, 0] * a[:, 1], trial[:, 1] * a[:, 0]) > a[:, 0] * a[:, 1]
        low, high = np.zeros(len(cap)), np.max(a, axis=1) * np.hypot(trial[:, 0], trial[:, 1]) + 1e-300
        for _ in range(100):
            middle = (low + high) / 2
            more = np.sum((a * trial / (a * a + middle[:, None] + 1e-300)) ** 2, axis=1) > 1
            low, high = np.where(more, middle, low), np.where(more, high, middle)
        return np.where(outside[:, None], a * a * trial / (a * a + high[:, None] + 1e-300), trial)

    def forces(self, q, slip):
        turn = q[3:]
        w = q[:3] + np.cross(turn, self.feet - self.cg)
        push = np.maximum(0, -self.normal * w[:, 2])
        trial = -self.shear[:, None] * (w[:, :2] - slip)
        return np.column_stack([self.nearest(trial, push), push]), w

    def settle(self, q, slip, k, pull, g):
        start, scale = q.copy(), np.concatenate([np.full(3, 1e-3), np.full(3, 1e-3 / self.reach)])

        def open_at(x):
            q = x * scale
            force, _ = self.forces(q, slip)
            tension = np.maximum(0, pull + k * (self.b @ q))
            left = self.outside(g) - self.b.T @ tension - WEAK * self.weight * (q - start) * np.array([1] * 3 + [self.reach ** 2] * 3)
            left[:3] += force.sum(axis=0)
            left[3:] += np.cross(self.feet - self.cg, force).sum(axis=0)
            return left / self.weight / np.array([1] * 3 + [self.reach] * 3)

        for method in ("hybr", "lm"):
            found = root(open_at, start / scale, method=method, options={"xtol": 1e-13})
            if np.max(np.abs(found.fun)) < 1e-8:
                q = found.x * scale
                force, w = self.forces(q, slip)
                return q, w[:, :2] + force[:, :2] / self.shear[:, None]
        return None

    def rough(self):
        """Tensions at the demand step by step, or None: a step did not settle or the load went away."""
        n, start = len(self.feet), np.array([0, 0, -self.weight / self.normal.sum(), 0, 0, 0])
        state = self.settle(start, np.zeros((n, 2)), np.zeros(len(self.k)), np.zeros(len(self.k)), 0)
        if state is None:
            return None
        pull = self.pretension - self.k * (self.b @ state[0])
        for step in range(STEPS + 1):
            state = self.settle(*state, self.k, pull, self.demand * step / STEPS)
            if state is None:
                return None
            at_rest = state[0] if step == 0 else at_rest
            if self.far(state[0], at_rest) > 0.9 * GONE:
                return None
        return np.maximum(0, pull + self.k * (self.b @ state[0]))


def numbers_of(rig, tensions):
    return [tensions[t] for t in rig.tie_of]


def answers(number):
    """(far, holds, tensions) without friction, and tensions with it (every ROUGH-th rig; [] where there are none)."""
    rig = Rig(number)
    smooth, rough = rig.smooth(), rig.rough() if number % ROUGH == 0 else None
    rough = [] if rough is None else numbers_of(rig, rough)
    if isinstance(smooth, float):
        return (smooth, 0.0, []), rough
    return (0.0, smooth[1], numbers_of(rig, smooth[0])), rough


def text(values):
    return "{ " + ", ".join("%.6g" % v for v in values) + " }" if values else "{ 0 }"


def macro(value):
    return "INFINITY" if value == math.inf else "NAN" if math.isnan(value) else "%.6g" % value


def line(answer):
    (far, holds, smooth), rough = answer
    return "  { %s, %s, %d, %s, %s }," % (macro(min(far, 99)), macro(holds), len(rough), text(smooth), text(rough))


def record():
    print("/* SPDX-License-Identifier: GPL-3.0-or-later */")
    print("/* Written by sharing_oracle.py with SciPy; do not edit. Rig by rig: how far it went, if it went; g of its first limit; how many tensions with")
    print(" * friction; tensions without friction, N; tensions with it. */")
    print("static const SharingOracle sharing_oracle[] = {")
    for number in range(COUNT):
        print(line(answers(number)))
    print("};")


def close(now, recorded):
    a, b = ([float(v) for v in re.findall(r"[-+.\deE]*\d|INFINITY|NAN", s.replace("INFINITY", "1e9").replace("NAN", "-1"))] for s in (now, recorded))
    return len(a) == len(b) and np.allclose(a, b, rtol=1e-3, atol=1.0)


def check(path, step):
    with open(path) as file:
        recorded = [row.rstrip("\n") for row in file if row.startswith("  { ")]
    numbers = range(0, COUNT, step)
    bad = [n for n in numbers if not close(line(answers(n)), recorded[n])] if len(recorded) == COUNT else numbers
    report(["rig %d: now\n#%s\n# recorded\n#%s" % (n, line(answers(n)), recorded[n] if n < len(recorded) else "") for n in bad], "%d rigs" % len(numbers))


if __name__ == "__main__":
    main("sharing_oracle.py", record, check)
