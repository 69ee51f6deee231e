/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets of cells, a byte each, as leptonica has them and back. */
#pragma once
#include <glib.h>
#include <leptonica/allheaders.h>
#include <stdint.h>

/* Transfer full, pixDestroy. */
PIX *pr_seen_pix_of (const uint8_t *set, int w, int h);
/* Transfer full, g_free. */
uint8_t *pr_seen_pix_cells (PIX *pix);
