/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading plans made elsewhere and judging them against a fleet: what check and card both do. */
#ifndef FL_CLI_JUDGE_H
#define FL_CLI_JUDGE_H

#include "fl-cli-say.h"

G_BEGIN_DECLS

typedef struct
{
  FlOffice *office;
  GPtrArray *assessments;       /* of FlAssessment, in the order of the file */
  GPtrArray *clashes;           /* of char*: what two plans of the file hold at one time */
  gboolean is_list;             /* the file is {"plans": [...]} */
} FlCliJudged;

/* Opens the fleet words[0], reads the plans words[1], judges them all. FALSE after a line for each problem. */
gboolean fl_cli_judge (const FlCliArgs *args, FlCliJudged *judged);
void fl_cli_judged_clear (FlCliJudged *judged);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FlCliJudged, fl_cli_judged_clear)

/* FL_CLI_GOOD where every plan stands and none holds what another holds; else FL_CLI_AGAINST. */
int fl_cli_judged_status (const FlCliJudged *judged);

G_END_DECLS
#endif
