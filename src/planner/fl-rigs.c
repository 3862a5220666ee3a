/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which gear serves a couple of legs: see fl-legs.h. */
#include "fl-legs.h"

#include <math.h>
#include <stdlib.h>

#include "fl-house.h"

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

static gboolean
same_pieces (const FlRig *a, const FlRig *b)
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
      if (!fl_house_allows (r->book, &parts, &assembly, r->what->own, r->what->article))
        return FL_ASM_OUT_OF_USE;
      rig->wll[i] = assembly.wll;
      rig->value += share * fl_house_worth (r->book, &parts, assembly.wll, NULL).wll;
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
    if (same_pieces (&rigs->rigs[i], rig))
      return;
  if (rigs->n < FL_MAX_RIGS)
    rigs->rigs[rigs->n++] = *rig;
}

/* ── connectors: where a hook does not seat ──
 *
 * Whether a hook seats does not depend on the binder, so it is asked once for each chain: bare, else with the weakest connector that serves and with the
 * weakest that does not weaken the chain. */

enum { MAX_OPTIONS = 2 };
typedef struct { gint class[MAX_OPTIONS]; guint n; } Options;

static guint
flags_of (const Rigging *r, const FlRig *rig)
{
  guint flags = 0;

  for (guint i = 0; i < r->couple->n; i++)
    {
      FlAssembly assembly;
      FlAssemblyParts parts = parts_of (r, rig, r->couple->legs[i]);

      fl_assemble (&assembly, r->book, &parts);
      flags |= assembly.flags;
    }
  return flags;
}

static void
add_option (Options *options, gint class)
{
  if (options->n < MAX_OPTIONS && (options->n == 0 || options->class[0] != class))
    options->class[options->n++] = class;
}

/* The least that a connector must be worth by itself: what the house asks of each tie-down of the load itself. */
static double
least_of_each (const Rigging *r)
{
  const FlHouseRule *each = r->what->own ? fl_house_rule (r->book, FL_HOUSE_MIN_WLL_EACH) : NULL;

  return each != NULL ? fl_quantity_in (each->wll, fl_book_data (r->book)->unit) : 0.0;
}

/* `at` is the rig's member for the end whose hook does not seat; `flag` says so. */
static Options
options_at (const Rigging *r, FlRig rig, gboolean at_point, guint flag, double enough)
{
  const FlPoolShelf *shelf = &r->pool->connectors;
  Options options = { { -1, -1 }, 0 };
  gint *at = at_point ? &rig.at_point : &rig.at_anchor;
  double least = least_of_each (r);

  if ((flags_of (r, &rig) & flag) == 0)
    {
      add_option (&options, -1);
      return options;
    }
  for (guint i = 0; i < shelf->n && options.n < MAX_OPTIONS; i++)
    {
      *at = (gint) i;
      if (!fl_reaches (shelf->classes[i].wll, least))
        continue;
      if ((options.n == 0 || shelf->classes[i].wll >= enough) && (flags_of (r, &rig) & flag) == 0)
        {
          add_option (&options, (gint) i);
          if (shelf->classes[i].wll >= enough)
            break;
        }
    }
  return options;
}

static void
try_with_binder (const Rigging *r, FlRig rig, const Options *at_point, const Options *at_anchor)
{
  for (guint p = 0; p < at_point->n; p++)
    for (guint a = 0; a < at_anchor->n; a++)
      {
        FlRig next = rig;

        next.at_point = at_point->class[p];
        next.at_anchor = at_anchor->class[a];
        if (try_rig (r, &next) == 0)
          keep_rig (r, &next);
      }
}

static gboolean
binder_goes (const Rigging *r, gint chain, gint binder)
{
  return fl_fit_binder (fl_record_binder (like (&r->pool->binders, binder)->record), fl_record_chain (like (&r->pool->chains, chain)->record)).answer
         != FL_FIT_NOT;
}

static void
try_gear (const Rigging *r, gint chain, gint strap)
{
  FlRig rig = { chain, -1, strap, -1, -1, { NAN, NAN }, 0.0, 0.0 };
  double enough = chain >= 0 ? r->pool->chains.classes[chain].wll : r->pool->straps.classes[strap].wll;
  Options at_point, at_anchor;

  if ((flags_of (r, &rig) & (FL_ASM_TOO_SHORT | FL_ASM_LENGTH_UNKNOWN | FL_ASM_NO_LENGTH)) != 0)
    return;                     /* too short without a binder's take-up already */
  at_point = options_at (r, rig, TRUE, FL_ASM_HOOK_POINT, enough);
  at_anchor = options_at (r, rig, FALSE, FL_ASM_HOOK_ANCHOR, enough);
  if (strap >= 0)
    try_with_binder (r, rig, &at_point, &at_anchor);
  else
    for (guint b = 0; b < r->pool->binders.n; b++)
      if (binder_goes (r, chain, (gint) b))
        {
          rig.binder = (gint) b;
          try_with_binder (r, rig, &at_point, &at_anchor);
        }
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
    for (guint k = 0; k < pool->straps.n; k++)
      try_gear (&r, -1, (gint) k);
  else
    for (guint k = 0; k < pool->chains.n; k++)
      try_gear (&r, (gint) k, -1);
  qsort (rigs->rigs, rigs->n, sizeof (FlRig), by_cost);
}
