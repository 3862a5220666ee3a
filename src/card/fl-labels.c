/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Greedy placing of labels. */
#include "fl-labels.h"

#include <math.h>

#define CROSSING_COST 4.0       /* steps down the order of liking that a hidden run is worth */
#define RINGS 40
#define RING_STEPS 24

typedef struct { double x0, y0, x1, y1; } Segment;

struct _FlLabels
{
  FlSpot area;
  GArray *taken;                /* FlSpot, all that is in the way */
  GArray *labels;               /* FlSpot, the labels alone */
  GArray *spared;               /* Segment */
};

FlLabels *
fl_labels_new (FlSpot area)
{
  FlLabels *labels = g_new0 (FlLabels, 1);

  labels->area = area;
  labels->taken = g_array_new (FALSE, FALSE, sizeof (FlSpot));
  labels->labels = g_array_new (FALSE, FALSE, sizeof (FlSpot));
  labels->spared = g_array_new (FALSE, FALSE, sizeof (Segment));
  return labels;
}

void
fl_labels_free (FlLabels *labels)
{
  if (labels == NULL)
    return;
  g_array_unref (labels->taken);
  g_array_unref (labels->labels);
  g_array_unref (labels->spared);
  g_free (labels);
}

void
fl_labels_spare (FlLabels *labels, double x0, double y0, double x1, double y1)
{
  const Segment segment = { x0, y0, x1, y1 };

  g_array_append_val (labels->spared, segment);
}

void
fl_labels_take (FlLabels *labels, FlSpot spot, gboolean label)
{
  g_array_append_val (labels->taken, spot);
  if (label)
    g_array_append_val (labels->labels, spot);
}

FlSpot
fl_spot_about (double x, double y, double width, double height)
{
  return (FlSpot) { x - 0.5 * width, y - 0.5 * height, width, height };
}

/* One slab of the box against the segment's parameter range [*t0, *t1]. */
static gboolean
clip (double from, double by, double low, double high, double *t0, double *t1)
{
  double a, b;

  if (by == 0.0)
    return from >= low && from <= high;
  a = (low - from) / by;
  b = (high - from) / by;
  *t0 = fmax (*t0, fmin (a, b));
  *t1 = fmin (*t1, fmax (a, b));
  return *t0 <= *t1;
}

gboolean
fl_spot_meets (FlSpot spot, double x0, double y0, double x1, double y1)
{
  double t0 = 0.0, t1 = 1.0;

  return clip (x0, x1 - x0, spot.x, spot.x + spot.width, &t0, &t1) && clip (y0, y1 - y0, spot.y, spot.y + spot.height, &t0, &t1);
}

static gboolean
overlap (FlSpot a, FlSpot b)
{
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

static gboolean
is_free (const FlLabels *labels, FlSpot spot)
{
  const FlSpot *area = &labels->area;

  if (!(spot.x >= area->x && spot.y >= area->y && spot.x + spot.width <= area->x + area->width
        && spot.y + spot.height <= area->y + area->height))
    return FALSE;
  for (guint i = 0; i < labels->taken->len; i++)
    if (overlap (spot, g_array_index (labels->taken, FlSpot, i)))
      return FALSE;
  return TRUE;
}

static double
crossings (const FlLabels *labels, FlSpot spot)
{
  double n = 0.0;

  for (guint i = 0; i < labels->spared->len; i++)
    {
      const Segment *s = &g_array_index (labels->spared, Segment, i);

      if (fl_spot_meets (spot, s->x0, s->y0, s->x1, s->y1))
        n += 1.0;
    }
  return n;
}

gboolean
fl_labels_place (FlLabels *labels, const FlSpot *candidates, gsize n, FlSpot *taken)
{
  double least = INFINITY;

  for (gsize i = 0; i < n; i++)
    {
      const double cost = is_free (labels, candidates[i]) ? (double) i + CROSSING_COST * crossings (labels, candidates[i]) : INFINITY;

      if (cost < least)
        {
          least = cost;
          *taken = candidates[i];
        }
    }
  if (isinf (least))
    return FALSE;
  fl_labels_take (labels, *taken, TRUE);
  return TRUE;
}

gboolean
fl_labels_near (FlLabels *labels, double x, double y, double width, double height, FlSpot *taken)
{
  const double step = 0.5 * fmin (width, height);

  for (guint ring = 0; ring < RINGS; ring++)
    for (guint k = 0; k < (ring == 0 ? 1 : RING_STEPS); k++)
      {
        const double angle = 2.0 * G_PI * k / RING_STEPS, r = ring * step;
        const FlSpot spot = fl_spot_about (x + r * cos (angle), y + r * sin (angle), width, height);

        if (is_free (labels, spot))
          {
            *taken = spot;
            fl_labels_take (labels, spot, TRUE);
            return TRUE;
          }
      }
  return FALSE;
}

gsize
fl_labels_count (const FlLabels *labels)
{
  return labels->labels->len;
}

FlSpot
fl_labels_at (const FlLabels *labels, gsize index)
{
  return g_array_index (labels->labels, FlSpot, index);
}
