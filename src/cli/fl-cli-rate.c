/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rate: what each piece of gear is worth now, and why. */
#include "fl-cli-say.h"

#include "fl-rate-steps.h"
#include "fl-words.h"

static const FlKind gear_kinds[] = { FL_KIND_CHAIN, FL_KIND_BINDER, FL_KIND_STRAP, FL_KIND_CONNECTOR };

static char *
because_of (const FlRating *rating, gboolean metric)
{
  return fl_words_message (NULL, rating->message, rating->facts, rating->n_facts, metric);
}

/* ── JSON ── */

static void
write_steps (FlJsonWriter *writer, const FlBook *book, const FlRecord *record, gboolean metric)
{
  FlArena *arena = fl_arena_new ();
  gsize n;
  const FlMessage *steps = fl_rate_steps (book, record, arena, &n);

  fl_json_writer_begin_list (writer, "steps");
  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *text = fl_words_message (NULL, steps[i].message, steps[i].facts, steps[i].n_facts, metric);

      fl_json_writer_text (writer, NULL, text);
    }
  fl_json_writer_end_list (writer);
  fl_arena_free (arena);
}

static void
write_piece (FlJsonWriter *writer, const FlBook *book, const FlRecord *record, gboolean metric)
{
  const FlRating rating = fl_rate_record (book, record);
  const FlQuantity wll = fl_quantity_rounded (rating.wll, metric, FL_ROUND_NEAREST);
  g_autofree char *because = because_of (&rating, metric);

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_text (writer, "id", fl_record_id (record));
  fl_json_writer_text (writer, "kind", fl_kind_name (fl_record_kind (record)));
  if (fl_record_piece (record)->count > 1)
    fl_json_writer_number (writer, "count", fl_record_piece (record)->count);
  if (fl_quantity_known (wll))
    fl_json_writer_quantity (writer, "wll", wll);
  else
    fl_json_writer_null (writer, metric ? "wll_kg" : "wll_lb");
  fl_json_writer_bool (writer, "in_use", rating.in_use);
  fl_json_writer_text (writer, "because", because);
  fl_json_writer_text (writer, "citation", rating.citation);
  write_steps (writer, book, record, metric);
  fl_json_writer_end_object (writer);
}

static GBytes *
gear_json (const FlOffice *office)
{
  const FlFleet *fleet = fl_office_fleet (office);
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_begin_list (writer, "gear");
  for (gsize k = 0; k < G_N_ELEMENTS (gear_kinds); k++)
    for (gsize i = 0; i < fl_fleet_count (fleet, gear_kinds[k]); i++)
      write_piece (writer, fl_office_book (office), fl_fleet_at (fleet, gear_kinds[k], i), fl_fleet_metric (fleet));
  fl_json_writer_end_list (writer);
  fl_json_writer_end_object (writer);
  return fl_json_writer_end (writer);
}

/* ── for people ── */

static char *
strap_text (const FlStrap *strap, gboolean metric)
{
  g_autofree char *length = fl_quantity_format (strap->length, metric, TRUE, FL_ROUND_NEAREST);
  g_autofree char *width = fl_quantity_format (strap->width, metric, FALSE, FL_ROUND_NEAREST);

  return g_strdup_printf ("%s strap, %s", strap->width_text != NULL ? strap->width_text : width, length);
}

static char *
binder_text (const FlBinder *binder)
{
  static const char *const names[] = { "binder", "ratchet binder", "lever binder" };
  GString *text = g_string_new (names[binder->kind]);

  for (gsize i = 0; i < binder->n_sizes; i++)
    g_string_append_printf (text, "%s%s", i == 0 ? " for " : ", ", binder->size_texts[i]);
  return g_string_free (text, FALSE);
}

/* "chain 3/8, 20 ft", "ratchet binder for 5/16, 3/8". */
static char *
gear_text (const FlRecord *record, gboolean metric)
{
  static const char *const connectors[] = { "connector", "shackle", "clevis link", "soft loop" };
  const FlChain *chain = fl_record_chain (record);
  const FlStrap *strap = fl_record_strap (record);
  g_autofree char *length = chain != NULL ? fl_quantity_format (chain->length, metric, TRUE, FL_ROUND_NEAREST) : NULL;

  if (chain != NULL)
    return g_strdup_printf ("chain %s, %s", chain->size_text, length);
  if (strap != NULL)
    return strap_text (strap, metric);
  if (fl_record_binder (record) != NULL)
    return binder_text (fl_record_binder (record));
  return g_strdup (connectors[fl_record_connector (record)->kind]);
}

static void
add_steps (FlCliTable *table, const FlBook *book, const FlRecord *record, gboolean metric)
{
  FlArena *arena = fl_arena_new ();
  gsize n;
  const FlMessage *steps = fl_rate_steps (book, record, arena, &n);

  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *text = fl_words_message (NULL, steps[i].message, steps[i].facts, steps[i].n_facts, metric);

      fl_cli_table_take_note (table, g_strdup_printf ("- %s", text));
    }
  fl_arena_free (arena);
}

typedef struct { guint in_use, out, unknown; } Tally;

static void
add_row (FlCliTable *table, const FlBook *book, const FlRecord *record, gboolean metric, Tally *tally)
{
  const FlRating rating = fl_rate_record (book, record);
  const gint count = fl_record_piece (record)->count;
  const gboolean known = fl_quantity_known (rating.wll);
  g_autofree char *because = because_of (&rating, metric);

  fl_cli_table_add (table, fl_record_id (record));
  fl_cli_table_take (table, count > 1 ? g_strdup_printf ("%d x", count) : NULL);
  fl_cli_table_take (table, gear_text (record, metric));
  fl_cli_table_take (table, rating.in_use && known ? fl_quantity_format (rating.wll, metric, FALSE, FL_ROUND_DOWN) : NULL);
  fl_cli_table_add (table, !rating.in_use ? "OUT OF USE" : known ? "in use" : "NOT KNOWN");
  fl_cli_table_take (table, g_strdup_printf ("%s (%s)", because, rating.citation));
  *(!rating.in_use ? &tally->out : known ? &tally->in_use : &tally->unknown) += (guint) MAX (count, 1);
}

static void
print_kind (const FlOffice *office, FlKind kind, gboolean brief, Tally *tally, GString *out)
{
  const FlFleet *fleet = fl_office_fleet (office);
  g_autoptr(FlCliTable) table = fl_cli_table_new ("lrlrll");
  gsize n = fl_fleet_count (fleet, kind);

  for (gsize i = 0; i < n; i++)
    {
      add_row (table, fl_office_book (office), fl_fleet_at (fleet, kind, i), fl_fleet_metric (fleet), tally);
      if (!brief)
        add_steps (table, fl_office_book (office), fl_fleet_at (fleet, kind, i), fl_fleet_metric (fleet));
    }
  if (n > 0)
    g_string_append_printf (out, "%s\n", fl_kind_list (kind));
  fl_cli_table_print (table, 2, out);
}

int
fl_cli_rate (const FlCliArgs *args)
{
  g_autoptr(FlOffice) office = fl_cli_open (args->words[0]);
  g_autoptr(GString) out = g_string_new (NULL);
  Tally tally = { 0, 0, 0 };

  if (office == NULL)
    return FL_CLI_BAD;
  if (args->json)
    {
      g_autoptr(GBytes) json = gear_json (office);

      return fl_cli_answer_json (json, FL_CLI_GOOD);
    }
  for (gsize k = 0; k < G_N_ELEMENTS (gear_kinds); k++)
    print_kind (office, gear_kinds[k], args->brief, &tally, out);
  g_string_append_printf (out, "%u pieces in use, %u out of use, %u of unknown worth\n", tally.in_use, tally.out, tally.unknown);
  return fl_cli_answer (out, FL_CLI_GOOD);
}
