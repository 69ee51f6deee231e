/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-scale-plain.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-camera-private.h"
#include "pr-debug-steps.h"
#include "pr-plain-sheet.h"
#include "pr-scale-verdict.h"

/* The edge of a sheet off by more than this is pointed out, mm. */
#define EDGE_OUTLIER 1.0
/* The edges of a plain sheet are bowed and cut to a tolerance, so that more is allowed, mm (RMS). */
#define PLAIN_USABLE 0.5
#define PLAIN_RETAKE 1.5
/* A side of the sheet seen less than this share is a guess; less than the second is none. */
#define SEEN_USABLE 0.75
#define SEEN_RETAKE 0.4

static void
refer_to_edges (PrTracing *t, const PrPlainSheet *plain)
{
  t->n_reference = 4;
  memcpy (t->reference, plain->edge, sizeof plain->edge);
  for (int i = 0; i < 4; i++)
    t->reference[i].outlier = t->reference[i].off_mm > EDGE_OUTLIER;
}

/* A shape is no size: each is shared with other papers, and with books and leaves that are of no
 * standard. Taken as a paper by its shape alone no sheet is surely it. */
static const char *const shared[PR_N_PAPERS] = {
  [PR_PAPER_A4] = N_ ("Taken as A4 by its shape, which A3, A5, B5 and C5 share; say which paper it "
                      "is to be sure."),
  [PR_PAPER_LETTER] = N_ ("Taken as Letter by its shape, which a leaf of 200 x 260 mm nearly has "
                          "too; say which paper it is to be sure."),
  [PR_PAPER_TABLOID] = N_ ("Taken as Tabloid by its shape, which half a Letter sheet shares; say "
                           "which paper it is to be sure."),
  [PR_PAPER_LEGAL] = N_ ("Taken as Legal by its shape, which a cut leaf may have too; say which "
                         "paper it is to be sure."),
};

static void
tell_bow (PrTracing *t, const PrPlainSheet *plain, PrUnit unit)
{
  g_autofree char *text = NULL, *bent = pr_length_rough (plain->bent_mm, unit),
                  *bow = pr_length_brief (plain->bow_mm, unit);

  if (plain->bow_mm < PR_PLAIN_BOW && !(plain->bent_mm > 0))
    return;
  if (plain->bent_mm > 0)
    text = g_strdup_printf (
        _ ("The sheet does not lie flat but is bent by some %s, which is allowed for; press "
           "it flat and photograph it again to be sure."),
        bent);
  else
    text = g_strdup_printf (_ ("An edge of the sheet bows by %s; press the sheet flat and photograph it "
                               "again."),
                            bow);
  pr_scale_lower_at (&t->scale, PR_VERDICT_USABLE, text, pr_camera_to_sheet (&t->camera, plain->bow_px));
}

/* The paper that was given does not have the sheet's shape. One that is SURE is not asked for, but this is told. */
static void
ask_shape (PrScale *s, const PrPlainSheet *plain, bool sure)
{
  g_autofree char *text = NULL;

  if (!sure && plain->rival != PR_PAPER_UNKNOWN)
    text = g_strdup_printf (
        _ ("The sheet has the shape of %s rather than of %s, which you gave; say which paper it is."),
        pr_paper_name (plain->rival), pr_paper_name (plain->paper));
  else if (plain->uneven || plain->rival != PR_PAPER_UNKNOWN)
    text = g_strdup (_ ("The sheet's shape is not quite that of the paper you gave; check its size."));
  if (text != NULL && sure)
    pr_scale_lower (s, PR_VERDICT_USABLE, text);
  else if (text != NULL)
    pr_scale_ask (s, PR_QUESTION_PAPER, text);
}

bool
pr_scale_by_plain (PrTracing *t, const PrPhoto *photo, const uint8_t *grey, PrPaper paper, bool sure,
                   PrUnit unit, const char *steps_dir, GError **error)
{
  PrScale *s = &t->scale;
  PrPlainSheet plain;

  if (!pr_plain_sheet_find (&plain, photo, grey, paper, error))
    return false;
  pr_debug_steps_photo (steps_dir, "2-edges.png", photo, plain.corner);
  t->camera = plain.camera;
  s->method = PR_SCALE_PLAIN;
  s->paper = plain.paper;
  s->by_shape = plain.by_shape;
  s->width_mm = plain.width_mm;
  s->height_mm = plain.height_mm;
  s->residual_mm = plain.residual_mm;
  refer_to_edges (t, &plain);
  if (plain.unsure)
    pr_scale_lower (s, PR_VERDICT_USABLE,
                    _ ("Seen like this, the paper's shape alone does not tell it for sure; say "
                       "which paper it is."));
  if (plain.by_shape)
    pr_scale_lower (s, PR_VERDICT_USABLE, _ (shared[s->paper]));
  if (plain.folded)
    pr_scale_lower (s, PR_VERDICT_USABLE,
                    _ ("A corner of the sheet is folded over or covered and was taken where the "
                       "edges would meet; with all four free the measure is surer."));
  for (int i = 0; i < 4; i++)
    pr_scale_lower_by (s, -plain.seen[i], -SEEN_USABLE, -SEEN_RETAKE,
                       _ ("One edge of the sheet is hard to see; lay it on a ground of another colour."));
  pr_scale_lower_by (s, s->residual_mm, PLAIN_USABLE, PLAIN_RETAKE,
                     _ ("The edges of the sheet are not straight; lay it flat and photograph it again."));
  tell_bow (t, &plain, unit);
  if (plain.beside)
    pr_scale_lower (s, PR_VERDICT_USABLE,
                    _ ("Something with straight edges lies beside or under the sheet; check on the "
                       "board that the sheet's own edges were taken."));
  ask_shape (s, &plain, sure);
  pr_scale_measure (t);
  return true;
}
