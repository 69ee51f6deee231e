/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window comes back as large as it was left. */
#pragma once
#include <gtk/gtk.h>

/* Returns the width that it will have, as far as that is known before it is shown: G_MAXINT for one that fills the screen. */
int pr_window_size_restore (GtkWindow *window);
/* While it still has a size. */
void pr_window_size_keep (GtkWindow *window);
