/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-draw.h"

#include "pr-ink.h"
#include "pr-strain.h"

#include <glib/gi18n-lib.h>

/* Sizes that follow the line's width, so that lettering keeps its size on a zoomed board. */
#define LABEL_PER_LINE 9.6   /* nail numbers: 3.4 mm at 0.35 mm lines */
#define LETTER_PER_LINE 17.0 /* M and L: 6 mm */
#define LETTER_BEYOND 0.45   /* of their size: from the drawing to the ends of the centre lines */
#define TICK_PER_LINE 5.0    /* half a landmark's cross */
#define DASH_PER_LINE 6.0
#define HALO_PER_LINE \
  1.2 /* how far a halo reaches round what it is for: the pen's line is seen between the dashes */
#define HALO_STRENGTH 0.9 /* what lies under it is guessed at still */

typedef struct {
  cairo_t *cr;
  const PrJob *job;
  const PrDrawOptions *show;
  const PrInk *ink;
  double line;
  PrColour halo;
} Sketch;

/* --- paths ------------------------------------------------------------------------------- */

static void
add_path (cairo_t *cr, const PrPath *path, bool closed)
{
  for (size_t i = 0; i < path->n; i++)
    if (i == 0)
      cairo_move_to (cr, path->p[i].x, path->p[i].y);
    else
      cairo_line_to (cr, path->p[i].x, path->p[i].y);
  if (closed && path->n > 0)
    cairo_close_path (cr);
}

static void
add_figure (cairo_t *cr, const PrFigure *figure)
{
  for (size_t i = 0; i < figure->n; i++)
    add_path (cr, &figure->ring[i], true);
}

static void
add_line (cairo_t *cr, PrPt a, PrPt b)
{
  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
}

/* A rectangle LENGTH along ALONG and WIDTH along OUT, its middle at AT. */
static void
add_block (cairo_t *cr, PrPt at, PrPt along, PrPt out, double length, double width)
{
  PrPt a = pr_pt_scale (along, length / 2), b = pr_pt_scale (out, width / 2);
  PrPt corner[4] = { pr_pt_add (pr_pt_add (at, a), b), pr_pt_add (pr_pt_sub (at, a), b),
                     pr_pt_sub (pr_pt_sub (at, a), b), pr_pt_sub (pr_pt_add (at, a), b) };

  add_path (cr, &(PrPath){ .p = corner, .n = 4 }, true);
}

static void
stroke (const Sketch *sk, PrColour colour, double width, double dash)
{
  double reach = sk->show->halo ? HALO_PER_LINE * sk->line : 0;
  double pattern[2] = { dash + 2 * reach, dash * 0.7 - 2 * reach };

  if (sk->show->halo)
    colour = sk->halo;
  pr_ink (sk->cr, colour);
  cairo_set_line_width (sk->cr, width + 2 * reach);
  cairo_set_dash (sk->cr, pattern, dash > 0 ? 2 : 0, reach);
  cairo_stroke (sk->cr);
  cairo_set_dash (sk->cr, NULL, 0, 0);
}

/* --- frame and lettering ----------------------------------------------------------------- */

void
pr_draw_enter_foot (cairo_t *cr, PrFoot foot, PrFace face, double x, double y)
{
  cairo_translate (cr, x, y);
  cairo_scale (cr, pr_lateral_sign (foot, face), -1);
}

/* HALO: how far it reaches round the text, which is not written then; 0: the text. */
static void
label (cairo_t *cr, int sign, PrPt at, double size, bool bold, double halo, const char *text)
{
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_scale (cr, sign, -1);
  pr_text_face (cr, size, bold);
  /* 0.36 of the size is half the height of figures and capitals */
  if (halo > 0)
    pr_text_halo (cr, 0, size * 0.36, PR_MIDDLE, halo, text);
  else
    pr_text (cr, 0, size * 0.36, PR_MIDDLE, text);
  cairo_restore (cr);
}

void
pr_draw_label (cairo_t *cr, PrFoot foot, PrFace face, PrPt at, double size, const char *text)
{
  label (cr, pr_lateral_sign (foot, face), at, size, false, 0, text);
}

static void
sketch_label (const Sketch *sk, PrColour colour, PrPt at, double size, bool bold, const char *text)
{
  bool halo = sk->show->halo;

  pr_ink (sk->cr, halo ? sk->halo : colour);
  label (sk->cr, pr_lateral_sign (sk->job->sources.foot, sk->show->face), at, size, bold,
         halo ? HALO_PER_LINE * sk->line : 0, text);
}

/* --- extent ------------------------------------------------------------------------------ */

static void
widen (const PrPath *path, PrPt *low, PrPt *high)
{
  for (size_t i = 0; i < path->n; i++) {
    low->x = fmin (low->x, path->p[i].x);
    low->y = fmin (low->y, path->p[i].y);
    high->x = fmax (high->x, path->p[i].x);
    high->y = fmax (high->y, path->p[i].y);
  }
}

void
pr_draw_extent (const PrJob *job, PrPt *low, PrPt *high)
{
  const PrShoe *shoe = job->shoe;

  *low = pr_pt (INFINITY, INFINITY);
  *high = pr_pt (-INFINITY, -INFINITY);
  widen (&job->hoof.outline, low, high);
  if (shoe != NULL) {
    for (size_t i = 0; i < shoe->figure.n; i++)
      widen (&shoe->figure.ring[i], low, high);
    for (size_t i = 0; i < shoe->n_clips; i++)
      widen (&shoe->clip[i].ring, low, high);
  }
  if (low->x > high->x)
    *low = *high = pr_pt (0, 0);
}

/* --- hoof -------------------------------------------------------------------------------- */

double
pr_draw_letters (const PrJob *job, double line_mm, PrPt at[2])
{
  PrPt low, high;
  double size = line_mm * LETTER_PER_LINE, off = size * (LETTER_BEYOND + 0.6);

  pr_draw_extent (job, &low, &high);
  at[PR_MEDIAL] = pr_pt (low.x - off, 0);
  at[PR_LATERAL] = pr_pt (high.x + off, 0);
  return size;
}

static void
draw_centre_lines (const Sketch *sk)
{
  PrPt low, high, letter[2];
  double size = pr_draw_letters (sk->job, sk->line, letter), beyond = size * LETTER_BEYOND;

  pr_draw_extent (sk->job, &low, &high);
  if (!sk->show->halo) { /* they may be faint */
    add_line (sk->cr, pr_pt (0, low.y - beyond), pr_pt (0, high.y + beyond));
    add_line (sk->cr, pr_pt (low.x - beyond, 0), pr_pt (high.x + beyond, 0));
  }
  stroke (sk, sk->ink->faint, sk->line * 0.6, sk->line * DASH_PER_LINE * 0.6);
  if (sk->job->sources.foot == PR_FOOT_ANY)
    return; /* nobody knows which side is which */
  sketch_label (sk, sk->ink->text, letter[PR_MEDIAL], size, true, C_ ("medial", "M"));
  sketch_label (sk, sk->ink->text, letter[PR_LATERAL], size, true, C_ ("lateral", "L"));
}

static void
draw_hoof (const Sketch *sk)
{
  cairo_set_line_cap (sk->cr, CAIRO_LINE_CAP_BUTT);
  add_path (sk->cr, &sk->job->hoof.outline, false);
  stroke (sk, sk->ink->wall, sk->line, sk->line * DASH_PER_LINE);
}

static void
add_cross (cairo_t *cr, PrPt at, double half)
{
  add_line (cr, pr_pt (at.x - half, at.y), pr_pt (at.x + half, at.y));
  add_line (cr, pr_pt (at.x, at.y - half), pr_pt (at.x, at.y + half));
}

static void
draw_landmarks (const Sketch *sk)
{
  const PrHoof *hoof = &sk->job->hoof;
  double half = sk->line * TICK_PER_LINE;

  add_cross (sk->cr, hoof->toe, half);
  for (int side = 0; side < 2; side++) {
    add_cross (sk->cr, hoof->buttress[side], half);
    add_cross (sk->cr, hoof->widest[side], half);
  }
  if (hoof->has_frog_apex)
    add_cross (sk->cr, hoof->frog_apex, half);
  stroke (sk, sk->ink->wall, sk->line * 0.8, 0);
  if (!sk->show->labels || !hoof->has_frog_apex)
    return;
  sketch_label (sk, sk->ink->wall, pr_pt (hoof->frog_apex.x, hoof->frog_apex.y - half * 2.4),
                sk->line * LABEL_PER_LINE, false, _ ("frog"));
}

/* --- shoe -------------------------------------------------------------------------------- */

/* Station of the strain's entry I: as many of one as of the other, unless the map was thinned. */
static const PrStation *
station_of (const PrShoe *shoe, const PrIron *iron, size_t i)
{
  return &shoe->st[iron->n_st > 1 ? i * (shoe->n_st - 1) / (iron->n_st - 1) : 0];
}

/* Stretches of one shade each: one polygon a stretch, not one a station. */
static void
draw_strain (const Sketch *sk)
{
  const PrShoe *shoe = sk->job->shoe;
  const PrIron *iron = &sk->job->iron;

  if (iron->n_st < 2 || shoe->n_st < 2)
    return;
  for (size_t i = 0, end; i + 1 < iron->n_st; i = end) {
    end = pr_strain_stretch (iron, i, pr_strain_level);
    for (size_t k = i; k <= end; k++) {
      PrPt p = station_of (shoe, iron, k)->outer;
      cairo_line_to (sk->cr, p.x, p.y);
    }
    for (size_t k = end + 1; k-- > i;) {
      PrPt p = station_of (shoe, iron, k)->inner;
      cairo_line_to (sk->cr, p.x, p.y);
    }
    pr_ink (sk->cr, pr_strain_colour (sk->ink, pr_strain_level (iron->strain[i])));
    cairo_fill (sk->cr);
  }
}

static void
draw_steel (const Sketch *sk)
{
  const PrShoe *shoe = sk->job->shoe;

  cairo_save (sk->cr);
  cairo_set_fill_rule (sk->cr, CAIRO_FILL_RULE_EVEN_ODD);
  add_figure (sk->cr, &shoe->figure);
  pr_ink (sk->cr, sk->ink->steel);
  if (sk->show->strain) {
    cairo_fill_preserve (sk->cr);
    cairo_clip (sk->cr);
    draw_strain (sk);
  } else
    cairo_fill (sk->cr);
  cairo_restore (sk->cr);
}

/* Where a bevel ends on the foot surface: WIDTH in from one edge, between its places. */
static void
add_bevel (const Sketch *sk, const PrBevel *bevel, int branch, bool outer)
{
  const PrShoe *shoe = sk->job->shoe;

  cairo_new_sub_path (sk->cr);
  for (size_t i = 0; i < shoe->n_st; i++) {
    const PrStation *st = &shoe->st[i];
    PrPt from = outer ? st->outer : st->inner, to = outer ? st->inner : st->outer;

    if (st->branch != branch || st->place < bevel->from || st->place > bevel->to)
      continue;
    PrPt p = pr_pt_along (from, pr_pt_unit (pr_pt_sub (to, from)), fmin (bevel->width, st->web));
    cairo_line_to (sk->cr, p.x, p.y);
  }
}

static void
draw_bevels (const Sketch *sk)
{
  const PrPlan *plan = &sk->job->sources.plan;

  if (sk->show->face != PR_FACE_FOOT)
    return;
  for (int branch = 0; branch < 2; branch++) {
    if (plan->boxing[branch].width > 0 && plan->boxing[branch].depth > 0)
      add_bevel (sk, &plan->boxing[branch], branch, true);
    if (plan->seating[branch].width > 0 && plan->seating[branch].depth > 0)
      add_bevel (sk, &plan->seating[branch], branch, false);
  }
  stroke (sk, sk->ink->line, sk->line * 0.5, 0);
}

/* Where a rolled toe leaves the plane: bent up, it shows on both faces. */
static void
draw_roll (const Sketch *sk)
{
  const PrRoll *roll = &sk->job->shoe->roll;

  if (!roll->present)
    return;
  add_line (sk->cr, roll->line[0], roll->line[1]);
  stroke (sk, sk->ink->line, sk->line * 0.7, 0);
}

/* The groove lies on the ground surface; on the foot surface its place is hinted at, to punch by. */
static void
draw_creases (const Sketch *sk)
{
  const PrShoe *shoe = sk->job->shoe;
  bool ground = sk->show->face == PR_FACE_GROUND;

  cairo_set_line_cap (sk->cr, ground ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  for (size_t i = 0; i < shoe->n_creases; i++) {
    add_path (sk->cr, &shoe->crease[i].middle, false);
    if (ground)
      stroke (sk, sk->ink->crease, shoe->crease[i].width, 0);
    else
      stroke (sk, sk->ink->faint, sk->line * 0.6, sk->line * DASH_PER_LINE * 0.6);
  }
  cairo_set_line_cap (sk->cr, CAIRO_LINE_CAP_BUTT);
}

static void
draw_nails (const Sketch *sk)
{
  const PrShoe *shoe = sk->job->shoe;

  for (size_t i = 0; i < shoe->n_nails; i++) {
    const PrNail *nail = &shoe->nail[i];

    add_block (sk->cr, nail->at, nail->along, nail->out, nail->head_length, nail->head_width);
  }
  pr_ink (sk->cr, sk->ink->deep);
  cairo_fill (sk->cr);
  /* the hole itself, light in the head: where the pritchel goes */
  for (size_t i = 0; i < shoe->n_nails; i++) {
    const PrNail *nail = &shoe->nail[i];
    double side = fmin (nail->shank, nail->head_width) * 0.5;

    add_block (sk->cr, nail->at, nail->along, nail->out, side, side);
  }
  pr_ink (sk->cr, sk->ink->ground);
  cairo_fill (sk->cr);
}

static void
draw_nail_numbers (const Sketch *sk)
{
  const PrShoe *shoe = sk->job->shoe;
  double size = sk->line * LABEL_PER_LINE;

  for (size_t i = 0; i < shoe->n_nails; i++) {
    const PrNail *nail = &shoe->nail[i];
    g_autofree char *text = g_strdup_printf ("%d", nail->index + 1);

    sketch_label (sk, sk->ink->text, pr_pt_along (nail->at, nail->out, -nail->head_width / 2 - size * 0.8),
                  size, false, text);
  }
}

static void
draw_clips (const Sketch *sk)
{
  const PrShoe *shoe = sk->job->shoe;

  for (size_t i = 0; i < shoe->n_clips; i++) {
    add_path (sk->cr, &shoe->clip[i].ring, true);
    pr_ink (sk->cr, pr_ink_mix (sk->ink->line, sk->ink->steel, 0.35));
    cairo_fill_preserve (sk->cr);
    stroke (sk, sk->ink->deep, sk->line * 0.8, 0);
  }
}

/* Heel cuts and the extension line: thin, they are lines to work to, not edges. */
static void
draw_work_lines (const Sketch *sk)
{
  const PrShoe *shoe = sk->job->shoe;
  double beyond = sk->line * TICK_PER_LINE;

  for (int side = 0; side < 2 && shoe->n_st > 1 && sk->job->sources.plan.bar == PR_BAR_NONE; side++) {
    PrPt a = shoe->heel_inner[side], b = shoe->heel_outer[side];
    PrPt dir = pr_pt_unit (pr_pt_sub (b, a));

    add_line (sk->cr, pr_pt_along (a, dir, -beyond), a);
    add_line (sk->cr, b, pr_pt_along (b, dir, beyond));
  }
  if (shoe->ext.present)
    add_line (sk->cr, shoe->ext.line[0], shoe->ext.line[1]);
  stroke (sk, sk->ink->faint, sk->line * 0.6, 0);
}

static void
draw_shoe (const Sketch *sk)
{
  const PrShoe *shoe = sk->job->shoe;

  if (sk->show->shoe && (sk->show->fill || sk->show->strain))
    draw_steel (sk);
  if (sk->show->crease)
    draw_creases (sk);
  if (sk->show->shoe) {
    draw_bevels (sk);
    draw_roll (sk);
  }
  if (sk->show->clips)
    draw_clips (sk);
  if (sk->show->shoe) {
    draw_work_lines (sk);
    for (int side = 0; side < 2; side++)
      add_path (sk->cr, &shoe->weld[side], false);
    stroke (sk, sk->ink->line, sk->line * 0.5, sk->line * DASH_PER_LINE * 0.5);
    add_figure (sk->cr, &shoe->figure);
    stroke (sk, sk->ink->line, sk->line, 0);
  }
  if (sk->show->nails)
    draw_nails (sk);
}

void
pr_draw_job (cairo_t *cr, const PrJob *job, const PrDrawOptions *options)
{
  Sketch sk = { .cr = cr,
                .job = job,
                .show = options,
                .ink = options->dark ? &pr_ink_dark : &pr_ink_light,
                .line = options->line_mm > 0 ? options->line_mm : 0.35 };
  bool hoof = job->hoof.outline.n > 1, shoe = job->shoe != NULL && job->shoe->n_st > 1;

  sk.halo = sk.ink->ground;
  sk.halo.a = HALO_STRENGTH;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (shoe && !options->halo)
    draw_shoe (&sk);
  if (options->centre_lines && (hoof || shoe))
    draw_centre_lines (&sk);
  if (options->hoof && hoof)
    draw_hoof (&sk);
  if (options->landmarks && hoof)
    draw_landmarks (&sk);
  if (shoe && options->nails && options->labels && !options->halo)
    draw_nail_numbers (&sk);
  cairo_restore (cr);
}
