/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Kinds of parts as words. */
#include "fl-part-words.h"

#include <string.h>

char *
fl_part_words (const FlWords *words, const char *part, gboolean pieces)
{
  static const char *const kinds[] = {
    N_("chain"), N_("binder"), N_("strap"), N_("anchor"), N_("point"), N_("connector"), N_("shackle"), N_("clevis link"), N_("soft loop"),
  };
  const char *mark = part != NULL && !pieces ? strstr (part, " #") : NULL;
  g_autofree char *plain = mark != NULL ? g_strndup (part, (gsize) (mark - part)) : g_strdup (part);

  if (part == NULL)
    return g_strdup (fl_words_text (words, N_("not known")));
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const gsize length = strlen (kinds[i]);

      if (g_str_has_prefix (plain, kinds[i]) && plain[length] == ' ')
        return g_strconcat (fl_words_text (words, kinds[i]), plain + length, NULL);
    }
  return g_steal_pointer (&plain);
}
