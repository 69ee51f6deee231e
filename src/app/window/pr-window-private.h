/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window's own files share. */
#pragma once
#include "pr-window.h"
#include "pr-bar-strip.h"
#include "pr-board.h"
#include "pr-book-pane.h"
#include "pr-drawing-view.h"
#include "pr-findings-bar.h"
#include "pr-marking-view.h"
#include "pr-panel.h"
#include "pr-start.h"

struct _PrWindow {
  GtkApplicationWindow parent_instance;
  PrDocument *doc;
  PrBoard *board;
  PrBookPane *book_pane;
  PrFindingsBar *findings;
  PrBarStrip *strip;
  PrStart *start;
  PrMarkingView *mark_view;
  PrDrawingView *draw_view;
  bool drawing; /* the line is being drawn by hand */
  GtkLabel *title, *subtitle, *message, *face, *zoom;
  GtkRevealer *message_bar, *book_revealer;
  GtkStack *stack;
  GtkWidget *busy_box, *out_button, *book_button, *open_button, *print_button, *history_box;
  GtkWidget *side_scroll, *layers_button, *menu_button, *true_size_button, *message_measure;
  GtkProgressBar *busy;
  bool message_stays; /* until it is closed, whatever is opened */
  PrFoot wanted_foot; /* of the photo being chosen */
  /* what came in and waits its turn (pr-window-photos.c) */
  GQueue sent;        /* of GFile: feet somebody sent, asked about one by one */
  GListStore *photos; /* taken after them */
  PrFoot photos_foot;
  bool asking, moved; /* MOVED: one was taken in, so that another visit is chosen now */
  PrBookId horse_before, visit_before;
};

void pr_window_add_actions (PrWindow *window);
void pr_window_update_actions (PrWindow *window);
void pr_window_choose_photo (PrWindow *window, PrFoot foot);
void pr_window_accept_photos (PrWindow *window);
void pr_window_drop_incoming (PrWindow *window);
void pr_window_ask_place (PrWindow *window, int foot);
/* To the line's drawing, or back to the shoe. */
void pr_window_set_drawing (PrWindow *window, bool drawing);
/* That 1:1 is a guess until the screen is measured, with a way there. */
void pr_window_tell_of_screen (PrWindow *window);
/* Zooms what is in sight; FACTOR 0: all of it. */
void pr_window_zoom (PrWindow *window, double factor);
