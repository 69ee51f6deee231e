/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPicture: a photo to work on with the pointer: fitted, zoomed at the pointer, panned, with a round
 * lens where a place must be found exactly. What is done on it is the heirs' affair. Places are the
 * picture's own pixels, (0,0) in the middle of the first one. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>
#include <stdint.h>
#include "pr-point.h"

#define PR_TYPE_PICTURE (pr_picture_get_type ())
G_DECLARE_DERIVABLE_TYPE (PrPicture, pr_picture, PR, PICTURE, GtkWidget)

struct _PrPictureClass {
  GtkWidgetClass parent_class;
  /* A drag begins at AT: TRUE takes it, otherwise the picture is panned. */
  bool (*press) (PrPicture *picture, PrPx at);
  void (*move) (PrPicture *picture, PrPx at, GdkModifierType state);
  /* KEEP is FALSE when the drag was called off. */
  void (*release) (PrPicture *picture, bool keep, GdkModifierType state);
  /* Draws on the picture, in widget pixels. */
  void (*draw) (PrPicture *picture, cairo_t *cr);
  /* Gives its children their places, as the view or the size has changed. */
  void (*lay) (PrPicture *picture);
};

void pr_picture_set_rgb (PrPicture *picture, const uint8_t *rgb, int width, int height, size_t stride);
bool pr_picture_shows (PrPicture *picture);
void pr_picture_fit (PrPicture *picture);
void pr_picture_zoom_by (PrPicture *picture, double factor); /* about the middle */
double pr_picture_scale (PrPicture *picture);                /* screen pixels to one of its own */
PrPx pr_picture_to_px (PrPicture *picture, double x, double y);
void pr_picture_from_px (PrPicture *picture, PrPx p, double *x, double *y);
/* Calls off the drag under way; FALSE when there is none. */
bool pr_picture_drop_drag (PrPicture *picture);
/* The lens with its cross hair on AT; NULL takes it away. */
void pr_picture_lens (PrPicture *picture, const PrPx *at);
