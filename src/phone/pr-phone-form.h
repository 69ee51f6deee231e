/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPhoneForm: what a form sends (multipart/form-data: RFC 7578, RFC 2046 5.1), taken apart as it comes. Holds no more of it than
 * one head of a part, or one line; names of files are looked at for whether there is one and never kept. */
#pragma once
#include <glib.h>
#include <stdbool.h>

#define PR_FORM_HEAD 4096 /* bytes of a part's head at most */
#define PR_FORM_PARTS 64
#define PR_FORM_VALUE 64 /* bytes of a field that is no file */

typedef struct {
  /* A file begins, goes on, ends. FALSE: no more of it is wanted, and the form is at fault. */
  bool (*begin) (gpointer data);
  bool (*bytes) (const char *bytes, gsize n, gpointer data);
  bool (*end) (gpointer data);
  /* NAME is UTF-8, and so is VALUE. */
  void (*field) (const char *name, const char *value, gpointer data);
  gpointer data;
} PrPhoneFormOwner;

typedef struct _PrPhoneForm PrPhoneForm;

/* NULL: BOUNDARY (may be NULL) is none (RFC 2046, 5.1.1). Transfer full. */
PrPhoneForm *pr_phone_form_new (const char *boundary, const PrPhoneFormOwner *owner);
void pr_phone_form_free (PrPhoneForm *form);
/* FALSE, from then on: it is no such form, or its owner wants no more. */
bool pr_phone_form_feed (PrPhoneForm *form, const char *bytes, gsize n);
/* Its last line has come. */
bool pr_phone_form_is_whole (const PrPhoneForm *form);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrPhoneForm, pr_phone_form_free)
