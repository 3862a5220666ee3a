# SPDX-License-Identifier: GPL-3.0-or-later
"""Balance of a body as linear programs, solved by HiGHS through scipy.

The cone of friction is a pyramid of SIDES sides: inside the true cone or,
`outside` true, round it, so that the true answer lies between the two.
"""

import math

import numpy
from scipy.optimize import linprog

from .body import reach

SIDES = 64
DIRECTIONS = {"forward": (1, 0, 0), "rearward": (-1, 0, 0),
              "left": (0, 1, 0), "right": (0, -1, 0), "up": (0, 0, 1)}


def _wrench(body, size, at, force):
    """Force and moment about the center of gravity, over the size."""
    x, y, z = [(a - c) / size for a, c in zip(at, body.centre)]
    a, b, c = force
    return numpy.array((a, b, c, y * c - z * b, z * a - x * c,
                        x * b - y * a))


def _deck_columns(body, size, outside):
    """One column for each edge of each contact's pyramid."""
    columns = []
    widen = 1.0 / math.cos(math.pi / SIDES) if outside else 1.0
    for at, (along, across) in body.contacts:
        if across == 0.0 and along == 0.0:
            columns.append(_wrench(body, size, at, (0.0, 0.0, 1.0)))
            continue
        for side in range(SIDES):
            angle = 2 * math.pi * side / SIDES
            columns.append(_wrench(body, size, at, (
                widen * along * math.cos(angle),
                widen * across * math.sin(angle), 1.0)))
    return columns


def _pull_columns(body, size):
    return [sum(_wrench(body, size, at, along) for at, along in pull.legs)
            for pull in body.pulls]


def upper_bound(body, direction, outside=False):
    """Greatest acceleration in g; None where it cannot even stand.
    Upward that beyond its own weight, gravity not counted."""
    size = reach(body)
    push = numpy.concatenate([DIRECTIONS[direction], (0, 0, 0)])
    columns = [push] + _pull_columns(body, size) \
        + _deck_columns(body, size, outside)
    n_pulls = len(body.pulls)
    rows, limits = [], []
    for limit, users in body.shared:
        row = numpy.zeros(len(columns))
        for index, legs in users:
            row[1 + index] += legs
        rows.append(row)
        limits.append(limit / body.weight)
    bounds = [(0, None)] + [(0, p.limit / body.weight) for p in body.pulls] \
        + [(0, None)] * (len(columns) - 1 - n_pulls)
    cost = numpy.zeros(len(columns))
    cost[0] = -1.0
    answer = linprog(cost, A_eq=numpy.array(columns, float).T,
                     b_eq=(0, 0, 1, 0, 0, 0), bounds=bounds,
                     A_ub=rows or None, b_ub=limits or None, method="highs")
    if answer.status != 0:
        return None
    return answer.x[0] - (1.0 if direction == "up" else 0.0)


def stands(body):
    """True if the deck alone holds it up, without friction."""
    size = reach(body)
    columns = [_wrench(body, size, at, (0.0, 0.0, 1.0))
               for at, _ in body.contacts]
    return _least_residual(columns, numpy.array((0, 0, 1.0, 0, 0, 0))) < 1e-7


def _least_residual(columns, wanted):
    """min over weights >= 0 of the greatest of |columns . w - wanted|."""
    matrix = numpy.array(columns, float).T.reshape(6, len(columns))
    ones = numpy.ones((6, 1))
    cost = numpy.zeros(len(columns) + 1)
    cost[-1] = 1.0
    answer = linprog(
        cost, A_ub=numpy.block([[matrix, -ones], [-matrix, -ones]]),
        b_ub=numpy.concatenate([wanted, -wanted]), method="highs",
        bounds=[(0, None)] * (len(columns) + 1))
    return answer.x[-1] if answer.status == 0 else math.inf


def unbalanced(body, direction, demand, tensions):
    """With these tensions (pounds, by pull; None: free, a stop), what is
    left of the six equations at best: a part of weight and size."""
    size = reach(body)
    pulls = _pull_columns(body, size)
    wanted = numpy.array((0, 0, 1.0, 0, 0, 0))
    wanted[:3] -= numpy.array(DIRECTIONS[direction]) * demand
    columns = _deck_columns(body, size, True)
    for tension, column in zip(tensions, pulls):
        if tension is None:
            columns.append(column)
        else:
            wanted = wanted - column * (tension / body.weight)
    return _least_residual(columns, wanted)
