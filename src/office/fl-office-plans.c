/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plans of an open fleet's moves, and what they hold of gear, machines, trailers, trucks and drivers at one time. */
#include "fl-office-private.h"

#include <string.h>

/* ── the plans ── */

const FlPlan *
fl_office_plan (const FlOffice *office, const char *move)
{
  return move != NULL ? g_hash_table_lookup (office->plans, move) : NULL;
}

void
fl_office_set_plan (FlOffice *office, const char *move, const FlPlan *plan)
{
  if (plan != NULL)
    g_hash_table_replace (office->plans, g_strdup (move), fl_plan_ref (plan));
  else
    g_hash_table_remove (office->plans, move);
}

/* "2026-11-25/01, 2026-11-25/02 and 12 more" */
static char *
some_moves (const FlFleet *fleet)
{
  enum { SHOWN = 6 };
  gsize n = fl_fleet_count (fleet, FL_KIND_MOVE);
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < MIN (n, (gsize) SHOWN); i++)
    g_string_append_printf (text, "%s%s", i == 0 ? "" : ", ", fl_record_id (fl_fleet_at (fleet, FL_KIND_MOVE, i)));
  if (n > SHOWN)
    g_string_append_printf (text, " and %" G_GSIZE_FORMAT " more", n - SHOWN);
  return g_string_free (text, FALSE);
}

gboolean
fl_office_check_move (const FlOffice *office, const char *move, GError **error)
{
  g_autofree char *there = NULL;

  if (fl_office_move (office, move) != NULL)
    return TRUE;
  there = some_moves (office->fleet);
  g_set_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE, "%s: moves: %s: %s%s", office->path, move != NULL ? move : "(none)",
               *there != '\0' ? "the fleet has no such move; it has " : "the fleet has no moves", there);
  return FALSE;
}

FlPlan *
fl_office_start (const FlOffice *office, const char *move, GError **error)
{
  const FlPlan *plan = fl_office_plan (office, move);
  const FlMove *record;
  const FlRecord *trailer;

  if (plan != NULL)
    return fl_plan_ref (plan);
  if (!fl_office_check_move (office, move, error))
    return NULL;
  record = fl_office_move (office, move);
  trailer = record->trailer != NULL ? fl_fleet_find (office->fleet, FL_KIND_TRAILER, record->trailer) : NULL;
  /* What has all its axles itself has no truck before it. */
  return fl_plan_for_move (office->fleet, record, record->trailer,
                           trailer != NULL && !fl_record_trailer (trailer)->coupling.present ? NULL : record->truck);
}

FlAssessment *
fl_office_assess (const FlOffice *office, const char *move, GError **error)
{
  const FlPlan *plan = fl_office_plan (office, move);

  if (plan != NULL)
    return fl_judge_plan (office->book, office->fleet, plan, error);
  if (fl_office_check_move (office, move, error))
    g_set_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE, "%s: move %s has no plan yet; plan it first", office->path, move);
  return NULL;
}

/* ── what a plan holds ── */

typedef void (*Holding) (gpointer self, const char *what, const char *id);

static void
hold (Holding each, gpointer self, const char *what, const char *id)
{
  if (id != NULL)
    each (self, what, id);
}

static void
each_gear (const FlPlanChoices *plan, Holding each, gpointer self)
{
  for (gsize i = 0; i < plan->n_tie_downs; i++)
    {
      const FlTieDown *tie = &plan->tie_downs[i];

      hold (each, self, "chain", tie->chain);
      hold (each, self, "strap", tie->strap);
      hold (each, self, "binder", tie->binder);
      for (guint c = 0; c < tie->n_connectors; c++)
        hold (each, self, "connector", tie->connectors[c].id);
    }
}

static void
each_vehicle (const FlPlanChoices *plan, Holding each, gpointer self)
{
  hold (each, self, "trailer", plan->trailer);
  hold (each, self, "truck", plan->truck);
}

static void
each_held (const FlPlanChoices *plan, const FlMove *move, Holding each, gpointer self)
{
  for (gsize i = 0; i < plan->n_loads; i++)
    hold (each, self, plan->loads[i].article ? "article" : "machine", plan->loads[i].id);
  each_vehicle (plan, each, self);
  hold (each, self, "driver", move->driver);
  each_gear (plan, each, self);
}

/* ── moves with plans, in order of id ── */

typedef struct { const FlMove *move; const FlPlanChoices *plan; } Planned;

static int
by_move (gconstpointer a, gconstpointer b)
{
  return strcmp (((const Planned *) a)->move->id, ((const Planned *) b)->move->id);
}

static GArray *
planned_moves (const FlOffice *office)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Planned));
  GHashTableIter iter;
  gpointer id, plan;

  g_hash_table_iter_init (&iter, office->plans);
  while (g_hash_table_iter_next (&iter, &id, &plan))
    {
      Planned planned = { fl_office_move (office, id), fl_plan_choices (plan) };

      if (planned.move != NULL)
        g_array_append_val (all, planned);
    }
  g_array_sort (all, by_move);
  return all;
}

/* ── clashes ── */

typedef struct
{
  GHashTable *held;             /* "chain C-041" of the first of the two; borrowed by nothing */
  GHashTable *told;             /* what was said of this pair */
  const char *first, *second;
  GPtrArray *clashes;
} Comparing;

static void
note_held (gpointer self, const char *what, const char *id)
{
  g_hash_table_add (((Comparing *) self)->held, g_strdup_printf ("%s %s", what, id));
}

static void
note_clash (gpointer self, const char *what, const char *id)
{
  Comparing *c = self;
  char *thing = g_strdup_printf ("%s %s", what, id);

  if (g_hash_table_contains (c->held, thing) && !g_hash_table_contains (c->told, thing))
    g_ptr_array_add (c->clashes, g_strdup_printf ("%s: %s and %s", thing, c->first, c->second));
  g_hash_table_add (c->told, thing);
}

static void
compare (const Planned *a, const Planned *b, GPtrArray *clashes)
{
  g_autoptr(GHashTable) held = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr(GHashTable) told = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  Comparing c = { held, told, a->move->id, b->move->id, clashes };

  each_held (a->plan, a->move, note_held, &c);
  each_held (b->plan, b->move, note_clash, &c);
}

GPtrArray *
fl_office_clashes (const FlOffice *office, const char *date)
{
  g_autoptr(GArray) all = planned_moves (office);
  GPtrArray *clashes = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < all->len; i++)
    for (guint k = i + 1; k < all->len; k++)
      {
        const Planned *a = &g_array_index (all, Planned, i), *b = &g_array_index (all, Planned, k);
        gboolean of_day = g_strcmp0 (a->move->date, date) == 0 || g_strcmp0 (b->move->date, date) == 0;

        if (of_day && fl_moves_clash (a->move, b->move, fl_fleet_turnaround (office->fleet)))
          compare (a, b, clashes);
      }
  return clashes;
}

/* ── what is taken ── */

static void
take (gpointer self, const char *what, const char *id)
{
  GPtrArray *taken = self;

  (void) what;
  if (!g_ptr_array_find_with_equal_func (taken, id, g_str_equal, NULL))
    g_ptr_array_add (taken, g_strdup (id));
}

/* What the plans of other moves of that time hold. */
static char **
taken_by_others (const FlOffice *office, const char *move, gboolean vehicles)
{
  const FlMove *mine = fl_office_move (office, move);
  g_autoptr(GArray) all = planned_moves (office);
  GPtrArray *taken = g_ptr_array_new ();

  for (guint i = 0; i < all->len && mine != NULL; i++)
    {
      const Planned *other = &g_array_index (all, Planned, i);

      if (strcmp (other->move->id, move) == 0 || !fl_moves_clash (mine, other->move, fl_fleet_turnaround (office->fleet)))
        continue;
      each_gear (other->plan, take, taken);
      if (vehicles)
        each_vehicle (other->plan, take, taken);
    }
  g_ptr_array_add (taken, NULL);
  return (char **) g_ptr_array_free (taken, FALSE);
}

char **
fl_office_taken (const FlOffice *office, const char *move)
{
  return taken_by_others (office, move, FALSE);
}

char **
fl_office_taken_all (const FlOffice *office, const char *move)
{
  return taken_by_others (office, move, TRUE);
}
