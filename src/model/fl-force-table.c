/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The force answers put side by side, and their cells in words. */
#include "fl-force-table.h"

#include <math.h>

#define DASH "–"

/* ── rows ── */

static gboolean
same_text (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (a, b) == 0;
}

GPtrArray *
fl_force_cases (const FlAssessmentParts *parts)
{
  GPtrArray *cases = g_ptr_array_new ();

  for (gsize i = 0; i < parts->n_forces && cases->len < FL_FORCE_MAX_CASES; i++)
    if (!g_ptr_array_find_with_equal_func (cases, parts->forces[i].case_id, same_text, NULL))
      g_ptr_array_add (cases, (gpointer) parts->forces[i].case_id);
  return cases;
}

static guint
case_rank (const GPtrArray *cases, const char *id)
{
  guint at = cases->len;

  g_ptr_array_find_with_equal_func ((GPtrArray *) cases, id, same_text, &at);
  return at;
}

/* By load, working before breaking, friction before none. */
static gint
compare_place (guint load_a, const char *level_a, const char *friction_a, guint load_b, const char *level_b, const char *friction_b)
{
  const gint breaking = same_text (level_a, "breaking") - same_text (level_b, "breaking");
  const gint none = same_text (friction_a, "none") - same_text (friction_b, "none");

  if (load_a != load_b)
    return load_a < load_b ? -1 : 1;
  return breaking != 0 ? breaking : none;
}

static gint
compare_rows (gconstpointer a, gconstpointer b, gpointer cases)
{
  const FlForceRow *x = a, *y = b;
  const gint place = compare_place (x->load, x->level, x->friction, y->load, y->level, y->friction);

  return place != 0 ? place : (gint) case_rank (cases, x->case_id) - (gint) case_rank (cases, y->case_id);
}

static gboolean
same_place (guint load_a, const char *level_a, const char *friction_a, guint load_b, const char *level_b, const char *friction_b)
{
  return load_a == load_b && same_text (level_a, level_b) && same_text (friction_a, friction_b);
}

static FlForceRow *
row_for (GArray *rows, const FlForceResult *force)
{
  for (guint i = 0; i < rows->len; i++)
    {
      FlForceRow *row = &g_array_index (rows, FlForceRow, i);

      if (same_place (row->load, row->level, row->friction, force->load, force->level, force->friction) && same_text (row->case_id, force->case_id))
        return row;
    }
  g_array_append_val (rows, ((FlForceRow) { force->load, force->case_id, force->level, force->friction, force->demand, NULL, NULL, NULL, 0, NAN }));
  return &g_array_index (rows, FlForceRow, rows->len - 1);
}

static void
find_most_used (FlForceRow *row, const FlAssessmentParts *parts)
{
  for (gsize i = 0; i < parts->n_tensions; i++)
    {
      const FlTensionResult *tension = &parts->tensions[i];

      if (same_place (row->load, row->level, row->friction, tension->load, tension->level, tension->friction)
          && same_text (row->case_id, tension->case_id) && isfinite (tension->use) && !(tension->use <= row->use))
        {
          row->most_used = tension->no;
          row->use = tension->use;
        }
    }
}

GArray *
fl_force_rows (const FlAssessmentParts *parts)
{
  g_autoptr(GPtrArray) cases = fl_force_cases (parts);
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (FlForceRow));

  for (gsize i = 0; i < parts->n_forces; i++)
    {
      const FlForceResult *force = &parts->forces[i];
      FlForceRow *row = row_for (rows, force);

      if (same_text (force->method, "component_sum"))
        row->sum = force;
      else if (same_text (force->method, "upper_bound"))
        row->bound = force;
      else
        row->sharing = force;
    }
  for (guint i = 0; i < rows->len; i++)
    find_most_used (&g_array_index (rows, FlForceRow, i), parts);
  g_array_sort_with_data (rows, compare_rows, cases);
  return rows;
}

static gint
compare_tensions (gconstpointer a, gconstpointer b)
{
  const FlTensionRow *x = a, *y = b;
  const gint place = compare_place (x->load, x->level, x->friction, y->load, y->level, y->friction);

  return place != 0 ? place : (x->no > y->no) - (x->no < y->no);
}

GArray *
fl_tension_rows (const FlAssessmentParts *parts)
{
  g_autoptr(GPtrArray) cases = fl_force_cases (parts);
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (FlTensionRow));

  for (gsize i = 0; i < parts->n_tensions; i++)
    {
      const FlTensionResult *t = &parts->tensions[i];
      const guint rank = case_rank (cases, t->case_id);
      guint at = 0;

      for (; at < rows->len; at++)
        {
          const FlTensionRow *row = &g_array_index (rows, FlTensionRow, at);

          if (row->no == t->no && same_place (row->load, row->level, row->friction, t->load, t->level, t->friction))
            break;
        }
      if (at == rows->len)
        g_array_append_val (rows, ((FlTensionRow) { t->load, t->level, t->friction, t->no, { NULL } }));
      if (rank < cases->len)
        g_array_index (rows, FlTensionRow, at).of[rank] = t;
    }
  g_array_sort (rows, compare_tensions);
  return rows;
}

/* ── words ── */

typedef struct { const char *id, *word; } Word;

static const char *
word_of (const FlWords *words, const Word *table, gsize n, const char *id)
{
  for (gsize i = 0; i < n; i++)
    if (g_strcmp0 (table[i].id, id) == 0)
      return fl_words_text (words, table[i].word);
  return id;
}

const char *
fl_force_advice (const FlWords *words)
{
  return fl_words_text (words, N_("Engineering advice from the records as entered, no proof: local rules, the makers’ manuals and a competent person at the truck come first."));
}

const char *
fl_force_head (const FlWords *words, FlForceColumn column)
{
  static const char *const heads[FL_FORCE_N_COLUMNS] = {
    N_("Load"), N_("Limits"), N_("Deck"), N_("Moving"), N_("Wanted"), N_("Load sharing"), N_("Upper bound"), N_("Component sum"), N_("Then"),
    N_("At their limit"), N_("Most used"), N_("Moves by"),
  };

  g_return_val_if_fail ((guint) column < FL_FORCE_N_COLUMNS, "");
  return fl_words_text (words, heads[column]);
}

const char *
fl_force_case_word (const FlWords *words, const char *case_id)
{
  static const Word table[] = {
    { "forward", N_("forward") }, { "rearward", N_("rearward") }, { "left", N_("to the left") }, { "right", N_("to the right") }, { "up", N_("upward") },
  };

  return word_of (words, table, G_N_ELEMENTS (table), case_id);
}

const char *
fl_force_level_word (const FlWords *words, const char *level)
{
  static const Word table[] = { { "working", N_("working") }, { "breaking", N_("breaking") } };

  return word_of (words, table, G_N_ELEMENTS (table), level);
}

const char *
fl_force_friction_word (const FlWords *words, const char *friction)
{
  static const Word table[] = {
    { "dry", N_("dry") }, { "wet", N_("wet") }, { "frost", N_("frosty") }, { "none", N_("no friction") },
  };

  return word_of (words, table, G_N_ELEMENTS (table), friction);
}

const char *
fl_force_mode_word (const FlWords *words, const char *mode)
{
  static const Word table[] = {
    { "slides", N_("it slides") }, { "tips", N_("it tips over") }, { "yaws", N_("it turns round") }, { "lifts", N_("it lifts off the deck") },
    { "unstable_at_rest", N_("it cannot stand") }, { "not_judged", N_("not judged") }, { "not_settled", N_("not settled") },
  };

  return mode != NULL ? word_of (words, table, G_N_ELEMENTS (table), mode) : DASH;
}

/* ── cells ── */

/* To the nearest, as the findings and the document have the same figures. */
static char *
quantity_cell (FlQuantity quantity, gboolean metric)
{
  return fl_quantity_known (quantity) && isfinite (quantity.value) ? fl_quantity_format (quantity, metric, FALSE, FL_ROUND_NEAREST) : g_strdup (DASH);
}

static char *
capacity_cell (const FlForceResult *force)
{
  return quantity_cell (force != NULL ? force->capacity : FL_NOT_MEASURED, FALSE);
}

static char *
numbers_cell (const FlForceResult *force)
{
  GString *text = g_string_new (NULL);

  for (gsize i = 0; force != NULL && i < force->n_at_limit; i++)
    g_string_append_printf (text, "%s%u", i > 0 ? ", " : "", force->at_limit[i]);
  return g_string_free (text->len > 0 ? text : g_string_append (text, DASH), FALSE);
}

static char *
shared_cell (const FlWords *words, const FlForceRow *row)
{
  const FlForceResult *sharing = row->sharing;
  g_autofree char *holds = capacity_cell (sharing);
  const FlFact facts[] = { FL_FACT_TEXT ("holds", holds) };

  if (sharing != NULL && sharing->mode != NULL)
    return g_strdup (fl_force_mode_word (words, sharing->mode));
  if (sharing == NULL || sharing->n_at_limit > 0 || !fl_quantity_known (sharing->capacity) || row->use >= 1.0)
    return g_steal_pointer (&holds);
  return fl_words_message (words, N_("at least {holds}"), facts, G_N_ELEMENTS (facts), FALSE);
}

static char *
use_cell (const FlForceRow *row)
{
  g_autofree char *use = NULL;

  if (row->most_used == 0)
    return g_strdup (DASH);
  use = quantity_cell (FL_PCT (100.0 * row->use), FALSE);
  return g_strdup_printf ("%u: %s", row->most_used, use);
}

static char *
moved_cell (const FlForceResult *sharing, gboolean metric)
{
  g_autofree char *moved = quantity_cell (sharing != NULL ? sharing->moved : FL_NOT_MEASURED, metric);
  g_autofree char *turned = quantity_cell (sharing != NULL ? sharing->turned : FL_NOT_MEASURED, metric);

  return same_text (turned, DASH) ? g_steal_pointer (&moved) : g_strdup_printf ("%s, %s", moved, turned);
}

char *
fl_force_cell (const FlWords *words, const FlForceRow *row, const char *id, FlForceColumn column, gboolean metric)
{
  switch (column)
    {
    case FL_FORCE_LOAD:
      return g_strdup (id != NULL ? id : DASH);
    case FL_FORCE_LEVEL:
      return g_strdup (fl_force_level_word (words, row->level));
    case FL_FORCE_FRICTION:
      return g_strdup (fl_force_friction_word (words, row->friction));
    case FL_FORCE_CASE:
      return g_strdup (fl_force_case_word (words, row->case_id));
    case FL_FORCE_DEMAND:
      return quantity_cell (row->demand, metric);
    case FL_FORCE_SUM:
      return capacity_cell (row->sum);
    case FL_FORCE_BOUND:
      return capacity_cell (row->bound);
    case FL_FORCE_MODE:
      return g_strdup (row->bound != NULL ? fl_force_mode_word (words, row->bound->mode) : DASH);
    case FL_FORCE_AT_LIMIT:
      return numbers_cell (row->bound);
    case FL_FORCE_SHARED:
      return shared_cell (words, row);
    case FL_FORCE_MOST_USED:
      return use_cell (row);
    case FL_FORCE_MOVED:
      return moved_cell (row->sharing, metric);
    case FL_FORCE_N_COLUMNS:
      break;
    }
  g_return_val_if_reached (g_strdup (DASH));
}

char *
fl_tension_cell (const FlTensionResult *tension, gboolean metric)
{
  g_autofree char *force = quantity_cell (tension != NULL ? tension->tension : FL_NOT_MEASURED, metric);
  g_autofree char *use = quantity_cell (FL_PCT (tension != NULL ? 100.0 * tension->use : NAN), metric);

  return same_text (use, DASH) ? g_steal_pointer (&force) : g_strdup_printf ("%s, %s", force, use);
}

/* ── a row in full ── */

static void
add_sentence (GString *text, const FlWords *words, const char *message, const FlFact *facts, gsize n)
{
  g_autofree char *said = fl_words_message (words, message, facts, n, FALSE);

  g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", said);
}

static void
add_sharing (GString *text, const FlWords *words, const FlForceRow *row, const FlFact *facts, gsize n)
{
  if (row->sharing == NULL)
    return;
  if (row->sharing->mode != NULL)
    add_sentence (text, words, N_("How they share it is not settled: the load moves too far, or nothing holds it."), facts, n);
  else if (row->most_used == 0)
    add_sentence (text, words, N_("As they stretch and share it: {shared}."), facts, n);
  else
    add_sentence (text, words, N_("As they stretch and share it: {shared}. Of what is wanted tie-down {no} carries the largest share of its limit, {use}; the load moves {moved}."),
                  facts, n);
}

char *
fl_force_sentence (const FlWords *words, const FlForceRow *row, gboolean metric)
{
  g_autoptr(GString) text = g_string_new (NULL);
  g_autofree char *demand = fl_force_cell (words, row, NULL, FL_FORCE_DEMAND, metric), *sum = fl_force_cell (words, row, NULL, FL_FORCE_SUM, metric);
  g_autofree char *bound = fl_force_cell (words, row, NULL, FL_FORCE_BOUND, metric), *ties = fl_force_cell (words, row, NULL, FL_FORCE_AT_LIMIT, metric);
  g_autofree char *shared = fl_force_cell (words, row, NULL, FL_FORCE_SHARED, metric), *moved = fl_force_cell (words, row, NULL, FL_FORCE_MOVED, metric);
  g_autofree char *no = g_strdup_printf ("%u", row->most_used), *use = quantity_cell (FL_PCT (100.0 * row->use), metric);
  const FlFact facts[] = {
    FL_FACT_TEXT ("way", fl_force_case_word (words, row->case_id)), FL_FACT_TEXT ("level", fl_force_level_word (words, row->level)),
    FL_FACT_TEXT ("deck", fl_force_friction_word (words, row->friction)), FL_FACT_TEXT ("demand", demand), FL_FACT_TEXT ("sum", sum),
    FL_FACT_TEXT ("bound", bound), FL_FACT_TEXT ("mode", row->bound != NULL ? fl_force_mode_word (words, row->bound->mode) : DASH), FL_FACT_TEXT ("ties", ties),
    FL_FACT_TEXT ("shared", shared), FL_FACT_TEXT ("no", no), FL_FACT_TEXT ("use", use), FL_FACT_TEXT ("moved", moved),
  };

  add_sentence (text, words, N_("Moving {way}, {level} limits, {deck}: {demand} is wanted."), facts, G_N_ELEMENTS (facts));
  if (row->sum != NULL)
    add_sentence (text, words, N_("Component sum {sum}."), facts, G_N_ELEMENTS (facts));
  if (row->bound != NULL)
    add_sentence (text, words, row->bound->n_at_limit > 0 ? N_("Upper bound {bound}, with all that can at their limit: tie-downs {ties}; then {mode}.")
                                                          : N_("Upper bound {bound}; then {mode}."), facts, G_N_ELEMENTS (facts));
  add_sharing (text, words, row, facts, G_N_ELEMENTS (facts));
  return g_string_free (g_steal_pointer (&text), FALSE);
}
