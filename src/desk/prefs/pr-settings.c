/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-settings.h"

#include <langinfo.h>

#define SCHEMA "org.pritchel.Pritchel"

/* Every key, with what stands until something is chosen; the schema says the same. */
static const struct {
  const char *key, *normal;
} keys[] = {
  { "sides", "'language'" },       { "unit", "'locale'" },       { "look", "'desktop'" },
  { "larger-text", "false" },      { "layers", "''" },           { "screen-px-per-mm", "0.0" },
  { "sheet-paper", "''" },         { "window-width", "1440" },   { "window-height", "800" },
  { "window-maximized", "false" }, { "book-shown", "true" },     { "side-shown", "true" },
  { "book-file", "''" },           { "cautions-seen", "false" }, { "usual-loss", "0.03" },
  { "usual-weld", "10.0" },        { "print-pages", "31" },
};

/* One of the two holds what is set. */
static GSettings *settings;
static GHashTable *in_memory;

static GVariant *
normal (size_t i)
{
  return g_variant_ref_sink (g_variant_new_parsed (keys[i].normal));
}

/* --- finding the schema --- */

static bool
is_whole (GSettingsSchema *schema)
{
  for (size_t i = 0; i < G_N_ELEMENTS (keys); i++) {
    g_autoptr (GVariant) ours = normal (i);
    g_autoptr (GSettingsSchemaKey) key = g_settings_schema_has_key (schema, keys[i].key)
                                             ? g_settings_schema_get_key (schema, keys[i].key)
                                             : NULL;

    if (!key || !g_variant_type_equal (g_settings_schema_key_get_value_type (key), g_variant_get_type (ours)))
      return false;
  }
  return true;
}

static GSettingsSchema *
look_in (GSettingsSchemaSource *source, gboolean parents)
{
  g_autoptr (GSettingsSchema) schema
      = source ? g_settings_schema_source_lookup (source, SCHEMA, parents) : NULL;

  return schema && is_whole (schema) ? g_steal_pointer (&schema) : NULL;
}

static GSettingsSchema *
find_schema (void)
{
  static const char *const folders[] = { "data", "../share/glib-2.0/schemas" };
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *beside = self ? g_path_get_dirname (self) : NULL;
  GSettingsSchema *schema = look_in (g_settings_schema_source_get_default (), TRUE);

  for (size_t i = 0; beside && !schema && i < G_N_ELEMENTS (folders); i++) {
    g_autofree char *folder = g_build_filename (beside, folders[i], NULL);
    g_autoptr (GSettingsSchemaSource) source
        = g_settings_schema_source_new_from_directory (folder, NULL, FALSE, NULL);

    schema = look_in (source, FALSE);
  }
  return schema;
}

static void
start (void)
{
  g_autoptr (GSettingsSchema) schema = NULL;

  if (settings || in_memory)
    return;
  schema = find_schema ();
  if (schema) {
    settings = g_settings_new_full (schema, NULL, NULL);
  } else {
    g_message ("The settings schema %s was not found: settings last until the program ends.", SCHEMA);
    in_memory = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) g_variant_unref);
  }
}

bool
pr_settings_are_kept (void)
{
  start ();
  return settings != NULL;
}

void
pr_settings_end (void)
{
  if (settings)
    g_settings_sync ();
  g_clear_object (&settings);
  g_clear_pointer (&in_memory, g_hash_table_unref);
}

/* --- values --- */

static size_t
nth (const char *key)
{
  size_t i = 0;

  while (i < G_N_ELEMENTS (keys) && !g_str_equal (keys[i].key, key))
    i++;
  g_assert (i < G_N_ELEMENTS (keys));
  return i;
}

static GVariant *
value_of (const char *key)
{
  size_t i = nth (key);
  GVariant *chosen;

  start ();
  if (settings)
    return g_settings_get_value (settings, key);
  chosen = g_hash_table_lookup (in_memory, key);
  return chosen ? g_variant_ref (chosen) : normal (i);
}

char *
pr_settings_string (const char *key)
{
  g_autoptr (GVariant) value = value_of (key);
  return g_variant_dup_string (value, NULL);
}

double
pr_settings_double (const char *key)
{
  g_autoptr (GVariant) value = value_of (key);
  return g_variant_get_double (value);
}

int
pr_settings_int (const char *key)
{
  g_autoptr (GVariant) value = value_of (key);
  return g_variant_get_int32 (value);
}

bool
pr_settings_bool (const char *key)
{
  g_autoptr (GVariant) value = value_of (key);
  return g_variant_get_boolean (value);
}

static bool
in_range (const char *key, GVariant *value)
{
  g_autoptr (GSettingsSchema) schema = NULL;
  g_autoptr (GSettingsSchemaKey) its = NULL;

  g_object_get (settings, "settings-schema", &schema, NULL);
  its = g_settings_schema_get_key (schema, key);
  return g_settings_schema_key_range_check (its, value);
}

bool
pr_settings_keep (const char *key, GVariant *value)
{
  g_autoptr (GVariant) owned = g_variant_ref_sink (value);
  g_autoptr (GVariant) now = value_of (key);

  if (!g_variant_type_equal (g_variant_get_type (owned), g_variant_get_type (now)))
    return false;
  if (g_variant_equal (owned, now))
    return true;
  if (settings)
    return in_range (key, owned) && g_settings_set_value (settings, key, owned);
  g_hash_table_insert (in_memory, (gpointer) keys[nth (key)].key, g_steal_pointer (&owned));
  return true;
}

PrUnit
pr_settings_unit (void)
{
  enum { INCHES = 2 }; /* what the C library's locales write for the customary units */
  g_autofree char *unit = pr_settings_string ("unit");

#ifdef __GLIBC__ /* the item is one of an enum, which no preprocessor sees */
  if (g_str_equal (unit, "locale"))
    return *nl_langinfo (_NL_MEASUREMENT_MEASUREMENT) == INCHES ? PR_UNIT_INCH : PR_UNIT_MM;
#endif
  return g_str_equal (unit, "inch") ? PR_UNIT_INCH : PR_UNIT_MM;
}

PrSides
pr_settings_sides (void)
{
  g_autofree char *sides = pr_settings_string ("sides");

  return g_str_equal (sides, "near")   ? PR_SIDES_NEAR
         : g_str_equal (sides, "left") ? PR_SIDES_LEFT
                                       : PR_SIDES_LANGUAGE;
}

/* --- from books of before --- */

static bool
is_chosen (const char *key)
{
  g_autoptr (GVariant) chosen = settings ? g_settings_get_user_value (settings, key) : NULL;

  return settings ? chosen != NULL : g_hash_table_contains (in_memory, key);
}

/* A book keeps text. */
static GVariant *
from_text (size_t i, const char *text)
{
  g_autoptr (GVariant) ours = normal (i);

  if (g_variant_is_of_type (ours, G_VARIANT_TYPE_DOUBLE))
    return g_variant_new_double (g_ascii_strtod (text, NULL));
  if (g_variant_is_of_type (ours, G_VARIANT_TYPE_BOOLEAN))
    return g_variant_new_boolean (g_str_equal (text, "1"));
  return g_variant_new_string (text);
}

static void
take_over (PrBook *book, const char *key)
{
  g_autofree char *text = pr_book_get_setting (book, key, NULL);
  GVariant *value = text && !is_chosen (key) ? from_text (nth (key), text) : NULL;

  if (value)
    pr_settings_keep (key, value);
  if (text && settings) {
    g_settings_sync (); /* it is safe here before it goes there */
    pr_book_set_setting (book, key, NULL, NULL);
  }
}

void
pr_settings_take_over (PrBook *book)
{
  static const char *const before[]
      = { "unit", "look", "layers", "screen-px-per-mm", "sheet-paper", "cautions-seen" };

  start ();
  for (size_t i = 0; book && i < G_N_ELEMENTS (before); i++)
    take_over (book, before[i]);
}
