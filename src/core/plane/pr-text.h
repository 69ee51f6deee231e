/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text that people, files and strangers give: kept in places of fixed size, shown on a terminal, put into a
 * sentence. UTF-8; broken bytes are met everywhere and never passed on. */
#pragma once
#include <glib.h>
#include <stdbool.h>

/* FROM, or as many whole letters of it as SIZE bytes hold: a letter cut in two would be no UTF-8. */
static inline void
pr_text_copy (char *to, gsize size, const char *from)
{
  const char *end;

  g_strlcpy (to, from, size);
  if (!g_utf8_validate (to, -1, &end))
    to[end - to] = '\0';
}

/* Does C steer what shows it, instead of being shown? Control characters (C0, DEL, C1), the marks that turn
 * the direction of writing (Unicode UAX 9, 2), and the two that break lines and paragraphs. */
bool pr_text_steers (gunichar c);

/* TEXT as a terminal may have it: what steers stands there as it would be typed ("\x1b", "\u202e"), and so
 * does each byte that is no UTF-8. Line breaks stay; the marks that pr_text_name puts round a name are left
 * out, since few terminals know them. Transfer full. */
char *pr_text_plain (const char *text);
/* The same on one line. Transfer full. */
char *pr_text_plain_line (const char *text);
/* JSON in which no string holds what steers; the same JSON to who reads it (RFC 8259, 7). Transfer full. */
char *pr_text_plain_json (const char *json);

/* NAME as part of a sentence: on one line, valid, what steers as in pr_text_plain. One written from right to
 * left is set apart by isolates (UAX 9, 2.4), so that the sentence round it keeps its own direction. Transfer
 * full. */
char *pr_text_name (const char *name);
/* The same of at most LETTERS of it, the last of them dots. */
char *pr_text_name_brief (const char *name, int letters);
/* The same of the last part of a file's PATH, in the encoding of file names. */
char *pr_text_file (const char *path);
/* SENTENCE, of a language written from left to right, where its names may not have come through here: one from
 * right to left at its beginning does not turn all of it. Transfer full. */
char *pr_text_sentence (const char *sentence);
