/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrBookBanner: stands above everything for as long as something is wrong with the book: its file was taken away, or
 * the program ended while a foot was being opened. Offers the ways on. It also asks before the window it is in is
 * closed over what is in memory only, and tells the document when a foot has been drawn. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_BOOK_BANNER (pr_book_banner_get_type ())
G_DECLARE_FINAL_TYPE (PrBookBanner, pr_book_banner, PR, BOOK_BANNER, PrFollower)
