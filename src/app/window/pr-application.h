/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrApplication: one process, one book, one window. A photo on the command line is opened in it. */
#pragma once
#include <gtk/gtk.h>

#define PR_TYPE_APPLICATION (pr_application_get_type ())
G_DECLARE_FINAL_TYPE (PrApplication, pr_application, PR, APPLICATION, GtkApplication)

GtkApplication *pr_application_new (void);
