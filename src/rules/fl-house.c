/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the house asks on top of the rule book: see fl-house.h. */
#include "fl-house.h"

#include <math.h>
#include <string.h>

#include "fl-run.h"

const FlHouseRule *
fl_house_rule (const FlBook *book, FlHouseRuleId id)
{
  return fl_policy_rule (fl_book_policy (book), id);
}

/* ── gear ── */

static FlVerdict
met_if (gboolean met)
{
  return met ? FL_MET : FL_SHORT;
}

static FlVerdict
worse (FlVerdict a, FlVerdict b)
{
  return MAX (a, b);
}

FlVerdict
fl_house_chain (const FlBook *book, const FlHouseRule *rule, const FlChain *chain)
{
  gint asked = fl_book_grade (book, rule->grade), unmarked = (gint) fl_book_data (book)->unmarked_grade;
  gint has = chain->mark_seen == FL_IS ? fl_book_grade (book, chain->mark) : unmarked;
  double worth = fl_book_chain_wll (book, chain->size_in, has), least = fl_book_chain_wll (book, rule->size_in, asked);

  if (chain->size_in < rule->size_in && !fl_size_equal (chain->size_in, rule->size_in))
    return FL_SHORT;
  if (asked < 0)
    return FL_MET;
  if (chain->mark_seen == FL_NOT_LOOKED && asked > unmarked)
    return FL_UNKNOWN;
  return met_if (has >= asked && (isnan (worth) || isnan (least) || fl_reaches (worth, least)));
}

FlVerdict
fl_house_binder (const FlAssemblyParts *parts)
{
  const FlBinder *binder = parts->binder != NULL ? fl_record_binder (parts->binder->record) : NULL;

  if (binder == NULL || binder->kind == FL_BINDER_RATCHET)
    return FL_MET;
  return binder->kind == FL_BINDER_UNKNOWN ? FL_UNKNOWN : FL_SHORT;
}

FlVerdict
fl_house_strap (const FlAssemblyParts *parts, gboolean article)
{
  return met_if (article || parts->strap == NULL);
}

FlVerdict
fl_house_length (const FlAssemblyParts *parts, const FlAssembly *assembly)
{
  if (parts->chain == NULL)
    return FL_MET;
  if ((assembly->flags & (FL_ASM_LENGTH_UNKNOWN | FL_ASM_NO_LENGTH)) != 0)
    return FL_UNKNOWN;
  return met_if ((assembly->flags & (FL_ASM_TOO_SHORT | FL_ASM_NO_ALLOWANCE)) == 0);
}

/* ── runs ── */

/* A place of the chain at or beyond the edge of the deck, where the rub rail is. */
static FlVerdict
within (double half_width, double y)
{
  if (isnan (y) || isnan (half_width))
    return FL_UNKNOWN;
  return met_if (fabs (y) < half_width - FL_STATICS_POINT);
}

FlVerdict
fl_house_inboard (const FlGround *ground, const FlLay *lay, const FlAnchor *const anchors[2])
{
  FlVerdict verdict = FL_MET;

  for (guint i = 0; i < 2; i++)
    if (anchors[i] != NULL)
      verdict = worse (verdict, g_strcmp0 (anchors[i]->fitting, "rub_rail") == 0 ? FL_SHORT
                                : within (ground->half_width, fl_anchor_place (anchors[i]).y));
  /* Over the end of the deck it may bend. What lies between the anchors of an `over` are places of the machine. */
  for (guint i = 1; (lay->flags & FL_LAY_OVER) == 0 && i + 1 < lay->n_path; i++)
    verdict = worse (verdict, within (ground->half_width, lay->path[i].y));
  return verdict;
}

static double
degrees (FlVec pull)
{
  return fl_run_deck_angle (pull) * 180.0 / G_PI;
}

/* How far outside the band; 0 within. */
static double
off_band (const FlHouseRule *rule, double deck)
{
  return MAX (0.0, MAX (rule->lo_deg - deck, deck - rule->hi_deg));
}

FlVerdict
fl_house_band (const FlHouseRule *rule, const FlLay *lay, double *deck)
{
  *deck = NAN;
  if (isnan (lay->deck))
    return FL_UNKNOWN;
  *deck = degrees (lay->pull);
  if ((lay->flags & FL_LAY_OVER) != 0 && off_band (rule, degrees (lay->pull_b)) > off_band (rule, *deck))
    *deck = degrees (lay->pull_b);
  return met_if (off_band (rule, *deck) <= FL_TOLERANCE * 90.0);
}

gboolean
fl_house_allows_lay (const FlBook *book, const FlGround *ground, const FlLay *lay, const FlAnchor *const anchors[2])
{
  const FlHouseRule *band = fl_house_rule (book, FL_HOUSE_DECK_ANGLE_BAND);
  double deck;

  if (band != NULL && fl_house_band (band, lay, &deck) != FL_MET)
    return FALSE;
  return fl_house_rule (book, FL_HOUSE_INBOARD_OF_RUB_RAIL) == NULL || fl_house_inboard (ground, lay, anchors) == FL_MET;
}

/* ── worth ── */

static double
stand_in (const FlBook *book, const char *fitting)
{
  const FlPolicy *policy = fl_book_policy (book);

  for (gsize i = 0; i < policy->n_rules && fitting != NULL; i++)
    if (policy->rules[i].rule == FL_HOUSE_STAND_IN_RATING && g_strcmp0 (policy->rules[i].fitting, fitting) == 0)
      return fl_quantity_in (policy->rules[i].wll, fl_book_data (book)->unit);
  return NAN;
}

static void
stand_in_for (FlHouseWorth *worth, double value, const char *what, const char *id)
{
  if (value < worth->wll)
    *worth = (FlHouseWorth) { value, what, id };
}

FlHouseWorth
fl_house_worth (const FlBook *book, const FlAssemblyParts *parts, double wll, const guint hang[3])
{
  FlHouseWorth worth = { wll, NULL, NULL };

  if (parts->point != NULL && !fl_quantity_known (parts->point->rated))
    stand_in_for (&worth, stand_in (book, parts->point->fitting) / (hang != NULL && !parts->point->rated_each ? MAX (1, hang[0]) : 1),
                  "point", parts->point->id);
  for (guint i = 0; i < parts->n_through; i++)
    if (parts->through[i] != NULL && !fl_quantity_known (parts->through[i]->rated))
      stand_in_for (&worth, stand_in (book, parts->through[i]->fitting) * 0.5 / MAX (1, parts->through_hang[i]),
                    "point", parts->through[i]->id);
  for (guint i = 0; i < 2; i++)
    if (parts->anchors[i] != NULL && !fl_quantity_known (parts->anchors[i]->rated))
      stand_in_for (&worth, stand_in (book, parts->anchors[i]->fitting) / (hang != NULL ? MAX (1, hang[1 + i]) : 1), "anchor",
                    parts->anchors[i]->id);
  return worth;
}

static FlVerdict
ask_gear (const FlBook *book, const FlHouseRule *rule, const FlAssemblyParts *parts, const FlAssembly *assembly, gboolean own, gboolean article)
{
  switch (rule->rule)
    {
    case FL_HOUSE_MIN_WLL_EACH:
      return met_if (!own || fl_reaches (fl_house_worth (book, parts, assembly->wll, NULL).wll,
                                         fl_quantity_in (rule->wll, fl_book_data (book)->unit)));
    case FL_HOUSE_MIN_CHAIN:
      return own && parts->chain != NULL ? fl_house_chain (book, rule, fl_record_chain (parts->chain->record)) : FL_MET;
    case FL_HOUSE_NO_STRAPS_ON_MACHINES:
      return fl_house_strap (parts, article);
    case FL_HOUSE_RATCHET_ONLY:
      return fl_house_binder (parts);
    case FL_HOUSE_CHAIN_ALLOWANCE:
      return fl_house_length (parts, assembly);
    default:
      return FL_MET;
    }
}

gboolean
fl_house_allows (const FlBook *book, const FlAssemblyParts *parts, const FlAssembly *assembly, gboolean own, gboolean article)
{
  const FlPolicy *policy = fl_book_policy (book);

  for (gsize i = 0; i < policy->n_rules; i++)
    if (ask_gear (book, &policy->rules[i], parts, assembly, own, article) != FL_MET)
      return FALSE;
  return TRUE;
}

/* ── a load ── */

static double
factor (const FlBook *book, FlHouseRuleId id)
{
  const FlHouseRule *rule = fl_house_rule (book, id);

  return rule != NULL ? 1.0 + rule->pct / 100.0 : 1.0;
}

double
fl_house_margin (const FlBook *book)
{
  return factor (book, FL_HOUSE_WEIGHT_MARGIN_PCT);
}

double
fl_house_extra (const FlBook *book)
{
  return factor (book, FL_HOUSE_EXTRA_AGGREGATE_PCT);
}

static double
weight_of (const FlBook *book, const FlMachine *machine)
{
  return fl_quantity_in (machine->weight, fl_book_data (book)->unit);
}

gboolean
fl_house_as_heavy (const FlBook *book, const FlMachine *machine)
{
  if (machine->article || fl_book_heavy (book, machine, weight_of (book, machine)))
    return FALSE;
  return fl_house_rule (book, FL_HOUSE_FOUR_BELOW_THRESHOLD) != NULL || fl_book_heavy (book, machine, fl_house_margin (book) * weight_of (book, machine));
}

gint
fl_house_count (const FlBook *book, const FlMachine *machine, gboolean blocked_forward)
{
  gint count = fl_house_as_heavy (book, machine) ? fl_book_data (book)->heavy_count : 0;

  if (fl_house_rule (book, FL_HOUSE_LENGTH_COUNT_TOO) != NULL && fl_book_heavy (book, machine, weight_of (book, machine)))
    count = MAX (count, fl_book_count (book, fl_quantity_in (machine->length, FL_UNIT_FT), weight_of (book, machine), blocked_forward));
  return count;
}

const FlLock *
fl_implement_lock (const FlMachine *machine, const FlImplement *implement)
{
  for (gsize i = 0; i < machine->n_locks; i++)
    if (implement->lock != NULL && strcmp (machine->locks[i].id, implement->lock) == 0)
      return &machine->locks[i];
  return NULL;
}

gboolean
fl_house_lock_suffices (const FlBook *book, const FlMachine *machine, const FlImplement *implement)
{
  const FlLock *lock = fl_implement_lock (machine, implement);

  return fl_house_rule (book, FL_HOUSE_IMPLEMENT_LOCK_SUFFICES) != NULL && lock != NULL && lock->on_machine == FL_IS && lock->fitted == FL_IS;
}
