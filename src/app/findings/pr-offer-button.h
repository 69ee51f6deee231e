/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrOfferButton: takes what a finding offers, as one undo step. In a popover it closes that first. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_OFFER_BUTTON (pr_offer_button_get_type ())
G_DECLARE_FINAL_TYPE (PrOfferButton, pr_offer_button, PR, OFFER_BUTTON, GtkButton)

/* For FINDING, one of JOB's; NULL where nothing is offered that mends it. */
GtkWidget *pr_offer_button_new (const PrJob *job, PrFinding *finding);
