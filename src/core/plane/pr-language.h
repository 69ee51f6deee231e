/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The language and number signs of whoever runs the program. */
#pragma once
#include <glib.h>
#include <stdbool.h>

/* Takes the locale of the environment, and binds the texts of this program: those beside it where it
 * is run from the folder it was built in, else those installed with it, wherever that is. Once, first
 * thing in main. */
void pr_language_start (void);

/* Within its scope (the macro at the head of a block) this thread writes numbers with a point, whatever
 * the locale: for what goes into files. With PR_PLAIN_NUMBERS words stay in the user's language; with
 * PR_PLAIN_WORDS they are those of the source, for names that other programs look for. */
typedef struct _PrPlainLocale PrPlainLocale;
PrPlainLocale *pr_plain_locale_begin (bool words);
void pr_plain_locale_end (PrPlainLocale *plain);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrPlainLocale, pr_plain_locale_end)
#define PR_PLAIN_NUMBERS G_GNUC_UNUSED g_autoptr (PrPlainLocale) pr_plain_ = pr_plain_locale_begin (false)
#define PR_PLAIN_WORDS G_GNUC_UNUSED g_autoptr (PrPlainLocale) pr_plain_ = pr_plain_locale_begin (true)
