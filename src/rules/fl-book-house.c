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

static void G_GNUC_PRINTF (4, 5)
refuse (const Check *check, const char *key, const char *value, const char *expected, ...)
{
  g_autofree char *path = g_strdup_printf ("house_rules[%" G_GSIZE_FORMAT "].%s", check->index, key);
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, expected);
  text = g_strdup_vprintf (expected, args);
  va_end (args);
  fl_problems_add (check->problems, FL_SEVERITY_ERROR, path, 0, value, "%s", text);
}

/* One parameter that must be a number in [lo, hi]. */
static void
need_number (const Check *check, const char *key, double value, double lo, double hi)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE], from[G_ASCII_DTOSTR_BUF_SIZE], to[G_ASCII_DTOSTR_BUF_SIZE];

  if (!isfinite (value) || value < lo || value > hi)
    refuse (check, key, isfinite (value) ? fl_number_text (value, buffer) : NULL,
            "a number from %s to %s: a house rule may only ask for more than the book", fl_number_text (lo, from), fl_number_text (hi, to));
}

/* "wll_kg" where it was given in kilograms; `usual` where it was not given, or in a unit of another kind. */
static const char *
key_of (const char *name, FlQuantity quantity, FlUnit usual)
{
  FlUnit unit = fl_unit_dimension (quantity.unit) == fl_unit_dimension (usual) ? quantity.unit : usual;
  g_autofree char *key = g_strconcat (name, "_", fl_unit_suffix (unit), NULL);

  return g_intern_string (key);
}

static void
need_weight (const Check *check, const char *name, FlQuantity quantity)
{
  double value = fl_quantity_in (quantity, check->book->data.unit);
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  if (!(value > 0.0) || !isfinite (value))
    refuse (check, key_of (name, quantity, FL_UNIT_LB), fl_quantity_known (quantity) ? fl_number_text (quantity.value, buffer) : NULL,
            "a working load limit over 0");
}

static void
need_length (const Check *check, const char *name, FlQuantity quantity, gboolean zero)
{
  double value = fl_quantity_in (quantity, FL_UNIT_IN);
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  if (!isfinite (value) || value < 0.0 || (value == 0.0 && !zero))
    refuse (check, key_of (name, quantity, FL_UNIT_IN), fl_quantity_known (quantity) ? fl_number_text (quantity.value, buffer) : NULL,
            zero ? "a length of 0 or more: a house rule may only ask for more than the book" : "a length over 0");
}

static void
check_min_chain (const Check *check, const FlHouseRule *rule)
{
  if (fl_book_chain_row (check->book, rule->size_in) == NULL)
    refuse (check, rule->size_text != NULL && g_str_has_suffix (rule->size_text, "mm") ? "size_mm" : "size_in", rule->size_text, "a size of chain that the rule book has");
  if (fl_book_grade (check->book, rule->grade) < 0)
    refuse (check, "grade", rule->grade, "a grade of chain that the rule book has, as \"70\"");
}

static void
check_band (const Check *check, const FlHouseRule *rule)
{
  const FlBookData *data = &check->book->data;
  char lo[G_ASCII_DTOSTR_BUF_SIZE];

  need_number (check, "lo_deg", rule->lo_deg, data->deck_lo, data->deck_hi);
  need_number (check, "hi_deg", rule->hi_deg, data->deck_lo, data->deck_hi);
  if (rule->lo_deg >= rule->hi_deg)
    refuse (check, "hi_deg", NULL, "more than lo_deg, %s", fl_number_text (rule->lo_deg, lo));
}

static void
check_stand_in (const Check *check, const FlHouseRule *rule)
{
  /* The fittings of formats.md, of trailers and of machines. */
  static const char *const fittings[] = { "d_ring", "stake_pocket", "rub_rail", "chain_slot", "lashing_ring", "bracket",
                                          "lug", "loop", "eye", "hook", "slot", "drawbar", "axle", "frame", "track", NULL };

  if (rule->fitting == NULL || !g_strv_contains (fittings, rule->fitting))
    refuse (check, "fitting", rule->fitting, "a fitting of a trailer or a machine, as d_ring or lug");
  need_weight (check, "wll", rule->wll);
}

/* What the rule asks for must make sense and tighten. */
static void
check_parameters (const Check *check, const FlHouseRule *rule)
{
  switch (rule->rule)
    {
    case FL_HOUSE_MIN_WLL_EACH:
      need_weight (check, "wll", rule->wll);
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
      need_length (check, "over", rule->width, FALSE);
      break;
    case FL_HOUSE_EXTRA_AGGREGATE_PCT:
    case FL_HOUSE_WEIGHT_MARGIN_PCT:
      need_number (check, "pct", rule->pct, 0.0, 500.0);
      break;
    case FL_HOUSE_CHAIN_ALLOWANCE:
    case FL_HOUSE_HEIGHT_MARGIN:
      need_length (check, "length", rule->length, TRUE);
      break;
    case FL_HOUSE_NO_STRAPS_ON_MACHINES:
    case FL_HOUSE_FOUR_BELOW_THRESHOLD:
    case FL_HOUSE_LENGTH_COUNT_TOO:
    case FL_HOUSE_RATCHET_ONLY:
    case FL_HOUSE_INBOARD_OF_RUB_RAIL:
    case FL_HOUSE_IMPLEMENT_LOCK_SUFFICES:
      break;
    case FL_N_HOUSE_RULES:
      refuse (check, "rule", NULL, "a house rule of this edition");
      break;
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
    refuse (check, "rule", fl_house_rule_name (rule->rule), "each house rule once");
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

/* ── stand-ins against the fleet ── */

typedef struct { const FlBook *book; const char *fitting, *id; double least; } Least;

static void
weigh_fitting (Least *least, const char *fitting, const char *id, FlQuantity rated)
{
  double value = fl_quantity_in (rated, least->book->data.unit);

  if (g_strcmp0 (fitting, least->fitting) != 0 || !(value < least->least))
    return;
  least->least = value;
  least->id = id;
}

/* The weakest fitting of its kind in the fleet that somebody rated. */
static Least
weakest_known (const FlBook *book, const FlFleet *fleet, const char *fitting)
{
  static const FlKind kinds[] = { FL_KIND_MACHINE, FL_KIND_ARTICLE };
  Least least = { book, fitting, NULL, INFINITY };

  for (gsize i = 0; i < fl_fleet_count (fleet, FL_KIND_TRAILER); i++)
    {
      const FlTrailer *trailer = fl_record_trailer (fl_fleet_at (fleet, FL_KIND_TRAILER, i));

      for (gsize k = 0; k < trailer->n_anchors; k++)
        weigh_fitting (&least, trailer->anchors[k].fitting, trailer->id, trailer->anchors[k].rated);
    }
  for (gsize kind = 0; kind < G_N_ELEMENTS (kinds); kind++)
    for (gsize i = 0; i < fl_fleet_count (fleet, kinds[kind]); i++)
      {
        const FlMachine *machine = fl_record_machine (fl_fleet_at (fleet, kinds[kind], i));

        for (gsize k = 0; k < machine->n_tie_points; k++)
          weigh_fitting (&least, machine->tie_points[k].fitting, machine->id, machine->tie_points[k].rated);
      }
  return least;
}

void
fl_book_survey_house (const FlBook *book, const FlFleet *fleet, FlProblems *problems)
{
  const FlPolicy *policy = fl_fleet_policy (fleet);

  for (gsize i = 0; i < policy->n_rules; i++)
    {
      const FlHouseRule *rule = &policy->rules[i];
      Check check = { book, problems, i };
      char given[G_ASCII_DTOSTR_BUF_SIZE], most[G_ASCII_DTOSTR_BUF_SIZE];
      Least least;

      if (rule->rule != FL_HOUSE_STAND_IN_RATING || rule->fitting == NULL)
        continue;
      least = weakest_known (book, fleet, rule->fitting);
      if (least.id != NULL && !fl_reaches (least.least, fl_quantity_in (rule->wll, book->data.unit)))
        refuse (&check, key_of ("wll", rule->wll, FL_UNIT_LB), fl_number_text (rule->wll.value, given),
                "at most %s %s, the least rating that is known of a %s in this fleet (%s): what nobody rated is not taken for stronger",
                fl_number_text (least.least, most), fl_unit_suffix (book->data.unit), rule->fitting, least.id);
    }
}
