/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-scale-verdict.h"

#include <glib/gi18n-lib.h>

/* Photo pixels per mm: a thin pen must be 2 pixels wide; at 3 a marker's stroke is 5. */
#define DENSITY_USABLE 5.0
#define DENSITY_RETAKE 3.0
/* Off the sheet's normal: on our own scenes errors grow from 42 degrees on, and the far side is not sharp any
 * more at 55. */
#define TILT_USABLE (42 * G_PI / 180)
#define TILT_RETAKE (55 * G_PI / 180)

void
pr_scale_lower (PrScale *scale, PrVerdict verdict, const char *why)
{
  pr_scale_lower_about (scale, verdict, PR_ABOUT_ELSE, why, NULL);
}

void
pr_scale_ask (PrScale *scale, PrQuestion question, const char *why)
{
  pr_scale_lower_about (scale, PR_VERDICT_USABLE, PR_ABOUT_ELSE, why, NULL);
  scale->question = question;
  if (scale->verdict != PR_VERDICT_USABLE)
    return;
  g_free (scale->why);
  scale->why = g_strdup (why);
}

void
pr_scale_lower_at (PrScale *scale, PrVerdict verdict, const char *why, PrSheetPt at)
{
  pr_scale_lower_about (scale, verdict, PR_ABOUT_ELSE, why, &at);
}

void
pr_scale_lower_by (PrScale *scale, double value, double usable, double retake, const char *why)
{
  if (value > retake)
    pr_scale_lower (scale, PR_VERDICT_RETAKE, why);
  else if (value > usable)
    pr_scale_lower (scale, PR_VERDICT_USABLE, why);
}

/* What every method has in common, once camera, size and residual stand. */
void
pr_scale_measure (PrTracing *t)
{
  PrScale *s = &t->scale;

  s->px_per_mm = pr_camera_px_per_mm (&t->camera, (PrSheetPt){ s->width_mm / 2, s->height_mm / 2 });
  s->tilt = pr_camera_tilt (&t->camera);
  pr_scale_lower_by (s, -s->px_per_mm, -DENSITY_USABLE, -DENSITY_RETAKE,
                     _ ("The sheet is small in the photo; come closer until it fills the photo."));
  pr_scale_lower_by (s, s->tilt, TILT_USABLE, TILT_RETAKE,
                     _ ("The photo was taken from too low; hold the camera more squarely over the sheet."));
}
