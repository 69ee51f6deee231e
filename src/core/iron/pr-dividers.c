/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-dividers.h"

#include <glib/gi18n-lib.h>

#include "pr-text.h"

static void
add (GArray *steps, const PrShoe *shoe, int branch, double edge, const char *id, const char *name)
{
  static const char *const sides[] = { "medial", "lateral" };
  PrDivider step = { .branch = branch, .edge = edge };
  g_autofree char *full = g_strdup_printf ("%s.%s", id, sides[branch]);

  if (edge < 0 || edge > shoe->edge_length[branch] + 1e-9)
    return;
  step.at = pr_shoe_edge_at (shoe, branch, edge, NULL, NULL);
  g_strlcpy (step.id, full, sizeof step.id);
  pr_text_copy (step.name, sizeof step.name, name);
  g_array_append_val (steps, step);
}

static int
toe_first (gconstpointer a, gconstpointer b)
{
  const PrDivider *p = a, *q = b;

  return (p->edge > q->edge) - (p->edge < q->edge);
}

static void
collect (const PrShoe *shoe, int b, GArray *steps)
{
  for (size_t i = 0; i < shoe->n_creases; i++)
    if (shoe->crease[i].branch == b) {
      add (steps, shoe, b, shoe->crease[i].edge_from, "crease.from", _ ("crease begins"));
      add (steps, shoe, b, shoe->crease[i].edge_to, "crease.to", _ ("crease ends"));
    }
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];
    double sign = clip->branch == b ? 1 : -1; /* a toe clip reaches over to the other branch */
    double edges[2] = { sign * clip->edge_from, sign * clip->edge_to };

    for (int k = 0; k < 2; k++)
      if (edges[k] > 0) {
        g_autofree char *id = g_strdup_printf ("clip.%d.%s", clip->plan_index + 1, k ? "to" : "from");

        add (steps, shoe, b, edges[k], id, _ ("clip's edge"));
      }
  }
  for (size_t i = 0; i < shoe->n_nails; i++)
    if (shoe->nail[i].branch == b) {
      g_autofree char *id = g_strdup_printf ("nail.%d", shoe->nail[i].index + 1);
      g_autofree char *name = g_strdup_printf (_ ("nail %d"), shoe->nail[i].index + 1);

      add (steps, shoe, b, shoe->nail[i].edge, id, name);
    }
  for (size_t i = shoe->toe_st; i < shoe->n_st && i > 0; i += b == PR_LATERAL ? 1 : (size_t) -1) {
    size_t k = b == PR_LATERAL ? i + 1 : i - 1;

    if (k < shoe->n_st && shoe->st[i].outer.y > 0 && shoe->st[k].outer.y <= 0) {
      double t = shoe->st[i].outer.y / (shoe->st[i].outer.y - shoe->st[k].outer.y);
      double e = shoe->st[i].edge + t * (shoe->st[k].edge - shoe->st[i].edge);

      add (steps, shoe, b, fabs (e - shoe->edge_length[PR_MEDIAL]), "widest", _ ("widest line"));
      break;
    }
  }
  add (steps, shoe, b, shoe->edge_length[b], "heel", _ ("heel"));
}

GArray *
pr_dividers (const PrShoe *shoe, int branch, bool *from_line)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (PrDivider));
  bool line = shoe->ext.present;
  double start = pr_shoe_edge_start (shoe, branch);
  PrPt origin = pr_shoe_edge_at (shoe, branch, start, NULL, NULL), before = origin;

  collect (shoe, branch, steps);
  g_array_sort (steps, toe_first);
  for (guint i = 0; i < steps->len; i++) {
    PrDivider *step = &g_array_index (steps, PrDivider, i);

    step->edge -= start;
    step->straight = pr_pt_dist (origin, step->at);
    step->step = pr_pt_dist (before, step->at);
    before = step->at;
  }
  if (from_line)
    *from_line = line;
  return steps;
}
