# SPDX-License-Identifier: GPL-3.0-or-later
"""The demo fleet: that it shows what data/demo/README.md says, and that it is physically possible.

Invented data; the limits it is compared with are those of formats.md and of
geometry: a tie point is on its machine, an anchor on its trailer, a weight
between its supports, a driver in one place at a time. Chain grades by mark and
the damage limits of webbing as in the rule book (49 CFR 393.108; state
training slides for the cuts).
"""

import collections
import json
import math
import pathlib
import sys

from tap import Tap

ROOT = pathlib.Path(sys.argv[1])
DAY = "2026-11-25"


def pieces(records):
    """Records with their counts expanded."""
    return sum(record.get("count", 1) for record in records)


def findings(record):
    """Findings of the newest inspection."""
    newest = max(record.get("inspections") or [{"date": ""}], key=lambda i: i["date"])
    return newest.get("findings") or []


def damage(records, kind, link=None):
    """Records with that finding."""
    return [r for r in records for f in findings(r) if f["kind"] == kind and link in (None, f.get("repair_link"))]


def cuts(record):
    """Damage summed across a strap's width, in."""
    return sum(f.get("size_in", 0.0) for f in findings(record))


def clock(text):
    """Minutes after midnight."""
    return int(text[:2]) * 60 + int(text[3:])


def pounds(record):
    """Weight in lb whichever unit it was entered in (1 lb = 0.45359237 kg, exact)."""
    return record["weight_lb"] if "weight_lb" in record else record["weight_kg"] / 0.45359237


class Demo:
    """The document with what is asked of it."""

    def __init__(self):
        with open(ROOT / "data" / "demo" / "fleet.json", encoding="utf-8") as file:
            self.fleet = json.load(file)
        for kind in ("machines", "trailers", "trucks", "chains", "binders", "straps", "connectors"):
            setattr(self, kind, self.fleet[kind])
        self.day = [m for m in self.fleet["moves"] if m["date"] == DAY]

    def of(self, kind, name):
        """A record by id."""
        return next(r for r in self.fleet[kind] if r["id"] == name)

    def loads(self, move):
        """Records that a move carries."""
        wanted = move.get("loads") or [{"machine": move["machine"]}]
        return [self.of("machines", w["machine"]) if "machine" in w else self.of("articles", w["article"]) for w in wanted]

    def unlocked(self):
        """Articulated machines of the day that want eight tie-downs."""
        return [m for move in self.day for m in self.loads(move) if m.get("articulation")
                and not any(lock["kind"] == "articulation" and lock.get("fitted") for lock in m.get("locks", []))]


def how_much(tap, demo):
    """Enough of everything."""
    kinds = len({m["kind"] for m in demo.machines})
    tap.check(len(demo.machines) >= 16 and kinds >= 10, "16 machines of 10 kinds", len(demo.machines), kinds)
    kinds = len({t["kind"] for t in demo.trailers})
    tap.check(len(demo.trailers) >= 9 and kinds >= 7, "9 trailers of 7 kinds", len(demo.trailers), kinds)
    tap.check(len(demo.trucks) >= 4, "4 trucks", len(demo.trucks))
    for name, least in (("chains", 80), ("binders", 70), ("straps", 12)):
        count = pieces(demo.fleet[name])
        tap.check(count >= least, "%d %s" % (least, name), count)
    tap.check(len(demo.day) == 14, "a day of 14 moves", len(demo.day))
    tap.check(len(demo.fleet["yards"]) == 2, "two yards")
    measured = [m for m in demo.machines if m.get("basis", {}).get("weight", "").startswith("scale")]
    typical = [m for m in demo.machines if m.get("basis", {}).get("weight", "") == "typical"]
    tap.check(len(measured) >= 3 and len(typical) >= 5, "some weights from a scale, most typical", len(measured), len(typical))


def what_chains(tap, demo):
    """The gear that is wanted on purpose: chains and binders."""
    chains = demo.chains
    plain = [c for c in chains if c["mark"] is None and "tag_wll_lb" not in c]
    tap.check({"3/8", "5/16"} <= {c["size_in"] for c in plain}, "unmarked chain in two sizes", plain)
    tap.check(any(c.get("tag_legible") is True for c in chains) and any(c.get("tag_legible") is False for c in chains),
              "a legible tag and one that nobody can read")
    yards = {(c["kept_at"], c["mark"]) for c in chains if c["size_in"] == "5/16"}
    tap.check(any((yard, "70") in yards and (yard, "80") in yards for yard, _ in yards), "5/16 grade 80 beside 5/16 grade 70", yards)
    for kind, link in (("repair", "clevis"), ("repair", "bolt"), ("repair", "clevis_pin_missing"), ("bent", None), ("stretched", None)):
        tap.check(damage(chains, kind, link), "a chain with %s" % (link or kind))
    grade_70 = {"5/16": 4700, "3/8": 6600, "1/2": 11300}
    weaker = [b for b in demo.binders for c in chains if b["kept_at"] == c["kept_at"] and c["size_in"] in b["chain_sizes"]
              and c["mark"] in ("7", "70", "700") and b["wll_lb"] is not None and b["wll_lb"] < grade_70.get(c["size_in"], 0)]
    tap.check(weaker, "a binder weaker than its chain")
    tap.check(any(b["wll_lb"] is None for b in demo.binders), "a binder looked at and unmarked")
    tap.check(sum(c.get("count", 1) for c in chains if c["length_ft"] < 5) >= 2, "chains too short")


def what_straps(tap, demo):
    """The straps that are wanted on purpose."""
    tap.check([s for s in demo.straps if s["width_in"] == 4 and s.get("tag_wll_lb") == 5400 and s.get("tag_legible") is False],
              "a 5,400 lb strap that lost its tag")
    limit = 0.75                # of a 4 in strap
    wide = [s for s in demo.straps if s["width_in"] == 4]
    tap.check([s for s in wide if cuts(s) == limit], "a cut at the limit")
    tap.check([s for s in wide if len(findings(s)) == 1 and limit < cuts(s) <= limit + 0.125], "a cut just over it")
    tap.check([s for s in wide if cuts(s) > limit and len(findings(s)) > 1 and all(f["size_in"] < limit for f in findings(s))],
              "cuts that are over it together only")


def what_fits(tap, demo):
    """Hooks, eyes, anchors."""
    small = [(m, p) for move in demo.day for m in demo.loads(move) for p in m.get("tie_points", [])
             if p.get("opening_in", 9) < min(c["hook_needs_in"] for c in demo.chains if c["kept_at"] == move.get("trailer", "?")
                                             or c["kept_at"] == move["from"])]
    shackles = [s for s in demo.connectors if s["kind"] == "shackle"]
    cured = [p for _, p in small if any(s["pin_in"] <= p["opening_in"] and s["jaw_in"] >= p["bar_in"] and s["opening_in"] >= 2.0
                                        for s in shackles)]
    tap.check(cured and len(cured) == len(small), "hooks too big for an eye, and shackles that cure it", len(small), len(cured))
    rows = [r for t in demo.trailers for r in t.get("anchor_rows", []) + t.get("anchors", [])]
    tap.check([r for r in rows if "rated_wll_lb" not in r] and [r for r in rows if "rated_wll_lb" in r], "rated and unrated anchors")
    tap.check([t for t in demo.trailers if "hinge_x_in" in t], "a tilt hinge")
    low = [p for m in demo.machines for i in m.get("implements", []) for p in m["tie_points"] if p["id"] in i["tie_points"]
           and p["z_in"] <= 16]
    tap.check(low, "implement points so low that the nearest run is too short for a ratchet binder")


def what_moves(tap, demo):
    """The loads that are wanted on purpose."""
    day = [(move, machine) for move in demo.day for machine in demo.loads(move)]
    weights = [pounds(m) for _, m in day]
    tap.check(10000 in weights and sum(w < 10000 for w in weights) >= 3, "one machine of exactly 10,000 lb, some below", weights)
    tap.check(len(demo.unlocked()) == 2, "two machines without their articulation lock", [m["id"] for m in demo.unlocked()])
    tap.check([m for _, m in day for lock in m.get("locks", []) if lock["kind"] == "swing" and not lock["fitted"]], "a swing lock missing")
    tap.check(sum(len(m.get("implements", [])) for _, m in day if pounds(m) >= 10000) >= 10, "implements to be chained")
    tall = [(v, m) for v, m in day if "trailer" in v and any("height_in" in p for p in m.get("positions", []))
            and m["height_in"] + demo.of("trailers", v["trailer"])["deck"]["height_in"] > v["height_limit_in"]]
    tap.check([m for v, m in tall if m.get("kind") == "backhoe_loader" and any(
        p["height_in"] + demo.of("trailers", v["trailer"])["deck"]["height_in"] <= v["height_limit_in"] for p in m["positions"])],
              "a backhoe whose hoe must be laid down", tall)
    tap.check([v for v, m in day if m.get("kind") == "crawler_excavator" and demo.of("trailers", v["trailer"])["kind"] == "lowboy"
               and m["length_in"] > demo.of("trailers", v["trailer"])["deck"]["length_in"] and m["facings"] == ["forward"]],
              "an excavator longer than its lowboy's well: boom over the gooseneck")
    tap.check([v for v in demo.day if sum("machine" in w for w in v.get("loads", [])) == 2], "two machines on one trailer")
    tap.check([v for v in demo.day if any("article" in w for w in v.get("loads", []))], "a loose bucket as its own article")
    tap.check(sum("trailer" not in v for v in demo.day) >= 2, "trailers left open")
    tap.check([v for v in demo.day if "trailer" in v and "truck" not in v and "coupling" not in demo.of("trailers", v["trailer"])],
              "a rollback, which takes no truck")
    tap.check({r["rule"] for r in demo.fleet["house_rules"]} >= {"min_wll_each", "no_straps_on_machines"}, "house rules")


def shared_gear(tap, demo):
    """The same rack, at the same time."""
    racks = collections.defaultdict(list)
    for move in demo.day:
        racks[move["gear_yard"]].append((clock(move["depart"]), clock(move["back"])))
    clash = [(a, b) for spans in racks.values() for i, a in enumerate(spans) for b in spans[i + 1:] if a[0] < b[1] and b[0] < a[1]]
    tap.check(len(clash) >= 5, "moves that want the same rack's chains at the same time", clash)
    move = next(v for v in demo.day if v.get("trailer") == "T-03")
    hand = {move["trailer"], move["from"], move["gear_yard"], demo.of("trailers", "T-03")["yard"]}
    fit = sum(b.get("count", 1) for b in demo.binders if b["kept_at"] in hand and not findings(b) and "5/16" in b["chain_sizes"])
    tap.check(demo.loads(move)[0] in demo.unlocked() and fit < 8, "a move that wants eight tie-downs and has binders for six", fit)


def anchors(trailer):
    """(id, x, y, z) of a trailer's anchors, rows expanded."""
    for a in trailer.get("anchors", []):
        yield a["id"], a["x_in"], a["y_in"], a["z_in"]
    for row in trailer.get("anchor_rows", []):
        for number in range(row["count"]):
            for side in row["sides"]:
                yield ("%s%d%s" % (row["id"], number + 1, side[0].upper()), row["first_x_in"] + number * row["spacing_in"],
                       row["y_in"] if side == "left" else -row["y_in"], row["z_in"])


def machines_hold_together(tap, demo):
    """Points on the machine, supports under its weight."""
    bad = []
    for m in demo.machines + demo.fleet["articles"]:
        half = m["width_in"] / 2
        for p in m.get("tie_points", []):
            if not (0 <= p["x_in"] <= m["length_in"] and abs(p["y_in"]) <= half and 0 <= p["z_in"] <= m["height_in"]):
                bad.append("%s: %s is not on it" % (m["id"], p["id"]))
            for b in m.get("solids", []) + m.get("keep_clear", []):
                if all(b["min"][k] < p[k] < b["max"][k] for k in ("x_in", "y_in", "z_in")):
                    bad.append("%s: %s is inside %s" % (m["id"], p["id"], b["name"]))
        for c in m.get("contacts", []):
            if not (0 <= c["x_in"] - c["length_in"] / 2 and c["x_in"] + c["length_in"] / 2 <= m["length_in"]
                    and abs(c["y_in"]) + c["width_in"] / 2 <= half):
                bad.append("%s: a contact reaches out from under it" % m["id"])
        ends = [c["x_in"] + s * c["length_in"] / 2 for c in m.get("contacts", []) for s in (-1, 1)]
        if ends and not min(ends) < m["center_of_gravity"]["x_in"] < max(ends):
            bad.append("%s: falls over" % m["id"])
    tap.check(not bad, "machines: points on them, weight between their supports", *bad)


def trailers_hold_together(tap, demo):
    """Anchors on the trailer, tares that add up."""
    bad = []
    for t in demo.trailers:
        tare = sum(a["tare_lb"] for a in t["axles"]) + t.get("coupling", {}).get("tare_lb", 0)
        if tare != t["tare_lb"] or t["tare_lb"] + t["capacity_lb"] > t["gvwr_lb"]:
            bad.append("%s: weights do not add up" % t["id"])
        places = collections.Counter((x, y, z) for _, x, y, z in anchors(t))
        names = collections.Counter(name for name, *_ in anchors(t))
        if max(places.values()) > 1 or max(names.values()) > 1:
            bad.append("%s: two anchors in one" % t["id"])
        if any(abs(y) > t["deck"]["width_in"] / 2 for _, _, y, _ in anchors(t)):
            bad.append("%s: an anchor beside it" % t["id"])
        for side in (1, -1):
            xs = sorted(x for _, x, y, z in anchors(t) if y * side > 0 and math.isclose(z, 0))
            if max(b - a for a, b in zip(xs, xs[1:])) > 48:
                bad.append("%s: no anchors along one side" % t["id"])
    tap.check(not bad, "trailers: anchors on them, weights add up", *bad)


def nobody_twice(tap, demo):
    """Each machine, trailer, truck and driver in one place at a time."""
    bad = []
    rest = demo.fleet["turnaround_min"]
    for i, a in enumerate(demo.day):
        for b in demo.day[i + 1:]:
            if clock(a["depart"]) < clock(b["back"]) + rest and clock(b["depart"]) < clock(a["back"]) + rest:
                bad += ["%s and %s: %s" % (a["id"], b["id"], key) for key in ("machine", "trailer", "truck", "driver")
                        if a.get(key) is not None and a.get(key) == b.get(key)]
    tap.check(not bad, "nobody is in two places", *bad)


def main():
    """All of it."""
    tap, demo = Tap(), Demo()
    for part in (how_much, what_chains, what_straps, what_fits, what_moves, shared_gear, machines_hold_together,
                 trailers_hold_together, nobody_twice):
        part(tap, demo)
    return tap.end()


if __name__ == "__main__":
    sys.exit(main())
