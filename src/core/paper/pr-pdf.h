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

/* A PDF surface whose bytes are appended to BYTES (which must outlive it), pages WIDTH x HEIGHT mm.
 * Transfer full. The caller scales its context: cairo_scale (cr, PR_PT_PER_MM, PR_PT_PER_MM). */
cairo_surface_t *pr_pdf_surface (GByteArray *bytes, double width, double height, const char *title);
/* Closes SURFACE and gives its status as an error; SURFACE stays the caller's to destroy. */
bool pr_surface_close (cairo_surface_t *surface, GError **error);
/* PDF: the whole file as cairo wrote it, after the surface was closed. Adds the update. */
bool pr_pdf_finish (GByteArray *pdf, GError **error);
/* For cairo's stream surfaces: CLOSURE is a GByteArray. */
cairo_status_t pr_bytes_take (void *closure, const unsigned char *data, unsigned int len);
