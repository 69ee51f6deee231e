/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-draw.h"

#include <math.h>
#include <pango/pangocairo.h>

#define TRIAL_PX 100.0   /* a size at which the font is measured */
#define FRAME 0.012      /* of the double frame, share of the height; so far apart too */
#define STRIPE 0.7       /* of the stripes, share of the bar's height */
#define LEAST_STEP_PX 18 /* of the smallest words: letters of 11 pt are 15 px high, their capitals 11 */
#define FITS 0.97        /* letters are not of one width at all sizes */
#define STEP_LEAST \
  0.55 /* of the size that its line has room for: a longer step is cut, not made smaller still */

static void
use (cairo_t *cr, PrFaceColour c)
{
  cairo_set_source_rgb (cr, c.r, c.g, c.b);
}

/* --- words --- */

static void
set_size (PangoLayout *layout, double px)
{
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  PangoFontDescription *font = pango_font_description_from_string ("Sans Bold");

  pango_font_description_set_absolute_size (font, px * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
}

/* What is drawn of PROBE, px. */
static PangoRectangle
ink_of (PangoLayout *layout, const char *probe)
{
  PangoRectangle ink;

  pango_layout_set_text (layout, probe, -1);
  pango_layout_get_pixel_extents (layout, &ink, NULL);
  return ink;
}

/* TEXT in letters as high as HEIGHT by those of PROBE, its top at Y, in the middle of WIDTH; smaller where that is too narrow. */
static void
show (cairo_t *cr, const char *text, const char *probe, double height, double y, double width, double margin)
{
  g_autoptr (PangoLayout) layout = pango_cairo_create_layout (cr);
  PangoRectangle all, one;

  set_size (layout, TRIAL_PX);
  double size = TRIAL_PX * height / MAX (ink_of (layout, probe).height, 1);
  set_size (layout, size);
  all = ink_of (layout, text);
  if (all.width > width - 2 * margin)
    set_size (layout, size * (width - 2 * margin) / all.width);
  one = ink_of (layout, probe);
  all = ink_of (layout, text);
  cairo_move_to (cr, (width - all.width) / 2 - all.x, y + (height - one.height) / 2 - one.y);
  pango_cairo_show_layout (cr, layout);
}

/* As large as its line allows, smaller where it is long; where it is too long even so, it is cut. */
static void
show_step (cairo_t *cr, const char *text, const PrFaceLayout *lay, double width)
{
  g_autoptr (PangoLayout) layout = pango_cairo_create_layout (cr);
  double room = fmax (width - 2 * lay->margin, 1);
  int wide, high;

  set_size (layout, TRIAL_PX);
  pango_layout_set_text (layout, text, -1);
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  pango_layout_get_pixel_size (layout, &wide, &high);
  double most = TRIAL_PX * lay->step / MAX (high, 1);
  double fits = FITS * TRIAL_PX * room / MAX (wide, 1);
  set_size (layout, fmax (CLAMP (fits, STEP_LEAST * most, most), LEAST_STEP_PX));
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_width (layout, (int) (room * PANGO_SCALE));
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  pango_layout_get_pixel_size (layout, NULL, &high);
  cairo_move_to (cr, lay->margin, lay->step_y + (lay->step - high) / 2);
  pango_cairo_show_layout (cr, layout);
}

/* --- shapes --- */

static void
stripe (cairo_t *cr, double x, double y, double width, double height)
{
  double step = 2 * STRIPE * height;

  cairo_save (cr);
  cairo_rectangle (cr, x, y, width, height);
  cairo_clip (cr);
  cairo_set_line_width (cr, step / 2);
  for (double at = x - height; at < x + width + height; at += step) {
    cairo_move_to (cr, at, y + height);
    cairo_line_to (cr, at + height, y);
  }
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* What is left of the time stands at the left. */
static void
draw_bar (cairo_t *cr, const PrPracticeFace *face, const PrFaceLayout *lay, double width,
          const PrFaceColours *colours)
{
  double x = lay->margin, long_ = width - 2 * lay->margin, line = fmax (2, lay->bar / 10);

  if (face->gone < 0)
    return;
  if (face->gone > 1) {
    use (cr, colours->over);
    stripe (cr, x, lay->bar_y, long_, lay->bar);
  } else {
    use (cr, colours->bar);
    cairo_rectangle (cr, x, lay->bar_y, long_ * (1 - face->gone), lay->bar);
    cairo_fill (cr);
  }
  use (cr, colours->ink);
  cairo_set_line_width (cr, line);
  cairo_rectangle (cr, x, lay->bar_y, long_, lay->bar);
  cairo_stroke (cr);
}

static void
draw_frames (cairo_t *cr, double width, double height)
{
  double line = FRAME * height;

  cairo_set_line_width (cr, line);
  for (double in = line / 2; in < 3 * line; in += 2 * line) {
    cairo_rectangle (cr, in, in, width - 2 * in, height - 2 * in);
    cairo_stroke (cr);
  }
}

void
pr_practice_face_draw (cairo_t *cr, const PrPracticeFace *face, double width, double height,
                       const PrFaceColours *colours)
{
  PrFaceLayout lay;
  bool late = face->gone > 1;

  pr_practice_face_lay (&lay, width, height);
  if (face->gone < 0) /* there is no bar, and its room is for what hangs below the word */
    lay.word_y = lay.bar_y;
  use (cr, colours->ground);
  cairo_paint (cr);
  use (cr, colours->over);
  if (face->over)
    draw_frames (cr, width, height);
  use (cr, late ? colours->over : colours->ink);
  show (cr, face->word, "H", lay.word, lay.word_y, width, lay.margin);
  show (cr, face->figures, "0", lay.figures, lay.figures_y, width, lay.margin);
  use (cr, face->over && !late ? colours->over : colours->ink);
  show (cr, face->heat, "H", lay.heat, lay.heat_y, width, lay.margin);
  draw_bar (cr, face, &lay, width, colours);
  use (cr, colours->soft);
  show_step (cr, face->step, &lay, width);
}
