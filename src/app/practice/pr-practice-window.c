/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-window.h"

#include <glib/gi18n-lib.h>
#include "pr-class-dialog.h"
#include "pr-clock-view.h"
#include "pr-look.h"
#include "pr-names.h"
#include "pr-practice-words.h"
#include "pr-run-sheet.h"
#include "pr-season-view.h"
#include "pr-toast.h"
#include "pr-ui.h"

struct _PrPracticeWindow {
  GtkWindow parent_instance;
  PrPracticeDesk *desk;
  GtkStack *stack;
  PrClockView *clock;
  PrSeasonView *season;
  GtkListBox *classes;
  PrToast *toast;
  bool filling; /* the list is built, not chosen from */
  bool going;   /* as it was shown last */
};

G_DEFINE_FINAL_TYPE (PrPracticeWindow, pr_practice_window, GTK_TYPE_WINDOW)

/* --- the list --- */

static GtkWidget *
class_line (const PrPracticeClass *class)
{
  const char *name = pr_practice_text (class, class->name);
  GtkWidget *label = gtk_label_new (name);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  pr_label_cut (GTK_LABEL (label), 3);
  return label;
}

static void
fill_list (PrPracticeWindow *window)
{
  const GPtrArray *classes = pr_practice_desk_classes (window->desk);
  GtkListBoxRow *row;

  window->filling = true;
  while ((row = gtk_list_box_get_row_at_index (window->classes, 0)))
    gtk_list_box_remove (window->classes, GTK_WIDGET (row));
  for (guint i = 0; i < classes->len; i++)
    gtk_list_box_append (window->classes, class_line (classes->pdata[i]));
  row = gtk_list_box_get_row_at_index (window->classes, (int) pr_practice_desk_chosen (window->desk));
  gtk_list_box_select_row (window->classes, row);
  window->filling = false;
}

static void
chosen (PrPracticeWindow *window, GtkListBoxRow *row)
{
  if (row && !window->filling)
    pr_practice_desk_choose (window->desk, (guint) gtk_list_box_row_get_index (row));
}

static void
add_class (PrPracticeWindow *window)
{
  pr_class_dialog_show (GTK_WINDOW (window), window->desk, NULL);
}

/* --- what the desk tells --- */

/* Does the list show what there is? Building it anew would take the keyboard from it. */
static bool
is_filled (PrPracticeWindow *window)
{
  const GPtrArray *classes = pr_practice_desk_classes (window->desk);
  GtkListBoxRow *row;

  for (guint i = 0; i < classes->len; i++) {
    row = gtk_list_box_get_row_at_index (window->classes, (int) i);
    const char *shown = row ? gtk_label_get_text (GTK_LABEL (gtk_list_box_row_get_child (row))) : NULL;

    if (g_strcmp0 (shown, pr_practice_text (classes->pdata[i], ((PrPracticeClass *) classes->pdata[i])->name))
        != 0)
      return false;
  }
  row = gtk_list_box_get_selected_row (window->classes);
  return row && (guint) gtk_list_box_row_get_index (row) == pr_practice_desk_chosen (window->desk)
         && !gtk_list_box_get_row_at_index (window->classes, (int) classes->len);
}

/* After a stop the screen is given back, and what was made is asked for. */
static void
show_stopped (PrPracticeWindow *window)
{
  PrBookId stopped = pr_practice_desk_stopped (window->desk);

  gtk_window_unfullscreen (GTK_WINDOW (window));
  if (stopped != 0)
    pr_run_sheet_show (GTK_WINDOW (window), window->desk, stopped);
}

static void
changed (PrPracticeWindow *window)
{
  bool was = window->going;

  if (pr_practice_desk_classes (window->desk)->len == 0) { /* the book was left */
    gtk_window_close (GTK_WINDOW (window));
    return;
  }
  window->going = pr_practice_desk_run (window->desk) != NULL;
  if (!is_filled (window))
    fill_list (window);
  gtk_stack_set_visible_child_name (window->stack, window->going ? "clock" : "season");
  if (window->going == was)
    return;
  if (window->going)
    pr_clock_view_focus (window->clock);
  else
    show_stopped (window);
}

static void
trouble (PrPracticeWindow *window, const char *sentence)
{
  pr_toast_say (window->toast, sentence, false);
}

/* --- keys --- */

/* The action "practice.full-screen". */
static void
full_screen (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (gtk_window_is_fullscreen (GTK_WINDOW (widget)))
    gtk_window_unfullscreen (GTK_WINDOW (widget));
  else
    gtk_window_fullscreen (GTK_WINDOW (widget));
}

/* Escape gives the screen back; a clock is not closed by it. */
static void
back_out (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (gtk_window_is_fullscreen (GTK_WINDOW (widget)))
    gtk_window_unfullscreen (GTK_WINDOW (widget));
  else if (!PR_PRACTICE_WINDOW (widget)->going)
    gtk_window_close (GTK_WINDOW (widget));
}

static void
undo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  pr_document_undo (pr_practice_desk_document (PR_PRACTICE_WINDOW (widget)->desk));
}

/* --- the window --- */

static void
follow (PrPracticeWindow *window, PrDocument *doc)
{
  window->desk = pr_practice_desk_new (doc);
  pr_clock_view_set_desk (window->clock, window->desk);
  pr_season_view_set_desk (window->season, window->desk);
  pr_toast_follow (window->toast, doc);
  g_signal_connect_object (doc, "trouble", G_CALLBACK (trouble), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->desk, "changed", G_CALLBACK (changed), window, G_CONNECT_SWAPPED);
  changed (window);
}

static PrPracticeWindow *
window_of (GtkWindow *parent)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();

  for (GList *at = all; at; at = at->next)
    if (PR_IS_PRACTICE_WINDOW (at->data) && gtk_window_get_transient_for (at->data) == parent)
      return at->data;
  return NULL;
}

void
pr_practice_window_show (GtkWindow *parent, PrDocument *doc)
{
  PrPracticeWindow *window = window_of (parent);

  if (!window) {
    window = g_object_new (PR_TYPE_PRACTICE_WINDOW, "transient-for", parent, NULL);
    follow (window, doc);
  }
  gtk_window_present (GTK_WINDOW (window));
  if (window->going)
    pr_clock_view_focus (window->clock);
}

void
pr_practice_window_ask (GtkWindow *parent, PrDocument *doc)
{
  if (pr_practice_desk_left (doc))
    pr_practice_window_show (parent, doc);
}

static void
pr_practice_window_dispose (GObject *object)
{
  g_clear_object (&PR_PRACTICE_WINDOW (object)->desk);
  G_OBJECT_CLASS (pr_practice_window_parent_class)->dispose (object);
}

static void
pr_practice_window_init (PrPracticeWindow *window)
{
  gtk_widget_init_template (GTK_WIDGET (window));
}

static void
pr_practice_window_class_init (PrPracticeWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  g_type_ensure (PR_TYPE_CLOCK_VIEW);
  g_type_ensure (PR_TYPE_SEASON_VIEW);
  g_type_ensure (PR_TYPE_TOAST);
  G_OBJECT_CLASS (class)->dispose = pr_practice_window_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "practice-window.ui");
  gtk_widget_class_install_action (widget_class, "practice.full-screen", NULL, full_screen);
  gtk_widget_class_install_action (widget_class, "practice.back-out", NULL, back_out);
  gtk_widget_class_install_action (widget_class, "win.undo", NULL, undo);
  gtk_widget_class_bind_template_callback (widget_class, chosen);
  gtk_widget_class_bind_template_callback (widget_class, add_class);
  gtk_widget_class_bind_template_child (widget_class, PrPracticeWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, PrPracticeWindow, clock);
  gtk_widget_class_bind_template_child (widget_class, PrPracticeWindow, season);
  gtk_widget_class_bind_template_child (widget_class, PrPracticeWindow, classes);
  gtk_widget_class_bind_template_child (widget_class, PrPracticeWindow, toast);
}
