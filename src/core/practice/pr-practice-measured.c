/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-measured.h"

#include <math.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-json.h"

#define MOST_MARK 10.0
#define MARK_TO_FIX 5.0

/* The larger of *MOST and the amount of VALUE, where that can be. */
static void
at_least (double *most, double value)
{
  if (pr_bound_holds (PR_BOUND_OFF, fabs (value)))
    *most = fmax (*most, fabs (value));
}

static void
read_edges (double *most, JsonObject *summary)
{
  static const char *const edges[] = { "outer", "inner" };
  double p95;

  for (size_t i = 0; i < G_N_ELEMENTS (edges); i++)
    if (pr_json_number (pr_json_object (summary, edges[i]), "p95_mm", &p95))
      at_least (most, p95);
}

/* The largest of LIST's member NAME, less its member PLANNED where that is not NULL. */
static void
read_list (double *most, JsonArray *list, const char *name, const char *planned)
{
  for (guint i = 0; list != NULL && i < json_array_get_length (list); i++) {
    JsonObject *one = pr_json_is_object (json_array_get_element (list, i));
    double value, wanted = 0;

    if (pr_json_number (one, name, &value) && (planned == NULL || pr_json_number (one, planned, &wanted)))
      at_least (most, value - wanted);
  }
}

void
pr_practice_measured_read (PrPracticeMeasured *out, const char *compared)
{
  g_autoptr (JsonNode) root = pr_json_parse (compared, strlen (compared), NULL);
  JsonObject *summary = root != NULL ? pr_json_object (pr_json_is_object (root), "summary") : NULL;
  JsonArray *heels = pr_json_array (summary, "heels");

  for (int i = 0; i < PR_N_MEASURED; i++)
    out->by[i] = -1;
  read_edges (&out->by[PR_MEASURED_SHAPE], summary);
  read_list (&out->by[PR_MEASURED_SECTION], pr_json_array (summary, "web"), "web_mm", "planned_web_mm");
  read_list (&out->by[PR_MEASURED_NAILS], pr_json_array (summary, "nails"), "off_mm", NULL);
  read_list (&out->by[PR_MEASURED_CLIPS], pr_json_array (summary, "clips"), "along_mm", NULL);
  read_list (&out->by[PR_MEASURED_HEELS], heels, "past_buttress_mm", "planned_past_buttress_mm");
}

double
pr_practice_mark (PrMeasuredBy by, double value, double fix)
{
  double lost = by == PR_MEASURED_TIME ? value / PR_PRACTICE_OVER_PER_MARK : value * MARK_TO_FIX / fix;

  return CLAMP (MOST_MARK - lost, 0, MOST_MARK);
}

/* -1: the class is free of time, or it is not over, or came to no shoe. */
static double
over_share (const PrPracticeRun *run)
{
  if (run->as->seconds == 0 || run->broken || run->unfinished || pr_practice_is_going (run))
    return -1;
  return fmax (pr_practice_seconds (run) / run->as->seconds - 1, 0);
}

void
pr_practice_fill_scores (PrPracticeRun *run, double fix)
{
  run->measured.by[PR_MEASURED_TIME] = over_share (run);
  for (guint i = 0; i < run->scores->len; i++) {
    PrPracticeScore *score = &g_array_index (run->scores, PrPracticeScore, i);
    PrMeasuredBy by = g_array_index (run->as->criteria, PrPracticeCriterion, i).by;
    double value = run->measured.by[by];

    if (score->measured)
      *score = (PrPracticeScore){ .value = -1 };
    if (score->value < 0 && by != PR_MEASURED_NOT && value >= 0)
      *score = (PrPracticeScore){ pr_practice_mark (by, value, fix), true };
  }
}
