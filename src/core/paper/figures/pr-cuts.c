/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-cuts.h"

#include <glib/gi18n-lib.h>

#include "pr-section-look.h"

#define LEAD 1.45  /* from one line of words to the next, of the type */
#define GAP_MM 8.0 /* between two cells */
#define LINE_MM 0.35
#define HEAD 2.4     /* the line over them, of the type */
#define CLEAR_MM 2.0 /* between a name and its section */
#define WORDS 4      /* lines of words of a cell: its name, two of sizes, a blank one */

/* Where a page is full to, while rows are laid. */
typedef struct {
  PrCuts *cuts;
  double height, top; /* of a page */
  int page;
  double y;
} Flow;

static void
cell_clear (gpointer data)
{
  g_free (((PrCutCell *) data)->name);
}

static void
words_face (const PrCuts *cuts, cairo_t *cr, bool bold)
{
  pr_text_face (cr, cuts->text, bold);
}

/* Width that the widest of a cell's words and the iron take. */
static double
cell_width (const PrCuts *cuts, cairo_t *scratch, const PrSection *section, const char *name)
{
  g_autofree char *size = pr_section_size (section, cuts->unit),
                  *crease = pr_section_crease (section, cuts->unit);
  PrSectionRoom room = pr_section_room (section);
  double width = room.left + room.right;

  words_face (cuts, scratch, true);
  width = MAX (width, pr_text_width (scratch, name));
  words_face (cuts, scratch, false);
  width = MAX (width, pr_text_width (scratch, size));
  return crease ? MAX (width, pr_text_width (scratch, crease)) : width;
}

/* The row that begins with cell FIRST, all with the room that the tallest needs: on this page or on a new one. */
static void
end_row (Flow *flow, guint first, double up, double down)
{
  PrCuts *cuts = flow->cuts;
  double lead = LEAD * cuts->text, height = WORDS * lead + CLEAR_MM + up + down,
         start = flow->top + HEAD * cuts->text;

  if (flow->y + height > flow->height && flow->y > start) {
    flow->page++;
    flow->y = start;
  }
  for (guint i = first; i < cuts->cell->len; i++) {
    PrCutCell *cell = &g_array_index (cuts->cell, PrCutCell, i);

    cell->page = flow->page;
    cell->top = flow->y + lead;
    cell->y = cell->top + CLEAR_MM + up;
  }
  flow->y += height;
}

/* The places, as many in a row as WIDTH holds. */
static void
lay_rows (Flow *flow, const GArray *places, double width)
{
  PrCuts *cuts = flow->cuts;
  g_auto (PrSection) section = { 0 };
  cairo_t *scratch = pr_text_scratch ();
  double x = 0, up = 0, down = 0;
  guint first = 0;

  for (guint i = 0; i < places->len; i++) {
    const PrSectionPlace *place = &g_array_index (places, PrSectionPlace, i);

    pr_section_at (&cuts->job->sources.plan, cuts->job->shoe, place->s, &section);
    PrSectionRoom room = pr_section_room (&section);
    double wide = cell_width (cuts, scratch, &section, place->name);

    if (x > 0 && x + wide > width) {
      end_row (flow, first, up, down);
      first = cuts->cell->len;
      x = up = down = 0;
    }
    up = MAX (up, room.up);
    down = MAX (down, room.down);
    g_array_append_val (cuts->cell,
                        ((PrCutCell){ place->s, g_strdup (place->name), x + room.left, 0, 0, 0 }));
    x += wide + GAP_MM;
  }
  end_row (flow, first, up, down);
  cairo_destroy (scratch);
}

void
pr_cuts_lay (PrCuts *cuts, const PrJob *job, PrUnit unit, double text, double width, double height,
             double top, int *page, double *y)
{
  g_autoptr (GArray) places = pr_section_places (job);
  Flow flow = { cuts, height, top, *page, *y + HEAD * text };

  *cuts = (PrCuts){ job, unit, text, g_array_new (FALSE, TRUE, sizeof (PrCutCell)) };
  g_array_set_clear_func (cuts->cell, cell_clear);
  if (places->len == 0)
    return;
  lay_rows (&flow, places, width);
  *page = flow.page;
  *y = flow.y;
}

void
pr_cuts_clear (PrCuts *cuts)
{
  g_clear_pointer (&cuts->cell, g_array_unref);
}

static void
draw_cell (const PrCuts *cuts, const PrCutCell *cell, cairo_t *cr)
{
  g_auto (PrSection) section = { 0 };

  pr_section_at (&cuts->job->sources.plan, cuts->job->shoe, cell->s, &section);
  g_autofree char *size = pr_section_size (&section, cuts->unit),
                  *crease = pr_section_crease (&section, cuts->unit);
  PrSectionRoom room = pr_section_room (&section);
  double left = cell->x - room.left, lead = LEAD * cuts->text, below = cell->y + room.down + lead;

  cairo_save (cr);
  cairo_translate (cr, cell->x, cell->y);
  pr_section_draw (cr, &section, &pr_ink_light, LINE_MM);
  cairo_restore (cr);
  pr_ink (cr, pr_ink_light.text);
  words_face (cuts, cr, true);
  pr_text (cr, left, cell->top, PR_LEFT, cell->name);
  words_face (cuts, cr, false);
  pr_text (cr, left, below, PR_LEFT, size);
  if (crease)
    pr_text (cr, left, below + lead, PR_LEFT, crease);
}

void
pr_cuts_draw (const PrCuts *cuts, int page, cairo_t *cr)
{
  bool headed = false;

  for (guint i = 0; i < cuts->cell->len; i++) {
    const PrCutCell *cell = &g_array_index (cuts->cell, PrCutCell, i);

    if (cell->page != page)
      continue;
    if (!headed) {
      pr_ink (cr, pr_ink_light.text);
      words_face (cuts, cr, true);
      pr_text (cr, 0, cell->top - HEAD * cuts->text, PR_LEFT,
               _ ("The shoe cut through, 1 : 1: foot surface up, outer edge left."));
      headed = true;
    }
    draw_cell (cuts, cell, cr);
  }
}
