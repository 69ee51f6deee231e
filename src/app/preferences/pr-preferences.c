/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-preferences.h"

#include <glib/gi18n-lib.h>
#include "pr-book-loss.h"
#include "pr-follower.h"
#include "pr-limits-page.h"
#include "pr-losses-page.h"
#include "pr-rack-page.h"
#include "pr-settings.h"
#include "pr-toast.h"

struct _PrPreferences {
  GtkWindow parent_instance;
  PrFollower *limits, *losses, *rack;
  GtkLabel *book_file, *screen;
  GtkStack *stack;
  PrToast *toast;
};

G_DEFINE_FINAL_TYPE (PrPreferences, pr_preferences, GTK_TYPE_WINDOW)

/* Where everything is kept, and whether the screen has been measured: read anew whenever the window is turned to, as
 * what is pressed here opens a window of its own. */
static void
show (PrPreferences *window)
{
  PrDocument *doc = pr_document_of (window->limits);
  PrBook *book = doc ? pr_document_book (doc) : NULL;

  gtk_label_set_text (window->book_file,
                      book ? pr_book_file (book) : _ ("No book is open; nothing is kept."));
  gtk_label_set_text (window->screen, pr_settings_double ("screen-px-per-mm") > 0
                                          ? _ ("This screen has been measured: 1 : 1 is true.")
                                          : _ ("This screen has not been measured: 1 : 1 goes by what the "
                                               "monitor says of itself."));
}

static void
turned_to (PrPreferences *window)
{
  if (gtk_window_is_active (GTK_WINDOW (window)))
    show (window);
}

static void
trouble (PrPreferences *window, const char *sentence)
{
  pr_toast_say (window->toast, sentence, false);
}

const char *
pr_preferences_help_page (PrPreferences *window)
{
  static const char *const pages[][2] = {
    { "true", "printing" }, { "losses", "bar" }, { "rack", "bar" }, { "limits", "checks" }, { "book", "book" }
  };
  const char *shown = gtk_stack_get_visible_child_name (window->stack);

  for (size_t i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_strcmp0 (shown, pages[i][0]) == 0)
      return pages[i][1];
  return "index";
}

void
pr_preferences_show (GtkWindow *parent, PrDocument *doc)
{
  PrPreferences *window = g_object_new (PR_TYPE_PREFERENCES, "transient-for", parent, NULL);
  PrFollower *const pages[] = { window->limits, window->losses, window->rack };

  gtk_widget_insert_action_group (GTK_WIDGET (window), "win", G_ACTION_GROUP (parent));
  for (size_t i = 0; i < G_N_ELEMENTS (pages); i++)
    pr_follower_set_document (pages[i], doc);
  /* this window lies over the toast of the other */
  pr_toast_follow (window->toast, doc);
  g_signal_connect_object (doc, "trouble", G_CALLBACK (trouble), window, G_CONNECT_SWAPPED);
  show (window);
  gtk_window_present (GTK_WINDOW (window));
}

static void
pr_preferences_init (PrPreferences *window)
{
  gtk_widget_init_template (GTK_WIDGET (window));
}

static void
pr_preferences_class_init (PrPreferencesClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  g_type_ensure (PR_TYPE_LIMITS_PAGE);
  g_type_ensure (PR_TYPE_LOSSES_PAGE);
  g_type_ensure (PR_TYPE_RACK_PAGE);
  g_type_ensure (PR_TYPE_TOAST);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "preferences.ui");
  gtk_widget_class_bind_template_callback (widget_class, turned_to);
  gtk_widget_class_bind_template_child (widget_class, PrPreferences, limits);
  gtk_widget_class_bind_template_child (widget_class, PrPreferences, losses);
  gtk_widget_class_bind_template_child (widget_class, PrPreferences, rack);
  gtk_widget_class_bind_template_child (widget_class, PrPreferences, book_file);
  gtk_widget_class_bind_template_child (widget_class, PrPreferences, screen);
  gtk_widget_class_bind_template_child (widget_class, PrPreferences, stack);
  gtk_widget_class_bind_template_child (widget_class, PrPreferences, toast);
}
