# SPDX-License-Identifier: GPL-3.0-or-later
"""The fleet's own stricter policy [A28], [A41]: one function a rule.

Each takes the opinion and the rule's record and adds findings of standing
house, under the rule's own name.
"""

from . import certain, gear, place, strength, tables
from .quantity import fraction, inches, pounds, reaches
from .scene import point

HEIGHT_WARN_IN = 162.0      # the limit where a move names none (project's)
HEAVY_ASKS = ("directions", "implements", "articulation")


def judge(opinion):
    """All house rules of the fleet."""
    for rule in opinion.fleet.get("house_rules") or []:
        check = CHECKS.get(rule.get("rule"))
        if check is not None:
            check(opinion, rule)


def _short(opinion, rule, subject, text, sure=True, verdict="short"):
    opinion.add(rule["rule"], "house", verdict, subject, text, sure)


def _name(run):
    return "tie-down %s" % run.no


def _own(run):
    return run.purpose == "machine"


# A tie-down

def _min_wll_each(opinion, rule):
    for run in opinion.scene.runs:
        value = _worth(opinion, run)
        if _own(run) and (value is None
                          or not reaches(value, pounds(rule, "wll"))):
            _short(opinion, rule, _name(run), "%s lb" % value)


def _min_chain(opinion, rule):
    """No smaller, no lower grade, no less worth by the table."""
    least = _size(rule)
    for run in opinion.scene.runs:
        if run.line.kind != "chain" or not _own(run):
            continue
        record = run.line.record
        size, grade = gear.chain_size(record), gear.grade(record)
        asked = float(rule.get("grade") or 0)
        table = [tables.CHAIN_LB.get(s, {}).get(int(g or 0))
                 for s, g in ((least, asked), (size, grade))]
        if size is None or grade is None or grade < asked \
                or not reaches(fraction(size), fraction(least)) \
                or (None not in table and table[1] < table[0]):
            _short(opinion, rule, _name(run), run.line.name)


def _size(rule):
    return gear.chain_size(rule) or "0"


def _no_straps(opinion, rule):
    for run in opinion.scene.runs:
        if run.line.kind == "strap" and run.load.is_machine:
            _short(opinion, rule, _name(run), "a strap")


def _ratchet_only(opinion, rule):
    for run in opinion.scene.runs:
        kind = "ratchet" if run.binder is None \
            else run.binder.record.get("kind")
        if kind != "ratchet":
            _short(opinion, rule, _name(run), "binder %s" % kind,
                   verdict="unknown" if kind is None else "short")


def _allowance(opinion, rule):
    """As long as the run takes with the allowance; straps are met."""
    for run in opinion.scene.runs:
        length = inches(run.line.record, "length")
        if run.line.kind == "chain" and not reaches(length, run.needs(
                opinion.scene.allowance())):
            _short(opinion, rule, _name(run), "%.1f in" % length)


def _inboard(opinion, rule):
    """No rub rail, nothing at or beyond the deck's edge."""
    half = inches(opinion.scene.trailer["deck"], "width") / 2
    for run in opinion.scene.runs:
        outside = any(a.get("fitting") == "rub_rail"
                      or abs(point(a)[1]) >= half - 1e-9
                      for a in run.anchors)
        bends = run.lies == "bends" and abs(run.path[1][1]) >= half - 1e-6
        if outside or bends:
            _short(opinion, rule, _name(run), "not inboard")
        elif run.lies == "grazes":
            _short(opinion, rule, _name(run), "may not be inboard", False)


def _band(opinion, rule):
    low, high = float(rule["lo_deg"]), float(rule["hi_deg"])
    for run in opinion.scene.runs:
        if any(not reaches(deck, low) or not reaches(high, deck)
               for deck, _ in run.angles()):
            _short(opinion, rule, _name(run), "outside the band")


# A load

def _extra(opinion, rule):
    """So many percent of the half on top."""
    for load in opinion.scene.loads:
        _sum(opinion, rule, load, load.weight * tables.AGGREGATE_PART
             * (1 + float(rule["pct"]) / 100))


def _stand_in(opinion, rule):
    """The sum with a value for what nobody rated."""
    for load in opinion.scene.loads:
        _sum(opinion, rule, load, load.weight * tables.AGGREGATE_PART)


def _sum(opinion, rule, load, need):
    """The shares with stand-ins reach so many pounds; what the house's
    other rules add to them is in it or not, as one reads it."""
    worths = [(run, _worth(opinion, run))
              for run in opinion.scene.runs_for(load)]
    have = sum(run.share() * w for run, w in worths if w is not None)
    most = need
    for other in opinion.fleet["house_rules"]:
        if other is not rule and other["rule"] in ("extra_aggregate_pct",
                                                   "weight_margin_pct"):
            most *= 1 + float(other["pct"]) / 100
    if not reaches(have, most):
        unknown = any(w is None for _, w in worths)
        _short(opinion, rule, load.id, "%.1f lb of %.1f lb" % (have, need),
               not reaches(have, need), "unknown" if unknown else "short")


def _worth(opinion, run):
    """What a run is worth with stand-ins, None where not known."""
    worth = opinion.wll(run)
    return None if worth is None else min([worth] + _stand_ins(opinion, run))


def _stand_ins(opinion, run):
    """What the house's values leave this run, pounds, as [A10]."""
    values = {r.get("fitting"): pounds(r, "wll")
              for r in opinion.house_rule("stand_in_rating")}
    result = []
    for record, sharers in strength.hangs_on(opinion.scene, run):
        value = values.get(record.get("fitting"))
        if pounds(record, "rated_wll") is None and value is not None:
            result.append(value / sharers)
    return result


def _four(opinion, rule):
    """Of a lighter machine what is asked of a heavy one."""
    for load in opinion.scene.loads:
        if not load.is_machine or load.heavy():
            continue
        have = opinion.in_use(load)
        if have < tables.HEAVY_COUNT:
            _short(opinion, rule, load.id, "%d tie-downs of 4" % have)
        for finding in opinion.as_heavy(load):
            if finding.standing in ("law", "practice"):
                _short(opinion, rule, load.id, str(finding), finding.sure,
                       finding.verdict)


def _length_count(opinion, rule):
    for load in opinion.scene.loads:
        if load.is_machine:
            need = tables.count_by_length(
                load.length, load.weight, place.blocked(opinion.scene, load))
            have = opinion.in_use(load)
            if have < need:
                _short(opinion, rule, load.id, "%d of %d by its length"
                       % (have, need), load.heavy())


def _margin(opinion, rule):
    """All that hangs on weight, with all loads so many percent heavier."""
    rules = [r for r in opinion.fleet["house_rules"]
             if r["rule"] == "extra_aggregate_pct"]
    other = opinion.again(dict(certain.heavier(
        opinion.scene, float(rule["pct"])), house_rules=rules), opinion.plan)
    sure, _ = certain.flips(opinion, other, certain.BOOK)
    for finding in other.findings:
        key = certain.key_of(finding)
        _short(opinion, rule, finding.subject, str(finding), key in sure)


def _height_margin(opinion, rule):
    limit = inches(opinion.scene.move, "height_limit", HEIGHT_WARN_IN)
    height = opinion.sizes["height"] + inches(rule, "length")
    if not reaches(limit, height):
        _short(opinion, rule, "loaded height", "%.1f in of %.1f in"
               % (height, limit))


def _blade_rear(opinion, rule):
    """An implement wider than that travels at the trailer's rear."""
    for load in opinion.scene.loads:
        for implement in load.record.get("implements") or []:
            least, most = _implement_width(load, implement)
            if reaches(inches(rule, "over"), most) \
                    or _at_rear(opinion, load, implement):
                continue
            wide = least > inches(rule, "over") * (1 + 1e-9)
            _short(opinion, rule, "%s %s" % (load.id, implement["id"]),
                   "%.1f to %.1f in wide, not at the rear" % (least, most),
                   verdict="short" if wide else "unknown")


def _holds(load, implement):
    """Points and paths that hold it, in the machine's frame."""
    return [point(load.points[name])
            for name in implement.get("tie_points") or []
            if name in load.points] + [
                point(p) for path in implement.get("over_paths") or []
                for p in path["points"]]


def _implement_width(load, implement):
    """(least, most) inches: as entered, or between its points' and its
    machine's."""
    width = inches(implement, "width")
    if width is not None:
        return width, width
    ys = [p[1] for p in _holds(load, implement)] or [0.0]
    return max(ys) - min(ys), inches(load.record, "width")


def _at_rear(opinion, load, implement):
    """Behind the middle of its machine, and nothing stands behind that."""
    xs = [load.place(p)[0] for p in _holds(load, implement)]
    middle = (load.rear + load.front()) / 2
    behind = any(other.rear < load.rear for other in opinion.scene.loads
                 if other is not load)
    return bool(xs) and sum(xs) / len(xs) < middle and not behind


CHECKS = {
    "min_wll_each": _min_wll_each, "min_chain": _min_chain,
    "no_straps_on_machines": _no_straps, "ratchet_only": _ratchet_only,
    "chain_allowance": _allowance, "inboard_of_rub_rail": _inboard,
    "deck_angle_band": _band, "extra_aggregate_pct": _extra,
    "stand_in_rating": _stand_in, "four_below_threshold": _four,
    "length_count_too": _length_count, "weight_margin_pct": _margin,
    "height_margin": _height_margin, "over_wide_blade_rear": _blade_rear,
}
