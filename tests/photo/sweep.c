/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Not a test: a table of errors over many scenes, to find and mend what is weak.
 *     sweep [KIND [SEEDS [DIR]]]      with DIR the photo and every stage is written there */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "kinds.h"
#include "measure.h"

static void
run (const Kind *kind, guint32 seed, const char *dir)
{
  SceneOptions o;
  Measure m = { 0 };
  g_autoptr (GError) error = NULL;
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;

  kind_scene (kind, seed, &o);
  g_autoptr (Scene) scene = scene_render (&o);
  if (dir != NULL) {
    g_autofree char *file = g_strdup_printf ("%s/0-%s-%u.jpg", dir, kind->name, seed);
    gsize len;
    const char *data = g_bytes_get_data (scene->jpeg, &len);
    g_file_set_contents (file, data, (gssize) len, NULL);
    options.steps_dir = dir;
  }
  gint64 t0 = g_get_monotonic_time ();
  g_autoptr (PrPhoto) photo = pr_photo_decode (scene->jpeg, kind->name, &error);
  gint64 t1 = g_get_monotonic_time ();
  g_assert (photo != NULL);
  g_autoptr (PrTracing) t = pr_trace_photo (photo, &options, NULL, NULL, NULL, &error);
  gint64 t2 = g_get_monotonic_time ();
  printf ("%-12s %3u tilt %2.0f k1 %+.3f | ", kind->name, seed, o.tilt_deg, o.k1);
  if (t == NULL) {
    printf ("%s\n", error->message);
    return;
  }
  measure_tracing (&m, t, scene, o.paper);
  double doubt = 0;
  for (size_t i = 0; i < t->n_doubt; i++)
    doubt += t->doubt[i].to_mm - t->doubt[i].from_mm;
  printf ("%-6s sheet %.3f/%.3f k1 %+.3f tilt %2.0f res %.3f |"
          " line %.3f %.3f %.3f miss %.2f ends %.2f %.2f"
          " pen %.2f doubt %.0f %s | %s | %d+%d ms\n",
          pr_scale_method_code (t->scale.method), m.sheet_rms, m.sheet_max, t->camera.k1,
          t->scale.tilt * 180 / G_PI, t->scale.residual_mm, m.line_mean, m.line_p95, m.line_max, m.miss_max,
          m.heel[0], m.heel[1], t->pen_mm, doubt, t->closed ? "closed" : "open",
          pr_verdict_code (t->scale.verdict), (int) ((t1 - t0) / 1000), (int) ((t2 - t1) / 1000));
  fflush (stdout);
}

int
main (int argc, char **argv)
{
  SweepArgs args = sweep_args (argc, argv, 3);

  for (size_t i = 0; i < kinds_n; i++)
    for (guint32 seed = args.first; seed <= args.last; seed++)
      if (args.only == NULL || strcmp (args.only, kinds[i].name) == 0)
        run (&kinds[i], seed, argc > 3 ? argv[3] : NULL);
  return 0;
}
