/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a load stands: places by hand from the formula of the plan format, and what a rigid half turn must keep. */
#include "fl-pose.h"
#include "fl-test-random.h"

static FlPose
random_pose (GRand *rand)
{
  double x_min = g_rand_double_range (rand, -1.0, 1.0);

  return (FlPose) {
    .facing = g_rand_boolean (rand) ? FL_FORWARD : FL_REARWARD,
    .rear = g_rand_double_range (rand, -2.0, 10.0),
    .left = g_rand_double_range (rand, -0.5, 0.5),
    .x_min = x_min,
    .x_max = x_min + g_rand_double_range (rand, 0.0, 8.0),
    .z = g_rand_double_range (rand, -0.5, 1.0),
  };
}

/* A machine 6 m long whose boom hangs over by 1 m behind its normal rearmost point: x from -1 to 5. */
static void
test_by_hand (void)
{
  FlPose forward = { FL_FORWARD, 2.0, 0.1, -1.0, 5.0, 0.25 }, rearward = { FL_REARWARD, 2.0, 0.1, -1.0, 5.0, 0.25 };
  FlVec lug = { 0.5, 0.75, 0.5 };

  assert_vec_near (fl_pose_to_trailer (forward, lug), ((FlVec) { 3.5, 0.85, 0.75 }), 1e-15);    /* 2 + 0.5 + 1 */
  assert_vec_near (fl_pose_to_trailer (rearward, lug), ((FlVec) { 6.5, -0.65, 0.75 }), 1e-15);  /* 2 + 5 - 0.5 */
  assert_vec_same (fl_pose_turn (forward, lug), lug);
  assert_vec_same (fl_pose_turn (rearward, lug), ((FlVec) { -0.5, -0.75, 0.5 }));
}

/* Whichever way it faces, its rearward end is at `rear` and its other end its length further on. */
static void
test_ends (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (201);

  for (guint i = 0; i < 500; i++)
    {
      FlPose pose = random_pose (rand);
      gboolean forward = pose.facing == FL_FORWARD;
      FlVec rear = fl_pose_to_trailer (pose, (FlVec) { forward ? pose.x_min : pose.x_max, 0, 0 });
      FlVec front = fl_pose_to_trailer (pose, (FlVec) { forward ? pose.x_max : pose.x_min, 0, 0 });

      assert_vec_near (rear, ((FlVec) { pose.rear, pose.left, pose.z }), 1e-12);
      assert_near (front.x - rear.x, pose.x_max - pose.x_min, 1e-12);
    }
}

static void
test_round_trip (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (202);

  for (guint i = 0; i < 2000; i++)
    {
      FlPose pose = random_pose (rand);
      FlVec p = random_place (rand, 10.0);

      assert_vec_near (fl_pose_to_machine (pose, fl_pose_to_trailer (pose, p)), p, 1e-13);
      assert_vec_near (fl_pose_to_trailer (pose, fl_pose_to_machine (pose, p)), p, 1e-13);
    }
}

/* Rigid: distances and handedness stay, and a difference of places turns as a direction does. */
static void
test_rigid (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (203);

  for (guint i = 0; i < 2000; i++)
    {
      FlPose pose = random_pose (rand);
      FlVec p = random_place (rand, 10.0), q = random_place (rand, 10.0);
      FlVec way = fl_vec_sub (fl_pose_to_trailer (pose, q), fl_pose_to_trailer (pose, p));

      assert_vec_near (way, fl_pose_turn (pose, fl_vec_sub (q, p)), 1e-12);
      assert_near (fl_vec_norm (way), fl_vec_norm (fl_vec_sub (q, p)), 1e-12);
      assert_vec_near (fl_vec_cross (fl_pose_turn (pose, p), fl_pose_turn (pose, q)), fl_pose_turn (pose, fl_vec_cross (p, q)),
                       1e-12);
      assert_vec_same (fl_pose_turn (pose, fl_pose_turn (pose, p)), p);
    }
}

/* A mirrored machine on a mirrored place is the mirror image. */
static void
test_mirror (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (204);

  for (guint i = 0; i < 500; i++)
    {
      FlPose pose = random_pose (rand), other = pose;
      FlVec p = random_place (rand, 10.0);

      other.left = -pose.left;
      assert_vec_same (fl_pose_to_trailer (other, mirrored (p)), mirrored (fl_pose_to_trailer (pose, p)));
    }
}

static gboolean
contains (FlBox box, FlVec p)
{
  const double rounding = 1e-12;

  return p.x >= box.min.x - rounding && p.x <= box.max.x + rounding && p.y >= box.min.y - rounding
         && p.y <= box.max.y + rounding && p.z >= box.min.z - rounding && p.z <= box.max.z + rounding;
}

/* In the machine's box and in its image are the same places. */
static void
test_box (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (205);
  guint inside = 0;

  for (guint i = 0; i < 4000; i++)
    {
      FlPose pose = random_pose (rand);
      FlBox box = random_box (rand, 3.0), image = fl_pose_box (pose, box);
      FlVec p = random_place (rand, 3.0);

      g_assert_true (fl_box_is_valid (image));
      g_assert_cmpint (contains (box, p), ==, contains (image, fl_pose_to_trailer (pose, p)));
      inside += contains (box, p);
    }
  g_assert_cmpuint (inside, >, 50);  /* both answers were asked for */
}

static void
test_unknown (void)
{
  FlPose pose = { FL_REARWARD, 2.0, 0.0, 0.0, 6.0, 0.0 };
  FlPose backwards = { FL_FORWARD, 2.0, 0.0, 6.0, 0.0, 0.0 };

  g_assert_true (fl_pose_is_valid (pose));
  g_assert_false (fl_pose_is_valid (backwards));
  g_assert_true (fl_pose_is_valid ((FlPose) { FL_FORWARD, 2.0, 0.0, 3.0, 3.0, 0.0 }));
  g_assert_false (fl_vec_is_finite (fl_pose_to_trailer (pose, (FlVec) { 1, NAN, 1 })));
  g_assert_false (fl_box_is_valid (fl_pose_box (pose, (FlBox) { { 0, 0, NAN }, { 1, 1, 1 } })));
  pose.z = NAN;
  g_assert_false (fl_pose_is_valid (pose));
  for (guint i = 0; i < 4; i++)
    {
      FlPose unknown = { FL_FORWARD, i == 0 ? NAN : 0, i == 1 ? INFINITY : 0, i == 2 ? -INFINITY : 0, i == 3 ? NAN : 6, 0 };

      g_assert_false (fl_pose_is_valid (unknown));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/pose/by-hand", test_by_hand);
  g_test_add_func ("/statics/pose/ends", test_ends);
  g_test_add_func ("/statics/pose/round-trip", test_round_trip);
  g_test_add_func ("/statics/pose/rigid", test_rigid);
  g_test_add_func ("/statics/pose/mirror", test_mirror);
  g_test_add_func ("/statics/pose/box", test_box);
  g_test_add_func ("/statics/pose/unknown", test_unknown);
  return g_test_run ();
}
