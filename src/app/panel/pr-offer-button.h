/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A button that takes what a finding offers, as one undo step. In a popover it closes that first. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

/* FINDING has an offer. */
GtkWidget *pr_offer_button_new (PrDocument *doc, const PrFinding *finding);
