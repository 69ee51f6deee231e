/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-doubts.h"

#include <glib/gi18n-lib.h>

/* Stretches that are nearer than this are one; a shorter one is none, mm. */
#define JOIN_MM 4.0
#define LEAST_MM 1.5
/* A doubt is told this far beyond what it was seen on, mm. */
#define MARGIN_MM 1.0

static char *
why_of (PrSeenTrust trust)
{
  switch (trust) {
  case PR_SEEN_GLARE:
    return g_strdup (_ ("a reflection on the iron, as bright as the paper beside it"));
  case PR_SEEN_CLIP:
    return g_strdup (
        _ ("a clip may stand up here; it leans away from the camera and hides the edge behind it"));
  case PR_SEEN_RIVAL:
    return g_strdup (_ ("two edges side by side: the iron's, and a shadow's or a crease's"));
  case PR_SEEN_WEAK:
  case PR_SEEN_SURE:
  default:
    return g_strdup (_ ("iron and paper, or its shadow, can hardly be told apart here"));
  }
}

typedef struct {
  double from, to;
  size_t count[PR_SEEN_CLIP + 1];
} Stretch;

static PrSeenTrust
main_reason (const Stretch *s)
{
  PrSeenTrust best = PR_SEEN_WEAK;

  for (PrSeenTrust t = PR_SEEN_WEAK; t <= PR_SEEN_CLIP; t++)
    if (s->count[t] > s->count[best])
      best = t;
  return best;
}

static void
tell (PrSeen *seen, const PrSeenFound *found, const Stretch *s, double length)
{
  if (s->to - s->from < LEAST_MM)
    return;
  pr_seen_add_doubt (seen, found->edge, found->opening, MAX (s->from - MARGIN_MM, 0),
                     MIN (s->to + MARGIN_MM, length), why_of (main_reason (s)));
}

static double
length_of (const PrSeenFound *found)
{
  return found->closed ? pr_ring_length (found->path) : pr_path_length (found->path);
}

void
pr_seen_doubts_add (PrSeen *seen, const PrSeenFound *found)
{
  Stretch now = { -1, -1, { 0 } };
  double at = 0, length = length_of (found);

  for (size_t i = 0; i < found->path->n; i++) {
    at += i > 0 ? pr_pt_dist (found->path->p[i], found->path->p[i - 1]) : 0;
    if (found->trust[i] == PR_SEEN_SURE)
      continue;
    if (now.from >= 0 && at - now.to > JOIN_MM) {
      tell (seen, found, &now, length);
      now = (Stretch){ -1, -1, { 0 } };
    }
    now.from = now.from < 0 ? at : now.from;
    now.to = at;
    now.count[found->trust[i]]++;
  }
  if (now.from >= 0)
    tell (seen, found, &now, length);
}
