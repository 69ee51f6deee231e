/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-out.h"

#include <glib/gi18n-lib.h>
#include "pr-print.h"
#include "pr-ui.h"

/* One way out, from the question on; what is being asked holds it. Of DIALOG all the rest is that is not its own. */
struct _PrVetOut {
  GObject parent_instance;
  GtkWindow *dialog; /* weak */
  GtkWidget *trouble;
  PrDocument *doc;
  PrVetMade *made;
  const PrVetNote *note;
  PrVetWay way;
};

#define PR_TYPE_VET_OUT (pr_vet_out_get_type ())
G_DECLARE_FINAL_TYPE (PrVetOut, pr_vet_out, PR, VET_OUT, GObject)
G_DEFINE_FINAL_TYPE (PrVetOut, pr_vet_out, G_TYPE_OBJECT)

/* Connects ANSWERED to what asks, which holds OUT from now on. */
static void
hold (gpointer question, GCallback answered, PrVetOut *out)
{
  g_signal_connect_data (question, "response", answered, g_object_ref (out),
                         (GClosureNotify) (void (*) (void)) g_object_unref, 0);
}

static void
print (PrVetOut *out)
{
  GtkWindow *parent = gtk_window_get_transient_for (out->dialog);
  PrSheaf *sheaf = pr_vet_made_sheaf (out->made, out->doc, out->note);
  g_autoptr (PrDocument) doc = g_object_ref (out->doc);

  gtk_window_destroy (out->dialog);
  pr_print_sheaf (parent, doc, sheaf, PR_PAPER_UNKNOWN, NULL);
}

static void
write_to (PrVetOut *out, const char *folder)
{
  g_autoptr (GError) error = NULL;

  if (!folder || !pr_vet_made_write (out->made, out->doc, out->note, folder, &error)) {
    pr_tell (out->trouble,
             error ? error->message : _ ("Nothing can be written there; choose a folder of this computer."));
    return;
  }
  g_autofree char *where = g_filename_display_name (folder);
  g_autofree char *said = g_strdup_printf (_ ("The sheet and its two pictures were written to %s."), where);
  pr_document_say (out->doc, said);
  gtk_window_destroy (out->dialog);
}

static void
folder_chosen (GtkNativeDialog *native, int response, PrVetOut *out)
{
  g_autoptr (GFile) folder = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));
  g_autofree char *path = folder ? g_file_get_path (folder) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && out->dialog)
    write_to (out, path);
  g_object_unref (native);
}

static void
choose_folder (PrVetOut *out)
{
  GtkFileChooserNative *native
      = gtk_file_chooser_native_new (_ ("Export the sheet for the vet"), out->dialog,
                                     GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _ ("_Save here"), _ ("_Cancel"));

  hold (native, G_CALLBACK (folder_chosen), out);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}

static void
go_on (PrVetOut *out)
{
  if (out->way == PR_VET_PRINT)
    print (out);
  else
    choose_folder (out);
}

/* --- without permission -------------------------------------------------------------------- */

static void
answered (GtkDialog *question, int response, PrVetOut *out)
{
  g_autoptr (PrVetOut) held = g_object_ref (out); /* the question lets go of it */

  /* the dialog may be gone before what is left of the question is: that must not look for it then */
  gtk_window_set_transient_for (GTK_WINDOW (question), NULL);
  gtk_window_destroy (GTK_WINDOW (question));
  if (response == GTK_RESPONSE_ACCEPT && held->dialog)
    go_on (held);
}

static void
ask (PrVetOut *out)
{
  GtkWidget *question
      = gtk_message_dialog_new (out->dialog, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE, "%s",
                                _ ("Without the owner's permission?"));

  gtk_window_set_title (GTK_WINDOW (question), _ ("Without the owner's permission?"));
  gtk_widget_add_css_class (question, "pritchel");
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (question), "%s",
      _ ("A vet is consulted with the owner's permission. Who allowed it, when and for what is not all "
         "recorded; the sheet will say so."));
  gtk_dialog_add_buttons (GTK_DIALOG (question), _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("_Go on"),
                          GTK_RESPONSE_ACCEPT, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (question), GTK_RESPONSE_CANCEL);
  hold (question, G_CALLBACK (answered), out);
  gtk_window_present (GTK_WINDOW (question));
}

void
pr_vet_take_out (GtkWindow *dialog, GtkWidget *trouble, PrDocument *doc, PrVetMade *made,
                 const PrVetNote *note, PrVetWay way)
{
  g_autoptr (PrVetOut) out = g_object_new (PR_TYPE_VET_OUT, NULL);

  g_set_weak_pointer (&out->dialog, dialog);
  out->trouble = trouble;
  out->doc = g_object_ref (doc);
  out->made = made;
  out->note = note;
  out->way = way;
  if (pr_vet_note_is_allowed (note))
    go_on (out);
  else
    ask (out);
}

static void
pr_vet_out_finalize (GObject *object)
{
  PrVetOut *out = PR_VET_OUT (object);

  g_clear_weak_pointer (&out->dialog);
  g_clear_object (&out->doc);
  G_OBJECT_CLASS (pr_vet_out_parent_class)->finalize (object);
}

static void
pr_vet_out_init (PrVetOut *out)
{
}

static void
pr_vet_out_class_init (PrVetOutClass *class)
{
  G_OBJECT_CLASS (class)->finalize = pr_vet_out_finalize;
}
