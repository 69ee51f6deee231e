/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos opened lately, kept where the desktop keeps what was opened (freedesktop.org, Desktop Bookmark Storage). */
#pragma once
#include <gtk/gtk.h>

void pr_recent_add (GFile *file);
/* BUTTON lists those that are still there, the newest first; each opens by "win.open-recent" with its URI. */
void pr_recent_serve (GtkMenuButton *button);
/* Shows BUTTON only while there is something to list. */
void pr_recent_update (GtkMenuButton *button);
