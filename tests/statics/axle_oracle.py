#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Axle loads and the bearing of a load on its deck by NumPy and SciPy, which share nothing with the C code.

  outfits   bumper-pull, gooseneck, semitrailer and rollback with several loads, truck included: the stiffness method. Trailer and truck
            are beams of finite elements (two displacements and two turns each) on springs a million times stiffer than an axle's;
            an equalized group is one spring through its equalizer, a load goes to the nodes of its element; the coupling is a spring between
            the two beams. What the springs carry is recorded.
  bearings  a rigid load on contacts that only push: 6,000 slices, equilibrium of force and moment solved with scipy.optimize.root; the most on
            a window of deck by running sums.

  axle_oracle.py record               writes axle-oracle.inc to standard output
  axle_oracle.py check INC [STEP]     computes every STEP-th case anew and compares it with the record; TAP
"""
import re

import numpy as np
from scipy.optimize import root

from recorded import main, report

OUTFITS, BEARINGS, SLICES = 60, 60, 6000
STIFF, EI = 1e13, 1e9           # N/m, N m2
KINDS = ["bumper pull", "gooseneck", "semitrailer", "rollback"]


class Beam:
    """A beam of Euler-Bernoulli elements between the places given, in one large system that several beams share."""

    def __init__(self, places):
        self.x = np.unique(np.round(places, 9))
        self.first = 0

    def dof(self, x):
        """Number of the displacement at a node."""
        return self.first + 2 * int(np.argmin(np.abs(self.x - x)))

    def stiffness(self, whole):
        for k in range(len(self.x) - 1):
            length = self.x[k + 1] - self.x[k]
            a, b, c = 12 * EI / length ** 3, 6 * EI / length ** 2, EI / length
            at = self.first + 2 * k
            whole[at:at + 4, at:at + 4] += np.array([[a, b, -a, b], [b, 4 * c, -b, 2 * c], [-a, -b, a, -b], [b, 2 * c, -b, 4 * c]])


def group_rows(axles):
    """[(members, parts)] of each group; an axle's part of its group."""
    rows = []
    for number in sorted({a[3] for a in axles}):
        members = [i for i, a in enumerate(axles) if a[3] == number]
        shares = np.array([1.0 if axles[i][2] is None else axles[i][2] for i in members])
        rows.append((members, shares / shares.sum()))
    return rows


def solve(trailer_axles, loads, coupling, truck_axles):
    """Loads on the trailer's axles, the truck's axles and the coupling, beyond their empty weights. coupling: (x on the trailer, x on the
    truck) or None."""
    trailer = Beam([a[0] for a in trailer_axles] + [x for x, _ in loads] + ([coupling[0]] if coupling else []))
    beams = [(trailer, trailer_axles)]
    if coupling:
        beams.append((Beam([a[0] for a in truck_axles] + [coupling[1]]), truck_axles))
        beams[1][0].first = 2 * len(trailer.x)
    size = sum(2 * len(beam.x) for beam, _ in beams)
    whole, force = np.zeros((size, size)), np.zeros(size)
    for beam, _ in beams:
        beam.stiffness(whole)
    for x, weight in loads:
        force[trailer.dof(x)] -= weight
    springs = []
    for beam, axles in beams:
        for members, parts in group_rows(axles):
            row = np.zeros(size)        # an equalizer: the group's spring feels the axles' places by their parts
            for i, part in zip(members, parts):
                row[beam.dof(axles[i][0])] += part
            springs.append(row)
    if coupling:
        row = np.zeros(size)
        row[trailer.dof(coupling[0])], row[beams[1][0].dof(coupling[1])] = 1.0, -1.0
        springs.append(row)
    rows = np.array(springs)
    # Stiff springs by their forces (a mixed system), so that the stiffness does not spoil the numbers.
    n = len(springs)
    system = np.block([[whole, rows.T], [rows, -np.eye(n) / STIFF]])
    scale = np.sqrt(np.abs(np.diag(system)))
    scale[scale == 0] = 1.0
    answer = np.linalg.solve(system / scale[:, None] / scale[None, :], np.concatenate([force, np.zeros(n)]) / scale) / scale
    carried = -answer[size:]
    result, k = [], 0
    for _, axles in beams:
        on = np.zeros(len(axles))
        for members, parts in group_rows(axles):
            on[members] = parts * carried[k]
            k += 1
        result.append(on)
    return result[0], result[1] if coupling else np.zeros(0), carried[k] if coupling else 0.0


def outfit(number):
    rng = np.random.default_rng(7100 + number)
    kind = KINDS[number % 4]

    def run(x, n, group, gap=1.3):
        uneven = rng.random() < 0.3
        return [(x - i * gap, rng.uniform(1e4, 3e4), rng.uniform(0.3, 1.0) if uneven else None, group) for i in range(n)]

    length = rng.uniform(6.0, 12.0)
    loads = [(rng.uniform(0.5, length - 0.5), rng.uniform(2e4, 2.5e5)) for _ in range(rng.integers(1, 4))]
    if kind == "rollback":
        axles = run(rng.uniform(1.5, 3.0), int(rng.integers(1, 3)), 2) + run(rng.uniform(7.5, 9.0), 1, 1)
        return kind, axles, loads, None, []
    axles = run(rng.uniform(1.5, 3.5), int(rng.integers(1, 4)), 5)
    ahead = {"bumper pull": rng.uniform(1.5, 2.5), "gooseneck": rng.uniform(2.5, 3.0), "semitrailer": rng.uniform(2.5, 4.0)}[kind]
    truck = run(5.0 + rng.uniform(0, 1), 1, 1) + run(1.3, 2, 2)
    hitch = {"bumper pull": rng.uniform(-2.0, -1.0), "gooseneck": rng.uniform(0.0, 0.6), "semitrailer": rng.uniform(0.2, 1.2)}[kind]
    return kind, axles, loads, (length + ahead, hitch, rng.uniform(5e3, 4e4)), truck


def outfit_answer(number):
    _, axles, loads, coupling, truck = outfit(number)
    places = coupling[:2] if coupling else None
    on_trailer, _, on_coupling = solve(axles, loads, places, truck)
    answer = list(on_trailer + np.array([a[1] for a in axles]))
    if coupling:
        # What the truck feels is the coupling's load with its empty part, which the trailer's weight puts there.
        _, on_truck, carried = solve(axles, loads + [(coupling[0], coupling[2])], places, truck)
        answer += list(on_truck + np.array([a[1] for a in truck])) + [carried]
        assert abs(carried - on_coupling - coupling[2]) < 1e-3
    return answer


def bearing(number):
    rng = np.random.default_rng(8200 + number)
    n, x, patches = int(rng.integers(1, 5)), rng.uniform(-1.0, 1.0), []
    for _ in range(n):
        long = rng.uniform(0.05, 3.0)
        patches.append((x, x + long))
        x += rng.uniform(0.3, 2.5)
    if n == 1 and number % 3 == 0:
        patches.append(patches[0])      # two tracks side by side
    first, last = min(p[0] for p in patches), max(p[1] for p in patches)
    where = rng.uniform(0.08, 0.92)
    return patches, rng.uniform(1e4, 3e5), first + where * (last - first), rng.uniform(0.3, 1.1) * (last - first)


def bearing_answer(number):
    """The most on the window, and what each patch carries."""
    patches, weight, cg, span = bearing(number)
    places = np.concatenate([a + (b - a) * (np.arange(SLICES) + 0.5) / SLICES for a, b in patches])

    def push(u):
        return np.maximum(0.0, u[0] + u[1] * (places - cg)) / SLICES

    def off(u):
        return [push(u).sum() - 1.0, (push(u) * (places - cg)).sum()]

    best = root(off, [1.0 / len(patches), 0.0], tol=1e-13)
    for tilt in (-1.0, 1.0, -4.0, 4.0):
        if max(np.abs(off(best.x))) < 1e-9:
            break
        best = root(off, [1.0 / len(patches), tilt], tol=1e-13)
    assert max(np.abs(off(best.x))) < 1e-8, number
    loads = push(best.x) * weight
    order = np.argsort(places)
    sums = np.concatenate([[0.0], np.cumsum(loads[order])])
    ends = np.searchsorted(places[order], places[order] + span, side="right")
    most = (sums[ends] - sums[np.arange(len(places))]).max()
    return [most] + [loads[i * SLICES:(i + 1) * SLICES].sum() for i in range(len(patches))]


def number(value):
    return repr(float(value))


def axle_text(axles):
    return ", ".join("{ %s, %s, %s, %d }" % (number(x), number(own), "NAN" if share is None else number(share), group) for x, own, share, group in axles)


def record_outfit(k):
    kind, axles, loads, coupling, truck = outfit(k)
    answer = outfit_answer(k)
    n, m = len(axles), len(truck)
    print('  { "%s", { %s }, %d, { %s }, %d, { %s }, %d, %s,' % (
        kind, axle_text(axles), n, axle_text(truck) or "{ 0.0, 0.0, NAN, 0 }", m, ", ".join("{ %s, %s }" % (number(x), number(w)) for x, w in loads), len(loads),
        "TRUE, { %s, %s }, %s" % (number(coupling[0]), number(coupling[2]), number(coupling[1])) if coupling else "FALSE, { 0.0, 0.0 }, 0.0"))
    print("    /* answers %d */ { %s }, { %s }, %s }," % (
        k, ", ".join(map(number, answer[:n])), ", ".join(map(number, answer[n:n + m])) or "0.0", number(answer[-1]) if coupling else "0.0"))


def record_bearing(k):
    patches, weight, cg, span = bearing(k)
    answer = bearing_answer(k)
    print("  { { %s }, %d, %s, %s, %s," % (", ".join("{ %s, %s, -0.2, 0.2 }" % (number(a), number(b)) for a, b in patches), len(patches), number(weight),
                                         number(cg), number(span)))
    print("    /* answers %d */ %s, { %s } }," % (k, number(answer[0]), ", ".join(map(number, answer[1:]))))


def record():
    print("/* SPDX-License-Identifier: GPL-3.0-or-later */")
    print("/* Written by axle_oracle.py with NumPy and SciPy; do not edit. */")
    print("static const OutfitCase outfit_cases[] = {")
    for k in range(OUTFITS):
        record_outfit(k)
    print("};\n\nstatic const BearingCase bearing_cases[] = {")
    for k in range(BEARINGS):
        record_bearing(k)
    print("};")


def recorded(path):
    """The answers of every case, in the order in which they were written."""
    with open(path) as file:
        lines = re.findall(r"/\* answers \d+ \*/ (.*)", file.read())
    return [[float(v) for v in re.findall(r"-?\d[\d.e+-]*", line)] for line in lines]


def check(path, step):
    kept = recorded(path)
    bad = [] if len(kept) == OUTFITS + BEARINGS else ["cases missing"]
    for k in range(0, OUTFITS if not bad else 0, step):
        answer = outfit_answer(k)
        if outfit(k)[3] is None:
            answer = answer + [0.0, 0.0]
        if not np.allclose(answer, kept[k], rtol=1e-9, atol=1e-3):
            bad.append("outfit %d" % k)
    for k in range(0, BEARINGS if not bad else 0, step):
        if not np.allclose(bearing_answer(k), kept[OUTFITS + k], rtol=1e-7, atol=1e-2):
            bad.append("bearing %d" % k)
    report([line + ": computed otherwise than recorded" for line in bad], "every %d. outfit and bearing" % step)


if __name__ == "__main__":
    main("axle_oracle.py", record, check)
