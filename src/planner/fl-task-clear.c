/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search for a plan without the cautions that only the judge sees: see fl-task-private.h.
 *
 * force, all-directions: in each stance the judge's answer for one choice tells what holds the load beside its tie-downs (friction, what it stands
 * against) or is lost against the guess of fl-share.h (it turns, it tips). What then is missing each way is asked of the choosing; its offers are
 * judged, and what they lack is asked for in the next round. placement: legs and gear that do off the load's place as well. The best so far bounds what
 * is looked at, so that where nothing clears them the plain best stays. */
#include <math.h>
#include <string.h>

#include "fl-draft.h"
#include "fl-pairing.h"
#include "fl-score.h"
#include "fl-task-private.h"

/* Stances looked at, for one load and for several; judgements in all; rounds in one stance; offers judged in each of them, and where there is no
 * other stance. Work, not seconds. */
enum { STANCES = 24, STANCES_OF_SEVERAL = 8, JUDGEMENTS = 160, ROUNDS = 4, OFFERS = 2, OFFERS_OF_ONE = 24 };

/* Stances alike in what holds a load beside its tie-downs: which way it faces, and whether it stands against something. */
enum { ALIKE = 4 };

/* Rearmost and foremost places within which the next places of the grid are asked for; m. */
#define SAME_PLACE 0.001

/* g, as judged at the working level: have, of the demand of each case, with the deck's friction; bare, without any. */
typedef struct
{
  gboolean judged[FL_STANCE_MAX_LOADS];
  double have[FL_STANCE_MAX_LOADS][FL_N_WAYS], demand[FL_STANCE_MAX_LOADS][FL_N_WAYS], bare[FL_STANCE_MAX_LOADS][FL_N_WAYS];
} Held;

typedef struct
{
  FlRun *run;
  FlTaskResult *result;
  FlPass pass;
  gboolean force, floor, steady;        /* what is to be cleared; floor: all-directions */
  gboolean without_force;       /* some plan that stands had no caution of force */
  guint judgements;             /* left */
  gboolean known[ALIKE];
  FlAim asked[ALIKE];           /* what the guess and the sums must come to, g */
  FlDraft *drafts;              /* FL_MAX_DRAFTS */
} Clearing;

/* ── what the judge says ── */

static guint
way_of (const FlBook *book, const char *case_id)
{
  const FlBookData *data = fl_book_data (book);

  for (gsize i = 0; i < data->n_cases; i++)
    if (strcmp (data->cases[i].id, case_id) == 0)
      return MIN (FL_N_WAYS, (guint) fl_movement_of (data->cases[i].direction));
  return FL_N_WAYS;
}

/* What a load's tie-downs can be counted on to hold: the lesser of upper bound and load sharing, at the working level with the deck's friction. */
static void
read_force (Held *held, const FlForceResult *f, const FlBook *book)
{
  guint way = way_of (book, f->case_id);
  double demand = f->demand.value, have = f->capacity.value;

  if (way == FL_N_WAYS || strcmp (f->level, "working") != 0 || strcmp (f->method, "component_sum") == 0)
    return;
  if (strcmp (f->friction, "none") == 0)
    {
      if (strcmp (f->method, "upper_bound") == 0)
        held->bare[f->load][way] = have;
      return;
    }
  if (g_strcmp0 (f->mode, "not_settled") == 0)
    have = demand / 2;          /* how they share it is not known: more is wanted */
  held->judged[f->load] = TRUE;
  held->demand[f->load][way] = demand;
  held->have[f->load][way] = fmin (held->have[f->load][way], have);
}

static void
read_forces (Held *held, const FlAssessment *judged, const FlBook *book)
{
  const FlAssessmentParts *parts = fl_assessment_parts (judged);

  memset (held, 0, sizeof *held);
  for (guint load = 0; load < FL_STANCE_MAX_LOADS; load++)
    for (guint way = 0; way < FL_N_WAYS; way++)
      held->have[load][way] = held->bare[load][way] = INFINITY;
  for (gsize i = 0; i < parts->n_forces; i++)
    if (parts->forces[i].load < FL_STANCE_MAX_LOADS)
      read_force (held, &parts->forces[i], book);
}

static double
floor_of (const Clearing *c)
{
  return c->floor ? fl_book_data (c->run->task->book)->all_directions_floor : 0.0;
}

/* The least share of what is asked that is held; 1 and more: all is. */
static double
least_held (const Clearing *c, const Held *held)
{
  double least = INFINITY;

  for (guint load = 0; load < FL_STANCE_MAX_LOADS; load++)
    for (guint way = 0; way < FL_N_WAYS && held->judged[load]; way++)
      {
        if (c->force && held->demand[load][way] > 0.0)
          least = fmin (least, held->have[load][way] / held->demand[load][way]);
        if (floor_of (c) > 0.0)
          least = fmin (least, held->bare[load][way] / floor_of (c));
      }
  return least;
}

static guint
alike (const FlStance *stance)
{
  return 2 * (stance->snug[0] != FALSE) + (stance->facing[0] == FL_REARWARD);
}

typedef struct { double shared[FL_N_WAYS], sum[FL_N_WAYS]; } Guess;

/* g */
static Guess
guess_of (const FlRun *run, const FlChosen *chosen, guint load)
{
  FlStretch ties[FL_MAX_CHOSEN];
  Guess guess = { { 0.0 }, { 0.0 } };
  guint n = 0;

  for (guint i = 0; i < chosen->n; i++)
    if (chosen->ties[i].load == load && chosen->ties[i].implement == NULL)
      ties[n++] = fl_stretch_of (&chosen->ties[i].lay, chosen->ties[i].wll, chosen->ties[i].stiffness);
  for (guint way = 0; way < FL_N_WAYS; way++)
    {
      guess.shared[way] = fl_share_holds (ties, n, way) / run->weights[load];
      for (guint i = 0; i < n; i++)
        guess.sum[way] += ties[i].limit * ties[i].cosine[way] / run->weights[load];
    }
  return guess;
}

/* What the guess must come to where it is so much now and the judge finds `have` of what is asked. Load sharing is only followed some way beyond
 * the demand: what is held in plenty is taken in proportion. */
static double
guess_for (double guess, double have, double asked)
{
  return have > asked ? fmin (guess - (have - asked), guess * asked / have) : guess + (asked - have);
}

static void
learn (Clearing *c, guint kind, const FlChosen *chosen, const Held *held)
{
  FlAim *asked = &c->asked[kind];
  double floor = floor_of (c);

  memset (asked, 0, sizeof *asked);
  for (guint load = 0; load < c->run->task->choices->n_loads; load++)
    if (held->judged[load])
      {
        Guess guess = guess_of (c->run, chosen, load);

        for (guint way = 0; way < FL_N_WAYS && c->force; way++)
          asked->ways[load][way] = fmax (0.0, guess_for (guess.shared[way], held->have[load][way], held->demand[load][way]));
        for (guint way = 0; way < FL_N_WAYS && c->floor; way++)
          asked->sums[load][way] = fmax (floor, guess_for (guess.sum[way], held->bare[load][way], floor));
      }
  c->known[kind] = TRUE;
}

/* ── one stance ── */

static gboolean
is_guided (const Clearing *c)
{
  return c->force || c->floor;
}

static gboolean
promising (const Clearing *c, const FlStance *stance, const FlDraft *draft)
{
  FlScore score = fl_run_score (c->run, stance, draft);

  return fl_score_compare (&score, &c->result->score) < 0;
}

/* Judges a draft. *better: it is the best now, and has fewer kinds of caution. `held` gets what it holds. */
static gboolean
judge_draft (Clearing *c, const FlStance *stance, const FlDraft *draft, Held *held, gboolean *better, GError **error)
{
  g_autoptr(FlPlan) plan = fl_draft_plan (c->run->task, c->run->pool, stance, &draft->chosen);
  g_autoptr(FlAssessment) looked = NULL;
  gint32 before = c->result->score.cautions;

  c->judgements--;
  if (!fl_run_consider (c->run, c->result, plan, &looked, error))
    return FALSE;
  *better = c->result->score.cautions < before;
  c->without_force = c->without_force || (fl_assessment_stands (looked) && !fl_score_cautioned (looked, FL_SCORE_FORCE));
  read_forces (held, looked, c->run->task->book);
  return TRUE;
}

/* The fewest kinds of caution that serve, as long as they may be better than the best. */
static guint
drafts_for (Clearing *c, const FlStance *stance, const FlAim *aim)
{
  guint masks[16], n = fl_caution_masks (masks), most = c->run->stances.stances->len > 1 ? OFFERS : OFFERS_OF_ONE;

  for (guint i = 0; i < n; i++)
    {
      guint found;

      if (stance->cautions + (gint32) fl_bits (masks[i]) >= c->result->score.cautions)
        return 0;
      found = fl_run_drafts (c->run, &c->pass, aim, stance, masks[i], c->drafts, most);
      if (found > 0)
        return found;
    }
  return 0;
}

/* A little less at first, for the guess may be too low; then more and more. Of the sums at first the floor itself, for less is none; then step by step
 * what was learned of others: they may be lost in turning where these are not. */
static void
ask_ways (const Clearing *c, guint kind, guint round, FlAim *aim)
{
  double times = round == 0 ? 0.9 : 0.92 + 0.08 * round, learned = fmin (1.0, 0.3 * round);
  double floor = floor_of (c);

  for (guint load = 0; load < c->run->task->choices->n_loads && is_guided (c); load++)
    for (guint way = 0; way < FL_N_WAYS; way++)
      {
        aim->ways[load][way] = times * c->asked[kind].ways[load][way] * c->run->weights[load];
        aim->sums[load][way] = (floor + learned * (c->asked[kind].sums[load][way] - floor)) * c->run->weights[load];
      }
}

/* Judges what is offered, until one has fewer kinds of caution. *nearest: which came nearest to clear, its forces in *held; -1: none was worth it. */
static gboolean
judge_offers (Clearing *c, const FlStance *stance, guint n, gint *nearest, Held *held, gboolean *better, GError **error)
{
  *nearest = -1;
  for (guint i = 0; i < n && c->judgements > 0 && !*better; i++)
    {
      Held now;

      if (!promising (c, stance, &c->drafts[i]))
        continue;
      if (!judge_draft (c, stance, &c->drafts[i], &now, better, error))
        return FALSE;
      if (*nearest >= 0 && least_held (c, &now) <= least_held (c, held))
        continue;
      *nearest = (gint) i;
      *held = now;
    }
  return TRUE;
}

/* The first question in a stance like none before: how is it with what the written requirements ask for? */
static gboolean
first_look (Clearing *c, const FlStance *stance, gboolean *better, GError **error)
{
  Held held;

  if (c->known[alike (stance)] || !is_guided (c))
    return TRUE;
  if (fl_run_drafts (c->run, &c->pass, NULL, stance, FL_LEG_CAUTIONS, c->drafts, 1) == 0)
    return TRUE;
  if (!judge_draft (c, stance, &c->drafts[0], &held, better, error))
    return FALSE;
  learn (c, alike (stance), &c->drafts[0].chosen, &held);
  return TRUE;
}

static gboolean
clear_stance (Clearing *c, const FlStance *stance, GError **error)
{
  gboolean better = FALSE;

  if (!first_look (c, stance, &better, error))
    return FALSE;
  for (guint round = 0; round < ROUNDS && c->judgements > 0 && !better; round++)
    {
      FlAim aim = { .steady = c->steady };
      gint nearest;
      Held held;

      if (is_guided (c) && !c->known[alike (stance)])
        return TRUE;
      ask_ways (c, alike (stance), round, &aim);
      if (!judge_offers (c, stance, drafts_for (c, stance, &aim), &nearest, &held, &better, error))
        return FALSE;
      if (nearest < 0 || !is_guided (c))
        return TRUE;
      learn (c, alike (stance), &c->drafts[nearest].chosen, &held);
    }
  return TRUE;
}

/* ── all of them ── */

static gboolean
stands_at (const FlStances *stances, const FlStance *like, double rear)
{
  for (guint i = 0; i < stances->stances->len; i++)
    {
      const FlStance *s = &g_array_index (stances->stances, FlStance, i);

      if (s->facing[0] == like->facing[0] && fabs (s->rear[0] - rear) < SAME_PLACE)
        return TRUE;
    }
  return FALSE;
}

/* Do the places next to it stand too? Where it was pinned or stands against something the grid does not tell. */
static gboolean
may_be_off (const Clearing *c, const FlStance *stance)
{
  const FlTask *task = c->run->task;
  double off = fl_book_data (task->book)->off_lengthwise * FL_M_PER_IN;

  if (task->choices->n_loads > 1 || stance->snug[0] || (task->choices->loads[0].pinned & FL_PIN_REAR) != 0)
    return TRUE;
  return stands_at (&c->run->stances, stance, stance->rear[0] - off) && stands_at (&c->run->stances, stance, stance->rear[0] + off);
}

static gboolean
look_at_all (Clearing *c, GError **error)
{
  const GArray *stances = c->run->stances.stances;
  guint most = c->run->task->choices->n_loads > 1 ? STANCES_OF_SEVERAL : STANCES, looked = 0;

  for (guint i = 0; i < stances->len && c->judgements > 0 && c->run->task->work > 0; i++)
    {
      const FlStance *stance = &g_array_index (stances, FlStance, i);

      if (g_cancellable_is_cancelled (c->run->task->cancel))
        break;
      if ((looked >= most && !stance->snug[0]) || stance->cautions >= c->result->score.cautions || (c->steady && !may_be_off (c, stance)))
        continue;
      looked++;
      if (!clear_stance (c, stance, error))
        return FALSE;
    }
  return TRUE;
}

typedef struct { gboolean force, floor, steady; } What;

/* With couples; where that does not do, with legs that have no mirror partner. */
static gboolean
attempt (Clearing *c, What what, GError **error)
{
  gint32 before = c->result->score.cautions;

  c->force = what.force;
  c->floor = what.floor;
  c->steady = what.steady;
  c->judgements = JUDGEMENTS;
  memset (c->known, 0, sizeof c->known);        /* learned for other aims */
  for (guint singles = c->run->served.singles; singles < 2 && c->result->score.cautions == before; singles++)
    {
      c->pass.singles = singles == 1;
      if (!look_at_all (c, error))
        return FALSE;
    }
  return TRUE;
}

/* Both at once; where that cannot be, one of them. */
static gboolean
clear_forces (Clearing *c, gboolean force, gboolean floor, GError **error)
{
  gint32 before = c->result->score.cautions;
  gboolean both = force && floor;

  if ((force || floor) && !attempt (c, (What) { force, TRUE, FALSE }, error))
    return FALSE;
  if (both && c->result->score.cautions == before && !attempt (c, (What) { FALSE, TRUE, FALSE }, error))
    return FALSE;
  return !both || c->result->score.cautions < before || attempt (c, (What) { TRUE, FALSE, FALSE }, error);
}

static gboolean
clear_all (Clearing *c, GError **error)
{
  gboolean force = fl_score_cautioned (c->result->best, FL_SCORE_FORCE), floor = fl_score_cautioned (c->result->best, FL_SCORE_ALL_DIRECTIONS);
  gboolean placement;

  if (!clear_forces (c, force, floor, error))
    return FALSE;
  placement = fl_score_cautioned (c->result->best, FL_SCORE_PLACEMENT);
  if (placement || (c->without_force && fl_score_cautioned (c->result->best, FL_SCORE_FORCE)))
    return attempt (c, (What) { force && c->without_force, floor && !fl_score_cautioned (c->result->best, FL_SCORE_ALL_DIRECTIONS), TRUE }, error);
  return TRUE;
}

gboolean
fl_run_clear (FlRun *run, FlTaskResult *result, GError **error)
{
  g_autofree Clearing *c = g_new0 (Clearing, 1);
  const FlAssessment *before = result->best;
  gboolean ok;

  c->run = run;
  c->result = result;
  c->pass = run->served;
  c->drafts = g_new0 (FlDraft, FL_MAX_DRAFTS);
  ok = clear_all (c, error);
  g_free (c->drafts);
  return ok && (result->best == before || fl_run_thin_out (run, result, error));
}
