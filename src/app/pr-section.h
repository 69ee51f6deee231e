/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSection: one folded part of the side. Its header always tells the part's result.
 * Signal "opened": a person has opened it. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>

#define PR_TYPE_SECTION (pr_section_get_type ())
G_DECLARE_FINAL_TYPE (PrSection, pr_section, PR, SECTION, GtkBox)

GtkWidget *pr_section_new (const char *title);
void pr_section_set_result (PrSection *section, const char *result);
void pr_section_set_open (PrSection *section, bool open);
/* Goes below what is already there. */
void pr_section_add (PrSection *section, GtkWidget *child);
