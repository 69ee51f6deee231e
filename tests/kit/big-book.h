/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Books as large as a long working life makes them, the same for the same seed: names, yards, owners and notes of words that are
 * nobody's, in several scripts; each foot with an outline, a plan and, if asked for, a photo. */
#pragma once
#include "pr-book.h"

typedef struct {
  guint32 seed;
  int horses, visits; /* of each horse, six weeks apart */
  int feet;           /* of each visit, 0..4 */
  int photos;         /* in all, of the feet that come last */
  gsize photo_bytes;  /* of each */
} KitBigBook;

/* 10,000 horses, 60,000 feet. */
#define KIT_BIG_BOOK                                    \
  {                                                     \
    .seed = 17, .horses = 10000, .visits = 3, .feet = 2 \
  }
/* One horse that comes for 57 years: 500 visits, 2,000 photos. */
#define KIT_OLD_HORSE                                                                        \
  {                                                                                          \
    .seed = 18, .horses = 1, .visits = 500, .feet = 4, .photos = 2000, .photo_bytes = 100000 \
  }

/* Adds to BOOK, in one transaction. The foot that was added last; asserts that all went in. */
PrBookId kit_big_book (PrBook *book, const KitBigBook *how);
/* One of the names, yards, owners or notes as the book has them. Transfer full. */
char *kit_big_words (GRand *rand, int words);
