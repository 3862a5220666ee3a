/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists of marks, and the only Cairo calls that stroke and fill. */
#include "fl-marks.h"

#include <math.h>
#include <pango/pangocairo.h>

typedef enum { MARK_POLYGON, MARK_ROUND_RECT, MARK_CIRCLE, MARK_TEXT, MARK_OUTLINED } MarkKind;

typedef struct
{
  MarkKind kind;
  FlStroke style;
  gsize first, n;               /* its points */
  gboolean closed;
  double x, y, width, height;   /* height is unused by a circle, whose radius is `radius` */
  double radius, angle;
  PangoLayout *text;
} Mark;

struct _FlMarks
{
  GArray *marks;                /* Mark */
  GArray *points;               /* double, x and y in turn */
};

const FlInk fl_ink_print = {
  .ink = { 0.0, 0.0, 0.0 }, .paper = { 1.0, 1.0, 1.0 }, .faint = { 0.42, 0.42, 0.42 }, .accent = { 0.0, 0.0, 0.0 },
};

static void
clear_mark (gpointer data)
{
  Mark *mark = data;

  g_clear_object (&mark->text);
}

FlMarks *
fl_marks_new (void)
{
  FlMarks *marks = g_new0 (FlMarks, 1);

  marks->marks = g_array_new (FALSE, FALSE, sizeof (Mark));
  g_array_set_clear_func (marks->marks, clear_mark);
  marks->points = g_array_new (FALSE, FALSE, sizeof (double));
  return marks;
}

void
fl_marks_free (FlMarks *marks)
{
  if (marks == NULL)
    return;
  g_array_unref (marks->marks);
  g_array_unref (marks->points);
  g_free (marks);
}

static void
add (FlMarks *marks, Mark mark)
{
  g_array_append_val (marks->marks, mark);
}

void
fl_marks_line (FlMarks *marks, double x0, double y0, double x1, double y1, FlStroke style)
{
  const double xy[] = { x0, y0, x1, y1 };

  fl_marks_polygon (marks, xy, 2, FALSE, style);
}

void
fl_marks_polygon (FlMarks *marks, const double *xy, gsize n, gboolean closed, FlStroke style)
{
  const gsize first = marks->points->len;

  g_array_append_vals (marks->points, xy, (guint) (2 * n));
  add (marks, (Mark) { .kind = MARK_POLYGON, .style = style, .first = first, .n = n, .closed = closed });
}

void
fl_marks_rect (FlMarks *marks, double x, double y, double width, double height, FlStroke style)
{
  const double xy[] = { x, y, x + width, y, x + width, y + height, x, y + height };

  fl_marks_polygon (marks, xy, 4, TRUE, style);
}

void
fl_marks_round_rect (FlMarks *marks, double x, double y, double width, double height, double radius, FlStroke style)
{
  add (marks, (Mark) { .kind = MARK_ROUND_RECT, .style = style, .x = x, .y = y, .width = width, .height = height,
                       .radius = fmin (radius, 0.5 * fmin (width, height)) });
}

void
fl_marks_circle (FlMarks *marks, double x, double y, double radius, FlStroke style)
{
  add (marks, (Mark) { .kind = MARK_CIRCLE, .style = style, .x = x, .y = y, .radius = radius });
}

void
fl_marks_text (FlMarks *marks, PangoLayout *text, double x, double y, double angle, FlTone tone)
{
  add (marks, (Mark) { .kind = MARK_TEXT, .style = FL_FILLED (tone), .x = x, .y = y, .angle = angle, .text = text });
}

void
fl_marks_outlined (FlMarks *marks, PangoLayout *text, double x, double y, double angle, FlStroke style)
{
  add (marks, (Mark) { .kind = MARK_OUTLINED, .style = style, .x = x, .y = y, .angle = angle, .text = text });
}

void
fl_marks_append (FlMarks *marks, FlMarks *block, double dx, double dy)
{
  const gsize first = marks->points->len;

  for (guint i = 0; i < block->points->len; i++)
    {
      const double value = g_array_index (block->points, double, i) + (i % 2 == 0 ? dx : dy);

      g_array_append_val (marks->points, value);
    }
  for (guint i = 0; i < block->marks->len; i++)
    {
      Mark mark = g_array_index (block->marks, Mark, i);

      mark.first += first;
      mark.x += dx;
      mark.y += dy;
      if (mark.text != NULL)
        g_object_ref (mark.text);
      add (marks, mark);
    }
  fl_marks_free (block);
}

void
fl_text_size (PangoLayout *text, double *width, double *height)
{
  PangoRectangle extents;

  pango_layout_get_extents (text, NULL, &extents);
  if (width != NULL)
    *width = (double) extents.width / PANGO_SCALE;
  if (height != NULL)
    *height = (double) extents.height / PANGO_SCALE;
}

/* ── painting ── */

static void
set_tone (cairo_t *cr, const FlInk *ink, FlTone tone)
{
  const double *color = ink->ink;

  switch (tone)
    {
    case FL_TONE_NONE:
    case FL_TONE_INK:
      break;
    case FL_TONE_FAINT:
      color = ink->faint;
      break;
    case FL_TONE_ACCENT:
      color = ink->accent;
      break;
    case FL_TONE_PAPER:
      color = ink->paper;
      break;
    }
  cairo_set_source_rgb (cr, color[0], color[1], color[2]);
}

/* Dashes grow with the line, so that a heavy dashed line still shows its gaps, but stay short enough for short runs. */
static void
set_dash (cairo_t *cr, const FlStroke *style)
{
  const double unit = CLAMP (style->width, 1.0, 1.6);
  const double dashed[] = { 3.2 * unit, 2.2 * unit }, dotted[] = { 1.1 * unit, 1.6 * unit };
  const double center[] = { 8.0 * unit, 2.0 * unit, 1.6 * unit, 2.0 * unit };

  switch (style->dash)
    {
    case FL_DASH_SOLID:
      cairo_set_dash (cr, NULL, 0, 0.0);
      break;
    case FL_DASH_DASHED:
      cairo_set_dash (cr, dashed, G_N_ELEMENTS (dashed), 0.0);
      break;
    case FL_DASH_DOTTED:
      cairo_set_dash (cr, dotted, G_N_ELEMENTS (dotted), 0.0);
      break;
    case FL_DASH_CENTER:
      cairo_set_dash (cr, center, G_N_ELEMENTS (center), 0.0);
      break;
    }
}

static void
paint_path (cairo_t *cr, const FlStroke *style, const FlInk *ink)
{
  if (style->fill != FL_TONE_NONE)
    {
      set_tone (cr, ink, style->fill);
      cairo_fill_preserve (cr);
    }
  if (style->stroke != FL_TONE_NONE)
    {
      set_tone (cr, ink, style->stroke);
      cairo_set_line_width (cr, style->width);
      set_dash (cr, style);
      cairo_stroke_preserve (cr);
    }
  cairo_new_path (cr);
}

static void
polygon_path (cairo_t *cr, const FlMarks *marks, const Mark *mark)
{
  const double *xy = (const double *) (gconstpointer) marks->points->data + mark->first;

  for (gsize i = 0; i < mark->n; i++)
    cairo_line_to (cr, xy[2 * i], xy[2 * i + 1]);
  if (mark->closed)
    cairo_close_path (cr);
}

static void
round_rect_path (cairo_t *cr, const Mark *mark)
{
  const double r = mark->radius, x1 = mark->x + mark->width, y1 = mark->y + mark->height, quarter = 0.5 * G_PI;

  cairo_arc (cr, x1 - r, mark->y + r, r, -quarter, 0.0);
  cairo_arc (cr, x1 - r, y1 - r, r, 0.0, quarter);
  cairo_arc (cr, mark->x + r, y1 - r, r, quarter, 2.0 * quarter);
  cairo_arc (cr, mark->x + r, mark->y + r, r, 2.0 * quarter, 3.0 * quarter);
  cairo_close_path (cr);
}

static void
paint_text (cairo_t *cr, const Mark *mark, const FlInk *ink)
{
  cairo_save (cr);
  cairo_translate (cr, mark->x, mark->y);
  cairo_rotate (cr, mark->angle);
  cairo_move_to (cr, 0.0, 0.0);
  set_tone (cr, ink, mark->style.fill);
  pango_cairo_show_layout (cr, mark->text);
  cairo_restore (cr);
  cairo_new_path (cr);
}

static void
paint_outlined (cairo_t *cr, const Mark *mark, const FlInk *ink)
{
  double width, height;

  fl_text_size (mark->text, &width, &height);
  cairo_save (cr);
  cairo_translate (cr, mark->x, mark->y);
  cairo_rotate (cr, mark->angle);
  cairo_move_to (cr, -0.5 * width, -0.5 * height);
  pango_cairo_layout_path (cr, mark->text);
  cairo_restore (cr);
  paint_path (cr, &mark->style, ink);
}

static void
paint_mark (cairo_t *cr, const FlMarks *marks, const Mark *mark, const FlInk *ink)
{
  switch (mark->kind)
    {
    case MARK_POLYGON:
      polygon_path (cr, marks, mark);
      paint_path (cr, &mark->style, ink);
      break;
    case MARK_ROUND_RECT:
      round_rect_path (cr, mark);
      paint_path (cr, &mark->style, ink);
      break;
    case MARK_CIRCLE:
      cairo_arc (cr, mark->x, mark->y, mark->radius, 0.0, 2.0 * G_PI);
      cairo_close_path (cr);
      paint_path (cr, &mark->style, ink);
      break;
    case MARK_TEXT:
      paint_text (cr, mark, ink);
      break;
    case MARK_OUTLINED:
      paint_outlined (cr, mark, ink);
      break;
    }
}

void
fl_marks_paint (const FlMarks *marks, cairo_t *cr, const FlInk *ink)
{
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  for (guint i = 0; i < marks->marks->len; i++)
    paint_mark (cr, marks, &g_array_index (marks->marks, Mark, i), ink);
  cairo_restore (cr);
}
