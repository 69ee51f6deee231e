/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Law and cautions, in the program's own words. */
#pragma once
#include <gtk/gtk.h>

const char *pr_cautions (void); /* translated, static */
void pr_about_show (GtkWindow *parent);
