/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strokes laid down by their distance from a polyline: the middle of the stroke is the
 * polyline itself, whatever width and darkness do on the way. */
#include "scene-parts.h"

#include <math.h>
#include <string.h>

#define CURVE_STEPS 10 /* pieces between two points of a smooth stroke */
#define GRAIN_MM 0.14  /* size of the paper's teeth under a pencil */

typedef struct {
  PrSheetPt a, b;
  double half, dark; /* half width, mm */
} Piece;

static double
piece_distance (const Piece *piece, double x, double y)
{
  double dx = piece->b.x - piece->a.x, dy = piece->b.y - piece->a.y;
  double len2 = dx * dx + dy * dy;
  double t = len2 > 0 ? ((x - piece->a.x) * dx + (y - piece->a.y) * dy) / len2 : 0;

  t = fmin (fmax (t, 0), 1);
  return hypot (x - piece->a.x - t * dx, y - piece->a.y - t * dy);
}

static double
grain_share (const Nib *nib, double x, double y)
{
  if (nib->grain <= 0)
    return 1;
  double bite = noise_at (nib->seed, x / GRAIN_MM, y / GRAIN_MM, 1 << 14);
  return 1 - nib->grain * fmin (fmax (0.5 + 1.2 * bite, 0), 1);
}

static void
ink_piece (Ink *ink, const Piece *piece, const Nib *nib)
{
  double reach = piece->half + 1 / ink->res;
  int x0 = (int) floor ((fmin (piece->a.x, piece->b.x) - reach) * ink->res);
  int x1 = (int) ceil ((fmax (piece->a.x, piece->b.x) + reach) * ink->res);
  int y0 = (int) floor ((fmin (piece->a.y, piece->b.y) - reach) * ink->res);
  int y1 = (int) ceil ((fmax (piece->a.y, piece->b.y) + reach) * ink->res);

  for (int y = MAX (y0, 0); y < MIN (y1, ink->height); y++)
    for (int x = MAX (x0, 0); x < MIN (x1, ink->width); x++) {
      double px = (x + 0.5) / ink->res, py = (y + 0.5) / ink->res;
      double d = piece_distance (piece, px, py);
      double cover = fmin (fmax (0.5 + (piece->half - d) * ink->res, 0), 1);
      if (cover <= 0)
        continue;
      double soft = nib->grain > 0 ? 1 - 0.45 * d * d / (piece->half * piece->half) : 1;
      double v = 255 * cover * piece->dark * fmax (soft, 0.3) * grain_share (nib, px, py);
      guint8 *at = &ink->cover[(gsize) y * (gsize) ink->width + (gsize) x];
      *at = (guint8) fmax (*at, v + 0.5);
    }
}

PrSheetPt
ink_turned (const Ink *ink, PrSheetPt p)
{
  double c = cos (ink->turn), s = sin (ink->turn), x = p.x - ink->about.x, y = p.y - ink->about.y;

  if (ink->turn == 0)
    return p;
  return (PrSheetPt){ ink->about.x + c * x - s * y, ink->about.y + s * x + c * y };
}

void
ink_stroke (Ink *ink, const PrSheetPt *p, size_t n, const Nib *nib, const Gap *gap)
{
  Chance c = chance_new (nib->seed, 77);
  Waver wide, deep;
  double s = 0;

  waver_set (&wide, &c, 6, 60);
  waver_set (&deep, &c, 8, 90);
  for (size_t i = 1; i < n; i++) {
    double side = hypot (p[i].x - p[i - 1].x, p[i].y - p[i - 1].y), mid = s + side / 2;
    double w = fmin (fmax (waver_at (&wide, mid), -1.6), 1.6);
    double d = fabs (waver_at (&deep, mid));
    Piece piece = { ink_turned (ink, p[i - 1]), ink_turned (ink, p[i]), nib->width / 2 * (1 + nib->vary * w),
                    nib->dark * (1 - fmin (nib->vary * d, 0.55)) };

    if (!gap || mid < gap->from || mid > gap->to)
      ink_piece (ink, &piece, nib);
    s += side;
  }
}

static double
catmull (double a, double b, double c, double d, double t)
{
  return 0.5
         * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t * t * t);
}

void
ink_curve (Ink *ink, const PrSheetPt *p, size_t n, const Nib *nib, Chance *chance)
{
  g_autofree PrSheetPt *out = g_new (PrSheetPt, (n - 1) * CURVE_STEPS + 1);
  Waver wx, wy;
  double s = chance_span (chance, 0, 50);
  size_t k = 0;

  waver_set (&wx, chance, 5, 30);
  waver_set (&wy, chance, 5, 30);
  for (size_t i = 0; i + 1 < n; i++) {
    PrSheetPt a = p[i > 0 ? i - 1 : 0], b = p[i], c = p[i + 1], d = p[i + 2 < n ? i + 2 : n - 1];
    for (int j = 0; j < CURVE_STEPS + (i + 2 == n); j++) {
      double t = (double) j / CURVE_STEPS, step = hypot (c.x - b.x, c.y - b.y) / CURVE_STEPS;
      out[k++] = (PrSheetPt){ catmull (a.x, b.x, c.x, d.x, t) + 0.1 * waver_at (&wx, s),
                              catmull (a.y, b.y, c.y, d.y, t) + 0.1 * waver_at (&wy, s) };
      s += step;
    }
  }
  ink_stroke (ink, out, k, nib, NULL);
}

/* --- handwriting ------------------------------------------------------------------------- */

/* Each letter: pairs of a digit (x) and a letter (y: a = -3, d = 0 the base line, j = 6, n = 10
 * the height of a capital); a blank lifts the pen. */
static const struct {
  char letter;
  const char *strokes;
} letters[] = {
  { 'a', "4j2j0h0f2d3d4g 4j4f5d" },
  { 'b', "0n0d 0h2j4i4f3d1d0f" },
  { 'c', "4i3j1j0g0e2d4e" },
  { 'd', "4i2j0h0e2d3d4f 4n4e5d" },
  { 'e', "0g4h3j1j0g0e2d4e" },
  { 'f', "4m3n2m2j2d 0j4j" },
  { 'g', "4i2j0h0f2e4g 4j4c3a1a0b" },
  { 'h', "0n0d 0g2j4i4d" },
  { 'i', "1j1e2d 1m1l" },
  { 'j', "2j2b1a0b 2m2l" },
  { 'k', "0n0d 3j0g4d" },
  { 'l', "0n0e1d" },
  { 'm', "0j0d 0h1j3j3d 3h5j6i6d" },
  { 'n', "0j0d 0h2j4i4d" },
  { 'o', "2j0h0e2d4e4h2j" },
  { 'p', "0j0a 0h2j4i4f2d0e" },
  { 'q', "4i2j0h0f2d4f 4j4a5b" },
  { 'r', "0j0d 0g1i3j" },
  { 's', "4i3j1j0h3g4e3d1d0e" },
  { 't', "2n2e3d4e 0j4j" },
  { 'u', "0j0e1d3d4f 4j4d" },
  { 'v', "0j2d4j" },
  { 'w', "0j1d3i5d6j" },
  { 'x', "0j4d 4j0d" },
  { 'y', "0j2e 4j2d0a" },
  { 'z', "0j4j0d4d" },
  { 'B', "0n0d 0n3n4l3i0i 3i5g4d0d" },
  { 'C', "5l3n1m0i1e3d5f" },
  { 'D', "0d0n3n5k5g3d0d" },
  { 'F', "0d0n4n 0i3i" },
  { 'H', "0n0d 5n5d 0i5i" },
  { 'J', "4n4f3d1d0f" },
  { 'L', "0n0d4d" },
  { 'M', "0d1n3g5n6d" },
  { 'N', "0d0n5d5n" },
  { 'P', "0d0n4n5k3i0i" },
  { 'R', "0d0n4n5k3i0i 2i5d" },
  { 'S', "5l3n1n0k3i5g4d1d0f" },
  { 'T', "0n6n 3n3d" },
  { 'W', "0n1d3k5d6n" },
  { '0', "2n0k0g2d4g4k2n" },
  { '1', "0l2n2d" },
  { '2', "0l1n3n4k2g0d4d" },
  { '3', "0m2n4l2i4g3d1d0e" },
  { '4', "3n0g5g 3n3d" },
  { '5', "4n0n0i3j4g3d0e" },
  { '6', "4n1k0g1d3d4f2h0f" },
  { '7', "0n4n1d" },
  { '8', "2i0k1n3n4k2i0f1d3d4f2i" },
  { '9', "4k2n0l1i4k 4l3d" },
  { '/', "0c4n" },
  { '.', "1d1e" },
  { '-', "0g3g" },
};

typedef struct {
  PrSheetPt at;
  double cos, sin, unit, slant, pen;
} Hand;

static PrSheetPt
hand_point (const Hand *hand, double x, double y)
{
  double u = hand->pen + (x + hand->slant * y) * hand->unit, v = -y * hand->unit;
  return (PrSheetPt){ hand->at.x + u * hand->cos - v * hand->sin,
                      hand->at.y + u * hand->sin + v * hand->cos };
}

/* Writes one letter; returns how far it reaches to the right, in its own units. */
static double
write_letter (Ink *ink, const char *strokes, const Hand *hand, const Nib *nib, Chance *c)
{
  PrSheetPt p[24];
  size_t n = 0;
  double wide = 0;

  for (const char *s = strokes;; s += 2) {
    while (*s == ' ' || *s == '\0') {
      if (n >= 2)
        ink_curve (ink, p, n, nib, c);
      n = 0;
      if (*s == '\0')
        return wide;
      s++;
    }
    double x = s[0] - '0', y = s[1] - 'd';
    g_assert (n < G_N_ELEMENTS (p));
    p[n++] = hand_point (hand, x + 0.22 * chance_normal (c), y + 0.22 * chance_normal (c));
    wide = fmax (wide, x);
  }
}

void
ink_write (Ink *ink, const char *text, PrSheetPt at, double angle, double size, const Nib *nib, Chance *c)
{
  Hand hand = { at, cos (angle), sin (angle), size / 10, 0.16, 0 };

  for (; *text; text++) {
    double wide = 3;
    for (size_t i = 0; i < G_N_ELEMENTS (letters); i++)
      if (letters[i].letter == *text)
        wide = write_letter (ink, letters[i].strokes, &hand, nib, c);
    hand.pen += (wide + 1.9 + 0.25 * chance_normal (c)) * hand.unit;
  }
}
