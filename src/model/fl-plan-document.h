/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of the plan document that its reader and its writer share. Private to this folder. */
#ifndef FL_PLAN_DOCUMENT_H
#define FL_PLAN_DOCUMENT_H

#include "fl-plan.h"

#define FL_PLAN_FORMAT "fairlead-plan/1"

/* In the order of FlFacing; of FALSE and TRUE of `over` and of `at_anchor`. */
static const char *const fl_facing_names[] = { "forward", "rearward", NULL };
static const char *const fl_tie_kind_names[] = { "direct", "over", NULL };
static const char *const fl_connector_at_names[] = { "point", "anchor", NULL };

/* The names of pins, in the order in which they are written. */
static const struct { guint32 pin; const char *name; } fl_pin_names[] = {
  { FL_PIN_POSITION, "position" },
  { FL_PIN_FACING, "facing" },
  { FL_PIN_REAR, "rear" },
  { FL_PIN_LEFT, "left" },
  { FL_PIN_PURPOSE, "purpose" },
  { FL_PIN_POINT, "machine_point" },
  { FL_PIN_ANCHORS, "anchors" },
  { FL_PIN_CHAIN, "chain" },
  { FL_PIN_STRAP, "strap" },
  { FL_PIN_BINDER, "binder" },
  { FL_PIN_CONNECTORS, "connectors" },
};

#endif
