/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The force answers side by side: which stands where, and what the cells say. Figures are invented; what is checked is that each answer keeps
 * its place and that what nobody knows is a dash and never a number. */
#include <math.h>
#include <string.h>

#include "fl-force-table.h"

static const guint both[] = { 1, 3 };

static const FlForceResult forces[] = {
  { .load = 0, .case_id = "forward", .level = "working", .friction = "none", .method = "component_sum", .demand = { 0.435, FL_UNIT_G },
    .capacity = { 0.25, FL_UNIT_G } },
  { .load = 0, .case_id = "forward", .level = "breaking", .friction = "wet", .method = "upper_bound", .demand = { 0.8, FL_UNIT_G },
    .capacity = { 1.5, FL_UNIT_G }, .mode = "tips" },
  { .load = 0, .case_id = "left", .level = "working", .friction = "wet", .method = "load_sharing", .demand = { 0.25, FL_UNIT_G }, .mode = "not_settled" },
  { .load = 0, .case_id = "forward", .level = "working", .friction = "wet", .method = "upper_bound", .demand = { 0.435, FL_UNIT_G },
    .capacity = { 0.6, FL_UNIT_G }, .mode = "slides", .at_limit = both, .n_at_limit = 2 },
  { .load = 0, .case_id = "forward", .level = "working", .friction = "wet", .method = "component_sum", .demand = { 0.435, FL_UNIT_G },
    .capacity = { 0.5, FL_UNIT_G } },
  { .load = 0, .case_id = "forward", .level = "working", .friction = "wet", .method = "load_sharing", .demand = { 0.435, FL_UNIT_G },
    .capacity = { 0.55, FL_UNIT_G }, .moved = { 0.4, FL_UNIT_IN }, .turned = { 0.7, FL_UNIT_DEG } },
};

static const FlTensionResult tensions[] = {
  { .load = 0, .case_id = "forward", .level = "working", .friction = "wet", .no = 3, .tension = { 3000, FL_UNIT_LB }, .use = 0.9 },
  { .load = 0, .case_id = "forward", .level = "working", .friction = "wet", .no = 1, .tension = { 1200.4, FL_UNIT_LB }, .use = 0.4 },
  { .load = 0, .case_id = "forward", .level = "working", .friction = "wet", .no = 2, .tension = { 9000, FL_UNIT_LB }, .use = NAN },
};

static const FlAssessmentParts sample = {
  .forces = forces, .n_forces = G_N_ELEMENTS (forces), .tensions = tensions, .n_tensions = G_N_ELEMENTS (tensions),
};

static void
assert_cell (const FlForceRow *row, FlForceColumn column, const char *expected)
{
  g_autofree char *cell = fl_force_cell (NULL, row, "R-03", column, FALSE);

  g_assert_cmpstr (cell, ==, expected);
}

/* Working before breaking, with friction before without, cases as they come. */
static void
test_order (void)
{
  static const char *const expected[][3] = {
    { "working", "wet", "forward" }, { "working", "wet", "left" }, { "working", "none", "forward" }, { "breaking", "wet", "forward" },
  };
  g_autoptr(GArray) rows = fl_force_rows (&sample);
  g_autoptr(GPtrArray) cases = fl_force_cases (&sample);

  g_assert_cmpuint (cases->len, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (cases, 0), ==, "forward");
  g_assert_cmpuint (rows->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < rows->len; i++)
    {
      const FlForceRow *row = &g_array_index (rows, FlForceRow, i);

      g_assert_cmpstr (row->level, ==, expected[i][0]);
      g_assert_cmpstr (row->friction, ==, expected[i][1]);
      g_assert_cmpstr (row->case_id, ==, expected[i][2]);
    }
}

static void
test_cells (void)
{
  static const char *const expected[FL_FORCE_N_COLUMNS] = {
    "R-03", "working", "wet", "forward", "0.435 g", "at least 0.55 g", "0.6 g", "0.5 g", "it slides", "1, 3", "3: 90 %", "0.4 in, 0.7°",
  };
  g_autoptr(GArray) rows = fl_force_rows (&sample);
  const FlForceRow *full = &g_array_index (rows, FlForceRow, 0), *left = &g_array_index (rows, FlForceRow, 1);
  const FlForceRow *bare = &g_array_index (rows, FlForceRow, 2), *tips = &g_array_index (rows, FlForceRow, 3);

  for (guint column = 0; column < FL_FORCE_N_COLUMNS; column++)
    {
      assert_cell (full, column, expected[column]);
      g_assert_nonnull (fl_force_head (NULL, column));
    }
  assert_cell (left, FL_FORCE_SHARED, "not settled");
  assert_cell (left, FL_FORCE_CASE, "to the left");
  assert_cell (left, FL_FORCE_MOST_USED, "–");
  assert_cell (left, FL_FORCE_MOVED, "–");
  assert_cell (bare, FL_FORCE_FRICTION, "no friction");
  assert_cell (bare, FL_FORCE_BOUND, "–");
  assert_cell (bare, FL_FORCE_MODE, "–");
  assert_cell (bare, FL_FORCE_SHARED, "–");
  assert_cell (tips, FL_FORCE_MODE, "it tips over");
  assert_cell (tips, FL_FORCE_AT_LIMIT, "–");
}

/* A limit that was reached is no "at least": one at its limit is named, or one is used up at the demand. */
static void
test_at_least (void)
{
  const guint first[] = { 3 };
  const FlForceResult reached = { .case_id = "forward", .level = "working", .friction = "wet", .method = "load_sharing", .demand = { 0.4, FL_UNIT_G },
                                  .capacity = { 0.3, FL_UNIT_G }, .at_limit = first, .n_at_limit = 1 };
  const FlForceResult over = { .case_id = "forward", .level = "working", .friction = "wet", .method = "load_sharing", .demand = { 0.4, FL_UNIT_G },
                               .capacity = { 0.3, FL_UNIT_G } };
  const FlForceRow named = { .level = "working", .friction = "wet", .case_id = "forward", .sharing = &reached, .use = NAN };
  const FlForceRow used = { .level = "working", .friction = "wet", .case_id = "forward", .sharing = &over, .most_used = 3, .use = 1.25 };

  assert_cell (&named, FL_FORCE_SHARED, "0.3 g");
  assert_cell (&used, FL_FORCE_SHARED, "0.3 g");
  assert_cell (&used, FL_FORCE_MOST_USED, "3: 125 %");
}

/* What is not finite or not known is a dash, in every cell and in the sentence. */
static void
test_no_nan (void)
{
  const FlForceResult odd = { .case_id = "forward", .level = "working", .friction = "dry", .method = "upper_bound", .demand = { NAN, FL_UNIT_G },
                              .capacity = { INFINITY, FL_UNIT_G }, .moved = { NAN, FL_UNIT_IN }, .turned = { NAN, FL_UNIT_DEG } };
  const FlTensionResult tension = { .case_id = "forward", .level = "working", .friction = "dry", .no = 1, .tension = { NAN, FL_UNIT_LB }, .use = NAN };
  const FlForceRow row = { .level = "working", .friction = "dry", .case_id = "forward", .demand = odd.demand, .sum = &odd, .bound = &odd, .sharing = &odd,
                           .use = NAN };
  g_autofree char *sentence = fl_force_sentence (NULL, &row, FALSE), *cell = fl_tension_cell (&tension, FALSE), *none = fl_tension_cell (NULL, FALSE);

  for (guint column = FL_FORCE_DEMAND; column < FL_FORCE_N_COLUMNS; column++)
    if (column != FL_FORCE_SHARED)
      assert_cell (&row, column, "–");
  g_assert_cmpstr (cell, ==, "–");
  g_assert_cmpstr (none, ==, "–");
  g_assert_null (strcasestr (sentence, "nan"));
  g_assert_null (strcasestr (sentence, "inf"));
  g_assert_null (strstr (sentence, "∞"));
}

static void
test_tensions (void)
{
  g_autoptr(GArray) rows = fl_tension_rows (&sample);
  g_autofree char *first = NULL, *unknown = NULL, *metric = NULL;

  g_assert_cmpuint (rows->len, ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      g_assert_cmpuint (g_array_index (rows, FlTensionRow, i).no, ==, i + 1);
      g_assert_nonnull (g_array_index (rows, FlTensionRow, i).of[0]);
      g_assert_null (g_array_index (rows, FlTensionRow, i).of[1]);   /* to the left: no answer */
    }
  first = fl_tension_cell (g_array_index (rows, FlTensionRow, 0).of[0], FALSE);
  unknown = fl_tension_cell (g_array_index (rows, FlTensionRow, 1).of[0], FALSE);
  metric = fl_tension_cell (g_array_index (rows, FlTensionRow, 0).of[0], TRUE);
  g_assert_cmpstr (first, ==, "1,200 lb, 40 %");
  g_assert_cmpstr (unknown, ==, "9,000 lb");
  g_assert_cmpstr (metric, ==, "544 kg, 40 %");   /* 1,200.4 lb x 0.45359237 = 544.49 kg */
}

static void
test_sentence (void)
{
  g_autoptr(GArray) rows = fl_force_rows (&sample);
  g_autofree char *full = fl_force_sentence (NULL, &g_array_index (rows, FlForceRow, 0), FALSE);
  g_autofree char *left = fl_force_sentence (NULL, &g_array_index (rows, FlForceRow, 1), FALSE);

  g_assert_cmpstr (full, ==, "Moving forward, working limits, wet: 0.435 g is wanted. Component sum 0.5 g. Upper bound 0.6 g, with all that can at their "
                             "limit: tie-downs 1, 3; then it slides. As they stretch and share it: at least 0.55 g. Of what is wanted tie-down 3 carries the "
                             "largest share of its limit, 90 %; the load moves 0.4 in, 0.7°.");
  g_assert_true (g_str_has_suffix (left, "How they share it is not settled: the load moves too far, or nothing holds it."));
}

/* More cases than there is room for, and words nobody has: nothing is overrun, the words come as they are. */
static void
test_many_cases (void)
{
  static const char *const ids[] = { "a", "b", "c", "d", "e", "f", "g", "h", "i", "j" };
  FlForceResult many[G_N_ELEMENTS (ids)];
  FlTensionResult pulls[G_N_ELEMENTS (ids)];
  const FlAssessmentParts parts = { .forces = many, .n_forces = G_N_ELEMENTS (ids), .tensions = pulls, .n_tensions = G_N_ELEMENTS (ids) };
  g_autoptr(GPtrArray) cases = NULL;
  g_autoptr(GArray) rows = NULL, of_ties = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      many[i] = (FlForceResult) { .case_id = ids[i], .level = "working", .friction = "mud", .method = "load_sharing" };
      pulls[i] = (FlTensionResult) { .case_id = ids[i], .level = "working", .friction = "mud", .no = 7, .use = 0.1 };
    }
  cases = fl_force_cases (&parts);
  rows = fl_force_rows (&parts);
  of_ties = fl_tension_rows (&parts);
  g_assert_cmpuint (cases->len, ==, FL_FORCE_MAX_CASES);
  g_assert_cmpuint (rows->len, ==, G_N_ELEMENTS (ids));
  g_assert_cmpuint (of_ties->len, ==, 1);
  g_assert_cmpstr (fl_force_friction_word (NULL, "mud"), ==, "mud");
}

static void
test_nothing (void)
{
  const FlAssessmentParts parts = { 0 };
  g_autoptr(GPtrArray) cases = fl_force_cases (&parts);
  g_autoptr(GArray) rows = fl_force_rows (&parts), of_ties = fl_tension_rows (&parts);

  g_assert_cmpuint (cases->len + rows->len + of_ties->len, ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/force-table/order", test_order);
  g_test_add_func ("/force-table/cells", test_cells);
  g_test_add_func ("/force-table/at-least", test_at_least);
  g_test_add_func ("/force-table/no-nan", test_no_nan);
  g_test_add_func ("/force-table/tensions", test_tensions);
  g_test_add_func ("/force-table/sentence", test_sentence);
  g_test_add_func ("/force-table/many-cases", test_many_cases);
  g_test_add_func ("/force-table/nothing", test_nothing);
  return g_test_run ();
}
