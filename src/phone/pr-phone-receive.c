/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos that are sent: what may come, taking it in as it comes, and the answer once it was looked at. */
#include "pr-phone-server-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>
#include <unistd.h>

#include "pr-json-put.h"

#define MOST_FORM \
  ((goffset) PR_STORE_MOST * (goffset) PR_STORE_BYTES + (1 << 16)) /* with what is round the photos */
#define TELL_US 200000                                             /* between words on how far it is */

/* A request with photos, from its head to its answer. */
typedef struct {
  PrPhoneServer *server;
  SoupServerMessage *msg; /* NULL once the phone has gone */
  PrPhoneUpload *upload;
  int guest;
  bool part; /* the list alone is the answer */
  char *language;
  goffset come, length;
  guint looking; /* photos */
  bool held;
} Receipt;

static void
receipt_free (Receipt *receipt)
{
  pr_phone_upload_free (receipt->upload);
  g_free (receipt->language);
  g_free (receipt);
}

static PrGuest *
guest_of (Receipt *receipt)
{
  return &receipt->server->guests.guest[receipt->guest - 1];
}

static void
set_problem (Receipt *receipt, const char *problem)
{
  char **place = &receipt->server->problem[receipt->guest];

  if (problem == NULL || *place != NULL)
    return;
  *place = g_strdup (problem);
}

/* --- how far it is --- */

static void
tell_coming (PrPhoneServer *server, double share)
{
  JsonBuilder *builder;
  gint64 now = g_get_monotonic_time ();

  if (share > 0 && share < 1 && now < server->told + TELL_US)
    return;
  server->told = now;
  builder = pr_phone_word ("what", "coming");
  pr_put (builder, "share", share);
  pr_phone_send (server->serving->line, builder, -1);
}

static void
chunk_came (SoupServerMessage *msg, GBytes *chunk, gpointer data)
{
  Receipt *receipt = data;
  gsize n;
  const char *bytes = g_bytes_get_data (chunk, &n);

  receipt->come += (goffset) n;
  pr_phone_upload_feed (receipt->upload, bytes, n);
  pr_phone_server_used (receipt->server);
  pr_phone_gate_give (receipt->server->gate, soup_server_message_get_remote_address (msg),
                      PR_GATE_IDLE_SECONDS);
  tell_coming (receipt->server, fmin (1, (double) receipt->come / (double) receipt->length));
}

/* --- the program is told --- */

typedef struct {
  PrPhoneServer *server;
  int id;
} Kept;

static void
tell_photo (PrPhoneServer *server, const PrPhoneKept *kept, const char *words)
{
  JsonBuilder *builder = pr_phone_word ("what", "photo");

  pr_put_int (builder, "id", kept->id);
  pr_put_int (builder, "instead", kept->instead);
  pr_put_text (builder, "ending", kept->look.ending);
  pr_put_int (builder, "state", kept->look.state);
  pr_put_text (builder, "words", words);
  pr_phone_send (server->serving->line, builder, kept->file);
}

static void
looked_for_program (PrPhoneLook *look, gpointer data)
{
  g_autofree Kept *one = data;
  const PrPhoneKept *kept = pr_phone_store_find (&one->server->store, one->id);

  if (kept != NULL)
    tell_photo (one->server, kept, look->words);
}

/* In the language of the screen, for which it is looked at once more where the phone's is another. */
static void
pass_on (Receipt *receipt, const PrPhoneKept *kept)
{
  PrPhoneServer *server = receipt->server;
  Kept *one;

  if (g_str_equal (receipt->language, server->language)) {
    tell_photo (server, kept, kept->look.words);
    return;
  }
  one = g_new (Kept, 1);
  *one = (Kept){ server, kept->id };
  pr_phone_look (server->looks, kept->file, NULL, looked_for_program, one);
}

/* --- the answer --- */

static void
answer (Receipt *receipt)
{
  SoupServerMessage *msg = receipt->msg;

  if (msg == NULL)
    return;
  pr_phone_gate_give (receipt->server->gate, soup_server_message_get_remote_address (msg),
                      PR_GATE_IDLE_SECONDS);
  if (receipt->part) {
    pr_phone_server_list (receipt->server, msg, guest_of (receipt), receipt->language);
  } else {
    pr_phone_server_status (msg, SOUP_STATUS_SEE_OTHER);
    soup_message_headers_replace (soup_server_message_get_response_headers (msg), "Location", "./");
  }
  if (receipt->held)
    soup_server_message_unpause (msg);
}

typedef struct {
  Receipt *receipt;
  int file;
} Looking;

static void
end_of_looks (Receipt *receipt)
{
  if (receipt->looking > 0)
    return;
  tell_coming (receipt->server, 0);
  answer (receipt);
  if (receipt->msg == NULL)
    receipt_free (receipt); /* else it goes with its message */
}

static void
looked (PrPhoneLook *look, gpointer data)
{
  g_autofree Looking *one = data;
  Receipt *receipt = one->receipt;
  PrPhoneStore *store = &receipt->server->store;
  bool there = pr_phone_store_find_key (store, receipt->upload->key) != NULL;
  const PrPhoneKept *kept = look->photo ? pr_phone_store_add (store, one->file, receipt->upload->key,
                                                              receipt->upload->again, look)
                                        : NULL;

  if (kept != NULL)
    pass_on (receipt, kept);
  else
    close (one->file);
  if (!look->photo && kept == NULL)
    set_problem (receipt, look->words);
  else if (kept == NULL && !there)
    set_problem (receipt, pr_phone_say (pr_phone_words_in (receipt->language),
                                        N_ ("No more than 20 photos at a time; go on at the computer.")));
  receipt->looking--;
  end_of_looks (receipt);
}

/* Those of a form that came whole, in its order. */
static void
look_at_all (Receipt *receipt)
{
  GArray *sent = receipt->upload->sent;
  /* where the screen's language is the phone's, in that of this process, with its own signs for numbers */
  const char *language
      = g_str_equal (receipt->language, receipt->server->language) ? NULL : receipt->language;
  guint n = 0;

  receipt->looking = 1; /* so that none of them ends it before all have begun */
  for (guint i = 0; i < sent->len; i++) {
    PrPhoneSent *photo = &g_array_index (sent, PrPhoneSent, i);
    Looking *one;

    if (!photo->whole)
      continue;
    one = g_new (Looking, 1);
    *one = (Looking){ receipt, g_steal_fd (&photo->file) };
    receipt->looking++;
    n++;
    pr_phone_look (receipt->server->looks, one->file, language, looked, one);
  }
  receipt->looking--;
  receipt->held = n > 0 && receipt->looking > 0;
}

void
pr_phone_receive_end (PrPhoneServer *server, SoupServerMessage *msg)
{
  Receipt *receipt = g_object_get_data (G_OBJECT (msg), "receipt");

  if (receipt == NULL) {
    pr_phone_server_status (msg, SOUP_STATUS_BAD_REQUEST);
    return;
  }
  pr_phone_upload_end (receipt->upload);
  if (receipt->upload->problem != NULL)
    set_problem (receipt, pr_phone_say (pr_phone_words_in (receipt->language), receipt->upload->problem));
  look_at_all (receipt);
  if (receipt->held) {
    pr_phone_gate_give (server->gate, soup_server_message_get_remote_address (msg), PR_GATE_WORK_SECONDS);
    soup_server_message_pause (msg);
  } else {
    end_of_looks (receipt);
  }
}

/* The phone has its answer, or has gone. */
static void
finished (SoupServerMessage *msg, gpointer data)
{
  Receipt *receipt = data;

  g_object_set_data (G_OBJECT (msg), "receipt", NULL);
  receipt->msg = NULL;
  if (receipt->looking > 0)
    return;
  tell_coming (receipt->server, 0);
  receipt_free (receipt);
}

/* --- what may come --- */

/* What a request that sends something is refused with; NULL: it may. */
static const char *
judge_sending (PrPhoneServer *server, SoupServerMessage *msg, const PrGuest *guest)
{
  SoupMessageHeaders *headers = soup_server_message_get_request_headers (msg);
  g_autofree char *own = g_strdup_printf ("http://%s", pr_phone_gate_host (server->gate));
  const char *origin = soup_message_headers_get_one (headers, "Origin");

  if (soup_message_headers_get_encoding (headers) != SOUP_ENCODING_CONTENT_LENGTH)
    return "411 Length Required";
  if (guest == NULL || guest->state != PR_GUEST_IN || (origin != NULL && strcmp (origin, own) != 0))
    return "403 Forbidden";
  if (soup_message_headers_get_content_length (headers) > MOST_FORM)
    return "413 Content Too Large";
  if (g_strcmp0 (soup_message_headers_get_content_type (headers, NULL), "multipart/form-data") != 0)
    return "415 Unsupported Media Type";
  return NULL;
}

static bool
sends_something (SoupMessageHeaders *headers)
{
  SoupEncoding encoding = soup_message_headers_get_encoding (headers);

  return encoding != SOUP_ENCODING_NONE
         && (encoding != SOUP_ENCODING_CONTENT_LENGTH
             || soup_message_headers_get_content_length (headers) > 0);
}

static const char *
judge_request (PrPhoneServer *server, SoupServerMessage *msg, const PrGuest *guest)
{
  SoupMessageHeaders *headers = soup_server_message_get_request_headers (msg);
  const char *host = soup_message_headers_get_one (headers, "Host");

  if (g_strcmp0 (host, pr_phone_gate_host (server->gate)) != 0)
    return "421 Misdirected Request";
  if (soup_server_message_get_method (msg) == SOUP_METHOD_POST)
    return judge_sending (server, msg, guest);
  return sends_something (headers) ? "400 Bad Request" : NULL;
}

static void
begin (PrPhoneServer *server, SoupServerMessage *msg, const PrGuest *guest, PrPhoneUpload *upload)
{
  SoupMessageHeaders *headers = soup_server_message_get_request_headers (msg);
  Receipt *receipt = g_new0 (Receipt, 1);

  receipt->server = server;
  receipt->msg = msg;
  receipt->guest = guest->number;
  receipt->language = pr_phone_server_language (msg);
  receipt->length = MAX (1, soup_message_headers_get_content_length (headers));
  receipt->upload = upload;
  receipt->part = g_strcmp0 (g_uri_get_query (soup_server_message_get_uri (msg)), "part") == 0;
  g_object_set_data (G_OBJECT (msg), "receipt", receipt);
  g_signal_connect (msg, "got-chunk", G_CALLBACK (chunk_came), receipt);
  g_signal_connect (msg, "finished", G_CALLBACK (finished), receipt);
}

/* Nothing of what is sent is kept in memory, whoever sends it. */
void
pr_phone_receive_begin (PrPhoneServer *server, SoupServerMessage *msg)
{
  g_autoptr (GHashTable) params = NULL;
  const PrGuest *guest = pr_phone_server_guest (server, msg);
  const char *status = judge_request (server, msg, guest);
  PrPhoneUpload *upload = NULL;

  soup_message_body_set_accumulate (soup_server_message_get_request_body (msg), FALSE);
  if (status == NULL && soup_server_message_get_method (msg) == SOUP_METHOD_POST) {
    soup_message_headers_get_content_type (soup_server_message_get_request_headers (msg), &params);
    upload = pr_phone_upload_new (g_hash_table_lookup (params, "boundary"));
    status = upload == NULL ? "415 Unsupported Media Type" : NULL;
  }
  if (status != NULL) {
    g_object_set_data (G_OBJECT (msg), "refused", msg);
    pr_phone_gate_refuse (server->gate, soup_server_message_get_remote_address (msg), status);
  } else if (upload != NULL) {
    begin (server, msg, guest, upload);
  }
}
