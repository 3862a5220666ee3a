/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One move, planned on the example fleet: what is returned stands, the same question has the same answer, what a person has fixed or set
 * aside is kept to, and where there is none it says why. */
#include "fl-test-plan.h"

static char *
best_text (const FlProposal *p)
{
  g_assert_nonnull (p->best);
  return result_text (p->best);
}

static const FlPlanChoices *
best_of (const FlProposal *p)
{
  g_assert_nonnull (p->best);
  return fl_plan_choices (fl_assessment_plan (p->best));
}

/* From the case's own plan: its pins and what it sets aside. (transfer full) */
static FlProposal *
plan_case (Case *c, const FlSearch *search)
{
  g_assert_true (case_read (c));
  return plan_from (c, c->plan, search);
}

/* ── an answer ── */

static void
test_stands (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  const FlPlanChoices *best;

  g_assert_true (case_read (c));
  p = plan_anew (c, NULL);
  assert_stands (c, p);
  best = best_of (p);
  g_assert_cmpint (p->state, ==, FL_RUN_DONE);
  g_assert_cmpint (p->quality, ==, FL_BEST_FOUND);
  g_assert_cmpstr (p->move, ==, "2026-11-25/01");
  g_assert_cmpstr (p->trailer, ==, "T-3");
  g_assert_cmpstr (p->truck, ==, "K-2");
  g_assert_cmpuint (own_ties (best), ==, 4);
  g_assert_cmpuint (best->n_tie_downs, ==, 5);
  g_assert_cmpuint (p->n_because, ==, 0);
  for (gsize i = 0; i < best->n_tie_downs; i++)
    g_assert_cmpuint (best->tie_downs[i].no, ==, i + 1);
}

/* At least as good as the plan that came with the example. */
static void
test_as_good (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  FlScore example;

  judge (c);
  example = fl_score_of (c->judged, c->book);
  p = plan_anew (c, NULL);
  g_assert_cmpint (fl_score_compare (&p->score, &example), <=, 0);
}

static void
test_same_answer (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) first = NULL;
  g_autoptr(FlProposal) second = NULL;
  g_autofree char *a = NULL, *b = NULL;

  g_assert_true (case_read (c));
  first = plan_anew (c, NULL);
  second = plan_anew (c, NULL);
  a = best_text (first);
  b = best_text (second);
  g_assert_cmpstr (a, ==, b);
}

/* The places it looks at are multiples of 3 in. */
static void
test_grid (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  double rear;

  g_assert_true (case_read (c));
  p = plan_anew (c, NULL);
  rear = fl_quantity_in (best_of (p)->loads[0].rear, FL_UNIT_IN);
  g_assert_cmpfloat_with_epsilon (rear, 3 * round (rear / 3), 1e-6);
}

/* ── pins ── */

static void
test_pinned_place (void)
{
  static const struct { const char *rear, *facing; double at; } cases[] = { { "10", "'rearward'", 10 }, { "17.5", "'rearward'", 17.5 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autoptr(FlProposal) p = NULL;

      plan_set (c, "loads[0].rear_in", cases[i].rear);
      plan_set (c, "loads[0].facing", cases[i].facing);
      plan_set (c, "loads[0].pinned", "['rear', 'facing']");
      p = plan_case (c, NULL);
      assert_stands (c, p);
      g_assert_cmpfloat (fl_quantity_in (best_of (p)->loads[0].rear, FL_UNIT_IN), ==, cases[i].at);
      g_assert_cmpint (best_of (p)->loads[0].facing, ==, FL_REARWARD);
      g_assert_cmpuint (best_of (p)->loads[0].pinned, ==, FL_PIN_REAR | FL_PIN_FACING);
    }
}

static void
test_pinned_facing (void)
{
  static const struct { const char *json; FlFacing facing; } cases[] = { { "'rearward'", FL_REARWARD }, { "'forward'", FL_FORWARD } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autoptr(FlProposal) pinned = NULL;
      g_autoptr(FlProposal) machine = NULL;
      g_autofree char *may = g_strdup_printf ("[%s]", cases[i].json);

      plan_set (c, "loads[0].facing", cases[i].json);
      plan_set (c, "loads[0].pinned", "['facing']");
      pinned = plan_case (c, NULL);
      assert_stands (c, pinned);
      g_assert_cmpint (best_of (pinned)->loads[0].facing, ==, cases[i].facing);
      plan_drop (c, "loads[0].pinned");
      fleet_set (c, "machines[0].facings", may);        /* the machine itself forbids the other */
      machine = plan_case (c, NULL);
      assert_stands (c, machine);
      g_assert_cmpint (best_of (machine)->loads[0].facing, ==, cases[i].facing);
    }
}

static void
test_pinned_tie_down (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  const FlTieDown *t = NULL;

  plan_set (c, "loads[0].pinned", "['rear', 'facing']");
  plan_set (c, "tie_downs[1].pinned", "['machine_point', 'anchors', 'chain', 'binder']");
  plan_set (c, "tie_downs[1].anchors", "['P12L']");     /* not what the search would take: 54 in along */
  p = plan_case (c, NULL);
  assert_stands (c, p);
  for (gsize i = 0; i < best_of (p)->n_tie_downs; i++)
    if (best_of (p)->tie_downs[i].pinned != 0)
      t = &best_of (p)->tie_downs[i];
  g_assert_nonnull (t);
  g_assert_cmpuint (t->no, ==, 2);
  g_assert_cmpstr (t->point, ==, "RR");
  g_assert_cmpstr (t->anchors[0], ==, "P12L");
  g_assert_cmpstr (t->chain, ==, "C-042");
  g_assert_cmpstr (t->binder, ==, "B-12");
  g_assert_cmpuint (t->pinned, ==, FL_PIN_POINT | FL_PIN_ANCHORS | FL_PIN_CHAIN | FL_PIN_BINDER);
}

/* A pinned place without gear gets some. */
static void
test_pinned_bare (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  const FlTieDown *t;

  plan_set (c, "loads[0].pinned", "['rear', 'facing']");
  plan_set (c, "tie_downs", "[{'no': 7, 'load': 0, 'purpose': 'machine', 'kind': 'direct', 'machine_point': 'RL', 'anchors': ['P11R'], "
                            "'pinned': ['machine_point', 'anchors']}]");
  p = plan_case (c, NULL);
  assert_stands (c, p);
  for (t = best_of (p)->tie_downs; t->pinned == 0; t++)
    ;
  g_assert_cmpuint (t->no, ==, 7);
  g_assert_cmpstr (t->anchors[0], ==, "P11R");
  g_assert_nonnull (t->chain);
  g_assert_nonnull (t->binder);
}

/* What is not pinned is chosen anew: a useless tie-down does not stay. */
static void
test_unpinned (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  g_autoptr(FlProposal) anew = NULL;
  g_autofree char *a = NULL, *b = NULL;

  plan_set (c, "tie_downs", "[{'no': 1, 'load': 0, 'purpose': 'machine', 'kind': 'direct', 'machine_point': 'RL', 'anchors': ['P1L'], "
                            "'chain': 'C-3/8-20 #1'}]");
  p = plan_case (c, NULL);
  assert_stands (c, p);
  anew = plan_anew (c, NULL);
  a = best_text (p);
  b = best_text (anew);
  g_assert_cmpstr (a, ==, b);
}

/* A pin that cannot stand: none, and the cure says that it is the pin. */
static void
test_pin_in_the_way (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  gboolean said = FALSE;

  plan_set (c, "loads[0].rear_in", "-60");              /* its drum on the tail */
  plan_set (c, "loads[0].pinned", "['rear', 'facing']");
  p = plan_case (c, &(FlSearch) { 0, TRUE, NULL });
  assert_none (p);
  g_assert_cmpint (p->quality, ==, FL_NONE_FOUND);
  for (gsize i = 0; i < p->n_cures; i++)
    said = said || strstr (p->cures[i].message, "pinned") != NULL;
  g_assert_true (said);
}

/* ── set aside, taken ── */

static void
test_aside_gear (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;

  plan_set (c, "set_aside", "{'gear': ['C-041', 'C-3/8-20 #1', 'SH-01 #1']}");
  p = plan_case (c, NULL);
  assert_stands (c, p);         /* the blade's chain may be an unmarked one */
  g_assert_false (uses (best_of (p), "C-041"));
  g_assert_false (uses (best_of (p), "C-3/8-20 #1"));
}

static void
test_taken_gear (void)
{
  static const char *const taken[] = { "C-042", "C-3/8-20 #1", "C-3/8-20 #2", NULL };
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = plan_case (c, &(FlSearch) { 0, FALSE, taken });

  assert_stands (c, p);
  for (guint i = 0; taken[i] != NULL; i++)
    g_assert_false (uses (best_of (p), taken[i]));
}

static void
test_aside_places (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) before = plan_case (c, NULL);
  g_autoptr(FlProposal) p = NULL;
  g_autofree char *anchor = g_strdup (best_of (before)->tie_downs[0].anchors[0]), *json = NULL;
  const char *point = hooks_to (best_of (before), "BL") ? "BL" : "BR";

  json = g_strdup_printf ("{'anchors': ['%s'], 'points': [{'load': 0, 'point': '%s'}]}", anchor, point);
  plan_set (c, "set_aside", json);
  p = plan_case (c, NULL);
  assert_stands (c, p);
  g_assert_false (hooks_to (best_of (p), anchor));
  g_assert_false (hooks_to (best_of (p), point));
  g_assert_cmpstr (best_of (p)->aside_anchors[0], ==, anchor);  /* it stays said */
}

/* ── none ── */

/* Five tie-downs and four binders. */
static void
test_no_binder (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;

  fleet_drop (c, "binders[4]");
  p = plan_case (c, NULL);
  assert_none (p);
  g_assert_nonnull (p->nearest);        /* what comes nearest, judged, to show what is missing */
  g_assert_false (fl_assessment_stands (p->nearest));
  g_assert_cmpuint (p->n_cures, ==, 0); /* nobody asked for any */
}

static void
test_no_gear_no_points (void)
{
  static const char *const gone[] = { "chains", "binders", "machines[0].tie_points", "trailers[0].anchor_rows" };

  for (guint i = 0; i < G_N_ELEMENTS (gone); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autoptr(FlProposal) p = NULL;

      plan_set (c, "tie_downs", "[]");
      fleet_set (c, gone[i], "[]");
      if (i == 2)
        fleet_drop (c, "machines[0].implements");
      p = plan_case (c, NULL);
      assert_none (p);
    }
}

/* Too heavy for the trailer wherever it stands: the plates say so. */
static void
test_too_heavy (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  gboolean said = FALSE;

  fleet_set (c, "machines[0].weight_lb", "60000");
  p = plan_case (c, NULL);
  assert_none (p);
  for (gsize i = 0; i < p->n_because; i++)
    {
      g_autofree char *text = message_text (p->because[i].message, p->because[i].facts, p->because[i].n_facts);

      said = said || strstr (text, "39,800 lb") != NULL;
    }
  g_assert_true (said);
}

/* A lower position is taken where the machine as it stands is over the limit: 35 + 120 in of 150, folded 133. */
static void
test_position (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  g_autoptr(FlProposal) pinned = NULL;

  fleet_set (c, "moves[0].height_limit_in", "150");
  p = plan_case (c, NULL);
  assert_stands (c, p);
  g_assert_cmpstr (best_of (p)->loads[0].position, ==, "folded");
  plan_set (c, "loads[0].pinned", "['position']");      /* a person says that it stays up */
  pinned = plan_case (c, NULL);
  assert_none (pinned);
}

/* ── how it ends ── */

static void
test_cancel (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(GCancellable) cancel = g_cancellable_new ();
  g_autoptr(FlProposal) p = NULL;
  g_autoptr(GError) error = NULL;
  FlHost host = { .cancel = cancel };

  g_assert_true (case_read (c));
  g_cancellable_cancel (cancel);
  p = fl_plan_move (c->book, c->fleet, c->plan, NULL, &host, &error);
  g_assert_no_error (error);
  g_assert_cmpint (p->state, ==, FL_RUN_CANCELLED);
  g_assert_null (p->best);
}

/* Little work: it ends, and what it returns stands all the same. */
static void
test_work (void)
{
  for (guint64 work = 1; work < 2000; work *= 7)
    {
      g_autoptr(Case) c = case_new ();
      g_autoptr(FlProposal) p = plan_case (c, &(FlSearch) { work, FALSE, NULL });

      if (p->best != NULL)
        assert_stands (c, p);
      else
        {
          assert_none (p);
          g_assert_cmpint (p->state, ==, FL_RUN_OUT_OF_WORK);
        }
    }
}

static void
test_errors (void)
{
  static const struct { const char *path, *json; FlPlannerError code; const char *names; } cases[] = {
    { "move", "'2026-11-25/99'", FL_PLANNER_ERROR_NO_RECORD, "2026-11-25/99" }, { "trailer", "'T-99'", FL_PLANNER_ERROR_NO_RECORD, "T-99" },
    { "loads[0].machine", "'R-99'", FL_PLANNER_ERROR_NO_RECORD, "R-99" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autoptr(GError) error = NULL;

      plan_set (c, cases[i].path, cases[i].json);
      g_assert_true (case_read (c));
      g_assert_null (fl_plan_move (c->book, c->fleet, c->plan, NULL, NULL, &error));
      g_assert_error (error, FL_PLANNER_ERROR, (gint) cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].names));
      g_assert_null (strchr (error->message, '\n'));
    }
}

/* A start without a load or a trailer, as only a program can make it. */
static void
test_bad_start (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlPlan) empty = NULL;
  g_autoptr(FlPlan) nowhere = NULL;
  g_autoptr(GError) error = NULL;

  g_assert_true (case_read (c));
  empty = fl_plan_new (&(FlPlanChoices) { .move = "2026-11-25/01", .trailer = "T-3" });
  g_assert_null (fl_plan_move (c->book, c->fleet, empty, NULL, NULL, &error));
  g_assert_error (error, FL_PLANNER_ERROR, FL_PLANNER_ERROR_BAD_START);
  g_clear_error (&error);
  nowhere = fl_plan_with_trailer (c->plan, NULL, NULL);
  g_assert_null (fl_plan_move (c->book, c->fleet, nowhere, NULL, NULL, &error));
  g_assert_error (error, FL_PLANNER_ERROR, FL_PLANNER_ERROR_BAD_START);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/move/stands", test_stands);
  g_test_add_func ("/move/as-good", test_as_good);
  g_test_add_func ("/move/same-answer", test_same_answer);
  g_test_add_func ("/move/grid", test_grid);
  g_test_add_func ("/move/pins/place", test_pinned_place);
  g_test_add_func ("/move/pins/facing", test_pinned_facing);
  g_test_add_func ("/move/pins/tie-down", test_pinned_tie_down);
  g_test_add_func ("/move/pins/bare", test_pinned_bare);
  g_test_add_func ("/move/pins/unpinned", test_unpinned);
  g_test_add_func ("/move/pins/in-the-way", test_pin_in_the_way);
  g_test_add_func ("/move/aside/gear", test_aside_gear);
  g_test_add_func ("/move/aside/taken", test_taken_gear);
  g_test_add_func ("/move/aside/places", test_aside_places);
  g_test_add_func ("/move/none/binder", test_no_binder);
  g_test_add_func ("/move/none/nothing-there", test_no_gear_no_points);
  g_test_add_func ("/move/none/too-heavy", test_too_heavy);
  g_test_add_func ("/move/position", test_position);
  g_test_add_func ("/move/ends/cancel", test_cancel);
  g_test_add_func ("/move/ends/work", test_work);
  g_test_add_func ("/move/ends/errors", test_errors);
  g_test_add_func ("/move/ends/bad-start", test_bad_start);
  return test_done (g_test_run ());
}
