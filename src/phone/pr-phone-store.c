/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-store.h"

#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void
kept_free (gpointer data)
{
  PrPhoneKept *kept = data;

  close (kept->file);
  pr_phone_look_clear (&kept->look);
  g_free (kept);
}

void
pr_phone_store_init (PrPhoneStore *store)
{
  store->kept = g_ptr_array_new_with_free_func (kept_free);
  store->last = 0;
}

void
pr_phone_store_clear (PrPhoneStore *store)
{
  g_clear_pointer (&store->kept, g_ptr_array_unref);
}

PrPhoneKept *
pr_phone_store_find (PrPhoneStore *store, int id)
{
  for (guint i = 0; i < store->kept->len; i++)
    if (((PrPhoneKept *) store->kept->pdata[i])->id == id)
      return store->kept->pdata[i];
  return NULL;
}

PrPhoneKept *
pr_phone_store_find_key (PrPhoneStore *store, const char *key)
{
  for (guint i = 0; key[0] != '\0' && i < store->kept->len; i++)
    if (strcmp (((PrPhoneKept *) store->kept->pdata[i])->key, key) == 0)
      return store->kept->pdata[i];
  return NULL;
}

bool
pr_phone_store_has_room (PrPhoneStore *store, int instead)
{
  return store->kept->len < PR_STORE_MOST || pr_phone_store_find (store, instead) != NULL;
}

PrPhoneKept *
pr_phone_store_add (PrPhoneStore *store, int file, const char *key, int instead, PrPhoneLook *look)
{
  PrPhoneKept *before = pr_phone_store_find (store, instead);

  if (!pr_phone_store_has_room (store, instead) || pr_phone_store_find_key (store, key) != NULL)
    return NULL;
  PrPhoneKept *kept = g_new0 (PrPhoneKept, 1);
  kept->id = ++store->last;
  kept->instead = before != NULL ? instead : 0;
  kept->file = file;
  g_strlcpy (kept->key, key, sizeof kept->key);
  kept->look = *look;
  *look = (PrPhoneLook){ 0 };
  if (before != NULL)
    g_ptr_array_remove (store->kept, before);
  g_ptr_array_add (store->kept, kept);
  return kept;
}

int
pr_phone_store_file (void)
{
  const char *told = g_getenv ("TMPDIR");
  const char *const folders[] = { told != NULL ? told : "/var/tmp", "/var/tmp", "/tmp" };
  int file = -1;

  for (size_t i = 0; i < G_N_ELEMENTS (folders) && file < 0; i++)
    file = open (folders[i], O_TMPFILE | O_EXCL | O_RDWR | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (file >= 0)
    return file;
  g_autofree char *name
      = g_build_filename (g_get_tmp_dir (), "pritchel-XXXXXX", NULL); /* a file system without such files */
  file = g_mkstemp_full (name, O_RDWR | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (file >= 0)
    unlink (name);
  return file;
}
