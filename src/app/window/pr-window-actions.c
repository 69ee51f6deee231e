/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-window-actions.h"

#include <glib/gi18n-lib.h>
#include "pr-cautions.h"
#include "pr-document-backup.h"
#include "pr-due-dialog.h"
#include "pr-help-window.h"
#include "pr-preferences.h"
#include "pr-document-forged.h"
#include "pr-document-marking.h"
#include "pr-document-specimen.h"
#include "pr-export.h"
#include "pr-feet-window.h"
#include "pr-look.h"
#include "pr-practice-window.h"
#include "pr-phone-dialog.h"
#include "pr-places.h"
#include "pr-plain-choose.h"
#include "pr-print.h"
#include "pr-restore-dialog.h"
#include "pr-printer-dialog.h"
#include "pr-settings.h"
#include "pr-sheet-dialog.h"
#include "pr-specimen-dialog.h"
#include "pr-trash-dialog.h"
#include "pr-vet-dialog.h"
#include "pr-visits-window.h"
#include "pr-words.h"

#define DEMO_FOOT "resource:///org/pritchel/Pritchel/demo/near-fore.jpg"

/* --- what is pressed --- */

static void
open_photo (PrWindowActions *a)
{
  pr_incoming_choose (a->incoming, PR_FOOT_ANY);
}

static void
all_feet (PrWindowActions *a)
{
  pr_feet_window_show (GTK_WINDOW (a->window), a->doc, 0);
}

static void
visit_feet (GSimpleAction *action, GVariant *visit, gpointer data)
{
  PrWindowActions *a = data;

  pr_feet_window_show (GTK_WINDOW (a->window), a->doc, g_variant_get_int64 (visit));
}

static void
merge_book (PrWindowActions *a)
{
  pr_incoming_choose_book (a->incoming);
}

static void
open_demo (PrWindowActions *a)
{
  g_autoptr (GFile) file = g_file_new_for_uri (DEMO_FOOT);

  pr_document_take_photo (a->doc, file, PR_FOOT_ANY, pr_places_demo_name ());
}

static void
turn (PrWindowActions *a)
{
  pr_board_set_face (a->board, pr_board_face (a->board) == PR_FACE_FOOT ? PR_FACE_GROUND : PR_FACE_FOOT);
}

static void
find (PrWindowActions *a)
{
  g_action_group_change_action_state (G_ACTION_GROUP (a->window), "book", g_variant_new_boolean (TRUE));
  pr_book_pane_find (a->book_pane);
}

/* The page about what is being done. */
static const char *
help_page (PrWindowActions *a)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (a->window));

  if (focus && gtk_widget_is_ancestor (focus, GTK_WIDGET (a->book_pane)))
    return "book";
  if (pr_document_marking (a->doc) || pr_document_bare (a->doc, NULL))
    return "scale";
  if (pr_document_forged_seen (a->doc) || pr_document_is_specimen (a->doc))
    return "forged";
  return pr_document_job (a->doc) ? "shoe" : "index";
}

static void
help (PrWindowActions *a)
{
  if (!pr_help_show_active ())
    pr_help_show (GTK_WINDOW (a->window), help_page (a));
}

static void
about (PrWindowActions *a)
{
  pr_about_show (GTK_WINDOW (a->window));
}

/* Their lines in the overlay. */
static const char *const nudges[]
    = { [PR_NUDGE_USUAL] = "usual", [PR_NUDGE_FINE] = "fine", [PR_NUDGE_FAR] = "far" };

/* What the arrows move by reads in the unit of now. */
static void
name_nudges (PrWindowActions *a)
{
  for (size_t i = 0; i < G_N_ELEMENTS (nudges); i++) {
    g_autofree char *by = pr_nudge_words ((PrNudge) i, pr_document_unit (a->doc));
    g_autofree char *title = g_strdup_printf (_ ("Move by %s"), by);

    g_object_set (a->nudge[i], "title", title, NULL);
  }
}

/* Made when it is asked for: it is as large as the rest of the window. */
static void
shortcuts (PrWindowActions *a)
{
  g_autoptr (GtkBuilder) builder = NULL;

  if (!gtk_application_window_get_help_overlay (a->window)) {
    builder = gtk_builder_new_from_resource ("/org/pritchel/Pritchel/ui/help-overlay.ui");
    GObject *overlay = gtk_builder_get_object (builder, "help_overlay");

    for (size_t i = 0; i < G_N_ELEMENTS (nudges); i++)
      a->nudge[i] = gtk_builder_get_object (builder, nudges[i]);
    gtk_application_window_set_help_overlay (a->window, GTK_SHORTCUTS_WINDOW (overlay));
  }
  name_nudges (a);
  gtk_window_present (GTK_WINDOW (gtk_application_window_get_help_overlay (a->window)));
}

/* Whichever of both is shown. */
static void
stop (PrDocument *doc)
{
  pr_document_stop_errand (doc);
  pr_document_stop (doc);
}

/* When it can be pressed: always; with a book; with a visit chosen; with a foot open; with a foot the book has; with one that is no specimen; with a forged shoe on its plan; with a photo to scale; undo and
 * redo by themselves. */
typedef enum {
  ALWAYS,
  WITH_BOOK,
  WITH_VISIT,
  WITH_JOB,
  WITH_KEPT,
  WITH_FOOT,
  WITH_FORGED,
  WITH_SCALE,
  UNDO,
  REDO
} When;

/* One of these is what it does. */
typedef struct {
  const char *name;
  When when;
  void (*act) (PrWindowActions *a);
  void (*doc) (PrDocument *doc);
  bool (*edit) (PrDocument *doc, GError **error); /* a failure is told */
  void (*over) (GtkWindow *window, PrDocument *doc);
  PrExportKind out;
} Pressed;

static const Pressed pressed[] = {
  { "open", ALWAYS, .act = open_photo },
  { "open-demo", ALWAYS, .act = open_demo },
  { "mark-scale", WITH_SCALE, .doc = pr_document_mark_scale },
  { "from-phone", ALWAYS, .over = pr_phone_dialog_show },
  { "open-specimen", ALWAYS, .over = pr_specimen_dialog_show },
  { "stop", ALWAYS, .doc = stop },
  { "print", WITH_JOB, .over = pr_print_job },
  { "print-forged", WITH_FORGED, .over = pr_print_forged },
  { "save-forged", WITH_FORGED, .out = PR_EXPORT_COMPARED },
  { "print-sheet", ALWAYS, .over = pr_print_sheet },
  { "print-preview", WITH_JOB, .over = pr_print_preview },
  { "measure-printer", ALWAYS, .over = pr_measure_printer },
  { "save-pdf", WITH_JOB, .out = PR_EXPORT_PDF },
  { "save-svg", WITH_JOB, .out = PR_EXPORT_SVG },
  { "save-png", WITH_JOB, .out = PR_EXPORT_PNG },
  { "save-dxf", WITH_JOB, .out = PR_EXPORT_DXF },
  { "save-all", WITH_JOB, .out = PR_EXPORT_ALL },
  { "send-foot", WITH_KEPT, .out = PR_EXPORT_FOOT },
  { "vet-sheet", WITH_FOOT, .over = pr_vet_dialog_show },
  { "preferences", ALWAYS, .over = pr_preferences_show },
  { "backup", WITH_BOOK, .over = pr_backup_choose },
  { "restore", WITH_BOOK, .over = pr_restore_dialog_show },
  { "all-feet", WITH_VISIT, .act = all_feet },
  { "plain-files", WITH_BOOK, .over = pr_plain_choose },
  { "merge-book", WITH_BOOK, .act = merge_book },
  { "show-visits", WITH_BOOK, .over = pr_visits_window_show },
  { "show-due", WITH_BOOK, .over = pr_due_dialog_show },
  { "practice", WITH_BOOK, .over = pr_practice_window_show },
  { "show-deleted", ALWAYS, .over = pr_trash_dialog_show },
  { "undo", UNDO, .doc = pr_document_undo },
  { "redo", REDO, .doc = pr_document_redo },
  { "fit-shoe", WITH_JOB, .edit = pr_document_fit },
  { "take-other", WITH_JOB, .edit = pr_document_take_other },
  { "last-visit", WITH_JOB, .edit = pr_document_take_last_visit },
  { "find-marks", WITH_JOB, .edit = pr_document_find_marks },
  { "turn", WITH_JOB, .act = turn },
  { "find", ALWAYS, .act = find },
  { "help", ALWAYS, .act = help },
  { "show-help-overlay", ALWAYS, .act = shortcuts },
  { "about", ALWAYS, .act = about },
};

static const Pressed *
pressed_called (const char *name)
{
  for (size_t i = 0; i < G_N_ELEMENTS (pressed); i++)
    if (g_str_equal (pressed[i].name, name))
      return &pressed[i];
  g_assert_not_reached ();
}

static void
press (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const Pressed *p = pressed_called (g_action_get_name (G_ACTION (action)));
  PrWindowActions *a = data;
  g_autoptr (GError) error = NULL;

  if (p->act)
    p->act (a);
  else if (p->doc)
    p->doc (a->doc);
  else if (p->over)
    p->over (GTK_WINDOW (a->window), a->doc);
  else if (!p->edit)
    pr_export (GTK_WINDOW (a->window), a->doc, p->out);
  else if (!p->edit (a->doc, &error))
    pr_document_trouble (a->doc, error->message);
}

/* --- what is chosen --- */

/* Where there is room for one pane only, the other goes. */
static void
set_pane (PrWindowActions *a, GtkRevealer *pane, const char *other, bool shown)
{
  gtk_revealer_set_reveal_child (pane, shown);
  if (shown && !pr_panes_room (a->panes))
    g_action_group_change_action_state (G_ACTION_GROUP (a->window), other, g_variant_new_boolean (FALSE));
}

static void
set_book (PrWindowActions *a, GVariant *state)
{
  set_pane (a, a->book_revealer, "side", g_variant_get_boolean (state));
}

static void
set_side (PrWindowActions *a, GVariant *state)
{
  set_pane (a, a->side_revealer, "book", g_variant_get_boolean (state));
}

static void
set_photo (PrWindowActions *a, GVariant *state)
{
  pr_board_set_show_photo (a->board, g_variant_get_boolean (state));
}

static void
set_measure (PrWindowActions *a, GVariant *state)
{
  pr_board_set_measuring (a->board, g_variant_get_boolean (state));
}

static void
set_marks (PrWindowActions *a, GVariant *state)
{
  pr_board_set_marks (a->board, g_variant_get_boolean (state));
}

static void
set_unit (PrWindowActions *a, GVariant *state)
{
  pr_document_set_unit (a->doc, pr_settings_unit ());
}

static void
set_sides (PrWindowActions *a, GVariant *state)
{
  pr_document_call_sides (a->doc, pr_settings_sides ());
}

static void
set_larger_text (PrWindowActions *a, GVariant *state)
{
  pr_look_letters (g_variant_get_boolean (state));
}

static void
set_look (PrWindowActions *a, GVariant *state)
{
  pr_look_choose (g_variant_get_string (state, NULL));
}

static const struct {
  const char *name, *setting; /* SETTING: where it stays as chosen; NULL: nowhere */
  void (*set) (PrWindowActions *a, GVariant *state);
} chosen[] = {
  { "book", "book-shown", set_book },
  { "side", "side-shown", set_side },
  { "unit", "unit", set_unit },
  { "look", "look", set_look },
  { "sides", "sides", set_sides },
  { "photo", NULL, set_photo },
  { "measure", NULL, set_measure },
  { "marks", NULL, set_marks },
  { "larger-text", "larger-text", set_larger_text },
};

/* A pane that is folded for want of room is not one that is not wanted. */
static bool
is_kept (PrWindowActions *a, const char *setting)
{
  return pr_panes_room (a->panes) || !g_str_has_suffix (setting, "-shown");
}

static void
choose (GSimpleAction *action, GVariant *state, gpointer data)
{
  const char *name = g_action_get_name (G_ACTION (action));

  for (size_t i = 0; i < G_N_ELEMENTS (chosen); i++) {
    if (!g_str_equal (chosen[i].name, name))
      continue;
    if (chosen[i].setting && is_kept (data, chosen[i].setting))
      pr_settings_keep (chosen[i].setting, state);
    chosen[i].set (data, state);
  }
  g_simple_action_set_state (action, state);
}

static void
open_recent (GSimpleAction *action, GVariant *uri, gpointer data)
{
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (uri, NULL));

  pr_incoming_open (((PrWindowActions *) data)->incoming, &file, 1);
}

static void
open_horse (GSimpleAction *action, GVariant *horse, gpointer data)
{
  pr_book_pane_open_horse (((PrWindowActions *) data)->book_pane, g_variant_get_int64 (horse));
}

static void
show_visit (GSimpleAction *action, GVariant *visit, gpointer data)
{
  PrWindowActions *a = data;

  pr_visits_window_show_visit (GTK_WINDOW (a->window), a->doc, g_variant_get_int64 (visit));
}

/* A place of the foot, foot frame, mm. */
static void
show_place (GSimpleAction *action, GVariant *place, gpointer data)
{
  PrWindowActions *a = data;
  PrPt at;

  g_variant_get (place, "(dd)", &at.x, &at.y);
  if (!a->board)
    return;
  pr_board_ring (a->board, &at, NULL);
  gtk_widget_grab_focus (GTK_WIDGET (a->board));
}

static void
mix_forged (GSimpleAction *action, GVariant *mix, gpointer data)
{
  PrWindowActions *a = data;

  if (a->board)
    pr_board_mix (a->board, g_variant_get_double (mix));
}

static const GActionEntry choices[] = {
  { .name = "show-place", .parameter_type = "(dd)", .activate = show_place },
  { .name = "mix-forged", .parameter_type = "d", .activate = mix_forged },
  { .name = "visit-feet", .parameter_type = "x", .activate = visit_feet },
  { .name = "show-visit", .parameter_type = "x", .activate = show_visit },
  { .name = "open-horse", .parameter_type = "x", .activate = open_horse },
  { .name = "open-recent", .parameter_type = "s", .activate = open_recent },
  { .name = "book", .state = "true", .change_state = choose },
  { .name = "side", .state = "true", .change_state = choose },
  { .name = "larger-text", .state = "false", .change_state = choose },
  { .name = "photo", .state = "true", .change_state = choose },
  { .name = "marks", .state = "false", .change_state = choose },
  { .name = "measure", .state = "false", .change_state = choose },
  { .name = "unit", .parameter_type = "s", .state = "'locale'", .change_state = choose },
  { .name = "sides", .parameter_type = "s", .state = "'language'", .change_state = choose },
  { .name = "look", .parameter_type = "s", .state = "'desktop'", .change_state = choose },
};

/* --- doors --- */

static bool
is_time (PrDocument *doc, When when)
{
  bool job = pr_document_job (doc) != NULL, marking = pr_document_marking (doc) != NULL;

  switch (when) {
  case WITH_BOOK:
    return pr_document_book (doc) != NULL;
  case WITH_VISIT:
    return pr_document_book (doc) != NULL && pr_document_visit_id (doc) != 0;
  case WITH_JOB:
    return job && !marking; /* nobody could tell what it is done with */
  case WITH_KEPT:
    return job && !marking && pr_document_foot_id (doc) != 0;
  case WITH_FOOT:
    return job && !marking && pr_document_foot_id (doc) != 0 && !pr_document_is_specimen (doc);
  case WITH_FORGED:
    return job && !marking && pr_document_forged_seen (doc);
  case WITH_SCALE:
    return (job && !pr_document_is_specimen (doc)) || pr_document_bare (doc, NULL);
  case UNDO:
    return !marking && pr_document_can_undo (doc);
  case REDO:
    return !marking && pr_document_can_redo (doc);
  default:
    return true;
  }
}

static void
enable (PrWindowActions *a, const char *name, bool on)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (a->window), name);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), on);
}

void
pr_window_actions_update (PrWindowActions *a)
{
  static const char *const on_board[] = { "measure", "photo", "marks", "true-size", "draw-line" };
  static const char *const on_picture[] = { "zoom-in", "zoom-out", "fit" };
  bool picture = is_time (a->doc, WITH_SCALE) || pr_document_marking (a->doc);

  for (size_t i = 0; i < G_N_ELEMENTS (pressed); i++)
    enable (a, pressed[i].name, is_time (a->doc, pressed[i].when));
  for (size_t i = 0; i < G_N_ELEMENTS (on_board); i++)
    enable (a, on_board[i], is_time (a->doc, WITH_JOB));
  for (size_t i = 0; i < G_N_ELEMENTS (on_picture); i++)
    enable (a, on_picture[i], picture);
  enable (a, "book", pr_document_book (a->doc) != NULL);
}

void
pr_window_actions_room (PrWindowActions *a, bool both)
{
  GActionGroup *group = G_ACTION_GROUP (a->window);

  g_action_group_change_action_state (group, "book",
                                      g_variant_new_boolean (both && pr_settings_bool ("book-shown")));
  g_action_group_change_action_state (group, "side",
                                      g_variant_new_boolean (both && pr_settings_bool ("side-shown")));
}

void
pr_window_actions_add (PrWindowActions *a)
{
  GActionGroup *group = G_ACTION_GROUP (a->window);
  g_autofree char *unit = pr_settings_string ("unit"), *look = pr_settings_string ("look"),
                  *sides = pr_settings_string ("sides");

  for (size_t i = 0; i < G_N_ELEMENTS (pressed); i++) {
    const GActionEntry entry = { .name = pressed[i].name, .activate = press };

    g_action_map_add_action_entries (G_ACTION_MAP (a->window), &entry, 1, a);
  }
  g_action_map_add_action_entries (G_ACTION_MAP (a->window), choices, G_N_ELEMENTS (choices), a);
  g_action_group_change_action_state (group, "unit", g_variant_new_string (unit));
  g_action_group_change_action_state (group, "sides", g_variant_new_string (sides));
  g_action_group_change_action_state (group, "look", g_variant_new_string (look));
  g_action_group_change_action_state (group, "larger-text",
                                      g_variant_new_boolean (pr_settings_bool ("larger-text")));
  pr_window_actions_room (a, pr_panes_room (a->panes));
}
