/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-token.h"

#include <stdint.h>
#include <sys/random.h>

#define BITS 5

bool
pr_token_make (char token[PR_TOKEN_LENGTH + 1])
{
  static const char letters[] = "abcdefghijkmnpqrstuvwxyz23456789"; /* no l, o, 0, 1 */
  uint8_t chance[PR_TOKEN_LENGTH];

  if (getrandom (chance, sizeof chance, 0) != (ssize_t) sizeof chance)
    return false;
  for (size_t i = 0; i < PR_TOKEN_LENGTH; i++)
    token[i] = letters[chance[i] & ((1 << BITS) - 1)];
  token[PR_TOKEN_LENGTH] = '\0';
  return true;
}

bool
pr_token_is (const char *token, const char *text, size_t len)
{
  volatile uint8_t differs = len != PR_TOKEN_LENGTH;

  for (size_t i = 0; i < PR_TOKEN_LENGTH; i++)
    differs |= (uint8_t) (token[i] ^ (i < len ? text[i] : 0));
  return differs == 0;
}
