/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-look.h"

#include <fcntl.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "pr-json.h"
#include "pr-phone-judge.h"

#define SECONDS 60
#define MOST_WORDS 2000 /* bytes */

typedef struct {
  PrPhoneLooks *looks; /* NULL once they have gone */
  int in, out;
  char *language;
  PrPhoneLooked looked;
  gpointer data;
  GSubprocess *judge;
  guint patience;
} Look;

struct _PrPhoneLooks {
  char **orders;
  GQueue waiting; /* of Look */
  Look *now;
};

void
pr_phone_look_clear (PrPhoneLook *look)
{
  g_clear_pointer (&look->words, g_free);
  g_clear_pointer (&look->picture, g_bytes_unref);
}

static void
look_free (Look *look)
{
  if (look->in >= 0)
    close (look->in);
  if (look->out >= 0)
    close (look->out);
  g_clear_handle_id (&look->patience, g_source_remove);
  g_clear_object (&look->judge);
  g_free (look->language);
  g_free (look);
}

/* --- what it left --- */

static const char *
ending_of (const char *mime)
{
  static const char *const endings[][2]
      = { { "image/jpeg", "jpg" },  { "image/png", "png" },   { "image/tiff", "tif" },
          { "image/webp", "webp" }, { "image/heic", "heic" }, { "image/avif", "avif" } };

  for (size_t i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_strcmp0 (mime, endings[i][0]) == 0)
      return endings[i][1];
  return NULL;
}

/* A line of JSON, and the picture behind it. FALSE: it is none of that. */
static bool
read_told (PrPhoneLook *look, GBytes *told)
{
  gsize len, state = PR_PHONE_AGAIN;
  double number;
  const char *text = g_bytes_get_data (told, &len), *end = len > 0 ? memchr (text, '\n', len) : NULL;
  g_autoptr (JsonNode) node = end != NULL ? pr_json_parse (text, (gsize) (end - text), NULL) : NULL;
  JsonObject *object = pr_json_is_object (node);
  const char *words = pr_json_string (object, "words");

  if (words == NULL || strlen (words) > MOST_WORDS || !pr_json_number (object, "state", &number))
    return false;
  state = number >= 0 && number <= PR_PHONE_AGAIN ? (gsize) number : state;
  gsize at = (gsize) (end - text) + 1;
  look->ending = ending_of (pr_json_string (object, "mime"));
  look->photo = look->ending != NULL;
  look->state = (PrPhoneState) state;
  look->words = g_strdup (words);
  look->picture = at < len ? g_bytes_new_from_bytes (told, at, len - at) : NULL;
  return true;
}

static PrPhoneLook
result_of (Look *look)
{
  PrPhoneLook result = { .state = PR_PHONE_AGAIN };
  g_autoptr (GMappedFile) mapped = g_mapped_file_new_from_fd (look->out, FALSE, NULL);
  g_autoptr (GBytes) told = mapped != NULL ? g_mapped_file_get_bytes (mapped) : NULL;

  if (told == NULL || !read_told (&result, told)) {
    result.photo = true; /* it was worth a try, and is kept as it came */
    result.ending = "jpg";
    result.words = g_strdup (_ ("This photo could not be looked at; take it again."));
  }
  return result;
}

/* --- one after the other --- */

static void next (PrPhoneLooks *looks);

static void
ended (GObject *judge, GAsyncResult *result, gpointer data)
{
  Look *look = data;
  PrPhoneLooks *looks = look->looks;

  g_subprocess_wait_finish (G_SUBPROCESS (judge), result, NULL);
  if (looks != NULL) {
    PrPhoneLook found = result_of (look);

    looks->now = NULL;
    look->looked (&found, look->data);
    pr_phone_look_clear (&found);
    next (looks);
  }
  look_free (look);
}

static gboolean
too_long (gpointer data)
{
  Look *look = data;

  look->patience = 0;
  g_subprocess_force_exit (look->judge);
  return G_SOURCE_REMOVE;
}

/* Words in LANGUAGE need a locale that is not plain C; this one is always there. */
static GSubprocessLauncher *
launcher_for (Look *look)
{
  GSubprocessLauncher *launcher = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_NONE);

  if (look->language != NULL) {
    g_subprocess_launcher_setenv (launcher, "LC_ALL", "C.UTF-8", TRUE);
    g_subprocess_launcher_setenv (launcher, "LANGUAGE", look->language, TRUE);
  }
  g_subprocess_launcher_take_stdin_fd (launcher, g_steal_fd (&look->in));
  g_subprocess_launcher_take_stdout_fd (launcher, fcntl (look->out, F_DUPFD_CLOEXEC, 0));
  return launcher;
}

static bool
start (Look *look, char **orders)
{
  g_autoptr (GPtrArray) args = g_ptr_array_new ();
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);

  look->out = memfd_create ("pritchel-verdict", MFD_CLOEXEC);
  if (self == NULL || look->out < 0 || look->in < 0)
    return false;
  g_autoptr (GSubprocessLauncher) launcher = launcher_for (look);
  g_ptr_array_add (args, self);
  g_ptr_array_add (args, (gpointer) PR_PHONE_JUDGE);
  for (char **order = orders; *order != NULL; order++)
    g_ptr_array_add (args, *order);
  g_ptr_array_add (args, NULL);
  look->judge = g_subprocess_launcher_spawnv (launcher, (const char *const *) args->pdata, NULL);
  if (look->judge == NULL)
    return false;
  look->patience = g_timeout_add_seconds (SECONDS, too_long, look);
  g_subprocess_wait_async (look->judge, NULL, ended, look);
  return true;
}

static void
next (PrPhoneLooks *looks)
{
  Look *look;

  while (looks->now == NULL && (look = g_queue_pop_head (&looks->waiting)) != NULL) {
    looks->now = look;
    if (start (look, looks->orders))
      return;
    PrPhoneLook found = result_of (look);
    looks->now = NULL;
    look->looked (&found, look->data);
    pr_phone_look_clear (&found);
    look_free (look);
  }
}

/* --- doors --- */

PrPhoneLooks *
pr_phone_looks_new (char **orders)
{
  PrPhoneLooks *looks = g_new0 (PrPhoneLooks, 1);

  looks->orders = g_strdupv (orders);
  g_queue_init (&looks->waiting);
  return looks;
}

void
pr_phone_looks_free (PrPhoneLooks *looks)
{
  if (looks->now != NULL) {
    looks->now->looks = NULL;
    g_subprocess_force_exit (looks->now->judge);
  }
  g_queue_clear_full (&looks->waiting, (GDestroyNotify) look_free);
  g_strfreev (looks->orders);
  g_free (looks);
}

void
pr_phone_look (PrPhoneLooks *looks, int file, const char *language, PrPhoneLooked looked, gpointer data)
{
  Look *look = g_new0 (Look, 1);

  look->looks = looks;
  look->in = fcntl (file, F_DUPFD_CLOEXEC, 0);
  look->out = -1;
  look->language = g_strdup (language);
  look->looked = looked;
  look->data = data;
  g_queue_push_tail (&looks->waiting, look);
  next (looks);
}
