/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The load on its trailer drawn to scale, plan view and side elevation: one layout for screen, print, PDF and tests. The layout holds boxes,
 * lines, labels and hit regions and no Cairo context; drawing only strokes what was laid out. Lines differ by weight and pattern, numbers name
 * them: no meaning by color alone. */
#ifndef FL_DECK_DRAWING_H
#define FL_DECK_DRAWING_H

#include <cairo.h>
#include <pango/pango.h>
#include "fl-assessment.h"
#include "fl-words.h"

G_BEGIN_DECLS

typedef struct _FlDeckDrawing FlDeckDrawing;

typedef enum { FL_HIT_NOTHING, FL_HIT_TIE_DOWN, FL_HIT_ANCHOR, FL_HIT_POINT, FL_HIT_LOAD, FL_HIT_TRAILER } FlHitKind;
typedef struct { FlHitKind kind; const char *id; gint tie_down, load; } FlHit;

/* Colors of the surroundings: ink on paper in print, the theme's on screen. */
typedef struct { double ink[3], paper[3], faint[3], accent[3]; } FlInk;
extern const FlInk fl_ink_print;          /* black on white */

typedef struct
{
  double width, height;         /* of the area, in the units of the Cairo context (points on paper, pixels on screen) */
  PangoContext *text;           /* the card's own font map on paper, the widget's on screen */
  double text_size;             /* points of the labels */
  double zoom, pan_x, pan_y;    /* 1, 0, 0: all of it fits; pan: metres that it is moved to the right and up */
  gint selected;                /* index of a tie-down drawn heavy; -1 none */
  gboolean other_units;         /* dimensions in the system that the fleet does not count in */
  gboolean side_above;          /* the side elevation stands above the plan view (else below) */
} FlDeckLayout;

/* Lays out an assessment. `words` NULL: English. (transfer full) */
FlDeckDrawing *fl_deck_drawing_new (const FlAssessment *assessment, const FlDeckLayout *layout, const FlWords *words);
void fl_deck_drawing_free (FlDeckDrawing *drawing);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlDeckDrawing, fl_deck_drawing_free)
void fl_deck_drawing_draw (const FlDeckDrawing *drawing, cairo_t *cr, const FlInk *ink);
/* What lies under a place of the area; nearest tie-down within 6 units first. FALSE: nothing. */
gboolean fl_deck_drawing_hit (const FlDeckDrawing *drawing, double x, double y, FlHit *hit);
/* Units of the area a metre takes: what a drag of dx pixels moves the load. */
double fl_deck_drawing_scale (const FlDeckDrawing *drawing);

G_END_DECLS
#endif
