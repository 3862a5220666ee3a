/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What people type for a length or a weight, read without the locale: first brought to plain ASCII, then number by number. What can be
 * read in two ways (1,5 or 22 tons in a metric house) is refused with both. */
#include "fl-quantity.h"

#include <math.h>
#include <string.h>

#include "fl-excerpt.h"

enum
{
  MAX_BYTES = 200,
  MAX_DIGITS = 30,
  SHOWN_CHARS = 40
};

static const double largest = 1e9;      /* of anything on a trailer, in any unit */

static const char *const nouns[] = {
  [FL_DIM_NONE] = "number",
  [FL_DIM_WEIGHT] = "weight such as 44,500 lb, 44.5k, 22 T (short tons), 20,000 kg or 20 t (tonnes)",
  [FL_DIM_LENGTH] = "length such as 5'6\", 10-6, 66 in, 6 1/2, 1.68 m or 1680 mm",
  [FL_DIM_ANGLE] = "angle in degrees such as 45",
  [FL_DIM_ACCELERATION] = "share of g such as 0.5",
  [FL_DIM_COUNT] = "whole number such as 4",
  [FL_DIM_SHARE] = "share such as 50 %",
  [FL_DIM_TIME] = "time such as 30 min or 1.5 h",
};

/* ── plain ASCII ── */

typedef struct { gunichar from; const char *to; } Plain;

static const Plain plains[] = {
  { '\t', " " }, { 0x00A0, " " }, { 0x2007, " " }, { 0x2009, " " }, { 0x202F, " " },
  { 0x2018, "'" }, { 0x2019, "'" }, { 0x2032, "'" }, { 0x02B9, "'" }, { 0x00B4, "'" }, { '`', "'" },
  { 0x201C, "\"" }, { 0x201D, "\"" }, { 0x201E, "\"" }, { 0x2033, "\"" }, { 0x02BA, "\"" },
  { 0x2010, "-" }, { 0x2011, "-" }, { 0x2012, "-" }, { 0x2013, "-" }, { 0x2212, "-" },
  { 0x00B0, " deg" }, { 0x00BA, " deg" }, { 0x2044, "/" },
  { 0x00BC, " 1/4" }, { 0x00BD, " 1/2" }, { 0x00BE, " 3/4" },
  { 0x215B, " 1/8" }, { 0x215C, " 3/8" }, { 0x215D, " 5/8" }, { 0x215E, " 7/8" },
};

static const char *
plain_of (gunichar c)
{
  for (gsize i = 0; i < G_N_ELEMENTS (plains); i++)
    if (plains[i].from == c)
      return plains[i].to;
  return NULL;
}

/* NULL if something stands there that belongs to no number. (transfer full) */
static char *
to_plain (const char *text)
{
  g_autoptr(GString) plain = g_string_new (NULL);

  if (strlen (text) > MAX_BYTES || !g_utf8_validate (text, -1, NULL))
    return NULL;
  for (; *text != '\0'; text = g_utf8_next_char (text))
    {
      gunichar c = g_utf8_get_char (text);
      const char *to = plain_of (c);

      if (to != NULL)
        g_string_append (plain, to);
      else if (c < 0x20 || c > 0x7E)
        return NULL;
      else
        g_string_append_c (plain, (char) c);
    }
  g_string_replace (plain, "''", "\"", 0);
  return g_strstrip (g_string_free (g_steal_pointer (&plain), FALSE));
}

static void
skip_spaces (const char **at)
{
  *at += strspn (*at, " ");
}

/* ── numbers ── */

static gsize
count_digits (const char *at)
{
  return strspn (at, "0123456789");
}

/* A separator and exactly three digits, which are not a fraction's numerator. */
static gboolean
is_group (const char *at, char separator)
{
  return *at == separator && count_digits (at + 1) == 3 && at[4] != '/';
}

/* Digits, in groups of three or not, into `digits`. FALSE for groups that are none and for too many digits. */
static gboolean
read_whole (const char **at, gboolean apostrophes, GString *digits)
{
  gsize n = count_digits (*at);
  char separator = (*at)[n];

  g_string_append_len (digits, *at, (gssize) n);
  *at += n;
  if (n >= 1 && n <= 3 && (separator == ',' || separator == ' ' || (apostrophes && separator == '\'')) && is_group (*at, separator))
    {
      if (digits->str[0] == '0')        /* 0,500 is half of something, not five hundred */
        return FALSE;
      for (; is_group (*at, separator); *at += 4)
        g_string_append_len (digits, *at + 1, 3);
      if (**at == ',' || (**at == '\'' && apostrophes))
        return FALSE;
    }
  return **at != ',' && digits->len <= MAX_DIGITS;
}

/* n/d; FALSE and *at unmoved if there is none. */
static gboolean
read_fraction (const char **at, double *value)
{
  gsize top = count_digits (*at), bottom = (*at)[top] == '/' ? count_digits (*at + top + 1) : 0;
  double divisor;

  if (top == 0 || top > 4 || bottom == 0 || bottom > 4)
    return FALSE;
  divisor = (double) g_ascii_strtoull (*at + top + 1, NULL, 10);
  if (divisor == 0)
    return FALSE;
  *value = (double) g_ascii_strtoull (*at, NULL, 10) / divisor;
  *at += top + 1 + bottom;
  return TRUE;
}

/* The fraction of a mixed number: "6 1/2", "6-1/2". Leaves *at where there is none. */
static double
read_mixed (const char **at)
{
  const char *next = *at;
  double fraction = 0;

  skip_spaces (&next);
  if (*next == '-' && next == *at)
    next++;
  if (next == *at || !read_fraction (&next, &fraction) || fraction >= 1)
    return 0;
  *at = next;
  return fraction;
}

/* A number without sign: 44,500 / 6.5 / .5 / 1/2 / 6 1/2 / 6-1/2. *at moves only on success. */
static gboolean
read_number (const char **at, gboolean apostrophes, double *value)
{
  g_autoptr(GString) digits = g_string_new (NULL);
  const char *next = *at;
  gsize decimals;

  if (read_fraction (&next, value))
    {
      *at = next;
      return TRUE;
    }
  if (!read_whole (&next, apostrophes, digits))
    return FALSE;
  if (*next == '.')
    {
      decimals = count_digits (next + 1);
      if (decimals == 0 || decimals > MAX_DIGITS)
        return FALSE;
      g_string_append_len (digits, next, (gssize) decimals + 1);
      next += decimals + 1;
    }
  else if (digits->len == 0)
    return FALSE;
  *value = g_ascii_strtod (digits->str, NULL);
  if (strchr (digits->str, '.') == NULL)
    *value += read_mixed (&next);
  *at = next;
  return TRUE;
}

/* ── units ── */

typedef struct
{
  const char *names;            /* separated by | */
  FlUnit unit;
  double factor;
} Spelling;

/* Told apart by case: a tonne has 1000 kg, a (short) ton 2000 lb (NIST SP 811, appendix B.8). */
static const Spelling cased[] = {
  { "|t|", FL_UNIT_KG, 1000 },
  { "|T|", FL_UNIT_LB, 2000 },
};

static const Spelling spellings[] = {
  { "|lb|lbs|lbf|#|pound|pounds|", FL_UNIT_LB, 1 },
  { "|kip|kips|klb|klbs|", FL_UNIT_LB, 1000 },
  { "|ton|tons|short ton|short tons|", FL_UNIT_LB, 2000 },
  { "|kg|kgs|kilogram|kilograms|", FL_UNIT_KG, 1 },
  { "|tonne|tonnes|metric ton|metric tons|", FL_UNIT_KG, 1000 },
  { "|dan|", FL_UNIT_DAN, 1 },
  { "|kn|", FL_UNIT_DAN, 100 },
  { "|'|ft|foot|feet|", FL_UNIT_FT, 1 },
  { "|\"|in|inch|inches|", FL_UNIT_IN, 1 },
  { "|mm|millimeter|millimeters|millimetre|millimetres|", FL_UNIT_MM, 1 },
  { "|cm|centimeter|centimeters|centimetre|centimetres|", FL_UNIT_MM, 10 },
  { "|m|meter|meters|metre|metres|", FL_UNIT_M, 1 },
  { "|mi|mile|miles|", FL_UNIT_MI, 1 },
  { "|km|kilometer|kilometers|kilometre|kilometres|", FL_UNIT_KM, 1 },
  { "|deg|degree|degrees|", FL_UNIT_DEG, 1 },
  { "|g|", FL_UNIT_G, 1 },
  { "|%|pct|percent|", FL_UNIT_PCT, 1 },
  { "|min|minute|minutes|", FL_UNIT_MIN, 1 },
  { "|h|hr|hrs|hour|hours|", FL_UNIT_H, 1 },
};

/* The next word, with the one that follows "short" or "metric", or the next sign. (transfer full) */
static char *
read_word (const char **at)
{
  const char *from = *at, *end = from;

  while (g_ascii_isalpha (*end))
    end++;
  if (end == from)
    end += *from != '\0' && strchr ("'\"#%", *from) != NULL;
  else if (g_ascii_strncasecmp (from, "short ", 6) == 0 || g_ascii_strncasecmp (from, "metric ", 7) == 0)
    {
      end++;
      while (g_ascii_isalpha (*end))
        end++;
    }
  *at = end + (end > from && g_ascii_isalpha (end[-1]) && *end == '.');
  return g_strndup (from, (gsize) (end - from));
}

static const Spelling *
find_spelling (const Spelling *list, gsize n, const char *word)
{
  g_autofree char *key = g_strdup_printf ("|%s|", word);

  for (gsize i = 0; i < n; i++)
    if (strstr (list[i].names, key) != NULL)
      return &list[i];
  return NULL;
}

/* A unit if one stands there, else NULL and *at unmoved. */
static const Spelling *
read_unit (const char **at)
{
  const char *next = *at;
  g_autofree char *word = NULL, *lower = NULL;
  const Spelling *spelling;

  skip_spaces (&next);
  word = read_word (&next);
  if (*word == '\0')
    return NULL;
  spelling = find_spelling (cased, G_N_ELEMENTS (cased), word);
  lower = g_ascii_strdown (word, -1);
  if (spelling == NULL)
    spelling = find_spelling (spellings, G_N_ELEMENTS (spellings), lower);
  if (spelling != NULL)
    *at = next;
  return spelling;
}

/* "44.5k": thousands of what follows or of the bare unit. */
static gboolean
read_thousand (const char **at)
{
  const char *next = *at;
  g_autofree char *word = NULL;

  skip_spaces (&next);
  word = read_word (&next);
  if (g_ascii_strcasecmp (word, "k") != 0)
    return FALSE;
  *at = next;
  return TRUE;
}

/* ── the whole ── */

typedef struct
{
  const char *text;             /* as entered */
  const char *at;               /* in the plain text */
  FlUnit bare;
  FlDimension dimension;
  gboolean apostrophes;         /* as group separators; then not as feet */
  gboolean negative;
  FlQuantity found;
  gboolean any;
} Entry;

static gboolean G_GNUC_PRINTF (4, 5)
refuse (const Entry *entry, GError **error, FlQuantityError code, const char *format, ...)
{
  g_autofree char *shown = fl_excerpt (entry->text, -1, SHOWN_CHARS), *reason = NULL;
  va_list args;

  va_start (args, format);
  reason = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, FL_QUANTITY_ERROR, code, "“%s”: %s; expected a %s", shown, reason, nouns[entry->dimension]);
  return FALSE;
}

static const char *
unit_word (FlUnit unit)
{
  return unit == FL_UNIT_PCT ? "%" : unit == FL_UNIT_DAN ? "daN" : fl_unit_suffix (unit);
}

/* "understood 5 ft, but not “abc”". Always FALSE. */
static gboolean
refuse_rest (const Entry *entry, GError **error)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (!entry->any)
    return refuse (entry, error, FL_QUANTITY_ERROR_NOT_A_NUMBER, "%s", strchr (entry->at, ',') == NULL ? "no number is understood"
                   : "a comma stands between groups of three digits only, before decimals a point");
  fl_number_text (entry->found.value, number);
  return refuse (entry, error, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood %s%s%s, but not “%s”", number,
                 *unit_word (entry->found.unit) == '\0' ? "" : " ", unit_word (entry->found.unit), entry->at);
}

/* The inches behind the feet, with or without their mark. */
static gboolean
read_inches (Entry *entry, double feet, GError **error)
{
  const Spelling *unit;
  const char *next = entry->at;
  double inches;

  next += *next == '-';
  skip_spaces (&next);
  if (!read_number (&next, FALSE, &inches))
    return refuse_rest (entry, error);
  entry->at = next;
  unit = read_unit (&entry->at);
  if (unit != NULL && unit->unit != FL_UNIT_IN)
    return refuse (entry, error, FL_QUANTITY_ERROR_WRONG_UNIT, "only inches come after feet");
  if (inches >= 12)
    return refuse (entry, error, FL_QUANTITY_ERROR_RANGE, "there are at most 12 inches after feet");
  if (feet != floor (feet))
    return refuse (entry, error, FL_QUANTITY_ERROR_NOT_A_NUMBER, "inches come after whole feet only");
  entry->found = FL_IN (feet * 12 + inches);
  return TRUE;
}

static gboolean
read_entry (Entry *entry, GError **error)
{
  const Spelling *unit;
  const char *number_end;
  double value;

  if (!read_number (&entry->at, entry->apostrophes, &value))
    return refuse_rest (entry, error);
  entry->any = TRUE;
  number_end = entry->at;
  if (entry->dimension == FL_DIM_WEIGHT && read_thousand (&entry->at))
    value *= 1000;
  unit = read_unit (&entry->at);
  entry->found = unit == NULL ? (FlQuantity) { value, entry->bare } : (FlQuantity) { value * unit->factor, unit->unit };
  skip_spaces (&number_end);
  if (unit != NULL && fl_unit_dimension (unit->unit) != entry->dimension)
    return refuse (entry, error, FL_QUANTITY_ERROR_WRONG_UNIT, "“%s” is another kind of unit", number_end);
  if (unit != NULL && unit->factor == 2000 && entry->bare != FL_UNIT_LB)
    return refuse (entry, error, FL_QUANTITY_ERROR_WRONG_UNIT, "tons may be short tons or tonnes: write lb, or t for tonnes");
  skip_spaces (&entry->at);
  if (entry->dimension == FL_DIM_LENGTH && *entry->at != '\0'
      && ((unit != NULL && unit->unit == FL_UNIT_FT) || (unit == NULL && *entry->at == '-' && g_ascii_isdigit (entry->at[1]))))
    {
      if (!read_inches (entry, value, error))
        return FALSE;
      skip_spaces (&entry->at);
    }
  return *entry->at == '\0' || refuse_rest (entry, error);
}

static gboolean
check_range (Entry *entry, GError **error)
{
  double value = entry->found.value;

  if (!(value <= largest))
    return refuse (entry, error, FL_QUANTITY_ERROR_RANGE, "too large");
  if (entry->negative && entry->dimension != FL_DIM_LENGTH && entry->dimension != FL_DIM_ANGLE)
    return refuse (entry, error, FL_QUANTITY_ERROR_RANGE, "it cannot be negative");
  if (entry->dimension == FL_DIM_COUNT && value != floor (value))
    return refuse (entry, error, FL_QUANTITY_ERROR_RANGE, "not a whole number");
  if (entry->negative && value != 0)
    entry->found.value = -value;
  return TRUE;
}

static gboolean
parse (Entry *entry, GError **error)
{
  if (*entry->at == '\0')
    return refuse (entry, error, FL_QUANTITY_ERROR_NOT_A_NUMBER, "nothing was entered");
  if (*entry->at == '-' || *entry->at == '+')
    {
      entry->negative = *entry->at++ == '-';
      skip_spaces (&entry->at);
    }
  return read_entry (entry, error) && check_range (entry, error);
}

/* 1'680 mm: apostrophes may separate groups of a length only where they cannot mean feet. */
static gboolean
parse_metric_groups (Entry entry, FlQuantity *out)
{
  if (strchr (entry.at, '\'') == NULL)
    return FALSE;
  entry.apostrophes = TRUE;
  if (!parse (&entry, NULL) || (entry.found.unit != FL_UNIT_MM && entry.found.unit != FL_UNIT_M))
    return FALSE;
  if (strpbrk (entry.text, "mM") == NULL)       /* the unit was not typed but taken from the field */
    return FALSE;
  *out = entry.found;
  return TRUE;
}

gboolean
fl_quantity_parse (const char *text, FlUnit bare, FlQuantity *out, GError **error)
{
  g_autofree char *plain = NULL;
  Entry entry = { .text = text, .bare = bare, .dimension = fl_unit_dimension (bare) };

  g_return_val_if_fail (text != NULL && entry.dimension != FL_DIM_NONE, FALSE);
  plain = to_plain (text);
  if (plain == NULL)
    return refuse (&entry, error, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number is understood");
  entry.at = plain;
  entry.apostrophes = entry.dimension != FL_DIM_LENGTH;
  if (entry.dimension == FL_DIM_LENGTH && parse_metric_groups (entry, out))
    return TRUE;
  if (!parse (&entry, error))
    return FALSE;
  *out = entry.found;
  return TRUE;
}

gboolean
fl_size_parse (const char *text, double *inches)
{
  g_autofree char *plain = text == NULL ? NULL : to_plain (text);
  const char *at = plain;
  const Spelling *unit;
  double value;

  if (plain == NULL || !read_number (&at, FALSE, &value))
    return FALSE;
  unit = read_unit (&at);
  if ((unit != NULL && unit->unit != FL_UNIT_IN) || *at != '\0' || !(value > 0) || value > 100)
    return FALSE;
  *inches = value;
  return TRUE;
}
