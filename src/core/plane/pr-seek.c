/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seek.h"

#include <string.h>

/* Letters with a stroke or grown together are no letter and mark to Unicode, but are typed as such. All in lower case, of two
 * bytes. */
static const struct {
  gunichar letter;
  char typed[3];
} plain[] = { { 0x00e6, "ae" }, { 0x00f8, "o" }, { 0x0111, "d" },
              { 0x0131, "i" },  { 0x0142, "l" }, { 0x0153, "oe" } };

static void
append_plain (GString *out, gunichar c)
{
  for (size_t i = 0; i < G_N_ELEMENTS (plain); i++)
    if (c == plain[i].letter) {
      g_string_append (out, plain[i].typed);
      return;
    }
  g_string_append_unichar (out, c);
}

static char *
without_marks (const char *text)
{
  GString *out = g_string_sized_new (strlen (text));

  for (const char *at = text; *at; at = g_utf8_next_char (at)) {
    gunichar c = g_utf8_get_char (at);

    if (c < 0x80)
      g_string_append_c (out, (char) c);
    else if (g_unichar_type (c) != G_UNICODE_NON_SPACING_MARK)
      append_plain (out, c);
  }
  return g_string_free (out, FALSE);
}

char *
pr_seek_fold (const char *text)
{
  if (g_str_is_ascii (text))
    return g_ascii_strdown (text, -1);
  g_autofree char *one_case = g_utf8_casefold (text, -1);
  g_autofree char *apart = g_utf8_normalize (one_case, -1, G_NORMALIZE_ALL);

  return without_marks (apart ? apart : one_case);
}

GStrv
pr_seek_words (const char *typed)
{
  g_autofree char *valid = g_utf8_make_valid (typed ? typed : "", -1), *folded = pr_seek_fold (valid);
  g_autoptr (GStrvBuilder) words = g_strv_builder_new ();
  const char *begin = NULL, *at = folded;

  for (;; at = g_utf8_next_char (at)) {
    bool ends = *at == '\0' || g_unichar_isspace (g_utf8_get_char (at));

    if (ends && begin) {
      g_autofree char *word = g_strndup (begin, (gsize) (at - begin));
      g_strv_builder_add (words, word);
    }
    begin = ends ? NULL : begin ? begin : at;
    if (*at == '\0')
      return g_strv_builder_end (words);
  }
}

bool
pr_seek_has (const char *folded, const char *const *words)
{
  for (; *words; words++)
    if (!strstr (folded, *words))
      return false;
  return true;
}
