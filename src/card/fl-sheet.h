/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to card. How the pages are set: sizes of type, two languages, and blocks that know their height before they get their place. */
#ifndef FL_SHEET_H
#define FL_SHEET_H

#include "fl-card-say.h"
#include "fl-card.h"
#include "fl-marks.h"

G_BEGIN_DECLS

typedef enum
{
  FL_TYPE_HERO,                 /* unit numbers, loaded height */
  FL_TYPE_TITLE,
  FL_TYPE_HEADING,
  FL_TYPE_STRONG,               /* body, bold */
  FL_TYPE_BODY,
  FL_TYPE_SMALL,                /* second lines */
  FL_TYPE_LABEL,                /* over a figure, beside a line to write on */
  FL_TYPE_FINE,                 /* cautions, footer */
  FL_N_TYPES
} FlType;

/* Everything a page is made from, read while the card is laid out. */
typedef struct
{
  const FlAssessment *assessment;
  const FlAssessmentParts *parts;
  const FlPlanChoices *choices;
  const FlTrailer *trailer;     /* NULL: not known */
  const FlMove *move;           /* NULL: not known */
  const FlWords *words, *second;    /* NULL second: one language */
  const FlSignature *signature; /* NULL: a draft */
  PangoContext *context;
  double width, height;         /* of the text area, points */
  gboolean metric, bilingual;
} FlPen;

#define FL_MARGIN_X 31.0
#define FL_MARGIN_Y 24.0
#define FL_GAP 5.0              /* between blocks */
#define FL_GUTTER 16.0          /* between columns */
#define FL_LINE_TO_WRITE 26.0   /* a gloved hand: 0.36 in */
#define FL_BOX 9.5              /* a box to tick */
#define FL_BOX_INDENT 15.0

double fl_type_size (FlType type);

/* A text set in a type, wrapped at `width` (0: one line). (transfer full) */
PangoLayout *fl_pen_text (const FlPen *pen, FlType type, const char *text, double width);
/* The same in two languages: the second smaller, after a gap on the line or `below` on its own; NULL or equal: once. (transfer full) */
PangoLayout *fl_pen_two (const FlPen *pen, FlType type, const char *first, const char *second, gboolean below, double width);
/* A message on one line (or two, the second language `below`), the second language only where it fits the width. (transfer full) */
PangoLayout *fl_pen_label (const FlPen *pen, FlType type, const char *message, gboolean below, double width);
/* The second language's text of a message id, NULL where there is none. */
const char *fl_pen_second (const FlPen *pen, const char *message);

typedef struct
{
  const FlPen *pen;
  FlMarks *marks;
  double width, height;
} FlBlock;

FlBlock *fl_block_new (const FlPen *pen, double width);
void fl_block_free (FlBlock *block);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlBlock, fl_block_free)

/* Puts a set text at (x, y); its height. Takes the layout. */
double fl_block_put (FlBlock *block, PangoLayout *text, double x, double y);
/* The same with the text's right edge at x. */
double fl_block_put_right (FlBlock *block, PangoLayout *text, double x, double y);
/* Text at the foot of the block, which grows by it. */
void fl_block_add (FlBlock *block, FlType type, const char *text, double x);
/* A message in both languages at the foot of the block; the second below the first. */
void fl_block_add_message (FlBlock *block, FlType type, const char *message, double x);
/* A heading over a thin rule. */
void fl_block_heading (FlBlock *block, const char *message);
/* A box to tick and what it is for, in both languages; the height taken. */
double fl_block_tick (FlBlock *block, const char *first, const char *second, double x, double y, double width);
/* Another block under it; takes it. */
void fl_block_join (FlBlock *block, FlBlock *other, double gap);
/* A label with a line to write on after it, from x to x + width, at the foot of a row that is `height` high. */
void fl_block_write_line (FlBlock *block, const char *message, double x, double y, double width, double height);

/* A sentence with its first letter large. Takes the text. (transfer full) */
char *fl_capital (char *text);

/* Lists of ticks in equal columns, filled downward. */
typedef struct { char *first, *second; } FlLine;
GArray *fl_lines_new (void);    /* (transfer full) array of FlLine that frees its texts */
/* Adds a message with its facts, in the languages of the pen. */
void fl_lines_add (GArray *lines, const FlPen *pen, const char *message, const FlFact *facts, gsize n_facts);
void fl_block_ticks (FlBlock *block, GArray *lines, guint columns);

G_END_DECLS
#endif
