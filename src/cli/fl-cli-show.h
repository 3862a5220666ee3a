/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged plan, and a move without one, as text for people. */
#ifndef FL_CLI_SHOW_H
#define FL_CLI_SHOW_H

#include "fl-cli-say.h"

G_BEGIN_DECLS

/* One line: "2026-11-25/07: LD-26 on T-04 behind K-2: compliant, 5 tie-downs". */
void fl_cli_show_line (const FlAssessment *assessment, GString *out);
/* All of it: the verdict; what is short or unknown first, with need, have and citation; cautions; the sums; the tie-downs; the forces; then
 * notes and what is met. Beneath each finding stands how its figures come about. `brief`: without that, the forces, notes and what is met. */
void fl_cli_show_assessment (const FlAssessment *assessment, gboolean brief, GString *out);
/* The force table and the tensions of load sharing, with what they are worth. Nothing where there are no force answers. */
void fl_cli_show_forces (const FlAssessment *assessment, GString *out);
/* What stands against it and nothing else, each with need, have and citation. */
void fl_cli_show_against (const FlAssessment *assessment, GString *out);
/* Why a move has no plan, and what would cure it. */
void fl_cli_show_none (const FlProposal *proposal, gboolean metric, GString *out);

G_END_DECLS
#endif
