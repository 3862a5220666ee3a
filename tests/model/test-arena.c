/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arena: zeroed, aligned, apart from each other, and copies that stay when the original goes. */
#include <stdalign.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "fl-arena.h"

static void
test_empty (void)
{
  g_autoptr(FlArena) arena = fl_arena_new ();

  g_assert_nonnull (arena);
  fl_arena_free (NULL);
}

static void
test_size_zero (void)
{
  g_autoptr(FlArena) arena = fl_arena_new ();

  g_assert_nonnull (fl_arena_alloc (arena, 0));
  g_assert_nonnull (fl_arena_copy (arena, NULL, 0));
  g_assert_nonnull (fl_arena_new0 (arena, double, 0));
}

static void
test_zeroed_and_aligned (void)
{
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autoptr(GRand) chance = g_rand_new_with_seed (1);

  for (guint i = 0; i < 5000; i++)
    {
      gsize size = (gsize) g_rand_int_range (chance, 1, i % 100 == 0 ? 200000 : 300);
      guint8 *memory = fl_arena_alloc (arena, size);

      g_assert_cmpuint ((uintptr_t) memory % alignof (max_align_t), ==, 0);
      for (gsize k = 0; k < size; k++)
        g_assert_cmpuint (memory[k], ==, 0);
      memset (memory, 0xA5, size);      /* a neighbour that overlaps would not be zeroed */
    }
}

/* Every piece keeps its own pattern while others are written. */
static void
test_apart (void)
{
  enum { N = 3000 };
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autoptr(GRand) chance = g_rand_new_with_seed (2);
  guint8 *pieces[N];
  gsize sizes[N];

  for (guint i = 0; i < N; i++)
    {
      sizes[i] = (gsize) g_rand_int_range (chance, 1, i % 50 == 0 ? 100000 : 500);
      pieces[i] = fl_arena_alloc (arena, sizes[i]);
      memset (pieces[i], (int) (i % 251), sizes[i]);
    }
  for (guint i = 0; i < N; i++)
    {
      g_assert_cmpuint (pieces[i][0], ==, i % 251);
      g_assert_cmpuint (pieces[i][sizes[i] / 2], ==, i % 251);
      g_assert_cmpuint (pieces[i][sizes[i] - 1], ==, i % 251);
    }
}

static void
test_copies (void)
{
  g_autoptr(FlArena) arena = fl_arena_new ();
  double numbers[] = { 1.5, -2.25, 1e300 };
  char text[] = "stake pocket";
  const double *copy = fl_arena_copy (arena, numbers, sizeof numbers);
  const char *text_copy = fl_arena_text (arena, text);

  numbers[1] = 0;
  text[0] = 'X';
  g_assert_cmpfloat (copy[0], ==, 1.5);
  g_assert_cmpfloat (copy[1], ==, -2.25);
  g_assert_cmpfloat (copy[2], ==, 1e300);
  g_assert_cmpstr (text_copy, ==, "stake pocket");
  g_assert_null (fl_arena_text (arena, NULL));
  g_assert_cmpstr (fl_arena_text (arena, ""), ==, "");
}

static void
test_printf (void)
{
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autofree char *big = g_strnfill (100000, 'x');
  const char *long_text = fl_arena_printf (arena, "%s-%d", big, 7);

  g_assert_cmpstr (fl_arena_printf (arena, "P%d%c", 3, 'L'), ==, "P3L");
  g_assert_cmpuint (strlen (long_text), ==, 100002);
  g_assert_true (g_str_has_suffix (long_text, "x-7"));
}

static void
test_texts (void)
{
  g_autoptr(FlArena) arena = fl_arena_new ();
  char first[] = "P1L";
  const char *texts[] = { first, "P1R", NULL }, *none[] = { NULL };
  const char *const *copy = fl_arena_texts (arena, texts);

  first[0] = 'Q';
  g_assert_cmpstr (copy[0], ==, "P1L");
  g_assert_cmpstr (copy[1], ==, "P1R");
  g_assert_null (copy[2]);
  g_assert_null (fl_arena_texts (arena, NULL));
  g_assert_null (fl_arena_texts (arena, none)[0]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/arena/empty", test_empty);
  g_test_add_func ("/arena/size-zero", test_size_zero);
  g_test_add_func ("/arena/zeroed-and-aligned", test_zeroed_and_aligned);
  g_test_add_func ("/arena/apart", test_apart);
  g_test_add_func ("/arena/copies", test_copies);
  g_test_add_func ("/arena/printf", test_printf);
  g_test_add_func ("/arena/texts", test_texts);
  return g_test_run ();
}
