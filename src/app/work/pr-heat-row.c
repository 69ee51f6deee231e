/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-heat-row.h"

#include <glib/gi18n-lib.h>

struct _PrHeatRow {
  GtkBox parent_instance;
  GtkWidget *name, *seconds, *trouble;
};

G_DEFINE_FINAL_TYPE (PrHeatRow, pr_heat_row, GTK_TYPE_BOX)

static void
show (PrHeatRow *row, const PrHeat *heat, guint of)
{
  g_autofree char *name = heat->weld
                              ? g_strdup_printf (_ ("Heat %u, weld: %s"), of, pr_zone_name (heat->zone))
                              : g_strdup_printf (_ ("Heat %u: %s"), of, pr_zone_name (heat->zone));
  g_autofree char *seconds
      = heat->limit > 0 ? g_strdup_printf (_ ("%.0f of %.0f s"), heat->seconds, heat->limit) : g_strdup ("");

  gtk_label_set_text (GTK_LABEL (row->name), name);
  gtk_label_set_text (GTK_LABEL (row->seconds), seconds);
  pr_tell (row->trouble, heat->weld && heat->n > 1    ? _ ("A weld needs a heat of its own.")
                         : pr_heat_is_too_long (heat) ? _ ("More than one heat allows: split it.")
                                                      : NULL);
}

GtkWidget *
pr_heat_row_new (const PrHeats *heats, guint of)
{
  PrHeatRow *row = g_object_new (PR_TYPE_HEAT_ROW, NULL);

  if (of == 0 || of > heats->heats->len) {
    gtk_label_set_text (GTK_LABEL (row->name), of == 0 ? _ ("Before the fire") : _ ("Cold"));
    pr_tell (row->trouble, NULL);
  } else {
    show (row, &g_array_index (heats->heats, PrHeat, of - 1), of);
  }
  return GTK_WIDGET (row);
}

static void
pr_heat_row_init (PrHeatRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_heat_row_class_init (PrHeatRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "heat-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PrHeatRow, name);
  gtk_widget_class_bind_template_child (widget_class, PrHeatRow, seconds);
  gtk_widget_class_bind_template_child (widget_class, PrHeatRow, trouble);
}
