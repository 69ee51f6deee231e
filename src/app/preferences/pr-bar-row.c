/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bar-row.h"

#include <glib/gi18n-lib.h>
#include "pr-plan.h"
#include "pr-ui.h"
#include "pr-words.h"

struct _PrBarRow {
  GtkBox parent_instance;
  GtkLabel *section, *bought;
  GtkWidget *drop;
};

G_DEFINE_FINAL_TYPE (PrBarRow, pr_bar_row, GTK_TYPE_BOX)

GtkWidget *
pr_bar_row_new (const PrRackBar *bar, guint nth, PrUnit unit)
{
  PrBarRow *row = g_object_new (PR_TYPE_BAR_ROW, NULL);
  const char *material = bar->material == PR_MATERIAL_ALUMINIUM ? _ ("aluminium") : _ ("steel");
  g_autofree char *length
      = bar->length > 0 ? pr_words_length (bar->length, bar->inch ? PR_UNIT_INCH : unit) : NULL;
  g_autofree char *bought
      = length ? g_strdup_printf (_ ("%s, in lengths of %s"), material, length) : g_strdup (material);
  g_autofree char *spoken = g_strdup_printf (_ ("Take “%s” off the rack"), bar->name);

  gtk_label_set_text (row->section, bar->name);
  gtk_label_set_text (row->bought, bought);
  gtk_widget_set_tooltip_text (row->drop, spoken);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->drop), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row->drop), "rack.drop");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row->drop), "u", nth);
  return GTK_WIDGET (row);
}

static void
pr_bar_row_init (PrBarRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_bar_row_class_init (PrBarRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "bar-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PrBarRow, section);
  gtk_widget_class_bind_template_child (widget_class, PrBarRow, bought);
  gtk_widget_class_bind_template_child (widget_class, PrBarRow, drop);
}
