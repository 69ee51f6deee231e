/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-card.h"

#include "pr-card-iron.h"
#include "pr-card-title.h"

#include <glib/gi18n-lib.h>

/* --- foot -------------------------------------------------------------------------------- */

static const char *
method_name (PrScaleMethod method)
{
  static const char *const names[] = {
    [PR_SCALE_AUTO] = N_ ("automatic"),
    [PR_SCALE_SHEET] = N_ ("printed tracing sheet"),
    [PR_SCALE_PLAIN] = N_ ("plain sheet"),
    [PR_SCALE_CARD] = N_ ("card"),
    [PR_SCALE_RECT] = N_ ("rectangle of known sides"),
    [PR_SCALE_RULER] = N_ ("ruler"),
    [PR_SCALE_DENSITY] = N_ ("the scan's density"),
  };

  return method <= PR_SCALE_DENSITY ? _ (names[method]) : "";
}

char *
pr_card_scale_words (const PrScale *scale)
{
  if (scale == NULL)
    return g_strdup (_ ("an outline in mm, without a photo"));
  if (scale->paper >= PR_N_PAPERS)
    return g_strdup (method_name (scale->method));
  return g_strdup_printf ("%s, %s", method_name (scale->method), pr_paper_name (scale->paper));
}

static void
add_scale (PrCardDraft *draft)
{
  const PrScale *scale = pr_sources_scale (&draft->job->sources);
  char px[16], residual[16], tilt[16];

  pr_card_head (draft, false, _ ("Scale"));
  g_autofree char *from = pr_card_scale_words (scale);
  pr_card_row (draft, _ ("From"), "%s", from);
  if (scale == NULL)
    return;
  pr_card_row (draft, _ ("Fineness"), _ ("%s px per mm, residual %s mm, tilt %s°"),
               pr_card_decimal (px, scale->px_per_mm, 1), pr_card_decimal (residual, scale->residual_mm, 2),
               pr_card_decimal (tilt, scale->tilt * 180 / G_PI, 0));
  pr_card_row (draft, _ ("Verdict"), "%s%s%s", pr_verdict_name (scale->verdict),
               scale->why != NULL && *scale->why != '\0' ? ": " : "", scale->why != NULL ? scale->why : "");
}

/* Which half is the wider one, by how much and where; nothing of it where the centre line was assumed. */
static void
add_halves (PrCardDraft *draft, const PrHoof *hoof)
{
  const double *fore = hoof->half[PR_LEVEL_FORE], *rear = hoof->half[PR_LEVEL_REAR];
  double areas = hoof->half_area[PR_MEDIAL] + hoof->half_area[PR_LATERAL];
  char share[16];

  PR_CARD_LEN (fore_medial, fore[PR_MEDIAL]);
  PR_CARD_LEN (fore_lateral, fore[PR_LATERAL]);
  PR_CARD_LEN (rear_medial, rear[PR_MEDIAL]);
  PR_CARD_LEN (rear_lateral, rear[PR_LATERAL]);
  PR_CARD_LEN (lean, fabs (hoof->lean));
  PR_CARD_LEN (at, fabs (hoof->lean_at.y));
  pr_card_row (draft, _ ("Centre line"), "%s", pr_centre_words (hoof->centre));
  pr_card_row (draft, _ ("At the toe quarters"), _ ("%s medial, %s lateral"), fore_medial, fore_lateral);
  pr_card_row (draft, _ ("At the heel quarters"), _ ("%s medial, %s lateral"), rear_medial, rear_lateral);
  if (hoof->centre == PR_CENTRE_ASSUMED)
    return;
  pr_card_row (draft, _ ("Halves differ"),
               hoof->lean_at.y < 0 ? _ ("%s wider by up to %s, %s behind the widest line")
                                   : _ ("%s wider by up to %s, %s ahead of the widest line"),
               pr_card_side (hoof->lean < 0 ? PR_MEDIAL : PR_LATERAL), lean, at);
  pr_card_row (draft, _ ("Share of the surface"), _ ("%s %% lateral"),
               pr_card_decimal (share, areas > 0 ? 100 * hoof->half_area[PR_LATERAL] / areas : 0, 1));
}

static void
add_hoof_heels (PrCardDraft *draft, const PrHoof *hoof)
{
  char share[16], medial_way[16], lateral_way[16], frog_share[16];

  PR_CARD_LEN (heels, hoof->heel_width);
  PR_CARD_LEN (medial, hoof->heel_length[PR_MEDIAL]);
  PR_CARD_LEN (lateral, hoof->heel_length[PR_LATERAL]);
  PR_CARD_LEN (frog, hoof->frog_width);
  PR_CARD_LEN (apex, hoof->apex_to_toe);
  pr_card_row (draft, _ ("Between the heels"), _ ("%s, %s %% of the foot's width"), heels,
               pr_card_decimal (share, hoof->width > 0 ? 100 * hoof->heel_width / hoof->width : 0, 0));
  pr_card_row (draft, _ ("Widest line to heel"), _ ("%s medial, %s lateral"), medial, lateral);
  pr_card_row (draft, _ ("Heel wall runs in"), _ ("%s° medial, %s° lateral"),
               pr_card_decimal (medial_way, hoof->heel_angle[PR_MEDIAL] * 180 / G_PI, 0),
               pr_card_decimal (lateral_way, hoof->heel_angle[PR_LATERAL] * 180 / G_PI, 0));
  if (hoof->frog_width > 0)
    pr_card_row (draft, _ ("Frog at the heels"), _ ("%s wide, %s %% of their distance"), frog,
                 pr_card_decimal (frog_share,
                                  hoof->heel_width > 0 ? 100 * hoof->frog_width / hoof->heel_width : 0, 0));
  if (hoof->has_frog_apex)
    pr_card_row (draft, _ ("Frog's apex to toe"), "%s", apex);
}

static const char *
wall_format (const PrHoof *hoof)
{
  if (!pr_hoof_wall_is_guess (hoof))
    return _ ("toe %s, quarters %s, heels %s");
  if (hoof->wall_known[0] || hoof->wall_known[1] || hoof->wall_known[2])
    return _ ("toe %s, quarters %s, heels %s, in part a guess: measure it");
  return _ ("toe %s, quarters %s, heels %s, a guess: measure it");
}

static void
add_wall (PrCardDraft *draft, const PrHoof *hoof)
{
  PR_CARD_NUM (toe, hoof->wall[0]);
  PR_CARD_NUM (quarter, hoof->wall[1]);
  PR_CARD_LEN (heel, hoof->wall[2]);
  pr_card_row (draft, _ ("Wall thickness"), wall_format (hoof), toe, quarter, heel);
}

static void
add_hoof (PrCardDraft *draft)
{
  const PrHoof *hoof = &draft->job->hoof;
  char ratio[16], share[16];

  PR_CARD_LEN (length, hoof->length);
  PR_CARD_LEN (width, hoof->width);
  PR_CARD_LEN (medial, hoof->width_side[PR_MEDIAL]);
  PR_CARD_LEN (lateral, hoof->width_side[PR_LATERAL]);
  PR_CARD_LEN (fore, hoof->toe_to_widest);
  PR_CARD_LEN (aft, hoof->widest_to_heels);
  PR_CARD_LEN (round, hoof->perimeter);
  pr_card_head (draft, true, _ ("Measures"));
  pr_card_row (draft, _ ("Length, width"), _ ("%s, %s"), length, width);
  draft->anvil = false;
  pr_card_row (draft, _ ("Length to width"), "%s",
               pr_card_decimal (ratio, hoof->width > 0 ? hoof->length / hoof->width : 0, 2));
  pr_card_row (draft, _ ("From the centre line"), _ ("%s medial, %s lateral"), medial, lateral);
  add_halves (draft, hoof);
  pr_card_row (draft, _ ("Along the centre line"), _ ("%s toe to widest line, %s widest line to heels"), fore,
               aft);
  pr_card_row (draft, _ ("Toe's share of it"), "%s %%", pr_card_decimal (share, 100 * hoof->toe_share, 0));
  add_hoof_heels (draft, hoof);
  pr_card_row (draft, _ ("Round the wall"), "%s", round);
  add_wall (draft, hoof);
}

/* There is no foot to measure: the shoe's own sizes stand in their part. */
static void
add_specimen (PrCardDraft *draft)
{
  pr_card_head (draft, true, _ ("Specimen"));
  pr_card_row (draft, _ ("Planned from"), "%s",
               _ ("a shoe in a photo; its outer edge stands in for the foot, of which nothing is known"));
}

/* --- shoe -------------------------------------------------------------------------------- */

static const char *
toe_name (int toe)
{
  return toe == PR_TOE_ROLLED     ? _ ("rolled")
         : toe == PR_TOE_SQUARED  ? _ ("squared")
         : toe == PR_TOE_SET_BACK ? _ ("set back")
                                  : _ ("plain");
}

static const char *
bar_name (int bar)
{
  return bar == PR_BAR_STRAIGHT ? _ ("straight bar")
         : bar == PR_BAR_EGG    ? _ ("egg bar")
         : bar == PR_BAR_HEART  ? _ ("heart bar")
                                : "";
}

static void
add_web (PrCardDraft *draft)
{
  const PrPlan *plan = &draft->job->sources.plan;
  double width, length;

  pr_card_shoe_size (draft->job->shoe, &width, &length);
  PR_CARD_LEN (long_, length);
  PR_CARD_LEN (wide, width);
  PR_CARD_NUM (toe, plan->web_toe);
  PR_CARD_NUM (medial_quarter, plan->web_quarter[PR_MEDIAL]);
  PR_CARD_NUM (lateral_quarter, plan->web_quarter[PR_LATERAL]);
  PR_CARD_NUM (medial_heel, plan->web_heel[PR_MEDIAL]);
  PR_CARD_LEN (lateral_heel, plan->web_heel[PR_LATERAL]);
  PR_CARD_NUM (thick_toe, plan->thick_toe);
  PR_CARD_LEN (thick_heel, plan->thick_heel);
  pr_card_row (draft, _ ("Length, width"), _ ("%s, %s"), long_, wide);
  pr_card_row (draft, _ ("Web"), _ ("toe %s, quarters %s and %s, heels %s and %s"), toe, medial_quarter,
               lateral_quarter, medial_heel, lateral_heel);
  pr_card_row (draft, _ ("Thickness"), _ ("toe %s, heels %s"), thick_toe, thick_heel);
}

static void
add_heels (PrCardDraft *draft)
{
  const PrPlan *plan = &draft->job->sources.plan;
  bool specimen = pr_sources_is_specimen (&draft->job->sources);

  PR_CARD_LEN (medial, plan->heel_past[PR_MEDIAL]);
  PR_CARD_LEN (lateral, plan->heel_past[PR_LATERAL]);
  PR_CARD_LEN (medial_fit, plan->fit_heel[PR_MEDIAL]);
  PR_CARD_LEN (lateral_fit, plan->fit_heel[PR_LATERAL]);
  if (!specimen)
    pr_card_row (draft, _ ("Heels past buttress"), _ ("medial %s, lateral %s"), medial, lateral);
  pr_card_row (draft, _ ("Heels cut"), "%s",
               plan->heel_cut == PR_HEEL_CUT_CENTRE ? _ ("square to the centre line")
                                                    : _ ("square to the branch"));
  if (!specimen)
    pr_card_row (draft, _ ("Stands out at the heels"), _ ("medial %s, lateral %s outside the wall"),
                 medial_fit, lateral_fit);
}

/* What is special about the shoe: only what it has. */
static void
add_specials (PrCardDraft *draft)
{
  const PrPlan *plan = &draft->job->sources.plan;
  const PrExtension *ext = &draft->job->shoe->ext;

  if (plan->toe != PR_TOE_PLAIN) {
    PR_CARD_LEN (amount, plan->toe_amount);
    pr_card_row (draft, _ ("Toe"), "%s, %s", toe_name (plan->toe), amount);
  }
  if (ext->present) {
    PR_CARD_LEN (ahead, ext->ahead);
    PR_CARD_LEN (width, ext->width);
    PR_CARD_LEN (thick, ext->thick);
    pr_card_row (draft, _ ("Toe extension"), _ ("%s ahead of the foot, %s wide, %s thick"), ahead, width,
                 thick);
  }
  if (plan->bar != PR_BAR_NONE) {
    PR_CARD_LEN (web, plan->bar_web);
    PR_CARD_LEN (back, plan->bar_set_back);
    pr_card_row (draft, _ ("Bar"), _ ("%s, %s wide, set back %s"), bar_name (plan->bar), web, back);
  }
}

static void
add_creases (PrCardDraft *draft)
{
  const PrShoe *shoe = draft->job->shoe;

  for (size_t i = 0; i < shoe->n_creases; i++) {
    const PrCrease *crease = &shoe->crease[i];
    g_autofree char *label = g_strdup_printf (_ ("Crease, %s"), pr_card_side (crease->branch));

    PR_CARD_NUM (from, pr_shoe_edge_straight (shoe, crease->branch, crease->edge_from));
    PR_CARD_LEN (to, pr_shoe_edge_straight (shoe, crease->branch, crease->edge_to));
    PR_CARD_NUM (width, crease->width);
    PR_CARD_LEN (depth, crease->depth);
    pr_card_row (draft, label, _ ("%s to %s with dividers; %s wide, %s deep"), from, to, width, depth);
  }
}

static void
add_nails (PrCardDraft *draft, int side)
{
  const PrShoe *shoe = draft->job->shoe;
  g_autoptr (GString) places = g_string_new (NULL);
  g_autofree char *label = g_strdup_printf (_ ("Nails, %s"), pr_card_side (side));
  double inset[2] = { 0, 0 };
  int n = 0;

  for (size_t i = 0; i < shoe->n_nails; i++) {
    const PrNail *nail = &shoe->nail[i];

    if (nail->branch != side)
      continue;
    PR_CARD_NUM (at, pr_shoe_edge_straight (shoe, side, nail->edge));
    g_string_append_printf (places, "%s%s", n > 0 ? ", " : "", at);
    inset[n > 0] = nail->inset;
    n++;
  }
  if (n == 0) {
    pr_card_row (draft, label, "%s", _ ("none"));
    return;
  }
  PR_CARD_NUM (first, inset[0]);
  PR_CARD_LEN (last, inset[n > 1]);
  pr_card_row (draft, label, _ ("%d at %s with dividers"), n, places->str);
  pr_card_row (draft, "", n > 1 ? _ ("from the edge: %s to %s") : _ ("from the edge: %s"),
               n > 1 ? first : last, last);
}

static void
add_clips (PrCardDraft *draft)
{
  const PrShoe *shoe = draft->job->shoe;

  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];
    bool toe = clip->edge_from < 0 && clip->edge_to > 0;
    g_autofree char *label
        = toe ? g_strdup (_ ("Toe clip")) : g_strdup_printf (_ ("Clip, %s"), pr_card_side (clip->branch));

    PR_CARD_NUM (base, clip->base);
    PR_CARD_NUM (high, clip->height);
    PR_CARD_LEN (thick, clip->thickness);
    PR_CARD_LEN (at, pr_shoe_edge_straight (shoe, clip->branch, clip->edge));
    if (toe)
      pr_card_row (draft, label, _ ("base %s, height %s, thickness %s"), base, high, thick);
    else
      pr_card_row (draft, label, _ ("base %s, height %s, thickness %s; middle %s with dividers"), base, high,
                   thick, at);
  }
}

static void
add_shoe (PrCardDraft *draft)
{
  pr_card_head (draft, true, _ ("Shoe"));
  add_web (draft);
  add_heels (draft);
  if (draft->job->shoe == NULL || draft->job->shoe->n_st < 2)
    return;
  add_specials (draft);
  add_creases (draft);
  add_nails (draft, PR_MEDIAL);
  add_nails (draft, PR_LATERAL);
  add_clips (draft);
  if (!draft->job->shoe->simple && draft->job->shoe->trouble[0] != '\0')
    pr_card_add (draft, PR_CARD_TEXT, _ ("check"), g_strdup (draft->job->shoe->trouble), NULL);
}

GPtrArray *
pr_card_shoe_lines (const PrJob *job, PrUnit unit)
{
  PrCardDraft draft = pr_card_draft (job, unit);

  if (job->shoe == NULL || job->shoe->n_st < 2)
    return draft.lines;
  add_web (&draft);
  add_heels (&draft);
  add_specials (&draft);
  add_clips (&draft);
  return draft.lines;
}

/* --- findings, cautions ------------------------------------------------------------------ */

static void
add_finding (PrCardDraft *draft, PrFinding *finding)
{
  bool source = finding->source != NULL && *finding->source != '\0';

  draft->anvil = finding->state != PR_FITS;
  const char *mends = pr_job_offer (draft->job, finding);
  g_autofree char *offer = mends ? g_strdup_printf (_ (" Offered: %s."), mends) : g_strdup ("");
  g_autofree char *from = source ? g_strdup_printf (_ (" Source: %s."), finding->source) : g_strdup ("");
  pr_card_add (draft, PR_CARD_TEXT, pr_state_name (finding->state),
               g_strconcat (finding->text, offer, from, NULL), NULL);
}

/* Worst first. */
static void
add_findings (PrCardDraft *draft)
{
  const GPtrArray *findings = draft->job->findings;
  bool all_fits = true;

  pr_card_head (draft, true, _ ("Check before lighting the fire"));
  for (int state = PR_MEND; state >= PR_FITS; state--)
    for (guint i = 0; findings != NULL && i < findings->len; i++) {
      PrFinding *finding = g_ptr_array_index (findings, i);

      if ((int) finding->state != state)
        continue;
      all_fits = all_fits && finding->state == PR_FITS;
      add_finding (draft, finding);
    }
  draft->anvil = true;
  if (all_fits)
    pr_card_add (draft, PR_CARD_TEXT, NULL, g_strdup (_ ("Nothing: all that was checked fits.")), NULL);
}

static void
add_cautions (PrCardDraft *draft)
{
  static const char *const cautions[] = {
    N_ ("Planning aid only; it does not diagnose. Therapeutic shoes under a veterinary surgeon's "
        "direction. Who may shoe is set by local law."),
    N_ ("Trim first, trace after. Nails belong in the wall: a nail inside the white line lames."),
    N_ ("Eye protection at anvil and grinder; no galvanised stock in the fire; air for hoof smoke "
        "and flux fumes; a handler for the horse."),
    N_ ("Measure the stock in hand and the printed check line. The foot decides."),
  };

  pr_card_head (draft, false, _ ("Cautions"));
  for (gsize i = 0; i < G_N_ELEMENTS (cautions); i++)
    pr_card_add (draft, PR_CARD_TEXT, NULL, g_strdup (_ (cautions[i])), NULL);
}

GPtrArray *
pr_card_lines (const PrJob *job, PrUnit unit)
{
  PrCardDraft draft = pr_card_draft (job, unit);

  add_scale (&draft);
  if (pr_sources_is_specimen (&job->sources))
    add_specimen (&draft);
  else
    add_hoof (&draft);
  add_shoe (&draft);
  pr_card_add_iron (&draft);
  pr_card_add_work (&draft);
  add_findings (&draft);
  add_cautions (&draft);
  return draft.lines;
}
