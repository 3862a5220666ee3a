# SPDX-License-Identifier: GPL-3.0-or-later
"""The most of the loads that any stretch of the deck carries [A42].

A rigid load on springs that only push, one of the same stiffness under
each contact, spread evenly along it; it settles by a + b x.  Pounds and
inches.
"""

from scipy.optimize import root

from .quantity import inches, pounds

LINE_IN = 1e-6              # length of a contact that nobody measured


class Unknown(Exception):
    """Center of gravity or contacts not known."""


def patches(load):
    """[(x0, x1)] of what it stands on; an article lies on its length."""
    contacts = load.record.get("contacts") or []
    if not contacts and not load.is_machine:
        return [(load.rear, load.front())]
    if not contacts or load.centre_of_gravity_x() is None:
        raise Unknown()
    result = []
    for x0, x1, _ in load.contact_spans():
        if x1 - x0 < LINE_IN:
            x0, x1 = (x0 + x1 - LINE_IN) / 2, (x0 + x1 + LINE_IN) / 2
        result.append((x0, x1))
    return result


def _pushed(patch, a, b):
    """(x0, x1) of the part of a patch that is pressed down."""
    x0, x1 = patch
    if abs(b) < 1e-15:
        return (x0, x1) if a > 0 else (x0, x0)
    edge = -a / b
    return (max(x0, min(edge, x1)), x1) if b > 0 \
        else (x0, min(x1, max(edge, x0)))


def _moments(patch, a, b):
    """Force of a patch and its moment about x = 0."""
    low, high = _pushed(patch, a, b)
    k = 1.0 / (patch[1] - patch[0])
    d1, d2, d3 = ((high ** n - low ** n) / n for n in (1, 2, 3))
    return k * (a * d1 + b * d2), k * (a * d2 + b * d3)


def lines(load):
    """[(x0, x1, p0, p1)]: pressure of a load, pounds an inch."""
    own = patches(load)
    middle = load.centre_of_gravity_x()
    first, last = min(p[0] for p in own), max(p[1] for p in own)
    if not first < middle < last:
        at = first if middle <= first else last
        return [(at - LINE_IN / 2, at + LINE_IN / 2,
                 load.weight / LINE_IN, load.weight / LINE_IN)]
    size = last - first
    scaled = [((x0 - middle) / size, (x1 - middle) / size)
              for x0, x1 in own]

    def out_of_balance(v):
        sums = [_moments(p, v[0], v[1]) for p in scaled]
        return [sum(f for f, _ in sums) - 1.0, sum(m for _, m in sums)]
    for guess in ((0.3, 0.0), (0.3, 1.0), (0.3, -1.0), (0.1, 2.0),
                  (0.1, -2.0)):
        answer = root(out_of_balance, guess, tol=1e-13)
        if max(map(abs, answer.fun)) < 1e-9:
            break
    else:
        raise Unknown()
    a, b = answer.x
    result = []
    for patch in scaled:
        low, high = _pushed(patch, a, b)
        k = load.weight / size / (patch[1] - patch[0])
        if high > low:
            result.append((middle + size * low, middle + size * high,
                           k * (a + b * low), k * (a + b * high)))
    return result


def between(bearing, start, end):
    """Pounds on the stretch from start to end."""
    total = 0.0
    for x0, x1, p0, p1 in bearing:
        low, high = max(x0, start), min(x1, end)
        if high > low:
            slope = (p1 - p0) / (x1 - x0)
            total += (high - low) * (p0 + slope * ((low + high) / 2 - x0))
    return total


def most_on(bearing, span):
    """The most on any stretch of that length: at an edge of a patch, or
    where what comes in equals what goes out (a line between edges)."""
    edges = sorted({x for line in bearing for x in line[:2]}
                   | {x - span for line in bearing for x in line[:2]})
    best = 0.0
    for here, there in zip(edges, edges[1:] + edges[-1:]):
        a, b, c = (between(bearing, x, x + span)
                   for x in (here, (here + there) / 2, there))
        best = max(best, a, b, c)
        bow = a - 2 * b + c                 # a parabola between edges
        if bow < 0:
            part = (3 * a - 4 * b + c) / (4 * bow)
            if 0 < part < 1:
                at = here + part * (there - here)
                best = max(best, between(bearing, at, at + span))
    return best


def worst(scene):
    """[(span, pounds, capacity)] of what the trailer's maker rates; None
    where a load's bearing is not known."""
    rated = scene.trailer.get("concentrated") or []
    try:
        bearing = [line for load in scene.loads for line in lines(load)]
    except Unknown:
        return None if rated else []
    return [(inches(entry, "span"), most_on(bearing, inches(entry, "span")),
             pounds(entry, "capacity")) for entry in rated]
