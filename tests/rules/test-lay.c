/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a tie-down lies: a trailer as ground, a load as it stands on it, runs and what is said of them. Figures are worked out by hand
 * beside each check, in inches. */
#include "fl-test-judge.h"

#define INCH 0.0254
#define NEAR 1e-9

typedef struct { FlBook *book; const FlTrailer *trailer; const FlMachine *machine; FlGround ground; FlStand stand; } Site;

static const char *const machine_json =
  "{'id': 'M', 'kind': 'loader', 'weight_lb': 12000, 'length_in': 120, 'width_in': 70, 'height_in': 90, 'contacts': [%s], "
  "'tie_points': [{'id': 'A', 'x_in': 100, 'y_in': 20, 'z_in': 30%s}]%s}";

static void
site_init (Site *s, const char *deck, const char *trailer_more, const char *contacts, const char *point_more, const char *machine_more)
{
  g_autofree char *machine = g_strdup_printf (machine_json, contacts, point_more, machine_more);
  g_autofree char *trailer = g_strdup_printf ("{'id': 'T', 'yard': 'Y', 'kind': 'tag', 'deck': {'length_in': 240, 'width_in': 100, 'height_in': 36%s}, "
                                              "'axles': [{'x_in': 60, 'tare_lb': 3000}]%s}", deck, trailer_more);

  s->book = test_book ();
  s->machine = fl_record_machine (test_record (FL_KIND_MACHINE, machine));
  s->trailer = fl_record_trailer (test_record (FL_KIND_TRAILER, trailer));
  fl_ground_fill (&s->ground, s->trailer);
}

static void
site_clear (Site *s)
{
  fl_book_unref (s->book);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Site, site_clear)

/* A place to hook to; good for a few calls. */
static const FlAnchor *
anchor (double x, double y, double z)
{
  static FlAnchor made[4];
  static guint next;
  FlAnchor *a = &made[next++ % G_N_ELEMENTS (made)];

  *a = (FlAnchor) { .id = "X", .x = FL_IN (x), .y = FL_IN (y), .z = FL_IN (z), .takes = 1 };
  return a;
}

static void
stand (Site *s, FlFacing facing, double rear, double left)
{
  fl_stand_fill (&s->stand, &s->ground, s->machine, facing, rear * INCH, left * INCH);
}

static FlLay
lay (Site *s, double x, double y, double z)
{
  FlLay out;

  fl_lay_direct (&out, s->book, &s->ground, &s->stand, &s->machine->tie_points[0], anchor (x, y, z));
  return out;
}

static void
assert_vec (FlVec v, double x, double y, double z)
{
  g_assert_cmpfloat_with_epsilon (v.x, x * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (v.y, y * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (v.z, z * INCH, NEAR);
}

/* ── ground ── */

static void
test_ground (void)
{
  g_auto(Site) s = { 0 };

  site_init (&s, ", 'zones': [{'id': 'tail', 'x0_in': -60, 'x1_in': 0, 'slope_deg': 9, 'carries': false}, {'id': 'neck', 'x0_in': 240, 'x1_in': 320, 'z_in': 30}]",
             ", 'hinge_x_in': 90, 'solids': [{'name': 'toolbox', 'min': {'x_in': 0, 'y_in': 40, 'z_in': 0}, 'max': {'x_in': 20, 'y_in': 50, 'z_in': 24}}]",
             "", "", "");
  g_assert_cmpuint (s.ground.n_decks, ==, 2);           /* main and neck; a sloped tail bends nothing */
  g_assert_cmpfloat_with_epsilon (s.ground.decks[0].max.z, 0, NEAR);
  g_assert_cmpfloat_with_epsilon (s.ground.decks[1].max.z, 30 * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (s.ground.half_width, 50 * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (s.ground.deck_height, 36 * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (s.ground.hinge_x, 90 * INCH, NEAR);
  g_assert_cmpuint (s.ground.n_solids, ==, 1);
  g_assert_cmpstr (s.ground.solid_names[0], ==, "toolbox");
}

/* ── standing ── */

/* formats: forward (rear + x - x_min, left + y, z); rearward (rear + x_max - x, left - y, z). */
static void
test_pose (void)
{
  g_auto(Site) s = { 0 };
  const FlTiePoint *p;

  site_init (&s, "", "", "", "", "");
  p = &s.machine->tie_points[0];
  stand (&s, FL_FORWARD, 12, 3);
  g_assert_true (s.stand.placed);
  assert_vec (fl_stand_point (&s.stand, (FlPlace) { p->x, p->y, p->z }), 112, 23, 30);
  assert_vec (s.stand.outline.min, 12, 3 - 35, 0);
  assert_vec (s.stand.outline.max, 132, 3 + 35, 90);
  stand (&s, FL_REARWARD, 12, 3);
  assert_vec (fl_stand_point (&s.stand, (FlPlace) { p->x, p->y, p->z }), 12 + 120 - 100, 3 - 20, 30);
  assert_vec (s.stand.outline.min, 12, 3 - 35, 0);
  fl_stand_fill (&s.stand, &s.ground, s.machine, FL_FORWARD, NAN, 0);
  g_assert_false (s.stand.placed);
}

/* A position's own extent: 120 long from -10 to 130. */
static void
test_extent (void)
{
  g_auto(Site) s = { 0 };
  double lo, hi;
  const FlMachine *out;

  site_init (&s, "", "", "", "", ", 'positions': [{'id': 'out', 'length_in': 140, 'x_min_in': -10, 'x_max_in': 130}, {'id': 'back', 'x_min_in': -10}]");
  g_assert_true (fl_machine_extent (s.machine, &lo, &hi));
  g_assert_cmpfloat_with_epsilon (lo, 0, NEAR);
  g_assert_cmpfloat_with_epsilon (hi, 120 * INCH, NEAR);
  g_assert_true (fl_machine_extent (fl_machine_in_position (s.machine, "back"), &lo, &hi));
  g_assert_cmpfloat_with_epsilon (lo, -10 * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (hi, 110 * INCH, NEAR);
  out = fl_machine_in_position (s.machine, "out");
  g_assert_true (fl_machine_extent (out, &lo, &hi));
  g_assert_cmpfloat_with_epsilon (lo, -10 * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (hi, 130 * INCH, NEAR);
  s.machine = out;
  stand (&s, FL_FORWARD, 5, 0);
  assert_vec (fl_stand_point (&s.stand, (FlPlace) { out->tie_points[0].x, out->tie_points[0].y, out->tie_points[0].z }), 5 + 100 + 10, 20, 30);
  stand (&s, FL_REARWARD, 5, 0);
  assert_vec (fl_stand_point (&s.stand, (FlPlace) { out->tie_points[0].x, out->tie_points[0].y, out->tie_points[0].z }), 5 + 130 - 100, -20, 30);
}

/* The zone that most of its contacts stand on sets its height. */
static void
test_zone (void)
{
  static const char *const wheels = "{'x_in': 20, 'y_in': 0, 'length_in': 10, 'width_in': 60}, {'x_in': 100, 'y_in': 0, 'length_in': 10, 'width_in': 60}, "
                                    "{'x_in': 110, 'y_in': 0, 'length_in': 10, 'width_in': 60}";
  g_auto(Site) s = { 0 };

  site_init (&s, ", 'zones': [{'id': 'well', 'x0_in': 0, 'x1_in': 240, 'z_in': 0}, {'id': 'neck', 'x0_in': 240, 'x1_in': 400, 'z_in': 28}]", "", wheels, "", "");
  stand (&s, FL_FORWARD, 100, 0);       /* 115-125, 195-205, 205-215: in the well */
  g_assert_cmpstr (s.stand.zone->id, ==, "well");
  g_assert_cmpfloat_with_epsilon (s.stand.pose.z, 0, NEAR);
  stand (&s, FL_FORWARD, 160, 0);       /* 175-185 in the well, 255-275 on the neck: two of three */
  g_assert_cmpstr (s.stand.zone->id, ==, "neck");
  g_assert_cmpfloat_with_epsilon (s.stand.pose.z, 28 * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (s.stand.outline.min.z, 28 * INCH, NEAR);
}

static void
test_boxes (void)
{
  g_auto(Site) s = { 0 };

  site_init (&s, "", "", "", "",
             ", 'solids': [{'name': 'cab', 'min': {'x_in': 40, 'y_in': -20, 'z_in': 40}, 'max': {'x_in': 80, 'y_in': 10, 'z_in': 90}}]");
  stand (&s, FL_REARWARD, 0, 0);
  g_assert_cmpuint (s.stand.n_solids, ==, 1);
  assert_vec (s.stand.solids[0].min, 40, -10, 40);
  assert_vec (s.stand.solids[0].max, 80, 20, 90);
}

/* ── runs ── */

/* From (112, 20, 30) to (142, 46, 0): run 49.8 in, deck angle asin (30 / 49.76), plan angle atan (26 / 30). */
static void
test_direct (void)
{
  g_auto(Site) s = { 0 };
  FlLay l;

  site_init (&s, "", "", "", "", "");
  stand (&s, FL_FORWARD, 12, 0);
  l = lay (&s, 142, 46, 0);
  g_assert_cmpuint (l.n_path, ==, 2);
  assert_vec (l.path[0], 112, 20, 30);
  assert_vec (l.path[1], 142, 46, 0);
  g_assert_cmpfloat_with_epsilon (l.run, hypot (hypot (30, 26), 30) * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (l.deck, asin (30 / hypot (hypot (30, 26), 30)) * 180 / G_PI, 1e-9);
  g_assert_cmpfloat_with_epsilon (l.plan, atan2 (26, 30) * 180 / G_PI, 1e-9);
  g_assert_cmpfloat_with_epsilon (l.pull.x, 30 / hypot (hypot (30, 26), 30), NEAR);
  g_assert_cmpuint (l.flags, ==, 0);
}

static void
test_flags (void)
{
  g_auto(Site) s = { 0 };

  site_init (&s, "", "", "", "", "");
  stand (&s, FL_FORWARD, 12, 0);
  g_assert_cmpuint (lay (&s, 142, 46, 30).flags & FL_LAY_NOT_DOWN, !=, 0);      /* level */
  g_assert_cmpuint (lay (&s, 142, 46, 29.9).flags & FL_LAY_NOT_DOWN, ==, 0);
  g_assert_cmpuint (lay (&s, 114, 22, 0).flags & FL_LAY_DECK_ANGLE, !=, 0);     /* nearly plumb */
  g_assert_cmpuint (lay (&s, 230, 46, 0).flags & FL_LAY_DECK_ANGLE, !=, 0);     /* 14 degrees */
  g_assert_cmpuint (lay (&s, 162, 21, 0).flags & FL_LAY_PLAN_ANGLE, !=, 0);
  g_assert_cmpuint (lay (&s, 112, 60, 0).flags & FL_LAY_PLAN_ANGLE, ==, 0);     /* straight across is 90 degrees */
  fl_stand_fill (&s.stand, &s.ground, s.machine, FL_FORWARD, NAN, 0);
  g_assert_cmpuint (lay (&s, 142, 46, 0).flags, ==, FL_LAY_NOT_KNOWN);
  g_assert_true (isnan (lay (&s, 142, 46, 0).run));
}

static void
test_point_flags (void)
{
  g_auto(Site) s = { 0 };

  site_init (&s, "", "", "", ", 'maker_provided': false, 'fitting': 'axle', 'pull': {'run_in': [50, 80]}", "");
  stand (&s, FL_FORWARD, 12, 0);
  g_assert_cmpuint (lay (&s, 142, 46, 0).flags, ==, FL_LAY_POINT | FL_LAY_WINDOW);      /* 49.8 in */
  g_assert_cmpuint (lay (&s, 144, 46, 0).flags, ==, FL_LAY_POINT);                      /* 51.0 in */
}

/* Half a foot at each end of a run is not looked at: a box round the lug is not in its way, one half way is. */
static void
test_in_the_way (void)
{
  static const char *const box = ", '%s': [{'name': 'it', 'min': {'x_in': %d, 'y_in': %d, 'z_in': %d}, 'max': {'x_in': %d, 'y_in': %d, 'z_in': %d}}]";
  static const struct { const char *list; gint at[3]; guint flag; } cases[] = {
    { "solids", { 100, 20, 30 }, 0 }, { "solids", { 115, 33, 15 }, FL_LAY_SOLID }, { "keep_clear", { 115, 33, 15 }, FL_LAY_KEEP_CLEAR },
    { "keep_clear", { 100, 20, 30 }, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto(Site) s = { 0 };
      const gint *at = cases[i].at;
      g_autofree char *more = g_strdup_printf (box, cases[i].list, at[0] - 2, at[1] - 2, at[2] - 2, at[0] + 2, at[1] + 2, at[2] + 2);
      FlLay l;

      site_init (&s, "", "", "", "", more);
      stand (&s, FL_FORWARD, 12, 0);
      l = lay (&s, 142, 46, 0);
      g_assert_cmpuint (l.flags, ==, cases[i].flag);
      g_assert_cmpstr (l.hit, ==, cases[i].flag != 0 ? "it" : NULL);
    }
}

static void
test_trailer_and_hinge (void)
{
  g_auto(Site) s = { 0 };

  site_init (&s, "", ", 'hinge_x_in': 130, 'solids': [{'name': 'box', 'min': {'x_in': 125, 'y_in': 30, 'z_in': 10}, 'max': {'x_in': 129, 'y_in': 36, 'z_in': 20}}]",
             "", "", "");
  stand (&s, FL_FORWARD, 12, 0);
  g_assert_cmpuint (lay (&s, 142, 46, 0).flags, ==, FL_LAY_TRAILER_SOLID | FL_LAY_HINGE);
  g_assert_cmpstr (lay (&s, 142, 46, 0).hit, ==, "box");
  g_assert_cmpuint (lay (&s, 82, 46, 0).flags, ==, 0);
}

/* Over the rail: from (112, 20, 30) to (112, 60, -20), the edge at y 50, z 0; the straight run is 8 in below it there. The shortest way
 * bends at the edge: hypot (30, 30) + hypot (10, 20). The machine is pulled towards the bend, 45 degrees down. */
static void
test_over_the_edge (void)
{
  g_auto(Site) s = { 0 };
  FlLay l;

  site_init (&s, "", "", "", "", "");
  stand (&s, FL_FORWARD, 12, 0);
  l = lay (&s, 112, 60, -20);
  g_assert_cmpuint (l.flags, ==, FL_LAY_EDGE);
  g_assert_cmpuint (l.n_path, ==, 3);
  assert_vec (l.path[1], 112, 50, 0);
  g_assert_cmpfloat_with_epsilon (l.run, (hypot (30, 30) + hypot (10, 20)) * INCH, 1e-7);
  g_assert_cmpfloat_with_epsilon (l.deck, 45, 1e-5);
  g_assert_cmpuint (lay (&s, 112, 49, -20).flags & FL_LAY_BLOCKED, !=, 0);      /* under the deck: no way */
}

/* Over two places, (112, 20, 30) and (112, -20, 30), from (112, 50, 0) to (112, -45, 0): the second leg is steeper and tells. */
static void
test_over (void)
{
  g_auto(Site) s = { 0 };
  FlPlace through[2];
  FlLay l;

  site_init (&s, "", "", "", "", "");
  stand (&s, FL_FORWARD, 12, 0);
  through[0] = (FlPlace) { FL_IN (100), FL_IN (20), FL_IN (30) };
  through[1] = (FlPlace) { FL_IN (100), FL_IN (-20), FL_IN (30) };
  fl_lay_over (&l, s.book, &s.ground, &s.stand, through, 2, FALSE, anchor (112, 50, 0), anchor (112, -45, 0));
  g_assert_cmpuint (l.flags, ==, FL_LAY_OVER);
  g_assert_cmpuint (l.n_path, ==, 4);
  g_assert_cmpfloat_with_epsilon (l.run, (hypot (30, 30) + 40 + hypot (25, 30)) * INCH, NEAR);
  g_assert_cmpfloat_with_epsilon (l.deck, atan2 (30, 25) * 180 / G_PI, 1e-9);
  g_assert_cmpfloat_with_epsilon (l.plan, 90, 1e-9);
  g_assert_cmpfloat (l.pull.y, >, 0);
  g_assert_cmpfloat (l.pull_b.y, <, 0);
  fl_lay_over (&l, s.book, &s.ground, &s.stand, through, 2, TRUE, anchor (112, 50, 0), anchor (112, -45, 0));
  g_assert_cmpuint (l.flags, ==, FL_LAY_OVER | FL_LAY_EDGE);
  fl_lay_over (&l, s.book, &s.ground, &s.stand, through, 0, FALSE, anchor (112, 50, 0), anchor (112, -45, 0));
  g_assert_cmpuint (l.flags, ==, FL_LAY_NOT_KNOWN);
}

/* The deck's surface is where a machine stands: an anchor on it and a point over it never bend. Mirror images lie alike. */
static void
test_mirror (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (7);
  g_auto(Site) s = { 0 };

  site_init (&s, "", "", "", "", "");
  for (guint i = 0; i < 300; i++)
    {
      double rear = g_rand_double_range (rand, 0, 120), x = g_rand_double_range (rand, 0, 240), y = g_rand_double_range (rand, -50, 50);
      FlLay a, b;

      stand (&s, FL_FORWARD, rear, 0);
      a = lay (&s, x, y, 0);
      g_assert_cmpuint (a.flags & (FL_LAY_EDGE | FL_LAY_BLOCKED | FL_LAY_NOT_DOWN), ==, 0);
      /* Half a turn of load and anchor about the middle of the deck. */
      stand (&s, FL_REARWARD, 240 - rear - 120, 0);
      b = lay (&s, 240 - x, -y, 0);
      g_assert_cmpuint (a.flags, ==, b.flags);
      g_assert_cmpfloat_with_epsilon (a.run, b.run, NEAR);
      g_assert_cmpfloat_with_epsilon (a.deck, b.deck, 1e-6);
      g_assert_cmpfloat_with_epsilon (a.plan, b.plan, 1e-6);
      g_assert_cmpfloat_with_epsilon (a.pull.x, -b.pull.x, NEAR);
      g_assert_cmpfloat_with_epsilon (a.pull.y, -b.pull.y, NEAR);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lay/ground", test_ground);
  g_test_add_func ("/lay/stand/pose", test_pose);
  g_test_add_func ("/lay/stand/extent", test_extent);
  g_test_add_func ("/lay/stand/zone", test_zone);
  g_test_add_func ("/lay/stand/boxes", test_boxes);
  g_test_add_func ("/lay/direct", test_direct);
  g_test_add_func ("/lay/flags", test_flags);
  g_test_add_func ("/lay/point-flags", test_point_flags);
  g_test_add_func ("/lay/in-the-way", test_in_the_way);
  g_test_add_func ("/lay/trailer-and-hinge", test_trailer_and_hinge);
  g_test_add_func ("/lay/over-the-edge", test_over_the_edge);
  g_test_add_func ("/lay/over", test_over);
  g_test_add_func ("/lay/mirror", test_mirror);
  return test_done (g_test_run ());
}
