/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-style.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-styles-resource.h"
#include "pr-text.h"

#define RESOURCE_DIR "/pritchel/styles"

static void
style_free (gpointer data)
{
  PrStyle *style = data;

  g_free (style->id);
  g_free (style->name);
  g_free (style->purpose);
  g_free (style->caution);
  if (style->set)
    json_node_unref (style->set);
  g_free (style);
}

static const char *
text_member (JsonObject *object, const char *name)
{
  JsonNode *node = json_object_get_member (object, name);

  return node && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_string (node) : NULL;
}

/* NULL with an error when the text is no style. */
static PrStyle *
parse_style (const char *text, gsize len, const char *where, bool own, GError **error)
{
  g_autoptr (JsonNode) root = pr_json_parse (text, len, NULL);
  PrPlan probe;
  JsonNode *set = NULL;
  const char *id = NULL, *name = NULL;

  if (root && JSON_NODE_HOLDS_OBJECT (root)) {
    id = text_member (json_node_get_object (root), "id");
    name = text_member (json_node_get_object (root), "name");
    set = json_object_get_member (json_node_get_object (root), "set");
  }
  pr_plan_init (&probe);
  if (!id || !*id || !name || !set || !pr_plan_from_json (&probe, set, NULL)) {
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("“%s” is not a style this program can read; mend it or take it out of the folder."),
                 where);
    return NULL;
  }
  const char *purpose = text_member (json_node_get_object (root), "for");
  const char *caution = text_member (json_node_get_object (root), "caution");
  PrStyle *style = g_new0 (PrStyle, 1);

  style->id = g_strdup (id);
  style->name = g_strdup (own ? name : _ (name));
  style->purpose = g_strdup (purpose && *purpose ? own ? purpose : _ (purpose) : "");
  style->caution = g_strdup (caution && *caution ? own ? caution : _ (caution) : "");
  style->own = own;
  style->set = json_node_copy (set);
  return style;
}

static void
add_style (GPtrArray *styles, PrStyle *style)
{
  for (guint i = 0; i < styles->len; i++) {
    PrStyle *old = styles->pdata[i];

    if (strcmp (old->id, style->id) == 0) {
      style_free (old);
      styles->pdata[i] = style;
      return;
    }
  }
  g_ptr_array_add (styles, style);
}

static void
tell (GPtrArray *problems, GError *error)
{
  if (problems)
    g_ptr_array_add (problems, g_strdup (error->message));
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static void
load_resources (GPtrArray *styles, GPtrArray *problems)
{
  GResource *resource = pr_styles_get_resource ();
  g_auto (GStrv) names = g_resource_enumerate_children (resource, RESOURCE_DIR, 0, NULL);

  /* file names begin with a number that gives the order */
  if (names)
    qsort (names, g_strv_length (names), sizeof *names, by_name);
  for (char **name = names; name && *name; name++) {
    g_autofree char *path = g_build_path ("/", RESOURCE_DIR, *name, NULL);
    g_autoptr (GBytes) bytes = g_resource_lookup_data (resource, path, 0, NULL);
    g_autoptr (GError) error = NULL;
    gsize len;
    const char *text = g_bytes_get_data (bytes, &len);
    PrStyle *style = parse_style (text, len, *name, false, &error);

    if (style)
      add_style (styles, style);
    else
      tell (problems, error);
  }
}

static char *
own_dir (void)
{
  return g_build_filename (g_get_user_data_dir (), "pritchel", "styles", NULL);
}

static void
load_own (GPtrArray *styles, GPtrArray *problems)
{
  g_autofree char *path = own_dir ();
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char *name;

  while (dir && (name = g_dir_read_name (dir))) {
    g_autofree char *file = g_build_filename (path, name, NULL), *text = NULL;
    g_autoptr (GError) error = NULL;
    PrStyle *style = NULL;
    gsize len;

    if (!g_str_has_suffix (name, ".json"))
      continue;
    if (g_file_get_contents (file, &text, &len, &error))
      style = parse_style (text, len, name, true, &error);
    if (style)
      add_style (styles, style);
    else
      tell (problems, error);
  }
}

GPtrArray *
pr_styles_load (GPtrArray *problems)
{
  GPtrArray *styles = g_ptr_array_new_with_free_func (style_free);

  load_resources (styles, problems);
  load_own (styles, problems);
  return styles;
}

const PrStyle *
pr_styles_find (const GPtrArray *styles, const char *id)
{
  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = styles->pdata[i];

    if (g_ascii_strcasecmp (style->id, id) == 0)
      return style;
  }
  return NULL;
}

/* Does a lock of PLAN hold this parameter? */
static bool
held (const PrPlan *plan, const PrParam *param)
{
  static const struct {
    const char *stem, *side;
    int lock;
  } holds[] = {
    { "heel.", ".medial", PR_LOCK_HEEL_M },
    { "heel.", ".lateral", PR_LOCK_HEEL_L },
    { "web.heel", ".medial", PR_LOCK_HEEL_M },
    { "web.heel", ".lateral", PR_LOCK_HEEL_L },
    { "nails.", ".medial", PR_LOCK_NAILS_M },
    { "nails.", ".lateral", PR_LOCK_NAILS_L },
    { "clip.", "", PR_LOCK_CLIPS },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (holds); i++)
    if (pr_plan_locked (plan, holds[i].lock) && g_str_has_prefix (param->name, holds[i].stem)
        && g_str_has_suffix (param->name, holds[i].side))
      return true;
  return false;
}

void
pr_style_apply (const PrStyle *style, PrPlan *plan)
{
  PrPlan next;

  pr_plan_init (&next);
  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];

    /* what belongs to the foot and to the bar in hand is not the style's */
    if (strcmp (param->group, "iron") == 0 || strcmp (param->group, "edge") == 0)
      pr_param_set (&next, param, pr_param_get (plan, param));
  }
  next.locks = plan->locks;
  /* parse_style has read it once, so it is good */
  pr_plan_from_json (&next, style->set, NULL);
  for (size_t i = 0; i < pr_n_params; i++)
    if (held (plan, &pr_params[i]))
      pr_param_set (&next, &pr_params[i], pr_param_get (plan, &pr_params[i]));
  pr_text_copy (next.style, sizeof next.style, style->id);
  *plan = next;
}

/* ID, or when a plan or the name of a file could not hold all of it, its beginning and a number made of NAME, so
 * that long names that begin alike stay two. Takes ID over; transfer full. */
static char *
short_id (char *id, const char *name)
{
  char start[sizeof ((PrPlan *) NULL)->style - 9];
  g_autofree char *whole = id;

  if (strlen (whole) < sizeof ((PrPlan *) NULL)->style)
    return g_steal_pointer (&whole);
  pr_text_copy (start, sizeof start, whole);
  return g_strdup_printf ("%s-%08x", start, g_str_hash (name));
}

/* "My front!" -> "my-front" */
static char *
id_of (const char *name)
{
  GString *id = g_string_new (NULL);

  for (const char *c = name; *c; c = g_utf8_next_char (c)) {
    gunichar u = g_unichar_tolower (g_utf8_get_char (c));

    if (g_unichar_isalnum (u))
      g_string_append_unichar (id, u);
    else if (id->len && id->str[id->len - 1] != '-')
      g_string_append_c (id, '-');
  }
  if (id->len && id->str[id->len - 1] == '-')
    g_string_truncate (id, id->len - 1);
  return short_id (g_string_free (id, FALSE), name);
}

bool
pr_style_save_own (const char *name, const PrPlan *plan, GError **error)
{
  g_autofree char *id = id_of (name), *dir = own_dir ();
  g_autofree char *base = g_strconcat (id, ".json", NULL), *file = g_build_filename (dir, base, NULL);
  g_autoptr (JsonNode) root = json_node_new (JSON_NODE_OBJECT);
  JsonNode *set = pr_plan_to_json (plan);
  JsonObject *object = json_object_new ();

  for (size_t i = 0; i < pr_n_params; i++)
    if (strcmp (pr_params[i].group, "iron") == 0 || strcmp (pr_params[i].group, "edge") == 0)
      json_object_remove_member (json_node_get_object (set), pr_params[i].name);
  json_object_remove_member (json_node_get_object (set), "locks");
  json_object_set_string_member (object, "id", id);
  json_object_set_string_member (object, "name", name);
  json_object_set_member (object, "set", set);
  json_node_take_object (root, object);
  if (!*id) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("A style needs a name with a letter or a digit in it."));
    return false;
  }
  g_autofree char *text = pr_json_text (root, true);
  if (g_mkdir_with_parents (dir, 0700) != 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("The style cannot be written to “%s” (%s); make the folder writable and try again."),
                 file, g_strerror (errno));
    return false;
  }
  return pr_atomic_file_write (file, text, strlen (text), error);
}
