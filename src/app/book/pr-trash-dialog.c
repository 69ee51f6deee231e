/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-trash-dialog.h"

#include "pr-document-delete.h"
#include "pr-trash-row.h"
#include "pr-ui.h"

struct _PrTrashDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  GtkWidget *nothing, *rows, *trouble;
};

G_DEFINE_FINAL_TYPE (PrTrashDialog, pr_trash_dialog, GTK_TYPE_WINDOW)

static void
fill (PrTrashDialog *dialog)
{
  PrBook *book = pr_document_book (dialog->doc);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) trash = book ? pr_book_trash (book, &error) : NULL;

  pr_empty (dialog->rows);
  for (guint i = 0; trash && i < trash->len; i++)
    gtk_box_append (GTK_BOX (dialog->rows), pr_trash_row_new (g_ptr_array_index (trash, i)));
  gtk_widget_set_visible (dialog->nothing, trash && trash->len == 0);
  pr_tell (dialog->trouble, error ? error->message : NULL);
}

/* The action "trash.put-back": what, and which. */
static void
put_back (GtkWidget *widget, const char *name, GVariant *what)
{
  PrTrashDialog *dialog = PR_TRASH_DIALOG (widget);
  g_autoptr (GError) error = NULL;
  int kind;
  PrBookId id;

  g_variant_get (what, "(ix)", &kind, &id);
  pr_document_bring_back (dialog->doc, (PrBookKind) kind, id, &error);
  fill (dialog);
  if (error)
    pr_tell (dialog->trouble, error->message);
}

void
pr_trash_dialog_show (GtkWindow *parent, PrDocument *doc)
{
  PrTrashDialog *dialog = g_object_new (PR_TYPE_TRASH_DIALOG, "transient-for", parent, NULL);

  dialog->doc = g_object_ref (doc);
  fill (dialog);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_trash_dialog_dispose (GObject *object)
{
  g_clear_object (&PR_TRASH_DIALOG (object)->doc);
  G_OBJECT_CLASS (pr_trash_dialog_parent_class)->dispose (object);
}

static void
pr_trash_dialog_init (PrTrashDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
}

static void
pr_trash_dialog_class_init (PrTrashDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_trash_dialog_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "trash-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, PrTrashDialog, nothing);
  gtk_widget_class_bind_template_child (widget_class, PrTrashDialog, rows);
  gtk_widget_class_bind_template_child (widget_class, PrTrashDialog, trouble);
  gtk_widget_class_install_action (widget_class, "trash.put-back", "(ix)", put_back);
}
