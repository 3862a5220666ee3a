/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tie-down as an assembly: see fl-assembly.h. */
#include "fl-assembly.h"

#include <math.h>

gboolean
fl_rated_find (FlRated *rated, const FlBook *book, const FlFleet *fleet, const char *id)
{
  const FlRecord *record = fl_fleet_find_gear (fleet, id, NULL);

  if (record == NULL)
    return FALSE;
  *rated = (FlRated) { .record = record, .id = id, .kind = fl_record_kind (record), .rating = fl_rate_record (book, record) };
  return TRUE;
}

/* ── the weakest part ── */

typedef struct { FlAssembly *assembly; FlUnit unit; } Weighing;

static void
weigh (Weighing *w, FlQuantity wll, FlKind kind, const char *what, const char *id)
{
  double value = fl_quantity_in (wll, w->unit);

  if (isnan (value) || (!isnan (w->assembly->wll) && w->assembly->wll <= value))
    return;
  w->assembly->wll = value;
  w->assembly->limited_kind = kind;
  w->assembly->limited_what = what;
  w->assembly->limited_id = id;
}

static void
weigh_gear (Weighing *w, const FlRated *gear, const char *what)
{
  FlAssembly *assembly = w->assembly;

  if (gear == NULL)
    return;
  if (!gear->rating.in_use)
    {
      assembly->flags |= FL_ASM_OUT_OF_USE;
      assembly->bad = gear;
      weigh (w, (FlQuantity) { 0.0, w->unit }, gear->kind, what, gear->id);   /* it is worth nothing, and so is the tie-down */
    }
  else if (!fl_quantity_known (gear->rating.wll))
    {
      assembly->flags |= FL_ASM_WLL_UNKNOWN;
      if (assembly->bad == NULL)
        assembly->bad = gear;
    }
  if (gear->rating.assumed)
    assembly->flags |= FL_ASM_ASSUMED;
  weigh (w, gear->rating.wll, gear->kind, what, gear->id);
  if (!isnan (gear->rating.breaking) && !(assembly->breaking <= gear->rating.breaking))
    assembly->breaking = gear->rating.breaking;
}

static const char *
connector_word (const FlRated *gear)
{
  const FlConnector *connector = fl_record_connector (gear->record);

  switch (connector != NULL ? connector->kind : FL_CONNECTOR_UNKNOWN)
    {
    case FL_CONNECTOR_SHACKLE:
      return N_("shackle");
    case FL_CONNECTOR_CLEVIS_LINK:
      return N_("clevis link");
    case FL_CONNECTOR_SOFT_LOOP:
      return N_("soft loop");
    case FL_CONNECTOR_UNKNOWN:
      break;
    }
  return N_("connector");
}

/* `part` of its rating is there for each leg. */
static void
weigh_point (Weighing *w, const FlTiePoint *point, double part)
{
  FlQuantity rated = point->rated;

  if (fl_quantity_known (rated))
    rated.value *= part;
  else
    w->assembly->flags |= FL_ASM_UNRATED_POINT;
  weigh (w, rated, FL_N_KINDS, N_("point"), point->id);
}

static void
weigh_ends (Weighing *w, const FlAssemblyParts *parts)
{
  for (guint i = 0; i < 2; i++)
    if (parts->anchors[i] != NULL)
      {
        if (!fl_quantity_known (parts->anchors[i]->rated))
          w->assembly->flags |= FL_ASM_UNRATED_ANCHOR;
        weigh (w, parts->anchors[i]->rated, FL_N_KINDS, N_("anchor"), parts->anchors[i]->id);
      }
  if (parts->point != NULL)
    weigh_point (w, parts->point, 1.0);
  for (guint i = 0; i < parts->n_through; i++)
    if (parts->through[i] != NULL)
      weigh_point (w, parts->through[i], 0.5 / MAX (1, parts->through_hang[i]));
}

static void
find_weakest (FlAssembly *assembly, const FlBook *book, const FlAssemblyParts *parts)
{
  Weighing w = { assembly, fl_book_data (book)->unit };

  weigh_gear (&w, parts->chain, N_("chain"));
  weigh_gear (&w, parts->strap, N_("strap"));
  weigh_gear (&w, parts->binder, N_("binder"));
  for (guint i = 0; i < parts->n_connectors; i++)
    weigh_gear (&w, parts->connectors[i], connector_word (parts->connectors[i]));
  weigh_ends (&w, parts);
  /* A chain that nobody can rate may be weaker than all that is known: then nothing is known of the tie-down. */
  if ((assembly->flags & FL_ASM_WLL_UNKNOWN) != 0 && (assembly->flags & FL_ASM_OUT_OF_USE) == 0)
    {
      assembly->wll = assembly->breaking = NAN;
      assembly->limited_what = assembly->limited_id = NULL;
    }
}

/* ── fit ── */

static const FlConnector *
connector_of (const FlAssemblyParts *parts, gboolean at_anchor)
{
  for (guint i = 0; i < parts->n_connectors; i++)
    if (parts->connector_at_anchor[i] == at_anchor)
      return fl_record_connector (parts->connectors[i]->record);
  return NULL;
}

static FlFit
fit_at_anchor (const FlAssemblyParts *parts, const FlEnd *end, guint anchor)
{
  const FlAnchor *a = parts->anchors[anchor];

  return a != NULL ? fl_fit_end (end, a->opening, a->bar, connector_of (parts, TRUE)) : (FlFit) { .answer = FL_FITS };
}

static FlFit
fit_at_machine (const FlAssemblyParts *parts, const FlEnd *end)
{
  if (parts->point == NULL)
    return fit_at_anchor (parts, end, 1);
  return fl_fit_end (end, parts->point->opening, parts->point->bar, connector_of (parts, FALSE));
}

/* Either end may be hooked to the machine: the way round that fits better is taken, the first of equals. */
static void
find_fit (FlAssembly *assembly, const FlAssemblyParts *parts, const FlEnd ends[2])
{
  guint best = G_MAXUINT;

  for (guint way = 0; way < 2; way++)
    {
      FlFit machine = fit_at_machine (parts, &ends[way]), anchor = fit_at_anchor (parts, &ends[1 - way], 0);
      guint cost = (guint) MAX (machine.answer, anchor.answer) * 4 + machine.answer + anchor.answer;

      if (cost >= best)
        continue;
      best = cost;
      assembly->point_fit = machine;
      assembly->anchor_fit = anchor;
    }
  if (assembly->point_fit.answer == FL_FIT_NOT)
    assembly->flags |= parts->point != NULL ? FL_ASM_HOOK_POINT : FL_ASM_HOOK_ANCHOR;
  if (assembly->anchor_fit.answer == FL_FIT_NOT)
    assembly->flags |= FL_ASM_HOOK_ANCHOR;
  if (assembly->point_fit.answer == FL_FIT_UNMEASURED)
    assembly->flags |= parts->point != NULL ? FL_ASM_UNMEASURED_POINT : FL_ASM_UNMEASURED_ANCHOR;
  if (assembly->anchor_fit.answer == FL_FIT_UNMEASURED)
    assembly->flags |= FL_ASM_UNMEASURED_ANCHOR;
}

static void
find_lengths (FlAssembly *assembly, const FlBook *book, const FlAssemblyParts *parts, const FlEnd ends[2], FlQuantity length)
{
  const FlBinder *binder = parts->binder != NULL ? fl_record_binder (parts->binder->record) : NULL;
  FlChainNeeds needs;

  assembly->have_in = fl_quantity_in (length, FL_UNIT_IN);
  assembly->binder_run_in = binder != NULL ? fl_binder_run (book, binder) : 0.0;
  if (isnan (parts->run_in))
    {
      assembly->flags |= FL_ASM_NO_LENGTH;
      return;
    }
  needs = fl_chain_needs_of (book, parts->run_in, ends, binder);
  assembly->needs_in = needs.total;
  if (isnan (assembly->have_in))
    assembly->flags |= FL_ASM_LENGTH_UNKNOWN;
  else if (!fl_reaches (assembly->have_in, needs.total - needs.allowance))
    assembly->flags |= FL_ASM_TOO_SHORT;
  else if (!fl_reaches (assembly->have_in, needs.total))
    assembly->flags |= FL_ASM_NO_ALLOWANCE;
  if (!fl_reaches (parts->run_in, assembly->binder_run_in))
    assembly->flags |= FL_ASM_RUN_SHORT;
}

static void
assemble_chain (FlAssembly *assembly, const FlBook *book, const FlAssemblyParts *parts, const FlChain *chain)
{
  const FlBinder *binder = parts->binder != NULL ? fl_record_binder (parts->binder->record) : NULL;

  if (binder == NULL)
    assembly->flags |= FL_ASM_NO_TENSIONER;
  else if (fl_fit_binder (binder, chain).answer == FL_FIT_NOT)
    assembly->flags |= FL_ASM_BINDER_SIZE;
  find_fit (assembly, parts, chain->ends);
  find_lengths (assembly, book, parts, chain->ends, chain->length);
}

static void
assemble_strap (FlAssembly *assembly, const FlBook *book, const FlAssemblyParts *parts, const FlStrap *strap)
{
  if (parts->binder == NULL && strap->tensioner != FL_TENSIONER_RATCHET && strap->tensioner != FL_TENSIONER_WINCH)
    assembly->flags |= FL_ASM_NO_TENSIONER;
  find_fit (assembly, parts, strap->ends);
  find_lengths (assembly, book, parts, NULL, strap->length);   /* a strap is not hooked back on itself */
}

void
fl_assemble (FlAssembly *assembly, const FlBook *book, const FlAssemblyParts *parts)
{
  const FlChain *chain = parts->chain != NULL ? fl_record_chain (parts->chain->record) : NULL;
  const FlStrap *strap = parts->strap != NULL ? fl_record_strap (parts->strap->record) : NULL;

  *assembly = (FlAssembly) { .wll = NAN, .breaking = NAN, .needs_in = NAN, .have_in = NAN, .limited_kind = FL_N_KINDS };
  find_weakest (assembly, book, parts);
  if ((chain != NULL) == (strap != NULL))
    assembly->flags |= FL_ASM_NO_GEAR;
  else if (chain != NULL)
    assemble_chain (assembly, book, parts, chain);
  else
    assemble_strap (assembly, book, parts, strap);
}

const char *
fl_assembly_limit_text (const FlAssembly *assembly, FlArena *arena)
{
  return assembly->limited_id != NULL ? fl_arena_printf (arena, "%s %s", assembly->limited_what, assembly->limited_id) : NULL;
}
