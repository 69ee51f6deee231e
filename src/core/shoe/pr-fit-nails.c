/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-fit-nails.h"

#include <string.h>

#include "pr-fit-wanted.h"
#include "pr-limits.h"

#define PLACE_STEPS 200 /* of a branch, when a place is looked for: 1 mm, and linear between */
/* The fit keeps further off a limit than the limit asks, so that a hand's small move brings no finding. */
#define CLEAR_MM 0.3
#define CLEAR_TOE_MM 0.2 /* and more beside a clip at the toe, where the edge bends most */
#define FIRST_PLACE 0.21 /* where the first nail stands when nothing else tells: common practice, no source */
#define SET_BACK_MM 0.8  /* an edge set back by less is no matter to a nail */
#define FIRST_OF_SPACE 0.6 /* the two first nails stand at least so much of the space from the toe's middle */
#define CLOSEST 0.75       /* nails are laid closer than the space asked for down to this share of it */
#define LAST_GIVES_MM 0.5  /* the last stands so much further back sooner than nails closer still */
#define NEARLY 0.9         /* or to this, only to keep clear of a toe that is rolled or set back */
#define BOW_STEPS 12       /* of the line, looked at for the rim */
#define RIM_MM \
  0.14 /* the rim is laid so much wider: an edge that bends brings the crease nearer than its inset */
/* Between nails the bowed line may eat into that and into the limit's slack: sooner than leave a nail inside the white line. */
#define RIM_GIVES_MM 0.17
#define OUTSIDE_MM 0.7 /* a nail's shank is aimed so far outside the white line */

/* Where nails may stand on a branch: edge lengths from the toe for the middles of their heads. */
typedef struct {
  double first, last;   /* ahead of and behind all else */
  double rather;        /* the first better not ahead of this, where the others still have their room */
  bool clip;            /* a clip stands between */
  double before, after; /* the last ahead of it, the first behind it */
} Room;

/* Place on BRANCH where the nail line passes height Y. */
static double
place_at_height (const PrPlan *plan, const PrShoe *shoe, int branch, double y)
{
  double before = 0, place = 0;

  for (int i = 0; i <= PLACE_STEPS; i++) {
    double t = (double) i / PLACE_STEPS;
    PrPt out, edge = pr_shoe_edge_at (shoe, branch, pr_shoe_place_to_edge (shoe, branch, t), NULL, &out);
    double here = pr_pt_along (edge, out, -pr_plan_inset_at (plan, branch, t)).y - y;

    if (i > 0 && before > 0 && here <= 0)
      return place + (t - place) * before / (before - here);
    before = here;
    place = t;
  }
  return 1;
}

double
pr_fit_rearmost_nail (const PrHoof *hoof)
{
  return pr_foot_is_hind (hoof->foot) ? hoof->toe.y - hoof->length * 2 / 3 : 0;
}

/* Edge length on branch B behind which a nail with its head's HALF is clear of the roll of a rolled toe, and of where a toe
 * that is set back takes the edge, and a nail with it, noticeably in. */
static double
behind_toe (const PrPlan *plan, const PrShoe *shoe, int b, double half)
{
  double place = 0, edge = 0;

  if (shoe->roll.present)
    edge = pr_shoe_place_to_edge (shoe, b,
                                  place_at_height (plan, shoe, b, shoe->roll.y - plan->nail_head_width / 2))
           + half + CLEAR_MM;
  while (pr_fit_set_back (plan, place) > SET_BACK_MM)
    place += 1.0 / PLACE_STEPS;
  return MAX (edge, pr_shoe_place_to_edge (shoe, b, place));
}

static Room
room_of (const PrPlan *plan, const PrHoof *hoof, const PrShoe *shoe, int b)
{
  Room room = { .first = FIRST_OF_SPACE * plan->nail_space };
  double at = pr_shoe_place_to_edge (shoe, b, plan->nail_first[b]);
  double half = pr_shoe_edge_over (shoe, b, at, plan->nail_inset[b], plan->nail_head_length) / 2;
  double clear = pr_limit ("nail.clip")->look + CLEAR_MM + half;

  room.last = pr_shoe_place_to_edge (shoe, b, place_at_height (plan, shoe, b, pr_fit_rearmost_nail (hoof)));
  room.rather = behind_toe (plan, shoe, b, half);
  if (shoe->ext.present)
    room.first
        = MAX (room.first, shoe->ext.line_edge[b] + pr_limit ("nail.extension")->look + CLEAR_MM + half);
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];
    double sign = clip->branch == b ? 1 : -1, from = sign * clip->edge - clip->base / 2,
           to = sign * clip->edge + clip->base / 2;

    if (from < 0)
      clear += CLEAR_TOE_MM;
    if (from - clear < room.first)
      room.first = MAX (room.first, to + clear);
    else if (to + clear < room.last && !room.clip) {
      room.clip = true;
      room.before = from - clear;
      room.after = to + clear;
    }
  }
  return room;
}

/* N nails with AHEAD of them ahead of the clip, SPACE apart: their edge lengths into AT. Returns by how much they do not
 * fit, mm. */
static double
lay (const Room *room, int n, int ahead, double space, double *at)
{
  double over = 0;

  for (int i = 0; i < n; i++)
    at[i] = i < ahead ? room->before - (ahead - 1 - i) * space : room->after + (i - ahead) * space;
  if (ahead > 0)
    over += MAX (0, room->first - at[0]);
  if (ahead < n)
    over += MAX (0, at[n - 1] - room->last);
  return over;
}

/* Round a clip: one nail ahead of it where that fits, else as many as do; closer where nothing does. */
static void
lay_round_clip (const Room *room, int n, double space, double *at)
{
  double best = INFINITY, trial[PR_MAX_NAILS];

  for (int step = 0; step <= 4 && best > 0; step++)
    for (int k = 0; k <= n; k++) {
      int ahead = (k + 1) % (n + 1); /* 1, 2, ... n, 0 */
      double over = lay (room, n, ahead, space * (1 - (1 - CLOSEST) * step / 4), trial);

      if (over < best) {
        best = over;
        memcpy (at, trial, sizeof trial);
      }
    }
}

static void
lay_in_a_row (const Room *room, const PrShoe *shoe, int b, int n, double space, double *at)
{
  double span = (n - 1) * space, first = pr_shoe_place_to_edge (shoe, b, FIRST_PLACE);

  first = MAX (MIN (first, room->last - span), MIN (room->rather, room->last - NEARLY * span));
  first = MAX (room->first, first);
  if (n > 1)
    space = MIN (space, MAX (CLOSEST * space, (room->last + LAST_GIVES_MM - first) / (n - 1)));
  for (int i = 0; i < n; i++)
    at[i] = first + i * space;
}

void
pr_fit_lay_nails (PrPlan *plan, const PrHoof *hoof, const PrShoe *shoe, int b)
{
  Room room = room_of (plan, hoof, shoe, b);
  double at[PR_MAX_NAILS] = { 0 };
  int n = plan->nails[b];

  if (n < 1)
    return;
  double from = room.clip ? room.after : room.first, middle = from + plan->nail_space / 2;
  double inset = pr_plan_inset_at (plan, b, pr_shoe_edge_to_place (shoe, b, middle));
  double step = pr_shoe_edge_over (shoe, b, middle, inset, plan->nail_space);

  if (room.clip)
    lay_round_clip (&room, n, step, at);
  else
    lay_in_a_row (&room, shoe, b, n, step, at);
  plan->nail_first[b] = pr_shoe_edge_to_place (shoe, b, MAX (0, at[0]));
  plan->nail_last[b] = pr_shoe_edge_to_place (shoe, b, at[n - 1]);
  for (int i = 0; i < PR_MAX_NAILS; i++)
    plan->nail_shift[b][i] = i > 0 && i < n - 1 ? at[i] - (at[0] + (at[n - 1] - at[0]) * i / (n - 1)) : 0;
}

/* The least inset that leaves the rim outside the crease, and does not let the nail split the edge. */
static double
inset_rim (const PrPlan *plan, const PrHoof *hoof)
{
  double rim = pr_limit_share ("crease.rim", hoof->width).look + RIM_MM + plan->crease_width / 2;

  return MAX (pr_limit ("nail.inset.least")->mend, rim);
}

/* Where the rules want the nail line at PLACE: the shank's inner face, where it comes out on the foot surface, a little
 * outside the white line; but never so near the edge that the rim gets too thin. */
static double
inset_at (const PrPlan *plan, const PrHoof *hoof, int b, double place)
{
  double white = pr_fit_wanted (plan, b, place) + pr_hoof_wall (hoof, place);
  double pitched = plan->thick_toe * tan (plan->nail_pitch);

  return MAX (inset_rim (plan, hoof), white - plan->nail_shank / 2 - OUTSIDE_MM - pitched);
}

/* Between first nail and last the wall thins faster towards the toe, so the line bows outward until no nail between them
 * stands too far in, as far as the rim lets it. */
void
pr_fit_insets (PrPlan *plan, const PrHoof *hoof, int b)
{
  double from = plan->nail_first[b], to = plan->nail_last[b], rim = inset_rim (plan, hoof), bow = 0,
         most = INFINITY;
  double first = inset_at (plan, hoof, b, from), last = inset_at (plan, hoof, b, to);

  for (int i = 1; i < BOW_STEPS; i++) {
    double t = (double) i / BOW_STEPS;

    most = MIN (most, (first + (last - first) * t - (rim - RIM_GIVES_MM)) / (4 * t * (1 - t)));
  }
  for (int i = 1; i + 1 < plan->nails[b]; i++) {
    double t = (double) i / (plan->nails[b] - 1), line = first + (last - first) * t;

    bow = MAX (bow, (line - inset_at (plan, hoof, b, from + (to - from) * t)) / (4 * t * (1 - t)));
  }
  plan->nail_inset[b] = first;
  plan->nail_inset_last[b] = last;
  plan->nail_bow[b] = CLAMP (bow, 0, MAX (0, most));
}
