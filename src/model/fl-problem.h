/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is wrong with a document: all of it, each with its path, line, value and what was expected. */
#ifndef FL_PROBLEM_H
#define FL_PROBLEM_H

#include <glib.h>

G_BEGIN_DECLS

typedef enum { FL_SEVERITY_ERROR, FL_SEVERITY_WARNING } FlSeverity;

typedef struct
{
  const char *path;             /* "machines[3].tie_points[0].x_in"; "" for the document itself */
  guint line;                   /* 1-based; 0 where no line is known */
  const char *value;            /* as it stands in the document, shortened to 60 characters; NULL if absent */
  const char *expected;         /* one sentence that says what was expected and so the way out */
  FlSeverity severity;
} FlProblem;

typedef struct _FlProblems FlProblems;

/* As many are kept; what comes after is counted, and one last entry says that there is more. */
#define FL_PROBLEMS_MAX 10000

/* An empty list. (transfer full) */
FlProblems *fl_problems_new (void);
void fl_problems_free (FlProblems *problems);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlProblems, fl_problems_free)

/* Adds one; all texts are copied, made one line of valid UTF-8 and shortened. `problems` may be NULL: then nothing is kept. */
void fl_problems_add (FlProblems *problems, FlSeverity severity, const char *path, guint line, const char *value,
                      const char *expected, ...) G_GNUC_PRINTF (6, 7);

guint fl_problems_count (const FlProblems *problems);                 /* all that are kept; 0 for NULL */
guint fl_problems_errors (const FlProblems *problems);                /* those of severity error, kept or not; 0 for NULL */
const FlProblem *fl_problems_at (const FlProblems *problems, guint index);  /* in order of line, then of finding */

/* "file:line: path: value: expected" on one line, parts that are unknown left out. (transfer full) */
char *fl_problem_text (const FlProblem *problem, const char *file);

G_END_DECLS
#endif
