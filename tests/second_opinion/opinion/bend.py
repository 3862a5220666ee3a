# SPDX-License-Identifier: GPL-3.0-or-later
"""Where a direct tie-down bends over the edge of the deck, and what a run
passes through [A25].  Inches in the trailer frame."""

import math

from .quantity import inches

LEAVES_IN = 6.0             # of each end, not looked at
GRAZE_IN = 0.04             # a millimetre: touches, does not pass through
FAR_BELOW = -1e4            # the underside nobody measured


def decks(trailer):
    """[(low, high)] of what is solid under the main deck and each zone."""
    deck = trailer["deck"]
    half = inches(deck, "width") / 2
    spans = [(inches(z, "x0"), inches(z, "x1"), inches(z, "z", 0.0))
             for z in deck.get("zones") or [] if not z.get("slope_deg")]
    main = (0.0, inches(deck, "length"), 0.0)
    if not any(z == 0.0 and x0 <= main[0] and x1 >= main[1]
               for x0, x1, z in spans):
        spans = _main_parts(main, spans) + spans
    return [((x0, -half, FAR_BELOW), (x1, half, z)) for x0, x1, z in spans]


def _main_parts(main, zones):
    """The main deck's length where no zone lies."""
    parts, at = [], main[0]
    for x0, x1, _ in sorted(zones):
        if x1 <= at or x0 >= main[1]:
            continue
        if x0 > at:
            parts.append((at, x0, 0.0))
        at = max(at, x1)
    if at < main[1]:
        parts.append((at, main[1], 0.0))
    return parts


def trimmed(path, leaves=LEAVES_IN):
    """The path without its first and last inches, [] where none is left."""
    def cut(points):
        left = leaves
        for index in range(len(points) - 1):
            a, b = points[index], points[index + 1]
            length = math.dist(a, b)
            if length > left:
                part = left / length
                return [tuple(p + part * (q - p) for p, q in zip(a, b))] \
                    + points[index + 1:]
            left -= length
        return []
    path = cut(list(path))
    return cut(path[::-1])[::-1] if len(path) > 1 else []


def inside(start, end, low, high):
    """Part (0 to 1) of a segment inside a box, by clipping at its slabs."""
    first, last = 0.0, 1.0
    for s, e, a, b in zip(start, end, low, high):
        a, b = min(a, b), max(a, b)
        if abs(e - s) < 1e-12:
            if s <= a or s >= b:
                return 0.0
            continue
        t0, t1 = sorted(((a - s) / (e - s), (b - s) / (e - s)))
        first, last = max(first, t0), min(last, t1)
    return max(0.0, last - first)


def shrunk(box, by):
    """The box with its faces moved in, no further than to its middle."""
    low, high = [], []
    for a, b in zip(*box):
        step = min(by, (b - a) / 2 - 1e-9)
        low.append(a + step)
        high.append(b - step)
    return tuple(low), tuple(high)


def passes(path, box):
    """0 clear, 1 doubtful (grazes), 2 through, of the trimmed path."""
    rest = trimmed(path)

    def through(by):
        return any(inside(a, b, *shrunk(box, by)) > 0
                   for a, b in zip(rest, rest[1:]))
    if through(3 * GRAZE_IN):
        return 2
    return 1 if through(0.0) else 0


def over_edge(start, end, boxes):
    """(path, state): the shortest way over one upper edge of a deck in the
    way; state "straight", "grazes" (within a hair), "bends", or "blocked"
    where there is none."""
    states = [passes([start, end], box) for box in boxes]
    hit = [box for box, state in zip(boxes, states) if state == 2]
    if not hit:
        return [start, end], "grazes" if 1 in states else "straight"
    ways = []
    for low, high in hit:
        for axis, face in ((1, high[1]), (1, low[1]), (0, high[0]),
                           (0, low[0])):
            bend = _best_on_edge(start, end, axis, face, low, high)
            path = [start, bend, end]
            if all(passes(path, box) < 2 for box in hit):
                ways.append((math.dist(start, bend) + math.dist(bend, end),
                             path))
    if not ways:
        return [start, end], "blocked"
    return min(ways)[1], "bends"


def _best_on_edge(start, end, axis, face, low, high):
    """The point of an upper edge with the least way, by interval search
    (the length is convex along a straight edge)."""
    free = 1 - axis

    def at(value):
        place = [0.0, 0.0, high[2]]
        place[axis], place[free] = face, value
        return tuple(place)

    def length(value):
        return math.dist(start, at(value)) + math.dist(at(value), end)
    a, b = low[free], high[free]
    for _ in range(200):
        third = (b - a) / 3
        if length(a + third) <= length(b - third):
            b -= third
        else:
            a += third
    return at((a + b) / 2)
