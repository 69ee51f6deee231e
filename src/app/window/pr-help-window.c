/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-help-window.h"

#include "pr-cautions.h"
#include "pr-preferences.h"
#include "pr-ui.h"

struct _PrHelpWindow {
  GtkWindow parent_instance;
  GtkLabel *cautions;
  GtkBox *parts; /* heads and texts in turn; a head's name is the page that says more */
};

G_DEFINE_FINAL_TYPE (PrHelpWindow, pr_help_window, GTK_TYPE_WINDOW)

/* Is the page installed where the viewer looks for it? */
static bool
is_installed (const char *page)
{
  g_autofree char *name = g_strconcat (page, ".page", NULL);
  bool found = false;

  for (const char *const *dir = g_get_system_data_dirs (); *dir && !found; dir++) {
    g_autofree char *path = g_build_filename (*dir, "help", "C", "pritchel", name, NULL);
    found = g_file_test (path, G_FILE_TEST_EXISTS);
  }
  return found;
}

/* What PAGE is about comes first, as nobody looks for it below the edge. */
static void
begin_with (PrHelpWindow *window, const char *page)
{
  GtkWidget *head = gtk_widget_get_first_child (GTK_WIDGET (window->parts));

  while (head && g_strcmp0 (gtk_widget_get_name (head), page) != 0)
    head = gtk_widget_get_next_sibling (head);
  if (!head)
    return;
  gtk_box_reorder_child_after (window->parts, gtk_widget_get_next_sibling (head), NULL);
  gtk_box_reorder_child_after (window->parts, head, NULL);
}

void
pr_help_show (GtkWindow *parent, const char *page)
{
  g_autoptr (GAppInfo) viewer = g_app_info_get_default_for_uri_scheme ("help");
  g_autofree char *uri = g_strconcat ("help:pritchel/", page, NULL);

  if (viewer && is_installed (page) && g_app_info_launch_default_for_uri (uri, NULL, NULL))
    return;
  PrHelpWindow *window = g_object_new (PR_TYPE_HELP_WINDOW, "transient-for", parent, NULL);
  gtk_window_set_modal (GTK_WINDOW (window),
                        gtk_window_get_modal (parent)); /* else nothing of it could be pressed */
  begin_with (window, page);
  gtk_window_present (GTK_WINDOW (window));
}

/* --- F1 in other windows --- */

/* What is not listed is about what the window it belongs to is about. */
static const struct {
  const char *type, *page;
} pages[] = {
  { "PrPracticeWindow", "practice" }, { "PrRunSheet", "practice" },     { "PrClassDialog", "practice" },
  { "PrVisitsWindow", "visits" },     { "PrVetDialog", "visits" },      { "PrFeetWindow", "visits" },
  { "PrPhoneDialog", "phone" },       { "PrPreview", "printing" },      { "PrSheetDialog", "printing" },
  { "PrPrinterDialog", "printing" },  { "PrSpecimenDialog", "forged" }, { "PrSentDialog", "book" },
  { "PrRestoreDialog", "book" },      { "PrTrashDialog", "book" },      { "PrHorseDialog", "book" },
  { "PrVisitDialog", "book" },        { "PrDueDialog", "book" },        { "PrLossDialog", "bar" },
  { "PrFootDialog", "tracing" },      { "PrStyleGallery", "shoe" },     { "PrScreen", "printing" },
};

static const char *
page_of (GtkWindow *window)
{
  if (PR_IS_PREFERENCES (window))
    return pr_preferences_help_page (PR_PREFERENCES (window));
  for (size_t i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_str_equal (G_OBJECT_TYPE_NAME (window), pages[i].type))
      return pages[i].page;
  GtkWindow *over = gtk_window_get_transient_for (window);
  return over ? page_of (over) : "index";
}

gboolean
pr_help_by_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  if (GTK_IS_APPLICATION_WINDOW (widget) || PR_IS_HELP_WINDOW (widget))
    return FALSE;
  pr_help_show (GTK_WINDOW (widget), page_of (GTK_WINDOW (widget)));
  return TRUE;
}

bool
pr_help_show_active (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

    if (gtk_window_is_active (GTK_WINDOW (window)) && !GTK_IS_APPLICATION_WINDOW (window))
      return pr_help_by_key (window, NULL, NULL) || PR_IS_HELP_WINDOW (window);
  }
  return false;
}

/* --- the window --- */

static void
pr_help_window_init (PrHelpWindow *window)
{
  gtk_widget_init_template (GTK_WIDGET (window));
  gtk_label_set_text (window->cautions, pr_cautions ());
}

static void
pr_help_window_class_init (PrHelpWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "help-window.ui");
  gtk_widget_class_bind_template_child (widget_class, PrHelpWindow, cautions);
  gtk_widget_class_bind_template_child (widget_class, PrHelpWindow, parts);
}
