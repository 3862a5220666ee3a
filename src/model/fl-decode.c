/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps that all decoders share, and the table of decoders. */
#include "fl-decode.h"

#include <math.h>
#include <string.h>

enum { ID_CHARS = 60 };

const char *const FL_SURFACES[] = { "wood", "steel", "aluminum", "rubber_mat", NULL };
const char *const FL_RUNNING_GEARS[] = { "rubber_tires", "rubber_tracks", "steel_tracks", "steel_drum", NULL };

gconstpointer
fl_decode_record (FlKind kind, FlReader *reader)
{
  static gconstpointer (*const decoders[FL_N_KINDS]) (FlReader *) = {
    [FL_KIND_YARD] = fl_decode_yard,
    [FL_KIND_PERSON] = fl_decode_person,
    [FL_KIND_TRUCK] = fl_decode_truck,
    [FL_KIND_MACHINE] = fl_decode_machine,
    [FL_KIND_ARTICLE] = fl_decode_article,
    [FL_KIND_TRAILER] = fl_decode_trailer,
    [FL_KIND_CHAIN] = fl_decode_chain,
    [FL_KIND_BINDER] = fl_decode_binder,
    [FL_KIND_STRAP] = fl_decode_strap,
    [FL_KIND_CONNECTOR] = fl_decode_connector,
    [FL_KIND_MOVE] = fl_decode_move,
    [FL_KIND_POLICY] = fl_decode_policy,
  };

  g_return_val_if_fail (kind < FL_N_KINDS && decoders[kind] != NULL, NULL);
  return decoders[kind] (reader);
}

/* What is wrong with an id; NULL: nothing. */
static const char *
id_fault (const char *id)
{
  gsize length = strlen (id);

  if (g_ascii_isspace (id[0]) || g_ascii_isspace (id[length - 1]))
    return "an id without blanks at its ends";
  if (strchr (id, '#') != NULL)
    return "an id without \"#\", which stands between a record of several and its piece";
  if (g_utf8_strlen (id, -1) > ID_CHARS)
    return "an id of at most 60 characters";
  for (const char *at = id; *at != '\0'; at = g_utf8_next_char (at))
    if (g_unichar_iscntrl (g_utf8_get_char (at)))
      return "an id without control characters";
  return NULL;
}

const char *
fl_decode_id (FlReader *reader)
{
  const char *id = fl_reader_text (reader, "id", TRUE);
  const char *fault = id == NULL ? NULL : id_fault (id);

  if (fault == NULL)
    return id;
  fl_reader_problem (reader, FL_SEVERITY_ERROR, "id", "%s", fault);
  return NULL;
}

/* The key of the family that the document uses; NULL where it uses none. */
static const char *
used_key (FlReader *reader, const char *key, FlDimension dimension)
{
  static const char *const weights[] = { "lb", "kg", NULL }, *const lengths[] = { "in", "ft", "mm", "m", NULL },
                    *const angles[] = { "deg", NULL };
  const char *const *suffixes = dimension == FL_DIM_WEIGHT ? weights : dimension == FL_DIM_LENGTH ? lengths : angles;
  FlArena *arena = fl_reader_arena (reader);
  const char *full;

  for (; *suffixes != NULL; suffixes++)
    if (fl_reader_has (reader, full = fl_arena_printf (arena, "%s_%s", key, *suffixes)))
      return full;
  if (!g_str_has_suffix (key, "wll"))
    return NULL;
  full = fl_arena_printf (arena, "%.*slc_dan", (gint) strlen (key) - 3, key);  /* a rating as EN 12195 tags have it */
  return fl_reader_has (reader, full) ? full : NULL;
}

FlQuantity
fl_decode_quantity (FlReader *reader, const char *key, FlBoundId bound, gboolean required)
{
  const FlBound *b = fl_bound (bound);
  FlQuantity q;

  if (required && b->none_ok && used_key (reader, key, b->dimension) != NULL)
    required = FALSE;           /* null is an answer here */
  q = fl_reader_quantity (reader, key, b->dimension, required, b->min, b->max);
  if (q.unit != FL_UNIT_NULL || b->none_ok)
    return q;
  fl_reader_problem (reader, FL_SEVERITY_ERROR, used_key (reader, key, b->dimension),
                     "a number; where it is not known the key is left out");
  return FL_NOT_MEASURED;
}

void
fl_decode_take (FlReader *reader, const char *key, FlBoundId bound, gboolean required, FlQuantity *quantity)
{
  FlQuantity q = fl_decode_quantity (reader, key, bound, required);

  if (q.unit != FL_UNIT_NONE)
    *quantity = q;
}

FlPlace
fl_decode_place (FlReader *reader, gboolean required)
{
  FlPlace place = { FL_NOT_MEASURED, FL_NOT_MEASURED, FL_NOT_MEASURED };

  if (reader == NULL)
    return place;
  place.x = fl_decode_quantity (reader, "x", FL_BOUND_X, required);
  place.y = fl_decode_quantity (reader, "y", FL_BOUND_Y, required);
  place.z = fl_decode_quantity (reader, "z", FL_BOUND_Z, required);
  return place;
}

const char *
fl_decode_word (FlReader *reader, const char *key, const char *const *values, gboolean required)
{
  gint index = fl_reader_choice (reader, key, values, required, -1);

  return index < 0 ? NULL : values[index];
}

FlSeen
fl_decode_seen (FlReader *reader, const char *key)
{
  if (!fl_reader_has (reader, key))
    return FL_NOT_LOOKED;
  if (fl_reader_is_null (reader, key))
    return FL_IS_NOT;
  return fl_reader_bool (reader, key, FALSE) ? FL_IS : FL_IS_NOT;
}

gboolean
fl_decode_band (FlReader *reader, const char *key, double min, double max, double *lo, double *hi)
{
  char min_text[G_ASCII_DTOSTR_BUF_SIZE], max_text[G_ASCII_DTOSTR_BUF_SIZE];
  double a, b;

  *lo = *hi = NAN;
  if (!fl_reader_has (reader, key))
    return FALSE;
  if (fl_reader_list (reader, key, FALSE) != 2)
    {
      fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "a list of two numbers, the lower and the upper end");
      return FALSE;
    }
  a = fl_reader_item_number (reader, key, 0);
  b = fl_reader_item_number (reader, key, 1);
  if (isnan (a) || isnan (b))
    return FALSE;
  if (a > b || a < min || b > max)
    {
      fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "two rising numbers from %s to %s",
                         fl_number_text (min, min_text), fl_number_text (max, max_text));
      return FALSE;
    }
  *lo = a;
  *hi = b;
  return TRUE;
}

static FlBasisKind
basis_kind (const char *text, gboolean *known)
{
  static const char *const words[] = { "typical", "tape", "manual", "plate", "scale" };  /* in the order of FlBasisKind */
  gsize length = strcspn (text, " \t,;:.(");

  *known = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (strlen (words[i]) == length && g_ascii_strncasecmp (words[i], text, length) == 0)
      return (FlBasisKind) i;
  *known = FALSE;
  return FL_BASIS_TYPICAL;
}

FlBases
fl_decode_bases (FlReader *reader)
{
  FlReader *basis = fl_reader_object (reader, "basis", FALSE);
  FlArena *arena = fl_reader_arena (reader);
  g_autoptr(GPtrArray) keys = NULL;
  FlBases bases = { NULL, 0 };
  FlBasis *items;

  if (basis == NULL)
    return bases;
  keys = fl_reader_keys (basis);
  bases.items = items = fl_arena_new0 (arena, FlBasis, keys->len);
  for (guint i = 0; i < keys->len; i++)
    {
      const char *key = g_ptr_array_index (keys, i);
      const char *text = fl_reader_text (basis, key, TRUE);
      gboolean known;

      if (text == NULL)
        continue;
      items[bases.n++] = (FlBasis) { fl_arena_text (arena, key), text, basis_kind (text, &known) };
      if (!known)
        fl_reader_problem (basis, FL_SEVERITY_ERROR, key, "a text whose first word is plate, manual, scale, tape or typical");
    }
  return bases;
}

/* TRUE for a date that the calendar has, written as ISO 8601 does. */
static gboolean
is_date (const char *text)
{
  static const char pattern[] = "dddd-dd-dd";

  if (strlen (text) != sizeof pattern - 1)
    return FALSE;
  for (guint i = 0; pattern[i] != '\0'; i++)
    if (pattern[i] == 'd' ? !g_ascii_isdigit (text[i]) : text[i] != pattern[i])
      return FALSE;
  return g_date_valid_dmy ((GDateDay) g_ascii_strtoull (text + 8, NULL, 10), (GDateMonth) g_ascii_strtoull (text + 5, NULL, 10),
                           (GDateYear) g_ascii_strtoull (text, NULL, 10));
}

const char *
fl_decode_date (FlReader *reader, const char *key, gboolean required)
{
  const char *text = fl_reader_text (reader, key, required);

  if (text == NULL || is_date (text))
    return text;
  fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "a date that the calendar has, as YYYY-MM-DD");
  return NULL;
}

gboolean
fl_decode_size_text (const char *text, double *inches)
{
  g_autofree char *bare = g_strstrip (g_strdup (text));
  gsize length = strlen (bare);
  gboolean metric = length > 2 && g_str_has_suffix (bare, "mm");

  if (metric)
    {
      bare[length - 2] = '\0';
      g_strchomp (bare);
    }
  if (!fl_size_parse (bare, inches))
    return FALSE;
  if (metric)
    *inches /= 25.4;
  return *inches >= FL_MIN_CHAIN_SIZE && *inches <= FL_MAX_CHAIN_SIZE;
}

static gboolean
size_in_mm (FlReader *reader, const char *key, const char **text, double *inches)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  double mm = fl_reader_number (reader, key, FL_MIN_CHAIN_SIZE * 25.4, FL_MAX_CHAIN_SIZE * 25.4, NAN);

  if (isnan (mm))
    return FALSE;
  *inches = mm / 25.4;
  *text = fl_arena_printf (fl_reader_arena (reader), "%s mm", fl_number_text (mm, number));
  return TRUE;
}

gboolean
fl_decode_size (FlReader *reader, const char *key, gboolean required, const char **text, double *inches, gboolean *metric)
{
  const char *in = fl_arena_printf (fl_reader_arena (reader), "%s_in", key);
  const char *mm = fl_arena_printf (fl_reader_arena (reader), "%s_mm", key);
  gboolean has_mm = fl_reader_has (reader, mm);

  *text = NULL;
  *inches = NAN;
  *metric = has_mm && !fl_reader_has (reader, in);
  if (*metric)
    return size_in_mm (reader, mm, text, inches);
  if (has_mm)
    {
      fl_reader_number (reader, mm, FL_MIN_CHAIN_SIZE * 25.4, FL_MAX_CHAIN_SIZE * 25.4, NAN);
      fl_reader_problem (reader, FL_SEVERITY_ERROR, mm, "only one of %s and %s", in, mm);
    }
  *text = fl_reader_text (reader, in, required);
  if (*text == NULL)
    return FALSE;
  if (fl_decode_size_text (*text, inches))
    return TRUE;
  fl_reader_problem (reader, FL_SEVERITY_ERROR, in, "a nominal chain size in inches, as \"3/8\"");
  return FALSE;
}

static gboolean
rising (FlQuantity lo, FlQuantity hi)
{
  return !fl_quantity_known (lo) || !fl_quantity_known (hi) || fl_quantity_in (lo, FL_UNIT_IN) < fl_quantity_in (hi, FL_UNIT_IN);
}

static FlSolid
decode_solid (FlReader *reader)
{
  FlSolid solid = { 0 };

  solid.name = fl_reader_text (reader, "name", FALSE);
  solid.min = fl_decode_place (fl_reader_object (reader, "min", TRUE), TRUE);
  solid.max = fl_decode_place (fl_reader_object (reader, "max", TRUE), TRUE);
  if (!rising (solid.min.x, solid.max.x) || !rising (solid.min.y, solid.max.y) || !rising (solid.min.z, solid.max.z))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "max", "a corner that is greater than \"min\" in x, y and z");
  return solid;
}

const FlSolid *
fl_decode_solids (FlReader *reader, const char *key, gsize *n)
{
  gsize given = fl_reader_list (reader, key, FALSE);
  FlSolid *solids = fl_arena_new0 (fl_reader_arena (reader), FlSolid, given);

  *n = 0;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, key, i);

      if (item != NULL)
        solids[(*n)++] = decode_solid (item);
    }
  return solids;
}

void
fl_decode_unique (FlReader *item, GHashTable *seen, const char *id, const char *what)
{
  if (id != NULL && !g_hash_table_add (seen, (gpointer) id))
    fl_reader_problem (item, FL_SEVERITY_ERROR, "id", "an id that no other %s here has", what);
}

/* ── the two smallest records ── */

gconstpointer
fl_decode_yard (FlReader *reader)
{
  FlYard *yard = fl_arena_new0 (fl_reader_arena (reader), FlYard, 1);

  yard->id = fl_decode_id (reader);
  yard->name = fl_reader_text (reader, "name", FALSE);
  yard->uid = fl_reader_text (reader, "uid", FALSE);
  fl_decode_bases (reader);
  return yard;
}

/* The shape of a tag of RFC 5646: two or three letters, then subtags of up to eight letters or digits. */
static gboolean
is_language (const char *tag)
{
  gsize part = strcspn (tag, "-_");

  for (gsize i = 0; i < part; i++)
    if (!g_ascii_isalpha (tag[i]))
      return FALSE;
  if (part < 2 || part > 3)
    return FALSE;
  for (tag += part; *tag != '\0'; tag += part)
    {
      tag++;
      part = strcspn (tag, "-_");
      for (gsize i = 0; i < part; i++)
        if (!g_ascii_isalnum (tag[i]))
          return FALSE;
      if (part < 1 || part > 8)
        return FALSE;
    }
  return TRUE;
}

gconstpointer
fl_decode_person (FlReader *reader)
{
  static const char *const roles[] = { "dispatcher", "fleet_lead", "driver", "reader" };  /* bits of FL_ROLE_* in order */
  FlPerson *person = fl_arena_new0 (fl_reader_arena (reader), FlPerson, 1);
  const char *const *given;

  person->id = fl_decode_id (reader);
  person->name = fl_reader_text (reader, "name", FALSE);
  person->language = fl_reader_text (reader, "language", FALSE);
  if (person->language != NULL && !is_language (person->language))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "language", "a language tag such as en or es-MX (RFC 5646)");
  given = fl_reader_texts (reader, "roles", FALSE);
  for (gsize i = 0; given != NULL && given[i] != NULL; i++)
    {
      guint bit = 0;

      for (guint r = 0; r < G_N_ELEMENTS (roles); r++)
        if (g_str_equal (given[i], roles[r]))
          bit = 1u << r;
      if (bit == 0)
        fl_reader_problem (reader, FL_SEVERITY_ERROR, fl_arena_printf (fl_reader_arena (reader), "roles[%" G_GSIZE_FORMAT "]", i),
                           "one of dispatcher, fleet_lead, driver, reader");
      person->roles |= bit;
    }
  fl_decode_bases (reader);
  return person;
}
