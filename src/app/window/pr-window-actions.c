/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-window-actions.h"

#include <glib/gi18n-lib.h>
#include "pr-cautions.h"
#include "pr-document-marking.h"
#include "pr-export.h"
#include "pr-look.h"
#include "pr-print.h"
#include "pr-printer-dialog.h"
#include "pr-settings.h"
#include "pr-sheet-dialog.h"

#define DEMO_FOOT "resource:///org/pritchel/Pritchel/demo/near-fore.jpg"

/* --- photos --- */

static void
do_open (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_incoming_choose (((PrWindowActions *) data)->incoming, PR_FOOT_ANY);
}

static void
do_open_demo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GFile) file = g_file_new_for_uri (DEMO_FOOT);

  pr_document_take_photo (((PrWindowActions *) data)->doc, file, PR_FOOT_ANY, _ ("Demo foot"));
}

static void
do_mark_scale (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_document_mark_scale (((PrWindowActions *) data)->doc);
}

static void
do_stop (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_document_stop (((PrWindowActions *) data)->doc);
}

/* --- paper and files --- */

/* Questions come over the window. */
static GtkWindow *
over (PrWindowActions *a)
{
  return GTK_WINDOW (a->window);
}

static void
do_print (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_print_job (over (data), ((PrWindowActions *) data)->doc);
}

static void
do_print_sheet (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_print_sheet (over (data), ((PrWindowActions *) data)->doc);
}

static void
do_print_preview (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_print_preview (over (data), ((PrWindowActions *) data)->doc);
}

static void
do_measure_printer (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_measure_printer (over (data), ((PrWindowActions *) data)->doc);
}

/* The name of the action tells what is taken out. */
static void
do_save (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  static const char *const names[]
      = { [PR_EXPORT_PDF] = "save-pdf", [PR_EXPORT_SVG] = "save-svg",   [PR_EXPORT_PNG] = "save-png",
          [PR_EXPORT_DXF] = "save-dxf", [PR_EXPORT_FOOT] = "send-foot", [PR_EXPORT_ALL] = "save-all" };
  const char *name = g_action_get_name (G_ACTION (action));

  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_str_equal (name, names[i]))
      pr_export (over (data), ((PrWindowActions *) data)->doc, (PrExportKind) i);
}

/* --- the shoe --- */

static void
do_undo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_document_undo (((PrWindowActions *) data)->doc);
}

static void
do_redo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_document_redo (((PrWindowActions *) data)->doc);
}

static void
do_fit_shoe (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindowActions *a = data;
  g_autoptr (GError) error = NULL;

  if (!pr_document_fit (a->doc, &error))
    pr_document_trouble (a->doc, error->message);
}

static void
do_take_other (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindowActions *a = data;
  g_autoptr (GError) error = NULL;

  if (!pr_document_take_other (a->doc, &error))
    pr_document_trouble (a->doc, error->message);
}

static void
do_last_visit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindowActions *a = data;
  g_autoptr (GError) error = NULL;

  if (!pr_document_take_last_visit (a->doc, &error))
    pr_document_trouble (a->doc, error->message);
}

static void
do_find_marks (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindowActions *a = data;
  g_autoptr (GError) error = NULL;

  if (!pr_document_find_marks (a->doc, &error))
    pr_document_trouble (a->doc, error->message);
}

/* --- the view --- */

static void
do_turn (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrBoard *board = ((PrWindowActions *) data)->board;

  pr_board_set_face (board, pr_board_face (board) == PR_FACE_FOOT ? PR_FACE_GROUND : PR_FACE_FOOT);
}

static void
do_find (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindowActions *a = data;

  g_action_group_change_action_state (G_ACTION_GROUP (a->window), "book", g_variant_new_boolean (TRUE));
  pr_book_pane_find (a->book_pane);
}

static void
do_help (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_help_show (over (data));
}

/* Made when it is asked for: it is as large as the rest of the window. */
static void
do_shortcuts (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindowActions *a = data;
  g_autoptr (GtkBuilder) builder = NULL;

  if (!gtk_application_window_get_help_overlay (a->window)) {
    builder = gtk_builder_new_from_resource ("/org/pritchel/Pritchel/ui/help-overlay.ui");
    gtk_application_window_set_help_overlay (
        a->window, GTK_SHORTCUTS_WINDOW (gtk_builder_get_object (builder, "help_overlay")));
  }
  gtk_window_present (GTK_WINDOW (gtk_application_window_get_help_overlay (a->window)));
}

static void
do_about (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_about_show (over (data));
}

/* --- what stays as chosen --- */

static void
set_book (GSimpleAction *action, GVariant *state, gpointer data)
{
  gtk_revealer_set_reveal_child (((PrWindowActions *) data)->book_revealer, g_variant_get_boolean (state));
  pr_settings_keep ("book-shown", state);
  g_simple_action_set_state (action, state);
}

static void
set_photo (GSimpleAction *action, GVariant *state, gpointer data)
{
  pr_board_set_show_photo (((PrWindowActions *) data)->board, g_variant_get_boolean (state));
  g_simple_action_set_state (action, state);
}

static void
set_measure (GSimpleAction *action, GVariant *state, gpointer data)
{
  pr_board_set_measuring (((PrWindowActions *) data)->board, g_variant_get_boolean (state));
  g_simple_action_set_state (action, state);
}

static void
set_marks (GSimpleAction *action, GVariant *state, gpointer data)
{
  pr_board_set_marks (((PrWindowActions *) data)->board, g_variant_get_boolean (state));
  g_simple_action_set_state (action, state);
}

static void
set_unit (GSimpleAction *action, GVariant *state, gpointer data)
{
  pr_settings_keep ("unit", state);
  pr_document_set_unit (((PrWindowActions *) data)->doc, pr_settings_unit ());
  g_simple_action_set_state (action, state);
}

static void
set_look (GSimpleAction *action, GVariant *state, gpointer data)
{
  pr_look_choose (g_variant_get_string (state, NULL));
  pr_settings_keep ("look", state);
  g_simple_action_set_state (action, state);
}

static const GActionEntry entries[] = {
  { .name = "open", .activate = do_open },
  { .name = "open-demo", .activate = do_open_demo },
  { .name = "mark-scale", .activate = do_mark_scale },
  { .name = "stop", .activate = do_stop },
  { .name = "print", .activate = do_print },
  { .name = "print-sheet", .activate = do_print_sheet },
  { .name = "print-preview", .activate = do_print_preview },
  { .name = "measure-printer", .activate = do_measure_printer },
  { .name = "save-pdf", .activate = do_save },
  { .name = "save-svg", .activate = do_save },
  { .name = "save-png", .activate = do_save },
  { .name = "save-dxf", .activate = do_save },
  { .name = "save-all", .activate = do_save },
  { .name = "send-foot", .activate = do_save },
  { .name = "undo", .activate = do_undo },
  { .name = "redo", .activate = do_redo },
  { .name = "fit-shoe", .activate = do_fit_shoe },
  { .name = "take-other", .activate = do_take_other },
  { .name = "last-visit", .activate = do_last_visit },
  { .name = "find-marks", .activate = do_find_marks },
  { .name = "turn", .activate = do_turn },
  { .name = "find", .activate = do_find },
  { .name = "help", .activate = do_help },
  { .name = "show-help-overlay", .activate = do_shortcuts },
  { .name = "about", .activate = do_about },
  { .name = "book", .state = "true", .change_state = set_book },
  { .name = "photo", .state = "true", .change_state = set_photo },
  { .name = "marks", .state = "false", .change_state = set_marks },
  { .name = "measure", .state = "false", .change_state = set_measure },
  { .name = "unit", .parameter_type = "s", .state = "'locale'", .change_state = set_unit },
  { .name = "look", .parameter_type = "s", .state = "'desktop'", .change_state = set_look },
};

static void
enable (PrWindowActions *a, const char *name, bool on)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (a->window), name);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), on);
}

void
pr_window_actions_update (PrWindowActions *a)
{
  static const char *const with_job[]
      = { "print",     "print-preview", "save-pdf",   "save-svg", "save-png", "save-dxf",
          "save-all",  "take-other",    "last-visit", "measure",  "fit-shoe", "find-marks",
          "true-size", "turn",          "draw-line",  "photo",    "marks" };
  static const char *const with_any[] = { "zoom-in", "zoom-out", "fit" };
  bool job = pr_document_job (a->doc) != NULL;
  bool bare = pr_document_bare (a->doc, NULL) != NULL;
  bool marking = pr_document_marking (a->doc) != NULL;

  for (size_t i = 0; i < G_N_ELEMENTS (with_job); i++)
    enable (a, with_job[i], job);
  for (size_t i = 0; i < G_N_ELEMENTS (with_any); i++)
    enable (a, with_any[i], job || bare || marking);
  enable (a, "mark-scale", job || bare);
  enable (a, "send-foot", job && pr_document_foot_id (a->doc) != 0);
  enable (a, "undo", !marking && pr_document_can_undo (a->doc));
  enable (a, "redo", !marking && pr_document_can_redo (a->doc));
  enable (a, "book", pr_document_book (a->doc) != NULL);
}

void
pr_window_actions_add (PrWindowActions *a)
{
  GActionGroup *group = G_ACTION_GROUP (a->window);
  g_autofree char *unit = pr_settings_string ("unit"), *look = pr_settings_string ("look");
  bool book = pr_settings_bool ("book-shown");

  g_action_map_add_action_entries (G_ACTION_MAP (a->window), entries, G_N_ELEMENTS (entries), a);
  g_action_group_change_action_state (group, "unit", g_variant_new_string (unit));
  g_action_group_change_action_state (group, "look", g_variant_new_string (look));
  g_action_group_change_action_state (group, "book", g_variant_new_boolean (book));
}
