/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The phones that know the address. The first is let in; whoever comes after it is asked about on the screen. Each has a secret of
 * its own, which its browser sends as a cookie. */
#pragma once
#include <stdbool.h>
#include "pr-phone-token.h"

#define PR_GUESTS_MOST 8

typedef enum { PR_GUEST_IN, PR_GUEST_ASKED, PR_GUEST_REFUSED } PrGuestState;

typedef struct {
  char secret[PR_TOKEN_LENGTH + 1];
  int number;   /* from 1 */
  char code[4]; /* of three figures; the phone shows it, and so does the screen */
  PrGuestState state;
} PrGuest;

typedef struct {
  PrGuest guest[PR_GUESTS_MOST];
  int n;
} PrGuests;

/* The one whose secret COOKIES (of a request; may be NULL) hold; NULL: none. */
PrGuest *pr_guests_find (PrGuests *guests, const char *cookies);
/* Another one; NULL: there are too many. */
PrGuest *pr_guests_add (PrGuests *guests);
/* What was said on the screen. */
void pr_guests_answer (PrGuests *guests, int number, bool allowed);
/* The cookie to be set below TOKEN's path. Transfer full. */
char *pr_guest_cookie (const PrGuest *guest, const char *token);
