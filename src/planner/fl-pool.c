/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The gear a move may take: see fl-pool.h. */
#include "fl-pool.h"

#include <string.h>

static gboolean
same (FlQuantity a, FlQuantity b)
{
  return a.unit == b.unit && a.value == b.value;
}

static gboolean
same_ends (const FlEnd a[2], const FlEnd b[2])
{
  for (guint i = 0; i < 2; i++)
    if (a[i].hook != b[i].hook || !same (a[i].needs, b[i].needs))
      return FALSE;
  return TRUE;
}

static gboolean
same_chain (const FlChain *a, const FlChain *b)
{
  return fl_size_equal (a->size_in, b->size_in) && same (a->length, b->length) && same_ends (a->ends, b->ends)
         && a->mark_seen == b->mark_seen && g_strcmp0 (a->mark, b->mark) == 0;
}

static gboolean
same_binder (const FlBinder *a, const FlBinder *b)
{
  if (a->kind != b->kind || !same (a->take_up, b->take_up) || !same (a->needs_run, b->needs_run) || a->n_sizes != b->n_sizes)
    return FALSE;
  for (gsize i = 0; i < a->n_sizes; i++)
    if (!fl_size_equal (a->sizes_in[i], b->sizes_in[i]))
      return FALSE;
  return TRUE;
}

static gboolean
same_strap (const FlStrap *a, const FlStrap *b)
{
  return same (a->width, b->width) && same (a->length, b->length) && a->tensioner == b->tensioner && same_ends (a->ends, b->ends);
}

static gboolean
same_connector (const FlConnector *a, const FlConnector *b)
{
  return a->kind == b->kind && same (a->opening, b->opening) && same (a->jaw, b->jaw) && same (a->pin, b->pin);
}

static gboolean
alike (const FlRated *a, double wll_a, const FlPoolClass *b)
{
  if (wll_a != b->wll)
    return FALSE;
  switch (a->kind)
    {
    case FL_KIND_CHAIN:
      return same_chain (fl_record_chain (a->record), fl_record_chain (b->like.record));
    case FL_KIND_BINDER:
      return same_binder (fl_record_binder (a->record), fl_record_binder (b->like.record));
    case FL_KIND_STRAP:
      return same_strap (fl_record_strap (a->record), fl_record_strap (b->like.record));
    default:
      return same_connector (fl_record_connector (a->record), fl_record_connector (b->like.record));
    }
}

static FlPoolShelf *
shelf_of (FlPool *pool, FlKind kind)
{
  switch (kind)
    {
    case FL_KIND_CHAIN:
      return &pool->chains;
    case FL_KIND_BINDER:
      return &pool->binders;
    case FL_KIND_STRAP:
      return &pool->straps;
    default:
      return &pool->connectors;
    }
}

static void
put (FlPool *pool, const FlRated *rated, double wll)
{
  FlPoolShelf *shelf = shelf_of (pool, rated->kind);
  FlPoolClass *class = NULL;

  for (guint i = 0; i < shelf->n && class == NULL; i++)
    if (alike (rated, wll, &shelf->classes[i]))
      class = &shelf->classes[i];
  if (class == NULL)
    {
      if (shelf->n == FL_POOL_MAX_CLASSES)
        return;
      class = &shelf->classes[shelf->n++];
      *class = (FlPoolClass) { *rated, g_ptr_array_new (), wll };
    }
  g_ptr_array_add (class->ids, (gpointer) rated->id);
}

static int
by_limit (gconstpointer a, gconstpointer b)
{
  const FlPoolClass *x = a, *y = b;

  if (x->wll != y->wll)
    return x->wll < y->wll ? -1 : 1;
  return strcmp (x->like.id, y->like.id);
}

static gboolean
listed (const char *const *list, const char *id)
{
  return list != NULL && g_strv_contains (list, id);
}

static gboolean
pinned_somewhere (const FlPlanChoices *c, const char *id)
{
  for (gsize i = 0; i < c->n_tie_downs; i++)
    {
      const FlTieDown *t = &c->tie_downs[i];

      if (t->pinned == 0)
        continue;
      if (g_strcmp0 (t->chain, id) == 0 || g_strcmp0 (t->binder, id) == 0 || g_strcmp0 (t->strap, id) == 0)
        return TRUE;
      for (guint k = 0; k < t->n_connectors; k++)
        if (strcmp (t->connectors[k].id, id) == 0)
          return TRUE;
    }
  return FALSE;
}

FlPool *
fl_pool_new (const FlBook *book, const FlFleet *fleet, const FlMove *move, const FlPlanChoices *choices, const char *const *taken)
{
  FlPool *pool = g_new0 (FlPool, 1);
  FlUnit unit = fl_book_data (book)->unit;

  pool->names = fl_fleet_on_hand (fleet, move, choices->trailer);
  for (guint i = 0; i < pool->names->len; i++)
    {
      const char *id = g_ptr_array_index (pool->names, i);
      FlRated rated;

      if (listed (choices->aside_gear, id) || listed (taken, id) || pinned_somewhere (choices, id)
          || !fl_rated_find (&rated, book, fleet, id))
        continue;
      if (rated.rating.in_use && fl_quantity_known (rated.rating.wll))
        put (pool, &rated, fl_quantity_in (rated.rating.wll, unit));
      else
        pool->out_of_use++;
    }
  qsort (pool->chains.classes, pool->chains.n, sizeof (FlPoolClass), by_limit);
  qsort (pool->binders.classes, pool->binders.n, sizeof (FlPoolClass), by_limit);
  qsort (pool->straps.classes, pool->straps.n, sizeof (FlPoolClass), by_limit);
  qsort (pool->connectors.classes, pool->connectors.n, sizeof (FlPoolClass), by_limit);
  return pool;
}

static void
clear_shelf (FlPoolShelf *shelf)
{
  for (guint i = 0; i < shelf->n; i++)
    g_ptr_array_unref (shelf->classes[i].ids);
}

void
fl_pool_free (FlPool *pool)
{
  if (pool == NULL)
    return;
  clear_shelf (&pool->chains);
  clear_shelf (&pool->binders);
  clear_shelf (&pool->straps);
  clear_shelf (&pool->connectors);
  g_ptr_array_unref (pool->names);
  g_free (pool);
}
