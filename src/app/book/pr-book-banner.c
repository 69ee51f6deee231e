/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-banner.h"

#include <glib/gi18n-lib.h>
#include "pr-document-backup.h"
#include "pr-document-file.h"
#include "pr-loss-dialog.h"

/* What a frame shows has been drawn when the one after the next begins. */
#define FRAMES 3

struct _PrBookBanner {
  PrFollower parent_instance;
  GtkLabel *text;
  GtkWidget *bar, *recover, *save, *other, *again, *leave, *dismiss;
  GtkFileChooserNative *chooser;
  char *saved; /* where, until it is dismissed or no longer so */
  guint ticks; /* the callback that counts frames; 0: none */
  int frames;
  bool reads;   /* another program wrote in the book, and its end has not been told yet */
  bool closing; /* the window, once what is in memory is saved */
};

G_DEFINE_FINAL_TYPE (PrBookBanner, pr_book_banner, PR_TYPE_FOLLOWER)

static GtkWindow *
window_of (PrBookBanner *banner)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (banner)));
}

/* --- what it says --- */

static void
say (PrBookBanner *banner, const char *sentence)
{
  if (sentence)
    gtk_label_set_text (banner->text, sentence);
  gtk_widget_set_visible (banner->bar, sentence != NULL);
}

static void
show (PrBookBanner *banner, PrDocument *doc)
{
  g_autofree char *loss = pr_document_loss (doc), *waits = loss ? NULL : pr_document_waits (doc), *why = NULL;
  bool halted = pr_document_halted (doc, &why) != 0 && !loss && !waits;

  if (banner->reads && !waits && pr_document_is_kept (doc)) {
    banner->reads = false;
    pr_document_backup_today (doc); /* which was the other program's to make */
    g_free (banner->saved);
    banner->saved = g_strdup (_ ("The other program has ended: from now on you work in the book here."));
  }
  banner->reads |= pr_document_is_reading (doc);
  gtk_widget_set_visible (banner->recover, pr_document_is_damaged (doc));
  gtk_widget_set_visible (banner->save, loss || pr_document_has_unkept (doc));
  gtk_widget_set_visible (banner->other, loss != NULL && pr_document_has_other_book (doc));
  gtk_widget_set_visible (banner->again, halted);
  gtk_widget_set_visible (banner->leave, halted);
  if (loss || waits || halted)
    g_clear_pointer (&banner->saved, g_free);
  gtk_widget_set_visible (banner->dismiss, banner->saved != NULL);
  say (banner, loss ? loss : waits ? waits : halted ? why : banner->saved);
}

/* --- a foot that has been drawn --- */

static gboolean
frame_due (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  PrBookBanner *banner = PR_BOOK_BANNER (widget);

  if (++banner->frames < FRAMES)
    return G_SOURCE_CONTINUE;
  banner->ticks = 0;
  pr_document_drawn (pr_document_of (banner));
  return G_SOURCE_REMOVE;
}

static void
count_frames (PrBookBanner *banner)
{
  banner->frames = 0;
  if (!banner->ticks)
    banner->ticks = gtk_widget_add_tick_callback (GTK_WIDGET (banner), frame_due, NULL, NULL);
}

static void
pr_book_banner_changed (PrFollower *follower, guint what)
{
  PrBookBanner *banner = PR_BOOK_BANNER (follower);
  PrDocument *doc = pr_document_of (follower);

  if (what & (PR_CHANGED_BOOK | PR_CHANGED_PLACE))
    show (banner, doc);
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_BUSY | PR_CHANGED_PHOTO) && pr_document_is_opening (doc))
    count_frames (banner);
}

/* --- the ways on --- */

static void
saved (PrBookBanner *banner, const char *path)
{
  if (banner->closing) {
    gtk_window_close (window_of (banner));
    return;
  }
  g_free (banner->saved);
  banner->saved = g_strdup_printf (_ ("From now on everything is kept in %s."), path);
  show (banner, pr_document_of (banner));
}

static void
file_chosen (GtkFileChooserNative *chooser, int response, PrBookBanner *banner)
{
  PrDocument *doc = pr_document_of (banner);
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file ? g_file_get_path (file) : NULL;
  g_autoptr (GError) error = NULL;

  gtk_native_dialog_hide (GTK_NATIVE_DIALOG (chooser));
  if (response == GTK_RESPONSE_ACCEPT && path) {
    if (pr_document_save_book (doc, path, &error))
      saved (banner, path);
    else
      pr_document_trouble (doc, error->message);
  }
  banner->closing = false;
  g_clear_object (&banner->chooser);
}

static void
choose_file (PrBookBanner *banner)
{
  g_autofree char *folder = NULL, *name = pr_document_new_book_name (pr_document_of (banner), &folder);
  g_autoptr (GFile) in = folder ? g_file_new_for_path (folder) : NULL;
  GtkFileChooser *chooser;

  g_clear_object (&banner->chooser);
  banner->chooser = gtk_file_chooser_native_new (_ ("Save as a new book"), window_of (banner),
                                                 GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  chooser = GTK_FILE_CHOOSER (banner->chooser);
  gtk_file_chooser_set_current_name (chooser, name);
  if (in)
    gtk_file_chooser_set_current_folder (chooser, in, NULL);
  g_signal_connect_object (banner->chooser, "response", G_CALLBACK (file_chosen), banner, 0);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (banner->chooser), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (banner->chooser));
}

static void
take_other (PrBookBanner *banner)
{
  PrDocument *doc = pr_document_of (banner);
  g_autoptr (GError) error = NULL;

  if (pr_document_has_other_book (doc) && !pr_document_take_other_book (doc, &error))
    pr_document_trouble (doc, error->message);
}

static void
do_save (GtkWidget *widget, const char *action, GVariant *parameter)
{
  choose_file (PR_BOOK_BANNER (widget));
}

static void
do_take_other (GtkWidget *widget, const char *action, GVariant *parameter)
{
  PrBookBanner *banner = PR_BOOK_BANNER (widget);
  PrLossDialog *dialog = pr_loss_dialog_ask (window_of (banner), NULL, _ ("Take the other one"));

  g_signal_connect_object (dialog, "lose", G_CALLBACK (take_other), banner, G_CONNECT_SWAPPED);
  g_signal_connect_object (dialog, "save", G_CALLBACK (choose_file), banner, G_CONNECT_SWAPPED);
}

static void
do_recover (GtkWidget *widget, const char *action, GVariant *parameter)
{
  PrDocument *doc = pr_document_of (widget);
  g_autoptr (GError) error = NULL;

  char *saved = pr_document_is_damaged (doc) ? pr_document_recover (doc, &error) : NULL;
  if (error)
    pr_document_trouble (doc, error->message);
  if (!saved)
    return;
  g_free (PR_BOOK_BANNER (widget)->saved);
  PR_BOOK_BANNER (widget)->saved = saved;
  show (PR_BOOK_BANNER (widget), doc);
}

static void
do_open_again (GtkWidget *widget, const char *action, GVariant *parameter)
{
  PrDocument *doc = pr_document_of (widget);
  g_autofree char *why = NULL;
  PrBookId foot = pr_document_halted (doc, &why);
  g_autoptr (GError) error = NULL;

  if (foot && !pr_document_open_foot (doc, foot, &error))
    pr_document_trouble (doc, error->message);
}

static void
do_leave (GtkWidget *widget, const char *action, GVariant *parameter)
{
  pr_document_leave_halted (pr_document_of (widget));
}

static void
do_dismiss (GtkWidget *widget, const char *action, GVariant *parameter)
{
  PrBookBanner *banner = PR_BOOK_BANNER (widget);

  g_clear_pointer (&banner->saved, g_free);
  show (banner, pr_document_of (widget));
}

/* --- the window around it --- */

static void
close_anyway (PrBookBanner *banner)
{
  gtk_window_destroy (window_of (banner));
}

static void
save_and_close (PrBookBanner *banner)
{
  banner->closing = true;
  choose_file (banner);
}

static gboolean
window_closes (PrBookBanner *banner)
{
  PrDocument *doc = pr_document_of (banner);
  g_autofree char *loss = doc ? pr_document_loss (doc) : NULL;
  PrLossDialog *dialog;

  if (doc)
    pr_document_tend (doc);
  if (!loss && !(doc && pr_document_has_unkept (doc)))
    return FALSE;
  dialog = pr_loss_dialog_ask (window_of (banner),
                               loss ? NULL
                                    : _ ("What you changed is not in the book yet. It goes there as soon as "
                                         "that can be done; closed now, it ends here."),
                               _ ("Close without it"));
  g_signal_connect_object (dialog, "lose", G_CALLBACK (close_anyway), banner, G_CONNECT_SWAPPED);
  g_signal_connect_object (dialog, "save", G_CALLBACK (save_and_close), banner, G_CONNECT_SWAPPED);
  return TRUE;
}

/* A folder that was moved with one around it tells nothing. */
static void
window_turned_to (PrBookBanner *banner)
{
  if (pr_document_of (banner))
    pr_document_look (pr_document_of (banner));
}

static void
pr_book_banner_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pr_book_banner_parent_class)->root (widget);
  g_signal_connect_object (gtk_widget_get_root (widget), "close-request", G_CALLBACK (window_closes), widget,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_widget_get_root (widget), "notify::is-active", G_CALLBACK (window_turned_to),
                           widget, G_CONNECT_SWAPPED);
}

static void
pr_book_banner_dispose (GObject *object)
{
  g_clear_object (&PR_BOOK_BANNER (object)->chooser);
  G_OBJECT_CLASS (pr_book_banner_parent_class)->dispose (object);
}

static void
pr_book_banner_finalize (GObject *object)
{
  g_free (PR_BOOK_BANNER (object)->saved);
  G_OBJECT_CLASS (pr_book_banner_parent_class)->finalize (object);
}

static void
pr_book_banner_init (PrBookBanner *banner)
{
  gtk_widget_init_template (GTK_WIDGET (banner));
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrBookBanner, name)

static void
pr_book_banner_class_init (PrBookBannerClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_book_banner_dispose;
  G_OBJECT_CLASS (class)->finalize = pr_book_banner_finalize;
  widget_class->root = pr_book_banner_root;
  PR_FOLLOWER_CLASS (class)->changed = pr_book_banner_changed;
  gtk_widget_class_install_action (widget_class, "keeping.recover", NULL, do_recover);
  gtk_widget_class_install_action (widget_class, "keeping.save", NULL, do_save);
  gtk_widget_class_install_action (widget_class, "keeping.take-other", NULL, do_take_other);
  gtk_widget_class_install_action (widget_class, "keeping.open-again", NULL, do_open_again);
  gtk_widget_class_install_action (widget_class, "keeping.leave", NULL, do_leave);
  gtk_widget_class_install_action (widget_class, "keeping.dismiss", NULL, do_dismiss);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "book-banner.ui");
  BIND (bar);
  BIND (text);
  BIND (recover);
  BIND (save);
  BIND (other);
  BIND (again);
  BIND (leave);
  BIND (dismiss);
}
