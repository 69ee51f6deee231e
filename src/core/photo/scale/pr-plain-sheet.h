/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plain sheet of a known size with its four edges in the picture. */
#pragma once
#include "pr-photo.h"
#include "pr-tracing.h"

/* An edge that bows more than this is no flat sheet's, mm. */
#define PR_PLAIN_BOW 1.0

typedef struct {
  PrCamera camera;
  PrPaper paper;
  double width_mm, height_mm; /* as it lies: wider than high when it lies across */
  PrPx corner[4];             /* clockwise from the top left of the sheet as it lies */
  double residual_mm;         /* RMS of the edge points about the fitted sides */
  PrReference edge[4];        /* of each side the place that lies furthest from it */
  double bow_mm;              /* how far the middle of the side that bows most lies off its ends */
  PrPx bow_px;                /* there */
  double bent_mm;             /* it is bent by so much, and CAMERA allows for it; 0: it is taken as flat */
  double seen[4];             /* share of each side on which the edge was seen */
  bool folded;                /* one corner is not seen: it is where its sides would cross */
  bool by_shape;              /* paper told from the shape, not given */
  double cost, aspect;        /* of the shape, see PrPaperFormat */
  bool beside;                /* another figure seemed likelier, but is no paper */
  bool uneven;                /* it is given, and the sheet's shape is a little off its */
  PrPaper rival;              /* it is given, and the shape is rather this one's; UNKNOWN: it is not */
  bool unsure;                /* BY_SHAPE, and a cropped photo could be of another paper */
} PrPlainSheet;

/* PAPER PR_PAPER_UNKNOWN: told from the shape. FALSE with an error. */
bool pr_plain_sheet_find (PrPlainSheet *plain, const PrPhoto *photo, const uint8_t *grey, PrPaper paper,
                          GError **error);
