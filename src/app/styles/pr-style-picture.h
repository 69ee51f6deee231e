/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrStylePicture: one style as it would lie on the foot that is open, with its name. */
#pragma once
#include <gtk/gtk.h>
#include "pr-job.h"
#include "pr-style.h"

#define PR_TYPE_STYLE_PICTURE (pr_style_picture_get_type ())
G_DECLARE_FINAL_TYPE (PrStylePicture, pr_style_picture, PR, STYLE_PICTURE, GtkFlowBoxChild)

/* STYLE must live as long. */
PrStylePicture *pr_style_picture_new (const PrStyle *style, bool chosen);
const PrStyle *pr_style_picture_style (PrStylePicture *picture);
/* JOB (transfer full) is what it draws from now on; NULL: the style cannot lie on this foot, which it says. */
void pr_style_picture_take (PrStylePicture *picture, PrJob *job);
