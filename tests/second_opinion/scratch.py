# SPDX-License-Identifier: GPL-3.0-or-later
"""Rough plans from scratch for the moves of a fleet: places, points, anchors
and gear drawn at random among what is likely.  Most are poor plans, which is
what they are for: they reach trailers, positions and gear that the planner's
good ones do not."""

from mutations import anchors_of, found
from opinion.quantity import inches
from opinion.scene import anchors_of as anchor_records

PAIRS = {"lunette": "pintle", "gooseneck_coupler": "gooseneck_ball",
         "kingpin": "fifth_wheel", "ball_coupler": "ball"}


def names_of(records):
    """Names of all pieces of some gear records."""
    result = []
    for record in records:
        if record.get("count", 1) == 1:
            result.append(record["id"])
        else:
            result += ["%s #%d" % (record["id"], i + 1)
                       for i in range(record["count"])]
    return result


def truck_for(chance, fleet, trailer):
    """A truck that couples to it, sometimes one that does not."""
    coupling = trailer.get("coupling")
    if not coupling:
        return None
    good = [t["id"] for t in fleet["trucks"]
            if t["coupling"]["kind"] == PAIRS.get(coupling["kind"])]
    if not good or chance.random() < 0.05:
        good = [t["id"] for t in fleet["trucks"]]
    return chance.choice(good)


def loads_of(chance, fleet, move, trailer):
    """The loads one behind the other, from the front."""
    asked = [{"machine": move["machine"]}] if move.get("machine") \
        else [dict(entry) for entry in move["loads"]]
    deck = inches(trailer["deck"], "length")
    front, result = deck, []
    for entry in asked:
        kind = "machine" if "machine" in entry else "article"
        record = found(fleet, kind + "s", entry[kind])
        load = {kind: entry[kind],
                "facing": chance.choice(["forward", "rearward"])}
        length = inches(record, "length")
        positions = record.get("positions") or []
        if positions and chance.random() < 0.4:
            position = chance.choice(positions)
            load["position"] = position["id"]
            length = inches(position, "length", length)
        rear = front - length - chance.randint(0, max(1, int(
            max(0.0, front - length) / 3))) * 3.0
        load["rear_in"] = round(rear / 3) * 3
        front = min(front, rear)
        result.append(load)
    return result


def near_anchors(trailer, x):
    """Anchor names, the nearest along the deck first."""
    records = anchor_records(trailer)
    return sorted(anchors_of(trailer),
                  key=lambda name: abs(inches(records[name], "x") - x - 30))


def tie_downs(chance, fleet, move, plan, trailer):
    """Each front and rear point once, each implement as often as it asks."""
    places = {trailer["id"], trailer.get("yard"), move.get("from"),
              move.get("gear_yard")}

    def pool(kind):
        names = names_of([r for r in fleet.get(kind, [])
                          if r["kept_at"] in places])
        chance.shuffle(names)
        return names
    gear = {kind: pool(kind) for kind in ("chains", "binders", "straps",
                                          "connectors")}
    result = []
    for index, load in enumerate(plan["loads"]):
        kind = "machine" if "machine" in load else "article"
        record = found(fleet, kind + "s", load[kind])
        for purpose, point in wanted(chance, record):
            where = load["rear_in"] + inches(point, "x")
            anchor = chance.choice(near_anchors(trailer, where)[:12])
            tie_down = {"no": len(result) + 1, "load": index,
                        "purpose": purpose, "kind": "direct",
                        "machine_point": point["id"], "anchors": [anchor]}
            if equip(chance, gear, tie_down):
                result.append(tie_down)
    return result


def wanted(chance, record):
    """[(purpose, point)] of a machine."""
    points = {p["id"]: p for p in record.get("tie_points") or []}
    of_implements = {name for i in record.get("implements") or []
                     for name in i.get("tie_points") or []}
    result = [("machine", p) for name, p in points.items()
              if name not in of_implements and chance.random() < 0.9]
    for implement in record.get("implements") or []:
        names = implement.get("tie_points") or []
        if names and chance.random() < 0.85:
            result.append(("implement:" + implement["id"],
                           points[chance.choice(names)]))
    return result


def equip(chance, gear, tie_down):
    """Chain and binder, now and then a strap or a shackle; False: none."""
    if gear["straps"] and chance.random() < 0.1:
        tie_down["strap"] = gear["straps"].pop()
        return True
    if not gear["chains"] or not gear["binders"]:
        return False
    tie_down["chain"] = gear["chains"].pop()
    tie_down["binder"] = gear["binders"].pop()
    if gear["connectors"] and chance.random() < 0.15:
        tie_down["connectors"] = [{"id": gear["connectors"].pop(),
                                   "at": chance.choice(["point",
                                                        "anchor"])}]
    return True


def plan(chance, fleet):
    """One rough plan for one of the fleet's moves."""
    move = chance.choice(fleet["moves"])
    trailers = fleet["trailers"]
    trailer = found(fleet, "trailers", move["trailer"]) \
        if move.get("trailer") and chance.random() < 0.6 \
        else chance.choice(trailers)
    result = {"format": "fairlead-plan/1", "fleet": fleet["name"],
              "move": move["id"], "trailer": trailer["id"]}
    truck = truck_for(chance, fleet, trailer)
    if truck is not None:
        result["truck"] = truck
    result["loads"] = loads_of(chance, fleet, move, trailer)
    result["tie_downs"] = tie_downs(chance, fleet, move, result, trailer)
    return result
