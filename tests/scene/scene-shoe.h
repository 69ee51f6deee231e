/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shoe lying on the sheet of a scene: its figure in sheet mm and what its iron looks like.
 *
 * It is a solid: walls of the figure's outline between the sheet and its upper face, whose arris is rounded (or bevelled),
 * with the holes and openings of the figure going through, and tongues (clips) standing on it; every ray of the pinhole is
 * followed through it. It differs from what the finder (pr-seen-find.h) takes for granted: there the arris is sharp, the
 * walls are square, the pose is what the sheet's homography tells and the focal length may be guessed, the shadow is only
 * known to be the paper's own colour. Here the outline is a field of distances 0.2 mm apart, so that no corner is
 * sharper than about 0.1 mm; nothing is shared with the finder but the words for points. */
#pragma once
#include "pr-path.h"

typedef enum {
  SCENE_IRON_STEEL,
  SCENE_IRON_RUSTY,
  SCENE_IRON_BRIGHT,
  SCENE_IRON_SCALE,
  SCENE_IRON_ALUMINIUM,
  SCENE_IRON_PALE, /* aluminium nearly as light as the paper */
  SCENE_IRON_GREY, /* smooth, and of the paper's own hue, as its shadow is */
  SCENE_IRON_HOT,
  SCENE_IRON_KINDS
} SceneIronKind;

#define SCENE_SHOE_RINGS 32
#define SCENE_SHOE_CREASES 2

/* Standing on the face that is up: the middle of its base on the outer edge, unit vector outwards, mm. */
typedef struct {
  PrPt at, out;
  double width, height, thick;
} SceneClip;

typedef struct {
  PrPath
      ring[SCENE_SHOE_RINGS]; /* sheet mm, filled by the even-odd rule: the outside, openings, nail holes */
  size_t n_ring;
  double thick; /* mm */
  double arris; /* radius by which the upper edges are rounded, mm */
  double bevel; /* instead: taken off so far inwards and so far down */
  SceneIronKind kind;
  guint32 seed;
  PrPath crease[SCENE_SHOE_CREASES]; /* middle lines of the fuller */
  size_t n_crease;
  double crease_mm;
  SceneClip clip[2];
  size_t n_clip;
  bool chalk;        /* strokes of chalk across the iron */
  double light_deg;  /* the way the shadow falls, clockwise from the sheet's x */
  double light_fall; /* of the shadow's end, mm per mm of height */
  double soft;       /* half width of its edge, mm per mm of height */
  double dark;       /* share of the light it takes */
  double steam;      /* share of what lies below that the thickest steam hides; 0: cold and dry */
} SceneShoe;

void scene_shoe_clear (SceneShoe *shoe);
