/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-upload.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <string.h>
#include <unistd.h>

static void
set_problem (PrPhoneUpload *upload, const char *problem)
{
  if (upload->problem == NULL)
    upload->problem = problem;
}

static PrPhoneSent *
last_of (PrPhoneUpload *upload)
{
  return &g_array_index (upload->sent, PrPhoneSent, upload->sent->len - 1);
}

static bool
begin (gpointer data)
{
  PrPhoneUpload *upload = data;
  PrPhoneSent sent = { upload->sent->len < PR_STORE_MOST ? pr_phone_store_file () : -1, 0, false };

  if (upload->sent->len >= PR_STORE_MOST)
    set_problem (upload, N_ ("No more than 20 photos at a time; go on at the computer."));
  else if (sent.file < 0)
    set_problem (upload, N_ ("The computer has no room for the photo; free some there and send it again."));
  else
    g_array_append_val (upload->sent, sent);
  return sent.file >= 0;
}

static bool
write_all (int file, const char *bytes, gsize n)
{
  while (n > 0) {
    ssize_t done = write (file, bytes, n);
    if (done < 0 && errno != EINTR)
      return false;
    bytes += MAX (done, 0);
    n -= (gsize) MAX (done, 0);
  }
  return true;
}

static bool
goes_on (const char *bytes, gsize n, gpointer data)
{
  PrPhoneUpload *upload = data;
  PrPhoneSent *sent = last_of (upload);

  sent->length += n;
  if (sent->length > PR_STORE_BYTES)
    set_problem (upload, N_ ("This photo is larger than 256 MB; choose a smaller one."));
  else if (!write_all (sent->file, bytes, n))
    set_problem (upload, N_ ("The computer has no room for the photo; free some there and send it again."));
  return upload->problem == NULL;
}

static bool
end (gpointer data)
{
  PrPhoneUpload *upload = data;

  last_of (upload)->whole = true;
  if (last_of (upload)->length > 0)
    return true;
  close (last_of (upload)->file);
  g_array_set_size (upload->sent, upload->sent->len - 1);
  return true;
}

/* A key stands in the page again: figures and letters alone. */
static bool
is_key (const char *text)
{
  return strlen (text) <= PR_STORE_KEY && strspn (text, "0123456789abcdef") == strlen (text);
}

static void
field (const char *name, const char *value, gpointer data)
{
  PrPhoneUpload *upload = data;
  guint64 id;

  if (g_str_equal (name, "again") && g_ascii_string_to_unsigned (value, 10, 1, G_MAXINT, &id, NULL))
    upload->again = (int) id;
  else if (g_str_equal (name, "key") && is_key (value))
    g_strlcpy (upload->key, value, sizeof upload->key);
}

PrPhoneUpload *
pr_phone_upload_new (const char *boundary)
{
  PrPhoneUpload *upload = g_new0 (PrPhoneUpload, 1);
  const PrPhoneFormOwner owner = { begin, goes_on, end, field, upload };

  upload->form = pr_phone_form_new (boundary, &owner);
  if (upload->form == NULL) {
    g_free (upload);
    return NULL;
  }
  upload->sent = g_array_new (FALSE, FALSE, sizeof (PrPhoneSent));
  return upload;
}

void
pr_phone_upload_free (PrPhoneUpload *upload)
{
  for (guint i = 0; i < upload->sent->len; i++)
    if (g_array_index (upload->sent, PrPhoneSent, i).file >= 0)
      close (g_array_index (upload->sent, PrPhoneSent, i).file);
  g_array_unref (upload->sent);
  pr_phone_form_free (upload->form);
  g_free (upload);
}

void
pr_phone_upload_feed (PrPhoneUpload *upload, const char *bytes, gsize n)
{
  if (!pr_phone_form_feed (upload->form, bytes, n))
    set_problem (upload, N_ ("The photo did not come whole; send it again."));
}

void
pr_phone_upload_end (PrPhoneUpload *upload)
{
  if (!pr_phone_form_is_whole (upload->form))
    set_problem (upload, N_ ("The photo did not come whole; send it again."));
  else if (upload->sent->len == 0)
    set_problem (upload, N_ ("There was no photo in it; choose one first."));
}
