/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-packet.h"

#include <errno.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

#include "pr-json-put.h"
#include "pr-json.h"

typedef union {
  struct cmsghdr align;
  char room[CMSG_SPACE (sizeof (int))];
} Control;

JsonBuilder *
pr_phone_word (const char *name, const char *word)
{
  JsonBuilder *builder = json_builder_new ();

  json_builder_begin_object (builder);
  pr_put_text (builder, name, word);
  return builder;
}

static void
put_file (struct msghdr *message, Control *control, int file)
{
  message->msg_control = control->room;
  message->msg_controllen = sizeof control->room;
  struct cmsghdr *head = CMSG_FIRSTHDR (message);
  head->cmsg_level = SOL_SOCKET;
  head->cmsg_type = SCM_RIGHTS;
  head->cmsg_len = CMSG_LEN (sizeof file);
  memcpy (CMSG_DATA (head), &file, sizeof file);
}

bool
pr_phone_send (int socket, JsonBuilder *builder, int file)
{
  json_builder_end_object (builder);
  g_autoptr (JsonBuilder) owned = builder;
  g_autoptr (JsonNode) node = json_builder_get_root (owned);
  g_autofree char *text = pr_json_text (node, false);
  struct iovec part = { text, strlen (text) };
  struct msghdr message = { .msg_iov = &part, .msg_iovlen = 1 };
  Control control = { .room = { 0 } };
  ssize_t n;

  g_return_val_if_fail (part.iov_len <= PR_PHONE_PACKET, false);
  if (file >= 0)
    put_file (&message, &control, file);
  do
    n = sendmsg (socket, &message, MSG_NOSIGNAL);
  while (n < 0 && errno == EINTR);
  return n == (ssize_t) part.iov_len;
}

/* The one file that came along; -1: none. */
static int
take_file (struct msghdr *message)
{
  struct cmsghdr *head = CMSG_FIRSTHDR (message);
  int file = -1;

  if (head != NULL && head->cmsg_level == SOL_SOCKET && head->cmsg_type == SCM_RIGHTS
      && head->cmsg_len == CMSG_LEN (sizeof file))
    memcpy (&file, CMSG_DATA (head), sizeof file);
  return file;
}

static JsonObject *
read_object (const char *text, size_t len)
{
  g_autoptr (JsonNode) node = pr_json_parse (text, len, NULL);
  JsonObject *object = node != NULL ? pr_json_is_object (node) : NULL;

  return object != NULL ? json_object_ref (object) : NULL;
}

PrPhoneGot
pr_phone_receive (int socket, JsonObject **object, int *file)
{
  g_autofree char *text = g_malloc (PR_PHONE_PACKET);
  struct iovec part = { text, PR_PHONE_PACKET };
  Control control;
  struct msghdr message = {
    .msg_iov = &part, .msg_iovlen = 1, .msg_control = control.room, .msg_controllen = sizeof control.room
  };
  ssize_t n = recvmsg (socket, &message, MSG_DONTWAIT | MSG_CMSG_CLOEXEC);

  *object = NULL;
  *file = -1;
  if (n < 0 && (errno == EAGAIN || errno == EINTR))
    return PR_PHONE_NOTHING;
  if (n <= 0)
    return PR_PHONE_OVER;
  *file = take_file (&message);
  if ((message.msg_flags & MSG_TRUNC) == 0)
    *object = read_object (text, (size_t) n);
  if (*object != NULL)
    return PR_PHONE_GOT;
  if (*file >= 0)
    close (*file);
  *file = -1;
  return PR_PHONE_OVER;
}
