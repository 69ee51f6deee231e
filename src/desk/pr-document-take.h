/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One piece of background work on a photo: its orders, then what came of it. */
#pragma once
#include "pr-document-private.h"
#include "pr-photo.h"

typedef enum {
  PR_TAKE_TRACE,   /* scale and line */
  PR_TAKE_LOOK,    /* only decode it */
  PR_TAKE_RECTIFY, /* fill the raster of TRACING again */
} PrTakeKind;

struct _PrTake {
  PrTakeKind kind;
  GFile *file; /* read when BYTES is NULL */
  GBytes *bytes;
  char *name;
  PrFoot foot;
  char *horse_name;
  PrBookId into; /* the foot of the book it belongs to; 0: a new one */
  bool again;    /* INTO's photo once more, not another one */
  PrTraceOptions options;
  bool placed; /* where it goes was asked already */
  /* what came of it */
  PrPhoto *photo;
  PrTracing *tracing; /* without an outline when no line was found; NULL: no scale */
  char *why;          /* what was not found */
  double told;
};

PrTake *pr_take_new (PrTakeKind kind);
void pr_take_free (PrTake *take);
/* All of it, as something of its own; an empty one stays behind. Transfer full. */
PrTake *pr_take_steal (PrTake *take);
/* The same orders once more, to be carried out with other options. Transfer full. */
PrTake *pr_take_again (const PrTake *take, const PrTraceOptions *options);
/* Starts TAKE (transfer full) in a thread, in place of what was under way; READY finds it as the
 * task's data. */
void pr_document_start_work (PrDocument *doc, PrTake *take, const char *what, GAsyncReadyCallback ready);
/* TRUE when TASK is still the work wanted; it is then over. */
bool pr_document_end_work (PrDocument *doc, GTask *task);

/* What is done with a photo that is ready: filed as a new foot, or put into the one it belongs to. */
bool pr_document_put_take (PrDocument *doc, PrTake *take, GError **error);
/* A traced photo for a foot that is there already. */
bool pr_document_put_again (PrDocument *doc, PrTake *take, GError **error);
/* TAKE's scale is to be marked; takes it over (transfer full). */
void pr_document_put_marking (PrDocument *doc, PrTake *take);
/* The photo of the open foot from the book, to be worked on once more; NULL when there is none. */
PrTake *pr_document_take_kept (PrDocument *doc, PrTakeKind kind);
/* A plan for the hoof of JOB: the one last made for this foot, else the plain style's. */
bool pr_document_first_plan (PrDocument *doc, PrJob *job, bool same_horse, GError **error);
/* The callback of PR_TAKE_TRACE. */
void pr_document_photo_ready (GObject *source, GAsyncResult *result, gpointer data);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrTake, pr_take_free)
