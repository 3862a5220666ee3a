# SPDX-License-Identifier: GPL-3.0-or-later
"""Lints over calls: what the core may not know."""
import re

from folders import CORE
from tree import TOKEN, Problem, line_of

CLOCK = "take the time as an argument; only cli and desk read the clock"
LOCALE = "the core has no locale; only cli and desk set one"
CHANCE = "take a seed or the value as an argument: same input, same bytes"
NUMBER = "read it with g_ascii_strtod () or g_ascii_string_to_signed (), which do not follow the locale"

BANNED = [
    (r"setlocale|uselocale|newlocale|bindtextdomain|textdomain|nl_langinfo|localeconv|g_get_language_names\w*", LOCALE),
    (r"time|clock|clock_gettime|gettimeofday|localtime(?:_r)?|gmtime(?:_r)?|g_get_real_time|g_get_monotonic_time"
     r"|g_get_current_time|g_date_time_new_now\w*|g_timer_new", CLOCK),
    (r"rand|srand|rand_r|random|srandom|[dlm]rand48|g_random_\w+|g_rand_new|g_rand_new_with_seed_array|g_uuid_string_random"
     r"|getrandom", CHANCE),
    (r"atof|atoi|atol|atoll|strtod|strtof|strtold|g_strtod|v?f?sscanf|f?scanf", NUMBER),
    (r"exit|_exit|system|popen", "report a GError; only main ends the program"),
    (r"f?printf|puts|fputs|putchar|perror|g_print|g_printerr", "return what is to be said; only cli and desk speak"),
]

# The one file of the core that looks at its surroundings.
ENVIRONMENT = r"getenv|secure_getenv|setenv|g_getenv|g_setenv|g_get_environ|g_get_home_dir|g_get_user_\w+"
PLACES = "src/office/fl-places.c"


def called(names):
    """A call of one of `names`; not a member, not the tail of a longer name, not a declaration's macro argument."""
    return re.compile(r"(?<![\w.>])(%s)\s*\(" % names)


def core_files(tree, *endings):
    return tree.files(*endings, under=["src/" + folder for folder in CORE])


def banned_calls(tree):
    """Below cli and desk nobody asks the clock, the locale, chance or the environment, or speaks to a terminal."""
    patterns = [(called(names), advice) for names, advice in BANNED]
    environment = (called(ENVIRONMENT), "only fl-places reads the surroundings: pass in what is needed")
    problems = []
    for path in core_files(tree, ".c", ".h"):
        bare = re.sub(r"(?m)^[ \t]*#.*$", lambda m: " " * len(m[0]), tree.bare(path))
        for pattern, advice in patterns + ([environment] if path != PLACES else []):
            for match in pattern.finditer(bare):
                line = line_of(bare, match.start())
                if not tree.allowed(path, line, "calls"):
                    problems.append(Problem(path, line, "calls %s ()" % match[1], advice))
    return problems


# %f, %.2f, %*.*g, %-8.3Lf. Not "%%"; not "5 % free", with a space after the sign; not "5%early", a bare sign before a word.
DOUBLE = re.compile(r"%(?:[-+#0'\d.*]+[lL]?[aAeEfFgG]|[lL]?[aAeEfFgG](?![a-z]{2}))")


def enclosing_call(bare, offset):
    """Name of the function in whose argument list `offset` stands, or ''."""
    depth = 0
    for at in range(offset - 1, max(-1, offset - 4000), -1):
        sign = bare[at]
        if sign == ")":
            depth += 1
        elif sign == "(":
            if depth == 0:
                name = re.search(r"(\w+)\s*$", bare[:at][-80:])
                return name[1] if name else ""
            depth -= 1
        elif sign in "{};" and depth == 0:
            return ""
    return ""


def printed_doubles(tree):
    """printf of a double writes a comma where the locale has one."""
    problems = []
    for path in core_files(tree, ".c", ".h"):
        text, bare = tree.text(path), tree.bare(path)
        for token in TOKEN.finditer(text):
            if token[0][0] != '"':
                continue
            found = DOUBLE.search(token[0].replace("%%", "  "))
            if not found or enclosing_call(bare, token.start()) == "g_ascii_formatd":
                continue
            line = line_of(text, token.start())
            if not tree.allowed(path, line, "doubles"):
                problems.append(Problem(path, line, "prints a double with %s" % found[0],
                                        "use g_ascii_formatd () or g_ascii_dtostr (): printf follows the locale"))
    return problems
