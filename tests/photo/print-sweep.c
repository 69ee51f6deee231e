/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Not a test: what a printed sheet's own edges say of its scale, and what comes of papers told wrong, over many
 * scenes.
 *     print-sweep print|true|wrong|told [SEEDS] */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "measure.h"

static double
drawn (guint32 seed, guint32 k)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed * 131 + k);

  return g_rand_double (rand);
}

static void
scene_of (SceneOptions *o, guint32 seed)
{
  static const PrPaper papers[]
      = { PR_PAPER_A4, PR_PAPER_LETTER, PR_PAPER_A4, PR_PAPER_TABLOID, PR_PAPER_A3 };

  scene_defaults (o);
  o->seed = seed;
  o->width = 1800;
  o->height = 2400;
  o->paper = papers[seed % G_N_ELEMENTS (papers)];
  o->tilt_deg = 35 * drawn (seed, 1);
  o->tilt_dir_deg = 360 * drawn (seed, 2);
  o->turn_deg = 20 * drawn (seed, 3) - 10;
  o->k1 = 0.12 * drawn (seed, 4) - 0.06;
  o->bench = (SceneBench) (4 * drawn (seed, 5));
  o->shadow = drawn (seed, 6) < 0.5;
  o->dirt = drawn (seed, 7) < 0.4;
  o->folds = drawn (seed, 8) < 0.3;
  o->writing = drawn (seed, 9) < 0.6;
  o->dark = drawn (seed, 10) < 0.4 ? drawn (seed, 11) : 0;
  o->fill = 0.7 + 0.25 * drawn (seed, 12);
  o->hoof_width = 105 + 38 * drawn (seed, 13);
  o->hoof_length = o->hoof_width * 1.05;
}

static void
run (const SceneOptions *o, PrPaper told, const char *what)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (GError) error = NULL;
  g_autoptr (Scene) scene = scene_render (o);
  g_autoptr (PrPhoto) photo = pr_photo_decode (scene->jpeg, what, &error);

  options.paper = told;
  g_autoptr (PrTracing) t = pr_trace_photo (photo, &options, NULL, NULL, NULL, &error);
  printf ("%s %u %s bench %d tilt %.0f: ", what, o->seed, pr_paper_name (o->paper), o->bench, o->tilt_deg);
  if (t == NULL)
    printf ("refused: %s\n", error->message);
  else
    printf ("%s: %s\n", pr_verdict_code (t->scale.verdict), t->scale.why);
  fflush (stdout);
}

static void
prints (guint32 seeds, const double (*table)[2], size_t n)
{
  for (size_t i = 0; i < n; i++)
    for (guint32 seed = 1; seed <= seeds; seed++) {
      SceneOptions o;
      g_autofree char *what = g_strdup_printf ("print %g x %g", table[i][0], table[i][1]);

      scene_of (&o, seed);
      o.print_x = table[i][0];
      o.print_y = table[i][1];
      o.print_off[0] = 2 * drawn (seed, 14) - 1;
      o.print_off[1] = 2 * drawn (seed, 15) - 1;
      run (&o, PR_PAPER_UNKNOWN, what);
    }
}

/* Leaves there are, and the papers of the program that each may be told to be. */
static const double leaves[][2] = {
  { 210, 297 },     { 215.9, 279.4 }, { 297, 420 }, { 279.4, 431.8 }, { 215.9, 355.6 }, { 148, 210 },
  { 139.7, 215.9 }, { 195, 300 },     { 176, 250 }, { 182, 257 },     { 190.5, 247.6 }, { 203, 254 },
  { 203, 267 },     { 156, 234 },     { 170, 220 }, { 210, 330 },     { 229, 324 },     { 129, 198 },
};

static void
wrong (guint32 seeds)
{
  for (size_t i = 0; i < G_N_ELEMENTS (leaves); i++)
    for (PrPaper told = 0; told < PR_N_PAPERS; told++)
      for (guint32 seed = 1; seed <= seeds; seed++) {
        SceneOptions o;
        double w, h;

        pr_paper_size (told, &w, &h);
        bool same = w == leaves[i][0] && h == leaves[i][1];
        scene_of (&o, (guint32) (seed + 100 * i + 10 * told));
        if (same || fabs (log (h / w * leaves[i][0] / leaves[i][1])) > 0.06)
          continue;
        o.paper = PR_PAPER_A4;
        o.tags = false;
        o.leaf_mm[0] = leaves[i][0];
        o.leaf_mm[1] = leaves[i][1];
        o.hoof_width = fmin (o.hoof_width, leaves[i][0] - 25);
        o.hoof_length = o.hoof_width * 1.05;
        g_autofree char *what
            = g_strdup_printf ("wrong %gx%g foot %.0f told %s (%.0f)", leaves[i][0], leaves[i][1],
                               o.hoof_width, pr_paper_name (told), o.hoof_width * w / leaves[i][0]);
        run (&o, told, what);
      }
}

static void
told (guint32 seeds)
{
  for (guint32 seed = 1; seed <= seeds; seed++) {
    SceneOptions o;

    scene_of (&o, seed);
    o.tags = false;
    run (&o, o.paper, "told");
  }
}

int
main (int argc, char **argv)
{
  static const double wrongly[][2]
      = { { 0.94, 0.94 }, { 0.97, 0.97 }, { 0.98, 0.98 }, { 0.99, 0.99 }, { 0.97, 1 } };
  static const double truly[][2] = { { 1, 1 } };
  const char *what = argc > 1 ? argv[1] : "print";
  guint32 seeds = argc > 2 ? (guint32) atoi (argv[2]) : 10;

  if (strcmp (what, "print") == 0)
    prints (seeds, wrongly, G_N_ELEMENTS (wrongly));
  else if (strcmp (what, "true") == 0)
    prints (seeds, truly, 1);
  else if (strcmp (what, "wrong") == 0)
    wrong (seeds);
  else
    told (seeds);
  return 0;
}
