/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-application.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>
#include "pr-book-loss.h"
#include "pr-book-recover.h"
#include "pr-document-backup.h"
#include "pr-document-file.h"
#include "pr-help-window.h"
#include "pr-look.h"
#include "pr-practice-window.h"
#include "pr-settings.h"
#include "pr-window.h"

#define BOOK_NICE 10

struct _PrApplication {
  GtkApplication parent_instance;
  PrDocument *doc;
  GThread *reading;     /* fills in the book and its trouble, which nobody else looks at meanwhile */
  int read;             /* atomic: it has */
  PrBook *book;         /* until the document has it */
  char *book_trouble;   /* why nothing will be kept, when it will not; or where else it will be */
  char *file, *missing; /* the book's; the one that was to be it and is not there */
  bool damaged;         /* the book cannot be opened because it is */
  bool opens_last;      /* after it */
  gulong first_frame;   /* waits for it */
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

/* A large book is looked through from end to end before it is trusted, which takes a while: in a thread that
 * gives it up when it is done. */
static gpointer
read_book (gpointer data)
{
  PrApplication *app = data;
  g_autoptr (GError) error = NULL;

  setpriority (PRIO_PROCESS, 0, BOOK_NICE); /* Linux: of this thread; the window goes first */
  app->book = pr_book_open_or_read (app->file, &error);
  app->damaged = !app->book && pr_book_is_damaged (app->file);
  if (!app->book && !app->damaged)
    app->book_trouble = book_trouble (app->file, error);
  else if (app->book && pr_book_watch (app->book, NULL) && app->missing)
    app->book_trouble = g_strdup_printf (_ ("The book %s, where you usually work, is not there. This is the "
                                            "one at %s: what you do now is kept in it."),
                                         app->missing, app->file);
  g_atomic_int_set (&app->read, 1);
  return NULL;
}

static PrWindow *
shown_window (PrApplication *app)
{
  for (GList *at = gtk_application_get_windows (GTK_APPLICATION (app)); at; at = at->next)
    if (PR_IS_WINDOW (at->data))
      return at->data;
  return NULL;
}

static void
tell_of_book (PrApplication *app)
{
  PrWindow *window = shown_window (app);

  if (window && app->book_trouble)
    pr_window_tell (window, app->book_trouble);
}

/* Waits for the book, where it is not there yet. */
static void
take_book (PrApplication *app)
{
  if (!app->reading)
    return;
  g_thread_join (g_steal_pointer (&app->reading));
  if (app->book) {
    pr_settings_take_over (app->book);
    pr_document_set_unit (app->doc, pr_settings_unit ());
    pr_document_set_book (app->doc, g_steal_pointer (&app->book));
  }
  if (app->damaged && !pr_document_book (app->doc))
    pr_document_set_damaged (app->doc, app->file);
  tell_of_book (app);
}

/* WAITING: for what is to be opened in it. */
static PrWindow *
the_window (PrApplication *app, bool waiting)
{
  PrWindow *window = shown_window (app);

  if (window)
    return window;
  window = PR_WINDOW (pr_window_new (GTK_APPLICATION (app), app->doc, waiting));
  if (!app->reading)
    tell_of_book (app);
  return window;
}

/* --- what waits for the first frame --- */

/* Reading a foot, and making all that shows it, takes longer than all the rest: it begins when the window is on
 * the screen. Something else may have been opened meanwhile. */
static gboolean
open_last (gpointer data)
{
  PrApplication *app = data;
  double done;
  const char *what;

  take_book (app);
  if (!shown_window (app))
    return G_SOURCE_REMOVE;
  if (!pr_document_job (app->doc) && !pr_document_busy (app->doc, &done, &what))
    pr_document_open_last (app->doc);
  pr_window_set_waiting (shown_window (app), false);
  pr_document_backup_today (app->doc);
  pr_practice_window_ask (GTK_WINDOW (shown_window (app)), app->doc);
  tell_of_book (app); /* what is opened takes a message with it, but not this one */
  return G_SOURCE_REMOVE;
}

static void
first_frame (GdkFrameClock *clock, PrApplication *app)
{
  g_clear_signal_handler (&app->first_frame, clock);
  if (shown_window (app)) /* its SVG is drawn in many sizes for that */
    gtk_window_set_icon_name (GTK_WINDOW (shown_window (app)), "org.pritchel.Pritchel");
  if (app->opens_last)
    g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, open_last, g_object_ref (app), g_object_unref);
}

/* OPENS_LAST: nothing else was asked for. */
static void
present (PrApplication *app, PrWindow *window, bool first, bool opens_last)
{
  gtk_window_present (GTK_WINDOW (window));
  if (!first)
    return;
  app->opens_last = opens_last;
  app->first_frame = g_signal_connect_object (gtk_widget_get_frame_clock (GTK_WIDGET (window)), "after-paint",
                                              G_CALLBACK (first_frame), app, 0);
}

/* Is there something to wait for? A book still being read tells later. */
static bool
is_waiting (PrApplication *app)
{
  g_autofree char *last = NULL;

  if (!g_atomic_int_get (&app->read))
    return true;
  take_book (app);
  last = pr_document_setting (app->doc, "last-foot");
  return last != NULL;
}

static void
pr_application_activate (GApplication *gapp)
{
  PrApplication *app = PR_APPLICATION (gapp);
  bool first = !shown_window (app);
  PrWindow *window = the_window (app, first && is_waiting (app));

  present (app, window, first, true);
}

static void
pr_application_open (GApplication *gapp, GFile **files, int n_files, const char *hint)
{
  PrApplication *app = PR_APPLICATION (gapp);
  bool first = !shown_window (app);
  PrWindow *window;

  take_book (app);
  window = the_window (app, false);
  present (app, window, first, false);
  if (n_files > 0)
    pr_window_open (window, files, n_files);
  if (first)
    pr_practice_window_ask (GTK_WINDOW (window), app->doc);
  pr_document_backup_today (app->doc);
}

/* Each may have something to ask first. */
static void
quit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GList *windows = gtk_application_get_windows (GTK_APPLICATION (data));

  windows = g_list_copy_deep (windows, (GCopyFunc) (void (*) (void)) g_object_ref, NULL);
  for (GList *at = windows; at; at = at->next)
    gtk_window_close (at->data);
  g_list_free_full (windows, g_object_unref);
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
    { "win.preferences", { "<Ctrl>comma" } },
    { "win.find", { "<Ctrl>f" } },
    { "win.book", { "F9" } },
    { "win.side", { "F8" } },
    { "win.help", { "F1" } },
    { "win.show-help-overlay", { "<Ctrl>question", "<Ctrl>F1" } },
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
quit_now (gpointer app)
{
  quit (NULL, NULL, app);
}

/* Once the key has been dealt with: that holds the dialog, which then would outlive the window it belongs to. */
static gboolean
quit_key (GtkWidget *widget, GVariant *args, gpointer app)
{
  if (GTK_IS_APPLICATION_WINDOW (widget))
    return FALSE;
  g_idle_add_once (quit_now, app);
  return TRUE;
}

/* The toolkit hands the program's keys only to windows of the program's own; a dialog is quit from as well, and has help. What it
 * is, is known when a key is pressed. */
static void
windows_come (GListModel *windows, guint at, guint gone, guint come, gpointer app)
{
  static const struct {
    guint key;
    GdkModifierType with;
    GtkShortcutFunc does;
  } keys[] = { { GDK_KEY_q, GDK_CONTROL_MASK, quit_key }, { GDK_KEY_F1, 0, pr_help_by_key } };

  for (guint i = at; i < at + come; i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);
    GtkEventController *shortcuts = gtk_shortcut_controller_new ();

    for (size_t k = 0; k < G_N_ELEMENTS (keys); k++)
      gtk_shortcut_controller_add_shortcut (
          GTK_SHORTCUT_CONTROLLER (shortcuts),
          gtk_shortcut_new (gtk_keyval_trigger_new (keys[k].key, keys[k].with),
                            gtk_callback_action_new (keys[k].does, app, NULL)));
    gtk_widget_add_controller (window, shortcuts);
  }
}

/* The toolkit would end the program in words of its own. */
static void
need_display (void)
{
  if (gtk_init_check ())
    return;
  g_printerr ("pritchel: %s\n",
              _ ("There is no screen to open the window on; start Pritchel from a desktop, or use "
                 "the commands that pritchel --help lists."));
  exit (EXIT_FAILURE);
}

static void
pr_application_startup (GApplication *gapp)
{
  static const GActionEntry entries[] = { { .name = "quit", .activate = quit } };

  gtk_disable_setlocale (); /* main has done it, and the thread is reading in that locale */
  need_display ();
  PR_APPLICATION (gapp)->file = pr_document_first_book (&PR_APPLICATION (gapp)->missing);
  PR_APPLICATION (gapp)->reading = g_thread_new ("book", read_book, gapp);
  G_APPLICATION_CLASS (pr_application_parent_class)->startup (gapp);
  g_action_map_add_action_entries (G_ACTION_MAP (gapp), entries, G_N_ELEMENTS (entries), gapp);
  pr_look_start (gdk_display_get_default ());
  set_keys (GTK_APPLICATION (gapp));
  g_signal_connect (gtk_window_get_toplevels (), "items-changed", G_CALLBACK (windows_come), gapp);
  PR_APPLICATION (gapp)->doc = pr_document_new (NULL, pr_settings_unit ());
}

static void
pr_application_shutdown (GApplication *gapp)
{
  PrApplication *app = PR_APPLICATION (gapp);

  take_book (app);
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
  g_free (PR_APPLICATION (object)->file);
  g_free (PR_APPLICATION (object)->missing);
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
