/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-plain.h"

#include <glib/gi18n-lib.h>

#include "pr-bounds.h"
#include "pr-book-sql.h"
#include "pr-plain-parts.h"
#include "pr-safe-name.h"

#define FOLDER "pritchel-"
#define PRACTICE "practice"
#define INDEX "index.csv"

typedef struct {
  PrPlain plain;
  const PrBookWork *work;
  GHashTable *folders; /* names of horses that are taken */
  PrPlainCount count;
  gint64 all; /* feet */
} Walk;

static bool
goes_on (const Walk *walk, GError **error)
{
  const PrBookWork *work = walk->work;

  if (work != NULL && work->told != NULL)
    work->told ((double) walk->count.feet / (double) MAX (walk->all, 1), work->data);
  return work == NULL || !g_cancellable_set_error_if_cancelled (work->stop, error);
}

static bool
write_foot (Walk *walk, const PrPlainFoot *foot, GError **error)
{
  PrPlainWritten written = { 0 };
  bool ok = goes_on (walk, error) && pr_plain_foot (&walk->plain, foot, &written, error);

  if (ok) {
    walk->count.feet++;
    walk->count.damaged += written.damaged;
    g_hash_table_insert (walk->plain.feet, g_memdup2 (&foot->foot->id, sizeof foot->foot->id),
                         g_strdup (foot->folder));
    pr_plain_index_add (walk->plain.index, foot, &written);
  }
  g_free (written.style);
  return ok;
}

/* TAKEN: names in the folder of the horse. */
static bool
write_visit (Walk *walk, const PrBookHorse *horse, const PrBookVisit *visit, const char *folder,
             GHashTable *taken, GError **error)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (walk->plain.book, visit->id, error);
  g_autofree char *day = pr_safe_name (visit->date, "no-day");
  g_autofree char *stem = pr_safe_name_new (taken, day);
  g_autofree char *file = g_strdup_printf ("%s/%s.json", folder, stem);

  if (feet == NULL || !pr_plain_visit (&walk->plain, file, visit, error))
    return false;
  walk->count.visits++;
  for (guint i = 0; i < feet->len; i++) {
    const PrBookFoot *foot = feet->pdata[i];
    g_autofree char *name = g_strdup_printf ("%s-%s", stem, pr_foot_code (foot->foot));
    g_autofree char *new_name = pr_safe_name_new (taken, name);
    g_autofree char *path = g_build_filename (folder, new_name, NULL);

    if (!write_foot (walk, &(PrPlainFoot){ horse, visit, foot, path }, error))
      return false;
  }
  return true;
}

static bool
write_horse (Walk *walk, const PrBookHorse *horse, GError **error)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (walk->plain.book, horse->id, error);
  g_autoptr (GHashTable) taken = pr_safe_names ();
  g_autofree char *safe = pr_safe_name (horse->name, "no-name");
  g_autofree char *folder = pr_safe_name_new (walk->folders, safe);
  g_autofree char *file = g_build_filename (folder, "horse.json", NULL);
  const PrBookVisit *newest = visits != NULL && visits->len > 0 ? visits->pdata[0] : NULL;

  g_free (pr_safe_name_new (taken, "horse"));
  if (visits == NULL || !goes_on (walk, error)
      || !pr_plain_horse (&walk->plain, file, horse, newest != NULL ? newest->date : NULL, error))
    return false;
  walk->count.horses++;
  for (guint i = visits->len; i-- > 0;)
    if (!write_visit (walk, horse, visits->pdata[i], folder, taken, error))
      return false;
  return true;
}

static bool
write_all (Walk *walk, GError **error)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (walk->plain.book, NULL, error);

  if (horses == NULL
      || !pr_sql_number (walk->plain.book, "SELECT count(*) FROM foot WHERE deleted IS NULL", &walk->all,
                         error))
    return false;
  pr_plain_index_head (walk->plain.index);
  for (guint i = 0; i < horses->len; i++)
    if (!write_horse (walk, horses->pdata[i], error))
      return false;
  return pr_plain_practice (&walk->plain, error)
         && pr_plain_put_text (&walk->plain, INDEX, walk->plain.index->str, error);
}

char *
pr_plain_write (PrBook *book, const char *above, const char *today, const PrPageOptions *options,
                const PrBookWork *work, PrPlainCount *count, GError **error)
{
  g_autofree char *name = g_strconcat (FOLDER, today, NULL);
  g_autoptr (PrFileTree) tree = pr_file_tree_begin (above, name, error);
  Walk walk = { .plain = { book, tree, options, NULL, NULL }, .work = work };
  char *path = NULL;

  if (tree == NULL)
    return NULL;
  walk.plain.index = g_string_new (NULL);
  walk.plain.feet = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  walk.folders = pr_safe_names ();
  g_free (pr_safe_name_new (walk.folders, PRACTICE));
  g_free (pr_safe_name_new (walk.folders, INDEX));
  if (write_all (&walk, error) && goes_on (&walk, error))
    path = pr_file_tree_place (tree, error);
  g_hash_table_unref (walk.folders);
  g_hash_table_unref (walk.plain.feet);
  g_string_free (walk.plain.index, TRUE);
  if (count != NULL)
    *count = walk.count;
  return path;
}

char *
pr_plain_left_out (const PrPlainCount *count)
{
  return g_strdup_printf (
      ngettext ("Of %d foot something is damaged in the book and was left out; index.csv says of which.",
                "Of %d feet something is damaged in the book and was left out; index.csv says of which.",
                (gulong) count->damaged),
      (int) count->damaged);
}
