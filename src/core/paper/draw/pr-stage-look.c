/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage-look.h"

#include "pr-ink.h"

#include <string.h>

#define HOT_SHARE 0.8 /* of the tint in hot iron */
#define FAR_MM 1e4    /* further than any shoe reaches */
#define NAME_GAP 0.35 /* of the lettering, between dot and name */
#define MOST_NAMES 24
#define PLAIN_HOLE 0.5 /* of a nail's head: the hole in it */

typedef struct {
  cairo_t *cr;
  const PrJob *job;
  const PrShoe *shoe;
  const PrStage *stage;
  const PrStageLook *look;
  const PrInk *ink;
  double line;
} Picture;

static void
trace (cairo_t *cr, const PrPath *path)
{
  if (path->n == 0)
    return;
  cairo_move_to (cr, path->p[0].x, path->p[0].y);
  for (size_t i = 1; i < path->n; i++)
    cairo_line_to (cr, path->p[i].x, path->p[i].y);
  cairo_close_path (cr);
}

static void
stroke (const Picture *p, PrColour colour, double width)
{
  pr_ink (p->cr, colour);
  cairo_set_line_width (p->cr, width);
  cairo_stroke (p->cr);
}

/* --- iron ---------------------------------------------------------------------------------- */

/* Branches, or of the finished stage the shoe's figure. */
static void
trace_iron (const Picture *p)
{
  cairo_new_path (p->cr);
  if (!p->stage->finished) {
    trace (p->cr, &p->stage->ring);
    return;
  }
  for (size_t i = 0; i < p->shoe->figure.n; i++)
    trace (p->cr, &p->shoe->figure.ring[i]);
}

/* Each run of cuts that are hot. */
static void
trace_hot (const Picture *p)
{
  const PrStage *stage = p->stage;

  cairo_new_path (p->cr);
  for (size_t i = 0, end; i + 1 < stage->n; i = MAX (end, i + 1)) {
    for (end = i; end < stage->n && stage->cut[end].part & p->look->hot;)
      end++;
    if (end < i + 2)
      continue;
    cairo_move_to (p->cr, stage->cut[i].outer.x, stage->cut[i].outer.y);
    for (size_t k = i + 1; k < end; k++)
      cairo_line_to (p->cr, stage->cut[k].outer.x, stage->cut[k].outer.y);
    for (size_t k = end; k-- > i;)
      cairo_line_to (p->cr, stage->cut[k].inner.x, stage->cut[k].inner.y);
    cairo_close_path (p->cr);
  }
}

static PrColour
hot_colour (const Picture *p)
{
  return pr_ink_mix (p->ink->steel, p->ink->draw, HOT_SHARE);
}

static void
fill_part (const Picture *p, const PrStagePart *part)
{
  cairo_new_path (p->cr);
  trace (p->cr, &part->ring);
  pr_ink (p->cr, part->part & p->look->hot ? hot_colour (p) : p->ink->steel);
  cairo_fill (p->cr);
}

/* What has been joined to the finished branches, where it is hot: ahead or behind of them. */
static void
fill_joined (const Picture *p)
{
  bool ahead = p->look->hot & PR_PART_EXTENSION, behind = p->look->hot & PR_PART_BAR;

  cairo_new_path (p->cr);
  if (ahead)
    cairo_rectangle (p->cr, -FAR_MM, 0, 2 * FAR_MM, FAR_MM);
  if (behind)
    cairo_rectangle (p->cr, -FAR_MM, -FAR_MM, 2 * FAR_MM, FAR_MM);
  pr_ink (p->cr, hot_colour (p));
  cairo_fill (p->cr);
  cairo_new_path (p->cr);
  trace (p->cr, &p->stage->ring);
  pr_ink (p->cr, p->ink->steel);
  cairo_fill (p->cr);
}

static void
fill_iron (const Picture *p)
{
  cairo_save (p->cr);
  cairo_set_fill_rule (p->cr, CAIRO_FILL_RULE_EVEN_ODD);
  for (size_t i = 0; i < p->stage->n_parts && !p->stage->finished; i++)
    fill_part (p, &p->stage->part[i]);
  trace_iron (p);
  pr_ink (p->cr, p->ink->steel);
  cairo_fill_preserve (p->cr);
  cairo_clip (p->cr);
  if (p->stage->finished)
    fill_joined (p);
  cairo_set_fill_rule (p->cr, CAIRO_FILL_RULE_WINDING);
  trace_hot (p);
  pr_ink (p->cr, hot_colour (p));
  cairo_fill (p->cr);
  cairo_restore (p->cr);
}

/* Before the iron, which covers its inner half: so no line is left where a part joins another. */
static void
outline (const Picture *p)
{
  for (size_t i = 0; i < p->stage->n_parts; i++) {
    cairo_new_path (p->cr);
    trace (p->cr, &p->stage->part[i].ring);
    stroke (p, p->ink->line, p->line * 2);
  }
  trace_iron (p);
  stroke (p, p->ink->line, p->line * 2);
}

/* --- what is on it ------------------------------------------------------------------------- */

static PrPt
edge_at (const Picture *p, int branch, double edge, double inset, PrPt *out)
{
  double s = pr_shoe_edge_to_s (p->shoe, branch, edge);
  PrPt o = pr_stage_at (p->stage, p->shoe, s, 0, NULL), n = pr_stage_at (p->stage, p->shoe, s, 1, out);
  double width = pr_pt_dist (o, n);

  return pr_pt_lerp (o, n, inset / MAX (width, 1e-9));
}

/* As far as the fuller has been. */
static void
draw_creases (const Picture *p)
{
  bool ground = p->look->show.face == PR_FACE_GROUND;

  for (size_t i = 0; i < p->shoe->n_creases; i++) {
    const PrCrease *crease = &p->shoe->crease[i];
    double length = crease->edge_to - crease->edge_from, done = p->stage->progress.creased[crease->branch];
    int sides = 2 + (int) (length / 3);

    if (!(done > 0))
      continue;
    cairo_new_path (p->cr);
    for (int k = 0; k <= sides; k++) {
      double edge = crease->edge_from + done * length * k / sides;
      double inset = pr_plan_inset_at (&p->job->sources.plan, crease->branch,
                                       pr_shoe_edge_to_place (p->shoe, crease->branch, edge));
      PrPt at = edge_at (p, crease->branch, edge, inset, NULL);

      cairo_line_to (p->cr, at.x, at.y);
    }
    stroke (p, ground ? p->ink->crease : p->ink->faint, ground ? crease->width : p->line * 0.6);
  }
}

static void
add_block (const Picture *p, PrPt at, PrPt out, double length, double width)
{
  PrPt along = pr_pt_scale (pr_pt_left (out), length / 2), aside = pr_pt_scale (out, width / 2);
  const double corner[4][2] = { { 1, 1 }, { 1, -1 }, { -1, -1 }, { -1, 1 } };

  for (int i = 0; i < 4; i++) {
    PrPt c = pr_pt_along (pr_pt_along (at, along, corner[i][0]), aside, corner[i][1]);

    cairo_line_to (p->cr, c.x, c.y);
  }
  cairo_close_path (p->cr);
}

/* How many nails branch B has. */
static int
nails_of (const PrShoe *shoe, int b)
{
  int n = 0;

  for (size_t i = 0; i < shoe->n_nails; i++)
    n += shoe->nail[i].branch == b;
  return n;
}

/* One after the other, from the toe. */
static void
draw_nails (const Picture *p)
{
  for (size_t i = 0; i < p->shoe->n_nails; i++) {
    const PrNail *nail = &p->shoe->nail[i];
    double done = p->stage->progress.punched[nail->branch] * nails_of (p->shoe, nail->branch) - nail->index;
    double side = fmin (nail->shank, nail->head_width) * PLAIN_HOLE;
    PrPt out, at = edge_at (p, nail->branch, nail->edge, nail->inset, &out);

    if (!(done > 0))
      continue;
    cairo_new_path (p->cr);
    add_block (p, at, out, nail->head_length * MIN (done, 1), nail->head_width * MIN (done, 1));
    pr_ink (p->cr, p->ink->deep);
    cairo_fill (p->cr);
    if (done < 1)
      continue;
    add_block (p, at, out, side, side);
    pr_ink (p->cr, p->ink->ground);
    cairo_fill (p->cr);
  }
}

/* As they are in the end, as far out of the edge as they are drawn. */
static void
draw_clips (const Picture *p)
{
  for (size_t i = 0; i < p->shoe->n_clips; i++) {
    const PrClip *clip = &p->shoe->clip[i];
    double done = p->stage->progress.clipped[clip->plan_index];
    PrPt out, at = edge_at (p, clip->branch, clip->edge, 0, &out);
    PrPt along = pr_pt_scale (pr_pt_left (out), pr_pt_cross (clip->out, clip->along) > 0 ? 1 : -1);

    if (!(done > 0))
      continue;
    cairo_new_path (p->cr);
    for (size_t k = 0; k < clip->ring.n; k++) {
      PrPt off = pr_pt_sub (clip->ring.p[k], clip->at);
      PrPt to = pr_pt_along (pr_pt_along (at, along, pr_pt_dot (off, clip->along)), out,
                             pr_pt_dot (off, clip->out) * done);

      cairo_line_to (p->cr, to.x, to.y);
    }
    cairo_close_path (p->cr);
    pr_ink (p->cr, pr_ink_mix (p->ink->line, p->ink->steel, 0.35));
    cairo_fill_preserve (p->cr);
    stroke (p, p->ink->deep, p->line * 0.8);
  }
}

static void
draw_shoe (const Picture *p)
{
  PrDrawOptions show = p->look->show;

  show.shoe = true;
  show.hoof = show.centre_lines = show.labels = show.landmarks = show.fill = show.strain = false;
  pr_draw_job (p->cr, p->job, &show);
}

static void
draw_what_is_on_it (const Picture *p)
{
  if (p->look->show.crease)
    draw_creases (p);
  if (p->look->show.clips)
    draw_clips (p);
  if (p->look->show.nails)
    draw_nails (p);
}

/* --- marks --------------------------------------------------------------------------------- */

/* Room a name takes, in the frame. */
typedef struct {
  PrPt low, high;
} Room;

static void
draw_dots (const Picture *p)
{
  for (size_t i = 0; i < p->stage->n_marks; i++) {
    PrPt at = p->stage->mark[i].at;

    cairo_new_path (p->cr);
    cairo_arc (p->cr, at.x, at.y, p->look->dot, 0, 2 * G_PI);
    pr_ink (p->cr, p->ink->ground);
    cairo_fill_preserve (p->cr);
    stroke (p, p->ink->text, p->line);
  }
}

/* A nail is told by its number. */
static const char *
short_name (const PrStageMark *mark, char number[4])
{
  if (!g_str_has_prefix (mark->id, "nail."))
    return mark->name;
  g_strlcpy (number, mark->id + strlen ("nail."), 4);
  number[strcspn (number, ".")] = 0;
  return number;
}

static bool
is_taken (const Room *taken, int n, const Room *room)
{
  for (int i = 0; i < n; i++)
    if (room->low.x < taken[i].high.x && room->high.x > taken[i].low.x && room->low.y < taken[i].high.y
        && room->high.y > taken[i].low.y)
      return true;
  return false;
}

/* Names of the marks whose ids begin with KIND, outside of the edge. */
static int
draw_names_of (const Picture *p, const char *kind, Room *taken, int n)
{
  double size = p->look->text;

  for (size_t i = 0; i < p->stage->n_marks && n < MOST_NAMES; i++) {
    const PrStageMark *mark = &p->stage->mark[i];
    char number[4];
    const char *name = short_name (mark, number);
    PrPt out;

    if (!g_str_has_prefix (mark->id, kind))
      continue;
    pr_text_face (p->cr, size, false);
    double half = pr_text_width (p->cr, name) / 2, high = size * 0.5;
    PrPt at = pr_stage_at (p->stage, p->shoe, mark->s, 0, &out);
    at = pr_pt_along (at, out, p->look->dot + size * NAME_GAP + half * fabs (out.x) + high * fabs (out.y));
    const Room room
        = { pr_pt (at.x - half - size * 0.2, at.y - high), pr_pt (at.x + half + size * 0.2, at.y + high) };
    if (is_taken (taken, n, &room))
      continue;
    taken[n++] = room;
    pr_ink (p->cr, p->ink->text);
    pr_draw_label (p->cr, p->job->sources.foot, p->look->show.face, at, size, name);
  }
  return n;
}

static void
draw_names (const Picture *p)
{
  static const char *const order[] = { "toe", "heel.", "extension.", "crease.", "nail." };
  Room taken[MOST_NAMES];
  int n = 0;

  for (size_t i = 0; i < G_N_ELEMENTS (order); i++)
    n = draw_names_of (p, order[i], taken, n);
}

void
pr_stage_draw (cairo_t *cr, const PrJob *job, const PrStage *stage, const PrStageLook *look)
{
  const Picture p = { cr,
                      job,
                      job->shoe,
                      stage,
                      look,
                      look->show.dark ? &pr_ink_dark : &pr_ink_light,
                      look->show.line_mm > 0 ? look->show.line_mm : 0.35 };

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (!stage->finished)
    outline (&p);
  fill_iron (&p);
  if (stage->finished)
    draw_shoe (&p);
  else
    draw_what_is_on_it (&p);
  if (look->dot > 0)
    draw_dots (&p);
  if (look->text > 0)
    draw_names (&p);
  cairo_restore (cr);
}
