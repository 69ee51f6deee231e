/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shoes on sheets: kinds of photo the finder is held against, each with its truth. A shoe is one of our own styles on a
 * made foot, forged a little wrong, lying anywhere in the sheet's field with either face up. */
#pragma once
#include "pr-figure.h"
#include "pr-job.h"
#include "scene.h"

typedef struct {
  const char *name;
  SceneIronKind iron;
  const char *style; /* NULL: one of several open ones, by the seed */
  bool hard;         /* not what a careful person photographs in the field */
  bool drawn;        /* a line round it in place of the shoe */
  double tilt;       /* degrees; 0: drawn from 0 to 30 */
  double far_mm;     /* 0: drawn from 400 to 700 */
  double dark;       /* as SceneOptions has it */
  double fall;       /* of the shadow; 0: drawn */
  double bevel;
  double steam; /* as SceneShoe has it */
  bool chalk, clip, plain, hard_shadow;
} ShoeKind;

extern const ShoeKind shoe_kinds[];
extern const size_t shoe_kinds_n;

typedef struct {
  SceneOptions options; /* points into this */
  SceneShoe shoe;
  PrPath stroke[8];
  PrFigure truth; /* sheet mm: the silhouette seen from straight above, its openings; nail holes left out */
  PrPt nail[16];
  size_t n_nail;
  PrPt heel[2]; /* middles of the ends of an open shoe's branches */
  double turn;  /* by which the shoe is turned from toe up, radians clockwise */
  bool open;
  PrFace face;
} ShoeScene;

/* Made anew in SCENE, which holds nothing before. */
void shoe_scene_make (ShoeScene *scene, const ShoeKind *kind, guint32 seed);
/* The same of JOB's shoe, forged a little wrong. */
void shoe_scene_of (ShoeScene *scene, const ShoeKind *kind, const PrJob *job, guint32 seed);
void shoe_scene_clear (ShoeScene *scene);
const ShoeKind *shoe_kind (const char *name);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (ShoeScene, shoe_scene_clear)
