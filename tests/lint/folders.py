# SPDX-License-Identifier: GPL-3.0-or-later
"""Which folder of src/ may use which, and whose each outside header is. DEVELOPERS.md shows the same table to people."""

BELOW_OFFICE = ["card", "store", "planner", "rules", "statics", "model"]

MAY_USE = {
    "model": [],
    "statics": ["model"],
    "rules": ["statics", "model"],
    "planner": ["rules", "statics", "model"],
    "store": ["model"],
    "card": ["model"],
    "office": BELOW_OFFICE,
    "cli": ["office"] + BELOW_OFFICE,
    "desk": ["office"] + BELOW_OFFICE,
}

# Folders that know neither clock, locale, environment nor chance.
CORE = ["model", "statics", "rules", "planner", "store", "card", "office"]

# Headers that the build makes, and the folder whose they are.
GENERATED = {"fl-config.h": "office", "fl-desk-resources.h": "desk"}

# Start of an outside header's name: the folders of src/ that may include it.
OUTSIDE = {
    "gtk/": ["desk"],
    "gdk/": ["desk"],
    "gdk-pixbuf/": ["desk"],
    "atk/": ["desk"],
    "cairo": ["card", "desk"],
    "pango/": ["card", "desk"],
    "fontconfig/": ["card"],
    "glpk.h": ["planner"],
    "sqlite3.h": ["store"],
    "sodium": ["store"],
    "csv.h": ["office"],
    "qrencode.h": ["card"],
}

# What tests/ may include of these: only the desk's tests have the screen's libraries.
SCREEN = ["gtk/", "gdk/", "gdk-pixbuf/", "atk/"]

# pkg-config names that a folder's own headers may need; a folder also gets those of what it may use.
PACKAGES = {
    "model": ["gio-2.0", "json-glib-1.0"],
    "card": ["cairo", "pangocairo", "pangoft2", "fontconfig"],
    "desk": ["gtk+-3.0"],
}
