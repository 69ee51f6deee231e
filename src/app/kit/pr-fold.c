/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-fold.h"

struct _PrFold {
  GtkBox parent_instance;
  GtkWidget *header, *arrow, *title, *result, *revealer, *body;
};

enum { OPENED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrFold, pr_fold, GTK_TYPE_BOX)

void
pr_fold_set_open (PrFold *section, bool open)
{
  gtk_revealer_set_reveal_child (GTK_REVEALER (section->revealer), open);
  gtk_image_set_from_icon_name (GTK_IMAGE (section->arrow), open ? "pr-open-symbolic" : "pr-folded-symbolic");
  gtk_accessible_update_state (GTK_ACCESSIBLE (section->header), GTK_ACCESSIBLE_STATE_EXPANDED, open, -1);
}

static void
header_clicked (PrFold *section)
{
  bool open = !gtk_revealer_get_reveal_child (GTK_REVEALER (section->revealer));

  pr_fold_set_open (section, open);
  if (open)
    g_signal_emit (section, signals[OPENED], 0);
}

void
pr_fold_set_result (PrFold *section, const char *result)
{
  gtk_label_set_text (GTK_LABEL (section->result), result);
}

void
pr_fold_add (PrFold *section, GtkWidget *child)
{
  gtk_box_append (GTK_BOX (section->body), child);
}

static void
pr_fold_init (PrFold *section)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (section), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (GTK_WIDGET (section), "section");
  section->arrow = gtk_image_new_from_icon_name ("pr-folded-symbolic");
  gtk_widget_set_valign (section->arrow, GTK_ALIGN_START);
  section->title = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (section->title), 0);
  gtk_widget_add_css_class (section->title, "head");
  section->result = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (section->result), 0);
  gtk_label_set_wrap (GTK_LABEL (section->result), TRUE);
  gtk_widget_add_css_class (section->result, "soft");
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (words), section->title);
  gtk_box_append (GTK_BOX (words), section->result);
  gtk_box_append (GTK_BOX (line), section->arrow);
  gtk_box_append (GTK_BOX (line), words);
  section->header = gtk_button_new ();
  gtk_button_set_has_frame (GTK_BUTTON (section->header), FALSE);
  gtk_button_set_child (GTK_BUTTON (section->header), line);
  g_signal_connect_swapped (section->header, "clicked", G_CALLBACK (header_clicked), section);
  section->body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 5);
  gtk_widget_add_css_class (section->body, "inside");
  section->revealer = gtk_revealer_new ();
  gtk_revealer_set_child (GTK_REVEALER (section->revealer), section->body);
  gtk_box_append (GTK_BOX (section), section->header);
  gtk_box_append (GTK_BOX (section), section->revealer);
}

static void
pr_fold_class_init (PrFoldClass *class)
{
  signals[OPENED] = g_signal_new ("opened", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
}

GtkWidget *
pr_fold_new (const char *title)
{
  PrFold *section = g_object_new (PR_TYPE_FOLD, NULL);

  gtk_label_set_text (GTK_LABEL (section->title), title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (section->header), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  return GTK_WIDGET (section);
}
