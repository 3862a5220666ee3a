/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scene: a plan resolved, moved about and judged where it stands. Moved and moved back is as if it had never moved; moved is the same
 * as judged from a plan with that place; what the fleet does not know is an error that names it. */
#include "fl-test-judge.h"

#define INCH 0.0254

/* ── moving ── */

static char *
judged_text (const FlScene *scene)
{
  g_autoptr(FlAssessment) judged = fl_judge (scene);

  return result_text (judged);
}

static FlScene *
scene_of (Case *c)
{
  g_autoptr(GError) error = NULL;
  FlScene *scene;

  g_assert_true (case_read (c));
  scene = fl_scene_new (c->book, c->fleet, c->plan, &error);
  g_assert_no_error (error);
  return scene;
}

/* Places that are the plan's own to the last bit, and to within rounding. */
static void
test_there_and_back (void)
{
  static const double back[] = { 10 * INCH, 0.254, 0.3 - 0.046, 0.1 + 0.154 };

  for (guint i = 0; i < G_N_ELEMENTS (back); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autoptr(FlScene) scene = scene_of (c);
      g_autofree char *before = judged_text (scene), *away = NULL, *after = NULL;

      fl_scene_place (scene, 0, FL_FORWARD, 1.0);
      away = judged_text (scene);
      g_assert_cmpstr (away, !=, before);
      fl_scene_place (scene, 0, FL_REARWARD, back[i]);
      after = judged_text (scene);
      g_assert_cmpstr (after, ==, before);
    }
}

/* A place that was entered in feet stays in feet. */
static void
test_own_unit (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlScene) scene = NULL;
  g_autofree char *before = NULL, *away = NULL, *after = NULL;

  plan_drop (c, "loads[0].rear_in");
  plan_set (c, "loads[0].rear_ft", "1.1");
  scene = scene_of (c);
  before = judged_text (scene);
  g_assert_nonnull (strstr (before, "\"rear_ft\": 1.1"));
  fl_scene_place (scene, 0, FL_FORWARD, 2.0);
  away = judged_text (scene);
  g_assert_nonnull (strstr (away, "\"rear_in\": 78.740157"));
  fl_scene_place (scene, 0, FL_REARWARD, fl_quantity_in (fl_plan_choices (c->plan)->loads[0].rear, FL_UNIT_M));
  after = judged_text (scene);
  g_assert_cmpstr (after, ==, before);
}

/* Moved to a place, and judged from a plan that has it: the same bytes. */
static void
test_moved_is_planned (void)
{
  static const struct { FlFacing facing; const char *facing_json, *rear_json; double rear; } cases[] = {
    { FL_FORWARD, "'forward'", "0", 0 }, { FL_FORWARD, "'forward'", "24", 24 }, { FL_REARWARD, "'rearward'", "-60", -60 },
    { FL_REARWARD, "'rearward'", "33.5", 33.5 }, { FL_FORWARD, "'forward'", "100", 100 },
  };
  g_autoptr(Case) from = case_new ();
  g_autoptr(FlScene) scene = scene_of (from);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)      /* one scene, moved on and on */
    {
      g_autoptr(Case) c = case_new ();
      g_autofree char *moved = NULL, *planned = NULL;

      fl_scene_place (scene, 0, cases[i].facing, cases[i].rear * INCH);
      moved = judged_text (scene);
      plan_set (c, "loads[0].facing", cases[i].facing_json);
      plan_set (c, "loads[0].rear_in", cases[i].rear_json);
      judge (c);
      planned = result_text (c->judged);
      g_assert_cmpstr (moved, ==, planned);
    }
}

/* Of two loads only the one that moved gets a new place; one that has none yet keeps none. */
static void
test_two_loads (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlPlan) half = NULL;
  g_autoptr(FlScene) scene = NULL;
  g_autofree char *text = NULL;
  const FlPlanChoices *now;

  fleet_drop (c, "moves[0].machine");
  fleet_set (c, "moves[0].loads", "[{'machine': 'R-03'}, {'article': 'A-1'}]");
  plan_set (c, "loads[1]", "{'article': 'A-1', 'facing': 'forward', 'rear_ft': 18}");
  g_assert_true (case_read (c));
  scene = fl_scene_new (c->book, c->fleet, c->plan, NULL);
  fl_scene_place (scene, 0, FL_FORWARD, -20 * INCH);
  now = fl_plan_choices (fl_scene_plan (scene));
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (now->loads[0].rear, FL_UNIT_IN), -20, 1e-9);
  g_assert_cmpint (now->loads[1].rear.unit, ==, FL_UNIT_FT);
  g_assert_cmpfloat (now->loads[1].rear.value, ==, 18);
  fl_scene_free (g_steal_pointer (&scene));
  half = fl_plan_with_place (c->plan, 1, FL_FORWARD, FL_NOT_MEASURED);
  scene = fl_scene_new (c->book, c->fleet, half, NULL);
  fl_scene_place (scene, 0, FL_FORWARD, -20 * INCH);
  text = judged_text (scene);
  g_assert_null (strstr (text, "null"));
  g_assert_false (fl_quantity_known (fl_plan_choices (fl_scene_plan (scene))->loads[1].rear));
}

/* In a metric house a place is written in millimetres. */
static void
test_metric (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlScene) scene = NULL;
  g_autofree char *text = NULL;

  fleet_set (c, "units", "'metric'");
  scene = scene_of (c);
  fl_scene_place (scene, 0, FL_REARWARD, 0.5);
  text = judged_text (scene);
  g_assert_nonnull (strstr (text, "\"rear_mm\": 500"));
  g_assert_nonnull (strstr (text, "\"wll_kg\": 2994"));         /* 6,600 lb * 0.45359237 = 2993.7 */
  g_assert_nonnull (strstr (text, "\"height_mm\": 3937"));      /* 155 in */
}

/* The plan that was given stays as it is: a move makes a new one. */
static void
test_plan_untouched (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlScene) scene = scene_of (c);

  g_assert_true (fl_scene_plan (scene) == c->plan);
  fl_scene_place (scene, 0, FL_FORWARD, 1.0);
  g_assert_true (fl_scene_plan (scene) != c->plan);
  g_assert_cmpfloat (fl_plan_choices (c->plan)->loads[0].rear.value, ==, 10);
  g_assert_cmpint (fl_plan_choices (c->plan)->loads[0].facing, ==, FL_REARWARD);
  g_assert_true (fl_scene_book (scene) == c->book);
  g_assert_true (fl_scene_fleet (scene) == c->fleet);
}

/* A scene keeps what it needs: plan, fleet and book may go. */
static void
test_outlives (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlScene) scene = scene_of (c);
  g_autofree char *before = judged_text (scene), *after = NULL;
  g_autoptr(FlAssessment) judged = NULL;

  fl_scene_place (scene, 0, FL_FORWARD, 1.0);
  case_forget (c);
  judged = fl_judge (scene);
  fl_scene_place (scene, 0, FL_REARWARD, 10 * INCH);
  g_clear_pointer (&judged, fl_assessment_unref);
  judged = fl_judge (scene);
  g_clear_pointer (&scene, fl_scene_free);
  after = result_text (judged);         /* and the assessment outlives the scene */
  g_assert_cmpstr (after, ==, before);
  g_assert_cmpuint (fl_assessment_parts (judged)->n_walk_round, >, 0);
  for (gsize i = 0; i < fl_assessment_parts (judged)->n_walk_round; i++)
    g_assert_true (g_utf8_validate (fl_assessment_parts (judged)->walk_round[i].message, -1, NULL));
}

/* ── what the fleet does not know ── */

static void
test_not_there (void)
{
  static const struct { const char *path, *json; FlSceneError code; const char *names; } cases[] = {
    { "move", "'2026-11-25/99'", FL_SCENE_ERROR_NO_RECORD, "2026-11-25/99" },
    { "trailer", "'T-99'", FL_SCENE_ERROR_NO_RECORD, "T-99" },
    { "truck", "'K-99'", FL_SCENE_ERROR_NO_RECORD, "K-99" },
    { "loads[0].machine", "'R-99'", FL_SCENE_ERROR_NO_RECORD, "R-99" },
    { "loads[0].position", "'flying'", FL_SCENE_ERROR_NO_MEMBER, "flying" },
    { "tie_downs[0].machine_point", "'ZZ'", FL_SCENE_ERROR_NO_MEMBER, "ZZ" },
    { "tie_downs[0].anchors", "['P99L']", FL_SCENE_ERROR_NO_MEMBER, "P99L" },
    { "tie_downs[0].chain", "'C-99'", FL_SCENE_ERROR_NO_RECORD, "C-99" },
    { "tie_downs[0].chain", "'B-11'", FL_SCENE_ERROR_NO_RECORD, "B-11" },               /* it is a binder */
    { "tie_downs[0].chain", "'C-3/8-20'", FL_SCENE_ERROR_NO_RECORD, "C-3/8-20" },       /* which of the six? */
    { "tie_downs[0].chain", "'C-3/8-20 #7'", FL_SCENE_ERROR_NO_RECORD, "#7" },
    { "tie_downs[0].binder", "'B-99'", FL_SCENE_ERROR_NO_RECORD, "B-99" },
    { "tie_downs[0].connectors", "[{'id': 'SH-9', 'at': 'point'}]", FL_SCENE_ERROR_NO_RECORD, "SH-9" },
    { "tie_downs[4].purpose", "'implement:WING'", FL_SCENE_ERROR_NO_MEMBER, "WING" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autoptr(GError) error = NULL;
      g_autoptr(FlScene) scene = NULL;

      plan_set (c, cases[i].path, cases[i].json);
      g_assert_true (case_read (c));
      scene = fl_scene_new (c->book, c->fleet, c->plan, &error);
      g_assert_null (scene);
      g_assert_error (error, FL_SCENE_ERROR, (gint) cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].names));
      g_assert_null (strchr (error->message, '\n'));
      g_clear_error (&error);
      g_assert_null (fl_judge_plan (c->book, c->fleet, c->plan, &error));
      g_assert_error (error, FL_SCENE_ERROR, (gint) cases[i].code);
    }
}

static void
test_too_many (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlScene) scene = NULL;

  g_assert_true (case_read (c));
  while (fl_plan_choices (c->plan)->n_tie_downs < 33)
    {
      const FlPlanChoices *choices = fl_plan_choices (c->plan);
      FlPlan *next = fl_plan_with_tie_down (c->plan, choices->n_tie_downs, &choices->tie_downs[0]);

      fl_plan_unref (c->plan);
      c->plan = next;
    }
  scene = fl_scene_new (c->book, c->fleet, c->plan, &error);
  g_assert_null (scene);
  g_assert_error (error, FL_SCENE_ERROR, FL_SCENE_ERROR_TOO_MANY);
}

/* ── a rollback: all its axles, no coupling, no truck ── */

static void
test_rollback (void)
{
  g_autoptr(Case) c = case_new ();
  const FlAssessmentParts *parts;

  plan_drop (c, "truck");
  fleet_drop (c, "moves[0].truck");
  fleet_drop (c, "trailers[0].coupling");
  fleet_set (c, "trailers[0].axles[2]", "{'x_in': 366, 'tare_lb': 1500, 'rated_lb': 12000, 'steer': true, 'group': 2}");
  judge (c);
  parts = fl_assessment_parts (c->judged);
  g_assert_cmpuint (parts->n_axles, ==, 3);
  g_assert_cmpstr (parts->axles[0].axle, ==, "trailer 1");      /* from the front: what the coupling carried, its steer axle carries */
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (parts->axles[0].load, FL_UNIT_LB), 1500 + 22000 * 31.5 / 280.5, 0.01);
  g_assert_null (found (c, "coupling_share", NULL));
  g_assert_null (found (c, "coupling_kind", NULL));
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/there-and-back", test_there_and_back);
  g_test_add_func ("/scene/own-unit", test_own_unit);
  g_test_add_func ("/scene/moved-is-planned", test_moved_is_planned);
  g_test_add_func ("/scene/two-loads", test_two_loads);
  g_test_add_func ("/scene/metric", test_metric);
  g_test_add_func ("/scene/plan-untouched", test_plan_untouched);
  g_test_add_func ("/scene/outlives", test_outlives);
  g_test_add_func ("/scene/not-there", test_not_there);
  g_test_add_func ("/scene/too-many", test_too_many);
  g_test_add_func ("/scene/rollback", test_rollback);
  return test_done (g_test_run ());
}
