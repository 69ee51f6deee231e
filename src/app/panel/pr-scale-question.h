/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrScaleQuestion: what a person is asked about the scale of the open foot (PrQuestion of pr-tracing.h), a button for
 * each answer: the paper or the print is true, or which paper it is. An answer traces the photo again, as one
 * undo step. Hidden while nothing is asked. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_SCALE_QUESTION (pr_scale_question_get_type ())
G_DECLARE_FINAL_TYPE (PrScaleQuestion, pr_scale_question, PR, SCALE_QUESTION, PrFollower)
