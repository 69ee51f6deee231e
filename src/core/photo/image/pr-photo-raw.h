/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers in a file's bytes. What lies beyond the end reads as 0, so that a place is looked at without asking
 * first whether it is there. */
#pragma once
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

typedef struct {
  const uint8_t *p;
  size_t len;
  bool big; /* most significant byte first */
} PrRaw;

/* Whether N bytes lie at AT. */
static inline bool
pr_raw_has (const PrRaw *raw, size_t at, size_t n)
{
  return at <= raw->len && raw->len - at >= n;
}

/* The number of N bytes at AT, at most 4. */
static inline uint32_t
pr_raw_get (const PrRaw *raw, size_t at, int n)
{
  uint32_t v = 0;

  if (!pr_raw_has (raw, at, (size_t) n))
    return 0;
  for (int i = 0; i < n; i++)
    v |= (uint32_t) raw->p[at + (size_t) i] << 8 * (raw->big ? n - 1 - i : i);
  return v;
}

/* Whether the N bytes of WORD lie at AT. */
static inline bool
pr_raw_is (const PrRaw *raw, size_t at, const char *word, size_t n)
{
  return pr_raw_has (raw, at, n) && memcmp (raw->p + at, word, n) == 0;
}
