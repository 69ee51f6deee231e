/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-edge.h"

#include <math.h>
#include <string.h>
#include "pr-bulb-heels.h"
#include "pr-seen-odds.h"
#include "pr-work.h"

/* All weights were chosen on our own scenes. */
/* The upper edge of forged iron is rounded or dressed by about so much, mm, and seen so much lower. */
#define ARRIS 0.35
/* Between places along a normal; and how far to each side the means about a step reach, mm. */
#define PITCH 0.1
#define MEANS 4
#define FARTHER 12 /* places: what is looked at beyond them, to tell a sharp step from a soft one */
/* A step of this share of the paper's light counts half. */
#define STEP_HALF 0.12f
/* The upper edge that is seen within counts so much, in full from this distance to the lower one on, mm. */
#define WITHIN 0.8
#define WITHIN_FROM 0.6
/* Below the iron's upper face lies its wall, which is darker than the paper at its foot, whatever the light there: where the
 * lower edge is what is seen, a step that darkens outwards is the face's end. It counts less by this share, in full from so
 * much of the wall on, mm. */
#define DARKENS 0.6
#define WALL_FROM 0.2
/* Shadow has the paper's hue, at any brightness: where that ends the iron begins. The means of the hue reach over so many
 * places; a step of this (share of the brightness) counts half, in full so much. */
#define HUE_MEANS 8
#define HUE_LEAST 0.15f /* of what is darker the hue is noise */
#define HUE_HALF 0.03f
#define HUE_WEIGHT 0.4f
#define HUE_FROM 0.1f /* so much lighter than that what is outside counts in full */
#define HUE_IRON 2.0f /* odds from which on what is outside is iron */
/* The odds are weighed over so many places to either side. */
#define REGION 15
#define REGION_WEIGHT 0.06
/* A step from point to point costs so much by its square, and is no longer than this, places. */
#define BEND 0.015
#define BEND_MOST 5
/* The way is led so many points on beyond its beginning, so that it closes. */
#define OVERLAP 80
/* Another place as good as this share of the one taken, so far from it (mm), is its rival. */
#define RIVAL 0.88
#define RIVAL_FROM 0.9
/* The lower edge is looked for a little outside of the iron, mm. */
#define COVERED 0.3
/* A step weaker than this is none to be sure of. */
#define WEAK 0.045f
/* And one that is sharp by less than this share of what is usual in the photo may be a shadow's. */
#define SOFT 0.6f
/* What is as bright as paper within the edge is a reflection. */
#define GLARE 0.95f
/* Normals are those of a ring calmed so far, mm. */
#define NORMAL_CALM 1.2
#define PARTS 16

typedef struct {
  float rgb[3];
} Seen;

typedef struct {
  const PrSeenIron *iron;
  const PrPath *ring;
  const PrPt *normal;
  int half, n;  /* places on either side; all */
  float *score; /* n a point */
  float *off;   /* mm by which each place would be moved to the middle of its step */
  float *step;  /* how large it is */
  float *sharp; /* and how sharp, 0..1 */
  bool *glare;
} Job;

PrPt *
pr_seen_edge_normals (const PrPath *ring, bool hole)
{
  g_auto (PrPath) calm = { 0 };
  PrPt *out = g_new (PrPt, ring->n);
  double sign = hole ? -1 : 1;

  pr_path_copy (&calm, ring);
  pr_ring_smooth (&calm, NORMAL_CALM);
  for (size_t i = 0; i < ring->n; i++) {
    PrPt d = pr_pt_unit (pr_pt_sub (calm.p[(i + 1) % ring->n], calm.p[(i + ring->n - 1) % ring->n]));
    out[i] = pr_pt (sign * d.y, -sign * d.x); /* clockwise with y down: outside is to the left */
  }
  return out;
}

double
pr_seen_edge_height (const PrSeenIron *iron)
{
  return fmax (iron->thick - ARRIS, 0);
}

double
pr_seen_edge_shift (const PrSeenIron *iron, PrPt p, PrPt n)
{
  double more = pr_pose_larger (iron->pose, pr_seen_edge_height (iron)) - 1;

  return more * (n.x * (p.x - iron->pose->foot.x) + n.y * (p.y - iron->pose->foot.y));
}

void
pr_seen_edge_cast (PrPath *ring, const PrSeenIron *iron)
{
  g_autofree PrPt *normal = pr_seen_edge_normals (ring, iron->hole);

  for (size_t i = 0; i < ring->n; i++)
    if (pr_seen_edge_shift (iron, ring->p[i], normal[i]) > 0) {
      PrSheetPt p
          = pr_pose_cast (iron->pose, (PrSheetPt){ ring->p[i].x, ring->p[i].y }, pr_seen_edge_height (iron));
      ring->p[i] = pr_pt (p.x, p.y);
    }
}

/* --- along one normal -------------------------------------------------------------------- */

/* What is seen at the places along the normal of point I, and the odds there, in the plane at Z. */
static void
look_along (const Job *job, size_t i, double z, Seen *seen, float *odds)
{
  for (int j = -MEANS; j < job->n + MEANS; j++) {
    PrPt p = pr_pt_along (job->ring->p[i], job->normal[i], (j - job->half) * PITCH);
    PrSheetPt at = pr_pose_show (job->iron->pose, (PrSheetPt){ p.x, p.y }, z);
    pr_seen_map_seen (job->iron->map, at, seen[j + MEANS].rgb);
    odds[j + MEANS] = pr_seen_map_iron (job->iron->map, at);
  }
}

static void
mean (const Seen *seen, int from, int to, float out[3])
{
  for (int k = 0; k < 3; k++)
    out[k] = 0;
  for (int j = from; j < to; j++)
    for (int k = 0; k < 3; k++)
      out[k] += seen[j].rgb[k] / (float) (to - from);
}

/* How large the step at place J is: outside less inside. */
static float
step_at (const Seen *seen, int j, float by[3])
{
  float in[3], out[3], sum = 0;

  mean (seen, j, j + MEANS, in);
  mean (seen, j + MEANS + 1, j + 2 * MEANS + 1, out);
  for (int k = 0; k < 3; k++) {
    by[k] = out[k] - in[k];
    sum += by[k] * by[k];
  }
  return sqrtf (sum / 3);
}

/* Middle of the step about place J: its places weighed by how much each takes part in it, mm. */
static float
middle_of (const Seen *seen, int j, const float by[3])
{
  float sum = 0, at = 0;

  for (int d = -MEANS + 1; d < MEANS; d++) {
    const float *a = seen[j + MEANS + d - 1].rgb, *b = seen[j + MEANS + d + 1].rgb;
    float part = 0;
    for (int k = 0; k < 3; k++)
      part += (b[k] - a[k]) * by[k];
    part = fmaxf (part, 0);
    sum += part;
    at += part * (float) d;
  }
  return sum > 0 ? (float) PITCH * at / sum : 0;
}

/* Iron's edge is sharp, a shadow's takes more than what the means about it reach over: share of the whole change from
 * farther inside to farther outside that lies in the step. */
static float
sharpness (const Seen *seen, int j, int n, float step)
{
  int in = MAX (j + MEANS - FARTHER, 0), out = MIN (j + MEANS + FARTHER, n - 1);
  float a[3], b[3], sum = 0;

  mean (seen, MAX (in - MEANS / 2, 0), in + MEANS / 2, a);
  mean (seen, out - MEANS / 2, MIN (out + MEANS / 2, n), b);
  for (int k = 0; k < 3; k++)
    sum += (b[k] - a[k]) * (b[k] - a[k]);
  return step / fmaxf (step, sqrtf (sum / 3));
}

/* How far from the paper's hue. */
static float
hue_of (const float rgb[3])
{
  float by = fmaxf (pr_seen_luma (rgb), HUE_LEAST);

  return hypotf ((rgb[0] - rgb[1]) / by, (rgb[2] - rgb[1]) / by);
}

/* What it is worth that at place J the paper's hue ends inwards. What is outside of the iron is no iron itself, or one of its
 * patches ends there, and no darker than a shadow. */
static float
hue_worth (const Seen *seen, const float *odds, int j, int n)
{
  int at = j + MEANS, from = MAX (at - HUE_MEANS, 0), to = MIN (at + 1 + HUE_MEANS, n);
  float in[3], out[3], iron = 0;

  if (at <= from || to <= at + 1)
    return 0;
  mean (seen, from, at, in);
  mean (seen, at + 1, to, out);
  for (int k = at + 1; k < to; k++)
    iron += odds[k] / (float) (to - at - 1);
  float step = fmaxf (hue_of (in) - hue_of (out), 0), light = (pr_seen_luma (out) - HUE_LEAST) / HUE_FROM;
  return HUE_WEIGHT * step / (step + HUE_HALF) * CLAMP (1 - iron / HUE_IRON, 0, 1) * CLAMP (light, 0, 1);
}

static float
worth (float step, float sharp)
{
  return step / (step + STEP_HALF) * sharp;
}

/* A line drawn round: paper within, ink without. */
static float
inked (const float by[3], float step)
{
  return by[0] + by[1] + by[2] < 0 ? step : 0;
}

/* What is left of the worth of a step BY outwards where the wall shows by WALL mm. */
static float
at_foot (const float by[3], double wall)
{
  return by[0] + by[1] + by[2] < 0 ? (float) (1 - DARKENS * fmin (wall / WALL_FROM, 1)) : 1;
}

static float
region_at (const float *odds, int j, int n)
{
  float sum = 0;

  for (int d = 1; d <= REGION; d++)
    sum += odds[CLAMP (j - d, 0, n - 1)] - odds[CLAMP (j + d, 0, n - 1)];
  return (float) (REGION_WEIGHT * PITCH) * sum;
}

/* Is the iron's lower edge at point I behind its upper face, as in the corner of an opening? What shows there is the upper
 * edge, wherever the normal leans. */
static bool
is_covered (const Job *job, size_t i)
{
  const PrSeenIron *iron = job->iron;
  PrPt beside = pr_pt_along (job->ring->p[i], job->normal[i], COVERED);
  PrSheetPt over = pr_pose_cast (iron->pose, (PrSheetPt){ beside.x, beside.y }, pr_seen_edge_height (iron));

  return pr_ring_holds (job->ring, pr_pt (over.x, over.y)) != iron->hole;
}

static void
score_point (const Job *job, size_t i, Seen *room, float *odds)
{
  const PrSeenIron *iron = job->iron;
  double shift = iron->thick > 0 ? pr_seen_edge_shift (iron, job->ring->p[i], job->normal[i]) : 0;
  double top = pr_seen_edge_height (iron);
  int all = job->n + 2 * MEANS;
  Seen *seen = room, *upper = room + all;
  float *upper_odds = odds + all;
  bool covered = shift < 0 && is_covered (job, i), flat = !(iron->thick > 0);
  double wall = shift < 0 && !covered ? -shift : 0, within = WITHIN * fmin (wall / WITHIN_FROM, 1);

  look_along (job, i, shift > 0 || covered ? top : 0, seen, odds);
  if (within > 0)
    look_along (job, i, top, upper, upper_odds);
  for (int j = 0; j < job->n; j++) {
    size_t at = i * (size_t) job->n + (size_t) j;
    float by[3], step = step_at (seen, j, by), inner[3];
    step = flat ? inked (by, step) : step;
    job->step[at] = step;
    job->sharp[at] = sharpness (seen, j, all, step);
    job->off[at] = middle_of (seen, j, by);
    job->score[at] = at_foot (by, wall) * worth (step, job->sharp[at]);
    job->score[at] += (flat || covered ? 0 : region_at (odds, j + MEANS, all));
    job->score[at] += flat ? 0 : hue_worth (seen, odds, j, all);
    if (within > 0) {
      float up = step_at (upper, j, inner);
      job->score[at] += (float) within * worth (up, sharpness (upper, j, all, up));
    }
    job->glare[at] = !flat && j >= MEANS && pr_seen_luma (seen[j].rgb) > GLARE && odds[j] > 0;
  }
}

static void
score_part (gpointer data, int part)
{
  const Job *job = data;
  gsize all = (gsize) (job->n + 2 * MEANS);
  g_autofree Seen *room = g_new (Seen, 2 * all);
  g_autofree float *odds = g_new (float, 2 * all);
  int from, to;

  pr_work_rows ((int) job->ring->n, part, PARTS, &from, &to);
  for (int i = from; i < to; i++)
    score_point (job, (size_t) i, room, odds);
}

/* --- the way round ----------------------------------------------------------------------- */

/* The best place of the row before for place J, and what the way there was worth. */
static int
best_before (const float *sum, int n, int j, float *best)
{
  int at = j;

  *best = -INFINITY;
  for (int k = MAX (j - BEND_MOST, 0); k <= MIN (j + BEND_MOST, n - 1); k++) {
    float worth_of = sum[k] - (float) (BEND * (k - j) * (k - j));
    if (worth_of > *best) {
      *best = worth_of;
      at = k;
    }
  }
  return at;
}

static int
argmax (const float *v, int n)
{
  int best = 0;

  for (int i = 1; i < n; i++)
    best = v[i] > v[best] ? i : best;
  return best;
}

/* PLACE of each point; the ring is gone round once and OVERLAP points more on either side. */
static void
find_way (const Job *job, int *place)
{
  int points = (int) job->ring->n, n = job->n, rows = points + 2 * OVERLAP;
  g_autofree float *sum = g_new (float, 2 * (gsize) n);
  g_autofree uint8_t *from = g_new (uint8_t, (gsize) rows * (gsize) n);
  float *last = sum, *next = sum + n;

  memset (last, 0, sizeof *last * (gsize) n);
  for (int r = 0; r < rows; r++) {
    const float *score = job->score + (size_t) ((r + 8 * points - OVERLAP) % points) * (size_t) n;
    for (int j = 0; j < n; j++) {
      float best;
      from[r * n + j] = (uint8_t) best_before (last, n, j, &best);
      next[j] = best + score[j];
    }
    float *swap = last;
    last = next;
    next = swap;
  }
  int j = argmax (last, n);
  for (int r = rows - 1; r >= 0; r--) {
    int point = r - OVERLAP;
    if (point >= 0 && point < points)
      place[point] = j;
    j = from[r * n + j];
  }
}

static PrSeenTrust
trust_of (const Job *job, size_t i, int place, float usual)
{
  const float *score = job->score + i * (size_t) job->n;
  int far = (int) (RIVAL_FROM / PITCH);

  if (job->glare[i * (size_t) job->n + (size_t) place])
    return PR_SEEN_GLARE;
  if (job->step[i * (size_t) job->n + (size_t) place] < WEAK
      || job->sharp[i * (size_t) job->n + (size_t) place] < SOFT * usual)
    return PR_SEEN_WEAK;
  for (int j = 0; j < job->n; j++)
    if (abs (j - place) > far && score[j] > RIVAL * score[place] + (1 - RIVAL)
        && job->step[i * (size_t) job->n + (size_t) j] > WEAK)
      return PR_SEEN_RIVAL;
  return PR_SEEN_SURE;
}

static void
resample (PrPath *ring, double step)
{
  g_auto (PrPath) closed = { 0 };

  pr_path_copy (&closed, ring);
  pr_path_add (&closed, ring->p[0]);
  pr_path_resample (ring, &closed, MAX ((size_t) (pr_path_length (&closed) / step), 12) + 1);
  ring->n--;
}

static int
rising (const void *a, const void *b)
{
  float x = *(const float *) a, y = *(const float *) b;

  return (x > y) - (x < y);
}

/* The median along the way. */
static float
usual_sharpness (const Job *job, const int *place)
{
  size_t n = job->ring->n;
  g_autofree float *all = g_new (float, n);

  for (size_t i = 0; i < n; i++)
    all[i] = job->sharp[i * (size_t) job->n + (size_t) place[i]];
  qsort (all, n, sizeof *all, rising);
  return all[n / 2];
}

static void
move_points (const Job *job, PrPath *ring, const int *place, GArray *trust)
{
  g_autofree PrPt *to = g_new (PrPt, ring->n);
  float usual = usual_sharpness (job, place);

  if (trust != NULL)
    g_array_set_size (trust, 0);
  for (size_t i = 0; i < ring->n; i++) {
    size_t at = i * (size_t) job->n + (size_t) place[i];
    to[i] = pr_pt_along (ring->p[i], job->normal[i], (place[i] - job->half) * PITCH + job->off[at]);
    uint8_t how = (uint8_t) trust_of (job, i, place[i], usual);
    if (trust != NULL)
      g_array_append_val (trust, how);
  }
  memcpy (ring->p, to, sizeof *to * ring->n);
}

void
pr_seen_edge_find (PrPath *ring, const PrSeenIron *iron, double reach, double step, GArray *trust)
{
  resample (ring, step);
  g_autofree PrPt *normal = pr_seen_edge_normals (ring, iron->hole);
  int half = (int) lround (reach / PITCH), n = 2 * half + 1;
  gsize all = ring->n * (gsize) n;
  g_autofree float *room = g_new (float, 4 * all);
  g_autofree bool *glare = g_new (bool, all);
  g_autofree int *place = g_new (int, ring->n);
  Job job = { iron, ring, normal, half, n, room, room + all, room + 2 * all, room + 3 * all, glare };

  pr_work_share (score_part, &job, PARTS);
  find_way (&job, place);
  move_points (&job, ring, place, trust);
}
