/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "heel-scenes.h"

const char *const heels_names[N_HEELS] = { "smooth", "corner", "stepped", "cleft", "faint",  "ticked",
                                           "open",   "short",  "partial", "mud",   "finger", "glare" };

static double
span (GRand *rand, double low, double high)
{
  return g_rand_double_range (rand, low, high);
}

static bool
one_in (GRand *rand, int n)
{
  return g_rand_int_range (rand, 0, n) == 0;
}

/* The sheet, how it is photographed and what else is on it. */
static void
any_sheet (SceneOptions *o, GRand *rand)
{
  o->tags = one_in (rand, 2);
  o->foot = (PrFoot) g_rand_int_range (rand, 1, 5);
  o->tilt_deg = span (rand, 0, 30);
  o->tilt_dir_deg = span (rand, 0, 360);
  o->turn_deg = span (rand, -8, 8);
  o->k1 = span (rand, -0.04, 0.04);
  o->pen = (ScenePen) g_rand_int_range (rand, 0, 3);
  o->bench = (SceneBench) g_rand_int_range (rand, 0, 3);
  o->frog = one_in (rand, 2);
  o->writing = one_in (rand, 2);
  o->dirt = one_in (rand, 3);
  o->shadow = one_in (rand, 4);
  o->wobble_mm = span (rand, 0.2, 0.6);
  o->drawn_deg = span (rand, -8, 8);
}

static void
any_foot (SceneOptions *o, GRand *rand)
{
  bool hind = pr_foot_is_hind (o->foot);

  o->hoof_width = span (rand, 98, 150);
  o->hoof_length = o->hoof_width * (hind ? span (rand, 1.0, 1.12) : span (rand, 0.94, 1.07));
  o->lean_mm = span (rand, -1, 4);
  o->heels.width = hind ? span (rand, 0.64, 0.78) : span (rand, 0.58, 0.78);
  o->heels.ahead = hind ? span (rand, 0.57, 0.66) : span (rand, 0.5, 0.6);
  o->heels.fall = span (rand, 1.9, 2.8);
  o->heels.bulb = span (rand, 0.1, 0.2);
}

static void
corner (SceneOptions *o, GRand *rand)
{
  o->heels.round = one_in (rand, 2);
  o->heels.step_mm = span (rand, -0.5, 1.5);
  o->heels.blend_mm = span (rand, 0.3, 1);
  o->soft = span (rand, -0.3, 0.1);
}

static void
closed (HeelsKind kind, SceneOptions *o, GRand *rand)
{
  o->closed = true;
  corner (o, rand);
  o->heels.cleft = span (rand, -0.3, 0.3);
  switch (kind) {
  case HEELS_SMOOTH:
    o->heels.step_mm = span (rand, -6, -1);
    o->heels.blend_mm = o->heels.round ? span (rand, 3, 7) : span (rand, 0.5, 3);
    o->soft = span (rand, 0.5, 1);
    o->heels.cleft = span (rand, -1, 0.9);
    break;
  case HEELS_STEPPED:
    o->heels.step_mm = span (rand, 2, 6);
    o->soft = span (rand, -1, -0.5);
    break;
  case HEELS_CLEFT:
    o->heels.cleft = span (rand, -1.8, -0.6);
    o->heels.blend_mm = span (rand, 1.5, 4);
    o->soft = span (rand, -0.2, 0.6);
    break;
  case HEELS_FAINT:
    o->heels.pale = span (rand, 0.5, 0.93);
    break;
  default:
    break;
  }
}

static void
hidden (HeelsKind kind, SceneOptions *o, GRand *rand)
{
  o->hidden = (SceneHidden){ .what = kind == HEELS_MUD      ? SCENE_MUD
                                     : kind == HEELS_FINGER ? SCENE_FINGER
                                                            : SCENE_GLARE,
                             .at = one_in (rand, 2) ? span (rand, 0.14, 0.42) : span (rand, 0.58, 0.86) };
  /* a branch is about 1.3 times as long as the foot is wide */
  o->hidden.mm = span (rand, 0.12, 0.33) * 1.3 * o->hoof_width;
}

void
heels_scene (HeelsKind kind, guint32 seed, int width, SceneOptions *o)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed * 1009 + (guint32) kind);

  scene_defaults (o);
  o->seed = seed;
  o->width = width;
  o->height = width * 4 / 3;
  any_sheet (o, rand);
  any_foot (o, rand);
  if (kind < HEELS_TICKED)
    closed (kind, o, rand);
  if (kind == HEELS_TICKED) {
    closed ((HeelsKind) g_rand_int_range (rand, 0, HEELS_TICKED), o, rand);
    o->ticks = true;
    o->tick_deg = one_in (rand, 2) ? 0 : span (rand, -20, 25);
  }
  if (kind == HEELS_SHORT) {
    o->heels.ahead = span (rand, 0.6, 0.7);
    o->heels.width = span (rand, 0.72, 0.86);
    o->hoof_length = o->hoof_width * span (rand, 0.86, 0.98);
  }
  if (kind == HEELS_OPEN || kind == HEELS_SHORT)
    o->ticks = one_in (rand, 3);
  if (kind == HEELS_PARTIAL) {
    o->heels.short_mm[0] = one_in (rand, 2) ? 0 : span (rand, 30, 75);
    o->heels.short_mm[1] = o->heels.short_mm[0] > 0 && one_in (rand, 2) ? 0 : span (rand, 30, 75);
  }
  if (kind >= HEELS_MUD)
    hidden (kind, o, rand);
}
