/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beside a line of the panel: there while the line's figures are not the usual ones, and puts them back. One
 * step. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

/* LABEL names the line for a screen reader; SECOND may be NULL. */
GtkWidget *pr_reset_button_new (PrDocument *doc, const char *label, const PrParam *first,
                                const PrParam *second);
