/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-reset-button.h"

#include <glib/gi18n-lib.h>
#include <math.h>

typedef struct {
  const PrParam *param[2];
  size_t n;
} Line;

static const Line *
line_of (gpointer button)
{
  return g_object_get_data (button, "pr-line");
}

/* What is smaller than this no entry shows: half of its last digit. */
static double
least_seen (const PrParam *param)
{
  switch (param->kind) {
  case PR_PARAM_LENGTH:
    return 0.05;
  case PR_PARAM_SHARE:
  case PR_PARAM_PLACE:
    return 0.0005;
  case PR_PARAM_ANGLE:
    return 0.05 * G_PI / 180;
  default:
    return 0.5;
  }
}

static bool
changed_by_hand (PrDocument *doc, const Line *line)
{
  const PrJob *job = pr_document_job (doc);
  const PrPlan *usual = pr_document_usual (doc);

  for (size_t i = 0; usual && i < line->n; i++) {
    const PrParam *param = line->param[i];

    if (fabs (pr_param_get (&job->plan, param) - pr_param_get (usual, param)) > least_seen (param))
      return true;
  }
  return false;
}

/* While a handle moves nothing comes or goes. */
static void
document_changed (GtkWidget *button, guint what, PrDocument *doc)
{
  if (!pr_document_editing (doc)
      && what
             & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_HISTORY
                | PR_CHANGED_STYLES))
    gtk_widget_set_visible (button, changed_by_hand (doc, line_of (button)));
}

static void
clicked (GtkWidget *button, PrDocument *doc)
{
  const Line *line = line_of (button);
  g_autoptr (GError) error = NULL;

  if (!pr_document_usual (doc) || pr_document_editing (doc))
    return;
  if (!pr_document_reset (doc, line->param, line->n, &error))
    pr_document_trouble (doc, error->message);
}

GtkWidget *
pr_reset_button_new (PrDocument *doc, const char *label, const PrParam *first, const PrParam *second)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("pr-reset-symbolic");
  g_autofree char *spoken = g_strdup_printf (_ ("Put back: %s"), label);
  Line *line = g_new0 (Line, 1);

  line->param[line->n++] = first;
  if (second)
    line->param[line->n++] = second;
  g_object_set_data_full (G_OBJECT (button), "pr-line", line, g_free);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_add_css_class (button, "lock");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (button, _ ("Back to the usual value"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked), doc, 0);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), button, G_CONNECT_SWAPPED);
  document_changed (button, PR_CHANGED_ALL, doc);
  return button;
}
