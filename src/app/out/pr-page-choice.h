/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPageChoice: which documents of a shoe a print has, a tick each, and whether it has those of all feet of the visit, where
 * there are more than one. It stands in the desktop's print dialog and over the
 * preview. Which documents were applied last is kept for as long as the program runs.
 *
 * Signal "changed": a tick was set or taken away. */
#pragma once
#include <gtk/gtk.h>
#include "pr-sheaf.h"

#define PR_TYPE_PAGE_CHOICE (pr_page_choice_get_type ())
G_DECLARE_FINAL_TYPE (PrPageChoice, pr_page_choice, PR, PAGE_CHOICE, GtkBox)

/* With the ticks of SHEAF. */
GtkWidget *pr_page_choice_new (const PrSheaf *sheaf);
void pr_page_choice_show (PrPageChoice *choice, const PrSheaf *sheaf);
/* SHEAF is laid out next as it is ticked here, and so begins the next print. */
void pr_page_choice_apply (PrPageChoice *choice, PrSheaf *sheaf);
/* What was applied last, as pr_sheaf_choose takes it; at first all. */
guint pr_page_choice_last (void);
