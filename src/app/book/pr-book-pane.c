/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-pane.h"

#include <glib/gi18n-lib.h>
#include "pr-foot-thumb.h"
#include "pr-words.h"

#define LIST_PX 220 /* a list of horses longer than this scrolls */

struct _PrBookPane {
  GtkBox parent_instance;
  PrDocument *doc;
  GtkWidget *find, *horses, *nobody, *name, *visits, *new_name, *new_button, *new_visit;
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

static void
clear_list (GtkWidget *list)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (list)))
    if (GTK_IS_LIST_BOX (list))
      gtk_list_box_remove (GTK_LIST_BOX (list), child);
    else
      gtk_box_remove (GTK_BOX (list), child);
}

static gint64
get_id (gpointer object)
{
  const gint64 *id = g_object_get_data (object, "pr-id");
  return id ? *id : 0;
}

static void
set_id (gpointer object, gint64 id)
{
  gint64 *copy = g_new (gint64, 1);

  *copy = id;
  g_object_set_data_full (object, "pr-id", copy, g_free);
}

static GtkWidget *
left_label (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (class)
    gtk_widget_add_css_class (label, class);
  return label;
}

/* --- visits --- */

/* The outline kept with a foot, NULL when there is none. */
static GArray *
kept_outline (PrBook *book, PrBookId foot)
{
  g_autofree char *text = pr_book_get_trace (book, foot, NULL);
  g_autoptr (JsonNode) node = text ? json_from_string (text, NULL) : NULL;
  JsonArray *points = NULL;
  GArray *outline;

  if (node && JSON_NODE_HOLDS_OBJECT (node)
      && json_object_has_member (json_node_get_object (node), "outline_mm"))
    points = json_object_get_array_member (json_node_get_object (node), "outline_mm");
  if (!points)
    return NULL;
  outline = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));
  for (guint i = 0; i < json_array_get_length (points); i++) {
    JsonArray *xy = json_array_get_array_element (points, i);
    PrSheetPt p = { json_array_get_double_element (xy, 0), json_array_get_double_element (xy, 1) };

    g_array_append_val (outline, p);
  }
  return outline;
}

static void
thumb_clicked (PrFootThumb *thumb, PrBookPane *pane)
{
  gint64 id = get_id (thumb);
  int foot = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (thumb), "pr-foot"));
  const gint64 *visit = g_object_get_data (G_OBJECT (thumb), "pr-visit");

  if (id) {
    g_signal_emit (pane, signals[OPEN_FOOT], 0, id);
    return;
  }
  pr_document_choose_visit (pane->doc, pr_document_horse_id (pane->doc), *visit);
  g_signal_emit (pane, signals[WANT_PHOTO], 0, foot);
}

static GtkWidget *
thumb_for (PrBookPane *pane, PrBookId visit, PrFoot foot, const PrBookFoot *row)
{
  PrBook *book = pr_document_book (pane->doc);
  GtkWidget *thumb = pr_foot_thumb_new (foot, row ? kept_outline (book, row->id) : NULL);
  gint64 *visit_id = g_new (gint64, 1);

  *visit_id = visit;
  set_id (thumb, row ? row->id : 0);
  g_object_set_data (G_OBJECT (thumb), "pr-foot", GINT_TO_POINTER (foot));
  g_object_set_data_full (G_OBJECT (thumb), "pr-visit", visit_id, g_free);
  if (row && row->id == pr_document_foot_id (pane->doc))
    gtk_widget_add_css_class (thumb, "chosen");
  g_signal_connect (thumb, "clicked", G_CALLBACK (thumb_clicked), pane);
  return thumb;
}

static const PrBookFoot *
foot_row (const GPtrArray *feet, PrFoot foot)
{
  for (guint i = 0; feet && i < feet->len; i++) {
    const PrBookFoot *row = g_ptr_array_index (feet, i);

    if (row->foot == foot)
      return row;
  }
  return NULL;
}

static GtkWidget *
visit_grid (PrBookPane *pane, PrBookId visit)
{
  GtkWidget *grid = gtk_grid_new ();
  g_autoptr (GPtrArray) feet = pr_book_feet (pr_document_book (pane->doc), visit, NULL);
  int more = 4;

  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 6);
  for (int i = 0; i < 4; i++) {
    PrFoot foot = (PrFoot) (PR_FOOT_LF + i);

    gtk_grid_attach (GTK_GRID (grid), thumb_for (pane, visit, foot, foot_row (feet, foot)), i % 2, i / 2, 1,
                     1);
  }
  for (guint i = 0; feet && i < feet->len; i++) { /* not told which, or there already in another form */
    const PrBookFoot *row = g_ptr_array_index (feet, i);

    if (row->foot == PR_FOOT_ANY || row != foot_row (feet, row->foot)) {
      gtk_grid_attach (GTK_GRID (grid), thumb_for (pane, visit, row->foot, row), more % 2, more / 2, 1, 1);
      more++;
    }
  }
  return grid;
}

static void
fill_visits (PrBookPane *pane)
{
  PrBookId horse = pr_document_horse_id (pane->doc);
  g_autoptr (GPtrArray) visits = horse ? pr_book_visits (pr_document_book (pane->doc), horse, NULL) : NULL;

  clear_list (pane->visits);
  for (guint i = 0; visits && i < visits->len; i++) {
    const PrBookVisit *visit = g_ptr_array_index (visits, i);
    g_autofree char *date = pr_words_date (visit->date);

    gtk_box_append (GTK_BOX (pane->visits), left_label (date, "soft"));
    gtk_box_append (GTK_BOX (pane->visits), visit_grid (pane, visit->id));
  }
}

/* --- horses --- */

static void
fill_horses (PrBookPane *pane)
{
  const char *find = gtk_editable_get_text (GTK_EDITABLE (pane->find));
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) horses = pr_book_horses (pr_document_book (pane->doc), *find ? find : NULL, &error);
  PrBookId chosen = pr_document_horse_id (pane->doc);

  trouble (pane, error);
  clear_list (pane->horses);
  gtk_editable_set_text (GTK_EDITABLE (pane->name), "");
  gtk_widget_set_visible (pane->nobody, !horses || horses->len == 0);
  for (guint i = 0; horses && i < horses->len; i++) {
    const PrBookHorse *horse = g_ptr_array_index (horses, i);
    GtkWidget *row = gtk_list_box_row_new ();

    gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), left_label (horse->name, NULL));
    set_id (row, horse->id);
    gtk_list_box_append (GTK_LIST_BOX (pane->horses), row);
    if (horse->id != chosen)
      continue;
    gtk_list_box_select_row (GTK_LIST_BOX (pane->horses), GTK_LIST_BOX_ROW (row));
    gtk_editable_set_text (GTK_EDITABLE (pane->name), horse->name);
  }
  gtk_widget_set_visible (pane->name, chosen != 0);
  gtk_widget_set_visible (pane->new_visit, chosen != 0);
}

static void
fill (PrBookPane *pane)
{
  if (!pr_document_book (pane->doc))
    return;
  pane->filling = true;
  fill_horses (pane);
  fill_visits (pane);
  pane->filling = false;
}

static void
document_changed (PrBookPane *pane, guint what)
{
  if (what & (PR_CHANGED_BOOK | PR_CHANGED_PLACE))
    fill (pane);
}

/* Opens the newest foot of the horse, so that a click on a name shows something. */
static void
horse_chosen (GtkListBox *list, GtkListBoxRow *row, PrBookPane *pane)
{
  gint64 horse = row ? get_id (row) : 0;
  g_autoptr (GPtrArray) visits = NULL, feet = NULL;

  if (pane->filling || !horse || horse == pr_document_horse_id (pane->doc))
    return;
  visits = pr_book_visits (pr_document_book (pane->doc), horse, NULL);
  if (visits && visits->len > 0)
    feet = pr_book_feet (pr_document_book (pane->doc), ((PrBookVisit *) g_ptr_array_index (visits, 0))->id,
                         NULL);
  if (feet && feet->len > 0)
    g_signal_emit (pane, signals[OPEN_FOOT], 0, ((PrBookFoot *) g_ptr_array_index (feet, 0))->id);
  else
    pr_document_choose_visit (pane->doc, horse,
                              visits && visits->len > 0 ? ((PrBookVisit *) g_ptr_array_index (visits, 0))->id
                                                        : 0);
}

static void
name_edited (GtkEditableLabel *label, GParamSpec *spec, PrBookPane *pane)
{
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
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (pane->new_name))));
  g_autoptr (GError) error = NULL;

  if (!*name || !pr_document_book (pane->doc))
    return;
  gtk_menu_button_popdown (GTK_MENU_BUTTON (pane->new_button));
  gtk_editable_set_text (GTK_EDITABLE (pane->new_name), "");
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

/* --- building --- */

static GtkWidget *
new_horse_button (PrBookPane *pane)
{
  GtkWidget *popover = gtk_popover_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *add = gtk_button_new_with_label (_ ("Add"));

  pane->new_button = gtk_menu_button_new ();
  pane->new_name = gtk_entry_new ();
  gtk_entry_set_placeholder_text (GTK_ENTRY (pane->new_name), _ ("name of the horse"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (pane->new_name), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the new horse"), -1);
  g_signal_connect_swapped (pane->new_name, "activate", G_CALLBACK (add_horse), pane);
  g_signal_connect_swapped (add, "clicked", G_CALLBACK (add_horse), pane);
  gtk_box_append (GTK_BOX (box), pane->new_name);
  gtk_box_append (GTK_BOX (box), add);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (pane->new_button), popover);
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (pane->new_button), "pr-plus-symbolic");
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (pane->new_button), FALSE);
  gtk_widget_set_tooltip_text (pane->new_button, _ ("New horse"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (pane->new_button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("New horse"), -1);
  return pane->new_button;
}

static GtkWidget *
scrolled (GtkWidget *child, bool grow)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), child);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  if (!grow)
    gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), LIST_PX);
  gtk_widget_set_vexpand (scroller, grow);
  return scroller;
}

static void
build_horses (PrBookPane *pane)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);

  pane->find = gtk_search_entry_new ();
  g_object_set (pane->find, "placeholder-text", _ ("find a horse"), NULL);
  gtk_editable_set_width_chars (GTK_EDITABLE (pane->find), 8);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (pane->find), 12);
  gtk_widget_set_hexpand (pane->find, TRUE);
  g_signal_connect_swapped (pane->find, "search-changed", G_CALLBACK (fill), pane);
  gtk_box_append (GTK_BOX (line), pane->find);
  gtk_box_append (GTK_BOX (line), new_horse_button (pane));
  gtk_box_append (GTK_BOX (pane), line);
  pane->nobody = left_label (_ ("No horse here yet"), "soft");
  gtk_box_append (GTK_BOX (pane), pane->nobody);
  pane->horses = gtk_list_box_new ();
  gtk_list_box_set_activate_on_single_click (GTK_LIST_BOX (pane->horses), TRUE);
  g_signal_connect (pane->horses, "row-activated", G_CALLBACK (horse_chosen), pane);
  gtk_accessible_update_property (GTK_ACCESSIBLE (pane->horses), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Horses"),
                                  -1);
  gtk_box_append (GTK_BOX (pane), scrolled (pane->horses, false));
}

static void
build_visits (PrBookPane *pane)
{
  pane->name = gtk_editable_label_new ("");
  gtk_widget_add_css_class (pane->name, "head");
  gtk_widget_set_tooltip_text (pane->name, _ ("Click to rename"));
  g_signal_connect (pane->name, "notify::editing", G_CALLBACK (name_edited), pane);
  gtk_box_append (GTK_BOX (pane), pane->name);
  pane->new_visit = gtk_button_new_with_label (_ ("New visit"));
  gtk_button_set_has_frame (GTK_BUTTON (pane->new_visit), FALSE);
  gtk_widget_add_css_class (pane->new_visit, "link");
  gtk_widget_set_halign (pane->new_visit, GTK_ALIGN_START);
  g_signal_connect_swapped (pane->new_visit, "clicked", G_CALLBACK (add_visit), pane);
  gtk_box_append (GTK_BOX (pane), pane->new_visit);
  pane->visits = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (GTK_BOX (pane), scrolled (pane->visits, true));
}

void
pr_book_pane_find (PrBookPane *pane)
{
  gtk_widget_grab_focus (pane->find);
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
pr_book_pane_dispose (GObject *object)
{
  g_clear_object (&PR_BOOK_PANE (object)->doc);
  G_OBJECT_CLASS (pr_book_pane_parent_class)->dispose (object);
}

static void
pr_book_pane_init (PrBookPane *pane)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (pane), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (pane), 6);
  gtk_widget_add_css_class (GTK_WIDGET (pane), "book");
  gtk_widget_set_hexpand (GTK_WIDGET (pane), FALSE);
  build_horses (pane);
  build_visits (pane);
}

static void
pr_book_pane_class_init (PrBookPaneClass *class)
{
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_book_pane_dispose;
  signals[OPEN_FOOT] = g_signal_new ("open-foot", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                     1, G_TYPE_INT64);
  signals[WANT_PHOTO]
      = g_signal_new ("want-photo", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[TROUBLE]
      = g_signal_new ("trouble", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}
