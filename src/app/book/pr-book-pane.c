/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-pane.h"

#include "pr-context-menu.h"
#include "pr-document-delete.h"
#include "pr-document-diary.h"
#include "pr-horse-dialog.h"
#include "pr-horse-list.h"
#include "pr-names.h"
#include "pr-ui.h"
#include "pr-visit-dialog.h"
#include "pr-visit-list.h"

#define NAME_CHARS 16 /* as in the rows of the list: the pane is as wide as two feet */

struct _PrBookPane {
  GtkBox parent_instance;
  PrDocument *doc;
  PrHorseList *list;
  GtkWidget *find, *nobody, *name, *horse_head, *where, *due, *new_visit;
  GtkListView *horses;
  GtkScrolledWindow *scroll; /* of the visits */
  GtkMenuButton *new_button;
  GtkEditable *new_name;
  PrVisitList *visits;
  GMenuModel *horse_menu;
  int frames;  /* seen since it came into sight */
  guint ticks; /* the callback that lists more horses; 0: none */
  bool filling;
};

enum { OPEN_FOOT, WANT_PHOTO, TROUBLE, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrBookPane, pr_book_pane, GTK_TYPE_BOX)

static void
trouble (PrBookPane *pane, const GError *error)
{
  if (error)
    g_signal_emit (pane, signals[TROUBLE], 0, error->message);
}

/* A foot is opened; where there is none yet its photo is asked for. */
static void
thumb_pressed (PrVisitList *list, PrFootThumb *thumb, PrBookPane *pane)
{
  PrBookId id = pr_foot_thumb_id (thumb);

  if (id) {
    g_signal_emit (pane, signals[OPEN_FOOT], 0, id);
    return;
  }
  pr_document_choose_visit (pane->doc, pr_document_horse_id (pane->doc), pr_foot_thumb_visit (thumb));
  g_signal_emit (pane, signals[WANT_PHOTO], 0, (int) pr_foot_thumb_foot (thumb));
}

/* --- horses --- */

/* What is open is in sight; where it is not listed, the list begins at its beginning. */
static void
show_chosen (PrBookPane *pane)
{
  guint position;

  if (!pr_horse_list_chosen (pane->list, &position))
    position = 0;
  if (pr_horse_list_at (pane->list, position))
    gtk_widget_activate_action (GTK_WIDGET (pane->horses), "list.scroll-to-item", "u", position);
}

/* The name of the chosen horse, whether it is among those that are sought or not. */
static void
show_name (PrBookPane *pane)
{
  const PrBookHorse *horse = pr_horse_list_open (pane->list);

  gtk_editable_set_text (GTK_EDITABLE (pane->name), horse ? horse->name : "");
  gtk_widget_set_visible (pane->horse_head, horse != NULL);
  gtk_widget_set_visible (pane->new_visit, horse != NULL);
}

/* Yard and owner, and when the next visit is due, below the name. */
static void
show_about (PrBookPane *pane, PrBookId chosen)
{
  g_auto (PrBookHorse) horse = { 0 };
  bool late = false;
  bool is = chosen && pr_book_get_horse (pr_document_book (pane->doc), chosen, &horse, NULL);
  g_autofree char *due = is ? pr_document_due_words (pane->doc, &horse, &late) : NULL;
  g_autofree char *where = !is ? NULL
                           : *horse.yard && *horse.owner
                               ? g_strdup_printf ("%s · %s", horse.yard, horse.owner)
                           : *horse.yard || *horse.owner ? g_strconcat (horse.yard, horse.owner, NULL)
                                                         : NULL;

  pr_tell (pane->where, where);
  pr_tell (pane->due, due);
  gtk_widget_set_tooltip_text (pane->horse_head, is && *horse.note ? horse.note : NULL);
  if (late)
    gtk_widget_add_css_class (pane->due, "late");
  else
    gtk_widget_remove_css_class (pane->due, "late");
}

static const char *
typed (PrBookPane *pane)
{
  return gtk_editable_get_text (GTK_EDITABLE (pane->find));
}

static void
fill_horses (PrBookPane *pane)
{
  g_autoptr (GError) error = NULL;
  PrBookId chosen = pr_document_horse_id (pane->doc);
  bool others = pr_horse_list_read (pane->list, pr_document_book (pane->doc), typed (pane), &error);

  trouble (pane, error);
  gtk_widget_set_visible (pane->nobody, pr_horse_list_is_empty (pane->list));
  if (pr_horse_list_choose (pane->list, chosen) || others)
    show_chosen (pane);
  show_name (pane);
  show_about (pane, chosen);
}

/* The rows that are not in sight come once the first frame is on the screen, some with each. */
static gboolean
frame_due (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  PrBookPane *pane = PR_BOOK_PANE (widget);

  if (pane->frames++ == 0 || pr_horse_list_show_more (pane->list))
    return G_SOURCE_CONTINUE;
  show_chosen (pane);
  pane->ticks = 0;
  return G_SOURCE_REMOVE;
}

static void
list_more (PrBookPane *pane)
{
  if (!pane->ticks)
    pane->ticks = gtk_widget_add_tick_callback (GTK_WIDGET (pane), frame_due, NULL, NULL);
}

/* Those in which what is typed is found: the book is as it was. */
static void
find_horses (PrBookPane *pane)
{
  if (pr_horse_list_seek (pane->list, typed (pane))) {
    show_chosen (pane);
    list_more (pane);
  }
  gtk_widget_set_visible (pane->nobody, pr_horse_list_is_empty (pane->list));
}

static void
fill (PrBookPane *pane)
{
  if (!pr_document_book (pane->doc))
    return;
  pane->filling = true;
  fill_horses (pane);
  pr_visit_list_show (pane->visits, pane->doc);
  pane->filling = false;
}

static void
document_changed (PrBookPane *pane, guint what)
{
  if (what & (PR_CHANGED_BOOK | PR_CHANGED_PLACE))
    fill (pane);
}

/* Opens the newest foot of the horse, so that a click on a name shows something. */
void
pr_book_pane_open_horse (PrBookPane *pane, PrBookId horse)
{
  PrBookId visit;
  g_autoptr (GPtrArray) visits = NULL, feet = NULL;

  if (!horse || horse == pr_document_horse_id (pane->doc))
    return;
  visits = pr_book_visits (pr_document_book (pane->doc), horse, NULL);
  visit = visits && visits->len > 0 ? ((PrBookVisit *) g_ptr_array_index (visits, 0))->id : 0;
  feet = visit ? pr_book_feet (pr_document_book (pane->doc), visit, NULL) : NULL;
  if (feet && feet->len > 0)
    g_signal_emit (pane, signals[OPEN_FOOT], 0, ((PrBookFoot *) g_ptr_array_index (feet, 0))->id);
  else
    pr_document_choose_visit (pane->doc, horse, visit);
}

static void
horse_chosen (GtkListView *view, guint position, PrBookPane *pane)
{
  const PrBookHorse *row = pr_horse_list_at (pane->list, position);

  pr_book_pane_open_horse (pane, row ? row->id : 0);
}

/* The row of the list that WIDGET lies in; NULL: in none. */
static GtkWidget *
row_of (PrBookPane *pane, GtkWidget *widget)
{
  while (widget && gtk_widget_get_parent (widget) != GTK_WIDGET (pane->horses))
    widget = gtk_widget_get_parent (widget);
  return widget;
}

/* Of the horse of ROW, which is opened first: what is done is done with the horse that is open. X, Y: in the pane. */
static void
open_menu (PrBookPane *pane, GtkWidget *row, double x, double y)
{
  /* its label is named by its place (horse-row.ui) */
  const char *place = gtk_widget_get_name (gtk_widget_get_first_child (row));
  guint position = (guint) g_ascii_strtoull (place, NULL, 10);
  const PrBookHorse *horse = pr_horse_list_at (pane->list, position);

  if (!horse)
    return;
  if (horse->id != pr_document_horse_id (pane->doc))
    pr_book_pane_open_horse (pane, horse->id);
  pr_context_menu_open (GTK_WIDGET (pane), pane->horse_menu, x, y);
}

static void
row_pressed (GtkGestureClick *gesture, int n, double x, double y, PrBookPane *pane)
{
  GtkWidget *view = GTK_WIDGET (pane->horses),
            *row = row_of (pane, gtk_widget_pick (view, x, y, GTK_PICK_DEFAULT));

  if (!row)
    return;
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  gtk_widget_translate_coordinates (view, GTK_WIDGET (pane), x, y, &x, &y);
  open_menu (pane, row, x, y);
}

/* The action "book.horse-menu": of the row that has the keyboard. */
static void
horse_menu (GtkWidget *widget, const char *name, GVariant *none)
{
  PrBookPane *pane = PR_BOOK_PANE (widget);
  GtkWidget *row = row_of (pane, gtk_root_get_focus (gtk_widget_get_root (widget)));
  double x = 0, y = 0;

  if (!row)
    return;
  gtk_widget_translate_coordinates (row, widget, gtk_widget_get_width (row) / 2.0,
                                    gtk_widget_get_height (row) / 2.0, &x, &y);
  open_menu (pane, row, x, y);
}

/* Return in the entry: the first of those that are found. */
static void
open_first (PrBookPane *pane)
{
  if (*typed (pane))
    horse_chosen (pane->horses, 0, pane);
}

/* Escape there: all of them again. */
static void
stop_finding (PrBookPane *pane)
{
  gtk_editable_set_text (GTK_EDITABLE (pane->find), "");
}

static void
name_edited (PrBookPane *pane)
{
  GtkEditableLabel *label = GTK_EDITABLE_LABEL (pane->name);
  PrBookId horse = pr_document_horse_id (pane->doc);
  g_autofree char *name = NULL;
  g_autoptr (GError) error = NULL;

  if (pane->filling || gtk_editable_label_get_editing (label) || !horse)
    return;
  name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (label))));
  if (*name)
    pr_document_rename_horse (pane->doc, horse, name, &error);
  else
    fill (pane);
  trouble (pane, error);
}

static void
add_horse (PrBookPane *pane)
{
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (pane->new_name)));
  g_autoptr (GError) error = NULL;

  if (!*name || !pr_document_book (pane->doc))
    return;
  gtk_menu_button_popdown (pane->new_button);
  gtk_editable_set_text (pane->new_name, "");
  gtk_editable_set_text (GTK_EDITABLE (pane->find), "");
  pr_document_add_horse (pane->doc, name, &error);
  trouble (pane, error);
}

static void
add_visit (PrBookPane *pane)
{
  PrBookId horse = pr_document_horse_id (pane->doc);
  g_autoptr (GError) error = NULL;

  if (horse)
    pr_document_add_visit (pane->doc, horse, &error);
  trouble (pane, error);
}

/* --- deleting --- */

static void
delete_one (PrBookPane *pane, PrBookKind kind, PrBookId id)
{
  g_autoptr (GError) error = NULL;

  pr_document_delete (pane->doc, kind, id, &error);
  trouble (pane, error);
}

/* The action "book.delete": what, and which. */
static void
delete_named (GtkWidget *widget, const char *name, GVariant *what)
{
  int kind;
  PrBookId id;

  g_variant_get (what, "(ix)", &kind, &id);
  delete_one (PR_BOOK_PANE (widget), (PrBookKind) kind, id);
}

static void
delete_horse (GtkWidget *widget, const char *name, GVariant *none)
{
  PrBookPane *pane = PR_BOOK_PANE (widget);

  delete_one (pane, PR_BOOK_HORSE, pr_document_horse_id (pane->doc));
}

/* --- what is written about them --- */

static void
about_horse (GtkWidget *widget, const char *name, GVariant *none)
{
  PrBookPane *pane = PR_BOOK_PANE (widget);
  PrBookId horse = pr_document_horse_id (pane->doc);

  if (horse)
    pr_horse_dialog_show (GTK_WINDOW (gtk_widget_get_root (widget)), pane->doc, horse);
}

static void
about_visit (GtkWidget *widget, const char *name, GVariant *visit)
{
  pr_visit_dialog_show (GTK_WINDOW (gtk_widget_get_root (widget)), PR_BOOK_PANE (widget)->doc,
                        g_variant_get_int64 (visit));
}

/* --- the widget --- */

void
pr_book_pane_find (PrBookPane *pane)
{
  gtk_widget_grab_focus (pane->find);
  gtk_editable_select_region (GTK_EDITABLE (pane->find), 0,
                              -1); /* what is typed now takes the place of what was */
}

bool
pr_book_pane_has_horses (PrBookPane *pane)
{
  return *typed (pane) || !pr_horse_list_is_empty (pane->list);
}

void
pr_book_pane_set_document (PrBookPane *pane, PrDocument *doc)
{
  g_return_if_fail (!pane->doc);
  pane->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), pane, G_CONNECT_SWAPPED);
  fill (pane);
}

static void
pr_book_pane_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pr_book_pane_parent_class)->map (widget);
  if (PR_BOOK_PANE (widget)->frames == 0)
    list_more (PR_BOOK_PANE (widget));
}

static void
pr_book_pane_dispose (GObject *object)
{
  PrBookPane *pane = PR_BOOK_PANE (object);

  g_clear_object (&pane->doc);
  g_clear_object (&pane->list);
  G_OBJECT_CLASS (pr_book_pane_parent_class)->dispose (object);
}

static void
pr_book_pane_init (PrBookPane *pane)
{
  pane->list = pr_horse_list_new ();
  gtk_widget_init_template (GTK_WIDGET (pane));
  pr_visit_list_follow (pane->visits, gtk_scrolled_window_get_vadjustment (pane->scroll));
  gtk_list_view_set_model (pane->horses, GTK_SELECTION_MODEL (pane->list));
  pr_editable_cut (GTK_EDITABLE_LABEL (pane->name), NAME_CHARS);
}

/* The row is the toolkit's; what it is called is what its label says. */
static void
name_row (GtkLabel *label)
{
  GtkWidget *row = gtk_widget_get_parent (GTK_WIDGET (label));

  if (row)
    gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    gtk_label_get_text (label), -1);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrBookPane, name)

static void
bind_template (GtkWidgetClass *widget_class)
{
  g_type_ensure (PR_TYPE_VISIT_LIST);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/book-pane.ui");
  BIND (find);
  BIND (horse_menu);
  BIND (new_button);
  BIND (new_name);
  BIND (nobody);
  BIND (horses);
  BIND (name);
  BIND (horse_head);
  BIND (where);
  BIND (due);
  BIND (new_visit);
  BIND (scroll);
  BIND (visits);
  gtk_widget_class_bind_template_callback (widget_class, name_row);
  gtk_widget_class_bind_template_callback (widget_class, find_horses);
  gtk_widget_class_bind_template_callback (widget_class, open_first);
  gtk_widget_class_bind_template_callback (widget_class, stop_finding);
  gtk_widget_class_bind_template_callback (widget_class, thumb_pressed);
  gtk_widget_class_bind_template_callback (widget_class, horse_chosen);
  gtk_widget_class_bind_template_callback (widget_class, row_pressed);
  gtk_widget_class_bind_template_callback (widget_class, name_edited);
  gtk_widget_class_bind_template_callback (widget_class, add_horse);
  gtk_widget_class_bind_template_callback (widget_class, add_visit);
}

static void
pr_book_pane_class_init (PrBookPaneClass *class)
{
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_book_pane_dispose;
  GTK_WIDGET_CLASS (class)->map = pr_book_pane_map;
  bind_template (GTK_WIDGET_CLASS (class));
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "book.delete", "(ix)", delete_named);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "book.delete-horse", NULL, delete_horse);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "book.horse-menu", NULL, horse_menu);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "book.about-horse", NULL, about_horse);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "book.about-visit", "x", about_visit);
  signals[OPEN_FOOT] = g_signal_new ("open-foot", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                     1, G_TYPE_INT64);
  signals[WANT_PHOTO]
      = g_signal_new ("want-photo", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[TROUBLE]
      = g_signal_new ("trouble", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}
