/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage-parts.h"

#include <string.h>

#include "pr-fillet.h"
#include "pr-shoe-places.h"

#define READY_MM 12.0 /* a piece that is not yet joined lies so far from the finished shoe */
#define SIDES 16      /* of the edge an extension lies against */
#define EDGE 64       /* of either edge of a bar: a heart's has a plate in it ... */
#define HALF (EDGE / 2)
#define OWN_FROM 0.7 /* of the way in */

/* A straight piece of the bar in hand, its middle at AT, lying across. */
typedef struct {
  PrPt at;
  double length, width;
} Straight;

static PrPt
straight_at (const Straight *piece, double along, double ahead)
{
  return pr_pt_add (piece->at, pr_pt ((along - 0.5) * piece->length, (ahead - 0.5) * piece->width));
}

static PrStagePart *
add_part (PrStage *stage, const char *id, unsigned which, double volume)
{
  PrStagePart *part = &stage->part[stage->n_parts++];

  part->id = id;
  part->part = which;
  part->volume = volume;
  pr_path_empty (&part->ring);
  return part;
}

static void
close_part (PrStagePart *part)
{
  part->thick = part->volume / MAX (fabs (pr_ring_area (&part->ring)), 1e-9);
}

static const PrPiece *
piece_of (const PrIron *iron, const char *id)
{
  for (size_t i = 0; i < iron->n_pieces; i++)
    if (strcmp (iron->piece[i].id, id) == 0)
      return &iron->piece[i];
  return NULL;
}

static Straight
straight_of (const PrPlan *plan, double volume, PrPt at)
{
  return (Straight){ at, volume / (plan->stock_width * plan->stock_thick), plan->stock_width };
}

/* --- extension ----------------------------------------------------------------------------- */

#define POINTS (SIDES + 1)

/* An extension's two edges, lateral to medial: along the toe, and its front. */
typedef struct {
  PrPt rear[POINTS], front[POINTS];
} Plate;

/* Joined to the stage's edge. */
static void
joined_plate (const PrStage *stage, const PrShoe *shoe, Plate *plate)
{
  const PrExtension *ext = &shoe->ext;

  for (int i = 0; i < POINTS; i++) {
    double t = (double) i / SIDES;
    double edge = ext->line_edge[PR_LATERAL] * (1 - t) - ext->line_edge[PR_MEDIAL] * t;

    plate->rear[i] = pr_stage_at (stage, shoe, pr_shoe_edge_to_s (shoe, PR_LATERAL, edge), 0, NULL);
  }
  PrPt medial = pr_pt_add (ext->corner[1], pr_pt_sub (plate->rear[SIDES], ext->line[PR_MEDIAL]));
  PrPt lateral = pr_pt_add (ext->corner[2], pr_pt_sub (plate->rear[0], ext->line[PR_LATERAL]));
  for (int i = 0; i < POINTS; i++)
    plate->front[i] = pr_pt_lerp (lateral, medial, (double) i / SIDES);
}

/* JOINED as it is after DONE of the way from a straight piece, or (NULL) out of the edge itself. */
static void
part_way (const Plate *joined, const Straight *ready, double done, Plate *plate)
{
  for (int i = 0; i < POINTS; i++) {
    double along = 1 - (double) i / SIDES;
    PrPt rear = ready ? straight_at (ready, along, 0) : joined->rear[i];
    PrPt front = ready ? straight_at (ready, along, 1) : joined->rear[i];

    plate->rear[i] = pr_pt_lerp (rear, joined->rear[i], done);
    plate->front[i] = pr_pt_lerp (front, joined->front[i], done);
  }
}

/* The front of PLATE onto RING, medial to lateral, its corners rounded by R. */
static void
add_front (PrPath *ring, const Plate *plate, double r)
{
  const PrPt *f = plate->front;
  double side = MIN (pr_pt_dist (f[0], plate->rear[0]), pr_pt_dist (f[SIDES], plate->rear[SIDES]));
  double room = MIN (side, pr_pt_dist (f[0], f[SIDES])) / 2;
  int skip = 1;

  while (skip < SIDES / 2 && pr_pt_dist (f[0], f[skip]) <= MIN (r, room))
    skip++;
  PrPt up[2] = { pr_pt_unit (pr_pt_sub (plate->rear[SIDES], f[SIDES])),
                 pr_pt_unit (pr_pt_sub (plate->rear[0], f[0])) };
  PrPt on[2] = { pr_pt_unit (pr_pt_sub (f[SIDES - skip], f[SIDES])), pr_pt_unit (pr_pt_sub (f[skip], f[0])) };

  pr_path_add_corner (ring, up[0], f[SIDES], on[0], r, room);
  for (int i = SIDES - skip; i >= skip; i--)
    pr_path_add (ring, f[i]);
  pr_path_add_corner (ring, on[1], f[0], up[1], r, room);
}

static void
make_extension (PrStage *stage, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron)
{
  const PrExtension *ext = &shoe->ext;
  const PrPiece *piece = piece_of (iron, "extension");
  double done = stage->progress.extension;

  if (!ext->present || (!piece && !(done > 0)))
    return;
  PrStagePart *part
      = add_part (stage, "extension", PR_PART_EXTENSION, piece ? piece->volume : done * ext->volume);
  double top = MAX (ext->corner[1].y, ext->corner[2].y);
  PrPt at = pr_pt ((ext->corner[0].x + ext->corner[3].x) / 2, top + READY_MM + plan->stock_width / 2);
  Straight ready = straight_of (plan, part->volume, at);
  Plate joined, plate;

  joined_plate (stage, shoe, &joined);
  /* laid on the toe its rear lies a lap behind the edge */
  double rear = shoe->st[shoe->toe_st].outer.y - plan->ext_lap;
  ready.at.y += stage->progress.laid * (rear + plan->stock_width / 2 - ready.at.y);
  part_way (&joined, piece ? &ready : NULL, done, &plate);
  for (int i = 0; i < POINTS; i++)
    pr_path_add (&part->ring, plate.rear[i]);
  add_front (&part->ring, &plate, plan->ext_round * done);
  close_part (part);
}

/* --- heel bar ------------------------------------------------------------------------------ */

/* A finished bar's two edges, medial to lateral, moved along with the heels. */
typedef struct {
  PrPt rear[EDGE + 1], front[EDGE + 1];
} Bar;

/* By how much the heel of branch B is elsewhere than in the finished shoe. */
static PrPt
heel_off (const PrStage *stage, const PrShoe *shoe, int b)
{
  size_t i = b == PR_LATERAL ? shoe->n_st - 1 : 0;
  const PrStageCut *cut = &stage->cut[i];

  return pr_pt_sub (pr_pt_lerp (cut->outer, cut->inner, 0.5),
                    pr_pt_lerp (shoe->st[i].outer, shoe->st[i].inner, 0.5));
}

/* RING from the point nearest to A on to the one nearest to B, in its own direction, as EDGE + 1 points evenly along it. */
static void
part_of_ring (const PrPath *ring, PrPt a, PrPt b, PrPath *room, PrPt out[EDGE + 1])
{
  size_t from = pr_path_nearest_point (ring, a), to = pr_path_nearest_point (ring, b),
         n = (to + ring->n - from) % ring->n;

  pr_path_empty (room);
  for (size_t k = 0; k <= n; k++)
    pr_path_add (room, ring->p[(from + k) % ring->n]);
  double length = pr_path_length (room);
  for (int i = 0; i <= EDGE; i++)
    out[i] = room->n > 1 ? pr_path_at (room, length * i / EDGE, NULL) : ring->p[from];
}

static void
move_with_heels (const PrStage *stage, const PrShoe *shoe, PrPt p[EDGE + 1])
{
  PrPt off[2] = { heel_off (stage, shoe, PR_MEDIAL), heel_off (stage, shoe, PR_LATERAL) };

  for (int i = 0; i <= EDGE; i++)
    p[i] = pr_pt_add (p[i], pr_pt_lerp (off[PR_MEDIAL], off[PR_LATERAL], (double) i / EDGE));
}

/* The outer ring runs behind from the medial to the lateral side, the opening's the other way. */
static void
make_edges (PrStage *stage, const PrPlan *plan, const PrShoe *shoe, Bar *bar)
{
  PrPt rear[2], front[2], back[EDGE + 1];

  for (int b = 0; b < 2; b++) {
    const PrPath *weld = &shoe->weld[b];
    /* an egg's goes from the inner edge to the outer, the others' along the inner edge */
    bool ends_behind = plan->bar == PR_BAR_EGG || b == PR_LATERAL;

    rear[b] = weld->p[ends_behind ? weld->n - 1 : 0];
    front[b] = weld->p[ends_behind ? 0 : weld->n - 1];
  }
  part_of_ring (&shoe->figure.ring[0], rear[PR_MEDIAL], rear[PR_LATERAL], &stage->room, bar->rear);
  part_of_ring (&shoe->figure.ring[1], front[PR_LATERAL], front[PR_MEDIAL], &stage->room, back);
  for (int i = 0; i <= EDGE; i++)
    bar->front[i] = back[EDGE - i];
  move_with_heels (stage, shoe, bar->rear);
  move_with_heels (stage, shoe, bar->front);
}

/* A bar of its own, DONE of the way from where it lies READY. */
static void
add_bar (PrPath *ring, const Bar *bar, const Straight *ready, double done)
{
  for (int i = 0; i <= EDGE; i++)
    pr_path_add (ring, pr_pt_lerp (straight_at (ready, (double) i / EDGE, 0), bar->rear[i], done));
  for (int i = EDGE; i >= 0; i--)
    pr_path_add (ring, pr_pt_lerp (straight_at (ready, (double) i / EDGE, 1), bar->front[i], done));
}

/* The end of a branch that is turned in to become half of the bar: its middle line in steps, as long and wide as it is. */
typedef struct {
  PrPt from;
  double heading[HALF + 1], length, width;
} Tail;

/* As it is before: straight on, as wide as the branch is there. */
static void
straight_tail (const PrStage *stage, int b, double volume, Tail *tail)
{
  const PrStageCut *cut = &stage->cut[b == PR_LATERAL ? stage->n - 1 : 0];
  PrPt on = pr_pt_scale (pr_pt_left (pr_pt_sub (cut->inner, cut->outer)), pr_side_sign (b));

  *tail = (Tail){ .from = pr_pt_lerp (cut->outer, cut->inner, 0.5),
                  .width = pr_pt_dist (cut->inner, cut->outer) };
  tail->length = volume / MAX (tail->width * cut->thick, 1e-9);
  for (int i = 0; i <= HALF; i++)
    tail->heading[i] = atan2 (on.y, on.x);
}

/* Half B of the finished bar: along its rear edge, as wide as its plane AREA asks. */
static void
bar_tail (const Bar *bar, int b, double area, Tail *tail)
{
  double rear = 0;

  *tail = (Tail){ .length = 0 };
  for (int i = 0; i < HALF; i++) {
    int k = b == PR_LATERAL ? EDGE - i : i, next = b == PR_LATERAL ? k - 1 : k + 1;
    PrPt on = pr_pt_sub (bar->rear[next], bar->rear[k]);

    tail->heading[i] = tail->heading[i + 1] = atan2 (on.y, on.x);
    rear += pr_pt_len (on);
  }
  double turn = fabs (remainder (tail->heading[HALF] - tail->heading[0], 2 * G_PI));
  /* the middle line is shorter than the edge by half the width times the turn */
  tail->length = rear;
  for (int pass = 0; pass < 3; pass++) {
    tail->width = area / MAX (tail->length, 1);
    tail->length = MAX (rear - turn * tail->width / 2, rear / 2);
  }
  PrPt on = pr_pt (cos (tail->heading[0]), sin (tail->heading[0]));
  tail->from = pr_pt_along (bar->rear[b == PR_LATERAL ? EDGE : 0], pr_pt_left (on),
                            -pr_side_sign (b) * tail->width / 2);
}

/* From A to B: the headings are turned, so that it bends. At the end it takes on the bar's own edges. */
static void
add_tail (PrPath *ring, const Tail *a, const Tail *b, const Bar *bar, int branch, double done)
{
  double length = a->length + (b->length - a->length) * done,
         own = CLAMP ((done - OWN_FROM) / (1 - OWN_FROM), 0, 1);
  double half = (a->width + (b->width - a->width) * done) / 2 * -pr_side_sign (branch);
  PrPt at = pr_pt_lerp (a->from, b->from, done), front[HALF + 1];

  for (int i = 0; i <= HALF; i++) {
    int k = branch == PR_LATERAL ? EDGE - i : i;
    double heading = a->heading[i] + done * remainder (b->heading[i] - a->heading[i], 2 * G_PI);
    PrPt on = pr_pt (cos (heading), sin (heading)), left = pr_pt_left (on);

    pr_path_add (ring, pr_pt_lerp (pr_pt_along (at, left, -half), bar->rear[k], own));
    front[i] = pr_pt_lerp (pr_pt_along (at, left, half), bar->front[k], own);
    at = pr_pt_along (at, on, length / HALF);
  }
  for (int i = HALF; i >= 0; i--)
    pr_path_add (ring, front[i]);
}

static void
make_bar (PrStage *stage, const PrPlan *plan, const PrShoe *shoe)
{
  static const char *const ids[] = { "bar.medial", "bar.lateral" };
  Bar bar;

  if (!(shoe->bar_volume > 0) || shoe->weld[0].n < 2 || shoe->weld[1].n < 2 || shoe->figure.n < 2)
    return;
  make_edges (stage, plan, shoe, &bar);
  if (plan->bar_piece) {
    PrStagePart *part = add_part (stage, "bar", PR_PART_BAR, shoe->bar_volume);
    double low = shoe->bar_at.y - READY_MM - plan->stock_width / 2;
    const Straight ready = straight_of (plan, part->volume, pr_pt (shoe->bar_at.x, low));

    add_bar (&part->ring, &bar, &ready, stage->progress.bar);
    close_part (part);
    return;
  }
  for (int b = 0; b < 2; b++) {
    PrStagePart *part = add_part (stage, ids[b], PR_PART_BAR, shoe->bar_volume / 2);
    Tail straight, turned;

    straight_tail (stage, b, part->volume, &straight);
    bar_tail (&bar, b, part->volume / plan->thick_heel, &turned);
    add_tail (&part->ring, &straight, &turned, &bar, b, stage->progress.turned_in[b]);
    close_part (part);
  }
}

void
pr_stage_make_parts (PrStage *stage, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron)
{
  stage->n_parts = 0;
  make_extension (stage, plan, shoe, iron);
  make_bar (stage, plan, shoe);
}
