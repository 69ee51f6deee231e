/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-copy.h"

#include "pr-book-diary.h"

#include <string.h>

static PrBookId
add_copy (const PrBookAttempt *attempt, GBytes *photo, const char *compared, PrBook *to, PrBookId foot,
          const char *day, GError **error)
{
  g_autofree char *date = pr_book_day (attempt->date, day);
  PrBookAttempt copy = *attempt;

  copy.foot = foot;
  copy.date = date;
  PrBookId id = pr_book_add_attempt (to, &copy, photo, error);
  return id != 0 && (compared == NULL || pr_book_set_compared (to, id, compared, error)) ? id : 0;
}

PrBookId
pr_book_copy_attempt (PrBook *from, const PrBookAttempt *attempt, PrBook *to, PrBookId foot, const char *day,
                      GError **error)
{
  GError *trouble = NULL;
  g_autoptr (GBytes) photo = pr_book_attempt_photo (from, attempt->id, &trouble);
  g_autofree char *compared = trouble == NULL && attempt->has_compared
                                  ? pr_book_attempt_compared (from, attempt->id, &trouble)
                                  : NULL;

  if (trouble == NULL)
    return add_copy (attempt, photo, compared, to, foot, day, error);
  g_propagate_error (error, trouble);
  return 0;
}

static bool
copy_attempts (PrBook *from, PrBookId foot, PrBook *to, PrBookId new_foot, const char *day, GError **error)
{
  g_autoptr (GPtrArray) attempts = pr_book_attempts (from, foot, error);

  for (guint i = 0; attempts != NULL && i < attempts->len; i++)
    if (pr_book_copy_attempt (from, attempts->pdata[i], to, new_foot, day, error) == 0)
      return false;
  return attempts != NULL;
}

void
pr_book_parts_clear (PrBookParts *parts)
{
  g_clear_pointer (&parts->photo, g_bytes_unref);
  g_free (parts->name);
  g_free (parts->trace);
  g_free (parts->plan);
}

bool
pr_book_parts_read (PrBookParts *parts, PrBook *book, PrBookId foot, GError **error)
{
  GError *trouble = NULL;

  parts->photo = pr_book_get_photo (book, foot, &parts->name, &trouble);
  if (trouble == NULL)
    parts->trace = pr_book_get_trace (book, foot, &trouble);
  if (trouble == NULL)
    parts->plan = pr_book_get_plan (book, foot, &trouble);
  if (trouble != NULL)
    g_propagate_error (error, trouble);
  return trouble == NULL;
}

static bool
parts_write (const PrBookParts *parts, PrBook *book, PrBookId foot, GError **error)
{
  return (parts->photo == NULL || pr_book_set_photo (book, foot, parts->photo, parts->name, error))
         && (parts->trace == NULL || pr_book_set_trace (book, foot, parts->trace, error))
         && (parts->plan == NULL || pr_book_set_plan (book, foot, parts->plan, error));
}

static void
digest_part (GChecksum *sum, const void *data, gsize size, bool there)
{
  guint64 head[2] = { there, size };

  g_checksum_update (sum, (const guchar *) head, sizeof head);
  for (gsize at = 0; at < size; at += 1u << 30) /* its length is signed */
    g_checksum_update (sum, (const guchar *) data + at, (gssize) MIN (size - at, 1u << 30));
}

static void
digest_text (GChecksum *sum, const char *text)
{
  digest_part (sum, text, text != NULL ? strlen (text) : 0, text != NULL);
}

char *
pr_book_parts_digest (const PrBookParts *parts)
{
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);
  gsize size = 0;
  const void *data = parts->photo != NULL ? g_bytes_get_data (parts->photo, &size) : NULL;

  digest_part (sum, data, size, parts->photo != NULL);
  digest_text (sum, parts->trace);
  digest_text (sum, parts->plan);
  return g_strdup (g_checksum_get_string (sum));
}

char *
pr_book_day (const char *date, const char *changed)
{
  if (pr_date_holds (date))
    return g_strdup (date);
  if (pr_date_holds (changed))
    return g_strndup (changed, 10);
  return g_strdup_printf ("%04d-01-01", (int) pr_bound_least (PR_BOUND_YEAR));
}

PrBookId
pr_book_copy_foot (PrBook *from, const PrBookFoot *foot, const PrBookParts *parts, PrBook *to, PrBookId visit,
                   const char *day, GError **error)
{
  PrBookId id = pr_book_add_foot (to, visit, foot->foot, error);

  if (id == 0 || !parts_write (parts, to, id, error) || !copy_attempts (from, foot->id, to, id, day, error))
    return 0;
  /* after all setters: when it was changed is a fact of the one who changed it */
  if (pr_date_holds (foot->changed)
      && !pr_sql_run (to, NULL, error, "UPDATE foot SET changed = ? WHERE id = ?", "si", foot->changed, id))
    return 0;
  return id;
}

PrBookId
pr_book_copy_horse (const PrBookHorse *horse, PrBook *to, GError **error)
{
  PrBookHorse copy = *horse;

  copy.id = pr_book_add_horse (to, horse->name, horse->yard, error);
  return copy.id != 0 && pr_book_describe_horse (to, &copy, error) ? copy.id : 0;
}

PrBookId
pr_book_copy_visit (const PrBookVisit *visit, const char *day, PrBook *to, PrBookId horse, GError **error)
{
  PrBookVisit copy = *visit;

  copy.date = (char *) day;
  copy.id = pr_book_add_visit (to, horse, day, error);
  return copy.id != 0 && pr_book_describe_visit (to, &copy, error) ? copy.id : 0;
}
