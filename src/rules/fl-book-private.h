/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-book-private.h: the inside of a rule book, for the files that make one: reading, tables, house rules. */
#ifndef FL_BOOK_PRIVATE_H
#define FL_BOOK_PRIVATE_H

#include "fl-book.h"
#include "fl-reader.h"

G_BEGIN_DECLS

struct _FlBook
{
  gatomicrefcount refs;
  FlArena *arena;               /* owns the texts and tables; of a tightened book only the policy */
  FlBookData data;
  FlPolicy policy;
  FlBook *base;                 /* the book that a tightened one stands on; NULL for one read from a file */
};

/* An empty book with its arena. (transfer full) */
FlBook *fl_book_alloc (void);

/* ── reading a book, block by block ── */

typedef struct
{
  FlReader *root;
  FlArena *arena;
  FlBookData *data;
  GArray *blocks;               /* FlBookBlock, in the order in which they were read */
} FlBookLoad;

/* The block `key` of `parent`, its source kept under the block's path; NULL (and a problem) if it is missing. */
FlReader *fl_book_load_block (FlBookLoad *load, FlReader *parent, const char *key);
/* Source of an item; what it does not say itself is `inherited`'s (NULL: it must say all). A source "ours" must say why. */
FlSource fl_book_load_source (FlReader *reader, const FlSource *inherited);
/* A required number in [min, max]; NaN after a problem. */
double fl_book_load_number (FlReader *reader, const char *key, double min, double max);
/* A required number over 0; NaN after a problem. */
double fl_book_load_positive (FlReader *reader, const char *key);
/* A required quantity over 0, in `unit`; NaN after a problem. */
double fl_book_load_quantity (FlReader *reader, const char *key, FlUnit unit);
/* A required text that is not empty; "" after a problem, so that what follows can compare it. */
const char *fl_book_load_text (FlReader *reader, const char *key);
/* A required list of different texts, NULL-terminated; an empty list after a problem. */
const char *const *fl_book_load_texts (FlReader *reader, const char *key);
/* A required list that is not empty; 0 after a problem. */
gsize fl_book_load_list (FlReader *reader, const char *key);

/* The tables: chain, webbing and its damage, breaking factors, friction, load cases (fl-book-tables.c). */
void fl_book_load_tables (FlBookLoad *load);
/* Force answers and certainty: states, stiffness, margins, tolerances (fl-book-force.c). */
void fl_book_load_force (FlBookLoad *load);
/* Axle groups, loads that stand out, the steering axle (fl-book-legal.c). */
void fl_book_load_legal (FlBookLoad *load);

/* What the house's stand-in ratings must not exceed: the weakest fitting of the kind that the fleet has a rating of (fl-book-house.c). */
void fl_book_survey_house (const FlBook *book, const FlFleet *fleet, FlProblems *problems);

G_END_DECLS
#endif
