#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes oracle.inc: random cases of statics with answers by SciPy and NumPy, which share nothing with the C code.

  segments   least distance of two segments: the bounded least squares problem in their two parameters
             (scipy.optimize.lsq_linear, BVLS)
  boxes      does a segment meet a box: feasibility of a linear program in its parameter (scipy.optimize.linprog, HiGHS)
  edges      the shortest way over a side of a deck: convex minimization of the length over the places of the bends along
             the edges (scipy.optimize.minimize, L-BFGS-B within the ends of the edge)
  beams      reactions of every axle and the coupling from one linear system: force balance, moment balance, one row for each
             fixed share (numpy.linalg.solve)

The table is recorded, so that the tests need no Python. To make it anew: make-oracle.py > oracle.inc
"""
import numpy as np
from scipy.optimize import linprog, lsq_linear, minimize

rng = np.random.default_rng(20240917)


def number(value):
    return repr(float(value))


def vec(v):
    return "{ " + ", ".join(number(c) for c in v) + " }"


def segment_case(a0, a1, b0, b1):
    u, v = a1 - a0, b1 - b0
    answer = lsq_linear(np.column_stack([u, -v]), b0 - a0, bounds=(0, 1), method="bvls", tol=1e-15)
    s, t = answer.x
    return np.linalg.norm(a0 + s * u - b0 - t * v)


def segments():
    print("static const SegmentCase segment_cases[] = {")
    for i in range(60):
        a0, a1, b0, b1 = rng.uniform(-3, 3, (4, 3))
        if i % 6 == 4:  # nearly parallel: two chains side by side
            b0, b1 = a0 + rng.uniform(-0.1, 0.1, 3), a1 + rng.uniform(-0.1, 0.1, 3)
        if i % 6 == 5:  # they cross, or nearly
            middle = a0 + rng.uniform(0.2, 0.8) * (a1 - a0)
            b1 = middle + (middle - b0) * rng.uniform(0.1, 1.0) + rng.uniform(-0.02, 0.02, 3)
        row = ", ".join(vec(v) for v in (a0, a1, b0, b1))
        print(f"  {{ {row}, {number(segment_case(a0, a1, b0, b1))} }},")
    print("};\n")


def meets(a, b, low, high):
    way = b - a
    rows = np.concatenate([way, -way]).reshape(-1, 1)
    limits = np.concatenate([high - a, a - low])
    return linprog([0.0], A_ub=rows, b_ub=limits, bounds=[(0, 1)], method="highs").status == 0


def boxes():
    """Cases whose answer changes within a millimetre are left out: the solver's own tolerance would decide them."""
    print("static const BoxCase box_cases[] = {")
    left = 80
    while left:
        a, b = rng.uniform(-2, 2, (2, 3))
        corners = rng.uniform(-1.5, 1.5, (2, 3))
        low, high = corners.min(axis=0), corners.max(axis=0)
        if not np.all(high - low > 0.01) or meets(a, b, low - 1e-3, high + 1e-3) != meets(a, b, low + 1e-3, high - 1e-3):
            continue
        answer = "TRUE" if meets(a, b, low, high) else "FALSE"
        print(f"  {{ {vec(a)}, {vec(b)}, {{ {vec(low)}, {vec(high)} }}, {answer} }},")
        left -= 1
    print("};\n")


def over_left(point, anchor, low, high, twice):
    """Length of the shortest way over the left side, bends held within the ends of its edges."""
    heights = [high[2], low[2]] if twice else [high[2]]

    def length(xs):
        places = [point] + [np.array([x, high[1], z]) for x, z in zip(xs, heights)] + [anchor]
        return sum(np.linalg.norm(q - p) for p, q in zip(places, places[1:]))

    start = np.full(len(heights), np.clip((point[0] + anchor[0]) / 2, low[0], high[0]))
    answer = minimize(length, start, bounds=[(low[0], high[0])] * len(heights), method="L-BFGS-B",
                      options={"ftol": 1e-16, "gtol": 1e-12, "maxiter": 1000})
    return answer.fun


def edges():
    """Points on the machine above the deck, anchors on the left side or under its left edge: left is the shortest way round."""
    print("static const EdgeCase edge_cases[] = {")
    for i in range(40):
        low, high = np.array([0.0, -1.3, -0.2]), np.array([7.0, 1.3, 0.0])
        twice = i % 2 == 1
        point = np.array([rng.uniform(1.0, 6.0), rng.uniform(0.3, 0.9), rng.uniform(0.3, 0.9)])
        x = np.clip(point[0] + rng.uniform(-1.0, 1.0), 0.0, 7.0)
        anchor = np.array([x, rng.uniform(1.1, 1.25), rng.uniform(-0.5, -0.3)]) if twice else \
            np.array([x, 1.3, rng.uniform(-0.19, -0.1)])
        length = over_left(point, anchor, low, high, twice)
        print(f"  {{ {vec(point)}, {vec(anchor)}, {{ {vec(low)}, {vec(high)} }}, {2 if twice else 1}, {number(length)} }},")
    print("};\n")


def beam_answer(loads, coupling, axles):
    """Unknowns: each axle, and the coupling if there is one. `axles`: (x, own, share or None, group)."""
    n = len(axles) + (coupling is not None)
    xs = [axle[0] for axle in axles] + ([coupling[0]] if coupling is not None else [])
    rows, right = [np.ones(n), np.array(xs)], [sum(f for _, f in loads), sum(x * f for x, f in loads)]
    for group in sorted({axle[3] for axle in axles}):
        members = [i for i, axle in enumerate(axles) if axle[3] == group]
        for i in members[1:]:  # R_i / share_i = R_first / share_first
            row = np.zeros(n)
            row[i] = 1.0 if axles[i][2] is None else 1.0 / axles[i][2]
            row[members[0]] = -1.0 if axles[i][2] is None else -1.0 / axles[members[0]][2]
            rows.append(row)
            right.append(0.0)
    answer = np.linalg.solve(np.array(rows), np.array(right))
    own = [axle[1] for axle in axles] + ([coupling[1]] if coupling is not None else [])
    return answer + np.array(own)


def beams():
    print("static const BeamCase beam_cases[] = {")
    for i in range(40):
        loads = [(rng.uniform(0, 12), rng.uniform(1e4, 2e5)) for _ in range(rng.integers(1, 4))]
        coupling = (rng.uniform(8, 13), rng.uniform(0, 2e4)) if i % 2 == 0 else None
        axles, x = [], rng.uniform(0, 2)
        for group in range(1, 2 if coupling is not None else 3):
            uneven = rng.random() < 0.5
            for _ in range(rng.integers(1, 4)):
                axles.append((x, rng.uniform(0, 4e4), rng.uniform(0.2, 1.0) if uneven else None, group))
                x += rng.uniform(1.0, 1.5)
            x += rng.uniform(2, 4)
        answer = beam_answer(loads, coupling, axles)
        axle_text = ", ".join(f"{{ {number(a[0])}, {number(a[1])}, {'NAN' if a[2] is None else number(a[2])}, {a[3]} }}"
                              for a in axles)
        load_text = ", ".join(f"{{ {number(a)}, {number(f)} }}" for a, f in loads)
        coupling_text = f"{{ {number(coupling[0])}, {number(coupling[1])} }}" if coupling is not None else "{ 0.0, 0.0 }"
        print(f"  {{ {{ {load_text} }}, {len(loads)}, {'TRUE' if coupling is not None else 'FALSE'}, {coupling_text},\n"
              f"    {{ {axle_text} }}, {len(axles)},\n"
              f"    {{ {', '.join(number(r) for r in answer[:len(axles)])} }}, "
              f"{number(answer[-1]) if coupling is not None else '0.0'} }},")
    print("};")


print("/* SPDX-License-Identifier: GPL-3.0-or-later */")
print("/* Written by make-oracle.py with SciPy and NumPy; do not edit. */")
segments()
boxes()
edges()
beams()
