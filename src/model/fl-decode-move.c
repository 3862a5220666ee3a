/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moves and the house's policy. */
#include "fl-decode.h"

#include <math.h>
#include <string.h>

#define MINUTES_A_DAY 1440
#define MOST_MILES 5000.0

enum
{
  MOST_LOADS = 20,
  LAST_PRIORITY = 999,
  NO_PRIORITY = 1000
};

static gint
decode_time (FlReader *reader, const char *key, const char **text)
{
  gint minutes = -1;

  *text = fl_reader_text (reader, key, FALSE);
  if (*text == NULL)
    return -1;
  if (strlen (*text) == 5 && (*text)[2] == ':' && g_ascii_isdigit ((*text)[0]) && g_ascii_isdigit ((*text)[1])
      && g_ascii_isdigit ((*text)[3]) && g_ascii_isdigit ((*text)[4]))
    {
      gint hour = g_ascii_digit_value ((*text)[0]) * 10 + g_ascii_digit_value ((*text)[1]);
      gint minute = g_ascii_digit_value ((*text)[3]) * 10 + g_ascii_digit_value ((*text)[4]);

      minutes = hour < 24 && minute < 60 ? hour * 60 + minute : -1;
    }
  if (minutes < 0)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "a time of day as HH:MM, from 00:00 to 23:59");
  return minutes;
}

static FlMoveLoad
decode_load (FlReader *reader)
{
  FlMoveLoad load = { 0 };
  gboolean machine = fl_reader_has (reader, "machine");

  load.article = fl_reader_has (reader, "article");
  if (machine == load.article)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "", "either \"machine\" or \"article\" with an id");
  else
    load.id = fl_reader_text (reader, load.article ? "article" : "machine", TRUE);
  if (machine && load.article)
    fl_reader_ignore_rest (reader);
  return load;
}

static gboolean
loaded_before (const FlMoveLoad *loads, gsize n, FlMoveLoad load)
{
  for (gsize i = 0; i < n; i++)
    if (load.id != NULL && loads[i].article == load.article && g_strcmp0 (loads[i].id, load.id) == 0)
      return TRUE;
  return FALSE;
}

static void
decode_load_list (FlReader *reader, FlMove *move)
{
  gsize given = fl_reader_list (reader, "loads", TRUE);
  FlMoveLoad *loads = fl_arena_new0 (fl_reader_arena (reader), FlMoveLoad, given);

  move->loads = loads;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "loads", i);

      if (item == NULL)
        continue;
      loads[move->n_loads] = decode_load (item);
      if (loaded_before (loads, move->n_loads, loads[move->n_loads]))
        fl_reader_problem (item, FL_SEVERITY_ERROR, "", "a load that does not ride twice in one move");
      move->n_loads++;
    }
  if (given == 0 || given > MOST_LOADS)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "loads", "a list of 1 to %d loads, from the front", MOST_LOADS);
}

static void
decode_loads (FlReader *reader, FlMove *move)
{
  gboolean machine = fl_reader_has (reader, "machine"), list = fl_reader_has (reader, "loads");

  if (machine && list)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "loads", "either \"machine\" or \"loads\", not both");
  if (!machine && !list)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "machine", "what is moved: \"machine\" with an id, or \"loads\"");
  if (list)
    decode_load_list (reader, move);
  if (machine)
    {
      FlMoveLoad *load = fl_arena_new0 (fl_reader_arena (reader), FlMoveLoad, 1);

      load->id = fl_reader_text (reader, "machine", TRUE);
      if (list)
        return;
      move->loads = load;
      move->n_loads = 1;
    }
}

gconstpointer
fl_decode_move (FlReader *reader)
{
  static const char *const deck_states[] = { "dry", "wet", "frost", NULL };
  FlMove *move = fl_arena_new0 (fl_reader_arena (reader), FlMove, 1);

  move->id = fl_decode_id (reader);
  move->date = fl_decode_date (reader, "date", TRUE);
  decode_loads (reader, move);
  move->depart = decode_time (reader, "depart", &move->depart_text);
  move->back = decode_time (reader, "back", &move->back_text);
  if (move->depart >= 0 && move->back >= 0 && move->back < move->depart)
    move->back += MINUTES_A_DAY;
  move->trailer = fl_reader_text (reader, "trailer", FALSE);
  move->truck = fl_reader_text (reader, "truck", FALSE);
  move->driver = fl_reader_text (reader, "driver", FALSE);
  move->from = fl_reader_text (reader, "from", FALSE);
  move->to = fl_reader_text (reader, "to", FALSE);
  move->gear_yard = fl_reader_text (reader, "gear_yard", FALSE);
  move->miles = fl_reader_number (reader, "miles", 0, MOST_MILES, NAN);
  move->priority = fl_reader_int (reader, "priority", 1, LAST_PRIORITY, NO_PRIORITY);
  move->deck_state = fl_decode_word (reader, "deck_state", deck_states, FALSE);
  move->height_limit = fl_decode_quantity (reader, "height_limit", FL_BOUND_HEIGHT_LIMIT, FALSE);
  move->attachments = fl_reader_texts (reader, "attachments", FALSE);
  move->notes = fl_reader_text (reader, "notes", FALSE);
  fl_decode_bases (reader);
  return move;
}

/* ── house rules ── */

static double
required_number (FlReader *reader, const char *key, double min, double max)
{
  if (!fl_reader_has (reader, key))
    {
      char lo[G_ASCII_DTOSTR_BUF_SIZE], hi[G_ASCII_DTOSTR_BUF_SIZE];

      fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "a number from %s to %s", fl_number_text (min, lo), fl_number_text (max, hi));
      return NAN;
    }
  return fl_reader_number (reader, key, min, max, NAN);
}

static void
decode_angle_band (FlReader *reader, FlHouseRule *rule)
{
  rule->lo_deg = required_number (reader, "lo_deg", 0, 90);
  rule->hi_deg = required_number (reader, "hi_deg", 0, 90);
  if (rule->lo_deg >= rule->hi_deg)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "hi_deg", "an angle over lo_deg");
}

/* What a rule takes besides its name. */
static void
decode_rule_values (FlReader *reader, FlHouseRule *rule)
{
  static const char *const fittings[] = { "lug", "loop", "eye", "hook", "slot", "drawbar", "axle", "frame", "track", "d_ring",
                                          "stake_pocket", "rub_rail", "chain_slot", "lashing_ring", "bracket", NULL };
  gboolean metric;

  switch (rule->rule)
    {
    case FL_HOUSE_MIN_WLL_EACH:
      rule->wll = fl_decode_quantity (reader, "wll", FL_BOUND_HOUSE_WLL, TRUE);
      break;
    case FL_HOUSE_MIN_CHAIN:
      fl_decode_size (reader, "size", TRUE, &rule->size_text, &rule->size_in, &metric);
      rule->grade = fl_reader_text (reader, "grade", TRUE);
      break;
    case FL_HOUSE_DECK_ANGLE_BAND:
      decode_angle_band (reader, rule);
      break;
    case FL_HOUSE_STAND_IN_RATING:
      rule->fitting = fl_decode_word (reader, "fitting", fittings, TRUE);
      rule->wll = fl_decode_quantity (reader, "wll", FL_BOUND_HOUSE_WLL, TRUE);
      break;
    case FL_HOUSE_OVER_WIDE_BLADE_REAR:
      rule->width = fl_decode_quantity (reader, "over", FL_BOUND_OVER_WIDTH, TRUE);
      break;
    case FL_HOUSE_EXTRA_AGGREGATE_PCT:
    case FL_HOUSE_WEIGHT_MARGIN_PCT:
      rule->pct = required_number (reader, "pct", 0, 100);
      break;
    case FL_HOUSE_CHAIN_ALLOWANCE:
    case FL_HOUSE_HEIGHT_MARGIN:
      rule->length = fl_decode_quantity (reader, "length", FL_BOUND_MARGIN, TRUE);
      break;
    case FL_HOUSE_NO_STRAPS_ON_MACHINES:
    case FL_HOUSE_FOUR_BELOW_THRESHOLD:
    case FL_HOUSE_LENGTH_COUNT_TOO:
    case FL_HOUSE_RATCHET_ONLY:
    case FL_HOUSE_INBOARD_OF_RUB_RAIL:
    case FL_HOUSE_IMPLEMENT_LOCK_SUFFICES:
    case FL_N_HOUSE_RULES:
      break;
    }
}

static gboolean
decode_rule (FlReader *reader, FlHouseRule *rule)
{
  const char *names[FL_N_HOUSE_RULES + 1] = { NULL };
  gint index;

  for (gint i = 0; i < FL_N_HOUSE_RULES; i++)
    names[i] = fl_house_rule_name ((FlHouseRuleId) i);
  index = fl_reader_choice (reader, "rule", names, TRUE, -1);
  if (index < 0)
    {
      fl_reader_ignore_rest (reader);   /* whose keys these are is not known */
      return FALSE;
    }
  *rule = (FlHouseRule) { .rule = (FlHouseRuleId) index, .size_in = NAN, .pct = NAN, .lo_deg = NAN, .hi_deg = NAN };
  decode_rule_values (reader, rule);
  return TRUE;
}

static gboolean
asked_before (const FlHouseRule *rules, gsize n, const FlHouseRule *rule)
{
  for (gsize i = 0; i < n; i++)
    if (rules[i].rule == rule->rule && (rule->rule != FL_HOUSE_STAND_IN_RATING || g_strcmp0 (rules[i].fitting, rule->fitting) == 0))
      return TRUE;
  return FALSE;
}

gconstpointer
fl_decode_policy (FlReader *reader)
{
  FlPolicy *policy = fl_arena_new0 (fl_reader_arena (reader), FlPolicy, 1);
  gsize given = fl_reader_list (reader, "house_rules", TRUE);
  FlHouseRule *rules = fl_arena_new0 (fl_reader_arena (reader), FlHouseRule, given);

  policy->rules = rules;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "house_rules", i);

      if (item == NULL || !decode_rule (item, &rules[policy->n_rules]))
        continue;
      if (asked_before (rules, policy->n_rules, &rules[policy->n_rules]))
        fl_reader_problem (item, FL_SEVERITY_ERROR, "rule", "a house rule that is not asked for twice");
      policy->n_rules++;
    }
  return policy;
}
