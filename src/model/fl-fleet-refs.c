/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which record names which: the references of a fleet. */
#include "fl-fleet-private.h"

#include <string.h>

#include "fl-record-private.h"

typedef struct
{
  GArray *refs;
  gboolean soft;
} Collector;

static void G_GNUC_PRINTF (5, 6)
add (Collector *to, FlRefTarget target, FlKind kind, const char *id, const char *path, ...)
{
  FlRef ref = { .target = target, .kind = kind, .id = id, .soft = to->soft };
  va_list args;

  if (id == NULL)
    return;
  va_start (args, path);
  g_vsnprintf (ref.path, sizeof ref.path, path, args);
  va_end (args);
  g_array_append_val (to->refs, ref);
}

static void
collect_move (Collector *to, const FlMove *move)
{
  for (gsize i = 0; i < move->n_loads; i++)
    add (to, FL_REF_RECORD, move->loads[i].article ? FL_KIND_ARTICLE : FL_KIND_MACHINE, move->loads[i].id,
         "loads[%" G_GSIZE_FORMAT "].%s", i, move->loads[i].article ? "article" : "machine");
  add (to, FL_REF_RECORD, FL_KIND_TRAILER, move->trailer, "trailer");
  add (to, FL_REF_RECORD, FL_KIND_TRUCK, move->truck, "truck");
  add (to, FL_REF_RECORD, FL_KIND_PERSON, move->driver, "driver");
  add (to, FL_REF_RECORD, FL_KIND_YARD, move->from, "from");
  add (to, FL_REF_RECORD, FL_KIND_YARD, move->gear_yard, "gear_yard");
}

static void
collect_tie_down (Collector *to, const FlTieDown *tie, gsize index)
{
  add (to, FL_REF_GEAR, FL_KIND_CHAIN, tie->chain, "tie_downs[%" G_GSIZE_FORMAT "].chain", index);
  add (to, FL_REF_GEAR, FL_KIND_BINDER, tie->binder, "tie_downs[%" G_GSIZE_FORMAT "].binder", index);
  add (to, FL_REF_GEAR, FL_KIND_STRAP, tie->strap, "tie_downs[%" G_GSIZE_FORMAT "].strap", index);
  for (guint c = 0; c < tie->n_connectors; c++)
    add (to, FL_REF_GEAR, FL_KIND_CONNECTOR, tie->connectors[c].id, "tie_downs[%" G_GSIZE_FORMAT "].connectors[%u].id", index, c);
}

static void
collect_plan (Collector *to, const FlPlanChoices *plan)
{
  add (to, FL_REF_RECORD, FL_KIND_MOVE, plan->move, "move");
  add (to, FL_REF_RECORD, FL_KIND_TRAILER, plan->trailer, "trailer");
  add (to, FL_REF_RECORD, FL_KIND_TRUCK, plan->truck, "truck");
  for (gsize i = 0; i < plan->n_loads; i++)
    add (to, FL_REF_RECORD, plan->loads[i].article ? FL_KIND_ARTICLE : FL_KIND_MACHINE, plan->loads[i].id,
         "loads[%" G_GSIZE_FORMAT "].%s", i, plan->loads[i].article ? "article" : "machine");
  to->soft = TRUE;
  for (gsize i = 0; i < plan->n_tie_downs; i++)
    collect_tie_down (to, &plan->tie_downs[i], i);
}

GArray *
fl_refs_of (const FlRecord *record)
{
  Collector to = { g_array_new (FALSE, FALSE, sizeof (FlRef)), FALSE };
  const FlTruck *truck = fl_record_truck (record);
  const FlMachine *machine = fl_record_machine (record);
  const FlTrailer *trailer = fl_record_trailer (record);
  const FlPiece *piece = fl_record_piece (record);
  const FlMove *move = fl_record_move (record);
  const FlPlan *plan = fl_record_plan_view (record);

  if (truck != NULL)
    add (&to, FL_REF_RECORD, FL_KIND_YARD, truck->yard, "yard");
  if (machine != NULL)
    add (&to, FL_REF_RECORD, FL_KIND_YARD, machine->yard, "yard");
  if (trailer != NULL)
    add (&to, FL_REF_RECORD, FL_KIND_YARD, trailer->yard, "yard");
  if (piece != NULL)
    add (&to, FL_REF_HOME, FL_KIND_YARD, piece->kept_at, "kept_at");
  if (move != NULL)
    collect_move (&to, move);
  if (plan != NULL)
    collect_plan (&to, fl_plan_choices (plan));
  return to.refs;
}

gboolean
fl_ref_holds (const FlFleet *fleet, const FlRef *ref)
{
  const FlRecord *gear;

  switch (ref->target)
    {
    case FL_REF_RECORD:
      return fl_fleet_find (fleet, ref->kind, ref->id) != NULL;
    case FL_REF_HOME:
      return fl_fleet_find (fleet, FL_KIND_YARD, ref->id) != NULL || fl_fleet_find (fleet, FL_KIND_TRAILER, ref->id) != NULL;
    case FL_REF_GEAR:
      gear = fl_fleet_find_gear (fleet, ref->id, NULL);
      return gear != NULL && fl_record_kind (gear) == ref->kind;
    }
  return FALSE;
}

gboolean
fl_ref_means (const FlRef *ref, FlKind kind, const char *id)
{
  if (strcmp (ref->id, id) != 0)
    return FALSE;
  return ref->target == FL_REF_HOME ? kind == FL_KIND_YARD || kind == FL_KIND_TRAILER : ref->kind == kind;
}

const char *
fl_ref_what (const FlRef *ref)
{
  return ref->target == FL_REF_HOME ? "yard or trailer" : fl_kind_name (ref->kind);
}

gboolean
fl_piece_split (const char *id, char **record, guint *piece)
{
  const char *sign = strrchr (id, '#');
  guint64 number;

  *piece = 0;
  *record = NULL;
  if (sign == NULL)
    {
      *record = g_strdup (id);
      return TRUE;
    }
  if (sign - id < 2 || sign[-1] != ' ' || sign[1] == '0' || strlen (sign + 1) > 3
      || !g_ascii_string_to_unsigned (sign + 1, 10, 1, 999, &number, NULL))
    return FALSE;
  *piece = (guint) number;
  *record = g_strndup (id, (gsize) (sign - id) - 1);
  return TRUE;
}
