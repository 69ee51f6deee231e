/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the document's own files share. */
#pragma once
#include "pr-document.h"

typedef struct {
  PrPlan      plan;
  PrFoot      foot;
  PrLandmarks marks;
} PrStep;

struct _PrDocument {
  GObject       parent_instance;
  PrBook       *book;
  PrBookId      foot, visit, horse;
  PrJob        *job;               /* NULL: no foot open */
  PrUnit        unit;
  GPtrArray    *styles;
  GQueue        undo, redo;        /* of PrStep, newest at the head */
  PrStep       *start;             /* of the live edit under way */
  char         *tag;               /* of the newest step */
  gint64        tag_time;
  GCancellable *work;              /* of the background work under way */
  double        done;
  char         *what;
};

void pr_document_changed (PrDocument *doc, PrChanged what);
void pr_document_ask_foot (PrDocument *doc);
void pr_document_forget_steps (PrDocument *doc);
/* Puts JOB (transfer full) in place of what was open. */
void pr_document_put_job (PrDocument *doc, PrJob *job);
/* What changed goes into the book; a failure is told as trouble. */
void pr_document_keep_plan (PrDocument *doc);
void pr_document_keep_trace (PrDocument *doc);
/* Files a new foot with the chosen visit, or a new one. Makes horse and visit where needed. */
bool pr_document_file_foot (PrDocument *doc, PrFoot foot, const char *horse_name, GError **error);
