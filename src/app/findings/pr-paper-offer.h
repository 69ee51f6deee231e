/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which paper is it? One button for each that the sheet may be, where its finding is read. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>
#include "pr-document.h"

/* Is the photo's scale in doubt for want of that answer? */
bool pr_paper_offer_is_due (PrDocument *doc);
/* Appends them to BOX, each told by how wide the foot is then. */
void pr_paper_offer_add (GtkBox *box, PrDocument *doc);
