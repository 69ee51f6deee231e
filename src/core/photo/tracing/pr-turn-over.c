/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-turn-over.h"

#include <string.h>

#include "pr-camera-private.h"
#include "pr-pose.h"

/* Others may share the raster there is, which is never written: this is a new one. */
static void
turn_raster (PrTracing *t)
{
  gsize width = (gsize) t->raster_width, height = (gsize) t->raster_height;
  uint8_t *turned = g_atomic_rc_box_alloc (3 * width * height);

  for (gsize row = 0; row < height; row++) {
    const uint8_t *from = t->raster_rgb + 3 * width * row;
    uint8_t *to = turned + 3 * width * (row + 1);

    for (gsize col = 0; col < width; col++, from += 3)
      memcpy (to -= 3, from, 3);
  }
  pr_tracing_drop_raster (t);
  t->raster_rgb = turned;
}

void
pr_tracing_turn_over (PrTracing *t)
{
  const double over[6] = { -1, 0, t->scale.width_mm, 0, 1, 0 };

  g_return_if_fail (pr_tracing_has_scale (t) && !t->outline && t->n_other == 0);
  pr_camera_reframe (&t->camera, over);
  for (size_t i = 0; i < t->scale.n_reasons; i++)
    t->scale.reason[i].at.x = t->scale.width_mm - t->scale.reason[i].at.x;
  if (t->raster_rgb)
    turn_raster (t);
}

void
pr_tracing_raise (PrTracing *t, double z, double focal35)
{
  PrPose pose;

  if (t->camera.bend.length > 0 || !pr_pose (&pose, &t->camera, focal35) || !(z < pose.height))
    return;
  double larger = pr_pose_larger (&pose, z);
  const double raised[6] = { larger, 0, pose.foot.x * (1 - larger), 0, larger, pose.foot.y * (1 - larger) };

  pr_camera_reframe (&t->camera, raised);
  pr_tracing_drop_raster (t);
}
