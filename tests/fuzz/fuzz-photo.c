/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures: decoded, and traced when they are small enough for a run to be quick. The way to the scale is
 * picked by a sum over the bytes, so that one input is always treated alike. */
#include "fuzz.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <string.h>

#include "pr-job.h"
#include "pr-photo-header.h"
#include "scene.h"

#define MOST_PIXELS (700 * 900)

static PrTraceOptions
pick_options (const PrPhoto *photo, GRand *rand)
{
  static const PrScaleMethod methods[] = { PR_SCALE_AUTO, PR_SCALE_AUTO, PR_SCALE_SHEET, PR_SCALE_PLAIN,
                                           PR_SCALE_CARD, PR_SCALE_RECT, PR_SCALE_RULER, PR_SCALE_DENSITY };
  PrTraceOptions o = PR_TRACE_OPTIONS_DEFAULT;

  o.method = methods[g_rand_int (rand) % G_N_ELEMENTS (methods)];
  o.paper = g_rand_boolean (rand) ? PR_PAPER_A4 : PR_PAPER_UNKNOWN;
  o.n_points = o.method == PR_SCALE_CARD || o.method == PR_SCALE_RECT ? 4
               : o.method == PR_SCALE_RULER                           ? 2
                                                                      : 0;
  for (size_t i = 0; i < o.n_points; i++) {
    /* now and then at a corner, or outside, or two in one place */
    bool right = i == 1 || i == 2, low = i >= 2;
    o.point[i] = (PrPx){ photo->width * (right ? 0.9 : 0.1), photo->height * (low ? 0.9 : 0.1) };
    if (g_rand_int_range (rand, 0, 3) == 0)
      o.point[i] = (PrPx){ g_rand_double_range (rand, -50, photo->width + 50),
                           g_rand_double_range (rand, -50, photo->height + 50) };
    if (i > 0 && g_rand_int_range (rand, 0, 12) == 0)
      o.point[i] = o.point[i - 1];
  }
  /* what is metres wide is slow to look through */
  double most = g_rand_int_range (rand, 0, 8) == 0 ? 2000 : 450;
  o.side_mm[0] = g_rand_boolean (rand) ? 210 : g_rand_double_range (rand, 1, most);
  o.side_mm[1] = g_rand_boolean (rand) ? 297 : g_rand_double_range (rand, 1, most);
  o.pen_mm = g_rand_boolean (rand) ? 0 : 0.7;
  return o;
}

static void
trace (const PrPhoto *photo, GRand *rand)
{
  PrTraceOptions o = pick_options (photo, rand);
  GError *error = NULL;
  PrTracing *tracing = pr_trace_photo (photo, &o, NULL, NULL, NULL, &error);

  if (!fuzz_said (tracing != NULL, &error, false))
    return;
  fuzz_must (tracing->n_outline >= 2 && tracing->scale.why != NULL, "a tracing without a line or a verdict");
  for (size_t i = 0; i < tracing->n_outline; i++)
    fuzz_must (isfinite (tracing->outline[i].x) && isfinite (tracing->outline[i].y), "a point nowhere");
  g_autoptr (PrJob) job = pr_job_new ();
  error = NULL;
  fuzz_said (pr_job_take_tracing (job, tracing, &error), &error, false);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  PrPhotoHeader head;
  GError *error = NULL;
  guint32 sum = 5381;

  pr_photo_header_read (&head, data, size);
  double pixels = (double) head.width * head.height;
  if (pixels > MOST_PIXELS && pixels < 121e6)
    return 0;
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);
  g_autoptr (PrPhoto) photo = pr_photo_decode (bytes, "a.jpg", &error);
  if (!fuzz_said (photo != NULL, &error, false))
    return 0;
  if (strcmp (head.format, "JPEG") == 0 || strcmp (head.format, "PNG") == 0)
    fuzz_must ((double) photo->width * photo->height == pixels, "not the size that its head told");
  for (size_t i = 0; i < size; i++)
    sum = sum * 33 + data[i];
  GRand *rand = g_rand_new_with_seed (sum);
  g_autofree uint8_t *grey = pr_photo_grey (photo);
  trace (photo, rand);
  g_rand_free (rand);
  return 0;
}

static GdkPixbuf *
seed_scene (GPtrArray *seeds, guint32 seed, bool tags)
{
  SceneOptions o;

  scene_defaults (&o);
  o.seed = seed;
  o.width = 360;
  o.height = 480;
  o.tags = tags;
  o.orientation = seed % 8 + 1;
  o.fill = 0.9;
  g_autoptr (Scene) scene = scene_render (&o);
  g_ptr_array_add (seeds, g_bytes_ref (scene->jpeg));
  g_autoptr (GInputStream) in = g_memory_input_stream_new_from_bytes (scene->jpeg);
  return gdk_pixbuf_new_from_stream (in, NULL, NULL);
}

static void
seed_as (GPtrArray *seeds, GdkPixbuf *pixbuf, const char *format)
{
  gchar *data = NULL;
  gsize len;

  if (gdk_pixbuf_save_to_bufferv (pixbuf, &data, &len, format, NULL, NULL, NULL))
    fuzz_seed (seeds, data, len);
  g_free (data);
}

void
fuzz_seeds (GPtrArray *seeds)
{
  static const char *const formats[] = { "jpeg", "png", "tiff", "bmp", "ico" };
  g_autoptr (GdkPixbuf) tagged = seed_scene (seeds, 0, true), plain = seed_scene (seeds, 5, false);
  /* small enough for damage to hit what matters */
  g_autoptr (GdkPixbuf) small = gdk_pixbuf_scale_simple (plain, 72, 96, GDK_INTERP_BILINEAR);
  g_autoptr (GdkPixbuf) alpha = gdk_pixbuf_add_alpha (small, TRUE, 255, 255, 255);

  for (size_t i = 0; i < G_N_ELEMENTS (formats); i++) {
    seed_as (seeds, small, formats[i]);
    seed_as (seeds, alpha, formats[i]);
  }
  seed_as (seeds, plain, "png");
  fuzz_seed_text (
      seeds, "<svg xmlns='http://www.w3.org/2000/svg' width='100' height='100'><path d='M9 9L90 90'/></svg>");
  fuzz_seed_text (seeds, "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 1 1'/>");
  fuzz_seed_text (seeds, "P3 70 70 255 1 2 3");
  fuzz_seed_text (seeds, "GIF89a");
  fuzz_seed (seeds, "", 0);
}
