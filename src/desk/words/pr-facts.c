/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-facts.h"

#include <glib/gi18n-lib.h>
#include "pr-rack.h"
#include "pr-text.h"
#include "pr-words.h"

#define RESIDUAL_SEEN_MM 0.005        /* what two decimals can show */
#define NAME_LETTERS 40               /* of a style: what is told behind it stays in sight */
#define EVEN_MM 1.0                   /* halves closer than this count as even */
#define POUND_PER_KG (1 / 0.45359237) /* exact: the agreement of 1959 */

static char *
length (const PrJob *job, double mm)
{
  return pr_words_length (mm, job->unit);
}

static void
add (GPtrArray *list, const char *label, char *value)
{
  g_ptr_array_add (list, g_strdup_printf ("%s\t%s", label, value));
  g_free (value);
}

static GStrv
done (GPtrArray *list)
{
  g_ptr_array_add (list, NULL);
  return (GStrv) g_ptr_array_free (list, FALSE);
}

static const char *
method_words (PrScaleMethod method)
{
  switch (method) {
  case PR_SCALE_SHEET:
    return _ ("printed sheet");
  case PR_SCALE_PLAIN:
    return _ ("plain sheet");
  case PR_SCALE_CARD:
    return _ ("card");
  case PR_SCALE_RECT:
    return _ ("rectangle");
  case PR_SCALE_RULER:
    return _ ("ruler");
  case PR_SCALE_DENSITY:
    return _ ("scan");
  default:
    return _ ("automatic");
  }
}

/* Every list tells first what lies on the left of the board. */
static bool
medial_first (const PrJob *job)
{
  return pr_lateral_sign (job->sources.foot, job->face) > 0;
}

char *
pr_facts_tracing (const PrJob *job)
{
  const PrScale *scale;

  if (!job->sources.tracing)
    return g_strdup (_ ("an outline without a photo"));
  scale = &job->sources.tracing->scale;
  g_autofree char *off = pr_words_error (scale->residual_mm, job->unit);

  if (scale->residual_mm < RESIDUAL_SEEN_MM)
    return g_strdup_printf ("%s · %s", method_words (scale->method), pr_verdict_name (scale->verdict));
  return g_strdup_printf ("%s · %s · %s", method_words (scale->method), off,
                          pr_verdict_name (scale->verdict));
}

static const char *
wider_side (const PrHoof *hoof)
{
  return hoof->width_side[PR_LATERAL] > hoof->width_side[PR_MEDIAL] ? _ ("outside") : _ ("inside");
}

char *
pr_facts_hoof (const PrJob *job)
{
  const PrHoof *hoof = &job->hoof;
  double more = fabs (hoof->width_side[PR_LATERAL] - hoof->width_side[PR_MEDIAL]);
  g_autofree char *long_ = pr_words_number (hoof->length, job->unit);
  g_autofree char *width = length (job, hoof->width);
  g_autofree char *by = length (job, more);

  if (pr_sources_is_specimen (&job->sources))
    return g_strdup_printf (_ ("%s × %s · specimen"), long_, width);
  if (hoof->centre == PR_CENTRE_ASSUMED)
    return g_strdup_printf (_ ("%s × %s · centre line assumed"), long_, width);
  if (more < EVEN_MM)
    return g_strdup_printf (_ ("%s × %s · halves even"), long_, width);
  return g_strdup_printf (_ ("%s × %s · %s wider by %s"), long_, width, wider_side (hoof), by);
}

char *
pr_facts_shoe (const PrJob *job, const GPtrArray *styles)
{
  const PrStyle *style = styles ? pr_styles_find (styles, job->sources.plan.style) : NULL;
  g_autofree char *toe = pr_section_brief (job->sources.plan.web_toe, job->sources.plan.thick_toe, job->unit);
  g_autofree char *name = style ? pr_text_name_brief (style->name, NAME_LETTERS) : NULL;

  return g_strdup_printf ("%s · %s", name ? name : _ ("own shape"), toe);
}

char *
pr_facts_nailing (const PrJob *job)
{
  const PrPlan *plan = &job->sources.plan;
  size_t clips = job->shoe ? job->shoe->n_clips : 0;
  int left = medial_first (job) ? PR_MEDIAL : PR_LATERAL;
  g_autofree char *clip_words
      = clips == 0 ? g_strdup (_ ("no clips"))
                   : g_strdup_printf (ngettext ("%d clip", "%d clips", (gulong) clips), (int) clips);

  return g_strdup_printf (_ ("%d + %d nails · %s"), plan->nails[left], plan->nails[!left], clip_words);
}

char *
pr_facts_iron (const PrJob *job)
{
  const PrIron *iron = &job->iron;
  g_autofree char *stock
      = pr_section_as_called (job->sources.plan.stock_width, job->sources.plan.stock_thick, job->unit);
  g_autofree char *needed = pr_iron_cut_text (iron, job->unit);
  g_autofree char *given = length (job, iron->given);

  if (iron->given > 0)
    return g_strdup_printf (_ ("%s · %s of %s"), stock, needed, given);
  return g_strdup_printf (_ ("%s · cut %s"), stock, needed);
}

char *
pr_facts_order (const PrJob *job)
{
  g_autoptr (GPtrArray) steps = pr_job_order (job);
  g_autofree char *count = g_strdup_printf (ngettext ("%d step", "%d steps", steps->len), (int) steps->len);

  return job->sources.order ? g_strdup_printf (_ ("%s, in your words"), count) : g_steal_pointer (&count);
}

static void
add_references (GPtrArray *list, const PrTracing *tracing, PrUnit unit)
{
  g_autofree char *off = NULL;
  double worst = 0;
  int outliers = 0;

  for (size_t i = 0; i < tracing->n_reference; i++) {
    worst = fmax (worst, tracing->reference[i].off_mm);
    outliers += tracing->reference[i].outlier;
  }
  if (tracing->n_reference == 0)
    return;
  off = pr_words_error (worst, unit);
  add (list, _ ("Reference points"),
       g_strdup_printf (_ ("%d, the worst %s off"), (int) tracing->n_reference, off));
  if (outliers > 0)
    /* TRANSLATORS: how many reference points do not fit, ringed on the board */
    add (list, _ ("Do not fit, ringed"), g_strdup_printf ("%d", outliers));
}

GStrv
pr_facts_tracing_list (const PrJob *job)
{
  GPtrArray *list = g_ptr_array_new ();
  const PrTracing *tracing = job->sources.tracing;

  if (tracing) {
    const PrScale *scale = &tracing->scale;

    add (list, _ ("Scale from"), g_strdup (method_words (scale->method)));
    if (scale->paper < PR_N_PAPERS)
      add (list, _ ("Paper"), g_strdup (pr_paper_name (scale->paper)));
    add (list, _ ("Photo detail"),
         job->unit == PR_UNIT_INCH
             ? g_strdup_printf (_ ("%.0f px per inch"), scale->px_per_mm * PR_MM_PER_INCH)
             : g_strdup_printf (_ ("%.1f px per mm"), scale->px_per_mm));
    add (list, _ ("Camera tilt"), g_strdup_printf ("%.0f°", scale->tilt * 180 / G_PI));
    add_references (list, tracing, job->unit);
    if (tracing->pen_mm > 0)
      add (list, _ ("Pen line"), length (job, tracing->pen_mm));
    if (tracing->n_doubt > 0)
      add (list, _ ("Doubtful stretches"), g_strdup_printf ("%d", (int) tracing->n_doubt));
  }
  return done (list);
}

static void
add_sides (GPtrArray *list, const PrJob *job, const char *label, const char *medial, const char *lateral)
{
  add (list, label,
       medial_first (job) ? g_strdup_printf (_ ("%s medial, %s lateral"), medial, lateral)
                          : g_strdup_printf (_ ("%s lateral, %s medial"), lateral, medial));
}

static void
add_both (GPtrArray *list, const PrJob *job, const char *label, const double value[2])
{
  g_autofree char *medial = length (job, value[PR_MEDIAL]), *lateral = length (job, value[PR_LATERAL]);

  add_sides (list, job, label, medial, lateral);
}

static char *
degrees (double angle)
{
  return g_strdup_printf ("%.0f°", angle * 180 / G_PI);
}

static void
add_percent (GPtrArray *list, const char *label, double part, double whole)
{
  add (list, label, g_strdup_printf (_ ("%.0f %%"), whole > 0 ? 100 * part / whole : 0));
}

/* What is drawn on the photo for the centre line and was not sure enough to be taken. */
static void
add_unsure (GPtrArray *list, const PrJob *job)
{
  const PrDrawnMarks *drawn = job->sources.tracing ? &job->sources.tracing->drawn : NULL;

  if (drawn && drawn->tick == PR_DRAWN_UNSURE && !job->sources.marks.has_toe)
    add (list, _ ("Toe tick"), g_strdup (_ ("perhaps drawn: drag the toe there")));
  if (drawn && drawn->frog_lines == PR_DRAWN_UNSURE && !job->hoof.has_frog_apex)
    add (list, _ ("Frog"), g_strdup (_ ("perhaps drawn: drag its marks there")));
}

static void
add_centre (GPtrArray *list, const PrJob *job)
{
  const PrHoof *hoof = &job->hoof;
  g_autofree char *lean = length (job, fabs (hoof->lean));

  add (list, _ ("Centre line"), g_strdup (pr_centre_words (hoof->centre)));
  add_unsure (list, job);
  if (hoof->centre != PR_CENTRE_ASSUMED)
    add (list, _ ("Halves differ"),
         g_strdup_printf (hoof->lean < 0 ? _ ("medial wider by up to %s") : _ ("lateral wider by up to %s"),
                          lean));
}

static void
add_heels (GPtrArray *list, const PrJob *job)
{
  const PrHoof *hoof = &job->hoof;

  add_percent (list, _ ("Heels' share of the width"), hoof->heel_width, hoof->width);
  add_both (list, job, _ ("Widest line to heel"), hoof->heel_length);
  g_autofree char *medial = degrees (hoof->heel_angle[PR_MEDIAL]),
                  *lateral = degrees (hoof->heel_angle[PR_LATERAL]);
  add_sides (list, job, _ ("Heel wall runs in"), medial, lateral);
  if (hoof->frog_width > 0) {
    add (list, _ ("Frog at the heels"), length (job, hoof->frog_width));
    add_percent (list, _ ("Frog's share of the heels' distance"), hoof->frog_width, hoof->heel_width);
  }
  if (hoof->has_frog_apex)
    add (list, _ ("Frog's apex to toe"), length (job, hoof->apex_to_toe));
}

static const char *
wall_words (const PrHoof *hoof)
{
  if (!pr_hoof_wall_is_guess (hoof))
    return _ ("measured");
  return hoof->wall_known[0] || hoof->wall_known[1] || hoof->wall_known[2] ? _ ("in part a guess: measure it")
                                                                           : _ ("a guess: measure it");
}

GStrv
pr_facts_hoof_list (const PrJob *job)
{
  GPtrArray *list = g_ptr_array_new ();
  const PrHoof *hoof = &job->hoof;

  if (pr_sources_is_specimen (&job->sources)) {
    add (list, _ ("Specimen"), g_strdup (_ ("its outer edge stands in for the foot")));
    return done (list);
  }
  add (list, _ ("Length"), length (job, hoof->length));
  add (list, _ ("Width"), length (job, hoof->width));
  add (list, _ ("Length to width"), g_strdup_printf ("%.2f", hoof->length / MAX (hoof->width, 1)));
  add_both (list, job, _ ("Halves"), hoof->width_side);
  add_centre (list, job);
  add (list, _ ("Between the heels"), length (job, hoof->heel_width));
  add (list, _ ("Wall"), g_strdup (wall_words (hoof)));
  return done (list);
}

GStrv
pr_facts_hoof_more (const PrJob *job)
{
  GPtrArray *list = g_ptr_array_new ();
  const PrHoof *hoof = &job->hoof;

  if (pr_sources_is_specimen (&job->sources))
    return done (list);
  add_both (list, job, _ ("At the toe quarters"), hoof->half[PR_LEVEL_FORE]);
  add_both (list, job, _ ("At the heel quarters"), hoof->half[PR_LEVEL_REAR]);
  if (hoof->centre != PR_CENTRE_ASSUMED)
    add_percent (list, _ ("Lateral share of the surface"), hoof->half_area[PR_LATERAL],
                 hoof->half_area[PR_MEDIAL] + hoof->half_area[PR_LATERAL]);
  add (list, _ ("Toe to widest line"), length (job, hoof->toe_to_widest));
  add (list, _ ("Widest line to heels"), length (job, hoof->widest_to_heels));
  add_percent (list, _ ("Toe's share of the length"), hoof->toe_to_widest, hoof->length);
  add_heels (list, job);
  return done (list);
}

static char *
mass (const PrJob *job)
{
  if (job->unit == PR_UNIT_INCH)
    return g_strdup_printf (_ ("%.0f oz"), job->iron.mass * POUND_PER_KG * 16);
  return g_strdup_printf (_ ("%.0f g"), job->iron.mass * 1000);
}

/* The hand rules, each with how far it is from what this shoe takes. */
static void
add_rules (GPtrArray *list, const PrJob *job)
{
  PrHandRule rules[PR_N_HAND_RULES];

  size_t n = pr_hand_rules (&job->iron, rules);
  for (size_t i = 0; i < n; i++) {
    g_autofree char *label = g_strdup_printf ("%s (%s)", rules[i].name, rules[i].reach);
    g_autofree char *mm = length (job, rules[i].mm), *apart = length (job, fabs (rules[i].apart));
    const char *text = rules[i].apart > PR_RULE_APART    ? _ ("%s, %s too much for this shoe")
                       : rules[i].apart < -PR_RULE_APART ? _ ("%s, %s too little for this shoe")
                                                         : NULL;

    add (list, label, text ? g_strdup_printf (text, mm, apart) : g_steal_pointer (&mm));
  }
}

GStrv
pr_facts_iron_list (const PrJob *job)
{
  GPtrArray *list = g_ptr_array_new ();
  const PrIron *iron = &job->iron;

  for (size_t i = 0; i < iron->n_pieces; i++) {
    g_autofree char *label = g_strdup_printf (_ ("Cut for %s"), iron->piece[i].name);

    add (list, label, pr_length_cut (iron->piece[i].length, job->unit));
  }
  if (iron->n_pieces > 1)
    add (list, _ ("Stock needed in all"), pr_length_cut (iron->needed, job->unit));
  if (iron->given > 0)
    add (list, iron->spare < 0 ? _ ("Missing") : _ ("Left over"), length (job, fabs (iron->spare)));
  add (list, _ ("Finished shoe"), mass (job));
  add (list, _ ("String round the middle of the web"), length (job, iron->middle_line));
  add_rules (list, job);
  if (job->shoe) /* as the rack has it */
    add (list, _ ("Work"),
         g_strdup_printf ("%.0f %%", 100 * pr_rack_work (&job->sources.plan, job->shoe, iron)));
  return done (list);
}
