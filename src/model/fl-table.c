/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sorted, chunked, shared table of records. */
#include "fl-table.h"

#include <string.h>

enum
{
  MOST = 64,                    /* records of a chunk; one more and it is cut in two */
  FRESH = 48                    /* records of a chunk of a new table: room for what is added */
};

typedef struct
{
  gatomicrefcount refs;
  guint n;
  FlRecord *records[MOST];
} Chunk;

struct _FlTable
{
  gatomicrefcount refs;
  gsize count;
  guint n_chunks;
  Chunk **chunks;               /* none is empty */
  gsize *starts;                /* the index of the first record of each chunk */
};

static Chunk *
chunk_new (FlRecord *const *records, guint n)
{
  Chunk *chunk = g_new0 (Chunk, 1);

  g_atomic_ref_count_init (&chunk->refs);
  chunk->n = n;
  for (guint i = 0; i < n; i++)
    chunk->records[i] = fl_record_ref (records[i]);
  return chunk;
}

static Chunk *
chunk_ref (Chunk *chunk)
{
  g_atomic_ref_count_inc (&chunk->refs);
  return chunk;
}

static void
chunk_unref (Chunk *chunk)
{
  if (!g_atomic_ref_count_dec (&chunk->refs))
    return;
  for (guint i = 0; i < chunk->n; i++)
    fl_record_unref (chunk->records[i]);
  g_free (chunk);
}

/* A table of these chunks, which it takes over. */
static FlTable *
table_of (GPtrArray *chunks)
{
  FlTable *table = g_new0 (FlTable, 1);

  g_atomic_ref_count_init (&table->refs);
  table->n_chunks = chunks->len;
  table->chunks = g_new0 (Chunk *, chunks->len);
  table->starts = g_new0 (gsize, chunks->len);
  for (guint i = 0; i < chunks->len; i++)
    {
      table->chunks[i] = g_ptr_array_index (chunks, i);
      table->starts[i] = table->count;
      table->count += table->chunks[i]->n;
    }
  return table;
}

FlTable *
fl_table_new (const FlRecord *const *records, gsize n)
{
  g_autoptr(GPtrArray) chunks = g_ptr_array_new ();

  for (gsize at = 0; at < n; at += FRESH)
    g_ptr_array_add (chunks, chunk_new ((FlRecord *const *) records + at, (guint) MIN (FRESH, n - at)));
  return table_of (chunks);
}

FlTable *
fl_table_ref (FlTable *table)
{
  g_atomic_ref_count_inc (&table->refs);
  return table;
}

void
fl_table_unref (FlTable *table)
{
  if (table == NULL || !g_atomic_ref_count_dec (&table->refs))
    return;
  for (guint i = 0; i < table->n_chunks; i++)
    chunk_unref (table->chunks[i]);
  g_free (table->chunks);
  g_free (table->starts);
  g_free (table);
}

gsize
fl_table_count (const FlTable *table)
{
  return table->count;
}

const FlRecord *
fl_table_at (const FlTable *table, gsize index)
{
  guint low = 0, high = table->n_chunks;

  if (index >= table->count)
    return NULL;
  while (high - low > 1)        /* starts[low] <= index < starts[high] */
    {
      guint middle = low + (high - low) / 2;

      if (table->starts[middle] <= index)
        low = middle;
      else
        high = middle;
    }
  return table->chunks[low]->records[index - table->starts[low]];
}

/* The chunk in which the id stands or belongs: the last that begins with it or with a lesser one, else the first. */
static guint
chunk_for (const FlTable *table, const char *id)
{
  guint low = 0, high = table->n_chunks;

  while (high - low > 1)
    {
      guint middle = low + (high - low) / 2;

      if (strcmp (fl_record_id (table->chunks[middle]->records[0]), id) <= 0)
        low = middle;
      else
        high = middle;
    }
  return low;
}

/* The first place in the chunk whose record is not before the id; *found says whether it is the id's own. */
static guint
place_in (const Chunk *chunk, const char *id, gboolean *found)
{
  guint low = 0, high = chunk->n;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (strcmp (fl_record_id (chunk->records[middle]), id) < 0)
        low = middle + 1;
      else
        high = middle;
    }
  *found = low < chunk->n && strcmp (fl_record_id (chunk->records[low]), id) == 0;
  return low;
}

const FlRecord *
fl_table_find (const FlTable *table, const char *id)
{
  const Chunk *chunk;
  gboolean found;
  guint place;

  if (table->n_chunks == 0 || id == NULL)
    return NULL;
  chunk = table->chunks[chunk_for (table, id)];
  place = place_in (chunk, id, &found);
  return found ? chunk->records[place] : NULL;
}

/* The table with chunk `index` replaced by `n` records, cut in two where they are too many. */
static FlTable *
with_chunk (const FlTable *table, guint index, FlRecord *const *records, guint n)
{
  g_autoptr(GPtrArray) chunks = g_ptr_array_new ();
  guint half = n > MOST ? n / 2 : n;

  for (guint i = 0; i < MAX (table->n_chunks, 1); i++)
    {
      if (i != index)
        {
          g_ptr_array_add (chunks, chunk_ref (table->chunks[i]));
          continue;
        }
      if (half > 0)
        g_ptr_array_add (chunks, chunk_new (records, half));
      if (half < n)
        g_ptr_array_add (chunks, chunk_new (records + half, n - half));
    }
  return table_of (chunks);
}

FlTable *
fl_table_with (const FlTable *table, const FlRecord *record)
{
  FlRecord *records[MOST + 1];
  guint index = chunk_for (table, fl_record_id (record)), place = 0, n = 0;
  const Chunk *chunk = table->n_chunks == 0 ? NULL : table->chunks[index];
  gboolean found = FALSE;

  if (chunk != NULL)
    place = place_in (chunk, fl_record_id (record), &found);
  for (guint i = 0; i < place; i++)
    records[n++] = chunk->records[i];
  records[n++] = (FlRecord *) record;
  for (guint i = place + (found ? 1 : 0); chunk != NULL && i < chunk->n; i++)
    records[n++] = chunk->records[i];
  return with_chunk (table, index, records, n);
}

FlTable *
fl_table_without (const FlTable *table, const char *id)
{
  FlRecord *records[MOST];
  guint index = chunk_for (table, id), place, n = 0;
  const Chunk *chunk;
  gboolean found;

  if (fl_table_find (table, id) == NULL)
    return fl_table_ref ((FlTable *) table);
  chunk = table->chunks[index];
  place = place_in (chunk, id, &found);
  for (guint i = 0; i < chunk->n; i++)
    if (i != place)
      records[n++] = chunk->records[i];
  return with_chunk (table, index, records, n);
}
