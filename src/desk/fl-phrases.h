/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short phrases that several views share. All results (transfer full) unless said otherwise. */
#ifndef FL_PHRASES_H
#define FL_PHRASES_H

#include "fl-outcome.h"

G_BEGIN_DECLS

/* "Wed, November 25, 2026" as the language writes it; the text itself where it is no date. */
char *fl_phrase_day (const char *date);

/* "EX-33", "RL-06 + SL-03". */
char *fl_phrase_load_ids (const FlMove *move);
/* "Crawler excavator, 5/8 yd ditching": the names of what rides, as recorded. */
char *fl_phrase_load_names (const FlFleet *fleet, const FlMove *move);
/* "on T-07, truck K-4, Driver Heron": the plan's trailer and truck, else the move's; what is open is said to be open. */
char *fl_phrase_rig (const FlFleet *fleet, const FlMove *move, const FlPlan *plan);
/* "to Sedge Slough outlet, back 09:15, 31 mi". */
char *fl_phrase_journey (const FlMove *move, gboolean metric);
/* What a move does not say yet: "Trailer and truck to be chosen"; NULL where nothing is open. */
char *fl_phrase_open (const FlMove *move);

/* "16,750 lb"; rounded as asked. */
char *fl_phrase_weight (FlQuantity weight, gboolean metric, FlRounding rounding);
/* "12 ft 11 in"; 3 940 mm. */
char *fl_phrase_length (FlQuantity length, gboolean metric, FlRounding rounding);

/* "4 ft 0 in": a length of at least zero as a tape shows it, feet from one foot on. */
char *fl_phrase_tape (FlQuantity length, gboolean metric, FlRounding rounding);

/* "front frame eye, left": the name of a point; its id where nobody named it. */
char *fl_phrase_point (const FlAssessment *assessment, guint load, const char *point);
/* "front frame eye, left" or "over the rear frame": where a tie-down begins. */
char *fl_phrase_from (const FlAssessment *assessment, const FlTieDown *tie);
/* "P7L" or "P7L and P7R". */
char *fl_phrase_to (const FlTieDown *tie);
/* One sentence a screen reader reads for a tie-down. */
char *fl_phrase_tie (const FlAssessment *assessment, gsize index, gboolean metric);

/* A finding's or a message's sentence, begun with a capital. */
char *fl_phrase_finding (const FlWords *words, const FlFinding *finding, gboolean metric);
char *fl_phrase_message (const FlWords *words, const FlMessage *message, gboolean metric);

/* "own reasoning" where the book cites nothing but itself; else the citation. (transfer none) */
const char *fl_phrase_citation (const FlFinding *finding);
/* "need 16,750 lb, have 18,400 lb"; NULL where nothing is asked in numbers. */
char *fl_phrase_need_have (const FlFinding *finding, gboolean metric);

/* "1 tie-down", "5 tie-downs". */
char *fl_phrase_tie_count (gsize n);

G_END_DECLS
#endif
