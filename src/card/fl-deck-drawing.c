/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deck drawing as a whole: what it spans, how large it can be, what lies under a place. */
#include "fl-deck-private.h"

#include <math.h>

#define HIT_REACH 6.0           /* units: how near to a tie-down the pointer has to be */
#define SIDE_MARGIN_EM 2.2      /* for the upright dimensions */
#define LEAST_SCALE 1e-3

/* ── small helpers of all parts ── */

double
fl_metres (FlQuantity q)
{
  return fl_quantity_in (q, FL_UNIT_M);
}

double
fl_deck_x (const FlDeckDrawing *d, double x)
{
  return d->origin_x + x * d->scale;
}

double
fl_deck_up (const FlDeckDrawing *d, FlView view, double up)
{
  return d->origin[view] - up * d->scale;
}

double
fl_view_up (FlView view, FlVec at)
{
  return view == FL_VIEW_PLAN ? at.y : at.z;
}

PangoLayout *
fl_deck_text (const FlDeckDrawing *d, const char *text, double factor, gboolean bold)
{
  PangoLayout *layout = pango_layout_new (d->layout.text);
  PangoFontDescription *font = pango_font_description_copy (pango_context_get_font_description (d->layout.text));
  PangoAttrList *attributes = pango_attr_list_new ();

  pango_font_description_set_size (font, (gint) (d->layout.text_size * factor * PANGO_SCALE + 0.5));
  if (bold)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("calt=0"));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_set_text (layout, text, -1);
  pango_attr_list_unref (attributes);
  pango_font_description_free (font);
  return layout;
}

void
fl_deck_put (FlDeckDrawing *d, PangoLayout *text, FlSpot spot, gboolean ground, FlTone tone)
{
  double width, height;

  fl_text_size (text, &width, &height);
  if (ground)
    fl_marks_round_rect (d->marks, spot.x, spot.y, spot.width, spot.height, 0.2 * d->em, FL_FILLED (FL_TONE_PAPER));
  fl_marks_text (d->marks, text, spot.x + 0.5 * (spot.width - width), spot.y + 0.5 * (spot.height - height), 0.0, tone);
}

FlSpot
fl_deck_box_spot (const FlDeckDrawing *d, FlView view, const FlBox *box)
{
  const double x = fl_deck_x (d, box->min.x), y = fl_deck_up (d, view, fl_view_up (view, box->max));

  return (FlSpot) { x, y, fl_deck_x (d, box->max.x) - x, fl_deck_up (d, view, fl_view_up (view, box->min)) - y };
}

void
fl_deck_box (FlDeckDrawing *d, FlView view, const FlBox *box, FlStroke style)
{
  const FlSpot spot = fl_deck_box_spot (d, view, box);

  fl_marks_rect (d->marks, spot.x, spot.y, spot.width, spot.height, style);
}

void
fl_deck_name (FlDeckDrawing *d, PangoLayout *text, double x, double y, double away, FlTone tone)
{
  double w, h;
  FlSpot spot;

  fl_text_size (text, &w, &h);
  {
    const double dx = away + 0.5 * w, dy = away + 0.5 * h;
    const FlSpot candidates[] = {
      fl_spot_about (x + dx, y, w, h), fl_spot_about (x - dx, y, w, h), fl_spot_about (x, y - dy, w, h), fl_spot_about (x, y + dy, w, h),
      fl_spot_about (x + dx, y - dy, w, h), fl_spot_about (x - dx, y - dy, w, h), fl_spot_about (x + dx, y + dy, w, h),
      fl_spot_about (x - dx, y + dy, w, h),
    };

    if (fl_labels_place (d->labels, candidates, G_N_ELEMENTS (candidates), &spot))
      fl_deck_put (d, text, spot, FALSE, tone);
    else
      g_object_unref (text);
  }
}

void
fl_deck_add_segment (FlDeckDrawing *d, FlHit hit, double x0, double y0, double x1, double y1, double reach)
{
  const FlRegion region = { hit, TRUE, x0, y0, x1, y1, reach };

  g_array_append_val (d->regions, region);
}

void
fl_deck_add_box (FlDeckDrawing *d, FlHit hit, FlSpot spot)
{
  const FlRegion region = { hit, FALSE, spot.x, spot.y, spot.x + spot.width, spot.y + spot.height, 0.0 };

  g_array_append_val (d->regions, region);
}

/* ── what it spans ── */

/* fmin and fmax let a NaN pass by: what nobody measured widens nothing. */
static void
widen (FlSpan3 *span, double x, double y, double z)
{
  span->x0 = fmin (span->x0, x);
  span->x1 = fmax (span->x1, x);
  span->y0 = fmin (span->y0, y);
  span->y1 = fmax (span->y1, y);
  span->z0 = fmin (span->z0, z);
  span->z1 = fmax (span->z1, z);
}

static void
widen_box (FlSpan3 *span, FlVec min, FlVec max)
{
  widen (span, min.x, min.y, min.z);
  widen (span, max.x, max.y, max.z);
}

static FlVec
place_vec (const FlPlace *place)
{
  return (FlVec) { fl_metres (place->x), fl_metres (place->y), fl_metres (place->z) };
}

static void
widen_trailer (FlSpan3 *span, const FlTrailer *trailer)
{
  const double half = 0.5 * fl_metres (trailer->deck_width), road = -fl_metres (trailer->deck_height), beside_axle = 0.6;

  widen (span, 0.0, half, 0.0);
  widen (span, fl_metres (trailer->deck_length), -half, road);
  for (gsize i = 0; i < trailer->n_zones; i++)
    {
      widen (span, fl_metres (trailer->zones[i].x0), NAN, fl_metres (trailer->zones[i].z));
      widen (span, fl_metres (trailer->zones[i].x1), NAN, NAN);
    }
  for (gsize i = 0; i < trailer->n_axles; i++)
    {
      widen (span, fl_metres (trailer->axles[i].x) - beside_axle, NAN, NAN);
      widen (span, fl_metres (trailer->axles[i].x) + beside_axle, NAN, NAN);
    }
  for (gsize i = 0; i < trailer->n_anchors; i++)
    widen (span, fl_metres (trailer->anchors[i].x), fl_metres (trailer->anchors[i].y), NAN);
  for (gsize i = 0; i < trailer->n_solids; i++)
    widen_box (span, place_vec (&trailer->solids[i].min), place_vec (&trailer->solids[i].max));
  if (trailer->coupling.present)
    widen (span, fl_metres (trailer->coupling.x) + 0.15, NAN, NAN);
}

static FlSpan3
span_of (const FlAssessment *assessment)
{
  const FlAssessmentParts *parts = fl_assessment_parts (assessment);
  const FlTrailer *trailer = fl_assessment_trailer (assessment);
  FlSpan3 span = { INFINITY, -INFINITY, INFINITY, -INFINITY, INFINITY, -INFINITY };

  if (trailer != NULL)
    widen_trailer (&span, trailer);
  for (gsize i = 0; i < parts->n_loads; i++)
    if (parts->loads[i].placed)
      widen_box (&span, parts->loads[i].outline.min, parts->loads[i].outline.max);
  for (gsize i = 0; i < parts->n_ties; i++)
    for (gsize k = 0; k < parts->ties[i].n_path; k++)
      widen (&span, parts->ties[i].path[k].x, parts->ties[i].path[k].y, parts->ties[i].path[k].z);
  if (!(span.x1 - span.x0 > 0.1 && isfinite (span.x1 - span.x0)))    /* nothing to draw: an empty place of a deck's size */
    span.x0 = 0.0, span.x1 = 6.0;
  if (!(span.y1 - span.y0 > 0.1 && isfinite (span.y1 - span.y0)))
    span.y0 = -1.25, span.y1 = 1.25;
  if (!(span.z1 - span.z0 > 0.1 && isfinite (span.z1 - span.z0)))
    span.z0 = -0.9, span.z1 = 0.5;
  return span;
}

/* ── how large it can be ── */

/* Heights of the fixed strips: the top, the plan's two tiers, dimensions and legend. */
static double
fixed_height (double em)
{
  return em * (FL_TOP_EM + 2.0 * FL_TIER_EM + FL_DIMENSION_EM + FL_LEGEND_EM);
}

static double
em_of (PangoContext *text, double text_size)
{
  FlDeckDrawing probe = { .layout = { .text = text, .text_size = text_size } };
  g_autoptr(PangoLayout) line = fl_deck_text (&probe, "0", 1.0, FALSE);
  double em;

  fl_text_size (line, NULL, &em);
  return em;
}

double
fl_deck_width_for (const FlAssessment *assessment, PangoContext *text, double text_size, double height)
{
  const FlSpan3 span = span_of (assessment);
  const double em = em_of (text, text_size);
  const double scale = (height - fixed_height (em)) / (span.y1 - span.y0 + span.z1 - span.z0);

  return (span.x1 - span.x0) * scale + 2.0 * SIDE_MARGIN_EM * em;
}

/* At zoom 1 all of it fits and stands in the middle; zoom and pan then act about the middle of the area. */
static void
set_scale (FlDeckDrawing *d)
{
  const FlDeckLayout *l = &d->layout;
  const FlSpan3 *s = &d->span;
  const double dx = s->x1 - s->x0, dy = s->y1 - s->y0, dz = s->z1 - s->z0, fixed = fixed_height (d->em);
  const double fit = fmax (LEAST_SCALE, fmin ((l->width - 2.0 * SIDE_MARGIN_EM * d->em) / dx, (l->height - fixed) / (dy + dz)));
  const double zoom = l->zoom > 0.0 ? l->zoom : 1.0;
  const double top = 0.5 * (l->height - fixed - (dy + dz) * fit), tier = FL_TIER_EM * d->em;
  double plan_top, side_top;

  if (l->side_above)
    {
      side_top = top + FL_TOP_EM * d->em;
      plan_top = side_top + dz * fit + tier;
    }
  else
    {
      plan_top = top + tier;
      side_top = plan_top + dy * fit + tier + FL_DIMENSION_EM * d->em + FL_TOP_EM * d->em;
    }
  d->scale = fit * zoom;
  d->origin_x = 0.5 * (l->width - dx * fit) - s->x0 * fit;
  d->origin[FL_VIEW_PLAN] = plan_top + s->y1 * fit;
  d->origin[FL_VIEW_SIDE] = side_top + s->z1 * fit;
  d->origin_x = 0.5 * l->width + (d->origin_x - 0.5 * l->width) * zoom + l->pan_x * d->scale;
  for (guint view = 0; view < G_N_ELEMENTS (d->origin); view++)
    d->origin[view] = 0.5 * l->height + (d->origin[view] - 0.5 * l->height) * zoom - l->pan_y * d->scale;
}

/* ── public ── */

FlDeckDrawing *
fl_deck_drawing_new (const FlAssessment *assessment, const FlDeckLayout *layout, const FlWords *words)
{
  FlDeckDrawing *d = g_new0 (FlDeckDrawing, 1);

  d->assessment = fl_assessment_ref (assessment);
  d->layout = *layout;
  g_object_ref (d->layout.text);
  d->words = words;
  d->trailer = fl_assessment_trailer (assessment);
  d->move = fl_assessment_move (assessment);
  d->metric = (fl_assessment_parts (assessment)->metric != FALSE) != (layout->other_units != FALSE);
  d->em = em_of (layout->text, layout->text_size);
  d->span = span_of (assessment);
  d->ground = d->trailer != NULL ? -fl_metres (d->trailer->deck_height) : NAN;
  d->marks = fl_marks_new ();
  d->labels = fl_labels_new ((FlSpot) { 0.0, 0.0, layout->width, layout->height });
  d->regions = g_array_new (FALSE, FALSE, sizeof (FlRegion));
  set_scale (d);
  fl_deck_lay_trailer (d);
  fl_deck_lay_loads (d);
  fl_deck_lay_dimensions (d);
  fl_deck_lay_ties (d);
  fl_deck_lay_legend (d);
  d->words = NULL;
  return d;
}

void
fl_deck_drawing_free (FlDeckDrawing *d)
{
  if (d == NULL)
    return;
  g_array_unref (d->regions);
  fl_labels_free (d->labels);
  fl_marks_free (d->marks);
  g_object_unref (d->layout.text);
  fl_assessment_unref (d->assessment);
  g_free (d);
}

void
fl_deck_drawing_draw (const FlDeckDrawing *d, cairo_t *cr, const FlInk *ink)
{
  cairo_save (cr);
  cairo_rectangle (cr, 0.0, 0.0, d->layout.width, d->layout.height);
  cairo_clip (cr);
  fl_marks_paint (d->marks, cr, ink);
  cairo_restore (cr);
}

FlMarks *
fl_deck_take_marks (FlDeckDrawing *d)
{
  FlMarks *marks = d->marks;

  d->marks = fl_marks_new ();
  return marks;
}

double
fl_deck_drawing_scale (const FlDeckDrawing *d)
{
  return d->scale;
}

/* ── hits ── */

static double
distance (const FlRegion *r, double x, double y)
{
  const double dx = r->x1 - r->x0, dy = r->y1 - r->y0, length2 = dx * dx + dy * dy;
  const double t = length2 > 0.0 ? CLAMP (((x - r->x0) * dx + (y - r->y0) * dy) / length2, 0.0, 1.0) : 0.0;

  if (r->segment)
    return fmax (0.0, hypot (x - r->x0 - t * dx, y - r->y0 - t * dy) - r->reach);
  return x >= r->x0 && x <= r->x1 && y >= r->y0 && y <= r->y1 ? 0.0 : INFINITY;
}

/* The nearest region of a kind within reach; of equally near ones the last, which is painted on top. */
static const FlRegion *
nearest (const FlDeckDrawing *d, FlHitKind kind, double x, double y)
{
  const FlRegion *found = NULL;
  double least = HIT_REACH;

  for (guint i = 0; i < d->regions->len; i++)
    {
      const FlRegion *region = &g_array_index (d->regions, FlRegion, i);
      const double away = region->hit.kind == kind ? distance (region, x, y) : INFINITY;

      if (away <= least)
        {
          least = away;
          found = region;
        }
    }
  return found;
}

gboolean
fl_deck_drawing_hit (const FlDeckDrawing *d, double x, double y, FlHit *hit)
{
  static const FlHitKind order[] = { FL_HIT_TIE_DOWN, FL_HIT_POINT, FL_HIT_ANCHOR, FL_HIT_LOAD, FL_HIT_TRAILER };

  *hit = (FlHit) { FL_HIT_NOTHING, NULL, -1, -1 };
  for (gsize i = 0; i < G_N_ELEMENTS (order); i++)
    {
      const FlRegion *region = nearest (d, order[i], x, y);

      if (region != NULL)
        {
          *hit = region->hit;
          return TRUE;
        }
    }
  return FALSE;
}
