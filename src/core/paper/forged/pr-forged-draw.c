/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-forged-draw.h"

#include <glib/gi18n-lib.h>

#define N_STEPS 3
#define JOINED_MM 4.0 /* offsets nearer to each other along a ring are of one gap */
#define HATCH_EVERY 2 /* stations */
#define NAIL_MM 1.6   /* half a cross */
#define APART_MM 20.0
#define LEAST_TOLD_MM 0.5
#define ARROW_LEAST_MM 5.0
#define ARROW_HEAD_MM 1.8

/* Where each step begins: a look and a fix by the limits' own defaults, and what can be seen at all. */
static const double step_from[2][N_STEPS] = {
  [PR_UNIT_MM] = { 0.5, 1.5, 3.0 },
  [PR_UNIT_INCH] = { PR_MM_PER_INCH / 32, PR_MM_PER_INCH / 16, PR_MM_PER_INCH / 8 },
};
static const char *const step_inches[N_STEPS] = { "1/32", "1/16", "1/8" };
static const double step_shade[N_STEPS] = { 0.35, 0.7, 1 };

static int
step_of (const PrForgedLook *look, double off)
{
  int step = -1;

  while (step + 1 < N_STEPS && fabs (off) >= step_from[look->unit][step + 1])
    step++;
  return step;
}

static PrColour
shade (const PrForgedLook *look, bool more, int step)
{
  return pr_ink_mix (look->ink->ground, more ? look->ink->draw : look->ink->upset, step_shade[step]);
}

static PrPt
seen_at (const PrOffset *o)
{
  return pr_pt_along (o->at, o->out, o->off);
}

void
pr_draw_forged_figure (cairo_t *cr, const PrFigure *figure)
{
  for (size_t r = 0; r < figure->n; r++) {
    cairo_new_sub_path (cr);
    for (size_t i = 0; i < figure->ring[r].n; i++)
      cairo_line_to (cr, figure->ring[r].p[i].x, figure->ring[r].p[i].y);
    cairo_close_path (cr);
  }
}

static void
draw_gap (cairo_t *cr, const PrForgedLook *look, const PrOffset *a, const PrOffset *b)
{
  double off = (a->off + b->off) / 2;
  int step = step_of (look, off);
  PrPt corner[4] = { a->at, seen_at (a), seen_at (b), b->at };

  if (step < 0)
    return;
  for (int i = 0; i < 4; i++)
    cairo_line_to (cr, corner[i].x, corner[i].y);
  cairo_close_path (cr);
  pr_ink (cr, shade (look, off > 0, step));
  cairo_fill (cr);
}

static void
draw_hatch (cairo_t *cr, const PrForgedLook *look, const PrOffset *o)
{
  PrPt to = seen_at (o);

  if (!(o->off > 0) || step_of (look, o->off) < 0)
    return;
  cairo_move_to (cr, o->at.x, o->at.y);
  cairo_line_to (cr, to.x, to.y);
  pr_ink (cr, look->ink->deep);
  cairo_set_line_width (cr, look->line * 0.6);
  cairo_stroke (cr);
}

void
pr_draw_forged_gaps (cairo_t *cr, const GArray *offset, const PrForgedLook *look)
{
  for (guint i = 0; i + 1 < offset->len; i++) {
    const PrOffset *a = &g_array_index (offset, PrOffset, i), *b = a + 1;

    if (a->known && b->known && a->ring == b->ring && a->edge == b->edge && b->along - a->along < JOINED_MM)
      draw_gap (cr, look, a, b);
  }
  for (guint i = 0; i < offset->len; i += HATCH_EVERY)
    if (g_array_index (offset, PrOffset, i).known)
      draw_hatch (cr, look, &g_array_index (offset, PrOffset, i));
}

/* Planned holes as crosses, seen ones as rings round where they are. */
static void
draw_nails (cairo_t *cr, const PrComparison *c, const PrForgedLook *look)
{
  pr_ink (cr, look->ink->deep);
  cairo_set_line_width (cr, look->line);
  for (guint i = 0; i < c->nail->len; i++) {
    const PrNailOff *nail = &g_array_index (c->nail, PrNailOff, i);

    cairo_move_to (cr, nail->plan.x - NAIL_MM, nail->plan.y);
    cairo_line_to (cr, nail->plan.x + NAIL_MM, nail->plan.y);
    cairo_move_to (cr, nail->plan.x, nail->plan.y - NAIL_MM);
    cairo_line_to (cr, nail->plan.x, nail->plan.y + NAIL_MM);
    cairo_new_sub_path (cr);
    cairo_arc (cr, nail->seen.x, nail->seen.y, NAIL_MM, 0, 2 * G_PI);
  }
  cairo_stroke (cr);
}

void
pr_draw_forged (cairo_t *cr, const PrJob *job, const PrComparison *c, const PrForgedLook *look)
{
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  pr_draw_forged_figure (cr, &c->figure);
  pr_ink (cr, pr_ink_mix (look->ink->ground, look->ink->steel, look->forged));
  cairo_fill_preserve (cr);
  pr_ink (cr, look->ink->crease);
  cairo_set_line_width (cr, look->line);
  cairo_stroke (cr);
  pr_draw_forged_gaps (cr, c->offset, look);
  pr_draw_forged_figure (cr, &job->shoe->figure);
  pr_ink (cr, pr_ink_mix (look->ink->ground, look->ink->deep, look->plan));
  cairo_set_line_width (cr, look->line);
  cairo_stroke (cr);
  draw_nails (cr, c, look);
  cairo_restore (cr);
}

/* --- the scale ----------------------------------------------------------------------------- */

static char *
step_words (int step, PrUnit unit)
{
  return unit == PR_UNIT_INCH ? g_strdup (step_inches[step])
                              : pr_length_brief_number (step_from[unit][step], unit);
}

static void
draw_swatch (cairo_t *cr, const PrForgedLook *look, int step, bool more, double x, double wide, double high)
{
  cairo_rectangle (cr, x, 0, wide, high);
  pr_ink (cr, shade (look, more, step));
  cairo_fill (cr);
  pr_ink (cr, look->ink->deep);
  cairo_set_line_width (cr, look->line * 0.6);
  for (double at = x + 1; more && at < x + wide; at += 3 * look->line + 1) {
    cairo_move_to (cr, at, 0);
    cairo_line_to (cr, at, high);
  }
  cairo_stroke (cr);
}

/* The figure between swatch I and the one before. */
static void
draw_boundary (cairo_t *cr, const PrForgedLook *look, int i, double x, double y)
{
  int step = i <= N_STEPS ? N_STEPS - i : i - N_STEPS;
  const char *sign = i == N_STEPS ? "±" : i < N_STEPS ? "−" : "+";
  g_autofree char *figure = step_words (step, look->unit);
  g_autofree char *words = g_strconcat (sign, figure, NULL);

  pr_text (cr, x, y, PR_MIDDLE, words);
}

void
pr_draw_forged_scale (cairo_t *cr, const PrForgedLook *look, double wide, double text)
{
  double each = MIN (wide, PR_FORGED_SCALE_MM) / (2 * N_STEPS), high = text * 1.1;

  for (int i = 0; i < 2 * N_STEPS; i++) {
    bool more = i >= N_STEPS;

    draw_swatch (cr, look, more ? i - N_STEPS : N_STEPS - 1 - i, more, i * each, each, high);
  }
  pr_ink (cr, look->ink->text);
  pr_text_face (cr, text, false);
  for (int i = 1; i < 2 * N_STEPS; i++)
    draw_boundary (cr, look, i, i * each, high + text);
}

/* --- arrows -------------------------------------------------------------------------------- */

void
pr_draw_forged_arrow (cairo_t *cr, PrPt a, PrPt b, double line)
{
  PrPt along = pr_pt_unit (pr_pt_sub (b, a)), side = pr_pt_left (along);
  PrPt tail = pr_pt_dist (a, b) < ARROW_LEAST_MM ? pr_pt_along (b, along, -ARROW_LEAST_MM) : a;
  PrPt neck = pr_pt_along (b, along, -ARROW_HEAD_MM);

  if (pr_pt_len (along) < 0.5)
    return;
  cairo_set_line_width (cr, line);
  cairo_move_to (cr, tail.x, tail.y);
  cairo_line_to (cr, neck.x, neck.y);
  cairo_stroke (cr);
  PrPt left = pr_pt_along (neck, side, ARROW_HEAD_MM / 2),
       right = pr_pt_along (neck, side, -ARROW_HEAD_MM / 2);
  cairo_move_to (cr, b.x, b.y);
  cairo_line_to (cr, left.x, left.y);
  cairo_line_to (cr, right.x, right.y);
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* --- the largest places -------------------------------------------------------------------- */

/* Toe, quarter or heel of which branch and edge: 12 in all. */
static int
part_of (const PrOffset *o)
{
  int third = o->place < 40 ? 0 : o->place < 95 ? 1 : 2;

  return (o->edge * 2 + o->branch) * 3 + third;
}

static int
largest_first (gconstpointer a, gconstpointer b)
{
  const PrOffset *const *p = a, *const *q = b;
  double x = *p ? fabs ((*p)->off) : 0, y = *q ? fabs ((*q)->off) : 0;

  return x > y ? -1 : x < y;
}

size_t
pr_forged_largest (const PrComparison *c, const PrOffset **out, size_t max)
{
  const PrOffset *part[12] = { NULL };
  size_t n = 0;

  for (guint i = 0; i < c->offset->len; i++) {
    const PrOffset *o = &g_array_index (c->offset, PrOffset, i);
    const PrOffset **best = &part[part_of (o)];

    if (o->known && !o->doubted && !o->clip && !o->heel && fabs (o->off) >= LEAST_TOLD_MM
        && (*best == NULL || fabs (o->off) > fabs ((*best)->off)))
      *best = o;
  }
  qsort (part, G_N_ELEMENTS (part), sizeof *part, largest_first);
  for (size_t i = 0; i < G_N_ELEMENTS (part) && part[i] != NULL && n < max; i++) {
    bool near = false;

    for (size_t k = 0; k < n; k++)
      near = near || pr_pt_dist (out[k]->at, part[i]->at) < APART_MM;
    if (!near)
      out[n++] = part[i];
  }
  return n;
}
