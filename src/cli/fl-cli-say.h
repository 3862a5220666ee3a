/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the console program speaks: an answer to standard output, whole; a line for each problem to standard error. */
#ifndef FL_CLI_SAY_H
#define FL_CLI_SAY_H

#include "fl-cli.h"

G_BEGIN_DECLS

/* Writes an answer for people. Control characters of foreign texts are shown as U+FFFD, so that none of them steers a terminal.
 * Returns `status`, or FL_CLI_BAD with a line on standard error where it could not be written. */
int fl_cli_answer (const GString *text, int status);
/* Writes a JSON document, byte for byte; as above. */
int fl_cli_answer_json (GBytes *json, int status);

/* One line on standard error; made one line of valid UTF-8. */
void fl_cli_complain (const char *line);
/* A line for each error in `problems` ("file:line: path: value: expected"), else the line of `error`. Returns FL_CLI_BAD. */
int fl_cli_complain_all (const char *file, const FlProblems *problems, const GError *error);

/* Opens a fleet for a verb. NULL after a line for each problem. Warnings are counted in one line, with the verb that lists them. (transfer full) */
FlOffice *fl_cli_open (const char *path);

/* ── tables ── */

/* Columns of aligned text: `columns` has one letter for each, 'l' left or 'r' right. Widths are counted in characters. */
typedef struct _FlCliTable FlCliTable;
FlCliTable *fl_cli_table_new (const char *columns);
void fl_cli_table_free (FlCliTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlCliTable, fl_cli_table_free)
/* Adds the next cell, row after row; NULL is empty. The text is copied. */
void fl_cli_table_add (FlCliTable *table, const char *text);
/* The same, and takes the text. (transfer full) */
void fl_cli_table_take (FlCliTable *table, char *text);
/* A line of its own beneath the row that was begun last. (transfer full) */
void fl_cli_table_take_note (FlCliTable *table, char *text);
/* Appends the rows, each behind `indent` blanks and without blanks at its end. */
void fl_cli_table_print (const FlCliTable *table, guint indent, GString *out);

G_END_DECLS
#endif
