/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search over stances, couples and gear: see fl-task.h.
 *
 * Every stance that stands is looked at; in each the couples of legs with the fewest kinds of caution that serve. The best few by score are judged, and the
 * first that the judge lets stand is the answer: nothing leaves here that has not passed him. */
#include "fl-task.h"

#include <math.h>
#include <string.h>

#include "fl-draft.h"
#include "fl-match.h"
#include "fl-pairing.h"
#include "fl-run.h"
#include "fl-score.h"
#include "fl-task-private.h"

enum { KEPT = 6 };

void
fl_task_result_clear (FlTaskResult *result)
{
  g_clear_pointer (&result->best, fl_assessment_unref);
  g_clear_pointer (&result->nearest, fl_assessment_unref);
  g_clear_pointer (&result->against, fl_findings_free);
}

static const FlBookData *
data_of (const FlRun *run)
{
  return fl_book_data (run->task->book);
}

gboolean
fl_run_heavy (const FlRun *run, guint load)
{
  return fl_book_heavy (run->task->book, run->machines[load], run->weights[load]);
}

/* ── what is wanted of a load ── */

static guint
least_count (const FlRun *run, guint load, gboolean blocked)
{
  double length = fl_quantity_in (run->machines[load]->length, FL_UNIT_FT);

  if (fl_run_heavy (run, load))
    return (guint) data_of (run)->heavy_count;
  return isnan (length) ? 2 : (guint) fl_book_count (run->task->book, length, run->weights[load], blocked);
}

static void
subtract_fixed (FlWanted *w, const FlDraft *draft, guint load)
{
  for (guint i = 0; i < draft->chosen.n; i++)
    {
      const FlChosenTie *tie = &draft->chosen.ties[i];

      if (tie->load != load || tie->implement != NULL)
        continue;
      w->need = fmax (0.0, w->need - fl_chosen_counts (w->book, tie));
      w->count -= w->count > 0;
      for (guint way = 0; way < FL_N_WAYS; way++)
        {
          double held = tie->wll * fl_stretch_of (&tie->lay, tie->wll, 1.0).cosine[way];

          w->ways[way] = fmax (0.0, w->ways[way] - held);
          w->sums[way] = fmax (0.0, w->sums[way] - held);
        }
      for (guint k = 0; k < FL_N_MOVEMENTS; k++)
        if (fl_run_holds (tie->lay.pull, fl_movement_direction (k)) > 0.02)
          w->holds &= ~(1u << k);
    }
}

static FlWanted
wanted_of (const FlRun *run, const FlPass *pass, const FlAim *aim, const FlSite *site, const FlDraft *draft, gboolean snug)
{
  guint load = site->load, all = (1u << FL_N_MOVEMENTS) - 1;
  FlWanted w = { .book = run->task->book, .pool = run->pool, .rigs = run->rigs, .site = site, .load = load, .weight = run->weights[load],
                 .need = pass->aggregate * data_of (run)->aggregate_share * run->weights[load], .count = least_count (run, load, snug),
                 .holds = pass->all_ways ? all : 0, .spread = pass->spread, .straps = pass->straps, .singles = pass->singles, .implements = pass->implements };

  if (fl_run_heavy (run, load) && fl_machine_joint_free (run->machines[load]))
    w.section_count = pass->sections ? (guint) data_of (run)->section_count : 0;
  if (aim != NULL)
    {
      memcpy (w.ways, aim->ways[load], sizeof w.ways);
      memcpy (w.sums, aim->sums[load], sizeof w.sums);
    }
  subtract_fixed (&w, draft, load);
  return w;
}

/* ── the score of a draft ── */

static gboolean
any_too_near (const FlChosen *chosen, double apart)
{
  for (guint i = 0; i < chosen->n; i++)
    for (guint k = i + 1; k < chosen->n; k++)
      if (fl_chosen_near (&chosen->ties[i], &chosen->ties[k], apart))
        return TRUE;
  return FALSE;
}

static gboolean
any_under_floor (const FlRun *run, const FlChosen *chosen)
{
  for (gsize load = 0; load < run->task->choices->n_loads; load++)
    {
      FlPull pulls[FL_MAX_CHOSEN];
      gsize n = 0;
      FlSums sums;

      for (guint i = 0; i < chosen->n; i++)
        if (chosen->ties[i].load == load && chosen->ties[i].implement == NULL)
          pulls[n++] = (FlPull) { .along = fl_vec_add (chosen->ties[i].lay.pull, chosen->ties[i].lay.pull_b), .limit = chosen->ties[i].wll };
      sums = fl_sums_component (pulls, n, run->weights[load]);
      for (guint k = 0; k < FL_N_MOVEMENTS; k++)
        if (!fl_reaches (sums.g[k], data_of (run)->all_directions_floor))
          return TRUE;
    }
  return FALSE;
}

FlScore
fl_run_score (const FlRun *run, const FlStance *stance, const FlDraft *draft)
{
  FlScored ties[FL_MAX_CHOSEN];
  FlScore score;

  for (guint i = 0; i < draft->chosen.n; i++)
    {
      const FlChosenTie *t = &draft->chosen.ties[i];
      guint last = t->lay.n_path > 0 ? t->lay.n_path - 1 : 0;

      ties[i] = (FlScored) { t->load, t->implement == NULL, t->strap, t->lay.path[t->path != NULL ? 1 : 0], t->lay.path[last], t->lay.deck, t->lay.plan,
                             t->strength };
    }
  score = fl_score_sum (ties, draft->chosen.n, data_of (run));
  score.cautions = stance->cautions + (gint32) fl_bits (draft->cautions) + any_too_near (&draft->chosen, data_of (run)->apart * FL_M_PER_IN)
                   + any_under_floor (run, &draft->chosen);
  score.coupling_off_lb = stance->coupling_off;
  return score;
}

static void
keep (FlRun *run, const FlStance *stance, const FlDraft *draft)
{
  FlScore score = fl_run_score (run, stance, draft);
  guint at = run->n_kept;

  while (at > 0 && fl_score_compare (&score, &run->kept[at - 1].score) < 0)
    at--;
  if (at == KEPT)
    return;
  if (run->n_kept == KEPT)
    run->n_kept--;
  memmove (&run->kept[at + 1], &run->kept[at], (run->n_kept - at) * sizeof (FlCandidate));
  run->kept[at] = (FlCandidate) { score, *stance, draft->chosen };
  run->n_kept++;
}

/* ── one stance ── */

static void
stand_up (const FlRun *run, const FlStance *stance, FlStand *stands)
{
  for (gsize i = 0; i < run->task->choices->n_loads; i++)
    {
      FlQuantity left = run->task->choices->loads[i].left;

      fl_stand_fill (&stands[i], &run->ground, run->machines[i], stance->facing[i], stance->rear[i],
                     fl_quantity_known (left) ? fl_quantity_in (left, FL_UNIT_M) : 0.0);
    }
}

/* The load set down off its place, as far as the book says: at the corners of where it may come to stand. */
static guint
stand_off (const FlRun *run, const FlStance *stance, const FlStand *stand, guint load, FlStand *off)
{
  FlQuantity chosen = run->task->choices->loads[load].left;
  double along = data_of (run)->off_lengthwise * FL_M_PER_IN, across = data_of (run)->off_sideways * FL_M_PER_IN;
  double left = fl_quantity_known (chosen) ? fl_quantity_in (chosen, FL_UNIT_M) : 0.0;

  if (stance->snug[load])       /* driven until it touches */
    along = 0.0;
  for (guint i = 0; i < FL_OFF_PLACES; i++)
    fl_stand_fill (&off[i], &run->ground, stand->machine, stance->facing[load], stance->rear[load] + (i % 2 == 0 ? along : -along),
                   left + (i < 2 ? across : -across));
  return FL_OFF_PLACES;
}

static guint
draft_load (FlRun *run, const FlPass *pass, const FlAim *aim, const FlStance *stance, const FlStand *stands, guint load, guint mask, FlDraft *drafts,
            guint max)
{
  g_autofree FlStand *off = aim != NULL && aim->steady ? g_new (FlStand, FL_OFF_PLACES) : NULL;
  g_autofree FlDraft *before = g_memdup2 (&drafts[0], sizeof (FlDraft));
  FlSite site = { run->task->book, &run->ground, &stands[load], run->task->choices, load };
  FlWanted wanted = wanted_of (run, pass, aim, &site, before, stance->snug[load]);

  if (isnan (run->weights[load]))
    return 0;
  wanted.off = off;
  wanted.n_off = off != NULL ? stand_off (run, stance, &stands[load], load, off) : 0;
  return fl_choose_offers (drafts, max, before, &wanted, mask, &run->task->work);
}

guint
fl_run_drafts (FlRun *run, const FlPass *pass, const FlAim *aim, const FlStance *stance, guint mask, FlDraft *drafts, guint max)
{
  FlStand stands[FL_STANCE_MAX_LOADS];
  gsize n_loads = run->task->choices->n_loads;
  guint n = 0;

  stand_up (run, stance, stands);
  memset (&drafts[0], 0, sizeof drafts[0]);
  fl_left_fill (&drafts[0].left, run->pool);
  if (!fl_draft_pin (&drafts[0], run->task, run->pool, &run->ground, stands))
    return 0;
  for (guint i = 0; i < n_loads; i++)
    {
      n = draft_load (run, pass, aim, stance, stands, i, mask, drafts, n_loads == 1 ? max : 1);
      if (n == 0)
        return 0;
    }
  return n;
}

guint
fl_caution_masks (guint *masks)
{
  static const guint kinds[] = { FL_LAY_DECK_ANGLE, FL_LAY_PLAN_ANGLE, FL_LAY_EDGE, FL_LAY_POINT };
  guint n = 0;

  for (gint32 allowed = 0; allowed <= (gint32) G_N_ELEMENTS (kinds); allowed++)
    for (guint subset = 0; subset < 1u << G_N_ELEMENTS (kinds); subset++)
      {
        if ((gint32) fl_bits (subset) != allowed)
          continue;
        masks[n] = 0;
        for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
          if ((subset & (1u << k)) != 0)
            masks[n] |= kinds[k];
        n++;
      }
  return n;
}

static void
try_stance (FlRun *run, const FlPass *pass, const FlStance *stance)
{
  guint masks[16], n = fl_caution_masks (masks);
  gint32 bound = run->n_kept > 0 ? MIN (run->most, run->kept[0].score.cautions) : run->most, found = G_MAXINT32;
  FlDraft draft;

  if (stance->cautions > bound)
    return;
  /* While nothing is found, the cheapest question first: does anything serve here at all? */
  if (run->n_kept == 0)
    {
      if (fl_run_drafts (run, pass, NULL, stance, FL_LEG_CAUTIONS, &draft, 1) == 0)
        return;
      keep (run, stance, &draft);
    }
  for (guint i = 0; i + 1 < n; i++)
    {
      if (stance->cautions + (gint32) fl_bits (masks[i]) > bound || (gint32) fl_bits (masks[i]) > found)
        return;
      if (fl_run_drafts (run, pass, NULL, stance, masks[i], &draft, 1) == 0)
        continue;
      keep (run, stance, &draft);
      found = (gint32) fl_bits (masks[i]);  /* others of as many kinds may do with fewer tie-downs */
    }
}

/* Several loads have very many stances: once something is found, only the best of them by the coupling are still looked at. */
enum { ENOUGH_STANCES = 96 };

static gboolean
search_pass (FlRun *run, const FlPass *pass)
{
  for (guint i = 0; i < run->stances.stances->len && run->task->work > 0; i++)
    {
      if (g_cancellable_is_cancelled (run->task->cancel)
          || (run->task->choices->n_loads > 1 && run->n_kept > 0 && i >= ENOUGH_STANCES))
        break;
      try_stance (run, pass, &g_array_index (run->stances.stances, FlStance, i));
    }
  return run->n_kept > 0;
}

/* ── pass after pass ── */

static gboolean
may_strap (const FlRun *run)
{
  if (run->pool->straps.n == 0)
    return FALSE;
  for (guint i = 0; i < run->task->choices->n_loads; i++)
    if (fl_run_heavy (run, i))
      return FALSE;
  return TRUE;
}

static gboolean
all_light (const FlRun *run)
{
  for (guint i = 0; i < run->task->choices->n_loads; i++)
    if (fl_run_heavy (run, i))
      return FALSE;
  return TRUE;
}

/* The kinds of caution that the search can foresee and do without; the others are looked at in fl-task-clear.c. */
static gint32
foreseen (const FlTaskResult *result)
{
  return result->score.cautions - fl_score_cautioned (result->best, FL_SCORE_FORCE) - fl_score_cautioned (result->best, FL_SCORE_PLACEMENT)
         - fl_score_cautioned (result->best, FL_SCORE_ALL_DIRECTIONS);
}

/* Pass after pass until one has an answer that stands. Where couples have one with cautions, legs without a mirror partner may do without. */
static gboolean
search (FlRun *run, FlTaskResult *result, GError **error)
{
  const FlPass passes[] = {
    { FALSE, FALSE, TRUE, TRUE, TRUE, TRUE, 1.0 }, { TRUE, FALSE, TRUE, TRUE, TRUE, TRUE, 1.0 },
    { FALSE, TRUE, TRUE, TRUE, TRUE, TRUE, 1.0 },  { TRUE, TRUE, TRUE, TRUE, TRUE, TRUE, 1.0 },
    { TRUE, FALSE, FALSE, TRUE, TRUE, TRUE, 1.0 }, { FALSE, FALSE, FALSE, FALSE, TRUE, FALSE, 1.0 },
    { TRUE, FALSE, FALSE, FALSE, TRUE, FALSE, 1.0 },
  };
  gboolean again = FALSE;

  for (guint i = 0; i < G_N_ELEMENTS (passes) && (result->best == NULL || again); i++)
    {
      const FlAssessment *before = result->best;

      if ((passes[i].straps && !may_strap (run)) || (!passes[i].all_ways && !all_light (run)))
        continue;
      run->n_kept = 0;
      run->most = again ? foreseen (result) - 1 : G_MAXINT32;
      if (search_pass (run, &passes[i]) && !fl_run_judge_kept (run, result, error))
        return FALSE;
      if (result->best != before)
        run->served = passes[i];
      again = result->best != NULL && foreseen (result) > 0 && !passes[i].singles;
    }
  return TRUE;
}

/* What comes nearest: less and less of the aggregate, then without holding a free joint's sections, without implements, and so on; at the best
 * stance. */
static gboolean
search_nearest (FlRun *run, FlTaskResult *result, GError **error)
{
  static const double parts[] = { 1.0, 0.9, 0.75, 0.6, 0.45, 0.3, 0.15, 0.0 };

  static const FlPass lax[] = { { .spread = TRUE, .all_ways = TRUE, .sections = TRUE, .implements = TRUE }, { .spread = TRUE, .all_ways = TRUE, .implements = TRUE },
                              { .all_ways = TRUE, .sections = TRUE }, { .all_ways = TRUE }, { .implements = TRUE }, { .aggregate = 0.0 } };

  for (guint k = 0; k < G_N_ELEMENTS (lax); k++)
    for (guint i = 0; i < 2 * G_N_ELEMENTS (parts); i++)
      {
        FlPass pass = lax[k];

        pass.singles = i % 2 == 1;
        pass.aggregate = parts[i / 2];

        run->n_kept = 0;
        try_stance (run, &pass, &g_array_index (run->stances.stances, FlStance, 0));
        if (run->n_kept > 0)
          return fl_run_judge_kept (run, result, error);
      }
  return TRUE;
}

static gboolean
prepare (FlRun *run, FlScene **scene, GError **error)
{
  FlTask *task = run->task;
  FlPlanChoices bare = *task->choices;
  g_autoptr(FlPlan) plan = NULL;

  bare.n_tie_downs = 0;
  plan = fl_plan_new (&bare);
  *scene = fl_scene_new (task->book, task->fleet, plan, error);
  if (*scene == NULL)
    return FALSE;
  for (gsize i = 0; i < bare.n_loads; i++)
    {
      const FlRecord *record = fl_fleet_find_load (task->fleet, bare.loads[i].id, bare.loads[i].article);

      run->machines[i] = fl_machine_in_position (fl_record_machine (record), bare.loads[i].position);
      run->weights[i] = fl_quantity_in (run->machines[i]->weight, fl_book_data (task->book)->unit);
    }
  run->pool = fl_pool_new (task->book, task->fleet, task->move, task->choices, task->taken);
  fl_ground_fill (&run->ground, task->trailer);
  run->rigs = fl_rigs_table_new ();
  run->kept = g_new (FlCandidate, KEPT + 1);
  run->most = G_MAXINT32;
  return TRUE;
}

static guint
pieces (const FlPoolShelf *shelf)
{
  guint n = 0;

  for (guint i = 0; i < shelf->n; i++)
    n += shelf->classes[i].ids->len;
  return n;
}

gboolean
fl_task_run (FlTask *task, FlTaskResult *result, GError **error)
{
  g_autofree FlRun *run = g_new0 (FlRun, 1);
  g_autoptr(FlScene) scene = NULL;
  gboolean ok;

  run->task = task;
  *result = (FlTaskResult) { .best = NULL };
  if (!prepare (run, &scene, error))
    return FALSE;
  fl_stances_find (&run->stances, scene, task->choices, task->trailer, run->machines);
  ok = run->stances.stances->len == 0 || search (run, result, error);
  if (ok && result->best != NULL && !task->plain)
    ok = fl_run_clear (run, result, error);
  if (ok && result->best == NULL && result->nearest == NULL && run->stances.stances->len > 0)
    ok = search_nearest (run, result, error);
  result->against = g_steal_pointer (&run->stances.against);
  result->chains = pieces (&run->pool->chains);
  result->binders = pieces (&run->pool->binders);
  result->straps = pieces (&run->pool->straps);
  result->out_of_use = run->pool->out_of_use;
  result->out_of_work = task->work == 0;
  fl_stances_clear (&run->stances);
  g_hash_table_unref (run->rigs);
  fl_pool_free (run->pool);
  g_free (run->kept);
  return ok;
}
