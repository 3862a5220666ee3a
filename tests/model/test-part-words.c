/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names of parts in English; in another language the test of the card reads them. */
#include "fl-part-words.h"

static void
assert_said (const char *part, gboolean pieces, const char *expected)
{
  g_autofree char *said = fl_part_words (NULL, part, pieces);

  g_assert_cmpstr (said, ==, expected);
}

static void
test_english (void)
{
  assert_said ("chain C-041", TRUE, "chain C-041");
  assert_said ("clevis link CL-38 #2", TRUE, "clevis link CL-38 #2");
  assert_said ("clevis link CL-38 #2", FALSE, "clevis link CL-38");
  assert_said ("chain", TRUE, "chain");
  assert_said ("chainsaw C-1", TRUE, "chainsaw C-1");
  assert_said ("", FALSE, "");
  assert_said (NULL, TRUE, "not known");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/part-words/english", test_english);
  return g_test_run ();
}
