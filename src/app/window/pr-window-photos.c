/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ways a photo, or a foot somebody sent, comes in: opened, dropped, pasted; and the question where it goes. */
#include "pr-window-private.h"

#include <glib/gi18n-lib.h>
#include "pr-sent.h"

/* --- one thing after the other --- */

static void next (PrWindow *window);

void
pr_window_drop_incoming (PrWindow *window)
{
  g_queue_clear_full (&window->sent, g_object_unref);
  g_clear_object (&window->photos);
}

/* The photos go where they would have gone without what was sent. */
static void
take_photos (PrWindow *window)
{
  g_autoptr (GListStore) photos = g_steal_pointer (&window->photos);
  g_autoptr (GFile) first = photos ? g_list_model_get_item (G_LIST_MODEL (photos), 0) : NULL;

  if (first && window->moved)
    pr_document_choose_visit (window->doc, window->horse_before, window->visit_before);
  window->moved = false;
  if (first && window->photos_foot != PR_FOOT_ANY)
    pr_document_take_photo (window->doc, first, window->photos_foot, NULL);
  else if (first)
    pr_document_take_files (window->doc, G_LIST_MODEL (photos));
}

static void
sent_answered (GtkWindow *parent, bool taken)
{
  PrWindow *window = PR_WINDOW (parent);
  const char *what;
  double done;

  window->asking = false;
  window->moved |= taken;
  if (!window->doc)
    return;
  next (window);
  if (!window->asking && !pr_document_busy (window->doc, &done, &what)
      && g_str_equal (gtk_stack_get_visible_child_name (window->stack), "start"))
    pr_document_open_last (window->doc); /* as a start without files would have */
}

static void
ask_sent (PrWindow *window, GFile *file)
{
  g_autoptr (GError) error = NULL;

  if (!window->moved) {
    window->horse_before = pr_document_horse_id (window->doc);
    window->visit_before = pr_document_visit_id (window->doc);
  }
  window->asking = pr_sent_ask (GTK_WINDOW (window), window->doc, file, sent_answered, &error);
  if (!window->asking) {
    pr_window_tell (window, error->message);
    window->message_stays = g_list_model_get_n_items (G_LIST_MODEL (window->photos)) > 0;
  }
}

static void
next (PrWindow *window)
{
  while (!window->asking && !g_queue_is_empty (&window->sent)) {
    g_autoptr (GFile) file = g_queue_pop_head (&window->sent);

    ask_sent (window, file);
  }
  if (!window->asking)
    take_photos (window);
}

/* FOOT is for a photo of which it is known. */
static void
take_in (PrWindow *window, GListModel *files, PrFoot foot)
{
  window->message_stays = false;
  if (!window->photos)
    window->photos = g_list_store_new (G_TYPE_FILE);
  window->photos_foot = foot;
  for (guint i = 0; i < g_list_model_get_n_items (files); i++) {
    g_autoptr (GFile) file = g_list_model_get_item (files, i);

    if (pr_sent_is (file))
      g_queue_push_tail (&window->sent, g_steal_pointer (&file));
    else
      g_list_store_append (window->photos, file);
  }
  next (window);
}

/* --- opening --- */

static void
files_chosen (GtkNativeDialog *dialog, int response, PrWindow *window)
{
  g_autoptr (GListModel) files = gtk_file_chooser_get_files (GTK_FILE_CHOOSER (dialog));

  if (response == GTK_RESPONSE_ACCEPT)
    take_in (window, files, window->wanted_foot);
  g_object_unref (dialog);
}

static void
add_filters (GtkFileChooser *chooser)
{
  g_autoptr (GtkFileFilter) ours = gtk_file_filter_new (), all = gtk_file_filter_new ();

  gtk_file_filter_set_name (ours, _ ("Photos and sent feet"));
  gtk_file_filter_add_pixbuf_formats (ours);
  gtk_file_filter_add_mime_type (ours, "application/x-pritchel-book");
  gtk_file_filter_add_suffix (ours, "pritchel");
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, ours);
  gtk_file_chooser_add_filter (chooser, all);
}

void
pr_window_choose_photo (PrWindow *window, PrFoot foot)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (_ ("Open a photo of a tracing"), GTK_WINDOW (window),
                                     GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));

  add_filters (GTK_FILE_CHOOSER (dialog));
  gtk_file_chooser_set_select_multiple (GTK_FILE_CHOOSER (dialog), foot == PR_FOOT_ANY);
  window->wanted_foot = foot;
  g_signal_connect (dialog, "response", G_CALLBACK (files_chosen), window);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

void
pr_window_open (PrWindow *window, GFile **files, int n_files)
{
  g_autoptr (GListStore) list = g_list_store_new (G_TYPE_FILE);

  for (int i = 0; i < n_files; i++)
    g_list_store_append (list, files[i]);
  take_in (window, G_LIST_MODEL (list), PR_FOOT_ANY);
}

/* --- dropping and pasting --- */

/* TRUE when VALUE holds something to open. */
static gboolean
take_value (PrWindow *window, const GValue *value)
{
  g_autoptr (GListStore) list = g_list_store_new (G_TYPE_FILE);

  if (G_VALUE_HOLDS (value, GDK_TYPE_FILE_LIST))
    for (GSList *file = g_value_get_boxed (value); file; file = file->next)
      g_list_store_append (list, file->data);
  else if (G_VALUE_HOLDS (value, G_TYPE_FILE) && g_value_get_object (value))
    g_list_store_append (list, g_value_get_object (value));
  if (g_list_model_get_n_items (G_LIST_MODEL (list)) > 0) {
    take_in (window, G_LIST_MODEL (list), PR_FOOT_ANY);
    return TRUE;
  }
  if (G_VALUE_HOLDS (value, GDK_TYPE_TEXTURE) && g_value_get_object (value)) {
    g_autoptr (GBytes) png = gdk_texture_save_to_png_bytes (g_value_get_object (value));

    pr_document_take_bytes (window->doc, png, _ ("pasted photo.png"));
    return TRUE;
  }
  return FALSE;
}

static gboolean
dropped (GtkDropTarget *target, const GValue *value, double x, double y, PrWindow *window)
{
  return take_value (window, value);
}

static void
pasted (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (PrWindow) window = PR_WINDOW (data);
  g_autoptr (GError) error = NULL;
  const GValue *value = gdk_clipboard_read_value_finish (GDK_CLIPBOARD (source), result, &error);

  if (!window->doc)
    return;
  if (!value || !take_value (window, value))
    pr_window_tell (window, _ ("There is no photo to paste; copy a photo, or its file, first."));
}

/* What is there decides: files first, as they are the photo itself. */
static void
paste (PrWindow *window)
{
  GdkClipboard *clipboard = gtk_widget_get_clipboard (GTK_WIDGET (window));
  GdkContentFormats *there = gdk_clipboard_get_formats (clipboard);
  const GType types[] = { GDK_TYPE_FILE_LIST, G_TYPE_FILE, GDK_TYPE_TEXTURE };
  g_autoptr (GdkContentFormats) all
      = gdk_content_formats_union_deserialize_gtypes (gdk_content_formats_ref (there));

  for (size_t i = 0; i < G_N_ELEMENTS (types); i++)
    if (gdk_content_formats_contain_gtype (all, types[i])) {
      gdk_clipboard_read_value_async (clipboard, types[i], G_PRIORITY_DEFAULT, NULL, pasted,
                                      g_object_ref (window));
      return;
    }
  pr_window_tell (window, _ ("There is no photo to paste; copy a photo, or its file, first."));
}

/* After everything that has the keyboard: an entry pastes its own text. */
static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             PrWindow *window)
{
  if ((key != GDK_KEY_v && key != GDK_KEY_V) || !(state & GDK_CONTROL_MASK))
    return FALSE;
  paste (window);
  return TRUE;
}

void
pr_window_accept_photos (PrWindow *window)
{
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);
  GtkEventController *key = gtk_event_controller_key_new ();
  GType types[] = { GDK_TYPE_FILE_LIST, G_TYPE_FILE, GDK_TYPE_TEXTURE };

  gtk_drop_target_set_gtypes (target, types, G_N_ELEMENTS (types));
  g_signal_connect (target, "drop", G_CALLBACK (dropped), window);
  gtk_widget_add_controller (GTK_WIDGET (window), GTK_EVENT_CONTROLLER (target));
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), window);
  gtk_widget_add_controller (GTK_WIDGET (window), key);
}

/* --- where it goes --- */

enum { ANSWER_NEW = 1, ANSWER_INSTEAD };

static void
answered (GtkDialog *dialog, int response, PrWindow *window)
{
  PrPlace place = response == ANSWER_NEW       ? PR_PLACE_NEW_VISIT
                  : response == ANSWER_INSTEAD ? PR_PLACE_INSTEAD
                                               : PR_PLACE_NOWHERE;

  gtk_window_destroy (GTK_WINDOW (dialog));
  if (window->doc)
    pr_document_place (window->doc, place);
}

void
pr_window_ask_place (PrWindow *window, int foot)
{
  GtkWidget *dialog
      = gtk_message_dialog_new (GTK_WINDOW (window), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE,
                                _ ("This visit has a photo of the %s already"),
                                foot == PR_FOOT_ANY ? _ ("same sheet") : pr_foot_name ((PrFoot) foot));

  gtk_window_set_title (GTK_WINDOW (dialog), _ ("Where does it go?"));
  gtk_widget_add_css_class (dialog, "pritchel");
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog), "%s",
      _ ("As a new visit, both are kept. Put in its place, the photo and line of before go, and the shoe "
         "is fitted to the new one."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("Put in its _place"),
                          ANSWER_INSTEAD, _ ("_New visit"), ANSWER_NEW, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), ANSWER_NEW);
  g_signal_connect_object (dialog, "response", G_CALLBACK (answered), window, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}
