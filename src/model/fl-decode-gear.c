/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gear: chains, binders, straps, connectors, and their inspections. */
#include "fl-decode.h"

#include <string.h>

enum { MOST_ALIKE = 999 };      /* of a record that stands for several */

static const char *const HOOKS[] = { "grab", "slip", "clevis_grab", "clevis_slip", "none", NULL };  /* FlHookKind from 1 on */

static const char *const CHAIN_DAMAGE[] = { "cracked", "bent", "twisted", "stretched", "worn", "welded", "knotted", "repair", NULL };
static const char *const STRAP_DAMAGE[] = { "cut", "worn", "burned", "knotted", "stitching", "fitting", NULL };
static const char *const BINDER_DAMAGE[] = { "bent", "cracked", "handle", "hook_spread", NULL };
/* A connector is of one piece with its pin: what can happen to a link or to a hook. */
static const char *const CONNECTOR_DAMAGE[] = { "cracked", "bent", "twisted", "stretched", "worn", "welded", "hook_spread", NULL };

static FlDamage
decode_damage (FlReader *reader, const char *const *kinds)
{
  FlDamage damage = { 0 };

  damage.kind = fl_decode_word (reader, "kind", kinds, TRUE);
  damage.size = fl_decode_quantity (reader, "size", FL_BOUND_DAMAGE, FALSE);
  damage.repair_link = fl_reader_text (reader, "repair_link", FALSE);
  damage.wll = fl_decode_quantity (reader, "wll", FL_BOUND_WLL, FALSE);
  damage.note = fl_reader_text (reader, "note", FALSE);
  if (g_strcmp0 (damage.kind, "repair") == 0 && damage.repair_link == NULL && !fl_reader_has (reader, "repair_link"))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "repair_link", "what the chain was repaired with: clevis, double_clevis, bolt, ...");
  return damage;
}

static FlInspection
decode_inspection (FlReader *reader, const char *const *kinds)
{
  FlInspection inspection = { 0 };
  gsize given = fl_reader_list (reader, "findings", FALSE);
  FlDamage *findings = fl_arena_new0 (fl_reader_arena (reader), FlDamage, given);

  inspection.date = fl_decode_date (reader, "date", TRUE);
  inspection.by = fl_reader_text (reader, "by", FALSE);
  inspection.findings = findings;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "findings", i);

      if (item != NULL)
        findings[inspection.n_findings++] = decode_damage (item, kinds);
    }
  return inspection;
}

/* The newest by date; of two on one day the one that stands later. */
static const FlInspection *
newest (const FlInspection *inspections, gsize n)
{
  const FlInspection *best = NULL;

  for (gsize i = 0; i < n; i++)
    if (inspections[i].date != NULL && (best == NULL || strcmp (inspections[i].date, best->date) >= 0))
      best = &inspections[i];
  return best;
}

static FlPiece
decode_piece (FlReader *reader, const char *const *damage_kinds)
{
  FlPiece piece = { 0 };
  gsize given = fl_reader_list (reader, "inspections", FALSE);
  FlInspection *inspections = fl_arena_new0 (fl_reader_arena (reader), FlInspection, given);

  piece.id = fl_decode_id (reader);
  piece.kept_at = fl_reader_text (reader, "kept_at", TRUE);
  piece.count = fl_reader_int (reader, "count", 1, MOST_ALIKE, 1);
  piece.inspections = inspections;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "inspections", i);

      if (item != NULL)
        inspections[piece.n_inspections++] = decode_inspection (item, damage_kinds);
    }
  piece.newest = newest (inspections, piece.n_inspections);
  fl_decode_bases (reader);
  return piece;
}

/* hook, `needs` and `wll` keys over what `end` holds. */
static void
decode_end (FlReader *reader, const char *needs, const char *wll, FlEnd *end)
{
  end->hook = (FlHookKind) (fl_reader_choice (reader, "hook", HOOKS, FALSE, (gint) end->hook - 1) + 1);
  fl_decode_take (reader, needs, FL_BOUND_OPENING, FALSE, &end->needs);
  fl_decode_take (reader, wll, FL_BOUND_WLL, FALSE, &end->wll);
}

/* `ends`, each over what both ends have in common. */
static void
decode_ends (FlReader *reader, FlEnd ends[2])
{
  gsize given;

  if (!fl_reader_has (reader, "ends"))
    return;
  given = fl_reader_list (reader, "ends", FALSE);
  if (given != 2)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "ends", "a list of exactly two ends");
  for (gsize i = 0; i < MIN (given, 2); i++)
    {
      FlReader *item = fl_reader_item (reader, "ends", i);

      if (item != NULL)
        decode_end (item, "needs", "wll", &ends[i]);
    }
}

static void
decode_mark (FlReader *reader, FlChain *chain)
{
  if (!fl_reader_has (reader, "mark"))
    return;
  if (fl_reader_is_null (reader, "mark"))
    {
      chain->mark_seen = FL_IS_NOT;
      return;
    }
  chain->mark = fl_reader_text (reader, "mark", FALSE);
  if (chain->mark == NULL)
    return;
  chain->mark_seen = FL_IS;
  if (*chain->mark == '\0')
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "mark", "the mark as it is embossed, or null where there is none");
}

gconstpointer
fl_decode_chain (FlReader *reader)
{
  FlChain *chain = fl_arena_new0 (fl_reader_arena (reader), FlChain, 1);

  chain->piece = decode_piece (reader, CHAIN_DAMAGE);
  fl_decode_size (reader, "size", TRUE, &chain->size_text, &chain->size_in, &chain->size_metric);
  decode_mark (reader, chain);
  chain->tag_wll = fl_decode_quantity (reader, "tag_wll", FL_BOUND_WLL, FALSE);
  chain->tag_legible = fl_decode_seen (reader, "tag_legible");
  chain->length = fl_decode_quantity (reader, "length", FL_BOUND_CHAIN_LENGTH, TRUE);
  decode_end (reader, "hook_needs", "hook_wll", &chain->ends[0]);
  chain->ends[1] = chain->ends[0];
  decode_ends (reader, chain->ends);
  return chain;
}

static void
decode_chain_sizes (FlReader *reader, FlBinder *binder)
{
  const char *const *texts = fl_reader_texts (reader, "chain_sizes", TRUE);
  gsize n = 0;
  double *sizes;

  while (texts != NULL && texts[n] != NULL)
    n++;
  sizes = fl_arena_new0 (fl_reader_arena (reader), double, n);
  for (gsize i = 0; i < n; i++)
    if (!fl_decode_size_text (texts[i], &sizes[i]))
      fl_reader_problem (reader, FL_SEVERITY_ERROR, fl_arena_printf (fl_reader_arena (reader), "chain_sizes[%" G_GSIZE_FORMAT "]", i),
                         "a nominal chain size, as \"3/8\" or \"10 mm\"");
  if (texts != NULL && n == 0)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "chain_sizes", "at least one chain size for which the binder is made");
  binder->sizes_in = sizes;
  binder->size_texts = texts;
  binder->n_sizes = n;
}

gconstpointer
fl_decode_binder (FlReader *reader)
{
  static const char *const kinds[] = { "ratchet", "lever", NULL };  /* FlBinderKind from 1 on */
  FlBinder *binder = fl_arena_new0 (fl_reader_arena (reader), FlBinder, 1);

  binder->piece = decode_piece (reader, BINDER_DAMAGE);
  binder->kind = (FlBinderKind) (fl_reader_choice (reader, "kind", kinds, FALSE, -1) + 1);
  binder->wll = fl_decode_quantity (reader, "wll", FL_BOUND_WLL, FALSE);
  decode_chain_sizes (reader, binder);
  binder->take_up = fl_decode_quantity (reader, "take_up", FL_BOUND_TAKE_UP, FALSE);
  binder->needs_run = fl_decode_quantity (reader, "needs_run", FL_BOUND_RUN, FALSE);
  return binder;
}

gconstpointer
fl_decode_strap (FlReader *reader)
{
  static const char *const tensioners[] = { "none", "ratchet", "winch", NULL };  /* in the order of FlTensioner */
  FlStrap *strap = fl_arena_new0 (fl_reader_arena (reader), FlStrap, 1);
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  strap->piece = decode_piece (reader, STRAP_DAMAGE);
  strap->width = fl_decode_quantity (reader, "width", FL_BOUND_STRAP_WIDTH, TRUE);
  if (fl_quantity_known (strap->width))
    strap->width_text = fl_arena_printf (fl_reader_arena (reader), "%s %s", fl_number_text (strap->width.value, number),
                                         fl_unit_suffix (strap->width.unit));
  strap->tag_wll = fl_decode_quantity (reader, "tag_wll", FL_BOUND_WLL, FALSE);
  strap->tag_legible = fl_decode_seen (reader, "tag_legible");
  strap->length = fl_decode_quantity (reader, "length", FL_BOUND_STRAP_LENGTH, TRUE);
  strap->tensioner = (FlTensioner) fl_reader_choice (reader, "tensioner", tensioners, FALSE, FL_TENSIONER_UNKNOWN);
  decode_ends (reader, strap->ends);
  return strap;
}

gconstpointer
fl_decode_connector (FlReader *reader)
{
  static const char *const kinds[] = { "shackle", "clevis_link", "soft_loop", NULL };  /* FlConnectorKind from 1 on */
  FlConnector *connector = fl_arena_new0 (fl_reader_arena (reader), FlConnector, 1);

  connector->piece = decode_piece (reader, CONNECTOR_DAMAGE);
  connector->kind = (FlConnectorKind) (fl_reader_choice (reader, "kind", kinds, FALSE, -1) + 1);
  connector->wll = fl_decode_quantity (reader, "wll", FL_BOUND_WLL, TRUE);
  connector->opening = fl_decode_quantity (reader, "opening", FL_BOUND_OPENING, FALSE);
  connector->jaw = fl_decode_quantity (reader, "jaw", FL_BOUND_OPENING, FALSE);
  connector->pin = fl_decode_quantity (reader, "pin", FL_BOUND_BAR, FALSE);
  return connector;
}
