/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to card. The blocks of its pages, each made by one function; fl-card.c gives them their places. All blocks (transfer full). */
#ifndef FL_CARD_PRIVATE_H
#define FL_CARD_PRIVATE_H

#include "fl-sheet.h"

G_BEGIN_DECLS

/* How a card may be used. Only what stands and is signed is no draft. */
typedef enum { FL_CARD_SIGNED, FL_CARD_DRAFT, FL_CARD_DRAFT_HOUSE, FL_CARD_DRAFT_INCOMPLETE, FL_CARD_DRAFT_NOT_COMPLIANT } FlCardState;
FlCardState fl_card_state (const FlPen *pen);
/* "DRAFT - NOT COMPLIANT" ...: a message id. */
const char *fl_card_state_message (FlCardState state);

/* fl-card-head.c: top of a page; unit numbers and height; the trip; what stands against the plan. */
FlBlock *fl_card_masthead (const FlPen *pen, gboolean front);
FlBlock *fl_card_hero (const FlPen *pen);
FlBlock *fl_card_trip (const FlPen *pen);
/* The shortfalls from the first on that fit into `room`, in a box; *next is the first that did not fit. NULL: none left. */
FlBlock *fl_card_against (const FlPen *pen, gsize first, double room, gsize *next);

/* fl-card-gear.c: what to take along, what to do before the first chain. */
FlBlock *fl_card_gear (const FlPen *pen);
FlBlock *fl_card_before (const FlPen *pen);

/* fl-card-place.c: beside or under the drawing. */
FlBlock *fl_card_stand (const FlPen *pen, double width, gsize first, gsize n);   /* of n loads; the heading stands over the first */
FlBlock *fl_card_sizes (const FlPen *pen, double width);
FlBlock *fl_card_axles (const FlPen *pen, double width);
FlBlock *fl_card_axles_line (const FlPen *pen);

/* fl-card-table.c: the tie-downs in the order in which they are put on; the sums. */
FlBlock *fl_card_table_head (const FlPen *pen);
FlBlock *fl_card_table_row (const FlPen *pen, gsize index);
/* The sums of the loads from the first on, at most FL_SUMS_MOST; notes_elsewhere: tells how many cautions stand on another page. */
#define FL_SUMS_MOST 10
FlBlock *fl_card_sums (const FlPen *pen, gsize first, gboolean notes_elsewhere);

/* fl-card-notes.c: cautions found, permits, what was acknowledged and excepted, notes. Array of FlBlock, heading in the first; empty: none. */
GPtrArray *fl_card_notes (const FlPen *pen);

/* fl-card-back.c */
FlBlock *fl_card_walk_round (const FlPen *pen);
FlBlock *fl_card_rechecks (const FlPen *pen, guint lines);
FlBlock *fl_card_changes (const FlPen *pen, guint lines);
FlBlock *fl_card_signatures (const FlPen *pen);
FlBlock *fl_card_cautions (const FlPen *pen);

/* fl-card-pages.c: fills an empty array with the card's pages (FlMarks). */
void fl_card_lay_out (const FlPen *pen, GPtrArray *pages);
/* The assessment a card shows; borrowed. */
const FlAssessment *fl_card_assessment (const FlCard *card);
/* A gear record by the unit number of a piece ("C-3/8-20 #2"); *counted when it stands for several alike. NULL: not among the records. */
const FlRecord *fl_card_gear_record (const FlPen *pen, FlKind kind, const char *id, gboolean *counted);
/* "ratchet binder, 6,600 lb": what a binder or connector is. (transfer full) */
char *fl_card_binder_text (const FlPen *pen, const FlWords *words, const char *id);
/* "any 3/8 x 20 marked 70": what stands for a piece of several alike; NULL: it is no such piece, or not among the records. (transfer full) */
char *fl_card_any_text (const FlPen *pen, const FlWords *words, FlKind kind, const char *id);
char *fl_card_connector_text (const FlPen *pen, const FlWords *words, const char *id);
/* "R-03 + A-1": the unit numbers of all loads. (transfer full) */
char *fl_card_load_ids (const FlPen *pen);

G_END_DECLS
#endif
