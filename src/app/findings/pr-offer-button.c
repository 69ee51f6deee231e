/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-offer-button.h"

struct _PrOfferButton {
  GtkButton parent_instance;
  const char *id; /* of the finding, static */
};

G_DEFINE_FINAL_TYPE (PrOfferButton, pr_offer_button, GTK_TYPE_BUTTON)

static void
take (PrOfferButton *button)
{
  PrDocument *doc = pr_document_of (button);
  GtkWidget *popover = gtk_widget_get_ancestor (GTK_WIDGET (button), GTK_TYPE_POPOVER);
  g_autoptr (GError) error = NULL;

  if (popover)
    gtk_popover_popdown (GTK_POPOVER (popover));
  if (pr_document_job (doc) && !pr_document_take_offer (doc, button->id, &error))
    pr_document_trouble (doc, error->message);
}

GtkWidget *
pr_offer_button_new (const PrJob *job, PrFinding *finding)
{
  const char *offer = pr_job_offer (job, finding);
  PrOfferButton *button = offer ? g_object_new (PR_TYPE_OFFER_BUTTON, "label", offer, NULL) : NULL;

  if (!button)
    return NULL;

  button->id = finding->id;
  return GTK_WIDGET (button);
}

static void
pr_offer_button_init (PrOfferButton *button)
{
  gtk_widget_init_template (GTK_WIDGET (button));
}

static void
pr_offer_button_class_init (PrOfferButtonClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "offer-button.ui");
  gtk_widget_class_bind_template_callback (widget_class, take);
}
