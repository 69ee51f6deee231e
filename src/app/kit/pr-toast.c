/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-toast.h"

#include "pr-text.h"

/* Long enough to read two lines and reach for the button, with gloves on. */
#define SHOWN_MS 9000

struct _PrToast {
  GtkBox parent_instance;
  GtkRevealer *revealer;
  GtkLabel *words;
  GtkWidget *undo;
  GtkEventControllerMotion *pointer;
  GtkEventControllerFocus *focus;
  guint timer; /* 0: nothing is said */
};

G_DEFINE_FINAL_TYPE (PrToast, pr_toast, GTK_TYPE_BOX)

/* Faded away it is not there: else whoever goes by the names of things finds a second "Undo" that does nothing. */
static void
faded (PrToast *toast)
{
  gtk_widget_set_visible (GTK_WIDGET (toast), gtk_revealer_get_child_revealed (toast->revealer)
                                                  || gtk_revealer_get_reveal_child (toast->revealer));
}

static void
set_shown (PrToast *toast, bool shown)
{
  if (shown)
    gtk_widget_set_visible (GTK_WIDGET (toast), TRUE);
  gtk_revealer_set_reveal_child (toast->revealer, shown);
  gtk_widget_set_can_target (GTK_WIDGET (toast->revealer), shown);
  gtk_widget_set_sensitive (GTK_WIDGET (toast->revealer), shown); /* hidden, it takes no focus */
}

void
pr_toast_hide (PrToast *toast)
{
  g_clear_handle_id (&toast->timer, g_source_remove);
  set_shown (toast, false);
}

static gboolean
time_is_up (gpointer data)
{
  PrToast *toast = data;

  if (gtk_event_controller_motion_contains_pointer (toast->pointer)
      || gtk_event_controller_focus_contains_focus (toast->focus))
    return G_SOURCE_CONTINUE;
  toast->timer = 0;
  set_shown (toast, false);
  return G_SOURCE_REMOVE;
}

void
pr_toast_say (PrToast *toast, const char *sentence, bool undo)
{
  g_autofree char *shown = pr_text_sentence (sentence);

  g_clear_handle_id (&toast->timer, g_source_remove);
  gtk_label_set_text (toast->words, shown);
  gtk_widget_set_visible (toast->undo, undo);
  set_shown (toast, true);
  toast->timer = g_timeout_add (SHOWN_MS, time_is_up, toast);
}

/* What a person's own work gave way to can be had back. */
static void
say_done (PrToast *toast, const char *sentence)
{
  pr_toast_say (toast, sentence, true);
}

static void
say_only (PrToast *toast, const char *sentence)
{
  pr_toast_say (toast, sentence, false);
}

static void
document_changed (PrToast *toast, guint what)
{
  bool other_step = (what & PR_CHANGED_HISTORY) && gtk_widget_get_visible (toast->undo);

  /* after another change, or once it was undone, its button would undo something else */
  if (what & PR_CHANGED_PLACE || other_step)
    pr_toast_hide (toast);
}

void
pr_toast_follow (PrToast *toast, PrDocument *doc)
{
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), toast, G_CONNECT_SWAPPED);
  g_signal_connect_object (doc, "done", G_CALLBACK (say_done), toast, G_CONNECT_SWAPPED);
  g_signal_connect_object (doc, "said", G_CALLBACK (say_only), toast, G_CONNECT_SWAPPED);
}

static void
pr_toast_dispose (GObject *object)
{
  PrToast *toast = PR_TOAST (object);

  g_clear_handle_id (&toast->timer, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (toast), PR_TYPE_TOAST);
  G_OBJECT_CLASS (pr_toast_parent_class)->dispose (object);
}

static void
pr_toast_init (PrToast *toast)
{
  gtk_widget_init_template (GTK_WIDGET (toast));
  set_shown (toast, false);
  faded (toast);
}

static void
pr_toast_class_init (PrToastClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_toast_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/toast.ui");
  gtk_widget_class_bind_template_child (widget_class, PrToast, revealer);
  gtk_widget_class_bind_template_child (widget_class, PrToast, words);
  gtk_widget_class_bind_template_child (widget_class, PrToast, undo);
  gtk_widget_class_bind_template_child (widget_class, PrToast, pointer);
  gtk_widget_class_bind_template_child (widget_class, PrToast, focus);
  gtk_widget_class_bind_template_callback (widget_class, faded);
  gtk_widget_class_bind_template_callback_full (widget_class, "hide", G_CALLBACK (pr_toast_hide));
}
