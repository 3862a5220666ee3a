/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to card: what the pages take from the card's font. */
#ifndef FL_CARD_FONT_H
#define FL_CARD_FONT_H

#include "fl-card.h"

G_BEGIN_DECLS

/* A context in which one unit is one point, without hinting: the same widths on every surface. (transfer full) */
PangoContext *fl_card_font_context (const FlCardFont *font);

G_END_DECLS
#endif
