/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-together.h"

#include <glib/gi18n-lib.h>
#include "pr-book-trash.h"
#include "pr-places.h"

#define FEET 4 /* of a horse */

/* How many feet VISIT has that are more than a name. */
static guint
n_feet (PrBook *book, PrBookId visit)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (book, visit, NULL);
  guint n = 0;

  for (guint i = 0; feet && i < feet->len; i++) {
    const PrBookFoot *foot = feet->pdata[i];

    n += foot->has_photo || foot->has_plan;
  }
  return n;
}

PrTogether *
pr_together_new (PrBook *book, PrBookId horse, PrBookId visit, guint n)
{
  PrTogether *together = g_new0 (PrTogether, 1);
  guint there = book && visit ? n_feet (book, visit) : 0;

  together->feet = g_array_new (FALSE, FALSE, sizeof (PrBookId));
  together->horse = horse;
  together->fresh = there > 0 && there + n > FEET;
  together->visit = together->fresh ? 0 : visit;
  return together;
}

void
pr_together_free (PrTogether *together)
{
  if (!together)
    return;
  g_array_unref (together->feet);
  g_free (together);
}

static bool
is_filed (const PrTogether *together, PrBookId foot)
{
  for (guint i = 0; i < together->feet->len; i++)
    if (g_array_index (together->feet, PrBookId, i) == foot)
      return true;
  return false;
}

/* The visit's FOOT that is more than a name, one of these or (OURS false) another; 0: none. */
static PrBookId
find (const PrTogether *together, PrBook *book, PrFoot foot, bool ours)
{
  g_autoptr (GPtrArray) feet
      = together->visit && foot != PR_FOOT_ANY ? pr_book_feet (book, together->visit, NULL) : NULL;

  for (guint i = 0; feet && i < feet->len; i++) {
    const PrBookFoot *one = feet->pdata[i];

    if (one->foot == foot && (one->has_photo || one->has_plan) && is_filed (together, one->id) == ours)
      return one->id;
  }
  return 0;
}

bool
pr_together_has (const PrTogether *together, PrBook *book, PrFoot foot)
{
  return find (together, book, foot, true) != 0;
}

/* A new visit for all, and those that are filed already go there. */
static bool
move_on (PrTogether *together, PrBook *book, GError **error)
{
  bool made;
  PrBookId visit = pr_places_empty_visit (book, together->horse, &made, error);

  for (guint i = 0; visit && i < together->feet->len; i++)
    if (!pr_book_move_foot (book, g_array_index (together->feet, PrBookId, i), visit, error))
      return false;
  if (!visit)
    return false;
  together->visit = visit;
  together->fresh = false;
  together->made = made;
  return true;
}

static PrBookId
file_one (PrTogether *together, PrBook *book, PrFoot foot, GError **error)
{
  bool room = !together->fresh && !find (together, book, foot, false);

  return room || move_on (together, book, error) ? pr_book_add_foot (book, together->visit, foot, error) : 0;
}

PrBookId
pr_together_file (PrTogether *together, PrBook *book, PrFoot foot, GError **error)
{
  PrTogether before = *together;
  PrBookId id;

  if (!pr_book_begin (book, error))
    return 0;
  id = file_one (together, book, foot, error);
  if (!pr_book_end (book, id != 0, error)) {
    *together = before; /* nothing has moved */
    return 0;
  }
  g_array_append_val (together->feet, id);
  return id;
}

void
pr_together_begin (PrTogether *together, PrBookId horse, PrBookId visit, PrBookId foot)
{
  together->horse = horse;
  together->visit = visit;
  together->made = true;
  g_array_append_val (together->feet, foot);
}

char *
pr_together_words (const PrTogether *together, PrBook *book)
{
  guint n = together->feet->len;
  g_autofree char *day = NULL, *horse = NULL;

  if (n == 0 || !pr_places_words (book, together->visit, &day, &horse))
    return NULL;
  /* translators: how many photos; the date of the visit; the horse */
  return g_strdup_printf (ngettext ("%u photo, in the visit of %s of %s.",
                                    "%u photos, in the visit of %s of %s.", n),
                          n, day, horse);
}

/* What was made for them, and holds nothing else. */
static bool
delete_made (const PrTogether *together, PrBook *book, GError **error)
{
  g_auto (PrBookVisit) visit = { 0 };

  if (!together->made || !pr_places_is_empty (book, together->visit))
    return true;
  if (!pr_book_get_visit (book, together->visit, &visit, error)
      || !pr_book_delete (book, PR_BOOK_VISIT, visit.id, error))
    return false;
  g_autoptr (GPtrArray) left = pr_book_visits (book, visit.horse, error);
  return left
         && (left->len > 0 || visit.horse == together->horse_before
             || pr_book_delete (book, PR_BOOK_HORSE, visit.horse, error));
}

bool
pr_together_undo (const PrTogether *together, PrBook *book, GError **error)
{
  bool ok = true;

  if (!pr_book_begin (book, error))
    return false;
  for (guint i = 0; ok && i < together->feet->len; i++)
    ok = pr_book_delete (book, PR_BOOK_FOOT, g_array_index (together->feet, PrBookId, i), error);
  ok = ok && delete_made (together, book, error);
  return pr_book_end (book, ok, error);
}
