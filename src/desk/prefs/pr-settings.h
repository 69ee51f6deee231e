/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person prefers on this desk, whichever book is open: GSettings, org.pritchel.Pritchel.
 *
 * The schema is taken from where the desktop has its schemas, else from the program's own folder (as
 * built: data; as installed: ../share/glib-2.0/schemas). One that lacks a key of ours is passed over.
 * Without any, what is set lasts until the program ends, and nothing else is different.
 *
 * One for the process, made when first asked for. For the main thread. */
#pragma once
#include <gio/gio.h>
#include "pr-book.h"
#include "pr-foot.h"
#include "pr-length.h"

char *pr_settings_string (const char *key); /* transfer full */
double pr_settings_double (const char *key);
int pr_settings_int (const char *key);
bool pr_settings_bool (const char *key);
/* Takes a floating VALUE over; what stands already is not written again. One outside the key's range, or of
 * another type, is not kept; FALSE then. */
bool pr_settings_keep (const char *key, GVariant *value);
/* "unit", with the region's where that is left to the region. */
PrUnit pr_settings_unit (void);
PrSides pr_settings_sides (void); /* "sides" */

/* Preferences that stand in BOOK as earlier versions kept them there move over, each unless it has been
 * chosen here already. Does nothing the second time. BOOK may be NULL. */
void pr_settings_take_over (PrBook *book);
/* Waits until everything is written, and forgets: the next call starts anew. */
void pr_settings_end (void);
/* FALSE: no schema was found. */
bool pr_settings_are_kept (void);
