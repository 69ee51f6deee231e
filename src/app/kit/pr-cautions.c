/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-cautions.h"

#include <glib/gi18n-lib.h>

const char *
pr_cautions (void)
{
  return _ ("A planning aid only; it does not diagnose. Therapeutic shoes are made under a veterinary "
            "surgeon's direction. Who may shoe is set by local law (Great Britain: Farriers (Registration) "
            "Act 1975, s. 16).\n\nTrim first, trace after. Nails belong in the wall: a nail inside the white "
            "line lames. Wear eye protection at anvil and grinder; put no galvanised stock in the fire; see "
            "to air for hoof smoke and flux fumes, and to a handler for the horse.\n\nMeasure the stock in "
            "hand, and the check line on the printed page. The foot decides.");
}

void
pr_about_show (GtkWindow *parent)
{
  g_autofree char *what
      = g_strconcat (_ ("Plans a hand-forged horseshoe on the tracing of the foot it is for."), "\n\n",
                     pr_cautions (), NULL);

  GtkWidget *dialog
      = g_object_new (GTK_TYPE_ABOUT_DIALOG, "program-name", "Pritchel", "version", PR_VERSION,
                      "logo-icon-name", "org.pritchel.Pritchel", "license-type", GTK_LICENSE_GPL_3_0,
                      "comments", what, "transient-for", parent, "modal", TRUE, NULL);

  gtk_widget_add_css_class (dialog, "pritchel");
  gtk_window_present (GTK_WINDOW (dialog));
}
