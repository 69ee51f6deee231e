/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-class-dialog.h"

#include "pr-criterion-row.h"
#include "pr-ui.h"

#define S_PER_MIN 60.0

struct _PrClassDialog {
  GtkWindow parent_instance;
  PrPracticeDesk *desk;
  PrBookId id; /* 0: a new one */
  GtkEditable *name, *make;
  GtkSpinButton *minutes, *heats, *shoes;
  GtkCheckButton *striker;
  GtkWidget *criteria, *trouble;
};

G_DEFINE_FINAL_TYPE (PrClassDialog, pr_class_dialog, GTK_TYPE_WINDOW)

static void
add_criterion (PrClassDialog *dialog)
{
  GtkWidget *row = pr_criterion_row_new (NULL);

  gtk_box_append (GTK_BOX (dialog->criteria), row);
  gtk_widget_child_focus (row, GTK_DIR_TAB_FORWARD);
}

static void
fill (PrClassDialog *dialog, const PrPracticeClass *class)
{
  gtk_editable_set_text (dialog->name, class->name);
  gtk_editable_set_text (dialog->make, class->make);
  gtk_spin_button_set_value (dialog->minutes, class->seconds / S_PER_MIN);
  gtk_spin_button_set_value (dialog->heats, class->heats);
  gtk_spin_button_set_value (dialog->shoes, class->shoes);
  gtk_check_button_set_active (dialog->striker, class->striker);
  for (guint i = 0; i < class->criteria->len; i++)
    gtk_box_append (GTK_BOX (dialog->criteria),
                    pr_criterion_row_new (&g_array_index (class->criteria, PrPracticeCriterion, i)));
}

/* Transfer full. */
static PrPracticeClass *
typed (PrClassDialog *dialog)
{
  PrPracticeClass *class = pr_practice_class_new ();

  class->id = dialog->id;
  g_free (class->name);
  class->name = g_strdup (gtk_editable_get_text (dialog->name));
  g_free (class->make);
  class->make = g_strdup (gtk_editable_get_text (dialog->make));
  class->seconds = (int) (gtk_spin_button_get_value (dialog->minutes) * S_PER_MIN + 0.5);
  class->heats = gtk_spin_button_get_value_as_int (dialog->heats);
  class->shoes = gtk_spin_button_get_value_as_int (dialog->shoes);
  class->striker = gtk_check_button_get_active (dialog->striker);
  for (GtkWidget *row = gtk_widget_get_first_child (dialog->criteria); row;
       row = gtk_widget_get_next_sibling (row))
    pr_criterion_row_add_to (PR_CRITERION_ROW (row), class);
  return class;
}

static void
keep (PrClassDialog *dialog)
{
  g_autoptr (PrPracticeClass) class = typed (dialog);
  g_autoptr (GError) error = NULL;

  if (pr_practice_desk_keep_class (dialog->desk, class, &error))
    gtk_window_destroy (GTK_WINDOW (dialog));
  else
    pr_tell (dialog->trouble, error->message);
}

void
pr_class_dialog_show (GtkWindow *parent, PrPracticeDesk *desk, const PrPracticeClass *class)
{
  PrClassDialog *dialog = g_object_new (PR_TYPE_CLASS_DIALOG, "transient-for", parent, NULL);
  const PrPracticeClass *from = class ? class : pr_practice_desk_class (desk);
  g_autoptr (PrPracticeClass) shown = from ? pr_practice_class_copy (from) : pr_practice_class_new ();

  pr_practice_class_own (shown);
  if (!class) {
    shown->id = 0;
    *shown->name = *shown->make = '\0';
  }
  dialog->desk = g_object_ref (desk);
  dialog->id = shown->id;
  fill (dialog, shown);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_class_dialog_dispose (GObject *object)
{
  g_clear_object (&PR_CLASS_DIALOG (object)->desk);
  G_OBJECT_CLASS (pr_class_dialog_parent_class)->dispose (object);
}

static void
pr_class_dialog_init (PrClassDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
}

static void
pr_class_dialog_class_init (PrClassDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_class_dialog_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "class-dialog.ui");
  gtk_widget_class_bind_template_callback (widget_class, keep);
  gtk_widget_class_bind_template_callback (widget_class, add_criterion);
  gtk_widget_class_bind_template_child (widget_class, PrClassDialog, name);
  gtk_widget_class_bind_template_child (widget_class, PrClassDialog, make);
  gtk_widget_class_bind_template_child (widget_class, PrClassDialog, minutes);
  gtk_widget_class_bind_template_child (widget_class, PrClassDialog, heats);
  gtk_widget_class_bind_template_child (widget_class, PrClassDialog, shoes);
  gtk_widget_class_bind_template_child (widget_class, PrClassDialog, striker);
  gtk_widget_class_bind_template_child (widget_class, PrClassDialog, criteria);
  gtk_widget_class_bind_template_child (widget_class, PrClassDialog, trouble);
}
