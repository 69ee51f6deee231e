/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The look's colours by their names ("pr_ink" and the others of data/style-light.css), for what is
 * drawn by hand. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>
#include "pr-ink.h"

/* Colour NAME as WIDGET's style has it now; grey where there is none of that name. */
GdkRGBA pr_colour (GtkWidget *widget, const char *name);
/* WIDGET's own foreground. */
GdkRGBA pr_colour_of_text (GtkWidget *widget);
/* The source of CR becomes colour NAME. */
void pr_colour_use (cairo_t *cr, GtkWidget *widget, const char *name);
/* Do light words stand on a dark ground there? */
bool pr_colour_is_dark (GtkWidget *widget);
/* The paper's inks for WIDGET's ground, light or dark, with words, lines and ground in the look's own
 * colours. Steel, draw and upset stay the paper's: a shade means the same on both. */
PrInk pr_colour_ink (GtkWidget *widget);
/* LABEL says which colour the day's card has, on that colour, and is there only while it has one. */
void pr_colour_card (GtkWidget *label, int colour);
/* The rules by which it is coloured. Transfer full. */
char *pr_colour_card_css (void);
