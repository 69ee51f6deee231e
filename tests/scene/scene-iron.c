/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Iron on the sheet, seen from the pinhole: a field of distances to the figure's outline, and each ray followed through the
 * solid that stands on it. Heights are above the sheet, mm. */
#include "scene-parts.h"

#include <math.h>
#include <string.h>

#define RES 5.0     /* of the field, per mm */
#define FAR 16.0    /* mm about the figure, and the largest distance told */
#define SHADOW 2    /* field cells to one of the shadow's */
#define HEIGHTS 14  /* at which the shadow's light is looked at */
#define STEPS 40    /* along a ray through the solid */
#define CONTACT 3.5 /* mm by which the iron dims the paper beside it */
#define GLOW 14.0   /* and by which glowing iron lights it */
#define STEAM 248   /* level of steam, */
#define DRIFT 11.0  /* how far it hangs beyond the iron, mm, */
#define WISP 26.0   /* how large its wisps are */
#define HAZE 7      /* over how many pixels the thickest of it blurs what lies below, */
#define HAZE_FROM 0.1
#define PERIOD 4096 /* of the noise */

struct _Iron {
  const SceneShoe *shoe;
  double at[3];
  PrPx low;
  int w, h; /* of the field */
  float *far;
  guint8 *skin;
  int sw, sh;
  float *shade; /* light that reaches the paper, 0..1 */
};

/* --- the field --------------------------------------------------------------------------- */

static double
to_segment (PrPt p, PrPt a, PrPt b)
{
  PrPt d = pr_pt_sub (b, a), e = pr_pt_sub (p, a);
  double l = pr_pt_dot (d, d), t = l > 0 ? CLAMP (pr_pt_dot (e, d) / l, 0, 1) : 0;

  return hypot (e.x - d.x * t, e.y - d.y * t);
}

static PrPt
cell_at (const Iron *iron, int x, int y)
{
  return pr_pt (iron->low.x + x / RES, iron->low.y + y / RES);
}

static void
lay_segment (Iron *iron, PrPt a, PrPt b)
{
  int x0 = (int) ((fmin (a.x, b.x) - FAR - iron->low.x) * RES),
      x1 = (int) ((fmax (a.x, b.x) + FAR - iron->low.x) * RES);
  int y0 = (int) ((fmin (a.y, b.y) - FAR - iron->low.y) * RES),
      y1 = (int) ((fmax (a.y, b.y) + FAR - iron->low.y) * RES);

  for (int y = MAX (y0, 0); y <= MIN (y1, iron->h - 1); y++)
    for (int x = MAX (x0, 0); x <= MIN (x1, iron->w - 1); x++) {
      float *far = &iron->far[(gsize) y * (gsize) iron->w + (gsize) x];
      *far = fminf (*far, (float) to_segment (cell_at (iron, x, y), a, b));
    }
}

/* What lies right of the side from A to B changes between in and out. */
static void
flip_side (Iron *iron, PrPt a, PrPt b)
{
  for (int y = 0; y < iron->h; y++) {
    double v = iron->low.y + y / RES;
    if ((a.y > v) == (b.y > v))
      continue;
    double u = a.x + (v - a.y) * (b.x - a.x) / (b.y - a.y);
    int from = MAX ((int) ceil ((u - iron->low.x) * RES), 0);
    for (int x = from; x < iron->w; x++)
      iron->far[(gsize) y * (gsize) iron->w + (gsize) x] *= -1;
  }
}

static void
for_sides (Iron *iron, void (*lay) (Iron *, PrPt, PrPt))
{
  for (size_t k = 0; k < iron->shoe->n_ring; k++) {
    const PrPath *ring = &iron->shoe->ring[k];
    for (size_t i = 0; i < ring->n; i++)
      lay (iron, ring->p[i], ring->p[(i + 1) % ring->n]);
  }
}

static void
make_field (Iron *iron)
{
  PrPt low = pr_pt (INFINITY, INFINITY), high = pr_pt (-INFINITY, -INFINITY);

  for (size_t k = 0; k < iron->shoe->n_ring; k++)
    for (size_t i = 0; i < iron->shoe->ring[k].n; i++) {
      PrPt p = iron->shoe->ring[k].p[i];
      low = pr_pt (fmin (low.x, p.x), fmin (low.y, p.y));
      high = pr_pt (fmax (high.x, p.x), fmax (high.y, p.y));
    }
  iron->low = (PrPx){ low.x - 2 * FAR, low.y - 2 * FAR };
  iron->w = (int) ((high.x - low.x + 4 * FAR) * RES);
  iron->h = (int) ((high.y - low.y + 4 * FAR) * RES);
  iron->far = g_new (float, (gsize) iron->w *(gsize) iron->h);
  for (int i = 0; i < iron->w * iron->h; i++)
    iron->far[i] = FAR;
  for_sides (iron, lay_segment);
  for_sides (iron, flip_side);
}

/* Distance of a point of the sheet to the outline, negative inside. */
static inline double
far_at (const Iron *iron, double x, double y)
{
  double u = (x - iron->low.x) * RES, v = (y - iron->low.y) * RES;

  if (!(u >= 0 && v >= 0 && u < iron->w - 1 && v < iron->h - 1))
    return FAR;
  int i = (int) u, j = (int) v;
  const float *a = iron->far + (gsize) j * (gsize) iron->w + i, *b = a + iron->w;
  u -= i;
  v -= j;
  return (a[0] * (1 - u) + a[1] * u) * (1 - v) + (b[0] * (1 - u) + b[1] * u) * v;
}

/* --- shadow ------------------------------------------------------------------------------ */

static double
lit (const Iron *iron, PrPt p)
{
  const SceneShoe *s = iron->shoe;
  double a = s->light_deg * G_PI / 180, hidden = 0, beside = fmax (far_at (iron, p.x, p.y), 0);

  for (int i = 0; i <= HEIGHTS; i++) {
    double z = s->thick * i / HEIGHTS, along = z * s->light_fall;
    double far = far_at (iron, p.x - along * cos (a), p.y - along * sin (a));
    hidden = fmax (hidden, CLAMP (0.5 - far / (2 * (z * s->soft + 0.1)), 0, 1));
  }
  return (1 - s->dark * hidden) * (1 - 0.35 * exp (-beside / CONTACT));
}

static void
make_shade (Iron *iron)
{
  iron->sw = iron->w / SHADOW;
  iron->sh = iron->h / SHADOW;
  iron->shade = g_new (float, (gsize) iron->sw *(gsize) iron->sh);
  for (int y = 0; y < iron->sh; y++)
    for (int x = 0; x < iron->sw; x++)
      iron->shade[y * iron->sw + x] = iron->shoe->kind == SCENE_IRON_HOT
                                          ? 1
                                          : (float) lit (iron, cell_at (iron, SHADOW * x, SHADOW * y));
}

static double
shade_at (const Iron *iron, double x, double y)
{
  double u = (x - iron->low.x) * RES / SHADOW, v = (y - iron->low.y) * RES / SHADOW;

  if (!(u >= 0 && v >= 0 && u < iron->sw - 1 && v < iron->sh - 1))
    return 1;
  int i = (int) u, j = (int) v;
  const float *a = iron->shade + j * iron->sw + i, *b = a + iron->sw;
  u -= i;
  v -= j;
  return (a[0] * (1 - u) + a[1] * u) * (1 - v) + (b[0] * (1 - u) + b[1] * u) * v;
}

/* --- a ray through the solid ------------------------------------------------------------- */

/* By how much the outline has drawn in at the height Z. */
static double
drawn_in (const SceneShoe *s, double z)
{
  double r = s->arris, up = z - (s->thick - r), down = z - (s->thick - s->bevel);

  if (s->bevel > 0)
    return fmax (down, 0);
  return up > 0 ? r - sqrt (fmax (r * r - up * up, 0)) : 0;
}

/* Distance to the tongue standing at Z above the sheet, roughly. */
static double
to_clip (const SceneShoe *s, const SceneClip *clip, PrPt p, double z, double far)
{
  PrPt d = pr_pt_sub (p, clip->at);
  double across = fabs (d.x * -clip->out.y + d.y * clip->out.x), v = (z - s->thick) / clip->height;
  double half = clip->width / 2 * sqrt (fmax (1 - v * v, 0));

  if (v < 0 || v > 1 || pr_pt_len (d) > clip->width)
    return FAR;
  return fmax (fmax (far, -far - clip->thick), across - half);
}

static double
solid_at (const Iron *iron, PrPt p, double z)
{
  const SceneShoe *s = iron->shoe;
  double far = far_at (iron, p.x, p.y), to = z <= s->thick ? far + drawn_in (s, z) : FAR;

  for (size_t i = 0; i < s->n_clip; i++)
    to = fmin (to, to_clip (s, &s->clip[i], p, z, far));
  return to;
}

typedef struct {
  double p[2], lean[2]; /* on the sheet, and how it moves per mm of height */
} Ray;

static PrPt
ray_at (const Ray *ray, double z)
{
  return pr_pt (ray->p[0] + ray->lean[0] * z, ray->p[1] + ray->lean[1] * z);
}

/* The height at which RAY, coming down from HIGH, meets iron; negative: it does not. */
static double
meet (const Iron *iron, const Ray *ray, double high)
{
  double was = solid_at (iron, ray_at (ray, high), high);

  if (was < 0)
    return high;
  for (int i = 1; i <= STEPS; i++) {
    double z = high * (1 - (double) i / STEPS), to = solid_at (iron, ray_at (ray, z), z);
    if (to < 0)
      return z + high / STEPS * -to / (was - to);
    was = to;
  }
  return -1;
}

/* The height at which RAY meets a tongue; negative: it meets none. */
static double
clip_at (const Iron *iron, const Ray *ray)
{
  const SceneShoe *s = iron->shoe;
  PrPt top = ray_at (ray, s->thick);

  for (size_t i = 0; i < s->n_clip; i++) {
    double reach = s->clip[i].width + s->clip[i].height + s->thick;
    if (hypot (top.x - s->clip[i].at.x, top.y - s->clip[i].at.y) > reach)
      continue;
    double z = meet (iron, ray, s->thick + s->clip[i].height);
    if (z > s->thick)
      return z;
  }
  return -1;
}

static double
height_at (const Iron *iron, const Ray *ray)
{
  const SceneShoe *s = iron->shoe;
  PrPt top = ray_at (ray, s->thick);
  double most = hypot (ray->lean[0], ray->lean[1]) * s->thick, far = far_at (iron, top.x, top.y);
  double clip = clip_at (iron, ray);

  if (clip > 0)
    return clip;
  if (far < -fmax (s->arris, s->bevel) - 0.1)
    return s->thick;
  return far > most + 0.1 ? -1 : meet (iron, ray, s->thick);
}

/* --- colour ------------------------------------------------------------------------------ */

static void
skin_at (const Iron *iron, PrPt p, float rgb[3])
{
  double u = CLAMP ((p.x - iron->low.x) * RES, 0, iron->w - 2),
         v = CLAMP ((p.y - iron->low.y) * RES, 0, iron->h - 2);
  int i = (int) u, j = (int) v;
  const guint8 *a = iron->skin + 3 * ((gsize) j * (gsize) iron->w + (gsize) i), *b = a + 3 * iron->w;

  u -= i;
  v -= j;
  for (int k = 0; k < 3; k++)
    rgb[k] = (float) (SKIN_UNIT
                      * ((a[k] * (1 - u) + a[k + 3] * u) * (1 - v) + (b[k] * (1 - u) + b[k + 3] * u) * v));
}

/* Light on a wall at P: more where it faces the lamp, less towards the sheet. */
static double
wall_light (const Iron *iron, PrPt p, double z)
{
  const SceneShoe *s = iron->shoe;
  double a = s->light_deg * G_PI / 180, e = 0.3;
  PrPt n = pr_pt_unit (pr_pt (far_at (iron, p.x + e, p.y) - far_at (iron, p.x - e, p.y),
                              far_at (iron, p.x, p.y + e) - far_at (iron, p.x, p.y - e)));
  double facing = fmax (-n.x * cos (a) - n.y * sin (a), 0);

  return (0.42 + 0.45 * facing) * (0.7 + 0.3 * fmin (z / s->thick, 1));
}

static void
colour_at (const Iron *iron, const Ray *ray, double z, float rgb[3])
{
  const SceneShoe *s = iron->shoe;
  PrPt p = ray_at (ray, z);
  double edge = fmax (s->arris, s->bevel), light = 1;

  skin_at (iron, p, rgb);
  if (z < s->thick - edge - 0.02)
    light = wall_light (iron, p, z);
  else if (z < s->thick - 0.02)
    light = 0.85 + 0.5 * (wall_light (iron, p, z) - 0.3); /* a worn arris shines on the lamp's side */
  else if (z > s->thick + 0.02)
    light = 0.75;
  if (s->kind == SCENE_IRON_HOT)
    light = fmax (light, 0.9);
  for (int k = 0; k < 3; k++)
    rgb[k] *= (float) light;
}

/* The light of the paper at P. */
static void
shade_paper (const Iron *iron, const double p[2], float rgb[3])
{
  double light = shade_at (iron, p[0], p[1]), glow = 0;

  if (iron->shoe->kind == SCENE_IRON_HOT)
    glow = exp (-fmax (far_at (iron, p[0], p[1]), 0) / GLOW);
  rgb[0] = (float) (rgb[0] * light + 40 * glow);
  rgb[1] = (float) (rgb[1] * light * (1 - 0.35 * glow));
  rgb[2] = (float) (rgb[2] * light * (1 - 0.7 * glow));
}

/* --- steam ------------------------------------------------------------------------------- */

/* Share of what lies at P that steam hides: wisps that come off the iron and hang over it and beside it. */
static double
steam_at (const Iron *iron, const double p[2])
{
  const SceneShoe *s = iron->shoe;
  double wisp = noise_at (s->seed * 7 + 6, p[0] / WISP + 30, p[1] / WISP + 30, PERIOD);
  double beside = fmax (far_at (iron, p[0], p[1]), 0) / DRIFT, thin = CLAMP (0.5 + 0.9 * wisp, 0, 1);

  return s->steam * thin * exp (-beside * beside);
}

static void
veil (float rgb[3], double share)
{
  for (int k = 0; k < 3; k++)
    rgb[k] += (float) (share * (STEAM - rgb[k]));
}

/* --- in and out -------------------------------------------------------------------------- */

Iron *
iron_new (const SceneShoe *shoe, const double at[3])
{
  Iron *iron = g_new0 (Iron, 1);

  iron->shoe = shoe;
  memcpy (iron->at, at, sizeof iron->at);
  make_field (iron);
  make_shade (iron);
  iron->skin = iron_skin (shoe, pr_pt (iron->low.x, iron->low.y), iron->w, iron->h, RES);
  return iron;
}

void
iron_free (Iron *iron)
{
  g_free (iron->far);
  g_free (iron->shade);
  g_free (iron->skin);
  g_free (iron);
}

void
scene_shoe_clear (SceneShoe *shoe)
{
  for (size_t i = 0; i < SCENE_SHOE_RINGS; i++)
    pr_path_clear (&shoe->ring[i]);
  for (size_t i = 0; i < SCENE_SHOE_CREASES; i++)
    pr_path_clear (&shoe->crease[i]);
  *shoe = (SceneShoe){ 0 };
}

static Ray
ray_to (const Iron *iron, double x, double y)
{
  return (Ray){ { x, y }, { (iron->at[0] - x) / iron->at[2], (iron->at[1] - y) / iron->at[2] } };
}

/* Does all about the pixel at P look the same: nothing but paper (FALSE in IS_IRON), or nothing but the face? */
static bool
is_plain (const Iron *iron, const Ray *ray, double size, bool *is_iron)
{
  const SceneShoe *s = iron->shoe;
  PrPt top = ray_at (ray, s->thick);
  double far = far_at (iron, top.x, top.y), most = hypot (ray->lean[0], ray->lean[1]) * s->thick;

  *is_iron = far < -fmax (s->arris, s->bevel) - size;
  return s->n_clip == 0 && (*is_iron || far > most + size);
}

/* What shows about P without steam: N by N samples over SPREAD pixels. RGB is the paper's. */
static void
cold_over (const Iron *iron, const double p[2], const double px[2], const double py[2], int n, double spread,
           float rgb[3])
{
  float sum[3] = { 0 };

  for (int i = 0; i < n * n; i++) {
    double u = spread * ((i % n + 0.5) / n - 0.5), v = spread * ((i / n + 0.5) / n - 0.5);
    float seen[3] = { rgb[0], rgb[1], rgb[2] };
    Ray ray = ray_to (iron, p[0] + u * px[0] + v * py[0], p[1] + u * px[1] + v * py[1]);
    double z = height_at (iron, &ray);
    if (z > 0)
      colour_at (iron, &ray, z, seen);
    for (int k = 0; k < 3; k++)
      sum[k] += seen[k] / (float) (n * n);
  }
  memcpy (rgb, sum, sizeof sum);
}

void
iron_over (const Iron *iron, const double p[2], const double px[2], const double py[2], float rgb[3])
{
  double size = fabs (px[0]) + fabs (px[1]) + fabs (py[0]) + fabs (py[1]);
  Ray ray = ray_to (iron, p[0], p[1]);
  bool is_iron, steams = iron->shoe->steam > 0;
  int n = !steams && is_plain (iron, &ray, size + 0.2, &is_iron) ? 1 : 3;

  if (fabs (far_at (iron, p[0], p[1])) >= FAR
      && far_at (iron, ray.p[0] + ray.lean[0] * 30, ray.p[1] + ray.lean[1] * 30) >= FAR
      && shade_at (iron, p[0], p[1]) >= 1)
    return;
  shade_paper (iron, p, rgb);
  if (steams) {
    double share = steam_at (iron, p);
    cold_over (iron, p, px, py, share > HAZE_FROM ? 5 : n, 1 + HAZE * share, rgb);
    veil (rgb, share);
  } else if (n > 1 || is_iron)
    cold_over (iron, p, px, py, n, 1, rgb);
}
