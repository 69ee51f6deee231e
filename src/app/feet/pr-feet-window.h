/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFeetWindow: the feet of a visit on one page (pr-feet-page.h), on the paper that is chosen; a foot that is pressed is opened, and the
 * page is printed and exported from here. It follows what is changed. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_FEET_WINDOW (pr_feet_window_get_type ())
G_DECLARE_FINAL_TYPE (PrFeetWindow, pr_feet_window, PR, FEET_WINDOW, GtkWindow)

/* VISIT 0: the one that is chosen. Where no foot of it has a shoe, the document says so as trouble. */
void pr_feet_window_show (GtkWindow *parent, PrDocument *doc, PrBookId visit);
