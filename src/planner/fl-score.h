/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The score's arithmetic, once for what is being chosen and for what was judged. Private to planner. */
#ifndef FL_SCORE_H
#define FL_SCORE_H

#include "fl-planner.h"

G_BEGIN_DECLS

/* The kinds of caution that the search cannot foresee, but asks the judge about and looks for ways to clear: the rules that say them. */
#define FL_SCORE_FORCE "force"
#define FL_SCORE_PLACEMENT "placement"
#define FL_SCORE_ALL_DIRECTIONS "all_directions"

/* TRUE if the judge has a caution by this rule; what he could not judge is none. */
gboolean fl_score_cautioned (const FlAssessment *assessment, const char *rule);

/* A tie-down as far as the score looks at it. */
typedef struct
{
  guint load;
  gboolean own, strap;
  FlVec point, anchor;          /* ends, m */
  double deck, plan;            /* degrees */
  double strength;              /* sum of the limits of its pieces, lb */
} FlScored;

/* All but the cautions and the coupling. */
FlScore fl_score_sum (const FlScored *ties, guint n, const FlBookData *data);

/* Distance of the coupling load from the middle of its band, lb; 0 where there is no band. `share` and lo, hi in percent. */
gint64 fl_score_coupling (double load_lb, double share, double lo, double hi);

G_END_DECLS
#endif
