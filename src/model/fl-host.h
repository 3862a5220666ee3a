/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long work speaks to whoever waits for it. Called from the thread that works. */
#ifndef FL_HOST_H
#define FL_HOST_H

#include <gio/gio.h>
#include "fl-finding.h"

G_BEGIN_DECLS

typedef struct
{
  /* `fraction` 0..1; `message` and its facts as in a finding. May be NULL. */
  void (*progress) (gpointer self, double fraction, const char *message, const FlFact *facts, gsize n_facts);
  gpointer self;
  GCancellable *cancel;         /* may be NULL */
} FlHost;

G_END_DECLS
#endif
