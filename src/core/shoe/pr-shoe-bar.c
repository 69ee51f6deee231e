/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-bar.h"

#include <glib/gi18n-lib.h>

#include "pr-fillet.h"
#include "pr-length.h"

/* Common practice, no source: outer corners 8 to 10 mm, inner fillets 5 to 8 mm. */
#define CORNER_MM 9.0
#define FILLET_MM 6.0
#define EGG_FILLET 0.5   /* of the bar's width: an egg's inner edge bends at least as gently */
#define EGG_LEAST_MM 8.0 /* behind the heels: nearer, its corners would be as tight as the web is wide */
#define EGG_ROUND 1.0    /* tangent along the branch over that along the back: above, it is pointed */
#define EGG_UP_MOST 32   /* stations up a branch, where it may begin: a little ahead of the last knot */
#define EGG_SIDES 24     /* of half its edge */
#define LEAD_MM 45.0     /* of an edge that goes into the rounding of its corner: a fillet reaches less */
#define OPENING_MM 40.0  /* of inner edge round the toe that must be left of the opening */
#define MOST_CROSSINGS 8

/* Of a heart; common practice, no source. */
#define FROG_LENGTH 0.667   /* of the hoof's, apex to the level of the buttresses */
#define FROG_HALF 0.2       /* of the hoof's width, at the level of the buttresses */
#define LEAST_FROG_MM 25.0  /* from apex to base; shorter, or lying across, the marks are not a frog's */
#define WITHIN_FROG 0.9     /* the plate keeps this share of the frog's width */
#define LEAST_SLOT_MM 10.5  /* beside the plate, for two fillets of 5 mm */
#define LEAST_PLATE_MM 12.0 /* wide at the root ... */
#define LEAST_REACH_MM 12.0 /* ... and ahead of the bar; less carries nothing */
#define PLATE_FILLET_MM 7.0
#define SLOT_SHARE 0.48 /* of a slot, for one of its fillets */
#define HEEL_REACH \
  1.7 /* web at the heel that makes 1 mm of it beside the plate: there it lies nearer the quarter's */

typedef struct {
  PrPath back;  /* the bar's rear edge, from the end of the medial outer edge to that of the lateral one */
  PrPath front; /* its edge to the opening, between the places where it leaves the inner edge */
  double leaves[2];    /* which lie this far from the inner edge's ends ... */
  double from[2];      /* ... and where the rear edge begins, from the outer edge's */
  size_t joint[2];     /* stations between which branch and bar meet, of an egg */
  double corner, fill; /* radii, outside and inside */
  double loop;         /* length of the loops that the front may make of itself */
} Bar;

static void
bar_clear (Bar *bar)
{
  pr_path_clear (&bar->back);
  pr_path_clear (&bar->front);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Bar, bar_clear)

bool
pr_bar_is_flush (const PrPlan *plan)
{
  return plan->bar == PR_BAR_STRAIGHT || plan->bar == PR_BAR_HEART;
}

/* --- flush with the heels ----------------------------------------------------------------- */

/* The line BAR_WEB ahead of the heels, between the branches. */
static bool
flush_bar (const PrShoe *shoe, const PrPlan *plan, Bar *bar)
{
  PrPt m = shoe->heel_outer[PR_MEDIAL], l = shoe->heel_outer[PR_LATERAL];
  PrPt across = pr_pt_unit (pr_pt_sub (l, m));
  double s[MOST_CROSSINGS], length = pr_path_length (&shoe->inner);

  pr_path_add (&bar->back, m);
  pr_path_add (&bar->back, l);
  bar->corner = CORNER_MM;
  bar->fill = FILLET_MM;
  size_t n = pr_path_crossings (&shoe->inner, pr_pt_along (m, pr_pt_left (across), plan->bar_web), across, s,
                                MOST_CROSSINGS);

  if (n < 2 || n > MOST_CROSSINGS || !(across.x > 0.5) || s[n - 1] - s[0] < OPENING_MM)
    return false;
  bar->leaves[PR_MEDIAL] = s[0];
  bar->leaves[PR_LATERAL] = length - s[n - 1];
  pr_path_add (&bar->front, pr_path_at (&shoe->inner, s[0], NULL));
  pr_path_add (&bar->front, pr_path_at (&shoe->inner, s[n - 1], NULL));
  return true;
}

/* --- egg ---------------------------------------------------------------------------------- */

/* Half of an egg's outer edge, from a branch's end to the middle of the back. */
typedef struct {
  PrPt p, t;     /* where it begins, and its unit direction there */
  double bend;   /* curvature there, inward */
  double turn;   /* +1 where inward is to its left: the medial half */
  PrPt back;     /* where it ends, level */
  double a, b;   /* from p and from back to where the tangents meet */
  double flat;   /* curvature at the back */
  double web[2]; /* at its two ends */
} EggHalf;

/* Curvature of the edge's spline at station I, inward, and no tighter than the web allows. */
static double
edge_bend (const PrShoe *shoe, size_t i, double web)
{
  const PrSpline *sp = &shoe->edge;
  size_t span = MIN (i / PR_STATIONS_PER_SPAN, PR_N_KNOTS - 2);
  double t = (double) (i - span * PR_STATIONS_PER_SPAN) / PR_STATIONS_PER_SPAN;
  PrPt d1, d2;

  pr_spline_at (sp, sp->u[span] + (sp->u[span + 1] - sp->u[span]) * t, &d1, &d2);
  double speed = pr_pt_len (d1);
  return speed > 0 ? CLAMP (-pr_pt_cross (d1, d2) / (speed * speed * speed), 0, 1 / (web * (1 + EGG_FILLET)))
                   : 0;
}

/* From station I. FALSE where the branch's edge and the back do not meet on ahead. The curvature at the back is that of the
 * ellipse which touches both there (a conic with tangents a and b that turns by c is curved by tan (c/2) a / b^2 at the
 * end of b). */
static bool
egg_half_from (const PrShoe *shoe, const PrPlan *plan, int b, size_t i, PrPt back, EggHalf *half)
{
  const PrStation *st = &shoe->st[i];
  double turn = -pr_side_sign (b), web = pr_pt_dist (st->outer, st->inner);

  *half = (EggHalf){ .p = st->outer, .t = pr_pt_scale (st->along, -turn), .turn = turn, .back = back };
  half->bend = edge_bend (shoe, i, web);
  half->web[0] = web;
  half->web[1] = plan->bar_web;
  PrPt e = pr_pt (turn, 0), off = pr_pt_sub (back, half->p);
  double sine = pr_pt_cross (half->t, e);

  if (!(sine * turn > 0.05))
    return false;
  half->a = pr_pt_cross (off, e) / sine;
  half->b = pr_pt_cross (half->t, off) / sine;
  half->flat = tan (acos (CLAMP (pr_pt_dot (half->t, e), -1, 1)) / 2) * half->a / (half->b * half->b);
  return half->a > 1 && half->b > 1;
}

/* From the branch's end; or, where heels run together so steeply that the oval would be pointed behind, from as far up the
 * branch as it is round: there it stands fuller than the wall, as an egg bar does. */
static bool
egg_half (const PrShoe *shoe, const PrPlan *plan, int b, PrPt back, Bar *bar, EggHalf *half)
{
  size_t step = b == PR_LATERAL ? (size_t) -1 : 1;
  bool found = false;

  for (size_t k = 0, i = b == PR_LATERAL ? shoe->n_st - 1 : 0; k <= EGG_UP_MOST; k++, i += step) {
    found = egg_half_from (shoe, plan, b, i, back, half);
    bar->joint[b] = i;
    if (found && half->a < EGG_ROUND * half->b)
      return true;
  }
  return found;
}

/* The half as a curve of the fifth degree with the directions and curvatures of its ends. Its six points turn one way
 * only, which keeps it convex: the second from each end stays short of where the tangents meet. */
static void
egg_points (const EggHalf *h, PrPt c[6])
{
  double arc = (h->a + h->b + 2 * pr_pt_dist (h->p, h->back)) / 3;
  double l = MIN (arc, 2.2 * h->a), m = MIN (arc, 2.2 * h->b);
  PrPt in = pr_pt_scale (pr_pt_left (h->t), h->turn), e = pr_pt (h->turn, 0);

  c[0] = h->p;
  c[1] = pr_pt_along (h->p, h->t, l / 5);
  c[2] = pr_pt_along (pr_pt_along (h->p, h->t, 2 * l / 5), in, h->bend * l * l / 20);
  c[3] = pr_pt_along (pr_pt_along (h->back, e, -2 * m / 5), pr_pt (0, 1), h->flat * m * m / 20);
  c[4] = pr_pt_along (h->back, e, -m / 5);
  c[5] = h->back;
}

/* Point of the curve through control points C at T by de Casteljau, and its direction. */
static PrPt
egg_at (const PrPt points[6], double t, PrPt *along)
{
  PrPt c[6];

  for (int i = 0; i < 6; i++)
    c[i] = points[i];
  for (int level = 5; level > 0; level--) {
    *along = pr_pt_unit (pr_pt_sub (c[1], c[0]));
    for (int i = 0; i < level; i++)
      c[i] = pr_pt_lerp (c[i], c[i + 1], t);
  }
  return c[0];
}

static void
add_half (const EggHalf *half, Bar *bar)
{
  PrPt c[6];

  egg_points (half, c);
  for (int k = 0; k <= EGG_SIDES; k++) {
    /* the medial half runs to the back, the lateral one from it */
    double t = (double) (half->turn > 0 ? k : EGG_SIDES - k) / EGG_SIDES, s = t * t * (3 - 2 * t);
    PrPt along, p = egg_at (c, t, &along);

    pr_path_add (&bar->back, p);
    pr_path_add (&bar->front, pr_pt_along (p, pr_pt_left (along),
                                           half->turn * (half->web[0] + (half->web[1] - half->web[0]) * s)));
  }
}

/* How far a joint lies from the ends of the two edges. */
static void
leave_at (const PrShoe *shoe, Bar *bar, int b)
{
  size_t i = bar->joint[b];
  double length = pr_path_length (&shoe->inner), s = 0;

  pr_path_nearest (&shoe->inner, shoe->st[i].inner, &s, NULL);
  bar->leaves[b] = b == PR_LATERAL ? length - s : s;
  bar->from[b] = b == PR_LATERAL ? shoe->st[shoe->n_st - 1].edge - shoe->st[i].edge : shoe->st[i].edge;
}

static bool
egg_bar (const PrShoe *shoe, const PrPlan *plan, Bar *bar)
{
  PrPt m = shoe->heel_outer[PR_MEDIAL], l = shoe->heel_outer[PR_LATERAL];
  PrPt back = pr_pt ((m.x + l.x) / 2, MIN (m.y, l.y) - MAX (plan->bar_set_back, EGG_LEAST_MM));
  EggHalf half[2];

  for (int b = 0; b < 2; b++)
    if (!egg_half (shoe, plan, b, back, bar, &half[b]))
      return false;
  half[PR_MEDIAL].flat = half[PR_LATERAL].flat = (half[PR_MEDIAL].flat + half[PR_LATERAL].flat) / 2;
  add_half (&half[PR_MEDIAL], bar);
  bar->back.n--, bar->front.n--;
  add_half (&half[PR_LATERAL], bar);
  for (int b = 0; b < 2; b++)
    leave_at (shoe, bar, b);
  bar->fill = EGG_FILLET * plan->bar_web;
  bar->loop = G_PI * MAX (plan->bar_web, half[0].web[0]);
  return true;
}

/* --- heart -------------------------------------------------------------------------------- */

/* The frog as a wedge, from its apex back to its base. */
typedef struct {
  PrPt apex, ahead;  /* ahead: unit, base to apex */
  double back, half; /* half as wide as HALF, BACK behind the apex */
} Frog;

static PrPt
frog_base (const PrHoof *hoof)
{
  const PrPt *at = hoof->has_frog[0] && hoof->has_frog[1] ? hoof->frog : hoof->buttress;

  return pr_pt_lerp (at[PR_MEDIAL], at[PR_LATERAL], 0.5);
}

static void
usual_frog (const PrHoof *hoof, Frog *frog)
{
  double y = (hoof->buttress[0].y + hoof->buttress[1].y) / 2;

  frog->back = FROG_LENGTH * (hoof->toe.y - y);
  frog->apex = pr_pt (0, y + frog->back);
  frog->ahead = pr_pt (0, 1);
  frog->half = FROG_HALF * hoof->width;
}

/* TRUE when what is marked is a frog: its apex ahead of its base. */
static bool
marked_frog (const PrHoof *hoof, Frog *frog)
{
  PrPt base = frog_base (hoof), off;

  usual_frog (hoof, frog);
  if (hoof->has_frog_apex)
    frog->apex = hoof->frog_apex;
  off = pr_pt_sub (frog->apex, base);
  frog->ahead = pr_pt_unit (off);
  if (pr_pt_len (off) < LEAST_FROG_MM || frog->ahead.y < 0.8) {
    usual_frog (hoof, frog);
    return false;
  }
  frog->back = pr_pt_len (off);
  for (int b = 0; b < 2; b++) {
    PrPt edge = pr_pt_sub (hoof->frog[b], frog->apex);
    double wide = fabs (pr_pt_cross (frog->ahead, edge)), behind = -pr_pt_dot (frog->ahead, edge);

    if (hoof->has_frog[b] && behind > LEAST_FROG_MM)
      frog->half = MIN (frog->half, wide * frog->back / behind);
  }
  return hoof->has_frog_apex;
}

static double
half_frog (const Frog *frog, double behind)
{
  return frog->half * CLAMP (behind / frog->back, 0, 1);
}

/* Wide enough, and far enough from both branches? ROOM is what lies beside the axis on the front edge. */
static bool
root_half (PrShoe *shoe, const PrPlan *plan, const double room[2], PrPt at, double most, double *half)
{
  double least = MIN (room[0], room[1]);

  *half = MIN (most, least - LEAST_SLOT_MM);
  if (*half >= LEAST_PLATE_MM / 2)
    return true;
  double web = MIN (plan->web_heel[0], plan->web_heel[1])
               - HEEL_REACH * (LEAST_PLATE_MM / 2 + LEAST_SLOT_MM - least);
  g_autofree char *mm = pr_length_text (MAX (web, 0), PR_UNIT_MM);
  g_autofree char *inch = pr_length_text (MAX (web, 0), PR_UNIT_INCH);
  g_autofree char *text
      = most < LEAST_PLATE_MM / 2 ? g_strdup (
            _ ("The frog is too narrow here for a plate; check its marks or make the plate wider."))
        : web > 6 ? g_strdup_printf (
              _ ("A frog plate has no room between these heels; a web of %s (%s) at the heels would fit."),
              mm, inch)
                  : g_strdup (_ ("A frog plate has no room between these heels; use a straight heel bar."));
  pr_shoe_trouble (shoe, at, text);
  return false;
}

/* The plate's sides run alike from both sides of the tip until they meet the front edge. */
static void
plate_edge (PrPath *front, const Frog *frog, PrPt tip, double tip_half, double length, double half)
{
  PrPt m = front->p[0], l = front->p[1], across = pr_pt_sub (l, m), foot[2], head[2], down[2];
  PrPt aside = pr_pt_scale (pr_pt_left (frog->ahead), -1);

  for (int b = 0; b < 2; b++) {
    double sign = pr_side_sign (b);

    head[b] = pr_pt_along (tip, aside, sign * tip_half);
    down[b] = pr_pt_unit (pr_pt_along (pr_pt_scale (frog->ahead, -length), aside, sign * (half - tip_half)));
    foot[b] = pr_pt_along (head[b], down[b],
                           pr_pt_cross (pr_pt_sub (m, head[b]), across) / pr_pt_cross (down[b], across));
  }
  front->n = 1;
  pr_path_add (front, foot[PR_MEDIAL]);
  pr_path_add_corner (front, down[PR_MEDIAL], head[PR_MEDIAL], aside, tip_half, tip_half);
  pr_path_add_corner (front, pr_pt_scale (aside, -1), head[PR_LATERAL], down[PR_LATERAL], tip_half, tip_half);
  pr_path_add (front, foot[PR_LATERAL]);
  pr_path_add (front, l);
}

/* FRONT holds the two ends of the bar's front edge, medial to lateral; the plate's edge goes between them. FILL is made
 * smaller where the slots beside the plate are narrow. FALSE with a trouble told where it has no room. */
static bool
make_plate (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, PrPath *front, double *fill)
{
  PrPt m = front->p[0], l = front->p[1], across = pr_pt_unit (pr_pt_sub (l, m));
  Frog frog;

  shoe->plate_guessed = !marked_frog (hoof, &frog);
  /* the axis crosses the front edge at ROOT, BEHIND the apex */
  double sine = pr_pt_cross (frog.ahead, across);
  double behind = pr_pt_cross (pr_pt_sub (frog.apex, m), across) / sine, half;
  double gap = CLAMP (PR_PLATE_TIP * hoof->width, 10, 20);
  PrPt root = pr_pt_along (frog.apex, frog.ahead, -behind), tip = pr_pt_along (frog.apex, frog.ahead, -gap);
  double room[2] = { pr_pt_dot (pr_pt_sub (root, m), across), pr_pt_dot (pr_pt_sub (l, root), across) };
  double most
      = MIN (plan->bar_plate > 0 ? plan->bar_plate / 2 : INFINITY, WITHIN_FROG * half_frog (&frog, behind));

  shoe->plate_apex = frog.apex;
  shoe->plate_tip = tip;
  if (behind - gap < LEAST_REACH_MM) {
    pr_shoe_trouble (shoe, tip,
                     _ ("The heel bar lies under the whole frog; make it narrower or mark the frog's apex."));
    return false;
  }
  if (!root_half (shoe, plan, room, root, most, &half))
    return false;
  plate_edge (front, &frog, tip, MIN (half, WITHIN_FROG * half_frog (&frog, gap)), behind - gap, half);
  *fill = MIN (PLATE_FILLET_MM, SLOT_SHARE * (MIN (room[0], room[1]) - half));
  shoe->plate_half = half;
  return true;
}

/* --- branches and bar --------------------------------------------------------------------- */

static void
add_new (PrPath *path, PrPt p)
{
  if (path->n == 0 || pr_pt_dist (path->p[path->n - 1], p) > 1e-3)
    pr_path_add (path, p);
}

/* MIDDLE with the parts of EDGE that lead to it, medial to lateral, all corners to the left rounded by R. On EDGE it takes
 * the place of TRIM mm at either end. */
static void
round_corners (const PrPath *edge, const double leaves[2], const PrPath *middle, double loop, double r,
               double trim[2], PrPath *out)
{
  double length = pr_path_length (edge), lead = MIN (LEAD_MM, (length - leaves[0] - leaves[1]) / 3);
  g_auto (PrPath) part = { 0 };

  pr_path_part (&part, edge, leaves[0], leaves[0] + lead);
  for (size_t i = part.n; i-- > 0;)
    add_new (out, part.p[i]);
  for (size_t i = 0; i < middle->n; i++)
    add_new (out, middle->p[i]);
  pr_path_part (&part, edge, length - leaves[1] - lead, length - leaves[1]);
  for (size_t i = part.n; i-- > 0;)
    add_new (out, part.p[i]);
  if (loop > 0)
    pr_path_cut_loops (out, loop);
  pr_path_fill_corners (out, r);
  for (int b = 0; b < 2; b++)
    trim[b] = leaves[b] + lead;
}

/* EDGE without its trimmed ends, and back along ACROSS. */
static void
close_ring (const PrPath *edge, const double trim[2], const PrPath *across, PrPath *ring)
{
  g_auto (PrPath) part = { 0 };

  pr_path_part (&part, edge, trim[0], pr_path_length (edge) - trim[1]);
  for (size_t i = 0; i < part.n; i++)
    add_new (ring, part.p[i]);
  for (size_t i = across->n; i-- > 0;)
    add_new (ring, across->p[i]);
  if (ring->n > 1 && pr_pt_dist (ring->p[0], ring->p[ring->n - 1]) < 1e-3)
    ring->n--;
}

static void
make_rings (PrShoe *shoe, const PrPath *line, const Bar *bar)
{
  g_auto (PrPath) back = { 0 }, front = { 0 };
  double outer[2], inner[2];

  round_corners (line, bar->from, &bar->back, 0, bar->corner, outer, &back);
  round_corners (&shoe->inner, bar->leaves, &bar->front, bar->loop, bar->fill, inner, &front);
  pr_figure_clear (&shoe->figure);
  shoe->figure.ring = g_new0 (PrPath, 2);
  shoe->figure.n = 2;
  close_ring (line, outer, &back, &shoe->figure.ring[0]);
  pr_path_reverse (&shoe->figure.ring[0]);
  close_ring (&shoe->inner, inner, &front, &shoe->figure.ring[1]);
  shoe->bar_at = back.n ? pr_path_at (&back, pr_path_length (&back) / 2, NULL) : shoe->heel_outer[0];
}

/* Where branch and bar are two pieces. */
static void
make_welds (PrShoe *shoe, const PrPlan *plan, const Bar *bar)
{
  double length = pr_path_length (&shoe->inner);

  for (int b = 0; b < 2; b++) {
    const PrStation *st = &shoe->st[bar->joint[b]];
    PrPath *weld = &shoe->weld[b];

    pr_path_empty (weld);
    if (plan->bar != PR_BAR_EGG) {
      pr_path_part (weld, &shoe->inner, b ? length - bar->leaves[b] : 0, b ? length : bar->leaves[b]);
      continue;
    }
    pr_path_add (weld, st->inner);
    pr_path_add (weld, st->outer);
  }
}

/* What the bar adds, corners and fillets counted in: the whole less what lies between the edges as cut. */
static double
added_area (const PrShoe *shoe, const PrPath *line)
{
  static const double whole[2] = { 0, 0 };
  g_auto (PrPath) branches = { 0 };

  close_ring (line, whole, &shoe->inner, &branches);
  return pr_figure_area (&shoe->figure) - fabs (pr_ring_area (&branches));
}

static const char *
cannot_draw (const PrPlan *plan)
{
  if (plan->bar == PR_BAR_EGG)
    return _ ("An egg bar finds no way round these heels; set it further back or make it narrower.");
  return _ ("The heel bar leaves no opening between these branches; make it or the heels narrower.");
}

bool
pr_shoe_close_with_bar (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan, const PrPath *line)
{
  g_auto (Bar) bar = { 0 };
  PrPt at = pr_pt_lerp (shoe->heel_outer[PR_MEDIAL], shoe->heel_outer[PR_LATERAL], 0.5);
  bool made = plan->bar == PR_BAR_EGG ? egg_bar (shoe, plan, &bar) : flush_bar (shoe, plan, &bar);

  if (made && plan->bar == PR_BAR_HEART && !make_plate (shoe, hoof, plan, &bar.front, &bar.fill))
    return false;
  if (made) {
    make_rings (shoe, line, &bar);
    made = pr_ring_area (&shoe->figure.ring[1]) < 0 && pr_figure_is_simple (&shoe->figure, &at);
  }
  if (!made) {
    pr_shoe_trouble (shoe, at, cannot_draw (plan));
    return false;
  }
  shoe->simple = true;
  make_welds (shoe, plan, &bar);
  shoe->bar_volume = MAX (added_area (shoe, line), 0) * plan->thick_heel;
  return true;
}
