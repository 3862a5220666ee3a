# SPDX-License-Identifier: GPL-3.0-or-later
"""How certain a plan is: judged again with its loads heavier, or a little
off their places [A38], [A39]."""

import copy
import re

MARGIN_PCT = {"scale": 0.0, "plate": 5.0, "manual": 5.0}
TYPICAL_PCT = 10.0
LENGTHWISE_IN, SIDEWAYS_IN = 6.0, 2.0
KINDS = {True: "machines", False: "articles"}
BOOK = ("law", "rating", "practice")
AGAINST = BOOK + ("house",)


def margin_pct(load):
    """What the basis of its weight leaves open, percent."""
    basis = str((load.record.get("basis") or {}).get("weight") or "typical")
    word = basis.replace(",", " ").replace(":", " ").split()
    return MARGIN_PCT.get(word[0].lower() if word else "", TYPICAL_PCT)


def heavier(scene, percent=None):
    """The fleet with every load of the plan as heavy as it may be, or by
    so many percent."""
    fleet = dict(scene.fleet)
    for kind in ("machines", "articles"):
        fleet[kind] = copy.deepcopy(fleet.get(kind) or [])
    done = set()
    for load in scene.loads:
        kind = KINDS[load.is_machine]
        if (kind, load.id) in done:
            continue
        done.add((kind, load.id))
        record = next(r for r in fleet[kind] if r["id"] == load.id)
        for place in [record] + (record.get("positions") or []):
            for key in ("weight_lb", "weight_kg"):
                if place.get(key) is not None:
                    place[key] *= 1 + (margin_pct(load) if percent is None
                                       else percent) / 100
    return fleet


def moved(plan, load, lengthwise, sideways):
    """The plan with one load set down that much off its place, inches."""
    plan = dict(plan, loads=[dict(choice) for choice in plan["loads"]])
    choice = plan["loads"][load.index]
    for key, value in (("rear", load.rear + lengthwise),
                       ("left", load.left + sideways)):
        for unit in ("_in", "_ft", "_mm", "_m"):
            choice.pop(key + unit, None)
        choice[key + "_in"] = value
    return plan


def places(against_stop):
    """[(lengthwise, sideways, sure)] off its place; a load against a stop
    touches it.  The corners are in it or not, as one reads it [A39]."""
    aside = (SIDEWAYS_IN, -SIDEWAYS_IN)
    result = [(0.0, side, True) for side in aside]
    if not against_stop:
        along = (LENGTHWISE_IN, -LENGTHWISE_IN)
        result += [(x, 0.0, True) for x in along]
        result += [(x, side, False) for x in along for side in aside]
    return result


def key_of(finding):
    """A finding without its numbers."""
    return (finding.rule, finding.subject,
            re.sub("[-0-9.]+", "", finding.text))


def _failing(opinion, standings):
    """{key: sure} of what stands against a plan."""
    result = {}
    for finding in opinion.findings:
        if finding.standing in standings:
            key = key_of(finding)
            result[key] = result.get(key, False) or finding.sure
    return result


def flips(nominal, other, standings=AGAINST):
    """(sure, possible): [(rule, subject, words)] that fail only in `other`.

    Possible too: what is doubtful in either, and a rule that fails for
    one subject in both and for another only here.
    """
    before, after = _failing(nominal, standings), _failing(other, standings)
    rules = {key[0] for key in before}
    new = [key for key in after if not before.get(key)]
    return [key for key in new if after[key] and key[0] not in rules], new
