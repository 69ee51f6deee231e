/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-paper-offer.h"

#include <glib/gi18n-lib.h>
#include "pr-document-marking.h"
#include "pr-follower.h"

static void
picked (GtkWidget *button, gpointer paper)
{
  PrDocument *doc = pr_document_of (button);
  GtkWidget *popover = gtk_widget_get_ancestor (button, GTK_TYPE_POPOVER);

  if (popover)
    gtk_popover_popdown (GTK_POPOVER (popover));
  if (pr_document_job (doc))
    pr_document_take_paper (doc, (PrPaper) GPOINTER_TO_INT (paper));
}

bool
pr_paper_offer_is_due (PrDocument *doc)
{
  return pr_document_wants_paper (doc);
}

void
pr_paper_offer_add (GtkBox *box, PrDocument *doc)
{
  PrPaper paper[PR_N_PAPERS];
  double foot[PR_N_PAPERS];
  size_t n = pr_document_papers (doc, paper, foot);

  for (size_t i = 0; i < n; i++) {
    g_autofree char *width = pr_length_text (foot[i], pr_document_unit (doc));
    /* TRANSLATORS: a paper's name, and how wide the foot is if the sheet is that paper */
    g_autofree char *text = g_strdup_printf (_ ("%s: foot %s wide"), pr_paper_name (paper[i]), width);
    GtkWidget *button = gtk_button_new_with_label (text);

    gtk_widget_set_halign (button, GTK_ALIGN_START);
    g_signal_connect (button, "clicked", G_CALLBACK (picked), GINT_TO_POINTER (paper[i]));
    gtk_box_append (box, button);
  }
}
