/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bar-part.h"

#include "pr-flags.h"
#include "pr-ink.h"
#include "pr-strain.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdio.h>

/* Sizes in units of the lettering, TEXT of them high: millimetres on paper. */
#define TEXT PR_BAR_TEXT_MM /* names and distances */
#define TITLE 3.6
#define ROW 3.7         /* from one row of names to the next */
#define LEAST_SHARE 0.5 /* of TEXT: smaller lettering is not read */
#define JOIN_WORDS 5.0  /* before a join: its own words, upright */
#define HATCH 2.5       /* between the lines over what is missing */
#define PUNCH_ARM 2.4   /* of the cross where the punch goes: along the bar either way */
#define PUNCH_DOT 1.0   /* and the dot's radius */
#define LIGHT 0.45      /* of the faint ink, in words of what is only to look at: it is still read */
#define STUB 3.0        /* slanted foot of a leader: it parts marks that stand close */

/* Longest end left over that is drawn at its length on paper; a longer one is broken off there, mm. */
#define SPARE_MAX_MM 60.0

/* --- what is drawn ----------------------------------------------------------------------- */

typedef struct {
  cairo_t *cr;
  const PrJob *job;
  const PrPiece *piece;
  const PrBarPart *part;
  const PrBarLook *look;
  const PrInk *ink;
  PrUnit unit;
  double k;           /* units of the lettering to a mm of bar */
  double from, to;    /* stretch of the piece, mm */
  double top, bottom; /* edges of the bar */
  double missing;     /* what the given length lacks, mm */
  bool main;          /* the piece the strain belongs to */
} Strip;

/* Where MM of the piece lies. */
static double
across (const Strip *st, double mm)
{
  return (mm - st->from) * st->k;
}

static void
lettering (const Strip *st, double size, bool bold)
{
  pr_text_face_of (st->cr, st->look->family, size, bold);
}

static bool
is_last (const PrJob *job, size_t piece)
{
  const PrIron *iron = &job->iron;

  for (size_t i = piece + 1; i < iron->n_pieces; i++)
    if (!(iron->piece[i].given > 0))
      return false;
  return !(iron->piece[piece].given > 0);
}

static double
left_over (const PrJob *job, size_t piece)
{
  bool given = job->iron.given > 0 && is_last (job, piece);

  return given ? fmin (fmax (job->iron.spare, 0), SPARE_MAX_MM) : 0;
}

PrBarPart
pr_bar_part_whole (const PrJob *job, size_t piece)
{
  double length = job->iron.piece[piece].length, over = left_over (job, piece);

  return (PrBarPart){
    .piece = piece, .to = length + over, .join = { NAN, NAN }, .over_from = length, .over = over
  };
}

/* What the given bar lacks of PIECE, mm. */
static double
missing (const PrJob *job, size_t piece)
{
  bool given = job->iron.given > 0 && is_last (job, piece);

  return given ? fmin (fmax (-job->iron.spare, 0), job->iron.piece[piece].length) : 0;
}

char *
pr_bar_title (const PrJob *job, PrUnit unit, size_t piece)
{
  const PrPiece *p = &job->iron.piece[piece];
  g_autofree char *length = pr_length_cut (p->length, unit);
  g_autofree char *stock
      = pr_section_as_called (job->sources.plan.stock_width, job->sources.plan.stock_thick, unit);

  g_autofree char *ends = pr_length_brief (p->length, unit); /* as its last mark says */
  return g_strdup_printf (g_str_equal (length, ends) ? _ ("%s: cut %s of %s")
                                                     : _ ("%s: cut %s of %s, rounded up"),
                          p->name, length, stock);
}

static void
draw_box (const Strip *st, double a, double b)
{
  a = fmax (a, st->from);
  b = fmin (b, st->to);
  if (b > a)
    cairo_rectangle (st->cr, across (st, a), st->top, (b - a) * st->k, st->bottom - st->top);
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
    end = pr_strain_stretch (iron, i, pr_strain_level);
    draw_box (st, iron->bar_at[i], iron->bar_at[end]);
    pr_ink (st->cr, pr_strain_colour (st->ink, pr_strain_level (iron->strain[i])));
    cairo_fill (st->cr);
  }
}

/* Widest stretch between A and B that no mark for the punch crosses; returns its middle. */
static double
widest_gap (const Strip *st, double a, double b, double *width)
{
  double at = a, middle = a;

  *width = 0;
  while (at < b) {
    double next = b;

    for (size_t i = 0; i < st->piece->n_marks; i++)
      if (st->piece->mark[i].punch && st->piece->mark[i].from_end > at + 1e-9)
        next = fmin (next, st->piece->mark[i].from_end);
    if (next - at > *width) {
      *width = next - at;
      middle = (at + next) / 2;
    }
    at = next;
  }
  return middle;
}

/* Whether the words of a join at AT stand after its line: before it, unless a mark for the punch has more room there. */
static bool
join_words_after (const Strip *st, double at)
{
  double before = INFINITY, after = INFINITY;

  for (size_t i = 0; i < st->piece->n_marks; i++) {
    double off = (st->piece->mark[i].from_end - at) * st->k;

    if (st->piece->mark[i].punch && off <= 0)
      before = fmin (before, -off);
    else if (st->piece->mark[i].punch)
      after = fmin (after, off);
  }
  return before < JOIN_WORDS + PUNCH_ARM && after > before;
}

/* The same in words, wherever a stretch is long enough to hold one. */
static void
draw_shade_words (const Strip *st)
{
  const PrIron *iron = &st->job->iron;
  double y = (st->top + st->bottom) / 2 + TEXT * 0.36, room;
  const double *join = st->part->join;
  double words = JOIN_WORDS / st->k;
  double low = isnan (join[0]) ? st->from : join[0] + (join_words_after (st, join[0]) ? words : 0);
  double high = isnan (join[1]) ? st->to : join[1] - (join_words_after (st, join[1]) ? 0 : words);

  lettering (st, TEXT, false);
  pr_ink (st->cr, st->ink->text);
  for (size_t i = 0, end; st->main && i + 1 < iron->n_st; i = end) {
    int sign = pr_strain_sign (iron->strain[i]);
    const char *word = sign > 0 ? _ ("draw") : sign < 0 ? _ ("upset") : "";

    end = pr_strain_stretch (iron, i, pr_strain_sign);
    double a = fmax (iron->bar_at[i], low), b = fmin (iron->bar_at[end], high);
    double at = widest_gap (st, a, fmin (b, st->piece->length - st->missing), &room);
    if (*word != '\0' && room * st->k > pr_text_width (st->cr, word) + 2 * PUNCH_ARM + 0.6)
      pr_text (st->cr, across (st, at), y, PR_MIDDLE, word);
  }
}

/* WORDS in the middle of the box from X to X + WIDTH, on a clear patch; upright in a narrow one, left
 * out where they would be too small to read. */
static void
draw_box_words (const Strip *st, double x, double width, const char *words)
{
  double high = st->bottom - st->top, size = TEXT;

  lettering (st, size, true);
  double wide = pr_text_width (st->cr, words) + 2;
  bool upright = wide > width;
  if (upright && wide > high)
    lettering (st, size *= high / wide, true);
  if (size < TEXT * LEAST_SHARE)
    return;
  cairo_save (st->cr);
  cairo_translate (st->cr, x + width / 2, (st->top + st->bottom) / 2);
  if (upright)
    cairo_rotate (st->cr, -G_PI / 2);
  wide = pr_text_width (st->cr, words) + 1.4;
  cairo_rectangle (st->cr, -wide / 2, -size * 0.75, wide, size * 1.5);
  pr_ink (st->cr, st->ink->ground);
  cairo_fill (st->cr);
  pr_ink (st->cr, st->ink->text);
  pr_text (st->cr, 0, size * 0.36, PR_MIDDLE, words);
  cairo_restore (st->cr);
}

static void
draw_dashed_box (const Strip *st, double a, double b, const char *words)
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
  if ((high - low) * st->k > st->look->text) /* else they stand over what lies beside it */
    draw_box_words (st, across (st, low), (high - low) * st->k, words);
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
  for (double x = across (st, a) - high; x < across (st, b); x += HATCH) {
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

  if (st->part->over > 0) {
    g_autofree char *full = g_strdup_printf (_ ("%s left over"), amount);
    /* a strip has the amount over it already */
    draw_dashed_box (st, st->part->over_from, st->part->over_from + st->part->over,
                     st->look->rows > 0 ? _ ("left over") : full);
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
    cairo_move_to (st->cr, across (st, a), st->top);
    cairo_line_to (st->cr, across (st, b), st->top);
    cairo_move_to (st->cr, across (st, a), st->bottom);
    cairo_line_to (st->cr, across (st, b), st->bottom);
  }
  const double ends[2] = { 0, st->piece->length };
  for (int i = 0; i < 2; i++)
    if (ends[i] >= st->from - 1e-6 && ends[i] <= st->to + 1e-6) {
      cairo_move_to (st->cr, across (st, ends[i]), st->top);
      cairo_line_to (st->cr, across (st, ends[i]), st->bottom);
    }
  cairo_stroke (st->cr);
  cairo_set_line_cap (st->cr, CAIRO_LINE_CAP_BUTT);
}

/* --- marks ------------------------------------------------------------------------------- */

/* Is MARK drawn here, and not on the strip beyond a join? */
static bool
mark_shown (const Strip *st, const PrMark *mark)
{
  double low = isnan (st->part->join[0]) ? st->from : st->part->join[0];
  double high = isnan (st->part->join[1]) ? st->to : st->part->join[1];

  return mark->from_end >= low - 1e-6 && mark->from_end <= high + 1e-6;
}

/* Nails by their numbers alone where there is little room. Transfer full. */
static char *
mark_name (const Strip *st, const PrMark *mark)
{
  int number = 0;

  if (st->look->rows > 0 && sscanf (mark->id, "nail.%d", &number) == 1)
    return g_strdup_printf ("%d", number);
  /* of a foot that nobody has named the branches have no letters */
  return g_strdup (st->job->sources.foot == PR_FOOT_ANY && g_str_has_prefix (mark->id, "heel.") ? _ ("heel")
                                                                                                : mark->name);
}

/* Below the bar: of a mark for the punch its distance, of the others their name and, where there is room for it, the distance.
 * Transfer full. */
static char *
mark_words (const Strip *st, const PrMark *mark, bool above)
{
  g_autofree char *name = mark_name (st, mark), *distance = pr_length_number (mark->from_end, st->unit);

  if (mark->punch)
    return g_strdup (above ? name : distance);
  return st->look->rows > 0 ? g_strdup (name) : g_strdup_printf ("%s %s", name, distance);
}

/* Words of the marks in the stretch, those for the punch bold; ABOVE the bar only these have any. */
static GArray *
make_flags (cairo_t *cr, const Strip *st, bool above)
{
  GArray *flags = pr_flags_new ();

  for (size_t i = 0; i < st->piece->n_marks; i++) {
    const PrMark *mark = &st->piece->mark[i];

    if (!mark_shown (st, mark) || (above && !mark->punch))
      continue;
    PrFlag flag = { .foot = across (st, mark->from_end), .bold = mark->punch };
    flag.text = mark_words (st, mark, above);
    pr_text_face_of (cr, st->look->family, TEXT, flag.bold);
    flag.width = pr_text_width (cr, flag.text);
    g_array_append_val (flags, flag);
  }
  return flags;
}

/* UP -1: words above the bar; 1: below. What is not for the punch is light. */
static void
draw_flags (const Strip *st, const GArray *flags, int up)
{
  double edge = up < 0 ? st->top : st->bottom;

  for (guint i = 0; i < flags->len; i++) {
    const PrFlag *flag = &g_array_index (flags, PrFlag, i);
    double head = edge + up * (STUB + flag->row * ROW);

    if (flag->row < 0)
      continue;
    cairo_move_to (st->cr, flag->foot, edge);
    cairo_line_to (st->cr, flag->head, edge + up * STUB * 0.7);
    cairo_line_to (st->cr, flag->head, head);
    cairo_set_line_width (st->cr, flag->bold ? 0.45 : 0.2);
    pr_ink (st->cr, flag->bold ? st->ink->text : st->ink->faint);
    cairo_stroke (st->cr);
    lettering (st, TEXT, flag->bold);
    pr_ink (st->cr, flag->bold ? st->ink->text : pr_ink_mix (st->ink->text, st->ink->faint, LIGHT));
    pr_text (st->cr, flag->left, head + (up < 0 ? -0.7 : TEXT * 0.72 + 0.7), PR_LEFT, flag->text);
  }
}

void
pr_bar_punch (cairo_t *cr, double high)
{
  double arm = fmin (PUNCH_ARM, high * 0.4), dot = fmin (PUNCH_DOT, high * 0.18);

  cairo_move_to (cr, 0, -high / 2);
  cairo_line_to (cr, 0, high / 2);
  cairo_move_to (cr, -arm, 0);
  cairo_line_to (cr, arm, 0);
  cairo_set_line_width (cr, 0.35);
  cairo_stroke (cr);
  cairo_arc (cr, 0, 0, dot, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void
draw_punch_marks (const Strip *st)
{
  for (size_t i = 0; i < st->piece->n_marks; i++) {
    const PrMark *mark = &st->piece->mark[i];

    if (!mark->punch || mark->from_end < st->from - 1e-6 || mark->from_end > st->to + 1e-6)
      continue;
    cairo_save (st->cr);
    cairo_translate (st->cr, across (st, mark->from_end), (st->top + st->bottom) / 2);
    pr_ink (st->cr, st->ink->text);
    pr_bar_punch (st->cr, st->bottom - st->top);
    cairo_restore (st->cr);
  }
}

/* Where two strips join: a broken line at the same place of the bar on both, with a letter. */
static void
draw_join (const Strip *st, double at, char letter)
{
  const double dash[2] = { 1.5, 1 };
  g_autofree char *text = g_strdup_printf (_ ("join %c"), letter);
  double x = across (st, at);

  cairo_set_dash (st->cr, dash, 2, 0);
  cairo_set_line_width (st->cr, 0.4);
  pr_ink (st->cr, st->ink->text);
  cairo_move_to (st->cr, x, st->top - 2.5);
  cairo_line_to (st->cr, x, st->bottom + 2.5);
  cairo_stroke (st->cr);
  cairo_set_dash (st->cr, NULL, 0, 0);
  lettering (st, TEXT, true);
  cairo_save (st->cr);
  cairo_translate (st->cr, x, (st->top + st->bottom) / 2);
  cairo_rotate (st->cr, -G_PI / 2);
  pr_text (st->cr, 0, join_words_after (st, at) ? 1 + TEXT * 0.75 : -1, PR_MIDDLE, text);
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
  draw_punch_marks (st);
  draw_shade_words (st);
  draw_flags (st, names, -1);
  draw_flags (st, numbers, 1);
  for (int i = 0; i < 2; i++)
    if (!isnan (st->part->join[i]))
      draw_join (st, st->part->join[i], st->part->letter[i]);
  if (st->part->title != NULL) {
    lettering (st, TITLE, true);
    pr_ink (st->cr, st->ink->text);
    pr_text (st->cr, 0, TITLE, PR_LEFT, st->part->title);
  }
  cairo_restore (st->cr);
}

double
pr_bar_part_top (const PrBarLook *look)
{
  return (look->rows * ROW + STUB) * look->text / TEXT;
}

/* Finds the edges of the bar; ABOVE and BELOW are the rows of words. Returns where all of it ends. */
static double
lay (Strip *st, int above, int below)
{
  double wide = st->look->thick > 0 ? st->look->thick * TEXT / st->look->text
                                    : st->job->sources.plan.stock_width * st->k;

  st->top = (st->part->title != NULL ? TITLE + 2 : 0) + above * ROW + STUB;
  st->bottom = st->top + wide;
  return st->bottom + STUB + below * ROW + 0.5;
}

static Strip
strip_of (cairo_t *cr, const PrJob *job, PrUnit unit, const PrBarLook *look, const PrBarPart *part)
{
  return (Strip){ .cr = cr,
                  .job = job,
                  .piece = &job->iron.piece[part->piece],
                  .part = part,
                  .look = look,
                  .ink = look->ink,
                  .unit = unit,
                  .k = look->scale * TEXT / look->text,
                  .from = part->from,
                  .to = part->to,
                  .missing = missing (job, part->piece),
                  .main = part->piece == 0 };
}

/* Words keep between *LOW and *HIGH: at a join they leave its line clear. */
static void
room_for_words (const Strip *st, double *low, double *high)
{
  const PrBarPart *part = st->part;
  double beyond = st->look->beyond * TEXT / st->look->text;

  *low = isnan (part->join[0]) ? -beyond : across (st, part->join[0]) + PR_FLAG_CLEAR;
  *high = isnan (part->join[1]) ? across (st, part->to) + beyond : across (st, part->join[1]) - PR_FLAG_CLEAR;
}

double
pr_bar_part (cairo_t *cr, const PrJob *job, PrUnit unit, const PrBarLook *look, const PrBarPart *part)
{
  cairo_t *scratch = pr_text_scratch ();
  double em = look->text / TEXT, low, high;
  Strip st = strip_of (cr, job, unit, look, part);
  g_autoptr (GArray) names = make_flags (scratch, &st, true);
  g_autoptr (GArray) numbers = make_flags (scratch, &st, false);

  cairo_destroy (scratch);
  room_for_words (&st, &low, &high);
  int above = pr_flags_lay (names, low, high, look->rows),
      below = pr_flags_lay (numbers, low, high, look->rows);
  double height = look->rows > 0 ? lay (&st, look->rows, look->rows) : lay (&st, above, below);
  if (cr != NULL) {
    cairo_save (cr);
    cairo_scale (cr, em, em);
    draw_strip (&st, names, numbers);
    cairo_restore (cr);
  }
  return height * em;
}
