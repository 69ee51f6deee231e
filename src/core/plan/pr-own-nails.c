/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-own-nails.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

#include "pr-atomic-file.h"
#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-limits.h"
#include "pr-text.h"

/* Member of the file, and the parameter that says what it may be. */
static const struct {
  const char *member, *param;
  size_t offset;
} figures[] = {
  { "head_length", "nails.head_length", offsetof (PrOwnNail, head_length) },
  { "head_width", "nails.head_width", offsetof (PrOwnNail, head_width) },
  { "head_depth", "nails.head_depth", offsetof (PrOwnNail, head_depth) },
  { "shank", "nails.shank", offsetof (PrOwnNail, shank) },
};

static double *
figure (const PrOwnNail *nail, size_t i)
{
  return (double *) ((char *) nail + figures[i].offset);
}

static void
nail_free (gpointer data)
{
  g_free (((PrOwnNail *) data)->name);
  g_free (data);
}

static char *
file_name (void)
{
  return g_build_filename (g_get_user_data_dir (), "pritchel", "nails.json", NULL);
}

/* --- reading ------------------------------------------------------------------------------- */

/* NULL: not a nail that could be. */
static PrOwnNail *
read_nail (JsonNode *node)
{
  JsonObject *object = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  g_autofree char *name = object ? pr_name_fit (pr_json_string (object, "name")) : NULL;
  PrOwnNail nail = { 0 };

  if (!name || !*name)
    return NULL;
  for (size_t i = 0; i < G_N_ELEMENTS (figures); i++)
    if (!pr_json_number (object, figures[i].member, figure (&nail, i))
        || !pr_param_takes (pr_param_find (figures[i].param), *figure (&nail, i)))
      return NULL;
  nail.name = g_steal_pointer (&name);
  return g_memdup2 (&nail, sizeof nail);
}

/* FALSE: something in it is no nail. */
static bool
read_all (JsonNode *root, GPtrArray *nails)
{
  JsonObject *object = root && JSON_NODE_HOLDS_OBJECT (root) ? json_node_get_object (root) : NULL;
  JsonNode *list = object ? json_object_get_member (object, "nails") : NULL;

  if (!list || !JSON_NODE_HOLDS_ARRAY (list))
    return false;
  JsonArray *array = json_node_get_array (list);
  for (guint i = 0; i < json_array_get_length (array); i++) {
    PrOwnNail *nail = read_nail (json_array_get_element (array, i));

    if (!nail)
      return false;
    g_ptr_array_add (nails, nail);
  }
  return true;
}

GPtrArray *
pr_own_nails_load (char **problem)
{
  GPtrArray *nails = g_ptr_array_new_with_free_func (nail_free);
  g_autofree char *file = file_name (), *text = NULL;
  g_autoptr (GError) error = NULL;
  gsize len;

  if (!g_file_get_contents (file, &text, &len, &error)) {
    /* what is there and cannot be read must not be written over */
    if (problem && !g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT))
      *problem = g_strdup_printf (_ ("The nails in “%s” cannot be read (%s); check the file and try again."),
                                  file, error->message);
    return nails;
  }
  g_autoptr (JsonNode) root = pr_json_parse (text, len, NULL);
  if (read_all (root, nails))
    return nails;
  g_ptr_array_set_size (nails, 0);
  if (problem)
    *problem
        = g_strdup_printf (_ ("“%s” is not a list of nails this program can read; correct it or remove it."),
                           file);
  return nails;
}

static bool
same_name (const char *a, const char *b)
{
  g_autofree char *x = g_utf8_casefold (a, -1), *y = g_utf8_casefold (b, -1);

  return strcmp (x, y) == 0;
}

const PrOwnNail *
pr_own_nails_find (const GPtrArray *nails, const char *name)
{
  for (guint i = 0; i < nails->len; i++) {
    const PrOwnNail *nail = nails->pdata[i];

    if (same_name (nail->name, name))
      return nail;
  }
  return NULL;
}

/* --- writing ------------------------------------------------------------------------------- */

static bool
write_all (const GPtrArray *nails, GError **error)
{
  g_autoptr (JsonNode) root = json_node_new (JSON_NODE_OBJECT);
  JsonObject *object = json_object_new ();
  JsonArray *array = json_array_new ();
  g_autofree char *file = file_name (), *folder = g_path_get_dirname (file);

  for (guint i = 0; i < nails->len; i++) {
    const PrOwnNail *nail = nails->pdata[i];
    JsonObject *one = json_object_new ();

    json_object_set_string_member (one, "name", nail->name);
    for (size_t k = 0; k < G_N_ELEMENTS (figures); k++)
      json_object_set_double_member (one, figures[k].member, *figure (nail, k));
    json_array_add_object_element (array, one);
  }
  json_object_set_array_member (object, "nails", array);
  json_node_take_object (root, object);
  g_autofree char *text = pr_json_text (root, true);
  if (g_mkdir_with_parents (folder, 0700) != 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("The nails cannot be written to “%s”; make the folder writable and try again."), file);
    return false;
  }
  return pr_atomic_file_write (file, text, strlen (text), error);
}

/* All nails; NULL with an error when the file there is would be lost by writing it anew. */
static GPtrArray *
load_to_change (GError **error)
{
  g_autofree char *problem = NULL;
  g_autoptr (GPtrArray) nails = pr_own_nails_load (&problem);

  if (!problem)
    return g_steal_pointer (&nails);
  g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE, problem);
  return NULL;
}

bool
pr_own_nails_keep (const char *name, const PrPlan *plan, GError **error)
{
  g_autofree char *fit = pr_name_fit (name);
  g_autoptr (GPtrArray) nails = NULL;
  PrOwnNail nail = { 0 };

  g_strstrip (fit);
  if (!*fit || strlen (fit) >= sizeof plan->nail) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("Nails need a name of their own, of at most forty letters."));
    return false;
  }
  nails = load_to_change (error);
  if (!nails)
    return false;
  for (size_t i = 0; i < G_N_ELEMENTS (figures); i++)
    *figure (&nail, i) = pr_param_get (plan, pr_param_find (figures[i].param));
  if (pr_own_nails_find (nails, fit)) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("There are nails called “%s” already; give these another name, or forget those first."),
                 fit);
    return false;
  }
  nail.name = g_steal_pointer (&fit);
  g_ptr_array_add (nails, g_memdup2 (&nail, sizeof nail));
  return write_all (nails, error);
}

bool
pr_own_nails_forget (const char *name, GError **error)
{
  g_autoptr (GPtrArray) nails = load_to_change (error);

  if (!nails)
    return false;
  const PrOwnNail *old = pr_own_nails_find (nails, name);
  if (!old)
    return true;
  g_ptr_array_remove (nails, (gpointer) old);
  return write_all (nails, error);
}

/* --- on a plan ----------------------------------------------------------------------------- */

/* Its floor keeps what the limit asks for below it. */
static void
follow_with_crease (PrPlan *plan)
{
  const PrParam *depth = pr_param_find ("crease.depth");
  double thin = MIN (plan->thick_toe, plan->thick_heel), most = 1 - pr_limit ("crease.floor")->look / thin;

  plan->crease_width = plan->nail_head_width;
  pr_param_set (plan, depth, MIN (plan->nail_head_depth / thin, most));
}

void
pr_own_nail_use (const PrOwnNail *nail, PrPlan *plan)
{
  for (size_t i = 0; i < G_N_ELEMENTS (figures); i++)
    pr_param_set (plan, pr_param_find (figures[i].param), *figure (nail, i));
  pr_text_copy (plan->nail, sizeof plan->nail, nail->name);
  follow_with_crease (plan);
}

void
pr_own_nail_carry (const PrPlan *from, PrPlan *to)
{
  if (!*from->nail)
    return;
  for (size_t i = 0; i < G_N_ELEMENTS (figures); i++) {
    const PrParam *param = pr_param_find (figures[i].param);

    pr_param_set (to, param, pr_param_get (from, param));
  }
  memcpy (to->nail, from->nail, sizeof to->nail);
  follow_with_crease (to);
}
