/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The record of a run, the class in it and a comparison, as they come out of a book somebody else wrote: read, held against what can be,
 * reckoned with, written, and read again as the same. */
#include "fuzz-job-kit.h"

#include <math.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-practice-measured.h"
#include "pr-practice-season.h"

#define LONGEST 60000

static void
check_class (const PrPracticeClass *class)
{
  fuzz_must (class->seconds >= 0 && class->heats >= 0 && class->shoes >= 1, "a class nobody can run");
  fuzz_must (class->criteria->len <= PR_PRACTICE_MOST_CRITERIA, "criteria without end");
  for (guint i = 0; i < class->criteria->len; i++) {
    const PrPracticeCriterion *c = &g_array_index (class->criteria, PrPracticeCriterion, i);

    fuzz_must (*c->name && !pr_name_is_long (c->name), "a criterion's name that is none");
    fuzz_must (c->weight >= 0 && c->weight <= PR_PRACTICE_MOST_WEIGHT, "a weight that is none");
  }
}

static void
check_times (const PrPracticeRun *run)
{
  gint64 before = 0;

  fuzz_must (run->pressed->len <= PR_PRACTICE_MOST_PRESSED + 1, "presses without end");
  for (guint i = 0; i < run->pressed->len; i++) {
    const PrPressed *p = &g_array_index (run->pressed, PrPressed, i);

    fuzz_must ((p->kind == PR_PRESSED_START) == (i == 0), "a start that is not the first");
    fuzz_must (p->us >= before, "time that runs backwards");
    before = p->us;
  }
  fuzz_must (pr_bound_holds (PR_BOUND_MINUTES, pr_practice_seconds (run) / 60), "a time beyond its bound");
  fuzz_must (pr_practice_split (run, 0) >= -1, "a split that is none");
}

static void
check_scores (const PrPracticeRun *run)
{
  double score = pr_practice_score (run, NULL);

  fuzz_must (run->scores->len == run->as->criteria->len, "scores without their criteria");
  fuzz_must (score == -1 || (score >= 0 && score <= 10 + 1e-9), "a score that is none");
}

static void
use_run (PrPracticeRun *run)
{
  g_autoptr (GPtrArray) runs = g_ptr_array_new ();
  PrPracticeMoment now = { .mono = 1, .boot = 1, .wall = 1764511509000000, .start = "now" };

  g_ptr_array_add (runs, run);
  for (PrSeasonKind kind = 0; kind < PR_N_SEASON; kind++)
    fuzz_must (isfinite (pr_season_figure (runs, kind).usual), "a season that is no number");
  g_free (pr_season_csv (runs));
  fuzz_must (pr_practice_us (run, &now) >= 0, "a time before the start");
  pr_practice_fill_scores (run, 3.0);
  check_scores (run);
  pr_practice_press (run, PR_PRESSED_STOP, &now);
  check_times (run);
}

static void
use_text (const char *text)
{
  PrPracticeMeasured measured = { 0 };

  pr_practice_measured_read (&measured, text);
  for (int i = 0; i < PR_N_MEASURED; i++)
    fuzz_must (measured.by[i] == -1 || pr_bound_holds (PR_BOUND_OFF, measured.by[i]),
               "measured beyond its bound");
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *text = size > 0 && size <= LONGEST ? g_strndup ((const char *) data, size) : g_strdup ("");
  g_autoptr (PrPracticeRun) run = pr_practice_run_read (text, NULL);

  use_text (text);
  if (run == NULL)
    return 0;
  check_class (run->as);
  check_times (run);
  check_scores (run);
  g_autofree char *once = pr_practice_run_text (run);
  g_autoptr (PrPracticeRun) again = pr_practice_run_read (once, NULL);
  fuzz_must (again != NULL, "what was written cannot be read");
  g_autofree char *twice = pr_practice_run_text (again);
  fuzz_must (strcmp (once, twice) == 0, "read as another than was written");
  use_run (run);
  return 0;
}

void
fuzz_seeds (GPtrArray *seeds)
{
  g_autoptr (GPtrArray) shipped = pr_practice_shipped ();

  for (guint i = 0; i < shipped->len; i++) {
    g_autoptr (PrPracticeRun) run = pr_practice_run_new (shipped->pdata[i]);

    for (guint n = 0; n < 12; n++) {
      PrPracticeMoment at
          = { .mono = 40000000 * n, .boot = 50000000 * n, .wall = 1764511509000000 + 50000000 * n };

      g_strlcpy (at.start, "8e4b7c1e-0000-4000-8000-5f2a6c3d1b90", sizeof at.start);
      pr_practice_press (run,
                         n == 0    ? PR_PRESSED_START
                         : n == 11 ? PR_PRESSED_STOP
                         : n % 3   ? PR_PRESSED_HEAT
                                   : PR_PRESSED_STEP,
                         &at);
    }
    g_ptr_array_add (run->steps, g_strdup ("Cut the bar."));
    run->measured = (PrPracticeMeasured){ .attempt = 3, .off = 1.5, .by = { -1, 1, 2, 0.5, -1, 3, 0.1 } };
    g_array_index (run->scores, PrPracticeScore, 0) = (PrPracticeScore){ 7.5, false };
    g_array_index (run->scores, PrPracticeScore, 1) = (PrPracticeScore){ 5, true };
    g_autofree char *text = pr_practice_run_text (run);
    fuzz_seed_text (seeds, text);
  }
  fuzz_seed_text (seeds, "{\"summary\":{\"outer\":{\"p95_mm\":1.2},\"heels\":[{\"past_buttress_mm\":3,"
                         "\"planned_past_buttress_mm\":5}],"
                         "\"web\":[{\"web_mm\":22.5,\"planned_web_mm\":22}],\"nails\":[{\"off_mm\":0.5}],"
                         "\"clips\":[{\"along_mm\":-1}]}}");
}
