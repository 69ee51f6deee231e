/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-specimen.h"

#include <cminpack.h>
#include <glib/gi18n-lib.h>

#include "pr-bar-shape.h"
#include "pr-bar-specimen.h"
#include "pr-compare-figures.h"
#include "pr-compare-sides.h"
#include "pr-compare.h"
#include "pr-error.h"
#include "pr-limits.h"
#include "pr-size.h"
#include "pr-specimen-heels.h"
#include "pr-specimen-toe.h"
#include "pr-turn-over.h"

#define N_WEBS 5
#define WEB_EVERY 2       /* stations */
#define HEEL_FREE_MM 10.0 /* from a heel's end on the web is a corner's */
#define LEAST_WEB_MM 5.0
#define EXT_REACH 0.06 /* of a place: its fillets */
#define FRONT_MM 2.0   /* of an extension's front, its middle is that of what lies so near to it */
#define MOST_EVEN_MM 0.3
#define NAIL_SIDE_MM 12.0 /* a hole further inside the outer edge than the web, or outside, is none */

typedef struct {
  PrJob *job;
  double sign, over; /* a place of the sheet as a foot is drawn: (SIGN x + OVER, y) */
  PrFigure foot;     /* the real shoe, foot frame */
  bool extended;
  PrPath ext; /* of an extension, its edge; on the sheet as a foot is drawn, then in the foot frame */
  PrPath outer, inner; /* foot frame, medial to lateral, without the heels' corners */
  PrShoe *shoe;        /* of the trial */
  PrPlan plan;
} Specimen;

static bool
refuse (GError **error, const char *text)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_SHAPE, text);
  return false;
}

/* --- the stand-in for the foot ------------------------------------------------------------- */

/* As seen with the foot surface up, which is how feet are drawn: the sheet's mirror where the ground surface is up. */
static PrSheetPt
flat (const Specimen *sp, PrSheetPt p)
{
  return (PrSheetPt){ sp->sign * p.x + sp->over, p.y };
}

static void
flat_edge (const Specimen *sp, const PrSeenRing *ring, PrPath *out)
{
  pr_path_empty (out);
  for (size_t i = 0; i < ring->n; i++) {
    PrSheetPt p = flat (sp, ring->p[i]);

    pr_path_add (out, pr_pt (p.x, p.y));
  }
}

/* The photo's sheet goes with the job, turned over as its shoe is. */
static void
take_sheet (Specimen *sp, const PrSeen *seen, const PrTracing *sheet)
{
  sp->sign = seen->face == PR_FACE_FOOT ? 1 : -1;
  if (!sheet)
    return;
  g_autoptr (PrTracing) own = pr_tracing_copy (sheet);
  if (sp->sign < 0) {
    pr_tracing_turn_over (own);
    sp->over = own->scale.width_mm;
  }
  pr_tracing_free (sp->job->sources.tracing);
  sp->job->sources.tracing = g_steal_pointer (&own);
}

/* Middle of the extension's front, which with the middle of the heels gives the centre line: the round toe that stands in for
 * what it hides is no measure of that. */
static PrSheetPt
front_middle (const PrPath *ext, PrPt heels)
{
  PrPt root = pr_pt_lerp (ext->p[0], ext->p[ext->n - 1], 0.5), ahead = pr_pt_unit (pr_pt_sub (root, heels));
  PrPt sum = { 0, 0 };
  double front = -INFINITY, n = 0;

  for (size_t i = 0; i < ext->n; i++)
    front = MAX (front, pr_pt_dot (ext->p[i], ahead));
  for (size_t i = 0; i < ext->n; i++)
    if (pr_pt_dot (ext->p[i], ahead) > front - FRONT_MM) {
      sum = pr_pt_add (sum, ext->p[i]);
      n++;
    }
  return (PrSheetPt){ sum.x / n, sum.y / n };
}

static bool
centre_by_extension (Specimen *sp, const PrPath *outline, GError **error)
{
  PrLandmarks *marks = &sp->job->sources.marks;

  marks->toe = front_middle (&sp->ext, pr_pt_lerp (outline->p[0], outline->p[outline->n - 1], 0.5));
  marks->has_toe = true;
  return pr_job_refresh_hoof (sp->job, error);
}

static bool
find_outline (Specimen *sp, const PrSeen *seen, PrPath *outline)
{
  g_auto (PrPath) edge = { 0 }, whole = { 0 };

  flat_edge (sp, &seen->outer, &edge);
  if (!seen->open)
    return pr_bar_outline (&edge, outline);
  pr_edge_without_ends (&edge, &whole);
  sp->extended = pr_edge_without_extension (&whole, outline, &sp->ext);
  return true;
}

static bool
make_hoof (Specimen *sp, const PrSeen *seen, GError **error)
{
  g_auto (PrPath) outline = { 0 };
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));

  if (!find_outline (sp, seen, &outline))
    return refuse (error, _ ("No plan comes near this shoe; check its edges in the photo."));
  for (size_t i = 0; i < outline.n; i++) {
    PrSheetPt p = { outline.p[i].x, outline.p[i].y };

    g_array_append_val (points, p);
  }
  if (!pr_job_take_outline (sp->job, (const PrSheetPt *) (const void *) points->data, points->len, false,
                            error))
    return false;
  sp->job->sources.tracing->specimen = true;
  return sp->extended ? centre_by_extension (sp, &outline, error) : pr_job_refresh_hoof (sp->job, error);
}

static void
into_foot (const Specimen *sp, const PrSeenRing *ring, PrPath *out)
{
  g_auto (PrPath) whole = { 0 };

  for (size_t i = 0; i < ring->n; i++)
    pr_path_add (&whole, pr_foot_frame_in (&sp->job->hoof.frame, flat (sp, ring->p[i])));
  if (whole.n > 1 && whole.p[0].x > whole.p[whole.n - 1].x)
    pr_path_reverse (&whole);
  pr_edge_without_ends (&whole, out);
}

static void
lay_seen (Specimen *sp, const PrSeen *seen)
{
  pr_seen_figure (seen, sp->sign, &sp->foot);
  for (size_t r = 0; r < sp->foot.n; r++) {
    PrPath *ring = &sp->foot.ring[r];

    for (size_t i = 0; i < ring->n; i++)
      ring->p[i]
          = pr_foot_frame_in (&sp->job->hoof.frame, (PrSheetPt){ ring->p[i].x + sp->over, -ring->p[i].y });
    if ((pr_ring_area (ring) > 0) != (r == 0))
      pr_path_reverse (ring);
  }
  for (size_t i = 0; i < sp->ext.n; i++)
    sp->ext.p[i] = pr_foot_frame_in (&sp->job->hoof.frame, (PrSheetPt){ sp->ext.p[i].x, sp->ext.p[i].y });
  if (seen->open) {
    into_foot (sp, &seen->outer, &sp->outer);
    into_foot (sp, &seen->inner, &sp->inner);
  } else
    pr_path_copy (&sp->outer, &sp->foot.ring[0]);
}

/* --- plan ---------------------------------------------------------------------------------- */

/* What the foot asks for in a style has nothing to go by here. */
static void
plain_rules (PrPlan *plan)
{
  for (int b = 0; b < 2; b++) {
    plan->fit_front[b] = plan->fit_heel[b] = 0;
    plan->heel_taper[b] = plan->trailer[b] = plan->trailer_out[b] = plan->side_ext[b] = 0;
  }
  plan->ext_ahead = 0;
  plan->bar = PR_BAR_NONE;
  plan->web_use_all = false;
  if (plan->toe != PR_TOE_ROLLED)
    plan->toe = PR_TOE_PLAIN;
}

/* Ahead of the stand-in's toe; its fillets are the style's, as far as it has any. */
static void
set_extension (const Specimen *sp, PrPlan *plan)
{
  PrSeenExtension ext;

  if (!sp->extended || !pr_seen_extension (&sp->ext, &ext))
    return;
  plan->ext_ahead = ext.front - sp->job->hoof.toe.y;
  plan->ext_width = ext.width;
  plan->ext_round = ext.corner;
  if (!(plan->ext_thick > 0))
    plan->ext_thick = plan->thick_toe;
}

static bool
set_heels (Specimen *sp, PrPlan *plan)
{
  int level = 0;

  for (int b = 0; b < 2; b++) {
    PrSeenHeel heel;

    if (!pr_seen_heel (&sp->foot, &sp->outer, &sp->inner, b, &heel))
      return false;
    plan->heel_past[b] = sp->job->hoof.buttress[b].y - heel.corner.y;
    plan->heel_round[b] = heel.round;
    level += heel.level;
  }
  plan->heel_cut = level > 0 ? PR_HEEL_CUT_CENTRE : PR_HEEL_CUT_BRANCH;
  return true;
}

static void
set_thickness (PrPlan *plan, const PrSeen *seen)
{
  if (!(seen->thickness_mm > 0))
    return;
  plan->thick_toe = plan->thick_heel = seen->thickness_mm;
  pr_param_set (plan, pr_param_find ("crease.depth"), pr_size_crease_depth (seen->thickness_mm));
}

static double
front_of (const PrFigure *figure)
{
  double front = -INFINITY;

  for (size_t i = 0; figure->n > 0 && i < figure->ring[0].n; i++)
    front = MAX (front, figure->ring[0].p[i].y);
  return front;
}

/* The stand-in's toe and the fitted edge's are not quite one: the extension reaches as far as the real one. */
static bool
reach_front (Specimen *sp)
{
  if (!sp->extended)
    return true;
  if (!pr_shoe_build (sp->shoe, &sp->job->hoof, &sp->plan, NULL))
    return false;
  sp->plan.ext_ahead += front_of (&sp->foot) - front_of (&sp->shoe->figure);
  return sp->plan.ext_ahead > 0;
}

/* --- webs ---------------------------------------------------------------------------------- */

static bool
web_counts (const PrShoe *shoe, size_t i)
{
  const PrStation *st = &shoe->st[i];

  return shoe->edge_length[st->branch] - st->place * shoe->edge_buttress[st->branch] > HEEL_FREE_MM;
}

static void
put_webs (PrPlan *plan, const double *x)
{
  double web[N_WEBS];

  for (int i = 0; i < N_WEBS; i++)
    web[i] = MAX (x[i], LEAST_WEB_MM);
  plan->web_toe = web[0];
  plan->web_quarter[0] = web[1];
  plan->web_quarter[1] = web[2];
  plan->web_heel[0] = web[3];
  plan->web_heel[1] = web[4];
}

/* What is sought: the webs; and where an extension hides the toe's outer edge, how far that lies ahead of the stand-in's, which
 * the inner edge tells as webs change evenly from toe to quarter. */
#define N_SOUGHT (N_WEBS + 1)

static void
put_trial (const Specimen *sp, PrPlan *plan, const double *x)
{
  put_webs (plan, x);
  if (sp->extended)
    plan->knot[PR_KNOT_TOE].y += x[N_WEBS];
}

/* Behind an extension, whose sides are cut aslant, the web is told by its inner edge alone. */
static double
web_off (const Specimen *sp, const PrStation *st)
{
  const PrExtension *ext = &sp->shoe->ext;
  double a, b, c, d;

  if (!pr_iron_along (&sp->foot, st, &a, &b) || !pr_iron_along (&sp->shoe->figure, st, &c, &d))
    return 0;
  bool hidden = ext->present && st->place < ext->line_place[st->branch] + EXT_REACH;
  return hidden ? d - b : (d - c) - (b - a);
}

/* Residuals for cminpack: the trial's web less the real one's, both along the trial's cuts. */
static int
web_residuals (void *data, int m, int n, const double *x, double *out, int flag)
{
  Specimen *sp = data;
  PrPlan plan = sp->plan;

  (void) n;
  (void) flag;
  put_trial (sp, &plan, x);
  if (!pr_shoe_build (sp->shoe, &sp->job->hoof, &plan, NULL))
    return -1;
  for (int i = 0; i < m; i++) {
    size_t at = (size_t) i * WEB_EVERY;

    out[i] = web_counts (sp->shoe, at) ? web_off (sp, &sp->shoe->st[at]) : 0;
  }
  return 0;
}

static bool
fit_webs (Specimen *sp)
{
  int m = (PR_N_STATIONS - 1) / WEB_EVERY + 1, n = sp->extended ? N_SOUGHT : N_WEBS, ipvt[N_SOUGHT],
      lwa = m * n + 5 * n + m;
  double x[N_SOUGHT] = { sp->plan.web_toe, sp->plan.web_quarter[0], sp->plan.web_quarter[1],
                         sp->plan.web_heel[0], sp->plan.web_heel[1] };
  g_autofree double *out = g_new0 (double, m), *work = g_new0 (double, lwa);
  int info = lmdif1 (web_residuals, sp, m, n, x, out, 1e-6, ipvt, work, lwa);

  if (info < 0)
    return false;
  put_trial (sp, &sp->plan, x);
  return true;
}

/* What a rough edge leaves over between its area and the plan's goes evenly into the webs: the bar goes by the area. */
static bool
even_out (Specimen *sp)
{
  /* an extension's fillets and corners are not fitted to that */
  if (sp->extended)
    return true;
  if (!pr_shoe_build (sp->shoe, &sp->job->hoof, &sp->plan, NULL))
    return false;
  double missing = pr_figure_area (&sp->foot) - pr_figure_area (&sp->shoe->figure);
  double more = CLAMP (missing / MAX (sp->shoe->middle_length, 1), -MOST_EVEN_MM, MOST_EVEN_MM);
  const double web[N_WEBS]
      = { sp->plan.web_toe + more, sp->plan.web_quarter[0] + more, sp->plan.web_quarter[1] + more,
          sp->plan.web_heel[0] + more, sp->plan.web_heel[1] + more };

  put_webs (&sp->plan, web);
  return true;
}

/* --- nails --------------------------------------------------------------------------------- */

typedef struct {
  double edge, inset; /* along the outer edge from the toe, mm; inside it */
} Hole;

static int
from_toe (gconstpointer a, gconstpointer b)
{
  double x = ((const Hole *) a)->edge, y = ((const Hole *) b)->edge;

  return x < y ? -1 : x > y;
}

/* The holes of BRANCH, from the toe on. Element type Hole. Transfer full. */
static GArray *
holes_of (const Specimen *sp, const PrSeen *seen, int branch)
{
  GArray *holes = g_array_new (FALSE, FALSE, sizeof (Hole));

  for (size_t i = 0; i < seen->n_nail; i++) {
    PrPt at = pr_foot_frame_in (&sp->job->hoof.frame, flat (sp, seen->nail[i].at));
    double inset, place;

    if (at.x * pr_side_sign (branch) <= 0)
      continue;
    place = pr_shoe_place_of (sp->shoe, branch, at, &inset);
    Hole hole = { pr_shoe_place_to_edge (sp->shoe, branch, place), inset };
    if (inset > 0 && inset < sp->plan.web_toe + NAIL_SIDE_MM && holes->len < PR_MAX_NAILS)
      g_array_append_val (holes, hole);
  }
  g_array_sort (holes, from_toe);
  return holes;
}

static void
set_nails (const Specimen *sp, PrPlan *plan, int branch, const GArray *holes)
{
  const Hole *hole = (const Hole *) (const void *) holes->data;
  guint n = holes->len;
  double length = sp->shoe->edge_buttress[branch];

  plan->nails[branch] = (int) n;
  plan->nail_first[branch] = hole[0].edge / length;
  plan->nail_last[branch] = hole[n - 1].edge / length;
  plan->nail_inset[branch] = hole[0].inset;
  plan->nail_inset_last[branch] = hole[n - 1].inset;
  for (guint i = 0; i < n; i++) {
    double share = n > 1 ? (double) i / (n - 1) : 0;

    plan->nail_shift[branch][i] = hole[i].edge - (hole[0].edge + share * (hole[n - 1].edge - hole[0].edge));
  }
  const Hole *middle = &hole[n / 2];
  plan->nail_bow[branch] = n > 2 ? (hole[0].inset + hole[n - 1].inset) / 2 - middle->inset : 0;
}

/* The ones that were seen, in place of the style's; on a branch with none the style's stay. */
static bool
take_nails (Specimen *sp, const PrSeen *seen)
{
  if (!pr_shoe_build (sp->shoe, &sp->job->hoof, &sp->plan, NULL))
    return false;
  for (int b = 0; b < 2; b++) {
    g_autoptr (GArray) holes = holes_of (sp, seen, b);

    if (holes->len > 0)
      set_nails (sp, &sp->plan, b, holes);
  }
  return true;
}

/* --- all of it ----------------------------------------------------------------------------- */

static double
edge_off (const Specimen *sp)
{
  double sum = 0;

  for (size_t i = 0; i < sp->outer.n; i++)
    sum += pr_path_nearest (&sp->job->shoe->figure.ring[0], sp->outer.p[i], NULL, NULL);
  return sum / (double) MAX (sp->outer.n, 1);
}

static bool
refuse_bar (GError **error)
{
  return refuse (
      error, _ ("This shoe's bar has a form that no plan makes; lay a bar shoe's style on a tracing of its "
                "outer edge and change that by hand."));
}

/* Heels, webs and bar of a closed shoe, all at once. */
static bool
make_bar (Specimen *sp, const PrSeen *seen, GError **error)
{
  g_auto (PrPath) opening = { 0 };
  double off = 0;

  flat_edge (sp, &seen->opening[0], &opening);
  if (!pr_fit (&sp->plan, &sp->job->hoof, NULL, error))
    return false;
  if (!pr_bar_specimen (&sp->plan, &sp->job->hoof, &sp->foot, pr_bar_has_plate (&opening), sp->shoe, &off)
      || off > PR_BAR_OFF_MOST)
    return refuse_bar (error);
  return true;
}

static bool
make_open (Specimen *sp, GError **error)
{
  if (!set_heels (sp, &sp->plan))
    return refuse (error,
                   _ ("The ends of the branches are not seen clearly; draw the shoe's edges by hand."));
  if (!pr_fit (&sp->plan, &sp->job->hoof, NULL, error))
    return false;
  if (!reach_front (sp) || !fit_webs (sp) || !reach_front (sp))
    return refuse (error, _ ("No plan comes near this shoe; check its edges in the photo."));
  return true;
}

static bool
make (Specimen *sp, const PrSeen *seen, const PrStyle *style, GError **error)
{
  PrPlan *plan = &sp->plan;

  if (!make_hoof (sp, seen, error))
    return false;
  lay_seen (sp, seen);
  *plan = sp->job->sources.plan;
  pr_job_apply_style (sp->job, style, plan);
  plain_rules (plan);
  set_thickness (plan, seen);
  set_extension (sp, plan);
  if (!(seen->open ? make_open (sp, error) : make_bar (sp, seen, error)))
    return false;
  if (!even_out (sp) || !take_nails (sp, seen))
    return refuse (error, _ ("No plan comes near this shoe; check its edges in the photo."));
  sp->job->sources.plan = *plan;
  return pr_job_refresh (sp->job, error);
}

static bool
is_whole_shoe (const PrSeen *seen, GError **error)
{
  if (!seen->open && seen->n_opening > 1)
    return refuse_bar (error);
  bool whole = seen->outer.n >= 8
               && (seen->open             ? seen->inner.n
                   : seen->n_opening == 1 ? seen->opening[0].n
                                          : 0)
                      >= 8;
  return (whole && pr_seen_is_short (seen))
         || refuse (error, _ ("No whole edge of a shoe was found; photograph it again, or draw its edges."));
}

bool
pr_specimen_plan (PrJob *job, const PrSeen *seen, const PrTracing *sheet, const PrStyle *style, double *off,
                  GError **error)
{
  Specimen sp = { .job = job };

  if (!is_whole_shoe (seen, error))
    return false;
  take_sheet (&sp, seen, sheet);
  sp.shoe = pr_shoe_new ();
  bool done = make (&sp, seen, style, error);
  if (done && off)
    *off = edge_off (&sp);
  pr_shoe_free (sp.shoe);
  pr_figure_clear (&sp.foot);
  pr_path_clear (&sp.ext);
  pr_path_clear (&sp.outer);
  pr_path_clear (&sp.inner);
  return done;
}

char *
pr_specimen_unlike (const PrJob *job, const PrSeen *seen)
{
  g_auto (PrComparison) c = { 0 };

  if (!pr_compare (&c, job, seen, PR_LAY_BEST, NULL))
    return NULL;
  const PrSizes *s = &c.size;
  const PrTwo *const sizes[] = { &s->length, &s->width,  &s->heel_gap, &s->toe_to_heel[0], &s->toe_to_heel[1],
                                 &s->web[0], &s->web[1], &s->web[2],   &s->web[3],         &s->web[4] };
  /* what reaches into a bar shoe's opening has no size of its own */
  double worst = seen->open ? 0 : fabs (c.sum[PR_SEEN_INNER].max);
  for (size_t i = 0; i < G_N_ELEMENTS (sizes); i++)
    worst = fmax (worst, fabs (sizes[i]->plan - sizes[i]->seen)); /* not of what cannot be had */
  if (worst <= pr_limit ("compare.off")->look)
    return NULL;
  g_autofree char *most = pr_off_text (worst, job->unit);
  return g_strdup_printf (
      _ ("A part of the specimen is not taken over as it is: a size of the plan is off by %s. "
         "Compare the two, and change the plan by hand."),
      most);
}
