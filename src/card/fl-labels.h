/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to card. Where labels go so that none lies on another: each is offered places in order of liking and takes the first that is
 * free; a place over a run costs as much as a few steps down that order. */
#ifndef FL_LABELS_H
#define FL_LABELS_H

#include <glib.h>

G_BEGIN_DECLS

/* A box in the area: upper left corner and size. */
typedef struct { double x, y, width, height; } FlSpot;

typedef struct _FlLabels FlLabels;

/* Places for labels inside `area`. (transfer full) */
FlLabels *fl_labels_new (FlSpot area);
void fl_labels_free (FlLabels *labels);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlLabels, fl_labels_free)

/* A line that labels should rather not hide. */
void fl_labels_spare (FlLabels *labels, double x0, double y0, double x1, double y1);
/* A box where no label may stand; it counts as one of the labels itself when `label` is TRUE. */
void fl_labels_take (FlLabels *labels, FlSpot spot, gboolean label);
/* Takes the best of n places. FALSE: none of them is free. */
gboolean fl_labels_place (FlLabels *labels, const FlSpot *candidates, gsize n, FlSpot *taken);
/* Takes the free place nearest to the middle (x, y), looking in growing rings. FALSE: the area is full. */
gboolean fl_labels_near (FlLabels *labels, double x, double y, double width, double height, FlSpot *taken);
/* The boxes of all labels placed so far, for tests. */
gsize fl_labels_count (const FlLabels *labels);
FlSpot fl_labels_at (const FlLabels *labels, gsize index);

/* TRUE if the segment touches the box. */
gboolean fl_spot_meets (FlSpot spot, double x0, double y0, double x1, double y1);
/* A box of this size about a middle. */
FlSpot fl_spot_about (double x, double y, double width, double height);

G_END_DECLS
#endif
