/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to model: the words for a range in messages. */
#ifndef FL_RANGE_H
#define FL_RANGE_H

#include <glib.h>

G_BEGIN_DECLS

/* "a number between 1 and 5 lb", "a number of at least 1 lb", "a number". NaN: no bound; `unit` may be "". Bounds are told to 6 digits.
 * (transfer full) */
char *fl_range_text (double min, double max, const char *unit);

G_END_DECLS
#endif
