/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tie points, locks and implements of a machine. */
#include "fl-decode-points.h"

#include <math.h>

static const char *const FITTINGS[] = { "lug", "loop", "eye", "hook", "slot", "drawbar", "axle", "frame", "track", NULL };
static const char *const RATING_IS[] = { "shared", "each", NULL };
static const char *const LOCK_KINDS[] = { "articulation", "swing", "boom", "turntable", "oscillation", "screed", "mast", "bowl",
                                          "arm", "other", NULL };  /* in the order of FlLockKind */

enum
{
  MOST_ON_A_POINT = 8,          /* tie-downs that one eye can take: ours, a slip of a digit otherwise */
  MOST_ON_AN_IMPLEMENT = 8
};

/* pull.run: a list of two lengths under one key of the family. */
static void
decode_pull_run (FlReader *pull, FlTiePoint *point)
{
  static const FlUnit units[] = { FL_UNIT_IN, FL_UNIT_FT, FL_UNIT_MM, FL_UNIT_M };
  const FlBound *bound = fl_bound (FL_BOUND_RUN);
  guint found = 0;

  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    {
      const char *key = fl_arena_printf (fl_reader_arena (pull), "run_%s", fl_unit_suffix (units[i]));
      FlQuantity most = fl_quantity_as (FL_IN (bound->max), units[i]);
      double lo, hi;

      if (!fl_reader_has (pull, key))
        continue;
      if (++found > 1)
        fl_reader_problem (pull, FL_SEVERITY_ERROR, key, "only one of run_in, run_ft, run_mm and run_m");
      if (!fl_decode_band (pull, key, 0, most.value, &lo, &hi))
        continue;
      point->pull_run_lo = (FlQuantity) { lo, units[i] };
      point->pull_run_hi = (FlQuantity) { hi, units[i] };
    }
}

static void
decode_pull (FlReader *reader, FlTiePoint *point)
{
  FlReader *pull = fl_reader_object (reader, "pull", FALSE);

  point->pull_deck_lo = point->pull_deck_hi = point->pull_plan_lo = point->pull_plan_hi = NAN;
  if (pull == NULL)
    return;
  fl_decode_band (pull, "deck_angle_deg", -90, 90, &point->pull_deck_lo, &point->pull_deck_hi);
  fl_decode_band (pull, "plan_angle_deg", -180, 180, &point->pull_plan_lo, &point->pull_plan_hi);
  decode_pull_run (pull, point);
}

static FlTiePoint
decode_tie_point (FlReader *reader)
{
  FlPlace place = fl_decode_place (reader, TRUE);
  FlTiePoint point = { .x = place.x, .y = place.y, .z = place.z };

  point.id = fl_decode_id (reader);
  point.name = fl_reader_text (reader, "name", FALSE);
  point.fitting = fl_decode_word (reader, "fitting", FITTINGS, FALSE);
  point.section = fl_reader_text (reader, "section", FALSE);
  point.rated = fl_decode_quantity (reader, "rated_wll", FL_BOUND_WLL, FALSE);
  point.rated_each = fl_reader_choice (reader, "rating_is", RATING_IS, FALSE, 0) == 1;
  point.opening = fl_decode_quantity (reader, "opening", FL_BOUND_OPENING, FALSE);
  point.bar = fl_decode_quantity (reader, "bar", FL_BOUND_BAR, FALSE);
  point.takes = fl_reader_int (reader, "takes", 1, MOST_ON_A_POINT, 1);
  point.maker_provided = fl_reader_bool (reader, "maker_provided", TRUE);
  point.caution = fl_reader_text (reader, "caution", FALSE);
  decode_pull (reader, &point);
  return point;
}

const FlTiePoint *
fl_decode_tie_points (FlReader *reader, gsize *n)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  gsize given = fl_reader_list (reader, "tie_points", FALSE);
  FlTiePoint *points = fl_arena_new0 (fl_reader_arena (reader), FlTiePoint, given);

  *n = 0;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "tie_points", i);

      if (item == NULL)
        continue;
      points[*n] = decode_tie_point (item);
      fl_decode_unique (item, seen, points[(*n)++].id, "tie point");
    }
  return points;
}

static FlLock
decode_lock (FlReader *reader)
{
  FlLock lock = { 0 };

  lock.id = fl_decode_id (reader);
  lock.name = fl_reader_text (reader, "name", FALSE);
  lock.kind = (FlLockKind) fl_reader_choice (reader, "kind", LOCK_KINDS, TRUE, FL_LOCK_OTHER);
  lock.on_machine = fl_decode_seen (reader, "on_machine");
  lock.fitted = fl_decode_seen (reader, "fitted");
  lock.stowed_at = fl_reader_text (reader, "stowed_at", FALSE);
  if (lock.fitted == FL_IS && lock.on_machine == FL_IS_NOT)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "fitted", "false, as the lock is not on the machine");
  return lock;
}

const FlLock *
fl_decode_locks (FlReader *reader, gsize *n)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  gsize given = fl_reader_list (reader, "locks", FALSE);
  FlLock *locks = fl_arena_new0 (fl_reader_arena (reader), FlLock, given);

  *n = 0;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "locks", i);

      if (item == NULL)
        continue;
      locks[*n] = decode_lock (item);
      fl_decode_unique (item, seen, locks[(*n)++].id, "lock");
    }
  return locks;
}

static FlOverPath
decode_over_path (FlReader *reader)
{
  FlOverPath path = { 0 };
  gsize given = fl_reader_list (reader, "points", TRUE);
  FlPlace *points = fl_arena_new0 (fl_reader_arena (reader), FlPlace, given);

  path.id = fl_decode_id (reader);
  path.name = fl_reader_text (reader, "name", FALSE);
  path.edge = fl_reader_bool (reader, "edge", FALSE);
  path.points = points;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "points", i);

      if (item != NULL)
        points[path.n_points++] = fl_decode_place (item, TRUE);
    }
  if (given == 0 && fl_reader_has (reader, "points"))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "points", "at least one point that the chain passes");
  return path;
}

static void
decode_over_paths (FlReader *reader, FlImplement *implement)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  gsize given = fl_reader_list (reader, "over_paths", FALSE);
  FlOverPath *paths = fl_arena_new0 (fl_reader_arena (reader), FlOverPath, given);

  implement->over_paths = paths;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "over_paths", i);

      if (item == NULL)
        continue;
      paths[implement->n_over_paths] = decode_over_path (item);
      fl_decode_unique (item, seen, paths[implement->n_over_paths++].id, "over-path");
    }
}

static FlImplement
decode_implement (FlReader *reader)
{
  FlImplement implement = { 0 };

  implement.id = fl_decode_id (reader);
  implement.name = fl_reader_text (reader, "name", FALSE);
  implement.lock = fl_reader_text (reader, "lock", FALSE);
  implement.width = fl_decode_quantity (reader, "width", FL_BOUND_MACHINE_WIDTH, FALSE);
  implement.can_lower = fl_reader_bool (reader, "can_lower", TRUE);
  implement.min_tie_downs = fl_reader_int (reader, "min_tie_downs", 0, MOST_ON_AN_IMPLEMENT, 1);
  implement.tie_points = fl_reader_texts (reader, "tie_points", FALSE);
  decode_over_paths (reader, &implement);
  return implement;
}

const FlImplement *
fl_decode_implements (FlReader *reader, gsize *n)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  gsize given = fl_reader_list (reader, "implements", FALSE);
  FlImplement *implements = fl_arena_new0 (fl_reader_arena (reader), FlImplement, given);

  *n = 0;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "implements", i);

      if (item == NULL)
        continue;
      implements[*n] = decode_implement (item);
      fl_decode_unique (item, seen, implements[(*n)++].id, "implement");
    }
  return implements;
}

static gboolean
has_lock (const FlMachine *machine, const char *id)
{
  for (gsize i = 0; i < machine->n_locks; i++)
    if (g_strcmp0 (machine->locks[i].id, id) == 0)
      return TRUE;
  return FALSE;
}

/* `below` of implement `index`, as a key of the reader's object; where that is a position that took other points or locks but not other
 * implements, the key of the list that it took. */
static const char *
place_of (FlReader *reader, gsize index, const char *below, const char *list)
{
  if (!fl_reader_has (reader, "implements"))
    return list;
  return fl_arena_printf (fl_reader_arena (reader), "implements[%" G_GSIZE_FORMAT "].%s", index, below);
}

static const char *
indexed (FlReader *reader, const char *before, gsize index, const char *after)
{
  return fl_arena_printf (fl_reader_arena (reader), "%s[%" G_GSIZE_FORMAT "]%s", before, index, after);
}

static void
check_points (FlReader *reader, const FlMachine *machine, gsize index)
{
  const FlImplement *implement = &machine->implements[index];
  const char *name = implement->id == NULL ? "" : implement->id;

  for (gsize i = 0; implement->tie_points != NULL && implement->tie_points[i] != NULL; i++)
    if (fl_machine_point (machine, implement->tie_points[i]) == NULL)
      fl_reader_problem (reader, FL_SEVERITY_ERROR, place_of (reader, index, indexed (reader, "tie_points", i, ""), "tie_points"),
                         "the tie point \"%s\" of implement \"%s\" among the machine's tie_points", implement->tie_points[i], name);
  for (gsize i = 0; i < implement->n_over_paths; i++)
    if (fl_machine_point (machine, implement->over_paths[i].id) != NULL)
      fl_reader_problem (reader, FL_SEVERITY_ERROR, place_of (reader, index, indexed (reader, "over_paths", i, ".id"), "tie_points"),
                         "no tie point of the machine with the id of the over-path \"%s\"", implement->over_paths[i].id);
}

static void
check_lock (FlReader *reader, const FlMachine *machine, gsize index)
{
  const FlImplement *implement = &machine->implements[index];

  if (implement->lock != NULL && !has_lock (machine, implement->lock))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, place_of (reader, index, "lock", "locks"),
                       "the lock \"%s\" of implement \"%s\" among the machine's locks", implement->lock,
                       implement->id == NULL ? "" : implement->id);
}

void
fl_decode_check_implements (FlReader *reader, const FlMachine *machine)
{
  gboolean implements = fl_reader_has (reader, "implements");

  for (gsize i = 0; i < machine->n_implements; i++)
    {
      if (implements || fl_reader_has (reader, "tie_points"))
        check_points (reader, machine, i);
      if (implements || fl_reader_has (reader, "locks"))
        check_lock (reader, machine, i);
    }
}
