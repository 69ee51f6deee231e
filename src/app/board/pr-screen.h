/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrScreen: how large is a millimetre on this screen? Measured against a bank card (ISO/IEC 7810, ID-1: 85.60 mm x
 * 53.98 mm, corners of 3.18 mm), or against a rule. The answer goes to the board and into the settings. */
#pragma once
#include "pr-board.h"

#define PR_TYPE_SCREEN (pr_screen_get_type ())
G_DECLARE_FINAL_TYPE (PrScreen, pr_screen, PR, SCREEN, GtkWindow)

/* A board that stood at 1:1 stands at 1:1 afterwards too. */
void pr_measure_screen (GtkWindow *parent, PrBoard *board);
