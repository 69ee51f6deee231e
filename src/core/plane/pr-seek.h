/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looking for what somebody types, word by word: each word is found anywhere in what is written, in whatever order they were typed,
 * whatever the case, and with accents or without ("moritz" finds "Möritz"). */
#pragma once
#include <glib.h>
#include <stdbool.h>

/* TEXT, valid UTF-8, as it is looked through: letters in one case, their accents (marks without room of their own, Unicode's Mn) gone.
 * Transfer full. */
char *pr_seek_fold (const char *text);
/* What was TYPED as words, folded; NULL, or blanks: none. Any bytes. Transfer full. */
GStrv pr_seek_words (const char *typed);
/* Are all of them in FOLDED? */
bool pr_seek_has (const char *folded, const char *const *words);
