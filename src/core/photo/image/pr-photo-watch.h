/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrWatch: whether work on a photo may go on, and who is told how far it is. */
#pragma once
#include <gio/gio.h>
#include <stdbool.h>

typedef enum {
  PR_FAULT_NONE,
  PR_FAULT_STOPPED, /* its cancellable was cancelled */
  PR_FAULT_TIME,
  PR_FAULT_MEMORY,
  PR_FAULT_DAMAGED,
  PR_FAULT_SIZE,      /* not the size its head told, or one that is refused */
  PR_FAULT_NO_LOADER, /* this system has none for its format */
  PR_FAULT_NO_HELPER, /* pritchel-decode cannot be started */
} PrFault;

typedef struct {
  GCancellable *cancellable; /* or NULL */
  gint64 until;              /* g_get_monotonic_time */
  /* or NULL: the N bytes at FROM are not needed any more */
  void (*passed) (const uint8_t *from, size_t n);
} PrWatch;

static inline PrFault
pr_watch_look (const PrWatch *watch)
{
  if (g_cancellable_is_cancelled (watch->cancellable))
    return PR_FAULT_STOPPED;
  return g_get_monotonic_time () > watch->until ? PR_FAULT_TIME : PR_FAULT_NONE;
}
