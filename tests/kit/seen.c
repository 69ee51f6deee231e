/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "seen.h"

void
kit_seen (const PrJob *job, PrFace face, double angle, double x, double y, PrPt (*move) (PrPt), PrSeen *seen)
{
  const PrPath *ring = &job->shoe->figure.ring[0];
  double sign = pr_lateral_sign (job->sources.foot, face), s[2];
  g_auto (PrPath) closed = { 0 };
  g_autoptr (GArray) part = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));

  pr_path_copy (&closed, ring);
  pr_path_add (&closed, ring->p[0]);
  double length = pr_path_length (&closed);
  for (int b = 0; b < 2; b++)
    pr_path_nearest (&closed, job->shoe->heel_outer[b], &s[b], NULL);
  *seen = (PrSeen){ .face = face, .thickness_mm = 10, .open = true };
  /* counter-clockwise from the lateral heel over the toe to the medial one, and back */
  for (int edge = 0; edge < 2; edge++) {
    double from = s[edge ? PR_MEDIAL : PR_LATERAL], to = s[edge ? PR_LATERAL : PR_MEDIAL];

    if (to < from)
      to += length;
    g_array_set_size (part, 0);
    for (double at = from; at < to; at += 0.7) {
      PrPt p = pr_path_at (&closed, fmod (at, length), NULL);

      p = move ? move (p) : p;
      p = pr_pt (sign * p.x, -p.y);
      PrSheetPt q = { cos (angle) * p.x - sin (angle) * p.y + x, sin (angle) * p.x + cos (angle) * p.y + y };
      g_array_append_val (part, q);
    }
    pr_seen_ring_set (edge ? &seen->inner : &seen->outer, (PrSheetPt *) (void *) part->data, part->len);
  }
}
