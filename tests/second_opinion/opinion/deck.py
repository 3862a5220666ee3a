# SPDX-License-Identifier: GPL-3.0-or-later
"""How much of the loads any short length of deck has to carry [A29].

Each contact is cut into slices on springs of their own, all contacts alike
in sum; the load is a rigid bar on them that they can push and not pull.
"""

from .quantity import inches, pounds

SLICES = 80
SLACK = 0.02        # of the rating: what the slices leave open


def slices(load):
    """[x] in inches of the springs, None where nobody knows where it
    touches the deck."""
    spans = [span[:2] for span in load.contact_spans()]
    if not spans and not load.is_machine:
        spans = [(load.rear, load.front())]
    return [x0 + (x1 - x0) * (i + 0.5) / SLICES for x0, x1 in spans
            for i in range(SLICES)] or None


def _line(springs, weight, centre):
    """(level, tilt) with which these springs carry the weight there."""
    count = float(len(springs))
    first = sum(x - centre for x in springs)
    second = sum((x - centre) ** 2 for x in springs)
    whole = count * second - first * first
    if whole < 1e-6 * count * count:
        return None
    return weight * second / whole, -weight * first / whole


def pressed(springs, weight, centre):
    """[(x, pounds)] of the springs that push."""
    springs = sorted(springs)
    if not springs[0] < centre < springs[-1]:
        edge = springs[0] if centre <= springs[0] else springs[-1]
        return [(edge, weight)]
    pushing = springs
    for _ in range(len(springs)):
        line = _line(pushing, weight, centre)
        if line is None:
            return [(centre, weight)]
        level, tilt = line
        still = [x for x in springs if level + tilt * (x - centre) >= 0]
        if still == pushing:
            break
        pushing = still
    return [(x, level + tilt * (x - centre)) for x in pushing]


def most(parts, span):
    """Most pounds on any stretch of the span."""
    parts = sorted(parts)
    best = now = 0.0
    last = 0
    for x0, pounds_there in parts:
        while last < len(parts) and parts[last][0] <= x0 + span + 1e-6:
            now += parts[last][1]
            last += 1
        best = max(best, now)
        now -= pounds_there
    return best


def findings(scene, finding):
    """More than rated on the span of a rating."""
    parts = []
    for load in scene.loads:
        springs, centre = slices(load), load.centre_of_gravity_x()
        if springs is None or centre is None:
            return []                       # unknown, advice
        parts += pressed(springs, load.weight, centre)
    result = []
    for rating in scene.trailer.get("concentrated") or []:
        span, may = inches(rating, "span"), pounds(rating, "capacity")
        if span is None or may is None:
            continue
        have = most(parts, span)
        if have > may * (1 - SLACK):
            result.append(finding("concentrated", "rating", "short", "deck",
                                  "%.0f lb on %.0f in, rated %.0f"
                                  % (have, span, may),
                                  have > may * (1 + SLACK)))
    return result
