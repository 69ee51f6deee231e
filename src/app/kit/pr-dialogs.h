/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What small windows are made with. */
#pragma once
#include <gtk/gtk.h>

/* A small window over PARENT with CHILD in it, which Escape closes. Present it when it is filled. */
GtkWidget *pr_dialog_new (GtkWindow *parent, const char *title, GtkWidget *child);
/* Text for it, broken into lines. */
GtkWidget *pr_dialog_words (const char *text);
