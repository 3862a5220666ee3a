/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-book-house.c: the house's policy on top of a rule book. A house rule may only tighten; one that would loosen the book, or that
 * nobody can understand, is a problem and the book is not made. */
#include "fl-book-private.h"

#include <math.h>
#include <string.h>

typedef struct
{
  const FlBook *book;
  FlProblems *problems;
  gsize index;                  /* of the rule in the policy */
} Check;

static void G_GNUC_PRINTF (5, 6)
refuse (const Check *check, FlSeverity severity, const char *key, const char *value, const char *expected, ...)
{
  g_autofree char *path = g_strdup_printf ("house_rules[%" G_GSIZE_FORMAT "].%s", check->index, key);
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, expected);
  text = g_strdup_vprintf (expected, args);
  va_end (args);
  fl_problems_add (check->problems, severity, path, 0, value, "%s", text);
}

/* One parameter that must be a number in [lo, hi]. */
static void
need_number (const Check *check, const char *key, double value, double lo, double hi)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE], from[G_ASCII_DTOSTR_BUF_SIZE], to[G_ASCII_DTOSTR_BUF_SIZE];

  if (!isfinite (value) || value < lo || value > hi)
    refuse (check, FL_SEVERITY_ERROR, key, isfinite (value) ? fl_number_text (value, buffer) : NULL,
            "a number from %s to %s: a house rule may only ask for more than the book", fl_number_text (lo, from), fl_number_text (hi, to));
}

static void
need_weight (const Check *check, const char *key, FlQuantity quantity)
{
  double value = fl_quantity_in (quantity, check->book->data.unit);
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  if (!(value > 0.0) || !isfinite (value))
    refuse (check, FL_SEVERITY_ERROR, key, fl_quantity_known (quantity) ? fl_number_text (quantity.value, buffer) : NULL,
            "a working load limit over 0");
}

static void
need_length (const Check *check, const char *key, FlQuantity quantity, gboolean zero)
{
  double value = fl_quantity_in (quantity, FL_UNIT_IN);
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  if (!isfinite (value) || value < 0.0 || (value == 0.0 && !zero))
    refuse (check, FL_SEVERITY_ERROR, key, fl_quantity_known (quantity) ? fl_number_text (quantity.value, buffer) : NULL,
            zero ? "a length of 0 or more: a house rule may only ask for more than the book" : "a length over 0");
}

static void
check_min_chain (const Check *check, const FlHouseRule *rule)
{
  if (fl_book_chain_row (check->book, rule->size_in) == NULL)
    refuse (check, FL_SEVERITY_ERROR, "size_in", rule->size_text, "a size of chain that the rule book has");
  if (fl_book_grade (check->book, rule->grade) < 0)
    refuse (check, FL_SEVERITY_ERROR, "grade", rule->grade, "a grade of chain that the rule book has, as \"70\"");
}

static void
check_band (const Check *check, const FlHouseRule *rule)
{
  const FlBookData *data = &check->book->data;
  char lo[G_ASCII_DTOSTR_BUF_SIZE];

  need_number (check, "lo_deg", rule->lo_deg, data->deck_lo, data->deck_hi);
  need_number (check, "hi_deg", rule->hi_deg, data->deck_lo, data->deck_hi);
  if (rule->lo_deg >= rule->hi_deg)
    refuse (check, FL_SEVERITY_ERROR, "hi_deg", NULL, "more than lo_deg, %s", fl_number_text (rule->lo_deg, lo));
}

static void
check_stand_in (const Check *check, const FlHouseRule *rule)
{
  /* The fittings of formats.md, of trailers and of machines. */
  static const char *const fittings[] = { "d_ring", "stake_pocket", "rub_rail", "chain_slot", "lashing_ring", "bracket",
                                          "lug", "loop", "eye", "hook", "slot", "drawbar", "axle", "frame", "track", NULL };

  if (rule->fitting == NULL || !g_strv_contains (fittings, rule->fitting))
    refuse (check, FL_SEVERITY_ERROR, "fitting", rule->fitting, "a fitting of a trailer or a machine, as d_ring or lug");
  need_weight (check, "wll_lb", rule->wll);
}

/* What the rule asks for must make sense and tighten. */
static void
check_parameters (const Check *check, const FlHouseRule *rule)
{
  switch (rule->rule)
    {
    case FL_HOUSE_MIN_WLL_EACH:
      need_weight (check, "wll_lb", rule->wll);
      break;
    case FL_HOUSE_MIN_CHAIN:
      check_min_chain (check, rule);
      break;
    case FL_HOUSE_DECK_ANGLE_BAND:
      check_band (check, rule);
      break;
    case FL_HOUSE_STAND_IN_RATING:
      check_stand_in (check, rule);
      break;
    case FL_HOUSE_OVER_WIDE_BLADE_REAR:
      need_length (check, "over_in", rule->width, FALSE);
      break;
    case FL_HOUSE_EXTRA_AGGREGATE_PCT:
    case FL_HOUSE_WEIGHT_MARGIN_PCT:
      need_number (check, "pct", rule->pct, 0.0, 500.0);
      break;
    case FL_HOUSE_CHAIN_ALLOWANCE:
    case FL_HOUSE_HEIGHT_MARGIN:
      need_length (check, "length_in", rule->length, TRUE);
      break;
    case FL_HOUSE_NO_STRAPS_ON_MACHINES:
    case FL_HOUSE_FOUR_BELOW_THRESHOLD:
    case FL_HOUSE_LENGTH_COUNT_TOO:
    case FL_HOUSE_RATCHET_ONLY:
    case FL_HOUSE_INBOARD_OF_RUB_RAIL:
    case FL_HOUSE_IMPLEMENT_LOCK_SUFFICES:
      break;
    case FL_N_HOUSE_RULES:
      refuse (check, FL_SEVERITY_ERROR, "rule", NULL, "a house rule of this edition");
      break;
    }
}

/* TRUE if something acts on the rule: a requirement, or the length of chain that a run takes. */
static gboolean
is_judged (FlHouseRuleId rule)
{
  switch (rule)
    {
    case FL_HOUSE_MIN_WLL_EACH:
    case FL_HOUSE_MIN_CHAIN:
    case FL_HOUSE_NO_STRAPS_ON_MACHINES:
    case FL_HOUSE_CHAIN_ALLOWANCE:
      return TRUE;
    default:
      return FALSE;
    }
}

/* A rule stands once, but stand_in_rating once for each fitting: of two only the first would be looked at. */
static gboolean
stands_before (const FlPolicy *policy, gsize index)
{
  const FlHouseRule *rule = &policy->rules[index];

  for (gsize i = 0; i < index; i++)
    if (policy->rules[i].rule == rule->rule
        && (rule->rule != FL_HOUSE_STAND_IN_RATING || g_strcmp0 (policy->rules[i].fitting, rule->fitting) == 0))
      return TRUE;
  return FALSE;
}

static void
check_rule (const Check *check, const FlPolicy *policy)
{
  const FlHouseRule *rule = &policy->rules[check->index];

  check_parameters (check, rule);
  if ((guint) rule->rule >= FL_N_HOUSE_RULES)
    return;
  if (stands_before (policy, check->index))
    refuse (check, FL_SEVERITY_ERROR, "rule", fl_house_rule_name (rule->rule), "each house rule once");
  else if (!is_judged (rule->rule))
    refuse (check, FL_SEVERITY_WARNING, "rule", fl_house_rule_name (rule->rule), "understood, but not yet judged by this edition");
}

static void
copy_policy (FlBook *book, const FlPolicy *policy)
{
  FlHouseRule *rules = fl_arena_copy (book->arena, policy->rules, sizeof (FlHouseRule) * policy->n_rules);

  for (gsize i = 0; i < policy->n_rules; i++)
    {
      rules[i].size_text = fl_arena_text (book->arena, rules[i].size_text);
      rules[i].grade = fl_arena_text (book->arena, rules[i].grade);
      rules[i].fitting = fl_arena_text (book->arena, rules[i].fitting);
    }
  book->policy = (FlPolicy) { rules, policy->n_rules };
}

FlBook *
fl_book_tighten (const FlBook *book, const FlPolicy *policy, FlProblems *problems)
{
  g_autoptr(FlProblems) own = problems == NULL ? fl_problems_new () : NULL;
  FlProblems *found = problems == NULL ? own : problems;
  guint before = fl_problems_errors (found);
  FlBook *tightened;

  for (gsize i = 0; i < policy->n_rules; i++)
    {
      Check check = { book, found, i };

      check_rule (&check, policy);
    }
  if (fl_problems_errors (found) != before)
    return NULL;
  tightened = fl_book_alloc ();
  tightened->data = book->data;
  tightened->base = fl_book_ref (book);
  copy_policy (tightened, policy);
  return tightened;
}
