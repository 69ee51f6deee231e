/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "grounds.h"

#define MAT  \
  {          \
    460, 360 \
  }
#define MARKED_OFF_PX 3.0 /* how far from the corner a hand sets a mark */

const GroundKind ground_kinds[] = {
  { "chalk-mat", SCENE_GROUND_MAT, SCENE_PEN_CHALK, 4, PR_SCALE_CARD, MAT },
  { "chalk-mat-8", SCENE_GROUND_MAT, SCENE_PEN_CHALK, 7, PR_SCALE_CARD, MAT, .frog = true },
  { "chalk-slate", SCENE_GROUND_SLATE, SCENE_PEN_CHALK, 5, PR_SCALE_CARD, MAT, .rim = 1, .frog = true },
  { "chalk-rect", SCENE_GROUND_SLATE, SCENE_PEN_CHALK, 3, PR_SCALE_RECT, { 300, 260 }, .rim = 1 },
  { "chalk-ruler", SCENE_GROUND_MAT, SCENE_PEN_CHALK, 5, PR_SCALE_RULER, MAT, .ticks = true },
  { "chalk-tags", SCENE_GROUND_SLATE, SCENE_PEN_CHALK, 4, PR_SCALE_AUTO, .frog = true },
  { "white-tags", SCENE_GROUND_DARK_CARD, SCENE_PEN_WHITE, 1.6, PR_SCALE_AUTO, .frog = true, .ticks = true },
  { "white-card", SCENE_GROUND_DARK_CARD, SCENE_PEN_WHITE, 1.2, PR_SCALE_CARD, MAT, .writing = true },
  { "board-card", SCENE_GROUND_CARDBOARD, SCENE_PEN_MARKER, 0, PR_SCALE_CARD, { 420, 300 }, .rim = 1.2 },
  { "board-small",
    SCENE_GROUND_CARDBOARD,
    SCENE_PEN_MARKER,
    0,
    PR_SCALE_CARD,
    { 330, 210 },
    .rim = 2,
    .frog = true },
  { "board-faint",
    SCENE_GROUND_CARDBOARD,
    SCENE_PEN_PENCIL,
    0,
    PR_SCALE_CARD,
    { 330, 200 },
    .rim = 2.5,
    .writing = true },
  { "board-ball",
    SCENE_GROUND_CARDBOARD,
    SCENE_PEN_BALLPOINT,
    0,
    PR_SCALE_CARD,
    { 330, 230 },
    .rim = 2.5,
    .ticks = true },
  { "sack", SCENE_GROUND_SACK, SCENE_PEN_MARKER, 3, PR_SCALE_CARD, { 420, 320 }, .rim = 1.5 },
  { "side-tags", .turned = 90, .frog = true, .writing = true, .ticks = true },
  { "side-tags-l", .turned = 270, .writing = true },
  { "down-tags", .turned = 180, .frog = true, .ticks = true, .writing = true },
  { "any-tags", .turned = 360, .writing = true },
  { "side-closed", .turned = 90, .closed = true, .frog = true },
  { "down-closed", .turned = 180, .closed = true, .writing = true },
  { "side-pencil", .turned = 270, .pen = SCENE_PEN_PENCIL, .frog = true },
  { "two-a3", .paper = PR_PAPER_A3, .other = { 4, 165 }, .length = 132, .frog = true, .writing = true },
  { "two-a3-side", .paper = PR_PAPER_A3, .other = { 160, 4 }, .length = 130, .turned = 90 },
  { "two-plain", .paper = PR_PAPER_A3, .other = { -6, 170 }, .length = 128, .plain = true, .ticks = true },
  { "two-mat",
    SCENE_GROUND_MAT,
    SCENE_PEN_CHALK,
    4,
    PR_SCALE_CARD,
    { 520, 380 },
    .other = { -124, 6 },
    .length = 108 },
};
const size_t ground_kinds_n = G_N_ELEMENTS (ground_kinds);

/* A number in 0..1 that only SEED and K tell. */
static double
drawn (guint32 seed, guint32 k)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed * 7919u + k * 104729u + 11u);

  return g_rand_double (rand);
}

static double
span (guint32 seed, guint32 k, double low, double high)
{
  return low + (high - low) * drawn (seed, k);
}

static void
set_camera (const GroundKind *kind, guint32 seed, SceneOptions *o)
{
  bool ruler = kind->by == PR_SCALE_RULER;

  o->tilt_deg = ruler ? 0 : span (seed, 1, 4, 22);
  o->tilt_dir_deg = span (seed, 2, 0, 360);
  o->turn_deg = span (seed, 3, -8, 8);
  o->k1 = ruler ? 0 : span (seed, 4, -0.04, 0.04);
  o->fill = kind->by == PR_SCALE_AUTO || kind->other[0] != 0 ? span (seed, 5, 0.7, 0.88)
                                                             : span (seed, 5, 0.85, 1.15);
}

void
ground_scene (const GroundKind *kind, guint32 seed, SceneOptions *o)
{
  static const SceneBench benches[]
      = { SCENE_BENCH_CONCRETE, SCENE_BENCH_WOOD, SCENE_BENCH_RUBBER, SCENE_BENCH_CONCRETE };
  bool two = kind->other[0] != 0 || kind->other[1] != 0;

  scene_defaults (o);
  o->seed = seed;
  o->tags = kind->by == PR_SCALE_AUTO && !kind->plain;
  o->paper = kind->paper;
  o->ground = kind->ground;
  o->pen = kind->pen;
  o->pen_mm = kind->pen_mm;
  o->rim_mm = kind->rim;
  o->leaf_mm[0] = kind->leaf[0];
  o->leaf_mm[1] = kind->leaf[1];
  o->foot = (PrFoot) (1 + (int) (4 * drawn (seed, 6)));
  o->bench = benches[(int) (4 * drawn (seed, 7))];
  o->hoof_length = kind->length > 0 ? kind->length : span (seed, 8, 112, 150);
  o->hoof_width = o->hoof_length * span (seed, 9, 0.9, 0.98);
  o->lean_mm = span (seed, 10, -4, 5);
  o->shadow = drawn (seed, 11) < 0.5;
  o->dark = span (seed, 12, 0, 0.5);
  o->drawn_deg = kind->turned == 360 ? span (seed, 13, 0, 360) : kind->turned + span (seed, 13, -8, 8);
  o->closed = kind->closed;
  o->frog = kind->frog;
  o->writing = kind->writing;
  o->ticks = kind->ticks;
  o->card = kind->by == PR_SCALE_CARD;
  o->other_mm[0] = kind->other[0];
  o->other_mm[1] = kind->other[1];
  o->other_deg = two ? span (seed, 14, -6, 6) : 0;
  o->at_mm[0] = o->card ? -60 : 0;
  if (two && o->card)
    o->at_mm[0] = 10;
  else if (two)
    o->at_mm[1] = -fmax (kind->other[0], kind->other[1]) / 2;
  set_camera (kind, seed, o);
}

void
ground_options (const GroundKind *kind, const SceneOptions *o, const Scene *scene, PrTraceOptions *options)
{
  double w, h;
  PrSheetPt at[4];

  *options = (PrTraceOptions) PR_TRACE_OPTIONS_DEFAULT;
  options->method = kind->by;
  if (kind->by == PR_SCALE_AUTO) {
    if (kind->plain)
      options->paper = kind->paper;
    return;
  }
  scene_size (o, &w, &h);
  const PrSheetPt mat[4] = { { 0, 0 }, { w, 0 }, { w, h }, { 0, h } };
  for (int i = 0; i < 4; i++)
    at[i] = kind->by == PR_SCALE_CARD ? scene->card[i] : mat[i];
  options->side_mm[0] = w;
  options->side_mm[1] = h;
  options->n_points = kind->by == PR_SCALE_RULER ? 2 : 4;
  for (size_t i = 0; i < options->n_points; i++) {
    PrPx p = pr_camera_to_photo (&scene->camera, at[i]);
    double off = kind->by == PR_SCALE_RULER ? 0 : MARKED_OFF_PX;
    options->point[i] = (PrPx){ p.x + span (o->seed, 20 + (guint32) i, -off, off),
                                p.y + span (o->seed, 30 + (guint32) i, -off, off) };
  }
}
