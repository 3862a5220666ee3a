/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fairlead-cli: one verb, its options, an exit status. Every verb is one file, fl-cli-<verb>.c. It speaks English and follows no locale. */
#ifndef FL_CLI_H
#define FL_CLI_H

#include "fl-office.h"

G_BEGIN_DECLS

/* Exit status. FL_CLI_GOOD: planned or judged, and nothing stands against it; FL_CLI_AGAINST: something of standing law, rating, practice or
 * house is short or unknown, or there is no plan; FL_CLI_BAD: bad input or usage. The worst of several is the largest. */
enum { FL_CLI_GOOD = 0, FL_CLI_AGAINST = 1, FL_CLI_BAD = 2 };

/* What was typed after the verb. */
typedef struct
{
  gboolean json, brief;         /* brief: without how the figures come about */
  const char *move, *date, *out;        /* NULL: not given */
  const char *const *words;             /* the file names, as many as the verb asks for */
} FlCliArgs;

/* The verbs; each returns its exit status and has said all there is to say. */
int fl_cli_check_fleet (const FlCliArgs *args);
int fl_cli_rate (const FlCliArgs *args);
int fl_cli_propose (const FlCliArgs *args);
int fl_cli_check (const FlCliArgs *args);
int fl_cli_card (const FlCliArgs *args);

/* The whole program: finds the verb, reads its options, runs it. `argv` as main gets it. Returns the exit status. */
int fl_cli_run (int argc, char **argv);

G_END_DECLS
#endif
