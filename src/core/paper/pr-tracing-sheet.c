/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The printed tracing sheet: a form with an empty middle. What is printed stays outside
 * pr_sheet_field, so that all ink inside it is the farrier's. */
#include "pr-paper.h"
#include "pr-atomic-file.h"
#include "pr-pdf.h"

#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
#include <glib/gi18n-lib.h>

#define TEXT_GAP_MM 4.0 /* between a fiducial's white border and any text */
#define SMALL_MM 2.7    /* smallest type: still read at arm's length */

typedef struct {
  PrPaper paper;
  PrFoot foot;
  double width, height;
  double left, right; /* of the strip between the fiducials */
  double correct_x, correct_y;
} Form;

/* --- fiducials --------------------------------------------------------------------------- */

#define CELLS 8 /* of tag36h11 across its black border */

/* One row of a fiducial's cells, a bit each, 1 white. Bit 0 is the left cell. */
static guint
white_cells (const apriltag_family_t *family, guint id, guint row)
{
  guint white = 0;

  for (guint i = 0; i < family->nbits; i++)
    if (family->bit_y[i] == row && (family->codes[id] >> (family->nbits - 1 - i) & 1))
      white |= 1u << family->bit_x[i];
  return white;
}

static void
draw_fiducial (cairo_t *cr, const apriltag_family_t *family, guint id, PrSheetPt at)
{
  const double cell = PR_TAG_MM / CELLS;

  for (guint row = 0; row < CELLS; row++) {
    guint white = white_cells (family, id, row);
    for (guint col = 0, end; col < CELLS; col = end + 1) {
      for (end = col; end < CELLS && !(white >> end & 1);)
        end++;
      if (end > col)
        cairo_rectangle (cr, at.x + col * cell, at.y + row * cell, (end - col) * cell, cell);
    }
  }
}

static void
draw_fiducials (cairo_t *cr, const Form *form)
{
  apriltag_family_t *family = tag36h11_create ();

  g_assert (family->width_at_border == CELLS);
  for (int corner = 0; corner < 4; corner++) {
    PrSheetPt at[4];

    pr_tag_corners (form->paper, corner, at);
    draw_fiducial (cr, family, (guint) pr_tag_id (form->paper, form->foot, corner), at[0]);
  }
  /* one fill for all cells: neighbours share their edge and show no seam */
  cairo_fill (cr);
  tag36h11_destroy (family);
}

/* --- words ------------------------------------------------------------------------------- */

/* TEXT with its base line at (X, Y), ALIGN 0 left, 0.5 middle, 1 right; made smaller where it
 * would be wider than ROOM. */
static void
draw_text (cairo_t *cr, double x, double y, double align, double size, double room, bool bold,
           const char *text)
{
  cairo_text_extents_t ext;

  cairo_select_font_face (cr, "sans-serif", CAIRO_FONT_SLANT_NORMAL,
                          bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size (cr, size);
  cairo_text_extents (cr, text, &ext);
  if (ext.x_advance > room) {
    cairo_set_font_size (cr, size * room / ext.x_advance);
    cairo_text_extents (cr, text, &ext);
  }
  cairo_move_to (cr, x - align * ext.x_advance, y);
  cairo_show_text (cr, text);
}

static void
draw_arrow (cairo_t *cr, const Form *form)
{
  double x = form->width / 2, y = PR_TAG_MARGIN_MM - 1;

  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + 5, y + 8);
  cairo_line_to (cr, x - 5, y + 8);
  cairo_close_path (cr);
  cairo_fill (cr);
  draw_text (cr, x, y + 12.5, 0.5, 4, 16, true, _ ("TOE"));
  draw_text (cr, x, y + 16.4, 0.5, SMALL_MM, form->right - form->left, false, _ ("the toe goes this way"));
}

/* The name on the left of the arrow, paper and face on the right. */
static void
draw_names (cairo_t *cr, const Form *form)
{
  double middle = form->width / 2, y = PR_TAG_MARGIN_MM;
  double inset = form->foot == PR_FOOT_ANY ? 0 : 10, room = middle - 10 - form->left - inset;
  g_autofree char *name = form->foot == PR_FOOT_ANY ? g_strdup (pr_foot_name (form->foot))
                                                    : g_strdup_printf ("%s · %s", pr_foot_name (form->foot),
                                                                       pr_foot_letters (form->foot));
  /* Translators: the paper's size, A4 or Letter */
  g_autofree char *paper = g_strdup_printf (_ ("tracing sheet, %s"), pr_paper_name (form->paper));

  draw_text (cr, form->left + inset, y + 5.5, 0, 5.5, room, true, name);
  draw_text (cr, form->left + inset, y + 10.5, 0, 3.2, room, false, paper);
  draw_text (cr, form->right - inset, y + 5.5, 1, 4, room, true, pr_face_name (PR_FACE_FOOT));
  draw_text (cr, form->right - inset, y + 10.5, 1, SMALL_MM, room, false,
             _ ("drawn round the standing foot"));
}

/* Below the names, above the line to write on. */
static void
draw_correction (cairo_t *cr, const Form *form)
{
  g_autofree char *text = pr_correction_text (form->correct_x, form->correct_y);

  if (text)
    draw_text (cr, form->left, PR_TAG_MARGIN_MM + 19.3, 0, SMALL_MM, form->right - form->left, false, text);
}

/* M and L in the corners of the head, when it is known which foot it is. */
static void
draw_sides (cairo_t *cr, const Form *form)
{
  bool right;
  const char *at_left, *at_right;

  if (form->foot == PR_FOOT_ANY)
    return;
  right = pr_lateral_sign (form->foot, PR_FACE_FOOT) > 0;
  /* Translators: one letter each for the inner and the outer side of the limb */
  at_left = right ? C_ ("medial", "M") : C_ ("lateral", "L");
  at_right = right ? C_ ("lateral", "L") : C_ ("medial", "M");
  draw_text (cr, form->left, PR_TAG_MARGIN_MM + 6.5, 0, 8, 9, true, at_left);
  draw_text (cr, form->right, PR_TAG_MARGIN_MM + 6.5, 1, 8, 9, true, at_right);
}

static void
draw_rule (cairo_t *cr, double from, double to, double y, const char *label)
{
  cairo_text_extents_t ext;

  draw_text (cr, from, y - 0.6, 0, SMALL_MM, to - from, false, label);
  cairo_text_extents (cr, label, &ext);
  cairo_move_to (cr, from + ext.x_advance + 1.5, y);
  cairo_line_to (cr, to, y);
  cairo_stroke (cr);
}

static void
draw_writing_line (cairo_t *cr, const Form *form)
{
  double y = PR_TAG_MARGIN_MM + PR_TAG_MM - 0.5;
  double split = form->left + 0.66 * (form->right - form->left);

  cairo_set_line_width (cr, 0.2);
  draw_rule (cr, form->left, split - 2, y, _ ("Horse"));
  draw_rule (cr, split, form->right, y, _ ("Date"));
}

/* --- check bars -------------------------------------------------------------------------- */

/* Blocks by turns black and white inside a thin frame; the frame's outer edge is the length. */
static void
draw_bar_blocks (cairo_t *cr, double length, double step)
{
  const double frame = 0.2;

  cairo_set_line_width (cr, frame);
  cairo_rectangle (cr, frame / 2, frame / 2 - PR_SHEET_BAR_MM / 2, length - frame, PR_SHEET_BAR_MM - frame);
  cairo_stroke (cr);
  for (int i = 0; i * step < length - step / 2; i += 2)
    cairo_rectangle (cr, i * step, -PR_SHEET_BAR_MM / 2, step, PR_SHEET_BAR_MM);
  cairo_fill (cr);
}

static void
draw_bar (cairo_t *cr, const Form *form, int bar)
{
  PrSheetPt from, to;
  bool inches = bar % 2;

  pr_sheet_bar (form->paper, bar, &from, &to);
  double length = hypot (to.x - from.x, to.y - from.y);
  cairo_save (cr);
  cairo_translate (cr, from.x, from.y);
  if (bar >= 2)
    cairo_rotate (cr, G_PI / 2);
  draw_bar_blocks (cr, length, inches ? 25.4 / 2 : 10);
  /* outward of the last block, so that the field stays empty */
  draw_text (cr, length + 1.5, 1, 0, SMALL_MM, 14, true, inches ? _ ("4 in") : _ ("100 mm"));
  cairo_restore (cr);
}

/* What to do at the heels, and before it a line's end with a stroke across. Just below the field. */
static void
draw_heel_tick (cairo_t *cr, const Form *form)
{
  const char *text = _ ("Tick both heels: a short stroke across the tracing where the wall ends.");
  double middle = form->width / 2 + 2.5, y = form->height - 35.1;
  cairo_text_extents_t ext;

  draw_text (cr, middle, y + 0.9, 0.5, SMALL_MM, form->right - form->left - 10, true, text);
  cairo_text_extents (cr, text, &ext);
  double x = middle - ext.x_advance / 2 - 4;
  cairo_move_to (cr, x, y - 1.5);
  cairo_curve_to (cr, x + 0.4, y - 0.4, x + 1, y + 0.6, x + 1.8, y + 1.3);
  cairo_move_to (cr, x + 0.4, y + 1.7);
  cairo_line_to (cr, x + 2.6, y + 0.1);
  cairo_set_line_width (cr, 0.35);
  cairo_stroke (cr);
}

static void
draw_foot_words (cairo_t *cr, const Form *form)
{
  double x = form->width / 2, room = form->right - form->left;

  draw_heel_tick (cr, form);
  draw_text (cr, x, form->height - 29, 0.5, 3.6, room, true,
             _ ("Print at 100 % / actual size; measure the check lines before you trust the sheet."));
  draw_text (cr, x, form->height - 18.4, 0.5, SMALL_MM, room, false,
             _ ("Trim first, trace after. Keep all four corner marks flat and in the photo."));
  draw_text (cr, x, form->height - 9, 0.5, SMALL_MM, room, false,
             _ ("Planning aid only: it does not diagnose, and the foot decides."));
}

/* --- whole ------------------------------------------------------------------------------- */

bool
pr_tracing_sheet_fits (PrPaper paper, double correct_x, double correct_y)
{
  const double reach = PR_TAG_MARGIN_MM - PR_TAG_MM / CELLS; /* the fiducials' white border */
  double width, height;

  pr_paper_size (paper, &width, &height);
  return (width / 2 - reach) * correct_x <= width / 2 && (height / 2 - reach) * correct_y <= height / 2;
}

static void
draw_form (cairo_t *cr, const Form *form)
{
  cairo_set_source_rgb (cr, 0, 0, 0);
  draw_fiducials (cr, form);
  draw_arrow (cr, form);
  draw_names (cr, form);
  draw_correction (cr, form);
  draw_sides (cr, form);
  draw_writing_line (cr, form);
  for (int bar = 0; bar < PR_SHEET_BARS; bar++)
    draw_bar (cr, form, bar);
  draw_foot_words (cr, form);
}

void
pr_draw_tracing_sheet_corrected (cairo_t *cr, PrPaper paper, PrFoot foot, double correct_x, double correct_y)
{
  Form form = { .paper = paper, .foot = foot, .correct_x = correct_x, .correct_y = correct_y };

  g_assert (paper < PR_N_SHEET_PAPERS);
  pr_paper_size (paper, &form.width, &form.height);
  form.left = PR_TAG_MARGIN_MM + PR_TAG_MM + TEXT_GAP_MM;
  form.right = form.width - form.left;

  cairo_save (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_rectangle (cr, 0, 0, form.width, form.height);
  cairo_fill (cr);
  cairo_translate (cr, form.width / 2, form.height / 2);
  cairo_scale (cr, correct_x, correct_y);
  cairo_translate (cr, -form.width / 2, -form.height / 2);
  draw_form (cr, &form);
  cairo_restore (cr);
}

void
pr_draw_tracing_sheet (cairo_t *cr, PrPaper paper, PrFoot foot)
{
  pr_draw_tracing_sheet_corrected (cr, paper, foot, 1, 1);
}

typedef struct {
  PrPaper paper;
  PrFoot foot;
  const PrPages *guide;
} SheetFile;

static void
draw_page (gpointer data, int page, cairo_t *cr)
{
  const SheetFile *sheet = data;

  if (page == 0)
    pr_draw_tracing_sheet (cr, sheet->paper, sheet->foot);
  else
    pr_pages_draw (sheet->guide, 0, cr);
}

bool
pr_write_tracing_sheet (PrPaper paper, PrFoot foot, const char *file, GError **error)
{
  g_autoptr (GByteArray) pdf = g_byte_array_new ();
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  double width, height;

  options.paper = paper;
  options.cautions = false;
  g_autoptr (PrPages) guide = pr_pages_new (PR_DOC_SHEET_GUIDE, NULL, &options);
  SheetFile sheet = { paper, foot, guide };

  pr_paper_size (paper, &width, &height);
  return pr_pdf_make (pdf, width, height, _ ("Tracing sheet"), 2, draw_page, &sheet, error)
         && pr_atomic_file_write (file, (const char *) pdf->data, pdf->len, error);
}
