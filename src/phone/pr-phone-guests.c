/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-guests.h"

#include <glib.h>
#include <string.h>

#define COOKIE "pritchel="
#define MOST_COOKIES 16

static PrGuest *
guest_with (PrGuests *guests, const char *secret, size_t len)
{
  PrGuest *found = NULL;

  for (int i = 0; i < guests->n; i++)
    if (pr_token_is (guests->guest[i].secret, secret, len))
      found = &guests->guest[i];
  return found;
}

/* RFC 6265, 4.2.1: pairs with semicolons between. */
PrGuest *
pr_guests_find (PrGuests *guests, const char *cookies)
{
  g_auto (GStrv) pairs = g_strsplit (cookies != NULL ? cookies : "", ";", MOST_COOKIES);
  PrGuest *found = NULL;

  for (int i = 0; pairs[i] != NULL && found == NULL; i++) {
    const char *pair = g_strstrip (pairs[i]);
    if (g_str_has_prefix (pair, COOKIE))
      found = guest_with (guests, pair + strlen (COOKIE), strlen (pair) - strlen (COOKIE));
  }
  return found;
}

static bool
code_is_taken (const PrGuests *guests, const char *code)
{
  for (int i = 0; i < guests->n; i++)
    if (strcmp (guests->guest[i].code, code) == 0)
      return true;
  return false;
}

PrGuest *
pr_guests_add (PrGuests *guests)
{
  PrGuest *guest = guests->n < PR_GUESTS_MOST ? &guests->guest[guests->n] : NULL;
  char code[12];

  if (guest == NULL || !pr_token_make (guest->secret))
    return NULL;
  do
    g_snprintf (code, sizeof code, "%03d", g_random_int_range (100, 1000));
  while (code_is_taken (guests, code));
  g_strlcpy (guest->code, code, sizeof guest->code);
  guest->state = guests->n == 0 ? PR_GUEST_IN : PR_GUEST_ASKED;
  guest->number = ++guests->n;
  return guest;
}

void
pr_guests_answer (PrGuests *guests, int number, bool allowed)
{
  if (number >= 1 && number <= guests->n && guests->guest[number - 1].state == PR_GUEST_ASKED)
    guests->guest[number - 1].state = allowed ? PR_GUEST_IN : PR_GUEST_REFUSED;
}

char *
pr_guest_cookie (const PrGuest *guest, const char *token)
{
  return g_strdup_printf (COOKIE "%s; Path=/%s/; HttpOnly; SameSite=Strict", guest->secret, token);
}
