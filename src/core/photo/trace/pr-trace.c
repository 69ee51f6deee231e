/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-trace.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-camera-private.h"
#include "pr-ink-cover.h"
#include "pr-drawn-marks.h"
#include "pr-trace-figure.h"
#include "pr-tracing-heels.h"
#include "pr-tracing-lines.h"
#include "pr-hoof-choice.h"
#include "pr-rectify.h"
#include "pr-scale.h"
#include "pr-debug-steps.h"
#include "pr-ink-side.h"
#include "pr-line-look.h"
#include "pr-width-check.h"

/* Share of the outline that is bridged or doubted from which the whole is lowered: a gap of two fingers, and a third
 * of the line. Chosen, not measured. */
#define DOUBT_USABLE 0.10
#define DOUBT_RETAKE 0.30
/* Hidden stretches are told from this, mm: a coin or a thumb's tip; and speak for all that is doubtful when they are
 * more than this share of it. */
#define HIDDEN_TOLD 10.0
#define HIDDEN_MOST 0.5
/* A printed sheet's corner whose fiducial is not seen reaches so far towards the diagonal of its
 * neighbours: what lies there hangs on the three others. */
#define UNSEEN_REACH 0.5
/* A poor line gives way to a closed figure so many times as large; one with straight parts and no heels, which is
 * hardly a hoof's, to one half as large, as that is inked all the way round. */
#define FIGURE_LARGER 1.5
#define FIGURE_INKED 0.5
/* How white the pictures of the maps are made, of their unit, to be looked at. */
#define DARK_WHITE 0.8
#define RIDGE_WHITE 0.4

typedef struct {
  PrProgress progress;
  gpointer data;
  GCancellable *cancellable;
} Watch;

/* FALSE when the work was called off. */
static bool
stage (const Watch *watch, double done, const char *what, GError **error)
{
  if (watch->progress != NULL)
    watch->progress (done, what, watch->data);
  return !g_cancellable_set_error_if_cancelled (watch->cancellable, error);
}

static PrTracing *
trace_scale (const PrPhoto *photo, const PrTraceOptions *options, const Watch *watch, GError **error)
{
  g_autoptr (PrTracing) t = g_new0 (PrTracing, 1);

  if (!stage (watch, 0, _ ("finding the sheet"), error))
    return NULL;
  t->file = g_strdup (photo->name);
  t->width_px = photo->width;
  t->height_px = photo->height;
  g_autofree uint8_t *grey = pr_photo_grey (photo);
  pr_debug_steps_photo (options->steps_dir, "1-photo.png", photo, NULL);
  if (!pr_scale_find (t, photo, grey, options, error))
    return NULL;
  if (t->scale.why == NULL)
    t->scale.why = g_strdup (pr_scale_nothing_wrong ());
  if (!stage (watch, 0.3, _ ("laying the sheet flat"), error))
    return NULL;
  pr_tracing_rectify (t, photo);
  pr_debug_steps_raster (options->steps_dir, "3-flat.png", t);
  return g_steal_pointer (&t);
}

/* A line and its marks in a frame H mm high, turned clockwise with it. */
static void
turn_line (PrFootLine *line, double h)
{
  PrDrawnMarks *drawn = &line->drawn;
  PrSheetPt *mark[] = { &drawn->toe, &drawn->frog_apex, &drawn->frog[0], &drawn->frog[1] };

  for (size_t i = 0; i < line->n_outline; i++)
    line->outline[i] = (PrSheetPt){ h - line->outline[i].y, line->outline[i].x };
  for (size_t i = 0; i < line->n_rest; i++)
    line->rest[i] = (PrSheetPt){ h - line->rest[i].y, line->rest[i].x };
  for (size_t i = 0; i < G_N_ELEMENTS (mark); i++)
    *mark[i] = (PrSheetPt){ h - mark[i]->y, mark[i]->x };
}

/* The frame turned clockwise by TURNS quarters, with the lines in it. */
static void
turn_frame (PrTracing *t, int turns)
{
  for (; turns > 0; turns--) {
    double w = t->scale.width_mm, h = t->scale.height_mm;
    const double m[6] = { 0, 1, 0, -1, 0, h };
    pr_camera_reframe (&t->camera, m);
    PrFootLine own = pr_foot_line_of (t);
    turn_line (&own, h);
    t->drawn = own.drawn;
    for (size_t i = 0; i < t->n_other; i++)
      turn_line (&t->other[i], h);
    if (t->scale.method == PR_SCALE_SHEET)
      t->scale.turns = (t->scale.turns + 1) % 4;
    for (size_t i = 0; i < t->scale.n_reasons; i++) {
      PrSheetPt *at = &t->scale.reason[i].at;

      *at = (PrSheetPt){ h - at->y, at->x };
    }
    t->scale.width_mm = h;
    t->scale.height_mm = w;
  }
}

/* Where the fiducial that is not seen would be. */
static PrSheetPt
unseen_corner (const PrTracing *t)
{
  bool right = t->scale.unseen == 1 || t->scale.unseen == 2, low = t->scale.unseen >= 2;

  return (PrSheetPt){ right ? t->scale.width_mm : 0, low ? t->scale.height_mm : 0 };
}

/* Does the line come near the corner whose fiducial is not seen? The frame is still the sheet's. */
static bool
near_unseen (const PrTracing *t)
{
  double w = t->scale.width_mm, h = t->scale.height_mm;
  bool right = t->scale.unseen == 1 || t->scale.unseen == 2, low = t->scale.unseen >= 2;

  for (size_t i = 0; i < t->n_outline && t->scale.unseen >= 0; i++) {
    double x = t->outline[i].x / w, y = t->outline[i].y / h;
    if ((right ? 1 - x : x) + (low ? 1 - y : y) < 1 - UNSEEN_REACH)
      return true;
  }
  return false;
}

/* What hides the line is told by name, for what helps against a faint line does not help here. TRUE when most of what
 * is doubtful is hidden. */
static bool
judge_hidden (PrTracing *t, const PrHoofLine *job, double length)
{
  double hidden = job->white.mm + job->covered.mm;
  bool most = hidden > HIDDEN_MOST * job->doubtful * length;
  PrVerdict verdict = most && job->doubtful > DOUBT_RETAKE ? PR_VERDICT_RETAKE : PR_VERDICT_USABLE;

  if (job->white.mm >= HIDDEN_TOLD)
    pr_scale_lower_at (&t->scale, verdict,
                       _ ("A lamp's reflection hides part of the tracing; tilt the lamp or the sheet and "
                          "photograph it again, or check on the board how it was bridged."),
                       job->white.at);
  if (job->covered.mm >= HIDDEN_TOLD)
    pr_scale_lower_at (&t->scale, verdict,
                       _ ("Something lies on part of the tracing; take it away and photograph the sheet "
                          "again, or check on the board how the outline was bridged."),
                       job->covered.at);
  return most && hidden >= HIDDEN_TOLD;
}

static void
judge (PrTracing *t, const PrHoofLine *job)
{
  const char *why = _ ("Much of the tracing is faint or missing; check the outline on the board, or draw the "
                       "tracing darker and photograph it again.");

  if (near_unseen (t))
    pr_scale_lower_at (&t->scale, PR_VERDICT_USABLE,
                       _ ("One of the four corner marks is not in the photo and the tracing comes near its "
                          "corner, where the measure is less sure; check it on the board."),
                       unseen_corner (t));
  if (t->n_other > 0)
    pr_scale_lower_about (&t->scale, PR_VERDICT_USABLE, PR_ABOUT_FEET,
                          _ ("More than one foot is drawn here, and one of them was taken; press the outline "
                             "of another on the board to take that one."),
                          &t->other[0].outline[t->other[0].n_outline / 2]);
  else if (job->rival)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("Two lines run round the sheet; check on the board that the foot's was taken."));
  if (job->faint)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("The outline found is much fainter than other marks on the sheet; check on the board "
                       "that it is the foot's."));
  if (job->straight)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("Part of the outline is too straight for a foot; check on the board that it is not a "
                       "fold or the edge of a shadow."));
  if (job->part)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("The outline found does not go all the way from heel to heel; draw what is missing by "
                       "hand, or photograph it again."));
  if (job->narrow)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("The opening between the heels is so narrow that it may be a gap in a "
                       "closed line; check the heels on the board."));
  pr_tracing_ask_heels (t);
  if (judge_hidden (t, job, pr_tracing_length (t)))
    return;
  if (job->doubtful > DOUBT_RETAKE)
    pr_scale_lower (&t->scale, PR_VERDICT_RETAKE, why);
  else if (job->doubtful > DOUBT_USABLE)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE, why);
}

/* Did a person say what gives the scale, so that any drawing may be meant? */
static bool
by_hand (const PrTraceOptions *o)
{
  return o->method != PR_SCALE_AUTO && o->method != PR_SCALE_SHEET && o->method != PR_SCALE_PLAIN;
}

/* Surface within the line, closed straight, mm2. */
static double
area_within (const PrTracing *t)
{
  double twice = 0;

  for (size_t i = 0; i < t->n_outline; i++) {
    PrSheetPt a = t->outline[i], b = t->outline[(i + 1) % t->n_outline];
    twice += a.x * b.y - a.y * b.x;
  }
  return fabs (twice) / 2;
}

static bool
take_figure (PrTracing *t, const PrPhoto *photo, const PrTraceOptions *options, const PrInkMap *ink,
             double least)
{
  if (t->light || !by_hand (options) || !pr_trace_figure_take (t, photo, ink, options->pen_mm, least))
    return false;
  pr_tracing_drop_others (t);
  pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                  _ ("No outline of a foot was found, so the largest closed line was taken; check on the "
                     "board that it is the one you mean."));
  return true;
}

static void
find_marks (PrTracing *t, const PrInkMap *ink)
{
  pr_drawn_marks_find (t, ink);
  for (size_t i = 0; i < t->n_other; i++) {
    pr_tracing_swap_other (t, i);
    pr_drawn_marks_find (t, ink);
    pr_tracing_swap_other (t, i);
  }
}

/* What LOOK has found; where there is no hoof's line, or a poor one within a larger figure, the largest closed
 * line, if OPTIONS let it be one. */
static bool
judge_line (PrTracing *t, const PrPhoto *photo, const PrTraceOptions *options, PrLineLook *look,
            GError **error)
{
  const PrInkMap *ink = &look->ink;
  PrHoofLine *job = &look->job;

  if (t->n_outline == 0) {
    job->turns = 0;
    if (take_figure (t, photo, options, ink, 0))
      return true;
    g_propagate_error (error, g_steal_pointer (&look->error));
    return false;
  }
  double larger = job->straight && job->guessed ? FIGURE_INKED : FIGURE_LARGER;
  if ((job->part || job->unturned || job->straight || job->doubtful > DOUBT_RETAKE)
      && take_figure (t, photo, options, ink, larger * area_within (t))) {
    job->turns = 0;
    return true;
  }
  if (!pr_width_check_likely (t, job->part, options->unit, error))
    return false;
  find_marks (t, ink);
  judge (t, job);
  if (!options->paper_sure)
    pr_width_check_ask (t, options->foot, job->part, options->unit);
  if (!job->part)
    pr_width_check_tell (t, options->unit);
  return true;
}

/* The frame is turned so that the toe is up; on a printed sheet, which says where it goes, that is told. */
static void
turn_up (PrTracing *t, const PrPhoto *photo, int turns)
{
  static const char *const told[4] = {
    NULL,
    N_ ("The foot is drawn with its toe to the left of the printed sheet; it is shown turned, with the "
        "toe up."),
    N_ ("The foot is drawn with its toe to the foot of the printed sheet; it is shown turned, with the "
        "toe up."),
    N_ ("The foot is drawn with its toe to the right of the printed sheet; it is shown turned, with the "
        "toe up."),
  };

  if (turns == 0)
    return;
  if (t->scale.method == PR_SCALE_SHEET)
    pr_scale_lower (&t->scale, PR_VERDICT_GOOD, _ (told[turns]));
  turn_frame (t, turns);
  pr_tracing_rectify (t, photo);
}

static bool
trace_line (PrTracing *t, const PrPhoto *photo, const PrTraceOptions *options, const Watch *watch,
            GError **error)
{
  g_auto (PrLineLook) look = { 0 };

  if (!stage (watch, 0.5, _ ("evening out the light"), error))
    return false;
  pr_line_look_begin (&look, t, options);
  pr_debug_steps_map (options->steps_dir, "4-dark.png", look.ink.dark, look.ink.ridge_width,
                      look.ink.ridge_height, DARK_WHITE);
  pr_debug_steps_map (options->steps_dir, "5-ridge.png", look.ink.ridge, look.ink.ridge_width,
                      look.ink.ridge_height, RIDGE_WHITE);
  if (!stage (watch, 0.7, _ ("finding the outline"), error))
    return false;
  pr_line_look_find (&look, t, options);
  if (!judge_line (t, photo, options, &look, error))
    return false;
  turn_up (t, photo, look.job.turns);
  pr_debug_steps_raster (options->steps_dir, "6-line.png", t);
  return stage (watch, 1, _ ("done"), error);
}

PrTracing *
pr_trace_photo (const PrPhoto *photo, const PrTraceOptions *options, PrProgress progress, gpointer data,
                GCancellable *cancellable, GError **error)
{
  Watch watch = { progress, data, cancellable };
  g_autoptr (PrTracing) t = trace_scale (photo, options, &watch, error);

  if (t == NULL || !trace_line (t, photo, options, &watch, error))
    return NULL;
  return g_steal_pointer (&t);
}

PrTracing *
pr_trace_scale (const PrPhoto *photo, const PrTraceOptions *options, PrProgress progress, gpointer data,
                GCancellable *cancellable, GError **error)
{
  Watch watch = { progress, data, cancellable };
  g_autoptr (PrTracing) t = trace_scale (photo, options, &watch, error);

  if (t == NULL || !stage (&watch, 1, _ ("done"), error))
    return NULL;
  t->light = pr_ink_side (t) == PR_INK_SIDE_RATHER_LIGHT;
  return g_steal_pointer (&t);
}
