/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to the window: its state, and what its files call of one another. */
#ifndef FL_WINDOW_PRIVATE_H
#define FL_WINDOW_PRIVATE_H

#include "fl-deck-view.h"
#include "fl-forces-view.h"
#include "fl-moves-view.h"
#include "fl-planning.h"
#include "fl-ties-view.h"
#include "fl-why-view.h"
#include "fl-window.h"

G_BEGIN_DECLS

/* What waits for the answer to "save the plans first?". */
typedef enum { FL_AFTER_NOTHING, FL_AFTER_OPEN, FL_AFTER_CLOSE } FlAfter;

struct _FlWindow
{
  GtkApplicationWindow parent_instance;
  FlDesk *desk;
  FlPlanning *planning;
  GtkStack *stack;
  FlMovesView *moves;
  FlDeckView *deck;
  FlTiesView *ties;
  FlForcesView *forces, *tensions;
  GtkWidget *tables;            /* what holds the three */
  GtkStack *table_stack;
  FlWhyView *why;
  GtkPaned *moves_pane, *why_pane, *deck_pane;
  gulong first_allocation;      /* handler on why_pane */
  GtkInfoBar *news, *clashes;
  GtkLabel *news_label, *clashes_label, *busy_label;
  GtkButton *news_button;
  GtkWidget *busy, *welcome_open;
  GtkProgressBar *busy_bar;
  GtkNativeDialog *chooser;     /* a file is being chosen; NULL else */
  GtkWidget *dialog;            /* any other dialog that is open; NULL else */
  GtkPageSetup *page_setup;
  char *news_move;              /* what the button of the news shows */
  FlAfter after;
  char *after_path;             /* of FL_AFTER_OPEN */
};

/* ── fl-window.c ── */

/* Tells something in the bar below the toolbar; `move` (may be NULL) gives it a button that shows that move. */
void fl_window_tell (FlWindow *window, GtkMessageType type, const char *text, const char *move);
/* Opens without asking. */
void fl_window_open_now (FlWindow *window, const char *path);
/* Goes on with what waited for the plans to be saved. */
void fl_window_go_on (FlWindow *window);
/* Asks whether to save the plans first, where they are not; else goes on at once. `path` belongs to FL_AFTER_OPEN. */
void fl_window_ask_before (FlWindow *window, FlAfter after, const char *path);
/* Shows one of the tables below the drawing by its name ("ties", "forces", "tensions") and puts the keyboard on it. */
void fl_window_show_table (FlWindow *window, const char *name);
/* Puts the keyboard on the pane `step` further on. */
void fl_window_step_pane (FlWindow *window, gint step);
/* Today, as moves write their dates. (transfer full) */
char *fl_window_today (void);

/* ── fl-window-actions.c: the one table of actions ── */
void fl_window_add_actions (FlWindow *window);
/* The one function that says what can be done now. */
void fl_window_update_actions (FlWindow *window);

/* ── fl-window-files.c ── */
void fl_window_choose_fleet (FlWindow *window);
void fl_window_choose_plans (FlWindow *window);
void fl_window_save_plans (FlWindow *window);
void fl_window_export_card (FlWindow *window);
void fl_window_export_day (FlWindow *window);

/* ── fl-window-print.c ── */
void fl_window_print_card (FlWindow *window);
void fl_window_print_day (FlWindow *window);
void fl_window_page_setup (FlWindow *window);
/* The paper for exported cards. */
FlPaper fl_window_paper (FlWindow *window);

/* The cards of the day's moves that have a plan, in their order; NULL with an error. (transfer full) array of FlCard */
GPtrArray *fl_window_cards_of_day (FlWindow *window, FlPaper paper, GError **error);
/* The card of the selected move; NULL with an error. (transfer full) array of FlCard, of one */
GPtrArray *fl_window_card_of_move (FlWindow *window, FlPaper paper, GError **error);

G_END_DECLS
#endif
