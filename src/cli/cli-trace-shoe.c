/* SPDX-License-Identifier: GPL-3.0-or-later */
/* trace --shoe: the bare shapes of a shoe on the sheet. */
#include "cli.h"

#include <glib/gi18n-lib.h>

#include "cli-png.h"
#include "pr-atomic-file.h"
#include "pr-seen-json.h"

static JsonNode *
json_of (const PrTracing *tracing, const PrSeen *seen, PrFoot foot)
{
  static const char *const of_a_foot[] = { "outline_mm", "closed", "doubt", "wall_mm" };
  g_autoptr (PrJob) job = pr_job_new ();

  job->sources.foot = foot;
  pr_job_take_figure (job, pr_tracing_copy (tracing));
  JsonNode *node = pr_job_trace_json (job);
  JsonObject *object = json_node_get_object (node);
  for (size_t i = 0; i < G_N_ELEMENTS (of_a_foot); i++)
    json_object_remove_member (object, of_a_foot[i]);
  json_object_set_member (object, "seen", pr_seen_to_json (seen));
  return node;
}

/* How long the shoe is on the sheet, down and across. */
static void
sides_of (const PrSeen *seen, double *length, double *width)
{
  PrSheetPt low = { INFINITY, INFINITY }, high = { -INFINITY, -INFINITY };
  const PrSeenRing *ring[] = { &seen->outer, &seen->inner };

  for (size_t k = 0; k < G_N_ELEMENTS (ring); k++)
    for (size_t i = 0; i < ring[k]->n; i++) {
      low = (PrSheetPt){ fmin (low.x, ring[k]->p[i].x), fmin (low.y, ring[k]->p[i].y) };
      high = (PrSheetPt){ fmax (high.x, ring[k]->p[i].x), fmax (high.y, ring[k]->p[i].y) };
    }
  *length = high.y - low.y;
  *width = high.x - low.x;
}

static void
tell_doubt (const PrSeenDoubt *doubt)
{
  cli_print (doubt->edge == PR_SEEN_OUTER ? _ ("In doubt from %.0f to %.0f mm along the outer edge: %s\n")
                                          : _ ("In doubt from %.0f to %.0f mm along the inner edge: %s\n"),
             doubt->from_mm, doubt->to_mm, doubt->why);
}

static void
tell (const PrTracing *t, const PrSeen *seen, PrUnit unit)
{
  double long_mm, wide_mm;

  sides_of (seen, &long_mm, &wide_mm);
  g_autofree char *length = pr_length_text (long_mm, unit), *width = pr_length_text (wide_mm, unit);
  cli_print (_ ("Scale by %s: %.2f pixels per mm, residual %.2f mm, tilt %.1f°\n"),
             pr_scale_method_code (t->scale.method), t->scale.px_per_mm, t->scale.residual_mm,
             t->scale.tilt * 180 / G_PI);
  cli_print ("%s: %s\n", pr_verdict_name (t->scale.verdict), t->scale.why);
  cli_print (seen->open ? _ ("An open shoe as it lies on the sheet: length %s, width %s\n")
                        : _ ("A bar shoe as it lies on the sheet: length %s, width %s\n"),
             length, width);
  if (!seen->drawn)
    cli_print (_ ("Its thickness shifted the edges by up to %.1f mm in the photo, which is taken out\n"),
               seen->height_mm);
  for (size_t i = 0; i < seen->n_doubt; i++)
    tell_doubt (&seen->doubt[i]);
}

static bool
write_out (const CliShoe *shoe, JsonNode *node, GByteArray *picture, GError **error)
{
  bool done = true;

  if (picture != NULL)
    done = pr_atomic_file_write (shoe->png, (const char *) picture->data, picture->len, error);
  if (done && node != NULL)
    done = cli_write_json (node, shoe->json, error);
  return done;
}

bool
cli_trace_shoe (const CliShoe *shoe, GError **error)
{
  g_auto (PrSeen) seen = { 0 };
  g_autoptr (PrTracing) t = NULL;
  g_autoptr (PrPhoto) photo = pr_photo_read (shoe->file, error);

  if (photo == NULL || !pr_seen_find (&seen, &t, photo, shoe->trace, shoe->seen, NULL, error))
    return false;
  g_autoptr (GByteArray) picture = shoe->png != NULL ? cli_rectified_png (t, error) : NULL;
  if (shoe->png != NULL && picture == NULL)
    return false;
  g_autoptr (JsonNode) node = shoe->json != NULL ? json_of (t, &seen, shoe->foot) : NULL;
  if (!write_out (shoe, node, picture, error))
    return false;
  if (g_strcmp0 (shoe->json, "-") != 0)
    tell (t, &seen, shoe->unit);
  return true;
}
