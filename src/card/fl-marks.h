/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to card. What is on a sheet or in a drawing, as plain data: lines, areas, circles and set text, in the order in which they are
 * painted. It is laid out without a Cairo context; painting only strokes it, so screen, print, PDF and tests see the same. */
#ifndef FL_MARKS_H
#define FL_MARKS_H

#include "fl-deck-drawing.h"

G_BEGIN_DECLS

/* What a line or area is painted with; FlInk says which color that is here. */
typedef enum { FL_TONE_NONE, FL_TONE_INK, FL_TONE_FAINT, FL_TONE_ACCENT, FL_TONE_PAPER } FlTone;
/* Solid; dashes; dots; long-short-long, the shop drawing's centre line. */
typedef enum { FL_DASH_SOLID, FL_DASH_DASHED, FL_DASH_DOTTED, FL_DASH_CENTER } FlDash;

typedef struct
{
  FlTone stroke, fill;
  double width;                 /* of the line, units of the area */
  FlDash dash;
} FlStroke;

/* A line of one weight, and the same closed with paper inside. */
#define FL_LINE(tone, w) ((FlStroke) { .stroke = (tone), .width = (w) })
#define FL_FILLED(tone) ((FlStroke) { .fill = (tone) })

typedef struct _FlMarks FlMarks;

FlMarks *fl_marks_new (void);
void fl_marks_free (FlMarks *marks);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlMarks, fl_marks_free)

void fl_marks_line (FlMarks *marks, double x0, double y0, double x1, double y1, FlStroke style);
/* n points, x and y in turn; copied. */
void fl_marks_polygon (FlMarks *marks, const double *xy, gsize n, gboolean closed, FlStroke style);
void fl_marks_rect (FlMarks *marks, double x, double y, double width, double height, FlStroke style);
/* Corners rounded with `radius`, at most half of the shorter side. */
void fl_marks_round_rect (FlMarks *marks, double x, double y, double width, double height, double radius, FlStroke style);
void fl_marks_circle (FlMarks *marks, double x, double y, double radius, FlStroke style);
/* Text with its upper left corner at (x, y), turned about it by `angle` radians clockwise. Takes the layout. */
void fl_marks_text (FlMarks *marks, PangoLayout *text, double x, double y, double angle, FlTone tone);
/* The outline of a text about its middle (x, y), turned: what stands across a page without hiding what is under it. Takes the layout. */
void fl_marks_outlined (FlMarks *marks, PangoLayout *text, double x, double y, double angle, FlStroke style);
/* All of another list, shifted; takes it. */
void fl_marks_append (FlMarks *marks, FlMarks *block, double dx, double dy);
void fl_marks_paint (const FlMarks *marks, cairo_t *cr, const FlInk *ink);

/* Width and height of a set text, in units of the area. Either may be NULL. */
void fl_text_size (PangoLayout *text, double *width, double *height);

G_END_DECLS
#endif
