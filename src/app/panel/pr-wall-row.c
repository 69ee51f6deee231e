/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-wall-row.h"

#include <glib/gi18n-lib.h>
#include "pr-words.h"

#define ENTRY_CHARS 5

struct _PrWallRow {
  GtkBox parent_instance;
  PrDocument *doc;
  GtkWidget *entry[3], *trouble;
};

G_DEFINE_FINAL_TYPE (PrWallRow, pr_wall_row, GTK_TYPE_BOX)

static char *
wall_text (PrWallRow *row, int which)
{
  return pr_words_length (pr_document_job (row->doc)->hoof.wall[which], pr_document_unit (row->doc));
}

static void
show_trouble (PrWallRow *row, GtkWidget *entry, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (row->trouble), sentence ? sentence : "");
  gtk_widget_set_visible (row->trouble, sentence != NULL);
  for (int i = 0; i < 3; i++)
    gtk_widget_remove_css_class (row->entry[i], "error");
  if (entry)
    gtk_widget_add_css_class (entry, "error");
}

static void
show (PrWallRow *row)
{
  for (int i = 0; pr_document_job (row->doc) && i < 3; i++) {
    g_autofree char *text = wall_text (row, i);

    if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (row->entry[i])), text) != 0)
      gtk_editable_set_text (GTK_EDITABLE (row->entry[i]), text);
  }
  show_trouble (row, NULL, NULL);
}

static void
document_changed (PrWallRow *row, guint what)
{
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_UNIT | PR_CHANGED_PLACE))
    show (row);
}

static void
take (PrWallRow *row, int which)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (row->entry[which]));
  g_autofree char *now = NULL;
  g_autoptr (GError) error = NULL;
  double mm = 0;
  bool ok;

  if (!pr_document_job (row->doc) || pr_document_editing (row->doc))
    return;
  now = wall_text (row, which);
  if (g_str_equal (now, text)) {
    show_trouble (row, NULL, NULL);
    return;
  }
  ok = (!*text || pr_length_parse (text, pr_document_unit (row->doc), &mm, &error))
       && pr_document_set_wall (row->doc, which, mm, &error);
  if (ok)
    show (row);
  else
    show_trouble (row, row->entry[which], error->message);
}

static int
index_of (PrWallRow *row, gpointer entry)
{
  for (int i = 0; i < 2; i++)
    if (row->entry[i] == entry)
      return i;
  return 2;
}

static void
entry_activated (GtkWidget *entry, PrWallRow *row)
{
  take (row, index_of (row, entry));
}

static void
entry_left (GtkEventControllerFocus *focus, PrWallRow *row)
{
  take (row, index_of (row, gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus))));
}

static GtkWidget *
entry_new (PrWallRow *row, const char *label)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), ENTRY_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), ENTRY_CHARS + 3);
  gtk_widget_set_hexpand (entry, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_signal_connect (entry, "activate", G_CALLBACK (entry_activated), row);
  g_signal_connect (focus, "leave", G_CALLBACK (entry_left), row);
  gtk_widget_add_controller (entry, focus);
  return entry;
}

GtkWidget *
pr_wall_row_new (PrDocument *doc)
{
  PrWallRow *row = g_object_new (PR_TYPE_WALL_ROW, NULL);

  row->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), row, G_CONNECT_SWAPPED);
  show (row);
  return GTK_WIDGET (row);
}

static void
pr_wall_row_dispose (GObject *object)
{
  g_clear_object (&PR_WALL_ROW (object)->doc);
  G_OBJECT_CLASS (pr_wall_row_parent_class)->dispose (object);
}

static void
pr_wall_row_init (PrWallRow *row)
{
  const char *const spoken[3]
      = { _ ("Wall at the toe"), _ ("Wall at the quarters"), _ ("Wall at the heels") };
  GtkWidget *words = gtk_label_new (_ ("Wall: toe, quarters, heels")),
            *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (row), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (row), 3);
  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_box_append (GTK_BOX (row), words);
  for (int i = 0; i < 3; i++) {
    row->entry[i] = entry_new (row, spoken[i]);
    gtk_box_append (GTK_BOX (line), row->entry[i]);
  }
  gtk_box_append (GTK_BOX (row), line);
  row->trouble = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (row->trouble), TRUE);
  gtk_label_set_xalign (GTK_LABEL (row->trouble), 0);
  gtk_widget_add_css_class (row->trouble, "trouble");
  gtk_widget_set_visible (row->trouble, FALSE);
  gtk_box_append (GTK_BOX (row), row->trouble);
}

static void
pr_wall_row_class_init (PrWallRowClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_wall_row_dispose;
}
