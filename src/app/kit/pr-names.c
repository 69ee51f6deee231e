/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-names.h"

/* As wide as a drop-down and its list may become for what is in them, letters. */
#define SHOWN_CHARS 22
#define LISTED_CHARS 40

static gboolean
tell_whole (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tip)
{
  GtkLabel *label = GTK_LABEL (widget);
  bool cut = pango_layout_is_ellipsized (gtk_label_get_layout (label));

  if (cut)
    gtk_tooltip_set_text (tip, gtk_label_get_text (label));
  return cut;
}

void
pr_label_cut (GtkLabel *label, int lines)
{
  gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_END);
  if (lines > 1) {
    gtk_label_set_wrap (label, TRUE);
    gtk_label_set_wrap_mode (label, PANGO_WRAP_WORD_CHAR);
    gtk_label_set_lines (label, lines);
  }
  gtk_widget_set_has_tooltip (GTK_WIDGET (label), TRUE);
  g_signal_connect (label, "query-tooltip", G_CALLBACK (tell_whole), NULL);
}

static GtkWidget *
find_label (GtkWidget *root)
{
  if (GTK_IS_LABEL (root))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *label = find_label (child);

    if (label)
      return label;
  }
  return NULL;
}

void
pr_editable_cut (GtkEditableLabel *editable, int chars)
{
  GtkWidget *label = find_label (GTK_WIDGET (editable));

  g_return_if_fail (label);
  pr_label_cut (GTK_LABEL (label), 1);
  gtk_label_set_max_width_chars (GTK_LABEL (label), chars);
}

/* --- drop-downs --- */

static GtkWidget *
new_label (int most_chars)
{
  GtkWidget *label = gtk_label_new (NULL);

  pr_label_cut (GTK_LABEL (label), 1);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), most_chars);
  gtk_widget_set_hexpand (label, TRUE);
  return label;
}

static void
show_string (GtkWidget *label, GtkListItem *item)
{
  gtk_label_set_text (GTK_LABEL (label), gtk_string_object_get_string (gtk_list_item_get_item (item)));
}

static void
set_up_shown (GtkListItemFactory *factory, GtkListItem *item)
{
  gtk_list_item_set_child (item, new_label (SHOWN_CHARS));
}

static void
bind_shown (GtkListItemFactory *factory, GtkListItem *item)
{
  show_string (gtk_list_item_get_child (item), item);
}

static void
mark_chosen (GtkListItem *item, GParamSpec *spec, GtkDropDown *drop)
{
  GtkWidget *mark = gtk_widget_get_last_child (gtk_list_item_get_child (item));
  gpointer chosen = gtk_drop_down_get_selected_item (drop);

  gtk_widget_set_opacity (mark, chosen && chosen == gtk_list_item_get_item (item));
}

static void
set_up_listed (GtkListItemFactory *factory, GtkListItem *item, GtkDropDown *drop)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_box_append (GTK_BOX (box), new_label (LISTED_CHARS));
  gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name ("object-select-symbolic"));
  gtk_list_item_set_child (item, box);
  g_signal_connect_object (drop, "notify::selected-item", G_CALLBACK (mark_chosen), item, G_CONNECT_SWAPPED);
}

static void
bind_listed (GtkListItemFactory *factory, GtkListItem *item, GtkDropDown *drop)
{
  show_string (gtk_widget_get_first_child (gtk_list_item_get_child (item)), item);
  mark_chosen (item, NULL, drop);
}

void
pr_drop_down_cut (GtkDropDown *drop)
{
  g_autoptr (GtkListItemFactory) shown = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkListItemFactory) listed = gtk_signal_list_item_factory_new ();

  g_signal_connect (shown, "setup", G_CALLBACK (set_up_shown), NULL);
  g_signal_connect (shown, "bind", G_CALLBACK (bind_shown), NULL);
  g_signal_connect_object (listed, "setup", G_CALLBACK (set_up_listed), drop, 0);
  g_signal_connect_object (listed, "bind", G_CALLBACK (bind_listed), drop, 0);
  gtk_drop_down_set_factory (drop, shown);
  gtk_drop_down_set_list_factory (drop, listed);
}
