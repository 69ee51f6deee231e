/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-server-private.h"

#include <glib-unix.h>
#include <glib/gi18n-lib.h>
#include <qrencode.h>
#include <string.h>
#include <unistd.h>

#include "pr-json-put.h"
#include "pr-json.h"

#define POLICY                                                                                          \
  "default-src 'none'; img-src 'self' data:; connect-src 'self'; form-action 'self'; base-uri 'none'; " \
  "frame-ancestors 'none'; style-src 'nonce-%s'; script-src 'nonce-%s'"

/* --- use --- */

static gboolean
not_used (gpointer data)
{
  PrPhoneServer *server = data;
  JsonBuilder *builder = pr_phone_word ("what", "end");

  pr_put_int (builder, "why", PR_PHONE_END_IDLE);
  pr_phone_send (server->serving->line, builder, -1);
  server->idle = 0;
  g_main_loop_quit (server->loop);
  return G_SOURCE_REMOVE;
}

void
pr_phone_server_used (PrPhoneServer *server)
{
  g_clear_handle_id (&server->idle, g_source_remove);
  server->idle = g_timeout_add_seconds ((guint) server->serving->minutes * 60, not_used, server);
}

PrGuest *
pr_phone_server_guest (PrPhoneServer *server, SoupServerMessage *msg)
{
  return pr_guests_find (&server->guests, soup_message_headers_get_one (
                                              soup_server_message_get_request_headers (msg), "Cookie"));
}

char *
pr_phone_server_language (SoupServerMessage *msg)
{
  return pr_phone_language (
      soup_message_headers_get_list (soup_server_message_get_request_headers (msg), "Accept-Language"));
}

/* --- answers --- */

static void
put_headers (SoupServerMessage *msg, const char *nonce)
{
  SoupMessageHeaders *headers = soup_server_message_get_response_headers (msg);
  g_autofree char *policy = g_strdup_printf (POLICY, nonce, nonce);

  soup_message_headers_replace (headers, "Content-Security-Policy", policy);
  soup_message_headers_replace (headers, "Cache-Control", "no-store");
  soup_message_headers_replace (headers, "X-Content-Type-Options", "nosniff");
  soup_message_headers_replace (headers, "Referrer-Policy",
                                "same-origin"); /* without, a plain form's Origin is "null" */
  soup_message_headers_replace (headers, "Cross-Origin-Resource-Policy", "same-origin");
  soup_message_headers_replace (headers, "Connection", "close");
}

void
pr_phone_server_status (SoupServerMessage *msg, guint status)
{
  put_headers (msg, "none");
  soup_server_message_set_status (msg, status, NULL);
}

void
pr_phone_server_answer (SoupServerMessage *msg, guint status, char *html, const char *nonce)
{
  put_headers (msg, nonce);
  soup_server_message_set_status (msg, status, NULL);
  soup_server_message_set_response (msg, "text/html; charset=utf-8", SOUP_MEMORY_TAKE, html, strlen (html));
}

void
pr_phone_server_list (PrPhoneServer *server, SoupServerMessage *msg, PrGuest *guest, const char *language)
{
  const PrPhonePage page = { pr_phone_words_in (language), "none", server->serving->shoe };
  g_autofree char *problem = g_steal_pointer (&server->problem[guest->number]);

  pr_phone_server_answer (msg, SOUP_STATUS_OK, pr_phone_page_list (&page, &server->store, problem),
                          page.nonce);
}

static void
answer_picture (PrPhoneServer *server, SoupServerMessage *msg, const char *number)
{
  guint64 id = 0;
  const PrPhoneKept *kept = g_ascii_string_to_unsigned (number, 10, 1, G_MAXINT, &id, NULL)
                                ? pr_phone_store_find (&server->store, (int) id)
                                : NULL;

  if (kept == NULL || kept->look.picture == NULL) {
    pr_phone_server_status (msg, SOUP_STATUS_NOT_FOUND);
    return;
  }
  pr_phone_server_status (msg, SOUP_STATUS_OK);
  soup_message_headers_set_content_type (soup_server_message_get_response_headers (msg), "image/jpeg", NULL);
  soup_message_body_append_bytes (soup_server_message_get_response_body (msg), kept->look.picture);
}

/* --- the page --- */

static void
tell_asked (PrPhoneServer *server, const PrGuest *guest)
{
  JsonBuilder *builder = pr_phone_word ("what", "ask");

  pr_put_int (builder, "phone", guest->number);
  pr_put_text (builder, "code", guest->code);
  pr_phone_send (server->serving->line, builder, -1);
}

/* One that was not here before. NULL: there are too many. */
static PrGuest *
welcome (PrPhoneServer *server, SoupServerMessage *msg)
{
  PrGuest *guest = pr_guests_add (&server->guests);

  if (guest == NULL)
    return NULL;
  g_autofree char *cookie = pr_guest_cookie (guest, server->token);
  soup_message_headers_append (soup_server_message_get_response_headers (msg), "Set-Cookie", cookie);
  if (guest->state == PR_GUEST_ASKED)
    tell_asked (server, guest);
  else
    pr_phone_send (server->serving->line, pr_phone_word ("what", "used"), -1);
  return guest;
}

static void
answer_page (PrPhoneServer *server, SoupServerMessage *msg, PrGuest *guest)
{
  g_autofree char *language = pr_phone_server_language (msg);
  char nonce[PR_TOKEN_LENGTH + 1];

  if (guest == NULL)
    guest = welcome (server, msg);
  if (!pr_token_make (nonce)) {
    pr_phone_server_status (msg, SOUP_STATUS_INTERNAL_SERVER_ERROR);
    return;
  }
  const PrPhonePage page = { pr_phone_words_in (language), nonce, server->serving->shoe };
  char *html;
  if (guest == NULL)
    html = pr_phone_page_closed (&page,
                                 N_ ("Too many phones have asked; close “From my phone” on the computer and "
                                     "open it again."));
  else if (guest->state == PR_GUEST_REFUSED)
    html = pr_phone_page_closed (&page, N_ ("The computer does not take photos from this phone."));
  else if (guest->state == PR_GUEST_ASKED)
    html = pr_phone_page_asked (&page, guest->code);
  else {
    g_autofree char *problem = g_steal_pointer (&server->problem[guest->number]);
    html = pr_phone_page (&page, &server->store, problem);
  }
  pr_phone_server_answer (msg, SOUP_STATUS_OK, html, nonce);
}

/* PART: the path below the token's. */
static void
answer_get (PrPhoneServer *server, SoupServerMessage *msg, const char *part)
{
  static const char photo[] = "photo/";
  PrGuest *guest = pr_phone_server_guest (server, msg);
  bool in = guest != NULL && guest->state == PR_GUEST_IN;
  g_autofree char *language = pr_phone_server_language (msg);

  pr_phone_server_used (server);
  if (part[0] == '\0')
    answer_page (server, msg, guest);
  else if (!in)
    pr_phone_server_status (msg, SOUP_STATUS_FORBIDDEN);
  else if (g_str_equal (part, "list"))
    pr_phone_server_list (server, msg, guest, language);
  else if (g_str_has_prefix (part, photo))
    answer_picture (server, msg, part + strlen (photo));
  else
    pr_phone_server_status (msg, SOUP_STATUS_NOT_FOUND);
}

/* --- requests --- */

static void
request_begins (SoupServer *soup, SoupServerMessage *msg, const char *path, GHashTable *query, gpointer data)
{
  (void) soup;
  (void) path;
  (void) query;
  pr_phone_receive_begin (data, msg);
}

static void
request_ends (SoupServer *soup, SoupServerMessage *msg, const char *path, GHashTable *query, gpointer data)
{
  PrPhoneServer *server = data;
  const char *method = soup_server_message_get_method (msg);
  size_t n = strlen (path);

  (void) soup;
  (void) query;
  pr_phone_gate_give (server->gate, soup_server_message_get_remote_address (msg), PR_GATE_IDLE_SECONDS);
  if (g_object_get_data (G_OBJECT (msg), "refused") != NULL)
    pr_phone_server_status (msg, SOUP_STATUS_BAD_REQUEST);
  else if (n < PR_TOKEN_LENGTH + 2 || !pr_token_is (server->token, path + 1, PR_TOKEN_LENGTH)
           || path[PR_TOKEN_LENGTH + 1] != '/')
    pr_phone_server_status (msg, SOUP_STATUS_NOT_FOUND);
  else if (method == SOUP_METHOD_GET)
    answer_get (server, msg, path + PR_TOKEN_LENGTH + 2);
  else if (method == SOUP_METHOD_POST)
    pr_phone_receive_end (server, msg);
  else
    pr_phone_server_status (msg, SOUP_STATUS_METHOD_NOT_ALLOWED);
}

static void
entered (GSocketConnection *connection, GSocketAddress *there, gpointer data)
{
  PrPhoneServer *server = data;
  g_autoptr (GError) error = NULL;

  g_autoptr (GSocketAddress) here = g_socket_connection_get_local_address (connection, NULL);
  if (here != NULL
      && !soup_server_accept_iostream (server->soup, G_IO_STREAM (connection), here, there, &error))
    g_debug ("not accepted: %s", error->message);
}

/* --- the line --- */

static void
obey (PrPhoneServer *server, JsonObject *told)
{
  const char *order = pr_json_string (told, "do");
  double phone = 0;

  if (order != NULL && pr_json_number (told, "phone", &phone) && phone >= 1 && phone <= PR_GUESTS_MOST)
    pr_guests_answer (&server->guests, (int) phone, g_str_equal (order, "allow"));
}

static gboolean
told (int line, GIOCondition condition, gpointer data)
{
  PrPhoneServer *server = data;
  g_autoptr (JsonObject) object = NULL;
  int file;

  (void) condition;
  PrPhoneGot got = pr_phone_receive (line, &object, &file);
  if (file >= 0)
    close (file);
  if (got == PR_PHONE_GOT)
    obey (server, object);
  if (got == PR_PHONE_OVER)
    g_main_loop_quit (server->loop);
  return got != PR_PHONE_OVER;
}

/* Where the page is, as words and as a code (ISO/IEC 18004). */
static void
tell_open (PrPhoneServer *server)
{
  g_autofree char *url = g_strdup_printf ("http://%s/%s/", pr_phone_gate_host (server->gate), server->token);
  QRcode *code = QRcode_encodeString8bit (url, 0, QR_ECLEVEL_M);
  g_autoptr (GString) dark = g_string_new (NULL);
  JsonBuilder *builder = pr_phone_word ("what", "open");

  for (int i = 0; code != NULL && i < code->width * code->width; i++)
    g_string_append_c (dark, code->data[i] & 1 ? '1' : '0');
  pr_put_text (builder, "url", url);
  pr_put_int (builder, "side", code != NULL ? code->width : 0);
  pr_put_text (builder, "code", dark->str);
  if (code != NULL)
    QRcode_free (code);
  pr_phone_send (server->serving->line, builder, -1);
}

/* --- all of it --- */

static bool
open_gate (PrPhoneServer *server)
{
  g_autoptr (GError) error = NULL;
  JsonBuilder *builder;

  server->gate = pr_token_make (server->token)
                     ? pr_phone_gate_new (server->serving->address, server->token, entered, server, &error)
                     : NULL;
  if (server->gate != NULL)
    return true;
  g_debug ("cannot listen: %s", error != NULL ? error->message : "no chance numbers");
  builder = pr_phone_word ("what", "end");
  pr_put_int (builder, "why", PR_PHONE_END_ADDRESS);
  pr_phone_send (server->serving->line, builder, -1);
  return false;
}

static void
run (PrPhoneServer *server)
{
  server->loop = g_main_loop_new (NULL, FALSE);
  server->soup = soup_server_new ("raw-paths", TRUE, NULL);
  server->looks = pr_phone_looks_new (server->serving->judge);
  server->language = pr_phone_language_here ();
  pr_phone_store_init (&server->store);
  soup_server_add_early_handler (server->soup, NULL, request_begins, server, NULL);
  soup_server_add_handler (server->soup, NULL, request_ends, server, NULL);
  guint watch = g_unix_fd_add (server->serving->line, G_IO_IN | G_IO_HUP, told, server);
  tell_open (server);
  pr_phone_server_used (server);
  g_main_loop_run (server->loop);
  (void) watch; /* ends with the process, as what is on its way does */
}

bool
pr_phone_serve (const PrPhoneServing *serving)
{
  static PrPhoneServer server;

  server.serving = serving;
  if (!open_gate (&server))
    return false;
  run (&server);
  return true;
}
