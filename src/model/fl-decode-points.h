/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to the model: the parts of a machine that a chain or a hand meets. */
#ifndef FL_DECODE_POINTS_H
#define FL_DECODE_POINTS_H

#include "fl-decode.h"

G_BEGIN_DECLS

const FlTiePoint *fl_decode_tie_points (FlReader *reader, gsize *n);
const FlLock *fl_decode_locks (FlReader *reader, gsize *n);
const FlImplement *fl_decode_implements (FlReader *reader, gsize *n);

/* What the implements of a machine name must be there: their points and their lock. An over-path may not be named like a point. Only what
 * the reader's object brings is looked at: a position may bring a part of it. */
void fl_decode_check_implements (FlReader *reader, const FlMachine *machine);

G_END_DECLS
#endif
