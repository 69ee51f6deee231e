/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a large book costs: 10,000 horses with 60,000 feet, and one horse with 500 visits and 2,000 photos, each beside a book of
 * twenty horses. The core alone (opening, listing, each letter that is typed, what is due), then the window (each letter, each
 * switch of horse, until it is drawn), each in a process of its own, with the memory it held. Each figure twice: by the clock on the
 * wall, and in the thread's own processor time, which another program's load does not lengthen so much; the ratio is of the medians of
 * that to the small book's. Printed, never asserted. Needs a display and a gigabyte and a half of room in TMPDIR:
 * xvfb-run -s '-screen 0 1600x900x24' .build/tests/bench/bench-book */
#include <glib/gstdio.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "big-book.h"
#include "folder.h"
#include "pr-book-diary.h"
#include "pr-book-loss.h"
#include "pr-book-pane.h"
#include "pr-look.h"
#include "pr-roster.h"
#include "pr-window.h"

#define ROUNDS 60
#define SEED 7

static const KitBigBook small = { .seed = 16, .horses = 20, .visits = 3, .feet = 2 }, big = KIT_BIG_BOOK,
                        old = KIT_OLD_HORSE;
static const struct {
  const char *name;
  const KitBigBook *how;
} books[] = { { "20 horses", &small }, { "10,000 horses", &big }, { "500 visits", &old } };

/* --- a stopwatch --- */

typedef struct {
  double wall, own; /* ms */
} Moment;

static Moment
now (void)
{
  struct timespec t;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &t);
  return (Moment){ (double) g_get_monotonic_time () / 1e3,
                   (double) t.tv_sec * 1e3 + (double) t.tv_nsec / 1e6 };
}

static void
keep_since (GArray *times, Moment start)
{
  Moment end = now (), took = { end.wall - start.wall, end.own - start.own };

  g_array_append_val (times, took);
}

static int
by_wall (gconstpointer a, gconstpointer b)
{
  double p = ((const Moment *) a)->wall, q = ((const Moment *) b)->wall;

  return (p > q) - (p < q);
}

static int
by_own (gconstpointer a, gconstpointer b)
{
  double p = ((const Moment *) a)->own, q = ((const Moment *) b)->own;

  return (p > q) - (p < q);
}

/* One line, which the process that started this one reads again: name, then wall and own, median and 99th. TIMES is taken over. */
static void
tell (const char *name, GArray *times)
{
  guint half = times->len / 2, most = times->len * 99 / 100;

  g_array_sort (times, by_wall);
  printf ("%s|%g|%g", name, g_array_index (times, Moment, half).wall,
          g_array_index (times, Moment, most).wall);
  g_array_sort (times, by_own);
  printf ("|%g|%g\n", g_array_index (times, Moment, half).own, g_array_index (times, Moment, most).own);
  g_array_unref (times);
}

static GArray *
times_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (Moment));
}

/* What this process holds, and the most it held. */
static void
tell_memory (void)
{
  g_autofree char *text = NULL;
  const char *most, *held;

  if (g_file_get_contents ("/proc/self/status", &text, NULL, NULL) && (most = strstr (text, "VmHWM:"))
      && (held = strstr (text, "VmRSS:")))
    printf ("memory, MB (at most)|%ld|%ld|0|0\n", atol (held + 6) / 1024, atol (most + 6) / 1024);
}

/* --- what is typed --- */

/* The first letters of N words, one letter more each time. Of char*, transfer full. */
static GPtrArray *
letters_typed (int n)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  GPtrArray *all = g_ptr_array_new_with_free_func (g_free);

  for (int i = 0; i < n; i++) {
    g_autofree char *word = kit_big_words (rand, 1);

    for (glong letters = 1; letters <= MIN (4, g_utf8_strlen (word, -1)); letters++)
      g_ptr_array_add (all, g_utf8_substring (word, 0, letters));
  }
  return all;
}

/* --- the core --- */

static void
time_reading (PrBook *book)
{
  GArray *list = times_new (), *again = times_new (), *due = times_new ();

  for (int i = 0; i < ROUNDS / 3; i++) {
    g_autoptr (PrRoster) roster = pr_roster_new ();
    Moment start = now ();

    pr_roster_read (roster, book, NULL, NULL);
    keep_since (list, start);
    start = now ();
    pr_roster_read (roster, book, NULL, NULL);
    keep_since (again, start);
    start = now ();
    g_ptr_array_unref (pr_book_due (book, NULL));
    keep_since (due, start);
  }
  tell ("listing all, read for the first time", list);
  tell ("looking whether they are as they were", again);
  tell ("what is due", due);
}

static void
time_letters (PrBook *book)
{
  g_autoptr (GPtrArray) typed = letters_typed (ROUNDS);
  g_autoptr (PrRoster) roster = pr_roster_new ();
  GArray *first = times_new (), *each = times_new ();
  Moment start = now ();

  pr_roster_read (roster, book, NULL, NULL);
  start = now ();
  while (pr_roster_prepare (roster, 1000))
    ;
  keep_since (first, start);
  for (guint i = 0; i < typed->len; i++) {
    start = now ();
    g_array_unref (pr_roster_find (roster, typed->pdata[i]));
    keep_since (each, start);
  }
  tell ("readying for the first letter", first);
  tell ("each letter that is typed", each);
}

static int
time_core (const char *file)
{
  GArray *open = times_new (), *watch = times_new ();
  Moment start = now ();
  g_autoptr (PrBook) book = pr_book_open (file, NULL);

  keep_since (open, start);
  start = now ();
  pr_book_watch (book, NULL);
  keep_since (watch, start);
  tell ("opening", open);
  tell ("keeping what would be lost", watch);
  time_reading (book);
  time_letters (book);
  tell_memory ();
  return 0;
}

/* --- the window --- */

typedef struct {
  PrDocument *doc;
  GtkWidget *window, *entry;
  PrBookPane *pane;
  int frames;
} Desk;

static GtkWidget *
find_kind (GtkWidget *root, GType type)
{
  GtkWidget *found = G_TYPE_CHECK_INSTANCE_TYPE (root, type) ? root : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child && !found;
       child = gtk_widget_get_next_sibling (child))
    found = find_kind (child, type);
  return found;
}

static void
after_paint (GdkFrameClock *clock, Desk *desk)
{
  desk->frames++;
}

static void
next_frame (Desk *desk)
{
  int before = desk->frames;

  gtk_widget_queue_draw (desk->window);
  while (desk->frames == before)
    g_main_context_iteration (NULL, TRUE);
}

/* Until nothing is left to do. */
static void
settle (Desk *desk)
{
  const char *what;
  double done;

  for (int quiet = 0; quiet < 20; quiet++) {
    if (pr_document_busy (desk->doc, &done, &what) || g_main_context_pending (NULL))
      quiet = 0;
    while (g_main_context_iteration (NULL, FALSE))
      ;
    g_usleep (2000);
  }
}

static void
time_switches (Desk *desk)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (pr_document_book (desk->doc), NULL, NULL);
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  GArray *each = times_new (), *drawn = times_new ();

  for (int i = 0; i < ROUNDS && horses->len > 1; i++) {
    const PrBookHorse *horse = horses->pdata[g_rand_int_range (rand, 0, (gint32) horses->len)];
    Moment start = now ();

    pr_book_pane_open_horse (desk->pane, horse->id);
    keep_since (each, start);
    next_frame (desk);
    keep_since (drawn, start);
    settle (desk);
  }
  if (horses->len > 1)
    tell ("window: switch of horse", each);
  if (horses->len > 1)
    tell ("window: the same, until it is drawn", drawn);
}

static void
time_typing (Desk *desk)
{
  g_autoptr (GPtrArray) typed = letters_typed (ROUNDS / 3);
  GArray *drawn = times_new ();

  for (guint i = 0; i < typed->len; i++) {
    Moment start = now ();

    gtk_editable_set_text (GTK_EDITABLE (desk->entry), typed->pdata[i]);
    g_signal_emit_by_name (desk->entry, "search-changed");
    next_frame (desk);
    keep_since (drawn, start);
    settle (desk);
  }
  tell ("window: each letter, until it is drawn", drawn);
  gtk_editable_set_text (GTK_EDITABLE (desk->entry), "");
  settle (desk);
}

/* The book comes to a window that stands, as at a start. */
static void
bring_book (Desk *desk, PrBook *book)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, NULL);
  GArray *come = times_new ();
  Moment start = now ();

  pr_document_set_book (desk->doc, book);
  keep_since (come, start);
  tell ("window: the book comes", come);
  pr_book_pane_open_horse (desk->pane, ((PrBookHorse *) horses->pdata[0])->id);
  settle (desk);
}

static int
time_window (const char *file)
{
  Desk desk = { .doc = pr_document_new (NULL, PR_UNIT_MM) };
  PrBook *book = pr_book_open (file, NULL);

  if (!gtk_init_check ()) {
    fprintf (stderr, "bench-book: the window needs a display\n");
    return 2;
  }
  pr_book_watch (book, NULL);
  g_autoptr (GtkApplication) app = gtk_application_new ("org.pritchel.Bench", G_APPLICATION_NON_UNIQUE);
  g_application_register (G_APPLICATION (app), NULL, NULL);
  pr_look_start (gdk_display_get_default ());
  desk.window = pr_window_new (app, desk.doc, false);
  desk.pane = PR_BOOK_PANE (find_kind (desk.window, PR_TYPE_BOOK_PANE));
  desk.entry = find_kind (GTK_WIDGET (desk.pane), GTK_TYPE_SEARCH_ENTRY);
  gtk_window_set_default_size (GTK_WINDOW (desk.window), 1600, 900);
  gtk_window_present (GTK_WINDOW (desk.window));
  settle (&desk);
  g_signal_connect_after (gtk_widget_get_frame_clock (desk.window), "after-paint", G_CALLBACK (after_paint),
                          &desk);
  bring_book (&desk, book);
  time_typing (&desk);
  time_switches (&desk);
  tell_memory ();
  gtk_window_destroy (GTK_WINDOW (desk.window));
  g_object_unref (desk.doc);
  return 0;
}

/* --- all of them --- */

typedef struct {
  char *name;
  double figure[4];
} Told;

static void
told_free (gpointer told)
{
  g_free (((Told *) told)->name);
  g_free (told);
}

/* Of Told: what a process of this program says of FILE. Transfer full. */
static GPtrArray *
ask (const char *self, const char *mode, const char *file)
{
  const char *argv[] = { self, mode, file, NULL };
  GPtrArray *all = g_ptr_array_new_with_free_func (told_free);
  g_autofree char *out = NULL;
  g_autoptr (GError) error = NULL;

  if (!g_spawn_sync (NULL, (char **) argv, NULL, 0, NULL, NULL, &out, NULL, NULL, &error))
    fprintf (stderr, "bench-book: %s\n", error->message);
  g_auto (GStrv) lines = g_strsplit (out ? out : "", "\n", -1);
  for (char **line = lines; *line; line++) {
    g_auto (GStrv) parts = g_strsplit (*line, "|", -1);
    Told *told;

    if (g_strv_length (parts) != 5)
      continue;
    told = g_new0 (Told, 1);
    told->name = g_strdup (parts[0]);
    for (int i = 0; i < 4; i++)
      told->figure[i] = g_ascii_strtod (parts[i + 1], NULL);
    g_ptr_array_add (all, told);
  }
  return all;
}

/* SAME: of the small book. */
static void
print_told (const Told *told, const GPtrArray *same)
{
  printf ("  %-40s %8.2f %8.2f   %8.2f %8.2f", told->name, told->figure[0], told->figure[1], told->figure[2],
          told->figure[3]);
  for (guint i = 0; i < same->len; i++) {
    const Told *other = same->pdata[i];

    if (g_str_equal (other->name, told->name) && other->figure[2] > 0)
      printf ("   x %.2f", told->figure[2] / other->figure[2]);
  }
  printf ("\n");
}

static void
make_book (const char *file, const KitBigBook *how)
{
  g_autoptr (PrBook) book = pr_book_open (file, NULL);

  kit_big_book (book, how);
}

int
main (int argc, char **argv)
{
  static const char *const modes[] = { "--core", "--window" };
  g_autofree char *folder = NULL;
  GPtrArray *same[G_N_ELEMENTS (modes)] = { NULL };

  setlocale (LC_ALL, "");
  if (argc == 3)
    return g_str_equal (argv[1], "--core") ? time_core (argv[2]) : time_window (argv[2]);
  folder = kit_folder ();
  printf ("ms: median and 99th by the clock, the same of the thread's own time, ratio to the small book's\n");
  for (size_t i = 0; i < G_N_ELEMENTS (books); i++) {
    g_autofree char *file = g_strdup_printf ("%s/book-%zu.pritchel", folder, i);

    make_book (file, books[i].how);
    printf ("%s\n", books[i].name);
    for (size_t m = 0; m < G_N_ELEMENTS (modes); m++) {
      GPtrArray *told = ask (argv[0], modes[m], file);

      same[m] = i == 0 ? g_ptr_array_ref (told) : same[m];
      for (guint k = 0; k < told->len; k++)
        print_told (told->pdata[k], same[m]);
      g_ptr_array_unref (told);
    }
  }
  for (size_t m = 0; m < G_N_ELEMENTS (modes); m++)
    g_ptr_array_unref (same[m]);
  kit_folder_gone (g_steal_pointer (&folder));
  return 0;
}
