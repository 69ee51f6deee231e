/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Secrets of 128 bits, as 26 letters and digits (base 32) that a person can type: none looks like another. */
#pragma once
#include <stdbool.h>
#include <stddef.h>

#define PR_TOKEN_LENGTH 26 /* 5 bits each */

/* TOKEN ends with a zero. FALSE: the system gives no chance numbers; there is no secret then. */
bool pr_token_make (char token[PR_TOKEN_LENGTH + 1]);
/* Is TEXT, of LEN bytes, TOKEN? Takes as long whichever letter is wrong. */
bool pr_token_is (const char *token, const char *text, size_t len);
