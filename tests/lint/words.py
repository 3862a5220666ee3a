# SPDX-License-Identifier: GPL-3.0-or-later
"""Lints over text: license lines, dead code, notes to self, words for translators."""
import re

from tree import Problem, line_of

SPDX = "SPDX-License-" "Identifier: GPL-3.0-or-later"
SOURCES = (".c", ".h", ".py", ".sh", ".ui", ".css", ".svg", ".xml", ".xml.in", "meson.build")
OTHER_LICENSE = ("data/org.fairlead.Fairlead.metainfo.xml.in",)  # names its own license in its own element


def license_lines(tree):
    """Every source file says its license within its first lines."""
    paths = set(tree.files(*SOURCES)) | {path for path, _ in tree.scripts()}
    paths |= {"meson.build"} if "meson.build" in tree.names() else set()
    return [Problem(path, 1, "has no license line", "start it with a comment: %s" % SPDX)
            for path in sorted(paths - set(OTHER_LICENSE)) if SPDX not in "\n".join(tree.lines(path)[:4])]


def dead_code(tree):
    """No code that is switched off."""
    problems = []
    for path in tree.files(".c", ".h", under=("src", "tests")):
        code = tree.code(path)
        problems += [Problem(path, line_of(code, m.start()), "has code that is switched off", "take it out; the history keeps it")
                     for m in re.finditer(r"(?m)^[ \t]*#[ \t]*if[ \t]+0\b", code)]
    return problems


def notes_to_self(tree):
    """No note of work to be done: it is done, or it is an issue."""
    note = re.compile(r"\b(?:TO" r"DO|FIX" r"ME|XX" r"X|HA" r"CK)\b")
    endings = (".c", ".h", ".py", ".sh", ".ui", ".css", ".xml", ".in", ".md", "meson.build", ".json")
    paths = set(tree.files(*endings)) | {path for path, _ in tree.scripts()} | {n for n in tree.names() if n.endswith(".md")}
    return [Problem(path, number, "has the note %s" % note.search(text)[0], "do it, or file it, and take the note out")
            for path in sorted(paths) for number, text in enumerate(tree.lines(path), 1) if note.search(text)]


MARKED = re.compile(r"(?<!\w)(?:N_|_|C_|NC_|Q_|gettext|ngettext|dgettext|dngettext|g_dgettext|g_dngettext|g_dpgettext2?)\s*\(\s*\"")
WITH_WORDS = ("data", "po", "src", "ui")
TRANSLATED_DATA = (".desktop.in", ".metainfo.xml.in", ".gschema.xml")


def has_words(tree, path):
    if path.endswith((".c", ".h")):
        return bool(MARKED.search(tree.code(path)))
    if path.endswith(".ui"):
        return bool(re.search(r"translatable=[\"'](?:yes|true|1)[\"']", tree.text(path)))
    return path.endswith(TRANSLATED_DATA)


def translated_files(tree):
    """po/POTFILES.in names every file with words to translate, in byte order, and no others."""
    potfiles = "po/POTFILES.in"
    listed = [(number, text.strip()) for number, text in enumerate(tree.lines(potfiles), 1)
              if text.strip() and not text.startswith("#")]
    names = [name for _, name in listed]
    wanted = [path for path in tree.files(under=WITH_WORDS) if has_words(tree, path)]
    problems = [Problem(potfiles, 0, "lacks %s" % path, "tests/lint/lint.py --write-potfiles . adds it") for path in wanted if path not in names]
    problems += [Problem(potfiles, number, "names %s, which has no words to translate" % name, "take it out")
                 for number, name in listed if name not in wanted]
    problems += [Problem(potfiles, number, "%s is not in its place" % name, "keep the list in byte order, each once")
                 for (number, name), before in zip(listed[1:], names) if name <= before]
    return problems


def write_potfiles(tree):
    """Brings po/POTFILES.in up to date, its comments kept."""
    comments = [text for text in tree.lines("po/POTFILES.in") if text.startswith("#")]
    names = [path for path in tree.files(under=WITH_WORDS) if has_words(tree, path)]
    with open(tree.path("po/POTFILES.in"), "w", encoding="utf-8") as file:
        file.write("\n".join(comments + names) + "\n")
