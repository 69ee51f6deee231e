/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "kinds.h"

const Kind kinds[] = {
  { "clean", .tilt = 10 },
  { "tilt40", .tilt = 40, .writing = true },
  { "all", .writing = true, .frog = true, .ticks = true, .dirt = true, .shadow = true, .folds = true,
    .bench = SCENE_BENCH_CONCRETE },
  { "ballpoint", .pen = SCENE_PEN_BALLPOINT, .frog = true, .writing = true, .shadow = true,
    .bench = SCENE_BENCH_RUBBER },
  { "pencil", .pen = SCENE_PEN_PENCIL, .frog = true, .ticks = true, .writing = true },
  { "pencil-dark", .pen = SCENE_PEN_PENCIL, .frog = true, .dark = 0.8, .dirt = true, .shadow = true },
  { "closed", .closed = true, .frog = true, .writing = true, .dirt = true },
  { "gap", .gap = 12, .pen = SCENE_PEN_BALLPOINT, .frog = true },
  { "grid", .grid = true, .pen = SCENE_PEN_PENCIL, .writing = true },
  { "grid-gap", .grid = true, .gap = 15, .folds = true, .dirt = true, .shadow = true, .ticks = true,
    .dark = 0.5 },
  { "plain", .plain = true, .writing = true },
  { "plain-pale", .plain = true, .bench = SCENE_BENCH_PALE, .frog = true, .shadow = true },
  { "plain-conc", .plain = true, .bench = SCENE_BENCH_CONCRETE, .frog = true, .ticks = true,
    .pen = SCENE_PEN_BALLPOINT, .dirt = true },
  { "plain-rubb", .plain = true, .bench = SCENE_BENCH_RUBBER, .closed = true, .dark = 0.6, .folds = true },
  { "plain-grid", .plain = true, .grid = true, .pen = SCENE_PEN_PENCIL, .shadow = true },
  { "wide-lens", .k1 = -0.09, .tilt = 38, .frog = true },
  { "wide-plain", .k1 = 0.09, .tilt = 30, .plain = true, .bench = SCENE_BENCH_PALE },
  { "night", .dark = 1, .pen = SCENE_PEN_PENCIL, .shadow = true, .dirt = true, .ticks = true,
    .bench = SCENE_BENCH_RUBBER },
  { "shaken", .blur = 2.5, .pen = SCENE_PEN_BALLPOINT, .writing = true, .frog = true },
  { "far", .fill = 0.45, .pen = SCENE_PEN_BALLPOINT, .writing = true, .frog = true },
  { "far-plain", .fill = 0.45, .plain = true, .writing = true, .frog = true },
  { "upside", .turn = 178, .plain = true, .writing = true, .frog = true, .ticks = true },
  { "across", .turn = 93, .plain = true, .writing = true, .frog = true, .fill = 0.9 },
  { "across-tags", .turn = 273, .writing = true, .ticks = true },
  { "letter", .paper = PR_PAPER_LETTER, .plain = true, .tilt = 25, .closed = true, .ticks = true },
  { "tabloid", .paper = PR_PAPER_TABLOID, .plain = true, .tilt = 25, .length = 190 },
  { "a3", .paper = PR_PAPER_A3, .length = 195, .frog = true, .writing = true },
  { "foal", .length = 82, .frog = true, .ticks = true, .writing = true },
  { "draught", .length = 172, .frog = true, .ticks = true, .writing = true },
  { "gap25", .gap = 25, .frog = true, .ticks = true, .writing = true, .dirt = true },
  { "closed-gap", .gap = 15, .closed = true, .plain = true, .frog = true, .folds = true },
  { "pencil-all", .pen = SCENE_PEN_PENCIL, .gap = 10, .dark = 0.7, .frog = true, .ticks = true,
    .writing = true, .dirt = true, .shadow = true, .folds = true, .grid = true, .bench = SCENE_BENCH_PALE },
  { "plain-all", .plain = true, .pen = SCENE_PEN_PENCIL, .gap = 10, .dark = 0.7, .frog = true, .ticks = true,
    .writing = true, .dirt = true, .shadow = true, .folds = true, .grid = true,
    .bench = SCENE_BENCH_CONCRETE },
};
const size_t kinds_n = G_N_ELEMENTS (kinds);

/* A number in 0..1 that only SEED and K tell. */
static double
drawn (guint32 seed, guint32 k)
{
  guint32 v = seed * 2654435761u + k * 40503u + 12345u;

  v ^= v >> 15;
  v *= 2246822519u;
  v ^= v >> 13;
  v *= 3266489917u;
  v ^= v >> 16;
  return v / 4294967296.0;
}

void
kind_scene (const Kind *kind, guint32 seed, SceneOptions *o)
{
  static const double sizes[][2] = { { 128, 122 }, { 142, 134 }, { 110, 104 }, { 152, 148 } };
  int size = (int) (drawn (seed, 1) * 4);

  scene_defaults (o);
  o->seed = seed;
  o->tags = !kind->plain;
  o->foot = (PrFoot) (1 + (int) (drawn (seed, 2) * 4));
  o->tilt_deg = kind->tilt > 0 ? kind->tilt : 35 * drawn (seed, 3);
  o->tilt_dir_deg = 360 * drawn (seed, 4);
  o->turn_deg = 16 * drawn (seed, 5) - 8;
  o->k1 = 0.1 * drawn (seed, 6) - 0.05;
  o->hoof_length = sizes[size][0];
  o->hoof_width = sizes[size][1];
  o->pen = kind->pen;
  o->bench = kind->bench;
  o->closed = kind->closed;
  o->frog = kind->frog;
  o->ticks = kind->ticks;
  o->writing = kind->writing;
  o->dirt = kind->dirt;
  o->shadow = kind->shadow;
  o->folds = kind->folds;
  o->grid = kind->grid;
  o->gap_mm = kind->gap;
  o->dark = kind->dark;
  o->paper = kind->paper;
  if (kind->k1 != 0)
    o->k1 = kind->k1;
  if (kind->turn != 0)
    o->turn_deg = kind->turn;
  if (kind->fill > 0)
    o->fill = kind->fill;
  if (kind->blur > 0)
    o->blur_px = kind->blur;
  if (kind->length > 0) {
    o->hoof_length = kind->length;
    o->hoof_width = 0.96 * kind->length;
  }
}
