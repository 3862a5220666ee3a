/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gear for a set of couples: see fl-match.h. */
#include "fl-match.h"

#include <math.h>
#include <string.h>

#include "fl-spring.h"

/* Choices of gear looked at for one set. Work, not seconds. */
enum { MATCH_NODES = 4000 };

/* ── rigs found before ── */

/* What the rigs of a couple depend on, besides the pool. */
typedef struct { gconstpointer at[4]; double run[2]; gboolean straps, article; } Key;
typedef struct { Key key; guint n; FlRig rigs[]; } Found;

/* Choices of one stance, with more and fewer kinds of caution, ask for the same rigs again and again. */
enum { MAX_FOUND = 600 };

static guint
hash_key (gconstpointer data)
{
  const Key *key = data;
  guint hash = 0;

  for (guint i = 0; i < 4; i++)
    hash = 31 * hash + g_direct_hash (key->at[i]);
  return 31 * (31 * hash + g_double_hash (&key->run[0])) + g_double_hash (&key->run[1]);
}

static gboolean
same_key (gconstpointer a, gconstpointer b)
{
  const Key *x = a, *y = b;

  return memcmp (x->at, y->at, sizeof x->at) == 0 && x->run[0] == y->run[0] && x->run[1] == y->run[1] && x->straps == y->straps
         && x->article == y->article;
}

GHashTable *
fl_rigs_table_new (void)
{
  return g_hash_table_new_full (hash_key, same_key, NULL, g_free);
}

static Key
key_of (const FlWanted *w, const FlCouple *couple)
{
  Key key = { .straps = w->straps, .article = w->site->stand->machine->article };

  for (guint i = 0; i < couple->n; i++)
    {
      key.at[2 * i] = couple->legs[i]->point;
      key.at[2 * i + 1] = couple->legs[i]->anchors[0];
      key.run[i] = couple->legs[i]->lay.run;
    }
  return key;
}

static void
find_rigs (FlRigs *rigs, const FlWanted *w, const FlCouple *couple)
{
  FlRigFor what = { TRUE, w->site->stand->machine->article, w->straps };
  Key key = key_of (w, couple);
  Found *found = w->rigs != NULL ? g_hash_table_lookup (w->rigs, &key) : NULL;

  if (found != NULL)
    {
      rigs->n = found->n;
      memcpy (rigs->rigs, found->rigs, found->n * sizeof (FlRig));
      return;
    }
  fl_rigs_find (rigs, w->book, w->pool, couple, &what);
  if (w->rigs == NULL)
    return;
  if (g_hash_table_size (w->rigs) >= MAX_FOUND)
    g_hash_table_remove_all (w->rigs);
  found = g_malloc (sizeof (Found) + rigs->n * sizeof (FlRig));
  found->key = key;
  found->n = rigs->n;
  memcpy (found->rigs, rigs->rigs, rigs->n * sizeof (FlRig));
  g_hash_table_insert (w->rigs, &found->key, found);
}

/* ── what a rig holds ── */

static const FlRated *
like (const FlPoolShelf *shelf, gint class)
{
  return class >= 0 ? &shelf->classes[class].like : NULL;
}

double
fl_rig_stiffness (const FlBook *book, const FlPool *pool, const FlRig *rig, const FlLeg *leg)
{
  FlAssemblyParts parts = { .chain = like (&pool->chains, rig->chain), .binder = like (&pool->binders, rig->binder),
                            .strap = like (&pool->straps, rig->strap), .point = leg->point, .anchors = { leg->anchors[0], leg->anchors[1] },
                            .n_connectors = (guint) (rig->at_point >= 0) + (rig->at_anchor >= 0), .run_in = leg->lay.run / FL_M_PER_IN };

  return 1.0 / fl_spring_yield (book, &parts);
}

static void
stretch_rig (FlRigged *out, guint i, const FlWanted *w, const FlCouple *couple)
{
  const FlRig *rig = &out->rigs.rigs[i];

  memset (out->holds[i], 0, sizeof out->holds[i]);
  for (guint k = 0; k < couple->n; k++)
    {
      FlStretch *leg = &out->legs[i][k];

      *leg = fl_stretch_of (&couple->legs[k]->lay, rig->wll[k], fl_rig_stiffness (w->book, w->pool, rig, couple->legs[k]));
      for (guint way = 0; way < FL_N_WAYS; way++)
        out->holds[i][way] += leg->limit * leg->cosine[way];
    }
  for (guint way = 0; way < FL_N_WAYS; way++)
    out->most_held[way] = fmax (out->most_held[way], out->holds[i][way]);
}

void
fl_rigged_fill (FlRigged *out, const FlWanted *w, const FlCouple *couple)
{
  find_rigs (&out->rigs, w, couple);
  out->most = 0.0;
  memset (out->most_held, 0, sizeof out->most_held);
  for (guint i = 0; i < out->rigs.n; i++)
    {
      if (out->rigs.rigs[i].value > out->most)
        out->most = out->rigs.rigs[i].value;
      if (fl_is_guided (w))
        stretch_rig (out, i, w, couple);
    }
}

/* ── the search ── */

/* Do the rigs chosen now hold each way, in sum and as they share it? */
static gboolean
shares_well (const FlMatch *m, const double *holds)
{
  FlStretch legs[2 * FL_MAX_COUPLES_CHOSEN];
  guint n = 0;

  for (guint way = 0; way < FL_N_WAYS && m->guided; way++)
    if (!fl_reaches (holds[way], m->sums[way]))
      return FALSE;
  for (guint i = 0; i < m->n && m->guided; i++)
    for (guint k = 0; k < m->pieces[i]; k++)
      legs[n++] = m->rigged[i]->legs[m->now[i]][k];
  for (guint way = 0; way < FL_N_WAYS && m->guided; way++)
    if (m->ways[way] > 0.0 && !fl_reaches (fl_share_holds (legs, n, way), m->ways[way]))
      return FALSE;
  return TRUE;
}

static void
keep_now (FlMatch *m, double cost)
{
  m->best_cost = cost;
  memcpy (m->best, m->now, sizeof m->best);
}

/* What is held up to here, what is looked at now, and the most that may follow. */
static gboolean
may_reach (const FlMatch *m, guint at, const FlRigged *rigged, guint rig, double value, const double *holds)
{
  if (!fl_reaches (value + rigged->rigs.rigs[rig].value + m->most_after[at + 1], m->need))
    return FALSE;
  for (guint way = 0; way < FL_N_WAYS && m->guided; way++)
    if (!fl_reaches (holds[way] + rigged->holds[rig][way] + m->holds_after[at + 1][way], fmax (m->ways[way], m->sums[way])))
      return FALSE;
  return TRUE;
}

static void
match_from (FlMatch *m, guint at, double cost, double value, const double *holds)
{
  const FlRigged *rigged = at < m->n ? m->rigged[at] : NULL;

  if (rigged == NULL)
    {
      if (fl_reaches (value, m->need) && cost < m->best_cost && shares_well (m, holds))
        keep_now (m, cost);
      return;
    }
  for (guint i = 0; i < rigged->rigs.n && m->nodes < MATCH_NODES; i++)
    {
      const FlRig *rig = &rigged->rigs.rigs[i];
      double with[FL_N_WAYS];

      if (cost + rig->cost + m->cheapest_after[at + 1] >= m->best_cost)
        break;
      if (!may_reach (m, at, rigged, i, value, holds))
        continue;
      m->nodes++;
      if (!fl_left_take (&m->left, rig, (gint) m->pieces[at]))
        continue;
      for (guint way = 0; way < FL_N_WAYS; way++)
        with[way] = m->guided ? holds[way] + rigged->holds[i][way] : 0.0;
      m->now[at] = i;
      match_from (m, at + 1, cost + rig->cost, value + rig->value, with);
      fl_left_take (&m->left, rig, -(gint) m->pieces[at]);
    }
}

/* The cheapest rig with that chain or strap; FALSE: the couple has none. */
static gboolean
first_of_kind (const FlRigged *rigged, const FlRig *kind, guint *at)
{
  for (*at = 0; *at < rigged->rigs.n; (*at)++)
    if (rigged->rigs.rigs[*at].chain == kind->chain && rigged->rigs.rigs[*at].strap == kind->strap)
      return TRUE;
  return FALSE;
}

/* The same chain on every couple, the cheapest way: what is alike shares evenly, and it bounds what is looked at after it. */
static void
match_alike (FlMatch *m, const FlRig *kind)
{
  FlLeft left = m->left;
  double cost = 0.0, value = 0.0, holds[FL_N_WAYS] = { 0.0 };

  for (guint i = 0; i < m->n; i++)
    {
      const FlRig *rig;

      if (!first_of_kind (m->rigged[i], kind, &m->now[i]))
        return;
      rig = &m->rigged[i]->rigs.rigs[m->now[i]];
      if (!fl_left_take (&left, rig, (gint) m->pieces[i]))
        return;
      cost += rig->cost;
      value += rig->value;
      for (guint way = 0; way < FL_N_WAYS; way++)
        holds[way] += m->rigged[i]->holds[m->now[i]][way];
    }
  if (fl_reaches (value, m->need) && cost < m->best_cost && shares_well (m, holds))
    keep_now (m, cost);
}

static gboolean
kind_seen (const FlRigs *rigs, guint at)
{
  for (guint i = 0; i < at; i++)
    if (rigs->rigs[i].chain == rigs->rigs[at].chain && rigs->rigs[i].strap == rigs->rigs[at].strap)
      return TRUE;
  return FALSE;
}

gboolean
fl_match_start (FlMatch *m, const FlWanted *w, const FlLeft *left)
{
  m->nodes = 0;
  m->need = w->need;
  m->guided = fl_is_guided (w);
  memcpy (m->sums, w->sums, sizeof m->sums);
  memcpy (m->ways, w->ways, sizeof m->ways);
  memset (m->holds_after[m->n], 0, sizeof m->holds_after[m->n]);
  m->cheapest_after[m->n] = m->most_after[m->n] = 0.0;
  for (guint i = m->n; i > 0; i--)
    {
      const FlRigged *rigged = m->rigged[i - 1];

      if (rigged->rigs.n == 0)
        return FALSE;
      m->cheapest_after[i - 1] = m->cheapest_after[i] + rigged->rigs.rigs[0].cost;
      m->most_after[i - 1] = m->most_after[i] + rigged->most;
      for (guint way = 0; way < FL_N_WAYS && m->guided; way++)
        m->holds_after[i - 1][way] = m->holds_after[i][way] + rigged->most_held[way];
    }
  for (guint way = 0; way < FL_N_WAYS && m->guided; way++)
    if (!fl_reaches (m->holds_after[0][way], fmax (m->ways[way], m->sums[way])))
      return FALSE;
  m->left = *left;
  return fl_reaches (m->most_after[0], m->need);
}

gboolean
fl_match_find (FlMatch *m, double bound)
{
  const double none[FL_N_WAYS] = { 0.0 };
  const FlRigs *first = &m->rigged[0]->rigs;

  m->best_cost = bound;
  for (guint i = 0; i < first->n && m->guided; i++)
    if (!kind_seen (first, i))
      match_alike (m, &first->rigs[i]);
  match_from (m, 0, 0.0, 0.0, none);
  return m->best_cost < bound;
}
