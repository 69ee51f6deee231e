/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPhoneGate: who may come as far as the server. Listens at one address and a port of chance; lets in only requests for GET or
 * POST below the token's path whose head has come whole, so that what libsoup reads is bounded; all others are answered here.
 * At most PR_GATE_MOST connections are open at a time; more wait in the system's queue, and one that has not asked for
 * anything yet makes room for them. Each is for one request and is shut when its time is over. */
#pragma once
#include <gio/gio.h>
#include <stdbool.h>

#define PR_GATE_MOST 4
#define PR_GATE_HEAD 8192      /* bytes of a request's head */
#define PR_GATE_HEAD_SECONDS 8 /* until it has come */
#define PR_GATE_IDLE_SECONDS 20
#define PR_GATE_WORK_SECONDS 180 /* for what has come to be looked at */
#define PR_GATE_MOST_SECONDS 1800

typedef struct _PrPhoneGate PrPhoneGate;

/* CONNECTION's request is to be read; it comes from THERE, by which it is known to the gate. */
typedef void (*PrPhoneEntered) (GSocketConnection *connection, GSocketAddress *there, gpointer data);

/* TOKEN must live as long. NULL with error: nothing can be bound to ADDRESS. Transfer full. */
PrPhoneGate *pr_phone_gate_new (const char *address, const char *token, PrPhoneEntered entered, gpointer data,
                                GError **error);
void pr_phone_gate_free (PrPhoneGate *gate);
/* "192.0.2.7:40123", "[2001:db8::7]:40123": what a request's Host must be. */
const char *pr_phone_gate_host (const PrPhoneGate *gate);
/* Whoever is THERE has this long from now; never longer than PR_GATE_MOST_SECONDS in all. */
void pr_phone_gate_give (PrPhoneGate *gate, GSocketAddress *there, int seconds);
/* Answers with STATUS ("404 Not Found") whatever is still to come, and shuts it. */
void pr_phone_gate_refuse (PrPhoneGate *gate, GSocketAddress *there, const char *status);
