/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trailers: deck, zones, anchors and rows of anchors, ratings. Axles and coupling are in fl-decode-truck.c. */
#include "fl-decode.h"

#include <math.h>
#include <string.h>

static const char *const ANCHOR_FITTINGS[] = { "d_ring", "stake_pocket", "rub_rail", "chain_slot", "lashing_ring", "bracket", NULL };

enum
{
  MOST_IN_A_ROW = 200,
  MOST_ON_AN_ANCHOR = 8
};

static double
inches (FlQuantity q)
{
  return fl_quantity_in (q, FL_UNIT_IN);
}

/* ── deck ── */

static FlZone
decode_zone (FlReader *reader)
{
  FlZone zone = { 0 };
  FlQuantity slope = fl_decode_quantity (reader, "slope", FL_BOUND_SLOPE, FALSE);

  zone.id = fl_decode_id (reader);
  zone.x0 = fl_decode_quantity (reader, "x0", FL_BOUND_X, TRUE);
  zone.x1 = fl_decode_quantity (reader, "x1", FL_BOUND_X, TRUE);
  zone.z = FL_IN (0);
  fl_decode_take (reader, "z", FL_BOUND_Z, FALSE, &zone.z);
  zone.slope = fl_quantity_known (slope) ? slope.value : 0.0;
  zone.carries = fl_reader_bool (reader, "carries", TRUE);
  zone.blocks_forward = fl_reader_bool (reader, "blocks_forward", FALSE);
  zone.block_rated = fl_decode_quantity (reader, "block_rated", FL_BOUND_BLOCK, FALSE);
  zone.surface = fl_decode_word (reader, "surface", FL_SURFACES, FALSE);
  if (inches (zone.x0) >= inches (zone.x1))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "", "an x1 in front of x0");
  return zone;
}

/* Two zones that carry cannot lie in the same place: nothing could say on which of them a wheel stands. */
static void
check_overlap (FlReader *deck, const FlZone *zones, gsize n)
{
  for (gsize i = 0; i < n; i++)
    for (gsize k = 0; k < i; k++)
      if (zones[i].carries && zones[k].carries
          && MIN (inches (zones[i].x1), inches (zones[k].x1)) - MAX (inches (zones[i].x0), inches (zones[k].x0)) > 0.01)
        fl_reader_problem (deck, FL_SEVERITY_ERROR, fl_arena_printf (fl_reader_arena (deck), "zones[%" G_GSIZE_FORMAT "]", i),
                           "a zone that does not lie over zone \"%s\", which carries as well", zones[k].id == NULL ? "" : zones[k].id);
}

static gboolean
carries_at_main_deck (const FlZone *zone, FlQuantity length)
{
  return zone->carries && inches (zone->x1) > 0.0 && inches (zone->x0) < inches (length);
}

/* An id for the main zone that no zone of the document has. */
static const char *
main_zone_id (const FlZone *zones, gsize n)
{
  for (gsize i = 0; i < n; i++)
    if (g_strcmp0 (zones[i].id, "main") == 0)
      return "main deck";
  return "main";
}

static void
decode_zones (FlReader *deck, FlTrailer *trailer)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  gsize given = fl_reader_list (deck, "zones", FALSE), n = 0;
  FlZone *zones = (FlZone *) fl_arena_new0 (fl_reader_arena (deck), FlZone, given + 1) + 1;  /* room for the main zone before them */
  gboolean main_deck = FALSE;

  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (deck, "zones", i);

      if (item == NULL)
        continue;
      zones[n] = decode_zone (item);
      fl_decode_unique (item, seen, zones[n].id, "zone");
      main_deck |= carries_at_main_deck (&zones[n++], trailer->deck_length);
    }
  check_overlap (deck, zones, n);
  if (!main_deck)
    {
      zones--;
      n++;
      zones[0] = (FlZone) { .id = main_zone_id (zones + 1, n - 1), .x0 = { 0.0, trailer->deck_length.unit }, .x1 = trailer->deck_length,
                            .z = { 0.0, trailer->deck_length.unit }, .carries = TRUE };
    }
  trailer->zones = zones;
  trailer->n_zones = n;
}

static void
decode_deck (FlReader *deck, FlTrailer *trailer)
{
  FlReader *stop;

  trailer->deck_length = fl_decode_quantity (deck, "length", FL_BOUND_DECK_LENGTH, TRUE);
  trailer->deck_width = fl_decode_quantity (deck, "width", FL_BOUND_DECK_WIDTH, TRUE);
  trailer->deck_height = fl_decode_quantity (deck, "height", FL_BOUND_DECK_HEIGHT, TRUE);
  trailer->surface = fl_decode_word (deck, "surface", FL_SURFACES, FALSE);
  decode_zones (deck, trailer);
  if (fl_reader_is_null (deck, "front_stop") || (stop = fl_reader_object (deck, "front_stop", FALSE)) == NULL)
    return;
  trailer->has_front_stop = TRUE;
  trailer->front_stop_x = fl_decode_quantity (stop, "x", FL_BOUND_X, TRUE);
  trailer->front_stop_rated = fl_decode_quantity (stop, "rated", FL_BOUND_BLOCK, FALSE);
}

/* ── anchors ── */

/* What anchors and rows of anchors have in common. */
static FlAnchor
decode_anchor_keys (FlReader *reader)
{
  FlAnchor anchor = { 0 };

  anchor.fitting = fl_decode_word (reader, "fitting", ANCHOR_FITTINGS, FALSE);
  anchor.rated = fl_decode_quantity (reader, "rated_wll", FL_BOUND_WLL, FALSE);
  anchor.opening = fl_decode_quantity (reader, "opening", FL_BOUND_OPENING, FALSE);
  anchor.bar = fl_decode_quantity (reader, "bar", FL_BOUND_BAR, FALSE);
  anchor.takes = fl_reader_int (reader, "takes", 1, MOST_ON_AN_ANCHOR, 1);
  return anchor;
}

static FlAnchor
decode_anchor (FlReader *reader)
{
  FlAnchor anchor = decode_anchor_keys (reader);
  FlPlace place = fl_decode_place (reader, TRUE);

  anchor.id = fl_decode_id (reader);
  anchor.x = place.x;
  anchor.y = place.y;
  anchor.z = place.z;
  anchor.side = anchor.y.value > 0.0 ? 'L' : anchor.y.value < 0.0 ? 'R' : 'C';
  return anchor;
}

/* Takes the anchor in; FALSE if its id is taken. */
static gboolean
add_anchor (GArray *anchors, GHashTable *seen, FlAnchor anchor)
{
  if (anchor.id == NULL)
    return TRUE;
  if (!g_hash_table_add (seen, (gpointer) anchor.id))
    return FALSE;
  g_array_append_val (anchors, anchor);
  return TRUE;
}

static void
decode_anchors (FlReader *reader, GArray *anchors, GHashTable *seen)
{
  gsize given = fl_reader_list (reader, "anchors", FALSE);

  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "anchors", i);

      if (item != NULL && !add_anchor (anchors, seen, decode_anchor (item)))
        fl_reader_problem (item, FL_SEVERITY_ERROR, "id", "an id that no other anchor of the trailer has");
    }
}

typedef struct
{
  FlAnchor like;                /* y is that of the left side */
  FlQuantity spacing;
  gint count;
  gboolean left, right;
} FlRow;

static void
decode_sides (FlReader *reader, FlRow *row)
{
  const char *const *sides = fl_reader_texts (reader, "sides", TRUE);

  for (gsize i = 0; sides != NULL && sides[i] != NULL; i++)
    {
      gboolean *side = g_str_equal (sides[i], "left") ? &row->left : g_str_equal (sides[i], "right") ? &row->right : NULL;

      if (side == NULL || *side)
        fl_reader_problem (reader, FL_SEVERITY_ERROR, fl_arena_printf (fl_reader_arena (reader), "sides[%" G_GSIZE_FORMAT "]", i),
                           "left or right, each once");
      else
        *side = TRUE;
    }
  if (sides != NULL && sides[0] == NULL)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "sides", "left, right or both");
}

static FlRow
decode_row (FlReader *reader)
{
  FlRow row = { .like = decode_anchor_keys (reader) };
  const char *id = fl_decode_id (reader);

  row.like.id = id;
  row.like.x = fl_decode_quantity (reader, "first_x", FL_BOUND_X, TRUE);
  row.like.y = fl_decode_quantity (reader, "y", FL_BOUND_ROW_Y, TRUE);
  row.like.z = fl_decode_quantity (reader, "z", FL_BOUND_Z, TRUE);
  row.spacing = fl_decode_quantity (reader, "spacing", FL_BOUND_ROW_SPACING, TRUE);
  if (fl_reader_has (reader, "count"))
    row.count = fl_reader_int (reader, "count", 1, MOST_IN_A_ROW, 0);
  else
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "count", "the number of anchors on a side");
  decode_sides (reader, &row);
  if (id != NULL && !g_ascii_isalpha (id[strlen (id) - 1]))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "id", "an id that ends in a letter, for numbers follow it: \"P\" gives P1L, P1R, P2L");
  return row;
}

static FlAnchor
row_anchor (FlArena *arena, const FlRow *row, guint number, char side)
{
  FlAnchor anchor = row->like;

  anchor.id = fl_arena_printf (arena, "%s%u%c", row->like.id, number, side);
  anchor.x.value += (number - 1) * fl_quantity_in (row->spacing, anchor.x.unit);
  anchor.y.value *= side == 'L' ? 1.0 : -1.0;
  anchor.side = side;
  anchor.row_number = number;
  return anchor;
}

static void
expand_row (FlReader *reader, const FlRow *row, GArray *anchors, GHashTable *seen)
{
  FlArena *arena = fl_reader_arena (reader);

  if (row->like.id == NULL || !fl_quantity_known (row->like.x) || !fl_quantity_known (row->spacing))
    return;
  for (gint number = 1; number <= row->count; number++)
    for (guint s = 0; s < 2; s++)
      {
        FlAnchor anchor;

        if (!(s == 0 ? row->left : row->right))
          continue;
        anchor = row_anchor (arena, row, (guint) number, s == 0 ? 'L' : 'R');
        if (!add_anchor (anchors, seen, anchor))
          fl_reader_problem (reader, FL_SEVERITY_ERROR, "id", "a row without the anchor \"%s\", which the trailer has already", anchor.id);
      }
}

static gint
compare_anchors (gconstpointer a, gconstpointer b)
{
  const FlAnchor *one = a, *two = b;
  double x_one = inches (one->x), x_two = inches (two->x), y_one = inches (one->y), y_two = inches (two->y);

  if (x_one < x_two || x_one > x_two)
    return x_one < x_two ? -1 : 1;
  if (y_one < y_two || y_one > y_two)
    return y_one > y_two ? -1 : 1;
  return strcmp (one->id, two->id);
}

static void
decode_all_anchors (FlReader *reader, FlTrailer *trailer)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr(GArray) anchors = g_array_new (FALSE, FALSE, sizeof (FlAnchor));
  gsize rows;

  decode_anchors (reader, anchors, seen);
  rows = fl_reader_list (reader, "anchor_rows", FALSE);
  for (gsize i = 0; i < rows; i++)
    {
      FlReader *item = fl_reader_item (reader, "anchor_rows", i);

      if (item != NULL)
        {
          FlRow row = decode_row (item);

          expand_row (item, &row, anchors, seen);
        }
    }
  g_array_sort (anchors, compare_anchors);
  trailer->anchors = fl_arena_copy (fl_reader_arena (reader), anchors->data, anchors->len * sizeof (FlAnchor));
  trailer->n_anchors = anchors->len;
  if (!fl_reader_has (reader, "anchors") && !fl_reader_has (reader, "anchor_rows"))
    fl_reader_problem (reader, FL_SEVERITY_WARNING, "anchors", "the anchor points of the deck, as anchors or anchor_rows");
}

/* ── the record ── */

static void
decode_concentrated (FlReader *reader, FlTrailer *trailer)
{
  gsize given = fl_reader_list (reader, "concentrated", FALSE);
  FlSpan *spans = fl_arena_new0 (fl_reader_arena (reader), FlSpan, given);

  trailer->concentrated = spans;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "concentrated", i);

      if (item != NULL)
        spans[trailer->n_concentrated++] = (FlSpan) { fl_decode_quantity (item, "span", FL_BOUND_SPAN, TRUE),
                                                      fl_decode_quantity (item, "capacity", FL_BOUND_CAPACITY, TRUE) };
    }
}

static void
decode_ratings (FlReader *reader, FlTrailer *trailer)
{
  trailer->tare = fl_decode_quantity (reader, "tare", FL_BOUND_TARE, FALSE);
  trailer->gvwr = fl_decode_quantity (reader, "gvwr", FL_BOUND_GROSS, FALSE);
  trailer->capacity = fl_decode_quantity (reader, "capacity", FL_BOUND_CAPACITY, FALSE);
  trailer->hinge_x = fl_decode_quantity (reader, "hinge_x", FL_BOUND_X, FALSE);
  trailer->clear_width = fl_decode_quantity (reader, "clear_width", FL_BOUND_CLEAR_WIDTH, FALSE);
  trailer->load_angle = fl_decode_quantity (reader, "load_angle", FL_BOUND_RAMP, FALSE);
  if (fl_quantity_in (trailer->tare, FL_UNIT_LB) > fl_quantity_in (trailer->gvwr, FL_UNIT_LB))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "", "a tare that is not over the gvwr");
  decode_concentrated (reader, trailer);
}

gconstpointer
fl_decode_trailer (FlReader *reader)
{
  FlTrailer *trailer = fl_arena_new0 (fl_reader_arena (reader), FlTrailer, 1);
  FlReader *deck = fl_reader_object (reader, "deck", TRUE);

  trailer->id = fl_decode_id (reader);
  trailer->name = fl_reader_text (reader, "name", FALSE);
  trailer->yard = fl_reader_text (reader, "yard", TRUE);
  trailer->kind = fl_reader_text (reader, "kind", TRUE);
  if (deck != NULL)
    decode_deck (deck, trailer);
  trailer->axles = fl_decode_axles (reader, &trailer->n_axles);
  trailer->coupling = fl_decode_coupling (reader, TRUE);
  decode_ratings (reader, trailer);
  decode_all_anchors (reader, trailer);
  trailer->solids = fl_decode_solids (reader, "solids", &trailer->n_solids);
  trailer->basis = fl_decode_bases (reader);
  return trailer;
}
