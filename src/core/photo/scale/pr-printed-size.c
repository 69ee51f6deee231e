/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-printed-size.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-camera-private.h"
#include "pr-scale-verdict.h"

/* A print is told to be off from here on, share. Copying paper is cut to some half a millimetre, 0.25 % of A4's
 * width; ISO 216 would let it be 2 mm (from memory). */
#define OFF 0.007
/* And this much more where the camera rests on two or three fiducials only, by their number. */
static const double fewer[] = { [2] = 0.015, [3] = 0.0015, [4] = 0 };
/* Both ways off by no more than this from each other: one figure is told. */
#define ALIKE 0.004
/* Shares beyond these are no printer's, but those of something else's edges. */
#define SHARE_LEAST 0.88
#define SHARE_MOST 1.12
/* A single edge this far out of its place is more than how a printer feeds its paper, mm: common practice, no
 * source. */
#define PLACE_OFF 2.2
/* Another paper lies under the print when the sides' ratio is off by more than this from the told paper's, and by less
 * from the other's (logarithm): A4 and Letter are 0.088 apart, a print at 97 x 100 % 0.03. */
#define OTHER_FROM 0.045
#define OTHER_WITHIN 0.01

static const int pair[2][2] = { { 3, 1 }, { 0, 2 } }; /* edges across the way of x, and of y */

/* What the edges' bow takes from what they say, share. */
static double
slack (const PrPaperEdges *e, int way, double size)
{
  return (fabs (e->bow[pair[way][0]]) + fabs (e->bow[pair[way][1]])) / size;
}

/* The paper that the sheet was printed on, when it is plainly not the one it was made for. */
static PrPaper
paper_under (PrPaper made_for, const double share[2])
{
  double w, h, ratio;

  pr_paper_size (made_for, &w, &h);
  ratio = log (h / w * share[0] / share[1]);
  if (!(share[0] > 0 && share[1] > 0) || fabs (log (share[0] / share[1])) < OTHER_FROM)
    return made_for;
  for (PrPaper p = 0; p < PR_N_PAPERS; p++) {
    pr_paper_size (p, &w, &h);
    if (fabs (log (h / w) - ratio) < OTHER_WITHIN)
      return p;
  }
  return made_for;
}

/* As shares of the paper that the sheet lies on, where they can be; a way that cannot is 0. */
static void
hold_shares (const PrScale *s, const PrPaperEdges *edges, double share[2], PrPaper *under)
{
  double made[2], cut[2];

  pr_paper_edges_shares (edges, s->paper, share);
  *under = paper_under (s->paper, share);
  pr_paper_size (s->paper, &made[0], &made[1]);
  pr_paper_size (*under, &cut[0], &cut[1]);
  for (int k = 0; k < 2; k++) {
    share[k] *= cut[k] / made[k];
    if (share[k] < SHARE_LEAST || share[k] > SHARE_MOST)
      share[k] = 0;
  }
}

static char *
percent (double share)
{
  double tenths = round (share * 1000) / 10;

  return tenths == round (tenths) ? g_strdup_printf ("%.0f", tenths) : g_strdup_printf ("%.1f", tenths);
}

/* "97", or "97 across and 100 down", of what is told. Transfer full. */
static char *
share_words (const double share[2])
{
  g_autofree char *x = percent (share[0]), *y = percent (share[1]);

  if (share[0] > 0 && share[1] > 0 && fabs (share[0] - share[1]) > ALIKE)
    return g_strdup_printf (_ ("%s %% across and %s %% down"), x, y);
  if (share[0] > 0 && share[1] > 0) {
    g_autofree char *mean = percent ((share[0] + share[1]) / 2);
    return g_strdup_printf (_ ("%s %%"), mean);
  }
  return share[0] > 0 ? g_strdup_printf (_ ("%s %% across"), x) : g_strdup_printf (_ ("%s %% down"), y);
}

static void
tell (PrScale *s, PrPaper under, PrTrust trust)
{
  g_autofree char *words = share_words (s->printed), *text = NULL;

  if (trust == PR_TRUST_PAPER)
    text = g_strdup_printf (_ ("Measured by the paper's cut edges, as you chose: this sheet was printed at "
                               "%s."),
                            words);
  else if (trust == PR_TRUST_PRINT)
    text = g_strdup_printf (_ ("Measured by the print, as you chose, though by the paper's cut edges this "
                               "sheet was printed at %s."),
                            words);
  else if (under != s->paper)
    text
        = g_strdup_printf (_ ("This %s sheet lies on %s paper and was printed at %s by its cut edges; choose "
                              "whether the paper or the print is true."),
                           pr_paper_name (s->paper), pr_paper_name (under), words);
  else
    text = g_strdup_printf (
        _ ("By its cut edges this sheet was printed at %s; choose whether the paper or the "
           "print is true."),
        words);
  if (trust == PR_TRUST_ASK)
    pr_scale_ask (s, PR_QUESTION_TRUST, text);
  else
    pr_scale_lower (s, PR_VERDICT_GOOD, text);
}

/* One edge of a pair is in the picture: is the print far from where it belongs? */
static double
furthest_alone (const PrPaperEdges *e, const double share[2])
{
  double most = 0;

  for (int k = 0; k < 2; k++)
    for (int i = 0; i < 2; i++)
      if (!(share[k] > 0) && e->seen[pair[k][i]])
        most = fmax (most, fabs (e->out[pair[k][i]]));
  return most;
}

/* How the way that is not told is measured: as the other, since printers shrink both alike, unless the one edge
 * that is seen stands where a true print has it. */
static double
share_of_way (const PrPaperEdges *e, const double share[2], int way)
{
  if (share[way] > 0)
    return share[way];
  for (int i = 0; i < 2; i++)
    if (e->seen[pair[way][i]] && fabs (e->out[pair[way][i]]) < PLACE_OFF / 2)
      return 1;
  return share[1 - way];
}

/* The sheet's frame becomes the paper's: from its own corner, in its own millimetres. */
static void
trust_paper (PrTracing *t, const PrPaperEdges *e, PrPaper under)
{
  PrScale *s = &t->scale;
  double made[2], cut[2];

  pr_paper_size (s->paper, &made[0], &made[1]);
  pr_paper_size (under, &cut[0], &cut[1]);
  for (int k = 0; k < 2; k++) {
    int first = pair[k][0], last = pair[k][1];
    s->by[k] = share_of_way (e, s->printed, k);
    if (e->seen[first])
      s->moved[k] = -e->out[first];
    else if (e->seen[last])
      s->moved[k] = made[k] + e->out[last] - cut[k] / s->by[k];
    else
      s->moved[k] = (made[k] - cut[k] / s->by[k]) / 2;
  }
  const double m[6] = { 1 / s->by[0], 0, s->moved[0], 0, 1 / s->by[1], s->moved[1] };
  pr_camera_reframe (&t->camera, m);
  s->width_mm = cut[0];
  s->height_mm = cut[1];
}

void
pr_printed_size_take (PrTracing *t, const PrPaperEdges *edges, int tags, PrTrust trust)
{
  PrScale *s = &t->scale;
  double size[2];
  bool off = false;
  PrPaper under;

  hold_shares (s, edges, s->printed, &under);
  pr_paper_size (under, &size[0], &size[1]);
  for (int k = 0; k < 2; k++)
    off |= s->printed[k] > 0 && fabs (s->printed[k] - 1) > OFF + fewer[tags] + slack (edges, k, size[k]);
  if (off || under != s->paper) {
    s->trust = trust;
    s->question = PR_QUESTION_TRUST;
    tell (s, under, trust);
    if (trust == PR_TRUST_PAPER)
      trust_paper (t, edges, under);
  } else if (furthest_alone (edges, s->printed) > PLACE_OFF) {
    pr_scale_lower (s, PR_VERDICT_USABLE,
                    _ ("The print does not stand in its place on the paper, as when a sheet is printed "
                       "smaller; measure its check lines, or photograph it with all four edges."));
  } else if (trust == PR_TRUST_PAPER && !(s->printed[0] > 0 || s->printed[1] > 0)) {
    pr_scale_lower (s, PR_VERDICT_USABLE,
                    _ ("No two opposite edges of the paper are in the photo, so the print was taken as true; "
                       "photograph the sheet with all four edges."));
  }
}
