/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tie-downs that hold an implement: see fl-choose-private.h. */
#include "fl-choose-private.h"

#include <math.h>
#include <string.h>

#include "fl-house.h"
#include "fl-pairing.h"

/* ── off its place ── */

static void
lay_there (FlLay *lay, const FlWanted *w, const FlLeg *leg, const FlStand *stand)
{
  const FlOverPath *path = leg->path;

  if (path != NULL)
    fl_lay_over (lay, w->book, w->site->ground, stand, path->points, path->n_points, path->edge, leg->anchors[0], leg->anchors[1]);
  else
    fl_lay_direct (lay, w->book, w->site->ground, stand, leg->point, leg->anchors[0]);
}

static gboolean
settle_leg (FlLeg *leg, const FlWanted *w)
{
  for (guint i = 0; i < w->n_off; i++)
    {
      FlLay lay;

      lay_there (&lay, w, leg, &w->off[i]);
      if ((lay.flags & FL_LAY_FORBIDS) != 0)
        return FALSE;
      leg->lay.run = fmax (leg->lay.run, lay.run);
    }
  return TRUE;
}

void
fl_legs_settle (FlLegs *legs, const FlWanted *w)
{
  guint n = 0;

  for (guint i = 0; i < legs->n && w->n_off > 0; i++)
    {
      FlLeg leg = legs->legs[i];

      if (settle_leg (&leg, w))
        legs->legs[n++] = leg;
    }
  if (w->n_off > 0)
    legs->n = n;
}

/* ── holding it ── */

typedef struct { guint new_cautions; double cost, penalty; const FlCouple *couple; FlRig rig; } Hold;

static gboolean
better_hold (const Hold *a, const Hold *b)
{
  if (a->new_cautions != b->new_cautions)
    return a->new_cautions < b->new_cautions;
  if (a->cost != b->cost)
    return a->cost < b->cost;
  return a->penalty < b->penalty;
}

/* The best rig that is still to be had for a couple of an implement. */
static void
weigh_hold (FlDraft *state, const FlWanted *w, const FlCouple *couple, Hold *best)
{
  g_autofree FlRigs *rigs = g_new (FlRigs, 1);
  FlRigFor what = { FALSE, FALSE, w->straps };
  Hold hold = { fl_bits (couple->cautions & ~state->cautions) + fl_draft_near (state, w, couple), 0.0, couple->penalty, couple, { 0 } };

  for (guint k = 0; k < couple->n; k++)
    if (couple->legs[k]->point != NULL
        && (gint) fl_draft_hung_on (state, w->load, couple->legs[k]->point) >= couple->legs[k]->point->takes)
      return;
  fl_rigs_find (rigs, w->book, w->pool, couple, &what);
  for (guint i = 0; i < rigs->n; i++)
    {
      FlLeft left = state->left;

      if (!fl_left_take (&left, &rigs->rigs[i], (gint) couple->n))
        continue;
      hold.cost = rigs->rigs[i].cost;
      hold.rig = rigs->rigs[i];
      if (best->couple == NULL || better_hold (&hold, best))
        *best = hold;
      return;
    }
}

/* Adds one leg, or a couple where two are still wanted, to an implement. Returns how many. */
static guint
add_hold (FlDraft *state, const FlWanted *w, const FlImplement *implement, guint mask, gboolean pair)
{
  g_autofree FlLegs *legs = g_new (FlLegs, 1);
  g_autofree FlCouples *couples = g_new (FlCouples, 1);
  Hold best = { 0 };

  fl_legs_find (legs, w->site, implement, &state->hung);
  fl_legs_settle (legs, w);
  fl_couples_find (couples, legs, w->site->ground->trailer, mask, !pair);
  for (guint i = 0; i < MIN (couples->n, 24u); i++)
    if (!pair || couples->couples[i].n == 2)
      weigh_hold (state, w, &couples->couples[i], &best);
  if (best.couple == NULL)
    return 0;
  fl_draft_append (state, w, best.couple, &best.rig, implement);
  return best.couple->n;
}

static guint
held_already (const FlDraft *state, guint load, const FlImplement *implement)
{
  guint n = 0;

  for (guint i = 0; i < state->chosen.n; i++)
    n += state->chosen.ties[i].load == load && state->chosen.ties[i].implement != NULL
         && strcmp (state->chosen.ties[i].implement->id, implement->id) == 0;
  return n;
}

gboolean
fl_hold_implement (FlDraft *state, const FlWanted *w, const FlImplement *implement, guint mask)
{
  guint have = held_already (state, w->load, implement), want = (guint) MAX (0, implement->min_tie_downs);

  while (have < want)
    {
      guint added = want - have >= 2 ? add_hold (state, w, implement, mask, TRUE) : 0;

      if (added == 0)
        added = add_hold (state, w, implement, mask, FALSE);
      if (added == 0)
        return FALSE;
      have += added;
    }
  return TRUE;
}

gboolean
fl_hold_implements (FlDraft *state, const FlWanted *w, guint mask)
{
  const FlMachine *machine = w->site->stand->machine;

  for (gsize i = 0; i < machine->n_implements && w->implements; i++)
    if (!fl_house_lock_suffices (w->book, machine, &machine->implements[i]) && !fl_hold_implement (state, w, &machine->implements[i], mask))
      return FALSE;
  return TRUE;
}
