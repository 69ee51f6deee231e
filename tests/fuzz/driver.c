/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs a target without clang:
 *     fuzz-photo [COUNT [SEED [FIRST]]]     COUNT mutated inputs, the same ones for the same SEED, from
 *                                           number FIRST on
 *     fuzz-photo FILE...                    those inputs
 *     fuzz-photo --seeds FOLDER             writes the seeds there
 * With PR_FUZZ_KEEP=FILE each input lies in FILE while it runs, so that one that kills is kept. */
#include "fuzz.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define USUAL_COUNT 200

static void
run (const guint8 *data, gsize len)
{
  const char *keep = g_getenv ("PR_FUZZ_KEEP");
  /* to the byte, so that a step beyond is seen */
  g_autofree guint8 *copy = g_memdup2 (data, len);

  if (keep != NULL)
    g_file_set_contents (keep, (const char *) data, (gssize) len, NULL);
  (void) LLVMFuzzerTestOneInput (copy, len);
}

static void
run_bytes (GBytes *bytes)
{
  gsize len;
  const guint8 *data = g_bytes_get_data (bytes, &len);

  run (data, len);
}

static void
run_mutated (const GPtrArray *seeds, guint32 seed, guint32 number)
{
  const guint32 start[2] = { seed, number };
  GRand *rand = g_rand_new_with_seed_array (start, 2);
  GBytes *from = seeds->pdata[g_rand_int (rand) % seeds->len];
  GBytes *other = seeds->pdata[g_rand_int (rand) % seeds->len];
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  gsize len;
  const guint8 *data = g_bytes_get_data (from, &len);

  g_byte_array_append (bytes, data, (guint) len);
  fuzz_mutate (bytes, rand, other);
  g_rand_free (rand);
  run (bytes->data, bytes->len);
}

static int
write_seeds (const GPtrArray *seeds, const char *folder)
{
  for (guint i = 0; i < seeds->len; i++) {
    g_autofree char *file = g_strdup_printf ("%s/seed-%03u", folder, i);
    gsize len;
    const char *data = g_bytes_get_data (seeds->pdata[i], &len);

    if (!g_file_set_contents (file, data, (gssize) len, NULL))
      return 1;
  }
  return 0;
}

static int
run_files (char **files)
{
  for (; *files != NULL; files++) {
    g_autofree char *data = NULL;
    gsize len;

    if (!g_file_get_contents (*files, &data, &len, NULL))
      return 1;
    run ((const guint8 *) data, len);
  }
  return 0;
}

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) seeds = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  char *end = NULL;
  long count = argc > 1 ? strtol (argv[1], &end, 10) : USUAL_COUNT;
  guint32 seed = argc > 2 ? (guint32) strtoul (argv[2], NULL, 10) : 1;
  guint32 first = argc > 3 ? (guint32) strtoul (argv[3], NULL, 10) : 0;

  fuzz_folder ();
  if (end != NULL && *end != '\0' && strcmp (argv[1], "--seeds") != 0)
    return run_files (argv + 1);
  fuzz_seeds (seeds);
  fuzz_must (seeds->len > 0, "no seeds");
  if (end != NULL && *end != '\0')
    return argc > 2 ? write_seeds (seeds, argv[2]) : 2;
  for (guint i = 0; first == 0 && i < seeds->len; i++)
    run_bytes (seeds->pdata[i]);
  for (long i = 0; i < count; i++) {
    run_mutated (seeds, seed, first + (guint32) i);
    if (i % 1000 == 999) {
      printf ("%ld\n", i + 1);
      fflush (stdout);
    }
  }
  printf ("%ld executions, %u seeds\n", count, seeds->len);
  return 0;
}
