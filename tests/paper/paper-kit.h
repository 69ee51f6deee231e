/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tests of the paper room share: a job, pages as other programs see them. */
#pragma once
#include <cairo.h>
#include "kit.h"
#include "pr-error.h"
#include "pr-pages.h"

/* A fore foot of SIZE (1: 127 mm wide), STYLE laid on it, 25 x 10 mm bar, GIVEN mm of it. */
PrJob *paper_job (PrFoot foot, const char *style, double size, double given);

/* How many entries FOLDER has, hidden ones too. */
int kit_entries (const char *folder);

/* Grey picture with its own RGB. */
typedef struct {
  int width, height;
  uint8_t *rgb;
} KitPicture;

void kit_picture_clear (KitPicture *picture);
/* Page PAGE (from 1) of PDF as poppler draws it; skips the test where poppler is missing. */
KitPicture kit_pdf_page (const char *pdf, int page, int dpi);
KitPicture kit_read_ppm (const char *file);
/* SURFACE (RGB24) as a picture. */
KitPicture kit_surface (cairo_surface_t *surface);
int kit_grey (const KitPicture *picture, int x, int y);
/* Is there an unbroken dark run LENGTH pixels long, SLACK more or less, along x (or y)? */
bool kit_has_run (const KitPicture *picture, bool along_y, double length, double slack);
/* First and last column (pixels, the last one past its end) that holds the colour of the shoe's
 * edge between columns FROM and TO. */
bool kit_shoe_columns (const KitPicture *picture, int from, int to, double *first, double *last);
/* Sets a locale whose decimal mark is a comma, making one in FOLDER when the machine has none;
 * FALSE when that cannot be done either. */
bool kit_comma_locale (const char *folder);
/* What PROGRAM prints; FALSE when it fails or complains on stderr. Skips where it is missing. */
bool kit_run (const char *const *argv, char **out);
/* The box of the word that begins at AT in what pdftotext -bbox says, points: x and y of its top left, then of its lower right. Whatever
 * the locale. */
void paper_word_box (const char *at, double box[4]);
