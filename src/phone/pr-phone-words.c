/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-words.h"

#include <libintl.h>
#include <libsoup/soup.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#define SOURCE "en"
#define MAGIC 0x950412deu
#define MOST_LANGUAGES 20 /* of a list that is looked at */
#define MOST_NAME 16

struct _PrPhoneWords {
  char *language;
  GMappedFile *catalogue; /* NULL: the texts as they are */
  GHashTable *texts;      /* into it */
};

/* --- a catalogue --- */

static char *
catalogue_path (const char *language)
{
  const char *folder = bindtextdomain (GETTEXT_PACKAGE, NULL);

  return g_build_filename (folder != NULL ? folder : "", language, "LC_MESSAGES", GETTEXT_PACKAGE ".mo",
                           NULL);
}

static uint32_t
number_at (const char *data, gsize at)
{
  uint32_t value;

  memcpy (&value, data + at, sizeof value);
  return value;
}

/* The text that the table's line at AT tells of; NULL: it does not lie inside. */
static const char *
text_at (const char *data, gsize len, gsize at)
{
  gsize n = number_at (data, at), from = number_at (data, at + 4);

  return from < len && n < len - from && data[from + n] == '\0' ? data + from : NULL;
}

static void
read_catalogue (PrPhoneWords *words)
{
  const char *data = g_mapped_file_get_contents (words->catalogue);
  gsize len = g_mapped_file_get_length (words->catalogue);

  if (len < 28 || number_at (data, 0) != MAGIC)
    return;
  gsize n = number_at (data, 8), from = number_at (data, 12), to = number_at (data, 16);
  if (n > len / 16 || from > len - 8 * n || to > len - 8 * n)
    return;
  for (gsize i = 0; i < n; i++) {
    const char *text = text_at (data, len, from + 8 * i), *other = text_at (data, len, to + 8 * i);
    if (text != NULL && other != NULL && other[0] != '\0')
      g_hash_table_insert (words->texts, (gpointer) text, (gpointer) other);
  }
}

static PrPhoneWords *
words_new (const char *language)
{
  PrPhoneWords *words = g_new0 (PrPhoneWords, 1);
  g_autofree char *path = catalogue_path (language);

  words->language = g_strdup (language);
  words->texts = g_hash_table_new (g_str_hash, g_str_equal);
  words->catalogue = g_mapped_file_new (path, FALSE, NULL);
  if (words->catalogue != NULL)
    read_catalogue (words);
  return words;
}

const PrPhoneWords *
pr_phone_words_in (const char *language)
{
  static GHashTable *all;
  PrPhoneWords *words;

  if (all == NULL)
    all = g_hash_table_new (g_str_hash, g_str_equal);
  words = g_hash_table_lookup (all, language);
  if (words == NULL) {
    words = words_new (language);
    g_hash_table_insert (all, words->language, words);
  }
  return words;
}

const char *
pr_phone_say (const PrPhoneWords *words, const char *text)
{
  const char *said = g_hash_table_lookup (words->texts, text);

  return said != NULL ? said : text;
}

const char *
pr_phone_words_language (const PrPhoneWords *words)
{
  return words->language;
}

/* --- which --- */

/* Letters alone, so that it names no other folder. */
static bool
is_language (const char *name)
{
  return strlen (name) >= 2 && strlen (name) < MOST_NAME
         && strspn (name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_") == strlen (name);
}

static bool
there_is (const char *language)
{
  g_autofree char *path = catalogue_path (language);

  return g_file_test (path, G_FILE_TEST_IS_REGULAR);
}

/* WANTED ("de-AT", "de_AT") as we have it; NULL: we have not. Transfer full. */
static char *
as_we_have_it (const char *wanted)
{
  g_autofree char *name = g_strdelimit (g_strdup (wanted), "-", '_');
  char *country = strchr (name, '_');

  for (char *letter = name; letter != country && *letter != '\0'; letter++)
    *letter = g_ascii_tolower (*letter);
  if (country != NULL && strlen (country) == 3) {
    country[1] = g_ascii_toupper (country[1]);
    country[2] = g_ascii_toupper (country[2]);
  }
  if (is_language (name) && there_is (name))
    return g_steal_pointer (&name);
  if (country != NULL)
    *country = '\0';
  if (!is_language (name) || !(there_is (name) || strcmp (name, SOURCE) == 0))
    return NULL;
  return g_steal_pointer (&name);
}

char *
pr_phone_language (const char *wanted)
{
  GSList *list = wanted != NULL ? soup_header_parse_quality_list (wanted, NULL) : NULL;
  char *found = NULL;
  int n = 0;

  for (GSList *at = list; at != NULL && found == NULL && n < MOST_LANGUAGES; at = at->next, n++)
    found = as_we_have_it (at->data);
  soup_header_free_list (list);
  return found != NULL ? found : g_strdup (SOURCE);
}

char *
pr_phone_language_here (void)
{
  const char *const *names = g_get_language_names ();

  for (int i = 0; names[i] != NULL; i++) {
    char *found = strchr (names[i], '.') == NULL ? as_we_have_it (names[i]) : NULL;
    if (found != NULL)
      return found;
  }
  return g_strdup (SOURCE);
}
