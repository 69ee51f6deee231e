/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ink-cover.h"

#include <leptonica/allheaders.h>
#include "pr-sampling.h"

/* Chosen on our own scenes of mud and fingers. */
/* What is tinted is darker than this share of the sheet's usual paper, and its red over blue differs from the paper's
 * by so many steps of an octave (1.3 times): skin's by 1.3 to 1.7, mud's by 1.6, a shadow's by 1.2 at the most. */
#define COVER_SHARE 0.82
#define TINTS 96
#define TINT_STEPS 16
#define TINT_LEAST 6
/* Holes in it are filled up to this; what is smaller than the second is no cover; its rim is so wide; mm. */
#define HOLE_MM 4.0
#define LEAST_MM 8.0
#define RIM_MM 2.0

/* What is darker than this share of the paper lies on it: skin in good light is 0.6 to 0.8 of white paper, mud a
 * third. Chosen on our own scenes. */
#define DARK_SHARE 0.88
/* A sensor is full at these levels, for which the darkest of the three colours must be, and the paper must not be. */
#define WHITE_FROM 250
#define PAPER_BELOW 247
/* A place is white when so much is about it, mm. */
#define ABOUT_MM 0.6

/* --- what is tinted -------------------------------------------------------------------------- */

static const uint8_t *
pixel_of (const PrInkMap *ink, int x, int y)
{
  double scale = ink->raster / ink->back_scale;
  int px = MIN ((int) ((x + 0.5) * scale), ink->width - 1),
      py = MIN ((int) ((y + 0.5) * scale), ink->height - 1);

  return ink->rgb + 3 * ((size_t) py * (size_t) ink->width + (size_t) px);
}

/* Red over blue, in steps of an octave about the middle of the range. */
static int
tint_of (const uint8_t *p)
{
  return CLAMP ((int) lround (TINTS / 2 + TINT_STEPS * log2 ((p[0] + 8.0) / (p[2] + 8.0))), 0, TINTS - 1);
}

/* The sheet's own tint and brightness: most of it is paper. */
static void
usual_paper (const PrInkMap *ink, int *tint, double *level)
{
  int tints[TINTS] = { 0 }, levels[256] = { 0 }, all = 0;

  for (int y = 0; y < ink->back_height; y += 4)
    for (int x = 0; x < ink->back_width; x += 4, all++) {
      tints[tint_of (pixel_of (ink, x, y))]++;
      levels[CLAMP ((int) ink->back[(size_t) y * (size_t) ink->back_width + (size_t) x], 0, 255)]++;
    }
  int sum = 0, k = 0;
  while (k < TINTS - 1 && (sum += tints[k]) * 2 < all)
    k++;
  *tint = k;
  for (sum = 0, k = 0; k < 255 && (sum += levels[k]) * 2 < all;)
    k++;
  *level = k;
}

static PIX *
tinted (const PrInkMap *ink, int *found)
{
  PIX *mask = pixCreate (ink->back_width, ink->back_height, 1);
  double level;
  int tint;

  *found = 0;
  usual_paper (ink, &tint, &level);
  for (int y = 0; y < ink->back_height; y++) {
    l_uint32 *line = pixGetData (mask) + y * pixGetWpl (mask);
    for (int x = 0; x < ink->back_width; x++)
      if (ink->back[(size_t) y * (size_t) ink->back_width + (size_t) x] < COVER_SHARE * level
          && abs (tint_of (pixel_of (ink, x, y)) - tint) >= TINT_LEAST) {
        SET_DATA_BIT (line, x);
        ++*found;
      }
  }
  return mask;
}

/* Holes and what is small go, and the rest reaches over its rim. */
static PIX *
made_whole (const PrInkMap *ink, PIX *mask)
{
  int hole = 2 * (int) (HOLE_MM * ink->back_scale / 2) + 1,
      least = 2 * (int) (LEAST_MM * ink->back_scale / 2) + 1;
  int rim = 2 * (int) ceil (RIM_MM * ink->back_scale) + 1;
  PIX *closed = pixCloseSafeBrick (NULL, mask, hole, hole);
  PIX *opened = pixOpenBrick (NULL, closed, least, least);
  PIX *wide = pixDilateBrick (NULL, opened, rim, rim);

  pixDestroy (&closed);
  pixDestroy (&opened);
  return wide;
}

void
pr_ink_cover_take_out (PrInkMap *ink)
{
  int found;
  PIX *mask = tinted (ink, &found);

  if (found < LEAST_MM * LEAST_MM * ink->back_scale * ink->back_scale) {
    pixDestroy (&mask);
    return;
  }
  PIX *whole = made_whole (ink, mask);
  ink->cover = g_malloc ((gsize) ink->back_width * (gsize) ink->back_height);
  for (int y = 0; y < ink->back_height; y++) {
    l_uint32 *line = pixGetData (whole) + y * pixGetWpl (whole);
    for (int x = 0; x < ink->back_width; x++)
      ink->cover[(size_t) y * (size_t) ink->back_width + (size_t) x] = GET_DATA_BIT (line, x) != 0;
  }
  pixDestroy (&mask);
  pixDestroy (&whole);
  for (int y = 0; y < ink->ridge_height; y++)
    for (int x = 0; x < ink->ridge_width; x++)
      if (pr_ink_cover_is_under (ink, (x + 0.5) / ink->ridge_scale, (y + 0.5) / ink->ridge_scale))
        ink->ridge[(size_t) y * (size_t) ink->ridge_width + (size_t) x] = 0;
}

bool
pr_ink_cover_is_under (const PrInkMap *ink, double x_mm, double y_mm)
{
  int x = (int) (x_mm * ink->back_scale), y = (int) (y_mm * ink->back_scale);

  return ink->cover != NULL && x >= 0 && y >= 0 && x < ink->back_width && y < ink->back_height
         && ink->cover[(size_t) y * (size_t) ink->back_width + (size_t) x] != 0;
}

/* --- at a place ------------------------------------------------------------------------------ */

double
pr_ink_cover_paper (const PrInkMap *ink, double x_mm, double y_mm)
{
  return pr_sample_map (ink->back, ink->back_width, ink->back_height, x_mm * ink->back_scale - 0.5,
                        y_mm * ink->back_scale - 0.5);
}

static bool
is_white (const PrInkMap *ink, double x_mm, double y_mm)
{
  int x = (int) (x_mm * ink->raster), y = (int) (y_mm * ink->raster);

  if (x < 0 || y < 0 || x >= ink->width || y >= ink->height)
    return false;
  const uint8_t *p = ink->rgb + 3 * ((size_t) y * (size_t) ink->width + (size_t) x);
  return MIN (p[0], MIN (p[1], p[2])) >= WHITE_FROM;
}

PrCover
pr_ink_cover_at (const PrInkMap *ink, double one, double other, double x_mm, double y_mm)
{
  int white = 0;

  if (ink->light) /* chalk is white itself, and a mat is dark all over */
    return PR_COVER_NONE;
  if (pr_ink_cover_is_under (ink, x_mm, y_mm)
      || pr_ink_cover_paper (ink, x_mm, y_mm) < DARK_SHARE * fmin (one, other))
    return PR_COVER_DARK;
  for (int j = -1; j <= 1; j++)
    for (int i = -1; i <= 1; i++)
      white += is_white (ink, x_mm + i * ABOUT_MM, y_mm + j * ABOUT_MM);
  return white >= 6 && fmin (one, other) < PAPER_BELOW ? PR_COVER_WHITE : PR_COVER_NONE;
}
