/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers in rising order: what qsort asks of two of them. One that is no number counts as equal to any
 * other, so it stays where it falls. */
#pragma once
#include <stddef.h>

int pr_rising_float (const void *a, const void *b);
int pr_rising_double (const void *a, const void *b);
/* The one that would stand Kth, from 0, if the N numbers V were in rising order; they are moved about. None may be no
 * number. O(N), as a rule (Hoare, Algorithm 65: Find, 1961). */
float pr_rising_kth (float *v, size_t n, size_t k);
/* Where AT lies among N >= 2 numbers that rise: the index of the one before it, and in *T how far it is to the next, 0 to 1.
 * Outside of them, the nearer end. O(log N). */
size_t pr_rising_find (const double *rising, size_t n, double at, double *t);
