/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bump allocator for things that live and die together: a record's typed view, a plan, an assessment. */
#ifndef FL_ARENA_H
#define FL_ARENA_H

#include <glib.h>

G_BEGIN_DECLS

typedef struct _FlArena FlArena;

/* A new, empty arena. One thread at a time may allocate from it; any may read what it holds. (transfer full) */
FlArena *fl_arena_new (void);
void fl_arena_free (FlArena *arena);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlArena, fl_arena_free)

/* Zeroed memory, aligned for any type, freed with the arena. size 0 gives a valid pointer. */
gpointer fl_arena_alloc (FlArena *arena, gsize size);
#define fl_arena_new0(arena, Type, n) ((Type *) fl_arena_alloc ((arena), sizeof (Type) * (n)))

/* A copy of n elements of `size` bytes. */
gpointer fl_arena_copy (FlArena *arena, gconstpointer data, gsize size);

/* A copy of a text; NULL stays NULL. */
const char *fl_arena_text (FlArena *arena, const char *text);
const char *fl_arena_printf (FlArena *arena, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* A copy of a NULL-terminated list of texts; NULL stays NULL. */
const char *const *fl_arena_texts (FlArena *arena, const char *const *texts);

G_END_DECLS
#endif
