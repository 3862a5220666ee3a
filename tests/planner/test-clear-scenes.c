/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions of force and of placement in scenes made for it, where it is known which gear clears them: no more chains and no stronger ones
 * are taken than that, and where nothing clears them the plain best stays. Demands: 393.102(a), at the working level. The weights at which four
 * chains do and do not hold were found with the force answers, which have oracles of their own. */
#include "fl-test-plan.h"

/* ── scenes ── */

/* One dozer on one rollback, both symmetric. `points` and `anchors`: how many pairs of each; pinned: its place is given. */
typedef struct { guint weight, points, anchors, weak, strong; gboolean pinned; } Scene;

static char *
points_json (guint pairs)
{
  static const double x[] = { 4, 116, 60 };
  GString *text = g_string_new ("[");

  for (guint i = 0; i < pairs; i++)
    for (guint side = 0; side < 2; side++)
      g_string_append_printf (text, "%s{'id': 'P%u%c', 'x_in': %.0f, 'y_in': %s, 'z_in': 28, 'opening_in': 4, 'bar_in': 1, 'maker_provided': true, "
                              "'takes': 1}", i + side > 0 ? ", " : "", i, side == 0 ? 'L' : 'R', x[i], side == 0 ? "20" : "-20");
  g_string_append (text, "]");
  return g_string_free (text, FALSE);
}

/* The first two pairs behind and before the machine, the third between them, further ones beyond. */
static char *
anchors_json (guint pairs)
{
  static const double x[] = { 10, 190, 64, 136, 28, 172 };
  GString *text = g_string_new ("[");

  for (guint i = 0; i < pairs; i++)
    for (guint side = 0; side < 2; side++)
      g_string_append_printf (text, "%s{'id': 'A%u%c', 'x_in': %.0f, 'y_in': %s, 'z_in': 0, 'opening_in': 4, 'bar_in': 1, 'rated_wll_lb': 20000}",
                              i + side > 0 ? ", " : "", i, side == 0 ? 'L' : 'R', x[i], side == 0 ? "47" : "-47");
  g_string_append (text, "]");
  return g_string_free (text, FALSE);
}

static Case *
case_of (const Scene *s)
{
  Case *c = case_new ();
  g_autofree char *points = points_json (s->points), *anchors = anchors_json (s->anchors), *fleet = NULL;

  fleet = g_strdup_printf (
    "{'format': 'fairlead-fleet/1', 'name': 'Small', 'yards': [{'id': 'Y'}], "
    "'machines': [{'id': 'M', 'kind': 'dozer', 'weight_lb': %u, 'length_in': 120, 'width_in': 72, 'height_in': 90, 'running_gear': 'steel_tracks', "
    "'contacts': [{'x_in': 60, 'y_in': 26, 'length_in': 90, 'width_in': 16}, {'x_in': 60, 'y_in': -26, 'length_in': 90, 'width_in': 16}], "
    "'center_of_gravity': {'x_in': 60, 'y_in': 0, 'z_in': 30}, 'basis': {'weight': 'scale'}, 'facings': ['forward'], 'tie_points': %s}], "
    "'trailers': [{'id': 'T', 'yard': 'Y', 'kind': 'rollback', 'deck': {'length_in': 200, 'width_in': 102, 'height_in': 40, 'surface': 'wood'}, "
    "'tare_lb': 20000, 'gvwr_lb': 90000, 'capacity_lb': 60000, 'axles': [{'x_in': 40, 'tare_lb': 8000, 'rated_lb': 60000}, "
    "{'x_in': 260, 'tare_lb': 12000, 'rated_lb': 60000}], 'anchors': %s}], "
    "'chains': [{'id': 'C', 'kept_at': 'T', 'size_in': '3/8', 'mark': '70', 'length_ft': 16, 'hook': 'grab', 'hook_needs_in': 2, 'count': %u}, "
    "{'id': 'D', 'kept_at': 'T', 'size_in': '1/2', 'mark': '70', 'length_ft': 16, 'hook': 'grab', 'hook_needs_in': 2, 'count': %u}], "
    "'binders': [{'id': 'B', 'kept_at': 'T', 'kind': 'lever', 'wll_lb': 6600, 'chain_sizes': ['3/8'], 'take_up_in': 4, 'needs_run_in': 20, 'count': %u}, "
    "{'id': 'E', 'kept_at': 'T', 'kind': 'lever', 'wll_lb': 11300, 'chain_sizes': ['1/2'], 'take_up_in': 4, 'needs_run_in': 20, 'count': %u}], "
    "'moves': [{'id': 'V', 'date': '2026-01-05', 'machine': 'M', 'trailer': 'T', 'from': 'Y', 'height_limit_in': 162, 'deck_state': 'frost'}]}",
    s->weight, points, anchors, s->weak, s->strong, s->weak, s->strong);
  json_node_unref (c->fleet_json);
  c->fleet_json = tree_of (fleet);
  json_node_unref (c->plan_json);
  c->plan_json = tree_of ("{'format': 'fairlead-plan/1', 'fleet': 'Small', 'move': 'V', 'trailer': 'T', 'loads': [{'machine': 'M', 'facing': 'forward', "
                          "'rear_in': 40}], 'tie_downs': []}");
  if (s->pinned)
    plan_set (c, "loads[0].pinned", "['rear', 'facing']");
  g_assert_true (case_read (c));
  return c;
}

static gboolean
cautioned (const FlProposal *p, const char *rule)
{
  Case c = { .judged = p->best };

  return count_of (&c, rule, FL_CAUTION) > 0;
}

/* The strong chains in use. */
static guint
strong (const FlProposal *p)
{
  const FlPlanChoices *c = fl_plan_choices (fl_assessment_plan (p->best));
  guint n = 0;

  for (gsize i = 0; i < c->n_tie_downs; i++)
    n += c->tie_downs[i].chain != NULL && c->tie_downs[i].chain[0] == 'D';
  return n;
}

static FlProposal *
plan_scene (const Scene *s, Case **c)
{
  FlProposal *p;

  *c = case_of (s);
  p = plan_from (*c, (*c)->plan, NULL);
  assert_stands (*c, p);
  g_test_message ("%u lb, %u and %u pairs: %d cautions, %u tie-downs, %u strong chains", s->weight, s->points, s->anchors, p->score.cautions,
                  own_ties (fl_plan_choices (fl_assessment_plan (p->best))), strong (p));
  return p;
}

/* Both force answers of every case, read from what the assessment keeps: the lesser of the upper bound and of load sharing against what 393.102(a)
 * asks at the working level, with the deck's friction. */
static gboolean
holds_all_cases (const FlAssessment *judged)
{
  static const struct { const char *id; double demand; } asked[] = { { "forward", 0.435 }, { "rearward", 0.5 }, { "left", 0.25 }, { "right", 0.25 } };
  const FlAssessmentParts *parts = fl_assessment_parts (judged);
  guint looked = 0;
  gboolean holds = TRUE;

  for (guint k = 0; k < G_N_ELEMENTS (asked); k++)
    for (gsize i = 0; i < parts->n_forces; i++)
      {
        const FlForceResult *f = &parts->forces[i];

        if (strcmp (f->case_id, asked[k].id) != 0 || strcmp (f->level, "working") != 0 || strcmp (f->friction, "none") == 0
            || strcmp (f->method, "component_sum") == 0)
          continue;
        looked++;
        holds = holds && fl_quantity_known (f->capacity) && f->capacity.value >= asked[k].demand - 1e-9;
      }
  g_assert_cmpuint (looked, ==, 2 * G_N_ELEMENTS (asked));
  return holds;
}

static guint
ties_of (const FlProposal *p)
{
  return own_ties (fl_plan_choices (fl_assessment_plan (p->best)));
}

/* ── force ── */

/* 26,000 lb on steel tracks and frost: four chains of 6,600 lb meet the half of its weight, and do not hold it. One stronger chain is on hand, and
 * would not clear it either: it is not taken in vain. */
static void
test_stays_plain (void)
{
  g_autoptr(Case) c = NULL;
  g_autoptr(FlProposal) p = plan_scene (&(Scene) { 26000, 2, 6, 8, 1, TRUE }, &c);

  g_assert_true (cautioned (p, "force"));
  g_assert_false (holds_all_cases (p->best));
  g_assert_cmpint (p->score.cautions, ==, 1);
  g_assert_cmpuint (ties_of (p), ==, 4);
  g_assert_cmpuint (strong (p), ==, 0);
}

/* A third couple clears it. */
static void
test_more_chains (void)
{
  g_autoptr(Case) c = NULL;
  g_autoptr(FlProposal) p = plan_scene (&(Scene) { 26000, 3, 6, 8, 1, TRUE }, &c);
  g_autoptr(Case) fewer = NULL;
  g_autoptr(FlProposal) q = NULL;

  g_assert_false (cautioned (p, "force"));
  g_assert_true (holds_all_cases (p->best));
  g_assert_cmpint (p->score.cautions, ==, 0);
  g_assert_cmpuint (ties_of (p), ==, 6);
  fewer = case_of (&(Scene) { 26000, 3, 6, 4, 1, TRUE });      /* five in all: not by them */
  q = plan_from (fewer, fewer->plan, NULL);
  assert_stands (fewer, q);
  g_assert_true (cautioned (q, "force"));
  g_assert_cmpuint (ties_of (q), ==, 4);
}

/* Stronger chains on two of four clear it; more than that are not taken, and fewer tie-downs come before keeping the strong ones. */
static void
test_stronger_chains (void)
{
  for (guint points = 2; points <= 3; points++)
    {
      g_autoptr(Case) c = NULL;
      g_autoptr(FlProposal) p = plan_scene (&(Scene) { 26000, points, 6, 8, 6, TRUE }, &c);

      g_assert_false (cautioned (p, "force"));
      g_assert_true (holds_all_cases (p->best));
      g_assert_cmpuint (ties_of (p), ==, 4);
      g_assert_cmpuint (strong (p), ==, 2);
    }
}

/* What holds as it is gets nothing more. */
static void
test_light (void)
{
  g_autoptr(Case) c = NULL;
  g_autoptr(FlProposal) p = plan_scene (&(Scene) { 20000, 3, 6, 8, 6, TRUE }, &c);

  g_assert_true (holds_all_cases (p->best));
  g_assert_cmpuint (ties_of (p), ==, 4);
  g_assert_cmpuint (strong (p), ==, 0);
}

/* Free to choose its place, it clears what it clears at a given one, with no more tie-downs. */
static void
test_free_place (void)
{
  g_autoptr(Case) c = NULL;
  g_autoptr(FlProposal) p = plan_scene (&(Scene) { 26000, 3, 6, 8, 6, FALSE }, &c);

  g_assert_true (holds_all_cases (p->best));
  g_assert_cmpint (p->score.cautions, ==, 0);
  g_assert_cmpuint (ties_of (p), ==, 4);
  g_assert_cmpuint (strong (p), <=, 2);
}

/* ── placement ── */

/* Chains of 7.8 ft are long enough at the given place (runs of 52 in, two feet for the hooks, tail and take-up) and not a few inches off (57 in): with
 * longer ones on hand those are taken, though they are stronger. */
static void
test_placement (void)
{
  static const struct { const char *feet; gboolean cautioned; } cases[] = { { "16", FALSE }, { "7.8", TRUE } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_of (&(Scene) { 16000, 2, 2, 8, 4, TRUE });
      g_autoptr(FlProposal) p = NULL;

      fleet_set (c, "chains[0].length_ft", "7.8");
      fleet_set (c, "chains[1].length_ft", cases[i].feet);
      g_assert_true (case_read (c));
      p = plan_from (c, c->plan, NULL);
      assert_stands (c, p);
      g_test_message ("other chains of %s ft: %d cautions, %u strong", cases[i].feet, p->score.cautions, strong (p));
      g_assert_true (cautioned (p, "placement") == cases[i].cautioned);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/clear-scenes/force/stays-plain", test_stays_plain);
  g_test_add_func ("/clear-scenes/force/more-chains", test_more_chains);
  g_test_add_func ("/clear-scenes/force/stronger-chains", test_stronger_chains);
  g_test_add_func ("/clear-scenes/force/light", test_light);
  g_test_add_func ("/clear-scenes/force/free-place", test_free_place);
  g_test_add_func ("/clear-scenes/placement", test_placement);
  return test_done (g_test_run ());
}
