/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers in rising order: what qsort asks of two of them. One that is no number counts as equal to any
 * other, so it stays where it falls. */
#pragma once

int pr_rising_float (const void *a, const void *b);
int pr_rising_double (const void *a, const void *b);
