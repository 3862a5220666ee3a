# SPDX-License-Identifier: GPL-3.0-or-later
"""Reading numbers with their unit from a record: pounds, inches, degrees."""

LB_PER_KG = 1 / 0.45359237          # exact by definition of the pound
IN_PER_MM = 1 / 25.4                # exact by definition of the inch
LB_PER_DAN = 10 / 9.80665 * LB_PER_KG

_FORCE = {"_lb": 1.0, "_kg": LB_PER_KG}
_LENGTH = {"_in": 1.0, "_ft": 12.0, "_mm": IN_PER_MM, "_m": 1000 * IN_PER_MM}


class BadInput(Exception):
    """The documents cannot be judged; the text says which value and why."""


def _read(record, name, family, where):
    """(present, value): value is None for null."""
    found = [(key, factor) for key, factor in family.items()
             if name + key in record]
    if len(found) > 1:
        raise BadInput("%s: %s is given in two units" % (where, name))
    if not found:
        return False, None
    key, factor = found[0]
    value = record[name + key]
    if value is None:
        return True, None
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise BadInput("%s: %s%s is %r, expected a number"
                       % (where, name, key, value))
    return True, value * factor


def _family_with_dan(name):
    """Working load limits may also be given as lc_dan."""
    family = dict(_FORCE)
    if name.endswith("wll"):
        return family, name[:-3] + "lc"
    return family, None


def pounds_seen(record, name):
    """(present, pounds or None for null) of a weight or working load limit."""
    family, other = _family_with_dan(name)
    present, value = _read(record, name, family, record.get("id", "record"))
    if not present and other is not None:
        return _read(record, other, {"_dan": LB_PER_DAN},
                     record.get("id", "record"))
    return present, value


def pounds(record, name):
    """Pounds, or None where absent or null."""
    return pounds_seen(record, name)[1]


def inches(record, name, otherwise=None):
    """Inches, or `otherwise` where absent or null."""
    value = _read(record, name, _LENGTH, record.get("id", "record"))[1]
    return otherwise if value is None else value


def needed(value, what):
    """The value, or BadInput where it is missing."""
    if value is None:
        raise BadInput("%s is missing" % what)
    return value


def reaches(have, need):
    """The one comparison of the house: have >= need within 1e-9 of need."""
    return have >= need - 1e-9 * abs(need)


def fraction(text):
    """3/8, 1-3/4 or 0.375 as a number of inches."""
    total = 0.0
    for part in str(text).strip().replace(" ", "-").split("-"):
        top, slash, bottom = part.partition("/")
        total += float(top) / float(bottom) if slash else float(top)
    return total
