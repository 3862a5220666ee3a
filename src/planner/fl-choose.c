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
#include "fl-match.h"
#include "fl-run.h"

/* Sets of couples kept for each k, and how many of the best of them get gear matched; places in the search for sets looked at, and so many where
 * as many offers are wanted as there can be. Work, not seconds. */
enum { MAX_SETS = 3000, MATCHED_SETS = 16, MAX_VISITS = 8000, CLOSE_VISITS = 60000, MAX_OFFERS = 24 };

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

double
fl_chosen_counts (const FlBook *book, const FlChosenTie *tie)
{
  gboolean over = tie->anchors[1] != NULL;

  return tie->wll * fl_book_share (book, over, tie->anchors[0]->side, over ? tie->anchors[1]->side : 0);
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
typedef struct { guint couple[FL_MAX_COUPLES_CHOSEN], n, holds, legs, front, rear, left, right; double penalty, rearmost, foremost, held[FL_N_WAYS]; } Set;

/* A set with the gear that serves it best. */
typedef struct { const Set *set; FlMatch match; gboolean near; } Offer;

typedef struct
{
  const FlWanted *wanted;
  const FlDraft *state;
  FlCouples couples;
  FlRigged *rigged[FL_MAX_COUPLES];  /* found when first asked for */
  guint holds_from[FL_MAX_COUPLES + 1];   /* what all couples from here on could still hold */
  Set *sets; guint n_sets;
  double spread;                /* m that the points of a set must lie apart; 0: none */
  guint visits, most_visits;
  gboolean any;                 /* some set of the size went together, whether it serves or not */
  gboolean guided;              /* something must hold each way */
  double held[FL_MAX_COUPLES][FL_N_WAYS], most_held[FL_N_WAYS];  /* guided: by each couple with the strongest gear left; the most by any; book's unit */
  Offer offers[MAX_OFFERS]; guint n_offers, wanted_offers;
} Search;

static const FlRigged *
rigged_of (Search *s, guint couple)
{
  if (s->rigged[couple] == NULL)
    {
      s->rigged[couple] = g_new (FlRigged, 1);
      fl_rigged_fill (s->rigged[couple], s->wanted, &s->couples.couples[couple]);
    }
  return s->rigged[couple];
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
  for (guint way = 0; way < FL_N_WAYS && s->guided; way++)
    next.held[way] += s->held[couple][way];
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

/* Could the set, with so many couples more, hold each way what is asked, had it the strongest gear? */
static gboolean
may_hold (const Search *s, const Set *set, guint more)
{
  for (guint way = 0; way < FL_N_WAYS && s->guided; way++)
    if (!fl_reaches (set->held[way] + more * s->most_held[way], fmax (s->wanted->ways[way], s->wanted->sums[way])))
      return FALSE;
  return TRUE;
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
      if (s->n_sets < MAX_SETS && serves (s->wanted, set, 0, 0) && may_hold (s, set, 0) && set->foremost - set->rearmost >= s->spread)
        s->sets[s->n_sets++] = *set;
      return;
    }
  for (guint i = from; i < s->couples.n && s->n_sets < MAX_SETS && s->visits < s->most_visits; i++)
    {
      Set next;

      s->visits++;
      if (!serves (s->wanted, set, 2 * (k - set->n), s->holds_from[i]) || !may_hold (s, set, k - set->n))
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

/* How well the set could hold each way if all of it were of one kind of chain: the least of what is wanted. As a penalty. */
static double
shares_badly (const Search *s, const Set *set)
{
  FlStretch legs[2 * FL_MAX_COUPLES_CHOSEN];
  double least = INFINITY;
  guint n = 0;

  for (guint i = 0; i < set->n; i++)
    for (guint k = 0; k < s->couples.couples[set->couple[i]].n; k++)
      {
        const FlLay *lay = &s->couples.couples[set->couple[i]].legs[k]->lay;

        legs[n++] = fl_stretch_of (lay, 1.0, 1.0 / lay->run);
      }
  for (guint way = 0; way < FL_N_WAYS; way++)
    {
      double asked = fmax (s->wanted->ways[way], s->wanted->sums[way]);

      if (asked > 0.0)
        least = fmin (least, fl_share_holds (legs, n, way) / asked);
    }
  return -least;
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
      tie.stiffness = fl_rig_stiffness (w->book, w->pool, rig, leg);
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

/* ── the best sets with their gear ── */

static guint
fuller_side (const Set *set)
{
  return MAX (set->left, set->right);
}

/* Chains that touch are a caution and come before balance, and balance before the gear's strength. */
static gboolean
better_offer (const Offer *a, const Offer *b)
{
  if (a->near != b->near)
    return b->near;
  if (fuller_side (a->set) != fuller_side (b->set))
    return fuller_side (a->set) < fuller_side (b->set);
  return a->match.best_cost < b->match.best_cost;
}

static void
keep_offer (Search *s, const Offer *offer)
{
  guint at = s->n_offers;

  while (at > 0 && better_offer (offer, &s->offers[at - 1]))
    at--;
  if (at == s->wanted_offers)
    return;
  if (s->n_offers == s->wanted_offers)
    s->n_offers--;
  memmove (&s->offers[at + 1], &s->offers[at], (s->n_offers - at) * sizeof (Offer));
  s->offers[at] = *offer;
  s->n_offers++;
}

static gboolean
start_match (Search *s, const Set *set, FlMatch *match)
{
  match->n = set->n;
  for (guint i = 0; i < set->n; i++)
    {
      match->rigged[i] = rigged_of (s, set->couple[i]);
      match->pieces[i] = s->couples.couples[set->couple[i]].n;
    }
  return fl_match_start (match, s->wanted, &s->state->left);
}

/* The last of the offers bounds what is still of interest, once there are as many as are wanted. */
static double
bound_for (const Search *s, const Offer *next)
{
  const Offer *last = s->n_offers == s->wanted_offers ? &s->offers[s->n_offers - 1] : NULL;

  if (last == NULL || (last->near && !next->near) || fuller_side (next->set) < fuller_side (last->set))
    return INFINITY;
  return (next->near && !last->near) || fuller_side (next->set) > fuller_side (last->set) ? 0.0 : last->match.best_cost;
}

static void
list_all_sets (Search *s, guint k)
{
  Set set = { .n = 0, .rearmost = INFINITY, .foremost = -INFINITY };

  s->n_sets = 0;
  s->visits = 0;
  s->any = FALSE;
  list_sets (s, &set, 0, k);
  for (guint i = 0; i < s->n_sets && s->guided; i++)
    s->sets[i].penalty = shares_badly (s, &s->sets[i]);
  qsort (s->sets, s->n_sets, sizeof (Set), by_penalty);
}

static gboolean
choose_own_of (Search *s, guint k)
{
  guint matched = 0;

  list_all_sets (s, k);
  for (guint i = 0; i < s->n_sets && matched < MAX (MATCHED_SETS, s->wanted_offers); i++)
    {
      Offer next = { .set = &s->sets[i] };
      double bound;

      if (s->n_offers == s->wanted_offers && !s->offers[s->n_offers - 1].near && fuller_side (next.set) > fuller_side (s->offers[s->n_offers - 1].set))
        break;
      if (!start_match (s, next.set, &next.match))
        continue;
      matched++;
      next.near = set_near (s, next.set);
      bound = bound_for (s, &next);
      if (bound > 0.0 && fl_match_find (&next.match, bound))
        keep_offer (s, &next);
    }
  return s->n_offers > 0;
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

static void
search_free (Search *s)
{
  for (guint i = 0; i < FL_MAX_COUPLES; i++)
    g_free (s->rigged[i]);
  g_free (s->sets);
  g_free (s);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Search, search_free)

static void
fill_held (Search *s)
{
  const FlPoolShelf *shelf = s->wanted->straps ? &s->wanted->pool->straps : &s->wanted->pool->chains;
  const gint16 *left = s->wanted->straps ? s->state->left.straps : s->state->left.chains;
  double strongest = 0.0;

  for (guint i = 0; i < shelf->n; i++)
    strongest = left[i] > 0 ? fmax (strongest, shelf->classes[i].wll) : strongest;
  for (guint i = 0; i < s->couples.n; i++)
    for (guint way = 0; way < FL_N_WAYS; way++)
      {
        for (guint k = 0; k < s->couples.couples[i].n; k++)
          s->held[i][way] += strongest * fl_stretch_of (&s->couples.couples[i].legs[k]->lay, strongest, 1.0).cosine[way];
        s->most_held[way] = fmax (s->most_held[way], s->held[i][way]);
      }
}

/* The least number of couples with an answer, and its offers. */
static gboolean
search_couples (Search *s, FlLegs *legs, guint mask, guint64 *work)
{
  const FlWanted *w = s->wanted;
  gboolean found = FALSE;

  fl_legs_find (legs, w->site, NULL, &s->state->hung);
  fl_legs_settle (legs, w);
  fl_couples_find (&s->couples, legs, w->site->ground->trailer, mask, w->singles);
  for (guint i = s->couples.n; i > 0; i--)
    s->holds_from[i - 1] = s->holds_from[i] | s->couples.couples[i - 1].holds;
  s->sets = g_new (Set, MAX_SETS);
  s->spread = w->spread && !any_fixed (s->state, w->load) ? spread_of (legs) : 0.0;
  s->guided = fl_is_guided (w);
  if (s->guided)
    fill_held (s);
  for (guint k = 1; k <= FL_MAX_COUPLES_CHOSEN && !found && *work > 0; k++)
    {
      found = choose_own_of (s, k);
      *work -= MIN (*work, 1 + s->visits / 64);
      if (!s->any)
        break;                  /* the points and anchors take no more */
    }
  return found;
}

gboolean
fl_is_guided (const FlWanted *wanted)
{
  for (guint way = 0; way < FL_N_WAYS; way++)
    if (wanted->ways[way] > 0.0 || wanted->sums[way] > 0.0)
      return TRUE;
  return FALSE;
}

static gboolean
nothing_wanted (const FlWanted *w)
{
  return !fl_is_guided (w) && w->count == 0 && w->need <= 0.0 && w->holds == 0 && w->section_count == 0;
}

static void
take_offer (FlDraft *draft, const Search *s, const Offer *offer)
{
  for (guint i = 0; i < offer->set->n; i++)
    fl_draft_append (draft, s->wanted, &s->couples.couples[offer->set->couple[i]], &offer->match.rigged[i]->rigs.rigs[offer->match.best[i]], NULL);
}

guint
fl_choose_offers (FlDraft *offers, guint max, const FlDraft *state, const FlWanted *wanted, guint mask, guint64 *work)
{
  g_autofree FlLegs *legs = g_new (FlLegs, 1);
  g_autoptr(Search) s = g_new0 (Search, 1);
  const FlWanted w = fl_wanted_by_house (wanted, state);
  guint n = 0;

  s->wanted = &w;
  s->state = state;
  s->wanted_offers = MIN (max, MAX_OFFERS);
  s->most_visits = s->wanted_offers == MAX_OFFERS ? CLOSE_VISITS : MAX_VISITS;
  if (nothing_wanted (&w))
    {
      offers[0] = *state;
      return fl_hold_implements (&offers[0], &w, mask) ? 1 : 0;
    }
  if (!gear_may_do (state, &w) || !search_couples (s, legs, mask, work))
    return 0;
  for (guint i = 0; i < s->n_offers; i++)
    {
      offers[n] = *state;
      take_offer (&offers[n], s, &s->offers[i]);
      n += fl_hold_implements (&offers[n], &w, mask);
    }
  return n;
}
