/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the document's own files share. */
#pragma once
#include "pr-document-marking.h"

typedef struct {
  PrPlan plan;
  double wall[3];
  char *order;
  PrFoot foot;
  PrLandmarks marks;
  char *traced; /* outline, scale and doubts as text (GRefString) */
} PrStep;

typedef struct _PrTake PrTake;

struct _PrDocument {
  GObject parent_instance;
  PrBook *book;
  PrBookId foot, visit, horse;
  PrJob *job; /* NULL: no foot open */
  PrUnit unit;
  GPtrArray *styles;
  GQueue undo, redo; /* of PrStep, newest at the head */
  PrStep *start;     /* of the live edit under way */
  char *tag;         /* of the newest step */
  gint64 tag_time;
  GCancellable *work; /* of the background work under way */
  double done;
  char *what;
  /* the photo (pr-document-marking.c, pr-document-photo.c) */
  PrTraceOptions asked; /* how the open foot's photo was traced */
  char *traced;         /* GRefString: what a step keeps of it; NULL: to be made anew */
  PrTracing *bare;      /* a scale, but no line; then there is no job */
  char *bare_why;
  PrMarking *marking; /* what it shows belongs to MARKING_TAKE */
  PrTake *marking_take, *pending;
  GQueue files;          /* of GFile, still to be taken */
  int n_files, nth_file; /* 0 files: not one of several */
  PrBookId files_visit;
  GString *left_over; /* names of those that could not be used */
  PrPlan usual;       /* the style on this hoof, untouched; while HAS_USUAL */
  bool has_usual;
};

/* Ends a whole edit that was begun: OK keeps it as one step, otherwise all is as it was. Returns OK. */
bool pr_document_finish (PrDocument *doc, bool ok, PrChanged what, const char *tag);
void pr_document_changed (PrDocument *doc, PrChanged what);
void pr_document_ask_foot (PrDocument *doc);
void pr_document_forget_steps (PrDocument *doc);
/* Puts JOB (transfer full) in place of what was open. */
void pr_document_put_job (PrDocument *doc, PrJob *job);
/* Outline, scale or doubts are not what they were: to be called between begin and commit. */
void pr_document_source_changed (PrDocument *doc);
/* What is kept of the tracing, with how it was asked for. Transfer full. */
char *pr_document_trace_text (PrDocument *doc);
void pr_document_read_asked (PrDocument *doc, JsonNode *trace);
void pr_document_drop_marking (PrDocument *doc);
void pr_document_drop_bare (PrDocument *doc);
/* Lays the photo under the shoe again, when that is not there. */
void pr_document_rectify_again (PrDocument *doc);
/* WHAT with "2 of 4" before it, where that is so. Transfer full. */
char *pr_document_counted (PrDocument *doc, const char *what);
void pr_document_forget_files (PrDocument *doc);
/* The chosen visit's FOOT; 0 when it has none yet. */
PrBookId pr_document_visit_foot (PrDocument *doc, PrFoot foot);
/* Emits "ask-place"; what is in TAKE waits for the answer. */
void pr_document_ask_place (PrDocument *doc, PrTake *take);
/* What changed goes into the book; a failure is told as trouble. */
void pr_document_keep_plan (PrDocument *doc);
void pr_document_keep_trace (PrDocument *doc);
/* Files a new foot with the chosen visit, or a new one. Makes horse and visit where needed. */
bool pr_document_file_foot (PrDocument *doc, PrFoot foot, const char *horse_name, GError **error);
