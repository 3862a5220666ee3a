/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small look-ups in the typed views: names of kinds, things found by their id, the hours of a move. */
#include "fl-records.h"

#include <string.h>

#define MINUTES_A_DAY 1440

static const struct { const char *list, *name; } KINDS[FL_N_KINDS] = {
  [FL_KIND_YARD] = { "yards", "yard" },
  [FL_KIND_PERSON] = { "people", "person" },
  [FL_KIND_TRUCK] = { "trucks", "truck" },
  [FL_KIND_MACHINE] = { "machines", "machine" },
  [FL_KIND_ARTICLE] = { "articles", "article" },
  [FL_KIND_TRAILER] = { "trailers", "trailer" },
  [FL_KIND_CHAIN] = { "chains", "chain" },
  [FL_KIND_BINDER] = { "binders", "binder" },
  [FL_KIND_STRAP] = { "straps", "strap" },
  [FL_KIND_CONNECTOR] = { "connectors", "connector" },
  [FL_KIND_MOVE] = { "moves", "move" },
  [FL_KIND_PLAN] = { "plans", "plan" },
  [FL_KIND_POLICY] = { "house_rules", "policy" },
};

const char *
fl_kind_list (FlKind kind)
{
  g_return_val_if_fail (kind < FL_N_KINDS, "");
  return KINDS[kind].list;
}

const char *
fl_kind_name (FlKind kind)
{
  g_return_val_if_fail (kind < FL_N_KINDS, "");
  return KINDS[kind].name;
}

FlBasis
fl_basis_of (const FlBases *bases, const char *key)
{
  for (gsize i = 0; bases != NULL && i < bases->n; i++)
    if (g_str_equal (bases->items[i].key, key))
      return bases->items[i];
  return (FlBasis) { key, "typical", FL_BASIS_TYPICAL };
}

const char *
fl_running_gear_id (FlRunningGear gear)
{
  switch (gear)
    {
    case FL_GEAR_UNKNOWN: return NULL;
    case FL_RUBBER_TIRES: return "rubber_tires";
    case FL_RUBBER_TRACKS: return "rubber_tracks";
    case FL_STEEL_TRACKS: return "steel_tracks";
    case FL_STEEL_DRUM: return "steel_drum";
    }
  return NULL;
}

const FlMachine *
fl_machine_in_position (const FlMachine *machine, const char *position)
{
  if (position == NULL)
    return machine;
  for (gsize i = 0; i < machine->n_positions; i++)
    if (g_strcmp0 (machine->positions[i]->position, position) == 0)
      return machine->positions[i];
  return NULL;
}

const FlTiePoint *
fl_machine_point (const FlMachine *machine, const char *id)
{
  for (gsize i = 0; id != NULL && i < machine->n_tie_points; i++)
    if (g_strcmp0 (machine->tie_points[i].id, id) == 0)
      return &machine->tie_points[i];
  return NULL;
}

const FlImplement *
fl_machine_implement (const FlMachine *machine, const char *id)
{
  for (gsize i = 0; id != NULL && i < machine->n_implements; i++)
    if (g_strcmp0 (machine->implements[i].id, id) == 0)
      return &machine->implements[i];
  return NULL;
}

const FlOverPath *
fl_implement_over_path (const FlImplement *implement, const char *id)
{
  for (gsize i = 0; id != NULL && i < implement->n_over_paths; i++)
    if (g_strcmp0 (implement->over_paths[i].id, id) == 0)
      return &implement->over_paths[i];
  return NULL;
}

const FlAnchor *
fl_trailer_anchor (const FlTrailer *trailer, const char *id)
{
  for (gsize i = 0; id != NULL && i < trailer->n_anchors; i++)
    if (g_strcmp0 (trailer->anchors[i].id, id) == 0)
      return &trailer->anchors[i];
  return NULL;
}

gboolean
fl_hook_is_grab (FlHookKind kind)
{
  return kind == FL_HOOK_GRAB || kind == FL_HOOK_CLEVIS_GRAB;
}

/* Days from 1970-01-01 to a date that was checked when its record was read. */
static gint64
day_number (const char *date)
{
  GDate day, epoch;

  g_date_clear (&day, 1);
  g_date_set_dmy (&epoch, 1, G_DATE_JANUARY, 1970);
  if (date == NULL || strlen (date) != 10)
    return 0;
  g_date_set_year (&day, (GDateYear) g_ascii_strtoull (date, NULL, 10));
  g_date_set_month (&day, (GDateMonth) g_ascii_strtoull (date + 5, NULL, 10));
  g_date_set_day (&day, (GDateDay) g_ascii_strtoull (date + 8, NULL, 10));
  return g_date_valid (&day) ? (gint64) g_date_days_between (&epoch, &day) : 0;
}

void
fl_move_busy (const FlMove *move, gint turnaround_min, gint64 *from, gint64 *to)
{
  gint64 day = day_number (move->date) * MINUTES_A_DAY;

  *from = day + (move->depart >= 0 ? move->depart : 0);
  *to = day + (move->back >= 0 ? move->back : MINUTES_A_DAY) + turnaround_min;
}

gboolean
fl_moves_clash (const FlMove *a, const FlMove *b, gint turnaround_min)
{
  gint64 a_from, a_to, b_from, b_to;

  fl_move_busy (a, turnaround_min, &a_from, &a_to);
  fl_move_busy (b, turnaround_min, &b_from, &b_to);
  return a_from < b_to && b_from < a_to;
}

static const char *const HOUSE_RULES[FL_N_HOUSE_RULES] = {
  [FL_HOUSE_MIN_WLL_EACH] = "min_wll_each",
  [FL_HOUSE_MIN_CHAIN] = "min_chain",
  [FL_HOUSE_NO_STRAPS_ON_MACHINES] = "no_straps_on_machines",
  [FL_HOUSE_FOUR_BELOW_THRESHOLD] = "four_below_threshold",
  [FL_HOUSE_LENGTH_COUNT_TOO] = "length_count_too",
  [FL_HOUSE_RATCHET_ONLY] = "ratchet_only",
  [FL_HOUSE_INBOARD_OF_RUB_RAIL] = "inboard_of_rub_rail",
  [FL_HOUSE_DECK_ANGLE_BAND] = "deck_angle_band",
  [FL_HOUSE_STAND_IN_RATING] = "stand_in_rating",
  [FL_HOUSE_OVER_WIDE_BLADE_REAR] = "over_wide_blade_rear",
  [FL_HOUSE_EXTRA_AGGREGATE_PCT] = "extra_aggregate_pct",
  [FL_HOUSE_CHAIN_ALLOWANCE] = "chain_allowance",
  [FL_HOUSE_WEIGHT_MARGIN_PCT] = "weight_margin_pct",
  [FL_HOUSE_IMPLEMENT_LOCK_SUFFICES] = "implement_lock_suffices",
  [FL_HOUSE_HEIGHT_MARGIN] = "height_margin",
};

const char *
fl_house_rule_name (FlHouseRuleId id)
{
  g_return_val_if_fail (id < FL_N_HOUSE_RULES, "");
  return HOUSE_RULES[id];
}

const FlHouseRule *
fl_policy_rule (const FlPolicy *policy, FlHouseRuleId id)
{
  for (gsize i = 0; policy != NULL && i < policy->n_rules; i++)
    if (policy->rules[i].rule == id)
      return &policy->rules[i];
  return NULL;
}
