/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-lock-button.h"

#include <glib/gi18n-lib.h>

static guint64
bits_of (gpointer button)
{
  return GPOINTER_TO_UINT (g_object_get_data (button, "pr-locks"));
}

static bool
locked (const PrJob *job, guint64 bits)
{
  return (job->plan.locks & bits) == bits;
}

/* Says what it does by its icon, its tooltip and its state, not by its colour alone. */
static void
show (GtkToggleButton *button, bool on)
{
  gtk_button_set_icon_name (GTK_BUTTON (button), on ? "pr-locked-symbolic" : "pr-unlocked-symbolic");
  gtk_widget_set_tooltip_text (GTK_WIDGET (button), on ? _ ("Locked: stays as it is at the next fit or style")
                                                       : _ ("Free: follows the next fit or style"));
}

static void
toggled (GtkToggleButton *button, PrDocument *doc)
{
  const PrJob *job = pr_document_job (doc);
  bool on = gtk_toggle_button_get_active (button);

  show (button, on);
  if (job && locked (job, bits_of (button)) != on && !pr_document_editing (doc))
    pr_document_set_locks (doc, bits_of (button), on);
}

static void
document_changed (GtkToggleButton *button, guint what, PrDocument *doc)
{
  const PrJob *job = pr_document_job (doc);

  if (job && what & (PR_CHANGED_PLAN | PR_CHANGED_PLACE))
    gtk_toggle_button_set_active (button, locked (job, bits_of (button)));
}

GtkWidget *
pr_lock_button_new (PrDocument *doc, guint64 bits, const char *part)
{
  GtkWidget *button = gtk_toggle_button_new ();
  g_autofree char *spoken = g_strdup_printf (_ ("Lock %s"), part);

  g_object_set_data (G_OBJECT (button), "pr-locks", GUINT_TO_POINTER (bits));
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_add_css_class (button, "lock");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  show (GTK_TOGGLE_BUTTON (button), false);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  g_signal_connect_object (button, "toggled", G_CALLBACK (toggled), doc, 0);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), button, G_CONNECT_SWAPPED);
  document_changed (GTK_TOGGLE_BUTTON (button), PR_CHANGED_ALL, doc);
  return button;
}
