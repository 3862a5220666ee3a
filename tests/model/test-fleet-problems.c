/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything that can be wrong with a fleet document: the example with one slip in it, and the one problem that must be found, with its
 * exact path and line. Then documents that are none, and bytes changed at random. */
#include "fl-test-example.h"

typedef struct
{
  const char *from, *to;        /* the line of '@' in `to`, or of its start, is that of the problem */
  const char *path;
  const char *expected;         /* a piece of what is expected */
  FlSeverity severity;
  const char *where;            /* where given, the line is that of its first place in the changed text instead */
} Slip;

#define E FL_SEVERITY_ERROR
#define W FL_SEVERITY_WARNING

static const Slip HEAD[] = {
  { "\"fairlead-fleet/1\"", "\"fairlead-fleet/2\"", "format", "newer program", E, NULL },
  { "\"fairlead-fleet/1\"", "\"fairlead-plan/1\"", "format", "fairlead-fleet/1", E, NULL },
  { "\"name\": \"Larkfield Drainage District\",", "", "name", "missing", E, "{" },
  { "\"name\": \"Larkfield Drainage District\"", "\"name\": 7", "name", "text", E, NULL },
  { "\"us\"", "\"imperial\"", "units", "us, metric", E, NULL },
  { "\"turnaround_min\": 30", "\"turnaround_min\": -1", "turnaround_min", "between 0 and 1440", E, NULL },
  { "\"turnaround_min\": 30", "\"turnaround_min\": 30.5", "turnaround_min", "whole number", E, NULL },
  { "\"rule_book\": \"us-49cfr393\"", "\"rule_book\": [1]", "rule_book", "text", E, NULL },
  { "\"people\": [", "\"other\": {\"a\": 1},\n \"people\": [", "other", "unknown key", W, NULL },
  { "\"people\": [", "\"plans\": {},\n \"people\": [", "plans", "list", E, NULL },
  { "\"people\": [", "\"people\": [\n  @7,", "people[0]", "object", E, NULL },
  { "\"wll_lb\": 5000", "\"wll_lb\": -5000", "house_rules[0].wll_lb", "between 50 and 200000", E, NULL },
  { "\"wll_lb\": 5000", "\"wll_lb\": null", "house_rules[0].wll_lb", "number", E, NULL },
  { "\"min_wll_each\"", "\"no_straps_on_machines\"", "house_rules[0].wll_lb", "unknown key", W, "\"wll_lb\": 5000" },
  { "\"wll_lb\": 5000\n  }", "\"wll_lb\": 5000\n  }, {\n   @\"rule\": \"min_wll_each\", \"wll_lb\": 6000\n  }",
    "house_rules[1].rule", "twice", E, NULL },
  { "\"us-49cfr393\"", "\"\"", "rule_book", "left out", E, NULL },
  { "\"language\": \"es\"", "\"language\": \"Spanish\"", "people[1].language", "language tag", E, NULL },
  { "\"language\": \"es\"", "\"language\": \"es-\"", "people[1].language", "language tag", E, NULL },
  { "\"fleet_lead\"", "\"fleet_boss\"", "people[0].roles[1]", "dispatcher", E, NULL },
  { "\"id\": \"P-01\"", "\"id\": \"\"", "people[0].id", "not empty", E, NULL },
};

static const Slip MACHINES[] = {
  { "\"weight_lb\": 22000", "\"weight_lb\": 3", "machines[0].weight_lb", "between 200 and 400000 lb", E, NULL },
  { "\"weight_lb\": 22000", "\"weight_lb\": -22000", "machines[0].weight_lb", "between 200 and 400000 lb", E, NULL },
  { "\"weight_lb\": 22000", "\"weight_kg\": 2200000", "machines[0].weight_kg", "kg", E, NULL },
  { "\"weight_lb\": 22000", "\"weight_lb\": \"22000\"", "machines[0].weight_lb", "number", E, NULL },
  { "\"weight_lb\": 22000", "\"weight_lb\": null", "machines[0].weight_lb", "number", E, NULL },
  { "\"weight_lb\": 22000", "\"weight_lb\": 22000,\n   @\"weight_kg\": 9979", "machines[0].weight_kg", "only one of", E, NULL },
  { "\"length_in\": 234", "\"length_in\": 3", "machines[0].length_in", "between 24 and 1200 in", E, NULL },
  { "\"width_in\": 93", "\"width_in\": 930", "machines[0].width_in", "between 20 and 400 in", E, NULL },
  { "\"height_in\": 120", "\"height_ft\": 120", "machines[0].height_ft", "ft", E, NULL },
  { "\"notes\": \"Water", "\"weigth_lb\": 22000,\n   \"notes\": \"Water", "machines[0].weigth_lb", "unknown key", W, NULL },
  { "\"kind\": \"single_drum_roller\"", "\"kind\": \"\"", "machines[0].kind", "not empty", E, NULL },
  { "\"scale ticket 2026-03-02\"", "\"weighed\"", "machines[0].basis.weight", "first word is plate, manual, scale, tape or typical", E, NULL },
  { "\"steel_drum\"", "\"steel_drums\"", "machines[0].contacts[0].running_gear", "rubber_tires", E, NULL },
  { "\"x_in\": 127", "\"x_in\": 12700", "machines[0].center_of_gravity.x_in", "between", E, NULL },
  { "\"id\": \"RR\"", "\"id\": \"RL\"", "machines[0].tie_points[1].id", "no other tie point", E, NULL },
  { "\"fitting\": \"loop\"", "\"fitting\": \"ring\"", "machines[0].tie_points[0].fitting", "lug", E, NULL },
  { "\"opening_in\": 3.0", "\"opening_in\": -3.0", "machines[0].tie_points[0].opening_in", "between", E, NULL },
  { "\"maker_provided\": true", "\"maker_provided\": 1", "machines[0].tie_points[0].maker_provided", "true or false", E, NULL },
  { "\"x_in\": 14,", "\"x_in\": 1400,", "machines[0].tie_points[0].id", "on the machine", W, "\"RL\"" },
  { "\"kind\": \"articulation\"", "\"kind\": \"pin\"", "machines[0].locks[0].kind", "articulation", E, NULL },
  { "\"on_machine\": true", "\"on_machine\": false", "machines[0].locks[0].fitted", "not on the machine", E, "\"fitted\"" },
  { "\"BL\",\n      \"BR\"", "\"BL\",\n      @\"BX\"", "machines[0].implements[0].tie_points[1]", "\"BX\" of implement \"BLD\"", E, NULL },
  { "\"can_lower\": true", "\"lock\": \"PIN\"", "machines[0].implements[0].lock", "\"PIN\"", E, NULL },
  { "\"min_tie_downs\": 1", "\"min_tie_downs\": -1", "machines[0].implements[0].min_tie_downs", "between 0 and 8", E, NULL },
  { "\"x_in\": 100,", "\"x_in\": 10,", "machines[0].solids[0].max", "greater than \"min\"", E, "\"max\": {" },
  { "\"height_in\": 98", "\"height_in\": 980", "machines[0].positions[0].height_in", "between 5 and 300 in", E, NULL },
  { "\"height_in\": 98", "\"hieght_in\": 98", "machines[0].positions[0].hieght_in", "unknown key", W, NULL },
  { "\"height_in\": 98", "\"tie_points\": [{\"id\": \"BL\", \"x_in\": 1, \"y_in\": 1, \"z_in\": 1}]", "machines[0].positions[0].tie_points",
    "\"BR\" of implement \"BLD\"", E, NULL },
  { "\"notes\": \"Water", "\"facings\": [\"backward\"],\n   \"notes\": \"Water", "machines[0].facings[0]", "forward or rearward", E, NULL },
  { "\"A-1\"", "\"A#1\"", "articles[0].id", "without \"#\"", E, NULL },
  { "\"A-1\"", "\" A-1\"", "articles[0].id", "without blanks at its ends", E, NULL },
  { "\"A-1\"", "\"A\\n1\"", "articles[0].id", "control characters", E, NULL },
  { "\"A-1\"", "\"a1234567890123456789012345678901234567890123456789012345678901\"", "articles[0].id", "at most 60", E, NULL },
  { "\"A-1\",", "\"A-1\", \"kind\": \"bucket\",", "articles[0].kind", "unknown key", W, NULL },
};

static const Slip TRAILERS[] = {
  { "\"length_in\": 288", "\"length_in\": 3", "trailers[0].deck.length_in", "between 60 and 900 in", E, NULL },
  { "\"width_in\": 102", "\"width_in\": 2", "trailers[0].deck.width_in", "between 20 and 400 in", E, NULL },
  { "\"surface\": \"wood\"", "\"surface\": \"oak\"", "trailers[0].deck.surface", "wood", E, NULL },
  { "\"x0_in\": -72", "\"x0_in\": 72", "trailers[0].deck.zones[0]", "in front of x0", E, "{\n      \"id\": \"tail\"" },
  { "\"carries\": false", "\"carries\": \"no\"", "trailers[0].deck.zones[0].carries", "true or false", E, NULL },
  { "\"slope_deg\": 10", "\"slope_deg\": 100", "trailers[0].deck.zones[0].slope_deg", "between -45 and 45", E, NULL },
  { "\"kind\": \"lunette\"", "\"kind\": \"pintle\"", "trailers[0].coupling.kind", "lunette", E, NULL },
  { "\"kind\": \"pintle\"", "\"kind\": \"lunette\"", "trucks[0].coupling.kind", "pintle", E, NULL },
  { "\"share_pct\": [\n     8,", "\"share_pct\": [\n     80,", "trailers[0].coupling.share_pct", "rising", E, NULL },
  { "\"x_in\": 110,", "\"x_in\": 110, \"share\": 0.5,", "trailers[0].axles", "axle group 1", E,
    "\"axles\": [\n    {\n     \"x_in\": 110" },
  { "\"tare_lb\": 11000", "\"tare_lb\": -11000", "trucks[0].axles[0].tare_lb", "between", E, NULL },
  { "\"axles\": [\n    {\n     \"x_in\": 200", "\"axles\": [\n    {\n     @\"x_m\": 200", "trucks[0].axles[0].x_m", " m", E, NULL },
  { "\"fitting\": \"d_ring\"", "\"fitting\": \"hole\"", "trailers[0].anchors[0].fitting", "d_ring", E, NULL },
  { "\"id\": \"P\"", "\"id\": \"P1\"", "trailers[0].anchor_rows[0].id", "ends in a letter", E, NULL },
  { "\"id\": \"P\"", "\"id\": \"D\"", "trailers[0].anchor_rows[0].id", "\"D1L\"", E, NULL },
  { "\"left\",\n      \"right\"", "\"left\",\n      @\"left\"", "trailers[0].anchor_rows[0].sides[1]", "each once", E, NULL },
  { "\"left\",\n      \"right\"", "\"left\",\n      @\"top\"", "trailers[0].anchor_rows[0].sides[1]", "left or right", E, NULL },
  { "\"count\": 12", "\"count\": 0", "trailers[0].anchor_rows[0].count", "between 1 and 200", E, NULL },
  { "\"y_in\": 50", "\"y_in\": -50", "trailers[0].anchor_rows[0].y_in", "between 1 and 200", E, NULL },
  { "\"spacing_in\": 24", "\"spacing_in\": 0", "trailers[0].anchor_rows[0].spacing_in", "between 1 and", E, NULL },
  { "\"span_in\": 120", "\"span_in\": 120, \"spun_in\": 120", "trailers[0].concentrated[0].spun_in", "unknown key", W, NULL },
};

static const Slip GEAR[] = {
  { "\"C-042\"", "\"C-041\"", "chains[1].id", "no other chain, binder, strap or connector", E, NULL },
  { "\"B-11\"", "\"C-041\"", "binders[0].id", "no other chain, binder, strap or connector", E, NULL },
  { "\"size_in\": \"3/8\"", "\"size_in\": \"3/x\"", "chains[0].size_in", "nominal chain size", E, NULL },
  { "\"size_in\": \"3/8\"", "\"size_in\": \"38\"", "chains[0].size_in", "nominal chain size", E, NULL },
  { "\"size_in\": \"3/8\"", "\"size_in\": 0.375", "chains[0].size_in", "text", E, NULL },
  { "\"size_in\": \"3/8\"", "\"size_mm\": 0.375", "chains[0].size_mm", "between", E, NULL },
  { "\"size_in\": \"3/8\"", "\"size_in\": \"3/8\",\n   @\"size_mm\": 10", "chains[0].size_mm", "only one of", E, NULL },
  { "\"mark\": \"70\"", "\"mark\": \"\"", "chains[0].mark", "null", E, NULL },
  { "\"mark\": \"70\"", "\"mark\": 70", "chains[0].mark", "text", E, NULL },
  { "\"length_ft\": 16", "\"length_ft\": 0.5", "chains[0].length_ft", "between 1 and 200 ft", E, NULL },
  { "\"hook\": \"grab\"", "\"hook\": \"claw\"", "chains[0].hook", "grab", E, NULL },
  { "\"hook\": \"grab\"", "\"ends\": [{\"hook\": \"grab\"}]", "chains[0].ends", "exactly two", E, NULL },
  { "\"kept_at\": \"NORTH\"", "\"kept_at\": \"EAST\"", "chains[0].kept_at", "yard or trailer", E, NULL },
  { "\"kept_at\": \"T-3\"", "\"kept_at\": \"T-9\"", "binders[0].kept_at", "yard or trailer", E, NULL },
  { "\"2026-11-02\"", "\"2026-02-29\"", "chains[0].inspections[0].date", "the calendar has", E, NULL },
  { "\"2026-11-02\"", "\"2026-13-01\"", "chains[0].inspections[0].date", "the calendar has", E, NULL },
  { "\"2026-11-02\"", "\"2 Nov 2026\"", "chains[0].inspections[0].date", "YYYY-MM-DD", E, NULL },
  { "\"2026-11-02\"", "\"0000-11-02\"", "chains[0].inspections[0].date", "the calendar has", E, NULL },
  { "\"findings\": []", "\"findings\": [{\"kind\": \"rusty\"}]", "chains[0].inspections[0].findings[0].kind", "cracked", E, NULL },
  { "\"findings\": []", "\"findings\": [{\"kind\": \"repair\"}]", "chains[0].inspections[0].findings[0].repair_link", "repaired with", E, NULL },
  { "\"count\": 6", "\"count\": 0", "chains[5].count", "between 1 and 999", E, NULL },
  { "\"count\": 6", "\"count\": 1000", "chains[5].count", "between 1 and 999", E, NULL },
  { "\"5/16\"", "\"five\"", "binders[0].chain_sizes[0]", "nominal chain size", E, NULL },
  { "\"kind\": \"ratchet\"", "\"kind\": \"ratched\"", "binders[0].kind", "ratchet, lever", E, NULL },
  { "\"kind\": \"cut\"", "\"kind\": \"bent\"", "straps[0].inspections[0].findings[0].kind", "cut", E, NULL },
  { "\"tensioner\": \"ratchet\"", "\"tensioner\": \"lever\"", "straps[0].tensioner", "none, ratchet, winch", E, NULL },
  { "\"width_in\": 4,", "\"width_in\": 40,", "straps[0].width_in", "between 0.5 and 12", E, NULL },
  { "\"wll_lb\": 17000", "\"wll_lb\": 17000000", "connectors[0].wll_lb", "between 50 and 200000", E, NULL },
};

static const Slip MOVES[] = {
  { "\"date\": \"2026-11-25\"", "\"date\": \"2026-11-31\"", "moves[0].date", "the calendar has", E, NULL },
  { "\"06:30\"", "\"6:30\"", "moves[0].depart", "HH:MM", E, NULL },
  { "\"06:30\"", "\"24:00\"", "moves[0].depart", "HH:MM", E, NULL },
  { "\"11:00\"", "\"11:60\"", "moves[0].back", "HH:MM", E, NULL },
  { "\"machine\": \"R-03\"", "\"machine\": \"R-04\"", "moves[0].machine", "id of a machine", E, NULL },
  { "\"machine\": \"R-03\"", "\"loads\": [{\"machine\": \"R-04\"}]", "moves[0].loads[0].machine", "id of a machine", E, NULL },
  { "\"machine\": \"R-03\"", "\"loads\": [{\"article\": \"R-03\"}]", "moves[0].loads[0].article", "id of an article", E, NULL },
  { "\"machine\": \"R-03\"", "\"loads\": []", "moves[0].loads", "1 to 20 loads", E, NULL },
  { "\"machine\": \"R-03\"", "\"loads\": [{}]", "moves[0].loads[0]", "either \"machine\" or \"article\"", E, NULL },
  { "\"machine\": \"R-03\"", "\"loads\": [{\"machine\": \"R-03\", \"article\": \"A-1\"}]", "moves[0].loads[0]", "either", E, NULL },
  { "\"machine\": \"R-03\"", "\"loads\": [{\"machine\": \"R-03\"}, {\"machine\": \"R-03\"}]", "moves[0].loads[1]", "twice", E, NULL },
  { "\"machine\": \"R-03\"", "\"machine\": \"R-03\", \"loads\": [{\"machine\": \"R-03\"}]", "moves[0].loads", "not both", E, NULL },
  { "\"trailer\": \"T-3\"", "\"trailer\": \"T-9\"", "moves[0].trailer", "id of a trailer", E, NULL },
  { "\"truck\": \"K-2\"", "\"truck\": \"K-9\"", "moves[0].truck", "id of a truck", E, NULL },
  { "\"driver\": \"P-02\"", "\"driver\": \"P-09\"", "moves[0].driver", "id of a person", E, NULL },
  { "\"driver\": \"P-02\"", "\"driver\": \"P-01\"", "moves[0].driver", "role driver", W, NULL },
  { "\"from\": \"NORTH\"", "\"from\": \"T-3\"", "moves[0].from", "id of a yard", E, NULL },
  { "\"gear_yard\": \"NORTH\"", "\"gear_yard\": \"EAST\"", "moves[0].gear_yard", "id of a yard", E, NULL },
  { "\"miles\": 22", "\"miles\": -1", "moves[0].miles", "between 0 and 5000", E, NULL },
  { "\"priority\": 2", "\"priority\": 0", "moves[0].priority", "between 1 and 999", E, NULL },
  { "\"deck_state\": \"wet\"", "\"deck_state\": \"icy\"", "moves[0].deck_state", "dry, wet, frost", E, NULL },
  { "\"height_limit_in\": 162", "\"height_limit_in\": 12", "moves[0].height_limit_in", "between 48 and 600", E, NULL },
  { "\"to\": \"Tern Lane culvert\",", "\"to\": 7,", "moves[0].to", "text", E, NULL },
};

static guint
line_of (const char *text, const char *piece)
{
  guint line = 1;

  for (const char *at = text; at < strstr (text, piece); at++)
    line += *at == '\n';
  return line;
}

static void
check_slip (const char *text, const Slip *slip)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = NULL;
  g_autofree char *changed = NULL;
  const FlProblem *problem;
  guint line;

  changed = with_change (text, slip->from, slip->to, &line);
  fleet = fleet_of (changed, problems);
  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      g_autofree char *shown = fl_problem_text (fl_problems_at (problems, i), slip->to);

      g_test_message ("%s", shown);
    }
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  problem = fl_problems_at (problems, 0);
  g_assert_cmpstr (problem->path, ==, slip->path);
  g_assert_cmpuint (problem->line, ==, slip->where == NULL ? line : line_of (changed, slip->where));
  g_assert_nonnull (strstr (problem->expected, slip->expected));
  g_assert_cmpint (problem->severity, ==, slip->severity);
  g_assert_true ((fleet == NULL) == (slip->severity == E));
}

static void
check_slips (const Slip *slips, gsize n)
{
  g_autofree char *text = test_data ("example-fleet.json");

  for (gsize i = 0; i < n; i++)
    check_slip (text, &slips[i]);
}

#define SLIPS(name, TABLE) static void name (void) { check_slips (TABLE, G_N_ELEMENTS (TABLE)); }
SLIPS (test_head, HEAD)
SLIPS (test_machines, MACHINES)
SLIPS (test_trailers, TRAILERS)
SLIPS (test_gear, GEAR)
SLIPS (test_moves, MOVES)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fleet-problems/head", test_head);
  g_test_add_func ("/fleet-problems/machines", test_machines);
  g_test_add_func ("/fleet-problems/trailers", test_trailers);
  g_test_add_func ("/fleet-problems/gear", test_gear);
  g_test_add_func ("/fleet-problems/moves", test_moves);
  return g_test_run ();
}
