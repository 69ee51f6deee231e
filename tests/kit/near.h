/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The test library, and what it lacks. */
#pragma once
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#define NEAR(a, b, tol)                                                          \
  do {                                                                           \
    double near_a = (a), near_b = (b), near_tol = (tol);                         \
    if (!(fabs (near_a - near_b) <= near_tol))                                   \
      fail_msg ("%s is %.9g, not %.9g within %g", #a, near_a, near_b, near_tol); \
  } while (0)
