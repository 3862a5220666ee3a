/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The force answers of an assessment as a person reads them: one row for each load, level, friction and movement with the answers of all
 * methods side by side, and one for each tie-down with what it carries in each movement. Window and console show the same cells. */
#ifndef FL_FORCE_TABLE_H
#define FL_FORCE_TABLE_H

#include "fl-assessment.h"
#include "fl-words.h"

G_BEGIN_DECLS

enum { FL_FORCE_MAX_CASES = 8 };

/* The answers for one load, level, friction and case. All of it is borrowed from the assessment. */
typedef struct
{
  guint load;
  const char *case_id, *level, *friction;
  FlQuantity demand;            /* g */
  const FlForceResult *sum, *bound, *sharing;   /* NULL: the method has no answer here */
  guint most_used;              /* number of the tie-down that carries most of its limit in the load sharing; 0: not known */
  double use;                   /* how much of it; NaN: not known */
} FlForceRow;

typedef enum
{
  FL_FORCE_LOAD, FL_FORCE_LEVEL, FL_FORCE_FRICTION, FL_FORCE_CASE, FL_FORCE_DEMAND, FL_FORCE_SHARED, FL_FORCE_BOUND, FL_FORCE_SUM, FL_FORCE_MODE,
  FL_FORCE_AT_LIMIT, FL_FORCE_MOST_USED, FL_FORCE_MOVED, FL_FORCE_N_COLUMNS
} FlForceColumn;

/* What one tie-down carries in each case, in the order of fl_force_cases; NULL: no answer. */
typedef struct
{
  guint load;
  const char *level, *friction;
  guint no;
  const FlTensionResult *of[FL_FORCE_MAX_CASES];
} FlTensionRow;

/* The cases that have answers, each once, in the order of the answers, FL_FORCE_MAX_CASES at most: forward, rearward, left, right. (transfer full)
 * array of const char*, borrowed from the assessment */
GPtrArray *fl_force_cases (const FlAssessmentParts *parts);
/* By load; working before breaking, with friction before without, then by case. (transfer full) array of FlForceRow */
GArray *fl_force_rows (const FlAssessmentParts *parts);
/* Likewise, by tie-down. (transfer full) array of FlTensionRow */
GArray *fl_tension_rows (const FlAssessmentParts *parts);

/* What stands over every such table: what it is, and who comes first. Borrowed. */
const char *fl_force_advice (const FlWords *words);
/* Headings and words in the language of `words` (NULL: English). Words that are not known come back as they are. Borrowed. */
const char *fl_force_head (const FlWords *words, FlForceColumn column);
const char *fl_force_case_word (const FlWords *words, const char *case_id);
const char *fl_force_level_word (const FlWords *words, const char *level);
const char *fl_force_mode_word (const FlWords *words, const char *mode);      /* "it slides"; a dash for NULL */
const char *fl_force_friction_word (const FlWords *words, const char *friction);

/* A cell; a dash where there is no answer, never NaN. `id`: of the load. A load sharing that reached no limit as far as it was followed says
 * "at least". (transfer full) */
char *fl_force_cell (const FlWords *words, const FlForceRow *row, const char *id, FlForceColumn column, gboolean metric);
/* "3,120 lb, 47.3 %" of its limit at that level. (transfer full) */
char *fl_tension_cell (const FlTensionResult *tension, gboolean metric);
/* A row in full sentences. (transfer full) */
char *fl_force_sentence (const FlWords *words, const FlForceRow *row, gboolean metric);

G_END_DECLS
#endif
