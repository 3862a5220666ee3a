/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to office: what an open fleet holds, and the steps that its files share. */
#ifndef FL_OFFICE_PRIVATE_H
#define FL_OFFICE_PRIVATE_H

#include "fl-office.h"

G_BEGIN_DECLS

struct _FlOffice
{
  grefcount refs;
  char *path;
  FlFleet *fleet;
  FlBook *book;                 /* the rule book with the house's policy on top */
  GHashTable *plans;            /* a move's id -> FlPlan */
  GHashTable *words;            /* a language -> FlWords, NULL where there is no catalog */
  FlCardFont *font;             /* NULL until the first card */
};

/* FALSE and an error that names the move and some that there are. */
gboolean fl_office_check_move (const FlOffice *office, const char *move, GError **error);

/* Sets FL_OFFICE_ERROR_BAD_DOCUMENT: the first problem of severity error in one line, `what` where there is none. */
void fl_office_set_bad_document (const char *path, const FlProblems *problems, const char *what, GError **error);

/* As fl_office_taken, with the trailers and trucks that are away as well. (transfer full) */
char **fl_office_taken_all (const FlOffice *office, const char *move);

/* What planning one move rests on: immutable snapshots, good in any thread. */
typedef struct
{
  FlBook *book;
  FlFleet *fleet;
  FlPlan *start;
  char **taken;                 /* gear, trailers and trucks that the plans of other moves of its time hold */
} FlMoveTask;
FlMoveTask *fl_move_task_new (const FlOffice *office, const FlPlan *start);      /* (transfer full) */
void fl_move_task_free (FlMoveTask *task);
/* The best plan on the start's trailer, or on the best trailer that is free where it names none; cures are looked for. (transfer full) */
FlProposal *fl_move_task_run (const FlMoveTask *task, const FlHost *host, GError **error);

/* The same of a day: `kept` are the plans in which a person has fixed something. */
typedef struct
{
  FlBook *book;
  FlFleet *fleet;
  char *date;
  GPtrArray *kept;              /* of FlPlan, in the order of the day */
} FlDayTask;
FlDayTask *fl_day_task_new (const FlOffice *office, const char *date);           /* (transfer full) */
void fl_day_task_free (FlDayTask *task);
FlDayPlan *fl_day_task_run (const FlDayTask *task, const FlHost *host, GError **error);

G_END_DECLS
#endif
