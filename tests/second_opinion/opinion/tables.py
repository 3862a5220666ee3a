# SPDX-License-Identifier: GPL-3.0-or-later
"""The second opinion's own numbers, each with where it comes from.

Read = compared with a public copy of the text; memory = not so compared.
"""

# 49 CFR 393.108(b), table of working load limits, chain, pounds (read).
# Rows: nominal size in inches; columns: grade.  The table has no cell for
# 7/16 in grade 80 and grade 100, and no row above 5/8 in.
CHAIN_LB = {
    "1/4": {30: 1300, 43: 2600, 70: 3150, 80: 3500, 100: 4300},
    "5/16": {30: 1900, 43: 3900, 70: 4700, 80: 4500, 100: 5700},
    "3/8": {30: 2650, 43: 5400, 70: 6600, 80: 7100, 100: 8800},
    "7/16": {30: 3700, 43: 7200, 70: 8750},
    "1/2": {30: 4500, 43: 9200, 70: 11300, 80: 12000, 100: 15000},
    "5/8": {30: 6900, 43: 13000, 70: 15800, 80: 18100, 100: 22600},
}

# The same table's metric names of the sizes, mm (read).
SIZE_OF_MM = {7: "1/4", 8: "5/16", 10: "3/8", 11: "7/16", 13: "1/2",
              16: "5/8"}

# 49 CFR 393.108(b), chain mark examples of the table (read).
GRADE_OF_MARK = {
    "3": 30, "30": 30, "300": 30,
    "4": 43, "43": 43, "430": 43,
    "7": 70, "70": 70, "700": 70,
    "8": 80, "80": 80, "800": 80,
    "10": 100, "100": 100, "1000": 100,
}

# 49 CFR 393.108(d): unmarked welded chain is taken as grade 30 (read).
UNMARKED_GRADE = 30

# 49 CFR 393.108(b), synthetic webbing by width, inches to pounds (read).
WEBBING_LB = {1.75: 1750, 2.0: 2000, 3.0: 3000, 4.0: 4000}

# Inspection practice, state training slides (read): total of cuts, burns and
# holes across the width over which a strap is out, inches by width.
STRAP_DAMAGE_OVER_IN = {1.75: 3 / 8, 2.0: 3 / 8, 3.0: 5 / 8, 4.0: 3 / 4}
STRAP_SUMMED = {"cut", "worn", "burned"}

# Inspection practice for links (read: a provincial manual, railroad loading
# rules, training slides): these put a chain out.
CHAIN_OUT = {"cracked", "bent", "twisted", "stretched", "worn", "welded",
             "knotted"}
# Only these repairs are accepted (common practice, no source, for the pins
# and cotters; lap links, bolts and quick links refused: read).
REPAIR_ACCEPTED = {"clevis", "double_clevis"}

# 49 CFR 393.106(d) (read): required part of the weight, and what counts.
AGGREGATE_PART = 0.5
SHARE_DIRECT = 0.5          # (d)(1)
SHARE_SAME_SIDE = 0.5       # (d)(2)
SHARE_OTHER_SIDE = 1.0      # (d)(3)

# 49 CFR 393.130(a), (c)(1) (read): weight from which, and how many.
HEAVY_LB = 10000.0
HEAVY_COUNT = 4

# 49 CFR 393.102(a) (read): g at working load limit and breaking strength.
WORKING_G = {"forward": 0.435, "rearward": 0.5, "left": 0.25, "right": 0.25}
BREAKING_G = {"forward": 0.8, "rearward": 0.5, "left": 0.5, "right": 0.5}

# 49 CFR 393.102(b) (read): downward force asked for, part of the weight.
HELD_DOWN_PART = 0.2
# Under it a direction is held in name only (the project's own), g.
FLOOR_G = 0.10

# Breaking strength over working load limit.  Chain by grade: NACM Welded
# Steel Chain Specifications, a vendor's copy of the chart (read).  Webbing:
# WSTDA-T1, at most a third (read).  Binders: the weakest read of makers'
# tables, 20,000 over 9,200 lb (read).  Fittings: the project's own.
BREAK_CHAIN = {30: 4.0, 43: 3.0, 70: 4.0, 80: 4.0, 100: 4.0}
BREAK_WEBBING = 3.0
BREAK_BINDER = 2.1
BREAK_FITTING = 3.0

# Run a binder needs where its record does not say, inches (memory).
BINDER_RUN_IN = {"ratchet": 30.0, "lever": 24.0}
# Take-up of a binder whose record does not say, inches (read: makers' figures,
# ratchet 8; lever 4.25 and 4.5, the greater one asks for more chain).
TAKE_UP_IN = {"ratchet": 8.0, "lever": 4.5}
HOOK_BACK_IN = 12.0         # for each end hooked back on its chain (memory)
TAIL_IN = 12.0              # loose end left over (memory)

# Which hitch goes into which (the pairs of the fleet format).
COUPLING_PAIRS = {"pintle": "lunette", "ball": "ball_coupler",
                  "gooseneck_ball": "gooseneck_coupler",
                  "fifth_wheel": "kingpin"}

# Least share of the trailer's gross on its coupling (the project's own).
COUPLING_LEAST_PCT = 5.0


def count_by_length(length_in, weight_lb, blocked):
    """49 CFR 393.110(b), (c) (read): least number of tie-downs."""
    feet = length_in / 12.0
    tens = _ceil(feet / 10.0)
    if blocked:
        return max(1, tens)
    if feet <= 5.0 + 1e-9:
        return 1 if weight_lb <= 1100.0 * (1 + 1e-9) else 2
    return 2 if feet <= 10.0 + 1e-9 else 2 + _ceil((feet - 10.0) / 10.0)


def _ceil(value):
    """Next whole number, forgiving the last digits of a division."""
    whole = int(value)
    return whole if value - whole <= 1e-9 else whole + 1
