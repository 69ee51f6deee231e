/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdlib.h>
#include "kinds.h"
#include "measure.h"

int
main (int argc, char **argv)
{
  guint32 from = argc > 1 ? (guint32) atoi (argv[1]) : 1, to = argc > 2 ? (guint32) atoi (argv[2]) : 2;
  int width = argc > 3 ? atoi (argv[3]) : 2000;

  for (size_t k = 0; k < kinds_n; k++)
    for (guint32 seed = from; seed < to; seed++) {
      if (argc > 4 && !g_str_equal (argv[4], kinds[k].name))
        continue;
      SceneOptions o;
      Measure m = { 0 };
      kind_scene (&kinds[k], seed, &o);
      o.width = width;
      o.height = width * 4 / 3;
      g_autoptr (Scene) scene = scene_render (&o);
      PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
      g_autoptr (PrPhoto) photo = pr_photo_decode (scene->jpeg, NULL, NULL);
      options.paper = o.paper;
      if (argc > 5)
        options.steps_dir = argv[5];
      gint64 t0 = g_get_monotonic_time ();
      g_autoptr (PrTracing) t = pr_trace_photo (photo, &options, NULL, NULL, NULL, NULL);
      if (!t) {
        g_print ("%-12s %u refused\n", kinds[k].name, seed);
        continue;
      }
      measure_tracing (&m, t, scene, o.paper);
      bool bad = (t->drawn.tick == PR_DRAWN_SURE && (!o.ticks || m.tick > 0.5))
                 || (t->drawn.frog_lines == PR_DRAWN_SURE && (!o.frog || m.apex > 1));
      g_print ("%-12s %u pen %.2f tick %d%c %.2f  frog %d%c %.2f %.2f  line %.2f %s %lld ms\n", kinds[k].name, seed,
               t->pen_mm, t->drawn.tick, o.ticks ? 'T' : '-', m.tick, t->drawn.frog_lines, o.frog ? 'F' : '-', m.apex,
               m.base, m.line_p95, bad ? "BAD" : "", (long long) (g_get_monotonic_time () - t0) / 1000);
    }
  return 0;
}
