/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the phone is shown of its photo. */
#pragma once
#include "pr-photo.h"
#include "pr-seen.h"
#include "pr-tracing.h"

#define PR_PHONE_PICTURE_WIDE 600 /* pixels at most; a phone's page at twice its own resolution */
#define PR_PHONE_PICTURE_HIGH 800

/* JPEG: the sheet seen from straight above with the line of TRACING and the edges of SEEN on it, as far as there are any; PHOTO
 * itself where TRACING (may be NULL) has no picture of the sheet. NULL: none can be made. Transfer full. */
GBytes *pr_phone_picture (const PrPhoto *photo, const PrTracing *tracing, const PrSeen *seen);
