# SPDX-License-Identifier: GPL-3.0-or-later
"""Whether the loads can stand where the plan puts them [A16], [A26]."""

from . import bend
from .quantity import inches, pounds

GRAZE = bend.GRAZE_IN


def blocked(scene, load):
    """True where the plan says blocked forward and the load stands within
    half a foot of a front stop or of a zone that blocks."""
    return bool(load.choice.get("blocked_forward")
                and _stops_at(scene, load))


def _stops_at(scene, load):
    """[rating or None] of all it stands against in front."""
    deck = scene.trailer["deck"]
    stops = [(inches(zone, "x0"), pounds(zone, "block_rated"))
             for zone in deck.get("zones") or []
             if zone.get("blocks_forward")]
    if deck.get("front_stop"):
        stops.append((inches(deck["front_stop"], "x"),
                      pounds(deck["front_stop"], "rated")))
    return [rated for x, rated in stops
            if abs(x - load.front()) <= bend.LEAVES_IN + 1e-6]


def stop_ratings(scene, load):
    """What a blocked load leans on in front is rated for, pounds: the least
    that is known, and the front stop's own where there are both [A34]."""
    known = [r for r in _stops_at(scene, load) if r is not None]
    return [min(known), known[-1]] if known else [0.0]


def findings(scene, finding):
    """All that stands against the places of the loads."""
    result = [finding("move", "practice", "short", name, "not as the move "
                      "asks") for name in _not_as_asked(scene)]
    for load in scene.loads:
        result += _on_deck(scene, load, finding)
        result += _against_raised_deck(scene, load, finding)
        result += _between_fenders(scene, load, finding)
        for other in scene.loads[:load.index]:
            if _overlap(load, other):
                result.append(finding("place", "practice", "short", load.id,
                                      "stands where %s stands" % other.id))
    return result


def _not_as_asked(scene):
    """Loads of the move not on the plan, or the other way round."""
    move = scene.move
    asked = [move["machine"]] if move.get("machine") else [
        entry.get("machine") or entry.get("article")
        for entry in move.get("loads") or []]
    return set(asked) ^ {load.id for load in scene.loads}


def _on_deck(scene, load, finding):
    """Contacts, or where none are known the whole load, on what carries."""
    deck = scene.trailer["deck"]
    zones = [(inches(z, "x0"), inches(z, "x1"), z.get("carries", True))
             for z in deck.get("zones") or []]
    good = [(0.0, inches(deck, "length"))] + [z[:2] for z in zones if z[2]]
    bad = [z[:2] for z in zones if not z[2]]
    spans = load.contact_spans()
    if not spans:
        if covered(load.rear, load.front(), good) \
                and not touches(load.rear, load.front(), bad):
            return []
        return [finding("place", "rating", "unknown" if load.is_machine
                        else "short", load.id,
                        "reaches beyond what carries")]
    return [finding("place", "rating", "short", load.id,
                    "contact at %.1f to %.1f in stands on nothing that "
                    "carries" % (x0, x1))
            for x0, x1, y in spans
            if not covered(x0, x1, good) or touches(x0, x1, bad)
            or abs(y) > inches(deck, "width") / 2]


def covered(x0, x1, spans):
    """True if [x0, x1] lies within the union of the spans."""
    at = x0
    for low, high in sorted(spans):
        if low <= at + GRAZE and high > at:
            at = high
    return at >= x1 - GRAZE


def touches(x0, x1, spans):
    """True if [x0, x1] reaches into one of the spans."""
    return any(x0 < high - GRAZE and x1 > low + GRAZE for low, high in spans)


def _against_raised_deck(scene, load, finding):
    """A body of the load in the steel of a neck or a raised deck."""
    return [finding("place", "practice", "short", load.id,
                    "%s goes through the deck" % name)
            for name, low, high in load.boxes("solids")
            for other in bend.decks(scene.trailer)
            if _boxes_meet((low, high), other)]


def _boxes_meet(one, other):
    return all(a + GRAZE < d and b - GRAZE > c
               for a, b, c, d in zip(*one, *other))


def _between_fenders(scene, load, finding):
    """Wide on the ground, against a clear width between fenders."""
    have = inches(scene.trailer, "clear_width")
    contacts = load.record.get("contacts") or []
    need = max([2 * abs(inches(c, "y")) + inches(c, "width", 0.0)
                for c in contacts], default=inches(load.record, "width"))
    if have is None or have >= need * (1 - 1e-9):
        return []
    sure = all(inches(c, "width") is not None for c in contacts)
    return [finding("place", "practice", "short", load.id, "%.1f in wide "
                    "between fenders %.1f in apart" % (need, have), sure)]


def _overlap(one, other):
    """Two loads in one place, seen from above."""
    def side(load):
        half = inches(load.record, "width") / 2
        return load.left - half, load.left + half
    low, high = side(one)
    first, last = side(other)
    return one.rear + GRAZE < other.front() \
        and one.front() - GRAZE > other.rear \
        and low + GRAZE < last and high - GRAZE > first
