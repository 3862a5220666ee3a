#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-lints.py FOLDER_OF_LINTS: breaks each lint on purpose, in a small tree of its own, and asks whether it notices.

A case is a lint, the files of the tree, and the places it must report: nothing more and nothing less."""
import os
import re
import subprocess
import sys
import tempfile

sys.path.insert(0, sys.argv[1])
import catalogs  # noqa: E402
import lint  # noqa: E402
from tree import Tree  # noqa: E402

SPDX = "SPDX-License-" + "Identifier: GPL-3.0-or-later"
DO_LATER = "TO" + "DO"
MARKED_CALL = '/* lint: allow calls: the ledger stamps its entries */\n'


def lines(count):
    return "int x;\n" * count


def function(name, count):
    return "int\n%s (void)\n{\n%s  return 0;\n}\n" % (name, "  g ();\n" * (count - 4))


CATALOG = """msgid ""
msgstr ""
"Project-Id-Version: x\\n"
"PO-Revision-Date: 2026-01-01 00:00+0000\\n"
"Last-Translator: x\\n"
"Language-Team: x\\n"
"Language: x\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=UTF-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"Plural-Forms: nplurals=2; plural=n != 1;\\n"
"""
BOOK = '{"cautions": {"items": []}, "walk_round": {"items": [{"id": "deck", "text": "%s"}]}, "title": "T"}'
QUOTED = r'Swept \"clean\"'
BOOK_TEXT = '\n/* walk_round of a.json: deck */\nN_("%s")\n' % QUOTED
HOLES = '''
msgid "{a} of {b}"
msgstr ""
"{b}: {a}"

#, fuzzy
msgid "{a}"
msgstr "x"

msgid "at {a}"
msgstr "bei {A}"

#~ msgid "{a}"
#~ msgstr ""
msgctxt "x"
msgid "none"
msgstr "{b}"

msgid "later {a}"
msgstr ""
'''
TABLE = "| `src/%s` | what it is | %s |\n"

CASES = [
    ("include-climbing", {"src/rules/a.c": '#include "fl-a.h"\n#include "../model/fl-b.h"\n',
                          "src/rules/b.c": '/* #include "../x.h" */\n'}, [("src/rules/a.c", 2)]),
    ("include-names", {"src/model/fl-a.h": "", "src/statics/fl-a.h": "", "src/rules/b.h": ""},
     [("src/rules/b.h", 0), ("src/statics/fl-a.h", 0)]),
    ("include-names", {"src/model/fl-config.h": ""}, [("src/model/fl-config.h", 0)]),
    ("include-arrows", {"src/model/fl-m.h": "", "src/rules/fl-r.h": '#include "fl-m.h"\n#include <glib.h>\n',
                        "src/statics/s.c": '#include <math.h>\n#include "fl-m.h"\n\n#include "fl-r.h"\n'}, [("src/statics/s.c", 4)]),
    ("include-arrows", {"src/card/c.c": '#include <fl-r.h>\n', "src/rules/fl-r.h": ""}, [("src/card/c.c", 1)]),
    ("include-arrows", {"src/card/c.c": '#include "nowhere.h"\n'}, [("src/card/c.c", 1)]),
    ("include-arrows", {"src/desk/d.c": '#include "fl-c.h"\n#include "fl-config.h"\n', "src/card/fl-c.h": "",
                        "src/cli/d.c": '#include "fl-d.h"\n', "src/desk/fl-d.h": ""}, [("src/cli/d.c", 1)]),
    ("include-outside", {"src/office/o.c": "#include <gtk/gtk.h>\n", "src/desk/d.c": "#include <gtk/gtk.h>\n"}, [("src/office/o.c", 1)]),
    ("include-outside", {"src/rules/r.c": "#include <glpk.h>\n", "src/planner/p.c": "#include <glpk.h>\n",
                         "tests/planner/t.c": "#include <glpk.h>\n"}, [("src/rules/r.c", 1)]),
    ("include-outside", {"src/model/m.c": "\n#include <cairo.h>\n#include <pango/pangocairo.h>\n",
                         "src/card/c.c": "#include <cairo-pdf.h>\n#include <fontconfig/fontconfig.h>\n"},
     [("src/model/m.c", 2), ("src/model/m.c", 3)]),
    ("include-outside", {"src/cli/c.c": "#include <sqlite3.h>\n#include <sodium.h>\n#include <csv.h>\n#include <qrencode.h>\n"},
     [("src/cli/c.c", n) for n in (1, 2, 3, 4)]),
    ("include-outside", {"tests/card/t.c": "#include <gtk/gtk.h>\n", "tests/desk/t.c": "#include <gtk/gtk.h>\n"}, [("tests/card/t.c", 1)]),
    ("documented-arrows", {"DEVELOPERS.md": TABLE % ("model", "GLib") + TABLE % ("statics", "`model`; libm") + TABLE % ("rules", "`statics`, `model`")},
     []),
    ("documented-arrows", {"DEVELOPERS.md": TABLE % ("model", "`rules`"), "src/card/x": ""}, [("DEVELOPERS.md", 0), ("DEVELOPERS.md", 1)]),
    ("headers-alone", {"src/model/fl-a.h": "int fl_a (int b);\n", "src/model/fl-b.h": "\ngboolean fl_b (void);\n",
                       "src/rules/fl-c.h": '#include "fl-a.h"\n', "src/statics/fl-d.h": '#include "fl-c.h"\n'},
     [("src/model/fl-b.h", 2), ("src/statics/fl-d.h", 1)]),
    ("calls", {"src/model/m.c": 'void f (void)\n{\n  setlocale (LC_ALL, "");\n  g_get_real_time ();\n  x = time (NULL);\n'
                                "  g_date_time_new_now_utc ();\n  rand ();\n  strtod (s, NULL);\n  atof (s);\n  g_getenv (s);\n}\n",
               "src/cli/c.c": 'void f (void) { setlocale (LC_ALL, ""); g_get_real_time (); g_print ("x"); }\n'},
     [("src/model/m.c", n) for n in (3, 4, 5, 6, 7, 8, 9, 10)]),
    ("calls", {"src/rules/r.c": '/* time (x) */\n#define f time (x)\nfl_time (x); a.time (x); a->time (x); g_ascii_strtod (x, y); "time (x)";\n'
                                "my_rand (3); g_snprintf (a, b);\n"}, []),
    ("calls", {"src/store/s.c": MARKED_CALL + "g_get_real_time ();\ng_get_real_time ();  /* lint: allow calls: */\n"}, [("src/store/s.c", 3)]),
    ("calls", {"src/office/fl-places.c": "g_getenv (a);\n", "src/office/o.c": "g_getenv (a);\n"}, [("src/office/o.c", 1)]),
    ("doubles", {"src/card/c.c": 'a ("%d%%f", 1);\nb ("%.1fmm", x);\nc ("%s at %g", x);\nd ("100% free, 5%early");\ne ("%-8.3Lf");\n'
                                 "/* \"%f\" */\nf ('%f');\n"}, [("src/card/c.c", n) for n in (2, 3, 5)]),
    ("doubles", {"src/model/m.c": 'g_ascii_formatd (b, sizeof (b),\n  "%.3f", x);\ng (h ("%.3f", x));\n', "src/desk/d.c": 'a ("%f");\n'},
     [("src/model/m.c", 3)]),
    ("doubles", {"src/model/m.c": 'a ("%f");  /* lint: allow doubles: a debugging aid */\n'}, []),
    ("file-length", {"src/model/a.c": lines(701), "src/model/b.c": lines(700), "src/model/t.c": lines(900),
                     "tests/lint/exempt/long-files": "# why\nsrc/model/t.c  the table of marks\n"}, [("src/model/a.c", 701)]),
    ("function-length", {"src/model/a.c": function("fl_long", 61) + function("fl_most", 60) + function("fl_table", 90),
                         "tests/lint/exempt/long-functions": "src/model/a.c:fl_table  a table\n"}, [("src/model/a.c", 2)]),
    ("exempt-lists", {"src/model/a.c": function("fl_table", 90), "tests/lint/exempt/long-files": "src/model/a.c gone\nsrc/model/b.c gone\n",
                      "tests/lint/exempt/long-functions": "src/model/a.c:fl_table a table\nsrc/model/a.c:fl_gone a table\n"},
     [("tests/lint/exempt/long-files", 0)] * 2 + [("tests/lint/exempt/long-functions", 0)]),
    ("license-lines", {"src/a.c": "/* %s */\n" % SPDX, "src/b.c": "int x;\n", "ui/a.ui": "<?xml?>\n<!-- %s -->\n" % SPDX,
                       "tests/run": "#!/bin/bash\n", "src/meson.build": "x\n", "data/a.json": "{}\n"},
     [("src/b.c", 1), ("src/meson.build", 1), ("tests/run", 1)]),
    ("dead-code", {"src/a/a.c": "int x;\n#if 0\n#endif\n/*\n#if 0\n*/\n#  if 0\n#if 01\n"}, [("src/a/a.c", 2), ("src/a/a.c", 7)]),
    ("notes-to-self", {"src/a/a.c": "/* %s: later */\nint FIXED;\n" % DO_LATER, "README.md": "x\n%s\n" % ("FIX" + "ME")},
     [("README.md", 2), ("src/a/a.c", 1)]),
    ("translated-files", {"po/POTFILES.in": "# files\nsrc/a/c.c\nsrc/a/b.c\nui/gone.ui\n", "src/a/b.c": 'N_ ("x");\n', "src/a/c.c": '_("x");\n',
                          "src/a/d.c": 'a_ ("x"); /* _("y") */\n', "ui/e.ui": '<property translatable="yes">x</property>\n'},
     [("po/POTFILES.in", 0), ("po/POTFILES.in", 3), ("po/POTFILES.in", 4)]),
    ("top-level", {"README.md": "", "src/a": "", "notes.txt": "", ".ci/run": "", ".secret": ""}, [(".secret", 0), ("notes.txt", 0)]),
    ("shell-scripts", {"tests/a.sh": "if\n", "data/b.sh": "echo x\n"}, [("tests/a.sh", 2)]),
    ("shell-scripts", {"tests/run": "#!/bin/bash\necho x\n"}, [("tests/run", 1)]),
    ("markup", {"ui/a.ui": "<a>\n<b></a>\n", "ui/b.xml": "<a/>\n"}, [("ui/a.ui", 2)]),
    ("desktop-entry", {"build/data/x.desktop": "[Desktop Entry]\nType=Application\nName=X\nFoo=x\n"}, [("data/x.desktop.in", 0)]),
    ("desktop-entry", {"build/data/x.txt": ""}, [("data/*.desktop", 0)]),
    ("metainfo", {"build/data/x.metainfo.xml": "<component type='desktop-application'><id>x</id></component>\n"}, [("data/x.metainfo.xml.in", 0)]),
    ("settings-schema", {"data/x.gschema.xml": "<schemalist><schema id='a.b' path='/a/b/'><key name='k' type='i'>"
                                               "<default>'x'</default></key></schema></schemalist>\n"}, [("data", 0)]),
    ("catalogs", {"po/LINGUAS": "# codes\nxx\nde\n", "po/de.po": CATALOG, "po/fr.po": CATALOG + '\n#, c-format\nmsgid "%d"\nmsgstr "%s"\n'},
     [("po/LINGUAS", 0)] * 3 + [("po/fr.po", 15)]),
    ("book-texts", {"data/rules/a.json": BOOK % QUOTED, "po/books.c": catalogs.HEAD + BOOK_TEXT}, []),
    ("book-texts", {"data/rules/a.json": BOOK % "Swept", "po/books.c": catalogs.HEAD + BOOK_TEXT}, [("po/books.c", 0)]),
    ("book-texts", {"data/rules/a.json": BOOK % "Swept"}, [("po/books.c", 0)]),
    ("holes", {"po/de.po": CATALOG + HOLES}, [("po/de.po", 21), ("po/de.po", 27)]),
    ("screenless", {"build/src/cli/fairlead-cli": "no program\n"}, [("src/cli/fairlead-cli", 0)]),
]


def plant(files, root):
    for name, text in files.items():
        path = os.path.join(root, name)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)


def run_case(name, files, expected):
    """'' or what is wrong."""
    with tempfile.TemporaryDirectory() as root:
        plant(files, root)
        found = sorted((p.path, p.line) for p in lint.LINTS[name](Tree(root, os.path.join(root, "build"))))
    return "" if found == sorted(expected) else "found %s, expected %s" % (found, sorted(expected))


def screen_is_noticed():
    """A real program that is linked with the screen's library."""
    with tempfile.TemporaryDirectory() as root:
        plant({"a.c": "extern int gtk_get_major_version (void); int main (void) { return gtk_get_major_version (); }\n",
               "src/cli/x": ""}, root)
        program = os.path.join(root, "src/cli/fairlead-cli")
        libraries = subprocess.run(["pkg-config", "--libs", "gtk+-3.0"], capture_output=True, text=True, check=True).stdout.split()
        subprocess.run(["cc", os.path.join(root, "a.c"), "-o", program, *libraries], check=True)
        found = lint.LINTS["screenless"](Tree(root, root))
    return "" if any("libgtk-3" in p.what for p in found) else "found %s" % found


def registered(folder):
    """The lints of lint.py are those that meson.build runs, and each is broken by some case."""
    with open(os.path.join(folder, "meson.build"), encoding="utf-8") as file:
        run = re.findall(r"^  '([a-z-]+)',$", file.read(), re.M)
    broken = {name for name, _, expected in CASES if expected}
    missing = set(lint.LINTS) ^ set(run) | set(lint.LINTS) - broken
    return "not run, not known or not broken: %s" % ", ".join(sorted(missing)) if missing else ""


def main():
    checks = [(name, lambda case=(name, files, expected): run_case(*case)) for name, files, expected in CASES]
    checks += [("screenless notices a program with the screen", screen_is_noticed),
               ("every lint is run and broken", lambda: registered(sys.argv[1]))]
    print("1..%d" % len(checks))
    for number, (name, check) in enumerate(checks, 1):
        wrong = check()
        print("%s %d - %s%s" % ("not ok" if wrong else "ok", number, name, wrong and "\n# " + wrong), flush=True)


main()
