/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two pictures of a sheet to the vet, both in the same view, from above, and to the same scale. Before: the tracing as it was
 * photographed, laid flat, with the outline that was found; the outline alone where there is no photo. After: the forged shoe on
 * its plan where there is one, else the foot with its shoe as planned. */
#pragma once
#include <cairo.h>
#include "pr-vet-about.h"

typedef enum { PR_VET_BEFORE, PR_VET_AFTER, PR_N_VET_PICTURES } PrVetPicture;

typedef struct {
  PrVetAbout about;
  PrUnit unit;
  PrPt low, high;        /* what both show, foot frame, mm */
  PrPt beyond;           /* on either side of it for letters and centre lines, mm of the page at any scale */
  cairo_surface_t *flat; /* of the photo; NULL: none */
  cairo_matrix_t place;  /* of its pixels in the foot frame */
} PrVetPictures;

/* What ABOUT points to must outlive them. */
void pr_vet_pictures_make (PrVetPictures *pictures, const PrVetAbout *about, PrUnit unit);
void pr_vet_pictures_clear (PrVetPictures *pictures);
/* Of either drawn SCALE times its true size, mm of the page. */
void pr_vet_pictures_size (const PrVetPictures *pictures, double scale, double *width, double *height);
/* The largest scale, at most 1, at which they are no larger than WIDTH x HEIGHT. */
double pr_vet_pictures_fit (const PrVetPictures *pictures, double width, double height);
/* Picture WHICH SCALE times its true size, its top left at (0,0), on a context whose unit is 1 mm. */
void pr_vet_pictures_draw (const PrVetPictures *pictures, PrVetPicture which, cairo_t *cr, double scale);
/* "Before: the tracing", translated, static. */
const char *pr_vet_pictures_caption (const PrVetPictures *pictures, PrVetPicture which);
/* A line that is 50 mm (of inches 2 in) long in the pictures, beginning at (0,0), with what it is behind it, TEXT high. */
void pr_vet_pictures_draw_bar (const PrVetPictures *pictures, cairo_t *cr, double scale, double text);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrVetPictures, pr_vet_pictures_clear)
