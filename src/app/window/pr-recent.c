/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-recent.h"

#include "pr-text.h"

#define RECENT_MOST 8
#define APPLICATION "Pritchel"

void
pr_recent_add (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file), *base = g_file_get_basename (file);
  g_autofree char *kind
      = g_content_type_guess (base, NULL, 0, NULL); /* what it really is, its bytes tell when it is opened */
  g_autofree char *mime = g_content_type_get_mime_type (kind);
  char name[] = APPLICATION, exec[] = "pritchel %u";
  GtkRecentData data = { .mime_type = mime, .app_name = name, .app_exec = exec };

  if (g_file_is_native (file))
    gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  return g_date_time_compare (gtk_recent_info_get_modified ((GtkRecentInfo *) b),
                              gtk_recent_info_get_modified ((GtkRecentInfo *) a));
}

/* Element type GtkRecentInfo; transfer full. */
static GList *
ours (void)
{
  GList *all = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());

  for (GList *at = all, *next; at; at = next) {
    GtkRecentInfo *info = at->data;

    next = at->next;
    if (gtk_recent_info_has_application (info, APPLICATION) && gtk_recent_info_exists (info))
      continue;
    gtk_recent_info_unref (info);
    all = g_list_delete_link (all, at);
  }
  return g_list_sort (all, newest_first);
}

static void
free_all (GList *infos)
{
  g_list_free_full (infos, (GDestroyNotify) gtk_recent_info_unref);
}

/* Transfer full. */
static GMenuModel *
menu_of_all (void)
{
  GMenu *menu = g_menu_new ();
  GList *infos = ours ();
  int n = 0;

  for (GList *at = infos; at && n < RECENT_MOST; at = at->next, n++) {
    g_autofree char *name = pr_text_name (gtk_recent_info_get_display_name (at->data));
    g_auto (GStrv) parts = g_strsplit (name, "_", -1); /* not the mark of a letter to press */
    g_autofree char *shown = g_strjoinv ("__", parts);
    g_autoptr (GMenuItem) item = g_menu_item_new (shown, NULL);

    g_menu_item_set_action_and_target (item, "win.open-recent", "s", gtk_recent_info_get_uri (at->data));
    g_menu_append_item (menu, item);
  }
  free_all (infos);
  return G_MENU_MODEL (menu);
}

/* Made anew each time: what was opened since is in it, and what has gone is not. */
static void
pop_up (GtkMenuButton *button, gpointer unused)
{
  g_autoptr (GMenuModel) menu = menu_of_all ();

  gtk_menu_button_set_menu_model (button, menu);
  gtk_popover_set_has_arrow (gtk_menu_button_get_popover (button), FALSE);
}

void
pr_recent_serve (GtkMenuButton *button)
{
  gtk_menu_button_set_create_popup_func (button, pop_up, NULL, NULL);
}

void
pr_recent_update (GtkMenuButton *button)
{
  GList *infos = ours ();

  gtk_widget_set_visible (GTK_WIDGET (button), infos != NULL);
  free_all (infos);
}
