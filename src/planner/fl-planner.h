/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do: the best plan for one move, the trailers for a machine, a whole day. Whatever is returned has passed the judge.
 * Pure functions of snapshots; any thread. Limits are work, not seconds: the same question has the same answer everywhere; only
 * cancelling may change it. */
#ifndef FL_PLANNER_H
#define FL_PLANNER_H

#include "fl-host.h"
#include "fl-judge.h"

G_BEGIN_DECLS

#define FL_PLANNER_ERROR (fl_planner_error_quark ())
typedef enum { FL_PLANNER_ERROR_NO_RECORD, FL_PLANNER_ERROR_BAD_START } FlPlannerError;
GQuark fl_planner_error_quark (void);

typedef enum { FL_RUN_DONE, FL_RUN_CANCELLED, FL_RUN_OUT_OF_WORK } FlRunState;           /* how the search ended */
typedef enum { FL_PROVEN_BEST, FL_BEST_FOUND, FL_NONE_EXISTS, FL_NONE_FOUND } FlQuality; /* what its answer is worth */

/* What "best" means, compared left to right, less is better; every one an integer, so that it can be explained in one sentence and another solver
 * can be compared.
 *   cautions         how many of these kinds the plan has, each once: force (upper bound or load sharing short in any case that was judged),
 *                    all-directions under the floor, a fitting the maker did not provide, deck angle outside the band, plan angle under the
 *                    least, edge or solid touched, chains too near, chain and strap mixed, `over` on a machine body, coupling share out of
 *                    band, placement (a few inches off its place something would stand against it; only judged at rest). What is not known is
 *                    no caution here; nor are those that no choice can change (basis, locks, permit sizes). The margin of a weight that nobody
 *                    weighed (weight_margin) and how far the load is held down (held_down) are shown, and not chosen by: a scale is the cure
 *                    for the one, and downward forces are in the force answers already.
 *   pairs            2 * max (left, right) of the load's own tie-downs: left and right balanced before count
 *   tie_downs        all of them
 *   unmirrored       tie-downs without a mirror partner (mirrored point and anchor within 2 in, same kind of gear)
 *   strength_lb      sum of the limits of the gear taken from the pool: the heavy chain is kept for the heavy machine
 *   angle_mdeg2      sum of squares, in thousandths of a degree, of the deck angle's distance from 30-45 and the plan angle's from 45
 *   coupling_off_lb  distance of the coupling load from the middle of its band */
typedef struct { gint32 cautions, pairs, tie_downs, unmirrored; gint64 strength_lb, angle_mdeg2, coupling_off_lb; } FlScore;

/* <0, 0, >0 like strcmp. */
int fl_score_compare (const FlScore *a, const FlScore *b);
/* The score of a judged plan. */
FlScore fl_score_of (const FlAssessment *assessment, const FlBook *book);

/* The least that would make it possible, each verified by planning with it. `plan` is the plan it leads to; NULL where it needs what the fleet does
 * not have (more chain, a lock fitted). */
typedef struct { const char *message; const FlFact *facts; gsize n_facts; FlPlan *plan; } FlCure;

typedef struct _FlProposal FlProposal;
struct _FlProposal
{
  FlRunState state;
  FlQuality quality;
  FlScore score, bound;         /* of `best`; what is proven to be no better than */
  FlAssessment *best;           /* NULL: there is none */
  FlAssessment *nearest;        /* without a best: what comes nearest, judged, to show what is missing; NULL where nothing could be laid at all */
  const char *move, *trailer, *truck;
  const FlMessage *because; gsize n_because;    /* why there is none, in the dispatcher's words */
  const FlCure *cures; gsize n_cures;
  FlArena *arena;
};
void fl_proposal_free (FlProposal *proposal);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlProposal, fl_proposal_free)

typedef struct { guint64 work; gboolean cures; const char *const *taken; } FlSearch;
/* work: placements times choices looked at, 0: the default. cures: also look for cures when there is none (costs more planning).
 * taken: unit numbers of gear that other moves hold at that time; NULL-terminated or NULL. */

/* Best completion of `start`, judged at rest: what is pinned in it stays, what is set aside stays out, the rest is free (a tie-down without pins is dropped and chosen
 * anew; a load with FL_PIN_REAR keeps its place). NULL only with an error; "there is none" is a proposal that says why. (transfer full) */
FlProposal *fl_plan_move (const FlBook *book, const FlFleet *fleet, const FlPlan *start, const FlSearch *search, const FlHost *host,
                          GError **error);

/* Every trailer that could carry the move, planned with `search`, best first, then those that cannot, with their reasons. The truck is the move's, else the
 * best that can pull it. `row` (may be NULL) gets each as soon as it is known, in the working thread. (transfer full) array of FlProposal. */
GPtrArray *fl_rank_trailers (const FlBook *book, const FlFleet *fleet, const FlMove *move, const FlSearch *search, const FlHost *host,
                             void (*row) (gpointer self, const FlProposal *proposal), gpointer self, GError **error);

typedef struct
{
  FlRunState state;
  GPtrArray *proposals;         /* of FlProposal, in the order of fl_fleet_moves_of; best NULL where a move could not be planned */
} FlDayPlan;
void fl_day_plan_free (FlDayPlan *day);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlDayPlan, fl_day_plan_free)

/* A day's moves, by priority then departure, each against what the earlier ones left of gear, machines, trailers, trucks and drivers (busy from depart to
 * back plus turnaround): first all of them plainly, so that as many as can be are planned; then, in the same order, what clears the cautions of force,
 * placement and all-directions with the gear that is left. Plans in `kept` are fixed and judged as they are. (transfer full) */
FlDayPlan *fl_plan_day (const FlBook *book, const FlFleet *fleet, const char *date, const FlPlan *const *kept, gsize n_kept,
                        const FlSearch *search, const FlHost *host, GError **error);

G_END_DECLS
#endif
