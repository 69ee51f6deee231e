/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bar.h"

#include "pr-flags.h"
#include "pr-ink.h"
#include "pr-strain.h"

#include <glib/gi18n-lib.h>

#define TEXT_MM 2.9 /* names and distances */
#define TITLE_MM 3.6
#define ROW_MM 3.7  /* from one row of names to the next */
#define STUB_MM 3.0 /* slanted foot of a leader: it parts marks that stand close */
#define PIECE_GAP 6.0

/* --- what is drawn ----------------------------------------------------------------------- */

typedef struct {
  cairo_t *cr;
  const PrJob *job;
  const PrPiece *piece;
  const PrBarPart *part;
  const PrInk *ink;
  PrUnit unit;
  double from, to;      /* stretch of the piece */
  double top, bottom;   /* edges of the bar on the page */
  double over, missing; /* what the given length leaves or lacks */
  bool main;            /* the piece the strain belongs to */
} Strip;

static bool
is_last (const PrJob *job, size_t piece)
{
  return piece + 1 == job->iron.n_pieces;
}

static double
left_over (const PrJob *job, size_t piece)
{
  bool given = job->iron.given > 0 && is_last (job, piece);

  return given ? fmin (fmax (job->iron.spare, 0), PR_BAR_SPARE_MAX) : 0;
}

double
pr_bar_total (const PrJob *job, size_t piece)
{
  return job->iron.piece[piece].length + left_over (job, piece);
}

char *
pr_bar_title (const PrJob *job, PrUnit unit, size_t piece)
{
  const PrPiece *p = &job->iron.piece[piece];
  g_autofree char *length = pr_length_text (p->length, unit);
  g_autofree char *web = pr_length_number (job->plan.stock_width, unit);
  g_autofree char *thick = pr_length_text (job->plan.stock_thick, unit);

  return g_strdup_printf (_ ("%s: cut %s of %s × %s"), p->name, length, web, thick);
}

static void
draw_box (const Strip *st, double a, double b)
{
  a = fmax (a, st->from);
  b = fmin (b, st->to);
  if (b > a)
    cairo_rectangle (st->cr, a - st->from, st->top, b - a, st->bottom - st->top);
}

static void
draw_shades (const Strip *st)
{
  const PrIron *iron = &st->job->iron;

  draw_box (st, 0, st->piece->length);
  pr_ink (st->cr, st->ink->steel);
  cairo_fill (st->cr);
  if (!st->main)
    return;
  for (size_t i = 0, end; i + 1 < iron->n_st; i = end) {
    int level = pr_strain_level (iron->strain[i]);

    for (end = i + 1; end + 1 < iron->n_st && pr_strain_level (iron->strain[end]) == level;)
      end++;
    draw_box (st, iron->bar_at[i], iron->bar_at[end]);
    pr_ink (st->cr, pr_strain_colour (st->ink, level));
    cairo_fill (st->cr);
  }
}

/* -1 upset, 0 as it is, 1 draw */
static int
strain_sign (double e)
{
  return e > PR_STRAIN_NEUTRAL ? 1 : e < -PR_STRAIN_NEUTRAL ? -1 : 0;
}

/* Widest stretch between A and B that no mark's line crosses; returns its middle. */
static double
widest_gap (const Strip *st, double a, double b, double *width)
{
  double at = a, middle = a;

  *width = 0;
  while (at < b) {
    double next = b;

    for (size_t i = 0; i < st->piece->n_marks; i++)
      if (st->piece->mark[i].from_end > at + 1e-9)
        next = fmin (next, st->piece->mark[i].from_end);
    if (next - at > *width) {
      *width = next - at;
      middle = (at + next) / 2;
    }
    at = next;
  }
  return middle;
}

/* The same in words, wherever a stretch is long enough to hold one. */
static void
draw_shade_words (const Strip *st)
{
  const PrIron *iron = &st->job->iron;
  double y = (st->top + st->bottom) / 2 + TEXT_MM * 0.36, room;

  pr_text_face (st->cr, TEXT_MM, false);
  pr_ink (st->cr, st->ink->text);
  for (size_t i = 0, end; st->main && i + 1 < iron->n_st; i = end) {
    int sign = strain_sign (iron->strain[i]);
    const char *word = sign > 0 ? _ ("draw") : sign < 0 ? _ ("upset") : "";

    for (end = i + 1; end + 1 < iron->n_st && strain_sign (iron->strain[end]) == sign;)
      end++;
    double a = fmax (iron->bar_at[i], st->from), b = fmin (iron->bar_at[end], st->to);
    double at = widest_gap (st, a, fmin (b, st->piece->length - st->missing), &room);
    if (*word != '\0' && room > pr_text_width (st->cr, word) + 1.5)
      pr_text (st->cr, at - st->from, y, PR_MIDDLE, word);
  }
}

/* TEXT in the middle of the box from X to X + WIDTH, on a clear patch; upright in a narrow one. */
static void
draw_box_words (const Strip *st, double x, double width, const char *text)
{
  double high = st->bottom - st->top, size = TEXT_MM;

  pr_text_face (st->cr, size, true);
  double wide = pr_text_width (st->cr, text) + 2;
  bool upright = wide > width;
  if (upright && wide > high)
    pr_text_face (st->cr, size *= high / wide, true);
  cairo_save (st->cr);
  cairo_translate (st->cr, x + width / 2, (st->top + st->bottom) / 2);
  if (upright)
    cairo_rotate (st->cr, -G_PI / 2);
  wide = pr_text_width (st->cr, text) + 1.4;
  cairo_rectangle (st->cr, -wide / 2, -size * 0.75, wide, size * 1.5);
  pr_ink (st->cr, st->ink->ground);
  cairo_fill (st->cr);
  pr_ink (st->cr, st->ink->text);
  pr_text (st->cr, 0, size * 0.36, PR_MIDDLE, text);
  cairo_restore (st->cr);
}

static void
draw_dashed_box (const Strip *st, double a, double b, const char *text)
{
  const double dash[2] = { 1.6, 1.2 };
  double low = fmax (a, st->from), high = fmin (b, st->to);

  if (high - low < 0.5)
    return;
  draw_box (st, a, b);
  cairo_set_dash (st->cr, dash, 2, 0);
  cairo_set_line_width (st->cr, 0.3);
  pr_ink (st->cr, st->ink->faint);
  cairo_stroke (st->cr);
  cairo_set_dash (st->cr, NULL, 0, 0);
  draw_box_words (st, low - st->from, high - low, text);
}

/* Slanted lines over the part the given bar does not reach. */
static void
draw_hatch (const Strip *st, double a, double b)
{
  double high = st->bottom - st->top;

  cairo_save (st->cr);
  draw_box (st, a, b);
  pr_ink (st->cr, st->ink->ground);
  cairo_fill_preserve (st->cr);
  cairo_clip (st->cr);
  for (double x = a - st->from - high; x < b - st->from; x += 2.5) {
    cairo_move_to (st->cr, x, st->bottom);
    cairo_line_to (st->cr, x + high, st->top);
  }
  cairo_set_line_width (st->cr, 0.2);
  pr_ink (st->cr, st->ink->draw);
  cairo_stroke (st->cr);
  cairo_restore (st->cr);
}

static void
draw_ends (const Strip *st)
{
  double length = st->piece->length;
  g_autofree char *amount = pr_length_text (fabs (st->job->iron.spare), st->unit);

  if (st->over > 0) {
    g_autofree char *text = g_strdup_printf (_ ("%s left over"), amount);
    draw_dashed_box (st, length, length + st->over, text);
  }
  if (st->missing > 0) {
    g_autofree char *text = g_strdup_printf (_ ("%s missing"), amount);
    draw_hatch (st, length - st->missing, length);
    draw_dashed_box (st, length - st->missing, length, text);
  }
}

/* Long edges always, ends only where they are the piece's own. */
static void
draw_outline (const Strip *st)
{
  double a = fmax (0, st->from), b = fmin (st->piece->length - st->missing, st->to);

  cairo_set_line_width (st->cr, 0.35);
  cairo_set_line_cap (st->cr, CAIRO_LINE_CAP_SQUARE);
  pr_ink (st->cr, st->ink->line);
  if (b > a) {
    cairo_move_to (st->cr, a - st->from, st->top);
    cairo_line_to (st->cr, b - st->from, st->top);
    cairo_move_to (st->cr, a - st->from, st->bottom);
    cairo_line_to (st->cr, b - st->from, st->bottom);
  }
  const double ends[2] = { 0, st->piece->length };
  for (int i = 0; i < 2; i++)
    if (ends[i] >= st->from - 1e-6 && ends[i] <= st->to + 1e-6) {
      cairo_move_to (st->cr, ends[i] - st->from, st->top);
      cairo_line_to (st->cr, ends[i] - st->from, st->bottom);
    }
  cairo_stroke (st->cr);
  cairo_set_line_cap (st->cr, CAIRO_LINE_CAP_BUTT);
}

/* --- marks ------------------------------------------------------------------------------- */

static bool
mark_is_centre (const PrMark *mark)
{
  return g_str_equal (mark->id, "toe");
}

/* Is MARK drawn here, and not on the strip beyond a join? */
static bool
mark_shown (const Strip *st, const PrMark *mark)
{
  double low = isnan (st->part->join[0]) ? st->from : st->part->join[0];
  double high = isnan (st->part->join[1]) ? st->to : st->part->join[1];

  return mark->from_end >= low - 1e-6 && mark->from_end <= high + 1e-6;
}

/* Words of the marks in the stretch: their names, or their distances from the end. */
static GArray *
make_flags (cairo_t *cr, const Strip *st, bool names)
{
  GArray *flags = pr_flags_new ();

  for (size_t i = 0; i < st->piece->n_marks; i++) {
    const PrMark *mark = &st->piece->mark[i];

    if (!mark_shown (st, mark))
      continue;
    PrFlag flag = { .foot = mark->from_end - st->from, .bold = mark_is_centre (mark) };
    flag.text = names ? g_strdup (mark->name) : pr_length_number (mark->from_end, st->unit);
    pr_text_face (cr, TEXT_MM, flag.bold);
    flag.width = pr_text_width (cr, flag.text);
    g_array_append_val (flags, flag);
  }
  return flags;
}

/* UP -1: words above the bar; 1: below. */
static void
draw_flags (const Strip *st, const GArray *flags, int up)
{
  double edge = up < 0 ? st->top : st->bottom;

  for (guint i = 0; i < flags->len; i++) {
    const PrFlag *flag = &g_array_index (flags, PrFlag, i);
    double head = edge + up * (STUB_MM + flag->row * ROW_MM);

    cairo_move_to (st->cr, flag->foot, edge);
    cairo_line_to (st->cr, flag->head, edge + up * STUB_MM * 0.7);
    cairo_line_to (st->cr, flag->head, head);
    cairo_set_line_width (st->cr, flag->bold ? 0.45 : 0.2);
    pr_ink (st->cr, st->ink->text);
    cairo_stroke (st->cr);
    pr_text_face (st->cr, TEXT_MM, flag->bold);
    pr_text (st->cr, flag->left, head + (up < 0 ? -0.7 : TEXT_MM * 0.72 + 0.7), PR_LEFT, flag->text);
  }
}

static void
draw_mark_lines (const Strip *st)
{
  for (size_t i = 0; i < st->piece->n_marks; i++) {
    const PrMark *mark = &st->piece->mark[i];

    if (mark->from_end < st->from - 1e-6 || mark->from_end > st->to + 1e-6)
      continue;
    cairo_move_to (st->cr, mark->from_end - st->from, st->top);
    cairo_line_to (st->cr, mark->from_end - st->from, st->bottom);
    cairo_set_line_width (st->cr, mark_is_centre (mark) ? 0.8 : 0.2);
    pr_ink (st->cr, st->ink->text);
    cairo_stroke (st->cr);
  }
}

/* Where two strips join: a broken line at the same place of the bar on both, with a letter. */
static void
draw_join (const Strip *st, double at, char letter)
{
  const double dash[2] = { 1.5, 1 };
  g_autofree char *text = g_strdup_printf (_ ("join %c"), letter);
  double x = at - st->from;

  cairo_set_dash (st->cr, dash, 2, 0);
  cairo_set_line_width (st->cr, 0.4);
  pr_ink (st->cr, st->ink->wall);
  cairo_move_to (st->cr, x, st->top - 2.5);
  cairo_line_to (st->cr, x, st->bottom + 2.5);
  cairo_stroke (st->cr);
  cairo_set_dash (st->cr, NULL, 0, 0);
  pr_text_face (st->cr, TEXT_MM, true);
  cairo_save (st->cr);
  cairo_translate (st->cr, x, (st->top + st->bottom) / 2);
  cairo_rotate (st->cr, -G_PI / 2);
  pr_text (st->cr, 0, -1, PR_MIDDLE, text);
  cairo_restore (st->cr);
}

static void
draw_strip (const Strip *st, const GArray *names, const GArray *numbers)
{
  cairo_save (st->cr);
  cairo_new_path (st->cr);
  draw_shades (st);
  draw_ends (st);
  draw_outline (st);
  draw_mark_lines (st);
  draw_shade_words (st);
  draw_flags (st, names, -1);
  draw_flags (st, numbers, 1);
  for (int i = 0; i < 2; i++)
    if (!isnan (st->part->join[i]))
      draw_join (st, st->part->join[i], st->part->letter[i]);
  if (st->part->title != NULL) {
    pr_text_face (st->cr, TITLE_MM, true);
    pr_ink (st->cr, st->ink->text);
    pr_text (st->cr, 0, TITLE_MM, PR_LEFT, st->part->title);
  }
  cairo_restore (st->cr);
}

double
pr_bar_part (cairo_t *cr, const PrJob *job, PrUnit unit, const PrBarPart *part)
{
  cairo_t *scratch = pr_text_scratch ();
  Strip st = { .cr = cr,
               .job = job,
               .piece = &job->iron.piece[part->piece],
               .part = part,
               .ink = part->dark ? &pr_ink_dark : &pr_ink_light,
               .unit = unit,
               .from = part->from,
               .to = part->to,
               .main = part->piece == 0 };
  double low = isnan (part->join[0]) ? -PR_BAR_NAME_OVER : part->join[0] - part->from + PR_FLAG_CLEAR;
  double high = isnan (part->join[1]) ? PR_BAR_NAME_OVER + part->to - part->from
                                      : part->join[1] - part->from - PR_FLAG_CLEAR;
  g_autoptr (GArray) names = make_flags (scratch, &st, true);
  g_autoptr (GArray) numbers = make_flags (scratch, &st, false);
  int above = pr_flags_lay (names, low, high), below = pr_flags_lay (numbers, low, high);

  cairo_destroy (scratch);
  st.top = (part->title != NULL ? TITLE_MM + 2 : 0) + above * ROW_MM + STUB_MM;
  st.bottom = st.top + job->plan.stock_width;
  st.over = left_over (job, part->piece);
  st.missing = job->iron.given > 0 && is_last (job, part->piece)
                   ? fmin (fmax (-job->iron.spare, 0), st.piece->length)
                   : 0;
  if (cr != NULL)
    draw_strip (&st, names, numbers);
  return st.bottom + STUB_MM + below * ROW_MM + 0.5;
}

void
pr_bar_legend (cairo_t *cr, bool dark)
{
  const PrInk *ink = dark ? &pr_ink_dark : &pr_ink_light;
  const char *words[3] = { _ ("draw"), _ ("as the bar"), _ ("upset") };
  const int level[3] = { PR_STRAIN_LEVELS, 0, -PR_STRAIN_LEVELS };
  double x = 0;

  pr_text_face (cr, TEXT_MM, false);
  for (int i = 0; i < 3; i++) {
    cairo_rectangle (cr, x, 0, 6, 3);
    pr_ink (cr, pr_strain_colour (ink, level[i]));
    cairo_fill_preserve (cr);
    cairo_set_line_width (cr, 0.2);
    pr_ink (cr, ink->line);
    cairo_stroke (cr);
    pr_ink (cr, ink->text);
    pr_text (cr, x + 7.2, 2.5, PR_LEFT, words[i]);
    x += 7.2 + pr_text_width (cr, words[i]) + 6;
  }
}

void
pr_draw_bar_ink (cairo_t *cr, const PrJob *job, bool dark, double *height)
{
  double y = 0;

  for (size_t i = 0; i < job->iron.n_pieces; i++) {
    g_autofree char *title = pr_bar_title (job, job->unit, i);
    const PrBarPart part = { i, 0, pr_bar_total (job, i), { NAN, NAN }, "", title, dark };

    if (cr != NULL) {
      cairo_save (cr);
      cairo_translate (cr, 0, y);
    }
    y += pr_bar_part (cr, job, job->unit, &part) + PIECE_GAP;
    if (cr != NULL)
      cairo_restore (cr);
  }
  if (job->iron.n_pieces > 0 && cr != NULL) {
    cairo_save (cr);
    cairo_translate (cr, 0, y - PIECE_GAP + 2);
    pr_bar_legend (cr, dark);
    cairo_restore (cr);
  }
  if (height != NULL)
    *height = y;
}

void
pr_draw_bar (cairo_t *cr, const PrJob *job, double *height)
{
  pr_draw_bar_ink (cr, job, false, height);
}
