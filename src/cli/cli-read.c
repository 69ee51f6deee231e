/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tracing from a photo or from the JSON that `trace` writes. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-file-set.h"
#include "pr-json.h"

bool
cli_is_json (const char *file)
{
  char start[64] = "";
  FILE *f = g_file_test (file, G_FILE_TEST_IS_REGULAR) ? fopen (file, "rb") : NULL;
  const char *p = start;

  if (f == NULL)
    return false;
  start[fread (start, 1, sizeof start - 1, f)] = 0;
  fclose (f);
  if (g_str_has_prefix (p, "\xef\xbb\xbf"))
    p += 3;
  p += strspn (p, " \t\r\n");
  return *p == '{' || *p == '[';
}

static JsonNode *
parse_json (const char *text, gsize length, const char *file, GError **error)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) why = NULL;

  if (pr_json_is_safe (text, length) && json_parser_load_from_data (parser, text, (gssize) length, &why)
      && json_parser_get_root (parser) != NULL)
    return json_parser_steal_root (parser);
  if (why != NULL)
    g_debug ("%s: %s", file, why->message);
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
               _ ("%s is not an outline (%s); give a photo or what pritchel trace --json wrote."), file,
               _ ("it is not plain JSON, nested too deeply, or too much of it"));
  return NULL;
}

/* A bare list of points will do. */
static JsonNode *
with_member (JsonNode *node)
{
  if (!JSON_NODE_HOLDS_ARRAY (node))
    return node;
  JsonObject *object = json_object_new ();
  json_object_set_member (object, "outline_mm", node);
  return json_node_init_object (json_node_alloc (), object);
}

JsonNode *
cli_json_read (const char *file, GError **error)
{
  g_autoptr (GMappedFile) mapped = g_mapped_file_new (file, FALSE, NULL);

  if (mapped == NULL || !pr_bound_holds (PR_BOUND_JSON_BYTES, (double) g_mapped_file_get_length (mapped))) {
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("%s cannot be read as an outline (%s); give a photo or what pritchel trace --json "
                    "wrote."),
                 file, mapped == NULL ? _ ("it may not be read") : _ ("it is too large"));
    return NULL;
  }
  g_autofree char *text = g_strndup (g_mapped_file_get_contents (mapped), g_mapped_file_get_length (mapped));
  const char *start = g_str_has_prefix (text, "\xef\xbb\xbf") ? text + 3 : text;
  return parse_json (start, strlen (start), file, error);
}

static bool
read_outline (PrJob *job, const char *file, GError **error)
{
  g_autoptr (JsonNode) node = cli_json_read (file, error);

  if (node == NULL)
    return false;
  node = with_member (g_steal_pointer (&node));
  return pr_job_take_trace_json (job, node, error);
}

/* The steps are one set too. They are kept where no line was found: that is when they are looked at. */
static PrTracing *
trace_with_steps (const PrPhoto *photo, const PrTraceOptions *options, GError **error)
{
  static const char *const steps[]
      = { "1-photo.png", "2-edges.png", "3-flat.png", "4-dark.png", "5-ridge.png", "6-line.png", NULL };
  g_autoptr (PrFileSet) set = pr_file_set_begin (options->steps_dir, NULL, error);
  PrTraceOptions aside = *options;

  if (set == NULL)
    return NULL;
  aside.steps_dir = pr_file_set_folder (set);
  g_autoptr (PrTracing) tracing = pr_trace_photo (photo, &aside, NULL, NULL, NULL, error);
  bool placed = pr_file_set_place (set, steps, tracing != NULL ? error : NULL);
  return placed ? g_steal_pointer (&tracing) : NULL;
}

PrTracing *
cli_trace_file (const char *file, const PrTraceOptions *options, GError **error)
{
  g_autoptr (PrPhoto) photo = pr_photo_read (file, error);

  if (photo == NULL)
    return NULL;
  return options->steps_dir != NULL ? trace_with_steps (photo, options, error)
                                    : pr_trace_photo (photo, options, NULL, NULL, NULL, error);
}

static bool
read_photo (PrJob *job, const char *file, const PrTraceOptions *options, GError **error)
{
  PrTraceOptions for_foot = *options;

  for_foot.foot = job->sources.foot;
  PrTracing *tracing = cli_trace_file (file, &for_foot, error);
  return tracing != NULL && pr_job_take_tracing (job, tracing, error);
}

bool
cli_job_read (PrJob *job, const char *file, const PrTraceOptions *options, GError **error)
{
  PrFoot asked = job->sources.foot;
  bool ok = cli_is_json (file) ? read_outline (job, file, error) : read_photo (job, file, options, error);

  if (!ok || asked == PR_FOOT_ANY)
    return ok;
  PrFoot told = job->sources.tracing != NULL ? job->sources.tracing->scale.foot : PR_FOOT_ANY;
  if (told != PR_FOOT_ANY && told != asked)
    cli_print_trouble (_ ("pritchel: The sheet says %s, --foot says %s: %s is taken.\n"), pr_foot_name (told),
                       pr_foot_name (asked), pr_foot_name (asked));
  if (job->sources.foot == asked)
    return true;
  job->sources.foot = asked;
  return pr_job_refresh_hoof (job, error);
}
