/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-style.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

#include "pr-atomic-file.h"
#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-own-nails.h"
#include "pr-size.h"
#include "pr-styles-resource.h"
#include "pr-text.h"

#define RESOURCE_DIR "/pritchel/styles"
#define UNEVEN_MOST 0.04 /* of the width: a heel is made longer by at most this to end level with the other */
#define PAST_CLEAR_MM 0.2 /* and stays so far within its thickness, past which it is looked at */

static void
style_free (gpointer data)
{
  PrStyle *style = data;

  g_free (style->id);
  g_free (style->name);
  g_free (style->purpose);
  g_free (style->caution);
  g_clear_pointer (&style->set, json_node_unref);
  g_clear_pointer (&style->share, json_node_unref);
  g_free (style);
}

static const char *
text_member (JsonObject *object, const char *name)
{
  JsonNode *node = json_object_get_member (object, name);

  return node && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_string (node) : NULL;
}

/* "fore", "hind", or made for all. */
static PrFeet
read_feet (JsonObject *object)
{
  const char *feet = text_member (object, "feet");

  return g_strcmp0 (feet, "fore") == 0   ? PR_FEET_FORE
         : g_strcmp0 (feet, "hind") == 0 ? PR_FEET_HIND
                                         : PR_FEET_ALL;
}

/* Shares of the foot's width into PLAN, for a foot so wide. FALSE: it is not an object of sound shares. */
static bool
take_shares (JsonNode *share, double width, PrPlan *plan)
{
  if (!JSON_NODE_HOLDS_OBJECT (share))
    return false;
  for (size_t i = 0; i < pr_n_params; i++) {
    JsonNode *node = pr_plan_member (json_node_get_object (share), &pr_params[i]);

    if (!node)
      continue;
    if (!JSON_NODE_HOLDS_VALUE (node) || !pr_param_of_width (&pr_params[i])
        || !pr_param_set (plan, &pr_params[i], json_node_get_double (node) * width))
      return false;
  }
  return true;
}

/* The two shares of "web". FALSE: they are there and are not two that could be. */
static bool
read_web (JsonObject *object, PrStyle *style)
{
  JsonNode *node = json_object_get_member (object, "web");

  if (!node)
    return true;
  if (!JSON_NODE_HOLDS_ARRAY (node) || json_array_get_length (json_node_get_array (node)) != 2)
    return false;
  style->web_least = json_array_get_double_element (json_node_get_array (node), 0);
  style->web_most = json_array_get_double_element (json_node_get_array (node), 1);
  return style->web_least > 0 && style->web_least <= style->web_most && style->web_most < 1;
}

/* What a style does, from OBJECT into STYLE. FALSE: it cannot be laid on a foot. */
static bool
read_parameters (JsonObject *object, PrStyle *style)
{
  JsonNode *set = json_object_get_member (object, "set"), *share = json_object_get_member (object, "share");
  PrPlan probe;

  pr_plan_init (&probe);
  if (!set || !pr_plan_from_json (&probe, set, NULL)
      || (share && !take_shares (share, PR_SIZE_USUAL_WIDTH, &probe)) || !read_web (object, style))
    return false;
  style->set = json_node_copy (set);
  style->share = share ? json_node_copy (share) : NULL;
  style->feet = read_feet (object);
  return true;
}

/* NULL with an error when the text is no style. */
static PrStyle *
parse_style (const char *text, gsize len, const char *where, bool own, GError **error)
{
  g_autoptr (JsonNode) root = pr_json_parse (text, len, NULL);
  JsonObject *object = root && JSON_NODE_HOLDS_OBJECT (root) ? json_node_get_object (root) : NULL;
  const char *told = object ? text_member (object, "id") : NULL;
  const char *name = object ? text_member (object, "name") : NULL;
  g_autofree char *id = told ? pr_name_fit (told) : NULL;
  PrStyle *style = g_new0 (PrStyle, 1);

  /* a plan must be able to say the id again as it is */
  if (!id || !*id || strcmp (id, told) != 0 || strlen (id) >= sizeof ((PrPlan *) NULL)->style || !name
      || !read_parameters (object, style)) {
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("“%s” is not a style this program can read; correct it or remove it from the folder."),
                 where);
    style_free (style);
    return NULL;
  }
  const char *purpose = text_member (object, "for"), *caution = text_member (object, "caution");

  style->id = g_strdup (id);
  style->name = own ? pr_name_fit (name) : g_strdup (_ (name));
  style->purpose = !purpose || !*purpose ? g_strdup ("")
                   : own                 ? pr_sentence_fit (purpose)
                                         : g_strdup (_ (purpose));
  style->caution = !caution || !*caution ? g_strdup ("")
                   : own                 ? pr_sentence_fit (caution)
                                         : g_strdup (_ (caution));
  style->own = own;
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

bool
pr_style_suits (const PrStyle *style, PrFoot foot)
{
  return style->feet == PR_FEET_ALL || (style->feet == PR_FEET_HIND) == pr_foot_is_hind (foot);
}

/* The web at the toe becomes as wide as the bar, within what the style allows, and all other webs with it: the bar that
 * needs the least work (Lungwitz & Adams). */
static void
follow_bar (const PrStyle *style, double width, PrPlan *plan)
{
  if (!(style->web_least > 0))
    return;
  double web = CLAMP (plan->stock_width, style->web_least * width, style->web_most * width);
  double k = web / plan->web_toe;

  plan->web_toe = web;
  for (int b = 0; b < 2; b++) {
    plan->web_quarter[b] *= k;
    plan->web_heel[b] *= k;
  }
  plan->bar_web *= k;
}

/* Heels end level although the buttresses do not: the one that would end ahead is made longer. Heels a style wants uneven
 * stay so. */
static void
level_heels (const PrHoof *hoof, PrPlan *plan)
{
  if (!hoof || !(hoof->width > 0) || plan->heel_past[PR_MEDIAL] != plan->heel_past[PR_LATERAL])
    return;
  double low = MIN (hoof->buttress[PR_MEDIAL].y, hoof->buttress[PR_LATERAL].y) - plan->heel_past[PR_MEDIAL];
  for (int b = 0; b < 2; b++)
    pr_param_set (plan, pr_param_find (b == PR_MEDIAL ? "heel.past.medial" : "heel.past.lateral"),
                  MIN (hoof->buttress[b].y - low,
                       MIN (plan->heel_past[b] + UNEVEN_MOST * hoof->width,
                            MAX (plan->heel_past[b], plan->thick_heel - PAST_CLEAR_MM))));
}

void
pr_style_apply (const PrStyle *style, const PrHoof *hoof, PrPlan *plan)
{
  double width = pr_size_width (hoof);
  PrPlan next;

  pr_plan_init (&next);
  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];

    /* what belongs to the foot and to the bar in hand is not the style's */
    if (strcmp (param->group, "iron") == 0 || strcmp (param->group, "edge") == 0)
      pr_param_set (&next, param, pr_param_get (plan, param));
  }
  next.locks = plan->locks;
  /* read_parameters has read them once, so they are good; first for the bar a style may bring */
  pr_plan_from_json (&next, style->set, NULL);
  pr_size_apply (hoof, &next);
  if (style->share)
    take_shares (style->share, width, &next);
  follow_bar (style, width, &next);
  pr_plan_from_json (&next, style->set, NULL);
  pr_own_nail_carry (plan, &next);
  level_heels (hoof, &next);
  if (!style->own)
    pr_size_spare_nails (&next);
  for (size_t i = 0; i < pr_n_params; i++)
    if (held (plan, &pr_params[i]))
      pr_param_set (&next, &pr_params[i], pr_param_get (plan, &pr_params[i]));
  next.feet = style->feet;
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

/* What of PLAN a style keeps: lengths that grow with the foot as shares of WIDTH, the rest as it is; nothing of this
 * foot's edge or of the bar. */
static void
keep_parameters (const PrPlan *plan, double width, JsonObject *style)
{
  JsonNode *set = pr_plan_to_json (plan), *share = json_node_new (JSON_NODE_OBJECT);
  JsonObject *values = json_node_get_object (set), *shares = json_object_new ();

  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];
    bool of_bar
        = strcmp (param->group, "iron") == 0 || strcmp (param->group, "edge") == 0
          || (strcmp (param->group, "thickness") == 0 && pr_param_get (plan, param) == plan->stock_thick);

    if (pr_param_of_width (param))
      json_object_set_double_member (shares, param->name, pr_param_get (plan, param) / width);
    if (of_bar || pr_param_of_width (param))
      json_object_remove_member (values, param->name);
  }
  json_object_remove_member (values, "locks");
  json_object_remove_member (values, "nail"); /* they are in a box, not in a style */
  json_node_take_object (share, shares);
  json_object_set_member (style, "share", share);
  json_object_set_member (style, "set", set);
}

bool
pr_style_save_own (const char *name, const PrHoof *hoof, const PrPlan *plan, GError **error)
{
  g_autofree char *id = id_of (name), *dir = own_dir ();
  g_autofree char *base = g_strconcat (id, ".json", NULL), *file = g_build_filename (dir, base, NULL);
  g_autoptr (JsonNode) root = json_node_new (JSON_NODE_OBJECT);
  JsonObject *object = json_object_new ();

  json_object_set_string_member (object, "id", id);
  json_object_set_string_member (object, "name", name);
  if (plan->feet != PR_FEET_ALL)
    json_object_set_string_member (object, "feet", plan->feet == PR_FEET_HIND ? "hind" : "fore");
  keep_parameters (plan, pr_size_width (hoof), object);
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
