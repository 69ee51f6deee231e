/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Not a test: a table of errors over scenes on other grounds.
 *     ground-sweep [KIND [SEEDS [DIR]]]      with DIR the photo and every stage is written there */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "grounds.h"

/* Is the toe where the frame's top is? */
static const char *
way_up (const PrTracing *t)
{
  PrSheetPt a = t->outline[0], b = t->outline[t->n_outline - 1], m = { 0, 0 };

  for (size_t i = 0; i < t->n_outline; i++) {
    m.x += t->outline[i].x / (double) t->n_outline;
    m.y += t->outline[i].y / (double) t->n_outline;
  }
  double dx = (a.x + b.x) / 2 - m.x, dy = (a.y + b.y) / 2 - m.y;
  return dy > fabs (dx) ? "up" : "NOT UP";
}

static void
run (const GroundKind *kind, guint32 seed, const char *dir)
{
  SceneOptions o;
  Measure m = { 0 };
  g_autoptr (GError) error = NULL;
  PrTraceOptions options;

  ground_scene (kind, seed, &o);
  g_autoptr (Scene) scene = scene_render (&o);
  ground_options (kind, &o, scene, &options);
  g_autofree char *file = g_strdup_printf ("%s/0-%s-%u.jpg", dir ? dir : "", kind->name, seed);
  if (dir != NULL) {
    gsize len;
    const char *data = g_bytes_get_data (scene->jpeg, &len);
    g_file_set_contents (file, data, (gssize) len, NULL);
    options.steps_dir = dir;
  }
  g_autoptr (PrPhoto) photo = pr_photo_decode (scene->jpeg, kind->name, &error);
  gint64 t1 = g_get_monotonic_time ();
  g_autoptr (PrTracing) t = pr_trace_photo (photo, &options, NULL, NULL, NULL, &error);
  gint64 t2 = g_get_monotonic_time ();
  printf ("%-12s %3u drawn %4.0f | ", kind->name, seed, o.drawn_deg);
  if (t == NULL) {
    printf ("%s\n", error->message);
    return;
  }
  measure_line_in_photo (&m, t, scene);
  double doubt = 0;
  for (size_t i = 0; i < t->n_doubt; i++)
    doubt += t->doubt[i].to_mm - t->doubt[i].from_mm;
  if (scene->n_other > 0)
    printf ("other %.3f of %zu ", m.other, t->n_other);
  printf ("line %6.3f %6.3f %6.2f miss %6.2f ends %5.1f %5.1f pen %.2f doubt %.0f %s %s%s | %s | %d ms\n",
          m.line_mean, m.line_p95, m.line_max, m.miss_max, m.heel[0], m.heel[1], t->pen_mm, doubt,
          t->closed ? "closed" : "open", way_up (t), t->figure ? " FIGURE" : "",
          pr_verdict_code (t->scale.verdict), (int) ((t2 - t1) / 1000));
  fflush (stdout);
}

int
main (int argc, char **argv)
{
  SweepArgs args = sweep_args (argc, argv, 3);

  for (size_t i = 0; i < ground_kinds_n; i++)
    for (guint32 seed = args.first; seed <= args.last; seed++)
      if (args.only == NULL || g_str_has_prefix (ground_kinds[i].name, args.only))
        run (&ground_kinds[i], seed, argc > 3 ? argv[3] : NULL);
  return 0;
}
