/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads .mo files and fills messages. The file's format: GNU gettext manual, section "The Format of GNU MO Files"; its
 * hash table and its system-dependent strings (minor revision 1) are not used. */
#include "fl-words.h"

#include <string.h>

#define MO_MAGIC 0x950412deu
#define MO_HEADER_BYTES 20u     /* magic, revision, number of texts, offsets of the two tables */
#define MO_ENTRY_BYTES 8u       /* length and offset of one text */
#define MO_MAX_BYTES (16u * 1024 * 1024)        /* a thousand times our own catalog */
#define CONTEXT_END "\004"      /* between a context and its message, as msgfmt writes them */
#define LONG_LENGTH_IN 72.0     /* from here on lengths are read in feet and inches */

/* Marks a text and its context for translation where they stand in a table. */
#define NC_(context, text) (text)

struct _FlWords
{
  gatomicrefcount references;
  char *language;
  GBytes *file;
  GHashTable *texts;            /* id, with its context before it -> translation; both inside `file` */
};

G_DEFINE_QUARK (fl-words-error-quark, fl_words_error)

/* ── the .mo file ── */

typedef struct
{
  const char *path;
  const guint8 *bytes;
  gsize size;
  gboolean swapped;             /* the other byte order than ours */
} MoFile;

static gboolean
bad_file (const MoFile *mo, GError **error, const char *what)
{
  g_set_error (error, FL_WORDS_ERROR, FL_WORDS_ERROR_BAD_FILE, "%s: %s; make it anew with msgfmt", mo->path, what);
  return FALSE;
}

/* The caller has checked that four bytes stand at `offset`. */
static guint32
mo_number (const MoFile *mo, gsize offset)
{
  guint32 value;

  memcpy (&value, mo->bytes + offset, sizeof value);
  return mo->swapped ? GUINT32_SWAP_LE_BE (value) : value;
}

static gboolean
mo_table_fits (const MoFile *mo, guint32 offset, guint32 n)
{
  return offset <= mo->size && n <= (mo->size - offset) / MO_ENTRY_BYTES;
}

/* The text of entry `index` of a table: inside the file, ended by a zero byte. What follows an earlier zero is a plural
 * form, of which we have none. NULL if it is not so. */
static const char *
mo_text (const MoFile *mo, guint32 table, guint32 index)
{
  const gsize entry = (gsize) table + (gsize) index * MO_ENTRY_BYTES;
  const guint32 length = mo_number (mo, entry), offset = mo_number (mo, entry + 4);

  if (offset >= mo->size || length >= mo->size - offset || mo->bytes[offset + length] != '\0')
    return NULL;
  return (const char *) mo->bytes + offset;
}

/* The header is the translation of the empty text. */
static gboolean
charset_is_utf8 (const char *header)
{
  const char *charset = strstr (header, "charset=");

  if (charset == NULL)
    return TRUE;                /* the texts themselves are checked */
  charset += strlen ("charset=");
  return g_ascii_strncasecmp (charset, "UTF-8", 5) == 0 || g_ascii_strncasecmp (charset, "US-ASCII", 8) == 0
         || g_ascii_strncasecmp (charset, "ASCII", 5) == 0;
}

static gboolean
mo_add_text (const MoFile *mo, GHashTable *texts, const char *id, const char *translation, GError **error)
{
  if (id == NULL || translation == NULL)
    return bad_file (mo, error, "a text lies outside the file");
  if (!g_utf8_validate (id, -1, NULL) || !g_utf8_validate (translation, -1, NULL))
    return bad_file (mo, error, "a text is not UTF-8");
  if (*id == '\0' && !charset_is_utf8 (translation))
    return bad_file (mo, error, "its charset is not UTF-8");
  if (*id != '\0' && *translation != '\0')
    g_hash_table_insert (texts, (gpointer) id, (gpointer) translation);
  return TRUE;
}

static gboolean
mo_read (MoFile *mo, GHashTable *texts, GError **error)
{
  guint32 n, ids, translations;

  if (mo->size < MO_HEADER_BYTES)
    return bad_file (mo, error, "no .mo file: it is too short");
  mo->swapped = mo_number (mo, 0) == GUINT32_SWAP_LE_BE (MO_MAGIC);
  if (mo_number (mo, 0) != MO_MAGIC)
    return bad_file (mo, error, "no .mo file: it does not begin with the number that marks one");
  if (mo_number (mo, 4) >> 16 > 1)
    return bad_file (mo, error, "a revision of the format that this program does not know");
  n = mo_number (mo, 8);
  ids = mo_number (mo, 12);
  translations = mo_number (mo, 16);
  if (!mo_table_fits (mo, ids, n) || !mo_table_fits (mo, translations, n))
    return bad_file (mo, error, "a table lies outside the file");
  for (guint32 i = 0; i < n; i++)
    if (!mo_add_text (mo, texts, mo_text (mo, ids, i), mo_text (mo, translations, i), error))
      return FALSE;
  return TRUE;
}

static GBytes *
read_file (const char *path, GError **error)
{
  g_autoptr(GError) cause = NULL;
  char *contents;
  gsize length;

  if (!g_file_get_contents (path, &contents, &length, &cause))
    {
      const gboolean missing = g_error_matches (cause, G_FILE_ERROR, G_FILE_ERROR_NOENT)
                               || g_error_matches (cause, G_FILE_ERROR, G_FILE_ERROR_NOTDIR);

      g_set_error (error, FL_WORDS_ERROR, missing ? FL_WORDS_ERROR_NOT_FOUND : FL_WORDS_ERROR_BAD_FILE, "%s: %s", path,
                   missing ? "no such file; the language is not installed" : cause->message);
      return NULL;
    }
  return g_bytes_new_take (contents, length);
}

FlWords *
fl_words_load (const char *path, const char *language, GError **error)
{
  g_autoptr(GBytes) file = read_file (path, error);
  g_autoptr(GHashTable) texts = g_hash_table_new (g_str_hash, g_str_equal);
  MoFile mo = { .path = path };
  FlWords *words;

  if (file == NULL)
    return NULL;
  mo.bytes = g_bytes_get_data (file, &mo.size);
  if (mo.size > MO_MAX_BYTES)
    {
      bad_file (&mo, error, "larger than any catalog of words");
      return NULL;
    }
  if (!mo_read (&mo, texts, error))
    return NULL;
  words = g_new0 (FlWords, 1);
  g_atomic_ref_count_init (&words->references);
  words->language = g_strdup (language);
  words->file = g_steal_pointer (&file);
  words->texts = g_steal_pointer (&texts);
  return words;
}

FlWords *
fl_words_ref (const FlWords *words)
{
  FlWords *self = (FlWords *) words;

  if (self != NULL)
    g_atomic_ref_count_inc (&self->references);
  return self;
}

void
fl_words_unref (FlWords *words)
{
  if (words == NULL || !g_atomic_ref_count_dec (&words->references))
    return;
  g_hash_table_unref (words->texts);
  g_bytes_unref (words->file);
  g_free (words->language);
  g_free (words);
}

const char *
fl_words_language (const FlWords *words)
{
  return words != NULL ? words->language : "en";
}

/* ── looking up ── */

const char *
fl_words_text (const FlWords *words, const char *message)
{
  const char *text = words != NULL && message != NULL ? g_hash_table_lookup (words->texts, message) : NULL;

  return text != NULL ? text : message;
}

const char *
fl_words_text_in (const FlWords *words, const char *context, const char *message)
{
  g_autofree char *id = NULL;
  const char *text;

  if (words == NULL)
    return message;
  id = g_strconcat (context, CONTEXT_END, message, NULL);
  text = g_hash_table_lookup (words->texts, id);
  return text != NULL ? text : message;
}

/* ── filling messages ── */

static const FlFact *
find_fact (const char *key, gsize length, const FlFact *facts, gsize n)
{
  for (gsize i = 0; i < n; i++)
    if (strlen (facts[i].key) == length && strncmp (facts[i].key, key, length) == 0)
      return &facts[i];
  return NULL;
}

static void
add_quantity (GString *text, const FlWords *words, FlQuantity quantity, gboolean metric)
{
  const gboolean feet = fl_quantity_in (quantity, FL_UNIT_IN) >= LONG_LENGTH_IN;
  g_autofree char *written = NULL;

  if (!fl_quantity_known (quantity))
    {
      g_string_append (text, fl_words_text (words, fl_quantity_is_none (quantity) ? N_("none") : N_("not measured")));
      return;
    }
  written = fl_quantity_format (quantity, metric, feet, FL_ROUND_NEAREST);
  g_string_append (text, written);
}

static void
add_fact (GString *text, const FlWords *words, const FlFact *fact, gboolean metric)
{
  if (fact->text == NULL)
    add_quantity (text, words, fact->quantity, metric);
  else
    g_string_append (text, g_str_has_suffix (fact->key, "_word") ? fl_words_text (words, fact->text) : fact->text);
}

/* The length of the key of a hole that begins at `text` ("{key}"); 0 if none does. */
static gsize
hole_at (const char *text)
{
  gsize length = 0;

  if (text[0] != '{')
    return 0;
  while (g_ascii_isalnum (text[1 + length]) || text[1 + length] == '_')
    length++;
  return text[1 + length] == '}' ? length : 0;
}

char *
fl_words_message (const FlWords *words, const char *message, const FlFact *facts, gsize n_facts, gboolean metric)
{
  g_autoptr(GString) text = g_string_new (NULL);
  const char *at = message != NULL ? fl_words_text (words, message) : "";

  while (*at != '\0')
    {
      const gsize length = hole_at (at);
      const FlFact *fact = length > 0 ? find_fact (at + 1, length, facts, n_facts) : NULL;

      if (fact != NULL)
        {
          add_fact (text, words, fact, metric);
          at += length + 2;
        }
      else
        g_string_append_c (text, *at++);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
fl_words_finding (const FlWords *words, const FlFinding *finding, gboolean metric)
{
  g_autoptr(GArray) facts = g_array_new (FALSE, FALSE, sizeof (FlFact));
  const FlFact always[] = {     /* after its own facts, which go before them */
    FL_FACT_QUANTITY ("need", finding->need),
    FL_FACT_QUANTITY ("have", finding->have),
    FL_FACT_TEXT ("subject", finding->subject != NULL ? finding->subject : ""),
    FL_FACT_TEXT ("basis", finding->basis != NULL ? finding->basis : fl_words_text (words, N_("typical"))),
  };

  g_array_append_vals (facts, finding->facts, (guint) finding->n_facts);
  g_array_append_vals (facts, always, G_N_ELEMENTS (always));
  return fl_words_message (words, finding->message, (const FlFact *) (gconstpointer) facts->data, facts->len, metric);
}

/* ── the words of verdicts and standings ── */

const char *
fl_words_verdict (const FlWords *words, FlVerdict verdict)
{
  static const char *const names[FL_N_VERDICTS] = {
    NC_("verdict", "Met"),
    NC_("verdict", "Note"),
    NC_("verdict", "Caution"),
    NC_("verdict", "Not known"),
    NC_("verdict", "Short"),
  };

  g_return_val_if_fail ((guint) verdict < FL_N_VERDICTS, "");
  return fl_words_text_in (words, "verdict", names[verdict]);
}

const char *
fl_words_standing (const FlWords *words, FlStanding standing)
{
  static const char *const names[FL_N_STANDINGS] = {
    NC_("standing", "law"),
    NC_("standing", "rating"),
    NC_("standing", "practice"),
    NC_("standing", "house rule"),
    NC_("standing", "advice"),
  };

  g_return_val_if_fail ((guint) standing < FL_N_STANDINGS, "");
  return fl_words_text_in (words, "standing", names[standing]);
}
