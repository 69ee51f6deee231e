/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrBookPane: find a horse, its visits, the four feet of each. Signals: "open-foot" (gint64 id),
 * "want-photo" (int foot, of the chosen visit), "trouble" (const char *sentence). */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_BOOK_PANE (pr_book_pane_get_type ())
G_DECLARE_FINAL_TYPE (PrBookPane, pr_book_pane, PR, BOOK_PANE, GtkBox)

void pr_book_pane_set_document (PrBookPane *pane, PrDocument *doc);
/* Puts the keyboard into the find entry. */
void pr_book_pane_find (PrBookPane *pane);
/* Has the book a horse at all? */
bool pr_book_pane_has_horses (PrBookPane *pane);
/* As if its name had been pressed; 0, and the one that is chosen, changes nothing. */
void pr_book_pane_open_horse (PrBookPane *pane, PrBookId horse);
