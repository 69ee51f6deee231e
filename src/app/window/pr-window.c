/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-window.h"

#include <glib/gi18n-lib.h>
#include "pr-bar-strip.h"
#include "pr-book-banner.h"
#include "pr-foot-dialog.h"
#include "pr-document-file.h"
#include "pr-document-marking.h"
#include "pr-drawing-view.h"
#include "pr-look.h"
#include "pr-marking-view.h"
#include "pr-names.h"
#include "pr-panel.h"
#include "pr-screen.h"
#include "pr-panes.h"
#include "pr-places.h"
#include "pr-recent.h"
#include "pr-start.h"
#include "pr-text.h"
#include "pr-toast.h"
#include "pr-window-actions.h"
#include "pr-window-size.h"
#include "pr-work-view.h"

#define ZOOM_STEP 1.25
#define MESSAGE_LINES 4 /* the board is what is worked on */

struct _PrWindow {
  GtkApplicationWindow parent_instance;
  PrDocument *doc;
  PrIncoming *incoming;
  PrWindowActions actions;
  PrBookPane *book_pane;
  PrFollower *book_banner;
  /* made when first wanted: NULL before */
  PrWorkView *work;
  PrBarStrip *strip;
  PrMarkingView *mark_view;
  PrDrawingView *draw_view;
  PrStart *start;
  bool drawing;       /* the line is being drawn by hand */
  bool waiting;       /* the foot that was open last is about to be opened */
  bool message_stays; /* until it is closed, whatever is opened */
  GtkLabel *title, *subtitle, *message;
  PrPanes *panes;
  GtkRevealer *message_bar, *book_revealer, *side_revealer;
  GtkStack *stack;
  PrToast *toast;
  GtkScrolledWindow *side_scroll, *start_scroll;
  GtkBox *over_strip;
  GtkMenuButton *out_button, *menu_button, *recent;
  GMenuModel *main_menu, *out_menu;
  GtkWidget *busy_box, *book_button, *side_button, *open_button, *print_button, *history_box,
      *message_measure;
  GtkProgressBar *busy;
};

G_DEFINE_FINAL_TYPE (PrWindow, pr_window, GTK_TYPE_APPLICATION_WINDOW)

void
pr_window_tell (PrWindow *window, const char *sentence)
{
  window->message_stays = false;
  g_autofree char *shown = pr_text_sentence (sentence);

  gtk_label_set_text (window->message, shown);
  gtk_widget_set_visible (window->message_measure, FALSE);
  gtk_revealer_set_reveal_child (window->message_bar, TRUE);
}

static void
tell_of_screen (PrWindow *window)
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
  PrFoot foot = job ? job->sources.foot : bare ? bare->scale.foot : PR_FOOT_ANY;
  g_autofree char *title = NULL, *date = NULL, *name = NULL;

  pr_places_words (pr_document_book (window->doc), pr_document_visit_id (window->doc), &date, &name);
  if (pr_document_marking (window->doc))
    title = g_strdup (_ ("A photo whose scale is to be marked"));
  else if (name)
    title = job || bare ? g_strdup_printf ("%s · %s", name, pr_foot_name (foot)) : g_strdup (name);
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

/* --- what is made when it is wanted --- */

static PrBoard *
board_of (PrWindow *window)
{
  return pr_work_view_board (window->work);
}

static void
board_hover (PrWindow *window, double s)
{
  pr_bar_strip_point_out (window->strip, s);
}

static void
strip_hover (PrWindow *window, double s)
{
  pr_board_point_out (board_of (window), s);
}

/* What the message about the screen asks for may be done now. */
static void
board_view (PrWindow *window)
{
  if (pr_board_is_measured (board_of (window)) && gtk_widget_get_visible (window->message_measure))
    gtk_revealer_set_reveal_child (window->message_bar, FALSE);
}

static void
follow_look (PrWindow *window)
{
  bool dark = pr_look_follow (GTK_WIDGET (window));

  if (window->work)
    pr_board_set_dark (board_of (window), dark);
}

static void
need_work (PrWindow *window)
{
  if (window->work)
    return;
  window->work = pr_work_view_new (window->doc);
  window->strip = g_object_new (PR_TYPE_BAR_STRIP, NULL);
  pr_bar_strip_set_document (window->strip, window->doc);
  gtk_stack_add_named (window->stack, GTK_WIDGET (window->work), "work");
  gtk_box_append (window->over_strip, GTK_WIDGET (window->strip));
  window->actions.board = board_of (window);
  g_signal_connect_swapped (board_of (window), "hover", G_CALLBACK (board_hover), window);
  g_signal_connect_swapped (board_of (window), "view", G_CALLBACK (board_view), window);
  g_signal_connect_swapped (window->strip, "hover", G_CALLBACK (strip_hover), window);
  follow_look (window);
}

static void
need_side (PrWindow *window)
{
  if (!gtk_scrolled_window_get_child (window->side_scroll))
    gtk_scrolled_window_set_child (window->side_scroll, pr_panel_new (window->doc));
}

static void
need_mark_view (PrWindow *window)
{
  if (window->mark_view)
    return;
  window->mark_view = g_object_new (PR_TYPE_MARKING_VIEW, NULL);
  gtk_stack_add_named (window->stack, GTK_WIDGET (window->mark_view), "mark");
  pr_marking_view_set_document (window->mark_view, window->doc);
}

static void drawn (PrWindow *window);

static void
need_draw_view (PrWindow *window)
{
  if (window->draw_view)
    return;
  window->draw_view = g_object_new (PR_TYPE_DRAWING_VIEW, NULL);
  gtk_stack_add_named (window->stack, GTK_WIDGET (window->draw_view), "draw");
  pr_drawing_view_set_document (window->draw_view, window->doc);
  g_signal_connect_swapped (window->draw_view, "done", G_CALLBACK (drawn), window);
}

static void
need_stage (PrWindow *window, const char *name)
{
  if (g_str_equal (name, "work"))
    need_work (window);
  else if (g_str_equal (name, "mark"))
    need_mark_view (window);
  else if (g_str_equal (name, "draw"))
    need_draw_view (window);
  else if (g_str_equal (name, "start") && !window->start) {
    window->start = g_object_new (PR_TYPE_START, NULL);
    gtk_scrolled_window_set_child (window->start_scroll, GTK_WIDGET (window->start));
    pr_start_set_kept (window->start, pr_document_is_kept (window->doc));
  }
}

/* --- what stands where --- */

/* What stands in the middle: the shoe, or work on its photo. */
static const char *
stage (PrWindow *window)
{
  bool job = pr_document_job (window->doc) != NULL;

  if (pr_document_marking (window->doc))
    return "mark";
  if (pr_drawing_view_is_needed (window->doc) || (job && window->drawing))
    return "draw";
  return job ? "work" : window->waiting ? "blank" : "start";
}

static void
show_stage (PrWindow *window)
{
  const char *name = stage (window);
  bool shoe = g_str_equal (name, "work"), draw = g_str_equal (name, "draw");
  bool side = shoe || (draw && pr_document_job (window->doc));

  need_stage (window, name);
  if (side)
    need_side (window);
  gtk_stack_set_visible_child_name (window->stack, name);
  gtk_widget_set_visible (GTK_WIDGET (window->side_revealer), side);
  gtk_widget_set_visible (window->side_button, side);
  if (window->strip)
    gtk_widget_set_visible (GTK_WIDGET (window->strip), shoe);
  if (window->draw_view)
    pr_drawing_view_show (window->draw_view, draw);
}

/* What has nothing to work on yet is not shown. */
static void
show_parts (PrWindow *window)
{
  bool job = pr_document_job (window->doc) != NULL;
  bool bare = pr_document_bare (window->doc, NULL) != NULL;
  bool listed = pr_book_pane_has_horses (window->book_pane);
  GtkWidget *const with_job[]
      = { window->print_button, GTK_WIDGET (window->out_button), window->history_box };

  for (size_t i = 0; i < G_N_ELEMENTS (with_job); i++)
    gtk_widget_set_visible (with_job[i], job);
  gtk_widget_set_visible (window->open_button, job || bare);
  if (job || bare)
    pr_recent_update (window->recent);
  gtk_widget_set_visible (window->book_button, listed);
  gtk_widget_set_visible (GTK_WIDGET (window->book_revealer), listed);
}

static void
update_actions (PrWindow *window)
{
  pr_window_actions_update (&window->actions);
  gtk_widget_set_sensitive (GTK_WIDGET (window->out_button), pr_document_job (window->doc) != NULL);
}

/* To the line's drawing, or back to the shoe. */
static void
set_drawing (PrWindow *window, bool drawing)
{
  window->drawing = drawing;
  show_stage (window);
  update_actions (window);
  if (!drawing && pr_document_job (window->doc))
    gtk_widget_grab_focus (GTK_WIDGET (board_of (window)));
}

/* Zooms what is in sight; FACTOR 0: all of it. */
static void
zoom (PrWindow *window, double factor)
{
  const char *name = stage (window);

  if (g_str_equal (name, "mark"))
    pr_marking_view_zoom (window->mark_view, factor);
  else if (g_str_equal (name, "draw"))
    pr_drawing_view_zoom (window->draw_view, factor);
  else if (factor > 0)
    pr_board_zoom_by (board_of (window), factor);
  else
    pr_board_fit (board_of (window));
}

static void
document_changed (PrWindow *window, guint what)
{
  if (what & PR_CHANGED_BUSY)
    show_busy (window);
  if (what & PR_CHANGED_PLACE)
    window->drawing = false;
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_BOOK))
    show_parts (window);
  if (what & PR_CHANGED_BOOK && window->start)
    pr_start_set_kept (window->start, pr_document_is_kept (window->doc));
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_STAGE))
    show_stage (window);
  if (what & PR_CHANGED_PLACE && g_str_equal (stage (window), "work"))
    gtk_widget_grab_focus (GTK_WIDGET (board_of (window))); /* not its first handle */
  if ((what & (PR_CHANGED_PLACE | PR_CHANGED_FORGED)
       || (what & PR_CHANGED_HISTORY && !pr_document_has_unkept (window->doc)))
      && !window->message_stays && pr_document_book (window->doc)) /* else: that nothing is kept */
    gtk_revealer_set_reveal_child (window->message_bar, FALSE);
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_HOOF | PR_CHANGED_BOOK | PR_CHANGED_STAGE))
    show_place (window);
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_HISTORY | PR_CHANGED_BOOK | PR_CHANGED_STAGE | PR_CHANGED_FORGED))
    update_actions (window);
}

static void
ask_foot (PrWindow *window)
{
  pr_ask_foot (GTK_WINDOW (window), window->doc);
}

static void
drawn (PrWindow *window)
{
  set_drawing (window, false);
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
  pr_incoming_choose (window->incoming, (PrFoot) foot);
}

/* --- the keyboard, after something has popped up --- */

static gboolean
take_keyboard_back (gpointer data)
{
  PrWindow *window = data;
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  if (window->doc && (!focus || !gtk_widget_get_mapped (focus)))
    gtk_widget_grab_focus (g_str_equal (stage (window), "work")
                               ? GTK_WIDGET (board_of (window))
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

/* --- what the window itself does when something is pressed --- */

static void
do_draw_line (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  set_drawing (data, !((PrWindow *) data)->drawing);
}

static void
do_zoom (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const char *name = g_action_get_name (G_ACTION (action));

  zoom (data, g_str_equal (name, "zoom-in") ? ZOOM_STEP : g_str_equal (name, "zoom-out") ? 1 / ZOOM_STEP : 0);
}

static void
do_true_size (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  PrWindow *window = data;

  pr_board_true_size (board_of (window));
  if (!pr_board_is_measured (board_of (window)))
    tell_of_screen (window);
}

static void
do_measure_screen (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  need_work (data);
  pr_measure_screen (data, board_of (data));
}

static void
do_dismiss (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  ((PrWindow *) data)->message_stays = false;
  gtk_revealer_set_reveal_child (((PrWindow *) data)->message_bar, FALSE);
}

static const GActionEntry own_entries[] = {
  { .name = "draw-line", .activate = do_draw_line },
  { .name = "zoom-in", .activate = do_zoom },
  { .name = "zoom-out", .activate = do_zoom },
  { .name = "fit", .activate = do_zoom },
  { .name = "true-size", .activate = do_true_size },
  { .name = "measure-screen", .activate = do_measure_screen },
  { .name = "dismiss", .activate = do_dismiss },
};

static void
add_actions (PrWindow *window)
{
  window->actions = (PrWindowActions){ .window = GTK_APPLICATION_WINDOW (window),
                                       .doc = window->doc,
                                       .incoming = window->incoming,
                                       .book_pane = window->book_pane,
                                       .panes = window->panes,
                                       .book_revealer = window->book_revealer,
                                       .side_revealer = window->side_revealer };
  g_action_map_add_action_entries (G_ACTION_MAP (window), own_entries, G_N_ELEMENTS (own_entries), window);
  pr_window_actions_add (&window->actions);
}

/* --- what comes in --- */

static void
incoming_begun (PrWindow *window)
{
  window->message_stays = false;
}

static void
incoming_refused (PrWindow *window, const char *sentence, gboolean more)
{
  pr_window_tell (window, sentence);
  window->message_stays = more;
}

void
pr_window_open (PrWindow *window, GFile **files, int n_files)
{
  pr_incoming_open (window->incoming, files, n_files);
}

void
pr_window_set_waiting (PrWindow *window, bool waiting)
{
  window->waiting = waiting;
  show_stage (window);
}

/* --- the widget --- */

static void
connect_document (PrWindow *window)
{
  pr_book_pane_set_document (window->book_pane, window->doc);
  pr_follower_set_document (window->book_banner, window->doc);
  window->incoming = pr_incoming_new (GTK_WINDOW (window), window->doc);
  g_signal_connect_swapped (window->incoming, "begun", G_CALLBACK (incoming_begun), window);
  g_signal_connect_swapped (window->incoming, "refused", G_CALLBACK (incoming_refused), window);
  g_signal_connect_object (window->doc, "changed", G_CALLBACK (document_changed), window, G_CONNECT_SWAPPED);
  pr_toast_follow (window->toast, window->doc);
  g_signal_connect_object (window->doc, "trouble", G_CALLBACK (pr_window_tell), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->doc, "ask-foot", G_CALLBACK (ask_foot), window, G_CONNECT_SWAPPED);
}

static void
room_changed (PrWindow *window, gboolean both)
{
  pr_window_actions_room (&window->actions, both);
}

static void
pr_window_unmap (GtkWidget *widget)
{
  pr_window_size_keep (GTK_WINDOW (widget));
  GTK_WIDGET_CLASS (pr_window_parent_class)->unmap (widget);
}

GtkWidget *
pr_window_new (GtkApplication *app, PrDocument *doc, bool waiting)
{
  PrWindow *window = g_object_new (PR_TYPE_WINDOW, "application", app, NULL);

  window->doc = g_object_ref (doc);
  window->waiting = waiting;
  connect_document (window);
  pr_panes_expect (window->panes, pr_window_size_restore (GTK_WINDOW (window)));
  add_actions (window);
  document_changed (window, PR_CHANGED_ALL);
  return GTK_WIDGET (window);
}

static void
pr_window_dispose (GObject *object)
{
  PrWindow *window = PR_WINDOW (object);

  if (window->incoming)
    pr_incoming_stop (window->incoming);
  g_clear_object (&window->incoming);
  g_clear_object (&window->doc);
  G_OBJECT_CLASS (pr_window_parent_class)->dispose (object);
}

/* Made when it is first opened. Without an arrow: what lies beside one is black where nothing composes the
 * screen. */
static void
open_menu (GtkMenuButton *button, gpointer menu)
{
  if (gtk_menu_button_get_popover (button))
    return;
  gtk_menu_button_set_menu_model (button, menu);
  gtk_popover_set_has_arrow (gtk_menu_button_get_popover (button), FALSE);
}

static void
pr_window_init (PrWindow *window)
{
  GtkSettings *settings = gtk_settings_get_default ();

  gtk_widget_init_template (GTK_WIDGET (window));
  pr_label_cut (window->title, 1);
  gtk_label_set_ellipsize (window->title, PANGO_ELLIPSIZE_MIDDLE); /* the foot stands behind the name */
  pr_label_cut (window->subtitle, 1);
  pr_label_cut (window->message, MESSAGE_LINES);
  gtk_widget_add_css_class (GTK_WIDGET (window), "pritchel");
  gtk_menu_button_set_create_popup_func (window->menu_button, open_menu, window->main_menu, NULL);
  pr_recent_serve (window->recent);
  gtk_menu_button_set_create_popup_func (window->out_button, open_menu, window->out_menu, NULL);
  g_signal_connect_object (settings, "notify::gtk-application-prefer-dark-theme", G_CALLBACK (follow_look),
                           window, G_CONNECT_SWAPPED);
  g_signal_connect_object (settings, "notify::gtk-theme-name", G_CALLBACK (follow_look), window,
                           G_CONNECT_SWAPPED);
  follow_look (window);
}

#define CHILD(name) #name, G_STRUCT_OFFSET(PrWindow, name)

static const struct {
  const char *name;
  gssize offset;
} children[] = { { CHILD (book_pane) },       { CHILD (book_banner) },  { CHILD (title) },
                 { CHILD (subtitle) },        { CHILD (message) },      { CHILD (message_bar) },
                 { CHILD (book_revealer) },   { CHILD (stack) },        { CHILD (start_scroll) },
                 { CHILD (toast) },           { CHILD (side_scroll) },  { CHILD (over_strip) },
                 { CHILD (busy_box) },        { CHILD (out_button) },   { CHILD (book_button) },
                 { CHILD (open_button) },     { CHILD (print_button) }, { CHILD (history_box) },
                 { CHILD (menu_button) },     { CHILD (main_menu) },    { CHILD (out_menu) },
                 { CHILD (message_measure) }, { CHILD (busy) },         { CHILD (panes) },
                 { CHILD (side_revealer) },   { CHILD (side_button) },  { CHILD (recent) } };
#undef CHILD

static void
pr_window_class_init (PrWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_window_dispose;
  g_type_class_unref (g_type_class_ref (GTK_TYPE_POPOVER)); /* so that its signals are there */
  g_signal_add_emission_hook (g_signal_lookup ("closed", GTK_TYPE_POPOVER), 0, popover_closed, NULL, NULL);
  widget_class->unmap = pr_window_unmap;
  g_type_ensure (PR_TYPE_BOOK_PANE);
  g_type_ensure (PR_TYPE_TOAST);
  g_type_ensure (PR_TYPE_BOOK_BANNER);
  g_type_ensure (PR_TYPE_PANES);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/window.ui");
  for (size_t i = 0; i < G_N_ELEMENTS (children); i++)
    gtk_widget_class_bind_template_child_full (widget_class, children[i].name, FALSE, children[i].offset);
  gtk_widget_class_bind_template_callback (widget_class, open_foot);
  gtk_widget_class_bind_template_callback (widget_class, want_photo);
  gtk_widget_class_bind_template_callback (widget_class, room_changed);
  gtk_widget_class_bind_template_callback (widget_class, pr_window_tell);
}
