/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rack-row.h"

#include <glib/gi18n-lib.h>
#include "pr-words.h"

struct _PrRackRow {
  GtkButton parent_instance;
  PrRackBar bar;
  GtkLabel *section, *needed, *work, *waste;
};

G_DEFINE_FINAL_TYPE (PrRackRow, pr_rack_row, GTK_TYPE_BUTTON)

static void
take (PrRackRow *row)
{
  PrDocument *doc = pr_document_of (row);
  g_autoptr (GError) error = NULL;

  if (pr_document_job (doc) && !pr_document_take_bar (doc, row->bar.width, row->bar.thickness, &error))
    pr_document_trouble (doc, error->message);
}

static void
show (PrRackRow *row, const PrRackLine *line, PrUnit unit)
{
  const char *section = line->bar.name;
  g_autofree char *needed = pr_length_cut (line->needed, unit);
  g_autofree char *work = g_strdup_printf ("%.0f %%", 100 * line->work);
  g_autofree char *waste
      = line->bar.length > 0 ? g_strdup_printf ("%.0f %%", 100 * line->waste) : g_strdup ("–");
  g_autofree char *spoken
      = g_strdup_printf (_ ("%s: %s needed, work %s, waste %s"), section, needed, work, waste);

  gtk_label_set_text (row->section, section);
  gtk_label_set_text (row->needed, needed);
  gtk_label_set_text (row->work, work);
  gtk_label_set_text (row->waste, waste);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

GtkWidget *
pr_rack_row_new (const PrRackLine *line, PrUnit unit, bool held)
{
  PrRackRow *row = g_object_new (PR_TYPE_RACK_ROW, NULL);

  row->bar = line->bar;
  show (row, line, unit);
  if (held)
    gtk_widget_add_css_class (GTK_WIDGET (row), "chosen");
  gtk_widget_set_tooltip_text (GTK_WIDGET (row), held ? _ ("The stock in hand") : _ ("Take this stock"));
  return GTK_WIDGET (row);
}

static void
pr_rack_row_init (PrRackRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_rack_row_class_init (PrRackRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "rack-row.ui");
  gtk_widget_class_bind_template_callback (widget_class, take);
  gtk_widget_class_bind_template_child (widget_class, PrRackRow, section);
  gtk_widget_class_bind_template_child (widget_class, PrRackRow, needed);
  gtk_widget_class_bind_template_child (widget_class, PrRackRow, work);
  gtk_widget_class_bind_template_child (widget_class, PrRackRow, waste);
}
