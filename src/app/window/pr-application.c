/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-application.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>
#include "pr-look.h"
#include "pr-settings.h"
#include "pr-window.h"

struct _PrApplication {
  GtkApplication parent_instance;
  PrDocument *doc;
  char *book_trouble; /* why nothing will be kept, when it will not */
};

G_DEFINE_FINAL_TYPE (PrApplication, pr_application, GTK_TYPE_APPLICATION)

/* Does FILE begin as every book does (SQLite file format, 1.2)? */
static bool
is_database (const char *file)
{
  static const char magic[16] = "SQLite format 3";
  char start[sizeof magic] = { 0 };
  FILE *in = fopen (file, "rb");
  bool is = in && fread (start, sizeof start, 1, in) == 1 && memcmp (start, magic, sizeof magic) == 0;

  if (in)
    fclose (in);
  return is;
}

/* Nobody chose this file: so the way out is told for the place it lies in. */
static char *
book_trouble (const char *file, const GError *error)
{
  if (g_file_test (file, G_FILE_TEST_IS_REGULAR) && g_access (file, R_OK) == 0 && !is_database (file))
    return g_strdup_printf (_ ("The file %s, where the book is kept, is no book. Move it away and start "
                               "again: then a new book is made. Until then nothing you do here is "
                               "kept."),
                            file);
  return g_strdup_printf (_ ("%s Until then nothing you do here is kept."), error->message);
}

static void
open_book (PrApplication *app)
{
  g_autofree char *file = pr_book_default_file ();
  g_autoptr (GError) error = NULL;
  PrBook *book = pr_book_open (file, &error);

  if (!book)
    app->book_trouble = book_trouble (file, error);
  pr_settings_take_over (book);
  app->doc = pr_document_new (book, pr_settings_unit ());
}

static PrWindow *
the_window (PrApplication *app)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (app));

  if (window && PR_IS_WINDOW (window))
    return PR_WINDOW (window);
  window = GTK_WINDOW (pr_window_new (GTK_APPLICATION (app), app->doc));
  if (app->book_trouble)
    pr_window_tell (PR_WINDOW (window), app->book_trouble);
  return PR_WINDOW (window);
}

static void
pr_application_activate (GApplication *gapp)
{
  PrApplication *app = PR_APPLICATION (gapp);
  bool first = gtk_application_get_active_window (GTK_APPLICATION (app)) == NULL;
  PrWindow *window = the_window (app);

  if (first && !pr_document_job (app->doc))
    pr_document_open_last (app->doc);
  gtk_window_present (GTK_WINDOW (window));
}

static void
pr_application_open (GApplication *gapp, GFile **files, int n_files, const char *hint)
{
  PrWindow *window = the_window (PR_APPLICATION (gapp));

  gtk_window_present (GTK_WINDOW (window));
  if (n_files > 0)
    pr_window_open (window, files, n_files);
}

static void
quit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkWindow *window;

  while ((window = gtk_application_get_active_window (GTK_APPLICATION (data))))
    gtk_window_destroy (window);
}

static void
set_keys (GtkApplication *app)
{
  static const struct {
    const char *action, *keys[3];
  } keys[] = {
    { "app.quit", { "<Ctrl>q" } },
    { "win.open", { "<Ctrl>o" } },
    { "win.print", { "<Ctrl>p" } },
    { "win.print-preview", { "<Ctrl><Shift>p" } },
    { "win.save-pdf", { "<Ctrl>e" } },
    { "win.undo", { "<Ctrl>z" } },
    { "win.redo", { "<Ctrl><Shift>z", "<Ctrl>y" } },
    { "win.find", { "<Ctrl>f" } },
    { "win.book", { "F9" } },
    { "win.help", { "F1" } },
    { "win.zoom-in", { "<Ctrl>plus", "<Ctrl>equal" } },
    { "win.zoom-out", { "<Ctrl>minus" } },
    { "win.fit", { "<Ctrl>0" } },
    { "win.true-size", { "<Ctrl>1" } },
    { "win.turn", { "<Ctrl>t" } },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_application_set_accels_for_action (app, keys[i].action, (const char **) keys[i].keys);
}

static void
pr_application_startup (GApplication *gapp)
{
  static const GActionEntry entries[] = { { .name = "quit", .activate = quit } };

  G_APPLICATION_CLASS (pr_application_parent_class)->startup (gapp);
  g_action_map_add_action_entries (G_ACTION_MAP (gapp), entries, G_N_ELEMENTS (entries), gapp);
  pr_look_start (gdk_display_get_default ());
  set_keys (GTK_APPLICATION (gapp));
  open_book (PR_APPLICATION (gapp));
}

static void
pr_application_shutdown (GApplication *gapp)
{
  PrApplication *app = PR_APPLICATION (gapp);

  if (app->doc)
    pr_document_stop (app->doc);
  G_APPLICATION_CLASS (pr_application_parent_class)->shutdown (gapp);
  g_clear_object (&app->doc);
  pr_settings_end ();
}

static void
pr_application_finalize (GObject *object)
{
  g_free (PR_APPLICATION (object)->book_trouble);
  G_OBJECT_CLASS (pr_application_parent_class)->finalize (object);
}

static void
pr_application_init (PrApplication *app)
{
}

static void
pr_application_class_init (PrApplicationClass *class)
{
  GApplicationClass *app_class = G_APPLICATION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_application_finalize;
  app_class->startup = pr_application_startup;
  app_class->shutdown = pr_application_shutdown;
  app_class->activate = pr_application_activate;
  app_class->open = pr_application_open;
}

GtkApplication *
pr_application_new (void)
{
  return g_object_new (PR_TYPE_APPLICATION, "application-id", "org.pritchel.Pritchel", "flags",
                       G_APPLICATION_HANDLES_OPEN, "resource-base-path", "/org/pritchel/Pritchel", NULL);
}
