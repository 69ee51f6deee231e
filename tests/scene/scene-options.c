/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scene-options.h"

void
scene_defaults (SceneOptions *options)
{
  *options = (SceneOptions){
    .seed = 1,
    .paper = PR_PAPER_A4,
    .foot = PR_FOOT_LF,
    .tags = true,
    .print_x = 1,
    .print_y = 1,
    .width = 3000,
    .height = 4000,
    .tilt_deg = 12,
    .tilt_dir_deg = 80,
    .turn_deg = 3,
    .fill = 0.8,
    .k1 = -0.02,
    .hoof_length = 134,
    .hoof_width = 128,
    .lean_mm = 3,
    .pen = SCENE_PEN_MARKER,
    .wobble_mm = 0.4,
    .bench = SCENE_BENCH_WOOD,
    .blur_px = 0.7,
    .noise = 3,
    .jpeg_quality = 90,
    .orientation = 1,
    .sheets = 1,
  };
}

void
scene_size (const SceneOptions *o, double *width, double *height)
{
  pr_paper_size (o->paper, width, height);
  if (o->leaf_mm[0] > 0) {
    *width = o->leaf_mm[0];
    *height = o->leaf_mm[1];
  }
}
