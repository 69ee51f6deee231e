/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen.h"

void
pr_seen_ring_set (PrSeenRing *ring, const PrSheetPt *p, size_t n)
{
  PrSheetPt *copy = n > 0 ? g_memdup2 (p, n * sizeof *p) : NULL;

  g_free (ring->p);
  *ring = (PrSeenRing){ copy, n };
}

void
pr_seen_clear (PrSeen *seen)
{
  g_free (seen->outer.p);
  g_free (seen->inner.p);
  for (size_t i = 0; i < seen->n_opening; i++)
    g_free (seen->opening[i].p);
  g_free (seen->opening);
  g_free (seen->nail);
  for (size_t i = 0; i < seen->n_doubt; i++)
    g_free (seen->doubt[i].why);
  g_free (seen->doubt);
  *seen = (PrSeen){ 0 };
}

void
pr_seen_copy (PrSeen *to, const PrSeen *from)
{
  *to = *from;
  to->outer = to->inner = (PrSeenRing){ 0 };
  pr_seen_ring_set (&to->outer, from->outer.p, from->outer.n);
  pr_seen_ring_set (&to->inner, from->inner.p, from->inner.n);
  to->opening = g_new0 (PrSeenRing, from->n_opening);
  for (size_t i = 0; i < from->n_opening; i++)
    pr_seen_ring_set (&to->opening[i], from->opening[i].p, from->opening[i].n);
  to->nail = g_memdup2 (from->nail, from->n_nail * sizeof *from->nail);
  to->doubt = g_memdup2 (from->doubt, from->n_doubt * sizeof *from->doubt);
  for (size_t i = 0; i < from->n_doubt; i++)
    to->doubt[i].why = g_strdup (from->doubt[i].why);
}

void
pr_seen_add_doubt (PrSeen *seen, PrSeenEdge edge, size_t opening, double from_mm, double to_mm, char *why)
{
  seen->doubt = g_renew (PrSeenDoubt, seen->doubt, seen->n_doubt + 1);
  seen->doubt[seen->n_doubt++] = (PrSeenDoubt){ edge, opening, from_mm, to_mm, why };
}

void
pr_seen_add_nail (PrSeen *seen, PrSheetPt at, double round)
{
  seen->nail = g_renew (PrSeenNail, seen->nail, seen->n_nail + 1);
  seen->nail[seen->n_nail++] = (PrSeenNail){ at, round };
}
