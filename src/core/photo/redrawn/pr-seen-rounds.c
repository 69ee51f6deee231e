/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-rounds.h"

#include <math.h>

void
pr_seen_round_clear (PrSeenRound *round)
{
  pr_path_clear (&round->ring);
  pr_path_clear (&round->shown);
  g_free (round->doubt);
  *round = (PrSeenRound){ 0 };
}

PrSeenIron
pr_seen_iron (const PrSeen *seen, bool hole, PrPose *pose)
{
  bool high = seen->camera_mm > 0 && seen->thickness_mm > 0;

  *pose = (PrPose){ .foot = seen->camera_at, .height = high ? seen->camera_mm : INFINITY };
  return (PrSeenIron){ .pose = pose, .thick = high ? seen->thickness_mm : 0, .hole = hole };
}

/* --- from what was seen --- */

/* An edge is one of SEEN's, or a stretch of a round: from a point of it on so many points. */
typedef struct {
  PrSeenEdge edge;
  size_t opening, from, n;
} Stretch;

static bool
is_of (const PrSeenDoubt *doubt, const Stretch *s)
{
  return doubt->edge == s->edge && (s->edge == PR_SEEN_OUTER || doubt->opening == s->opening);
}

static bool
covers (const PrSeenDoubt *d, double at)
{
  return d->from_mm <= d->to_mm ? at >= d->from_mm && at <= d->to_mm : at >= d->from_mm || at <= d->to_mm;
}

static int
doubt_at (const PrSeen *seen, const Stretch *s, double at)
{
  for (size_t i = 0; i < seen->n_doubt; i++)
    if (is_of (&seen->doubt[i], s) && covers (&seen->doubt[i], at))
      return (int) i;
  return -1;
}

static void
mark_doubts (PrSeenRound *round, const PrSeen *seen, const Stretch *s)
{
  double at = 0;

  for (size_t k = 0; k < s->n; k++) {
    size_t i = (s->from + k) % round->ring.n, before = (i + round->ring.n - 1) % round->ring.n;
    at += k > 0 ? pr_pt_dist (round->ring.p[before], round->ring.p[i]) : 0;
    int doubt = doubt_at (seen, s, at);
    round->doubt[i] = doubt >= 0 ? doubt : round->doubt[i];
  }
}

static void
add_points (PrPath *path, const PrSeenRing *ring, size_t from, size_t to)
{
  for (size_t i = from; i < to; i++)
    pr_path_add (path, pr_pt (ring->p[i].x, ring->p[i].y));
}

/* The edges that ROUND is made of; how many. */
static size_t
stretches (const PrSeenRound *round, bool open, size_t which, Stretch s[2])
{
  size_t n = round->ring.n, outer = (round->heel[1] + n - round->heel[0]) % n;

  if (!open || which > 0) {
    s[0] = (Stretch){ which > 0 ? PR_SEEN_INNER : PR_SEEN_OUTER, which > 0 ? which - 1 : 0, 0, n };
    return 1;
  }
  s[0] = (Stretch){ PR_SEEN_OUTER, 0, round->heel[0], outer + 1 };
  s[1] = (Stretch){ PR_SEEN_INNER, PR_SEEN_OPEN, round->heel[1], n - outer + 1 };
  return 2;
}

static void
show (PrSeenRound *round, const PrSeen *seen)
{
  PrPose pose;
  PrSeenIron iron = pr_seen_iron (seen, round->hole, &pose);
  g_autofree PrPt *normal = pr_seen_edge_normals (&round->ring, round->hole);

  for (size_t i = 0; i < round->ring.n; i++) {
    PrPt p = round->ring.p[i];
    bool upper = iron.thick > 0 && pr_seen_edge_shift (&iron, p, normal[i]) > 0;
    PrSheetPt at = pr_pose_show (&pose, (PrSheetPt){ p.x, p.y }, upper ? pr_seen_edge_height (&iron) : 0);
    pr_path_add (&round->shown, pr_pt (at.x, at.y));
  }
}

static PrSeenRound
round_of (const PrSeen *seen, size_t which)
{
  PrSeenRound round = { .hole = which > 0 };
  Stretch s[2];

  if (which > 0)
    add_points (&round.ring, &seen->opening[which - 1], 0, seen->opening[which - 1].n);
  else
    add_points (&round.ring, &seen->outer, 0, seen->outer.n);
  if (which == 0 && seen->open && seen->inner.n > 2) { /* its ends are the outer edge's */
    round.heel[1] = seen->outer.n - 1;
    add_points (&round.ring, &seen->inner, 1, seen->inner.n - 1);
  }
  round.doubt = g_new (int, round.ring.n);
  for (size_t i = 0; i < round.ring.n; i++)
    round.doubt[i] = -1;
  size_t n = stretches (&round, seen->open, which, s);
  for (size_t i = 0; i < n; i++)
    mark_doubts (&round, seen, &s[i]);
  show (&round, seen);
  return round;
}

GArray *
pr_seen_rounds (const PrSeen *seen)
{
  GArray *rounds = g_array_new (FALSE, FALSE, sizeof (PrSeenRound));

  g_array_set_clear_func (rounds, (GDestroyNotify) pr_seen_round_clear);
  for (size_t i = 0; i <= seen->n_opening; i++) {
    PrSeenRound round = round_of (seen, i);
    g_array_append_val (rounds, round);
  }
  return rounds;
}

/* --- and back --- */

static void
put_points (PrSeen *seen, const PrSeenRound *round, const Stretch *s)
{
  PrSeenRing *to = s->edge == PR_SEEN_OUTER     ? &seen->outer
                   : s->opening == PR_SEEN_OPEN ? &seen->inner
                                                : &seen->opening[s->opening];
  g_autofree PrSheetPt *p = g_new (PrSheetPt, s->n);

  for (size_t k = 0; k < s->n; k++) {
    PrPt at = round->ring.p[(s->from + k) % round->ring.n];
    p[k] = (PrSheetPt){ at.x, at.y };
  }
  pr_seen_ring_set (to, p, s->n);
}

/* The points of a stretch that are in one doubt, one after the other, are in it from half a step before to half a step after. */
static void
put_doubts (PrSeen *seen, const PrSeenRound *round, const Stretch *s, char *const *why)
{
  double at = 0, from = 0, last = 0;
  int now = -1;

  for (size_t k = 0; k <= s->n; k++) {
    size_t i = (s->from + k) % round->ring.n, before = (i + round->ring.n - 1) % round->ring.n;
    double step = k > 0 && k < s->n ? pr_pt_dist (round->ring.p[before], round->ring.p[i]) : 0;
    int doubt = k < s->n ? round->doubt[i] : -1;

    at += step;
    if (doubt != now) {
      if (now >= 0)
        pr_seen_add_doubt (seen, s->edge, s->opening, from, last + step / 2, g_strdup (why[now]));
      from = at - step / 2;
      now = doubt;
    }
    last = at;
  }
}

static bool
is_any_of (const PrSeenDoubt *doubt, const Stretch *s, size_t n)
{
  return is_of (doubt, &s[0]) || (n > 1 && is_of (doubt, &s[1]));
}

/* Those of the stretches go; all the sentences there were are handed out, so that what points into them stays good. */
static char **
drop_doubts (PrSeen *seen, const Stretch *s, size_t n)
{
  char **why = g_new0 (char *, seen->n_doubt + 1);
  size_t left = 0, all = seen->n_doubt;

  for (size_t i = 0; i < all; i++)
    why[i] = g_strdup (seen->doubt[i].why);
  for (size_t i = 0; i < all; i++)
    if (is_any_of (&seen->doubt[i], s, n))
      g_free (seen->doubt[i].why);
    else
      seen->doubt[left++] = seen->doubt[i];
  seen->n_doubt = left;
  return why;
}

void
pr_seen_put_round (PrSeen *seen, size_t which, const PrSeenRound *round)
{
  Stretch s[2];
  size_t n = stretches (round, seen->open, which, s);
  g_auto (GStrv) why = drop_doubts (seen, s, n);

  for (size_t i = 0; i < n; i++) {
    put_points (seen, round, &s[i]);
    put_doubts (seen, round, &s[i], why);
  }
}
