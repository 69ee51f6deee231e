/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-corrections.h"

#include <glib/gi18n-lib.h>

#include "pr-check.h"
#include "pr-compare-lay.h"
#include "pr-compare-sums.h"

/* Shares of a branch, 0 the toe: where what is told of it is looked for. */
#define BRANCH_FROM 0.15
#define BRANCH_TO 0.95
#define TOE_TO 0.12
#define BOTH_SHARE 0.4 /* the heel that is out less is out by this share of the other at least */
#define MOST_NAILS 2
#define WEDGE_SHARE \
  0.5 /* a branch that is out by less than this share of its heel ahead of it opens or closes there */

typedef struct {
  PrComparison *c;
  const PrJob *job;
  GArray *out;
} Smith;

PrState
pr_compare_state (const PrComparison *c, double mm)
{
  PrState state = pr_above (fabs (mm), pr_limit ("compare.off"));

  return c->coarse && fabs (mm) < pr_limit ("compare.coarse")->mend ? PR_FITS : state;
}

/* FORMAT takes the length; TEXT of both senses, of which the sign of MM takes one. */
static void
add (Smith *smith, PrMendKind kind, int branch, double mm, PrPt at, PrPt to, char *text)
{
  PrState state = pr_compare_state (smith->c, mm);
  PrCorrection one = { kind, branch, mm, state, at, to, text };

  if (!isfinite (mm) || state == PR_FITS)
    g_free (text);
  else
    g_array_append_val (smith->out, one);
}

static char *
say (const Smith *smith, double mm, const char *more, const char *less, const char *side)
{
  g_autofree char *length = pr_off_text (mm, smith->job->unit);
  const char *format = mm > 0 ? more : less;

  return side != NULL ? g_strdup_printf (format, side, length) : g_strdup_printf (format, length);
}

/* The planned outer edge at SHARE of BRANCH, and the real one there. */
static void
edge_at (const Smith *smith, int branch, double share, PrPt *at, PrPt *to)
{
  double length = 1, best = INFINITY;
  const GArray *offset = smith->c->offset;

  *at = *to = smith->job->shoe->heel_outer[branch];
  for (int pass = 0; pass < 2; pass++)
    for (guint i = 0; i < offset->len; i++) {
      const PrOffset *o = &g_array_index (offset, PrOffset, i);

      if (o->edge != PR_SEEN_OUTER || o->branch != branch || o->bar || !o->known)
        continue;
      if (pass == 0)
        length = MAX (length, o->place);
      else if (fabs (o->place / length - share) < best) {
        best = fabs (o->place / length - share);
        *to = o->at;
        *at = pr_pt_along (o->at, o->out, o->off);
      }
    }
}

/* By how much a branch stands out in the mean and at its heel, as the sizes have it, and where it begins, by a straight line. */
typedef struct {
  bool known;
  double mean, fore, heel;
} Stand;

static Stand
stand_of (const Smith *smith, int b)
{
  double mean, wider, rise;
  Stand s = { .mean = smith->c->size.branch_out[b].seen, .heel = smith->c->size.heel_out[b].seen };

  s.known = isfinite (s.mean) && isfinite (s.heel)
            && pr_compare_branch (smith->c->offset, b, BRANCH_FROM, BRANCH_TO, &mean, &wider, &rise);
  s.fore = s.known ? mean - rise * (BRANCH_TO - BRANCH_FROM) / 2 : 0;
  return s;
}

static void
branch_stands (Smith *smith, int b, const Stand *s)
{
  PrPt at, to;

  if (!s->known)
    return;
  if (fabs (s->fore) < WEDGE_SHARE * fabs (s->heel) || s->fore * s->heel < 0) {
    add (smith, PR_MEND_HEEL, b, s->heel, smith->c->size_at.middle[b], smith->c->size_at.planned[b],
         say (smith, s->heel, _ ("The %s heel stands %s outside: close it."), _ ("Open the %s heel %s."),
              pr_side_word (b)));
    return;
  }
  edge_at (smith, b, (BRANCH_FROM + BRANCH_TO) / 2, &at, &to);
  add (smith, PR_MEND_BRANCH, b, s->mean, at, to,
       say (smith, s->mean, _ ("The %s branch stands %s outside from toe nail to heel: close it."),
            _ ("The %s branch lies %s inside from toe nail to heel: open it."), pr_side_word (b)));
}

/* Where both are out alike it is the opening between them that is wrong, and no matter which branch is bent. */
static void
branches_stand (Smith *smith)
{
  const Stand s[2] = { stand_of (smith, PR_MEDIAL), stand_of (smith, PR_LATERAL) };
  const PrSizes *size = &smith->c->size;
  double a = s[0].heel, b = s[1].heel, mm = size->across.seen - size->across.plan;

  if (!s[0].known || !s[1].known || a * b <= 0 || mm * a <= 0
      || MIN (fabs (a), fabs (b)) < BOTH_SHARE * MAX (fabs (a), fabs (b))) {
    for (int i = 0; i < 2; i++)
      branch_stands (smith, i, &s[i]);
    return;
  }
  g_autofree char *length = pr_off_text (mm, smith->job->unit);
  g_autofree char *from = pr_length_text (size->across_at.seen, smith->job->unit);
  /* Translators: how far, and how far from the toe along the outer edges */
  const char *format = mm > 0 ? _ ("The branches stand %s too far apart, %s from the toe: close them.")
                              : _ ("The branches are %s too close together, %s from the toe: open them.");
  add (smith, PR_MEND_HEEL, -1, mm, smith->c->size_at.middle[PR_LATERAL],
       smith->c->size_at.planned[PR_LATERAL], g_strdup_printf (format, length, from));
}

static void
toe_stands (Smith *smith)
{
  const PrStation *toe = &smith->job->shoe->st[smith->job->shoe->toe_st];
  double out[2], wider;

  for (int b = 0; b < 2; b++)
    if (!pr_compare_branch (smith->c->offset, b, 0, TOE_TO, &out[b], &wider, NULL))
      return;
  double mm = (out[0] + out[1]) / 2;
  add (smith, PR_MEND_TOE, -1, mm, pr_pt_along (toe->outer, toe->cut, -mm), toe->outer,
       say (smith, mm, _ ("The toe stands %s too far ahead: set it back."),
            _ ("The toe lies %s too far back: bring it forward."), NULL));
}

static char *
web_words (const Smith *smith, PrWebAt at, double mm)
{
  int b = pr_web_branch (at);

  if (b < 0)
    return say (smith, mm, _ ("The web is %s too wide at the toe: draw it narrower."),
                _ ("The web is %s too narrow at the toe: upset it."), NULL);
  if (at <= PR_WEB_QUARTER_L)
    return say (smith, mm, _ ("At the %s quarter the web is %s too wide: draw it narrower."),
                _ ("At the %s quarter the web is %s too narrow: upset it."), pr_side_word (b));
  return say (smith, mm, _ ("At the %s heel the web is %s too wide: draw it narrower."),
              _ ("At the %s heel the web is %s too narrow: upset it."), pr_side_word (b));
}

/* Drawn from the outer edge of the iron, square to it. */
static void
web_is (Smith *smith, PrWebAt where)
{
  const PrTwo *web = &smith->c->size.web[where];
  const PrPt *side = smith->c->size_at.web[where];
  double mm = web->seen - web->plan;
  PrPt out = pr_pt_unit (pr_pt_sub (side[PR_OUTSIDE], side[PR_INSIDE]));

  if (isfinite (mm))
    add (smith, PR_MEND_WEB, pr_web_branch (where), mm, side[PR_OUTSIDE],
         pr_pt_along (side[PR_OUTSIDE], out, -mm), web_words (smith, where, mm));
}

/* Along its own edge: a branch that stands open is no shorter for that. */
static void
branch_is_long (Smith *smith, int b)
{
  const PrTwo *along = &smith->c->size.along_edge[b];
  double mm = along->seen - along->plan;
  PrPt at = pr_figure_heel (&smith->c->figure, b);

  if (!isfinite (mm))
    return;
  add (smith, PR_MEND_LENGTH, b, mm, at, pr_pt (at.x, pr_figure_heel (&smith->job->shoe->figure, b).y),
       say (smith, mm, _ ("The %s branch is %s too long along its outer edge: cut it."),
            _ ("The %s branch is %s too short along its outer edge: draw it out."), pr_side_word (b)));
}

static void
bar_stands (Smith *smith)
{
  double sum = 0;
  guint n = 0;
  PrPt at = smith->job->shoe->bar_at;

  for (guint i = 0; i < smith->c->offset->len; i++) {
    const PrOffset *o = &g_array_index (smith->c->offset, PrOffset, i);

    if (o->bar && o->edge == PR_SEEN_OUTER && pr_offset_counts (o) && o->out.y < -0.7) {
      sum += o->off;
      n++;
    }
  }
  double mm = n > 0 ? sum / n : 0;
  add (smith, PR_MEND_BAR, -1, mm, pr_pt (at.x, at.y - mm), at,
       say (smith, mm, _ ("The heel bar stands %s too far back."), _ ("The heel bar lies %s too far ahead."),
            NULL));
}

/* How far the real outer edge nearest to P lies off the planned one. */
static double
edge_off_at (const Smith *smith, PrPt p)
{
  double best = INFINITY, off = 0;

  for (guint i = 0; i < smith->c->offset->len; i++) {
    const PrOffset *o = &g_array_index (smith->c->offset, PrOffset, i);

    if (o->edge == PR_SEEN_OUTER && o->known && pr_pt_dist (o->at, p) < best) {
      best = pr_pt_dist (o->at, p);
      off = o->off;
    }
  }
  return off;
}

/* The edge holds a round shoe's turn but loosely: what all nails are shifted by the same way round is no fault of theirs. */
static double
nails_turned (const Smith *smith)
{
  double sum[2] = { 0, 0 };
  guint n[2] = { 0, 0 };

  for (guint i = 0; i < smith->c->nail->len; i++) {
    const PrNailOff *nail = &g_array_index (smith->c->nail, PrNailOff, i);

    sum[nail->branch] += nail->along;
    n[nail->branch]++;
  }
  return n[0] > 0 && n[1] > 0 ? (sum[PR_LATERAL] / n[PR_LATERAL] - sum[PR_MEDIAL] / n[PR_MEDIAL]) / 2 : 0;
}

static void
nail_is (Smith *smith, const PrNailOff *nail, double turned)
{
  double out = nail->out - edge_off_at (smith, nail->plan);
  double along = nail->along - pr_side_sign (nail->branch) * turned;
  bool across = fabs (out) >= fabs (along);
  double mm = across ? out : along;
  g_autofree char *length = pr_off_text (mm, smith->job->unit);
  const char *format = across ? (mm > 0 ? _ ("Nail %d %s is punched %s too fine.")
                                        : _ ("Nail %d %s is punched %s too coarse."))
                              : (mm > 0 ? _ ("Nail %d %s is punched %s too far back.")
                                        : _ ("Nail %d %s is punched %s too far ahead."));

  add (smith, PR_MEND_NAIL, nail->branch, mm, nail->seen, nail->plan,
       g_strdup_printf (format, nail->index + 1, pr_side_word (nail->branch), length));
}

static int
largest_first (gconstpointer a, gconstpointer b)
{
  double x = fabs (((const PrCorrection *) a)->mm), y = fabs (((const PrCorrection *) b)->mm);

  return x > y ? -1 : x < y;
}

static int
in_order_of_work (gconstpointer a, gconstpointer b)
{
  const PrCorrection *p = a, *q = b;

  return p->kind != q->kind ? (int) p->kind - (int) q->kind : largest_first (a, b);
}

static void
clear_one (gpointer data)
{
  g_free (((PrCorrection *) data)->text);
}

/* Nails cannot be moved any more: two of them are told. */
static void
few_nails (Smith *smith)
{
  guint n = 0;

  for (guint i = 0; i < smith->out->len;)
    if (g_array_index (smith->out, PrCorrection, i).kind == PR_MEND_NAIL && ++n > MOST_NAILS)
      g_array_remove_index (smith->out, i);
    else
      i++;
}

void
pr_corrections_make (PrComparison *c, const PrJob *job)
{
  Smith smith = { c, job, g_array_new (FALSE, TRUE, sizeof (PrCorrection)) };

  g_array_set_clear_func (smith.out, clear_one);
  branches_stand (&smith);
  for (int b = 0; b < 2; b++)
    branch_is_long (&smith, b);
  toe_stands (&smith);
  for (PrWebAt at = 0; at < PR_N_WEBS; at++)
    web_is (&smith, at);
  if (!c->open)
    bar_stands (&smith);
  double turned = nails_turned (&smith);
  for (guint i = 0; i < c->nail->len; i++)
    nail_is (&smith, &g_array_index (c->nail, PrNailOff, i), turned);
  g_array_sort (smith.out, largest_first);
  few_nails (&smith);
  if (smith.out->len > PR_MOST_CORRECTIONS)
    g_array_set_size (smith.out, PR_MOST_CORRECTIONS);
  g_array_sort (smith.out, in_order_of_work);
  c->correction = smith.out;
}
