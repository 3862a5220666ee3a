/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to the model: from one JSON object to a typed view, everything checked. One file a subject; the small steps that all
 * share are here. A decoder never stops at the first problem and always gives a view, which may be used to look for further
 * problems but counts for nothing once there is an error. */
#ifndef FL_DECODE_H
#define FL_DECODE_H

#include "fl-reader.h"
#include "fl-records.h"

G_BEGIN_DECLS

/* What a figure is, and so between which bounds it can be true at all: the table stands in fl-bounds.c. */
typedef enum
{
  FL_BOUND_MACHINE_WEIGHT, FL_BOUND_MACHINE_LENGTH, FL_BOUND_MACHINE_WIDTH, FL_BOUND_MACHINE_HEIGHT,
  FL_BOUND_ARTICLE_WEIGHT, FL_BOUND_ARTICLE_LENGTH, FL_BOUND_ARTICLE_WIDTH, FL_BOUND_ARTICLE_HEIGHT,
  FL_BOUND_DECK_LENGTH, FL_BOUND_DECK_WIDTH, FL_BOUND_DECK_HEIGHT,
  FL_BOUND_X, FL_BOUND_Y, FL_BOUND_Z, FL_BOUND_PATCH, FL_BOUND_EXTENT, FL_BOUND_CLEAR_WIDTH, FL_BOUND_SPAN,
  FL_BOUND_ROW_Y, FL_BOUND_ROW_SPACING,
  FL_BOUND_TARE, FL_BOUND_PART_TARE, FL_BOUND_AXLE_RATED, FL_BOUND_GROSS, FL_BOUND_TRAILED,
  FL_BOUND_VERTICAL, FL_BOUND_CAPACITY, FL_BOUND_BLOCK,
  FL_BOUND_WLL, FL_BOUND_OPENING, FL_BOUND_BAR, FL_BOUND_RUN, FL_BOUND_TAKE_UP, FL_BOUND_DAMAGE,
  FL_BOUND_CHAIN_LENGTH, FL_BOUND_STRAP_WIDTH, FL_BOUND_STRAP_LENGTH,
  FL_BOUND_HEIGHT_LIMIT, FL_BOUND_MARGIN, FL_BOUND_OVER_WIDTH, FL_BOUND_HOUSE_WLL,
  FL_BOUND_SLOPE, FL_BOUND_RAMP,
  FL_N_BOUNDS
} FlBoundId;

typedef struct
{
  FlDimension dimension;
  double min, max;              /* lb, in or deg */
  gboolean none_ok;             /* null, "looked at, there is none", makes sense */
} FlBound;
const FlBound *fl_bound (FlBoundId id);

/* The nominal sizes of chain that can be true at all, in inches. */
#define FL_MIN_CHAIN_SIZE 0.125
#define FL_MAX_CHAIN_SIZE 2.0

/* ── steps ── */

/* An id: a text of 1 to 60 characters without '#', control characters or outer blanks. NULL after a problem. */
const char *fl_decode_id (FlReader *reader);
/* A quantity within its bounds. */
FlQuantity fl_decode_quantity (FlReader *reader, const char *key, FlBoundId bound, gboolean required);
/* The same, but *quantity stays what it was where the document says nothing. */
void fl_decode_take (FlReader *reader, const char *key, FlBoundId bound, gboolean required, FlQuantity *quantity);
/* {x, y, z}; `required` holds for each of the three. NULL reader: unknown. */
FlPlace fl_decode_place (FlReader *reader, gboolean required);
/* One of `values`, as the static text of that list; NULL if absent or bad. */
const char *fl_decode_word (FlReader *reader, const char *key, const char *const *values, gboolean required);
/* true, false or null (there is none); absent: not looked. */
FlSeen fl_decode_seen (FlReader *reader, const char *key);
/* A list of two rising numbers within [min, max]; FALSE and NaN where absent or bad. */
gboolean fl_decode_band (FlReader *reader, const char *key, double min, double max, double *lo, double *hi);
/* `basis` {key: text}. */
FlBases fl_decode_bases (FlReader *reader);
/* A real calendar date "2026-11-25". NULL after a problem. */
const char *fl_decode_date (FlReader *reader, const char *key, gboolean required);
/* A nominal size: key "_in" a text ("3/8"), or key "_mm" a number. FALSE if there is none. */
gboolean fl_decode_size (FlReader *reader, const char *key, gboolean required, const char **text, double *inches, gboolean *metric);
/* A nominal size in a text: "3/8", "10 mm". FALSE if it is none that a chain can have. */
gboolean fl_decode_size_text (const char *text, double *inches);
/* Boxes in the machine's or trailer's frame. */
const FlSolid *fl_decode_solids (FlReader *reader, const char *key, gsize *n);
/* Axles and coupling of a truck (`trailer` FALSE) or trailer. */
const FlAxle *fl_decode_axles (FlReader *reader, gsize *n);
FlCoupling fl_decode_coupling (FlReader *reader, gboolean trailer);

/* Says of `id` of item `index` of a list, read by `item`, that an item before has it; the set belongs to the caller (g_str_hash). */
void fl_decode_unique (FlReader *item, GHashTable *seen, const char *id, const char *what);

/* Surfaces of a deck and kinds of running gear, in the order of FlRunningGear from 1 on; NULL-terminated. */
extern const char *const FL_SURFACES[];
extern const char *const FL_RUNNING_GEARS[];

/* ── records ── */

/* The view of a record of this kind in the reader's arena; FL_KIND_PLAN is not among them. */
gconstpointer fl_decode_record (FlKind kind, FlReader *reader);

gconstpointer fl_decode_yard (FlReader *reader);
gconstpointer fl_decode_person (FlReader *reader);
gconstpointer fl_decode_truck (FlReader *reader);
gconstpointer fl_decode_machine (FlReader *reader);
gconstpointer fl_decode_article (FlReader *reader);
gconstpointer fl_decode_trailer (FlReader *reader);
gconstpointer fl_decode_chain (FlReader *reader);
gconstpointer fl_decode_binder (FlReader *reader);
gconstpointer fl_decode_strap (FlReader *reader);
gconstpointer fl_decode_connector (FlReader *reader);
gconstpointer fl_decode_move (FlReader *reader);
gconstpointer fl_decode_policy (FlReader *reader);

G_END_DECLS
#endif
