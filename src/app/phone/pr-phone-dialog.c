/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-dialog.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>
#include "pr-document-forged.h"
#include "pr-phone-addresses.h"
#include "pr-phone-row.h"
#include "pr-phone.h"
#include "pr-places.h"
#include "pr-settings.h"
#include "pr-ui.h"

#define MODULE 8  /* pixels of the code's picture */
#define BORDER 4  /* light modules round it (ISO/IEC 18004, 5.3.8) */
#define MINUTE 60 /* seconds of nothing, until it is told what to look at */
#define PORT_LETTERS 5

struct _PrPhoneDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  bool shoe;
  PrSeenOptions how;
  PrPhone *phone;       /* NULL: nothing is served */
  GPtrArray *addresses; /* PrPhoneAddress, a line of the choice each */
  GQueue asked;         /* numbers of phones that are asked about, and what each shows (char *), by turns */
  guint minute;
  bool listing; /* the choice is being filled */
  int last;     /* number of a photo */
  GNetworkMonitor *network;
  GtkPicture *code;
  GtkLabel *address, *question, *firewall, *coming_words;
  GtkWidget *where;
  GtkDropDown *choice;
  GtkStringList *choices;
  GtkRevealer *hints;
  GtkProgressBar *coming;
  GtkWidget *choice_box, *coming_box, *question_box, *serving, *again, *waiting, *trouble, *rows, *go, *close;
};

G_DEFINE_FINAL_TYPE (PrPhoneDialog, pr_phone_dialog, GTK_TYPE_WINDOW)

/* --- the address --- */

/* The code as a picture: dark on light whatever the window's look is, as phones expect it. Transfer full. */
static GdkTexture *
picture_of (const PrPhoneCode *code)
{
  int side = (code->side + 2 * BORDER) * MODULE;
  gsize stride = (gsize) side * 3;
  guint8 *rgb = g_malloc (stride * (gsize) side);
  g_autoptr (GBytes) bytes = NULL;

  memset (rgb, 0xff, stride * (gsize) side);
  for (int y = 0; y < code->side * MODULE; y++)
    for (int x = 0; x < code->side * MODULE; x++)
      if (code->dark[y / MODULE * code->side + x / MODULE] == '1')
        memset (rgb + (gsize) (y + BORDER * MODULE) * stride + 3 * (gsize) (x + BORDER * MODULE), 0, 3);
  bytes = g_bytes_new_take (rgb, stride * (gsize) side);
  return gdk_memory_texture_new (side, side, GDK_MEMORY_R8G8B8, bytes, stride);
}

static void
show_firewall (PrPhoneDialog *dialog, const char *url)
{
  const char *host = strstr (url, "://"), *path = host ? strchr (host + 3, '/') : NULL;
  const char *colon = path ? g_strrstr_len (url, path - url, ":") : NULL;
  g_autofree char *port
      = colon ? g_strndup (colon + 1, MIN (PORT_LETTERS, strcspn (colon + 1, "/"))) : g_strdup ("");
  g_autofree char *text
      = g_strdup_printf (_ ("A firewall on this computer must let in TCP port %s while this is open."), port);

  gtk_label_set_text (dialog->firewall, text);
}

static gboolean
nothing_came (gpointer data)
{
  PrPhoneDialog *dialog = data;

  dialog->minute = 0;
  gtk_revealer_set_reveal_child (dialog->hints, TRUE);
  return G_SOURCE_REMOVE;
}

static void
opened (const char *url, const PrPhoneCode *code, gpointer data)
{
  PrPhoneDialog *dialog = data;
  g_autoptr (GdkTexture) picture = code->side > 0 ? picture_of (code) : NULL;

  gtk_picture_set_paintable (dialog->code, GDK_PAINTABLE (picture));
  gtk_label_set_text (dialog->address, url);
  show_firewall (dialog, url);
  gtk_widget_set_visible (dialog->serving, TRUE);
  g_clear_handle_id (&dialog->minute, g_source_remove);
  dialog->minute = g_timeout_add_seconds (MINUTE, nothing_came, dialog);
}

/* --- what came --- */

static PrPhoneRow *
row_of (PrPhoneDialog *dialog, int id)
{
  for (GtkWidget *at = gtk_widget_get_first_child (dialog->rows); at; at = gtk_widget_get_next_sibling (at))
    if (pr_phone_row_id (PR_PHONE_ROW (at)) == id)
      return PR_PHONE_ROW (at);
  return NULL;
}

static void
show_parts (PrPhoneDialog *dialog)
{
  bool some = gtk_widget_get_first_child (dialog->rows) != NULL;

  gtk_widget_set_visible (dialog->waiting, !some);
  gtk_widget_set_visible (dialog->go, some);
  gtk_widget_set_visible (dialog->close, !some);
}

static void
left_out (PrPhoneRow *row, PrPhoneDialog *dialog)
{
  gtk_box_remove (GTK_BOX (dialog->rows), GTK_WIDGET (row));
  show_parts (dialog);
  /* the keyboard would go with it */
  gtk_widget_grab_focus (gtk_widget_get_visible (dialog->go) ? dialog->go : dialog->close);
}

static void
photo_came (const PrPhonePhoto *photo, gpointer data)
{
  PrPhoneDialog *dialog = data;
  PrPhoneRow *before = row_of (dialog, photo->instead), *row = pr_phone_row_new (photo);

  dialog->last = MAX (dialog->last, photo->id);
  g_signal_connect_object (row, "left-out", G_CALLBACK (left_out), dialog, 0);
  if (before)
    gtk_box_insert_child_after (GTK_BOX (dialog->rows), GTK_WIDGET (row), GTK_WIDGET (before));
  else
    gtk_box_prepend (GTK_BOX (dialog->rows), GTK_WIDGET (row)); /* the newest in sight */
  if (before)
    gtk_box_remove (GTK_BOX (dialog->rows), GTK_WIDGET (before));
  show_parts (dialog);
}

static void
coming (double share, gpointer data)
{
  PrPhoneDialog *dialog = data;

  gtk_widget_set_visible (dialog->coming_box, share > 0);
  gtk_progress_bar_set_fraction (dialog->coming, share);
  gtk_label_set_text (dialog->coming_words,
                      share < 1 ? _ ("A photo is coming…") : _ ("Looking at the photo…"));
}

static void
show_waiting (PrPhoneDialog *dialog, bool used)
{
  gtk_label_set_text (
      GTK_LABEL (dialog->waiting),
      used ? _ ("A phone has opened the page. Its photos are listed here.")
           : _ ("Photos are listed here as they come, and of each it is told whether it will do."));
}

static void
used (gpointer data)
{
  PrPhoneDialog *dialog = data;

  g_clear_handle_id (&dialog->minute, g_source_remove);
  gtk_revealer_set_reveal_child (dialog->hints, FALSE);
  show_waiting (dialog, true);
}

/* --- another phone --- */

static void
show_question (PrPhoneDialog *dialog)
{
  g_autofree char *text = NULL;

  gtk_widget_set_visible (dialog->question_box, !g_queue_is_empty (&dialog->asked));
  if (g_queue_is_empty (&dialog->asked))
    return;
  text = g_strdup_printf (_ ("Another phone, which shows the number %s, would send photos."),
                          (const char *) g_queue_peek_nth (&dialog->asked, 1));
  gtk_label_set_text (dialog->question, text);
}

static void
asked (int phone, const char *code, gpointer data)
{
  PrPhoneDialog *dialog = data;

  g_queue_push_tail (&dialog->asked, GINT_TO_POINTER (phone));
  g_queue_push_tail (&dialog->asked, g_strdup (code));
  show_question (dialog);
}

static void
answer (PrPhoneDialog *dialog, bool allowed)
{
  int phone = GPOINTER_TO_INT (g_queue_pop_head (&dialog->asked));
  g_autofree char *code = g_queue_pop_head (&dialog->asked);

  if (dialog->phone && code)
    pr_phone_answer (dialog->phone, phone, allowed);
  show_question (dialog);
}

static void
allow (PrPhoneDialog *dialog)
{
  answer (dialog, true);
}

static void
refuse (PrPhoneDialog *dialog)
{
  answer (dialog, false);
}

static void
forget_questions (PrPhoneDialog *dialog)
{
  while (!g_queue_is_empty (&dialog->asked)) {
    g_queue_pop_head (&dialog->asked);
    g_free (g_queue_pop_head (&dialog->asked));
  }
}

/* --- serving --- */

static void
stop (PrPhoneDialog *dialog)
{
  g_clear_pointer (&dialog->phone, pr_phone_free);
  g_clear_handle_id (&dialog->minute, g_source_remove);
  forget_questions (dialog);
}

/* Nothing is served any more; WHY, a sentence. */
static void
rest (PrPhoneDialog *dialog, const char *why)
{
  stop (dialog);
  show_question (dialog);
  coming (0, dialog);
  gtk_widget_set_visible (dialog->serving, FALSE);
  gtk_widget_set_visible (dialog->again, TRUE);
  pr_tell (dialog->trouble, why);
}

static void
ended (const char *why, bool idle, gpointer data)
{
  rest (data, why);
}

static void
serve (PrPhoneDialog *dialog)
{
  const PrPhoneOwner owner = { opened, used, coming, asked, photo_came, ended, dialog };
  guint nth = gtk_drop_down_get_selected (dialog->choice);
  g_autoptr (GError) error = NULL;

  stop (dialog);
  if (nth >= dialog->addresses->len) {
    rest (dialog, _ ("This computer is in no network; join the one that the phone is in."));
    return;
  }
  const PrPhoneOrders orders = { .address = ((PrPhoneAddress *) dialog->addresses->pdata[nth])->text,
                                 .minutes = PR_PHONE_MINUTES,
                                 .unit = pr_document_unit (dialog->doc),
                                 .sides = pr_settings_sides (),
                                 .shoe = dialog->shoe,
                                 .how = dialog->how,
                                 .after = dialog->last };
  gtk_widget_set_visible (dialog->again, FALSE);
  pr_tell (dialog->trouble, NULL);
  show_waiting (dialog, false); /* what another address was opened by has no way in here */
  dialog->phone = pr_phone_new (&orders, &owner, &error);
  if (!dialog->phone)
    rest (dialog, error->message);
}

static void
address_chosen (PrPhoneDialog *dialog)
{
  if (dialog->doc && !dialog->listing)
    serve (dialog);
}

/* The addresses there are now, in the choice; the first of them chosen. */
static void
list_addresses (PrPhoneDialog *dialog)
{
  dialog->listing = true;
  g_clear_pointer (&dialog->addresses, g_ptr_array_unref);
  dialog->addresses = pr_phone_addresses ();
  gtk_string_list_splice (dialog->choices, 0, g_list_model_get_n_items (G_LIST_MODEL (dialog->choices)),
                          NULL);
  for (guint i = 0; i < dialog->addresses->len; i++) {
    const PrPhoneAddress *one = dialog->addresses->pdata[i];
    g_autofree char *line = *one->interface ? g_strdup_printf ("%s · %s", one->text, one->interface) : NULL;

    gtk_string_list_append (dialog->choices, line ? line : one->text);
  }
  gtk_widget_set_visible (dialog->choice_box, dialog->addresses->len > 1);
  dialog->listing = false;
}

static void
start (PrPhoneDialog *dialog)
{
  list_addresses (dialog);
  serve (dialog);
}

static bool
has_address (const GPtrArray *addresses, const char *text)
{
  for (guint i = 0; i < addresses->len; i++)
    if (strcmp (((PrPhoneAddress *) addresses->pdata[i])->text, text) == 0)
      return true;
  return false;
}

/* As after a sleep in another place: the address that is served may be gone, or there is one at last. */
static void
network_changed (PrPhoneDialog *dialog)
{
  g_autoptr (GPtrArray) now = pr_phone_addresses ();
  guint nth = gtk_drop_down_get_selected (dialog->choice);
  bool there = nth < dialog->addresses->len
               && has_address (now, ((PrPhoneAddress *) dialog->addresses->pdata[nth])->text);

  if (!there && (now->len > 0 || dialog->phone))
    start (dialog);
}

/* --- closing --- */

/* Those that are wanted, in the order they came; of several, the ones to be taken again stay out. Element type PrReceived. */
static GPtrArray *
wanted (PrPhoneDialog *dialog, bool *some_bad)
{
  GPtrArray *all = g_ptr_array_new ();
  GtkWidget *last = gtk_widget_get_last_child (dialog->rows);
  bool several = last != gtk_widget_get_first_child (dialog->rows);

  *some_bad = false;
  for (GtkWidget *at = last; at; at = gtk_widget_get_prev_sibling (at)) {
    bool bad = several && pr_phone_row_is_bad (PR_PHONE_ROW (at));
    const PrReceived *photo = pr_phone_row_photo (PR_PHONE_ROW (at));

    *some_bad |= bad;
    if (photo && !bad)
      g_ptr_array_add (all, (gpointer) photo);
  }
  return all;
}

static void
hand_over (PrPhoneDialog *dialog)
{
  bool some_bad;
  g_autoptr (GPtrArray) photos = wanted (dialog, &some_bad);

  if (photos->len > 0 && !dialog->shoe)
    pr_document_take_received (dialog->doc, photos);
  else if (photos->len > 0 && pr_document_job (dialog->doc))
    pr_document_take_forged_received (dialog->doc, photos->pdata[photos->len - 1], &dialog->how);
  if (some_bad)
    pr_document_trouble (dialog->doc, _ ("Photos that are to be taken again were left out."));
  pr_empty (dialog->rows);
}

static gboolean
pr_phone_dialog_close_request (GtkWindow *window)
{
  PrPhoneDialog *dialog = PR_PHONE_DIALOG (window);

  stop (dialog);
  hand_over (dialog);
  return GTK_WINDOW_CLASS (pr_phone_dialog_parent_class)->close_request (window);
}

static void
toggle_hints (PrPhoneDialog *dialog)
{
  gtk_revealer_set_reveal_child (dialog->hints, !gtk_revealer_get_reveal_child (dialog->hints));
}

/* --- the window --- */

/* Which horse and visit the photos go to. Transfer full. */
static char *
where_to (PrDocument *doc)
{
  PrBook *book = pr_document_book (doc);
  g_autofree char *day = NULL, *horse = NULL;

  if (!book || pr_places_is_demo (book, pr_document_horse_id (doc))
      || !pr_places_words (book, pr_document_visit_id (doc), &day, &horse))
    return g_strdup (
        _ ("Photos go to a horse without a name yet. To put them with one of yours, close this and "
           "choose the horse in the book first."));
  /* translators: the date of the visit; the horse */
  return g_strdup_printf (
      _ ("Photos go into the visit of %s of %s. If it has no room for all of them, they go "
         "into a new visit of today."),
      day, horse);
}

static void
show_for (GtkWindow *parent, PrDocument *doc, const PrSeenOptions *how)
{
  PrPhoneDialog *dialog = g_object_new (PR_TYPE_PHONE_DIALOG, "transient-for", parent, NULL);

  dialog->doc = g_object_ref (doc);
  dialog->shoe = how != NULL;
  if (how)
    dialog->how = *how;
  dialog->network = g_object_ref (g_network_monitor_get_default ());
  g_signal_connect_object (dialog->network, "network-changed", G_CALLBACK (network_changed), dialog,
                           G_CONNECT_SWAPPED);
  g_autofree char *where = how ? NULL : where_to (doc); /* a shoe's photo belongs to the open foot */
  pr_tell (dialog->where, where);
  start (dialog);
  gtk_window_present (GTK_WINDOW (dialog));
}

void
pr_phone_dialog_show (GtkWindow *parent, PrDocument *doc)
{
  show_for (parent, doc, NULL);
}

void
pr_phone_dialog_show_shoe (GtkWindow *parent, PrDocument *doc, const PrSeenOptions *how)
{
  show_for (parent, doc, how);
}

static void
pr_phone_dialog_dispose (GObject *object)
{
  PrPhoneDialog *dialog = PR_PHONE_DIALOG (object);

  stop (dialog);
  g_clear_object (&dialog->doc);
  g_clear_object (&dialog->network);
  g_clear_pointer (&dialog->addresses, g_ptr_array_unref);
  G_OBJECT_CLASS (pr_phone_dialog_parent_class)->dispose (object);
}

static void
pr_phone_dialog_init (PrPhoneDialog *dialog)
{
  g_queue_init (&dialog->asked);
  gtk_widget_init_template (GTK_WIDGET (dialog));
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrPhoneDialog, name)

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "phone-dialog.ui");
  gtk_widget_class_bind_template_callback (widget_class, address_chosen);
  gtk_widget_class_bind_template_callback (widget_class, allow);
  gtk_widget_class_bind_template_callback (widget_class, refuse);
  gtk_widget_class_bind_template_callback (widget_class, start);
  gtk_widget_class_bind_template_callback (widget_class, toggle_hints);
  BIND (code);
  BIND (address);
  BIND (question);
  BIND (firewall);
  BIND (choice);
  BIND (choices);
  BIND (hints);
  BIND (coming);
  BIND (coming_box);
  BIND (coming_words);
  BIND (choice_box);
  BIND (question_box);
  BIND (serving);
  BIND (again);
  BIND (waiting);
  BIND (where);
  BIND (trouble);
  BIND (rows);
  BIND (go);
  BIND (close);
}

static void
pr_phone_dialog_class_init (PrPhoneDialogClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_phone_dialog_dispose;
  GTK_WINDOW_CLASS (class)->close_request = pr_phone_dialog_close_request;
  g_type_ensure (PR_TYPE_PHONE_ROW);
  bind_template (GTK_WIDGET_CLASS (class));
}
