/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What `plan` is told about its pages: which, and what stands in their title. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"

void
cli_page_args_clear (CliPageArgs *args)
{
  g_free (args->pages);
  g_free (args->horse);
  g_free (args->date);
  memset (args, 0, sizeof *args);
}

static const char *const words[PR_N_SHOE_DOCS] = {
  [PR_DOC_TEMPLATE] = "template", [PR_DOC_GROUND] = "ground", [PR_DOC_SILHOUETTE] = "silhouette",
  [PR_DOC_BAR] = "bar",           [PR_DOC_CARD] = "card",
};

/* One word of the list, each once. */
static bool
add_page (PrPageOptions *page, const char *word, GError **error)
{
  int doc = 0;

  while (doc < PR_N_SHOE_DOCS && g_ascii_strcasecmp (word, words[doc]) != 0)
    doc++;
  if (doc == PR_N_SHOE_DOCS)
    return cli_wrong (error,
                      _ ("“%s” is no page of a shoe; use template, ground, silhouette, bar or card, with "
                         "commas between them"),
                      word);
  for (int i = 0; i < page->n_docs; i++)
    if (page->doc[i] == (PrDoc) doc)
      return cli_wrong (error, _ ("--pages names “%s” twice; name each page once"), words[doc]);
  page->doc[page->n_docs++] = (PrDoc) doc;
  return true;
}

static bool
read_pages (const char *list, PrPageOptions *page, GError **error)
{
  g_auto (GStrv) word = g_strsplit (list != NULL ? list : "", ",", -1);

  /* an empty list has no word at all */
  if (list != NULL && word[0] == NULL)
    return add_page (page, "", error);
  for (int i = 0; word[i] != NULL; i++)
    if (!add_page (page, g_strstrip (word[i]), error))
      return false;
  return true;
}

static bool
clean_horse (CliPageArgs *args, GError **error)
{
  if (args->horse == NULL)
    return true;
  char *clean = pr_name_fit (args->horse);
  g_free (args->horse);
  args->horse = clean;
  return *clean != '\0' || cli_wrong (error, _ ("--horse names nobody; give the horse's name"));
}

bool
cli_read_page_args (CliPageArgs *args, PrPageOptions *page, GError **error)
{
  if (!read_pages (args->pages, page, error) || !clean_horse (args, error))
    return false;
  if (args->date != NULL && (!pr_date_holds (args->date) || strlen (args->date) != strlen ("2024-11-30")))
    return cli_wrong (error, _ ("“%s” is no day; write it like 2026-11-28, year, month and day"), args->date);
  page->horse = args->horse;
  page->date = args->date;
  return true;
}
