/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-axles.h: the shapes of the cases in axle-oracle.inc (axle_oracle.py). */
#ifndef FL_TEST_AXLES_H
#define FL_TEST_AXLES_H

#include "fl-beam.h"
#include "fl-bearing.h"

typedef struct {
  const char *kind;
  FlBeamAxle axles[4]; gsize n_axles;
  FlBeamAxle truck[4]; gsize n_truck;
  FlBeamLoad loads[3]; gsize n_loads;
  gboolean coupled;
  FlBeamCoupling coupling;
  double hitch;                 /* the coupling's place on the truck */
  double on_axles[4], on_truck[4], on_coupling;
} OutfitCase;

typedef struct {
  FlRect rects[4]; gsize n;
  double weight, cg, span, most, on[4];
} BearingCase;

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-variable"
#include "axle-oracle.inc"
#pragma GCC diagnostic pop

#endif
