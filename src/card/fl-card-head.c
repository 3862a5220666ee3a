/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The top of the card: what it is, which units, how high, where to; and what stands against the plan, so that nobody drives by it. */
#include "fl-card-private.h"

#include <math.h>
#include <string.h>

#define HEIGHT_BOX 180.0        /* width of the box with the loaded height */
#define LEAST_HERO 12.0

/* ── the state of a card ── */

FlCardState
fl_card_state (const FlPen *pen)
{
  switch (fl_assessment_verdict (pen->assessment))
    {
    case FL_NOT_COMPLIANT:
      return FL_CARD_DRAFT_NOT_COMPLIANT;
    case FL_INCOMPLETE:
      return FL_CARD_DRAFT_INCOMPLETE;
    case FL_COMPLIANT:
      break;
    }
  if (!fl_assessment_stands (pen->assessment))
    return FL_CARD_DRAFT_HOUSE;
  return pen->signature != NULL ? FL_CARD_SIGNED : FL_CARD_DRAFT;
}

const char *
fl_card_state_message (FlCardState state)
{
  switch (state)
    {
    case FL_CARD_SIGNED:
      return N_("SIGNED");
    case FL_CARD_DRAFT:
      return N_("DRAFT");
    case FL_CARD_DRAFT_HOUSE:
      return N_("DRAFT - HOUSE RULE NOT MET");
    case FL_CARD_DRAFT_INCOMPLETE:
      return N_("DRAFT - INCOMPLETE");
    case FL_CARD_DRAFT_NOT_COMPLIANT:
      break;
    }
  return N_("DRAFT - NOT COMPLIANT");
}

/* ── masthead ── */

char *
fl_card_load_ids (const FlPen *pen)
{
  GString *ids = g_string_new (NULL);

  for (gsize i = 0; i < pen->choices->n_loads; i++)
    g_string_append_printf (ids, "%s%s", i > 0 ? " + " : "", pen->choices->loads[i].id);
  return g_string_free (ids, FALSE);
}

static char *
units_line (const FlPen *pen)
{
  g_autofree char *loads = fl_card_load_ids (pen);
  const char *move = pen->choices->move != NULL ? pen->choices->move : "?";
  const FlFact facts[] = {
    FL_FACT_TEXT ("move", move), FL_FACT_TEXT ("loads", loads), FL_FACT_TEXT ("trailer", pen->choices->trailer != NULL ? pen->choices->trailer : "?"),
    FL_FACT_TEXT ("truck", pen->choices->truck != NULL ? pen->choices->truck : "") };

  return fl_words_message (pen->words, pen->choices->truck != NULL ? N_("Move {move}: {loads} on {trailer} behind {truck}") : N_("Move {move}: {loads} on {trailer}"),
                           facts, G_N_ELEMENTS (facts), pen->metric);
}

static char *
signed_line (const FlPen *pen)
{
  const FlFact facts[] = { FL_FACT_TEXT ("signer", pen->signature->signer), FL_FACT_TEXT ("when", pen->signature->when), FL_FACT_TEXT ("code", pen->signature->code) };

  return fl_words_message (pen->words, N_("Signed by {signer}, {when}, code {code}"), facts, G_N_ELEMENTS (facts), pen->metric);
}

/* The front names the fleet, for its units stand below in the largest type; the other pages name the units. */
FlBlock *
fl_card_masthead (const FlPen *pen, gboolean front)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const FlCardState state = fl_card_state (pen);
  const char *title = N_("Securement card"), *fleet = pen->parts->fleet_name != NULL ? pen->parts->fleet_name : "";
  const char *word = fl_words_text (pen->words, fl_card_state_message (state));
  g_autofree char *said = state == FL_CARD_SIGNED ? signed_line (pen) : state == FL_CARD_DRAFT ? g_strdup_printf ("%s, %s", word, fl_words_text (pen->words, N_("not signed")))
                                                                                              : g_strdup (word);
  g_autofree char *beside = front ? fl_card_say (pen->words, N_("{fleet}, move {move}"), "fleet", fleet, "move", pen->choices->move) : units_line (pen);
  PangoLayout *left, *middle = fl_pen_text (pen, FL_TYPE_SMALL, beside, 0.0), *right = fl_pen_text (pen, FL_TYPE_STRONG, said, 0.0);
  double x, w, width;

  fl_text_size (middle, &w, NULL);
  fl_text_size (right, &width, NULL);
  left = fl_pen_label (pen, FL_TYPE_TITLE, title, FALSE, pen->width - w - width - 28.0);
  fl_text_size (left, &x, NULL);
  block->height = fl_block_put (block, left, 0.0, 0.0);
  if (x + 10.0 + w > pen->width)
    {
      pango_layout_set_width (middle, (gint) ((pen->width - x - 10.0) * PANGO_SCALE));
      pango_layout_set_ellipsize (middle, PANGO_ELLIPSIZE_MIDDLE);
    }
  fl_block_put (block, middle, x + 10.0, 5.0);
  if (x + w + width + 24.0 > pen->width)      /* too much for one line */
    block->height += fl_block_put_right (block, right, pen->width, block->height + 1.0) + 1.0;
  else
    fl_block_put_right (block, right, pen->width, 2.6);
  block->height += 2.5;
  if (!front)
    return block;               /* a heading with its own rule follows */
  fl_marks_line (block->marks, 0.0, block->height, pen->width, block->height, FL_LINE (FL_TONE_INK, 1.8));
  block->height += 1.0;
  return block;
}

/* ── unit numbers and height ── */

/* The largest type at which a text fits a width; below the least it wraps. */
static PangoLayout *
fitted (const FlPen *pen, const char *text, double width)
{
  PangoLayout *layout = fl_pen_text (pen, FL_TYPE_HERO, text, 0.0);
  PangoAttrList *attributes = pango_layout_get_attributes (layout);
  double is;

  fl_text_size (layout, &is, NULL);
  if (is <= width)
    return layout;
  attributes = pango_attr_list_copy (attributes);
  pango_attr_list_change (attributes, pango_attr_size_new ((gint) (fmax (LEAST_HERO, fl_type_size (FL_TYPE_HERO) * width / is * 0.99) * PANGO_SCALE)));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_width (layout, (gint) (width * PANGO_SCALE));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_height (layout, -3);       /* lines; the sums name every load */
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  return layout;
}

static PangoLayout *
label (const FlPen *pen, const char *message, double width)
{
  return fl_pen_label (pen, FL_TYPE_LABEL, message, FALSE, width);
}

/* One unit: label, number, name. Its height. */
static double
put_unit (FlBlock *block, const char *message, const char *id, const char *name, double x, double width)
{
  const FlPen *pen = block->pen;
  double y = fl_block_put (block, label (pen, message, width), x, 0.0);
  PangoLayout *text;

  y += fl_block_put (block, fitted (pen, id, width), x, y - 1.0) - 2.0;
  text = fl_pen_text (pen, FL_TYPE_SMALL, name != NULL ? name : "", width);
  pango_layout_set_height (text, -2);         /* lines */
  pango_layout_set_ellipsize (text, PANGO_ELLIPSIZE_END);
  return y + fl_block_put (block, text, x, y);
}

static char *
load_names (const FlPen *pen)
{
  GString *names = g_string_new (NULL);

  for (gsize i = 0; i < pen->parts->n_loads; i++)
    {
      const FlLoadResult *load = &pen->parts->loads[i];

      if (i > 0)
        g_string_append (names, "; ");
      g_string_append (names, load->name != NULL ? load->name : load->kind != NULL ? load->kind : load->id);
      if (load->position != NULL)
        g_string_append_printf (names, " (%s)", load->position);
    }
  return g_string_free (names, FALSE);
}

/* The one figure that is read at bridges. */
static double
put_height (FlBlock *block, double x)
{
  const FlPen *pen = block->pen;
  const FlSizes *sizes = &pen->parts->sizes;
  g_autofree char *said = fl_say_size (pen->words, sizes->height, pen->metric, FL_ROUND_UP);
  const double inner = HEIGHT_BOX - 16.0;
  const char *how = sizes->height_measured ? N_("measured") : fl_quantity_known (sizes->height) ? N_("computed, measure:") : N_("measure:");
  double y = 4.0;

  y += fl_block_put (block, label (pen, N_("Loaded height"), inner), x + 8.0, y);
  y += fl_block_put (block, fitted (pen, said, inner), x + 8.0, y - 1.0) - 1.0;
  if (sizes->height_measured)
    y += fl_block_put (block, label (pen, how, inner), x + 8.0, y);
  else
    {
      fl_block_write_line (block, how, x + 8.0, y, inner, 15.0);
      y += 15.0;
    }
  y += 4.0;
  fl_marks_rect (block->marks, x, 0.0, HEIGHT_BOX, y, FL_LINE (FL_TONE_INK, 1.6));
  return y;
}

FlBlock *
fl_card_hero (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const FlRecord *record = pen->choices->truck != NULL ? fl_assessment_record (pen->assessment, FL_KIND_TRUCK, pen->choices->truck) : NULL;
  const FlTruck *truck = record != NULL ? fl_record_truck (record) : NULL;
  const double width = (pen->width - HEIGHT_BOX - 3 * 12.0) / 3.0;
  g_autofree char *ids = fl_card_load_ids (pen), *names = load_names (pen);
  double deepest = 0.0;

  deepest = put_unit (block, pen->choices->n_loads == 1 && !pen->choices->loads[0].article ? N_("Machine") : N_("Load"), ids, names, 0.0, width);
  deepest = fmax (deepest, put_unit (block, N_("Trailer"), pen->choices->trailer != NULL ? pen->choices->trailer : "\u2013",
                                     pen->trailer != NULL ? pen->trailer->name : NULL, width + 12.0, width));
  deepest = fmax (deepest, put_unit (block, N_("Truck"), pen->choices->truck != NULL ? pen->choices->truck : "\u2013", truck != NULL ? truck->name : NULL,
                                     2.0 * (width + 12.0), width));
  deepest = fmax (deepest, put_height (block, pen->width - HEIGHT_BOX));
  block->height = deepest;
  return block;
}

/* ── the trip ── */

static const char *
name_of_person (const FlPen *pen, const char *id)
{
  const FlRecord *record = id != NULL ? fl_assessment_record (pen->assessment, FL_KIND_PERSON, id) : NULL;
  const FlPerson *person = record != NULL ? fl_record_person (record) : NULL;

  return person != NULL && person->name != NULL ? person->name : id;
}

static const char *
name_of_yard (const FlPen *pen, const char *id)
{
  const FlRecord *record = id != NULL ? fl_assessment_record (pen->assessment, FL_KIND_YARD, id) : NULL;
  const FlYard *yard = record != NULL ? fl_record_yard (record) : NULL;

  return yard != NULL && yard->name != NULL ? yard->name : id;
}

/* A label over its value, or a line to write on where there is none. Its height. */
static double
put_field (FlBlock *block, const char *message, const char *value, double x, double width)
{
  const FlPen *pen = block->pen;
  double y = fl_block_put (block, label (pen, message, width), x, 0.0);

  if (value != NULL && *value != '\0')
    return y + fl_block_put (block, fl_pen_text (pen, FL_TYPE_STRONG, value, width), x, y);
  fl_marks_line (block->marks, x, y + 13.0, x + 0.9 * width, y + 13.0, FL_LINE (FL_TONE_INK, 0.6));
  return y + 14.0;
}

FlBlock *
fl_card_trip (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const FlMove *move = pen->move;
  g_autofree char *leaves = move != NULL ? g_strdup_printf ("%s %s", move->date != NULL ? move->date : "", move->depart_text != NULL ? move->depart_text : "") : NULL;
  const struct { const char *message, *value; double share; } fields[] = {
    { N_("Leaves"), leaves, 0.21 },
    { N_("Driver"), move != NULL ? name_of_person (pen, move->driver) : NULL, 0.21 },
    { N_("From"), move != NULL ? name_of_yard (pen, move->from) : NULL, 0.22 },
    { N_("To"), move != NULL ? name_of_yard (pen, move->to) : NULL, 0.36 },
  };
  double x = 0.0, deepest = 0.0;

  fl_marks_line (block->marks, 0.0, 0.0, pen->width, 0.0, FL_LINE (FL_TONE_INK, 0.4));
  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++)
    {
      FlBlock *field = fl_block_new (pen, fields[i].share * pen->width);

      field->height = put_field (field, fields[i].message, fields[i].value, 0.0, field->width - 8.0);
      deepest = fmax (deepest, field->height);
      fl_marks_append (block->marks, g_steal_pointer (&field->marks), x, 3.0);
      x += field->width;
      g_free (field);
    }
  block->height = 3.0 + deepest;
  return block;
}

/* ── what stands against the plan ── */

static gboolean
is_excepted (const FlPen *pen, const FlFinding *finding)
{
  for (gsize i = 0; i < pen->choices->n_exceptions; i++)
    if (g_strcmp0 (pen->choices->exceptions[i].rule, finding->rule) == 0)
      return TRUE;
  return FALSE;
}

/* The same line as fl_assessment_stands: short or unknown of law, rating, practice, or of the house without an exception. */
static gboolean
stands_against (const FlPen *pen, const FlFinding *finding)
{
  if (finding->verdict != FL_SHORT && finding->verdict != FL_UNKNOWN)
    return FALSE;
  return finding->standing == FL_BY_HOUSE ? !is_excepted (pen, finding) : finding->standing != FL_BY_ADVICE;
}

static double
put_shortfall (FlBlock *block, const FlFinding *finding, double y)
{
  const FlPen *pen = block->pen;
  g_autofree char *sentence = fl_words_finding (pen->words, finding, pen->metric);
  g_autofree char *said = g_strdup_printf ("%s: %s (%s)", fl_words_verdict (pen->words, finding->verdict), sentence, finding->citation);
  const double indent = 20.0;

  fl_marks_rect (block->marks, 10.0, y + 4.5, 4.0, 4.0, FL_FILLED (FL_TONE_INK));
  return fl_block_put (block, fl_pen_text (pen, FL_TYPE_BODY, said, block->width - indent - 8.0), indent, y) + 1.5;
}

/* A black bar with the state and, under it, what to do. */
static double
put_bar (FlBlock *block, FlCardState state)
{
  const FlPen *pen = block->pen;
  const char *told = N_("Do not load or drive by this sheet. What stands against it:");
  PangoLayout *title = fl_pen_text (pen, FL_TYPE_TITLE, fl_words_text (pen->words, fl_card_state_message (state)), 0.0);
  const double bar = 23.0;

  fl_marks_rect (block->marks, 0.0, 0.0, block->width, bar, FL_FILLED (FL_TONE_INK));
  fl_marks_text (block->marks, title, 8.0, 3.0, 0.0, FL_TONE_PAPER);
  return bar + 4.0 + fl_block_put (block, fl_pen_two (pen, FL_TYPE_STRONG, fl_words_text (pen->words, told), fl_pen_second (pen, told), TRUE, block->width - 16.0), 8.0, bar + 4.0);
}

FlBlock *
fl_card_against (const FlPen *pen, gsize first, double room, gsize *next)
{
  const FlCardState state = fl_card_state (pen);
  FlBlock *block = fl_block_new (pen, pen->width);
  gsize n, shown = 0, i;
  const FlFinding *findings = fl_assessment_findings (pen->assessment, &n);

  block->height = put_bar (block, state) + 2.0;
  for (i = first; i < n; i++)
    if (stands_against (pen, &findings[i]))
      {
        if (shown > 0 && block->height > room - 30.0)
          break;
        block->height += put_shortfall (block, &findings[i], block->height);
        shown++;
      }
  *next = i;
  block->height += 4.0;
  fl_marks_rect (block->marks, 0.0, 0.0, block->width, block->height, FL_LINE (FL_TONE_INK, 1.6));
  if (shown > 0)
    return block;
  fl_block_free (block);
  return NULL;
}
