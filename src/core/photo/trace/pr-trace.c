/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-trace.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-camera-private.h"
#include "pr-ink-cover.h"
#include "pr-drawn-marks.h"
#include "pr-trace-figure.h"
#include "pr-hoof-line.h"
#include "pr-rectify.h"
#include "pr-scale.h"
#include "pr-debug-steps.h"
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
    t->scale.why = g_strdup (_ ("The sheet is flat, sharp and large enough in the picture."));
  if (!stage (watch, 0.3, _ ("laying the sheet flat"), error))
    return NULL;
  pr_tracing_rectify (t, photo);
  pr_debug_steps_raster (options->steps_dir, "3-flat.png", t);
  return g_steal_pointer (&t);
}

/* The frame turned clockwise by TURNS quarters, with the outline in it. */
static void
turn_frame (PrTracing *t, int turns)
{
  for (; turns > 0; turns--) {
    double w = t->scale.width_mm, h = t->scale.height_mm;
    const double m[6] = { 0, 1, 0, -1, 0, h };
    pr_camera_reframe (&t->camera, m);
    for (size_t i = 0; i < t->n_outline; i++)
      t->outline[i] = (PrSheetPt){ h - t->outline[i].y, t->outline[i].x };
    for (size_t i = 0; i < t->n_rest; i++)
      t->rest[i] = (PrSheetPt){ h - t->rest[i].y, t->rest[i].x };
    PrSheetPt *mark[] = { &t->drawn.toe, &t->drawn.frog_apex, &t->drawn.frog[0], &t->drawn.frog[1] };
    for (size_t i = 0; i < G_N_ELEMENTS (mark); i++)
      *mark[i] = (PrSheetPt){ h - mark[i]->y, mark[i]->x };
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
    pr_scale_lower_at (
        &t->scale, verdict,
        _ ("A lamp's reflection hides part of the line; tilt the lamp or the sheet and photograph it "
           "again, or check on the board how it was bridged."),
        job->white.at);
  if (job->covered.mm >= HIDDEN_TOLD)
    pr_scale_lower_at (
        &t->scale, verdict,
        _ ("Something lies on part of the line; take it away and photograph the sheet again, or check "
           "on the board how the line was bridged."),
        job->covered.at);
  return most && hidden >= HIDDEN_TOLD;
}

static double
outline_length (const PrTracing *t)
{
  double length = 0;

  for (size_t i = 1; i < t->n_outline; i++)
    length += hypot (t->outline[i].x - t->outline[i - 1].x, t->outline[i].y - t->outline[i - 1].y);
  return length;
}

static void
judge (PrTracing *t, const PrHoofLine *job)
{
  const char *why = _ ("Much of the line is faint or missing; check it on the board, or draw it "
                       "darker and photograph it again.");

  if (near_unseen (t))
    pr_scale_lower_at (&t->scale, PR_VERDICT_USABLE,
                       _ ("One of the four fiducials is not in the picture and the line comes near "
                          "its corner, where the measure is less sure; check it on the board."),
                       unseen_corner (t));
  if (job->rival)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("Two lines run round the sheet; check on the board that the hoof's was "
                       "taken."));
  if (job->faint)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("The line found is much fainter than other marks on the sheet; check on the "
                       "board that it is the hoof's."));
  if (job->straight)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("Part of the line is too straight for a hoof; check on the board that it is "
                       "not a fold or the edge of a shadow."));
  if (job->part)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("The line found does not go all the way from heel to heel; draw what is "
                       "missing by hand, or photograph it again."));
  if (job->narrow)
    pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                    _ ("The opening between the heels is so narrow that it may be a gap in a "
                       "closed line; check the heels on the board."));
  if (job->guessed)
    pr_scale_lower_at (&t->scale, PR_VERDICT_USABLE,
                       _ ("The line is drawn closed and its shape does not tell where the wall ends; "
                          "set the heels on the board."),
                       t->outline[t->heel_range[0] > t->heel_range[1] ? 0 : t->n_outline - 1]);
  if (judge_hidden (t, job, outline_length (t)))
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
  if (!by_hand (options) || !pr_trace_figure_take (t, photo, ink, options->pen_mm, least))
    return false;
  pr_scale_lower (&t->scale, PR_VERDICT_USABLE,
                  _ ("No hoof's line was found, so the largest closed line was taken; look on "
                     "the board whether it is the one you mean."));
  return true;
}

/* The hoof's line; where there is none, or a poor one within a larger figure, the largest closed
 * line, if OPTIONS let it be one. */
static bool
find_line (PrTracing *t, const PrPhoto *photo, const PrTraceOptions *options, const PrInkMap *ink,
           PrHoofLine *job, GError **error)
{
  g_autoptr (GError) none = NULL;

  if (!pr_hoof_line_find (job, ink, &none)) {
    if (take_figure (t, photo, options, ink, 0))
      return true;
    g_propagate_error (error, g_steal_pointer (&none));
    return false;
  }
  double larger = job->straight && job->guessed ? FIGURE_INKED : FIGURE_LARGER;
  if ((job->part || job->unturned || job->straight || job->doubtful > DOUBT_RETAKE)
      && take_figure (t, photo, options, ink, larger * area_within (t))) {
    job->turns = 0;
    return true;
  }
  if (!pr_width_check_likely (t, job->part, error))
    return false;
  pr_drawn_marks_find (t, ink);
  judge (t, job);
  pr_width_check_ask (t, options->foot, job->part);
  if (!job->part)
    pr_width_check_tell (t);
  return true;
}

static bool
trace_line (PrTracing *t, const PrPhoto *photo, const PrTraceOptions *options, const Watch *watch,
            GError **error)
{
  g_auto (PrInkMap) ink = { 0 };
  PrHoofLine job = { .tracing = t, .pen_mm = options->pen_mm, .may_turn = t->scale.method != PR_SCALE_SHEET };

  if (!stage (watch, 0.5, _ ("evening out the light"), error))
    return false;
  pr_ink_map_make (&ink, t);
  pr_ink_cover_take_out (&ink);
  pr_debug_steps_map (options->steps_dir, "4-dark.png", ink.dark, ink.ridge_width, ink.ridge_height,
                      DARK_WHITE);
  pr_debug_steps_map (options->steps_dir, "5-ridge.png", ink.ridge, ink.ridge_width, ink.ridge_height,
                      RIDGE_WHITE);
  if (!stage (watch, 0.7, _ ("finding the line"), error) || !find_line (t, photo, options, &ink, &job, error))
    return false;
  if (job.may_turn && job.turns != 0) {
    turn_frame (t, job.turns);
    pr_tracing_rectify (t, photo);
  }
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
  return g_steal_pointer (&t);
}
