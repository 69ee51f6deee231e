/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scene.h"

#include <math.h>
#include <string.h>
#include "scene-parts.h"

#define TEXTURE_MOST 16.0 /* texels per mm */
#define TEXTURE_LEAST 6.0
#define TEXTURE_OVER 1.35 /* texels per photo pixel at the nearest corner */
#define BESIDE_MM 14.0    /* between two sheets */

static double
sheet_px_per_mm (const PrCamera *cam, double width, double height)
{
  PrSheetPt p[4] = { { 0, 0 }, { width, 0 }, { width, height }, { 0, height } };
  double most = 0;

  for (int i = 0; i < 4; i++) {
    PrPx a = camera_project (cam, p[i]);
    PrPx b = camera_project (cam, (PrSheetPt){ p[i].x + 1, p[i].y });
    PrPx c = camera_project (cam, (PrSheetPt){ p[i].x, p[i].y + 1 });
    most = fmax (most, fmax (hypot (b.x - a.x, b.y - a.y), hypot (c.x - a.x, c.y - a.y)));
  }
  return most;
}

/* The other foot of the pair, on its own sheet, a little askew. */
static void
second_sheet (Texture *t, Stage *stage, const SceneOptions *o, double res, double width)
{
  static const PrFoot other[] = { PR_FOOT_ANY, PR_FOOT_RF, PR_FOOT_LF, PR_FOOT_RH, PR_FOOT_LH };
  SceneOptions second = *o;
  HoofLine hoof;

  second.foot = other[o->foot];
  second.seed = o->seed + 1000;
  second.card = false;
  second.other_mm[0] = second.other_mm[1] = 0;
  texture_sheet (t, &hoof, NULL, &second, res);
  hoof_line_clear (&hoof);
  stage->sheet[1] = t;
  stage->second[0] = width + BESIDE_MM;
  stage->second[1] = 3;
  stage->second[2] = cos (0.03);
  stage->second[3] = sin (0.03);
}

static bool
is_under (const SceneOptions *o)
{
  return o->under[0] != 0 || o->under[1] != 0 || o->under[2] != 0;
}

static void
sheet_under (Texture *t, Stage *stage, const SceneOptions *o, double res)
{
  SceneOptions empty = *o;
  HoofLine hoof = { 0 };

  empty.no_line = true;
  empty.tags = empty.grid = empty.writing = empty.dirt = empty.folds = false;
  empty.seed = o->seed + 2000;
  texture_sheet (t, &hoof, NULL, &empty, res);
  hoof_line_clear (&hoof);
  stage->sheet[1] = t;
  stage->second[0] = o->under[0];
  stage->second[1] = o->under[1];
  stage->second[2] = cos (o->under[2] * G_PI / 180);
  stage->second[3] = sin (o->under[2] * G_PI / 180);
}

Scene *
scene_render (const SceneOptions *o)
{
  Scene *scene = g_new0 (Scene, 1);
  Texture sheet = { 0 }, beside = { 0 }, bench = { 0 };
  HoofLine hoof = { 0 }, other = { 0 };
  Stage stage = { .bench = &bench };
  double width, height;

  scene_size (o, &width, &height);
  camera_place (&scene->camera, o, o->sheets == 2 ? 2 * width + BESIDE_MM : width, height);
  double px_per_mm = sheet_px_per_mm (&scene->camera, width, height);
  double res = CLAMP (TEXTURE_OVER * px_per_mm, TEXTURE_LEAST, TEXTURE_MOST);
  texture_bench (&bench, o, px_per_mm);
  if (o->sheets > 0) {
    texture_sheet (&sheet, &hoof, &other, o, res);
    stage.sheet[0] = &sheet;
  }
  if (o->sheets == 2)
    second_sheet (&beside, &stage, o, res, width);
  else if (is_under (o))
    sheet_under (&beside, &stage, o, res);

  if (o->hidden.what == SCENE_GLARE && hoof.n > 0) {
    stage.glare = hoof.line[MIN ((size_t) (o->hidden.at * (double) hoof.n), hoof.n - 1)];
    stage.glare_mm = o->hidden.mm;
  }
  double stand[3];
  camera_stand (&scene->camera, o, stand);
  Iron *iron = o->shoe != NULL ? iron_new (o->shoe, stand) : NULL;
  stage.iron = iron;
  g_autofree guint8 *rgb = picture_take (&scene->camera, o, &stage);
  g_clear_pointer (&iron, iron_free);
  scene->jpeg = picture_jpeg (rgb, o);
  if (o->sheets > 0 && !o->no_line) {
    scene->line = g_steal_pointer (&hoof.line);
    scene->n_line = hoof.n;
    scene->toe = hoof.toe;
    scene->heel[0] = hoof.heel[0];
    scene->heel[1] = hoof.heel[1];
    memcpy (scene->frog, hoof.frog, sizeof scene->frog);
    scene->other = g_steal_pointer (&other.line);
    scene->n_other = other.n;
  }
  if (o->card)
    ground_card (o, scene->card);
  hoof_line_clear (&hoof);
  hoof_line_clear (&other);
  texture_clear (&sheet);
  texture_clear (&beside);
  texture_clear (&bench);
  return scene;
}

void
scene_free (Scene *scene)
{
  if (!scene)
    return;
  g_bytes_unref (scene->jpeg);
  g_free (scene->line);
  g_free (scene->other);
  g_free (scene);
}
