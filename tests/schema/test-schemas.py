# SPDX-License-Identifier: GPL-3.0-or-later
"""The published schemas against good and bad documents.

The judge is python3-jsonschema, an independent implementation of JSON Schema
Draft 2020-12 (https://json-schema.org/draft/2020-12). Good documents: the two
examples and the demo fleet. Bad ones: an example with one thing wrong, which
must be found at its own place and nowhere else.
"""

import copy
import json
import pathlib
import sys

import jsonschema

from tap import Tap

ROOT = pathlib.Path(sys.argv[1])
MISSING = object()


def read(*parts):
    """A JSON document of the source tree."""
    with open(ROOT.joinpath(*parts), encoding="utf-8") as file:
        return json.load(file)


def changed(document, path, value):
    """A copy with one member set, added (a path one past the end of a list appends) or, with MISSING, taken out."""
    result = copy.deepcopy(document)
    place = result
    for key in path[:-1]:
        place = place[key]
    last = path[-1]
    if value is MISSING:
        del place[last]
    elif isinstance(place, list) and last == len(place):
        place.append(value)
    else:
        place[last] = value
    return result


def complaints(validator, document):
    """[(path, message)] of all that is wrong."""
    return [(list(error.absolute_path), error.message) for error in validator.iter_errors(document)]


CHAIN = {"id": "C-9", "kept_at": "NORTH", "size_in": "3/8", "mark": "70", "length_ft": 16}
ROLLER = ["machines", 0]
TAG = ["trailers", 0]
SEEN = ["chains", 0, "inspections", 0, "findings"]

# What is wrong, the change, and where it is to be found.
BAD_FLEETS = [
    ("no format", ["format"], MISSING, []),
    ("another format", ["format"], "fairlead-fleet/2", ["format"]),
    ("no name", ["name"], MISSING, []),
    ("unknown units", ["units"], "imperial", ["units"]),
    ("a list that is an object", ["machines"], {}, ["machines"]),
    ("a record that is text", ["yards", 0], "NORTH", ["yards", 0]),
    ("an empty id", ["yards", 0, "id"], "", ["yards", 0, "id"]),
    ("# in an id", ["chains", 0, "id"], "C #1", ["chains", 0, "id"]),
    ("an unknown role", ["people", 0, "roles", 0], "king", ["people", 0, "roles", 0]),
    ("no weight", ROLLER + ["weight_lb"], MISSING, ROLLER),
    ("weight in both units", ROLLER + ["weight_kg"], 9979, ROLLER),
    ("weight as text", ROLLER + ["weight_lb"], "22,000", ROLLER + ["weight_lb"]),
    ("a weight below zero", ROLLER + ["weight_lb"], -22000, ROLLER + ["weight_lb"]),
    ("no weight on the scale", ROLLER + ["weight_lb"], 0, ROLLER + ["weight_lb"]),
    ("a null weight", ROLLER + ["weight_lb"], None, ROLLER + ["weight_lb"]),
    ("length in two units", ROLLER + ["length_ft"], 19.5, ROLLER),
    ("length in a unit nobody has", ROLLER + ["length_yd"], 6.5, None),  # an unknown key: allowed here, warned of
    ("a basis nobody has", ROLLER + ["basis", "weight"], "guessed", ROLLER + ["basis", "weight"]),
    ("unknown running gear", ROLLER + ["contacts", 0, "running_gear"], "hover", ROLLER + ["contacts", 0, "running_gear"]),
    ("a contact without a place", ROLLER + ["contacts", 0, "y_in"], MISSING, ROLLER + ["contacts", 0]),
    ("a tie point without id", ROLLER + ["tie_points", 0, "id"], MISSING, ROLLER + ["tie_points", 0]),
    ("a tie point in two places", ROLLER + ["tie_points", 0, "x_mm"], 355, ROLLER + ["tie_points", 0]),
    ("an unknown fitting", ROLLER + ["tie_points", 0, "fitting"], "ladder", ROLLER + ["tie_points", 0, "fitting"]),
    ("a point that takes none", ROLLER + ["tie_points", 0, "takes"], 0, ROLLER + ["tie_points", 0, "takes"]),
    ("a pull window with one end", ROLLER + ["tie_points", 0, "pull"], {"deck_angle_deg": [30]},
     ROLLER + ["tie_points", 0, "pull", "deck_angle_deg"]),
    ("a pull run in two units", ROLLER + ["tie_points", 0, "pull"], {"run_in": [30, 50], "run_mm": [762, 1270]},
     ROLLER + ["tie_points", 0, "pull"]),
    ("an unknown lock", ROLLER + ["locks", 0, "kind"], "padlock", ROLLER + ["locks", 0, "kind"]),
    ("fitted as text", ROLLER + ["locks", 0, "fitted"], "yes", ROLLER + ["locks", 0, "fitted"]),
    ("a part of a tie-down", ROLLER + ["implements", 0, "min_tie_downs"], 0.5, ROLLER + ["implements", 0, "min_tie_downs"]),
    ("a box with one corner", ROLLER + ["solids", 0, "max"], MISSING, ROLLER + ["solids", 0]),
    ("a position without id", ROLLER + ["positions", 0, "id"], MISSING, ROLLER + ["positions", 0]),
    ("a position with two heights", ROLLER + ["positions", 0, "height_ft"], 8, ROLLER + ["positions", 0]),
    ("a facing that is none", ROLLER + ["facings"], ["sideways"], ROLLER + ["facings", 0]),
    ("an article without height", ["articles", 0, "height_in"], MISSING, ["articles", 0]),
    ("a trailer without deck", TAG + ["deck"], MISSING, TAG),
    ("a trailer without kind", TAG + ["kind"], MISSING, TAG),
    ("a trailer without axles", TAG + ["axles"], [], TAG + ["axles"]),
    ("a deck of two widths", TAG + ["deck", "width_m"], 2.6, TAG + ["deck"]),
    ("an unknown surface", TAG + ["deck", "surface"], "ice", TAG + ["deck", "surface"]),
    ("a zone without an end", TAG + ["deck", "zones", 0, "x1_in"], MISSING, TAG + ["deck", "zones", 0]),
    ("a truck's hitch on a trailer", TAG + ["coupling", "kind"], "pintle", TAG + ["coupling", "kind"]),
    ("a band with one end", TAG + ["coupling", "share_pct"], [8], TAG + ["coupling", "share_pct"]),
    ("a share over the whole", TAG + ["coupling", "share_pct"], [8, 115], TAG + ["coupling", "share_pct", 1]),
    ("an axle without tare", TAG + ["axles", 0, "tare_lb"], MISSING, TAG + ["axles", 0]),
    ("an axle group zero", TAG + ["axles", 0, "group"], 0, TAG + ["axles", 0, "group"]),
    ("a row id that ends in a digit", TAG + ["anchor_rows", 0, "id"], "P1", TAG + ["anchor_rows", 0, "id"]),
    ("a row on no side", TAG + ["anchor_rows", 0, "sides"], [], TAG + ["anchor_rows", 0, "sides"]),
    ("a row twice on one side", TAG + ["anchor_rows", 0, "sides"], ["left", "left"], TAG + ["anchor_rows", 0, "sides"]),
    ("a row without spacing", TAG + ["anchor_rows", 0, "spacing_in"], MISSING, TAG + ["anchor_rows", 0]),
    ("half an anchor", TAG + ["anchor_rows", 0, "count"], 2.5, TAG + ["anchor_rows", 0, "count"]),
    ("an anchor without height", TAG + ["anchors", 0, "z_in"], MISSING, TAG + ["anchors", 0]),
    ("an anchor rated in two units", TAG + ["anchors", 0, "rated_wll_kg"], 5443, TAG + ["anchors", 0]),
    ("a trailer's coupler on a truck", ["trucks", 0, "coupling", "kind"], "lunette", ["trucks", 0, "coupling", "kind"]),
    ("a truck on one axle", ["trucks", 0, "axles"], [{"x_in": 0, "tare_lb": 9000}], ["trucks", 0, "axles"]),
    ("a chain without size", ["chains", 0, "size_in"], MISSING, ["chains", 0]),
    ("a chain of two sizes", ["chains", 0, "size_mm"], 10, ["chains", 0]),
    ("a chain size as a number", ["chains", 0, "size_in"], 0.375, ["chains", 0, "size_in"]),
    ("a chain size that a spreadsheet ate", ["chains", 0, "size_in"], "8-Mar", ["chains", 0, "size_in"]),
    ("a mark as a number", ["chains", 0, "mark"], 70, ["chains", 0, "mark"]),
    ("a chain of no length", ["chains", 0, "length_ft"], 0, ["chains", 0, "length_ft"]),
    ("a chain kept nowhere", ["chains", 0, "kept_at"], MISSING, ["chains", 0]),
    ("an unknown hook", ["chains", 0, "hook"], "fish", ["chains", 0, "hook"]),
    ("a chain with one end", ["chains", 0, "ends"], [{"hook": "grab"}], ["chains", 0, "ends"]),
    ("no chains counted", ["chains", 5, "count"], 0, ["chains", 5, "count"]),
    ("a date in another order", ["chains", 0, "inspections", 0, "date"], "11/02/2026", ["chains", 0, "inspections", 0, "date"]),
    ("damage nobody knows", SEEN, [{"kind": "tired"}], SEEN + [0, "kind"]),
    ("a repair without its link", SEEN, [{"kind": "repair"}], SEEN + [0]),
    ("a binder for no chain", ["binders", 0, "chain_sizes"], [], ["binders", 0, "chain_sizes"]),
    ("a binder of no known sort", ["binders", 0, "kind"], "rope", ["binders", 0, "kind"]),
    ("a strap without width", ["straps", 0, "width_in"], MISSING, ["straps", 0]),
    ("a strap rated twice", ["straps", 0, "tag_lc_dan"], 2400, ["straps", 0]),
    ("a shackle without rating", ["connectors", 0, "wll_lb"], MISSING, ["connectors", 0]),
    ("a move of nothing", ["moves", 0, "machine"], MISSING, ["moves", 0]),
    ("a move of a machine and of loads", ["moves", 0, "loads"], [{"article": "A-1"}], ["moves", 0]),
    ("a load that is both", ["moves", 0], {"id": "m", "date": "2026-11-25", "loads": [{"machine": "R-03", "article": "A-1"}]},
     ["moves", 0, "loads", 0]),
    ("a move on no day", ["moves", 0, "date"], "2026-13-25", ["moves", 0, "date"]),
    ("a time that no clock shows", ["moves", 0, "depart"], "24:30", ["moves", 0, "depart"]),
    ("a deck nobody has seen", ["moves", 0, "deck_state"], "oily", ["moves", 0, "deck_state"]),
    ("an unknown house rule", ["house_rules", 0, "rule"], "be_careful", ["house_rules", 0, "rule"]),
    ("a house rule without its value", ["house_rules", 0, "wll_lb"], MISSING, ["house_rules", 0]),
    ("a least chain without a grade", ["house_rules", 0], {"rule": "min_chain", "size_in": "5/16"}, ["house_rules", 0]),
    ("a stand-in for no fitting", ["house_rules", 0], {"rule": "stand_in_rating", "wll_lb": 4000}, ["house_rules", 0]),
]

GOOD_FLEETS = [
    ("a center of gravity whose height nobody knows", ROLLER + ["center_of_gravity", "z_in"], MISSING),
    ("a cut that nobody measured", ["straps", 0, "inspections", 0, "findings", 0, "size_in"], MISSING),
    ("an opening that was looked for in vain", ROLLER + ["tie_points", 0, "opening_in"], None),
    ("a weight in kilograms", ROLLER, lambda r: dict({k: v for k, v in r.items() if k != "weight_lb"}, weight_kg=9979)),
    ("unknown keys", ROLLER + ["weigth_lb"], 22000),
    ("an unmarked chain", ["chains", 0, "mark"], None),
    ("a hook looked at and unmarked", ["chains", 0, "hook_wll_lb"], None),
    ("a binder looked at and unmarked", ["binders", 0, "wll_lb"], None),
    ("a metric chain with a rating in daN", ["chains", 6],
     {"id": "C-M", "kept_at": "T-3", "size_mm": 10, "tag_lc_dan": 6300, "tag_legible": True, "length_m": 5}),
    ("a chain with two different ends", ["chains", 6], dict(CHAIN, ends=[{"hook": "grab", "needs_in": 2.4}, {"hook": "slip", "wll_lb": 5400}])),
    ("a clevis link", SEEN, [{"kind": "repair", "repair_link": "clevis", "wll_lb": 6600}]),
    ("a pull window", ROLLER + ["tie_points", 0, "pull"], {"deck_angle_deg": [20, 50], "run_in": [30, 50]}),
    ("a rollback: a trailer without coupling", TAG + ["coupling"], MISSING),
    ("a house rule without values", ["house_rules", 0], {"rule": "no_straps_on_machines"}),
    ("a blade over width to the rear", ["house_rules", 0], {"rule": "over_wide_blade_rear", "over_in": 126}),
    ("two loads", ["moves", 0], {"id": "m", "date": "2026-11-25", "loads": [{"machine": "R-03"}, {"article": "A-1"}]}),
    ("a move with everything open", ["moves", 0], {"id": "m", "date": "2026-11-25", "machine": "R-03"}),
    ("no lists at all", None, {"format": "fairlead-fleet/1", "name": "New"}),
]

TIE = ["tie_downs", 0]
OVER = {"no": 9, "purpose": "machine", "kind": "over", "anchors": ["P1L", "P1R"], "through": ["RL", "RR"], "strap": "S-04"}

FORCE = {"load": 0, "case": "forward", "level": "working", "friction": "wet", "method": "load_sharing", "demand_g": 0.435, "capacity_g": 0.5}
TENSION = {"load": 0, "case": "forward", "level": "working", "friction": "wet", "no": 1, "tension_lb": 1000, "use": 0.152}

BAD_PLANS = [
    ("a fleet's format", ["format"], "fairlead-fleet/1", ["format"]),
    ("no move", ["move"], MISSING, []),
    ("no trailer", ["trailer"], MISSING, []),
    ("no loads", ["loads"], [], ["loads"]),
    ("no tie-downs member", ["tie_downs"], MISSING, []),
    ("a load that is nothing", ["loads", 0, "machine"], MISSING, ["loads", 0]),
    ("a load that is both", ["loads", 0, "article"], "A-1", ["loads", 0]),
    ("a load facing sideways", ["loads", 0, "facing"], "left", ["loads", 0, "facing"]),
    ("a load without a place", ["loads", 0, "rear_in"], MISSING, ["loads", 0]),
    ("a load in two places", ["loads", 0, "rear_mm"], 254, ["loads", 0]),
    ("a tie-down without number", TIE + ["no"], MISSING, TIE),
    ("tie-down number zero", TIE + ["no"], 0, TIE + ["no"]),
    ("an unknown purpose", TIE + ["purpose"], "looks", TIE + ["purpose"]),
    ("an implement without id", TIE + ["purpose"], "implement:", TIE + ["purpose"]),
    ("direct with two anchors", TIE + ["anchors"], ["P1L", "P1R"], TIE + ["anchors"]),
    ("direct without a machine point", TIE + ["machine_point"], MISSING, TIE),
    ("over with one anchor", TIE, dict(OVER, anchors=["P1L"]), TIE + ["anchors"]),
    ("over through nothing", TIE, {k: v for k, v in OVER.items() if k != "through"}, TIE),
    ("chain and strap", TIE + ["strap"], "S-04", TIE),
    ("a piece numbered zero", TIE + ["chain"], "C-3/8-20 #0", TIE + ["chain"]),
    ("a connector nowhere", TIE + ["connectors"], [{"id": "SH-01 #1", "at": "hook"}], TIE + ["connectors", 0, "at"]),
    ("an acknowledgement without reason", ["acknowledged"], [{"rule": "friction"}], ["acknowledged", 0]),
    ("an exception by nobody", ["exceptions"], [{"rule": "min_wll_each", "reason": "short haul"}], ["exceptions", 0]),
    ("an unknown standing", ["results", "findings", 0, "standing"], "gossip", ["results", "findings", 0, "standing"]),
    ("an unknown verdict of a finding", ["results", "findings", 0, "verdict"], "ok", ["results", "findings", 0, "verdict"]),
    ("no steps in a list of them", ["results", "findings", 0, "steps"], [], ["results", "findings", 0, "steps"]),
    ("a step that is no text", ["results", "findings", 0, "steps"], ["a", 5], ["results", "findings", 0, "steps", 1]),
    ("a force that gives way in a way nobody has", ["results", "force"], [dict(FORCE, mode="melts")], ["results", "force", 0, "mode"]),
    ("a force by a method nobody has", ["results", "force"], [dict(FORCE, method="guess")], ["results", "force", 0, "method"]),
    ("tie-down zero at its limit", ["results", "force"], [dict(FORCE, at_limit=[1, 0])], ["results", "force", 0, "at_limit", 1]),
    ("a tie-down twice at its limit", ["results", "force"], [dict(FORCE, at_limit=[3, 3])], ["results", "force", 0, "at_limit"]),
    ("a movement in both units", ["results", "force"], [dict(FORCE, moved_in=1, moved_mm=25)], ["results", "force", 0]),
    ("a movement backwards", ["results", "force"], [dict(FORCE, moved_in=-1)], ["results", "force", 0, "moved_in"]),
    ("a tension in both units", ["results", "tensions"], [dict(TENSION, tension_kg=454)], ["results", "tensions", 0]),
    ("a use below nothing", ["results", "tensions"], [dict(TENSION, use=-0.1)], ["results", "tensions", 0, "use"]),
    ("an unknown verdict of the plan", ["results", "verdict"], "fine", ["results", "verdict"]),
    ("an unknown word of the house", ["results", "house"], "maybe", ["results", "house"]),
    ("a sum without its need", ["results", "sums", 0, "need_lb"], MISSING, ["results", "sums", 0]),
    ("an angle beyond upright", ["results", "tie_downs", 0, "deck_angle_deg"], 97, ["results", "tie_downs", 0, "deck_angle_deg"]),
]

GOOD_PLANS = [
    ("without results", ["results"], MISSING),
    ("steps of a finding", ["results", "findings", 0, "steps"], ["0.5 x weight 22,000 lb = 11,000 lb needed."]),
    ("forces of all methods", ["results", "force"], [dict(FORCE, moved_in=0.4, turned_deg=0.1), dict(FORCE, method="upper_bound", mode="tips", at_limit=[1, 3]),
                                                     dict(FORCE, method="component_sum"), dict(FORCE, mode="not_settled")]),
    ("tensions", ["results", "tensions"], [TENSION, {k: v for k, v in TENSION.items() if k != "use"}]),
    ("unknown keys", ["mood"], "good"),
    ("over with a strap", TIE, OVER),
    ("an implement's tie-down through an over-path", TIE, dict(OVER, purpose="implement:BLD", through="PATH")),
    ("a shackle", TIE + ["connectors"], [{"id": "SH-01 #2", "at": "point"}]),
    ("a counted piece", TIE + ["chain"], "C-3/8-20 #3"),
    ("no truck: a rollback", ["truck"], MISSING),
    ("acknowledged, several at once", ["acknowledged"], [{"rule": "deck_angle", "subject": ["tie-down 1", "tie-down 2"], "reason": "seen"}]),
    ("set aside", ["set_aside"], {"gear": ["C-041"], "anchors": ["P1L"], "points": [{"load": 0, "point": "RL"}]}),
    ("results in kilograms and millimetres", ["results", "sums"], [{"load": 0, "weight_kg": 9979, "need_kg": 4990, "have_kg": 5987}]),
]


def good_documents(tap, validators):
    """The examples and the demo hold."""
    for schema, parts in (("fleet", ("tests", "data", "example-fleet.json")), ("plan", ("tests", "data", "example-plan.json")),
                          ("fleet", ("data", "demo", "fleet.json"))):
        found = complaints(validators[schema], read(*parts))
        tap.check(not found, "%s is a %s document" % ("/".join(parts), schema), *found)


def good_changes(tap, validator, document, cases, what):
    """Changes that are allowed."""
    for name, path, value in cases:
        if path is None:
            new = value
        else:
            old = document
            if callable(value):
                for key in path:
                    old = old[key]
            new = changed(document, path, value(old) if callable(value) else value)
        found = complaints(validator, new)
        tap.check(new != document and not found, "%s: allowed: %s" % (what, name), *found)


def bad_changes(tap, validator, document, cases, what):
    """Each is found, at its place and nowhere else."""
    for name, path, value, at in cases:
        found = complaints(validator, changed(document, path, value))
        if at is None:
            tap.check(not found, "%s: left to the program: %s" % (what, name), *found)
        else:
            tap.check(found and all(place == at for place, _ in found), "%s: refused: %s" % (what, name), "at %s: %s" % (at, found))


def main():
    """All of it."""
    tap = Tap()
    validators = {}
    for schema in ("fleet", "plan"):
        document = read("data", "schema", "fairlead-%s-1.schema.json" % schema)
        try:
            jsonschema.Draft202012Validator.check_schema(document)
            why = []
        except jsonschema.SchemaError as error:
            why = [error.message]
        tap.check(not why, "the %s schema is a schema of Draft 2020-12" % schema, *why)
        validators[schema] = jsonschema.Draft202012Validator(document)
    good_documents(tap, validators)
    fleet, plan = read("tests", "data", "example-fleet.json"), read("tests", "data", "example-plan.json")
    good_changes(tap, validators["fleet"], fleet, GOOD_FLEETS, "fleet")
    bad_changes(tap, validators["fleet"], fleet, BAD_FLEETS, "fleet")
    good_changes(tap, validators["plan"], plan, GOOD_PLANS, "plan")
    bad_changes(tap, validators["plan"], plan, BAD_PLANS, "plan")
    return tap.end()


if __name__ == "__main__":
    sys.exit(main())
