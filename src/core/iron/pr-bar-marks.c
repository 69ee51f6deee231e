/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bar-marks.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-number-order.h"
#include "pr-text.h"

double
pr_iron_bar_at (const PrIron *iron, const PrShoe *shoe, double s)
{
  double t;
  size_t i = pr_shoe_station_at (shoe, s, &t);

  return iron->bar_at[i] + t * (iron->bar_at[i + 1] - iron->bar_at[i]);
}

double
pr_iron_s_at (const PrIron *iron, const PrShoe *shoe, double bar)
{
  double t;
  size_t i = pr_rising_find (iron->bar_at, iron->n_st, bar, &t);

  return shoe->st[i].s + t * (shoe->st[i + 1].s - shoe->st[i].s);
}

typedef struct {
  PrPiece *piece;
  const PrIron *iron;
  const PrShoe *shoe;
} Marker;

/* Centre, extension line, welds and turns. */
static bool
is_punched (const char *id)
{
  static const char *const punched[] = { "toe", "extension.", "weld.", "turn." };

  for (size_t i = 0; i < G_N_ELEMENTS (punched); i++)
    if (g_str_has_prefix (id, punched[i]))
      return true;
  return false;
}

static void
add_mark (const Marker *m, int branch, double edge, PrPt at, const char *id, const char *name)
{
  PrPiece *piece = m->piece;

  if (piece->n_marks == PR_MAX_MARKS)
    return;
  PrMark *mark = &piece->mark[piece->n_marks++];

  mark->s = pr_shoe_edge_to_s (m->shoe, branch, edge);
  mark->at = at;
  mark->from_end = pr_iron_bar_at (m->iron, m->shoe, mark->s);
  g_strlcpy (mark->id, id, sizeof mark->id);
  pr_text_copy (mark->name, sizeof mark->name, name);
  mark->punch = is_punched (id);
}

static void
mark_edge (const Marker *m, int branch, double edge, const char *id, const char *name)
{
  static const char *const sides[] = { "medial", "lateral" };
  g_autofree char *full = g_strdup_printf ("%s.%s", id, sides[branch]);

  if (edge >= 0 && edge <= m->shoe->edge_length[branch])
    add_mark (m, branch, edge, pr_shoe_edge_at (m->shoe, branch, edge, NULL, NULL), full, name);
}

static double
widest_edge (const PrShoe *shoe, int branch)
{
  size_t toe = shoe->toe_st, last = branch == PR_LATERAL ? shoe->n_st - 1 : 0;
  size_t step = branch == PR_LATERAL ? 1 : (size_t) -1;

  for (size_t i = toe; i != last; i += step) {
    const PrStation *a = &shoe->st[i], *b = &shoe->st[i + step];

    if (a->outer.y > 0 && b->outer.y <= 0)
      return fabs (a->edge + (b->edge - a->edge) * a->outer.y / (a->outer.y - b->outer.y)
                   - shoe->st[toe].edge);
  }
  return -1;
}

static int
by_place (gconstpointer a, gconstpointer b)
{
  const PrMark *p = a, *q = b;

  return (p->from_end > q->from_end) - (p->from_end < q->from_end);
}

static void
mark_branch (const Marker *m, int b)
{
  const PrShoe *shoe = m->shoe;

  if (m->iron->welds.n_turns == 0) /* else the turn is marked there */
    mark_edge (m, b, shoe->edge_length[b], "heel", b == PR_MEDIAL ? _ ("heel M") : _ ("heel L"));
  mark_edge (m, b, widest_edge (shoe, b), "widest", _ ("widest"));
  if (shoe->ext.present)
    mark_edge (m, b, shoe->ext.line_edge[b], "extension", _ ("extension"));
  for (size_t i = 0; i < shoe->n_creases; i++)
    if (shoe->crease[i].branch == b) {
      /* the first word at a join has the least room, and is mostly the one where a crease begins: that one is short */
      mark_edge (m, b, shoe->crease[i].edge_from, "crease.from", _ ("crease"));
      mark_edge (m, b, shoe->crease[i].edge_to, "crease.to", _ ("crease ends"));
    }
  for (size_t i = 0; i < shoe->n_nails; i++)
    if (shoe->nail[i].branch == b) {
      g_autofree char *id = g_strdup_printf ("nail.%d", shoe->nail[i].index + 1);
      g_autofree char *name = g_strdup_printf (_ ("nail %d"), shoe->nail[i].index + 1);

      mark_edge (m, b, shoe->nail[i].edge, id, name);
    }
  for (size_t i = 0; i < shoe->n_clips; i++)
    if (shoe->clip[i].branch == b && shoe->clip[i].edge_from > 0) {
      g_autofree char *id = g_strdup_printf ("clip.%d", shoe->clip[i].plan_index + 1);

      mark_edge (m, b, shoe->clip[i].edge, id, _ ("clip"));
    }
}

/* A mark on PIECE that lies on no place of the shoe's middle line: at the bar's own AT. */
static void
mark_bar (PrPiece *piece, double at, const char *id, const char *name)
{
  if (piece->n_marks == PR_MAX_MARKS)
    return;
  PrMark *mark = &piece->mark[piece->n_marks++];

  *mark = (PrMark){ .from_end = at, .punch = true };
  g_strlcpy (mark->id, id, sizeof mark->id);
  pr_text_copy (mark->name, sizeof mark->name, name);
}

/* Where the scarfs of JOINT begin: a lap from the end that is scarfed. */
static void
mark_joint (PrIron *iron, const PrWeld *joint)
{
  for (int k = 0; k < 2; k++) {
    PrPiece *piece = &iron->piece[joint->piece[k]];
    bool first = joint->at[k] < piece->length / 2;

    mark_bar (piece, first ? joint->lap : piece->length - joint->lap, joint->id, joint->name);
  }
}

/* The middle of a toe extension, and its width: what lies beyond is upset into the corners. */
static void
mark_extension (PrPiece *piece, const PrShoe *shoe)
{
  double middle = piece->length / 2, half = shoe->ext.width / 2;

  mark_bar (piece, middle, "toe", _ ("toe"));
  if (half >= middle)
    return;
  mark_bar (piece, middle - half, "extension.medial", _ ("side M"));
  mark_bar (piece, middle + half, "extension.lateral", _ ("side L"));
}

static void
mark_shoe (PrIron *iron, const PrShoe *shoe)
{
  const Marker m = { &iron->piece[0], iron, shoe };
  const PrWelds *welds = &iron->welds;

  add_mark (&m, PR_MEDIAL, 0, shoe->st[shoe->toe_st].outer, "toe", _ ("toe"));
  for (int b = 0; b < 2; b++)
    mark_branch (&m, b);
  for (size_t i = 0; i < welds->n_turns; i++) {
    int b = i == 0 ? PR_MEDIAL : PR_LATERAL;

    add_mark (&m, b, shoe->edge_length[b], shoe->heel_outer[b], welds->turn[i].id, welds->turn[i].name);
  }
}

/* The mark its piece is measured from; its own middle where it has none. */
static double
centre_of (const PrPiece *piece)
{
  for (size_t i = 0; i < piece->n_marks; i++)
    if (strcmp (piece->mark[i].id, "toe") == 0)
      return piece->mark[i].from_end;
  return piece->length / 2;
}

void
pr_bar_mark (PrIron *iron, const PrShoe *shoe)
{
  mark_shoe (iron, shoe);
  for (size_t i = 0; i < iron->welds.n_welds; i++)
    if (strcmp (iron->welds.weld[i].id, "weld.extension") != 0)
      mark_joint (iron, &iron->welds.weld[i]);
  for (size_t i = 0; i < iron->n_pieces; i++) {
    PrPiece *piece = &iron->piece[i];

    if (strcmp (piece->id, "extension") == 0)
      mark_extension (piece, shoe);
    qsort (piece->mark, piece->n_marks, sizeof *piece->mark, by_place);
    double centre = centre_of (piece);
    for (size_t k = 0; k < piece->n_marks; k++)
      piece->mark[k].from_centre = piece->mark[k].from_end - centre;
  }
}
