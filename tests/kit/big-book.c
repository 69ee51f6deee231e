/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "big-book.h"

#include "kit.h"
#include "pr-book-diary.h"
#include "pr-json.h"

#define OUTLINES 16 /* different ones */
#define DAYS 42     /* from visit to visit */

static const char *const syllables[]
    = { "ba",  "bel", "bro", "cor", "dal", "den",  "é",  "fen", "gor", "hal", "ï",   "jor",  "kel", "lan",
        "mer", "mø",  "nor", "ö",   "pip", "quil", "ro", "sol", "tam", "ü",   "vel", "wick", "ža",  "ß" };
static const char *const scripts[] = { "馬の名", "Лошадь", "فرس", "άλογο" };

static char *
word (GRand *rand)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (g_rand_int_range (rand, 0, 50) == 0)
    return g_strdup (scripts[g_rand_int_range (rand, 0, G_N_ELEMENTS (scripts))]);
  for (int n = g_rand_int_range (rand, 2, 4); n > 0; n--)
    g_string_append (text, syllables[g_rand_int_range (rand, 0, G_N_ELEMENTS (syllables))]);
  if (g_rand_boolean (rand)) {
    g_autofree char *first = g_utf8_substring (text->str, 0, 1), *upper = g_utf8_strup (first, -1);
    return g_strconcat (upper, g_utf8_next_char (text->str), NULL);
  }
  return g_strdup (text->str);
}

char *
kit_big_words (GRand *rand, int words)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (int i = 0; i < words; i++) {
    g_autofree char *one = word (rand);

    g_string_append_printf (text, "%s%s", i > 0 ? " " : "", one);
  }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* --- what lies in it --- */

typedef struct {
  PrBook *book;
  const KitBigBook *how;
  GRand *rand;
  char *trace[OUTLINES], *plan[OUTLINES]; /* JSON */
  GBytes *photo;
  int feet_left;
  PrBookId last;
} Maker;

static void
make_feet (Maker *m)
{
  for (int i = 0; i < OUTLINES; i++) {
    KitFoot shape = KIT_FOOT;
    shape.half_width += i - OUTLINES / 2;
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "plain-front");
    g_autoptr (JsonNode) trace = pr_job_trace_json (job), plan = pr_job_plan_json (job);

    m->trace[i] = pr_json_text (trace, false);
    m->plan[i] = pr_json_text (plan, false);
  }
}

static void
add_foot (Maker *m, PrBookId visit, PrFoot foot)
{
  int which = g_rand_int_range (m->rand, 0, OUTLINES);

  m->last = pr_book_add_foot (m->book, visit, foot, NULL);
  assert_true (m->last > 0);
  assert_true (pr_book_set_trace (m->book, m->last, m->trace[which], NULL));
  assert_true (pr_book_set_plan (m->book, m->last, m->plan[which], NULL));
  if (m->feet_left-- <= m->how->photos)
    assert_true (pr_book_set_photo (m->book, m->last, m->photo, "foot.jpg", NULL));
}

static void
add_visits (Maker *m, PrBookId horse)
{
  int spread = g_rand_int_range (m->rand, 0, DAYS);

  for (int v = 0; v < m->how->visits; v++) {
    g_autofree char *date = pr_book_due_day ("1969-01-06", spread + 1 + v * DAYS);
    PrBookId visit = pr_book_add_visit (m->book, horse, date, NULL);

    assert_true (visit > 0);
    for (int i = 0; i < m->how->feet; i++)
      add_foot (m, visit, (PrFoot) (PR_FOOT_LF + i));
  }
}

static void
add_horse (Maker *m)
{
  g_autofree char *name = kit_big_words (m->rand, 2), *yard = kit_big_words (m->rand, 1);
  g_autofree char *owner = kit_big_words (m->rand, 2), *note = kit_big_words (m->rand, 6);
  PrBookHorse horse = { .name = name, .yard = yard, .owner = owner, .note = note };

  horse.id = pr_book_add_horse (m->book, name, yard, NULL);
  assert_true (pr_book_describe_horse (m->book, &horse, NULL));
  add_visits (m, horse.id);
}

PrBookId
kit_big_book (PrBook *book, const KitBigBook *how)
{
  Maker m = { .book = book, .how = how, .rand = g_rand_new_with_seed (how->seed) };

  m.feet_left = how->horses * how->visits * how->feet;
  m.photo = g_bytes_new_take (g_malloc0 (how->photo_bytes), how->photo_bytes);
  make_feet (&m);
  assert_true (pr_book_begin (book, NULL));
  for (int i = 0; i < how->horses; i++)
    add_horse (&m);
  assert_true (pr_book_end (book, true, NULL));
  for (int i = 0; i < OUTLINES; i++) {
    g_free (m.trace[i]);
    g_free (m.plan[i]);
  }
  g_bytes_unref (m.photo);
  g_rand_free (m.rand);
  return m.last;
}
