/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to card. Short phrases that drawing and pages share. `words` NULL: English. All results (transfer full). */
#ifndef FL_CARD_SAY_H
#define FL_CARD_SAY_H

#include "fl-assessment.h"
#include "fl-words.h"

G_BEGIN_DECLS

/* A length as a tape shows it: whole inches, feet from one foot on ("10 in", "3 ft 4 in"); metric whole centimetres ("3.94 m"). NaN: "?". */
char *fl_say_length (double metres, gboolean metric, FlRounding rounding);
/* The same of a quantity; unknown: "not measured". */
char *fl_say_size (const FlWords *words, FlQuantity size, gboolean metric, FlRounding rounding);
/* A weight, rounded up; unknown: "not known". */
char *fl_say_weight (const FlWords *words, FlQuantity weight, gboolean metric, FlRounding rounding);
/* A weight or rating without its unit, for columns that name it; unknown: "?". */
char *fl_say_bare (FlQuantity weight, gboolean metric, FlRounding rounding);

/* Where an anchor is, as one counts along the trailer: "pocket 11 from the rear, right". All anchors of its kind on its side count, whatever
 * their row is called, since that is what can be counted at the trailer. An anchor the trailer does not have: its id. */
char *fl_say_anchor (const FlWords *words, const FlTrailer *trailer, const char *id);
/* Where on the trailer a machine's point stands: "truck end, right", by thirds of its load; "" where it has no place. */
char *fl_say_where (const FlWords *words, const FlLoadResult *load, const char *point);
/* The name of a machine's point; its fitting and id where nobody named it. */
char *fl_say_point (const FlWords *words, const FlMachine *machine, const char *id);

/* A message with one or two named texts filled in; key2 may be NULL. Its name in the linked program is fl_card_say: rules has an fl_card_say too. */
char *fl_card_say (const FlWords *words, const char *message, const char *key, const char *text, const char *key2, const char *text2);

/* The machine or article of a load, in the position chosen for it; NULL if it is not among the records. */
const FlMachine *fl_load_machine (const FlAssessment *assessment, guint load);

G_END_DECLS
#endif
