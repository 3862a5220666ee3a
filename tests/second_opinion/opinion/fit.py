# SPDX-License-Identifier: GPL-3.0-or-later
"""Practice: does the gear fit, is it here, is it free, is the run clear."""

from . import bend, gear, tables
from .quantity import inches, reaches
from .scene import point


# What keeps a tie-down from holding at all, by the first words of the text.
NO_HOLD = ("hook", "pin", "jaw", "an end", "does not pull", "runs ", "no way")


def of_run(scene, run):
    """[(text, sure)] of all that does not fit in one tie-down."""
    plain = _lengths(run) + _hooks(run) + _on_hand(scene, run)
    return [(text, True) for text in plain] + _pulls_down(run) \
        + _clear(scene, run)


def _lengths(run):
    result = []
    length, needs = inches(run.line.record, "length"), run.needs()
    if length is not None and needs is not None \
            and not reaches(length, needs):
        result.append("%s %s is %.1f in of %.1f in needed"
                      % (run.line.kind, run.line.name, length, needs))
    if run.binder is not None:
        record = run.binder.record
        least = inches(record, "needs_run",
                       tables.BINDER_RUN_IN.get(record.get("kind")))
        if least is not None and not reaches(run.length(), least):
            result.append("run %.1f in, binder %s needs %.1f in"
                          % (run.length(), run.binder.name, least))
        if run.line.kind == "chain" and \
                not gear.binder_fits(record, run.line.record):
            result.append("binder %s is not made for %s"
                          % (run.binder.name, run.line.name))
    return result


def _pulls_down(run):
    """A direct run must pull down, a leg of an over run should [A14]."""
    if all(leg[2] < 0 for leg in run.legs()):
        return []
    return [("does not pull down", not run.over)]


def _hooks(run):
    """Both ends, either way round [A11]."""
    at_point = [p.record for p, at in run.connectors if at == "point"]
    at_anchor = [p.record for p, at in run.connectors if at == "anchor"]
    if run.over:
        places = [(record, at_anchor) for record in run.anchors]
    else:
        places = [(run.points[0], at_point), (run.anchors[0], at_anchor)]
    two = gear.ends(run.line.record)
    tries = []
    for order in (two, two[::-1]):
        tries.append([text for end, (record, connectors)
                      in zip(order, places)
                      for text in [gear.hook_fits(
                          end, inches(record, "opening"),
                          inches(record, "bar"), connectors)] if text])
    return min(tries, key=len)


def _clear(scene, run):
    """[(text, sure)]: boxes in the way and the tilt hinge."""
    result = []
    for name, low, high, own_body in [
            (*box, run.over) for box in run.load.boxes("solids")] + [
                (*box, False) for box in run.load.boxes("keep_clear")
                + _trailer_boxes(scene)]:
        state = bend.passes(run.path, (low, high))
        if state:
            result.append(("runs through " + name,
                           state == 2 and not own_body))
    if run.lies == "blocked":
        result.append(("no way over a single edge of the deck", False))
    hinge = inches(scene.trailer, "hinge_x")
    if hinge is not None:
        xs = [p[0] for p in run.path]
        deep = min(hinge - min(xs), max(xs) - hinge)
        if deep > 0:
            result.append(("runs across the tilt hinge",
                           deep > 3 * bend.GRAZE_IN))
    return result


def _trailer_boxes(scene):
    """[(name, low, high)] of the trailer's solids."""
    result = []
    for box in scene.trailer.get("solids") or []:
        a, b = point(box["min"]), point(box["max"])
        result.append((box.get("name", "box"), tuple(map(min, a, b)),
                       tuple(map(max, a, b))))
    return result


def _on_hand(scene, run):
    """Gear kept at trailer, its yard, the origin or the gear yard."""
    places = {scene.trailer["id"], scene.trailer.get("yard"),
              scene.move.get("from"), scene.move.get("gear_yard")} - {None}
    return ["%s is not on hand (kept at %s)" % (p.name,
                                                p.record.get("kept_at"))
            for p in run.pieces() if p.record.get("kept_at") not in places]


def double_use(scene, finding):
    """A piece, a machine point or an anchor used more often than it may."""
    uses = {}
    for run in scene.runs:
        for piece in run.pieces():
            uses.setdefault(("gear " + piece.name, 1), []).append(run.no)
        for record in run.points if not run.over else []:
            uses.setdefault(("point %s of load %d" % (
                record["id"], run.load.index), record.get("takes", 1)),
                []).append(run.no)
        for record in run.anchors:
            uses.setdefault(("anchor " + record["id"],
                             record.get("takes", 1)), []).append(run.no)
    return [finding("double_use", "practice", "short", what,
                    "used by tie-downs %s" % nos)
            for (what, takes), nos in uses.items() if len(nos) > takes]
