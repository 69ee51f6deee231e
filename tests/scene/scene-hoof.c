/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line a hand draws round a hoof. In the hoof's own frame x runs to the lateral side and
 * y to the toe from the widest line; ahead of that line each half is a super-ellipse, behind
 * it the quarter runs in to the heel. */
#include "scene-parts.h"

#include <math.h>
#include "pr-path.h"

#define STEP_MM 0.4 /* between points of the true line */
#define ROUGH 2000  /* points of the smooth outline before it is drawn */

typedef struct {
  double ahead, behind; /* of the widest line */
  double half[2];       /* half widths: medial, lateral */
  double heel;          /* heel's share of the half width */
  double power;         /* of the super-ellipse: 2 an ellipse, more is squarer */
  double fall;          /* how late the quarter runs in */
} Shape;

static Shape
shape_of (const SceneOptions *o)
{
  bool hind = pr_foot_is_hind (o->foot);
  /* a hind hoof is widest between its middle and rear thirds, and narrower at the toe */
  const SceneHeels *h = &o->heels;
  double ahead = (h->ahead > 0 ? h->ahead : hind ? 0.62 : 0.55) * o->hoof_length;

  return (Shape){ .ahead = ahead,
                  .behind = o->hoof_length - ahead,
                  .half = { (o->hoof_width - o->lean_mm) / 2, (o->hoof_width + o->lean_mm) / 2 },
                  .heel = h->width > 0 ? h->width
                          : hind       ? 0.74
                                       : 0.66,
                  .power = hind ? 1.96 : 2.16,
                  .fall = h->fall > 0 ? h->fall
                          : hind      ? 2.1
                                      : 1.9 };
}

/* Half the outline, T from 0 at the heel to 1 at the toe. */
static PrPt
shape_at (const Shape *sh, int lateral, double t)
{
  double w = sh->half[lateral], x, y;

  if (t < 0.4) {
    double back = 1 - t / 0.4;
    y = -sh->behind * back;
    x = w * (1 - (1 - sh->heel) * pow (back, sh->fall));
  } else {
    double a = (t - 0.4) / 0.6 * G_PI / 2;
    x = w * pow (fmax (cos (a), 0), 2 / sh->power);
    y = sh->ahead * pow (sin (a), 2 / sh->power);
  }
  return pr_pt (lateral ? x : -x, y);
}

static PrSheetPt
to_sheet (const HoofLine *hoof, PrPt p)
{
  return (PrSheetPt){ hoof->middle.x + hoof->side * p.x, hoof->middle.y - p.y };
}

/* Equal steps along the smooth outline, medial heel first. Transfer full. */
static PrPt *
smooth_outline (const Shape *sh, size_t *n_out)
{
  g_autofree PrPt *rough = g_new (PrPt, 2 * ROUGH + 1);
  double length = 0, s = 0;

  for (int i = 0; i <= ROUGH; i++) {
    rough[i] = shape_at (sh, 0, (double) i / ROUGH);
    rough[2 * ROUGH - i] = shape_at (sh, 1, (double) i / ROUGH);
  }
  for (int i = 1; i <= 2 * ROUGH; i++)
    length += pr_pt_dist (rough[i - 1], rough[i]);

  size_t n = (size_t) ceil (length / STEP_MM) + 1, k = 0;
  PrPt *out = g_new (PrPt, n);
  for (size_t i = 0; i < n; i++) {
    double want = length * (double) i / (double) (n - 1), side;
    while (k < 2 * ROUGH - 1 && s + (side = pr_pt_dist (rough[k], rough[k + 1])) < want) {
      s += side;
      k++;
    }
    side = pr_pt_dist (rough[k], rough[k + 1]);
    out[i] = pr_pt_lerp (rough[k], rough[k + 1], side > 0 ? fmin ((want - s) / side, 1) : 0);
  }
  *n_out = n;
  return out;
}

/* The hand strays from the wall: slow waves and a slight tremor, along the normal. */
static void
stray (PrPt *p, size_t n, double wobble, Chance *c)
{
  g_autofree PrPt *normal = g_new (PrPt, n);
  Waver slow, tremor;

  waver_set (&slow, c, 25, 120);
  waver_set (&tremor, c, 4, 9);
  for (size_t i = 0; i < n; i++) {
    PrPt a = p[i > 0 ? i - 1 : 0], b = p[i + 1 < n ? i + 1 : n - 1];
    normal[i] = pr_pt_left (pr_pt_unit (pr_pt_sub (b, a)));
  }
  for (size_t i = 0; i < n; i++) {
    double s = STEP_MM * (double) i;
    double by = wobble * (0.97 * waver_at (&slow, s) + 0.15 * waver_at (&tremor, s));
    p[i] = pr_pt_along (p[i], normal[i], by);
  }
}

static void
find_toe (HoofLine *hoof)
{
  size_t best = 0;

  for (size_t i = 1; i < hoof->n; i++) {
    PrSheetPt a = hoof->line[i - 1], b = hoof->line[i];
    double da = a.x - hoof->middle.x, db = b.x - hoof->middle.x;
    if (da * db > 0 || b.y > hoof->middle.y)
      continue;
    double t = da == db ? 0 : da / (da - db);
    hoof->toe = (PrSheetPt){ a.x + t * (b.x - a.x), a.y + t * (b.y - a.y) };
    best = i;
  }
  g_assert (best > 0);
}

/* Where the bulb's cubic is drawn to from the heel END: straight back; the further SOFT goes to 1, the
 * more in the wall's own direction, and to -1 the more outward. */
static PrSheetPt
bulb_aim (const HoofLine *hoof, int end, double half, double low, double soft)
{
  PrSheetPt heel = hoof->heel[end], in = hoof->line[end ? hoof->n - 12 : 11];
  PrSheetPt back = { heel.x + 0.02 * half, heel.y + 1.0 * low };
  double far = low / hypot (heel.x - in.x, heel.y - in.y);
  PrSheetPt to = soft > 0 ? (PrSheetPt){ heel.x + far * (heel.x - in.x), heel.y + far * (heel.y - in.y) }
                          : (PrSheetPt){ heel.x - 0.5 * half, heel.y + 0.8 * low };
  double k = fabs (soft);
  return (PrSheetPt){ back.x + k * (to.x - back.x), back.y + k * (to.y - back.y) };
}

/* How far the bulbs reach behind the heels, mm. */
static double
bulbs_low (const SceneOptions *o)
{
  return (o->heels.bulb > 0 ? o->heels.bulb : 0.14) * o->hoof_length;
}

/* Round the bulbs, lateral to medial: a cubic over each bulb with the cleft between. At the
 * buttress, where the quarter runs in and the bulb swells again, the ring has a blunt corner. */
static void
make_bulbs (HoofLine *hoof, const SceneOptions *o)
{
  const int n = 120;
  PrSheetPt from = hoof->heel[1], to = hoof->heel[0];
  double low = bulbs_low (o), deep = 0.25 * (1 - o->heels.cleft);
  PrSheetPt cleft = { (from.x + to.x) / 2, (from.y + to.y) / 2 + (1 - deep) * low };
  double half = (to.x - from.x) / 2;

  hoof->bulbs = g_new (PrSheetPt, 2 * n + 1);
  hoof->n_bulbs = 2 * n + 1;
  for (int i = 0; i <= 2 * n; i++) {
    double t = (double) i / n;
    bool second = t > 1;
    double u = second ? 2 - t : t, v = 1 - u;
    PrSheetPt end = second ? to : from;
    double dir = second ? -half : half;
    PrSheetPt aim = bulb_aim (hoof, second ? 0 : 1, dir, low, o->soft);
    double x1 = aim.x, y1 = aim.y;
    double x2 = end.x + 0.62 * dir, y2 = end.y + 1.35 * low;
    hoof->bulbs[i]
        = (PrSheetPt){ v * v * v * end.x + 3 * v * v * u * x1 + 3 * v * u * u * x2 + u * u * u * cleft.x,
                       v * v * v * end.y + 3 * v * v * u * y1 + 3 * v * u * u * y2 + u * u * u * cleft.y };
  }
}

/* A point on the sheet, BACK mm behind the middle of the heels and ASIDE to the lateral heel's side. */
static PrSheetPt
behind_heels (const HoofLine *hoof, double aside, double back)
{
  PrSheetPt a = hoof->heel[0], b = hoof->heel[1];
  double way = a.x < b.x ? 1 : -1;

  return (PrSheetPt){ (a.x + b.x) / 2 + way * aside, (a.y + b.y) / 2 + back };
}

/* Round the bulbs, lateral to medial, as two ellipses that stand out by STEP beyond the heels and cross in the
 * cleft, or leave one dip between them. */
static void
make_round_bulbs (HoofLine *hoof, const SceneOptions *o)
{
  const int n = 120;
  double half = hypot (hoof->heel[1].x - hoof->heel[0].x, hoof->heel[1].y - hoof->heel[0].y) / 2;
  double low = bulbs_low (o), wide = half + o->heels.step_mm, tall = 0.8 * low;
  double rx = wide * fmin (fmax (0.6 + 0.12 * o->heels.cleft, 0.52), 0.85);
  double last = G_PI - acos ((wide - rx) / rx); /* where both meet */

  hoof->bulbs = g_new (PrSheetPt, 2 * n + 2);
  hoof->bulbs[0] = hoof->heel[1];
  for (int i = 0; i < 2 * n; i++) {
    double a = (double) (i < n ? i : 2 * n - 1 - i) / (n - 1) * last;
    hoof->bulbs[i + 1]
        = behind_heels (hoof, (i < n ? 1 : -1) * (wide - rx + rx * cos (a)), low - tall + tall * sin (a));
  }
  hoof->bulbs[2 * n + 1] = hoof->heel[0];
  hoof->n_bulbs = 2 * n + 2;
}

/* The ring as a hand draws it that rounds by SIGMA what is sharp: wall and bulbs in steps of STEP_MM, each the mean of
 * its neighbours. The heels stay the points they were. */
static void
blend (HoofLine *hoof, double sigma)
{
  g_auto (PrPath) bulbs = { 0 }, even = { 0 };
  int reach = (int) ceil (3 * sigma / STEP_MM);

  for (size_t i = 0; i < hoof->n_bulbs; i++)
    pr_path_add (&bulbs, pr_pt (hoof->bulbs[i].x, hoof->bulbs[i].y));
  pr_path_resample (&even, &bulbs, (size_t) (pr_path_length (&bulbs) / STEP_MM) + 2);
  int wall = (int) hoof->n, m = wall + (int) even.n - 2;
  g_autofree PrPt *ring = g_new (PrPt, m), *out = g_new (PrPt, m);
  for (int i = 0; i < m; i++)
    ring[i] = i < wall ? pr_pt (hoof->line[i].x, hoof->line[i].y) : even.p[i - wall + 1];
  for (int i = 0; i < m; i++) {
    double all = 0;
    out[i] = pr_pt (0, 0);
    for (int k = -reach; k <= reach; k++) {
      double w = exp (-0.5 * k * k * STEP_MM * STEP_MM / (sigma * sigma));
      out[i] = pr_pt_along (out[i], ring[(i + k + m) % m], w);
      all += w;
    }
    out[i] = pr_pt_scale (out[i], 1 / all);
  }
  hoof->bulbs = g_renew (PrSheetPt, hoof->bulbs, even.n);
  hoof->n_bulbs = even.n;
  for (int i = 0; i < wall; i++)
    hoof->line[i] = (PrSheetPt){ out[i].x, out[i].y };
  for (int i = 0; i < (int) even.n; i++) {
    PrPt p = out[(wall - 1 + i) % m];
    hoof->bulbs[i] = (PrSheetPt){ p.x, p.y };
  }
}

void
hoof_line_make (HoofLine *hoof, const SceneOptions *o, PrSheetPt middle, Chance *c)
{
  Shape sh = shape_of (o);
  size_t n;
  g_autofree PrPt *p = smooth_outline (&sh, &n);

  *hoof = (HoofLine){ .side = pr_lateral_sign (o->foot, PR_FACE_FOOT), .n = n };
  hoof->middle = (PrSheetPt){ middle.x, middle.y - (sh.behind - sh.ahead) / 2 };
  stray (p, n, o->wobble_mm, c);
  hoof->line = g_new (PrSheetPt, n);
  for (size_t i = 0; i < n; i++)
    hoof->line[i] = to_sheet (hoof, p[i]);
  hoof->heel[0] = hoof->line[0];
  hoof->heel[1] = hoof->line[n - 1];
  find_toe (hoof);
  if (o->closed && o->heels.round)
    make_round_bulbs (hoof, o);
  else if (o->closed)
    make_bulbs (hoof, o);
  if (o->closed && o->heels.blend_mm > 0)
    blend (hoof, o->heels.blend_mm);
  hoof->heel[0] = hoof->line[0];
  hoof->heel[1] = hoof->line[n - 1];
  hoof->frog[0] = to_sheet (hoof, pr_pt (-0.35 * sh.half[0], -sh.behind + 3));
  hoof->frog[1] = to_sheet (hoof, pr_pt (0, 0.22 * sh.ahead));
  hoof->frog[2] = to_sheet (hoof, pr_pt (0.35 * sh.half[1], -sh.behind + 3));
}

void
hoof_line_clear (HoofLine *hoof)
{
  g_clear_pointer (&hoof->line, g_free);
  g_clear_pointer (&hoof->bulbs, g_free);
  hoof->n = hoof->n_bulbs = 0;
}
