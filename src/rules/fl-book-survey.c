/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-book-survey.c: what only the book can see wrong in a fleet: marks, sizes, damage and couplings that it does not know. */
#include "fl-book-private.h"

#include <math.h>
#include <string.h>

typedef struct
{
  const FlBook *book;
  const FlFleet *fleet;
  FlProblems *problems;
  GHashTable *places[FL_N_KINDS];   /* a record's text -> where it stands in the document; made for the first problem of a kind */
} Survey;

typedef struct { gsize index; guint line; } Place;

/* ── where a record stands ── */

/* Records know their text but not their place; the document is split once more, and only when there is something to say. */
static GHashTable *
places_of (const FlFleet *fleet, FlKind kind)
{
  g_autoptr(GBytes) document = fl_fleet_to_json (fleet);
  GHashTable *places = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  gsize length;
  const char *text = g_bytes_get_data (document, &length);
  g_autoptr(GArray) spans = fl_json_elements (text, length, fl_kind_list (kind));

  for (guint i = 0; spans != NULL && i < spans->len; i++)
    {
      const FlJsonSpan *span = &g_array_index (spans, FlJsonSpan, i);
      Place *place = g_new (Place, 1);

      *place = (Place) { i, span->line };
      g_hash_table_insert (places, g_strndup (text + span->offset, span->length), place);
    }
  return places;
}

static void G_GNUC_PRINTF (5, 6)
say (Survey *survey, FlSeverity severity, const FlRecord *record, const char *member, const char *expected, ...)
{
  FlKind kind = fl_record_kind (record);
  gsize length;
  const char *text = fl_record_text (record, &length);
  g_autofree char *key = g_strndup (text, length), *sentence = NULL, *value = NULL, *path = NULL;
  FlJsonSpan span = { 0, 0, 1 };
  const Place *place;
  va_list args;

  if (survey->places[kind] == NULL)
    survey->places[kind] = places_of (survey->fleet, kind);
  place = g_hash_table_lookup (survey->places[kind], key);
  if (fl_json_find (text, length, member, &span))
    value = g_strndup (text + span.offset, span.length);
  if (place != NULL)
    path = g_strdup_printf ("%s[%" G_GSIZE_FORMAT "].%s", fl_kind_list (kind), place->index, member);
  else
    path = g_strdup_printf ("%s[%s].%s", fl_kind_list (kind), fl_record_id (record), member);
  va_start (args, expected);
  sentence = g_strdup_vprintf (expected, args);
  va_end (args);
  fl_problems_add (survey->problems, severity, path, place == NULL ? 0 : place->line + span.line - 1, value, "%s: %s",
                   fl_record_id (record), sentence);
}

/* ── chains ── */

/* All marks of the book, for the way out: "3, 30, 300, 4, ...". (transfer full) */
static char *
known_marks (const FlBook *book)
{
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < book->data.n_grades; i++)
    for (gsize j = 0; book->data.grades[i].marks[j] != NULL; j++)
      g_string_append_printf (text, "%s%s", text->len == 0 ? "" : ", ", book->data.grades[i].marks[j]);
  return g_string_free (text, FALSE);
}

static void
survey_mark (Survey *survey, const FlRecord *record, const FlChain *chain, gboolean tagged)
{
  g_autofree char *marks = known_marks (survey->book);

  say (survey, tagged ? FL_SEVERITY_WARNING : FL_SEVERITY_ERROR, record, "mark",
       tagged ? "no grade has the mark \"%s\" (known: %s); it counts by its tag"
              : "no grade has the mark \"%s\": one of %s, null for an unmarked chain, or a legible tag", chain->mark, marks);
}

static void
survey_size (Survey *survey, const FlRecord *record, const FlChain *chain, gboolean tagged)
{
  const FlBookData *data = &survey->book->data;
  const char *member = chain->size_metric ? "size_mm" : "size_in";

  if (tagged)
    say (survey, FL_SEVERITY_WARNING, record, member, "the rule book has no chain of size %s; it counts by its tag", chain->size_text);
  else
    say (survey, FL_SEVERITY_ERROR, record, member, "the rule book has no chain of size %s: a size of its table, %s to %s, or a legible tag",
         chain->size_text, data->chain[0].size_text, data->chain[data->n_chain - 1].size_text);
}

static void
survey_chain (Survey *survey, const FlRecord *record)
{
  const FlChain *chain = fl_record_chain (record);
  gboolean tagged = chain->tag_legible == FL_IS && fl_quantity_known (chain->tag_wll);
  gboolean marked = chain->mark_seen == FL_IS;
  gint grade = marked ? fl_book_grade (survey->book, chain->mark) : (gint) survey->book->data.unmarked_grade;

  if (grade < 0)
    survey_mark (survey, record, chain, tagged);
  if (fl_book_chain_row (survey->book, chain->size_in) == NULL)
    survey_size (survey, record, chain, tagged);
  else if (grade >= 0 && !tagged && isnan (fl_book_chain_wll (survey->book, chain->size_in, grade)))
    say (survey, FL_SEVERITY_WARNING, record, marked ? "mark" : chain->size_metric ? "size_mm" : "size_in",
         "the table has no %s of grade %s: its working load limit is not known without a legible tag", chain->size_text,
         survey->book->data.grades[grade].grade);
}

/* ── the other gear ── */

static void
survey_binder (Survey *survey, const FlRecord *record)
{
  const FlBinder *binder = fl_record_binder (record);
  gboolean known = FALSE;

  for (gsize i = 0; i < binder->n_sizes; i++)
    known |= fl_book_chain_row (survey->book, binder->sizes_in[i]) != NULL;
  if (!known)
    say (survey, FL_SEVERITY_WARNING, record, "chain_sizes", "at least one size of chain that the rule book has");
}

static void
survey_strap (Survey *survey, const FlRecord *record)
{
  const FlStrap *strap = fl_record_strap (record);
  gboolean tagged = strap->tag_legible == FL_IS && fl_quantity_known (strap->tag_wll);
  g_autofree char *member = g_strconcat ("width_", fl_unit_suffix (strap->width.unit), NULL);

  if (!tagged && fl_book_web_row (survey->book, fl_quantity_in (strap->width, FL_UNIT_IN)) == NULL)
    say (survey, FL_SEVERITY_WARNING, record, member,
         "the rule book has no webbing of this width: its working load limit is not known without a legible tag");
}

/* Findings of the newest inspection: a kind the book does not list, a repair it neither accepts nor refuses by name. */
static void
survey_findings (Survey *survey, const FlRecord *record, const char *const *out, const char *const *also)
{
  const FlBookData *data = &survey->book->data;
  const FlPiece *piece = fl_record_piece (record);
  gboolean chain = fl_record_kind (record) == FL_KIND_CHAIN;

  for (gsize i = 0; piece->newest != NULL && i < piece->newest->n_findings; i++)
    {
      const FlDamage *damage = &piece->newest->findings[i];
      g_autofree char *member = g_strdup_printf ("inspections[%" G_GSIZE_FORMAT "].findings[%" G_GSIZE_FORMAT "]",
                                                 (gsize) (piece->newest - piece->inspections), i);

      if (damage->kind == NULL || g_strv_contains (out, damage->kind) || (also != NULL && g_strv_contains (also, damage->kind)))
        continue;
      if (!chain || strcmp (damage->kind, "repair") != 0)
        say (survey, FL_SEVERITY_WARNING, record, member, "a kind of damage that the rule book lists; until then it is out of use");
      else if (damage->repair_link != NULL && !g_strv_contains (data->repairs_accepted, damage->repair_link)
               && !g_strv_contains (data->repairs_refused, damage->repair_link))
        say (survey, FL_SEVERITY_WARNING, record, member,
             "a repair link that the rule book knows; \"%s\" counts as not accepted: the chain is out of use", damage->repair_link);
    }
}

/* ── vehicles ── */

static void
survey_coupling (Survey *survey, const FlRecord *record, const FlCoupling *coupling, gboolean truck)
{
  const FlBookData *data = &survey->book->data;

  if (!coupling->present || coupling->kind == NULL)
    return;
  for (gsize i = 0; i < data->n_pairs; i++)
    if (strcmp (truck ? data->pairs[i].truck : data->pairs[i].trailer, coupling->kind) == 0)
      return;
  say (survey, FL_SEVERITY_WARNING, record, "coupling.kind", "a kind of coupling that the rule book pairs with another");
}

static void
survey_record (Survey *survey, const FlRecord *record)
{
  const FlBookData *data = &survey->book->data;

  switch (fl_record_kind (record))
    {
    case FL_KIND_CHAIN:
      survey_chain (survey, record);
      survey_findings (survey, record, data->chain_out, NULL);
      break;
    case FL_KIND_BINDER:
      survey_binder (survey, record);
      survey_findings (survey, record, data->binder_out, NULL);
      break;
    case FL_KIND_STRAP:
      survey_strap (survey, record);
      survey_findings (survey, record, data->strap_out, data->strap_summed);
      break;
    case FL_KIND_CONNECTOR:
      survey_findings (survey, record, data->connector_out, NULL);
      break;
    case FL_KIND_TRUCK:
      survey_coupling (survey, record, &fl_record_truck (record)->coupling, TRUE);
      break;
    case FL_KIND_TRAILER:
      survey_coupling (survey, record, &fl_record_trailer (record)->coupling, FALSE);
      break;
    default:
      break;
    }
}

void
fl_book_survey (const FlBook *book, const FlFleet *fleet, FlProblems *problems)
{
  static const FlKind kinds[] = { FL_KIND_TRUCK, FL_KIND_TRAILER, FL_KIND_CHAIN, FL_KIND_BINDER, FL_KIND_STRAP, FL_KIND_CONNECTOR };
  Survey survey = { book, fleet, problems, { NULL } };

  for (gsize k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (gsize i = 0; i < fl_fleet_count (fleet, kinds[k]); i++)
      survey_record (&survey, fl_fleet_at (fleet, kinds[k], i));
  fl_book_survey_house (book, fleet, problems);
  for (gsize k = 0; k < FL_N_KINDS; k++)
    g_clear_pointer (&survey.places[k], g_hash_table_unref);
}
