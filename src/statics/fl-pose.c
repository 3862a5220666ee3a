/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-pose.c: from a machine's frame to the trailer's and back. */
#include "fl-pose.h"

gboolean
fl_pose_is_valid (FlPose pose)
{
  return isfinite (pose.rear) && isfinite (pose.left) && isfinite (pose.z) && isfinite (pose.x_min) && isfinite (pose.x_max)
         && pose.x_min <= pose.x_max;
}

FlVec
fl_pose_to_trailer (FlPose pose, FlVec machine_point)
{
  if (pose.facing == FL_REARWARD)
    return (FlVec) {
      pose.rear + (pose.x_max - machine_point.x),
      pose.left - machine_point.y,
      pose.z + machine_point.z,
    };
  return (FlVec) {
    pose.rear + (machine_point.x - pose.x_min),
    pose.left + machine_point.y,
    pose.z + machine_point.z,
  };
}

FlVec
fl_pose_to_machine (FlPose pose, FlVec trailer_point)
{
  if (pose.facing == FL_REARWARD)
    return (FlVec) {
      pose.x_max - (trailer_point.x - pose.rear),
      pose.left - trailer_point.y,
      trailer_point.z - pose.z,
    };
  return (FlVec) {
    pose.x_min + (trailer_point.x - pose.rear),
    trailer_point.y - pose.left,
    trailer_point.z - pose.z,
  };
}

FlVec
fl_pose_turn (FlPose pose, FlVec direction)
{
  if (pose.facing == FL_REARWARD)
    return (FlVec) { -direction.x, -direction.y, direction.z };
  return direction;
}

FlBox
fl_pose_box (FlPose pose, FlBox machine_box)
{
  return fl_box_spanning (fl_pose_to_trailer (pose, machine_box.min), fl_pose_to_trailer (pose, machine_box.max));
}
