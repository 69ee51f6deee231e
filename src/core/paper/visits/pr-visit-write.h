/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files of visits: the pages of one foot over its visits, and two visits on each other at 1 : 1. Numbers with a point. FALSE
 * with an error. */
#pragma once
#include "pr-visit-draw.h"
#include "pr-visit-page.h"

bool pr_visit_pages_pdf (const PrVisitPages *pages, GByteArray *out, GError **error);
bool pr_visit_pages_png (const PrVisitPages *pages, GByteArray *out, GError **error); /* 150 dpi */

/* What stands round the drawing of two visits. */
typedef struct {
  const PrJob *now;
  const PrVisitChange *change;
  const char *title; /* which feet */
  bool shoes;
  PrUnit unit;
} PrVisitPicture;

bool pr_visit_picture_pdf (const PrVisitPicture *picture, GByteArray *out, GError **error);
bool pr_visit_picture_png (const PrVisitPicture *picture, GByteArray *out, GError **error); /* 300 dpi */
