/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "photo-kit.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

void
scene_of_width (SceneOptions *o, guint32 seed, int width)
{
  scene_defaults (o);
  o->seed = seed;
  o->width = width;
  o->height = width * 4 / 3;
}

PrPhoto *
photo_taken (const Scene *scene)
{
  g_autoptr (GError) error = NULL;
  PrPhoto *photo = pr_photo_decode (scene->jpeg, "scene.jpg", &error);

  if (photo == NULL)
    fail_msg ("%s", error->message);
  return photo;
}

PrPhoto *
photo_copy (const PrPhoto *photo)
{
  PrPhoto *copy = g_memdup2 (photo, sizeof *photo);

  copy->rgb = g_memdup2 (photo->rgb, photo->stride * (size_t) photo->height);
  copy->pixels = NULL; /* its own, to be painted on */
  copy->name = g_strdup (photo->name);
  return copy;
}

PrTracing *
photo_traced (const PrPhoto *photo, const PrTraceOptions *options, const char *what)
{
  const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (GError) error = NULL;
  PrTracing *t = pr_trace_photo (photo, options ? options : &usual, NULL, NULL, NULL, &error);

  if (t == NULL)
    fail_msg ("%s: refused: %s", what, error->message);
  return t;
}

void
print_measure (const char *what, const Measure *m, const PrTracing *t)
{
  print_message ("%-22s line %.3f %.3f %.3f  heels %.2f %.2f  silent %.1f  %s %s\n", what, m->line_mean,
                 m->line_p95, m->line_max, m->heel[0], m->heel[1], m->silent, t->closed ? "closed" : "open",
                 pr_verdict_code (t->scale.verdict));
}

PrTracing *
scene_traced (const SceneOptions *o, const char *what, Measure *m)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (Scene) scene = scene_render (o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);

  options.paper = o->paper;
  if (!o->tags)
    options.method = PR_SCALE_PLAIN;
  PrTracing *t = photo_traced (photo, &options, what);
  measure_tracing (m, t, scene, o->paper);
  print_measure (what, m, t);
  return t;
}
