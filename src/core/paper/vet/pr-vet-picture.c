/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-picture.h"

#include <glib/gi18n-lib.h>

#include "pr-draw.h"
#include "pr-forged-draw.h"

#define PAD_MM 3.0      /* of the photo round the foot */
#define SCALE_LEAST 0.1 /* where there is no room at all */
#define LINE_MM 0.35    /* on the page at any scale: numbers, which follow it, are 9.5 pt */
#define FLAT_PX_MM 5.0  /* of the photo: at 1 : 2 as fine as 250 dpi */
#define BAR_MM 50.0
#define BAR_IN_MM 50.8 /* 2 in */
#define TICK_MM 1.6

/* --- the photo ----------------------------------------------------------------------------- */

/* Pixels of the raster that are taken: from (X, Y) on WIDE times HIGH squares of EACH pixels a side. */
typedef struct {
  int x, y, wide, high, each;
} Crop;

static bool
crop_of (const PrVetPictures *p, const PrTracing *t, Crop *crop)
{
  PrPt corner[4] = { p->low, { p->high.x, p->low.y }, p->high, { p->low.x, p->high.y } };
  double low[2] = { INFINITY, INFINITY }, high[2] = { -INFINITY, -INFINITY };

  for (int i = 0; i < 4; i++) {
    PrSheetPt at = pr_foot_frame_out (&p->about.job->hoof.frame, corner[i]);

    low[0] = fmin (low[0], at.x * t->raster);
    low[1] = fmin (low[1], at.y * t->raster);
    high[0] = fmax (high[0], at.x * t->raster);
    high[1] = fmax (high[1], at.y * t->raster);
  }
  crop->each = MAX (1, (int) ceil (t->raster / FLAT_PX_MM));
  crop->x = (int) CLAMP (floor (low[0]), 0, t->raster_width);
  crop->y = (int) CLAMP (floor (low[1]), 0, t->raster_height);
  crop->wide = ((int) CLAMP (ceil (high[0]), 0, t->raster_width) - crop->x) / crop->each;
  crop->high = ((int) CLAMP (ceil (high[1]), 0, t->raster_height) - crop->y) / crop->each;
  return crop->wide > 0 && crop->high > 0;
}

/* The mean of a square of pixels, as cairo has it. */
static guint32
mean_of (const PrTracing *t, const Crop *crop, int column, int row)
{
  guint sum[3] = { 0 }, n = (guint) (crop->each * crop->each);

  for (int y = 0; y < crop->each; y++)
    for (int x = 0; x < crop->each; x++) {
      size_t at = (size_t) (crop->y + row * crop->each + y) * (size_t) t->raster_width
                  + (size_t) (crop->x + column * crop->each + x);

      for (int c = 0; c < 3; c++)
        sum[c] += t->raster_rgb[3 * at + (size_t) c];
    }
  return sum[0] / n << 16 | sum[1] / n << 8 | sum[2] / n;
}

static void
fill (cairo_surface_t *flat, const PrTracing *t, const Crop *crop)
{
  unsigned char *data = cairo_image_surface_get_data (flat);
  int stride = cairo_image_surface_get_stride (flat);

  for (int y = 0; y < crop->high; y++) {
    guint32 *row = (guint32 *) (void *) (data + (size_t) y * (size_t) stride);

    for (int x = 0; x < crop->wide; x++)
      row[x] = mean_of (t, crop, x, y);
  }
  cairo_surface_mark_dirty (flat);
}

/* Pixel to sheet, sheet to foot (PrFootFrame): both keep shapes. */
static void
take_photo (PrVetPictures *p, const PrTracing *t)
{
  const PrFootFrame *frame = &p->about.job->hoof.frame;
  Crop crop;

  if (t == NULL || t->raster_rgb == NULL || !crop_of (p, t, &crop))
    return;
  double k = crop.each / t->raster;
  PrPt corner = { crop.x / t->raster - frame->origin.x, crop.y / t->raster - frame->origin.y };
  cairo_matrix_init (&p->place, k * frame->ex.x, k * frame->ey.x, k * frame->ex.y, k * frame->ey.y,
                     corner.x * frame->ex.x + corner.y * frame->ex.y,
                     corner.x * frame->ey.x + corner.y * frame->ey.y);
  p->flat = cairo_image_surface_create (CAIRO_FORMAT_RGB24, crop.wide, crop.high);
  fill (p->flat, t, &crop);
}

/* --- made ---------------------------------------------------------------------------------- */

static void
widen (PrVetPictures *p, const PrFigure *figure)
{
  for (size_t r = 0; r < figure->n; r++)
    for (size_t i = 0; i < figure->ring[r].n; i++) {
      PrPt at = figure->ring[r].p[i];

      p->low = pr_pt (fmin (p->low.x, at.x), fmin (p->low.y, at.y));
      p->high = pr_pt (fmax (p->high.x, at.x), fmax (p->high.y, at.y));
    }
}

/* How far letters and centre lines reach beyond the foot, which follows the lines' width alone. */
static PrPt
beyond (const PrJob *job)
{
  PrPt low, high, letter[2];
  double size = pr_draw_letters (job, LINE_MM, letter);

  pr_draw_extent (job, &low, &high);
  return pr_pt (low.x - letter[PR_MEDIAL].x + size * 0.6, low.x - letter[PR_MEDIAL].x - size * 0.5);
}

void
pr_vet_pictures_make (PrVetPictures *p, const PrVetAbout *about, PrUnit unit)
{
  *p = (PrVetPictures){ .about = *about, .unit = unit };
  pr_draw_extent (about->job, &p->low, &p->high);
  if (about->forged != NULL)
    widen (p, &about->forged->figure);
  p->low = pr_pt (p->low.x - PAD_MM, p->low.y - PAD_MM);
  p->high = pr_pt (p->high.x + PAD_MM, p->high.y + PAD_MM);
  p->beyond = beyond (about->job);
  take_photo (p, about->job->sources.tracing);
}

void
pr_vet_pictures_clear (PrVetPictures *p)
{
  g_clear_pointer (&p->flat, cairo_surface_destroy);
}

void
pr_vet_pictures_size (const PrVetPictures *p, double scale, double *width, double *height)
{
  *width = scale * (p->high.x - p->low.x) + 2 * p->beyond.x;
  *height = scale * (p->high.y - p->low.y) + 2 * p->beyond.y;
}

double
pr_vet_pictures_fit (const PrVetPictures *p, double width, double height)
{
  double across = (width - 2 * p->beyond.x) / (p->high.x - p->low.x);
  double along = (height - 2 * p->beyond.y) / (p->high.y - p->low.y);

  return CLAMP (fmin (across, along), SCALE_LEAST, 1);
}

const char *
pr_vet_pictures_caption (const PrVetPictures *p, PrVetPicture which)
{
  if (which == PR_VET_BEFORE)
    return p->flat != NULL ? _ ("Before: the tracing") : _ ("Before: the outline");
  return p->about.forged != NULL ? _ ("After: the forged shoe on its plan")
                                 : _ ("After: the shoe as planned");
}

/* --- drawn --------------------------------------------------------------------------------- */

static void
draw_before (const PrVetPictures *p, cairo_t *cr, double line)
{
  const PrDrawOptions options
      = { .face = PR_FACE_FOOT, .hoof = true, .centre_lines = true, .labels = true, .line_mm = line };

  if (p->flat != NULL) {
    cairo_save (cr);
    cairo_rectangle (cr, p->low.x, p->low.y, p->high.x - p->low.x, p->high.y - p->low.y);
    cairo_clip (cr);
    cairo_transform (cr, &p->place);
    cairo_set_source_surface (cr, p->flat, 0, 0);
    cairo_paint (cr);
    cairo_restore (cr);
  }
  pr_draw_job (cr, p->about.job, &options);
}

static void
draw_after (const PrVetPictures *p, cairo_t *cr, double line)
{
  PrDrawOptions options = PR_DRAW_TEMPLATE (PR_FACE_FOOT);
  PrForgedLook look = PR_FORGED_LOOK_PAPER (p->unit);

  options.line_mm = line;
  options.landmarks = false;
  options.fill = true;
  options.shoe = options.crease = options.nails = options.clips = p->about.forged == NULL;
  pr_draw_job (cr, p->about.job, &options);
  look.line = line;
  if (p->about.forged != NULL)
    pr_draw_forged (cr, p->about.job, p->about.forged, &look);
}

void
pr_vet_pictures_draw (const PrVetPictures *p, PrVetPicture which, cairo_t *cr, double scale)
{
  PrFoot foot = p->about.job->sources.foot;
  bool right = pr_lateral_sign (foot, PR_FACE_FOOT) > 0;

  cairo_save (cr);
  cairo_translate (cr, p->beyond.x, p->beyond.y);
  cairo_scale (cr, scale, scale);
  pr_draw_enter_foot (cr, foot, PR_FACE_FOOT, right ? -p->low.x : p->high.x, p->high.y);
  if (which == PR_VET_BEFORE)
    draw_before (p, cr, LINE_MM / scale);
  else
    draw_after (p, cr, LINE_MM / scale);
  cairo_restore (cr);
}

void
pr_vet_pictures_draw_bar (const PrVetPictures *p, cairo_t *cr, double scale, double text)
{
  double length = scale * (p->unit == PR_UNIT_INCH ? BAR_IN_MM : BAR_MM);

  pr_ink (cr, pr_ink_light.text);
  cairo_set_line_width (cr, LINE_MM);
  cairo_move_to (cr, 0, -TICK_MM);
  cairo_line_to (cr, 0, 0);
  cairo_line_to (cr, length, 0);
  cairo_line_to (cr, length, -TICK_MM);
  cairo_stroke (cr);
  pr_text_face (cr, text, false);
  pr_text (cr, length + 2, 0, PR_LEFT, p->unit == PR_UNIT_INCH ? _ ("2 in") : _ ("50 mm"));
}
