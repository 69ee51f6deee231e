/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Not a test:  shoe-maker KIND SEED OUT.jpg [REPORT.json]   a photo of a shoe, of the plan that `pritchel plan` reported where
 * one is given, to be looked at. */
#include <stdio.h>
#include <stdlib.h>
#include "pr-json.h"
#include "shoe-scenes.h"

static PrJob *
planned (const char *report)
{
  g_autoptr (PrJob) job = pr_job_new ();
  g_autofree char *text = NULL;
  gsize len;
  g_autoptr (JsonNode) node
      = g_file_get_contents (report, &text, &len, NULL) ? pr_json_parse (text, len, NULL) : NULL;
  JsonObject *object = node ? pr_json_is_object (node) : NULL;

  return object && pr_job_take_trace_json (job, json_object_get_member (object, "tracing"), NULL)
                 && pr_job_take_plan_json (job, json_object_get_member (object, "plan"), NULL)
                 && pr_job_refresh (job, NULL)
             ? g_steal_pointer (&job)
             : NULL;
}

int
main (int argc, char **argv)
{
  g_auto (ShoeScene) s = { 0 };

  if (argc != 4 && argc != 5)
    return 2;
  g_autoptr (PrJob) job = argc == 5 ? planned (argv[4]) : NULL;
  if (argc == 5 && job == NULL)
    return 2;
  if (job != NULL)
    shoe_scene_of (&s, shoe_kind (argv[1]), job, (guint32) atoi (argv[2]));
  else
    shoe_scene_make (&s, shoe_kind (argv[1]), (guint32) atoi (argv[2]));
  gint64 t0 = g_get_monotonic_time ();
  g_autoptr (Scene) scene = scene_render (&s.options);
  gsize len;
  const char *data = g_bytes_get_data (scene->jpeg, &len);
  printf ("%d ms, tilt %.0f, %.1f mm thick, %s\n", (int) ((g_get_monotonic_time () - t0) / 1000),
          s.options.tilt_deg, s.shoe.thick, pr_face_name (s.face));
  return g_file_set_contents (argv[3], data, (gssize) len, NULL) ? 0 : 1;
}
