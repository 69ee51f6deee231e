/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPhoneRow: a photo that came from a phone, with its verdict. Signal "left-out": it is not wanted. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"
#include "pr-phone.h"

#define PR_TYPE_PHONE_ROW (pr_phone_row_get_type ())
G_DECLARE_FINAL_TYPE (PrPhoneRow, pr_phone_row, PR, PHONE_ROW, GtkBox)

/* PHOTO's bytes stay in the file they came in, which is taken (closed) here. */
PrPhoneRow *pr_phone_row_new (const PrPhonePhoto *photo);
int pr_phone_row_id (PrPhoneRow *row);
/* It will not do. */
bool pr_phone_row_is_bad (PrPhoneRow *row);
/* Transfer none, good as long as the row; NULL: its bytes cannot be had. */
const PrReceived *pr_phone_row_photo (PrPhoneRow *row);
