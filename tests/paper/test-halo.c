/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wall and letters drawn over whatever a photo shows: beside every dash and stroke lies something that it stands out from by
 * 3 at least (WCAG 2.1, 1.4.11), on a light ground's drawing and on a dark one's. */
#include <math.h>

#include "paper-kit.h"
#include "pr-draw.h"
#include "pr-ink.h"

#define PER_MM 3.0
#define SIDE 700
#define LINE_PX 1.6
#define NEAR_PX 5
#define LEAST 3.0
#define LIKE 0.12 /* a pixel has a colour, edges apart */

typedef struct {
  const PrJob *job;
  KitPicture picture;
  const PrInk *ink;
} Drawn;

static double
linear (double share)
{
  return share <= 0.04045 ? share / 12.92 : pow ((share + 0.055) / 1.055, 2.4);
}

static double
luminance (PrColour c)
{
  return 0.2126 * linear (c.r) + 0.7152 * linear (c.g) + 0.0722 * linear (c.b);
}

static double
contrast (PrColour a, PrColour b)
{
  double x = luminance (a), y = luminance (b);

  return (fmax (x, y) + 0.05) / (fmin (x, y) + 0.05);
}

static PrColour
pixel (const Drawn *d, int x, int y)
{
  const uint8_t *p = d->picture.rgb + 3 * (y * d->picture.width + x);

  return (PrColour){ p[0] / 255.0, p[1] / 255.0, p[2] / 255.0, 1 };
}

static bool
alike (PrColour a, PrColour b)
{
  return fabs (a.r - b.r) < LIKE && fabs (a.g - b.g) < LIKE && fabs (a.b - b.b) < LIKE;
}

/* The best contrast to anything near. */
static double
stands_out (const Drawn *d, int x, int y)
{
  double best = 0;

  for (int dy = -NEAR_PX; dy <= NEAR_PX; dy++)
    for (int dx = -NEAR_PX; dx <= NEAR_PX; dx++)
      best = fmax (best, contrast (pixel (d, x, y), pixel (d, x + dx, y + dy)));
  return best;
}

static PrDrawOptions
hoof_options (bool dark, bool halo)
{
  return (PrDrawOptions){ .hoof = true,
                          .centre_lines = true,
                          .labels = true,
                          .landmarks = true,
                          .dark = dark,
                          .halo = halo,
                          .line_mm = LINE_PX / PER_MM };
}

/* As the board draws: ground, halo, shoe, hoof. */
static Drawn
draw (const PrJob *job, PrColour ground, bool dark, bool shoe)
{
  Drawn d = { .job = job, .ink = dark ? &pr_ink_dark : &pr_ink_light };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, SIDE, SIDE);
  cairo_t *cr = cairo_create (surface);
  const PrDrawOptions halo = hoof_options (dark, true), hoof = hoof_options (dark, false);
  const PrDrawOptions iron = { .shoe = true, .fill = true, .dark = dark, .line_mm = LINE_PX / PER_MM };

  pr_ink (cr, ground);
  cairo_paint (cr);
  cairo_scale (cr, PER_MM, PER_MM);
  pr_draw_enter_foot (cr, PR_FOOT_LF, PR_FACE_FOOT, SIDE / 2.0 / PER_MM, SIDE / 2.0 / PER_MM);
  pr_draw_job (cr, d.job, &halo);
  if (shoe)
    pr_draw_job (cr, d.job, &iron);
  pr_draw_job (cr, d.job, &hoof);
  cairo_destroy (cr);
  d.picture = kit_surface (surface);
  cairo_surface_destroy (surface);
  return d;
}

static void
drawn_clear (Drawn *d)
{
  kit_picture_clear (&d->picture);
}

static void
place (PrPt p, int *x, int *y)
{
  *x = (int) (SIDE / 2.0 + PER_MM * pr_lateral_sign (PR_FOOT_LF, PR_FACE_FOOT) * p.x);
  *y = (int) (SIDE / 2.0 - PER_MM * p.y);
}

static void
check_wall (const Drawn *d)
{
  const PrPath *wall = &d->job->hoof.outline;
  int dashes = 0, seen = 0;

  for (size_t i = 0; i < wall->n; i++) {
    int x, y;

    place (wall->p[i], &x, &y);
    if (!alike (pixel (d, x, y), d->ink->wall))
      continue;
    dashes++;
    seen += stands_out (d, x, y) >= LEAST;
  }
  assert_true (dashes > (int) wall->n / 4);
  assert_int_equal (seen, dashes);
}

static void
check_letters (const Drawn *d)
{
  PrPt at[2];
  double half = PER_MM * pr_draw_letters (d->job, LINE_PX / PER_MM, at) / 2;

  for (int side = 0; side < 2; side++) {
    int x0, y0, strokes = 0;

    place (at[side], &x0, &y0);
    for (int y = y0 - (int) half; y <= y0 + (int) half; y++)
      for (int x = x0 - (int) half; x <= x0 + (int) half; x++)
        if (alike (pixel (d, x, y), d->ink->text)) {
          strokes++;
          /* nothing is seen of a letter's middle that is wide enough: its edge counts */
          assert_true (stands_out (d, x, y) >= LEAST);
        }
    assert_true (strokes > 60);
  }
}

static void
check_on (const PrJob *job, PrColour ground)
{
  for (int dark = 0; dark < 2; dark++)
    for (int shoe = 0; shoe < 2; shoe++) {
      Drawn d = draw (job, ground, dark, shoe);

      if (!alike (ground, d.ink->wall))
        check_wall (&d);
      if (!alike (ground, d.ink->text))
        check_letters (&d);
      drawn_clear (&d);
    }
}

static void
test_seen_on_any_grey (void **state)
{
  PrJob *job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);

  (void) state;
  for (int i = 0; i <= 8; i++)
    check_on (job, (PrColour){ i / 8.0, i / 8.0, i / 8.0, 1 });
  pr_job_free (job);
}

/* Boards, grass, rust, a blue tarpaulin. */
static void
test_seen_on_colours (void **state)
{
  static const PrColour grounds[]
      = { PR_RGB (0x7a5a3a), PR_RGB (0x4a6b2f), PR_RGB (0x9c4a22), PR_RGB (0x2f5f9c), PR_RGB (0xd0a060) };

  PrJob *job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (grounds); i++)
    check_on (job, grounds[i]);
  pr_job_free (job);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_seen_on_any_grey),
    cmocka_unit_test (test_seen_on_colours),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
