/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-face.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "pr-practice-words.h"

#define S_PER_MIN 60

void
pr_practice_face_clear (PrPracticeFace *face)
{
  g_free (face->word);
  g_free (face->figures);
  g_free (face->heat);
  g_free (face->step);
  *face = (PrPracticeFace){ 0 };
}

/* --- what it says --- */

static bool
heats_over (const PrPracticeRun *run)
{
  return run->as->heats > 0 && (int) pr_practice_heats (run) > run->as->heats;
}

static char *
heat_words (const PrPracticeRun *run)
{
  guint n = pr_practice_heats (run);

  if (n == 0)
    return g_strdup (_ ("no heat yet"));
  if (run->as->heats > 0)
    return g_strdup_printf (_ ("heat %u of %d"), n, run->as->heats);
  return g_strdup_printf (_ ("heat %u"), n);
}

static char *
step_words (const PrPracticeRun *run)
{
  guint done = pr_practice_steps_done (run);

  if (run->steps->len == 0)
    return g_strdup ("");
  if (done >= run->steps->len)
    return g_strdup (_ ("All steps are done."));
  return g_strdup_printf (_ ("Step %u of %u: %s"), done + 1, run->steps->len,
                          (const char *) run->steps->pdata[done]);
}

void
pr_practice_face_tell (PrPracticeFace *face, const PrPracticeRun *run, const PrPracticeMoment *now)
{
  double seconds = (double) pr_practice_us (run, now) / G_USEC_PER_SEC, limit = run->as->seconds;
  bool late = limit > 0 && seconds > limit;

  pr_practice_face_clear (face);
  face->over = late || heats_over (run);
  face->gone = limit > 0 ? seconds / limit : -1;
  face->word = g_strdup (limit == 0 ? _ ("gone") : late ? _ ("over time") : _ ("left"));
  /* what is left is full until a whole second is gone */
  g_autofree char *time = pr_practice_time (limit == 0 ? seconds
                                            : late     ? seconds - limit
                                                       : ceil (limit - seconds));
  face->figures = g_strconcat (late ? "+" : "", time, NULL);
  face->heat = heat_words (run);
  face->step = step_words (run);
}

char *
pr_practice_spoken (const PrPracticeRun *run, const PrPracticeMoment *now)
{
  double seconds = (double) pr_practice_us (run, now) / G_USEC_PER_SEC, limit = run->as->seconds;
  g_autofree char *time = NULL, *heat = heat_words (run);
  unsigned long n;

  if (limit == 0) {
    n = (unsigned long) (seconds / S_PER_MIN);
    time = g_strdup_printf (ngettext ("%lu minute gone", "%lu minutes gone", n), n);
  } else if (seconds > limit) {
    n = (unsigned long) ((seconds - limit) / S_PER_MIN);
    time = g_strdup_printf (ngettext ("over time by %lu minute", "over time by %lu minutes", n), n);
  } else {
    n = (unsigned long) ceil ((limit - seconds) / S_PER_MIN);
    time = g_strdup_printf (ngettext ("%lu minute left", "%lu minutes left", n), n);
  }
  return g_strdup_printf ("%s, %s", time, heat);
}

/* --- where it stands --- */

double
pr_practice_letter_mm (double metres, double arc_minutes)
{
  return metres * 1000 * 2 * tan (arc_minutes / 60 * G_PI / 180 / 2);
}

/* From top to bottom, shares of the height: at 1280 x 720, with the row of buttons below it, word and heat are as high as four metres
 * ask on a screen of 13 inches (tests/practice/test-face.c), the figures 1.8 times that. Below word and heat there is room for what
 * hangs below a line, a third of its capitals; the step has the rest. */
void
pr_practice_face_lay (PrFaceLayout *lay, double width, double height)
{
  lay->margin = 0.055 * MIN (width, height); /* the frame of one that is over lies outside it */
  lay->bar_y = 0.038 * height;
  lay->bar = 0.022 * height;
  lay->word_y = 0.076 * height;
  lay->word = 0.18 * height;
  lay->figures_y = 0.305 * height;
  lay->figures = 0.322 * height;
  lay->heat_y = 0.644 * height;
  lay->heat = 0.18 * height;
  lay->step_y = 0.885 * height;
  lay->step = 0.08 * height;
}
