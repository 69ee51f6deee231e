/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks-iron.h"

#include <string.h>

static void
check_shape (const PrRun *run)
{
  const PrShoe *shoe = run->shoe;
  bool well = shoe->simple && !*shoe->trouble;
  PrFinding *finding
      = pr_run_add (run, "shape.simple", PR_GROUP_SHAPE, well ? PR_FITS : PR_MEND, well ? 0 : 1, 0, "",
                    _ ("common practice, no source"),
                    g_strdup (well ? _ ("The shoe is one piece and does not cross itself.") : shoe->trouble));

  if (!well)
    pr_finding_at (finding, shoe->trouble_at);
}

/* A piece that has a bar of its own. */
static void
check_own_bar (const PrRun *run, const PrPiece *piece)
{
  PrState state = piece->spare < 0 ? PR_MEND : PR_FITS;
  g_autofree char *needed = pr_length_text (piece->length, run->unit),
                  *given = pr_length_text (piece->given, run->unit);
  const char *id = strcmp (piece->id, "bar") == 0 ? "iron.enough.bar" : "iron.enough.extension";
  const char *text
      = state == PR_FITS
            ? _ ("Its own stock of %s is enough for the %s, which takes %s.")
            : _ ("Its own stock of %s is too short for the %s, which takes %s; take a longer piece.");

  pr_run_add (run, id, PR_GROUP_IRON, state, piece->length, piece->given, "mm",
              _ ("equal volume; the shoe's own figures"), g_strdup_printf (text, given, piece->name, needed));
}

static void
check_bar (const PrRun *run)
{
  const PrIron *iron = run->iron;
  PrState state = iron->given > 0 && iron->spare < 0 ? PR_MEND : PR_FITS;
  g_autofree char *needed = pr_length_text (iron->common, run->unit);
  g_autofree char *given = pr_length_text (iron->given, run->unit);
  g_autofree char *spare = pr_length_text (fabs (iron->spare), run->unit);
  char *text;

  if (!(iron->given > 0))
    text = g_strdup_printf (_ ("The shoe takes %s of stock; no length is given to compare it with."), needed);
  else if (state == PR_FITS && iron->common > iron->given)
    text = g_strdup_printf (_ ("The shoe takes %s and %s is given; so little is not short."), needed, given);
  else if (state == PR_FITS)
    text = g_strdup_printf (_ ("The shoe takes %s of the %s given; %s is left over."), needed, given, spare);
  else
    text = g_strdup_printf (
        _ ("The shoe takes %s and %s is given: %s is missing; take longer or wider stock, or a smaller web."),
        needed, given, spare);
  pr_run_add (run, "iron.enough", PR_GROUP_IRON, state, iron->common, iron->given, "mm",
              _ ("equal volume; the shoe's own figures"), text);
  for (size_t i = 0; i < iron->n_pieces; i++)
    if (iron->piece[i].given > 0)
      check_own_bar (run, &iron->piece[i]);
}

#define TELLING_PERCENT 0.5 /* less is told as 0 */

/* A strain e(s) as the share by which the bar grows longer, or its section thicker, %. */
static double
percent (double strain)
{
  return (exp (strain) - 1) * 100;
}

static void
check_draw (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("iron.draw");
  const PrIron *iron = run->iron;
  size_t most = 0;

  for (size_t i = 0; i < iron->n_st; i++)
    if (iron->strain[i] > iron->strain[most])
      most = i;
  double value = percent (iron->strain[most]), limit_value = percent (limit->look);
  PrState state = pr_above (iron->strain[most], limit);
  const char *text
      = state == PR_FITS && value < TELLING_PERCENT ? _ ("No part is drawn longer.")
        : state == PR_FITS
            ? _ ("Where most is drawn the stock grows longer by %.0f %% (up to %.0f %%).")
            : _ ("Here the stock must be drawn longer by %.0f %% (limit %.0f %%); take lighter stock.");

  pr_finding_at (pr_run_add (run, "iron.draw", PR_GROUP_IRON, state, value, limit_value, "%", limit->source,
                             g_strdup_printf (text, MAX (0, value), limit_value)),
                 run->shoe->st[most].inner);
}

/* A short thickening is no matter; along more than a width and a half of the bar it is. */
static void
check_upset (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("iron.upset");
  const PrIron *iron = run->iron;
  double along = 0, most_along = pr_limit ("iron.upset.along")->look * run->plan->stock_width;
  size_t least = 0;

  for (size_t i = 0; i < iron->n_st; i++) {
    if (iron->strain[i] < iron->strain[least])
      least = i;
    if (i > 0 && -iron->strain[i] > limit->look)
      along += run->shoe->st[i].s - run->shoe->st[i - 1].s;
  }
  double value = percent (-iron->strain[least]);
  PrState state = -iron->strain[least] > limit->mend ? PR_MEND : along > most_along ? PR_LOOK : PR_FITS;
  g_autofree char *length = pr_length_text (along, run->unit), *most = pr_length_text (most_along, run->unit);
  char *text
      = state == PR_MEND ? g_strdup_printf (
            _ ("Here the section must be upset by %.0f %% (at most %.0f %%); take heavier stock."), value,
            percent (limit->mend))
        : state == PR_LOOK
            ? g_strdup_printf (_ ("Along %s the section must be upset by more than %.0f %% (up to %s long, "
                                  "here by %.0f %%); take heavier stock."),
                               length, percent (limit->look), most, value)
        : value < TELLING_PERCENT ? g_strdup (_ ("No part is upset."))
        : along > 0
            ? g_strdup_printf (
                _ ("Where most is upset the section grows by %.0f %% (by more than %.0f %% only along %s)."),
                value, percent (limit->look), length)
            : g_strdup_printf (_ ("Where most is upset the section grows by %.0f %% (up to %.0f %%)."), value,
                               percent (limit->look));

  pr_finding_at (pr_run_add (run, "iron.upset", PR_GROUP_IRON, state, value, percent (limit->look), "%",
                             limit->source, text),
                 run->shoe->st[least].inner);
}

static void
check_photo (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("photo.residual");
  const PrScale *scale = run->scale;

  if (!scale)
    return;
  PrState state = scale->verdict == PR_VERDICT_GOOD     ? PR_FITS
                  : scale->verdict == PR_VERDICT_USABLE ? PR_LOOK
                                                        : PR_MEND;
  /* the verdict alone, as a phone is told it: it has the residual in it */
  pr_run_add (run, "photo.residual", PR_GROUP_PHOTO, state, scale->residual_mm, limit->look, "mm",
              limit->source, g_strdup (scale->why ? scale->why : ""));
}

/* The limits are for a foot so wide, and grow with its area: a saddle-horse shoe with nails 12 oz, a coach-horse shoe
 * 18 oz (aphorisms in G. Fleming, Horse-Shoes and Horse-Shoeing, 1869, p. 524). */
#define MASS_FOOT_MM 130
#define KG_PER_OUNCE 0.028349523125 /* exact: international pound, 1959 */

static char *
mass_text (const PrRun *run, double kg)
{
  return run->unit == PR_UNIT_INCH ? g_strdup_printf (_ ("%.1f oz"), kg / KG_PER_OUNCE)
                                   : g_strdup_printf (_ ("%.0f g"), kg * 1000);
}

static void
check_mass (const PrRun *run)
{
  const PrLimit *least = pr_limit ("mass.least"), *most = pr_limit ("mass.most");
  double size = run->hoof->width / MASS_FOOT_MM, factor = size * size;
  double steel = pr_material_density (PR_MATERIAL_STEEL);
  /* as if of steel, so that aluminium is not called light */
  /* a toe extension weighs besides */
  double branches = run->iron->mass * (1 - run->shoe->ext.volume / MAX (run->iron->volume, 1));
  double mass = branches * steel / pr_material_density ((PrMaterial) run->plan->material) / factor;
  PrState low = pr_below (mass, least), high = pr_above (mass, most);
  bool light = low > high;
  double limit = (light ? least->look : most->look) * factor;
  g_autofree char *weight = mass_text (run, run->iron->mass), *bound = mass_text (run, limit);
  const char *text
      = MAX (low, high) == PR_FITS ? _ ("The shoe weighs %s; for this foot a steel shoe weighs up to %s.")
        : light
            ? _ ("The shoe weighs only %s; for this foot a steel shoe weighs at least %s. Check web and "
                 "thickness.")
            : _ ("The shoe weighs %s; for this foot a steel shoe weighs up to %s. Check web and thickness.");

  pr_run_add (run, "mass.plausible", PR_GROUP_IRON, MAX (low, high), run->iron->mass * 1000, limit * 1000,
              "g", light ? least->source : most->source, g_strdup_printf (text, weight, bound));
}

void
pr_check_iron (const PrRun *run)
{
  check_shape (run);
  check_bar (run);
  check_draw (run);
  check_upset (run);
  check_mass (run);
  check_photo (run);
}
