/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Folders that go again. */
#pragma once
#include <glib.h>

/* A new folder below the one for temporary files. Transfer full. */
char *kit_folder (void);
/* Takes FOLDER with all in it away, also where nobody may write to it any more, and frees the name. */
void kit_folder_gone (char *folder);
