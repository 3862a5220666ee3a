/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to take from the box, piece by piece, and what to do before the first chain goes on. */
#include "fl-card-private.h"

#include <math.h>
#include <string.h>

#define GEAR_LINE 15.0          /* from one line of boxes to the next */

/* ── the records of gear ── */

const FlRecord *
fl_card_gear_record (const FlPen *pen, FlKind kind, const char *id, gboolean *counted)
{
  const char *mark = id != NULL ? strrchr (id, '#') : NULL;
  g_autofree char *record_id = mark != NULL && mark > id ? g_strndup (id, (gsize) (mark - id)) : g_strdup (id);

  if (counted != NULL)
    *counted = mark != NULL;
  return record_id != NULL ? fl_assessment_record (pen->assessment, kind, g_strchomp (record_id)) : NULL;
}

static char *
rated (const FlPen *pen, const FlWords *words, const char *what, FlQuantity wll)
{
  g_autofree char *weight = fl_say_weight (words, wll, pen->metric, FL_ROUND_DOWN);

  if (fl_quantity_known (wll))
    return g_strdup_printf ("%s, %s", what, weight);
  return fl_quantity_is_none (wll) ? g_strdup_printf ("%s, %s", what, fl_words_text (words, N_("unmarked"))) : g_strdup (what);
}

static char *
any_chain (const FlPen *pen, const FlWords *words, const FlChain *chain)
{
  const double feet = fl_quantity_in (chain->length, FL_UNIT_FT);
  g_autofree char *length = isfinite (feet) ? g_strdup_printf ("%d", (gint) floor (feet + 1e-6)) : g_strdup ("?");
  const FlFact facts[] = { FL_FACT_TEXT ("size", chain->size_text != NULL ? chain->size_text : "?"), FL_FACT_TEXT ("length", length),
                           FL_FACT_TEXT ("mark", chain->mark_seen == FL_IS ? chain->mark : "") };

  return fl_words_message (words, chain->mark_seen == FL_IS ? N_("any {size} x {length} marked {mark}") : N_("any {size} x {length} unmarked"), facts,
                           G_N_ELEMENTS (facts), pen->metric);
}

char *
fl_card_any_text (const FlPen *pen, const FlWords *words, FlKind kind, const char *id)
{
  gboolean counted = FALSE;
  const FlRecord *record = fl_card_gear_record (pen, kind, id, &counted);
  g_autofree char *what = NULL;

  if (!counted || record == NULL)
    return NULL;
  if (kind == FL_KIND_CHAIN)
    return fl_record_chain (record) != NULL ? any_chain (pen, words, fl_record_chain (record)) : NULL;
  if (kind == FL_KIND_STRAP && fl_record_strap (record) != NULL)
    what = fl_card_say (words, N_("{width} in strap"), "width", fl_record_strap (record)->width_text, NULL, NULL);
  else if (kind == FL_KIND_BINDER)
    what = fl_card_binder_text (pen, words, id);
  else if (kind == FL_KIND_CONNECTOR)
    what = fl_card_connector_text (pen, words, id);
  return what != NULL ? fl_card_say (words, N_("any {id}"), "id", what, NULL, NULL) : NULL;
}

char *
fl_card_binder_text (const FlPen *pen, const FlWords *words, const char *id)
{
  const FlRecord *record = fl_card_gear_record (pen, FL_KIND_BINDER, id, NULL);
  const FlBinder *binder = record != NULL ? fl_record_binder (record) : NULL;
  const char *what = fl_words_text (words, binder == NULL || binder->kind == FL_BINDER_UNKNOWN ? N_("binder")
                                           : binder->kind == FL_BINDER_RATCHET ? N_("ratchet binder") : N_("lever binder"));

  return binder != NULL ? rated (pen, words, what, binder->wll) : g_strdup (what);
}

char *
fl_card_connector_text (const FlPen *pen, const FlWords *words, const char *id)
{
  const FlRecord *record = fl_card_gear_record (pen, FL_KIND_CONNECTOR, id, NULL);
  const FlConnector *connector = record != NULL ? fl_record_connector (record) : NULL;
  const char *what = N_("connector");

  if (connector == NULL)
    return g_strdup (fl_words_text (words, what));
  switch (connector->kind)
    {
    case FL_CONNECTOR_SHACKLE:
      what = N_("shackle");
      break;
    case FL_CONNECTOR_CLEVIS_LINK:
      what = N_("clevis link");
      break;
    case FL_CONNECTOR_SOFT_LOOP:
      what = N_("soft loop");
      break;
    case FL_CONNECTOR_UNKNOWN:
      break;
    }
  return rated (pen, words, fl_words_text (words, what), connector->wll);
}

/* ── gear to take ── */

/* Pieces of one description, in the order of the tie-downs; a piece that two tie-downs name is taken once. Those of a record of several alike
 * are any of them: they have its number together and no own. */
typedef struct { char *what, *second; const char *any; GPtrArray *pieces; } Group;

static void
clear_group (gpointer data)
{
  Group *group = data;

  g_free (group->what);
  g_free (group->second);
  g_ptr_array_unref (group->pieces);
}

typedef struct { const FlPen *pen; GArray *groups; GHashTable *seen; } Gathering;

static char *
describe (const FlPen *pen, const FlWords *words, FlKind kind, const char *piece, const FlTieResult *result)
{
  char *any = fl_card_any_text (pen, words, kind, piece);

  if (any != NULL)
    return any;
  switch (kind)
    {
    case FL_KIND_CHAIN:
      return fl_card_say (words, N_("chain {what}"), "what", result != NULL && result->gear_text != NULL ? result->gear_text : "", NULL, NULL);
    case FL_KIND_STRAP:
      return g_strdup (result != NULL && result->gear_text != NULL ? result->gear_text : fl_words_text (words, N_("strap")));
    case FL_KIND_BINDER:
      return fl_card_binder_text (pen, words, piece);
    default:
      return fl_card_connector_text (pen, words, piece);
    }
}

static void
take (Gathering *g, FlKind kind, const char *piece, const FlTieResult *result)
{
  gboolean counted = FALSE;
  const FlRecord *record = piece != NULL ? fl_card_gear_record (g->pen, kind, piece, &counted) : NULL;
  const char *any = counted && record != NULL ? fl_record_id (record) : NULL;
  g_autofree char *what = NULL;
  Group group;

  if (piece == NULL || !g_hash_table_add (g->seen, (gpointer) piece))
    return;
  what = describe (g->pen, g->pen->words, kind, piece, result);
  for (guint i = 0; i < g->groups->len; i++)
    if (strcmp (g_array_index (g->groups, Group, i).what, what) == 0 && g_strcmp0 (g_array_index (g->groups, Group, i).any, any) == 0)
      {
        g_ptr_array_add (g_array_index (g->groups, Group, i).pieces, (gpointer) piece);
        return;
      }
  group = (Group) { g_steal_pointer (&what), describe (g->pen, g->pen->second, kind, piece, result), any, g_ptr_array_new () };
  g_ptr_array_add (group.pieces, (gpointer) piece);
  g_array_append_val (g->groups, group);
}

static GArray *
gather (const FlPen *pen)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  Gathering g = { pen, g_array_new (FALSE, FALSE, sizeof (Group)), seen };
  const FlPlanChoices *c = pen->choices;

  g_array_set_clear_func (g.groups, clear_group);
  for (gsize i = 0; i < c->n_tie_downs; i++)
    take (&g, FL_KIND_CHAIN, c->tie_downs[i].chain, i < pen->parts->n_ties ? &pen->parts->ties[i] : NULL);
  for (gsize i = 0; i < c->n_tie_downs; i++)
    take (&g, FL_KIND_STRAP, c->tie_downs[i].strap, i < pen->parts->n_ties ? &pen->parts->ties[i] : NULL);
  for (gsize i = 0; i < c->n_tie_downs; i++)
    take (&g, FL_KIND_BINDER, c->tie_downs[i].binder, NULL);
  for (gsize i = 0; i < c->n_tie_downs; i++)
    for (guint k = 0; k < c->tie_downs[i].n_connectors; k++)
      take (&g, FL_KIND_CONNECTOR, c->tie_downs[i].connectors[k].id, NULL);
  return g.groups;
}

/* Where the next text of the list goes: on the line while it fits, else at the start of the next. */
typedef struct { double x, y; } Caret;

static void
make_room (Caret *caret, double width, double line)
{
  if (caret->x > 0.0 && caret->x + width > line)
    *caret = (Caret) { 0.0, caret->y + GEAR_LINE };
}

/* A box and, where it has one, the piece's own number. */
static void
put_piece (FlBlock *block, Caret *caret, const char *number)
{
  PangoLayout *text = number != NULL ? fl_pen_text (block->pen, FL_TYPE_STRONG, number, 0.0) : NULL;
  double width = 0.0;

  if (text != NULL)
    fl_text_size (text, &width, NULL);
  make_room (caret, FL_BOX_INDENT + width, block->width);
  fl_marks_rect (block->marks, caret->x + 0.5, caret->y + 2.2, FL_BOX, FL_BOX, FL_LINE (FL_TONE_INK, 0.9));
  if (text != NULL)
    fl_block_put (block, text, caret->x + FL_BOX_INDENT, caret->y);
  caret->x += FL_BOX_INDENT + (text != NULL ? width + 9.0 : 2.0);
}

static double
put_words (FlBlock *block, Caret *caret, PangoLayout *text, double with_it)
{
  double width;

  fl_text_size (text, &width, NULL);
  make_room (caret, width + 6.0 + with_it, block->width);
  fl_block_put (block, text, caret->x, caret->y);
  caret->x += width + 6.0;
  return width;
}

/* What the pieces are and the first of them stay on one line. */
static void
put_group (FlBlock *block, Caret *caret, const Group *group)
{
  const FlPen *pen = block->pen;
  g_autofree char *what = g_strdup_printf ("%u \u00d7 %s", group->pieces->len, group->what);
  const char *second = pen->bilingual && strcmp (group->what, group->second) != 0 ? group->second : NULL;

  put_words (block, caret, fl_pen_two (pen, FL_TYPE_BODY, what, second, FALSE, 0.0), FL_BOX_INDENT + 44.0 + (group->any != NULL ? (FL_BOX_INDENT + 2.0) * group->pieces->len : 0.0));
  if (group->any != NULL)
    put_words (block, caret, fl_pen_text (pen, FL_TYPE_STRONG, group->any, 0.0), FL_BOX_INDENT);
  for (guint i = 0; i < group->pieces->len; i++)
    put_piece (block, caret, group->any != NULL ? NULL : g_ptr_array_index (group->pieces, i));
  caret->x += 10.0;
}

/* What has no unit number: pads for edges, chocks, mats. */
static void
add_loose (FlBlock *block)
{
  const FlPen *pen = block->pen;
  g_autoptr(GArray) lines = fl_lines_new ();
  g_autofree char *pads_text = NULL;
  guint pads = 0;

  for (gsize i = 0; i < pen->choices->n_tie_downs; i++)
    pads += pen->choices->tie_downs[i].edge_protected ? 1 : 0;
  pads_text = g_strdup_printf ("%u", pads);
  if (pads > 0)
    fl_lines_add (lines, pen, N_("{n} edge pads"), &FL_FACT_TEXT ("n", pads_text), 1);
  for (gsize i = 0; i < pen->choices->n_loads; i++)
    {
      const FlPlanLoad *load = &pen->choices->loads[i];
      const FlFact facts[] = { FL_FACT_TEXT ("load", load->id), FL_FACT_TEXT ("kind", load->mat != NULL ? load->mat : "") };

      if (load->chocked)
        fl_lines_add (lines, pen, N_("chocks for {load}"), facts, 1);
      if (load->mat != NULL)
        fl_lines_add (lines, pen, N_("mat under {load}: {kind}"), facts, 2);
    }
  if (lines->len > 0)
    fl_block_ticks (block, lines, 3);
}

FlBlock *
fl_card_gear (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  g_autoptr(GArray) groups = gather (pen);
  Caret caret = { 0.0, 0.0 };

  fl_block_heading (block, N_("Gear to take"));
  caret.y = block->height;
  for (guint i = 0; i < groups->len; i++)
    put_group (block, &caret, &g_array_index (groups, Group, i));
  if (groups->len > 0)
    block->height = caret.y + GEAR_LINE;
  add_loose (block);
  if (groups->len == 0)
    fl_block_add_message (block, FL_TYPE_BODY, N_("No tie-downs are chosen yet."), 0.0);
  return block;
}

/* ── before chaining ── */

static void
add_machine_lines (const FlPen *pen, GArray *lines, guint load)
{
  const FlMachine *machine = fl_load_machine (pen->assessment, load);
  const gboolean alone = pen->choices->n_loads == 1;

  for (gsize i = 0; machine != NULL && i < machine->n_locks; i++)
    if (machine->locks[i].fitted != FL_IS_NOT)
      {
        const FlFact facts[] = { FL_FACT_TEXT ("load", machine->id), FL_FACT_TEXT ("lock", machine->locks[i].name != NULL ? machine->locks[i].name : machine->locks[i].id) };

        fl_lines_add (lines, pen, alone ? N_("{lock} engaged") : N_("{load}: {lock} engaged"), facts, G_N_ELEMENTS (facts));
      }
  for (gsize i = 0; machine != NULL && i < machine->n_implements; i++)
    {
      const FlImplement *implement = &machine->implements[i];
      const FlFact facts[] = { FL_FACT_TEXT ("load", machine->id), FL_FACT_TEXT ("implement", implement->name != NULL ? implement->name : implement->id) };

      if (implement->can_lower)
        fl_lines_add (lines, pen, alone ? N_("{implement} lowered") : N_("{load}: {implement} lowered"), facts, G_N_ELEMENTS (facts));
      else
        fl_lines_add (lines, pen, alone ? N_("{implement} stowed as its manual says") : N_("{load}: {implement} stowed as its manual says"), facts, G_N_ELEMENTS (facts));
    }
}

FlBlock *
fl_card_before (const FlPen *pen)
{
  FlBlock *block = fl_block_new (pen, pen->width);
  g_autoptr(GArray) lines = fl_lines_new ();

  fl_block_heading (block, N_("Before the first chain"));
  fl_lines_add (lines, pen, N_("Level, firm ground; brakes set, wheels chocked"), NULL, 0);
  fl_lines_add (lines, pen, N_("Deck and ramps clean, dry enough to climb"), NULL, 0);
  fl_lines_add (lines, pen, N_("Nobody on, beside or below the ramps"), NULL, 0);
  fl_lines_add (lines, pen, N_("Parking brake set, engine off, key out"), NULL, 0);
  for (guint i = 0; i < pen->choices->n_loads; i++)
    add_machine_lines (pen, lines, i);
  fl_block_ticks (block, lines, 2);
  return block;
}
