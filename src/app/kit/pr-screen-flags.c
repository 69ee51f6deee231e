/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-screen-flags.h"

#include <math.h>

#define CLEAR_PX 5.0 /* between two words, or a word and another's leader */
#define LEAD_PX 4.0

static PangoLayout *
flag_layout (const PrScreenFlags *flags, const PrScreenFlag *flag)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (flags->widget, NULL);
  g_autofree char *markup
      = g_markup_printf_escaped (flag->bold ? "<small><b>%s</b></small>" : "<small>%s</small>", flag->text);

  pango_layout_set_markup (layout, markup, -1);
  return layout;
}

void
pr_screen_flags_add (PrScreenFlags *flags, double x, const char *text, bool bold)
{
  PrScreenFlag *flag = &flags->flag[flags->n];
  g_autoptr (PangoLayout) layout = NULL;
  int width;

  if (flags->n == PR_MAX_FLAGS)
    return;
  *flag = (PrScreenFlag){ .x = x, .text = g_strdup (text), .bold = bold, .row = -1 };
  layout = flag_layout (flags, flag);
  pango_layout_get_pixel_size (layout, &width, NULL);
  flag->width = width;
  flag->left = CLAMP (x - flag->width / 2, flags->from, MAX (flags->to - flag->width, flags->from));
  flags->n++;
}

/* Would FLAG in ROW touch a word there, or the leader of a word farther out; or would its own
 * leader cross a word nearer in? */
static bool
taken (const PrScreenFlags *flags, const PrScreenFlag *flag, int row)
{
  for (size_t i = 0; i < flags->n; i++) {
    const PrScreenFlag *f = &flags->flag[i];
    double a = f->left - CLEAR_PX, b = f->left + f->width + CLEAR_PX;

    if (f == flag || f->row < 0)
      continue;
    if (f->row == row && flag->left < b && flag->left + flag->width > a)
      return true;
    if (f->row > row && f->x > flag->left - 2 && f->x < flag->left + flag->width + 2)
      return true;
    if (f->row < row && flag->x > a && flag->x < b)
      return true;
  }
  return false;
}

static void
place (PrScreenFlags *flags, PrScreenFlag *flag)
{
  for (int row = 0; row < flags->rows; row++)
    if (!taken (flags, flag, row)) {
      flag->row = row;
      return;
    }
}

static void
draw_one (const PrScreenFlags *flags, const PrScreenFlag *flag)
{
  g_autoptr (PangoLayout) layout = flag_layout (flags, flag);
  double away = LEAD_PX + flag->row * flags->row_px;
  double y = flags->up ? flags->edge - away : flags->edge + away;
  int height;

  gdk_cairo_set_source_rgba (flags->cr, &flags->ink);
  cairo_set_line_width (flags->cr, 1);
  cairo_move_to (flags->cr, floor (flag->x) + 0.5, flags->edge);
  cairo_line_to (flags->cr, floor (flag->x) + 0.5, y);
  cairo_stroke (flags->cr);
  pango_layout_get_pixel_size (layout, NULL, &height);
  cairo_move_to (flags->cr, floor (flag->left), floor (flags->up ? y - height + 1 : y - 1));
  pango_cairo_show_layout (flags->cr, layout);
}

static int
by_claim (const void *a, const void *b)
{
  const PrScreenFlag *f = a, *g = b;

  if (f->bold != g->bold)
    return f->bold ? -1 : 1;
  return (f->width > g->width) - (f->width < g->width);
}

void
pr_screen_flags_draw (PrScreenFlags *flags)
{
  qsort (flags->flag, flags->n, sizeof *flags->flag, by_claim);
  for (size_t i = 0; i < flags->n; i++)
    place (flags, &flags->flag[i]);
  for (size_t i = 0; i < flags->n; i++) {
    if (flags->flag[i].row >= 0)
      draw_one (flags, &flags->flag[i]);
    g_free (flags->flag[i].text);
  }
  flags->n = 0;
}
