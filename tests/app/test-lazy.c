/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is made or told late, for the sake of a quick switch, shows in the end what it would have shown at once: a panel whose folded
 * parts were told of nothing, and a list of visits whose rows came from other horses, each after many seeded random steps, against
 * one that is made new on the same document. */
#include "../desk/desk-kit.h"

#include <locale.h>
#include "big-book.h"
#include "pr-book-diary.h"
#include "pr-book-trash.h"
#include "pr-fold.h"
#include "pr-foot-thumb.h"
#include "pr-look.h"
#include "pr-panel.h"
#include "pr-visit-list.h"

#define ROUNDS 6
#define STEPS 4 /* in each */
#define SEED 31

/* --- what a person would see of a widget, in words --- */

static void
tell_shortcuts (GtkWidget *widget, GString *all)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++) {
    g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);

    for (guint k = 0; GTK_IS_SHORTCUT_CONTROLLER (one) && k < g_list_model_get_n_items (G_LIST_MODEL (one));
         k++) {
      g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (G_LIST_MODEL (one), k);
      GVariant *target = gtk_shortcut_get_arguments (shortcut);
      g_autofree char *words = target ? g_variant_print (target, TRUE) : NULL;
      g_autofree char *does = gtk_shortcut_action_to_string (gtk_shortcut_get_action (shortcut));

      if (!GTK_IS_CALLBACK_ACTION (gtk_shortcut_get_action (shortcut)))
        g_string_append_printf (all, " [%s %s]", does, words ? words : "");
    }
  }
}

static void
tell_state (GtkWidget *widget, GString *all)
{
  g_auto (GStrv) classes = gtk_widget_get_css_classes (widget);
  g_autofree char *styled = NULL;

  for (int i = 0; classes[i]; i++)
    for (int k = i + 1; classes[k]; k++)
      if (strcmp (classes[i], classes[k]) > 0) {
        char *swap = classes[i];
        classes[i] = classes[k];
        classes[k] = swap;
      }
  styled = g_strjoinv (".", classes);
  g_string_append_printf (all, "%s.%s%s", G_OBJECT_TYPE_NAME (widget), styled,
                          gtk_widget_get_sensitive (widget) ? "" : " off");
  if (GTK_IS_LABEL (widget))
    g_string_append_printf (all, " “%s”", gtk_label_get_text (GTK_LABEL (widget)));
  if (GTK_IS_EDITABLE (widget))
    g_string_append_printf (all, " “%s”", gtk_editable_get_text (GTK_EDITABLE (widget)));
  if (GTK_IS_DROP_DOWN (widget))
    g_string_append_printf (all, " %u", gtk_drop_down_get_selected (GTK_DROP_DOWN (widget)));
  if (GTK_IS_CHECK_BUTTON (widget))
    g_string_append_printf (all, " %d", gtk_check_button_get_active (GTK_CHECK_BUTTON (widget)));
  if (GTK_IS_TOGGLE_BUTTON (widget))
    g_string_append_printf (all, " %d", gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (widget)));
  if (PR_IS_FOOT_THUMB (widget))
    g_string_append_printf (all, " %d of %d/%d", (int) pr_foot_thumb_foot (PR_FOOT_THUMB (widget)),
                            (int) pr_foot_thumb_id (PR_FOOT_THUMB (widget)),
                            (int) pr_foot_thumb_visit (PR_FOOT_THUMB (widget)));
  if (gtk_widget_get_tooltip_text (widget))
    g_string_append_printf (all, " (%s)", gtk_widget_get_tooltip_text (widget));
  tell_shortcuts (widget, all);
}

static void
tell_below (GtkWidget *widget, int depth, GString *all)
{
  if (!gtk_widget_get_visible (widget) || GTK_IS_POPOVER (widget))
    return;
  g_string_append_printf (all, "%*s", depth, "");
  tell_state (widget, all);
  g_string_append_c (all, '\n');
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    tell_below (child, depth + 1, all);
}

/* Transfer full. */
static char *
told (GtkWidget *widget)
{
  GString *all = g_string_new (NULL);

  tell_below (widget, 0, all);
  return g_string_free (all, FALSE);
}

/* The first line in which they differ. */
static void
assert_alike (GtkWidget *kept, GtkWidget *fresh, int round)
{
  g_autofree char *a = told (kept), *b = told (fresh);
  g_auto (GStrv) one = g_strsplit (a, "\n", -1), other = g_strsplit (b, "\n", -1);

  for (int i = 0; one[i] || other[i]; i++)
    if (g_strcmp0 (one[i], other[i]) != 0)
      fail_msg ("round %d: it shows\n%s\nand would, made new,\n%s", round, one[i], other[i]);
}

/* --- the panel --- */

static void
settle (PrDocument *doc)
{
  while (pr_document_job (doc) && !pr_document_known_usual (doc))
    g_main_context_iteration (NULL, TRUE);
  for (int i = 0; i < 20; i++) {
    while (g_main_context_iteration (NULL, FALSE))
      ;
    g_usleep (1000);
  }
}

static void
set_open (GtkWidget *root, bool open)
{
  if (PR_IS_FOLD (root))
    pr_fold_set_open (PR_FOLD (root), open);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    set_open (child, open);
}

/* Shown, as nothing is filled before. */
static GtkWidget *
window_with (GtkWidget *child)
{
  GtkWidget *window = gtk_window_new (), *scroll = gtk_scrolled_window_new ();

  gtk_widget_add_css_class (window, "pritchel");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), child);
  gtk_window_set_child (GTK_WINDOW (window), scroll);
  gtk_window_set_default_size (GTK_WINDOW (window), 400, 700);
  gtk_window_present (GTK_WINDOW (window));
  return window;
}

static void
set_something (Desk *desk, GRand *rand)
{
  static const char *const params[]
      = { "web.toe", "thickness.toe", "heel.past.medial", "fit.front.medial", "nails.head_width", "bar" };
  static const char *const values[] = { "21.5", "9", "6", "1.5", "11", "straight" };
  int which = g_rand_int_range (rand, 0, G_N_ELEMENTS (params));

  pr_document_set_text (desk->doc, params[which], values[which],
                        NULL); /* or it is refused, which is a step too */
}

static void
take_a_step (Desk *desk, GRand *rand)
{
  const PrBookId feet[] = { desk->near, desk->off, desk->near_before };

  switch (g_rand_int_range (rand, 0, 8)) {
  case 0:
    pr_document_undo (desk->doc);
    break;
  case 1:
    pr_document_redo (desk->doc);
    break;
  case 2:
    pr_document_set_unit (desk->doc, g_rand_boolean (rand) ? PR_UNIT_INCH : PR_UNIT_MM);
    break;
  case 3:
    pr_document_set_face (desk->doc, g_rand_boolean (rand) ? PR_FACE_FOOT : PR_FACE_GROUND);
    break;
  case 4:
    pr_document_set_wall (desk->doc, 1, g_rand_boolean (rand) ? 9 : 0, NULL);
    break;
  case 5:
    desk_open (desk, feet[g_rand_int_range (rand, 0, G_N_ELEMENTS (feet))]);
    break;
  default:
    set_something (desk, rand);
  }
}

/* Also unfolded it is no wider: the board would jump. */
static void
folded_parts_catch_up (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  desk_open (desk, desk->near);
  GtkWidget *panel = pr_panel_new (desk->doc), *window = window_with (panel);

  (void) state;
  settle (desk->doc);
  int width = gtk_widget_get_width (panel);
  for (int round = 0; round < ROUNDS; round++) {
    GtkWidget *fresh, *other;

    set_open (panel, false);
    settle (desk->doc);
    for (int i = 0; i < STEPS; i++)
      take_a_step (desk, rand);
    set_open (panel, true);
    fresh = pr_panel_new (desk->doc);
    other = window_with (fresh);
    set_open (fresh, true);
    settle (desk->doc);
    assert_int_equal (gtk_widget_get_width (panel), width);
    assert_alike (panel, fresh, round);
    gtk_window_destroy (GTK_WINDOW (other));
  }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* --- the visits --- */

static void
go_to_a_horse (PrDocument *doc, GRand *rand)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (pr_document_book (doc), NULL, NULL);
  const PrBookHorse *horse = horses->pdata[g_rand_int_range (rand, 0, (gint32) horses->len)];
  g_autoptr (GPtrArray) visits = pr_book_visits (pr_document_book (doc), horse->id, NULL);

  const PrBookVisit *visit
      = visits->len > 0 ? visits->pdata[g_rand_int_range (rand, 0, (gint32) visits->len)] : NULL;
  g_autoptr (GPtrArray) feet = visit ? pr_book_feet (pr_document_book (doc), visit->id, NULL) : NULL;
  const PrBookFoot *foot
      = feet && feet->len > 0 ? feet->pdata[g_rand_int_range (rand, 0, (gint32) feet->len)] : NULL;
  if (!foot || !pr_document_open_foot (doc, foot->id, NULL)) /* one without a line is refused */
    pr_document_choose_visit (doc, horse->id, visit ? visit->id : 0);
}

/* A visit gets a foot, a note and a card, or goes. */
static void
change_visits (PrDocument *doc, GRand *rand)
{
  PrBook *book = pr_document_book (doc);
  g_autoptr (GPtrArray) visits = pr_book_visits (book, pr_document_horse_id (doc), NULL);

  if (visits->len == 0)
    return;
  PrBookVisit *visit = visits->pdata[g_rand_int_range (rand, 0, (gint32) visits->len)];
  switch (g_rand_int_range (rand, 0, 3)) {
  case 0:
    assert_true (
        pr_book_add_foot (book, visit->id, (PrFoot) g_rand_int_range (rand, PR_FOOT_ANY, PR_N_FEET), NULL));
    break;
  case 1:
    visit->colour = g_rand_int_range (rand, 0, 3);
    g_free (visit->note);
    visit->note = kit_big_words (rand, 3);
    assert_true (pr_book_describe_visit (book, visit, NULL));
    break;
  default:
    if (visits->len > 1)
      assert_true (pr_book_delete (book, PR_BOOK_VISIT, visit->id, NULL));
  }
}

static void
rows_take_the_next_horse (void **state)
{
  static const KitBigBook some = { .seed = SEED, .horses = 8, .visits = 6, .feet = 3 };
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  PrVisitList *list = g_object_new (PR_TYPE_VISIT_LIST, NULL);
  GtkWidget *window = window_with (GTK_WIDGET (list));

  (void) state;
  kit_big_book (desk->book, &some);
  for (int round = 0; round < 10 * ROUNDS; round++) {
    PrVisitList *fresh = g_object_ref_sink (g_object_new (PR_TYPE_VISIT_LIST, NULL));

    if (g_rand_int_range (rand, 0, 3) == 0)
      change_visits (desk->doc, rand);
    else
      go_to_a_horse (desk->doc, rand);
    pr_visit_list_show (list, desk->doc);
    pr_visit_list_show (fresh, desk->doc);
    assert_alike (GTK_WIDGET (list), GTK_WIDGET (fresh), round);
    g_object_unref (fresh);
  }
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (folded_parts_catch_up),
    cmocka_unit_test (rows_take_the_next_horse),
  };
  char *home = kit_folder ();

  g_setenv ("XDG_DATA_HOME", home, TRUE);
  setlocale (LC_ALL, "");
  if (!gtk_init_check ())
    return 77; /* no display: left out */
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  pr_look_start (gdk_display_get_default ());
  int failed = cmocka_run_group_tests (tests, NULL, NULL);
  kit_folder_gone (home);
  return failed;
}
