/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window remembers from day to day. Kept by GSettings; where no schema is installed, in memory until the program ends. */
#ifndef FL_SETTINGS_H
#define FL_SETTINGS_H

#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct _FlSettings FlSettings;

/* The settings of this process, made on the first call. (transfer none) */
FlSettings *fl_settings_get (void);

/* A key of data/org.fairlead.Fairlead.gschema.xml. (transfer full) */
GVariant *fl_settings_value (FlSettings *settings, const char *key);
/* Takes a floating `value`. A value that the schema refuses is not kept. */
void fl_settings_keep (FlSettings *settings, const char *key, GVariant *value);

gint fl_settings_int (FlSettings *settings, const char *key);
gboolean fl_settings_flag (FlSettings *settings, const char *key);
/* Also of keys with named values: their name. (transfer full) */
char *fl_settings_text (FlSettings *settings, const char *key);

G_END_DECLS
#endif
