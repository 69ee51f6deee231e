/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPhoneServer: serves the page to phones, takes their photos, and tells the program at the other end of the line
 * (pr-phone-packet.h) of both. Plain HTTP, at one address; nothing but the page, its parts, and photos that are sent.
 *
 * Held against RFC 9110 and RFC 7578. Every answer says no-store, nosniff and a Content-Security-Policy that lets nothing in from
 * elsewhere; there is none of CORS. */
#pragma once
#include <gio/gio.h>
#include <stdbool.h>

typedef struct _PrPhoneServer PrPhoneServer;

typedef struct {
  const char *address;
  int minutes;  /* without use, until it ends */
  char **judge; /* what each judge is told (pr-phone-judge.h), NULL-terminated */
  bool shoe;
  int line; /* socket to the program */
} PrPhoneServing;

/* LOOP is quit when it is over. FALSE: it cannot listen at that address, which the program has been told. */
bool pr_phone_serve (const PrPhoneServing *serving);
