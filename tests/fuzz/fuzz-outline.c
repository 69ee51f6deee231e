/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON of a tracing: an outline, and all that follows from it. */
#include "fuzz-job-kit.h"

#include <string.h>

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  /* long outlines are only slow */
  g_autoptr (JsonNode) node = size <= 40000 ? fuzz_json (data, size) : NULL;
  g_autoptr (PrJob) job = node != NULL ? pr_job_new () : NULL;
  GError *error = NULL;

  if (node == NULL || !fuzz_said (pr_job_take_trace_json (job, node, &error), &error, true))
    return 0;
  fuzz_must (job->hoof.width > 0 && isfinite (job->hoof.length) && isfinite (job->hoof.area),
             "a hoof without size");
  const PrStyle *style = fuzz_styles ()->pdata[size % fuzz_styles ()->len];
  if (fuzz_said (pr_job_set_style (job, style, &error), &error, false))
    fuzz_use_job (job);
  return 0;
}

static JsonNode *
traced (bool photo)
{
  g_autoptr (PrJob) job = fuzz_job ();

  if (photo) {
    PrTracing *t = job->sources.tracing;

    t->file = g_strdup ("a.jpg");
    t->width_px = 3000;
    t->height_px = 4000;
    t->raster = 8;
    t->pen_mm = 0.7;
    t->camera = (PrCamera){
      .h = { 14, 0.1, 20, 0.2, 14, 30, 1e-5, 2e-5, 1 }, .k1 = -0.01, .centre = { 1500, 2000 }, .radius = 2500
    };
    t->scale = (PrScale){ .method = PR_SCALE_SHEET,
                          .paper = PR_PAPER_A4,
                          .foot = PR_FOOT_LF,
                          .width_mm = 210,
                          .height_mm = 297,
                          .px_per_mm = 14,
                          .residual_mm = 0.1,
                          .tilt = 0.1,
                          .why = g_strdup ("Good.") };
    t->doubt = g_new0 (PrDoubt, 1);
    t->n_doubt = 1;
    t->doubt[0] = (PrDoubt){ 20, 30, g_strdup ("A gap.") };
    job->sources.marks.has_toe = true;
    job->sources.marks.toe = pr_foot_frame_out (&job->hoof.frame, job->hoof.toe);
    job->sources.marks.has_frog_apex = true;
    job->sources.marks.frog_apex = pr_foot_frame_out (&job->hoof.frame, pr_pt (2, 5));
    for (int side = 0; side < 2; side++) {
      job->sources.marks.has_buttress[side] = job->sources.marks.has_frog[side] = true;
      job->sources.marks.buttress[side] = pr_foot_frame_out (&job->hoof.frame, job->hoof.buttress[side]);
      job->sources.marks.frog[side]
          = pr_foot_frame_out (&job->hoof.frame, pr_pt (pr_side_sign (side) * 15, -40));
    }
    fuzz_must (pr_job_refresh_hoof (job, NULL), "the good landmarks are refused");
  }
  return pr_job_trace_json (job);
}

void
fuzz_seeds (GPtrArray *seeds)
{
  static const char *const figures[] = {
    "{\"outline_mm\":[[0,0],[0,0],[0,0],[0,0],[0,0],[0,0],[0,0],[0,0],[0,0]]}",
    "{\"outline_mm\":[[0,0],[100,0],[0,100],[100,100],[0,0],[100,0],[0,100],[100,100],[50,50]]}",
    "{\"outline_mm\":[[10,140],[10,60],[30,20],[70,5],[110,20],[130,60],[130,100],[125,140],[120,145]],"
    "\"foot\":\"RH\","
    "\"closed\":true,\"landmarks\":{\"toe\":[70,5],\"heel_medial\":[120,145]},\"landmarks_by_hand\":[\"toe\","
    "\"heel_medial\"],"
    "\"hoof\":{\"wall_toe_mm\":12}}",
    "{\"outline_mm\":[[0,50],[10,50],[20,50],[30,50],[40,50],[50,50],[60,50],[70,50],[80,50],[90,50]]}",
  };

  fuzz_seed_json (seeds, traced (false));
  fuzz_seed_json (seeds, traced (true));
  for (size_t i = 0; i < G_N_ELEMENTS (figures); i++)
    fuzz_seed_text (seeds, figures[i]);
  g_autofree char *deep = g_strnfill (30000, '[');
  fuzz_seed_text (seeds, deep);
}
