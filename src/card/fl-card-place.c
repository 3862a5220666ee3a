/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beside the drawing: where each load stands, the sizes on the road, the axle loads. */
#include "fl-card-private.h"

#include <math.h>
#include <string.h>

#define NEAR_CENTER 0.02        /* metres off the centreline that are not worth a word */

/* ── where it stands ── */

static char *
gap_text (const FlPen *pen, double gap, const char *free_deck, const char *hangs_over)
{
  g_autofree char *length = fl_say_length (fabs (gap), pen->metric, FL_ROUND_NEAREST);

  return fl_card_say (pen->words, gap >= 0.0 ? free_deck : hangs_over, "length", length, NULL, NULL);
}

static char *
sideways_text (const FlPen *pen, double left)
{
  g_autofree char *length = fl_say_length (fabs (left), pen->metric, FL_ROUND_NEAREST);

  if (fabs (left) < NEAR_CENTER)
    return g_strdup (fl_words_text (pen->words, N_("centered")));
  return fl_card_say (pen->words, left > 0.0 ? N_("{length} to the left of the center") : N_("{length} to the right of the center"), "length", length, NULL, NULL);
}

static void
add_stand (FlBlock *block, const FlLoadResult *load)
{
  const FlPen *pen = block->pen;
  const double deck = pen->trailer != NULL ? fl_quantity_in (pen->trailer->deck_length, FL_UNIT_M) : NAN;
  g_autofree char *behind = NULL, *ahead = NULL, *sideways = NULL, *said = NULL, *title = NULL;
  const char *facing = load->article ? N_("{load}") : load->facing == FL_FORWARD ? N_("{load} faces the truck") : N_("{load} faces the rear");

  title = fl_card_say (pen->words, facing, "load", load->id, NULL, NULL);
  fl_block_add (block, FL_TYPE_STRONG, title, 0.0);
  if (!load->placed)
    {
      fl_block_add_message (block, FL_TYPE_BODY, N_("no place on the deck yet"), 0.0);
      return;
    }
  behind = gap_text (pen, load->outline.min.x, N_("{length} of deck behind it"), N_("{length} over the rear of the deck"));
  ahead = isfinite (deck) ? gap_text (pen, deck - load->outline.max.x, N_("{length} of deck ahead of it"), N_("{length} over the front of the deck")) : g_strdup ("");
  sideways = sideways_text (pen, 0.5 * (load->outline.min.y + load->outline.max.y));
  said = g_strdup_printf ("%s, %s%s%s", behind, ahead, *ahead != '\0' ? ", " : "", sideways);
  fl_block_add (block, FL_TYPE_BODY, said, 0.0);
}

FlBlock *
fl_card_stand (const FlPen *pen, double width, gsize first, gsize n)
{
  FlBlock *block = fl_block_new (pen, width);

  if (first == 0)
    fl_block_heading (block, N_("Where it stands"));
  for (gsize i = first; i < first + n && i < pen->parts->n_loads; i++)
    add_stand (block, &pen->parts->loads[i]);
  return block;
}

/* ── sizes ── */

/* A name, its value in bold, and how it is known with a line to measure it. */
static void
add_size (FlBlock *block, const char *message, const char *value, const char *how, const char *ask)
{
  const FlPen *pen = block->pen;
  const double value_x = 50.0, how_x = value_x + 68.0, y = block->height;
  PangoLayout *text = fl_pen_label (pen, FL_TYPE_BODY, message, TRUE, value_x - 3.0);
  const double label = fl_block_put (block, text, 0.0, y);
  double height = fl_block_put (block, fl_pen_text (pen, FL_TYPE_STRONG, value, 0.0), value_x, y);

  if (how != NULL)
    height = fmax (height, fl_block_put (block, fl_pen_text (pen, FL_TYPE_SMALL, how, block->width - how_x), how_x, y + 1.5));
  else
    fl_block_write_line (block, ask, how_x, y - 2.0, block->width - how_x, 15.5);
  block->height += fmax (label, height) + 1.0;
}

static gboolean
is_weighed (const char *basis)
{
  return basis != NULL && g_str_has_prefix (basis, "scale");
}

FlBlock *
fl_card_sizes (const FlPen *pen, double width)
{
  FlBlock *block = fl_block_new (pen, width);
  const FlSizes *sizes = &pen->parts->sizes;
  g_autofree char *wide = fl_say_size (pen->words, sizes->width, pen->metric, FL_ROUND_UP);
  g_autofree char *length = fl_say_size (pen->words, sizes->length, pen->metric, FL_ROUND_UP);
  g_autofree char *gross = fl_say_weight (pen->words, sizes->gross, pen->metric, FL_ROUND_UP);

  fl_block_heading (block, N_("Sizes, computed"));
  for (gsize i = 0; i < pen->parts->n_loads; i++)
    {
      const FlLoadResult *load = &pen->parts->loads[i];
      g_autofree char *weight = fl_say_weight (pen->words, load->weight, pen->metric, FL_ROUND_UP);

      add_size (block, load->id, weight, is_weighed (load->weight_basis) ? fl_words_text (pen->words, N_("weighed")) : NULL, N_("weigh:"));
    }
  add_size (block, N_("Width"), wide, NULL, N_("measure:"));
  add_size (block, N_("Length"), length, NULL, N_("measure:"));
  add_size (block, N_("Gross"), gross, NULL, N_("weigh:"));
  return block;
}

/* ── axle loads ── */

/* "truck 1", "coupling", "trailer 2": the word in the card's language, the number kept. */
static char *
axle_name (const FlWords *words, const char *axle)
{
  const char *number = strchr (axle, ' ');

  if (g_str_has_prefix (axle, "truck"))
    return fl_card_say (words, N_("truck axle {n}"), "n", number != NULL ? number + 1 : "", NULL, NULL);
  if (g_str_has_prefix (axle, "trailer"))
    return fl_card_say (words, N_("trailer axle {n}"), "n", number != NULL ? number + 1 : "", NULL, NULL);
  return g_strdup (fl_words_text (words, g_strcmp0 (axle, "coupling") == 0 ? N_("coupling") : axle));
}

static void
add_axle (FlBlock *block, const FlAxleResult *axle)
{
  const FlPen *pen = block->pen;
  g_autofree char *name = axle_name (pen->words, axle->axle), *is = fl_say_bare (axle->load, pen->metric, FL_ROUND_UP);
  g_autofree char *may = fl_say_bare (axle->rated, pen->metric, FL_ROUND_DOWN);
  const double height = fl_block_put (block, fl_pen_text (pen, FL_TYPE_SMALL, name, 0.0), 0.0, block->height);

  fl_block_put_right (block, fl_pen_text (pen, FL_TYPE_SMALL, is, 0.0), block->width - 50.0, block->height);
  fl_block_put_right (block, fl_pen_text (pen, FL_TYPE_SMALL, may, 0.0), block->width, block->height);
  block->height += height + 0.5;
}

FlBlock *
fl_card_axles (const FlPen *pen, double width)
{
  FlBlock *block = fl_block_new (pen, width);
  const char *title = pen->metric ? N_("Axle loads, kg") : N_("Axle loads, lb");
  const char *rated = N_("rated"), *load = N_("load");
  double top;

  fl_block_heading (block, title);
  top = pen->bilingual ? block->height : 3.5; /* beside the heading where that is short */
  if (pen->parts->n_axles == 0)
    {
      fl_block_add_message (block, FL_TYPE_BODY, N_("not known"), 0.0);
      return block;
    }
  fl_block_put_right (block, fl_pen_label (pen, FL_TYPE_LABEL, load, FALSE, 0.5 * width), width - 50.0, top);
  fl_block_put_right (block, fl_pen_label (pen, FL_TYPE_LABEL, rated, FALSE, 46.0), width, top);
  if (pen->bilingual)
    block->height += 11.0;
  for (gsize i = 0; i < pen->parts->n_axles; i++)
    add_axle (block, &pen->parts->axles[i]);
  return block;
}

/* The same on one or two lines of small type, for a front without room for the table. */
FlBlock *
fl_card_axles_line (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const char *title = pen->metric ? N_("Axle loads, kg") : N_("Axle loads, lb");
  g_autoptr(GString) said = g_string_new (fl_words_text (pen->words, title));

  g_string_append (said, ": ");
  for (gsize i = 0; i < pen->parts->n_axles; i++)
    {
      const FlAxleResult *axle = &pen->parts->axles[i];
      g_autofree char *name = axle_name (pen->words, axle->axle), *is = fl_say_bare (axle->load, pen->metric, FL_ROUND_UP);
      g_autofree char *may = fl_say_bare (axle->rated, pen->metric, FL_ROUND_DOWN), *of = fl_card_say (pen->words, N_("{load} of {rated}"), "load", is, "rated", may);

      g_string_append_printf (said, "%s%s %s", i > 0 ? "; " : "", name, of);
    }
  if (pen->parts->n_axles == 0)
    g_string_append (said, fl_words_text (pen->words, N_("not known")));
  fl_block_add (block, FL_TYPE_SMALL, said->str, 0.0);
  return block;
}
