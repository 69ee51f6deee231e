/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-text.h"

/* What pr_text_name puts round a name: LEFT-TO-RIGHT MARK, for who takes the first letter's direction for
 * that of the whole, FIRST STRONG ISOLATE and POP DIRECTIONAL ISOLATE. */
#define LEFT_TO_RIGHT "\u200e"
#define NAME_BEGINS LEFT_TO_RIGHT "\u2068"
#define NAME_ENDS "\u2069"

typedef struct {
  gunichar first, last;
} Range;

static bool
within (gunichar c, const Range *range, gsize n)
{
  for (gsize i = 0; i < n; i++)
    if (c >= range[i].first && c <= range[i].last)
      return true;
  return false;
}

bool
pr_text_steers (gunichar c)
{
  static const Range steering[]
      = { { 0, 0x1f },        { 0x7f, 0x9f },     { 0x061c, 0x061c }, { 0x200e, 0x200f },  { 0x2028, 0x202e },
          { 0x2066, 0x2069 }, { 0xfeff, 0xfeff }, { 0xfff9, 0xfffb }, { 0xe0001, 0xe0001 } };

  return within (c, steering, G_N_ELEMENTS (steering));
}

/* Blocks of the scripts written from right to left (Unicode 15, Blocks.txt and DerivedBidiClass.txt). */
static bool
runs_to_the_left (gunichar c)
{
  static const Range leftward[] = {
    { 0x0590, 0x08ff }, { 0xfb1d, 0xfdff }, { 0xfe70, 0xfefc }, { 0x10800, 0x10fff }, { 0x1e800, 0x1efff }
  };

  return within (c, leftward, G_N_ELEMENTS (leftward));
}

static bool
has_leftward (const char *text)
{
  for (const char *at = text; *at; at = g_utf8_next_char (at))
    if (runs_to_the_left (g_utf8_get_char (at)))
      return true;
  return false;
}

static void
append_escaped (GString *out, gunichar c)
{
  if (c < 0x100)
    g_string_append_printf (out, "\\x%02x", c);
  else
    g_string_append_printf (out, c < 0x10000 ? "\\u%04x" : "\\U%08x", c);
}

/* LINES: line breaks stay, and what set names apart goes. */
static char *
plain (const char *text, bool lines)
{
  GString *out = g_string_new (NULL);

  while (*text) {
    gunichar c = g_utf8_get_char_validated (text, -1);

    if (c == (gunichar) -1 || c == (gunichar) -2) {
      append_escaped (out, (guchar) *text++);
      continue;
    }
    text = g_utf8_next_char (text);
    if (!pr_text_steers (c) || (lines && c == '\n'))
      g_string_append_unichar (out, c);
    else if (c != 0x200e && c != 0x2068 && c != 0x2069)
      append_escaped (out, c);
  }
  return g_string_free (out, FALSE);
}

char *
pr_text_plain (const char *text)
{
  return plain (text, true);
}

char *
pr_text_plain_line (const char *text)
{
  return plain (text, false);
}

char *
pr_text_plain_json (const char *json)
{
  GString *out = g_string_new (NULL);

  for (const char *at = json; *at; at = g_utf8_next_char (at)) {
    gunichar c = g_utf8_get_char (at);

    if (c >= 0x7f && c < 0x10000 && pr_text_steers (c)) /* below are blanks of the form, or escaped already */
      g_string_append_printf (out, "\\u%04x", c);
    else
      g_string_append_unichar (out, c);
  }
  return g_string_free (out, FALSE);
}

char *
pr_text_name (const char *name)
{
  g_autofree char *line = plain (name, false);

  return has_leftward (line) ? g_strconcat (NAME_BEGINS, line, NAME_ENDS, NULL) : g_steal_pointer (&line);
}

char *
pr_text_sentence (const char *sentence)
{
  g_autofree char *valid = g_utf8_make_valid (sentence, -1);

  return has_leftward (valid) ? g_strconcat (LEFT_TO_RIGHT, valid, NULL) : g_steal_pointer (&valid);
}

char *
pr_text_name_brief (const char *name, int letters)
{
  g_autofree char *valid = g_utf8_make_valid (name, -1);

  if (g_utf8_strlen (valid, -1) <= letters)
    return pr_text_name (valid);
  g_autofree char *start = g_utf8_substring (valid, 0, letters - 1);
  g_autofree char *brief = g_strconcat (g_strchomp (start), "…", NULL);
  return pr_text_name (brief);
}

char *
pr_text_file (const char *path)
{
  g_autofree char *base = g_path_get_basename (path);
  g_autofree char *shown = g_filename_to_utf8 (base, -1, NULL, NULL, NULL);

  return pr_text_name (shown ? shown : base);
}
