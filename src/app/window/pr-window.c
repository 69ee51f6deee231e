/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-window-private.h"

#include <glib/gi18n-lib.h>
#include "pr-foot-dialog.h"
#include "pr-document-marking.h"
#include "pr-layers.h"
#include "pr-look.h"
#include "pr-settings.h"
#include "pr-words.h"

G_DEFINE_FINAL_TYPE (PrWindow, pr_window, GTK_TYPE_APPLICATION_WINDOW)

void
pr_window_tell (PrWindow *window, const char *sentence)
{
  window->message_stays = false;
  gtk_label_set_text (window->message, sentence);
  gtk_widget_set_visible (window->message_measure, FALSE);
  gtk_revealer_set_reveal_child (window->message_bar, TRUE);
}

void
pr_window_tell_of_screen (PrWindow *window)
{
  pr_window_tell (
      window, _ ("This screen has not been measured: 1 : 1 goes by what the monitor says of itself, which "
                 "may be wrong. Measured once against a bank card, it is true."));
  gtk_widget_set_visible (window->message_measure, TRUE);
}

/* --- what the document tells --- */

static void
show_place (PrWindow *window)
{
  const PrJob *job = pr_document_job (window->doc);
  const PrTracing *bare = pr_document_bare (window->doc, NULL);
  PrFoot foot = job ? job->foot : bare ? bare->scale.foot : PR_FOOT_ANY;
  g_autofree char *day = NULL, *horse = pr_document_horse_name (window->doc, &day);
  g_autofree char *title = NULL, *date = day ? pr_words_date (day) : NULL;

  if ((job || bare) && horse)
    title = g_strdup_printf ("%s · %s", horse, pr_foot_name (foot));
  else
    title = g_strdup (job || bare ? pr_foot_name (foot) : "Pritchel");
  gtk_label_set_text (window->title, title);
  gtk_label_set_text (window->subtitle, date ? date : "");
  gtk_widget_set_visible (GTK_WIDGET (window->subtitle), date != NULL);
  gtk_window_set_title (GTK_WINDOW (window), title);
}

static void
show_busy (PrWindow *window)
{
  double done;
  const char *what;
  bool busy = pr_document_busy (window->doc, &done, &what);

  gtk_widget_set_visible (window->busy_box, busy);
  if (!busy)
    return;
  gtk_progress_bar_set_fraction (window->busy, CLAMP (done, 0, 1));
  gtk_progress_bar_set_text (window->busy, what);
}

/* What stands in the middle: the shoe, or work on its photo. */
static const char *
stage (PrWindow *window)
{
  bool job = pr_document_job (window->doc) != NULL;

  if (pr_document_marking (window->doc))
    return "mark";
  if (pr_document_bare (window->doc, NULL) || (job && window->drawing))
    return "draw";
  return job ? "work" : "start";
}

static void
show_stage (PrWindow *window)
{
  const char *name = stage (window);
  bool shoe = g_str_equal (name, "work"), job = pr_document_job (window->doc) != NULL;

  gtk_stack_set_visible_child_name (window->stack, name);
  gtk_widget_set_visible (window->side_scroll, shoe || (job && g_str_equal (name, "draw")));
  gtk_widget_set_visible (GTK_WIDGET (window->strip), shoe);
  pr_drawing_view_show (window->draw_view, g_str_equal (name, "draw"));
}

/* What has nothing to work on yet is not shown. */
static void
show_parts (PrWindow *window)
{
  bool job = pr_document_job (window->doc) != NULL;
  bool bare = pr_document_bare (window->doc, NULL) != NULL;
  PrBook *book = pr_document_book (window->doc);
  g_autoptr (GPtrArray) horses = book ? pr_book_horses (book, NULL, NULL) : NULL;
  bool listed = horses && horses->len > 0;
  GtkWidget *const with_job[] = { window->print_button, window->out_button, window->history_box };

  for (size_t i = 0; i < G_N_ELEMENTS (with_job); i++)
    gtk_widget_set_visible (with_job[i], job);
  gtk_widget_set_visible (window->open_button, job || bare);
  gtk_widget_set_visible (window->book_button, listed);
  gtk_widget_set_visible (GTK_WIDGET (window->book_revealer), listed);
}

void
pr_window_set_drawing (PrWindow *window, bool drawing)
{
  window->drawing = drawing;
  show_stage (window);
  pr_window_update_actions (window);
  if (!drawing && pr_document_job (window->doc))
    gtk_widget_grab_focus (GTK_WIDGET (window->board));
}

void
pr_window_zoom (PrWindow *window, double factor)
{
  const char *name = stage (window);

  if (g_str_equal (name, "mark"))
    pr_marking_view_zoom (window->mark_view, factor);
  else if (g_str_equal (name, "draw"))
    pr_drawing_view_zoom (window->draw_view, factor);
  else if (factor > 0)
    pr_board_zoom_by (window->board, factor);
  else
    pr_board_fit (window->board);
}

/* The panel: an empty book has nothing to show there, and the first frame no need of it. */
static void
build_panel (PrWindow *window)
{
  GtkScrolledWindow *view = GTK_SCROLLED_WINDOW (window->side_scroll);

  if (pr_document_job (window->doc) && !gtk_scrolled_window_get_child (view))
    gtk_scrolled_window_set_child (view, pr_panel_new (window->doc));
}

static void
document_changed (PrWindow *window, guint what)
{
  if (what & PR_CHANGED_PLACE)
    build_panel (window);
  if (what & PR_CHANGED_BUSY)
    show_busy (window);
  if (what & PR_CHANGED_PLACE)
    window->drawing = false;
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_BOOK))
    show_parts (window);
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_STAGE))
    show_stage (window);
  if (what & PR_CHANGED_PLACE && g_str_equal (stage (window), "work"))
    gtk_widget_grab_focus (GTK_WIDGET (window->board)); /* not its first handle */
  if (what & PR_CHANGED_PLACE && !window->message_stays
      && pr_document_book (window->doc)) /* else: that nothing is kept */
    gtk_revealer_set_reveal_child (window->message_bar, FALSE);
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_HOOF | PR_CHANGED_BOOK))
    show_place (window);
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_HISTORY | PR_CHANGED_BOOK | PR_CHANGED_STAGE))
    pr_window_update_actions (window);
}

static void
ask_foot (PrWindow *window)
{
  pr_ask_foot (GTK_WINDOW (window), window->doc);
}

static void
drawn (PrWindow *window)
{
  pr_window_set_drawing (window, false);
}

/* --- what the parts tell each other --- */

static void
board_hover (PrWindow *window, double s)
{
  pr_bar_strip_point_out (window->strip, s);
}

static void
strip_hover (PrWindow *window, double s)
{
  pr_board_point_out (window->board, s);
}

static void
board_view (PrWindow *window)
{
  bool measured = pr_board_is_measured (window->board);
  g_autofree char *zoom
      = g_strdup_printf (measured ? "%.0f %%" : "≈ %.0f %%", 100 * pr_board_share (window->board));

  gtk_button_set_label (GTK_BUTTON (window->true_size_button), measured ? "1 : 1" : "≈ 1 : 1");
  gtk_widget_set_tooltip_text (window->true_size_button,
                               measured ? _ ("True size on this screen (Ctrl+1)")
                                        : _ ("True size as the monitor tells it; the screen is not "
                                             "measured yet (Ctrl+1)"));
  if (measured && gtk_widget_get_visible (window->message_measure))
    gtk_revealer_set_reveal_child (window->message_bar, FALSE); /* what it asked for is done */
  gtk_label_set_text (window->zoom, zoom);
  gtk_label_set_text (window->face, pr_face_name (pr_board_face (window->board)));
}

static void
open_foot (PrWindow *window, gint64 foot)
{
  g_autoptr (GError) error = NULL;

  if (foot != pr_document_foot_id (window->doc) && !pr_document_open_foot (window->doc, foot, &error))
    pr_window_tell (window, error->message);
}

static void
want_photo (PrWindow *window, int foot)
{
  pr_window_choose_photo (window, (PrFoot) foot);
}

/* --- the keyboard, after something has popped up --- */

static gboolean
take_keyboard_back (gpointer data)
{
  PrWindow *window = data;
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  if (window->doc && (!focus || !gtk_widget_get_mapped (focus)))
    gtk_widget_grab_focus (g_str_equal (stage (window), "work")
                               ? GTK_WIDGET (window->board)
                               : gtk_stack_get_visible_child (window->stack));
  return G_SOURCE_REMOVE;
}

/* The toolkit (4.8) leaves the keyboard with a menu that has gone: no key did anything any more. It is
 * taken back once the closing is over. */
static gboolean
popover_closed (GSignalInvocationHint *hint, guint n_values, const GValue *values, gpointer data)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (g_value_get_object (&values[0])));

  if (root && PR_IS_WINDOW (root))
    g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, take_keyboard_back, g_object_ref (root), g_object_unref);
  return TRUE;
}

/* --- the widget --- */

static void
follow_look (PrWindow *window)
{
  pr_board_set_dark (window->board, pr_look_follow (GTK_WIDGET (window)));
}

static void
connect_parts (PrWindow *window)
{
  g_signal_connect_swapped (window->board, "hover", G_CALLBACK (board_hover), window);
  g_signal_connect_swapped (window->board, "view", G_CALLBACK (board_view), window);
  g_signal_connect_swapped (window->draw_view, "done", G_CALLBACK (drawn), window);
  g_signal_connect_swapped (window->strip, "hover", G_CALLBACK (strip_hover), window);
  g_signal_connect_swapped (window->book_pane, "open-foot", G_CALLBACK (open_foot), window);
  g_signal_connect_swapped (window->book_pane, "want-photo", G_CALLBACK (want_photo), window);
  g_signal_connect_swapped (window->book_pane, "trouble", G_CALLBACK (pr_window_tell), window);
}

static void
connect_document (PrWindow *window)
{
  pr_board_set_document (window->board, window->doc);
  pr_bar_strip_set_document (window->strip, window->doc);
  pr_follower_set_document (PR_FOLLOWER (window->findings), window->doc);
  pr_book_pane_set_document (window->book_pane, window->doc);
  pr_marking_view_set_document (window->mark_view, window->doc);
  pr_drawing_view_set_document (window->draw_view, window->doc);
  g_signal_connect_object (window->doc, "ask-place", G_CALLBACK (pr_window_ask_place), window,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (window->doc, "changed", G_CALLBACK (document_changed), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->doc, "trouble", G_CALLBACK (pr_window_tell), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->doc, "ask-foot", G_CALLBACK (ask_foot), window, G_CONNECT_SWAPPED);
}

static void
restore_screen (PrWindow *window)
{
  pr_board_set_screen (window->board, pr_settings_double ("screen-px-per-mm"));
}

static void
restore_size (PrWindow *window)
{
  gtk_window_set_default_size (GTK_WINDOW (window), pr_settings_int ("window-width"),
                               pr_settings_int ("window-height"));
  if (pr_settings_bool ("window-maximized"))
    gtk_window_maximize (GTK_WINDOW (window));
}

/* While it still has a size: what GTK calls the default one is the last it had unmaximized. */
static void
pr_window_unmap (GtkWidget *widget)
{
  int width, height;

  gtk_window_get_default_size (GTK_WINDOW (widget), &width, &height);
  pr_settings_keep ("window-width", g_variant_new_int32 (width));
  pr_settings_keep ("window-height", g_variant_new_int32 (height));
  pr_settings_keep ("window-maximized",
                    g_variant_new_boolean (gtk_window_is_maximized (GTK_WINDOW (widget))));
  GTK_WIDGET_CLASS (pr_window_parent_class)->unmap (widget);
}

GtkWidget *
pr_window_new (GtkApplication *app, PrDocument *doc)
{
  PrWindow *window = g_object_new (PR_TYPE_WINDOW, "application", app, NULL);

  window->doc = g_object_ref (doc);
  connect_document (window);
  pr_window_add_actions (window);
  pr_layers_attach (GTK_MENU_BUTTON (window->layers_button), window->board);
  restore_screen (window);
  restore_size (window);
  document_changed (window, PR_CHANGED_ALL);
  board_view (window);
  return GTK_WIDGET (window);
}

static void
pr_window_dispose (GObject *object)
{
  pr_window_drop_incoming (PR_WINDOW (object));
  g_clear_object (&PR_WINDOW (object)->doc);
  G_OBJECT_CLASS (pr_window_parent_class)->dispose (object);
}

/* Without an arrow: what lies beside one is black where nothing composes the screen. */
static void
plain_menu (GtkWidget *button)
{
  gtk_popover_set_has_arrow (gtk_menu_button_get_popover (GTK_MENU_BUTTON (button)), FALSE);
}

static void
pr_window_init (PrWindow *window)
{
  GtkSettings *settings = gtk_settings_get_default ();

  gtk_widget_init_template (GTK_WIDGET (window));
  gtk_widget_add_css_class (GTK_WIDGET (window), "pritchel");
  plain_menu (window->menu_button);
  plain_menu (window->out_button);
  connect_parts (window);
  pr_window_accept_photos (window);
  g_signal_connect_object (settings, "notify::gtk-application-prefer-dark-theme", G_CALLBACK (follow_look),
                           window, G_CONNECT_SWAPPED);
  g_signal_connect_object (settings, "notify::gtk-theme-name", G_CALLBACK (follow_look), window,
                           G_CONNECT_SWAPPED);
  follow_look (window);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrWindow, name)

static void
pr_window_class_init (PrWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_window_dispose;
  g_type_class_unref (g_type_class_ref (GTK_TYPE_POPOVER)); /* so that its signals are there */
  g_signal_add_emission_hook (g_signal_lookup ("closed", GTK_TYPE_POPOVER), 0, popover_closed, NULL, NULL);
  widget_class->unmap = pr_window_unmap;
  g_type_ensure (PR_TYPE_BOARD);
  g_type_ensure (PR_TYPE_BOOK_PANE);
  g_type_ensure (PR_TYPE_FINDINGS_BAR);
  g_type_ensure (PR_TYPE_BAR_STRIP);
  g_type_ensure (PR_TYPE_START);
  g_type_ensure (PR_TYPE_MARKING_VIEW);
  g_type_ensure (PR_TYPE_DRAWING_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/window.ui");
  BIND (board);
  BIND (book_pane);
  BIND (findings);
  BIND (strip);
  BIND (start);
  BIND (mark_view);
  BIND (draw_view);
  BIND (title);
  BIND (subtitle);
  BIND (message);
  BIND (face);
  BIND (zoom);
  BIND (message_bar);
  BIND (book_revealer);
  BIND (stack);
  BIND (busy_box);
  BIND (out_button);
  BIND (book_button);
  BIND (open_button);
  BIND (print_button);
  BIND (history_box);
  BIND (side_scroll);
  BIND (layers_button);
  BIND (menu_button);
  BIND (true_size_button);
  BIND (message_measure);
  BIND (busy);
}
