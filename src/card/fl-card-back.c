/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The back of the card: the walk-around before leaving, the log of looks on the road, what was changed or found damaged, signatures, cautions. */
#include "fl-card-private.h"

#include <math.h>

/* ── the walk-around ── */

static void
add_all_on (const FlPen *pen, GArray *lines)
{
  g_autofree char *count = g_strdup_printf ("%u", (guint) pen->choices->n_tie_downs);

  if (pen->choices->n_tie_downs > 0)
    fl_lines_add (lines, pen, N_("All {n} tie-downs on, as in the picture"), &FL_FACT_TEXT ("n", count), 1);
}

/* "5, 6": the numbers of an implement's tie-downs. */
static char *
numbers_of (const FlPen *pen, guint load, const char *implement)
{
  GString *numbers = g_string_new (NULL);

  for (gsize i = 0; i < pen->choices->n_tie_downs; i++)
    {
      const FlTieDown *tie = &pen->choices->tie_downs[i];

      if (tie->purpose == FL_FOR_IMPLEMENT && tie->load == load && g_strcmp0 (tie->implement, implement) == 0)
        g_string_append_printf (numbers, "%s%u", numbers->len > 0 ? ", " : "", tie->no);
    }
  return g_string_free (numbers, FALSE);
}

/* One load needs no name before each line. */
typedef struct { const char *alone, *named; } Line;

static void
add_line (const FlPen *pen, GArray *lines, Line line, const FlFact *facts, gsize n)
{
  fl_lines_add (lines, pen, pen->choices->n_loads == 1 ? line.alone : line.named, facts, n);
}

static void
add_lock (const FlPen *pen, GArray *lines, const FlMachine *machine, const FlLock *lock)
{
  static const Line missing = { N_("{lock} missing, yet nothing can move"), N_("{load}: {lock} missing, yet nothing can move") };
  static const Line pinned = { N_("{lock} in place, its pin and keeper too"), N_("{load}: {lock} in place, its pin and keeper too") };
  static const Line in_place = { N_("{lock} in place"), N_("{load}: {lock} in place") };
  const FlFact facts[] = { FL_FACT_TEXT ("load", machine->id), FL_FACT_TEXT ("lock", lock->name != NULL ? lock->name : lock->id) };

  add_line (pen, lines, lock->fitted == FL_IS_NOT ? missing : lock->kind == FL_LOCK_ARTICULATION ? pinned : in_place, facts, G_N_ELEMENTS (facts));
}

static void
add_implement (const FlPen *pen, GArray *lines, guint load, const FlMachine *machine, const FlImplement *implement)
{
  static const Line loose = { N_("{implement} cannot move"), N_("{load}: {implement} cannot move") };
  static const Line down = { N_("{implement} down and held by no. {numbers}"), N_("{load}: {implement} down and held by no. {numbers}") };
  static const Line held = { N_("{implement} held by no. {numbers}"), N_("{load}: {implement} held by no. {numbers}") };
  g_autofree char *numbers = numbers_of (pen, load, implement->id);
  const FlFact facts[] = { FL_FACT_TEXT ("load", machine->id), FL_FACT_TEXT ("implement", implement->name != NULL ? implement->name : implement->id),
                           FL_FACT_TEXT ("numbers", numbers) };

  add_line (pen, lines, *numbers == '\0' ? loose : implement->can_lower ? down : held, facts, G_N_ELEMENTS (facts));
}

FlBlock *
fl_card_walk_round (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  g_autoptr(GArray) lines = fl_lines_new ();

  fl_block_heading (block, N_("Walk around before leaving"));
  add_all_on (pen, lines);
  for (guint i = 0; i < pen->choices->n_loads; i++)
    {
      const FlMachine *machine = fl_load_machine (pen->assessment, i);

      for (gsize k = 0; machine != NULL && k < machine->n_locks; k++)
        add_lock (pen, lines, machine, &machine->locks[k]);
      for (gsize k = 0; machine != NULL && k < machine->n_implements; k++)
        add_implement (pen, lines, i, machine, &machine->implements[k]);
    }
  for (gsize i = 0; i < pen->parts->n_walk_round; i++)
    fl_lines_add (lines, pen, pen->parts->walk_round[i].message, pen->parts->walk_round[i].facts, pen->parts->walk_round[i].n_facts);
  fl_block_ticks (block, lines, 2);
  return block;
}

/* ── tables to write in ── */

typedef struct { const char *message; double share; } Column;

/* A grid with its column titles; rows high enough for a gloved hand. */
static void
add_grid (FlBlock *block, const Column *columns, gsize n, guint rows, const char *first)
{
  const FlPen *pen = block->pen;
  double x = 0.0, top = block->height, head = 0.0;

  for (gsize i = 0; i < n; i++)
    {
      PangoLayout *text = fl_pen_label (pen, FL_TYPE_LABEL, columns[i].message, TRUE, columns[i].share * block->width - 4.0);

      head = fmax (head, fl_block_put (block, text, x + 3.0, top));
      x += columns[i].share * block->width;
    }
  top += head + 1.5;
  for (guint row = 0; row <= rows; row++)
    fl_marks_line (block->marks, 0.0, top + row * FL_LINE_TO_WRITE, block->width, top + row * FL_LINE_TO_WRITE, FL_LINE (FL_TONE_INK, 0.5));
  x = 0.0;
  for (gsize i = 0; i <= n; i++)
    {
      fl_marks_line (block->marks, x, top, x, top + rows * FL_LINE_TO_WRITE, FL_LINE (FL_TONE_INK, i == 0 || i == n ? 0.5 : 0.3));
      x += i < n ? columns[i].share * block->width : 0.0;
    }
  if (first != NULL && rows > 0)
    fl_block_put (block, fl_pen_text (pen, FL_TYPE_SMALL, fl_words_text (pen->words, first), 0.0), 4.0, top + 7.0);
  block->height = top + rows * FL_LINE_TO_WRITE + 1.0;
}

/* "Within 50 mi of the start, then at each change of duty, every 3 h or 150 mi, whichever comes first." */
static void
add_when (FlBlock *block)
{
  const FlPen *pen = block->pen;
  const FlRecheck *r = &pen->parts->recheck;
  const FlFact facts[] = { FL_FACT_QUANTITY ("within", r->within), FL_FACT_QUANTITY ("time", r->then_time), FL_FACT_QUANTITY ("distance", r->then_distance) };
  const char *message = r->duty_change ? N_("Stop and look within {within}, then at each change of duty, every {time} or {distance}, whichever comes first.")
                                       : N_("Stop and look within {within}, then every {time} or {distance}, whichever comes first.");
  g_autofree char *said = fl_words_message (pen->words, message, facts, G_N_ELEMENTS (facts), pen->metric);
  g_autofree char *second = pen->bilingual ? fl_words_message (pen->second, message, facts, G_N_ELEMENTS (facts), pen->metric) : NULL;

  if (!fl_quantity_known (r->within) && !fl_quantity_known (r->then_distance))
    return;
  block->height += fl_block_put (block, fl_pen_two (pen, FL_TYPE_STRONG, said, second, TRUE, block->width), 0.0, block->height) + 2.0;
}

FlBlock *
fl_card_rechecks (const FlPen *pen, guint lines)
{
  static const Column columns[] = { { N_("Time"), 0.13 }, { N_("Odometer"), 0.17 }, { N_("Place"), 0.30 }, { N_("Tight, or what was done"), 0.27 }, { N_("Initials"), 0.13 } };
  FlBlock *block = fl_block_new (pen, pen->width);

  fl_block_heading (block, N_("On the road: look again"));
  add_when (block);
  add_grid (block, columns, G_N_ELEMENTS (columns), lines, N_("start"));
  return block;
}

FlBlock *
fl_card_changes (const FlPen *pen, guint lines)
{
  static const Column columns[] = { { N_("No."), 0.08 }, { N_("Like or stronger gear put on: what, mark, length"), 0.47 },
                                    { N_("Damage found"), 0.32 }, { N_("Initials"), 0.13 } };
  FlBlock *block = fl_block_new (pen, pen->width);

  fl_block_heading (block, N_("Changed or damaged"));
  add_grid (block, columns, G_N_ELEMENTS (columns), lines, NULL);
  return block;
}

/* ── signatures ── */

static void
add_signer (FlBlock *block, const char *role, const char *name, const char *when, double x, double width)
{
  const FlPen *pen = block->pen;
  const double top = block->height;
  PangoLayout *label = fl_pen_two (pen, FL_TYPE_LABEL, fl_words_text (pen->words, role), fl_pen_second (pen, role), FALSE, 0.0);
  double taken;

  fl_text_size (label, &taken, NULL);
  fl_block_put (block, label, x, top);
  if (name != NULL)
    fl_block_put (block, fl_pen_text (pen, FL_TYPE_STRONG, name, width - taken - 8.0), x + taken + 8.0, top - 2.0);
  fl_block_write_line (block, N_("Signature"), x, top + 12.0, 0.64 * width - 8.0, FL_LINE_TO_WRITE);
  if (when != NULL)
    fl_block_put (block, fl_pen_text (pen, FL_TYPE_SMALL, when, 0.36 * width), x + 0.64 * width, top + 12.0 + FL_LINE_TO_WRITE - 13.0);
  else
    fl_block_write_line (block, N_("Time"), x + 0.64 * width, top + 12.0, 0.36 * width, FL_LINE_TO_WRITE);
}

FlBlock *
fl_card_signatures (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const double width = 0.5 * (pen->width - FL_GUTTER);
  const gboolean is_signed = fl_card_state (pen) == FL_CARD_SIGNED;
  const FlRecord *record = pen->move != NULL && pen->move->driver != NULL ? fl_assessment_record (pen->assessment, FL_KIND_PERSON, pen->move->driver) : NULL;
  const FlPerson *driver = record != NULL ? fl_record_person (record) : NULL;

  fl_marks_line (block->marks, 0.0, 0.0, pen->width, 0.0, FL_LINE (FL_TONE_INK, 0.8));
  block->height = 5.0;
  add_signer (block, N_("Dispatcher"), is_signed ? pen->signature->signer : NULL, is_signed ? pen->signature->when : NULL, 0.0, width);
  add_signer (block, N_("Driver"), driver != NULL ? driver->name : NULL, NULL, width + FL_GUTTER, width);
  block->height += 12.0 + FL_LINE_TO_WRITE;
  return block;
}

/* ── cautions ── */

/* Two columns of fine print, each line with a dot. */
FlBlock *
fl_card_cautions (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  const double width = 0.5 * (pen->width - FL_GUTTER), indent = 8.0;
  const gsize n = pen->parts->n_cautions, half = (n + 1) / 2;
  double top, deepest = 0.0, y = 0.0;

  fl_marks_line (block->marks, 0.0, 0.0, pen->width, 0.0, FL_LINE (FL_TONE_INK, 0.8));
  block->height = 4.0;
  top = block->height;
  for (gsize i = 0; i < n; i++)
    {
      const FlMessage *m = &pen->parts->cautions[i];
      g_autofree char *said = fl_words_message (pen->words, m->message, m->facts, m->n_facts, pen->metric);
      g_autofree char *second = pen->bilingual ? fl_words_message (pen->second, m->message, m->facts, m->n_facts, pen->metric) : NULL;
      const double x = i < half ? 0.0 : width + FL_GUTTER;

      if (i == half)
        y = 0.0;
      fl_marks_circle (block->marks, x + 2.5, top + y + 5.4, 1.3, FL_FILLED (FL_TONE_INK));
      y += fl_block_put (block, fl_pen_two (pen, pen->bilingual ? FL_TYPE_FINE : FL_TYPE_LABEL, said, second, TRUE, width - indent), x + indent, top + y) + 1.0;
      deepest = fmax (deepest, y);
    }
  block->height = top + deepest;
  return block;
}
