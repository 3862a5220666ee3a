/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-pose.h: how a load stands on the trailer, and from its own frame to the trailer's and back.
 *
 * Machine frame: origin on the centreline, at the level of the ground, under the rearmost point of the machine in its normal
 * transport position; x forward, y to the left, z up. Trailer frame: see fl-vec-ops.h. Facing rearward is a half turn about the
 * vertical: no mirror, the machine's left stays its left. */
#ifndef FL_POSE_H
#define FL_POSE_H

#include "fl-box.h"
#include "fl-facing.h"

G_BEGIN_DECLS

/* m. rear: from the trailer's x = 0 to the load's rearward end, whichever end of the machine that is. left: of the trailer's
 * centreline to the load's. x_min, x_max: the extent of the machine in its position, in its own frame. z: the height of the
 * zone it stands on over the main deck. */
typedef struct { FlFacing facing; double rear, left, x_min, x_max, z; } FlPose;

/* TRUE if all five are finite and x_min is at most x_max. */
gboolean fl_pose_is_valid (FlPose pose);

/* A point (m) of the machine's frame in the trailer's:
 *   forward  (rear + x - x_min, left + y, pose z + z)
 *   rearward (rear + x_max - x, left - y, pose z + z)
 * Not finite in, not finite out: the place of something not measured is not known. */
FlVec    fl_pose_to_trailer (FlPose pose, FlVec machine_point);

/* The inverse: a point (m) of the trailer's frame in the machine's. */
FlVec    fl_pose_to_machine (FlPose pose, FlVec trailer_point);

/* A direction or force of the machine's frame in the trailer's: turned, not moved. Its own inverse. */
FlVec    fl_pose_turn (FlPose pose, FlVec direction);

/* A box of the machine's frame in the trailer's. Exact: a half turn keeps faces along the axes. */
FlBox    fl_pose_box (FlPose pose, FlBox machine_box);

G_END_DECLS

#endif
