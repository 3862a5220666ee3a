/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verbs of fairlead-cli, their options and their help. */
#include "fl-cli-say.h"

#include <string.h>

#include "fl-config.h"

enum { TAKES_JSON = 1, TAKES_MOVE = 2, TAKES_DATE = 4, TAKES_OUT = 8, TAKES_BRIEF = 16 };

typedef struct
{
  const char *name, *usage, *help;
  guint words;                  /* file names that it asks for */
  guint options;                /* TAKES_* */
  int (*run) (const FlCliArgs *args);
} Verb;

static const Verb verbs[] = {
  { "check-fleet", "FLEET [--json]",
    "Lists every problem and warning of a fleet document, each with its path.\n"
    "  --json  {\"problems\": [{\"path\", \"line\", \"value\", \"expected\", \"severity\"}]}\n",
    1, TAKES_JSON, fl_cli_check_fleet },
  { "rate", "FLEET [--brief] [--json]",
    "Says of each piece of gear what it is worth now, and why, step by step.\n"
    "  --brief  one line a piece, without the steps\n"
    "  --json   {\"gear\": [{\"id\", \"kind\", \"wll_lb\", \"in_use\", \"because\", \"citation\", \"steps\"}]}\n",
    1, TAKES_JSON | TAKES_BRIEF, fl_cli_rate },
  { "propose", "FLEET (--move ID | --date DAY) [-o FILE] [--brief] [--json]",
    "Plans a move, or all moves of a day against the gear they share. Where there is no plan it says why, and what would cure it.\n"
    "  --move ID   one move\n"
    "  --date DAY  all moves of a day, 2026-11-25\n"
    "  -o FILE     writes the plan of a move, {\"plans\": [...]} of a day\n"
    "  --brief     without how the figures come about\n"
    "  --json      {\"plans\": [PLAN...], \"unplanned\": [{\"move\", \"because\", \"cures\"}]}\n",
    1, TAKES_JSON | TAKES_MOVE | TAKES_DATE | TAKES_OUT | TAKES_BRIEF, fl_cli_propose },
  { "check", "FLEET PLAN [--brief] [--json]",
    "Judges a plan document, or all of {\"plans\": [...]}: what is short first, with need, have and citation, and how each figure comes about.\n"
    "  --brief  without how the figures come about, what is met, and the forces\n"
    "  --json   the plan with its results; {\"plans\": [...], \"clashes\": [...]} for a list\n",
    2, TAKES_JSON | TAKES_BRIEF, fl_cli_check },
  { "card", "FLEET PLAN -o OUT [--json]",
    "Writes the securement card as PDF. Unsigned cards say DRAFT.\n"
    "  -o OUT   one file with all cards\n"
    "  -o DIR/  one file a move in a folder that is there\n"
    "  --json   {\"cards\": [{\"move\", \"path\", \"verdict\", \"house\"}]}\n",
    2, TAKES_JSON | TAKES_OUT, fl_cli_card },
};

static const char status_help[] =
  "\nExit status: 0 nothing stands against it; 1 something of law, rating, practice or house is short or unknown, or there is no plan;\n"
  "2 bad input or usage, with a line on standard error for each problem: file, line, path, value, what was expected.\n";

/* ── help ── */

static int
general_help (void)
{
  g_autoptr(GString) out = g_string_new ("Plans and checks the tie-down of machines on trailers.\n\n");

  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    g_string_append_printf (out, "  fairlead-cli %s %s\n", verbs[i].name, verbs[i].usage);
  g_string_append (out, "  fairlead-cli VERB --help\n  fairlead-cli --version\n");
  g_string_append (out, status_help);
  return fl_cli_answer (out, FL_CLI_GOOD);
}

static int
verb_help (const Verb *verb)
{
  g_autoptr(GString) out = g_string_new (NULL);

  g_string_append_printf (out, "usage: fairlead-cli %s %s\n\n%s%s", verb->name, verb->usage, verb->help, status_help);
  return fl_cli_answer (out, FL_CLI_GOOD);
}

static int
version (void)
{
  g_autoptr(GString) out = g_string_new ("fairlead-cli " FL_VERSION "\n");

  return fl_cli_answer (out, FL_CLI_GOOD);
}

/* What is wrong with the command line, then how it goes. */
static int
bad_usage (const Verb *verb, const char *what)
{
  g_autofree char *line = g_strdup_printf ("fairlead-cli%s%s: %s", verb != NULL ? " " : "", verb != NULL ? verb->name : "", what);
  g_autofree char *usage = NULL;

  usage = verb != NULL ? g_strdup_printf ("usage: fairlead-cli %s %s", verb->name, verb->usage)
                       : g_strdup ("usage: fairlead-cli (check-fleet | rate | propose | check | card) FLEET ...; fairlead-cli --help says more");
  fl_cli_complain (line);
  fl_cli_complain (usage);
  return FL_CLI_BAD;
}

/* ── options ── */

/* Names of files and records come as bytes, in no locale's characters. */
typedef struct { gboolean help, json, brief; char *move, *date, *out; char **words; } Typed;

static void
typed_clear (Typed *typed)
{
  g_free (typed->move);
  g_free (typed->date);
  g_free (typed->out);
  g_strfreev (typed->words);
}

static gboolean
parse (const Verb *verb, char **argv, Typed *typed, GError **error)
{
  const struct { guint needs; GOptionEntry entry; } all[] = {
    { 0, { "help", 'h', 0, G_OPTION_ARG_NONE, &typed->help, NULL, NULL } },
    { TAKES_JSON, { "json", 0, 0, G_OPTION_ARG_NONE, &typed->json, NULL, NULL } },
    { TAKES_BRIEF, { "brief", 0, 0, G_OPTION_ARG_NONE, &typed->brief, NULL, NULL } },
    { TAKES_MOVE, { "move", 0, 0, G_OPTION_ARG_FILENAME, &typed->move, NULL, NULL } },
    { TAKES_DATE, { "date", 0, 0, G_OPTION_ARG_FILENAME, &typed->date, NULL, NULL } },
    { TAKES_OUT, { "output", 'o', 0, G_OPTION_ARG_FILENAME, &typed->out, NULL, NULL } },
    { 0, { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &typed->words, NULL, NULL } },
  };
  GOptionEntry entries[G_N_ELEMENTS (all) + 1] = { 0 };
  g_autoptr(GOptionContext) context = g_option_context_new (NULL);
  g_auto(GStrv) copy = g_strdupv (argv);
  gsize n = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    if ((all[i].needs & ~verb->options) == 0)
      entries[n++] = all[i].entry;
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_add_main_entries (context, entries, NULL);
  return g_option_context_parse_strv (context, &copy, error);
}

/* NULL, or what is wrong with what was typed. (transfer full) */
static char *
complaint (const Verb *verb, const Typed *typed)
{
  guint n = typed->words != NULL ? g_strv_length (typed->words) : 0;

  if (n < verb->words)
    return g_strdup (verb->words == 1 || n == 0 ? "FLEET, the name of a fleet document, is missing" : "PLAN, the name of a plan document, is missing");
  if (n > verb->words)
    return g_strdup_printf ("\"%s\" is one name too many", typed->words[verb->words]);
  if ((verb->options & TAKES_MOVE) != 0 && (typed->move == NULL) == (typed->date == NULL))
    return g_strdup ("one of --move ID and --date DAY is needed, and only one");
  if (verb->run == fl_cli_card && typed->out == NULL)
    return g_strdup ("-o OUT, where the card is to be written, is missing");
  return NULL;
}

static int
run_verb (const Verb *verb, char **argv)
{
  Typed typed = { 0 };
  g_autoptr(GError) error = NULL;
  g_autofree char *wrong = NULL;
  int status;

  if (!parse (verb, argv, &typed, &error))
    status = bad_usage (verb, error->message);
  else if (typed.help)
    status = verb_help (verb);
  else if ((wrong = complaint (verb, &typed)) != NULL)
    status = bad_usage (verb, wrong);
  else
    status = verb->run (&(FlCliArgs) { typed.json, typed.brief, typed.move, typed.date, typed.out, (const char *const *) typed.words });
  typed_clear (&typed);
  return status;
}

int
fl_cli_run (int argc, char **argv)
{
  g_autofree char *wrong = NULL;

  if (argc < 2)
    return bad_usage (NULL, "a verb is missing");
  if (g_str_equal (argv[1], "--help") || g_str_equal (argv[1], "-h"))
    return general_help ();
  if (g_str_equal (argv[1], "--version"))
    return version ();
  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    if (g_str_equal (argv[1], verbs[i].name))
      return run_verb (&verbs[i], argv + 1);
  wrong = g_strdup_printf ("\"%s\" is no verb", argv[1]);
  return bad_usage (NULL, wrong);
}
