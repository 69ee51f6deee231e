/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-feet.h"

void
pr_visit_foot_free (PrVisitFoot *foot)
{
  g_free (foot->date);
  g_free (foot);
}

static bool
add_feet (PrBook *book, const PrBookVisit *visit, GPtrArray *out, GError **error)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (book, visit->id, error);

  for (guint i = 0; feet && i < feet->len; i++) {
    const PrBookFoot *row = g_ptr_array_index (feet, i);
    PrVisitFoot *foot = g_new (PrVisitFoot, 1);

    *foot = (PrVisitFoot){ row->id, visit->id, row->foot, g_strdup (visit->date) };
    g_ptr_array_add (out, foot);
  }
  return feet != NULL;
}

GPtrArray *
pr_visit_feet (PrBook *book, PrBookId horse, GError **error)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (book, horse, error);
  g_autoptr (GPtrArray) out = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_visit_foot_free);

  if (!visits)
    return NULL;
  for (guint i = 0; i < visits->len; i++)
    if (!add_feet (book, g_ptr_array_index (visits, i), out, error))
      return NULL;
  return g_steal_pointer (&out);
}

PrBookId
pr_visit_earlier (PrBook *book, PrBookId horse, PrBookId visit, PrFoot foot, char **date)
{
  g_autoptr (GPtrArray) visits = horse ? pr_book_visits (book, horse, NULL) : NULL;
  bool older = false;

  for (guint i = 0; visits && i < visits->len; i++) { /* newest first */
    const PrBookVisit *one = g_ptr_array_index (visits, i);
    PrBookId id = older ? pr_record_find (book, one->id, foot, PR_PART_TRACE) : 0;

    if (id && date)
      *date = g_strdup (one->date);
    if (id)
      return id;
    older |= one->id == visit;
  }
  return 0;
}
