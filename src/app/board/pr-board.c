/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-board.h"

#include <glib/gi18n-lib.h>
#include "pr-board-doubts.h"
#include "pr-board-drag.h"
#include "pr-board-ruler.h"
#include "pr-board-scene.h"
#include "pr-board-section.h"

#define SCREEN_FALLBACK (96.0 / PR_MM_PER_INCH) /* px per mm when the monitor tells no size */

struct _PrBoard {
  GtkWidget parent_instance;
  PrBoardStage stage;
  PrView before; /* the view before the stages were shown, which need more room */
  PrScene scene;
  PrGrips grips;
  PrDrag drag;
  PrRuler ruler;
  double screen; /* measured px per mm of this screen; 0: ask the monitor */
};

enum { HOVER, VIEW, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrBoard, pr_board, GTK_TYPE_WIDGET)

/* --- view --- */

void
pr_board_fit (PrBoard *board)
{
  pr_board_stage_fit (&board->stage);
  pr_board_stage_moved (&board->stage);
}

void
pr_board_zoom_by (PrBoard *board, double factor)
{
  const PrScreenPt middle
      = { gtk_widget_get_width (GTK_WIDGET (board)) / 2.0, gtk_widget_get_height (GTK_WIDGET (board)) / 2.0 };

  pr_board_stage_zoom (&board->stage, factor, middle);
}

static GdkMonitor *
monitor_of (PrBoard *board)
{
  GtkNative *native = gtk_widget_get_native (GTK_WIDGET (board));
  GdkSurface *surface = native ? gtk_native_get_surface (native) : NULL;

  return surface ? gdk_display_get_monitor_at_surface (gdk_surface_get_display (surface), surface) : NULL;
}

bool
pr_board_monitor (PrBoard *board, GdkRectangle *area)
{
  GdkMonitor *monitor = monitor_of (board);

  if (monitor)
    gdk_monitor_get_geometry (monitor, area);
  return monitor != NULL;
}

/* What the monitor says of itself, where that can be. */
double
pr_board_screen (PrBoard *board)
{
  GdkMonitor *monitor = monitor_of (board);
  int width_mm = monitor ? gdk_monitor_get_width_mm (monitor) : 0;
  GdkRectangle area;
  double told;

  if (board->screen > 0)
    return board->screen;
  if (width_mm <= 0)
    return SCREEN_FALLBACK;
  gdk_monitor_get_geometry (monitor, &area);
  told = (double) area.width / width_mm;
  return told >= PR_SCREEN_LEAST && told <= PR_SCREEN_MOST ? told : SCREEN_FALLBACK;
}

bool
pr_board_is_measured (PrBoard *board)
{
  return board->screen > 0;
}

void
pr_board_set_screen (PrBoard *board, double px_per_mm)
{
  board->screen = px_per_mm;
  g_signal_emit (board, signals[VIEW], 0);
}

void
pr_board_true_size (PrBoard *board)
{
  pr_board_zoom_by (board, 1 / pr_board_share (board));
}

double
pr_board_share (PrBoard *board)
{
  return board->stage.view.scale / pr_board_screen (board);
}

PrFace
pr_board_face (PrBoard *board)
{
  return board->stage.face;
}

/* Turned over about the centre line: what was in the middle stays there. */
void
pr_board_set_face (PrBoard *board, PrFace face)
{
  PrBoardStage *stage = &board->stage;

  if (stage->face == face)
    return;
  stage->face = face;
  pr_board_stage_turn (stage);
  if (stage->view.fitted)
    pr_board_stage_fit (stage);
  else
    pr_view_move (&stage->view, gtk_widget_get_width (stage->widget) - stage->view.x0, stage->view.y0);
  pr_board_stage_moved (stage);
}

/* --- what is shown --- */

static void
shown_otherwise (PrBoard *board)
{
  pr_scene_drop (&board->scene);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

void
pr_board_set_dark (PrBoard *board, bool dark)
{
  if (board->scene.dark == dark)
    return;
  board->scene.dark = dark;
  shown_otherwise (board);
}

void
pr_board_set_stage (PrBoard *board, const PrStageProgress *progress, unsigned hot)
{
  PrBoardStage *stage = &board->stage;
  bool on = progress != NULL;

  if (!on && !stage->under_way)
    return;
  if (on) {
    board->scene.progress = *progress;
    board->scene.hot = hot;
  }
  pr_scene_drop_shoe (&board->scene);
  gtk_widget_queue_draw (stage->widget);
  if (on == stage->under_way)
    return;
  stage->under_way = on;
  pr_scene_drop (&board->scene);
  pr_grips_update (&board->grips);
  if (on)
    board->before = stage->view;
  if (on || board->before.fitted)
    pr_board_fit (board);
  else {
    stage->view = board->before;
    pr_board_stage_turn (stage);
    pr_board_stage_moved (stage);
  }
}

void
pr_board_set_show_photo (PrBoard *board, bool show)
{
  board->scene.show_photo = show;
  shown_otherwise (board);
}

void
pr_board_set_layers (PrBoard *board, const PrBoardLayers *layers)
{
  board->scene.layers = *layers;
  shown_otherwise (board);
}

const PrBoardLayers *
pr_board_layers (PrBoard *board)
{
  return &board->scene.layers;
}

const char *
pr_board_ghost_day (PrBoard *board)
{
  return board->stage.doc ? pr_ghost_day (&board->scene.ghost, board->stage.doc) : NULL;
}

char *
pr_board_ghost_words (PrBoard *board)
{
  return board->stage.doc ? pr_ghost_words (&board->scene.ghost, board->stage.doc) : NULL;
}

/* Held against something, the shoe is looked at and not worked on. */
static void
look_at (PrBoard *board)
{
  board->stage.looked_at = board->scene.split > 0 || board->scene.comparing;
  pr_grips_update (&board->grips);
}

void
pr_board_compare (PrBoard *board, bool on)
{
  if (board->scene.comparing == on)
    return;
  board->scene.comparing = on;
  look_at (board);
  pr_scene_drop_shoe (&board->scene);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

void
pr_board_mix (PrBoard *board, double mix)
{
  board->scene.mix = CLAMP (mix, 0, 1);
  pr_scene_drop_shoe (&board->scene);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

void
pr_board_set_split (PrBoard *board, double share)
{
  board->scene.split = share;
  look_at (board);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

void
pr_board_set_measuring (PrBoard *board, bool measuring)
{
  board->stage.measuring = measuring;
  pr_ruler_set (&board->ruler, measuring);
}

void
pr_board_set_marks (PrBoard *board, bool marks)
{
  board->grips.marks = marks;
  pr_grips_update (&board->grips);
}

/* What is seen of the cut is told to a screen reader too. */
static void
tell_section (PrBoard *board)
{
  g_autofree char *words = pr_board_section_words (&board->stage, pr_board_stage_job (&board->stage));

  gtk_accessible_update_property (GTK_ACCESSIBLE (board), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
}

void
pr_board_point_out (PrBoard *board, double s)
{
  if (board->stage.hover_s == s)
    return;
  board->stage.hover_s = s;
  if (!board->ruler.on)
    tell_section (board);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

PrScreenPt
pr_board_out (PrBoard *board, PrPt at)
{
  return pr_board_stage_out (&board->stage, at);
}

void
pr_board_ring (PrBoard *board, const PrPt *at, const char *id)
{
  pr_board_stage_ring (&board->stage, at, id);
}

/* --- the document --- */

/* Not under the pointer: a view that followed the shoe would run away there. */
static void
fit_what_grew (PrBoard *board)
{
  if (board->stage.doc && !pr_document_editing (board->stage.doc) && pr_board_stage_outgrown (&board->stage))
    pr_board_fit (board);
}

static void
document_changed (PrBoard *board, guint what)
{
  const guint shoe = PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_FORGED;

  if (what == PR_CHANGED_USUAL) /* nothing of that is drawn */
    return;
  pr_board_stage_turn (&board->stage);
  pr_ghost_changed (&board->scene.ghost, what);
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_PHOTO))
    pr_scene_take_photo (&board->scene);
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_BOOK | PR_CHANGED_UNIT))
    pr_scene_drop (&board->scene);
  if (what & PR_CHANGED_PLACE) { /* another foot lies on the board */
    pr_board_point_out (board, -1);
    board->stage.ringed = false;
    board->before.fitted = true;
    pr_board_stage_fit (&board->stage);
  }
  if (what & shoe) {
    pr_scene_drop_shoe (&board->scene);
    pr_grips_update (&board->grips);
    g_signal_emit (board, signals[VIEW], 0);
  }
  if (what & PR_CHANGED_HOOF || (what & PR_CHANGED_PLAN && board->stage.ringed_id))
    pr_board_stage_follow_ring (&board->stage);
  if (what & (PR_CHANGED_PLAN | PR_CHANGED_HISTORY))
    fit_what_grew (board);
  if (what & PR_CHANGED_HISTORY && !(what & shoe)) /* the edit has ended: every handle tells its value anew */
    pr_grips_update (&board->grips);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

void
pr_board_set_document (PrBoard *board, PrDocument *doc)
{
  g_return_if_fail (!board->stage.doc);
  board->stage.doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), board, G_CONNECT_SWAPPED);
  document_changed (board, PR_CHANGED_ALL);
}

/* --- the widget --- */

static void
pr_board_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PrBoard *board = PR_BOARD (widget);
  graphene_rect_t words;

  pr_scene_append (&board->scene, snapshot);
  pr_grips_append (&board->grips, snapshot);
  if (board->scene.layers.section)
    pr_board_section_append (&board->stage, pr_board_stage_job (&board->stage),
                             pr_grips_words (&board->grips, &words) ? &words : NULL, snapshot);
  if (pr_board_stage_job (&board->stage))
    pr_ruler_append (&board->ruler, snapshot);
}

static gboolean
pr_board_focus (GtkWidget *widget, GtkDirectionType direction)
{
  return pr_grips_focus_next (&PR_BOARD (widget)->grips, direction);
}

/* Fits anew only to a new size: a view that followed the shoe would run away under the pointer. */
static void
pr_board_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  PrBoard *board = PR_BOARD (widget);
  PrBoardStage *stage = &board->stage;

  if (width != stage->width || height != stage->height) {
    stage->width = width;
    stage->height = height;
    if (stage->view.fitted)
      pr_board_stage_fit (stage);
    g_signal_emit (board, signals[VIEW], 0);
  }
  pr_grips_allocate (&board->grips);
}

static void
pr_board_dispose (GObject *object)
{
  PrBoard *board = PR_BOARD (object);

  pr_grips_clear (&board->grips);
  pr_scene_clear (&board->scene);
  pr_drag_clear (&board->drag);
  g_clear_object (&board->stage.doc);
  G_OBJECT_CLASS (pr_board_parent_class)->dispose (object);
}

static void
pr_board_init (PrBoard *board)
{
  GtkWidget *widget = GTK_WIDGET (board);

  board->stage = (PrBoardStage){ .widget = widget, .view = { .scale = 3, .fitted = true }, .hover_s = -1 };
  pr_board_stage_turn (&board->stage);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_focusable (widget, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (board), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Board"), -1);
  pr_scene_start (&board->scene, &board->stage);
  pr_grips_start (&board->grips, &board->stage);
  pr_drag_start (&board->drag, &board->stage, &board->grips);
  pr_board_doubts_tell (&board->stage);
  pr_ruler_start (&board->ruler, &board->stage);
  g_signal_connect (board, "hover", G_CALLBACK (pr_board_point_out), NULL);
}

static void
pr_board_class_init (PrBoardClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_board_dispose;
  widget_class->size_allocate = pr_board_size_allocate;
  widget_class->snapshot = pr_board_snapshot;
  widget_class->focus = pr_board_focus;
  gtk_widget_class_set_css_name (widget_class, "board");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  signals[HOVER]
      = g_signal_new ("hover", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_DOUBLE);
  signals[VIEW] = g_signal_new ("view", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}
