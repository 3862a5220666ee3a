/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The example of the formats, from its two documents: places and weights from example-fleet.json, choices from
 * example-plan.json; runs, angles, component signs and axle loads must be those that the plan document prints. Its results were
 * computed by a script that shares nothing with this program, in inches and pounds, rounded to a tenth. The documents are read
 * with json-glib, not with the model. */
#include <json-glib/json-glib.h>
#include <string.h>

#include "fl-beam.h"
#include "fl-contact.h"
#include "fl-run.h"
#include "fl-sums.h"
#include "fl-test-random.h"

static const double inch = 0.0254, pound = 0.45359237 * 9.80665, degree = G_PI / 180.0, tenth = 0.0501;

typedef struct {
  JsonParser *fleet_parser, *plan_parser;
  JsonObject *machine, *trailer, *truck, *load, *results;
  JsonArray *tie_downs;
  FlPose pose;
} Example;

static JsonParser *
read_document (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", name, NULL);
  g_autoptr(JsonParser) parser = json_parser_new ();
  g_autoptr(GError) error = NULL;

  json_parser_load_from_file (parser, path, &error);
  g_assert_no_error (error);
  return g_steal_pointer (&parser);
}

static double
number (JsonObject *object, const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  g_assert_nonnull (node);
  return json_node_get_double (node);
}

static JsonObject *
find (JsonObject *object, const char *list, const char *key, const char *id)
{
  JsonArray *array = json_object_get_array_member (object, list);

  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      JsonObject *member = json_array_get_object_element (array, i);

      if (g_strcmp0 (json_object_get_string_member (member, key), id) == 0)
        return member;
    }
  g_assert_not_reached ();
}

static void
set_up (Example *e, gconstpointer data G_GNUC_UNUSED)
{
  JsonObject *fleet, *plan;

  e->fleet_parser = read_document ("example-fleet.json");
  e->plan_parser = read_document ("example-plan.json");
  fleet = json_node_get_object (json_parser_get_root (e->fleet_parser));
  plan = json_node_get_object (json_parser_get_root (e->plan_parser));
  e->load = json_array_get_object_element (json_object_get_array_member (plan, "loads"), 0);
  e->machine = find (fleet, "machines", "id", json_object_get_string_member (e->load, "machine"));
  e->trailer = find (fleet, "trailers", "id", json_object_get_string_member (plan, "trailer"));
  e->truck = find (fleet, "trucks", "id", json_object_get_string_member (plan, "truck"));
  e->tie_downs = json_object_get_array_member (plan, "tie_downs");
  e->results = json_object_get_object_member (plan, "results");
  e->pose = (FlPose) {
    .facing = g_str_equal (json_object_get_string_member (e->load, "facing"), "rearward") ? FL_REARWARD : FL_FORWARD,
    .rear = number (e->load, "rear_in") * inch,
    .x_max = number (e->machine, "length_in") * inch,
  };
}

static void
tear_down (Example *e, gconstpointer data G_GNUC_UNUSED)
{
  g_clear_object (&e->fleet_parser);
  g_clear_object (&e->plan_parser);
}

static FlVec
place (JsonObject *object)
{
  return (FlVec) { number (object, "x_in") * inch, number (object, "y_in") * inch, number (object, "z_in") * inch };
}

/* "P11R": the eleventh from the rear of row P, on the right. */
static FlVec
anchor (const Example *e, const char *id)
{
  JsonObject *row = find (e->trailer, "anchor_rows", "id", "P");
  guint64 number_in_row = g_ascii_strtoull (id + 1, NULL, 10);
  double x = number (row, "first_x_in") + number (row, "spacing_in") * (double) (number_in_row - 1);
  double side = g_str_has_suffix (id, "L") ? 1.0 : -1.0;

  return (FlVec) { x * inch, side * number (row, "y_in") * inch, number (row, "z_in") * inch };
}

/* The path of tie-down i: machine point, anchor. */
static void
lay (const Example *e, guint i, FlVec path[2])
{
  JsonObject *tie_down = json_array_get_object_element (e->tie_downs, i);
  JsonObject *point = find (e->machine, "tie_points", "id", json_object_get_string_member (tie_down, "machine_point"));
  JsonArray *anchors = json_object_get_array_member (tie_down, "anchors");

  path[0] = fl_pose_to_trailer (e->pose, place (point));
  path[1] = anchor (e, json_array_get_string_element (anchors, 0));
}

static void
test_runs (Example *e, gconstpointer data G_GNUC_UNUSED)
{
  JsonArray *results = json_object_get_array_member (e->results, "tie_downs");

  g_assert_cmpuint (json_array_get_length (results), ==, 5);
  g_assert_cmpuint (json_array_get_length (e->tie_downs), ==, 5);
  for (guint i = 0; i < 5; i++)
    {
      JsonObject *result = json_array_get_object_element (results, i);
      FlVec path[2], u;

      lay (e, i, path);
      u = fl_run_pull (path[0], path[1]);
      assert_near (fl_run_length (path, 2) / inch, number (result, "run_in"), tenth);
      assert_near (fl_run_deck_angle (u) / degree, number (result, "deck_angle_deg"), tenth);
      assert_near (fl_run_plan_angle (u) / degree, number (result, "plan_angle_deg"), tenth);
      g_assert_true (fl_run_pulls_down (u));
    }
}

/* Out of reach of each other and of the machine's own solids and hoses, as the plan's `compliant` wants. */
static void
test_clear (Example *e, gconstpointer data G_GNUC_UNUSED)
{
  const char *const lists[] = { "solids", "keep_clear" };
  FlVec paths[5][2];

  for (guint i = 0; i < 5; i++)
    lay (e, i, paths[i]);
  for (guint i = 0; i < 5; i++)
    {
      for (guint l = 0; l < 2; l++)
        {
          JsonObject *solid = json_array_get_object_element (json_object_get_array_member (e->machine, lists[l]), 0);
          FlVec min = place (json_object_get_object_member (solid, "min"));
          FlVec max = place (json_object_get_object_member (solid, "max"));
          FlBox box = fl_pose_box (e->pose, (FlBox) { min, max });

          g_assert_true (fl_run_clears (paths[i], 2, 0.0, &box, 1, NULL));
        }
      for (guint j = 0; j < i; j++)
        g_assert_cmpfloat (fl_run_distance (paths[i], 2, paths[j], 2, 0.0), >, 2.0 * inch);
    }
}

/* By hand from the offsets in inches: run 1 is 22 x 24 x 30 (44.272 long), run 3 is 27 x 22 x 28 (44.688); the machine's four
 * hold forward by the two whose anchors lie behind (3 and 4), 2 * 6600 * 27 / 44.688, and so on. */
static void
test_sums (Example *e, gconstpointer data G_GNUC_UNUSED)
{
  const double rear_run = sqrt (22 * 22 + 24 * 24 + 30 * 30), front_run = sqrt (27 * 27 + 22 * 22 + 28 * 28);
  FlPull pulls[4];
  FlSums sums;

  for (guint i = 0; i < 4; i++)
    {
      FlVec path[2];

      lay (e, i, path);
      pulls[i] = (FlPull) { .at = path[0], .along = fl_run_pull (path[0], path[1]), .limit = 6600 * pound };
    }
  sums = fl_sums_component (pulls, 4, 22000 * pound);
  assert_near (sums.force[FL_MOVES_FORWARD] / pound, 2 * 6600 * 27 / front_run, 1e-6);
  assert_near (sums.force[FL_MOVES_REARWARD] / pound, 2 * 6600 * 22 / rear_run, 1e-6);
  assert_near (sums.force[FL_MOVES_LEFT] / pound, 6600 * (24 / rear_run + 22 / front_run), 1e-6);
  assert_near (sums.force[FL_MOVES_RIGHT] / pound, 6600 * (24 / rear_run + 22 / front_run), 1e-6);
  assert_near (sums.force[FL_MOVES_UP] / pound, 2 * 6600 * (30 / rear_run + 28 / front_run), 1e-6);
  assert_near (sums.g[FL_MOVES_FORWARD], 2 * 6600 * 27 / front_run / 22000, 1e-9);
}

static gsize
read_axles (JsonObject *vehicle, FlBeamAxle *axles)
{
  JsonArray *array = json_object_get_array_member (vehicle, "axles");
  guint n = json_array_get_length (array);

  g_assert_cmpuint (n, <=, 3);
  for (guint i = 0; i < n; i++)
    {
      JsonObject *axle = json_array_get_object_element (array, i);

      axles[i] = (FlBeamAxle) { number (axle, "x_in") * inch, number (axle, "tare_lb") * pound, NAN,
                                (guint) json_object_get_int_member (axle, "group") };
    }
  return n;
}

static double
printed (const Example *e, const char *axle)
{
  return number (find (e->results, "axles", "axle", axle), "load_lb");
}

static void
test_axles (Example *e, gconstpointer data G_GNUC_UNUSED)
{
  JsonObject *hitch = json_object_get_object_member (e->trailer, "coupling");
  FlVec cg = fl_pose_to_trailer (e->pose, place (json_object_get_object_member (e->machine, "center_of_gravity")));
  FlBeamLoad load = { cg.x, number (e->machine, "weight_lb") * pound };
  FlBeamCoupling coupling = { number (hitch, "x_in") * inch, number (hitch, "tare_lb") * pound };
  FlBeamAxle axles[3];
  double on[3], down, gross;
  gsize n = read_axles (e->trailer, axles);

  g_assert_cmpint (fl_beam_axles (&load, 1, &coupling, axles, n, on, &down), ==, FL_BEAM_OK);
  assert_near (down / pound, printed (e, "coupling"), tenth);
  assert_near (on[0] / pound, printed (e, "trailer 1"), tenth);
  assert_near (on[1] / pound, printed (e, "trailer 2"), tenth);
  gross = (number (e->machine, "weight_lb") + number (e->trailer, "tare_lb")) * pound;
  assert_near (down / gross * 100.0, number (find (e->results, "axles", "axle", "coupling"), "share_pct"), tenth);

  load = (FlBeamLoad) { number (json_object_get_object_member (e->truck, "coupling"), "x_in") * inch, down };
  n = read_axles (e->truck, axles);
  g_assert_cmpint (fl_beam_axles (&load, 1, NULL, axles, n, on, NULL), ==, FL_BEAM_OK);
  assert_near (on[0] / pound, printed (e, "truck 1"), tenth);
  assert_near (on[1] / pound, printed (e, "truck 2"), tenth);
  assert_near (on[2] / pound, printed (e, "truck 3"), tenth);
}

/* Facing rearward with its rear end (the blade) at 10 in: drum from 61 to 67 in, tires from 172 to 186; all on the main deck,
 * none on the tail. */
static void
test_contacts (Example *e, gconstpointer data G_GNUC_UNUSED)
{
  JsonArray *contacts = json_object_get_array_member (e->machine, "contacts");
  FlRect rects[3];
  double first, last;

  g_assert_cmpuint (json_array_get_length (contacts), ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      JsonObject *c = json_array_get_object_element (contacts, i);

      rects[i] = fl_contact_rect (e->pose, number (c, "x_in") * inch, number (c, "y_in") * inch, number (c, "length_in") * inch,
                                  number (c, "width_in") * inch);
      g_assert_true (fl_rect_within_x (rects[i], 0.0, 288 * inch));
      g_assert_cmpfloat (fl_rect_share_x (rects[i], -72 * inch, 0.0), ==, 0.0);
    }
  g_assert_true (fl_rects_extent_x (rects, 3, &first, &last));
  assert_near (first / inch, 61.0, 1e-9);
  assert_near (last / inch, 186.0, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/statics/example/runs", Example, NULL, set_up, test_runs, tear_down);
  g_test_add ("/statics/example/clear", Example, NULL, set_up, test_clear, tear_down);
  g_test_add ("/statics/example/sums", Example, NULL, set_up, test_sums, tear_down);
  g_test_add ("/statics/example/axles", Example, NULL, set_up, test_axles, tear_down);
  g_test_add ("/statics/example/contacts", Example, NULL, set_up, test_contacts, tear_down);
  return g_test_run ();
}
