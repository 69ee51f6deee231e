/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Errors the world can cause. Each message is one sentence for the person at the
 * anvil: what is wrong and what to do next. It is worded where the error is found
 * and passed on unchanged. What only our own code can cause is an assertion. */
#pragma once
#include <glib.h>

#define PR_ERROR (pr_error_quark ())
GQuark pr_error_quark (void);

typedef enum {
  PR_ERROR_INPUT,   /* a value or an argument that cannot be used */
  PR_ERROR_FILE,    /* a file that cannot be read or written */
  PR_ERROR_PICTURE, /* bytes that are not a picture we can decode */
  PR_ERROR_SCALE,   /* nothing in the photo gives a trustworthy scale */
  PR_ERROR_LINE,    /* no hoof line found */
  PR_ERROR_SHAPE,   /* the plan gives no figure that could be forged */
  PR_ERROR_BOOK,    /* the book is not ours, newer, locked or damaged */
} PrError;
