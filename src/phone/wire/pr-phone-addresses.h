/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The addresses of this computer that a phone in the same network may reach it at, the likeliest first: of an interface with
 * hardware behind it before those of containers, bridges and tunnels; the way out (default route) before others; IPv4 before
 * IPv6. Loopback, and addresses that hold on one link only (169.254/16, fe80::/10), which a browser cannot be given, are left
 * out. */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef struct {
  char *text;      /* "192.0.2.7", "2001:db8::7" */
  char *interface; /* "eth0" */
  bool six;        /* IPv6 */
  bool hardware;   /* a device stands behind the interface */
  bool way_out;    /* it has a default route of this family */
} PrPhoneAddress;

void pr_phone_address_free (PrPhoneAddress *address);
/* Of PrPhoneAddress, transfer full; empty: this computer is in no network. PRITCHEL_PHONE_ADDRESS, addresses with commas
 * between, takes the place of what the system tells. */
GPtrArray *pr_phone_addresses (void);
/* Puts them in that order. */
void pr_phone_addresses_sort (GPtrArray *addresses);
/* The name of the interface that the lowest metric in TABLE, as /proc/net/route or (SIX) ipv6_route has it, leads everywhere
 * through; NULL: none does. Transfer full. */
char *pr_phone_way_out (const char *table, bool six);
