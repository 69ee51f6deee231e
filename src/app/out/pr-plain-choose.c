/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-plain-choose.h"

#include <glib/gi18n-lib.h>
#include "pr-document-plain.h"
#include "pr-print.h"

static void
chosen (GtkNativeDialog *native, int response, PrDocument *doc)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));
  g_autofree char *path = file ? g_file_get_path (file) : NULL;
  g_autoptr (GError) error = NULL;

  if (response == GTK_RESPONSE_ACCEPT && !path)
    pr_document_trouble (doc, _ ("Nothing can be written there; choose a folder of this computer."));
  else if (response == GTK_RESPONSE_ACCEPT
           && !pr_document_write_plain (doc, path, pr_print_default_paper (), &error))
    pr_document_trouble (doc, error->message);
  g_object_unref (native);
}

void
pr_plain_choose (GtkWindow *parent, PrDocument *doc)
{
  GtkFileChooserNative *native
      = gtk_file_chooser_native_new (_ ("Write everything as plain files"), parent,
                                     GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _ ("_Write"), _ ("_Cancel"));

  g_signal_connect_object (native, "response", G_CALLBACK (chosen), doc, 0);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}
