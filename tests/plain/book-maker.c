/* SPDX-License-Identifier: GPL-3.0-or-later */
/* `book-maker FILE`: a small book in which everything a book can hold is there once. */
#include <string.h>

#include "kit.h"
#include "pr-book-diary.h"
#include "pr-book-trash.h"
#include "pr-record.h"

static const KitFoot regular = KIT_FOOT;
static GRand *chance;

/* Begins as a JPEG does (ITU-T T.81, B.1.1.3: SOI, then a marker), and holds every byte there is. */
static GBytes *
photo (gsize len)
{
  guint8 *bytes = g_malloc (len);

  for (gsize i = 0; i < len; i++)
    bytes[i] = (guint8) g_rand_int (chance);
  memcpy (bytes, "\xff\xd8\xff\xe0", 4);
  return g_bytes_new_take (bytes, len);
}

static PrBookId
add_foot (PrBook *book, PrBookId visit, PrFoot foot, const char *style, gsize bytes)
{
  KitFoot shape = regular;
  shape.half_width += g_rand_double_range (chance, -4, 4);
  g_autoptr (PrJob) job = kit_styled (&shape, foot, style);
  PrBookId id = pr_book_add_foot (book, visit, foot, NULL);

  if (bytes > 0) {
    job->sources.photo = photo (bytes);
    job->sources.photo_name = g_strdup ("../../as taken?.JPG");
  }
  g_assert_true (pr_record_keep (
      book, id, job, PR_PART_TRACE | PR_PART_FOOT | PR_PART_PLAN | (bytes > 0 ? PR_PART_PHOTO : 0), NULL));
  return id;
}

static void
add_attempts (PrBook *book, PrBookId foot)
{
  PrBookAttempt attempt = { .foot = foot,
                            .date = (char *) "2026-11-21",
                            .note = (char *) "first go",
                            .minutes = 42,
                            .heats = 7,
                            .off_mm = 1.25 };
  g_autoptr (GBytes) forged = photo (5000);

  attempt.forged.material = (char *) "steel";
  attempt.forged.group = (char *) "plain";
  attempt.forged.cut = 331.5;
  attempt.forged.web_heel[1] = 20.25;
  PrBookId id = pr_book_add_attempt (book, &attempt, forged, NULL);
  g_assert_true (pr_book_set_compared (book, id, "{\"way\": \"toe\", \"mean\": [1.5, -0.25]}", NULL));
  attempt.date = (char *) "2026-11-22";
  attempt.note = (char *) "";
  g_assert_cmpint (pr_book_add_attempt (book, &attempt, NULL, NULL), !=, 0);
}

static void
add_pipwick (PrBook *book)
{
  PrBookHorse horse = { .name = (char *) "Pipwick",
                        .yard = (char *) "Mill yard, north",
                        .owner = (char *) "the \"old\" mill",
                        .note = (char *) "stands\nbadly, \"off\" hind",
                        .due_days = 35 };
  horse.id = pr_book_add_horse (book, horse.name, horse.yard, NULL);
  PrBookVisit visit = { .note = (char *) "thrushy", .date = (char *) "2026-11-20" };

  g_assert_true (pr_book_describe_horse (book, &horse, NULL));
  visit.id = pr_book_add_visit (book, horse.id, visit.date, NULL);
  g_assert_true (pr_book_describe_visit (book, &visit, NULL));
  add_attempts (book, add_foot (book, visit.id, PR_FOOT_LF, "quarter-clipped", 20000));
  add_foot (book, visit.id, PR_FOOT_RF, "plain-front", 100);
  add_foot (book, visit.id, PR_FOOT_LH, "plain-hind", 0);
  add_foot (book, visit.id, PR_FOOT_RH, "plain-hind", 0);
  PrBookId deleted = add_foot (book, visit.id, PR_FOOT_RH, "plain-hind", 0);
  g_assert_true (pr_book_delete (book, PR_BOOK_FOOT, deleted, NULL));
  visit.id = pr_book_add_visit (book, horse.id, "2026-10-02", NULL);
  add_foot (book, visit.id, PR_FOOT_LF, "plain-front", 0);
  add_foot (book, visit.id, PR_FOOT_LF, "quarter-clipped", 0); /* the same foot twice */
  pr_book_add_foot (book, visit.id, PR_FOOT_RF, NULL);         /* nothing in it yet */
}

int
main (int argc, char **argv)
{
  g_autoptr (PrBook) book = argc == 2 ? pr_book_open (argv[1], NULL) : NULL;

  chance = g_rand_new_with_seed (7);
  g_assert_nonnull (book);
  add_pipwick (book);
  g_rand_free (chance);
  return 0;
}
