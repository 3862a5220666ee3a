/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Type, blocks, boxes to tick and lines to write on. */
#include "fl-sheet.h"

#include <math.h>
#include <string.h>

#define SECOND_SHARE 0.8        /* the second language's size, of the first's */
#define LEADING 1.5             /* between lines to tick */

static const struct { double size; gboolean bold; } types[FL_N_TYPES] = {
  [FL_TYPE_HERO] = { 26.0, TRUE },    [FL_TYPE_TITLE] = { 14.0, TRUE },  [FL_TYPE_HEADING] = { 11.5, TRUE }, [FL_TYPE_STRONG] = { 11.0, TRUE },
  [FL_TYPE_BODY] = { 11.0, FALSE },   [FL_TYPE_SMALL] = { 9.0, FALSE },  [FL_TYPE_LABEL] = { 8.5, FALSE },   [FL_TYPE_FINE] = { 8.0, FALSE },
};

double
fl_type_size (FlType type)
{
  return types[type].size;
}

/* ── text ── */

static void
add_attribute (PangoAttrList *list, PangoAttribute *attribute, guint start, guint end)
{
  attribute->start_index = start;
  attribute->end_index = end;
  pango_attr_list_insert (list, attribute);
}

static gint
units (double points)
{
  return (gint) floor (points * PANGO_SCALE + 0.5);
}

PangoLayout *
fl_pen_two (const FlPen *pen, FlType type, const char *first, const char *second, gboolean below, double width)
{
  PangoLayout *layout = pango_layout_new (pen->context);
  PangoAttrList *attributes = pango_attr_list_new ();
  const gboolean two = second != NULL && strcmp (first, second) != 0;
  g_autofree char *text = two ? g_strconcat (first, below ? "\n" : "  ", second, NULL) : g_strdup (first);
  const guint split = (guint) strlen (first), end = (guint) strlen (text);

  /* Figures of one width where they stand in columns; contextual forms would redraw the x of "3/8 x 20". */
  add_attribute (attributes, pango_attr_font_features_new (type == FL_TYPE_STRONG ? "calt=0, tnum=1" : "calt=0"), 0, end);
  add_attribute (attributes, pango_attr_size_new (units (types[type].size)), 0, split);
  if (types[type].bold)
    add_attribute (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD), 0, split);
  if (two)
    add_attribute (attributes, pango_attr_size_new (units (fmax (7.0, types[type].size * SECOND_SHARE))), split, end);
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_text (layout, text, -1);
  if (width > 0.0)
    {
      pango_layout_set_width (layout, units (width));
      pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
    }
  return layout;
}

PangoLayout *
fl_pen_text (const FlPen *pen, FlType type, const char *text, double width)
{
  return fl_pen_two (pen, type, text, NULL, FALSE, width);
}

const char *
fl_pen_second (const FlPen *pen, const char *message)
{
  return pen->bilingual ? fl_words_text (pen->second, message) : NULL;
}

/* ── blocks ── */

FlBlock *
fl_block_new (const FlPen *pen, double width)
{
  FlBlock *block = g_new0 (FlBlock, 1);

  block->pen = pen;
  block->marks = fl_marks_new ();
  block->width = width;
  return block;
}

void
fl_block_free (FlBlock *block)
{
  if (block == NULL)
    return;
  fl_marks_free (block->marks);
  g_free (block);
}

double
fl_block_put (FlBlock *block, PangoLayout *text, double x, double y)
{
  double height;

  fl_text_size (text, NULL, &height);
  fl_marks_text (block->marks, text, x, y, 0.0, FL_TONE_INK);
  return height;
}

double
fl_block_put_right (FlBlock *block, PangoLayout *text, double x, double y)
{
  double width;

  fl_text_size (text, &width, NULL);
  return fl_block_put (block, text, x - width, y);
}

void
fl_block_add (FlBlock *block, FlType type, const char *text, double x)
{
  block->height += fl_block_put (block, fl_pen_text (block->pen, type, text, block->width - x), x, block->height);
}

void
fl_block_add_message (FlBlock *block, FlType type, const char *message, double x)
{
  const FlPen *pen = block->pen;
  PangoLayout *text = fl_pen_two (pen, type, fl_words_text (pen->words, message), fl_pen_second (pen, message), TRUE, block->width - x);

  block->height += fl_block_put (block, text, x, block->height);
}

void
fl_block_heading (FlBlock *block, const char *message)
{
  const FlPen *pen = block->pen;
  const char *first = fl_words_text (pen->words, message), *second = fl_pen_second (pen, message);
  PangoLayout *text = fl_pen_two (pen, FL_TYPE_HEADING, first, second, FALSE, block->width);

  if (pango_layout_get_line_count (text) > 1)  /* a narrow column: the second language below */
    {
      g_object_unref (text);
      text = fl_pen_two (pen, FL_TYPE_HEADING, first, second, TRUE, block->width);
    }
  fl_marks_line (block->marks, 0.0, block->height, block->width, block->height, FL_LINE (FL_TONE_INK, 0.8));
  block->height += 2.0;
  block->height += fl_block_put (block, text, 0.0, block->height) + 2.0;
}

double
fl_block_tick (FlBlock *block, const char *first, const char *second, double x, double y, double width)
{
  PangoLayout *text = fl_pen_two (block->pen, FL_TYPE_BODY, first, second, TRUE, width - FL_BOX_INDENT);

  fl_marks_rect (block->marks, x + 0.5, y + 2.2, FL_BOX, FL_BOX, FL_LINE (FL_TONE_INK, 0.9));
  return fl_block_put (block, text, x + FL_BOX_INDENT, y);
}

void
fl_block_join (FlBlock *block, FlBlock *other, double gap)
{
  fl_marks_append (block->marks, g_steal_pointer (&other->marks), 0.0, block->height + gap);
  block->height += gap + other->height;
  g_free (other);
}

/* A label in both languages where they fit the width, else in the first alone. */
PangoLayout *
fl_pen_label (const FlPen *pen, FlType type, const char *message, gboolean below, double width)
{
  const char *first = fl_words_text (pen->words, message);
  PangoLayout *text = fl_pen_two (pen, type, first, fl_pen_second (pen, message), below, 0.0);
  double is;

  fl_text_size (text, &is, NULL);
  if (is <= width)
    return text;
  g_object_unref (text);
  return fl_pen_text (pen, type, first, 0.0);
}

void
fl_block_write_line (FlBlock *block, const char *message, double x, double y, double width, double height)
{
  const FlPen *pen = block->pen;
  const double low = y + height - 2.0;
  PangoLayout *text = fl_pen_label (pen, FL_TYPE_LABEL, message, FALSE, 0.55 * width);
  double w, h;

  fl_text_size (text, &w, &h);
  fl_block_put (block, text, x, low - h + 1.5);
  if (w + 5.0 < width)
    fl_marks_line (block->marks, x + w + 4.0, low, x + width, low, FL_LINE (FL_TONE_INK, 0.6));
}

/* ── lists of ticks ── */

static void
clear_line (gpointer data)
{
  FlLine *line = data;

  g_free (line->first);
  g_free (line->second);
}

GArray *
fl_lines_new (void)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (FlLine));

  g_array_set_clear_func (lines, clear_line);
  return lines;
}

char *
fl_capital (char *text)
{
  const gunichar first = g_utf8_get_char (text);
  char upper[7] = { 0 };
  char *capital;

  if (g_unichar_toupper (first) == first)
    return text;
  g_unichar_to_utf8 (g_unichar_toupper (first), upper);
  capital = g_strconcat (upper, g_utf8_next_char (text), NULL);
  g_free (text);
  return capital;
}

void
fl_lines_add (GArray *lines, const FlPen *pen, const char *message, const FlFact *facts, gsize n_facts)
{
  FlLine line = { fl_capital (fl_words_message (pen->words, message, facts, n_facts, pen->metric)), NULL };

  if (pen->bilingual)
    line.second = fl_capital (fl_words_message (pen->second, message, facts, n_facts, pen->metric));
  g_array_append_val (lines, line);
}

static double
line_height (const FlPen *pen, const FlLine *line, double width)
{
  g_autoptr(PangoLayout) text = fl_pen_two (pen, FL_TYPE_BODY, line->first, line->second, TRUE, width - FL_BOX_INDENT);
  double height;

  fl_text_size (text, NULL, &height);
  return height + LEADING;
}

/* The lowest column height at which the lines, in order, fill no more than the columns there are. */
static double
column_height (const double *heights, guint n, guint columns)
{
  double most = 0.0, sum = 0.0, limit;

  for (guint i = 0; i < n; i++)
    {
      most = fmax (most, heights[i]);
      sum += heights[i];
    }
  for (limit = fmax (most, sum / columns); limit < sum; limit += 1.0)
    {
      guint used = 1;
      double y = 0.0;

      for (guint i = 0; i < n; i++)
        {
          if (y + heights[i] > limit + 1e-6)
            {
              used++;
              y = 0.0;
            }
          y += heights[i];
        }
      if (used <= columns)
        break;
    }
  return limit;
}

void
fl_block_ticks (FlBlock *block, GArray *lines, guint columns)
{
  const double width = (block->width - (columns - 1) * FL_GUTTER) / columns;
  g_autofree double *heights = g_new0 (double, lines->len + 1);
  double limit, x = 0.0, y = 0.0, deepest = 0.0;

  for (guint i = 0; i < lines->len; i++)
    heights[i] = line_height (block->pen, &g_array_index (lines, FlLine, i), width);
  limit = column_height (heights, lines->len, columns);
  for (guint i = 0; i < lines->len; i++)
    {
      const FlLine *line = &g_array_index (lines, FlLine, i);

      if (y + heights[i] > limit + 1e-6)
        {
          x += width + FL_GUTTER;
          y = 0.0;
        }
      fl_block_tick (block, line->first, line->second, x, block->height + y, width);
      y += heights[i];
      deepest = fmax (deepest, y);
    }
  block->height += deepest;
}
