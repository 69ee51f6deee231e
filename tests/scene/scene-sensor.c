/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What optics and sensor make of a row of the photo: blur, light, a lamp's reflection, noise. */
#include "scene-parts.h"

#include <math.h>
#include <string.h>
#include "pr-work.h"

#define NOISE_SIZE 65536

/* Of a row, two of these are blurred together: */
typedef float Part __attribute__ ((vector_size (32)));
#define PART 8

/* Each row draws its own numbers, one after the other; eight at a time each is so far from the last of its lane. */
#define LOT_TIMES 1664525u
#define LOT_PLUS 1013904223u
#define LANES 8
typedef guint32 Lots __attribute__ ((vector_size (4 * LANES)));

static void
make_kernel (Sensor *s, double blur_px)
{
  double sum = 0;

  s->reach = blur_px > 0.05 ? MIN ((int) ceil (3 * blur_px), BLUR_MAX) : 0;
  for (int i = -s->reach; i <= s->reach; i++) {
    double u = s->reach > 0 ? i / blur_px : 0;
    s->kernel[i + s->reach] = (float) exp (-u * u / 2);
    sum += exp (-u * u / 2);
  }
  for (int i = 0; i <= 2 * s->reach; i++)
    s->kernel[i] /= (float) sum;
}

void
sensor_make (Sensor *s, const PrCamera *cam, const SceneOptions *o, const Stage *stage)
{
  Chance c = chance_new (o->seed, 30);
  double bright = 0.97 - 0.6 * o->dark;

  *s = (Sensor){ .width = o->width, .seed = o->seed, .sigma = o->noise };
  s->noise = g_new (float, NOISE_SIZE);
  for (int i = 0; i < NOISE_SIZE; i++)
    s->noise[i] = (float) chance_normal (&c);
  light_make (&s->light, o);
  if (stage->glare_mm > 0) {
    PrSheetPt at = stage->glare;
    PrPx a = camera_project (cam, at);
    PrPx b = camera_project (cam, (PrSheetPt){ at.x + 1, at.y });
    s->glare = a;
    s->glare_px = stage->glare_mm / 2 * hypot (b.x - a.x, b.y - a.y);
  }
  s->black = 4 + 8 * o->dark;
  s->tint[0] = bright;
  s->tint[1] = bright * (1 - 0.10 * o->dark);
  s->tint[2] = bright * (1 - 0.30 * o->dark);
  make_kernel (s, o->blur_px);
}

void
sensor_clear (Sensor *s)
{
  g_clear_pointer (&s->noise, g_free);
  light_clear (&s->light);
}

/* --- blur -------------------------------------------------------------------------------- */

PR_WIDE void
sensor_down (const Sensor *s, const float *const *rows, float *out)
{
  int n = 3 * s->width, taps = 2 * s->reach + 1, i = 0;

  for (; i + 2 * PART <= n; i += 2 * PART) {
    Part sum = { 0 }, more = { 0 };
    for (int k = 0; k < taps; k++) {
      Part first, second;
      memcpy (&first, rows[k] + i, sizeof first);
      memcpy (&second, rows[k] + i + PART, sizeof second);
      sum += s->kernel[k] * first;
      more += s->kernel[k] * second;
    }
    memcpy (out + i, &sum, sizeof sum);
    memcpy (out + i + PART, &more, sizeof more);
  }
  for (; i < n; i++) {
    float sum = 0;
    for (int k = 0; k < taps; k++)
      sum += s->kernel[k] * rows[k][i];
    out[i] = sum;
  }
}

/* Along a row is down as many copies of it, each a pixel on; its ends go on beyond it. */
void
sensor_across (const Sensor *s, float *row, float *spare)
{
  int w = s->width, r = s->reach;
  const float *from[2 * BLUR_MAX + 1];

  if (r == 0)
    return;
  memcpy (spare + 3 * r, row, 3 * sizeof (float) * (gsize) w);
  for (int i = 0; i < r; i++) {
    memcpy (spare + 3 * i, row, 3 * sizeof (float));
    memcpy (spare + 3 * (r + w + i), row + 3 * (w - 1), 3 * sizeof (float));
  }
  for (int k = 0; k <= 2 * r; k++)
    from[k] = spare + 3 * k;
  sensor_down (s, from, row);
}

/* --- light and noise --------------------------------------------------------------------- */

/* Light of a lamp mirrored by paper and ink alike: white as far as it was asked for, then falling off within a
 * fifth of that. */
static double
shine_at (const Sensor *s, int x, int y)
{
  double r = hypot (x - s->glare.x, y - s->glare.y) / s->glare_px;

  return 330 * fmin (fmax (1 + (1 - r) / 0.2, 0), 1);
}

/* As many numbers as SPAN pixels take, four each, after *LOT. */
static inline void
draw_lots (Lots *lot, guint32 lots[4 * SPAN])
{
  guint32 times = 1, plus = 0;

  for (int i = 0; i < LANES; i++) {
    times *= LOT_TIMES;
    plus = plus * LOT_TIMES + LOT_PLUS;
  }
  for (int i = 0; i < 4 * SPAN; i += LANES) {
    memcpy (lots + i, lot, sizeof *lot);
    *lot = *lot * times + plus;
  }
}

static void
first_lots (guint32 seed, int y, Lots *lots)
{
  guint32 lot = ((guint32) y + 1) * 2654435761u ^ seed * 40503u;

  for (int i = 0; i < LANES; i++)
    (*lots)[i] = lot = lot * LOT_TIMES + LOT_PLUS;
}

/* What N pixels from (X, Y) on were lit by, channel by channel, and what makes their noise. */
typedef struct {
  float lit[3 * SPAN], grey[3 * SPAN], own[3 * SPAN];
} Drawn;

static inline void
draw_span (const Sensor *s, int x, int y, int n, Lots *lot, Drawn *d)
{
  guint32 lots[4 * SPAN];
  float lit[SPAN];

  light_along (&s->light, x, y, n, lit);
  draw_lots (lot, lots);
  for (int i = 0; i < n; i++) {
    float grey = s->noise[lots[4 * i] >> 16];
    for (int k = 0; k < 3; k++) {
      d->lit[3 * i + k] = lit[i];
      d->grey[3 * i + k] = grey;
      d->own[3 * i + k] = s->noise[lots[4 * i + 1 + k] >> 16];
    }
  }
}

PR_WIDE void
sensor_row (const Sensor *s, int y, const float *row, guint8 *out)
{
  double tint[3 * SPAN], v[3 * SPAN];
  Lots lot;
  Drawn d;

  first_lots (s->seed, y, &lot);
  for (int i = 0; i < 3 * SPAN; i++)
    tint[i] = s->tint[i % 3];
  for (int x = 0; x < s->width; x += SPAN, row += 3 * SPAN, out += 3 * SPAN) {
    int n = MIN (SPAN, s->width - x);
    draw_span (s, x, y, n, &lot, &d);
    for (int i = 0; i < 3 * n; i++)
      v[i] = s->black + row[i] * d.lit[i] * tint[i];
    for (int i = 0; i < 3 * n && s->glare_px > 0; i++)
      v[i] += shine_at (s, x + i / 3, y);
    for (int i = 0; i < 3 * n; i++) {
      double seen = v[i] + (s->sigma * (0.85 * d.grey[i] + 0.53 * d.own[i]) + 0.5);
      out[i] = (guint8) (int) CLAMP (seen, 0, 255);
    }
  }
}
