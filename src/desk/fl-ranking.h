/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The trailers for a move, compared off the main loop. */
#ifndef FL_RANKING_H
#define FL_RANKING_H

#include "fl-office.h"

G_BEGIN_DECLS

/* Plans the move on every trailer (fl_rank_trailers), against the gear that the office's other plans hold at that time. `progress` is called on the
 * main loop; `done` always, once. */
void fl_ranking_async (FlOffice *office, const char *move, GCancellable *cancel, FlOfficeProgress progress, gpointer progress_self,
                       GAsyncReadyCallback done, gpointer data);
/* Best first, without the trailers that another plan holds at that time. NULL with an error. (transfer full) array of FlProposal */
GPtrArray *fl_ranking_finish (GAsyncResult *result, GError **error);

G_END_DECLS
#endif
