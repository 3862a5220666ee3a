# SPDX-License-Identifier: GPL-3.0-or-later
"""Random changes of a fleet and a plan, each keeping the documents valid.

Every change is a function (chance, fleet, plan); chance is a seeded
random.Random, so the same seed gives the same documents.
"""

SIZES = ["1/4", "5/16", "3/8", "7/16", "1/2", "5/8"]
MARKS = ["3", "30", "300", "4", "43", "430", "7", "70", "700", "8", "80",
         "800", "10", "100", "1000", None]
CHAIN_FINDINGS = [
    {"kind": "cracked"}, {"kind": "bent"}, {"kind": "twisted"},
    {"kind": "stretched"}, {"kind": "worn"}, {"kind": "welded"},
    {"kind": "knotted"}, {"kind": "repair", "repair_link": "clevis"},
    {"kind": "repair", "repair_link": "clevis", "wll_lb": 5000},
    {"kind": "repair", "repair_link": "double_clevis", "wll_lb": 4200},
    {"kind": "repair", "repair_link": "clevis_pin_missing"},
    {"kind": "repair", "repair_link": "half_clevis"},
    {"kind": "repair", "repair_link": "bolt"},
    {"kind": "repair", "repair_link": "lap_link"},
    {"kind": "repair", "repair_link": "cold_shut"},
    {"kind": "repair", "repair_link": "quick_link"}]
BINDER_FINDINGS = [{"kind": kind} for kind in
                   ("bent", "cracked", "handle", "hook_spread")]


def set_one(record, key, value):
    """Sets key, in whatever other unit it stood before."""
    stem = key.rsplit("_", 1)[0]
    for unit in ("_in", "_ft", "_mm", "_m", "_lb", "_kg"):
        record.pop(stem + unit, None)
    record[key] = value


def used(chance, fleet, plan, kind):
    """The record of a piece of gear the plan uses, or None."""
    names = [t[kind].split(" #")[0] for t in plan["tie_downs"]
             if t.get(kind)]
    if not names:
        return None
    name = chance.choice(names)
    return next(r for r in fleet[kind + "s"] if r["id"] == name)


def found(fleet, kind, name):
    """A record by its id."""
    return next(r for r in fleet[kind] if r["id"] == name)


def machine_of(chance, fleet, plan):
    """The machine of one of the loads, or None."""
    names = [c["machine"] for c in plan["loads"] if "machine" in c]
    return found(fleet, "machines", chance.choice(names)) if names else None


def chain_grade(chance, fleet, plan):
    chain = used(chance, fleet, plan, "chain")
    if chain:
        set_one(chain, "size_in", chance.choice(SIZES))
        chain["mark"] = chance.choice(MARKS)


def chain_tag(chance, fleet, plan):
    chain = used(chance, fleet, plan, "chain")
    if chain:
        set_one(chain, "tag_wll_lb", chance.choice([3000, 4700, 6600, 7100]))
        chain["tag_legible"] = chance.random() < 0.6


def chain_length(chance, fleet, plan):
    chain = used(chance, fleet, plan, "chain")
    if chain:
        set_one(chain, "length_ft", chance.choice([5, 6, 7, 8, 10, 20, 25]))


def chain_hooks(chance, fleet, plan):
    chain = used(chance, fleet, plan, "chain")
    if chain:
        chain["hook"] = chance.choice(["grab", "slip", "clevis_grab",
                                       "clevis_slip"])
        set_one(chain, "hook_needs_in", chance.choice([1.2, 2.0, 2.4, 3.4]))


def chain_hook_worth(chance, fleet, plan):
    chain = used(chance, fleet, plan, "chain")
    if chain:
        set_one(chain, "hook_wll_lb", chance.choice([None, 5400, 9000]))


def chain_damage(chance, fleet, plan):
    chain = used(chance, fleet, plan, "chain")
    if chain:
        chain.setdefault("inspections", []).append(
            {"date": chance.choice(["2020-01-01", "2026-11-20"]),
             "findings": [dict(chance.choice(CHAIN_FINDINGS))]})


def chain_elsewhere(chance, fleet, plan):
    chain = used(chance, fleet, plan, "chain")
    if chain:
        chain["kept_at"] = chance.choice(
            [y["id"] for y in fleet["yards"]]
            + [t["id"] for t in fleet["trailers"]])


def strap_damage(chance, fleet, plan):
    strap = used(chance, fleet, plan, "strap")
    if strap:
        strap["inspections"] = [{"date": "2026-11-20", "findings": [
            {"kind": chance.choice(["cut", "worn", "burned"]),
             "size_in": chance.choice([0.125, 0.25, 0.375, 0.5, 0.625])}
            for _ in range(chance.randint(1, 3))]}]
        strap["tag_legible"] = chance.random() < 0.5


def binder_worth(chance, fleet, plan):
    binder = used(chance, fleet, plan, "binder")
    if binder:
        set_one(binder, "wll_lb", chance.choice([2600, 5400, 6600, 9200,
                                                 12000, None]))


def binder_make(chance, fleet, plan):
    binder = used(chance, fleet, plan, "binder")
    if binder:
        first = chance.randrange(len(SIZES) - 1)
        binder["chain_sizes"] = SIZES[first:first + 2]
        binder["kind"] = chance.choice(["ratchet", "lever"])
        set_one(binder, "take_up_in", chance.choice([4.25, 4.5, 8, 10]))
        binder.pop("needs_run_in", None)
        if chance.random() < 0.5:
            binder["needs_run_in"] = chance.choice([20, 36, 45, 60])


def binder_damage(chance, fleet, plan):
    binder = used(chance, fleet, plan, "binder")
    if binder:
        binder["inspections"] = [{"date": "2026-11-20", "findings": [
            dict(chance.choice(BINDER_FINDINGS))]}]


def weight(chance, fleet, plan):
    machine = machine_of(chance, fleet, plan)
    if machine:
        set_one(machine, "weight_lb", chance.choice(
            [3000, 9999, 10000, 15000, 22000, 26400, 26401, 31000, 45000]))


def centre(chance, fleet, plan):
    machine = machine_of(chance, fleet, plan)
    if machine and machine.get("center_of_gravity"):
        set_one(machine["center_of_gravity"], "x_in",
                chance.uniform(40, 160))


def points(chance, fleet, plan):
    machine = machine_of(chance, fleet, plan)
    if machine and machine.get("tie_points"):
        record = chance.choice(machine["tie_points"])
        set_one(record, "x_in", round(chance.uniform(0, 200), 2))
        set_one(record, "y_in", round(chance.uniform(-45, 45), 2))
        set_one(record, "z_in", round(chance.uniform(5, 60), 2))


def point_rating(chance, fleet, plan):
    machine = machine_of(chance, fleet, plan)
    if machine and machine.get("tie_points"):
        record = chance.choice(machine["tie_points"])
        set_one(record, "rated_wll_lb", chance.choice([3000, 6000, 12000]))
        record["rating_is"] = chance.choice(["shared", "each"])
        record["takes"] = chance.choice([1, 2])


def basis(chance, fleet, plan):
    """How a weight is known."""
    machine = machine_of(chance, fleet, plan)
    if machine:
        machine["basis"] = dict(machine.get("basis") or {}, weight=(
            chance.choice(["plate", "manual", "scale ticket", "typical",
                           "tape and table"])))


def deck_state(chance, fleet, plan):
    """Dry, wet, frost, or nobody said."""
    move = found(fleet, "moves", plan["move"])
    move.pop("deck_state", None)
    state = chance.choice(["dry", "wet", "frost", None])
    if state:
        move["deck_state"] = state


def deck_surface(chance, fleet, plan):
    """What the deck, or one of its zones, is made of."""
    deck = found(fleet, "trailers", plan["trailer"])["deck"]
    place = chance.choice([deck] + (deck.get("zones") or []))
    place["surface"] = chance.choice(["wood", "steel", "aluminum",
                                      "rubber_mat"])


def brakes(chance, fleet, plan):
    """Who is braked, and on what it stands."""
    machine = machine_of(chance, fleet, plan)
    kind = chance.choice(["rubber_tires", "rubber_tracks", "steel_tracks",
                          "steel_drum"])
    for contact in (machine or {}).get("contacts") or []:
        if chance.random() < 0.5:
            contact["braked"] = chance.random() < 0.5
        if chance.random() < 0.3:
            contact.pop("braked", None)
        if chance.random() < 0.5:
            contact["running_gear"] = kind


def mat(chance, fleet, plan):
    """A friction mat under a load, certified or not."""
    record = chance.choice(plan["loads"])
    record["mat"] = {"kind": "friction mat"}
    if chance.random() < 0.6:
        record["mat"]["mu"] = chance.choice([0.25, 0.4, 0.6])


def front_stop(chance, fleet, plan):
    """A stop just ahead of the front load, which leans on it."""
    trailer = found(fleet, "trailers", plan["trailer"])
    record = plan["loads"][0]
    kind = "machine" if "machine" in record else "article"
    machine = found(fleet, kind + "s", record[kind])
    if "rear_in" not in record or "length_in" not in machine:
        return
    trailer["deck"]["front_stop"] = {
        "x_in": record["rear_in"] + machine["length_in"]
        + chance.choice([0, 0, 3, 8]),
        "rated_lb": chance.choice([2000, 8000, 20000])}
    if chance.random() < 0.2:
        del trailer["deck"]["front_stop"]["rated_lb"]
    record["blocked_forward"] = True


def one_point(chance, fleet, plan):
    """Two tie-downs on one machine point, or on one anchor."""
    direct = [t for t in plan["tie_downs"] if t["kind"] == "direct"
              and t["purpose"] == "machine"]
    if len(direct) < 2:
        return
    one, other = chance.sample(direct, 2)
    if chance.random() < 0.5:
        other["anchors"] = list(one["anchors"])
    elif one.get("load", 0) == other.get("load", 0):
        other["machine_point"] = one["machine_point"]
    if chance.random() < 0.5:
        other["load"] = one.get("load", 0)
        other["machine_point"] = one["machine_point"]


def locks(chance, fleet, plan):
    machine = machine_of(chance, fleet, plan)
    for lock in (machine or {}).get("locks") or []:
        lock["fitted"] = lock.get("on_machine") is not False \
            and chance.random() < 0.5


def implements(chance, fleet, plan):
    machine = machine_of(chance, fleet, plan)
    for implement in (machine or {}).get("implements") or []:
        implement["min_tie_downs"] = chance.choice([1, 1, 2])
        implement["can_lower"] = chance.random() < 0.7


def anchor_ratings(chance, fleet, plan):
    trailer = found(fleet, "trailers", plan["trailer"])
    for record in (trailer.get("anchors") or []) \
            + (trailer.get("anchor_rows") or []):
        if chance.random() < 0.5:
            set_one(record, "rated_wll_lb",
                    chance.choice([4000, 5000, 6600, 12000, None]))
        set_one(record, "opening_in", chance.choice([2.0, 2.4, 3.0]))
        record["takes"] = chance.choice([1, 1, 2])


def axles(chance, fleet, plan):
    trailer = found(fleet, "trailers", plan["trailer"])
    record = chance.choice(trailer["axles"])
    set_one(record, "rated_lb", chance.choice([8000, 12000, 22500, 25000]))
    if chance.random() < 0.4:
        mates = [a for a in trailer["axles"] if record.get("group")
                 and a.get("group") == record["group"]]
        weights = [chance.randint(3, 7) for _ in mates]
        for axle, part in zip(mates, weights):
            axle["share"] = part / sum(weights)


def gross_ratings(chance, fleet, plan):
    trailer = found(fleet, "trailers", plan["trailer"])
    key = chance.choice(["gvwr_lb", "capacity_lb"])
    set_one(trailer, key, chance.choice([15000, 30000, 45000, 90000]))


def coupling(chance, fleet, plan):
    trailer = found(fleet, "trailers", plan["trailer"])
    record = trailer.get("coupling")
    if record:
        key = chance.choice(["rated_vertical_lb", "rated_trailed_lb"])
        set_one(record, key, chance.choice([2500, 10000, 40000, 80000]))


HOUSE = [
    lambda chance: {"rule": "min_wll_each",
                    "wll_lb": chance.choice([3000, 4000, 6000])},
    lambda chance: {"rule": "min_chain", "grade": "70", "size_in":
                    chance.choice(["5/16", "3/8"])},
    lambda chance: {"rule": "no_straps_on_machines"},
    lambda chance: {"rule": "four_below_threshold"},
    lambda chance: {"rule": "length_count_too"},
    lambda chance: {"rule": "ratchet_only"},
    lambda chance: {"rule": "inboard_of_rub_rail"},
    lambda chance: {"rule": "deck_angle_band", "lo_deg":
                    chance.choice([20, 25, 30]), "hi_deg":
                    chance.choice([45, 50, 60])},
    lambda chance: {"rule": "stand_in_rating", "fitting": chance.choice(
        ["stake_pocket", "d_ring", "loop", "eye"]), "wll_lb":
                    chance.choice([2500, 4000, 5000])},
    lambda chance: {"rule": "over_wide_blade_rear", "over_in":
                    chance.choice([90, 96, 102])},
    lambda chance: {"rule": "extra_aggregate_pct",
                    "pct": chance.choice([5, 10, 25])},
    lambda chance: {"rule": "chain_allowance",
                    "length_in": chance.choice([6, 24, 60])},
    lambda chance: {"rule": "weight_margin_pct",
                    "pct": chance.choice([3, 10, 20])},
    lambda chance: {"rule": "implement_lock_suffices"},
    lambda chance: {"rule": "height_margin",
                    "length_in": chance.choice([3, 6, 20])}]


def house(chance, fleet, plan):
    """Up to three house rules, each once."""
    fleet["house_rules"] = [make(chance) for make in chance.sample(
        HOUSE, chance.randint(0, 3))]


def rear(chance, fleet, plan):
    record = chance.choice(plan["loads"])
    set_one(record, "rear_in", chance.choice([
        3 * chance.randint(-4, 30), round(chance.uniform(-10, 90), 2)]))


def left(chance, fleet, plan):
    set_one(chance.choice(plan["loads"]), "left_in",
            round(chance.uniform(-9, 9), 1))


def facing(chance, fleet, plan):
    chance.choice(plan["loads"])["facing"] = \
        chance.choice(["forward", "rearward"])


def position(chance, fleet, plan):
    record = chance.choice(plan["loads"])
    if "machine" in record:
        machine = found(fleet, "machines", record["machine"])
        if machine.get("positions"):
            record["position"] = chance.choice(machine["positions"])["id"]


def blocking(chance, fleet, plan):
    record = chance.choice(plan["loads"])
    record["chocked"] = chance.random() < 0.5
    record["blocked_forward"] = chance.random() < 0.5


def anchors_of(trailer):
    """All anchor names of a trailer."""
    names = [a["id"] for a in trailer.get("anchors") or []]
    for row in trailer.get("anchor_rows") or []:
        names += ["%s%d%s" % (row["id"], i + 1, side[0].upper())
                  for i in range(row["count"]) for side in row["sides"]]
    return names


def anchor(chance, fleet, plan):
    tie_down = pick_tie_down(chance, plan)
    if tie_down:
        names = anchors_of(found(fleet, "trailers", plan["trailer"]))
        tie_down["anchors"] = [chance.choice(names)
                               for _ in tie_down["anchors"]]
        if len(set(tie_down["anchors"])) < len(tie_down["anchors"]):
            tie_down["anchors"] = names[:len(tie_down["anchors"])]


def pick_tie_down(chance, plan):
    """One of the tie-downs, None where there is none."""
    return chance.choice(plan["tie_downs"]) if plan["tie_downs"] else None


def machine_point(chance, fleet, plan):
    tie_down = pick_tie_down(chance, plan)
    if tie_down and tie_down["kind"] == "direct":
        load = plan["loads"][tie_down.get("load", 0)]
        kind = "machine" if "machine" in load else "article"
        record = found(fleet, kind + "s", load[kind])
        tie_down["machine_point"] = chance.choice(record["tie_points"])["id"]


def go_over(chance, fleet, plan):
    tie_down = pick_tie_down(chance, plan)
    if tie_down and tie_down["kind"] == "direct":
        names = anchors_of(found(fleet, "trailers", plan["trailer"]))
        one = tie_down["anchors"][0]
        tie_down["kind"] = "over"
        tie_down["through"] = [tie_down.pop("machine_point")]
        tie_down["anchors"] = [one, chance.choice([n for n in names
                                                   if n != one])]


def piece_of(chance, record):
    """The name of one piece of a gear record."""
    count = record.get("count", 1)
    return record["id"] if count == 1 else \
        "%s #%d" % (record["id"], chance.randint(1, count))


def swap_gear(chance, fleet, plan):
    tie_down = pick_tie_down(chance, plan)
    kind = chance.choice(["chain", "binder"])
    if tie_down and tie_down.get(kind):
        record = chance.choice(fleet[kind + "s"])
        tie_down[kind] = piece_of(chance, record)


def to_strap(chance, fleet, plan):
    tie_down = pick_tie_down(chance, plan)
    if tie_down and tie_down.get("chain") and fleet.get("straps"):
        record = chance.choice(fleet["straps"])
        del tie_down["chain"]
        tie_down.pop("binder", None)
        tie_down["strap"] = piece_of(chance, record)


def drop(chance, fleet, plan):
    if plan["tie_downs"]:
        plan["tie_downs"].remove(chance.choice(plan["tie_downs"]))


def drop_binder(chance, fleet, plan):
    tie_down = pick_tie_down(chance, plan)
    if tie_down:
        tie_down.pop("binder", None)


def connector(chance, fleet, plan):
    tie_down = pick_tie_down(chance, plan)
    if tie_down and fleet.get("connectors"):
        record = chance.choice(fleet["connectors"])
        tie_down["connectors"] = [
            {"id": piece_of(chance, record), "at": chance.choice(["point", "anchor"])}]


def purpose(chance, fleet, plan):
    tie_down = pick_tie_down(chance, plan)
    if tie_down:
        load = plan["loads"][tie_down.get("load", 0)]
        names = ["machine"]
        if "machine" in load:
            names += ["implement:" + i["id"] for i in found(
                fleet, "machines", load["machine"]).get("implements") or []]
        tie_down["purpose"] = chance.choice(names)


def second_load(chance, fleet, plan):
    """A small machine of its own on the same trailer, held by two chains
    of the fleet that the plan does not use."""
    if len(plan["loads"]) > 1 or any(m["id"] == "Z-77"
                                     for m in fleet["machines"]):
        return
    fleet["machines"].append({
        "id": "Z-77", "kind": "plate_compactor",
        "weight_lb": chance.choice([900, 2500, 11000]), "length_in": 50,
        "width_in": 40, "height_in": 60,
        "center_of_gravity": {"x_in": 24, "y_in": 0, "z_in": 20},
        "contacts": [{"x_in": 25, "y_in": y, "length_in": 30,
                      "width_in": 8, "running_gear": "rubber_tracks"}
                     for y in (15, -15)],
        "tie_points": [{"id": name, "x_in": x, "y_in": y, "z_in": 24,
                        "opening_in": 3} for name, x, y in
                       (("A", 4, 15), ("B", 4, -15), ("C", 46, 15),
                        ("D", 46, -15))]})
    plan["loads"].append({"machine": "Z-77", "facing": "forward",
                          "rear_in": chance.choice([0, 12, 200, 230])})
    names = anchors_of(found(fleet, "trailers", plan["trailer"]))
    number = max([t["no"] for t in plan["tie_downs"]] or [0])
    free = [c["id"] for c in fleet["chains"] if c.get("count", 1) == 1
            and c["id"] not in [t.get("chain") for t in plan["tie_downs"]]]
    binders = [b["id"] for b in fleet["binders"] if b.get("count", 1) == 1]
    for point, chain in zip("ABCD", free[:chance.randint(0, 4)]):
        number += 1
        plan["tie_downs"].append({
            "no": number, "load": 1, "purpose": "machine", "kind": "direct",
            "machine_point": point, "anchors": [chance.choice(names)],
            "chain": chain, "binder": chance.choice(binders)})


GENTLE = [chain_grade, chain_tag, chain_length, chain_hooks,
          chain_hook_worth, binder_worth, binder_make, weight, centre,
          point_rating, anchor_ratings, axles, gross_ratings, coupling,
          basis, deck_state, deck_state, deck_surface,
          brakes, mat, front_stop, one_point, rear, left, blocking, anchor, connector, position, locks]
ROUGH = [chain_damage, chain_elsewhere, strap_damage, binder_damage, points,
         implements, facing, machine_point, go_over, swap_gear, to_strap,
         drop, drop_binder, purpose, second_load]


def mutate(chance, fleet, plan):
    """One to seven changes; the names of those made."""
    changes = [chance.choice(GENTLE) for _ in range(chance.randint(1, 3))]
    changes += [chance.choice(ROUGH) for _ in range(chance.randint(0, 3))]
    changes += [house] if chance.random() < 0.35 else []
    for change in changes:
        change(chance, fleet, plan)
    return [change.__name__ for change in changes]
