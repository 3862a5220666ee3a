#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""test-docs.py ROOT [CLI]: what the documents for people show is true.

Every fenced block that begins with ```json is a document that names its format, or says in its first line what it is a part of
(```json fleet machine: "machine" among the $defs or the properties of the fleet schema). The judge is python3-jsonschema, an independent
implementation of JSON Schema Draft 2020-12 (https://json-schema.org/draft/2020-12). A key that the schema does not name is a slip
too: the program would warn of it. Links within the tree lead somewhere. The window's keys are in its table. With CLI, the console program: it takes the documents
without a warning, each plan by the fleet it names, and the example lines of README.md run, in order, in a folder of their own.
"""
import json
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

import jsonschema

from tap import Tap

ROOT = pathlib.Path(sys.argv[1]).absolute()
CLI = os.path.abspath(sys.argv[2]) if len(sys.argv) > 2 else None
PAGES = ["README.md", "DEVELOPERS.md"] + sorted("docs/" + path.name for path in (ROOT / "docs").glob("*.md"))
FENCE = re.compile(r"^```(\w*)[ \t]*([^\n]*)\n(.*?)^```[ \t]*$", re.M | re.S)
LINK = re.compile(r"\]\(([^)\s]+)\)")
LOOSE = {"recheck", "records"}  # members whose inside the schemas leave open


def text_of(page):
    return (ROOT / page).read_text(encoding="utf-8")


def line_of(text, offset):
    return text.count("\n", 0, offset) + 1


def blocks(page, language):
    """(where, words after the language, text) of each fenced block."""
    text = text_of(page)
    for found in FENCE.finditer(text):
        if found[1] == language:
            yield "%s:%d" % (page, line_of(text, found.start())), found[2].split(), found[3]


def once(pairs):
    """An object whose members stand in it once."""
    keys = [key for key, _ in pairs]
    if len(set(keys)) != len(keys):
        raise ValueError("a key stands twice: %s" % ", ".join(sorted({key for key in keys if keys.count(key) > 1})))
    return dict(pairs)


def schemas():
    """{"fleet": schema, ...}"""
    found = {}
    for path in sorted((ROOT / "data/schema").glob("fairlead-*-1.schema.json")):
        found[path.name.split("-")[1]] = json.loads(path.read_text(encoding="utf-8"))
    return found


def schema_for(block, words, found):
    """The schema of a block, or a text that says why there is none."""
    if isinstance(block, dict) and "format" in block:
        name = re.fullmatch(r"fairlead-(\w+)/1", str(block["format"]))
        return found[name[1]] if name and name[1] in found else "no schema for the format %s" % block["format"]
    if len(words) == 2 and words[0] in found:
        schema = found[words[0]]
        for parts in (schema["$defs"], schema["properties"]):
            if words[1] in parts:
                return dict(parts[words[1]], **{"$defs": schema["$defs"]})
    return "says neither its format nor what it is a part of"


# ── keys that a schema does not name ──

def followed(schema, root):
    """The schema and all that it takes in at the same place."""
    yield schema
    for key in ("allOf", "anyOf", "oneOf"):
        for part in schema.get(key, []):
            yield from followed(part, root)
    for key in ("then", "else"):
        if key in schema:
            yield from followed(schema[key], root)
    if "$ref" in schema:
        yield from followed(root["$defs"][schema["$ref"].rsplit("/", 1)[1]], root)


def strangers(value, schema, root, path=""):
    """Paths of the keys that the schema does not name."""
    parts = [part for part in followed(schema, root) if isinstance(part, dict)]
    if isinstance(value, dict):
        for key, inside in value.items():
            known = [part["properties"][key] for part in parts if key in part.get("properties", {})]
            known += [part["additionalProperties"] for part in parts if isinstance(part.get("additionalProperties"), dict)]
            if not known:
                yield "%s.%s" % (path, key)
            elif key not in LOOSE:
                yield from strangers(inside, {"allOf": known}, root, "%s.%s" % (path, key))
    elif isinstance(value, list):
        items = [part["items"] for part in parts if isinstance(part.get("items"), dict)]
        for index, inside in enumerate(value):
            yield from strangers(inside, {"allOf": items}, root, "%s[%d]" % (path, index))


def check_examples(tap, found):
    """Every example; returns the whole documents by format."""
    whole = {}
    for page in PAGES:
        for where, words, text in blocks(page, "json"):
            try:
                block = json.loads(text, object_pairs_hook=once)
            except ValueError as error:
                tap.check(False, "%s: is JSON" % where, error)
                continue
            schema = schema_for(block, words, found)
            if isinstance(schema, str):
                tap.check(False, "%s: is a document or a part of one" % where, schema)
                continue
            wrong = ["%s: %s" % (error.json_path, error.message) for error in jsonschema.Draft202012Validator(schema).iter_errors(block)]
            wrong += ["%s is no key of it" % path for path in strangers(block, schema, schema)]
            tap.check(not wrong, "%s: %s holds" % (where, " ".join(words) or block["format"]), *wrong)
            if not words:
                whole.setdefault(block["format"], []).append((where, block))
    return whole


# ── links ──

def anchors(page):
    """What the headings of a page are called in a link."""
    headings = re.findall(r"^#+ +(.*)$", FENCE.sub("", text_of(page)), re.M)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}


def check_links(tap):
    """Every link to a place in the tree leads there."""
    for page in PAGES:
        wrong = []
        for link in LINK.findall(FENCE.sub("", text_of(page))):
            if re.match(r"[a-z]+:", link):
                continue
            path, _, anchor = link.partition("#")
            target = os.path.normpath(os.path.join(os.path.dirname(page), path)) if path else page
            if not (ROOT / target).exists():
                wrong.append("%s is not there" % link)
            elif anchor and anchor not in anchors(target):
                wrong.append("%s: no such heading" % link)
        tap.check(not wrong, "%s: its links lead somewhere" % page, *wrong)


# ── the window's keys ──

KEY_NAMES = {"Escape": "Esc", "Page_Up": "Page Up", "Page_Down": "Page Down", "plus": "+", "minus": "-", "question": "?"}


def key_name(accelerator):
    """<Shift><Primary>e as people read it: Shift+Ctrl+E."""
    modifiers, key = re.fullmatch(r"((?:<\w+>)*)(\w+)", accelerator).groups()
    names = ["Ctrl" if name == "Primary" else name for name in re.findall(r"<(\w+)>", modifiers)]
    return "+".join(names + [KEY_NAMES.get(key, key.upper() if len(key) == 1 else key)])


def check_keys(tap):
    """Every key of the window's table of accelerators is in the table of docs/desk.md."""
    source = text_of("src/desk/fl-window-actions.c")
    table = re.findall(r'\{ "(win\.[\w-]+)", FL_KEYS \("([^"]+)"', source)
    shown = {key.strip() for row in re.findall(r"^\| ([^|]+) \|", text_of("docs/desk.md"), re.M) for key in row.split(", ")}
    missing = ["%s: %s" % (key_name(key), action) for action, key in table if key_name(key) not in shown]
    tap.check(len(table) > 20 and not missing, "docs/desk.md shows the window's keys", *missing)


# ── the console program ──

def run(folder, *command):
    """(exit status, all it said)"""
    done = subprocess.run(command, cwd=folder, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          text=True, check=False, timeout=120)
    return done.returncode, done.stdout.splitlines()


def write(folder, name, document):
    path = os.path.join(folder, name)
    with open(path, "w", encoding="utf-8") as file:
        json.dump(document, file)
    return path


def check_documents(tap, whole, folder):
    """The program takes the documents of the pages; a plan holds for the fleet that it names."""
    fleets = {}
    for where, document in whole.get("fairlead-fleet/1", []):
        fleets[document["name"]] = write(folder, "fleet-%d.json" % len(fleets), document)
        status, said = run(folder, CLI, "check-fleet", fleets[document["name"]], "--json")
        problems = json.loads("\n".join(said) or "{}").get("problems") if status == 0 else said
        tap.check(status == 0 and not problems, "%s: the program takes it without a warning" % where, status, problems)
    for where, document in whole.get("fairlead-plan/1", []):
        plan = write(folder, "plan.json", document)
        status, said = run(folder, CLI, "check", fleets[document["fleet"]], plan)
        tap.check(status == 0, "%s: the plan stands" % where, *said)


def check_lines(tap, folder):
    """The example lines of README.md."""
    os.symlink(ROOT / "data", os.path.join(folder, "data"))
    lines = [line for _, _, text in blocks("README.md", "sh") for line in text.splitlines() if line.startswith("fairlead-cli ")]
    for line in lines:
        status, said = run(folder, CLI, *shlex.split(line, comments=True)[1:])
        tap.check(status in (0, 1) and said, "README.md: %s" % line.split("#")[0].strip(), status, *said)
    tap.check(len(lines) >= 5, "README.md shows how the console program is used")


def main():
    """All of it."""
    tap = Tap()
    whole = check_examples(tap, schemas())
    tap.check({"fairlead-fleet/1", "fairlead-plan/1"} <= set(whole), "the pages show a whole fleet and a whole plan")
    check_links(tap)
    check_keys(tap)
    if CLI:
        with tempfile.TemporaryDirectory() as folder:
            check_documents(tap, whole, folder)
            check_lines(tap, folder)
    return tap.end()


if __name__ == "__main__":
    sys.exit(main())
