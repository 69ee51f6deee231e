/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be pressed, typed or chosen from a menu. */
#include "pr-window-private.h"

#include <glib/gi18n-lib.h>
#include "pr-cautions.h"
#include "pr-document-marking.h"
#include "pr-export.h"
#include "pr-look.h"
#include "pr-print.h"
#include "pr-printer-dialog.h"
#include "pr-screen.h"
#include "pr-sent.h"
#include "pr-settings.h"

#define ZOOM_STEP 1.25
#define DEMO_FOOT "resource:///org/pritchel/Pritchel/demo/near-fore.jpg"

/* --- photos --- */

static void
do_open (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_window_choose_photo (data, PR_FOOT_ANY);
}

static void
do_open_demo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GFile) file = g_file_new_for_uri (DEMO_FOOT);

  pr_document_take_photo (((PrWindow *) data)->doc, file, PR_FOOT_ANY, _ ("Demo foot"));
}

static void
do_mark_scale (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_document_mark_scale (((PrWindow *) data)->doc);
}

static void
do_draw_line (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindow *window = data;

  pr_window_set_drawing (window, !window->drawing);
}

static void
do_stop (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_document_stop (((PrWindow *) data)->doc);
}

/* --- paper --- */

static void
do_print (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_print_job (data, ((PrWindow *) data)->doc);
}

static void
do_print_sheet (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_print_sheet (data, ((PrWindow *) data)->doc);
}

static void
do_print_preview (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_print_preview (data, ((PrWindow *) data)->doc);
}

static void
do_measure_printer (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_measure_printer (data, ((PrWindow *) data)->doc);
}

static void
do_save_pdf (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_export_template (data, ((PrWindow *) data)->doc, PR_EXPORT_PDF);
}

static void
do_save_svg (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_export_template (data, ((PrWindow *) data)->doc, PR_EXPORT_SVG);
}

static void
do_save_png (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_export_template (data, ((PrWindow *) data)->doc, PR_EXPORT_PNG);
}

static void
do_save_dxf (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_export_template (data, ((PrWindow *) data)->doc, PR_EXPORT_DXF);
}

static void
do_save_all (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_export_all (data, ((PrWindow *) data)->doc);
}

static void
do_send_foot (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_send_foot (data, ((PrWindow *) data)->doc);
}

/* --- the shoe --- */

static void
do_undo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_document_undo (((PrWindow *) data)->doc);
}

static void
do_redo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_document_redo (((PrWindow *) data)->doc);
}

static void
do_fit_shoe (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindow *window = data;
  g_autoptr (GError) error = NULL;

  if (!pr_document_fit (window->doc, &error))
    pr_window_tell (window, error->message);
}

static void
do_take_other (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindow *window = data;
  g_autoptr (GError) error = NULL;

  if (!pr_document_take_other (window->doc, &error))
    pr_window_tell (window, error->message);
}

static void
do_last_visit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindow *window = data;
  g_autoptr (GError) error = NULL;

  if (!pr_document_take_last_visit (window->doc, &error))
    pr_window_tell (window, error->message);
}

static void
do_find_marks (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindow *window = data;
  g_autoptr (GError) error = NULL;

  if (!pr_document_find_marks (window->doc, &error))
    pr_window_tell (window, error->message);
}

/* --- the view --- */

static void
do_zoom_in (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_window_zoom (data, ZOOM_STEP);
}

static void
do_zoom_out (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_window_zoom (data, 1 / ZOOM_STEP);
}

static void
do_fit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_window_zoom (data, 0);
}

static void
do_true_size (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindow *window = data;

  pr_board_true_size (window->board);
  if (!pr_board_is_measured (window->board))
    pr_window_tell_of_screen (window);
}

static void
do_turn (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrBoard *board = ((PrWindow *) data)->board;

  pr_board_set_face (board, pr_board_face (board) == PR_FACE_FOOT ? PR_FACE_GROUND : PR_FACE_FOOT);
}

static void
do_measure_screen (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_measure_screen (data, ((PrWindow *) data)->board);
}

static void
do_find (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_action_group_change_action_state (G_ACTION_GROUP (data), "book", g_variant_new_boolean (TRUE));
  pr_book_pane_find (((PrWindow *) data)->book_pane);
}

static void
do_dismiss (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ((PrWindow *) data)->message_stays = false;
  gtk_revealer_set_reveal_child (((PrWindow *) data)->message_bar, FALSE);
}

static void
do_help (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_help_show (data);
}

static void
do_about (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  pr_about_show (data);
}

/* --- what stays as chosen --- */

static void
set_book (GSimpleAction *action, GVariant *state, gpointer data)
{
  gtk_revealer_set_reveal_child (((PrWindow *) data)->book_revealer, g_variant_get_boolean (state));
  pr_settings_keep ("book-shown", state);
  g_simple_action_set_state (action, state);
}

static void
set_photo (GSimpleAction *action, GVariant *state, gpointer data)
{
  pr_board_set_show_photo (((PrWindow *) data)->board, g_variant_get_boolean (state));
  g_simple_action_set_state (action, state);
}

static void
set_measure (GSimpleAction *action, GVariant *state, gpointer data)
{
  pr_board_set_measuring (((PrWindow *) data)->board, g_variant_get_boolean (state));
  g_simple_action_set_state (action, state);
}

static void
set_marks (GSimpleAction *action, GVariant *state, gpointer data)
{
  pr_board_set_marks (((PrWindow *) data)->board, g_variant_get_boolean (state));
  g_simple_action_set_state (action, state);
}

static void
set_unit (GSimpleAction *action, GVariant *state, gpointer data)
{
  pr_settings_keep ("unit", state);
  pr_document_set_unit (((PrWindow *) data)->doc, pr_settings_unit ());
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
  { .name = "draw-line", .activate = do_draw_line },
  { .name = "stop", .activate = do_stop },
  { .name = "print", .activate = do_print },
  { .name = "print-sheet", .activate = do_print_sheet },
  { .name = "print-preview", .activate = do_print_preview },
  { .name = "measure-printer", .activate = do_measure_printer },
  { .name = "save-pdf", .activate = do_save_pdf },
  { .name = "save-svg", .activate = do_save_svg },
  { .name = "save-png", .activate = do_save_png },
  { .name = "save-dxf", .activate = do_save_dxf },
  { .name = "save-all", .activate = do_save_all },
  { .name = "send-foot", .activate = do_send_foot },
  { .name = "undo", .activate = do_undo },
  { .name = "redo", .activate = do_redo },
  { .name = "fit-shoe", .activate = do_fit_shoe },
  { .name = "take-other", .activate = do_take_other },
  { .name = "last-visit", .activate = do_last_visit },
  { .name = "find-marks", .activate = do_find_marks },
  { .name = "zoom-in", .activate = do_zoom_in },
  { .name = "zoom-out", .activate = do_zoom_out },
  { .name = "fit", .activate = do_fit },
  { .name = "true-size", .activate = do_true_size },
  { .name = "turn", .activate = do_turn },
  { .name = "measure-screen", .activate = do_measure_screen },
  { .name = "find", .activate = do_find },
  { .name = "dismiss", .activate = do_dismiss },
  { .name = "help", .activate = do_help },
  { .name = "about", .activate = do_about },
  { .name = "book", .state = "true", .change_state = set_book },
  { .name = "photo", .state = "true", .change_state = set_photo },
  { .name = "marks", .state = "false", .change_state = set_marks },
  { .name = "measure", .state = "false", .change_state = set_measure },
  { .name = "unit", .parameter_type = "s", .state = "'locale'", .change_state = set_unit },
  { .name = "look", .parameter_type = "s", .state = "'desktop'", .change_state = set_look },
};

static void
enable (PrWindow *window, const char *name, bool on)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), name);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), on);
}

void
pr_window_update_actions (PrWindow *window)
{
  static const char *const with_job[]
      = { "print",     "print-preview", "save-pdf",   "save-svg", "save-png", "save-dxf",
          "save-all",  "take-other",    "last-visit", "measure",  "fit-shoe", "find-marks",
          "true-size", "turn",          "draw-line",  "photo",    "marks" };
  bool job = pr_document_job (window->doc) != NULL;
  bool bare = pr_document_bare (window->doc, NULL) != NULL;
  bool marking = pr_document_marking (window->doc) != NULL;

  for (size_t i = 0; i < G_N_ELEMENTS (with_job); i++)
    enable (window, with_job[i], job);
  enable (window, "mark-scale", job || bare);
  enable (window, "send-foot", job && pr_document_foot_id (window->doc) != 0);
  enable (window, "zoom-in", job || bare || marking);
  enable (window, "zoom-out", job || bare || marking);
  enable (window, "fit", job || bare || marking);
  enable (window, "undo", !marking && pr_document_can_undo (window->doc));
  enable (window, "redo", !marking && pr_document_can_redo (window->doc));
  enable (window, "book", pr_document_book (window->doc) != NULL);
  gtk_widget_set_sensitive (window->out_button, job);
}

void
pr_window_add_actions (PrWindow *window)
{
  GActionGroup *group = G_ACTION_GROUP (window);
  g_autofree char *unit = pr_settings_string ("unit"), *look = pr_settings_string ("look");
  bool book = pr_settings_bool ("book-shown");

  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  g_action_group_change_action_state (group, "unit", g_variant_new_string (unit));
  g_action_group_change_action_state (group, "look", g_variant_new_string (look));
  g_action_group_change_action_state (group, "book", g_variant_new_boolean (book));
}
