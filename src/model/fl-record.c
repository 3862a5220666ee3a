/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record: its text, and the typed view that is decoded from it once. */
#include "fl-record-private.h"

#include <string.h>

#include "fl-decode.h"
#include "fl-splice.h"

#define POLICY_ID "policy"

struct _FlRecord
{
  gatomicrefcount refs;
  FlKind kind;
  char *id, *uid;
  char *text;
  gsize length;
  gsize decoded;                /* guarded by g_once_init_enter */
  FlArena *arena;               /* what the view lives in; NULL for a plan */
  gconstpointer view;           /* set once, atomically; NULL: not decoded yet, or no view could be had */
};

G_DEFINE_QUARK (fl-record-error-quark, fl_record_error)

char *
fl_path_join (const char *path, const char *below)
{
  if (path == NULL || *path == '\0')
    return g_strdup (below);
  if (below == NULL || *below == '\0')
    return g_strdup (path);
  return g_strconcat (path, *below == '[' ? "" : ".", below, NULL);
}

/* ── decoding ── */

/* Problems of a record's own text, put in their place in the document. */
static void
move_problems (FlProblems *to, const FlProblems *from, const char *path, guint line)
{
  for (guint i = 0; i < fl_problems_count (from); i++)
    {
      const FlProblem *problem = fl_problems_at (from, i);
      g_autofree char *whole = fl_path_join (path, problem->path);

      fl_problems_add (to, problem->severity, whole, problem->line == 0 ? line : line + problem->line - 1, problem->value,
                       "%s", problem->expected);
    }
}

static gconstpointer
decode_plan (const FlRecord *record, const char *path, guint line, FlProblems *problems)
{
  g_autoptr(GBytes) bytes = g_bytes_new_static (record->text, record->length);
  g_autoptr(FlProblems) own = fl_problems_new ();
  FlPlan *plan;

  plan = fl_plan_new_from_json (bytes, own);
  move_problems (problems, own, path, line);
  return plan;
}

static gconstpointer
decode_view (FlRecord *record, const char *path, guint line, FlProblems *problems, char **uid)
{
  g_autoptr(GBytes) bytes = g_bytes_new_static (record->text, record->length);
  g_autoptr(FlProblems) own = fl_problems_new ();
  g_autoptr(JsonNode) root = fl_json_parse (bytes, own);
  g_autoptr(FlReader) reader = NULL;

  move_problems (problems, own, path, line);
  if (root == NULL)
    return NULL;
  record->arena = fl_arena_new ();
  reader = fl_reader_new (record->text, record->length, root, path, line, record->arena, problems);
  *uid = g_strdup (fl_reader_text (reader, "uid", FALSE));
  return fl_decode_record (record->kind, reader);
}

/* *uid is that of the text. (transfer full) */
static void
decode (FlRecord *record, const char *path, guint line, FlProblems *problems, char **uid)
{
  gconstpointer view = record->kind == FL_KIND_PLAN ? decode_plan (record, path, line, problems)
    : decode_view (record, path, line, problems, uid);

  g_atomic_pointer_set (&record->view, view);
}

/* Decoded by whoever asks first; the others wait for it. */
static gconstpointer
view_of (const FlRecord *record)
{
  FlRecord *self = (FlRecord *) record;

  if (g_once_init_enter (&self->decoded))
    {
      g_autofree char *uid = NULL;      /* the record has its own, which others may be reading */

      decode (self, "", 1, NULL, &uid);
      g_once_init_leave (&self->decoded, 1);
    }
  return g_atomic_pointer_get (&self->view);
}

/* The unit number as the view has it: the first member of every view but two. */
static const char *
id_of_view (const FlRecord *record)
{
  if (record->view == NULL)
    return NULL;
  if (record->kind == FL_KIND_POLICY)
    return POLICY_ID;
  if (record->kind == FL_KIND_PLAN)
    return fl_plan_choices (record->view)->move;
  return *(const char *const *) record->view;
}

G_STATIC_ASSERT (G_STRUCT_OFFSET (FlYard, id) == 0 && G_STRUCT_OFFSET (FlPerson, id) == 0 && G_STRUCT_OFFSET (FlTruck, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (FlMachine, id) == 0 && G_STRUCT_OFFSET (FlTrailer, id) == 0 && G_STRUCT_OFFSET (FlMove, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (FlPiece, id) == 0 && G_STRUCT_OFFSET (FlChain, piece) == 0 && G_STRUCT_OFFSET (FlBinder, piece) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (FlStrap, piece) == 0 && G_STRUCT_OFFSET (FlConnector, piece) == 0);

/* ── life ── */

static FlRecord *
record_alloc (FlKind kind, const char *text, gsize length)
{
  FlRecord *record = g_new0 (FlRecord, 1);

  g_atomic_ref_count_init (&record->refs);
  record->kind = kind;
  record->text = g_malloc (length + 1);
  if (length > 0)
    memcpy (record->text, text, length);
  record->text[length] = '\0';
  record->length = length;
  return record;
}

FlRecord *
fl_record_read (FlKind kind, const char *text, gsize length, const char *path, guint line, FlProblems *problems, gboolean *bad)
{
  g_autoptr(FlRecord) record = record_alloc (kind, text, length);
  g_autoptr(FlProblems) own = problems == NULL ? fl_problems_new () : NULL;
  FlProblems *all = problems == NULL ? own : problems;
  guint before = fl_problems_errors (all);

  if (g_once_init_enter (&record->decoded))
    {
      decode (record, path, line, all, &record->uid);
      g_once_init_leave (&record->decoded, 1);
    }
  *bad = record->view == NULL || fl_problems_errors (all) > before;
  if (record->view == NULL)
    return NULL;
  record->id = g_strdup (id_of_view (record));
  return g_steal_pointer (&record);
}

FlRecord *
fl_record_new (FlKind kind, const char *text, gssize length, const char *path, guint line, FlProblems *problems)
{
  g_autoptr(FlRecord) record = NULL;
  gboolean bad;

  g_return_val_if_fail (kind < FL_N_KINDS && text != NULL, NULL);
  record = fl_record_read (kind, text, length < 0 ? strlen (text) : (gsize) length, path, line, problems, &bad);
  return bad ? NULL : g_steal_pointer (&record);
}

FlRecord *
fl_record_new_kept (FlKind kind, const char *id, const char *uid, const char *text, gssize length)
{
  FlRecord *record;

  g_return_val_if_fail (kind < FL_N_KINDS && id != NULL && text != NULL, NULL);
  record = record_alloc (kind, text, length < 0 ? strlen (text) : (gsize) length);
  record->id = g_strdup (id);
  record->uid = g_strdup (uid);
  return record;
}

FlRecord *
fl_record_ref (const FlRecord *record)
{
  FlRecord *self = (FlRecord *) record;

  g_atomic_ref_count_inc (&self->refs);
  return self;
}

void
fl_record_unref (FlRecord *record)
{
  if (record == NULL || !g_atomic_ref_count_dec (&record->refs))
    return;
  if (record->kind == FL_KIND_PLAN && record->view != NULL)
    fl_plan_unref ((FlPlan *) record->view);
  g_clear_pointer (&record->arena, fl_arena_free);
  g_free (record->id);
  g_free (record->uid);
  g_free (record->text);
  g_free (record);
}

/* ── what it is ── */

FlKind
fl_record_kind (const FlRecord *record)
{
  return record->kind;
}

const char *
fl_record_id (const FlRecord *record)
{
  return record->id;
}

const char *
fl_record_uid (const FlRecord *record)
{
  return record->uid;
}

const char *
fl_record_text (const FlRecord *record, gsize *length)
{
  if (length != NULL)
    *length = record->length;
  return record->text;
}

gboolean
fl_record_equal (const FlRecord *a, const FlRecord *b)
{
  return a == b || (a->kind == b->kind && a->length == b->length && memcmp (a->text, b->text, a->length) == 0);
}

#define VIEW(Type, name, KIND) \
  const Type * \
  fl_record_##name (const FlRecord *record) \
  { \
    return record->kind == KIND ? view_of (record) : NULL; \
  }

VIEW (FlYard, yard, FL_KIND_YARD)
VIEW (FlPerson, person, FL_KIND_PERSON)
VIEW (FlTruck, truck, FL_KIND_TRUCK)
VIEW (FlTrailer, trailer, FL_KIND_TRAILER)
VIEW (FlChain, chain, FL_KIND_CHAIN)
VIEW (FlBinder, binder, FL_KIND_BINDER)
VIEW (FlStrap, strap, FL_KIND_STRAP)
VIEW (FlConnector, connector, FL_KIND_CONNECTOR)
VIEW (FlMove, move, FL_KIND_MOVE)
VIEW (FlPolicy, policy, FL_KIND_POLICY)
VIEW (FlPlan, plan_view, FL_KIND_PLAN)

const FlMachine *
fl_record_machine (const FlRecord *record)
{
  return record->kind == FL_KIND_MACHINE || record->kind == FL_KIND_ARTICLE ? view_of (record) : NULL;
}

const FlPiece *
fl_record_piece (const FlRecord *record)
{
  switch (record->kind)
    {
    case FL_KIND_CHAIN:
    case FL_KIND_BINDER:
    case FL_KIND_STRAP:
    case FL_KIND_CONNECTOR:
      return view_of (record);  /* the first member of each of them */
    case FL_KIND_YARD:
    case FL_KIND_PERSON:
    case FL_KIND_TRUCK:
    case FL_KIND_MACHINE:
    case FL_KIND_ARTICLE:
    case FL_KIND_TRAILER:
    case FL_KIND_MOVE:
    case FL_KIND_PLAN:
    case FL_KIND_POLICY:
    case FL_N_KINDS:
      return NULL;
    }
  return NULL;
}

/* ── an edit ── */

static const FlProblem *
first_error (const FlProblems *problems)
{
  for (guint i = 0; i < fl_problems_count (problems); i++)
    if (fl_problems_at (problems, i)->severity == FL_SEVERITY_ERROR)
      return fl_problems_at (problems, i);
  return NULL;
}

FlRecord *
fl_record_with (const FlRecord *record, const char *path, JsonNode *value, GError **error)
{
  g_autoptr(GString) text = g_string_new_len (record->text, (gssize) record->length);
  g_autofree char *value_text = value == NULL ? NULL : fl_splice_value (value);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlRecord) changed = NULL;
  const FlProblem *problem;

  if (!(value == NULL ? fl_splice_remove (text, path) : fl_splice_set (text, path, value_text)))
    {
      g_set_error (error, FL_RECORD_ERROR, FL_RECORD_ERROR_NO_MEMBER, "%s \"%s\" has no place \"%s\"",
                   fl_kind_name (record->kind), record->id, path);
      return NULL;
    }
  changed = fl_record_new (record->kind, text->str, (gssize) text->len, "", 1, problems);
  problem = first_error (problems);
  if (changed != NULL)
    return g_steal_pointer (&changed);
  g_set_error (error, FL_RECORD_ERROR, FL_RECORD_ERROR_BAD_VALUE, "%s \"%s\": %s: %s%sexpected %s",
               fl_kind_name (record->kind), record->id, problem == NULL ? path : problem->path,
               problem == NULL || problem->value == NULL ? "" : problem->value, problem == NULL || problem->value == NULL ? "" : ": ",
               problem == NULL ? "another value" : problem->expected);
  return NULL;
}
