/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The language and number signs of whoever runs the program. */
#pragma once
#include <glib.h>

/* Takes the locale of the environment, and binds the texts of this program: those beside it where it
 * is run from the folder it was built in, else those installed with it, wherever that is. Once, first
 * thing in main. */
void pr_language_start (void);

/* Within its scope (PR_PLAIN_NUMBERS at the head of a block) this thread writes numbers with a point,
 * whatever the locale: for what goes into files. Words stay in the user's language. */
typedef struct _PrPlainNumbers PrPlainNumbers;
PrPlainNumbers *pr_plain_numbers_begin (void);
void            pr_plain_numbers_end (PrPlainNumbers *plain);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrPlainNumbers, pr_plain_numbers_end)
#define PR_PLAIN_NUMBERS G_GNUC_UNUSED g_autoptr (PrPlainNumbers) pr_plain_numbers_ = pr_plain_numbers_begin ()
