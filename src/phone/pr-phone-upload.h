/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPhoneUpload: the photos of one request, on their way from its form into files without names. */
#pragma once
#include "pr-phone-form.h"
#include "pr-phone-store.h"

typedef struct {
  int file;
  gsize length;
  bool whole; /* all of it has come */
} PrPhoneSent;

typedef struct {
  PrPhoneForm *form;
  GArray *sent;               /* PrPhoneSent; whoever takes its file leaves -1 */
  int again;                  /* the photo they take the place of; 0: none */
  char key[PR_STORE_KEY + 1]; /* "" */
  const char *problem;        /* the first, to be translated; NULL: none */
} PrPhoneUpload;

/* NULL: BOUNDARY is none. Transfer full. */
PrPhoneUpload *pr_phone_upload_new (const char *boundary);
void pr_phone_upload_free (PrPhoneUpload *upload);
void pr_phone_upload_feed (PrPhoneUpload *upload, const char *bytes, gsize n);
/* All has come. */
void pr_phone_upload_end (PrPhoneUpload *upload);
