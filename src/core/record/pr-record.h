/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A foot's sources to and from the book. The book keeps four parts of a foot: the photo as taken, the trace
 * (scale, outline, doubts, landmarks, entered walls, how the photo was traced) and the plan (with the order
 * of work) as JSON text, and which foot it is. */
#pragma once
#include "pr-book.h"
#include "pr-job.h"

typedef struct {
  PrBookId visit, horse;
  bool outline; /* a hoof was made of it */
  bool plan;    /* a plan was read; else JOB's is at its normal values */
  bool photo;   /* the book has one */
} PrRecord;

/* Fills JOB, which must be new, with what the book has of FOOT; its unit may be set. With outline and plan
 * all that follows is made, too. FALSE with an error (PR_ERROR_BOOK, PR_ERROR_INPUT) when there is no
 * such foot, or when it has an outline that cannot be used. RECORD (may be NULL) is cleared first. */
bool pr_record_read (PrBook *book, PrBookId foot, PrJob *job, PrRecord *record, GError **error);
/* The hoof alone of a foot, for a list of many. OUT is cleared first. FALSE with an error, as above. */
bool pr_record_hoof (PrBook *book, PrBookId foot, PrHoof *out, GError **error);
/* PARTS of JOB as one change of the book. */
bool pr_record_keep (PrBook *book, PrBookId foot, const PrJob *job, PrParts parts, GError **error);
/* The plan alone of a foot, for the next shoe. FALSE where there is none that can be read. */
bool pr_record_plan (PrBook *book, PrBookId foot, PrPlan *plan);
/* The foot FOOT of VISIT (0: none) that has any of PARTS (photo, trace, plan); 0 when there is none. */
PrBookId pr_record_find (PrBook *book, PrBookId visit, PrFoot foot, PrParts parts);
/* The newest foot FOOT of HORSE that has a plan, in visits older than BEFORE (0: in all); 0: none. */
PrBookId pr_record_earlier (PrBook *book, PrBookId horse, PrBookId before, PrFoot foot);
