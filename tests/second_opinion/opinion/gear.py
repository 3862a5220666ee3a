# SPDX-License-Identifier: GPL-3.0-or-later
"""What one piece of gear is worth now: 49 CFR 393.108 and damage practice."""

from . import tables
from .quantity import (BadInput, fraction, inches, pounds, pounds_seen,
                       reaches)

LISTS = ("chains", "binders", "straps", "connectors")


class Worth:
    """pounds: None where it cannot be told; in_use False: out, pounds 0."""

    def __init__(self, value, why, in_use=True):
        self.pounds = value if in_use else 0.0
        self.why = why
        self.in_use = in_use


class Piece:
    """One piece of gear as named in a plan: `C-041` or `C-3/8-20 #3`."""

    def __init__(self, name, kind, record):
        self.name = name
        self.kind = kind
        self.record = record


def find(fleet, name):
    """The piece of that name; BadInput where the fleet has none."""
    if not isinstance(name, str):
        raise BadInput("gear is named by %r, expected text" % (name,))
    record_id, mark, number = name.partition(" #")
    for kind in LISTS:
        for record in fleet.get(kind, []):
            if record["id"] == record_id:
                _piece_exists(record, name, mark, number)
                return Piece(name, kind[:-1], record)
    raise BadInput("gear %s is not in the fleet" % name)


def _piece_exists(record, name, mark, number):
    """A counted record has pieces 1..count, a single one has none."""
    count = record.get("count")
    if count is None or (count == 1 and not mark):
        if mark:
            raise BadInput("gear %s: its record has no count" % name)
        return
    if not number.isdigit() or not 1 <= int(number) <= count:
        raise BadInput("gear %s: expected #1 to #%d" % (name, count))


def findings_of(record):
    """The findings of the newest inspection (the last listed of a day)."""
    newest = None
    for inspection in record.get("inspections") or []:
        if newest is None or inspection["date"] >= newest["date"]:
            newest = inspection
    return [] if newest is None else newest.get("findings") or []


def chain_size(record):
    """Nominal size as the table names it, or the text as it stands."""
    if record.get("size_in") is not None:
        return str(record["size_in"]).strip()
    millimetres = record.get("size_mm")
    try:
        return tables.SIZE_OF_MM.get(round(float(millimetres)))
    except (TypeError, ValueError):
        return None


def worth(piece):
    """What the piece is worth, whatever its kind."""
    return {"chain": _chain, "strap": _strap, "binder": _binder,
            "connector": _connector}[piece.kind](piece.record)


def _tag(record):
    """Pounds on a tag that is on it and legible, else None [A5]."""
    return pounds(record, "tag_wll") if record.get("tag_legible") is True \
        else None


def chain_damage(record):
    """(reason it is out or None, least wll of accepted repair links)."""
    least = None
    for finding in findings_of(record):
        kind = finding.get("kind")
        if kind == "repair":
            if finding.get("repair_link") not in tables.REPAIR_ACCEPTED:
                return "repair %s" % finding.get("repair_link"), None
            value = pounds(finding, "wll")
            if value is not None:
                least = value if least is None else min(least, value)
        else:
            return str(kind), None
    return None, least


def _chain(record):
    out = chain_damage(record)[0]
    if out is not None:
        return Worth(0.0, out, in_use=False)
    tag = _tag(record)
    if tag is not None:
        return Worth(tag, "tag")
    row = tables.CHAIN_LB.get(chain_size(record))
    if row is None:
        return Worth(None, "size not in the table")
    mark = record.get("mark")
    if mark is None:
        return Worth(row[tables.UNMARKED_GRADE], "unmarked: grade 30")
    grade = tables.GRADE_OF_MARK.get(str(mark).strip())
    if grade is None or grade not in row:
        return Worth(None, "mark %s not in the table for the size" % mark)
    return Worth(row[grade], "grade %d by its mark" % grade)


def grade(record):
    """Grade of a chain by its mark, unmarked 30, None where no grade has
    the mark."""
    mark = record.get("mark")
    if mark is None:
        return tables.UNMARKED_GRADE
    return tables.GRADE_OF_MARK.get(str(mark).strip())


def _strap(record):
    width = inches(record, "width")
    near = next((w for w in tables.WEBBING_LB
                 if width is not None and abs(w - width) < 0.06), None)
    total = 0.0
    for finding in findings_of(record):
        if finding.get("kind") not in tables.STRAP_SUMMED:
            return Worth(0.0, str(finding.get("kind")), in_use=False)
        size = inches(finding, "size")
        if size is None:
            return Worth(0.0, "damage of unknown size", in_use=False)
        total += size
    if total > 0:
        limit = tables.STRAP_DAMAGE_OVER_IN.get(near)
        if limit is None or total > limit * (1 + 1e-9):
            return Worth(0.0, "%.3f in of damage" % total, in_use=False)
    tag = _tag(record)
    if tag is not None:
        return Worth(tag, "tag")
    if near is None:
        return Worth(None, "width not in the table")
    return Worth(tables.WEBBING_LB[near], "by width")


def _smallest_grade_30(sizes):
    """Grade 30 of the smallest size named, None where none is known."""
    rows = [(fraction(size), tables.CHAIN_LB[str(size).strip()])
            for size in sizes if str(size).strip() in tables.CHAIN_LB]
    return min(rows, key=lambda row: row[0])[1][tables.UNMARKED_GRADE] \
        if rows else None


def _binder(record):
    found = findings_of(record)
    if found:
        return Worth(0.0, str(found[0].get("kind")), in_use=False)
    present, value = pounds_seen(record, "wll")
    if value is not None:
        return Worth(value, "its mark")
    if present:
        return Worth(_smallest_grade_30(record.get("chain_sizes") or []),
                     "unmarked: grade 30 of the smallest size")
    return Worth(None, "rating not looked at")          # [A7]


def _connector(record):
    found = findings_of(record)
    if found:
        return Worth(0.0, str(found[0].get("kind")), in_use=False)
    return Worth(pounds(record, "wll"), "its mark")


def ends(record):
    """The two ends of a chain or strap as (hook, needs in, wll, unmarked)."""
    two = record.get("ends") or [record, record]
    result = []
    for end in two:
        own = end is record
        present, value = pounds_seen(end, "hook_wll" if own else "wll")
        result.append({"hook": end.get("hook", record.get("hook")),
                       "needs": inches(end, "hook_needs" if own else "needs"),
                       "wll": value,
                       "unmarked": present and value is None})
    return result


def hook_worth(record, end):
    """Pounds of an end's hook, None where it is taken as the chain's [A7]."""
    if end["unmarked"]:
        row = tables.CHAIN_LB.get(chain_size(record))
        return None if row is None else row[tables.UNMARKED_GRADE]
    return end["wll"]


def goes_back(end):
    """True if this end is hooked back on its own chain [A1]."""
    return end["hook"] in (None, "grab", "clevis_grab")


def binder_fits(binder, chain):
    """False where the binder is not made for the chain's size."""
    size = chain_size(chain)
    sizes = binder.get("chain_sizes") or []
    if size is None or not sizes:
        return True
    try:
        return any(abs(fraction(s) - fraction(size)) < 1e-6 for s in sizes)
    except ValueError:
        return size in [str(s).strip() for s in sizes]


def hook_fits(end, opening, bar, connectors):
    """None where it fits or cannot be told, else what does not fit.

    connectors: records at this end.  The connector's pin goes through the
    eye, its jaw spans the bar, the hook goes into the connector.
    """
    needs = end["needs"]
    if end["hook"] == "none" and not connectors:
        return "an end without a hook, and no connector"
    for connector in connectors:
        pin, jaw = inches(connector, "pin"), inches(connector, "jaw")
        if pin is not None and opening is not None \
                and not reaches(opening, pin):
            return "pin of %s too big for the eye" % connector["id"]
        if jaw is not None and bar is not None and not reaches(jaw, bar):
            return "jaw of %s too small for the bar" % connector["id"]
        opening, bar = inches(connector, "opening"), None
    if needs is not None and opening is not None \
            and not reaches(opening, needs):
        return "hook needs %.2f in, opening is %.2f in" % (needs, opening)
    return None
