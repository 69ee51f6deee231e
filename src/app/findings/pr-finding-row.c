/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-finding-row.h"

#include "pr-offer-button.h"

struct _PrFindingRow {
  GtkBox parent_instance;
  const char *id; /* of the finding, static */
  PrPt at;
  GtkWidget *button, *line, *icon, *sentence, *source;
};

G_DEFINE_FINAL_TYPE (PrFindingRow, pr_finding_row, GTK_TYPE_BOX)

const char *
pr_finding_icon (PrState state)
{
  static const char *const icons[] = { "pr-fits-symbolic", "pr-look-symbolic", "pr-mend-symbolic" };

  return icons[state];
}

static void
show_place (PrFindingRow *row)
{
  GtkWidget *popover = gtk_widget_get_ancestor (GTK_WIDGET (row), GTK_TYPE_POPOVER);

  gtk_popover_popdown (GTK_POPOVER (popover));
  gtk_widget_activate_action (GTK_WIDGET (row), "work.show-finding", "(sdd)", row->id, row->at.x, row->at.y);
}

/* What lies nowhere is read, not pressed. */
static void
take_out_of_button (PrFindingRow *row)
{
  g_autoptr (GtkWidget) line = g_object_ref (row->line);

  gtk_button_set_child (GTK_BUTTON (row->button), NULL);
  gtk_box_remove (GTK_BOX (line), gtk_widget_get_last_child (line)); /* the sign of a place */
  gtk_box_remove (GTK_BOX (row), row->button);
  gtk_box_prepend (GTK_BOX (row), line);
}

GtkWidget *
pr_finding_row_new (const PrJob *job, PrFinding *finding)
{
  PrFindingRow *row = g_object_new (PR_TYPE_FINDING_ROW, NULL);

  gtk_image_set_from_icon_name (GTK_IMAGE (row->icon), pr_finding_icon (finding->state));
  gtk_widget_add_css_class (row->icon, pr_state_code (finding->state));
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->icon), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  pr_state_name (finding->state), -1);
  gtk_label_set_text (GTK_LABEL (row->sentence), finding->text);
  pr_tell (row->source, finding->source);
  row->id = finding->id;
  row->at = finding->at;
  if (!finding->has_at)
    take_out_of_button (row);
  GtkWidget *offer = pr_offer_button_new (job, finding);
  if (offer)
    gtk_box_append (GTK_BOX (row), offer);
  return GTK_WIDGET (row);
}

static void
pr_finding_row_init (PrFindingRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_finding_row_class_init (PrFindingRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "finding-row.ui");
  gtk_widget_class_bind_template_callback (widget_class, show_place);
  gtk_widget_class_bind_template_child (widget_class, PrFindingRow, button);
  gtk_widget_class_bind_template_child (widget_class, PrFindingRow, line);
  gtk_widget_class_bind_template_child (widget_class, PrFindingRow, icon);
  gtk_widget_class_bind_template_child (widget_class, PrFindingRow, sentence);
  gtk_widget_class_bind_template_child (widget_class, PrFindingRow, source);
}
