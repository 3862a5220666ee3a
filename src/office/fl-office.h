/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An open fleet: its snapshot, the rule book in force, the plans of its moves; what window and console both do. No screen.
 * One thread (the main loop's) owns an office; the *_async calls work on immutable snapshots in another. */
#ifndef FL_OFFICE_H
#define FL_OFFICE_H

#include "fl-card.h"
#include "fl-planner.h"

G_BEGIN_DECLS

typedef struct _FlOffice FlOffice;

#define FL_OFFICE_ERROR (fl_office_error_quark ())
typedef enum { FL_OFFICE_ERROR_UNREADABLE, FL_OFFICE_ERROR_BAD_DOCUMENT, FL_OFFICE_ERROR_NO_BOOK, FL_OFFICE_ERROR_NO_MOVE, FL_OFFICE_ERROR_WRITE } FlOfficeError;
GQuark fl_office_error_quark (void);

/* Reads a whole file for parsing; a missing file, a directory or an unreadable one is one line with the path and the way out. (transfer full) */
GBytes *fl_office_read_file (const char *path, GError **error);
/* Writes a file whole or not at all: a temporary file beside it is renamed. FALSE and one line with the path where the folder is missing or
 * what stands there is no plain file. */
gboolean fl_office_write_file (const char *path, GBytes *content, GError **error);
/* The same question without writing: FALSE and the line where `path` cannot be a new or replaced plain file. */
gboolean fl_office_may_write (const char *path, GError **error);

/* Opens a fleet document: reads it, finds and reads its rule book, tightens it by the house rules, surveys the fleet. NULL with `error` when it cannot be
 * used; all that is wrong, warnings too, in `problems` (with fleet paths). (transfer full) */
FlOffice *fl_office_open (const char *path, FlProblems *problems, GError **error);
FlOffice *fl_office_ref (FlOffice *office);
void fl_office_unref (FlOffice *office);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlOffice, fl_office_unref)

const char *fl_office_path (const FlOffice *office);
const FlFleet *fl_office_fleet (const FlOffice *office);
const FlBook *fl_office_book (const FlOffice *office);
const FlMove *fl_office_move (const FlOffice *office, const char *move);          /* NULL if there is none */

/* The plans of the moves: those that the fleet carries in its `plans`, those read from files, those made here. In memory until a store keeps them. */
const FlPlan *fl_office_plan (const FlOffice *office, const char *move);          /* NULL: none yet */
void fl_office_set_plan (FlOffice *office, const char *move, const FlPlan *plan);  /* NULL takes it away */
/* The start for planning a move: its plan if it has one, else an empty one. (transfer full) */
FlPlan *fl_office_start (const FlOffice *office, const char *move, GError **error);
/* The judgement of a move's plan. NULL with an error when it has none or it names what is not there. (transfer full) */
FlAssessment *fl_office_assess (const FlOffice *office, const char *move, GError **error);

/* Reads PLAN (a plan document or {"plans": [...]}). NULL with `error`; all that is wrong in `problems`. (transfer full) array of FlPlan */
GPtrArray *fl_office_read_plans (const char *path, FlProblems *problems, GError **error);
/* The same from a text that was read; `path` for the error. (transfer full) */
GPtrArray *fl_office_parse_plans (const char *path, GBytes *text, FlProblems *problems, GError **error);

/* Adds what `plan` names and the fleet does not have: moves, trailers, loads, positions, points, anchors, gear. `text` is the document in which it
 * stands, at `prefix` ("" or "plans[3]."): paths and lines are of it. A plan without such a problem can be judged, but for one that is too large. */
void fl_office_check_plan (const FlOffice *office, const FlPlan *plan, GBytes *text, const char *prefix, FlProblems *problems);

/* What two plans of one time both hold: one text a clash ("chain C-041: 2026-11-25/01 and 2026-11-25/04"), over the plans the office has for the day.
 * (transfer full) array of char* */
GPtrArray *fl_office_clashes (const FlOffice *office, const char *date);

/* Unit numbers of gear that the office's plans of other moves hold while `move` is on its way. (transfer full) NULL-terminated */
char **fl_office_taken (const FlOffice *office, const char *move);

/* Planning at once, in this thread. A start without a trailer is planned on the best one that is free; gear, trailers and trucks that the plans of
 * other moves of that time hold stay out; cures are looked for. NULL only with an error. `host` may be NULL. (transfer full) */
FlProposal *fl_office_plan_move (const FlOffice *office, const FlPlan *start, const FlHost *host, GError **error);
/* All moves of a day. Plans in which a person has fixed, set aside, acknowledged or excepted something are kept (completed first where they do not stand
 * yet); all others are made anew. A day without moves is an empty answer. (transfer full) */
FlDayPlan *fl_office_plan_day (const FlOffice *office, const char *date, const FlHost *host, GError **error);

/* The same off the main loop, on snapshots taken now. progress (may be NULL) is called on the main loop, never after `done`; words that
 * come faster than the loop turns are left out. The result is not yet set as the office's plan. Cancelled: the answer so far, its `state` FL_RUN_CANCELLED. */
typedef void (*FlOfficeProgress) (gpointer self, double fraction, const char *text);
void fl_office_plan_move_async (FlOffice *office, const FlPlan *start, GCancellable *cancel, FlOfficeProgress progress, gpointer progress_self,
                                GAsyncReadyCallback done, gpointer data);
FlProposal *fl_office_plan_move_finish (FlOffice *office, GAsyncResult *result, GError **error);
void fl_office_plan_day_async (FlOffice *office, const char *date, GCancellable *cancel, FlOfficeProgress progress, gpointer progress_self,
                               GAsyncReadyCallback done, gpointer data);
FlDayPlan *fl_office_plan_day_finish (FlOffice *office, GAsyncResult *result, GError **error);

/* A language's words; NULL (English) for "en" or where there is no catalog. Kept by the office; borrowed. */
const FlWords *fl_office_words (FlOffice *office, const char *language);
/* The card of a judged plan: English, with the driver's language beside it where there is a catalog. DRAFT while `signature` is NULL. (transfer full) */
FlCard *fl_office_card (FlOffice *office, const FlAssessment *assessment, FlPaper paper, const FlSignature *signature, GError **error);
/* "2026-11-25-01.pdf" for the move 2026-11-25/01: a file name without separators. (transfer full) */
char *fl_office_card_name (const char *move);

G_END_DECLS
#endif
