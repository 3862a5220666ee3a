/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nearest cure against a search that tries every inch of the deck: random weights, places, ratings and trucks; the load is really moved, weighed
 * and looked at in each place. What is found is the first place that cures, and where nothing is found no place does. */
#include "fl-test-judge.h"
#include "fl-vehicle.h"

enum { RANDOM = 240, MAX_OVERS = 700, REACH = 330 };

/* By how much each limit is exceeded, in the order in which they are asked; 0: within. */
typedef struct { double over[MAX_OVERS]; gboolean wanted[MAX_OVERS]; guint n; } Overs;

static void
ask (Overs *o, gboolean wanted, double over)
{
  g_assert_cmpuint (o->n, <, MAX_OVERS);
  o->wanted[o->n] = wanted;
  o->over[o->n++] = isnan (over) || over < 1e-6 ? 0.0 : over;
}

static void
ask_axles (Overs *o, FlCure cure, FlCure mine, gsize index, const FlAxle *axles, gsize n, const double *loads)
{
  for (gsize i = 0; i < n; i++)
    {
      ask (o, cure == mine && index == i, loads[i] - fl_quantity_in (axles[i].rated, FL_UNIT_LB));
      ask (o, cure == mine && index == i, -loads[i]);
    }
}

static void
ask_groups (Overs *o, FlCure cure, const FlScene *scene)
{
  FlCombination all;

  g_assert_true (fl_scene_combination (scene, &all));
  for (guint first = 0; first < all.n; first++)
    for (guint n = 1; first + n <= all.n; n++)
      {
        FlLegalLimit limit = fl_legal_limit (fl_book_data (scene->book), &all.x[first], n);
        double load = 0.0;

        for (guint i = first; i < first + n; i++)
          load += fl_combination_load (&all, &scene->axles, i);
        ask (o, cure == (limit.kind <= FL_LEGAL_TANDEM ? FL_CURE_AXLE_LEGAL : FL_CURE_BRIDGE), load - limit.limit);
      }
}

static Overs
overs_of (const FlScene *scene, FlCure cure, gsize index)
{
  const FlSceneAxles *a = &scene->axles;
  double percent = a->trailer_gross / 100, lo, hi, wheels = a->truck[0] + a->truck[1] + a->truck[2];
  Overs o = { .n = 0 };

  fl_book_band (scene->book, scene->trailer, &lo, &hi);
  ask_axles (&o, cure, FL_CURE_TRAILER_AXLE, index, scene->trailer->axles, scene->trailer->n_axles, a->trailer);
  ask_axles (&o, cure, FL_CURE_TRUCK_AXLE, index, scene->truck->axles, scene->truck->n_axles, a->truck);
  ask (&o, cure == FL_CURE_COUPLING, a->coupling - fl_quantity_in (scene->truck->coupling.rated_vertical, FL_UNIT_LB));
  ask (&o, cure == FL_CURE_SHARE, 5 * percent - a->coupling);
  ask (&o, cure == FL_CURE_BAND, lo * percent - a->coupling);
  ask (&o, cure == FL_CURE_BAND, a->coupling - hi * percent);
  ask (&o, cure == FL_CURE_STEER, 0.20 * wheels - a->truck[0]);
  ask_groups (&o, cure, scene);
  return o;
}

static gboolean
cures (const Overs *now, const Overs *then)
{
  for (guint i = 0; i < now->n; i++)
    if (then->wanted[i] ? then->over[i] > 0.0 : then->over[i] > now->over[i] + 1e-5)
      return FALSE;
  return TRUE;
}

/* The first place that cures, in inches, forward positive; 0: none. Of two alike the forward one, which may be either. */
static gint
search (FlScene *scene, FlCure cure, gsize index)
{
  double rear = scene->loads[0].rear;
  FlFacing facing = scene->loads[0].facing;
  Overs now = overs_of (scene, cure, index);
  gint found = 0;

  for (gint step = 1; step <= REACH && found == 0; step++)
    for (gint sign = 1; sign >= -1 && found == 0; sign -= 2)
      {
        Overs then;

        fl_scene_place (scene, 0, facing, rear + sign * step * 0.0254);
        then = overs_of (scene, cure, index);
        if (fl_stands_well (scene, 0, &scene->loads[0].stand) && cures (&now, &then))
          found = sign * step;
      }
  fl_scene_place (scene, 0, facing, rear);
  return found;
}

static void
set_number (Case *c, const char *path, double value)
{
  g_autofree char *text = g_strdup_printf ("%d", (int) value);

  fleet_set (c, path, text);
}

static Case *
random_case (GRand *rand)
{
  Case *c = case_new ();
  g_autofree char *rear = g_strdup_printf ("%d", g_rand_int_range (rand, -60, 80));

  set_number (c, "machines[0].weight_lb", g_rand_double_range (rand, 12000, 55000));
  set_number (c, "machines[0].center_of_gravity.x_in", g_rand_double_range (rand, 70, 175));
  set_number (c, "trailers[0].axles[0].rated_lb", g_rand_double_range (rand, 11000, 26000));
  set_number (c, "trailers[0].coupling.tare_lb", g_rand_double_range (rand, 500, 6000));
  set_number (c, "trucks[0].coupling.rated_vertical_lb", g_rand_double_range (rand, 2000, 9000));
  set_number (c, "trucks[0].axles[0].tare_lb", g_rand_double_range (rand, 4000, 12000));
  if (g_rand_boolean (rand))
    {
      set_number (c, "trucks[0].coupling.x_in", g_rand_double_range (rand, 0, 50));
      fleet_drop (c, "trailers[0].coupling.share_pct");
    }
  if (g_rand_boolean (rand))
    set_number (c, "trailers[0].axles[1].x_in", g_rand_double_range (rand, -10, 70));
  fleet_drop (c, "trailers[0].deck.zones");
  plan_set (c, "loads[0].rear_in", rear);
  return c;
}

static void
test_search (void)
{
  static const struct { FlCure cure; gsize index; } wanted[] = {
    { FL_CURE_TRAILER_AXLE, 0 }, { FL_CURE_TRUCK_AXLE, 0 }, { FL_CURE_TRUCK_AXLE, 1 }, { FL_CURE_COUPLING, 0 }, { FL_CURE_SHARE, 0 },
    { FL_CURE_BAND, 0 }, { FL_CURE_STEER, 0 }, { FL_CURE_AXLE_LEGAL, 0 }, { FL_CURE_BRIDGE, 0 },
  };
  g_autoptr(GRand) rand = g_rand_new_with_seed (20261);
  guint cured = 0, hopeless = 0;

  for (guint i = 0; i < RANDOM; i++)
    {
      g_autoptr(Case) c = random_case (rand);
      g_autoptr(FlScene) scene = NULL;

      g_assert_true (case_read (c));
      scene = fl_scene_new (c->book, c->fleet, c->plan, NULL);
      g_assert_nonnull (scene);
      scene->depth = FL_JUDGE_SETTLED;          /* the cure is looked for at rest only */
      scene->depth = FL_JUDGE_SETTLED;
      for (guint k = 0; k < G_N_ELEMENTS (wanted); k++)
        {
          Overs now = overs_of (scene, wanted[k].cure, wanted[k].index);
          FlNearest nearest;
          gboolean over = FALSE;
          gint found;

          for (guint j = 0; j < now.n; j++)
            over = over || (now.wanted[j] && now.over[j] > 0.0);
          if (!over)
            continue;
          nearest = fl_nearest_cure (scene, wanted[k].cure, wanted[k].index);
          found = search (scene, wanted[k].cure, wanted[k].index);
          g_test_message ("case %u, cure %u: found %d, said %g %s", i, wanted[k].cure, found, nearest.found ? nearest.distance.value : 0.0,
                          nearest.forward ? "forward" : "back");
          g_assert_true (nearest.found == (found != 0));
          if (!nearest.found)
            {
              hopeless++;
              continue;
            }
          cured++;
          g_assert_cmpfloat (fl_quantity_in (nearest.distance, FL_UNIT_IN), ==, ABS (found));
          g_assert_true (nearest.forward == (found > 0));
          g_assert_cmpuint (nearest.load, ==, 0);
        }
    }
  g_test_message ("%u cured, %u without a cure", cured, hopeless);
  g_assert_cmpuint (cured, >, 50);
  g_assert_cmpuint (hopeless, >, 50);
}

/* Metric houses get whole centimetres: 2.93 in are 7.4 cm, 8. */
static void
test_metric (void)
{
  g_autoptr(Case) c = case_new ();
  g_autofree char *text = NULL;

  fleet_set (c, "units", "'metric'");
  fleet_set (c, "trailers[0].axles[0].rated_lb", "14000");
  judge (c);
  text = fl_words_finding (NULL, expect (c, "axle_rating", "trailer axle 1", FL_BY_RATING, FL_SHORT), TRUE);
  g_assert_nonnull (strstr (text, "80 mm further forward"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/nearest/search", test_search);
  g_test_add_func ("/nearest/metric", test_metric);
  return test_done (g_test_run ());
}
