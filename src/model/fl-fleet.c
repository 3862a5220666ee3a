/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One snapshot of a fleet: what is in it and how it is found. */
#include "fl-fleet-private.h"

#include <string.h>

G_DEFINE_QUARK (fl-fleet-error-quark, fl_fleet_error)

static const FlKind GEAR[] = { FL_KIND_CHAIN, FL_KIND_BINDER, FL_KIND_STRAP, FL_KIND_CONNECTOR };

/* ── life ── */

static void
clear_item (gpointer item)
{
  fl_record_unref (((FlOriginItem *) item)->record);
}

FlOrigin *
fl_origin_new (GBytes *bytes)
{
  FlOrigin *origin = g_new0 (FlOrigin, 1);

  g_atomic_ref_count_init (&origin->refs);
  origin->bytes = g_bytes_ref (bytes);
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    {
      origin->lists[kind].items = g_array_new (FALSE, FALSE, sizeof (FlOriginItem));
      g_array_set_clear_func (origin->lists[kind].items, clear_item);
    }
  return origin;
}

FlOrigin *
fl_origin_ref (FlOrigin *origin)
{
  g_atomic_ref_count_inc (&origin->refs);
  return origin;
}

void
fl_origin_unref (FlOrigin *origin)
{
  if (origin == NULL || !g_atomic_ref_count_dec (&origin->refs))
    return;
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    {
      g_array_unref (origin->lists[kind].items);
      fl_table_unref (origin->tables[kind]);
    }
  g_bytes_unref (origin->bytes);
  g_free (origin->name);
  g_free (origin->rule_book);
  g_free (origin);
}

FlFleet *
fl_fleet_of (FlOrigin *origin, FlTable *const tables[FL_N_KINDS])
{
  FlFleet *fleet = g_new0 (FlFleet, 1);

  g_atomic_ref_count_init (&fleet->refs);
  fleet->origin = fl_origin_ref (origin);
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    fleet->tables[kind] = fl_table_ref (tables[kind]);
  return fleet;
}

FlFleet *
fl_fleet_ref (const FlFleet *fleet)
{
  FlFleet *self = (FlFleet *) fleet;

  g_atomic_ref_count_inc (&self->refs);
  return self;
}

void
fl_fleet_unref (FlFleet *fleet)
{
  if (fleet == NULL || !g_atomic_ref_count_dec (&fleet->refs))
    return;
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    fl_table_unref (fleet->tables[kind]);
  fl_origin_unref (fleet->origin);
  g_free (fleet);
}

/* ── the house ── */

const char *
fl_fleet_name (const FlFleet *fleet)
{
  return fleet->origin->name;
}

gboolean
fl_fleet_metric (const FlFleet *fleet)
{
  return fleet->origin->metric;
}

const char *
fl_fleet_rule_book (const FlFleet *fleet)
{
  return fleet->origin->rule_book;
}

gint
fl_fleet_turnaround (const FlFleet *fleet)
{
  return fleet->origin->turnaround;
}

const FlPolicy *
fl_fleet_policy (const FlFleet *fleet)
{
  static const FlPolicy none = { NULL, 0 };
  const FlRecord *record = fl_table_at (fleet->tables[FL_KIND_POLICY], 0);
  const FlPolicy *policy = record == NULL ? NULL : fl_record_policy (record);

  return policy == NULL ? &none : policy;
}

/* ── records ── */

FlKind
fl_kind_namespace (FlKind kind)
{
  switch (kind)
    {
    case FL_KIND_YARD:
    case FL_KIND_TRAILER:
      return FL_KIND_YARD;
    case FL_KIND_CHAIN:
    case FL_KIND_BINDER:
    case FL_KIND_STRAP:
    case FL_KIND_CONNECTOR:
      return FL_KIND_CHAIN;
    case FL_KIND_PERSON:
    case FL_KIND_TRUCK:
    case FL_KIND_MACHINE:
    case FL_KIND_ARTICLE:
    case FL_KIND_MOVE:
    case FL_KIND_PLAN:
    case FL_KIND_POLICY:
    case FL_N_KINDS:
      return kind;
    }
  return kind;
}

gsize
fl_fleet_count (const FlFleet *fleet, FlKind kind)
{
  g_return_val_if_fail (kind < FL_N_KINDS, 0);
  return fl_table_count (fleet->tables[kind]);
}

const FlRecord *
fl_fleet_at (const FlFleet *fleet, FlKind kind, gsize index)
{
  g_return_val_if_fail (kind < FL_N_KINDS, NULL);
  return fl_table_at (fleet->tables[kind], index);
}

const FlRecord *
fl_fleet_find (const FlFleet *fleet, FlKind kind, const char *id)
{
  g_return_val_if_fail (kind < FL_N_KINDS, NULL);
  return fl_table_find (fleet->tables[kind], id);
}

const FlRecord *
fl_fleet_find_gear (const FlFleet *fleet, const char *id, guint *piece)
{
  g_autofree char *record_id = NULL;
  guint number;

  if (piece != NULL)
    *piece = 0;
  if (id == NULL || !fl_piece_split (id, &record_id, &number))
    return NULL;
  for (guint i = 0; i < G_N_ELEMENTS (GEAR); i++)
    {
      const FlRecord *record = fl_table_find (fleet->tables[GEAR[i]], record_id);
      const FlPiece *like = record == NULL ? NULL : fl_record_piece (record);

      if (like == NULL)
        continue;
      if (like->count == 1 ? number != 0 : number == 0 || number > (guint) like->count)
        return NULL;
      if (piece != NULL)
        *piece = number;
      return record;
    }
  return NULL;
}

const FlRecord *
fl_fleet_find_load (const FlFleet *fleet, const char *id, gboolean article)
{
  return fl_fleet_find (fleet, article ? FL_KIND_ARTICLE : FL_KIND_MACHINE, id);
}

/* ── what is on hand ── */

static void
add_pieces (GPtrArray *ids, const FlPiece *piece)
{
  if (piece->count == 1)
    g_ptr_array_add (ids, g_strdup (piece->id));
  else
    for (gint i = 1; i <= piece->count; i++)
      g_ptr_array_add (ids, g_strdup_printf ("%s #%d", piece->id, i));
}

GPtrArray *
fl_fleet_on_hand (const FlFleet *fleet, const FlMove *move, const char *trailer)
{
  GPtrArray *ids = g_ptr_array_new_with_free_func (g_free);
  const FlRecord *trailer_record = fl_fleet_find (fleet, FL_KIND_TRAILER, trailer);
  const FlTrailer *view = trailer_record == NULL ? NULL : fl_record_trailer (trailer_record);
  /* Yards and trailers share one namespace: no other trailer's gear can be meant by any of these. */
  const char *const places[] = { view == NULL ? NULL : view->id, view == NULL ? NULL : view->yard, move->from, move->gear_yard };

  for (guint g = 0; g < G_N_ELEMENTS (GEAR); g++)
    for (gsize i = 0; i < fl_fleet_count (fleet, GEAR[g]); i++)
      {
        const FlPiece *piece = fl_record_piece (fl_fleet_at (fleet, GEAR[g], i));
        gboolean here = FALSE;

        for (guint p = 0; piece != NULL && p < G_N_ELEMENTS (places); p++)
          here |= places[p] != NULL && g_strcmp0 (piece->kept_at, places[p]) == 0;
        if (here)
          add_pieces (ids, piece);
      }
  return ids;
}

/* ── moves ── */

static gint
compare_moves (gconstpointer a, gconstpointer b)
{
  const FlMove *one = *(const FlMove *const *) a, *two = *(const FlMove *const *) b;

  if (one->depart != two->depart)
    return one->depart < two->depart ? -1 : 1;  /* not given: from the start of the day */
  if (one->priority != two->priority)
    return one->priority < two->priority ? -1 : 1;
  return strcmp (one->id, two->id);
}

GPtrArray *
fl_fleet_moves_of (const FlFleet *fleet, const char *date)
{
  g_autoptr(GPtrArray) moves = g_ptr_array_new ();
  GPtrArray *ids = g_ptr_array_new_with_free_func (g_free);

  for (gsize i = 0; i < fl_fleet_count (fleet, FL_KIND_MOVE); i++)
    {
      const FlMove *move = fl_record_move (fl_fleet_at (fleet, FL_KIND_MOVE, i));

      if (move != NULL && g_strcmp0 (move->date, date) == 0)
        g_ptr_array_add (moves, (gpointer) move);
    }
  g_ptr_array_sort (moves, compare_moves);
  for (guint i = 0; i < moves->len; i++)
    g_ptr_array_add (ids, g_strdup (((const FlMove *) moves->pdata[i])->id));
  return ids;
}

static gint
compare_texts (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

GPtrArray *
fl_fleet_dates (const FlFleet *fleet)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  GPtrArray *dates = g_ptr_array_new_with_free_func (g_free);

  for (gsize i = 0; i < fl_fleet_count (fleet, FL_KIND_MOVE); i++)
    {
      const FlMove *move = fl_record_move (fl_fleet_at (fleet, FL_KIND_MOVE, i));

      if (move != NULL && move->date != NULL && g_hash_table_add (seen, (gpointer) move->date))
        g_ptr_array_add (dates, g_strdup (move->date));
    }
  g_ptr_array_sort (dates, compare_texts);
  return dates;
}
