/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-pull.c: the ways in which a load may move, as directions. */
#include "fl-pull.h"

FlVec
fl_movement_direction (FlMovement movement)
{
  static const FlVec directions[FL_N_MOVEMENTS] = {
    [FL_MOVES_FORWARD] = { 1.0, 0.0, 0.0 }, [FL_MOVES_REARWARD] = { -1.0, 0.0, 0.0 }, [FL_MOVES_LEFT] = { 0.0, 1.0, 0.0 },
    [FL_MOVES_RIGHT] = { 0.0, -1.0, 0.0 },  [FL_MOVES_UP] = { 0.0, 0.0, 1.0 },
  };

  return (guint) movement < FL_N_MOVEMENTS ? directions[movement] : (FlVec) { 0.0, 0.0, 0.0 };
}

FlMovement
fl_movement_of (FlVec direction)
{
  FlMovement way = 0;

  while (way < FL_N_MOVEMENTS && !(fl_vec_dot (fl_movement_direction (way), direction) > 0.5))
    way++;
  return way;
}
