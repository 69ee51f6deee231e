/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bar.h"

#include "pr-bar-part.h"
#include "pr-strain.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Sizes in units of the lettering, PR_BAR_TEXT_MM of them high: millimetres on paper. */
#define PIECE_GAP 6.0  /* between pieces that are drawn in full */
#define SLIM_GAP 1.6   /* between those in a line each */
#define SLIM_SHARE 0.5 /* of the bar's drawn width */
#define WORDS_OFF 2.1  /* from a box to the words beside it */
#define BOX_LONG 6.0   /* of the legend */
#define BOX_HIGH 3.0
#define BOX_GAP 1.2
#define WORDS_GAP 6.0

static double
em_of (const PrBarLook *look)
{
  return look->text / PR_BAR_TEXT_MM;
}

double
pr_bar_top (const PrBarLook *look)
{
  return pr_bar_part_top (look);
}

double
pr_bar_shown (const PrJob *job)
{
  return fmax (fmax (job->iron.given, job->iron.common), 1);
}

/* One line to a piece: a slim box, its name and its length beside it. Returns the line's height. */
static double
slim_piece (cairo_t *cr, const PrJob *job, const PrBarLook *look, size_t i)
{
  const PrPiece *piece = &job->iron.piece[i];
  double em = em_of (look), high = look->thick * SLIM_SHARE;
  g_autofree char *length = pr_length_text (piece->length, job->unit);
  g_autofree char *words = g_strdup_printf ("%s  %s", piece->name, length);

  if (cr == NULL)
    return high + SLIM_GAP * em;
  cairo_rectangle (cr, 0, 0, piece->length * look->scale, high);
  pr_ink (cr, look->ink->steel);
  cairo_fill_preserve (cr);
  pr_ink (cr, look->ink->line);
  cairo_set_line_width (cr, 0.35 * em);
  cairo_stroke (cr);
  pr_text_face_of (cr, look->family, look->text, false);
  pr_ink (cr, look->ink->text);
  /* 0.36 of the size is half the height of figures and capitals */
  pr_text (cr, piece->length * look->scale + WORDS_OFF * em, high / 2 + 0.36 * look->text, PR_LEFT, words);
  return high + SLIM_GAP * em;
}

static double
full_piece (cairo_t *cr, const PrJob *job, const PrBarLook *look, size_t i)
{
  g_autofree char *title = pr_bar_title (job, job->unit, i);
  PrBarPart part = pr_bar_part_whole (job, i);

  part.title = title;
  return pr_bar_part (cr, job, job->unit, look, &part) + PIECE_GAP * em_of (look);
}

/* The shoe's own piece on a strip as long as all that is given: what is left over lies behind what
 * all pieces take. */
static double
strip_piece (cairo_t *cr, const PrJob *job, const PrBarLook *look)
{
  PrBarPart part = pr_bar_part_whole (job, 0);

  part.to = pr_bar_shown (job);
  part.over_from = job->iron.common;
  part.over = job->iron.given > 0 ? fmax (job->iron.spare, 0) : 0;
  return pr_bar_part (cr, job, job->unit, look, &part);
}

static double
draw_piece (cairo_t *cr, const PrJob *job, const PrBarLook *look, size_t i)
{
  if (look->rows == 0)
    return full_piece (cr, job, look, i);
  return i == 0 ? strip_piece (cr, job, look) : slim_piece (cr, job, look, i);
}

void
pr_draw_bar_ink (cairo_t *cr, const PrJob *job, const PrBarLook *look, double *height)
{
  double y = 0;

  for (size_t i = 0; i < job->iron.n_pieces; i++) {
    if (cr != NULL) {
      cairo_save (cr);
      cairo_translate (cr, 0, y);
    }
    y += draw_piece (cr, job, look, i);
    if (cr != NULL)
      cairo_restore (cr);
  }
  if (height != NULL)
    *height = y;
}

/* One shade and what it means, from X on; returns where the next one begins. */
static double
legend_word (cairo_t *cr, const PrBarLook *look, double x, int level, const char *words)
{
  double em = em_of (look), from = x + (BOX_LONG + BOX_GAP) * em;

  cairo_rectangle (cr, x, 0, BOX_LONG * em, BOX_HIGH * em);
  pr_ink (cr, pr_strain_colour (look->ink, level));
  cairo_fill_preserve (cr);
  cairo_set_line_width (cr, 0.2 * em);
  pr_ink (cr, look->ink->line);
  cairo_stroke (cr);
  pr_ink (cr, look->ink->text);
  pr_text (cr, from, (BOX_HIGH - 0.5) * em, PR_LEFT, words);
  return from + pr_text_width (cr, words) + WORDS_GAP * em;
}

double
pr_bar_legend (cairo_t *cr, const PrBarLook *look)
{
  const char *words[3] = { _ ("draw"), _ ("unchanged"), _ ("upset") };
  const int level[3] = { PR_STRAIN_LEVELS, 0, -PR_STRAIN_LEVELS };
  cairo_t *to = cr != NULL ? cairo_reference (cr) : pr_text_scratch ();
  double x = 0;

  pr_text_face_of (to, look->family, look->text, false);
  for (int i = 0; i < 3; i++)
    x = legend_word (to, look, x, level[i], words[i]);
  cairo_destroy (to);
  return x - WORDS_GAP * em_of (look);
}
