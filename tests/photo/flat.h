/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A flat world of two or three greys seen by a pinhole camera: where a scene of a hoof is too much.
 * A pixel on an edge is the mean of 5 x 5 samples, so an edge stands where the camera puts it. */
#pragma once
#include "pr-camera.h"
#include "pr-photo.h"

typedef struct {
  int width, height; /* pixels */
  double tilt, dir;  /* degrees: off the normal, and towards which side */
  double turn;       /* degrees: the plane turned in the picture */
  double focal;      /* share of the long side */
  double fill;       /* of the picture's width the middle 100 mm take */
  double k1;
  PrSheetPt middle; /* plane point seen in the picture's middle */
} FlatView;

/* Grey (0..255) of the plane at P. */
typedef double (*FlatShade) (PrSheetPt p, gconstpointer data);

void flat_camera (PrCamera *cam, const FlatView *view);
PrPhoto *flat_photo (const FlatView *view, FlatShade shade, gconstpointer data);
