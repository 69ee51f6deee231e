/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-handle.h"

#include <glib/gi18n-lib.h>

#define WEB_AT_QUARTER 0.5 /* place of the quarter's web */
#define HEEL_INSET_MM 6.0  /* the web handle of a heel lies this far up the branch */
#define SAME_WEIGHT 0.5    /* mm by which a nail or clip wins over an edge */

static void
add (PrHandle *out, size_t *n, PrHandleKind kind, int branch, int index, PrPt at)
{
  g_assert (*n < PR_MAX_HANDLES);
  out[(*n)++] = (PrHandle){ .kind = kind, .branch = branch, .index = index, .at = at };
}

/* Inner edge opposite an edge length. */
static PrPt
inner_at (const PrShoe *shoe, int branch, double edge)
{
  PrPt inner;

  pr_shoe_middle_at (shoe, pr_shoe_edge_to_s (shoe, branch, edge), NULL, &inner);
  return inner;
}

static double
web_edge (const PrShoe *shoe, int branch, int index)
{
  if (index == 0)
    return 0;
  if (index == 1)
    return pr_shoe_place_to_edge (shoe, branch, WEB_AT_QUARTER);
  return shoe->edge_length[branch] - HEEL_INSET_MM;
}

static void
add_branch (const PrPlan *plan, const PrShoe *shoe, int b, PrHandle *out, size_t *n)
{
  static const int knots[2][3] = {
    { PR_KNOT_TOE_QUARTER_M, PR_KNOT_QUARTER_M, PR_KNOT_HEEL_QUARTER_M },
    { PR_KNOT_TOE_QUARTER_L, PR_KNOT_QUARTER_L, PR_KNOT_HEEL_QUARTER_L },
  };

  for (int i = 0; i < 3; i++)
    add (out, n, PR_HANDLE_EDGE, b, knots[b][i], plan->knot[knots[b][i]]);
  add (out, n, PR_HANDLE_HEEL, b, 0, shoe->heel_outer[b]);
  for (int i = 1; i < 3; i++)
    add (out, n, PR_HANDLE_WEB, b, i, inner_at (shoe, b, web_edge (shoe, b, i)));
  for (size_t i = 0; i < shoe->n_creases; i++)
    if (shoe->crease[i].branch == b) {
      const PrPath *middle = &shoe->crease[i].middle;

      add (out, n, PR_HANDLE_CREASE, b, 0, middle->p[0]);
      add (out, n, PR_HANDLE_CREASE, b, 1, middle->p[middle->n - 1]);
    }
  for (size_t i = 0; i < shoe->n_nails; i++)
    if (shoe->nail[i].branch == b)
      add (out, n, PR_HANDLE_NAIL, b, shoe->nail[i].index, shoe->nail[i].at);
  for (size_t i = 0; i < shoe->n_clips; i++)
    if (shoe->clip[i].branch == b)
      add (out, n, PR_HANDLE_CLIP, b, shoe->clip[i].plan_index,
           pr_pt_along (shoe->clip[i].at, shoe->clip[i].out, shoe->clip[i].thickness));
}

size_t
pr_handles (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, PrHandle out[PR_MAX_HANDLES])
{
  size_t n = 0;

  (void) hoof;
  add (out, &n, PR_HANDLE_TOE, PR_MEDIAL, 0, plan->knot[PR_KNOT_TOE]);
  if (shoe->ext.present) {
    const PrExtension *ext = &shoe->ext;

    add (out, &n, PR_HANDLE_EXTENSION, PR_MEDIAL, 0, pr_pt_lerp (ext->corner[1], ext->corner[2], 0.5));
    add (out, &n, PR_HANDLE_EXTENSION, PR_MEDIAL, 1, pr_pt_lerp (ext->corner[0], ext->corner[1], 0.5));
    add (out, &n, PR_HANDLE_EXTENSION, PR_LATERAL, 1, pr_pt_lerp (ext->corner[2], ext->corner[3], 0.5));
  }
  add_branch (plan, shoe, PR_LATERAL, out, &n);
  add_branch (plan, shoe, PR_MEDIAL, out, &n);
  add (out, &n, PR_HANDLE_WEB, PR_MEDIAL, 0, shoe->st[shoe->toe_st].inner);
  if (plan->bar != PR_BAR_NONE && shoe->weld[0].n)
    add (out, &n, PR_HANDLE_BAR, PR_MEDIAL, 0, shoe->bar_at);
  return n;
}

bool
pr_handle_same (const PrHandle *a, const PrHandle *b)
{
  return a->kind == b->kind && a->branch == b->branch && a->index == b->index;
}

int
pr_handle_lock (const PrHandle *handle)
{
  switch (handle->kind) {
  case PR_HANDLE_TOE:
    return PR_LOCK_TOE;
  case PR_HANDLE_EDGE:
    return handle->index < PR_KNOT_TOE ? PR_LOCK_MEDIAL : PR_LOCK_LATERAL;
  case PR_HANDLE_HEEL:
    return handle->branch == PR_MEDIAL ? PR_LOCK_HEEL_M : PR_LOCK_HEEL_L;
  case PR_HANDLE_NAIL:
    return handle->branch == PR_MEDIAL ? PR_LOCK_NAILS_M : PR_LOCK_NAILS_L;
  case PR_HANDLE_CLIP:
    return PR_LOCK_CLIPS;
  default:
    return -1;
  }
}

int
pr_handle_hit (const PrHandle *handles, size_t n, PrPt p, double radius)
{
  int best = -1;
  double least = INFINITY;

  for (size_t i = 0; i < n; i++) {
    bool small = handles[i].kind == PR_HANDLE_NAIL || handles[i].kind == PR_HANDLE_CLIP;
    double d = pr_pt_dist (handles[i].at, p);

    if (d > radius)
      continue;
    d -= small ? SAME_WEIGHT : 0;
    if (d < least) {
      least = d;
      best = (int) i;
    }
  }
  return best;
}

/* Writes *FIELD, held to the range its row of the table gives. */
static void
set (PrPlan *plan, void *field, double value)
{
  size_t offset = (size_t) ((char *) field - (char *) plan);

  for (size_t i = 0; i < pr_n_params; i++)
    if (pr_params[i].offset == offset)
      pr_param_set (plan, &pr_params[i], value);
}

static double
caught (double value, double by, double snap)
{
  return fabs (value - by) < snap ? by : value;
}

static void
set_knot (PrPlan *plan, int i, PrPt p)
{
  set (plan, &plan->knot[i].x, p.x);
  set (plan, &plan->knot[i].y, p.y);
}

static void
drag_edge (const PrHandle *handle, PrPt d, double snap, bool both, PrPlan *plan)
{
  int i = handle->index, twin = PR_N_KNOTS - 1 - i;
  PrPt p = pr_pt_add (plan->knot[i], d), mirror = pr_pt (-plan->knot[twin].x, plan->knot[twin].y);

  if (!both && pr_pt_dist (p, mirror) < snap)
    p = mirror;
  set_knot (plan, i, p);
  if (both)
    set_knot (plan, twin, pr_pt (-p.x, p.y));
}

static void
drag_toe (PrPt d, double snap, PrPlan *plan)
{
  PrPt p = pr_pt_add (plan->knot[PR_KNOT_TOE], d);

  p.x = caught (p.x, 0, snap);
  set_knot (plan, PR_KNOT_TOE, p);
}

/* A heel goes back and forth with its length, sideways with its knot. */
static void
drag_heel (const PrHandle *handle, const PrHoof *hoof, PrPt d, double snap, bool both, PrPlan *plan)
{
  int b = handle->branch, o = !b;
  int knot[2] = { PR_KNOT_HEEL_M, PR_KNOT_HEEL_L };
  double past = plan->heel_past[b] - d.y, x = plan->knot[knot[b]].x + d.x;
  /* level with the other heel */
  double level = hoof->buttress[b].y - (hoof->buttress[o].y - plan->heel_past[o]);

  if (!both) {
    past = caught (past, level, snap);
    x = caught (x, -plan->knot[knot[o]].x, snap);
  }
  set (plan, &plan->heel_past[b], past);
  set (plan, &plan->knot[knot[b]].x, x);
  if (both) {
    set (plan, &plan->heel_past[o], hoof->buttress[o].y - (hoof->buttress[b].y - past));
    set (plan, &plan->knot[knot[o]].x, -x);
  }
}

static void
drag_web (const PrHandle *handle, const PrShoe *shoe, PrPt d, double snap, bool both, PrPlan *plan)
{
  double *web[2][3] = { { &plan->web_toe, &plan->web_quarter[0], &plan->web_heel[0] },
                        { &plan->web_toe, &plan->web_quarter[1], &plan->web_heel[1] } };
  double edge = web_edge (shoe, handle->branch, handle->index);
  PrPt out;

  pr_shoe_edge_at (shoe, handle->branch, edge, NULL, &out);
  double value = *web[handle->branch][handle->index] - pr_pt_dot (d, out);
  if (handle->index > 0 && !both)
    value = caught (value, *web[!handle->branch][handle->index], snap);
  set (plan, web[handle->branch][handle->index], value);
  if (both)
    set (plan, web[!handle->branch][handle->index], value);
}

static double
along_edge (const PrHandle *handle, const PrShoe *shoe, PrPt to)
{
  double before = pr_shoe_place_of (shoe, handle->branch, handle->at, NULL);
  double after = pr_shoe_place_of (shoe, handle->branch, to, NULL);

  return pr_shoe_place_to_edge (shoe, handle->branch, after - before);
}

static void
drag_nail (const PrHandle *handle, const PrShoe *shoe, PrPt to, bool both, PrPlan *plan)
{
  double by = along_edge (handle, shoe, to);

  for (int b = 0; b < 2; b++)
    if (b == handle->branch || both)
      set (plan, &plan->nail_shift[b][handle->index], plan->nail_shift[b][handle->index] + by);
}

static double
clip_place (const PrShoe *shoe, int plan_index)
{
  for (size_t i = 0; i < shoe->n_clips; i++)
    if (shoe->clip[i].plan_index == plan_index)
      return shoe->clip[i].place;
  return 0;
}

/* A clip that a hand moves stands where it was put, whatever it was tied to. */
static void
set_clip (PrPlan *plan, int i, double place)
{
  set (plan, &plan->clip[i].place, place);
  set (plan, &plan->clip[i].tie, PR_CLIP_AT_PLACE);
}

static void
drag_clip (const PrHandle *handle, const PrShoe *shoe, PrPt to, double snap, bool both, PrPlan *plan)
{
  PrClipPlan *clip = &plan->clip[handle->index];
  double unit = shoe->edge_buttress[clip->branch];
  double place = clip_place (shoe, handle->index) + along_edge (handle, shoe, to) / unit;

  for (int i = 0; i < PR_MAX_CLIPS; i++) {
    PrClipPlan *other = &plan->clip[i];

    if (i == handle->index || !other->kind || other->branch == clip->branch)
      continue;
    if (both)
      set_clip (plan, i, place);
    else
      place = caught (place, clip_place (shoe, i), snap / unit);
  }
  set_clip (plan, handle->index, place);
}

static void
drag_crease (const PrHandle *handle, const PrShoe *shoe, PrPt to, bool both, PrPlan *plan)
{
  double by = along_edge (handle, shoe, to);

  for (int b = 0; b < 2; b++) {
    bool end = handle->index == 1;
    int tie = end ? plan->crease_to_tie[b] : plan->crease_from_tie[b];
    double *gap = end ? &plan->crease_to_gap[b] : &plan->crease_from_gap[b];
    double *place = end ? &plan->crease_to[b] : &plan->crease_from[b];

    if (b != handle->branch && !both)
      continue;
    if (tie == PR_TIE_PLACE)
      set (plan, place, *place + by / shoe->edge_buttress[b]);
    else
      set (plan, gap, *gap + by);
  }
}

static void
drag_extension (const PrHandle *handle, PrPt d, PrPlan *plan)
{
  if (handle->index == 0)
    set (plan, &plan->ext_ahead, plan->ext_ahead + d.y);
  else
    set (plan, &plan->ext_width, plan->ext_width + 2 * pr_side_sign (handle->branch) * d.x);
}

/* What lies along an edge goes where the pointer is; FALSE for the other kinds. */
static bool
drag_along (const PrHandle *handle, const PrShoe *shoe, PrPt to, double snap, bool both, PrPlan *plan)
{
  switch (handle->kind) {
  case PR_HANDLE_CREASE:
    drag_crease (handle, shoe, to, both, plan);
    return true;
  case PR_HANDLE_NAIL:
    drag_nail (handle, shoe, to, both, plan);
    return true;
  case PR_HANDLE_CLIP:
    drag_clip (handle, shoe, to, snap, both, plan);
    return true;
  default:
    return false;
  }
}

/* The others go by as much as the pointer. */
static void
drag_by (const PrHandle *handle, const PrHoof *hoof, const PrShoe *shoe, PrPt d, double snap, bool both,
         PrPlan *plan)
{
  switch (handle->kind) {
  case PR_HANDLE_TOE:
    drag_toe (d, snap, plan);
    break;
  case PR_HANDLE_EDGE:
    drag_edge (handle, d, snap, both, plan);
    break;
  case PR_HANDLE_HEEL:
    drag_heel (handle, hoof, d, snap, both, plan);
    break;
  case PR_HANDLE_WEB:
    drag_web (handle, shoe, d, snap, both, plan);
    break;
  case PR_HANDLE_EXTENSION:
    drag_extension (handle, d, plan);
    break;
  default:
    set (plan, &plan->bar_set_back, plan->bar_set_back - d.y);
  }
}

void
pr_handle_drag (const PrHandle *handle, const PrHoof *hoof, const PrPlan *start, const PrShoe *shoe, PrPt to,
                double snap, unsigned flags, PrPlan *plan)
{
  PrPt d = pr_pt_sub (to, handle->at);
  bool both = flags & PR_DRAG_BOTH;

  g_assert (plan != start);
  *plan = *start;
  if (d.x == 0 && d.y == 0)
    return;
  if (flags & PR_DRAG_FREE)
    snap = 0;
  if (!drag_along (handle, shoe, to, snap, both, plan))
    drag_by (handle, hoof, shoe, d, snap, both, plan);
}

static const char *
side_name (int branch)
{
  return branch == PR_MEDIAL ? _ ("medial") : _ ("lateral");
}

static const char *
knot_name (int knot)
{
  switch (knot) {
  case PR_KNOT_TOE_QUARTER_M:
  case PR_KNOT_TOE_QUARTER_L:
    return _ ("Toe quarter");
  case PR_KNOT_QUARTER_M:
  case PR_KNOT_QUARTER_L:
    return _ ("Quarter");
  default:
    return _ ("Heel quarter");
  }
}

/* NAME with a %s for the side. Transfer full. */
static char *
sided_name (const char *name, const PrHandle *handle)
{
  return g_strdup_printf (name, side_name (handle->branch));
}

char *
pr_handle_name (const PrHandle *handle)
{
  bool first = handle->index == 0;

  switch (handle->kind) {
  case PR_HANDLE_TOE:
    return g_strdup (_ ("Toe"));
  case PR_HANDLE_EDGE:
    return g_strdup_printf ("%s, %s", knot_name (handle->index), side_name (handle->branch));
  case PR_HANDLE_HEEL:
    return sided_name (_ ("Heel, %s"), handle);
  case PR_HANDLE_WEB:
    return first ? g_strdup (_ ("Web at the toe"))
                 : sided_name (handle->index == 1 ? _ ("Web at the quarter, %s") : _ ("Web at the heel, %s"),
                               handle);
  case PR_HANDLE_CREASE:
    return sided_name (first ? _ ("Start of the crease, %s") : _ ("End of the crease, %s"), handle);
  case PR_HANDLE_NAIL:
    return g_strdup_printf (_ ("Nail %d, %s"), handle->index + 1, side_name (handle->branch));
  case PR_HANDLE_CLIP:
    return sided_name (_ ("Clip, %s"), handle);
  case PR_HANDLE_EXTENSION:
    return first ? g_strdup (_ ("Front of the extension"))
                 : sided_name (_ ("Side of the extension, %s"), handle);
  default:
    return g_strdup (_ ("Bar"));
  }
}

static double
edge_of (const PrShoe *shoe, const PrHandle *handle)
{
  double place = pr_shoe_place_of (shoe, handle->branch, handle->at, NULL);

  return pr_shoe_place_to_edge (shoe, handle->branch, place);
}

static char *
outside_text (const PrHoof *hoof, PrPt at, PrUnit unit)
{
  double d = pr_hoof_outside (hoof, at);
  g_autofree char *text = pr_length_text (fabs (d), unit);

  return g_strdup_printf (d < 0 ? _ ("%s inside the wall") : _ ("%s outside the wall"), text);
}

/* Web, extension and bar: their sizes as the plan has them; HOW receives the words round it. */
static double
size_of (const PrHandle *handle, const PrPlan *plan, const char **how)
{
  int b = handle->branch;

  switch (handle->kind) {
  case PR_HANDLE_WEB:
    *how = _ ("web %s");
    return handle->index == 0 ? plan->web_toe : handle->index == 1 ? plan->web_quarter[b] : plan->web_heel[b];
  case PR_HANDLE_EXTENSION:
    *how = handle->index == 0 ? _ ("%s ahead of the foot") : _ ("%s wide");
    return handle->index == 0 ? plan->ext_ahead : plan->ext_width;
  default:
    *how = _ ("set back %s");
    return plan->bar_set_back;
  }
}

char *
pr_handle_value (const PrHandle *handle, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                 PrUnit unit)
{
  double past = plan->heel_past[handle->branch], mm;
  const char *how;

  switch (handle->kind) {
  case PR_HANDLE_TOE:
  case PR_HANDLE_EDGE:
    return outside_text (hoof, handle->at, unit);
  case PR_HANDLE_HEEL:
    how = past < 0 ? _ ("%s short of the buttress") : _ ("%s past the buttress");
    mm = fabs (past);
    break;
  case PR_HANDLE_CREASE:
  case PR_HANDLE_NAIL:
  case PR_HANDLE_CLIP:
    how = shoe->ext.present ? _ ("%s from the extension line, dividers") : _ ("%s from the toe, dividers");
    mm = pr_shoe_edge_straight (shoe, handle->branch, edge_of (shoe, handle));
    break;
  default:
    mm = size_of (handle, plan, &how);
  }
  g_autofree char *text = pr_length_text (mm, unit);
  return g_strdup_printf (how, text);
}
