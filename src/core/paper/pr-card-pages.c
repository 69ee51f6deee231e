/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-card-pages.h"

#include "pr-ink.h"

#include <math.h>

#define CARD_MM 4.7 /* read at arm's length */
#define CARD_HEAD_MM 5.8
#define CARD_LEAD 1.36
#define LABEL_SHARE 0.29 /* of the field, for labels */

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

void
pr_card_pages_lay (PrCardPages *pages, const PrJob *job, PrUnit unit, PrBox field)
{
  cairo_t *scratch = pr_text_scratch ();
  double y = CARD_MM;

  *pages = (PrCardPages){ .field = field,
                          .line = pr_card_lines (job, unit),
                          .place = g_array_new (FALSE, TRUE, sizeof (Place)),
                          .n_pages = 1 };
  for (guint i = 0; i < pages->line->len; i++)
    if (((const PrCardLine *) g_ptr_array_index (pages->line, i))->anvil)
      add_line (pages, i, scratch, &y);
  cairo_destroy (scratch);
}

void
pr_card_pages_clear (PrCardPages *pages)
{
  g_clear_pointer (&pages->place, g_array_unref);
  g_clear_pointer (&pages->line, g_ptr_array_unref);
}

void
pr_card_pages_draw (const PrCardPages *pages, int page, cairo_t *cr)
{
  for (guint i = 0; i < pages->place->len; i++) {
    const Place *place = &g_array_index (pages->place, Place, i);

    if (place->page == page)
      card_line (pages, g_ptr_array_index (pages->line, place->line), cr, pages->field.y + place->y, true);
  }
}
