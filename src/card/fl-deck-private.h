/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to card. The parts of a deck drawing while it is laid out, one file for each: trailer, loads, tie-downs, dimensions. */
#ifndef FL_DECK_PRIVATE_H
#define FL_DECK_PRIVATE_H

#include "fl-card-say.h"
#include "fl-deck-drawing.h"
#include "fl-labels.h"
#include "fl-marks.h"

G_BEGIN_DECLS

/* Plan view: y of the trailer points up. Side elevation, seen from the right: z points up. In both x, forward, points right. */
typedef enum { FL_VIEW_PLAN, FL_VIEW_SIDE } FlView;

/* What the drawing spans, metres in the trailer frame. */
typedef struct { double x0, x1, y0, y1, z0, z1; } FlSpan3;

/* A place that answers to the pointer: a segment (within `reach`) or a box. */
typedef struct
{
  FlHit hit;
  gboolean segment;
  double x0, y0, x1, y1, reach;
} FlRegion;

struct _FlDeckDrawing
{
  FlAssessment *assessment;
  FlDeckLayout layout;          /* its text context is referenced */
  const FlWords *words;         /* while it is laid out */
  const FlTrailer *trailer;     /* NULL: none */
  const FlMove *move;
  gboolean metric;
  double em;                    /* height of a line of text */
  FlSpan3 span;
  double ground;                /* z of the road; NaN: the deck's height is not known */
  double scale;                 /* units for one metre, in both axes of both views */
  double origin_x;              /* where x = 0 lies in the area */
  double origin[2];             /* where y = 0 of the plan view, z = 0 of the side elevation lies */
  FlMarks *marks;
  FlLabels *labels;
  GArray *regions;              /* FlRegion */
};

/* A quantity in metres; NaN where it is not known. */
double fl_metres (FlQuantity q);

double fl_deck_x (const FlDeckDrawing *d, double x);
/* y or z, as the view has it, to the area. */
double fl_deck_up (const FlDeckDrawing *d, FlView view, double up);
/* The coordinate of a point that points up in a view. */
double fl_view_up (FlView view, FlVec at);

/* The width the drawing takes when it is `height` high and its scale is set by that height: what the card plans its page with. */
double fl_deck_width_for (const FlAssessment *assessment, PangoContext *text, double text_size, double height);

/* All that was drawn, for the page that the drawing becomes part of; the drawing is empty then. (transfer full) */
FlMarks *fl_deck_take_marks (FlDeckDrawing *d);

/* A text in the drawing's font; factor 1: its own size. (transfer full) */
PangoLayout *fl_deck_text (const FlDeckDrawing *d, const char *text, double factor, gboolean bold);
/* A placed label: its text in the middle of the spot, on paper where `ground`. Takes the text. */
void fl_deck_put (FlDeckDrawing *d, PangoLayout *text, FlSpot spot, gboolean ground, FlTone tone);
/* A box of the trailer frame in a view. */
void fl_deck_box (FlDeckDrawing *d, FlView view, const FlBox *box, FlStroke style);
FlSpot fl_deck_box_spot (const FlDeckDrawing *d, FlView view, const FlBox *box);
/* A small text near a point: right, left, above, below of it, else left out. Takes the text. */
void fl_deck_name (FlDeckDrawing *d, PangoLayout *text, double x, double y, double away, FlTone tone);

void fl_deck_add_segment (FlDeckDrawing *d, FlHit hit, double x0, double y0, double x1, double y1, double reach);
void fl_deck_add_box (FlDeckDrawing *d, FlHit hit, FlSpot spot);

/* The parts, in the order in which they are laid out; each adds marks, obstacles and regions. */
void fl_deck_lay_trailer (FlDeckDrawing *d);
void fl_deck_lay_loads (FlDeckDrawing *d);
void fl_deck_lay_dimensions (FlDeckDrawing *d);
void fl_deck_lay_ties (FlDeckDrawing *d);
void fl_deck_lay_legend (FlDeckDrawing *d);

/* The symbol of an anchor in the plan view, in area units about its middle. */
void fl_deck_anchor_symbol (FlDeckDrawing *d, const FlAnchor *anchor, gboolean used);

/* Radius of a number's circle. */
#define FL_BALLOON_EM 0.66
/* Room kept for numbers and names beside the deck, for dimensions and the legend under it, above the side elevation. */
#define FL_TIER_EM 1.6
#define FL_DIMENSION_EM 2.3
#define FL_LEGEND_EM 1.3
#define FL_TOP_EM 0.4

G_END_DECLS
#endif
