/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-card-pages.h"

#include "pr-card-anvil.h"
#include "pr-ink.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define CARD_MM 4.7 /* read at arm's length */
#define CARD_HEAD_MM 5.8
#define CARD_LEAD 1.36
#define PICTURE_MM 38.0 /* a heat's picture is at least so wide */
#define CAPTION_MM 3.5
#define LABEL_SHARE 0.29 /* of the field, for labels */

/* The first page. A letter is read at two metres when its capitals are a 400th of that high: 5 mm, in type of 22 pt. */
#define FIGURE_LEAST_MM 7.8 /* 22 pt are 7.76 mm */
#define FIGURE_MOST_MM 14.0
#define FIGURE_SHARE 0.62 /* of its row's height */
#define NAME_SHARE 0.32   /* of the field's width, for what a figure is of */
#define NAME_LEAST_MM 3.2 /* 9 pt are 3.175 mm */
#define NAME_MOST_MM 5.2
#define NAME_LEAD 1.2
#define GUTTER_MM 2.5
#define RULE_MM 0.2

/* A line of the card as broken and placed. */
typedef struct {
  guint line; /* in the card */
  double y;
  int page;
} Place;

/* Draws LINE with its first base line at Y, or only measures; returns where the next one begins. */
static double
card_line (const PrCardPages *pages, const PrCardLine *line, cairo_t *cr, double y, bool draw)
{
  double x = pages->field.x, w = pages->field.w, lead = CARD_MM * CARD_LEAD, in = w * LABEL_SHARE;

  pr_ink (cr, pr_ink_light.text);
  if (line->kind == PR_CARD_HEAD) {
    pr_text_face (cr, CARD_HEAD_MM, true);
    return pr_text_block (cr, x, y + 3, w, CARD_HEAD_MM * CARD_LEAD, draw, line->label);
  }
  if (line->kind == PR_CARD_TEXT) {
    g_autofree char *text
        = line->label != NULL ? g_strdup_printf ("%s: %s", line->label, line->value) : g_strdup (line->value);
    pr_text_face (cr, CARD_MM, false);
    return pr_text_block (cr, x, y, w, lead, draw, text) + 1;
  }
  pr_text_face (cr, CARD_MM, false);
  double below
      = pr_text_block (cr, x, y, line->kind == PR_CARD_MARK ? w * 0.5 : in - 2, lead, draw, line->label);
  if (line->kind == PR_CARD_ROW)
    return fmax (below, pr_text_block (cr, x + in, y, w - in, lead, draw, line->value));
  if (draw) {
    pr_text (cr, x + w * 0.70, y, PR_RIGHT, line->value);
    pr_text (cr, x + w * 0.98, y, PR_RIGHT, line->more);
  }
  return below;
}

/* Places line NR at *Y, or on a new page; *Y is where the page is full to. */
static void
add_line (PrCardPages *pages, guint nr, cairo_t *scratch, double *y)
{
  const PrCardLine *line = g_ptr_array_index (pages->line, nr);
  double height = card_line (pages, line, scratch, 0, false);
  /* a heading does not stand alone at the foot of a page */
  double keep = line->kind == PR_CARD_HEAD ? 3 * CARD_MM * CARD_LEAD : 0;

  if (*y - CARD_MM + height + keep > pages->field.h && *y > CARD_MM) {
    pages->n_pages++;
    *y = CARD_MM;
  }
  Place place = { nr, *y, pages->n_pages - 1 };
  g_array_append_val (pages->place, place);
  *y += height;
}

/* --- ten figures --------------------------------------------------------------------------- */

static double
figure_room (const PrCardPages *pages)
{
  return pages->field.w * (1 - NAME_SHARE);
}

/* Type in which TEXT is as large as its row and its WIDTH allow; never less than what is read at two metres. */
static double
figure_size (cairo_t *cr, const char *text, double row, double width)
{
  double size = CLAMP (row * FIGURE_SHARE, FIGURE_LEAST_MM, FIGURE_MOST_MM);

  pr_text_face (cr, size, true);
  return fmax (fmin (size, size * width / pr_text_width (cr, text)), FIGURE_LEAST_MM);
}

/* Those for this paper: where one would be too long in the least type, its brief form. */
static GArray *
choose_figures (const PrCardPages *pages, const PrJob *job, PrUnit unit, cairo_t *scratch)
{
  GArray *figures = pr_anvil_figures (job, unit, false);
  g_autoptr (GArray) brief = pr_anvil_figures (job, unit, true);

  pr_text_face (scratch, FIGURE_LEAST_MM, true);
  for (guint i = 0; i < figures->len; i++) {
    PrAnvilFigure *one = &g_array_index (figures, PrAnvilFigure, i),
                  *other = &g_array_index (brief, PrAnvilFigure, i), held = *one;

    if (pr_text_width (scratch, one->figure) <= figure_room (pages))
      continue;
    *one = *other;
    *other = held;
  }
  return figures;
}

/* What a figure is of, in as many lines as the row holds, beside its middle. */
static void
draw_name (cairo_t *cr, double x, double middle, double width, double row, const char *name)
{
  double size = CLAMP (row * 0.25, NAME_LEAST_MM, NAME_MOST_MM), lead = size * NAME_LEAD;

  pr_text_face (cr, size, false);
  if (pr_text_block (cr, 0, 0, width, lead, false, name) > row)
    pr_text_face (cr, size = NAME_LEAST_MM, false);
  lead = size * NAME_LEAD;
  double high = pr_text_block (cr, 0, 0, width, lead, false, name);
  g_autofree char *shown = high > row ? pr_text_cut (cr, name, width * floor (row / lead) * 0.8) : NULL;
  if (shown != NULL)
    high = pr_text_block (cr, 0, 0, width, lead, false, shown);
  pr_text_block (cr, x, middle + size * 0.36 - (high - lead) / 2, width, lead, true, shown ? shown : name);
}

static void
draw_figures (const PrCardPages *pages, cairo_t *cr)
{
  const PrBox *field = &pages->field;
  double row = field->h / PR_N_ANVIL_FIGURES, name = field->w * NAME_SHARE;

  for (guint i = 0; i < pages->figure->len; i++) {
    const PrAnvilFigure *figure = &g_array_index (pages->figure, PrAnvilFigure, i);
    double middle = field->y + (i + 0.5) * row;

    pr_ink (cr, pr_ink_light.text);
    draw_name (cr, field->x, middle, name - GUTTER_MM, row - 1, figure->label);
    double size = figure_size (cr, figure->figure, row, field->w - name);
    pr_text_face (cr, size, true);
    /* 0.36 of the size is half the height of figures and capitals */
    pr_text (cr, field->x + name, middle + size * 0.36, PR_LEFT, figure->figure);
    if (i == 0)
      continue;
    cairo_rectangle (cr, field->x, field->y + i * row, field->w, RULE_MM);
    pr_ink (cr, pr_ink_light.faint);
    cairo_fill (cr);
  }
}

/* --- pictures ------------------------------------------------------------------------------ */

/* A heat's picture as placed; nr 0: the heading. */
typedef struct {
  int nr;
  double x, y;
  int page;
} Picture;

static double
picture_scale (const PrCardPages *pages)
{
  double columns = MAX (floor (pages->field.w / PICTURE_MM), 1);

  return pr_stage_sheet_scale (&pages->stages, pages->field.w / columns);
}

/* Under a heading, behind what stands on the last page up to *Y; a row that does not fit goes to the next one. */
static void
lay_pictures (PrCardPages *pages, double *full)
{
  double y = *full;
  int n = pr_stage_sheet_n (&pages->stages) - 1, columns = MAX ((int) floor (pages->field.w / PICTURE_MM), 1);
  double w, h, head = CARD_HEAD_MM * CARD_LEAD + 3;

  if (n < 1)
    return;
  pr_stage_sheet_size (&pages->stages, picture_scale (pages), CAPTION_MM, &w, &h);
  for (int i = 0; i < n; i++) {
    double need = h + (i == 0 ? head : 0);

    if (i % columns == 0 && y + need - CARD_MM > pages->field.h && y > CARD_MM) {
      pages->n_pages++;
      y = CARD_MM;
    }
    if (i == 0) {
      g_array_append_val (pages->picture, ((Picture){ 0, 0, y, pages->n_pages - 1 }));
      y += head;
    }
    g_array_append_val (pages->picture,
                        ((Picture){ i + 1, i % columns * w, y - CARD_MM, pages->n_pages - 1 }));
    y += i % columns == columns - 1 ? h : 0;
  }
  *full = y + (n % columns > 0 ? h : 0);
}

static void
draw_pictures (const PrCardPages *pages, int page, cairo_t *cr)
{
  for (guint i = 0; i < pages->picture->len; i++) {
    const Picture *one = &g_array_index (pages->picture, Picture, i);
    double x = pages->field.x + one->x, y = pages->field.y + one->y;

    if (one->page != page)
      continue;
    if (one->nr > 0) {
      pr_stage_sheet_draw (&pages->stages, cr, one->nr, x, y, picture_scale (pages), CAPTION_MM);
      continue;
    }
    pr_ink (cr, pr_ink_light.text);
    pr_text_face (cr, CARD_HEAD_MM, true);
    pr_text (cr, x, y + 3, PR_LEFT, _ ("From stock to shoe"));
  }
}

/* --- pages --------------------------------------------------------------------------------- */

/* Sections and pictures, on a page of their own before what is read. */
static void
lay_to_look_at (PrCardPages *pages, const PrJob *job, PrUnit unit, double *y)
{
  int page = pages->n_pages - 1;

  pr_cuts_lay (&pages->cuts, job, unit, CAPTION_MM, pages->field.w, pages->field.h, 0, &page, y);
  pages->n_pages = page + 1;
  pr_stage_sheet_make (&pages->stages, job);
  lay_pictures (pages, y);
  if (pages->cuts.cell->len == 0 && pages->picture->len == 0)
    return;
  pages->n_pages++;
  *y = CARD_MM;
}

void
pr_card_pages_lay (PrCardPages *pages, const PrJob *job, PrUnit unit, PrBox field)
{
  cairo_t *scratch = pr_text_scratch ();
  double y = CARD_MM;

  *pages = (PrCardPages){ .field = field,
                          .line = pr_card_lines (job, unit),
                          .place = g_array_new (FALSE, TRUE, sizeof (Place)),
                          .picture = g_array_new (FALSE, TRUE, sizeof (Picture)),
                          .n_pages = 1 };
  pages->figure = choose_figures (pages, job, unit, scratch);
  pages->n_pages += pages->figure->len > 0;
  lay_to_look_at (pages, job, unit, &y);
  for (guint i = 0; i < pages->line->len; i++)
    if (((const PrCardLine *) g_ptr_array_index (pages->line, i))->anvil)
      add_line (pages, i, scratch, &y);
  cairo_destroy (scratch);
}

void
pr_card_pages_clear (PrCardPages *pages)
{
  g_clear_pointer (&pages->figure, g_array_unref);
  g_clear_pointer (&pages->place, g_array_unref);
  g_clear_pointer (&pages->picture, g_array_unref);
  pr_stage_sheet_clear (&pages->stages);
  pr_cuts_clear (&pages->cuts);
  g_clear_pointer (&pages->line, g_ptr_array_unref);
}

void
pr_card_pages_draw (const PrCardPages *pages, int page, cairo_t *cr)
{
  if (page == 0)
    draw_figures (pages, cr);
  cairo_save (cr);
  cairo_translate (cr, pages->field.x, pages->field.y);
  pr_cuts_draw (&pages->cuts, page, cr);
  cairo_restore (cr);
  draw_pictures (pages, page, cr);
  for (guint i = 0; i < pages->place->len; i++) {
    const Place *place = &g_array_index (pages->place, Place, i);

    if (place->page == page)
      card_line (pages, g_ptr_array_index (pages->line, place->line), cr, pages->field.y + place->y, true);
  }
}
