/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-incoming.h"

#include <glib/gi18n-lib.h>
#include "pr-document-marking.h"
#include "pr-recent.h"
#include "pr-sent-dialog.h"

struct _PrIncoming {
  GObject parent_instance;
  GtkWindow *window;
  PrDocument *doc;    /* NULL once the window has gone */
  PrFoot wanted_foot; /* of the photo being chosen */
  GQueue sent;        /* of GFile: feet somebody sent, asked about one by one */
  bool whole;         /* that is a whole book, chosen as such */
  GListStore *photos; /* taken after them */
  PrFoot photos_foot;
  bool asking, moved; /* MOVED: one was taken in, so that another visit is chosen now */
  PrBookId horse_before, visit_before;
};

enum { BEGUN, REFUSED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrIncoming, pr_incoming, G_TYPE_OBJECT)

/* --- one thing after the other --- */

static void next (PrIncoming *in);

/* The photos go where they would have gone without what was sent. */
static void
take_photos (PrIncoming *in)
{
  g_autoptr (GListStore) photos = g_steal_pointer (&in->photos);
  g_autoptr (GFile) first = photos ? g_list_model_get_item (G_LIST_MODEL (photos), 0) : NULL;

  if (first && in->moved)
    pr_document_choose_visit (in->doc, in->horse_before, in->visit_before);
  in->moved = false;
  if (first && in->photos_foot != PR_FOOT_ANY)
    pr_document_take_photo (in->doc, first, in->photos_foot, NULL);
  else if (first)
    pr_document_take_files (in->doc, G_LIST_MODEL (photos));
}

static bool
nothing_is_shown (PrDocument *doc)
{
  double done;
  const char *what;

  return !pr_document_job (doc) && !pr_document_bare (doc, NULL) && !pr_document_marking (doc)
         && !pr_document_busy (doc, &done, &what);
}

static void
sent_answered (PrIncoming *in, gboolean taken)
{
  in->asking = false;
  in->moved |= taken;
  if (!in->doc)
    return;
  next (in);
  if (!in->asking && nothing_is_shown (in->doc))
    pr_document_open_last (in->doc); /* as a start without files would have */
}

static void
sent_refused (PrIncoming *in, const char *sentence)
{
  in->asking = false;
  if (!in->doc)
    return;
  g_signal_emit (in, signals[REFUSED], 0, sentence, g_list_model_get_n_items (G_LIST_MODEL (in->photos)) > 0);
  next (in);
}

static void
ask_sent (PrIncoming *in, GFile *file)
{
  PrSentDialog *dialog;

  if (!in->moved) {
    in->horse_before = pr_document_horse_id (in->doc);
    in->visit_before = pr_document_visit_id (in->doc);
  }
  in->asking = true;
  dialog = pr_sent_dialog_new (in->window, in->doc, file, in->whole);
  in->whole = false;
  g_signal_connect_object (dialog, "answered", G_CALLBACK (sent_answered), in, G_CONNECT_SWAPPED);
  g_signal_connect_object (dialog, "refused", G_CALLBACK (sent_refused), in, G_CONNECT_SWAPPED);
}

static void
next (PrIncoming *in)
{
  while (!in->asking && !g_queue_is_empty (&in->sent)) {
    g_autoptr (GFile) file = g_queue_pop_head (&in->sent);

    ask_sent (in, file);
  }
  if (!in->asking)
    take_photos (in);
}

/* FOOT is for a photo of which it is known. */
static void
take_in (PrIncoming *in, GListModel *files, PrFoot foot)
{
  g_signal_emit (in, signals[BEGUN], 0);
  if (!in->photos)
    in->photos = g_list_store_new (G_TYPE_FILE);
  in->photos_foot = foot;
  for (guint i = 0; i < g_list_model_get_n_items (files); i++) {
    g_autoptr (GFile) file = g_list_model_get_item (files, i);

    if (pr_sent_is (file))
      g_queue_push_tail (&in->sent, g_steal_pointer (&file));
    else {
      g_list_store_append (in->photos, file);
      pr_recent_add (file);
    }
  }
  next (in);
}

/* --- opening --- */

static void
files_chosen (GtkNativeDialog *dialog, int response, PrIncoming *in)
{
  g_autoptr (GListModel) files = gtk_file_chooser_get_files (GTK_FILE_CHOOSER (dialog));

  if (response == GTK_RESPONSE_ACCEPT && in->doc)
    take_in (in, files, in->wanted_foot);
  g_object_unref (dialog);
}

static void
add_photo_types (GtkFileFilter *filter)
{
  static const char *const types[]
      = { "image/jpeg", "image/png", "image/tiff", "image/webp", "image/heif", "image/heic", "image/avif" };

  for (size_t i = 0; i < G_N_ELEMENTS (types); i++)
    gtk_file_filter_add_mime_type (filter, types[i]);
}

static void
add_filters (GtkFileChooser *chooser)
{
  g_autoptr (GtkFileFilter) ours = gtk_file_filter_new (), all = gtk_file_filter_new ();

  gtk_file_filter_set_name (ours, _ ("Photos and sent feet"));
  add_photo_types (ours);
  gtk_file_filter_add_mime_type (ours, "application/x-pritchel-book");
  gtk_file_filter_add_suffix (ours, "pritchel");
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, ours);
  gtk_file_chooser_add_filter (chooser, all);
}

void
pr_incoming_choose (PrIncoming *in, PrFoot foot)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (_ ("Open a photo of a tracing"), in->window,
                                     GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));

  add_filters (GTK_FILE_CHOOSER (dialog));
  gtk_file_chooser_set_select_multiple (GTK_FILE_CHOOSER (dialog), foot == PR_FOOT_ANY);
  in->wanted_foot = foot;
  g_signal_connect_data (dialog, "response", G_CALLBACK (files_chosen), g_object_ref (in),
                         (GClosureNotify) (void (*) (void)) g_object_unref, 0);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
book_chosen (GtkNativeDialog *dialog, int response, PrIncoming *in)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

  if (response == GTK_RESPONSE_ACCEPT && in->doc && file && !pr_sent_is (file))
    pr_document_trouble (in->doc, _ ("That file is not a Pritchel book; choose another."));
  else if (response == GTK_RESPONSE_ACCEPT && in->doc && file) {
    in->whole = true;
    pr_incoming_open (in, &file, 1);
  }
  g_object_unref (dialog);
}

void
pr_incoming_choose_book (PrIncoming *in)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (_ ("Merge another book"), in->window, GTK_FILE_CHOOSER_ACTION_OPEN,
                                     _ ("_Open"), _ ("_Cancel"));

  g_signal_connect_data (dialog, "response", G_CALLBACK (book_chosen), g_object_ref (in),
                         (GClosureNotify) (void (*) (void)) g_object_unref, 0);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

void
pr_incoming_open (PrIncoming *in, GFile **files, int n_files)
{
  g_autoptr (GListStore) list = g_list_store_new (G_TYPE_FILE);

  for (int i = 0; i < n_files; i++)
    g_list_store_append (list, files[i]);
  take_in (in, G_LIST_MODEL (list), PR_FOOT_ANY);
}

/* --- dropping and pasting --- */

/* TRUE when VALUE holds something to open. */
static gboolean
take_value (PrIncoming *in, const GValue *value)
{
  g_autoptr (GListStore) list = g_list_store_new (G_TYPE_FILE);

  if (G_VALUE_HOLDS (value, GDK_TYPE_FILE_LIST))
    for (GSList *file = g_value_get_boxed (value); file; file = file->next)
      g_list_store_append (list, file->data);
  else if (G_VALUE_HOLDS (value, G_TYPE_FILE) && g_value_get_object (value))
    g_list_store_append (list, g_value_get_object (value));
  if (g_list_model_get_n_items (G_LIST_MODEL (list)) > 0) {
    take_in (in, G_LIST_MODEL (list), PR_FOOT_ANY);
    return TRUE;
  }
  if (G_VALUE_HOLDS (value, GDK_TYPE_TEXTURE) && g_value_get_object (value)) {
    g_autoptr (GBytes) png = gdk_texture_save_to_png_bytes (g_value_get_object (value));

    pr_document_take_bytes (in->doc, png, _ ("pasted photo.png"));
    return TRUE;
  }
  return FALSE;
}

static gboolean
dropped (GtkDropTarget *target, const GValue *value, double x, double y, PrIncoming *in)
{
  return take_value (in, value);
}

static void
pasted (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (PrIncoming) in = PR_INCOMING (data);
  g_autoptr (GError) error = NULL;
  const GValue *value = gdk_clipboard_read_value_finish (GDK_CLIPBOARD (source), result, &error);

  if (!in->doc)
    return;
  if (!value || !take_value (in, value))
    pr_document_trouble (in->doc, _ ("There is no photo to paste; copy a photo, or its file, first."));
}

/* What is there decides: files first, as they are the photo itself. */
static void
paste (PrIncoming *in)
{
  GdkClipboard *clipboard = gtk_widget_get_clipboard (GTK_WIDGET (in->window));
  GdkContentFormats *there = gdk_clipboard_get_formats (clipboard);
  const GType types[] = { GDK_TYPE_FILE_LIST, G_TYPE_FILE, GDK_TYPE_TEXTURE };
  g_autoptr (GdkContentFormats) all
      = gdk_content_formats_union_deserialize_gtypes (gdk_content_formats_ref (there));

  for (size_t i = 0; i < G_N_ELEMENTS (types); i++)
    if (gdk_content_formats_contain_gtype (all, types[i])) {
      gdk_clipboard_read_value_async (clipboard, types[i], G_PRIORITY_DEFAULT, NULL, pasted,
                                      g_object_ref (in));
      return;
    }
  pr_document_trouble (in->doc, _ ("There is no photo to paste; copy a photo, or its file, first."));
}

/* After everything that has the keyboard: an entry pastes its own text. */
static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state, PrIncoming *in)
{
  if ((key != GDK_KEY_v && key != GDK_KEY_V) || !(state & GDK_CONTROL_MASK))
    return FALSE;
  paste (in);
  return TRUE;
}

static void
accept_photos (PrIncoming *in)
{
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);
  GtkEventController *key = gtk_event_controller_key_new ();
  GType types[] = { GDK_TYPE_FILE_LIST, G_TYPE_FILE, GDK_TYPE_TEXTURE };

  gtk_drop_target_set_gtypes (target, types, G_N_ELEMENTS (types));
  g_signal_connect_object (target, "drop", G_CALLBACK (dropped), in, 0);
  gtk_widget_add_controller (GTK_WIDGET (in->window), GTK_EVENT_CONTROLLER (target));
  g_signal_connect_object (key, "key-pressed", G_CALLBACK (key_pressed), in, 0);
  gtk_widget_add_controller (GTK_WIDGET (in->window), key);
}

/* --- where it goes --- */

enum { ANSWER_NEW = 1, ANSWER_INSTEAD };

static void
answered (GtkDialog *dialog, int response, PrIncoming *in)
{
  PrPlace place = response == ANSWER_NEW       ? PR_PLACE_NEW_VISIT
                  : response == ANSWER_INSTEAD ? PR_PLACE_INSTEAD
                                               : PR_PLACE_NOWHERE;

  gtk_window_destroy (GTK_WINDOW (dialog));
  if (in->doc)
    pr_document_place (in->doc, place);
}

static void
ask_place (PrIncoming *in, int foot)
{
  GtkWidget *dialog
      = gtk_message_dialog_new (in->window, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE,
                                _ ("This visit has a photo of the %s already"),
                                foot == PR_FOOT_ANY ? _ ("same sheet") : pr_foot_name ((PrFoot) foot));

  gtk_window_set_title (GTK_WINDOW (dialog), _ ("Where does it go?"));
  gtk_widget_add_css_class (dialog, "pritchel");
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog), "%s",
      _ ("As a new visit, both are kept. Put in its place, the earlier photo and outline go, and the shoe is "
         "fitted to the new outline."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("Put in its _place"),
                          ANSWER_INSTEAD, _ ("_New visit"), ANSWER_NEW, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), ANSWER_NEW);
  g_signal_connect_object (dialog, "response", G_CALLBACK (answered), in, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- the object --- */

PrIncoming *
pr_incoming_new (GtkWindow *window, PrDocument *doc)
{
  PrIncoming *in = g_object_new (PR_TYPE_INCOMING, NULL);

  in->window = window;
  in->doc = g_object_ref (doc);
  accept_photos (in);
  g_signal_connect_object (doc, "ask-place", G_CALLBACK (ask_place), in, G_CONNECT_SWAPPED);
  return in;
}

void
pr_incoming_stop (PrIncoming *in)
{
  g_queue_clear_full (&in->sent, g_object_unref);
  g_clear_object (&in->photos);
  g_clear_object (&in->doc);
}

static void
pr_incoming_dispose (GObject *object)
{
  pr_incoming_stop (PR_INCOMING (object));
  G_OBJECT_CLASS (pr_incoming_parent_class)->dispose (object);
}

static void
pr_incoming_init (PrIncoming *in)
{
  g_queue_init (&in->sent);
}

static void
pr_incoming_class_init (PrIncomingClass *class)
{
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_incoming_dispose;
  signals[BEGUN] = g_signal_new ("begun", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[REFUSED] = g_signal_new ("refused", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                                   G_TYPE_STRING, G_TYPE_BOOLEAN);
}
