/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words: .mo files as msgfmt (GNU gettext, another's writer) makes them and as the manual's "The Format of GNU MO Files" lays
 * them out byte by byte, bad ones of every kind, and messages with their holes filled. */
#include <glib/gstdio.h>
#include <string.h>

#include "fl-words.h"

/* ── files ── */

typedef struct { char *folder, *path; } Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  g_autoptr(GError) error = NULL;

  (void) data;
  fixture->folder = g_dir_make_tmp ("fl-words-XXXXXX", &error);
  g_assert_no_error (error);
  fixture->path = g_build_filename (fixture->folder, "es.mo", NULL);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_autofree char *po = g_build_filename (fixture->folder, "es.po", NULL);

  (void) data;
  g_unlink (fixture->path);
  g_unlink (po);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->path);
  g_free (fixture->folder);
}

static void
write_file (const char *path, gconstpointer data, gsize length)
{
  FILE *file = g_fopen (path, "wb");     /* plain: some thousand files are written, none has to survive */

  g_assert_nonnull (file);
  g_assert_cmpuint (fwrite (data, 1, length, file), ==, length);
  g_assert_cmpint (fclose (file), ==, 0);
}

/* ── .mo files byte by byte ── */

typedef struct { const char *id; gsize id_length; const char *text; gsize text_length; } MoEntry;
#define ENTRY(id, text) { (id), sizeof (id) - 1, (text), sizeof (text) - 1 }

/* Sorted by id, as the manual demands. */
static const MoEntry entries[] = {
  ENTRY ("", "Content-Type: text/plain; charset=UTF-8\n"),
  ENTRY ("left", "izquierda"),
  ENTRY ("one\0many", "uno\0muchos"),
  ENTRY ("standing\004law", "ley"),
  ENTRY ("verdict\004Short", "Falta"),
  ENTRY ("{have} for {need} needed on the {side_word}", "Se necesitan {need}, hay {have} a la {side_word}"),
};

static void
add_number (GByteArray *file, guint32 value, gboolean big)
{
  const guint32 stored = big ? GUINT32_TO_BE (value) : GUINT32_TO_LE (value);

  g_byte_array_append (file, (const guint8 *) &stored, sizeof stored);
}

/* Header, table of ids, table of texts, then all ids and all texts, each with its zero byte. */
static GByteArray *
mo_file (const MoEntry *list, guint n, gboolean big)
{
  GByteArray *file = g_byte_array_new ();
  guint32 offset = 20 + n * 16;
  const guint32 head[] = { 0x950412de, 0, n, 20, 20 + n * 8 };

  for (guint i = 0; i < G_N_ELEMENTS (head); i++)
    add_number (file, head[i], big);
  for (guint table = 0; table < 2; table++)
    for (guint i = 0; i < n; i++)
      {
        const guint32 length = (guint32) (table == 0 ? list[i].id_length : list[i].text_length);

        add_number (file, length, big);
        add_number (file, offset, big);
        offset += length + 1;
      }
  for (guint i = 0; i < n; i++)
    g_byte_array_append (file, (const guint8 *) list[i].id, (guint) list[i].id_length + 1);
  for (guint i = 0; i < n; i++)
    g_byte_array_append (file, (const guint8 *) list[i].text, (guint) list[i].text_length + 1);
  return file;
}

static FlWords *
load_good (const char *path)
{
  g_autoptr(GError) error = NULL;
  FlWords *words = fl_words_load (path, "es", &error);

  g_assert_no_error (error);
  g_assert_nonnull (words);
  return words;
}

static void
check_entries (const FlWords *words)
{
  g_assert_cmpstr (fl_words_language (words), ==, "es");
  g_assert_cmpstr (fl_words_text (words, "left"), ==, "izquierda");
  g_assert_cmpstr (fl_words_text (words, "right"), ==, "right");
  g_assert_cmpstr (fl_words_text (words, "one"), ==, "uno");
  g_assert_cmpstr (fl_words_text (words, ""), ==, "");
  g_assert_cmpstr (fl_words_text_in (words, "verdict", "Short"), ==, "Falta");
  g_assert_cmpstr (fl_words_text_in (words, "standing", "Short"), ==, "Short");
  g_assert_cmpstr (fl_words_text (words, "Short"), ==, "Short");
  g_assert_cmpstr (fl_words_verdict (words, FL_SHORT), ==, "Falta");
  g_assert_cmpstr (fl_words_verdict (words, FL_MET), ==, "Met");
  g_assert_cmpstr (fl_words_standing (words, FL_BY_LAW), ==, "ley");
}

static void
test_bytes (Fixture *fixture, gconstpointer data)
{
  (void) data;
  for (gint big = 0; big < 2; big++)
    {
      g_autoptr(GByteArray) file = mo_file (entries, G_N_ELEMENTS (entries), big == 1);
      g_autoptr(FlWords) words = NULL;

      write_file (fixture->path, file->data, file->len);
      words = load_good (fixture->path);
      check_entries (words);
    }
}

static void
test_empty (Fixture *fixture, gconstpointer data)
{
  g_autoptr(GByteArray) file = mo_file (NULL, 0, FALSE);
  g_autoptr(FlWords) words = NULL;

  (void) data;
  write_file (fixture->path, file->data, file->len);
  words = load_good (fixture->path);
  g_assert_cmpstr (fl_words_text (words, "left"), ==, "left");
}

/* ── .mo files from msgfmt ── */

static const char po[] =
  "msgid \"\"\nmsgstr \"Content-Type: text/plain; charset=UTF-8\\n\"\n\n"
  "msgid \"left\"\nmsgstr \"izquierda\"\n\n"
  "msgid \"one\"\nmsgid_plural \"many\"\nmsgstr[0] \"uno\"\nmsgstr[1] \"muchos\"\n\n"
  "msgctxt \"standing\"\nmsgid \"law\"\nmsgstr \"ley\"\n\n"
  "msgctxt \"verdict\"\nmsgid \"Short\"\nmsgstr \"Falta\"\n\n"
  "msgid \"not translated\"\nmsgstr \"\"\n\n"
  "msgid \"a quote \\\" and a line\\n\"\nmsgstr \"una comilla \\\" y una línea\\n\"\n";

static gboolean
run_msgfmt (Fixture *fixture, const char *option)
{
  g_autofree char *program = g_find_program_in_path ("msgfmt");
  g_autofree char *source = g_build_filename (fixture->folder, "es.po", NULL);
  char *argv[] = { program, (char *) option, (char *) "-o", fixture->path, source, NULL };
  g_autoptr(GError) error = NULL;
  gint status;

  if (program == NULL)
    return FALSE;
  write_file (source, po, strlen (po));
  g_spawn_sync (NULL, argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, NULL, NULL, &status, &error);
  g_assert_no_error (error);
  return g_spawn_check_wait_status (status, NULL);
}

static void
test_msgfmt (Fixture *fixture, gconstpointer data)
{
  g_autoptr(FlWords) words = NULL;

  if (!run_msgfmt (fixture, data))
    {
      g_test_skip ("no msgfmt with this option here");
      return;
    }
  words = load_good (fixture->path);
  check_entries (words);
  g_assert_cmpstr (fl_words_text (words, "not translated"), ==, "not translated");
  g_assert_cmpstr (fl_words_text (words, "a quote \" and a line\n"), ==, "una comilla \" y una línea\n");
}

/* ── bad files ── */

static void
assert_bad (const char *path, const guint8 *bytes, gsize length, const char *what)
{
  g_autoptr(GError) error = NULL;

  write_file (path, bytes, length);
  g_assert_null (fl_words_load (path, "es", &error));
  g_assert_error (error, FL_WORDS_ERROR, FL_WORDS_ERROR_BAD_FILE);
  g_assert_true (g_str_has_prefix (error->message, path));
  g_assert_nonnull (strstr (error->message, what));
  g_assert_null (strchr (error->message, '\n'));
}

static void
test_missing (Fixture *fixture, gconstpointer data)
{
  g_autoptr(GError) error = NULL;

  (void) data;
  g_assert_null (fl_words_load (fixture->path, "es", &error));
  g_assert_error (error, FL_WORDS_ERROR, FL_WORDS_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_assert_null (fl_words_load (fixture->folder, "es", &error));
  g_assert_error (error, FL_WORDS_ERROR, FL_WORDS_ERROR_BAD_FILE);
}

/* One number of the good file changed; offsets as the manual numbers them. */
typedef struct { guint offset; guint32 value; const char *what; } BadNumber;

static const BadNumber bad_numbers[] = {
  { 0, 0x950412df, "no .mo file" },
  { 4, 0x00020000, "revision" },
  { 8, 0xffffffff, "table" },
  { 8, 0x10000000, "table" },
  { 12, 0xffffffff, "table" },
  { 12, 0x7ffffff0, "table" },
  { 16, 0xffffffff, "table" },
  { 20, 0xffffffff, "outside" },            /* length of the first id */
  { 24, 0xffffffff, "outside" },            /* its offset */
  { 20 + 8, 3, "outside" },                 /* "left" without its zero byte behind it */
  { 20 + 8 * G_N_ELEMENTS (entries) + 8, 0x7fffffff, "outside" },
};

static void
test_bad_numbers (Fixture *fixture, gconstpointer data)
{
  (void) data;
  for (gsize i = 0; i < G_N_ELEMENTS (bad_numbers); i++)
    for (gint big = 0; big < 2; big++)
      {
        g_autoptr(GByteArray) file = mo_file (entries, G_N_ELEMENTS (entries), big == 1);
        const guint32 stored = big == 1 ? GUINT32_TO_BE (bad_numbers[i].value) : GUINT32_TO_LE (bad_numbers[i].value);

        memcpy (file->data + bad_numbers[i].offset, &stored, sizeof stored);
        assert_bad (fixture->path, file->data, file->len, bad_numbers[i].what);
      }
}

static void
test_bad_texts (Fixture *fixture, gconstpointer data)
{
  static const MoEntry latin[] = { ENTRY ("", "Content-Type: text/plain; charset=ISO-8859-1\n") };
  static const MoEntry broken[] = { ENTRY ("left", "izq\xff") };
  g_autoptr(GByteArray) first = mo_file (latin, 1, FALSE), second = mo_file (broken, 1, FALSE);

  (void) data;
  assert_bad (fixture->path, first->data, first->len, "charset");
  assert_bad (fixture->path, second->data, second->len, "UTF-8");
  assert_bad (fixture->path, (const guint8 *) "", 0, "too short");
}

/* A file that breaks off has a text or a table outside. */
static void
test_truncated (Fixture *fixture, gconstpointer data)
{
  g_autoptr(GByteArray) file = mo_file (entries, G_N_ELEMENTS (entries), FALSE);

  (void) data;
  for (guint length = 0; length < file->len; length++)
    assert_bad (fixture->path, file->data, length, "es.mo");
}

/* Any byte changed: refused or read, never a crash; what is read is text. */
static void
test_corrupted (Fixture *fixture, gconstpointer data)
{
  static const guint8 flips[] = { 0x01, 0x80, 0xff };
  g_autoptr(GByteArray) file = mo_file (entries, G_N_ELEMENTS (entries), FALSE);

  (void) data;
  for (guint i = 0; i < file->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (flips); k++)
      {
        g_autoptr(GError) error = NULL;
        g_autoptr(FlWords) words = NULL;

        file->data[i] ^= flips[k];
        write_file (fixture->path, file->data, file->len);
        file->data[i] ^= flips[k];
        words = fl_words_load (fixture->path, "es", &error);
        g_assert_true ((words == NULL) == (error != NULL));
        for (guint e = 0; words != NULL && e < G_N_ELEMENTS (entries); e++)
          g_assert_true (g_utf8_validate (fl_words_text (words, entries[e].id), -1, NULL));
      }
}

/* ── messages ── */

static void
assert_message (const FlWords *words, const char *message, gboolean metric, const char *expected)
{
  static const char unit_text[] = "trailer T-3";
  const FlFact facts[] = {
    FL_FACT_TEXT ("subject", unit_text),
    FL_FACT_TEXT ("side_word", "left"),
    FL_FACT_TEXT ("side", "left"),
    FL_FACT_QUANTITY ("need", FL_LB (11000)),
    FL_FACT_QUANTITY ("have", FL_LB (13200)),
    FL_FACT_QUANTITY ("short_run", FL_IN (44.3)),
    FL_FACT_QUANTITY ("below", FL_IN (71.9)),
    FL_FACT_QUANTITY ("edge", FL_IN (72)),
    FL_FACT_QUANTITY ("height", FL_IN (155)),
    FL_FACT_QUANTITY ("opening", FL_NOT_MEASURED),
    FL_FACT_QUANTITY ("mark", ((FlQuantity) { 0.0, FL_UNIT_NULL })),
    FL_FACT_TEXT ("braces", "{need}"),
    FL_FACT_TEXT ("empty", ""),
  };
  g_autofree char *text = fl_words_message (words, message, facts, G_N_ELEMENTS (facts), metric);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_message (void)
{
  assert_message (NULL, "no hole", FALSE, "no hole");
  assert_message (NULL, "", FALSE, "");
  assert_message (NULL, "{have} for {need} needed", FALSE, "13,200 lb for 11,000 lb needed");
  assert_message (NULL, "{need}{need}", FALSE, "11,000 lb11,000 lb");
  assert_message (NULL, "{short_run}", FALSE, "44.3 in");
  assert_message (NULL, "{below}, {edge}", FALSE, "71.9 in, 6 ft");
  assert_message (NULL, "{height}", FALSE, "12 ft 11 in");
  assert_message (NULL, "{opening}, {mark}", FALSE, "not measured, none");
  assert_message (NULL, "{subject} on the {side_word} {side}", FALSE, "trailer T-3 on the left left");
  assert_message (NULL, "[{empty}]", FALSE, "[]");
}

/* 11,000 lb = 4 989.5 kg and 44.3 in = 1 125.2 mm by the exact factors. */
static void
test_message_metric (void)
{
  g_autofree char *need = fl_quantity_format (FL_LB (11000), TRUE, FALSE, FL_ROUND_NEAREST);
  g_autofree char *run = fl_quantity_format (FL_IN (44.3), TRUE, FALSE, FL_ROUND_NEAREST);
  g_autofree char *expected = g_strdup_printf ("%s, %s", need, run);

  g_assert_true (g_str_has_suffix (need, "kg") && g_str_has_suffix (run, "mm"));
  assert_message (NULL, "{need}, {short_run}", TRUE, expected);
}

/* What is no hole, or has no fact, stays as it is; what a fact puts in is not filled again. */
static void
test_message_odd (void)
{
  assert_message (NULL, "{unknown} {needs} {nee}", FALSE, "{unknown} {needs} {nee}");
  assert_message (NULL, "{ {} } {need", FALSE, "{ {} } {need");
  assert_message (NULL, "{{need}}", FALSE, "{11,000 lb}");
  assert_message (NULL, "{ne ed} {need }", FALSE, "{ne ed} {need }");
  assert_message (NULL, "{braces}", FALSE, "{need}");
  assert_message (NULL, "42.7° — {side}", FALSE, "42.7° — left");
}

static void
test_message_translated (Fixture *fixture, gconstpointer data)
{
  g_autoptr(GByteArray) file = mo_file (entries, G_N_ELEMENTS (entries), FALSE);
  g_autoptr(FlWords) words = NULL;

  (void) data;
  write_file (fixture->path, file->data, file->len);
  words = load_good (fixture->path);
  assert_message (words, "{have} for {need} needed on the {side_word}", FALSE,
                  "Se necesitan 11,000 lb, hay 13,200 lb a la izquierda");
  assert_message (words, "{side} {side_word}", FALSE, "left izquierda");
}

static void
test_null_facts (void)
{
  g_autofree char *text = fl_words_message (NULL, "{need}", NULL, 0, FALSE);

  g_assert_cmpstr (text, ==, "{need}");
}

/* The sentence of the design's example plan. */
static void
test_finding (void)
{
  const FlFact facts[] = { FL_FACT_QUANTITY ("each", FL_LB (6600)), FL_FACT_TEXT ("basis", "own fact goes first") };
  FlFinding finding = {
    .rule = "aggregate_wll", .subject = "load R-03", .need = FL_LB (11000), .have = FL_LB (13200), .basis = "scale ticket",
    .message = "Four direct tie-downs count half of {each} each: {have} for {need} needed.", .facts = facts, .n_facts = 1,
  };
  g_autofree char *first = fl_words_finding (NULL, &finding, FALSE), *second = NULL, *third = NULL;

  g_assert_cmpstr (first, ==, "Four direct tie-downs count half of 6,600 lb each: 13,200 lb for 11,000 lb needed.");
  finding.message = "{subject}: {basis}";
  finding.n_facts = 2;
  second = fl_words_finding (NULL, &finding, FALSE);
  g_assert_cmpstr (second, ==, "load R-03: own fact goes first");
  finding.basis = NULL;
  finding.subject = NULL;
  finding.facts = NULL;
  finding.n_facts = 0;
  third = fl_words_finding (NULL, &finding, FALSE);
  g_assert_cmpstr (third, ==, ": typical");
}

static void
test_english (void)
{
  static const char *const verdicts[] = { "Met", "Note", "Caution", "Not known", "Short" };
  static const char *const standings[] = { "law", "rating", "practice", "house rule", "advice" };

  g_assert_cmpstr (fl_words_language (NULL), ==, "en");
  g_assert_cmpstr (fl_words_text (NULL, "left"), ==, "left");
  g_assert_cmpstr (fl_words_text_in (NULL, "verdict", "Short"), ==, "Short");
  for (guint i = 0; i < FL_N_VERDICTS; i++)
    g_assert_cmpstr (fl_words_verdict (NULL, (FlVerdict) i), ==, verdicts[i]);
  for (guint i = 0; i < FL_N_STANDINGS; i++)
    g_assert_cmpstr (fl_words_standing (NULL, (FlStanding) i), ==, standings[i]);
}

#define ADD(path, data, function) g_test_add (path, Fixture, data, set_up, function, tear_down)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/words/bytes", NULL, test_bytes);
  ADD ("/words/empty", NULL, test_empty);
  ADD ("/words/msgfmt/little", "--endianness=little", test_msgfmt);
  ADD ("/words/msgfmt/big", "--endianness=big", test_msgfmt);
  ADD ("/words/msgfmt/no-hash", "--no-hash", test_msgfmt);
  ADD ("/words/msgfmt/aligned", "--alignment=16", test_msgfmt);
  ADD ("/words/missing", NULL, test_missing);
  ADD ("/words/bad-numbers", NULL, test_bad_numbers);
  ADD ("/words/bad-texts", NULL, test_bad_texts);
  ADD ("/words/truncated", NULL, test_truncated);
  ADD ("/words/corrupted", NULL, test_corrupted);
  g_test_add_func ("/words/message", test_message);
  g_test_add_func ("/words/message-metric", test_message_metric);
  g_test_add_func ("/words/message-odd", test_message_odd);
  ADD ("/words/message-translated", NULL, test_message_translated);
  g_test_add_func ("/words/null-facts", test_null_facts);
  g_test_add_func ("/words/finding", test_finding);
  g_test_add_func ("/words/english", test_english);
  return g_test_run ();
}
