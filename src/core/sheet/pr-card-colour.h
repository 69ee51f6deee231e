/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colours of the day's card: a visit has one of them, or none. They differ in lightness too, so that they are told apart
 * on paper without colour and by eyes that see few; and each is shown with its name, never alone. */
#pragma once
#include <glib.h>

/* As the book keeps it: 0 is none, the rest are below. A new one goes behind the last; PR_BOUND_CARD_COLOUR follows. */
#define PR_N_CARD_COLOURS 7

/* "straw", of none "none"; translated, static. COLOUR is one of them. */
const char *pr_card_colour_name (int colour);
/* 0xrrggbb; white of none. */
guint pr_card_colour_rgb (int colour);
/* Of the two, black or white, what is read on it: at least 4.5 : 1 (WCAG 2.1, 1.4.3). 0xrrggbb. */
guint pr_card_colour_ink (int colour);
