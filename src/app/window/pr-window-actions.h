/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be pressed, typed or chosen from a menu, and when it can. What changes what the window itself shows
 * (zoom, the line's drawing, messages) is the window's own. */
#pragma once
#include "pr-board.h"
#include "pr-book-pane.h"
#include "pr-incoming.h"
#include "pr-panes.h"

/* What the actions work on: a field of the window, which fills it in before they are added. Nothing in it is
 * owned by it. */
typedef struct {
  GtkApplicationWindow *window;
  PrDocument *doc;
  PrIncoming *incoming;
  PrBookPane *book_pane;
  PrPanes *panes;
  GtkRevealer *book_revealer, *side_revealer;
  PrBoard *board;    /* NULL until there was a shoe; actions on it are enabled from then on */
  GObject *nudge[3]; /* lines of the shortcuts that tell what arrows move by; NULL until those were shown */
} PrWindowActions;

/* Adds them to the window, in the state a person left them. */
void pr_window_actions_add (PrWindowActions *actions);
/* There has come to be room for both panes, or not: they stand as a person left them, or make room for the board. */
void pr_window_actions_room (PrWindowActions *actions, bool both);
/* Enables those that can be used now, the window's own (which it adds before) among them. */
void pr_window_actions_update (PrWindowActions *actions);
