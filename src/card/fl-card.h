/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The securement card: one sheet, two sides, for the cab. Same input, same bytes: own font, fixed resolution, no clock. */
#ifndef FL_CARD_H
#define FL_CARD_H

#include "fl-deck-drawing.h"

G_BEGIN_DECLS

typedef struct _FlCard FlCard;
typedef enum { FL_PAPER_LETTER, FL_PAPER_A4 } FlPaper;

#define FL_CARD_ERROR (fl_card_error_quark ())
typedef enum { FL_CARD_ERROR_FONT, FL_CARD_ERROR_WRITE } FlCardError;
GQuark fl_card_error_quark (void);

/* The font of the card, loaded from a folder with the project's font files; its own map, whatever the system has. */
typedef struct _FlCardFont FlCardFont;
FlCardFont *fl_card_font_load (const char *folder, GError **error);       /* (transfer full) */
FlCardFont *fl_card_font_ref (FlCardFont *font);
void fl_card_font_unref (FlCardFont *font);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlCardFont, fl_card_font_unref)

typedef struct
{
  FlPaper paper;
  const FlWords *words, *second;   /* NULL words: English; NULL second: one language */
  const FlSignature *signature;    /* NULL: DRAFT across the page */
} FlCardOptions;

/* A card; keeps a reference to the assessment and the font. (transfer full) */
FlCard *fl_card_new (const FlAssessment *assessment, FlCardFont *font, const FlCardOptions *options);
FlCard *fl_card_ref (FlCard *card);
void fl_card_unref (FlCard *card);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlCard, fl_card_unref)

guint fl_card_pages (const FlCard *card);                                 /* 2, more where the tie-downs do not fit */
void fl_card_page_size (const FlCard *card, double *width, double *height);   /* points */
void fl_card_draw_page (const FlCard *card, guint page, cairo_t *cr);     /* 0-based; the context's unit is the point */

/* Writes cards into one PDF, whole or not at all (a temporary file beside it is renamed). FALSE and what went wrong, with the path. */
gboolean fl_cards_write_pdf (FlCard *const *cards, gsize n, const char *path, GError **error);

G_END_DECLS
#endif
