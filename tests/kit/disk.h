/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A disk that fails: what SQLite asks of the system in this process goes through here (its own xSetSystemCall), and fails from some
 * call on. Linked by tests that ask for it. */
#pragma once
#include <stdbool.h>

typedef enum {
  KIT_DISK_SOUND,
  KIT_DISK_FULL,   /* no file grows and none is made (ENOSPC); what is there can be written over */
  KIT_DISK_KILLED, /* the process ends there as with kill -9, before any call that changes a file */
  KIT_DISK_GONE,   /* everything fails (EIO), as on another machine's share that is no longer reached */
} KitDisk;

/* From now on calls are counted, and the disk is as HOW after N of them. */
void kit_disk_is (KitDisk how, int n);
/* Did any call fail since then? */
bool kit_disk_failed (void);
