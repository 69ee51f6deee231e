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
  double ahead = (hind ? 0.62 : 0.55) * o->hoof_length;

  return (Shape){ .ahead = ahead,
                  .behind = o->hoof_length - ahead,
                  .half = { (o->hoof_width - o->lean_mm) / 2, (o->hoof_width + o->lean_mm) / 2 },
                  .heel = hind ? 0.74 : 0.66,
                  .power = hind ? 1.96 : 2.16,
                  .fall = hind ? 2.1 : 1.9 };
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

/* Round the bulbs, lateral to medial: a cubic over each bulb with the cleft between. At the
 * buttress, where the quarter runs in and the bulb swells again, the ring has a blunt corner. */
static void
make_bulbs (HoofLine *hoof, const Shape *sh, double soft)
{
  const int n = 120;
  PrSheetPt from = hoof->heel[1], to = hoof->heel[0];
  double low = 0.14 * (sh->ahead + sh->behind);
  PrSheetPt cleft = { (from.x + to.x) / 2, (from.y + to.y) / 2 + 0.75 * low };
  double half = (to.x - from.x) / 2;

  hoof->bulbs = g_new (PrSheetPt, 2 * n + 1);
  hoof->n_bulbs = 2 * n + 1;
  for (int i = 0; i <= 2 * n; i++) {
    double t = (double) i / n;
    bool second = t > 1;
    double u = second ? 2 - t : t, v = 1 - u;
    PrSheetPt end = second ? to : from;
    double dir = second ? -half : half;
    PrSheetPt aim = bulb_aim (hoof, second ? 0 : 1, dir, low, soft);
    double x1 = aim.x, y1 = aim.y;
    double x2 = end.x + 0.62 * dir, y2 = end.y + 1.35 * low;
    hoof->bulbs[i]
        = (PrSheetPt){ v * v * v * end.x + 3 * v * v * u * x1 + 3 * v * u * u * x2 + u * u * u * cleft.x,
                       v * v * v * end.y + 3 * v * v * u * y1 + 3 * v * u * u * y2 + u * u * u * cleft.y };
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
  if (o->closed)
    make_bulbs (hoof, &sh, o->soft);
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
