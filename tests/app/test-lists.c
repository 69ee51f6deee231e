/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lists of the book: what they tell a list view of seeded random books that are changed again and again, against the book itself;
 * and how many widgets stand for it, however large it is. */
#include <gtk/gtk.h>

#include "big-book.h"
#include "kit.h"
#include "pr-book-diary.h"
#include "pr-book-pane.h"
#include "pr-book-trash.h"
#include "pr-due-list.h"
#include "pr-due-dialog.h"
#include "pr-horse-list.h"
#include "pr-look.h"
#include "pr-visit-row.h"
#include "shelf.h"

#define ROUNDS 300
#define ROWS_MOST 210 /* a list view makes 200 and a few beside them (GTK 4.8, gtklistview.c) */

/* --- what a view is told --- */

/* A view's own idea of the list: it only hears of changes. */
typedef struct {
  GListModel *model;
  GPtrArray *names;
} Mirror;

static void
items_changed (GListModel *model, guint at, guint removed, guint added, Mirror *mirror)
{
  assert_true (removed + added > 0);
  if (removed > 0)
    g_ptr_array_remove_range (mirror->names, at, removed);
  for (guint i = 0; i < added; i++) {
    g_autoptr (GtkStringObject) item = g_list_model_get_item (model, at + i);

    g_ptr_array_insert (mirror->names, (gint) (at + i), g_strdup (gtk_string_object_get_string (item)));
  }
}

/* What the view believes is what the list says, and that is what the book holds: at least so many as a first look shows, or
 * ALL. */
static void
assert_right (const Mirror *mirror, PrHorseList *list, PrBook *book, const char *typed, bool all)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (book, typed, NULL);
  guint n = g_list_model_get_n_items (mirror->model), at;

  assert_in_range (n, all ? horses->len : MIN (horses->len, 12), horses->len);
  assert_int_equal (mirror->names->len, n);
  for (guint i = 0; i < n; i++) {
    const PrBookHorse *horse = horses->pdata[i];

    assert_string_equal (mirror->names->pdata[i], horse->name);
    assert_int_equal (pr_horse_list_at (list, i)->id, horse->id);
  }
  assert_null (pr_horse_list_at (list, n));
  assert_true (pr_horse_list_is_empty (list) == (horses->len == 0));
  if (pr_horse_list_chosen (list, &at))
    assert_true (gtk_selection_model_is_selected (GTK_SELECTION_MODEL (list), at));
}

/* One horse more, less, or called otherwise. */
static void
change_something (PrBook *book, GRand *rand)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, NULL);
  g_autofree char *name = kit_big_words (rand, 1);
  const PrBookHorse *one = horses->pdata[g_rand_int_range (rand, 0, (gint32) horses->len)];

  switch (g_rand_int_range (rand, 0, 3)) {
  case 0:
    assert_true (pr_book_add_horse (book, name, "", NULL) > 0);
    break;
  case 1:
    if (horses->len > 20)
      assert_true (pr_book_delete (book, PR_BOOK_HORSE, one->id, NULL));
    break;
  default: {
    const PrBookHorse told
        = { .id = one->id, .name = name, .yard = one->yard, .owner = one->owner, .note = one->note };

    assert_true (pr_book_describe_horse (book, &told, NULL));
  }
  }
}

static void
a_view_is_told_what_changes (void **state)
{
  KitShelf *shelf = *state;
  const KitBigBook how = { .seed = 4, .horses = 60 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  g_autoptr (PrHorseList) list = pr_horse_list_new ();
  Mirror mirror = { G_LIST_MODEL (list), g_ptr_array_new_with_free_func (g_free) };
  g_autofree char *typed = g_strdup ("");

  kit_big_book (shelf->book, &how);
  g_signal_connect (list, "items-changed", G_CALLBACK (items_changed), &mirror);
  pr_horse_list_read (list, shelf->book, typed, NULL);
  assert_right (&mirror, list, shelf->book, typed, false);
  for (int round = 0; round < ROUNDS; round++) {
    if (g_rand_boolean (rand)) {
      g_free (typed);
      typed = kit_big_words (rand, 1);
      *g_utf8_offset_to_pointer (typed, MIN (g_rand_int_range (rand, 0, 4), g_utf8_strlen (typed, -1)))
          = '\0';
      pr_horse_list_seek (list, typed);
      assert_right (&mirror, list, shelf->book, typed, false);
    }
    if (g_rand_boolean (rand)) {
      while (pr_horse_list_show_more (list))
        assert_right (&mirror, list, shelf->book, typed, false);
      assert_right (&mirror, list, shelf->book, typed, true);
    }
    change_something (shelf->book, rand);
    pr_horse_list_read (list, shelf->book, typed, NULL);
    pr_horse_list_choose (list, g_rand_int_range (rand, 1, 60));
    assert_right (&mirror, list, shelf->book, typed, false);
    assert_false (pr_horse_list_read (list, shelf->book, typed, NULL));
  }
  g_ptr_array_unref (mirror.names);
}

/* --- how many widgets --- */

static guint
count (GtkWidget *root, const char *class)
{
  guint n = g_str_equal (G_OBJECT_TYPE_NAME (root), class);

  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    n += count (child, class);
  return n;
}

static GtkWidget *
find (GtkWidget *root, GType type)
{
  GtkWidget *found = G_TYPE_CHECK_INSTANCE_TYPE (root, type) ? root : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child && !found;
       child = gtk_widget_get_next_sibling (child))
    found = find (child, type);
  return found;
}

/* The book's pane in a window of its own, with a view of all its horses. */
typedef struct {
  GtkWidget *window, *list, *find;
  PrBookPane *pane;
  PrDocument *doc;
} Desk;

static guint
listed (const Desk *desk)
{
  return g_list_model_get_n_items (G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (desk->list))));
}

static Desk
desk_of (KitShelf *shelf, const KitBigBook *how)
{
  Desk desk = { .pane = g_object_new (PR_TYPE_BOOK_PANE, NULL) };

  kit_big_book (shelf->book, how);
  desk.doc = pr_document_new (g_steal_pointer (&shelf->book), PR_UNIT_MM);
  desk.list = find (GTK_WIDGET (desk.pane), GTK_TYPE_LIST_VIEW);
  desk.find = find (GTK_WIDGET (desk.pane), GTK_TYPE_SEARCH_ENTRY);
  pr_book_pane_set_document (desk.pane, desk.doc);
  desk.window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (desk.window), 300, 700);
  gtk_window_set_child (GTK_WINDOW (desk.window), GTK_WIDGET (desk.pane));
  gtk_window_present (GTK_WINDOW (desk.window));
  while (listed (&desk) < (guint) how->horses)
    g_main_context_iteration (NULL, TRUE);
  return desk;
}

static void
desk_gone (Desk *desk)
{
  gtk_window_destroy (GTK_WINDOW (desk->window));
  g_object_unref (desk->doc);
}

static void
rows_are_bounded (void **state)
{
  const KitBigBook how = { .seed = 6, .horses = 3000 };
  Desk desk = desk_of (*state, &how);

  assert_in_range (count (desk.list, "GtkListItemWidget"), 12, ROWS_MOST);
  for (int i = 0; i < 3; i++) { /* found, and all of them again */
    gtk_editable_set_text (GTK_EDITABLE (desk.find), "a");
    while (listed (&desk) == (guint) how.horses)
      g_main_context_iteration (NULL, TRUE);
    assert_in_range (count (desk.list, "GtkListItemWidget"), 12, ROWS_MOST);
    gtk_editable_set_text (GTK_EDITABLE (desk.find), "");
    while (listed (&desk) < (guint) how.horses)
      g_main_context_iteration (NULL, TRUE);
    assert_in_range (count (desk.list, "GtkListItemWidget"), 12, ROWS_MOST);
  }
  desk_gone (&desk);
}

/* The newest visits first, and each of the others when it is scrolled to. */
static void
visits_come_as_they_are_seen (void **state)
{
  const KitBigBook how = { .seed = 7, .horses = 1, .visits = 60 };
  Desk desk = desk_of (*state, &how);
  GtkWidget *first;

  pr_book_pane_open_horse (desk.pane, 1);
  for (int i = 0; i < 50; i++)
    while (g_main_context_iteration (NULL, FALSE))
      ;
  assert_in_range (count (GTK_WIDGET (desk.pane), "PrVisitRow"), 1, 20);
  first = find (GTK_WIDGET (desk.pane), PR_TYPE_VISIT_ROW);
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (
      GTK_SCROLLED_WINDOW (gtk_widget_get_ancestor (first, GTK_TYPE_SCROLLED_WINDOW)));
  while (count (GTK_WIDGET (desk.pane), "PrVisitRow") < (guint) how.visits) {
    gtk_adjustment_set_value (down, gtk_adjustment_get_upper (down));
    g_main_context_iteration (NULL, TRUE);
  }
  /* one more of today: every row that stood is still the same */
  assert_true (pr_document_add_visit (desk.doc, 1, NULL) > 0);
  assert_int_equal (count (GTK_WIDGET (desk.pane), "PrVisitRow"), how.visits);
  assert_ptr_equal (gtk_widget_get_prev_sibling (first), find (GTK_WIDGET (desk.pane), PR_TYPE_VISIT_ROW));
  desk_gone (&desk);
}

static void
what_is_due_is_worded_when_seen (void **state)
{
  KitShelf *shelf = *state;
  const KitBigBook how = { .seed = 8, .horses = 2000, .visits = 1, .feet = 1 };

  kit_big_book (shelf->book, &how);
  g_autoptr (GPtrArray) due = pr_book_due (shelf->book, NULL);
  g_autoptr (PrDueList) list = g_object_new (PR_TYPE_DUE_LIST, NULL);
  const PrBookDue *last = due->pdata[due->len - 1];
  assert_int_equal (due->len, how.horses);
  pr_due_list_take (list, g_ptr_array_ref (due), "2026-11-20");
  g_autoptr (GtkStringObject) item = g_list_model_get_item (G_LIST_MODEL (list), due->len - 1);
  assert_non_null (strstr (gtk_string_object_get_string (item), last->horse.name));
  assert_null (g_list_model_get_item (G_LIST_MODEL (list), due->len));

  g_autoptr (PrDocument) doc = pr_document_new (g_steal_pointer (&shelf->book), PR_UNIT_MM);
  GtkWindow *parent = GTK_WINDOW (gtk_window_new ());
  pr_due_dialog_show (parent, doc);
  g_autoptr (GListModel) all = g_object_ref (gtk_window_get_toplevels ());
  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) window = g_list_model_get_item (all, i);

    if (g_type_is_a (G_OBJECT_TYPE (window), PR_TYPE_DUE_DIALOG)) {
      assert_in_range (count (window, "GtkListItemWidget"), 1, ROWS_MOST);
      gtk_window_destroy (GTK_WINDOW (window));
    }
  }
  gtk_window_destroy (parent);
}

#define SHELVED(test) cmocka_unit_test_setup_teardown (test, kit_shelf_set_up, kit_shelf_tear_down)

int
main (void)
{
  const struct CMUnitTest tests[]
      = { SHELVED (a_view_is_told_what_changes), SHELVED (rows_are_bounded),
          SHELVED (visits_come_as_they_are_seen), SHELVED (what_is_due_is_worded_when_seen) };

  if (!gtk_init_check ())
    return 77; /* skipped: no display */
  pr_look_start (gdk_display_get_default ());
  return cmocka_run_group_tests (tests, NULL, NULL);
}
