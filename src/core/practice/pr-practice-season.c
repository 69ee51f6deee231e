/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-season.h"

#include <math.h>
#include <string.h>

double
pr_season_value (const PrPracticeRun *run, PrSeasonKind kind)
{
  double score;
  guint judged;

  if (run->broken || run->unfinished || pr_practice_is_going (run))
    return NAN;
  switch (kind) {
  case PR_SEASON_TIME:
    return pr_practice_seconds (run);
  case PR_SEASON_HEATS: /* none pressed: not told */
    return pr_practice_heats (run) > 0 ? pr_practice_heats (run) : NAN;
  case PR_SEASON_OFF:
    return run->measured.off >= 0 ? run->measured.off : NAN;
  default:
    score = pr_practice_score (run, &judged);
    return judged > 0 && judged == pr_practice_criteria (run) ? score : NAN;
  }
}

static int
by_size (gconstpointer a, gconstpointer b)
{
  double da = *(const double *) a, db = *(const double *) b;

  return (da > db) - (da < db);
}

/* Sorts VALUES. */
static double
median (GArray *values)
{
  const double *v = (const double *) values->data;

  g_array_sort (values, by_size);
  return (v[(values->len - 1) / 2] + v[values->len / 2]) / 2;
}

/* Between any two of VALUES, which stand one run apart. */
static double
slope (const GArray *values)
{
  g_autoptr (GArray) slopes = g_array_new (FALSE, FALSE, sizeof (double));
  const double *v = (const double *) values->data;

  for (guint i = 0; i < values->len; i++)
    for (guint j = i + 1; j < values->len; j++) {
      double one = (v[j] - v[i]) / (j - i);
      g_array_append_val (slopes, one);
    }
  return median (slopes);
}

PrSeasonFigure
pr_season_figure (const GPtrArray *runs, PrSeasonKind kind)
{
  g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (double));
  PrSeasonFigure figure = { 0 };

  for (guint i = 0; i < runs->len; i++) {
    double value = pr_season_value (runs->pdata[i], kind);

    if (!isnan (value))
      g_array_append_val (values, value);
  }
  figure.n = values->len;
  if (values->len == 0)
    return figure;
  figure.has_trend = values->len >= PR_SEASON_TREND_RUNS;
  if (figure.has_trend)
    figure.trend = slope (values);
  figure.usual = median (values); /* sorts them */
  figure.best = g_array_index (values, double, kind == PR_SEASON_SCORE ? values->len - 1 : 0);
  return figure;
}

/* --- as a table --- */

static void
add_text (GString *csv, const char *text)
{
  g_autoptr (GString) quoted = g_string_new (text);

  g_string_replace (quoted, "\"", "\"\"", 0);
  g_string_append_printf (csv, "\"%s\"", quoted->str);
}

/* Empty for what is not told. */
static void
add_value (GString *csv, double value, const char *form)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE] = "";

  if (!isnan (value))
    g_ascii_formatd (text, sizeof text, form, value);
  g_string_append_printf (csv, ",%s", text);
}

static void
add_run (GString *csv, const PrPracticeRun *run)
{
  add_text (csv, run->started);
  g_string_append_c (csv, ',');
  add_text (csv, pr_practice_text (run->as, run->as->name));
  add_value (csv, pr_season_value (run, PR_SEASON_TIME), "%.1f");
  add_value (csv, run->as->seconds > 0 ? run->as->seconds : NAN, "%.0f");
  add_value (csv, pr_season_value (run, PR_SEASON_HEATS), "%.0f");
  add_value (csv, run->as->heats > 0 ? run->as->heats : NAN, "%.0f");
  add_value (csv, pr_season_value (run, PR_SEASON_OFF), "%.2f");
  add_value (csv, pr_season_value (run, PR_SEASON_SCORE), "%.2f");
  add_value (csv, run->leftover > 0 ? run->leftover : NAN, "%.1f");
  g_string_append_printf (csv, ",%s,",
                          run->broken                  ? "broken off"
                          : run->unfinished            ? "not finished"
                          : pr_practice_is_going (run) ? "going"
                                                       : "done");
  add_text (csv, run->judge);
  g_string_append_c (csv, ',');
  add_text (csv, run->note);
  g_string_append (csv, "\r\n");
}

char *
pr_season_csv (const GPtrArray *runs)
{
  GString *csv
      = g_string_new ("started,class,seconds,time_s,heats,heats_allowed,off_mm,score,leftover_mm,state,judge,"
                      "note\r\n");

  for (guint i = 0; i < runs->len; i++)
    add_run (csv, runs->pdata[i]);
  return g_string_free (csv, FALSE);
}
