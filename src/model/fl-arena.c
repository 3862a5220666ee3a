/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bump allocator: a chain of blocks that double up to a limit; a request larger than a block gets one of its own. */
#include "fl-arena.h"

#include <stdalign.h>
#include <stddef.h>
#include <string.h>

enum
{
  FIRST_BLOCK = 512,            /* most records are small, and there are thousands of them */
  LAST_BLOCK = 64 * 1024
};

#define ALIGNMENT alignof (max_align_t)

typedef struct _Block Block;
struct _Block
{
  Block *next;
  gsize size, used;
  alignas (max_align_t) char data[];
};

struct _FlArena
{
  Block *blocks;                /* the one in use comes first */
  gsize next_size;
};

FlArena *
fl_arena_new (void)
{
  FlArena *arena = g_new0 (FlArena, 1);

  arena->next_size = FIRST_BLOCK;
  return arena;
}

void
fl_arena_free (FlArena *arena)
{
  if (arena == NULL)
    return;
  while (arena->blocks != NULL)
    {
      Block *block = arena->blocks;

      arena->blocks = block->next;
      g_free (block);
    }
  g_free (arena);
}

static Block *
new_block (gsize size)
{
  Block *block;

  if (size > G_MAXSIZE - sizeof (Block))
    g_error ("an arena was asked for %" G_GSIZE_FORMAT " bytes", size);
  block = g_malloc0 (sizeof (Block) + size);
  block->size = size;
  return block;
}

/* A large request goes behind the block in use, which may still have room for small ones. */
static gpointer
alloc_apart (FlArena *arena, gsize size)
{
  Block *block = new_block (size);

  block->used = size;
  if (arena->blocks == NULL)
    arena->blocks = block;
  else
    {
      block->next = arena->blocks->next;
      arena->blocks->next = block;
    }
  return block->data;
}

gpointer
fl_arena_alloc (FlArena *arena, gsize size)
{
  Block *block;
  gpointer memory;

  g_return_val_if_fail (arena != NULL, NULL);
  if (size > G_MAXSIZE - ALIGNMENT)
    g_error ("an arena was asked for %" G_GSIZE_FORMAT " bytes", size);
  size = MAX (size + ALIGNMENT - 1, ALIGNMENT) & ~(ALIGNMENT - 1);
  block = arena->blocks;
  if (block == NULL || block->size - block->used < size)
    {
      if (size > arena->next_size / 2)
        return alloc_apart (arena, size);
      block = new_block (arena->next_size);
      block->next = arena->blocks;
      arena->blocks = block;
      arena->next_size = MIN (arena->next_size * 2, LAST_BLOCK);
    }
  memory = block->data + block->used;
  block->used += size;
  return memory;
}

gpointer
fl_arena_copy (FlArena *arena, gconstpointer data, gsize size)
{
  gpointer memory = fl_arena_alloc (arena, size);

  if (size > 0)
    memcpy (memory, data, size);
  return memory;
}

const char *
fl_arena_text (FlArena *arena, const char *text)
{
  return text == NULL ? NULL : fl_arena_copy (arena, text, strlen (text) + 1);
}

const char *
fl_arena_printf (FlArena *arena, const char *format, ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  return fl_arena_text (arena, text);
}

const char *const *
fl_arena_texts (FlArena *arena, const char *const *texts)
{
  const char **copy;
  gsize n;

  if (texts == NULL)
    return NULL;
  n = g_strv_length ((char **) texts);
  copy = fl_arena_new0 (arena, const char *, n + 1);
  for (gsize i = 0; i < n; i++)
    copy[i] = fl_arena_text (arena, texts[i]);
  return copy;
}
