/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-lines.h"

#include <glib/gi18n-lib.h>

#include "pr-card-title.h"
#include "pr-card.h"
#include "pr-forged-text.h"
#include "pr-text.h"

/* VALUE and HOW are taken over. */
static void
add (PrCardDraft *draft, const char *label, char *value, char *how)
{
  pr_card_add (draft, PR_CARD_ROW, label, value, how);
}

/* --- measures ------------------------------------------------------------------------------ */

/* Of TRACING's outline, how much is in doubt, mm. */
static double
doubted (const PrTracing *tracing)
{
  double mm = 0;

  for (size_t i = 0; i < tracing->n_doubt; i++)
    mm += fmax (tracing->doubt[i].to_mm - tracing->doubt[i].from_mm, 0);
  return mm;
}

static void
add_scale (PrCardDraft *draft)
{
  const PrSources *sources = &draft->job->sources;
  const PrScale *scale = pr_sources_scale (sources);

  add (draft, _ ("Scale"), pr_card_scale_words (scale),
       g_strdup (scale != NULL ? pr_verdict_name (scale->verdict) : _ ("as it was given")));
  PR_CARD_LEN (whole, pr_tracing_length (sources->tracing));
  PR_CARD_LEN (part, doubted (sources->tracing));
  add (draft, _ ("Outline"), g_strdup_printf (_ ("%s along the wall, heel to heel"), whole),
       sources->tracing->n_doubt > 0 ? g_strdup_printf (_ ("%s of it in doubt"), part)
                                     : g_strdup (_ ("no part in doubt")));
}

static void
add_size (PrCardDraft *draft)
{
  const PrHoof *hoof = &draft->job->hoof;

  PR_CARD_LEN (length, hoof->length);
  PR_CARD_LEN (width, hoof->width);
  PR_CARD_LEN (fore, hoof->toe_to_widest);
  PR_CARD_LEN (aft, hoof->widest_to_heels);
  add (draft, _ ("Length, width"), g_strdup_printf (_ ("%s, %s"), length, width),
       g_strdup (_ ("by the outline")));
  add (draft, _ ("Along the centre line"),
       g_strdup_printf (_ ("%s toe to widest line, %s widest line to heels"), fore, aft),
       g_strdup (_ ("by outline and centre line")));
}

/* Of an assumed centre line nothing is told that differs from side to side. */
static void
add_sides (PrCardDraft *draft)
{
  const PrHoof *hoof = &draft->job->hoof;

  PR_CARD_LEN (medial, hoof->width_side[PR_MEDIAL]);
  PR_CARD_LEN (lateral, hoof->width_side[PR_LATERAL]);
  PR_CARD_LEN (lean, fabs (hoof->lean));
  PR_CARD_LEN (at, fabs (hoof->lean_at.y));
  if (hoof->centre == PR_CENTRE_ASSUMED) {
    add (draft, _ ("Centre line"), g_strdup (_ ("not measured: no frog, no toe mark")),
         g_strdup (pr_centre_words (hoof->centre)));
    return;
  }
  add (draft, _ ("From the centre line"), g_strdup_printf (_ ("%s medial, %s lateral"), medial, lateral),
       g_strdup (pr_centre_words (hoof->centre)));
  add (draft, _ ("Halves differ"),
       g_strdup_printf (hoof->lean_at.y < 0 ? _ ("%s wider by up to %s, %s behind the widest line")
                                            : _ ("%s wider by up to %s, %s ahead of the widest line"),
                        pr_card_side (hoof->lean < 0 ? PR_MEDIAL : PR_LATERAL), lean, at),
       g_strdup (pr_centre_words (hoof->centre)));
}

static void
add_heels (PrCardDraft *draft)
{
  const PrHoof *hoof = &draft->job->hoof;
  const bool *by_hand = draft->job->sources.marks.has_buttress;
  const char *how = by_hand[0] && by_hand[1] ? _ ("heels marked by hand") : _ ("heels found on the outline");

  PR_CARD_LEN (heels, hoof->heel_width);
  PR_CARD_LEN (medial, hoof->heel_length[PR_MEDIAL]);
  PR_CARD_LEN (lateral, hoof->heel_length[PR_LATERAL]);
  add (draft, _ ("Between the heels"), g_strdup (heels), g_strdup (how));
  if (hoof->centre != PR_CENTRE_ASSUMED)
    add (draft, _ ("Widest line to heel"), g_strdup_printf (_ ("%s medial, %s lateral"), medial, lateral),
         g_strdup (how));
}

static void
add_frog (PrCardDraft *draft)
{
  const PrHoof *hoof = &draft->job->hoof;

  PR_CARD_LEN (frog, hoof->frog_width);
  PR_CARD_LEN (apex, hoof->apex_to_toe);
  if (hoof->frog_width > 0)
    add (draft, _ ("Frog at the heels"), g_strdup (frog), g_strdup (_ ("frog as drawn or marked")));
  if (hoof->has_frog_apex)
    add (draft, _ ("Frog's apex to toe"), g_strdup (apex), g_strdup (_ ("frog as drawn or marked")));
}

static void
add_wall (PrCardDraft *draft)
{
  const PrHoof *hoof = &draft->job->hoof;
  bool some = hoof->wall_known[0] || hoof->wall_known[1] || hoof->wall_known[2];

  PR_CARD_NUM (toe, hoof->wall[0]);
  PR_CARD_NUM (quarter, hoof->wall[1]);
  PR_CARD_LEN (heel, hoof->wall[2]);
  add (draft, _ ("Wall thickness"), g_strdup_printf (_ ("toe %s, quarters %s, heels %s"), toe, quarter, heel),
       g_strdup (!pr_hoof_wall_is_guess (hoof) ? _ ("measured by hand")
                 : some                        ? _ ("in part a guess")
                                               : _ ("a guess, not measured")));
}

GPtrArray *
pr_vet_measures (const PrJob *job, PrUnit unit)
{
  PrCardDraft draft = pr_card_draft (job, unit);

  add_scale (&draft);
  add_size (&draft);
  add_sides (&draft);
  add_heels (&draft);
  add_frog (&draft);
  add_wall (&draft);
  return draft.lines;
}

/* --- the shoe ------------------------------------------------------------------------------ */

static int
nails_of (const PrShoe *shoe, int branch)
{
  int n = 0;

  for (size_t i = 0; i < shoe->n_nails; i++)
    n += shoe->nail[i].branch == branch;
  return n;
}

static void
add_nails (PrCardDraft *draft)
{
  const PrShoe *shoe = draft->job->shoe;

  add (draft, _ ("Nails"),
       g_strdup_printf (_ ("%d medial, %d lateral"), nails_of (shoe, PR_MEDIAL), nails_of (shoe, PR_LATERAL)),
       NULL);
}

static void
add_stock (PrCardDraft *draft)
{
  const PrPlan *plan = &draft->job->sources.plan;
  g_autofree char *stock = pr_section_as_called (plan->stock_width, plan->stock_thick, draft->unit);

  add (draft, _ ("Stock"),
       g_strdup_printf ("%s, %s", plan->material == PR_MATERIAL_ALUMINIUM ? _ ("aluminium") : _ ("steel"),
                        stock),
       NULL);
}

static void
add_forged (PrCardDraft *draft, const PrComparison *forged)
{
  g_autofree char *caution = pr_forged_caution (forged, draft->unit);
  g_autofree char *head = pr_forged_head (forged, draft->unit);

  add (draft, _ ("As forged"), caution != NULL ? g_strdup_printf ("%s. %s", head, caution) : g_strdup (head),
       NULL);
}

GPtrArray *
pr_vet_shoe (const PrVetAbout *about, PrUnit unit)
{
  PrCardDraft draft = pr_card_draft (about->job, unit);
  GPtrArray *lines = pr_card_shoe_lines (about->job, unit);

  add (&draft, _ ("Style"), pr_card_style_name (about->job), NULL);
  g_ptr_array_extend_and_steal (draft.lines, lines);
  if (about->job->shoe != NULL)
    add_nails (&draft);
  add_stock (&draft);
  if (about->forged != NULL)
    add_forged (&draft, about->forged);
  return draft.lines;
}

/* --- permission ---------------------------------------------------------------------------- */

static void
add_told (PrCardDraft *draft, const char *label, const char *told)
{
  add (draft, label, *told != '\0' ? pr_text_name (told) : g_strdup (_ ("not recorded")), NULL);
}

GPtrArray *
pr_vet_permission (const PrVetNote *note)
{
  PrCardDraft draft = pr_card_draft (NULL, PR_UNIT_MM);

  if (pr_vet_note_is_silent (note))
    return draft.lines;
  add_told (&draft, _ ("Allowed by"), note->allowed_by);
  add_told (&draft, _ ("On"), note->allowed_on);
  add_told (&draft, C_ ("permission", "For"), note->allowed_for);
  return draft.lines;
}

/* --- cautions ------------------------------------------------------------------------------ */

char *
pr_vet_cautions (void)
{
  return g_strjoin (
      " ",
      _ ("Planning aid only; it does not diagnose. Therapeutic shoes under a veterinary surgeon's "
         "direction. Who may shoe is set by local law."),
      _ ("Measured on a flat tracing: it tells nothing of angles, of heights or of what lies inside "
         "the hoof. What it means for the horse is for the veterinary surgeon to say."),
      _ ("The foot decides."), NULL);
}
