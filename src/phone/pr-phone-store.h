/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The photos that have come, each in a file without a name, and what came of them. */
#pragma once
#include <glib.h>
#include <stdbool.h>
#include "pr-phone-look.h"

#define PR_STORE_MOST 20
#define PR_STORE_BYTES ((gsize) 256 << 20) /* of one photo */
#define PR_STORE_KEY 40

typedef struct {
  int id, instead; /* from 1; the one whose place it took, 0: none */
  int file;
  char key[PR_STORE_KEY + 1]; /* by which the phone knows it again; "" */
  PrPhoneLook look;
} PrPhoneKept;

typedef struct {
  GPtrArray *kept; /* of PrPhoneKept, the oldest first */
  int last;
} PrPhoneStore;

void pr_phone_store_init (PrPhoneStore *store);
void pr_phone_store_clear (PrPhoneStore *store);
/* NULL: none has that ID, or that KEY, which is not "". */
PrPhoneKept *pr_phone_store_find (PrPhoneStore *store, int id);
PrPhoneKept *pr_phone_store_find_key (PrPhoneStore *store, const char *key);
/* Is there room for another one, in the place of INSTEAD if there is such a one? */
bool pr_phone_store_has_room (PrPhoneStore *store, int instead);
/* FILE is taken, and so is what LOOK holds. The one called INSTEAD goes. NULL: there is no room, or its KEY is there already. */
PrPhoneKept *pr_phone_store_add (PrPhoneStore *store, int file, const char *key, int instead,
                                 PrPhoneLook *look);

/* A file without a name, to be written and read. -1: none can be made. */
int pr_phone_store_file (void);
