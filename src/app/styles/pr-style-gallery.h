/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrStyleGallery: all styles as they would lie on the foot that is open, with the bar in hand; choosing one lays it. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_STYLE_GALLERY (pr_style_gallery_get_type ())
G_DECLARE_FINAL_TYPE (PrStyleGallery, pr_style_gallery, PR, STYLE_GALLERY, GtkWindow)

/* With a foot open. */
void pr_style_gallery_show (GtkWindow *parent, PrDocument *doc);
