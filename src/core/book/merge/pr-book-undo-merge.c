/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A merge undone. */
#include "pr-merge-parts.h"

#include "pr-book-diary.h"
#include "pr-book-trash.h"

static void
visit_was_free (gpointer data)
{
  PrVisitWas *was = data;

  g_free (was->note);
  g_free (was->vet);
  g_free (was);
}

static GArray *
ids_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (PrBookId));
}

PrMerged *
pr_merged_new (void)
{
  PrMerged *m = g_new0 (PrMerged, 1);

  m->horses = ids_new ();
  m->visits = ids_new ();
  m->feet = ids_new ();
  m->replaced = ids_new ();
  m->attempts = ids_new ();
  m->classes = ids_new ();
  m->runs = ids_new ();
  m->horses_were = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_horse_free);
  m->visits_were = g_ptr_array_new_with_free_func (visit_was_free);
  return m;
}

bool
pr_merged_is_nothing (const PrMerged *m)
{
  return m->n_feet + m->horses->len + m->visits->len + m->replaced->len + m->attempts->len + m->classes->len
             + m->runs->len + m->horses_were->len + m->visits_were->len
         == 0;
}

void
pr_merged_free (PrMerged *m)
{
  GArray *const ids[] = { m->horses, m->visits, m->feet, m->replaced, m->attempts, m->classes, m->runs };

  for (size_t i = 0; i < G_N_ELEMENTS (ids); i++)
    g_array_unref (ids[i]);
  g_ptr_array_unref (m->horses_were);
  g_ptr_array_unref (m->visits_were);
  g_free (m);
}

PrBookId
pr_merged_last (const PrMerged *m)
{
  return m->n_feet == 0 && m->n_met > 1 ? 0 : m->last;
}

guint
pr_merged_feet (const PrMerged *m)
{
  return m->n_feet;
}

guint
pr_merged_replaced (const PrMerged *m)
{
  return m->replaced->len;
}

bool
pr_merged_has_replaced (const PrMerged *m, PrBookId foot)
{
  for (guint i = 0; i < m->replaced->len; i++)
    if (g_array_index (m->replaced, PrBookId, i) == foot)
      return true;
  return false;
}

typedef bool (*ForKind) (PrBook *book, PrBookKind kind, PrBookId id, GError **error);

static bool
for_each (PrBook *book, ForKind act, PrBookKind kind, const GArray *ids, GError **error)
{
  for (guint i = 0; i < ids->len; i++)
    if (!act (book, kind, g_array_index (ids, PrBookId, i), error))
      return false;
  return true;
}

static bool
remove_rows (PrBook *book, const char *sql, const GArray *ids, GError **error)
{
  for (guint i = 0; i < ids->len; i++)
    if (!pr_sql_run (book, NULL, error, sql, "i", g_array_index (ids, PrBookId, i)))
      return false;
  return true;
}

/* The first that was written down last, as one horse may have been met twice. */
static bool
say_as_before (PrBook *book, const PrMerged *m, GError **error)
{
  for (guint i = m->horses_were->len; i-- > 0;)
    if (!pr_book_describe_horse (book, m->horses_were->pdata[i], error))
      return false;
  for (guint i = m->visits_were->len; i-- > 0;) {
    const PrVisitWas *was = m->visits_were->pdata[i];

    if (!pr_sql_run (book, NULL, error, "UPDATE visit SET note = ?, colour = ?, vet = ? WHERE id = ?", "sisi",
                     was->note, was->colour, was->vet, was->id))
      return false;
  }
  return true;
}

static bool
take_back (PrBook *book, const PrMerged *m, GError **error)
{
  return for_each (book, pr_book_delete, PR_BOOK_FOOT, m->feet, error)
         && for_each (book, pr_book_delete, PR_BOOK_VISIT, m->visits, error)
         && for_each (book, pr_book_delete, PR_BOOK_HORSE, m->horses, error)
         && for_each (book, pr_book_bring_back, PR_BOOK_FOOT, m->replaced, error)
         && remove_rows (book, "DELETE FROM attempt WHERE id = ?", m->attempts, error)
         && remove_rows (book, "DELETE FROM run WHERE id = ?", m->runs, error)
         && remove_rows (book, "DELETE FROM class WHERE id = ?", m->classes, error)
         && say_as_before (book, m, error);
}

bool
pr_merge_undo (PrBook *book, const PrMerged *merged, GError **error)
{
  return pr_sql_begin (book, error) && pr_sql_end (book, take_back (book, merged, error), error);
}
