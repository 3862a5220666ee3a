/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The console program. It sets no locale: what it says is English and its numbers are the same everywhere. */
#include "fl-cli.h"

int
main (int argc, char **argv)
{
  return fl_cli_run (argc, argv);
}
