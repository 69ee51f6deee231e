/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-gate.h"

#include <errno.h>
#include <string.h>
#include <sys/socket.h>

#include "pr-phone-token.h"

#define LOOK_MS 500       /* how often it is looked whose time is over */
#define REFUSED_SECONDS 1 /* for the answer to be read */
#define WAITING 64        /* in the system's queue */

typedef struct {
  PrPhoneGate *gate;
  GSocket *socket;
  GSocketAddress *there;
  GSource *head;    /* its head is awaited; NULL: libsoup has it */
  ssize_t seen;     /* bytes of its head; woken without more of them, it ends there */
  gint64 end, last; /* monotonic, us */
} Visitor;

struct _PrPhoneGate {
  GSocket *listening;
  GSource *arrivals; /* NULL while there is no room */
  guint look;
  char *host;
  const char *token;
  PrPhoneEntered entered;
  gpointer data;
  GQueue visitors; /* Visitor, the oldest first */
};

static gint64
in_seconds (int seconds)
{
  return g_get_monotonic_time () + seconds * G_USEC_PER_SEC;
}

static void await (PrPhoneGate *gate);

/* --- going --- */

static void
visitor_free (Visitor *visitor)
{
  if (visitor->head != NULL) {
    g_source_destroy (visitor->head);
    g_source_unref (visitor->head);
  }
  g_object_unref (visitor->socket);
  g_object_unref (visitor->there);
  g_free (visitor);
}

static void
leave (Visitor *visitor)
{
  PrPhoneGate *gate = visitor->gate;

  g_queue_remove (&gate->visitors, visitor);
  visitor_free (visitor);
  await (gate);
}

/* Its socket is read as if the other side had closed it: whoever has it lets go. One nobody has goes at once. */
static void
shut (Visitor *visitor)
{
  g_socket_shutdown (visitor->socket, TRUE, TRUE, NULL);
  if (visitor->head != NULL)
    leave (visitor);
}

/* libsoup has let go of the connection. */
static void
let_go (gpointer data, GObject *connection)
{
  (void) connection;
  leave (data);
}

static gboolean
look (gpointer data)
{
  PrPhoneGate *gate = data;
  gint64 now = g_get_monotonic_time ();

  for (GList *at = gate->visitors.head, *next; at != NULL; at = next) {
    Visitor *visitor = at->data;

    next = at->next;
    if (now > MIN (visitor->end, visitor->last))
      shut (visitor);
  }
  gate->look = g_queue_is_empty (&gate->visitors) ? 0 : gate->look;
  return gate->look != 0;
}

/* --- refusing --- */

static void
answer (GSocket *socket, const char *status)
{
  g_autofree char *text = g_strdup_printf (
      "HTTP/1.1 %s\r\nContent-Length: 0\r\nCache-Control: no-store\r\nConnection: close\r\n\r\n", status);

  if (send (g_socket_get_fd (socket), text, strlen (text), MSG_NOSIGNAL | MSG_DONTWAIT) < 0)
    g_debug ("refused without a word: %s", g_strerror (errno));
  g_socket_shutdown (socket, FALSE, TRUE, NULL);
}

static bool
is_same (GSocketAddress *a, GSocketAddress *b)
{
  GInetSocketAddress *one = G_INET_SOCKET_ADDRESS (a), *other = G_INET_SOCKET_ADDRESS (b);

  return g_inet_socket_address_get_port (one) == g_inet_socket_address_get_port (other)
         && g_inet_address_equal (g_inet_socket_address_get_address (one),
                                  g_inet_socket_address_get_address (other));
}

static Visitor *
visitor_at (PrPhoneGate *gate, GSocketAddress *there)
{
  for (GList *at = gate->visitors.head; at != NULL; at = at->next)
    if (is_same (((Visitor *) at->data)->there, there))
      return at->data;
  return NULL;
}

void
pr_phone_gate_refuse (PrPhoneGate *gate, GSocketAddress *there, const char *status)
{
  Visitor *visitor = visitor_at (gate, there);

  if (visitor == NULL)
    return;
  answer (visitor->socket, status);
  visitor->last = in_seconds (REFUSED_SECONDS);
}

void
pr_phone_gate_give (PrPhoneGate *gate, GSocketAddress *there, int seconds)
{
  Visitor *visitor = visitor_at (gate, there);

  if (visitor != NULL)
    visitor->end = in_seconds (seconds);
}

/* --- the head --- */

/* The rest of TEXT's first line behind METHOD and a space; NULL: it is another one. */
static const char *
behind (const char *text, const char *method)
{
  size_t n = strlen (method);

  return strncmp (text, method, n) == 0 && text[n] == ' ' ? text + n + 1 : NULL;
}

/* HEAD asks for something below the token; else what it is answered with. */
static const char *
judge_head (const char *head, const char *token)
{
  const char *path = behind (head, "GET");

  if (path == NULL)
    path = behind (head, "POST");
  if (path == NULL)
    return "405 Method Not Allowed";
  size_t n = path[0] == '/' ? strcspn (path + 1, "/? \r\n") : 0;
  return pr_token_is (token, path + 1, n) && path[1 + n] == '/' ? NULL : "404 Not Found";
}

/* Taken out of the queue, so that closing it does not take the answer back. */
static void
drop_head (GSocket *socket, char *room)
{
  while (recv (g_socket_get_fd (socket), room, PR_GATE_HEAD, MSG_DONTWAIT) > 0)
    ;
}

static void
enter (Visitor *visitor)
{
  PrPhoneGate *gate = visitor->gate;
  g_autoptr (GSocketConnection) connection = g_socket_connection_factory_create_connection (visitor->socket);

  g_source_destroy (visitor->head);
  g_clear_pointer (&visitor->head, g_source_unref);
  visitor->end = in_seconds (PR_GATE_IDLE_SECONDS);
  g_object_weak_ref (G_OBJECT (connection), let_go, visitor);
  gate->entered (connection, visitor->there, gate->data);
}

static bool
set_watermark (GSocket *socket, int bytes)
{
  return g_socket_set_option (socket, SOL_SOCKET, SO_RCVLOWAT, bytes, NULL);
}

/* Looked at where it lies in the system: until it is whole nothing is taken out of there, and nobody is woken before there is
 * more than was seen already. */
static gboolean
head_comes (GSocket *socket, GIOCondition condition, gpointer data)
{
  Visitor *visitor = data;
  (void) condition;
  char room[PR_GATE_HEAD + 1];
  ssize_t n = recv (g_socket_get_fd (socket), room, PR_GATE_HEAD, MSG_PEEK | MSG_DONTWAIT);

  if (n < 0 && (errno == EAGAIN || errno == EINTR))
    return TRUE;
  const char *end = n > 0 ? memmem (room, (size_t) n, "\r\n\r\n", 4) : NULL;
  size_t length = end != NULL ? (size_t) (end - room) : (size_t) MAX (n, 0);
  bool odd = memchr (room, 0, length) != NULL, whole = end != NULL && !odd;
  room[length] = '\0';
  if (end == NULL && !odd && n > visitor->seen && n < PR_GATE_HEAD && set_watermark (socket, (int) n + 1)) {
    visitor->seen = n;
    return TRUE;
  }
  const char *status = whole ? judge_head (room, visitor->gate->token) : "400 Bad Request";
  if (status == NULL && set_watermark (socket, 1)) {
    enter (visitor);
    return FALSE;
  }
  if (n > 0) {
    drop_head (socket, room);
    answer (socket, status != NULL ? status : "500 Internal Server Error");
  }
  leave (visitor);
  return FALSE;
}

/* --- arriving --- */

/* SOCKET and THERE transfer full. */
static void
admit (PrPhoneGate *gate, GSocket *socket, GSocketAddress *there)
{
  Visitor *visitor = g_new0 (Visitor, 1);

  visitor->gate = gate;
  visitor->socket = socket;
  visitor->there = there;
  visitor->end = in_seconds (PR_GATE_HEAD_SECONDS);
  visitor->last = in_seconds (PR_GATE_MOST_SECONDS);
  g_socket_set_blocking (socket, FALSE);
  visitor->head = g_socket_create_source (socket, G_IO_IN, NULL);
  g_source_set_callback (visitor->head, G_SOURCE_FUNC (head_comes), visitor, NULL);
  g_source_attach (visitor->head, NULL);
  g_queue_push_tail (&gate->visitors, visitor);
  if (gate->look == 0)
    gate->look = g_timeout_add (LOOK_MS, look, gate);
}

/* The one that has kept its place longest without asking for anything. */
static bool
make_room (PrPhoneGate *gate)
{
  for (GList *at = gate->visitors.head; at != NULL; at = at->next)
    if (((Visitor *) at->data)->head != NULL) {
      shut (at->data);
      return true;
    }
  return false;
}

static gboolean
arrives (GSocket *listening, GIOCondition condition, gpointer data)
{
  PrPhoneGate *gate = data;

  (void) condition;
  if (gate->visitors.length >= PR_GATE_MOST && !make_room (gate)) {
    g_clear_pointer (&gate->arrivals, g_source_unref);
    return FALSE;
  }
  g_autoptr (GSocket) socket = g_socket_accept (listening, NULL, NULL);
  GSocketAddress *there = socket != NULL ? g_socket_get_remote_address (socket, NULL) : NULL;
  if (there != NULL)
    admit (gate, g_steal_pointer (&socket), there);
  return TRUE;
}

static void
await (PrPhoneGate *gate)
{
  if (gate->arrivals != NULL || gate->listening == NULL)
    return;
  gate->arrivals = g_socket_create_source (gate->listening, G_IO_IN, NULL);
  g_source_set_callback (gate->arrivals, G_SOURCE_FUNC (arrives), gate, NULL);
  g_source_attach (gate->arrivals, NULL);
}

/* --- doors --- */

static GSocket *
listen_at (const char *text, GError **error)
{
  g_autoptr (GInetAddress) address = g_inet_address_new_from_string (text);
  g_autoptr (GSocketAddress) any_port = address != NULL ? g_inet_socket_address_new (address, 0) : NULL;

  if (address == NULL) {
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_ARGUMENT, "no address");
    return NULL;
  }
  g_autoptr (GSocket) socket = g_socket_new (g_inet_address_get_family (address), G_SOCKET_TYPE_STREAM,
                                             G_SOCKET_PROTOCOL_TCP, error);
  if (socket == NULL)
    return NULL;
  g_socket_set_blocking (socket, FALSE);
  g_socket_set_listen_backlog (socket, WAITING);
  if (!g_socket_bind (socket, any_port, FALSE, error) || !g_socket_listen (socket, error))
    return NULL;
  return g_steal_pointer (&socket);
}

PrPhoneGate *
pr_phone_gate_new (const char *address, const char *token, PrPhoneEntered entered, gpointer data,
                   GError **error)
{
  g_autoptr (GSocket) listening = listen_at (address, error);
  g_autoptr (GSocketAddress) bound = listening != NULL ? g_socket_get_local_address (listening, error) : NULL;

  if (bound == NULL)
    return NULL;
  PrPhoneGate *gate = g_new0 (PrPhoneGate, 1);
  gate->host = g_strdup_printf (strchr (address, ':') != NULL ? "[%s]:%u" : "%s:%u", address,
                                g_inet_socket_address_get_port (G_INET_SOCKET_ADDRESS (bound)));
  gate->token = token;
  gate->entered = entered;
  gate->data = data;
  g_queue_init (&gate->visitors);
  gate->listening = g_steal_pointer (&listening);
  await (gate);
  return gate;
}

const char *
pr_phone_gate_host (const PrPhoneGate *gate)
{
  return gate->host;
}

/* Those libsoup has are closed with the server, which goes first. */
void
pr_phone_gate_free (PrPhoneGate *gate)
{
  if (gate->arrivals != NULL) {
    g_source_destroy (gate->arrivals);
    g_source_unref (gate->arrivals);
  }
  g_clear_object (&gate->listening);
  g_clear_handle_id (&gate->look, g_source_remove);
  g_queue_clear_full (&gate->visitors, (GDestroyNotify) visitor_free);
  g_free (gate->host);
  g_free (gate);
}
