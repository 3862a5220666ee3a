/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The gear a move may take, sorted into classes of like pieces, so that the search chooses among kinds and not among serial numbers.
 * Private to planner. */
#ifndef FL_POOL_H
#define FL_POOL_H

#include "fl-assembly.h"

G_BEGIN_DECLS

enum { FL_POOL_MAX_CLASSES = 64, FL_POOL_MAX_CONNECTORS = 16 };

/* Pieces that are alike in everything that a plan can tell: limit, size, length, hooks, ... */
typedef struct
{
  FlRated like;                 /* one of them */
  GPtrArray *ids;               /* unit numbers, sorted; borrowed from the pool */
  double wll;                   /* book's unit */
} FlPoolClass;

typedef struct { FlPoolClass classes[FL_POOL_MAX_CLASSES]; guint n; } FlPoolShelf;

typedef struct
{
  FlPoolShelf chains, binders, straps, connectors;   /* each in order of limit, then unit number */
  GPtrArray *names;                                   /* owns the unit numbers */
  guint out_of_use;                                   /* pieces on hand that may not be used */
} FlPool;

/* What is on hand for the move by this trailer, in use and of known limit, without what is set aside, taken by others or pinned in the plan. */
FlPool *fl_pool_new (const FlBook *book, const FlFleet *fleet, const FlMove *move, const FlPlanChoices *choices, const char *const *taken);
void fl_pool_free (FlPool *pool);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlPool, fl_pool_free)

G_END_DECLS
#endif
