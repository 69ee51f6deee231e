/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage-way.h"

#include <string.h>

#include "pr-stage-data.h"

#define LEAST_S 0.1 /* a step that takes no time has its turn all the same */

/* The fields that a step brings forward. */
typedef struct {
  double *of[2]; /* NULL: no more */
  bool first;    /* the first such step does all of it */
} Does;

/* "clip.2": the second of the plan. */
static double *
clip_of (const PrStep *step, PrStageProgress *p)
{
  guint64 nr = g_ascii_strtoull (step->id + strlen ("clip."), NULL, 10);

  return nr >= 1 && nr <= PR_MAX_CLIPS ? &p->clipped[nr - 1] : NULL;
}

/* What of P a step of BRANCH brings forward. */
static Does
does_to_branch (const PrStep *step, PrStageProgress *p)
{
  int b = step->branch;

  switch (step->kind) {
  case PR_STEP_DRAW:
    return (Does){ { &p->drawn[b] } };
  case PR_STEP_TURN:
    return (Does){ { &p->turned[b] } };
  case PR_STEP_TURN_HEEL:
    return (Does){ { &p->turned_in[b] } };
  case PR_STEP_CREASE:
    return (Does){ { &p->creased[b] } };
  case PR_STEP_PUNCH:
    return (Does){ { &p->punched[b] } };
  case PR_STEP_BOX:
  case PR_STEP_SEAT:
    return (Does){ { &p->bevelled[b] } };
  default:
    return (Does){ { NULL } };
  }
}

/* What of P any other brings forward. */
static Does
does_to_all (const PrStep *step, PrStageProgress *p)
{
  bool extension = step->zone == PR_ZONE_EXTENSION, toe = step->zone == PR_ZONE_TOE;

  switch (step->kind) {
  case PR_STEP_SCARF:
    return (Does){ { toe ? &p->scarfed : NULL } };
  case PR_STEP_DRAW:
    return (Does){ { &p->drawn_toe } };
  case PR_STEP_TURN:
    return (Does){ { &p->turned_toe } };
  case PR_STEP_WELD:
    return (Does){ { extension ? &p->laid : &p->bar }, true };
  case PR_STEP_CLOSE:
  case PR_STEP_DRESS:
    return (Does){ { extension ? &p->extension : NULL } };
  case PR_STEP_EXTEND:
    return (Does){ { &p->extension } };
  case PR_STEP_TOE:
    return (Does){ { &p->rolled } };
  case PR_STEP_HEELS:
    return (Does){ { &p->heels[0], &p->heels[1] } };
  default:
    return (Does){ { NULL } };
  }
}

static Does
does (const PrStep *step, PrStageProgress *p)
{
  if (step->kind == PR_STEP_CLIP)
    return (Does){ { clip_of (step, p) } };
  return step->branch >= 0 ? does_to_branch (step, p) : does_to_all (step, p);
}

static guint
n_heats (const PrHeats *heats)
{
  return heats->heats->len;
}

static const PrStep *
step_of (const PrHeats *heats, guint i)
{
  return &g_array_index (heats->steps, PrStep, i);
}

static double
seconds_of (const PrStep *step)
{
  return MAX (step->seconds, LEAST_S);
}

static double
heat_seconds (const PrHeats *heats, const PrHeat *heat)
{
  double sum = 0;

  for (guint i = 0; i < heat->n; i++)
    sum += seconds_of (step_of (heats, heat->first + i));
  return sum;
}

/* How much of step NR is done at T. */
static double
share_done (const PrHeats *heats, guint nr, double t)
{
  for (guint h = 0; h < n_heats (heats); h++) {
    const PrHeat *heat = &g_array_index (heats->heats, PrHeat, h);
    double before = 0;

    if (nr < heat->first || nr >= heat->first + heat->n)
      continue;
    for (guint i = heat->first; i < nr; i++)
      before += seconds_of (step_of (heats, i));
    double at = CLAMP (t - h, 0, 1) * heat_seconds (heats, heat);
    return CLAMP ((at - before) / seconds_of (step_of (heats, nr)), 0, 1);
  }
  return nr < g_array_index (heats->heats, PrHeat, 0).first ? 1 : 0;
}

static void
add_up (const PrHeats *heats, double t, PrStageProgress *done, PrStageProgress *whole)
{
  for (guint i = 0; i < heats->steps->len; i++) {
    const PrStep *step = step_of (heats, i);
    double seconds = seconds_of (step), share = share_done (heats, i, t);
    Does d = does (step, done), w = does (step, whole);

    for (int k = 0; k < 2 && d.of[k]; k++) {
      if (d.first && *w.of[k] > 0)
        continue;
      *d.of[k] += seconds * share;
      *w.of[k] += seconds;
    }
  }
}

static void
follow (double *field, double other)
{
  if (isnan (*field))
    *field = other;
}

/* What no step does. */
static void
come_along (PrStageProgress *p)
{
  follow (&p->turned_toe, 1);
  follow (&p->drawn_toe, p->turned_toe);
  for (int b = 0; b < 2; b++) {
    follow (&p->turned[b], p->turned_toe);
    follow (&p->drawn[b], p->turned[b]);
    follow (&p->heels[b], p->turned[b]);
    follow (&p->creased[b], p->turned[b]);
    follow (&p->punched[b], p->turned[b]);
    follow (&p->bevelled[b], p->turned[b]);
    follow (&p->turned_in[b], p->heels[b]);
  }
  follow (&p->extension, p->turned_toe);
  follow (&p->laid, p->extension);
  follow (&p->scarfed, p->laid);
  follow (&p->rolled, p->turned_toe);
  for (int i = 0; i < PR_MAX_CLIPS; i++)
    follow (&p->clipped[i], p->turned_toe);
  follow (&p->bar, MIN (p->heels[0], p->heels[1]));
}

PrStageProgress
pr_stage_progress_at (const PrHeats *heats, double t)
{
  PrStageProgress done = { 0 }, whole = { 0 };

  if (n_heats (heats) == 0 || t >= n_heats (heats))
    return pr_stage_finished;
  add_up (heats, t, &done, &whole);
  double *of = pr_stage_progress_fields (&done), *all = pr_stage_progress_fields (&whole);
  for (size_t i = 0; i < PR_STAGE_FIELDS; i++)
    of[i] = all[i] > 0 ? MIN (of[i] / all[i], 1) : NAN;
  come_along (&done);
  return done;
}

int
pr_stage_step_at (const PrHeats *heats, double t)
{
  guint h = t > 0 ? (guint) t : 0;

  if (!(t > 0) || h >= n_heats (heats))
    return -1;
  const PrHeat *heat = &g_array_index (heats->heats, PrHeat, h);
  guint nr = heat->first;

  while (nr + 1 < heat->first + heat->n && share_done (heats, nr, t) >= 1)
    nr++;
  return (int) nr;
}

unsigned
pr_stage_hot_at (const PrHeats *heats, double t)
{
  static const unsigned parts[PR_N_ZONES] = {
    [PR_ZONE_TOE] = PR_PART_TOE,
    [PR_ZONE_MEDIAL] = PR_PART_MEDIAL | PR_PART_HEEL_M,
    [PR_ZONE_LATERAL] = PR_PART_LATERAL | PR_PART_HEEL_L,
    [PR_ZONE_HEELS] = PR_PART_HEEL_M | PR_PART_HEEL_L,
    [PR_ZONE_EXTENSION] = PR_PART_TOE | PR_PART_EXTENSION,
    [PR_ZONE_BAR] = PR_PART_HEEL_M | PR_PART_HEEL_L | PR_PART_BAR,
  };
  int nr = pr_stage_step_at (heats, t);

  return nr >= 0 ? parts[step_of (heats, (guint) nr)->zone] : 0;
}
