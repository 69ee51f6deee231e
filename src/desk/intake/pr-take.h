/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrTake: one piece of work on a photo, done off the main thread: its orders, then what came of it. Knows
 * nothing of who asked for it. */
#pragma once
#include <gio/gio.h>
#include "pr-book.h"
#include "pr-seen-find.h"
#include "pr-trace.h"

typedef enum {
  PR_TAKE_TRACE,    /* scale and line */
  PR_TAKE_LOOK,     /* only decode it */
  PR_TAKE_RECTIFY,  /* fill the raster of TRACING again */
  PR_TAKE_SHOE,     /* a forged shoe instead of a tracing, and the sheet it lies on */
  PR_TAKE_SPECIMEN, /* the same, the sheet raised to its upper face: it is to be forged again */
} PrTakeKind;

typedef struct {
  PrTakeKind kind;
  GFile *file; /* read when BYTES is NULL */
  GBytes *bytes;
  char *name;
  PrFoot foot;
  char *horse_name;
  PrBookId into; /* the foot of the book it belongs to; 0: a new one */
  bool again;    /* INTO's photo once more, not another one */
  PrTraceOptions options;
  PrSeenOptions how; /* the shoe lies */
  bool placed;       /* where it goes was asked already */
  /* what came of it */
  PrPhoto *photo;
  PrTracing *tracing; /* without an outline when no line was found; NULL: no scale */
  PrSeen seen;
  char *why; /* what was not found */
} PrTake;

PrTake *pr_take_new (PrTakeKind kind);
/* The same of FILE, with its own name; of BYTES. */
PrTake *pr_take_of_file (PrTakeKind kind, GFile *file);
PrTake *pr_take_of_bytes (PrTakeKind kind, GBytes *bytes, const char *name);
void pr_take_free (PrTake *take);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrTake, pr_take_free)
/* The same orders once more, to be carried out with other options. Transfer full. */
PrTake *pr_take_again (const PrTake *take, const PrTraceOptions *options);
/* The foot it is for: as ordered, else as its sheet tells. */
PrFoot pr_take_foot (const PrTake *take);

/* DONE 0..1, WHAT a translated word. Called on the main thread, and not once CANCELLABLE is cancelled. */
typedef void (*PrTakeTold) (double done, const char *what, gpointer data);
/* Carries TAKE (transfer full) out in a thread; READY is called on the main thread, always. DATA must live
 * until then. */
void pr_take_run (PrTake *take, GCancellable *cancellable, PrTakeTold told, GAsyncReadyCallback ready,
                  gpointer data);
/* In READY: TAKE (transfer full) comes back, whether it was carried out or not. */
bool pr_take_run_finish (GAsyncResult *result, PrTake **take, GError **error);
