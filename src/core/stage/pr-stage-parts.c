/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage-parts.h"

#include <string.h>

#include "pr-fillet.h"
#include "pr-shoe-places.h"

#define READY_MM 12.0 /* a piece that is not yet joined lies so far from the finished shoe */
#define SIDES 16      /* of either edge of a bar, and of the edge an extension lies against */

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

/* JOINED as it is after DONE of the way from a straight piece that lies READY, or (NULL) out of the edge itself. */
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
  const Straight ready = straight_of (plan, part->volume, at);
  Plate joined, plate;

  joined_plate (stage, shoe, &joined);
  part_way (&joined, piece ? &ready : NULL, done, &plate);
  for (int i = 0; i < POINTS; i++)
    pr_path_add (&part->ring, plate.rear[i]);
  add_front (&part->ring, &plate, plan->ext_round * done);
  close_part (part);
}

/* --- heel bar ------------------------------------------------------------------------------ */

/* A bar's middle line, medial to lateral: a quadratic through three points. It is as wide as its iron asks. */
typedef struct {
  PrPt end[2], control;
  double width;
} Bow;

static PrPt
bow_at (const Bow *bow, double t, double aside)
{
  double u = 1 - t;
  PrPt p = pr_pt_add (pr_pt_scale (bow->control, 2 * u * t),
                      pr_pt_add (pr_pt_scale (bow->end[0], u * u), pr_pt_scale (bow->end[1], t * t)));
  PrPt dir = pr_pt_add (pr_pt_scale (pr_pt_sub (bow->control, bow->end[0]), u),
                        pr_pt_scale (pr_pt_sub (bow->end[1], bow->control), t));

  return pr_pt_along (p, pr_pt_left (pr_pt_unit (dir)), aside * bow->width);
}

static double
bow_length (const Bow *bow)
{
  double length = 0;

  for (int i = 0; i < SIDES; i++)
    length += pr_pt_dist (bow_at (bow, (double) i / SIDES, 0), bow_at (bow, (i + 1.0) / SIDES, 0));
  return length;
}

/* By how much the heel of branch B is elsewhere than in the finished shoe. */
static PrPt
heel_off (const PrStage *stage, const PrShoe *shoe, int b)
{
  size_t i = b == PR_LATERAL ? shoe->n_st - 1 : 0;
  const PrStageCut *cut = &stage->cut[i];

  return pr_pt_sub (pr_pt_lerp (cut->outer, cut->inner, 0.5),
                    pr_pt_lerp (shoe->st[i].outer, shoe->st[i].inner, 0.5));
}

static Bow
bow_of (const PrStage *stage, const PrPlan *plan, const PrShoe *shoe)
{
  PrPt off[2] = { heel_off (stage, shoe, PR_MEDIAL), heel_off (stage, shoe, PR_LATERAL) };
  PrPt middle = pr_pt_add (shoe->bar_at, pr_pt (0, plan->bar_web / 2));
  Bow bow = { .width = plan->bar_web };

  middle = pr_pt_add (middle, pr_pt_lerp (off[PR_MEDIAL], off[PR_LATERAL], 0.5));
  for (int b = 0; b < 2; b++) {
    const PrPath *weld = &shoe->weld[b];

    bow.end[b] = pr_pt_add (pr_path_at (weld, pr_path_length (weld) / 2, NULL), off[b]);
  }
  bow.control = pr_pt_sub (pr_pt_scale (middle, 2), pr_pt_lerp (bow.end[0], bow.end[1], 0.5));
  bow.width = shoe->bar_volume / plan->thick_heel / MAX (bow_length (&bow), 1);
  return bow;
}

/* RING becomes BOW from T0 to T1; where READY is told, DONE of the way from it. */
static void
add_bow (PrPath *ring, const Bow *bow, double t0, double t1, const Straight *ready, double done)
{
  for (int side = 0; side < 2; side++)
    for (int i = 0; i <= SIDES; i++) {
      double along = (double) (side ? SIDES - i : i) / SIDES, aside = side ? 0.5 : -0.5;
      PrPt p = bow_at (bow, t0 + (t1 - t0) * along, aside);

      pr_path_add (ring, ready ? pr_pt_lerp (straight_at (ready, along, side), p, done) : p);
    }
}

static void
make_bar (PrStage *stage, const PrPlan *plan, const PrShoe *shoe)
{
  static const char *const ids[] = { "bar.medial", "bar.lateral" };
  double done = stage->progress.bar;

  if (!(shoe->bar_volume > 0) || shoe->weld[0].n < 2 || shoe->weld[1].n < 2)
    return;
  const Bow bow = bow_of (stage, plan, shoe);
  if (plan->bar_piece) {
    PrStagePart *part = add_part (stage, "bar", PR_PART_BAR, shoe->bar_volume);
    double low = shoe->bar_at.y - READY_MM - plan->stock_width / 2;
    const Straight ready = straight_of (plan, part->volume, pr_pt (shoe->bar_at.x, low));

    add_bow (&part->ring, &bow, 0, 1, &ready, done);
    close_part (part);
    return;
  }
  for (int b = 0; b < 2 && done > 0; b++) {
    PrStagePart *part = add_part (stage, ids[b], PR_PART_BAR, shoe->bar_volume / 2 * done);

    add_bow (&part->ring, &bow, b ? 1 - done / 2 : 0, b ? 1 : done / 2, NULL, 0);
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
