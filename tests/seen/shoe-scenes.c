/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shoe-scenes.h"

#include <string.h>
#include "kit.h"

#define LAID_MM 9.0 /* the shoe lies off the middle of the field by no more than this */

const ShoeKind shoe_kinds[] = {
  { "steel", SCENE_IRON_STEEL },
  { "rusty", SCENE_IRON_RUSTY },
  { "scale", SCENE_IRON_SCALE },
  { "above", SCENE_IRON_STEEL, .tilt = 1 },
  { "near", SCENE_IRON_RUSTY, .far_mm = 320 },
  { "straight-bar", SCENE_IRON_STEEL, .style = "straight-bar" },
  { "egg-bar", SCENE_IRON_RUSTY, .style = "egg-bar" },
  { "heart-bar", SCENE_IRON_SCALE, .style = "heart-bar" },
  { "bright", SCENE_IRON_BRIGHT, .hard = true },
  { "aluminium", SCENE_IRON_ALUMINIUM, .hard = true },
  { "chalk", SCENE_IRON_SCALE, .chalk = true, .hard = true },
  { "clip", SCENE_IRON_STEEL, .clip = true, .style = "toe-clipped", .hard = true },
  { "shadow", SCENE_IRON_STEEL, .hard_shadow = true, .fall = 1.4, .hard = true },
  { "dim", SCENE_IRON_RUSTY, .dark = 0.7, .hard = true },
  { "bevel", SCENE_IRON_STEEL, .bevel = 2, .hard = true },
  { "plain", SCENE_IRON_RUSTY, .plain = true, .hard = true },
  { "pale", SCENE_IRON_PALE, .hard = true },
  { "grey", SCENE_IRON_GREY, .hard = true },
  { "grey-shadow", SCENE_IRON_GREY, .hard_shadow = true, .fall = 1.2, .hard = true },
  { "drawn", .drawn = true },
  { "steaming", SCENE_IRON_STEEL, .steam = 0.9, .hard = true },
};
const size_t shoe_kinds_n = G_N_ELEMENTS (shoe_kinds);

const ShoeKind *
shoe_kind (const char *name)
{
  for (size_t i = 0; i < shoe_kinds_n; i++)
    if (strcmp (shoe_kinds[i].name, name) == 0)
      return &shoe_kinds[i];
  g_error ("no such kind: %s", name);
}

typedef struct {
  double cx, cy, turn, sign; /* where it lies */
  double open, from, reach;  /* one branch opened by so much, from this height of it on down */
  int branch;                /* -1: medial */
} Laid;

/* The forging error, then the sheet. */
static PrPt
lay (const Laid *l, PrPt p)
{
  double share = CLAMP ((l->from - p.y) / l->reach, 0, 1.2);
  double x = l->sign * (p.x + (p.x * l->branch > 0 ? l->branch * l->open * share * share : 0)), y = -p.y;

  return pr_pt (l->cx + x * cos (l->turn) - y * sin (l->turn), l->cy + x * sin (l->turn) + y * cos (l->turn));
}

static void
lay_path (PrPath *to, const PrPath *from, const Laid *l)
{
  pr_path_empty (to);
  for (size_t i = 0; i < from->n; i++)
    pr_path_add (to, lay (l, from->p[i]));
}

/* With sides no longer than a millimetre, so that what is laid bends with the error. */
static void
lay_ring (PrPath *to, const PrPath *ring, const Laid *l)
{
  g_auto (PrPath) closed = { 0 }, fine = { 0 };

  pr_path_copy (&closed, ring);
  pr_path_add (&closed, ring->p[0]);
  for (size_t i = 0; i + 1 < closed.n; i++) {
    int n = (int) ceil (pr_pt_dist (closed.p[i], closed.p[i + 1]));
    for (int k = 0; k < n; k++)
      pr_path_add (&fine, pr_pt_lerp (closed.p[i], closed.p[i + 1], (double) k / n));
  }
  lay_path (to, &fine, l);
}

static void
add_hole (ShoeScene *s, const PrNail *nail, const Laid *l)
{
  PrPath *ring = &s->shoe.ring[s->shoe.n_ring++];

  for (int i = 0; i < 4; i++) {
    double a = i == 1 || i == 2 ? 2.6 : -2.6, o = i >= 2 ? 1.6 : -1.6;
    pr_path_add (ring, lay (l, pr_pt_along (pr_pt_along (nail->at, nail->along, a), nail->out, o)));
  }
  s->nail[s->n_nail++] = lay (l, nail->at);
}

static void
add_clip (ShoeScene *s, const PrClip *clip, const Laid *l)
{
  PrPt at = lay (l, clip->at), out = pr_pt_sub (lay (l, pr_pt_add (clip->at, clip->out)), at);

  s->shoe.clip[s->shoe.n_clip++]
      = (SceneClip){ at, pr_pt_unit (out), clip->base, clip->height, fmax (clip->thickness, 3) };
}

static void
fill_shoe (ShoeScene *s, const PrShoe *shoe, const ShoeKind *kind, const Laid *l)
{
  s->truth.n = shoe->figure.n;
  s->truth.ring = g_new0 (PrPath, shoe->figure.n);
  for (size_t i = 0; i < shoe->figure.n; i++) {
    lay_ring (&s->truth.ring[i], &shoe->figure.ring[i], l);
    pr_path_copy (&s->shoe.ring[s->shoe.n_ring++], &s->truth.ring[i]);
  }
  for (size_t i = 0; i < shoe->n_nails && i < 16; i++)
    add_hole (s, &shoe->nail[i], l);
  for (size_t i = 0; i < shoe->n_creases && s->face == PR_FACE_GROUND; i++) {
    lay_path (&s->shoe.crease[i], &shoe->crease[i].middle, l);
    s->shoe.crease_mm = shoe->crease[i].width;
    s->shoe.n_crease++;
  }
  for (size_t i = 0; i < shoe->n_clips && kind->clip && i < 2; i++)
    add_clip (s, &shoe->clip[i], l);
  s->open = shoe->figure.n == 1;
  for (int b = 0; b < 2; b++)
    s->heel[b] = lay (l, pr_pt_lerp (shoe->heel_outer[b], shoe->heel_inner[b], 0.5));
}

static void
set_camera (SceneOptions *o, const ShoeKind *kind, GRand *r)
{
  o->tilt_deg = kind->tilt > 0 ? kind->tilt : g_rand_double_range (r, 0, 30);
  o->tilt_dir_deg = g_rand_double_range (r, 0, 360);
  o->turn_deg = g_rand_double_range (r, -7, 7);
  o->k1 = g_rand_double_range (r, -0.09, 0.09);
  o->far_mm = kind->far_mm > 0 ? kind->far_mm : g_rand_double_range (r, 400, 700);
  bool told = g_rand_double (r) < 0.6;
  o->focal = told ? g_rand_double_range (r, 0.7, 1.0) : g_rand_double_range (r, 0.68, 0.77);
  o->focal35 = told ? (int) lround (o->focal * 36) : 0;
}

static void
set_iron (SceneShoe *s, const ShoeKind *kind, guint32 seed, GRand *r)
{
  s->thick = g_rand_double_range (r, 6, 13);
  s->arris = g_rand_double_range (r, 0.2, 1.0);
  s->bevel = kind->bevel;
  s->steam = kind->steam;
  s->kind = kind->iron;
  s->seed = seed;
  s->chalk = kind->chalk;
  s->light_deg = g_rand_double_range (r, 0, 360);
  s->light_fall = kind->fall > 0 ? kind->fall : g_rand_double_range (r, 0.2, 1.0);
  s->soft = kind->hard_shadow ? 0.03 : g_rand_double_range (r, 0.1, 0.4);
  s->dark = kind->hard_shadow ? 0.6 : g_rand_double_range (r, 0.25, 0.5);
}

/* The pen runs along the iron, its edge on it: its middle is half its width out of the iron. */
static void
draw_round (ShoeScene *s)
{
  SceneOptions *o = &s->options;

  o->pen = SCENE_PEN_BALLPOINT;
  o->pen_mm = 0.7;
  for (size_t i = 0; i < s->truth.n; i++) {
    g_auto (PrFigure) figure = { 0 };
    g_auto (PrFigure) grown = { 0 };
    pr_figure_from_ring (&figure, &s->truth.ring[i]);
    if (i == 0 && pr_figure_grow (&grown, &figure, o->pen_mm / 2))
      pr_path_copy (&s->stroke[o->n_stroke++], &grown.ring[0]);
  }
  o->stroke = s->stroke;
  o->shoe = NULL;
}

static const char *const open_styles[]
    = { "plain-front", "plain-hind", "squared-toe", "trailer", "lateral-extension" };

static KitFoot
foot_by (GRand *r)
{
  double half = g_rand_double_range (r, 52, 70);

  return (KitFoot){ half, half * g_rand_double_range (r, 0.95, 1.08), half * 1.72,
                    half * g_rand_double_range (r, 0.9, 1.05), g_rand_double_range (r, -2, 3) };
}

static void
make (ShoeScene *s, const ShoeKind *kind, const PrJob *given, guint32 seed)
{
  GRand *r = g_rand_new_with_seed (seed * 977 + (guint32) (kind - shoe_kinds));
  KitFoot shape = foot_by (r);
  SceneOptions *o = &s->options;
  double width, height;

  scene_defaults (o);
  o->seed = seed;
  o->foot = (PrFoot) g_rand_int_range (r, 1, 5);
  o->no_line = true;
  o->tags = !kind->plain;
  o->dark = kind->dark;
  scene_size (o, &width, &height);
  set_camera (o, kind, r);
  set_iron (&s->shoe, kind, seed, r);
  s->face = kind->clip || g_rand_boolean (r) ? PR_FACE_FOOT : PR_FACE_GROUND;
  const char *style
      = kind->style != NULL ? kind->style : open_styles[g_rand_int_range (r, 0, G_N_ELEMENTS (open_styles))];
  g_autoptr (PrJob) made = given ? NULL : kit_styled (&shape, o->foot, style);
  const PrJob *job = given ? given : made;
  o->foot = job->sources.foot;
  Laid l = { width / 2 + g_rand_double_range (r, -LAID_MM, LAID_MM),
             height / 2 + g_rand_double_range (r, -LAID_MM, LAID_MM),
             g_rand_double_range (r, -0.25, 0.25),
             pr_lateral_sign (o->foot, s->face),
             kind->style ? 0 : g_rand_double_range (r, -3, 5),
             20,
             80,
             g_rand_boolean (r) ? -1 : 1 };
  s->turn = l.turn;
  fill_shoe (s, job->shoe, kind, &l);
  o->shoe = &s->shoe;
  if (kind->drawn)
    draw_round (s);
  g_rand_free (r);
}

void
shoe_scene_make (ShoeScene *s, const ShoeKind *kind, guint32 seed)
{
  make (s, kind, NULL, seed);
}

void
shoe_scene_of (ShoeScene *s, const ShoeKind *kind, const PrJob *job, guint32 seed)
{
  make (s, kind, job, seed);
}

void
shoe_scene_clear (ShoeScene *s)
{
  scene_shoe_clear (&s->shoe);
  pr_figure_clear (&s->truth);
  for (size_t i = 0; i < G_N_ELEMENTS (s->stroke); i++)
    pr_path_clear (&s->stroke[i]);
  *s = (ShoeScene){ 0 };
}
