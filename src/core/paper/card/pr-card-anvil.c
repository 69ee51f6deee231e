/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-card-anvil.h"

#include "pr-card-draft.h"
#include "pr-card-title.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* What the figures are made of. */
typedef struct {
  GArray *list; /* PrAnvilFigure */
  const PrJob *job;
  PrUnit unit;
  bool brief;
} Anvil;

static void
figure_clear (gpointer data)
{
  PrAnvilFigure *figure = data;

  g_free (figure->label);
  g_free (figure->figure);
}

/* FIGURE is taken over. */
static void
add (Anvil *anvil, const char *label, char *figure)
{
  g_array_append_val (anvil->list, ((PrAnvilFigure){ g_strdup (label), figure }));
}

static void
add_length (Anvil *anvil, const char *label, double mm)
{
  add (anvil, label, pr_length_text (mm, anvil->unit));
}

/* --- bar, webs ----------------------------------------------------------------------------- */

static void
add_bar (Anvil *anvil)
{
  const PrIron *iron = &anvil->job->iron;
  const PrPlan *plan = &anvil->job->sources.plan;
  GString *pieces = g_string_new (NULL);
  g_autofree char *section = pr_section_as_called (plan->stock_width, plan->stock_thick, anvil->unit);
  bool sum = anvil->brief && iron->n_pieces > 1;
  g_autofree char *label
      = sum ? g_strdup_printf (_ ("Stock for %d pieces, %s"), (int) iron->n_pieces, section)
            : g_strdup_printf (_ ("Stock to cut, %s"), section);
  for (size_t i = 0; i < iron->n_pieces && iron->n_pieces > 1 && !anvil->brief; i++) {
    g_autofree char *length = pr_length_cut (iron->piece[i].length, anvil->unit);

    g_string_append_printf (pieces, "%s%s", i > 0 ? " + " : "", length);
  }
  if (pieces->len == 0) {
    g_autofree char *needed = pr_length_cut (iron->needed, anvil->unit);
    g_string_assign (pieces, needed);
  }
  add (anvil, label, g_string_free (pieces, FALSE));
}

/* Both branches' figures in one, where they read alike; else each behind its letter. Transfer full. */
static char *
of_both (const char *medial, const char *lateral)
{
  if (g_str_equal (medial, lateral))
    return g_strdup (medial);
  return g_strdup_printf ("%s %s  %s %s", C_ ("medial", "M"), medial, C_ ("lateral", "L"), lateral);
}

/* Web and thickness where the webs of the branches are WEB and both are THICK. */
static void
add_section (Anvil *anvil, const char *label, const double web[2], double thick)
{
  const PrCardDraft own = { .unit = anvil->unit }, *draft = &own;

  PR_CARD_NUM (medial, web[PR_MEDIAL]);
  PR_CARD_NUM (lateral, web[PR_LATERAL]);
  PR_CARD_LEN (high, thick);
  g_autofree char *webs = of_both (medial, lateral);
  if (anvil->brief && !g_str_equal (medial, lateral))
    add (anvil, label, g_strdup (webs));
  else
    add (anvil, label, g_strdup_printf ("%s × %s", webs, high));
}

static void
add_sections (Anvil *anvil)
{
  const PrPlan *plan = &anvil->job->sources.plan;
  const double toe[2] = { plan->web_toe, plan->web_toe };
  double quarter = pr_plan_thick_at (plan, anvil->job->shoe, PR_LATERAL, PR_QUARTER_PLACE);

  /* Translators: these stand beside the large figures of the card for the anvil, in a narrow column */
  add_section (anvil, _ ("Web × thickness, toe"), toe, plan->thick_toe);
  add_section (anvil, _ ("Web × thickness, quarters"), plan->web_quarter, quarter);
  add_section (anvil, _ ("Web × thickness, heels"), plan->web_heel, plan->thick_heel);
}

/* --- the shoe ------------------------------------------------------------------------------ */

/* The mark ID ("heel", "nail.1") among a branch's STEPS, straight from the toe; NAN where it has none. */
static double
straight_to (const GArray *steps, const char *id)
{
  gsize n = strlen (id);

  for (guint i = 0; i < steps->len; i++) {
    const PrDivider *step = &g_array_index (steps, PrDivider, i);

    if (strncmp (step->id, id, n) == 0 && step->id[n] == '.')
      return step->straight;
  }
  return NAN;
}

/* A branch's distance to its first nail, "none" without one. Transfer full. */
static char *
first_nail (const Anvil *anvil, const GArray *steps, bool with_unit)
{
  double straight = straight_to (steps, "nail.1");

  if (isnan (straight))
    return g_strdup (_ ("none"));
  return with_unit ? pr_length_text (straight, anvil->unit) : pr_length_number (straight, anvil->unit);
}

static void
add_steps (Anvil *anvil)
{
  const PrShoe *shoe = anvil->job->shoe;
  bool line = false;
  g_autoptr (GArray) medial = pr_dividers (shoe, PR_MEDIAL, &line);
  g_autoptr (GArray) lateral = pr_dividers (shoe, PR_LATERAL, NULL);
  g_autofree char *one = first_nail (anvil, medial, false), *other = first_nail (anvil, lateral, false);
  g_autofree char *last = first_nail (anvil, lateral, true);

  add_length (anvil, line ? _ ("Extension line to medial heel") : _ ("Toe to medial heel"),
              straight_to (medial, "heel"));
  add_length (anvil, line ? _ ("Extension line to lateral heel") : _ ("Toe to lateral heel"),
              straight_to (lateral, "heel"));
  add (anvil, line ? _ ("Extension line to first nail") : _ ("Toe to first nail"),
       g_str_equal (one, other) ? g_strdup (last) : of_both (one, last));
}

GArray *
pr_anvil_figures (const PrJob *job, PrUnit unit, bool brief)
{
  Anvil anvil = { g_array_new (FALSE, FALSE, sizeof (PrAnvilFigure)), job, unit, brief };
  double width, length;

  g_array_set_clear_func (anvil.list, figure_clear);
  if (job->shoe == NULL || job->shoe->n_st < 2)
    return anvil.list;
  add_bar (&anvil);
  add_sections (&anvil);
  pr_card_shoe_size (job->shoe, &width, &length);
  add_length (&anvil, _ ("Shoe's length"), length);
  add_length (&anvil, _ ("Shoe's width"), width);
  add_length (&anvil, _ ("Heel to heel, outside"),
              pr_pt_dist (job->shoe->heel_outer[PR_MEDIAL], job->shoe->heel_outer[PR_LATERAL]));
  add_steps (&anvil);
  return anvil.list;
}
