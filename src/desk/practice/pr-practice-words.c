/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "pr-compare-data.h"
#include "pr-words.h"

#define S_PER_MIN 60
#define LEAST_TOLD (G_USEC_PER_SEC) /* shorter sleeps and settings are nobody's matter */
#define STEADY_S 0.5                /* a trend below that from run to run is none */

char *
pr_practice_time (double seconds)
{
  int s = (int) floor (fmax (seconds, 0));

  return g_strdup_printf ("%d:%02d", s / S_PER_MIN, s % S_PER_MIN);
}

/* Takes PART over. */
static void
join (GString *line, char *part)
{
  if (*part != '\0')
    g_string_append_printf (line, "%s%s", line->len > 0 ? " · " : "", part);
  g_free (part);
}

static char *
time_of (const PrPracticeClass *class)
{
  g_autofree char *time = pr_practice_time (class->seconds);

  if (class->seconds == 0)
    return g_strdup (_ ("no time limit"));
  if (class->seconds % S_PER_MIN == 0)
    return g_strdup_printf (_ ("%d min"), class->seconds / S_PER_MIN);
  return g_steal_pointer (&time);
}

static char *
heats_words (int heats)
{
  return g_strdup_printf (ngettext ("%d heat", "%d heats", (unsigned long) heats), heats);
}

char *
pr_practice_class_words (const PrPracticeClass *class)
{
  GString *line = g_string_new (NULL);

  join (line, time_of (class));
  join (line, g_strdup_printf (ngettext ("%d shoe", "%d shoes", (unsigned long) class->shoes), class->shoes));
  join (line, class->heats > 0 ? heats_words (class->heats) : g_strdup (_ ("any number of heats")));
  join (line, g_strdup (class->striker ? _ ("with a striker") : _ ("without a striker")));
  return g_string_free (line, FALSE);
}

static char *
score_words (const PrPracticeRun *run)
{
  guint judged, all = pr_practice_criteria (run);
  double score = pr_practice_score (run, &judged);

  if (judged == 0)
    return g_strdup ("");
  if (judged == all)
    return g_strdup_printf (_ ("%.1f of 10"), score);
  return g_strdup_printf (_ ("%u of %u judged, so far %.1f"), judged, all, score);
}

static char *
off_words (double mm, PrUnit unit)
{
  g_autofree char *off = mm >= 0 ? pr_off_text (mm, unit) : NULL;

  return off != NULL ? g_strdup_printf (_ ("off by %s"), off) : g_strdup ("");
}

char *
pr_practice_run_words (const PrPracticeRun *run, PrUnit unit)
{
  GString *line = g_string_new (NULL);
  guint heats = pr_practice_heats (run);

  if (pr_practice_is_going (run))
    join (line, g_strdup (_ ("going")));
  else if (run->broken)
    join (line, g_strdup (_ ("broken off")));
  else
    join (line, pr_practice_time (pr_practice_seconds (run)));
  join (line, g_strdup (run->unfinished ? _ ("not finished") : ""));
  join (line, heats > 0 ? heats_words ((int) heats) : g_strdup (""));
  join (line, off_words (run->measured.off, unit));
  join (line, score_words (run));
  return g_string_free (line, FALSE);
}

char *
pr_practice_when (const PrPracticeRun *run)
{
  g_autofree char *day = NULL;

  if (strlen (run->started) < strlen ("2026-11-30T14:05"))
    return g_strdup (_ ("no date"));
  day = pr_words_date (run->started);
  return g_strdup_printf ("%s, %.5s", day, run->started + strlen ("2026-11-30T"));
}

char *
pr_practice_clock_words (const PrPracticeSpan *span)
{
  g_autofree char *slept = pr_practice_time ((double) span->slept / G_USEC_PER_SEC);

  if (span->restarted)
    return g_strdup (_ ("The computer was started again during the run; its time may be off."));
  if (span->slept >= LEAST_TOLD)
    return g_strdup_printf (_ ("The computer slept for %s of it; that time counts."), slept);
  if (ABS (span->set) >= LEAST_TOLD * S_PER_MIN)
    return g_strdup (_ ("The computer's clock was set during the run; its time is right all the same."));
  return NULL;
}

/* --- a season --- */

char *
pr_season_value_words (double value, PrSeasonKind kind, PrUnit unit)
{
  switch (kind) {
  case PR_SEASON_TIME:
    return pr_practice_time (value);
  case PR_SEASON_OFF:
    return pr_off_text (value, unit);
  default:
    return g_strdup_printf ("%.*f", kind == PR_SEASON_SCORE || value != floor (value), value);
  }
}

char *
pr_season_words (const GPtrArray *runs, PrSeasonKind kind, PrUnit unit)
{
  static const char *const sentences[PR_N_SEASON] = {
    [PR_SEASON_TIME] = N_ ("Time: best %s, usually %s"),
    [PR_SEASON_HEATS] = N_ ("Heats: fewest %s, usually %s"),
    [PR_SEASON_OFF] = N_ ("Off by: least %s, usually %s"),
    [PR_SEASON_SCORE] = N_ ("Score: best %s, usually %s"),
  };
  PrSeasonFigure figure = pr_season_figure (runs, kind);

  if (figure.n == 0)
    return g_strdup ("");
  g_autofree char *best = pr_season_value_words (figure.best, kind, unit);
  g_autofree char *usual = pr_season_value_words (figure.usual, kind, unit);
  return g_strdup_printf (_ (sentences[kind]), best, usual);
}

char *
pr_season_trend_words (const GPtrArray *runs)
{
  PrSeasonFigure time = pr_season_figure (runs, PR_SEASON_TIME);

  if (!time.has_trend)
    return g_strdup_printf (ngettext ("Ten runs make a trend; so far there is %u.",
                                      "Ten runs make a trend; so far there are %u.", time.n),
                            time.n);
  if (fabs (time.trend) < STEADY_S)
    return g_strdup (_ ("The time stays as it is from run to run."));
  return g_strdup_printf (time.trend < 0 ? _ ("Each run is %.0f s quicker than the one before.")
                                         : _ ("Each run is %.0f s slower than the one before."),
                          fabs (time.trend));
}
