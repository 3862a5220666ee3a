/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Named changes of a fleet, and the step from one snapshot to the next. */
#include "fl-fleet-private.h"

#include <string.h>

typedef struct
{
  FlRecord *before, *after;
} Pair;

struct _FlChange
{
  gatomicrefcount refs;
  char *name;
  gsize n;
  Pair *pairs;
};

/* ── the change ── */

FlChange *
fl_change_new (const char *name, const FlRecord *const *before, const FlRecord *const *after, gsize n)
{
  FlChange *change = g_new0 (FlChange, 1);

  g_atomic_ref_count_init (&change->refs);
  change->name = g_strdup (name);
  change->n = n;
  change->pairs = g_new0 (Pair, n);
  for (gsize i = 0; i < n; i++)
    {
      change->pairs[i].before = before[i] == NULL ? NULL : fl_record_ref (before[i]);
      change->pairs[i].after = after[i] == NULL ? NULL : fl_record_ref (after[i]);
    }
  return change;
}

FlChange *
fl_change_ref (FlChange *change)
{
  g_atomic_ref_count_inc (&change->refs);
  return change;
}

void
fl_change_unref (FlChange *change)
{
  if (change == NULL || !g_atomic_ref_count_dec (&change->refs))
    return;
  for (gsize i = 0; i < change->n; i++)
    {
      fl_record_unref (change->pairs[i].before);
      fl_record_unref (change->pairs[i].after);
    }
  g_free (change->pairs);
  g_free (change->name);
  g_free (change);
}

FlChange *
fl_change_inverse (FlChange *change)
{
  FlChange *inverse = g_new0 (FlChange, 1);

  g_atomic_ref_count_init (&inverse->refs);
  inverse->name = g_strdup (change->name);
  inverse->n = change->n;
  inverse->pairs = g_new0 (Pair, change->n);
  for (gsize i = 0; i < change->n; i++)
    {
      inverse->pairs[i].before = change->pairs[i].after == NULL ? NULL : fl_record_ref (change->pairs[i].after);
      inverse->pairs[i].after = change->pairs[i].before == NULL ? NULL : fl_record_ref (change->pairs[i].before);
    }
  return inverse;
}

const char *
fl_change_name (const FlChange *change)
{
  return change->name;
}

gsize
fl_change_size (const FlChange *change)
{
  return change->n;
}

const FlRecord *
fl_change_before (const FlChange *change, gsize index)
{
  g_return_val_if_fail (index < change->n, NULL);
  return change->pairs[index].before;
}

const FlRecord *
fl_change_after (const FlChange *change, gsize index)
{
  g_return_val_if_fail (index < change->n, NULL);
  return change->pairs[index].after;
}

/* ── applied ── */

static void
replace_table (FlFleet *fleet, FlKind kind, FlTable *table)
{
  fl_table_unref (fleet->tables[kind]);
  fleet->tables[kind] = table;
}

static gboolean
check_pair (const Pair *pair, GError **error)
{
  const FlRecord *one = pair->before, *two = pair->after;

  if (one == NULL && two == NULL)
    {
      g_set_error_literal (error, FL_FLEET_ERROR, FL_FLEET_ERROR_BAD_RECORD, "a change without a record");
      return FALSE;
    }
  if (one == NULL || two == NULL || fl_record_kind (one) == fl_record_kind (two))
    return TRUE;
  g_set_error (error, FL_FLEET_ERROR, FL_FLEET_ERROR_BAD_RECORD, "%s \"%s\" cannot become %s \"%s\": they are of different kinds",
               fl_kind_name (fl_record_kind (one)), fl_record_id (one), fl_kind_name (fl_record_kind (two)), fl_record_id (two));
  return FALSE;
}

static gboolean
take_out (FlFleet *next, const FlRecord *before, GError **error)
{
  FlKind kind = fl_record_kind (before);
  const FlRecord *now = fl_fleet_find (next, kind, fl_record_id (before));

  if (now == NULL || !fl_record_equal (now, before))
    {
      g_set_error (error, FL_FLEET_ERROR, FL_FLEET_ERROR_MOVED_ON, "%s \"%s\" %s", fl_kind_name (kind), fl_record_id (before),
                   now == NULL ? "is no longer in the fleet" : "has been changed in the meantime");
      return FALSE;
    }
  replace_table (next, kind, fl_table_without (next->tables[kind], fl_record_id (before)));
  return TRUE;
}

/* The record of any kind of the same namespace that has the id. */
static const FlRecord *
holder_of (const FlFleet *fleet, FlKind kind, const char *id)
{
  for (guint other = 0; other < FL_N_KINDS; other++)
    if (fl_kind_namespace ((FlKind) other) == fl_kind_namespace (kind))
      {
        const FlRecord *record = fl_fleet_find (fleet, (FlKind) other, id);

        if (record != NULL)
          return record;
      }
  return NULL;
}

static gboolean
put_in (FlFleet *next, const FlRecord *after, GError **error)
{
  FlKind kind = fl_record_kind (after);
  const FlRecord *holder = holder_of (next, kind, fl_record_id (after));

  if (holder != NULL)
    {
      g_set_error (error, FL_FLEET_ERROR, FL_FLEET_ERROR_DUPLICATE, "%s \"%s\": the id belongs to a %s already",
                   fl_kind_name (kind), fl_record_id (after), fl_kind_name (fl_record_kind (holder)));
      return FALSE;
    }
  replace_table (next, kind, fl_table_with (next->tables[kind], after));
  return TRUE;
}

static gboolean
check_refs_of (const FlFleet *next, const FlRecord *record, GError **error)
{
  g_autoptr(GArray) refs = fl_refs_of (record);

  for (guint i = 0; i < refs->len; i++)
    {
      const FlRef *ref = &g_array_index (refs, FlRef, i);

      if (ref->soft || fl_ref_holds (next, ref))
        continue;
      g_set_error (error, FL_FLEET_ERROR, FL_FLEET_ERROR_DANGLING, "%s \"%s\": %s: there is no %s \"%s\" in the fleet",
                   fl_kind_name (fl_record_kind (record)), fl_record_id (record), ref->path, fl_ref_what (ref), ref->id);
      return FALSE;
    }
  return TRUE;
}

/* TRUE if the record is gone from the fleet and nothing has its id in its place. */
static gboolean
is_gone (const FlFleet *next, const FlRecord *before)
{
  return before != NULL && fl_fleet_find (next, fl_record_kind (before), fl_record_id (before)) == NULL;
}

/* Nobody may still name what is gone. */
static gboolean
check_refs_from (const FlFleet *next, const FlRecord *record, const FlRecord *gone, GError **error)
{
  g_autoptr(GArray) refs = fl_refs_of (record);

  for (guint i = 0; i < refs->len; i++)
    {
      const FlRef *ref = &g_array_index (refs, FlRef, i);

      if (ref->soft || !fl_ref_means (ref, fl_record_kind (gone), fl_record_id (gone)) || fl_ref_holds (next, ref))
        continue;
      g_set_error (error, FL_FLEET_ERROR, FL_FLEET_ERROR_DANGLING, "%s \"%s\" is still named by %s \"%s\" (%s)",
                   fl_kind_name (fl_record_kind (gone)), fl_record_id (gone),
                   fl_kind_name (fl_record_kind (record)), fl_record_id (record), ref->path);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_gone (const FlFleet *next, const FlRecord *gone, GError **error)
{
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    for (gsize i = 0; i < fl_fleet_count (next, (FlKind) kind); i++)
      if (!check_refs_from (next, fl_fleet_at (next, (FlKind) kind, i), gone, error))
        return FALSE;
  return TRUE;
}

static gboolean
check_refs (const FlFleet *next, const FlChange *change, GError **error)
{
  for (gsize i = 0; i < change->n; i++)
    if (change->pairs[i].after != NULL && !check_refs_of (next, change->pairs[i].after, error))
      return FALSE;
  for (gsize i = 0; i < change->n; i++)
    if (is_gone (next, change->pairs[i].before) && !check_gone (next, change->pairs[i].before, error))
      return FALSE;
  return TRUE;
}

FlFleet *
fl_fleet_apply (const FlFleet *fleet, const FlChange *change, GError **error)
{
  g_autoptr(FlFleet) next = fl_fleet_of (fleet->origin, fleet->tables);

  for (gsize i = 0; i < change->n; i++)
    if (!check_pair (&change->pairs[i], error))
      return NULL;
  for (gsize i = 0; i < change->n; i++)
    if (change->pairs[i].before != NULL && !take_out (next, change->pairs[i].before, error))
      return NULL;
  for (gsize i = 0; i < change->n; i++)
    if (change->pairs[i].after != NULL && !put_in (next, change->pairs[i].after, error))
      return NULL;
  return check_refs (next, change, error) ? g_steal_pointer (&next) : NULL;
}
