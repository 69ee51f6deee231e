/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book of its own in a folder that goes again. */
#pragma once
#include "pr-book.h"

typedef struct {
  char *folder, *file;
  PrBook *book;                /* at FILE, empty */
  PrBookId horse, visit, foot; /* for what a test puts into it */
} KitShelf;

/* For cmocka: *STATE is a KitShelf. */
int kit_shelf_set_up (void **state);
int kit_shelf_tear_down (void **state);
