/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-hoof.h"

#include <glib/gi18n-lib.h>

#include "pr-error.h"
#include "pr-hoof-centre.h"
#include "pr-hoof-measures.h"
#include "pr-limits.h"
#include "pr-spline.h"
#include "pr-tracing-heels.h"

#define OUTLINE_STEP_MM 1.0 /* finer than any hand draws a wall */

PrPt
pr_foot_frame_in (const PrFootFrame *frame, PrSheetPt p)
{
  PrPt d = pr_pt (p.x - frame->origin.x, p.y - frame->origin.y);

  return pr_pt (pr_pt_dot (d, frame->ex), pr_pt_dot (d, frame->ey));
}

PrSheetPt
pr_foot_frame_out (const PrFootFrame *frame, PrPt p)
{
  return (PrSheetPt){ frame->origin.x + p.x * frame->ex.x + p.y * frame->ey.x,
                      frame->origin.y + p.x * frame->ex.y + p.y * frame->ey.y };
}

void
pr_hoof_clear (PrHoof *hoof)
{
  pr_path_clear (&hoof->outline);
  *hoof = (PrHoof){ 0 };
}

void
pr_hoof_copy (PrHoof *to, const PrHoof *from)
{
  PrPath outline = to->outline;

  if (to == from)
    return;
  pr_path_copy (&outline, &from->outline);
  *to = *from;
  to->outline = outline;
}

/* Lateral is to the right of the toe direction on the sheet (y down) for a right foot seen from
 * above, to the left for a left one. */
static void
frame_set (PrFootFrame *frame, PrFoot foot, PrSheetPt origin, PrPt toeward)
{
  double sign = pr_lateral_sign (foot, PR_FACE_FOOT);

  frame->origin = origin;
  frame->ey = toeward;
  frame->ex = pr_pt (-toeward.y * sign, toeward.x * sign);
}

/* The edge on the lateral side, as the frog lies. */
static int
lateral_edge (const PrDrawnMarks *drawn, PrFoot foot)
{
  PrSheetPt a = drawn->frog[0], b = drawn->frog[1];
  PrPt toeward = pr_pt (drawn->frog_apex.x - (a.x + b.x) / 2, drawn->frog_apex.y - (a.y + b.y) / 2);
  PrFootFrame frame;

  frame_set (&frame, foot, a, toeward);
  return pr_pt_dot (pr_pt (b.x - a.x, b.y - a.y), frame.ex) > 0 ? 1 : 0;
}

void
pr_landmarks_add_drawn (PrLandmarks *marks, const PrDrawnMarks *drawn, PrFoot foot)
{
  bool frog_by_hand = marks->has_frog_apex || marks->has_frog[0] || marks->has_frog[1];
  int lateral = lateral_edge (drawn, foot);

  marks->toe_first = marks->has_toe && !frog_by_hand;
  if (drawn->tick == PR_DRAWN_SURE && !marks->has_toe) {
    marks->has_toe = true;
    marks->toe = drawn->toe;
  }
  if (drawn->frog_lines != PR_DRAWN_SURE)
    return;
  if (!marks->has_frog_apex)
    marks->frog_apex = drawn->frog_apex;
  marks->has_frog_apex = true;
  for (int side = 0; side < 2; side++) {
    if (!marks->has_frog[side])
      marks->frog[side] = drawn->frog[side == PR_LATERAL ? lateral : 1 - lateral];
    marks->has_frog[side] = true;
  }
}

/* The foremost crossing of the centre line x = 0. */
static bool
find_toe (PrHoof *hoof)
{
  double s[16];
  size_t n = MIN (pr_path_crossings (&hoof->outline, pr_pt (0, 0), pr_pt (0, 1), s, 16), 16);
  bool found = false;

  for (size_t i = 0; i < n; i++) {
    PrPt p = pr_path_at (&hoof->outline, s[i], NULL);

    if (!found || p.y > hoof->toe.y) {
      hoof->toe = pr_pt (0, p.y);
      hoof->toe_s = s[i];
      found = true;
    }
  }
  return found;
}

static bool
refuse (GError **error, const char *what)
{
  g_set_error (error, PR_ERROR, PR_ERROR_SHAPE,
               _ ("This outline cannot be a foot's: %s. Check the scale, or draw the outline by hand."),
               what);
  return false;
}

static bool
usable (const PrSheetPt *outline, size_t n, GError **error)
{
  if (n < 8)
    return refuse (error, _ ("it has fewer than 8 points"));
  for (size_t i = 0; i < n; i++)
    if (!isfinite (outline[i].x) || !isfinite (outline[i].y))
      return refuse (error, _ ("a point of it is not a number"));
  return true;
}

/* Frame with its origin on the centre line, level with the buttresses; outline laid into it, medial heel first. */
static void
lay_out (PrHoof *hoof, const PrPath *sheet, const PrCentreLine *centre)
{
  g_auto (PrPath) fine = { 0 };
  double length = pr_path_length (sheet);

  pr_path_resample (&fine, sheet, MAX (64, (size_t) (length / OUTLINE_STEP_MM)));
  frame_set (&hoof->frame, hoof->foot, (PrSheetPt){ centre->through.x, centre->through.y }, centre->toeward);
  hoof->centre = centre->from;
  pr_path_empty (&hoof->outline);
  for (size_t i = 0; i < fine.n; i++)
    pr_path_add (&hoof->outline, pr_foot_frame_in (&hoof->frame, (PrSheetPt){ fine.p[i].x, fine.p[i].y }));
  if (hoof->outline.p[0].x > hoof->outline.p[hoof->outline.n - 1].x)
    pr_path_reverse (&hoof->outline);
}

/* Origin from the middle of the heels forward to the widest line. */
static void
move_origin (PrHoof *hoof, double y)
{
  hoof->frame.origin = pr_foot_frame_out (&hoof->frame, pr_pt (0, y));
  for (size_t i = 0; i < hoof->outline.n; i++)
    hoof->outline.p[i].y -= y;
  hoof->toe.y -= y;
}

/* A buttress set by hand is taken to the nearest point of the outline. */
static void
find_buttresses (PrHoof *hoof, const PrLandmarks *marks)
{
  hoof->buttress[PR_MEDIAL] = hoof->outline.p[0];
  hoof->buttress[PR_LATERAL] = hoof->outline.p[hoof->outline.n - 1];
  for (int side = 0; side < 2; side++)
    if (marks->has_buttress[side])
      pr_path_nearest (&hoof->outline, pr_foot_frame_in (&hoof->frame, marks->buttress[side]), NULL,
                       &hoof->buttress[side]);
}

/* Before anything is found on it: heel to heel round the toe a foot's line is at least twice as long as the foot is
 * wide, and never six times; a scribble is longer. */
static bool
right_length (const PrPath *sheet)
{
  double length = pr_path_length (sheet);

  return length >= 2 * pr_limit ("hoof.least")->mend && length <= 6 * pr_limit ("hoof.most")->mend;
}

static bool
right_size (const PrHoof *hoof, GError **error)
{
  g_autofree char *size
      = g_strdup_printf (_ ("it is %.0f mm wide and %.0f mm long"), hoof->width, hoof->length);

  return (pr_limit_takes ("hoof", hoof->width, NULL, NULL)
          && pr_limit_takes ("hoof", hoof->length, NULL, NULL))
         || refuse (error, size);
}

static void
place_marks (PrHoof *hoof, const PrLandmarks *marks)
{
  hoof->has_toe_mark = marks->has_toe;
  hoof->toe_mark = pr_foot_frame_in (&hoof->frame, marks->toe);
  hoof->has_frog_apex = marks->has_frog_apex;
  hoof->frog_apex = pr_foot_frame_in (&hoof->frame, marks->frog_apex);
  for (int side = 0; side < 2; side++) {
    hoof->has_frog[side] = marks->has_frog[side];
    hoof->frog[side] = pr_foot_frame_in (&hoof->frame, marks->frog[side]);
  }
}

static void
usual_wall (PrHoof *hoof)
{
  double width = hoof->width;

  hoof->wall[0] = MIN (pr_limit_share ("wall.guess.toe", width).mend, pr_limit ("wall.guess.toe.most")->mend);
  hoof->wall[1]
      = MIN (pr_limit_share ("wall.guess.quarter", width).mend, pr_limit ("wall.guess.quarter.most")->mend);
  hoof->wall[2] = pr_limit_share ("wall.guess.heel", width).mend;
}

/* HOOF, whose foot and closing are set, from a line in sheet mm that can be a foot's. */
static bool
make (PrHoof *hoof, const PrPath *sheet, const PrLandmarks *marks, GError **error)
{
  PrCentreLine centre = pr_centre_line (sheet, marks);
  double y = 0;

  if (pr_pt_len (centre.toeward) < 0.5)
    return refuse (error, _ ("toe and heels lie in one place"));
  lay_out (hoof, sheet, &centre);
  if (!find_toe (hoof) || hoof->toe.y < pr_limit ("hoof.least")->mend / 2
      || !pr_measure_widest (&hoof->outline, 0, hoof->toe.y, &y))
    return refuse (error, _ ("it does not go round a toe"));
  move_origin (hoof, y);
  find_buttresses (hoof, marks);
  place_marks (hoof, marks);
  pr_measure_hoof (hoof);
  usual_wall (hoof);
  return right_size (hoof, error);
}

bool
pr_hoof_from_outline (PrHoof *out, const PrSheetPt *outline, size_t n, bool closed, PrFoot foot,
                      const PrLandmarks *marks, GError **error)
{
  static const PrLandmarks none = { 0 };
  g_auto (PrHoof) hoof = { .foot = foot, .closed = closed };
  g_auto (PrPath) sheet = { 0 };

  pr_hoof_clear (out);
  if (!usable (outline, n, error))
    return false;
  for (size_t i = 0; i < n; i++)
    pr_path_add (&sheet, pr_pt (outline[i].x, outline[i].y));
  if (!right_length (&sheet))
    return refuse (error, _ ("its length is not that of a foot"));
  if (!make (&hoof, &sheet, marks ? marks : &none, error))
    return false;
  *out = hoof;
  hoof = (PrHoof){ 0 };
  return true;
}

bool
pr_hoof_of_tracing (PrHoof *out, PrTracing *t, PrFoot foot, const PrLandmarks *marks, GError **error)
{
  PrLandmarks all = *marks;

  for (int side = 0; side < 2; side++)
    if (marks->has_buttress[side])
      pr_tracing_set_heel (t, marks->buttress[side]);
  pr_landmarks_add_drawn (&all, &t->drawn, foot);
  return pr_hoof_from_outline (out, t->outline, t->n_outline, t->closed, foot, &all, error);
}

bool
pr_hoof_takes_wall (const PrHoof *hoof, double mm, double *least, double *most)
{
  double third = hoof && hoof->width > 0 ? pr_hoof_wall_most (hoof) : INFINITY, high;
  bool takes = pr_limit_takes ("wall", mm, least, &high);

  if (most)
    *most = MIN (high, third);
  return takes && mm <= third;
}

bool
pr_hoof_wall_is_guess (const PrHoof *hoof)
{
  return !(hoof->wall_known[0] && hoof->wall_known[1] && hoof->wall_known[2]);
}

double
pr_hoof_wall (const PrHoof *hoof, double t)
{
  static const double at[3] = { 0, 0.5, 1 };

  return pr_monotone (at, hoof->wall, 3, t);
}
