/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tie-downs in the order in which they are put on, and the one line of sums that is read at the roadside. */
#include "fl-card-private.h"

#include <math.h>

#include "fl-part-words.h"

/* Columns as shares of the width; numbers are right-aligned. */
enum { COLUMN_NO, COLUMN_FROM, COLUMN_TO, COLUMN_GEAR, COLUMN_BINDER, COLUMN_WLL, COLUMN_ANGLE, N_COLUMNS };
static const double shares[N_COLUMNS] = { 0.043, 0.270, 0.232, 0.210, 0.088, 0.085, 0.072 };
#define CELL_GAP 6.0

static double
column_x (const FlPen *pen, guint column)
{
  double x = 0.0;

  for (guint i = 0; i < column; i++)
    x += shares[i] * pen->width;
  return x;
}

static double
column_width (const FlPen *pen, guint column)
{
  return shares[column] * pen->width - CELL_GAP;
}

static gboolean
is_number (guint column)
{
  return column >= COLUMN_WLL;
}

/* A figure over what it means for the sum or the plan. */
static void
put_number (FlBlock *block, guint column, const char *main, const char *small, double y)
{
  const FlPen *pen = block->pen;
  const double right = column_x (pen, column) + column_width (pen, column);
  const double height = fl_block_put_right (block, fl_pen_text (pen, FL_TYPE_STRONG, main, 0.0), right, y);

  fl_block_put_right (block, fl_pen_text (pen, FL_TYPE_SMALL, small, 0.0), right, y + height - 0.5);
}

/* What counts in body type, more of it small: below, or after it where it takes two lines anyway. Its height. */
static double
put_cell (FlBlock *block, guint column, FlType type, const char *main, const char *small, double y)
{
  const FlPen *pen = block->pen;
  const double x = column_x (pen, column), width = column_width (pen, column);
  PangoLayout *text = fl_pen_text (pen, type, main, width);
  double height;

  if (*small == '\0')
    return fl_block_put (block, text, x, y);
  if (pango_layout_get_line_count (text) > 1)
    {
      g_object_unref (text);
      return fl_block_put (block, fl_pen_two (pen, type, main, small, FALSE, width), x, y);
    }
  height = fl_block_put (block, text, x, y);
  return height + fl_block_put (block, fl_pen_text (pen, FL_TYPE_SMALL, small, width), x, y + height - 0.5) - 0.5;
}

/* ── head ── */

FlBlock *
fl_card_table_head (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const char *const titles[N_COLUMNS] = {
    N_("No."), N_("From the machine"), N_("To the trailer"), N_("Chain or strap"), N_("Binder"), pen->metric ? N_("WLL, kg") : N_("WLL, lb"), N_("Angle"),
  };
  double deepest = 0.0, y;

  fl_block_heading (block, N_("Tie-downs, in this order"));
  y = block->height - 1.0;
  for (guint i = 0; i < N_COLUMNS; i++)
    {
      PangoLayout *text = fl_pen_label (pen, FL_TYPE_LABEL, titles[i], TRUE, column_width (pen, i));
      double height;

      if (is_number (i))
        height = fl_block_put_right (block, text, column_x (pen, i) + column_width (pen, i), y);
      else
        height = fl_block_put (block, text, column_x (pen, i), y);
      deepest = fmax (deepest, height);
    }
  block->height = y + deepest + 1.0;
  return block;
}

/* ── rows ── */

static const char *
implement_name (const FlPen *pen, const FlTieDown *tie)
{
  const FlMachine *machine = fl_load_machine (pen->assessment, tie->load);
  const FlImplement *implement = machine != NULL && tie->implement != NULL ? fl_machine_implement (machine, tie->implement) : NULL;

  return implement != NULL && implement->name != NULL ? implement->name : tie->implement;
}

static void
add_part (GString *text, const char *part)
{
  if (part == NULL || *part == '\0')
    return;
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append (text, part);
}

/* "shackle SH-01 here" for the connectors of one end. */
static void
add_connectors (const FlPen *pen, const FlTieDown *tie, gboolean at_anchor, GString *text)
{
  for (guint i = 0; i < tie->n_connectors; i++)
    if (tie->connectors[i].at_anchor == at_anchor)
      {
        g_autofree char *said = fl_card_say (pen->words, N_("with {id}"), "id", tie->connectors[i].id, NULL, NULL);

        add_part (text, said);
      }
}

/* The points or the path that an `over` tie-down goes through. */
static char *
through_text (const FlPen *pen, const FlTieDown *tie)
{
  const FlMachine *machine = fl_load_machine (pen->assessment, tie->load);
  const FlImplement *implement = machine != NULL && tie->implement != NULL ? fl_machine_implement (machine, tie->implement) : NULL;
  g_autoptr(GString) names = g_string_new (NULL);

  for (gsize i = 0; tie->through != NULL && tie->through[i] != NULL; i++)
    {
      const FlOverPath *path = implement != NULL ? fl_implement_over_path (implement, tie->through[i]) : NULL;
      g_autofree char *point = path == NULL ? fl_say_point (pen->words, machine, tie->through[i]) : g_strdup (path->name != NULL ? path->name : path->id);

      add_part (names, point);
    }
  return fl_card_say (pen->words, N_("over {what}"), "what", names->str, NULL, NULL);
}

static double
put_from (FlBlock *block, const FlTieDown *tie, double y)
{
  const FlPen *pen = block->pen;
  const FlLoadResult *load = tie->load < pen->parts->n_loads ? &pen->parts->loads[tie->load] : NULL;
  const FlMachine *machine = fl_load_machine (pen->assessment, tie->load);
  g_autofree char *main = tie->over ? through_text (pen, tie) : fl_say_point (pen->words, machine, tie->point);
  g_autofree char *where = fl_say_where (pen->words, load, tie->point);
  g_autoptr(GString) small = g_string_new (NULL);

  if (pen->choices->n_loads > 1 && load != NULL)
    add_part (small, load->id);
  if (!tie->over && g_strcmp0 (main, tie->point) != 0)
    add_part (small, tie->point);
  add_part (small, where);
  add_connectors (pen, tie, FALSE, small);
  if (tie->purpose == FL_FOR_IMPLEMENT)
    {
      g_autofree char *said = fl_card_say (pen->words, N_("for the {implement}"), "implement", implement_name (pen, tie), NULL, NULL);

      add_part (small, said);
    }
  return put_cell (block, COLUMN_FROM, FL_TYPE_BODY, main, small->str, y);
}

static double
put_to (FlBlock *block, const FlTieDown *tie, double y)
{
  const FlPen *pen = block->pen;
  g_autofree char *first = fl_say_anchor (pen->words, pen->trailer, tie->anchors[0]);
  g_autofree char *last = tie->over ? fl_say_anchor (pen->words, pen->trailer, tie->anchors[1]) : NULL;
  g_autofree char *main = last != NULL ? fl_card_say (pen->words, N_("{first}, to {last}"), "first", first, "last", last) : g_strdup (first);
  g_autoptr(GString) small = g_string_new (NULL);

  if (g_strcmp0 (main, tie->anchors[0]) != 0)
    add_part (small, tie->anchors[0]);
  if (tie->over)
    add_part (small, tie->anchors[1]);
  add_connectors (pen, tie, TRUE, small);
  if (tie->edge_protected)
    add_part (small, fl_words_text (pen->words, N_("pad the edge")));
  return put_cell (block, COLUMN_TO, FL_TYPE_BODY, main, small->str, y);
}

/* The number of a piece, or of the record of which it is any. */
static double
put_gear (FlBlock *block, const FlTieDown *tie, const FlTieResult *result, double y)
{
  const FlPen *pen = block->pen;
  const char *id = tie->chain != NULL ? tie->chain : tie->strap;
  gboolean counted = FALSE;
  const FlRecord *record = fl_card_gear_record (pen, tie->chain != NULL ? FL_KIND_CHAIN : FL_KIND_STRAP, id, &counted);
  g_autofree char *any = counted ? fl_card_any_text (pen, pen->words, tie->chain != NULL ? FL_KIND_CHAIN : FL_KIND_STRAP, id) : NULL;
  const char *said = any != NULL ? any : result != NULL && result->gear_text != NULL ? result->gear_text : "";

  if (id == NULL)
    return put_cell (block, COLUMN_GEAR, FL_TYPE_STRONG, "\u2013", "", y);
  return put_cell (block, COLUMN_GEAR, FL_TYPE_STRONG, counted && record != NULL ? fl_record_id (record) : id, said, y);
}

static double
put_binder (FlBlock *block, const FlTieDown *tie, double y)
{
  const FlPen *pen = block->pen;
  gboolean counted = FALSE;
  const FlRecord *record = fl_card_gear_record (pen, FL_KIND_BINDER, tie->binder, &counted);
  const FlBinder *binder = record != NULL ? fl_record_binder (record) : NULL;
  const char *kind = binder == NULL || binder->kind == FL_BINDER_UNKNOWN ? "" : fl_words_text (pen->words, binder->kind == FL_BINDER_RATCHET ? N_("ratchet") : N_("lever"));

  if (tie->binder == NULL)
    return put_cell (block, COLUMN_BINDER, FL_TYPE_STRONG, "\u2013", "", y);
  return put_cell (block, COLUMN_BINDER, FL_TYPE_STRONG, counted && record != NULL ? fl_record_id (record) : tie->binder, kind, y);
}

static char *
degrees (FlQuantity angle)
{
  const double value = fl_quantity_in (angle, FL_UNIT_DEG);

  return isfinite (value) ? g_strdup_printf ("%d\u00b0", (gint) floor (value + 0.5)) : g_strdup ("?");
}

static void
put_figures (FlBlock *block, const FlTieDown *tie, const FlTieResult *result, double y)
{
  const FlPen *pen = block->pen;
  g_autofree char *wll = result != NULL ? fl_say_bare (result->wll, pen->metric, FL_ROUND_DOWN) : g_strdup ("?");
  g_autofree char *share = result != NULL ? fl_say_bare (result->counts, pen->metric, FL_ROUND_DOWN) : g_strdup ("?");
  g_autofree char *counts = tie->purpose == FL_FOR_IMPLEMENT ? g_strdup (fl_words_text (pen->words, N_("no count"))) : fl_card_say (pen->words, N_("half {n}"), "n", share, NULL, NULL);
  g_autofree char *deck = result != NULL ? degrees (result->deck_angle) : g_strdup ("?"), *plan = result != NULL ? degrees (result->plan_angle) : g_strdup ("?");
  g_autofree char *along = fl_card_say (pen->words, N_("plan {angle}"), "angle", plan, NULL, NULL);

  if (tie->purpose != FL_FOR_IMPLEMENT && result != NULL && fl_quantity_known (result->wll) && fl_quantity_known (result->counts)
      && fabs (result->counts.value - 0.5 * fl_quantity_in (result->wll, result->counts.unit)) > 1.0)
    {
      g_free (counts);
      counts = fl_card_say (pen->words, N_("adds {n}"), "n", share, NULL, NULL);
    }
  put_number (block, COLUMN_WLL, wll, counts, y);
  put_number (block, COLUMN_ANGLE, deck, along, y);
}

FlBlock *
fl_card_table_row (const FlPen *pen, gsize index)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const FlTieDown *tie = &pen->choices->tie_downs[index];
  const FlTieResult *result = index < pen->parts->n_ties ? &pen->parts->ties[index] : NULL;
  const double y = 1.2, r = 9.5;
  g_autofree char *number = g_strdup_printf ("%u", tie->no);
  PangoLayout *text = fl_pen_text (pen, FL_TYPE_STRONG, number, 0.0);
  double deepest, w, h;

  fl_marks_line (block->marks, 0.0, 0.0, pen->width, 0.0, FL_LINE (FL_TONE_FAINT, 0.4));
  fl_text_size (text, &w, &h);
  fl_marks_circle (block->marks, r + 0.6, y + r + 1.5, r, FL_LINE (FL_TONE_INK, 1.2));
  fl_block_put (block, text, r + 0.6 - 0.5 * w, y + r + 1.5 - 0.5 * h);
  deepest = 2.0 * r + 2.0;
  deepest = fmax (deepest, put_from (block, tie, y));
  deepest = fmax (deepest, put_to (block, tie, y));
  deepest = fmax (deepest, put_gear (block, tie, result, y));
  deepest = fmax (deepest, put_binder (block, tie, y));
  put_figures (block, tie, result, y);
  block->height = y + deepest + 0.8;
  return block;
}

/* ── sums ── */

/* Weight rounds up, what holds it rounds down; the weakest part by its kind and number. (transfer full) */
static char *
sum_text (const FlWords *words, const FlLoadResult *load, gboolean metric)
{
  g_autofree char *weight = fl_say_weight (words, load->weight, metric, FL_ROUND_UP);
  g_autofree char *need = fl_say_weight (words, load->need, metric, FL_ROUND_UP);
  g_autofree char *have = fl_say_weight (words, load->have, metric, FL_ROUND_DOWN);
  g_autofree char *weakest = fl_part_words (words, load->weakest, FALSE);
  const FlFact facts[] = { FL_FACT_TEXT ("load", load->id), FL_FACT_TEXT ("weight", weight), FL_FACT_TEXT ("need", need), FL_FACT_TEXT ("have", have),
                           FL_FACT_TEXT ("weakest", weakest) };

  return fl_words_message (words, load->weakest != NULL ? N_("{load}: weight {weight}, need {need}, have {have}; weakest part {weakest}")
                                                        : N_("{load}: weight {weight}, need {need}, have {have}"), facts, G_N_ELEMENTS (facts), metric);
}

static void
add_sum (FlBlock *block, const FlLoadResult *load)
{
  const FlPen *pen = block->pen;
  g_autofree char *said = sum_text (pen->words, load, pen->metric);
  g_autofree char *second = pen->bilingual ? sum_text (pen->second, load, pen->metric) : NULL;
  PangoLayout *text = fl_pen_two (pen, FL_TYPE_STRONG, said, second, TRUE, block->width - 16.0);

  block->height += fl_block_put (block, text, 8.0, block->height) + 1.0;
}

/* Nobody should miss what stands on the other side. */
static void
add_pointer (FlBlock *block)
{
  const FlPen *pen = block->pen;
  const char *message = N_("{n} to look at before you drive: see the other side");
  g_autofree char *n = NULL, *said = NULL, *second = NULL;
  guint count = 0;
  gsize n_findings;
  const FlFinding *findings = fl_assessment_findings (pen->assessment, &n_findings);

  for (gsize i = 0; i < n_findings; i++)
    count += findings[i].verdict == FL_CAUTION ? 1 : 0;
  if (count == 0)
    return;
  n = g_strdup_printf ("%u", count);
  said = fl_card_say (pen->words, message, "n", n, NULL, NULL);
  second = pen->bilingual ? fl_card_say (pen->second, message, "n", n, NULL, NULL) : NULL;
  block->height += fl_block_put (block, fl_pen_two (pen, FL_TYPE_BODY, said, second, FALSE, block->width - 16.0), 8.0, block->height);
}

FlBlock *
fl_card_sums (const FlPen *pen, gsize first, gboolean notes_elsewhere)
{
  FlBlock *block = fl_block_new (pen, pen->width);

  block->height = 3.5;
  for (gsize i = first; i < pen->parts->n_loads && i < first + FL_SUMS_MOST; i++)
    add_sum (block, &pen->parts->loads[i]);
  if (notes_elsewhere)
    add_pointer (block);
  block->height += 3.0;
  fl_marks_rect (block->marks, 0.0, 0.0, block->width, block->height, FL_LINE (FL_TONE_INK, 1.2));
  return block;
}
