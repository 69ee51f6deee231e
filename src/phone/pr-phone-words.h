/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The texts of one language, whatever that of the process: phones of several languages may look at the page at once. They are
 * read from the program's own catalogues, which lie where its text domain is bound (GNU gettext, "The Format of GNU MO Files"). */
#pragma once
#include <glib.h>

typedef struct _PrPhoneWords PrPhoneWords;

/* Those of LANGUAGE ("de", "en_US"; "en": the source's own). One for as long as the process runs. Transfer none. */
const PrPhoneWords *pr_phone_words_in (const char *language);
/* TEXT in that language, or as it is. */
const char *pr_phone_say (const PrPhoneWords *words, const char *text);
const char *pr_phone_words_language (const PrPhoneWords *words);

/* The first language that there is of those WANTED, as Accept-Language has it (RFC 9110, 12.5.4; NULL: nothing wanted); "en" when
 * there is none. Transfer full. */
char *pr_phone_language (const char *wanted);
/* That of this process. Transfer full. */
char *pr_phone_language_here (void);
