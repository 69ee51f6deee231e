/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loops that the compiler shares out between the lanes of a register. */
#pragma once

/* Before a function with loops over pixels or points: built a second time for processors with AVX2 and chosen when the
 * program starts. Both add and multiply in the same order, so results are the same to the last bit. Not under the
 * address sanitizer, which is not there yet when the choice is made. */
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) \
    && !defined(__SANITIZE_THREAD__)
#define PR_WIDE __attribute__ ((target_clones ("avx2", "default")))
#else
#define PR_WIDE
#endif
