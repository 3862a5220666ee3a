/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings with a memory to fall back on: a missing schema is no reason not to open the window. */
#include "fl-settings.h"

#include "fl-places.h"

#define SCHEMA "org.fairlead.Fairlead"

struct _FlSettings
{
  GSettings *kept;              /* NULL: no schema */
  GHashTable *memory;           /* key: GVariant, where nothing is kept */
};

/* The defaults of the schema, for when there is none. */
static const struct { const char *key, *value; } defaults[] = {
  { "window-size", "(1280, 800)" },
  { "window-maximized", "false" },
  { "moves-width", "380" },
  { "why-width", "350" },
  { "drawing-height", "430" },
  { "units", "'fleet'" },
  { "paper", "'letter'" },
  { "last-fleet", "''" },
};

static GHashTable *
memory_new (void)
{
  GHashTable *memory = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) g_variant_unref);

  for (gsize i = 0; i < G_N_ELEMENTS (defaults); i++)
    g_hash_table_insert (memory, (gpointer) defaults[i].key, g_variant_ref_sink (g_variant_new_parsed (defaults[i].value)));
  return memory;
}

/* Every key that is used must be there: an older schema installed elsewhere would end the program. */
static gboolean
has_all_keys (GSettingsSchema *schema)
{
  for (gsize i = 0; i < G_N_ELEMENTS (defaults); i++)
    if (!g_settings_schema_has_key (schema, defaults[i].key))
      return FALSE;
  return TRUE;
}

static GSettings *
open_kept (void)
{
  g_autoptr(GSettingsSchemaSource) source = NULL;
  g_autoptr(GSettingsSchema) schema = NULL;
  GSettingsSchemaSource *usual = g_settings_schema_source_get_default ();
  const char *folder = fl_places_settings_dir ();

  if (folder != NULL)
    source = g_settings_schema_source_new_from_directory (folder, usual, TRUE, NULL);
  if (source == NULL && usual != NULL)
    source = g_settings_schema_source_ref (usual);
  if (source != NULL)
    schema = g_settings_schema_source_lookup (source, SCHEMA, TRUE);
  if (schema == NULL || !has_all_keys (schema))
    return NULL;
  return g_settings_new_full (schema, NULL, NULL);
}

FlSettings *
fl_settings_get (void)
{
  static FlSettings settings;

  if (settings.memory == NULL)
    {
      settings.memory = memory_new ();
      settings.kept = open_kept ();
    }
  return &settings;
}

GVariant *
fl_settings_value (FlSettings *settings, const char *key)
{
  if (settings->kept != NULL)
    return g_settings_get_value (settings->kept, key);
  return g_variant_ref (g_hash_table_lookup (settings->memory, key));
}

void
fl_settings_keep (FlSettings *settings, const char *key, GVariant *value)
{
  g_autoptr(GVariant) owned = g_variant_ref_sink (value);
  g_autoptr(GVariant) before = fl_settings_value (settings, key);

  if (g_variant_equal (before, owned))
    return;
  if (settings->kept == NULL)
    {
      g_hash_table_replace (settings->memory, (gpointer) g_intern_string (key), g_steal_pointer (&owned));
      return;
    }
  {
    g_autoptr(GSettingsSchema) schema = NULL;
    g_autoptr(GSettingsSchemaKey) described = NULL;

    g_object_get (settings->kept, "settings-schema", &schema, NULL);
    described = g_settings_schema_get_key (schema, key);
    if (g_settings_schema_key_range_check (described, owned))
      g_settings_set_value (settings->kept, key, owned);
  }
}

gint
fl_settings_int (FlSettings *settings, const char *key)
{
  g_autoptr(GVariant) value = fl_settings_value (settings, key);

  return g_variant_get_int32 (value);
}

gboolean
fl_settings_flag (FlSettings *settings, const char *key)
{
  g_autoptr(GVariant) value = fl_settings_value (settings, key);

  return g_variant_get_boolean (value);
}

char *
fl_settings_text (FlSettings *settings, const char *key)
{
  g_autoptr(GVariant) value = fl_settings_value (settings, key);

  return g_variant_dup_string (value, NULL);
}
