/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dimension lines and the legend of the deck drawing: where each load stands along the deck, and how high it all is. */
#include "fl-deck-private.h"

#include <math.h>

#define FACTOR 0.9              /* of the labels' size */
#define LEAST_GAP 0.02          /* metres: a shorter stretch is not dimensioned */

static const FlStroke fine = { .stroke = FL_TONE_INK, .fill = FL_TONE_NONE, .width = 0.5 };

/* A short stroke across a dimension line, as draftsmen end them. */
static void
tick (FlDeckDrawing *d, double x, double y)
{
  const double r = 0.28 * d->em;

  fl_marks_line (d->marks, x - r, y + r, x + r, y - r, FL_LINE (FL_TONE_INK, 0.9));
}

/* ── along the deck ── */

/* One stretch, its length on the line where it fits, else in one of two tiers below; off its own middle a leader says which one it is. */
static void
along (FlDeckDrawing *d, double from, double to, double y)
{
  const double x0 = fl_deck_x (d, from), x1 = fl_deck_x (d, to), middle = 0.5 * (x0 + x1);
  g_autofree char *said = fl_say_length (to - from, d->metric, FL_ROUND_NEAREST);
  PangoLayout *text = fl_deck_text (d, said, FACTOR, FALSE);
  double w, h;
  FlSpot spot;

  fl_text_size (text, &w, &h);
  fl_marks_line (d->marks, x0, y, x1, y, fine);
  tick (d, x0, y);
  tick (d, x1, y);
  w += 3.0;
  {
    const double first = y + 0.72 * d->em, second = y + 1.5 * d->em, shift = 0.45 * w;
    const gboolean fits = w + 0.5 * d->em <= x1 - x0;
    const FlSpot candidates[] = {
      fl_spot_about (middle, fits ? y : first, w, h), fl_spot_about (middle, first, w, h), fl_spot_about (middle, second, w, h),
      fl_spot_about (middle - shift, first, w, h), fl_spot_about (middle + shift, first, w, h), fl_spot_about (middle - shift, second, w, h),
      fl_spot_about (middle + shift, second, w, h),
    };

    if (!fl_labels_place (d->labels, candidates, G_N_ELEMENTS (candidates), &spot))
      {
        g_object_unref (text);
        return;
      }
  }
  if (spot.y > y + 0.4 * d->em || fabs (spot.x + 0.5 * spot.width - middle) > 1.0)
    fl_marks_line (d->marks, middle, y, spot.x + 0.5 * spot.width, spot.y + 0.2 * spot.height, fine);
  fl_deck_put (d, text, spot, TRUE, FL_TONE_INK);
}

static gint
ascending (gconstpointer a, gconstpointer b)
{
  const double x = *(const double *) a, y = *(const double *) b;

  return x < y ? -1 : x > y ? 1 : 0;
}

/* Ends of deck and loads in order: each stretch between two of them is dimensioned. */
static GArray *
stations (const FlDeckDrawing *d)
{
  const FlAssessmentParts *parts = fl_assessment_parts (d->assessment);
  GArray *at = g_array_new (FALSE, FALSE, sizeof (double));
  const double deck[] = { 0.0, d->trailer != NULL ? fl_metres (d->trailer->deck_length) : NAN };

  if (isfinite (deck[1]))
    g_array_append_vals (at, deck, 2);
  for (gsize i = 0; i < parts->n_loads; i++)
    if (parts->loads[i].placed)
      {
        g_array_append_val (at, parts->loads[i].outline.min.x);
        g_array_append_val (at, parts->loads[i].outline.max.x);
      }
  g_array_sort (at, ascending);
  return at;
}

static void
lay_along (FlDeckDrawing *d)
{
  g_autoptr(GArray) at = stations (d);
  const double low = fl_deck_up (d, FL_VIEW_PLAN, d->span.y0), y = low + (FL_TIER_EM + 0.5) * d->em;
  double from = at->len > 0 ? g_array_index (at, double, 0) : 0.0;

  for (guint i = 0; i < at->len; i++)
    {
      const double to = g_array_index (at, double, i);

      if (i > 0 && to - from < LEAST_GAP)
        continue;
      fl_marks_line (d->marks, fl_deck_x (d, to), low + 0.2 * d->em, fl_deck_x (d, to), y + 0.4 * d->em,
                     (FlStroke) { FL_TONE_FAINT, FL_TONE_NONE, 0.4, FL_DASH_SOLID });
      if (i > 0)
        along (d, from, to, y);
      from = to;
    }
}

/* ── upright ── */

/* An upright dimension at the left of a view, its text turned to be read from the right. */
static void
upright (FlDeckDrawing *d, FlView view, double from, double to, const char *said)
{
  const double x = fl_deck_x (d, d->span.x0) - 1.2 * d->em, y0 = fl_deck_up (d, view, from), y1 = fl_deck_up (d, view, to);
  PangoLayout *text = fl_deck_text (d, said, FACTOR, view == FL_VIEW_SIDE);
  double w, h;
  FlSpot spot;

  fl_text_size (text, &w, &h);
  spot = fl_spot_about (x, 0.5 * (y0 + y1), h, w + 4.0);
  fl_marks_line (d->marks, x, y0, x, y1, fine);
  tick (d, x, y0);
  tick (d, x, y1);
  fl_marks_line (d->marks, x - 0.4 * d->em, y1, x + 0.9 * d->em, y1, (FlStroke) { FL_TONE_FAINT, FL_TONE_NONE, 0.4, FL_DASH_SOLID });
  fl_marks_line (d->marks, x - 0.4 * d->em, y0, x + 0.9 * d->em, y0, (FlStroke) { FL_TONE_FAINT, FL_TONE_NONE, 0.4, FL_DASH_SOLID });
  if (!fl_labels_place (d->labels, &spot, 1, &spot))
    {
      g_object_unref (text);
      return;
    }
  fl_marks_rect (d->marks, spot.x, spot.y, spot.width, spot.height, FL_FILLED (FL_TONE_PAPER));
  fl_marks_text (d->marks, text, spot.x, spot.y + spot.height - 2.0, -0.5 * G_PI, FL_TONE_INK);
}

static gboolean
all_placed (const FlAssessmentParts *parts)
{
  for (gsize i = 0; i < parts->n_loads; i++)
    if (!parts->loads[i].placed)
      return FALSE;
  return parts->n_loads > 0;
}

static void
lay_upright (FlDeckDrawing *d)
{
  const FlAssessmentParts *parts = fl_assessment_parts (d->assessment);
  const double half = d->trailer != NULL ? 0.5 * fl_metres (d->trailer->deck_width) : NAN;

  if (all_placed (parts) && isfinite (d->ground) && fl_quantity_known (parts->sizes.height))
    {
      g_autofree char *said = fl_say_size (d->words, parts->sizes.height, d->metric, FL_ROUND_UP);

      upright (d, FL_VIEW_SIDE, d->ground, d->ground + fl_metres (parts->sizes.height), said);
    }
  if (isfinite (half) && fl_quantity_known (parts->sizes.width))
    {
      const double wide = 0.5 * fl_metres (parts->sizes.width);
      g_autofree char *said = fl_say_size (d->words, parts->sizes.width, d->metric, FL_ROUND_UP);

      upright (d, FL_VIEW_PLAN, -wide, wide, said);
    }
}

void
fl_deck_lay_dimensions (FlDeckDrawing *d)
{
  lay_along (d);
  lay_upright (d);
}

/* ── legend and the way to the truck ── */

static void
lay_truck_way (FlDeckDrawing *d)
{
  g_autofree char *said = g_strdup_printf ("%s \u2192", fl_words_text (d->words, N_("truck")));
  PangoLayout *text = fl_deck_text (d, said, FACTOR, FALSE);
  const double right = fl_deck_x (d, d->span.x1), y = fl_deck_up (d, FL_VIEW_PLAN, d->span.y1), low = fl_deck_up (d, FL_VIEW_PLAN, d->span.y0);
  double w, h;
  FlSpot spot;

  fl_text_size (text, &w, &h);
  {
    const FlSpot candidates[] = {
      { right - w, y - 0.2 * d->em, w, h }, { right - w, low - 0.8 * d->em, w, h }, { right - w, y - FL_TIER_EM * d->em, w, h },
    };

    if (d->trailer != NULL && fl_labels_place (d->labels, candidates, G_N_ELEMENTS (candidates), &spot))
      fl_deck_put (d, text, spot, FALSE, FL_TONE_INK);
    else
      g_object_unref (text);
  }
}

typedef enum { SAMPLE_OWN, SAMPLE_IMPLEMENT, SAMPLE_EXTENT, N_SAMPLES } Sample;

static void
draw_sample (FlDeckDrawing *d, Sample sample, double x0, double x1, double y)
{
  switch (sample)
    {
    case SAMPLE_OWN:
      fl_marks_line (d->marks, x0, y, x1, y, FL_LINE (FL_TONE_INK, 2.2));
      break;
    case SAMPLE_IMPLEMENT:
      fl_marks_line (d->marks, x0, y, x1, y, (FlStroke) { FL_TONE_INK, FL_TONE_NONE, 3.2, FL_DASH_DASHED });
      fl_marks_line (d->marks, x0, y, x1, y, FL_LINE (FL_TONE_PAPER, 1.5));
      break;
    case SAMPLE_EXTENT:
      fl_marks_line (d->marks, x0, y, x1, y, (FlStroke) { FL_TONE_FAINT, FL_TONE_NONE, 0.6, FL_DASH_DASHED });
      break;
    case N_SAMPLES:
      break;
    }
}

/* What the lines mean, at the foot of the area; left out where it does not fit. */
void
fl_deck_lay_legend (FlDeckDrawing *d)
{
  static const char *const said[N_SAMPLES] = { N_("holds the load"), N_("holds an implement, not counted"), N_("whole extent of the load") };
  const double y = d->layout.height - 0.65 * d->em, stroke = 2.4 * d->em, gap = 0.5 * d->em;
  PangoLayout *texts[N_SAMPLES];
  double widths[N_SAMPLES], all = 0.0, x, h = 0.0;

  lay_truck_way (d);
  for (guint i = 0; i < N_SAMPLES; i++)
    {
      texts[i] = fl_deck_text (d, fl_words_text (d->words, said[i]), 0.85, FALSE);
      fl_text_size (texts[i], &widths[i], &h);
      all += widths[i] + stroke + 3.0 * gap;
    }
  x = 0.5 * (d->layout.width - all) + gap;
  for (guint i = 0; i < N_SAMPLES; i++)
    {
      FlSpot spot = { x + stroke + gap, y - 0.5 * h, widths[i], h };

      if (all <= d->layout.width && fl_labels_place (d->labels, &spot, 1, &spot))
        {
          draw_sample (d, i, x, x + stroke, y);
          fl_marks_text (d->marks, texts[i], spot.x, spot.y, 0.0, FL_TONE_INK);
        }
      else
        g_object_unref (texts[i]);
      x += widths[i] + stroke + 3.0 * gap;
    }
}
