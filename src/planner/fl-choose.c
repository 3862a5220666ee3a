/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Choosing the tie-downs of one load: see fl-choose.h.
 *
 * For k = 1, 2, ... couples all sets that hold in the wanted directions are listed by their angles; gear is matched to the best of them, the cheapest
 * that reaches the sum; the first k with an answer is the answer, for fewer couples come before anything that follows in the score. */
#include "fl-choose.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fl-choose-private.h"
#include "fl-run.h"

/* Sets of couples kept for each k, and how many of the best of them get gear matched. Work, not seconds. */
enum { MAX_SETS = 3000, MATCHED_SETS = 16, MATCH_NODES = 4000, MAX_VISITS = 8000 };

/* ── pieces left ── */

void
fl_left_fill (FlLeft *left, const FlPool *pool)
{
  for (guint i = 0; i < pool->chains.n; i++)
    left->chains[i] = (gint16) pool->chains.classes[i].ids->len;
  for (guint i = 0; i < pool->binders.n; i++)
    left->binders[i] = (gint16) pool->binders.classes[i].ids->len;
  for (guint i = 0; i < pool->straps.n; i++)
    left->straps[i] = (gint16) pool->straps.classes[i].ids->len;
  for (guint i = 0; i < pool->connectors.n; i++)
    left->connectors[i] = (gint16) pool->connectors.classes[i].ids->len;
}

static gboolean
enough (const gint16 *left, gint class, gint n)
{
  return class < 0 || left[class] >= n;
}

static void
take (gint16 *left, gint class, gint n)
{
  if (class >= 0)
    left[class] = (gint16) (left[class] - n);
}

gboolean
fl_left_take (FlLeft *left, const FlRig *rig, gint n)
{
  gint both = rig->at_point >= 0 && rig->at_point == rig->at_anchor ? 2 : 1;

  if (n > 0 && (!enough (left->chains, rig->chain, n) || !enough (left->binders, rig->binder, n) || !enough (left->straps, rig->strap, n)
                || !enough (left->connectors, rig->at_point, both * n) || !enough (left->connectors, rig->at_anchor, both * n)))
    return FALSE;
  take (left->chains, rig->chain, n);
  take (left->binders, rig->binder, n);
  take (left->straps, rig->strap, n);
  take (left->connectors, rig->at_point, n);
  take (left->connectors, rig->at_anchor, n);
  return TRUE;
}

/* ── chains that touch ── */

gboolean
fl_chosen_near (const FlChosenTie *a, const FlChosenTie *b, double apart)
{
  gboolean shared = (a->point != NULL && a->load == b->load && a->point == b->point) || a->anchors[0] == b->anchors[0];

  if (a->lay.n_path < 2 || b->lay.n_path < 2)
    return FALSE;
  return !fl_reaches (fl_run_distance (a->lay.path, a->lay.n_path, b->lay.path, b->lay.n_path, shared ? FL_LAY_LEAVES : 0.0), apart);
}

static FlChosenTie
chosen_leg (const FlLeg *leg, guint load)
{
  return (FlChosenTie) { .load = load, .point = leg->point, .path = leg->path, .anchors = { leg->anchors[0], leg->anchors[1] }, .lay = leg->lay };
}

/* Does any leg of the couple come too near to what is chosen already? */
gboolean
fl_draft_near (const FlDraft *state, const FlWanted *w, const FlCouple *couple)
{
  double apart = fl_book_data (w->book)->apart * FL_M_PER_IN;

  for (guint k = 0; k < couple->n; k++)
    {
      FlChosenTie tie = chosen_leg (couple->legs[k], w->load);

      for (guint i = 0; i < state->chosen.n; i++)
        if (fl_chosen_near (&tie, &state->chosen.ties[i], apart))
          return TRUE;
    }
  return FALSE;
}

/* ── the search's own state ── */

/* A set of couples, with what it amounts to. */
typedef struct { guint couple[FL_MAX_COUPLES_CHOSEN], n, holds, legs, front, rear, left, right; double penalty, rearmost, foremost; } Set;

typedef struct
{
  const FlWanted *wanted;
  FlDraft *state;
  FlCouples couples;
  FlRigs *rigs[FL_MAX_COUPLES];  /* found when first asked for */
  guint holds_from[FL_MAX_COUPLES + 1];   /* what all couples from here on could still hold */
  Set *sets; guint n_sets;
  double spread;                /* m that the points of a set must lie apart; 0: none */
  guint visits;
  gboolean any;                 /* some set of the size went together, whether it serves or not */
} Search;

static const FlRigs *
rigs_of (Search *s, guint couple)
{
  const FlWanted *w = s->wanted;
  FlRigFor what = { TRUE, w->site->stand->machine->article, w->straps };

  if (s->rigs[couple] == NULL)
    {
      s->rigs[couple] = g_new (FlRigs, 1);
      fl_rigs_find (s->rigs[couple], w->book, w->pool, &s->couples.couples[couple], &what);
    }
  return s->rigs[couple];
}

/* ── sets of couples ── */

static Set
set_with (const Set *set, const Search *s, guint couple)
{
  const FlCouple *c = &s->couples.couples[couple];
  Set next = *set;

  next.couple[next.n++] = couple;
  next.holds |= c->holds;
  next.legs += c->n;
  next.front += c->front;
  next.rear += c->rear;
  next.penalty += c->penalty;
  for (guint k = 0; k < c->n; k++)
    {
      next.rearmost = fmin (next.rearmost, c->legs[k]->lay.path[0].x);
      next.foremost = fmax (next.foremost, c->legs[k]->lay.path[0].x);
      if (c->legs[k]->anchors[0]->side == 'L')
        next.left++;
      else
        next.right++;
    }
  return next;
}

/* Does the set serve, or could it with `more` legs that hold `also`? */
static gboolean
serves (const FlWanted *w, const Set *set, guint more, guint also)
{
  return (w->holds & ~(set->holds | also)) == 0 && set->legs + more >= w->count && set->front + more >= w->section_count
         && set->rear + more >= w->section_count && set->front + set->rear + more >= 2 * w->section_count;
}

static guint
hangs (const Search *s, const Set *set, const FlTiePoint *point, const FlAnchor *anchor)
{
  guint n = 0;

  for (guint i = 0; i < set->n; i++)
    {
      const FlCouple *c = &s->couples.couples[set->couple[i]];

      for (guint k = 0; k < c->n; k++)
        n += (point != NULL && c->legs[k]->point == point) || (anchor != NULL && c->legs[k]->anchors[0] == anchor);
    }
  return n;
}

guint
fl_draft_hung_on (const FlDraft *state, guint load, const FlTiePoint *point)
{
  guint n = 0;

  for (guint i = 0; i < state->chosen.n; i++)
    n += state->chosen.ties[i].load == load && state->chosen.ties[i].point == point;
  return n;
}

/* Does the couple go with the set: no point and no anchor takes more than it may. */
static gboolean
couple_goes (const Search *s, const Set *set, guint couple)
{
  const FlCouple *c = &s->couples.couples[couple];
  const FlTrailer *trailer = s->wanted->site->ground->trailer;

  for (guint k = 0; k < c->n; k++)
    {
      const FlLeg *leg = c->legs[k];
      gsize a = (gsize) (leg->anchors[0] - trailer->anchors);

      if ((gint) (hangs (s, set, leg->point, NULL) + fl_draft_hung_on (s->state, s->wanted->load, leg->point)) >= leg->point->takes)
        return FALSE;
      if ((gint) (hangs (s, set, NULL, leg->anchors[0]) + s->state->hung.hung[a]) >= leg->anchors[0]->takes)
        return FALSE;
    }
  return TRUE;
}

static void
list_sets (Search *s, const Set *set, guint from, guint k)
{
  if (set->n == k)
    {
      s->any = TRUE;
      if (s->n_sets < MAX_SETS && serves (s->wanted, set, 0, 0) && set->foremost - set->rearmost >= s->spread)
        s->sets[s->n_sets++] = *set;
      return;
    }
  for (guint i = from; i < s->couples.n && s->n_sets < MAX_SETS && s->visits < MAX_VISITS; i++)
    {
      Set next;

      s->visits++;
      if (!serves (s->wanted, set, 2 * (k - set->n), s->holds_from[i]))
        {
          s->any = TRUE;        /* a larger one may */
          return;
        }
      if (!couple_goes (s, set, i))
        continue;
      next = set_with (set, s, i);
      list_sets (s, &next, i + 1, k);
    }
}

/* Left and right as even as can be first, as in the score. */
static int
by_penalty (gconstpointer a, gconstpointer b)
{
  const Set *x = a, *y = b;

  if (MAX (x->left, x->right) != MAX (y->left, y->right))
    return MAX (x->left, x->right) < MAX (y->left, y->right) ? -1 : 1;
  return x->penalty < y->penalty ? -1 : x->penalty > y->penalty ? 1 : memcmp (x->couple, y->couple, sizeof x->couple);
}

/* ── gear for a set ── */

typedef struct
{
  const FlRigs *rigs[FL_MAX_COUPLES_CHOSEN];
  guint pieces[FL_MAX_COUPLES_CHOSEN], n, nodes;
  double cheapest_after[FL_MAX_COUPLES_CHOSEN + 1], most_after[FL_MAX_COUPLES_CHOSEN + 1];
  double need;
  FlLeft left;
  const FlRig *now[FL_MAX_COUPLES_CHOSEN], *best[FL_MAX_COUPLES_CHOSEN];
  double best_cost;
} Match;

static void
match_from (Match *m, guint at, double cost, double value)
{
  if (at == m->n)
    {
      if (fl_reaches (value, m->need) && cost < m->best_cost)
        {
          m->best_cost = cost;
          memcpy (m->best, m->now, sizeof m->best);
        }
      return;
    }
  for (guint i = 0; i < m->rigs[at]->n && m->nodes < MATCH_NODES; i++)
    {
      const FlRig *rig = &m->rigs[at]->rigs[i];

      if (cost + rig->cost + m->cheapest_after[at + 1] >= m->best_cost)
        break;
      if (!fl_reaches (value + rig->value + m->most_after[at + 1], m->need))
        continue;
      m->nodes++;
      if (!fl_left_take (&m->left, rig, (gint) m->pieces[at]))
        continue;
      m->now[at] = rig;
      match_from (m, at + 1, cost + rig->cost, value + rig->value);
      fl_left_take (&m->left, rig, -(gint) m->pieces[at]);
    }
}

/* FALSE: some couple has no rig at all, or the strongest of each are not enough. */
static gboolean
match_bounds (Match *m)
{
  m->cheapest_after[m->n] = m->most_after[m->n] = 0.0;
  for (guint i = m->n; i > 0; i--)
    {
      double most = 0.0;

      if (m->rigs[i - 1]->n == 0)
        return FALSE;
      for (guint k = 0; k < m->rigs[i - 1]->n; k++)
        most = fmax (most, m->rigs[i - 1]->rigs[k].value);
      m->cheapest_after[i - 1] = m->cheapest_after[i] + m->rigs[i - 1]->rigs[0].cost;
      m->most_after[i - 1] = m->most_after[i] + most;
    }
  return fl_reaches (m->most_after[0], m->need);
}

/* FALSE: there can be no match, whatever is left. */
static gboolean
match_start (Search *s, const Set *set, Match *m)
{
  m->n = set->n;
  m->nodes = 0;
  m->need = s->wanted->need;
  m->left = s->state->left;
  m->best[0] = NULL;
  for (guint i = 0; i < set->n; i++)
    {
      m->rigs[i] = rigs_of (s, set->couple[i]);
      m->pieces[i] = s->couples.couples[set->couple[i]].n;
    }
  return match_bounds (m);
}

static gboolean
match_set (Match *m, double bound)
{
  m->best_cost = bound;
  match_from (m, 0, 0.0, 0.0);
  return m->best[0] != NULL;
}

/* ── taking what was found ── */

void
fl_draft_append (FlDraft *state, const FlWanted *w, const FlCouple *couple, const FlRig *rig, const FlImplement *implement)
{
  const FlTrailer *trailer = w->site->ground->trailer;

  for (guint k = 0; k < couple->n && state->chosen.n < FL_MAX_CHOSEN; k++)
    {
      const FlLeg *leg = couple->legs[k];
      FlChosenTie tie = chosen_leg (leg, w->load);

      tie.implement = implement;
      tie.rig = *rig;
      tie.wll = rig->wll[k];
      tie.strength = rig->cost / couple->n;
      tie.strap = rig->strap >= 0;
      state->chosen.ties[state->chosen.n++] = tie;
      for (guint i = 0; i < 2; i++)
        if (leg->anchors[i] != NULL)
          fl_hung_add (&state->hung, trailer, leg->anchors[i]);
    }
  state->cautions |= couple->cautions;
  fl_left_take (&state->left, rig, (gint) couple->n);
}

/* Do legs of the set come too near to each other, or to what was chosen before? */
static gboolean
set_near (const Search *s, const Set *set)
{
  double apart = fl_book_data (s->wanted->book)->apart * FL_M_PER_IN;
  FlChosenTie ties[2 * FL_MAX_COUPLES_CHOSEN];
  guint n = 0;

  for (guint i = 0; i < set->n; i++)
    {
      const FlCouple *c = &s->couples.couples[set->couple[i]];

      if (fl_draft_near (s->state, s->wanted, c))
        return TRUE;
      for (guint k = 0; k < c->n; k++)
        ties[n++] = chosen_leg (c->legs[k], s->wanted->load);
    }
  for (guint i = 0; i < n; i++)
    for (guint k = i + 1; k < n; k++)
      if (fl_chosen_near (&ties[i], &ties[k], apart))
        return TRUE;
  return FALSE;
}

static gboolean
choose_own_of (Search *s, guint k)
{
  Match match, best;
  const Set *best_set = NULL;
  gboolean best_near = FALSE;
  double bound = INFINITY;
  guint matched = 0;
  Set set = { .n = 0, .rearmost = INFINITY, .foremost = -INFINITY };

  s->n_sets = 0;
  s->visits = 0;
  s->any = FALSE;
  list_sets (s, &set, 0, k);
  qsort (s->sets, s->n_sets, sizeof (Set), by_penalty);
  for (guint i = 0; i < s->n_sets && matched < MATCHED_SETS; i++)
    {
      gboolean near_;

      if (best_set != NULL && !best_near
          && MAX (s->sets[i].left, s->sets[i].right) > MAX (best_set->left, best_set->right))
        break;
      if (!match_start (s, &s->sets[i], &match))
        continue;
      matched++;
      near_ = set_near (s, &s->sets[i]);
      /* Chains that touch are a caution and come before the gear's strength. */
      if ((best_set != NULL && near_ && !best_near) || !match_set (&match, best_near && !near_ ? INFINITY : bound))
        continue;
      best = match;
      best_set = &s->sets[i];
      best_near = near_;
      bound = match.best_cost;
    }
  if (best_set == NULL)
    return FALSE;
  for (guint i = 0; i < best_set->n; i++)
    fl_draft_append (s->state, s->wanted, &s->couples.couples[best_set->couple[i]], best.best[i], NULL);
  return TRUE;
}

/* Half of how far apart the points lie that can be reached at all: tied at one end only, a load swings round it. */
static double
spread_of (const FlLegs *legs)
{
  double rearmost = INFINITY, foremost = -INFINITY;

  for (guint i = 0; i < legs->n; i++)
    {
      rearmost = fmin (rearmost, legs->legs[i].lay.path[0].x);
      foremost = fmax (foremost, legs->legs[i].lay.path[0].x);
    }
  return legs->n > 0 ? (foremost - rearmost) / 2 : 0.0;
}

/* What pinned tie-downs contribute to the spread is not looked at: with pins, none is asked for. */
static gboolean
any_fixed (const FlDraft *state, guint load)
{
  for (guint i = 0; i < state->chosen.n; i++)
    if (state->chosen.ties[i].load == load && state->chosen.ties[i].fixed != NULL)
      return TRUE;
  return FALSE;
}

/* The most that so many of the best pieces left could count, and whether there are as many as are wanted: what the gear can never do need not be searched. */
static gboolean
gear_may_do (const FlDraft *state, const FlWanted *w)
{
  const FlPoolShelf *shelf = w->straps ? &w->pool->straps : &w->pool->chains;
  const gint16 *left = w->straps ? state->left.straps : state->left.chains;
  double sum = 0.0;
  guint pieces = 0, binders = 0;

  for (guint i = 0; i < shelf->n; i++)
    {
      pieces += (guint) MAX (0, left[i]);
      sum += MAX (0, left[i]) * shelf->classes[i].wll;
    }
  for (guint i = 0; i < w->pool->binders.n; i++)
    binders += (guint) MAX (0, state->left.binders[i]);
  if (!w->straps && binders < w->count)
    return FALSE;
  return pieces >= MAX (w->count, 2 * w->section_count) && fl_reaches (sum * fl_book_share (w->book, FALSE, 'L', 0), w->need);
}

static gboolean
choose_own (FlDraft *state, const FlWanted *w, guint mask, guint64 *work)
{
  g_autofree FlLegs *legs = g_new (FlLegs, 1);
  g_autofree Search *s = g_new0 (Search, 1);
  gboolean found = w->count == 0 && w->need <= 0.0 && w->holds == 0 && w->section_count == 0;

  s->wanted = w;
  s->state = state;
  if (found)
    return TRUE;
  if (!gear_may_do (state, w))
    return FALSE;
  fl_legs_find (legs, w->site, NULL, &state->hung);
  fl_couples_find (&s->couples, legs, w->site->ground->trailer, mask, w->singles);
  for (guint i = s->couples.n; i > 0; i--)
    s->holds_from[i - 1] = s->holds_from[i] | s->couples.couples[i - 1].holds;
  s->sets = g_new (Set, MAX_SETS);
  s->spread = w->spread && !any_fixed (state, w->load) ? spread_of (legs) : 0.0;
  for (guint k = 1; k <= FL_MAX_COUPLES_CHOSEN && !found && *work > 0; k++)
    {
      found = choose_own_of (s, k);
      *work -= MIN (*work, 1 + s->visits / 64);
      if (!s->any)
        break;                  /* the points and anchors take no more */
    }
  for (guint i = 0; i < FL_MAX_COUPLES; i++)
    g_free (s->rigs[i]);
  g_free (s->sets);
  return found;
}

gboolean
fl_choose_load (FlDraft *state, const FlWanted *wanted, guint mask, guint64 *work)
{
  g_autofree FlDraft *draft = g_memdup2 (state, sizeof *state);
  const FlMachine *machine = wanted->site->stand->machine;

  if (!choose_own (draft, wanted, mask, work))
    return FALSE;
  for (gsize i = 0; i < machine->n_implements && wanted->implements; i++)
    if (!fl_hold_implement (draft, wanted, &machine->implements[i], mask))
      return FALSE;
  *state = *draft;
  return TRUE;
}
