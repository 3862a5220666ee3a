/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which gear serves a couple of legs: see fl-legs.h. */
#include "fl-legs.h"

#include <math.h>
#include <stdlib.h>

typedef struct
{
  const FlBook *book;
  const FlPool *pool;
  const FlCouple *couple;
  const FlRigFor *what;
  FlRigs *rigs;
} Rigging;

static const FlRated *
like (const FlPoolShelf *shelf, gint class)
{
  return class >= 0 ? &shelf->classes[class].like : NULL;
}

static FlAssemblyParts
parts_of (const Rigging *r, const FlRig *rig, const FlLeg *leg)
{
  FlAssemblyParts parts = { .chain = like (&r->pool->chains, rig->chain), .binder = like (&r->pool->binders, rig->binder),
                            .strap = like (&r->pool->straps, rig->strap), .point = leg->point,
                            .anchors = { leg->anchors[0], leg->anchors[1] }, .run_in = leg->lay.run / FL_M_PER_IN };

  if (rig->at_point >= 0)
    parts.connectors[parts.n_connectors++] = like (&r->pool->connectors, rig->at_point);
  if (rig->at_anchor >= 0)
    {
      parts.connector_at_anchor[parts.n_connectors] = TRUE;
      parts.connectors[parts.n_connectors++] = like (&r->pool->connectors, rig->at_anchor);
    }
  return parts;
}

static double
limit (const FlPoolShelf *shelf, gint class)
{
  return class >= 0 ? shelf->classes[class].wll : 0.0;
}

static guint
uses (const FlRig *a, const FlRig *b)
{
  return a->chain == b->chain && a->binder == b->binder && a->strap == b->strap && a->at_point == b->at_point
         && a->at_anchor == b->at_anchor;
}

/* Enough pieces of each class for both legs. */
static gboolean
pieces_for (const Rigging *r, const FlRig *rig)
{
  guint n = r->couple->n;

#define ENOUGH(shelf, class) ((class) < 0 || r->pool->shelf.classes[class].ids->len >= n)
  return ENOUGH (chains, rig->chain) && ENOUGH (binders, rig->binder) && ENOUGH (straps, rig->strap) && ENOUGH (connectors, rig->at_point)
         && ENOUGH (connectors, rig->at_anchor);
#undef ENOUGH
}

/* Assembles the rig on each leg; 0 where it serves, else the flags that forbid it. */
static guint
try_rig (const Rigging *r, FlRig *rig)
{
  const guint unknown = FL_ASM_WLL_UNKNOWN | FL_ASM_LENGTH_UNKNOWN | FL_ASM_NO_LENGTH;
  double share = r->couple->legs[0]->path != NULL ? 0.0 : fl_book_share (r->book, FALSE, 'L', 0);

  rig->value = 0.0;
  for (guint i = 0; i < r->couple->n; i++)
    {
      FlAssembly assembly;
      FlAssemblyParts parts = parts_of (r, rig, r->couple->legs[i]);
      guint bad;

      fl_assemble (&assembly, r->book, &parts);
      bad = assembly.flags & (FL_ASM_FORBIDS | unknown);
      if (bad != 0)
        return bad;
      if (!fl_house_allows (r->book, &parts, assembly.wll, r->what->own, r->what->article))
        return FL_ASM_OUT_OF_USE;
      rig->wll[i] = assembly.wll;
      rig->value += share * assembly.wll;
    }
  rig->cost = r->couple->n * (limit (&r->pool->chains, rig->chain) + limit (&r->pool->binders, rig->binder)
                              + limit (&r->pool->straps, rig->strap) + limit (&r->pool->connectors, rig->at_point)
                              + limit (&r->pool->connectors, rig->at_anchor));
  return 0;
}

static void
keep_rig (const Rigging *r, const FlRig *rig)
{
  FlRigs *rigs = r->rigs;

  if (!pieces_for (r, rig))
    return;
  for (guint i = 0; i < rigs->n; i++)
    if (uses (&rigs->rigs[i], rig))
      return;
  if (rigs->n < FL_MAX_RIGS)
    rigs->rigs[rigs->n++] = *rig;
}

/* Connectors where a hook does not seat: at each end the weakest that serves, and the weakest that does not weaken the tie-down. */
static void
try_connectors (const Rigging *r, FlRig rig, guint bad)
{
  const FlPoolShelf *shelf = &r->pool->connectors;
  gint *at = (bad & FL_ASM_HOOK_POINT) != 0 ? &rig.at_point : &rig.at_anchor;
  double best = 0.0;

  if ((bad & ~(guint) (FL_ASM_HOOK_POINT | FL_ASM_HOOK_ANCHOR)) != 0 || *at >= 0)
    return;
  for (guint i = 0; i < shelf->n; i++)
    {
      guint still;

      *at = (gint) i;
      still = try_rig (r, &rig);
      if (still == 0 && rig.value + rig.wll[0] > best)
        {
          best = rig.value + rig.wll[0];
          keep_rig (r, &rig);
        }
      else if (still != 0 && (still & (guint) ((bad & FL_ASM_HOOK_POINT) != 0 ? FL_ASM_HOOK_POINT : FL_ASM_HOOK_ANCHOR)) == 0)
        try_connectors (r, rig, still);
    }
}

static void
try_gear (const Rigging *r, gint chain, gint binder, gint strap)
{
  FlRig rig = { chain, binder, strap, -1, -1, { NAN, NAN }, 0.0, 0.0 };
  guint bad = try_rig (r, &rig);

  if (bad == 0)
    keep_rig (r, &rig);
  else if ((bad & (FL_ASM_HOOK_POINT | FL_ASM_HOOK_ANCHOR)) != 0)
    try_connectors (r, rig, bad);
}

static int
by_cost (gconstpointer a, gconstpointer b)
{
  const FlRig *x = a, *y = b;

  if (x->cost != y->cost)
    return x->cost < y->cost ? -1 : 1;
  if (x->value != y->value)
    return x->value > y->value ? -1 : 1;
  if (x->chain != y->chain)
    return x->chain - y->chain;
  return x->binder - y->binder;
}

void
fl_rigs_find (FlRigs *rigs, const FlBook *book, const FlPool *pool, const FlCouple *couple, const FlRigFor *what)
{
  Rigging r = { book, pool, couple, what, rigs };

  rigs->n = 0;
  if (what->straps)
    for (guint s = 0; s < pool->straps.n; s++)
      try_gear (&r, -1, -1, (gint) s);
  else
    for (guint c = 0; c < pool->chains.n; c++)
      for (guint b = 0; b < pool->binders.n; b++)
        try_gear (&r, (gint) c, (gint) b, -1);
  qsort (rigs->rigs, rigs->n, sizeof (FlRig), by_cost);
}
