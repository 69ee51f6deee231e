/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Not a test: how well the heels are found, and what is said of them, over many scenes.
 *     sweep-heels [KIND|all [SEEDS|FROM-TO [WIDTH [DIR]]]]      with DIR the photo and every stage is written there */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "heel-scenes.h"
#include "measure.h"

typedef struct {
  int all, refused, good, good_near, bad, part, whole;
} Sum;

static double
doubt_at_end (const PrTracing *t, bool last)
{
  double length = 0, sum = 0;

  for (size_t i = 1; i < t->n_outline; i++)
    length += hypot (t->outline[i].x - t->outline[i - 1].x, t->outline[i].y - t->outline[i - 1].y);
  for (size_t i = 0; i < t->n_doubt; i++)
    if (last ? t->doubt[i].to_mm > length - 0.5 : t->doubt[i].from_mm < 0.5)
      sum = fmax (sum, t->doubt[i].to_mm - t->doubt[i].from_mm);
  return sum;
}

static bool
said (const PrTracing *t, const char *word)
{
  for (size_t i = 0; i < t->scale.n_reasons; i++)
    if (strstr (t->scale.reason[i].text, word) != NULL)
      return true;
  return false;
}

static void
run (HeelsKind kind, guint32 seed, int width, const char *dir, Sum *sum)
{
  SceneOptions o;
  Measure m = { 0 };
  g_autoptr (GError) error = NULL;
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;

  heels_scene (kind, seed, width, &o);
  g_autoptr (Scene) scene = scene_render (&o);
  if (dir != NULL) {
    g_autofree char *file = g_strdup_printf ("%s/0-%s-%u.jpg", dir, heels_names[kind], seed);
    gsize len;
    const char *data = g_bytes_get_data (scene->jpeg, &len);
    g_file_set_contents (file, data, (gssize) len, NULL);
    options.steps_dir = dir;
  }
  options.paper = o.paper;
  if (!o.tags)
    options.method = PR_SCALE_PLAIN;
  g_autoptr (PrPhoto) photo = pr_photo_decode (scene->jpeg, NULL, &error);
  g_autoptr (PrTracing) t = pr_trace_photo (photo, &options, NULL, NULL, NULL, &error);
  sum->all++;
  printf ("%-8s %3u %s%s%s ", heels_names[kind], seed, o.heels.round ? "R" : "c", o.frog ? "f" : "-",
          o.ticks ? "t" : "-");
  if (t == NULL) {
    printf ("%s\n", error->message);
    sum->refused++;
    return;
  }
  measure_tracing (&m, t, scene, o.paper);
  double d0 = doubt_at_end (t, false), d1 = doubt_at_end (t, true);
  /* which end is the medial one */
  bool swap = m.swapped;
  double dm = swap ? d1 : d0, dl = swap ? d0 : d1;
  bool good = t->scale.verdict == PR_VERDICT_GOOD, near = fmax (m.heel[0], m.heel[1]) <= 3;
  bool bad = (m.heel[0] > 5 && m.heel[0] > dm + 0.5) || (m.heel[1] > 5 && m.heel[1] > dl + 0.5);
  bool part = said (t, "all the way");
  sum->good += good;
  sum->good_near += good && near;
  sum->bad += bad;
  sum->part += part;
  sum->whole += m.heel[0] < 3 && m.heel[1] < 3 && m.silent < 1;
  printf ("line %.3f %.3f silent %5.1f heels %5.2f %5.2f doubts %4.1f %4.1f %-6s %-6s%s%s%s\n", m.line_mean,
          m.line_p95, m.silent, m.heel[0], m.heel[1], dm, dl, t->closed ? "closed" : "open",
          pr_verdict_code (t->scale.verdict), part ? " PART" : "", bad ? " UNDOUBTED" : "",
          good && !near ? " FAR" : "");
  fflush (stdout);
}

int
main (int argc, char **argv)
{
  SweepArgs args = sweep_args (argc, argv, 10);
  int width = argc > 3 ? atoi (argv[3]) : 1800;
  Sum sum[N_HEELS] = { 0 };

  for (HeelsKind kind = 0; kind < N_HEELS; kind++)
    for (guint32 seed = args.first; seed <= args.last; seed++)
      if (args.only == NULL || strcmp (args.only, heels_names[kind]) == 0)
        run (kind, seed, width, argc > 4 ? argv[4] : NULL, &sum[kind]);
  for (HeelsKind kind = 0; kind < N_HEELS; kind++)
    if (sum[kind].all > 0)
      printf ("= %-8s %3d refused %d good %d near %d undoubted %d part %d whole %d\n", heels_names[kind],
              sum[kind].all, sum[kind].refused, sum[kind].good, sum[kind].good_near, sum[kind].bad,
              sum[kind].part, sum[kind].whole);
  return 0;
}
