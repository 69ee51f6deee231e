/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrShoeLaid: asks how a shoe lies in its photo: which face is up, how thick it is, whether it is only drawn round; and for the
 * photo itself. */
#pragma once
#include <gtk/gtk.h>
#include "pr-length.h"
#include "pr-seen-find.h"

#define PR_TYPE_SHOE_LAID (pr_shoe_laid_get_type ())
G_DECLARE_FINAL_TYPE (PrShoeLaid, pr_shoe_laid, PR, SHOE_LAID, GtkBox)

/* MM, until another thickness is typed. */
void pr_shoe_laid_offer (PrShoeLaid *laid, double mm, PrUnit unit);
/* What was chosen. FALSE with an error: the thickness is no length, or no shoe's. */
bool pr_shoe_laid_read (PrShoeLaid *laid, PrUnit unit, PrSeenOptions *how, GError **error);
/* Asks for a photo; CHOSEN (void (*) (GObject *data, GFile *photo)) is called when there is one and DATA is still there. */
void pr_shoe_photo_choose (GtkWindow *parent, const char *title, void (*chosen) (GObject *data, GFile *photo),
                           gpointer data);
