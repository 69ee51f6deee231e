/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFactLine: a line of the panel that is read, not typed: what, and to the right how much. */
#pragma once
#include <gtk/gtk.h>

#define PR_TYPE_FACT_LINE (pr_fact_line_get_type ())
G_DECLARE_FINAL_TYPE (PrFactLine, pr_fact_line, PR, FACT_LINE, GtkBox)

/* VALUE may be NULL. */
GtkWidget *pr_fact_line_new (const char *label, const char *value);
