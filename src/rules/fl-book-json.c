/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-book-json.c: reads a rule book and refuses it when anything is wrong or missing. The tables stand in fl-book-tables.c. */
#include "fl-book-private.h"

#include <math.h>
#include <string.h>

#define FORMAT "fairlead-rules/1"

/* ── what every block needs ── */

FlSource
fl_book_load_source (FlReader *reader, const FlSource *inherited)
{
  FlSource source = { fl_reader_text (reader, "source", inherited == NULL), fl_reader_text (reader, "why", FALSE), FALSE };

  if (source.source == NULL && inherited != NULL)
    {
      source.source = inherited->source;
      source.why = source.why != NULL ? source.why : inherited->why;
      source.seen = fl_reader_bool (reader, "seen", inherited->seen);
    }
  else if (!fl_reader_has (reader, "seen"))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "seen", "true if the value was read in a public copy of the source, else false");
  else
    source.seen = fl_reader_bool (reader, "seen", FALSE);
  if (source.source != NULL && g_str_has_prefix (source.source, "ours") && source.why == NULL)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "why", "the reason, as the source is \"ours\"");
  return source;
}

FlReader *
fl_book_load_block (FlBookLoad *load, FlReader *parent, const char *key)
{
  FlReader *block = fl_reader_object (parent, key, TRUE);

  if (block != NULL)
    {
      FlBookBlock kept = { fl_arena_text (load->arena, fl_reader_path (block)), fl_book_load_source (block, NULL) };

      g_array_append_val (load->blocks, kept);
    }
  return block;
}

double
fl_book_load_number (FlReader *reader, const char *key, double min, double max)
{
  if (!fl_reader_has (reader, key) || fl_reader_is_null (reader, key))
    {
      char from[G_ASCII_DTOSTR_BUF_SIZE], to[G_ASCII_DTOSTR_BUF_SIZE];

      fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "a number from %s to %s", fl_number_text (min, from), fl_number_text (max, to));
      return NAN;
    }
  return fl_reader_number (reader, key, min, max, NAN);
}

double
fl_book_load_positive (FlReader *reader, const char *key)
{
  double value = fl_book_load_number (reader, key, 0.0, 1e9);

  if (value == 0.0)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "a number over 0");
  return value > 0.0 ? value : NAN;
}

double
fl_book_load_quantity (FlReader *reader, const char *key, FlUnit unit)
{
  FlQuantity quantity = fl_reader_quantity (reader, key, fl_unit_dimension (unit), TRUE, 0.0, 1e9);
  g_autofree char *full = g_strconcat (key, "_", fl_unit_suffix (unit), NULL);

  if (fl_quantity_known (quantity) && quantity.value <= 0.0)
    {
      fl_reader_problem (reader, FL_SEVERITY_ERROR, full, "a number over 0");
      return NAN;
    }
  return fl_quantity_in (quantity, unit);
}

const char *
fl_book_load_text (FlReader *reader, const char *key)
{
  const char *text = fl_reader_text (reader, key, TRUE);

  if (text != NULL && *text == '\0')
    fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "a text that is not empty");
  return text == NULL ? "" : text;
}

const char *const *
fl_book_load_texts (FlReader *reader, const char *key)
{
  static const char *const nothing[] = { NULL };
  const char *const *texts = fl_reader_texts (reader, key, TRUE);

  if (texts == NULL)
    return nothing;
  for (gsize i = 0; texts[i] != NULL; i++)
    for (gsize j = 0; j < i; j++)
      if (strcmp (texts[i], texts[j]) == 0)
        {
          fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "\"%s\" once only", texts[i]);
          return texts;
        }
  return texts;
}

gsize
fl_book_load_list (FlReader *reader, const char *key)
{
  gsize n = fl_reader_list (reader, key, TRUE);

  if (n == 0 && fl_reader_has (reader, key))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "a list that is not empty");
  return n;
}

/* ── the blocks that are a few numbers each ── */

static void
load_damage (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlReader *damage = fl_reader_object (load->root, "damage", TRUE);
  struct { const char *key; const char *const **out; } const kinds[] = {
    { "chain", &data->chain_out }, { "strap", &data->strap_out }, { "binder", &data->binder_out }, { "connector", &data->connector_out },
  };
  FlReader *block;

  if (damage == NULL)
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if ((block = fl_book_load_block (load, damage, kinds[i].key)) != NULL)
      *kinds[i].out = fl_book_load_texts (block, "out");
  if ((block = fl_book_load_block (load, damage, "repairs")) == NULL)
    return;
  data->repairs_accepted = fl_book_load_texts (block, "accepted");
  data->repairs_refused = fl_book_load_texts (block, "refused");
  for (gsize i = 0; data->repairs_refused[i] != NULL; i++)
    if (g_strv_contains (data->repairs_accepted, data->repairs_refused[i]))
      fl_reader_problem (block, FL_SEVERITY_ERROR, "refused", "\"%s\" either accepted or refused", data->repairs_refused[i]);
}

/* How many tie-downs; 0 after a problem. */
static gint
load_count (FlReader *block)
{
  if (fl_reader_has (block, "count") && !fl_reader_is_null (block, "count"))
    return fl_reader_int (block, "count", 1, 100, 0);
  fl_reader_problem (block, FL_SEVERITY_ERROR, "count", "a whole number from 1 to 100");
  return 0;
}

static void
load_counting (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlReader *block;

  if ((block = fl_book_load_block (load, load->root, "shares")) != NULL)
    {
      data->share_direct = fl_book_load_number (block, "direct", 0.0, 1.0);
      data->share_same_side = fl_book_load_number (block, "same_side", 0.0, 1.0);
      data->share_other_side = fl_book_load_number (block, "other_side", 0.0, 1.0);
      data->aggregate_share = fl_book_load_positive (block, "aggregate");
    }
  if ((block = fl_book_load_block (load, load->root, "heavy")) != NULL)
    {
      data->heavy_weight = fl_book_load_quantity (block, "weight", data->unit);
      data->heavy_count = load_count (block);
    }
  if ((block = fl_book_load_block (load, load->root, "sections")) != NULL)
    data->section_count = load_count (block);
  if ((block = fl_book_load_block (load, load->root, "count")) != NULL)
    {
      data->count_short_length = fl_book_load_quantity (block, "short_length", FL_UNIT_FT);
      data->count_short_weight = fl_book_load_quantity (block, "short_weight", data->unit);
      data->count_mid_length = fl_book_load_quantity (block, "mid_length", FL_UNIT_FT);
      data->count_step = fl_book_load_quantity (block, "step", FL_UNIT_FT);
      if (data->count_mid_length < data->count_short_length)
        fl_reader_problem (block, FL_SEVERITY_ERROR, "mid_length_ft", "at least the short length");
    }
}

static void
load_directions (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlReader *block;

  if ((block = fl_book_load_block (load, load->root, "up")) != NULL)
    data->up_share = fl_book_load_number (block, "share_of_weight", 0.0, 1.0);
  if ((block = fl_book_load_block (load, load->root, "all_directions")) != NULL)
    data->all_directions_floor = fl_book_load_number (block, "floor_g", 0.0, 1.0);
  if ((block = fl_book_load_block (load, load->root, "near")) != NULL)
    data->near_share = fl_book_load_number (block, "share_of_length", 0.0, 0.5);
  if ((block = fl_book_load_block (load, load->root, "rolling")) != NULL)
    data->friction_rolling = fl_book_load_number (block, "mu", 0.0, 1.0);
  if ((block = fl_book_load_block (load, load->root, "mats")) != NULL)
    data->mat_default_mu = fl_book_load_number (block, "mu", 0.0, 1.0);
}

/* Each at least the one before it. */
static void
check_rising (FlReader *block, const char *const *keys, const double *const *values, gsize n)
{
  for (gsize i = 1; i < n; i++)
    if (*values[i] < *values[i - 1])
      fl_reader_problem (block, FL_SEVERITY_ERROR, keys[i], "at least %s", keys[i - 1]);
}

static void
load_geometry (FlBookLoad *load)
{
  FlBookData *data = load->data;
  const char *const keys[] = { "deck_lo_deg", "deck_best_lo_deg", "deck_best_hi_deg", "deck_hi_deg" };
  const double *const values[] = { &data->deck_lo, &data->deck_best_lo, &data->deck_best_hi, &data->deck_hi };
  FlReader *block;

  if ((block = fl_book_load_block (load, load->root, "angles")) != NULL)
    {
      data->deck_lo = fl_book_load_number (block, "deck_lo_deg", 0.0, 90.0);
      data->deck_hi = fl_book_load_number (block, "deck_hi_deg", 0.0, 90.0);
      data->deck_best_lo = fl_book_load_number (block, "deck_best_lo_deg", 0.0, 90.0);
      data->deck_best_hi = fl_book_load_number (block, "deck_best_hi_deg", 0.0, 90.0);
      data->plan_min = fl_book_load_number (block, "plan_min_deg", 0.0, 90.0);
      data->plan_best = fl_book_load_number (block, "plan_best_deg", 0.0, 90.0);
      check_rising (block, keys, values, G_N_ELEMENTS (keys));
    }
  if ((block = fl_book_load_block (load, load->root, "lengths")) != NULL)
    {
      data->apart = fl_book_load_quantity (block, "apart", FL_UNIT_IN);
      data->hook_back = fl_book_load_quantity (block, "hook_back", FL_UNIT_IN);
      data->tail = fl_book_load_quantity (block, "tail", FL_UNIT_IN);
    }
  if ((block = fl_book_load_block (load, load->root, "binders")) != NULL)
    {
      data->ratchet_run = fl_book_load_quantity (block, "ratchet_run", FL_UNIT_IN);
      data->lever_run = fl_book_load_quantity (block, "lever_run", FL_UNIT_IN);
      data->ratchet_take_up = fl_book_load_quantity (block, "ratchet_take_up", FL_UNIT_IN);
      data->lever_take_up = fl_book_load_quantity (block, "lever_take_up", FL_UNIT_IN);
    }
}

static void
load_pairs (FlBookLoad *load, FlReader *block)
{
  gsize n = fl_book_load_list (block, "pairs");
  FlBookPair *pairs = fl_arena_new0 (load->arena, FlBookPair, n);

  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "pairs", i);

      if (item == NULL)
        continue;
      pairs[load->data->n_pairs++] = (FlBookPair) { fl_book_load_text (item, "truck"), fl_book_load_text (item, "trailer") };
    }
  load->data->pairs = pairs;
}

static void
load_bands (FlBookLoad *load, FlReader *block)
{
  gsize n = fl_book_load_list (block, "bands");
  FlBookBand *bands = fl_arena_new0 (load->arena, FlBookBand, n);

  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "bands", i);
      FlBookBand band;

      if (item == NULL)
        continue;
      band.kind = fl_book_load_text (item, "trailer");
      band.lo = fl_book_load_number (item, "lo_pct", 0.0, 100.0);
      band.hi = fl_book_load_number (item, "hi_pct", 0.0, 100.0);
      if (band.hi < band.lo)
        fl_reader_problem (item, FL_SEVERITY_ERROR, "hi_pct", "at least lo_pct");
      for (gsize j = 0; j < load->data->n_bands; j++)
        if (strcmp (bands[j].kind, band.kind) == 0)
          fl_reader_problem (item, FL_SEVERITY_ERROR, "trailer", "one band for each kind of coupling");
      bands[load->data->n_bands++] = band;
    }
  load->data->bands = bands;
}

/* A distance on the road, in miles or kilometers as the book gives it. */
static FlQuantity
load_distance (FlReader *block, const char *key)
{
  g_autofree char *in_mi = g_strconcat (key, "_mi", NULL), *in_km = g_strconcat (key, "_km", NULL);

  if (fl_reader_has (block, in_km) && !fl_reader_has (block, in_mi))
    return (FlQuantity) { fl_book_load_positive (block, in_km), FL_UNIT_KM };
  return (FlQuantity) { fl_book_load_positive (block, in_mi), FL_UNIT_MI };
}

static void
load_vehicles (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlReader *block;

  if ((block = fl_book_load_block (load, load->root, "couplings")) != NULL)
    load_pairs (load, block);
  if ((block = fl_book_load_block (load, load->root, "coupling_shares")) != NULL)
    {
      data->coupling_floor_pct = fl_book_load_number (block, "floor_pct", 0.0, 100.0);
      load_bands (load, block);
    }
  if ((block = fl_book_load_block (load, load->root, "legal")) != NULL)
    {
      data->legal_width = fl_book_load_quantity (block, "width", FL_UNIT_IN);
      data->legal_single = fl_book_load_quantity (block, "single", data->unit);
      data->legal_tandem = fl_book_load_quantity (block, "tandem", data->unit);
      data->legal_gross = fl_book_load_quantity (block, "gross", data->unit);
    }
  if ((block = fl_book_load_block (load, load->root, "height")) != NULL)
    data->height_warn = fl_book_load_quantity (block, "warn", FL_UNIT_IN);
  if ((block = fl_book_load_block (load, load->root, "recheck")) != NULL)
    {
      data->recheck.within = load_distance (block, "within");
      data->recheck.then_time = (FlQuantity) { fl_book_load_positive (block, "then_h"), FL_UNIT_H };
      data->recheck.then_distance = load_distance (block, "then");
      data->recheck.duty_change = fl_reader_bool (block, "duty_change", FALSE);
    }
}

/* ── texts and citations ── */

/* Every item of a list once by its name. */
static void
check_once (GHashTable *seen, FlReader *item, const char *key, const char *name)
{
  if (!g_hash_table_add (seen, (gpointer) name))
    fl_reader_problem (item, FL_SEVERITY_ERROR, key, "\"%s\" once only", name);
}

static const FlBookText *
load_items (FlBookLoad *load, const char *key, gsize *n_texts)
{
  FlReader *block = fl_book_load_block (load, load->root, key);
  gsize n = block == NULL ? 0 : fl_book_load_list (block, "items");
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  FlBookText *texts = fl_arena_new0 (load->arena, FlBookText, n);

  *n_texts = 0;
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "items", i);
      FlSource inherited = g_array_index (load->blocks, FlBookBlock, load->blocks->len - 1).source;
      FlBookText *text = &texts[*n_texts];

      if (item == NULL)
        continue;
      text->id = fl_book_load_text (item, "id");
      text->text = fl_book_load_text (item, "text");
      text->source = fl_book_load_source (item, &inherited);
      check_once (seen, item, "id", text->id);
      (*n_texts)++;
    }
  return texts;
}

static void
load_citations (FlBookLoad *load)
{
  FlReader *block = fl_book_load_block (load, load->root, "citations");
  gsize n = block == NULL ? 0 : fl_book_load_list (block, "items");
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  FlBookCitation *citations = fl_arena_new0 (load->arena, FlBookCitation, n);

  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "items", i);
      FlSource inherited = g_array_index (load->blocks, FlBookBlock, load->blocks->len - 1).source;
      FlBookCitation *citation = &citations[load->data->n_citations];

      if (item == NULL)
        continue;
      citation->rule = fl_book_load_text (item, "rule");
      citation->citation = fl_book_load_text (item, "citation");
      citation->source = fl_book_load_source (item, &inherited);
      check_once (seen, item, "rule", citation->rule);
      load->data->n_citations++;
    }
  load->data->citations = citations;
}

/* ── the whole ── */

static gboolean
is_date (const char *text)
{
  for (gsize i = 0; i < 10; i++)
    if (i == 4 || i == 7 ? text[i] != '-' : !g_ascii_isdigit (text[i]))
      return FALSE;
  return text[10] == '\0'
         && g_date_valid_dmy ((GDateDay) g_ascii_strtoull (text + 8, NULL, 10), (GDateMonth) g_ascii_strtoull (text + 5, NULL, 10),
                              (GDateYear) g_ascii_strtoull (text, NULL, 10));
}

static void
load_head (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlReader *gravity;
  const char *format = fl_book_load_text (load->root, "format");
  const char *unit = fl_book_load_text (load->root, "unit");

  if (*format != '\0' && strcmp (format, FORMAT) != 0)
    fl_reader_problem (load->root, FL_SEVERITY_ERROR, "format", "\"%s\"", FORMAT);
  data->id = fl_book_load_text (load->root, "id");
  data->title = fl_book_load_text (load->root, "title");
  data->edition = fl_book_load_text (load->root, "edition");
  data->date = fl_book_load_text (load->root, "date");
  if (*data->date != '\0' && !is_date (data->date))
    fl_reader_problem (load->root, FL_SEVERITY_ERROR, "date", "a date as 2026-11-25");
  data->unit = fl_unit_from_suffix (unit);
  if (fl_unit_dimension (data->unit) != FL_DIM_WEIGHT)
    {
      if (*unit != '\0')
        fl_reader_problem (load->root, FL_SEVERITY_ERROR, "unit", "lb, kg or dan");
      data->unit = FL_UNIT_LB;   /* to go on looking for what else is wrong */
    }
  if ((gravity = fl_book_load_block (load, load->root, "gravity")) != NULL)
    data->g = fl_book_load_number (gravity, "m_s2", 9.7, 9.9);
}

static void
load_all (FlBookLoad *load)
{
  load_head (load);
  fl_book_load_tables (load);
  fl_book_load_force (load);
  load_damage (load);
  load_counting (load);
  load_directions (load);
  load_geometry (load);
  load_vehicles (load);
  fl_book_load_legal (load);
  load->data->cautions = load_items (load, "cautions", &load->data->n_cautions);
  load->data->walk_round = load_items (load, "walk_round", &load->data->n_walk_round);
  load_citations (load);
  load->data->n_blocks = load->blocks->len;
  load->data->blocks = fl_arena_copy (load->arena, load->blocks->data, sizeof (FlBookBlock) * load->blocks->len);
}

FlBook *
fl_book_new_from_json (GBytes *text, FlProblems *problems)
{
  g_autoptr(FlProblems) own = problems == NULL ? fl_problems_new () : NULL;
  FlProblems *found = problems == NULL ? own : problems;
  guint before = fl_problems_errors (found);
  g_autoptr(JsonNode) root = fl_json_parse (text, found);
  g_autoptr(FlBook) book = NULL;
  g_autofree char *sha256 = NULL;
  gsize length;
  const char *bytes = g_bytes_get_data (text, &length);
  FlReader *reader;

  if (root == NULL)
    return NULL;
  book = fl_book_alloc ();
  reader = fl_reader_new (bytes, length, root, "", 1, book->arena, found);
  if (reader == NULL)
    return NULL;
  {
    g_autoptr(GArray) blocks = g_array_new (FALSE, FALSE, sizeof (FlBookBlock));
    FlBookLoad load = { reader, book->arena, &book->data, blocks };

    load_all (&load);
  }
  fl_reader_free (reader);   /* warns of keys that nobody asked for */
  sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, text);
  g_strlcpy (book->data.sha256, sha256, sizeof book->data.sha256);
  return fl_problems_errors (found) == before ? g_steal_pointer (&book) : NULL;
}
