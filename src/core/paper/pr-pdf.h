/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PDF at true size. cairo writes the pages; what it cannot say is added behind as an incremental
 * update (ISO 32000-1, 7.5.6): a second catalog with /ViewerPreferences << /PrintScaling /None >>
 * (12.2), so that a viewer's print dialog starts at actual size. Surfaces are held to PDF 1.4, for
 * which every cairo writes a classic cross-reference table; the new catalog says /Version /1.6. */
#pragma once
#include <cairo.h>
#include <glib.h>
#include <stdbool.h>

#define PR_PT_PER_MM (72.0 / 25.4)

/* Page PAGE (from 0) on a context whose unit is 1 mm, the page's top left at (0,0). */
typedef void (*PrPdfDraw) (gpointer data, int page, cairo_t *cr);

/* A file of N pages of WIDTH x HEIGHT mm, each as DRAW makes it of DATA, into OUT, which is empty. TITLE may be NULL. */
bool pr_pdf_make (GByteArray *out, double width, double height, const char *title, int n, PrPdfDraw draw,
                  gpointer data, GError **error);
/* PDF: a whole file as cairo wrote it. Adds the update, as pr_pdf_make does. */
bool pr_pdf_finish (GByteArray *pdf, GError **error);
/* Closes SURFACE and gives its status as an error; SURFACE stays the caller's to destroy. */
bool pr_surface_close (cairo_surface_t *surface, GError **error);
/* For cairo's stream surfaces: CLOSURE is a GByteArray. */
cairo_status_t pr_bytes_take (void *closure, const unsigned char *data, unsigned int len);
