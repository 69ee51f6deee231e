/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A person's own files: a style, a rack of bars, limits. Limits are read once in a process, so each of
 * those gets a child of its own. */
#include "fuzz-job-kit.h"

#include <glib/gstdio.h>
#include <sys/wait.h>
#include <unistd.h>

static char *
own_file (const char *folder, const char *name)
{
  g_autofree char *dir = g_build_filename (fuzz_folder (), "pritchel", folder, NULL);

  g_mkdir_with_parents (dir, 0700);
  return g_build_filename (dir, name, NULL);
}

static void
put (const char *file, const uint8_t *data, size_t size)
{
  g_unlink (file);
  fuzz_must (g_file_set_contents_full (file, (const char *) data, (gssize) size, G_FILE_SET_CONTENTS_NONE,
                                       0600, NULL),
             "no room for temporary files");
}

static void
sentences (const GPtrArray *problems)
{
  for (guint i = 0; i < problems->len; i++)
    fuzz_must (g_str_has_suffix (problems->pdata[i], "."), problems->pdata[i]);
}

static void
use_style (const uint8_t *data, size_t size)
{
  g_autofree char *file = own_file ("styles", "own.json");
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);

  put (file, data, size);
  g_autoptr (GPtrArray) styles = pr_styles_load (problems);
  g_unlink (file);
  sentences (problems);
  fuzz_must (styles->len > 5, "the program's own styles are gone");
  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = styles->pdata[i];
    if (!style->own)
      continue;
    g_autoptr (PrJob) job = fuzz_job ();
    GError *error = NULL;
    fuzz_must (pr_styles_find (styles, style->id) != NULL, "a style that is not found by its id");
    if (fuzz_said (pr_job_set_style (job, style, &error), &error, false))
      fuzz_use_job (job);
  }
}

static void
use_rack (const uint8_t *data, size_t size)
{
  g_autofree char *file = own_file ("", "rack.json");
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (PrJob) job = fuzz_job ();

  put (file, data, size);
  g_autoptr (GArray) rack = pr_rack_load (problems);
  sentences (problems);
  fuzz_must (rack->len > 0, "an empty rack");
  fuzz_use_job (job);
  g_unlink (file);
}

static void
use_limits (const uint8_t *data, size_t size)
{
  g_autofree char *file = own_file ("", "limits.json");
  int status = 0;

  put (file, data, size);
  pid_t child = fork ();
  if (child == 0) {
    g_autoptr (PrJob) job = fuzz_job ();
    _exit (job->findings->len > 0 ? 0 : 1);
  }
  fuzz_must (child > 0 && waitpid (child, &status, 0) == child, "no child");
  fuzz_must (WIFEXITED (status) && WEXITSTATUS (status) == 0, "limits that end the program");
  g_unlink (file);
}

/* The first byte says which of the three. */
int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  if (size == 0 || size > 60000)
    return 0;
  fuzz_folder ();
  if (data[0] == 'l')
    use_limits (data + 1, size - 1);
  else if (data[0] == 'r')
    use_rack (data + 1, size - 1);
  else if (data[0] == 's')
    use_style (data + 1, size - 1);
  return 0;
}

static void
seed_resource (GPtrArray *seeds, const char *kind, const char *path)
{
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, 0, NULL);

  if (bytes != NULL) {
    g_autofree char *text = g_strconcat (kind, (const char *) g_bytes_get_data (bytes, NULL), NULL);
    fuzz_seed_text (seeds, text);
  }
}

void
fuzz_seeds (GPtrArray *seeds)
{
  static const char *const texts[] = {
    "s{\"id\":\"x\",\"name\":\"X\",\"for\":\"y\",\"caution\":\"z\",\"set\":{\"web.toe\":25,\"bar\":\"egg\","
    "\"nails.count.medial\":4}}",
    "s{\"id\":\"plain-front\",\"name\":\"\",\"set\":{}}",
    "s",
    "s[]",
    "s{\"id\":1,\"name\":2,\"set\":3}",
    "s{\"id\":"
    "\"\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3"
    "\xa4\xc3\xa4"
    "\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4"
    "\xc3\xa4\xc3\xa4"
    "x\",\"name\":\"n\",\"set\":{}}",
    "r{\"bars\":[{\"section\":\"25 x 10 mm\",\"length\":\"3 m\",\"material\":\"steel\"},{\"section\":\"3/8 x "
    "1\"}]}",
    "r{\"bars\":[]}",
    "r",
    "r{\"bars\":[{\"section\":\"25 x 10 mm\",\"length\":\"0\",\"material\":\"aluminium\"}]}",
    "l{\"nail.clip\":{\"look\":3,\"mend\":1}}",
    "l",
    "l ",
    "l[]",
    "l{\"nail.clip\":{\"look\":\"x\",\"mend\":null}}",
    "l{\"nail.clip\":3}",
    "l/*\"*/[[[[",
  };

  for (size_t i = 0; i < G_N_ELEMENTS (texts); i++)
    fuzz_seed_text (seeds, texts[i]);
  seed_resource (seeds, "l", "/pritchel/limits.json");
  seed_resource (seeds, "r", "/pritchel/rack.json");
  for (const char *kind = "srl"; *kind; kind++) {
    g_autofree char *deep = g_strnfill (50000, '[');
    deep[0] = *kind;
    fuzz_seed_text (seeds, deep);
  }
}
