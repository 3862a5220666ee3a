/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Putting reasons and cures together in an arena. Private to planner. */
#ifndef FL_WORDS_OF_H
#define FL_WORDS_OF_H

#include "fl-planner.h"

G_BEGIN_DECLS

/* A message with copies of its facts. */
FlMessage fl_message_copy (FlArena *arena, const char *message, const FlFact *facts, gsize n);
/* What a finding says, as a message: its own facts and need, have, subject and basis. */
FlMessage fl_message_of_finding (FlArena *arena, const FlFinding *finding);

/* Growing lists that end up in a proposal's arena. */
typedef struct { GArray *items; } FlMessages;     /* of FlMessage */
void fl_messages_add (GArray *messages, FlMessage message);

/* Adds verified cures to `cures` (of FlCure, texts in the arena). `start` is the plan that could not be completed. */
void fl_cures_find (GArray *cures, FlArena *arena, const FlBook *book, const FlFleet *fleet, const FlPlan *start, const FlSearch *search,
                    const FlHost *host);

G_END_DECLS
#endif
