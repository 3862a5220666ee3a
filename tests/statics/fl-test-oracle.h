/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-oracle.h: the shapes of the cases in oracle.inc (make-oracle.py). */
#ifndef FL_TEST_ORACLE_H
#define FL_TEST_ORACLE_H

#include "fl-beam.h"
#include "fl-box.h"

typedef struct { FlVec a0, a1, b0, b1; double distance; } SegmentCase;
typedef struct { FlVec a, b; FlBox box; gboolean meets; } BoxCase;
typedef struct { FlVec point, anchor; FlBox deck; guint bends; double length; } EdgeCase;
typedef struct {
  FlBeamLoad loads[3];
  gsize n_loads;
  gboolean coupled;
  FlBeamCoupling coupling;
  FlBeamAxle axles[6];
  gsize n_axles;
  double axle_loads[6], coupling_load;
} BeamCase;

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-variable"
#include "oracle.inc"
#pragma GCC diagnostic pop

#endif
