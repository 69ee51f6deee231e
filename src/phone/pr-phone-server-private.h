/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parts of the server share. */
#pragma once
#include <libsoup/soup.h>
#include "pr-phone-gate.h"
#include "pr-phone-guests.h"
#include "pr-phone-page.h"
#include "pr-phone-server.h"
#include "pr-phone-upload.h"

struct _PrPhoneServer {
  const PrPhoneServing *serving;
  GMainLoop *loop;
  SoupServer *soup;
  PrPhoneGate *gate;
  PrPhoneLooks *looks;
  PrPhoneStore store;
  PrGuests guests;
  char *problem[PR_GUESTS_MOST + 1]; /* by number: what went wrong, told once; translated */
  char token[PR_TOKEN_LENGTH + 1];
  char *language; /* of the program */
  guint idle;
  gint64 told; /* when it was last told how far a photo is, monotonic us */
};

/* Somebody who may be here has asked for something. */
void pr_phone_server_used (PrPhoneServer *server);
/* Whose MSG is; NULL: nobody's. */
PrGuest *pr_phone_server_guest (PrPhoneServer *server, SoupServerMessage *msg);
/* The phone's language. Transfer full. */
char *pr_phone_server_language (SoupServerMessage *msg);
/* Answers MSG with HTML (transfer full) made for NONCE. */
void pr_phone_server_answer (SoupServerMessage *msg, guint status, char *html, const char *nonce);
/* Answers with STATUS alone. */
void pr_phone_server_status (SoupServerMessage *msg, guint status);
/* The list as GUEST is to see it, in LANGUAGE. */
void pr_phone_server_list (PrPhoneServer *server, SoupServerMessage *msg, PrGuest *guest,
                           const char *language);

/* A request's head has come: what it may send is looked at, before any of it is read (pr-phone-receive.c). */
void pr_phone_receive_begin (PrPhoneServer *server, SoupServerMessage *msg);
/* All of it has come. */
void pr_phone_receive_end (PrPhoneServer *server, SoupServerMessage *msg);
