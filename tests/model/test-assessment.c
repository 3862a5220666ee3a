/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Assessments in memory: deep copies, the order of findings, the verdicts as the formats define them. */
#include "small-plan.h"

static void
add (FlFindings *findings, const char *rule, const char *subject, FlStanding standing, FlVerdict verdict)
{
  const FlFinding finding = { .rule = rule, .subject = subject, .tie_down = -1, .load = -1, .standing = standing,
                              .verdict = verdict, .message = "{subject}" };

  fl_findings_add (findings, &finding);
}

/* ── names ── */

static void
test_ids (void)
{
  static const char *const verdicts[] = { "met", "note", "caution", "unknown", "short" };
  static const char *const standings[] = { "law", "rating", "practice", "house", "advice" };
  FlVerdict verdict = FL_MET;
  FlStanding standing = FL_BY_LAW;

  for (guint i = 0; i < FL_N_VERDICTS; i++)
    {
      g_assert_cmpstr (fl_verdict_id ((FlVerdict) i), ==, verdicts[i]);
      g_assert_true (fl_verdict_from_id (verdicts[i], &verdict));
      g_assert_cmpuint (verdict, ==, i);
      g_assert_cmpstr (fl_standing_id ((FlStanding) i), ==, standings[i]);
      g_assert_true (fl_standing_from_id (standings[i], &standing));
      g_assert_cmpuint (standing, ==, i);
    }
  g_assert_false (fl_verdict_from_id ("Short", &verdict));
  g_assert_false (fl_standing_from_id (NULL, &standing));
  g_assert_cmpstr (fl_plan_verdict_id (FL_COMPLIANT), ==, "compliant");
  g_assert_cmpstr (fl_plan_verdict_id (FL_INCOMPLETE), ==, "incomplete");
  g_assert_cmpstr (fl_plan_verdict_id (FL_NOT_COMPLIANT), ==, "not_compliant");
  g_assert_cmpstr (fl_house_verdict_id (FL_HOUSE_MET), ==, "met");
  g_assert_cmpstr (fl_house_verdict_id (FL_HOUSE_EXCEPTED), ==, "excepted");
  g_assert_cmpstr (fl_house_verdict_id (FL_HOUSE_SHORT), ==, "short");
}

/* ── findings ── */

static void
test_findings_copy (void)
{
  g_autoptr(FlFindings) findings = fl_findings_new ();
  char rule[] = "count", key[] = "each", text[] = "chain";
  FlFact facts[] = { { key, text, FL_NOT_MEASURED }, { key, NULL, FL_LB (6600) } };
  FlFinding finding = { .rule = rule, .tie_down = 3, .load = 1, .standing = FL_BY_RATING, .verdict = FL_NOTE,
                        .need = FL_COUNT (4), .message = "m", .facts = facts, .n_facts = 2 };
  const FlFinding *kept;

  fl_findings_add (findings, &finding);
  rule[0] = key[0] = text[0] = 'X';
  facts[1].quantity = FL_NOT_MEASURED;
  g_assert_cmpuint (fl_findings_count (findings), ==, 1);
  kept = fl_findings_at (findings, 0);
  g_assert_cmpstr (kept->rule, ==, "count");
  g_assert_null (kept->citation);
  g_assert_cmpint (kept->tie_down, ==, 3);
  g_assert_cmpint (kept->load, ==, 1);
  g_assert_cmpuint (kept->n_facts, ==, 2);
  g_assert_cmpstr (kept->facts[0].key, ==, "each");
  g_assert_cmpstr (kept->facts[0].text, ==, "chain");
  g_assert_null (kept->facts[1].text);
  g_assert_true (kept->facts[1].quantity.value == 6600.0);
  g_assert_cmpstr (fl_arena_text (fl_findings_arena (findings), "own"), ==, "own");
}

/* Every pair of verdict and standing twice, put in from the last to the first. */
static void
test_order (void)
{
  g_autoptr(FlFindings) findings = fl_findings_new ();
  g_autoptr(FlAssessment) assessment = NULL;
  const FlFinding *sorted;
  gsize n;

  for (gint standing = FL_N_STANDINGS - 1; standing >= 0; standing--)
    for (gint verdict = 0; verdict < FL_N_VERDICTS; verdict++)
      {
        add (findings, "first", "s", (FlStanding) standing, (FlVerdict) verdict);
        add (findings, "second", "s", (FlStanding) standing, (FlVerdict) verdict);
      }
  assessment = assess (findings, NULL, 0);
  sorted = fl_assessment_findings (assessment, &n);
  g_assert_cmpuint (n, ==, 2 * FL_N_VERDICTS * FL_N_STANDINGS);
  for (gsize i = 0; i < n; i++)
    {
      g_assert_cmpint (sorted[i].verdict, ==, FL_SHORT - (gint) (i / (2 * FL_N_STANDINGS)));
      g_assert_cmpint (sorted[i].standing, ==, (gint) (i / 2 % FL_N_STANDINGS));
      g_assert_cmpstr (sorted[i].rule, ==, i % 2 == 0 ? "first" : "second");
    }
  g_assert_null (fl_assessment_parts (assessment)->findings);
}

static void
test_worst (void)
{
  g_autoptr(FlFindings) findings = fl_findings_new ();
  g_autoptr(FlAssessment) assessment = NULL;

  add (findings, "a", "s", FL_BY_LAW, FL_NOTE);
  add (findings, "b", "s", FL_BY_LAW, FL_CAUTION);
  add (findings, "c", "s", FL_BY_ADVICE, FL_SHORT);
  assessment = assess (findings, NULL, 0);
  g_assert_cmpint (fl_assessment_worst (assessment, FL_BY_LAW), ==, FL_CAUTION);
  g_assert_cmpint (fl_assessment_worst (assessment, FL_BY_ADVICE), ==, FL_SHORT);
  g_assert_cmpint (fl_assessment_worst (assessment, FL_BY_RATING), ==, FL_MET);
}

/* ── verdicts ── */

static FlPlanVerdict
expected_verdict (FlStanding standing, FlVerdict verdict)
{
  if (standing == FL_BY_HOUSE || standing == FL_BY_ADVICE)
    return FL_COMPLIANT;
  return verdict == FL_SHORT ? FL_NOT_COMPLIANT : verdict == FL_UNKNOWN ? FL_INCOMPLETE : FL_COMPLIANT;
}

static void
test_verdict_of_one (void)
{
  for (gint standing = 0; standing < FL_N_STANDINGS; standing++)
    for (gint verdict = 0; verdict < FL_N_VERDICTS; verdict++)
      {
        g_autoptr(FlFindings) findings = fl_findings_new ();
        g_autoptr(FlAssessment) assessment = NULL;
        const FlPlanVerdict expected = expected_verdict ((FlStanding) standing, (FlVerdict) verdict);
        const gboolean house_short = standing == FL_BY_HOUSE && verdict >= FL_UNKNOWN;

        add (findings, "met", "s", FL_BY_LAW, FL_MET);
        add (findings, "rule", "s", (FlStanding) standing, (FlVerdict) verdict);
        assessment = assess (findings, NULL, 0);
        g_assert_cmpint (fl_assessment_verdict (assessment), ==, expected);
        g_assert_cmpint (fl_assessment_house (assessment), ==, house_short ? FL_HOUSE_SHORT : FL_HOUSE_MET);
        g_assert_true (fl_assessment_stands (assessment) == (expected == FL_COMPLIANT && !house_short));
      }
}

static void
test_verdict_of_many (void)
{
  static const struct { FlVerdict law, rating, practice; FlPlanVerdict expected; } cases[] = {
    { FL_MET, FL_MET, FL_MET, FL_COMPLIANT },
    { FL_CAUTION, FL_NOTE, FL_CAUTION, FL_COMPLIANT },
    { FL_UNKNOWN, FL_UNKNOWN, FL_UNKNOWN, FL_INCOMPLETE },
    { FL_UNKNOWN, FL_MET, FL_SHORT, FL_NOT_COMPLIANT },
    { FL_SHORT, FL_UNKNOWN, FL_MET, FL_NOT_COMPLIANT },
    { FL_MET, FL_SHORT, FL_CAUTION, FL_NOT_COMPLIANT },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(FlFindings) findings = fl_findings_new ();
      g_autoptr(FlAssessment) assessment = NULL;

      add (findings, "a", "s", FL_BY_LAW, cases[i].law);
      add (findings, "b", "s", FL_BY_RATING, cases[i].rating);
      add (findings, "c", "s", FL_BY_PRACTICE, cases[i].practice);
      assessment = assess (findings, NULL, 0);
      g_assert_cmpint (fl_assessment_verdict (assessment), ==, cases[i].expected);
    }
}

static void
test_house (void)
{
  static const struct { FlReason exceptions[2]; gsize n; FlHouseVerdict expected; } cases[] = {
    { { { 0 } }, 0, FL_HOUSE_SHORT },
    { { { .rule = "min_chain" } }, 1, FL_HOUSE_SHORT },                                  /* the other stays */
    { { { .rule = "min_chain" }, { .rule = "min_wll_each" } }, 2, FL_HOUSE_EXCEPTED },
    { { { .rule = "min_chain", .subject = "" }, { .rule = "min_wll_each" } }, 2, FL_HOUSE_EXCEPTED },
    { { { .rule = "min_chain", .subject = "tie-down 1" }, { .rule = "min_wll_each" } }, 2, FL_HOUSE_EXCEPTED },
    { { { .rule = "min_chain", .subject = "tie-down 10" }, { .rule = "min_wll_each" } }, 2, FL_HOUSE_SHORT },
    { { { .rule = "MIN_CHAIN" }, { .rule = "min_wll_each" } }, 2, FL_HOUSE_SHORT },
    { { { .rule = "aggregate_wll" }, { .rule = "min_wll_each" } }, 2, FL_HOUSE_SHORT },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(FlFindings) findings = fl_findings_new ();
      g_autoptr(FlAssessment) assessment = NULL;

      add (findings, "min_chain", "tie-down 1", FL_BY_HOUSE, FL_SHORT);
      add (findings, "min_wll_each", "tie-down 2", FL_BY_HOUSE, FL_UNKNOWN);
      add (findings, "ratchet_only", "tie-down 3", FL_BY_HOUSE, FL_CAUTION);
      assessment = assess (findings, cases[i].exceptions, cases[i].n);
      g_assert_cmpint (fl_assessment_house (assessment), ==, cases[i].expected);
      g_assert_true (fl_assessment_stands (assessment) == (cases[i].expected == FL_HOUSE_EXCEPTED));
    }
}

/* No exception lifts what the law asks. */
static void
test_law_is_not_excepted (void)
{
  static const FlReason exceptions[] = { { .rule = "aggregate_wll", .reason = "in a hurry" } };
  g_autoptr(FlFindings) findings = fl_findings_new ();
  g_autoptr(FlAssessment) assessment = NULL;

  add (findings, "aggregate_wll", "load R-03", FL_BY_LAW, FL_SHORT);
  assessment = assess (findings, exceptions, 1);
  g_assert_cmpint (fl_assessment_verdict (assessment), ==, FL_NOT_COMPLIANT);
  g_assert_false (fl_assessment_stands (assessment));
}

/* ── records ── */

static const char move_text[] =
  "{\"id\": \"2026-11-25/01\", \"date\": \"2026-11-25\", \"machine\": \"R-03\"}";
static const char chain_text[] =
  "{\"id\": \"C-3/8-20\", \"kept_at\": \"NORTH\", \"size_in\": \"3/8\", \"length_ft\": 20, \"count\": 6}";

static FlRecord *
record_of (FlKind kind, const char *text)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  FlRecord *record = fl_record_new (kind, text, -1, "", 1, problems);

  g_assert_nonnull (record);
  return record;
}

static void
test_find_record (void)
{
  g_autoptr(FlRecord) move = record_of (FL_KIND_MOVE, move_text), chain = record_of (FL_KIND_CHAIN, chain_text);
  const FlRecord *records[] = { move, chain };
  g_autoptr(FlPlan) plan = small_plan (NULL, 0);
  const FlAssessmentParts parts = { .plan = plan, .records = records, .n_records = 2 };
  g_autoptr(FlAssessment) assessment = fl_assessment_new (&parts), none = assess (NULL, NULL, 0);

  g_assert_true (fl_assessment_record (assessment, FL_KIND_CHAIN, "C-3/8-20") == chain);
  g_assert_true (fl_assessment_record (assessment, FL_KIND_CHAIN, "C-3/8-20 #3") == chain);
  g_assert_null (fl_assessment_record (assessment, FL_KIND_CHAIN, "C-3/8-2"));
  g_assert_null (fl_assessment_record (assessment, FL_KIND_BINDER, "C-3/8-20"));
  g_assert_cmpstr (fl_assessment_move (assessment)->id, ==, "2026-11-25/01");
  g_assert_null (fl_assessment_trailer (assessment));
  g_assert_null (fl_assessment_move (none));
}

/* ── deep copies ── */

static void
test_deep_copy (void)
{
  char axle[] = "coupling", point[] = "RL", solid[] = "drum", weakest[] = "chain C-041";
  FlVec path[] = { { 1, 2, 3 } };
  FlPlacedBox boxes[] = { { solid, { { 0, 0, 0 }, { 1, 1, 1 } } } };
  FlPlacedPoint points[] = { { point, point, { 4, 5, 6 } } };
  FlTieResult ties[] = { { .no = 1, .path = path, .n_path = 1, .limited_by = weakest } };
  FlLoadResult loads[] = { { .weakest = weakest, .contacts = boxes, .n_contacts = 1, .solids = boxes, .n_solids = 1,
                             .keep_clear = boxes, .n_keep_clear = 1, .points = points, .n_points = 1 } };
  FlAxleResult axles[] = { { .axle = axle } };
  g_autoptr(FlPlan) plan = small_plan (NULL, 0);
  const FlAssessmentParts parts = { .plan = plan, .ties = ties, .n_ties = 1, .loads = loads, .n_loads = 1, .axles = axles,
                                    .n_axles = 1 };
  FlAssessment *first = fl_assessment_new (&parts);
  g_autoptr(FlAssessment) assessment = fl_assessment_ref (first);
  const FlAssessmentParts *kept = fl_assessment_parts (assessment);

  fl_assessment_unref (first);
  axle[0] = point[0] = solid[0] = weakest[0] = 'X';
  path[0].x = boxes[0].box.max.x = points[0].at.x = 99.0;
  g_assert_cmpstr (kept->axles[0].axle, ==, "coupling");
  g_assert_cmpstr (kept->ties[0].limited_by, ==, "chain C-041");
  g_assert_cmpfloat (kept->ties[0].path[0].x, ==, 1.0);
  g_assert_cmpstr (kept->loads[0].weakest, ==, "chain C-041");
  g_assert_cmpstr (kept->loads[0].contacts[0].name, ==, "drum");
  g_assert_cmpfloat (kept->loads[0].solids[0].box.max.x, ==, 1.0);
  g_assert_cmpstr (kept->loads[0].keep_clear[0].name, ==, "drum");
  g_assert_cmpstr (kept->loads[0].points[0].id, ==, "RL");
  g_assert_cmpfloat (kept->loads[0].points[0].at.x, ==, 4.0);
  g_assert_true (fl_assessment_plan (assessment) == plan);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/assessment/ids", test_ids);
  g_test_add_func ("/assessment/findings-copy", test_findings_copy);
  g_test_add_func ("/assessment/order", test_order);
  g_test_add_func ("/assessment/worst", test_worst);
  g_test_add_func ("/assessment/verdict/one", test_verdict_of_one);
  g_test_add_func ("/assessment/verdict/many", test_verdict_of_many);
  g_test_add_func ("/assessment/house", test_house);
  g_test_add_func ("/assessment/law-is-not-excepted", test_law_is_not_excepted);
  g_test_add_func ("/assessment/find-record", test_find_record);
  g_test_add_func ("/assessment/deep-copy", test_deep_copy);
  return g_test_run ();
}
