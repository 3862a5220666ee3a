# SPDX-License-Identifier: GPL-3.0-or-later
"""What a whole tie-down is worth: the weakest of its parts, 393.108(a)."""

from . import gear
from .quantity import pounds


class Part:
    """One part of a tie-down: who it is and what it is worth, pounds."""

    def __init__(self, kind, name, value, in_use=True, why=""):
        self.kind = kind
        self.name = name
        self.value = value
        self.in_use = in_use
        self.why = why


class Strength:
    """value: pounds, None where it cannot be told (`unknown` says why)."""

    def __init__(self, parts):
        self.parts = parts
        self.out = [p for p in parts if not p.in_use]
        self.unknown = [p for p in parts if p.value is None]
        known = [p.value for p in parts if p.value is not None]
        self.least = least = min(known) if known else None
        self.value = least
        if self.unknown and not self.out:
            self.value = None
        self.weakest = [p for p in parts if p.value is not None
                        and least is not None and p.value <= least + 1e-6]


def of_run(scene, run):
    """The strength of a run, with all parts that join the minimum."""
    parts = [_worth_part(piece) for piece in run.pieces()]
    if run.line.kind == "chain" and parts[0].in_use:
        parts += _chain_parts(run.line)
    parts += _strap_ends(run.line)
    for record, sharers in hangs_on(scene, run):
        kind = "anchor" if any(record is a for a in run.anchors) else "point"
        value = pounds(record, "rated_wll")
        if value is not None:
            parts.append(Part(kind, record["id"], value / sharers))
    return Strength(parts)


def hangs_on(scene, run):
    """[(record, among how many its rating is divided)] of the anchors and
    the machine points of a run [A10]: an eye it only runs through is
    pulled by both its legs."""
    result = [(record, sum(1 for other in scene.runs for a in other.anchors
                           if a["id"] == record["id"]))
              for record in run.anchors]
    for record in run.points:
        own = legs_on(run, record)
        sharers = own if record.get("rating_is") == "each" else sum(
            legs_on(other, record) for other in scene.runs
            if other.load is run.load)
        result.append((record, sharers))
    return result


def legs_on(run, record):
    """How many legs of a run pull on a machine point."""
    return (2 if run.over else 1) if any(
        p["id"] == record["id"] for p in run.points) else 0


def _worth_part(piece):
    worth = gear.worth(piece)
    return Part(piece.kind, piece.name, worth.pounds, worth.in_use,
                worth.why)


def _chain_parts(line):
    """Hooks and accepted repair links of a chain."""
    parts = []
    for end in gear.ends(line.record):
        if end["unmarked"] or end["wll"] is not None:
            parts.append(Part("hook", line.name,
                              gear.hook_worth(line.record, end)))
    link = gear.chain_damage(line.record)[1]
    if link is not None:
        parts.append(Part("repair link", line.name, link))
    return parts


def _strap_ends(line):
    """Marked fittings at the ends of a strap."""
    if line.kind != "strap":
        return []
    return [Part("end", line.name, end["wll"])
            for end in gear.ends(line.record) if end["wll"] is not None]
