/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Our own photographs: a tracing sheet with a hoof drawn on it by a hand, on a bench, seen by a
 * camera. Everything is known exactly, so the photo chain can be held against it. Same options and
 * seed, same bytes (but for the JPEG library's version). */
#pragma once
#include <gio/gio.h>
#include "pr-camera.h"
#include "scene-options.h"

typedef struct {
  GBytes *jpeg;
  PrCamera camera; /* the true one, upright photo */
  PrSheetPt *line; /* the true middle of the pen line, heel to heel round the toe */
  size_t n_line;
  PrSheetPt toe, heel[2]; /* toe of the centre line and the line's ends (medial, lateral) */
  PrSheetPt frog[3];      /* medial base, apex, lateral base, where one is drawn */
  PrSheetPt *other;       /* the second foot's line; NULL: none */
  size_t n_other;
  PrSheetPt card[4]; /* where the card's sides cross, clockwise on the sheet; where one lies there */
} Scene;

Scene *scene_render (const SceneOptions *options);
void scene_free (Scene *scene);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Scene, scene_free)
