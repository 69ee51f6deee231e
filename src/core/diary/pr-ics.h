/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is due as a calendar: RFC 5545, one all-day event a horse. Lines end in CRLF and are folded at 75 octets between
 * characters. A horse's event has the same UID each time, so that a calendar that takes the file again moves it. */
#pragma once
#include "pr-book-diary.h"

/* DUE: of PrBookDue. BOOK: an id of the book's own, for the UIDs. NOW: when it is written. UTF-8, transfer full. */
char *pr_ics_due (const GPtrArray *due, const char *book, GDateTime *now);
