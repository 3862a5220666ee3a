/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which block goes on which page. The front is laid out first; what is left of it at the end is given to the drawing. What does not fit on
 * front or back goes on further pages, never smaller. */
#include "fl-card-private.h"
#include "fl-deck-private.h"

#include <math.h>

#define FOOTER_LINE 10.0        /* the fine print at the foot of a page: one line on the front, all of it on the other pages */
#define FOOTER_GAP 7.0
#define DRAWING_TEXT 7.5        /* points of the labels in the drawing */
#define DRAWING_LEAST 140.0
#define DRAWING_GOOD 205.0
#define DRAWING_MOST 262.0
#define COLUMN 186.0            /* the column beside a narrow drawing */
#define LOG_LEAST 3
#define LOG_GOOD 5
#define LOG_MOST 12
#define AGAINST_SHARE 0.3       /* of the front that shortfalls may take */

/* A card while its pages are filled. */
typedef struct
{
  const FlPen *pen;
  GPtrArray *pages;
  double y;                     /* how far the current page is filled */
  guint page;
  GPtrArray *rows, *notes;      /* FlBlock; those that have no place yet begin at next_row and next_note */
  guint next_row, next_note;
  gsize next_shortfall;
} Flow;

/* ── pages ── */

/* "DRAFT" across the page, in outline: it copies, and what stands under it can be read. */
static void
mark_draft (const FlPen *pen, FlMarks *page)
{
  const FlCardState state = fl_card_state (pen);
  const double angle = -atan2 (pen->height, pen->width) * 0.92, size = state == FL_CARD_DRAFT ? 178.0 : 84.0;
  const char *word = fl_words_text (pen->words, N_("DRAFT")), *more = NULL;
  g_autofree char *text = NULL;
  PangoLayout *layout;
  PangoAttrList *attributes;

  if (state == FL_CARD_SIGNED)
    return;
  if (state == FL_CARD_DRAFT_NOT_COMPLIANT)
    more = N_("NOT COMPLIANT");
  else if (state == FL_CARD_DRAFT_INCOMPLETE)
    more = N_("INCOMPLETE");
  else if (state == FL_CARD_DRAFT_HOUSE)
    more = N_("HOUSE RULE");
  text = more != NULL ? g_strdup_printf ("%s\n%s", word, fl_words_text (pen->words, more)) : g_strdup (word);
  layout = fl_pen_text (pen, FL_TYPE_HERO, text, 0.0);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  attributes = pango_attr_list_copy (pango_layout_get_attributes (layout));
  pango_attr_list_change (attributes, pango_attr_size_new ((gint) (size * PANGO_SCALE)));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  fl_marks_outlined (page, layout, FL_MARGIN_X + 0.5 * pen->width, FL_MARGIN_Y + 0.5 * pen->height, angle,
                     (FlStroke) { FL_TONE_FAINT, FL_TONE_NONE, 0.9, state == FL_CARD_DRAFT ? FL_DASH_DOTTED : FL_DASH_SOLID });
}

static void
put_block (Flow *flow, FlBlock *block, double gap)
{
  fl_marks_append (g_ptr_array_index (flow->pages, flow->page), g_steal_pointer (&block->marks), FL_MARGIN_X, FL_MARGIN_Y + flow->y + gap);
  flow->y += gap + block->height;
  g_free (block);
}

static void
new_page (Flow *flow)
{
  FlMarks *page = fl_marks_new ();

  mark_draft (flow->pen, page);
  g_ptr_array_add (flow->pages, page);
  flow->page = flow->pages->len - 1;
  flow->y = 0.0;
  put_block (flow, fl_card_masthead (flow->pen, flow->page == 0), 0.0);
}

/* Height kept free at the foot of a page. */
static double
footer (guint page)
{
  return FOOTER_GAP + (page == 0 ? 1.0 : 2.0) * FOOTER_LINE;
}

static double
room (const Flow *flow)
{
  return flow->pen->height - footer (flow->page) - flow->y;
}

/* On the current page, or on a new one at the end. */
static void
flow_block (Flow *flow, FlBlock *block, double gap)
{
  if (gap + block->height > room (flow))
    new_page (flow);
  put_block (flow, block, gap);
}

/* "US federal cargo securement, ..., edition 2026-10 (0f1e2d3c)". */
static char *
book_text (const FlPen *pen)
{
  const FlBookStamp *book = &pen->parts->book;
  const char *title = book->title != NULL ? book->title : book->id != NULL ? book->id : "?";
  g_autofree char *stamp = book->sha256 != NULL ? g_strdup_printf (" (%.8s)", book->sha256) : g_strdup ("");
  g_autofree char *said = fl_card_say (pen->words, N_("{title}, edition {edition}"), "title", title, "edition", book->edition != NULL ? book->edition : "?");

  return g_strconcat (said, stamp, NULL);
}

static void
put_footers (Flow *flow)
{
  const FlPen *pen = flow->pen;
  g_autofree char *book = book_text (pen);

  for (guint i = 0; i < flow->pages->len; i++)
    {
      FlBlock *block = fl_block_new (pen, pen->width);
      g_autofree char *n = g_strdup_printf ("%u", i + 1), *of = g_strdup_printf ("%u", flow->pages->len);
      g_autofree char *number = fl_card_say (pen->words, N_("page {n} of {of}"), "n", n, "of", of);
      g_autofree char *code = fl_card_state (pen) == FL_CARD_SIGNED ? g_strdup_printf ("%s   %s", pen->signature->code, number) : g_strdup (number);
      PangoLayout *text = fl_pen_text (pen, FL_TYPE_FINE, book, pen->width - 120.0);

      pango_layout_set_height (text, i == 0 ? -1 : -2);      /* lines */
      pango_layout_set_ellipsize (text, PANGO_ELLIPSIZE_END);
      fl_marks_line (block->marks, 0.0, 0.0, pen->width, 0.0, FL_LINE (FL_TONE_INK, 0.4));
      fl_block_put (block, text, 0.0, 2.5);
      fl_block_put_right (block, fl_pen_text (pen, FL_TYPE_FINE, code, 0.0), pen->width, 2.5);
      flow->page = i;
      flow->y = pen->height - footer (i) + FOOTER_GAP - 2.0;
      put_block (flow, block, 0.0);
    }
}

static double
heights (GPtrArray *blocks)
{
  double sum = 0.0;

  for (guint i = 0; i < blocks->len; i++)
    sum += ((FlBlock *) g_ptr_array_index (blocks, i))->height;
  return sum;
}

static void
put_notes (Flow *flow)
{
  for (double gap = FL_GAP; flow->next_note < flow->notes->len; gap = 0.0)
    flow_block (flow, g_ptr_array_index (flow->notes, flow->next_note++), gap);
}

/* Puts the notes from the first on that go into so much room, what to look at before all. Returns what they take. */
static double
put_notes_within (Flow *flow, double left)
{
  double used = 0.0;

  for (double gap = FL_GAP; flow->next_note < flow->notes->len; gap = 0.0)
    {
      FlBlock *note = g_ptr_array_index (flow->notes, flow->next_note);

      if (used + gap + note->height > left)
        break;
      used += gap + note->height;
      flow->next_note++;
      flow_block (flow, note, gap);
    }
  return used;
}

/* ── the picture: the drawing and the facts that go with it ── */

typedef enum
{
  PICTURE_FULL,                 /* place, sizes and the axles' table, beside the drawing or below it */
  PICTURE_SHORT,                /* place and sizes beside it, the axles on a line below */
  PICTURE_TIGHT,                /* the same without the axles, which go to the notes */
  PICTURE_BARE                  /* the drawing alone; the facts go to the notes */
} PictureKind;

typedef struct
{
  PictureKind kind;
  FlBlock *beside, *below;      /* either may be NULL */
  double width, least;          /* of the drawing; least height of it all */
} Picture;

static FlBlock *
drawing_block (const FlPen *pen, double width, double height)
{
  FlBlock *block = fl_block_new (pen, width);
  const FlDeckLayout layout = { .width = width, .height = height, .text = pen->context, .text_size = DRAWING_TEXT, .zoom = 1.0, .selected = -1, .side_above = TRUE };
  FlDeckDrawing *drawing = fl_deck_drawing_new (pen->assessment, &layout, pen->words);

  fl_marks_append (block->marks, fl_deck_take_marks (drawing), 0.0, 0.0);
  fl_deck_drawing_free (drawing);
  block->height = height;
  return block;
}

static FlBlock *
facts_column (const FlPen *pen, double width, gboolean axles)
{
  FlBlock *block = fl_card_stand (pen, width, 0, pen->parts->n_loads);

  fl_block_join (block, fl_card_sizes (pen, width), FL_GAP);
  if (axles)
    fl_block_join (block, fl_card_axles (pen, width), FL_GAP);
  return block;
}

static FlBlock *
facts_row (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const double third = (pen->width - 2.0 * FL_GUTTER) / 3.0;
  FlBlock *const parts[] = { fl_card_stand (pen, third, 0, pen->parts->n_loads), fl_card_sizes (pen, third + 14.0), fl_card_axles (pen, third - 14.0) };
  double x = 0.0;

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      fl_marks_append (block->marks, g_steal_pointer (&parts[i]->marks), x, 0.0);
      x += parts[i]->width + FL_GUTTER;
      block->height = fmax (block->height, parts[i]->height);
      g_free (parts[i]);
    }
  return block;
}

/* A long trailer is drawn over the whole width while there is room for that; a short one has its facts beside it. */
static Picture
plan_picture (const FlPen *pen, PictureKind kind)
{
  const double beside = pen->width - FL_GUTTER - COLUMN, natural = fl_deck_width_for (pen->assessment, pen->context, DRAWING_TEXT, DRAWING_GOOD);
  Picture picture = { .kind = kind, .width = beside };

  if (kind == PICTURE_BARE)
    {
      picture.width = pen->width;
      picture.least = DRAWING_LEAST;
    }
  else if (kind != PICTURE_FULL)
    {
      picture.beside = facts_column (pen, COLUMN, FALSE);
      picture.below = kind == PICTURE_SHORT ? fl_card_axles_line (pen) : NULL;
      picture.least = fmax (DRAWING_LEAST, picture.beside->height) + (picture.below != NULL ? FL_GAP + picture.below->height : 0.0);
    }
  else if (natural <= 1.1 * beside)
    {
      picture.beside = facts_column (pen, COLUMN, TRUE);
      picture.least = fmax (DRAWING_GOOD, picture.beside->height);
    }
  else
    {
      picture.width = pen->width;
      picture.below = facts_row (pen);
      picture.least = DRAWING_GOOD + FL_GAP + picture.below->height;
    }
  return picture;
}

static void
drop_picture (Picture *picture)
{
  fl_block_free (picture->beside);
  fl_block_free (picture->below);
}

/* All of it, as high as there is room for, but no higher than the drawing can use. Takes the picture's blocks. */
static FlBlock *
picture_block (const FlPen *pen, Picture *picture, double height)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const double below = picture->below != NULL ? FL_GAP + picture->below->height : 0.0, column = picture->beside != NULL ? picture->beside->height : 0.0;
  const double drawn = fmin (fmax (height, picture->least) - below, fmax (DRAWING_MOST, column));

  fl_block_join (block, drawing_block (pen, picture->width, drawn), 0.0);
  if (picture->beside != NULL)
    {
      fl_marks_append (block->marks, g_steal_pointer (&picture->beside->marks), picture->width + FL_GUTTER, 0.0);
      g_free (picture->beside);
    }
  if (picture->below != NULL)
    fl_block_join (block, picture->below, FL_GAP);
  return block;
}

/* ── the front ── */

static GPtrArray *
table_rows (const FlPen *pen)
{
  GPtrArray *rows = g_ptr_array_new ();

  for (gsize i = 0; i < pen->choices->n_tie_downs; i++)
    g_ptr_array_add (rows, fl_card_table_row (pen, i));
  return rows;
}

/* Puts as many rows as fit above `keep`, at least `least`; with the table's head. */
static void
put_rows (Flow *flow, double keep, guint least)
{
  put_block (flow, fl_card_table_head (flow->pen), FL_GAP);
  for (guint n = 0; flow->next_row < flow->rows->len; n++)
    {
      FlBlock *row = g_ptr_array_index (flow->rows, flow->next_row);

      if (n >= least && row->height > room (flow) - keep)
        break;
      put_block (flow, row, 0.0);
      flow->next_row++;
    }
}

/* Says that the rest of the table stands on another page. */
static FlBlock *
continued (const FlPen *pen, guint first, guint last)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  g_autofree char *from = g_strdup_printf ("%u", first), *to = g_strdup_printf ("%u", last);
  g_autofree char *said = fl_card_say (pen->words, N_("Tie-downs {from} to {to} stand on page 3 and after."), "from", from, "to", to);

  fl_block_add (block, FL_TYPE_STRONG, said, 0.0);
  return block;
}

/* The fullest picture that lets table and notes stand on the front; the notes may go to the back instead, where `spare` is free. Where even the
 * tightest leaves no room for the whole table, `rows` high, the table breaks, and the picture need not be the tightest. */
static Picture
choose_picture (const Flow *flow, double left, double rows, double notes, double spare, gboolean *notes_here)
{
  static const struct { PictureKind kind; gboolean notes_here, any_spare; } ways[] = {
    { PICTURE_FULL, TRUE, TRUE }, { PICTURE_FULL, FALSE, FALSE }, { PICTURE_SHORT, TRUE, TRUE }, { PICTURE_SHORT, FALSE, FALSE },
    { PICTURE_SHORT, FALSE, TRUE }, { PICTURE_TIGHT, FALSE, TRUE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      Picture picture = plan_picture (flow->pen, ways[i].kind);

      *notes_here = ways[i].notes_here;
      if (left - (ways[i].notes_here ? notes : 0.0) >= picture.least && (ways[i].any_spare || notes <= spare))
        return picture;
      drop_picture (&picture);
    }
  *notes_here = FALSE;
  for (PictureKind kind = PICTURE_SHORT; kind < PICTURE_BARE; kind++)
    {
      Picture picture = plan_picture (flow->pen, kind);

      if (left + rows >= picture.least)
        return picture;
      drop_picture (&picture);
    }
  return plan_picture (flow->pen, PICTURE_BARE);
}

/* What the front has no room for goes to the notes, in its order. */
static void
put_or_defer (Flow *flow, FlBlock *block, double keep)
{
  if (FL_GAP + block->height <= room (flow) - keep)
    put_block (flow, block, FL_GAP);
  else
    g_ptr_array_add (flow->notes, block);
}

static void
defer_facts (Flow *flow, PictureKind kind)
{
  const FlPen *pen = flow->pen;

  if (kind == PICTURE_BARE)
    {
      for (gsize i = 0; i < pen->parts->n_loads; i++)
        g_ptr_array_add (flow->notes, fl_card_stand (pen, pen->width, i, 1));
      g_ptr_array_add (flow->notes, fl_card_sizes (pen, 0.5 * pen->width));
    }
  if (kind == PICTURE_BARE || kind == PICTURE_TIGHT)
    g_ptr_array_add (flow->notes, fl_card_axles_line (pen));
}

static double
height_of (FlBlock *block)
{
  const double height = block->height;

  fl_block_free (block);
  return height;
}

/* Drawing, table, sums and, where there is room, the notes. */
static void
fill_front (Flow *flow, double spare)
{
  const FlPen *pen = flow->pen;
  const double sums = FL_GAP + height_of (fl_card_sums (pen, 0, TRUE)), more = 2.0 + height_of (continued (pen, 0, 0));
  const double notes = flow->notes->len > 0 ? heights (flow->notes) + FL_GAP : 0.0;
  const double rows = heights (flow->rows), head = FL_GAP + height_of (fl_card_table_head (pen)), left = room (flow) - FL_GAP - sums - head - rows;
  gboolean notes_here, broken;
  Picture picture = choose_picture (flow, left, rows - more, notes, spare, &notes_here);

  broken = left < picture.least;
  defer_facts (flow, picture.kind);
  put_or_defer (flow, picture_block (pen, &picture, left - (notes_here ? notes : 0.0)), sums + (broken ? head + more : 0.0));
  if (head + more <= room (flow) - sums)
    put_rows (flow, sums + (broken ? more : 0.0), 0);
  if (flow->next_row < flow->rows->len)
    put_block (flow, continued (pen, pen->choices->tie_downs[flow->next_row].no, pen->choices->tie_downs[flow->rows->len - 1].no), 2.0);
  put_block (flow, fl_card_sums (pen, 0, !notes_here), FL_GAP);
  if (notes_here)
    put_notes (flow);
}

static void
make_front (Flow *flow, double spare)
{
  const FlPen *pen = flow->pen;
  double keep;

  new_page (flow);
  put_block (flow, fl_card_hero (pen), 3.0);
  put_block (flow, fl_card_trip (pen), 4.0);
  if (!fl_assessment_stands (pen->assessment))
    {
      FlBlock *against = fl_card_against (pen, 0, AGAINST_SHARE * pen->height, &flow->next_shortfall);

      if (against != NULL)
        put_block (flow, against, FL_GAP);
    }
  keep = FL_GAP + height_of (fl_card_sums (pen, 0, TRUE)) + FL_GAP + DRAWING_LEAST;
  for (gsize i = FL_SUMS_MOST; i < pen->parts->n_loads; i += FL_SUMS_MOST)
    g_ptr_array_add (flow->notes, fl_card_sums (pen, i, FALSE));
  put_or_defer (flow, fl_card_gear (pen), keep);
  put_or_defer (flow, fl_card_before (pen), keep);
  fill_front (flow, spare);
}

/* ── the back ── */

typedef struct { FlBlock *walk, *signatures, *cautions; double log, changes, spare; } Back;

/* The back's blocks, and what is free on it when the log has its least. */
static Back
plan_back (const FlPen *pen)
{
  Back back = { .walk = fl_card_walk_round (pen), .signatures = fl_card_signatures (pen), .cautions = fl_card_cautions (pen) };
  const double top = height_of (fl_card_masthead (pen, FALSE));

  back.log = height_of (fl_card_rechecks (pen, 0));
  back.changes = height_of (fl_card_changes (pen, 0));
  back.spare = pen->height - footer (1) - top - back.walk->height - back.signatures->height - back.cautions->height - back.log - back.changes - 5.0 * FL_GAP
               - (LOG_LEAST + 1) * FL_LINE_TO_WRITE;
  return back;
}

/* The notes first, as many as fit; the log takes what the other blocks leave. */
static void
make_back (Flow *flow, Back *back)
{
  const FlPen *pen = flow->pen;
  guint lines = LOG_LEAST, changes = 1;
  double left = back->spare;

  new_page (flow);
  left -= put_notes_within (flow, left);
  if (left >= (LOG_GOOD - LOG_LEAST + 1) * FL_LINE_TO_WRITE)
    {
      changes++;
      left -= FL_LINE_TO_WRITE;
    }
  if (left > 0.0)
    lines = MIN (LOG_MOST, lines + (guint) (left / FL_LINE_TO_WRITE));
  flow_block (flow, back->walk, FL_GAP);
  flow_block (flow, fl_card_rechecks (pen, lines), FL_GAP);
  flow_block (flow, fl_card_changes (pen, changes), FL_GAP);
  flow_block (flow, back->signatures, FL_GAP);
  /* Cautions that have no room here follow the tie-downs that have none on the front: those are wanted first. */
  if (FL_GAP + back->cautions->height <= room (flow))
    put_block (flow, back->cautions, FL_GAP);
  else
    g_ptr_array_add (flow->notes, back->cautions);
}

/* ── further pages ── */

static void
make_rest (Flow *flow)
{
  const FlPen *pen = flow->pen;
  gsize n;

  fl_assessment_findings (pen->assessment, &n);
  while (flow->next_row < flow->rows->len)
    {
      new_page (flow);
      put_rows (flow, 0.0, 1);
    }
  while (flow->next_shortfall < n)
    {
      const double most = pen->height - footer (2) - 60.0;
      FlBlock *block = fl_card_against (pen, flow->next_shortfall, most, &flow->next_shortfall);

      if (block != NULL)
        flow_block (flow, block, FL_GAP);
    }
  put_notes (flow);
}

void
fl_card_lay_out (const FlPen *pen, GPtrArray *pages)
{
  Flow flow = { .pen = pen, .pages = pages, .rows = table_rows (pen), .notes = fl_card_notes (pen), .next_shortfall = G_MAXSIZE };
  Back back = plan_back (pen);

  make_front (&flow, back.spare);
  make_back (&flow, &back);
  make_rest (&flow);
  put_footers (&flow);
  g_ptr_array_unref (flow.rows);
  g_ptr_array_unref (flow.notes);
}
