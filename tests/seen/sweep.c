/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Not a test: a table of errors over many shoes.
 *     seen-sweep [KIND|all [SEEDS|FROM-TO [DIR]]]    with DIR the photo and the edges found are written there */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "pr-seen-cells.h"
#include "pr-seen-odds.h"
#include "pr-pose.h"
#include "pr-trace.h"
#include "seen-measure.h"

typedef struct {
  GArray *both, *outer, *inner, *p99, *heels, *sides, *flat, *hard, *flat_width, *ms;
  int failed, silent;
} Totals;

static void
write_ring (FILE *file, const PrTracing *t, const PrSeenRing *ring, char what)
{
  for (size_t i = 0; i < ring->n; i++) {
    PrPx p = pr_camera_to_photo (&t->camera, ring->p[i]);
    fprintf (file, "%c %.3f %.3f %.3f %.3f\n", what, ring->p[i].x, ring->p[i].y, p.x, p.y);
  }
}

/* What lay there, each ring by its number; and where the camera stood. */
static void
write_truth (FILE *file, const PrTracing *t, const ShoeScene *s)
{
  PrPose pose;

  for (size_t i = 0; i < s->truth.n; i++)
    for (size_t k = 0; k < s->truth.ring[i].n; k++)
      fprintf (file, "%c %.3f %.3f\n", (int) ('0' + i), s->truth.ring[i].p[k].x, s->truth.ring[i].p[k].y);
  if (pr_pose (&pose, &t->camera, s->options.focal35))
    fprintf (file, "c %.3f %.3f %.3f\n", pose.foot.x, pose.foot.y, pose.height);
}

/* A map of the cells as a grey picture, LOW black and HIGH white. */
static void
write_map (const char *name, const float *v, const PrSeenMap *map, float low, float high)
{
  FILE *file = fopen (name, "wb");

  fprintf (file, "P5 %d %d 255\n", map->w, map->h);
  for (int i = 0; i < map->w * map->h; i++)
    fputc ((int) CLAMP (255 * (v[i] - low) / (high - low), 0, 255), file);
  fclose (file);
}

static void
keep_maps (const char *dir, const ShoeKind *kind, guint32 seed, const PrTracing *t)
{
  g_auto (PrSeenMap) map = { 0 };
  g_autofree char *iron = g_strdup_printf ("%s/%s-%u-iron.pgm", dir, kind->name, seed);
  g_autofree char *rough = g_strdup_printf ("%s/%s-%u-rough.pgm", dir, kind->name, seed);
  g_autofree char *luma = g_strdup_printf ("%s/%s-%u-luma.pgm", dir, kind->name, seed);

  pr_seen_cells_find (&map, t);
  write_map (iron, map.iron, &map, -4, 4);
  write_map (rough, map.rough, &map, 0, 20);
  for (int i = 0; i < map.w * map.h; i++)
    map.iron[i] = pr_seen_luma (map.rgb + 3 * i);
  write_map (luma, map.iron, &map, 0, 1.3f);
}

static void
keep (const char *dir, const ShoeKind *kind, const ShoeScene *s, const Scene *photo, const PrSeen *seen,
      const PrTracing *t)
{
  guint32 seed = s->options.seed;
  g_autofree char *jpeg = g_strdup_printf ("%s/%s-%u.jpg", dir, kind->name, seed);
  g_autofree char *points = g_strdup_printf ("%s/%s-%u.txt", dir, kind->name, seed);
  gsize len;
  const char *data = g_bytes_get_data (photo->jpeg, &len);

  g_file_set_contents (jpeg, data, (gssize) len, NULL);
  if (t == NULL) {
    g_autoptr (PrPhoto) taken = pr_photo_decode (photo->jpeg, kind->name, NULL);
    PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
    g_autoptr (PrTracing) scale = pr_trace_scale (taken, &options, NULL, NULL, NULL, NULL);
    if (scale != NULL)
      keep_maps (dir, kind, seed, scale);
    return;
  }
  keep_maps (dir, kind, seed, t);
  FILE *file = fopen (points, "w");
  write_ring (file, t, &seen->outer, 'o');
  write_ring (file, t, &seen->inner, 'i');
  for (size_t i = 0; i < seen->n_opening; i++)
    write_ring (file, t, &seen->opening[i], 'h');
  write_truth (file, t, s);
  fclose (file);
}

static void
add (Totals *sum, const SeenError *e, const ShoeKind *kind, double ms)
{
  double outer = e->outer.mean, inner = e->inner.mean, p99 = fmax (e->outer.p99, e->inner.p99),
         heels = e->heels;
  double side = fmax (fabs (e->width), fabs (e->length)), both = e->both, flat = e->flat.mean,
         wide = fabs (e->flat_width);

  sum->silent += e->silent_mean > 1.5;
  g_array_append_val (sum->ms, ms);
  if (kind->hard || kind->drawn) {
    g_array_append_val (sum->hard, both);
    return;
  }
  g_array_append_val (sum->both, both);
  g_array_append_val (sum->outer, outer);
  g_array_append_val (sum->inner, inner);
  g_array_append_val (sum->p99, p99);
  if (heels > 0)
    g_array_append_val (sum->heels, heels);
  g_array_append_val (sum->sides, side);
  g_array_append_val (sum->flat, flat);
  g_array_append_val (sum->flat_width, wide);
}

static void
run (Totals *sum, const ShoeKind *kind, guint32 seed, const char *dir)
{
  g_auto (ShoeScene) s = { 0 };
  g_auto (PrSeen) seen = { 0 };
  g_autoptr (PrTracing) t = NULL;
  g_autoptr (Scene) photo = NULL;
  g_autoptr (GError) error = NULL;
  SeenError e;
  double ms;

  shoe_scene_make (&s, kind, seed);
  bool found = seen_scene (&seen, &t, &s, kind, &photo, &ms, &error);
  if (dir != NULL)
    keep (dir, kind, &s, photo, &seen, t);
  printf ("%-12s %3u tilt %2.0f far %3.0f thick %4.1f %c | ", kind->name, seed, s.options.tilt_deg,
          s.options.far_mm, s.shoe.thick, s.face == PR_FACE_FOOT ? 'f' : 'g');
  if (!found) {
    sum->failed++;
    printf ("%s\n", error->message);
    return;
  }
  seen_measure (&e, &seen, t, &s);
  add (sum, &e, kind, ms);
  printf ("out %.2f %.2f %.2f in %.2f %.2f %.2f heels %.2f miss %.2f | w %+.2f l %+.2f | f %+4.1f%% | doubt "
          "%2.0f%% silent "
          "%.0f %.2f %+d | nails %zu/%zu %.2f | flat %.2f w %+.1f | %.0f ms\n",
          e.outer.mean, e.outer.p95, e.outer.p99, e.inner.mean, e.inner.p95, e.inner.p99, e.heels, e.miss,
          e.width, e.length,
          (seen.focal_px / (s.options.focal > 0 ? s.options.focal * 4000 : 3120) - 1) * 100, 100 * e.doubt,
          e.silent, e.silent_mean, e.openings, seen.n_nail, s.n_nail, e.nail, e.flat.mean, e.flat_width, ms);
  fflush (stdout);
}

static int
rising (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

static void
tell (const char *what, GArray *a)
{
  if (a->len == 0)
    return;
  qsort (a->data, a->len, sizeof (double), rising);
  printf ("%-24s %3u  median %.2f  p90 %.2f  p95 %.2f  worst %.2f\n", what, a->len,
          g_array_index (a, double, a->len / 2),
          g_array_index (a, double, (guint) (0.9 * (a->len - 1) + 0.5)),
          g_array_index (a, double, (guint) (0.95 * (a->len - 1) + 0.5)),
          g_array_index (a, double, a->len - 1));
}

int
main (int argc, char **argv)
{
  const char *only = argc > 1 && strcmp (argv[1], "all") != 0 ? argv[1] : NULL;
  guint32 first = 1, last = argc > 2 ? (guint32) atoi (argv[2]) : 2;
  Totals sum = { 0 };
  GArray **all[] = { &sum.both,  &sum.outer, &sum.inner, &sum.p99,        &sum.heels,
                     &sum.sides, &sum.flat,  &sum.hard,  &sum.flat_width, &sum.ms };

  if (argc > 2 && strchr (argv[2], '-') != NULL) {
    first = last;
    last = (guint32) atoi (strchr (argv[2], '-') + 1);
  }
  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    *all[i] = g_array_new (FALSE, FALSE, sizeof (double));
  for (size_t i = 0; i < shoe_kinds_n; i++)
    for (guint32 seed = first; seed <= last; seed++)
      if (only == NULL || strcmp (only, shoe_kinds[i].name) == 0)
        run (&sum, &shoe_kinds[i], seed, argc > 3 ? argv[3] : NULL);
  tell ("field, both edges", sum.both);
  tell ("field, outer", sum.outer);
  tell ("field, inner", sum.inner);
  tell ("field, 99 % within", sum.p99);
  tell ("field, heels", sum.heels);
  tell ("field, length and width", sum.sides);
  tell ("the same, height left in", sum.flat);
  tell ("  and its width", sum.flat_width);
  tell ("hard and drawn", sum.hard);
  tell ("ms", sum.ms);
  printf ("failed %d, wrong and silent %d\n", sum.failed, sum.silent);
  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    g_array_unref (*all[i]);
  return 0;
}
