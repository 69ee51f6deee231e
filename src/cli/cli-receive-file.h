/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file that comes without a name, kept under one of ours. */
#pragma once
#include <glib.h>

/* Copies FILE, from its start, into FOLDER as "photo-N.ENDING", N the first number from *NUMBER on under which nothing stands
 * there; *NUMBER is the one behind it then. Whole or not there. Its path, transfer full; NULL with error. */
char *cli_receive_keep (int file, const char *folder, const char *ending, int *number, GError **error);
