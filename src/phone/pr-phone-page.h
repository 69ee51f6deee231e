/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the phone is shown: one page, complete in itself, in the language of the phone. */
#pragma once
#include <stdbool.h>
#include "pr-phone-store.h"
#include "pr-phone-words.h"

typedef struct {
  const PrPhoneWords *words;
  const char *nonce; /* by which its own style and script are known */
  bool shoe;         /* a shoe is to be photographed */
} PrPhonePage;

/* The page. PROBLEM: a sentence, or NULL. Transfer full. */
char *pr_phone_page (const PrPhonePage *page, const PrPhoneStore *store, const char *problem);
/* Its list of photos alone. */
char *pr_phone_page_list (const PrPhonePage *page, const PrPhoneStore *store, const char *problem);
/* For one that the screen is asked about, which shows CODE; it looks again by itself. */
char *pr_phone_page_asked (const PrPhonePage *page, const char *code);
/* SENTENCE, and nothing to do. */
char *pr_phone_page_closed (const PrPhonePage *page, const char *sentence);
