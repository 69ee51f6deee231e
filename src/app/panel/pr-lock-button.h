/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrLockButton: a small toggle that keeps a part of the shoe as it is at the next fit or style. Its properties:
 * "locks", PrLocks, all it locks; "part", what a screen reader calls it. */
#pragma once
#include "pr-follower.h"

/* PR_LOCK_* of the plan as flags, by the names templates give them: "toe", "medial", "lateral", "heel-medial" ... */
#define PR_TYPE_LOCKS (pr_locks_get_type ())
GType pr_locks_get_type (void);

#define PR_TYPE_LOCK_BUTTON (pr_lock_button_get_type ())
G_DECLARE_FINAL_TYPE (PrLockButton, pr_lock_button, PR, LOCK_BUTTON, PrFollower)
