/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes JSON text: members in the order in which they are given, one space of indentation a level, the shortest number
 * that reads back. json-glib's generator prints every double with 17 digits, which would turn 44.3 into
 * 44.299999999999997; hence our own.
 *
 * Every call takes `key`: the member's name inside an object, NULL inside a list and for the root. A key of the wrong
 * kind, a second root or an end without its begin is a slip of the program and aborts (RFC 8259 has no such text). */
#ifndef FL_JSON_WRITE_H
#define FL_JSON_WRITE_H

#include "fl-quantity.h"

G_BEGIN_DECLS

typedef struct _FlJsonWriter FlJsonWriter;

/* An empty writer. (transfer full) */
FlJsonWriter *fl_json_writer_new (void);
void fl_json_writer_free (FlJsonWriter *writer);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlJsonWriter, fl_json_writer_free)

void fl_json_writer_begin_object (FlJsonWriter *writer, const char *key);
void fl_json_writer_end_object (FlJsonWriter *writer);
void fl_json_writer_begin_list (FlJsonWriter *writer, const char *key);
void fl_json_writer_end_list (FlJsonWriter *writer);

/* A text, in UTF-8; NULL writes null. Only what RFC 8259 demands is escaped. */
void fl_json_writer_text (FlJsonWriter *writer, const char *key, const char *text);
/* A number by fl_number_text; NaN and infinity, which JSON does not have, write null. */
void fl_json_writer_number (FlJsonWriter *writer, const char *key, double value);
void fl_json_writer_bool (FlJsonWriter *writer, const char *key, gboolean value);
void fl_json_writer_null (FlJsonWriter *writer, const char *key);

/* key + "_" + the suffix of its unit ("rear_in"), as it is, not rounded; key alone where the unit has none. Nothing is
 * written where it is not measured or none: absent means just that. */
void fl_json_writer_quantity (FlJsonWriter *writer, const char *key, FlQuantity quantity);

/* A text where there is one: nothing is written for NULL. */
void fl_json_writer_optional (FlJsonWriter *writer, const char *key, const char *text);
/* TRUE where it is so: nothing is written for FALSE, which is what an absent one means. */
void fl_json_writer_flag (FlJsonWriter *writer, const char *key, gboolean value);
/* A list of texts (NULL-terminated); nothing is written for NULL. */
void fl_json_writer_texts (FlJsonWriter *writer, const char *key, const char *const *texts);

/* A value that is JSON text already, byte for byte. */
void fl_json_writer_raw (FlJsonWriter *writer, const char *key, const char *json, gsize length);

/* The whole text with a line end after it; the writer is empty again. Every object and list must have been ended.
 * (transfer full) */
GBytes *fl_json_writer_end (FlJsonWriter *writer);

G_END_DECLS
#endif
