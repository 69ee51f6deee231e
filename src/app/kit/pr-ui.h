/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the classes with a template have in common. */
#pragma once
#include <gtk/gtk.h>

#define PR_UI "/org/pritchel/Pritchel/ui/" /* where the templates lie */

/* SENTENCE in LABEL, which is there only while there is one to tell; NULL: none. */
void pr_tell (GtkWidget *label, const char *sentence);
/* Takes all children out of BOX. */
void pr_empty (GtkWidget *box);
/* All that is typed in BUFFER. Transfer full. */
char *pr_typed (GtkTextBuffer *buffer);
